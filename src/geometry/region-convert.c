/* Between outlines and GEOS. An outline becomes a polygon by containment: a ring within an even number of others bounds
 * stitching, one within an odd number bounds a hole. Each thread has its own GEOS context. */
#include "region-private.h"

#include <math.h>
#include <string.h>

#include "region.h"

static void
finish_context (gpointer context)
{
  GEOS_finish_r (context);
}

/* Memory that ends within GEOS ends the program as it does within GLib, and with the same right: an area that could not be worked out must not be
 * taken for none. What else GEOS complains of it answers with NULL. (Unsaved work has been kept beside.) */
static void
take_complaint (const char *message, void *data)
{
  if (strcmp (message, "std::bad_alloc") == 0)
    g_error ("There is no memory left to work out an area.");
}

static GPrivate thread_context = G_PRIVATE_INIT (finish_context);

GEOSContextHandle_t
hw_region_context (void)
{
  GEOSContextHandle_t context = g_private_get (&thread_context);

  if (context == NULL)
    {
      context = GEOS_init_r ();
      GEOSContext_setErrorMessageHandler_r (context, take_complaint, NULL);
      g_private_set (&thread_context, context);
    }
  return context;
}

void
hw_region_free (GEOSGeometry *geometry)
{
  if (geometry != NULL)
    GEOSGeom_destroy_r (hw_region_context (), geometry);
}

GEOSGeometry *
hw_region_ring (GEOSContextHandle_t context, const HwRing *ring)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (context, ring->n_points + 1, 2);

  for (guint i = 0; i <= ring->n_points; i++)
    {
      HwPoint p = ring->points[i % ring->n_points];

      GEOSCoordSeq_setXY_r (context, points, i, p.x, p.y);
    }
  return GEOSGeom_createLinearRing_r (context, points);
}

static gboolean
ring_contains (const HwRing *ring, HwPoint p)
{
  HwRing one = *ring;
  HwOutline outline = { .rings = &one, .n_rings = 1, .box = hw_box_of_points (ring->points, ring->n_points) };

  return hw_outline_contains (&outline, p);
}

/* Whether the inner ring lies within the outer: the first of its points that does not lie on the outer
 * ring's corners decides. */
static gboolean
ring_is_within (const HwRing *inner, const HwRing *outer)
{
  for (guint i = 0; i < inner->n_points; i++)
    {
      HwPoint a = inner->points[i], b = inner->points[(i + 1) % inner->n_points];
      HwPoint middle = { (a.x + b.x) / 2, (a.y + b.y) / 2 };
      gboolean at_a = ring_contains (outer, a);

      if (at_a == ring_contains (outer, middle))
        return at_a;
    }
  return ring_contains (outer, inner->points[0]);
}

/* Twice the area a ring encloses. */
static double
ring_size (const HwRing *ring)
{
  double sum = 0;

  for (guint i = 0; i < ring->n_points; i++)
    {
      HwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];

      sum += (a.x - ring->points[0].x) * (b.y - ring->points[0].y)
             - (b.x - ring->points[0].x) * (a.y - ring->points[0].y);
    }
  return fabs (sum);
}

static gboolean
box_is_within (HwBox inner, HwBox outer)
{
  return outer.x0 <= inner.x0 && outer.y0 <= inner.y0 && outer.x1 >= inner.x1 && outer.y1 >= inner.y1;
}

/* depth[i] = how many rings ring i lies within; parent[i] = the innermost of them, or -1. */
static void
find_nesting (const HwOutline *outline, guint *depth, int *parent)
{
  guint n = outline->n_rings;
  g_autofree HwBox *boxes = g_new (HwBox, n);
  g_autofree double *sizes = g_new (double, n);

  for (guint i = 0; i < n; i++)
    {
      boxes[i] = hw_box_of_points (outline->rings[i].points, outline->rings[i].n_points);
      sizes[i] = ring_size (&outline->rings[i]);
    }
  for (guint i = 0; i < n; i++)
    {
      depth[i] = 0;
      parent[i] = -1;
      for (guint j = 0; j < n; j++)
        if (i != j && box_is_within (boxes[i], boxes[j])
            && ring_is_within (&outline->rings[i], &outline->rings[j]))
          {
            depth[i]++;
            if (parent[i] < 0 || sizes[j] < sizes[parent[i]])
              parent[i] = j;
          }
    }
}

/* One polygon: the shell ring with the holes whose parent it is. */
static GEOSGeometry *
geos_shell (
    GEOSContextHandle_t context, const HwOutline *outline, guint shell, const guint *depth, const int *parent)
{
  GEOSGeometry **holes = g_new0 (GEOSGeometry *, outline->n_rings);
  guint n_holes = 0;
  GEOSGeometry *polygon;

  for (guint i = 0; i < outline->n_rings; i++)
    if (depth[i] % 2 == 1 && parent[i] == (int)shell)
      holes[n_holes++] = hw_region_ring (context, &outline->rings[i]);
  polygon
      = GEOSGeom_createPolygon_r (context, hw_region_ring (context, &outline->rings[shell]), holes, n_holes);
  g_free (holes);
  return polygon;
}

GEOSGeometry *
hw_region_from_outline (const HwOutline *outline)
{
  GEOSContextHandle_t context = hw_region_context ();
  g_autofree guint *depth = NULL;
  g_autofree int *parent = NULL;
  g_autofree GEOSGeometry **shells = NULL;
  guint n_shells = 0;

  if (outline->n_rings == 0)
    return GEOSGeom_createEmptyPolygon_r (context);
  if (outline->n_rings == 1)
    return GEOSGeom_createPolygon_r (context, hw_region_ring (context, &outline->rings[0]), NULL, 0);

  depth = g_new (guint, outline->n_rings);
  parent = g_new (int, outline->n_rings);
  shells = g_new0 (GEOSGeometry *, outline->n_rings);
  find_nesting (outline, depth, parent);
  for (guint i = 0; i < outline->n_rings; i++)
    if (depth[i] % 2 == 0)
      shells[n_shells++] = geos_shell (context, outline, i, depth, parent);
  return GEOSGeom_createCollection_r (context, GEOS_MULTIPOLYGON, shells, n_shells);
}

static void
collect_ring (GEOSContextHandle_t context, const GEOSGeometry *line, GArray *rings)
{
  const GEOSCoordSequence *points = GEOSGeom_getCoordSeq_r (context, line);
  HwRing ring = { NULL, 0 };
  unsigned int n = 0;

  GEOSCoordSeq_getSize_r (context, points, &n);
  if (n < 4)
    return;
  ring.points = g_new (HwPoint, n - 1);
  ring.n_points = n - 1;
  for (unsigned int i = 0; i + 1 < n; i++)
    GEOSCoordSeq_getXY_r (context, points, i, &ring.points[i].x, &ring.points[i].y);
  g_array_append_val (rings, ring);
}

static void
collect_rings (GEOSContextHandle_t context, const GEOSGeometry *area, GArray *rings)
{
  int type = GEOSGeomTypeId_r (context, area);

  if (type == GEOS_POLYGON)
    {
      double mm2 = 0;

      GEOSArea_r (context, area, &mm2);
      if (!(mm2 > HW_REGION_SMALLEST / 100))
        return;
      collect_ring (context, GEOSGetExteriorRing_r (context, area), rings);
      for (int i = 0; i < GEOSGetNumInteriorRings_r (context, area); i++)
        collect_ring (context, GEOSGetInteriorRingN_r (context, area, i), rings);
    }
  else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION)
    for (int i = 0; i < GEOSGetNumGeometries_r (context, area); i++)
      collect_rings (context, GEOSGetGeometryN_r (context, area, i), rings);
}

void
hw_region_clear_ring (gpointer ring)
{
  g_free (((HwRing *)ring)->points);
}

HwOutline *
hw_region_to_outline (const GEOSGeometry *area)
{
  GEOSContextHandle_t context = hw_region_context ();
  g_autoptr (GArray) rings = g_array_new (FALSE, FALSE, sizeof (HwRing));
  g_autoptr (HwOutline) outline = NULL;

  if (area == NULL)
    return NULL;
  g_array_set_clear_func (rings, hw_region_clear_ring);
  collect_rings (context, area, rings);
  if (rings->len == 0)
    return NULL;
  outline = hw_outline_new ((const HwRing *)rings->data, rings->len);
  return outline->n_rings > 0 && hw_outline_area (outline) > HW_REGION_SMALLEST ? g_steal_pointer (&outline)
                                                                                : NULL;
}
