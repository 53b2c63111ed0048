/* The facts of the selected motifs. With one selected every fact can be changed; with several, the turn, the size and the switches they
 * share. Each change is one named step of the history, joined while a figure is being typed or stepped. */
#include "motif-pane.h"

#include <glib/gi18n.h>
#include <math.h>

#include "decisions-list.h"
#include "dialog.h"
#include "measure-field.h"
#include "thread-list.h"

#define FAR 20000      /* mm: farther than any cloth */
#define NOTE_HEIGHT 84 /* px: three lines */

struct _HwMotifPane
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *single; /* what only one motif has */
  GtkWidget *names;  /* what several are called */
  GtkWidget *name;
  GtkWidget *place;
  GtkWidget *x;
  GtkWidget *y;
  GtkWidget *angle;
  GtkWidget *percent;
  GtkWidget *sides;
  GtkWidget *width;
  GtkWidget *height;
  GtkWidget *mirrored;
  GtkWidget *locked;
  GtkWidget *more;
  GtkWidget *stitches;
  GtkWidget *threads;
  GtkTextBuffer *note;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwMotifPane, hw_motif_pane, GTK_TYPE_BOX)

/* Sets one property of every selected motif as one step; a motif that is locked keeps its place and shape. */
static void
set_all (HwMotifPane *pane, const char *verb, const char *property, const GValue *value, gboolean even_locked)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (pane->bench);
  HwScene *scene = hw_bench_get_scene (pane->bench);
  g_autofree char *name = hw_bench_edit_name (pane->bench, verb);

  hw_bench_begin_edit (pane->bench, name, TRUE);
  hw_scene_hold (scene);
  for (guint i = 0; i < selection->len; i++)
    {
      HwSceneMotif *motif = g_ptr_array_index (selection, i);
      if (even_locked || !hw_scene_motif_get_record (motif)->locked)
        g_object_set_property (G_OBJECT (motif), property, value);
    }
  hw_scene_release (scene);
  hw_bench_end_edit (pane->bench);
}

static void
set_all_double (HwMotifPane *pane, const char *verb, const char *property, double number)
{
  g_auto (GValue) value = G_VALUE_INIT;

  g_value_init (&value, G_TYPE_DOUBLE);
  g_value_set_double (&value, number);
  set_all (pane, verb, property, &value, FALSE);
}

static void
x_cb (HwMeasureField *field, double value, HwMotifPane *pane)
{
  set_all_double (pane, _ ("move"), "x", value);
}

static void
y_cb (HwMeasureField *field, double value, HwMotifPane *pane)
{
  set_all_double (pane, _ ("move"), "y", value);
}

static void
angle_cb (HwMeasureField *field, double value, HwMotifPane *pane)
{
  set_all_double (pane, _ ("turn"), "angle", value);
}

static void
percent_cb (HwMeasureField *field, double value, HwMotifPane *pane)
{
  set_all_double (pane, _ ("resize"), "percent", value);
}

static void
width_cb (HwMeasureField *field, double value, HwMotifPane *pane)
{
  set_all_double (pane, _ ("resize"), "width", value);
}

static void
height_cb (HwMeasureField *field, double value, HwMotifPane *pane)
{
  set_all_double (pane, _ ("resize"), "height", value);
}

static void
mirrored_cb (GtkCheckButton *check, HwMotifPane *pane)
{
  g_auto (GValue) value = G_VALUE_INIT;

  if (pane->updating)
    return;
  g_value_init (&value, G_TYPE_BOOLEAN);
  g_value_set_boolean (&value, gtk_check_button_get_active (check));
  set_all (pane, _ ("mirror"), "mirrored", &value, FALSE);
}

static void
locked_cb (GtkCheckButton *check, HwMotifPane *pane)
{
  if (!pane->updating)
    hw_bench_set_locked (pane->bench, gtk_check_button_get_active (check));
}

static void
set_all_text (HwMotifPane *pane, const char *verb, const char *property, const char *text)
{
  g_auto (GValue) value = G_VALUE_INIT;

  g_value_init (&value, G_TYPE_STRING);
  g_value_set_string (&value, text);
  set_all (pane, verb, property, &value, TRUE);
}

static void
name_cb (GtkEditable *editable, HwMotifPane *pane)
{
  if (!pane->updating && *gtk_editable_get_text (editable) != '\0')
    set_all_text (pane, _ ("rename"), "name", gtk_editable_get_text (editable));
}

/* A motif keeps a name: a field left empty shows the last one again. */
static void
name_left_cb (GtkEventControllerFocus *focus, HwMotifPane *pane)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (pane->bench);

  if (selection->len != 1 || *gtk_editable_get_text (GTK_EDITABLE (pane->name)) != '\0')
    return;
  pane->updating = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (pane->name),
                         hw_scene_motif_get_record (g_ptr_array_index (selection, 0))->name);
  pane->updating = FALSE;
}

static void
note_cb (GtkTextBuffer *buffer, HwMotifPane *pane)
{
  GtkTextIter start, end;

  if (pane->updating)
    return;
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  g_autofree char *text = gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
  set_all_text (pane, _ ("write the note of"), "note", *text != '\0' ? text : NULL);
}

static void
show_note (HwMotifPane *pane, const char *note)
{
  GtkTextIter start, end;

  gtk_text_buffer_get_bounds (pane->note, &start, &end);
  g_autofree char *text = gtk_text_buffer_get_text (pane->note, &start, &end, FALSE);
  if (g_strcmp0 (text, note != NULL ? note : "") != 0)
    gtk_text_buffer_set_text (pane->note, note != NULL ? note : "", -1);
}

static void
show_measures (HwMotifPane *pane, HwSceneMotif *motif)
{
  double x, y, width, height, angle, percent;

  g_object_get (motif, "x", &x, "y", &y, "width", &width, "height", &height, "angle", &angle, "percent",
                &percent, NULL);
  hw_measure_field_set_value (HW_MEASURE_FIELD (pane->x), x);
  hw_measure_field_set_value (HW_MEASURE_FIELD (pane->y), y);
  hw_measure_field_set_value (HW_MEASURE_FIELD (pane->width), width);
  hw_measure_field_set_value (HW_MEASURE_FIELD (pane->height), height);
  hw_measure_field_set_value (HW_MEASURE_FIELD (pane->angle), angle);
  hw_measure_field_set_value (HW_MEASURE_FIELD (pane->percent), percent);
}

/* A switch several motifs do not agree on shows neither on nor off. */
static void
show_switches (HwMotifPane *pane, GPtrArray *selection)
{
  guint mirrored = 0, locked = 0;

  for (guint i = 0; i < selection->len; i++)
    {
      const HwMotif *record = hw_scene_motif_get_record (g_ptr_array_index (selection, i));
      mirrored += record->placement.mirrored ? 1 : 0;
      locked += record->locked ? 1 : 0;
    }
  gtk_check_button_set_active (GTK_CHECK_BUTTON (pane->mirrored), mirrored == selection->len);
  gtk_check_button_set_inconsistent (GTK_CHECK_BUTTON (pane->mirrored),
                                     mirrored > 0 && mirrored < selection->len);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (pane->locked), locked == selection->len);
  gtk_check_button_set_inconsistent (GTK_CHECK_BUTTON (pane->locked), locked > 0 && locked < selection->len);

  gboolean movable = locked < selection->len;
  gtk_widget_set_sensitive (pane->place, movable);
  gtk_widget_set_sensitive (pane->sides, movable);
  gtk_widget_set_sensitive (pane->mirrored, movable);
}

static void
show_single (HwMotifPane *pane, HwSceneMotif *motif)
{
  const HwMotif *record = hw_scene_motif_get_record (motif);
  guint stitches = hw_motif_stitches (record);
  g_autofree char *count = g_strdup_printf (ngettext ("%u stitch", "%u stitches", stitches), stitches);

  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (pane->name)), record->name) != 0)
    gtk_editable_set_text (GTK_EDITABLE (pane->name), record->name);
  gtk_label_set_label (GTK_LABEL (pane->stitches), count);
  show_note (pane, record->note);
}

static void
show_names (HwMotifPane *pane, GPtrArray *selection)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < selection->len && i < 12; i++)
    {
      if (i > 0)
        g_string_append (names, _ (", "));
      g_string_append (names, hw_scene_motif_get_record (g_ptr_array_index (selection, i))->name);
    }
  if (selection->len > 12)
    g_string_append (names, " …");
  gtk_label_set_label (GTK_LABEL (pane->names), names->str);
}

static void
update (HwMotifPane *pane)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (pane->bench);
  gboolean one = selection->len == 1;

  if (selection->len == 0)
    {
      hw_thread_list_set_motif (HW_THREAD_LIST (pane->threads), NULL);
      return;
    }
  pane->updating = TRUE;
  gtk_widget_set_visible (pane->single, one);
  gtk_widget_set_visible (pane->names, !one);
  gtk_widget_set_visible (pane->place, one);
  gtk_widget_set_visible (pane->more, one);
  gtk_widget_set_visible (gtk_widget_get_parent (pane->width), one);
  gtk_widget_set_visible (gtk_widget_get_parent (pane->height), one);

  show_measures (pane, g_ptr_array_index (selection, 0));
  show_switches (pane, selection);
  if (one)
    show_single (pane, g_ptr_array_index (selection, 0));
  else
    show_names (pane, selection);
  hw_thread_list_set_motif (HW_THREAD_LIST (pane->threads), one ? g_ptr_array_index (selection, 0) : NULL);
  pane->updating = FALSE;
}

static void
selection_cb (HwBench *bench, HwMotifPane *pane)
{
  update (pane);
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwMotifPane *pane)
{
  const guint shown = HW_SCENE_CHANGE_MOTIF_LIST | HW_SCENE_CHANGE_PLACEMENT | HW_SCENE_CHANGE_ARTWORK
                      | HW_SCENE_CHANGE_THREADS | HW_SCENE_CHANGE_WORDS;

  if (flags & shown)
    update (pane);
}

static void
hw_motif_pane_dispose (GObject *object)
{
  g_clear_object (&HW_MOTIF_PANE (object)->bench);
  G_OBJECT_CLASS (hw_motif_pane_parent_class)->dispose (object);
}

static void
hw_motif_pane_class_init (HwMotifPaneClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_motif_pane_dispose;
}

static void
hw_motif_pane_init (HwMotifPane *pane)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (pane), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (pane), 14);
  gtk_widget_add_css_class (GTK_WIDGET (pane), "facts");
}

static GtkWidget *
field (HwMotifPane *pane, HwMeasure measure, const char *label, double least, double most, GCallback edited)
{
  GtkWidget *widget = hw_measure_field_new (pane->bench, measure, label, least, most);

  g_signal_connect (widget, "edited", edited, pane);
  return widget;
}

static void
add_name (HwMotifPane *pane)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();

  pane->name = gtk_entry_new ();
  gtk_widget_add_css_class (pane->name, "name-entry");
  gtk_accessible_update_property (GTK_ACCESSIBLE (pane->name), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Name of the motif"), -1);
  g_signal_connect (pane->name, "changed", G_CALLBACK (name_cb), pane);
  g_signal_connect (focus, "leave", G_CALLBACK (name_left_cb), pane);
  gtk_widget_add_controller (pane->name, focus);
  pane->single = pane->name;
  gtk_box_append (GTK_BOX (pane), pane->single);

  pane->names = gtk_label_new (NULL);
  hw_wrap_words (pane->names);
  gtk_label_set_xalign (GTK_LABEL (pane->names), 0);
  gtk_box_append (GTK_BOX (pane), pane->names);
}

static void
add_measures (HwMotifPane *pane)
{
  pane->x = field (pane, HW_MEASURE_LENGTH, _ ("From the left"), -FAR, FAR, G_CALLBACK (x_cb));
  pane->y = field (pane, HW_MEASURE_LENGTH, _ ("From the top"), -FAR, FAR, G_CALLBACK (y_cb));
  pane->width = field (pane, HW_MEASURE_LENGTH, _ ("Width"), 0.1, FAR, G_CALLBACK (width_cb));
  pane->height = field (pane, HW_MEASURE_LENGTH, _ ("Height"), 0.1, FAR, G_CALLBACK (height_cb));
  pane->angle = field (pane, HW_MEASURE_ANGLE, _ ("Turn"), -360, 360, G_CALLBACK (angle_cb));
  pane->percent = field (pane, HW_MEASURE_PERCENT, _ ("Size"), 1, 1000, G_CALLBACK (percent_cb));

  pane->place = hw_dialog_pair (hw_captioned (_ ("From the left"), pane->x),
                                hw_captioned (_ ("From the top"), pane->y));
  pane->sides = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gtk_box_append (GTK_BOX (pane->sides), hw_dialog_pair (hw_captioned (_ ("Width"), pane->width),
                                                         hw_captioned (_ ("Height"), pane->height)));
  gtk_box_append (GTK_BOX (pane->sides), hw_dialog_pair (hw_captioned (_ ("Turn"), pane->angle),
                                                         hw_captioned (_ ("Size"), pane->percent)));
  gtk_box_append (GTK_BOX (pane), pane->place);
  gtk_box_append (GTK_BOX (pane), pane->sides);
}

static void
add_switches (HwMotifPane *pane)
{
  pane->mirrored = gtk_check_button_new_with_label (_ ("Mirrored"));
  pane->locked = gtk_check_button_new_with_label (_ ("Lock in place"));
  g_signal_connect (pane->mirrored, "toggled", G_CALLBACK (mirrored_cb), pane);
  g_signal_connect (pane->locked, "toggled", G_CALLBACK (locked_cb), pane);
  gtk_box_append (GTK_BOX (pane), hw_dialog_pair (pane->mirrored, pane->locked));
}

static void
add_threads_and_note (HwMotifPane *pane)
{
  GtkWidget *heading = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *threads = gtk_label_new (_ ("Threads, in stitching order"));
  GtkWidget *frame = gtk_scrolled_window_new ();
  GtkWidget *view = gtk_text_view_new ();

  pane->more = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gtk_widget_add_css_class (threads, "caption");
  gtk_label_set_xalign (GTK_LABEL (threads), 0);
  gtk_widget_set_hexpand (threads, TRUE);
  pane->stitches = gtk_label_new (NULL);
  gtk_widget_add_css_class (pane->stitches, "caption");
  GtkWidget *outline = gtk_button_new_with_label (_ ("Edit the outline…"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (outline), "win.edit-outline");
  gtk_box_append (GTK_BOX (pane->more), outline);
  gtk_box_append (GTK_BOX (heading), threads);
  gtk_box_append (GTK_BOX (heading), pane->stitches);
  pane->threads = hw_thread_list_new (pane->bench);

  pane->note = gtk_text_view_get_buffer (GTK_TEXT_VIEW (view));
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view), FALSE);
  /* A text view does not know its height before it was laid out once: it gets one. */
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (frame), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_size_request (frame, -1, NOTE_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (frame), view);
  gtk_widget_add_css_class (frame, "note");
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Note: where the motif comes from, what its licence allows"), -1);
  g_signal_connect (pane->note, "changed", G_CALLBACK (note_cb), pane);

  gtk_box_append (GTK_BOX (pane->more), heading);
  gtk_box_append (GTK_BOX (pane->more), pane->threads);
  gtk_box_append (GTK_BOX (pane->more), hw_captioned (_ ("Origin and licence"), frame));
  gtk_box_append (GTK_BOX (pane), pane->more);
}

GtkWidget *
hw_motif_pane_new (HwBench *bench)
{
  HwMotifPane *pane = g_object_new (HW_TYPE_MOTIF_PANE, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (pane));
  pane->bench = g_object_ref (bench);
  add_name (pane);
  add_measures (pane);
  add_switches (pane);
  gtk_box_append (GTK_BOX (pane), hw_decisions_list_new (bench, FALSE));
  add_threads_and_note (pane);
  g_signal_connect_object (bench, "selection-changed", G_CALLBACK (selection_cb), pane, 0);
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), pane, 0);
  return GTK_WIDGET (pane);
}
