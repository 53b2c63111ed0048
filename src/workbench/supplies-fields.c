/* What the workroom uses up. Figures typed or stepped are joined into one step of the history; how fine a thread is may be typed as it stands on
 * the spool. */
#include "supplies-fields.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../scene/limits.h"
#include "../scene/yarn-count.h"
#include "dialog.h"
#include "measure-field.h"

typedef enum
{
  PLAIN,
  SHARE,  /* per cent in the field */
  SHEETS, /* a whole number */
} Keeping;

/* A field and the fact it is for. */
typedef struct
{
  gsize fact; /* its place in HwSupplyFacts */
  HwMeasure measure;
  Keeping keeping;
  double least, most; /* as the field shows it */
  const char *caption;
} FieldKind;

#define FACT(member) G_STRUCT_OFFSET (HwSupplyFacts, member)

static const FieldKind kinds[] = {
  { FACT (fabric_thickness), HW_MEASURE_THICKNESS, PLAIN, 0, HW_LARGEST_THICKNESS,
    N_ ("The cloth, how thick") },
  { FACT (beyond_edge), HW_MEASURE_LENGTH, PLAIN, 0, HW_LARGEST_REACH, N_ ("Cloth beyond the edge line") },
  { FACT (beyond_frames), HW_MEASURE_LENGTH, PLAIN, 0, HW_LARGEST_REACH,
    N_ ("Clamped cloth beyond the frames") },
  { FACT (stabiliser_thickness), HW_MEASURE_THICKNESS, PLAIN, 0, HW_LARGEST_THICKNESS,
    N_ ("A sheet, how thick") },
  { FACT (stabiliser_sheets), HW_MEASURE_COUNT, SHEETS, 0, HW_MOST_SHEETS,
    N_ ("Sheets, one over the other") },
  { FACT (roll_width), HW_MEASURE_LENGTH, PLAIN, 1, HW_LARGEST_CLOTH_TYPED, N_ ("The roll, how wide") },
  { FACT (reach), HW_MEASURE_LENGTH, PLAIN, 0, HW_LARGEST_REACH, N_ ("It reaches beyond the frame by") },
  { FACT (bobbin_share), HW_MEASURE_PERCENT, SHARE, 5, 200, N_ ("Bobbin thread to needle thread") },
  { FACT (bobbin_metres), HW_MEASURE_METRES, PLAIN, 1, HW_MOST_BOBBIN_METRES, N_ ("Wound on a full bobbin") },
  { FACT (bobbin_outer), HW_MEASURE_LENGTH, PLAIN, 2 * HW_SMALLEST_SUPPLY, HW_LARGEST_REACH,
    N_ ("What is wound, across") },
  { FACT (bobbin_inner), HW_MEASURE_LENGTH, PLAIN, HW_SMALLEST_SUPPLY, HW_LARGEST_REACH - 1,
    N_ ("Its core, across") },
  { FACT (bobbin_width), HW_MEASURE_LENGTH, PLAIN, HW_SMALLEST_SUPPLY, HW_LARGEST_REACH,
    N_ ("What is wound, wide") },
  { FACT (packing), HW_MEASURE_PERCENT, SHARE, 10, 100 * HW_MOST_PACKING,
    N_ ("Of its room filled with thread") },
  { FACT (needle_hours), HW_MEASURE_HOURS, PLAIN, 0.1, HW_MOST_NEEDLE_HOURS, N_ ("A needle lasts") },
  { FACT (needle_stitches), HW_MEASURE_COUNT, PLAIN, 0, HW_MOST_NEEDLE_STITCHES,
    N_ ("Or so many stitches (0: by hours)") },
};
#define N_FIELDS G_N_ELEMENTS (kinds)

struct _HwSuppliesFields
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *fields[N_FIELDS];
  GtkWidget *needle, *bobbin; /* entries for tex */
  GtkWidget *trouble;
  GtkWidget *by_size;
  GtkWidget *size; /* the fields it opens */
  GtkWidget *wound;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwSuppliesFields, hw_supplies_fields, GTK_TYPE_BOX)

static double
fact_of (const HwSupplyFacts *facts, const FieldKind *kind)
{
  if (kind->keeping == SHEETS)
    return G_STRUCT_MEMBER (guint, facts, kind->fact);
  return G_STRUCT_MEMBER (double, facts, kind->fact) * (kind->keeping == SHARE ? 100 : 1);
}

static void
show_tex (GtkWidget *entry, double tex)
{
  g_autofree char *text = hw_yarn_text (tex);

  if (!g_str_equal (text, gtk_editable_get_text (GTK_EDITABLE (entry))))
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
update (HwSuppliesFields *self)
{
  const HwSupplyFacts *facts = hw_scene_get_supplies (hw_bench_get_scene (self->bench));
  gboolean by_size = hw_supply_facts_know_bobbin (facts);

  self->updating = TRUE;
  for (guint i = 0; i < N_FIELDS; i++)
    hw_measure_field_set_value (HW_MEASURE_FIELD (self->fields[i]), fact_of (facts, &kinds[i]));
  show_tex (self->needle, facts->needle_tex);
  show_tex (self->bobbin, facts->bobbin_tex);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->by_size), by_size);
  gtk_widget_set_visible (self->size, by_size);
  gtk_widget_set_visible (self->wound, !by_size);
  self->updating = FALSE;
}

static void
scene_changed_cb (HwBench *bench, guint flags, HwSuppliesFields *self)
{
  if (flags & HW_SCENE_CHANGE_SUPPLIES)
    update (self);
}

/* The core is always smaller than what is wound on it; the figure that was changed takes the other along. */
static void
keep_apart (HwSupplyFacts *facts, const FieldKind *changed)
{
  if (facts->bobbin_width <= 0) /* no size is asked for */
    return;
  if (changed->fact == FACT (bobbin_inner))
    facts->bobbin_outer = MAX (facts->bobbin_outer, facts->bobbin_inner + 0.1);
  else
    facts->bobbin_inner = MIN (facts->bobbin_inner, facts->bobbin_outer - 0.1);
}

static void
edited_cb (GtkWidget *field, double value, HwSuppliesFields *self)
{
  HwSupplyFacts facts = *hw_scene_get_supplies (hw_bench_get_scene (self->bench));

  for (guint i = 0; i < N_FIELDS && !self->updating; i++)
    {
      if (field != self->fields[i])
        continue;
      if (kinds[i].keeping == SHEETS)
        G_STRUCT_MEMBER (guint, &facts, kinds[i].fact) = (guint)lround (value);
      else
        G_STRUCT_MEMBER (double, &facts, kinds[i].fact) = kinds[i].keeping == SHARE ? value / 100 : value;
      keep_apart (&facts, &kinds[i]);
      hw_bench_set_supplies (self->bench, &facts);
    }
}

/* The usual size of a small bobbin to begin with, when its size is asked for: common practice, no source; from memory. */
static void
by_size_cb (GtkCheckButton *check, HwSuppliesFields *self)
{
  HwSupplyFacts facts = *hw_scene_get_supplies (hw_bench_get_scene (self->bench));
  gboolean by_size = gtk_check_button_get_active (check);

  if (self->updating)
    return;
  facts.bobbin_outer = by_size ? 20 : 0;
  facts.bobbin_inner = by_size ? 6 : 0;
  facts.bobbin_width = by_size ? 9.5 : 0;
  hw_bench_set_supplies (self->bench, &facts);
}

/* What cannot be read stays as it was typed, with a sentence below. */
static void
take_tex (HwSuppliesFields *self, GtkWidget *entry)
{
  HwSupplyFacts facts = *hw_scene_get_supplies (hw_bench_get_scene (self->bench));
  double *tex = entry == self->needle ? &facts.needle_tex : &facts.bobbin_tex;
  g_autofree char *shown = hw_yarn_text (*tex);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  g_autoptr (GError) error = NULL;

  if (self->updating || g_str_equal (text, shown))
    gtk_widget_set_visible (self->trouble, FALSE);
  else if (hw_yarn_parse (text, tex, &error))
    {
      gtk_widget_set_visible (self->trouble, FALSE);
      hw_bench_set_supplies (self->bench, &facts);
      update (self);
    }
  else
    {
      gtk_label_set_label (GTK_LABEL (self->trouble), error->message);
      gtk_widget_set_visible (self->trouble, TRUE);
    }
}

static void
activate_cb (GtkEntry *entry, HwSuppliesFields *self)
{
  take_tex (self, GTK_WIDGET (entry));
}

static void
leave_cb (GtkEventControllerFocus *focus, HwSuppliesFields *self)
{
  take_tex (self, gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus)));
}

static GtkWidget *
tex_entry (HwSuppliesFields *self, const char *label)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 9);
  gtk_widget_set_tooltip_text (entry,
                               _ ("As it stands on the spool: 27 tex, 120 den x 2, 240 dtex, Nm 80/2"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect (entry, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect (focus, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (entry, focus);
  return entry;
}

static void
hw_supplies_fields_dispose (GObject *object)
{
  g_clear_object (&HW_SUPPLIES_FIELDS (object)->bench);
  G_OBJECT_CLASS (hw_supplies_fields_parent_class)->dispose (object);
}

static void
hw_supplies_fields_class_init (HwSuppliesFieldsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_supplies_fields_dispose;
}

static void
hw_supplies_fields_init (HwSuppliesFields *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 14);
}

/* The captioned field of that fact. */
static GtkWidget *
field_of (HwSuppliesFields *self, gsize fact)
{
  for (guint i = 0; i < N_FIELDS; i++)
    if (kinds[i].fact == fact)
      return hw_captioned (_ (kinds[i].caption), self->fields[i]);
  g_assert_not_reached ();
}

static GtkWidget *
heading (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dialog-heading");
  return label;
}

static void
add_pair (GtkWidget *box, GtkWidget *first, GtkWidget *second)
{
  gtk_box_append (GTK_BOX (box), hw_dialog_pair (first, second));
}

static void
add_bobbin (HwSuppliesFields *self, GtkWidget *box)
{
  self->by_size = gtk_check_button_new_with_label (_ ("Reckon a full bobbin from its size"));
  self->wound = field_of (self, FACT (bobbin_metres));
  self->size = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  add_pair (self->size, field_of (self, FACT (bobbin_outer)), field_of (self, FACT (bobbin_inner)));
  add_pair (self->size, field_of (self, FACT (bobbin_width)), field_of (self, FACT (packing)));
  g_signal_connect (self->by_size, "toggled", G_CALLBACK (by_size_cb), self);
  gtk_box_append (GTK_BOX (box), self->by_size);
  gtk_box_append (GTK_BOX (box), self->wound);
  gtk_box_append (GTK_BOX (box), self->size);
}

static void
add_thread (HwSuppliesFields *self, GtkWidget *box)
{
  self->needle = tex_entry (self, _ ("Needle thread, how fine"));
  self->bobbin = tex_entry (self, _ ("Bobbin thread, how fine"));
  self->trouble = hw_dialog_words (NULL);
  gtk_widget_add_css_class (self->trouble, "trouble");
  gtk_widget_set_visible (self->trouble, FALSE);
  add_pair (box, hw_captioned (_ ("Needle thread, how fine"), self->needle),
            hw_captioned (_ ("Bobbin thread, how fine"), self->bobbin));
  gtk_box_append (GTK_BOX (box), self->trouble);
  gtk_box_append (GTK_BOX (box), field_of (self, FACT (bobbin_share)));
}

GtkWidget *
hw_supplies_fields_new (HwBench *bench)
{
  HwSuppliesFields *self = g_object_new (HW_TYPE_SUPPLIES_FIELDS, NULL);
  GtkWidget *box = GTK_WIDGET (self);

  g_return_val_if_fail (HW_IS_BENCH (bench), box);

  self->bench = g_object_ref (bench);
  for (guint i = 0; i < N_FIELDS; i++)
    {
      self->fields[i] = hw_measure_field_new (bench, kinds[i].measure, _ (kinds[i].caption), kinds[i].least,
                                              kinds[i].most);
      g_signal_connect (self->fields[i], "edited", G_CALLBACK (edited_cb), self);
    }
  gtk_box_append (GTK_BOX (box), heading (_ ("Thread")));
  add_thread (self, box);
  add_bobbin (self, box);
  gtk_box_append (GTK_BOX (box), heading (_ ("Stabiliser")));
  add_pair (box, field_of (self, FACT (stabiliser_sheets)), field_of (self, FACT (stabiliser_thickness)));
  add_pair (box, field_of (self, FACT (roll_width)), field_of (self, FACT (reach)));
  gtk_box_append (GTK_BOX (box), heading (_ ("Cloth")));
  add_pair (box, field_of (self, FACT (fabric_thickness)), field_of (self, FACT (beyond_edge)));
  gtk_box_append (GTK_BOX (box), field_of (self, FACT (beyond_frames)));
  gtk_box_append (GTK_BOX (box), heading (_ ("Needles")));
  add_pair (box, field_of (self, FACT (needle_hours)), field_of (self, FACT (needle_stitches)));
  g_signal_connect_object (bench, "scene-changed", G_CALLBACK (scene_changed_cb), self, 0);
  update (self);
  return box;
}
