/* A field for one measure. The figure is kept in mm, degrees or per cent; what is shown and what may be typed follows the unit. */
#include "measure-field.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../geometry/one-line.h"

struct _HwMeasureField
{
  GtkWidget parent_instance;

  GtkWidget *spin;
  HwBench *bench;
  HwMeasure measure;
  gboolean updating;
  char *refused; /* why what was typed is not taken, until it is said */
  GtkWidget *slip;
  GtkWidget *slip_words;
  guint slip_goes;     /* source */
  gboolean is_looking; /* whether the field is still in sight */
  guint slip_looks;    /* in how many frames since it moved */
};

G_DEFINE_FINAL_TYPE (HwMeasureField, hw_measure_field, GTK_TYPE_WIDGET)

enum
{
  EDITED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static char *
text_of (HwMeasureField *field, double value)
{
  switch (field->measure)
    {
    case HW_MEASURE_LENGTH:
      return hw_length_text (value, hw_bench_get_unit (field->bench));
    case HW_MEASURE_ANGLE:
      return hw_angle_text (value);
    case HW_MEASURE_PERCENT:
      /* Translators: a size in per cent, "96.5 %" */
      return g_strdup_printf (_ ("%.1f %%"), value);
    case HW_MEASURE_COUNT:
      return g_strdup_printf ("%.0f", value);
    case HW_MEASURE_MINUTES:
      return g_strdup_printf (_ ("%.1f min"), value);
    case HW_MEASURE_DENSITY:
      return g_strdup_printf ("%.1f", value);
    case HW_MEASURE_THICKNESS:
      return g_strdup_printf (_ ("%.2f mm"), value);
    case HW_MEASURE_METRES:
      return g_strdup_printf (_ ("%.1f m"), value);
    case HW_MEASURE_HOURS:
      /* Translators: hours: "8.0 h" */
      return g_strdup_printf (_ ("%.1f h"), value);
    default:
      g_assert_not_reached ();
    }
}

/* Whether what stands after a figure makes a length of it. */
static gboolean
names_length (const char *rest)
{
  static const char *const units[] = { "mm", "cm", "in", "inch", "inches", "\"", "″", "”" };

  while (g_unichar_isspace (g_utf8_get_char (rest)))
    rest = g_utf8_next_char (rest);
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_ascii_strcasecmp (rest, units[i]) == 0)
      return TRUE;
  return FALSE;
}

/* A figure with point or comma, whatever stands after it; but 90 mm is no size in per cent. */
static gboolean
read_figure (const char *text, double *value)
{
  g_autofree char *copy = hw_narrow_text (text);
  char *end;

  g_strdelimit (copy, ",", '.');
  double read = g_ascii_strtod (g_strstrip (copy), &end);
  if (end == copy || !isfinite (read) || names_length (end))
    return FALSE;
  *value = read;
  return TRUE;
}

#define SLIP_SECONDS 10

static void
put_slip_away (HwMeasureField *field)
{
  g_clear_handle_id (&field->slip_goes, g_source_remove);
  if (field->slip != NULL)
    gtk_popover_popdown (GTK_POPOVER (field->slip));
}

static gboolean
slip_goes_cb (gpointer user_data)
{
  HwMeasureField *field = user_data;

  field->slip_goes = 0;
  put_slip_away (field);
  return G_SOURCE_REMOVE;
}

/* Whether any of it can be seen where all that holds it is scrolled to. */
static gboolean
is_in_sight (HwMeasureField *field)
{
  graphene_rect_t at;

  for (GtkWidget *around = gtk_widget_get_parent (GTK_WIDGET (field)); around != NULL;
       around = GTK_IS_NATIVE (around) ? NULL : gtk_widget_get_parent (around))
    if ((GTK_IS_VIEWPORT (around) || GTK_IS_NATIVE (around))
        && (!gtk_widget_compute_bounds (GTK_WIDGET (field), around, &at) || at.origin.y + at.size.height <= 0
            || at.origin.y >= gtk_widget_get_height (around)))
      return FALSE;
  return TRUE;
}

static gboolean
look_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  HwMeasureField *field = HW_MEASURE_FIELD (widget);

  /* The first frame has yet to lay out what moved. */
  if (field->slip_looks++ == 0)
    return G_SOURCE_CONTINUE;
  field->slip_looks = 0;
  if (!is_in_sight (field))
    put_slip_away (field);
  field->is_looking = FALSE;
  return G_SOURCE_REMOVE;
}

/* A slip goes with its field when that is scrolled out of sight. */
static void
moved_cb (HwMeasureField *field)
{
  field->slip_looks = 0;
  if (field->slip_goes == 0 || field->is_looking)
    return;
  field->is_looking = TRUE;
  gtk_widget_add_tick_callback (GTK_WIDGET (field), look_cb, NULL, NULL);
}

static void
watch_moves (HwMeasureField *field)
{
  for (GtkWidget *around = gtk_widget_get_parent (GTK_WIDGET (field)); around != NULL;
       around = gtk_widget_get_parent (around))
    if (GTK_IS_VIEWPORT (around))
      {
        GtkAdjustment *way = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (around));

        g_signal_connect_object (way, "changed", G_CALLBACK (moved_cb), field, G_CONNECT_SWAPPED);
        g_signal_connect_object (way, "value-changed", G_CALLBACK (moved_cb), field, G_CONNECT_SWAPPED);
      }
}

/* It belongs to the window and stays where it came up: on X11 GTK 4.8 fails with a popover that is pushed off the screen with what it belongs to.
 * Above the field, so that the next one can be clicked, and without taking the keys from where they are: who goes on is told all the same. */
static void
say_on_slip (HwMeasureField *field, const char *words)
{
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (field));
  graphene_rect_t at;

  if (!gtk_widget_get_mapped (GTK_WIDGET (field)) || !is_in_sight (field)
      || !gtk_widget_compute_bounds (GTK_WIDGET (field), GTK_WIDGET (native), &at))
    return;
  if (field->slip == NULL)
    {
      field->slip_words
          = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "wrap", TRUE,
                          "wrap-mode", PANGO_WRAP_WORD_CHAR, "max-width-chars", 32, "xalign", 0.0, NULL);
      gtk_widget_add_css_class (field->slip_words, "trouble");
      field->slip = gtk_popover_new ();
      gtk_popover_set_autohide (GTK_POPOVER (field->slip), FALSE);
      gtk_popover_set_position (GTK_POPOVER (field->slip), GTK_POS_TOP);
      gtk_popover_set_child (GTK_POPOVER (field->slip), field->slip_words);
      gtk_widget_set_parent (field->slip, GTK_WIDGET (native));
      watch_moves (field);

      GtkGesture *press = gtk_gesture_click_new ();
      g_signal_connect_swapped (press, "pressed", G_CALLBACK (put_slip_away), field);
      gtk_widget_add_controller (field->slip, GTK_EVENT_CONTROLLER (press));
    }
  put_slip_away (field);
  gtk_label_set_text (GTK_LABEL (field->slip_words), words);
  gtk_popover_set_pointing_to (
      GTK_POPOVER (field->slip),
      &(GdkRectangle){ (int)at.origin.x, (int)at.origin.y, (int)at.size.width, (int)at.size.height });
  gtk_popover_popup (GTK_POPOVER (field->slip));
  field->slip_goes = g_timeout_add_seconds (SLIP_SECONDS, slip_goes_cb, field);
}

/* Whether what was typed is a measure of the field's kind. */
static gboolean
read_measure (HwMeasureField *field, const char *text, double *value)
{
  if (field->measure == HW_MEASURE_THICKNESS)
    return hw_length_parse (text, HW_UNIT_MM, value);
  if (field->measure == HW_MEASURE_LENGTH)
    return hw_length_parse (text, hw_bench_get_unit (field->bench), value);
  return read_figure (text, value);
}

static int
input_cb (GtkSpinButton *spin, double *value, HwMeasureField *field)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (spin));
  g_autofree char *shown = text_of (field, gtk_spin_button_get_value (spin));
  double least, most;

  g_clear_pointer (&field->refused, g_free);
  /* What is shown is rounded: reading it back must not change the value. */
  if (g_str_equal (text, shown))
    {
      *value = gtk_spin_button_get_value (spin);
      return TRUE;
    }
  if (!read_measure (field, text, value))
    {
      g_autofree char *quote = hw_one_line_quote (text);

      /* Translators: what was typed into a field, and the measure that it keeps: “far” ... 41.3 mm */
      field->refused
          = g_strdup_printf (_ ("“%s” is no figure for this field. It stays at %s."), quote, shown);
      return GTK_INPUT_ERROR;
    }
  gtk_spin_button_get_range (spin, &least, &most);
  if (*value >= least && *value <= most)
    return TRUE;
  g_autofree char *from = text_of (field, least), *to = text_of (field, most);
  /* Translators: the least and the most that a field takes, and what it keeps: 1.0 mm, 500.0 mm, 41.3 mm */
  field->refused = g_strdup_printf (_ ("From %s to %s can be typed here. It stays at %s."), from, to, shown);
  return GTK_INPUT_ERROR;
}

static gboolean
output_cb (GtkSpinButton *spin, HwMeasureField *field)
{
  g_autofree char *text = text_of (field, gtk_spin_button_get_value (spin));
  g_autofree char *refused = g_steal_pointer (&field->refused);

  if (!g_str_equal (text, gtk_editable_get_text (GTK_EDITABLE (spin))))
    gtk_editable_set_text (GTK_EDITABLE (spin), text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (spin), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, text, -1);
  if (refused != NULL)
    say_on_slip (field, refused);
  return TRUE;
}

static void
value_changed_cb (GtkSpinButton *spin, HwMeasureField *field)
{
  if (!field->updating)
    g_signal_emit (field, signals[EDITED], 0, gtk_spin_button_get_value (spin));
}

static void
set_step (HwMeasureField *field)
{
  double step = 1;

  if (field->measure == HW_MEASURE_LENGTH)
    step = hw_bench_get_unit (field->bench) == HW_UNIT_INCH ? HW_MM_PER_INCH / 32 : 0.5;
  else if (field->measure == HW_MEASURE_THICKNESS)
    step = 0.05;
  else if (field->measure == HW_MEASURE_HOURS || field->measure == HW_MEASURE_MINUTES
           || field->measure == HW_MEASURE_DENSITY)
    step = 0.5;
  gtk_spin_button_set_increments (GTK_SPIN_BUTTON (field->spin), step, step * 10);
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, HwMeasureField *field)
{
  set_step (field);
  output_cb (GTK_SPIN_BUTTON (field->spin), field);
}

/* Turning the wheel to move through a pane must not change figures under the pointer. */
static void
ignore_wheel (GtkWidget *spin)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (spin);
  guint n = g_list_model_get_n_items (controllers);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
        gtk_event_controller_set_propagation_phase (controller, GTK_PHASE_NONE);
    }
}

/* Undo means the scene's, also from here: heard before the text field takes the keys for its own. */
static void
undo_the_scene (GtkWidget *spin)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Control>z"), gtk_named_action_new ("win.undo")));
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_shortcut_trigger_parse_string ("<Control><Shift>z"),
                        gtk_named_action_new ("win.redo")));
  gtk_widget_add_controller (spin, keys);
}

/* Thousands of stitches are typed, not stepped; the room is better used for the thread's name. */
static void
hide_buttons (GtkWidget *spin)
{
  for (GtkWidget *child = gtk_widget_get_first_child (spin); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_BUTTON (child))
      gtk_widget_set_visible (child, FALSE);
}

static void
hw_measure_field_dispose (GObject *object)
{
  HwMeasureField *field = HW_MEASURE_FIELD (object);

  g_clear_handle_id (&field->slip_goes, g_source_remove);
  g_clear_pointer (&field->slip, gtk_widget_unparent);
  g_clear_pointer (&field->spin, gtk_widget_unparent);
  g_clear_pointer (&field->refused, g_free);
  g_clear_object (&field->bench);
  G_OBJECT_CLASS (hw_measure_field_parent_class)->dispose (object);
}

static void
hw_measure_field_class_init (HwMeasureFieldClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_measure_field_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "measurefield");
  signals[EDITED] = g_signal_new ("edited", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_DOUBLE);
}

static void
hw_measure_field_init (HwMeasureField *field)
{
}

GtkWidget *
hw_measure_field_new (HwBench *bench, HwMeasure measure, const char *label, double least, double most)
{
  HwMeasureField *field = g_object_new (HW_TYPE_MEASURE_FIELD, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (field));

  field->bench = g_object_ref (bench);
  field->measure = measure;
  field->spin = gtk_spin_button_new_with_range (least, most, 1);
  /* Digits round what is typed; enough of them keep an inch figure exact. */
  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (field->spin), measure == HW_MEASURE_COUNT ? 0 : 6);
  gtk_spin_button_set_numeric (GTK_SPIN_BUTTON (field->spin), FALSE);
  gtk_spin_button_set_update_policy (GTK_SPIN_BUTTON (field->spin), GTK_UPDATE_IF_VALID);
  gtk_editable_set_width_chars (GTK_EDITABLE (field->spin), 7);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (field->spin), 7);
  undo_the_scene (field->spin);
  gtk_widget_set_parent (field->spin, GTK_WIDGET (field));
  gtk_accessible_update_property (GTK_ACCESSIBLE (field->spin), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  ignore_wheel (field->spin);
  if (measure == HW_MEASURE_COUNT)
    hide_buttons (field->spin);
  set_step (field);

  g_signal_connect (field->spin, "input", G_CALLBACK (input_cb), field);
  g_signal_connect (field->spin, "output", G_CALLBACK (output_cb), field);
  g_signal_connect (field->spin, "value-changed", G_CALLBACK (value_changed_cb), field);
  g_signal_connect_swapped (field->spin, "changed", G_CALLBACK (put_slip_away), field);
  g_signal_connect (field, "unmap", G_CALLBACK (put_slip_away), NULL);
  g_signal_connect_object (bench, "notify::unit", G_CALLBACK (unit_cb), field, 0);
  output_cb (GTK_SPIN_BUTTON (field->spin), field);
  return GTK_WIDGET (field);
}

/* A file may hold more, or less, than is typed here; that is shown as it is. What is 0 there is not known. */
static void
reach (GtkSpinButton *spin, double value)
{
  double least, most;

  gtk_spin_button_get_range (spin, &least, &most);
  if (value > most || (value > 0 && value < least))
    gtk_spin_button_set_range (spin, MIN (least, value), MAX (most, value));
}

void
hw_measure_field_set_value (HwMeasureField *field, double value)
{
  g_return_if_fail (HW_IS_MEASURE_FIELD (field));

  field->updating = TRUE;
  reach (GTK_SPIN_BUTTON (field->spin), value);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (field->spin), value);
  field->updating = FALSE;
}

double
hw_measure_field_get_value (HwMeasureField *field)
{
  g_return_val_if_fail (HW_IS_MEASURE_FIELD (field), 0);
  return gtk_spin_button_get_value (GTK_SPIN_BUTTON (field->spin));
}

GtkWidget *
hw_captioned (const char *caption, GtkWidget *field)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *label = gtk_label_new (caption);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "caption");
  gtk_widget_set_hexpand (box, TRUE);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), field);
  return box;
}
