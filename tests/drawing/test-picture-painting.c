/* A motif's picture lies where its placement says: turned, sized and mirrored about its middle. */
#include "drawing/thread-painting.h"

#include <math.h>

/* 40 x 20 pixels, 2 to the mm: red in the upper left quarter, blue elsewhere, clear along the lower rim. */
static HwMotif *
motif_with_picture (HwPlacement placement)
{
  HwMotif *motif = hw_motif_new ();
  guint8 *pixels = g_malloc0 (40 * 20 * 4);

  for (guint y = 0; y < 18; y++)
    for (guint x = 0; x < 40; x++)
      {
        guint8 *p = pixels + (y * 40 + x) * 4;

        p[x < 20 && y < 10 ? 0 : 2] = 255;
        p[3] = 255;
      }
  motif->outline = hw_outline_new_rectangle (20, 10);
  motif->placement = placement;
  motif->picture = hw_picture_new (40, 20, 40 * 4, pixels);
  motif->picture_pixels_per_mm = 2;
  return motif;
}

/* The colour at a place in mm from the motif's position: 'r', 'b' or ' '. */
static char
colour_at (const HwThreadPicture *painted, double pixels_per_mm, double x, double y)
{
  int column = (int)floor (x * pixels_per_mm - painted->x), row = (int)floor (y * pixels_per_mm - painted->y);

  if (column < 0 || row < 0 || column >= cairo_image_surface_get_width (painted->surface)
      || row >= cairo_image_surface_get_height (painted->surface))
    return ' ';
  const guint8 *data = cairo_image_surface_get_data (painted->surface);
  guint32 p
      = ((const guint32 *)(gconstpointer)(data
                                          + (gsize)row
                                                * cairo_image_surface_get_stride (painted->surface)))[column];
  if (p >> 24 < 128)
    return ' ';
  return (p >> 16 & 255) > (p & 255) ? 'r' : 'b';
}

static void
check_quarters (HwPlacement placement, double fineness)
{
  g_autoptr (HwMotif) motif = motif_with_picture (placement);
  HwThreadPicture painted;
  const HwPoint places[] = { { -6, -2.5 }, { 6, -2.5 }, { -6, 2.5 }, { 6, 2.5 }, { 0, 4.8 }, { 11, 0 } };
  const char colours[] = "rbbb  ";

  g_assert_true (hw_thread_picture_paint (&painted, motif, fineness, 1));
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      HwPoint at = hw_placement_apply (&placement, places[i]);

      g_assert_cmpint (
          colour_at (&painted, fineness, at.x - placement.position.x, at.y - placement.position.y), ==,
          colours[i]);
    }
  hw_thread_picture_clear (&painted);
}

static void
test_picture_follows_the_placement (void)
{
  for (int turn = 0; turn < 360; turn += 30)
    for (int mirrored = 0; mirrored < 2; mirrored++)
      {
        HwPlacement placement
            = { .position = { 100, 50 }, .angle = turn, .scale = 1.5, .mirrored = mirrored };

        check_quarters (placement, 4);
        check_quarters (placement, 1.2);
      }
}

static void
test_too_large_a_picture_is_left (void)
{
  g_autoptr (HwMotif) motif = motif_with_picture ((HwPlacement){ .scale = 1000 });
  HwThreadPicture painted;

  g_assert_false (hw_thread_picture_paint (&painted, motif, 10, 1));
  g_assert_null (painted.surface);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/picture-painting/picture-follows-the-placement", test_picture_follows_the_placement);
  g_test_add_func ("/picture-painting/too-large-a-picture-is-left", test_too_large_a_picture_is_left);
  return g_test_run ();
}
