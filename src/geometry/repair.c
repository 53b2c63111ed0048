/* Outlines made good. Where rings cross, the lines are cut at their crossings into faces, and each face is kept or left by the even-odd
 * rule; what has no area, and scribbles that nobody could call an area, are refused. */
#include "region.h"

#include <math.h>

#include "region-private.h"
#include "language.h"

/* Beyond this the outline is no piece of cloth, and products of coordinates lose their small digits. */
#define GREATEST_MM 1e6
/* A scribble that crosses itself more often than this has no inside a person could name. */
#define GREATEST_CROSSINGS 5000

G_DEFINE_QUARK (hw_region_error_quark, hw_region_error)

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
  g_array_set_clear_func (rings, hw_region_clear_ring);
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

/* All rings as lines, cut where they meet. */
static GEOSGeometry *
noded_lines (GEOSContextHandle_t context, const HwOutline *outline)
{
  GEOSGeometry **lines = g_new0 (GEOSGeometry *, outline->n_rings);
  GEOSGeometry *all, *noded;
  guint n = 0;

  for (guint r = 0; r < outline->n_rings; r++)
    {
      GEOSGeometry *line = hw_region_ring (context, &outline->rings[r]);

      if (line != NULL)
        lines[n++] = line;
    }
  all = GEOSGeom_createCollection_r (context, GEOS_MULTILINESTRING, lines, n);
  g_free (lines);
  noded = GEOSUnaryUnion_r (context, all);
  hw_region_free (all);
  return noded;
}

static gboolean
face_is_inside (GEOSContextHandle_t context, const GEOSGeometry *face, const HwOutline *outline)
{
  GEOSGeometry *within = GEOSPointOnSurface_r (context, face);
  HwPoint p = { NAN, NAN };

  if (within == NULL)
    return FALSE;
  GEOSGeomGetX_r (context, within, &p.x);
  GEOSGeomGetY_r (context, within, &p.y);
  hw_region_free (within);
  return hw_outline_contains (outline, p);
}

GEOSGeometry *
hw_region_even_odd (const HwOutline *outline)
{
  GEOSContextHandle_t context = hw_region_context ();
  GEOSGeometry *lines = noded_lines (context, outline), *faces, *inside, *joined;
  GEOSGeometry **kept;
  guint n = 0;

  if (lines == NULL)
    return NULL;
  faces = GEOSPolygonize_r (context, (const GEOSGeometry *const *)&lines, 1);
  hw_region_free (lines);
  if (faces == NULL)
    return NULL;
  kept = g_new0 (GEOSGeometry *, GEOSGetNumGeometries_r (context, faces) + 1);
  for (int i = 0; i < GEOSGetNumGeometries_r (context, faces); i++)
    {
      const GEOSGeometry *face = GEOSGetGeometryN_r (context, faces, i);

      if (face_is_inside (context, face, outline))
        kept[n++] = GEOSGeom_clone_r (context, face);
    }
  inside = GEOSGeom_createCollection_r (context, GEOS_GEOMETRYCOLLECTION, kept, n);
  joined = GEOSUnaryUnion_r (context, inside);
  hw_region_free (inside);
  g_free (kept);
  hw_region_free (faces);
  return joined;
}

HwOutline *
hw_outline_repair (const HwOutline *outline, gboolean *repaired, GError **error)
{
  g_autoptr (HwOutline) clean = NULL;
  HwOutline *mended;
  GEOSGeometry *area;
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
  if (hw_outline_is_simple (clean) && hw_outline_area (clean) > HW_REGION_SMALLEST)
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
  area = hw_region_even_odd (clean);
  mended = hw_region_to_outline (area);
  hw_region_free (area);
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
  hw_region_free (area);
  return simple;
}
