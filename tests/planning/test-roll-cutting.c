/* Cutting from a roll: known answers, and every way to lay few pieces in rows tried out. */
#include <math.h>

#include "planning/roll-cutting.h"

#define MOST_TRIED 5

/* All ways: each piece turned or not, and put into one of the rows there are or a new one. */
static double
try_all (const HwRollPiece *pieces, guint n, guint i, double roll, double *across, double *along, guint rows)
{
  double best = INFINITY;

  if (i == n)
    {
      double length = 0;

      for (guint r = 0; r < rows; r++)
        length += along[r];
      return length;
    }
  for (guint turned = 0; turned < 2; turned++)
    for (guint r = 0; r <= rows; r++)
      {
        double x = turned ? pieces[i].height : pieces[i].width,
               y = turned ? pieces[i].width : pieces[i].height;
        double was_across = r < rows ? across[r] : 0, was_along = r < rows ? along[r] : 0;

        if (was_across + x > roll)
          continue;
        across[r] = was_across + x;
        along[r] = fmax (was_along, y);
        best = fmin (best, try_all (pieces, n, i + 1, roll, across, along, MAX (rows, r + 1)));
        across[r] = was_across;
        along[r] = was_along;
      }
  return best;
}

static void
few_pieces_take_the_least_there_is (void)
{
  for (guint round = 0; round < 150; round++)
    {
      HwRollPiece pieces[MOST_TRIED];
      double across[MOST_TRIED + 1] = { 0 }, along[MOST_TRIED + 1] = { 0 };
      guint n = (guint)g_test_rand_int_range (1, MOST_TRIED + 1), lost;
      double roll = g_test_rand_int_range (200, 600);

      for (guint i = 0; i < n; i++)
        pieces[i] = (HwRollPiece){ g_test_rand_int_range (50, 200), g_test_rand_int_range (50, 300) };
      g_assert_cmpfloat_with_epsilon (hw_roll_length (pieces, n, roll, &lost),
                                      try_all (pieces, n, 0, roll, across, along, 0), 1e-6);
      g_assert_cmpuint (lost, ==, 0);
    }
}

static void
known_answers (void)
{
  const HwRollPiece two[] = { { 200, 300 }, { 200, 300 } }, wide[] = { { 600, 700 }, { 100, 100 } };
  guint lost;

  g_assert_cmpfloat (hw_roll_length (NULL, 0, 500, NULL), ==, 0);
  /* Side by side upright: one row of 300 mm. Turned, 300 mm across each, they would need two of 200. */
  g_assert_cmpfloat_with_epsilon (hw_roll_length (two, 2, 500, NULL), 300, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_roll_length (two, 2, 399, NULL), 400, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_roll_length (wide, 2, 500, &lost), 100, 1e-9);
  g_assert_cmpuint (lost, ==, 1);
}

/* Two of 150 and one of 200 mm fill the roll: a dozen such rows waste nothing, and no length could be less. */
static void
many_of_two_sizes_fill_the_roll (void)
{
  HwRollPiece pieces[36];
  guint lost;

  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    pieces[i] = (HwRollPiece){ i < 24 ? 150 : 200, 160 };
  g_assert_cmpfloat_with_epsilon (hw_roll_length (pieces, 36, 500, &lost), 12 * 160, 1e-6);
  g_assert_cmpuint (lost, ==, 0);
}

/* No two go side by side, so each takes its shorter side of the roll's length; there are more ways than can be looked through. */
static void
pieces_too_wide_for_company_lie_one_behind_another (void)
{
  HwRollPiece pieces[120];
  double length = 0;

  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    {
      pieces[i] = (HwRollPiece){ 300 + i % 12, 320 + i % 12 };
      length += pieces[i].width;
    }
  g_assert_cmpfloat_with_epsilon (hw_roll_length (pieces, G_N_ELEMENTS (pieces), 500, NULL), length, 1e-6);
}

/* So many sizes that rows are filled one by one: never less than the area asks for, never more than piece after piece. */
static void
many_pieces_stay_within_bounds (void)
{
  HwRollPiece pieces[400];
  double area = 0, one_by_one = 0, length;

  for (guint i = 0; i < G_N_ELEMENTS (pieces); i++)
    {
      pieces[i] = (HwRollPiece){ g_test_rand_double_range (80, 240), g_test_rand_double_range (80, 300) };
      area += pieces[i].width * pieces[i].height;
      one_by_one += MIN (pieces[i].width, pieces[i].height);
    }
  length = hw_roll_length (pieces, G_N_ELEMENTS (pieces), 500, NULL);
  g_assert_cmpfloat (length, >=, area / 500);
  g_assert_cmpfloat (length, <=, one_by_one);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/roll-cutting/few-pieces-take-the-least-there-is", few_pieces_take_the_least_there_is);
  g_test_add_func ("/roll-cutting/known-answers", known_answers);
  g_test_add_func ("/roll-cutting/many-of-two-sizes-fill-the-roll", many_of_two_sizes_fill_the_roll);
  g_test_add_func ("/roll-cutting/pieces-too-wide-for-company",
                   pieces_too_wide_for_company_lie_one_behind_another);
  g_test_add_func ("/roll-cutting/many-pieces-stay-within-bounds", many_pieces_stay_within_bounds);
  return g_test_run ();
}
