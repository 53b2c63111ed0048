/* The settled order of a hooping in the machine, or of one that is stitched: between the pin that keeps it and the plan's hooping. */
#include "turns.h"

GArray *
hw_turns_read (const HwSnapshot *snapshot, const HwPin *pin, const guint *motifs, guint n_motifs)
{
  g_autofree guint *n_threads = NULL, *done = NULL;
  g_autoptr (GArray) sequence = NULL;
  GArray *steps;

  g_return_val_if_fail (snapshot != NULL && pin != NULL, NULL);
  g_return_val_if_fail (motifs != NULL || n_motifs == 0, NULL);

  if (pin->n_turns == 0 || pin->motifs == NULL || g_strv_length (pin->motifs) != n_motifs)
    return NULL;
  n_threads = g_new (guint, n_motifs + 1);
  done = g_new0 (guint, n_motifs + 1);
  for (guint k = 0; k < n_motifs; k++)
    n_threads[k] = hw_snapshot_motif (snapshot, motifs[k])->n_threads;
  if (!hw_pin_takes_turns (pin, n_threads))
    return NULL;
  sequence = hw_pin_sequence (pin, n_threads);
  steps = g_array_sized_new (FALSE, FALSE, sizeof (HwBlockStep), sequence->len);
  for (guint i = 0; i < sequence->len; i++)
    {
      guint place = g_array_index (sequence, guint, i);
      HwBlockStep step = { motifs[place], done[place]++ };

      g_array_append_val (steps, step);
    }
  return steps;
}

static guint
place_of (const HwHooping *hooping, guint motif)
{
  guint place = 0;

  while (place + 1 < hooping->n_motifs && hooping->motifs[place] != motif)
    place++;
  return place;
}

void
hw_turns_settle (HwPin *pin, const HwSnapshot *snapshot, const HwHooping *hooping)
{
  g_autoptr (GArray) turns = NULL;

  g_return_if_fail (pin != NULL && snapshot != NULL && hooping != NULL);

  g_strfreev (pin->motifs);
  pin->motifs = g_new0 (char *, hooping->n_motifs + 1);
  for (guint k = 0; k < hooping->n_motifs; k++)
    pin->motifs[k] = g_strdup (hw_snapshot_motif (snapshot, hooping->motifs[k])->id);
  turns = g_array_new (FALSE, FALSE, sizeof (HwThreadTurn));
  for (guint i = 0; i < hooping->n_steps; i++)
    {
      HwThreadTurn turn = { place_of (hooping, hooping->steps[i].motif), 1 };
      HwThreadTurn *last = turns->len > 0 ? &g_array_index (turns, HwThreadTurn, turns->len - 1) : NULL;

      if (last != NULL && last->motif == turn.motif)
        last->threads++;
      else
        g_array_append_val (turns, turn);
    }
  hw_pin_set_turns (pin, turns->len > 0 ? (const HwThreadTurn *)(const void *)turns->data : NULL, turns->len);
}
