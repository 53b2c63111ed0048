/* The quick sharing test against the exact one, over all small sets of made-up scenes. */
#include "random-scenes.h"

#include "../../src/planning/placings.h"
#include "../../src/planning/set-fit.h"
#include "../../src/planning/sharing.h"

static gboolean
fits_exactly (const HwSnapshot *scene, const guint *set, guint n)
{
  g_autoptr (GArray) hull = hw_sharing_hull (scene, set, n);

  for (guint h = 0; h < scene->hoops->len; h++)
    if (hw_sharing_fits ((const HwPoint *)hull->data, hull->len, hw_snapshot_hoop (scene, h), &scene->fabric))
      return TRUE;
  return FALSE;
}

static void
agrees_with_the_exact_test (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  HwPlacings *placings = hw_placings_new ();
  HwSetFit *fit = hw_set_fit_new ();
  guint yes = 0, no = 0;

  for (guint round = 0; round < 120; round++)
    {
      g_autoptr (HwSnapshot) scene = scene_random (rand, round % SCENE_KINDS, 8, 2.5);

      scene->fabric.hold = round % 3 == 0 ? HW_HOLD_CLAMPED : HW_HOLD_FLOATED;
      hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 8);
      for (guint ask = 0; ask < 200; ask++)
        {
          guint set[3], n = g_rand_int_range (rand, 1, 4);
          gboolean exactly;

          set[0] = g_rand_int_range (rand, 0, 8);
          set[1] = (set[0] + g_rand_int_range (rand, 1, 4)) % 8;
          set[2] = (set[1] + g_rand_int_range (rand, 1, 4)) % 8;
          exactly = fits_exactly (scene, set, n);
          g_assert_cmpint (hw_set_fit_ask (fit, set, n), ==, exactly);
          yes += exactly;
          no += !exactly;
        }
    }
  g_assert_cmpuint (yes, >, 1000);
  g_assert_cmpuint (no, >, 1000);
  hw_set_fit_free (fit);
  hw_placings_free (placings);
}

/* Just fitting and just not fitting, straight and turned. */
static void
decides_by_a_hair (void)
{
  HwPlacings *placings = hw_placings_new ();
  HwSetFit *fit = hw_set_fit_new ();

  for (int degrees = 0; degrees < 180; degrees += 7)
    for (int over = 0; over < 2; over++)
      {
        g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
        guint set[] = { 0 };

        scene_add_hoop (scene, "h", 130, 180, HW_TURN_ANY);
        scene_add_motif (scene, hw_outline_new_rectangle (126 + (over ? 1e-4 : -1e-4), 176),
                         (HwPlacement){ { 300, 300 }, degrees, 1, FALSE });
        hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1);
        g_assert_cmpint (hw_set_fit_ask (fit, set, 1), ==, !over);
      }
  hw_set_fit_free (fit);
  hw_placings_free (placings);
}

/* Motifs exactly as large as a large hoop takes, straight or in quarters, however their size is rounded. */
static void
what_fills_a_large_hoop_fits (void)
{
  HwPlacings *placings = hw_placings_new ();
  HwSetFit *fit = hw_set_fit_new ();

  for (guint k = 0; k < 200; k++)
    {
      g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
      guint set[] = { 0 };
      double high = 1000 + 0.37 * k;

      scene_add_hoop (scene, "h", 204, high + 4, k % 2 ? HW_TURN_ANY : HW_TURN_QUARTER);
      scene_add_motif (scene, hw_outline_new_rectangle (200, high),
                       (HwPlacement){ { 800, 900 }, k % 4 < 2 ? 0 : 90, 1, FALSE });
      hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1);
      g_assert_true (fits_exactly (scene, set, 1));
      g_assert_true (hw_set_fit_ask (fit, set, 1));
    }
  hw_set_fit_free (fit);
  hw_placings_free (placings);
}

static void
changed_hoops_are_noticed (void)
{
  HwPlacings *placings = hw_placings_new ();
  HwSetFit *fit = hw_set_fit_new ();
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  guint set[] = { 0 };
  HwHoop *wider;

  scene_add_hoop (scene, "h", 100, 100, HW_TURN_ANY);
  scene_add_motif (scene, hw_outline_new_ellipse (120, 90, 40), (HwPlacement){ { 300, 300 }, 33, 1, FALSE });
  g_assert_true (hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1));
  g_assert_false (hw_set_fit_ask (fit, set, 1));
  g_assert_false (hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1));
  wider = hw_hoop_copy (hw_snapshot_hoop (scene, 0));
  wider->field_width = 125;
  hw_hoop_unref (scene->hoops->pdata[0]);
  scene->hoops->pdata[0] = wider;
  g_assert_true (hw_set_fit_begin (fit, scene, hw_placings_take (placings, scene), 1));
  g_assert_true (hw_set_fit_ask (fit, set, 1));
  hw_set_fit_free (fit);
  hw_placings_free (placings);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/set-fit/agrees-with-the-exact-test", agrees_with_the_exact_test);
  g_test_add_func ("/set-fit/decides-by-a-hair", decides_by_a_hair);
  g_test_add_func ("/set-fit/what-fills-a-large-hoop-fits", what_fills_a_large_hoop_fits);
  g_test_add_func ("/set-fit/changed-hoops-are-noticed", changed_hoops_are_noticed);
  return g_test_run ();
}
