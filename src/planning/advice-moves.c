/* Near misses: motifs that lie a few millimetres too far out for a hooping to be saved. Where the proof of the count is a set of motifs that can
 * never share two by two, only a move that lets two of them share can help, which leaves few to be planned; each of these is planned. */
#include <math.h>

#include "../geometry/language.h"
#include "../geometry/region.h"
#include "advice-private.h"

#define MOST_MOVE 15.0 /* mm */
#define MOST_ADVICE 3
#define HARMLESS_AREA 4.0 /* mm^2 of overlap that may come or go */

typedef struct
{
  guint motif;
  HwPoint shift;
  double length;
} Move;

typedef struct
{
  HwAdvising *advising;
  HwExplaining *ex;
  gboolean pairs;    /* the proof is a set that cannot share two by two */
  gboolean *matters; /* per motif: moving it can break that proof */
  GArray *moves;
} Moving;

/* TRUE when no two motifs of the proof may share. */
static gboolean
proof_is_pairs (const HwExplaining *ex)
{
  const HwPlan *plan = ex->plan;

  if (plan->n_proof_motifs < 2)
    return FALSE;
  for (guint j = 1; j < plan->n_proof_motifs; j++)
    for (guint i = 0; i < j; i++)
      {
        guint pair[2] = { plan->proof_motifs[i], plan->proof_motifs[j] };
        g_autoptr (GArray) set = hw_explaining_between (ex, pair, 2), hull = NULL;
        guint apart[2];

        g_array_append_vals (set, pair, 2);
        hull = hw_explaining_hull (ex, (const guint *)set->data, set->len);
        if (hw_explaining_fits (ex, hull)
            && !hw_explaining_apart (ex, (const guint *)set->data, set->len, apart))
          return FALSE;
      }
  return TRUE;
}

static void
find_what_matters (Moving *moving)
{
  const HwPlan *plan = moving->ex->plan;

  /* What keeps the time from being less is no set of pairs. */
  moving->pairs = !hw_advising_saves_time (moving->advising) && proof_is_pairs (moving->ex);
  moving->matters = g_new0 (gboolean, plan->snapshot->motifs->len + 1);
  for (guint i = 0; i < plan->snapshot->motifs->len && !moving->pairs; i++)
    moving->matters[i] = TRUE;
  if (!moving->pairs)
    return;
  for (guint j = 0; j < plan->n_proof_motifs; j++)
    {
      moving->matters[plan->proof_motifs[j]] = TRUE;
      for (guint i = 0; i < j; i++)
        {
          guint pair[2] = { plan->proof_motifs[i], plan->proof_motifs[j] };
          g_autoptr (GArray) between = hw_explaining_between (moving->ex, pair, 2);

          for (guint k = 0; k < between->len; k++)
            moving->matters[g_array_index (between, guint, k)] = TRUE;
        }
    }
}

static gboolean
may_move (const Moving *moving, guint motif)
{
  guint hooping = moving->ex->hooping_of[motif];

  return moving->matters[motif] && hooping != G_MAXUINT
         && !hw_snapshot_motif (moving->ex->scene, motif)->locked
         && moving->ex->plan->hoopings[hooping].hold == HW_PLACE_FREE;
}

static double
largest_diagonal (const HwSnapshot *usable)
{
  double largest = 0;

  for (guint h = 0; h < usable->hoops->len; h++)
    largest = MAX (largest, hypot (hw_snapshot_hoop (usable, h)->field_width,
                                   hw_snapshot_hoop (usable, h)->field_height));
  return largest;
}

/* Adds the move that lets the motif share with the set, which does not hold it. */
static void
add_move (Moving *moving, guint motif, const GArray *set)
{
  const HwExplaining *ex = moving->ex;
  HwBox box = ex->placed[motif].outline->box;
  g_autoptr (GArray) resting = NULL, own = NULL;
  Move move = { .motif = motif };

  for (guint k = 0; k < set->len; k++)
    box = hw_box_union (box, ex->placed[g_array_index (set, guint, k)].outline->box);
  if (set->len == 0
      || hypot (box.x1 - box.x0, box.y1 - box.y0) > M_SQRT2 * (largest_diagonal (ex->usable) + MOST_MOVE))
    return;
  resting = hw_explaining_hull (ex, (const guint *)set->data, set->len);
  own = hw_explaining_hull (ex, &motif, 1);
  if (!hw_advice_shift (ex->usable, resting, own, MOST_MOVE, moving->advising->unit, &move.shift))
    return;
  move.length = hypot (move.shift.x, move.shift.y);
  g_array_append_val (moving->moves, move);
}

/* Moves that let the motif join a hooping, or let its hooping join another. */
static void
add_moves_to_hoopings (Moving *moving, guint motif)
{
  const HwPlan *plan = moving->ex->plan;
  const HwHooping *own = &plan->hoopings[moving->ex->hooping_of[motif]];

  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      const HwHooping *other = &plan->hoopings[h];
      g_autoptr (GArray) set = g_array_new (FALSE, FALSE, sizeof (guint));

      if (other == own || other->hold != HW_PLACE_FREE || hw_advising_is_over (moving->advising))
        continue;
      g_array_append_vals (set, other->motifs, other->n_motifs);
      add_move (moving, motif, set);
      for (guint k = 0; k < own->n_motifs; k++)
        if (own->motifs[k] != motif)
          g_array_append_val (set, own->motifs[k]);
      if (own->n_motifs > 1)
        add_move (moving, motif, set);
    }
}

/* Moves that let the motif share with another of the proof. */
static void
add_moves_in_proof (Moving *moving, guint motif)
{
  const HwPlan *plan = moving->ex->plan;

  for (guint k = 0; k < plan->n_proof_motifs && moving->pairs; k++)
    {
      guint pair[2] = { motif, plan->proof_motifs[k] };
      g_autoptr (GArray) set = NULL;

      if (pair[0] == pair[1])
        continue;
      set = hw_explaining_between (moving->ex, pair, 2);
      g_array_append_val (set, pair[1]);
      add_move (moving, motif, set);
    }
}

static int
compare_moves (gconstpointer pa, gconstpointer pb)
{
  const Move *a = pa, *b = pb;

  if (fabs (a->length - b->length) > 1e-9)
    return a->length < b->length ? -1 : 1;
  if (a->motif != b->motif)
    return a->motif < b->motif ? -1 : 1;
  if (a->shift.x != b->shift.x)
    return a->shift.x < b->shift.x ? -1 : 1;
  return (a->shift.y > b->shift.y) - (a->shift.y < b->shift.y);
}

/* Whether the motif meets another only before or only after the move: FALSE when that changes the picture. *met: one it then meets or leaves by a
 * hair, or -1; *then: it is met afterwards. */
static gboolean
overlaps_stay (const Moving *moving, const Move *move, int *met, gboolean *then)
{
  const HwExplaining *ex = moving->ex;
  const HwMotif *motif = hw_snapshot_motif (ex->scene, move->motif);
  HwPlacement placement = motif->placement;
  g_autoptr (HwOutline) moved = NULL;

  *met = -1;
  placement.position.x += move->shift.x;
  placement.position.y += move->shift.y;
  moved = hw_outline_place (motif->outline, &placement);
  for (guint k = 0; k < ex->scene->motifs->len; k++)
    {
      const HwOutline *other = ex->placed[k].outline, *now = ex->placed[move->motif].outline;
      double before, after;

      if (k == move->motif
          || (!hw_box_overlaps (other->box, moved->box) && !hw_box_overlaps (other->box, now->box)))
        continue;
      before = hw_outline_overlap_area (now, other);
      after = hw_outline_overlap_area (moved, other);
      if ((before > HW_ORDER_COMMON_AREA) == (after > HW_ORDER_COMMON_AREA))
        continue;
      if (MAX (before, after) > HARMLESS_AREA)
        return FALSE;
      *met = (int)k;
      *then = after > before;
    }
  return TRUE;
}

static char *
shift_text (HwPoint shift, HwUnit unit)
{
  g_autofree char *across = hw_length_text (fabs (shift.x), unit),
                  *along = hw_length_text (fabs (shift.y), unit);
  g_autofree char *x_text = g_strdup_printf (shift.x < 0 ? _ ("%s left") : _ ("%s right"), across);
  g_autofree char *y_text = g_strdup_printf (shift.y < 0 ? _ ("%s up") : _ ("%s down"), along);

  if (shift.y == 0)
    return g_steal_pointer (&x_text);
  if (shift.x == 0)
    return g_steal_pointer (&y_text);
  return g_strdup_printf (_ ("%s and %s"), x_text, y_text);
}

static char *
move_text (const Moving *moving, const Move *move, const HwPlan *then, int met, gboolean met_then)
{
  const HwExplaining *ex = moving->ex;
  g_autofree char *shift = shift_text (move->shift, moving->advising->unit);
  g_autofree char *gain = hw_advising_gain_text (moving->advising, then);
  const char *name = hw_explaining_name (ex, move->motif);

  if (met < 0)
    return g_strdup_printf (_ ("If %s moved %s, %s."), name, shift, gain);
  return g_strdup_printf (met_then
                              ? _ ("If %s moved %s, %s. It would then overlap %s by a hair.")
                              : _ ("If %s moved %s, %s. It would then no longer overlap %s, as it does by a "
                                   "hair now."),
                          name, shift, gain, hw_explaining_name (ex, (guint)met));
}

/* Plans the move; NULL when it does not help. */
static HwAdvice *
try_move (const Moving *moving, const Move *move)
{
  const HwPlan *plan = moving->ex->plan;
  guint fewest = plan->status == HW_PLAN_OPTIMAL ? plan->n_hoopings : plan->lower_bound;
  double least = plan->least_time_proven ? plan->minutes : plan->minutes_bound;
  g_autoptr (HwAdvice) advice = g_new0 (HwAdvice, 1);
  g_autoptr (HwSnapshot) moved = NULL;
  g_autoptr (HwPlan) then = NULL;
  int met;
  gboolean met_then = FALSE;

  advice->kind = HW_ADVICE_MOVE;
  advice->motif = (int)move->motif;
  advice->shift = move->shift;
  if ((fewest < 2 && !hw_advising_saves_time (moving->advising))
      || !overlaps_stay (moving, move, &met, &met_then))
    return NULL;
  moved = hw_advising_take (moving->advising, advice);
  then = hw_advising_try (moving->advising, moving->advising->planner, moved,
                          hw_advising_less_than (moving->advising, fewest, least));
  if (then == NULL)
    return NULL;
  advice->hoopings_then = then->n_hoopings;
  advice->proven_then = then->status == HW_PLAN_OPTIMAL;
  advice->minutes_then = then->minutes;
  advice->text = move_text (moving, move, then, met, met_then);
  return g_steal_pointer (&advice);
}

static void
try_moves (const Moving *moving, GPtrArray *found)
{
  g_autofree gboolean *told = g_new0 (gboolean, moving->ex->scene->motifs->len + 1);
  guint n = 0;

  for (guint k = 0; k < moving->moves->len && n < MOST_ADVICE && !hw_advising_is_over (moving->advising); k++)
    {
      const Move *move = &g_array_index (moving->moves, Move, k);
      HwAdvice *advice;

      if (told[move->motif] || (k > 0 && compare_moves (move, move - 1) == 0))
        continue;
      advice = try_move (moving, move);
      if (advice == NULL)
        continue;
      g_ptr_array_add (found, advice);
      told[move->motif] = TRUE;
      n++;
    }
}

void
hw_advise_moves (HwAdvising *advising, GPtrArray *found)
{
  Moving moving = { .advising = advising, .ex = advising->ex };

  if (advising->plan->status == HW_PLAN_UNPLANNABLE || advising->plan->n_hoopings < 2)
    return;
  moving.moves = g_array_new (FALSE, FALSE, sizeof (Move));
  find_what_matters (&moving);
  for (guint i = 0; i < advising->plan->snapshot->motifs->len && !hw_advising_is_over (advising); i++)
    if (may_move (&moving, i))
      {
        add_moves_in_proof (&moving, i);
        add_moves_to_hoopings (&moving, i);
      }
  g_array_sort (moving.moves, compare_moves);
  try_moves (&moving, found);
  g_array_unref (moving.moves);
  g_free (moving.matters);
}
