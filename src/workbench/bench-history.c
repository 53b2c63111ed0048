/* The bench and its history: every edit lies between a beginning and an end and becomes one named step that can be undone. */
#include "bench.h"

#include "../scene/scene-limits.h"
#include "bench-private.h"

gboolean
hw_bench_is_editing (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  return bench->editing;
}

static void
forget_edit (HwBench *bench)
{
  bench->editing = FALSE;
  g_clear_pointer (&bench->edit_start, hw_snapshot_unref);
  g_clear_pointer (&bench->edit_name, g_free);
}

void
hw_bench_begin_edit (HwBench *bench, const char *name, gboolean merge)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (name != NULL);

  hw_bench_end_edit (bench);
  hw_bench_show_beside (bench, NULL);
  bench->editing = TRUE;
  bench->edit_start = hw_scene_snapshot (bench->scene);
  bench->edit_name = g_strdup (name);
  bench->edit_merge = merge;
}

gboolean
hw_bench_end_edit (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  if (!bench->editing)
    return TRUE;
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (bench->scene);
  g_autofree char *too_much = hw_scene_too_much (after);
  if (too_much != NULL)
    {
      hw_bench_cancel_edit (bench);
      g_signal_emit_by_name (bench, "taken-back", too_much);
      return FALSE;
    }
  hw_history_push (bench->history, bench->edit_name, after, bench->edit_merge, g_get_monotonic_time ());
  forget_edit (bench);
  hw_bench_notify_history (bench);
  /* A state from elsewhere comes without its artwork. */
  hw_bench_read_artwork (bench);
  return TRUE;
}

void
hw_bench_cancel_edit (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  if (!bench->editing)
    return;
  g_autoptr (HwSnapshot) before = g_steal_pointer (&bench->edit_start);
  forget_edit (bench);
  hw_scene_restore (bench->scene, before);
}

void
hw_bench_undo (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  hw_bench_cancel_edit (bench);
  hw_bench_show_beside (bench, NULL);
  const HwSnapshot *before = hw_history_undo (bench->history);
  if (before != NULL)
    hw_scene_restore (bench->scene, before);
  hw_bench_notify_history (bench);
}

void
hw_bench_redo (HwBench *bench)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  hw_bench_cancel_edit (bench);
  hw_bench_show_beside (bench, NULL);
  const HwSnapshot *after = hw_history_redo (bench->history);
  if (after != NULL)
    hw_scene_restore (bench->scene, after);
  hw_bench_notify_history (bench);
}
