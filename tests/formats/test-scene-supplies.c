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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene-supplies/read", test_read);
  g_test_add_func ("/scene-supplies/round-trip-keeps-unknown-keys", test_round_trip_keeps_unknown_keys);
  g_test_add_func ("/scene-supplies/defaults-are-not-written", test_defaults_are_not_written);
  g_test_add_func ("/scene-supplies/a-difference-is-a-difference", test_a_difference_is_a_difference);
  g_test_add_func ("/scene-supplies/refusals-name-the-key", test_refusals_name_the_key);
  return g_test_run ();
}
