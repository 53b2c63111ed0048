/* Where a box that is being moved comes to rest. Each axis is looked at by itself, so that both are one and the same sum: every
 * line and box becomes a range along the axis and a range across it. Three sides of a box count: where it begins, its middle and
 * where it ends. Equal gaps are looked for among the boxes that lie in the same row. */
#include "snap.h"

#include <math.h>

#define EXACT 1e-6     /* mm: it rests there */
#define LEAST_GAP 0.05 /* mm: less is no gap to the eye */
#define NEAR 1.5       /* of the box's longer side: boxes farther off are no neighbours to line up with */

typedef struct
{
  double lo, hi;   /* along the axis */
  double from, to; /* across it */
} Range;

typedef struct
{
  gboolean upright;
  double at, from, to;
  HwSnapKind kind;
} Line;

struct _HwSnapField
{
  GArray *lines; /* Line */
  GArray *boxes; /* HwBox */
};

/* What is found for one axis: how far to go, and the rules that tell it. */
typedef struct
{
  double shift;
  HwSnapKind kind;
  gboolean found;
} Rest;

typedef struct
{
  gboolean upright; /* the lines of this axis */
  HwSnapGuide *guides;
  guint n;
} Shown;

HwSnapField *
hw_snap_field_new (void)
{
  HwSnapField *field = g_new (HwSnapField, 1);

  field->lines = g_array_new (FALSE, FALSE, sizeof (Line));
  field->boxes = g_array_new (FALSE, FALSE, sizeof (HwBox));
  return field;
}

void
hw_snap_field_free (HwSnapField *field)
{
  if (field == NULL)
    return;
  g_array_unref (field->lines);
  g_array_unref (field->boxes);
  g_free (field);
}

void
hw_snap_field_add_line (
    HwSnapField *field, gboolean upright, double at, double from, double to, HwSnapKind kind)
{
  g_return_if_fail (field != NULL);

  Line line = { upright != FALSE, at, MIN (from, to), MAX (from, to), kind };
  if (isfinite (at))
    g_array_append_val (field->lines, line);
}

void
hw_snap_field_add_box (HwSnapField *field, HwBox box)
{
  g_return_if_fail (field != NULL);

  if (!hw_box_is_empty (box))
    g_array_append_val (field->boxes, box);
}

static Range
range_of (HwBox box, gboolean upright)
{
  return upright ? (Range){ box.x0, box.x1, box.y0, box.y1 } : (Range){ box.y0, box.y1, box.x0, box.x1 };
}

static void
consider (Rest *rest, double shift, HwSnapKind kind, double reach)
{
  double way = fabs (shift), best = fabs (rest->shift);

  if (!(way <= reach))
    return;
  if (rest->found && (way > best + EXACT || (way >= best - EXACT && kind >= rest->kind)))
    return;
  *rest = (Rest){ shift, kind, TRUE };
}

static double
middle (const Range *range)
{
  return (range->lo + range->hi) / 2;
}

static int
by_beginning (gconstpointer a, gconstpointer b)
{
  const Range *ra = a, *rb = b;

  return ra->lo < rb->lo ? -1 : ra->lo > rb->lo;
}

/* The boxes that lie in a row with this one, from one end to the other. */
static GArray *
row_of (const HwSnapField *field, const Range *range, gboolean upright)
{
  GArray *row = g_array_new (FALSE, FALSE, sizeof (Range));

  for (guint i = 0; i < field->boxes->len; i++)
    {
      Range other = range_of (g_array_index (field->boxes, HwBox, i), upright);

      if (MIN (other.to, range->to) - MAX (other.from, range->from) > LEAST_GAP)
        g_array_append_val (row, other);
    }
  g_array_sort (row, by_beginning);
  return row;
}

/* The next of the row that leaves a gap after the one given. */
static const Range *
next_in_row (const GArray *row, guint at)
{
  const Range *here = &g_array_index (row, Range, at);

  for (guint i = at + 1; i < row->len; i++)
    if (g_array_index (row, Range, i).lo - here->hi >= LEAST_GAP)
      return &g_array_index (row, Range, i);
  return NULL;
}

static void
rest_at_gaps (const HwSnapField *field, const Range *range, gboolean upright, double reach, Rest *rest)
{
  g_autoptr (GArray) row = row_of (field, range, upright);
  double width = range->hi - range->lo;

  for (guint i = 0; i < row->len; i++)
    {
      const Range *a = &g_array_index (row, Range, i), *b = next_in_row (row, i);
      double gap = b != NULL ? b->lo - a->hi : 0;

      if (b == NULL)
        continue;
      consider (rest, b->hi + gap - range->lo, HW_SNAP_GAP, reach);
      consider (rest, a->lo - gap - range->hi, HW_SNAP_GAP, reach);
      if (gap - width > 2 * LEAST_GAP)
        consider (rest, (a->hi + b->lo) / 2 - middle (range), HW_SNAP_GAP, reach);
    }
}

/* In a full picture nearly every place is in line with something far away: only neighbours count. */
static gboolean
is_near (HwBox box, HwBox other)
{
  double near = NEAR * MAX (box.x1 - box.x0, box.y1 - box.y0);

  return other.x0 - box.x1 <= near && box.x0 - other.x1 <= near && other.y0 - box.y1 <= near
         && box.y0 - other.y1 <= near;
}

static double
shift_along (const HwSnapField *field, HwBox box, double reach, gboolean upright)
{
  Range range = range_of (box, upright);
  Rest rest = { 0 };

  for (guint i = 0; i < field->lines->len; i++)
    {
      const Line *line = &g_array_index (field->lines, Line, i);

      if (line->upright != upright)
        continue;
      if (line->kind == HW_SNAP_CENTRE || line->kind == HW_SNAP_MIDDLE)
        consider (&rest, line->at - middle (&range), line->kind, reach);
      else
        {
          consider (&rest, line->at - range.lo, line->kind, reach);
          consider (&rest, line->at - range.hi, line->kind, reach);
        }
    }
  for (guint i = 0; i < field->boxes->len; i++)
    {
      HwBox there = g_array_index (field->boxes, HwBox, i);
      Range other = range_of (there, upright);

      if (!is_near (box, there))
        continue;
      consider (&rest, other.lo - range.lo, HW_SNAP_SIDE, reach);
      consider (&rest, other.hi - range.hi, HW_SNAP_SIDE, reach);
      consider (&rest, other.lo - range.hi, HW_SNAP_SIDE, reach);
      consider (&rest, other.hi - range.lo, HW_SNAP_SIDE, reach);
      consider (&rest, middle (&other) - middle (&range), HW_SNAP_MIDDLE, reach);
    }
  rest_at_gaps (field, &range, upright, reach, &rest);
  return rest.shift;
}

HwPoint
hw_snap_shift (const HwSnapField *field, HwBox box, double reach, gboolean across, gboolean down)
{
  HwPoint shift = { 0, 0 };

  g_return_val_if_fail (field != NULL, shift);
  if (hw_box_is_empty (box))
    return shift;
  if (across)
    shift.x = shift_along (field, box, reach, TRUE);
  if (down)
    shift.y = shift_along (field, box, reach, FALSE);
  return shift;
}

static HwPoint
point_on (gboolean upright, double along, double across)
{
  return upright ? (HwPoint){ along, across } : (HwPoint){ across, along };
}

/* A line of the axis at `at`; one that is there already is drawn longer instead. */
static void
show_line (Shown *shown, double at, double from, double to, HwSnapKind kind)
{
  for (guint i = 0; i < shown->n; i++)
    {
      HwSnapGuide *guide = &shown->guides[i];
      double there = shown->upright ? guide->from.x : guide->from.y;
      gboolean same_axis = shown->upright ? guide->from.x == guide->to.x : guide->from.y == guide->to.y;
      double *begin = shown->upright ? &guide->from.y : &guide->from.x;
      double *end = shown->upright ? &guide->to.y : &guide->to.x;

      if (guide->kind == HW_SNAP_GAP || !same_axis || fabs (there - at) > 2 * EXACT)
        continue;
      *begin = MIN (*begin, from);
      *end = MAX (*end, to);
      guide->kind = MIN (guide->kind, kind);
      return;
    }
  if (shown->n < HW_SNAP_MOST_GUIDES)
    shown->guides[shown->n++]
        = (HwSnapGuide){ point_on (shown->upright, at, from), point_on (shown->upright, at, to), kind, 0 };
}

/* A gap from lo to hi along the axis, where both neighbours can be seen. */
static void
show_gap (Shown *shown, double lo, double hi, const Range *a, const Range *b)
{
  double from = MAX (a->from, b->from), to = MIN (a->to, b->to);
  double across = (from + to) / 2;
  HwSnapGuide guide = { point_on (shown->upright, lo, across), point_on (shown->upright, hi, across),
                        HW_SNAP_GAP, hi - lo };

  for (guint i = 0; i < shown->n; i++)
    if (shown->guides[i].kind == HW_SNAP_GAP && hw_point_distance (shown->guides[i].from, guide.from) < EXACT
        && hw_point_distance (shown->guides[i].to, guide.to) < EXACT)
      return;
  if (shown->n < HW_SNAP_MOST_GUIDES)
    shown->guides[shown->n++] = guide;
}

static gboolean
meets (double a, double b)
{
  return fabs (a - b) <= EXACT;
}

static void
show_gaps (const HwSnapField *field, const Range *range, Shown *shown)
{
  g_autoptr (GArray) row = row_of (field, range, shown->upright);

  for (guint i = 0; i < row->len; i++)
    {
      const Range *a = &g_array_index (row, Range, i), *b = next_in_row (row, i);

      if (b == NULL)
        continue;
      if (meets (b->lo - a->hi, range->lo - b->hi))
        {
          show_gap (shown, a->hi, b->lo, a, b);
          show_gap (shown, b->hi, range->lo, b, range);
        }
      if (meets (b->lo - a->hi, a->lo - range->hi))
        {
          show_gap (shown, range->hi, a->lo, range, a);
          show_gap (shown, a->hi, b->lo, a, b);
        }
      if (range->lo - a->hi > LEAST_GAP && meets (range->lo - a->hi, b->lo - range->hi))
        {
          show_gap (shown, a->hi, range->lo, a, range);
          show_gap (shown, range->hi, b->lo, range, b);
        }
    }
}

static void
show_axis (const HwSnapField *field, HwBox box, Shown *shown)
{
  Range range = range_of (box, shown->upright);

  for (guint i = 0; i < field->lines->len; i++)
    {
      const Line *line = &g_array_index (field->lines, Line, i);
      gboolean centre = line->kind == HW_SNAP_CENTRE || line->kind == HW_SNAP_MIDDLE;

      if (line->upright == shown->upright
          && (centre ? meets (line->at, middle (&range))
                     : meets (line->at, range.lo) || meets (line->at, range.hi)))
        show_line (shown, line->at, MIN (line->from, range.from), MAX (line->to, range.to), line->kind);
    }
  for (guint i = 0; i < field->boxes->len; i++)
    {
      HwBox there = g_array_index (field->boxes, HwBox, i);
      Range other = range_of (there, shown->upright);
      double from = MIN (other.from, range.from), to = MAX (other.to, range.to);

      if (!is_near (box, there))
        continue;
      if (meets (other.lo, range.lo) || meets (other.lo, range.hi))
        show_line (shown, other.lo, from, to, HW_SNAP_SIDE);
      if (meets (other.hi, range.hi) || meets (other.hi, range.lo))
        show_line (shown, other.hi, from, to, HW_SNAP_SIDE);
      if (meets (middle (&other), middle (&range)))
        show_line (shown, middle (&other), from, to, HW_SNAP_MIDDLE);
    }
  show_gaps (field, &range, shown);
}

guint
hw_snap_guides (const HwSnapField *field,
                HwBox box,
                gboolean across,
                gboolean down,
                HwSnapGuide guides[HW_SNAP_MOST_GUIDES])
{
  Shown shown = { .guides = guides };

  g_return_val_if_fail (field != NULL, 0);
  if (hw_box_is_empty (box))
    return 0;
  for (int i = 0; i < 2; i++)
    {
      shown.upright = i == 0;
      if (i == 0 ? across : down)
        show_axis (field, box, &shown);
    }
  return shown.n;
}
