/* What is kept of the last plan after an edit, asked of the mending itself: the search would find as good a plan without it. */
#include "plans-by-hand.h"

#include "../../src/planning/again.h"

typedef struct
{
  HwPlan *plan;
  HwPlacings *placings;
  HwOverlaps *overlaps;
  HwSetFit *fit;
  HwHeldFast *held;
  HwAgain *again;
} Mended;

static Mended
mended (const HwPlan *last, const HwSnapshot *scene)
{
  Mended mended = { .plan = hw_plan_new (scene),
                    .placings = hw_placings_new (),
                    .overlaps = hw_overlaps_new (),
                    .fit = hw_set_fit_new () };
  const HwPlaced *placed = hw_placings_take (mended.placings, scene);

  hw_set_fit_begin (mended.fit, scene, placed, scene->motifs->len);
  mended.held = hw_held_new (mended.plan, placed, mended.fit, mended.overlaps, HW_UNIT_MM, NULL);
  mended.again = hw_again_new (last, mended.held, mended.fit);
  return mended;
}

static void
mended_clear (Mended *mended)
{
  hw_again_free (mended->again);
  hw_held_free (mended->held);
  hw_set_fit_free (mended->fit);
  hw_overlaps_free (mended->overlaps);
  hw_placings_free (mended->placings);
  hw_plan_unref (mended->plan);
}

/* The hooping of the motif of this number. */
static guint
hooping_of (const Mended *mended, guint motif)
{
  for (guint k = 0; k < mended->held->n; k++)
    if (mended->held->motif[k] == motif)
      return mended->again->block_of[mended->held->item_of[k]];
  g_assert_not_reached ();
}

/* Three trees in a row share a hooping of 100 mm and a fourth has its own; the third may lie elsewhere. */
static HwSnapshot *
orchard (double x)
{
  HwSnapshot *scene = garden ();

  little_motif (scene, "Pear", 20, 20, 300, 300);
  little_motif (scene, "Plum", 20, 20, 325, 300);
  little_motif (scene, "Quince", 20, 20, x, 300);
  little_motif (scene, "Apple", 20, 20, 600, 300);
  return scene;
}

static HwPlan *
as_it_was (const HwSnapshot *scene)
{
  HwPlan *plan = hw_plan_new (scene);

  hoop_up (plan, 325, 300, "0 1 2");
  hoop_up (plan, 600, 300, "3");
  return plan;
}

/* n hoopings; the Quince with the motif of this number, or alone. */
static void
assert_hoopings (double x, guint n, int with)
{
  g_autoptr (HwSnapshot) then = orchard (350), now = orchard (x);
  g_autoptr (HwPlan) last = as_it_was (then);
  Mended again = mended (last, now);

  g_assert_true (again.again->works);
  g_assert_cmpuint (again.again->n_blocks, ==, n);
  g_assert_cmpuint (hooping_of (&again, 0), ==, hooping_of (&again, 1));
  g_assert_cmpuint (hooping_of (&again, 0), !=, hooping_of (&again, 3));
  g_assert_cmpint (hooping_of (&again, 2) == hooping_of (&again, 0), ==, with == 0);
  g_assert_cmpint (hooping_of (&again, 2) == hooping_of (&again, 3), ==, with == 3);
  mended_clear (&again);
}

static void
a_motif_that_still_fits_stays (void)
{
  assert_hoopings (350, 2, 0);
  assert_hoopings (360, 2, 0);
}

/* To the other hooping where it lies within that one's reach, else into one of its own. */
static void
a_motif_moved_away_leaves_its_hooping (void)
{
  assert_hoopings (620, 2, 3);
  assert_hoopings (460, 3, -1);
}

#define ADD(name, test) g_test_add_func ("/again/" name, test)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("a-motif-that-still-fits-stays", a_motif_that_still_fits_stays);
  ADD ("a-motif-moved-away-leaves-its-hooping", a_motif_moved_away_leaves_its_hooping);
  return g_test_run ();
}
