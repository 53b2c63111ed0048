/* The window at the machine: the view that takes the whole window, the way back to it from the table, and the saving of every step. */
#include "window.h"

#include <glib/gi18n.h>

#include "draw-in-dialog.h"
#include "landed-dialog.h"
#include "log-dialog.h"
#include "machine-view.h"
#include "machine-work.h"
#include "window-private.h"

#define TABLE "table"
#define MACHINE "machine"

gboolean
hw_window_is_at_machine (HwWindow *window)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (window->rooms), MACHINE) == 0;
}

static void
update_resume_bar (HwWindow *window)
{
  g_autofree char *where = hw_machine_where_it_stopped (window->bench);

  gboolean shown = where != NULL && !hw_window_is_at_machine (window);

  if (where != NULL)
    gtk_label_set_label (window->resume, where);
  gtk_widget_set_visible (GTK_WIDGET (window->resume_bar), shown);
  gtk_revealer_set_reveal_child (window->resume_bar, shown);
}

/* A step at the machine is worth more than the moment it takes to write it down. */
static gboolean
save_idle_cb (gpointer data)
{
  HwWindow *window = data;
  g_autoptr (GError) error = NULL;
  gboolean modified;

  window->save_idle = 0;
  g_object_get (window->bench, "modified", &modified, NULL);
  if (modified && hw_bench_get_path (window->bench) != NULL && !hw_bench_is_editing (window->bench))
    hw_window_write (window, NULL, TRUE, &error);
  if (window->machine_view != NULL)
    hw_machine_view_tell_save (HW_MACHINE_VIEW (window->machine_view), error != NULL ? error->message : NULL);
  return G_SOURCE_REMOVE;
}

static void
history_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  if (hw_window_is_at_machine (window) && window->save_idle == 0)
    window->save_idle = g_idle_add (save_idle_cb, window);
}

void
hw_window_keep_machine (HwWindow *window)
{
  if (!hw_window_is_at_machine (window))
    return;
  hw_machine_view_commit (HW_MACHINE_VIEW (window->machine_view));
  g_clear_handle_id (&window->save_idle, g_source_remove);
  save_idle_cb (window);
}

static void
leave_machine (HwWindow *window)
{
  if (!hw_window_is_at_machine (window))
    return;
  gtk_stack_set_visible_child_name (window->rooms, TABLE);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
  hw_window_update_actions (window);
  update_resume_bar (window);
}

static void
leave_cb (HwMachineView *view, HwWindow *window)
{
  leave_machine (window);
}

static void
enter_machine (HwWindow *window)
{
  if (window->machine_view == NULL)
    {
      window->machine_view = hw_machine_view_new (window->bench);
      g_signal_connect (window->machine_view, "leave", G_CALLBACK (leave_cb), window);
      gtk_stack_add_named (window->rooms, window->machine_view, MACHINE);
    }
  hw_bench_select_only (window->bench, NULL);
  gtk_stack_set_visible_child_name (window->rooms, MACHINE);
  hw_window_update_actions (window);
  update_resume_bar (window);
  hw_machine_view_focus (HW_MACHINE_VIEW (window->machine_view));
  if (window->save_idle == 0)
    window->save_idle = g_idle_add (save_idle_cb, window);
}

static int
chosen_hooping (HwWindow *window)
{
  return hw_bench_is_editing (window->bench) ? -1 : hw_bench_get_chosen_hooping (window->bench);
}

static void
at_machine_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (hw_window_is_at_machine (window))
    leave_machine (window);
  else if (!hw_bench_is_editing (window->bench))
    enter_machine (window);
}

static void
begin_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  int chosen = chosen_hooping (window);

  if (chosen >= 0 && hw_bench_begin_hooping (window->bench, (guint)chosen))
    enter_machine (window);
}

static void
mark_stitched_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  int chosen = chosen_hooping (window);

  if (chosen >= 0)
    hw_bench_mark_stitched (window->bench, (guint)chosen);
}

static void
lay_aside_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (!hw_bench_is_editing (window->bench))
    hw_bench_lay_aside (window->bench);
}

static void
take_back_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (!hw_bench_is_editing (window->bench))
    hw_bench_take_back (window->bench);
}

static void
no_hoop_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  const HwPlan *plan = hw_bench_get_plan (window->bench);
  int chosen = chosen_hooping (window);

  if (chosen < 0 || plan == NULL || chosen >= (int)plan->n_hoopings)
    return;
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, plan->hoopings[chosen].hoop);
  g_autofree char *told = g_strdup_printf (
      _ ("The hoop %s is set aside, and what it was to take is planned anew. Undo brings it back."),
      hoop->name);

  hw_bench_hoop_unavailable (window->bench, hoop->id);
  hw_window_tell (window, told);
}

/* The hooping's place among the stitched ones: they come first in a plan, in their order. */
static void
chosen_landed_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);
  int chosen = chosen_hooping (window);

  if (chosen >= 0 && chosen < (int)hw_scene_get_frozen (hw_bench_get_scene (window->bench))->len)
    hw_landed_dialog_show (GTK_WINDOW (window), window->bench, (guint)chosen);
}

static void
landed_cb (GSimpleAction *action, GVariant *frozen, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (!hw_bench_is_editing (window->bench))
    hw_landed_dialog_show (GTK_WINDOW (window), window->bench, g_variant_get_uint32 (frozen));
}

static void
measure_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = HW_WINDOW (user_data);

  if (!hw_bench_is_editing (window->bench))
    hw_draw_in_dialog_show (GTK_WINDOW (window), window->bench);
}

static void
log_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  hw_log_dialog_show (GTK_WINDOW (user_data), HW_WINDOW (user_data)->bench);
}

static const GActionEntry entries[] = {
  { "at-machine", at_machine_cb },       { "begin-hooping", begin_cb },
  { "mark-stitched", mark_stitched_cb }, { "lay-aside", lay_aside_cb },
  { "take-back", take_back_cb },         { "no-hoop", no_hoop_cb },
  { "landed", landed_cb, "u" },          { "chosen-landed", chosen_landed_cb },
  { "measure-cloth", measure_cb },       { "day-log", log_cb },
};

static void
enable (HwWindow *window, const char *name, gboolean enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), name)),
                               enabled);
}

void
hw_window_update_machine (HwWindow *window)
{
  static const char *const of_the_table[]
      = { "select-all", "delete", "duplicate", "mirror", "bring-forward", "send-back" };
  const HwPlan *plan = hw_bench_get_plan (window->bench);
  int chosen = hw_bench_get_chosen_hooping (window->bench);
  const HwHooping *hooping
      = plan != NULL && chosen >= 0 && chosen < (int)plan->n_hoopings ? &plan->hoopings[chosen] : NULL;
  gboolean frozen = hooping != NULL && hooping->hold == HW_PLACE_FROZEN;
  gboolean at_machine = hw_window_is_at_machine (window);
  guint stitched = hw_scene_get_frozen (hw_bench_get_scene (window->bench))->len;

  enable (window, "begin-hooping", hooping != NULL && !frozen);
  enable (window, "mark-stitched", hooping != NULL && !frozen);
  enable (window, "chosen-landed", frozen);
  enable (window, "no-hoop", hooping != NULL && !frozen);
  enable (window, "lay-aside", hw_bench_get_begun (window->bench) != NULL);
  enable (window, "take-back", stitched > 0);
  /* What acts on motifs one does not see would be a surprise. */
  enable (window, "select-all", !at_machine);
  for (guint i = 0; at_machine && i < G_N_ELEMENTS (of_the_table); i++)
    enable (window, of_the_table[i], FALSE);
  update_resume_bar (window);
}

void
hw_window_add_machine (HwWindow *window)
{
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  g_signal_connect_object (window->bench, "notify::undo-name", G_CALLBACK (history_cb), window, 0);
}
