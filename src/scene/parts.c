/* Parts of a scene: which motifs are stitched together on one day. */
#include "parts.h"

HwPart *
hw_part_new (const char *name, const char *const *motifs)
{
  static const char *const none[] = { NULL };
  HwPart *part = g_new0 (HwPart, 1);

  g_atomic_ref_count_init (&part->ref_count);
  part->name = g_strdup (name != NULL ? name : "");
  part->motifs = g_strdupv ((char **)(motifs != NULL ? motifs : none));
  return part;
}

HwPart *
hw_part_ref (const HwPart *part)
{
  HwPart *shared = (HwPart *)part;

  g_return_val_if_fail (part != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_part_unref (HwPart *part)
{
  g_return_if_fail (part != NULL);

  if (!g_atomic_ref_count_dec (&part->ref_count))
    return;
  g_free (part->name);
  g_strfreev (part->motifs);
  g_clear_pointer (&part->unknown, hw_unknown_unref);
  g_free (part);
}

gboolean
hw_part_equal (const HwPart *a, const HwPart *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a == b
         || (g_strcmp0 (a->name, b->name) == 0
             && g_strv_equal ((const char *const *)a->motifs, (const char *const *)b->motifs)
             && hw_unknown_equal (a->unknown, b->unknown));
}

gboolean
hw_part_names (const HwPart *part, const char *motif)
{
  g_return_val_if_fail (part != NULL && motif != NULL, FALSE);

  return g_strv_contains ((const char *const *)part->motifs, motif);
}

int
hw_parts_find (GPtrArray *parts, const char *motif)
{
  g_return_val_if_fail (parts != NULL && motif != NULL, -1);

  for (guint i = 0; i < parts->len; i++)
    {
      if (hw_part_names (parts->pdata[i], motif))
        return (int)i;
    }
  return -1;
}
