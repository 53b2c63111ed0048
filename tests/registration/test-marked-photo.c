/* Crosses in photographs as a telephone takes them, in good light and bad, through a JPEG; and what must not be taken for one. tests/bench/bench-photo-marks.c
 * does the same many times over and prints what it finds. */
#include "registration/mark-finder.h"

#include "marked-photo.h"

#define ARM 5.0     /* mm */
#define AROUND 10.0 /* mm */
#define EACH 3

static gboolean
look (const HwPicture *picture,
      const ClothPhoto *photo,
      const MarkedLight *light,
      HwPoint place,
      HwFoundMark *found)
{
  HwPoint guess;

  g_assert_true (hw_homography_back (&photo->view, place, &guess));
  return hw_find_cross (picture, guess, AROUND * light->scale, ARM * light->scale, found);
}

static void
crosses_are_found_and_their_scatter_told (gconstpointer data)
{
  const MarkedLight *light = data;

  for (guint i = 0; i < EACH; i++)
    {
      ClothPhoto photo = marked_cloth (light);
      HwPoint at = marked_place (&photo, 2), place = { at.x + 5, at.y - 4 };
      g_autoptr (HwPicture) picture = NULL;
      HwFoundMark found;
      double off;

      marked_pen (&photo, light);
      marked_cross (&photo, at);
      marked_letter (&photo, at);
      picture = marked_photo (&photo, light->quality);
      g_assert_true (look (picture, &photo, light, place, &found));
      off = hw_point_distance (hw_homography_apply (&photo.view, found.px), at);
      g_test_message ("off %.3f mm, said %.3f mm per axis, confidence %.2f", off, found.sigma / light->scale,
                      found.confidence);
      g_assert_cmpfloat (found.confidence, >, 0.5);
      g_assert_cmpfloat (off, <, 0.1);
      g_assert_cmpfloat (off, <, 6 * found.sigma / light->scale);
    }
}

static void
nothing_else_is_believed (gconstpointer data)
{
  MarkedBait bait = GPOINTER_TO_UINT (data);

  for (guint i = 1; i < G_N_ELEMENTS (marked_lights); i += 2)
    {
      const MarkedLight *light = &marked_lights[i];
      ClothPhoto photo = marked_cloth (light);
      g_autoptr (HwPicture) picture = NULL;
      HwFoundMark found;

      marked_pen (&photo, light);
      marked_bait (&photo, bait, marked_place (&photo, 4));
      picture = marked_photo (&photo, light->quality);
      if (look (picture, &photo, light, marked_place (&photo, 2), &found))
        g_assert_cmpfloat (found.confidence, <, 0.5);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 1; i < G_N_ELEMENTS (marked_lights); i++)
    {
      g_autofree char *path = g_strdup_printf ("/registration/marked-photo/%s", marked_lights[i].name);

      g_test_add_data_func (path, &marked_lights[i], crosses_are_found_and_their_scatter_told);
    }
  for (guint i = 0; i < N_BAITS; i++)
    {
      g_autofree char *path = g_strdup_printf ("/registration/marked-photo/none/%s", marked_baits[i]);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), nothing_else_is_believed);
    }
  return g_test_run ();
}
