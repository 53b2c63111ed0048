/* What the plan is made for. Each change is one step of the history; figures typed or stepped are joined. */
#include "wishes-fields.h"

#include <glib/gi18n.h>
#include <math.h>

#include "dialog.h"
#include "measure-field.h"

#define LEAST_SCALE 10 /* per cent */
#define MOST_SCALE 1000
#define LEAST_MARKS 2
#define MOST_MARKS 4

struct _HwWishesFields
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *best;
  GtkWidget *interleave;
  GtkWidget *per_hooping;
  GtkWidget *per_change;
  GtkWidget *per_minute;
  GtkWidget *density;
  GtkWidget *marks;
  GtkWidget *tolerance;
  GtkWidget *scale_low;
  GtkWidget *scale_high;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwWishesFields, hw_wishes_fields, GTK_TYPE_BOX)

static void
update (HwWishesFields *fields)
{
  HwScene *scene = hw_bench_get_scene (fields->bench);
  const HwWishes *wishes = hw_scene_get_wishes (scene);
  const HwMachine *machine = hw_scene_get_machine (scene);

  fields->updating = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->best), (guint)wishes->best);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (fields->interleave), wishes->interleave);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->per_hooping), machine->minutes_per_hooping);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->per_change), machine->minutes_per_change);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->per_minute), machine->stitches_per_minute);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->density), wishes->density_limit);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->marks), wishes->marks);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->tolerance), wishes->tolerance);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->scale_low), wishes->scale_low * 100);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->scale_high), wishes->scale_high * 100);
  fields->updating = FALSE;
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwWishesFields *fields)
{
  if (flags & HW_SCENE_CHANGE_MACHINE)
    update (fields);
}

static void
best_cb (GtkDropDown *drop_down, GParamSpec *pspec, HwWishesFields *fields)
{
  if (!fields->updating)
    hw_bench_set_best (fields->bench,
                       gtk_drop_down_get_selected (drop_down) == 1 ? HW_BEST_LEAST_TIME : HW_BEST_FEWEST);
}

static void
interleave_cb (GtkCheckButton *check, HwWishesFields *fields)
{
  if (!fields->updating)
    hw_bench_set_interleave (fields->bench, gtk_check_button_get_active (check));
}

static void
pace_cb (HwMeasureField *field, double value, HwWishesFields *fields)
{
  hw_bench_set_pace (fields->bench, hw_measure_field_get_value (HW_MEASURE_FIELD (fields->per_hooping)),
                     hw_measure_field_get_value (HW_MEASURE_FIELD (fields->per_change)),
                     hw_measure_field_get_value (HW_MEASURE_FIELD (fields->per_minute)));
}

static void
limit_cb (HwMeasureField *field, double value, HwWishesFields *fields)
{
  hw_bench_set_limits (fields->bench, hw_measure_field_get_value (HW_MEASURE_FIELD (fields->density)),
                       hw_measure_field_get_value (HW_MEASURE_FIELD (fields->tolerance)));
}

static void
marks_cb (HwMeasureField *field, double value, HwWishesFields *fields)
{
  hw_bench_set_least_marks (fields->bench, (guint)CLAMP (lround (value), LEAST_MARKS, MOST_MARKS));
}

/* The one that was changed takes the other along rather than pass it. */
static void
scale_cb (HwMeasureField *field, double value, HwWishesFields *fields)
{
  double low = hw_measure_field_get_value (HW_MEASURE_FIELD (fields->scale_low)) / 100;
  double high = hw_measure_field_get_value (HW_MEASURE_FIELD (fields->scale_high)) / 100;

  if (GTK_WIDGET (field) == fields->scale_low)
    high = MAX (low, high);
  else
    low = MIN (low, high);
  hw_bench_set_scale_range (fields->bench, low, high);
}

static void
hw_wishes_fields_dispose (GObject *object)
{
  g_clear_object (&HW_WISHES_FIELDS (object)->bench);
  G_OBJECT_CLASS (hw_wishes_fields_parent_class)->dispose (object);
}

static void
hw_wishes_fields_class_init (HwWishesFieldsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_wishes_fields_dispose;
}

static void
hw_wishes_fields_init (HwWishesFields *fields)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (fields), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (fields), 14);
  gtk_widget_add_css_class (GTK_WIDGET (fields), "facts");
}

static GtkWidget *
measure (
    HwWishesFields *fields, HwMeasure kind, const char *label, double least, double most, GCallback edited)
{
  GtkWidget *field = hw_measure_field_new (fields->bench, kind, label, least, most);

  g_signal_connect (field, "edited", edited, fields);
  return field;
}

static GtkWidget *
wrapped_check (const char *text)
{
  GtkWidget *check = gtk_check_button_new ();
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 34);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (check), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (check), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  return check;
}

GtkWidget *
hw_wishes_fields_new (HwBench *bench)
{
  /* In the order of HwBest. */
  const char *bests[] = { _ ("Fewest hoopings"), _ ("Least time"), NULL };
  HwWishesFields *fields = g_object_new (HW_TYPE_WISHES_FIELDS, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (fields));
  fields->bench = g_object_ref (bench);

  fields->best = gtk_drop_down_new_from_strings (bests);
  gtk_accessible_update_property (GTK_ACCESSIBLE (fields->best), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Plan for"), -1);
  g_signal_connect (fields->best, "notify::selected", G_CALLBACK (best_cb), fields);
  fields->interleave
      = wrapped_check (_ ("Threads of neighbouring motifs may be stitched in turns within a hooping"));
  g_signal_connect (fields->interleave, "toggled", G_CALLBACK (interleave_cb), fields);
  fields->per_hooping = measure (fields, HW_MEASURE_MINUTES, _ ("Minutes for setting a hooping"), 0, 600,
                                 G_CALLBACK (pace_cb));
  fields->per_change
      = measure (fields, HW_MEASURE_MINUTES, _ ("Minutes for a thread change"), 0, 60, G_CALLBACK (pace_cb));
  fields->per_minute
      = measure (fields, HW_MEASURE_COUNT, _ ("Stitches per minute"), 1, 5000, G_CALLBACK (pace_cb));
  fields->density = measure (fields, HW_MEASURE_DENSITY, _ ("Warn of more stitches to the square millimetre"),
                             0.5, 100, G_CALLBACK (limit_cb));
  fields->marks = measure (fields, HW_MEASURE_COUNT, _ ("Marks to a hooping, at least"), LEAST_MARKS,
                           MOST_MARKS, G_CALLBACK (marks_cb));
  fields->tolerance
      = measure (fields, HW_MEASURE_LENGTH, _ ("Placing may be off by"), 0.1, 10, G_CALLBACK (limit_cb));

  fields->scale_low = measure (fields, HW_MEASURE_PERCENT, _ ("Scale without new stitches, from"),
                               LEAST_SCALE, MOST_SCALE, G_CALLBACK (scale_cb));
  fields->scale_high = measure (fields, HW_MEASURE_PERCENT, _ ("Scale without new stitches, to"), LEAST_SCALE,
                                MOST_SCALE, G_CALLBACK (scale_cb));

  gtk_box_append (GTK_BOX (fields), fields->best);
  gtk_box_append (GTK_BOX (fields), fields->interleave);
  gtk_box_append (GTK_BOX (fields),
                  hw_dialog_pair (hw_captioned (_ ("Setting a hooping"), fields->per_hooping),
                                  hw_captioned (_ ("A thread change"), fields->per_change)));
  gtk_box_append (GTK_BOX (fields),
                  hw_dialog_pair (hw_captioned (_ ("Stitches per minute"), fields->per_minute),
                                  hw_captioned (_ ("Placing may be off by"), fields->tolerance)));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Warn of more stitches per mm² than"), fields->density));
  gtk_box_append (GTK_BOX (fields),
                  hw_captioned (_ ("Marks to a hooping, at least (2 to 4)"), fields->marks));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Scale without new stitches, from … to …"),
                                                  hw_dialog_pair (fields->scale_low, fields->scale_high)));
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), fields, 0);
  update (fields);
  return GTK_WIDGET (fields);
}
