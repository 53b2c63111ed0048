/* Unsaved work: kept whole, found again when nobody is at it, and never mistaken. */
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../folders.h"
#include "formats/kept-work.h"
#include "formats/scene-file.h"
#include "scene-texts.h"

typedef struct
{
  char *folder;
  HwSnapshot *scene;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hw-kept-XXXXXX", NULL);
  f->scene = accepted (full);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  folder_remove (f->folder);
  g_free (f->folder);
  hw_snapshot_unref (f->scene);
}

static guint
count_left (Fixture *f)
{
  g_autoptr (GPtrArray) left = hw_left_work_list (f->folder);

  return left->len;
}

static void
work_in_hand_is_not_left (Fixture *f, gconstpointer data)
{
  g_autoptr (HwWorkPlace) place = hw_work_place_new (f->folder, NULL);

  g_assert_true (hw_work_place_keep (place, f->scene, NULL, NULL, 1000, NULL));
  g_assert_cmpuint (count_left (f), ==, 0);
  g_clear_pointer (&place, hw_work_place_free);
  g_assert_cmpuint (count_left (f), ==, 1);
}

static void
left_work_comes_back_whole (Fixture *f, gconstpointer data)
{
  g_autoptr (HwWorkPlace) place = hw_work_place_new (f->folder, NULL);
  g_autoptr (GPtrArray) left = NULL;
  g_autoptr (HwSnapshot) again = NULL;
  g_autofree char *text = hw_scene_file_text (f->scene);
  const HwLeftWork *work;

  hw_work_place_keep (place, f->scene, "/harbour/\"quay\"\n.hoopscene", "/harbour", 1000, NULL);
  g_clear_pointer (&place, hw_work_place_free);
  left = hw_left_work_list (f->folder);
  g_assert_cmpuint (left->len, ==, 1);
  work = g_ptr_array_index (left, 0);
  g_assert_cmpstr (work->name, ==, f->scene->name);
  g_assert_cmpstr (work->path, ==, "/harbour/\"quay\"\n.hoopscene");
  g_assert_cmpstr (work->folder, ==, "/harbour");
  g_assert_cmpint (work->kept, ==, 1000);
  again = hw_left_work_read (work, NULL);
  g_assert_nonnull (again);
  g_autofree char *text_again = hw_scene_file_text (again);
  g_assert_cmpstr (text_again, ==, text);
  hw_left_work_remove (work);
  g_assert_cmpuint (count_left (f), ==, 0);
}

static void
the_newest_comes_first_and_tells_whether_the_file_is_newer (Fixture *f, gconstpointer data)
{
  g_autofree char *saved = g_build_filename (f->folder, "saved.hoopscene", NULL);
  g_autoptr (GPtrArray) left = NULL;
  const gint64 now = g_get_real_time () / G_USEC_PER_SEC;
  const gint64 times[] = { 1000, now + 100 };

  g_file_set_contents (saved, "{}", -1, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    {
      g_autoptr (HwWorkPlace) place = hw_work_place_new (f->folder, NULL);

      hw_work_place_keep (place, f->scene, saved, f->folder, times[i], NULL);
    }
  left = hw_left_work_list (f->folder);
  g_assert_cmpuint (left->len, ==, 2);
  g_assert_cmpint (((HwLeftWork *)left->pdata[0])->kept, ==, now + 100);
  g_assert_true (((HwLeftWork *)left->pdata[0])->newer);
  g_assert_false (((HwLeftWork *)left->pdata[1])->newer);
}

static void
cleared_work_is_gone (Fixture *f, gconstpointer data)
{
  g_autoptr (HwWorkPlace) place = hw_work_place_new (f->folder, NULL);

  hw_work_place_keep (place, f->scene, NULL, NULL, 1000, NULL);
  hw_work_place_clear (place);
  g_clear_pointer (&place, hw_work_place_free);
  g_assert_cmpuint (count_left (f), ==, 0);
}

/* The work of somebody else says where it would be saved over something of this person's. */
static void
what_another_left_is_not_opened (Fixture *f, gconstpointer data)
{
  g_autoptr (HwWorkPlace) place = hw_work_place_new (f->folder, NULL);
  g_autofree char *elsewhere = g_build_filename (g_get_tmp_dir (), "hw-work-of-another", NULL);
  g_autofree char *mine = NULL;
  g_autofree char *text = NULL;

  hw_work_place_keep (place, f->scene, NULL, NULL, 1000, NULL);
  g_clear_pointer (&place, hw_work_place_free);
  {
    g_autoptr (GPtrArray) left = hw_left_work_list (f->folder);

    g_assert_cmpuint (left->len, ==, 1);
    mine = g_strdup (((HwLeftWork *)left->pdata[0])->file);
  }
  g_assert_true (g_file_get_contents (mine, &text, NULL, NULL));
  g_assert_true (g_file_set_contents (elsewhere, text, -1, NULL));
  g_assert_cmpint (g_unlink (mine), ==, 0);
  g_assert_cmpint (symlink (elsewhere, mine), ==, 0);
  g_assert_cmpuint (count_left (f), ==, 0);
  g_assert_cmpint (g_unlink (mine), ==, 0);
  g_assert_cmpint (mkfifo (mine, 0600), ==, 0);
  g_assert_cmpuint (count_left (f), ==, 0);
  g_assert_cmpint (g_unlink (mine), ==, 0);
  g_assert_cmpint (g_rename (elsewhere, mine), ==, 0);
  g_assert_cmpuint (count_left (f), ==, 1);
  if (geteuid () == 0) /* nobody else can give a file away */
    {
      g_assert_cmpint (chown (mine, 65534, 65534), ==, 0);
      g_assert_cmpuint (count_left (f), ==, 0);
    }
  g_assert_cmpint (g_unlink (mine), ==, 0);
}

/* A lock that leads elsewhere is neither made there nor taken. */
static void
a_lock_does_not_lead_elsewhere (Fixture *f, gconstpointer data)
{
  g_autoptr (HwWorkPlace) place = hw_work_place_new (f->folder, NULL);
  g_autofree char *elsewhere = g_build_filename (f->folder, "elsewhere", NULL);
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  g_autofree char *lock = NULL;
  const char *name;

  hw_work_place_keep (place, f->scene, NULL, NULL, 1000, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".lock"))
      lock = g_build_filename (f->folder, name, NULL);
  g_assert_nonnull (lock);
  g_assert_cmpint (g_unlink (lock), ==, 0);
  g_assert_cmpint (symlink (elsewhere, lock), ==, 0);
  g_assert_cmpuint (count_left (f), ==, 0);
  g_assert_false (g_file_test (elsewhere, G_FILE_TEST_EXISTS));
}

/* The lock of a process that was killed goes with it. */
static void
work_of_a_killed_process_is_left (Fixture *f, gconstpointer data)
{
  int ready[2];
  char byte;

  g_assert_cmpint (pipe (ready), ==, 0);
  pid_t child = fork ();
  if (child == 0)
    {
      HwWorkPlace *place = hw_work_place_new (f->folder, NULL);

      if (!hw_work_place_keep (place, f->scene, NULL, NULL, 1000, NULL) || write (ready[1], "k", 1) != 1)
        _exit (1);
      for (;;)
        pause ();
    }
  g_assert_cmpint (read (ready[0], &byte, 1), ==, 1);
  g_assert_cmpuint (count_left (f), ==, 0);
  kill (child, SIGKILL);
  waitpid (child, NULL, 0);
  g_assert_cmpuint (count_left (f), ==, 1);
  close (ready[0]);
  close (ready[1]);
}

static void
what_is_no_work_is_passed_over_or_refused_in_a_sentence (Fixture *f, gconstpointer data)
{
  static const char *const contents[] = {
    "",
    "{}",
    "{}\n",
    "not JSON\n{}",
    "{\"format\": \"hoopwright-kept-work\", \"version\": 2}\n{}",
    "{\"format\": \"hoopwright-kept-work\", \"version\": 1}\n{\"format\": \"hoopwri",
    "[1]\n",
    "{\"format\": \"hoopwright-kept-work\", \"version\": 1, \"kept\": \"x\", \"name\": 3}\n",
  };
  g_autoptr (GPtrArray) left = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (contents); i++)
    {
      g_autofree char *name = g_strdup_printf ("%u.hoopwork", i);
      g_autofree char *path = g_build_filename (f->folder, name, NULL);

      g_file_set_contents (path, contents[i], -1, NULL);
    }
  left = hw_left_work_list (f->folder);
  g_assert_cmpuint (left->len, ==, 2);
  for (guint i = 0; i < left->len; i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hw_left_work_read (left->pdata[i], &error));
      g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_READ);
      g_assert_cmpuint (strlen (error->message), >, 20);
      g_assert_null (strchr (error->message, '\n'));
    }
}

static void
a_place_that_cannot_be_is_told (Fixture *f, gconstpointer data)
{
  g_autofree char *file = g_build_filename (f->folder, "file", NULL);
  g_autofree char *inside = g_build_filename (file, "folder", NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (file, "", 0, NULL);
  g_assert_null (hw_work_place_new (inside, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOTDIR);
  g_assert_nonnull (strstr (error->message, inside));
}

/* Between the look and the reading: cut off, or gone. A scene that never had a name has none in the sentence; where nothing was ever kept nothing is left. */
static void
what_changes_after_it_was_found_is_told (Fixture *f, gconstpointer data)
{
  g_autofree char *nowhere = g_build_filename (f->folder, "nowhere", NULL);
  g_autoptr (GPtrArray) none = hw_left_work_list (nowhere), left = NULL;
  g_autoptr (HwSnapshot) nameless = hw_snapshot_copy (f->scene);
  HwWorkPlace *place = hw_work_place_new (f->folder, NULL);
  g_autoptr (GError) cut = NULL, gone = NULL;
  const HwLeftWork *work;

  g_assert_cmpuint (none->len, ==, 0);
  g_clear_pointer (&nameless->name, g_free);
  g_assert_true (hw_work_place_keep (place, nameless, NULL, NULL, 1000, NULL));
  hw_work_place_free (place);
  left = hw_left_work_list (f->folder);
  g_assert_cmpuint (left->len, ==, 1);
  work = left->pdata[0];
  g_assert_true (g_file_set_contents (work->file, "{}", -1, NULL));
  g_assert_null (hw_left_work_read (work, &cut));
  g_assert_nonnull (strstr (cut->message, "The unsaved work on “"));
  g_assert_true (g_str_has_suffix (cut->message, ": it is not whole."));
  g_assert_cmpint (g_unlink (work->file), ==, 0);
  g_assert_null (hw_left_work_read (work, &gone));
  g_assert_null (strstr (gone->message, "not whole"));
}

#define ADD(name, test) g_test_add ("/kept-work/" name, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("work-in-hand-is-not-left", work_in_hand_is_not_left);
  ADD ("left-work-comes-back-whole", left_work_comes_back_whole);
  ADD ("the-newest-comes-first", the_newest_comes_first_and_tells_whether_the_file_is_newer);
  ADD ("cleared-work-is-gone", cleared_work_is_gone);
  ADD ("what-another-left-is-not-opened", what_another_left_is_not_opened);
  ADD ("a-lock-does-not-lead-elsewhere", a_lock_does_not_lead_elsewhere);
  ADD ("work-of-a-killed-process-is-left", work_of_a_killed_process_is_left);
  ADD ("what-is-no-work-is-passed-over", what_is_no_work_is_passed_over_or_refused_in_a_sentence);
  ADD ("what-changes-after-it-was-found", what_changes_after_it_was_found_is_told);
  ADD ("a-place-that-cannot-be-is-told", a_place_that_cannot_be_is_told);
  return g_test_run ();
}
