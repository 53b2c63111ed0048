/* What a plan takes, against sums made by hand. */
#include "little-scenes.h"

#include <math.h>

#include "../../src/planning/supplies.h"
#include "../../src/scene/lockstitch.h"

static void
thread (HwMotif *motif, const char *name, guint stitches)
{
  HwThreadBlock block = { .name = (char *)name, .stitches = stitches };

  hw_motif_set_threads (motif, &block, 1);
}

/* Pear 4000 stitches of leaf and Plum 2000 of rind, far apart, one hoop with a frame of 140 x 160 mm: two hoopings. */
static HwSnapshot *
two_fruits (void)
{
  HwSnapshot *scene = little_scene (900, 300);

  little_hoop (scene, 100, 100, 2, HW_TURN_QUARTER);
  thread (little_motif (scene, "Pear", 60, 60, 150, 150), "leaf", 4000);
  thread (little_motif (scene, "Plum", 60, 60, 700, 150), "rind", 2000);
  return scene;
}

static HwSupplies *
supplies_of (const HwSnapshot *scene, guint part)
{
  g_autoptr (HwPlan) plan = little_plan (scene);

  return hw_supplies_new (plan, part);
}

static void
sums_are_those_of_the_plan (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();
  g_autoptr (HwPlan) plan = little_plan (scene);
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);

  g_assert_cmpuint (supplies->n_hoopings, ==, 2);
  g_assert_cmpuint (supplies->stitches, ==, 6000);
  g_assert_cmpuint (supplies->thread_changes, ==, plan->thread_changes);
  g_assert_cmpfloat_with_epsilon (supplies->minutes, plan->minutes, 1e-6);
  for (guint h = 0; h < 2; h++)
    {
      const HwHoopingSupplies *taken = hw_supplies_of_hooping (supplies, h);

      g_assert_cmpuint (taken->stitches, ==, plan->hoopings[h].stitches);
      g_assert_cmpfloat_with_epsilon (taken->minutes, plan->hoopings[h].minutes, 1e-6);
    }
  g_assert_null (hw_supplies_of_hooping (supplies, 2));
}

/* 5 m to a thousand stitches: common practice, no source. */
static void
thread_of_counted_stitches (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();
  g_autoptr (HwSupplies) supplies = supplies_of (scene, 0);
  const HwThreadUse *leaf = supplies->threads->pdata[0], *rind = supplies->threads->pdata[1];

  g_assert_cmpuint (supplies->threads->len, ==, 2);
  g_assert_cmpstr (leaf->name, ==, "leaf");
  g_assert_cmpfloat_with_epsilon (leaf->metres, 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (leaf->bobbin_metres, 20 * scene->supplies.bobbin_share, 1e-9);
  g_assert_false (leaf->counted);
  g_assert_cmpfloat_with_epsilon (rind->metres, 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (supplies->needle_metres, 30, 1e-9);
}

static void
unknown_stitches_stay_unknown (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();
  HwMotif *plum = hw_motif_copy (hw_snapshot_motif (scene, 1));

  thread (plum, "rind", 0);
  hw_motif_unref (scene->motifs->pdata[1]);
  scene->motifs->pdata[1] = plum;
  g_autoptr (HwSupplies) supplies = supplies_of (scene, 0);
  g_assert_true (isnan (((HwThreadUse *)supplies->threads->pdata[1])->metres));
  g_assert_cmpfloat_with_epsilon (supplies->needle_metres, 20, 1e-9);
}

/* A frame of 140 x 160 mm and 20 mm on each side: two pieces of 180 x 200 mm lie side by side on 500 mm, 360 mm across and 200 long; upright and turned
 * alike, turned takes 400 across and 180 long. */
static void
stabiliser_is_the_frame_and_its_reach (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();
  g_autoptr (HwSupplies) supplies = supplies_of (scene, 0);

  g_assert_cmpfloat (supplies->hoopings[0].piece_width, ==, 180);
  g_assert_cmpfloat (supplies->hoopings[0].piece_height, ==, 200);
  g_assert_cmpuint (supplies->hoopings[0].sheets, ==, 1);
  g_assert_cmpfloat_with_epsilon (supplies->roll_length, 180, 1e-9);
  g_assert_cmpuint (supplies->pieces_too_wide, ==, 0);
  scene->supplies.stabiliser_sheets = 2;
  g_autoptr (HwSupplies) doubled = supplies_of (scene, 0);
  g_assert_cmpfloat_with_epsilon (doubled->roll_length, 360, 1e-9);
  scene->supplies.stabiliser_sheets = 0;
  g_autoptr (HwSupplies) none = supplies_of (scene, 0);
  g_assert_cmpfloat (none->roll_length, ==, 0);
}

static void
needles_by_hours_and_by_stitches (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();

  g_autoptr (HwSupplies) one
      = supplies_of (scene, 0); /* 6000 stitches at 600 a minute: ten minutes of eight hours */
  g_assert_cmpuint (one->needles, ==, 1);
  scene->supplies.needle_hours = 0.1; /* six minutes */
  g_autoptr (HwSupplies) two = supplies_of (scene, 0);
  g_assert_cmpuint (two->needles, ==, 2);
  scene->supplies.needle_stitches = 1500;
  g_autoptr (HwSupplies) four = supplies_of (scene, 0);
  g_assert_cmpuint (four->needles, ==, 4);
}

/* The hoopings take 8 and 4 m of bobbin thread (0.4 of the needle thread), whichever comes first. */
static void
bobbins_are_changed_between_hoopings (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();
  HwHoopingSupplies *h;

  scene->supplies.bobbin_metres = 80;
  g_autoptr (HwSupplies) enough = supplies_of (scene, 0);
  g_assert_cmpuint (enough->bobbins, ==, 1);
  g_assert_false (enough->hoopings[1].bobbin_runs_out);
  g_assert_cmpfloat_with_epsilon (enough->hoopings[1].bobbin_left, 80 - enough->hoopings[0].bobbin_metres,
                                  1e-9);

  scene->supplies.bobbin_metres = 9;
  g_autoptr (HwSupplies) short_one = supplies_of (scene, 0);
  h = short_one->hoopings;
  g_assert_cmpuint (short_one->bobbins, ==, 2);
  g_assert_false (h[0].bobbin_runs_out);
  g_assert_true (h[1].bobbin_runs_out);
  g_assert_cmpfloat_with_epsilon (h[1].bobbin_lacking, 12 - 9, 1e-9);
  g_assert_cmpuint (h[0].n_changes + h[1].n_changes, ==, 0);

  scene->supplies.bobbin_metres = 5; /* a hooping of 8 m takes more than one */
  g_autoptr (HwSupplies) shorter = supplies_of (scene, 0);
  h = shorter->hoopings;
  g_assert_cmpuint (h[0].n_changes + h[1].n_changes, ==, 1);
  g_assert_true (h[h[0].n_changes == 0].changes[0].within);
}

/* The pear, stitched and put down with a full bobbin after so many of its blocks; -1: nothing was put down of bobbins. */
static void
stitch_pear (HwSnapshot *scene, int bobbin_at)
{
  HwPin *pin = little_pin ("h1", 150, 150, "m1");

  pin->work = hw_work_new ();
  pin->work->threads_done = 1;
  pin->work->new_bobbin = bobbin_at >= 0;
  pin->work->bobbin_at = (guint)MAX (bobbin_at, 0);
  g_ptr_array_add (scene->frozen, pin);
}

/* Pear took 8 m, plum takes 4 m. */
static void
the_bobbin_in_the_machine_is_told_by_what_was_put_down (void)
{
  g_autoptr (HwSnapshot) silent = two_fruits (), before = two_fruits (), after = two_fruits (),
                         wrong = two_fruits ();

  stitch_pear (silent, -1);
  stitch_pear (before, 0);
  stitch_pear (after, 1);
  stitch_pear (wrong, 0);
  before->supplies.bobbin_metres = after->supplies.bobbin_metres = 10;
  wrong->supplies.bobbin_metres = 7; /* which 8 m cannot come off */
  g_autoptr (HwSupplies) not_known = supplies_of (silent, 0);
  g_assert_true (isnan (not_known->bobbin_now));
  g_assert_cmpuint (not_known->bobbins, ==, 1);
  g_assert_false (not_known->hoopings[0].bobbin_runs_out);

  g_autoptr (HwSupplies) runs_out = supplies_of (before, 0);
  g_assert_cmpfloat_with_epsilon (runs_out->bobbin_now, 2, 1e-9);
  g_assert_true (runs_out->hoopings[0].bobbin_runs_out);
  g_assert_cmpfloat_with_epsilon (runs_out->hoopings[0].bobbin_lacking, 2, 1e-9);
  g_assert_cmpuint (runs_out->hoopings[0].bobbin_out_at.motif, ==, 1);
  g_assert_cmpuint (runs_out->bobbins, ==, 1);

  g_autoptr (HwSupplies) lasts = supplies_of (after, 0);
  g_assert_cmpfloat_with_epsilon (lasts->bobbin_now, 10, 1e-9);
  g_assert_false (lasts->hoopings[0].bobbin_runs_out);
  g_assert_cmpuint (lasts->bobbins, ==, 0);

  g_autoptr (HwSupplies) changed_silently = supplies_of (wrong, 0);
  g_assert_true (isnan (changed_silently->bobbin_now));
}

static void
stitched_hoopings_and_other_parts_take_nothing (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();
  const char *pear[] = { "m1", NULL }, *plum[] = { "m2", NULL };

  g_ptr_array_add (scene->parts, hw_part_new ("First day", pear));
  g_ptr_array_add (scene->parts, hw_part_new ("Second day", plum));
  g_autoptr (HwSupplies) second = supplies_of (scene, 2);
  g_assert_cmpuint (second->n_hoopings, ==, 1);
  g_assert_cmpuint (second->stitches, ==, 2000);

  g_ptr_array_set_size (scene->parts, 0);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 150, 150, "m1"));
  g_autoptr (HwSupplies) rest = supplies_of (scene, 0);
  g_assert_cmpuint (rest->n_hoopings, ==, 1);
  g_assert_cmpuint (rest->stitches, ==, 2000);
}

/* An edge line of 660 x 200 mm with 50 mm beyond it on each side. */
static void
cloth_is_the_edge_line_and_what_is_left_around_it (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();

  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 100, 50, 760, 250 }, 0, 2);
  scene->wishes.draw_in = 0;
  g_autoptr (HwSupplies) supplies = supplies_of (scene, 0);
  g_assert_cmpfloat_with_epsilon (supplies->cloth_width, 760, 1e-6);
  g_assert_cmpfloat_with_epsilon (supplies->cloth_height, 300, 1e-6);
  assert_says (supplies->cloth_reason, "660 × 200 mm");
  assert_says (supplies->cloth_reason, "50.0 mm");
}

/* Without an edge line it is the cloth itself, and nothing is said of a line. */
static void
without_an_edge_line_it_is_the_cloth (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ();

  scene->wishes.draw_in = 0;
  g_autoptr (HwSupplies) supplies = supplies_of (scene, 0);
  g_assert_cmpfloat_with_epsilon (supplies->cloth_width, 900, 1e-6);
  g_assert_cmpfloat_with_epsilon (supplies->cloth_height, 300, 1e-6);
  assert_does_not_say (supplies->cloth_reason, "edge line measures");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/supplies/sums-are-those-of-the-plan", sums_are_those_of_the_plan);
  g_test_add_func ("/supplies/thread-of-counted-stitches", thread_of_counted_stitches);
  g_test_add_func ("/supplies/unknown-stitches-stay-unknown", unknown_stitches_stay_unknown);
  g_test_add_func ("/supplies/stabiliser-is-the-frame-and-its-reach", stabiliser_is_the_frame_and_its_reach);
  g_test_add_func ("/supplies/needles-by-hours-and-by-stitches", needles_by_hours_and_by_stitches);
  g_test_add_func ("/supplies/bobbins-are-changed-between-hoopings", bobbins_are_changed_between_hoopings);
  g_test_add_func ("/supplies/the-bobbin-in-the-machine-is-told-by-what-was-put-down",
                   the_bobbin_in_the_machine_is_told_by_what_was_put_down);
  g_test_add_func ("/supplies/stitched-hoopings-and-other-parts-take-nothing",
                   stitched_hoopings_and_other_parts_take_nothing);
  g_test_add_func ("/supplies/cloth-is-the-edge-line-and-what-is-left-around-it",
                   cloth_is_the_edge_line_and_what_is_left_around_it);
  g_test_add_func ("/supplies/without-an-edge-line-it-is-the-cloth", without_an_edge_line_it_is_the_cloth);
  return g_test_run ();
}
