/* What a person asks of a plan: defaults of the wishes, and pairs of motifs kept out of one hooping. */
#include "wishes.h"

#include <string.h>

void
hw_wishes_set_defaults (HwWishes *wishes)
{
  g_return_if_fail (wishes != NULL);

  *wishes = (HwWishes){
    .best = HW_BEST_FEWEST,
    .density_limit = 5,
    .scale_low = 0.8,
    .scale_high = 1.2,
    .tolerance = 0.7,
    .marks = 2,
    .draw_in = 0.5,
  };
}

HwApart *
hw_apart_new (const char *first, const char *second)
{
  HwApart *apart;

  g_return_val_if_fail (first != NULL && second != NULL, NULL);

  apart = g_new0 (HwApart, 1);
  g_atomic_ref_count_init (&apart->ref_count);
  apart->first = g_strdup (first);
  apart->second = g_strdup (second);
  return apart;
}

HwApart *
hw_apart_ref (const HwApart *apart)
{
  HwApart *shared = (HwApart *)apart;

  g_return_val_if_fail (apart != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_apart_unref (HwApart *apart)
{
  g_return_if_fail (apart != NULL);

  if (!g_atomic_ref_count_dec (&apart->ref_count))
    return;
  g_free (apart->first);
  g_free (apart->second);
  g_free (apart);
}

gboolean
hw_apart_names (const HwApart *apart, const char *id)
{
  g_return_val_if_fail (apart != NULL, FALSE);

  return g_strcmp0 (apart->first, id) == 0 || g_strcmp0 (apart->second, id) == 0;
}

/* One text for a pair, whichever motif it names first. Returns: (transfer full) */
static char *
pair_key (const HwApart *apart)
{
  gboolean turned = g_strcmp0 (apart->first, apart->second) > 0;

  /* The length keeps "a b" with "c" from being taken for "a" with "b c". */
  return g_strdup_printf ("%zu %s %s", strlen (turned ? apart->second : apart->first),
                          turned ? apart->second : apart->first, turned ? apart->first : apart->second);
}

GPtrArray *
hw_apart_fold (GPtrArray *pairs)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GPtrArray *folded;

  g_return_val_if_fail (pairs != NULL, NULL);

  folded = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);

  for (guint i = 0; i < pairs->len; i++)
    {
      if (g_hash_table_add (seen, pair_key (pairs->pdata[i])))
        g_ptr_array_add (folded, hw_apart_ref (pairs->pdata[i]));
    }
  return folded;
}
