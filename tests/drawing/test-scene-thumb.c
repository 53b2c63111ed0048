/* The small picture of a scene: how large it is, what it shows, what happens when it cannot be written. */
#include <glib/gstdio.h>
#include <math.h>

#include "../planning/needled-motifs.h"

#include "drawing/scene-thumb.h"

/* A white cloth of 200 by 100 mm with a red square at its left. */
static HwSnapshot *
quay (double width, double height)
{
  HwSnapshot *scene = little_scene (width, height);

  scene->fabric.colour = (HwColour){ 1, 1, 1 };
  needled_motif (scene, "Red", 50, 50, "rust:#c01010:900", NULL);
  return scene;
}

static guint32
pixel (cairo_surface_t *surface, int x, int y)
{
  const guchar *data = cairo_image_surface_get_data (surface);

  return *(const guint32 *)(const void *)(data + y * cairo_image_surface_get_stride (surface) + x * 4)
         & 0xffffff;
}

static void
the_longer_side_is_as_asked_whatever_the_shape (void)
{
  static const struct
  {
    double width, height;
    int across, down;
  } shapes[] = { { 200, 100, 128, 64 }, { 100, 200, 64, 128 }, { 2000, 4, 128, 1 } };

  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    {
      g_autoptr (HwSnapshot) scene = quay (shapes[i].width, shapes[i].height);
      cairo_surface_t *surface = hw_scene_thumb (scene, 128);

      g_assert_cmpint (cairo_image_surface_get_width (surface), ==, shapes[i].across);
      g_assert_cmpint (cairo_image_surface_get_height (surface), ==, shapes[i].down);
      cairo_surface_destroy (surface);
    }
}

static void
motifs_lie_where_they_lie_on_the_cloth (void)
{
  g_autoptr (HwSnapshot) scene = quay (200, 100);
  cairo_surface_t *surface = hw_scene_thumb (scene, 400);
  guint32 red = pixel (surface, 100, 100), cloth = pixel (surface, 300, 100);

  g_assert_cmpuint (red >> 16, >, (red & 0xff) + 60);
  g_assert_cmpuint (cloth >> 16, >, 220);
  g_assert_cmpuint (cloth & 0xff, >, 220);
  cairo_surface_destroy (surface);
}

static void
a_file_that_cannot_be_written_is_named (void)
{
  g_autoptr (HwSnapshot) scene = quay (200, 100);
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *good = g_build_filename (folder, "small", NULL);
  g_autofree char *bad = g_build_filename (folder, "nowhere", "small", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_scene_thumb_save (scene, 64, good, &error));
  g_assert_no_error (error);
  g_assert_false (hw_scene_thumb_save (scene, 64, bad, &error));
  g_assert_cmpuint (error->domain, ==, G_FILE_ERROR);
  g_assert_true (g_str_has_prefix (error->message, "small: "));
  g_unlink (good);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/scene-thumb/longer-side", the_longer_side_is_as_asked_whatever_the_shape);
  g_test_add_func ("/drawing/scene-thumb/motifs", motifs_lie_where_they_lie_on_the_cloth);
  g_test_add_func ("/drawing/scene-thumb/file", a_file_that_cannot_be_written_is_named);
  return g_test_run ();
}
