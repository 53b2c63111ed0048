/* Outlines: closed rings that bound a stitched area, held once and shared by everyone who looks at
 * them. Box and convex hull are found when an outline is made, because every question about overlap
 * and sharing begins with them. */
#include "outline.h"

#include <math.h>
#include <string.h>

#include "hull.h"

static gboolean
same_point (HwPoint a, HwPoint b)
{
  return a.x == b.x && a.y == b.y;
}

/* The number of points without those at the end that repeat the first. */
static guint
open_length (const HwRing *ring)
{
  guint n = ring->n_points;

  while (n > 1 && same_point (ring->points[n - 1], ring->points[0]))
    n--;
  return n;
}

/* An outline with room for its rings, whose points all lie in one block after another. */
static HwOutline *
outline_alloc (guint n_rings)
{
  HwOutline *outline = g_new0 (HwOutline, 1);

  g_atomic_ref_count_init (&outline->ref_count);
  outline->rings = g_new0 (HwRing, MAX (n_rings, 1));
  outline->box = HW_BOX_EMPTY;
  return outline;
}

static void
outline_find_box (HwOutline *outline)
{
  for (guint r = 0; r < outline->n_rings; r++)
    outline->box = hw_box_union (outline->box,
                                 hw_box_of_points (outline->rings[r].points, outline->rings[r].n_points));
}

guint
hw_outline_count_points (const HwOutline *outline)
{
  guint n = 0;

  for (guint r = 0; r < outline->n_rings; r++)
    n += outline->rings[r].n_points;
  return n;
}

static void
outline_find_hull (HwOutline *outline)
{
  g_autofree HwPoint *all = NULL;
  guint n = 0;

  all = g_new (HwPoint, hw_outline_count_points (outline) + 1);
  for (guint r = 0; r < outline->n_rings; r++)
    {
      memcpy (all + n, outline->rings[r].points, outline->rings[r].n_points * sizeof (HwPoint));
      n += outline->rings[r].n_points;
    }
  outline->hull = g_new (HwPoint, n + 1);
  outline->n_hull = hw_convex_hull (all, n, outline->hull);
  outline->hull = g_renew (HwPoint, outline->hull, MAX (outline->n_hull, 1));
}

HwOutline *
hw_outline_new (const HwRing *rings, guint n_rings)
{
  HwOutline *outline;

  g_return_val_if_fail (rings != NULL || n_rings == 0, NULL);

  outline = outline_alloc (n_rings);
  for (guint r = 0; r < n_rings; r++)
    {
      guint n = open_length (&rings[r]);

      if (n < 3)
        continue;
      outline->rings[outline->n_rings].points = g_memdup2 (rings[r].points, n * sizeof (HwPoint));
      outline->rings[outline->n_rings].n_points = n;
      outline->n_rings++;
    }
  outline_find_box (outline);
  outline_find_hull (outline);
  return outline;
}

HwOutline *
hw_outline_new_rectangle (double width, double height)
{
  double x = width / 2, y = height / 2;
  HwPoint corners[] = { { -x, -y }, { x, -y }, { x, y }, { -x, y } };
  HwRing ring = { corners, G_N_ELEMENTS (corners) };

  return hw_outline_new (&ring, 1);
}

HwOutline *
hw_outline_new_ellipse (double width, double height, guint n_points)
{
  g_autofree HwPoint *points = NULL;
  HwRing ring;

  g_return_val_if_fail (n_points >= 3, NULL);

  points = g_new (HwPoint, n_points);
  for (guint i = 0; i < n_points; i++)
    {
      HwPoint unit = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * i / n_points);

      points[i] = (HwPoint){ unit.x * width / 2, unit.y * height / 2 };
    }
  ring = (HwRing){ points, n_points };
  return hw_outline_new (&ring, 1);
}

HwOutline *
hw_outline_ref (const HwOutline *outline)
{
  HwOutline *shared = (HwOutline *)outline;

  g_return_val_if_fail (outline != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_outline_unref (HwOutline *outline)
{
  g_return_if_fail (outline != NULL);

  if (!g_atomic_ref_count_dec (&outline->ref_count))
    return;
  for (guint r = 0; r < outline->n_rings; r++)
    g_free (outline->rings[r].points);
  g_free (outline->rings);
  g_free (outline->hull);
  g_free (outline);
}

gboolean
hw_outline_equal (const HwOutline *a, const HwOutline *b)
{
  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL || a->n_rings != b->n_rings)
    return FALSE;
  for (guint r = 0; r < a->n_rings; r++)
    {
      if (a->rings[r].n_points != b->rings[r].n_points)
        return FALSE;
      for (guint i = 0; i < a->rings[r].n_points; i++)
        if (!same_point (a->rings[r].points[i], b->rings[r].points[i]))
          return FALSE;
    }
  return TRUE;
}

/* A placement keeps convexity, so the hull is placed rather than found again; mirroring turns its
 * direction round. */
static void
outline_place_hull (HwOutline *placed, const HwOutline *outline, const HwPlacement *placement)
{
  guint n = outline->n_hull;

  placed->hull = g_new (HwPoint, MAX (n, 1));
  placed->n_hull = n;
  for (guint i = 0; i < n; i++)
    placed->hull[placement->mirrored ? n - 1 - i : i] = hw_placement_apply (placement, outline->hull[i]);
}

HwOutline *
hw_outline_place (const HwOutline *outline, const HwPlacement *placement)
{
  HwOutline *placed;

  g_return_val_if_fail (outline != NULL, NULL);
  g_return_val_if_fail (placement != NULL, NULL);

  placed = outline_alloc (outline->n_rings);
  placed->n_rings = outline->n_rings;
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *from = &outline->rings[r];
      HwRing *to = &placed->rings[r];

      to->n_points = from->n_points;
      to->points = g_new (HwPoint, from->n_points);
      for (guint i = 0; i < from->n_points; i++)
        to->points[i] = hw_placement_apply (placement, from->points[i]);
    }
  outline_find_box (placed);
  outline_place_hull (placed, outline, placement);
  return placed;
}

/* Whether the line from p to the right crosses the side. Sides are taken from top to bottom, so that one walked there and back
 * counts twice or not at all, whatever the rounding. */
static gboolean
is_right_of (HwPoint a, HwPoint b, HwPoint p)
{
  HwPoint top = a.y < b.y ? a : b, bottom = a.y < b.y ? b : a;

  return top.y <= p.y && bottom.y > p.y
         && p.x < (bottom.x - top.x) * (p.y - top.y) / (bottom.y - top.y) + top.x;
}

gboolean
hw_outline_contains (const HwOutline *outline, HwPoint p)
{
  gboolean inside = FALSE;

  g_return_val_if_fail (outline != NULL, FALSE);

  if (!(p.x >= outline->box.x0 && p.x <= outline->box.x1 && p.y >= outline->box.y0 && p.y <= outline->box.y1))
    return FALSE;
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint b = ring->points[i];

          if (is_right_of (a, b, p))
            inside = !inside;
          a = b;
        }
    }
  return inside;
}
