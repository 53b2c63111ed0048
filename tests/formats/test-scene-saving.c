#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../folders.h"
#include "scene-texts.h"

static const char needles[] = "x_mm,y_mm,action,thread\n0,0,stitch,hemp\n1,2,stitch,hemp\n";

typedef struct
{
  char *folder;
  char *path;
  HwSnapshot *scene;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  f->path = g_build_filename (f->folder, "harbour.hoopscene", NULL);
  f->scene = accepted (full);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  folder_remove (f->folder);
  g_free (f->folder);
  g_free (f->path);
  hw_snapshot_unref (f->scene);
}

static guint
files_in (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
assert_holds (const char *path, const char *wanted)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_true (g_str_equal (text, wanted));
}

static void
saves_and_leaves_nothing_beside (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_scene_file_save (f->scene, f->path, NULL, &error));
  g_assert_no_error (error);
  assert_holds (f->path, full);
  g_assert_true (hw_scene_file_save (f->scene, f->path, NULL, &error));
  assert_holds (f->path, full);
  g_assert_cmpuint (files_in (f->folder), ==, 1);
}

static void
a_name_may_be_as_long_as_names_can (Fixture *f, gconstpointer data)
{
  g_autofree char *stem = g_strnfill (255 - strlen (".hoopscene"), 'a');
  g_autofree char *name = g_strconcat (stem, ".hoopscene", NULL);
  g_autofree char *path = g_build_filename (f->folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_scene_file_save (f->scene, path, NULL, &error));
  g_assert_no_error (error);
  assert_holds (path, full);
}

static void
keeps_permissions_and_gives_usual_ones (Fixture *f, gconstpointer data)
{
  mode_t mask = umask (022);
  struct stat info;

  g_assert_true (hw_scene_file_save (f->scene, f->path, NULL, NULL));
  g_assert_cmpint (stat (f->path, &info), ==, 0);
  g_assert_cmphex (info.st_mode & 0777, ==, 0644);
  g_assert_cmpint (chmod (f->path, 0640), ==, 0);
  g_assert_true (hw_scene_file_save (f->scene, f->path, NULL, NULL));
  g_assert_cmpint (stat (f->path, &info), ==, 0);
  g_assert_cmphex (info.st_mode & 0777, ==, 0640);
  umask (mask);
}

static void
follows_links (Fixture *f, gconstpointer data)
{
  g_autofree char *link = g_build_filename (f->folder, "latest.hoopscene", NULL);

  g_assert_cmpint (symlink ("harbour.hoopscene", link), ==, 0);
  g_assert_true (hw_scene_file_save (f->scene, link, NULL, NULL));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_false (g_file_test (f->path, G_FILE_TEST_IS_SYMLINK));
  assert_holds (f->path, full);
}

static void
says_why_it_could_not_save (Fixture *f, gconstpointer data)
{
  g_autofree char *nowhere = g_build_filename (f->folder, "attic", "harbour.hoopscene", NULL);
  g_autofree char *name = g_path_get_basename (f->folder);
  g_autofree char *is_folder = g_strdup_printf ("%s was not saved: this is a folder, not a file.", name);
  g_autoptr (GError) error = NULL;

  g_assert_false (hw_scene_file_save (f->scene, nowhere, NULL, &error));
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_WRITE);
  g_assert_cmpstr (
      error->message, ==,
      "harbour.hoopscene was not saved: nothing can be written in its folder (No such file or directory).");
  g_clear_error (&error);
  g_assert_false (hw_scene_file_save (f->scene, f->folder, NULL, &error));
  g_assert_cmpstr (error->message, ==, is_folder);
}

/* Where even root may write nothing: the kernel's own folder. Elsewhere a folder without write permission. */
static void
a_folder_that_takes_nothing_is_told (Fixture *f, gconstpointer data)
{
  g_autofree char *inside
      = g_build_filename (geteuid () == 0 ? "/proc" : f->folder, "harbour.hoopscene", NULL);
  g_autoptr (GError) error = NULL;

  g_chmod (f->folder, 0500);
  g_assert_false (hw_scene_file_save (f->scene, inside, NULL, &error));
  g_chmod (f->folder, 0700);
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_WRITE);
  g_assert_true (g_str_has_prefix (error->message, "harbour.hoopscene was not saved: "));
}

static void
a_protected_file_stays (Fixture *f, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  if (geteuid () == 0)
    {
      g_test_skip ("root may write anything");
      return;
    }
  g_assert_true (g_file_set_contents (f->path, "mine", -1, NULL));
  g_chmod (f->path, 0400);
  g_assert_false (hw_scene_file_save (f->scene, f->path, NULL, &error));
  g_assert_cmpstr (error->message, ==,
                   "harbour.hoopscene was not saved: it is protected from writing (Permission denied).");
  assert_holds (f->path, "mine");
}

/* The disk is full after so many bytes: a limit on file size makes write() fail in the same place. Whichever byte it is, the old
 * file is whole and nothing is left beside it. */
static void
a_full_disk_loses_nothing (Fixture *f, gconstpointer data)
{
  const rlim_t limits[] = { 0, 1, 100, 1000, strlen (full) - 1 };
  struct rlimit old, small;

  g_assert_true (g_file_set_contents (f->path, "the old scene", -1, NULL));
  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (getrlimit (RLIMIT_FSIZE, &old), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      g_autoptr (GError) error = NULL;
      gboolean saved;

      small = (struct rlimit){ limits[i], old.rlim_max };
      g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &small), ==, 0);
      saved = hw_scene_file_save (f->scene, f->path, NULL, &error);
      g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &old), ==, 0);
      g_assert_false (saved);
      g_assert_cmpstr (error->message, ==,
                       "harbour.hoopscene was not saved: writing failed, and what was there before is "
                       "untouched (File too large).");
      assert_holds (f->path, "the old scene");
      g_assert_cmpuint (files_in (f->folder), ==, 1);
    }
  signal (SIGXFSZ, SIG_DFL);
}

/* artwork beside the scene, read with it */
static void
put_artwork (Fixture *f)
{
  g_autofree char *art = g_build_filename (f->folder, "art", NULL);
  g_autofree char *rope = g_build_filename (art, "rope.csv", NULL);

  g_assert_cmpint (g_mkdir (art, 0700), ==, 0);
  g_assert_true (g_file_set_contents (rope, needles, -1, NULL));
}

static void
artwork_is_found_from_the_scene (Fixture *f, gconstpointer data)
{
  g_autofree char *twice
      = replaced (full, "      \"threads\": []",
                  "      \"threads\": [],\n      \"artwork\": {\"path\": \"art/rope.csv\"}");
  g_autoptr (HwSnapshot) scene = NULL;

  put_artwork (f);
  g_assert_true (g_file_set_contents (f->path, twice, -1, NULL));
  scene = hw_scene_file_load (f->path, NULL);
  g_assert_nonnull (scene);
  g_assert_cmpuint (hw_snapshot_motif (scene, 0)->needles->n_stitches, ==, 2);
  g_assert_null (hw_snapshot_motif (scene, 0)->artwork_trouble);
  /* read once, shared by both */
  g_assert_true (hw_snapshot_motif (scene, 0)->needles == hw_snapshot_motif (scene, 1)->needles);
}

static void
missing_artwork_leaves_the_motif (Fixture *f, gconstpointer data)
{
  g_autoptr (HwSnapshot) scene = NULL;

  g_assert_true (g_file_set_contents (f->path, full, -1, NULL));
  scene = hw_scene_file_load (f->path, NULL);
  g_assert_nonnull (scene);
  g_assert_null (hw_snapshot_motif (scene, 0)->needles);
  g_assert_cmpstr (hw_snapshot_motif (scene, 0)->artwork_trouble, ==, "rope.csv: there is no such file.");
  g_assert_cmpstr (hw_snapshot_motif (scene, 0)->artwork, ==, "art/rope.csv");
}

static void
unknown_kinds_of_artwork_are_kept_and_told (Fixture *f, gconstpointer data)
{
  g_autofree char *carved = replaced (full, "\"needles\"", "\"carving\"");
  g_autoptr (HwSnapshot) scene = NULL;
  g_autofree char *text = NULL;

  g_assert_true (g_file_set_contents (f->path, carved, -1, NULL));
  scene = hw_scene_file_load (f->path, NULL);
  g_assert_cmpstr (hw_snapshot_motif (scene, 0)->artwork_trouble, ==,
                   "art/rope.csv: artwork of the kind \"carving\" cannot be shown by this version.");
  text = hw_scene_file_text (scene);
  g_assert_true (g_str_equal (text, carved));
}

static void
saved_elsewhere_the_artwork_is_still_found (Fixture *f, gconstpointer data)
{
  g_autofree char *deep = g_build_filename (f->folder, "copies", "may", NULL);
  g_autofree char *copy = g_build_filename (deep, "harbour.hoopscene", NULL);
  g_autofree char *beside = g_build_filename (f->folder, "art", "harbour.hoopscene", NULL);
  g_autoptr (HwSnapshot) from_copy = NULL;
  g_autoptr (HwSnapshot) from_beside = NULL;

  put_artwork (f);
  g_assert_cmpint (g_mkdir_with_parents (deep, 0700), ==, 0);
  g_assert_true (hw_scene_file_save (f->scene, copy, f->folder, NULL));
  g_assert_true (hw_scene_file_save (f->scene, beside, f->folder, NULL));
  from_copy = hw_scene_file_load (copy, NULL);
  from_beside = hw_scene_file_load (beside, NULL);
  g_assert_cmpstr (hw_snapshot_motif (from_copy, 0)->artwork, ==, "../../art/rope.csv");
  g_assert_nonnull (hw_snapshot_motif (from_copy, 0)->needles);
  g_assert_cmpstr (hw_snapshot_motif (from_beside, 0)->artwork, ==, "rope.csv");
  g_assert_nonnull (hw_snapshot_motif (from_beside, 0)->needles);
}

static void
an_absolute_artwork_path_stays_as_given (Fixture *f, gconstpointer data)
{
  g_autofree char *whole = g_build_filename (f->folder, "art", "rope.csv", NULL);
  g_autofree char *absolute = replaced (full, "art/rope.csv", whole);
  g_autofree char *other = g_build_filename (f->folder, "art", "harbour.hoopscene", NULL);
  g_autoptr (HwSnapshot) scene = accepted (absolute);
  g_autoptr (HwSnapshot) again = NULL;

  put_artwork (f);
  g_assert_true (hw_scene_file_save (scene, other, f->folder, NULL));
  again = hw_scene_file_load (other, NULL);
  g_assert_cmpstr (hw_snapshot_motif (again, 0)->artwork, ==, whole);
  g_assert_nonnull (hw_snapshot_motif (again, 0)->needles);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add ("/scene-saving/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("saves-and-leaves-nothing-beside", saves_and_leaves_nothing_beside);
  ADD ("a-name-may-be-long", a_name_may_be_as_long_as_names_can);
  ADD ("keeps-permissions", keeps_permissions_and_gives_usual_ones);
  ADD ("follows-links", follows_links);
  ADD ("says-why-it-could-not-save", says_why_it_could_not_save);
  ADD ("a-folder-that-takes-nothing-is-told", a_folder_that_takes_nothing_is_told);
  ADD ("a-protected-file-stays", a_protected_file_stays);
  ADD ("a-full-disk-loses-nothing", a_full_disk_loses_nothing);
  ADD ("artwork-is-found-from-the-scene", artwork_is_found_from_the_scene);
  ADD ("missing-artwork-leaves-the-motif", missing_artwork_leaves_the_motif);
  ADD ("unknown-kinds-of-artwork-are-kept", unknown_kinds_of_artwork_are_kept_and_told);
  ADD ("saved-elsewhere-the-artwork-is-still-found", saved_elsewhere_the_artwork_is_still_found);
  ADD ("an-absolute-artwork-path-stays", an_absolute_artwork_path_stays_as_given);
  return g_test_run ();
}
