/* Whether a cross has all its arms: each piece of each arm against the cloth on both its sides. */
#include "seen-cross.h"

/* The cross with its arms at 0, 180, 90 and 270 degrees, of one arm a part wiped away. */
static double
weakest_without (const HwCross *cross, guint arm, double from, double to)
{
  g_auto (HwGreyPatch) patch = patch_of (cross, 80);

  for (guint y = 0; y < 80; y++)
    for (guint x = 0; x < 80; x++)
      {
        double across = x + 0.5 - cross->at.x, down = y + 0.5 - cross->at.y;
        double along = arm == 0 ? across : arm == 1 ? -across : arm == 2 ? down : -down;

        if (along > from && along < to)
          patch.grey[y * 80 + x] = 180;
      }
  return hw_cross_weakest_arm (&patch, 28, cross);
}

/* Each half of each arm, from 0.28 to 0.76 of its length, counts as it is; each quarter, which the weave blurs more, a fifth milder. */
static void
a_cross_lacks_a_piece_of_an_arm (void)
{
  HwCross cross = { { 40, 40 }, { 0, G_PI / 2 }, 1.1, -90, 0, 0 };
  double half = 0.24 * 28, quarter = half / 2, begin = 0.28 * 28;

  /* Between pixels 0.5 from the line, e^-0.103 = 0.902, and 1.5, 0.395: on the line 0.902, half a width beside it 0.877, twice; and 0.004 of it in the cloth beside. */
  g_assert_cmpfloat_with_epsilon (weakest_without (&cross, 0, 0, 0), (0.902 + 2 * 0.877) / 3 - 0.004, 0.001);
  for (guint arm = 0; arm < 4; arm++)
    {
      for (guint k = 0; k < 2; k++)
        g_assert_cmpfloat (weakest_without (&cross, arm, begin + k * half - 1, begin + (k + 1) * half + 1), <,
                           0.02);
      for (guint k = 0; k < 4; k++)
        {
          double weakest
              = weakest_without (&cross, arm, begin + k * quarter - 0.5, begin + (k + 1) * quarter + 0.5);

          g_assert_cmpfloat (weakest, >, 0.15);
          g_assert_cmpfloat (weakest, <, 0.3);
        }
      /* Over its length, not where it begins. */
      g_assert_cmpfloat (weakest_without (&cross, arm, begin + 0.6, begin + quarter + 0.2), <, 0.42);
    }
}

static double
weakest_of (const HwCross *cross, double ends, double shade_left, double shade_right)
{
  g_auto (HwGreyPatch) patch = patch_of (cross, 80);

  for (guint y = 0; y < 80; y++)
    for (guint x = 0; x < 80; x++)
      {
        double across = x + 0.5 - cross->at.x, down = y + 0.5 - cross->at.y;

        if (hypot (across, down) > ends)
          patch.grey[y * 80 + x] = 180;
        if (across > 0 && fabs (down) > 2.5)
          patch.grey[y * 80 + x] -= (float)(down > 0 ? shade_left : shade_right);
      }
  return hw_cross_weakest_arm (&patch, 28, cross);
}

/* On either side of one arm the cloth is half as dark as the line: half of it is what stands out there. Aslant as well, and no farther than arms must reach. */
static void
a_cross_is_judged_by_its_worse_side (void)
{
  HwCross cross = { { 40, 40 }, { 0, G_PI / 2 }, 1.1, -90, 0, 0 }, aslant = cross;
  double whole = weakest_of (&cross, 99, 0, 0);

  g_assert_cmpfloat_with_epsilon (weakest_of (&cross, 99, 45, 0), whole - 0.5, 0.02);
  g_assert_cmpfloat_with_epsilon (weakest_of (&cross, 99, 0, 45), whole - 0.5, 0.02);
  g_assert_cmpfloat_with_epsilon (weakest_of (&cross, 0.8 * 28, 0, 0), whole, 1e-6);
  aslant.turn[0] = G_PI / 4;
  aslant.turn[1] = 3 * G_PI / 4;
  g_assert_cmpfloat (weakest_of (&aslant, 99, 0, 0), >, 0.85);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/registration/cross-arms/lacks-a-piece", a_cross_lacks_a_piece_of_an_arm);
  g_test_add_func ("/registration/cross-arms/worse-side", a_cross_is_judged_by_its_worse_side);
  return g_test_run ();
}
