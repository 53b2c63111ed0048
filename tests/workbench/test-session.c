/* Where a person was: told as it was left, forgotten where it is not sound. */
#include <glib/gstdio.h>
#include <math.h>
#include <unistd.h>

#include "workbench/session.h"

typedef struct
{
  char *folder, *file;
} Desk;

static void
set_up (Desk *desk, gconstpointer data)
{
  desk->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  desk->file = g_build_filename (desk->folder, "session.ini", NULL);
}

static void
tear_down (Desk *desk, gconstpointer data)
{
  g_unlink (desk->file);
  g_rmdir (desk->folder);
  g_free (desk->folder);
  g_free (desk->file);
}

static const HwSceneSeen left = { .centre = { 123.25, -4.5 },
                                  .zoom = 1.75,
                                  .at_machine = TRUE,
                                  .hoopings = TRUE,
                                  .marks = FALSE,
                                  .order = TRUE,
                                  .density = TRUE };

static void
a_scene_is_seen_again_as_it_was_left (Desk *desk, gconstpointer data)
{
  HwSceneSeen seen = { .zoom = 7 };

  g_assert_false (hw_session_read (desk->folder, "/a/quay.hoopscene", &seen));
  g_assert_cmpfloat (seen.zoom, ==, 7);
  hw_session_write (desk->folder, "/a/quay.hoopscene", &left);
  hw_session_write (desk->folder, "/a/[pier]\n\xff.hoopscene", &(HwSceneSeen){ .whole = TRUE });
  g_assert_true (hw_session_read (desk->folder, "/a/quay.hoopscene", &seen));
  g_assert_cmpfloat (seen.centre.x, ==, left.centre.x);
  g_assert_cmpfloat (seen.centre.y, ==, left.centre.y);
  g_assert_cmpfloat (seen.zoom, ==, left.zoom);
  g_assert_false (seen.whole);
  g_assert_true (seen.at_machine && seen.hoopings && seen.order && seen.density);
  g_assert_false (seen.marks);
  g_assert_true (hw_session_read (desk->folder, "/a/[pier]\n\xff.hoopscene", &seen));
  g_assert_true (seen.whole);
  g_assert_false (seen.at_machine || seen.hoopings);
}

/* A folder that is open to others may hold what they put there: a file of theirs, or a link of theirs to a file of hers. */
static void
what_another_user_left_is_not_touched (Desk *desk, gconstpointer data)
{
  const uid_t nobody = 65534;
  g_autofree char *hers = g_build_filename (desk->folder, "diary", NULL);
  g_autofree char *before = NULL, *after = NULL;
  HwSceneSeen seen = { .zoom = 7 };

  if (geteuid () != 0)
    {
      g_test_skip ("only the administrator can give a file to another user");
      return;
    }
  hw_session_write (desk->folder, "/a/quay.hoopscene", &left);
  g_assert_true (g_file_get_contents (desk->file, &before, NULL, NULL));
  g_assert_cmpint (chown (desk->file, nobody, nobody), ==, 0);
  g_assert_false (hw_session_read (desk->folder, "/a/quay.hoopscene", &seen));
  hw_session_write (desk->folder, "/a/quay.hoopscene", &(HwSceneSeen){ .whole = TRUE });
  g_assert_true (g_file_get_contents (desk->file, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, before);

  g_assert_cmpint (g_rename (desk->file, hers), ==, 0);
  g_assert_cmpint (chown (hers, geteuid (), getegid ()), ==, 0);
  g_assert_cmpint (symlink (hers, desk->file), ==, 0);
  g_assert_true (hw_session_read (desk->folder, "/a/quay.hoopscene", &seen)); /* a link of her own */
  g_assert_cmpint (lchown (desk->file, nobody, nobody), ==, 0);
  g_assert_false (hw_session_read (desk->folder, "/a/quay.hoopscene", &seen));
  hw_session_write (desk->folder, "/a/quay.hoopscene", &(HwSceneSeen){ .whole = TRUE });
  g_clear_pointer (&after, g_free);
  g_assert_true (g_file_get_contents (hers, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, before);
  g_unlink (hers);
}

static void
what_is_not_sound_is_not_there (Desk *desk, gconstpointer data)
{
  static const char *const wrong[] = { "zoom=0", "zoom=nan", "zoom=1e9", "x=inf", "y=far", "x=" };
  g_autofree char *whole = NULL;
  HwSceneSeen seen;

  hw_session_write (desk->folder, "/a/quay.hoopscene", &left);
  g_assert_true (g_file_get_contents (desk->file, &whole, NULL, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      /* The later of two lines with one key counts. */
      g_autofree char *spoilt = g_strconcat (whole, wrong[i], "\n", NULL);

      g_assert_true (g_file_set_contents (desk->file, spoilt, -1, NULL));
      g_assert_false (hw_session_read (desk->folder, "/a/quay.hoopscene", &seen));
    }
  g_assert_true (g_file_set_contents (desk->file, "\x01 no key file", -1, NULL));
  g_assert_false (hw_session_read (desk->folder, "/a/quay.hoopscene", &seen));
  g_assert_null (hw_session_last_scene (desk->folder));
}

static void
scenes_left_longest_ago_make_room (Desk *desk, gconstpointer data)
{
  HwSceneSeen seen;

  hw_session_set_last_scene (desk->folder, desk->folder);
  for (guint i = 0; i <= HW_SESSION_MOST; i++)
    {
      g_autofree char *scene = g_strdup_printf ("/a/%u.hoopscene", i);
      hw_session_write (desk->folder, scene, &left);
    }
  g_assert_false (hw_session_read (desk->folder, "/a/0.hoopscene", &seen));
  g_assert_true (hw_session_read (desk->folder, "/a/1.hoopscene", &seen));
}

static void
the_last_scene_is_told_while_it_is_there (Desk *desk, gconstpointer data)
{
  g_autofree char *scene = g_build_filename (desk->folder, "low tide [1].hoopscene", NULL);
  g_autofree char *last = NULL;

  g_assert_null (hw_session_last_scene (desk->folder));
  g_assert_true (g_file_set_contents (scene, "{}", -1, NULL));
  hw_session_set_last_scene (desk->folder, scene);
  last = hw_session_last_scene (desk->folder);
  g_assert_cmpstr (last, ==, scene);
  hw_session_set_last_scene (desk->folder, NULL);
  g_assert_null (hw_session_last_scene (desk->folder));
  hw_session_set_last_scene (desk->folder, scene);
  g_unlink (scene);
  g_assert_null (hw_session_last_scene (desk->folder));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add ("/workbench/session/" #test, Desk, NULL, set_up, test, tear_down)
  ADD (a_scene_is_seen_again_as_it_was_left);
  ADD (what_is_not_sound_is_not_there);
  ADD (what_another_user_left_is_not_touched);
  ADD (scenes_left_longest_ago_make_room);
  ADD (the_last_scene_is_told_while_it_is_there);
  return g_test_run ();
}
