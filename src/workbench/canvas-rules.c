/* What breaks a rule, live. Whatever lies past the edge line's margin is filled in madder; a motif no hoop takes is outlined
 * in it; each with a sign and a few words. Only the motifs in question are looked at, what has not moved keeps its verdict, and only those
 * partners are asked whose bounds are met; so that it can be asked on every motion of the pointer. */

#include "canvas-rules-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/lettering.h"
#include "../geometry/region.h"
#include "../planning/sharing.h"
#include "text-size.h"

#define LEAST_COMMON 0.01 /* mm^2: less is a touch */
#define LEAST_PAST 0.05   /* mm */

static void
verdict_free (gpointer data)
{
  Verdict *verdict = data;

  for (guint i = 0; i < verdict->n_breaches; i++)
    {
      hw_outline_unref (verdict->breaches[i].shape);
      g_free (verdict->breaches[i].words);
    }
  hw_outline_unref (verdict->placed);
  g_free (verdict);
}

static GHashTable *
verdicts_new (void)
{
  return g_hash_table_new_full (NULL, NULL, NULL, verdict_free);
}

HwRules *
hw_rules_new (void)
{
  HwRules *rules = g_new0 (HwRules, 1);

  rules->ground.hoops = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);
  rules->verdicts = verdicts_new ();
  rules->partners = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  return rules;
}

void
hw_rules_free (HwRules *rules)
{
  g_clear_pointer (&rules->ground.edge, hw_edge_line_unref);
  g_clear_pointer (&rules->within, hw_outline_unref);
  g_ptr_array_unref (rules->ground.hoops);
  g_hash_table_unref (rules->verdicts);
  g_ptr_array_unref (rules->partners);
  g_free (rules);
}

gboolean
hw_rules_are_kept (const HwRules *rules, HwLook what)
{
  GHashTableIter iter;
  Verdict *verdict;

  if (what & HW_LOOK_AIR && rules->partners->len > 0)
    return FALSE;
  g_hash_table_iter_init (&iter, rules->verdicts);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&verdict))
    if (verdict->look & what && verdict->n_breaches > 0)
      return FALSE;
  return TRUE;
}

static gboolean
same_hoops (const GPtrArray *a, const GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (a->pdata[i] != b->pdata[i])
      return FALSE;
  return TRUE;
}

/* Takes note of edge line, hoops and cloth; when they are others than before no verdict stands. */
static void
learn_ground (HwRules *rules, const HwSnapshot *snapshot, HwUnit unit)
{
  Ground *ground = &rules->ground;
  const HwFabric *fabric = &snapshot->fabric;

  if (ground->edge == snapshot->edge_line && same_hoops (ground->hoops, snapshot->hoops)
      && ground->width == fabric->width && ground->height == fabric->height && ground->hold == fabric->hold
      && ground->unit == unit)
    return;
  g_hash_table_remove_all (rules->verdicts);
  g_clear_pointer (&ground->edge, hw_edge_line_unref);
  g_clear_pointer (&rules->within, hw_outline_unref);
  g_ptr_array_set_size (ground->hoops, 0);
  for (guint i = 0; i < snapshot->hoops->len; i++)
    g_ptr_array_add (ground->hoops, hw_hoop_ref (hw_snapshot_hoop (snapshot, i)));
  ground->width = fabric->width;
  ground->height = fabric->height;
  ground->hold = fabric->hold;
  ground->unit = unit;
  if (snapshot->edge_line == NULL)
    return;
  ground->edge = hw_edge_line_ref (snapshot->edge_line);
  if (ground->edge->outline != NULL)
    rules->within = ground->edge->margin > 0 ? hw_outline_grow (ground->edge->outline, -ground->edge->margin)
                                             : hw_outline_ref (ground->edge->outline);
}

/* Takes the breach's shape and words over. */
static void
add_breach (Verdict *verdict, Breach breach)
{
  HwLettering how = { .size = hw_text_size (HW_SLIP_LETTERS), .bold = TRUE };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cr = cairo_create (surface);

  hw_letter_measure (cr, &how, breach.words, &breach.words_width, &breach.words_height);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  verdict->breaches[verdict->n_breaches++] = breach;
}

static void
look_at_edge (const HwRules *rules, Verdict *verdict)
{
  Breach breach = { .past = TRUE };
  g_autofree char *length = NULL;
  double past;

  if (rules->within == NULL)
    return;
  past = hw_outline_passes (verdict->placed, rules->within, &breach.at);
  if (past < LEAST_PAST)
    return;
  breach.shape = hw_outline_minus (verdict->placed, rules->within);
  if (breach.shape == NULL)
    return;
  length = hw_length_text (past, rules->ground.unit);
  /* The margin is part of the edge line's rule: what is measured is how far to move back. */
  breach.words = g_strdup_printf (_ ("%s too far out"), length);
  add_breach (verdict, breach);
}

static char *
misfit_words (const HwSnapshot *snapshot, const HwNearMiss *miss, HwUnit unit)
{
  const HwHoop *hoop = hw_snapshot_hoop (snapshot, miss->hoop);
  g_autofree char *length = hw_length_text (miss->miss, unit);
  int percent = (int)floor (miss->scale * 100);

  if (miss->too_wide)
    return g_strdup_printf (_ ("%s too wide for %s; fits at %d %%"), length, hoop->name, percent);
  return g_strdup_printf (_ ("%s too long for %s; fits at %d %%"), length, hoop->name, percent);
}

/* The scene with the hoops in use only. */
static HwSnapshot *
with_hoops_in_use (const HwSnapshot *snapshot)
{
  HwSnapshot *usable = hw_snapshot_copy (snapshot);

  for (guint i = usable->hoops->len; i-- > 0;)
    if (hw_snapshot_hoop (usable, i)->set_aside)
      g_ptr_array_remove_index (usable->hoops, i);
  return usable;
}

static gboolean
some_hoop_takes (const HwSnapshot *snapshot, const HwOutline *placed)
{
  for (guint i = 0; i < snapshot->hoops->len; i++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (snapshot, i);

      if (!hoop->set_aside && hw_sharing_fits (placed->hull, placed->n_hull, hoop, &snapshot->fabric))
        return TRUE;
    }
  return FALSE;
}

static void
look_at_hoops (const HwRules *rules, const HwSnapshot *snapshot, Verdict *verdict)
{
  HwOutline *placed = verdict->placed;
  Breach breach = { 0 };
  g_autoptr (HwSnapshot) usable = NULL;
  HwNearMiss miss;

  if (some_hoop_takes (snapshot, placed))
    return;
  usable = with_hoops_in_use (snapshot);
  if (usable->hoops->len == 0)
    return;
  miss = hw_sharing_nearest (placed->hull, placed->n_hull, usable);
  breach.shape = hw_outline_ref (placed);
  breach.at = (HwPoint){ (placed->box.x0 + placed->box.x1) / 2, placed->box.y0 };
  if (miss.miss > 0)
    breach.words = misfit_words (usable, &miss, rules->ground.unit);
  else
    breach.words = g_strdup (_ ("no hoop can lie here"));
  add_breach (verdict, breach);
}

static void
look_at_partners (HwRules *rules, HwOutline *const *placed, const guint8 *look, guint n, guint motif)
{
  for (guint i = 0; i < n; i++)
    if (!(look[i] & HW_LOOK_AIR) && placed[i] != NULL && hw_box_overlaps (placed[motif]->box, placed[i]->box)
        && hw_outline_overlap_area (placed[motif], placed[i]) > LEAST_COMMON)
      g_ptr_array_add (rules->partners, hw_outline_ref (placed[i]));
}

/* The verdict on an outline, from before when it lies as it did. Returns: (transfer full) */
static Verdict *
judge (HwRules *rules, const HwSnapshot *snapshot, HwOutline *placed, gboolean *anew)
{
  Verdict *verdict = g_hash_table_lookup (rules->verdicts, placed);

  *anew = verdict == NULL;
  if (verdict != NULL)
    {
      g_hash_table_steal (rules->verdicts, placed);
      return verdict;
    }
  verdict = g_new0 (Verdict, 1);
  verdict->placed = hw_outline_ref (placed);
  look_at_edge (rules, verdict);
  look_at_hoops (rules, snapshot, verdict);
  return verdict;
}

static gboolean
some_still_breach (GHashTable *verdicts)
{
  GHashTableIter iter;
  Verdict *verdict;

  g_hash_table_iter_init (&iter, verdicts);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *)&verdict))
    if (verdict->look & HW_LOOK_STILL && verdict->n_breaches > 0)
      return TRUE;
  return FALSE;
}

gboolean
hw_rules_look (HwRules *rules,
               const HwSnapshot *snapshot,
               HwOutline *const *placed,
               const guint8 *look,
               gboolean partners,
               HwUnit unit)
{
  GHashTable *verdicts = verdicts_new ();
  gboolean changed = some_still_breach (rules->verdicts);
  guint n = snapshot->motifs->len, before = g_hash_table_size (rules->verdicts);

  learn_ground (rules, snapshot, unit);
  changed = changed && g_hash_table_size (rules->verdicts) != before;
  g_ptr_array_set_size (rules->partners, 0);
  for (guint i = 0; i < n; i++)
    {
      Verdict *verdict;
      gboolean anew;

      if (look[i] == HW_LOOK_NOT || placed[i] == NULL || g_hash_table_contains (verdicts, placed[i]))
        continue;
      verdict = judge (rules, snapshot, placed[i], &anew);
      if (verdict->n_breaches > 0 && (anew || verdict->look != look[i])
          && (verdict->look | look[i]) & HW_LOOK_STILL)
        changed = TRUE;
      verdict->look = look[i];
      verdict->motif = i;
      g_hash_table_insert (verdicts, placed[i], verdict);
      if (partners && look[i] & HW_LOOK_AIR)
        look_at_partners (rules, placed, look, n, i);
    }
  /* Those left over lie no longer as they did. */
  changed = changed || some_still_breach (rules->verdicts);
  g_hash_table_unref (rules->verdicts);
  rules->verdicts = verdicts;
  return changed;
}
