#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

#include "formats/plan-json.h"
#include "scene-texts.h"

/* A plan of the full scene made by hand, with figures that do not end. */
static HwPlan *
make_plan (void)
{
  g_autoptr (HwSnapshot) scene = accepted (full);
  HwPlan *plan = hw_plan_new (scene);
  HwHooping *hooping;
  HwProblem *problem = g_new0 (HwProblem, 1);

  plan->status = HW_PLAN_OPTIMAL;
  plan->lower_bound = 1;
  plan->thread_changes = 1;
  plan->minutes = 21.25;
  plan->proof = g_strdup ("Everything is in one hooping.");
  plan->proof_motifs = g_new0 (guint, 1);
  plan->n_proof_motifs = 1;
  plan->n_hoopings = 1;
  plan->hoopings = g_new0 (HwHooping, 1);
  hooping = plan->hoopings;
  hooping->hoop = 1;
  hooping->centre = (HwPoint){ 1000.0 / 3, 149 };
  hooping->angle = 100.0 / 7;
  hooping->n_motifs = 2;
  hooping->motifs = g_new0 (guint, 2);
  hooping->motifs[0] = 1;
  hooping->predicted_error = g_new0 (double, 2);
  hooping->predicted_error[0] = 0.42184;
  hooping->predicted_error[1] = INFINITY;
  hooping->n_marks = 1;
  hooping->marks = g_new0 (HwMark, 1);
  hooping->marks[0] = (HwMark){ "A", { 120, 90.123456789 } };
  problem->kind = HW_PROBLEM_OUTSIDE_EDGE_LINE;
  problem->motif = 1;
  problem->hooping = 0;
  problem->amount = 3.1;
  problem->where = (HwPoint){ 640, 200 };
  problem->text = g_strdup ("Gull passes the edge line by 3.1 mm at its right.");
  g_ptr_array_add (plan->problems, problem);
  problem = g_new0 (HwProblem, 1);
  problem->kind = HW_PROBLEM_HAIRLINE;
  problem->motif = 1;
  problem->other = 0;
  problem->hooping = -1;
  problem->where = (HwPoint){ 120, 90 };
  problem->text = g_strdup ("Lighthouse and Gull only touch.");
  g_ptr_array_add (plan->problems, problem);
  return plan;
}

static void
assert_keys_begin_with (JsonObject *object, const char *const *keys)
{
  g_autoptr (GList) members = json_object_get_members (object);
  GList *member = members;

  for (; *keys != NULL; keys++, member = member->next)
    {
      g_assert_nonnull (member);
      g_assert_cmpstr (member->data, ==, *keys);
    }
}

/* The keys of the description, by name and in its order; more may follow. */
static void
has_the_described_keys_in_order (void)
{
  static const char *const plan_keys[]
      = { "format", "version", "status", "lower_bound", "hoopings", "thread_changes", "problems", NULL };
  static const char *const hooping_keys[]
      = { "hoop", "centre", "angle", "motifs", "marks", "predicted_error", NULL };
  static const char *const mark_keys[] = { "id", "at", NULL };
  static const char *const problem_keys[] = { "kind", "motif", "text", NULL };
  g_autoptr (HwPlan) plan = make_plan ();
  g_autofree char *text = hw_plan_json_text (plan);
  g_autoptr (JsonNode) root = json_from_string (text, NULL);
  JsonObject *object, *hooping, *problem;

  g_assert_nonnull (root);
  g_assert_true (g_str_has_suffix (text, "}\n"));
  object = json_node_get_object (root);
  assert_keys_begin_with (object, plan_keys);
  g_assert_cmpstr (json_object_get_string_member (object, "format"), ==, "hoopwright-plan");
  g_assert_cmpint (json_object_get_int_member (object, "version"), ==, 1);
  g_assert_cmpstr (json_object_get_string_member (object, "status"), ==, "optimal");
  g_assert_cmpint (json_object_get_int_member (object, "lower_bound"), ==, 1);
  g_assert_cmpint (json_object_get_int_member (object, "thread_changes"), ==, 1);

  hooping = json_array_get_object_element (json_object_get_array_member (object, "hoopings"), 0);
  assert_keys_begin_with (hooping, hooping_keys);
  g_assert_cmpstr (json_object_get_string_member (hooping, "hoop"), ==, "h2");
  g_assert_cmpstr (json_array_get_string_element (json_object_get_array_member (hooping, "motifs"), 0), ==,
                   "m2");
  assert_keys_begin_with (json_array_get_object_element (json_object_get_array_member (hooping, "marks"), 0),
                          mark_keys);

  problem = json_array_get_object_element (json_object_get_array_member (object, "problems"), 0);
  assert_keys_begin_with (problem, problem_keys);
  g_assert_cmpstr (json_object_get_string_member (problem, "kind"), ==, "outside-edge-line");
  g_assert_cmpstr (json_object_get_string_member (problem, "motif"), ==, "m2");
  g_assert_cmpint (json_object_get_int_member (problem, "hooping"), ==, 1);
  problem = json_array_get_object_element (json_object_get_array_member (object, "problems"), 1);
  g_assert_true (
      json_object_has_member (problem, "amount")); /* neighbours that only touch lie 0 apart, and somewhere */
  g_assert_cmpfloat (json_object_get_double_member (problem, "amount"), ==, 0);
  g_assert_cmpfloat (json_array_get_double_element (json_object_get_array_member (problem, "where"), 0), ==,
                     120);
}

static void
figures_are_rounded_but_poses_still_hold (void)
{
  g_autoptr (HwPlan) plan = make_plan ();
  g_autofree char *text = hw_plan_json_text (plan);
  g_autoptr (JsonNode) root = json_from_string (text, NULL);
  JsonObject *hooping = json_array_get_object_element (
      json_object_get_array_member (json_node_get_object (root), "hoopings"), 0);
  JsonArray *centre = json_object_get_array_member (hooping, "centre");
  JsonObject *errors = json_object_get_object_member (hooping, "predicted_error");
  HwPoint arm = { 1000, 0 };
  HwPoint exact = hw_point_turn (arm, plan->hoopings[0].angle);
  HwPoint read = hw_point_turn (arm, json_object_get_double_member (hooping, "angle"));

  /* A point a metre from the centre lands within a thousandth of a thousandth of a millimetre. */
  exact.x += plan->hoopings[0].centre.x;
  exact.y += plan->hoopings[0].centre.y;
  read.x += json_array_get_double_element (centre, 0);
  read.y += json_array_get_double_element (centre, 1);
  g_assert_cmpfloat (hw_point_distance (exact, read), <, 1e-6);
  g_assert_nonnull (strstr (text, "333.333333,"));
  g_assert_nonnull (strstr (text, "[120, 90.123457]"));
  g_assert_cmpfloat (json_object_get_double_member (errors, "m2"), ==, 0.422);
  /* JSON has no infinity. */
  g_assert_true (json_object_get_null_member (errors, "m1"));
}

static void
an_empty_plan_is_json_too (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  g_autofree char *text = hw_plan_json_text (plan);
  g_autoptr (JsonNode) root = json_from_string (text, NULL);

  g_assert_nonnull (root);
  g_assert_cmpuint (
      json_array_get_length (json_object_get_array_member (json_node_get_object (root), "hoopings")), ==, 0);
}

static HwProblem *
add_problem (HwPlan *plan, HwProblemKind kind, double amount)
{
  HwProblem *problem = g_new0 (HwProblem, 1);

  problem->kind = kind;
  problem->motif = problem->hooping = -1;
  problem->amount = amount;
  problem->text = g_strdup ("There is something to be seen to.");
  g_ptr_array_add (plan->problems, problem);
  return problem;
}

/* Blocks of two motifs mixed, a hooping held by a pin, marks that are nowhere, problems that measure nothing. */
static void
what_a_plan_seldom_says (void)
{
  g_autoptr (HwPlan) plan = make_plan ();
  const HwBlockStep steps[] = { { 1, 0 }, { 0, 0 }, { 1, 1 } };
  HwHooping *hooping = plan->hoopings;
  g_autofree char *text = NULL, *bare = NULL;
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (JsonNode) bare_root = NULL;
  JsonObject *object, *written;
  JsonArray *list, *problems;

  hooping->steps = g_memdup2 (steps, sizeof steps);
  hooping->n_steps = G_N_ELEMENTS (steps);
  hooping->hold = HW_PLACE_PINNED;
  hooping->marks[0].at = (HwPoint){ NAN, 90 };
  add_problem (plan, HW_PROBLEM_DENSE, INFINITY);
  add_problem (plan, HW_PROBLEM_DENSE, 0);
  add_problem (plan, HW_PROBLEM_DENSE, 0)->hooping = 0;
  add_problem (plan, HW_PROBLEM_DENSE, 0.25);
  add_problem (plan, HW_PROBLEM_ORDER_LOOP, 0);
  text = hw_plan_json_text (plan);
  root = json_from_string (text, NULL);
  object = json_node_get_object (root);
  written = json_array_get_object_element (json_object_get_array_member (object, "hoopings"), 0);
  list = json_object_get_array_member (written, "sequence");
  g_assert_cmpuint (json_array_get_length (list), ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      JsonArray *step = json_array_get_array_element (list, i);

      g_assert_cmpstr (json_array_get_string_element (step, 0), ==, steps[i].motif == 1 ? "m2" : "m1");
      g_assert_cmpint (json_array_get_int_element (step, 1), ==, steps[i].block + 1);
    }
  g_assert_cmpstr (json_object_get_string_member (written, "held"), ==, "pinned");
  written = json_array_get_object_element (json_object_get_array_member (written, "marks"), 0);
  g_assert_true (json_object_get_null_member (written, "at"));
  problems = json_object_get_array_member (object, "problems");
  g_assert_cmpuint (json_array_get_length (problems), ==, 7);
  for (guint i = 2; i < 7; i++)
    {
      written = json_array_get_object_element (problems, i);
      g_assert_false (json_object_has_member (written, "motif"));
      g_assert_cmpint (json_object_has_member (written, "amount"), ==, i == 4 || i == 5);
    }

  g_clear_pointer (&hooping->predicted_error, g_free);
  hooping->marks[0].at = (HwPoint){ 90, INFINITY };
  hooping->hold = HW_PLACE_FROZEN;
  bare = hw_plan_json_text (plan);
  bare_root = json_from_string (bare, NULL);
  written = json_array_get_object_element (
      json_object_get_array_member (json_node_get_object (bare_root), "hoopings"), 0);
  g_assert_cmpstr (json_object_get_string_member (written, "held"), ==, "stitched");
  g_assert_cmpuint (json_object_get_size (json_object_get_object_member (written, "predicted_error")), ==, 0);
  written = json_array_get_object_element (json_object_get_array_member (written, "marks"), 0);
  g_assert_true (json_object_get_null_member (written, "at"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/plan-json/" name, function)
  ADD ("has-the-described-keys-in-order", has_the_described_keys_in_order);
  ADD ("figures-are-rounded-but-poses-still-hold", figures_are_rounded_but_poses_still_hold);
  ADD ("an-empty-plan-is-json-too", an_empty_plan_is_json_too);
  ADD ("what-a-plan-seldom-says", what_a_plan_seldom_says);
  return g_test_run ();
}
