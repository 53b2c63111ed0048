/* Where a motif lies in its hoop, and where the hoop lies on the cloth. */
#include <glib.h>

#include "../../src/paper/hooping-page.h"
#include "../../src/paper/steps.h"
#include "garden.h"

/* The design's axes: p - centre = R(angle) (u, v). */
static void
test_shift_and_turn_lead_back_to_the_cloth (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();

  for (guint h = 0; h < plan->n_hoopings; h++)
    for (guint i = 0; i < plan->hoopings[h].n_motifs; i++)
      {
        const HwHooping *hooping = &plan->hoopings[h];
        const HwMotif *motif = hw_snapshot_motif (plan->snapshot, hooping->motifs[i]);
        HwMotifInHoop place = hw_motif_in_hoop (plan, h, hooping->motifs[i]);
        HwPoint back = hw_point_turn (place.shift, hooping->angle);

        g_assert_cmpfloat_with_epsilon (back.x + hooping->centre.x, motif->placement.position.x, 1e-9);
        g_assert_cmpfloat_with_epsilon (back.y + hooping->centre.y, motif->placement.position.y, 1e-9);
        g_assert_cmpfloat_with_epsilon (
            hw_angle_normal (place.turn + hooping->angle - motif->placement.angle), 0, 1e-9);
      }
}

/* A hoop turned a quarter clockwise has its top at the cloth's right: what lies right of its centre is away
 * from the person. */
static void
test_right_of_a_quarter_turned_hoop_is_away (void)
{
  HwHooping hooping = { .centre = { 100, 100 }, .angle = 90 };
  HwPoint in_hoop = hw_point_in_hoop (&hooping, (HwPoint){ 130, 100 });

  g_assert_cmpfloat_with_epsilon (in_hoop.x, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (in_hoop.y, -30, 1e-9);
}

static void
test_distances_to_a_rectangular_edge (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwPoint corner = hw_measuring_corner (plan->snapshot);
  HwEdgeDistances d = hw_edge_distances (plan->snapshot, (HwPoint){ 282, 160 });

  g_assert_cmpfloat (corner.x, ==, 30);
  g_assert_cmpfloat (corner.y, ==, 30);
  g_assert_cmpfloat_with_epsilon (d.left, 252, 1e-9);
  g_assert_cmpfloat_with_epsilon (d.right, 108, 1e-9);
  g_assert_cmpfloat_with_epsilon (d.top, 130, 1e-9);
  g_assert_cmpfloat_with_epsilon (d.bottom, 130, 1e-9);
}

/* Straight across an ellipse of half axes a, b at height y: half a chord is a sqrt (1 - y^2 / b^2). */
static void
test_distances_to_an_oval_edge (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwEdgeDistances d;

  hw_edge_line_unref (plan->snapshot->edge_line);
  plan->snapshot->edge_line = hw_edge_line_new_shape (HW_EDGE_ELLIPSE, (HwBox){ 10, 10, 410, 310 }, 0, 2);
  d = hw_edge_distances (plan->snapshot, (HwPoint){ 210, 160 + 90 });

  g_assert_cmpfloat_with_epsilon (d.left, 200 * 0.8, 0.3);
  g_assert_cmpfloat_with_epsilon (d.right, 200 * 0.8, 0.3);
  g_assert_cmpfloat_with_epsilon (d.top, 150 + 90, 0.3);
  g_assert_cmpfloat_with_epsilon (d.bottom, 150 - 90, 0.3);
}

static void
test_without_edge_line_the_cloth_is_measured (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  HwEdgeDistances d;

  g_clear_pointer (&plan->snapshot->edge_line, hw_edge_line_unref);
  d = hw_edge_distances (plan->snapshot, (HwPoint){ 100, 50 });

  g_assert_cmpfloat (hw_measuring_corner (plan->snapshot).x, ==, 0);
  g_assert_cmpfloat (d.left, ==, 100);
  g_assert_cmpfloat (d.right, ==, 320);
  g_assert_cmpfloat (d.bottom, ==, 270);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/hooping/shift-and-turn-lead-back-to-the-cloth",
                   test_shift_and_turn_lead_back_to_the_cloth);
  g_test_add_func ("/hooping/right-of-a-quarter-turned-hoop-is-away",
                   test_right_of_a_quarter_turned_hoop_is_away);
  g_test_add_func ("/hooping/distances-to-a-rectangular-edge", test_distances_to_a_rectangular_edge);
  g_test_add_func ("/hooping/distances-to-an-oval-edge", test_distances_to_an_oval_edge);
  g_test_add_func ("/hooping/without-edge-line-the-cloth-is-measured",
                   test_without_edge_line_the_cloth_is_measured);

  return g_test_run ();
}
