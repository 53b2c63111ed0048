/* One needle list for a hooping: where each stitch lies in the hoop, what joins the motifs, and what is refused. */
#include <math.h>

#include "needled-motifs.h"

#include "../../src/scene/needle-runs.h"

#define MOSS "moss:#335522:2"

static HwSnapshot *
garden (void)
{
  HwSnapshot *scene = little_scene (700, 540);

  little_hoop (scene, 100, 60, 2, HW_TURN_ANY);
  return scene;
}

static HwHoopingNeedles *
merged (const HwPlan *plan)
{
  g_autoptr (GError) error = NULL;
  HwHoopingNeedles *needles = hw_hooping_needles_new (plan, 0, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (needles);
  return needles;
}

static void
assert_path (const HwHoopingNeedles *needles, const char *expected)
{
  g_autofree char *text = text_of_needles (needles->needles);

  g_assert_cmpstr (text, ==, expected);
}

static void
it_leaves_from_the_centre_and_comes_back (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 210, 150, MOSS, "j 1 2 moss, s 3 4 moss, s -5 6 moss, e 0 0 moss");
  plan = one_hooping (scene, 200, 150, 0);
  needles = merged (plan);
  assert_path (needles,
               "j 0 0 moss, j 11 2 moss, s 13 4 moss, s 5 6 moss, t 5 6 moss, j 0 0 moss, e 0 0 moss");
}

/* A quarter turn of the hoop clockwise: what lies to the right on the cloth lies away from the person in the hoop, hoop axes being turned
 * with it: p - centre = R(angle) (u, v). */
static void
motif_and_hoop_are_turned_scaled_and_mirrored (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;
  HwMotif *motif = needled_motif (scene, "Fig", 210, 150, MOSS, "j 0 0 moss, s 3 4 moss, s 3 0 moss");

  motif->placement = (HwPlacement){ { 210, 150 }, 90, 2, TRUE };
  plan = one_hooping (scene, 200, 150, 90);
  needles = merged (plan);
  assert_path (
      needles,
      "j 0 0 moss, j 0 -10 moss, s -6 -2 moss, s -6 -10 moss, t -6 -10 moss, j 0 0 moss, e 0 0 moss");
}

static void
the_thread_is_cut_between_motifs_and_changed_only_where_it_changes (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 0, 0, MOSS, "s 1 0 moss, s 2 0 moss");
  needled_motif (scene, "Pear", 10, 0, MOSS "; pine:#112211:1",
                 "j 0 0 moss, s 1 0 moss, s 2 0 moss, s 3 0 pine");
  plan = one_hooping (scene, 0, 0, 0);
  needles = merged (plan);
  assert_path (needles,
               "j 0 0 moss, j 1 0 moss, s 1 0 moss, s 2 0 moss, t 2 0 moss, "
               "j 10 0 moss, s 11 0 moss, s 12 0 moss, t 12 0 moss, c 12 0 pine, s 13 0 pine, t 13 0 pine, "
               "j 0 0 pine, e 0 0 pine");
  g_assert_cmpuint (needles->thread_changes, ==, 1);
  g_assert_cmpuint (needles->needles->n_stitches, ==, 5);
  g_assert_cmpuint (needles->stitches_told, ==, 5);
  g_assert_cmpuint (needles->n_blocks, ==, 3);
  g_assert_cmpuint (needles->blocks[2].motif, ==, 1);
  g_assert_cmpstr (needles->needles->threads[needles->blocks[2].thread], ==, "pine");
}

static void
trims_and_jumps_of_a_motif_stay_its_colours_and_ends_do_not (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 0, 0, MOSS "; pine:#112211:1",
                 "j 0 0 moss, t 0 0 moss, s 1 0 moss, t 1 0 moss, t 1 0 moss, j 5 0 moss, s 6 0 moss, "
                 "t 6 0 moss, c 6 0 pine, j 7 0 pine, s 8 0 pine, e 8 0 pine");
  plan = one_hooping (scene, 0, 0, 0);
  needles = merged (plan);
  assert_path (needles, "j 0 0 moss, j 0 0 moss, s 1 0 moss, t 1 0 moss, j 5 0 moss, s 6 0 moss, t 6 0 moss, "
                        "c 6 0 pine, j 7 0 pine, s 8 0 pine, t 8 0 pine, j 0 0 pine, e 0 0 pine");
}

static void
blocks_are_mixed_as_the_plan_mixes_them (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 0, 0, "moss:#335522:1; pine:#112211:1", "j 0 0 moss, s 1 0 moss, s 2 0 pine");
  needled_motif (scene, "Pear", 10, 0, "moss:#335522:1; pine:#112211:1",
                 "j 0 0 moss, s 1 0 moss, j 2 0 pine, s 3 0 pine");
  plan = one_hooping (scene, 0, 0, 0);
  mix_blocks (plan, "0.0 1.0 1.1 0.1");
  needles = merged (plan);
  assert_path (needles,
               "j 0 0 moss, j 0 0 moss, s 1 0 moss, t 1 0 moss, "
               "j 10 0 moss, s 11 0 moss, t 11 0 moss, c 11 0 pine, j 12 0 pine, s 13 0 pine, t 13 0 pine, "
               "j 1 0 pine, s 2 0 pine, t 2 0 pine, j 0 0 pine, e 0 0 pine");
  g_assert_cmpuint (needles->thread_changes, ==, 1);
}

static void
a_replaced_thread_is_the_one_that_is_put_in (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 0, 0, "fern:#446633:1; slate:#33506b:1; fern:#446633:1",
                 "j 0 0 moss, s 1 0 moss, s 2 0 pine, s 3 0 moss");
  plan = one_hooping (scene, 0, 0, 0);
  needles = merged (plan);
  assert_path (needles,
               "j 0 0 fern, j 0 0 fern, s 1 0 fern, t 1 0 fern, c 1 0 slate, s 2 0 slate, t 2 0 slate, "
               "c 2 0 fern, s 3 0 fern, t 3 0 fern, j 0 0 fern, e 0 0 fern");
  g_assert_true (hw_colour_equal (needles->colours[1], hw_snapshot_motif (scene, 0)->threads[1].colour));
}

/* The scene names two blocks, the list has three runs: the order of the list stays, since later stitches may lie over earlier ones. */
static void
a_list_with_more_runs_than_blocks_keeps_its_order_and_its_colours (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 0, 0, "moss:#335522:2; pine:#112211:1",
                 "j 0 0 moss, s 1 0 moss, s 2 0 pine, s 3 0 moss");
  plan = one_hooping (scene, 0, 0, 0);
  needles = merged (plan);
  assert_path (needles, "j 0 0 moss, j 0 0 moss, s 1 0 moss, t 1 0 moss, c 1 0 pine, s 2 0 pine, t 2 0 pine, "
                        "c 2 0 moss, s 3 0 moss, t 3 0 moss, j 0 0 moss, e 0 0 moss");
  g_assert_cmpuint (needles->thread_changes, ==, 2);
}

static void
a_run_never_goes_back_to_an_earlier_block (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  const HwMotif *motif
      = needled_motif (scene, "Fig", 0, 0, "moss:#335522:2; pine:#112211:1",
                       "j 0 0 moss, s 1 0 moss, t 1 0 moss, j 2 0 pine, s 3 0 pine, s 4 0 moss");
  g_autoptr (GArray) runs = hw_needle_runs (motif);
  const HwNeedleRun expected[] = { { 0, 3, 0, 0 }, { 3, 5, 1, 1 }, { 5, 6, 1, 0 } };

  g_assert_cmpmem (runs->data, runs->len * sizeof (HwNeedleRun), expected, sizeof expected);
}

static void
threads_of_one_name_and_two_colours_are_told_apart (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 0, 0, "moss:#335522:1", "s 1 0 moss");
  needled_motif (scene, "Pear", 0, 0, "moss:#446633:1", "s 1 0 moss");
  needled_motif (scene, "Plum", 0, 0, ":#112211:1", "s 1 0 x");
  plan = one_hooping (scene, 0, 0, 0);
  needles = merged (plan);
  g_assert_cmpstr (needles->needles->threads[0], ==, "moss");
  g_assert_cmpstr (needles->needles->threads[1], ==, "moss (#446633)");
  g_assert_cmpstr (needles->needles->threads[2], ==, "#112211");
  g_assert_cmpuint (needles->thread_changes, ==, 2);
}

/* Names that are taken already, by chance or on purpose, are told apart as well; and a thread without a name by its colour alone. */
static void
no_two_threads_have_one_name (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  needled_motif (scene, "Fig", 0, 0, "moss:#335522:1", "s 1 0 moss");
  needled_motif (scene, "Pear", 0, 0, "moss (#112211):#000000:1", "s 1 0 moss");
  needled_motif (scene, "Plum", 0, 0, "moss:#112211:1", "s 1 0 moss");
  needled_motif (scene, "Quince", 0, 0, "#446633:#000000:1", "s 1 0 moss");
  g_free (needled_motif (scene, "Medlar", 0, 0, ":#446633:1", "s 1 0 moss")->threads[0].name);
  ((HwMotif *)hw_snapshot_motif (scene, 4))->threads[0].name = NULL;
  plan = one_hooping (scene, 0, 0, 0);
  needles = merged (plan);
  g_assert_cmpstr (needles->needles->threads[0], ==, "moss");
  g_assert_cmpstr (needles->needles->threads[1], ==, "moss (#112211)");
  g_assert_cmpstr (needles->needles->threads[2], ==, "moss (#112211, 2)");
  g_assert_cmpstr (needles->needles->threads[3], ==, "#446633");
  g_assert_cmpstr (needles->needles->threads[4], ==, "#446633 (#446633)");
}

static void
assert_refused (const HwPlan *plan, const HwCorrection *correction, int code, const char *sentence)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_hooping_needles_new (plan, 0, correction, &error));
  g_assert_error (error, HW_HOOPING_NEEDLES_ERROR, code);
  g_assert_cmpstr (error->message, ==, sentence);
}

static void
motifs_without_stitches_are_all_named (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  needled_motif (scene, "Fig", 0, 0, MOSS, NULL);
  needled_motif (scene, "Pear", 0, 0, MOSS, "s 1 0 moss");
  needled_motif (scene, "Plum", 0, 0, MOSS, "j 1 0 moss");
  needled_motif (scene, "Fig", 0, 0, MOSS, NULL);
  needled_motif (scene, "Quince", 0, 0, MOSS, NULL);
  plan = one_hooping (scene, 0, 0, 0);
  assert_refused (
      plan, NULL, HW_HOOPING_NEEDLES_ERROR_NOT_KNOWN,
      "Hooping 1 has no needle list: of Fig, Plum and Quince only the outlines are known, not the "
      "stitches. Bring these motifs in from needle lists first.");
}

static void
a_hooping_without_motifs_or_threads_has_no_list (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  needled_motif (scene, "Fig", 0, 0, MOSS, "s 1 0 moss");
  needled_motif (scene, "Pear", 0, 0, "", "s 1 0 moss");
  needled_motif (scene, "Plum", 0, 0, MOSS, "s 1 0 moss");
  plan = one_hooping (scene, 0, 0, 0);
  assert_refused (plan, NULL, HW_HOOPING_NEEDLES_ERROR_NOT_KNOWN,
                  "Hooping 1 has no needle list: no thread is named for Pear. Name the threads first.");
  plan->hoopings[0].n_motifs = 0;
  assert_refused (plan, NULL, HW_HOOPING_NEEDLES_ERROR_NOT_KNOWN,
                  "Hooping 1 has no needle list: no motif is stitched in it.");
  plan->hoopings[0].n_motifs = 1;
  hw_hooping_needles_free (merged (plan));
}

/* A thousand threads may be named. */
static void
too_many_threads_are_refused (void)
{
  for (guint n = 1000; n <= 1001; n++)
    {
      g_autoptr (HwSnapshot) scene = garden ();
      g_autoptr (HwPlan) plan = NULL;

      for (guint i = 0; i < n; i++)
        {
          g_autofree char *thread = g_strdup_printf ("t%u:#335522:1", i);

          needled_motif (scene, "Bead", 0, 0, thread, "s 1 0 x");
        }
      plan = one_hooping (scene, 0, 0, 0);
      if (n == 1000)
        hw_hooping_needles_free (merged (plan));
      else
        assert_refused (
            plan, NULL, HW_HOOPING_NEEDLES_ERROR_THREADS,
            "Hooping 1 has no needle list: it is stitched in 1001 threads, and a list may name 1000.");
    }
}

static void
what_passes_the_field_is_named_with_by_how_much (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  const HwCorrection aside = { { 0, 1.5 }, 0 };

  needled_motif (scene, "Fig", 0, 0, MOSS, "s 50 0 moss, s 0 29.5 moss");
  plan = one_hooping (scene, 0, 0, 0);
  hw_hooping_needles_free (merged (plan)); /* on the field's side it is still inside */
  assert_refused (plan, &aside, HW_HOOPING_NEEDLES_ERROR_OUTSIDE_FIELD,
                  "Hooping 1 has no needle list: with its correction, Fig passes the field of 100 × 60 mm by "
                  "1.0 mm. Hoop the cloth again, closer to its marks.");
  needled_motif (scene, "Pear", 0, 0, MOSS, "j 53.25 0 moss, s 1 0 moss");
  hw_plan_unref (g_steal_pointer (&plan));
  plan = one_hooping (scene, 0, 0, 0);
  assert_refused (
      plan, NULL, HW_HOOPING_NEEDLES_ERROR_OUTSIDE_FIELD,
      "Hooping 1 has no needle list: the stitches of Pear pass the field of 100 × 60 mm by 3.2 mm. "
      "Make the motif's outline hold all of its stitches.");
}

/* A field of 4 1/8 in by 60 mm: half of it, 52.3875 mm, rounds to a thousandth beyond it. */
static void
rounding_does_not_lead_out_of_the_field (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;

  little_hoop (scene, 104.775, 60, 2, HW_TURN_ANY);
  needled_motif (scene, "Fig", 0, 0, MOSS, "j -52.3875 0 moss, s 52.3875 30.0004 moss");
  plan = one_hooping (scene, 0, 0, 0);
  needles = merged (plan);
  assert_path (needles,
               "j 0 0 moss, j -52.387 0 moss, s 52.387 30 moss, t 52.387 30 moss, j 0 0 moss, e 0 0 moss");
}

static void
a_correction_is_laid_over_only_when_asked (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;
  const HwCorrection correction = { { 1, -2 }, 90 };

  needled_motif (scene, "Fig", 0, 0, MOSS, "j 10 0 moss, s 10 5 moss");
  plan = one_hooping (scene, 0, 0, 0);
  needles = hw_hooping_needles_new (plan, 0, &correction, NULL);
  assert_path (needles, "j 0 0 moss, j 1 8 moss, s -4 8 moss, t -4 8 moss, j 0 0 moss, e 0 0 moss");
}

/* A list of random stitches, cut and changed at random. */
static char *
random_path (guint n)
{
  GString *text = g_string_new ("j 0 0 moss");
  const char *thread = "moss";

  for (guint i = 0; i < n; i++)
    {
      double x = g_test_rand_double_range (-9, 9), y = g_test_rand_double_range (-9, 9);
      guint chance = (guint)g_test_rand_int_range (0, 20);

      if (chance == 0)
        thread = g_str_equal (thread, "moss") ? "pine" : "moss";
      g_string_append_printf (text, ", %c %.4f %.4f %s",
                              chance == 1   ? 'j'
                              : chance == 2 ? 't'
                                            : 's',
                              x, y, thread);
    }
  g_string_append (text, ", s 1 1 pine");
  return g_string_free (text, FALSE);
}

/* Each stitch of the motif's list lies in the hoop where the formulas of the axes put it, one after the other, to 0.001 mm. */
static void
assert_same_stitches (const HwHoopingNeedles *needles, const HwPlan *plan)
{
  const HwMotif *motif = hw_snapshot_motif (plan->snapshot, 0);
  const HwHooping *hooping = &plan->hoopings[0];
  double a = motif->placement.angle * G_PI / 180, t = hooping->angle * G_PI / 180, s = motif->placement.scale;
  guint at = 0;

  for (guint i = 0; i < motif->needles->n_points; i++)
    {
      const HwNeedlePoint *p = &motif->needles->points[i];
      double mx = motif->placement.mirrored ? -p->x : p->x;
      double x = motif->placement.position.x + s * (mx * cos (a) - p->y * sin (a)) - hooping->centre.x;
      double y = motif->placement.position.y + s * (mx * sin (a) + p->y * cos (a)) - hooping->centre.y;

      if (p->action != HW_NEEDLE_STITCH)
        continue;
      while (needles->needles->points[at].action != HW_NEEDLE_STITCH)
        at++;
      g_assert_cmpfloat_with_epsilon (needles->needles->points[at].x, x * cos (t) + y * sin (t), 0.001);
      g_assert_cmpfloat_with_epsilon (needles->needles->points[at].y, -x * sin (t) + y * cos (t), 0.001);
      g_assert_cmpstr (needles->needles->threads[needles->needles->points[at].thread], ==,
                       motif->needles->threads[p->thread]);
      at++;
    }
  g_assert_cmpuint (needles->needles->n_stitches, ==, motif->needles->n_stitches);
}

static void
every_stitch_lies_where_the_axes_put_it (void)
{
  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HwSnapshot) scene = garden ();
      g_autofree char *path = random_path (200);
      g_autoptr (HwPlan) plan = NULL;
      g_autoptr (HwHoopingNeedles) needles = NULL;
      HwMotif *motif = needled_motif (scene, "Fig", 0, 0, "moss:#335522:100; pine:#112211:100", path);

      motif->placement
          = (HwPlacement){ { g_test_rand_double_range (295, 305), g_test_rand_double_range (195, 205) },
                           g_test_rand_double_range (-180, 180),
                           g_test_rand_double_range (0.5, 1.5),
                           g_test_rand_bit () };
      plan = one_hooping (scene, 300, 200, g_test_rand_double_range (-180, 180));
      needles = merged (plan);
      assert_same_stitches (needles, plan);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/hooping-needles/" #test, test)
  ADD (it_leaves_from_the_centre_and_comes_back);
  ADD (motif_and_hoop_are_turned_scaled_and_mirrored);
  ADD (the_thread_is_cut_between_motifs_and_changed_only_where_it_changes);
  ADD (trims_and_jumps_of_a_motif_stay_its_colours_and_ends_do_not);
  ADD (blocks_are_mixed_as_the_plan_mixes_them);
  ADD (a_replaced_thread_is_the_one_that_is_put_in);
  ADD (a_list_with_more_runs_than_blocks_keeps_its_order_and_its_colours);
  ADD (a_run_never_goes_back_to_an_earlier_block);
  ADD (threads_of_one_name_and_two_colours_are_told_apart);
  ADD (no_two_threads_have_one_name);
  ADD (a_hooping_without_motifs_or_threads_has_no_list);
  ADD (too_many_threads_are_refused);
  ADD (motifs_without_stitches_are_all_named);
  ADD (what_passes_the_field_is_named_with_by_how_much);
  ADD (rounding_does_not_lead_out_of_the_field);
  ADD (a_correction_is_laid_over_only_when_asked);
  ADD (every_stitch_lies_where_the_axes_put_it);
  return g_test_run ();
}
