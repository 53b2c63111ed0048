/* What a person decides: motifs kept apart, hoops set aside, pins that hold only the motifs, least time, mixed blocks; each counted once more
 * by going through every state there is, in the plainest way, and contradictions answered by name. */
#include "little-scenes.h"
#include "random-scenes.h"

#include "../../src/geometry/region.h"
#include "../../src/planning/sharing.h"

#define MOST 5
#define MOST_BLOCKS 3
#define NEVER 100000000u

/* Everything that matters for the count. */
typedef struct
{
  const HwSnapshot *scene;
  guint n;
  guint before[MOST]; /* mask */
  gboolean fits[1 << MOST];
  guint group[MOST]; /* of a pin; 0 for free motifs */
  guint thread[MOST][MOST_BLOCKS];
  guint hooping, change; /* what they cost */
  gboolean mixed;
  GHashTable *known; /* state -> cost + 1 */
} Plainly;

static gboolean
fits_along (const HwSnapshot *scene, guint set, gboolean grain)
{
  guint members[MOST], n = 0;
  g_autoptr (GArray) hull = NULL;

  for (guint i = 0; i < scene->motifs->len; i++)
    if (set >> i & 1)
      members[n++] = i;
  hull = hw_sharing_hull (scene, members, n);
  for (guint h = 0; h < scene->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (scene, h);
      HwPose pose;

      if (hoop->set_aside)
        continue;
      if (!grain && hw_sharing_fits ((const HwPoint *)hull->data, hull->len, hoop, &scene->fabric))
        return TRUE;
      for (guint turn = 0; turn < 2 && grain; turn++)
        if (hw_sharing_pose_at ((const HwPoint *)hull->data, hull->len, hoop, &scene->fabric, 90.0 * turn,
                                &pose))
          return TRUE;
    }
  return FALSE;
}

static guint
mask_of (const HwSnapshot *scene, char **ids)
{
  guint mask = 0;

  for (guint k = 0; ids[k] != NULL; k++)
    mask |= 1u << hw_snapshot_find_motif (scene, ids[k]);
  return mask;
}

static void
look_plainly (Plainly *plainly, const HwSnapshot *scene)
{
  HwOutline *placed[MOST];

  memset (plainly, 0, sizeof *plainly);
  plainly->scene = scene;
  plainly->n = scene->motifs->len;
  plainly->hooping = 1000;
  plainly->change = 1;
  plainly->mixed = scene->wishes.interleave;
  if (scene->wishes.best == HW_BEST_LEAST_TIME)
    {
      plainly->hooping = (guint)(scene->machine.minutes_per_hooping * 1000 + 0.5);
      plainly->change = (guint)(scene->machine.minutes_per_change * 1000 + 0.5);
    }
  for (guint j = 0; j < plainly->n; j++)
    {
      const HwMotif *motif = hw_snapshot_motif (scene, j);

      placed[j] = hw_outline_place (motif->outline, &motif->placement);
      for (guint i = 0; i < j; i++)
        if (hw_outline_overlap_area (placed[i], placed[j]) > 0.01)
          plainly->before[j] |= 1u << i;
      for (guint t = 0; t < motif->n_threads;
           t++) /* the first block of all with the same thread stands for it */
        for (guint k = 0; k <= j && plainly->thread[j][t] == 0; k++)
          for (guint u = 0; u < hw_snapshot_motif (scene, k)->n_threads && plainly->thread[j][t] == 0; u++)
            if (hw_thread_same (&hw_snapshot_motif (scene, k)->threads[u], &motif->threads[t]))
              plainly->thread[j][t] = 1 + k * MOST_BLOCKS + u;
    }
  for (guint i = 0; i < plainly->n; i++)
    {
      char **before = hw_snapshot_motif (scene, i)->before;

      for (guint k = 0; before != NULL && before[k] != NULL; k++)
        plainly->before[hw_snapshot_find_motif (scene, before[k])] |= 1u << i;
      hw_outline_unref (placed[i]);
    }
  for (guint set = 1; set < 1u << plainly->n; set++)
    {
      plainly->fits[set] = fits_along (scene, set, FALSE);
      for (guint k = 0; k < scene->apart->len; k++)
        {
          const HwApart *pair = g_ptr_array_index (scene->apart, k);

          if ((set >> hw_snapshot_find_motif (scene, pair->first) & 1)
              && (set >> hw_snapshot_find_motif (scene, pair->second) & 1))
            plainly->fits[set] = FALSE;
        }
      for (guint p = 0; p < scene->pins->len; p++)
        {
          const HwPin *pin = g_ptr_array_index (scene->pins, p);
          guint group = mask_of (scene, pin->motifs);

          if (set == group)
            plainly->fits[set] &= pin->keep != HW_KEEP_GRAIN || fits_along (scene, set, TRUE);
          else if (set & group) /* a part of it may be on the way to the whole */
            plainly->fits[set] &= (set & ~group) == 0;
          for (guint i = 0; i < plainly->n; i++)
            if (group >> i & 1)
              plainly->group[i] = group;
        }
    }
}

/* The least that is still to come: blocks done of each motif, motifs of the hooping at hand, thread in the needle. */
static guint
least_from (Plainly *plainly, const guint *done, guint here, guint needle)
{
  guint key = here + 1, least = NEVER, finished = 0, begun = 0, group = 0;
  gpointer known;

  for (guint i = 0; i < plainly->n; i++)
    {
      key = key * (MOST_BLOCKS + 1) + done[i];
      begun |= done[i] > 0 ? 1u << i : 0;
      finished |= done[i] == hw_snapshot_motif (plainly->scene, i)->n_threads ? 1u << i : 0;
      group |= here >> i & 1 ? plainly->group[i] : 0;
    }
  key = key * (1 + MOST * MOST_BLOCKS) + needle;
  if (finished == (1u << plainly->n) - 1)
    return (group & ~here) == 0 && plainly->fits[here] ? 0 : NEVER;
  known = g_hash_table_lookup (plainly->known, GUINT_TO_POINTER (key));
  if (known != NULL)
    return GPOINTER_TO_UINT (known) - 1;
  for (guint i = 0; i < plainly->n; i++)
    for (guint opens = 0; opens < 2; opens++)
      {
        guint next[MOST], cost, bit = 1u << i, now;

        if ((finished & bit) || (plainly->before[i] & ~finished))
          continue;
        if (!plainly->mixed && (begun & ~finished) && !(begun & bit))
          continue;
        if ((begun & bit) ? opens : !opens && (here == 0 || !plainly->fits[here | bit]))
          continue;
        if (opens && here != 0 && ((begun & ~finished) || (group & ~here) || !plainly->fits[here]))
          continue;
        if (opens && !plainly->fits[bit])
          continue;
        memcpy (next, done, sizeof next);
        now = plainly->thread[i][next[i]++];
        cost = (opens ? plainly->hooping : 0) + (needle != 0 && needle != now ? plainly->change : 0);
        cost += least_from (plainly, next, opens ? bit : here | bit, now);
        least = MIN (least, cost);
      }
  g_hash_table_insert (plainly->known, GUINT_TO_POINTER (key), GUINT_TO_POINTER (least + 1));
  return least;
}

static guint
least_plainly (const HwSnapshot *scene)
{
  Plainly plainly;
  guint done[MOST] = { 0 }, least;

  look_plainly (&plainly, scene);
  plainly.known = g_hash_table_new (NULL, NULL);
  least = least_from (&plainly, done, 0, 0);
  g_hash_table_unref (plainly.known);
  return least;
}

static void
add_pin (HwSnapshot *scene, HwKeep keep, const char *motifs)
{
  HwPin *pin = hw_pin_new ();

  pin->keep = keep;
  pin->motifs = g_strsplit (motifs, " ", -1);
  g_ptr_array_add (scene->pins, pin);
}

static void
wish_at_random (HwSnapshot *scene, GRand *rand)
{
  guint n = scene->motifs->len;

  for (guint k = 0; k < 2; k++)
    {
      guint a = g_rand_int_range (rand, 0, n), b = g_rand_int_range (rand, 0, n);

      if (a != b && g_rand_boolean (rand))
        g_ptr_array_add (scene->apart,
                         hw_apart_new (hw_snapshot_motif (scene, a)->id, hw_snapshot_motif (scene, b)->id));
    }
  if (scene->hoops->len > 1 && g_rand_int_range (rand, 0, 3) == 0)
    ((HwHoop *)scene->hoops->pdata[g_rand_int_range (rand, 0, scene->hoops->len)])->set_aside = TRUE;
  if (n > 1 && g_rand_int_range (rand, 0, 3) == 0)
    {
      guint a = g_rand_int_range (rand, 1, n);
      g_autofree char *motifs = g_strdup_printf ("m%u m%u", a, a + 1);

      add_pin (scene, g_rand_boolean (rand) ? HW_KEEP_MOTIFS : HW_KEEP_GRAIN, motifs);
    }
}

static gboolean
is_answered (const HwPlan *plan)
{
  for (guint i = 0; i < plan->problems->len; i++)
    {
      HwProblemKind kind = ((HwProblem *)g_ptr_array_index (plan->problems, i))->kind;

      if (kind == HW_PROBLEM_PIN || kind == HW_PROBLEM_ORDER_LOOP)
        return TRUE;
    }
  return FALSE;
}

/* Plans random scenes with random wishes and compares what they cost. Returns how many could be compared. */
static guint
compare_with_every_state (HwBest best, gboolean mixed, guint rounds)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint compared = 0;

  for (guint round = 0; round < rounds; round++)
    {
      guint n = g_rand_int_range (rand, 1, MOST + 1), least;
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, round % SCENE_KINDS, n, scene_between (rand, 0.8, 2.5));
      g_autoptr (HwPlan) plan = NULL;

      wish_at_random (scene, rand);
      scene->wishes.best = best;
      scene->wishes.interleave = mixed;
      scene->machine.minutes_per_hooping = g_rand_int_range (rand, 0, 10);
      scene->machine.minutes_per_change = g_rand_int_range (rand, 1, 8) / 2.0;
      least = least_plainly (scene);
      plan = plan_verified (scene);
      if (plan->status == HW_PLAN_UNPLANNABLE)
        {
          g_assert_cmpuint (least, >=, NEVER);
          continue;
        }
      if (is_answered (plan))
        {
          g_assert_cmpuint (least, >=, NEVER); /* nothing is left out that could be kept */
          continue;
        }
      compared++;
      if (best == HW_BEST_LEAST_TIME)
        {
          double minutes = plan->n_hoopings * scene->machine.minutes_per_hooping
                           + plan->thread_changes * scene->machine.minutes_per_change;

          g_assert_true (plan->least_time_proven);
          g_assert_cmpfloat_with_epsilon (minutes, least / 1000.0, 1e-6);
          continue;
        }
      g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
      g_assert_cmpuint (plan->n_hoopings, ==, least / 1000);
      g_assert_cmpuint (plan->thread_changes, ==, least % 1000);
      g_assert_true (plan->thread_changes_proven);
    }
  return compared;
}

static void
wishes_agree_with_every_state_there_is (void)
{
  g_assert_cmpuint (compare_with_every_state (HW_BEST_FEWEST, FALSE, 800), >, 200);
}

static void
mixed_blocks_agree_with_every_state_there_is (void)
{
  g_assert_cmpuint (compare_with_every_state (HW_BEST_FEWEST, TRUE, 400), >, 100);
}

static void
least_time_agrees_with_every_state_there_is (void)
{
  g_assert_cmpuint (compare_with_every_state (HW_BEST_LEAST_TIME, FALSE, 400), >, 100);
  g_assert_cmpuint (compare_with_every_state (HW_BEST_LEAST_TIME, TRUE, 400), >, 100);
}

/* Larger scenes: a proven least time is never more than that of the fewest hoopings, mixed blocks never change thread more often, and bounds are bounds. */
static void
no_wish_makes_a_plan_worse (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  const HwPlanOptions options = { .seconds = 0.1, .unit = HW_UNIT_MM };

  for (guint round = 0; round < 20; round++)
    {
      g_autoptr (HwSnapshot) scene = scene_random (rand, round % SCENE_KINDS, 30, 1.3);
      g_autoptr (HwSnapshot) quick = hw_snapshot_copy (scene);
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      g_autoptr (HwPlanner) other = hw_planner_new ();
      g_autoptr (HwPlan) fewest = NULL;
      g_autoptr (HwPlan) least = NULL;
      g_autoptr (GError) error = NULL;

      quick->wishes.best = HW_BEST_LEAST_TIME;
      quick->wishes.interleave = round % 2;
      scene->machine.minutes_per_hooping = quick->machine.minutes_per_hooping = round % 3 == 0 ? 2 : 8;
      fewest = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
      least = hw_planner_plan (other, quick, &options, NULL, NULL, NULL);
      hw_plan_verify (least, &error);
      g_assert_no_error (error);
      /* Two searches stopped by the clock may end anywhere; what is proven may not. */
      if (least->least_time_proven)
        g_assert_cmpfloat (least->minutes, <=, fewest->minutes + 1e-6);
      g_assert_cmpfloat (least->minutes_bound, <=, least->minutes + 1e-6);
      g_assert_cmpuint (least->n_hoopings, >=, least->lower_bound);
    }
}

/* Two motifs far apart in rust and moss each: mixed, the thread is changed once. */
static void
mixing_saves_a_change_and_says_so (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwPlan) apart = NULL;
  g_autoptr (HwPlan) mixed = NULL;
  g_autofree char *saving = NULL;
  HwThreadBlock blocks[2]
      = { { .name = (char *)"rust", .stitches = 10 }, { .name = (char *)"moss", .stitches = 20 } };

  scene_add_hoop (scene, "h", 130, 180, HW_TURN_ANY);
  for (guint i = 0; i < 2; i++)
    {
      scene_add_motif (scene, hw_outline_new_rectangle (40, 40),
                       (HwPlacement){ { 100 + i * 60.0, 200 }, 0, 1, FALSE });
      hw_motif_set_threads (scene->motifs->pdata[i], blocks, 2);
    }
  apart = plan_verified (scene);
  g_assert_cmpuint (apart->thread_changes, ==, 3);
  g_assert_null (hw_plan_saving_sentence (apart));
  g_assert_null (apart->hoopings[0].steps);
  scene->wishes.interleave = TRUE;
  mixed = plan_verified (scene);
  g_assert_cmpuint (mixed->thread_changes, ==, 1);
  g_assert_cmpuint (mixed->hoopings[0].n_steps, ==, 4);
  saving = hw_plan_saving_sentence (mixed);
  g_assert_cmpstr (saving, ==, "1 thread change; stitched one by one it would be 3");
}

/* Rust, moss, rust one over the other: two hoopings are set so that four changes are saved. */
static void
least_time_opens_a_further_hooping_where_it_pays (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwPlan) fewest = NULL;
  g_autoptr (HwPlan) least = NULL;
  g_autofree char *sentence = NULL;
  static const char *const threads[] = { "rust", "moss", "rust", "moss" };

  scene_add_hoop (scene, "h", 130, 130, HW_TURN_QUARTER);
  for (guint i = 0; i < 4; i++) /* two pairs that each share, of different threads */
    {
      HwThreadBlock block = { .name = (char *)threads[i], .stitches = 10 };

      scene_add_motif (scene, hw_outline_new_rectangle (40, 40),
                       (HwPlacement){ { 100 + (i / 2) * 200.0 + (i % 2) * 60, 200 }, 0, 1, FALSE });
      hw_motif_set_threads (scene->motifs->pdata[i], &block, 1);
    }
  scene->machine.minutes_per_hooping = 1;
  scene->machine.minutes_per_change = 5;
  fewest = plan_verified (scene);
  g_assert_cmpuint (fewest->n_hoopings, ==, 2);
  g_assert_cmpuint (fewest->thread_changes, ==, 2);
  scene->wishes.best = HW_BEST_LEAST_TIME;
  least = plan_verified (scene);
  g_assert_cmpuint (least->n_hoopings, ==, 3);
  g_assert_cmpuint (least->thread_changes, ==, 1);
  g_assert_cmpuint (least->lower_bound, ==, 2);
  g_assert_cmpint (least->status, ==, HW_PLAN_FEASIBLE);
  sentence = hw_plan_sentence (least);
  g_assert_nonnull (strstr (sentence, "3 hoopings · 1 thread change · "));
  g_assert_nonnull (strstr (sentence, ", proven least time"));
}

static HwSnapshot *
four_in_a_row (double step)
{
  HwSnapshot *scene = hw_snapshot_new ();
  static const char *const names[] = { "Gate", "Fig branch", "Quince", "Rose" };

  scene_add_hoop (scene, "small", 100, 100, HW_TURN_QUARTER);
  scene_add_hoop (scene, "large", 130, 180, HW_TURN_ANY);
  for (guint i = 0; i < 4; i++)
    {
      scene_add_motif (scene, hw_outline_new_rectangle (40, 40),
                       (HwPlacement){ { 200 + i * step, 200 }, 0, 1, FALSE });
      g_free (((HwMotif *)scene->motifs->pdata[i])->name);
      ((HwMotif *)scene->motifs->pdata[i])->name = g_strdup (names[i]);
    }
  return scene;
}

static const char *
find_text (const HwPlan *plan, HwProblemKind kind)
{
  for (guint i = 0; i < plan->problems->len; i++)
    if (((HwProblem *)g_ptr_array_index (plan->problems, i))->kind == kind)
      return ((HwProblem *)g_ptr_array_index (plan->problems, i))->text;
  return NULL;
}

static void
pinned_together_and_kept_apart_is_answered_by_name (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (50);
  g_autoptr (HwPlan) plan = NULL;

  add_pin (scene, HW_KEEP_MOTIFS, "m1 m2 m3");
  g_ptr_array_add (scene->apart, hw_apart_new ("m3", "m1"));
  plan = plan_verified (scene);
  g_assert_cmpstr (
      find_text (plan, HW_PROBLEM_PIN), ==,
      "Gate and Quince are pinned to one hooping and also kept apart: the pinned hooping with Gate, "
      "Fig branch and 1 other cannot be kept.");
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), !=, hw_plan_hooping_of (plan, 2));
}

/* Two pins and two ties that go round, and a third tie that has no part in it. */
static void
smallest_set_that_contradicts_is_named (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (50);
  g_autoptr (HwPlan) plan = NULL;
  const char *text;

  add_pin (scene, HW_KEEP_MOTIFS, "m1 m3");
  ((HwMotif *)scene->motifs->pdata[0])->before = g_strsplit ("m2 m4", " ", -1);
  ((HwMotif *)scene->motifs->pdata[1])->before = g_strsplit ("m3", " ", -1);
  plan = plan_verified (scene);
  text = find_text (plan, HW_PROBLEM_PIN);
  g_assert_cmpstr (text, ==,
                   "The pinned hooping with Gate and Quince cannot be stitched at one time, because the "
                   "pinned hooping with "
                   "Gate and Quince, the tie of Fig branch before Quince and the tie of Gate before Fig "
                   "branch contradict one "
                   "another: the order goes Gate before Fig branch, Fig branch before Quince.");
  g_assert_null (strstr (text, "Rose"));
  g_assert_null (find_text (plan, HW_PROBLEM_ORDER_LOOP));
}

/* One tie is in both loops: leaving it out is enough. */
static void
fewest_wishes_are_left_out (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (100);
  g_autoptr (HwPlan) plan = NULL;
  guint loops = 0;

  ((HwMotif *)scene->motifs->pdata[0])->before = g_strsplit ("m2", " ", -1);
  ((HwMotif *)scene->motifs->pdata[1])->before = g_strsplit ("m3 m4", " ", -1);
  ((HwMotif *)scene->motifs->pdata[2])->before = g_strsplit ("m1", " ", -1);
  ((HwMotif *)scene->motifs->pdata[3])->before = g_strsplit ("m1", " ", -1);
  plan = plan_verified (scene);
  for (guint i = 0; i < plan->problems->len; i++)
    loops += ((HwProblem *)g_ptr_array_index (plan->problems, i))->kind == HW_PROBLEM_ORDER_LOOP;
  g_assert_cmpuint (loops, ==, 1);
  g_assert_nonnull (strstr (find_text (plan, HW_PROBLEM_ORDER_LOOP), "Gate is tied before Fig branch"));
}

static void
pin_keeps_a_hoop_that_is_set_aside (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (60);
  g_autoptr (HwPlan) plan = NULL;
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup ("large");
  pin->centre = (HwPoint){ 230, 200 };
  pin->angle = 90;
  pin->motifs = g_strsplit ("m1 m2", " ", -1);
  g_ptr_array_add (scene->pins, pin);
  ((HwHoop *)scene->hoops->pdata[1])->set_aside = TRUE;
  plan = plan_verified (scene);
  g_assert_null (find_text (plan, HW_PROBLEM_PIN));
  g_assert_cmpuint (plan->hoopings[hw_plan_hooping_of (plan, 0)].hoop, ==, 1);
  g_assert_cmpuint (plan->hoopings[hw_plan_hooping_of (plan, 3)].hoop, ==, 0);
}

static void
oversize_names_the_hoop_set_aside_that_would_do (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (60);
  g_autoptr (HwPlan) plan = NULL;

  scene_add_motif (scene, hw_outline_new_rectangle (120, 120), (HwPlacement){ { 300, 400 }, 0, 1, FALSE });
  ((HwHoop *)scene->hoops->pdata[1])->set_aside = TRUE;
  plan = plan_verified (scene);
  g_assert_cmpint (plan->status, ==, HW_PLAN_UNPLANNABLE);
  g_assert_nonnull (strstr (find_text (plan, HW_PROBLEM_OVERSIZE), "which is set aside, would take it."));
  g_assert_nonnull (strstr (find_text (plan, HW_PROBLEM_OVERSIZE), "100"));
}

static void
all_hoops_set_aside_is_said (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (60);
  g_autoptr (HwPlan) plan = NULL;

  for (guint i = 0; i < scene->hoops->len; i++)
    ((HwHoop *)scene->hoops->pdata[i])->set_aside = TRUE;
  plan = plan_verified (scene);
  g_assert_cmpstr (find_text (plan, HW_PROBLEM_NO_HOOP), ==,
                   "Every hoop of the scene is set aside. Take one into use, and the hoopings follow.");
}

static void
proof_names_who_is_kept_apart (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (10);
  g_autoptr (HwPlan) plan = NULL;

  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "m4"));
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_nonnull (strstr (plan->proof, "Gate and Rose are kept apart."));
}

/* Of six pairs kept apart four stand for all. */
static void
proof_names_four_pairs_at_most (void)
{
  g_autoptr (HwSnapshot) scene = four_in_a_row (10);
  g_autoptr (HwPlan) plan = NULL;
  guint told = 0;

  for (guint i = 1; i <= 4; i++)
    for (guint j = 1; j < i; j++)
      {
        g_autofree char *first = g_strdup_printf ("m%u", j), *second = g_strdup_printf ("m%u", i);

        g_ptr_array_add (scene->apart, hw_apart_new (first, second));
      }
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 4);
  for (const char *at = plan->proof; (at = strstr (at, " are kept apart.")) != NULL; at++)
    told++;
  g_assert_cmpuint (told, ==, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/wishes/agree-with-every-state-there-is", wishes_agree_with_every_state_there_is);
  g_test_add_func ("/wishes/mixed-blocks-agree-with-every-state-there-is",
                   mixed_blocks_agree_with_every_state_there_is);
  g_test_add_func ("/wishes/least-time-agrees-with-every-state-there-is",
                   least_time_agrees_with_every_state_there_is);
  g_test_add_func ("/wishes/none-makes-a-plan-worse", no_wish_makes_a_plan_worse);
  g_test_add_func ("/wishes/mixing-saves-a-change-and-says-so", mixing_saves_a_change_and_says_so);
  g_test_add_func ("/wishes/least-time-opens-a-further-hooping-where-it-pays",
                   least_time_opens_a_further_hooping_where_it_pays);
  g_test_add_func ("/wishes/pinned-together-and-kept-apart-is-answered-by-name",
                   pinned_together_and_kept_apart_is_answered_by_name);
  g_test_add_func ("/wishes/smallest-set-that-contradicts-is-named", smallest_set_that_contradicts_is_named);
  g_test_add_func ("/wishes/fewest-are-left-out", fewest_wishes_are_left_out);
  g_test_add_func ("/wishes/pin-keeps-a-hoop-that-is-set-aside", pin_keeps_a_hoop_that_is_set_aside);
  g_test_add_func ("/wishes/oversize-names-the-hoop-set-aside-that-would-do",
                   oversize_names_the_hoop_set_aside_that_would_do);
  g_test_add_func ("/wishes/all-hoops-set-aside-is-said", all_hoops_set_aside_is_said);
  g_test_add_func ("/wishes/proof-names-who-is-kept-apart", proof_names_who_is_kept_apart);
  g_test_add_func ("/wishes/proof-names-four-pairs-at-most", proof_names_four_pairs_at_most);
  return g_test_run ();
}
