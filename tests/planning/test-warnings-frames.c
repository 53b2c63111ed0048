/* What the bench warns of about frames and the size of the cloth, with figures worked out by hand. */
#include "warning-scenes.h"

static void
clamp (HwSnapshot *scene, double width, double height)
{
  scene->fabric.hold = HW_HOLD_CLAMPED;
  scene->fabric.width = width;
  scene->fabric.height = height;
}

static void
hold (GPtrArray *pins, double x, double y, const char *motif)
{
  HwPin *pin = hw_pin_new ();
  const char *const motifs[] = { motif, NULL };

  pin->hoop = g_strdup ("h");
  pin->centre = (HwPoint){ x, y };
  pin->motifs = g_strdupv ((char **)motifs);
  g_ptr_array_add (pins, pin);
}

/* The frame reaches 85 mm to both sides of the centre, so at x = 73 it passes the cloth's left by 12 mm. */
static void
held_frame_that_leaves_clamped_cloth_is_named (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) pinned = NULL, stitched = NULL, floated = NULL;
  const HwProblem *problem;

  clamp (scene, 700, 540);
  add (scene, "Quince", 40, 40, 100, 300);
  hold (scene->pins, 73, 300, "m1");
  pinned = plan_scene (scene);
  problem = find (pinned, HW_PROBLEM_FRAME_OFF_CLOTH);
  g_assert_cmpstr (problem->text, ==,
                   "The frame of the pinned hooping with Quince passes the clamped cloth by 12.0 mm at its "
                   "left, where nothing holds it.");
  g_assert_cmpfloat_with_epsilon (problem->amount, 12, 1e-9);
  g_assert_false (problem->grave);
  hold (scene->frozen, 73, 300, "m1");
  g_ptr_array_set_size (scene->pins, 0);
  stitched = plan_scene (scene);
  problem = find (stitched, HW_PROBLEM_FRAME_OFF_CLOTH);
  g_assert_cmpstr (problem->text, ==,
                   "The frame of stitched hooping 1 passes the clamped cloth by 12.0 mm at its left. Is the "
                   "cloth as large as it says here?");
  g_assert_cmpint (problem->hooping, ==, 0);
  scene->fabric.hold = HW_HOLD_FLOATED;
  floated = plan_scene (scene);
  g_assert_null (find (floated, HW_PROBLEM_FRAME_OFF_CLOTH));
}

/* Field to 65 mm from the centre, frame to 85 mm: what lies between them is pressed. */
static void
frame_presses_on_what_lies_under_its_ring (void)
{
  const struct
  {
    double x; /* the left side of the stitched motif, from the second hooping's centre */
    gboolean pressed;
  } cases[] = { { 40, TRUE }, { 60, TRUE }, { 66, TRUE }, { 84, TRUE }, { 86, FALSE }, { 120, FALSE } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwSnapshot) scene = new_scene ();
      g_autoptr (HwPlan) plan = NULL;
      const HwProblem *problem;

      clamp (scene, 700, 540);
      add (scene, "Gate", 40, 40, 300 + cases[i].x + 20, 300);
      add (scene, "Quince", 20, 20, 300, 300);
      plan = one_by_one (scene, 0.4);
      hw_warnings_add (plan, NULL, HW_UNIT_MM);
      problem = find (plan, HW_PROBLEM_FRAME_ON_STITCHING);
      g_assert_cmpint (problem != NULL, ==, cases[i].pressed);
      if (problem == NULL)
        continue;
      g_assert_cmpstr (
          problem->text, ==,
          "The frame of hooping 2 presses on Gate, stitched by then. Lay soft cloth between, and do "
          "not leave it clamped longer than the stitching takes.");
      g_assert_cmpint (problem->hooping, ==, 1);
      g_assert_cmpint (problem->motif, ==, 0);
      g_assert_false (problem->grave);
      g_assert_cmpfloat (problem->where.x, >=, 365);
      g_assert_cmpfloat (problem->where.x, <=, 385);
    }
}

/* Within the field nothing is pressed; under a ring that lies all within it, stitching is; what comes later is not there yet. */
static void
frame_does_not_press_inside_its_field_or_on_later_motifs (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwSnapshot) wide = new_scene ();
  g_autoptr (HwPlan) plan = NULL, covered = NULL;

  clamp (scene, 700, 540);
  add (scene, "Gate", 40, 40, 320, 300);
  add (scene, "Quince", 20, 20, 300, 300);
  add (scene, "Pear", 40, 40, 390, 300);
  plan = one_by_one (scene, 0.4);
  plan->n_hoopings = 2;
  hw_warnings_add (plan, NULL, HW_UNIT_MM);
  g_assert_null (find (plan, HW_PROBLEM_FRAME_ON_STITCHING));
  plan->n_hoopings = 3;

  clamp (wide, 700, 540);
  add (wide, "Meadow", 400, 400, 300, 270);
  add (wide, "Quince", 20, 20, 300, 270);
  covered = one_by_one (wide, 0.4);
  hw_warnings_add (covered, NULL, HW_UNIT_MM);
  g_assert_nonnull (find (covered, HW_PROBLEM_FRAME_ON_STITCHING));
}

/* The frame is 170 x 240, so a cloth of 150 x 200 has to become 170 x 240. A motif of 60 x 60 leaves the field (126 - 60) / 2 = 33 mm of play
 * across and (176 - 60) / 2 = 58 mm along. At (75, 100) the frame's centre may come to (85, 120): nothing has to move. At x = 30 it comes no farther
 * than 63, the frame begins at 63 - 85 = -22: the picture moves 22 mm to the right. At y = 50 it comes to 108 of 120: 12 mm down. */
static void
clamped_cloth_is_cut_so_that_every_frame_lies_on_it (void)
{
  const struct
  {
    double x, y;
    const char *text;
  } cases[] = {
    { 75, 100, "The cloth is too small for its hoopings: a piece of 170 × 240 mm would do." },
    { 30, 100,
      "The cloth is too small for its hoopings: a piece of 170 × 240 mm would do. Move the whole picture "
      "22.0 mm to "
      "the right on it." },
    { 30, 50,
      "The cloth is too small for its hoopings: a piece of 170 × 240 mm would do. Move the whole picture "
      "22.0 mm to "
      "the right and 12.0 mm down on it." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HwSnapshot) scene = new_scene ();
      g_autoptr (HwPlan) plan = NULL, cut = NULL;
      HwMotif *quince = add (scene, "Quince", 60, 60, cases[i].x, cases[i].y);
      const HwProblem *problem;

      clamp (scene, 150, 200);
      plan = plan_scene (scene);
      g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
      problem = find (plan, HW_PROBLEM_CLOTH_TOO_SMALL);
      g_assert_nonnull (problem);
      g_assert_cmpstr (problem->text, ==, cases[i].text);
      g_assert_cmpfloat_with_epsilon (problem->amount, 40, 1e-9);
      g_assert_false (problem->grave);
      clamp (scene, 170, 240);
      quince->placement.position.x += i > 0 ? 22 : 0;
      quince->placement.position.y += i > 1 ? 12 : 0;
      cut = plan_scene (scene);
      g_assert_cmpint (cut->status, ==, HW_PLAN_OPTIMAL);
    }
}

/* Two motifs 60 mm wide at x = 60 and x = 460: the frames' centres reach 60 + 33 = 93 and 460 - 33 = 427 towards each other, so the frames span
 * from 93 - 85 = 8 to 427 + 85 = 512: 504 mm; of cloth 480 mm wide that is 24 mm too little. */
static void
far_motifs_ask_for_a_longer_clamped_cloth (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL;

  clamp (scene, 480, 540);
  add (scene, "Gate", 60, 60, 60, 300);
  add (scene, "Quince", 60, 60, 460, 300);
  plan = plan_scene (scene);
  g_assert_cmpstr (
      find (plan, HW_PROBLEM_CLOTH_TOO_SMALL)->text, ==,
      "The cloth is too small for its hoopings: a piece of 504 × 540 mm would do. Move the whole "
      "picture 8.0 mm to the left on it.");
}

static void
floated_cloth_has_to_hold_the_stitching (void)
{
  g_autoptr (HwSnapshot) scene = new_scene ();
  g_autoptr (HwPlan) plan = NULL, fitting = NULL;

  add (scene, "Gate", 60, 60, 20, 300);
  add (scene, "Quince", 60, 60, 700, 300);
  plan = plan_scene (scene);
  /* From -10 to 730. */
  g_assert_cmpstr (
      find (plan, HW_PROBLEM_CLOTH_TOO_SMALL)->text, ==,
      "The cloth is too small for its hoopings: a piece of 740 × 540 mm would do. Move the whole "
      "picture 10.0 mm to the right on it.");
  ((HwMotif *)scene->motifs->pdata[1])->placement.position.x = 600;
  fitting = plan_scene (scene);
  g_assert_null (find (fitting, HW_PROBLEM_CLOTH_TOO_SMALL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add_func ("/warnings-frames/" path, func)
  ADD ("held-frame-that-leaves-clamped-cloth-is-named", held_frame_that_leaves_clamped_cloth_is_named);
  ADD ("frame-presses-on-what-lies-under-its-ring", frame_presses_on_what_lies_under_its_ring);
  ADD ("frame-does-not-press-inside-its-field-or-on-later-motifs",
       frame_does_not_press_inside_its_field_or_on_later_motifs);
  ADD ("clamped-cloth-is-cut-so-that-every-frame-lies-on-it",
       clamped_cloth_is_cut_so_that_every_frame_lies_on_it);
  ADD ("far-motifs-ask-for-a-longer-clamped-cloth", far_motifs_ask_for_a_longer_clamped_cloth);
  ADD ("floated-cloth-has-to-hold-the-stitching", floated_cloth_has_to_hold_the_stitching);
  return g_test_run ();
}
