/* The heat picture: it darkens as density grows, for every kind of colour vision; what is over the limit is marked besides. */
#include "drawing/heat.h"

#include <math.h>

#include "drawn.h"

/* A square of 20 mm with so many stitches, spread evenly, in the middle of a quarter of the picture. */
static void
add_square (HwSnapshot *scene, double x, double y, guint stitches)
{
  HwMotif *motif = hw_motif_new ();
  const HwThreadBlock block = { (char *)"moss", { 0.2, 0.4, 0.2 }, stitches, NULL };

  motif->id = g_strdup_printf ("m%u", scene->motifs->len + 1);
  motif->name = g_strdup ("Square");
  motif->outline = hw_outline_new_rectangle (20, 20);
  motif->placement = (HwPlacement){ { x, y }, 0, 1, FALSE };
  hw_motif_set_threads (motif, &block, 1);
  g_ptr_array_add (scene->motifs, motif);
}

static HwHeat *
heat_of (guint first, guint second, double limit)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;

  add_square (scene, 20, 20, first);
  add_square (scene, 60, 20, second);
  map = hw_density_map_new (scene, NULL);
  return hw_heat_new (map, limit);
}

/* 80 x 40 mm at 5 pixels each, on linen. */
static cairo_t *
drawn (const HwHeat *heat)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 400, 200);
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  cairo_set_source_rgb (cr, 0.86, 0.8, 0.7);
  cairo_paint (cr);
  cairo_scale (cr, 5, 5);
  hw_heat_draw (cr, heat, 0.2);
  cairo_surface_flush (cairo_get_target (cr));
  return cr;
}

/* How light a square is on the average, 0 to 765. */
static double
mean_light (cairo_t *cr, int x0, int y0, int side)
{
  double sum = 0;

  for (int y = y0; y < y0 + side; y++)
    for (int x = x0; x < x0 + side; x++)
      sum += drawn_light (drawn_at (cairo_get_target (cr), x, y));
  return sum / side / side;
}

/* How far pixels differ from their right neighbours, in all. */
static guint
unevenness (cairo_t *cr, int x0, int y0, int side)
{
  guint sum = 0;

  for (int y = y0; y < y0 + side; y++)
    for (int x = x0; x < x0 + side; x++)
      sum += abs (drawn_light (drawn_at (cairo_get_target (cr), x, y))
                  - drawn_light (drawn_at (cairo_get_target (cr), x + 1, y)));
  return sum;
}

static double
linear (double part)
{
  return part <= 0.04045 ? part / 12.92 : pow ((part + 0.055) / 1.055, 2.4);
}

/* Luminance as seen with a deficiency: Machado, Oliveira and Fernandes 2009, IEEE TVCG 15(6), severity 1.0; matrices from memory. */
static double
seen_luminance (HwColour colour, guint kind)
{
  static const double kinds[4][3][3] = {
    { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } },
    { { 0.152286, 1.052583, -0.204868 },
      { 0.114503, 0.786281, 0.099216 },
      { -0.003882, -0.048116, 1.051998 } },
    { { 0.367322, 0.860646, -0.227968 },
      { 0.280085, 0.672501, 0.047413 },
      { -0.011820, 0.042940, 0.968881 } },
    { { 1.255528, -0.076749, -0.178779 },
      { -0.078411, 0.930809, 0.147602 },
      { 0.004733, 0.691367, 0.303900 } },
  };
  const double weights[] = { 0.2126, 0.7152, 0.0722 };
  const double rgb[] = { linear (colour.red), linear (colour.green), linear (colour.blue) };
  double sum = 0;

  for (guint i = 0; i < 3; i++)
    sum += weights[i]
           * CLAMP (kinds[kind][i][0] * rgb[0] + kinds[kind][i][1] * rgb[1] + kinds[kind][i][2] * rgb[2], 0,
                    1);
  return sum;
}

static void
colours_darken_all_the_way_for_every_eye (void)
{
  const HwColour cloths[] = { { 1, 1, 1 }, { 0.86, 0.8, 0.7 } };

  for (guint c = 0; c < G_N_ELEMENTS (cloths); c++)
    for (guint kind = 0; kind < 4; kind++)
      {
        double last = 2, at_limit = 0, cover;

        /* from the veil on, which lies under every stitch */
        for (double density = 0.5; density <= 8; density += 0.25)
          {
            HwColour colour = hw_heat_colour (density, 5, &cover), seen;
            double light;

            seen = hw_colour_mix (cloths[c], colour, cover);
            light = seen_luminance (seen, kind);
            g_assert_cmpfloat (light, <, last);
            last = light;
            if (density == 5)
              at_limit = light;
          }
        g_assert_cmpfloat (at_limit, <, 0.2);
        g_assert_cmpfloat (last, <, at_limit / 3);
      }
}

static void
no_stitching_leaves_the_cloth_clear (void)
{
  double cover = 1;
  g_autoptr (HwSnapshot) empty = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = hw_density_map_new (empty, NULL);
  g_autoptr (HwHeat) nothing = hw_heat_new (map, 5);
  g_autoptr (HwHeat) heat = heat_of (400, 400, 5);
  cairo_t *blank = drawn (nothing), *some = drawn (heat);

  hw_heat_colour (0, 5, &cover);
  g_assert_cmpfloat (cover, ==, 0);
  g_assert_cmpfloat (mean_light (blank, 0, 0, 199), ==, mean_light (blank, 5, 5, 2));
  g_assert_cmpfloat (mean_light (some, 195, 95, 9), ==,
                     mean_light (blank, 5, 5, 2)); /* between the squares */
  cairo_destroy (blank);
  cairo_destroy (some);
}

static void
denser_is_darker_where_it_lies (void)
{
  g_autoptr (HwHeat) heat = heat_of (400, 1600, 5); /* 1 and 4 per mm^2 */
  cairo_t *cr = drawn (heat);

  g_assert_cmpfloat (mean_light (cr, 90, 90, 20), >, mean_light (cr, 290, 90, 20) + 100);
  cairo_destroy (cr);
}

/* The same stitching is hatched or not as the limit says, and has a line around it. */
static void
over_the_limit_is_hatched_and_ringed (void)
{
  g_autoptr (HwHeat) heat = heat_of (400, 2400, 5); /* 1 and 6 per mm^2 */
  g_autoptr (HwHeat) lax = heat_of (400, 2400, 6.5);
  cairo_t *cr = drawn (heat), *quiet = drawn (lax);
  guint dark = 0;

  g_assert_cmpuint (unevenness (cr, 280, 80, 40), >, 40 * unevenness (cr, 80, 80, 40) + 40 * 40 * 10);
  g_assert_cmpuint (unevenness (quiet, 280, 80, 40), <, 40 * 40);
  for (int x = 240; x < 260; x++) /* across the left side of the square, at x = 50 mm */
    dark += drawn_light (drawn_at (cairo_get_target (cr), x, 100)) < 200;
  g_assert_cmpuint (dark, >=, 1);
  cairo_destroy (cr);
  cairo_destroy (quiet);
}

/* Between the two edges of a wide satin column the thread's own dark colour does not pass for density. */
static void
thread_between_holes_is_veiled (void)
{
  HwNeedlePoint *points = g_new0 (HwNeedlePoint, 200);
  char **threads = g_new0 (char *, 2);
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwDensityMap) map = NULL;
  g_autoptr (HwHeat) heat = NULL;
  cairo_t *cr;

  threads[0] = g_strdup ("ink");
  for (guint i = 0; i < 200; i++)
    points[i] = (HwNeedlePoint){ i % 2 ? 3.0f : -3.0f, (float)i * 0.1f - 10, 0, HW_NEEDLE_STITCH };
  add_square (scene, 20, 20, 200);
  ((HwMotif *)scene->motifs->pdata[0])->needles = hw_needle_list_new (points, 200, threads);
  map = hw_density_map_new (scene, NULL);
  heat = hw_heat_new (map, 5);
  g_assert_cmpfloat (hw_density_map_at (map, (HwPoint){ 20.5, 20.5 }), ==, 0);
  cr = drawn (heat);
  cairo_identity_matrix (cr);
  cairo_set_source_rgb (cr, 0, 0, 0.2);
  cairo_paint (cr);
  cairo_scale (cr, 5, 5);
  hw_heat_draw (cr, heat, 0.2);
  cairo_surface_flush (cairo_get_target (cr));
  g_assert_cmpfloat (mean_light (cr, 96, 96, 8), >, 400);
  g_assert_cmpfloat (mean_light (cr, 20, 96, 8), <, 60);
  cairo_destroy (cr);
}

static void
key_shows_the_colours_and_the_limit (void)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 320, 130);
  cairo_t *cr = cairo_create (surface);
  double height;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  height = hw_heat_draw_key (cr, 10, 10, 200, 14, 1, 5, (HwColour){ 0.1, 0.1, 0.1 });
  cairo_surface_flush (surface);
  g_assert_cmpfloat (height, >, 14);
  g_assert_cmpfloat (height, <, 110);
  g_assert_cmpfloat (mean_light (cr, 20, 14, 6), >, mean_light (cr, 120, 14, 6) + 150);
  g_assert_cmpuint (unevenness (cr, 150, 12, 10), >, 10 * unevenness (cr, 60, 12, 10));
  /* What counts as too dense is written below. */
  g_assert_cmpuint (unevenness (cr, 14, 72, 30), >, 0);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/heat/colours-darken-all-the-way-for-every-eye",
                   colours_darken_all_the_way_for_every_eye);
  g_test_add_func ("/heat/no-stitching-leaves-the-cloth-clear", no_stitching_leaves_the_cloth_clear);
  g_test_add_func ("/heat/denser-is-darker-where-it-lies", denser_is_darker_where_it_lies);
  g_test_add_func ("/heat/over-the-limit-is-hatched-and-ringed", over_the_limit_is_hatched_and_ringed);
  g_test_add_func ("/heat/thread-between-holes-is-veiled", thread_between_holes_is_veiled);
  g_test_add_func ("/heat/key-shows-the-colours-and-the-limit", key_shows_the_colours_and_the_limit);
  return g_test_run ();
}
