#include "scene-pieces.h"

#include "geometry/region.h"
#include "scene/record-compare.h"

static void
needle_list_knows_its_stitches (void)
{
  HwNeedlePoint points[] = {
    { 90, 90, 0, HW_NEEDLE_JUMP }, { -3, 2, 0, HW_NEEDLE_STITCH }, { 5, -4, 0, HW_NEEDLE_STITCH },
    { 5, -4, 0, HW_NEEDLE_TRIM },  { 0, 0, 0, HW_NEEDLE_END },
  };
  const char *threads[] = { "moss", NULL };
  g_autoptr (HwNeedleList) list
      = hw_needle_list_new (g_memdup2 (points, sizeof points), 5, g_strdupv ((char **)threads));
  g_autoptr (HwNeedleList) same
      = hw_needle_list_new (g_memdup2 (points, sizeof points), 5, g_strdupv ((char **)threads));
  g_autoptr (HwNeedleList) shorter
      = hw_needle_list_new (g_memdup2 (points, sizeof points), 4, g_strdupv ((char **)threads));

  g_assert_cmpuint (list->n_stitches, ==, 2);
  g_assert_cmpfloat (list->box.x0, ==, -3);
  g_assert_cmpfloat (list->box.x1, ==, 5);
  g_assert_cmpfloat (list->box.y0, ==, -4);
  g_assert_cmpfloat (list->box.y1, ==, 2);
  g_assert_true (hw_needle_list_equal (list, same));
  g_assert_false (hw_needle_list_equal (list, shorter));
  g_assert_false (hw_needle_list_equal (list, NULL));
}

static void
a_copy_of_a_motif_is_equal_and_its_own (void)
{
  const char *before[] = { "m2", NULL };
  g_autoptr (HwMotif) motif = make_motif ("m1", 1, 2);
  g_autoptr (HwMotif) copy = NULL;

  motif->before = g_strdupv ((char **)before);
  motif->note = g_strdup ("drawn here");
  motif->artwork = g_strdup ("pear.csv");
  copy = hw_motif_copy (motif);
  g_assert_cmpuint (hw_motif_difference (motif, copy), ==, 0);
  g_assert_true (copy->outline == motif->outline);
  g_assert_true (copy->name != motif->name);
  g_assert_cmpuint (hw_motif_stitches (copy), ==, 900);
}

/* Whatever differs is told as what it is. */
static void
each_difference_has_its_word (void)
{
  g_autoptr (HwMotif) motif = make_motif ("m1", 1, 2);
  g_autoptr (HwMotif) copy = hw_motif_copy (motif);

  copy->placement.angle = 5;
  g_assert_cmpuint (hw_motif_difference (motif, copy), ==, HW_SCENE_CHANGE_PLACEMENT);
  copy->locked = TRUE;
  g_assert_cmpuint (hw_motif_difference (motif, copy), ==, HW_SCENE_CHANGE_PLACEMENT | HW_SCENE_CHANGE_WORDS);
  copy->placement = motif->placement;
  copy->locked = FALSE;
  copy->threads[0].stitches++;
  g_assert_cmpuint (hw_motif_difference (motif, copy), ==, HW_SCENE_CHANGE_THREADS);
  copy->threads[0].stitches--;
  hw_outline_unref (copy->outline);
  copy->outline = hw_outline_new_rectangle (41, 20);
  g_assert_cmpuint (hw_motif_difference (motif, copy), ==, HW_SCENE_CHANGE_ARTWORK);
  hw_outline_unref (copy->outline);
  copy->outline = hw_outline_new_rectangle (40, 20);
  g_assert_cmpuint (hw_motif_difference (motif, copy), ==, 0);
  copy->before = g_new0 (char *, 2);
  copy->before[0] = g_strdup ("m2");
  g_assert_cmpuint (hw_motif_difference (motif, copy), ==, HW_SCENE_CHANGE_ORDER);
}

static void
offered_edge_lines_keep_inside_their_box (void)
{
  const HwBox box = { 40, 60, 640, 460 };

  for (HwEdgeShape shape = HW_EDGE_POLYGON; shape <= HW_EDGE_ELLIPSE; shape++)
    {
      g_autoptr (HwEdgeLine) edge = hw_edge_line_new_shape (shape, box, 50, 3);

      g_assert_cmpint (edge->shape, ==, shape);
      g_assert_cmpfloat (edge->margin, ==, 3);
      g_assert_cmpuint (edge->outline->n_rings, ==, 1);
      g_assert_true (hw_outline_is_simple (edge->outline));
      g_assert_cmpfloat_with_epsilon (edge->outline->box.x0, 40, 1e-9);
      g_assert_cmpfloat_with_epsilon (edge->outline->box.x1, 640, 1e-9);
      g_assert_cmpfloat_with_epsilon (edge->outline->box.y0, 60, 1e-9);
      g_assert_cmpfloat_with_epsilon (edge->outline->box.y1, 460, 1e-9);
    }
}

/* Areas of the circle and the ellipse (Euclid XII.2): pi a b; the drawn polygon lies inside and comes within 0.1 %. */
static void
drawn_curves_are_round (void)
{
  g_autoptr (HwEdgeLine) ellipse = hw_edge_line_new_shape (HW_EDGE_ELLIPSE, (HwBox){ 0, 0, 600, 400 }, 0, 2);
  g_autoptr (HwEdgeLine) rounded = hw_edge_line_new_shape (HW_EDGE_ROUNDED, (HwBox){ 0, 0, 600, 400 }, 50, 2);
  g_autoptr (HwEdgeLine) pill = hw_edge_line_new_shape (HW_EDGE_ROUNDED, (HwBox){ 0, 0, 600, 400 }, 9000, 2);
  double ellipse_area = G_PI * 300 * 200, rounded_area = 600 * 400 - (4 - G_PI) * 50 * 50;

  g_assert_cmpfloat (hw_outline_area (ellipse->outline), <, ellipse_area);
  g_assert_cmpfloat (hw_outline_area (ellipse->outline), >, 0.999 * ellipse_area);
  g_assert_cmpfloat (hw_outline_area (rounded->outline), <, rounded_area);
  g_assert_cmpfloat (hw_outline_area (rounded->outline), >, 0.999 * rounded_area);
  g_assert_true (hw_outline_is_simple (pill->outline));
  g_assert_cmpfloat (pill->corner_radius, <=, 200);
}

static void
a_thread_is_its_name_and_colour (void)
{
  HwThreadBlock moss = { .name = (char *)"moss", .colour = { 0, 0.5, 0 }, .stitches = 1 };
  HwThreadBlock more = { .name = (char *)"moss", .colour = { 0, 0.5, 0 }, .stitches = 2 };
  HwThreadBlock dark = { .name = (char *)"moss", .colour = { 0, 0.2, 0 }, .stitches = 1 };

  g_assert_true (hw_thread_same (&moss, &more));
  g_assert_false (hw_thread_same (&moss, &dark));
}

static void
snapshots_share_and_compare (void)
{
  g_autoptr (HwSnapshot) orchard = make_orchard (3);
  g_autoptr (HwSnapshot) again = make_orchard (3);
  g_autoptr (HwSnapshot) copy = hw_snapshot_copy (orchard);

  g_assert_true (hw_snapshot_equal (orchard, copy));
  g_assert_true (hw_snapshot_equal (orchard, again));
  g_assert_true (hw_snapshot_motif (copy, 1) == hw_snapshot_motif (orchard, 1));
  g_assert_cmpint (hw_snapshot_find_motif (copy, "m3"), ==, 2);
  g_assert_cmpint (hw_snapshot_find_motif (copy, "m4"), ==, -1);
  g_assert_cmpint (hw_snapshot_find_hoop (copy, "h2"), ==, 1);
  copy->machine.turn_step = 2;
  g_assert_false (hw_snapshot_equal (orchard, copy));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/records/needle-list-knows-its-stitches", needle_list_knows_its_stitches);
  g_test_add_func ("/records/a-copy-is-equal-and-its-own", a_copy_of_a_motif_is_equal_and_its_own);
  g_test_add_func ("/records/each-difference-has-its-word", each_difference_has_its_word);
  g_test_add_func ("/records/edge-lines-keep-inside-their-box", offered_edge_lines_keep_inside_their_box);
  g_test_add_func ("/records/drawn-curves-are-round", drawn_curves_are_round);
  g_test_add_func ("/records/a-thread-is-its-name-and-colour", a_thread_is_its_name_and_colour);
  g_test_add_func ("/records/snapshots-share-and-compare", snapshots_share_and_compare);
  return g_test_run ();
}
