/* What cannot be told before one begins is not asked: the colour of the cloth, how it is held and the shape of its edge line are changed in the side
 * pane whenever the person likes. */
#include "start-form.h"

#include <glib/gi18n.h>

#include "../geometry/figures.h"
#include "../scene/limits.h"
#include "cloth-preview.h"
#include "dialog.h"
#include "hoop-choices.h"
#include "measure-field.h"
#include "new-scene.h"
#include "own-hoops.h"

struct _HwStartForm
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *preview, *words;
  GtkWidget *width, *height;
  GtkWidget *hoops;
  GtkWidget *mm, *inch;
  GtkWidget *begin;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwStartForm, hw_start_form, GTK_TYPE_BOX)

enum
{
  BEGIN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* Returns: (transfer full) */
static HwSnapshot *
scene_for (HwStartForm *form, GPtrArray *hoops)
{
  g_autoptr (HwSnapshot) blank = hw_snapshot_new ();
  HwFabric fabric = blank->fabric;

  fabric.width = hw_measure_field_get_value (HW_MEASURE_FIELD (form->width));
  fabric.height = hw_measure_field_get_value (HW_MEASURE_FIELD (form->height));
  return hw_new_scene (_ ("New scene"), &fabric, HW_EDGE_RECTANGLE, HW_NEW_SCENE_INSET, hoops);
}

/* What the picture shows, as a sentence. Returns: (transfer full) */
static char *
words_for (HwStartForm *form, const HwSnapshot *scene, GPtrArray *hoops)
{
  const HwHoop *largest = hoops->len > 0 ? hoops->pdata[0] : NULL;
  double field, cloth = scene->fabric.width * scene->fabric.height;

  if (largest == NULL)
    return g_strdup (_ ("Choose the hoops that you own: at least one."));
  field = largest->field_width * largest->field_height;
  g_autofree char *size
      = hw_size_text (largest->field_width, largest->field_height, hw_bench_get_unit (form->bench));
  if (field >= cloth)
    return g_strdup_printf (_ ("Your hoop of %s is as large as this cloth."), size);
  g_autofree char *part = hw_figure_text (100 * field / cloth, field < cloth / 100 ? 1 : 0);
  /* Translators: a hoop's size, and how many per cent of the cloth it is */
  return g_strdup_printf (_ ("Your hoop of %s takes in %s %% of this cloth at a time."), size, part);
}

static void
update (HwStartForm *form)
{
  g_autoptr (GPtrArray) hoops = hw_hoop_choices_get (HW_HOOP_CHOICES (form->hoops));
  g_autoptr (HwSnapshot) scene = scene_for (form, hoops);
  g_autofree char *words = words_for (form, scene, hoops);
  g_autofree char *size
      = hw_size_text (scene->fabric.width, scene->fabric.height, hw_bench_get_unit (form->bench));
  g_autofree char *label = g_strdup_printf (_ ("A cloth of %s. %s"), size, words);

  if (hoops->len == 0)
    g_ptr_array_set_size (scene->hoops, 0);
  hw_cloth_preview_show (HW_CLOTH_PREVIEW (form->preview), scene, label);
  gtk_label_set_label (GTK_LABEL (form->words), words);
  gtk_widget_set_sensitive (form->begin, hoops->len > 0);
}

static void
edited_cb (HwMeasureField *field, double value, HwStartForm *form)
{
  update (form);
}

static void
hoops_cb (HwHoopChoices *choices, HwStartForm *form)
{
  update (form);
}

static void
show_unit (HwStartForm *form)
{
  gboolean inch = hw_bench_get_unit (form->bench) == HW_UNIT_INCH;

  form->updating = TRUE;
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (inch ? form->inch : form->mm), TRUE);
  form->updating = FALSE;
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, HwStartForm *form)
{
  show_unit (form);
  update (form);
}

static void
unit_toggled_cb (GtkToggleButton *button, HwStartForm *form)
{
  if (!form->updating && gtk_toggle_button_get_active (button))
    hw_bench_set_unit (form->bench, GTK_WIDGET (button) == form->inch ? HW_UNIT_INCH : HW_UNIT_MM);
}

static void
begin_cb (GtkButton *button, HwStartForm *form)
{
  g_signal_emit (form, signals[BEGIN], 0);
}

static GtkWidget *
length (HwStartForm *form, const char *label, double value)
{
  GtkWidget *field = hw_measure_field_new (form->bench, HW_MEASURE_LENGTH, label, HW_SMALLEST_CLOTH_TYPED,
                                           HW_LARGEST_CLOTH_TYPED);

  hw_measure_field_set_value (HW_MEASURE_FIELD (field), value);
  g_signal_connect (field, "edited", G_CALLBACK (edited_cb), form);
  return field;
}

/* One of the three choices: its question above what answers it. */
static void
add_choice (HwStartForm *form, const char *question, GtkWidget *answer)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *label = gtk_label_new (question);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "start-question");
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), answer);
  gtk_box_append (GTK_BOX (form), box);
}

static GtkWidget *
make_units (HwStartForm *form)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  form->mm = gtk_toggle_button_new_with_label (_ ("Millimetres"));
  form->inch = gtk_toggle_button_new_with_label (_ ("Inches"));
  gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (form->inch), GTK_TOGGLE_BUTTON (form->mm));
  gtk_widget_add_css_class (box, "linked");
  gtk_box_set_homogeneous (GTK_BOX (box), TRUE);
  gtk_box_append (GTK_BOX (box), form->mm);
  gtk_box_append (GTK_BOX (box), form->inch);
  show_unit (form);
  g_signal_connect (form->mm, "toggled", G_CALLBACK (unit_toggled_cb), form);
  g_signal_connect (form->inch, "toggled", G_CALLBACK (unit_toggled_cb), form);
  return box;
}

static void
make_children (HwStartForm *form)
{
  g_autoptr (HwSnapshot) blank = hw_snapshot_new ();
  GtkWidget *heading = gtk_label_new (_ ("A new scene"));

  gtk_label_set_xalign (GTK_LABEL (heading), 0);
  gtk_widget_add_css_class (heading, "start-heading");
  form->preview = hw_cloth_preview_new ();
  form->words = hw_dialog_words ("");
  gtk_widget_add_css_class (form->words, "quiet");
  form->width = length (form, _ ("Width of the cloth"), blank->fabric.width);
  form->height = length (form, _ ("Height of the cloth"), blank->fabric.height);
  form->hoops = hw_hoop_choices_new (form->bench);
  g_signal_connect (form->hoops, "changed", G_CALLBACK (hoops_cb), form);
  form->begin = gtk_button_new_with_label (_ ("Lay out this cloth"));
  gtk_widget_add_css_class (form->begin, "suggested-action");
  gtk_widget_add_css_class (form->begin, "start-begin");
  gtk_widget_set_valign (form->begin, GTK_ALIGN_START);
  gtk_widget_set_vexpand (form->begin, TRUE);
  g_signal_connect (form->begin, "clicked", G_CALLBACK (begin_cb), form);

  gtk_box_append (GTK_BOX (form), heading);
  gtk_box_append (GTK_BOX (form), form->preview);
  gtk_box_append (GTK_BOX (form), form->words);
  add_choice (form, _ ("1  How wide and how high is the cloth?"), hw_dialog_pair (form->width, form->height));
  add_choice (form, _ ("2  Which hoops do you own?"), form->hoops);
  add_choice (form, _ ("3  What do you measure in?"), make_units (form));
  gtk_box_append (GTK_BOX (form), form->begin);
}

static void
hw_start_form_class_init (HwStartFormClass *klass)
{
  signals[BEGIN] = g_signal_new ("begin", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
hw_start_form_init (HwStartForm *form)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (form), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (form), 14);
  gtk_widget_add_css_class (GTK_WIDGET (form), "start-form");
}

GtkWidget *
hw_start_form_new (HwBench *bench)
{
  HwStartForm *form = g_object_new (HW_TYPE_START_FORM, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (form));
  form->bench = bench; /* outlives the page it stands on */
  make_children (form);
  g_signal_connect_object (bench, "notify::unit", G_CALLBACK (unit_cb), form, 0);
  update (form);
  return GTK_WIDGET (form);
}

HwSnapshot *
hw_start_form_take (HwStartForm *form)
{
  g_return_val_if_fail (HW_IS_START_FORM (form), NULL);

  g_autoptr (GPtrArray) hoops = hw_hoop_choices_get (HW_HOOP_CHOICES (form->hoops));
  hw_own_hoops_set (hoops);
  return scene_for (form, hoops);
}

void
hw_start_form_focus (HwStartForm *form)
{
  g_return_if_fail (HW_IS_START_FORM (form));
  gtk_widget_child_focus (form->width, GTK_DIR_TAB_FORWARD);
}
