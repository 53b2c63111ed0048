/* The bench and its marks: those the person holds because she drew them or wants them there. A held mark belongs to a motif and serves the hooping in
 * which that motif is stitched; a hooping whose pin brings marks of its own has these changed instead. Marks are known by their place. */
#include "bench.h"

#include <glib/gi18n.h>

#include "../planning/marks.h"
#include "bench-private.h"

#define SAME_PLACE 0.05 /* mm */

static gboolean
is_at (HwPoint a, HwPoint b)
{
  return hw_point_distance (a, b) < SAME_PLACE;
}

static const HwHooping *
get_hooping (HwBench *bench, guint hooping)
{
  return bench->plan != NULL && hooping < bench->plan->n_hoopings ? &bench->plan->hoopings[hooping] : NULL;
}

static const HwMark *
get_mark (HwBench *bench, guint hooping, guint mark)
{
  const HwHooping *of = get_hooping (bench, hooping);

  return of != NULL && mark < of->n_marks ? &of->marks[mark] : NULL;
}

/* The pin that brings the marks of the hooping in which the motif is stitched, or NULL. */
static const HwPin *
pin_with_marks (HwBench *bench, const char *motif)
{
  GPtrArray *pins = hw_scene_get_pins (bench->scene);

  for (guint i = 0; i < pins->len; i++)
    {
      const HwPin *pin = g_ptr_array_index (pins, i);

      if (pin->marks != NULL && pin->n_marks > 0 && pin->motifs != NULL
          && g_strv_contains ((const char *const *)pin->motifs, motif))
        return pin;
    }
  return NULL;
}

/* The motif of the hooping that lies nearest to a place and is still in the scene: should the hooping be divided, the mark stays with it. */
static const char *
motif_near (HwBench *bench, guint hooping, HwPoint at)
{
  const HwHooping *of = get_hooping (bench, hooping);
  const char *nearest = NULL;
  double least = G_MAXDOUBLE;

  for (guint i = 0; of != NULL && i < of->n_motifs; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (bench->plan->snapshot, of->motifs[i]);
      double distance = hw_point_distance (motif->placement.position, at);

      if (distance < least && hw_scene_find_motif (bench->scene, motif->id) != NULL)
        {
          least = distance;
          nearest = motif->id;
        }
    }
  return nearest;
}

gboolean
hw_bench_may_change_marks (HwBench *bench, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  const HwHooping *of = get_hooping (bench, hooping);
  const HwPin *pin;
  const char *motif;

  if (of == NULL || of->hold == HW_PLACE_FROZEN)
    return FALSE;
  motif = motif_near (bench, hooping, of->centre);
  pin = motif != NULL ? pin_with_marks (bench, motif) : NULL;
  return motif != NULL && (pin == NULL || pin->work == NULL || pin->work->n_readings == 0);
}

gboolean
hw_bench_is_mark_held (HwBench *bench, HwPoint at)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  GPtrArray *held = hw_scene_get_held_marks (bench->scene);

  for (guint i = 0; i < held->len; i++)
    if (is_at (((const HwHeldMark *)g_ptr_array_index (held, i))->at, at))
      return TRUE;
  return FALSE;
}

gboolean
hw_bench_is_mark_of_pin (HwBench *bench, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  const HwHooping *of = get_hooping (bench, hooping);
  const char *motif = of != NULL ? motif_near (bench, hooping, of->centre) : NULL;

  return motif != NULL && pin_with_marks (bench, motif) != NULL;
}

/* The held marks, to change. Returns: (transfer full) */
static GPtrArray *
copy_held (HwBench *bench)
{
  GPtrArray *held = hw_scene_get_held_marks (bench->scene);
  GPtrArray *copy = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_held_mark_unref);

  for (guint i = 0; i < held->len; i++)
    g_ptr_array_add (copy, hw_held_mark_ref (g_ptr_array_index (held, i)));
  return copy;
}

static gboolean
is_held_for (const GPtrArray *held, const char *motif, HwPoint at)
{
  for (guint i = 0; i < held->len; i++)
    {
      const HwHeldMark *mark = g_ptr_array_index (held, i);

      if (g_str_equal (mark->motif, motif) && is_at (mark->at, at))
        return TRUE;
    }
  return FALSE;
}

static void
change_held (HwBench *bench, const char *step, GPtrArray *held)
{
  hw_bench_begin_edit (bench, step, FALSE);
  hw_scene_set_held_marks (bench->scene, held);
  hw_bench_end_edit (bench);
}

/* The pin with other marks in its place. */
static void
set_pin_marks (HwBench *bench, const HwPin *pin, const GArray *marks)
{
  GPtrArray *pins = hw_scene_get_pins (bench->scene);
  g_autoptr (GPtrArray) changed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  for (guint i = 0; i < pins->len; i++)
    {
      const HwPin *other = g_ptr_array_index (pins, i);

      if (other == pin)
        {
          HwPin *copy = hw_pin_copy (pin);

          g_free (copy->marks);
          copy->n_marks = marks->len;
          copy->marks = marks->len > 0 ? g_memdup2 (marks->data, marks->len * sizeof (HwMark)) : NULL;
          g_ptr_array_add (changed, copy);
        }
      else
        g_ptr_array_add (changed, hw_pin_ref (other));
    }
  hw_scene_set_pins (bench->scene, changed);
}

static GArray *
copy_pin_marks (const HwPin *pin)
{
  GArray *marks = g_array_new (FALSE, TRUE, sizeof (HwMark));

  g_array_append_vals (marks, pin->marks, pin->n_marks);
  return marks;
}

/* Holds all marks of a hooping where they are. TRUE when some were not held. */
static gboolean
hold_all_of (HwBench *bench, guint hooping, GPtrArray *held)
{
  const HwHooping *of = get_hooping (bench, hooping);
  gboolean any = FALSE;

  if (of->hold == HW_PLACE_FROZEN || hw_bench_is_mark_of_pin (bench, hooping))
    return FALSE;
  for (guint i = 0; i < of->n_marks; i++)
    {
      gboolean known = FALSE;
      const char *motif = motif_near (bench, hooping, of->marks[i].at);

      for (guint m = 0; m < of->n_motifs && !known; m++)
        known = is_held_for (held, hw_snapshot_motif (bench->plan->snapshot, of->motifs[m])->id,
                             of->marks[i].at);
      if (known || motif == NULL)
        continue;
      g_ptr_array_add (held, hw_held_mark_new (motif, of->marks[i].at));
      any = TRUE;
    }
  return any;
}

void
hw_bench_hold_marks_of (HwBench *bench, guint hooping)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (hw_bench_is_editing (bench));

  g_autoptr (GPtrArray) held = copy_held (bench);

  if (get_hooping (bench, hooping) != NULL && hold_all_of (bench, hooping, held))
    hw_scene_set_held_marks (bench->scene, held);
}

void
hw_bench_hold_all_marks (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) held = copy_held (bench);
  gboolean any = FALSE;

  for (guint k = 0; bench->plan != NULL && k < bench->plan->n_hoopings; k++)
    any |= hold_all_of (bench, k, held);
  if (any)
    /* Translators: a step of the history */
    change_held (bench, _ ("hold the marks where they are"), held);
}

void
hw_bench_let_go_all_marks (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) none = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_held_mark_unref);

  if (hw_scene_get_held_marks (bench->scene)->len > 0)
    /* Translators: a step of the history */
    change_held (bench, _ ("let all marks go"), none);
}

void
hw_bench_hold_mark (HwBench *bench, guint hooping, guint mark)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwMark *what = get_mark (bench, hooping, mark);
  const char *motif = what != NULL ? motif_near (bench, hooping, what->at) : NULL;

  if (motif == NULL || !hw_bench_may_change_marks (bench, hooping) || pin_with_marks (bench, motif) != NULL)
    return;
  g_autoptr (GPtrArray) held = copy_held (bench);
  /* Translators: a step of the history */
  g_autofree char *step = g_strdup_printf (_ ("hold mark %s"), what->letter);

  if (is_held_for (held, motif, what->at))
    return;
  g_ptr_array_add (held, hw_held_mark_new (motif, what->at));
  change_held (bench, step, held);
}

/* Without those at the place. TRUE when there were any. */
static gboolean
drop_held (GPtrArray *held, HwPoint at)
{
  guint before = held->len;

  for (guint i = held->len; i-- > 0;)
    if (is_at (((const HwHeldMark *)g_ptr_array_index (held, i))->at, at))
      g_ptr_array_remove_index (held, i);
  return held->len < before;
}

void
hw_bench_let_go_mark_at (HwBench *bench, HwPoint at)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  g_autoptr (GPtrArray) held = copy_held (bench);

  if (drop_held (held, at))
    /* Translators: a step of the history */
    change_held (bench, _ ("let a mark go"), held);
}

void
hw_bench_take_mark_away (HwBench *bench, guint hooping, guint mark)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwMark *what = get_mark (bench, hooping, mark);
  const char *motif = what != NULL ? motif_near (bench, hooping, what->at) : NULL;
  const HwPin *pin = motif != NULL ? pin_with_marks (bench, motif) : NULL;

  if (motif == NULL || !hw_bench_may_change_marks (bench, hooping))
    return;
  /* Translators: a step of the history */
  g_autofree char *step = g_strdup_printf (_ ("take mark %s away"), what->letter);

  if (pin == NULL)
    {
      g_autoptr (GPtrArray) held = copy_held (bench);

      if (drop_held (held, what->at))
        change_held (bench, step, held);
      return;
    }
  g_autoptr (GArray) marks = copy_pin_marks (pin);

  for (guint i = marks->len; i-- > 0;)
    if (marks->len > 1 && is_at (g_array_index (marks, HwMark, i).at, what->at))
      g_array_remove_index (marks, i);
  if (marks->len == pin->n_marks)
    return;
  hw_bench_begin_edit (bench, step, FALSE);
  set_pin_marks (bench, pin, marks);
  hw_bench_end_edit (bench);
}

void
hw_bench_put_mark (HwBench *bench, const char *motif, const HwPoint *from, HwPoint to)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (motif != NULL);
  g_return_if_fail (hw_bench_is_editing (bench));

  const HwPin *pin = pin_with_marks (bench, motif);
  gboolean moved = FALSE;

  if (hw_scene_find_motif (bench->scene, motif) == NULL)
    return;
  if (pin != NULL)
    {
      g_autoptr (GArray) marks = copy_pin_marks (pin);

      for (guint i = 0; from != NULL && i < marks->len; i++)
        if (is_at (g_array_index (marks, HwMark, i).at, *from))
          g_array_index (marks, HwMark, i).at = to;
      set_pin_marks (bench, pin, marks);
      return;
    }
  g_autoptr (GPtrArray) held = copy_held (bench);

  for (guint i = 0; from != NULL && i < held->len; i++)
    {
      HwHeldMark *mark = g_ptr_array_index (held, i);

      if (!is_at (mark->at, *from))
        continue;
      held->pdata[i] = hw_held_mark_new (mark->motif, to);
      moved |= g_str_equal (mark->motif, motif);
      hw_held_mark_unref (mark);
    }
  if (!moved)
    g_ptr_array_add (held, hw_held_mark_new (motif, to));
  hw_scene_set_held_marks (bench->scene, held);
}

void
hw_bench_move_mark (HwBench *bench, guint hooping, guint mark, HwPoint to)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  const HwMark *what = get_mark (bench, hooping, mark);
  const char *motif = what != NULL ? hw_bench_motif_of_mark (bench, hooping, what->at) : NULL;

  if (motif == NULL || !hw_bench_may_change_marks (bench, hooping))
    return;
  g_autofree char *id = g_strdup (motif);
  /* Translators: a step of the history */
  g_autofree char *step = g_strdup_printf (_ ("move mark %s"), what->letter);
  HwPoint from = what->at;

  hw_bench_begin_edit (bench, step, FALSE);
  hw_bench_hold_marks_of (bench, hooping);
  hw_bench_put_mark (bench, id, &from, to);
  hw_bench_end_edit (bench);
}

const char *
hw_bench_motif_of_mark (HwBench *bench, guint hooping, HwPoint at)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  const HwHooping *of = get_hooping (bench, hooping);
  GPtrArray *held = hw_scene_get_held_marks (bench->scene);

  for (guint i = 0; of != NULL && i < held->len; i++)
    {
      const HwHeldMark *mark = g_ptr_array_index (held, i);

      if (!is_at (mark->at, at))
        continue;
      for (guint m = 0; m < of->n_motifs; m++)
        if (g_str_equal (hw_snapshot_motif (bench->plan->snapshot, of->motifs[m])->id, mark->motif)
            && hw_scene_find_motif (bench->scene, mark->motif) != NULL)
          return mark->motif;
    }
  return motif_near (bench, hooping, at);
}

/* The letter after those of the plan: "A" ... "Z", then "AA" and so on. */
static void
next_letter (const HwPlan *plan, char letter[4])
{
  for (guint index = 0; index < 26 * 27; index++)
    {
      gboolean taken = FALSE;

      if (index < 26)
        g_snprintf (letter, 4, "%c", (char)('A' + index));
      else
        g_snprintf (letter, 4, "%c%c", (char)('A' + index / 26 - 1), (char)('A' + index % 26));
      for (guint k = 0; k < plan->n_hoopings && !taken; k++)
        for (guint i = 0; i < plan->hoopings[k].n_marks && !taken; i++)
          taken = g_str_equal (plan->hoopings[k].marks[i].letter, letter);
      if (!taken)
        return;
    }
}

gboolean
hw_bench_one_more_mark (HwBench *bench, guint hooping)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  const char *motif;
  const HwPin *pin;
  HwPoint at;

  if (get_hooping (bench, hooping) == NULL || !hw_bench_may_change_marks (bench, hooping)
      || !hw_marks_one_more (bench->plan, hooping, HW_MARKS_SIGMA, &at)
      || (motif = motif_near (bench, hooping, at)) == NULL)
    return FALSE;
  /* Translators: a step of the history */
  g_autofree char *step = g_strdup_printf (_ ("one more mark for hooping %u"), hooping + 1);
  g_autoptr (GPtrArray) held = copy_held (bench);

  pin = pin_with_marks (bench, motif);
  hw_bench_begin_edit (bench, step, FALSE);
  if (pin != NULL)
    {
      g_autoptr (GArray) marks = copy_pin_marks (pin);
      HwMark mark = { .at = at };

      next_letter (bench->plan, mark.letter);
      g_array_append_val (marks, mark);
      set_pin_marks (bench, pin, marks);
    }
  else
    {
      /* Those the plan chose are held too, or it would choose fewer. */
      hold_all_of (bench, hooping, held);
      g_ptr_array_add (held, hw_held_mark_new (motif, at));
      hw_scene_set_held_marks (bench->scene, held);
    }
  hw_bench_end_edit (bench);
  return TRUE;
}
