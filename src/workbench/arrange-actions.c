/* The window's actions for arranging: each calls one verb of the bench or opens the dialog that asks for its figures. */
#include "window.h"

#include <glib/gi18n.h>

#include "arrange-dialog.h"
#include "canvas-private.h"
#include "settings.h"
#include "window-private.h"

/* In the order of HwAlign. */
static const char *const alignments[] = { "left", "middle", "right", "top", "centre", "bottom" };

/* While something is in the hand, or tried, the scene is not to be changed under it. */
static HwBench *
bench_at_rest (gpointer user_data)
{
  HwBench *bench = HW_WINDOW (user_data)->bench;

  return hw_bench_is_editing (bench) ? NULL : bench;
}

static void
line_up_cb (GSimpleAction *action, GVariant *how, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  for (guint i = 0; bench != NULL && i < G_N_ELEMENTS (alignments); i++)
    if (g_str_equal (alignments[i], g_variant_get_string (how, NULL)))
      hw_bench_align (bench, (HwAlign)i);
}

static void
space_out_cb (GSimpleAction *action, GVariant *how, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_distribute (bench, g_str_equal (g_variant_get_string (how, NULL), "across"));
}

static void
mirror_pair_cb (GSimpleAction *action, GVariant *how, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_mirror_pair (bench, g_str_equal (g_variant_get_string (how, NULL), "upright"));
}

static void
ask (gpointer user_data, HwArrangeKind kind)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_arrange_dialog_show (GTK_WIDGET (HW_WINDOW (user_data)->canvas), bench, kind);
}

static void
copies_in_row_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  ask (user_data, HW_ARRANGE_COPIES);
}

static void
put_in_row_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  ask (user_data, HW_ARRANGE_ROW);
}

static void
copies_around_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  ask (user_data, HW_ARRANGE_AROUND);
}

static void
tuck_behind_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  ask (user_data, HW_ARRANGE_TUCK);
}

static void
come_to_rest_cb (GSimpleAction *action, GVariant *value, gpointer user_data)
{
  HW_WINDOW (user_data)->canvas->drags_freely = !g_variant_get_boolean (value);
  hw_settings_set_flag (HW_SETTING_COME_TO_REST, g_variant_get_boolean (value));
  g_simple_action_set_state (action, value);
}

static const GActionEntry entries[] = {
  { "line-up", line_up_cb, "s" },         { "space-out", space_out_cb, "s" },
  { "mirror-pair", mirror_pair_cb, "s" }, { "copies-in-row", copies_in_row_cb },
  { "put-in-row", put_in_row_cb },        { "copies-around", copies_around_cb },
  { "tuck-behind", tuck_behind_cb },      { "come-to-rest", NULL, NULL, "true", come_to_rest_cb },
};

void
hw_window_add_arranging (HwWindow *window)
{
  gboolean rests = hw_settings_get_flag (HW_SETTING_COME_TO_REST, TRUE);

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  window->canvas->drags_freely = !rests;
  g_simple_action_set_state (
      G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), "come-to-rest")),
      g_variant_new_boolean (rests));
}

static void
enable (HwWindow *window, const char *name, gboolean enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), name)),
                               enabled);
}

void
hw_window_update_arranging (HwWindow *window)
{
  guint selected = hw_bench_get_n_selected (window->bench);
  guint movable = hw_bench_count_arrangeable (window->bench);
  guint all = g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (window->bench)));

  enable (window, "line-up", movable > 0);
  enable (window, "space-out", movable > 0 && selected > 2);
  enable (window, "mirror-pair", selected > 0);
  enable (window, "copies-in-row", selected > 0 && selected <= HW_ARRANGE_MOST / 2);
  enable (window, "copies-around", selected > 0 && selected <= HW_ARRANGE_MOST / 2);
  enable (window, "put-in-row", movable > 1);
  /* One alone is tucked behind what lies nearest to it, and may be the one that stays. */
  enable (window, "tuck-behind", all > 1 && (selected == 1 || (selected == 2 && movable > 0)));
}
