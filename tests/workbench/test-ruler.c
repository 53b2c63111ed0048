/* How the rulers are divided. */
#include "workbench/ruler.h"

#include <math.h>

static void
test_figures_never_crowd (void)
{
  for (int i = 0; i < 1000; i++)
    {
      double zoom = exp (g_test_rand_double_range (log (HW_VIEW_MIN_ZOOM), log (HW_VIEW_MAX_ZOOM)));
      HwUnit unit = g_test_rand_bit () ? HW_UNIT_INCH : HW_UNIT_MM;
      HwRulerSteps steps = hw_ruler_steps (zoom, unit);
      double apart = steps.label * steps.unit_mm * zoom;

      g_assert_cmpfloat (apart, >=, 56);
      g_assert_cmpfloat (apart / steps.parts, >=, 4.9);
      /* nor are there so few that one has to guess */
      g_assert_cmpfloat (apart, <=, 260);
    }
}

static void
test_units (void)
{
  g_assert_cmpfloat (hw_ruler_steps (1.3, HW_UNIT_MM).label, ==, 50);
  g_assert_cmpfloat (hw_ruler_steps (1.3, HW_UNIT_MM).unit_mm, ==, 1);
  g_assert_cmpfloat (hw_ruler_steps (1.3, HW_UNIT_INCH).unit_mm, ==, 25.4);
}

/* At true size on a screen of 96 px to the inch (CSS Values 3, 6.2) an inch is divided into sixteenths, as on a tape measure. */
static void
test_inch_at_true_size (void)
{
  HwRulerSteps steps = hw_ruler_steps (96 / 25.4, HW_UNIT_INCH);

  g_assert_cmpfloat (steps.label, ==, 1);
  g_assert_cmpuint (steps.parts, ==, 16);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ruler/figures-never-crowd", test_figures_never_crowd);
  g_test_add_func ("/ruler/units", test_units);
  g_test_add_func ("/ruler/inch-at-true-size", test_inch_at_true_size);
  return g_test_run ();
}
