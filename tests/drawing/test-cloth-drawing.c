/* Cloth, footprints and signs: what shows lies where the scene says, as strong as asked for. */
#include "drawing/cloth-drawing.h"

#include <cairo-pdf.h>
#include <math.h>

#include "drawn.h"

static const HwFabric linen = { 80, 60, { 0.86, 0.80, 0.70 }, HW_HOLD_FLOATED, NULL };

/* A picture of so many pixels; user space is mm at that many pixels each, the origin moved in by as many mm as given. */
static cairo_t *
table (int width, int height, double pixels_per_mm, double inset)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, pixels_per_mm, pixels_per_mm);
  cairo_translate (cr, inset, inset);
  return cr;
}

static Drawn
seen (cairo_t *cr, int x, int y)
{
  cairo_surface_flush (cairo_get_target (cr));
  return drawn_at (cairo_get_target (cr), x, y);
}

static gboolean
white (cairo_t *cr, int x, int y)
{
  return drawn_light (seen (cr, x, y)) == 765;
}

static HwHoop *
some_hoop (void)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup ("h");
  hoop->name = g_strdup ("100 x 140");
  hoop->field_width = 100;
  hoop->field_height = 140;
  hoop->frame_width = 130;
  hoop->frame_height = 190;
  return hoop;
}

static void
weave_is_faint_and_keeps_the_colour_of_the_cloth (void)
{
  const double zooms[] = { 0.5, 1.6, 4, 12 };

  for (guint z = 0; z < G_N_ELEMENTS (zooms); z++)
    {
      int width = 80 * zooms[z], height = 60 * zooms[z], n = 0;
      cairo_t *cr = table (width, height, zooms[z], 0);
      double sum = 0, squares = 0, mean;

      hw_draw_cloth (cr, &linen, 1 / zooms[z]);
      for (int y = 2; y < height - 2; y++)
        for (int x = 2; x < width - 2; x++, n++)
          {
            double light = drawn_light (seen (cr, x, y)) / 255.0;

            sum += light;
            squares += light * light;
          }
      mean = sum / n;
      g_assert_cmpfloat_with_epsilon (mean, linen.colour.red + linen.colour.green + linen.colour.blue, 0.05);
      g_assert_cmpfloat (sqrt (squares / n - mean * mean) / mean, <, 0.04);
      g_assert_cmpfloat (sqrt (squares / n - mean * mean) / mean, >, 0.002);
      cairo_destroy (cr);
    }
}

static cairo_status_t
count_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  *(gsize *)closure += length;
  return CAIRO_STATUS_SUCCESS;
}

static void
on_paper_cloth_is_a_flat_tint (void)
{
  gsize bytes = 0;
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (count_bytes, &bytes, 400, 400);
  cairo_t *cr = cairo_create (surface);

  hw_draw_cloth (cr, &linen, 0.25);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  g_assert_cmpint (cairo_surface_status (surface), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (surface);
  g_assert_cmpuint (bytes, >, 200);
  g_assert_cmpuint (bytes, <, 4000);
}

static void
edge_line_shows_its_margin_inside (void)
{
  g_autoptr (HwEdgeLine) edge = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 10, 10, 70, 50 }, 0, 5);
  cairo_t *cr = table (800, 600, 10, 0);
  guint dashes = 0;

  hw_draw_edge_line (cr, edge, &linen, 0.1);
  g_assert_false (white (cr, 400, 100));
  g_assert_true (white (cr, 400, 125));
  g_assert_true (white (cr, 400, 80));
  for (int x = 200; x < 600; x++)
    dashes += !white (cr, x, 150) || !white (cr, x, 149);
  g_assert_cmpuint (dashes, >, 120);
  g_assert_cmpuint (dashes, <, 360);
  cairo_destroy (cr);
}

static void
outline_path_has_a_closed_part_for_each_ring (void)
{
  HwPoint outer[] = { { 0, 0 }, { 30, 0 }, { 30, 30 }, { 0, 30 } },
          hole[] = { { 10, 10 }, { 20, 10 }, { 20, 20 } };
  HwRing rings[] = { { outer, 4 }, { hole, 3 } };
  g_autoptr (HwOutline) outline = hw_outline_new (rings, 2);
  cairo_t *cr = table (100, 100, 1, 0);

  hw_path_outline (cr, outline);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  g_assert_true (cairo_in_fill (cr, 5, 5));
  g_assert_true (cairo_in_fill (cr, 12, 18));
  g_assert_false (cairo_in_fill (cr, 18, 12));
  g_assert_false (cairo_in_fill (cr, 31, 15));
  cairo_destroy (cr);
}

/* The mean colour of an area of the field away from its signs. */
static double
field_light (cairo_t *cr, int x0, int y0, int x1, int y1)
{
  double sum = 0;

  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      sum += drawn_light (seen (cr, x, y));
  return sum / (x1 - x0) / (y1 - y0);
}

static void
chosen_footprint_is_filled_the_others_step_back (void)
{
  g_autoptr (HwHoop) hoop = some_hoop ();

  for (guint number = 1; number <= HW_N_DYES + 1; number++)
    {
      cairo_t *full = table (600, 600, 2, 0), *pale = table (600, 600, 2, 0);

      hw_draw_footprint (full, hoop, (HwPoint){ 150, 150 }, 0, number, HW_FOOTPRINT_FULL, 0.5);
      hw_draw_footprint (pale, hoop, (HwPoint){ 150, 150 }, 0, number, HW_FOOTPRINT_OUTLINE, 0.5);
      g_assert_cmpfloat (field_light (full, 230, 230, 370, 400), <, 765 * 0.97);
      g_assert_cmpfloat (field_light (full, 230, 230, 370, 400), >, 765 * 0.60);
      g_assert_cmpfloat (field_light (pale, 230, 230, 370, 400), ==, 765);
      /* The field's right side at 200 mm; the frame's at 215 mm only when chosen. */
      g_assert_false (white (full, 400, 300));
      g_assert_false (white (pale, 400, 300));
      g_assert_true (white (full, 415, 300));
      g_assert_cmpfloat (field_light (full, 425, 250, 435, 350), <, 765);
      g_assert_cmpfloat (field_light (pale, 425, 250, 435, 350), ==, 765);
      g_assert_true (white (full, 440, 300));
      cairo_destroy (full);
      cairo_destroy (pale);
    }
}

/* Number and arrow stand at the top side, wherever turning brings it. */
static void
footprint_shows_which_side_is_the_top (void)
{
  const double angles[] = { 0, 90, 180, -90, 30 };
  g_autoptr (HwHoop) hoop = some_hoop ();

  for (guint i = 0; i < G_N_ELEMENTS (angles); i++)
    {
      cairo_t *cr = table (600, 600, 2, 0);
      HwPoint top = hw_point_turn ((HwPoint){ 0, -70 - 9 }, angles[i]);
      HwPoint disc = hw_point_turn ((HwPoint){ 0, -70 }, angles[i]);

      hw_draw_footprint (cr, hoop, (HwPoint){ 150, 150 }, angles[i], 3, HW_FOOTPRINT_OUTLINE, 0.5);
      g_assert_false (white (cr, 2 * (150 + top.x), 2 * (150 + top.y)));
      g_assert_true (white (cr, 2 * (150 - top.x), 2 * (150 - top.y)));
      g_assert_cmpfloat (field_light (cr, 2 * (150 + disc.x) - 5, 2 * (150 + disc.y) - 7,
                                      2 * (150 + disc.x) + 5, 2 * (150 + disc.y) + 7),
                         <, 740);
      cairo_destroy (cr);
    }
}

static guint
ink_in_row (cairo_t *cr, int y, int x0, int x1)
{
  guint n = 0;

  for (int x = x0; x < x1; x++)
    n += !white (cr, x, y);
  return n;
}

static void
cross_mark_has_four_arms_and_an_arrow_at_its_top (void)
{
  cairo_t *cr = table (400, 400, 10, 20);

  cairo_set_source_rgb (cr, 0, 0, 0);
  hw_draw_cross_mark (cr, 15, 0.5);
  g_assert_false (white (cr, 200 - 148, 200));
  g_assert_false (white (cr, 200 + 148, 200));
  g_assert_false (white (cr, 200, 200 + 148));
  g_assert_true (white (cr, 200 - 155, 200));
  g_assert_cmpuint (ink_in_row (cr, 200 + 130, 100, 300), <=, 6);
  g_assert_cmpuint (ink_in_row (cr, 200 - 130, 100, 300), >, 12);
  for (int d = 1; d < 180; d++)
    g_assert_cmpint (white (cr, 200 + d, 200 - 135), ==, white (cr, 199 - d, 200 - 135));
  cairo_destroy (cr);
}

static void
mark_stands_on_its_place_with_its_letter_beside (void)
{
  cairo_t *cr = table (400, 400, 10, 0), *bare = table (400, 400, 10, 0);

  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_source_rgb (bare, 0, 0, 0);
  hw_draw_mark (cr, (HwPoint){ 20, 20 }, "B", 4, 0.4, 5);
  hw_draw_mark (bare, (HwPoint){ 20, 20 }, NULL, 4, 0.4, 5);
  g_assert_false (white (cr, 200, 165));
  g_assert_false (white (cr, 235, 200));
  g_assert_true (white (bare, 230, 170));
  g_assert_cmpfloat (field_light (bare, 208, 120, 270, 190), ==, 765);
  g_assert_cmpfloat (field_light (cr, 208, 120, 270, 190), <, 740);
  cairo_destroy (cr);
  cairo_destroy (bare);
}

static HwMotif *
square_motif (const char *id, double x, double y, HwColour colour)
{
  HwThreadBlock block = { (char *)"wool", colour, 500, NULL };
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup (id);
  motif->name = g_strdup (id);
  motif->outline = hw_outline_new_rectangle (30, 30);
  motif->placement = (HwPlacement){ { x, y }, 0, 1, FALSE };
  hw_motif_set_threads (motif, &block, 1);
  return motif;
}

static void
later_motifs_lie_over_earlier_ones (void)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  cairo_t *cr = table (420, 300, 5, 0), *pale = table (420, 300, 5, 0), *numbered = table (420, 300, 5, 0);

  snapshot->fabric = linen;
  g_ptr_array_add (snapshot->motifs, square_motif ("back", 25, 30, (HwColour){ 0.7, 0.1, 0.1 }));
  g_ptr_array_add (snapshot->motifs, square_motif ("front", 45, 30, (HwColour){ 0.1, 0.1, 0.7 }));
  hw_draw_scene (cr, snapshot, NULL, &(HwSceneLook){ HW_SCENE_PICTURE_PLAIN, -1, 5, 0.2 });
  hw_draw_scene (pale, snapshot, NULL, &(HwSceneLook){ HW_SCENE_PICTURE_PALE, -1, 5, 0.2 });
  hw_draw_scene (numbered, snapshot, NULL, &(HwSceneLook){ HW_SCENE_PICTURE_ORDER, -1, 5, 0.2 });
  g_assert_cmpint (seen (cr, 90, 150).red, >, 2 * seen (cr, 90, 150).blue);
  g_assert_cmpint (seen (cr, 175, 150).blue, >, 2 * seen (cr, 175, 150).red);
  g_assert_cmpint (drawn_light (seen (pale, 90, 150)), >, drawn_light (seen (cr, 90, 150)) + 150);
  g_assert_cmpint (drawn_light (seen (numbered, 118, 150)), >, drawn_light (seen (cr, 118, 150)) + 150);
  /* Past the cloth nothing is drawn. */
  g_assert_false (white (cr, 395, 150));
  g_assert_true (white (cr, 405, 150));
  cairo_destroy (cr);
  cairo_destroy (pale);
  cairo_destroy (numbered);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add_func ("/drawing/cloth-drawing/" path, func)
  ADD ("weave-is-faint-and-keeps-the-colour-of-the-cloth", weave_is_faint_and_keeps_the_colour_of_the_cloth);
  ADD ("on-paper-cloth-is-a-flat-tint", on_paper_cloth_is_a_flat_tint);
  ADD ("edge-line-shows-its-margin-inside", edge_line_shows_its_margin_inside);
  ADD ("outline-path-has-a-closed-part-for-each-ring", outline_path_has_a_closed_part_for_each_ring);
  ADD ("chosen-footprint-is-filled-the-others-step-back", chosen_footprint_is_filled_the_others_step_back);
  ADD ("footprint-shows-which-side-is-the-top", footprint_shows_which_side_is_the_top);
  ADD ("cross-mark-has-four-arms-and-an-arrow-at-its-top", cross_mark_has_four_arms_and_an_arrow_at_its_top);
  ADD ("mark-stands-on-its-place-with-its-letter-beside", mark_stands_on_its_place_with_its_letter_beside);
  ADD ("later-motifs-lie-over-earlier-ones", later_motifs_lie_over_earlier_ones);
  return g_test_run ();
}
