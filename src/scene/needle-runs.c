/* A motif is listed with its thread blocks, its artwork says thread by thread where the needle goes; here the two are brought together. Mostly the list has
 * a run for each block, in the same order, whatever the threads are called now. Where it has not, names tell; the order of the list
 * always stays, since what is stitched later may lie over what came before. */
#include "needle-runs.h"

static GArray *
find_runs (const HwNeedleList *needles)
{
  GArray *runs = g_array_sized_new (FALSE, FALSE, sizeof (HwNeedleRun), needles->n_stretches);

  for (guint s = 0; s < needles->n_stretches; s++)
    {
      HwNeedleRun run = { .first = needles->stretches[s].first, .end = needles->stretches[s].end };

      g_array_append_val (runs, run);
    }
  return runs;
}

/* The first block from `from` on in the thread of that name, or -1. */
static int
find_block (const HwMotif *motif, const char *name, guint from)
{
  for (guint b = from; b < motif->n_threads; b++)
    if (g_strcmp0 (motif->threads[b].name, name) == 0)
      return (int)b;
  return -1;
}

/* A block for each run: the one at the same place, unless the file lists the same threads in another order. */
static void
take_in_turn (const HwMotif *motif, GArray *runs)
{
  for (guint r = 0; r < runs->len; r++)
    {
      HwNeedleRun *run = &g_array_index (runs, HwNeedleRun, r);
      const char *name = motif->needles->threads[motif->needles->stretches[r].thread];
      int named = g_strcmp0 (motif->threads[r].name, name) == 0 ? (int)r : find_block (motif, name, 0);

      run->block = r;
      run->thread = named >= 0 ? (guint)named : r;
    }
}

/* More runs than blocks, or fewer: a run belongs to the next block of its name, or else to the block of the run before. */
static void
take_by_name (const HwMotif *motif, GArray *runs)
{
  guint block = 0;

  for (guint r = 0; r < runs->len; r++)
    {
      HwNeedleRun *run = &g_array_index (runs, HwNeedleRun, r);
      guint listed = motif->needles->stretches[r].thread;
      const char *name = motif->needles->threads[listed];
      int next = find_block (motif, name, block), named = find_block (motif, name, 0);

      if (next >= 0)
        block = (guint)next;
      run->block = block;
      run->thread = next >= 0 ? block : named >= 0 ? (guint)named : listed % motif->n_threads;
    }
}

GArray *
hw_needle_runs (const HwMotif *motif)
{
  GArray *runs;

  g_return_val_if_fail (motif != NULL && motif->needles != NULL && motif->n_threads > 0, NULL);

  runs = find_runs (motif->needles);
  if (runs->len == motif->n_threads)
    take_in_turn (motif, runs);
  else
    take_by_name (motif, runs);
  return runs;
}
