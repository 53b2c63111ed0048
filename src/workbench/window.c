/* The window: header, the table with the cloth, the side pane, the plan's sentence and the course. Wide, the pane stands beside the table;
 * narrow, it is a drawer that lies over it. */
#include "window.h"

#include <glib/gi18n.h>

#include "command-search.h"
#include "settings.h"
#include "window-private.h"

#define TABLE_WIDTH 736 /* px: with less beside it the pane is a drawer */
#define PANE_WIDTH 364  /* px: at the usual size of letters */
#define MOST_PANE_GROWTH 1.5

G_DEFINE_FINAL_TYPE (HwWindow, hw_window, GTK_TYPE_APPLICATION_WINDOW)

enum
{
  PROP_0,
  PROP_SIDE_PANE_OPEN,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

HwBench *
hw_window_get_bench (HwWindow *window)
{
  g_return_val_if_fail (HW_IS_WINDOW (window), NULL);
  return window->bench;
}

HwCanvas *
hw_window_get_canvas (HwWindow *window)
{
  g_return_val_if_fail (HW_IS_WINDOW (window), NULL);
  return window->canvas;
}

void
hw_window_tell (HwWindow *window, const char *sentence)
{
  g_return_if_fail (HW_IS_WINDOW (window));

  if (sentence != NULL)
    {
      gtk_label_set_label (window->message, sentence);
      gtk_accessible_update_property (GTK_ACCESSIBLE (window->message_box), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      sentence, -1);
    }
  gtk_revealer_set_reveal_child (window->message_bar, sentence != NULL);
}

static void
close_message_cb (GtkButton *button, HwWindow *window)
{
  hw_window_tell (window, NULL);
}

/* What the pane needs: more than usual where letters are large or words are long. */
static int
pane_width (HwWindow *window)
{
  GtkWidget *content = gtk_widget_get_first_child (GTK_WIDGET (window->side_pane));
  int needed, dpi;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (window)), "gtk-xft-dpi", &dpi, NULL);
  double letters = CLAMP (dpi / 1024.0 / 96, 1, MOST_PANE_GROWTH);
  gtk_widget_measure (content, GTK_ORIENTATION_HORIZONTAL, -1, &needed, NULL, NULL, NULL);
  return MAX (needed + 1, (int)(PANE_WIDTH * letters)); /* a line parts it from the table */
}

/* Beside the table the pane takes room from it; as a drawer it covers a part. */
static void
lay_out (HwWindow *window)
{
  gboolean beside = window->pane_open && !window->narrow;
  int width = pane_width (window);

  gtk_widget_set_size_request (GTK_WIDGET (window->side_pane), width, -1);
  window->laid_out_for = width;
  window->laid_out_narrow = window->narrow;

  gtk_revealer_set_transition_type (window->drawer, window->narrow ? GTK_REVEALER_TRANSITION_TYPE_SLIDE_LEFT
                                                                   : GTK_REVEALER_TRANSITION_TYPE_NONE);
  gtk_revealer_set_reveal_child (window->drawer, window->pane_open);
  gtk_widget_set_margin_end (GTK_WIDGET (window->canvas), beside ? width : 0);
  /* Nothing is shown under the drawer. */
  hw_canvas_set_covered (window->canvas, window->pane_open && window->narrow ? width : 0);
  gtk_widget_set_margin_end (window->zoom_box, (beside ? width : 0) + 16);
  if (window->narrow)
    gtk_widget_add_css_class (GTK_WIDGET (window->side_pane), "drawer");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (window->side_pane), "drawer");
}

void
hw_window_set_pane_open (HwWindow *window, gboolean open)
{
  if (window->pane_open == open)
    return;
  window->pane_open = open;
  if (!window->narrow)
    {
      window->wants_pane = open;
      hw_settings_set_flag ("side-pane-open", open);
    }
  lay_out (window);
  g_object_notify_by_pspec (G_OBJECT (window), properties[PROP_SIDE_PANE_OPEN]);
}

static gboolean
layout_idle_cb (gpointer user_data)
{
  HwWindow *window = user_data;

  window->layout_idle = 0;
  gboolean turned = window->narrow != window->laid_out_narrow;
  gboolean open = window->narrow ? FALSE : window->wants_pane;
  if (turned && window->pane_open != open)
    {
      window->pane_open = open;
      g_object_notify_by_pspec (G_OBJECT (window), properties[PROP_SIDE_PANE_OPEN]);
    }
  lay_out (window);
  return G_SOURCE_REMOVE;
}

/* Margins cannot change while sizes are being handed out, so a change between wide and narrow waits for the next turn. */
static void
hw_window_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwWindow *window = HW_WINDOW (widget);
  int pane = pane_width (window);
  gboolean narrow = width < TABLE_WIDTH + pane;

  if (narrow != window->narrow || pane != window->laid_out_for)
    {
      window->narrow = narrow;
      if (window->layout_idle == 0)
        window->layout_idle = g_idle_add_full (G_PRIORITY_HIGH_IDLE, layout_idle_cb, window, NULL);
    }
  GTK_WIDGET_CLASS (hw_window_parent_class)->size_allocate (widget, width, height, baseline);
}

void
hw_window_show_problems (HwWindow *window)
{
  g_return_if_fail (HW_IS_WINDOW (window));

  hw_window_set_pane_open (window, TRUE);
  hw_side_pane_show_problems (window->side_pane);
}

static char *
saved_state (HwWindow *window)
{
  const char *path = hw_bench_get_path (window->bench);
  gboolean modified;

  g_object_get (window->bench, "modified", &modified, NULL);
  if (path == NULL)
    return g_strdup (modified ? _ ("not saved yet") : _ ("a new scene, no file yet"));
  return modified ? g_strdup (_ ("changed since it was saved")) : g_strdup (_ ("saved"));
}

void
hw_window_update_title (HwWindow *window)
{
  g_autofree char *name = NULL;
  g_autofree char *state = saved_state (window);
  const char *path = hw_bench_get_path (window->bench);

  if (hw_window_is_at_start (window) && !window->has_scene)
    {
      gtk_label_set_label (window->title, g_get_application_name ());
      gtk_widget_set_visible (GTK_WIDGET (window->subtitle), FALSE);
      gtk_window_set_title (GTK_WINDOW (window), g_get_application_name ());
      return;
    }
  g_object_get (hw_bench_get_scene (window->bench), "name", &name, NULL);
  if (name == NULL || *name == '\0')
    {
      g_free (name);
      name = g_strdup (_ ("Scene without a name"));
    }
  gtk_label_set_label (window->title, name);
  gtk_label_set_label (window->subtitle, state);
  gtk_widget_set_visible (GTK_WIDGET (window->subtitle), TRUE);
  gtk_widget_set_tooltip_text (GTK_WIDGET (window->subtitle), path);
  g_autofree char *whole = g_strdup_printf ("%s (%s)", name, state);
  gtk_window_set_title (GTK_WINDOW (window), whole);
}

static void
title_cb (GObject *object, GParamSpec *pspec, HwWindow *window)
{
  hw_window_update_title (window);
}

static void
history_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  hw_window_update_actions (window);
}

static void
selection_cb (HwBench *bench, HwWindow *window)
{
  hw_window_update_actions (window);
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwWindow *window)
{
  if (flags & (HW_SCENE_CHANGE_WORDS | HW_SCENE_CHANGE_WORK | HW_SCENE_CHANGE_PINS))
    hw_window_update_actions (window);
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, HwWindow *window)
{
  hw_settings_set_unit (hw_bench_get_unit (bench));
  hw_window_update_actions (window);
}

static void
problems_cb (HwStatement *statement, HwWindow *window)
{
  hw_window_show_problems (window);
}

static void
show_place_cb (HwSidePane *pane, double x, double y, HwWindow *window)
{
  hw_canvas_show (window->canvas, (HwPoint){ x, y });
}

static void
leave_cb (HwWindow *window, gpointer user_data)
{
  window->leaves_for_good = TRUE;
  gtk_window_close (GTK_WINDOW (window));
}

static gboolean
hw_window_close_request (GtkWindow *gtk_window)
{
  HwWindow *window = HW_WINDOW (gtk_window);
  GSettings *settings = hw_settings_get ();

  hw_window_keep_machine (window);
  if (!window->leaves_for_good)
    {
      gboolean modified;

      g_object_get (window->bench, "modified", &modified, NULL);
      if (modified)
        {
          hw_window_guard (window, leave_cb, NULL, NULL);
          return TRUE;
        }
    }

  if (settings != NULL)
    {
      int width, height;

      gtk_window_get_default_size (gtk_window, &width, &height);
      g_settings_set (settings, "window-size", "(ii)", width, height);
      g_settings_set_boolean (settings, "window-maximized", gtk_window_is_maximized (gtk_window));
    }
  hw_window_keep_last (window);
  return GTK_WINDOW_CLASS (hw_window_parent_class)->close_request (gtk_window);
}

#define LARGEST_SIDE 16384 /* px: twice the widest screen there is */

static void
restore_size (HwWindow *window)
{
  GSettings *settings = hw_settings_get ();
  int width = 1280, height = 800;

  if (settings != NULL)
    g_settings_get (settings, "window-size", "(ii)", &width, &height);
  gtk_window_set_default_size (GTK_WINDOW (window), CLAMP (width, 640, LARGEST_SIDE),
                               CLAMP (height, 480, LARGEST_SIDE));
  if (hw_settings_get_flag ("window-maximized", FALSE))
    gtk_window_maximize (GTK_WINDOW (window));
}

static void
watch_bench (HwWindow *window)
{
  HwScene *scene = hw_bench_get_scene (window->bench);

  hw_bench_set_unit (window->bench, hw_settings_get_unit ());
  g_signal_connect_object (window->bench, "notify::modified", G_CALLBACK (title_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::path", G_CALLBACK (title_cb), window, 0);
  g_signal_connect_object (scene, "notify::name", G_CALLBACK (title_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::undo-name", G_CALLBACK (history_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::redo-name", G_CALLBACK (history_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::chosen-hooping", G_CALLBACK (history_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::stage", G_CALLBACK (history_cb), window, 0);
  g_signal_connect_object (window->bench, "notify::unit", G_CALLBACK (unit_cb), window, 0);
  g_signal_connect_object (window->bench, "selection-changed", G_CALLBACK (selection_cb), window, 0);
  g_signal_connect_object (window->bench, "plan-changed", G_CALLBACK (selection_cb), window, 0);
  g_signal_connect_object (window->bench, "scene-changed", G_CALLBACK (scene_changed_cb), window, 0);
  g_signal_connect_object (window->bench, "taken-back", G_CALLBACK (hw_window_tell), window, G_CONNECT_SWAPPED);
}

static void
hw_window_constructed (GObject *object)
{
  HwWindow *window = HW_WINDOW (object);

  G_OBJECT_CLASS (hw_window_parent_class)->constructed (object);

  window->bench = hw_bench_new ();
  window->canvas = HW_CANVAS (hw_canvas_new (window->bench));
  gtk_widget_set_hexpand (GTK_WIDGET (window->canvas), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (window->canvas), TRUE);
  gtk_overlay_set_child (window->table, GTK_WIDGET (window->canvas));

  window->side_pane = HW_SIDE_PANE (hw_side_pane_new (window->bench));
  gtk_revealer_set_child (window->drawer, GTK_WIDGET (window->side_pane));
  g_signal_connect_object (window->side_pane, "show-place", G_CALLBACK (show_place_cb), window, 0);

  GtkWidget *statement = hw_statement_new (window->bench);
  g_signal_connect_object (statement, "problems-wanted", G_CALLBACK (problems_cb), window, 0);
  gtk_box_append (window->foot, statement);
  gtk_box_append (window->foot, hw_course_new (window->bench));

  /* The actions read this state when they are added. */
  window->wants_pane = hw_settings_get_flag ("side-pane-open", TRUE);
  window->pane_open = window->wants_pane;
  hw_window_add_actions (window);
  hw_window_add_file_actions (window);
  hw_window_add_opened (window);
  hw_window_add_watching (window);
  hw_window_add_keeping (window);
  hw_window_add_start (window);
  hw_window_add_bare (window);
  hw_window_add_hints (window);
  gtk_menu_button_set_popover (window->search_button, hw_command_search_new (window));
  hw_window_fill_recent (window);
  watch_bench (window);

  restore_size (window);
  lay_out (window);
  hw_window_update_title (window);
  hw_window_update_actions (window);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
}

static void
hw_window_dispose (GObject *object)
{
  HwWindow *window = HW_WINDOW (object);

  g_clear_handle_id (&window->layout_idle, g_source_remove);
  g_clear_handle_id (&window->save_idle, g_source_remove);
  g_clear_object (&window->recent_menu);
  hw_window_end_hints (window);
  if (window->keeper != NULL)
    {
      hw_window_end_watching (window);
      hw_window_end_keeping (window);
    }
  G_OBJECT_CLASS (hw_window_parent_class)->dispose (object);
}

static void
hw_window_finalize (GObject *object)
{
  HwWindow *window = HW_WINDOW (object);

  g_clear_object (&window->bench);
  G_OBJECT_CLASS (hw_window_parent_class)->finalize (object);
}

static void
hw_window_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  if (prop_id == PROP_SIDE_PANE_OPEN)
    g_value_set_boolean (value, HW_WINDOW (object)->pane_open);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
hw_window_set_property (GObject *object, guint prop_id, const GValue *value, GParamSpec *pspec)
{
  if (prop_id == PROP_SIDE_PANE_OPEN)
    hw_window_set_pane_open (HW_WINDOW (object), g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
}

static void
hw_window_class_init (HwWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->constructed = hw_window_constructed;
  object_class->dispose = hw_window_dispose;
  object_class->finalize = hw_window_finalize;
  object_class->get_property = hw_window_get_property;
  object_class->set_property = hw_window_set_property;
  widget_class->size_allocate = hw_window_size_allocate;
  GTK_WINDOW_CLASS (klass)->close_request = hw_window_close_request;

  properties[PROP_SIDE_PANE_OPEN]
      = g_param_spec_boolean ("side-pane-open", NULL, NULL, TRUE,
                              G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/hoopwright/Hoopwright/window.ui");
  gtk_widget_class_bind_template_child (widget_class, HwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, subtitle);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, search_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, print_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, pane_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, rooms);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, resume_bar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, resume);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, table);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, zoom_box);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, drawer);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, foot);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, bars);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message_bar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message_box);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message);
  gtk_widget_class_bind_template_callback (widget_class, close_message_cb);
}

static void
hw_window_init (HwWindow *window)
{
  gtk_widget_init_template (GTK_WIDGET (window));
}

HwWindow *
hw_window_new (GtkApplication *application)
{
  return g_object_new (HW_TYPE_WINDOW, "application", application, NULL);
}
