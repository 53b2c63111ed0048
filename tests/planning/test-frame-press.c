/* Frames on clamped cloth go beside finished stitching where the motifs leave them the play. Figures worked out by hand: the frame's ring
 * lies between 65 and 85 mm from the centre across, between 90 and 120 mm along. */
#include "planning/frame-press.h"

#include "warning-scenes.h"

/* The first two motifs never share; what is listed first is stitched first where nothing speaks against it. */
static HwSnapshot *
gate_then_quince (HwHold hold)
{
  HwSnapshot *scene = new_scene ();

  scene->fabric.hold = hold;
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "m2"));
  return scene;
}

/* Quince reaches 50 mm from its centre and Gate begins 80 mm from it: with the frame even the ring presses on 5 mm of Gate. The field leaves 65 - 2 - 50 =
 * 13 mm of play; half of it away from Gate is enough. On floated cloth the ring holds the stabiliser alone. */
static void
frame_is_moved_beside_finished_stitching (void)
{
  g_autoptr (HwSnapshot) clamped = gate_then_quince (HW_HOLD_CLAMPED);
  g_autoptr (HwSnapshot) floated = gate_then_quince (HW_HOLD_FLOATED);
  g_autoptr (HwPlan) plan = NULL, even = NULL;
  g_autoptr (GError) error = NULL;

  add (clamped, "Gate", 10, 40, 385, 270);
  add (clamped, "Quince", 100, 100, 300, 270);
  plan = plan_scene (clamped);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_null (find (plan, HW_PROBLEM_FRAME_ON_STITCHING));
  g_assert_cmpfloat_with_epsilon (plan->hoopings[1].centre.x, 300 - 6.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (plan->hoopings[1].centre.y, 270, 1e-9);
  g_assert_cmpfloat_with_epsilon (plan->hoopings[1].margin, 15 - 6.5, 1e-9);
  hw_plan_verify (plan, &error);
  g_assert_no_error (error);

  add (floated, "Gate", 10, 40, 385, 270);
  add (floated, "Quince", 100, 100, 300, 270);
  even = plan_scene (floated);
  g_assert_cmpfloat_with_epsilon (even->hoopings[1].centre.x, 300, 1e-9);
}

/* Quince fills the field but for 1 mm all round. Pear and Gate lie 86 mm from its centre at both sides, so that the frame just fits between them
 * upright and presses on both when it lies across. Above and below at 88 mm it is the other way round. */
static void
frame_is_turned_beside_finished_stitching (void)
{
  const struct
  {
    double dx, dy, angle;
  } cases[] = { { 96, 0, 0 }, { 0, 98, 90 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwSnapshot) scene = gate_then_quince (HW_HOLD_CLAMPED);
      g_autoptr (HwPlan) plan = NULL;
      double dx = cases[i].dx, dy = cases[i].dy;

      add (scene, "Gate", dx > 0 ? 20 : 60, dx > 0 ? 60 : 20, 300 + dx, 270 + dy);
      add (scene, "Pear", dx > 0 ? 20 : 60, dx > 0 ? 60 : 20, 300 - dx, 270 - dy);
      add (scene, "Quince", 124, 124, 300, 270);
      g_ptr_array_add (scene->apart, hw_apart_new ("m3", "m2"));
      g_ptr_array_add (scene->apart, hw_apart_new ("m3", "m1"));
      plan = plan_scene (scene);
      g_assert_cmpuint (plan->n_hoopings, ==, 3);
      g_assert_cmpuint (plan->hoopings[2].motifs[0], ==, 2);
      g_assert_cmpfloat_with_epsilon (plan->hoopings[2].angle, cases[i].angle, 1e-9);
      for (guint p = 0; p < plan->problems->len; p++)
        {
          const HwProblem *problem = g_ptr_array_index (plan->problems, p);

          g_assert_false (problem->kind == HW_PROBLEM_FRAME_ON_STITCHING && problem->hooping == 2);
        }
    }
}

/* A smaller hoop comes before a frame that presses on nothing. */
static void
smaller_hoop_counts_for_more (void)
{
  g_autoptr (HwSnapshot) scene = gate_then_quince (HW_HOLD_CLAMPED);
  g_autoptr (HwPlan) plan = NULL;

  scene_add_hoop (scene, "large", 300, 300, HW_TURN_ANY);
  add (scene, "Gate", 10, 400, 375, 270);
  add (scene, "Quince", 120, 120, 300, 270);
  plan = plan_scene (scene);
  g_assert_cmpuint (plan->hoopings[1].hoop, ==, 0);
  g_assert_nonnull (find (plan, HW_PROBLEM_FRAME_ON_STITCHING));
}

/* A bar of stitching from 20 to 75 mm across the frame's right ring, which begins 65 mm out: what is shown is the middle of what it presses. */
static void
what_is_pressed_is_shown_in_its_middle (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwOutline) bar = hw_outline_new_rectangle (55, 10);
  g_autoptr (HwOutline) placed = hw_outline_place (bar, &(HwPlacement){ { 347.5, 270 }, 0, 1, FALSE });
  HwPoint where = { 0, 0 };

  g_assert_true (hw_frame_presses_on (hw_snapshot_hoop (scene, 0), (HwPoint){ 300, 270 }, 0, placed, &where));
  g_assert_cmpfloat_with_epsilon (where.x, 300 + (65.05 + 75) / 2, 1e-6);
  g_assert_cmpfloat_with_epsilon (fabs (where.y - 270), 5, 1e-6);
}

static guint
count_pressed (const HwSnapshot *scene, const HwHoopChoice *choice, const GPtrArray *stitched)
{
  guint n = 0;
  HwPoint where;

  for (guint i = 0; i < stitched->len; i++)
    n += hw_frame_presses_on (hw_snapshot_hoop (scene, choice->hoop), choice->pose.centre, choice->pose.angle,
                              g_ptr_array_index (stitched, i), &where);
  return n;
}

/* However it is set, it takes the motifs, is no larger, no more trouble, and presses on fewer or stays as it was. */
static void
set_frame_is_never_worse (void)
{
  guint better = 0;

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
      g_autoptr (HwSnapshot) scene = scene_random (rand, round % SCENE_KINDS, 14, 1);
      g_autoptr (GPtrArray) stitched = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);

      scene->fabric.hold = HW_HOLD_CLAMPED;
      for (guint i = 0; i < scene->motifs->len; i++)
        {
          const HwMotif *motif = hw_snapshot_motif (scene, i);
          g_autoptr (GArray) liked = hw_liked_angles (scene, &i, 1);
          g_autoptr (GArray) hull = hw_sharing_hull (scene, &i, 1);
          const HwPoint *points = (const HwPoint *)hull->data;
          HwHoopChoice first, choice;
          const HwHoop *a, *b;
          guint pressed;

          if (hw_hoop_choose (scene, points, hull->len, liked, &first))
            {
              choice = first;
              hw_frame_set_beside (scene, points, hull->len, liked, FALSE, stitched, &choice);
              a = hw_snapshot_hoop (scene, first.hoop);
              b = hw_snapshot_hoop (scene, choice.hoop);
              pressed = count_pressed (scene, &first, stitched);
              g_assert_true (hw_hoop_suits (scene, points, hull->len, liked, &choice));
              g_assert_cmpfloat_with_epsilon (a->field_width * a->field_height,
                                              b->field_width * b->field_height, 1e-6);
              g_assert_cmpuint (choice.trouble, <=, first.trouble);
              if (hw_point_distance (choice.pose.centre, first.pose.centre) > 1e-9
                  || choice.pose.angle != first.pose.angle || choice.hoop != first.hoop)
                {
                  g_assert_cmpuint (count_pressed (scene, &choice, stitched), <, pressed);
                  better++;
                }
            }
          g_ptr_array_add (stitched, hw_outline_place (motif->outline, &motif->placement));
        }
    }
  g_assert_cmpuint (better, >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add_func ("/frame-press/" path, func)
  ADD ("frame-is-moved-beside-finished-stitching", frame_is_moved_beside_finished_stitching);
  ADD ("frame-is-turned-beside-finished-stitching", frame_is_turned_beside_finished_stitching);
  ADD ("smaller-hoop-counts-for-more", smaller_hoop_counts_for_more);
  ADD ("what-is-pressed-is-shown-in-its-middle", what_is_pressed_is_shown_in_its_middle);
  ADD ("set-frame-is-never-worse", set_frame_is_never_worse);
  return g_test_run ();
}
