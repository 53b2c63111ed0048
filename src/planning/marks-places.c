/* Where a mark may be drawn for a hooping: inside the field, a little in from its sides so that the needle reaches it with ease, on the
 * cloth, and not where earlier stitching hides it. */
#include "marks-private.h"

#include <math.h>

#include "../geometry/language.h"
#include "../geometry/hull.h"

#define FIELD_INSET 3.0 /* mm from the field's sides, less in a small field */
#define DRAWN_OUT 2.0   /* a mark drawn for another hooping may lie farther out by this */
#define HELD_INSET 0.5  /* the same for a mark the person put */
#define CLOTH_INSET 4.0 /* mm from the cloth's edges */
#define OWN_GAP 3.0     /* mm from the hooping's own motifs, where possible */
#define CHOSEN_GAP (HW_MARKS_STITCH_GAP + 0.05) /* so that a mark held where it was chosen can always serve */
#define SIDE 8                                  /* places on a side of the field */
#define COARSE 9                                /* a side of the grid */
#define MIDDLE 13                               /* the same where something is in the way */
#define FINE 45                                 /* the same where little is left */
#define FEW 30

static double
distance2 (HwPoint p, HwPoint q)
{
  return (p.x - q.x) * (p.x - q.x) + (p.y - q.y) * (p.y - q.y);
}

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

static gboolean
near_any (const GPtrArray *outlines, HwPoint p, double gap)
{
  for (guint i = 0; i < outlines->len; i++)
    if (is_near (g_ptr_array_index (outlines, i), p, gap))
      return TRUE;
  return FALSE;
}

static void
clip_to_cloth (HwMarkField *field, const HwFabric *fabric)
{
  double in_x = MIN (CLOTH_INSET, fabric->width / 4), in_y = MIN (CLOTH_INSET, fabric->height / 4);
  HwPoint other[12];
  guint n;

  n = hw_hull_clip (field->corners, field->n_corners, (HwPoint){ 1, 0 }, fabric->width - in_x, other);
  n = hw_hull_clip (other, n, (HwPoint){ -1, 0 }, -in_x, field->corners);
  n = hw_hull_clip (field->corners, n, (HwPoint){ 0, 1 }, fabric->height - in_y, other);
  field->n_corners = hw_hull_clip (other, n, (HwPoint){ 0, -1 }, -in_y, field->corners);
}

static void
find_corners (HwMarkField *field, const HwHoop *hoop, const HwFabric *fabric)
{
  double inset = MIN (FIELD_INSET, MIN (hoop->field_width, hoop->field_height) / 8);
  double a = hoop->field_width / 2 - inset, b = hoop->field_height / 2 - inset;
  HwPoint corners[] = { { -a, -b }, { a, -b }, { a, b }, { -a, b } };

  field->inset = inset;
  field->n_corners = 4;
  for (guint i = 0; i < 4; i++)
    {
      HwPoint turned = hw_point_turn (corners[i], field->angle);

      field->corners[i] = (HwPoint){ field->centre.x + turned.x, field->centre.y + turned.y };
    }
  clip_to_cloth (field, fabric);
  field->box = HW_BOX_EMPTY;
  for (guint i = 0; i < field->n_corners; i++)
    {
      HwPoint off = { field->corners[i].x - field->centre.x, field->corners[i].y - field->centre.y };
      HwPoint at = hw_point_turn (off, -field->angle);

      field->box = hw_box_union (field->box, (HwBox){ at.x, at.y, at.x, at.y });
    }
}

/* The outlines of the motifs of one hooping whose box comes near the field. */
static void
collect_outlines (const HwMarkField *field,
                  GPtrArray *outlines,
                  const HwHooping *hooping,
                  HwOutline *const *placed)
{
  HwBox box = hw_box_of_points (field->corners, field->n_corners);

  box = (HwBox){ box.x0 - OWN_GAP, box.y0 - OWN_GAP, box.x1 + OWN_GAP, box.y1 + OWN_GAP };
  for (guint i = 0; i < hooping->n_motifs; i++)
    if (hw_box_overlaps (box, placed[hooping->motifs[i]]->box))
      g_ptr_array_add (outlines, placed[hooping->motifs[i]]);
}

void
hw_mark_field_init (HwMarkField *field, const HwPlan *plan, guint index, HwOutline *const *placed)
{
  const HwHooping *hooping = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);

  *field = (HwMarkField){ .centre = hooping->centre,
                          .angle = hooping->angle,
                          .earlier = g_ptr_array_new (),
                          .own = g_ptr_array_new (),
                          .apart = MIN (20, hypot (hoop->field_width, hoop->field_height) / 5) };
  find_corners (field, hoop, &plan->snapshot->fabric);
  for (guint k = 0; k < index; k++)
    collect_outlines (field, field->earlier, &plan->hoopings[k], placed);
  collect_outlines (field, field->own, hooping, placed);
}

void
hw_mark_field_clear (HwMarkField *field)
{
  g_clear_pointer (&field->earlier, g_ptr_array_unref);
  g_clear_pointer (&field->own, g_ptr_array_unref);
}

static gboolean
is_inside (const HwMarkField *field, HwPoint p)
{
  for (guint i = 0; i < field->n_corners; i++)
    {
      HwPoint a = field->corners[i], b = field->corners[i + 1 == field->n_corners ? 0 : i + 1];

      if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < -1e-6)
        return FALSE;
    }
  return field->n_corners >= 3;
}

HwPoint
hw_mark_field_nearest (const HwMarkField *field, HwPoint p)
{
  HwPoint nearest = p;
  double least = INFINITY;

  if (is_inside (field, p))
    return p;
  for (guint i = 0; i < field->n_corners; i++)
    {
      HwPoint a = field->corners[i], b = field->corners[i + 1 == field->n_corners ? 0 : i + 1];
      double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
      double t = length2 > 0 ? CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0, 1) : 0;
      HwPoint on = { a.x + t * dx, a.y + t * dy };
      double distance = distance2 (on, p);

      if (distance < least)
        {
          least = distance;
          nearest = on;
        }
    }
  return nearest;
}

/* Not on top of the centre cross, nor hidden. */
static gboolean
is_clear (const HwMarkField *field, HwPoint p)
{
  return distance2 (p, field->centre) >= field->apart * field->apart / 4
         && !near_any (field->earlier, p, CHOSEN_GAP);
}

gboolean
hw_mark_field_allows (const HwMarkField *field, HwPoint p)
{
  return is_inside (field, p) && is_clear (field, p);
}

gboolean
hw_mark_field_allows_drawn (const HwMarkField *field, HwPoint p)
{
  return field->n_corners >= 3
         && hw_point_distance (hw_mark_field_nearest (field, p), p) <= field->inset * DRAWN_OUT / FIELD_INSET
         && is_clear (field, p);
}

gboolean
hw_mark_field_is_free (const HwMarkField *field, HwPoint p)
{
  return !near_any (field->own, p, OWN_GAP);
}

/* Adds the place when a mark may be there; else counts it. */
static void
add_place (GArray *places, const HwMarkField *field, HwPoint p, guint *refused)
{
  if (hw_mark_field_allows (field, p))
    g_array_append_val (places, p);
  else
    ++*refused;
}

/* A grid within the field's sides. */
static guint
add_grid (GArray *places, const HwMarkField *field, guint per_side)
{
  const HwBox *box = &field->box;
  guint refused = 0;

  for (guint i = 1; i + 1 < per_side; i++)
    for (guint j = 1; j + 1 < per_side; j++)
      {
        HwPoint at = { box->x0 + (box->x1 - box->x0) * i / (per_side - 1),
                       box->y0 + (box->y1 - box->y0) * j / (per_side - 1) };
        HwPoint turned = hw_point_turn (at, field->angle);

        add_place (places, field, (HwPoint){ field->centre.x + turned.x, field->centre.y + turned.y },
                   &refused);
      }
  return refused;
}

static guint
add_sides (GArray *places, const HwMarkField *field, guint per_side)
{
  guint refused = 0;

  for (guint i = 0; i < field->n_corners; i++)
    {
      HwPoint a = field->corners[i], b = field->corners[i + 1 == field->n_corners ? 0 : i + 1];

      for (guint k = 0; k < per_side; k++)
        {
          double part = (double)k / per_side;

          add_place (places, field, (HwPoint){ a.x + (b.x - a.x) * part, a.y + (b.y - a.y) * part },
                     &refused);
        }
    }
  return refused;
}

GArray *
hw_mark_field_places (const HwMarkField *field)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  guint refused;

  if (field->n_corners < 3)
    return places;
  refused = add_sides (places, field, SIDE);
  add_grid (places, field, field->earlier->len == 0 && refused == 0 ? COARSE : MIDDLE);
  if (places->len < FEW)
    {
      g_array_set_size (places, 0);
      add_sides (places, field, FINE);
      add_grid (places, field, FINE);
    }
  return places;
}

/* How far p lies outside the field; below 0 inside. */
static double
outside_field (const HwHooping *hooping, const HwHoop *hoop, HwPoint p)
{
  HwPoint at = hw_point_turn ((HwPoint){ p.x - hooping->centre.x, p.y - hooping->centre.y }, -hooping->angle);

  return MAX (fabs (at.x) - hoop->field_width / 2, fabs (at.y) - hoop->field_height / 2);
}

/* The motif of an earlier hooping whose stitching hides p, or -1. */
static int
hidden_by (const HwPlan *plan, guint index, HwOutline *const *placed, HwPoint p)
{
  for (guint k = 0; k < index; k++)
    for (guint i = 0; i < plan->hoopings[k].n_motifs; i++)
      if (is_near (placed[plan->hoopings[k].motifs[i]], p, HW_MARKS_STITCH_GAP))
        return (int)plan->hoopings[k].motifs[i];
  return -1;
}

char *
hw_mark_trouble (const HwPlan *plan, guint index, HwOutline *const *placed, HwPoint p, HwUnit unit)
{
  const HwHooping *hooping = &plan->hoopings[index];
  const HwFabric *fabric = &plan->snapshot->fabric;
  double outside = outside_field (hooping, hw_snapshot_hoop (plan->snapshot, hooping->hoop), p);
  int hider;

  if (p.x < 0 || p.y < 0 || p.x > fabric->width || p.y > fabric->height)
    return g_strdup (_ ("it lies beside the cloth"));
  if (outside > -HELD_INSET)
    {
      g_autofree char *by = hw_length_text (MAX (outside + HELD_INSET, 0.1), unit);

      /* Translators: %u is the number of a hooping, %s a length. */
      return g_strdup_printf (_ ("the needle does not reach it in hooping %u: it lies %s too far out"),
                              index + 1, by);
    }
  hider = hidden_by (plan, index, placed, p);
  if (hider >= 0)
    /* Translators: %s is the name of a motif, %u the number of a hooping. */
    return g_strdup_printf (_ ("the stitching of %s hides it before hooping %u begins"),
                            hw_snapshot_motif (plan->snapshot, (guint)hider)->name, index + 1);
  return NULL;
}
