/* hoopwright supplies, run as a person runs it. */
#include "command-run.h"

static void
ask (Bench *bench, Run *run, const char *option)
{
  if (option != NULL)
    run_words (run, (const char *const[]){ "supplies", option, bench->scene, NULL });
  else
    run_words (run, (const char *const[]){ "supplies", bench->scene, NULL });
}

static double
number (JsonObject *object, const char *key)
{
  return json_object_get_double_member (object, key);
}

/* 2,700 stitches, of which 2,100 in the one hooping and 600 in the other; 5 m to a thousand: common practice, no source. */
static void
hoopings_add_up (Bench *bench, gconstpointer data)
{
  static const char *const sums[] = { "stitches", "minutes", "needle_metres", "bobbin_metres" };
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *all;
  JsonArray *hoopings;

  ask (bench, &run, NULL);
  root = answer_of (&run);
  all = json_node_get_object (root);
  hoopings = json_object_get_array_member (all, "hoopings");
  g_assert_cmpstr (json_object_get_string_member (all, "format"), ==, "hoopwright-supplies");
  g_assert_cmpuint (json_array_get_length (hoopings), ==, 2);
  g_assert_cmpint (json_object_get_int_member (all, "stitches"), ==, 900 + 500 + 700 + 300 + 300);
  g_assert_cmpfloat_with_epsilon (number (all, "needle_metres"), 2700 * 0.005, 1e-9);
  for (guint i = 0; i < G_N_ELEMENTS (sums); i++)
    g_assert_cmpfloat_with_epsilon (number (json_array_get_object_element (hoopings, 0), sums[i])
                                        + number (json_array_get_object_element (hoopings, 1), sums[i]),
                                    number (all, sums[i]), 0.051);
}

/* The frame is 240 x 320 mm; 20 mm beyond it on each side make 280 x 360. Two lie side by side on a roll only where it is 560 wide, so on 500 one follows
 * the other, the long way across: 280 + 280. */
static void
pieces_of_stabiliser_and_the_roll (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *all, *piece;

  ask (bench, &run, NULL);
  root = answer_of (&run);
  all = json_node_get_object (root);
  piece = json_object_get_object_member (
      json_array_get_object_element (json_object_get_array_member (all, "hoopings"), 0), "stabiliser");
  g_assert_cmpfloat (number (piece, "width"), ==, 280);
  g_assert_cmpfloat (number (piece, "height"), ==, 360);
  g_assert_cmpfloat (number (json_object_get_object_member (all, "stabiliser"), "roll_length"), ==, 560);
}

static void
the_workroom_of_the_scene_is_minded (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *all, *second;

  bench_change (bench,
                "\"machine\":", "\"supplies\": {\"bobbin_metres\": 6, \"bobbin_share\": 0.5}, \"machine\":");
  ask (bench, &run, NULL);
  root = answer_of (&run);
  all = json_node_get_object (root);
  second = json_array_get_object_element (json_object_get_array_member (all, "hoopings"), 1);
  g_assert_cmpfloat_with_epsilon (number (all, "bobbin_metres"), 0.5 * number (all, "needle_metres"), 0.011);
  g_assert_cmpfloat (number (all, "bobbin_full"), ==, 6);
  g_assert_true (
      json_object_get_boolean_member (json_object_get_object_member (second, "bobbin"), "runs_out"));
}

static void
a_part_alone (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 }, none = { 0 }, undivided = { 0 };
  g_autoptr (JsonNode) root = NULL;

  ask (bench, &undivided, "--part=Sky");
  assert_refused (&undivided, "--part: the scene is not divided into parts, so there is no part \"Sky\".");
  bench_change (bench, "\"machine\":",
                "\"parts\": [{\"name\": \"Sky\", \"motifs\": [\"gull1\", \"gull2\"]}, {\"name\": \"Shore\", "
                "\"motifs\": [\"quay\", \"wall\", \"boat\"]}], \"machine\":");
  ask (bench, &run, "--part=Sky");
  root = answer_of (&run);
  g_assert_cmpint (json_object_get_int_member (json_node_get_object (root), "stitches"), ==, 600);
  ask (bench, &none, "--part=Sea");
  assert_refused (&none, "--part: expected \"Sky\" or \"Shore\", found \"Sea\".");
}

static void
what_cannot_be_planned_is_told_beside (Bench *bench, gconstpointer data)
{
  g_auto (Run) run = { 0 };

  bench_change (bench, "[-40, -15], [40, -15]", "[-400, -15], [40, -15]");
  ask (bench, &run, NULL);
  g_assert_cmpint (run.status, ==, HW_EXIT_UNPLANNABLE);
  g_assert_nonnull (strstr (run.err, "Quay"));
  g_assert_nonnull (strstr (run.out, "\"hoopwright-supplies\""));
}

#define ADD(name, function)                                                                                  \
  g_test_add ("/supplies-command/" name, Bench, NULL, bench_set_up, function, bench_tear_down)

int
main (int argc, char **argv)
{
  if (argc > 2 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);
  g_test_init (&argc, &argv, NULL);
  ADD ("hoopings-add-up", hoopings_add_up);
  ADD ("pieces-of-stabiliser-and-the-roll", pieces_of_stabiliser_and_the_roll);
  ADD ("the-workroom-of-the-scene-is-minded", the_workroom_of_the_scene_is_minded);
  ADD ("a-part-alone", a_part_alone);
  ADD ("what-cannot-be-planned-is-told-beside", what_cannot_be_planned_is_told_beside);
  return g_test_run ();
}
