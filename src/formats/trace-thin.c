/* Traced lines with fewer points: first while they are drawn, by an opening cone (Williams 1978, Computer Graphics and Image Processing 8;
 * Sklansky and Gonzalez 1980, Pattern Recognition 12), so that a large picture needs little memory; then all together, by the
 * simplification of GEOS that lets no line cross another. */
#include "trace.h"

#include <geos_c.h>
#include <math.h>

static double
angle_between (double a, double b)
{
  double d = fmod (a - b, 2 * G_PI);

  return d > G_PI ? d - 2 * G_PI : d < -G_PI ? d + 2 * G_PI : d;
}

/* Narrows the cone to what also sees p within the slack. FALSE when p lies outside it, or the line turned back. */
static gboolean
narrow (HwThinLine *line, HwPoint p)
{
  double dx = p.x - line->anchor.x, dy = p.y - line->anchor.y, far = hypot (dx, dy);
  double direction, half, off, low, high;

  if (far < line->farthest - line->slack)
    return FALSE;
  line->farthest = MAX (line->farthest, far);
  if (far <= line->slack)
    return TRUE;
  direction = atan2 (dy, dx);
  half = asin (line->slack / far);
  if (!line->open)
    {
      line->middle = direction;
      line->half = half;
      line->open = TRUE;
      return TRUE;
    }
  off = angle_between (direction, line->middle);
  if (fabs (off) > line->half)
    return FALSE;
  low = MAX (-line->half, off - half);
  high = MIN (line->half, off + half);
  line->middle += (low + high) / 2;
  line->half = (high - low) / 2;
  return TRUE;
}

static void
begin_at (HwThinLine *line, HwPoint p)
{
  g_array_append_val (line->kept, p);
  line->anchor = line->last = p;
  line->farthest = 0;
  line->open = FALSE;
}

void
hw_thin_line_start (HwThinLine *line, GArray *kept, double slack, HwPoint first)
{
  *line = (HwThinLine){ .kept = kept, .slack = slack };
  begin_at (line, first);
}

void
hw_thin_line_add (HwThinLine *line, HwPoint p)
{
  if (!narrow (line, p))
    {
      begin_at (line, line->last);
      narrow (line, p);
    }
  line->last = p;
}

void
hw_thin_line_end (HwThinLine *line)
{
  if (line->last.x != line->anchor.x || line->last.y != line->anchor.y)
    g_array_append_val (line->kept, line->last);
}

static GEOSGeometry *
closed_line (GEOSContextHandle_t context, const HwRing *ring)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (context, ring->n_points + 1, 2);

  for (guint i = 0; points != NULL && i <= ring->n_points; i++)
    {
      HwPoint p = ring->points[i % ring->n_points];

      GEOSCoordSeq_setXY_r (context, points, i, p.x, p.y);
    }
  return points != NULL ? GEOSGeom_createLinearRing_r (context, points) : NULL;
}

static GEOSGeometry *
all_lines (GEOSContextHandle_t context, const HwRing *rings, guint n_rings)
{
  g_autofree GEOSGeometry **lines = g_new0 (GEOSGeometry *, n_rings);
  guint n = 0;

  for (guint i = 0; i < n_rings; i++)
    {
      lines[n] = closed_line (context, &rings[i]);
      n += lines[n] != NULL;
    }
  return GEOSGeom_createCollection_r (context, GEOS_MULTILINESTRING, lines, n);
}

static void
clear_ring (gpointer ring)
{
  g_free (((HwRing *)ring)->points);
}

static void
collect_line (GEOSContextHandle_t context, const GEOSGeometry *line, GArray *rings)
{
  const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r (context, line);
  unsigned int n = 0;
  HwRing ring;

  if (points == NULL || !GEOSCoordSeq_getSize_r (context, points, &n) || n < 4)
    return;
  ring = (HwRing){ g_new (HwPoint, n - 1), n - 1 };
  for (unsigned int i = 0; i + 1 < n; i++)
    GEOSCoordSeq_getXY_r (context, points, i, &ring.points[i].x, &ring.points[i].y);
  g_array_append_val (rings, ring);
}

HwOutline *
hw_rings_simplified (const HwRing *rings, guint n_rings, double slack)
{
  GEOSContextHandle_t context;
  GEOSGeometry *lines, *fewer = NULL;
  g_autoptr (GArray) found = NULL;
  g_autoptr (HwOutline) outline = NULL;

  g_return_val_if_fail (rings != NULL && slack >= 0, NULL);

  found = g_array_new (FALSE, FALSE, sizeof (HwRing));
  g_array_set_clear_func (found, clear_ring);
  context = GEOS_init_r ();
  lines = all_lines (context, rings, n_rings);
  if (lines != NULL)
    fewer = GEOSTopologyPreserveSimplify_r (context, lines, slack);
  for (int i = 0; fewer != NULL && i < GEOSGetNumGeometries_r (context, fewer); i++)
    collect_line (context, GEOSGetGeometryN_r (context, fewer, i), found);
  if (lines != NULL)
    GEOSGeom_destroy_r (context, lines);
  if (fewer != NULL)
    GEOSGeom_destroy_r (context, fewer);
  GEOS_finish_r (context);
  outline = found->len > 0 ? hw_outline_new ((const HwRing *)(gpointer)found->data, found->len)
                           : hw_outline_new (rings, n_rings);
  return g_steal_pointer (&outline);
}
