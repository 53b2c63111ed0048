/* Which signs stand where, and when two plans look the same. */
#include "workbench/canvas-alike.h"
#include "workbench/canvas-signs.h"
#include "workbench/text-size.h"

#include <math.h>

static HwSnapshot *
garden (void)
{
  HwSnapshot *snapshot = hw_snapshot_new ();
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup ("long");
  hoop->name = g_strdup ("Long");
  hoop->field_width = hoop->frame_width = 130;
  hoop->field_height = hoop->frame_height = 180;
  g_ptr_array_add (snapshot->hoops, hoop);
  for (guint i = 0; i < 3; i++)
    {
      HwMotif *motif = hw_motif_new ();

      motif->id = g_strdup_printf ("m%u", i + 1);
      motif->name = g_strdup ("Pear");
      motif->outline = hw_outline_new_rectangle (40, 40);
      motif->placement = (HwPlacement){ { 100.0 + 100 * i, 100 }, 0, 1, FALSE };
      g_ptr_array_add (snapshot->motifs, motif);
    }
  return snapshot;
}

static void
add_problem (
    HwPlan *plan, HwProblemKind kind, int motif, double x, double y, gboolean grave, const char *text)
{
  hw_plan_add_problem (plan, kind, motif, grave, g_strdup (text))->where = (HwPoint){ x, y };
}

static void
test_far_signs_stand_apart (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  const HwView view = { 2, 10, 20 };

  add_problem (plan, HW_PROBLEM_DENSE, 0, 100, 100, FALSE, "one");
  add_problem (plan, HW_PROBLEM_SCALE_RANGE, 1, 200, 100, FALSE, "two");
  g_assert_true (hw_signs_learn (signs, plan, -1));
  hw_signs_place (signs, &view);
  g_assert_cmpuint (hw_signs_count (signs), ==, 2);
  g_assert_cmpfloat (hw_signs_at (signs, 0).x, ==, 210);
  g_assert_cmpfloat (hw_signs_at (signs, 0).y, ==, 220);
  g_assert_cmpint (hw_signs_under (signs, (HwPoint){ 410, 225 }), ==, 1);
  g_assert_cmpint (hw_signs_under (signs, (HwPoint){ 310, 220 }), ==, -1);
  g_assert_cmpint (hw_signs_of_place (signs, (HwPoint){ 200, 100 }), ==, 1);
  g_assert_cmpint (hw_signs_of_place (signs, (HwPoint){ 201, 100 }), ==, -1);
  g_assert_cmpint (hw_signs_of_place (signs, (HwPoint){ NAN, NAN }), ==, -1);
}

static void
test_near_signs_become_one (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  const HwView far = { 0.1, 0, 0 }, near = { 4, 0, 0 };
  g_autofree char *text = NULL;

  add_problem (plan, HW_PROBLEM_DENSE, 0, 100, 100, FALSE, "one");
  add_problem (plan, HW_PROBLEM_PIN, 1, 200, 100, TRUE, "two");
  hw_signs_learn (signs, plan, -1);
  hw_signs_place (signs, &far);
  g_assert_cmpuint (hw_signs_count (signs), ==, 1);
  g_assert_cmpuint (hw_signs_size (signs, 0), ==, 2);
  g_assert_true (hw_signs_is_grave (signs, 0));
  g_assert_cmpint (hw_signs_of_place (signs, (HwPoint){ 200, 100 }), ==, 0);
  text = hw_signs_text (signs, 0);
  g_assert_cmpstr (text, ==, "one\ntwo");
  hw_signs_place (signs, &near);
  g_assert_cmpuint (hw_signs_count (signs), ==, 2);
  g_assert_false (hw_signs_is_grave (signs, 0));
  g_assert_true (hw_signs_is_grave (signs, 1));
}

/* However many there are, no two come to lie over one another, and none is lost. */
static void
test_many_signs_do_not_crowd (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  const HwView view = { 1, 0, 0 };
  guint all = 0;

  for (guint i = 0; i < 400; i++)
    add_problem (plan, HW_PROBLEM_HAIRLINE, 0, g_test_rand_double_range (0, 500),
                 g_test_rand_double_range (0, 400), FALSE, "close");
  hw_signs_learn (signs, plan, -1);
  hw_signs_place (signs, &view);
  for (guint i = 0; i < hw_signs_count (signs); i++)
    {
      all += hw_signs_size (signs, i);
      for (guint j = 0; j < i; j++)
        g_assert_cmpfloat (hw_point_distance (hw_signs_at (signs, i), hw_signs_at (signs, j)), >=, 30);
    }
  g_assert_cmpuint (all, ==, 400);
}

static void
test_many_sentences_are_counted (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  const HwView view = { 1, 0, 0 };
  g_autofree char *text = NULL;

  for (guint i = 0; i < 6; i++)
    add_problem (plan, HW_PROBLEM_HAIRLINE, 0, 100 + i, 100, FALSE, "close");
  hw_signs_learn (signs, plan, -1);
  hw_signs_place (signs, &view);
  text = hw_signs_text (signs, 0);
  g_assert_cmpstr (text, ==, "close\nclose\nclose\nAnd 3 more here.");
}

/* What a shape shows already, and what has no place, gets no sign. */
static void
test_what_has_no_sign (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  const HwView view = { 1, 0, 0 };

  add_problem (plan, HW_PROBLEM_OVERSIZE, 0, 100, 100, TRUE, "too large");
  add_problem (plan, HW_PROBLEM_OUTSIDE_EDGE_LINE, 1, 200, 100, FALSE, "past");
  add_problem (plan, HW_PROBLEM_HAIRLINE, -1, 0, 0, FALSE, "2 more");
  add_problem (plan, HW_PROBLEM_NO_HOOP, -1, 0, 0, TRUE, "no hoop");
  g_assert_false (hw_signs_learn (signs, plan, -1));
  hw_signs_place (signs, &view);
  g_assert_cmpuint (hw_signs_count (signs), ==, 0);
}

static void
test_a_stage_shows_its_own (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  const HwView view = { 1, 0, 0 };

  hw_plan_add_problem (plan, HW_PROBLEM_MARKS, -1, FALSE, g_strdup ("few marks"))->hooping = 1;
  hw_signs_learn (signs, plan, 0);
  hw_signs_place (signs, &view);
  g_assert_cmpuint (hw_signs_count (signs), ==, 0);
  g_assert_true (hw_signs_learn (signs, plan, 1));
  hw_signs_place (signs, &view);
  g_assert_cmpuint (hw_signs_count (signs), ==, 1);
}

static void
test_the_same_said_again_is_no_news (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwPlan) again = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();

  add_problem (plan, HW_PROBLEM_DENSE, 0, 100, 100, FALSE, "dense");
  add_problem (again, HW_PROBLEM_DENSE, 0, 100, 100, FALSE, "dense");
  g_assert_true (hw_signs_learn (signs, plan, -1));
  g_assert_false (hw_signs_learn (signs, again, -1));
  ((HwProblem *)g_ptr_array_index (again->problems, 0))->where.x = 101;
  g_assert_true (hw_signs_learn (signs, again, -1));
  g_assert_true (hw_signs_learn (signs, NULL, -1));
}

/* The words stay on the table and leave the sign itself free. */
static void
test_words_stand_beside_the_sign (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  const HwBox area = { 26, 26, 800, 600 };
  const HwPoint places[] = { { 30, 30 }, { 795, 30 }, { 400, 300 }, { 30, 595 }, { 795, 595 } };
  const HwView view = { 1, 0, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    add_problem (plan, HW_PROBLEM_DENSE, 0, places[i].x, places[i].y, FALSE,
                 "Pear over Wall is stitched too dense: leave out what is covered, or move them apart.");
  hw_signs_learn (signs, plan, -1);
  hw_signs_place (signs, &view);
  for (guint i = 0; i < hw_signs_count (signs); i++)
    {
      HwBox box = hw_signs_words_bounds (signs, i, area, avoid, NULL);
      HwPoint at = hw_signs_at (signs, i);

      g_assert_true (box.x0 >= area.x0 && box.y0 >= area.y0 && box.x1 <= area.x1 && box.y1 <= area.y1);
      g_assert_false (at.x > box.x0 && at.x < box.x1 && at.y > box.y0 && at.y < box.y1);
    }
}

/* Twice as large, the same words take about twice the width and the height. */
static void
test_words_are_as_large_as_the_desktop_wants (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  const HwBox area = { 26, 26, 1600, 1000 };
  const HwView view = { 1, 0, 0 };
  HwBox usual, large, most;

  add_problem (plan, HW_PROBLEM_DENSE, 0, 700, 500, FALSE,
               "Pear over Wall is stitched too dense: leave out what is covered, or move them apart.");
  hw_signs_learn (signs, plan, -1);
  hw_signs_place (signs, &view);
  g_assert_false (hw_text_set_scale (0.5)); /* never smaller than usual */
  usual = hw_signs_words_bounds (signs, 0, area, avoid, NULL);
  g_assert_true (hw_text_set_scale (2));
  large = hw_signs_words_bounds (signs, 0, area, avoid, NULL);
  g_assert_true (hw_text_set_scale (80));
  most = hw_signs_words_bounds (signs, 0, area, avoid, NULL);
  g_assert_true (hw_text_set_scale (1));
  g_assert_cmpfloat (large.x1 - large.x0, >, 1.6 * (usual.x1 - usual.x0));
  g_assert_cmpfloat (large.y1 - large.y0, >, 1.5 * (usual.y1 - usual.y0));
  g_assert_cmpfloat (most.x1 - most.x0, <, 1.4 * (large.x1 - large.x0));
}

/* Two motifs above and below the sign between them: the words stand beside both. */
static void
test_words_leave_free_what_they_speak_of (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
  g_autoptr (HwSigns) signs = hw_signs_new ();
  g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_autoptr (GArray) spoken_of = g_array_new (FALSE, FALSE, sizeof (HwBox));
  const HwBox area = { 26, 26, 1000, 700 };
  const HwBox motifs[] = { { 420, 200, 580, 348 }, { 400, 352, 600, 500 } };
  const HwView view = { 1, 0, 0 };

  g_array_append_vals (spoken_of, motifs, 2);
  add_problem (plan, HW_PROBLEM_HAIRLINE, 0, 500, 350, FALSE,
               "Pear and Plum lie 1.0 mm apart in different hoopings: together they may be 1.4 mm out, so "
               "the gap may close or widen.");
  hw_signs_learn (signs, plan, -1);
  hw_signs_place (signs, &view);
  for (guint other = 0; other < 2; other++)
    {
      HwBox box = hw_signs_words_bounds (signs, 0, area, avoid, spoken_of);

      for (guint i = 0; i < spoken_of->len; i++)
        g_assert_false (hw_box_overlaps (box, g_array_index (spoken_of, HwBox, i)));
      /* Near the table's edge the words go to the other side. */
      g_array_append_val (spoken_of, ((HwBox[]){ { 600, 26, 1000, 700 } })[0]);
    }
}

static HwPlan *
hooped (HwSnapshot *snapshot, double x, const char *letter)
{
  HwPlan *plan = hw_plan_new (snapshot);
  HwHooping *hooping;

  plan->n_hoopings = 1;
  plan->hoopings = hooping = g_new0 (HwHooping, 1);
  hooping->centre = (HwPoint){ x, 100 };
  hooping->n_motifs = 2;
  hooping->motifs = g_new0 (guint, 2);
  hooping->motifs[1] = 1;
  hooping->n_marks = 1;
  hooping->marks = g_new0 (HwMark, 1);
  g_strlcpy (hooping->marks[0].letter, letter, sizeof hooping->marks[0].letter);
  return plan;
}

static void
test_equal_poses_look_alike (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwSnapshot) moved = hw_snapshot_copy (snapshot);
  g_autoptr (HwPlan) a = hooped (snapshot, 100, "A");
  g_autoptr (HwPlan) b = hooped (moved, 100, "A");

  b->lower_bound = 1;
  b->status = HW_PLAN_OPTIMAL;
  g_assert_true (hw_plans_look_alike (a, b));
  g_assert_true (hw_plans_look_alike (NULL, NULL));
  g_assert_false (hw_plans_look_alike (a, NULL));
}

static void
test_other_poses_do_not (void)
{
  g_autoptr (HwSnapshot) snapshot = garden ();
  g_autoptr (HwPlan) a = hooped (snapshot, 100, "A");
  g_autoptr (HwPlan) shifted = hooped (snapshot, 100.1, "A");
  g_autoptr (HwPlan) marked = hooped (snapshot, 100, "B");
  g_autoptr (HwPlan) turned = hooped (snapshot, 100, "A");
  g_autoptr (HwPlan) other = hooped (snapshot, 100, "A");

  turned->hoopings[0].angle = 90;
  other->hoopings[0].motifs[1] = 2;
  g_assert_false (hw_plans_look_alike (a, shifted));
  g_assert_false (hw_plans_look_alike (a, marked));
  g_assert_false (hw_plans_look_alike (a, turned));
  g_assert_false (hw_plans_look_alike (a, other));
}

#define SIDE 400

/* How many pixels of the drawn signs, and of the words of the first of them if wanted, are red; others: how many else are not white. */
static guint
drawn_red (const HwSigns *signs, int hovered, gboolean words, guint *others)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, SIDE, SIDE);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  guint red = 0;

  *others = 0;
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  hw_signs_draw (cr, signs, (HwBox){ 0, 0, SIDE, SIDE }, hovered);
  if (words)
    hw_signs_draw_words (cr, signs, 0, (HwBox){ 0, 0, SIDE, SIDE }, avoid, NULL);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  for (int y = 0; y < SIDE; y++)
    {
      const guint32 *row = (const guint32 *)(const void *)(cairo_image_surface_get_data (surface)
                                                           + y * cairo_image_surface_get_stride (surface));

      for (int x = 0; x < SIDE; x++)
        {
          guint r = row[x] >> 16 & 0xff, g = row[x] >> 8 & 0xff, b = row[x] & 0xff;

          if (r > 100 && r > 2 * b && r > 2 * g)
            red++;
          else if (r < 250 || g < 250 || b < 250)
            (*others)++;
        }
    }
  cairo_surface_destroy (surface);
  return red;
}

/* A grave one is red, with its words; the one under the pointer stands out, and one for several says how many. */
static void
test_a_grave_sign_is_red (void)
{
  const HwView view = { 1, 100, 100 };
  guint red[2], said[2], others, plain, hovered, several;

  for (guint grave = 0; grave < 2; grave++)
    {
      g_autoptr (HwSnapshot) snapshot = garden ();
      g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
      g_autoptr (HwSigns) signs = hw_signs_new ();

      add_problem (plan, HW_PROBLEM_PIN, 0, 100, 100, grave == 1, "The hooping cannot be kept.");
      hw_signs_learn (signs, plan, -1);
      hw_signs_place (signs, &view);
      g_assert_cmpint (hw_signs_is_grave (signs, 0), ==, grave == 1);
      red[grave] = drawn_red (signs, -1, FALSE, &others);
      said[grave] = drawn_red (signs, 0, TRUE, &others) - drawn_red (signs, 0, FALSE, &others);
      red[grave] = drawn_red (signs, -1, FALSE, &plain);
      drawn_red (signs, 0, FALSE, &hovered);
      g_assert_cmpuint (drawn_red (signs, 0, FALSE, &hovered) + hovered, >, red[grave] + plain);
      add_problem (plan, HW_PROBLEM_DENSE, 1, 104, 100, FALSE, "Dense.");
      hw_signs_learn (signs, plan, -1);
      hw_signs_place (signs, &view);
      g_assert_cmpuint (hw_signs_count (signs), ==, 1);
      g_assert_cmpuint (drawn_red (signs, -1, FALSE, &several) + several, >, red[grave] + plain);
    }
  g_assert_cmpuint (red[1], >, red[0] + 50);
  g_assert_cmpuint (said[1], >=, said[0]);
}

/* Its words stay on the table, and off what is not to be covered, wherever it stands. */
static void
test_words_keep_off_what_is_not_to_be_covered (void)
{
  static const HwPoint places[] = { { 200, 200 }, { 5, 5 }, { 395, 395 }, { 395, 5 }, { 5, 395 } };
  const HwView view = { 1, 0, 0 };
  const HwBox area = { 0, 0, SIDE, SIDE };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autoptr (HwSnapshot) snapshot = garden ();
      g_autoptr (HwPlan) plan = hw_plan_new (snapshot);
      g_autoptr (HwSigns) signs = hw_signs_new ();
      g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
      g_autoptr (GArray) motifs = g_array_new (FALSE, FALSE, sizeof (HwBox));
      HwPoint handle = { places[i].x + 60, places[i].y };
      HwBox spoken = { places[i].x - 20, places[i].y + 12, places[i].x + 20, places[i].y + 52 };

      add_problem (plan, HW_PROBLEM_DENSE, 0, places[i].x, places[i].y, FALSE, "Too dense here.");
      hw_signs_learn (signs, plan, -1);
      hw_signs_place (signs, &view);
      HwBox free_of_all = hw_signs_words_bounds (signs, 0, area, avoid, NULL);
      g_assert_true (free_of_all.x0 >= 0 && free_of_all.y0 >= 0 && free_of_all.x1 <= SIDE
                     && free_of_all.y1 <= SIDE);
      g_array_append_val (avoid, handle);
      g_array_append_val (motifs, spoken);
      HwBox box = hw_signs_words_bounds (signs, 0, area, avoid, motifs);
      g_assert_true (box.x0 >= 0 && box.y0 >= 0 && box.x1 <= SIDE && box.y1 <= SIDE);
      g_assert_false (hw_box_overlaps ((HwBox){ box.x0 + 3, box.y0 + 3, box.x1 - 3, box.y1 - 3 }, spoken));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/canvas-signs/far-signs-stand-apart", test_far_signs_stand_apart);
  g_test_add_func ("/canvas-signs/near-signs-become-one", test_near_signs_become_one);
  g_test_add_func ("/canvas-signs/many-signs-do-not-crowd", test_many_signs_do_not_crowd);
  g_test_add_func ("/canvas-signs/many-sentences-are-counted", test_many_sentences_are_counted);
  g_test_add_func ("/canvas-signs/what-has-no-sign", test_what_has_no_sign);
  g_test_add_func ("/canvas-signs/a-stage-shows-its-own", test_a_stage_shows_its_own);
  g_test_add_func ("/canvas-signs/the-same-said-again-is-no-news", test_the_same_said_again_is_no_news);
  g_test_add_func ("/canvas-signs/words-stand-beside-the-sign", test_words_stand_beside_the_sign);
  g_test_add_func ("/canvas-signs/words-are-as-large-as-the-desktop-wants",
                   test_words_are_as_large_as_the_desktop_wants);
  g_test_add_func ("/canvas-signs/words-leave-free-what-they-speak-of",
                   test_words_leave_free_what_they_speak_of);
  g_test_add_func ("/canvas-alike/equal-poses-look-alike", test_equal_poses_look_alike);
  g_test_add_func ("/canvas-alike/other-poses-do-not", test_other_poses_do_not);
  g_test_add_func ("/canvas-signs/a-grave-sign-is-red", test_a_grave_sign_is_red);
  g_test_add_func ("/canvas-signs/words-keep-off", test_words_keep_off_what_is_not_to_be_covered);
  return g_test_run ();
}
