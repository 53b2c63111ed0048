/* Scenes made of bytes: whatever they are there is a plan, it keeps every rule by a check that shares no code with the search, and by sums made here: each motif in
 * one hooping, inside its field, tied motifs in their order. */
#include <math.h>
#include <string.h>

#include "../../src/planning/turns.h"
#include "../planning/random-scenes.h"
#include "fuzz.h"

#define MOST_MOTIFS 9
#define SECONDS 0.03
#define SLACK 1e-4 /* mm */

static void
add_motifs (HwSnapshot *scene, FuzzBytes *bytes)
{
  guint n = fuzz_choice (bytes, MOST_MOTIFS + 1);

  for (guint i = 0; i < n; i++)
    {
      double width = fuzz_between (bytes, 2, 150), height = fuzz_between (bytes, 2, 150);
      HwOutline *outline = fuzz_choice (bytes, 2) ? hw_outline_new_rectangle (width, height)
                                                  : hw_outline_new_ellipse (width, height, 16);
      HwPlacement placement = { { fuzz_between (bytes, -20, 420), fuzz_between (bytes, -20, 320) },
                                fuzz_choice (bytes, 2) ? 0 : fuzz_between (bytes, -180, 180),
                                fuzz_between (bytes, 0.2, 2),
                                fuzz_choice (bytes, 2) };

      scene_add_motif (scene, outline, placement);
    }
}

static void
add_hoops (HwSnapshot *scene, FuzzBytes *bytes)
{
  static const char *const ids[] = { "h1", "h2", "h3" };
  guint n = fuzz_choice (bytes, 4);

  for (guint i = 0; i < n; i++)
    {
      double width = fuzz_between (bytes, 20, 300), height = fuzz_between (bytes, 20, 300);

      scene_add_hoop (scene, ids[i], width, height, fuzz_choice (bytes, 2) ? HW_TURN_ANY : HW_TURN_QUARTER);
    }
}

static void
add_wishes (HwSnapshot *scene, FuzzBytes *bytes)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (fuzz_choice (bytes, 65536));
  guint n = scene->motifs->len;

  scene->fabric.width = fuzz_between (bytes, 50, 500);
  scene->fabric.height = fuzz_between (bytes, 50, 400);
  scene->fabric.hold = fuzz_choice (bytes, 2) ? HW_HOLD_CLAMPED : HW_HOLD_FLOATED;
  scene->wishes.best = fuzz_choice (bytes, 2) ? HW_BEST_LEAST_TIME : HW_BEST_FEWEST;
  scene->wishes.interleave = fuzz_choice (bytes, 2);
  if (n > 0)
    scene_add_threads (scene, rand, 4, 3);
  for (guint i = fuzz_choice (bytes, 3); i > 0 && n > 1; i--)
    {
      guint first = fuzz_choice (bytes, n), second = fuzz_choice (bytes, n);
      HwMotif *motif = scene->motifs->pdata[first];
      const char *before[] = { hw_snapshot_motif (scene, second)->id, NULL };

      if (first == second)
        continue;
      g_strfreev (motif->before);
      motif->before = g_strdupv ((char **)before);
    }
}

static guint
times_hooped (const HwPlan *plan, guint motif)
{
  guint times = 0;

  for (guint h = 0; h < plan->n_hoopings; h++)
    for (guint k = 0; k < plan->hoopings[h].n_motifs; k++)
      times += plan->hoopings[h].motifs[k] == motif;
  return times;
}

/* Every corner of the motif by turning it here: mirrored, scaled, turned, moved; then into the hoop's axes. */
static void
assert_inside (const HwPlan *plan, const HwHooping *hooping, const HwMotif *motif)
{
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  const HwPlacement *p = &motif->placement;
  double a = p->angle * G_PI / 180, b = -hooping->angle * G_PI / 180;
  double u_most = hoop->field_width / 2 - hoop->clearance + SLACK;
  double v_most = hoop->field_height / 2 - hoop->clearance + SLACK;

  for (guint r = 0; r < motif->outline->n_rings; r++)
    for (guint i = 0; i < motif->outline->rings[r].n_points; i++)
      {
        HwPoint at = motif->outline->rings[r].points[i];
        double mx = (p->mirrored ? -at.x : at.x) * p->scale, my = at.y * p->scale;
        double x = mx * cos (a) - my * sin (a) + p->position.x - hooping->centre.x;
        double y = mx * sin (a) + my * cos (a) + p->position.y - hooping->centre.y;

        g_assert_cmpfloat (fabs (x * cos (b) - y * sin (b)), <=, u_most);
        g_assert_cmpfloat (fabs (x * sin (b) + y * cos (b)), <=, v_most);
      }
}

static void
check (const HwPlan *plan)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_plan_verify (plan, &error));
  g_assert_no_error (error);
  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    g_assert_cmpuint (times_hooped (plan, i), <=, 1);
  if (plan->status != HW_PLAN_UNPLANNABLE)
    for (guint i = 0; i < plan->snapshot->motifs->len; i++)
      g_assert_cmpuint (times_hooped (plan, i), ==, 1);
  for (guint h = 0; h < plan->n_hoopings; h++)
    for (guint k = 0; k < plan->hoopings[h].n_motifs; k++)
      assert_inside (plan, &plan->hoopings[h],
                     hw_snapshot_motif (plan->snapshot, plan->hoopings[h].motifs[k]));
  for (guint i = 0; i < plan->problems->len; i++)
    g_assert_true (g_utf8_validate (((const HwProblem *)plan->problems->pdata[i])->text, -1, NULL));
}

/* A hooping of the plan goes into the machine; what is in it then changes places, gets other threads or another wish. */
static void
begin_one (HwSnapshot *scene, const HwPlan *plan, FuzzBytes *bytes)
{
  guint h = fuzz_choice (bytes, plan->n_hoopings), first, second;
  const HwHooping *one = &plan->hoopings[h];
  HwPin *pin = hw_pin_new ();
  gpointer motif;

  pin->hoop = g_strdup (hw_snapshot_hoop (plan->snapshot, one->hoop)->id);
  pin->centre = one->centre;
  pin->angle = one->angle;
  pin->work = hw_work_new ();
  pin->work->threads_done = fuzz_choice (bytes, 6);
  hw_turns_settle (pin, plan->snapshot, one);
  g_ptr_array_add (fuzz_choice (bytes, 4) == 0 ? scene->frozen : scene->pins, pin);
  first = fuzz_choice (bytes, scene->motifs->len);
  second = fuzz_choice (bytes, scene->motifs->len);
  motif = scene->motifs->pdata[first];
  scene->motifs->pdata[first] = scene->motifs->pdata[second];
  scene->motifs->pdata[second] = motif;
  scene->wishes.interleave ^= fuzz_choice (bytes, 2);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  FuzzBytes bytes = { data, size };
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = SECONDS };

  add_hoops (scene, &bytes);
  add_motifs (scene, &bytes);
  add_wishes (scene, &bytes);
  g_autoptr (HwPlan) plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
  g_assert_nonnull (plan);
  check (plan);
  if (scene->motifs->len > 0)
    {
      g_autoptr (HwSnapshot) moved
          = scene_moved (scene, fuzz_choice (&bytes, scene->motifs->len), fuzz_between (&bytes, -90, 90), 0);
      g_autoptr (HwPlan) again = hw_planner_plan (planner, moved, &options, NULL, NULL, NULL);

      check (again);
      if (again->n_hoopings > 0)
        {
          g_autoptr (HwSnapshot) later = hw_snapshot_copy (moved);

          begin_one (later, again, &bytes);
          g_autoptr (HwPlan) last = hw_planner_plan (planner, later, &options, NULL, NULL, NULL);
          check (last);
        }
    }
  return 0;
}
