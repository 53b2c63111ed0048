/* Whole plans of made-up scenes: counted once more by going through every order there is, checked by the second opinion, and the same on
 * every run. */
#include "random-scenes.h"
#include "../rounds.h"

#include "../../src/geometry/region.h"
#include "../../src/planning/sharing.h"

#define MOST 7

/* Everything about a small scene that matters for the count, worked out plainly. */
typedef struct
{
  const HwSnapshot *scene;
  guint n;
  guint before[MOST]; /* mask */
  gboolean fits[1 << MOST];
  guint best_hoopings, best_changes;
} Plainly;

static void
look_plainly (Plainly *plainly, const HwSnapshot *scene)
{
  HwOutline *placed[MOST];

  *plainly = (Plainly){ .scene = scene, .n = scene->motifs->len, .best_hoopings = 99, .best_changes = 9999 };
  for (guint j = 0; j < plainly->n; j++)
    {
      const HwMotif *motif = hw_snapshot_motif (scene, j);

      placed[j] = hw_outline_place (motif->outline, &motif->placement);
      for (guint i = 0; i < j; i++)
        if (hw_outline_overlap_area (placed[i], placed[j]) > 0.01)
          plainly->before[j] |= 1u << i;
    }
  for (guint j = 0; j < plainly->n; j++)
    hw_outline_unref (placed[j]);
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
    }
}

/* Tries every next motif, in the hooping at hand and in a new one. */
static void
go_through (
    Plainly *plainly, guint done, guint here, const HwThreadBlock *needle, guint hoopings, guint changes)
{
  if (hoopings > plainly->best_hoopings
      || (hoopings == plainly->best_hoopings && changes >= plainly->best_changes))
    return;
  if (done == (1u << plainly->n) - 1)
    {
      plainly->best_hoopings = hoopings;
      plainly->best_changes = changes;
      return;
    }
  for (guint i = 0; i < plainly->n; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (plainly->scene, i);
      const HwThreadBlock *now = needle;
      guint more = 0;

      if ((done >> i & 1) || (plainly->before[i] & ~done))
        continue;
      for (guint t = 0; t < motif->n_threads; t++)
        {
          more += now != NULL && !hw_thread_same (now, &motif->threads[t]);
          now = &motif->threads[t];
        }
      if (here != 0 && plainly->fits[here | 1u << i])
        go_through (plainly, done | 1u << i, here | 1u << i, now, hoopings, changes + more);
      go_through (plainly, done | 1u << i, 1u << i, now, hoopings + 1, changes + more);
    }
}

static HwPlan *
plan_fresh (const HwSnapshot *scene)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();

  return hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
}

static void
assert_good (const HwPlan *plan)
{
  g_autoptr (GError) error = NULL;

  g_assert_nonnull (plan);
  hw_plan_verify (plan, &error);
  g_assert_no_error (error);
}

static void
agrees_with_every_order_there_is (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint plannable = 0;

  for (guint round = 0; round < ROUNDS (2500); round++)
    {
      guint n = g_rand_int_range (rand, 1, round % 25 == 0 ? MOST + 1 : 6);
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, round % SCENE_KINDS, n, scene_between (rand, 0.8, 2.5));
      g_autoptr (HwPlan) plan = NULL;
      Plainly plainly;
      gboolean oversize = FALSE;

      scene->fabric.hold = round % 7 == 0 ? HW_HOLD_CLAMPED : HW_HOLD_FLOATED;
      look_plainly (&plainly, scene);
      plan = plan_fresh (scene);
      assert_good (plan);
      for (guint i = 0; i < n; i++)
        oversize |= !plainly.fits[1u << i];
      g_assert_cmpint (plan->status == HW_PLAN_UNPLANNABLE, ==, oversize);
      if (oversize)
        continue;
      plannable++;
      go_through (&plainly, 0, 0, NULL, 0, 0);
      g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
      g_assert_cmpuint (plan->n_hoopings, ==, plainly.best_hoopings);
      g_assert_cmpuint (plan->thread_changes, ==, plainly.best_changes);
      g_assert_true (plan->thread_changes_proven);
    }
  g_assert_cmpuint (plannable, >, ROUNDS (1000));
}

static void
second_opinion_always_agrees (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  const HwPlanOptions options = { .seconds = 0.02, .unit = HW_UNIT_MM };

  for (guint round = 0; round < ROUNDS (200); round++)
    {
      guint n = g_rand_int_range (rand, 0, 40);
      g_autoptr (HwSnapshot) scene
          = scene_random (rand, round % SCENE_KINDS, n, scene_between (rand, 0.6, 3));

      for (guint edit = 0; edit < 4; edit++)
        {
          g_autoptr (HwPlan) plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
          HwSnapshot *next;

          assert_good (plan);
          if (n == 0)
            {
              g_assert_cmpint (plan->status, ==, HW_PLAN_OPTIMAL);
              break;
            }
          next = scene_moved (scene, g_rand_int_range (rand, 0, n), scene_between (rand, -40, 40),
                              scene_between (rand, -40, 40));
          hw_snapshot_unref (scene);
          scene = next;
        }
    }
}

static void
assert_same_plan (const HwPlan *a, const HwPlan *b)
{
  g_assert_cmpuint (a->n_hoopings, ==, b->n_hoopings);
  g_assert_cmpuint (a->thread_changes, ==, b->thread_changes);
  g_assert_cmpuint (a->lower_bound, ==, b->lower_bound);
  g_assert_cmpstr (a->proof, ==, b->proof);
  for (guint h = 0; h < a->n_hoopings; h++)
    {
      const HwHooping *x = &a->hoopings[h], *y = &b->hoopings[h];

      g_assert_cmpuint (x->hoop, ==, y->hoop);
      g_assert_cmpfloat (x->centre.x, ==, y->centre.x);
      g_assert_cmpfloat (x->centre.y, ==, y->centre.y);
      g_assert_cmpfloat (x->angle, ==, y->angle);
      g_assert_cmpmem (x->motifs, x->n_motifs * sizeof (guint), y->motifs, y->n_motifs * sizeof (guint));
      g_assert_cmpuint (x->n_marks, ==, y->n_marks);
    }
}

static void
equal_scenes_get_equal_plans (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HwSnapshot) scene = scene_random (rand, round % SCENE_KINDS, 14, 1.3);
      g_autoptr (HwPlan) a = plan_fresh (scene);
      g_autoptr (HwPlan) b = plan_fresh (scene);

      assert_same_plan (a, b);
    }
}

/* A motif pushed by a tenth of a millimetre, in a scene with room to spare. */
static void
nudge_leaves_the_plan_still (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  guint still = 0, rounds = 0;

  for (guint round = 0; round < 60; round++)
    {
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      g_autoptr (HwSnapshot) scene = scene_random (rand, round % SCENE_KINDS, 18, 1.2);
      guint motif = g_rand_int_range (rand, 0, 18);
      g_autoptr (HwSnapshot) nudged = scene_moved (scene, motif, 0.1, 0);
      g_autoptr (HwPlan) a = hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
      g_autoptr (HwPlan) b = hw_planner_plan (planner, nudged, NULL, NULL, NULL, NULL);
      gboolean same = a->n_hoopings == b->n_hoopings;

      assert_good (b);
      if (a->n_hoopings != b->n_hoopings || a->thread_changes != b->thread_changes)
        continue; /* the nudge changed what is best */
      rounds++;
      for (guint h = 0; h < a->n_hoopings && same; h++)
        {
          const HwHooping *x = &a->hoopings[h], *y = &b->hoopings[h];

          same = x->n_motifs == y->n_motifs
                 && memcmp (x->motifs, y->motifs, x->n_motifs * sizeof (guint)) == 0 && x->angle == y->angle
                 && (hw_point_distance (x->centre, y->centre) == 0
                     || (hw_plan_hooping_of (b, motif) == (int)h
                         && hw_point_distance (x->centre, y->centre) < 0.2));
        }
      still += same;
    }
  g_assert_cmpuint (rounds, >, 40);
  g_assert_cmpuint (still, >=, rounds * 9 / 10);
}

static void
undo_brings_the_very_plan_back (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 15, 1.2);
  g_autoptr (HwPlan) first = hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
  g_autoptr (HwPlan) again = NULL;
  g_autoptr (HwSnapshot) restored = NULL;

  for (guint k = 1; k <= 20; k++)
    {
      g_autoptr (HwSnapshot) moved = scene_moved (scene, 3, 5.0 * k, -3.0 * k);
      g_autoptr (HwPlan) plan = hw_planner_plan (planner, moved, NULL, NULL, NULL, NULL);

      assert_good (plan);
    }
  restored = hw_snapshot_copy (scene);
  again = hw_planner_plan (planner, restored, NULL, NULL, NULL, NULL);
  assert_same_plan (first, again);
}

/* Little time and little memory: the plan is whole, its bound is a bound, and it is called proven only when that is met. */
static void
limits_of_time_and_memory_are_kept (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 200, 1.2);
  const HwPlanOptions limits[] = { { .seconds = 0.5, .memory = 1 << 20 }, { .seconds = 0.05 } };

  for (guint k = 0; k < G_N_ELEMENTS (limits); k++)
    {
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      gint64 start = g_get_monotonic_time ();
      g_autoptr (HwPlan) plan = hw_planner_plan (planner, scene, &limits[k], NULL, NULL, NULL);

      g_assert_cmpint (g_get_monotonic_time () - start, <, 8 * G_USEC_PER_SEC);
      assert_good (plan);
      g_assert_cmpint (plan->status == HW_PLAN_OPTIMAL, ==, plan->lower_bound == plan->n_hoopings);
      g_assert_cmpuint (plan->lower_bound, >, plan->n_hoopings / 2);
    }
}

static void
set_cancelled (const HwPlan *plan, gpointer data)
{
  g_cancellable_cancel (data);
}

static void
cancelled_plan_is_none (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 120, 1.5);
  g_autoptr (GCancellable) early = g_cancellable_new ();
  g_autoptr (GCancellable) late = g_cancellable_new ();
  g_autoptr (HwPlan) plan = NULL;
  gint64 start;

  g_cancellable_cancel (early);
  g_assert_null (hw_planner_plan (planner, scene, NULL, early, NULL, NULL));
  start = g_get_monotonic_time ();
  g_assert_null (hw_planner_plan (planner, scene, NULL, late, set_cancelled, late));
  g_assert_cmpint (g_get_monotonic_time () - start, <, 20 * G_USEC_PER_SEC);
  plan = hw_planner_plan (planner, scene, &(HwPlanOptions){ .seconds = 0 }, NULL, NULL, NULL);
  assert_good (plan);
}

/* A line in the log, a photograph or a thread at hand is nothing a plan depends on: the plan made before stands beside the newer snapshot. */
static void
work_and_photos_leave_the_plan_still (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 12, 1.5);
  g_autoptr (HwSnapshot) later = hw_snapshot_copy (scene);
  g_autoptr (HwSnapshot) renamed = hw_snapshot_copy (scene);
  g_autoptr (HwPlan) first = hw_planner_plan (planner, scene, NULL, NULL, NULL, NULL);
  g_autoptr (HwPlan) recalled = NULL, beside = NULL;

  g_ptr_array_add (later->log, hw_log_line_new (1, HW_LOG_NOTE, NULL, "tea"));
  g_ptr_array_add (later->photos, hw_photo_new ());
  g_ptr_array_add (later->palette, hw_palette_thread_new ("moss", NULL, (HwLab){ 40, -20, 20 }, 3));
  recalled = hw_planner_plan (planner, later, NULL, NULL, NULL, NULL);
  g_assert_true (recalled->snapshot == later);
  assert_same_plan (first, recalled);
  assert_good (recalled);

  beside = hw_plan_beside (first, later);
  g_assert_true (beside->snapshot == later);
  assert_same_plan (first, beside);
  g_assert_cmpuint (beside->problems->len, ==, first->problems->len);
  for (guint i = 0; i < first->problems->len; i++)
    g_assert_cmpstr (((HwProblem *)beside->problems->pdata[i])->text, ==,
                     ((HwProblem *)first->problems->pdata[i])->text);

  g_free (renamed->name);
  renamed->name = g_strdup ("Another wall");
  g_assert_null (hw_plan_beside (first, renamed));
}

static void
count_found (const HwPlan *plan, gpointer data)
{
  guint *found = data;

  assert_good (plan);
  (*found)++;
}

static void
first_plan_comes_before_the_proof (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 150, 1.5);
  guint found = 0;
  g_autoptr (HwPlan) plan
      = hw_planner_plan (planner, scene, &(HwPlanOptions){ .seconds = 0.5 }, NULL, count_found, &found);

  assert_good (plan);
  g_assert_cmpuint (found, >=, 1);
}

static void
ten_thousand_motifs_are_planned (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_SMALL, 10000, 1);
  g_autoptr (HwPlan) plan
      = hw_planner_plan (planner, scene, &(HwPlanOptions){ .seconds = 0.2 }, NULL, NULL, NULL);

  g_assert_nonnull (plan);
  g_assert_cmpuint (plan->n_hoopings, <, 6000);
  g_assert_cmpuint (plan->lower_bound, >, 100);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planner/agrees-with-every-order-there-is", agrees_with_every_order_there_is);
  g_test_add_func ("/planner/second-opinion-always-agrees", second_opinion_always_agrees);
  g_test_add_func ("/planner/equal-scenes-get-equal-plans", equal_scenes_get_equal_plans);
  g_test_add_func ("/planner/nudge-leaves-the-plan-still", nudge_leaves_the_plan_still);
  g_test_add_func ("/planner/undo-brings-the-very-plan-back", undo_brings_the_very_plan_back);
  g_test_add_func ("/planner/work-and-photos-leave-the-plan-still", work_and_photos_leave_the_plan_still);
  g_test_add_func ("/planner/cancelled-plan-is-none", cancelled_plan_is_none);
  g_test_add_func ("/planner/first-plan-comes-before-the-proof", first_plan_comes_before_the_proof);
  g_test_add_func ("/planner/ten-thousand-motifs-are-planned", ten_thousand_motifs_are_planned);
  g_test_add_func ("/planner/limits-of-time-and-memory-are-kept", limits_of_time_and_memory_are_kept);
  return g_test_run ();
}
