/* Hairlines: neighbours stitched in different hoopings lie against each other no better than the two hoopings are placed. Where their gap or
 * their overlap is smaller than that, a thin line of cloth may show between them. The errors of two hoopings do not depend on each other, so
 * they add as squares. */
#include <math.h>
#include <stdlib.h>

#include "warnings-private.h"
#include "../geometry/language.h"

#define TOUCHING 0.05 /* mm: less cannot be seen */
#define ROUNDING 1e-6 /* mm: a corner so near a side lies on it */

typedef struct
{
  const HwOutline *outline;
  double x0, x1, y0, y1; /* the part of it that matters */
} Part;

static gboolean
is_in_part (const Part *part, HwPoint p)
{
  return p.x >= part->x0 && p.x <= part->x1 && p.y >= part->y0 && p.y <= part->y1;
}

static double
distance_to_side (HwPoint p, HwPoint a, HwPoint b)
{
  double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
  double t = length2 > 0 ? CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0, 1) : 0;
  double x = a.x + t * dx - p.x, y = a.y + t * dy - p.y;

  return x * x + y * y;
}

/* How far p lies from the rings: positive outside, negative inside (even-odd). */
static double
signed_distance (const HwOutline *outline, HwPoint p)
{
  double least = INFINITY;
  gboolean inside = FALSE;

  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint b = ring->points[i];
          double distance = distance_to_side (p, a, b);

          least = MIN (least, distance);
          if ((a.y <= p.y) != (b.y <= p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
            inside = !inside;
          a = b;
        }
    }
  return inside ? -sqrt (least) : sqrt (least);
}

/* What was found so far between two outlines. */
typedef struct
{
  double gap, depth;
  HwPoint gap_at, depth_at;
} Closest;

/* Looks from one point of an outline at the other. */
static void
look_from (Closest *closest, const HwOutline *other, HwPoint p)
{
  double distance = signed_distance (other, p);

  if (distance < 0 && -distance > closest->depth)
    {
      closest->depth = -distance;
      closest->depth_at = p;
    }
  if (distance >= 0 && distance < closest->gap)
    {
      closest->gap = distance;
      closest->gap_at = p;
    }
}

/* Looks from the corners, or from places along the sides, of the part of an outline near the other; stops at an overlap of `reach`. */
static void
look_along (Closest *closest, const Part *from, const HwOutline *other, double reach, gboolean sides)
{
  for (guint r = 0; r < from->outline->n_rings; r++)
    {
      const HwRing *ring = &from->outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint b = ring->points[i];
          guint steps = sides ? (guint)CLAMP (hypot (b.x - a.x, b.y - a.y) / reach, 1, 1000) : 0;

          if (!sides && is_in_part (from, b))
            look_from (closest, other, b);
          for (guint k = 1; k <= steps; k++)
            {
              double t = (double)k / (steps + 1);
              HwPoint p = { a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };

              if (is_in_part (from, p))
                look_from (closest, other, p);
            }
          if (closest->depth >= reach)
            return;
          a = b;
        }
    }
}

static gboolean
side_meets_part (const Part *part, HwPoint a, HwPoint b)
{
  return MAX (a.x, b.x) >= part->x0 && MIN (a.x, b.x) <= part->x1 && MAX (a.y, b.y) >= part->y0
         && MIN (a.y, b.y) <= part->y1;
}

static double
turn_of (HwPoint a, HwPoint b, HwPoint p)
{
  return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static gboolean
side_crosses (HwPoint a, HwPoint b, const HwOutline *other)
{
  for (guint r = 0; r < other->n_rings; r++)
    {
      const HwRing *ring = &other->rings[r];
      HwPoint c = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint d = ring->points[i];

          if (turn_of (a, b, c) * turn_of (a, b, d) < 0 && turn_of (c, d, a) * turn_of (c, d, b) < 0)
            return TRUE;
          c = d;
        }
    }
  return FALSE;
}

/* Whether sides of the two cross, though perhaps no corner of one lies in the other. */
static gboolean
sides_cross (const HwOutline *outline, const HwOutline *other, const Part *part)
{
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = ring->points[ring->n_points - 1];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint b = ring->points[i];

          if (side_meets_part (part, a, b) && side_crosses (a, b, other))
            return TRUE;
          a = b;
        }
    }
  return FALSE;
}

/* Most neighbours lie well over each other; the middle of their common box shows it at once. */
static gboolean
is_deep_in_the_middle (const HwOutline *a, const HwOutline *b, const Part *part, double reach)
{
  HwPoint middle = { (part->x0 + part->x1) / 2, (part->y0 + part->y1) / 2 };

  return signed_distance (a, middle) <= -reach && signed_distance (b, middle) <= 0;
}

double
hw_warnings_gap (const HwOutline *a, const HwOutline *b, double reach, HwPoint *where)
{
  Part part = { NULL, MAX (a->box.x0, b->box.x0) - reach, MIN (a->box.x1, b->box.x1) + reach,
                MAX (a->box.y0, b->box.y0) - reach, MIN (a->box.y1, b->box.y1) + reach };
  Closest closest = { .gap = INFINITY };
  const HwOutline *pair[] = { a, b };

  if (!(reach > 0) || part.x0 > part.x1 || part.y0 > part.y1)
    return INFINITY;
  if (is_deep_in_the_middle (a, b, &part, reach))
    return -INFINITY;
  for (guint sides = 0; sides < 2; sides++)
    {
      /* Corners that lie on the other's side tell nothing of what sides in one line have in common. */
      if (sides && closest.depth == 0 && closest.gap > ROUNDING
          && (closest.gap >= reach || !sides_cross (a, b, &part)))
        break;
      for (guint k = 0; k < 2; k++)
        {
          part.outline = pair[k];
          look_along (&closest, &part, pair[1 - k], reach, sides != 0);
          if (closest.depth >= reach)
            return -INFINITY;
        }
    }
  if (closest.depth == 0 && closest.gap >= reach)
    return INFINITY;
  if (where != NULL)
    *where = closest.depth > 0 ? closest.depth_at : closest.gap_at;
  return closest.depth > 0 ? -closest.depth : closest.gap;
}

/* Per motif of the snapshot. */
typedef struct
{
  guint motif;
  guint hooping;
  double error;
  double x0;
} Stand;

static int
compare_stands (const void *pa, const void *pb)
{
  const Stand *a = pa, *b = pb;

  if (a->x0 != b->x0)
    return a->x0 < b->x0 ? -1 : 1;
  return a->motif < b->motif ? -1 : 1;
}

typedef struct
{
  guint first, second; /* motifs; first has the lower number */
  double gap, error;
  HwPoint where;
} Hairline;

static int
compare_hairlines (const void *pa, const void *pb)
{
  const Hairline *a = pa, *b = pb;

  if (a->first != b->first)
    return a->first < b->first ? -1 : 1;
  return a->second < b->second ? -1 : 1;
}

static char *
hairline_text (const HwWarner *warner, const Hairline *line)
{
  g_autofree char *gap = hw_length_text (fabs (line->gap), warner->unit);
  g_autofree char *error = hw_length_text (line->error, warner->unit);
  const char *first = hw_warner_name (warner, line->first), *second = hw_warner_name (warner, line->second);

  if (fabs (line->gap) < TOUCHING)
    return g_strdup_printf (_ ("%s and %s only touch, and are stitched in different hoopings: each may land "
                               "%s from where it should, and a hairline of cloth may open between them."),
                            first, second, error);
  if (line->gap > 0)
    return g_strdup_printf (
        _ ("%s and %s lie %s apart in different hoopings: together they may be %s out, so "
           "the gap may close or widen. Let them overlap, or keep them well apart."),
        first, second, gap, error);
  return g_strdup_printf (
      _ ("%s and %s overlap by only %s in different hoopings: together they may be %s out, "
         "and a hairline of cloth may open between them. Let them overlap more."),
      first, second, gap, error);
}

/* The planned motifs, from left to right. Returns their number. */
static guint
line_up (const HwWarner *warner, Stand *stands)
{
  const HwPlan *plan = warner->plan;
  guint n = 0;

  for (guint h = 0; h < plan->n_hoopings; h++)
    for (guint k = 0; k < plan->hoopings[h].n_motifs; k++)
      {
        guint motif = plan->hoopings[h].motifs[k];
        double error
            = plan->hoopings[h].predicted_error != NULL ? plan->hoopings[h].predicted_error[k] : INFINITY;

        if (!isfinite (error)) /* without marks nothing is predicted */
          error = warner->snapshot->wishes.tolerance;
        stands[n++] = (Stand){ motif, h, error, warner->placed[motif].outline->box.x0 };
      }
  qsort (stands, n, sizeof *stands, compare_stands);
  return n;
}

static void
look_at_pair (const HwWarner *warner, const Stand *a, const Stand *b, GArray *lines)
{
  const HwOutline *oa = warner->placed[a->motif].outline, *ob = warner->placed[b->motif].outline;
  const HwHooping *ha = &warner->plan->hoopings[a->hooping], *hb = &warner->plan->hoopings[b->hooping];
  Hairline line
      = { MIN (a->motif, b->motif), MAX (a->motif, b->motif), 0, hypot (a->error, b->error), { 0, 0 } };

  if (a->hooping == b->hooping || oa->box.y0 > ob->box.y1 + line.error || ob->box.y0 > oa->box.y1 + line.error
      || (ha->hold == HW_PLACE_FROZEN && hb->hold == HW_PLACE_FROZEN))
    return;
  line.gap = hw_warnings_gap (oa, ob, line.error, &line.where);
  if (isfinite (line.gap))
    g_array_append_val (lines, line);
}

void
hw_warn_hairlines (HwWarner *warner)
{
  g_autofree Stand *stands = g_new (Stand, warner->snapshot->motifs->len + 1);
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (Hairline));
  guint n = line_up (warner, stands);
  double widest = 0;

  for (guint i = 0; i < n; i++)
    widest = MAX (widest, stands[i].error);
  widest = hypot (widest, widest);
  for (guint i = 0; i < n; i++)
    for (guint j = i + 1; j < n && stands[j].x0 <= warner->placed[stands[i].motif].outline->box.x1 + widest;
         j++)
      look_at_pair (warner, &stands[i], &stands[j], lines);
  if (lines->len > 1)
    qsort (lines->data, lines->len, sizeof (Hairline), compare_hairlines);
  for (guint i = 0; i < lines->len; i++)
    {
      const Hairline *line = &g_array_index (lines, Hairline, i);
      HwProblem *problem
          = hw_warner_tell (warner, HW_PROBLEM_HAIRLINE, line->second, -1, fabs (line->gap), line->where,
                            i < HW_WARNINGS_MOST ? hairline_text (warner, line) : NULL);

      if (problem != NULL)
        problem->other = line->first;
    }
  hw_warner_rest (
      warner, HW_PROBLEM_HAIRLINE,
      g_strdup_printf (ngettext ("%u more pair of neighbours lies so close in different hoopings.",
                                 "%u more pairs of neighbours lie so close in different hoopings.",
                                 hw_warner_untold (warner)),
                       hw_warner_untold (warner)));
}
