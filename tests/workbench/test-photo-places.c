/* The known places by which a photo is put square: which there are of an edge line of each shape, of marks, of a hoop; worked out by hand. */
#include "workbench/photo-places.h"

#include <string.h>

static HwSnapshot *
scene_with_edge (HwEdgeShape shape, const HwPoint *corners, guint n)
{
  HwSnapshot *scene = hw_snapshot_new ();
  HwEdgeLine *edge = hw_edge_line_new ();
  HwRing ring = { (HwPoint *)corners, n };

  scene->fabric.width = 700;
  scene->fabric.height = 540;
  edge->shape = shape;
  edge->outline = hw_outline_new (&ring, 1);
  g_clear_pointer (&scene->edge_line, hw_edge_line_unref);
  scene->edge_line = edge;
  return scene;
}

/* "Edge line, upper left 60 40", and so on: those of the edge line. */
static char *
edge_text (const HwSnapshot *scene)
{
  g_autoptr (GPtrArray) places = hw_known_places (scene, NULL);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < places->len; i++)
    {
      const HwKnownPlace *place = g_ptr_array_index (places, i);

      if (place->kind == HW_KNOWN_EDGE)
        g_string_append_printf (text, "%s%s %g %g", text->len > 0 ? "; " : "",
                                place->name + strlen ("Edge line, "), place->mm.x, place->mm.y);
    }
  return g_string_free (text, FALSE);
}

static void
assert_edge (HwEdgeShape shape, const HwPoint *corners, guint n, const char *expected)
{
  g_autoptr (HwSnapshot) scene = scene_with_edge (shape, corners, n);
  g_autofree char *text = edge_text (scene);

  g_assert_cmpstr (text, ==, expected);
}

static const HwPoint square[] = { { 640, 500 }, { 60, 500 }, { 60, 40 }, { 640, 40 } };

/* Wherever its first corner is. */
static void
four_corners_go_round_from_the_upper_left (void)
{
  assert_edge (HW_EDGE_POLYGON, square, 4,
               "upper left 60 40; upper right 640 40; lower right 640 500; lower left 60 500");
}

static void
a_round_edge_line_has_the_ends_of_its_box (void)
{
  const char *ends = "uppermost 350 40; rightmost 640 270; lowest 350 500; leftmost 60 270";

  assert_edge (HW_EDGE_ELLIPSE, square, 4, ends);
  assert_edge (HW_EDGE_ROUNDED, square, 4, ends);
}

/* A kite has no corner towards the corners of its box; a house has five. */
static void
other_corners_are_numbered (void)
{
  const HwPoint kite[] = { { 350, 40 }, { 640, 200 }, { 350, 500 }, { 60, 200 } };
  const HwPoint house[] = { { 60, 500 }, { 60, 200 }, { 350, 40 }, { 640, 200 }, { 640, 500 } };

  assert_edge (HW_EDGE_POLYGON, kite, 4,
               "corner 1 350 40; corner 2 640 200; corner 3 350 500; corner 4 60 200");
  assert_edge (HW_EDGE_POLYGON, house, 5,
               "corner 1 60 500; corner 2 60 200; corner 3 350 40; corner 4 640 200; corner 5 640 500");
}

/* Seventeen are too many for a list. */
static void
a_line_of_many_corners_has_no_places (void)
{
  HwPoint saw[17];

  for (guint i = 0; i < 16; i++)
    saw[i] = (HwPoint){ 60 + 30.0 * i, i % 2 == 0 ? 40 : 60 };
  saw[16] = (HwPoint){ 300, 500 };
  assert_edge (HW_EDGE_POLYGON, saw, 17, "");
  assert_edge (
      HW_EDGE_POLYGON, saw + 1, 16,
      "corner 1 90 60; corner 2 120 40; corner 3 150 60; corner 4 180 40; corner 5 210 60; corner 6 240 40; "
      "corner 7 270 60; corner 8 300 40; corner 9 330 60; corner 10 360 40; corner 11 390 60; corner 12 420 "
      "40; corner 13 450 60; corner 14 480 40; corner 15 510 60; corner 16 300 500");
}

static void
without_an_edge_line_the_cloth_is_known (void)
{
  g_autoptr (HwSnapshot) scene = scene_with_edge (HW_EDGE_POLYGON, square, 4);
  g_autoptr (GPtrArray) places = NULL;

  g_clear_pointer (&scene->edge_line, hw_edge_line_unref);
  places = hw_known_places (scene, NULL);
  g_assert_cmpuint (places->len, ==, 4);
  g_assert_cmpint (hw_known_places_find (places, (HwPoint){ 700, 540 }), ==, 2);
  g_assert_cmpint (hw_known_places_find (places, (HwPoint){ 700, 540.1 }), ==, -1);
  g_assert_cmpint (hw_known_places_four (places, HW_KNOWN_CLOTH), ==, 0);
  g_assert_cmpint (hw_known_places_four (places, HW_KNOWN_SHEET), ==, -1);
}

/* One drawn by the person on a corner of the edge line is that corner; two in one place are one. */
static void
a_mark_in_a_known_place_is_not_listed_again (void)
{
  g_autoptr (HwSnapshot) scene = scene_with_edge (HW_EDGE_POLYGON, square, 4);
  g_autoptr (GPtrArray) places = NULL;

  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m1", (HwPoint){ 60, 40 }));
  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m1", (HwPoint){ 200, 200 }));
  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m2", (HwPoint){ 200.01, 200 }));
  places = hw_known_places (scene, NULL);
  g_assert_cmpuint (places->len, ==, 9);
  g_assert_cmpstr (((const HwKnownPlace *)places->pdata[8])->name, ==, "Held mark 2");
}

/* A sheet lies anywhere: its corners are no places of the cloth. */
static void
a_sheet_is_no_place_of_the_cloth (void)
{
  g_autoptr (GPtrArray) places = g_ptr_array_new ();

  hw_known_places_add_sheet (places, 210, 297);
  g_assert_cmpuint (places->len, ==, 4);
  g_assert_cmpint (hw_known_places_find (places, (HwPoint){ 210, 297 }), ==, -1);
  g_assert_cmpint (hw_known_places_four (places, HW_KNOWN_SHEET), ==, 0);
  for (guint i = 0; i < places->len; i++)
    {
      g_free (((HwKnownPlace *)places->pdata[i])->name);
      g_free (places->pdata[i]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/photo-places/" name, function)
  ADD ("four-corners", four_corners_go_round_from_the_upper_left);
  ADD ("round", a_round_edge_line_has_the_ends_of_its_box);
  ADD ("other-corners", other_corners_are_numbered);
  ADD ("many-corners", a_line_of_many_corners_has_no_places);
  ADD ("no-edge-line", without_an_edge_line_the_cloth_is_known);
  ADD ("marks", a_mark_in_a_known_place_is_not_listed_again);
  ADD ("sheet", a_sheet_is_no_place_of_the_cloth);
  return g_test_run ();
}
