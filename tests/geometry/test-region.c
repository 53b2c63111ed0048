/* Areas: repaired, measured, grown, cut and joined. */
#include <math.h>

#include "geometry/region.h"

static HwOutline *
outline_of (const HwPoint *points, guint n)
{
  HwRing ring = { (HwPoint *)points, n };

  return hw_outline_new (&ring, 1);
}

static HwOutline *
square_at (double x, double y, double side)
{
  g_autoptr (HwOutline) square = hw_outline_new_rectangle (side, side);

  return hw_outline_place (square, &(HwPlacement){ { x, y }, 0, 1, FALSE });
}

static void
test_repair_leaves_good_outlines_alone (void)
{
  g_autoptr (HwOutline) square = square_at (5, 5, 10);
  gboolean repaired = TRUE;
  g_autoptr (HwOutline) mended = hw_outline_repair (square, &repaired, NULL);

  g_assert_true (hw_outline_equal (square, mended));
  g_assert_false (repaired);
}

static void
test_repair_of_a_bow_tie (void)
{
  HwPoint points[] = { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } };
  g_autoptr (HwOutline) tie = outline_of (points, 4);
  gboolean repaired = FALSE;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwOutline) mended = hw_outline_repair (tie, &repaired, &error);

  g_assert_false (hw_outline_is_simple (tie));
  g_assert_no_error (error);
  g_assert_true (repaired);
  g_assert_cmpuint (mended->n_rings, ==, 2);
  g_assert_true (hw_outline_is_simple (mended));
  g_assert_cmpfloat_with_epsilon (hw_outline_area (mended), 50, 1e-9);
}

static void
test_repair_of_repeated_points (void)
{
  HwPoint points[] = { { 0, 0 }, { 10, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 0, 10 }, { 0, 0 } };
  g_autoptr (HwOutline) outline = outline_of (points, G_N_ELEMENTS (points));
  gboolean repaired = FALSE;
  g_autoptr (HwOutline) mended = hw_outline_repair (outline, &repaired, NULL);

  g_assert_true (repaired);
  g_assert_cmpuint (mended->rings[0].n_points, ==, 4);
  g_assert_cmpfloat (hw_outline_area (mended), ==, 100);
}

/* A ring that crosses another: even-odd, so what both cover is a hole. */
static void
test_repair_of_crossing_rings (void)
{
  HwPoint a[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } },
          b[] = { { 5, 2 }, { 15, 2 }, { 15, 8 }, { 5, 8 } };
  HwRing rings[] = { { a, 4 }, { b, 4 } };
  g_autoptr (HwOutline) outline = hw_outline_new (rings, 2);
  g_autoptr (HwOutline) mended = hw_outline_repair (outline, NULL, NULL);

  g_assert_false (hw_outline_is_simple (outline));
  g_assert_cmpfloat_with_epsilon (hw_outline_area (mended), 100 + 60 - 2 * 30, 1e-9);
  for (guint i = 0; i < 200; i++)
    {
      HwPoint p = { g_test_rand_double_range (-1, 16), g_test_rand_double_range (-1, 11) };

      g_assert_cmpint (hw_outline_contains (outline, p), ==, hw_outline_contains (mended, p));
    }
}

static void
assert_refused (const HwPoint *points, guint n, int code)
{
  g_autoptr (HwOutline) outline = outline_of (points, n);
  g_autoptr (GError) error = NULL;
  gboolean repaired;
  HwOutline *mended = hw_outline_repair (outline, &repaired, &error);

  g_assert_null (mended);
  g_assert_error (error, HW_REGION_ERROR, code);
  g_assert_cmpuint (strlen (error->message), >, 10);
}

static void
test_repair_refuses_by_name (void)
{
  HwPoint flat[] = { { 0, 0 }, { 10, 0 }, { 20, 0 }, { 5, 0 } };
  HwPoint same[] = { { 1, 1 }, { 1, 1 }, { 1, 1 } };
  HwPoint there_and_back[] = { { 0, 0 }, { 10, 5 }, { 20, 0 }, { 10, 5 } };
  HwPoint no_number[] = { { 0, 0 }, { 10, NAN }, { 5, 5 } };
  HwPoint endless[] = { { 0, 0 }, { INFINITY, 0 }, { 5, 5 } };
  HwPoint huge[] = { { 0, 0 }, { 1e300, 0 }, { 0, 1e300 } };

  assert_refused (flat, 4, HW_REGION_ERROR_EMPTY);
  assert_refused (same, 3, HW_REGION_ERROR_EMPTY);
  assert_refused (there_and_back, 4, HW_REGION_ERROR_EMPTY);
  assert_refused (no_number, 3, HW_REGION_ERROR_NOT_FINITE);
  assert_refused (endless, 3, HW_REGION_ERROR_NOT_FINITE);
  assert_refused (huge, 3, HW_REGION_ERROR_NOT_FINITE);
  assert_refused (NULL, 0, HW_REGION_ERROR_EMPTY);
}

/* Ten thousand points: a scribble is refused at once, a fine coast line is kept. */
static void
test_ten_thousand_points (void)
{
  const guint n = 10000;
  g_autofree HwPoint *points = g_new (HwPoint, n);
  g_autoptr (HwOutline) coast = NULL;
  g_autoptr (HwOutline) mended = NULL;
  gboolean repaired = TRUE;

  for (guint i = 0; i < n; i++)
    points[i] = (HwPoint){ g_test_rand_double_range (-50, 50), g_test_rand_double_range (-50, 50) };
  assert_refused (points, n, HW_REGION_ERROR_CROSSING);

  for (guint i = 0; i < n; i++)
    {
      HwPoint unit = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * i / n);
      double reach = 50 + 3 * sin (i * 0.05) + 0.001 * (i % 2);

      points[i] = (HwPoint){ unit.x * reach, unit.y * reach };
    }
  coast = outline_of (points, n);
  mended = hw_outline_repair (coast, &repaired, NULL);
  g_assert_false (repaired);
  g_assert_cmpuint (mended->rings[0].n_points, ==, n);
}

/* Whatever comes in: a valid outline with the even-odd inside, or an error. */
static void
test_repair_of_random_rings (void)
{
  guint mended_ones = 0;

  for (guint i = 0; i < 1500; i++)
    {
      HwPoint points[2][9];
      guint n[2] = { g_test_rand_int_range (3, 10), g_test_rand_int_range (3, 10) };
      HwRing rings[] = { { points[0], n[0] }, { points[1], n[1] } };
      g_autoptr (HwOutline) outline = NULL;
      g_autoptr (HwOutline) mended = NULL;
      g_autoptr (GError) error = NULL;
      gboolean coarse = g_test_rand_bit ();

      for (guint r = 0; r < 2; r++)
        for (guint k = 0; k < n[r]; k++)
          points[r][k] = coarse
                             ? (HwPoint){ g_test_rand_int_range (0, 5), g_test_rand_int_range (0, 5) }
                             : (HwPoint){ g_test_rand_double_range (0, 5), g_test_rand_double_range (0, 5) };
      outline = hw_outline_new (rings, 1 + g_test_rand_bit ());
      mended = hw_outline_repair (outline, NULL, &error);
      g_assert_true ((mended == NULL) == (error != NULL));
      if (mended == NULL)
        continue;
      mended_ones++;
      g_assert_true (hw_outline_is_simple (mended));
      g_assert_cmpfloat (hw_outline_area (mended), >, 0);
      for (guint k = 0; k < 20; k++)
        {
          /* Off every line between whole numbers, so that no point lies on a side. */
          HwPoint p = { g_test_rand_double_range (0, 5), g_test_rand_double_range (0, 5) };
          gboolean inside = hw_outline_contains (outline, p);

          if (inside != hw_outline_contains (mended, p))
            g_assert_cmpfloat (hw_outline_distance_to_point (inside ? mended : outline, p), <, 1e-9);
        }
    }
  g_assert_cmpuint (mended_ones, >, 1000);
}

static void
test_area_takes_holes_off (void)
{
  HwPoint outer[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } };
  HwPoint hole[] = { { 3, 3 }, { 7, 3 }, { 7, 7 }, { 3, 7 } };
  HwPoint island[] = { { 4, 4 }, { 6, 4 }, { 6, 6 }, { 4, 6 } };
  HwRing rings[] = { { island, 4 }, { hole, 4 }, { outer, 4 } };
  g_autoptr (HwOutline) outline = hw_outline_new (rings, 3);

  g_assert_true (hw_outline_is_simple (outline));
  g_assert_cmpfloat (hw_outline_area (outline), ==, 100 - 16 + 4);
}

static void
test_distances (void)
{
  g_autoptr (HwOutline) a = square_at (0, 0, 10);
  g_autoptr (HwOutline) b = square_at (20, 0, 10);
  g_autoptr (HwOutline) c = square_at (13, 14, 10);
  g_autoptr (HwOutline) within = square_at (0, 0, 2);

  g_assert_cmpfloat (hw_outline_distance (a, b), ==, 10);
  g_assert_cmpfloat (hw_outline_distance (a, c), ==, 5);
  g_assert_cmpfloat (hw_outline_distance (a, within), ==, 0);
  g_assert_cmpfloat (hw_outline_distance_to_point (a, (HwPoint){ 8, 9 }), ==, 5);
  g_assert_cmpfloat (hw_outline_distance_to_point (a, (HwPoint){ 1, 1 }), ==, 0);
}

static void
test_growing_and_shrinking (void)
{
  g_autoptr (HwOutline) square = square_at (0, 0, 10);
  g_autoptr (HwOutline) grown = hw_outline_grow (square, 2);
  g_autoptr (HwOutline) shrunk = hw_outline_grow (square, -2);

  /* Sides pushed out, and quarter circles of 16 chords at the corners. */
  g_assert_cmpfloat_with_epsilon (hw_outline_area (grown), 100 + 4 * 20 + G_PI * 4, 0.03);
  g_assert_cmpfloat_with_epsilon (hw_outline_area (shrunk), 36, 1e-9);
  g_assert_null (hw_outline_grow (square, -5));
}

static void
test_cutting_and_joining (void)
{
  g_autoptr (HwOutline) a = square_at (0, 0, 10);
  g_autoptr (HwOutline) b = square_at (5, 0, 10);
  g_autoptr (HwOutline) far = square_at (50, 0, 10);
  g_autoptr (HwOutline) small = square_at (0, 0, 4);
  g_autoptr (HwOutline) minus = hw_outline_minus (a, b);
  g_autoptr (HwOutline) common = hw_outline_common (a, b);
  g_autoptr (HwOutline) holed = hw_outline_minus (a, small);
  const HwOutline *all[] = { a, b, far };
  g_autoptr (HwOutline) joined = hw_outline_join (all, 3);

  g_assert_cmpfloat (hw_outline_area (minus), ==, 50);
  g_assert_cmpfloat (hw_outline_area (common), ==, 50);
  g_assert_cmpfloat (hw_outline_area (joined), ==, 250);
  g_assert_cmpuint (joined->n_rings, ==, 2);
  g_assert_cmpuint (holed->n_rings, ==, 2);
  g_assert_cmpfloat (hw_outline_area (holed), ==, 84);
  g_assert_null (hw_outline_common (a, far));
  g_assert_null (hw_outline_minus (small, a));
  g_assert_null (hw_outline_join (NULL, 0));
}

static gpointer
ask_often (gpointer data)
{
  g_autoptr (HwOutline) a = square_at (0, 0, 10);

  for (guint i = 0; i < 300; i++)
    {
      g_autoptr (HwOutline) b = square_at (g_random_double_range (-9, 9), 0, 10);
      g_autoptr (HwOutline) common = hw_outline_common (a, b);

      if (fabs (hw_outline_area (common) - hw_outline_overlap_area (a, b)) > 1e-9)
        return GINT_TO_POINTER (1);
    }
  return NULL;
}

static void
test_every_thread_may_ask (void)
{
  GThread *threads[4];

  for (guint i = 0; i < 4; i++)
    threads[i] = g_thread_new ("asking", ask_often, NULL);
  for (guint i = 0; i < 4; i++)
    g_assert_null (g_thread_join (threads[i]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region/repair-leaves-good-outlines-alone",
                   test_repair_leaves_good_outlines_alone);
  g_test_add_func ("/geometry/region/repair-of-a-bow-tie", test_repair_of_a_bow_tie);
  g_test_add_func ("/geometry/region/repair-of-repeated-points", test_repair_of_repeated_points);
  g_test_add_func ("/geometry/region/repair-of-crossing-rings", test_repair_of_crossing_rings);
  g_test_add_func ("/geometry/region/repair-refuses-by-name", test_repair_refuses_by_name);
  g_test_add_func ("/geometry/region/ten-thousand-points", test_ten_thousand_points);
  g_test_add_func ("/geometry/region/repair-of-random-rings", test_repair_of_random_rings);
  g_test_add_func ("/geometry/region/area-takes-holes-off", test_area_takes_holes_off);
  g_test_add_func ("/geometry/region/distances", test_distances);
  g_test_add_func ("/geometry/region/growing-and-shrinking", test_growing_and_shrinking);
  g_test_add_func ("/geometry/region/cutting-and-joining", test_cutting_and_joining);
  g_test_add_func ("/geometry/region/every-thread-may-ask", test_every_thread_may_ask);
  return g_test_run ();
}
