/* A witness inside the program, put there by the tests (LD_PRELOAD): on SIGUSR2 it writes down what the accessibility tree cannot tell. Of every label
 * in sight: what it says, and whether that is cut off; of every button that shows a picture alone: its tooltip; of every control the keyboard should
 * come to: where it lies and whether it is there now. One JSON array, into the file that HOOPWRIGHT_WITNESS names. It can also make letters larger, as
 * the desktop does, and have a program that counts what of it runs (HOOPWRIGHT_COUNTED) write its counts when it is asked to end. */
#include <dlfcn.h>
#include <errno.h>
#include <glib-unix.h>
#include <glib/gstdio.h>
#include <gtk/gtk.h>
#include <json-glib/json-glib.h>

#define SLACK 1.0 /* px: what rounding may take */

static const char *
tip_over (GtkWidget *widget)
{
  for (; widget != NULL && !GTK_IS_ROOT (widget); widget = gtk_widget_get_parent (widget))
    if (gtk_widget_get_tooltip_text (widget) != NULL)
      return gtk_widget_get_tooltip_text (widget);
  return NULL;
}

static char *
place_of (GtkWidget *widget)
{
  GString *place = g_string_new (NULL);

  for (int i = 0; i < 5 && widget != NULL; i++, widget = gtk_widget_get_parent (widget))
    {
      g_auto (GStrv) classes = gtk_widget_get_css_classes (widget);
      g_autofree char *joined = g_strjoinv (".", classes);

      g_string_prepend (place, joined);
      g_string_prepend (place, *joined != '\0' ? "." : "");
      g_string_prepend (place, G_OBJECT_TYPE_NAME (widget));
      if (i < 4)
        g_string_prepend (place, " > ");
    }
  return g_string_free (place, FALSE);
}

/* The part of the window that holds the widget and does not scroll sideways. */
static GtkWidget *
room_of (GtkWidget *widget)
{
  GtkWidget *pane = gtk_widget_get_ancestor (widget, GTK_TYPE_SCROLLED_WINDOW);

  return pane != NULL ? pane : GTK_WIDGET (gtk_widget_get_native (widget));
}

static const char *
how_cut (GtkLabel *label)
{
  GtkWidget *widget = GTK_WIDGET (label), *parent = gtk_widget_get_parent (widget), *room = room_of (widget);
  PangoLayout *layout = gtk_label_get_layout (label);
  gboolean scrolls = GTK_IS_SCROLLED_WINDOW (room);
  graphene_rect_t in_room, in_parent;
  int width, height;

  if (pango_layout_is_ellipsized (layout))
    return "ellipsised";
  pango_layout_get_pixel_size (layout, &width, &height);
  if (width > gtk_widget_get_width (widget) + SLACK)
    return "wider than its label";
  if (height > gtk_widget_get_height (widget) + SLACK)
    return "higher than its label";
  if (scrolls)
    {
      GtkPolicyType across;
      gtk_scrolled_window_get_policy (GTK_SCROLLED_WINDOW (room), &across, NULL);
      if (across != GTK_POLICY_NEVER)
        return NULL;
    }
  if (gtk_widget_compute_bounds (widget, room, &in_room)
      && (in_room.origin.x < -SLACK
          || in_room.origin.x + in_room.size.width > gtk_widget_get_width (room) + SLACK
          || (!scrolls
              && (in_room.origin.y < -SLACK
                  || in_room.origin.y + in_room.size.height > gtk_widget_get_height (room) + SLACK))))
    return "beyond the window";
  if (gtk_widget_compute_bounds (widget, parent, &in_parent)
      && in_parent.origin.x + in_parent.size.width
             > gtk_widget_get_width (parent) + SLACK + 24 /* a margin may be negative */)
    return "beyond its parent";
  return NULL;
}

static void
tell (JsonBuilder *told, const char *key, const char *value)
{
  json_builder_set_member_name (told, key);
  json_builder_add_string_value (told, value != NULL ? value : "");
}

static void
tell_label (JsonBuilder *told, GtkWidget *widget)
{
  const char *text = gtk_label_get_text (GTK_LABEL (widget));
  g_autofree char *place = place_of (widget);

  if (*text == '\0' || gtk_widget_get_width (widget) == 0)
    return;
  json_builder_begin_object (told);
  tell (told, "kind", "label");
  tell (told, "text", text);
  tell (told, "tip", tip_over (widget));
  tell (told, "cut", how_cut (GTK_LABEL (widget)));
  tell (told, "place", place);
  json_builder_end_object (told);
}

static gboolean
has_words (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget) && *gtk_label_get_text (GTK_LABEL (widget)) != '\0')
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (!GTK_IS_NATIVE (child) && has_words (child))
      return TRUE;
  return FALSE;
}

/* The parts that GTK makes of its own controls are GTK's. */
static gboolean
is_part_of_a_control (GtkWidget *widget)
{
  static const char *const wholes[]
      = { "GtkSpinButton",        "GtkWindowControls",  "GtkDropDown",    "GtkColorButton",
          "GtkFontButton",        "GtkComboBox",        "GtkSearchEntry", "GtkFileChooserWidget",
          "GtkFileChooserDialog", "GtkShortcutsWindow", "GtkScale",       "GtkColorChooserDialog" };

  for (GtkWidget *whole = widget; whole != NULL; whole = gtk_widget_get_parent (whole))
    for (guint i = 0; i < G_N_ELEMENTS (wholes); i++)
      if (g_str_equal (G_OBJECT_TYPE_NAME (whole), wholes[i]))
        return TRUE;
  return FALSE;
}

static void
tell_picture_button (JsonBuilder *told, GtkWidget *widget)
{
  g_autofree char *place = place_of (widget);

  json_builder_begin_object (told);
  tell (told, "kind", "picture button");
  tell (told, "text", "");
  tell (told, "tip", tip_over (widget));
  tell (told, "cut", NULL);
  tell (told, "place", place);
  json_builder_end_object (told);
}

/* What the Tab key should come to by itself: rows of a list and of a menu are gone through with the arrows, and of choices that exclude each other
 * one stands for all. */
static gboolean
is_stop (GtkWidget *widget)
{
  if (!gtk_widget_get_focusable (widget) || !gtk_widget_is_sensitive (widget)
      || gtk_widget_get_ancestor (widget, GTK_TYPE_WINDOW_CONTROLS) != NULL
      || (GTK_IS_BUTTON (widget) && gtk_widget_get_ancestor (widget, GTK_TYPE_SPIN_BUTTON) != NULL))
    return FALSE;
  return GTK_IS_BUTTON (widget) || GTK_IS_CHECK_BUTTON (widget) || GTK_IS_TEXT (widget)
         || GTK_IS_TEXT_VIEW (widget) || GTK_IS_SWITCH (widget) || GTK_IS_RANGE (widget)
         || g_str_equal (G_OBJECT_TYPE_NAME (widget), "HwCanvas");
}

static void
tell_stop (JsonBuilder *told, GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);
  g_autofree char *place = place_of (widget);
  g_autofree char *id = g_strdup_printf ("%p", (void *)widget);
  graphene_rect_t box = GRAPHENE_RECT_INIT (0, 0, 0, 0);
  const float sides[]
      = { gtk_widget_compute_bounds (widget, GTK_WIDGET (gtk_widget_get_native (widget)), &box) ? box.origin.x
                                                                                                : 0,
          box.origin.y, box.size.width, box.size.height };

  json_builder_begin_object (told);
  tell (told, "kind", "stop");
  tell (told, "text", id);
  tell (told, "tip", tip_over (widget));
  tell (told, "cut", NULL);
  tell (told, "place", place);
  json_builder_set_member_name (told, "focused");
  json_builder_add_boolean_value (told, root != NULL && gtk_root_get_focus (root) == widget
                                            && gtk_window_is_active (GTK_WINDOW (root)));
  json_builder_set_member_name (told, "box");
  json_builder_begin_array (told);
  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    json_builder_add_double_value (told, sides[i]);
  json_builder_end_array (told);
  json_builder_end_object (told);
}

static void
look_at (JsonBuilder *told, GtkWidget *widget)
{
  /* What is transparent only keeps a place. */
  if (!gtk_widget_get_mapped (widget) || gtk_widget_get_opacity (widget) == 0)
    return;
  if (is_stop (widget))
    tell_stop (told, widget);
  if (GTK_IS_LABEL (widget))
    tell_label (told, widget);
  else if (GTK_IS_BUTTON (widget) && !has_words (widget) && !is_part_of_a_control (widget))
    tell_picture_button (told, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    look_at (told, child);
}

static gboolean
tell_all_cb (gpointer user_data)
{
  const char *path = g_getenv ("HOOPWRIGHT_WITNESS");
  g_autoptr (JsonBuilder) told = json_builder_new ();
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (GListModel) windows = g_object_ref (gtk_window_get_toplevels ());

  json_builder_begin_array (told);
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);
      look_at (told, window);
    }
  json_builder_end_array (told);
  g_autoptr (JsonNode) root = json_builder_get_root (told);
  json_generator_set_root (generator, root);
  g_autofree char *text = json_generator_to_data (generator, NULL);
  /* Replaced whole, so that nothing is read half written; it need not outlast a power cut. */
  g_autofree char *beside = g_strconcat (path, ".new", NULL);
  if (g_file_set_contents_full (beside, text, -1, G_FILE_SET_CONTENTS_NONE, 0600, NULL))
    g_rename (beside, path);
  return G_SOURCE_REMOVE;
}

/* First the window does what lies before it: keys and clicks that have come, its layout, its drawing. */
static gboolean
asked_cb (gpointer user_data)
{
  g_idle_add_full (G_PRIORITY_LOW, tell_all_cb, NULL, NULL);
  return G_SOURCE_CONTINUE;
}

/* Letters of another size, in 1/1024 of a dot per inch, as the desktop's setting for large text has it. */
static gboolean
letters_cb (gpointer user_data)
{
  GtkSettings *settings = gtk_is_initialized () ? gtk_settings_get_default () : NULL;

  if (settings == NULL)
    return G_SOURCE_CONTINUE;
  g_object_set (settings, "gtk-xft-dpi", atoi (g_getenv ("HOOPWRIGHT_WITNESS_DPI")), NULL);
  return G_SOURCE_REMOVE;
}

/* GTK 4.8 forgets the present moment when its list of recent files changes (gtk_recent_manager_clamp_to_age). The sanitizer does not see as far as this
 * function, so that it cannot be told by name: what GTK asked for here counts as kept. */
GDateTime *
g_date_time_new_now_utc (void)
{
  static GDateTime *(*real) (void);
  static GSList *asked_by_gtk; /* owns nothing */
  Dl_info from;

  if (real == NULL)
    real = (GDateTime * (*)(void)) dlsym (RTLD_NEXT, "g_date_time_new_now_utc");
  GDateTime *now = real ();
  if (dladdr (__builtin_return_address (0), &from) != 0 && strstr (from.dli_fname, "libgtk-4") != NULL)
    asked_by_gtk = g_slist_prepend (asked_by_gtk, now);
  return now;
}

/* What is killed writes no counts, and nobody looks for what it lost; what ends by itself does. */
static gboolean
end_cb (gpointer user_data)
{
  exit (0);
}

__attribute__ ((constructor)) static void
begin (void)
{
  if (!g_str_has_prefix (program_invocation_short_name,
                         "hoopwright")) /* a shell that is about to become the program */
    return;
  if (g_getenv ("HOOPWRIGHT_WITNESS") != NULL)
    g_unix_signal_add (SIGUSR2, asked_cb, NULL);
  if (g_getenv ("HOOPWRIGHT_WITNESS_DPI") != NULL)
    g_timeout_add (20, letters_cb, NULL);
  if (g_getenv ("HOOPWRIGHT_COUNTED") != NULL || g_getenv ("HOOPWRIGHT_PATIENCE") != NULL)
    g_unix_signal_add (SIGTERM, end_cb, NULL);
  g_unsetenv ("LD_PRELOAD"); /* what the program starts needs no witness */
}
