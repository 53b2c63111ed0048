/* From readings at the marks to the answer at the machine: the exact fit, the steps to enter, what remains at each motif, whether the readings agree,
 * whether the cloth stretched, and what to do. Sources of the methods stand with them: rigid-fit.c, correction-steps.c, readings-agree.c. */
#include "correction.h"

#include <math.h>

#include "correction-private.h"
#include "../geometry/language.h"

/* Marks must lie farther apart than this to tell a turn, mm. */
#define APART 1.0
/* No needle goes so far, mm. */
#define FARTHEST 10000.0
/* A stretch is told from 2.6 times its scatter: by chance 1 in 100. */
#define TOLD 2.6
/* Percent: no cloth in a hoop gives more (common practice, no source). */
#define CLOTH_GIVES 5.0
/* Degrees that no machine step corrects anyhow: half the usual step of 1. */
#define TURN_LET_BE 0.5

void
hw_used_readings_init (HwUsedReadings *used, const HwReading *readings, guint n)
{
  *used = (HwUsedReadings){ g_new (HwPoint, n), g_new (HwPoint, n), g_new (guint, n), 0 };
  for (guint i = 0; i < n; i++)
    if (!readings[i].left_out)
      {
        used->design[used->n] = readings[i].design;
        used->at[used->n] = readings[i].at;
        used->index[used->n++] = i;
      }
}

void
hw_used_readings_clear (HwUsedReadings *used)
{
  g_free (used->design);
  g_free (used->at);
  g_free (used->index);
}

HwPoint
hw_correction_apply (const HwCorrection *correction, HwPoint design)
{
  HwPoint p;

  g_return_val_if_fail (correction != NULL, design);

  p = hw_point_turn (design, correction->turn);
  return (HwPoint){ p.x + correction->shift.x, p.y + correction->shift.y };
}

static HwPoint
apply_fit (const HwRigidFit *fit, HwPoint design)
{
  return hw_correction_apply (&(HwCorrection){ fit->shift, fit->turn }, design);
}

static double
farthest_apart (const HwPoint *points, guint n)
{
  double most = 0;

  for (guint i = 0; i < n; i++)
    for (guint k = i + 1; k < n; k++)
      most = MAX (most, hw_point_distance (points[i], points[k]));
  return most;
}

static gboolean
is_near (HwPoint p)
{
  return fabs (p.x) <= FARTHEST && fabs (p.y) <= FARTHEST;
}

static gboolean
can_be_fitted (const HwUsedReadings *used, const HwReading *readings, GError **error)
{
  for (guint i = 0; i < used->n; i++)
    if (!is_near (used->at[i]) || !is_near (used->design[i]))
      {
        /* Translators: %s is the letter of a mark. */
        g_set_error (error, HW_FIT_ERROR, HW_FIT_ERROR_FAR,
                     _ ("The reading of mark %s lies farther away than any machine reaches. Read it again."),
                     readings[used->index[i]].letter);
        return FALSE;
      }
  if (used->n > 1 && farthest_apart (used->design, used->n) <= APART)
    {
      g_set_error_literal (error, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT,
                           _ ("The marks lie so near each other that they do not tell how the cloth is "
                              "turned. Read a mark that lies farther away."));
      return FALSE;
    }
  if (used->n > 1 && farthest_apart (used->at, used->n) <= APART)
    {
      g_set_error_literal (error, HW_FIT_ERROR, HW_FIT_ERROR_COINCIDENT,
                           _ ("All readings are of one and the same place, though the marks lie apart. Bring "
                              "the needle to each mark in turn and read it again."));
      return FALSE;
    }
  return TRUE;
}

/* Root of the sum of squares of the distances from their mean. */
static double
spread_of (const HwPoint *points, guint n)
{
  HwPoint mean = { 0, 0 };
  double sum = 0;

  for (guint i = 0; i < n; i++)
    mean = (HwPoint){ mean.x + points[i].x / n, mean.y + points[i].y / n };
  for (guint i = 0; i < n; i++)
    sum += pow (hw_point_distance (points[i], mean), 2);
  return sqrt (sum);
}

/* Between the readings that agree; a stretch scatters by sigma over the root of the marks' sum of squares. */
static void
find_stretch (const HwUsedReadings *used, double sigma, HwCorrectionAnswer *answer)
{
  g_autofree HwPoint *design = g_new (HwPoint, used->n), *at = g_new (HwPoint, used->n);
  guint n = 0;
  double scale, scatter;
  HwRigidFit fit;

  for (guint i = 0; i < used->n; i++)
    if ((int)used->index[i] != answer->outlier)
      {
        design[n] = used->design[i];
        at[n++] = used->at[i];
      }
  if (n < 2 || farthest_apart (design, n) <= APART || !hw_similarity_fit (design, at, n, &fit, &scale, NULL))
    return;
  scatter = sigma / spread_of (design, n);
  answer->stretch_seen = TRUE;
  answer->stretch = 100 * (scale - 1);
  answer->stretch_told = fabs (scale - 1) > TOLD * scatter;
  answer->stretch_too_much = fabs (answer->stretch) > CLOTH_GIVES + 100 * TOLD * scatter;
}

static void
find_remaining (const HwCorrectionTask *task, HwCorrectionAnswer *answer)
{
  answer->n_targets = task->n_targets;
  answer->remaining = g_new0 (double, MAX (task->n_targets, 1));
  answer->worst_target = -1;
  for (guint i = 0; i < task->n_targets; i++)
    {
      HwPoint p = task->targets[i];

      answer->remaining[i]
          = hw_point_distance (hw_correction_apply (&answer->chosen, p), apply_fit (&answer->exact, p));
      if (answer->worst_target < 0 || answer->remaining[i] > answer->worst)
        {
          answer->worst = answer->remaining[i];
          answer->worst_target = i;
        }
    }
}

static void
look_at_field (const HwCorrectionTask *task, HwCorrectionAnswer *answer)
{
  if (task->half_width <= 0 || task->half_height <= 0)
    return;
  for (guint i = 0; i < task->n_stitching; i++)
    {
      HwPoint p = hw_correction_apply (&answer->chosen, task->stitching[i]);

      answer->leaves_field
          = MAX (answer->leaves_field, MAX (fabs (p.x) - task->half_width, fabs (p.y) - task->half_height));
    }
  /* What the plan leaves no room for is not the correction's doing, nor is a rounding of numbers. */
  if (answer->leaves_field < 1e-6)
    answer->leaves_field = 0;
}

/* A machine that cannot turn leaves the edges of the motifs off, however well their middles lie. */
static gboolean
lacks_turn (const HwCorrectionTask *task, const HwCorrectionAnswer *answer)
{
  if (task->turn_step > 0)
    return FALSE;
  if (task->n_stitching == 0)
    return fabs (answer->exact.turn) > TURN_LET_BE;
  for (guint i = 0; i < task->n_stitching; i++)
    if (hw_point_distance (hw_correction_apply (&answer->chosen, task->stitching[i]),
                           apply_fit (&answer->exact, task->stitching[i]))
        > task->tolerance)
      return TRUE;
  return FALSE;
}

static HwCorrectionAdvice
advise (const HwCorrectionTask *task, const HwCorrectionAnswer *answer)
{
  if (answer->at_odds || answer->stretch_too_much)
    return HW_ADVICE_READ_AGAIN;
  if (answer->worst > task->tolerance || answer->leaves_field > 0 || answer->turn_lacks)
    return HW_ADVICE_HOOP_AGAIN;
  if (answer->chosen.shift.x == 0 && answer->chosen.shift.y == 0 && answer->chosen.turn == 0)
    return HW_ADVICE_STITCH;
  return HW_ADVICE_ENTER;
}

gboolean
hw_correction_find (const HwReading *readings,
                    guint n,
                    const HwCorrectionTask *task,
                    HwCorrectionAnswer *answer,
                    GError **error)
{
  g_auto (HwUsedReadings) used = { NULL };
  HwAgreement agreement;

  g_return_val_if_fail (readings != NULL || n == 0, FALSE);
  g_return_val_if_fail (task != NULL && answer != NULL, FALSE);
  g_return_val_if_fail (task->targets != NULL || task->n_targets == 0, FALSE);
  g_return_val_if_fail (task->stitching != NULL || task->n_stitching == 0, FALSE);

  *answer = (HwCorrectionAnswer){ .outlier = -1, .worst_target = -1 };
  hw_used_readings_init (&used, readings, n);
  if (!can_be_fitted (&used, readings, error)
      || !hw_rigid_fit (used.design, used.at, used.n, &answer->exact, error))
    return FALSE;

  answer->n_used = used.n;
  answer->chosen = hw_correction_steps (&answer->exact, task);
  find_remaining (task, answer);
  answer->residuals = g_new0 (double, n);
  for (guint i = 0; i < n; i++)
    answer->residuals[i] = hw_point_distance (apply_fit (&answer->exact, readings[i].design), readings[i].at);
  agreement = hw_readings_agree (&used, task->sigma);
  answer->at_odds = agreement.at_odds;
  if (agreement.outlier >= 0)
    {
      answer->outlier = used.index[agreement.outlier];
      answer->outlier_by = agreement.by;
      answer->without = agreement.without;
    }
  find_stretch (&used, task->sigma, answer);
  look_at_field (task, answer);
  answer->turn_lacks = lacks_turn (task, answer);
  answer->advice = advise (task, answer);
  return TRUE;
}

void
hw_correction_answer_clear (HwCorrectionAnswer *answer)
{
  g_clear_pointer (&answer->remaining, g_free);
  g_clear_pointer (&answer->residuals, g_free);
}
