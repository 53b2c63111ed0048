/* What the workroom uses up, in a scene file: read, written, kept, and refused by its place. */
#include <string.h>

#include "scene-texts.h"
#include "scene/scene.h"

#define HEAD                                                                                                 \
  "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Harbour\", "                               \
  "\"fabric\": {\"width\": 700, \"height\": 540, \"colour\": \"#d8cbb0\", \"hold\": \"floated\"}, "          \
  "\"edge_line\": {\"points\": [[60, 40], [640, 40], [640, 500]], \"margin\": 2}, "                          \
  "\"hoops\": [], \"motifs\": [], \"supplies\": "

static char *
scene_with (const char *supplies)
{
  return g_strconcat (HEAD, supplies, "}", NULL);
}

static const char all[]
    = "{\"fabric_thickness\": 0.5, \"stabiliser_thickness\": 0.2, \"stabiliser_sheets\": 2, \"roll_width\": "
      "900, "
      "\"reach\": 30, \"needle_tex\": 30, \"bobbin_tex\": 15, \"bobbin_share\": 0.35, \"bobbin_metres\": 70, "
      "\"bobbin_size\": [20.5, 6, 9], \"packing\": 0.6, \"needle_hours\": 6, \"needle_stitches\": 40000, "
      "\"beyond_edge\": 80, \"beyond_frames\": 15, \"shelf\": {\"row\": 3}}";

static void
test_read (void)
{
  g_autofree char *text = scene_with (all);
  g_autoptr (HwSnapshot) scene = accepted (text);
  const HwSupplyFacts *facts = &scene->supplies;
  const double read[] = { facts->fabric_thickness,
                          facts->stabiliser_thickness,
                          facts->stabiliser_sheets,
                          facts->roll_width,
                          facts->reach,
                          facts->needle_tex,
                          facts->bobbin_tex,
                          facts->bobbin_share,
                          facts->bobbin_metres,
                          facts->bobbin_outer,
                          facts->bobbin_inner,
                          facts->bobbin_width,
                          facts->packing,
                          facts->needle_hours,
                          facts->needle_stitches,
                          facts->beyond_edge,
                          facts->beyond_frames };
  const double written[] = { 0.5, 0.2, 2, 900, 30, 30, 15, 0.35, 70, 20.5, 6, 9, 0.6, 6, 40000, 80, 15 };

  for (guint i = 0; i < G_N_ELEMENTS (read); i++)
    g_assert_cmpfloat (read[i], ==, written[i]);
}

static void
test_round_trip_keeps_unknown_keys (void)
{
  g_autofree char *text = scene_with (all);
  g_autoptr (HwSnapshot) scene = accepted (text);
  g_autofree char *written = hw_scene_file_text (scene);
  g_autoptr (HwSnapshot) again = accepted (written);
  g_autofree char *written_again = hw_scene_file_text (again);

  g_assert_cmpstr (written, ==, written_again);
  g_assert_true (hw_snapshot_equal (scene, again));
  g_assert_nonnull (strstr (written, "\"shelf\""));
}

static void
test_defaults_are_not_written (void)
{
  g_autofree char *text = scene_with ("{}");
  g_autoptr (HwSnapshot) scene = accepted (text);
  g_autofree char *written = hw_scene_file_text (scene);

  g_assert_null (strstr (written, "supplies"));
}

static void
test_a_difference_is_a_difference (void)
{
  g_autofree char *text = scene_with (all);
  g_autoptr (HwSnapshot) scene = accepted (text);
  g_autoptr (HwSnapshot) other = hw_snapshot_copy (scene);

  other->supplies.bobbin_width += 1;
  g_assert_false (hw_snapshot_equal (scene, other));
  g_assert_cmpuint (hw_snapshot_difference (scene, other) & HW_SCENE_CHANGE_PLAN_MINDS, ==, 0);
}

static void
test_refusals_name_the_key (void)
{
  static const struct
  {
    const char *supplies, *place;
  } cases[] = {
    { "[]", "supplies" },
    { "{\"fabric_thickness\": -1}", "supplies.fabric_thickness" },
    { "{\"fabric_thickness\": 21}", "supplies.fabric_thickness" },
    { "{\"stabiliser_sheets\": 1.5}", "supplies.stabiliser_sheets" },
    { "{\"stabiliser_sheets\": 21}", "supplies.stabiliser_sheets" },
    { "{\"roll_width\": 0}", "supplies.roll_width" },
    { "{\"needle_tex\": \"40\"}", "supplies.needle_tex" },
    { "{\"bobbin_share\": 0}", "supplies.bobbin_share" },
    { "{\"bobbin_metres\": 0}", "supplies.bobbin_metres" },
    { "{\"bobbin_size\": [20, 6]}", "supplies.bobbin_size" },
    { "{\"bobbin_size\": [6, 20, 9]}", "supplies.bobbin_size" },
    { "{\"bobbin_size\": [20, 6, \"9\"]}", "supplies.bobbin_size" },
    { "{\"bobbin_size\": 20}", "supplies.bobbin_size" },
    { "{\"bobbin_size\": [20, 0, 9]}", "supplies.bobbin_size" },
    { "{\"bobbin_size\": [1e7, 6, 9]}", "supplies.bobbin_size" },
    { "{\"bobbin_size\": [20, 6, 0]}", "supplies.bobbin_size" },
    { "{\"bobbin_size\": [20, 6, 1e7]}", "supplies.bobbin_size" },
    { "{\"packing\": 0.95}", "supplies.packing" },
    { "{\"needle_hours\": 0}", "supplies.needle_hours" },
    { "{\"needle_stitches\": -5}", "supplies.needle_stitches" },
    { "{\"beyond_edge\": null, \"beyond_frames\": 1001}", "supplies.beyond_frames" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = scene_with (cases[i].supplies);
      g_autofree char *sentence = refusal (text, -1);

      g_test_message ("%s", sentence);
      g_assert_nonnull (strstr (sentence, cases[i].place));
    }
}

static void
test_each_figure_ends_at_its_limit (void)
{
  static const struct
  {
    const char *key, *least, *less, *most, *more, *expected;
  } figures[] = {
    { "fabric_thickness", "0", "-0.1", "20", "20.1", "a length in millimetres from 0 to 20" },
    { "stabiliser_thickness", "0", "-0.1", "20", "20.1", "a length in millimetres from 0 to 20" },
    { "stabiliser_sheets", "0", "-1", "20", "21", "a whole number from 0 to 20" },
    { "roll_width", "0.1", "0.09", "100000", "100001", "a length in millimetres from 0.1 to 100000" },
    { "reach", "0", "-1", "1000", "1000.5", "a length in millimetres from 0 to 1000" },
    { "beyond_edge", "0", "-1", "1000", "1000.5", "a length in millimetres from 0 to 1000" },
    { "beyond_frames", "0", "-1", "1000", "1000.5", "a length in millimetres from 0 to 1000" },
    { "needle_tex", "1", "0.9", "1000", "1001", "a number of tex from 1 to 1000" },
    { "bobbin_tex", "1", "0.9", "1000", "1001", "a number of tex from 1 to 1000" },
    { "bobbin_share", "0.05", "0.04", "2", "2.1", "a number from 0.05 to 2" },
    { "bobbin_metres", "1", "0.5", "100000", "100001", "a number of metres from 1 to 100000" },
    { "packing", "0.1", "0.09", "0.91", "0.92", "a number from 0.1 to 0.91" },
    { "needle_hours", "0.1", "0.09", "10000", "10001", "a number of hours from 0.1 to 10000" },
    { "needle_stitches", "0", "-1", "1000000000", "1000000001", "a number of stitches from 0 to 1000000000" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    for (guint end = 0; end < 2; end++)
      {
        const char *past = end == 0 ? figures[i].less : figures[i].more;
        g_autofree char *within_object
            = g_strdup_printf ("{\"%s\": %s}", figures[i].key, end == 0 ? figures[i].least : figures[i].most);
        g_autofree char *past_object = g_strdup_printf ("{\"%s\": %s}", figures[i].key, past);
        g_autofree char *within_text = scene_with (within_object), *past_text = scene_with (past_object);
        g_autofree char *expected = g_strdup_printf ("supplies.%s: expected %s, found %s.", figures[i].key,
                                                     figures[i].expected, past);
        g_autoptr (HwSnapshot) scene = accepted (within_text);
        g_autofree char *sentence = refusal (past_text, -1);

        g_assert_cmpstr (sentence, ==, expected);
      }
}

/* Outer diameter, inner diameter, width. */
static void
test_a_bobbin_ends_at_its_limits (void)
{
  static const char *const within[] = { "[1000, 6, 1000]", "[0.2, 0.1, 0.1]" }, *const past[] = {
    "[1000.5, 6, 9]", "[20, 6, 1000.5]", "[20, 0.09, 9]", "[20, 6, 0.09]", "[6.05, 6, 9]"
  };

  for (guint i = 0; i < G_N_ELEMENTS (within); i++)
    {
      g_autofree char *object = g_strdup_printf ("{\"bobbin_size\": %s}", within[i]);
      g_autofree char *text = scene_with (object);
      g_autoptr (HwSnapshot) scene = accepted (text);

      g_assert_true (hw_supply_facts_know_bobbin (&scene->supplies));
    }
  for (guint i = 0; i < G_N_ELEMENTS (past); i++)
    {
      g_autofree char *object = g_strdup_printf ("{\"bobbin_size\": %s}", past[i]);
      g_autofree char *text = scene_with (object);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_true (g_str_has_prefix (sentence, "supplies.bobbin_size: expected three lengths"));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene-supplies/read", test_read);
  g_test_add_func ("/scene-supplies/round-trip-keeps-unknown-keys", test_round_trip_keeps_unknown_keys);
  g_test_add_func ("/scene-supplies/defaults-are-not-written", test_defaults_are_not_written);
  g_test_add_func ("/scene-supplies/a-difference-is-a-difference", test_a_difference_is_a_difference);
  g_test_add_func ("/scene-supplies/refusals-name-the-key", test_refusals_name_the_key);
  g_test_add_func ("/scene-supplies/each-figure-ends-at-its-limit", test_each_figure_ends_at_its_limit);
  g_test_add_func ("/scene-supplies/a-bobbin-ends-at-its-limits", test_a_bobbin_ends_at_its_limits);
  return g_test_run ();
}
