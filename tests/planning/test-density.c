/* The density map counts needle holes per square millimetre: known patterns give known numbers. */
#include "planning/density.h"

#include <math.h>

#include "random-scenes.h"

/* columns x rows stitches, evenly placed over a square of so many mm about the motif's centre. */
static HwNeedleList *
even_stitches (guint columns, guint rows, double side)
{
  HwNeedlePoint *points = g_new0 (HwNeedlePoint, columns * rows + 2);
  char **threads = g_new0 (char *, 2);

  threads[0] = g_strdup ("moss");
  points[0].action = HW_NEEDLE_JUMP;
  for (guint i = 0; i < columns * rows; i++)
    {
      points[i + 1].x = (float)(((i % columns + 0.5) / columns - 0.5) * side);
      points[i + 1].y = (float)(((i / columns + 0.5) / rows - 0.5) * side);
      points[i + 1].action = HW_NEEDLE_STITCH;
    }
  points[columns * rows + 1].action = HW_NEEDLE_END;
  return hw_needle_list_new (points, columns * rows + 2, threads);
}

static void
add_square (HwSnapshot *scene, double side, HwPlacement placement, HwNeedleList *needles, guint stitches)
{
  const HwThreadBlock block = { (char *)"moss", { 0, 1, 0 }, stitches, NULL };

  scene_add_motif (scene, hw_outline_new_rectangle (side, side), placement);
  hw_motif_set_threads (scene->motifs->pdata[scene->motifs->len - 1], &block, 1);
  ((HwMotif *)scene->motifs->pdata[scene->motifs->len - 1])->needles = needles;
}

/* 28 x 25 stitches on 10 x 10 mm. */
static void
add_seven (HwSnapshot *scene, double x, double y, double angle, double scale)
{
  add_square (scene, 10, (HwPlacement){ { x, y }, angle, scale, FALSE }, even_stitches (28, 25, 10), 700);
}

/* The least and the most met within so many mm of a place. */
static void
look_around (const HwDensityMap *map, HwPoint middle, double reach, double *least, double *most)
{
  *least = G_MAXDOUBLE;
  *most = 0;
  for (double dx = -reach; dx <= reach; dx += 0.5)
    for (double dy = -reach; dy <= reach; dy += 0.5)
      {
        double here = hw_density_map_at (map, (HwPoint){ middle.x + dx, middle.y + dy });

        *least = MIN (*least, here);
        *most = MAX (*most, here);
      }
}

static void
assert_even (const HwDensityMap *map, HwPoint middle, double reach, double expected)
{
  double least, most;

  look_around (map, middle, reach, &least, &most);
  g_assert_cmpfloat (least, >=, expected * 0.95);
  g_assert_cmpfloat (most, <=, expected * 1.05);
}

/* 700 stitches on 100 mm^2 are 7 per mm^2, wherever the square lies and however it is turned. */
static void
even_square_has_its_density_all_over (void)
{
  const double places[] = { 100, 100.25, 100.5, 100.81 }, angles[] = { 0, 17, 45, 90, 200 };

  for (guint p = 0; p < G_N_ELEMENTS (places); p++)
    for (guint a = 0; a < G_N_ELEMENTS (angles); a++)
      {
        g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
        g_autoptr (HwDensityMap) map = NULL;

        add_seven (scene, places[p], 80 + places[p] / 7, angles[a], 1);
        map = hw_density_map_new (scene, NULL);
        g_assert_cmpfloat (hw_density_map_cell (map), ==, 1);
        assert_even (map, hw_snapshot_motif (scene, 0)->placement.position, 2.5, 7);
      }
}

static double
sum_of (const HwDensityMap *map)
{
  double cell = hw_density_map_cell (map), sum = 0;

  for (guint r = 0; r < hw_density_map_rows (map); r++)
    for (guint c = 0; c < hw_density_map_columns (map); c++)
      sum += hw_density_map_value (map, c, r) * cell * cell;
  return sum;
}

/* Jumps, trims and thread laid between holes count nothing; no hole is lost. */
static void
every_stitch_is_counted_once (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;

  for (guint i = 0; i < 20; i++)
    add_seven (scene, 30 + 17.3 * i, 40 + 9.1 * i, 13 * i, 0.5 + 0.1 * i);
  map = hw_density_map_new (scene, NULL);
  g_assert_cmpfloat_with_epsilon (sum_of (map), 20 * 700, 1e-6);
}

static void
layers_add_up (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;
  g_autoptr (GArray) stacked = NULL;
  HwPoint middle = { 100, 100 };

  add_seven (scene, 100, 100, 0, 1);
  add_seven (scene, 100, 100, 30, 1);
  map = hw_density_map_new (scene, NULL);
  assert_even (map, middle, 2, 14);
  g_assert_cmpfloat_with_epsilon (hw_density_map_share (map, 0, middle)
                                      + hw_density_map_share (map, 1, middle),
                                  hw_density_map_at (map, middle), 1e-9);
  stacked = hw_density_map_patches (map, 0.1, TRUE);
  g_assert_cmpuint (stacked->len, ==, 1); /* to the map's very rim */
}

/* The same stitches on a quarter of the area. */
static void
half_the_size_is_four_times_as_dense (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;

  add_square (scene, 20, (HwPlacement){ { 100, 100 }, 10, 1, FALSE }, even_stitches (50, 50, 20), 2500);
  add_square (scene, 20, (HwPlacement){ { 200, 100 }, 10, 0.5, TRUE }, even_stitches (50, 50, 20), 2500);
  map = hw_density_map_new (scene, NULL);
  assert_even (map, (HwPoint){ 100, 100 }, 2.5, 6.25);
  assert_even (map, (HwPoint){ 200, 100 }, 2.5, 25);
}

static void
motif_without_needle_list_is_spread_over_its_outline (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;

  add_square (scene, 20, (HwPlacement){ { 100.3, 100.7 }, 25, 1, FALSE }, NULL, 1200);
  map = hw_density_map_new (scene, NULL);
  assert_even (map, (HwPoint){ 100.3, 100.7 }, 5, 3);
  g_assert_cmpfloat_with_epsilon (sum_of (map), 1200, 0.1);
  g_assert_cmpfloat (hw_density_map_at (map, (HwPoint){ 120, 100 }), ==, 0);
}

/* A line has no area for stitches to lie on. */
static void
an_outline_that_holds_nothing_is_not_dense (void)
{
  HwPoint line[] = { { -10, -10 }, { 0, 0 }, { 10, 10 } };
  HwRing ring = { line, 3 };
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;

  add_square (scene, 20, (HwPlacement){ { 100, 100 }, 0, 1, FALSE }, NULL, 1200);
  hw_outline_unref (hw_snapshot_motif (scene, 0)->outline);
  ((HwMotif *)scene->motifs->pdata[0])->outline = hw_outline_new (&ring, 1);
  map = hw_density_map_new (scene, NULL);
  g_assert_cmpuint (hw_density_map_columns (map), >, 20);
  g_assert_cmpfloat (hw_density_map_peak (map, NULL), ==, 0);
}

/* One stitch in the middle of each cell: of places alike the first is shown, so that it stays where it is from edit to edit. */
static void
of_places_as_dense_the_first_is_shown (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;
  g_autoptr (GArray) patches = NULL;
  HwPoint peak;

  add_square (scene, 20, (HwPlacement){ { 100, 100 }, 0, 1, FALSE }, even_stitches (20, 20, 20), 400);
  map = hw_density_map_new (scene, NULL);
  patches = hw_density_map_patches (map, 0.3, FALSE);
  hw_density_map_peak (map, &peak);
  g_assert_cmpuint (patches->len, ==, 1);
  g_assert_cmpfloat (g_array_index (patches, HwDensePatch, 0).where.x, ==, peak.x);
  g_assert_cmpfloat (g_array_index (patches, HwDensePatch, 0).where.y, ==, peak.y);
  g_assert_cmpfloat (peak.x, ==, 91.5);
  g_assert_cmpfloat (peak.y, ==, 91.5);
}

static void
nothing_stitched_gives_an_empty_map (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;
  g_autoptr (GArray) patches = NULL;

  scene_add_motif (scene, hw_outline_new_rectangle (20, 20), (HwPlacement){ { 50, 50 }, 0, 1, FALSE });
  map = hw_density_map_new (scene, NULL);
  patches = hw_density_map_patches (map, 0, FALSE);
  g_assert_cmpuint (hw_density_map_columns (map), ==, 0);
  g_assert_cmpfloat (hw_density_map_peak (map, NULL), ==, 0);
  g_assert_cmpfloat (hw_density_map_at (map, (HwPoint){ 50, 50 }), ==, 0);
  g_assert_cmpuint (patches->len, ==, 0);
}

static void
peak_and_patches_lie_where_stitching_is_stacked (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;
  g_autoptr (GArray) all = NULL, stacked = NULL;
  HwPoint where;

  add_square (scene, 30, (HwPlacement){ { 100, 100 }, 0, 1, FALSE }, even_stitches (60, 60, 30), 3600);
  add_square (scene, 30, (HwPlacement){ { 110, 100 }, 0, 1, FALSE }, even_stitches (60, 60, 30), 3600);
  add_seven (scene, 200, 100, 0, 1);
  map = hw_density_map_new (scene, NULL);
  g_assert_cmpfloat_with_epsilon (hw_density_map_peak (map, &where), 8, 0.4);
  g_assert_cmpfloat (fabs (where.x - 105), <, 10);
  all = hw_density_map_patches (map, 5, FALSE);
  stacked = hw_density_map_patches (map, 5, TRUE);
  g_assert_cmpuint (all->len, ==, 2);
  g_assert_cmpuint (stacked->len, ==, 1); /* the dense square is so by itself */
  /* The two cover 20 x 30 mm together; at its rim the smoothing takes less than a cell. */
  g_assert_cmpfloat (g_array_index (stacked, HwDensePatch, 0).area, >=, 18 * 28);
  g_assert_cmpfloat (g_array_index (stacked, HwDensePatch, 0).area, <=, 22 * 32);
}

static void
map_made_from_the_one_before_is_the_same (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());
  g_autoptr (HwSnapshot) scene = scene_random (rand, SCENE_WALL, 12, 1);
  g_autoptr (HwSnapshot) moved = NULL;
  g_autoptr (HwDensityMap) before = NULL, after = NULL, fresh = NULL;

  add_seven (scene, 120, 120, 0, 1);
  moved = scene_moved (scene, 4, 31, -17);
  before = hw_density_map_new (scene, NULL);
  after = hw_density_map_new (moved, before);
  g_clear_pointer (&before, hw_density_map_unref);
  fresh = hw_density_map_new (moved, NULL);
  g_assert_cmpuint (hw_density_map_columns (after), ==, hw_density_map_columns (fresh));
  g_assert_cmpuint (hw_density_map_rows (after), ==, hw_density_map_rows (fresh));
  for (guint r = 0; r < hw_density_map_rows (fresh); r++)
    for (guint c = 0; c < hw_density_map_columns (fresh); c++)
      g_assert_cmpfloat (hw_density_map_value (after, c, r), ==, hw_density_map_value (fresh, c, r));
}

/* However far apart motifs lie, the map stays small; the counts are kept. */
static void
very_large_scene_has_larger_cells (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;

  add_seven (scene, 0, 0, 0, 1);
  add_seven (scene, 90000, 70000, 0, 1);
  map = hw_density_map_new (scene, NULL);
  g_assert_cmpfloat (hw_density_map_cell (map), >, 1);
  g_assert_cmpuint (hw_density_map_columns (map) * hw_density_map_rows (map), <=, 2000000);
  g_assert_cmpfloat_with_epsilon (sum_of (map), 1400, 1e-6);
}

/* 200 motifs of 20,000 stitches: what was counted before serves again and changes nothing. Says how long each took. */
static void
large_scene_is_counted_anew_only_where_it_moved (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwSnapshot) moved = NULL;
  g_autoptr (HwDensityMap) map = NULL, after = NULL, fresh = NULL;
  g_autoptr (HwNeedleList) needles = even_stitches (160, 125, 80);
  gint64 start, full, drag;

  for (guint i = 0; i < 200; i++)
    add_square (scene, 80, (HwPlacement){ { 50 + i % 15 * 70, 50 + i / 15 * 70 }, i, 1, FALSE },
                hw_needle_list_ref (needles), 20000);
  moved = scene_moved (scene, 77, 3, 4);
  start = g_get_monotonic_time ();
  map = hw_density_map_new (scene, NULL);
  full = g_get_monotonic_time () - start;
  start = g_get_monotonic_time ();
  after = hw_density_map_new (moved, map);
  drag = g_get_monotonic_time () - start;
  g_test_message ("4 million stitches in %.1f ms, after a drag %.1f ms", full / 1e3, drag / 1e3);
  fresh = hw_density_map_new (moved, NULL);
  g_assert_cmpfloat_with_epsilon (sum_of (after), sum_of (fresh), 1e-6 * sum_of (fresh));
  g_assert_cmpfloat_with_epsilon (sum_of (map), sum_of (fresh), 0.01 * sum_of (fresh));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/density/even-square-has-its-density-all-over", even_square_has_its_density_all_over);
  g_test_add_func ("/density/every-stitch-is-counted-once", every_stitch_is_counted_once);
  g_test_add_func ("/density/layers-add-up", layers_add_up);
  g_test_add_func ("/density/half-the-size-is-four-times-as-dense", half_the_size_is_four_times_as_dense);
  g_test_add_func ("/density/motif-without-needle-list-is-spread-over-its-outline",
                   motif_without_needle_list_is_spread_over_its_outline);
  g_test_add_func ("/density/an-outline-that-holds-nothing-is-not-dense",
                   an_outline_that_holds_nothing_is_not_dense);
  g_test_add_func ("/density/of-places-as-dense-the-first-is-shown", of_places_as_dense_the_first_is_shown);
  g_test_add_func ("/density/nothing-stitched-gives-an-empty-map", nothing_stitched_gives_an_empty_map);
  g_test_add_func ("/density/peak-and-patches-lie-where-stitching-is-stacked",
                   peak_and_patches_lie_where_stitching_is_stacked);
  g_test_add_func ("/density/map-made-from-the-one-before-is-the-same",
                   map_made_from_the_one_before_is_the_same);
  g_test_add_func ("/density/very-large-scene-has-larger-cells", very_large_scene_has_larger_cells);
  g_test_add_func ("/density/large-scene-is-counted-anew-only-where-it-moved",
                   large_scene_is_counted_anew_only_where_it_moved);
  return g_test_run ();
}
