/* Areas of what is no proper outline, and memory that ends while an area is worked out. */
#include <math.h>
#include <stdlib.h>
#include <unistd.h>

#include "geometry/region.h"

/* Where GEOS asks for memory: the n-th request from now is refused. C++ lets a program put its own in the place of operator new
 * (ISO/IEC 14882, [replacement.functions]); the names are those of the Itanium C++ ABI. */
static guint requests, refused;

void *
_Znwm (size_t size);
void
_ZSt17__throw_bad_allocv (void) G_GNUC_NORETURN;

void *
_Znwm (size_t size)
{
  void *memory = ++requests == refused ? NULL : malloc (MAX (size, 1));

  if (memory == NULL)
    _ZSt17__throw_bad_allocv ();
  return memory;
}

void
_ZdlPv (void *memory);
void
_ZdlPvm (void *memory, size_t size);

void
_ZdlPv (void *memory)
{
  free (memory);
}

void
_ZdlPvm (void *memory, size_t size)
{
  free (memory);
}

static HwOutline *
outline_of (const HwPoint *points, guint n)
{
  HwRing ring = { (HwPoint *)points, n };

  return hw_outline_new (&ring, 1);
}

static HwOutline *
square (double side)
{
  return hw_outline_new_rectangle (side, side);
}

/* A point that is no number, in an only ring, in an outer one, in a hole. */
static HwOutline *
broken (guint way)
{
  HwPoint outer[] = { { -10, -10 }, { 10, -10 }, { 10, 10 }, { -10, 10 } };
  HwPoint hole[] = { { -5, -5 }, { -5, 5 }, { 5, 5 }, { 5, -5 } };
  HwRing rings[] = { { outer, 4 }, { hole, 4 } };

  if (way < 2)
    outer[0].x = NAN;
  else
    hole[0].y = INFINITY;
  return hw_outline_new (rings, way == 0 ? 1 : 2);
}

static void
test_points_that_are_no_numbers (void)
{
  g_autoptr (HwOutline) good = square (4);

  for (guint way = 0; way < 3; way++)
    {
      g_autoptr (HwOutline) bad = broken (way), grown = hw_outline_grow (bad, 1);
      g_autoptr (HwOutline) minus = hw_outline_minus (bad, good), common = hw_outline_common (good, bad);
      const HwOutline *both[] = { bad, good };
      g_autoptr (HwOutline) joined = hw_outline_join (both, 2);
      g_autoptr (HwOutline) repaired = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_false (hw_outline_is_simple (bad));
      repaired = hw_outline_repair (bad, NULL, &error);
      g_assert_null (repaired);
      g_assert_error (error, HW_REGION_ERROR, HW_REGION_ERROR_NOT_FINITE);
      g_assert_true (hw_outline_distance (bad, good) >= 0 && hw_outline_distance (good, bad) >= 0);
      g_assert_false (hw_outline_area (bad) < 0);
    }
}

/* What two outlines that cross themselves have in common is what their repaired forms have. */
static void
test_outlines_that_cross_themselves (void)
{
  for (guint trial = 0; trial < 1000; trial++)
    {
      HwPoint points[2][7];
      g_autoptr (HwOutline) a = NULL, b = NULL, mended_a = NULL, mended_b = NULL, common = NULL,
                            true_common = NULL;

      for (guint k = 0; k < 2; k++)
        for (guint i = 0; i < 7; i++)
          points[k][i] = (HwPoint){ g_test_rand_int_range (-6, 7), g_test_rand_int_range (-6, 7) };
      a = outline_of (points[0], 7);
      b = outline_of (points[1], 7);
      mended_a = hw_outline_repair (a, NULL, NULL);
      mended_b = hw_outline_repair (b, NULL, NULL);
      if (mended_a == NULL || mended_b == NULL)
        continue;
      common = hw_outline_common (a, b);
      true_common = hw_outline_common (mended_a, mended_b);
      g_assert_cmpfloat_with_epsilon (common != NULL ? hw_outline_area (common) : 0,
                                      true_common != NULL ? hw_outline_area (true_common) : 0, 1e-6);
    }
}

/* Everything that asks GEOS, one after the other. */
static double
work_out (void)
{
  const HwPoint tie[] = { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } };
  g_autoptr (HwOutline) a = square (10), b = square (6), crossed = outline_of (tie, 4),
                        hollow = hw_outline_minus (a, b);
  g_autoptr (HwOutline) grown = hw_outline_grow (hollow, 1), mended = hw_outline_repair (crossed, NULL, NULL);
  const HwOutline *both[] = { hollow, b };
  g_autoptr (HwOutline) joined = hw_outline_join (both, 2);

  g_assert_true (hollow != NULL && grown != NULL && mended != NULL && joined != NULL);
  return hw_outline_area (hollow) + hw_outline_area (grown) + hw_outline_area (mended)
         + hw_outline_area (joined) + hw_outline_distance (grown, mended)
         + hw_outline_overlap_area (mended, b);
}

/* Refused at the n-th request, the program says so and ends, unless GEOS found another way by itself; no area is ever taken for none. */
static void
test_memory_ends (void)
{
  double whole;
  guint all, ended = 0;

  work_out (); /* so that what is asked for once only has been */
  requests = refused = 0;
  whole = work_out ();
  all = requests;
  g_assert_cmpuint (all, >, 100);
  if (g_test_subprocess ())
    {
      requests = 0;
      refused = (guint)atoi (g_getenv ("HOOPWRIGHT_REFUSED"));
      g_assert_cmpfloat_with_epsilon (work_out (), whole, 1e-3);
      _exit (0); /* what GEOS loses when it has to try again is not looked for */
    }
  for (guint n = 1; n <= all; n += 1 + n / 12)
    {
      g_autofree char *at = g_strdup_printf ("%u", n);

      g_setenv ("HOOPWRIGHT_REFUSED", at, TRUE);
      g_test_trap_subprocess (NULL, 0, 0);
      if (g_test_trap_has_passed ())
        continue;
      ended++;
      g_test_trap_assert_stderr ("*There is no memory left to work out an area.*");
    }
  g_assert_cmpuint (ended, >, 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region-odd/points-that-are-no-numbers", test_points_that_are_no_numbers);
  g_test_add_func ("/geometry/region-odd/outlines-that-cross-themselves",
                   test_outlines_that_cross_themselves);
  g_test_add_func ("/geometry/region-odd/memory-ends", test_memory_ends);
  return g_test_run ();
}
