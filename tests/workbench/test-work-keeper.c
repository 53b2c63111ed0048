/* The keeper of unsaved work: after a few seconds, once, and nothing once it is saved. */
#include <glib/gstdio.h>

#include "../folders.h"
#include "bench-fixture.h"
#include "formats/kept-work.h"
#include "formats/scene-file.h"
#include "workbench/work-keeper.h"

typedef struct
{
  char *folder;
  HwBench *bench;
  HwWorkKeeper *keeper;
  char *trouble;
} Fixture;

static void
trouble_cb (const char *sentence, gpointer user_data)
{
  Fixture *f = user_data;

  g_assert_null (f->trouble);
  f->trouble = g_strdup (sentence);
}

static void
set_up (Fixture *f, gconstpointer seconds)
{
  f->folder = g_dir_make_tmp ("hw-keeper-XXXXXX", NULL);
  f->bench = bench_with_orchard ();
  f->keeper = hw_work_keeper_new (f->bench, f->folder, GPOINTER_TO_UINT (seconds) / 1000.0, trouble_cb, f);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  hw_work_keeper_free (f->keeper, TRUE);
  g_object_unref (f->bench);
  folder_remove (f->folder);
  g_free (f->folder);
  g_free (f->trouble);
}

static guint
files_with (Fixture *f, const char *suffix)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_suffix (name, suffix);
  return n;
}

static gboolean
stop_cb (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
wait_ms (guint ms)
{
  gboolean over = FALSE;

  g_timeout_add (ms, stop_cb, &over);
  while (!over)
    g_main_context_iteration (NULL, TRUE);
}

static void
wait_until_kept (Fixture *f)
{
  for (guint i = 0; i < 500 && files_with (f, ".hoopwork") == 0; i++)
    wait_ms (10);
  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 1);
}

static void
nudge (Fixture *f, double dx)
{
  hw_bench_select_all (f->bench);
  hw_bench_nudge (f->bench, dx, 0);
}

static char *
text_of_bench (Fixture *f)
{
  g_autoptr (HwSnapshot) scene = hw_scene_snapshot (hw_bench_get_scene (f->bench));

  return hw_scene_file_text (scene);
}

/* As a later start finds it after a crash. A thread that has put the file in place holds the lock until it has synced the folder. */
static char *
text_left (Fixture *f)
{
  g_autoptr (GPtrArray) left = NULL;
  g_autoptr (HwSnapshot) scene = NULL;

  hw_work_keeper_free (g_steal_pointer (&f->keeper), FALSE);
  left = hw_left_work_list (f->folder);
  for (guint i = 0; i < 500 && left->len == 0; i++)
    {
      wait_ms (10);
      g_ptr_array_unref (left);
      left = hw_left_work_list (f->folder);
    }
  if (left->len == 0)
    return NULL;
  scene = hw_left_work_read (left->pdata[0], NULL);
  return hw_scene_file_text (scene);
}

static void
an_edit_is_kept_and_found_after_a_crash (Fixture *f, gconstpointer data)
{
  g_autofree char *expected = NULL;
  g_autofree char *found = NULL;

  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 0);
  nudge (f, 5);
  wait_until_kept (f);
  expected = text_of_bench (f);
  found = text_left (f);
  g_assert_cmpstr (found, ==, expected);
}

/* The folder is away for a while, as on a stick that was pulled, or a disk that was full: no other edit is needed. */
static void
what_could_not_be_kept_is_tried_again (Fixture *f, gconstpointer data)
{
  g_autofree char *away = g_strconcat (f->folder, "-away", NULL);

  g_assert_cmpint (g_rename (f->folder, away), ==, 0);
  nudge (f, 5);
  for (guint i = 0; i < 500 && f->trouble == NULL; i++)
    wait_ms (10);
  g_assert_nonnull (f->trouble);
  g_assert_cmpint (g_rename (away, f->folder), ==, 0);
  wait_until_kept (f);
}

static void
the_newest_of_many_edits_is_kept (Fixture *f, gconstpointer data)
{
  g_autofree char *expected = NULL;
  g_autofree char *found = NULL;

  for (guint i = 0; i < 40; i++)
    {
      nudge (f, i % 3);
      wait_ms (3);
    }
  expected = text_of_bench (f);
  wait_ms (100);
  wait_until_kept (f);
  found = text_left (f);
  g_assert_cmpstr (found, ==, expected);
}

static void
saved_work_is_not_kept (Fixture *f, gconstpointer data)
{
  g_autofree char *path = g_build_filename (f->folder, "orchard.hoopscene", NULL);

  nudge (f, 5);
  wait_until_kept (f);
  g_assert_true (hw_bench_save (f->bench, path, NULL));
  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 0);
  wait_ms (50);
  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 0);
}

static void
undone_work_is_not_kept (Fixture *f, gconstpointer data)
{
  nudge (f, 5);
  wait_until_kept (f);
  hw_bench_undo (f->bench);
  wait_ms (50);
  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 0);
}

static void
it_can_be_kept_at_once (Fixture *f, gconstpointer data)
{
  nudge (f, 5);
  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 0);
  g_assert_true (hw_work_keeper_keep_now (f->keeper));
  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 1);
}

static void
work_given_up_leaves_nothing (Fixture *f, gconstpointer data)
{
  nudge (f, 5);
  wait_until_kept (f);
  hw_work_keeper_free (g_steal_pointer (&f->keeper), TRUE);
  g_assert_cmpuint (files_with (f, ".hoopwork"), ==, 0);
  /* The thread that wrote lets go of the lock last, a moment after it has said that it is done. */
  for (guint i = 0; i < 100 && files_with (f, ".lock") > 0; i++)
    wait_ms (50);
  g_assert_cmpuint (files_with (f, ".lock"), ==, 0);
}

static void
a_folder_that_goes_is_told_once (Fixture *f, gconstpointer data)
{
  folder_remove (f->folder);
  nudge (f, 5);
  for (guint i = 0; i < 500 && f->trouble == NULL; i++)
    wait_ms (10);
  g_assert_nonnull (f->trouble);
  nudge (f, 5);
  wait_ms (50);
  g_assert_false (hw_work_keeper_keep_now (f->keeper));
}

#define ADD(name, seconds, test)                                                                             \
  g_test_add ("/work-keeper/" name, Fixture, GUINT_TO_POINTER (seconds), set_up, test, tear_down)
#define SOON 10     /* ms */
#define LATER 60000 /* ms */

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("an-edit-is-kept-and-found-after-a-crash", SOON, an_edit_is_kept_and_found_after_a_crash);
  ADD ("what-could-not-be-kept-is-tried-again", SOON, what_could_not_be_kept_is_tried_again);
  ADD ("the-newest-of-many-edits-is-kept", SOON, the_newest_of_many_edits_is_kept);
  ADD ("saved-work-is-not-kept", SOON, saved_work_is_not_kept);
  ADD ("undone-work-is-not-kept", SOON, undone_work_is_not_kept);
  ADD ("it-can-be-kept-at-once", LATER, it_can_be_kept_at_once);
  ADD ("work-given-up-leaves-nothing", SOON, work_given_up_leaves_nothing);
  ADD ("a-folder-that-goes-is-told-once", SOON, a_folder_that_goes_is_told_once);
  return g_test_run ();
}
