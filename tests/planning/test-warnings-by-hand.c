/* Warnings of plans put together by hand: what a later plan takes over of an earlier one's, cloth that is too small in every direction, frames
 * whose pins name little, and stitching that is dense at the map's rim. */
#include "warning-scenes.h"

#include <math.h>

#include "planning/density.h"

/* A plan that says the motifs are stacked too dense. */
static HwPlan *
plan_that_says_dense (const HwSnapshot *scene, int over, int under)
{
  HwPlan *plan = hw_plan_new (scene);
  HwProblem *problem = hw_plan_add_problem (plan, HW_PROBLEM_DENSE, over, FALSE, g_strdup ("Too dense."));

  problem->other = under;
  problem->amount = 7;
  problem->where = (HwPoint){ 3, 4 };
  return plan;
}

static guint
count_kept (const HwSnapshot *scene, const HwPlan *last)
{
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  hw_warnings_keep_dense (plan, last);
  if (plan->problems->len > 0)
    {
      const HwProblem *kept = plan->problems->pdata[0];

      g_assert_cmpint (kept->kind, ==, HW_PROBLEM_DENSE);
      g_assert_cmpstr (kept->text, ==, "Too dense.");
      g_assert_cmpint (kept->other, ==, ((HwProblem *)last->problems->pdata[0])->other);
      g_assert_cmpfloat (kept->amount, ==, 7);
      g_assert_cmpfloat (kept->where.y, ==, 4);
      g_assert_false (kept->grave);
    }
  return plan->problems->len;
}

static void
dense_stacks_are_kept_of_motifs_that_lie_as_they_did (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwSnapshot) fewer = NULL, first_moved = NULL, second_moved = NULL;
  g_autoptr (HwPlan) last = NULL, nameless = NULL;

  add (scene, "Gate", 60, 60, 100, 100);
  add (scene, "Quince", 60, 60, 100, 100);
  last = plan_that_says_dense (scene, 1, 0);
  g_assert_cmpuint (count_kept (scene, NULL), ==, 0);
  g_assert_cmpuint (count_kept (scene, last), ==, 1);
  first_moved = scene_moved (scene, 0, 1, 0);
  g_assert_cmpuint (count_kept (first_moved, last), ==, 0);
  second_moved = scene_moved (scene, 1, 1, 0);
  g_assert_cmpuint (count_kept (second_moved, last), ==, 0);
  fewer = hw_snapshot_copy (scene);
  g_ptr_array_set_size (fewer->motifs, 1);
  g_assert_cmpuint (count_kept (fewer, last), ==, 0);
  nameless = plan_that_says_dense (scene, 1, -1);
  g_assert_cmpuint (count_kept (scene, nameless), ==, 0);
  ((HwProblem *)last->problems->pdata[0])->kind = HW_PROBLEM_HAIRLINE;
  g_assert_cmpuint (count_kept (scene, last), ==, 0);
}

static void
assert_cloth (HwPlan *plan, HwUnit unit, const char *wanted)
{
  const HwProblem *problem;

  g_ptr_array_set_size (plan->problems, 0);
  hw_warnings_add (plan, NULL, unit);
  problem = find (plan, HW_PROBLEM_CLOTH_TOO_SMALL);
  g_assert_cmpstr (problem != NULL ? problem->text : NULL, ==, wanted);
}

/* Gate and Quince span 150 mm. */
static void
the_picture_moves_onto_the_cloth (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;
  HwMotif *gate = add (scene, "Gate", 40, 40, 40, 100), *quince = add (scene, "Quince", 40, 40, 150, 100);

  scene->fabric.width = 140;
  scene->fabric.height = 400;
  plan = one_by_one (scene, 0.4);
#define TOO_SMALL(size, move) "The cloth is too small for its hoopings: a piece of " size " would do." move
  assert_cloth (plan, HW_UNIT_MM,
                TOO_SMALL ("150 × 400 mm", " Move the whole picture 20.0 mm to the left on it."));
  assert_cloth (plan, HW_UNIT_INCH,
                TOO_SMALL ("6.00 × 15.75 in", " Move the whole picture 0.69 in to the left on it."));
  gate->placement.position.x = 20;
  quince->placement.position.x = 130;
  assert_cloth (plan, HW_UNIT_MM, TOO_SMALL ("150 × 400 mm", ""));
  gate->placement.position = (HwPoint){ 20, 20 };
  quince->placement.position = (HwPoint){ 20, 130 };
  scene->fabric.width = 400;
  scene->fabric.height = 140;
  assert_cloth (plan, HW_UNIT_MM, TOO_SMALL ("400 × 150 mm", ""));
  gate->placement.position.y = 60;
  quince->placement.position.y = 170;
  assert_cloth (plan, HW_UNIT_MM, TOO_SMALL ("400 × 150 mm", " Move the whole picture 40.0 mm up on it."));
  gate->placement.position.y = 10;
  quince->placement.position.y = 120;
  assert_cloth (plan, HW_UNIT_MM, TOO_SMALL ("400 × 150 mm", " Move the whole picture 10.0 mm down on it."));
  gate->placement.position.x = 10;
  assert_cloth (
      plan, HW_UNIT_MM,
      TOO_SMALL ("400 × 150 mm", " Move the whole picture 10.0 mm to the right and 10.0 mm down on it."));
  scene->fabric.height = 150;
  assert_cloth (plan, HW_UNIT_MM, NULL);
  plan->hoopings[1].hold = HW_PLACE_FROZEN; /* what is stitched lies where it lies */
  scene->fabric.height = 20;
  assert_cloth (
      plan, HW_UNIT_MM,
      TOO_SMALL ("400 × 40 mm", " Move the whole picture 10.0 mm to the right and 10.0 mm down on it."));
}

/* Without two marks the whole field is wanted on the cloth: 130 x 180 about (100, 100). */
static void
a_hooping_without_marks_asks_for_its_field (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;

  add (scene, "Gate", 40, 40, 100, 100);
  scene->fabric.width = 400;
  scene->fabric.height = 170;
  plan = one_by_one (scene, 0.4);
  assert_cloth (plan, HW_UNIT_MM, NULL);
  plan->hoopings[0].n_marks = 1;
  assert_cloth (plan, HW_UNIT_MM, TOO_SMALL ("400 × 180 mm", " Move the whole picture 10.0 mm up on it."));
}

/* Gate fits a hoop wherever the cloth floats; clamped it asks for the smallest frame whose field takes it, of the hoops in use. */
static void
the_smallest_frame_asks_for_clamped_cloth (void)
{
  g_autoptr (HwSnapshot) scene = new_scene (); /* frame 170 x 240 */
  g_autoptr (HwPlan) plan = NULL;

  scene_add_hoop (scene, "wide", 200, 200, HW_TURN_ANY); /* frame 240 x 260 */
  scene_add_hoop (scene, "least", 60, 60, HW_TURN_ANY);  /* frame 100 x 120 */
  scene_add_hoop (scene, "aside", 62, 62, HW_TURN_ANY);
  scene_add_hoop (scene, "narrow", 20, 20, HW_TURN_ANY);
  ((HwHoop *)scene->hoops->pdata[3])->set_aside = TRUE;
  add (scene, "Gate", 40, 40, 40, 40);
  scene->fabric.hold = HW_HOLD_CLAMPED;
  scene->fabric.width = 90;
  scene->fabric.height = 200;
  plan = hw_plan_new (scene);
  hw_plan_add_problem (plan, HW_PROBLEM_PART, 0, FALSE, g_strdup ("Not this."));
  hw_plan_add_problem (plan, HW_PROBLEM_OVERSIZE, 0, TRUE, g_strdup ("It cannot be hooped where it lies."));
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_nonnull (find (plan, HW_PROBLEM_CLOTH_TOO_SMALL));
  g_assert_true (
      g_str_has_prefix (find (plan, HW_PROBLEM_CLOTH_TOO_SMALL)->text,
                        "The cloth is too small for its hoopings: a piece of 100 × 200 mm would do."));
  ((HwHoop *)scene->hoops->pdata[2])->set_aside = TRUE;
  g_ptr_array_set_size (plan->problems, 0);
  hw_plan_add_problem (plan, HW_PROBLEM_OVERSIZE, 0, TRUE, g_strdup ("It cannot be hooped where it lies."));
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_true (
      g_str_has_prefix (find (plan, HW_PROBLEM_CLOTH_TOO_SMALL)->text,
                        "The cloth is too small for its hoopings: a piece of 170 × 240 mm would do."));
}

/* What no frame could take at all no cloth helps. */
static void
no_cloth_helps_what_fits_no_hoop (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;

  add (scene, "Barn", 500, 400, 300, 300);
  scene->fabric.hold = HW_HOLD_CLAMPED;
  scene->fabric.width = 100;
  plan = hw_plan_new (scene);
  hw_plan_add_problem (plan, HW_PROBLEM_OVERSIZE, 0, TRUE, g_strdup ("No hoop takes it."));
  hw_plan_add_problem (plan, HW_PROBLEM_OVERSIZE, -1, TRUE, g_strdup ("Nor anything else."));
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_null (find (plan, HW_PROBLEM_CLOTH_TOO_SMALL));
}

static HwPin *
pin_off_cloth (const char *hoop, const char *motif)
{
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup (hoop);
  pin->centre = (HwPoint){ 10, 300 };
  pin->motifs = motif != NULL ? g_strsplit (motif, " ", -1) : NULL;
  return pin;
}

/* Only a pin that is whole, of a hoop and a motif that are there, has a frame to speak of. */
static void
frames_of_pins_are_told_of_where_there_is_one (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;
  HwPin *motifs_only = pin_off_cloth ("h", "m1");

  add (scene, "Gate", 40, 40, 300, 300);
  scene->fabric.hold = HW_HOLD_CLAMPED;
  motifs_only->keep = HW_KEEP_MOTIFS;
  g_ptr_array_add (scene->pins, motifs_only);
  g_ptr_array_add (scene->pins, pin_off_cloth (NULL, "m1"));
  g_ptr_array_add (scene->pins, pin_off_cloth ("gone", "m1"));
  g_ptr_array_add (scene->pins, pin_off_cloth ("h", NULL));
  g_ptr_array_add (scene->pins, pin_off_cloth ("h", ""));
  g_ptr_array_add (scene->pins, pin_off_cloth ("h", "gone"));
  plan = one_by_one (scene, 0.4);
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_null (find (plan, HW_PROBLEM_FRAME_OFF_CLOTH));
  g_ptr_array_add (scene->pins, pin_off_cloth ("h", "m1"));
  g_ptr_array_set_size (plan->problems, 0);
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_cmpuint (count (plan, HW_PROBLEM_FRAME_OFF_CLOTH), ==, 1);
  g_assert_cmpfloat_with_epsilon (find (plan, HW_PROBLEM_FRAME_OFF_CLOTH)->amount, 75, 1e-9);
}

/* Where nothing is predicted, each motif is as far out as the person allows. */
static void
hairlines_without_marks_reckon_with_the_tolerance (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;

  add (scene, "Gate", 40, 40, 100, 100);
  add (scene, "Quince", 40, 40, 141, 100);
  scene->wishes.tolerance = 0.9;
  plan = one_by_one (scene, 0.4);
  hw_warnings_add (plan, NULL, HW_UNIT_MM); /* 0.57 mm together are less than the gap of 1 mm */
  g_assert_null (find (plan, HW_PROBLEM_HAIRLINE));
  plan->hoopings[0].predicted_error[0] = INFINITY;
  g_clear_pointer (&plan->hoopings[1].predicted_error, g_free);
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_nonnull (find (plan, HW_PROBLEM_HAIRLINE));
  g_assert_nonnull (strstr (find (plan, HW_PROBLEM_HAIRLINE)->text, "together they may be 1.3 mm out"));
}

/* However they lie on the cloth, pairs are told of in the motifs' order. */
static void
hairlines_are_told_in_the_order_of_motifs (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;

  add (scene, "Gate", 40, 40, 100, 100);
  add (scene, "Quince", 40, 40, 140.2, 100);
  add (scene, "Jetty", 40, 40, 59.8, 100);
  plan = one_by_one (scene, 0.4);
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_cmpuint (count (plan, HW_PROBLEM_HAIRLINE), ==, 2);
  g_assert_cmpint (find (plan, HW_PROBLEM_HAIRLINE)->motif, ==, 1);
  g_assert_cmpint (find (plan, HW_PROBLEM_HAIRLINE)->other, ==, 0);
}

/* Two tiles of 3 mm, one on its corner: no corner lies in the other tile, and yet they overlap, as deep as the middles of their sides lie in it. */
static void
tiles_that_make_a_star_overlap (void)
{
  HwPoint where;
  g_autoptr (HwOutline) tile = hw_outline_new_rectangle (3, 3);
  g_autoptr (HwOutline) on_its_corner = hw_outline_place (tile, &(HwPlacement){ { 0, 0 }, 45, 1, FALSE });

  g_assert_cmpfloat_with_epsilon (hw_warnings_gap (tile, on_its_corner, 2, &where), -1.5 * (1 - M_SQRT1_2),
                                  1e-6);
}

static void
a_gap_beyond_reach_has_no_measure (void)
{
  HwPoint where = { -1, -1 };
  g_autoptr (HwOutline) a = hw_outline_new_rectangle (10, 10);
  g_autoptr (HwOutline) below = hw_outline_place (a, &(HwPlacement){ { 0, 12 }, 0, 1, FALSE });
  g_autoptr (HwOutline) beside = hw_outline_place (a, &(HwPlacement){ { 12, 0 }, 0, 1, FALSE });

  g_assert_cmpfloat_with_epsilon (hw_warnings_gap (a, below, 5, &where), 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_warnings_gap (a, beside, 5, NULL), 2, 1e-9);
  g_assert_true (isinf (hw_warnings_gap (a, below, 0.5, &where)));
  g_assert_true (isinf (hw_warnings_gap (a, beside, 0.5, &where)));
  g_assert_true (isinf (hw_warnings_gap (a, beside, 0, &where)));
  g_assert_true (isinf (hw_warnings_gap (a, beside, NAN, &where)));
}

/* The map is shared, begins where its first cell does, and is counted anew where its cells are of another size. */
static void
density_maps_are_shared_and_measured (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwSnapshot) huge = NULL, off = NULL;
  HwDensityMap *map, *shared;
  g_autoptr (HwDensityMap) coarse = NULL, again = NULL, none = NULL;
  HwPoint corner, middle;
  g_autoptr (GArray) patches = NULL;

  set_stitches (add (scene, "Gate", 20, 20, 100, 50), 4000);
  map = hw_density_map_new (scene, NULL);
  shared = hw_density_map_ref (map);
  hw_density_map_unref (map);
  corner = hw_density_map_corner (shared);
  middle = hw_density_map_middle (shared, 0, 0);
  g_assert_cmpfloat (corner.x, ==, 88);
  g_assert_cmpfloat (corner.y, ==, 38);
  g_assert_cmpfloat (middle.x, ==, corner.x + 0.5);
  g_assert_cmpfloat_with_epsilon (hw_density_map_peak (shared, NULL), 10, 0.1);
  patches = hw_density_map_patches (shared, -1, FALSE); /* any stitch at all is over it */
  g_assert_cmpuint (patches->len, ==, 1);
  huge = hw_snapshot_copy (scene);
  set_stitches (add (huge, "Barn", 20, 20, 90000, 90000), 4000);
  coarse = hw_density_map_new (huge, shared);
  g_assert_cmpfloat (hw_density_map_cell (coarse), >, 1);
  again = hw_density_map_new (scene, coarse);
  g_assert_cmpfloat (hw_density_map_cell (again), ==, 1);
  g_assert_cmpfloat_with_epsilon (hw_density_map_peak (again, NULL), 10, 0.1);
  hw_density_map_unref (shared);
  off = hw_snapshot_copy (scene);
  g_ptr_array_set_size (off->motifs, 0);
  set_stitches (add (off, "Nowhere", 20, 20, 1e12, 50), 4000); /* farther than any cloth */
  none = hw_density_map_new (off, NULL);
  g_assert_cmpuint (hw_density_map_columns (none), ==, 0);
  g_assert_cmpfloat (hw_density_map_peak (none, &corner), ==, 0);
  for (guint side = 0; side < 2; side++)
    {
      g_autoptr (HwDensityMap) beyond = NULL;
      HwMotif *motif = off->motifs->pdata[0];

      motif->placement.position = side ? (HwPoint){ 50, -1e12 } : (HwPoint){ 50, 1e12 };
      beyond = hw_density_map_new (off, NULL);
      g_assert_cmpuint (hw_density_map_columns (beyond), ==, 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add_func ("/warnings-by-hand/" path, func)
  ADD ("dense-is-kept", dense_stacks_are_kept_of_motifs_that_lie_as_they_did);
  ADD ("picture-moves", the_picture_moves_onto_the_cloth);
  ADD ("field", a_hooping_without_marks_asks_for_its_field);
  ADD ("smallest-frame", the_smallest_frame_asks_for_clamped_cloth);
  ADD ("no-cloth-helps", no_cloth_helps_what_fits_no_hoop);
  ADD ("pins", frames_of_pins_are_told_of_where_there_is_one);
  ADD ("told-in-order", hairlines_are_told_in_the_order_of_motifs);
  ADD ("star", tiles_that_make_a_star_overlap);
  ADD ("tolerance", hairlines_without_marks_reckon_with_the_tolerance);
  ADD ("reach", a_gap_beyond_reach_has_no_measure);
  ADD ("density", density_maps_are_shared_and_measured);
  return g_test_run ();
}
