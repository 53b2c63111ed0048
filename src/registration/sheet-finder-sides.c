/* The sides of a sheet. Where light falls off across a side is found on many short ways from inside to outside, to parts of a pixel; a line through these places that few
 * of them contradict (least absolute residuals by reweighting) is the side. */
#include <math.h>
#include <string.h>

#include "sheet-finder-private.h"

#define MOST_WAYS 160
#define FEWEST_WAYS 12
#define STEPS_PER_PX 2
#define MOST_STEPS 400
#define BESIDE 2        /* places to both sides whose light is averaged */
#define LEAST_FALL 10.0 /* grey levels */
#define AGREE 0.7       /* part of the ways that must show the side */
#define NEAR 1.0        /* px from the line, and more for large photos, that still show it */
#define ROUNDS 20
#define LEAST_CORNER 0.4 /* sine of the angle at a corner */
#define SHORTEST 8.0     /* px */

typedef struct
{
  HwPoint at;
  HwPoint along; /* unit */
} Line;

/* The left hand of one who walks clockwise along the side, y down. */
static HwPoint
outwards (HwPoint along)
{
  return (HwPoint){ along.y, -along.x };
}

static gboolean
meet (const Line *a, const Line *b, HwPoint *p)
{
  double cross = a->along.x * b->along.y - a->along.y * b->along.x, t;

  if (fabs (cross) < 1e-6)
    return FALSE;
  t = ((b->at.x - a->at.x) * b->along.y - (b->at.y - a->at.y) * b->along.x) / cross;
  *p = (HwPoint){ a->at.x + t * a->along.x, a->at.y + t * a->along.y };
  return TRUE;
}

/* What is added when the side from b to c goes: the triangle b, tip, c, where its neighbours from a and to d meet. */
static gboolean
tip_over (HwPoint a, HwPoint b, HwPoint c, HwPoint d, HwPoint *tip, double *added)
{
  Line before = { b, { b.x - a.x, b.y - a.y } }, after = { c, { c.x - d.x, c.y - d.y } };

  /* They must meet outside. */
  if (!((before.along.x * (d.y - c.y) - before.along.y * (d.x - c.x)) > 0) || !meet (&before, &after, tip))
    return FALSE;
  *added = fabs ((c.x - b.x) * (tip->y - b.y) - (c.y - b.y) * (tip->x - b.x)) / 2;
  return TRUE;
}

gboolean
hw_sheet_reduce (const HwPoint *hull, guint n, HwPoint corners[4])
{
  g_autofree HwPoint *p = g_memdup2 (hull, sizeof (HwPoint) * n);

  g_assert (corners != NULL);

  if (n < 4)
    return FALSE;
  while (n > 4)
    {
      double least = INFINITY;
      HwPoint best_tip = { 0, 0 };
      guint best = 0;

      for (guint i = 0; i < n; i++)
        {
          double added;
          HwPoint tip;

          if (tip_over (p[(i + n - 1) % n], p[i], p[(i + 1) % n], p[(i + 2) % n], &tip, &added)
              && added < least)
            {
              least = added;
              best_tip = tip;
              best = i;
            }
        }
      if (!isfinite (least))
        return FALSE;
      p[best] = best_tip;
      best = (best + 1) % n;
      memmove (p + best, p + best + 1, sizeof (HwPoint) * (n - best - 1));
      n--;
    }
  memcpy (corners, p, sizeof (HwPoint) * 4);
  return TRUE;
}

/* Between pixels, whose middles are at halves. */
static double
light_at (const HwPicture *picture, double x, double y)
{
  double left, top, across, down;
  guint x0, y0, x1, y1;

  x = CLAMP (x - 0.5, 0, picture->width - 1.0);
  y = CLAMP (y - 0.5, 0, picture->height - 1.0);
  left = floor (x);
  top = floor (y);
  across = x - left;
  down = y - top;
  x0 = (guint)left;
  y0 = (guint)top;
  x1 = MIN (x0 + 1, picture->width - 1);
  y1 = MIN (y0 + 1, picture->height - 1);
  return (1 - down)
             * ((1 - across) * hw_picture_grey (picture, x0, y0) + across * hw_picture_grey (picture, x1, y0))
         + down
               * ((1 - across) * hw_picture_grey (picture, x0, y1)
                  + across * hw_picture_grey (picture, x1, y1));
}

/* The mean of some places in a row along the side, so that weave and noise count for less. */
static double
light_along (const HwPicture *picture, HwPoint at, HwPoint along, double apart)
{
  double sum = 0;

  for (int i = -BESIDE; i <= BESIDE; i++)
    sum += light_at (picture, at.x + i * apart * along.x, at.y + i * apart * along.y);
  return sum / (2 * BESIDE + 1);
}

/* Along the way from inside to outside: the middle of the steepest fall; FALSE when light hardly falls. */
static gboolean
find_fall (const HwPicture *picture, HwPoint at, HwPoint along, double reach, double *where)
{
  HwPoint out = outwards (along);
  double light[MOST_STEPS], fall[MOST_STEPS], steepest = 0, sum = 0, weighed = 0;
  int n = (int)MIN (2 * reach * STEPS_PER_PX + 1, MOST_STEPS), best = 0;
  double step = 2 * reach / (n - 1), apart = MAX (reach / 6, 1);
  const int wide = STEPS_PER_PX;

  for (int i = 0; i < n; i++)
    {
      double r = i * step - reach;

      light[i] = light_along (picture, (HwPoint){ at.x + r * out.x, at.y + r * out.y }, along, apart);
    }
  for (int i = wide; i < n - wide; i++)
    {
      fall[i] = light[i - wide] - light[i + wide];
      if (fall[i] > steepest)
        {
          steepest = fall[i];
          best = i;
        }
    }
  if (steepest < LEAST_FALL)
    return FALSE;
  for (int i = MAX (best - 2 * wide, wide); i <= MIN (best + 2 * wide, n - wide - 1); i++)
    if (fall[i] > 0.3 * steepest)
      {
        sum += fall[i] - 0.3 * steepest;
        weighed += (fall[i] - 0.3 * steepest) * i;
      }
  *where = weighed / sum * step - reach;
  return TRUE;
}

/* offset = a + b t, with few of them far off. Returns how many lie near. */
static guint
fit_offsets (const double *t, const double *offset, guint n, double near_by, double *a, double *b)
{
  g_autofree double *weights = g_new (double, n);
  guint count = 0;

  for (guint i = 0; i < n; i++)
    weights[i] = 1;
  *a = *b = 0;
  for (guint round = 0; round < ROUNDS; round++)
    {
      double s = 0, st = 0, stt = 0, so = 0, sto = 0, det;

      for (guint i = 0; i < n; i++)
        {
          s += weights[i];
          st += weights[i] * t[i];
          stt += weights[i] * t[i] * t[i];
          so += weights[i] * offset[i];
          sto += weights[i] * t[i] * offset[i];
        }
      det = s * stt - st * st;
      if (!(det > 0))
        return 0;
      *a = (stt * so - st * sto) / det;
      *b = (s * sto - st * so) / det;
      for (guint i = 0; i < n; i++)
        {
          double off = fabs (offset[i] - *a - *b * t[i]);

          /* The last rounds weigh alike what is near, and leave out the rest. */
          weights[i] = round < ROUNDS - 4 ? 1 / (off + 0.1) : off < near_by;
        }
    }
  for (guint i = 0; i < n; i++)
    count += weights[i] > 0;
  return count;
}

static gboolean
follow_side (const HwPicture *picture, HwPoint from, HwPoint to, double reach, Line *line)
{
  double length = hw_point_distance (from, to), t[MOST_WAYS], offset[MOST_WAYS], a, b;
  HwPoint along = { (to.x - from.x) / length, (to.y - from.y) / length };
  HwPoint out = outwards (along);
  guint ways = (guint)CLAMP (length / 3, FEWEST_WAYS, MOST_WAYS), n = 0;
  double near_by = NEAR + 0.1 * reach;

  if (!(length > SHORTEST))
    return FALSE;
  for (guint i = 0; i < ways; i++)
    {
      double part = 0.08 + 0.84 * (i + 0.5) / ways;
      HwPoint at = { from.x + part * (to.x - from.x), from.y + part * (to.y - from.y) };

      t[n] = part - 0.5;
      n += find_fall (picture, at, along, reach, &offset[n]);
    }
  if (n < AGREE * ways || fit_offsets (t, offset, n, near_by, &a, &b) < AGREE * ways)
    return FALSE;
  *line = (Line){ { (from.x + to.x) / 2 + a * out.x, (from.y + to.y) / 2 + a * out.y },
                  { along.x * length + b * out.x, along.y * length + b * out.y } };
  length = hypot (line->along.x, line->along.y);
  line->along = (HwPoint){ line->along.x / length, line->along.y / length };
  return TRUE;
}

gboolean
hw_sheet_follow_sides (const HwPicture *picture, HwPoint corners[4], double reach)
{
  Line lines[4];

  /* From the coarse lines, then once more from near. */
  for (guint round = 0; round < 2; round++)
    {
      double within = round == 0 ? reach : MIN (reach, 4);

      for (guint i = 0; i < 4; i++)
        if (!follow_side (picture, corners[i], corners[(i + 1) % 4], within, &lines[i]))
          return FALSE;
      for (guint i = 0; i < 4; i++)
        {
          const Line *before = &lines[(i + 3) % 4];

          if (!(before->along.x * lines[i].along.y - before->along.y * lines[i].along.x > LEAST_CORNER)
              || !meet (before, &lines[i], &corners[i]))
            return FALSE;
        }
    }
  return TRUE;
}
