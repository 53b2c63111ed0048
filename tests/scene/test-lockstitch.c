/* How much thread stitches take, and how fine a thread is. */
#include <math.h>

#include "scene-pieces.h"

#include "scene/lockstitch.h"
#include "scene/yarn-count.h"

static const double tex = 26.7, length = 2.5, thickness = 0.8;

/* Solid round thread of density rho: tex = 1000 rho pi d^2 / 4 (d in mm), worked by hand: 26.7 tex of polyester, 1.38 g/cm^3, are 0.157 mm. */
static void
test_thread_has_the_diameter_of_its_weight (void)
{
  double d = hw_thread_diameter (tex);

  g_assert_cmpfloat_with_epsilon (d, 0.157, 0.0005);
  g_assert_cmpfloat_with_epsilon (G_PI * d * d / 4 * 1000 * 1.38, tex, 1e-9);
}

/* The textbook's balanced lockstitch (type 301 of ISO 4915; from memory): each thread takes s + h, and pi d / 2 for the loop. */
static void
test_balanced_stitch_meets_the_textbook (void)
{
  double d = hw_thread_diameter (tex);

  g_assert_cmpfloat_with_epsilon (hw_lockstitch_length (length, thickness, d, d),
                                  2 * (length + thickness + G_PI * d / 2), 1e-12);
  g_assert_cmpfloat_with_epsilon (hw_lockstitch_length (length, thickness, 0, 0), 6.6, 1e-12);
}

/* A ring of 20 mm outside, 8 mm inside, 10 mm wide holds 2638.9 mm^3; half of it thread of 0.2 mm, 0.031416 mm^2: 42 m. By hand. */
static void
test_bobbin_holds_its_volume (void)
{
  g_assert_cmpfloat_with_epsilon (hw_wound_metres (20, 8, 10, 0.2, 0.5), 42, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_wound_metres (8, 8, 10, 0.2, 0.5), 0, 1e-12);
}

/* Ten stitches of 2 mm in a row from where a jump begins. */
static HwMotif *
make_row (void)
{
  HwMotif *motif = make_motif ("row", 0, 0);
  HwNeedlePoint *points = g_new0 (HwNeedlePoint, 11);
  char **threads = g_strsplit ("leaf", " ", -1);

  points[0] = (HwNeedlePoint){ 0, 0, 0, HW_NEEDLE_JUMP };
  for (guint i = 1; i <= 10; i++)
    points[i] = (HwNeedlePoint){ 2.0F * i, 0, 0, HW_NEEDLE_STITCH };
  motif->threads[0].stitches = 10;
  motif->needles = hw_needle_list_new (points, 11, threads);
  return motif;
}

static void
test_row_of_stitches_takes_what_its_stitches_take (void)
{
  g_autoptr (HwMotif) motif = make_row ();
  HwSupplyFacts facts;
  g_autofree HwThreadLength *lengths = NULL;
  double needle, bobbin, each;

  hw_supply_facts_set_defaults (&facts);
  lengths = hw_motif_thread_lengths (motif, &facts);
  needle = lengths[0].needle * 1000 - HW_NEEDLE_TAIL;
  bobbin = lengths[0].bobbin * 1000 - HW_BOBBIN_TAIL;
  each = hw_lockstitch_length (2, 0.4 + 0.25, hw_thread_diameter (26.7), hw_thread_diameter (16.7));
  g_assert_true (lengths[0].counted);
  /* The first of ten has no hole before it to come from: 2 mm less of each thread. */
  g_assert_cmpfloat_with_epsilon (needle + bobbin, 10 * each - 2 * 2, 1e-6);
  g_assert_cmpfloat_with_epsilon (bobbin / needle, facts.bobbin_share, 1e-9);
}

static void
test_larger_motif_takes_longer_stitches_through_the_same_cloth (void)
{
  g_autoptr (HwMotif) motif = make_row ();
  HwSupplyFacts facts;
  g_autofree HwThreadLength *small = NULL, *large = NULL;
  double more;

  hw_supply_facts_set_defaults (&facts);
  small = hw_motif_thread_lengths (motif, &facts);
  motif->placement.scale = 1.5;
  large = hw_motif_thread_lengths (motif, &facts);
  more = (large[0].needle + large[0].bobbin - small[0].needle - small[0].bobbin) * 1000;
  /* Half of the 18 mm from the first hole to the tenth, in both threads. */
  g_assert_cmpfloat_with_epsilon (more, 18, 1e-6);
}

/* Common practice, no source: 4 to 6 m to a thousand stitches, bobbin thread a third to a half of it. */
static void
test_number_alone_gives_the_usual_metres (void)
{
  g_autoptr (HwMotif) motif = make_motif ("m", 0, 0);
  HwSupplyFacts facts;
  g_autofree HwThreadLength *lengths = NULL;

  hw_supply_facts_set_defaults (&facts);
  motif->threads[0].stitches = 1000;
  lengths = hw_motif_thread_lengths (motif, &facts);
  g_assert_false (lengths[0].counted);
  g_assert_cmpfloat (lengths[0].needle, >=, 4);
  g_assert_cmpfloat (lengths[0].needle, <=, 6);
  g_assert_cmpfloat (lengths[0].bobbin, >=, lengths[0].needle / 3);
  g_assert_cmpfloat (lengths[0].bobbin, <=, lengths[0].needle / 2);
}

static void
test_unknown_number_gives_no_metres (void)
{
  g_autoptr (HwMotif) motif = make_motif ("m", 0, 0);
  HwSupplyFacts facts;
  g_autofree HwThreadLength *lengths = NULL;

  hw_supply_facts_set_defaults (&facts);
  motif->threads[0].stitches = 0;
  lengths = hw_motif_thread_lengths (motif, &facts);
  g_assert_true (isnan (lengths[0].needle) && isnan (lengths[0].bobbin));
}

/* ISO 1144: dtex = 10 tex, denier = 9 tex, Nm = 1000 / tex; Ne = 590.5 / tex. */
static void
test_counts_meet_the_standard (void)
{
  g_assert_cmpfloat_with_epsilon (hw_yarn_from_tex (20, HW_YARN_DTEX), 200, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_yarn_from_tex (20, HW_YARN_DENIER), 180, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_yarn_from_tex (20, HW_YARN_NM), 50, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_yarn_from_tex (20, HW_YARN_NE), 590.5 / 20, 0.005);
  for (HwYarnSystem system = 0; system < HW_N_YARN_SYSTEMS; system++)
    g_assert_cmpfloat_with_epsilon (hw_yarn_to_tex (hw_yarn_from_tex (26.7, system), system), 26.7, 1e-9);
}

static void
assert_reads (const char *text, double expected)
{
  g_autoptr (GError) error = NULL;
  double read = 0;

  g_assert_true (hw_yarn_parse (text, &read, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (read, expected, 0.05);
}

/* 120 denier x 2 is 26.7 tex (from memory). */
static void
test_spool_labels_are_read (void)
{
  assert_reads ("120 den x 2", 26.7);
  assert_reads ("27 tex", 27);
  assert_reads ("26,7", 26.7);
  assert_reads ("Nm 80/2", 25);
  assert_reads ("40 Ne", 590.5 / 40);
}

static void
test_other_labels_are_refused (void)
{
  static const char *const texts[] = { "", "thick", "0 tex", "5000 tex", "40 miles", "120 den x 0" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      double read = 7;

      g_assert_false (hw_yarn_parse (texts[i], &read, &error));
      g_assert_nonnull (error);
      g_assert_cmpfloat (read, ==, 7);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lockstitch/diameter", test_thread_has_the_diameter_of_its_weight);
  g_test_add_func ("/lockstitch/balanced", test_balanced_stitch_meets_the_textbook);
  g_test_add_func ("/lockstitch/bobbin", test_bobbin_holds_its_volume);
  g_test_add_func ("/lockstitch/row", test_row_of_stitches_takes_what_its_stitches_take);
  g_test_add_func ("/lockstitch/scale", test_larger_motif_takes_longer_stitches_through_the_same_cloth);
  g_test_add_func ("/lockstitch/by-number", test_number_alone_gives_the_usual_metres);
  g_test_add_func ("/lockstitch/unknown-number", test_unknown_number_gives_no_metres);
  g_test_add_func ("/yarn-count/standard", test_counts_meet_the_standard);
  g_test_add_func ("/yarn-count/labels", test_spool_labels_are_read);
  g_test_add_func ("/yarn-count/refusals", test_other_labels_are_refused);
  return g_test_run ();
}
