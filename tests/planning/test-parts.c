/* A scene divided into parts: the order between them is kept, no hooping holds motifs of two, and the count is the fewest there is, found once
 * more by going through every state in the plainest way. What contradicts the parts is told by name. */
#include "little-scenes.h"
#include "random-scenes.h"

#include "../../src/geometry/region.h"
#include "../../src/planning/explain.h"
#include "../../src/planning/parts-hoopings.h"
#include "../../src/planning/sharing.h"

#define MOST 6
#define NEVER 1000000u
#define NOWHERE 99

typedef struct
{
  const HwSnapshot *scene;
  guint n;
  gboolean before[MOST][MOST]; /* by overlap and tie */
  gboolean together[MOST][MOST];
  gboolean fits[1 << MOST];
  guint part[MOST]; /* as stitched; NOWHERE: any */
  gboolean moved;   /* some motif joins an earlier part */
  GHashTable *known;
} Plainly;

static void
add_part (HwSnapshot *scene, const char *name, const char *motifs)
{
  g_auto (GStrv) ids = g_strsplit (motifs, " ", -1);

  g_ptr_array_add (scene->parts, hw_part_new (name, *motifs != '\0' ? (const char *const *)ids : NULL));
}

static gboolean
names (const HwPin *pin, const char *motif)
{
  return g_strv_contains ((const char *const *)pin->motifs, motif);
}

static void
look_at_order (Plainly *plainly)
{
  for (guint j = 0; j < plainly->n; j++)
    {
      const HwMotif *over = hw_snapshot_motif (plainly->scene, j);
      g_autoptr (HwOutline) top = hw_outline_place (over->outline, &over->placement);

      for (guint i = 0; i < plainly->n; i++)
        {
          const HwMotif *under = hw_snapshot_motif (plainly->scene, i);
          g_autoptr (HwOutline) below = hw_outline_place (under->outline, &under->placement);

          if ((i < j && hw_outline_overlap_area (below, top) > 0.01)
              || (under->before != NULL && g_strv_contains ((const char *const *)under->before, over->id)))
            plainly->before[i][j] = TRUE;
        }
    }
  for (guint p = 0; p < plainly->scene->pins->len; p++)
    {
      const HwPin *pin = plainly->scene->pins->pdata[p];

      for (guint i = 0; i < plainly->n; i++)
        for (guint j = 0; j < plainly->n; j++)
          plainly->together[i][j] |= names (pin, hw_snapshot_motif (plainly->scene, i)->id)
                                     && names (pin, hw_snapshot_motif (plainly->scene, j)->id);
    }
}

/* A motif joins the earliest part of all that must not come before it; found by walking on until nothing changes. */
static void
look_at_parts (Plainly *plainly)
{
  guint reach[MOST];

  for (guint i = 0; i < plainly->n; i++)
    {
      int named = hw_parts_find (plainly->scene->parts, hw_snapshot_motif (plainly->scene, i)->id);

      plainly->part[i] = named >= 0 ? (guint)named : NOWHERE;
    }
  memcpy (reach, plainly->part, sizeof reach);
  for (guint round = 0; round < MOST * MOST; round++)
    for (guint i = 0; i < plainly->n; i++)
      for (guint j = 0; j < plainly->n; j++)
        if (plainly->before[i][j] || plainly->together[i][j])
          reach[i] = MIN (reach[i], reach[j]);
  for (guint i = 0; i < plainly->n; i++)
    if (plainly->part[i] != NOWHERE)
      {
        plainly->moved |= reach[i] < plainly->part[i];
        plainly->part[i] = reach[i];
      }
}

static void
look_at_sharing (Plainly *plainly)
{
  const HwSnapshot *scene = plainly->scene;

  for (guint set = 1; set < 1u << plainly->n; set++)
    {
      guint members[MOST], n = 0;
      g_autoptr (GArray) hull = NULL;

      for (guint i = 0; i < plainly->n; i++)
        if (set >> i & 1)
          members[n++] = i;
      hull = hw_sharing_hull (scene, members, n);
      for (guint h = 0; h < scene->hoops->len; h++)
        plainly->fits[set] |= hw_sharing_fits ((const HwPoint *)hull->data, hull->len,
                                               hw_snapshot_hoop (scene, h), &scene->fabric);
      for (guint a = 0; a < n; a++)
        for (guint b = 0; b < a; b++)
          if (plainly->part[members[a]] != NOWHERE && plainly->part[members[b]] != NOWHERE
              && plainly->part[members[a]] != plainly->part[members[b]])
            plainly->fits[set] = FALSE;
      for (guint a = 0; a < n; a++) /* a pinned hooping holds its own motifs only */
        for (guint b = 0; b < n; b++)
          if (plainly->together[members[a]][members[a]] && !plainly->together[members[a]][members[b]])
            plainly->fits[set] = FALSE;
    }
}

static gboolean
is_whole (const Plainly *plainly, guint here)
{
  for (guint i = 0; i < plainly->n; i++)
    for (guint j = 0; j < plainly->n; j++)
      if ((here >> i & 1) && plainly->together[i][j] && !(here >> j & 1))
        return FALSE;
  return TRUE;
}

static gboolean
may_follow (const Plainly *plainly, guint done, guint i)
{
  if (done >> i & 1)
    return FALSE;
  for (guint j = 0; j < plainly->n; j++)
    {
      gboolean earlier = plainly->part[i] != NOWHERE && plainly->part[j] < plainly->part[i];

      if (!(done >> j & 1) && (plainly->before[j][i] || earlier))
        return FALSE;
    }
  return TRUE;
}

/* Hoopings count 1000, thread changes between motifs 1. last: the motif stitched last, or MOST. */
static guint
least_from (Plainly *plainly, guint done, guint here, guint last)
{
  guint key = ((done << MOST | here) << 3 | last) + 1, least = NEVER;
  gpointer known = g_hash_table_lookup (plainly->known, GUINT_TO_POINTER (key));

  if (known != NULL)
    return GPOINTER_TO_UINT (known) - 1;
  if (done == (1u << plainly->n) - 1)
    return is_whole (plainly, here) ? 0 : NEVER;
  for (guint i = 0; i < plainly->n; i++)
    for (guint opens = 0; opens < 2; opens++)
      {
        const HwMotif *next = hw_snapshot_motif (plainly->scene, i);
        guint cost = opens ? 1000 : 0, set = (opens ? 0 : here) | 1u << i;

        if (!may_follow (plainly, done, i) || !plainly->fits[set] || (!opens && here == 0)
            || (opens && !is_whole (plainly, here)))
          continue;
        if (last < MOST)
          {
            const HwMotif *before = hw_snapshot_motif (plainly->scene, last);

            cost += !hw_thread_same (&before->threads[before->n_threads - 1], &next->threads[0]);
          }
        least = MIN (least, cost + least_from (plainly, done | 1u << i, set, i));
      }
  g_hash_table_insert (plainly->known, GUINT_TO_POINTER (key), GUINT_TO_POINTER (least + 1));
  return least;
}

static guint
changes_inside (const HwSnapshot *scene)
{
  guint changes = 0;

  for (guint i = 0; i < scene->motifs->len; i++)
    for (guint t = 1; t < hw_snapshot_motif (scene, i)->n_threads; t++)
      changes += !hw_thread_same (&hw_snapshot_motif (scene, i)->threads[t - 1],
                                  &hw_snapshot_motif (scene, i)->threads[t]);
  return changes;
}

static void
divide_at_random (HwSnapshot *scene, GRand *rand)
{
  GString *motifs[3] = { g_string_new (NULL), g_string_new (NULL), g_string_new (NULL) };
  static const char *const names[] = { "Upper", "Middle", "Lower" };
  guint free_share = g_rand_int_range (rand, 0, 3);

  for (guint i = 0; i < scene->motifs->len; i++)
    {
      guint part = g_rand_int_range (rand, 0, 3 + free_share);

      if (part < 3)
        g_string_append_printf (motifs[part], "%s%s", motifs[part]->len > 0 ? " " : "",
                                hw_snapshot_motif (scene, i)->id);
    }
  for (guint p = 0; p < 3; p++)
    {
      add_part (scene, names[p], motifs[p]->str);
      g_string_free (motifs[p], TRUE);
    }
}

static void
tie_and_pin_at_random (HwSnapshot *scene, GRand *rand)
{
  guint n = scene->motifs->len, a = g_rand_int_range (rand, 0, n), b = g_rand_int_range (rand, 0, n);

  if (a != b && g_rand_int_range (rand, 0, 3) == 0)
    {
      HwMotif *motif = scene->motifs->pdata[a];
      const char *ids[] = { hw_snapshot_motif (scene, b)->id, NULL };

      motif->before = g_strdupv ((char **)ids);
    }
  if (n > 1 && g_rand_int_range (rand, 0, 4) == 0)
    {
      guint first = g_rand_int_range (rand, 1, n);
      g_autofree char *motifs = g_strdup_printf ("m%u m%u", first, first + 1);
      HwPin *pin = little_pin (NULL, 0, 0, motifs);

      pin->keep = HW_KEEP_MOTIFS;
      g_ptr_array_add (scene->pins, pin);
    }
}

static void
parts_agree_with_every_state_there_is (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint compared = 0, moved = 0;

  for (guint round = 0; round < 800; round++)
    {
      guint n = g_rand_int_range (rand, 1, MOST + 1), least;
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, round % SCENE_KINDS, n, scene_between (rand, 0.8, 2.5));
      g_autoptr (HwPlan) plan = NULL;
      Plainly plainly = { .scene = scene, .n = n, .known = g_hash_table_new (NULL, NULL) };

      divide_at_random (scene, rand);
      tie_and_pin_at_random (scene, rand);
      look_at_order (&plainly);
      look_at_parts (&plainly);
      look_at_sharing (&plainly);
      least = least_from (&plainly, 0, 0, MOST);
      g_hash_table_unref (plainly.known);
      plan = plan_verified (scene);
      if (plan->status == HW_PLAN_UNPLANNABLE || find_problem (plan, HW_PROBLEM_PIN) != NULL)
        {
          g_assert_cmpuint (least, >=, NEVER);
          continue;
        }
      g_assert_cmpint (find_problem (plan, HW_PROBLEM_PART) != NULL, ==, plainly.moved);
      g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
      g_assert_cmpuint (plan->n_hoopings, ==, least / 1000);
      g_assert_cmpuint (plan->thread_changes, ==, least % 1000 + changes_inside (scene));
      g_assert_true (plan->thread_changes_proven);
      compared++;
      moved += plainly.moved;
    }
  g_test_message ("%u scenes compared, in %u of them the parts contradict the order", compared, moved);
  g_assert_cmpuint (compared, >, 400);
  g_assert_cmpuint (moved, >, 50);
}

/* Larger scenes cannot be gone through, but a plan of parts is as long as the plans of its parts one by one. */
static void
hoopings_add_up_over_parts (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint proven = 0;

  for (guint round = 0; round < 10; round++)
    {
      g_autoptr (HwSnapshot) scene = scene_random (rand, round % SCENE_KINDS, 30, 1);
      g_autoptr (HwPlan) plan = NULL;
      guint sum = 0, all_proven = TRUE;

      for (guint p = 0; p < 3; p++) /* back to front, so that nothing contradicts */
        {
          g_autoptr (HwSnapshot) piece = hw_snapshot_copy (scene);
          g_autoptr (HwPlan) alone = NULL;
          GString *motifs = g_string_new (NULL);

          for (guint i = 30; i-- > 0;)
            if (i / 10 != p)
              g_ptr_array_remove_index (piece->motifs, i);
            else
              g_string_append_printf (motifs, "%sm%u", motifs->len > 0 ? " " : "", i + 1);
          add_part (scene, "P", motifs->str);
          g_string_free (motifs, TRUE);
          alone = plan_verified (piece);
          all_proven &= alone->status != HW_PLAN_FEASIBLE;
          sum += alone->n_hoopings;
        }
      plan = plan_verified (scene);
      g_assert_null (find_problem (plan, HW_PROBLEM_PART));
      if (!all_proven)
        continue;
      proven++;
      g_assert_cmpuint (plan->n_hoopings, ==, sum);
      g_assert_cmpuint (plan->lower_bound, ==, sum);
    }
  g_assert_cmpuint (proven, >=, 7);
}

static HwSnapshot *
garden (void)
{
  HwSnapshot *scene = little_scene (700, 500);

  little_hoop (scene, 130, 180, 2, HW_TURN_ANY);
  return scene;
}

/* Four motifs in a row that fit one field two by two: crossing parts need more. */
static void
a_hooping_holds_motifs_of_one_part_only (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) whole = NULL;
  g_autoptr (HwPlan) parts = NULL;
  g_autofree int *of = NULL;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 160, 100);
  little_motif (scene, "Rose", 50, 50, 400, 100);
  little_motif (scene, "Fern", 50, 50, 460, 100);
  whole = plan_verified (scene);
  g_assert_cmpuint (whole->n_hoopings, ==, 2);
  add_part (scene, "Lower", "m2 m3");
  add_part (scene, "Upper", "m1 m4");
  parts = plan_verified (scene);
  g_assert_cmpuint (parts->n_hoopings, ==, 4);
  g_assert_cmpint (parts->status, ==, HW_PLAN_OPTIMAL);
  assert_says (parts->proof, "Parts are stitched one after the other and share no hooping.");
  of = hw_plan_parts (parts);
  g_assert_cmpint (of[0], ==, 0);
  g_assert_cmpint (of[1], ==, 0);
  g_assert_cmpint (of[2], ==, 1);
  g_assert_cmpint (of[3], ==, 1);
  g_assert_cmpint (hw_snapshot_find_part (scene, "Upper"), ==, 1);
  g_assert_cmpint (hw_snapshot_find_part (scene, "upper"), ==, -1);
}

static void
explanations_speak_of_parts (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *why = NULL;
  g_autofree char *count = NULL;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 160, 100);
  add_part (scene, "First", "m2");
  add_part (scene, "Second", "m1");
  plan = plan_verified (scene);
  why = hw_explain_hooping (plan, 1, HW_UNIT_MM);
  assert_says (why, "Place: after hooping 1, because the part “First” is stitched before the part “Second”.");
  assert_says (why, "Could not be one with hooping 1: Quince and Gate are in different parts.");
  count = hw_explain_count (plan, HW_UNIT_MM);
  assert_says (count, "• Quince and Gate are in different parts.");
}

static void
a_motif_in_no_part_joins_where_it_suits (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree int *of = NULL;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 160, 100);
  little_motif (scene, "Rose", 50, 50, 400, 100);
  little_motif (scene, "Bee", 20, 20, 600, 400);
  add_part (scene, "First", "m3");
  add_part (scene, "Second", "m1");
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 3);
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), ==, hw_plan_hooping_of (plan, 1));
  of = hw_plan_parts (plan);
  for (guint h = 0; h < 3; h++) /* the Bee's hooping counts with a neighbour's part */
    g_assert_cmpint (of[h], >=, 0);
  g_assert_cmpint (of[hw_plan_hooping_of (plan, 2)], ==, 0);
  g_assert_cmpint (of[hw_plan_hooping_of (plan, 0)], ==, 1);
}

static void
an_overlap_that_contradicts_is_told_with_both_motifs_and_parts (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  const HwProblem *problem;

  little_motif (scene, "Lily", 50, 50, 100, 100);
  little_motif (scene, "Gate", 50, 50, 130, 100);
  little_motif (scene, "Rose", 50, 50, 400, 100);
  add_part (scene, "Upper", "m2");
  add_part (scene, "Lower", "m1 m3");
  plan = plan_verified (scene);
  problem = find_problem (plan, HW_PROBLEM_PART);
  g_assert_nonnull (problem);
  g_assert_cmpint (problem->motif, ==, 0);
  g_assert_cmpint (problem->other, ==, 1);
  g_assert_false (problem->grave);
  g_assert_cmpstr (
      problem->text, ==,
      "Lily (part “Lower”) lies behind Gate, which is in the earlier part “Upper”. It is stitched with "
      "“Upper”, so that the order of the overlap holds.");
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpint (hw_plan_hooping_of (plan, 0), ==, 0);
  g_assert_cmpint (hw_plan_hooping_of (plan, 1), ==, 0);
}

/* Lily under Ivy under Gate; Ivy is in no part. */
static void
a_chain_through_a_free_motif_is_told_step_by_step (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Lily", 30, 30, 100, 100);
  little_motif (scene, "Ivy", 30, 30, 120, 100);
  little_motif (scene, "Gate", 30, 30, 140, 100);
  add_part (scene, "Upper", "m3");
  add_part (scene, "Lower", "m1");
  plan = plan_verified (scene);
  g_assert_nonnull (find_problem (plan, HW_PROBLEM_PART));
  assert_says (find_problem (plan, HW_PROBLEM_PART)->text, "Lily before Ivy, Ivy before Gate");
}

static void
a_pinned_hooping_across_parts_is_kept_and_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwPin *pin = little_pin (NULL, 0, 0, "m1 m2");

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 160, 100);
  pin->keep = HW_KEEP_MOTIFS;
  g_ptr_array_add (scene->pins, pin);
  add_part (scene, "Upper", "m1");
  add_part (scene, "Lower", "m2");
  plan = plan_verified (scene);
  g_assert_cmpuint (plan->n_hoopings, ==, 1);
  g_assert_null (find_problem (plan, HW_PROBLEM_PIN));
  assert_says (find_problem (plan, HW_PROBLEM_PART)->text, "Quince beside Gate in a pinned hooping");
}

/* A tie against the overlap of two motifs that are pinned to one hooping was once dropped without a word. */
static void
a_tie_that_contradicts_inside_a_pinned_hooping_is_told (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  const char *ids[] = { "m1", NULL };
  HwPin *pin = little_pin (NULL, 0, 0, "m1 m2");

  little_motif (scene, "Lily", 50, 50, 100, 100);
  little_motif (scene, "Gate", 50, 50, 130, 100)->before = g_strdupv ((char **)ids);
  pin->keep = HW_KEEP_MOTIFS;
  g_ptr_array_add (scene->pins, pin);
  plan = plan_verified (scene);
  assert_says (find_problem (plan, HW_PROBLEM_ORDER_LOOP)->text, "Gate is tied before Lily");
}

/* What is stitched already stays first, whatever its part. */
static void
stitched_hoopings_stay_first (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autofree int *of = NULL;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 400, 100);
  g_ptr_array_add (scene->frozen, little_pin ("h1", 400, 100, "m2"));
  add_part (scene, "Upper", "m1");
  add_part (scene, "Lower", "m2");
  plan = plan_verified (scene);
  g_assert_cmpint (hw_plan_hooping_of (plan, 1), ==, 0);
  g_assert_null (find_problem (plan, HW_PROBLEM_PART));
  of = hw_plan_parts (plan);
  g_assert_cmpint (of[0], ==, 1);
  g_assert_cmpint (of[1], ==, 0);
}

/* The check finds what is wrong: a plan made without parts held against a scene with them. */
static void
the_check_tells_parts_that_are_not_kept (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GError) shared = NULL;
  g_autoptr (GError) late = NULL;
  g_autoptr (GError) needless = NULL;
  HwProblem *problem;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 160, 100);
  little_motif (scene, "Rose", 50, 50, 400, 100);
  plan = plan_verified (scene);
  add_part (plan->snapshot, "First", "m1");
  add_part (plan->snapshot, "Second", "m2");
  g_assert_false (hw_plan_verify (plan, &shared));
  g_assert_cmpstr (shared->message, ==, "Gate and Quince share a hooping but are in different parts.");
  problem = hw_plan_add_problem (plan, HW_PROBLEM_PART, 1, FALSE, g_strdup ("Quince joins Gate."));
  problem->other = 0;
  g_assert_false (hw_plan_verify (plan, &needless));
  assert_says (needless->message, "need not");
  g_ptr_array_set_size (plan->problems, 0);
  g_ptr_array_set_size (plan->snapshot->parts, 0);
  add_part (plan->snapshot, "First", hw_plan_hooping_of (plan, 2) == 0 ? "m1" : "m3");
  add_part (plan->snapshot, "Second", hw_plan_hooping_of (plan, 2) == 0 ? "m3" : "m1");
  g_assert_false (hw_plan_verify (plan, &late));
  assert_says (late->message, "is in an earlier part than");
}

/* What no hoop takes is stitched neither after its part nor before it. */
static void
what_is_not_stitched_is_in_no_order (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Ladder", 400, 20, 400, 300);
  add_part (scene, "Upper", "m1");
  add_part (scene, "Lower", "m2");
  plan = plan_verified (scene);
  g_assert_cmpint (hw_plan_hooping_of (plan, 1), ==, -1);
}

/* A motif may only be said to leave its part for an earlier one, to which it leads; and of motifs that are there. */
static void
a_leave_of_a_part_is_looked_at (void)
{
  const struct
  {
    int motif, other;
  } wrong[] = { { -1, 0 }, { 1, -1 }, { 9, 0 }, { 1, 9 }, { 1, 2 }, { 0, 1 }, { 1, 1 }, { 3, 0 } };
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = NULL;
  HwProblem *problem;

  little_motif (scene, "Gate", 50, 50, 100, 100);
  little_motif (scene, "Quince", 50, 50, 400, 100);
  little_motif (scene, "Rose", 50, 50, 100, 400);
  little_motif (scene, "Thrift", 50, 50, 400, 400);
  add_part (scene, "First", "m1");
  add_part (scene, "Second", "m2 m4 gone");
  plan = plan_verified (scene);
  problem = hw_plan_add_problem (plan, HW_PROBLEM_PART, 1, FALSE, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GError) error = NULL;

      problem->motif = wrong[i].motif;
      problem->other = wrong[i].other;
      g_assert_false (hw_plan_verify (plan, &error));
      g_assert_cmpstr (error->message, ==, "A motif is said to leave its part, but need not: ");
    }
  g_ptr_array_set_size (plan->problems, 0);
  g_assert_true (hw_plan_verify (plan, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/parts/every-state", parts_agree_with_every_state_there_is);
  g_test_add_func ("/planning/parts/add-up", hoopings_add_up_over_parts);
  g_test_add_func ("/planning/parts/one-part-only", a_hooping_holds_motifs_of_one_part_only);
  g_test_add_func ("/planning/parts/explained", explanations_speak_of_parts);
  g_test_add_func ("/planning/parts/in-no-part", a_motif_in_no_part_joins_where_it_suits);
  g_test_add_func ("/planning/parts/contradiction",
                   an_overlap_that_contradicts_is_told_with_both_motifs_and_parts);
  g_test_add_func ("/planning/parts/chain", a_chain_through_a_free_motif_is_told_step_by_step);
  g_test_add_func ("/planning/parts/pinned", a_pinned_hooping_across_parts_is_kept_and_told);
  g_test_add_func ("/planning/parts/tie-in-pin", a_tie_that_contradicts_inside_a_pinned_hooping_is_told);
  g_test_add_func ("/planning/parts/stitched", stitched_hoopings_stay_first);
  g_test_add_func ("/planning/parts/leaves", a_leave_of_a_part_is_looked_at);
  g_test_add_func ("/planning/parts/check", the_check_tells_parts_that_are_not_kept);
  g_test_add_func ("/planning/parts/not-stitched", what_is_not_stitched_is_in_no_order);
  return g_test_run ();
}
