/* Which steps of the machine come nearest to the exact correction. The error at a target p is the way from R(t) p + g to R(turn) p + shift, t and g
 * being the turn and shift entered. R(turn) - R(t) only turns and scales, by 2 sin (|turn - t| / 2), so that for one t the
 * shifts wished for by the targets are a scaled picture of the targets themselves, and their smallest enclosing circle is the picture of the
 * targets' own (centre c, radius r). A shift g then leaves at least sqrt (r^2 + |g - c|^2) at its worst target (Elzinga and Hearn 1972,
 * Transportation Science 6(4): every half plane through the centre of the smallest circle holds a point of its rim) and never less than r.
 * So once an error E is reached, only turns with r < E and shifts within sqrt (E^2 - r^2) of c can be better, and all of these are looked at. */
#include <math.h>

#include "correction-private.h"

/* Errors this near each other are the same, mm. */
#define SAME 1e-9
/* Where the smallest circle around the targets is smaller, they tell nothing of the turn: it would be spent on gaining a hundredth of a
 * millimetre at the centres while the motifs around them turn. The step nearest to the exact turn is taken then. */
#define LEAST_RADIUS 10.0
/* Finer steps than these cannot be seen on cloth, and need no search. */
#define FINEST_SHIFT 0.001
#define FINEST_TURN 1e-4

typedef struct
{
  HwPoint centre;
  double radius;
} Circle;

static gboolean
holds (const Circle *circle, HwPoint p)
{
  return hw_point_distance (circle->centre, p) <= circle->radius + SAME;
}

static Circle
circle_of_two (HwPoint a, HwPoint b)
{
  return (Circle){ { (a.x + b.x) / 2, (a.y + b.y) / 2 }, hw_point_distance (a, b) / 2 };
}

/* The circle through three points; of points on a line, the one over the farthest two. */
static Circle
circle_of_three (HwPoint a, HwPoint b, HwPoint c)
{
  double bx = b.x - a.x, by = b.y - a.y, cx = c.x - a.x, cy = c.y - a.y;
  double twice = 2 * (bx * cy - by * cx), b2 = bx * bx + by * by, c2 = cx * cx + cy * cy;
  HwPoint from_a;

  if (fabs (twice) <= 1e-12 * (b2 + c2))
    {
      Circle ab = circle_of_two (a, b), ac = circle_of_two (a, c), bc = circle_of_two (b, c);

      if (ab.radius >= ac.radius && ab.radius >= bc.radius)
        return ab;
      return ac.radius >= bc.radius ? ac : bc;
    }
  from_a = (HwPoint){ (cy * b2 - by * c2) / twice, (bx * c2 - cx * b2) / twice };
  return (Circle){ { a.x + from_a.x, a.y + from_a.y }, hypot (from_a.x, from_a.y) };
}

/* Point by point, in the manner of Welzl 1991 (New Results and New Trends in Computer Science, LNCS 555) without the shuffle. */
static Circle
smallest_circle (const HwPoint *points, guint n)
{
  Circle circle = { points[0], 0 };

  for (guint i = 1; i < n; i++)
    if (!holds (&circle, points[i]))
      {
        circle = (Circle){ points[i], 0 };
        for (guint j = 0; j < i; j++)
          if (!holds (&circle, points[j]))
            {
              circle = circle_of_two (points[i], points[j]);
              for (guint k = 0; k < j; k++)
                if (!holds (&circle, points[k]))
                  circle = circle_of_three (points[i], points[j], points[k]);
            }
      }
  return circle;
}

typedef struct
{
  const HwRigidFit *exact;
  const HwPoint *targets;
  guint n;
  Circle circle;      /* around the targets */
  double shift_step;  /* mm */
  HwPoint *wished_by; /* the shift each target wishes for at the turn looked at */
  HwCorrection best;
  double error; /* of the best; INFINITY: none yet */
} Search;

/* A multiple of the step without the dust that multiplying by 0.1 leaves. */
static double
multiple (double count, double step)
{
  double in_one = 1 / step;

  if (count == 0)
    return 0;
  return fabs (in_one - round (in_one)) < 1e-9 * in_one ? count / round (in_one) : count * step;
}

/* The shift that brings the target to its place once turned by t. */
static HwPoint
wished_shift (const HwRigidFit *exact, HwPoint target, double t)
{
  HwPoint to = hw_point_turn (target, exact->turn), from = hw_point_turn (target, t);

  return (HwPoint){ to.x + exact->shift.x - from.x, to.y + exact->shift.y - from.y };
}

/* The smallest error, then the smallest turn, then the smallest shift. */
static void
try_steps (Search *search, double turn, double u, double v)
{
  HwPoint shift = { multiple (u, search->shift_step), multiple (v, search->shift_step) };
  double error = 0, less_turn, less_shift;

  for (guint i = 0; i < search->n; i++)
    error = MAX (error, hw_point_distance (shift, search->wished_by[i]));
  if (error > search->error + SAME)
    return;
  less_turn = fabs (search->best.turn) - fabs (turn);
  less_shift = hypot (search->best.shift.x, search->best.shift.y) - hypot (shift.x, shift.y);
  if (error < search->error - SAME || less_turn > SAME || (less_turn > -SAME && less_shift > SAME))
    {
      search->best = (HwCorrection){ shift, turn };
      search->error = MIN (error, search->error);
    }
}

/* At its best with this turn, the worst target still lies so far off. */
static double
least_error (const Search *search, double turn)
{
  return 2 * fabs (sin ((search->exact->turn - turn) * (G_PI / 360))) * search->circle.radius;
}

static void
try_turn (Search *search, double turn)
{
  HwPoint middle = wished_shift (search->exact, search->circle.centre, turn);
  double step = search->shift_step, u0 = round (middle.x / step), v0 = round (middle.y / step);
  double least = least_error (search, turn), reach;

  for (guint i = 0; i < search->n; i++)
    search->wished_by[i] = wished_shift (search->exact, search->targets[i], turn);
  try_steps (search, turn, u0, v0);
  if (step < FINEST_SHIFT)
    return;
  reach = sqrt (MAX (0, search->error * search->error - least * least) + SAME);
  for (double u = ceil ((middle.x - reach) / step); u * step <= middle.x + reach; u++)
    for (double v = ceil ((middle.y - reach) / step); v * step <= middle.y + reach; v++)
      if (hypot (u * step - middle.x, v * step - middle.y) <= reach)
        try_steps (search, turn, u, v);
}

static void
try_turns (Search *search, double step)
{
  double nearest = round (search->exact->turn / step), stride = ceil (FINEST_TURN / step);

  /* Of two equally near ones the smaller. */
  if (fabs (fabs (search->exact->turn / step - nearest) - 0.5) < SAME
      && fabs (nearest * step) > fabs (search->exact->turn))
    nearest -= search->exact->turn > 0 ? 1 : -1;
  try_turn (search, multiple (nearest, step));
  if (search->circle.radius < LEAST_RADIUS)
    return;
  for (int side = -1; side <= 1; side += 2)
    for (double count = nearest + side * stride;; count += side * stride)
      {
        double turn = multiple (count, step);

        if (fabs (turn - search->exact->turn) > 180 || least_error (search, turn) > search->error + SAME)
          break;
        try_turn (search, turn);
      }
}

HwCorrection
hw_correction_steps (const HwRigidFit *exact, const HwCorrectionTask *task)
{
  static const HwPoint middle = { 0, 0 };
  g_autofree HwPoint *wished_by = g_new (HwPoint, MAX (task->n_targets, 1));
  Search search = { .exact = exact,
                    .targets = task->n_targets > 0 ? task->targets : &middle,
                    .n = MAX (task->n_targets, 1),
                    .shift_step = task->shift_step > 0 ? task->shift_step : FINEST_SHIFT,
                    .wished_by = wished_by,
                    .error = INFINITY };

  search.circle = smallest_circle (search.targets, search.n);
  if (task->turn_step > 0)
    try_turns (&search, task->turn_step);
  else
    try_turn (&search, 0);
  return search.best;
}
