/* Marks read in a photo. What the handles are likely off by is told by how well they agree (registration/homography.h) and carried to each mark; what the search for a cross
 * is off by comes to it. Nothing is ticked that the search was not sure of. */
#include "photo-readings.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../planning/marks.h"
#include "../registration/correction.h"

#define BY_HAND 0.5 /* mm per axis that a handle put by hand is off by: common practice, no source */
#define BY_HAND_PX 1.0

static HwPhotoReading *
reading_at (const GArray *readings, guint index)
{
  return &g_array_index (readings, HwPhotoReading, index);
}

GArray *
hw_photo_readings_new (const HwReading *marks, guint n)
{
  GArray *readings = g_array_new (FALSE, TRUE, sizeof (HwPhotoReading));

  g_return_val_if_fail (marks != NULL || n == 0, readings);

  for (guint i = 0; i < n; i++)
    {
      HwPhotoReading reading = { .design = marks[i].design, .at = { NAN, NAN } };

      g_strlcpy (reading.letter, marks[i].letter, sizeof reading.letter);
      g_array_append_val (readings, reading);
    }
  return readings;
}

void
hw_photo_readings_take (GArray *readings, const GArray *seen)
{
  g_return_if_fail (readings != NULL && seen != NULL);

  for (guint i = 0; i < readings->len; i++)
    if (!reading_at (readings, i)->by_hand)
      reading_at (readings, i)->seen = reading_at (readings, i)->ticked = FALSE;
  for (guint i = 0; i < seen->len; i++)
    {
      const HwSeenMark *mark = &g_array_index (seen, HwSeenMark, i);
      HwPhotoReading *reading = mark->place < readings->len ? reading_at (readings, mark->place) : NULL;

      if (reading == NULL || reading->by_hand)
        continue;
      reading->seen = TRUE;
      reading->px = mark->found.px;
      reading->confidence = mark->found.confidence;
      reading->fineness = mark->found.sigma;
      reading->ticked = hw_seen_mark_is_sure (mark);
    }
}

void
hw_photo_readings_put (GArray *readings, guint index, HwPoint px)
{
  g_return_if_fail (readings != NULL && index < readings->len);

  HwPhotoReading *reading = reading_at (readings, index);

  reading->seen = reading->by_hand = reading->ticked = TRUE;
  reading->apart = FALSE;
  reading->px = px;
  reading->confidence = 0;
  reading->fineness = BY_HAND_PX;
}

/* The handles that tell, and their fit. */
typedef struct
{
  HwPhotoPoint *points;
  double *residuals;
  guint n;
  HwHomography h;
} Telling;

static gboolean
take_handles (Telling *telling, const HwSquaring *squaring, gboolean by_sheet)
{
  g_autofree HwPhotoPoint *all = hw_squaring_points (squaring);

  for (guint i = 0; i < squaring->points->len; i++)
    {
      const HwHandlePoint *point = g_ptr_array_index (squaring->points, i);

      if (!by_sheet)
        telling->points[telling->n++] = all[i];
      else if (point->kind == HW_KNOWN_SHEET)
        telling->points[telling->n++] = (HwPhotoPoint){ point->px, point->mm };
    }
  return telling->n >= 4
         && hw_homography_fit (telling->points, telling->n, squaring->width, squaring->height, squaring->bow,
                               FALSE, &telling->h, telling->residuals, NULL);
}

/* px on the photo that a millimetre takes at a place. */
static double
scale_at (const HwHomography *h, HwPoint px)
{
  HwPoint here = hw_homography_apply (h, px), right = hw_homography_apply (h, (HwPoint){ px.x + 1, px.y });
  HwPoint down = hw_homography_apply (h, (HwPoint){ px.x, px.y + 1 });

  return 2 / (hw_point_distance (here, right) + hw_point_distance (here, down));
}

/* all: the fit of all handles, by which it is looked for; h: of those that tell. */
static void
measure_one (HwPhotoReading *reading, const HwHomography *all, const HwHomography *h, double spread)
{
  HwPoint px;

  if (!reading->seen)
    {
      reading->at = (HwPoint){ NAN, NAN };
      if (hw_homography_back (all, reading->design, &px))
        reading->px = px;
      return;
    }
  reading->at = hw_homography_apply (h, reading->px);
  reading->off = hw_point_distance (hw_homography_apply (all, reading->px), reading->design);
  reading->sigma = hypot (spread, reading->fineness / scale_at (h, reading->px));
  if (!isfinite (reading->at.x) || !isfinite (reading->sigma))
    reading->ticked = FALSE;
}

static void
weigh (const GArray *readings, HwPhotoWorth *worth)
{
  gboolean any = hw_photo_readings_count (readings) > 0;

  worth->at_marks = 0;
  for (guint i = 0; i < readings->len; i++)
    if (any ? reading_at (readings, i)->ticked : reading_at (readings, i)->seen)
      worth->at_marks = MAX (worth->at_marks, reading_at (readings, i)->sigma);
}

gboolean
hw_photo_readings_measure (GArray *readings,
                           const HwSquaring *squaring,
                           gboolean by_sheet,
                           HwPhotoWorth *worth)
{
  g_return_val_if_fail (readings != NULL && squaring != NULL && worth != NULL, FALSE);

  guint n = squaring->points->len;
  g_autofree HwPhotoPoint *points = g_new0 (HwPhotoPoint, n + 1);
  g_autofree double *residuals = g_new0 (double, n + 1), *spread = g_new0 (double, readings->len + 1);
  g_autofree HwPoint *px = g_new0 (HwPoint, readings->len + 1);
  Telling telling = { .points = points, .residuals = residuals };

  *worth = (HwPhotoWorth){ .by_sheet = by_sheet };
  if (!squaring->good || !take_handles (&telling, squaring, by_sheet))
    return FALSE;
  for (guint i = 0; i < readings->len; i++)
    px[i] = reading_at (readings, i)->px;
  worth->handles = hw_homography_point_sigma (residuals, telling.n, squaring->bow != 0 ? 9 : 8, BY_HAND);
  worth->assumed = telling.n == 4;
  if (!hw_homography_spread (points, telling.n, squaring->width, squaring->height, &telling.h, worth->handles,
                             px, readings->len, spread))
    return FALSE;
  for (guint i = 0; i < readings->len; i++)
    measure_one (reading_at (readings, i), &squaring->h, &telling.h, spread[i]);
  weigh (readings, worth);
  return TRUE;
}

gboolean
hw_photo_readings_agree (GArray *readings)
{
  g_return_val_if_fail (readings != NULL, TRUE);

  guint n, which = 0;
  g_autofree HwReading *ticked = hw_photo_readings_ticked (readings, &n);
  HwCorrectionTask task = { .sigma = HW_MARKS_SIGMA, .tolerance = HW_LARGEST_MM };
  HwCorrectionAnswer answer = { 0 };
  gboolean agree;

  for (guint i = 0; i < readings->len; i++)
    {
      reading_at (readings, i)->apart = FALSE;
      if (reading_at (readings, i)->ticked)
        task.sigma = MAX (task.sigma, reading_at (readings, i)->sigma);
    }
  if (n < 2 || !hw_correction_find (ticked, n, &task, &answer, NULL))
    return TRUE;
  agree = !answer.at_odds && !answer.stretch_too_much;
  for (guint i = 0; i < readings->len && !agree; i++)
    {
      HwPhotoReading *reading = reading_at (readings, i);

      if (!reading->ticked)
        continue;
      if (answer.outlier < 0 || answer.outlier == (int)which)
        {
          reading->ticked = FALSE;
          reading->apart = answer.outlier >= 0;
        }
      which++;
    }
  hw_correction_answer_clear (&answer);
  return agree;
}

guint
hw_photo_readings_count (const GArray *readings)
{
  guint n = 0;

  g_return_val_if_fail (readings != NULL, 0);

  for (guint i = 0; i < readings->len; i++)
    n += reading_at (readings, i)->ticked;
  return n;
}

HwReading *
hw_photo_readings_ticked (const GArray *readings, guint *n)
{
  g_return_val_if_fail (readings != NULL && n != NULL, NULL);

  HwReading *ticked = g_new0 (HwReading, readings->len + 1);

  *n = 0;
  for (guint i = 0; i < readings->len; i++)
    {
      const HwPhotoReading *reading = reading_at (readings, i);

      if (!reading->ticked)
        continue;
      g_strlcpy (ticked[*n].letter, reading->letter, sizeof ticked[*n].letter);
      ticked[*n].design = reading->design;
      ticked[*n].at = reading->at;
      ticked[(*n)++].by_photo = TRUE;
    }
  return ticked;
}

char *
hw_photo_reading_text (const HwPhotoReading *reading, HwUnit unit)
{
  g_return_val_if_fail (reading != NULL, NULL);

  if (!reading->seen)
    return g_strdup (_ ("Not found. Drag its square onto the cross in the photo."));
  if (!isfinite (reading->at.x) || !isfinite (reading->sigma))
    return g_strdup (_ ("Beyond the horizon of the photo: look at the handles again."));

  g_autofree char *off = hw_length_text (reading->off, unit), *told = hw_length_text (reading->sigma, unit);
  HwSeenMark as_seen = { .found = { .confidence = reading->confidence } };

  if (reading->apart)
    return g_strdup_printf (_ ("Does not agree with the others; %s from its planned place."), off);
  if (reading->by_hand)
    return g_strdup_printf (_ ("Put by hand; %s from its planned place, told to about %s."), off, told);
  /* Translators: "Sure, 98 %; 2.1 mm from its planned place, told to about 0.3 mm." */
  return g_strdup_printf (_ ("Found: %s, %.0f %%; %s from its planned place, told to about %s."),
                          hw_seen_mark_words (&as_seen), 100 * reading->confidence, off, told);
}

char *
hw_photo_worth_text (const HwPhotoWorth *worth, HwUnit unit)
{
  g_return_val_if_fail (worth != NULL, NULL);

  g_autofree char *handles = hw_length_text (worth->handles, unit);
  g_autofree char *marks = hw_length_text (worth->at_marks, unit);
  g_autofree char *needle = hw_length_text (HW_MARKS_SIGMA, unit);

  if (worth->at_marks <= 0)
    return g_strdup_printf (worth->assumed
                                ? _ ("Four handles cannot check each other: each is taken to be off by %s.")
                                : _ ("The handles are likely off by %s each."),
                            handles);
  if (worth->by_sheet)
    return g_strdup_printf (
        _ ("The sheet’s four handles cannot check each other: each is taken to be off by %s. Then this photo "
           "tells the marks to about %s."),
        handles, marks);
  return g_strdup_printf (
      worth->assumed ? _ (
          "Four handles cannot check each other: each is taken to be off by %s. Then this photo tells the "
          "marks to about %s; a needle over a mark tells it to about %s.")
                     : _ ("The handles are likely off by %s each. So this photo tells the marks to about %s; "
                          "a needle over "
                          "a mark tells it to about %s."),
      handles, marks, needle);
}
