/* Sheets of paper on cloth, found in photographs that the test makes up. A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in (ASME Y14.1). */
#include <string.h>

#include "registration/mark-finder.h"

#include "cloth-photo.h"

#define SCALE 1.25 /* px per mm, about */
#define WIDTH 640
#define HEIGHT 480

static ClothPhoto
some_cloth (void)
{
  ClothPhoto photo = { .width = WIDTH,
                       .height = HEIGHT,
                       .ground = g_test_rand_double_range (60, 185),
                       .thread = g_test_rand_double_range (0.4, 1.1),
                       .turn = g_test_rand_double_range (0, G_PI),
                       .weave = g_test_rand_double_range (4, 12),
                       .blur = g_test_rand_double_range (0.5, 1.3),
                       .shade = g_test_rand_double_range (-30, 30),
                       .noise = 5 };

  cloth_photo_aim (&photo, SCALE, 0.07);
  return photo;
}

/* A sheet in the middle of the cloth, at any turn that the photo holds. */
static void
lay_sheet (ClothPhoto *photo, double width, double height)
{
  double turn = g_test_rand_double_range (-0.45, 0.45);

  photo->paper = photo->ground + g_test_rand_double_range (35, 60);
  for (guint i = 0; i < 4; i++)
    {
      double x = (i == 1 || i == 2 ? 0.5 : -0.5) * width, y = (i > 1 ? 0.5 : -0.5) * height;

      photo->sheet[i] = (HwPoint){ WIDTH / SCALE / 2 + x * cos (turn) - y * sin (turn),
                                   HEIGHT / SCALE / 2 + x * sin (turn) + y * cos (turn) };
    }
}

/* The largest distance of a found corner from where one is; corners may begin at another. */
static double
worst_corner (const ClothPhoto *photo, const HwPoint corners[4])
{
  double worst[4] = { 0 }, least = INFINITY;

  for (guint first = 0; first < 4; first++)
    {
      for (guint i = 0; i < 4; i++)
        {
          HwPoint px;

          g_assert_true (hw_homography_back (&photo->view, photo->sheet[(first + i) % 4], &px));
          worst[first] = MAX (worst[first], hw_point_distance (px, corners[i]));
        }
      least = MIN (least, worst[first]);
    }
  return least;
}

static void
sheets_are_found_to_a_pixel (void)
{
  guint found = 0, cases = 10;
  double worst = 0;

  for (guint i = 0; i < cases; i++)
    {
      ClothPhoto photo = some_cloth ();
      g_autoptr (HwPicture) picture = NULL;
      HwPoint corners[4];

      if (i % 2 == 0)
        lay_sheet (&photo, 297, 210);
      else
        lay_sheet (&photo, 11 * 25.4, 8.5 * 25.4);
      picture = cloth_photo_take (&photo);
      if (!hw_find_sheet (picture, corners))
        continue;
      found++;
      worst = MAX (worst, worst_corner (&photo, corners));
      for (guint k = 1; k < 4; k++)
        g_assert_cmpfloat (hypot (corners[0].x, corners[0].y), <=, hypot (corners[k].x, corners[k].y));
      g_assert_cmpfloat ((corners[1].x - corners[0].x) * (corners[2].y - corners[0].y), >,
                         (corners[1].y - corners[0].y) * (corners[2].x - corners[0].x));
    }
  g_test_message ("%u of %u found, worst corner %.3f px off", found, cases, worst);
  g_assert_cmpuint (found, >=, cases - 1);
  g_assert_cmpfloat (worst, <, 1);
}

static HwPoint *
square_about (HwPoint corners[4], HwPoint middle, double half)
{
  for (guint k = 0; k < 4; k++)
    corners[k] = (HwPoint){ middle.x + (k == 1 || k == 2 ? half : -half), middle.y + (k > 1 ? half : -half) };
  return corners;
}

/* Whichever of the two is come upon first: the photo is looked through from the top. */
static void
of_two_sheets_apart_the_larger (void)
{
  for (guint turned = 0; turned < 2; turned++)
    {
      ClothPhoto photo
          = { .width = 400, .height = 400, .ground = 100, .paper = 180, .thread = 1, .blur = 0.6 };
      HwPoint large = { 120, turned ? 270 : 120 }, small = { 300, turned ? 90 : 300 }, corners[4];
      g_autoptr (HwPicture) picture = NULL;

      cloth_photo_aim (&photo, 1, 0);
      square_about (photo.sheet, large, 80);
      picture = cloth_photo_take (&photo);
      for (int y = -40; y < 40; y++)
        for (int x = -40; x < 40; x++)
          memset (picture->pixels + (gsize)(small.y + y) * picture->stride + 4 * (gsize)(small.x + x), 180,
                  3);
      g_assert_true (hw_find_sheet (picture, corners));
      g_assert_cmpfloat (worst_corner (&photo, corners), <, 1);
    }
}

/* A square that stands on its corner. With any one of its four 9 px outside the photo it is not found, with all within it is. */
static void
a_corner_outside_the_photo_is_not_guessed (void)
{
  static const HwPoint off[] = { { 0, 0 }, { -109, 0 }, { 109, 0 }, { 0, -109 }, { 0, 109 } };

  for (guint i = 0; i < G_N_ELEMENTS (off); i++)
    {
      ClothPhoto photo
          = { .width = 400, .height = 400, .ground = 100, .paper = 180, .thread = 1, .blur = 0.6 };
      g_autoptr (HwPicture) picture = NULL;
      HwPoint corners[4];

      cloth_photo_aim (&photo, 1, 0);
      for (guint k = 0; k < 4; k++)
        {
          HwPoint way = hw_point_turn ((HwPoint){ 100, 0 }, 90.0 * k);

          photo.sheet[k] = (HwPoint){ 200 + off[i].x + way.x, 200 + off[i].y + way.y };
        }
      picture = cloth_photo_take (&photo);
      g_assert_cmpint (hw_find_sheet (picture, corners), ==, i == 0);
    }
}

/* Something lies on it, over one side even. */
static void
a_sheet_with_lines_over_it_is_found (void)
{
  for (guint i = 0; i < 8; i++)
    {
      ClothPhoto photo = some_cloth ();
      g_autoptr (HwPicture) picture = NULL;
      HwPoint corners[4], px;

      lay_sheet (&photo, 297, 210);
      picture = cloth_photo_take (&photo);
      g_assert_true (hw_homography_back (
          &photo.view,
          (HwPoint){ (photo.sheet[0].x + photo.sheet[1].x) / 2, (photo.sheet[0].y + photo.sheet[1].y) / 2 },
          &px));
      for (int y = -30; y < 30; y++)
        for (int x = -12; x < 12; x++)
          memset (picture->pixels + (gsize)((int)px.y + y) * picture->stride + 4 * (gsize)((int)px.x + x), 40,
                  3);
      g_assert_true (hw_find_sheet (picture, corners));
      g_assert_cmpfloat (worst_corner (&photo, corners), <, 1);
    }
}

static void
cloth_without_paper_shows_no_sheet (void)
{
  guint found = 0, cases = 10;

  for (guint i = 0; i < cases; i++)
    {
      ClothPhoto photo = some_cloth ();
      g_autoptr (HwPicture) picture = NULL;
      HwPoint corners[4];

      for (guint k = 0; k < i % 4; k++)
        photo.lines[photo.n_lines++]
            = (PenLine){ { g_test_rand_double_range (0, 500), g_test_rand_double_range (0, 400) },
                         { g_test_rand_double_range (0, 500), g_test_rand_double_range (0, 400) },
                         0.7 };
      photo.pen = 80;
      photo.shade *= 3;
      picture = cloth_photo_take (&photo);
      found += hw_find_sheet (picture, corners);
    }
  g_test_message ("%u of %u", found, cases);
  g_assert_cmpuint (found, ==, 0);
}

static void
round_and_cut_off_things_are_no_sheets (void)
{
  ClothPhoto photo = some_cloth ();
  g_autoptr (HwPicture) plate = cloth_photo_take (&photo);
  g_autoptr (HwPicture) cut_off = NULL;
  HwPoint corners[4];

  for (guint y = 0; y < HEIGHT; y++)
    for (guint x = 0; x < WIDTH; x++)
      if (hypot (x - 320.0, y - 240.0) < 150)
        memset (plate->pixels + y * plate->stride + 4 * x, 240, 3);
  g_assert_false (hw_find_sheet (plate, corners));
  lay_sheet (&photo, 297, 210);
  for (guint i = 0; i < 4; i++)
    photo.sheet[i].x += 200;
  cut_off = cloth_photo_take (&photo);
  g_assert_false (hw_find_sheet (cut_off, corners));
}

/* All but a cloth of this size in the middle of the photo is a dark table. */
static void
lay_cloth_on_table (const ClothPhoto *photo, HwPicture *picture, double width, double height)
{
  for (guint y = 0; y < HEIGHT; y++)
    for (guint x = 0; x < WIDTH; x++)
      {
        guint8 *pixel = picture->pixels + y * picture->stride + 4 * x;
        HwPoint mm = hw_homography_apply (&photo->view, (HwPoint){ x + 0.5, y + 0.5 });

        if (fabs (mm.x - WIDTH / SCALE / 2) > width / 2 || fabs (mm.y - HEIGHT / SCALE / 2) > height / 2)
          for (guint c = 0; c < 3; c++)
            pixel[c] = pixel[c] / 4;
      }
}

/* The cloth has four sides too, and is brighter than the table. */
static void
a_sheet_on_pale_cloth_on_a_dark_table_is_the_sheet (void)
{
  guint found = 0, cases = 6;

  for (guint i = 0; i < cases; i++)
    {
      ClothPhoto photo = some_cloth ();
      g_autoptr (HwPicture) picture = NULL;
      HwPoint corners[4];

      photo.ground = g_test_rand_double_range (150, 185);
      lay_sheet (&photo, 210, 148);
      picture = cloth_photo_take (&photo);
      lay_cloth_on_table (&photo, picture, i % 2 ? 420 : 310, i % 2 ? 320 : 260);
      if (!hw_find_sheet (picture, corners))
        continue;
      found++;
      g_assert_cmpfloat (worst_corner (&photo, corners), <, 1);
    }
  g_test_message ("%u of %u found", found, cases);
  g_assert_cmpuint (found, >=, cases - 1);
}

static void
pale_cloth_that_fills_the_photo_is_no_sheet (void)
{
  for (guint i = 0; i < 4; i++)
    {
      ClothPhoto photo = some_cloth ();
      g_autoptr (HwPicture) picture = NULL;
      HwPoint corners[4];

      photo.ground = g_test_rand_double_range (150, 235);
      picture = cloth_photo_take (&photo);
      lay_cloth_on_table (&photo, picture, 430, 320);
      g_assert_false (hw_find_sheet (picture, corners));
    }
}

static void
tiny_and_even_pictures_show_none (void)
{
  static const guint sides[][2] = { { 1, 1 }, { 2, 1 }, { 1, 500 }, { 3, 3 }, { 40, 30 } };
  HwPoint corners[4];

  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    {
      gsize bytes = 4 * (gsize)sides[i][0] * sides[i][1];
      guint8 *pixels = g_malloc (bytes);
      g_autoptr (HwPicture) picture = NULL;

      memset (pixels, 255, bytes);
      picture = hw_picture_new (sides[i][0], sides[i][1], 4 * (gsize)sides[i][0], pixels);
      g_assert_false (hw_find_sheet (picture, corners));
      pixels[0] = pixels[1] = pixels[2] = 0;
      g_assert_false (hw_find_sheet (picture, corners));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/sheet-finder/corners", sheets_are_found_to_a_pixel);
  g_test_add_func ("/registration/sheet-finder/two-apart", of_two_sheets_apart_the_larger);
  g_test_add_func ("/registration/sheet-finder/corner-outside", a_corner_outside_the_photo_is_not_guessed);
  g_test_add_func ("/registration/sheet-finder/lines-over-it", a_sheet_with_lines_over_it_is_found);
  g_test_add_func ("/registration/sheet-finder/bare-cloth", cloth_without_paper_shows_no_sheet);
  g_test_add_func ("/registration/sheet-finder/round-and-cut-off", round_and_cut_off_things_are_no_sheets);
  g_test_add_func ("/registration/sheet-finder/on-cloth-on-a-table",
                   a_sheet_on_pale_cloth_on_a_dark_table_is_the_sheet);
  g_test_add_func ("/registration/sheet-finder/cloth-fills-the-photo",
                   pale_cloth_that_fills_the_photo_is_no_sheet);
  g_test_add_func ("/registration/sheet-finder/tiny", tiny_and_even_pictures_show_none);
  return g_test_run ();
}
