/* Threads as numbers: the same thread, by name and colour, has the same number all over the scene. */
#include "planner-private.h"

/* Looks threads up by name; those of one name are compared one by one. */
typedef struct
{
  GHashTable *by_name; /* name -> GArray of guint */
  GPtrArray *threads;  /* HwThreadBlock: thread 1 is the first */
} Basket;

static guint
number_of (Basket *basket, const HwThreadBlock *thread)
{
  const char *name = thread->name != NULL ? thread->name : "";
  GArray *numbers = g_hash_table_lookup (basket->by_name, name);
  guint number;

  if (numbers == NULL)
    {
      numbers = g_array_new (FALSE, FALSE, sizeof (guint));
      g_hash_table_insert (basket->by_name, (gpointer)name, numbers);
    }
  for (guint k = 0; k < numbers->len; k++)
    {
      number = g_array_index (numbers, guint, k);
      if (hw_thread_same (g_ptr_array_index (basket->threads, number - 1), thread))
        return number;
    }
  g_ptr_array_add (basket->threads, (gpointer)thread);
  number = basket->threads->len;
  g_array_append_val (numbers, number);
  return number;
}

/* The thread block at a place of a held hooping in which motifs take turns. */
static const HwThreadBlock *
thread_of (const HwHeldFast *held, const HwHeld *one, guint at)
{
  const HwBlockStep *step = &g_array_index (one->steps, HwBlockStep, at);

  return &hw_snapshot_motif (held->snapshot, step->motif)->threads[step->block];
}

/* The thread that is in the needle after the stitched hoopings. */
static guint
thread_after_stitched (const HwHeldFast *held, Basket *basket)
{
  guint needle = HW_THREAD_NONE;

  for (guint i = 0; i < held->frozen->len; i++)
    {
      const HwHeld *one = g_ptr_array_index (held->frozen, i);
      const GArray *motifs = one->motifs;

      for (guint k = 0; k < motifs->len; k++)
        {
          const HwMotif *motif = hw_snapshot_motif (held->snapshot, g_array_index (motifs, guint, k));

          if (motif->n_threads > 0)
            needle = number_of (basket, &motif->threads[motif->n_threads - 1]);
        }
      if (one->steps != NULL)
        needle = number_of (basket, thread_of (held, one, one->steps->len - 1));
    }
  return needle;
}

/* Thousandths of a minute. */
static guint64
cost_of (double minutes)
{
  return (guint64)(CLAMP (minutes, 0, 1e6) * 1000 + 0.5);
}

/* Notes what of the motif is stitched without a change. */
static void
add_runs (GArray *runs, Basket *basket, const HwMotif *motif, guint k)
{
  HwBlockRun run = { k, 0, 0, HW_THREAD_NONE, HW_THREAD_NONE };

  for (guint t = 0; t < motif->n_threads; t++)
    {
      guint thread = number_of (basket, &motif->threads[t]);

      if (run.count > 0 && thread != run.enters)
        {
          g_array_append_val (runs, run);
          run = (HwBlockRun){ k, t, 0, thread, thread };
        }
      run.enters = run.leaves = thread;
      run.count++;
    }
  g_array_append_val (runs, run);
}

/* Motifs that take turns in the machine, one after the other as they begin: the first begins with the thread of the first turn, and all end with that of
 * the last, so that what changes in between is not counted. */
static void
take_turns (HwPlanning *planning, Basket *basket, const HwHeld *one, guint k, guint *enters, guint *leaves)
{
  const HwHeldFast *held = planning->held;
  gboolean begins = g_array_index (one->motifs, guint, 0) == held->motif[k];

  *leaves = number_of (basket, thread_of (held, one, one->steps->len - 1));
  *enters = begins ? number_of (basket, thread_of (held, one, 0)) : *leaves;

  HwBlockRun run = { k, 0, hw_snapshot_motif (held->snapshot, held->motif[k])->n_threads, *enters, *leaves };

  g_array_append_val (planning->runs, run);
}

/* The begun hooping of a planned motif when its motifs take turns, or NULL. */
static const HwHeld *
turns_of (const HwHeldFast *held, guint k)
{
  const HwHeld *one = held->pin_of[k] != G_MAXUINT ? g_ptr_array_index (held->pins, held->pin_of[k]) : NULL;

  return one != NULL && one->steps != NULL ? one : NULL;
}

void
hw_planning_take_threads (HwPlanning *planning, HwMayShare may_share)
{
  const HwHeldFast *held = planning->held;
  Basket basket = { g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify)g_array_unref),
                    g_ptr_array_new () };
  guint *enters = g_new0 (guint, held->n + 1), *leaves = g_new0 (guint, held->n + 1);
  guint start = thread_after_stitched (held, &basket);

  planning->runs = g_array_new (FALSE, FALSE, sizeof (HwBlockRun));
  for (guint k = 0; k < held->n; k++)
    {
      const HwMotif *motif = hw_snapshot_motif (planning->snapshot, held->motif[k]);

      if (turns_of (held, k) != NULL)
        {
          take_turns (planning, &basket, turns_of (held, k), k, &enters[k], &leaves[k]);
          continue;
        }
      add_runs (planning->runs, &basket, motif, k);
      if (motif->n_threads == 0)
        continue;
      enters[k] = number_of (&basket, &motif->threads[0]);
      leaves[k] = number_of (&basket, &motif->threads[motif->n_threads - 1]);
    }
  planning->threads
      = (HwThreadProblem){ .n = held->n,
                           .before = held->order->before,
                           .enters = enters,
                           .leaves = leaves,
                           .n_threads = basket.threads->len,
                           .start = start,
                           .pin_of = held->pin_of,
                           .may_share = may_share,
                           .data = planning,
                           .search = planning->search,
                           .item_of = held->item_of,
                           .hooping_cost = cost_of (planning->snapshot->machine.minutes_per_hooping),
                           .change_cost = cost_of (planning->snapshot->machine.minutes_per_change) };
  g_hash_table_unref (basket.by_name);
  g_ptr_array_unref (basket.threads);
}

void
hw_planning_drop_threads (HwPlanning *planning)
{
  g_clear_pointer ((guint **)&planning->threads.enters, g_free);
  g_clear_pointer ((guint **)&planning->threads.leaves, g_free);
  g_clear_pointer (&planning->runs, g_array_unref);
}
