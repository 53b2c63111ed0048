/* What lies under the pointer. A motif is hit on its stitched area, not on its bounds: through the hole of a wreath one
 * reaches what lies below. Very thin motifs may be missed by a few pixels and are still found. */

#include "canvas-hits.h"

#include "../geometry/region.h"

static gboolean
box_holds (HwBox box, HwPoint p, double reach)
{
  return p.x >= box.x0 - reach && p.x <= box.x1 + reach && p.y >= box.y0 - reach && p.y <= box.y1 + reach;
}

GArray *
hw_hits_at (const HwOutline *const *placed, guint n, HwPoint at, double reach)
{
  GArray *inside = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) near = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = n; i-- > 0;)
    {
      if (!box_holds (placed[i]->box, at, reach))
        continue;
      if (hw_outline_contains (placed[i], at))
        g_array_append_val (inside, i);
      else if (reach > 0 && hw_outline_distance_to_point (placed[i], at) <= reach)
        g_array_append_val (near, i);
    }
  g_array_append_vals (inside, near->data, near->len);
  return inside;
}

int
hw_hits_next (const GArray *stack, int current)
{
  if (stack->len == 0)
    return -1;
  for (guint i = 0; i < stack->len; i++)
    if ((int)g_array_index (stack, guint, i) == current)
      return (int)g_array_index (stack, guint, (i + 1) % stack->len);
  return (int)g_array_index (stack, guint, 0);
}

gboolean
hw_hits_band (const HwOutline *placed, HwBox band)
{
  HwBox box = placed->box;

  return box.x0 >= MIN (band.x0, band.x1) && box.x1 <= MAX (band.x0, band.x1)
         && box.y0 >= MIN (band.y0, band.y1) && box.y1 <= MAX (band.y0, band.y1);
}
