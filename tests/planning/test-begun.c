/* What is in the machine keeps its order through every later plan. By hand, and against the same scene in which its motifs are one motif, which has no order
 * to lose. */
#include "little-scenes.h"
#include "random-scenes.h"

#include "../../src/geometry/region.h"
#include "../../src/planning/turns.h"

/* A hooping of the plan into the machine. */
static void
begin_hooping (HwSnapshot *scene, const HwPlan *plan, guint hooping)
{
  const HwHooping *one = &plan->hoopings[hooping];
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup (hw_snapshot_hoop (scene, one->hoop)->id);
  pin->centre = one->centre;
  pin->angle = one->angle;
  pin->work = hw_work_new ();
  hw_turns_settle (pin, plan->snapshot, one);
  g_ptr_array_add (scene->pins, pin);
}

/* "Pear rust, Plum rust" of the first hooping. */
static char *
order_text (const HwPlan *plan)
{
  g_autoptr (GArray) steps = hw_plan_steps (plan, 0);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);
      const HwMotif *motif = hw_snapshot_motif (plan->snapshot, step->motif);

      g_string_append_printf (text, "%s%s %s", i > 0 ? ", " : "", motif->name,
                              motif->threads[step->block].name);
    }
  return g_string_free (text, FALSE);
}

static void
set_threads (HwSnapshot *scene, guint motif, const char *names)
{
  g_auto (GStrv) words = g_strsplit (names, " ", -1);
  HwThreadBlock blocks[4] = { 0 };
  guint n = g_strv_length (words);

  for (guint k = 0; k < n; k++)
    blocks[k] = (HwThreadBlock){ .name = words[k], .stitches = 100 };
  hw_motif_set_threads (scene->motifs->pdata[motif], blocks, n);
}

/* Pear and Plum side by side in one hoop. */
static HwSnapshot *
two_fruits (const char *pear, const char *plum)
{
  HwSnapshot *scene = hw_snapshot_new ();

  scene_add_hoop (scene, "h", 130, 180, HW_TURN_ANY);
  for (guint i = 0; i < 2; i++)
    {
      scene_add_motif (scene, hw_outline_new_rectangle (40, 40),
                       (HwPlacement){ { 100 + i * 60.0, 200 }, 0, 1, FALSE });
      g_free (((HwMotif *)scene->motifs->pdata[i])->name);
      ((HwMotif *)scene->motifs->pdata[i])->name = g_strdup (i == 0 ? "Pear" : "Plum");
    }
  set_threads (scene, 0, pear);
  set_threads (scene, 1, plum);
  return scene;
}

static void
assert_order (const HwSnapshot *scene, const char *order, guint changes)
{
  g_autoptr (HwPlan) plan = plan_verified (scene);
  g_autofree char *text = order_text (plan);

  g_assert_cmpstr (text, ==, order);
  g_assert_cmpuint (plan->thread_changes, ==, changes);
  g_assert_true (plan->thread_changes_proven);
}

static HwSnapshot *
begun (HwSnapshot *scene)
{
  g_autoptr (HwPlan) plan = plan_verified (scene);

  begin_hooping (scene, plan, 0);
  return scene;
}

/* Pear ends as Plum begins; once Plum is given other threads the other way round would save a change. */
static void
an_edit_does_not_turn_the_order_round (void)
{
  g_autoptr (HwSnapshot) free_again = two_fruits ("moss rust", "rust slate");
  g_autoptr (HwSnapshot) scene = begun (two_fruits ("moss rust", "rust slate"));

  assert_order (scene, "Pear moss, Pear rust, Plum rust, Plum slate", 2);
  set_threads (scene, 1, "slate moss");
  set_threads (free_again, 1, "slate moss");
  assert_order (free_again, "Plum slate, Plum moss, Pear moss, Pear rust", 2);
  assert_order (scene, "Pear moss, Pear rust, Plum slate, Plum moss", 3);
}

static void
turns_are_kept_whatever_is_wished_for (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ("rust moss", "rust moss");

  scene->wishes.interleave = TRUE;
  begun (scene);
  assert_order (scene, "Pear rust, Plum rust, Pear moss, Plum moss", 1);
  scene->wishes.interleave = FALSE;
  assert_order (scene, "Pear rust, Plum rust, Pear moss, Plum moss", 1);
  scene->wishes.interleave = TRUE;
  set_threads (scene, 0, "slate moss"); /* as many as before: the turns hold */
  assert_order (scene, "Pear slate, Plum rust, Pear moss, Plum moss", 2);
  set_threads (scene, 0, "slate moss rust"); /* one more: motif by motif, as they were begun */
  assert_order (scene, "Pear slate, Pear moss, Pear rust, Plum rust, Plum moss", 3);
}

static void
without_turns_none_are_taken_later (void)
{
  g_autoptr (HwSnapshot) scene = begun (two_fruits ("rust moss", "rust moss"));

  scene->wishes.interleave = TRUE;
  assert_order (scene, "Pear rust, Pear moss, Plum rust, Plum moss", 3);
}

/* Out of the machine, with its pin left, the order is the planner's again. */
static void
what_is_laid_aside_is_free_again (void)
{
  g_autoptr (HwSnapshot) scene = begun (two_fruits ("moss rust", "rust slate"));
  HwPin *pin = scene->pins->pdata[0];

  set_threads (scene, 1, "slate moss");
  g_clear_pointer (&pin->work, hw_work_unref);
  assert_order (scene, "Plum slate, Plum moss, Pear moss, Pear rust", 2);
}

static void
stitched_in_turns_counts_as_it_was (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ("rust moss", "rust moss");
  HwPin *pin;

  scene->wishes.interleave = TRUE;
  begun (scene);
  pin = g_ptr_array_steal_index (scene->pins, 0);
  g_ptr_array_add (scene->frozen, pin);
  scene->wishes.interleave = FALSE;
  scene_add_motif (scene, hw_outline_new_rectangle (40, 40), (HwPlacement){ { 600, 200 }, 0, 1, FALSE });
  set_threads (scene, 2, "moss");
  /* Rust, rust, moss, moss, and moss is in the needle for what comes. */
  assert_order (scene, "Pear rust, Plum rust, Pear moss, Plum moss", 1);
}

static const HwProblem *
out_of_order (const HwPlan *plan)
{
  return find_problem (plan, HW_PROBLEM_STITCHED_OUT_OF_ORDER);
}

static void
swap_motifs (HwSnapshot *scene)
{
  gpointer first = scene->motifs->pdata[0];

  scene->motifs->pdata[0] = scene->motifs->pdata[1];
  scene->motifs->pdata[1] = first;
}

/* Plum is laid under Pear and over it, tied before it, while Pear comes first in the machine: kept, and told. */
static void
another_order_is_told_and_not_followed (void)
{
  g_autoptr (HwSnapshot) scene = begun (two_fruits ("moss rust", "rust slate"));
  HwMotif *plum = scene->motifs->pdata[1];
  g_autoptr (HwPlan) tied = NULL, under = NULL, over = NULL;
  g_autofree char *order = NULL;

  plum->before = g_strsplit (((HwMotif *)scene->motifs->pdata[0])->id, " ", -1);
  tied = plan_verified (scene);
  order = order_text (tied);
  g_assert_cmpstr (order, ==, "Pear moss, Pear rust, Plum rust, Plum slate");
  g_assert_nonnull (out_of_order (tied));
  g_assert_cmpint (out_of_order (tied)->motif, ==, 1);
  g_assert_cmpint (out_of_order (tied)->other, ==, 0);
  g_assert_cmpstr (
      out_of_order (tied)->text, ==,
      "Plum is to be stitched before Pear, but the hooping in the machine begins Pear before Plum is "
      "done. Lay it aside and begin it again if its order is to change.");

  g_clear_pointer (&plum->before, g_strfreev);
  plum->placement.position.x = 130; /* over a part of Pear */
  over = plan_verified (scene);
  g_assert_null (out_of_order (over));
  swap_motifs (scene);
  under = plan_verified (scene);
  g_clear_pointer (&order, g_free);
  order = order_text (under);
  g_assert_cmpstr (order, ==, "Pear moss, Pear rust, Plum rust, Plum slate");
  g_assert_cmpint (out_of_order (under)->motif, ==, 0);
  g_assert_cmpfloat_with_epsilon (out_of_order (under)->where.x, 115, 1e-9);
}

/* Plum begins before Pear, which it lies over by now, is done. */
static void
turns_of_motifs_that_overlap_by_now_are_told (void)
{
  g_autoptr (HwSnapshot) scene = two_fruits ("rust moss", "rust moss");
  g_autoptr (HwPlan) plan = NULL;

  scene->wishes.interleave = TRUE;
  begun (scene);
  ((HwMotif *)scene->motifs->pdata[1])->placement.position.x = 130;
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->hoopings[0].n_steps, ==, 4);
  g_assert_cmpint (out_of_order (plan)->motif, ==, 0);
  g_assert_cmpint (out_of_order (plan)->other, ==, 1);
}

/* A stone has to be stitched after Pear and before Plum: the hooping cannot be kept together, and what binds Pear to Plum counts again. */
static void
a_begun_hooping_that_cannot_be_kept_binds_nothing (void)
{
  g_autoptr (HwSnapshot) scene = begun (two_fruits ("moss rust", "rust slate"));
  HwMotif *pear = scene->motifs->pdata[0], *stone;
  g_autoptr (HwPlan) plan = NULL;

  scene_add_motif (scene, hw_outline_new_rectangle (40, 40), (HwPlacement){ { 600, 200 }, 0, 1, FALSE });
  set_threads (scene, 2, "slate");
  stone = scene->motifs->pdata[2];
  pear->before = g_strsplit (stone->id, " ", -1);
  stone->before = g_strsplit (((HwMotif *)scene->motifs->pdata[1])->id, " ", -1);
  plan = plan_verified (scene);
  g_assert_nonnull (find_problem (plan, HW_PROBLEM_PIN));
  g_assert_cmpuint (plan->n_hoopings, ==, 3);
}

/* A plan that lays out what is in the machine otherwise is refused by the second opinion. */
static void
another_order_is_refused (void)
{
  g_autoptr (HwSnapshot) scene = begun (two_fruits ("moss rust", "rust slate"));
  g_autoptr (HwPlan) plan = plan_verified (scene);
  g_autoptr (GError) error = NULL;
  guint first = plan->hoopings[0].motifs[0];

  plan->hoopings[0].motifs[0] = plan->hoopings[0].motifs[1];
  plan->hoopings[0].motifs[1] = first;
  hw_plan_count (plan);
  g_assert_false (hw_plan_verify (plan, &error));
  g_assert_cmpstr (error->message, ==, "Hooping 1 is not where its pin says.");
}

/* --- Against one motif in place of those in the machine */

/* The scene with the pin's motifs as one, in the place of the first of them, stitched in the settled order. NULL when another motif would have to
 * lie between them. */
static HwSnapshot *
as_one_motif (const HwSnapshot *scene, const HwPlan *plan, guint hooping)
{
  HwSnapshot *merged = hw_snapshot_copy (scene);
  const HwHooping *one = &plan->hoopings[hooping];
  g_autoptr (GPtrArray) placed = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  g_autoptr (GArray) steps = hw_plan_steps (plan, hooping);
  g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (HwThreadBlock));
  HwMotif *whole = hw_motif_new ();
  HwPin *pin = hw_pin_copy (merged->pins->pdata[0]);
  guint first = G_MAXUINT;

  for (guint k = 0; k < one->n_motifs; k++)
    {
      const HwMotif *motif = hw_snapshot_motif (scene, one->motifs[k]);

      g_ptr_array_add (placed, hw_outline_place (motif->outline, &motif->placement));
      first = MIN (first, one->motifs[k]);
    }
  for (guint i = 0; i < steps->len; i++)
    {
      const HwBlockStep *step = &g_array_index (steps, HwBlockStep, i);

      g_array_append_val (blocks, hw_snapshot_motif (scene, step->motif)->threads[step->block]);
    }
  whole->id = g_strdup ("whole");
  whole->name = g_strdup ("Whole");
  whole->outline = hw_outline_join ((const HwOutline *const *)(const void *)placed->pdata, placed->len);
  whole->placement = (HwPlacement){ { 0, 0 }, 0, 1, FALSE };
  hw_motif_set_threads (whole, (const HwThreadBlock *)(const void *)blocks->data, blocks->len);
  hw_motif_unref (merged->motifs->pdata[first]);
  merged->motifs->pdata[first] = whole;
  for (guint i = scene->motifs->len; i-- > 0;)
    for (guint k = 0; k < one->n_motifs; k++)
      if (one->motifs[k] == i && i != first)
        g_ptr_array_remove_index (merged->motifs, i);
  g_strfreev (pin->motifs);
  pin->motifs = g_strsplit ("whole", " ", -1);
  hw_pin_set_turns (pin, NULL, 0);
  hw_pin_unref (merged->pins->pdata[0]);
  merged->pins->pdata[0] = pin;
  return merged;
}

/* Whether a motif of another hooping lies between two of this one, so that one motif in their place would turn it round. */
static gboolean
has_one_between (const HwSnapshot *scene, const HwPlan *plan, guint hooping)
{
  const HwHooping *one = &plan->hoopings[hooping];
  guint first = G_MAXUINT, last = 0;

  for (guint k = 0; k < one->n_motifs; k++)
    {
      first = MIN (first, one->motifs[k]);
      last = MAX (last, one->motifs[k]);
    }
  for (guint i = first + 1; i < last; i++)
    {
      const HwMotif *other = hw_snapshot_motif (scene, i);
      g_autoptr (HwOutline) lies = hw_outline_place (other->outline, &other->placement);

      for (guint k = 0; k < one->n_motifs; k++)
        {
          const HwMotif *motif = hw_snapshot_motif (scene, one->motifs[k]);
          g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);

          if (hw_plan_hooping_of (plan, i) != (int)hooping && hw_outline_overlap_area (lies, placed) > 0)
            return TRUE;
        }
    }
  return FALSE;
}

/* The hooping with most motifs. */
static guint
fullest (const HwPlan *plan)
{
  guint full = 0;

  for (guint h = 1; h < plan->n_hoopings; h++)
    if (plan->hoopings[h].n_motifs > plan->hoopings[full].n_motifs)
      full = h;
  return full;
}

/* Gives threads anew to what is not in the machine. */
static void
rethread_others (HwSnapshot *scene, GRand *rand)
{
  g_autoptr (HwSnapshot) other = scene_random (rand, SCENE_WALL, scene->motifs->len, 1);
  const char *const *held = (const char *const *)((HwPin *)scene->pins->pdata[0])->motifs;

  for (guint i = 0; i < scene->motifs->len; i++)
    {
      HwMotif *motif = hw_motif_copy (hw_snapshot_motif (scene, i));
      const HwMotif *from = hw_snapshot_motif (other, i);

      if (!g_strv_contains (held, motif->id))
        hw_motif_set_threads (motif, from->threads, from->n_threads);
      hw_motif_unref (scene->motifs->pdata[i]);
      scene->motifs->pdata[i] = motif;
    }
}

static void
plans_are_those_of_one_motif_in_its_place (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint compared = 0, in_turns = 0;

  for (guint round = 0; round < 120; round++)
    {
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, round % SCENE_KINDS, (guint)g_rand_int_range (rand, 3, 8), 1.6);
      g_autoptr (HwSnapshot) merged = NULL;
      g_autoptr (HwPlan) plan = NULL, later = NULL, whole = NULL;
      guint hooping;

      scene->wishes.interleave = round % 2;
      plan = plan_verified (scene);
      hooping = plan->n_hoopings > 0 ? fullest (plan) : 0;
      if (plan->n_hoopings == 0 || plan->hoopings[hooping].n_motifs < 2
          || has_one_between (scene, plan, hooping))
        continue;
      in_turns += plan->hoopings[hooping].steps != NULL;
      begin_hooping (scene, plan, hooping);
      rethread_others (scene, rand);
      scene->wishes.interleave = g_rand_boolean (rand);
      merged = as_one_motif (scene, plan, hooping);
      later = plan_verified (scene); /* its order is looked at by the second opinion */
      whole = plan_verified (merged);
      if (whole->status != HW_PLAN_OPTIMAL)
        continue;
      compared++;
      g_assert_cmpint (later->status, ==, HW_PLAN_OPTIMAL);
      g_assert_cmpuint (later->n_hoopings, ==, whole->n_hoopings);
      g_assert_true (later->thread_changes_proven && whole->thread_changes_proven);
      g_assert_cmpuint (later->thread_changes, ==, whole->thread_changes);
    }
  g_assert_cmpuint (compared, >, 20);
  g_assert_cmpuint (in_turns, >, 5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/begun/" name, function)
  ADD ("an-edit-does-not-turn-it-round", an_edit_does_not_turn_the_order_round);
  ADD ("turns-are-kept", turns_are_kept_whatever_is_wished_for);
  ADD ("no-turns-later", without_turns_none_are_taken_later);
  ADD ("laid-aside", what_is_laid_aside_is_free_again);
  ADD ("stitched-in-turns", stitched_in_turns_counts_as_it_was);
  ADD ("another-order-is-told", another_order_is_told_and_not_followed);
  ADD ("overlapping-turns-are-told", turns_of_motifs_that_overlap_by_now_are_told);
  ADD ("cannot-be-kept", a_begun_hooping_that_cannot_be_kept_binds_nothing);
  ADD ("another-order-is-refused", another_order_is_refused);
  ADD ("as-one-motif", plans_are_those_of_one_motif_in_its_place);
  return g_test_run ();
}
