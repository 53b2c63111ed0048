/* The needle list of a hooping. Motif by motif, or block by block where the plan mixes them, the stitches are laid where the motif lies on the cloth and then
 * into the hoop. What joins the pieces is the usual way (common practice, no source): cut the thread, change it if need be, move to
 * where the next piece begins. */
#include "hooping-needles.h"

#include <math.h>

#include "../geometry/language.h"
#include "../registration/correction.h"
#include "../scene/needle-runs.h"

G_DEFINE_QUARK (hw_hooping_needles_error_quark, hw_hooping_needles_error)

#define DECIMALS 1000.0

/* One motif on its way into the list. */
typedef struct
{
  guint motif;    /* index into the snapshot's */
  GArray *runs;   /* HwNeedleRun */
  guint next_run; /* the first not laid yet */
  double outside; /* mm: how far it passes the field */
} Piece;

typedef struct
{
  const HwPlan *plan;
  const HwHooping *hooping;
  const HwHoop *hoop;
  const HwCorrection *correction;
  GArray *pieces;    /* Piece, in the order of the hooping's motifs */
  GArray *points;    /* HwNeedlePoint */
  GArray *blocks;    /* HwNeedleBlock */
  GArray *threads;   /* HwThreadBlock, borrowed */
  GPtrArray *names;  /* of the threads */
  GHashTable *taken; /* those names, as a set */
  int thread;        /* the one that is in; -1: none yet */
  int piece;         /* the one stitched last; -1: none yet */
  gboolean sewing;   /* the thread hangs on the cloth: not cut since the last stitch */
  guint thread_changes;
} Laying;

static void
piece_clear (gpointer data)
{
  Piece *piece = data;

  g_clear_pointer (&piece->runs, g_array_unref);
}

static void
laying_init (Laying *laying, const HwPlan *plan, guint hooping, const HwCorrection *correction)
{
  *laying = (Laying){ .plan = plan,
                      .hooping = &plan->hoopings[hooping],
                      .hoop = hw_snapshot_hoop (plan->snapshot, plan->hoopings[hooping].hoop),
                      .correction = correction,
                      .thread = -1,
                      .piece = -1 };
  laying->pieces = g_array_new (FALSE, TRUE, sizeof (Piece));
  g_array_set_clear_func (laying->pieces, piece_clear);
  laying->points = g_array_new (FALSE, FALSE, sizeof (HwNeedlePoint));
  laying->blocks = g_array_new (FALSE, FALSE, sizeof (HwNeedleBlock));
  laying->threads = g_array_new (FALSE, FALSE, sizeof (HwThreadBlock));
  laying->names = g_ptr_array_new_null_terminated (0, g_free, TRUE);
  laying->taken = g_hash_table_new (g_str_hash, g_str_equal);
}

static void
laying_clear (Laying *laying)
{
  g_array_unref (laying->pieces);
  g_array_unref (laying->points);
  g_array_unref (laying->blocks);
  g_array_unref (laying->threads);
  g_hash_table_unref (laying->taken);
  g_ptr_array_unref (laying->names);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Laying, laying_clear)

static const HwMotif *
motif_of (const Laying *laying, const Piece *piece)
{
  return hw_snapshot_motif (laying->plan->snapshot, piece->motif);
}

/* "Gate, Quince and Fig branch", each name once. */
static char *
names_text (GPtrArray *names)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k < names->len; k++)
    {
      if (k > 0)
        g_string_append (text, k + 1 == names->len ? _ (" and ") : _ (", "));
      g_string_append (text, names->pdata[k]);
    }
  return g_string_free (text, FALSE);
}

static void
add_name (GPtrArray *names, const char *name)
{
  if (!g_ptr_array_find_with_equal_func (names, name, g_str_equal, NULL))
    g_ptr_array_add (names, (gpointer)name);
}

/* --- What the hooping holds */

/* The motifs whose stitches are known become pieces; FALSE when there are others. */
static gboolean
gather (Laying *laying, GError **error)
{
  g_autoptr (GPtrArray) not_known = g_ptr_array_new (), threadless = g_ptr_array_new ();
  guint number = (guint)(laying->hooping - laying->plan->hoopings) + 1;
  g_autofree char *names = NULL;

  for (guint k = 0; k < laying->hooping->n_motifs; k++)
    {
      Piece piece = { .motif = laying->hooping->motifs[k] };
      const HwMotif *motif = motif_of (laying, &piece);

      if (motif->needles == NULL || motif->needles->n_stitches == 0)
        add_name (not_known, motif->name);
      else if (motif->n_threads == 0)
        add_name (threadless, motif->name);
      else
        {
          piece.runs = hw_needle_runs (motif);
          g_array_append_val (laying->pieces, piece);
        }
    }
  if (laying->hooping->n_motifs == 0)
    {
      g_set_error (error, HW_HOOPING_NEEDLES_ERROR, HW_HOOPING_NEEDLES_ERROR_NOT_KNOWN,
                   _ ("Hooping %u has no needle list: no motif is stitched in it."), number);
      return FALSE;
    }
  if (not_known->len + threadless->len == 0)
    return TRUE;
  names = names_text (not_known->len > 0 ? not_known : threadless);
  if (not_known->len > 0)
    g_set_error (
        error, HW_HOOPING_NEEDLES_ERROR, HW_HOOPING_NEEDLES_ERROR_NOT_KNOWN,
        ngettext ("Hooping %u has no needle list: of %s only the outline is known, not the stitches. "
                  "Bring the motif in from a needle list first.",
                  "Hooping %u has no needle list: of %s only the outlines are known, not the "
                  "stitches. Bring these motifs in from needle lists first.",
                  not_known->len),
        number, names);
  else
    g_set_error (error, HW_HOOPING_NEEDLES_ERROR, HW_HOOPING_NEEDLES_ERROR_NOT_KNOWN,
                 _ ("Hooping %u has no needle list: no thread is named for %s. Name the threads first."),
                 number, names);
  return FALSE;
}

static int
piece_of_motif (const Laying *laying, guint motif)
{
  for (guint p = 0; p < laying->pieces->len; p++)
    if (g_array_index (laying->pieces, Piece, p).motif == motif)
      return (int)p;
  return -1;
}

/* --- Threads */

/* A name no other thread of the list has. */
static char *
free_name (const Laying *laying, const HwThreadBlock *thread)
{
  g_autofree char *colour = hw_colour_text (thread->colour);
  const char *own = thread->name != NULL && *thread->name != '\0' ? thread->name : colour;
  char *name = g_strdup (own);

  for (guint n = 1; g_hash_table_contains (laying->taken, name); n++)
    {
      g_free (name);
      name = n == 1 ? g_strdup_printf ("%s (%s)", own, colour)
                    : g_strdup_printf ("%s (%s, %u)", own, colour, n);
    }
  return name;
}

static guint
thread_number (Laying *laying, const HwThreadBlock *thread)
{
  char *name;

  for (guint t = 0; t < laying->threads->len; t++)
    if (hw_thread_same (&g_array_index (laying->threads, HwThreadBlock, t), thread))
      return t;
  name = free_name (laying, thread);
  g_array_append_val (laying->threads, *thread);
  g_ptr_array_add (laying->names, name);
  g_hash_table_add (laying->taken, name);
  return laying->threads->len - 1;
}

/* --- Points */

static HwPoint
into_hoop (const Laying *laying, const HwMotif *motif, HwPoint p)
{
  HwPoint on_cloth = hw_placement_apply (&motif->placement, p);
  HwPoint centre = laying->hooping->centre;
  HwPoint in_hoop
      = hw_point_turn ((HwPoint){ on_cloth.x - centre.x, on_cloth.y - centre.y }, -laying->hooping->angle);

  return laying->correction != NULL ? hw_correction_apply (laying->correction, in_hoop) : in_hoop;
}

/* To a thousandth, but never to one beyond the field's side: half a field need not be a whole number of them. */
static double
rounded (double at, double half_field)
{
  double most = floor (half_field * DECIMALS + 1e-6);

  return CLAMP (round (at * DECIMALS), -most, most) / DECIMALS;
}

static void
add_point (Laying *laying, HwPoint at, HwNeedleAction action)
{
  HwNeedlePoint point = { .x = (float)rounded (at.x, laying->hoop->field_width / 2),
                          .y = (float)rounded (at.y, laying->hoop->field_height / 2),
                          .thread = (guint16)laying->thread,
                          .action = action };

  g_array_append_val (laying->points, point);
}

/* Where the needle stands. */
static HwPoint
place_now (const Laying *laying)
{
  const HwNeedlePoint *last = &g_array_index (laying->points, HwNeedlePoint, laying->points->len - 1);

  return (HwPoint){ last->x, last->y };
}

static void
cut (Laying *laying)
{
  if (laying->sewing)
    add_point (laying, place_now (laying), HW_NEEDLE_TRIM);
  laying->sewing = FALSE;
}

static void
put_in (Laying *laying, guint thread)
{
  if (laying->thread == (int)thread)
    return;
  cut (laying);
  laying->thread = (int)thread;
  if (laying->points->len == 0)
    {
      add_point (laying, (HwPoint){ 0, 0 }, HW_NEEDLE_JUMP);
      return;
    }
  add_point (laying, place_now (laying), HW_NEEDLE_COLOUR);
  laying->thread_changes++;
}

/* How far a place lies outside the field; 0: it does not. */
static double
past_field (const Laying *laying, HwPoint at)
{
  return MAX (MAX (fabs (at.x) - laying->hoop->field_width / 2, fabs (at.y) - laying->hoop->field_height / 2),
              0);
}

static gboolean
moves (const HwNeedlePoint *point)
{
  return point->action == HW_NEEDLE_STITCH || point->action == HW_NEEDLE_JUMP;
}

/* After another motif the needle is brought back to where this one's list goes on from, or to its first stitch when it begins there. */
static void
move_to_begin (Laying *laying, const HwMotif *motif, const HwNeedleRun *run)
{
  const HwNeedlePoint *points = motif->needles->points;
  guint first = run->first, from;

  while (first < run->end && !moves (&points[first]))
    first++;
  if (first == run->end || points[first].action == HW_NEEDLE_JUMP)
    return;
  for (from = first; from > 0 && !moves (&points[from - 1]); from--)
    ;
  from = from > 0 ? from - 1 : first;
  add_point (laying, into_hoop (laying, motif, (HwPoint){ points[from].x, points[from].y }), HW_NEEDLE_JUMP);
}

static void
lay_points (Laying *laying, Piece *piece, const HwNeedleRun *run)
{
  const HwMotif *motif = motif_of (laying, piece);

  for (guint i = run->first; i < run->end; i++)
    {
      const HwNeedlePoint *point = &motif->needles->points[i];
      HwPoint at = into_hoop (laying, motif, (HwPoint){ point->x, point->y });

      if (point->action == HW_NEEDLE_TRIM)
        cut (laying);
      if (!moves (point))
        continue;
      add_point (laying, at, point->action);
      laying->sewing = laying->sewing || point->action == HW_NEEDLE_STITCH;
      piece->outside = MAX (piece->outside, past_field (laying, at));
    }
}

static void
lay_run (Laying *laying, guint index, const HwNeedleRun *run)
{
  Piece *piece = &g_array_index (laying->pieces, Piece, index);
  const HwMotif *motif = motif_of (laying, piece);
  guint thread = thread_number (laying, &motif->threads[run->thread]);
  HwNeedleBlock block = { .motif = piece->motif, .thread = thread };

  if (laying->piece != (int)index)
    cut (laying);
  put_in (laying, thread);
  block.first = laying->points->len;
  if (laying->piece != (int)index)
    move_to_begin (laying, motif, run);
  lay_points (laying, piece, run);
  block.end = laying->points->len;
  g_array_append_val (laying->blocks, block);
  laying->piece = (int)index;
}

/* All runs of the motif that belong to its blocks up to this one. */
static void
lay_block (Laying *laying, guint index, guint block)
{
  Piece *piece = &g_array_index (laying->pieces, Piece, index);

  while (piece->next_run < piece->runs->len
         && g_array_index (piece->runs, HwNeedleRun, piece->next_run).block <= block)
    lay_run (laying, index, &g_array_index (piece->runs, HwNeedleRun, piece->next_run++));
}

static void
go_home (Laying *laying)
{
  cut (laying);
  add_point (laying, (HwPoint){ 0, 0 }, HW_NEEDLE_JUMP);
  add_point (laying, (HwPoint){ 0, 0 }, HW_NEEDLE_END);
}

/* --- What it must keep to */

static gboolean
check_field (const Laying *laying, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autofree char *list = NULL, *field = NULL, *by = NULL;
  double worst = 0;

  for (guint p = 0; p < laying->pieces->len; p++)
    {
      const Piece *piece = &g_array_index (laying->pieces, Piece, p);

      if (piece->outside <= HW_HOOPING_NEEDLES_STEP)
        continue;
      add_name (names, motif_of (laying, piece)->name);
      worst = MAX (worst, piece->outside);
    }
  if (names->len == 0)
    return TRUE;
  list = names_text (names);
  by = hw_length_text (MAX (worst, 0.1), laying->plan->unit);
  field = hw_size_text (laying->hoop->field_width, laying->hoop->field_height, laying->plan->unit);
  g_set_error (
      error, HW_HOOPING_NEEDLES_ERROR, HW_HOOPING_NEEDLES_ERROR_OUTSIDE_FIELD,
      laying->correction != NULL
          ? ngettext ("Hooping %u has no needle list: with its correction, %s passes the field of "
                      "%s by %s. Hoop the cloth again, closer to its marks.",
                      "Hooping %u has no needle list: with its correction, %s pass the field of "
                      "%s by up to %s. Hoop the cloth again, closer to its marks.",
                      names->len)
          : ngettext ("Hooping %u has no needle list: the stitches of %s pass the field of %s by %s. "
                      "Make the motif's outline hold all of its stitches.",
                      "Hooping %u has no needle list: the stitches of %s pass the field of %s by up "
                      "to %s. Make the motifs' outlines hold all of their stitches.",
                      names->len),
      (guint)(laying->hooping - laying->plan->hoopings) + 1, list, field, by);
  return FALSE;
}

static gboolean
check_threads (const Laying *laying, GError **error)
{
  if (laying->threads->len <= HW_MOST_NEEDLE_THREADS)
    return TRUE;
  g_set_error (error, HW_HOOPING_NEEDLES_ERROR, HW_HOOPING_NEEDLES_ERROR_THREADS,
               _ ("Hooping %u has no needle list: it is stitched in %u threads, and a list may name %u."),
               (guint)(laying->hooping - laying->plan->hoopings) + 1, laying->threads->len,
               HW_MOST_NEEDLE_THREADS);
  return FALSE;
}

static HwHoopingNeedles *
take (Laying *laying)
{
  HwHoopingNeedles *needles = g_new0 (HwHoopingNeedles, 1);
  guint n_points = laying->points->len;

  needles->plan = hw_plan_ref (laying->plan);
  needles->hooping = (guint)(laying->hooping - laying->plan->hoopings);
  needles->thread_changes = laying->thread_changes;
  needles->stitches_told = laying->hooping->stitches;
  needles->colours = g_new (HwColour, laying->threads->len + 1);
  for (guint t = 0; t < laying->threads->len; t++)
    needles->colours[t] = g_array_index (laying->threads, HwThreadBlock, t).colour;
  needles->n_blocks = laying->blocks->len;
  needles->blocks = (HwNeedleBlock *)(gpointer)g_array_steal (laying->blocks, NULL);
  needles->needles = hw_needle_list_new ((HwNeedlePoint *)(gpointer)g_array_steal (laying->points, NULL),
                                         n_points, g_strdupv ((char **)laying->names->pdata));
  return needles;
}

HwHoopingNeedles *
hw_hooping_needles_new (const HwPlan *plan, guint hooping, const HwCorrection *correction, GError **error)
{
  g_auto (Laying) laying = { 0 };
  g_autoptr (GArray) steps = NULL;

  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, NULL);

  laying_init (&laying, plan, hooping, correction);
  if (!gather (&laying, error))
    return NULL;
  steps = hw_plan_steps (plan, hooping);
  for (guint s = 0; s < steps->len; s++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, s);
      int index = piece_of_motif (&laying, step->motif);

      g_assert (index >= 0);
      lay_block (&laying, (guint)index, step->block);
    }
  g_assert (laying.points->len > 0); /* each piece has a stitch, and so a run */
  go_home (&laying);
  if (!check_threads (&laying, error) || !check_field (&laying, error))
    return NULL;
  return take (&laying);
}

void
hw_hooping_needles_free (HwHoopingNeedles *needles)
{
  g_return_if_fail (needles != NULL);

  hw_needle_list_unref (needles->needles);
  hw_plan_unref (needles->plan);
  g_free (needles->colours);
  g_free (needles->blocks);
  g_free (needles);
}
