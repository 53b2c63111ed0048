/* Arranging on a bench: what comes in line is in line, gaps are equal, pairs are mirror images, a tuck reaches over by what was asked; each is one step, and
 * what is locked or stitched stays. */
#include "bench-fixture.h"

#include <math.h>

#include "geometry/region.h"

#define EXACT 1e-6

static HwSceneMotif *
motif_of (HwBench *bench, const char *id)
{
  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (bench), id);

  g_assert_nonnull (motif);
  return motif;
}

static HwBox
box_of (HwBench *bench, const char *id)
{
  return hw_scene_motif_get_placed (motif_of (bench, id))->box;
}

static guint
n_motifs (HwBench *bench)
{
  return g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (bench)));
}

static void
assert_undo_name (HwBench *bench, const char *name)
{
  g_autofree char *undo = NULL;

  g_object_get (bench, "undo-name", &undo, NULL);
  g_assert_cmpstr (undo, ==, name);
}

/* A ragged outline of a few corners about the origin; never crosses itself. */
static HwOutline *
ragged_outline (void)
{
  HwPoint points[12];
  guint n = (guint)g_test_rand_int_range (3, 13);
  HwRing ring = { points, n };

  for (guint i = 0; i < n; i++)
    {
      double turn = 2 * G_PI * i / n, radius = g_test_rand_double_range (8, 40);
      points[i] = (HwPoint){ radius * cos (turn), radius * sin (turn) };
    }
  return hw_outline_new (&ring, 1);
}

static HwBench *
bench_with_meadow (guint n)
{
  HwBench *bench = hw_bench_new ();
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("m%u", i + 1);
      g_autofree char *name = g_strdup_printf ("Poppy %u", i + 1);
      HwMotif *motif
          = orchard_motif (id, name, g_test_rand_double_range (50, 600), g_test_rand_double_range (50, 450));

      hw_outline_unref (motif->outline);
      motif->outline = ragged_outline ();
      motif->placement.angle = g_test_rand_double_range (-180, 180);
      motif->placement.scale = g_test_rand_double_range (0.5, 1.5);
      motif->placement.mirrored = g_test_rand_bit ();
      g_ptr_array_add (scene->motifs, motif);
    }
  hw_bench_start_new (bench, scene);
  return bench;
}

static double
side (HwBox box, HwAlign align)
{
  const double sides[] = { box.x0, (box.x0 + box.x1) / 2, box.x1, box.y0, (box.y0 + box.y1) / 2, box.y1 };

  return sides[align];
}

static void
test_in_line_is_in_line_and_one_step (void)
{
  for (int round = 0; round < 60; round++)
    {
      guint n = (guint)g_test_rand_int_range (2, 7);
      HwAlign align = (HwAlign)g_test_rand_int_range (0, 6);
      g_autoptr (HwBench) bench = bench_with_meadow (n);
      g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (bench));
      g_autoptr (HwSnapshot) back = NULL;
      HwBox all = HW_BOX_EMPTY;

      for (guint i = 0; i < n; i++)
        all = hw_box_union (all, box_of (bench, hw_snapshot_motif (before, i)->id));
      hw_bench_select_all (bench);
      hw_bench_align (bench, align);
      for (guint i = 0; i < n; i++)
        {
          const char *id = hw_snapshot_motif (before, i)->id;
          HwPlacement now = hw_scene_motif_get_record (motif_of (bench, id))->placement;
          HwPlacement then = hw_snapshot_motif (before, i)->placement;

          g_assert_cmpfloat_with_epsilon (side (box_of (bench, id), align), side (all, align), EXACT);
          g_assert_true (align <= HW_ALIGN_RIGHT ? now.position.y == then.position.y
                                                 : now.position.x == then.position.x);
        }
      hw_bench_undo (bench);
      back = hw_scene_snapshot (hw_bench_get_scene (bench));
      g_assert_true (hw_snapshot_equal (before, back));
    }
}

static void
test_locked_one_stays_and_the_others_come_to_it (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  hw_bench_select_only (bench, "m2");
  hw_bench_set_locked (bench, TRUE);
  hw_bench_select_all (bench);
  hw_bench_align (bench, HW_ALIGN_LEFT);
  g_assert_cmpfloat (box_of (bench, "m2").x0, ==, 130);
  g_assert_cmpfloat (box_of (bench, "m1").x0, ==, 130);
  g_assert_cmpfloat (box_of (bench, "m3").x0, ==, 130);
  assert_undo_name (bench, "align 2 motifs");
}

static void
test_stitched_one_stays (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwArrangement row = { .kind = HW_ARRANGE_ROW, .gap = 10, .direction = 90 };
  g_autofree char *refusal = NULL;
  HwBox before;

  wait_for_plan (bench);
  for (guint i = 0; i < 2; i++)
    if (hw_bench_get_plan (bench)->hoopings[i].n_motifs == 1)
      {
        g_assert_true (hw_bench_mark_stitched (bench, i));
        break;
      }
  before = box_of (bench, "m3");
  g_assert_false (hw_bench_may_arrange (bench, hw_scene_motif_get_record (motif_of (bench, "m3"))));
  hw_bench_select_all (bench);
  g_assert_cmpuint (hw_bench_count_arrangeable (bench), ==, 2);
  hw_bench_align (bench, HW_ALIGN_TOP);
  g_assert_true (hw_bench_arrange (bench, &row, &refusal));
  g_assert_cmpfloat (box_of (bench, "m3").x0, ==, before.x0);
  g_assert_cmpfloat (box_of (bench, "m3").y0, ==, before.y0);
  g_assert_cmpfloat_with_epsilon (box_of (bench, "m2").y0 - box_of (bench, "m1").y1, 10, EXACT);
}

static void
test_one_alone_goes_to_the_margin (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwEdgeLine *edge = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 30, 20, 650, 500 }, 0, 4);

  hw_scene_set_edge_line (hw_bench_get_scene (bench), edge);
  hw_edge_line_unref (edge);
  hw_bench_select_only (bench, "m1");
  hw_bench_align (bench, HW_ALIGN_LEFT);
  hw_bench_align (bench, HW_ALIGN_BOTTOM);
  g_assert_cmpfloat_with_epsilon (box_of (bench, "m1").x0, 34, 1e-3);
  g_assert_cmpfloat_with_epsilon (box_of (bench, "m1").y1, 496, 1e-3);
  assert_undo_name (bench, "align Pear");
}

typedef struct
{
  HwBox was, is;
} Moved;

static int
by_middle_before (gconstpointer a, gconstpointer b)
{
  const HwBox *ba = &((const Moved *)a)->was, *bb = &((const Moved *)b)->was;
  double d = ba->x0 + ba->x1 - bb->x0 - bb->x1;

  return d < 0 ? -1 : d > 0;
}

static void
test_gaps_are_equal_and_the_outermost_stay (void)
{
  for (int round = 0; round < 60; round++)
    {
      guint n = (guint)g_test_rand_int_range (3, 9);
      g_autoptr (HwBench) bench = bench_with_meadow (n);
      g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (bench));
      g_autofree Moved *moved = g_new (Moved, n);

      for (guint i = 0; i < n; i++)
        moved[i].was = box_of (bench, hw_snapshot_motif (before, i)->id);
      hw_bench_select_all (bench);
      hw_bench_distribute (bench, TRUE);
      for (guint i = 0; i < n; i++)
        {
          moved[i].is = box_of (bench, hw_snapshot_motif (before, i)->id);
          g_assert_cmpfloat (moved[i].is.y0, ==, moved[i].was.y0);
        }
      qsort (moved, n, sizeof (Moved), by_middle_before);
      g_assert_cmpfloat (moved[0].is.x0, ==, moved[0].was.x0);
      g_assert_cmpfloat (moved[n - 1].is.x1, ==, moved[n - 1].was.x1);
      for (guint i = 2; i < n; i++)
        g_assert_cmpfloat_with_epsilon (moved[i].is.x0 - moved[i - 1].is.x1, moved[1].is.x0 - moved[0].is.x1,
                                        EXACT);
    }
}

static void
test_spread_keeps_what_is_fixed (void)
{
  const HwBox boxes[]
      = { { 0, 0, 10, 10 }, { 12, 0, 22, 10 }, { 40, 0, 50, 10 }, { 51, 0, 61, 10 }, { 90, 0, 100, 10 } };
  const gboolean fixed[] = { FALSE, FALSE, TRUE, FALSE, FALSE };
  HwPoint shifts[5];

  hw_spread_shifts (boxes, fixed, 5, TRUE, shifts);
  g_assert_cmpfloat (shifts[0].x, ==, 0);
  g_assert_cmpfloat (shifts[1].x, ==, 8); /* 10 + 10 to the left of 40 */
  g_assert_cmpfloat (shifts[2].x, ==, 0);
  g_assert_cmpfloat (shifts[3].x, ==, 14); /* 15 after 50 */
  g_assert_cmpfloat (shifts[4].x, ==, 0);
}

static void
test_pair_is_the_mirror_image_point_for_point (void)
{
  for (int round = 0; round < 60; round++)
    {
      g_autoptr (HwBench) bench = bench_with_meadow (1);
      gboolean upright = g_test_rand_bit ();
      g_autoptr (HwSceneMotif) pair = NULL;
      const HwOutline *a, *b;

      hw_bench_select_only (bench, "m1");
      hw_bench_mirror_pair (bench, upright);
      g_assert_cmpuint (n_motifs (bench), ==, 2);
      g_assert_cmpuint (hw_bench_get_n_selected (bench), ==, 2);
      assert_undo_name (bench, "add the mirrored pair of Poppy 1");
      pair = g_list_model_get_item (hw_scene_get_motifs (hw_bench_get_scene (bench)), 1);
      a = hw_scene_motif_get_placed (motif_of (bench, "m1"));
      b = hw_scene_motif_get_placed (pair);
      /* The cloth is 700 x 540 and there is no edge line. */
      for (guint i = 0; i < a->rings[0].n_points; i++)
        {
          HwPoint p = a->rings[0].points[i], q = b->rings[0].points[i];
          g_assert_cmpfloat_with_epsilon (q.x, upright ? 700 - p.x : p.x, EXACT);
          g_assert_cmpfloat_with_epsilon (q.y, upright ? p.y : 540 - p.y, EXACT);
        }
      hw_bench_undo (bench);
      g_assert_cmpuint (n_motifs (bench), ==, 1);
    }
}

static void
test_copies_keep_their_gap (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwArrangement row = { .kind = HW_ARRANGE_COPIES, .count = 4, .gap = 7.5, .direction = 90 };
  g_autofree char *refusal = NULL;
  g_autoptr (GPtrArray) selection = NULL;

  hw_bench_select_only (bench, "m3");
  g_assert_true (hw_bench_arrange (bench, &row, &refusal));
  g_assert_cmpuint (n_motifs (bench), ==, 6);
  assert_undo_name (bench, "copy Quince in a row");
  selection = hw_bench_get_selection (bench);
  g_assert_cmpuint (selection->len, ==, 4);
  for (guint i = 1; i < 4; i++)
    {
      HwBox one = hw_scene_motif_get_placed (g_ptr_array_index (selection, i - 1))->box;
      HwBox next = hw_scene_motif_get_placed (g_ptr_array_index (selection, i))->box;

      g_assert_cmpfloat_with_epsilon (next.y0 - one.y1, 7.5, EXACT);
      g_assert_cmpfloat_with_epsilon (next.x0, one.x0, EXACT);
    }
  hw_bench_undo (bench);
  g_assert_cmpuint (n_motifs (bench), ==, 3);
}

/* A regular hexagon's corners lie as far from one another as from its centre. */
static void
test_six_around_a_centre_stand_a_radius_apart (void)
{
  for (int turned = 0; turned < 2; turned++)
    {
      g_autoptr (HwBench) bench = bench_with_orchard ();
      HwArrangement around
          = { .kind = HW_ARRANGE_AROUND, .count = 6, .centre = { 350, 270 }, .turned = turned != 0 };
      g_autofree char *refusal = NULL;
      g_autoptr (GPtrArray) selection = NULL;
      double radius = hypot (550 - 350, 100 - 270);

      hw_bench_select_only (bench, "m3");
      g_assert_true (hw_bench_arrange (bench, &around, &refusal));
      selection = hw_bench_get_selection (bench);
      g_assert_cmpuint (selection->len, ==, 6);
      for (guint i = 0; i < 6; i++)
        {
          HwPlacement one = hw_scene_motif_get_record (g_ptr_array_index (selection, i))->placement;
          HwPlacement next
              = hw_scene_motif_get_record (g_ptr_array_index (selection, (i + 1) % 6))->placement;

          g_assert_cmpfloat_with_epsilon (hw_point_distance (one.position, around.centre), radius, EXACT);
          g_assert_cmpfloat_with_epsilon (hw_point_distance (one.position, next.position), radius, EXACT);
          g_assert_cmpfloat_with_epsilon (one.angle, turned ? hw_angle_normal (60.0 * i) : 0, EXACT);
        }
    }
}

static void
test_too_many_copies_are_refused (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwArrangement row = { .kind = HW_ARRANGE_COPIES, .count = HW_ARRANGE_MOST, .gap = 1 };
  g_autofree char *refusal = NULL;

  hw_bench_select_all (bench);
  g_assert_false (hw_bench_arrange (bench, &row, &refusal));
  g_assert_cmpstr (refusal, ==, "Between 2 and 66 of them can be laid.");
  g_assert_cmpuint (n_motifs (bench), ==, 3);
  g_assert_false (hw_bench_is_editing (bench));
}

static void
test_trying_leaves_no_trace_when_it_is_taken_back (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autoptr (HwSnapshot) after = NULL;
  HwArrangement row = { .kind = HW_ARRANGE_COPIES, .count = 3, .gap = 5 };

  hw_bench_select_only (bench, "m1");
  for (guint count = 3; count < 9; count++)
    {
      row.count = count;
      g_assert_true (hw_bench_try_arrangement (bench, &row, NULL, NULL));
      g_assert_cmpuint (n_motifs (bench), ==, 2 + count);
    }
  hw_bench_cancel_edit (bench);
  after = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_assert_true (hw_snapshot_equal (before, after));
  assert_undo_name (bench, NULL);
}

static double
overlap_at (const HwOutline *a, const HwOutline *b, HwPoint by)
{
  HwPlacement placement = { by, 0, 1, FALSE };
  g_autoptr (HwOutline) moved = hw_outline_place (a, &placement);

  return hw_outline_overlap_area (moved, b);
}

/* The same contact found another way: star-shaped outlines slid outwards, by bisection on the common area that GEOS finds. Scanned from outside, so
 * that of several contacts the farthest is taken. */
static double
contact_by_bisection (const HwOutline *a, const HwOutline *b, HwPoint away)
{
  double out = 400, in = out;

  while (in > -400 && overlap_at (a, b, (HwPoint){ in * away.x, in * away.y }) <= 0)
    {
      out = in;
      in -= 0.25;
    }
  for (int i = 0; i < 40; i++)
    {
      double middle = (in + out) / 2;

      if (overlap_at (a, b, (HwPoint){ middle * away.x, middle * away.y }) > 0)
        in = middle;
      else
        out = middle;
    }
  return out;
}

static void
test_contact_agrees_with_bisection_on_common_area (void)
{
  for (int round = 0; round < 25; round++)
    {
      g_autoptr (HwOutline) a = ragged_outline ();
      g_autoptr (HwOutline) b = ragged_outline ();
      double turn = g_test_rand_double_range (0, 2 * G_PI), contact;
      HwPoint away = { cos (turn), sin (turn) };

      g_assert_true (hw_outline_contact (a, b, away, &contact));
      /* A sharp corner has little area: bisection sees it a little late, and never too early. */
      double seen = contact_by_bisection (a, b, away);
      g_assert_cmpfloat (seen, <=, contact + 1e-6);
      g_assert_cmpfloat (contact - seen, <, 0.3);
      /* Within the contact there is common area, beyond it none. */
      g_assert_cmpfloat (overlap_at (a, b, (HwPoint){ (contact + 1e-4) * away.x, (contact + 1e-4) * away.y }),
                         ==, 0);
      g_assert_cmpfloat (overlap_at (a, b, (HwPoint){ (contact - 1e-2) * away.x, (contact - 1e-2) * away.y }),
                         >, 0);
    }
}

static void
test_two_squares_meet_side_to_side (void)
{
  g_autoptr (HwOutline) a = hw_outline_new_rectangle (40, 20);
  g_autoptr (HwOutline) b = hw_outline_new_rectangle (30, 60);
  double contact;

  g_assert_true (hw_outline_contact (a, b, (HwPoint){ 1, 0 }, &contact));
  g_assert_cmpfloat (contact, ==, 35);
  g_assert_true (hw_outline_contact (a, b, (HwPoint){ 0, -1 }, &contact));
  g_assert_cmpfloat (contact, ==, 40);
}

static void
test_those_that_pass_each_other_never_meet (void)
{
  g_autoptr (HwOutline) a = hw_outline_new_rectangle (40, 20);
  HwPlacement below = { { 0, 20 }, 0, 1, FALSE };
  g_autoptr (HwOutline) b = hw_outline_place (a, &below);
  double contact;

  g_assert_false (hw_outline_contact (a, b, (HwPoint){ 1, 0 }, &contact));
}

static void
test_tuck_reaches_over_by_what_was_asked (void)
{
  for (int round = 0; round < 60; round++)
    {
      g_autoptr (HwBench) bench = bench_with_meadow (2);
      HwArrangement tuck = {
        .kind = HW_ARRANGE_TUCK, .motif = "m1", .neighbour = "m2", .depth = g_test_rand_double_range (0, 8)
      };
      HwPlacement still = hw_scene_motif_get_record (motif_of (bench, "m2"))->placement, then;
      g_autofree char *refusal = NULL;
      double depth;

      hw_bench_select_only (bench, "m1");
      g_assert_true (hw_bench_arrange (bench, &tuck, &refusal));
      g_assert_true (hw_bench_tuck_depth (bench, "m1", "m2", &depth));
      g_assert_cmpfloat_with_epsilon (depth, tuck.depth, EXACT);
      then = hw_scene_motif_get_record (motif_of (bench, "m2"))->placement;
      g_assert_true (hw_placement_equal (&still, &then));
      assert_undo_name (bench, "tuck Poppy 1 behind Poppy 2");
    }
}

static void
test_tuck_goes_behind_in_the_order_too (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwArrangement tuck = { .kind = HW_ARRANGE_TUCK, .motif = "m2", .neighbour = "m1", .depth = 4 };
  g_autofree char *refusal = NULL;

  g_assert_true (hw_bench_arrange (bench, &tuck, &refusal));
  g_assert_cmpfloat_with_epsilon (box_of (bench, "m1").x1 - box_of (bench, "m2").x0, 4, EXACT);
  g_assert_cmpint (hw_scene_index_of (hw_bench_get_scene (bench), motif_of (bench, "m2")), ==, 0);
  g_assert_cmpint (hw_scene_index_of (hw_bench_get_scene (bench), motif_of (bench, "m1")), ==, 1);
  hw_bench_undo (bench);
  g_assert_cmpint (hw_scene_index_of (hw_bench_get_scene (bench), motif_of (bench, "m1")), ==, 0);
  g_assert_cmpfloat (box_of (bench, "m2").x0, ==, 130);
}

static void
test_too_deep_a_tuck_says_how_deep_it_may_be (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwArrangement tuck = { .kind = HW_ARRANGE_TUCK, .motif = "m1", .neighbour = "m2", .depth = 60 };
  g_autofree char *refusal = NULL;

  g_assert_false (hw_bench_arrange (bench, &tuck, &refusal));
  g_assert_nonnull (strstr (refusal, "40.0"));
  g_assert_cmpfloat (box_of (bench, "m1").x0, ==, 80);
}

static void
test_locked_motif_is_never_tucked (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwArrangement tuck = { .kind = HW_ARRANGE_TUCK, .motif = "m1", .neighbour = "m2", .depth = 3 };
  g_autofree char *refusal = NULL;
  const HwMotif *motif, *neighbour;

  hw_bench_select_only (bench, "m1");
  hw_bench_set_locked (bench, TRUE);
  g_assert_false (hw_bench_arrange (bench, &tuck, &refusal));
  g_assert_nonnull (refusal);
  g_assert_cmpfloat (box_of (bench, "m1").x0, ==, 80);
  /* Its neighbour is the one to slide then. */
  g_assert_true (hw_bench_tuck_pair (bench, &motif, &neighbour));
  g_assert_cmpstr (motif->id, ==, "m2");
  g_assert_cmpstr (neighbour->id, ==, "m1");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/arrange/in-line", test_in_line_is_in_line_and_one_step);
  g_test_add_func ("/arrange/locked-stays", test_locked_one_stays_and_the_others_come_to_it);
  g_test_add_func ("/arrange/stitched-stays", test_stitched_one_stays);
  g_test_add_func ("/arrange/one-alone", test_one_alone_goes_to_the_margin);
  g_test_add_func ("/arrange/equal-gaps", test_gaps_are_equal_and_the_outermost_stay);
  g_test_add_func ("/arrange/spread-fixed", test_spread_keeps_what_is_fixed);
  g_test_add_func ("/arrange/mirrored-pair", test_pair_is_the_mirror_image_point_for_point);
  g_test_add_func ("/arrange/copies", test_copies_keep_their_gap);
  g_test_add_func ("/arrange/around", test_six_around_a_centre_stand_a_radius_apart);
  g_test_add_func ("/arrange/too-many", test_too_many_copies_are_refused);
  g_test_add_func ("/arrange/trying", test_trying_leaves_no_trace_when_it_is_taken_back);
  g_test_add_func ("/arrange/contact-bisection", test_contact_agrees_with_bisection_on_common_area);
  g_test_add_func ("/arrange/contact-squares", test_two_squares_meet_side_to_side);
  g_test_add_func ("/arrange/contact-never", test_those_that_pass_each_other_never_meet);
  g_test_add_func ("/arrange/tuck", test_tuck_reaches_over_by_what_was_asked);
  g_test_add_func ("/arrange/tuck-order", test_tuck_goes_behind_in_the_order_too);
  g_test_add_func ("/arrange/tuck-too-deep", test_too_deep_a_tuck_says_how_deep_it_may_be);
  g_test_add_func ("/arrange/tuck-locked", test_locked_motif_is_never_tucked);
  return g_test_run ();
}
