/* A scene, first and saved over, work that is kept, and both as the window does it, with a fault at each call: see each-call.h. */
#include <string.h>

#include "../formats/scene-texts.h"
#include "each-call.h"
#include "formats/earlier-states.h"
#include "formats/kept-work.h"

/* A scene that was saved before. */
static void
old_scene (Desk *desk)
{
  put (desk->file, contract);
}

static gboolean
save_scene (Desk *desk, GError **error)
{
  arm (desk);
  return hw_scene_file_save (desk->scene, desk->file, NULL, error);
}

static void
look_at_scene (Desk *desk, Outcome outcome)
{
  gboolean old = holds (desk->file, contract), new = holds (desk->file, full);

  g_assert_true (old || new);
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static void
look_at_first_scene (Desk *desk, Outcome outcome)
{
  gboolean new = holds (desk->file, full);

  g_assert_true (new || !is_there (desk->file));
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static gboolean
keep_work (Desk *desk, GError **error)
{
  g_autoptr (HwSnapshot) old = accepted (contract);
  g_autoptr (HwWorkPlace) place = NULL;

  arm (desk);
  place = hw_work_place_new (desk->state, error);
  return place != NULL && hw_work_place_keep (place, old, NULL, NULL, 1000, error)
         && hw_work_place_keep (place, desk->scene, NULL, NULL, 1003, error);
}

/* The scene's text of the only work that was left; NULL: none. Returns: (transfer full) (nullable) */
static char *
text_left (Desk *desk)
{
  g_autoptr (GPtrArray) left = hw_left_work_list (desk->state);
  g_autoptr (HwSnapshot) scene = NULL;

  g_assert_cmpuint (left->len, <=, 1);
  if (left->len == 0)
    return NULL;
  scene = hw_left_work_read (left->pdata[0], NULL);
  g_assert_nonnull (scene);
  return hw_scene_file_text (scene);
}

static guint
locks_in (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_suffix (name, ".lock");
  return n;
}

static void
look_at_work (Desk *desk, Outcome outcome)
{
  g_autofree char *text = text_left (desk);

  if (outcome == DONE)
    g_assert_cmpstr (text, ==, full);
  g_assert_cmpuint (locks_in (desk->state), ==, 0);
}

/* Saving as the window does it: what was there is kept as an earlier state, of which there are as many as are kept; the unsaved work goes once it is saved. */
static void
old_scene_with_states (Desk *desk)
{
  g_autofree char *states = g_build_filename (desk->root, "earlier", NULL);

  for (guint i = 0; i < HW_MOST_EARLIER_STATES; i++)
    {
      g_autofree char *text = g_strdup_printf ("state %u", i);

      put (desk->file, text);
      g_assert_true (hw_earlier_state_keep (states, desk->file, 0, NULL));
    }
  put (desk->file, contract);
}

static gboolean
save_in_window (Desk *desk, GError **error)
{
  g_autofree char *states = g_build_filename (desk->root, "earlier", NULL);
  g_autoptr (HwWorkPlace) place = hw_work_place_new (desk->state, error);

  if (place == NULL || !hw_work_place_keep (place, desk->scene, desk->file, desk->home, 1000, error))
    return FALSE;
  arm (desk);
  hw_earlier_state_keep (states, desk->file, 600, NULL);
  if (!hw_scene_file_save (desk->scene, desk->file, NULL, error))
    return FALSE;
  hw_work_place_clear (place);
  return TRUE;
}

static void
look_at_states (Desk *desk)
{
  g_autofree char *where = g_build_filename (desk->root, "earlier", NULL);
  g_autoptr (GPtrArray) states = hw_earlier_states_list (where, desk->file);

  g_assert_cmpuint (states->len, >=, HW_MOST_EARLIER_STATES);
  for (guint i = 0; i < states->len; i++)
    {
      const char *file = ((HwEarlierState *)states->pdata[i])->file;
      g_autofree char *text = NULL;

      g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
      g_assert_true (g_str_equal (text, contract)
                     || (strlen (text) == 7 && g_str_has_prefix (text, "state ")));
    }
}

static void
look_at_window_save (Desk *desk, Outcome outcome)
{
  g_autofree char *text = text_left (desk);

  look_at_scene (desk, outcome);
  if (!holds (desk->file, full))
    g_assert_cmpstr (text, ==, full);
  look_at_states (desk);
}

static const Way ways[] = {
  { "a-scene-saved-over", old_scene, save_scene, look_at_scene },
  { "a-scene-saved-first", bare, save_scene, look_at_first_scene },
  { "work-kept", bare, keep_work, look_at_work },
  { "a-window-saves", old_scene_with_states, save_in_window, look_at_window_save },
};

int
main (int argc, char **argv)
{
  return each_way (argc, argv, ways, G_N_ELEMENTS (ways));
}
