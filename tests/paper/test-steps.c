/* The order of a hooping's steps. Source of every order asserted here: common practice, no source. */
#include <glib.h>
#include <string.h>

#include "../../src/paper/steps.h"
#include "garden.h"

static GPtrArray *
steps_of_first_hooping (HwHold hold)
{
  g_autoptr (HwPlan) plan = garden_plan ();

  plan->snapshot->fabric.hold = hold;
  return hw_steps_new (plan, 0, NULL);
}

/* Index of the first, or last, step of a kind. */
static int
find (GPtrArray *steps, HwStepKind kind, gboolean last)
{
  int found = -1;

  for (guint i = 0; i < steps->len; i++)
    if (((HwStep *)g_ptr_array_index (steps, i))->kind == kind && (last || found < 0))
      found = (int)i;

  g_assert_cmpint (found, >=, 0);
  return found;
}

static void
test_marks_before_the_cloth_is_laid (void)
{
  g_autoptr (GPtrArray) steps = steps_of_first_hooping (HW_HOLD_FLOATED);

  g_assert_cmpint (find (steps, HW_STEP_DRAW_MARKS, TRUE), <, find (steps, HW_STEP_HOOP, FALSE));
  g_assert_cmpint (find (steps, HW_STEP_HOOP, TRUE), <, find (steps, HW_STEP_LAY_CLOTH, FALSE));
  g_assert_cmpint (find (steps, HW_STEP_LAY_CLOTH, TRUE), <, find (steps, HW_STEP_PRESS, FALSE));
}

static void
test_needle_is_brought_to_the_marks_with_the_template_on (void)
{
  g_autoptr (GPtrArray) steps = steps_of_first_hooping (HW_HOLD_FLOATED);
  int on = find (steps, HW_STEP_TEMPLATE_ON, FALSE), off = find (steps, HW_STEP_TEMPLATE_OFF, FALSE);
  const HwStepKind between[]
      = { HW_STEP_NEEDLE_CENTRE, HW_STEP_NEEDLE_MARKS, HW_STEP_CORRECT, HW_STEP_MOTIF_CROSS };

  for (guint i = 0; i < G_N_ELEMENTS (between); i++)
    {
      g_assert_cmpint (on, <, find (steps, between[i], FALSE));
      g_assert_cmpint (find (steps, between[i], TRUE), <, off);
    }
  g_assert_cmpint (find (steps, HW_STEP_NEEDLE_MARKS, TRUE), <, find (steps, HW_STEP_CORRECT, FALSE));
}

static void
test_template_is_off_before_the_first_stitch (void)
{
  g_autoptr (GPtrArray) steps = steps_of_first_hooping (HW_HOLD_FLOATED);
  int off = find (steps, HW_STEP_TEMPLATE_OFF, TRUE);

  g_assert_cmpint (off, <, find (steps, HW_STEP_THREAD, FALSE));
  g_assert_cmpint (off, <, find (steps, HW_STEP_STITCH, FALSE));
  g_assert_true (((HwStep *)g_ptr_array_index (steps, off))->strong);
}

static void
test_background_is_stitched_before_foreground (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (GPtrArray) steps = hw_steps_new (plan, 0, NULL);
  int before = -1;
  guint n = 0;

  for (guint i = 0; i < steps->len; i++)
    {
      const HwStep *step = g_ptr_array_index (steps, i);

      if (step->kind != HW_STEP_STITCH || step->motif < 0)
        continue;
      g_assert_cmpint (step->motif, ==, (int)plan->hoopings[0].motifs[n]);
      g_assert_cmpint (step->motif, >, before);
      before = step->motif;
      n++;
    }
  g_assert_cmpuint (n, ==, plan->hoopings[0].n_motifs);
}

/* Motifs that take turns cannot be ticked one after the other. */
static void
test_motifs_that_take_turns_follow_the_list_of_threads (void)
{
  g_autoptr (HwPlan) plan = garden_plan_in_turns ();
  g_autoptr (GPtrArray) mixed = hw_steps_new (plan, 0, NULL), plain = hw_steps_new (plan, 1, NULL);
  const HwStep *stitch = g_ptr_array_index (mixed, find (mixed, HW_STEP_STITCH, FALSE));

  g_assert_true (hw_steps_take_turns (plan, 0));
  g_assert_cmpstr (stitch->text, ==, "Stitch the threads as listed; motifs take turns.");
  g_assert_cmpint (find (mixed, HW_STEP_STITCH, TRUE), ==, find (mixed, HW_STEP_STITCH, FALSE));
  g_assert_false (hw_steps_take_turns (plan, 1));
  stitch = g_ptr_array_index (plain, find (plain, HW_STEP_STITCH, TRUE));
  g_assert_cmpint (stitch->motif, ==, 3);
}

static void
test_taken_out_last (void)
{
  g_autoptr (GPtrArray) steps = steps_of_first_hooping (HW_HOLD_CLAMPED);

  g_assert_cmpint (find (steps, HW_STEP_STITCH, TRUE), <, find (steps, HW_STEP_LOOK_OVER, FALSE));
  g_assert_cmpint (find (steps, HW_STEP_LOOK_OVER, TRUE), <, find (steps, HW_STEP_TAKE_OUT, FALSE));
}

static gboolean
any_says (GPtrArray *steps, const char *word)
{
  for (guint i = 0; i < steps->len; i++)
    if (strstr (((HwStep *)g_ptr_array_index (steps, i))->text, word) != NULL)
      return TRUE;

  return FALSE;
}

static void
test_clamped_cloth_meets_no_adhesive (void)
{
  g_autoptr (GPtrArray) floated = steps_of_first_hooping (HW_HOLD_FLOATED);
  g_autoptr (GPtrArray) clamped = steps_of_first_hooping (HW_HOLD_CLAMPED);

  g_assert_true (any_says (floated, "adhesive"));
  g_assert_false (any_says (clamped, "adhesive"));
  g_assert_true (any_says (clamped, "inner ring"));
}

static void
test_marks_are_named (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (GPtrArray) first = hw_steps_new (plan, 0, NULL), second = hw_steps_new (plan, 1, NULL);

  g_assert_true (any_says (first, "marks A and B"));
  g_assert_true (any_says (second, "marks B, C and D"));
}

/* A full bobbin goes in before the first stitch, and only where the one in the machine runs out. */
static void
test_a_bobbin_that_runs_out_is_changed_first (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (HwSupplies) plenty = NULL, scant = NULL, scarce = NULL;

  plenty = hw_supplies_new (plan, 0);
  g_autoptr (GPtrArray) steps = hw_steps_new (plan, 1, plenty);
  g_assert_false (any_says (steps, "bobbin"));

  plan->snapshot->supplies.bobbin_metres
      = plenty->hoopings[0].bobbin_metres + 0.5 * plenty->hoopings[1].bobbin_metres;
  scant = hw_supplies_new (plan, 0);
  g_autoptr (GPtrArray) changed = hw_steps_new (plan, 1, scant);
  g_assert_true (any_says (changed, "Put a full bobbin in."));
  g_assert_cmpint (find (changed, HW_STEP_BOBBIN, TRUE), <, find (changed, HW_STEP_THREAD, FALSE));
  g_assert_cmpint (find (changed, HW_STEP_TEMPLATE_OFF, TRUE), <, find (changed, HW_STEP_BOBBIN, FALSE));

  plan->snapshot->supplies.bobbin_metres = 0.6 * plenty->hoopings[0].bobbin_metres;
  scarce = hw_supplies_new (plan, 0);
  g_autoptr (GPtrArray) within = hw_steps_new (plan, 0, scarce);
  g_assert_true (any_says (within, "nother full one"));
}

static void
test_cautions_name_each_danger (void)
{
  const char *dangers[] = { "manual", "local rules", "qualified", "needle", "moving hoop",
                            "off",    "adhesive",    "blades",    "iron" };
  g_autofree const char **cautions = hw_cautions_new ();
  g_autofree char *all = g_strjoinv (" ", (char **)cautions);

  for (guint i = 0; i < G_N_ELEMENTS (dangers); i++)
    g_assert_nonnull (strstr (all, dangers[i]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/steps/marks-before-the-cloth-is-laid", test_marks_before_the_cloth_is_laid);
  g_test_add_func ("/steps/needle-at-the-marks-with-the-template-on",
                   test_needle_is_brought_to_the_marks_with_the_template_on);
  g_test_add_func ("/steps/template-off-before-the-first-stitch",
                   test_template_is_off_before_the_first_stitch);
  g_test_add_func ("/steps/background-before-foreground", test_background_is_stitched_before_foreground);
  g_test_add_func ("/steps/motifs-that-take-turns-follow-the-list-of-threads",
                   test_motifs_that_take_turns_follow_the_list_of_threads);
  g_test_add_func ("/steps/taken-out-last", test_taken_out_last);
  g_test_add_func ("/steps/clamped-cloth-meets-no-adhesive", test_clamped_cloth_meets_no_adhesive);
  g_test_add_func ("/steps/marks-are-named", test_marks_are_named);
  g_test_add_func ("/steps/a-bobbin-that-runs-out-is-changed-first",
                   test_a_bobbin_that_runs_out_is_changed_first);
  g_test_add_func ("/steps/cautions-name-each-danger", test_cautions_name_each_danger);

  return g_test_run ();
}
