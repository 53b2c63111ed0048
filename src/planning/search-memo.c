/* What the search has found out about sets of items: a table with open addressing, each set with its bounds and the set that leads on.
 * Nothing is ever forgotten, so that a grouping can be read back; when the memory set for it is used up, the search ends. */
#include "search-private.h"

void
hw_memo_init (HwMemo *memo, guint words)
{
  memo->words = words;
  memo->room = 256;
  memo->slots = g_new0 (guint32, memo->room);
  memo->known = g_array_new (FALSE, FALSE, sizeof (HwKnown));
}

void
hw_memo_clear (HwMemo *memo)
{
  g_free (memo->slots);
  g_free (memo->rows);
  g_clear_pointer (&memo->known, g_array_unref);
}

static guint
hash_of (const guint64 *set, guint words)
{
  guint64 hash = 0;

  for (guint w = 0; w < words; w++)
    {
      hash ^= set[w];
      hash *= G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
      hash ^= hash >> 29;
    }
  return (guint)(hash ^ (hash >> 32));
}

static guint64 *
key_of (const HwMemo *memo, guint32 at)
{
  return memo->rows + (gsize)at * 2 * memo->words;
}

guint64 *
hw_memo_choice (HwMemo *memo, const HwKnown *known)
{
  return key_of (memo, known->at) + memo->words;
}

static void
memo_widen (HwMemo *memo)
{
  g_free (memo->slots);
  memo->room *= 2;
  memo->slots = g_new0 (guint32, memo->room);
  for (guint32 at = 0; at < memo->n; at++)
    {
      guint slot = hash_of (key_of (memo, at), memo->words) & (memo->room - 1);

      while (memo->slots[slot] != 0)
        slot = (slot + 1) & (memo->room - 1);
      memo->slots[slot] = at + 1;
    }
}

HwKnown *
hw_memo_get (HwMemo *memo, const guint64 *set, gboolean *made)
{
  HwKnown fresh = { 0, G_MAXUINT16, memo->n };
  guint slot = hash_of (set, memo->words) & (memo->room - 1);

  *made = FALSE;
  for (; memo->slots[slot] != 0; slot = (slot + 1) & (memo->room - 1))
    if (hw_mask_equal (key_of (memo, memo->slots[slot] - 1), set, memo->words))
      return &g_array_index (memo->known, HwKnown, memo->slots[slot] - 1);

  if (memo->n == memo->rows_room)
    {
      gsize room = MAX (64, memo->rows_room * 2);

      if (room * (2 * memo->words * sizeof (guint64) + 2 * sizeof (HwKnown) + 4 * sizeof (guint32))
          > memo->most_bytes)
        return NULL;
      memo->rows_room = room;
      memo->rows = g_renew (guint64, memo->rows, room * 2 * memo->words);
    }
  *made = TRUE;
  memo->slots[slot] = ++memo->n;
  hw_mask_copy (key_of (memo, fresh.at), set, memo->words);
  g_array_append_val (memo->known, fresh);
  if (memo->n * 2 > memo->room)
    memo_widen (memo);
  return &g_array_index (memo->known, HwKnown, fresh.at);
}
