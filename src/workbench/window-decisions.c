/* The window's actions for what a person decides about the plan: hoopings held, joined and split, motifs kept apart and tied. */
#include "window.h"

#include <glib/gi18n.h>

#include "consequence-dialog.h"
#include "window-private.h"

/* In the order of HwKeep. */
static const char *const keeps[] = { "all", "motifs", "grain" };

static void
keep_cb (GSimpleAction *action, GVariant *value, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  int chosen = hw_bench_get_chosen_hooping (window->bench);

  if (chosen < 0 || hw_bench_is_editing (window->bench))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (keeps); i++)
    if (g_str_equal (keeps[i], g_variant_get_string (value, NULL)))
      {
        if (i == HW_KEEP_GRAIN) /* it may change the plan, and that is told first */
          hw_grain_dialog_show (GTK_WINDOW (window), window->bench, (guint)chosen);
        else
          hw_bench_keep_hooping (window->bench, (guint)chosen, (HwKeep)i);
      }
}

static void
join_cb (GSimpleAction *action, GVariant *other, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  int chosen = hw_bench_get_chosen_hooping (window->bench);

  if (chosen >= 0 && g_variant_get_int32 (other) >= 0 && !hw_bench_is_editing (window->bench))
    hw_join_dialog_show (GTK_WINDOW (window), window->bench, (guint)chosen,
                         (guint)g_variant_get_int32 (other));
}

static void
split_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  int chosen = hw_bench_get_chosen_hooping (window->bench);

  if (chosen >= 0 && !hw_bench_is_editing (window->bench))
    hw_split_dialog_show (GTK_WINDOW (window), window->bench, (guint)chosen);
}

static void
keep_apart_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (!hw_bench_is_editing (window->bench))
    hw_bench_keep_apart (window->bench);
}

static void
let_share_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (!hw_bench_is_editing (window->bench))
    hw_bench_let_share (window->bench);
}

static void
tie_cb (GSimpleAction *action, GVariant *pair, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  HwScene *scene = hw_bench_get_scene (window->bench);
  const char *first, *second;
  g_autofree char *refusal = NULL;

  g_variant_get (pair, "(&s&s)", &first, &second);
  if (hw_bench_is_editing (window->bench) || hw_scene_find_motif (scene, first) == NULL
      || hw_scene_find_motif (scene, second) == NULL || g_str_equal (first, second))
    return;
  hw_window_tell (window, hw_bench_tie (window->bench, first, second, &refusal) ? NULL : refusal);
}

static const GActionEntry entries[] = {
  { "keep-hooping", NULL, "s", "''", keep_cb },
  { "join-hooping", join_cb, "i" },
  { "split-hooping", split_cb },
  { "keep-apart", keep_apart_cb },
  { "let-share", let_share_cb },
  { "tie", tie_cb, "(ss)" },
};

void
hw_window_add_decisions (HwWindow *window)
{
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}

static GSimpleAction *
action_of (HwWindow *window, const char *name)
{
  return G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), name));
}

void
hw_window_update_decisions (HwWindow *window)
{
  const HwPlan *plan = hw_bench_get_plan (window->bench);
  int chosen = hw_bench_get_chosen_hooping (window->bench);
  const HwHooping *hooping
      = plan != NULL && chosen >= 0 && chosen < (int)plan->n_hoopings ? &plan->hoopings[chosen] : NULL;
  const HwPin *pin = hooping != NULL ? hw_bench_pin_of (window->bench, (guint)chosen) : NULL;
  gboolean free = hooping != NULL && hooping->hold != HW_PLACE_FROZEN;
  gboolean several = hw_bench_get_n_selected (window->bench) > 1;

  g_simple_action_set_enabled (action_of (window, "keep-hooping"), free);
  g_simple_action_set_state (action_of (window, "keep-hooping"),
                             g_variant_new_string (pin != NULL ? keeps[pin->keep] : ""));
  g_simple_action_set_enabled (action_of (window, "join-hooping"), free && plan->n_hoopings > 1);
  g_simple_action_set_enabled (action_of (window, "split-hooping"), free && hooping->n_motifs > 1);
  g_simple_action_set_enabled (action_of (window, "keep-apart"), several);
  g_simple_action_set_enabled (action_of (window, "let-share"), several);
}
