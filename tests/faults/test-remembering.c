/* What the program remembers, with a fault at each call: where a person was, what she chose, the small pictures of the start page. See each-call.h. */
#include <glib/gstdio.h>
#include <string.h>

#include "../formats/scene-texts.h"
#include "each-call.h"
#include "formats/named-file.h"
#include "workbench/scene-pictures.h"
#include "workbench/session.h"

/* A scene that was saved before. */
static void
old_scene (Desk *desk)
{
  put (desk->file, contract);
}

static void
old_session (Desk *desk)
{
  const HwSceneSeen seen = { .whole = TRUE };

  hw_session_write (desk->state, "/harbour/old.hoopscene", &seen);
}

static gboolean
write_session (Desk *desk, GError **error)
{
  const HwSceneSeen seen = { .whole = TRUE, .at_machine = TRUE };

  arm (desk);
  hw_session_write (desk->state, "/harbour/new.hoopscene", &seen);
  return TRUE;
}

static void
look_at_session (Desk *desk, Outcome outcome)
{
  HwSceneSeen seen;

  g_assert_true (hw_session_read (desk->state, "/harbour/old.hoopscene", &seen));
}

static void
old_choice (Desk *desk)
{
  g_autofree char *folder = g_build_filename (g_get_user_state_dir (), "hoopwright", NULL);
  g_autofree char *list = g_build_filename (folder, "chosen-files", NULL);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  put (list, "file:///harbour/old.csv\n");
  put (desk->file, "x_mm,y_mm\n");
}

static gboolean
choose (Desk *desk, GError **error)
{
  arm (desk);
  hw_named_file_choose (desk->file, desk->home);
  return TRUE;
}

static void
look_at_choice (Desk *desk, Outcome outcome)
{
  g_autofree char *list = g_build_filename (g_get_user_state_dir (), "hoopwright", "chosen-files", NULL);
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (list, &text, NULL, NULL));
  g_assert_true (g_str_has_prefix (text, "file:///harbour/old.csv\n"));
  g_assert_true (g_str_has_suffix (text, "\n"));
}

/* The small picture of the start page. */
static gboolean
paint_small (Desk *desk, GError **error)
{
  g_autofree char *picture = NULL;

  arm (desk);
  picture = hw_scene_picture_file (desk->state, desk->file, 40, error);
  return picture != NULL;
}

static void
look_at_small (Desk *desk, Outcome outcome)
{
  g_autoptr (GDir) dir = g_dir_open (desk->state, 0, NULL);
  const char *name;

  g_assert_true (holds (desk->file, contract));
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (desk->state, name, NULL);
      g_autofree char *text = NULL;
      gsize length;

      if (!g_str_has_suffix (name, ".png"))
        continue;
      g_assert_true (g_file_get_contents (path, &text, &length, NULL));
      g_assert_cmpmem (text + length - 4, 4, "\xae\x42\x60\x82", 4);
    }
}

static gboolean
write_last (Desk *desk, GError **error)
{
  arm (desk);
  hw_session_set_last_scene (desk->state, "/harbour/new.hoopscene");
  return TRUE;
}

static const Way ways[] = {
  { "where-a-person-was", old_session, write_session, look_at_session },
  { "what-a-person-chose", old_choice, choose, look_at_choice },
  { "a-small-picture", old_scene, paint_small, look_at_small },
  { "which-scene-was-last", old_session, write_last, look_at_session },
};

int
main (int argc, char **argv)
{
  return each_way (argc, argv, ways, G_N_ELEMENTS (ways));
}
