/* Thread pictures: what is stitched shows, where it is stitched, in its thread, lit from the cloth's top left. */
#include "drawing/thread-painting.h"

#include <math.h>
#include <string.h>

#include "drawn.h"

static const HwColour madder = { 0.7, 0.2, 0.15 }, woad = { 0.15, 0.35, 0.6 }, weld = { 0.8, 0.65, 0.1 };

typedef struct
{
  GArray *points;
} Sewing;

static void
sew (Sewing *sewing, HwNeedleAction action, double x, double y, guint thread)
{
  HwNeedlePoint point = { x, y, thread, action };

  if (sewing->points == NULL)
    sewing->points = g_array_new (FALSE, FALSE, sizeof (HwNeedlePoint));
  g_array_append_val (sewing->points, point);
}

/* Rows 0.4 mm apart inside a box, along x, or along y when upright. */
static void
sew_fill (Sewing *sewing, double x0, double y0, double x1, double y1, gboolean upright, guint thread)
{
  double across = upright ? x1 - x0 : y1 - y0;

  for (int row = 0; row <= across / 0.4 + 1e-6; row++)
    for (int end = 0; end < 2; end++)
      {
        gboolean far_end = (row + end) % 2;
        double x = upright ? x0 + row * 0.4 : far_end ? x1 : x0;
        double y = upright ? (far_end ? y1 : y0) : y0 + row * 0.4;

        sew (sewing, row == 0 && end == 0 ? HW_NEEDLE_JUMP : HW_NEEDLE_STITCH, x, y, thread);
      }
}

/* A motif with the three threads above; takes the sewing's points over. */
static HwMotif *
motif_of (Sewing *sewing)
{
  const HwThreadBlock threads[]
      = { { "madder", madder, 100, NULL }, { "woad", woad, 100, NULL }, { "weld", weld, 100, NULL } };
  char *names[] = { "madder", "woad", "weld", NULL };
  HwMotif *motif = hw_motif_new ();

  motif->outline = hw_outline_new_rectangle (60, 40);
  motif->placement.scale = 1;
  hw_motif_set_threads (motif, threads, G_N_ELEMENTS (threads));
  if (sewing != NULL)
    {
      guint n = sewing->points->len;

      motif->needles = hw_needle_list_new ((HwNeedlePoint *)(void *)g_array_free (sewing->points, FALSE), n,
                                           g_strdupv (names));
    }
  return motif;
}

static HwThreadPicture
painted (const HwMotif *motif, double pixels_per_mm)
{
  HwThreadPicture picture;

  g_assert_true (hw_thread_picture_paint (&picture, motif, pixels_per_mm, 1));
  g_assert_nonnull (picture.surface);
  g_assert_cmpint (cairo_image_surface_get_format (picture.surface), ==, CAIRO_FORMAT_ARGB32);
  return picture;
}

/* The pixel that shows a place, mm from the motif's position as the cloth sees it. */
static Drawn
shown (const HwThreadPicture *picture, double x, double y, double pixels_per_mm)
{
  return drawn_at (picture->surface, floor (x * pixels_per_mm - picture->x),
                   floor (y * pixels_per_mm - picture->y));
}

static HwMotif *
filled_box (gboolean upright)
{
  Sewing sewing = { 0 };

  sew_fill (&sewing, -12, -8, 12, 8, upright, 0);
  return motif_of (&sewing);
}

static void
a_fill_covers_the_cloth_and_nothing_beside_it (void)
{
  const double zooms[] = { 0.4, 1, 1.6, 2, 4, 8 };

  for (guint z = 0; z < G_N_ELEMENTS (zooms); z++)
    {
      g_autoptr (HwMotif) motif = filled_box (z % 2);
      HwThreadPicture picture = painted (motif, zooms[z]);
      int width = cairo_image_surface_get_width (picture.surface);
      int height = cairo_image_surface_get_height (picture.surface);
      double edge = MAX (1.0, 1.5 / zooms[z]);

      for (double y = -8 + edge; y < 8 - edge; y += 0.37)
        for (double x = -12 + edge; x < 12 - edge; x += 0.37)
          g_assert_cmpint (shown (&picture, x, y, zooms[z]).alpha, >=, 240);
      for (int y = 0; y < height; y++)
        for (int x = 0; x < width; x++)
          {
            double mm_x = (x + 0.5 + picture.x) / zooms[z], mm_y = (y + 0.5 + picture.y) / zooms[z];

            if (fabs (mm_x) > 12 + 2 * edge || fabs (mm_y) > 8 + 2 * edge)
              g_assert_cmpint (drawn_at (picture.surface, x, y).alpha, ==, 0);
          }
      hw_thread_picture_clear (&picture);
      g_assert_null (picture.surface);
    }
}

static void
every_thread_shows_in_its_colour (void)
{
  g_autoptr (HwMotif) motif = NULL;
  Sewing sewing = { 0 };
  HwThreadPicture picture;
  const HwColour colours[] = { madder, woad, weld };

  for (guint t = 0; t < 3; t++)
    sew_fill (&sewing, -24.0 + 16 * t, -6, -12.0 + 16 * t, 6, FALSE, t);
  motif = motif_of (&sewing);
  picture = painted (motif, 4);
  for (guint t = 0; t < 3; t++)
    {
      double red = 0, green = 0, blue = 0, sum, dyed = colours[t].red + colours[t].green + colours[t].blue;

      for (double y = -5; y < 5; y += 0.25)
        for (double x = -22.5 + 16 * t; x < -13.5 + 16 * t; x += 0.25)
          {
            Drawn pixel = shown (&picture, x, y, 4);

            red += pixel.red;
            green += pixel.green;
            blue += pixel.blue;
          }
      sum = red + green + blue;
      /* Light and gleam change how bright a thread is, hardly its hue. */
      g_assert_cmpfloat_with_epsilon (red / sum, colours[t].red / dyed, 0.06);
      g_assert_cmpfloat_with_epsilon (green / sum, colours[t].green / dyed, 0.06);
      g_assert_cmpfloat_with_epsilon (blue / sum, colours[t].blue / dyed, 0.06);
    }
  hw_thread_picture_clear (&picture);
}

/* An L lying on its back, so that every turn and mirroring of it differs. */
static HwMotif *
hook (void)
{
  Sewing sewing = { 0 };

  sew_fill (&sewing, -14, -3, 10, 3, FALSE, 0);
  sew_fill (&sewing, 4, 3, 10, 12, FALSE, 0);
  return motif_of (&sewing);
}

/* The part of places, of those a mm apart within 20 mm, where the picture of a placed hook is not as the hook itself has it. */
static double
misplaced (double angle, gboolean mirrored, double scale)
{
  g_autoptr (HwMotif) plain = hook (), placed = hook ();
  HwThreadPicture a, b;
  guint wrong = 0, all = 0;

  placed->placement = (HwPlacement){ { 0, 0 }, angle, scale, mirrored };
  a = painted (plain, 4);
  b = painted (placed, 4);
  for (double y = -20; y < 20; y += 0.5)
    for (double x = -20; x < 20; x += 0.5, all++)
      {
        HwPoint p = hw_placement_apply (&placed->placement, (HwPoint){ x, y });

        wrong += (shown (&a, x, y, 4).alpha > 128) != (shown (&b, p.x, p.y, 4).alpha > 128);
      }
  hw_thread_picture_clear (&a);
  hw_thread_picture_clear (&b);
  return wrong / (double)all;
}

static void
lies_as_it_is_placed (void)
{
  g_assert_cmpfloat (misplaced (0, TRUE, 1), <, 0.02);
  g_assert_cmpfloat (misplaced (90, FALSE, 1), <, 0.02);
  g_assert_cmpfloat (misplaced (180, TRUE, 1), <, 0.02);
  g_assert_cmpfloat (misplaced (33, FALSE, 1), <, 0.02);
  g_assert_cmpfloat (misplaced (-71, TRUE, 1.1), <, 0.02);
}

static double
brightness (double angle)
{
  g_autoptr (HwMotif) motif = filled_box (FALSE);
  HwThreadPicture picture;
  double sum = 0;

  motif->placement.angle = angle;
  picture = painted (motif, 2);
  for (double y = -4; y < 4; y += 0.5)
    for (double x = -4; x < 4; x += 0.5)
      sum += drawn_light (shown (&picture, x, y, 2));
  hw_thread_picture_clear (&picture);
  return sum;
}

/* Thread shines most when it lies across the light, which comes from the cloth's top left however the motif is turned. */
static void
light_comes_from_the_top_left_of_the_cloth (void)
{
  double along_light = brightness (45), across_light = brightness (-45);

  g_assert_cmpfloat (across_light, >, along_light * 1.1);
  g_assert_cmpfloat (fabs (brightness (135) / across_light - 1), <, 0.03);
}

static void
near_a_strand_has_a_light_and_a_dark_side (void)
{
  g_autoptr (HwMotif) motif = NULL;
  Sewing sewing = { 0 };
  HwThreadPicture picture;

  sew (&sewing, HW_NEEDLE_JUMP, -3, 0, 0);
  sew (&sewing, HW_NEEDLE_STITCH, 3, 0, 0);
  motif = motif_of (&sewing);
  picture = painted (motif, 20);
  g_assert_cmpint (drawn_light (shown (&picture, 0, -0.1, 20)), >,
                   drawn_light (shown (&picture, 0, 0.1, 20)) + 20);
  g_assert_cmpint (drawn_light (shown (&picture, 0, -0.05, 20)), >,
                   drawn_light (shown (&picture, 2.95, -0.05, 20)) + 20);
  hw_thread_picture_clear (&picture);
}

static void
jumps_and_trims_leave_no_thread (void)
{
  g_autoptr (HwMotif) motif = NULL;
  Sewing sewing = { 0 };
  HwThreadPicture picture;

  sew_fill (&sewing, -20, -2, -14, 2, FALSE, 0);
  sew (&sewing, HW_NEEDLE_TRIM, -14, 2, 0);
  sew (&sewing, HW_NEEDLE_COLOUR, -14, 2, 1);
  sew_fill (&sewing, 14, -2, 20, 2, FALSE, 1);
  sew (&sewing, HW_NEEDLE_END, 20, 2, 1);
  motif = motif_of (&sewing);
  picture = painted (motif, 4);
  for (double y = -5; y < 5; y += 0.2)
    for (double x = -12; x < 12; x += 0.2)
      g_assert_cmpint (shown (&picture, x, y, 4).alpha, ==, 0);
  hw_thread_picture_clear (&picture);
}

static void
the_same_motif_gives_the_same_picture (void)
{
  g_autoptr (HwMotif) motif = hook ();
  HwThreadPicture a, b;
  gsize size;

  motif->placement.angle = 17;
  a = painted (motif, 3);
  b = painted (motif, 3);
  size = (gsize)cairo_image_surface_get_stride (a.surface) * cairo_image_surface_get_height (a.surface);
  g_assert_cmpmem (cairo_image_surface_get_data (a.surface), size, cairo_image_surface_get_data (b.surface),
                   (gsize)cairo_image_surface_get_stride (b.surface)
                       * cairo_image_surface_get_height (b.surface));
  hw_thread_picture_clear (&a);
  hw_thread_picture_clear (&b);
}

static void
coarse_still_shows_the_whole (void)
{
  g_autoptr (HwMotif) motif = filled_box (FALSE);
  HwThreadPicture picture;
  guint covered = 0, all = 0;

  g_assert_true (hw_thread_picture_paint (&picture, motif, 2, 4));
  for (double y = -7; y < 7; y += 0.5)
    for (double x = -11; x < 11; x += 0.5, all++)
      covered += shown (&picture, x, y, 2).alpha > 128;
  g_assert_cmpuint (covered * 10, >, all * 8);
  hw_thread_picture_clear (&picture);
}

static void
refuses_what_is_too_large_or_empty (void)
{
  g_autoptr (HwMotif) large = NULL, nothing = hw_motif_new (), bare = motif_of (NULL);
  Sewing sewing = { 0 };
  HwThreadPicture picture;

  sew (&sewing, HW_NEEDLE_JUMP, -3000, -3000, 0);
  sew (&sewing, HW_NEEDLE_STITCH, 3000, 3000, 0);
  large = motif_of (&sewing);
  /* 12,000 x 12,000 pixels are more than 64 million; half as near they are not. */
  g_assert_false (hw_thread_picture_paint (&picture, large, 2, 1));
  g_assert_null (picture.surface);
  bare->placement.scale = 1e7;
  g_assert_false (hw_thread_picture_paint (&picture, bare, 2, 1));
  nothing->placement.scale = 1;
  nothing->outline = hw_outline_new (NULL, 0);
  g_assert_false (hw_thread_picture_paint (&picture, nothing, 2, 1));
  g_assert_null (picture.surface);
}

static void
an_outline_alone_is_filled_in_all_its_threads (void)
{
  g_autoptr (HwMotif) motif = motif_of (NULL);
  HwThreadPicture picture = painted (motif, 3);
  guint counts[3] = { 0 };

  for (double y = -19; y < 19; y += 0.5)
    for (double x = -29; x < 29; x += 0.5)
      {
        Drawn pixel = shown (&picture, x, y, 3);

        g_assert_cmpint (pixel.alpha, >, 200);
        counts[0] += pixel.red > 1.6 * pixel.green && pixel.red > 1.6 * pixel.blue;
        counts[1] += pixel.blue > 1.3 * pixel.red && pixel.blue > 1.2 * pixel.green;
        counts[2] += pixel.red > 3 * pixel.blue && pixel.green > 2.5 * pixel.blue;
      }
  for (guint t = 0; t < 3; t++)
    g_assert_cmpuint (counts[t], >, 1000);
  g_assert_cmpint (shown (&picture, 33, 0, 3).alpha, ==, 0);
  g_assert_cmpint (shown (&picture, 0, -23, 3).alpha, ==, 0);
  hw_thread_picture_clear (&picture);
}

static void
a_thread_is_found_by_name_else_by_place (void)
{
  HwNeedlePoint *points = g_new0 (HwNeedlePoint, 1);
  char *names[] = { "weld", "unheard of", NULL };
  g_autoptr (HwMotif) motif = motif_of (NULL);

  g_assert_true (hw_colour_equal (hw_motif_thread_colour (motif, 1), woad));
  motif->needles = hw_needle_list_new (points, 1, g_strdupv (names));
  g_assert_true (hw_colour_equal (hw_motif_thread_colour (motif, 0), weld));
  g_assert_true (hw_colour_equal (hw_motif_thread_colour (motif, 1), woad));
}

/* Ink of the pale drawing at one pixel a tenth of a mm: 0 white to 765 black. */
static int
pale_ink (const HwMotif *motif, double paleness)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 700, 500);
  cairo_t *cr = cairo_create (surface);
  int most = 0;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, 10, 10);
  cairo_translate (cr, 35, 25);
  hw_thread_draw_pale (cr, motif, paleness);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  for (int y = 0; y < 500; y++)
    for (int x = 0; x < 700; x++)
      most = MAX (most, 765 - drawn_light (drawn_at (surface, x, y)));
  cairo_surface_destroy (surface);
  return most;
}

static void
pale_artwork_fades_to_white (void)
{
  g_autoptr (HwMotif) stitched = hook (), bare = motif_of (NULL);

  g_assert_cmpint (pale_ink (stitched, 0), >, 300);
  g_assert_cmpint (pale_ink (stitched, 0.7), <, 200);
  g_assert_cmpint (pale_ink (stitched, 0.7), >, 60);
  g_assert_cmpint (pale_ink (stitched, 1), ==, 0);
  g_assert_cmpint (pale_ink (bare, 0.7), >, 60);
  g_assert_cmpint (pale_ink (bare, 1), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(path, func) g_test_add_func ("/drawing/thread-painting/" path, func)
  ADD ("a-fill-covers-the-cloth-and-nothing-beside-it", a_fill_covers_the_cloth_and_nothing_beside_it);
  ADD ("every-thread-shows-in-its-colour", every_thread_shows_in_its_colour);
  ADD ("lies-as-it-is-placed", lies_as_it_is_placed);
  ADD ("light-comes-from-the-top-left-of-the-cloth", light_comes_from_the_top_left_of_the_cloth);
  ADD ("near-a-strand-has-a-light-and-a-dark-side", near_a_strand_has_a_light_and_a_dark_side);
  ADD ("jumps-and-trims-leave-no-thread", jumps_and_trims_leave_no_thread);
  ADD ("the-same-motif-gives-the-same-picture", the_same_motif_gives_the_same_picture);
  ADD ("coarse-still-shows-the-whole", coarse_still_shows_the_whole);
  ADD ("refuses-what-is-too-large-or-empty", refuses_what_is_too_large_or_empty);
  ADD ("an-outline-alone-is-filled-in-all-its-threads", an_outline_alone_is_filled_in_all_its_threads);
  ADD ("a-thread-is-found-by-name-else-by-place", a_thread_is_found_by_name_else_by_place);
  ADD ("pale-artwork-fades-to-white", pale_artwork_fades_to_white);
  return g_test_run ();
}
