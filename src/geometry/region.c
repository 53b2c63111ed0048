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
  GEOSArea_r (context, area, &mm2);
  hw_region_free (area);
  return mm2;
}

typedef GEOSGeometry *(*Overlay) (GEOSContextHandle_t, const GEOSGeometry *, const GEOSGeometry *);

/* What an outline means: GEOS overlays nothing rightly that crosses itself, and does not say so. */
static GEOSGeometry *
valid_area (const HwOutline *outline)
{
  GEOSContextHandle_t context = hw_region_context ();
  GEOSGeometry *area = hw_region_from_outline (outline);

  if (area != NULL && GEOSisValid_r (context, area) == 1)
    return area;
  hw_region_free (area);
  return hw_region_even_odd (outline);
}

static GEOSGeometry *
overlay (Overlay method, const HwOutline *a, const HwOutline *b)
{
  GEOSGeometry *area_a = valid_area (a), *area_b = valid_area (b), *result = NULL;

  if (area_a != NULL && area_b != NULL)
    result = method (hw_region_context (), area_a, area_b);
  hw_region_free (area_a);
  hw_region_free (area_b);
  return result;
}

static HwOutline *
overlay_outline (Overlay method, const HwOutline *a, const HwOutline *b)
{
  GEOSGeometry *area = overlay (method, a, b);
  HwOutline *outline = hw_region_to_outline (area);

  hw_region_free (area);
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
  if (area_a != NULL && area_b != NULL)
    GEOSDistance_r (context, area_a, area_b, &mm);
  hw_region_free (area_a);
  hw_region_free (area_b);
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
      hw_region_free (area);
    }
  result = hw_region_to_outline (grown);
  hw_region_free (grown);
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
  joined = GEOSUnaryUnion_r (context, all);
  result = hw_region_to_outline (joined);
  hw_region_free (joined);
  hw_region_free (all);
  return result;
}
