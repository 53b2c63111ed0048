/* The order in which the thread blocks of a hooping in the machine are stitched. It is settled when the hooping is begun, for what is done is counted along
 * it from then on. */
#include "records.h"

void
hw_pin_set_turns (HwPin *pin, const HwThreadTurn *turns, guint n_turns)
{
  HwThreadTurn *copies;

  g_return_if_fail (pin != NULL);

  copies = g_memdup2 (turns, n_turns * sizeof (HwThreadTurn));
  g_free (pin->turns);
  pin->turns = copies;
  pin->n_turns = copies != NULL ? n_turns : 0;
}

static guint
count_motifs (const HwPin *pin)
{
  return pin->motifs != NULL ? g_strv_length (pin->motifs) : 0;
}

gboolean
hw_pin_takes_turns (const HwPin *pin, const guint *n_threads)
{
  g_autofree guint64 *named = NULL;
  guint n;

  g_return_val_if_fail (pin != NULL, FALSE);

  n = count_motifs (pin);
  named = g_new0 (guint64, n + 1);
  for (guint i = 0; i < pin->n_turns; i++)
    {
      if (pin->turns[i].motif >= n)
        return FALSE;
      named[pin->turns[i].motif] += pin->turns[i].threads;
    }
  for (guint k = 0; k < n; k++)
    if (named[k] != n_threads[k])
      return FALSE;
  return pin->n_turns > 0;
}

static void
add_blocks (GArray *sequence, guint place, guint threads)
{
  for (guint k = 0; k < threads; k++)
    g_array_append_val (sequence, place);
}

GArray *
hw_pin_sequence (const HwPin *pin, const guint *n_threads)
{
  GArray *sequence = g_array_new (FALSE, FALSE, sizeof (guint));

  g_return_val_if_fail (pin != NULL, sequence);

  if (hw_pin_takes_turns (pin, n_threads))
    {
      for (guint i = 0; i < pin->n_turns; i++)
        add_blocks (sequence, pin->turns[i].motif, pin->turns[i].threads);
      return sequence;
    }
  for (guint k = 0; k < count_motifs (pin); k++)
    add_blocks (sequence, k, n_threads[k]);
  return sequence;
}

/* Of the first blocks those that are not the motif's in that place. */
static guint
count_others (const GArray *sequence, guint blocks, guint place)
{
  guint others = 0;

  for (guint i = 0; i < MIN (blocks, sequence->len); i++)
    others += g_array_index (sequence, guint, i) != place;
  return others;
}

static void
leave_out_turns (HwPin *pin, guint place)
{
  guint kept = 0;

  for (guint i = 0; i < pin->n_turns; i++)
    {
      HwThreadTurn turn = pin->turns[i];

      if (turn.motif == place)
        continue;
      turn.motif -= turn.motif > place;
      pin->turns[kept++] = turn;
    }
  pin->n_turns = kept;
}

HwPin *
hw_pin_without (const HwPin *pin, guint place, const guint *n_threads)
{
  g_autoptr (HwPin) smaller = NULL;
  guint n;

  g_return_val_if_fail (pin != NULL, NULL);
  n = count_motifs (pin);
  g_return_val_if_fail (place < n, NULL);

  if (n == 1)
    return NULL;
  smaller = hw_pin_copy (pin);
  g_free (smaller->motifs[place]);
  for (guint k = place; k < n; k++)
    smaller->motifs[k] = smaller->motifs[k + 1];
  leave_out_turns (smaller, place);
  if (pin->work != NULL)
    {
      g_autoptr (GArray) sequence = hw_pin_sequence (pin, n_threads);

      hw_work_unref (smaller->work);
      smaller->work = hw_work_copy (pin->work);
      smaller->work->threads_done = count_others (sequence, pin->work->threads_done, place);
      smaller->work->bobbin_at = count_others (sequence, pin->work->bobbin_at, place);
    }
  return g_steal_pointer (&smaller);
}
