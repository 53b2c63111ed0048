/* Crosses and sheets in pictures so plain that what is found is known without reckoning, each for one turn the search may take wrong. */
#include <math.h>

#include "registration/grey-patch.h"
#include "registration/mark-finder-private.h"
#include "registration/mark-finder.h"
#include "registration/sheet-finder-private.h"

#include "lit-picture.h"
#include "seen-cross.h"

static double
crosses_light (const void *what, double x, double y)
{
  const HwCross *crosses = what;

  return cross_light (&crosses[0], 0, x, y) + cross_light (&crosses[1], 200, x, y);
}

static const HwCross no_cross = { { -1000, -1000 }, { 0, 0 }, 1, 0, 0, 0 };

/* Four pixels of 10, 20, 30 and 40 are one of 25. */
static double
quarters_light (const void *what, double x, double y)
{
  return 10 + 10 * floor (x) + 20 * floor (y);
}

static void
every_coarse_pixel_is_a_mean (void)
{
  g_autoptr (HwPicture) picture = picture_of (2, 2, quarters_light, NULL);
  g_auto (HwGreyPatch) patch = { 0 };

  g_assert_true (hw_grey_patch_take (&patch, picture, 0, 0, 2, 2, 2));
  g_assert_cmpfloat (patch.grey[0], ==, 25);
}

static void
both_lines_are_fitted (void)
{
  const HwCross cross = { { 20, 20 }, { 0.2, 1.8 }, 1.1, -90, 0, 0 };
  HwCross fitted = { { 20.3, 20 }, { 0.1, 1.9 }, 1, -70, 0, 0 };
  g_auto (HwGreyPatch) patch = patch_of (&cross, 40);

  g_assert_true (hw_cross_fit (&patch, 8, &fitted));
  g_assert_cmpfloat_with_epsilon (fitted.turn[0], 0.2, 0.005);
  g_assert_cmpfloat_with_epsilon (fitted.turn[1], 1.8, 0.005);
}

/* A search of one place, and that is it; lines 75 degrees apart whichever way they lie. */
static void
a_cross_is_found_however_it_lies (void)
{
  for (guint turn = 0; turn < 180; turn += 15)
    {
      const double first = turn * (G_PI / 180), second = (turn + 105) * (G_PI / 180);
      const HwCross crosses[] = { { { 50.5, 50.5 }, { first, second }, 1, -100, 0, 0 }, no_cross };
      g_autoptr (HwPicture) picture = picture_of (101, 101, crosses_light, crosses);
      HwFoundMark mark;

      g_assert_true (hw_find_cross (picture, (HwPoint){ 50.5, 50.5 }, 0, 12, &mark));
      g_assert_cmpfloat (hw_point_distance (mark.px, crosses[0].at), <, 0.05);
      g_assert_cmpfloat (mark.confidence, >, 0.8);
    }
}

/* Twice as dark as the other is told from it, whichever way its lines lie, square or 75 degrees apart. */
static void
the_darker_of_two_is_believed (void)
{
  for (guint turn = 0; turn < 360; turn += 45)
    {
      const double first = turn * (G_PI / 180), apart = (turn < 180 ? 90 : 105) * (G_PI / 180);
      const HwCross crosses[] = { { { 60, 60 }, { first, first + apart }, 1, -100, 0, 0 },
                                  { { 100, 60 }, { 0, G_PI / 2 }, 1, -45, 0, 0 } };
      g_autoptr (HwPicture) picture = picture_of (160, 120, crosses_light, crosses);
      HwFoundMark mark;

      g_assert_true (hw_find_cross (picture, (HwPoint){ 78, 60 }, 30, 12, &mark));
      g_assert_cmpfloat (hw_point_distance (mark.px, crosses[0].at), <, 0.5);
      g_assert_cmpfloat (mark.confidence, >, 0.5);
    }
}

static void
four_sides_stay_four (void)
{
  const HwPoint square[] = { { 0, 0 }, { 9, 1 }, { 8, 7 }, { 1, 8 } };
  HwPoint corners[4];

  g_assert_true (hw_sheet_reduce (square, 4, corners));
  for (guint i = 0; i < 4; i++)
    g_assert_true (corners[i].x == square[i].x && corners[i].y == square[i].y);
}

/* A rectangle, lit, whose upper side may jump up by `jump` between the parts `from` and `to` of its length; and on it a brighter one. */
typedef struct
{
  double x0, y0, x1, y1;
  double from, to, jump;
  double bright[4]; /* x0, y0, x1, y1 */
  gboolean woven;   /* every other pixel dark */
  double slant;     /* so far to the left for each pixel down */
} Lit;

static double
lit_light (const void *what, double x, double y)
{
  const Lit *lit = what;
  const double across = x + lit->slant * (y - lit->y0);
  const double part = (x - lit->x0) / (lit->x1 - lit->x0);
  const double top = lit->y0 - (part > lit->from && part < lit->to ? lit->jump : 0);

  if (x > lit->bright[0] && y > lit->bright[1] && x < lit->bright[2] && y < lit->bright[3])
    return 230;
  if (across < lit->x0 || across > lit->x1 || y > lit->y1)
    return 60;
  if (lit->woven && (int)(floor (x) + floor (y)) % 2 != 0)
    return 61;
  return 60 + (lit->woven ? 190 : 100) * CLAMP (y + 0.5 - top, 0, 1);
}

static gboolean
follows (const Lit *lit, double reach, HwPoint corners[4])
{
  g_autoptr (HwPicture) picture = picture_of (200, 150, lit_light, lit);
  const HwPoint around[]
      = { { lit->x0, lit->y0 }, { lit->x1, lit->y0 }, { lit->x1, lit->y1 }, { lit->x0, lit->y1 } };

  for (guint i = 0; i < 4; i++)
    corners[i] = around[i];
  return hw_sheet_follow_sides (picture, corners, reach);
}

/* Seven tenths of the ways must show the side: not where half of it lies six pixels off, but where two fifths lie one and a half off, or nearly two. The
 * photo's own first row is dark enough to end a sheet. */
static void
a_side_is_nearly_straight (void)
{
  const Lit broken = { .x0 = 30, .y0 = 60, .x1 = 170, .y1 = 120, .from = 0.5, .to = 1, .jump = 6 };
  const Lit worn = { .x0 = 30, .y0 = 60, .x1 = 170, .y1 = 120, .from = 0.3, .to = 0.7, .jump = 1.45 };
  const Lit uneven = { .x0 = 30, .y0 = 60, .x1 = 170, .y1 = 120, .from = 0.3, .to = 0.7, .jump = 1.8 };
  const Lit high = { .x0 = 30, .y0 = 1, .x1 = 170, .y1 = 120 };
  HwPoint corners[4];

  g_assert_false (follows (&broken, 10, corners));
  g_assert_true (follows (&worn, 10, corners));
  g_assert_true (follows (&uneven, 10, corners));
  g_assert_true (follows (&high, 4, corners));
  g_assert_cmpfloat_with_epsilon (corners[0].y, 1, 0.3);
}

static void
assert_finds (const Lit *lit, guint width, guint height)
{
  g_autoptr (HwPicture) picture = picture_of (width, height, lit_light, lit);
  const double left = lit->slant * (lit->y1 - lit->y0);
  const HwPoint wanted[] = {
    { lit->x0, lit->y0 }, { lit->x1, lit->y0 }, { lit->x1 - left, lit->y1 }, { lit->x0 - left, lit->y1 }
  };
  HwPoint corners[4];

  g_assert_true (hw_find_sheet (picture, corners));
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat (hw_point_distance (corners[i], wanted[i]), <, 1);
}

/* A photo made coarse for the search; a sheet of which every other pixel is dark; one askew, whose lower pixels are met from the right. */
static void
sheets_are_found_coarse_woven_and_askew (void)
{
  const Lit far = { .x0 = 500, .y0 = 60, .x1 = 700, .y1 = 200 };
  const Lit woven = { .x0 = 60, .y0 = 40, .x1 = 150, .y1 = 110, .woven = TRUE };
  const Lit askew = { .x0 = 90, .y0 = 40, .x1 = 180, .y1 = 110, .slant = 0.5 };

  assert_finds (&far, 900, 260);
  assert_finds (&woven, 220, 150);
  assert_finds (&askew, 220, 150);
}

/* What is brighter on a sheet and ends where the sheet does is lit by chance, whichever side it is. */
static void
what_ends_with_the_sheet_is_no_sheet_on_it (void)
{
  const double bright[][4]
      = { { 80, 40, 120, 70 }, { 120, 60, 150, 90 }, { 80, 80, 120, 110 }, { 60, 60, 90, 90 } };

  for (guint i = 0; i < G_N_ELEMENTS (bright); i++)
    {
      Lit lit = { .x0 = 60, .y0 = 40, .x1 = 150, .y1 = 110 };

      for (guint k = 0; k < 4; k++)
        lit.bright[k] = bright[i][k];
      assert_finds (&lit, 220, 150);
    }
}

/* Well away from all sides of the other it is the sheet, and that its cloth. */
static void
what_lies_within_is_the_sheet (void)
{
  const Lit lit = { .x0 = 60, .y0 = 40, .x1 = 150, .y1 = 110, .bright = { 85, 60, 125, 90 } };
  g_autoptr (HwPicture) picture = picture_of (220, 150, lit_light, &lit);
  HwPoint corners[4];

  g_assert_true (hw_find_sheet (picture, corners));
  g_assert_cmpfloat (hw_point_distance (corners[0], (HwPoint){ 85, 60 }), <, 1);
  g_assert_cmpfloat (hw_point_distance (corners[2], (HwPoint){ 125, 90 }), <, 1);
}

#define ADD(name, test) g_test_add_func ("/registration/pictures-by-hand/" name, test)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("every-coarse-pixel-is-a-mean", every_coarse_pixel_is_a_mean);
  ADD ("both-lines-are-fitted", both_lines_are_fitted);
  ADD ("a-cross-is-found-however-it-lies", a_cross_is_found_however_it_lies);
  ADD ("the-darker-of-two-is-believed", the_darker_of_two_is_believed);
  ADD ("four-sides-stay-four", four_sides_stay_four);
  ADD ("a-side-is-nearly-straight", a_side_is_nearly_straight);
  ADD ("sheets-are-found-coarse-woven-and-askew", sheets_are_found_coarse_woven_and_askew);
  ADD ("what-ends-with-the-sheet-is-no-sheet-on-it", what_ends_with_the_sheet_is_no_sheet_on_it);
  ADD ("what-lies-within-is-the-sheet", what_lies_within_is_the_sheet);
  return g_test_run ();
}
