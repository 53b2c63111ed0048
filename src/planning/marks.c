/* The marks of each hooping. Two marks far apart, with the motifs between them, keep the predicted error small; a third or fourth is
 * asked for only where two leave more error than the width of the line they are drawn with, and where it helps. A mark of the hooping
 * before is used again when that costs next to nothing, because every mark not drawn is time saved. Layouts are
 * compared by the largest error over the hooping's stitching, which is at its outermost points; what is told of each motif is the error at
 * its centre. */
#include "marks-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../registration/mark-error.h"

#define MOST_MARKS 4
/* mm: a wash-away pen draws a line about this wide (common practice, no source); a smaller error cannot be seen. */
#define GOOD_ENOUGH 0.5
/* Another mark must take off at least this part of the error. */
#define WORTH_A_MARK 0.10
/* What two marks of the hooping before may cost more, and what marks at the field's very corners may. */
#define SHARED_WORTH 0.02
#define SPREAD_WORTH 0.02
/* Marks clear of the hooping's own motifs may cost this much more. */
#define FREE_COST 1.3

/* Some of the places, as indices, with the largest error they leave and that error less what speaks for the layout otherwise. */
typedef struct
{
  guint places[MOST_MARKS];
  guint n;
  double error;
  double cost;
} Layout;

/* What a layout is chosen for. */
typedef struct
{
  const HwMarkPlace *places;
  guint n_places;
  gboolean only_free;
  const HwPoint *targets;
  guint n_targets;
  HwPoint centre;
  double apart; /* mm between marks, at least */
  double reach; /* mm from the field's middle to its corners */
  double sigma;
} Wanted;

static gboolean
is_usable (const Wanted *wanted, const Layout *layout, guint place)
{
  HwPoint at = wanted->places[place].at;

  if (wanted->only_free && !wanted->places[place].free)
    return FALSE;
  /* Nor on top of the centre cross. */
  if (hw_point_distance (at, wanted->centre) < wanted->apart / 2)
    return FALSE;
  for (guint i = 0; i < layout->n; i++)
    if (hw_point_distance (at, wanted->places[layout->places[i]].at) < wanted->apart)
      return FALSE;
  return TRUE;
}

static void
measure (const Wanted *wanted, Layout *layout)
{
  HwPoint marks[MOST_MARKS] = { { 0, 0 } };
  guint n_shared = 0;
  double spread = 0;

  for (guint i = 0; i < layout->n; i++)
    {
      marks[i] = wanted->places[layout->places[i]].at;
      n_shared += wanted->places[layout->places[i]].mark != NULL;
      spread = MAX (spread, hw_point_distance (marks[0], marks[i]));
    }
  layout->error = hw_mark_error_worst (marks, layout->n, wanted->sigma, wanted->targets, wanted->n_targets);
  layout->cost = layout->error
                 * (1 - SHARED_WORTH * MIN (n_shared, 2) / 2 - SPREAD_WORTH * spread / (2 * wanted->reach));
}

/* TRUE when a is to be taken rather than b, which may be empty. */
static gboolean
is_better (const Layout *a, const Layout *b)
{
  return b->n == 0 || a->cost < b->cost - 1e-12;
}

/* The layout with one more place that is best. */
static Layout
with_one_more (const Wanted *wanted, const Layout *layout)
{
  Layout best = { .n = 0 };

  for (guint p = 0; p < wanted->n_places; p++)
    if (is_usable (wanted, layout, p))
      {
        Layout more = *layout;

        more.places[more.n++] = p;
        measure (wanted, &more);
        if (is_better (&more, &best))
          best = more;
      }
  return best;
}

/* The best two places. */
static Layout
best_pair (const Wanted *wanted)
{
  Layout best = { .n = 0 };

  for (guint p = 0; p < wanted->n_places; p++)
    {
      Layout one = { .n = 0 }, pair;

      if (!is_usable (wanted, &one, p))
        continue;
      one.places[one.n++] = p;
      for (guint q = p + 1; q < wanted->n_places; q++)
        if (is_usable (wanted, &one, q))
          {
            pair = one;
            pair.places[pair.n++] = q;
            measure (wanted, &pair);
            if (is_better (&pair, &best))
              best = pair;
          }
    }
  return best;
}

/* Each place in turn exchanged for a better one. */
static Layout
exchanged (const Wanted *wanted, Layout layout)
{
  for (guint i = 0; i < layout.n; i++)
    {
      Layout less = layout, again;

      less.places[i] = less.places[--less.n];
      again = with_one_more (wanted, &less);
      if (again.n == layout.n && is_better (&again, &layout))
        layout = again;
    }
  return layout;
}

static Layout
best_layout (const Wanted *wanted)
{
  Layout best = best_pair (wanted);

  while (best.n >= 2 && best.n < MOST_MARKS && best.error > GOOD_ENOUGH)
    {
      Layout more = with_one_more (wanted, &best);

      if (more.n == 0)
        break;
      more = exchanged (wanted, more);
      if (more.error > best.error * (1 - WORTH_A_MARK))
        break;
      best = more;
    }
  return best;
}

/* Of the places clear of the hooping's own motifs when these are good enough, else of all. */
static Layout
choose_layout (Wanted *wanted)
{
  Layout free, any;

  wanted->only_free = TRUE;
  free = best_layout (wanted);
  if (free.n >= 2 && free.error <= GOOD_ENOUGH)
    return free;
  wanted->only_free = FALSE;
  any = best_layout (wanted);
  return free.n >= 2 && free.error <= any.error * FREE_COST ? free : any;
}

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

static void
take_layout (HwHooping *hooping, const Wanted *wanted, const Layout *layout, guint *next_letter)
{
  hooping->marks = g_new0 (HwMark, MAX (layout->n, 1));
  hooping->n_marks = layout->n;
  for (guint i = 0; i < layout->n; i++)
    {
      const HwMarkPlace *place = &wanted->places[layout->places[i]];

      if (place->mark != NULL)
        hooping->marks[i] = *place->mark;
      else
        hooping->marks[i].at = place->at;
    }
  if (layout->n > 1)
    g_qsort_with_data (hooping->marks, layout->n, sizeof (HwMark), compare_marks, hooping);
  for (guint i = 0; i < layout->n; i++)
    if (hooping->marks[i].letter[0] == '\0')
      write_letter ((*next_letter)++, hooping->marks[i].letter);
}

static void
add_marks_problem (HwPlan *plan, guint index, HwUnit unit)
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

  problem->hooping = index;
  problem->where = plan->hoopings[index].centre;
}

#define N_TARGETS 8

/* The outermost points of the hooping's stitching in eight directions: the error grows with the distance from the marks' centroid, so
 * these stand for all the rest. */
static void
find_targets (const HwHooping *hooping, HwOutline *const *placed, HwPoint targets[N_TARGETS])
{
  for (guint k = 0; k < N_TARGETS; k++)
    {
      HwPoint direction = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * k / N_TARGETS);
      double farthest = -INFINITY;

      targets[k] = hooping->centre;
      for (guint i = 0; i < hooping->n_motifs; i++)
        {
          const HwOutline *outline = placed[hooping->motifs[i]];

          for (guint j = 0; j < outline->n_hull; j++)
            {
              double reach = outline->hull[j].x * direction.x + outline->hull[j].y * direction.y;

              if (reach > farthest)
                {
                  farthest = reach;
                  targets[k] = outline->hull[j];
                }
            }
        }
    }
}

static void
choose_for_hooping (
    HwPlan *plan, guint index, HwOutline *const *placed, double sigma, HwUnit unit, guint *next_letter)
{
  HwHooping *hooping = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  g_autoptr (GArray) places = hw_mark_places (plan, index, placed);
  HwPoint targets[N_TARGETS];
  g_autofree HwPoint *marks = NULL;
  Wanted wanted = { .places = (const HwMarkPlace *)places->data,
                    .n_places = places->len,
                    .targets = targets,
                    .n_targets = N_TARGETS,
                    .centre = hooping->centre,
                    .apart = MIN (20, hypot (hoop->field_width, hoop->field_height) / 5),
                    .reach = hypot (hoop->field_width, hoop->field_height) / 2,
                    .sigma = sigma };
  Layout layout;

  find_targets (hooping, placed, targets);
  layout = choose_layout (&wanted);
  take_layout (hooping, &wanted, &layout, next_letter);
  if (layout.n < 2)
    add_marks_problem (plan, index, unit);

  marks = g_new (HwPoint, hooping->n_marks + 1);
  for (guint i = 0; i < hooping->n_marks; i++)
    marks[i] = hooping->marks[i].at;
  hooping->predicted_error = g_new (double, MAX (hooping->n_motifs, 1));
  for (guint i = 0; i < hooping->n_motifs; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (plan->snapshot, hooping->motifs[i]);

      hooping->predicted_error[i] = hw_mark_error (marks, hooping->n_marks, sigma, motif->placement.position);
    }
}

void
hw_marks_choose (HwPlan *plan, double sigma, HwUnit unit)
{
  g_autoptr (GPtrArray) placed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  guint next_letter = 0;

  g_return_if_fail (plan != NULL);

  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (plan->snapshot, i);

      g_ptr_array_add (placed, hw_outline_place (motif->outline, &motif->placement));
    }
  for (guint k = 0; k < plan->n_hoopings; k++)
    {
      g_clear_pointer (&plan->hoopings[k].marks, g_free);
      g_clear_pointer (&plan->hoopings[k].predicted_error, g_free);
      choose_for_hooping (plan, k, (HwOutline *const *)placed->pdata, sigma, unit, &next_letter);
    }
}
