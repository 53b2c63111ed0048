/* The cloth's fields. They hold what the person sees; whoever uses them puts it where it belongs. */
#include "fabric-fields.h"

#include <glib/gi18n.h>

#include "../scene/limits.h"
#include "dialog.h"
#include "measure-field.h"

struct _HwFabricFields
{
  GtkBox parent_instance;

  GtkWidget *width;
  GtkWidget *height;
  GtkWidget *colour;
  GtkWidget *hold;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwFabricFields, hw_fabric_fields, GTK_TYPE_BOX)

enum
{
  EDITED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static void
edited (HwFabricFields *fields)
{
  if (!fields->updating)
    g_signal_emit (fields, signals[EDITED], 0);
}

static void
measure_cb (HwMeasureField *field, double value, HwFabricFields *fields)
{
  edited (fields);
}

static void
notify_cb (GObject *object, GParamSpec *pspec, HwFabricFields *fields)
{
  edited (fields);
}

static void
hw_fabric_fields_class_init (HwFabricFieldsClass *klass)
{
  signals[EDITED] = g_signal_new ("edited", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

static void
hw_fabric_fields_init (HwFabricFields *fields)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (fields), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (fields), 14);
}

GtkWidget *
hw_fabric_fields_new (HwBench *bench)
{
  /* In the order of HwHold. */
  const char *holds[] = { _ ("Floated"), _ ("Clamped"), NULL };
  HwFabricFields *fields = g_object_new (HW_TYPE_FABRIC_FIELDS, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (fields));

  fields->width = hw_measure_field_new (bench, HW_MEASURE_LENGTH, _ ("Width of the cloth"),
                                        HW_SMALLEST_CLOTH_TYPED, HW_LARGEST_CLOTH_TYPED);
  fields->height = hw_measure_field_new (bench, HW_MEASURE_LENGTH, _ ("Height of the cloth"),
                                         HW_SMALLEST_CLOTH_TYPED, HW_LARGEST_CLOTH_TYPED);
  fields->colour = gtk_color_button_new ();
  gtk_color_button_set_title (GTK_COLOR_BUTTON (fields->colour), _ ("Colour of the cloth"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (fields->colour), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Colour of the cloth"), -1);
  fields->hold = gtk_drop_down_new_from_strings (holds);
  gtk_widget_set_tooltip_text (fields->hold, _ ("Floated: stuck on hooped adhesive stabiliser. Clamped: held "
                                                "in the ring itself, so the frame must lie on the cloth."));
  gtk_accessible_update_property (GTK_ACCESSIBLE (fields->hold), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("How the cloth is held"), -1);

  g_signal_connect (fields->width, "edited", G_CALLBACK (measure_cb), fields);
  g_signal_connect (fields->height, "edited", G_CALLBACK (measure_cb), fields);
  g_signal_connect (fields->colour, "notify::rgba", G_CALLBACK (notify_cb), fields);
  g_signal_connect (fields->hold, "notify::selected", G_CALLBACK (notify_cb), fields);
  gtk_box_append (GTK_BOX (fields), hw_dialog_pair (hw_captioned (_ ("Cloth width"), fields->width),
                                                    hw_captioned (_ ("Cloth height"), fields->height)));
  gtk_box_append (GTK_BOX (fields), hw_dialog_pair (hw_captioned (_ ("Colour"), fields->colour),
                                                    hw_captioned (_ ("Held"), fields->hold)));
  return GTK_WIDGET (fields);
}

void
hw_fabric_fields_set (HwFabricFields *fields, const HwFabric *fabric)
{
  g_return_if_fail (HW_IS_FABRIC_FIELDS (fields));
  g_return_if_fail (fabric != NULL);

  GdkRGBA rgba = { (float)fabric->colour.red, (float)fabric->colour.green, (float)fabric->colour.blue, 1 };
  fields->updating = TRUE;
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->width), fabric->width);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->height), fabric->height);
  gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (fields->colour), &rgba);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->hold), (guint)fabric->hold);
  fields->updating = FALSE;
}

void
hw_fabric_fields_get (HwFabricFields *fields, HwFabric *fabric)
{
  GdkRGBA rgba;

  g_return_if_fail (HW_IS_FABRIC_FIELDS (fields));
  g_return_if_fail (fabric != NULL);

  gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (fields->colour), &rgba);
  fabric->width = hw_measure_field_get_value (HW_MEASURE_FIELD (fields->width));
  fabric->height = hw_measure_field_get_value (HW_MEASURE_FIELD (fields->height));
  fabric->colour = (HwColour){ rgba.red, rgba.green, rgba.blue };
  fabric->hold
      = gtk_drop_down_get_selected (GTK_DROP_DOWN (fields->hold)) == 1 ? HW_HOLD_CLAMPED : HW_HOLD_FLOATED;
}
