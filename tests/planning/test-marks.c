/* Rule 9: marks that can be reached and seen, laid out for a small predicted error, and shared where that costs nothing. */
#include <math.h>

#include "geometry/region.h"
#include "planning/marks.h"
#include "registration/mark-error.h"

static void
add_hoop (HwSnapshot *snapshot, double width, double height)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup_printf ("h%u", snapshot->hoops->len + 1);
  hoop->name = g_strdup_printf ("%g x %g", width, height);
  hoop->field_width = width;
  hoop->field_height = height;
  hoop->frame_width = width + 40;
  hoop->frame_height = height + 60;
  hoop->clearance = 2;
  g_ptr_array_add (snapshot->hoops, hoop);
}

static void
add_motif (HwSnapshot *snapshot, double x, double y, double width, double height)
{
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup_printf ("m%u", snapshot->motifs->len + 1);
  motif->name = g_strdup_printf ("Pear %u", snapshot->motifs->len + 1);
  motif->outline = hw_outline_new_ellipse (width, height, 48);
  motif->placement = (HwPlacement){ { x, y }, 0, 1, FALSE };
  g_ptr_array_add (snapshot->motifs, motif);
}

static void
add_hooping (HwPlan *plan, double x, double y, double angle, guint first_motif, guint n_motifs)
{
  HwHooping *hooping;

  plan->hoopings = g_renew (HwHooping, plan->hoopings, plan->n_hoopings + 1);
  hooping = &plan->hoopings[plan->n_hoopings++];
  *hooping = (HwHooping){ .centre = { x, y }, .angle = angle, .n_motifs = n_motifs };
  hooping->motifs = g_new (guint, MAX (n_motifs, 1));
  for (guint i = 0; i < n_motifs; i++)
    hooping->motifs[i] = first_motif + i;
}

static HwOutline *
placed_motif (const HwPlan *plan, guint motif)
{
  const HwMotif *record = hw_snapshot_motif (plan->snapshot, motif);

  return hw_outline_place (record->outline, &record->placement);
}

/* Every mark is in the field and on the cloth, and clear of what earlier hoopings stitched. */
static void
assert_marks_usable (const HwPlan *plan)
{
  for (guint k = 0; k < plan->n_hoopings; k++)
    {
      const HwHooping *hooping = &plan->hoopings[k];
      const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);

      for (guint i = 0; i < hooping->n_marks; i++)
        {
          HwPoint at = hooping->marks[i].at;
          HwPoint off = hw_point_turn ((HwPoint){ at.x - hooping->centre.x, at.y - hooping->centre.y },
                                       -hooping->angle);

          g_assert_cmpfloat (fabs (off.x), <, hoop->field_width / 2);
          g_assert_cmpfloat (fabs (off.y), <, hoop->field_height / 2);
          g_assert_true (at.x > 0 && at.x < plan->snapshot->fabric.width);
          g_assert_true (at.y > 0 && at.y < plan->snapshot->fabric.height);
          for (guint e = 0; e < k; e++)
            for (guint m = 0; m < plan->hoopings[e].n_motifs; m++)
              {
                g_autoptr (HwOutline) earlier = placed_motif (plan, plan->hoopings[e].motifs[m]);

                g_assert_cmpfloat (hw_outline_distance_to_point (earlier, at), >=,
                                   HW_MARKS_STITCH_GAP - 1e-9);
              }
          for (guint j = 0; j < i; j++)
            {
              g_assert_cmpfloat (hw_point_distance (at, hooping->marks[j].at), >, 8);
              g_assert_cmpstr (hooping->marks[i].letter, !=, hooping->marks[j].letter);
            }
        }
    }
}

static void
test_two_marks_far_apart (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = NULL;
  HwPoint marks[2];

  add_hoop (snapshot, 130, 180);
  add_motif (snapshot, 200, 200, 60, 80);
  plan = hw_plan_new (snapshot);
  add_hooping (plan, 200, 200, 0, 0, 1);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);

  g_assert_cmpuint (plan->problems->len, ==, 0);
  g_assert_cmpuint (plan->hoopings[0].n_marks, ==, 2);
  assert_marks_usable (plan);
  for (guint i = 0; i < 2; i++)
    marks[i] = plan->hoopings[0].marks[i].at;
  g_assert_cmpstr (plan->hoopings[0].marks[0].letter, ==, "A");
  g_assert_cmpstr (plan->hoopings[0].marks[1].letter, ==, "B");
  g_assert_cmpfloat (plan->hoopings[0].predicted_error[0], ==,
                     hw_mark_error (marks, 2, HW_MARKS_SIGMA, (HwPoint){ 200, 200 }));
  /* The motif lies midway between them: what is left is sigma itself. */
  g_assert_cmpfloat_with_epsilon (plan->hoopings[0].predicted_error[0], HW_MARKS_SIGMA, 1e-3);
}

static void
test_earlier_stitching_is_avoided (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = NULL;

  add_hoop (snapshot, 130, 180);
  add_motif (snapshot, 150, 130, 100, 90); /* covers one corner of the second field */
  add_motif (snapshot, 200, 200, 60, 60);
  plan = hw_plan_new (snapshot);
  add_hooping (plan, 150, 130, 0, 0, 1);
  add_hooping (plan, 200, 200, 30, 1, 1);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);

  g_assert_cmpuint (plan->problems->len, ==, 0);
  g_assert_cmpuint (plan->hoopings[1].n_marks, >=, 2);
  assert_marks_usable (plan);
}

static void
test_no_place_is_a_problem (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = NULL;
  const HwProblem *problem;

  add_hoop (snapshot, 130, 180);
  add_motif (snapshot, 200, 200, 400, 400); /* a ground that covers the whole field */
  add_motif (snapshot, 200, 200, 60, 60);
  plan = hw_plan_new (snapshot);
  add_hooping (plan, 200, 200, 0, 0, 1);
  add_hooping (plan, 200, 200, 0, 1, 1);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);

  g_assert_cmpuint (plan->hoopings[1].n_marks, <, 2);
  g_assert_cmpuint (plan->problems->len, ==, 1);
  problem = g_ptr_array_index (plan->problems, 0);
  g_assert_cmpint (problem->kind, ==, HW_PROBLEM_MARKS);
  g_assert_cmpint (problem->hooping, ==, 1);
  g_assert_false (problem->grave);
  g_assert_nonnull (strstr (problem->text, "Hooping 2"));
  g_assert_nonnull (strstr (problem->text, "1.5 mm"));
}

static void
test_a_gap_in_the_ground_is_found (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = NULL;
  HwPoint ground[] = { { -200, -200 }, { 200, -200 }, { 200, 200 }, { -200, 200 } };
  HwPoint gap_a[] = { { -50, -70 }, { -38, -70 }, { -38, -58 }, { -50, -58 } };
  HwPoint gap_b[] = { { 30, 50 }, { 42, 50 }, { 42, 62 }, { 30, 62 } };
  HwRing rings[] = { { ground, 4 }, { gap_a, 4 }, { gap_b, 4 } };
  HwMotif *motif;

  add_hoop (snapshot, 130, 180);
  add_motif (snapshot, 200, 200, 10, 10);
  motif = hw_motif_copy (hw_snapshot_motif (snapshot, 0));
  hw_outline_unref (motif->outline);
  motif->outline = hw_outline_new (rings, 3);
  hw_motif_unref (snapshot->motifs->pdata[0]);
  snapshot->motifs->pdata[0] = motif;
  add_motif (snapshot, 200, 200, 60, 60);
  plan = hw_plan_new (snapshot);
  add_hooping (plan, 200, 200, 0, 0, 1);
  add_hooping (plan, 200, 200, 0, 1, 1);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);

  g_assert_cmpuint (plan->hoopings[1].n_marks, >=, 2);
  g_assert_cmpuint (plan->problems->len, ==, 0);
  assert_marks_usable (plan);
}

static void
test_marks_are_shared (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = NULL;
  guint shared = 0;

  add_hoop (snapshot, 130, 180);
  add_motif (snapshot, 200, 196, 40, 40);
  add_motif (snapshot, 203, 205, 40, 25);
  plan = hw_plan_new (snapshot);
  add_hooping (plan, 200, 200, 0, 0, 1);
  add_hooping (plan, 201, 201, 0, 1, 1); /* almost the same field */
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  assert_marks_usable (plan);
  for (guint i = 0; i < plan->hoopings[0].n_marks; i++)
    for (guint j = 0; j < plan->hoopings[1].n_marks; j++)
      if (g_str_equal (plan->hoopings[0].marks[i].letter, plan->hoopings[1].marks[j].letter))
        {
          g_assert_cmpfloat (hw_point_distance (plan->hoopings[0].marks[i].at, plan->hoopings[1].marks[j].at),
                             ==, 0);
          shared++;
        }
  g_assert_cmpuint (shared, ==, 2);
}

static void
test_letters_go_on_after_z (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = NULL;

  snapshot->fabric.width = 6000;
  add_hoop (snapshot, 130, 180);
  for (guint i = 0; i < 15; i++)
    add_motif (snapshot, 200 + 300 * i, 200, 40, 40);
  plan = hw_plan_new (snapshot);
  for (guint i = 0; i < 15; i++)
    add_hooping (plan, 200 + 300 * i, 200, 0, i, 1);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpstr (plan->hoopings[12].marks[1].letter, ==, "Z");
  g_assert_cmpstr (plan->hoopings[13].marks[0].letter, ==, "AA");
  g_assert_cmpstr (plan->hoopings[14].marks[1].letter, ==, "AD");
}

/* Random plans: marks are usable always, few, and leave an error of the order of a drawn line. */
static void
test_random_layouts (void)
{
  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
      g_autoptr (HwPlan) plan = NULL;
      guint n_hoopings = g_test_rand_int_range (1, 7), n = 0;

      add_hoop (snapshot, g_test_rand_double_range (60, 160), g_test_rand_double_range (60, 200));
      plan = hw_plan_new (snapshot);
      for (guint k = 0; k < n_hoopings; k++)
        {
          double x = g_test_rand_double_range (60, 640), y = g_test_rand_double_range (60, 480);
          guint first = n, count = g_test_rand_int_range (1, 4);

          for (guint m = 0; m < count; m++, n++)
            add_motif (snapshot, x + g_test_rand_double_range (-25, 25),
                       y + g_test_rand_double_range (-25, 25), g_test_rand_double_range (8, 60),
                       g_test_rand_double_range (8, 60));
          add_hooping (plan, x, y, g_test_rand_double_range (-90, 90), first, count);
        }
      hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
      assert_marks_usable (plan);
      for (guint k = 0; k < plan->n_hoopings; k++)
        {
          const HwHooping *hooping = &plan->hoopings[k];

          if (hooping->n_marks >= 2)
            for (guint m = 0; m < hooping->n_motifs; m++)
              g_assert_cmpfloat (hooping->predicted_error[m], <, 2);
          g_assert_cmpuint (hooping->n_marks, <=, 4);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/marks/two-marks-far-apart", test_two_marks_far_apart);
  g_test_add_func ("/planning/marks/earlier-stitching-is-avoided", test_earlier_stitching_is_avoided);
  g_test_add_func ("/planning/marks/no-place-is-a-problem", test_no_place_is_a_problem);
  g_test_add_func ("/planning/marks/a-gap-in-the-ground-is-found", test_a_gap_in_the_ground_is_found);
  g_test_add_func ("/planning/marks/marks-are-shared", test_marks_are_shared);
  g_test_add_func ("/planning/marks/letters-go-on-after-z", test_letters_go_on_after_z);
  g_test_add_func ("/planning/marks/random-layouts", test_random_layouts);
  return g_test_run ();
}
