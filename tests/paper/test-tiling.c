/* Tiles show everything, share their edges, and are no more than needed. */
#include <glib.h>
#include <math.h>

#include "../../src/paper/tiling.h"

static HwTiling
random_tiling (void)
{
  double x = g_test_rand_double_range (-500, 500), y = g_test_rand_double_range (-500, 500);
  HwBox extent = { x, y, x + g_test_rand_double_range (1, 1500), y + g_test_rand_double_range (1, 1500) };

  return hw_tiling_new (extent, g_test_rand_double_range (60, 400), g_test_rand_double_range (60, 400),
                        g_test_rand_double_range (0, 15));
}

static gboolean
shown (const HwTiling *tiling, HwPoint p)
{
  for (guint c = 0; c < tiling->columns; c++)
    for (guint r = 0; r < tiling->rows; r++)
      {
        HwBox w = hw_tiling_window (tiling, c, r);

        if (p.x >= w.x0 && p.x <= w.x1 && p.y >= w.y0 && p.y <= w.y1)
          return TRUE;
      }

  return FALSE;
}

static void
test_every_point_is_shown (void)
{
  for (guint i = 0; i < 300; i++)
    {
      HwTiling t = random_tiling ();

      for (guint k = 0; k < 40; k++)
        {
          HwPoint p = { g_test_rand_double_range (t.extent.x0, t.extent.x1),
                        g_test_rand_double_range (t.extent.y0, t.extent.y1) };

          g_assert_true (shown (&t, p));
        }
      g_assert_true (shown (&t, (HwPoint){ t.extent.x0 + 1e-5, t.extent.y0 + 1e-5 }));
      g_assert_true (shown (&t, (HwPoint){ t.extent.x1 - 1e-5, t.extent.y1 - 1e-5 }));
    }
}

static void
test_neighbours_share_the_overlap (void)
{
  for (guint i = 0; i < 300; i++)
    {
      HwTiling t = random_tiling ();

      for (guint c = 0; c + 1 < t.columns; c++)
        g_assert_cmpfloat_with_epsilon (hw_tiling_window (&t, c, 0).x1 - hw_tiling_window (&t, c + 1, 0).x0,
                                        t.overlap, 1e-9);
      for (guint r = 0; r + 1 < t.rows; r++)
        g_assert_cmpfloat_with_epsilon (hw_tiling_window (&t, 0, r).y1 - hw_tiling_window (&t, 0, r + 1).y0,
                                        t.overlap, 1e-9);
    }
}

static void
test_no_tile_too_many (void)
{
  for (guint i = 0; i < 300; i++)
    {
      HwTiling t = random_tiling ();
      double fewer_x = (t.columns - 1) * t.width - (t.columns - 2.0) * t.overlap;
      double fewer_y = (t.rows - 1) * t.height - (t.rows - 2.0) * t.overlap;

      if (t.columns > 1)
        g_assert_cmpfloat (fewer_x, <, t.extent.x1 - t.extent.x0);
      if (t.rows > 1)
        g_assert_cmpfloat (fewer_y, <, t.extent.y1 - t.extent.y0);
    }
}

static void
test_exact_fit_is_one_tile (void)
{
  HwTiling t = hw_tiling_new ((HwBox){ -95, -100, 95, 100 }, 190, 200, 10);

  g_assert_cmpuint (hw_tiling_count (&t), ==, 1);
  t = hw_tiling_new ((HwBox){ -95, -100, 95.1, 100 }, 190, 200, 10);
  g_assert_cmpuint (t.columns, ==, 2);
  g_assert_cmpuint (t.rows, ==, 1);
}

static void
assert_name (guint column, guint row, const char *expected)
{
  g_autofree char *name = hw_tile_name (column, row);

  g_assert_cmpstr (name, ==, expected);
}

/* The cross mark in the middle of a template is the last place for a join. */
static void
test_a_point_is_kept_clear_of_joins (void)
{
  HwTiling t = hw_tiling_new ((HwBox){ -150, -40, 150, 40 }, 190, 200, 10);
  double join;

  g_assert_cmpuint (t.columns, ==, 2);
  g_assert_cmpfloat_with_epsilon (hw_tiling_window (&t, 0, 0).x1 - 5, 0, 1e-9);
  hw_tiling_keep_clear (&t, (HwPoint){ 0, 0 });
  join = hw_tiling_window (&t, 0, 0).x1 - 5;
  g_assert_cmpfloat (ABS (join), >=, 35 - 1e-9);
}

static void
test_everything_is_shown_with_a_point_kept_clear (void)
{
  for (guint i = 0; i < 300; i++)
    {
      HwTiling t = random_tiling ();

      hw_tiling_keep_clear (&t, (HwPoint){ g_test_rand_double_range (t.extent.x0, t.extent.x1),
                                           g_test_rand_double_range (t.extent.y0, t.extent.y1) });
      for (guint k = 0; k < 40; k++)
        g_assert_true (shown (&t, (HwPoint){ g_test_rand_double_range (t.extent.x0, t.extent.x1),
                                             g_test_rand_double_range (t.extent.y0, t.extent.y1) }));
    }
}

static void
test_names (void)
{
  assert_name (0, 0, "A1");
  assert_name (1, 1, "B2");
  assert_name (25, 9, "Z10");
  assert_name (26, 0, "AA1");
  assert_name (27, 0, "AB1");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tiling/every-point-is-shown", test_every_point_is_shown);
  g_test_add_func ("/tiling/neighbours-share-the-overlap", test_neighbours_share_the_overlap);
  g_test_add_func ("/tiling/no-tile-too-many", test_no_tile_too_many);
  g_test_add_func ("/tiling/exact-fit-is-one-tile", test_exact_fit_is_one_tile);
  g_test_add_func ("/tiling/a-point-is-kept-clear-of-joins", test_a_point_is_kept_clear_of_joins);
  g_test_add_func ("/tiling/everything-is-shown-with-a-point-kept-clear",
                   test_everything_is_shown_with_a_point_kept_clear);
  g_test_add_func ("/tiling/names", test_names);

  return g_test_run ();
}
