/* Questions about areas, answered by GEOS. */
#include "region.h"

#include <math.h>

#include "region-private.h"

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
          GEOSGeom_destroy_r (context, area_a);
          GEOSGeom_destroy_r (context, area_b);
          area_a = hw_region_even_odd (a);
          area_b = hw_region_even_odd (b);
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
