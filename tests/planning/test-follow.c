/* The scene brought to the truth: what follows the cloth and what stays, and a hooping put where it landed. */
#include "planning/follow.h"

#include <math.h>

#define CLOSE 1e-9

static HwMotif *
motif_at (const char *id, double x, double y, double angle)
{
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup (id);
  motif->name = g_strdup (id);
  motif->outline = hw_outline_new_rectangle (40, 20);
  motif->placement = (HwPlacement){ .position = { x, y }, .angle = angle, .scale = 1.5, .mirrored = TRUE };
  return motif;
}

static HwPin *
pin_of (const char *motif, HwPoint centre, double angle)
{
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup ("h1");
  pin->centre = centre;
  pin->angle = angle;
  pin->motifs = g_new0 (char *, 2);
  pin->motifs[0] = g_strdup (motif);
  pin->marks = g_new0 (HwMark, 1);
  pin->n_marks = 1;
  pin->marks[0] = (HwMark){ "A", { centre.x + 30, centre.y - 10 } };
  return pin;
}

/* m1 is stitched, m2 is in the machine with one reading, m3 is free. */
static HwSnapshot *
half_stitched (void)
{
  HwSnapshot *scene = hw_snapshot_new ();
  HwHoop *hoop = hw_hoop_new ();
  HwPin *begun;

  hoop->id = g_strdup ("h1");
  hoop->name = g_strdup ("Square");
  hoop->field_width = hoop->field_height = 100;
  hoop->frame_width = hoop->frame_height = 140;
  g_ptr_array_add (scene->hoops, hoop);
  g_ptr_array_add (scene->motifs, motif_at ("m1", 100, 100, 30));
  g_ptr_array_add (scene->motifs, motif_at ("m2", 300, 100, 0));
  g_ptr_array_add (scene->motifs, motif_at ("m3", 300, 300, 0));
  g_ptr_array_add (scene->frozen, pin_of ("m1", (HwPoint){ 110, 90 }, 90));
  begun = pin_of ("m2", (HwPoint){ 310, 95 }, 30);
  begun->work = hw_work_new ();
  hw_work_set_reading (begun->work, &(HwReading){ "A", { 30, -10 }, { 31, -9 }, FALSE });
  g_ptr_array_add (scene->pins, begun);
  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m1", (HwPoint){ 140, 80 }));
  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m3", (HwPoint){ 340, 280 }));
  return scene;
}

static void
assert_place (HwPoint place, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (place.x, x, CLOSE);
  g_assert_cmpfloat_with_epsilon (place.y, y, CLOSE);
}

static const HwStretch halves = { .kind = HW_STRETCH_AXES, .xx = 0.5, .xy = 0, .yy = 1 };
static const HwStretch sheared = { .kind = HW_STRETCH_FULL, .xx = 0.99, .xy = 0.01, .yy = 0.98 };

static void
what_is_not_stitched_follows (void)
{
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) now = hw_follow_cloth (scene, &halves, (HwPoint){ 100, 100 });
  const HwPin *pin = now->pins->pdata[0];

  assert_place (hw_snapshot_motif (now, 1)->placement.position, 200, 100);
  assert_place (hw_snapshot_motif (now, 2)->placement.position, 200, 300);
  assert_place (pin->centre, 205, 95);
  assert_place (pin->marks[0].at, 220, 85);
  assert_place (((HwHeldMark *)now->held_marks->pdata[1])->at, 220, 280);
  assert_place (now->edge_line->outline->rings[0].points[0], 70, 40);
  /* Angles and sizes are the design's own. */
  g_assert_cmpfloat (hw_snapshot_motif (now, 2)->placement.scale, ==, 1.5);
  g_assert_cmpfloat (hw_snapshot_motif (now, 2)->placement.angle, ==, 0);
  g_assert_true (hw_snapshot_motif (now, 2)->placement.mirrored);
  g_assert_cmpfloat (pin->angle, ==, 30);
}

static void
what_is_stitched_stays (void)
{
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) now = hw_follow_cloth (scene, &sheared, (HwPoint){ 7, -3 });

  g_assert_true (hw_snapshot_motif (now, 0) == hw_snapshot_motif (scene, 0));
  g_assert_true (now->frozen->pdata[0] == scene->frozen->pdata[0]);
  g_assert_true (now->held_marks->pdata[0] == scene->held_marks->pdata[0]);
  g_assert_cmpfloat (now->fabric.width, ==, scene->fabric.width);
}

/* The scene that was handed in is somebody's: the history keeps it. */
static void
the_scene_before_is_left_as_it_was (void)
{
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) same = half_stitched ();
  g_autoptr (HwSnapshot) followed = hw_follow_cloth (scene, &sheared, (HwPoint){ 7, -3 });
  g_autoptr (HwSnapshot) landed = hw_land_hooping (scene, 0, &(HwCorrection){ { 3, 4 }, 5 });

  g_assert_true (hw_snapshot_equal (scene, same));
  g_assert_false (hw_snapshot_equal (scene, followed));
  g_assert_false (hw_snapshot_equal (scene, landed));
}

static void
unchanged_cloth_changes_nothing (void)
{
  const HwStretch none = { .xx = 1, .yy = 1 };
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) now = NULL;

  /* About 0, 0, so that no rounding comes in. */
  now = hw_follow_cloth (scene, &none, (HwPoint){ 0, 0 });
  for (guint i = 0; i < 3; i++)
    g_assert_true (hw_placement_equal (&hw_snapshot_motif (now, i)->placement,
                                       &hw_snapshot_motif (scene, i)->placement));
  g_assert_true (hw_outline_equal (now->edge_line->outline, scene->edge_line->outline));
}

/* In the hoop's axes a reading stands for the mark; after the cloth moved it must still do so. */
static void
readings_stand_for_marks_still (void)
{
  g_autoptr (HwSnapshot) scene = half_stitched ();
  HwPin *begun = scene->pins->pdata[0];
  HwPoint way = hw_point_turn ((HwPoint){ 30, -10 }, 30);

  begun->marks[0].at = (HwPoint){ begun->centre.x + way.x, begun->centre.y + way.y };
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (HwSnapshot) now = hw_follow_cloth (scene, i == 0 ? &halves : &sheared, (HwPoint){ 50, 60 });
      const HwPin *pin = now->pins->pdata[0];
      HwPoint mark = hw_point_turn (
          (HwPoint){ pin->marks[0].at.x - pin->centre.x, pin->marks[0].at.y - pin->centre.y }, -pin->angle);

      assert_place (pin->work->readings[0].design, mark.x, mark.y);
      assert_place (pin->work->readings[0].at, 31, -9);
    }
}

/* A pin that leaves hoop and pose free may have been given no place. */
static void
a_pin_without_a_place_gets_none (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwSnapshot) now = NULL;
  HwPin *pin = hw_pin_new ();

  pin->keep = HW_KEEP_MOTIFS;
  g_ptr_array_add (scene->pins, pin);
  now = hw_follow_cloth (scene, &halves, (HwPoint){ 100, 100 });
  assert_place (((HwPin *)now->pins->pdata[0])->centre, 0, 0);
}

static void
a_sheared_rectangle_is_a_polygon (void)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwSnapshot) straight = NULL;
  g_autoptr (HwSnapshot) crooked = NULL;

  hw_edge_line_unref (scene->edge_line);
  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_ROUNDED, (HwBox){ 100, 100, 500, 300 }, 20, 2);
  straight = hw_follow_cloth (scene, &halves, (HwPoint){ 0, 0 });
  crooked = hw_follow_cloth (scene, &sheared, (HwPoint){ 0, 0 });
  g_assert_cmpint (straight->edge_line->shape, ==, HW_EDGE_ROUNDED);
  g_assert_cmpfloat_with_epsilon (straight->edge_line->outline->box.x1, 250, CLOSE);
  g_assert_cmpfloat_with_epsilon (straight->edge_line->outline->box.y1, 300, CLOSE);
  g_assert_cmpint (crooked->edge_line->shape, ==, HW_EDGE_POLYGON);
  g_assert_cmpfloat (crooked->edge_line->margin, ==, 2);
}

/* What follows moves by one affine change: lines stay lines and middles stay middles. */
static void
middles_stay_middles (void)
{
  for (guint round = 0; round < 50; round++)
    {
      double x = g_test_rand_double_range (0, 700), y = g_test_rand_double_range (0, 500);
      double dx = g_test_rand_double_range (-90, 90), dy = g_test_rand_double_range (-90, 90);
      HwStretch stretch = { .xx = g_test_rand_double_range (0.9, 1.1),
                            .xy = g_test_rand_double_range (-0.1, 0.1),
                            .yy = g_test_rand_double_range (0.9, 1.1) };
      HwPoint about = { g_test_rand_double_range (0, 700), g_test_rand_double_range (0, 500) };
      g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
      g_autoptr (HwSnapshot) now = NULL;
      HwPoint a, b, middle;

      g_ptr_array_add (scene->motifs, motif_at ("a", x - dx, y - dy, 0));
      g_ptr_array_add (scene->motifs, motif_at ("middle", x, y, 0));
      g_ptr_array_add (scene->motifs, motif_at ("b", x + dx, y + dy, 0));
      now = hw_follow_cloth (scene, &stretch, about);
      a = hw_snapshot_motif (now, 0)->placement.position;
      middle = hw_snapshot_motif (now, 1)->placement.position;
      b = hw_snapshot_motif (now, 2)->placement.position;
      assert_place (middle, (a.x + b.x) / 2, (a.y + b.y) / 2);
    }
}

/* The middle of what is stitched keeps its place, being the part that holds the rest. */
static void
the_still_point_is_the_middle_of_what_is_stitched (void)
{
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) empty = hw_snapshot_new ();

  assert_place (hw_follow_still_point (scene), 100, 100);
  g_ptr_array_add (scene->frozen, pin_of ("m3", (HwPoint){ 300, 300 }, 0));
  {
    /* m1 turned by 30 degrees: 60 x 30 mm reach w/2 cos + h/2 sin across. */
    double c = sqrt (3) / 2, s = 0.5;
    double left = 100 - (30 * c + 15 * s), top = 100 - (30 * s + 15 * c);

    assert_place (hw_follow_still_point (scene), (left + 330) / 2, (top + 315) / 2);
  }
  g_ptr_array_set_size (scene->frozen, 0);
  {
    double c = sqrt (3) / 2, s = 0.5;
    double left = 100 - (30 * c + 15 * s), top = MIN (85, 100 - (30 * s + 15 * c));

    assert_place (hw_follow_still_point (scene), (left + 330) / 2, (top + 315) / 2);
  }
  assert_place (hw_follow_still_point (empty), 350, 270);
}

/* The hoop lies at 90 degrees: its right is down the cloth, its "towards you" is left. */
static void
a_hooping_lands_where_it_was_stitched (void)
{
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) now = hw_land_hooping (scene, 0, &(HwCorrection){ { 2, 5 }, 90 });
  const HwPin *pin = now->frozen->pdata[0];
  const HwMotif *motif = hw_snapshot_motif (now, 0);

  assert_place (pin->centre, 110 - 5, 90 + 2);
  g_assert_cmpfloat_with_epsilon (pin->angle, 180, CLOSE);
  /* From the centre the motif lay at (-10, 10) on the cloth; a quarter clockwise is (-10, -10). */
  assert_place (motif->placement.position, 105 - 10, 92 - 10);
  g_assert_cmpfloat_with_epsilon (motif->placement.angle, 120, CLOSE);
  /* Marks are drawn on the cloth. */
  assert_place (pin->marks[0].at, 140, 80);
  assert_place (((HwHeldMark *)now->held_marks->pdata[0])->at, 140, 80);
}

static void
what_else_is_planned_stays_when_one_landed (void)
{
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) now = hw_land_hooping (scene, 0, &(HwCorrection){ { 2, 5 }, 90 });

  for (guint i = 1; i < 3; i++)
    g_assert_true (hw_snapshot_motif (now, i) == hw_snapshot_motif (scene, i));
  g_assert_true (now->pins->pdata[0] == scene->pins->pdata[0]);
  g_assert_true (now->edge_line == scene->edge_line);
}

/* Every point of the stitching, not only the motifs' centres: the point p of the hoop's axes comes to R(turn) p + shift. */
static void
every_stitch_lands_by_the_same_shift_and_turn (void)
{
  for (guint round = 0; round < 50; round++)
    {
      HwCorrection landed = { { g_test_rand_double_range (-20, 20), g_test_rand_double_range (-20, 20) },
                              g_test_rand_double_range (-180, 180) };
      g_autoptr (HwSnapshot) scene = half_stitched ();
      g_autoptr (HwSnapshot) now = hw_land_hooping (scene, 0, &landed);
      const HwPin *pin = scene->frozen->pdata[0];
      HwPoint stitch = { g_test_rand_double_range (-20, 20), g_test_rand_double_range (-10, 10) };
      HwPoint was = hw_placement_apply (&hw_snapshot_motif (scene, 0)->placement, stitch);
      HwPoint is = hw_placement_apply (&hw_snapshot_motif (now, 0)->placement, stitch);
      HwPoint p = hw_point_turn ((HwPoint){ was.x - pin->centre.x, was.y - pin->centre.y }, -pin->angle);
      HwPoint q = hw_point_turn ((HwPoint){ is.x - pin->centre.x, is.y - pin->centre.y }, -pin->angle);
      HwPoint expected = hw_correction_apply (&landed, p);

      assert_place (q, expected.x, expected.y);
    }
}

static void
a_landing_is_taken_back_by_its_inverse (void)
{
  const HwCorrection landed = { { 3, -4 }, 25 };
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) now = hw_land_hooping (scene, 0, &landed);
  /* In the axes of the hoop as it lies now. */
  HwPoint back = hw_point_turn ((HwPoint){ -3, 4 }, -25);
  g_autoptr (HwSnapshot) again = hw_land_hooping (now, 0, &(HwCorrection){ back, -25 });

  assert_place (hw_snapshot_motif (again, 0)->placement.position, 100, 100);
  g_assert_cmpfloat_with_epsilon (hw_snapshot_motif (again, 0)->placement.angle, 30, CLOSE);
  assert_place (((HwPin *)again->frozen->pdata[0])->centre, 110, 90);
}

/* Pins and stitched hoopings that name no motif, or one that is gone; a pin without a hoop that was given a place all the same; no edge line. */
static void
what_names_nothing_is_followed_too (void)
{
  const HwCorrection landed = { { 3, -4 }, 0 };
  g_autoptr (HwSnapshot) scene = half_stitched ();
  g_autoptr (HwSnapshot) now = NULL, at_landing = NULL;
  HwPin *nameless = pin_of ("m1", (HwPoint){ 0, 40 }, 0), *gone = pin_of ("m9", (HwPoint){ 40, 0 }, 0),
        *stitched = pin_of ("m9", (HwPoint){ 200, 100 }, 0);

  g_clear_pointer (&nameless->motifs, g_strfreev);
  g_clear_pointer (&nameless->hoop, g_free);
  g_clear_pointer (&gone->hoop, g_free);
  gone->work = hw_work_new (); /* begun, and nothing read yet */
  g_ptr_array_add (scene->pins, nameless);
  g_ptr_array_add (scene->pins, gone);
  g_ptr_array_add (scene->frozen, hw_pin_ref (nameless));
  g_ptr_array_add (scene->frozen, stitched);
  g_clear_pointer (&scene->edge_line, hw_edge_line_unref);
  now = hw_follow_cloth (scene, &halves, (HwPoint){ 100, 100 });
  g_assert_null (now->edge_line);
  assert_place (((HwPin *)now->pins->pdata[1])->centre, 50, 40);
  assert_place (((HwPin *)now->pins->pdata[2])->centre, 70, 0);
  g_assert_true (((HwPin *)now->pins->pdata[2])->work == gone->work);
  assert_place (((HwPin *)now->frozen->pdata[1])->centre, 0, 40);
  at_landing = hw_land_hooping (scene, 2, &landed);
  assert_place (((HwPin *)at_landing->frozen->pdata[2])->centre, 203, 96);
  for (guint i = 0; i < 3; i++)
    g_assert_true (hw_snapshot_motif (at_landing, i) == hw_snapshot_motif (scene, i));
  g_clear_pointer (&at_landing, hw_snapshot_unref);
  at_landing = hw_land_hooping (scene, 1, &landed);
  assert_place (((HwPin *)at_landing->frozen->pdata[1])->centre, 3, 36);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/follow/what-is-not-stitched-follows", what_is_not_stitched_follows);
  g_test_add_func ("/follow/what-is-stitched-stays", what_is_stitched_stays);
  g_test_add_func ("/follow/the-scene-before-is-left-as-it-was", the_scene_before_is_left_as_it_was);
  g_test_add_func ("/follow/unchanged-cloth-changes-nothing", unchanged_cloth_changes_nothing);
  g_test_add_func ("/follow/readings-stand-for-marks-still", readings_stand_for_marks_still);
  g_test_add_func ("/follow/a-pin-without-a-place-gets-none", a_pin_without_a_place_gets_none);
  g_test_add_func ("/follow/a-sheared-rectangle-is-a-polygon", a_sheared_rectangle_is_a_polygon);
  g_test_add_func ("/follow/middles-stay-middles", middles_stay_middles);
  g_test_add_func ("/follow/the-still-point-is-the-middle-of-what-is-stitched",
                   the_still_point_is_the_middle_of_what_is_stitched);
  g_test_add_func ("/follow/a-hooping-lands-where-it-was-stitched", a_hooping_lands_where_it_was_stitched);
  g_test_add_func ("/follow/what-else-is-planned-stays-when-one-landed",
                   what_else_is_planned_stays_when_one_landed);
  g_test_add_func ("/follow/every-stitch-lands-by-the-same-shift-and-turn",
                   every_stitch_lands_by_the_same_shift_and_turn);
  g_test_add_func ("/follow/what-names-nothing", what_names_nothing_is_followed_too);
  g_test_add_func ("/follow/a-landing-is-taken-back-by-its-inverse", a_landing_is_taken_back_by_its_inverse);
  return g_test_run ();
}
