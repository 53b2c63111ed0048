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

/* How many pixels of a picture of 200 x 160 are marked in each ruler: along the top, down the left; and beyond both. */
typedef struct
{
  guint top, left, beyond;
} Marked;

static Marked
marked (HwBox extent, const HwPoint *pointer, gboolean dark)
{
  const HwView view = { .zoom = 1, .x = 0, .y = 0 };
  const guint breadth = HW_RULER_BREADTH;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 200, 160);
  cairo_t *cr = cairo_create (surface);
  Marked found = { 0, 0, 0 };

  hw_rulers_draw_marks (cr, &view, extent, pointer, 200, 160, dark);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  for (guint y = 0; y < 160; y++)
    for (guint x = 0; x < 200; x++)
      {
        const guint8 *pixel
            = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + 4 * x;

        if (pixel[3] == 0)
          continue;
        found.top += y < breadth && x >= breadth;
        found.left += x < breadth && y >= breadth;
        found.beyond += x >= breadth && y >= breadth;
      }
  cairo_surface_destroy (surface);
  return found;
}

static const HwBox no_box = { 1, 1, 0, 0 };

/* From 60 to 100 across and 50 to 80 down, on all of the ruler but its own line; where it lies past the window it ends with it. */
static void
test_what_is_selected_is_marked_in_both_rulers (void)
{
  const guint deep = HW_RULER_BREADTH - 1;

  for (guint dark = 0; dark < 2; dark++)
    {
      Marked here = marked ((HwBox){ 60, 50, 100, 80 }, NULL, dark);
      Marked past = marked ((HwBox){ 150, 130, 900, 700 }, NULL, dark);
      Marked before = marked ((HwBox){ -300, -200, 60, 50 }, NULL, dark);
      Marked gone = marked ((HwBox){ 300, 200, 400, 300 }, NULL, dark);

      g_assert_cmpuint (here.top, ==, 40 * deep);
      g_assert_cmpuint (here.left, ==, 30 * deep);
      g_assert_cmpuint (here.beyond, ==, 0);
      g_assert_cmpuint (past.top, ==, 50 * deep);
      g_assert_cmpuint (past.left, ==, 30 * deep);
      g_assert_cmpuint (before.top, ==, (60 - HW_RULER_BREADTH) * deep);
      g_assert_cmpuint (before.left, ==, (50 - HW_RULER_BREADTH) * deep);
      g_assert_cmpuint (gone.top + gone.left + gone.beyond, ==, 0);
    }
}

/* Over a ruler itself it has no place on the cloth. */
static void
test_the_pointer_is_marked_in_both_rulers (void)
{
  const HwPoint on_cloth = { 90, 70 }, over_top = { 90, 5 }, over_left = { 5, 70 };
  Marked none = marked (no_box, NULL, FALSE);

  for (guint dark = 0; dark < 2; dark++)
    {
      Marked there = marked (no_box, &on_cloth, dark), top = marked (no_box, &over_top, dark);
      Marked left = marked (no_box, &over_left, dark);

      g_assert_cmpuint (there.top, >, 20);
      g_assert_cmpuint (there.left, >, 20);
      g_assert_cmpuint (there.beyond, ==, 0);
      g_assert_cmpuint (top.top + top.left + top.beyond, ==, 0);
      g_assert_cmpuint (left.top + left.left + left.beyond, ==, 0);
    }
  g_assert_cmpuint (none.top + none.left + none.beyond, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ruler/figures-never-crowd", test_figures_never_crowd);
  g_test_add_func ("/ruler/units", test_units);
  g_test_add_func ("/ruler/selection", test_what_is_selected_is_marked_in_both_rulers);
  g_test_add_func ("/ruler/pointer", test_the_pointer_is_marked_in_both_rulers);
  g_test_add_func ("/ruler/inch-at-true-size", test_inch_at_true_size);
  return g_test_run ();
}
