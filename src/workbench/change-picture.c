/* Before and after on the cloth. A cloth that drew in by half a per cent moves its motifs by a millimetre or two, which no small picture shows: the ways are drawn as many
 * times longer as it takes to see them, and the picture says how many. */
#include "change-picture.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"

#define SEEN 34.0  /* px, the longest way as drawn at least */
#define LETTERS 15 /* px */

struct _HwChangePicture
{
  GtkWidget parent_instance;

  int width, height;
  HwSnapshot *before, *after;
};

G_DEFINE_FINAL_TYPE (HwChangePicture, hw_change_picture, GTK_TYPE_WIDGET)

static const HwColour ink = { 0.13, 0.14, 0.19 };
static const HwColour madder = { 0.71, 0.28, 0.23 };
static const HwColour woad = { 0.18, 0.40, 0.56 };

static void
stroke_outline (cairo_t *cr, const HwOutline *outline, HwColour colour, double alpha, double width)
{
  hw_path_outline (cr, outline);
  cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, alpha);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

static void
draw_motifs (cairo_t *cr, const HwSnapshot *snapshot, HwColour colour, double alpha, double width)
{
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);

      stroke_outline (cr, placed, colour, alpha, width);
    }
}

/* The same motif's way, or none. */
static HwPoint
way_of (HwChangePicture *picture, guint motif)
{
  const HwMotif *before = hw_snapshot_motif (picture->before, motif);
  int at = hw_snapshot_find_motif (picture->after, before->id);

  if (at < 0)
    return (HwPoint){ 0, 0 };
  HwPoint then = hw_snapshot_motif (picture->after, (guint)at)->placement.position;
  return (HwPoint){ then.x - before->placement.position.x, then.y - before->placement.position.y };
}

/* 1, 2, 5, 10, 20 ... */
static double
times_longer (double longest, double scale)
{
  static const double steps[] = { 1, 2, 5, 10, 20, 50, 100 };

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (longest * scale * steps[i] >= SEEN)
      return steps[i];
  return steps[G_N_ELEMENTS (steps) - 1];
}

static void
draw_way (cairo_t *cr, HwPoint from, HwPoint way, double px)
{
  double length = hypot (way.x, way.y), head = 9 * px;
  HwPoint to = { from.x + way.x, from.y + way.y };

  if (length < 3 * px)
    return;
  double ux = way.x / length, uy = way.y / length;
  cairo_set_source_rgb (cr, madder.red, madder.green, madder.blue);
  cairo_set_line_width (cr, 2.5 * px);
  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, to.x - ux * head * 0.7, to.y - uy * head * 0.7);
  cairo_stroke (cr);
  cairo_move_to (cr, to.x, to.y);
  cairo_line_to (cr, to.x - ux * head - uy * head * 0.5, to.y - uy * head + ux * head * 0.5);
  cairo_line_to (cr, to.x - ux * head + uy * head * 0.5, to.y - uy * head - ux * head * 0.5);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static double
draw_ways (HwChangePicture *picture, cairo_t *cr, double scale)
{
  double longest = 0;

  for (guint i = 0; i < picture->before->motifs->len; i++)
    {
      HwPoint way = way_of (picture, i);
      longest = MAX (longest, hypot (way.x, way.y));
    }
  if (longest < 1e-6)
    return 0;
  double times = times_longer (longest, scale);
  for (guint i = 0; i < picture->before->motifs->len; i++)
    {
      HwPoint way = way_of (picture, i);
      draw_way (cr, hw_snapshot_motif (picture->before, i)->placement.position,
                (HwPoint){ way.x * times, way.y * times }, 1 / scale);
    }
  return times;
}

static void
draw (HwChangePicture *picture, cairo_t *cr, int width, int height, const GdkRGBA *letters)
{
  const HwFabric *fabric = &picture->before->fabric;
  double words = LETTERS * 1.6;
  double scale = MIN ((width - 4) / fabric->width, (height - words - 4) / fabric->height);
  double px = 1 / scale, times = 0;
  double dashes[] = { 5 * px, 4 * px };

  cairo_save (cr);
  cairo_translate (cr, (width - fabric->width * scale) / 2, 2);
  cairo_scale (cr, scale, scale);
  hw_draw_cloth (cr, fabric, px);
  cairo_set_dash (cr, dashes, 2, 0);
  if (picture->before->edge_line != NULL)
    stroke_outline (cr, picture->before->edge_line->outline, ink, 0.5, px);
  draw_motifs (cr, picture->before, ink, picture->after != NULL ? 0.55 : 0.8, px);
  cairo_set_dash (cr, NULL, 0, 0);
  if (picture->after != NULL)
    {
      if (picture->after->edge_line != NULL)
        stroke_outline (cr, picture->after->edge_line->outline, woad, 0.8, 1.2 * px);
      draw_motifs (cr, picture->after, woad, 1, 1.6 * px);
      times = draw_ways (picture, cr, scale);
    }
  cairo_restore (cr);

  HwLettering how = { .size = LETTERS, .align = HW_LETTER_CENTRE };
  g_autofree char *longer
      = times > 1 ? g_strdup_printf (_ ("dashed: before · full: after · arrows %.0f times as long"), times)
                  : NULL;
  gdk_cairo_set_source_rgba (cr, letters);
  if (times > 0)
    hw_letter (cr, width / 2.0, fabric->height * scale + 6, &how,
               longer != NULL ? longer : _ ("dashed: before · full: after"));
}

static void
hw_change_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwChangePicture *picture = HW_CHANGE_PICTURE (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t bounds;
  GdkRGBA letters;

  if (picture->before == NULL)
    return;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &letters);
  graphene_rect_init (&bounds, 0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  draw (picture, cr, width, height, &letters);
  cairo_destroy (cr);
}

static void
hw_change_picture_measure (GtkWidget *widget,
                           GtkOrientation orientation,
                           int for_size,
                           int *minimum,
                           int *natural,
                           int *minimum_baseline,
                           int *natural_baseline)
{
  HwChangePicture *picture = HW_CHANGE_PICTURE (widget);

  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? picture->width : picture->height;
}

static void
hw_change_picture_finalize (GObject *object)
{
  HwChangePicture *picture = HW_CHANGE_PICTURE (object);

  g_clear_pointer (&picture->before, hw_snapshot_unref);
  g_clear_pointer (&picture->after, hw_snapshot_unref);
  G_OBJECT_CLASS (hw_change_picture_parent_class)->finalize (object);
}

static void
hw_change_picture_class_init (HwChangePictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hw_change_picture_finalize;
  widget_class->snapshot = hw_change_picture_snapshot;
  widget_class->measure = hw_change_picture_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_change_picture_init (HwChangePicture *picture)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The cloth before and after"), -1);
}

GtkWidget *
hw_change_picture_new (int width, int height)
{
  HwChangePicture *picture = g_object_new (HW_TYPE_CHANGE_PICTURE, NULL);

  picture->width = width;
  picture->height = height;
  return GTK_WIDGET (picture);
}

void
hw_change_picture_show (HwChangePicture *picture, const HwSnapshot *before, const HwSnapshot *after)
{
  g_return_if_fail (HW_IS_CHANGE_PICTURE (picture));

  g_clear_pointer (&picture->before, hw_snapshot_unref);
  g_clear_pointer (&picture->after, hw_snapshot_unref);
  picture->before = before != NULL ? hw_snapshot_ref (before) : NULL;
  picture->after = after != NULL ? hw_snapshot_ref (after) : NULL;
  gtk_widget_queue_draw (GTK_WIDGET (picture));
}
