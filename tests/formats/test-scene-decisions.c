#include <string.h>

#include "scene-texts.h"

/* The described example with a second motif, m2, and more keys. Returns: (transfer full) */
static char *
with (const char *keys)
{
  g_autofree char *start = g_strdup_printf ("\"version\": 1, %s,", keys);
  g_autofree char *text = replaced (contract, "\"version\": 1,", start);

  return replaced (
      text, "\"motifs\": [{",
      "\"motifs\": [{\"id\": \"m2\", \"outline\": [[[0, 0], [9, 0], [0, 9]]], \"position\": [300, 300]}, {");
}

static void
what_a_person_decided_is_read (void)
{
  g_autofree char *text
      = with ("\"apart\": [[\"m2\", \"m1\"]], \"wishes\": {\"best\": \"least-time\", \"interleave\": true, "
              "\"density_limit\": 3.5, \"scale_range\": [0.9, 1.1], \"tolerance\": 1}, "
              "\"pins\": [{\"keep\": \"grain\", \"motifs\": [\"m1\", \"m2\"]}]");
  g_autoptr (HwSnapshot) scene = accepted (text);
  const HwApart *apart = scene->apart->pdata[0];
  const HwPin *pin = scene->pins->pdata[0];

  g_assert_cmpuint (scene->apart->len, ==, 1);
  g_assert_cmpstr (apart->first, ==, "m2");
  g_assert_cmpstr (apart->second, ==, "m1");
  g_assert_cmpint (scene->wishes.best, ==, HW_BEST_LEAST_TIME);
  g_assert_true (scene->wishes.interleave);
  g_assert_cmpfloat (scene->wishes.density_limit, ==, 3.5);
  g_assert_cmpfloat (scene->wishes.scale_low, ==, 0.9);
  g_assert_cmpfloat (scene->wishes.scale_high, ==, 1.1);
  g_assert_cmpfloat (scene->wishes.tolerance, ==, 1);
  g_assert_cmpint (pin->keep, ==, HW_KEEP_GRAIN);
  g_assert_null (pin->hoop);
  g_assert_cmpstr (pin->motifs[1], ==, "m2");
}

static void
nothing_decided_is_the_usual_and_not_written (void)
{
  g_autoptr (HwSnapshot) scene = accepted (contract);
  g_autofree char *text = hw_scene_file_text (scene);
  static const char *const silent[] = { "apart", "wishes", "pins", "keep", "set_aside" };

  g_assert_cmpuint (scene->apart->len, ==, 0);
  g_assert_false (hw_snapshot_hoop (scene, 0)->set_aside);
  g_assert_cmpint (scene->wishes.best, ==, HW_BEST_FEWEST);
  g_assert_false (scene->wishes.interleave);
  g_assert_cmpfloat (scene->wishes.density_limit, ==, 5);
  g_assert_cmpfloat (scene->wishes.scale_low, ==, 0.8);
  g_assert_cmpfloat (scene->wishes.scale_high, ==, 1.2);
  g_assert_cmpfloat (scene->wishes.tolerance, ==, 0.7);
  for (gsize i = 0; i < G_N_ELEMENTS (silent); i++)
    g_assert_null (strstr (text, silent[i]));
}

/* Said outright, the usual is the usual. */
static void
defaults_that_are_said_are_not_written_again (void)
{
  g_autofree char *text = with (
      "\"apart\": [], \"wishes\": {\"best\": \"fewest\", \"scale_range\": [0.8, 1.2], \"tolerance\": null}, "
      "\"pins\": [{\"hoop\": \"h1\", \"centre\": [1, 2], \"keep\": \"all\", \"motifs\": [\"m1\"]}]");
  g_autoptr (HwSnapshot) scene = accepted (text);
  g_autofree char *written = hw_scene_file_text (scene);

  g_assert_null (strstr (written, "apart"));
  g_assert_null (strstr (written, "wishes"));
  g_assert_null (strstr (written, "keep"));
}

static void
one_pair_said_twice_is_one_pair (void)
{
  g_autofree char *text = with ("\"apart\": [[\"m1\", \"m2\"], [\"m2\", \"m1\"], [\"m1\", \"m2\"]]");
  g_autoptr (HwSnapshot) scene = accepted (text);

  g_assert_cmpuint (scene->apart->len, ==, 1);
  g_assert_cmpstr (((const HwApart *)scene->apart->pdata[0])->first, ==, "m1");
}

static void
a_free_pose_is_kept_as_far_as_it_was_said (void)
{
  static const char *const pins[] = {
    "{\"keep\": \"motifs\", \"motifs\": [\"m1\"]}",
    "{\"hoop\": \"h1\", \"keep\": \"grain\", \"motifs\": [\"m1\"]}",
    "{\"centre\": [0, 3.5], \"angle\": 90, \"keep\": \"grain\", \"motifs\": [\"m1\", \"m2\"]}",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (pins); i++)
    {
      g_autofree char *keys = g_strdup_printf ("\"pins\": [%s]", pins[i]);
      g_autofree char *text = with (keys);
      g_autoptr (HwSnapshot) scene = accepted (text);
      g_autofree char *written = hw_scene_file_text (scene);

      g_assert_nonnull (strstr (written, pins[i]));
    }
}

/* A stitched hooping has its pose; "keep" means nothing there and is kept as any unknown key. */
static void
a_stitched_hooping_has_nothing_free (void)
{
  static const char frozen[]
      = "{\"hoop\": \"h1\", \"centre\": [1, 2], \"angle\": 0, \"motifs\": [\"m1\"], \"keep\": \"motifs\"}";
  g_autofree char *keys = g_strdup_printf ("\"progress\": {\"frozen\": [%s]}", frozen);
  g_autofree char *text = with (keys);
  g_autoptr (HwSnapshot) scene = accepted (text);
  g_autofree char *written = hw_scene_file_text (scene);

  g_assert_cmpint (((const HwPin *)scene->frozen->pdata[0])->keep, ==, HW_KEEP_ALL);
  g_assert_nonnull (strstr (written, frozen));
}

static void
what_is_wrong_is_named (void)
{
  static const struct
  {
    const char *keys;
    const char *sentence;
  } refusals[] = {
    { "\"apart\": {}", "apart: expected a list of pairs of motif ids, found keys in braces." },
    { "\"apart\": [\"m1\"]", "apart[0]: expected the ids of two motifs, found \"m1\"." },
    { "\"apart\": [[\"m1\", \"m2\"], [\"m1\"]]",
      "apart[1]: expected the ids of two motifs, found [\"m1\"]." },
    { "\"apart\": [[\"m1\", \"m2\", \"m1\"]]",
      "apart[0]: expected the ids of two motifs, found [\"m1\", \"m2\", \"m1\"]." },
    { "\"apart\": [[\"m1\", \"m9\"]]",
      "apart[0][1]: expected the id of a motif in this scene, found \"m9\"." },
    { "\"apart\": [[7, \"m9\"]]", "apart[0][0]: expected the id of a motif in this scene, found 7." },
    { "\"apart\": [[\"h1\", \"m1\"]]",
      "apart[0][0]: expected the id of a motif in this scene, found \"h1\"." },
    { "\"apart\": [[\"m2\", \"m2\"]]", "apart[0]: expected two different motifs, found [\"m2\", \"m2\"]." },
    { "\"wishes\": []", "wishes: expected keys in braces, found []." },
    { "\"wishes\": {\"best\": \"cheap\"}",
      "wishes.best: expected one of \"fewest\", \"least-time\", found \"cheap\"." },
    { "\"wishes\": {\"interleave\": 1}", "wishes.interleave: expected true or false, found 1." },
    { "\"wishes\": {\"density_limit\": 0}", "wishes.density_limit: expected a number of stitches per square "
                                            "millimetre from 0.1 to 1000, found 0." },
    { "\"wishes\": {\"scale_range\": 1}",
      "wishes.scale_range: expected a smallest and a largest scale from 0.001 to 1000, found 1." },
    { "\"wishes\": {\"scale_range\": [0, 1]}",
      "wishes.scale_range: expected a smallest and a largest scale from 0.001 to 1000, found [0, 1]." },
    { "\"wishes\": {\"scale_range\": [1.2, 0.8]}",
      "wishes.scale_range: expected the smaller scale first, found [1.2, 0.8]." },
    { "\"wishes\": {\"tolerance\": -0.1}",
      "wishes.tolerance: expected a length in millimetres from 0 to 100, found -0.1." },
    { "\"pins\": [{\"keep\": \"hoop\", \"motifs\": [\"m1\"]}]",
      "pins[0].keep: expected one of \"all\", \"motifs\", \"grain\", found \"hoop\"." },
    { "\"pins\": [{\"keep\": \"motifs\", \"hoop\": \"h7\", \"motifs\": [\"m1\"]}]",
      "pins[0].hoop: expected the id of a hoop in this scene, found \"h7\"." },
    { "\"pins\": [{\"keep\": \"motifs\", \"centre\": 3, \"motifs\": [\"m1\"]}]",
      "pins[0].centre: expected two numbers in millimetres, found 3." },
    { "\"pins\": [{\"keep\": \"motifs\"}]", "pins[0].motifs: expected a list of motif ids, found nothing." },
    { "\"pins\": [{\"keep\": \"all\", \"motifs\": [\"m1\"]}]",
      "pins[0].hoop: expected a text that is not empty, found nothing." },
  };
  g_autofree char *aside = replaced (contract, "\"turn\": \"any\"", "\"set_aside\": \"yes\"");
  g_autofree char *aside_sentence = refusal (aside, -1);

  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *text = with (refusals[i].keys);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_cmpstr (sentence, ==, refusals[i].sentence);
    }
  g_assert_cmpstr (aside_sentence, ==, "hoops[0].set_aside: expected true or false, found \"yes\".");
}

static void
too_many_pairs_are_refused (void)
{
  g_autoptr (GString) keys = g_string_new ("\"apart\": [[\"m1\", \"m2\"]");
  g_autofree char *text = NULL;
  g_autofree char *sentence = NULL;

  for (guint i = 0; i < 100000; i++)
    g_string_append (keys, ",[\"m1\",\"m2\"]");
  g_string_append_c (keys, ']');
  text = with (keys->str);
  sentence = refusal (text, -1);
  g_assert_cmpstr (sentence, ==, "apart: expected at most 100000 pairs, found 100001.");
}

/* Every two of 200 motifs kept apart: much, but nothing to choke on. */
static void
many_pairs_are_read_and_written (void)
{
  g_autoptr (HwSnapshot) scene = accepted (contract);
  g_autoptr (HwSnapshot) again = NULL;
  g_autofree char *text = NULL;
  gint64 start = g_get_monotonic_time ();

  for (guint i = 0; i < 200; i++)
    {
      HwMotif *motif = hw_motif_copy (hw_snapshot_motif (scene, 0));

      g_free (motif->id);
      motif->id = g_strdup_printf ("leaf %u", i);
      g_ptr_array_add (scene->motifs, motif);
      for (guint j = 1; j <= i; j++)
        g_ptr_array_add (scene->apart, hw_apart_new (motif->id, hw_snapshot_motif (scene, j)->id));
    }
  text = hw_scene_file_text (scene);
  again = accepted (text);
  g_assert_cmpuint (again->apart->len, ==, 19900);
  g_assert_true (hw_snapshot_equal (scene, again));
  g_assert_cmpint (g_get_monotonic_time () - start, <, 20 * G_USEC_PER_SEC);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/scene-decisions/" name, function)
  ADD ("what-a-person-decided-is-read", what_a_person_decided_is_read);
  ADD ("nothing-decided-is-the-usual", nothing_decided_is_the_usual_and_not_written);
  ADD ("defaults-said-are-not-written-again", defaults_that_are_said_are_not_written_again);
  ADD ("one-pair-said-twice-is-one-pair", one_pair_said_twice_is_one_pair);
  ADD ("a-free-pose-is-kept-as-it-was-said", a_free_pose_is_kept_as_far_as_it_was_said);
  ADD ("a-stitched-hooping-has-nothing-free", a_stitched_hooping_has_nothing_free);
  ADD ("what-is-wrong-is-named", what_is_wrong_is_named);
  ADD ("many-pairs-are-read-and-written", many_pairs_are_read_and_written);
  ADD ("too-many-pairs-are-refused", too_many_pairs_are_refused);
  return g_test_run ();
}
