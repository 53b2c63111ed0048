/* Where a hooping's marks are best. With N marks the squared error to be expected is 2 sigma^2 / N (1 + d^2 / (2 f^2)), d from the marks' centroid to the
 * farthest motif, f^2 the marks' mean squared distance from it (mark-error.h): the marks should lie far apart with the motifs between
 * them. The search looks at every layout of the places to begin from (of a well spread few of them where three or four marks are wanted), then lets
 * the best ones, as far as they differ, slide to where no small move makes them better. What is told of a motif is the error at its centre, so
 * that is what counts; between layouts that are as good as equal there, the outermost stitching, sharing marks with other hoopings
 * and keeping clear of the templates decide. */
#include "marks-private.h"

#include <math.h>

#include "../registration/mark-error.h"

/* mm: a wash-away pen draws a line about this wide (common practice, no source); a smaller error cannot be seen. */
#define GOOD_ENOUGH 0.5
/* Another mark must take off at least this part of the error. */
#define WORTH_A_MARK 0.10
/* What decides between layouts that are as good as equal, as parts of the squared error: all together cost 2 % of the error at most. */
#define REACH_WORTH 0.015
#define SHARED_WORTH 0.015
#define FREE_WORTH 0.010
#define N_STARTS 4
#define N_SPREAD 16
#define UNLIKE 15.0  /* mm: layouts that differ by more are different starts */
#define FIRST_STEP 8 /* mm */
#define ROUGH_STEP 2 /* mm: as far as all starts slide */
#define LAST_STEP 0.25
#define MOST_ROUNDS 40
#define WORTH_A_STEP 1e-4 /* part of the squared error */
#define N_WAYS 8
#define MOST_DRAWN 8

typedef struct
{
  HwPoint marks[HW_MARK_TARGETS];
  guint n;
  double score; /* squared error, less what speaks for the layout otherwise */
} Layout;

typedef struct
{
  const HwMarkTask *task;
  const HwPoint *places;
  gint8 *free; /* of each place: -1 not known yet */
  guint n_places;
  HwPoint fixed[HW_MARK_TARGETS]; /* of the layouts looked at now */
  guint n_fixed, n_fixed_free;
  guint n; /* marks in all */
  Layout starts[N_STARTS];
  guint n_starts;
} Search;

static double
farthest2 (const HwPoint *points, guint n, HwPoint from)
{
  double most = 0;

  for (guint i = 0; i < n; i++)
    {
      double dx = points[i].x - from.x, dy = points[i].y - from.y;

      most = MAX (most, dx * dx + dy * dy);
    }
  return most;
}

/* The squared error, mostly at the centres; INFINITY as soon as it is known to pass the limit. */
static double
squared_error (const HwMarkTask *task, const HwPoint *marks, guint n, double limit)
{
  HwPoint mean = { 0, 0 };
  double f2 = 0, each = 2 * task->sigma * task->sigma / n, error;

  for (guint i = 0; i < n; i++)
    {
      mean.x += marks[i].x / n;
      mean.y += marks[i].y / n;
    }
  for (guint i = 0; i < n; i++)
    f2 += (marks[i].x - mean.x) * (marks[i].x - mean.x) + (marks[i].y - mean.y) * (marks[i].y - mean.y);
  f2 /= n;
  if (f2 <= 0)
    return INFINITY;
  error = each * (1 + REACH_WORTH + farthest2 (task->centres, task->n_centres, mean) / (2 * f2));
  if (error >= limit)
    return INFINITY;
  return error + each * REACH_WORTH * farthest2 (task->reach, task->n_reach, mean) / (2 * f2);
}

static double
less_for_free (double error, guint n_free, guint n)
{
  return error * (1 - FREE_WORTH * n_free / n);
}

static gboolean
are_apart (const HwMarkTask *task, const HwPoint *marks, guint n, HwPoint p)
{
  for (guint i = 0; i < n; i++)
    {
      double dx = marks[i].x - p.x, dy = marks[i].y - p.y;

      if (dx * dx + dy * dy < task->field->apart * task->field->apart)
        return FALSE;
    }
  return TRUE;
}

static gboolean
place_is_free (Search *search, guint place)
{
  if (search->free[place] < 0)
    search->free[place] = hw_mark_field_is_free (search->task->field, search->places[place]);
  return search->free[place];
}

static gboolean
are_alike (const Layout *a, const Layout *b)
{
  for (guint i = 0; i < a->n; i++)
    {
      gboolean found = FALSE;

      for (guint j = 0; j < b->n && !found; j++)
        found = hw_point_distance (a->marks[i], b->marks[j]) < UNLIKE;
      if (!found)
        return FALSE;
    }
  return TRUE;
}

/* What a layout must score below to become a start. */
static double
starts_limit (const Search *search)
{
  return search->n_starts < N_STARTS ? INFINITY : search->starts[N_STARTS - 1].score;
}

/* Puts the layout among the starts, best first, instead of those like it. */
static void
add_start (Search *search, const Layout *layout)
{
  guint at, kept = 0;

  for (guint i = 0; i < search->n_starts; i++)
    if (search->starts[i].score <= layout->score && are_alike (&search->starts[i], layout))
      return;
  for (guint i = 0; i < search->n_starts; i++)
    if (search->starts[i].score <= layout->score || !are_alike (&search->starts[i], layout))
      search->starts[kept++] = search->starts[i];
  search->n_starts = MIN (kept, N_STARTS - 1);
  for (at = search->n_starts++; at > 0 && search->starts[at - 1].score > layout->score; at--)
    search->starts[at] = search->starts[at - 1];
  search->starts[at] = *layout;
}

/* Looks at every layout of the marks so far and more from the list of places. used: how many of these are clear of the templates. */
static void
look_at_all (Search *search, Layout *layout, const guint *list, guint n_list, guint first, guint *used)
{
  for (guint k = first; k < n_list; k++)
    {
      guint place = list[k];

      if (!are_apart (search->task, layout->marks, layout->n, search->places[place]))
        continue;
      layout->marks[layout->n++] = search->places[place];
      used[layout->n] = place;
      if (layout->n < search->n)
        look_at_all (search, layout, list, n_list, k + 1, used);
      else
        {
          double limit = starts_limit (search) / (1 - FREE_WORTH);
          double error = squared_error (search->task, layout->marks, layout->n, limit);

          if (error < limit)
            {
              guint n_free = search->n_fixed_free;

              for (guint i = search->n_fixed + 1; i <= layout->n; i++)
                n_free += place_is_free (search, used[i]);
              layout->score = less_for_free (error, n_free, layout->n);
              if (layout->score < starts_limit (search))
                add_start (search, layout);
            }
        }
      layout->n--;
    }
}

/* A few places far from each other: the farthest out first, then always the one farthest from those taken. */
static guint
well_spread (const Search *search, guint list[N_SPREAD])
{
  g_autofree double *distance = g_new (double, search->n_places);
  guint n = 0;

  for (guint i = 0; i < search->n_places; i++)
    distance[i] = 1000 + hw_point_distance (search->places[i], search->task->field->centre);
  while (n < MIN (N_SPREAD, search->n_places))
    {
      guint best = 0;

      for (guint i = 1; i < search->n_places; i++)
        if (distance[i] > distance[best])
          best = i;
      list[n++] = best;
      for (guint i = 0; i < search->n_places; i++)
        distance[i] = MIN (distance[i], hw_point_distance (search->places[i], search->places[best]));
    }
  return n;
}

static void
find_starts (Search *search)
{
  Layout layout = { .n = search->n_fixed };
  guint used[HW_MARK_TARGETS + 1], spread[N_SPREAD], n = search->n_places;
  g_autofree guint *all = g_new (guint, search->n_places + 1);
  const guint *list = all;

  search->n_starts = 0;
  for (guint i = 0; i < search->n_fixed; i++)
    layout.marks[i] = search->fixed[i];
  for (guint i = 0; i < n; i++)
    all[i] = i;
  if (search->n - search->n_fixed > 2)
    {
      n = well_spread (search, spread);
      list = spread;
    }
  look_at_all (search, &layout, list, n, 0, used);
}

/* Takes the changed layout when it is better and allowed. Marks moved out of the field are brought to its rim. */
static gboolean
take_if_better (const Search *search, Layout *layout, HwPoint *marks)
{
  const HwMarkTask *task = search->task;
  guint n_free = search->n_fixed_free;
  double limit = layout->score * (1 - WORTH_A_STEP) / (1 - FREE_WORTH), error;

  for (guint i = search->n_fixed; i < layout->n; i++)
    marks[i] = hw_mark_field_nearest (task->field, marks[i]);
  error = squared_error (task, marks, layout->n, limit);
  if (error >= limit)
    return FALSE;
  for (guint i = search->n_fixed; i < layout->n; i++)
    {
      if (!are_apart (task, marks, i, marks[i]))
        return FALSE;
      if (marks[i].x != layout->marks[i].x || marks[i].y != layout->marks[i].y)
        if (!hw_mark_field_allows (task->field, marks[i]))
          return FALSE;
    }
  for (guint i = search->n_fixed; i < layout->n; i++)
    n_free += hw_mark_field_is_free (task->field, marks[i]);
  error = less_for_free (error, n_free, layout->n);
  if (error >= layout->score * (1 - WORTH_A_STEP))
    return FALSE;
  for (guint i = search->n_fixed; i < layout->n; i++)
    layout->marks[i] = marks[i];
  layout->score = error;
  return TRUE;
}

/* One mark after the other a step in every direction. */
static gboolean
move_each (const Search *search, Layout *layout, const HwPoint ways[N_WAYS], double step)
{
  gboolean moved = FALSE;

  for (guint i = search->n_fixed; i < layout->n; i++)
    for (guint k = 0; k < N_WAYS; k++)
      {
        HwPoint marks[HW_MARK_TARGETS];

        memcpy (marks, layout->marks, layout->n * sizeof *marks);
        marks[i].x += step * ways[k].x;
        marks[i].y += step * ways[k].y;
        moved |= take_if_better (search, layout, marks);
      }
  return moved;
}

/* All marks that may move together: a step in every direction, nearer and farther, round and back. */
static gboolean
move_all (const Search *search, Layout *layout, const HwPoint ways[N_WAYS], double step)
{
  gboolean moved = FALSE;

  for (guint k = 0; k < N_WAYS + 4; k++)
    {
      HwPoint marks[HW_MARK_TARGETS], mean = { 0, 0 };
      double turn = k < N_WAYS ? 0 : (k == N_WAYS ? step : k == N_WAYS + 1 ? -step : 0);
      double grow = k < N_WAYS + 2 ? 1 : (k == N_WAYS + 2 ? 1 + step / 50 : 1 - step / 50);

      for (guint i = 0; i < layout->n; i++)
        {
          marks[i] = layout->marks[i];
          mean.x += marks[i].x / layout->n;
          mean.y += marks[i].y / layout->n;
        }
      for (guint i = search->n_fixed; i < layout->n; i++)
        {
          HwPoint off = { grow * (marks[i].x - mean.x), grow * (marks[i].y - mean.y) };

          if (k < N_WAYS)
            off = (HwPoint){ off.x + step * ways[k].x, off.y + step * ways[k].y };
          else
            off = hw_point_turn (off, turn);
          marks[i] = (HwPoint){ mean.x + off.x, mean.y + off.y };
        }
      moved |= take_if_better (search, layout, marks);
    }
  return moved;
}

/* Slides the marks until no small move makes the layout better (a pattern search: Hooke and Jeeves 1961, Journal of the ACM 8(2)). */
static void
slide (const Search *search, Layout *layout, double first, double last)
{
  HwPoint ways[N_WAYS];
  guint rounds = 0;

  for (guint k = 0; k < N_WAYS; k++)
    ways[k] = hw_point_turn ((HwPoint){ 1, 0 }, search->task->field->angle + 360.0 * k / N_WAYS);
  for (double step = first; step >= last && rounds < MOST_ROUNDS; rounds++)
    {
      gboolean moved = move_each (search, layout, ways, step);

      if (search->n - search->n_fixed > 1)
        moved |= move_all (search, layout, ways, step);
      if (!moved)
        step /= 2;
    }
}

/* The best layout of n marks with the fixed ones; n_starts is 0 when there is none. Worth sliding only if it may get below the limit. */
static gboolean
solve (Search *search, double limit, Layout *best)
{
  const HwMarkTask *task = search->task;

  best->score = INFINITY;
  search->n_fixed_free = 0;
  for (guint i = 0; i < search->n_fixed; i++)
    search->n_fixed_free += hw_mark_field_is_free (task->field, search->fixed[i]);
  if (search->n_fixed >= search->n)
    {
      best->n = search->n_fixed;
      memcpy (best->marks, search->fixed, search->n_fixed * sizeof (HwPoint));
      best->score = less_for_free (squared_error (task, best->marks, best->n, INFINITY), search->n_fixed_free,
                                   best->n);
      return TRUE;
    }
  find_starts (search);
  if (search->n_starts == 0 || search->starts[0].score > limit)
    return FALSE;
  for (guint i = 0; i < search->n_starts; i++)
    {
      slide (search, &search->starts[i], FIRST_STEP, ROUGH_STEP);
      if (search->starts[i].score < best->score)
        *best = search->starts[i];
    }
  slide (search, best, ROUGH_STEP / 2.0, LAST_STEP);
  return TRUE;
}

/* Fixes the marks given and the other two, unless they are G_MAXUINT. FALSE when they lie too near each other. */
static gboolean
fix (Search *search, guint a, guint b)
{
  const HwMarkTask *task = search->task;
  guint drawn[] = { a, b };

  search->n_fixed = task->n_given;
  if (task->n_given > 0)
    memcpy (search->fixed, task->given, task->n_given * sizeof (HwPoint));
  for (guint i = 0; i < 2; i++)
    if (drawn[i] != G_MAXUINT)
      {
        if (search->n_fixed >= search->n
            || !are_apart (task, search->fixed, search->n_fixed, task->drawn[drawn[i]]))
          return FALSE;
        search->fixed[search->n_fixed++] = task->drawn[drawn[i]];
      }
  return TRUE;
}

/* The best layout of n marks, with one or two drawn already for other hoopings where that costs next to nothing. */
static gboolean
best_of (Search *search, guint n, Layout *best)
{
  const HwMarkTask *task = search->task;
  guint n_drawn = MIN (task->n_drawn, MOST_DRAWN);
  Layout shared;

  search->n = n;
  fix (search, G_MAXUINT, G_MAXUINT);
  if (!solve (search, INFINITY, best))
    return FALSE;
  for (guint a = 0; a < n_drawn; a++)
    for (guint b = a + 1; b <= n_drawn; b++)
      {
        guint second = b < n_drawn ? b : G_MAXUINT;
        double part = 1 - SHARED_WORTH * (second == G_MAXUINT ? 1 : 2) / 2;

        if (!fix (search, a, second) || !solve (search, best->score / part * 1.03, &shared))
          continue;
        shared.score *= part;
        if (shared.score < best->score)
          *best = shared;
      }
  return TRUE;
}

static double
worst_error (const HwMarkTask *task, const Layout *layout)
{
  return hw_mark_error_worst (layout->marks, layout->n, task->sigma, task->reach, task->n_reach);
}

static void
search_open (Search *search, const HwMarkTask *task, GArray *places)
{
  *search = (Search){ .task = task, .places = (const HwPoint *)places->data, .n_places = places->len };
  search->free = g_new (gint8, places->len + 1);
  memset (search->free, -1, places->len + 1);
}

static void
take (HwMarkLayout *to, const Layout *from)
{
  to->n = from->n;
  memcpy (to->marks, from->marks, from->n * sizeof (HwPoint));
}

void
hw_mark_layout_choose (const HwMarkTask *task, HwMarkLayout *layout)
{
  g_autoptr (GArray) places = hw_mark_field_places (task->field);
  Layout best, more;
  Search search;
  guint n = MAX (task->least, task->n_given);
  gboolean found;

  search_open (&search, task, places);
  while (!(found = best_of (&search, n, &best)) && n > MAX (2, task->n_given))
    n--;
  if (!found)
    {
      best.n = task->n_given;
      if (task->n_given > 0)
        memcpy (best.marks, task->given, task->n_given * sizeof (HwPoint));
    }
  while (found && task->n_given < task->least && best.n >= 2 && best.n < task->most
         && worst_error (task, &best) > GOOD_ENOUGH)
    {
      if (!best_of (&search, best.n + 1, &more)
          || worst_error (task, &more) > worst_error (task, &best) * (1 - WORTH_A_MARK))
        break;
      best = more;
    }
  take (layout, &best);
  g_free (search.free);
}

gboolean
hw_mark_layout_add_one (const HwMarkTask *task, HwMarkLayout *layout)
{
  g_autoptr (GArray) places = hw_mark_field_places (task->field);
  Search search;
  Layout best;
  gboolean found;

  if (layout->n + 1 >= HW_MARK_TARGETS)
    return FALSE;
  search_open (&search, task, places);
  search.n = layout->n + 1;
  search.n_fixed = layout->n;
  memcpy (search.fixed, layout->marks, layout->n * sizeof (HwPoint));
  found = solve (&search, INFINITY, &best);
  if (found)
    take (layout, &best);
  g_free (search.free);
  return found;
}

/* The outermost of the points in some directions: the error grows with the distance from the marks' centroid, so these stand for all the rest. */
static guint
outermost (const HwPoint *points, guint n, HwPoint *out, guint n_ways)
{
  for (guint k = 0; k < n_ways; k++)
    {
      HwPoint way = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * k / n_ways);
      double most = -INFINITY;

      for (guint i = 0; i < n; i++)
        if (points[i].x * way.x + points[i].y * way.y > most)
          {
            most = points[i].x * way.x + points[i].y * way.y;
            out[k] = points[i];
          }
    }
  return n_ways;
}

#define N_REACH 8

void
hw_mark_task_aim (HwMarkTask *task, const HwPlan *plan, guint index, HwOutline *const *placed)
{
  const HwHooping *hooping = &plan->hoopings[index];
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_autofree HwPoint *centres = g_new (HwPoint, hooping->n_motifs + 1);
  g_autofree HwPoint *hull = g_new (HwPoint, hooping->n_motifs + 2);
  guint n_hull;

  task->centres[0] = task->reach[0] = hooping->centre;
  task->n_centres = task->n_reach = 1;
  if (hooping->n_motifs == 0)
    return;
  for (guint i = 0; i < hooping->n_motifs; i++)
    {
      const HwOutline *outline = placed[hooping->motifs[i]];

      centres[i] = hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->placement.position;
      g_array_append_vals (all, outline->hull, outline->n_hull);
    }
  n_hull = hw_convex_hull (centres, hooping->n_motifs, hull);
  if (n_hull <= HW_MARK_TARGETS)
    memcpy (task->centres, hull, n_hull * sizeof (HwPoint));
  task->n_centres
      = n_hull <= HW_MARK_TARGETS ? n_hull : outermost (hull, n_hull, task->centres, HW_MARK_TARGETS);
  if (all->len > 0)
    task->n_reach = outermost ((const HwPoint *)all->data, all->len, task->reach, N_REACH);
}
