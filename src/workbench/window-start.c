/* The window at its start page: shown, left for the table, and what it can do meanwhile. */
#include "window.h"

#include <glib/gi18n.h>

#include "help-place.h"
#include "new-scene.h"
#include "own-hoops.h"
#include "start-page.h"
#include "window-private.h"

#define START "start"
#define TABLE "table"

gboolean
hw_window_is_at_start (HwWindow *window)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (window->rooms), START) == 0;
}

void
hw_window_leave_start (HwWindow *window)
{
  window->has_scene = TRUE;
  if (!hw_window_is_at_start (window))
    return;
  gtk_stack_set_visible_child_name (window->rooms, TABLE);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
  hw_window_update_title (window);
  hw_window_update_actions (window);
  hw_window_want_hints (window);
}

void
hw_window_need_scene (HwWindow *window)
{
  g_autoptr (HwSnapshot) blank = hw_snapshot_new ();
  g_autoptr (GPtrArray) hoops = hw_own_hoops_get ();

  if (window->has_scene)
    return;
  g_autoptr (HwSnapshot) scene
      = hw_new_scene (_ ("New scene"), &blank->fabric, HW_EDGE_RECTANGLE, HW_NEW_SCENE_INSET, hoops);
  hw_bench_start_new (window->bench, scene);
  hw_window_leave_start (window);
  hw_canvas_zoom_fit (window->canvas);
}

/* What was chosen there, while unsaved work is spoken of. */
typedef struct
{
  HwSnapshot *scene; /* a new one, or NULL */
  char *path;
  gboolean copy;
} Choice;

static void
choice_free (gpointer data)
{
  Choice *choice = data;

  g_clear_pointer (&choice->scene, hw_snapshot_unref);
  g_free (choice->path);
  g_free (choice);
}

static void
do_choice (HwWindow *window, gpointer user_data)
{
  Choice *choice = user_data;

  if (choice->scene != NULL)
    {
      hw_bench_start_new (window->bench, choice->scene);
      hw_window_leave_start (window);
      hw_canvas_zoom_fit (window->canvas);
    }
  else if (choice->copy)
    hw_window_open_copy (window, choice->path);
  else
    {
      g_autoptr (GFile) file = g_file_new_for_path (choice->path);
      hw_window_open (window, file);
    }
}

static void
begin_cb (HwStartPage *page, HwSnapshot *scene, HwWindow *window)
{
  Choice *choice = g_new0 (Choice, 1);

  choice->scene = hw_snapshot_ref (scene);
  hw_window_guard (window, do_choice, choice, choice_free);
}

static void
open_cb (HwStartPage *page, const char *path, gboolean copy, HwWindow *window)
{
  Choice *choice = g_new0 (Choice, 1);

  choice->path = g_strdup (path);
  choice->copy = copy;
  hw_window_guard (window, do_choice, choice, choice_free);
}

static void
leave_cb (HwStartPage *page, HwWindow *window)
{
  hw_window_leave_start (window);
}

void
hw_window_show_start (HwWindow *window)
{
  g_autofree char *name = NULL;

  g_return_if_fail (HW_IS_WINDOW (window));

  if (window->start_page == NULL)
    {
      window->start_page = hw_start_page_new (window->bench);
      g_signal_connect (window->start_page, "begin", G_CALLBACK (begin_cb), window);
      g_signal_connect (window->start_page, "open", G_CALLBACK (open_cb), window);
      g_signal_connect (window->start_page, "leave", G_CALLBACK (leave_cb), window);
      hw_help_mark (window->start_page, "first-scene");
      gtk_stack_add_named (window->rooms, window->start_page, START);
    }
  hw_window_keep_machine (window);
  hw_window_keep_seen (window);
  g_object_get (hw_bench_get_scene (window->bench), "name", &name, NULL);
  hw_start_page_refresh (HW_START_PAGE (window->start_page), window->has_scene ? name : NULL);
  gtk_stack_set_visible_child_name (window->rooms, START);
  hw_window_update_title (window);
  hw_window_update_actions (window);
  hw_start_page_focus (HW_START_PAGE (window->start_page));
}

static void
start_page_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;

  if (!hw_bench_is_editing (window->bench))
    hw_window_show_start (window);
}

/* A motif was dropped, the dialog for a new scene was answered: whatever changes the scene lets it be seen. */
static void
scene_changed_cb (HwBench *bench, guint flags, HwWindow *window)
{
  hw_window_leave_start (window);
}

static void
enable (HwWindow *window, const char *name, gboolean enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), name)),
                               enabled);
}

void
hw_window_update_start (HwWindow *window)
{
  static const char *const of_a_scene[]
      = { "save",       "save-as",         "print",     "export-pdf", "take-along",
          "at-machine", "measure-cloth",   "mark-list", "edit-hoops", "edit-cloth",
          "parts",      "threads-at-hand", "day-log",   "supplies" };
  static const char *const of_the_table[] = { "undo",      "redo",   "bring-forward", "send-back", "mirror",
                                              "duplicate", "delete", "lock",          "select-all" };
  gboolean at_start = hw_window_is_at_start (window);

  gtk_widget_set_visible (window->undo_button, !at_start);
  gtk_widget_set_visible (window->redo_button, !at_start);
  gtk_widget_set_visible (window->print_button, !at_start);
  gtk_widget_set_visible (window->pane_button, !at_start);
  for (guint i = 0; i < G_N_ELEMENTS (of_a_scene); i++)
    enable (window, of_a_scene[i], !at_start || window->has_scene);
  /* What acts on motifs one does not see would be a surprise. */
  for (guint i = 0; at_start && i < G_N_ELEMENTS (of_the_table); i++)
    enable (window, of_the_table[i], FALSE);
}

void
hw_window_add_start (HwWindow *window)
{
  static const GActionEntry entries[] = { { "start-page", start_page_cb } };

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  g_signal_connect_object (window->bench, "scene-changed", G_CALLBACK (scene_changed_cb), window, 0);
}
