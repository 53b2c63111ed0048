/* From one part of the window to the next by one key, whatever lies between them: table, side pane, foot, header. On the cloth the Tab key goes through
 * the motifs; this one leaves it with what is selected, so that the fields of the side pane speak of that. */
#include "window-private.h"
#include "window.h"

#define N_PARTS 4

/* The parts in the order they are gone through; those not in sight are NULL. */
static void
list_parts (HwWindow *window, GtkWidget *parts[N_PARTS])
{
  parts[0] = GTK_WIDGET (window->canvas);
  parts[1] = window->pane_open ? GTK_WIDGET (window->side_pane) : NULL;
  parts[2] = GTK_WIDGET (window->foot);
  parts[3] = gtk_window_get_titlebar (GTK_WINDOW (window));
}

static gboolean
enter (GtkWidget *part)
{
  if (part == NULL || !gtk_widget_get_mapped (part))
    return FALSE;
  /* The cloth and a part with a focus of its own take it; in the others it goes to the first place. */
  if (gtk_widget_get_focusable (part))
    return gtk_widget_grab_focus (part);
  return gtk_widget_child_focus (part, GTK_DIR_TAB_FORWARD);
}

static void
next_part_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (window));
  GtkWidget *parts[N_PARTS];
  int at = N_PARTS - 1;

  list_parts (window, parts);
  for (int i = 0; i < N_PARTS; i++)
    if (parts[i] != NULL && focus != NULL && (focus == parts[i] || gtk_widget_is_ancestor (focus, parts[i])))
      at = i;
  for (int i = 1; i <= N_PARTS; i++)
    if (enter (parts[(at + i) % N_PARTS]))
      {
        gtk_window_set_focus_visible (GTK_WINDOW (window), TRUE);
        return;
      }
}

void
hw_window_add_going_round (HwWindow *window)
{
  static const GActionEntry entries[] = { { "next-part", next_part_cb } };

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
}
