/* Marks that are there already: of hoopings stitched or in the machine, and those the person holds. */
#include <math.h>

#include "planning/marks.h"
#include "planning/planner.h"
#include "registration/mark-error.h"

/* A 700 x 540 cloth, two hoops of the same kind, pears in a row 300 mm apart. */
static HwSnapshot *
pear_row (guint n)
{
  HwSnapshot *snapshot = hw_snapshot_new ();
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup ("h1");
  hoop->name = g_strdup ("130 x 180");
  hoop->field_width = 130;
  hoop->field_height = 180;
  hoop->frame_width = 170;
  hoop->frame_height = 240;
  hoop->clearance = 2;
  g_ptr_array_add (snapshot->hoops, hoop);
  for (guint i = 0; i < n; i++)
    {
      HwMotif *motif = hw_motif_new ();

      motif->id = g_strdup_printf ("m%u", i + 1);
      motif->name = g_strdup_printf ("Pear %u", i + 1);
      motif->outline = hw_outline_new_ellipse (60, 80, 48);
      motif->placement = (HwPlacement){ { 150 + 300 * i, 200 }, 0, 1, FALSE };
      g_ptr_array_add (snapshot->motifs, motif);
    }
  snapshot->fabric.width = 300 * n + 100;
  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  return snapshot;
}

static void
hold (HwSnapshot *snapshot, const char *motif, double x, double y)
{
  g_ptr_array_add (snapshot->held_marks, hw_held_mark_new (motif, (HwPoint){ x, y }));
}

/* A hooping about one pear. */
static HwPin *
pin_of (guint pear)
{
  HwPin *pin = hw_pin_new ();
  const char *motifs[] = { NULL, NULL };
  g_autofree char *id = g_strdup_printf ("m%u", pear + 1);

  motifs[0] = id;
  pin->hoop = g_strdup ("h1");
  pin->centre = (HwPoint){ 150 + 300 * pear, 200 };
  pin->motifs = g_strdupv ((char **)motifs);
  return pin;
}

static HwPlan *
plan_of (const HwSnapshot *snapshot)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = 0.2, .unit = HW_UNIT_MM };

  return hw_planner_plan (planner, snapshot, &options, NULL, NULL, NULL);
}

static const HwHooping *
hooping_of (const HwPlan *plan, guint motif)
{
  int index = hw_plan_hooping_of (plan, motif);

  g_assert_cmpint (index, >=, 0);
  return &plan->hoopings[index];
}

static const HwMark *
mark_at (const HwHooping *hooping, double x, double y)
{
  for (guint i = 0; i < hooping->n_marks; i++)
    if (hw_point_distance (hooping->marks[i].at, (HwPoint){ x, y }) < 1e-9)
      return &hooping->marks[i];
  return NULL;
}

static const HwProblem *
marks_problem (const HwPlan *plan)
{
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);

      if (problem->kind == HW_PROBLEM_MARKS)
        return problem;
    }
  return NULL;
}

static void
test_held_marks_come_first (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (2);
  g_autoptr (HwPlan) plan = NULL;

  hold (snapshot, "m1", 110, 140);
  plan = plan_of (snapshot);
  g_assert_cmpuint (hooping_of (plan, 0)->n_marks, ==, 2);
  g_assert_nonnull (mark_at (hooping_of (plan, 0), 110, 140));
  g_assert_null (marks_problem (plan));
  /* The other one is where it goes best with it: the pear midway between them. */
  g_assert_cmpfloat (hooping_of (plan, 0)->predicted_error[0], <, HW_MARKS_SIGMA * 1.02);
  g_assert_null (mark_at (hooping_of (plan, 1), 110, 140));
}

static void
test_more_than_four_are_kept (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (1);
  g_autoptr (HwPlan) plan = NULL;

  for (guint i = 0; i < 6; i++)
    hold (snapshot, "m1", 100 + 18 * i, 125 + (i % 2) * 150);
  plan = plan_of (snapshot);
  g_assert_cmpuint (hooping_of (plan, 0)->n_marks, ==, 6);
  for (guint i = 0; i < 6; i++)
    g_assert_nonnull (mark_at (hooping_of (plan, 0), 100 + 18 * i, 125 + (i % 2) * 150));
}

static void
test_as_many_as_wished (void)
{
  for (guint wished = 2; wished <= 4; wished++)
    {
      g_autoptr (HwSnapshot) snapshot = pear_row (1);
      g_autoptr (HwPlan) plan = NULL;

      snapshot->wishes.marks = wished;
      hold (snapshot, "m1", 110, 140);
      plan = plan_of (snapshot);
      g_assert_cmpuint (hooping_of (plan, 0)->n_marks, ==, wished);
    }
}

static void
test_out_of_reach_is_told (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (1);
  g_autoptr (HwPlan) plan = NULL;
  const HwProblem *problem;

  hold (snapshot, "m1", 350, 200);
  plan = plan_of (snapshot);
  problem = marks_problem (plan);
  g_assert_nonnull (problem);
  g_assert_cmpint (problem->motif, ==, 0);
  g_assert_cmpint (problem->hooping, ==, 0);
  g_assert_cmpfloat (problem->where.x, ==, 350);
  g_assert_nonnull (strstr (problem->text, "Pear 1"));
  g_assert_nonnull (strstr (problem->text, "350.0 mm right, 200.0 mm down"));
  g_assert_nonnull (strstr (problem->text, "reach"));
  g_assert_null (mark_at (hooping_of (plan, 0), 350, 200));
  g_assert_cmpuint (hooping_of (plan, 0)->n_marks, ==, 2);
}

static void
test_hidden_is_told (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (2);
  g_autoptr (HwPlan) plan = NULL;
  HwMotif *fig = hw_motif_copy (hw_snapshot_motif (snapshot, 1));

  /* Close to the first pear, in a hooping of its own, after it. */
  fig->placement.position = (HwPoint){ 215, 200 };
  hw_motif_unref (snapshot->motifs->pdata[1]);
  snapshot->motifs->pdata[1] = fig;
  g_ptr_array_add (snapshot->frozen, pin_of (0));
  hold (snapshot, "m2", 172, 200);
  plan = plan_of (snapshot);
  g_assert_nonnull (marks_problem (plan));
  g_assert_nonnull (strstr (marks_problem (plan)->text, "Pear 1"));
  g_assert_cmpint (marks_problem (plan)->motif, ==, 1);
}

static void
test_beside_the_cloth_is_told (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (1);
  g_autoptr (HwPlan) plan = NULL;

  hold (snapshot, "m1", 150, -3);
  plan = plan_of (snapshot);
  g_assert_nonnull (marks_problem (plan));
  g_assert_nonnull (strstr (marks_problem (plan)->text, "beside the cloth"));
}

static void
assert_marks_of_pin (const HwHooping *hooping, const HwPin *pin)
{
  g_assert_cmpuint (hooping->n_marks, ==, pin->n_marks);
  for (guint i = 0; i < pin->n_marks; i++)
    {
      g_assert_cmpstr (hooping->marks[i].letter, ==, pin->marks[i].letter);
      g_assert_cmpfloat (hooping->marks[i].at.x, ==, pin->marks[i].at.x);
      g_assert_cmpfloat (hooping->marks[i].at.y, ==, pin->marks[i].at.y);
    }
}

/* The stitched hooping and the one in the machine keep their marks, letters and all, whatever is moved about them. */
static void
test_stitched_and_at_hand_keep_theirs (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (4);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = 0.2, .unit = HW_UNIT_MM };
  const HwMark stitched_marks[] = { { "C", { 100, 130 } }, { "K", { 190, 260 } } };
  const HwMark marks[] = { { "B", { 400, 130 } }, { "D", { 500, 140 } }, { "AA", { 470, 270 } } };
  HwPin *stitched = pin_of (0), *at_hand = pin_of (1);

  stitched->marks = g_memdup2 (stitched_marks, sizeof stitched_marks);
  stitched->n_marks = 2;
  at_hand->marks = g_memdup2 (marks, sizeof marks);
  at_hand->n_marks = 3;
  at_hand->work = hw_work_new ();
  g_ptr_array_add (snapshot->frozen, stitched);
  g_ptr_array_add (snapshot->pins, at_hand);
  /* Held marks of the motif do not come on top. */
  hold (snapshot, "m2", 450, 120);
  for (guint round = 0; round < 12; round++)
    {
      g_autoptr (HwPlan) plan = NULL;
      HwMotif *moved = hw_motif_copy (hw_snapshot_motif (snapshot, 2 + round % 2));
      guint k;

      moved->placement.position.x = g_test_rand_double_range (450, 1000);
      moved->placement.position.y = g_test_rand_double_range (60, 480);
      k = (guint)hw_snapshot_find_motif (snapshot, moved->id);
      hw_motif_unref (snapshot->motifs->pdata[k]);
      snapshot->motifs->pdata[k] = moved;
      plan = hw_planner_plan (planner, snapshot, &options, NULL, NULL, NULL);
      assert_marks_of_pin (hooping_of (plan, 0), stitched);
      assert_marks_of_pin (hooping_of (plan, 1), at_hand);
      for (guint h = 0; h < plan->n_hoopings; h++)
        for (guint i = 0; i < plan->hoopings[h].n_marks; i++)
          for (guint o = 0; o < h; o++)
            for (guint j = 0; j < plan->hoopings[o].n_marks; j++)
              if (g_str_equal (plan->hoopings[h].marks[i].letter, plan->hoopings[o].marks[j].letter))
                g_assert_cmpfloat (
                    hw_point_distance (plan->hoopings[h].marks[i].at, plan->hoopings[o].marks[j].at), ==, 0);
    }
}

/* One more mark lies where no other place of a grid helps more. */
static void
test_one_more_helps_most (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (1);
  g_autoptr (HwPlan) plan = NULL;
  HwPoint marks[3], best, pear = { 150, 200 };
  double error;

  hold (snapshot, "m1", 100, 130);
  hold (snapshot, "m1", 195, 260);
  plan = plan_of (snapshot);
  g_assert_cmpuint (hooping_of (plan, 0)->n_marks, ==, 2);
  g_assert_true (hw_marks_one_more (plan, 0, HW_MARKS_SIGMA, &best));
  marks[0] = (HwPoint){ 100, 130 };
  marks[1] = (HwPoint){ 195, 260 };
  marks[2] = best;
  error = hw_mark_error (marks, 3, HW_MARKS_SIGMA, pear);
  for (double x = 88; x <= 212; x += 4)
    for (double y = 113; y <= 287; y += 4)
      {
        marks[2] = (HwPoint){ x, y };
        g_assert_cmpfloat (error, <=, 1.02 * hw_mark_error (marks, 3, HW_MARKS_SIGMA, pear));
      }
}

static void
test_says_why_not (void)
{
  g_autoptr (HwSnapshot) snapshot = pear_row (1);
  g_autoptr (HwPlan) plan = plan_of (snapshot);
  g_autofree char *good = hw_marks_why_not (plan, 0, (HwPoint){ 110, 140 }, HW_UNIT_MM);
  g_autofree char *far = hw_marks_why_not (plan, 0, (HwPoint){ 390, 140 }, HW_UNIT_MM);

  g_assert_null (good);
  g_assert_nonnull (far);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/marks-held/held-marks-come-first", test_held_marks_come_first);
  g_test_add_func ("/planning/marks-held/more-than-four-are-kept", test_more_than_four_are_kept);
  g_test_add_func ("/planning/marks-held/as-many-as-wished", test_as_many_as_wished);
  g_test_add_func ("/planning/marks-held/out-of-reach-is-told", test_out_of_reach_is_told);
  g_test_add_func ("/planning/marks-held/hidden-is-told", test_hidden_is_told);
  g_test_add_func ("/planning/marks-held/beside-the-cloth-is-told", test_beside_the_cloth_is_told);
  g_test_add_func ("/planning/marks-held/stitched-and-at-hand-keep-theirs",
                   test_stitched_and_at_hand_keep_theirs);
  g_test_add_func ("/planning/marks-held/one-more-helps-most", test_one_more_helps_most);
  g_test_add_func ("/planning/marks-held/says-why-not", test_says_why_not);
  return g_test_run ();
}
