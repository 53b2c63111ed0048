/* What a plan still takes while it is being stitched, and what clamped cloth needs around its frames: against sums made by hand. */
#include "needled-motifs.h"
#include "plans-by-hand.h"

#include <math.h>

#include "../../src/planning/supplies.h"

/* Pear of leaf, rind, rind and leaf; Plum of rind. 600 stitches a minute, 5 m of thread to a thousand stitches. */
static HwPlan *
two_fruits (HwSnapshot **scene)
{
  static const HwThreadBlock leaf = { .name = (char *)"leaf", .stitches = 4000 },
                             rind = { .name = (char *)"rind", .stitches = 1000 };
  HwThreadBlock pear[] = { leaf, rind, rind, leaf };
  HwPlan *plan;

  *scene = garden ();
  hw_motif_set_threads (little_motif (*scene, "Pear", 60, 60, 150, 150), pear, 4);
  hw_motif_set_threads (little_motif (*scene, "Plum", 60, 60, 600, 150), &rind, 1);
  (*scene)->machine.minutes_per_change = 2;
  (*scene)->wishes.draw_in = 0;
  plan = hw_plan_new (*scene);
  hoop_up (plan, 600, 150, "1");
  hoop_up (plan, 150, 150, "0");
  hw_plan_count (plan);
  return plan;
}

/* Pear is in the machine, so many of its blocks done. */
static HwWork *
begin_pear (HwSnapshot *scene, HwPlan *plan, guint done)
{
  HwPin *pin = little_pin ("h1", 150, 150, "m1");

  pin->work = hw_work_new ();
  pin->work->threads_done = done;
  g_ptr_array_set_size (scene->pins, 0);
  g_ptr_array_add (scene->pins, pin);
  plan->hoopings[1].hold = HW_PLACE_PINNED;
  return pin->work;
}

static void
what_is_done_in_the_machine_takes_nothing_more (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);
  const HwHoopingSupplies *pear;

  begin_pear (scene, plan, 1);
  g_autoptr (HwSupplies) rest = hw_supplies_new (plan, 0);
  pear = hw_supplies_of_hooping (rest, 1);
  g_assert_cmpuint (pear->stitches, ==, 6000);
  g_assert_cmpuint (pear->thread_changes, ==, 1); /* rind, rind, leaf */
  g_assert_cmpfloat_with_epsilon (pear->minutes, 2 + 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (pear->needle_metres, 30, 1e-9);
  g_assert_cmpuint (pear->threads->len, ==, 2);
  g_assert_cmpstr (((HwThreadUse *)pear->threads->pdata[0])->name, ==, "rind");
  g_assert_cmpuint (hw_supplies_of_hooping (rest, 0)->stitches, ==, 1000);
  g_assert_cmpuint (rest->stitches, ==, 7000);

  begin_pear (scene, plan, 0);
  g_autoptr (HwSupplies) all = hw_supplies_new (plan, 0);
  g_assert_cmpuint (hw_supplies_of_hooping (all, 1)->stitches, ==, 10000);
  g_assert_cmpfloat_with_epsilon (hw_supplies_of_hooping (all, 1)->minutes, plan->hoopings[1].minutes, 1e-9);

  begin_pear (scene, plan, 9); /* more than there are */
  scene->machine.stitches_per_minute = 0;
  g_autoptr (HwSupplies) none = hw_supplies_new (plan, 0);
  g_assert_cmpuint (hw_supplies_of_hooping (none, 1)->stitches, ==, 0);
  g_assert_cmpfloat (hw_supplies_of_hooping (none, 1)->minutes, ==, 0);
  g_assert_true (isnan (hw_supplies_of_hooping (none, 1)->needle_metres));

  begin_pear (scene, plan, 1); /* a pin's work says nothing of a hooping that is not pinned any more */
  plan->hoopings[1].hold = HW_PLACE_FREE;
  g_autoptr (HwSupplies) free_again = hw_supplies_new (plan, 0);
  g_assert_cmpuint (hw_supplies_of_hooping (free_again, 1)->stitches, ==, 10000);
}

/* Bobbin thread is 0.4 of the needle thread: 8, 2, 2 and 8 m in Pear, 2 m in Plum. */
static void
the_hooping_in_the_machine_comes_first_on_the_bobbin (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);
  HwWork *work = begin_pear (scene, plan, 1);

  scene->supplies.bobbin_metres = 21;
  work->new_bobbin = TRUE;
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);
  g_assert_cmpfloat_with_epsilon (supplies->bobbin_now, 13, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_supplies_of_hooping (supplies, 1)->bobbin_left, 13, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_supplies_of_hooping (supplies, 0)->bobbin_left, 1, 1e-9);
  g_assert_false (hw_supplies_of_hooping (supplies, 1)->bobbin_runs_out);
  g_assert_true (hw_supplies_of_hooping (supplies, 0)->bobbin_runs_out);
  g_assert_cmpfloat_with_epsilon (hw_supplies_of_hooping (supplies, 0)->bobbin_lacking, 1, 1e-9);
}

/* 5 m on a bobbin: the first leaf alone takes more than one, the rinds after it 4 m. */
static void
a_full_bobbin_is_put_in_between_blocks_where_that_can_be (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);
  const HwHoopingSupplies *pear;

  scene->supplies.bobbin_metres = 5;
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);
  pear = hw_supplies_of_hooping (supplies, 1);
  /* Within leaf, 5 + 3; 2 left, on which the first rind goes; the second on the next; 3 left, so that leaf begins full: 5 + 3. */
  g_assert_cmpuint (pear->n_changes, ==, 4);
  g_assert_true (pear->changes[0].within && pear->changes[0].block.block == 0);
  g_assert_true (!pear->changes[1].within && pear->changes[1].block.block == 1);
  g_assert_true (!pear->changes[2].within && pear->changes[2].block.block == 2);
  g_assert_true (pear->changes[3].within && pear->changes[3].block.block == 3);
  g_assert_cmpuint (supplies->bobbins, ==, 6); /* one for Plum, whose rest is too little, and five */
  g_assert_cmpuint (pear->bobbin_out_at.motif, ==, 0);
  g_assert_cmpuint (pear->bobbin_out_at.block, ==, 0);
}

/* Where a block is of no known length nothing is known of the bobbin from then on, and the next that takes more than one begins full. */
static void
unknown_blocks_leave_the_bobbin_unknown (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);
  HwMotif *plum = (HwMotif *)hw_snapshot_motif (scene, 1), *pear = (HwMotif *)hw_snapshot_motif (scene, 0);

  plum->threads[0].stitches = 0;
  pear->threads[1].stitches = 0;
  hw_plan_count (plan);
  scene->supplies.bobbin_metres = 10;
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);
  g_assert_true (isnan (hw_supplies_of_hooping (supplies, 0)->bobbin_left));
  g_assert_true (isnan (hw_supplies_of_hooping (supplies, 0)->bobbin_metres));
  g_assert_cmpfloat_with_epsilon (hw_supplies_of_hooping (supplies, 1)->bobbin_left, 10, 1e-9);
  /* 8 off the full one, the unknown counts for nothing, 2 more, and leaf begins full. */
  g_assert_cmpuint (hw_supplies_of_hooping (supplies, 1)->n_changes, ==, 1);
  g_assert_false (hw_supplies_of_hooping (supplies, 1)->changes[0].within);
  g_assert_cmpuint (hw_supplies_of_hooping (supplies, 1)->changes[0].block.block, ==, 2);
  /* The other way round: Plum, known, takes a first bobbin, unknown Pear leaves it unknown, and it is put in anew for what takes more than one. */
  swap (plan, 0, 1);
  pear->threads[3].stitches = 500;
  plum->threads[0].stitches = 9000;
  hw_plan_count (plan);
  g_autoptr (HwSupplies) again = hw_supplies_new (plan, 0);
  g_assert_cmpuint (hw_supplies_of_hooping (again, 1)->hooping, ==, 1);
  g_assert_true (isnan (hw_supplies_of_hooping (again, 1)->bobbin_left));
  g_assert_cmpuint (hw_supplies_of_hooping (again, 1)->n_changes, ==, 1);
  g_assert_cmpuint (again->bobbins, ==, 4); /* two for the 11 m of Pear, two for the 18 of Plum */
}

static void
a_bobbin_that_ends_in_a_later_block_says_in_which (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);
  const HwHoopingSupplies *pear;

  scene->supplies.bobbin_metres = 21; /* 2 for Plum, 19 left: 8, 2, 2 and 7 of 8 */
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);
  pear = hw_supplies_of_hooping (supplies, 1);
  g_assert_true (pear->bobbin_runs_out);
  g_assert_cmpuint (pear->bobbin_out_at.block, ==, 3);
  g_assert_cmpfloat_with_epsilon (pear->bobbin_lacking, 1, 1e-9);
  g_assert_cmpuint (pear->n_changes, ==, 0);
  ((HwMotif *)hw_snapshot_motif (scene, 0))->threads[1].stitches
      = 0; /* not known: it is not where the bobbin ends */
  scene->supplies.bobbin_metres = 19;
  g_autoptr (HwSupplies) less = hw_supplies_new (plan, 0);
  g_assert_true (hw_supplies_of_hooping (less, 1)->bobbin_runs_out);
  g_assert_cmpuint (hw_supplies_of_hooping (less, 1)->bobbin_out_at.block, ==, 3);
}

static void
no_needle_is_worn_by_nothing_or_lasts_for_ever (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);

  scene->machine.stitches_per_minute = 0;
  scene->supplies.needle_hours = 1; /* 60 stitches at the slowest that is reckoned with */
  g_autoptr (HwSupplies) slow = hw_supplies_new (plan, 0);
  g_assert_cmpuint (slow->needles, ==, 184);
  scene->supplies.needle_hours = 0;
  g_autoptr (HwSupplies) every_stitch = hw_supplies_new (plan, 0);
  g_assert_cmpuint (every_stitch->needles, ==, 11000);
  plan->n_hoopings = 0;
  g_autoptr (HwSupplies) nothing = hw_supplies_new (plan, 0);
  g_assert_cmpuint (nothing->needles, ==, 0);
  g_assert_cmpuint (nothing->bobbins, ==, 0);
  plan->n_hoopings = 2;
}

/* The frame is 144 x 164 mm; the edge line leaves 50 mm of cloth around it. */
static void
clamped_cloth_lies_under_every_frame (void)
{
  static const HwPoint places[] = { { 130, 300 }, { 670, 300 }, { 400, 140 }, { 400, 460 } };
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  const char *farther = "; the frames reach farther, and clamped cloth lies under them and 10.0 mm beyond.";

  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 120, 120, 680, 480 }, 0, 2);
  scene->wishes.draw_in = 0;
  little_motif (scene, "Pear", 10, 10, 400, 300);
  hoop_up (plan, 400, 300, "0");
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      gboolean wide = i < 2;

      plan->hoopings[0].centre = places[i];
      scene->fabric.hold = HW_HOLD_FLOATED;
      g_autoptr (HwSupplies) floated = hw_supplies_new (plan, 0);
      assert_does_not_say (floated->cloth_reason, farther);
      g_assert_cmpfloat_with_epsilon (floated->cloth_width, 660, 1e-6);
      scene->fabric.hold = HW_HOLD_CLAMPED;
      g_autoptr (HwSupplies) clamped = hw_supplies_new (plan, 0);
      assert_says (clamped->cloth_reason, farther);
      /* 130 - 72 - 10 is 48, 22 mm left of the cloth around the edge line; 140 - 82 - 10 is 48 too. */
      g_assert_cmpfloat_with_epsilon (clamped->cloth_width, wide ? 682 : 660, 1e-6);
      g_assert_cmpfloat_with_epsilon (clamped->cloth_height, wide ? 460 : 482, 1e-6);
    }
  plan->hoopings[0].centre = (HwPoint){ 400, 300 };
  g_autoptr (HwSupplies) inside = hw_supplies_new (plan, 0);
  assert_does_not_say (inside->cloth_reason, farther);
  g_assert_cmpfloat_with_epsilon (inside->cloth_width, 660, 1e-6);
  /* A hoop that is gone has no frame and no piece of stabiliser. */
  plan->hoopings[0].centre = places[0];
  plan->hoopings[0].hoop = 5;
  g_autoptr (HwSupplies) gone = hw_supplies_new (plan, 0);
  g_assert_cmpfloat_with_epsilon (gone->cloth_width, 660, 1e-6);
  g_assert_cmpfloat (gone->hoopings[0].piece_width, ==, 0);
  g_assert_cmpfloat (gone->roll_length, ==, 0);
}

/* 660 mm are 25.98 in, 460 mm 18.11 in: the next tenths are 26.0 and 18.2. */
static void
cloth_is_cut_to_a_tenth_of_an_inch (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);

  plan->unit = HW_UNIT_INCH;
  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 120, 120, 680, 480 }, 0, 2);
  g_autoptr (HwSupplies) supplies = hw_supplies_new (plan, 0);
  g_assert_cmpfloat_with_epsilon (supplies->cloth_width, 26.0 * 25.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (supplies->cloth_height, 18.2 * 25.4, 1e-6);
}

/* One motif's stitches are known, of the other only their number: what thread they share is not all reckoned from stitches. */
static void
what_is_reckoned_from_stitches_and_what_from_their_number (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);
  HwMotif *fig;

  fig = needled_motif (scene, "Fig", 100, 100, "moss:#335522:2",
                       "j 0 0 moss, s 3 0 moss, s 6 0 moss, e 6 0 moss");
  needled_motif (scene, "Pear", 150, 100, "moss:#335522:1000", NULL);
  needled_motif (scene, "Plum", 100, 150, "moss:#446633:1000", NULL); /* another moss */
  hoop_up (plan, 125, 100, "0");
  g_autoptr (HwSupplies) known = hw_supplies_new (plan, 0);
  g_assert_true (((HwThreadUse *)known->threads->pdata[0])->counted);
  assert_says (known->assumptions, "Reckoned from the stitches");
  hoop_up (plan, 125, 100, "1 2");
  g_autoptr (HwSupplies) both = hw_supplies_new (plan, 0);
  g_assert_cmpuint (both->threads->len, ==, 2);
  g_assert_false (((HwThreadUse *)both->threads->pdata[0])->counted);
  g_assert_cmpuint (((HwThreadUse *)both->threads->pdata[0])->stitches, ==, 1002);
  g_assert_false (((HwThreadUse *)both->threads->pdata[1])->counted);
  swap (plan, 0, 1);
  g_autoptr (HwSupplies) turned = hw_supplies_new (plan, 0);
  g_assert_false (((HwThreadUse *)turned->threads->pdata[0])->counted);
  hw_motif_set_threads (fig, &(HwThreadBlock){ .name = (char *)"pine", .stitches = 2 }, 1);
  g_autoptr (HwSupplies) apart
      = hw_supplies_new (plan, 0); /* pine from its stitches, moss by number: both are said */
  assert_says (apart->assumptions, "Reckoned from the stitches");
  g_assert_cmpuint (strlen (apart->assumptions), >, strlen (known->assumptions));
}

static void
supplies_are_shared_by_reference (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = two_fruits (&scene);
  HwSupplies *first = hw_supplies_new (plan, 0), *second = hw_supplies_ref (first);

  hw_supplies_unref (first);
  g_assert_cmpuint (second->stitches, ==, 11000);
  hw_supplies_unref (second);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/supplies-on-the-way/in-the-machine", what_is_done_in_the_machine_takes_nothing_more);
  g_test_add_func ("/supplies-on-the-way/first-on-the-bobbin",
                   the_hooping_in_the_machine_comes_first_on_the_bobbin);
  g_test_add_func ("/supplies-on-the-way/between-blocks",
                   a_full_bobbin_is_put_in_between_blocks_where_that_can_be);
  g_test_add_func ("/supplies-on-the-way/unknown", unknown_blocks_leave_the_bobbin_unknown);
  g_test_add_func ("/supplies-on-the-way/later-block", a_bobbin_that_ends_in_a_later_block_says_in_which);
  g_test_add_func ("/supplies-on-the-way/needles", no_needle_is_worn_by_nothing_or_lasts_for_ever);
  g_test_add_func ("/supplies-on-the-way/clamped", clamped_cloth_lies_under_every_frame);
  g_test_add_func ("/supplies-on-the-way/inches", cloth_is_cut_to_a_tenth_of_an_inch);
  g_test_add_func ("/supplies-on-the-way/counted", what_is_reckoned_from_stitches_and_what_from_their_number);
  g_test_add_func ("/supplies-on-the-way/shared", supplies_are_shared_by_reference);
  return g_test_run ();
}
