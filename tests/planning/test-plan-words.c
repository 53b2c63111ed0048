/* A plan said again in another unit or language says the same, sentence by sentence. */
#include "planning/plan.h"

#include <string.h>

#include "formats/scene-file.h"
#include "geometry/language.h"
#include "random-scenes.h"

static HwPlan *
plan_scene (const HwSnapshot *scene, HwUnit unit)
{
  HwPlanner *planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = 0.2, .unit = unit };
  HwPlan *plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);

  hw_planner_free (planner);
  return plan;
}

static void
assert_says_as (const HwPlan *plan, const HwPlan *other)
{
  g_assert_cmpstr (plan->proof, ==, other->proof);
  g_assert_cmpuint (plan->problems->len, ==, other->problems->len);
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *a = plan->problems->pdata[i], *b = other->problems->pdata[i];

      g_assert_cmpstr (a->text, ==, b->text);
      g_assert_cmpint (a->kind, ==, b->kind);
      g_assert_cmpint (a->motif, ==, b->motif);
      g_assert_cmpint (a->other, ==, b->other);
      g_assert_cmpint (a->hooping, ==, b->hooping);
      g_assert_cmpint (a->grave, ==, b->grave);
      g_assert_cmpfloat (a->amount, ==, b->amount);
    }
}

static void
assert_same_figures (const HwPlan *plan, const HwPlan *other)
{
  g_assert_cmpint (plan->status, ==, other->status);
  g_assert_cmpuint (plan->lower_bound, ==, other->lower_bound);
  g_assert_cmpuint (plan->n_hoopings, ==, other->n_hoopings);
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      const HwHooping *a = &plan->hoopings[h], *b = &other->hoopings[h];

      g_assert_cmpuint (a->n_marks, ==, b->n_marks);
      for (guint i = 0; i < a->n_marks; i++)
        g_assert_true (hw_point_distance (a->marks[i].at, b->marks[i].at) == 0);
      for (guint i = 0; i < a->n_motifs; i++)
        g_assert_cmpfloat (a->predicted_error[i], ==, b->predicted_error[i]);
    }
}

/* Said in the other unit and back again, it is what the planner said. */
static void
assert_comes_back (const HwSnapshot *scene, guint *sentences)
{
  g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_MM);
  g_autoptr (HwPlan) inches = hw_plan_said_again (plan, HW_UNIT_INCH);
  g_autoptr (HwPlan) back = hw_plan_said_again (inches, HW_UNIT_MM);

  g_assert_true (inches != plan);
  assert_same_figures (inches, plan);
  assert_says_as (back, plan);
  for (guint i = 0; i < inches->problems->len; i++)
    g_assert_null (strstr (((const HwProblem *)inches->problems->pdata[i])->text, " mm "));
  *sentences += plan->problems->len;
}

/* A scene in which much is wrong: what is apart, scaled, clamped, over the edge line. */
static HwSnapshot *
troubled_scene (GRand *rand, guint kind)
{
  HwSnapshot *scene = scene_random (rand, kind % SCENE_KINDS, 14, 1.2);

  scene->fabric.hold = g_rand_boolean (rand) ? HW_HOLD_CLAMPED : HW_HOLD_FLOATED;
  scene->wishes.density_limit = 0.2;
  scene->wishes.scale_low = 0.95;
  g_ptr_array_add (scene->apart, hw_apart_new ("m1", "m2"));
  g_ptr_array_add (scene->apart, hw_apart_new ("m3", "m5"));
  return scene;
}

/* The scene with the plan's first hooping stitched and its second pinned, the second where the hoop cannot take it any more. */
static HwSnapshot *
with_held (const HwSnapshot *scene, const HwPlan *plan)
{
  HwSnapshot *held = hw_snapshot_copy (scene);

  for (guint h = 0; h < 2 && h < plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &plan->hoopings[h];
      HwPin *pin = hw_pin_new ();
      char **motifs = g_new0 (char *, hooping->n_motifs + 1);

      for (guint k = 0; k < hooping->n_motifs; k++)
        motifs[k] = g_strdup (hw_snapshot_motif (scene, hooping->motifs[k])->id);
      pin->hoop = g_strdup (hw_snapshot_hoop (scene, hooping->hoop)->id);
      pin->centre = (HwPoint){ hooping->centre.x + 40 * h, hooping->centre.y };
      pin->angle = hooping->angle;
      pin->motifs = motifs;
      g_ptr_array_add (h == 0 ? held->frozen : held->pins, pin);
    }
  return held;
}

static void
test_held (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed ((guint32)g_test_rand_int ());
  guint sentences = 0;

  for (guint round = 0; round < 10; round++)
    {
      g_autoptr (HwSnapshot) scene = troubled_scene (rand, round), held = NULL;
      g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_MM);

      held = with_held (scene, plan);
      assert_comes_back (held, &sentences);
    }
  g_assert_cmpuint (sentences, >, 50);
}

static void
test_unit (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed ((guint32)g_test_rand_int ());
  guint sentences = 0;

  for (guint round = 0; round < 20; round++)
    {
      g_autoptr (HwSnapshot) scene = troubled_scene (rand, round);

      assert_comes_back (scene, &sentences);
    }
  g_assert_cmpuint (sentences, >, 100);
}

static void
test_same_is_itself (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 6, 1);
  g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_INCH);
  g_autoptr (HwPlan) again = hw_plan_said_again (plan, HW_UNIT_INCH);

  g_assert_true (again == plan);
}

static void
test_language (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (HwSnapshot) scene = troubled_scene (rand, SCENE_CHAIN);
  g_autoptr (HwPlan) plan = plan_scene (scene, HW_UNIT_MM), again = NULL;
  const HwLanguage *before;

  hw_language_set_folder (g_getenv ("HOOPWRIGHT_CATALOGUE_DIR"));
  before = hw_language_enter (hw_language_open ("de", NULL));
  g_assert_nonnull (hw_language_now ());
  again = hw_plan_said_again (plan, HW_UNIT_MM);
  hw_language_leave (before);
  assert_same_figures (again, plan);
  g_assert_cmpuint (again->problems->len, ==, plan->problems->len);
  g_assert_cmpuint (plan->problems->len, >, 0);
  for (guint i = 0; i < plan->problems->len; i++)
    g_assert_cmpstr (((const HwProblem *)again->problems->pdata[i])->text, !=,
                     ((const HwProblem *)plan->problems->pdata[i])->text);
  g_assert_cmpstr (again->proof, !=, plan->proof);
}

static void
test_demo_scenes (void)
{
  static const char *const names[] = { "walled-garden", "orchard-frieze" };
  guint sentences = 0;

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *file = g_strconcat (names[i], ".hoopscene", NULL);
      g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "demo", file, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwSnapshot) scene = hw_scene_file_load (path, &error);

      g_assert_no_error (error);
      assert_comes_back (scene, &sentences);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/plan-words/unit", test_unit);
  g_test_add_func ("/planning/plan-words/held", test_held);
  g_test_add_func ("/planning/plan-words/same-is-itself", test_same_is_itself);
  g_test_add_func ("/planning/plan-words/language", test_language);
  g_test_add_func ("/planning/plan-words/demo-scenes", test_demo_scenes);
  return g_test_run ();
}
