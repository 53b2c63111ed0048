/* How the cloth is seen on the table. */
#include "workbench/canvas-view.h"

#include <math.h>

#define CLOSE(a, b) g_assert_cmpfloat_with_epsilon ((a), (b), 1e-9)

static HwView
some_view (void)
{
  return (HwView){ g_test_rand_double_range (0.2, 8), g_test_rand_double_range (-400, 400),
                   g_test_rand_double_range (-400, 400) };
}

static HwPoint
some_point (void)
{
  return (HwPoint){ g_test_rand_double_range (-900, 900), g_test_rand_double_range (-900, 900) };
}

static void
test_there_and_back (void)
{
  for (int i = 0; i < 500; i++)
    {
      HwView view = some_view ();
      HwPoint mm = some_point (), back = hw_view_to_cloth (&view, hw_view_to_pixels (&view, mm));

      g_assert_cmpfloat_with_epsilon (back.x, mm.x, 1e-7);
      g_assert_cmpfloat_with_epsilon (back.y, mm.y, 1e-7);
    }
}

static void
test_zoom_keeps_the_point_under_the_pointer (void)
{
  for (int i = 0; i < 500; i++)
    {
      HwView view = some_view ();
      HwPoint at = some_point (), before = hw_view_to_cloth (&view, at), after;

      hw_view_zoom_at (&view, g_test_rand_double_range (0.01, 40), at);
      after = hw_view_to_cloth (&view, at);
      g_assert_cmpfloat_with_epsilon (before.x, after.x, 1e-6);
      g_assert_cmpfloat_with_epsilon (before.y, after.y, 1e-6);
      g_assert_cmpfloat (view.zoom, >=, HW_VIEW_MIN_ZOOM);
      g_assert_cmpfloat (view.zoom, <=, HW_VIEW_MAX_ZOOM);
    }
}

static void
test_fit_shows_all_in_the_middle (void)
{
  HwView view = { 1, 0, 0 };
  HwBox area = { 26, 26, 1026, 826 }, box;

  hw_view_fit (&view, (HwBox){ 0, 0, 700, 540 }, area, 30);
  box = hw_view_box_to_pixels (&view, (HwBox){ 0, 0, 700, 540 });
  /* The width is what limits: 940 px for 700 mm. */
  CLOSE (view.zoom, 940.0 / 700);
  CLOSE (box.x0, 56);
  CLOSE (box.x1, 996);
  CLOSE (box.y0 - area.y0, area.y1 - box.y1);
  g_assert_cmpfloat (box.y0, >=, area.y0 + 30);
}

static void
test_fit_survives_a_window_too_small (void)
{
  HwView view = { 1, 0, 0 };

  hw_view_fit (&view, (HwBox){ 0, 0, 700, 540 }, (HwBox){ 26, 26, 20, 20 }, 30);
  g_assert_cmpfloat (view.zoom, >=, HW_VIEW_MIN_ZOOM);
  g_assert_true (isfinite (view.x) && isfinite (view.y));
}

static void
test_cloth_is_never_lost (void)
{
  HwBox cloth = { 0, 0, 700, 540 }, area = { 26, 26, 1000, 700 };

  for (int i = 0; i < 500; i++)
    {
      HwView view = some_view ();
      HwBox box;

      view.x *= 20;
      view.y *= 20;
      hw_view_keep_in (&view, cloth, area, 90);
      box = hw_view_box_to_pixels (&view, cloth);
      g_assert_cmpfloat (MIN (box.x1, area.x1) - MAX (box.x0, area.x0), >=, 90 - 1e-6);
      g_assert_cmpfloat (MIN (box.y1, area.y1) - MAX (box.y0, area.y0), >=, 90 - 1e-6);
    }
}

static void
test_keeping_in_leaves_a_cloth_in_sight_alone (void)
{
  HwView view = { 1, 100, 80 };

  hw_view_keep_in (&view, (HwBox){ 0, 0, 700, 540 }, (HwBox){ 26, 26, 1000, 700 }, 90);
  CLOSE (view.x, 100);
  CLOSE (view.y, 80);
}

static void
test_show_moves_as_little_as_needed (void)
{
  HwView view = { 2, 0, 0 };
  HwBox area = { 26, 26, 1026, 726 };

  hw_view_show (&view, (HwPoint){ 200, 200 }, area, 60);
  CLOSE (view.x, 0);
  CLOSE (view.y, 0);
  hw_view_show (&view, (HwPoint){ 600, 200 }, area, 60);
  CLOSE (hw_view_to_pixels (&view, (HwPoint){ 600, 200 }).x, 966);
  CLOSE (view.y, 0);
}

/* No touchpad is needed for this: it is what the pinch calls. */
static void
test_a_pinch_keeps_the_cloth_under_the_fingers (void)
{
  const HwView start = { 2, 30, 40 };
  const HwPoint from = { 230, 140 }, at = { 260, 120 };
  HwPoint held = hw_view_to_cloth (&start, from), now;
  HwView view = start;

  hw_view_pinch (&view, &start, from, at, 1.5);
  g_assert_cmpfloat_with_epsilon (view.zoom, 3, 1e-12);
  now = hw_view_to_pixels (&view, held);
  g_assert_cmpfloat_with_epsilon (now.x, at.x, 1e-9);
  g_assert_cmpfloat_with_epsilon (now.y, at.y, 1e-9);
  /* Two fingers that only go sideways push the cloth. */
  hw_view_pinch (&view, &start, from, at, 1);
  g_assert_cmpfloat_with_epsilon (view.zoom, start.zoom, 1e-12);
  g_assert_cmpfloat_with_epsilon (view.x, start.x + 30, 1e-9);
  g_assert_cmpfloat_with_epsilon (view.y, start.y - 20, 1e-9);
  /* At the end of the zoom it still follows them. */
  hw_view_pinch (&view, &start, from, at, 1000);
  g_assert_cmpfloat (view.zoom, ==, HW_VIEW_MAX_ZOOM);
  now = hw_view_to_pixels (&view, held);
  g_assert_cmpfloat_with_epsilon (now.x, at.x, 1e-9);
}

/* No size at all, or one as large as a field: the zoom has its ends. */
static void
test_fit_stays_within_the_zooms_ends (void)
{
  HwView view = some_view ();

  hw_view_fit (&view, (HwBox){ 200, 100, 200, 100 }, (HwBox){ 0, 0, 1000, 600 }, 30);
  g_assert_cmpfloat (view.zoom, ==, HW_VIEW_MAX_ZOOM);
  CLOSE (hw_view_to_pixels (&view, (HwPoint){ 200, 100 }).x, 500);
  CLOSE (hw_view_to_pixels (&view, (HwPoint){ 200, 100 }).y, 300);
  hw_view_fit (&view, (HwBox){ 0, 0, 99000, 99000 }, (HwBox){ 0, 0, 1000, 600 }, 30);
  g_assert_cmpfloat (view.zoom, ==, HW_VIEW_MIN_ZOOM);
  hw_view_zoom_at (&view, 0.5, (HwPoint){ 0, 0 });
  g_assert_cmpfloat (view.zoom, ==, HW_VIEW_MIN_ZOOM);
  hw_view_pinch (&view, &view, (HwPoint){ 0, 0 }, (HwPoint){ 0, 0 }, 0.5);
  g_assert_cmpfloat (view.zoom, ==, HW_VIEW_MIN_ZOOM);
}

/* Where there is less room than is to be kept free, what is asked for comes to the middle. */
static void
test_show_in_a_narrow_place_comes_to_the_middle (void)
{
  HwView view = { .zoom = 2, .x = 0, .y = 0 };

  hw_view_show (&view, (HwPoint){ 900, 900 }, (HwBox){ 0, 0, 80, 60 }, 60);
  CLOSE (hw_view_to_pixels (&view, (HwPoint){ 900, 900 }).x, 40);
  CLOSE (hw_view_to_pixels (&view, (HwPoint){ 900, 900 }).y, 30);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/canvas-view/there-and-back", test_there_and_back);
  g_test_add_func ("/canvas-view/zoom-keeps-the-point-under-the-pointer",
                   test_zoom_keeps_the_point_under_the_pointer);
  g_test_add_func ("/canvas-view/fit-shows-all-in-the-middle", test_fit_shows_all_in_the_middle);
  g_test_add_func ("/canvas-view/fit-survives-a-window-too-small", test_fit_survives_a_window_too_small);
  g_test_add_func ("/canvas-view/cloth-is-never-lost", test_cloth_is_never_lost);
  g_test_add_func ("/canvas-view/keeping-in-leaves-a-cloth-in-sight-alone",
                   test_keeping_in_leaves_a_cloth_in_sight_alone);
  g_test_add_func ("/canvas-view/show-moves-as-little-as-needed", test_show_moves_as_little_as_needed);
  g_test_add_func ("/canvas-view/fit-stays-within-the-zooms-ends", test_fit_stays_within_the_zooms_ends);
  g_test_add_func ("/canvas-view/show-in-a-narrow-place", test_show_in_a_narrow_place_comes_to_the_middle);
  g_test_add_func ("/canvas-view/pinch", test_a_pinch_keeps_the_cloth_under_the_fingers);
  return g_test_run ();
}
