/* Placed motifs are known by their outline and their placement. What did not move keeps its placed outline, its serial number and what was
 * found out about it and the edge line. */
#include "placings.h"

#include "../geometry/region.h"

#define KEPT_CALLS 3 /* a place a motif left is remembered this long, for a hand that hesitates */

typedef struct
{
  HwOutline *source;
  HwPlacement placement;
  HwPlaced placed;
  guint call;
  gboolean asked[2]; /* about the edge line without and with its margin */
  double passes[2];
  HwPoint where[2];
} Placing;

struct _HwPlacings
{
  GHashTable *all; /* Placing, as a set */
  guint64 serials;
  guint call;
  HwPlaced *row;
  Placing **behind; /* of each of row */
  HwEdgeLine *edge;
  HwOutline *inner; /* of edge, less its margin; NULL when nothing is left */
};

static guint
placing_hash (gconstpointer data)
{
  const Placing *placing = data;
  double parts[] = { placing->placement.position.x, placing->placement.position.y, placing->placement.angle,
                     placing->placement.scale };
  guint64 hash = (guint64)(gsize)placing->source;

  for (guint k = 0; k < G_N_ELEMENTS (parts); k++)
    {
      guint64 bits;

      memcpy (&bits, &parts[k], sizeof bits);
      hash = (hash ^ bits) * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
      hash ^= hash >> 31;
    }
  return (guint)(hash ^ (hash >> 32));
}

static gboolean
placing_equal (gconstpointer pa, gconstpointer pb)
{
  const Placing *a = pa, *b = pb;

  return a->source == b->source && hw_placement_equal (&a->placement, &b->placement);
}

static void
placing_free (gpointer data)
{
  Placing *placing = data;

  hw_outline_unref (placing->source);
  hw_outline_unref (placing->placed.outline);
  g_free (placing);
}

HwPlacings *
hw_placings_new (void)
{
  HwPlacings *placings = g_new0 (HwPlacings, 1);

  placings->all = g_hash_table_new_full (placing_hash, placing_equal, placing_free, NULL);
  return placings;
}

void
hw_placings_free (HwPlacings *placings)
{
  g_hash_table_unref (placings->all);
  g_free (placings->row);
  g_free (placings->behind);
  g_clear_pointer (&placings->edge, hw_edge_line_unref);
  g_clear_pointer (&placings->inner, hw_outline_unref);
  g_free (placings);
}

static Placing *
find_placing (HwPlacings *placings, const HwMotif *motif)
{
  Placing wanted = { .source = motif->outline, .placement = motif->placement };
  Placing *placing = g_hash_table_lookup (placings->all, &wanted);

  if (placing != NULL)
    return placing;
  placing = g_new0 (Placing, 1);
  placing->source = hw_outline_ref (motif->outline);
  placing->placement = motif->placement;
  placing->placed.outline = hw_outline_place (motif->outline, &motif->placement);
  placing->placed.serial = ++placings->serials;
  g_hash_table_add (placings->all, placing);
  return placing;
}

static gboolean
is_old (gpointer key, gpointer value, gpointer data)
{
  const Placing *placing = key;
  const HwPlacings *placings = data;

  return placings->call - placing->call > KEPT_CALLS;
}

const HwPlaced *
hw_placings_take (HwPlacings *placings, const HwSnapshot *snapshot)
{
  guint n = snapshot->motifs->len;

  placings->call++;
  placings->row = g_renew (HwPlaced, placings->row, n + 1);
  placings->behind = g_renew (Placing *, placings->behind, n + 1);
  for (guint i = 0; i < n; i++)
    {
      placings->behind[i] = find_placing (placings, hw_snapshot_motif (snapshot, i));
      placings->behind[i]->call = placings->call;
      placings->row[i] = placings->behind[i]->placed;
    }
  if (g_hash_table_size (placings->all) > 2 * n + 64)
    g_hash_table_foreach_remove (placings->all, is_old, placings);
  return placings->row;
}

static void
take_edge (HwPlacings *placings, const HwEdgeLine *edge)
{
  GHashTableIter iter;
  gpointer key;

  if (placings->edge == edge)
    return;
  g_clear_pointer (&placings->edge, hw_edge_line_unref);
  g_clear_pointer (&placings->inner, hw_outline_unref);
  placings->edge = hw_edge_line_ref ((HwEdgeLine *)edge);
  placings->inner = hw_outline_grow (edge->outline, -edge->margin);
  g_hash_table_iter_init (&iter, placings->all);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    ((Placing *)key)->asked[0] = ((Placing *)key)->asked[1] = FALSE;
}

double
hw_placings_passes_edge (
    HwPlacings *placings, guint i, const HwEdgeLine *edge, gboolean with_margin, HwPoint *where)
{
  Placing *placing = placings->behind[i];
  guint k = with_margin ? 1 : 0;

  take_edge (placings, edge);
  if (!placing->asked[k])
    {
      const HwOutline *outer = with_margin && placings->inner != NULL ? placings->inner : edge->outline;

      placing->passes[k] = hw_outline_passes (placing->placed.outline, outer, &placing->where[k]);
      placing->asked[k] = TRUE;
    }
  *where = placing->where[k];
  return placing->passes[k];
}
