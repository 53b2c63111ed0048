/* Each size is a button that stays down while the person owns the hoop. */
#include "hoop-choices.h"

#include <glib/gi18n.h>

#include "../scene/limits.h"
#include "dialog.h"
#include "measure-field.h"
#include "new-scene.h"
#include "own-hoops.h"

/* Sewing fields that are met often, mm: common practice, no source. */
static const struct
{
  double width, height;
} usual[] = { { 100, 100 }, { 130, 180 }, { 160, 260 }, { 200, 200 }, { 200, 300 } };
#define FIRST_CHOICE 1

struct _HwHoopChoices
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *sizes; /* a flow of buttons */
  GtkWidget *another, *width, *height;
};

G_DEFINE_FINAL_TYPE (HwHoopChoices, hw_hoop_choices, GTK_TYPE_BOX)

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static const HwHoop *
hoop_of (GtkWidget *button)
{
  return g_object_get_data (G_OBJECT (button), "hoop");
}

/* The nth hoop's button; NULL past the last. What stands after them is no hoop. */
static GtkWidget *
nth_button (HwHoopChoices *choices, int n)
{
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_index (GTK_FLOW_BOX (choices->sizes), n);
  GtkWidget *button = child != NULL ? gtk_flow_box_child_get_child (child) : NULL;

  return button != NULL && hoop_of (button) != NULL ? button : NULL;
}

static void
toggled_cb (GtkToggleButton *button, HwHoopChoices *choices)
{
  g_signal_emit (choices, signals[CHANGED], 0);
}

/* A remembered hoop keeps the name its owner gave it; a usual size is told in the unit chosen. */
static void
name_button (HwHoopChoices *choices, GtkWidget *button)
{
  const HwHoop *hoop = hoop_of (button);
  HwUnit unit = hw_bench_get_unit (choices->bench);
  g_autofree char *by_size = hw_hoop_size_name (hoop->field_width, hoop->field_height);
  g_autofree char *size = hw_size_text (hoop->field_width, hoop->field_height, unit);
  g_autofree char *label = g_strdup_printf (_ ("Hoop of %s"), size);
  gboolean named = g_strcmp0 (hoop->name, by_size) != 0;

  gtk_button_set_label (GTK_BUTTON (button), named ? hoop->name : unit == HW_UNIT_MM ? by_size : size);
  gtk_widget_set_tooltip_text (button, size);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  named ? hoop->name : label, -1);
}

static GtkWidget *
find (HwHoopChoices *choices, double width, double height)
{
  GtkWidget *button;

  for (int n = 0; (button = nth_button (choices, n)) != NULL; n++)
    if (hoop_of (button)->field_width == width && hoop_of (button)->field_height == height)
      return button;
  return NULL;
}

/* Takes over hoop. */
static void
add (HwHoopChoices *choices, HwHoop *hoop, gboolean owned)
{
  GtkWidget *button = gtk_toggle_button_new ();
  int n = 0;

  g_object_set_data_full (G_OBJECT (button), "hoop", hoop, (GDestroyNotify)hw_hoop_unref);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), owned);
  gtk_widget_add_css_class (button, "hoop-choice");
  name_button (choices, button);
  g_signal_connect (button, "toggled", G_CALLBACK (toggled_cb), choices);
  while (nth_button (choices, n) != NULL)
    n++;
  gtk_flow_box_insert (GTK_FLOW_BOX (choices->sizes), button, n);
  /* The buttons have the keyboard, not the places they stand in. */
  gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
}

static void
fill (HwHoopChoices *choices)
{
  g_autoptr (GPtrArray) own = hw_own_hoops_get ();

  for (guint i = 0; i < own->len; i++)
    add (choices, hw_hoop_ref (own->pdata[i]), TRUE);
  for (guint i = 0; i < G_N_ELEMENTS (usual); i++)
    if (find (choices, usual[i].width, usual[i].height) == NULL)
      add (choices, hw_hoop_of_size (usual[i].width, usual[i].height), own->len == 0 && i == FIRST_CHOICE);
}

static void
add_cb (GtkButton *button, HwHoopChoices *choices)
{
  double width = hw_measure_field_get_value (HW_MEASURE_FIELD (choices->width));
  double height = hw_measure_field_get_value (HW_MEASURE_FIELD (choices->height));
  GtkWidget *there = find (choices, width, height);

  if (there != NULL)
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (there), TRUE);
  else
    add (choices, hw_hoop_of_size (width, height), TRUE);
  gtk_menu_button_popdown (GTK_MENU_BUTTON (choices->another));
  g_signal_emit (choices, signals[CHANGED], 0);
}

static GtkWidget *
make_another (HwHoopChoices *choices)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *take = gtk_button_new_with_label (_ ("Take this hoop"));

  choices->width = hw_measure_field_new (choices->bench, HW_MEASURE_LENGTH, _ ("Sewing field, width"),
                                         HW_SMALLEST_HOOP_TYPED, HW_LARGEST_HOOP_TYPED);
  choices->height = hw_measure_field_new (choices->bench, HW_MEASURE_LENGTH, _ ("Sewing field, height"),
                                          HW_SMALLEST_HOOP_TYPED, HW_LARGEST_HOOP_TYPED);
  hw_measure_field_set_value (HW_MEASURE_FIELD (choices->width), 180);
  hw_measure_field_set_value (HW_MEASURE_FIELD (choices->height), 300);
  gtk_box_append (GTK_BOX (box), hw_dialog_words (_ ("The sewing field, as the machine’s manual gives it.")));
  gtk_box_append (GTK_BOX (box), hw_dialog_pair (hw_captioned (_ ("Width"), choices->width),
                                                 hw_captioned (_ ("Height"), choices->height)));
  gtk_box_append (GTK_BOX (box), take);
  gtk_widget_add_css_class (take, "suggested-action");
  gtk_widget_add_css_class (box, "figures");
  g_signal_connect (take, "clicked", G_CALLBACK (add_cb), choices);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  gtk_popover_set_default_widget (GTK_POPOVER (popover), take);

  choices->another = gtk_menu_button_new ();
  gtk_menu_button_set_label (GTK_MENU_BUTTON (choices->another), _ ("Another size"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (choices->another), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("A hoop of another size"), -1);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (choices->another), popover);
  return choices->another;
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, HwHoopChoices *choices)
{
  GtkWidget *button;

  for (int n = 0; (button = nth_button (choices, n)) != NULL; n++)
    name_button (choices, button);
}

static int
larger_first (gconstpointer a, gconstpointer b)
{
  const HwHoop *ha = *(HwHoop *const *)a, *hb = *(HwHoop *const *)b;
  double aa = ha->field_width * ha->field_height, ab = hb->field_width * hb->field_height;

  return (aa < ab) - (aa > ab);
}

GPtrArray *
hw_hoop_choices_get (HwHoopChoices *choices)
{
  GPtrArray *chosen = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);
  GtkWidget *button;

  g_return_val_if_fail (HW_IS_HOOP_CHOICES (choices), chosen);
  for (int n = 0; (button = nth_button (choices, n)) != NULL; n++)
    if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (button)))
      g_ptr_array_add (chosen, hw_hoop_ref (hoop_of (button)));
  g_ptr_array_sort (chosen, larger_first);
  return chosen;
}

static void
hw_hoop_choices_class_init (HwHoopChoicesClass *klass)
{
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
hw_hoop_choices_init (HwHoopChoices *choices)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (choices), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (choices), 8);
  choices->sizes = gtk_flow_box_new ();
  gtk_flow_box_set_selection_mode (GTK_FLOW_BOX (choices->sizes), GTK_SELECTION_NONE);
  gtk_flow_box_set_column_spacing (GTK_FLOW_BOX (choices->sizes), 8);
  gtk_flow_box_set_row_spacing (GTK_FLOW_BOX (choices->sizes), 8);
  gtk_flow_box_set_min_children_per_line (GTK_FLOW_BOX (choices->sizes), 3);
  gtk_flow_box_set_max_children_per_line (GTK_FLOW_BOX (choices->sizes), 3);
  gtk_flow_box_set_homogeneous (GTK_FLOW_BOX (choices->sizes), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choices->sizes), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Your hoops"), -1);
  gtk_box_append (GTK_BOX (choices), choices->sizes);
}

GtkWidget *
hw_hoop_choices_new (HwBench *bench)
{
  HwHoopChoices *choices = g_object_new (HW_TYPE_HOOP_CHOICES, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (choices));
  choices->bench = bench; /* outlives the page it stands on */
  fill (choices);
  gtk_flow_box_insert (GTK_FLOW_BOX (choices->sizes), make_another (choices), -1);
  gtk_widget_set_focusable (gtk_widget_get_parent (choices->another), FALSE);
  g_signal_connect_object (bench, "notify::unit", G_CALLBACK (unit_cb), choices, 0);
  return GTK_WIDGET (choices);
}
