/* The bench and the artwork of its scene: the scene is on the table at once, with outlines, and its artwork is read away from the window. What has been
 * read is given to every state of the scene there is, so that undo leads to no bare outlines and nothing counts as changed; it is no edit. The
 * shelf keeps what was read, so that a scene opened again is not read again. */
#include "../drawing/at-work.h"
#include "bench.h"

#include <glib/gi18n.h>

#include "bench-private.h"

#define GIVEN_EVERY 80 /* ms */

/* One reading. It belongs to its task; the bench only knows it as long as it is wanted. */
struct _HwArtworkIntake
{
  HwBench *bench; /* NULL: nobody wants it any more */
  HwArtworkShelf *shelf;
  char *folder;
  GPtrArray *motifs; /* HwMotif, one for each file */
  gint n_read;       /* counted up by the threads that read */
  gint n_given;
  guint tick; /* source */
  GCancellable *cancellable;
};

static void
intake_free (gpointer data)
{
  HwArtworkIntake *intake = data;

  hw_artwork_shelf_unref (intake->shelf);
  g_ptr_array_unref (intake->motifs);
  g_object_unref (intake->cancellable);
  g_free (intake->folder);
  g_free (intake);
}

/* --- What has been read is given to the scene and to its history */

typedef struct
{
  HwBench *bench;
  GHashTable *motifs; /* HwMotif that awaited artwork -> the same with it */
  GHashTable *states; /* HwSnapshot -> the same with artwork */
  GHashTable
      *right; /* HwMotif that shows what is on the shelf; NULL: only what awaits artwork is looked at */
} Giving;

static gboolean
shows_what_is_there (Giving *giving, const HwMotif *motif)
{
  if (g_hash_table_contains (giving->motifs, motif))
    return FALSE;
  if (g_hash_table_contains (giving->right, motif))
    return TRUE;
  if (hw_artwork_shelf_has_other (giving->bench->shelf, giving->bench->folder, motif))
    return FALSE;
  g_hash_table_add (giving->right, hw_motif_ref (motif));
  return TRUE;
}

static gboolean
is_to_be_given (Giving *giving, const HwMotif *motif)
{
  return motif->artwork_awaited || (giving->right != NULL && !shows_what_is_there (giving, motif));
}

/* Returns: (transfer full): it awaits artwork, as if nothing had been read */
static HwMotif *
bare_copy (const HwMotif *motif)
{
  HwMotif *copy = hw_motif_copy (motif);

  g_clear_pointer (&copy->needles, hw_needle_list_unref);
  g_clear_pointer (&copy->picture, hw_picture_unref);
  g_clear_pointer (&copy->artwork_trouble, g_free);
  copy->picture_pixels_per_mm = 0;
  copy->artwork_awaited = TRUE;
  return copy;
}

/* Returns: (transfer none) (nullable): NULL when its artwork is not there yet */
static HwMotif *
with_artwork (Giving *giving, const HwMotif *motif)
{
  HwMotif *given = g_hash_table_lookup (giving->motifs, motif);

  if (given != NULL)
    return given;
  given = bare_copy (motif);
  if (!hw_artwork_shelf_fill_at_hand (giving->bench->shelf, giving->bench->folder, given))
    {
      hw_motif_unref (given);
      return NULL;
    }
  g_hash_table_insert (giving->motifs, hw_motif_ref (motif), given);
  return given;
}

/* The same pointer for the same state: whether the scene is as it was saved is then seen at a glance. Returns: (transfer full) */
static HwSnapshot *
state_with_artwork (const HwSnapshot *state, gpointer user_data)
{
  Giving *giving = user_data;
  HwSnapshot *changed = g_hash_table_lookup (giving->states, state);

  if (changed != NULL)
    return hw_snapshot_ref (changed);
  for (guint i = 0; i < state->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (state, i);
      HwMotif *given = is_to_be_given (giving, motif) ? with_artwork (giving, motif) : NULL;

      if (given == NULL)
        continue;
      if (changed == NULL)
        changed = hw_snapshot_copy (state);
      hw_motif_unref (changed->motifs->pdata[i]);
      changed->motifs->pdata[i] = hw_motif_ref (given);
    }
  if (changed == NULL)
    return hw_snapshot_ref (state);
  g_hash_table_insert (giving->states, hw_snapshot_ref (state), changed);
  return hw_snapshot_ref (changed);
}

static void
give (HwBench *bench, gboolean anew)
{
  g_autoptr (HwSnapshot) live = hw_scene_snapshot (bench->scene);
  g_autoptr (GHashTable) motifs
      = g_hash_table_new_full (NULL, NULL, (GDestroyNotify)hw_motif_unref, (GDestroyNotify)hw_motif_unref);
  g_autoptr (GHashTable) states = g_hash_table_new_full (NULL, NULL, (GDestroyNotify)hw_snapshot_unref,
                                                         (GDestroyNotify)hw_snapshot_unref);
  g_autoptr (GHashTable) right
      = anew ? g_hash_table_new_full (NULL, NULL, (GDestroyNotify)hw_motif_unref, NULL) : NULL;
  Giving giving = { bench, motifs, states, right };
  g_autoptr (HwSnapshot) now = state_with_artwork (live, &giving);

  hw_history_replace (bench->history, state_with_artwork, &giving);
  if (bench->edit_start != NULL)
    {
      g_autoptr (HwSnapshot) before = g_steal_pointer (&bench->edit_start);

      bench->edit_start = state_with_artwork (before, &giving);
    }
  if (now == live)
    return;
  bench->renewing = TRUE;
  hw_scene_restore (bench->scene, now);
  bench->renewing = FALSE;
}

void
hw_bench_give_artwork_anew (HwBench *bench)
{
  give (bench, TRUE);
  hw_bench_ask_for_plan (bench);
}

/* --- Reading */

static void
read_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  HwArtworkIntake *intake = data;

  hw_artwork_shelf_read (intake->shelf, intake->folder, intake->motifs, &intake->n_read, cancellable);
  g_task_return_boolean (task, TRUE);
}

/* What comes in is shown a few times a second, not file by file. */
static gboolean
tick_cb (gpointer data)
{
  HwArtworkIntake *intake = data;
  gint n_read = g_atomic_int_get (&intake->n_read);

  if (n_read != intake->n_given)
    give (intake->bench, FALSE);
  intake->n_given = n_read;
  return G_SOURCE_CONTINUE;
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwArtworkIntake *intake = g_task_get_task_data (G_TASK (result));
  HwBench *bench = intake->bench;

  if (bench == NULL)
    return;
  hw_bench_stop_reading (bench);
  hw_bench_read_artwork (bench);
  if (bench->intake != NULL)
    return;
  hw_artwork_shelf_tidy (bench->shelf);
  hw_bench_notify_reading (bench);
  hw_bench_ask_for_plan (bench);
}

static void
begin (HwBench *bench, GPtrArray *motifs)
{
  HwArtworkIntake *intake = g_new0 (HwArtworkIntake, 1);
  g_autoptr (GTask) task = NULL;

  intake->bench = bench;
  intake->shelf = hw_artwork_shelf_ref (bench->shelf);
  intake->folder = g_strdup (bench->folder);
  intake->motifs = g_ptr_array_ref (motifs);
  intake->cancellable = g_cancellable_new ();
  intake->tick = g_timeout_add (GIVEN_EVERY, tick_cb, intake);
  bench->intake = intake;

  task = g_task_new (NULL, intake->cancellable, read_cb, NULL);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, intake, intake_free);
  hw_at_work_run (task, read_thread);
}

static gboolean
awaits_artwork (HwBench *bench)
{
  g_autoptr (HwSnapshot) live = hw_scene_snapshot (bench->scene);

  return hw_snapshot_awaits_artwork (live);
}

void
hw_bench_read_artwork (HwBench *bench)
{
  gboolean was_reading = bench->intake != NULL;
  g_autoptr (HwSnapshot) live = NULL;
  g_autoptr (GPtrArray) motifs = NULL;

  /* The one that reads looks again when it is done. */
  if (was_reading || !awaits_artwork (bench))
    return;
  give (bench, FALSE);
  live = hw_scene_snapshot (bench->scene);
  motifs = hw_artwork_shelf_to_read (bench->shelf, bench->folder, live->motifs);
  if (motifs->len == 0)
    return;
  begin (bench, motifs);
  hw_bench_notify_reading (bench);
}

void
hw_bench_stop_reading (HwBench *bench)
{
  HwArtworkIntake *intake = g_steal_pointer (&bench->intake);

  if (intake == NULL)
    return;
  intake->bench = NULL;
  g_clear_handle_id (&intake->tick, g_source_remove);
  g_cancellable_cancel (intake->cancellable);
}

const HwPlan *
hw_bench_get_ready_plan (HwBench *bench, const char **why)
{
  const char *sentence = NULL;

  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);

  if (bench->plan == NULL)
    sentence = _ ("The plan is not ready yet.");
  else if (hw_snapshot_awaits_artwork (bench->plan->snapshot))
    sentence = _ ("The artwork of the motifs is still being read.");
  if (why != NULL)
    *why = sentence;
  return sentence == NULL ? bench->plan : NULL;
}
