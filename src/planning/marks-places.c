/* Where a mark may be drawn for a hooping: inside the field, a little in from its sides so that the needle reaches it with ease, on the
 * cloth, and not where earlier stitching hides it. */
#include "marks-private.h"

#include <math.h>

#include "../geometry/hull.h"

#define FIELD_INSET 6.0 /* mm from the field's sides, less in a small field */
#define CLOTH_INSET 4.0 /* mm from the cloth's edges */
#define OWN_GAP 3.0     /* mm from the hooping's own motifs, where possible */
#define COARSE 7        /* places a side of the grid */
#define FINE 23         /* the same where the coarse grid finds little */
#define FEW 6
#define MOST 64 /* places looked at further */

static double
distance2_to_segment (HwPoint p, HwPoint a, HwPoint b)
{
  double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
  double t = length2 > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / length2 : 0;
  double x, y;

  t = CLAMP (t, 0, 1);
  x = a.x + t * dx - p.x;
  y = a.y + t * dy - p.y;
  return x * x + y * y;
}

/* Whether p lies on the stitching or within gap mm of it. */
static gboolean
is_near (const HwOutline *outline, HwPoint p, double gap)
{
  if (p.x < outline->box.x0 - gap || p.x > outline->box.x1 + gap || p.y < outline->box.y0 - gap
      || p.y > outline->box.y1 + gap)
    return FALSE;
  if (hw_outline_contains (outline, p))
    return TRUE;
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          if (distance2_to_segment (p, a, ring->points[i]) < gap * gap)
            return TRUE;
          a = ring->points[i];
        }
    }
  return FALSE;
}

/* The part of the field where marks may be, as a polygon on the cloth. */
typedef struct
{
  HwPoint corners[12];
  guint n;
  HwPoint centre;
  double angle;
  HwBox box;                /* of the corners, in hoop axes */
  GPtrArray *earlier, *own; /* outlines near enough to matter */
} Area;

static void
clip_to_cloth (Area *area, const HwFabric *fabric)
{
  double in_x = MIN (CLOTH_INSET, fabric->width / 4), in_y = MIN (CLOTH_INSET, fabric->height / 4);
  HwPoint other[12];
  guint n;

  n = hw_hull_clip (area->corners, area->n, (HwPoint){ 1, 0 }, fabric->width - in_x, other);
  n = hw_hull_clip (other, n, (HwPoint){ -1, 0 }, -in_x, area->corners);
  n = hw_hull_clip (area->corners, n, (HwPoint){ 0, 1 }, fabric->height - in_y, other);
  area->n = hw_hull_clip (other, n, (HwPoint){ 0, -1 }, -in_y, area->corners);
}

static void
find_corners (Area *area, const HwHoop *hoop, const HwHooping *hooping, const HwFabric *fabric, double inset)
{
  double a = hoop->field_width / 2 - inset, b = hoop->field_height / 2 - inset;
  HwPoint corners[] = { { -a, -b }, { a, -b }, { a, b }, { -a, b } };

  area->centre = hooping->centre;
  area->angle = hooping->angle;
  area->n = 4;
  for (guint i = 0; i < 4; i++)
    {
      HwPoint turned = hw_point_turn (corners[i], hooping->angle);

      area->corners[i] = (HwPoint){ hooping->centre.x + turned.x, hooping->centre.y + turned.y };
    }
  clip_to_cloth (area, fabric);
  area->box = HW_BOX_EMPTY;
  for (guint i = 0; i < area->n; i++)
    {
      HwPoint off = { area->corners[i].x - area->centre.x, area->corners[i].y - area->centre.y };
      HwPoint at = hw_point_turn (off, -area->angle);

      area->box = hw_box_union (area->box, (HwBox){ at.x, at.y, at.x, at.y });
    }
}

static gboolean
area_holds (const Area *area, HwPoint p)
{
  for (guint i = 0; i < area->n; i++)
    {
      HwPoint a = area->corners[i], b = area->corners[i + 1 == area->n ? 0 : i + 1];

      if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < -1e-6)
        return FALSE;
    }
  return area->n >= 3;
}

static gboolean
near_any (const GPtrArray *outlines, HwPoint p, double gap)
{
  for (guint i = 0; i < outlines->len; i++)
    if (is_near (g_ptr_array_index (outlines, i), p, gap))
      return TRUE;
  return FALSE;
}

static void
add_place (GArray *places, const Area *area, HwPoint p, const HwMark *mark)
{
  HwMarkPlace place = { p, FALSE, mark };

  if (!area_holds (area, p) || near_any (area->earlier, p, HW_MARKS_STITCH_GAP))
    return;
  place.free = !near_any (area->own, p, OWN_GAP);
  g_array_append_val (places, place);
}

/* Corners, points along the sides and a grid within. */
static void
add_grid (GArray *places, const Area *area, guint per_side)
{
  for (guint i = 0; i < area->n; i++)
    {
      HwPoint a = area->corners[i], b = area->corners[i + 1 == area->n ? 0 : i + 1];

      for (guint k = 0; k < 4; k++)
        add_place (places, area, (HwPoint){ a.x + (b.x - a.x) * k / 4, a.y + (b.y - a.y) * k / 4 }, NULL);
    }
  for (guint i = 1; i + 1 < per_side; i++)
    for (guint j = 1; j + 1 < per_side; j++)
      {
        HwPoint at = { area->box.x0 + (area->box.x1 - area->box.x0) * i / (per_side - 1),
                       area->box.y0 + (area->box.y1 - area->box.y0) * j / (per_side - 1) };
        HwPoint turned = hw_point_turn (at, area->angle);

        add_place (places, area, (HwPoint){ area->centre.x + turned.x, area->centre.y + turned.y }, NULL);
      }
}

static int
compare_far_first (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const HwMarkPlace *a = pa, *b = pb;
  const Area *area = data;
  double at_a, at_b;

  if ((a->mark != NULL) != (b->mark != NULL))
    return a->mark != NULL ? -1 : 1;
  at_a = hw_point_distance (a->at, area->centre);
  at_b = hw_point_distance (b->at, area->centre);
  return (at_a < at_b) - (at_a > at_b);
}

/* The outlines of the motifs of one hooping whose box comes near the field. */
static void
collect_outlines (GPtrArray *outlines, const HwHooping *hooping, HwOutline *const *placed, const Area *area)
{
  HwBox field = hw_box_of_points (area->corners, area->n);

  field = (HwBox){ field.x0 - OWN_GAP, field.y0 - OWN_GAP, field.x1 + OWN_GAP, field.y1 + OWN_GAP };
  for (guint i = 0; i < hooping->n_motifs; i++)
    if (hw_box_overlaps (field, placed[hooping->motifs[i]]->box))
      g_ptr_array_add (outlines, placed[hooping->motifs[i]]);
}

GArray *
hw_mark_places (const HwPlan *plan, guint index, HwOutline *const *placed)
{
  const HwHooping *hooping = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  const HwHooping *before = index > 0 ? &plan->hoopings[index - 1] : NULL;
  GArray *places = g_array_new (FALSE, FALSE, sizeof (HwMarkPlace));
  g_autoptr (GPtrArray) earlier = g_ptr_array_new ();
  g_autoptr (GPtrArray) own = g_ptr_array_new ();
  Area area = { .earlier = earlier, .own = own };
  double inset = MIN (FIELD_INSET, MIN (hoop->field_width, hoop->field_height) / 8);

  find_corners (&area, hoop, hooping, &plan->snapshot->fabric, inset / 3);
  for (guint k = 0; k < index; k++)
    collect_outlines (earlier, &plan->hoopings[k], placed, &area);
  collect_outlines (own, hooping, placed, &area);

  /* A mark that is there already may lie a little nearer to the field's sides. */
  for (guint i = 0; before != NULL && i < before->n_marks; i++)
    add_place (places, &area, before->marks[i].at, &before->marks[i]);
  find_corners (&area, hoop, hooping, &plan->snapshot->fabric, inset);
  add_grid (places, &area, COARSE);
  if (places->len < FEW)
    {
      /* Much is stitched already: look closer, and nearer to the field's sides. */
      find_corners (&area, hoop, hooping, &plan->snapshot->fabric, inset / 3);
      add_grid (places, &area, FINE);
    }
  if (places->len > MOST)
    {
      g_array_sort_with_data (places, compare_far_first, &area);
      g_array_set_size (places, MOST);
    }
  return places;
}
