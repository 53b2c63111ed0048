/* The bench and cloth that is not where the plan has it: a hooping that landed elsewhere, cloth that drew in, and the allowance made for what it will draw in.
 * The scene is moved to the truth, so that its axes always are the cloth as it lies now. */
#include "bench.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../planning/follow.h"
#include "../planning/forecast.h"
#include "bench-private.h"

#define LEAST_ALLOWANCE 0.05 /* mm: less is not placed by hand */

static const char *
first_motif (const HwSnapshot *snapshot, guint frozen)
{
  const HwPin *pin = g_ptr_array_index (snapshot->frozen, frozen);

  return pin->motifs != NULL ? pin->motifs[0] : NULL;
}

void
hw_bench_landed (HwBench *bench, guint frozen, const HwCorrection *landed)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (landed != NULL);

  g_autoptr (HwSnapshot) before = hw_scene_snapshot (bench->scene);

  if (frozen >= before->frozen->len)
    return;
  g_autoptr (HwSnapshot) after = hw_land_hooping (before, frozen, landed);
  g_autofree char *way = hw_correction_text (landed, bench->unit);
  g_autofree char *text = g_strdup_printf (_ ("It was stitched elsewhere than planned: %s"), way);

  hw_bench_begin_edit (bench, _ ("put the hooping where it landed"), FALSE);
  hw_scene_hold (bench->scene);
  hw_scene_restore (bench->scene, after);
  hw_bench_log (bench, HW_LOG_LANDED, first_motif (before, frozen), text);
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
}

void
hw_bench_follow_cloth (HwBench *bench, const HwStretch *stretch)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (stretch != NULL);

  g_autoptr (HwSnapshot) before = hw_scene_snapshot (bench->scene);
  g_autoptr (HwSnapshot) after = hw_follow_cloth (before, stretch, hw_follow_still_point (before));
  g_autofree char *text = hw_stretch_text (stretch);

  hw_bench_begin_edit (bench, _ ("follow the cloth"), FALSE);
  hw_scene_hold (bench->scene);
  hw_scene_restore (bench->scene, after);
  hw_bench_log (bench, HW_LOG_DRAW_IN,
                before->frozen->len > 0 ? first_motif (before, before->frozen->len - 1) : NULL, text);
  hw_scene_release (bench->scene);
  hw_bench_end_edit (bench);
  hw_bench_show_beside (bench, before);
}

gboolean
hw_bench_place_with_allowance (HwBench *bench)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  const HwPlan *plan = bench->plan;
  gboolean moved = FALSE;

  if (plan == NULL)
    return FALSE;
  g_autofree HwPoint *moves = g_new0 (HwPoint, plan->snapshot->motifs->len + 1);
  hw_forecast_moves (plan, moves);
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (bench->scene);
  hw_bench_begin_edit (bench, _ ("place with allowance"), FALSE);
  hw_scene_hold (bench->scene);
  for (guint m = 0; m < plan->snapshot->motifs->len; m++)
    {
      HwSceneMotif *motif = hw_scene_find_motif (bench->scene, hw_snapshot_motif (plan->snapshot, m)->id);
      int hooping = hw_plan_hooping_of (plan, m);

      if (motif == NULL || hooping < 0 || plan->hoopings[hooping].hold != HW_PLACE_FREE
          || hw_scene_motif_get_record (motif)->locked || hypot (moves[m].x, moves[m].y) < LEAST_ALLOWANCE)
        continue;
      HwPlacement placement = hw_scene_motif_get_record (motif)->placement;
      placement.position.x -= moves[m].x;
      placement.position.y -= moves[m].y;
      hw_scene_motif_set_placement (motif, &placement);
      moved = TRUE;
    }
  hw_scene_release (bench->scene);
  if (moved)
    hw_bench_end_edit (bench);
  else
    hw_bench_cancel_edit (bench);
  if (moved)
    hw_bench_show_beside (bench, before);
  return moved;
}

void
hw_bench_set_draw_in (HwBench *bench, double percent)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (percent >= 0);

  HwWishes wishes = *hw_scene_get_wishes (bench->scene);

  wishes.draw_in = percent;
  hw_bench_begin_edit (bench, _ ("change the rule for drawing in"), TRUE);
  hw_scene_set_wishes (bench->scene, &wishes);
  hw_bench_end_edit (bench);
}
