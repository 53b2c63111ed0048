/* What is drawn on the cloth before the stitching starts. */
#include "planning/mark-list.h"

static HwSnapshot *
walled_garden (void)
{
  HwSnapshot *snapshot = hw_snapshot_new ();
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup ("h1");
  hoop->name = g_strdup ("130 x 180");
  hoop->field_width = 130;
  hoop->field_height = 180;
  hoop->frame_width = 170;
  hoop->frame_height = 240;
  g_ptr_array_add (snapshot->hoops, hoop);
  hw_edge_line_unref (snapshot->edge_line);
  snapshot->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 60, 40, 640, 500 }, 0, 2);
  return snapshot;
}

static void
add_hooping (HwPlan *plan, HwPlaceHold hold, HwPoint centre, const HwMark *marks, guint n_marks)
{
  HwHooping *hooping;

  plan->hoopings = g_renew (HwHooping, plan->hoopings, plan->n_hoopings + 1);
  hooping = &plan->hoopings[plan->n_hoopings++];
  *hooping = (HwHooping){ .centre = centre, .hold = hold, .n_marks = n_marks };
  hooping->marks = g_memdup2 (marks, n_marks * sizeof *marks);
}

static const HwListedMark *
listed (const HwMarkList *list, guint index)
{
  g_assert_cmpuint (index, <, list->marks->len);
  return g_ptr_array_index (list->marks, index);
}

static void
test_measured_from_the_corner (void)
{
  g_autoptr (HwSnapshot) snapshot = walled_garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwMarkList) list = NULL;
  g_autofree char *place = NULL, *text = NULL;
  const HwMark marks[] = { { "A", { 120, 90 } }, { "B", { 40, 30 } } };

  add_hooping (plan, HW_PLACE_FREE, (HwPoint){ 180, 150 }, marks, 2);
  list = hw_mark_list_new (plan);
  g_assert_cmpuint (list->marks->len, ==, 3);
  g_assert_true (listed (list, 0)->is_centre);
  g_assert_cmpstr (listed (list, 0)->name, ==, "1 centre");
  g_assert_cmpfloat (listed (list, 0)->right, ==, 120);
  g_assert_cmpfloat (listed (list, 0)->down, ==, 110);
  g_assert_cmpstr (listed (list, 1)->name, ==, "1 A");
  g_assert_cmpfloat (listed (list, 1)->right, ==, 60);
  g_assert_cmpfloat (listed (list, 1)->down, ==, 50);
  place = hw_listed_mark_text (listed (list, 2), HW_UNIT_MM);
  g_assert_cmpstr (place, ==, "20.0 mm left, 10.0 mm up");
  text = hw_mark_list_text (list, HW_UNIT_MM);
  g_assert_cmpstr (text, ==,
                   "Measured from the edge line's top left corner.\nMark\tRight (mm)\tDown (mm)\n"
                   "1 centre\t120.0\t110.0\n1 A\t60.0\t50.0\n1 B\t-20.0\t-10.0\n");
}

static void
test_inches (void)
{
  g_autoptr (HwSnapshot) snapshot = walled_garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwMarkList) list = NULL;
  g_autofree char *place = NULL;

  add_hooping (plan, HW_PLACE_FREE, (HwPoint){ 60 + 25.4, 40 + 50.8 }, NULL, 0);
  list = hw_mark_list_new (plan);
  place = hw_listed_mark_text (listed (list, 0), HW_UNIT_INCH);
  g_assert_cmpstr (place, ==, "1.00 in right, 2.00 in down");
}

static void
test_shared_marks_stand_once (void)
{
  g_autoptr (HwSnapshot) snapshot = walled_garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwMarkList) list = NULL;
  const HwMark first[] = { { "A", { 120, 90 } }, { "B", { 240, 210 } } };
  const HwMark second[] = { { "B", { 240, 210 } }, { "C", { 360, 90 } } };

  add_hooping (plan, HW_PLACE_FREE, (HwPoint){ 180, 150 }, first, 2);
  add_hooping (plan, HW_PLACE_FREE, (HwPoint){ 300, 150 }, second, 2);
  list = hw_mark_list_new (plan);
  g_assert_cmpuint (list->marks->len, ==, 5);
  g_assert_cmpstr (listed (list, 2)->name, ==, "1 B, 2 B");
  g_assert_cmpuint (listed (list, 2)->hooping, ==, 0);
  g_assert_cmpstr (listed (list, 3)->name, ==, "2 centre");
  g_assert_cmpstr (listed (list, 4)->name, ==, "2 C");
}

static void
test_stitched_hoopings_need_no_marks (void)
{
  g_autoptr (HwSnapshot) snapshot = walled_garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwMarkList) list = NULL;
  const HwMark marks[] = { { "A", { 120, 90 } } };

  add_hooping (plan, HW_PLACE_FROZEN, (HwPoint){ 180, 150 }, marks, 1);
  add_hooping (plan, HW_PLACE_FREE, (HwPoint){ 300, 150 }, NULL, 0);
  list = hw_mark_list_new (plan);
  g_assert_cmpuint (list->marks->len, ==, 1);
  g_assert_cmpstr (listed (list, 0)->name, ==, "2 centre");
}

static void
test_says_what_is_measured_from (void)
{
  g_autoptr (HwSnapshot) snapshot = walled_garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwMarkList) round = NULL, bare = NULL;

  hw_edge_line_unref (snapshot->edge_line);
  snapshot->edge_line = hw_edge_line_new_shape (HW_EDGE_ELLIPSE, (HwBox){ 60, 40, 640, 500 }, 0, 2);
  plan = hw_plan_new (snapshot);
  round = hw_mark_list_new (plan);
  g_assert_nonnull (strstr (round->from, "ruler"));
  g_assert_cmpfloat_with_epsilon (round->corner.x, 60, 0.5);
  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  bare = hw_mark_list_new (plan);
  g_assert_nonnull (strstr (bare->from, "cloth"));
  g_assert_cmpfloat (bare->corner.x, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/mark-list/measured-from-the-corner", test_measured_from_the_corner);
  g_test_add_func ("/planning/mark-list/inches", test_inches);
  g_test_add_func ("/planning/mark-list/shared-marks-stand-once", test_shared_marks_stand_once);
  g_test_add_func ("/planning/mark-list/stitched-hoopings-need-no-marks",
                   test_stitched_hoopings_need_no_marks);
  g_test_add_func ("/planning/mark-list/says-what-is-measured-from", test_says_what_is_measured_from);
  return g_test_run ();
}
