/* Sets of motifs as rows of bits, any number of 64-bit words long. */
#pragma once

#include <glib.h>
#include <string.h>

G_BEGIN_DECLS

#define HW_MASK_WORDS(n) (((n) + 63u) / 64u + ((n) == 0)) /* at least one */
#define HW_MASK_ROW(rows, i, words) ((rows) + (gsize)(i) * (words))

static inline gboolean
hw_mask_has (const guint64 *mask, guint i)
{
  return (mask[i >> 6] >> (i & 63)) & 1;
}

static inline void
hw_mask_add (guint64 *mask, guint i)
{
  mask[i >> 6] |= G_GUINT64_CONSTANT (1) << (i & 63);
}

static inline void
hw_mask_remove (guint64 *mask, guint i)
{
  mask[i >> 6] &= ~(G_GUINT64_CONSTANT (1) << (i & 63));
}

static inline void
hw_mask_clear (guint64 *mask, guint words)
{
  memset (mask, 0, words * sizeof (guint64));
}

static inline void
hw_mask_copy (guint64 *to, const guint64 *from, guint words)
{
  memcpy (to, from, words * sizeof (guint64));
}

static inline void
hw_mask_join (guint64 *to, const guint64 *other, guint words)
{
  for (guint w = 0; w < words; w++)
    to[w] |= other[w];
}

static inline void
hw_mask_keep (guint64 *to, const guint64 *other, guint words)
{
  for (guint w = 0; w < words; w++)
    to[w] &= other[w];
}

static inline void
hw_mask_drop (guint64 *to, const guint64 *other, guint words)
{
  for (guint w = 0; w < words; w++)
    to[w] &= ~other[w];
}

static inline gboolean
hw_mask_is_empty (const guint64 *mask, guint words)
{
  for (guint w = 0; w < words; w++)
    if (mask[w] != 0)
      return FALSE;
  return TRUE;
}

static inline gboolean
hw_mask_equal (const guint64 *a, const guint64 *b, guint words)
{
  return memcmp (a, b, words * sizeof (guint64)) == 0;
}

static inline gboolean
hw_mask_meets (const guint64 *a, const guint64 *b, guint words)
{
  for (guint w = 0; w < words; w++)
    if (a[w] & b[w])
      return TRUE;
  return FALSE;
}

static inline gboolean
hw_mask_within (const guint64 *part, const guint64 *whole, guint words)
{
  for (guint w = 0; w < words; w++)
    if (part[w] & ~whole[w])
      return FALSE;
  return TRUE;
}

static inline guint
hw_mask_count (const guint64 *mask, guint words)
{
  guint n = 0;

  for (guint w = 0; w < words; w++)
    n += __builtin_popcountll (mask[w]);
  return n;
}

static inline guint
hw_mask_count_common (const guint64 *a, const guint64 *b, guint words)
{
  guint n = 0;

  for (guint w = 0; w < words; w++)
    n += __builtin_popcountll (a[w] & b[w]);
  return n;
}

/* The lowest member at or after from; G_MAXUINT when there is none. */
static inline guint
hw_mask_next (const guint64 *mask, guint words, guint from)
{
  guint w = from >> 6;
  guint64 rest;

  if (w >= words)
    return G_MAXUINT;
  rest = mask[w] & (~G_GUINT64_CONSTANT (0) << (from & 63));
  while (rest == 0)
    {
      if (++w == words)
        return G_MAXUINT;
      rest = mask[w];
    }
  return w * 64 + (guint)__builtin_ctzll (rest);
}

/* for (HW_MASK_EACH (i, mask, words)): every member in rising order; members may be removed on the way. */
#define HW_MASK_EACH(i, mask, words)                                                                         \
  guint i = hw_mask_next ((mask), (words), 0);                                                               \
  i != G_MAXUINT;                                                                                            \
  i = hw_mask_next ((mask), (words), i + 1)

G_END_DECLS
