/* The window's actions: each calls one verb of the bench, of the table or of a dialog. Their state follows the bench. */
#include "window.h"

#include <glib/gi18n.h>

#include "about.h"
#include "cloth-dialog.h"
#include "command-keys.h"
#include "help-place.h"
#include "help-window.h"
#include "hoops-dialog.h"
#include "mark-list-dialog.h"
#include "paper-dialog.h"
#include "window-import.h"
#include "window-photo.h"
#include "settings.h"
#include "window-private.h"

#define ZOOM_STEP 1.25

/* While something is in the hand the scene is the hand's: keys pressed meanwhile change nothing. */
static HwBench *
bench_at_rest (gpointer user_data)
{
  HwBench *bench = HW_WINDOW (user_data)->bench;

  return hw_bench_is_editing (bench) ? NULL : bench;
}

static void
undo_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_undo (bench);
}

static void
redo_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_redo (bench);
}

static void
bring_forward_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_bring_forward (bench);
}

static void
send_back_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_send_back (bench);
}

static void
mirror_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_mirror (bench);
}

static void
duplicate_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_duplicate (bench);
}

static void
delete_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_delete (bench);
}

static gboolean
selection_is_locked (HwWindow *window)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (window->bench);

  for (guint i = 0; i < selection->len; i++)
    if (!hw_scene_motif_get_record (g_ptr_array_index (selection, i))->locked)
      return FALSE;
  return selection->len > 0;
}

static void
lock_cb (GSimpleAction *action, GVariant *value, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_set_locked (bench, g_variant_get_boolean (value));
}

static void
select_all_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);

  if (bench != NULL)
    hw_bench_select_all (bench);
}

/* One step back out of what was opened or chosen last. */
static void
step_back_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (window->narrow && window->pane_open)
    hw_window_set_pane_open (window, FALSE);
  else if (hw_bench_get_chosen_hooping (window->bench) >= 0)
    hw_bench_choose_hooping (window->bench, -1);
  else if (hw_bench_get_stage (window->bench) >= 0)
    hw_bench_set_stage (window->bench, -1);
  else
    hw_bench_select_only (window->bench, NULL);
}

static void
zoom_in_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_canvas_zoom_by (HW_WINDOW (user_data)->canvas, ZOOM_STEP);
}

static void
zoom_out_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_canvas_zoom_by (HW_WINDOW (user_data)->canvas, 1 / ZOOM_STEP);
}

static void
zoom_fit_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_canvas_zoom_fit (HW_WINDOW (user_data)->canvas);
}

static void
zoom_true_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_canvas_zoom_true_size (HW_WINDOW (user_data)->canvas);
}

static void
unit_cb (GSimpleAction *action, GVariant *value, gpointer user_data)
{
  HwUnit unit = g_str_equal (g_variant_get_string (value, NULL), "inch") ? HW_UNIT_INCH : HW_UNIT_MM;

  hw_bench_set_unit (HW_WINDOW (user_data)->bench, unit);
}

static void
unpin_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwBench *bench = bench_at_rest (user_data);
  int chosen = bench != NULL ? hw_bench_get_chosen_hooping (bench) : -1;

  if (chosen >= 0)
    hw_bench_unpin (bench, (guint)chosen);
}

static void
choose_beside (HwWindow *window, int step)
{
  const HwPlan *plan = hw_bench_get_plan (window->bench);
  int chosen = hw_bench_get_chosen_hooping (window->bench);
  int n = plan != NULL ? (int)plan->n_hoopings : 0;

  if (n == 0)
    return;
  if (chosen < 0)
    chosen = step > 0 ? 0 : n - 1;
  else
    chosen = CLAMP (chosen + step, 0, n - 1);
  hw_bench_choose_hooping (window->bench, chosen);
}

static void
next_hooping_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  choose_beside (HW_WINDOW (user_data), 1);
}

static void
previous_hooping_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  choose_beside (HW_WINDOW (user_data), -1);
}

/* Along the course: the whole picture, each hooping, the finished piece. */
static void
walk (HwWindow *window, int step)
{
  const HwPlan *plan = hw_bench_get_plan (window->bench);
  int n = plan != NULL ? (int)plan->n_hoopings : 0;

  hw_bench_set_stage (window->bench, CLAMP (hw_bench_get_stage (window->bench) + step, -1, n));
}

static void
next_stage_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  walk (HW_WINDOW (user_data), 1);
}

static void
previous_stage_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  walk (HW_WINDOW (user_data), -1);
}

static void
find_command_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  gtk_menu_button_popup (HW_WINDOW (user_data)->search_button);
}

static void
edit_cloth_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_cloth_dialog_show (GTK_WINDOW (user_data), HW_WINDOW (user_data)->bench);
}

static void
edit_hoops_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_hoops_dialog_show (GTK_WINDOW (user_data), HW_WINDOW (user_data)->bench);
}

static void
mark_list_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_mark_list_dialog_show (GTK_WINDOW (user_data), HW_WINDOW (user_data)->bench);
}

static void
print_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_paper_dialog_show (GTK_WINDOW (user_data), HW_WINDOW (user_data)->bench);
}

static void
problems_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_window_show_problems (HW_WINDOW (user_data));
}

/* At the table it is what shows there that one would read about. */
static const char *
page_of_table (HwWindow *window)
{
  gboolean density;

  g_object_get (window->canvas, "show-density", &density, NULL);
  if (density)
    return "density";
  if (hw_bench_get_n_selected (window->bench) > 0)
    return "arranging";
  if (hw_bench_get_chosen_hooping (window->bench) >= 0 || hw_bench_get_stage (window->bench) >= 0)
    return "hoopings";
  return "composing";
}

static void
help_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  const char *page = hw_help_page_at (GTK_WINDOW (window));

  hw_help_show (GTK_WINDOW (window), page != NULL ? page : page_of_table (window));
}

static void
about_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_about_show (GTK_WINDOW (user_data));
}

static const GActionEntry entries[] = {
  { "undo", undo_cb },
  { "redo", redo_cb },
  { "bring-forward", bring_forward_cb },
  { "send-back", send_back_cb },
  { "mirror", mirror_cb },
  { "duplicate", duplicate_cb },
  { "delete", delete_cb },
  { "lock", NULL, NULL, "false", lock_cb },
  { "select-all", select_all_cb },
  { "step-back", step_back_cb },
  { "zoom-in", zoom_in_cb },
  { "zoom-out", zoom_out_cb },
  { "zoom-fit", zoom_fit_cb },
  { "zoom-true", zoom_true_cb },
  { "unit", NULL, "s", "'mm'", unit_cb },
  { "unpin-hooping", unpin_cb },
  { "next-hooping", next_hooping_cb },
  { "previous-hooping", previous_hooping_cb },
  { "next-stage", next_stage_cb },
  { "previous-stage", previous_stage_cb },
  { "find-command", find_command_cb },
  { "edit-cloth", edit_cloth_cb },
  { "edit-hoops", edit_hoops_cb },
  { "mark-list", mark_list_cb },
  { "print", print_cb },
  { "export-pdf", print_cb },
  { "show-problems", problems_cb },
  { "help", help_cb },
  { "about", about_cb },
};

static void
add_property_action (HwWindow *window, const char *name, gpointer object)
{
  g_autoptr (GPropertyAction) action = g_property_action_new (name, object, name);

  g_action_map_add_action (G_ACTION_MAP (window), G_ACTION (action));
}

static void
keep_shown_cb (GtkWidget *widget, GParamSpec *pspec, gpointer key)
{
  hw_settings_set_flag (key, gtk_widget_get_visible (widget));
}

/* A part of the window that can be put away, and stays so. name: of the action and its setting. */
static void
add_shown_action (HwWindow *window, const char *name, GtkWidget *part)
{
  g_autoptr (GPropertyAction) action = NULL;

  gtk_widget_set_visible (part, hw_settings_get_flag (name, TRUE));
  action = g_property_action_new (name, part, "visible");
  g_action_map_add_action (G_ACTION_MAP (window), G_ACTION (action));
  g_signal_connect (part, "notify::visible", G_CALLBACK (keep_shown_cb), (gpointer)name);
}

void
hw_window_add_actions (HwWindow *window)
{
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  hw_window_add_decisions (window);
  hw_window_add_arranging (window);
  hw_window_add_parts (window);
  hw_window_add_going_round (window);
  hw_window_add_machine (window);
  hw_window_add_handouts (window);
  hw_window_add_photo_actions (window);
  hw_window_add_import_actions (window);
  add_property_action (window, "side-pane-open", window);
  add_shown_action (window, "foot-open", GTK_WIDGET (window->foot));
  add_property_action (window, "show-hoopings", window->canvas);
  add_property_action (window, "show-marks", window->canvas);
  add_property_action (window, "show-order", window->canvas);
  add_property_action (window, "show-density", window->canvas);
  hw_command_keys_for_window (GTK_WIDGET (window));
}

static void
enable (HwWindow *window, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), name);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

static void
set_state (HwWindow *window, const char *name, GVariant *state)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (window), name);

  g_simple_action_set_state (G_SIMPLE_ACTION (action), state);
}

static void
name_step (GtkWidget *button, const char *words, const char *name, const char *keys)
{
  g_autofree char *label = name != NULL ? g_strdup_printf ("%s %s", words, name) : g_strdup (words);
  g_autofree char *tooltip = g_strdup_printf ("%s (%s)", label, keys);

  gtk_widget_set_tooltip_text (button, tooltip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static gboolean
chosen_is_pinned (HwWindow *window)
{
  int chosen = hw_bench_get_chosen_hooping (window->bench);

  return chosen >= 0 && hw_bench_has_pin (window->bench, (guint)chosen);
}

void
hw_window_update_actions (HwWindow *window)
{
  static const char *const on_selection[]
      = { "bring-forward", "send-back", "mirror", "duplicate", "delete", "lock" };
  g_autofree char *undo_name = NULL;
  g_autofree char *redo_name = NULL;
  const HwPlan *plan = hw_bench_get_plan (window->bench);
  gboolean any = hw_bench_get_n_selected (window->bench) > 0;

  g_object_get (window->bench, "undo-name", &undo_name, "redo-name", &redo_name, NULL);
  enable (window, "undo", undo_name != NULL);
  enable (window, "redo", redo_name != NULL);
  name_step (window->undo_button, _ ("Undo"), undo_name, _ ("Ctrl+Z"));
  name_step (window->redo_button, _ ("Redo"), redo_name, _ ("Shift+Ctrl+Z"));

  for (guint i = 0; i < G_N_ELEMENTS (on_selection); i++)
    enable (window, on_selection[i], any);
  set_state (window, "lock", g_variant_new_boolean (selection_is_locked (window)));
  enable (window, "unpin-hooping", chosen_is_pinned (window));
  enable (window, "next-hooping", plan != NULL && plan->n_hoopings > 0);
  enable (window, "next-stage", plan != NULL && hw_bench_get_stage (window->bench) < (int)plan->n_hoopings);
  enable (window, "previous-stage", hw_bench_get_stage (window->bench) >= 0);
  enable (window, "previous-hooping", plan != NULL && plan->n_hoopings > 0);

  hw_window_update_decisions (window);
  hw_window_update_arranging (window);
  hw_window_update_parts (window);
  hw_window_update_import (window);
  hw_window_update_machine (window);
  hw_window_update_handouts (window);

  hw_window_update_start (window);

  HwUnit unit = hw_bench_get_unit (window->bench);
  set_state (window, "unit", g_variant_new_string (unit == HW_UNIT_INCH ? "inch" : "mm"));
}
