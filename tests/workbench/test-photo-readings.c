/* Marks read in a photo: where they lie by the handles, how closely, and which are offered as right. */
#include <math.h>

#include "workbench/photo-readings.h"

#define WIDTH 2400.0 /* px */
#define HEIGHT 1800.0

/* A hoop seen askew, written down by hand: hoop mm to photo pixels. */
static HwPoint
seen (HwPoint mm)
{
  double w = 1 + 0.0004 * mm.x - 0.0003 * mm.y;

  return (HwPoint){ 1200 + (6 * mm.x + 0.3 * mm.y) / w, 900 + (-0.2 * mm.x + 5.5 * mm.y) / w };
}

static const HwReading marks[] = {
  { "A", { -50, -60 }, { 0 }, FALSE, FALSE },
  { "B", { 50, 60 }, { 0 }, FALSE, FALSE },
  { "C", { 50, -60 }, { 0 }, FALSE, FALSE },
  { "D", { -50, 60 }, { 0 }, FALSE, FALSE },
};

static HwHoop *
some_hoop (void)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->field_width = 130;
  hoop->field_height = 180;
  hoop->frame_width = 170;
  hoop->frame_height = 240;
  return hoop;
}

/* n handles on the first places of the hoop, exactly. */
static HwSquaring *
handles (guint n)
{
  g_autoptr (HwHoop) hoop = some_hoop ();
  g_autoptr (GPtrArray) places = hw_hoop_places (hoop);
  HwSquaring *squaring = hw_squaring_new (WIDTH, HEIGHT);

  for (guint i = 0; i < n; i++)
    {
      const HwKnownPlace *place = g_ptr_array_index (places, i);
      hw_squaring_add (squaring, seen (place->mm), place);
    }
  g_assert_true (hw_squaring_solve (squaring, FALSE));
  return squaring;
}

/* Every mark found where cloth turned and shifted has it, mark `wrong` by (12, 9) mm off that; sureness: of the finder. */
static GArray *
found (guint n, double turn, HwPoint shift, int wrong, double sureness)
{
  GArray *list = g_array_new (FALSE, TRUE, sizeof (HwSeenMark));

  for (guint i = 0; i < n; i++)
    {
      HwPoint at = hw_point_turn (marks[i].design, turn);
      HwPoint off = (int)i == wrong ? (HwPoint){ 12, 9 } : (HwPoint){ 0, 0 };
      HwSeenMark mark = { .place = i, .mm = marks[i].design };

      mark.found.px = seen ((HwPoint){ at.x + shift.x + off.x, at.y + shift.y + off.y });
      mark.found.confidence = sureness;
      mark.found.sigma = 0.3;
      g_array_append_val (list, mark);
    }
  return list;
}

static void
marks_are_told_in_hoop_axes (void)
{
  static const guint counts[] = { 4, 13 };
  double worst[2];

  for (guint c = 0; c < G_N_ELEMENTS (counts); c++)
    {
      g_autoptr (HwSquaring) squaring = handles (counts[c]);
      g_autoptr (GArray) readings = hw_photo_readings_new (marks, 2);
      g_autoptr (GArray) list = found (2, 1.5, (HwPoint){ 2.2, -1.4 }, -1, 0.97);
      HwPhotoWorth worth;
      guint n;

      hw_photo_readings_take (readings, list);
      g_assert_true (hw_photo_readings_measure (readings, squaring, FALSE, &worth));
      g_assert_true (hw_photo_readings_agree (readings));
      g_autofree HwReading *ticked = hw_photo_readings_ticked (readings, &n);
      g_assert_cmpuint (n, ==, 2);
      for (guint i = 0; i < n; i++)
        {
          HwPoint at = hw_point_turn (marks[i].design, 1.5);

          g_assert_cmpstr (ticked[i].letter, ==, marks[i].letter);
          g_assert_true (ticked[i].by_photo);
          g_assert_cmpfloat (hw_point_distance (ticked[i].at, (HwPoint){ at.x + 2.2, at.y - 1.4 }), <, 1e-6);
        }
      g_assert_true (worth.assumed == (counts[c] == 4));
      worst[c] = worth.at_marks;
    }
  /* Handles assumed to be off by half a millimetre; thirteen that agree exactly are worth more. */
  g_assert_cmpfloat (worst[0], >, 0.25);
  g_assert_cmpfloat (worst[0], <, 1);
  g_assert_cmpfloat (worst[1], <, 0.4 * worst[0]);
}

static void
what_is_not_sure_is_not_ticked (void)
{
  g_autoptr (HwSquaring) squaring = handles (4);
  g_autoptr (GArray) readings = hw_photo_readings_new (marks, 3);
  g_autoptr (GArray) list = found (2, 0, (HwPoint){ 0, 0 }, -1, 0.4);
  HwPhotoWorth worth;
  guint n;

  hw_photo_readings_take (readings, list);
  g_assert_true (hw_photo_readings_measure (readings, squaring, FALSE, &worth));
  g_assert_cmpuint (hw_photo_readings_count (readings), ==, 0);
  g_assert_true (g_array_index (readings, HwPhotoReading, 0).seen);
  /* The third was not found: its square waits where it should be. */
  g_assert_false (g_array_index (readings, HwPhotoReading, 2).seen);
  g_assert_cmpfloat (
      hw_point_distance (g_array_index (readings, HwPhotoReading, 2).px, seen (marks[2].design)), <, 1e-6);
  /* Put by hand it counts, and another search leaves it. */
  hw_photo_readings_put (readings, 2, seen ((HwPoint){ 51, -59 }));
  hw_photo_readings_take (readings, list);
  g_assert_true (hw_photo_readings_measure (readings, squaring, FALSE, &worth));
  g_autofree HwReading *ticked = hw_photo_readings_ticked (readings, &n);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpstr (ticked[0].letter, ==, "C");
  g_assert_cmpfloat (hw_point_distance (ticked[0].at, (HwPoint){ 51, -59 }), <, 1e-6);
}

static void
one_that_disagrees_is_not_ticked (void)
{
  g_autoptr (HwSquaring) squaring = handles (8);
  g_autoptr (GArray) readings = hw_photo_readings_new (marks, 4);
  g_autoptr (GArray) list = found (4, -2, (HwPoint){ 3, 1 }, 2, 0.99);
  HwPhotoWorth worth;

  hw_photo_readings_take (readings, list);
  g_assert_true (hw_photo_readings_measure (readings, squaring, FALSE, &worth));
  g_assert_false (hw_photo_readings_agree (readings));
  g_assert_cmpuint (hw_photo_readings_count (readings), ==, 3);
  g_assert_true (g_array_index (readings, HwPhotoReading, 2).apart);
  g_assert_false (g_array_index (readings, HwPhotoReading, 2).ticked);
  g_assert_true (hw_photo_readings_agree (readings));
}

/* Of two that do not lie as far apart as planned nobody can say which is wrong. */
static void
of_two_that_disagree_none_is_ticked (void)
{
  g_autoptr (HwSquaring) squaring = handles (8);
  g_autoptr (GArray) readings = hw_photo_readings_new (marks, 2);
  g_autoptr (GArray) list = found (2, 0, (HwPoint){ 0, 0 }, 1, 0.99);
  HwPhotoWorth worth;

  hw_photo_readings_take (readings, list);
  g_assert_true (hw_photo_readings_measure (readings, squaring, FALSE, &worth));
  g_assert_false (hw_photo_readings_agree (readings));
  g_assert_cmpuint (hw_photo_readings_count (readings), ==, 0);
}

/* The cloth drew in by a hundredth; the sheet did not. */
static void
distances_are_told_by_the_sheet_alone (void)
{
  g_autoptr (HwSquaring) squaring = hw_squaring_new (WIDTH, HEIGHT);
  g_autoptr (GPtrArray) places = g_ptr_array_new ();
  g_autoptr (GArray) readings = hw_photo_readings_new (marks, 2);
  const HwPoint sheet[4] = { { -40, -30 }, { 60, -30 }, { 60, 40 }, { -40, 40 } };
  HwPhotoWorth worth;

  for (guint i = 0; i < 4; i++)
    {
      HwKnownPlace corner = { HW_KNOWN_SHEET, (char *)"Sheet", { sheet[i].x + 40, sheet[i].y + 30 } };
      hw_squaring_add (squaring, seen (sheet[i]), &corner);
    }
  for (guint i = 0; i < 2; i++)
    {
      HwKnownPlace mark = { HW_KNOWN_MARK, (char *)marks[i].letter, marks[i].design };
      HwPoint drawn_in = { 0.99 * marks[i].design.x, 0.99 * marks[i].design.y };

      hw_squaring_add (squaring, seen (drawn_in), &mark);
      hw_photo_readings_put (readings, i, seen (drawn_in));
    }
  g_assert_false (hw_photo_readings_measure (readings, squaring, TRUE, &worth));
  g_assert_true (hw_squaring_solve (squaring, FALSE));
  g_assert_true (hw_photo_readings_measure (readings, squaring, TRUE, &worth));
  g_assert_cmpfloat_with_epsilon (hw_point_distance (g_array_index (readings, HwPhotoReading, 0).at,
                                                     g_array_index (readings, HwPhotoReading, 1).at),
                                  0.99 * hypot (100, 120), 1e-6);
}

/* A mark near the horizon of a photo taken too flat is never offered. */
static void
beyond_the_horizon_nothing_is_told (void)
{
  g_autoptr (HwSquaring) squaring = hw_squaring_new (WIDTH, HEIGHT);
  g_autoptr (GArray) readings = hw_photo_readings_new (marks, 1);
  const HwPhotoPoint flat[4] = { { { 1000, 900 }, { 0, 0 } },
                                 { { 1400, 900 }, { 100, 0 } },
                                 { { 1800, 1700 }, { 100, 100 } },
                                 { { 600, 1700 }, { 0, 100 } } };
  HwPhotoWorth worth;

  for (guint i = 0; i < 4; i++)
    {
      HwKnownPlace place = { HW_KNOWN_TYPED, (char *)"Typed", flat[i].mm };
      hw_squaring_add (squaring, flat[i].px, &place);
    }
  g_assert_true (hw_squaring_solve (squaring, FALSE));
  hw_photo_readings_put (readings, 0, (HwPoint){ 1200, 100 });
  g_assert_true (hw_photo_readings_measure (readings, squaring, FALSE, &worth));
  g_assert_cmpuint (hw_photo_readings_count (readings), ==, 0);
  g_autofree char *text = hw_photo_reading_text (&g_array_index (readings, HwPhotoReading, 0), HW_UNIT_MM);
  g_assert_true (g_str_has_prefix (text, "Beyond the horizon"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/photo-readings/hoop-axes", marks_are_told_in_hoop_axes);
  g_test_add_func ("/photo-readings/not-sure", what_is_not_sure_is_not_ticked);
  g_test_add_func ("/photo-readings/apart", one_that_disagrees_is_not_ticked);
  g_test_add_func ("/photo-readings/two-apart", of_two_that_disagree_none_is_ticked);
  g_test_add_func ("/photo-readings/by-sheet", distances_are_told_by_the_sheet_alone);
  g_test_add_func ("/photo-readings/horizon", beyond_the_horizon_nothing_is_told);
  return g_test_run ();
}
