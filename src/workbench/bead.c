/* A bead: a small disc that stands for one hooping. Its number says which, its hatch and its dye say the same again: the hatch shows
 * in the rim, the number stands on plain colour so that it reads well. */
#include "bead.h"

#include "../drawing/dye.h"
#include "../drawing/lettering.h"

#define RIM 0.26       /* of the radius */
#define LIGHT_DYE 0.30 /* luminance above which ink reads better than white */

struct _HwBead
{
  GtkWidget parent_instance;
  int diameter;
  int hooping;
  gboolean hollow;
};

G_DEFINE_FINAL_TYPE (HwBead, hw_bead, GTK_TYPE_WIDGET)

static void
set_colour (cairo_t *cr, HwColour colour)
{
  cairo_set_source_rgb (cr, colour.red, colour.green, colour.blue);
}

static void
draw_number (cairo_t *cr, double x, double y, double radius, int number)
{
  g_autofree char *text = g_strdup_printf ("%d", number);
  HwLettering how = { .size = radius * (number > 99 ? 0.72 : 0.98), .bold = TRUE, .align = HW_LETTER_CENTRE };
  double height;

  hw_letter_measure (cr, &how, text, NULL, &height);
  hw_letter (cr, x, y - height / 2, &how, text);
}

static void
draw_full (cairo_t *cr, double middle, double radius, int hooping)
{
  const HwDye *dye = hw_dye ((guint)hooping);
  HwColour rim = hw_colour_mix (dye->colour, (HwColour){ 1, 1, 1 }, 0.55);

  cairo_arc (cr, middle, middle, radius, 0, 2 * G_PI);
  set_colour (cr, rim);
  cairo_fill_preserve (cr);
  hw_dye_hatch_path (cr, dye->hatch, dye->colour, 1, radius > 12 ? 3.4 : 3, radius > 12 ? 1.5 : 1.2);
  cairo_arc (cr, middle, middle, radius - 0.75, 0, 2 * G_PI);
  cairo_set_line_width (cr, 1.5);
  set_colour (cr, dye->colour);
  cairo_stroke (cr);
  cairo_arc (cr, middle, middle, radius * (1 - RIM), 0, 2 * G_PI);
  cairo_fill (cr);

  if (hw_colour_luminance (dye->colour) > LIGHT_DYE)
    cairo_set_source_rgb (cr, 0.12, 0.12, 0.12);
  else
    cairo_set_source_rgb (cr, 1, 1, 1);
  draw_number (cr, middle, middle, radius, hooping + 1);
}

static void
draw_hollow (cairo_t *cr, double middle, double radius, int hooping, const GdkRGBA *ink)
{
  cairo_arc (cr, middle, middle, radius - 1, 0, 2 * G_PI);
  cairo_set_line_width (cr, 2);
  if (hooping >= 0)
    set_colour (cr, hw_dye ((guint)hooping)->colour);
  else
    cairo_set_source_rgba (cr, ink->red, ink->green, ink->blue, 0.45);
  cairo_stroke (cr);
  if (hooping >= 0)
    {
      gdk_cairo_set_source_rgba (cr, ink);
      draw_number (cr, middle, middle, radius, hooping + 1);
    }
}

static void
hw_bead_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwBead *bead = HW_BEAD (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  double middle = bead->diameter / 2.0;
  graphene_rect_t bounds;
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &ink);
  graphene_rect_init (&bounds, 0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_translate (cr, (width - bead->diameter) / 2.0, (height - bead->diameter) / 2.0);
  if (bead->hooping < 0 || bead->hollow)
    draw_hollow (cr, middle, middle, bead->hooping, &ink);
  else
    draw_full (cr, middle, middle, bead->hooping);
  cairo_destroy (cr);
}

static void
hw_bead_measure (GtkWidget *widget,
                 GtkOrientation orientation,
                 int for_size,
                 int *minimum,
                 int *natural,
                 int *minimum_baseline,
                 int *natural_baseline)
{
  *minimum = *natural = HW_BEAD (widget)->diameter;
}

static void
hw_bead_class_init (HwBeadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = hw_bead_snapshot;
  widget_class->measure = hw_bead_measure;
  gtk_widget_class_set_css_name (widget_class, "bead");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
hw_bead_init (HwBead *bead)
{
  bead->hooping = -1;
  gtk_widget_set_can_target (GTK_WIDGET (bead), FALSE);
}

GtkWidget *
hw_bead_new (int diameter)
{
  HwBead *bead = g_object_new (HW_TYPE_BEAD, NULL);

  g_return_val_if_fail (diameter > 0, GTK_WIDGET (bead));
  bead->diameter = diameter;
  return GTK_WIDGET (bead);
}

void
hw_bead_set_hooping (HwBead *bead, int hooping)
{
  g_return_if_fail (HW_IS_BEAD (bead));

  if (bead->hooping == hooping)
    return;
  bead->hooping = hooping;
  gtk_widget_queue_draw (GTK_WIDGET (bead));
}

void
hw_bead_set_hollow (HwBead *bead, gboolean hollow)
{
  g_return_if_fail (HW_IS_BEAD (bead));

  if (bead->hollow == hollow)
    return;
  bead->hollow = hollow;
  gtk_widget_queue_draw (GTK_WIDGET (bead));
}
