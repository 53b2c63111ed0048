/* Marks of hoopings put together by hand: which pin's marks they keep, which held marks serve, and what is left where there is next to no cloth. */
#include "plans-by-hand.h"

#include <math.h>

#include "../../src/planning/marks.h"

/* A field of 104 x 104 about (300, 300). */
static HwPlan *
one_pear (HwSnapshot **scene)
{
  HwPlan *plan;

  *scene = garden ();
  little_hoop (*scene, 104, 104, 2, HW_TURN_ANY);
  little_motif (*scene, "Pear", 40, 40, 300, 300);
  little_motif (*scene, "Plum", 40, 40, 700, 300);
  plan = hw_plan_new (*scene);
  hoop_up (plan, 300, 300, "0");
  hoop_up (plan, 700, 300, "1");
  return plan;
}

static const HwProblem *
marks_problem (const HwPlan *plan, guint nth)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (((HwProblem *)plan->problems->pdata[i])->kind == HW_PROBLEM_MARKS && nth-- == 0)
      return plan->problems->pdata[i];
  return NULL;
}

static gboolean
has_mark_at (const HwHooping *hooping, double x, double y)
{
  for (guint i = 0; i < hooping->n_marks; i++)
    if (hw_point_distance (hooping->marks[i].at, (HwPoint){ x, y }) < 1e-6)
      return TRUE;
  return FALSE;
}

static void
hold (HwSnapshot *scene, const char *motif, double x, double y)
{
  g_ptr_array_add (scene->held_marks, hw_held_mark_new (motif, (HwPoint){ x, y }));
}

static HwPin *
pin_with_mark (double x, double y)
{
  HwPin *pin = little_pin ("h1", 300, 300, "m1");

  pin->marks = g_new0 (HwMark, 1);
  pin->n_marks = 1;
  pin->marks[0] = (HwMark){ "X", { x, y } };
  return pin;
}

/* Pins that are nearly the one of the hooping stand before it in the list. */
static void
only_its_own_pin_brings_marks (void)
{
  for (guint wrong = 0; wrong <= 8; wrong++)
    {
      g_autoptr (HwSnapshot) scene = NULL;
      g_autoptr (HwPlan) plan = one_pear (&scene);
      HwPin *pin = pin_with_mark (280, 280), *right = pin_with_mark (320, 320);

      plan->hoopings[0].hold = HW_PLACE_PINNED;
      if (wrong == 0)
        pin->centre.x += 0.1;
      else if (wrong == 1)
        pin->angle = 0.001;
      else if (wrong == 2)
        pin->angle = -0.001;
      else if (wrong == 3)
        pin->keep = HW_KEEP_MOTIFS;
      else if (wrong == 4)
        pin->n_marks = 0;
      else if (wrong == 5)
        g_clear_pointer (&pin->marks, g_free);
      else if (wrong == 6)
        {
          g_free (pin->hoop);
          pin->hoop = g_strdup ("h2");
        }
      else if (wrong == 7)
        {
          g_strfreev (pin->motifs);
          pin->motifs = g_strsplit ("m2", " ", -1);
        }
      else
        g_clear_pointer (&pin->motifs, g_strfreev);
      g_ptr_array_add (scene->pins, pin);
      hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
      g_assert_false (has_mark_at (&plan->hoopings[0], 280, 280));
      g_assert_cmpuint (plan->hoopings[0].n_marks, >=, 2);
      g_ptr_array_add (scene->pins, right);
      hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
      g_assert_cmpuint (plan->hoopings[0].n_marks, ==, 1);
      g_assert_true (has_mark_at (&plan->hoopings[0], 320, 320));
      g_assert_true (isinf (plan->hoopings[0].predicted_error[0]));
      plan->hoopings[0].hold = HW_PLACE_FREE; /* and a free hooping keeps none */
      hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
      g_assert_false (has_mark_at (&plan->hoopings[0], 320, 320));
    }
}

static void
held_marks_serve_once_and_for_their_motif (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = one_pear (&scene);

  hold (scene, "gone", 270, 270);
  hold (scene, "m2", 330, 270);
  hold (scene, "m1", 260, 260);
  hold (scene, "m1", 260.01, 260);
  hold (scene, "m1", 240, 300); /* 60 mm from the middle of a field of 104 */
  hold (scene, "m1", 240, 300.01);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[0].n_marks, ==, 2);
  g_assert_true (has_mark_at (&plan->hoopings[0], 260, 260));
  g_assert_false (has_mark_at (&plan->hoopings[0], 270, 270));
  g_assert_false (has_mark_at (&plan->hoopings[0], 330, 270));
  g_assert_nonnull (marks_problem (plan, 1));
  assert_says (marks_problem (plan, 0)->text,
               "The mark held for Pear (240.0 mm right, 300.0 mm down from the corner) cannot serve because "
               "the needle does not reach it");
  assert_says (marks_problem (plan, 1)->text,
               "The mark held for Plum (330.0 mm right, 270.0 mm down from the corner) cannot serve");
  g_assert_null (marks_problem (plan, 2)); /* one word for two at the same place */
}

static void
assert_trouble (const HwPlan *plan, guint hooping, double x, double y, const char *wanted)
{
  g_autofree char *said = hw_marks_why_not (plan, hooping, (HwPoint){ x, y }, HW_UNIT_MM);

  g_assert_cmpstr (said, ==, wanted);
}

static void
what_is_wrong_with_a_mark_is_told (void)
{
  const char *beside = "it lies beside the cloth";
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = one_pear (&scene);

  assert_trouble (plan, 0, 300, 300, NULL);
  assert_trouble (plan, 0, -0.1, 300, beside);
  assert_trouble (plan, 0, 300, -0.1, beside);
  assert_trouble (plan, 0, 800.1, 300, beside);
  assert_trouble (plan, 0, 300, 600.1, beside);
  assert_trouble (plan, 0, 240, 300, "the needle does not reach it in hooping 1: it lies 8.5 mm too far out");
  assert_trouble (plan, 0, 300, 361, "the needle does not reach it in hooping 1: it lies 9.5 mm too far out");
  plan->hoopings[1].centre = (HwPoint){ 320, 300 };
  assert_trouble (plan, 1, 310, 300, "the stitching of Pear hides it before hooping 2 begins");
  assert_trouble (plan, 1, 321.4, 300, "the stitching of Pear hides it before hooping 2 begins");
  assert_trouble (plan, 1, 321.6, 300, NULL);
  assert_trouble (plan, 0, 310, 300, NULL); /* its own stitching comes later */
}

/* The cloth ends 3 mm inside the field: too little for a mark of the plan's own, enough for one that the person holds. */
static void
where_there_is_no_cloth_there_are_no_marks (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = one_pear (&scene);
  HwPoint at;

  plan->hoopings[0].centre = (HwPoint){ -49, 300 };
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[0].n_marks, ==, 0);
  g_assert_cmpint (marks_problem (plan, 0)->hooping, ==, 0);
  g_assert_false (hw_marks_one_more (plan, 0, HW_MARKS_SIGMA, &at));
  g_ptr_array_set_size (plan->problems, 0);
  hold (scene, "m1", 1, 300);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[0].n_marks, ==, 1);
  g_assert_true (has_mark_at (&plan->hoopings[0], 1, 300));
  g_assert_nonnull (marks_problem (plan, 0));
  g_ptr_array_set_size (plan->problems, 0);
  plan->hoopings[0].hold = HW_PLACE_FROZEN; /* too late to say so */
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_null (marks_problem (plan, 0));
}

/* A strip of cloth 26 mm wide in the field takes fewer marks than wished for, each at least 20 mm from the others. */
static void
fewer_than_wished_for_where_there_is_little_cloth (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = one_pear (&scene);

  scene->wishes.marks = 4;
  plan->hoopings[0].centre = (HwPoint){ -26, -26 };
  plan->hoopings[0].motifs[0] = 0;
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[0].n_marks, >=, 2);
  g_assert_cmpuint (plan->hoopings[0].n_marks, <, 4);
  g_assert_cmpuint (plan->hoopings[1].n_marks, ==, 4);
  scene->wishes.marks = 1; /* two are the least that tell a turn */
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[1].n_marks, ==, 2);
  scene->wishes.marks = 9;
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[1].n_marks, ==, 4);
}

/* Earlier stitching leaves a strip of 24 mm of the field at its left, and the motif lies at its right: two marks in the strip place it to 0.35 mm times
 * the root of 1 + 78^2 / (2 x 49^2), 0.53 mm. A third takes a tenth of that off; with it the error is small enough. */
static void
a_third_mark_comes_where_two_place_badly (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  little_motif (scene, "Sea", 200, 200, 375, 300);
  little_motif (scene, "Pear", 10, 10, 340, 300);
  hoop_up (plan, 375, 300, "0")->hold = HW_PLACE_FROZEN;
  hoop_up (plan, 300, 300, "1");
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[1].n_marks, ==, 3);
  g_assert_cmpfloat (plan->hoopings[1].predicted_error[0], <, 0.5);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpfloat (plan->hoopings[1].marks[i].at.x, <, 275);
}

/* As many held marks as a layout has room for: the others are not named, for nothing is wrong with them. */
static void
very_many_held_marks (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = one_pear (&scene);
  HwPoint at;

  for (guint i = 0; i < 60; i++)
    hold (scene, "m1", 255 + i % 10 * 9, 255 + i / 10 * 9);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[0].n_marks, ==, 36);
  g_assert_null (marks_problem (plan, 0));
  g_assert_true (hw_marks_one_more (plan, 0, HW_MARKS_SIGMA, &at));
  plan->hoopings[0].marks = g_renew (HwMark, plan->hoopings[0].marks, 50);
  for (guint i = 36; i < 50; i++)
    plan->hoopings[0].marks[i] = plan->hoopings[0].marks[0];
  plan->hoopings[0].n_marks = 39;
  g_assert_false (hw_marks_one_more (plan, 0, HW_MARKS_SIGMA, &at));
  plan->hoopings[0].n_marks = 50;
  g_assert_false (hw_marks_one_more (plan, 0, HW_MARKS_SIGMA, &at));
}

/* More motifs on a ring than a layout is measured at. The best marks are the same as for the ring as a whole: the error is the same all round. */
static void
very_many_motifs (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  g_autoptr (GString) numbers = g_string_new ("0");
  double least = INFINITY, most = 0;

  for (guint i = 0; i < 60; i++)
    {
      HwPoint p = hw_point_turn ((HwPoint){ 30, 0 }, 6.0 * i);

      little_motif (scene, "Bead", 2, 2, 300 + p.x, 300 + p.y);
      if (i > 0)
        g_string_append_printf (numbers, " %u", i);
    }
  hoop_up (plan, 300, 300, numbers->str);
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  for (guint i = 0; i < 60; i++)
    {
      least = MIN (least, plan->hoopings[0].predicted_error[i]);
      most = MAX (most, plan->hoopings[0].predicted_error[i]);
    }
  g_assert_cmpfloat (most, <, 1.15 * least);
}

/* A stitched hooping whose motifs are all gone from the scene still has its place. */
static void
a_hooping_without_motifs_is_aimed_at_its_middle (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = one_pear (&scene);
  HwPoint sum = { 0, 0 };

  plan->hoopings[0].n_motifs = 0;
  plan->hoopings[0].hold = HW_PLACE_FROZEN;
  hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
  g_assert_cmpuint (plan->hoopings[0].n_marks, ==, 2);
  for (guint i = 0; i < 2; i++)
    sum = (HwPoint){ sum.x + plan->hoopings[0].marks[i].at.x, sum.y + plan->hoopings[0].marks[i].at.y };
  g_assert_cmpfloat_with_epsilon (sum.x / 2, 300, 0.5);
  g_assert_cmpfloat_with_epsilon (sum.y / 2, 300, 0.5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/marks-by-hand/own-pin", only_its_own_pin_brings_marks);
  g_test_add_func ("/planning/marks-by-hand/held", held_marks_serve_once_and_for_their_motif);
  g_test_add_func ("/planning/marks-by-hand/trouble", what_is_wrong_with_a_mark_is_told);
  g_test_add_func ("/planning/marks-by-hand/no-cloth", where_there_is_no_cloth_there_are_no_marks);
  g_test_add_func ("/planning/marks-by-hand/little-cloth", fewer_than_wished_for_where_there_is_little_cloth);
  g_test_add_func ("/planning/marks-by-hand/third", a_third_mark_comes_where_two_place_badly);
  g_test_add_func ("/planning/marks-by-hand/many-marks", very_many_held_marks);
  g_test_add_func ("/planning/marks-by-hand/many-motifs", very_many_motifs);
  g_test_add_func ("/planning/marks-by-hand/no-motifs", a_hooping_without_motifs_is_aimed_at_its_middle);
  return g_test_run ();
}
