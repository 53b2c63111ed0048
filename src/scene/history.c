/* The history of a scene: the states it went through, with the name of the step that led to each. Snapshots share what did not change,
 * so a step costs little; the oldest are let go after a few hundred. */
#include "history.h"
#include "limits.h"

#define MERGE_WITHIN_US (800 * 1000)

typedef struct
{
  char *name; /* of the step that led here; NULL at the start */
  HwSnapshot *state;
  gint64 made_us;
} Step;

struct _HwHistory
{
  GPtrArray *steps; /* Step; never empty */
  guint present;    /* index of the present state */
  HwSnapshot *saved;
  gboolean may_merge; /* the present step is the newest and nothing was undone since */
};

static void
step_free (gpointer data)
{
  Step *step = data;

  g_free (step->name);
  hw_snapshot_unref (step->state);
  g_free (step);
}

static Step *
step_new (const char *name, const HwSnapshot *state, gint64 made_us)
{
  Step *step = g_new0 (Step, 1);

  step->name = g_strdup (name);
  step->state = hw_snapshot_ref (state);
  step->made_us = made_us;
  return step;
}

static Step *
step_at (const HwHistory *history, guint at)
{
  return history->steps->pdata[at];
}

HwHistory *
hw_history_new (const HwSnapshot *start)
{
  HwHistory *history;

  g_return_val_if_fail (start != NULL, NULL);

  history = g_new0 (HwHistory, 1);
  history->steps = g_ptr_array_new_with_free_func (step_free);
  g_ptr_array_add (history->steps, step_new (NULL, start, 0));
  history->saved = hw_snapshot_ref (start);
  return history;
}

void
hw_history_free (HwHistory *history)
{
  g_return_if_fail (history != NULL);

  g_ptr_array_unref (history->steps);
  g_clear_pointer (&history->saved, hw_snapshot_unref);
  g_free (history);
}

static gboolean
joins_present (HwHistory *history, const char *name, gint64 now_us)
{
  const Step *present = step_at (history, history->present);

  /* A saved state stays a state of its own: undo must be able to come back to it. */
  return history->may_merge && history->present > 0 && g_strcmp0 (present->name, name) == 0
         && now_us - present->made_us < MERGE_WITHIN_US && !hw_history_is_saved (history);
}

static void
join_present (HwHistory *history, const HwSnapshot *after, gint64 now_us)
{
  Step *present = step_at (history, history->present);

  if (hw_snapshot_equal (step_at (history, history->present - 1)->state, after))
    {
      /* There and back again: no step at all. */
      g_ptr_array_remove_index (history->steps, history->present);
      history->present--;
      history->may_merge = FALSE;
      return;
    }
  hw_snapshot_unref (present->state);
  present->state = hw_snapshot_ref (after);
  present->made_us = now_us;
}

void
hw_history_push (HwHistory *history, const char *name, const HwSnapshot *after, gboolean merge, gint64 now_us)
{
  g_return_if_fail (history != NULL);
  g_return_if_fail (name != NULL && after != NULL);

  if (hw_snapshot_equal (step_at (history, history->present)->state, after))
    return;

  g_ptr_array_set_size (history->steps, (int)history->present + 1);
  if (merge && joins_present (history, name, now_us))
    {
      join_present (history, after, now_us);
      return;
    }

  g_ptr_array_add (history->steps, step_new (name, after, now_us));
  if (history->steps->len > HW_MOST_UNDO_STEPS + 1)
    {
      g_ptr_array_remove_index (history->steps, 0);
      g_clear_pointer (&step_at (history, 0)->name, g_free);
    }
  history->present = history->steps->len - 1;
  history->may_merge = TRUE;
}

const HwSnapshot *
hw_history_undo (HwHistory *history)
{
  g_return_val_if_fail (history != NULL, NULL);

  if (history->present == 0)
    return NULL;
  history->may_merge = FALSE;
  return step_at (history, --history->present)->state;
}

const HwSnapshot *
hw_history_redo (HwHistory *history)
{
  g_return_val_if_fail (history != NULL, NULL);

  if (history->present + 1 >= history->steps->len)
    return NULL;
  history->may_merge = FALSE;
  return step_at (history, ++history->present)->state;
}

const char *
hw_history_undo_name (const HwHistory *history)
{
  g_return_val_if_fail (history != NULL, NULL);

  return step_at (history, history->present)->name;
}

const char *
hw_history_redo_name (const HwHistory *history)
{
  g_return_val_if_fail (history != NULL, NULL);

  return history->present + 1 < history->steps->len ? step_at (history, history->present + 1)->name : NULL;
}

static void
replace (HwSnapshot **state, HwSnapshot *(*replaced) (const HwSnapshot *, gpointer), gpointer user_data)
{
  HwSnapshot *old = *state;

  if (old == NULL)
    return;
  *state = replaced (old, user_data);
  hw_snapshot_unref (old);
}

void
hw_history_replace (HwHistory *history,
                    HwSnapshot *(*replaced) (const HwSnapshot *state, gpointer user_data),
                    gpointer user_data)
{
  g_return_if_fail (history != NULL && replaced != NULL);

  for (guint i = 0; i < history->steps->len; i++)
    replace (&step_at (history, i)->state, replaced, user_data);
  replace (&history->saved, replaced, user_data);
}

void
hw_history_mark_saved (HwHistory *history)
{
  g_return_if_fail (history != NULL);

  g_clear_pointer (&history->saved, hw_snapshot_unref);
  history->saved = hw_snapshot_ref (step_at (history, history->present)->state);
}

void
hw_history_mark_unsaved (HwHistory *history)
{
  g_return_if_fail (history != NULL);
  g_clear_pointer (&history->saved, hw_snapshot_unref);
}

gboolean
hw_history_is_saved (const HwHistory *history)
{
  g_return_val_if_fail (history != NULL, FALSE);

  return history->saved != NULL
         && hw_snapshot_equal (history->saved, step_at (history, history->present)->state);
}
