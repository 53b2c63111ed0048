/* Photo points to the cloth: exact where the points are, honest where they are not. */
#include "registration/homography.h"

#include "seen-square.h"

static gboolean
fit (const HwPhotoPoint *points, guint n, double bow, gboolean fit_bow, HwHomography *h, double *residuals)
{
  g_autoptr (GError) error = NULL;
  gboolean done
      = hw_homography_fit (points, n, PHOTO_WIDTH, PHOTO_HEIGHT, bow, fit_bow, h, residuals, &error);

  g_assert_no_error (error);
  return done;
}

static double
worst_miss (const Seen *seen, const HwHomography *h)
{
  double worst = 0;

  for (guint i = 0; i < 30; i++)
    {
      HwPoint mm = cloth_place ();

      worst = MAX (worst, hw_point_distance (hw_homography_apply (h, seen_at (seen, mm)), mm));
    }
  return worst;
}

static void
exact_points_give_the_view_back (void)
{
  static const guint counts[] = { 4, 5, 6, 9, 30 };

  for (guint i = 0; i < 200; i++)
    {
      Seen seen = seen_askew ();
      guint n = counts[i % G_N_ELEMENTS (counts)];
      HwPhotoPoint points[30];
      double residuals[30];
      HwHomography h;

      seen_points (&seen, points, n, 0);
      g_assert_true (fit (points, n, 0, FALSE, &h, residuals));
      g_assert_cmpfloat (fabs (h.m[2][2]), ==, 1);
      g_assert_cmpfloat (worst_miss (&seen, &h), <, 1e-6);
      for (guint k = 0; k < n; k++)
        g_assert_cmpfloat (residuals[k], <, 1e-6);
    }
}

static void
the_bow_is_given_or_found (void)
{
  for (guint i = 0; i < 100; i++)
    {
      Seen seen = seen_askew ();
      HwPhotoPoint points[12];
      HwHomography h;

      seen.bow = g_test_rand_double_range (-0.25, 0.25);
      seen_points (&seen, points, 12, 0);
      g_assert_true (fit (points, i % 2 == 0 ? 4 : 12, seen.bow, FALSE, &h, NULL));
      g_assert_cmpfloat (worst_miss (&seen, &h), <, 1e-6);
      g_assert_true (fit (points, 12, 0, TRUE, &h, NULL));
      g_assert_cmpfloat_with_epsilon (h.bow, seen.bow, 1e-8);
      g_assert_cmpfloat (worst_miss (&seen, &h), <, 1e-6);
    }
}

static void
the_way_back_is_the_way_back (void)
{
  for (guint i = 0; i < 200; i++)
    {
      Seen seen = seen_askew ();
      HwPhotoPoint points[6];
      HwPoint px = { g_test_rand_double_range (0, PHOTO_WIDTH), g_test_rand_double_range (0, PHOTO_HEIGHT) };
      HwPoint again;
      HwHomography h;

      seen.bow = i % 2 == 0 ? 0 : g_test_rand_double_range (-0.25, 0.25);
      seen_points (&seen, points, 6, 0);
      g_assert_true (fit (points, 6, seen.bow, FALSE, &h, NULL));
      if (!isfinite (hw_homography_apply (&h, px).x))
        continue;
      g_assert_true (hw_homography_back (&h, hw_homography_apply (&h, px), &again));
      g_assert_cmpfloat (hw_point_distance (px, again), <, 1e-5);
    }
}

/* A flat view: the horizon crosses the photo at y = 800, and the cloth lies below it. */
static void
beyond_the_horizon_there_is_no_cloth (void)
{
  HwPhotoPoint points[4];
  HwPoint px;
  HwHomography h;

  for (guint i = 0; i < 4; i++)
    {
      double y = i < 2 ? 1000 : 2800, depth = 1 / (y - 800);

      points[i].px = (HwPoint){ i == 1 || i == 2 ? 3000 : 1000, y };
      points[i].mm = (HwPoint){ (points[i].px.x - 2000) * depth * 1000, -depth * 200000 };
    }
  g_assert_true (fit (points, 4, 0, FALSE, &h, NULL));
  g_assert_cmpfloat (h.m[2][2], ==, -1);
  g_assert_cmpfloat_with_epsilon (hw_homography_apply (&h, (HwPoint){ 2000, 1800 }).y, -200, 1e-6);
  g_assert_true (isnan (hw_homography_apply (&h, (HwPoint){ 2000, 700 }).x));
  g_assert_true (hw_homography_back (&h, (HwPoint){ 0, -200 }, &px));
  g_assert_cmpfloat_with_epsilon (px.y, 1800, 1e-6);
  g_assert_false (hw_homography_back (&h, (HwPoint){ 0, 100 }, &px));
}

static double
sum_of_misses (const HwPhotoPoint *points, guint n, const HwHomography *h)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += pow (hw_point_distance (hw_homography_apply (h, points[i].px), points[i].mm), 2);
  return sum;
}

/* No little change of any number of the matrix makes the distances less. */
static void
scattered_points_are_met_as_nearly_as_can_be (void)
{
  for (guint i = 0; i < 50; i++)
    {
      Seen seen = seen_askew ();
      HwPhotoPoint points[10];
      HwHomography h;
      double least;

      seen.bow = -0.1;
      seen_points (&seen, points, 10, 4);
      g_assert_true (fit (points, 10, 0, i % 2 == 0, &h, NULL));
      least = sum_of_misses (points, 10, &h);
      for (guint k = 0; k < 9; k++)
        for (int sign = -1; sign <= 1; sign += 2)
          {
            HwHomography other = h;

            if (k < 8)
              other.m[k / 3][k % 3] *= 1 + sign * 1e-5;
            else if (i % 2 == 0)
              other.bow += sign * 1e-4;
            g_assert_cmpfloat (sum_of_misses (points, 10, &other), >=, least * (1 - 1e-12));
          }
    }
}

static void
assert_refused (const HwPhotoPoint *points, guint n, gboolean fit_bow, HwHomographyError code)
{
  g_autoptr (GError) error = NULL;
  HwHomography h;

  g_assert_false (hw_homography_fit (points, n, PHOTO_WIDTH, PHOTO_HEIGHT, 0, fit_bow, &h, NULL, &error));
  g_assert_error (error, HW_HOMOGRAPHY_ERROR, (int)code);
}

static void
what_tells_no_view_is_refused (void)
{
  Seen seen = seen_askew ();
  HwPhotoPoint points[9], exchanged;

  seen_points (&seen, points, 9, 0);
  assert_refused (points, 0, FALSE, HW_HOMOGRAPHY_ERROR_TOO_FEW);
  assert_refused (points, 3, FALSE, HW_HOMOGRAPHY_ERROR_TOO_FEW);
  assert_refused (points, 5, TRUE, HW_HOMOGRAPHY_ERROR_TOO_FEW);

  points[2] = points[1];
  assert_refused (points, 4, FALSE, HW_HOMOGRAPHY_ERROR_LINE);
  for (guint i = 0; i < 9; i++)
    {
      points[i].mm = i == 8 ? (HwPoint){ 100, 150 } : (HwPoint){ 30.0 * i, 20.0 * i };
      points[i].px = seen_at (&seen, points[i].mm);
    }
  assert_refused (points, 9, FALSE, HW_HOMOGRAPHY_ERROR_LINE);
  for (guint i = 0; i < 9; i++)
    points[i] = points[0];
  assert_refused (points, 9, FALSE, HW_HOMOGRAPHY_ERROR_LINE);

  for (guint a = 0; a < 4; a++)
    for (guint b = 0; b < a; b++)
      {
        seen_points (&seen, points, 4, 0);
        exchanged = points[a];
        points[a].mm = points[b].mm;
        points[b].mm = exchanged.mm;
        assert_refused (points, 4, FALSE, HW_HOMOGRAPHY_ERROR_MIRRORED);
      }
  seen_points (&seen, points, 9, 1);
  for (guint i = 0; i < 9; i++)
    points[i].px.x = PHOTO_WIDTH - points[i].px.x;
  assert_refused (points, 9, FALSE, HW_HOMOGRAPHY_ERROR_MIRRORED);

  seen_points (&seen, points, 9, 0);
  points[7].mm.y = NAN;
  assert_refused (points, 9, FALSE, HW_HOMOGRAPHY_ERROR_NOT_FINITE);
  points[7].mm.y = 1e300;
  points[6].mm.y = -1e300;
  points[7].px.x = INFINITY;
  assert_refused (points, 9, FALSE, HW_HOMOGRAPHY_ERROR_NOT_FINITE);
}

/* On a circle about the middle of the photo every bow is but another scale. */
static void
points_on_a_circle_tell_no_bow (void)
{
  HwPhotoPoint points[8];

  for (guint i = 0; i < 8; i++)
    {
      points[i].mm = (HwPoint){ 100 * cos (i * G_PI / 4), 100 * sin (i * G_PI / 4) };
      points[i].px
          = (HwPoint){ PHOTO_WIDTH / 2 + 10 * points[i].mm.x, PHOTO_HEIGHT / 2 + 10 * points[i].mm.y };
    }
  assert_refused (points, 8, TRUE, HW_HOMOGRAPHY_ERROR_BOW);
}

/* Every other one of them farther out: by a twentieth it is still not told, by a tenth it is. */
static void
points_near_a_circle_hardly_tell_a_bow (void)
{
  HwPhotoPoint points[8];
  HwHomography h;

  for (int tenth = 0; tenth <= 1; tenth++)
    {
      for (guint i = 0; i < 8; i++)
        {
          HwPoint out = hw_point_turn ((HwPoint){ i % 2 == 0 ? 100 : tenth ? 110 : 105, 0 }, 45.0 * i);

          points[i].mm = out;
          points[i].px = (HwPoint){ PHOTO_WIDTH / 2 + 10 * out.x, PHOTO_HEIGHT / 2 + 10 * out.y };
        }
      if (tenth)
        {
          g_assert_true (fit (points, 8, 0, TRUE, &h, NULL));
          g_assert_cmpfloat_with_epsilon (h.bow, 0, 1e-6);
        }
      else
        assert_refused (points, 8, TRUE, HW_HOMOGRAPHY_ERROR_BOW);
    }
}

static void
a_wrong_point_is_told (void)
{
  guint told = 0, blamed = 0, falsely = 0, cases = 200;

  for (guint i = 0; i < cases; i++)
    {
      Seen seen = seen_askew ();
      HwPhotoPoint points[12];
      guint n = 7 + i % 6, wrong = (guint)g_test_rand_int_range (0, (int)n);
      HwHomography h;
      double by;
      int found;

      seen_points (&seen, points, n, 1.5);
      g_assert_true (fit (points, n, 0, FALSE, &h, NULL));
      if (hw_homography_bad_point (points, n, &h, PHOTO_WIDTH, PHOTO_HEIGHT, &by) >= 0)
        falsely++;
      points[wrong].mm.x += 12;
      points[wrong].mm.y -= 8;
      g_assert_true (fit (points, n, 0, FALSE, &h, NULL));
      found = hw_homography_bad_point (points, n, &h, PHOTO_WIDTH, PHOTO_HEIGHT, &by);
      if (found == (int)wrong)
        {
          told++;
          g_assert_cmpfloat_with_epsilon (by, hypot (12, 8), 10);
        }
      else if (found >= 0)
        blamed++;
    }
  g_test_message ("told %u of %u, another blamed %u, none wrong yet blamed %u", told, cases, blamed, falsely);
  g_assert_cmpuint (told, >=, cases * 85 / 100);
  g_assert_cmpuint (blamed, <=, cases / 100);
  g_assert_cmpuint (falsely, <=, cases * 4 / 100);
}

static void
each_point_may_be_the_wrong_one (void)
{
  for (guint wrong = 0; wrong < 9; wrong++)
    {
      Seen seen = seen_askew ();
      HwPhotoPoint points[9];
      HwHomography h;
      double by;

      seen_points (&seen, points, 9, 0);
      points[wrong].mm.y += 30;
      g_assert_true (fit (points, 9, 0, FALSE, &h, NULL));
      g_assert_cmpint (hw_homography_bad_point (points, 9, &h, PHOTO_WIDTH, PHOTO_HEIGHT, &by), ==,
                       (int)wrong);
      g_assert_cmpfloat_with_epsilon (by, 30, 1e-3);
    }
}

static void
of_five_points_none_is_blamed (void)
{
  Seen seen = seen_askew ();
  HwPhotoPoint points[5];
  HwHomography h;
  double by;

  seen_points (&seen, points, 5, 0);
  points[4].mm.x += 4;
  g_assert_true (fit (points, 5, 0, FALSE, &h, NULL));
  g_assert_cmpint (hw_homography_bad_point (points, 5, &h, PHOTO_WIDTH, PHOTO_HEIGHT, &by), ==, -1);
}

static void
straightness_is_the_largest_distance_from_the_line (void)
{
  Seen seen = seen_askew ();
  HwPhotoPoint points[4];
  HwPoint px[20];
  HwHomography h;

  seen_points (&seen, points, 4, 0);
  g_assert_true (fit (points, 4, 0, FALSE, &h, NULL));
  for (guint i = 0; i < 20; i++)
    px[i] = seen_at (&seen, (HwPoint){ 10 + 13.0 * i, 30 + 7.0 * i });
  g_assert_cmpfloat (hw_homography_straightness (&h, px, 20), <, 1e-6);
  g_assert_cmpfloat (hw_homography_straightness (&h, px, 2), <, 1e-9);
  g_assert_cmpfloat (hw_homography_straightness (&h, px, 0), ==, 0);
  for (guint i = 0; i < 20; i++)
    px[i] = seen_at (&seen, (HwPoint){ 10 + 13.0 * i, i % 4 == 0 || i % 4 == 3 ? 79 : 81 });
  g_assert_cmpfloat_with_epsilon (hw_homography_straightness (&h, px, 20), 1, 1e-3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/homography/exact-points", exact_points_give_the_view_back);
  g_test_add_func ("/registration/homography/bow", the_bow_is_given_or_found);
  g_test_add_func ("/registration/homography/back", the_way_back_is_the_way_back);
  g_test_add_func ("/registration/homography/horizon", beyond_the_horizon_there_is_no_cloth);
  g_test_add_func ("/registration/homography/scattered", scattered_points_are_met_as_nearly_as_can_be);
  g_test_add_func ("/registration/homography/refused", what_tells_no_view_is_refused);
  g_test_add_func ("/registration/homography/circle", points_on_a_circle_tell_no_bow);
  g_test_add_func ("/registration/homography/near-a-circle", points_near_a_circle_hardly_tell_a_bow);
  g_test_add_func ("/registration/homography/wrong-point", a_wrong_point_is_told);
  g_test_add_func ("/registration/homography/each-point", each_point_may_be_the_wrong_one);
  g_test_add_func ("/registration/homography/five-points", of_five_points_none_is_blamed);
  g_test_add_func ("/registration/homography/straightness",
                   straightness_is_the_largest_distance_from_the_line);
  return g_test_run ();
}
