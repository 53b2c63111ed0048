/* The adviser: waits for a final plan and a moment of rest, looks for advice in the background, and forgets it as soon as the scene changes. */
#include "adviser.h"

#include <glib/gi18n.h>

#define REST 700 /* ms */

struct _HwAdviser
{
  GObject parent_instance;

  HwBench *bench;
  HwPlan *plan; /* the one the advice is for */
  GPtrArray *advice;
  GCancellable *cancellable; /* of a search that is going on */
  guint rest_source;
};

G_DEFINE_FINAL_TYPE (HwAdviser, hw_adviser, G_TYPE_OBJECT)

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static gboolean
is_at_rest (HwAdviser *adviser)
{
  const HwPlan *plan = hw_bench_get_plan (adviser->bench);
  gboolean planning;

  g_object_get (adviser->bench, "planning", &planning, NULL);
  return plan != NULL && !planning && !hw_bench_is_editing (adviser->bench)
         && plan->snapshot->motifs->len > 0;
}

static void
stop (HwAdviser *adviser)
{
  if (adviser->cancellable != NULL)
    g_cancellable_cancel (adviser->cancellable);
  g_clear_object (&adviser->cancellable);
  g_clear_handle_id (&adviser->rest_source, g_source_remove);
}

static void
forget (HwAdviser *adviser)
{
  gboolean had = adviser->advice != NULL;

  g_clear_pointer (&adviser->advice, g_ptr_array_unref);
  g_clear_pointer (&adviser->plan, hw_plan_unref);
  if (had)
    g_signal_emit (adviser, signals[CHANGED], 0);
}

static void
found_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (HwAdviser) adviser = user_data;
  g_autoptr (GError) error = NULL;
  GPtrArray *advice = hw_advice_find_finish (result, &error);

  if (advice == NULL)
    return;
  if (adviser->bench == NULL)
    {
      g_ptr_array_unref (advice);
      return;
    }
  g_clear_pointer (&adviser->advice, g_ptr_array_unref);
  adviser->advice = advice;
  g_clear_object (&adviser->cancellable);
  g_signal_emit (adviser, signals[CHANGED], 0);
}

static gboolean
rested_cb (gpointer user_data)
{
  HwAdviser *adviser = user_data;

  if (hw_bench_is_editing (adviser->bench))
    return G_SOURCE_CONTINUE;
  adviser->rest_source = 0;
  if (!is_at_rest (adviser))
    return G_SOURCE_REMOVE;
  g_clear_pointer (&adviser->plan, hw_plan_unref);
  adviser->plan = hw_plan_ref (hw_bench_get_plan (adviser->bench));
  adviser->cancellable = g_cancellable_new ();
  hw_advice_find_async (adviser->plan, hw_bench_get_unit (adviser->bench), adviser->cancellable, found_cb,
                        g_object_ref (adviser));
  return G_SOURCE_REMOVE;
}

static void
start_over (HwAdviser *adviser)
{
  gboolean planning;

  stop (adviser);
  forget (adviser);
  g_object_get (adviser->bench, "planning", &planning, NULL);
  if (!planning)
    adviser->rest_source = g_timeout_add (REST, rested_cb, adviser);
}

static void
plan_cb (HwBench *bench, HwAdviser *adviser)
{
  start_over (adviser);
}

static void
planning_cb (HwBench *bench, GParamSpec *pspec, HwAdviser *adviser)
{
  start_over (adviser);
}

static void
hw_adviser_dispose (GObject *object)
{
  HwAdviser *adviser = HW_ADVISER (object);

  stop (adviser);
  g_clear_pointer (&adviser->advice, g_ptr_array_unref);
  g_clear_pointer (&adviser->plan, hw_plan_unref);
  g_clear_object (&adviser->bench);
  G_OBJECT_CLASS (hw_adviser_parent_class)->dispose (object);
}

static void
hw_adviser_class_init (HwAdviserClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_adviser_dispose;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
hw_adviser_init (HwAdviser *adviser)
{
}

HwAdviser *
hw_adviser_new (HwBench *bench)
{
  HwAdviser *adviser = g_object_new (HW_TYPE_ADVISER, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), adviser);
  adviser->bench = g_object_ref (bench);
  g_signal_connect_object (bench, "plan-changed", G_CALLBACK (plan_cb), adviser, 0);
  g_signal_connect_object (bench, "notify::planning", G_CALLBACK (planning_cb), adviser, 0);
  start_over (adviser);
  return adviser;
}

GPtrArray *
hw_adviser_get_advice (HwAdviser *adviser)
{
  g_return_val_if_fail (HW_IS_ADVISER (adviser), NULL);
  return adviser->advice;
}

static char *
step_name (const HwPlan *plan, const HwAdvice *advice)
{
  const char *verb = advice->kind == HW_ADVICE_SCALE  ? _ ("resize")
                     : advice->kind == HW_ADVICE_TURN ? _ ("turn")
                                                      : _ ("move");

  if (advice->kind == HW_ADVICE_HOOP)
    return g_strdup (_ ("add a hoop"));
  return g_strdup_printf (_ ("%s %s"), verb, hw_snapshot_motif (plan->snapshot, (guint)advice->motif)->name);
}

gboolean
hw_adviser_take (HwAdviser *adviser, guint advice)
{
  g_return_val_if_fail (HW_IS_ADVISER (adviser), FALSE);

  if (adviser->advice == NULL || advice >= adviser->advice->len || hw_bench_is_editing (adviser->bench))
    return FALSE;
  const HwAdvice *taken = g_ptr_array_index (adviser->advice, advice);
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (hw_bench_get_scene (adviser->bench));
  g_autoptr (HwPlan) plan = hw_plan_beside (adviser->plan, now);
  if (plan == NULL)
    return FALSE;
  g_autoptr (HwSnapshot) changed = hw_advice_apply (plan, taken);
  g_autofree char *name = step_name (adviser->plan, taken);
  hw_bench_take_snapshot (adviser->bench, name, changed);
  return TRUE;
}
