/* Questions about areas, answered by GEOS. An outline becomes a polygon by containment: a ring within an
 * even number of others bounds stitching, one within an odd number bounds a hole. Where rings cross, GEOS
 * sorts the pieces out by the same even-odd rule. */
#include "region.h"

#include <geos_c.h>
#include <glib/gi18n.h>
#include <math.h>

#include "region-private.h"

/* Beyond this the outline is no piece of cloth, and products of coordinates lose their small digits. */
#define GREATEST_MM 1e6
/* An area below this (mm^2) is no stitching. */
#define SMALLEST_AREA 1e-6
/* A scribble that crosses itself more often than this has no inside a person could name. */
#define GREATEST_CROSSINGS 5000

G_DEFINE_QUARK (hw_region_error_quark, hw_region_error)

static void
finish_context (gpointer context)
{
  GEOS_finish_r (context);
}

static GPrivate thread_context = G_PRIVATE_INIT (finish_context);

GEOSContextHandle_t
hw_region_context (void)
{
  GEOSContextHandle_t context = g_private_get (&thread_context);

  if (context == NULL)
    {
      context = GEOS_init_r ();
      g_private_set (&thread_context, context);
    }
  return context;
}

static GEOSGeometry *
geos_ring (GEOSContextHandle_t context, const HwRing *ring)
{
  GEOSCoordSequence *points = GEOSCoordSeq_create_r (context, ring->n_points + 1, 2);

  if (points == NULL)
    return NULL;
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
      holes[n_holes++] = geos_ring (context, &outline->rings[i]);
  polygon = GEOSGeom_createPolygon_r (context, geos_ring (context, &outline->rings[shell]), holes, n_holes);
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
    return GEOSGeom_createPolygon_r (context, geos_ring (context, &outline->rings[0]), NULL, 0);

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

  if (points == NULL || !GEOSCoordSeq_getSize_r (context, points, &n) || n < 4)
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
      if (!(mm2 > SMALLEST_AREA / 100))
        return;
      collect_ring (context, GEOSGetExteriorRing_r (context, area), rings);
      for (int i = 0; i < GEOSGetNumInteriorRings_r (context, area); i++)
        collect_ring (context, GEOSGetInteriorRingN_r (context, area, i), rings);
    }
  else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION)
    for (int i = 0; i < GEOSGetNumGeometries_r (context, area); i++)
      collect_rings (context, GEOSGetGeometryN_r (context, area, i), rings);
}

static void
clear_ring (gpointer ring)
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
  g_array_set_clear_func (rings, clear_ring);
  collect_rings (context, area, rings);
  if (rings->len == 0)
    return NULL;
  outline = hw_outline_new ((const HwRing *)rings->data, rings->len);
  return outline->n_rings > 0 && hw_outline_area (outline) > SMALLEST_AREA ? g_steal_pointer (&outline)
                                                                           : NULL;
}

static gboolean
outline_is_finite (const HwOutline *outline)
{
  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      if (!(fabs (outline->rings[r].points[i].x) <= GREATEST_MM
            && fabs (outline->rings[r].points[i].y) <= GREATEST_MM))
        return FALSE;
  return TRUE;
}

/* The outline without points that repeat the one before them. *dropped tells whether there were any. */
static HwOutline *
without_repeats (const HwOutline *outline, gboolean *dropped)
{
  g_autoptr (GArray) rings = g_array_new (FALSE, FALSE, sizeof (HwRing));

  *dropped = FALSE;
  g_array_set_clear_func (rings, clear_ring);
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *from = &outline->rings[r];
      HwRing ring = { g_new (HwPoint, from->n_points), 0 };

      for (guint i = 0; i < from->n_points; i++)
        {
          HwPoint p = from->points[i];

          if (ring.n_points > 0 && ring.points[ring.n_points - 1].x == p.x
              && ring.points[ring.n_points - 1].y == p.y)
            *dropped = TRUE;
          else
            ring.points[ring.n_points++] = p;
        }
      g_array_append_val (rings, ring);
    }
  return hw_outline_new ((const HwRing *)rings->data, rings->len);
}

typedef struct
{
  HwPoint a, b;
  double x0, x1;
} Edge;

static int
compare_edges (gconstpointer pa, gconstpointer pb)
{
  const Edge *a = pa, *b = pb;

  return (a->x0 > b->x0) - (a->x0 < b->x0);
}

static int
side (HwPoint o, HwPoint a, HwPoint p)
{
  double cross = (a.x - o.x) * (p.y - o.y) - (a.y - o.y) * (p.x - o.x);

  return (cross > 0) - (cross < 0);
}

/* Whether the outline's edges cross one another more than `limit` times. */
static gboolean
crosses_more_than (const HwOutline *outline, guint limit)
{
  g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (Edge));
  guint crossings = 0;

  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      {
        const HwRing *ring = &outline->rings[r];
        HwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
        Edge edge = { a, b, MIN (a.x, b.x), MAX (a.x, b.x) };

        g_array_append_val (edges, edge);
      }
  g_array_sort (edges, compare_edges);
  for (guint i = 0; i < edges->len; i++)
    {
      const Edge *e = &g_array_index (edges, Edge, i);

      for (guint j = i + 1; j < edges->len && g_array_index (edges, Edge, j).x0 <= e->x1; j++)
        {
          const Edge *f = &g_array_index (edges, Edge, j);

          if (side (e->a, e->b, f->a) * side (e->a, e->b, f->b) < 0
              && side (f->a, f->b, e->a) * side (f->a, f->b, e->b) < 0 && ++crossings > limit)
            return TRUE;
        }
    }
  return FALSE;
}

HwOutline *
hw_outline_repair (const HwOutline *outline, gboolean *repaired, GError **error)
{
  GEOSContextHandle_t context = hw_region_context ();
  g_autoptr (HwOutline) clean = NULL;
  HwOutline *mended;
  GEOSGeometry *area, *valid;
  gboolean dropped;

  g_return_val_if_fail (outline != NULL, NULL);

  if (repaired != NULL)
    *repaired = FALSE;
  if (!outline_is_finite (outline))
    {
      g_set_error_literal (error, HW_REGION_ERROR, HW_REGION_ERROR_NOT_FINITE,
                           _ ("The outline has a point that is not a place on cloth."));
      return NULL;
    }
  clean = without_repeats (outline, &dropped);
  if (hw_outline_is_simple (clean) && hw_outline_area (clean) > SMALLEST_AREA)
    {
      if (repaired != NULL)
        *repaired = dropped;
      return g_steal_pointer (&clean);
    }
  if (crosses_more_than (clean, GREATEST_CROSSINGS))
    {
      g_set_error_literal (error, HW_REGION_ERROR, HW_REGION_ERROR_CROSSING,
                           _ ("The outline crosses itself so often that its inside cannot be told."));
      return NULL;
    }
  area = hw_region_from_outline (clean);
  valid = area != NULL ? GEOSMakeValid_r (context, area) : NULL;
  mended = hw_region_to_outline (valid);
  if (area != NULL)
    GEOSGeom_destroy_r (context, area);
  if (valid != NULL)
    GEOSGeom_destroy_r (context, valid);
  if (mended == NULL)
    g_set_error_literal (error, HW_REGION_ERROR, HW_REGION_ERROR_EMPTY, _ ("The outline encloses no area."));
  else if (repaired != NULL)
    *repaired = TRUE;
  return mended;
}

gboolean
hw_outline_is_simple (const HwOutline *outline)
{
  GEOSContextHandle_t context = hw_region_context ();
  GEOSGeometry *area;
  gboolean simple;

  g_return_val_if_fail (outline != NULL, FALSE);

  if (outline->n_rings == 0 || !outline_is_finite (outline))
    return FALSE;
  area = hw_region_from_outline (outline);
  if (area == NULL)
    return FALSE;
  simple = GEOSisValid_r (context, area) == 1;
  GEOSGeom_destroy_r (context, area);
  return simple;
}

double
hw_outline_area (const HwOutline *outline)
{
  GEOSContextHandle_t context = hw_region_context ();
  GEOSGeometry *area;
  double mm2 = 0;

  g_return_val_if_fail (outline != NULL, 0);

  area = hw_region_from_outline (outline);
  if (area == NULL)
    return 0;
  if (!GEOSArea_r (context, area, &mm2))
    mm2 = 0;
  GEOSGeom_destroy_r (context, area);
  return mm2;
}

typedef GEOSGeometry *(*Overlay) (GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *);

static GEOSGeometry *
made_valid (GEOSContextHandle_t context, GEOSGeometry *area)
{
  GEOSGeometry *valid = GEOSMakeValid_r (context, area);

  GEOSGeom_destroy_r (context, area);
  return valid;
}

/* The overlay of two outlines; when GEOS balks at an outline that crosses itself, of what it means. */
static GEOSGeometry *
overlay (Overlay method, const HwOutline *a, const HwOutline *b)
{
  GEOSContextHandle_t context = hw_region_context ();
  GEOSGeometry *area_a = hw_region_from_outline (a);
  GEOSGeometry *area_b = hw_region_from_outline (b);
  GEOSGeometry *result = NULL;

  if (area_a != NULL && area_b != NULL)
    {
      result = method (context, area_a, area_b);
      if (result == NULL)
        {
          area_a = made_valid (context, area_a);
          area_b = made_valid (context, area_b);
          if (area_a != NULL && area_b != NULL)
            result = method (context, area_a, area_b);
        }
    }
  if (area_a != NULL)
    GEOSGeom_destroy_r (context, area_a);
  if (area_b != NULL)
    GEOSGeom_destroy_r (context, area_b);
  return result;
}

static HwOutline *
overlay_outline (Overlay method, const HwOutline *a, const HwOutline *b)
{
  GEOSGeometry *area = overlay (method, a, b);
  HwOutline *outline = hw_region_to_outline (area);

  if (area != NULL)
    GEOSGeom_destroy_r (hw_region_context (), area);
  return outline;
}

double
hw_outline_distance (const HwOutline *a, const HwOutline *b)
{
  GEOSContextHandle_t context = hw_region_context ();
  GEOSGeometry *area_a, *area_b;
  double mm = 0;

  g_return_val_if_fail (a != NULL && b != NULL, 0);

  area_a = hw_region_from_outline (a);
  area_b = hw_region_from_outline (b);
  if (area_a == NULL || area_b == NULL || !GEOSDistance_r (context, area_a, area_b, &mm))
    mm = 0;
  if (area_a != NULL)
    GEOSGeom_destroy_r (context, area_a);
  if (area_b != NULL)
    GEOSGeom_destroy_r (context, area_b);
  return mm;
}

HwOutline *
hw_outline_grow (const HwOutline *outline, double mm)
{
  GEOSContextHandle_t context = hw_region_context ();
  GEOSGeometry *area, *grown = NULL;
  HwOutline *result;

  g_return_val_if_fail (outline != NULL, NULL);
  g_return_val_if_fail (isfinite (mm), NULL);

  area = hw_region_from_outline (outline);
  if (area != NULL)
    {
      grown = GEOSBuffer_r (context, area, mm, 16);
      GEOSGeom_destroy_r (context, area);
    }
  result = hw_region_to_outline (grown);
  if (grown != NULL)
    GEOSGeom_destroy_r (context, grown);
  return result;
}

HwOutline *
hw_outline_minus (const HwOutline *a, const HwOutline *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, NULL);

  return overlay_outline (GEOSDifference_r, a, b);
}

HwOutline *
hw_outline_common (const HwOutline *a, const HwOutline *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, NULL);

  return overlay_outline (GEOSIntersection_r, a, b);
}

HwOutline *
hw_outline_join (const HwOutline *const *outlines, guint n)
{
  GEOSContextHandle_t context = hw_region_context ();
  g_autofree GEOSGeometry **areas = NULL;
  GEOSGeometry *all, *joined;
  HwOutline *result;
  guint n_areas = 0;

  g_return_val_if_fail (outlines != NULL || n == 0, NULL);

  areas = g_new0 (GEOSGeometry *, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    {
      GEOSGeometry *area = hw_region_from_outline (outlines[i]);

      if (area != NULL)
        areas[n_areas++] = area;
    }
  all = GEOSGeom_createCollection_r (context, GEOS_GEOMETRYCOLLECTION, areas, n_areas);
  if (all == NULL)
    return NULL;
  joined = GEOSUnaryUnion_r (context, all);
  result = hw_region_to_outline (joined);
  if (joined != NULL)
    GEOSGeom_destroy_r (context, joined);
  GEOSGeom_destroy_r (context, all);
  return result;
}
