/* What lies ready in the workroom: the threads at hand, and what is used up of other things. */
#include "bench.h"

#include <glib/gi18n.h>

#include "../scene/thread-needs.h"
#include "bench-private.h"

void
hw_bench_set_palette (HwBench *bench, GPtrArray *palette)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (palette != NULL);

  hw_bench_begin_edit (bench, _ ("take up the threads at hand"), FALSE);
  hw_scene_set_palette (bench->scene, palette);
  hw_bench_end_edit (bench);
}

gboolean
hw_bench_use_thread (HwBench *bench, const char *name, HwColour colour, guint thread)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (name != NULL, FALSE);

  GPtrArray *palette = hw_scene_get_palette (bench->scene);
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (bench->scene);

  if (thread >= palette->len)
    return FALSE;
  g_autoptr (HwSnapshot) after = hw_thread_replaced (before, name, colour, palette->pdata[thread]);
  if (after == before)
    return FALSE;
  g_autofree char *step
      = g_strdup_printf (_ ("use %s for %s"), ((const HwPaletteThread *)palette->pdata[thread])->name, name);
  hw_bench_take_snapshot (bench, step, after);
  return TRUE;
}

void
hw_bench_set_supplies (HwBench *bench, const HwSupplyFacts *facts)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (facts != NULL);

  hw_bench_begin_edit (bench, _ ("change what the workroom uses"), TRUE);
  hw_scene_set_supplies (bench->scene, facts);
  hw_bench_end_edit (bench);
}
