/* What is known of the cloth before it is photographed: corners of the edge line and of the cloth, marks that were drawn. */
#include "photo-places.h"

#include <glib/gi18n.h>

#define SAME_PLACE 0.05 /* mm */
#define MOST_CORNERS 16 /* of an edge line drawn by hand */

static void
place_free (gpointer data)
{
  HwKnownPlace *place = data;

  g_free (place->name);
  g_free (place);
}

/* Takes over name. */
static void
add (GPtrArray *places, HwKnownKind kind, char *name, HwPoint mm)
{
  HwKnownPlace *place = g_new (HwKnownPlace, 1);

  *place = (HwKnownPlace){ kind, name, mm };
  g_ptr_array_add (places, place);
}

static void
add_box (GPtrArray *places, HwKnownKind kind, const char *const names[4], HwBox box)
{
  const HwPoint corners[]
      = { { box.x0, box.y0 }, { box.x1, box.y0 }, { box.x1, box.y1 }, { box.x0, box.y1 } };

  for (guint i = 0; i < 4; i++)
    add (places, kind, g_strdup (_ (names[i])), corners[i]);
}

static void
add_sides (GPtrArray *places, HwBox box)
{
  double x = (box.x0 + box.x1) / 2, y = (box.y0 + box.y1) / 2;

  add (places, HW_KNOWN_EDGE, g_strdup (_ ("Edge line, uppermost")), (HwPoint){ x, box.y0 });
  add (places, HW_KNOWN_EDGE, g_strdup (_ ("Edge line, rightmost")), (HwPoint){ box.x1, y });
  add (places, HW_KNOWN_EDGE, g_strdup (_ ("Edge line, lowest")), (HwPoint){ x, box.y1 });
  add (places, HW_KNOWN_EDGE, g_strdup (_ ("Edge line, leftmost")), (HwPoint){ box.x0, y });
}

/* Four corners of which one lies towards each corner of the box about them: clockwise from the upper left. FALSE for any other line. */
static gboolean
sort_corners (const HwRing *ring, HwBox box, HwPoint sorted[4])
{
  guint seen = 0;

  for (guint i = 0; ring->n_points == 4 && i < 4; i++)
    {
      HwPoint p = ring->points[i];
      guint right = p.x > (box.x0 + box.x1) / 2, below = p.y > (box.y0 + box.y1) / 2;
      guint corner = below ? 3 - right : right;

      sorted[corner] = p;
      seen |= 1u << corner;
    }
  return seen == 0xf;
}

static void
add_edge (GPtrArray *places, const HwEdgeLine *edge)
{
  static const char *const names[4] = { N_ ("Edge line, upper left"), N_ ("Edge line, upper right"),
                                        N_ ("Edge line, lower right"), N_ ("Edge line, lower left") };
  const HwRing *ring;
  HwPoint corners[4];

  if (edge == NULL || edge->outline == NULL || edge->outline->n_rings == 0)
    return;
  ring = &edge->outline->rings[0];
  if (edge->shape == HW_EDGE_ELLIPSE || edge->shape == HW_EDGE_ROUNDED)
    add_sides (places, edge->outline->box);
  else if (sort_corners (ring, edge->outline->box, corners))
    for (guint i = 0; i < 4; i++)
      add (places, HW_KNOWN_EDGE, g_strdup (_ (names[i])), corners[i]);
  else
    for (guint i = 0; i < ring->n_points && ring->n_points <= MOST_CORNERS; i++)
      add (places, HW_KNOWN_EDGE, g_strdup_printf (_ ("Edge line, corner %u"), i + 1), ring->points[i]);
}

int
hw_known_places_find (const GPtrArray *places, HwPoint mm)
{
  g_return_val_if_fail (places != NULL, -1);

  for (guint i = 0; i < places->len; i++)
    {
      const HwKnownPlace *place = g_ptr_array_index (places, i);

      if (place->kind != HW_KNOWN_SHEET && hw_point_distance (place->mm, mm) < SAME_PLACE)
        return (int)i;
    }
  return -1;
}

/* Takes over name. */
static void
add_mark (GPtrArray *places, char *name, HwPoint at)
{
  if (hw_known_places_find (places, at) < 0)
    add (places, HW_KNOWN_MARK, name, at);
  else
    g_free (name);
}

static void
add_plan (GPtrArray *places, const HwPlan *plan)
{
  for (guint i = 0; i < plan->n_hoopings; i++)
    for (guint k = 0; k < plan->hoopings[i].n_marks; k++)
      add_mark (places, g_strdup_printf (_ ("Mark %u %s"), i + 1, plan->hoopings[i].marks[k].letter),
                plan->hoopings[i].marks[k].at);
  for (guint i = 0; i < plan->n_hoopings; i++)
    add_mark (places, g_strdup_printf (_ ("Mark %u, centre"), i + 1), plan->hoopings[i].centre);
}

static void
add_pins (GPtrArray *places, const GPtrArray *pins, const char *format)
{
  for (guint i = 0; i < pins->len; i++)
    {
      const HwPin *pin = g_ptr_array_index (pins, i);

      for (guint k = 0; k < pin->n_marks; k++)
        {
          g_autofree char *which = g_strdup_printf ("%u %s", i + 1, pin->marks[k].letter);

          add_mark (places, g_strdup_printf ("%s %s", format, which), pin->marks[k].at);
        }
    }
}

GPtrArray *
hw_known_places (const HwSnapshot *snapshot, const HwPlan *plan)
{
  static const char *const corners[4] = { N_ ("Cloth, upper left"), N_ ("Cloth, upper right"),
                                          N_ ("Cloth, lower right"), N_ ("Cloth, lower left") };
  GPtrArray *places = g_ptr_array_new_with_free_func (place_free);

  g_return_val_if_fail (snapshot != NULL, places);

  add_edge (places, snapshot->edge_line);
  add_box (places, HW_KNOWN_CLOTH, corners, (HwBox){ 0, 0, snapshot->fabric.width, snapshot->fabric.height });
  if (plan != NULL)
    add_plan (places, plan);
  add_pins (places, snapshot->frozen, _ ("Mark of stitched hooping"));
  add_pins (places, snapshot->pins, _ ("Mark of pinned hooping"));
  for (guint i = 0; i < snapshot->held_marks->len; i++)
    {
      const HwHeldMark *mark = g_ptr_array_index (snapshot->held_marks, i);

      add_mark (places, g_strdup_printf (_ ("Held mark %u"), i + 1), mark->at);
    }
  return places;
}

void
hw_known_places_add_sheet (GPtrArray *places, double width, double height)
{
  static const char *const corners[4]
      = { N_ ("Sheet of paper, upper left"), N_ ("Sheet of paper, upper right"),
          N_ ("Sheet of paper, lower right"), N_ ("Sheet of paper, lower left") };

  g_return_if_fail (places != NULL);
  add_box (places, HW_KNOWN_SHEET, corners, (HwBox){ 0, 0, width, height });
}

static void
add_side_middles (GPtrArray *places, const char *const names[4], double width, double height)
{
  const HwPoint middles[] = { { 0, -height / 2 }, { width / 2, 0 }, { 0, height / 2 }, { -width / 2, 0 } };

  for (guint i = 0; i < 4; i++)
    add (places, HW_KNOWN_HOOP, g_strdup (_ (names[i])), middles[i]);
}

GPtrArray *
hw_hoop_places (const HwHoop *hoop)
{
  static const char *const frame[4]
      = { N_ ("Hoop’s rim, middle of the far side"), N_ ("Hoop’s rim, middle of the right side"),
          N_ ("Hoop’s rim, middle of the near side"), N_ ("Hoop’s rim, middle of the left side") };
  static const char *const corners[4] = { N_ ("Field, far left corner"), N_ ("Field, far right corner"),
                                          N_ ("Field, near right corner"), N_ ("Field, near left corner") };
  static const char *const field[4]
      = { N_ ("Field, middle of the far side"), N_ ("Field, middle of the right side"),
          N_ ("Field, middle of the near side"), N_ ("Field, middle of the left side") };
  GPtrArray *places = g_ptr_array_new_with_free_func (place_free);

  g_return_val_if_fail (hoop != NULL, places);

  double w = hoop->field_width / 2, h = hoop->field_height / 2;

  add_side_middles (places, frame, hoop->frame_width, hoop->frame_height);
  add_box (places, HW_KNOWN_HOOP, corners, (HwBox){ -w, -h, w, h });
  add_side_middles (places, field, hoop->field_width, hoop->field_height);
  add (places, HW_KNOWN_HOOP, g_strdup (_ ("Field, its centre")), (HwPoint){ 0, 0 });
  return places;
}

GPtrArray *
hw_hooping_mark_places (const HwReading *marks, guint n)
{
  GPtrArray *places = g_ptr_array_new_with_free_func (place_free);

  g_return_val_if_fail (marks != NULL || n == 0, places);

  for (guint i = 0; i < n; i++)
    add (places, HW_KNOWN_MARK, g_strdup (marks[i].letter), marks[i].design);
  return places;
}

int
hw_known_places_four (const GPtrArray *places, HwKnownKind kind)
{
  g_return_val_if_fail (places != NULL, -1);

  for (guint i = 0; i + 3 < places->len; i++)
    {
      guint n = 0;

      while (n < 4 && ((HwKnownPlace *)g_ptr_array_index (places, i + n))->kind == kind)
        n++;
      if (n == 4)
        return (int)i;
    }
  return -1;
}
