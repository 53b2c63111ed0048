/* Crosses drawn on cloth, found in photographs that the test makes up. */
#include "registration/mark-finder.h"

#include "cloth-photo.h"

#define SCALE 2.4 /* px per mm */
#define ARM 12.0  /* px: crosses of 10 mm */
#define SIDE 150

static ClothPhoto
some_cloth (double noise)
{
  ClothPhoto photo = { .width = SIDE,
                       .height = SIDE,
                       .ground = g_test_rand_double_range (110, 200),
                       .thread = g_test_rand_double_range (0.4, 2.0),
                       .turn = g_test_rand_double_range (0, G_PI),
                       .weave = g_test_rand_double_range (5, 18),
                       .blur = g_test_rand_double_range (0.5, 1.2),
                       .shade = g_test_rand_double_range (-50, 50),
                       .noise = noise };

  cloth_photo_aim (&photo, SCALE, 0.08);
  return photo;
}

/* Lines of the cloth through `at`, length mm to both sides of it. */
static void
draw_line (ClothPhoto *photo, HwPoint at, double turn, double before, double after, double wide)
{
  double c = cos (turn), s = sin (turn);

  photo->lines[photo->n_lines++]
      = (PenLine){ { at.x - before * c, at.y - before * s }, { at.x + after * c, at.y + after * s }, wide };
}

static HwPoint
draw_cross (ClothPhoto *photo, double arm)
{
  HwPoint px = { SIDE / 2 + g_test_rand_double_range (-9, 9), SIDE / 2 + g_test_rand_double_range (-9, 9) };
  HwPoint at = hw_homography_apply (&photo->view, px);
  double turn = g_test_rand_double_range (0, G_PI), wide = g_test_rand_double_range (0.4, 0.8);

  photo->pen = g_test_rand_double_range (45, 100) * (g_test_rand_int_range (0, 4) == 0 ? -1 : 1);
  if (photo->pen < 0)
    photo->ground = MIN (photo->ground, 130);
  draw_line (photo, at, turn, arm, arm, wide);
  draw_line (photo, at, turn + G_PI / 2, arm, arm, wide);
  return px;
}

static HwPoint
middle (void)
{
  return (HwPoint){ SIDE / 2, SIDE / 2 };
}

static void
crosses_are_found_to_parts_of_a_pixel (void)
{
  guint found = 0, exact = 0, sure = 0, cases = 25;
  double worst = 0, squares = 0;

  for (guint i = 0; i < cases; i++)
    {
      ClothPhoto photo = some_cloth (6);
      HwPoint px = draw_cross (&photo, ARM / SCALE * g_test_rand_double_range (0.9, 1.15));
      g_autoptr (HwPicture) picture = cloth_photo_take (&photo);
      HwFoundMark mark;
      double miss;

      if (!hw_find_cross (picture, middle (), 25, ARM, &mark))
        continue;
      found++;
      miss = hw_point_distance (mark.px, px);
      if (g_test_verbose ())
        g_test_message ("miss %.3f confidence %.3f", miss, mark.confidence);
      sure += mark.confidence >= 0.5;
      if (mark.confidence < 0.5)
        continue;
      exact += miss < 0.3;
      worst = MAX (worst, miss);
      squares += miss * miss;
    }
  g_test_message ("of %u: found %u, sure %u, of these within 0.3 px %u, rms %.3f px, worst %.3f px", cases,
                  found, sure, exact, sqrt (squares / sure), worst);
  g_assert_cmpuint (sure, >=, cases * 93 / 100);
  g_assert_cmpuint (exact, >=, sure * 99 / 100);
  g_assert_cmpfloat (worst, <, 1);
}

static guint
count_finds (const char *what, void (*draw) (ClothPhoto *photo), guint cases)
{
  guint finds = 0;

  for (guint i = 0; i < cases; i++)
    {
      ClothPhoto photo = some_cloth (g_test_rand_double_range (1, 8));
      g_autoptr (HwPicture) picture = NULL;
      HwFoundMark mark;

      if (draw != NULL)
        draw (&photo);
      picture = cloth_photo_take (&photo);
      if (hw_find_cross (picture, middle (), 25, ARM, &mark) && mark.confidence >= 0.5)
        finds++;
    }
  g_test_message ("%s: %u of %u", what, finds, cases);
  return finds;
}

static void
draw_one_line (ClothPhoto *photo)
{
  photo->pen = 80;
  draw_line (photo, hw_homography_apply (&photo->view, middle ()), g_test_rand_double_range (0, G_PI), 99, 99,
             0.6);
}

static void
draw_corner (ClothPhoto *photo)
{
  HwPoint at = hw_homography_apply (&photo->view, middle ());
  double turn = g_test_rand_double_range (0, G_PI);

  photo->pen = 80;
  draw_line (photo, at, turn, 0, 40, 0.6);
  draw_line (photo, at, turn + G_PI / 2, 0, 40, 0.6);
}

static void
draw_dot (ClothPhoto *photo)
{
  photo->pen = 80;
  draw_line (photo, hw_homography_apply (&photo->view, middle ()), 0, 1.2, 1.2, 2.4);
}

static void
bare_cloth_shows_no_cross (void)
{
  g_assert_cmpuint (count_finds ("bare cloth", NULL, 10), <, 1);
  g_assert_cmpuint (count_finds ("one line", draw_one_line, 4), <, 1);
  g_assert_cmpuint (count_finds ("a corner", draw_corner, 4), <, 1);
  g_assert_cmpuint (count_finds ("a dot", draw_dot, 4), <, 1);
}

/* Photos of many megapixels show the same cross larger. */
static void
large_crosses_are_found_as_well (void)
{
  for (guint i = 0; i < 2; i++)
    {
      ClothPhoto photo
          = { .width = 800, .height = 700, .ground = 170, .thread = 0.5, .weave = 8, .blur = 2, .noise = 6 };
      HwPoint at;
      g_autoptr (HwPicture) picture = NULL;
      HwFoundMark mark;

      cloth_photo_aim (&photo, 12, 0.08);
      at = hw_homography_apply (&photo.view, (HwPoint){ 431.3, 322.8 });
      photo.pen = 70;
      draw_line (&photo, at, 0.4 * i, 5, 5, 0.5);
      draw_line (&photo, at, 0.4 * i + G_PI / 2, 5, 5, 0.5);
      picture = cloth_photo_take (&photo);
      g_assert_true (hw_find_cross (picture, (HwPoint){ 380, 350 }, 120, 60, &mark));
      g_assert_cmpfloat (hw_point_distance (mark.px, (HwPoint){ 431.3, 322.8 }), <, 0.6);
      g_assert_cmpfloat (mark.confidence, >, 0.5);
      /* The patch is five pixels coarse, and its noise counts for so many: more than the finest that is ever told. */
      g_assert_cmpfloat (mark.sigma, >, 0.06);
      g_assert_cmpfloat (hw_point_distance (mark.px, (HwPoint){ 431.3, 322.8 }), <, 3 * mark.sigma);
    }
}

static void
two_crosses_alike_are_not_chosen_between (void)
{
  ClothPhoto photo = some_cloth (3);
  g_autoptr (HwPicture) picture = NULL;
  HwFoundMark mark;

  photo.pen = 80;
  for (guint i = 0; i < 2; i++)
    {
      HwPoint at = hw_homography_apply (&photo.view, (HwPoint){ SIDE / 2 + (i == 0 ? -15 : 15), SIDE / 2 });

      draw_line (&photo, at, 0.3, 5, 5, 0.6);
      draw_line (&photo, at, 0.3 + G_PI / 2, 5, 5, 0.6);
    }
  picture = cloth_photo_take (&photo);
  if (hw_find_cross (picture, middle (), 30, ARM, &mark))
    g_assert_cmpfloat (mark.confidence, <, 0.5);
}

/* 150 and then 250 pixels from the guess: the second is beyond 40 arms of 5. */
static void
the_search_reaches_forty_arms (void)
{
  ClothPhoto photo = { .width = 400, .height = 50, .ground = 170, .thread = 0.5, .blur = 0.6, .pen = 90 };
  g_autoptr (HwPicture) picture = NULL;
  HwFoundMark mark;
  HwPoint at;

  cloth_photo_aim (&photo, SCALE, 0);
  at = hw_homography_apply (&photo.view, (HwPoint){ 350, 25 });
  draw_line (&photo, at, 0.3, 2, 2, 0.6);
  draw_line (&photo, at, 0.3 + G_PI / 2, 2, 2, 0.6);
  picture = cloth_photo_take (&photo);
  g_assert_true (hw_find_cross (picture, (HwPoint){ 200, 25 }, 1000, 5, &mark));
  g_assert_cmpfloat (hw_point_distance (mark.px, (HwPoint){ 350, 25 }), <, 0.5);
  g_assert_false (hw_find_cross (picture, (HwPoint){ 100, 25 }, 1000, 5, &mark));
}

static void
what_cannot_hold_a_cross_holds_none (void)
{
  ClothPhoto photo = some_cloth (6);
  g_autoptr (HwPicture) picture = NULL;
  g_autoptr (HwPicture) dot = hw_picture_new (1, 1, 4, g_malloc0 (4));
  HwFoundMark mark;

  picture = cloth_photo_take (&photo);
  g_assert_false (hw_find_cross (picture, (HwPoint){ NAN, 3 }, 25, ARM, &mark));
  g_assert_false (hw_find_cross (picture, (HwPoint){ -1e9, 3 }, 25, ARM, &mark));
  g_assert_false (hw_find_cross (picture, middle (), -1, ARM, &mark));
  g_assert_false (hw_find_cross (picture, middle (), 25, 0, &mark));
  g_assert_false (hw_find_cross (picture, middle (), 25, 1000, &mark));
  g_assert_false (hw_find_cross (dot, (HwPoint){ 0, 0 }, 25, ARM, &mark));
  g_assert_cmpfloat (mark.confidence, ==, 0);
  photo.weave = photo.noise = photo.shade = 0;
  g_clear_pointer (&picture, hw_picture_unref);
  picture = cloth_photo_take (&photo);
  g_assert_false (hw_find_cross (picture, middle (), 25, ARM, &mark));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/mark-finder/exact", crosses_are_found_to_parts_of_a_pixel);
  g_test_add_func ("/registration/mark-finder/bare-cloth", bare_cloth_shows_no_cross);
  g_test_add_func ("/registration/mark-finder/large", large_crosses_are_found_as_well);
  g_test_add_func ("/registration/mark-finder/two-alike", two_crosses_alike_are_not_chosen_between);
  g_test_add_func ("/registration/mark-finder/reach", the_search_reaches_forty_arms);
  g_test_add_func ("/registration/mark-finder/none", what_cannot_hold_a_cross_holds_none);
  return g_test_run ();
}
