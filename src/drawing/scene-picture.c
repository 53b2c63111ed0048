/* The whole scene as one picture: the cloth, its edge line, the motifs back to front as thread, and over
 * them whatever of the plan is wanted. */
#include "cloth-drawing.h"

#include "thread-painting.h"

#define PALE 0.4 /* how much of a motif is left when lines are to read well over it */

static void
draw_motif (cairo_t *cr, const HwMotif *motif, HwScenePictureFlags flags, double pixels_per_mm)
{
  HwThreadPicture picture = { 0 };

  if (!hw_thread_picture_paint (&picture, motif, pixels_per_mm, 1))
    return;
  cairo_save (cr);
  cairo_translate (cr, motif->placement.position.x, motif->placement.position.y);
  cairo_scale (cr, 1 / pixels_per_mm, 1 / pixels_per_mm);
  cairo_set_source_surface (cr, picture.surface, picture.x, picture.y);
  cairo_paint_with_alpha (cr, flags & HW_SCENE_PICTURE_PALE ? PALE : 1);
  cairo_restore (cr);
  hw_thread_picture_clear (&picture);
}

static void
draw_footprints (cairo_t *cr, const HwPlan *plan, double px)
{
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &plan->hoopings[h];

      hw_draw_footprint (cr, hw_snapshot_hoop (plan->snapshot, hooping->hoop), hooping->centre,
                         hooping->angle, h + 1, HW_FOOTPRINT_FULL, px);
    }
}

static void
draw_marks (cairo_t *cr, const HwPlan *plan, double px)
{
  cairo_set_source_rgb (cr, 0.12, 0.22, 0.4);
  for (guint h = 0; h < plan->n_hoopings; h++)
    for (guint m = 0; m < plan->hoopings[h].n_marks; m++)
      hw_draw_mark (cr, plan->hoopings[h].marks[m].at, plan->hoopings[h].marks[m].letter, 7 * px, 1.2 * px,
                    11 * px);
}

#define DISC_PX 10
#define MOST_STEPS 6 /* in a heap of motifs some numbers may cover others */

static const HwPoint *
first_nearer (const HwPoint *taken, guint n_taken, HwPoint place, double apart)
{
  for (guint i = 0; i < n_taken; i++)
    if (hw_point_distance (taken[i], place) < apart)
      return &taken[i];
  return NULL;
}

/* The number sits in the middle of the motif's box on the cloth; one that would cover another steps down. */
static HwPoint
free_place (const HwPoint *taken, guint n_taken, HwPoint place, double apart)
{
  const HwPoint *near;

  for (guint step = 0; step < MOST_STEPS; step++)
    {
      near = first_nearer (taken, n_taken, place, apart * 0.99);
      if (near == NULL)
        break;
      place.y = near->y + apart;
    }
  return place;
}

static void
draw_order (cairo_t *cr, const HwSnapshot *snapshot, double px)
{
  g_autofree HwPoint *places = g_new (HwPoint, snapshot->motifs->len + 1);

  for (guint m = 0; m < snapshot->motifs->len; m++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, m);
      g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
      HwPoint middle = { (placed->box.x0 + placed->box.x1) / 2, (placed->box.y0 + placed->box.y1) / 2 };

      places[m] = free_place (places, m, middle, 2.2 * DISC_PX * px);
      hw_draw_order_number (cr, places[m], m + 1, DISC_PX * px);
    }
}

void
hw_draw_scene (cairo_t *cr,
               const HwSnapshot *snapshot,
               const HwPlan *plan,
               HwScenePictureFlags flags,
               double pixels_per_mm)
{
  double px;

  g_return_if_fail (cr != NULL && snapshot != NULL);
  g_return_if_fail (pixels_per_mm > 0);

  px = 1 / pixels_per_mm;
  cairo_save (cr);
  hw_draw_cloth (cr, &snapshot->fabric, px);
  if (snapshot->edge_line != NULL)
    hw_draw_edge_line (cr, snapshot->edge_line, &snapshot->fabric, px);
  for (guint m = 0; m < snapshot->motifs->len; m++)
    draw_motif (cr, hw_snapshot_motif (snapshot, m), flags, pixels_per_mm);
  if (plan != NULL && flags & HW_SCENE_PICTURE_FOOTPRINTS)
    draw_footprints (cr, plan, px);
  if (plan != NULL && flags & HW_SCENE_PICTURE_MARKS)
    draw_marks (cr, plan, px);
  if (flags & HW_SCENE_PICTURE_ORDER)
    draw_order (cr, snapshot, px);
  cairo_restore (cr);
}
