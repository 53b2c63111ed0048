/* How far a motif lies from the edge line, held against distances that can be told from the drawing. */
#include "workbench/edge-gap.h"

#include <math.h>

static HwOutline *
ring (const HwPoint *points, guint n)
{
  const HwRing one = { (HwPoint *)points, n };

  return hw_outline_new (&one, 1);
}

static HwOutline *
box (double x0, double y0, double x1, double y1)
{
  const HwPoint points[] = { { x0, y0 }, { x1, y0 }, { x1, y1 }, { x0, y1 } };

  return ring (points, 4);
}

static void
test_inside (void)
{
  g_autoptr (HwOutline) edge = box (0, 0, 200, 100);
  g_autoptr (HwOutline) motif = box (30, 40, 50, 92);

  g_assert_cmpfloat_with_epsilon (hw_edge_gap (motif, edge), 8, 1e-9);
}

static void
test_past_it (void)
{
  g_autoptr (HwOutline) edge = box (0, 0, 200, 100);
  g_autoptr (HwOutline) motif = box (-7, 40, 50, 60);
  g_autoptr (HwOutline) off = box (220, 40, 240, 60);

  g_assert_cmpfloat_with_epsilon (hw_edge_gap (motif, edge), -7, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_edge_gap (off, edge), -40, 1e-9);
}

/* A corner of the edge line that reaches inwards is nearest to the middle of the motif's side. */
static void
test_a_corner_of_the_edge_line (void)
{
  const HwPoint notched[] = { { 0, 0 }, { 100, 0 }, { 100, 60 }, { 50, 30 }, { 0, 60 } };
  g_autoptr (HwOutline) edge = ring (notched, 5);
  g_autoptr (HwOutline) motif = box (20, 10, 80, 24);

  g_assert_cmpfloat_with_epsilon (hw_edge_gap (motif, edge), 6, 1e-9);
}

/* On the 3-4-5 triangle the incircle's centre lies 1 from all sides (Euclid, Elements IV.4: the circle inscribed in a triangle). */
static void
test_slanting_lines (void)
{
  const HwPoint triangle[] = { { 0, 0 }, { 4, 0 }, { 0, 3 } };
  g_autoptr (HwOutline) edge = ring (triangle, 3);
  g_autoptr (HwOutline) motif = box (1 - 1e-6, 1 - 1e-6, 1 + 1e-6, 1 + 1e-6);

  g_assert_cmpfloat_with_epsilon (hw_edge_gap (motif, edge), 1, 1e-5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/edge-gap/inside", test_inside);
  g_test_add_func ("/edge-gap/past-it", test_past_it);
  g_test_add_func ("/edge-gap/a-corner-of-the-edge-line", test_a_corner_of_the_edge_line);
  g_test_add_func ("/edge-gap/slanting-lines", test_slanting_lines);
  return g_test_run ();
}
