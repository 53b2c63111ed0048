/* A drawn cross looked for in a photograph. About each place rays are drawn like the spokes of a wheel; where the cloth is darker along a spoke than to both its sides,
 * and also along the spoke across and the two at about right angles, something like a cross is there (or lighter, for a light pen). The best such place is fitted exactly.
 * How far it stands out from all other places around decides whether it is believed: a weave is full of little crosses that are all alike. */
#include "mark-finder.h"

#include <math.h>

#include "mark-finder-private.h"

#define SPOKES 48
#define HALF_SPOKES (SPOKES / 2)
#define ARM 12.0 /* patch pixels, about: what the patch is made coarse for */
#define SMALLEST_ARM 3.0
#define MOST_ARMS 40 /* the radius that is searched, at most */
#define FROM 0.25    /* of the arm: spokes begin and end */
#define TO 0.85
#define ASIDE 0.3 /* of the arm: where the cloth beside a spoke is looked at */
#define REACH 0.8 /* of the arm: of the exact fit */
#define MOST_SAMPLES 32
#define SPREAD                                                                                               \
  1.6 /* the weave is alike over several pixels: by so much more the place errs than single pixels would have it (bench-photo-marks) */
#define FINEST 0.05 /* px: no place is told more closely */

typedef struct
{
  HwGreyPatch patch;
  double arm;
  int border; /* pixels that spokes need around a place */
  guint samples;
  int on[SPOKES][MOST_SAMPLES]; /* as steps in the patch's memory */
  int beside[SPOKES][2 * MOST_SAMPLES];
  int ring[SPOKES];
} Wheel;

typedef struct
{
  double score; /* grey levels, > 0 */
  guint spokes[2];
  gboolean light;
} Likeness;

static int
step_to (const Wheel *wheel, double x, double y)
{
  return (int)lround (y) * (int)wheel->patch.width + (int)lround (x);
}

static void
make_spokes (Wheel *wheel)
{
  double aside = ASIDE * wheel->arm;

  wheel->samples = (guint)CLAMP (ceil ((TO - FROM) * wheel->arm), 3, MOST_SAMPLES);
  for (guint k = 0; k < SPOKES; k++)
    {
      double angle = 2 * G_PI * k / SPOKES, c = cos (angle), s = sin (angle);

      wheel->ring[k] = step_to (wheel, aside * c, aside * s);
      for (guint i = 0; i < wheel->samples; i++)
        {
          double r = wheel->arm * (FROM + (TO - FROM) * (i + 0.5) / wheel->samples);

          wheel->on[k][i] = step_to (wheel, r * c, r * s);
          wheel->beside[k][2 * i] = step_to (wheel, r * c - aside * s, r * s + aside * c);
          wheel->beside[k][2 * i + 1] = step_to (wheel, r * c + aside * s, r * s - aside * c);
        }
    }
}

/* How much lighter the middle is than a ring around it. */
static double
middle_over_ring (const Wheel *wheel, const float *middle)
{
  double sum = 0;

  for (guint k = 0; k < SPOKES; k += 2)
    sum += middle[wheel->ring[k]];
  return *middle - 2 * sum / SPOKES;
}

static void
measure_spokes (const Wheel *wheel, const float *middle, double spokes[SPOKES])
{
  for (guint k = 0; k < SPOKES; k++)
    {
      double on = 0, beside = 0;

      for (guint i = 0; i < wheel->samples; i++)
        {
          on += middle[wheel->on[k][i]];
          beside += middle[wheel->beside[k][2 * i]] + middle[wheel->beside[k][2 * i + 1]];
        }
      spokes[k] = (on - beside / 2) / wheel->samples;
    }
}

/* The weakest arm of the best cross of two lines 60 to 120 degrees apart. */
static Likeness
likeness_at (const Wheel *wheel, const float *middle, gboolean light)
{
  Likeness best = { 0, { 0, HALF_SPOKES / 2 }, light };
  double spokes[SPOKES], lines[HALF_SPOKES], sign = light ? 1 : -1;

  measure_spokes (wheel, middle, spokes);
  for (guint k = 0; k < HALF_SPOKES; k++)
    lines[k] = MIN (sign * spokes[k], sign * spokes[k + HALF_SPOKES]);
  for (guint k = 0; k < HALF_SPOKES; k++)
    for (guint gap = HALF_SPOKES / 3; gap <= HALF_SPOKES / 2; gap++)
      {
        guint other = (k + gap) % HALF_SPOKES;
        double score = MIN (lines[k], lines[other]);

        if (score > best.score)
          best = (Likeness){ score, { k, other }, light };
      }
  return best;
}

static gboolean
wheel_make (Wheel *wheel, const HwPicture *picture, HwPoint guess, double radius, double arm)
{
  guint coarse = (guint)MAX (floor (arm / ARM), 1);
  double around = radius + 3.5 * arm;

  if (!hw_grey_patch_take (&wheel->patch, picture, guess.x - around, guess.y - around, guess.x + around,
                           guess.y + around, coarse))
    return FALSE;
  wheel->arm = arm / coarse;
  wheel->border = (int)ceil (wheel->arm * hypot (TO, ASIDE)) + 1;
  make_spokes (wheel);
  return (int)wheel->patch.width > 2 * wheel->border && (int)wheel->patch.height > 2 * wheel->border;
}

/* Every place in the patch that its spokes allow. */
typedef struct
{
  const Wheel *wheel;
  Likeness *at; /* rows of across */
  int across, down;
} Places;

static double
typical_unrest (const Wheel *wheel, int across, int down)
{
  double sum = 0;
  guint n = 0;

  for (int y = 0; y < down; y += 2)
    for (int x = 0; x < across; x += 2, n++)
      sum += fabs (middle_over_ring (
          wheel, wheel->patch.grey + (gsize)(y + wheel->border) * wheel->patch.width + x + wheel->border));
  return sum / n;
}

static void
measure_places (Places *places)
{
  const Wheel *wheel = places->wheel;
  double unrest = typical_unrest (wheel, places->across, places->down);

  for (int y = 0; y < places->down; y++)
    for (int x = 0; x < places->across; x++)
      {
        const float *middle
            = wheel->patch.grey + (gsize)(y + wheel->border) * wheel->patch.width + x + wheel->border;
        double stands_out = middle_over_ring (wheel, middle);

        /* A cross is drawn in its middle as well. */
        if (fabs (stands_out) > 0.5 * unrest)
          places->at[y * places->across + x] = likeness_at (wheel, middle, stands_out > 0);
      }
}

static HwPoint
place_of (const Places *places, int i)
{
  return (HwPoint){ i % places->across + places->wheel->border + 0.5,
                    i / places->across + places->wheel->border + 0.5 };
}

static int
compare_scores (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

/* The best score away from the best place within the search; or what few places around exceed, when that is more. */
static double
next_best (const Places *places, HwPoint best, HwPoint guess, double radius)
{
  int n = places->across * places->down;
  g_autofree double *scores = g_new (double, n);
  double away = 1.2 * places->wheel->arm, next = 0;
  int m = 0;

  for (int i = 0; i < n; i++)
    {
      HwPoint p = place_of (places, i);

      if (hw_point_distance (p, best) < away)
        continue;
      scores[m++] = places->at[i].score;
      if (hw_point_distance (p, guess) <= radius)
        next = MAX (next, places->at[i].score);
    }
  if (m == 0)
    return next;
  qsort (scores, m, sizeof *scores, compare_scores);
  return MAX (next, scores[(int)(0.995 * (m - 1))]);
}

static double
rising (double x, double half, double steep)
{
  return 1 / (1 + exp (-steep * (x - half)));
}

/* All must speak for it: that it stands out from the places around, that a cross accounts for what is seen there, that it has four arms, and that they are lines: a
 * block of stitching is like a cross whose arms are as wide as they are long. */
static double
confidence_of (double score, double next, const HwCross *cross, double arm, double weakest)
{
  double ratio = score / MAX (next, 1e-9), slender = arm / cross->width;

  return rising (ratio, 1.5, 6) * rising (cross->told, 0.35, 14) * rising (weakest, 0.4, 14)
         * rising (slender, 5, 3);
}

static gboolean
find_in_wheel (Wheel *wheel, HwPoint guess, double radius, HwFoundMark *found)
{
  int across = (int)wheel->patch.width - 2 * wheel->border;
  int down = (int)wheel->patch.height - 2 * wheel->border, best = -1;
  g_autofree Likeness *at = g_new0 (Likeness, (gsize)across * down);
  g_auto (HwGreyPatch) plain = { 0 };
  Places places = { wheel, at, across, down };
  const Likeness *likeness;
  HwCross cross;

  plain = wheel->patch;
  plain.grey = g_memdup2 (wheel->patch.grey, sizeof (float) * wheel->patch.width * wheel->patch.height);
  hw_grey_patch_smooth (&wheel->patch, MAX (0.07 * wheel->arm, 0.6));
  measure_places (&places);
  for (int i = 0; i < across * down; i++)
    if (at[i].score > (best >= 0 ? at[best].score : 0)
        && hw_point_distance (place_of (&places, i), guess) <= radius)
      best = i;
  if (best < 0)
    return FALSE;
  likeness = &at[best];
  cross = (HwCross){ .at = place_of (&places, best),
                     .turn
                     = { 2 * G_PI * likeness->spokes[0] / SPOKES, 2 * G_PI * likeness->spokes[1] / SPOKES },
                     .width = 0.1 * wheel->arm,
                     .contrast = 1.3 * (likeness->light ? 1 : -1) * likeness->score };
  if (!hw_cross_fit (&plain, REACH * wheel->arm, &cross)
      || !hw_cross_fit (&plain, REACH * wheel->arm, &cross))
    return FALSE;
  found->px = hw_grey_patch_to_photo (&plain, cross.at);
  found->sigma = hypot (SPREAD * cross.sigma * plain.coarse, FINEST);
  found->confidence
      = confidence_of (likeness->score, next_best (&places, place_of (&places, best), guess, radius), &cross,
                       wheel->arm, hw_cross_weakest_arm (&plain, wheel->arm, &cross));
  return TRUE;
}

gboolean
hw_find_cross (const HwPicture *picture, HwPoint guess, double radius, double arm, HwFoundMark *found)
{
  g_autofree Wheel *wheel = NULL;
  gboolean done = FALSE;

  g_return_val_if_fail (picture != NULL && found != NULL, FALSE);

  *found = (HwFoundMark){ { 0, 0 }, 0, 0 };
  if (!(isfinite (guess.x) && isfinite (guess.y) && radius >= 0 && arm >= SMALLEST_ARM && arm < 1e5))
    return FALSE;
  radius = MIN (radius, MOST_ARMS * arm);
  wheel = g_new0 (Wheel, 1);
  if (wheel_make (wheel, picture, guess, radius, arm))
    done = find_in_wheel (wheel, hw_grey_patch_from_photo (&wheel->patch, guess),
                          radius / wheel->patch.coarse, found);
  hw_grey_patch_clear (&wheel->patch);
  return done;
}
