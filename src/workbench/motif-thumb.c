/* A tiny picture of a motif. It is painted anew only when the artwork, the outline or the threads are others, not when the motif
 * moves. */
#include "motif-thumb.h"

#include "../drawing/thread-painting.h"

struct _HwMotifThumb
{
  GtkWidget parent_instance;

  int side;
  HwMotif *motif;
  HwThreadPicture picture;
  gboolean painted;
  int painted_scale; /* device pixels per px */
};

G_DEFINE_FINAL_TYPE (HwMotifThumb, hw_motif_thumb, GTK_TYPE_WIDGET)

static void
forget_picture (HwMotifThumb *thumb)
{
  if (thumb->painted)
    hw_thread_picture_clear (&thumb->picture);
  thumb->painted = FALSE;
}

static gboolean
paint (HwMotifThumb *thumb, int scale)
{
  if (thumb->painted && thumb->painted_scale == scale)
    return TRUE;
  forget_picture (thumb);

  g_autoptr (HwMotif) upright = hw_motif_copy (thumb->motif);
  HwBox box = thumb->motif->outline->box;
  double extent = MAX (box.x1 - box.x0, box.y1 - box.y0);
  if (extent <= 0)
    return FALSE;
  upright->placement = (HwPlacement){ .scale = 1, .mirrored = thumb->motif->placement.mirrored };
  thumb->painted = hw_thread_picture_paint (&thumb->picture, upright, (thumb->side - 2) * scale / extent, 1);
  thumb->painted_scale = scale;
  return thumb->painted;
}

static void
hw_motif_thumb_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwMotifThumb *thumb = HW_MOTIF_THUMB (widget);
  int scale = gtk_widget_get_scale_factor (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  graphene_rect_t bounds;

  if (thumb->motif == NULL || !paint (thumb, scale))
    return;
  graphene_rect_init (&bounds, 0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_surface_t *surface = thumb->picture.surface;
  cairo_translate (cr, width / 2.0, height / 2.0);
  cairo_scale (cr, 1.0 / scale, 1.0 / scale);
  cairo_set_source_surface (cr, surface, -cairo_image_surface_get_width (surface) / 2.0,
                            -cairo_image_surface_get_height (surface) / 2.0);
  cairo_paint (cr);
  cairo_destroy (cr);
}

static void
hw_motif_thumb_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  *minimum = *natural = HW_MOTIF_THUMB (widget)->side;
}

static void
hw_motif_thumb_dispose (GObject *object)
{
  HwMotifThumb *thumb = HW_MOTIF_THUMB (object);

  forget_picture (thumb);
  g_clear_pointer (&thumb->motif, hw_motif_unref);
  G_OBJECT_CLASS (hw_motif_thumb_parent_class)->dispose (object);
}

static void
hw_motif_thumb_class_init (HwMotifThumbClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hw_motif_thumb_dispose;
  widget_class->snapshot = hw_motif_thumb_snapshot;
  widget_class->measure = hw_motif_thumb_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
hw_motif_thumb_init (HwMotifThumb *thumb)
{
  gtk_widget_set_can_target (GTK_WIDGET (thumb), FALSE);
}

GtkWidget *
hw_motif_thumb_new (int side)
{
  HwMotifThumb *thumb = g_object_new (HW_TYPE_MOTIF_THUMB, NULL);

  thumb->side = side;
  return GTK_WIDGET (thumb);
}

static gboolean
looks_the_same (const HwMotif *a, const HwMotif *b)
{
  if (a == NULL || b == NULL)
    return a == b;
  if (a->needles != b->needles || a->picture != b->picture || a->outline != b->outline || a->n_threads != b->n_threads
      || a->placement.mirrored != b->placement.mirrored)
    return FALSE;
  for (guint i = 0; i < a->n_threads; i++)
    if (!hw_thread_same (&a->threads[i], &b->threads[i]))
      return FALSE;
  return TRUE;
}

void
hw_motif_thumb_set_motif (HwMotifThumb *thumb, const HwMotif *motif)
{
  g_return_if_fail (HW_IS_MOTIF_THUMB (thumb));

  if (looks_the_same (thumb->motif, motif))
    return;
  forget_picture (thumb);
  g_clear_pointer (&thumb->motif, hw_motif_unref);
  if (motif != NULL)
    thumb->motif = hw_motif_ref (motif);
  gtk_widget_queue_draw (GTK_WIDGET (thumb));
}
