/* The plan runner: one worker thread with one warm planner. Only the newest question counts: asking again cancels the one before, and an
 * answer that comes too late is dropped on its way back to the main context. */
#include "plan-runner.h"

/* What the runner and its worker share. */
typedef struct
{
  gatomicrefcount ref_count;
  GMutex lock;
  GCond wake;
  gboolean quit;
  gboolean anew;        /* the next question is about another scene */
  HwSnapshot *snapshot; /* the question not yet taken up, or NULL */
  HwPlanOptions options;
  GCancellable *cancellable; /* of the newest question */
  guint64 serial;
  GMainContext *context;
  HwPlanRunner *runner; /* only touched on the main context */
} Desk;

struct _HwPlanRunner
{
  GObject parent_instance;

  Desk *desk;
  GThread *worker;
  gboolean busy;
};

typedef struct
{
  Desk *desk;
  HwPlan *plan;
  guint64 serial;
  gboolean last;
} Answer;

enum
{
  PROP_0,
  PROP_BUSY,
  N_PROPS
};

enum
{
  PLANNED,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HwPlanRunner, hw_plan_runner, G_TYPE_OBJECT)

static Desk *
desk_ref (Desk *desk)
{
  g_atomic_ref_count_inc (&desk->ref_count);
  return desk;
}

static void
desk_unref (Desk *desk)
{
  if (!g_atomic_ref_count_dec (&desk->ref_count))
    return;
  g_clear_pointer (&desk->snapshot, hw_snapshot_unref);
  g_clear_object (&desk->cancellable);
  g_main_context_unref (desk->context);
  g_mutex_clear (&desk->lock);
  g_cond_clear (&desk->wake);
  g_free (desk);
}

static void
answer_free (gpointer data)
{
  Answer *answer = data;

  hw_plan_unref (answer->plan);
  desk_unref (answer->desk);
  g_free (answer);
}

static void
set_busy (HwPlanRunner *runner, gboolean busy)
{
  if (runner->busy == busy)
    return;
  runner->busy = busy;
  g_object_notify_by_pspec (G_OBJECT (runner), properties[PROP_BUSY]);
}

/* On the main context. */
static gboolean
answer_cb (gpointer data)
{
  const Answer *answer = data;
  g_autoptr (HwPlanRunner) runner = NULL;
  gboolean newest;

  if (answer->desk->runner == NULL)
    return G_SOURCE_REMOVE;
  runner = g_object_ref (answer->desk->runner);
  g_mutex_lock (&answer->desk->lock);
  newest = answer->serial == answer->desk->serial;
  g_mutex_unlock (&answer->desk->lock);
  if (!newest)
    return G_SOURCE_REMOVE;
  if (answer->last)
    set_busy (runner, FALSE);
  g_signal_emit (runner, signals[PLANNED], 0, answer->plan, answer->last);
  return G_SOURCE_REMOVE;
}

/* A question the worker is at. */
typedef struct
{
  Desk *desk;
  guint64 serial;
  gboolean anew;
} Turn;

static void
hand_back (const Turn *turn, const HwPlan *plan, gboolean last)
{
  Answer *answer = g_new0 (Answer, 1);
  g_autoptr (GSource) source = g_idle_source_new ();

  answer->desk = desk_ref (turn->desk);
  answer->plan = hw_plan_ref (plan);
  answer->serial = turn->serial;
  answer->last = last;
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, answer_cb, answer, answer_free);
  g_source_attach (source, turn->desk->context);
}

static void
found_cb (const HwPlan *plan, gpointer data)
{
  hand_back (data, plan, FALSE);
}

/* Waits for a question. FALSE when there will be none any more. */
static gboolean
take_up (Turn *turn, HwSnapshot **snapshot, HwPlanOptions *options, GCancellable **cancellable)
{
  Desk *desk = turn->desk;
  gboolean going;

  g_mutex_lock (&desk->lock);
  while (desk->snapshot == NULL && !desk->quit)
    g_cond_wait (&desk->wake, &desk->lock);
  going = !desk->quit;
  if (going)
    {
      *snapshot = g_steal_pointer (&desk->snapshot);
      *options = desk->options;
      *cancellable = g_object_ref (desk->cancellable);
      turn->serial = desk->serial;
      turn->anew = desk->anew;
      desk->anew = FALSE;
    }
  g_mutex_unlock (&desk->lock);
  return going;
}

static gpointer
work (gpointer data)
{
  Desk *desk = data;
  g_autoptr (HwPlanner) planner = hw_planner_new ();

  for (;;)
    {
      g_autoptr (HwSnapshot) snapshot = NULL;
      g_autoptr (GCancellable) cancellable = NULL;
      g_autoptr (HwPlan) plan = NULL;
      HwPlanOptions options;
      Turn turn = { .desk = desk };

      if (!take_up (&turn, &snapshot, &options, &cancellable))
        break;
      if (turn.anew)
        {
          hw_planner_free (planner);
          planner = hw_planner_new ();
        }
      plan = hw_planner_plan (planner, snapshot, &options, cancellable, found_cb, &turn);
      if (plan != NULL)
        hand_back (&turn, plan, TRUE);
    }
  desk_unref (desk);
  return NULL;
}

HwPlanRunner *
hw_plan_runner_new (void)
{
  return g_object_new (HW_TYPE_PLAN_RUNNER, NULL);
}

void
hw_plan_runner_ask (HwPlanRunner *runner, const HwSnapshot *snapshot, const HwPlanOptions *options)
{
  Desk *desk;

  g_return_if_fail (HW_IS_PLAN_RUNNER (runner));
  g_return_if_fail (snapshot != NULL);

  desk = runner->desk;
  g_mutex_lock (&desk->lock);
  if (desk->cancellable != NULL)
    g_cancellable_cancel (desk->cancellable);
  g_clear_object (&desk->cancellable);
  g_clear_pointer (&desk->snapshot, hw_snapshot_unref);
  desk->snapshot = hw_snapshot_ref ((HwSnapshot *)snapshot);
  desk->options = options != NULL ? *options : HW_PLAN_OPTIONS_DEFAULT;
  desk->cancellable = g_cancellable_new ();
  desk->serial++;
  g_cond_signal (&desk->wake);
  g_mutex_unlock (&desk->lock);
  if (runner->worker == NULL)
    runner->worker = g_thread_new ("planner", work, desk_ref (desk));
  set_busy (runner, TRUE);
}

void
hw_plan_runner_begin_anew (HwPlanRunner *runner)
{
  g_return_if_fail (HW_IS_PLAN_RUNNER (runner));

  g_mutex_lock (&runner->desk->lock);
  runner->desk->anew = TRUE;
  g_mutex_unlock (&runner->desk->lock);
}

gboolean
hw_plan_runner_is_busy (HwPlanRunner *runner)
{
  g_return_val_if_fail (HW_IS_PLAN_RUNNER (runner), FALSE);
  return runner->busy;
}

static void
hw_plan_runner_finalize (GObject *object)
{
  HwPlanRunner *runner = HW_PLAN_RUNNER (object);
  Desk *desk = runner->desk;

  desk->runner = NULL;
  g_mutex_lock (&desk->lock);
  desk->quit = TRUE;
  if (desk->cancellable != NULL)
    g_cancellable_cancel (desk->cancellable);
  g_cond_signal (&desk->wake);
  g_mutex_unlock (&desk->lock);
  if (runner->worker != NULL)
    g_thread_join (runner->worker);
  desk_unref (desk);
  G_OBJECT_CLASS (hw_plan_runner_parent_class)->finalize (object);
}

static void
hw_plan_runner_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  switch (id)
    {
    case PROP_BUSY:
      g_value_set_boolean (value, HW_PLAN_RUNNER (object)->busy);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hw_plan_runner_class_init (HwPlanRunnerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->finalize = hw_plan_runner_finalize;
  object_class->get_property = hw_plan_runner_get_property;
  properties[PROP_BUSY]
      = g_param_spec_boolean ("busy", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[PLANNED] = g_signal_new ("planned", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 2, G_TYPE_POINTER, G_TYPE_BOOLEAN);
}

static void
hw_plan_runner_init (HwPlanRunner *runner)
{
  Desk *desk = g_new0 (Desk, 1);

  g_atomic_ref_count_init (&desk->ref_count);
  g_mutex_init (&desk->lock);
  g_cond_init (&desk->wake);
  desk->context = g_main_context_ref_thread_default ();
  desk->runner = runner;
  runner->desk = desk;
}
