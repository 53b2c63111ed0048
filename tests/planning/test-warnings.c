/* What the bench warns of: each rule with figures worked out by hand. */
#include "geometry/region.h"
#include "warning-scenes.h"

/* 40 x 40 mm of 1,120 stitches are 0.7 per mm^2; at half the size four times that. */
static void
scale_outside_the_range_names_percent_and_density (void)
{
  struct
  {
    double scale;
    const char *text;
  } cases[] = {
    { 1, NULL },
    { 0.8, NULL },
    { 1.2, NULL },
    { 0.5,
      "At 50 %, Quince is stitched 4.00 times as dense as it was made: 2.80 stitches per mm² in place of "
      "0.70. From 80 % to 120 % its stitches hold; beyond that the cloth may pucker." },
    { 0.796,
      "At 79.6 %, Quince is stitched 1.58 times as dense as it was made: 1.10 stitches per mm² in place "
      "of 0.70. From 80 % to 120 % its stitches hold; beyond that the cloth may pucker." },
    { 2,
      "At 200 %, Quince is stitched only 0.25 times as dense as it was made: 0.17 stitches per mm² in place "
      "of 0.70. From 80 % to 120 % its stitches hold; beyond that the cloth may show through." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwSnapshot) scene = new_scene ();
      HwMotif *quince = add (scene, "Quince", 40, 40, 300, 300);
      g_autoptr (HwPlan) plan = NULL;
      const HwProblem *problem;

      set_stitches (quince, 1120);
      quince->placement.scale = cases[i].scale;
      plan = plan_scene (scene);
      problem = find (plan, HW_PROBLEM_SCALE_RANGE);
      g_assert_cmpstr (problem != NULL ? problem->text : NULL, ==, cases[i].text);
      g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
      if (problem == NULL)
        continue;
      g_assert_cmpint (problem->motif, ==, 0);
      g_assert_false (problem->grave);
      g_assert_cmpfloat (problem->amount, ==, cases[i].scale);
      g_assert_cmpfloat (problem->where.x, ==, 300);
    }
}

static void
range_of_scale_is_the_persons_own (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  HwMotif *quince = add (scene, "Quince", 40, 40, 300, 300);
  g_autoptr (HwPlan) plan = NULL;

  quince->placement.scale = 0.7;
  scene->wishes.scale_low = 0.6;
  plan = plan_scene (scene);
  g_assert_null (find (plan, HW_PROBLEM_SCALE_RANGE));
}

/* Two squares of 40 mm side by side, each hooped by itself and placed to 0.5 / sqrt 2 mm: 0.5 mm together. */
static void
gap_or_overlap_within_the_error_is_a_hairline (void)
{
  struct
  {
    double gap;
    const char *text;
  } cases[] = {
    { 2, NULL },
    { 0.51, NULL },
    { 0.3,
      "Gate and Quince lie 0.3 mm apart in different hoopings: together they may be 0.5 mm out, so the gap "
      "may close or widen. Let them overlap, or keep them well apart." },
    { 0, "Gate and Quince only touch, and are stitched in different hoopings: each may land 0.5 mm from "
         "where it "
         "should, and a hairline of cloth may open between them." },
    { -0.3,
      "Gate and Quince overlap by only 0.3 mm in different hoopings: together they may be 0.5 mm out, and a "
      "hairline of cloth may open between them. Let them overlap more." },
    { -0.51, NULL },
    { -20, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwSnapshot) scene = new_scene ();
      g_autoptr (HwPlan) plan = NULL;
      const HwProblem *problem;

      add (scene, "Gate", 40, 40, 300, 300);
      add (scene, "Quince", 40, 40, 340 + cases[i].gap, 304);
      plan = one_by_one (scene, 0.5 * G_SQRT2 / 2);
      hw_warnings_add (plan, NULL, HW_UNIT_MM);
      problem = find (plan, HW_PROBLEM_HAIRLINE);
      g_assert_cmpstr (problem != NULL ? problem->text : NULL, ==, cases[i].text);
      if (problem == NULL)
        continue;
      g_assert_cmpfloat_with_epsilon (problem->amount, fabs (cases[i].gap), 1e-9);
      g_assert_cmpfloat_with_epsilon (problem->where.x, 320, 0.5);
      g_assert_cmpfloat (problem->where.y, >=, 284);
      g_assert_cmpfloat (problem->where.y, <=, 320);
      g_assert_cmpint (problem->motif, ==, 1);
      g_assert_cmpint (problem->other, ==, 0);
      g_assert_false (problem->grave);
    }
}

static void
neighbours_in_one_hooping_open_no_hairline (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;

  add (scene, "Gate", 40, 40, 300, 300);
  add (scene, "Quince", 40, 40, 340.3, 300);
  plan = plan_scene (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
  g_assert_cmpuint (plan->problems->len, ==, 0);
}

/* The planner's own predicted error, the one on its cards, is what counts. */
static void
planned_neighbours_are_measured_against_their_predicted_error (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL, apart = NULL;
  double together;

  add (scene, "Gate", 120, 170, 200, 200);
  add (scene, "Quince", 120, 170, 320.3, 200);
  plan = plan_scene (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  together = hypot (plan->hoopings[0].predicted_error[0], plan->hoopings[1].predicted_error[0]);
  g_assert_cmpfloat (together, >, 0.3);
  g_assert_cmpuint (count (plan, HW_PROBLEM_HAIRLINE), ==, 1);
  ((HwMotif *)scene->motifs->pdata[1])->placement.position.x = 320 + together + 0.5;
  apart = plan_scene (scene);
  g_assert_cmpuint (count (apart, HW_PROBLEM_HAIRLINE), ==, 0);
}

static double
gap_of (const HwOutline *a, const HwPlacement *at_a, const HwOutline *b, const HwPlacement *at_b)
{
  g_autoptr (HwOutline) one = hw_outline_place (a, at_a);
  g_autoptr (HwOutline) other = hw_outline_place (b, at_b);
  double there = hw_warnings_gap (one, other, 1, NULL), back = hw_warnings_gap (other, one, 1, NULL);

  g_assert_cmpfloat_with_epsilon (isfinite (there) ? there : 0, isfinite (back) ? back : 0, 1e-9);
  return there;
}

/* Two squares side by side whose upper and lower sides lie in one line: no corner of one lies in the other, and no sides cross. */
static void
squares_in_line_overlap_by_what_they_have_in_common (void)
{
  g_autoptr (HwOutline) square = hw_outline_new_rectangle (40, 40);
  HwPlacement at = { { 100, 100 }, 0, 1, FALSE };

  for (double angle = 0; angle < 90; angle += 30)
    for (double common = 0; common < 0.9; common += 0.2)
      {
        HwPoint along = hw_point_turn ((HwPoint){ 40 - common, 0 }, angle);
        HwPlacement beside = { { 100 + along.x, 100 + along.y }, angle, 1, FALSE };

        at.angle = angle;
        g_assert_cmpfloat_with_epsilon (gap_of (square, &at, square, &beside), -common, 1e-6);
      }
}

static void
squares_in_line_are_said_to_overlap (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;

  add (scene, "Gate", 80, 80, 200, 200);
  add (scene, "Quince", 80, 80, 279.6, 200);
  plan = one_by_one (scene, 0.7);
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_nonnull (
      strstr (find (plan, HW_PROBLEM_HAIRLINE)->text, "Gate and Quince overlap by only 0.4 mm in"));
}

/* A stem of 0.5 mm across a leaf, a tip in it, a small motif upon a large one: none of these opens, however narrow the part in common. */
static void
only_a_shallow_overlap_counts (void)
{
  g_autoptr (HwOutline) leaf = hw_outline_new_rectangle (30, 30);
  g_autoptr (HwOutline) stem = hw_outline_new_rectangle (60, 0.5);
  g_autoptr (HwOutline) small = hw_outline_new_rectangle (5, 5);
  HwPoint points[] = { { 0, -10 }, { 0.3, 10 }, { -0.3, 10 } };
  HwRing ring = { points, 3 };
  g_autoptr (HwOutline) tip = hw_outline_new (&ring, 1);
  HwPlacement middle = { { 100, 100 }, 0, 1, FALSE }, turned = { { 100, 100 }, 30, 1, FALSE };
  HwPlacement below = { { 100, 122 }, 0, 1, FALSE }, far = { { 100, 124.4 }, 0, 1, FALSE };

  g_assert_cmpfloat (gap_of (leaf, &middle, stem, &turned), ==, -INFINITY);
  g_assert_cmpfloat (gap_of (leaf, &middle, small, &turned), ==, -INFINITY);
  g_assert_cmpfloat (gap_of (leaf, &middle, tip, &below), ==, -INFINITY); /* 3 mm deep */
  g_assert_cmpfloat_with_epsilon (gap_of (leaf, &middle, tip, &far), -0.6, 1e-6);
}

static void
hairlines_agree_with_areas_on_random_outlines (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());

  for (guint i = 0; i < 300; i++)
    {
      g_autoptr (HwOutline) a = scene_outline (rand, 40, 30);
      g_autoptr (HwOutline) b = scene_outline (rand, 30, 40);
      HwPlacement at_a = { { 100, 100 }, scene_between (rand, 0, 360), 1, FALSE };
      HwPlacement at_b = { { 100 + scene_between (rand, 25, 45), 100 + scene_between (rand, -10, 10) },
                           scene_between (rand, 0, 360),
                           1,
                           FALSE };
      g_autoptr (HwOutline) one = hw_outline_place (a, &at_a);
      g_autoptr (HwOutline) other = hw_outline_place (b, &at_b);
      double gap = hw_warnings_gap (one, other, 1, NULL);
      double area = hw_outline_overlap_area (one, other), distance = hw_outline_distance (one, other);

      if (gap < -0.05)
        g_assert_cmpfloat (area, >, 0);
      if (gap >= 0 && isfinite (gap))
        {
          g_assert_cmpfloat (area, <, 0.05);
          g_assert_cmpfloat_with_epsilon (gap, distance, 1e-6);
        }
      if (isinf (gap) && gap > 0)
        g_assert_cmpfloat (distance, >=, 1 - 1e-9);
      if (distance > 0 && distance < 1)
        g_assert_cmpfloat_with_epsilon (gap, distance, 1e-6);
    }
}

/* 30 x 30 mm each of 3 stitches per mm^2, one upon the other: 6. */
static void
stacked_stitching_over_the_limit_is_told_with_its_place (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL, lax = NULL, apart = NULL;
  const HwProblem *problem;

  set_stitches (add (scene, "Gate", 30, 30, 300, 300), 2700);
  set_stitches (add (scene, "Quince", 30, 30, 310, 300), 2700);
  plan = plan_scene (scene);
  problem = find (plan, HW_PROBLEM_DENSE);
  g_assert_nonnull (problem);
  g_assert_cmpstr (
      problem->text, ==,
      "Quince over Gate is stitched too dense in 1 place: up to 6.0 stitches per mm², where 5.0 are "
      "enough. Leave out what is covered, or move them apart.");
  g_assert_cmpfloat_with_epsilon (problem->amount, 6, 0.1);
  g_assert_cmpfloat (problem->where.x, >, 295);
  g_assert_cmpfloat (problem->where.x, <, 315);
  g_assert_cmpint (problem->motif, ==, 1);
  g_assert_cmpint (problem->other, ==, 0);
  g_assert_false (problem->grave);
  scene->wishes.density_limit = 6.5;
  lax = plan_scene (scene);
  g_assert_null (find (lax, HW_PROBLEM_DENSE));
  scene->wishes.density_limit = 5;
  ((HwMotif *)scene->motifs->pdata[1])->placement.position.x = 340;
  apart = plan_scene (scene);
  g_assert_null (find (apart, HW_PROBLEM_DENSE));
}

static void
few_are_told_one_by_one_and_none_twice (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL, again = NULL;
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < 20; i++)
    {
      g_autofree char *name = g_strdup_printf ("Leaf %u", i);

      add (scene, name, 20, 20, 60 + i % 5 * 100, 60 + i / 5 * 100)->placement.scale = 0.5;
    }
  plan = plan_scene (scene);
  again = plan_scene (scene);
  g_assert_cmpuint (count (plan, HW_PROBLEM_SCALE_RANGE), ==, HW_WARNINGS_MOST + 1);
  g_assert_cmpuint (plan->problems->len, ==, again->problems->len);
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);

      g_assert_cmpstr (problem->text, ==, ((HwProblem *)g_ptr_array_index (again->problems, i))->text);
      g_assert_true (g_hash_table_add (seen, problem->text));
    }
  g_assert_cmpstr (((HwProblem *)g_ptr_array_index (plan->problems, HW_WARNINGS_MOST))->text, ==,
                   "12 more motifs are scaled outside the range in which their stitches hold.");
}

/* The warnings come with every plan on the way; generous bounds, for the machine may be busy. */
static void
scenes_of_all_kinds_get_the_same_warnings_again (void)
{
  const guint sizes[] = { 20, 200 };

  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (guint kind = 0; kind < SCENE_KINDS; kind++)
      for (guint clamped = 0; clamped < 2; clamped++)
        {
          g_autoptr (GRand) rand = g_rand_new_with_seed (7 + kind);
          g_autoptr (HwSnapshot) scene = scene_random (rand, kind, sizes[s], 1.3);
          g_autoptr (HwPlan) plan = NULL;
          g_autofree HwPlaced *placed = g_new0 (HwPlaced, sizes[s]);
          double least = G_MAXDOUBLE;

          scene->fabric.hold = clamped ? HW_HOLD_CLAMPED : HW_HOLD_FLOATED;
          for (guint i = 0; i < sizes[s]; i++)
            placed[i].outline = hw_outline_place (hw_snapshot_motif (scene, i)->outline,
                                                  &hw_snapshot_motif (scene, i)->placement);
          plan = one_by_one (scene, 0.5);
          for (guint k = 0; k < 3; k++)
            {
              gint64 start = g_get_monotonic_time ();

              hw_warnings_add (plan, placed, HW_UNIT_MM);
              least = MIN (least, (g_get_monotonic_time () - start) / 1e3);
            }
          g_test_message ("%u motifs, kind %u%s: %.2f ms, %u warnings", sizes[s], kind,
                          clamped ? ", clamped" : "", least, plan->problems->len / 3);
          for (guint k = plan->problems->len / 3; k < plan->problems->len; k++)
            g_assert_cmpstr (
                ((HwProblem *)g_ptr_array_index (plan->problems, k))->text, ==,
                ((HwProblem *)g_ptr_array_index (plan->problems, k - plan->problems->len / 3))->text);
          for (guint i = 0; i < sizes[s]; i++)
            hw_outline_unref (placed[i].outline);
        }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add_func ("/warnings/" path, func)
  ADD ("squares-in-line-overlap-by-what-they-have-in-common",
       squares_in_line_overlap_by_what_they_have_in_common);
  ADD ("squares-in-line-are-said-to-overlap", squares_in_line_are_said_to_overlap);
  ADD ("scale-outside-the-range-names-percent-and-density",
       scale_outside_the_range_names_percent_and_density);
  ADD ("range-of-scale-is-the-persons-own", range_of_scale_is_the_persons_own);
  ADD ("gap-or-overlap-within-the-error-is-a-hairline", gap_or_overlap_within_the_error_is_a_hairline);
  ADD ("neighbours-in-one-hooping-open-no-hairline", neighbours_in_one_hooping_open_no_hairline);
  ADD ("planned-neighbours-are-measured-against-their-predicted-error",
       planned_neighbours_are_measured_against_their_predicted_error);
  ADD ("only-a-shallow-overlap-counts", only_a_shallow_overlap_counts);
  ADD ("hairlines-agree-with-areas-on-random-outlines", hairlines_agree_with_areas_on_random_outlines);
  ADD ("stacked-stitching-over-the-limit-is-told-with-its-place",
       stacked_stitching_over_the_limit_is_told_with_its_place);
  ADD ("few-are-told-one-by-one-and-none-twice", few_are_told_one_by_one_and_none_twice);
  ADD ("scenes-of-all-kinds-get-the-same-warnings-again", scenes_of_all_kinds_get_the_same_warnings_again);
  return g_test_run ();
}
