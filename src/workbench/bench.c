/* The bench: one scene being worked on, with its file, its history, its plan and what is chosen on it. It hears what changed in the
 * scene, asks for a new plan, and tells the canvas and the panes. Nothing here draws and nothing here needs a screen. */
#include "bench.h"

#include "bench-private.h"

G_DEFINE_FINAL_TYPE (HwBench, hw_bench, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_SCENE,
  PROP_PLAN,
  PROP_PLANNING,
  PROP_UNIT,
  PROP_CHOSEN_HOOPING,
  PROP_STAGE,
  PROP_MODIFIED,
  PROP_PATH,
  PROP_UNDO_NAME,
  PROP_REDO_NAME,
  PROP_READING,
  N_PROPS
};

enum
{
  SELECTION_CHANGED,
  PLAN_CHANGED,
  SCENE_CHANGED,
  POINTED_OUT_CHANGED,
  FILES_LOOKED_AT,
  TAKEN_BACK,
  N_SIGNALS
};

#define SECONDS_FOR_A_PLAN 5.0

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

void
hw_bench_ask_for_plan (HwBench *bench)
{
  HwPlanOptions options = { .seconds = SECONDS_FOR_A_PLAN, .unit = bench->unit };
  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (bench->scene);

  hw_plan_runner_ask (bench->runner, snapshot, &options);
}

void
hw_bench_notify_history (HwBench *bench)
{
  gboolean modified = !hw_history_is_saved (bench->history);

  if (modified != bench->modified)
    {
      bench->modified = modified;
      g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_MODIFIED]);
    }
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_UNDO_NAME]);
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_REDO_NAME]);
}

void
hw_bench_notify_reading (HwBench *bench)
{
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_READING]);
}

/* How many motifs a hooping of one plan has in common, by id, with one of another. */
static guint
common_motifs (const HwPlan *a, const HwHooping *in_a, const HwPlan *b, const HwHooping *in_b)
{
  guint n = 0;

  for (guint i = 0; i < in_a->n_motifs; i++)
    for (guint j = 0; j < in_b->n_motifs; j++)
      if (g_str_equal (hw_snapshot_motif (a->snapshot, in_a->motifs[i])->id,
                       hw_snapshot_motif (b->snapshot, in_b->motifs[j])->id))
        n++;
  return n;
}

/* The hooping of the new plan that means the same as one of the old: the one with most motifs in common, else -1. */
static int
same_hooping (const HwPlan *old, int hooping, const HwPlan *plan)
{
  int best = -1;
  guint most = 0;

  if (old == NULL || hooping < 0 || hooping >= (int)old->n_hoopings)
    return hooping < (int)plan->n_hoopings ? hooping : -1;

  for (guint i = 0; i < plan->n_hoopings; i++)
    {
      guint n = common_motifs (old, &old->hoopings[hooping], plan, &plan->hoopings[i]);

      if (n > most || (n == most && n > 0 && (int)i == hooping))
        {
          most = n;
          best = (int)i;
        }
    }
  return best;
}

static void
set_chosen (HwBench *bench, int hooping)
{
  if (bench->chosen_hooping == hooping)
    return;
  bench->chosen_hooping = hooping;
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_CHOSEN_HOOPING]);
}

static void
set_stage (HwBench *bench, int stage)
{
  if (bench->stage == stage)
    return;
  bench->stage = stage;
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_STAGE]);
}

/* The plan beside the scene as it is now, if it still is the scene's. Returns: (transfer full) */
static HwPlan *
plan_of_now (HwBench *bench, const HwPlan *plan)
{
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (bench->scene);
  HwPlan *beside = hw_plan_beside (plan, now);

  return beside != NULL ? beside : hw_plan_ref (plan);
}

static void
take_plan (HwBench *bench, const HwPlan *fresh)
{
  HwPlan *old = bench->plan;
  g_autoptr (HwPlan) plan = plan_of_now (bench, fresh);
  int chosen = bench->chosen_hooping;
  int stage = bench->stage;

  bench->plan = hw_plan_ref (plan);
  if (chosen >= 0)
    chosen = same_hooping (old, chosen, plan);
  if (stage >= 0 && old != NULL && stage >= (int)old->n_hoopings)
    stage = (int)plan->n_hoopings;
  else if (stage >= 0)
    stage = same_hooping (old, stage, plan);
  g_clear_pointer (&old, hw_plan_unref);

  g_object_freeze_notify (G_OBJECT (bench));
  set_chosen (bench, chosen);
  set_stage (bench, stage);
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_PLAN]);
  g_object_thaw_notify (G_OBJECT (bench));
  g_signal_emit (bench, signals[PLAN_CHANGED], 0);
}

static void
planned_cb (HwPlanRunner *runner, gpointer plan, gboolean last, HwBench *bench)
{
  take_plan (bench, plan);
}

static void
busy_cb (HwPlanRunner *runner, GParamSpec *pspec, HwBench *bench)
{
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_PLANNING]);
}

/* The plan stays as it is, and nobody needs to look at it again; only the scene it holds is the newer one. */
static void
keep_plan (HwBench *bench)
{
  HwPlan *old = bench->plan;

  if (old == NULL)
    return;
  bench->plan = plan_of_now (bench, old);
  hw_plan_unref (old);
}

/* Names and notes do not change the plan, but its sentences and the sheets speak them, so they are planned anew like what lies on the cloth. Readings typed
 * at the machine, photographs and threads at hand start nothing. */
static void
scene_changed_cb (HwScene *scene, guint flags, HwBench *bench)
{
  if (flags & HW_SCENE_CHANGE_MOTIF_LIST && hw_bench_prune_selection (bench))
    hw_bench_emit_selection_changed (bench);
  if (flags & HW_SCENE_CHANGE_PLAN_SPEAKS && !bench->renewing)
    hw_bench_ask_for_plan (bench);
  else if (!bench->renewing)
    keep_plan (bench);
  g_signal_emit (bench, signals[SCENE_CHANGED], 0, flags);
}

static void
hw_bench_constructed (GObject *object)
{
  HwBench *bench = HW_BENCH (object);

  G_OBJECT_CLASS (hw_bench_parent_class)->constructed (object);

  if (bench->scene == NULL)
    bench->scene = hw_scene_new ();
  g_autoptr (HwSnapshot) start = hw_scene_snapshot (bench->scene);
  bench->history = hw_history_new (start);
  hw_history_mark_saved (bench->history);
  bench->copies = hw_photo_copies_new ();
  bench->shelf = hw_artwork_shelf_new ();

  bench->runner = hw_plan_runner_new ();
  g_signal_connect_object (bench->runner, "planned", G_CALLBACK (planned_cb), bench, 0);
  g_signal_connect_object (bench->runner, "notify::busy", G_CALLBACK (busy_cb), bench, 0);
  g_signal_connect_object (bench->scene, "changed", G_CALLBACK (scene_changed_cb), bench, 0);
  hw_bench_ask_for_plan (bench);
}

static void
hw_bench_finalize (GObject *object)
{
  HwBench *bench = HW_BENCH (object);

  hw_bench_stop_reading (bench);
  hw_bench_forget_files (bench);
  g_clear_pointer (&bench->photos_seen, g_hash_table_unref);
  g_clear_pointer (&bench->file_folders, g_ptr_array_unref);
  g_clear_pointer (&bench->shelf, hw_artwork_shelf_unref);
  hw_photo_copies_let_go (bench->copies);
  g_clear_pointer (&bench->copies, hw_photo_copies_free);
  g_clear_object (&bench->runner);
  g_clear_object (&bench->scene);
  g_clear_pointer (&bench->history, hw_history_free);
  g_clear_pointer (&bench->plan, hw_plan_unref);
  g_clear_pointer (&bench->selected, g_hash_table_unref);
  g_clear_pointer (&bench->pointed_out, g_hash_table_unref);
  g_clear_pointer (&bench->beside, hw_snapshot_unref);
  g_clear_pointer (&bench->edit_start, hw_snapshot_unref);
  g_free (bench->edit_name);
  g_free (bench->path);
  g_free (bench->folder);
  g_free (bench->newer_path);

  G_OBJECT_CLASS (hw_bench_parent_class)->finalize (object);
}

static void
hw_bench_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  HwBench *bench = HW_BENCH (object);

  switch (prop_id)
    {
    case PROP_SCENE:
      g_value_set_object (value, bench->scene);
      break;
    case PROP_PLAN:
      g_value_set_pointer (value, bench->plan);
      break;
    case PROP_PLANNING:
      g_value_set_boolean (value, hw_plan_runner_is_busy (bench->runner));
      break;
    case PROP_UNIT:
      g_value_set_int (value, (int)bench->unit);
      break;
    case PROP_CHOSEN_HOOPING:
      g_value_set_int (value, bench->chosen_hooping);
      break;
    case PROP_STAGE:
      g_value_set_int (value, bench->stage);
      break;
    case PROP_MODIFIED:
      g_value_set_boolean (value, bench->modified);
      break;
    case PROP_PATH:
      g_value_set_string (value, bench->path);
      break;
    case PROP_UNDO_NAME:
      g_value_set_string (value, hw_history_undo_name (bench->history));
      break;
    case PROP_REDO_NAME:
      g_value_set_string (value, hw_history_redo_name (bench->history));
      break;
    case PROP_READING:
      g_value_set_boolean (value, bench->intake != NULL);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
hw_bench_set_property (GObject *object, guint prop_id, const GValue *value, GParamSpec *pspec)
{
  HwBench *bench = HW_BENCH (object);

  switch (prop_id)
    {
    case PROP_SCENE:
      bench->scene = g_value_dup_object (value);
      break;
    case PROP_UNIT:
      hw_bench_set_unit (bench, (HwUnit)g_value_get_int (value));
      break;
    case PROP_CHOSEN_HOOPING:
      hw_bench_choose_hooping (bench, g_value_get_int (value));
      break;
    case PROP_STAGE:
      hw_bench_set_stage (bench, g_value_get_int (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
hw_bench_class_init (HwBenchClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags readable = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;
  const GParamFlags writable = G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS;

  object_class->constructed = hw_bench_constructed;
  object_class->finalize = hw_bench_finalize;
  object_class->get_property = hw_bench_get_property;
  object_class->set_property = hw_bench_set_property;

  properties[PROP_SCENE]
      = g_param_spec_object ("scene", NULL, NULL, HW_TYPE_SCENE,
                             G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  properties[PROP_PLAN] = g_param_spec_pointer ("plan", NULL, NULL, readable);
  properties[PROP_PLANNING] = g_param_spec_boolean ("planning", NULL, NULL, FALSE, readable);
  properties[PROP_UNIT]
      = g_param_spec_int ("unit", NULL, NULL, HW_UNIT_MM, HW_UNIT_INCH, HW_UNIT_MM, writable);
  properties[PROP_CHOSEN_HOOPING]
      = g_param_spec_int ("chosen-hooping", NULL, NULL, -1, G_MAXINT, -1, writable);
  properties[PROP_STAGE] = g_param_spec_int ("stage", NULL, NULL, -1, G_MAXINT, -1, writable);
  properties[PROP_MODIFIED] = g_param_spec_boolean ("modified", NULL, NULL, FALSE, readable);
  properties[PROP_PATH] = g_param_spec_string ("path", NULL, NULL, NULL, readable);
  properties[PROP_UNDO_NAME] = g_param_spec_string ("undo-name", NULL, NULL, NULL, readable);
  properties[PROP_REDO_NAME] = g_param_spec_string ("redo-name", NULL, NULL, NULL, readable);
  properties[PROP_READING] = g_param_spec_boolean ("reading", NULL, NULL, FALSE, readable);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  signals[SELECTION_CHANGED] = g_signal_new ("selection-changed", G_TYPE_FROM_CLASS (klass),
                                             G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[PLAN_CHANGED] = g_signal_new ("plan-changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 0);
  signals[SCENE_CHANGED] = g_signal_new ("scene-changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[POINTED_OUT_CHANGED] = g_signal_new ("pointed-out-changed", G_TYPE_FROM_CLASS (klass),
                                               G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[FILES_LOOKED_AT] = g_signal_new ("files-looked-at", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                           NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
  signals[TAKEN_BACK] = g_signal_new ("taken-back", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
hw_bench_init (HwBench *bench)
{
  bench->selected = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  bench->pointed_out = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  bench->chosen_hooping = -1;
  bench->stage = -1;
  hw_bench_forget_files (bench);
}

HwBench *
hw_bench_new (void)
{
  return g_object_new (HW_TYPE_BENCH, NULL);
}

HwScene *
hw_bench_get_scene (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  return bench->scene;
}

const HwPlan *
hw_bench_get_plan (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  return bench->plan;
}

HwUnit
hw_bench_get_unit (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), HW_UNIT_MM);
  return bench->unit;
}

void
hw_bench_set_unit (HwBench *bench, HwUnit unit)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  if (bench->unit == unit)
    return;
  bench->unit = unit;
  hw_bench_ask_for_plan (bench);
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_UNIT]);
}

const char *
hw_bench_get_path (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  return bench->path;
}

const char *
hw_bench_get_folder (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), NULL);
  return bench->folder;
}

int
hw_bench_get_chosen_hooping (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), -1);
  return bench->chosen_hooping;
}

void
hw_bench_choose_hooping (HwBench *bench, int hooping)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  int n = bench->plan != NULL ? (int)bench->plan->n_hoopings : 0;
  set_chosen (bench, hooping >= 0 && hooping < n ? hooping : -1);
}

int
hw_bench_get_stage (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), -1);
  return bench->stage;
}

void
hw_bench_set_stage (HwBench *bench, int stage)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  int n = bench->plan != NULL ? (int)bench->plan->n_hoopings : 0;
  set_stage (bench, CLAMP (stage, -1, n));
}

void
hw_bench_forget_plan (HwBench *bench)
{
  g_clear_pointer (&bench->plan, hw_plan_unref);
  set_chosen (bench, -1);
  set_stage (bench, -1);
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_PLAN]);
  g_signal_emit (bench, signals[PLAN_CHANGED], 0);
}

void
hw_bench_set_path (HwBench *bench, const char *path)
{
  if (g_strcmp0 (bench->path, path) == 0)
    return;
  g_free (bench->path);
  bench->path = g_strdup (path);
  g_object_notify_by_pspec (G_OBJECT (bench), properties[PROP_PATH]);
}

void
hw_bench_emit_selection_changed (HwBench *bench)
{
  g_signal_emit (bench, signals[SELECTION_CHANGED], 0);
}

void
hw_bench_emit_pointed_out_changed (HwBench *bench)
{
  g_signal_emit (bench, signals[POINTED_OUT_CHANGED], 0);
}
