/* The hooping in the machine in words and figures. The order of the steps and the cautions are common practice, no source; where the machine's manual
 * says otherwise, the manual holds, and the words say so. */
#include "machine-work.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../paper/steps.h"
#include "../planning/marks.h"
#include "../planning/turns.h"

/* Fills a hooping of the view's own plan from a pin. FALSE when the scene lacks its hoop or a motif. */
static gboolean
fill_hooping (HwPlan *plan, HwHooping *hooping, const HwPin *pin, HwPlaceHold hold)
{
  int hoop = pin->hoop != NULL ? hw_snapshot_find_hoop (plan->snapshot, pin->hoop) : -1;
  guint n = pin->motifs != NULL ? g_strv_length (pin->motifs) : 0;
  g_autoptr (GArray) steps = NULL;

  if (hoop < 0 || n == 0)
    return FALSE;
  hooping->hoop = (guint)hoop;
  hooping->centre = pin->centre;
  hooping->angle = pin->angle;
  hooping->hold = hold;
  hooping->motifs = g_new0 (guint, n);
  hooping->predicted_error = g_new0 (double, n);
  hooping->n_motifs = n;
  for (guint i = 0; i < n; i++)
    {
      int motif = hw_snapshot_find_motif (plan->snapshot, pin->motifs[i]);
      if (motif < 0)
        return FALSE;
      hooping->motifs[i] = (guint)motif;
    }
  steps = hw_turns_read (plan->snapshot, pin, hooping->motifs, n);
  if (steps != NULL)
    {
      gsize n_steps;

      hooping->steps = g_array_steal (steps, &n_steps);
      hooping->n_steps = (guint)n_steps;
    }
  hooping->n_marks = pin->n_marks;
  if (pin->n_marks > 0)
    hooping->marks = g_memdup2 (pin->marks, pin->n_marks * sizeof *pin->marks);
  return TRUE;
}

HwMachineWork *
hw_machine_work_new (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  const HwPin *pin = hw_bench_get_begun (bench);
  int at_bench = hw_bench_get_begun_hooping (bench);

  if (pin == NULL)
    return NULL;
  g_autoptr (HwMachineWork) work = g_rc_box_new0 (HwMachineWork);
  work->snapshot = hw_scene_snapshot (hw_bench_get_scene (bench));
  work->pin = pin;
  work->plan = hw_plan_new (work->snapshot);
  GPtrArray *frozen = work->snapshot->frozen;
  work->plan->hoopings = g_new0 (HwHooping, frozen->len + 1);
  for (guint i = 0; i < frozen->len; i++)
    {
      work->plan->n_hoopings = i + 1;
      if (!fill_hooping (work->plan, &work->plan->hoopings[i], g_ptr_array_index (frozen, i),
                         HW_PLACE_FROZEN))
        return NULL;
    }
  work->hooping = frozen->len;
  work->plan->n_hoopings = frozen->len + 1;
  if (!fill_hooping (work->plan, &work->plan->hoopings[work->hooping], pin, HW_PLACE_PINNED))
    return NULL;
  work->steps = hw_plan_steps (work->plan, work->hooping);
  work->number = at_bench >= 0 ? (guint)at_bench + 1 : work->hooping + 1;
  work->n_all = at_bench >= 0 ? hw_bench_get_plan (bench)->n_hoopings : 0;
  return g_steal_pointer (&work);
}

static void
clear_work (gpointer data)
{
  HwMachineWork *work = data;

  g_clear_pointer (&work->steps, g_array_unref);
  g_clear_pointer (&work->plan, hw_plan_unref);
  g_clear_pointer (&work->snapshot, hw_snapshot_unref);
}

HwMachineWork *
hw_machine_work_ref (HwMachineWork *work)
{
  g_return_val_if_fail (work != NULL, NULL);
  return g_rc_box_acquire (work);
}

void
hw_machine_work_unref (HwMachineWork *work)
{
  if (work != NULL)
    g_rc_box_release_full (work, clear_work);
}

const HwHooping *
hw_machine_work_hooping (const HwMachineWork *work)
{
  g_return_val_if_fail (work != NULL, NULL);
  return &work->plan->hoopings[work->hooping];
}

const HwHoop *
hw_machine_work_hoop (const HwMachineWork *work)
{
  g_return_val_if_fail (work != NULL, NULL);
  return hw_snapshot_hoop (work->snapshot, hw_machine_work_hooping (work)->hoop);
}

const HwThreadBlock *
hw_machine_work_thread (const HwMachineWork *work, guint at, const HwMotif **motif)
{
  g_return_val_if_fail (work != NULL, NULL);

  if (at >= work->steps->len)
    return NULL;
  const HwBlockStep *step = &g_array_index (work->steps, HwBlockStep, at);
  const HwMotif *found = hw_snapshot_motif (work->snapshot, step->motif);
  if (motif != NULL)
    *motif = found;
  return &found->threads[step->block];
}

HwPoint
hw_machine_work_mark (const HwMachineWork *work, guint mark)
{
  g_return_val_if_fail (work != NULL && mark < work->pin->n_marks, ((HwPoint){ 0, 0 }));
  return hw_point_in_hoop (hw_machine_work_hooping (work), work->pin->marks[mark].at);
}

/* Motif centres and the outermost points of all its stitching, hoop axes. */
static void
collect_targets (const HwMachineWork *work, GArray *targets, GArray *stitching)
{
  const HwHooping *hooping = hw_machine_work_hooping (work);

  for (guint i = 0; i < hooping->n_motifs; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (work->snapshot, hooping->motifs[i]);
      g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
      HwPoint centre = hw_point_in_hoop (hooping, motif->placement.position);

      g_array_append_val (targets, centre);
      for (guint r = 0; r < placed->n_rings; r++)
        for (guint k = 0; k < placed->rings[r].n_points; k++)
          {
            HwPoint p = hw_point_in_hoop (hooping, placed->rings[r].points[k]);
            g_array_append_val (stitching, p);
          }
    }
}

static HwCorrectionTask
task_of (const HwMachineWork *work, const GArray *targets, const GArray *stitching)
{
  const HwHoop *hoop = hw_machine_work_hoop (work);

  return (HwCorrectionTask){
    .shift_step = work->snapshot->machine.shift_step,
    .turn_step = work->snapshot->machine.turn_step,
    .sigma = HW_MARKS_SIGMA,
    .tolerance = work->snapshot->wishes.tolerance,
    .targets = (const HwPoint *)(const void *)targets->data,
    .n_targets = targets->len,
    .stitching = (const HwPoint *)(const void *)stitching->data,
    .n_stitching = stitching->len,
    .half_width = hoop->field_width / 2,
    .half_height = hoop->field_height / 2,
  };
}

gboolean
hw_machine_work_correction (const HwMachineWork *work, HwCorrectionAnswer *answer, GError **error)
{
  g_return_val_if_fail (work != NULL && answer != NULL, FALSE);

  g_autoptr (GArray) targets = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_autoptr (GArray) stitching = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  collect_targets (work, targets, stitching);
  HwCorrectionTask task = task_of (work, targets, stitching);
  return hw_correction_find (work->pin->work->readings, work->pin->work->n_readings, &task, answer, error);
}

char *
hw_machine_work_advice (const HwMachineWork *work, const HwCorrectionAnswer *answer, HwUnit unit)
{
  g_return_val_if_fail (work != NULL && answer != NULL, NULL);

  g_autoptr (GArray) targets = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_autoptr (GArray) stitching = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  collect_targets (work, targets, stitching);
  HwCorrectionTask task = task_of (work, targets, stitching);
  return hw_correction_advice_text (answer, work->pin->work->readings, work->pin->work->n_readings, &task,
                                    unit);
}

HwPoint
hw_machine_work_place (const HwMachineWork *work, guint motif, const HwCorrection *correction, double *turn)
{
  const HwHooping *hooping = hw_machine_work_hooping (work);

  g_return_val_if_fail (motif < hooping->n_motifs, ((HwPoint){ 0, 0 }));

  HwMotifInHoop place = hw_motif_in_hoop (work->plan, work->hooping, hooping->motifs[motif]);
  if (turn != NULL)
    *turn = hw_angle_normal (place.turn + (correction != NULL ? correction->turn : 0));
  return correction != NULL ? hw_correction_apply (correction, place.shift) : place.shift;
}

const char *
hw_machine_step_word (HwWorkStep step)
{
  static const char *const words[HW_N_WORK_STEPS] = {
    N_ ("Mark"),  N_ ("Hoop"),     N_ ("Lay on"), N_ ("Centre"), N_ ("Read"),
    N_ ("Enter"), N_ ("Template"), N_ ("Stitch"), N_ ("Done"),
  };

  g_return_val_if_fail (step < HW_N_WORK_STEPS, NULL);
  return _ (words[step]);
}

const char *
hw_machine_step_title (HwWorkStep step, HwHold hold)
{
  switch (step)
    {
    case HW_WORK_MARK:
      return _ ("Draw the marks");
    case HW_WORK_HOOP:
      return hold == HW_HOLD_CLAMPED ? _ ("Make the hoop ready") : _ ("Hoop the stabiliser");
    case HW_WORK_STICK:
      return hold == HW_HOLD_CLAMPED ? _ ("Close the cloth in") : _ ("Lay the cloth on");
    case HW_WORK_CENTRE:
      return _ ("Find the centre");
    case HW_WORK_READ:
      return _ ("Read the needle");
    case HW_WORK_ENTER:
      return _ ("Enter the correction");
    case HW_WORK_TEMPLATE_OFF:
      return _ ("Take the template off");
    case HW_WORK_STITCH:
      return _ ("Stitch");
    case HW_WORK_DONE:
    default:
      return _ ("Look it over, take it out");
    }
}

static char *
mark_letters (const HwPin *pin)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < pin->n_marks; i++)
    {
      if (i > 0)
        g_string_append (text, i + 1 == pin->n_marks ? _ (" and ") : ", ");
      g_string_append (text, pin->marks[i].letter);
    }
  return g_string_free (text, FALSE);
}

char *
hw_machine_step_sentence (const HwMachineWork *work, HwWorkStep step)
{
  g_return_val_if_fail (work != NULL, NULL);

  gboolean clamped = work->snapshot->fabric.hold == HW_HOLD_CLAMPED;
  gboolean several = hw_machine_work_hooping (work)->n_motifs > 1;
  g_autofree char *letters = mark_letters (work->pin);
  const char *hoop = hw_machine_work_hoop (work)->name;

  switch (step)
    {
    case HW_WORK_MARK:
      if (work->pin->n_marks == 0)
        return g_strdup (
            _ ("Draw or check on the cloth: the hoop's centre cross, its arrow to the top of the hoop."));
      return g_strdup_printf (_ ("Draw or check on the cloth: the centre cross, its arrow to the top of the "
                                 "hoop, and the marks %s."),
                              letters);
    case HW_WORK_HOOP:
      if (clamped)
        return g_strdup_printf (
            _ ("Take the hoop “%s”. Open the ring and lay the stabiliser over its outer part."), hoop);
      return g_strdup_printf (
          _ ("Take the hoop “%s”. Hoop the stabiliser alone, firm as a drum, and bare its adhesive."), hoop);
    case HW_WORK_STICK:
      if (clamped)
        return g_strdup (_ ("Lay the cloth: its cross to the marks on the ring, the arrow to its top. Press "
                            "the inner ring in; firm, not stretched. Then lay the templates on."));
      return g_strdup (_ ("Lay the cloth: its cross to the marks on the ring, the arrow to its top. Press it "
                          "down from the middle outwards, not stretched. Then lay the templates on."));
    case HW_WORK_CENTRE:
      return g_strdup (_ ("Bring the needle over the centre cross, the last of the way by hand. Let the "
                          "machine count from there."));
    case HW_WORK_READ:
      if (work->pin->n_marks == 0)
        return g_strdup (_ ("This hooping has no marks to read. Check the template's cross mark under the "
                            "needle and go on."));
      return g_strdup (_ ("Bring the needle over each mark and type what the machine shows there, counted "
                          "from the centre of the hoop."));
    case HW_WORK_ENTER:
      return g_strdup (several ? _ ("Enter this at the machine, for all motifs together.")
                               : _ ("Enter this at the machine."));
    case HW_WORK_TEMPLATE_OFF:
      return g_strdup (several ? _ ("All templates must be off the cloth before the first stitch.")
                               : _ ("The template must be off the cloth before the first stitch."));
    case HW_WORK_STITCH:
      return g_strdup (_ ("Thread the machine, close it, and let it stitch this thread."));
    case HW_WORK_DONE:
    default:
      return g_strdup (_ ("Look it over while it is still hooped: gaps, loops, loose ends. Then take it out "
                          "and ease the stabiliser off, holding the stitches."));
    }
}

char *
hw_machine_step_caution (const HwMachineWork *work, HwWorkStep step)
{
  g_return_val_if_fail (work != NULL, NULL);

  gboolean clamped = work->snapshot->fabric.hold == HW_HOLD_CLAMPED;

  switch (step)
    {
    case HW_WORK_HOOP:
      return g_strdup (clamped ? _ ("Mind your fingers when the ring closes.")
                               : _ ("Spray adhesive: only where the air is changed, away from the machine "
                                    "and from any flame."));
    case HW_WORK_STICK:
      return g_strdup (_ ("A hot iron: not over adhesive or paper, never left standing on."));
    case HW_WORK_CENTRE:
      return g_strdup (
          _ ("The frame moves by itself: keep hands, hair and sleeves clear of it and of the needle."));
    case HW_WORK_READ:
      return g_strdup (_ ("The frame moves by itself: keep hands, hair and sleeves clear of it and of the "
                          "needle. Switch the machine off before you lean over the hoop for a photo."));
    case HW_WORK_STITCH:
      return g_strdup (_ ("Switch off before you thread. Keep hands, hair and sleeves away from needle and "
                          "frame. The machine's manual comes first."));
    case HW_WORK_DONE:
      return g_strdup (_ ("Wait until the needle stands still. Cut away from your hand and from the cloth."));
    case HW_WORK_MARK:
    case HW_WORK_ENTER:
    case HW_WORK_TEMPLATE_OFF:
    default:
      return NULL;
    }
}

/* A title within a sentence: its first letter is small; nouns in some languages keep theirs. */
static char *
within_a_sentence (const char *title)
{
  const char *rest = *title != '\0' ? g_utf8_next_char (title) : title;
  g_autofree char *first = g_utf8_strdown (title, rest - title);

  return g_strconcat (first, rest, NULL);
}

char *
hw_machine_where_it_stopped (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  const HwPin *pin = hw_bench_get_begun (bench);
  HwScene *scene = hw_bench_get_scene (bench);
  int hooping = hw_bench_get_begun_hooping (bench);

  if (pin == NULL)
    return NULL;
  g_autofree char *step
      = within_a_sentence (hw_machine_step_title (pin->work->step, hw_scene_get_fabric (scene)->hold));
  if (hooping < 0)
    return g_strdup_printf (_ ("A hooping is in the machine, at: %s."), step);
  return g_strdup_printf (_ ("Hooping %d is in the machine, at: %s."), hooping + 1, step);
}

char *
hw_machine_turn_text (double degrees)
{
  g_autofree char *angle = hw_angle_text (fabs (degrees));

  if (fabs (degrees) < 0.05)
    return g_strdup (_ ("not turned"));
  return g_strdup_printf (degrees > 0 ? _ ("%s clockwise") : _ ("%s anticlockwise"), angle);
}

char *
hw_machine_across_text (double u, HwUnit unit)
{
  g_autofree char *length = hw_length_text (fabs (u), unit);

  return g_strdup_printf (u < 0 ? _ ("%s left") : _ ("%s right"), length);
}

char *
hw_machine_along_text (double v, HwUnit unit)
{
  g_autofree char *length = hw_length_text (fabs (v), unit);

  return g_strdup_printf (v < 0 ? _ ("%s away from you") : _ ("%s towards you"), length);
}

HwCorrection
hw_landed_from_readings (const HwRigidFit *found, const HwCorrection *entered)
{
  HwCorrection told = entered != NULL ? *entered : (HwCorrection){ 0 };

  g_return_val_if_fail (found != NULL, told);

  /* A point p was stitched at K p; the cloth's own point q lies at C q: q = C^-1 K p. */
  HwPoint between = { told.shift.x - found->shift.x, told.shift.y - found->shift.y };
  return (HwCorrection){
    .shift = hw_point_turn (between, -found->turn),
    .turn = hw_angle_normal (told.turn - found->turn),
  };
}
