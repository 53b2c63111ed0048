/* From masks of opacity to outlines: areas against exact shapes, places against the true edge, holes, specks, size. The masks are drawn by
 * cairo, which fills by area covered, at 300 pixels to the inch. */
#include <cairo.h>
#include <math.h>
#include <string.h>
#include <time.h>

#include "../rounds.h"
#include "formats/artwork.h"
#include "geometry/region.h"
#include "scene/limits.h"

#define SCALE (300 / 25.4) /* pixels per mm */
#define SMOOTHING 0.1
#define SPECK 1.0

typedef struct
{
  cairo_surface_t *surface;
  cairo_t *cr; /* mm */
} Mask;

static Mask
mask_new (double width, double height)
{
  Mask mask;

  mask.surface
      = cairo_image_surface_create (CAIRO_FORMAT_A8, (int)ceil (width * SCALE), (int)ceil (height * SCALE));
  mask.cr = cairo_create (mask.surface);
  cairo_scale (mask.cr, SCALE, SCALE);
  cairo_set_tolerance (mask.cr, 0.01);
  return mask;
}

static HwOutline *
traced (Mask mask)
{
  HwOutline *outline;

  cairo_destroy (mask.cr);
  cairo_surface_flush (mask.surface);
  outline = hw_trace_mask (cairo_image_surface_get_data (mask.surface),
                           cairo_image_surface_get_width (mask.surface),
                           cairo_image_surface_get_height (mask.surface),
                           cairo_image_surface_get_stride (mask.surface), SCALE, SMOOTHING, SPECK);
  cairo_surface_destroy (mask.surface);
  return outline;
}

static void
assert_area (const HwOutline *outline, double exact)
{
  g_assert_nonnull (outline);
  g_assert_true (hw_outline_is_simple (outline));
  g_assert_cmpfloat (fabs (hw_outline_area (outline) / exact - 1), <, 0.01);
}

typedef double (*FromEdge) (HwPoint p, gconstpointer data); /* mm */

/* Corners and places along the sides. */
static void
assert_on_edge (const HwOutline *outline, FromEdge from_edge, gconstpointer data)
{
  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      for (double part = 0; part < 1; part += 0.25)
        {
          const HwRing *ring = &outline->rings[r];
          HwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
          HwPoint p = { a.x + (b.x - a.x) * part, a.y + (b.y - a.y) * part };

          g_assert_cmpfloat (from_edge (p, data), <, 0.1);
        }
}

static double
from_circle (HwPoint p, gconstpointer data)
{
  const double *radius = data; /* one or two, about (20.3, 20.7) */
  double far = hypot (p.x - 20.3, p.y - 20.7);

  return MIN (fabs (far - radius[0]), fabs (far - radius[1]));
}

static void
test_disc (void)
{
  const double radii[] = { 3, 10, 18 };

  for (guint i = 0; i < G_N_ELEMENTS (radii); i++)
    {
      Mask mask = mask_new (41, 41);
      g_autoptr (HwOutline) outline = NULL;

      cairo_arc (mask.cr, 20.3, 20.7, radii[i], 0, 2 * G_PI);
      cairo_fill (mask.cr);
      outline = traced (mask);
      assert_area (outline, G_PI * radii[i] * radii[i]);
      assert_on_edge (outline, from_circle, (double[]){ radii[i], radii[i] });
      g_assert_cmpuint (outline->n_rings, ==, 1);
      g_assert_cmpuint (outline->rings[0].n_points, <, 80);
    }
}

static void
test_ring_keeps_its_hole (void)
{
  Mask mask = mask_new (41, 41);
  g_autoptr (HwOutline) outline = NULL;

  cairo_arc (mask.cr, 20.3, 20.7, 18, 0, 2 * G_PI);
  cairo_new_sub_path (mask.cr);
  cairo_arc_negative (mask.cr, 20.3, 20.7, 11, 2 * G_PI, 0);
  cairo_fill (mask.cr);
  outline = traced (mask);
  assert_area (outline, G_PI * (18 * 18 - 11 * 11));
  assert_on_edge (outline, from_circle, (double[]){ 18, 11 });
  g_assert_cmpuint (outline->n_rings, ==, 2);
  g_assert_false (hw_outline_contains (outline, (HwPoint){ 20.3, 20.7 }));
}

static void
test_rectangle_turned (void)
{
  for (double turn = 0; turn < 90; turn += 7.5)
    {
      Mask mask = mask_new (60, 60);
      g_autoptr (HwOutline) outline = NULL;

      cairo_translate (mask.cr, 30, 30);
      cairo_rotate (mask.cr, turn * G_PI / 180);
      cairo_rectangle (mask.cr, -20, -7.5, 40, 15);
      cairo_fill (mask.cr);
      outline = traced (mask);
      assert_area (outline, 600);
      g_assert_cmpuint (outline->rings[0].n_points, <, 13);
    }
}

static double
from_polygon (HwPoint p, gconstpointer data)
{
  const HwRing *ring = data;
  double nearest = INFINITY;

  for (guint i = 0; i < ring->n_points; i++)
    {
      HwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
      double dx = b.x - a.x, dy = b.y - a.y;
      double t = CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0, 1);

      nearest = MIN (nearest, hypot (a.x + t * dx - p.x, a.y + t * dy - p.y));
    }
  return nearest;
}

static void
draw_polygon (cairo_t *cr, const HwRing *ring)
{
  for (guint i = 0; i < ring->n_points; i++)
    cairo_line_to (cr, ring->points[i].x, ring->points[i].y);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
test_l_keeps_its_inner_corner (void)
{
  HwPoint corners[]
      = { { 3.13, 2.2 }, { 20.4, 2.2 }, { 20.4, 25.7 }, { 44.9, 25.7 }, { 44.9, 40.05 }, { 3.13, 40.05 } };
  HwRing ring = { corners, G_N_ELEMENTS (corners) };
  Mask mask = mask_new (50, 45);
  g_autoptr (HwOutline) outline = NULL;

  draw_polygon (mask.cr, &ring);
  outline = traced (mask);
  assert_area (outline, (44.9 - 3.13) * (40.05 - 2.2) - (44.9 - 20.4) * (25.7 - 2.2));
  assert_on_edge (outline, from_polygon, &ring);
  g_assert_false (hw_outline_contains (outline, (HwPoint){ 20.55, 25.55 }));
  g_assert_true (hw_outline_contains (outline, (HwPoint){ 20.25, 25.85 }));
}

static void
test_picture_full_to_its_edges (void)
{
  guint8 mask[40 * 30];
  g_autoptr (HwOutline) outline = NULL;

  memset (mask, 255, sizeof mask);
  outline = hw_trace_mask (mask, 40, 30, 40, 2, 0.1, 1);
  assert_area (outline, 20 * 15);
  g_assert_cmpfloat_with_epsilon (outline->box.x0, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (outline->box.x1, 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (outline->box.y1, 15, 1e-9);
}

static void
test_specks_are_dropped_and_islands_kept (void)
{
  Mask mask = mask_new (60, 40);
  g_autoptr (HwOutline) outline = NULL;

  cairo_rectangle (mask.cr, 5, 5, 30, 30);
  cairo_fill (mask.cr);
  for (guint i = 0; i < 40; i++) /* dust, and pinholes */
    {
      cairo_set_operator (mask.cr, i % 2 == 0 ? CAIRO_OPERATOR_OVER : CAIRO_OPERATOR_CLEAR);
      cairo_arc (mask.cr, i % 2 == 0 ? 40 + i % 20 * 0.9 : 8 + i % 20, 8 + i * 0.6, 0.4, 0, 2 * G_PI);
      cairo_fill (mask.cr);
    }
  cairo_set_operator (mask.cr, CAIRO_OPERATOR_OVER);
  cairo_rectangle (mask.cr, 45, 34, 5, 3);
  cairo_fill (mask.cr);
  outline = traced (mask);
  assert_area (outline, 30 * 30 + 5 * 3);
  g_assert_cmpuint (outline->n_rings, ==, 2);
}

static void
test_empty_mask_has_no_outline (void)
{
  guint8 clear[64] = { 0 }, faint[64];

  memset (faint, 127, sizeof faint);
  g_assert_null (hw_trace_mask (clear, 8, 8, 8, 1, 0.1, 1));
  g_assert_null (hw_trace_mask (faint, 8, 8, 8, 1, 0.1, 1));
}

static void
test_random_polygons (void)
{
  for (guint n = 0; n < 40; n++)
    {
      HwPoint corners[16];
      HwRing ring = { corners, (guint)g_test_rand_int_range (3, 17) };
      g_autoptr (HwOutline) exact = NULL;
      g_autoptr (HwOutline) outline = NULL;
      Mask mask = mask_new (70, 70);

      for (guint i = 0; i < ring.n_points; i++)
        {
          HwPoint unit = hw_point_turn ((HwPoint){ 1, 0 }, 360.0 * i / ring.n_points);
          double reach = g_test_rand_double_range (12, 33);

          corners[i] = (HwPoint){ 35 + unit.x * reach, 35 + unit.y * reach };
        }
      exact = hw_outline_new (&ring, 1);
      draw_polygon (mask.cr, &ring);
      outline = traced (mask);
      assert_area (outline, hw_outline_area (exact));
      assert_on_edge (outline, from_polygon, &ring);
    }
}

/* Pixels at random: saddles, holes in holes, everything touches. */
static void
test_noise_gives_sound_outlines (void)
{
  for (guint n = 0; n < 60; n++)
    {
      guint width = (guint)g_test_rand_int_range (1, 40), height = (guint)g_test_rand_int_range (1, 40);
      g_autofree guint8 *mask = g_malloc (width * height);
      g_autoptr (HwOutline) outline = NULL;

      for (guint i = 0; i < width * height; i++)
        mask[i] = n % 2 == 0 ? (guint8)g_test_rand_int_range (0, 256) : g_test_rand_bit () ? 255 : 0;
      outline = hw_trace_mask (mask, width, height, width, 2, 0.1, 0.3);
      if (outline == NULL)
        continue;
      g_assert_true (hw_outline_is_simple (outline));
      g_assert_cmpfloat (hw_outline_area (outline), <=, width * height / 4.0 + 1e-9);
    }
}

/* 20 megapixels, as a scan has them: islands and the noise of a bad scan. Generous times, for slow machines. */
static void
test_large_masks_in_bounded_time (void)
{
  const guint width = 5000, height = ROUNDS (4000);

  for (guint kind = 0; kind < 3; kind++)
    {
      g_autofree guint8 *mask = g_malloc (width * height);
      g_autoptr (HwOutline) outline = NULL;
      clock_t begun;
      double seconds;

      for (guint y = 0; y < height; y++)
        for (guint x = 0; x < width; x++)
          {
            double wave = sin (x * 0.02) * sin (y * 0.017) + 0.3 * sin (x * 0.11 + y * 0.07);
            int noise = (int)((x * 2654435761u ^ y * 40503u * 2246822519u) >> 13 & 0xff);

            mask[y * width + x] = kind == 0   ? (wave > 0.2 ? 255 : 0)
                                  : kind == 1 ? CLAMP ((int)(wave * 200) + noise - 100, 0, 255)
                                              : noise;
          }
      begun = clock ();
      outline = hw_trace_mask (mask, width, height, width, SCALE, SMOOTHING, SPECK);
      seconds = (double)(clock () - begun) / CLOCKS_PER_SEC; /* of the processor, which others may want too */
      g_test_message ("kind %u: %.2f s, %u rings", kind, seconds, outline != NULL ? outline->n_rings : 0);
      g_assert_cmpfloat (seconds, <, 120.0 * rounds_one_in ());
      g_assert_true (kind == 2 || outline != NULL);
    }
}

/* Squares of 2 mm, the last one of 1 mm. */
static void
test_the_largest_two_thousand_rings_are_kept (void)
{
  for (guint more = 0; more < 2; more++)
    {
      guint n = HW_MOST_TRACED_RINGS + more;
      Mask mask = mask_new (50 * 3, (n / 50 + 1) * 3);
      g_autoptr (HwOutline) outline = NULL;

      for (guint i = 0; i < n; i++)
        cairo_rectangle (mask.cr, i % 50 * 3 + 0.5, i / 50 * 3 + 0.5, i + 1 < n ? 2 : 1, i + 1 < n ? 2 : 1);
      cairo_fill (mask.cr);
      outline = traced (mask);
      g_assert_cmpuint (outline->n_rings, ==, HW_MOST_TRACED_RINGS);
      g_assert_cmpfloat (fabs (hw_outline_area (outline) / (4 * (n - 1)) - 1), <, 0.04); /* round corners */
      g_assert_true (hw_outline_contains (outline, (HwPoint){ 1, 1 }));
      g_assert_true (more == 0
                     || !hw_outline_contains (outline, (HwPoint){ n % 50 * 3 - 2, n / 50 * 3 + 1 }));
    }
}

/* Combs with so many teeth of 0.8 by 2 mm, each of four points. */
static HwOutline *
combs (guint n, guint teeth)
{
  Mask mask = mask_new (teeth * 1.6 + 1, n * 5 + 1);

  for (guint i = 0; i < n; i++)
    {
      cairo_rectangle (mask.cr, 0.5, i * 5 + 0.5, teeth * 1.6 - 0.8, 2);
      for (guint k = 0; k < teeth; k++)
        cairo_rectangle (mask.cr, 0.5 + k * 1.6, i * 5 + 2.5, 0.8, 2);
    }
  cairo_fill (mask.cr);
  return traced (mask);
}

/* Combs have nearly the same number of points each, by how they lie between the pixels: a tenth fewer than the limit takes are drawn as finely as a few,
 * a tenth more are not. */
static void
test_an_outline_of_more_points_is_drawn_with_a_broader_stroke (void)
{
  g_autoptr (HwOutline) ten = combs (10, 195);
  double each = hw_outline_count_points (ten) / 10.0, most = HW_MOST_DRAWN_POINTS / each;
  g_autoptr (HwOutline) within = combs ((guint)(0.9 * most), 195);
  g_autoptr (HwOutline) past = combs ((guint)ceil (1.1 * most), 195);

  g_assert_cmpfloat (hw_outline_count_points (within) / floor (0.9 * most), >, 0.9 * each);
  g_assert_cmpuint (hw_outline_count_points (past), <=, HW_MOST_DRAWN_POINTS);
  g_assert_cmpfloat (hw_outline_count_points (past) / ceil (1.1 * most), <, 0.9 * each);
  g_assert_true (hw_outline_is_simple (past));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trace/disc", test_disc);
  g_test_add_func ("/trace/ring-keeps-its-hole", test_ring_keeps_its_hole);
  g_test_add_func ("/trace/rectangle-turned", test_rectangle_turned);
  g_test_add_func ("/trace/l-keeps-its-inner-corner", test_l_keeps_its_inner_corner);
  g_test_add_func ("/trace/picture-full-to-its-edges", test_picture_full_to_its_edges);
  g_test_add_func ("/trace/specks-are-dropped-and-islands-kept", test_specks_are_dropped_and_islands_kept);
  g_test_add_func ("/trace/empty-mask-has-no-outline", test_empty_mask_has_no_outline);
  g_test_add_func ("/trace/random-polygons", test_random_polygons);
  g_test_add_func ("/trace/noise-gives-sound-outlines", test_noise_gives_sound_outlines);
  g_test_add_func ("/trace/large-masks-in-bounded-time", test_large_masks_in_bounded_time);
  g_test_add_func ("/trace/the-largest-two-thousand-rings-are-kept",
                   test_the_largest_two_thousand_rings_are_kept);
  g_test_add_func ("/trace/an-outline-of-more-points-is-drawn-with-a-broader-stroke",
                   test_an_outline_of_more_points_is_drawn_with_a_broader_stroke);
  return g_test_run ();
}
