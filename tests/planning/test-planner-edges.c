/* The planner at its edges: very many small motifs, nothing to do, no time, no memory, cancelled at once, asked again in other words. */
#include <math.h>

#include "little-scenes.h"

static HwPlan *
plan_with (HwPlanner *planner, const HwSnapshot *scene, const HwPlanOptions *options)
{
  HwPlan *plan = hw_planner_plan (planner, scene, options, NULL, NULL, NULL);
  g_autoptr (GError) error = NULL;

  hw_plan_verify (plan, &error);
  g_assert_no_error (error);
  return plan;
}

static HwPlan *
plan_anew (const HwSnapshot *scene, const HwPlanOptions *options)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();

  return plan_with (planner, scene, options);
}

/* So many beads in one hoop; two threads in turn, one of them without a name. */
static HwSnapshot *
beads (guint n)
{
  HwSnapshot *scene = little_scene (800, 600);

  little_hoop (scene, 304, 304, 2, HW_TURN_ANY);
  for (guint i = 0; i < n; i++)
    {
      HwThreadBlock thread = { .name = i % 2 ? (char *)"moss" : NULL, .stitches = 10 };

      hw_motif_set_threads (little_motif (scene, "Bead", 5, 5, 200 + i % 12 * 10, 200 + i / 12 * 10), &thread,
                            1);
    }
  return scene;
}

/* They share one hooping, and one thread change does. */
static void
a_hundred_beads_share_one_hooping (void)
{
  g_autoptr (HwSnapshot) scene = beads (120);
  g_autoptr (HwPlan) plan = plan_anew (scene, &(HwPlanOptions){ .seconds = 1 });

  g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
  g_assert_cmpuint (plan->thread_changes, ==, 1);
  g_assert_cmpuint (plan->one_by_one_changes, ==, 119);
}

static void
no_time_and_little_memory_still_give_a_plan (void)
{
  for (guint interleave = 0; interleave < 2; interleave++)
    {
      g_autoptr (HwSnapshot) scene = beads (40);
      g_autoptr (HwPlan) at_once = NULL, small = NULL;

      scene->wishes.interleave = interleave;
      at_once = plan_anew (scene, &(HwPlanOptions){ .seconds = 0 });
      g_assert_cmpuint (at_once->n_hoopings, ==, 1);
      small = plan_anew (scene, &(HwPlanOptions){ .seconds = 0.2, .memory = 4000 });
      g_assert_cmpuint (small->n_hoopings, ==, 1);
      g_assert_cmpuint (small->thread_changes_bound, <=, small->thread_changes);
      scene->wishes.best = HW_BEST_LEAST_TIME;
      g_autoptr (HwPlan) least = plan_anew (scene, &(HwPlanOptions){ .seconds = 0.2, .memory = 4000 });
      g_assert_cmpfloat (least->minutes_bound, <=, least->minutes);
    }
}

static void
found_cb (const HwPlan *plan, gpointer data)
{
  g_assert_not_reached ();
}

static void
cancelled_there_is_no_plan (void)
{
  g_autoptr (HwSnapshot) scene = beads (12);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (HwPlan) plan = NULL;

  g_cancellable_cancel (cancellable);
  g_assert_null (hw_planner_plan (planner, scene, NULL, cancellable, found_cb, NULL));
  plan = plan_with (planner, scene, NULL); /* and it harms no later one */
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
}

/* A planner remembers plans, but only of the same scene, asked for in the same way. */
static void
another_question_gets_its_own_answer (void)
{
  g_autoptr (HwSnapshot) scene = beads (3);
  g_autoptr (HwSnapshot) more = NULL, turned = NULL;
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwPlan) first = NULL, same = NULL, inches = NULL, longer = NULL, smaller = NULL, of_more = NULL,
                     of_turned = NULL;
  HwMotif *ladder = little_motif (scene, "Ladder", 600, 20, 400, 300);

  first = plan_with (planner, scene, &(HwPlanOptions){ .seconds = 0.1 });
  same = plan_with (planner, scene, &(HwPlanOptions){ .seconds = 0.1 });
  assert_says (((HwProblem *)same->problems->pdata[0])->text, " mm");
  inches = plan_with (planner, scene, &(HwPlanOptions){ .seconds = 0.1, .unit = HW_UNIT_INCH });
  assert_says (((HwProblem *)inches->problems->pdata[0])->text, " in");
  longer = plan_with (planner, scene, &(HwPlanOptions){ .seconds = 0.2 });
  smaller = plan_with (planner, scene, &(HwPlanOptions){ .seconds = 0.1, .memory = 1 << 20 });
  g_assert_cmpuint (longer->n_hoopings, ==, smaller->n_hoopings);
  turned = hw_snapshot_copy (scene);
  turned->motifs->pdata[3] = hw_motif_copy (ladder);
  ((HwMotif *)turned->motifs->pdata[3])->placement.angle = 40;
  hw_motif_unref (ladder);
  of_turned = plan_with (planner, turned, &(HwPlanOptions){ .seconds = 0.1 });
  g_assert_true (of_turned->snapshot == turned);
  more = hw_snapshot_copy (scene);
  little_motif (more, "Bead", 5, 5, 400, 500);
  of_more = plan_with (planner, more, &(HwPlanOptions){ .seconds = 0.1 });
  g_assert_cmpint (hw_plan_hooping_of (of_more, 4), >=, 0);
}

/* A plan goes beside another state of its scene only where nothing differs that it speaks of. */
static void
a_plan_goes_beside_what_it_does_not_speak_of (void)
{
  g_autoptr (HwSnapshot) scene = beads (3);
  g_autoptr (HwSnapshot) noted = hw_snapshot_copy (scene), moved = hw_snapshot_copy (scene);
  g_autoptr (HwPlan) plan = plan_anew (scene, &(HwPlanOptions){ .seconds = 0.1 });
  g_autoptr (HwPlan) same = hw_plan_beside (plan, scene), beside = NULL;
  HwMotif *motif = hw_motif_copy (hw_snapshot_motif (scene, 0));

  g_assert_true (same == plan);
  g_ptr_array_add (noted->log, hw_log_line_new (0, HW_LOG_NOTE, NULL, "It rained."));
  beside = hw_plan_beside (plan, noted);
  g_assert_true (beside != NULL && beside->snapshot == noted);
  g_assert_cmpuint (beside->n_hoopings, ==, plan->n_hoopings);
  motif->placement.position.x += 1;
  hw_motif_unref (moved->motifs->pdata[0]);
  moved->motifs->pdata[0] = motif;
  g_assert_null (hw_plan_beside (plan, moved));
  g_free (noted->name);
  noted->name = g_strdup ("Another garden"); /* which its paper bears */
  g_assert_null (hw_plan_beside (plan, noted));
}

/* What lies on which side of the cloth is shown where it passes it. */
static void
each_side_of_the_cloth_is_passed (void)
{
  static const HwPoint places[] = { { -50, 300 }, { 850, 300 }, { 400, -50 }, { 400, 650 } },
                       shown[] = { { 0, 300 }, { 800, 300 }, { 400, 0 }, { 400, 600 } };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autoptr (HwSnapshot) scene = little_scene (800, 600);
      g_autoptr (HwPlan) plan = NULL;
      const HwProblem *outside = NULL;

      little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
      little_motif (scene, "Gate", 40, 40, places[i].x, places[i].y);
      plan = plan_anew (scene, NULL);
      for (guint p = 0; p < plan->problems->len; p++)
        if (((HwProblem *)plan->problems->pdata[p])->kind == HW_PROBLEM_OUTSIDE_CLOTH)
          outside = plan->problems->pdata[p];
      g_assert_nonnull (outside);
      g_assert_cmpfloat_with_epsilon (outside->amount, 70, 1e-9);
      g_assert_cmpfloat_with_epsilon (outside->where.x, shown[i].x, 1e-9);
      g_assert_cmpfloat_with_epsilon (outside->where.y, shown[i].y, 1e-9);
    }
}

static const HwProblem *
out_of_order (const HwPlan *plan)
{
  for (guint p = 0; p < plan->problems->len; p++)
    if (((HwProblem *)plan->problems->pdata[p])->kind == HW_PROBLEM_STITCHED_OUT_OF_ORDER)
      return plan->problems->pdata[p];
  return NULL;
}

/* Quince lies over Gate. */
static void
what_was_stitched_in_the_wrong_order_is_told (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) right = NULL, both = NULL, one = NULL;
  HwPin *nameless = little_pin ("h1", 100, 100, "m1");

  little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
  little_motif (scene, "Gate", 60, 60, 100, 100);
  little_motif (scene, "Quince", 60, 60, 140, 100);
  g_clear_pointer (&nameless->motifs, g_strfreev);
  g_ptr_array_add (scene->frozen, nameless);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 100, 100, "m1 gone"));
  g_ptr_array_add (scene->frozen, little_pin ("h1", 140, 100, "m2 m1"));
  right = plan_anew (scene, NULL);
  g_assert_null (out_of_order (right));
  g_ptr_array_remove_index (scene->frozen, 1);
  ((HwPin *)scene->frozen->pdata[1])->motifs[1][1] = '9'; /* not m1 any more */
  one = plan_anew (scene, NULL);
  g_assert_nonnull (out_of_order (one)); /* Quince is stitched, Gate is not */
  g_ptr_array_add (scene->frozen, little_pin ("h1", 100, 100, "m1"));
  both = plan_anew (scene, NULL);
  g_assert_nonnull (out_of_order (both));
  g_assert_cmpstr (
      out_of_order (both)->text, ==,
      "Quince was stitched before Gate, which was to lie under it: where they overlap, Gate lies on top.");
}

/* Their boxes have much in common, their outlines nothing. */
static void
what_only_seems_to_overlap_has_no_order (void)
{
  HwPoint low[] = { { -40, -40 }, { 39, -40 }, { -40, 39 } },
          high[] = { { 40, 40 }, { -39, 40 }, { 40, -39 } };
  HwRing lower = { low, 3 }, upper = { high, 3 };
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) plan = NULL;

  little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
  for (guint i = 0; i < 2; i++)
    {
      HwMotif *motif = little_motif (scene, "Kite", 10, 10, 100, 100);

      hw_outline_unref (motif->outline);
      motif->outline = hw_outline_new (i ? &upper : &lower, 1);
    }
  g_ptr_array_add (scene->frozen, little_pin ("h1", 100, 100, "m2"));
  plan = plan_anew (scene, NULL);
  g_assert_null (out_of_order (plan));
}

/* A wider margin of the edge line is minded by the planner that planned with the narrower one. */
static void
a_margin_made_wider_is_minded (void)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = little_scene (800, 600), wider = NULL;
  g_autoptr (HwPlan) plan = NULL, after = NULL;

  little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
  little_motif (scene, "Gate", 40, 40, 130, 300); /* 10 mm inside the line */
  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 100, 100, 700, 500 }, 0, 5);
  wider = hw_snapshot_copy (scene);
  hw_edge_line_unref (wider->edge_line);
  wider->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 100, 100, 700, 500 }, 0, 15);
  plan = plan_with (planner, scene, NULL);
  g_assert_null (find_problem (plan, HW_PROBLEM_OUTSIDE_EDGE_LINE));
  after = plan_with (planner, wider, NULL);
  g_assert_nonnull (find_problem (after, HW_PROBLEM_OUTSIDE_EDGE_LINE));
  g_assert_cmpfloat_with_epsilon (find_problem (after, HW_PROBLEM_OUTSIDE_EDGE_LINE)->amount, 5, 1e-6);
  g_assert_cmpfloat_with_epsilon (find_problem (after, HW_PROBLEM_OUTSIDE_EDGE_LINE)->where.x, 110, 1e-6);
}

/* Beyond the margin's corner by 4 mm both ways is farther than beyond its side by 5; beyond the line itself it would be the other way round. */
static void
a_margin_is_passed_where_most_lies_beyond_it (void)
{
  HwPoint points[] = { { 200, 200 }, { 110, 200 }, { 111, 111 } };
  HwRing ring = { points, 3 };
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) plan = NULL;
  HwMotif *kite;

  little_hoop (scene, 304, 304, 2, HW_TURN_ANY);
  kite = little_motif (scene, "Kite", 10, 10, 0, 0);
  hw_outline_unref (kite->outline);
  kite->outline = hw_outline_new (&ring, 1);
  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 100, 100, 700, 500 }, 0, 15);
  plan = plan_anew (scene, NULL);
  g_assert_nonnull (find_problem (plan, HW_PROBLEM_OUTSIDE_EDGE_LINE));
  g_assert_cmpfloat_with_epsilon (find_problem (plan, HW_PROBLEM_OUTSIDE_EDGE_LINE)->amount, hypot (4, 4),
                                  1e-6);
  g_assert_cmpfloat_with_epsilon (find_problem (plan, HW_PROBLEM_OUTSIDE_EDGE_LINE)->where.y, 111, 1e-6);
}

/* Where all is stitched, or there is nothing, no plan takes less time. */
static void
nothing_left_to_plan_is_the_least_time (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (800, 600);
  g_autoptr (HwPlan) empty = NULL, stitched = NULL;

  scene->wishes.best = HW_BEST_LEAST_TIME;
  little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
  empty = plan_anew (scene, NULL);
  g_assert_true (empty->least_time_proven);
  little_motif (scene, "Gate", 60, 60, 100, 100);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 100, 100, "m1"));
  stitched = plan_anew (scene, NULL);
  g_assert_cmpuint (stitched->n_hoopings, ==, 1);
  g_assert_true (stitched->least_time_proven);
  g_assert_cmpfloat (stitched->minutes_bound, ==, stitched->minutes);
}

/* Least time, planned again when a motif was moved a little by the planner that planned it before. */
static void
least_time_keeps_its_hoopings_when_a_motif_is_nudged (void)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = little_scene (800, 600), nudged = NULL;
  g_autoptr (HwPlan) plan = NULL, after = NULL;
  HwMotif *motif;

  scene->wishes.best = HW_BEST_LEAST_TIME;
  little_hoop (scene, 104, 104, 2, HW_TURN_ANY);
  for (guint i = 0; i < 6; i++)
    little_motif (scene, "Bead", 20, 20, 60 + 45 * i, 100);
  plan = plan_with (planner, scene, NULL);
  nudged = hw_snapshot_copy (scene);
  motif = hw_motif_copy (hw_snapshot_motif (scene, 2));
  motif->placement.position.y += 1;
  hw_motif_unref (nudged->motifs->pdata[2]);
  nudged->motifs->pdata[2] = motif;
  after = plan_with (planner, nudged, NULL);
  g_assert_cmpuint (after->n_hoopings, ==, plan->n_hoopings);
  for (guint i = 0; i < 6; i++)
    g_assert_cmpint (hw_plan_hooping_of (after, i), ==, hw_plan_hooping_of (plan, i));
}

/* Sixteen hundred beads listed in disorder, four to a hooping: too many to ask of each pair, they are gone through strip by strip over the cloth,
 * and hardly more than the 400 there must be are made. */
static void
very_many_in_disorder_are_gathered_where_they_lie (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  g_autoptr (HwSnapshot) scene = little_scene (4000, 4000);
  g_autoptr (HwPlan) plan = NULL;
  guint at[1600];

  little_hoop (scene, 204, 204, 2, HW_TURN_QUARTER);
  for (guint i = 0; i < G_N_ELEMENTS (at); i++)
    {
      guint j = g_rand_int_range (rand, 0, i + 1);

      at[i] = at[j];
      at[j] = i;
    }
  for (guint i = 0; i < G_N_ELEMENTS (at); i++)
    little_motif (scene, "Bead", 90, 90, 100 + at[i] % 40 * 97, 100 + at[i] / 40 * 97);
  plan = plan_anew (scene, &(HwPlanOptions){ .seconds = 0 });
  g_assert_cmpuint (plan->n_hoopings, >=, 400);
  g_assert_cmpuint (plan->n_hoopings, <=, 425);
}

/* A bead that is moved within the hoop's room leaves the hoop where it was. */
static void
a_nudge_leaves_the_hoop_where_it_is (void)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = beads (5), nudged = hw_snapshot_copy (scene);
  g_autoptr (HwPlan) plan = NULL, after = NULL;
  HwMotif *last = hw_motif_copy (hw_snapshot_motif (scene, 4));

  last->placement.position.x += 3;
  hw_motif_unref (nudged->motifs->pdata[4]);
  nudged->motifs->pdata[4] = last;
  plan = plan_with (planner, scene, NULL);
  after = plan_with (planner, nudged, NULL);
  g_assert_cmpuint (after->n_hoopings, ==, 1);
  g_assert_cmpfloat (after->hoopings[0].centre.x, ==, plan->hoopings[0].centre.x);
  g_assert_cmpfloat (after->hoopings[0].centre.y, ==, plan->hoopings[0].centre.y);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner-edges/beads", a_hundred_beads_share_one_hooping);
  g_test_add_func ("/planner-edges/no-time", no_time_and_little_memory_still_give_a_plan);
  g_test_add_func ("/planner-edges/cancelled", cancelled_there_is_no_plan);
  g_test_add_func ("/planner-edges/another", another_question_gets_its_own_answer);
  g_test_add_func ("/planner-edges/beside", a_plan_goes_beside_what_it_does_not_speak_of);
  g_test_add_func ("/planner-edges/sides", each_side_of_the_cloth_is_passed);
  g_test_add_func ("/planner-edges/margin", a_margin_made_wider_is_minded);
  g_test_add_func ("/planner-edges/nothing-left", nothing_left_to_plan_is_the_least_time);
  g_test_add_func ("/planner-edges/seems", what_only_seems_to_overlap_has_no_order);
  g_test_add_func ("/planner-edges/out-of-order", what_was_stitched_in_the_wrong_order_is_told);
  g_test_add_func ("/planner-edges/least-time-nudged", least_time_keeps_its_hoopings_when_a_motif_is_nudged);
  g_test_add_func ("/planner-edges/margin-passed", a_margin_is_passed_where_most_lies_beyond_it);
  g_test_add_func ("/planner-edges/nudge", a_nudge_leaves_the_hoop_where_it_is);
  g_test_add_func ("/planner-edges/disorder", very_many_in_disorder_are_gathered_where_they_lie);
  return g_test_run ();
}
