/* The marks of each hooping. Those drawn for a hooping in the machine or stitched stay; marks the person holds come first; the rest is laid out
 * as well as can be (marks-layout.c). A third or fourth is asked for only where the person wishes it, or where two leave more error
 * than the width of the line they are drawn with and it helps. */
#include "marks-private.h"

#include <math.h>

#include "../geometry/language.h"
#include "../registration/mark-error.h"

/* "A" ... "Z", "AA", "AB" ... */
static void
write_letter (guint index, char letter[4])
{
  char reversed[4];
  guint n = 0, k = 0;

  for (guint rest = index + 1; rest > 0 && n < 3; rest = (rest - 1) / 26)
    reversed[n++] = 'A' + (rest - 1) % 26;
  while (n > 0)
    letter[k++] = reversed[--n];
  letter[k] = '\0';
}

/* From the top of the hoop down, as one reads. */
static int
compare_marks (gconstpointer pa, gconstpointer pb, gpointer data)
{
  const HwMark *a = pa, *b = pb;
  const HwHooping *hooping = data;
  HwPoint at_a = hw_point_turn (a->at, -hooping->angle), at_b = hw_point_turn (b->at, -hooping->angle);

  if (fabs (at_a.y - at_b.y) > 1e-6)
    return at_a.y < at_b.y ? -1 : 1;
  return (at_a.x > at_b.x) - (at_a.x < at_b.x);
}

/* Choosing for a whole plan. */
typedef struct
{
  HwPlan *plan;
  HwOutline *const *placed;
  double sigma;
  HwUnit unit;
  GHashTable *taken; /* letters of marks that keep theirs */
  guint next_letter;
} Choosing;

/* The letter of the mark that another hooping has at this place, or the next one. */
static void
give_letter (Choosing *choosing, guint index, HwMark *mark)
{
  for (guint k = 0; k < choosing->plan->n_hoopings; k++)
    for (guint i = 0; k != index && i < choosing->plan->hoopings[k].n_marks; i++)
      {
        const HwMark *other = &choosing->plan->hoopings[k].marks[i];

        if (hw_point_distance (other->at, mark->at) < HW_SAME_MARK)
          {
            *mark = *other;
            return;
          }
      }
  do
    write_letter (choosing->next_letter++, mark->letter);
  while (g_hash_table_contains (choosing->taken, mark->letter));
}

static void
set_marks (Choosing *choosing, guint index, const HwMarkLayout *layout)
{
  HwHooping *hooping = &choosing->plan->hoopings[index];
  HwMark *marks = g_new0 (HwMark, MAX (layout->n, 1));

  for (guint i = 0; i < layout->n; i++)
    marks[i].at = layout->marks[i];
  if (layout->n > 1)
    g_qsort_with_data (marks, (gint)layout->n, sizeof (HwMark), compare_marks, hooping);
  for (guint i = 0; i < layout->n; i++)
    give_letter (choosing, index, &marks[i]);
  hooping->marks = marks;
  hooping->n_marks = layout->n;
}

static void
add_too_few_problem (HwPlan *plan, guint index, HwUnit unit)
{
  g_autofree char *gap = hw_length_text (HW_MARKS_STITCH_GAP, unit);
  HwProblem *problem = hw_plan_add_problem (
      plan, HW_PROBLEM_MARKS, -1, FALSE,
      /* Translators: %u is the number of a hooping, %s a length. */
      g_strdup_printf (
          _ ("Hooping %u has no place for two marks: what its field holds of the cloth lies within %s of "
             "stitching done before. Move a motif a little, or set this hooping by its centre cross "
             "and a template."),
          index + 1, gap));

  problem->hooping = (int)index;
  problem->where = plan->hoopings[index].centre;
}

/* The marks of the other hoopings that could serve in the field too, once each, those of the hooping before first. */
static GArray *
find_drawn (const HwPlan *plan, guint index, const HwMarkField *field)
{
  GArray *drawn = g_array_new (FALSE, FALSE, sizeof (HwPoint));

  for (guint step = 1; step < plan->n_hoopings; step++)
    {
      guint k = (index + plan->n_hoopings - step) % plan->n_hoopings;

      for (guint i = 0; i < plan->hoopings[k].n_marks; i++)
        {
          HwPoint at = plan->hoopings[k].marks[i].at;
          gboolean is_new = TRUE;

          for (guint j = 0; j < drawn->len && is_new; j++)
            is_new = hw_point_distance (g_array_index (drawn, HwPoint, j), at) >= HW_SAME_MARK;
          if (is_new && hw_mark_field_allows_drawn (field, at))
            g_array_append_val (drawn, at);
        }
    }
  return drawn;
}

static void
choose_for_hooping (Choosing *choosing, guint index)
{
  HwPlan *plan = choosing->plan;
  g_auto (HwMarkField) field = { 0 };
  g_autoptr (GArray) given = NULL, drawn = NULL;
  HwMarkLayout layout;
  HwMarkTask task = { .field = &field, .sigma = choosing->sigma, .most = HW_MOST_MARKS };

  hw_mark_field_init (&field, plan, index, choosing->placed);
  given = hw_marks_held_for (plan, index, choosing->placed, choosing->unit);
  drawn = find_drawn (plan, index, &field);
  task.given = (const HwPoint *)given->data;
  task.n_given = given->len;
  task.drawn = (const HwPoint *)drawn->data;
  task.n_drawn = drawn->len;
  task.least = CLAMP (plan->snapshot->wishes.marks, 2, HW_MOST_MARKS);
  hw_mark_task_aim (&task, plan, index, choosing->placed);
  hw_mark_layout_choose (&task, &layout);
  set_marks (choosing, index, &layout);
  if (layout.n < 2 && plan->hoopings[index].hold != HW_PLACE_FROZEN)
    add_too_few_problem (plan, index, choosing->unit);
}

static void
predict (const HwPlan *plan, HwHooping *hooping, double sigma)
{
  g_autofree HwPoint *marks = g_new (HwPoint, hooping->n_marks);

  for (guint i = 0; i < hooping->n_marks; i++)
    marks[i] = hooping->marks[i].at;
  hooping->predicted_error = g_new (double, MAX (hooping->n_motifs, 1));
  for (guint i = 0; i < hooping->n_motifs; i++)
    hooping->predicted_error[i]
        = hw_mark_error (marks, hooping->n_marks, sigma,
                         hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->placement.position);
}

/* Marks that were drawn for a hooping come first: they keep their letters, and others may share them. */
static void
take_pinned (Choosing *choosing)
{
  HwPlan *plan = choosing->plan;

  for (guint k = 0; k < plan->n_hoopings; k++)
    {
      const HwPin *pin = hw_marks_pin_of (plan, k);

      if (pin == NULL)
        continue;
      plan->hoopings[k].marks = g_memdup2 (pin->marks, pin->n_marks * sizeof (HwMark));
      plan->hoopings[k].n_marks = pin->n_marks;
      for (guint i = 0; i < pin->n_marks; i++)
        g_hash_table_add (choosing->taken, plan->hoopings[k].marks[i].letter);
    }
}

/* The outlines of all motifs as they lie on the cloth. */
static GPtrArray *
place_all (const HwSnapshot *snapshot)
{
  GPtrArray *placed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);

      g_ptr_array_add (placed, hw_outline_place (motif->outline, &motif->placement));
    }
  return placed;
}

void
hw_marks_choose (HwPlan *plan, double sigma, HwUnit unit)
{
  g_autoptr (GPtrArray) placed = NULL;
  g_autoptr (GHashTable) taken = g_hash_table_new (g_str_hash, g_str_equal);
  Choosing choosing = { .plan = plan, .sigma = sigma, .unit = unit, .taken = taken };

  g_return_if_fail (plan != NULL);

  placed = place_all (plan->snapshot);
  choosing.placed = (HwOutline *const *)placed->pdata;
  for (guint k = 0; k < plan->n_hoopings; k++)
    {
      g_clear_pointer (&plan->hoopings[k].marks, g_free);
      plan->hoopings[k].n_marks = 0;
      g_clear_pointer (&plan->hoopings[k].predicted_error, g_free);
    }
  take_pinned (&choosing);
  for (guint k = 0; k < plan->n_hoopings; k++)
    {
      if (plan->hoopings[k].marks == NULL)
        choose_for_hooping (&choosing, k);
      predict (plan, &plan->hoopings[k], sigma);
    }
}

char *
hw_marks_why_not (const HwPlan *plan, guint hooping, HwPoint at, HwUnit unit)
{
  g_autoptr (GPtrArray) placed = NULL;

  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, NULL);

  placed = place_all (plan->snapshot);
  return hw_mark_trouble (plan, hooping, (HwOutline *const *)placed->pdata, at, unit);
}

gboolean
hw_marks_one_more (const HwPlan *plan, guint index, double sigma, HwPoint *at)
{
  g_autoptr (GPtrArray) placed = NULL;
  g_auto (HwMarkField) field = { 0 };
  HwMarkLayout layout = { .n = 0 };
  HwMarkTask task = { .field = &field, .sigma = sigma };
  const HwHooping *hooping;

  g_return_val_if_fail (plan != NULL && index < plan->n_hoopings && at != NULL, FALSE);

  hooping = &plan->hoopings[index];
  placed = place_all (plan->snapshot);
  hw_mark_field_init (&field, plan, index, (HwOutline *const *)placed->pdata);
  hw_mark_task_aim (&task, plan, index, (HwOutline *const *)placed->pdata);
  for (guint i = 0; i < hooping->n_marks && layout.n < HW_MARK_TARGETS; i++)
    layout.marks[layout.n++] = hooping->marks[i].at;
  if (!hw_mark_layout_add_one (&task, &layout))
    return FALSE;
  *at = layout.marks[layout.n - 1];
  return TRUE;
}
