/* The sums of arranging. How far two outlines reach over one another along a line is computed, not searched for: the farthest contact of two areas that slide
 * along a line is between a corner of one and a side (or corner) of the other, so all such distances along the line are looked at. That is
 * the one-dimensional case of the no-fit polygon, known from cutting cloth and sheet (Art, An approach to the two dimensional
 * irregular cutting stock problem, 1966; from memory). */
#include "arrange-sums.h"

#include <math.h>

#define LEAST_COMMON 1e-9 /* mm of common breadth: less is passing by */

HwPoint
hw_align_shift (HwAlign align, HwBox box, HwBox with)
{
  switch (align)
    {
    case HW_ALIGN_LEFT:
      return (HwPoint){ with.x0 - box.x0, 0 };
    case HW_ALIGN_MIDDLE:
      return (HwPoint){ (with.x0 + with.x1 - box.x0 - box.x1) / 2, 0 };
    case HW_ALIGN_RIGHT:
      return (HwPoint){ with.x1 - box.x1, 0 };
    case HW_ALIGN_TOP:
      return (HwPoint){ 0, with.y0 - box.y0 };
    case HW_ALIGN_CENTRE:
      return (HwPoint){ 0, (with.y0 + with.y1 - box.y0 - box.y1) / 2 };
    case HW_ALIGN_BOTTOM:
      return (HwPoint){ 0, with.y1 - box.y1 };
    default:
      g_return_val_if_reached (((HwPoint){ 0, 0 }));
    }
}

typedef struct
{
  double lo, hi;
  guint index;
} Stretch;

static int
by_middle (gconstpointer a, gconstpointer b)
{
  const Stretch *sa = a, *sb = b;
  double ma = sa->lo + sa->hi, mb = sb->lo + sb->hi;

  if (ma != mb)
    return ma < mb ? -1 : 1;
  return sa->index < sb->index ? -1 : sa->index > sb->index;
}

/* Those strictly between two that stay. */
static void
spread_between (const Stretch *sorted, guint first, guint last, gboolean across, HwPoint *shifts)
{
  double room = sorted[last].lo - sorted[first].hi, at = sorted[first].hi, gap;

  for (guint i = first + 1; i < last; i++)
    room -= sorted[i].hi - sorted[i].lo;
  gap = room / (last - first);
  for (guint i = first + 1; i < last; i++)
    {
      double shift = at + gap - sorted[i].lo;

      shifts[sorted[i].index] = across ? (HwPoint){ shift, 0 } : (HwPoint){ 0, shift };
      at += gap + sorted[i].hi - sorted[i].lo;
    }
}

void
hw_spread_shifts (const HwBox *boxes, const gboolean *fixed, guint n, gboolean across, HwPoint *shifts)
{
  g_autofree Stretch *sorted = g_new (Stretch, n + 1);
  guint from = 0;

  for (guint i = 0; i < n; i++)
    {
      sorted[i]
          = across ? (Stretch){ boxes[i].x0, boxes[i].x1, i } : (Stretch){ boxes[i].y0, boxes[i].y1, i };
      shifts[i] = (HwPoint){ 0, 0 };
    }
  qsort (sorted, n, sizeof (Stretch), by_middle);
  for (guint i = 1; i < n; i++)
    if (i == n - 1 || (fixed != NULL && fixed[sorted[i].index]))
      {
        spread_between (sorted, from, i, across, shifts);
        from = i;
      }
}

void
hw_outline_span (const HwOutline *outline, HwPoint direction, double *least, double *most)
{
  g_return_if_fail (outline != NULL);

  *least = G_MAXDOUBLE;
  *most = -G_MAXDOUBLE;
  for (guint i = 0; i < outline->n_hull; i++)
    {
      double along = outline->hull[i].x * direction.x + outline->hull[i].y * direction.y;

      *least = MIN (*least, along);
      *most = MAX (*most, along);
    }
}

HwPlacement
hw_placement_across (const HwPlacement *placement, gboolean upright, double at)
{
  HwPlacement image = *placement;

  /* With S the mirroring of x: S R(a) = R(-a) S, and mirroring y is S turned by 180 degrees. */
  image.mirrored = !placement->mirrored;
  if (upright)
    {
      image.position.x = 2 * at - placement->position.x;
      image.angle = hw_angle_normal (-placement->angle);
    }
  else
    {
      image.position.y = 2 * at - placement->position.y;
      image.angle = hw_angle_normal (180 - placement->angle);
    }
  return image;
}

/* The farthest way from the corner to one of the sides, `sign` 1: from the corner along the line; -1: from the side to the corner. */
static void
meet_sides (HwPoint corner, const HwOutline *sides, double sign, double *farthest)
{
  for (guint i = 0; i < sides->n_rings; i++)
    for (guint j = 0, k = sides->rings[i].n_points - 1; j < sides->rings[i].n_points; k = j++)
      {
        HwPoint a = sides->rings[i].points[k], b = sides->rings[i].points[j];

        if (corner.y < MIN (a.y, b.y) || corner.y > MAX (a.y, b.y))
          continue;
        if (a.y == b.y)
          *farthest = MAX (*farthest, MAX (sign * (a.x - corner.x), sign * (b.x - corner.x)));
        else
          {
            double x = a.x + (b.x - a.x) * (corner.y - a.y) / (b.y - a.y);
            *farthest = MAX (*farthest, sign * (x - corner.x));
          }
      }
}

/* The outline with the line as its x axis. */
static HwOutline *
along_line (const HwOutline *outline, HwPoint away)
{
  g_autoptr (GPtrArray) kept = g_ptr_array_new_with_free_func (g_free);
  g_autofree HwRing *rings = g_new (HwRing, outline->n_rings + 1);

  for (guint i = 0; i < outline->n_rings; i++)
    {
      const HwRing *ring = &outline->rings[i];
      HwPoint *points = g_new (HwPoint, ring->n_points);

      for (guint j = 0; j < ring->n_points; j++)
        {
          HwPoint p = ring->points[j];
          points[j] = (HwPoint){ p.x * away.x + p.y * away.y, p.y * away.x - p.x * away.y };
        }
      g_ptr_array_add (kept, points);
      rings[i] = (HwRing){ points, ring->n_points };
    }
  return hw_outline_new (rings, outline->n_rings);
}

gboolean
hw_outline_contact (const HwOutline *moving, const HwOutline *still, HwPoint away, double *shift)
{
  g_return_val_if_fail (moving != NULL && still != NULL && shift != NULL, FALSE);

  g_autoptr (HwOutline) a = along_line (moving, away);
  g_autoptr (HwOutline) b = along_line (still, away);
  double farthest = -G_MAXDOUBLE;

  if (MIN (a->box.y1, b->box.y1) - MAX (a->box.y0, b->box.y0) < LEAST_COMMON)
    return FALSE;
  for (guint i = 0; i < a->n_rings; i++)
    for (guint j = 0; j < a->rings[i].n_points; j++)
      meet_sides (a->rings[i].points[j], b, 1, &farthest);
  for (guint i = 0; i < b->n_rings; i++)
    for (guint j = 0; j < b->rings[i].n_points; j++)
      meet_sides (b->rings[i].points[j], a, -1, &farthest);
  if (farthest == -G_MAXDOUBLE)
    return FALSE;
  *shift = farthest;
  return TRUE;
}
