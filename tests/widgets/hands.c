/* Hands for the tests of views and dialogs. */
#include "hands.h"

#include <gdk/x11/gdkx.h>

#define SHOWN_SECONDS 60

/* On a busy machine GTK 4.8 now and then draws the arrows of its file dialog's path before it has placed them: it says so, with the button's address, and leaves them out of
 * that frame. */
static gboolean
is_of_a_file_dialog (const char *warning)
{
  const char *address = strstr (warning, "0x");
  GtkWidget *widget;

  if (!g_str_has_prefix (warning, "Trying to snapshot GtkButton ")
      || !g_str_has_suffix (warning, " without a current allocation"))
    return FALSE;
  g_assert_nonnull (address);
  widget = GSIZE_TO_POINTER (g_ascii_strtoull (address, NULL, 16));
  return g_str_equal (G_OBJECT_TYPE_NAME (gtk_widget_get_parent (widget)), "GtkPathBar");
}

/* A warning ends the test. */
static GLogWriterOutput
warned_cb (GLogLevelFlags level, const GLogField *fields, gsize n, gpointer user_data)
{
  for (gsize i = 0; i < n; i++)
    if (g_str_equal (fields[i].key, "MESSAGE") && is_of_a_file_dialog (fields[i].value))
      return g_log_writer_standard_streams (level, fields, n, user_data);
  return g_log_writer_default (level, fields, n, user_data);
}

gboolean
hands_ready (int *argc, char ***argv)
{
  g_test_init (argc, argv, NULL);
  g_log_set_writer_func (warned_cb, NULL, NULL);
  if (gtk_init_check ())
    {
      /* GTK warns of a cursor that still blinks when the focus went elsewhere while the window was not the active one. */
      g_object_set (gtk_settings_get_default (), "gtk-cursor-blink", FALSE, NULL);
      return TRUE;
    }
  g_print ("1..0 # SKIP there is no display\n");
  return FALSE;
}

void
hands_forget_tooltip (void)
{
  g_object_set_data (G_OBJECT (gdk_display_get_default ()), "gdk-display-current-tooltip", NULL);
}

void
hands_close (GtkWindow *window)
{
  hands_forget_tooltip ();
  gtk_window_destroy (window);
  hands_settle ();
}

void
hands_settle (void)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static void
until_mapped (GtkWidget *widget)
{
  gint64 end = g_get_monotonic_time () + SHOWN_SECONDS * G_USEC_PER_SEC;

  while (!gtk_widget_get_mapped (widget) || gtk_widget_get_width (widget) == 0)
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
    }
  hands_settle ();
}

GtkWindow *
hands_show (GtkWidget *widget, int width, int height)
{
  GtkWindow *window = GTK_WINDOW (gtk_window_new ());

  gtk_window_set_default_size (window, width, height);
  gtk_window_set_child (window, widget);
  gtk_window_present (window);
  until_mapped (widget);
  return window;
}

GtkWindow *
hands_window (const char *title)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (g_strcmp0 (gtk_window_get_title (window), title) == 0)
        {
          until_mapped (GTK_WIDGET (window));
          return window;
        }
    }
  return NULL;
}

static gboolean
is_called (GtkWidget *widget, const char *name)
{
  g_autofree char *other = gtk_test_accessible_check_property (GTK_ACCESSIBLE (widget),
                                                               GTK_ACCESSIBLE_PROPERTY_LABEL, name, NULL);

  if (other == NULL)
    return TRUE;
  if (GTK_IS_CHECK_BUTTON (widget))
    return g_strcmp0 (gtk_check_button_get_label (GTK_CHECK_BUTTON (widget)), name) == 0;
  if (GTK_IS_BUTTON (widget))
    return g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), name) == 0;
  return GTK_IS_LABEL (widget) && g_strcmp0 (gtk_label_get_text (GTK_LABEL (widget)), name) == 0;
}

static GtkWidget *
look_for (GtkWidget *widget, GType type, const char *name)
{
  if (g_type_is_a (G_OBJECT_TYPE (widget), type) && is_called (widget, name))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = look_for (child, type, name);

      if (found != NULL)
        return found;
    }
  return NULL;
}

GtkWidget *
hands_find (gpointer root, GType type, const char *name)
{
  GtkWidget *found = look_for (GTK_WIDGET (root), type, name);

  if (found == NULL)
    g_error ("there is no %s called “%s”", g_type_name (type), name);
  return found;
}

static char *
plain (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);

  return g_strjoinv (" ", parts);
}

static char *
label_that_says (GtkWidget *widget, const char *beginning)
{
  if (!gtk_widget_get_visible (widget))
    return NULL;
  if (GTK_IS_LABEL (widget))
    {
      g_autofree char *text = plain (gtk_label_get_text (GTK_LABEL (widget)));

      if (g_str_has_prefix (text, beginning))
        return g_steal_pointer (&text);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      char *found = label_that_says (child, beginning);

      if (found != NULL)
        return found;
    }
  return NULL;
}

char *
hands_sentence (gpointer root, const char *beginning)
{
  return label_that_says (GTK_WIDGET (root), beginning);
}

void
hands_says (gpointer root, const char *beginning)
{
  g_autofree char *said = hands_sentence (root, beginning);

  if (said == NULL)
    g_error ("nothing says “%s”", beginning);
}

void
hands_click (gpointer root, const char *name)
{
  GtkWidget *button = hands_find (root, GTK_TYPE_BUTTON, name);

  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  hands_settle ();
}

void
hands_type (GtkWidget *entry, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  if (GTK_IS_SPIN_BUTTON (entry))
    gtk_spin_button_update (GTK_SPIN_BUTTON (entry));
  else
    g_signal_emit_by_name (entry, "activate");
  hands_settle ();
}

GtkEventController *
hands_controller (GtkWidget *widget, GType type)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (G_OBJECT_TYPE (controller) == type)
        return controller;
    }
  g_error ("a %s has no %s", G_OBJECT_TYPE_NAME (widget), g_type_name (type));
}

gboolean
hands_key (GtkWidget *widget, guint key, GdkModifierType held)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  gboolean taken = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (controllers) && !taken; i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", key, 0, held, &taken);
    }
  hands_settle ();
  return taken;
}

static void
heard_cb (GdkFrameClock *clock, gboolean *heard)
{
  *heard = TRUE;
}

void
hands_frame (GtkWidget *widget)
{
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  gboolean painted = FALSE;
  gulong id = g_signal_connect (clock, "after-paint", G_CALLBACK (heard_cb), &painted);

  gdk_frame_clock_request_phase (clock, GDK_FRAME_CLOCK_PHASE_AFTER_PAINT);
  while (!painted)
    g_main_context_iteration (NULL, TRUE);
  g_signal_handler_disconnect (clock, id);
  hands_settle ();
}

void
hands_pointer (GtkWidget *widget, const char *what, double x, double y)
{
  GtkNative *native = gtk_widget_get_native (widget);
  g_autofree char *words = NULL;
  g_autoptr (GError) error = NULL;
  const char *then = g_str_equal (what, "press")      ? "mousedown 1"
                     : g_str_equal (what, "release")  ? "mouseup 1"
                     : g_str_equal (what, "wheel-up") ? "click 4"
                     : g_str_equal (what, "menu")     ? "click 3"
                                                      : "";
  double dx, dy, at_x, at_y;

  gtk_native_get_surface_transform (native, &dx, &dy);
  gtk_widget_translate_coordinates (widget, GTK_WIDGET (native), x, y, &at_x, &at_y);
  words = g_strdup_printf ("xdotool mousemove --window %lu %.0f %.0f %s",
                           gdk_x11_surface_get_xid (gtk_native_get_surface (native)), at_x + dx, at_y + dy,
                           then);
  g_spawn_command_line_sync (words, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  gdk_display_sync (gtk_widget_get_display (widget));
  hands_settle ();
  hands_frame (widget);
}

cairo_surface_t *
hands_picture (GtkWidget *widget)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);

  hands_frame (widget);
  gdk_paintable_snapshot (paintable, snapshot, width, height);
  g_autoptr (GskRenderNode) node = gtk_snapshot_free_to_node (snapshot);
  if (node != NULL)
    gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

const guint32 *
hands_row (cairo_surface_t *picture, int y)
{
  return (const guint32 *)(const void *)(cairo_image_surface_get_data (picture)
                                         + (gsize)y * (gsize)cairo_image_surface_get_stride (picture));
}

guint
hands_reddish (GtkWidget *widget)
{
  cairo_surface_t *picture = hands_picture (widget);
  guint n = 0;

  for (int y = 0; y < cairo_image_surface_get_height (picture); y++)
    {
      const guint32 *row = hands_row (picture, y);

      for (int x = 0; x < cairo_image_surface_get_width (picture); x++)
        n += (row[x] >> 16 & 0xff) > 2 * (row[x] & 0xff) && (row[x] >> 16 & 0xff) > 100;
    }
  cairo_surface_destroy (picture);
  return n;
}
