/* What the canvas hears from its bench, and which layers each piece of news spoils. */

#include <math.h>

#include "canvas-alike.h"
#include "canvas-private.h"

#define MOST_PARTNERS 12 /* more motifs in the air at once: their overlaps are not shown one by one */

static void
refresh_pointed (HwCanvas *canvas)
{
  canvas->n_pointed = 0;
  for (guint i = 0; hw_bench_get_n_pointed_out (canvas->bench) > 0 && i < canvas->cast->len; i++)
    canvas->n_pointed += hw_bench_is_pointed_out (canvas->bench, hw_canvas_record (canvas, i)->id);
}

static void
refresh_cast (HwCanvas *canvas)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (canvas->bench));
  guint n = g_list_model_get_n_items (motifs);

  g_ptr_array_set_size (canvas->cast, 0);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (canvas->cast, g_list_model_get_item (motifs, i));
  hw_motif_pictures_motifs_changed (canvas->pictures, canvas->cast);
  refresh_pointed (canvas);
}

static void
refresh_hooping_of (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);

  g_hash_table_remove_all (canvas->hooping_of);
  for (guint i = 0; plan != NULL && i < plan->n_hoopings; i++)
    for (guint j = 0; j < plan->hoopings[i].n_motifs; j++)
      {
        const HwMotif *motif = hw_snapshot_motif (plan->snapshot, plan->hoopings[i].motifs[j]);
        g_hash_table_insert (canvas->hooping_of, g_strdup (motif->id), GINT_TO_POINTER ((int)i + 1));
      }
}

/* Whether the plan speaks of the scene as it lies now. */
static gboolean
plan_is_present (HwCanvas *canvas, const HwPlan *plan)
{
  if (plan == NULL || plan->snapshot->motifs->len != canvas->cast->len)
    return FALSE;
  for (guint i = 0; i < canvas->cast->len; i++)
    {
      const HwMotif *planned = hw_snapshot_motif (plan->snapshot, i);
      const HwMotif *now = hw_canvas_record (canvas, i);

      if (planned != now
          && (!g_str_equal (planned->id, now->id) || planned->outline != now->outline
              || !hw_placement_equal (&planned->placement, &now->placement)))
        return FALSE;
    }
  return TRUE;
}

/* The hooping whose ghosts are to be shown: the chosen one, else that of the one selected motif. */
static int
hooping_in_question (HwCanvas *canvas)
{
  int chosen = hw_bench_get_chosen_hooping (canvas->bench);
  int found = -1;

  if (hw_bench_get_stage (canvas->bench) >= 0)
    return -1;
  if (chosen >= 0)
    return chosen;
  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_selected (canvas, i))
      {
        if (found >= 0)
          return -1;
        found = (int)i;
      }
  return found < 0 ? -1 : hw_canvas_hooping_of (canvas, (guint)found);
}

void
hw_canvas_refresh_ghosts (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  int hooping = hooping_in_question (canvas);
  g_autoptr (GArray) before = g_steal_pointer (&canvas->ghosts);

  if (canvas->show_hoopings && hooping >= 0 && !hw_canvas_is_dragging (canvas)
      && plan_is_present (canvas, plan) && hooping < (int)plan->n_hoopings)
    {
      const HwHooping *what = &plan->hoopings[hooping];
      canvas->ghosts = hw_ghosts_find (plan, what->motifs, what->n_motifs, hooping);
    }
  if (hw_ghosts_same (before, canvas->ghosts))
    return;
  canvas->hover_ghost = -1;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_GHOSTS));
}

/* Those in the air are looked at, and those the plan finds fault with. */
static void
mark_in_question (HwCanvas *canvas, guint8 *look)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);

  for (guint i = 0; plan != NULL && i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);
      HwSceneMotif *motif;
      guint index;

      if (problem->motif < 0
          || (problem->kind != HW_PROBLEM_OVERSIZE && problem->kind != HW_PROBLEM_OUTSIDE_EDGE_LINE
              && problem->kind != HW_PROBLEM_OUTSIDE_CLOTH))
        continue;
      motif = hw_scene_find_motif (hw_bench_get_scene (canvas->bench),
                                   hw_snapshot_motif (plan->snapshot, problem->motif)->id);
      if (motif != NULL && g_ptr_array_find (canvas->cast, motif, &index))
        look[index] = HW_LOOK_STILL;
    }
  for (guint i = 0; hw_canvas_is_dragging (canvas) && i < canvas->cast->len; i++)
    if (hw_canvas_is_moving (canvas, i))
      look[i] = HW_LOOK_AIR;
}

void
hw_canvas_refresh_rules (HwCanvas *canvas)
{
  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (hw_bench_get_scene (canvas->bench));
  g_autofree HwOutline **placed = g_new0 (HwOutline *, canvas->cast->len + 1);
  g_autofree guint8 *look = g_new0 (guint8, canvas->cast->len + 1);
  gboolean were_kept = hw_rules_are_kept (canvas->rules, HW_LOOK_AIR);
  gboolean partners = hw_canvas_is_dragging (canvas) && canvas->drag.motifs->len <= MOST_PARTNERS;

  mark_in_question (canvas, look);
  for (guint i = 0; i < canvas->cast->len; i++)
    placed[i] = (HwOutline *)hw_scene_motif_get_placed (hw_canvas_motif (canvas, i));
  if (hw_rules_look (canvas->rules, snapshot, placed, look, partners, hw_bench_get_unit (canvas->bench)))
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_FAULTS));
  if (!were_kept || !hw_rules_are_kept (canvas->rules, HW_LOOK_AIR))
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_RULES));
}

void
hw_canvas_refresh_signs (HwCanvas *canvas)
{
  if (!hw_signs_learn (canvas->signs, hw_bench_get_plan (canvas->bench), hw_bench_get_stage (canvas->bench)))
    return;
  canvas->hover_sign = -1;
  hw_signs_place (canvas->signs, &canvas->view);
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_SIGNS));
}

static void
forget_told (HwCanvas *canvas)
{
  if (isnan (canvas->told.x))
    return;
  canvas->told = (HwPoint){ NAN, NAN };
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_WORDS));
}

static void
scene_changed_cb (HwBench *bench, guint changes, HwCanvas *canvas)
{
  const guint about_motifs = HW_BIT (HW_LAYER_MOVING) | HW_BIT (HW_LAYER_SELECTION)
                             | HW_BIT (HW_LAYER_READOUT) | HW_BIT (HW_LAYER_RULER_MARKS);

  if (changes & (HW_SCENE_CHANGE_MOTIF_LIST | HW_SCENE_CHANGE_ORDER))
    refresh_cast (canvas);
  if (changes & HW_SCENE_CHANGE_FABRIC && canvas->fitted)
    hw_canvas_zoom_fit (canvas);
  if (changes & (HW_SCENE_CHANGE_PHOTOS | HW_SCENE_CHANGE_FABRIC))
    hw_canvas_refresh_photo (canvas);
  hw_canvas_refresh_rules (canvas);
  hw_canvas_refresh_density (canvas);
  if (canvas->n_pointed > 0)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_POINTED));
  if (changes & HW_SCENE_CHANGE_MOTIF_LIST)
    canvas->hover_motif = -1;
  /* While motifs are in the air nothing else moves, and the still picture stays as it is. */
  if (!hw_canvas_is_dragging (canvas))
    {
      hw_canvas_refresh_ghosts (canvas);
      hw_canvas_spoil (canvas, about_motifs | HW_BIT (HW_LAYER_STILL));
    }
  else if (changes & ~(guint)HW_SCENE_CHANGE_PLACEMENT)
    hw_canvas_spoil (canvas, about_motifs | HW_BIT (HW_LAYER_STILL));
  else
    hw_canvas_spoil (canvas, about_motifs);
  hw_canvas_describe_soon (canvas);
}

static void
selection_changed_cb (HwBench *bench, HwCanvas *canvas)
{
  hw_canvas_refresh_ghosts (canvas);
  forget_told (canvas);
  hw_canvas_spoil (canvas,
                   HW_BIT (HW_LAYER_SELECTION) | HW_BIT (HW_LAYER_READOUT) | HW_BIT (HW_LAYER_RULER_MARKS));
  if (hw_bench_get_chosen_hooping (bench) >= 0)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL));
  hw_canvas_hover (canvas);
  hw_canvas_describe_soon (canvas);
}

static void
plan_changed_cb (HwBench *bench, HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  gboolean alike = hw_plans_look_alike (canvas->drawn, plan);

  if (!alike)
    hw_canvas_begin_glide (canvas, canvas->drawn, (HwPlan *)plan);
  g_clear_pointer (&canvas->drawn, hw_plan_unref);
  canvas->drawn = plan != NULL ? hw_plan_ref (plan) : NULL;
  hw_canvas_refresh_rules (canvas);
  hw_canvas_refresh_ghosts (canvas);
  hw_canvas_refresh_signs (canvas);
  if (hw_bench_get_chosen_hooping (bench) >= 0)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_MARKS));
  /* The same said again is not drawn again. */
  if (alike)
    return;
  refresh_hooping_of (canvas);
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_HOOPINGS));
  /* What is pale depends on which hooping stitches it. */
  if (hw_bench_get_stage (bench) >= 0 || hw_bench_get_chosen_hooping (bench) >= 0)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL) | HW_BIT (HW_LAYER_MOVING));
  hw_canvas_describe_soon (canvas);
}

static void
pointed_out_changed_cb (HwBench *bench, HwCanvas *canvas)
{
  guint before = canvas->n_pointed;

  refresh_pointed (canvas);
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_BESIDE));
  if (before > 0 || canvas->n_pointed > 0)
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL) | HW_BIT (HW_LAYER_MOVING) | HW_BIT (HW_LAYER_POINTED));
}

static void
look_changed_cb (HwBench *bench, GParamSpec *pspec, HwCanvas *canvas)
{
  forget_told (canvas);
  hw_canvas_refresh_signs (canvas);
  hw_canvas_refresh_rules (canvas);
  hw_canvas_refresh_ghosts (canvas);
  hw_canvas_spoil (canvas, HW_ALL_LAYERS);
  hw_canvas_describe_soon (canvas);
}

/* Another scene is on the table: it is shown whole. */
static void
path_changed_cb (HwBench *bench, GParamSpec *pspec, HwCanvas *canvas)
{
  hw_canvas_refresh_photo (canvas);
  if (canvas->fitted)
    hw_canvas_zoom_fit (canvas);
}

void
hw_canvas_listen (HwCanvas *canvas)
{
  HwBench *bench = canvas->bench;

  refresh_cast (canvas);
  refresh_hooping_of (canvas);
  hw_canvas_refresh_signs (canvas);
  hw_canvas_refresh_density (canvas);
  hw_canvas_refresh_photo (canvas);
  g_signal_connect (bench, "scene-changed", G_CALLBACK (scene_changed_cb), canvas);
  g_signal_connect (bench, "selection-changed", G_CALLBACK (selection_changed_cb), canvas);
  g_signal_connect (bench, "plan-changed", G_CALLBACK (plan_changed_cb), canvas);
  g_signal_connect (bench, "pointed-out-changed", G_CALLBACK (pointed_out_changed_cb), canvas);
  g_signal_connect (bench, "notify::unit", G_CALLBACK (look_changed_cb), canvas);
  g_signal_connect (bench, "notify::stage", G_CALLBACK (look_changed_cb), canvas);
  g_signal_connect (bench, "notify::chosen-hooping", G_CALLBACK (look_changed_cb), canvas);
  g_signal_connect (bench, "notify::path", G_CALLBACK (path_changed_cb), canvas);
  hw_canvas_describe_soon (canvas);
}

void
hw_canvas_stop_listening (HwCanvas *canvas)
{
  g_signal_handlers_disconnect_by_data (canvas->bench, canvas);
  hw_canvas_stop_glide (canvas);
  g_ptr_array_set_size (canvas->cast, 0);
  g_clear_pointer (&canvas->drawn, hw_plan_unref);
  canvas->n_pointed = 0;
  hw_signs_learn (canvas->signs, NULL, -1);
  canvas->hover_sign = -1;
  g_clear_handle_id (&canvas->words_source, g_source_remove);
}
