/* The whole scene as one picture: the cloth, its edge line, the motifs back to front as thread, and over
 * them whatever of the plan is wanted. */
#include "cloth-drawing.h"

#include "thread-painting.h"

#define PALE 0.4        /* how much of a motif is left when lines are to read well over it */
#define PALE_LATER 0.22 /* of a motif that is not stitched yet on this stage */

/* How much of the motif shows. */
static double
strength_of (const HwPlan *plan, guint motif, const HwSceneLook *look)
{
  double strength = look->flags & HW_SCENE_PICTURE_PALE ? PALE : 1;
  int hooping;

  if (plan == NULL || look->stage < 0)
    return strength;
  hooping = hw_plan_hooping_of (plan, motif);
  return hooping >= 0 && hooping <= look->stage ? strength : strength * PALE_LATER;
}

static void
draw_motif (cairo_t *cr, const HwMotif *motif, double strength, double pixels_per_mm)
{
  HwThreadPicture picture = { 0 };

  if (!hw_thread_picture_paint (&picture, motif, pixels_per_mm, 1))
    return;
  cairo_save (cr);
  cairo_translate (cr, motif->placement.position.x, motif->placement.position.y);
  cairo_scale (cr, 1 / pixels_per_mm, 1 / pixels_per_mm);
  cairo_set_source_surface (cr, picture.surface, picture.x, picture.y);
  cairo_paint_with_alpha (cr, strength);
  cairo_restore (cr);
  hw_thread_picture_clear (&picture);
}

static void
draw_marks (cairo_t *cr, const HwHooping *hooping, double px)
{
  cairo_set_source_rgb (cr, 0.12, 0.22, 0.4);
  for (guint m = 0; m < hooping->n_marks; m++)
    hw_draw_mark (cr, hooping->marks[m].at, hooping->marks[m].letter, 7 * px, 1.2 * px, 11 * px);
}

static void
draw_hoopings (cairo_t *cr, const HwPlan *plan, const HwSceneLook *look)
{
  HwFootprintStrength strength
      = look->stage >= 0 || plan->n_hoopings == 1 ? HW_FOOTPRINT_FULL : HW_FOOTPRINT_OUTLINE;

  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &plan->hoopings[h];

      if (look->stage >= 0 && look->stage != (int)h)
        continue;
      if (look->flags & HW_SCENE_PICTURE_FOOTPRINTS)
        hw_draw_footprint (cr, hw_snapshot_hoop (plan->snapshot, hooping->hoop), hooping->centre,
                           hooping->angle, h + 1, strength, look->px);
      if (look->flags & HW_SCENE_PICTURE_MARKS)
        draw_marks (cr, hooping, look->px);
    }
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
hw_draw_scene (cairo_t *cr, const HwSnapshot *snapshot, const HwPlan *plan, const HwSceneLook *look)
{
  g_return_if_fail (cr != NULL && snapshot != NULL);
  g_return_if_fail (look != NULL && look->pixels_per_mm > 0 && look->px > 0);

  cairo_save (cr);
  hw_draw_cloth (cr, &snapshot->fabric, look->px);
  if (snapshot->edge_line != NULL)
    hw_draw_edge_line (cr, snapshot->edge_line, &snapshot->fabric, look->px);
  for (guint m = 0; m < snapshot->motifs->len; m++)
    draw_motif (cr, hw_snapshot_motif (snapshot, m), strength_of (plan, m, look), look->pixels_per_mm);
  if (plan != NULL)
    draw_hoopings (cr, plan, look);
  if (look->flags & HW_SCENE_PICTURE_ORDER)
    draw_order (cr, snapshot, look->px);
  cairo_restore (cr);
}
