/* The window's actions for dividing a scene. */
#include "parts-dialog.h"
#include "window-private.h"

static void
put_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (!hw_bench_is_editing (window->bench))
    hw_parts_dialog_show (GTK_WINDOW (window), window->bench);
}

/* The parts there are; with motifs selected, which of them those go into. */
static void
parts_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (hw_bench_get_n_selected (window->bench) > 0)
    put_cb (action, parameter, user_data);
  else
    {
      hw_window_set_pane_open (window, TRUE);
      hw_side_pane_show_parts (window->side_pane);
    }
}

static const GActionEntry entries[] = { { "put-in-part", put_cb }, { "parts", parts_cb } };

void
hw_window_add_parts (HwWindow *window)
{
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}

void
hw_window_update_parts (HwWindow *window)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), "put-in-part");

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), hw_bench_get_n_selected (window->bench) > 0);
}
