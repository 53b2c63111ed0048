/* The file of a photo: the name and the day it is known by, and where its copy lies beside a scene. */
#include <glib/gstdio.h>
#include <utime.h>

#include "workbench/photo-file.h"

static void
it_is_named_after_its_file (void)
{
  static const struct
  {
    const char *path, *name;
  } all[] = {
    { "/tmp/cloth-day-2.jpg", "Cloth day 2" },
    { "/tmp/second_fitting.png", "Second fitting" },
    { "/tmp/ärmel.jpeg", "Ärmel" },
    { "/tmp/plain", "Plain" },
    { "/tmp/.hidden", ".hidden" },
    { "/tmp/\xff\xfe.jpg", "Photo" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autofree char *name = hw_photo_file_name (all[i].path);

      g_assert_cmpstr (name, ==, all[i].name);
    }
}

/* Where the camera noted no day, that on which the file was last changed; of one that is gone none. */
static void
its_day_is_that_of_the_file (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "cloth.png", NULL);
  g_autoptr (GBytes) bytes = g_bytes_new_static ("no picture", 10);
  struct utimbuf noon = { 1764158400, 1764158400 }; /* 2025-11-26 12:00 UTC */
  g_autofree char *day = NULL, *gone = NULL;

  g_assert_true (g_file_set_contents (path, "no picture", 10, NULL));
  utime (path, &noon);
  day = hw_photo_file_day (path, bytes);
  g_assert_cmpstr (day, ==, "2025-11-26");
  g_remove (path);
  gone = hw_photo_file_day (path, bytes);
  g_assert_null (gone);
  g_rmdir (folder);
}

/* The same photo is copied once; another of its name gets a number, before the ending where there is one. */
static void
copies_get_names_of_their_own (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autoptr (GBytes) one = g_bytes_new_static ("one", 3), other = g_bytes_new_static ("two", 3),
                     longer = g_bytes_new_static ("threes", 6);
  static const char *const made[] = { "cloth.png", "cloth-2.png", "cloth-3.png", "cloth", "cloth-2" };
  g_autoptr (GError) error = NULL;
  gboolean copied;

  const struct
  {
    const char *from;
    GBytes *bytes;
    const char *name;
    gboolean copied;
  } all[] = {
    { "/elsewhere/cloth.png", one, "cloth.png", TRUE },
    { "/elsewhere/cloth.png", one, "cloth.png", FALSE },
    { "/elsewhere/cloth.png", other, "cloth-2.png", TRUE },
    { "/elsewhere/cloth.png", longer, "cloth-3.png", TRUE },
    { "/elsewhere/cloth.png", other, "cloth-2.png", FALSE },
    { "/elsewhere/cloth", one, "cloth", TRUE },
    { "/elsewhere/cloth", other, "cloth-2", TRUE },
  };
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autofree char *name = hw_photo_file_put_beside (all[i].from, all[i].bytes, folder, &copied, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (name, ==, all[i].name);
      g_assert_true (copied == all[i].copied);
    }
  /* What lies there, or below, stays where it is. */
  g_autofree char *below = g_build_filename (folder, "photos", "cloth.png", NULL);
  g_autofree char *stays = hw_photo_file_put_beside (below, one, folder, &copied, &error);
  g_assert_cmpstr (stays, ==, "photos/cloth.png");
  g_assert_false (copied);
  for (guint i = 0; i < G_N_ELEMENTS (made); i++)
    {
      g_autofree char *path = g_build_filename (folder, made[i], NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_rmdir (folder);
}

/* A folder that is gone takes no copy, and the person is told what else she can do. */
static void
a_folder_that_is_gone_takes_no_copy (void)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static ("one", 3);
  g_autoptr (GError) error = NULL;
  gboolean copied = TRUE;
  g_autofree char *name
      = hw_photo_file_put_beside ("/elsewhere/cloth.png", bytes, "/nowhere/at/all", &copied, &error);

  g_assert_null (name);
  g_assert_false (copied);
  g_assert_nonnull (error);
  g_assert_true (g_str_has_suffix (error->message, "Keep it in the scene instead."));
}

static void
a_folder_is_no_photo (void)
{
  g_autoptr (GError) error = NULL, gone = NULL;
  g_autoptr (GFile) remote = g_file_new_for_uri ("resource:///photo.png"),
                    here = g_file_new_for_path ("/tmp/wet-linen.png");

  g_assert_null (hw_photo_file_read (g_get_tmp_dir (), &error));
  g_assert_nonnull (error);
  g_assert_null (hw_photo_file_read ("/nowhere/at/all.png", &gone));
  g_assert_nonnull (gone);
  g_assert_null (hw_photo_of_file (remote));
  g_autoptr (HwPhoto) photo = hw_photo_of_file (here);
  g_assert_cmpstr (photo->name, ==, "Wet linen");
  g_assert_cmpstr (photo->path, ==, "/tmp/wet-linen.png");
}

int
main (int argc, char **argv)
{
  g_setenv ("TZ", "UTC", TRUE);
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/photo-file/" #test, test)
  ADD (it_is_named_after_its_file);
  ADD (its_day_is_that_of_the_file);
  ADD (copies_get_names_of_their_own);
  ADD (a_folder_that_is_gone_takes_no_copy);
  ADD (a_folder_is_no_photo);
  return g_test_run ();
}
