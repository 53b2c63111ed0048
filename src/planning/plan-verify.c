/* The second opinion on a plan: rules 1 to 4 and 8 checked from the snapshot alone, motif by motif, in the plainest way there is.
 * Nothing of the search, the order or the sharing test is used here, so that a mistake there cannot hide. */
#include <math.h>

#include "../geometry/language.h"
#include "../geometry/region.h"
#include "parts-verify.h"
#include "plan.h"

#define SLACK 1e-6         /* mm: rounding of sums */
#define COMMON_AREA 0.01   /* mm^2: rule 1 */
#define NO_PLACE G_MAXUINT /* a motif that no hooping stitches */

typedef struct
{
  const HwPlan *plan;
  const HwSnapshot *scene;
  guint n;
  HwOutline **placed;
  guint *place;    /* running place in the whole sequence */
  guint *hooping;  /* which hooping */
  gboolean *known; /* a grave problem says why it is not stitched */
} Check;

static const char *
name_of (const Check *check, guint motif)
{
  return hw_snapshot_motif (check->scene, motif)->name;
}

static gboolean
broken (GError **error, char *text)
{
  g_set_error_literal (error, HW_PLAN_ERROR, HW_PLAN_ERROR_BROKEN_RULE, text);
  g_free (text);
  return FALSE;
}

static void
check_open (Check *check, const HwPlan *plan)
{
  check->plan = plan;
  check->scene = plan->snapshot;
  check->n = plan->snapshot->motifs->len;
  check->placed = g_new0 (HwOutline *, check->n + 1);
  check->place = g_new (guint, check->n + 1);
  check->hooping = g_new (guint, check->n + 1);
  check->known = g_new0 (gboolean, check->n + 1);
  for (guint i = 0; i < check->n; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (check->scene, i);

      check->placed[i] = hw_outline_place (motif->outline, &motif->placement);
      check->place[i] = check->hooping[i] = NO_PLACE;
    }
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);

      if (problem->kind == HW_PROBLEM_OVERSIZE && problem->grave && problem->motif >= 0)
        check->known[problem->motif] = TRUE;
    }
}

static void
check_close (Check *check)
{
  for (guint i = 0; i < check->n; i++)
    hw_outline_unref (check->placed[i]);
  g_free (check->placed);
  g_free (check->place);
  g_free (check->hooping);
  g_free (check->known);
}

static gboolean
has_hoop_in_use (const Check *check)
{
  for (guint i = 0; i < check->scene->hoops->len; i++)
    if (!hw_snapshot_hoop (check->scene, i)->set_aside)
      return TRUE;
  return FALSE;
}

/* Rule 4: every motif exactly once. */
static gboolean
stitched_once (Check *check, GError **error)
{
  guint place = 0;

  for (guint h = 0; h < check->plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &check->plan->hoopings[h];

      if (hooping->n_motifs == 0 && hooping->hold != HW_PLACE_FROZEN)
        return broken (error, g_strdup_printf (_ ("Hooping %u has no motif."), h + 1));
      for (guint k = 0; k < hooping->n_motifs; k++)
        {
          guint motif = hooping->motifs[k];

          if (motif >= check->n)
            return broken (error, g_strdup_printf (_ ("Hooping %u names a motif the scene lacks."), h + 1));
          if (check->place[motif] != NO_PLACE)
            return broken (error, g_strdup_printf (_ ("%s is stitched twice."), name_of (check, motif)));
          check->place[motif] = place++;
          check->hooping[motif] = h;
        }
    }
  for (guint i = 0; i < check->n; i++)
    if (check->place[i] == NO_PLACE && !check->known[i] && has_hoop_in_use (check))
      return broken (error, g_strdup_printf (_ ("%s is never stitched."), name_of (check, i)));
  return TRUE;
}

static HwPoint
turned_back (HwPoint p, HwPoint centre, double degrees)
{
  double a = degrees * G_PI / 180, x = p.x - centre.x, y = p.y - centre.y;

  return (HwPoint){ x * cos (a) + y * sin (a), -x * sin (a) + y * cos (a) };
}

static gboolean
frame_on_cloth (const Check *check, const HwHooping *hooping, const HwHoop *hoop)
{
  double a = hooping->angle * G_PI / 180;

  for (int k = 0; k < 4; k++)
    {
      double u = hoop->frame_width / (k & 1 ? 2 : -2), v = hoop->frame_height / (k & 2 ? 2 : -2);
      double x = hooping->centre.x + u * cos (a) - v * sin (a);
      double y = hooping->centre.y + u * sin (a) + v * cos (a);

      if (x < -SLACK || y < -SLACK || x > check->scene->fabric.width + SLACK
          || y > check->scene->fabric.height + SLACK)
        return FALSE;
    }
  return TRUE;
}

/* Rules 2 and 3 for one hooping. */
static gboolean
lies_in_hoop (const Check *check, guint h, GError **error)
{
  const HwHooping *hooping = &check->plan->hoopings[h];
  const HwHoop *hoop;
  double half_u, half_v;

  if (hooping->hoop >= check->scene->hoops->len)
    return broken (error, g_strdup_printf (_ ("Hooping %u names a hoop the scene lacks."), h + 1));
  hoop = hw_snapshot_hoop (check->scene, hooping->hoop);
  half_u = hoop->field_width / 2 - hoop->clearance;
  half_v = hoop->field_height / 2 - hoop->clearance;
  if (hoop->turn == HW_TURN_QUARTER && !(fabs (remainder (hooping->angle, 90)) <= SLACK))
    return broken (error,
                   g_strdup_printf (_ ("Hooping %u is turned to an angle its hoop is not used at."), h + 1));
  for (guint k = 0; k < hooping->n_motifs; k++)
    {
      const HwOutline *outline = check->placed[hooping->motifs[k]];

      for (guint r = 0; r < outline->n_rings; r++)
        for (guint i = 0; i < outline->rings[r].n_points; i++)
          { /* asked so that what is not a number lies outside */
            HwPoint p = turned_back (outline->rings[r].points[i], hooping->centre, hooping->angle);

            if (!(fabs (p.x) <= half_u + SLACK && fabs (p.y) <= half_v + SLACK))
              return broken (error, g_strdup_printf (_ ("%s passes the field of hooping %u."),
                                                     name_of (check, hooping->motifs[k]), h + 1));
          }
    }
  if (check->scene->fabric.hold == HW_HOLD_CLAMPED && !frame_on_cloth (check, hooping, hoop))
    return broken (error, g_strdup_printf (_ ("The frame of hooping %u leaves the cloth."), h + 1));
  return TRUE;
}

static gboolean
all_lie_in_hoops (const Check *check, GError **error)
{
  for (guint h = 0; h < check->plan->n_hoopings; h++)
    if (check->plan->hoopings[h].hold != HW_PLACE_FROZEN && !lies_in_hoop (check, h, error))
      return FALSE;
  return TRUE;
}

static gboolean
is_frozen (const Check *check, guint motif)
{
  return check->hooping[motif] != NO_PLACE
         && check->plan->hoopings[check->hooping[motif]].hold == HW_PLACE_FROZEN;
}

/* Whether a problem says that the two are in the machine the other way round. */
static gboolean
is_out_of_turn (const Check *check, guint first, guint second)
{
  for (guint i = 0; i < check->plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (check->plan->problems, i);

      if (problem->kind == HW_PROBLEM_STITCHED_OUT_OF_ORDER && problem->motif == (int)first
          && problem->other == (int)second && check->hooping[first] == check->hooping[second])
        return TRUE;
    }
  return FALSE;
}

static gboolean
in_order (const Check *check, guint first, guint second, GError **error)
{
  /* What is stitched already cannot be put in order any more. */
  if (is_frozen (check, first) || is_frozen (check, second) || is_out_of_turn (check, first, second))
    return TRUE;
  if (check->place[first] == NO_PLACE || check->place[first] < check->place[second])
    return TRUE;
  return broken (error, g_strdup_printf (_ ("%s must be stitched before %s, but comes after it."),
                                         name_of (check, first), name_of (check, second)));
}

/* A tie that a named loop leaves out of the plan. */
static gboolean
is_left_out (const Check *check, guint first)
{
  for (guint i = 0; i < check->plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (check->plan->problems, i);

      if (problem->kind == HW_PROBLEM_ORDER_LOOP && problem->motif == (int)first)
        return TRUE;
    }
  return FALSE;
}

/* Rule 1. */
static gboolean
order_kept (const Check *check, GError **error)
{
  for (guint j = 0; j < check->n; j++)
    for (guint i = 0; i < j; i++)
      {
        if (!hw_box_overlaps (check->placed[i]->box, check->placed[j]->box))
          continue;
        if (check->place[i] < check->place[j])
          continue; /* right whether they overlap or not */
        if (hw_outline_overlap_area (check->placed[i], check->placed[j]) > COMMON_AREA
            && !in_order (check, i, j, error))
          return FALSE;
      }
  for (guint i = 0; i < check->n; i++)
    {
      char **before = hw_snapshot_motif (check->scene, i)->before;

      for (guint k = 0; before != NULL && before[k] != NULL; k++)
        {
          int other = hw_snapshot_find_motif (check->scene, before[k]);

          if (other >= 0 && !is_left_out (check, i) && !in_order (check, i, other, error))
            return FALSE;
        }
    }
  return TRUE;
}

/* Whether the hooping stitches just the motifs of the pin that are not stitched yet. */
static gboolean
holds_motifs_of (const Check *check, const HwHooping *hooping, const HwPin *pin)
{
  for (guint k = 0; pin->motifs != NULL && pin->motifs[k] != NULL; k++)
    {
      int motif = hw_snapshot_find_motif (check->scene, pin->motifs[k]);

      if (motif >= 0 && !is_frozen (check, motif)
          && (check->hooping[motif] == NO_PLACE || &check->plan->hoopings[check->hooping[motif]] != hooping))
        return FALSE;
    }
  for (guint m = 0; m < hooping->n_motifs; m++)
    if (pin->motifs == NULL
        || !g_strv_contains ((const char *const *)pin->motifs,
                             hw_snapshot_motif (check->scene, hooping->motifs[m])->id))
      return FALSE;
  return TRUE;
}

/* The hooping in the machine keeps the order that it was begun with. */
static gboolean
keeps_order_of (const Check *check, const HwHooping *hooping, const HwPin *pin)
{
  guint n = g_strv_length (pin->motifs);
  g_autofree guint *n_threads = g_new0 (guint, n + 1);
  g_autoptr (GArray) steps = hw_plan_steps (check->plan, (guint)(hooping - check->plan->hoopings));
  g_autoptr (GArray) sequence = NULL;

  for (guint k = 0; k < n; k++)
    {
      int motif = hw_snapshot_find_motif (check->scene, pin->motifs[k]);

      n_threads[k]
          = motif >= 0 && !is_frozen (check, motif) ? hw_snapshot_motif (check->scene, motif)->n_threads : 0;
    }
  sequence = hw_pin_sequence (pin, n_threads);
  for (guint i = 0; i < MIN (sequence->len, steps->len); i++)
    {
      guint motif = g_array_index (steps, HwBlockStep, i).motif, place = g_array_index (sequence, guint, i);

      if (!g_str_equal (hw_snapshot_motif (check->scene, motif)->id, pin->motifs[place]))
        return FALSE;
    }
  return sequence->len == steps->len;
}

static gboolean
keeps_pin (const Check *check, const HwHooping *hooping, const HwPin *pin)
{
  if (hooping->hold != HW_PLACE_PINNED || !holds_motifs_of (check, hooping, pin)
      || (pin->work != NULL && !keeps_order_of (check, hooping, pin)))
    return FALSE;
  if (pin->keep == HW_KEEP_GRAIN)
    return fabs (remainder (hooping->angle, 90)) < SLACK;
  return pin->keep == HW_KEEP_MOTIFS
         || (hw_point_distance (pin->centre, hooping->centre) < SLACK && pin->angle == hooping->angle
             && hw_snapshot_find_hoop (check->scene, pin->hoop) == (int)hooping->hoop);
}

/* A pin that a problem answers, or that names nothing left to stitch. */
static gboolean
is_excused (const Check *check, const HwPin *pin)
{
  gboolean excused = TRUE;

  for (guint k = 0; pin->motifs != NULL && pin->motifs[k] != NULL; k++)
    {
      int motif = hw_snapshot_find_motif (check->scene, pin->motifs[k]);

      if (motif < 0 || is_frozen (check, motif))
        continue;
      excused = FALSE;
      for (guint i = 0; i < check->plan->problems->len; i++)
        {
          const HwProblem *problem = g_ptr_array_index (check->plan->problems, i);

          if (problem->kind == HW_PROBLEM_PIN && problem->motif == motif)
            return TRUE;
        }
    }
  return excused || check->scene->hoops->len == 0;
}

/* Rule 8: stitched hoopings come first; each pinned one is as some pin says, and each pin is kept or answered. */
static gboolean
held_kept (const Check *check, GError **error)
{
  gboolean past = FALSE;

  for (guint h = 0; h < check->plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &check->plan->hoopings[h];
      gboolean found = FALSE;

      if (hooping->hold == HW_PLACE_FROZEN && past)
        return broken (error, g_strdup (_ ("A hooping already stitched comes after one that is not.")));
      past |= hooping->hold != HW_PLACE_FROZEN;
      if (hooping->hold != HW_PLACE_PINNED)
        continue;
      for (guint p = 0; p < check->scene->pins->len && !found; p++)
        found = keeps_pin (check, hooping, g_ptr_array_index (check->scene->pins, p));
      if (!found)
        return broken (error, g_strdup_printf (_ ("Hooping %u is not where its pin says."), h + 1));
    }
  for (guint p = 0; p < check->scene->pins->len; p++)
    {
      const HwPin *pin = g_ptr_array_index (check->scene->pins, p);
      gboolean kept = is_excused (check, pin);

      for (guint h = 0; h < check->plan->n_hoopings && !kept; h++)
        kept = keeps_pin (check, &check->plan->hoopings[h], pin);
      if (!kept)
        return broken (error, g_strdup_printf (_ ("Pinned hooping %u is neither kept nor answered."), p + 1));
    }
  return TRUE;
}

static gboolean
is_pinned_whole (const Check *check, const HwHooping *hooping)
{
  for (guint p = 0; p < check->scene->pins->len; p++)
    {
      const HwPin *pin = g_ptr_array_index (check->scene->pins, p);

      if (pin->keep == HW_KEEP_ALL && keeps_pin (check, hooping, pin))
        return TRUE;
    }
  return FALSE;
}

/* Motifs kept apart do not share; hoops set aside are only used where they are pinned or were stitched with. */
static gboolean
wishes_kept (const Check *check, GError **error)
{
  for (guint k = 0; check->scene->apart != NULL && k < check->scene->apart->len; k++)
    {
      const HwApart *pair = g_ptr_array_index (check->scene->apart, k);
      int a = hw_snapshot_find_motif (check->scene, pair->first);
      int b = hw_snapshot_find_motif (check->scene, pair->second);

      if (a >= 0 && b >= 0 && a != b && check->hooping[a] != NO_PLACE
          && check->hooping[a] == check->hooping[b] && !is_frozen (check, (guint)a))
        return broken (error, g_strdup_printf (_ ("%s and %s share a hooping but are kept apart."),
                                               name_of (check, (guint)a), name_of (check, (guint)b)));
    }
  for (guint h = 0; h < check->plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &check->plan->hoopings[h];

      if (hooping->hold != HW_PLACE_FROZEN && hw_snapshot_hoop (check->scene, hooping->hoop)->set_aside
          && !is_pinned_whole (check, hooping))
        return broken (error, g_strdup_printf (_ ("Hooping %u uses a hoop that is set aside."), h + 1));
    }
  return TRUE;
}

/* Mixed blocks: every block of the hooping's motifs once, each motif's in their order, and no motif begun before those it waits for are done. */
static gboolean
steps_right (const Check *check, guint h, GError **error)
{
  const HwHooping *hooping = &check->plan->hoopings[h];
  g_autofree guint *done = g_new0 (guint, check->n + 1);
  guint blocks = 0;

  for (guint k = 0; k < hooping->n_motifs; k++)
    blocks += hw_snapshot_motif (check->scene, hooping->motifs[k])->n_threads;
  if (hooping->n_steps != blocks)
    return broken (error,
                   g_strdup_printf (_ ("Hooping %u leaves out thread blocks or repeats them."), h + 1));
  for (guint k = 0; k < hooping->n_steps; k++)
    {
      const HwBlockStep *step = &hooping->steps[k];

      if (step->motif >= check->n || check->hooping[step->motif] != h || step->block != done[step->motif]++
          || step->block >= hw_snapshot_motif (check->scene, step->motif)->n_threads)
        return broken (error, g_strdup_printf (_ ("Hooping %u mixes up the blocks of a motif."), h + 1));
      for (guint m = 0; m < hooping->n_motifs; m++)
        {
          guint other = hooping->motifs[m];
          const HwMotif *record = hw_snapshot_motif (check->scene, other),
                        *own = hw_snapshot_motif (check->scene, step->motif);
          gboolean waits
              = other < step->motif && done[other] < record->n_threads
                && hw_outline_overlap_area (check->placed[other], check->placed[step->motif]) > COMMON_AREA;

          if (done[other] < record->n_threads && record->before != NULL && !is_left_out (check, other)
              && g_strv_contains ((const char *const *)record->before, own->id))
            waits = TRUE;
          if (waits && hooping->hold != HW_PLACE_FROZEN && !is_out_of_turn (check, other, step->motif))
            return broken (error, g_strdup_printf (_ ("%s must be stitched before %s, but comes after it."),
                                                   name_of (check, other), name_of (check, step->motif)));
        }
    }
  return TRUE;
}

/* The counts, once more. */
static gboolean
counts_right (const Check *check, GError **error)
{
  const HwThreadBlock *needle = NULL;
  guint changes = 0;

  for (guint h = 0; h < check->plan->n_hoopings; h++)
    {
      g_autoptr (GArray) steps = hw_plan_steps (check->plan, h);

      if (check->plan->hoopings[h].steps != NULL && !steps_right (check, h, error))
        return FALSE;
      for (guint k = 0; k < steps->len; k++)
        {
          const HwBlockStep *step = &g_array_index (steps, HwBlockStep, k);
          const HwThreadBlock *thread = &hw_snapshot_motif (check->scene, step->motif)->threads[step->block];

          changes += needle != NULL && !hw_thread_same (needle, thread);
          needle = thread;
        }
    }
  if (changes != check->plan->thread_changes)
    return broken (error, g_strdup_printf (_ ("The plan says %u thread changes and has %u."),
                                           check->plan->thread_changes, changes));
  if (check->plan->lower_bound > check->plan->n_hoopings)
    return broken (error, g_strdup (_ ("The plan has fewer hoopings than it says are needed.")));
  if (check->plan->status == HW_PLAN_OPTIMAL && check->plan->lower_bound != check->plan->n_hoopings)
    return broken (error, g_strdup (_ ("The plan is called proven without a proof.")));
  return TRUE;
}

gboolean
hw_plan_verify (const HwPlan *plan, GError **error)
{
  Check check;
  gboolean good;

  g_return_val_if_fail (plan != NULL, FALSE);

  check_open (&check, plan);
  good = stitched_once (&check, error) && all_lie_in_hoops (&check, error) && order_kept (&check, error)
         && held_kept (&check, error) && wishes_kept (&check, error) && hw_plan_verify_parts (plan, error)
         && counts_right (&check, error);
  check_close (&check);
  return good;
}
