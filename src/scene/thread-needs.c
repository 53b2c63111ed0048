/* Threads a scene needs against threads at hand. Metres follow from the stitches (lockstitch.c). */
#include "thread-needs.h"

#include <math.h>

#include "lockstitch.h"

static void
need_free (gpointer data)
{
  HwThreadNeed *need = data;

  g_free (need->name);
  g_strfreev (need->motifs);
  g_free (need);
}

static void
purchase_free (gpointer data)
{
  HwThreadPurchase *purchase = data;

  g_free (purchase->name);
  g_free (purchase->number);
  g_free (purchase);
}

/* Ids of the motifs stitched already; the ids are the snapshot's. */
static GHashTable *
list_stitched (const HwSnapshot *snapshot)
{
  GHashTable *stitched = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < snapshot->frozen->len; i++)
    {
      const HwPin *pin = snapshot->frozen->pdata[i];

      for (char **id = pin->motifs; id != NULL && *id != NULL; id++)
        g_hash_table_add (stitched, *id);
    }
  return stitched;
}

static gboolean
is_of (const HwThreadBlock *block, const char *name, HwColour colour)
{
  return g_strcmp0 (block->name, name) == 0 && hw_colour_equal (block->colour, colour);
}

/* The need for a block's thread, made when there is none yet. */
static HwThreadNeed *
need_for (GPtrArray *needs, const HwThreadBlock *block)
{
  HwThreadNeed *need;

  for (guint i = 0; i < needs->len; i++)
    {
      need = needs->pdata[i];
      if (is_of (block, need->name, need->colour))
        return need;
    }
  need = g_new0 (HwThreadNeed, 1);
  need->name = g_strdup (block->name);
  need->colour = block->colour;
  need->motifs = g_new0 (char *, 1);
  need->counted = TRUE;
  g_ptr_array_add (needs, need);
  return need;
}

static void
add_motif (HwThreadNeed *need, const char *id)
{
  guint n = g_strv_length (need->motifs);

  if (n > 0 && g_strcmp0 (need->motifs[n - 1], id) == 0)
    return;
  need->motifs = g_renew (char *, need->motifs, n + 2);
  need->motifs[n] = g_strdup (id);
  need->motifs[n + 1] = NULL;
}

GPtrArray *
hw_thread_needs (const HwSnapshot *snapshot, GPtrArray *palette)
{
  GPtrArray *needs = g_ptr_array_new_with_free_func (need_free);
  g_autoptr (GHashTable) stitched = NULL;

  g_return_val_if_fail (snapshot != NULL && palette != NULL, needs);

  stitched = list_stitched (snapshot);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      gboolean done = g_hash_table_contains (stitched, motif->id);
      g_autofree HwThreadLength *lengths = hw_motif_thread_lengths (motif, &snapshot->supplies);

      for (guint k = 0; k < motif->n_threads; k++)
        {
          HwThreadNeed *need = need_for (needs, &motif->threads[k]);

          add_motif (need, motif->id);
          if (done)
            continue;
          need->stitches += motif->threads[k].stitches;
          need->metres += lengths[k].needle;
          need->counted = need->counted && isfinite (lengths[k].needle);
        }
    }
  for (guint i = 0; i < needs->len; i++)
    {
      HwThreadNeed *need = needs->pdata[i];

      need->n_nearest
          = hw_palette_nearest (palette, hw_colour_lab (need->colour), HW_N_NEAREST, need->nearest);
    }
  return needs;
}

static void
add_purchase (
    GPtrArray *purchases, const char *name, const char *number, HwColour colour, double metres, int thread)
{
  HwThreadPurchase *purchase = g_new0 (HwThreadPurchase, 1);

  purchase->name = g_strdup (name);
  purchase->number = g_strdup (number);
  purchase->colour = colour;
  purchase->metres = metres;
  purchase->thread = thread;
  g_ptr_array_add (purchases, purchase);
}

GPtrArray *
hw_thread_purchases (GPtrArray *needs, GPtrArray *palette)
{
  GPtrArray *purchases = g_ptr_array_new_with_free_func (purchase_free);
  g_autofree double *taken = NULL;

  g_return_val_if_fail (needs != NULL && palette != NULL, purchases);

  taken = g_new0 (double, palette->len + 1);
  for (guint i = 0; i < needs->len; i++)
    {
      const HwThreadNeed *need = needs->pdata[i];

      if (need->counted && need->stitches == 0)
        continue;
      if (need->n_nearest == 0 || need->nearest[0].difference >= HW_THREAD_SERVES)
        add_purchase (purchases, need->name, NULL, need->colour, need->metres, -1);
      else if (need->counted)
        taken[need->nearest[0].thread] += need->metres;
    }
  for (guint i = 0; i < palette->len; i++)
    {
      const HwPaletteThread *thread = palette->pdata[i];

      /* What is left and not known is taken to be enough. */
      if (!isnan (thread->metres) && taken[i] > thread->metres)
        add_purchase (purchases, thread->name, thread->number, hw_lab_colour (thread->lab),
                      taken[i] - thread->metres, (int)i);
    }
  return purchases;
}

/* Returns: (transfer full) (nullable): NULL when the motif has no such thread */
static HwMotif *
replace_in (const HwMotif *motif, const char *name, HwColour colour, const HwPaletteThread *by)
{
  HwMotif *changed = NULL;

  for (guint k = 0; k < motif->n_threads; k++)
    {
      if (!is_of (&motif->threads[k], name, colour))
        continue;
      if (changed == NULL)
        changed = hw_motif_copy (motif);
      g_free (changed->threads[k].name);
      changed->threads[k].name = g_strdup (by->name);
      changed->threads[k].colour = hw_lab_colour (by->lab);
    }
  return changed;
}

HwSnapshot *
hw_thread_replaced (const HwSnapshot *snapshot, const char *name, HwColour colour, const HwPaletteThread *by)
{
  HwSnapshot *replaced = NULL;
  g_autoptr (GHashTable) stitched = NULL;

  g_return_val_if_fail (snapshot != NULL && by != NULL, NULL);

  stitched = list_stitched (snapshot);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      HwMotif *changed = NULL;

      if (!g_hash_table_contains (stitched, motif->id))
        changed = replace_in (motif, name, colour, by);
      if (changed == NULL)
        continue;
      if (replaced == NULL)
        replaced = hw_snapshot_copy (snapshot);
      hw_motif_unref (replaced->motifs->pdata[i]);
      replaced->motifs->pdata[i] = changed;
    }
  return replaced != NULL ? replaced : hw_snapshot_ref (snapshot);
}
