/* Other ways to hoop, as they are offered on the table: each once, with a label of its own that can be pressed however near they lie, and none where nothing can be changed. */
#include <math.h>

#include "bench-fixture.h"
#include "workbench/canvas-ghosts.h"

#define WIDTH 700
#define HEIGHT 500

static const HwView near = { .zoom = 1.5, .x = 40, .y = 40 }, far_off = { .zoom = 0.02, .x = 300, .y = 200 },
                    corner = { .zoom = 1.5, .x = -300, .y = -420 };
static const HwBox area = { 20, 20, WIDTH, HEIGHT };

static void
add_hoop (HwSnapshot *scene, const char *id, double width, double height, HwTurn turn)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup (id);
  hoop->name = g_strdup (id);
  hoop->field_width = width;
  hoop->field_height = height;
  hoop->frame_width = width + 40;
  hoop->frame_height = height + 60;
  hoop->clearance = 2;
  hoop->turn = turn;
  g_ptr_array_add (scene->hoops, hoop);
}

/* Pear and Plum, which a hoop takes askew to either side, and larger hoops however they lie. */
static HwPlan *
plan_of (gboolean stitched, gboolean falling)
{
  g_autoptr (HwBench) bench = hw_bench_new ();
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();

  add_hoop (scene, "Narrow", 130, 180, HW_TURN_ANY);
  add_hoop (scene, "Square", 200, 200, HW_TURN_ANY);
  add_hoop (scene, "Wide", 260, 200, HW_TURN_ANY);
  g_ptr_array_add (scene->motifs, orchard_motif ("m1", "Pear", 150, falling ? 150 : 245));
  g_ptr_array_add (scene->motifs, orchard_motif ("m2", "Plum", 245, falling ? 245 : 150));
  hw_bench_start_new (bench, scene);
  wait_for_plan (bench);
  if (stitched)
    {
      g_assert_true (hw_bench_mark_stitched (bench, 0));
      wait_for_plan (bench);
    }
  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, 1);
  return hw_plan_ref (hw_bench_get_plan (bench));
}

static HwPlan *
a_plan (gboolean stitched)
{
  return plan_of (stitched, TRUE);
}

static GArray *
ghosts_of (const HwPlan *plan, int hooping)
{
  return hw_ghosts_find (plan, plan->hoopings[0].motifs, plan->hoopings[0].n_motifs, hooping);
}

static void
the_way_it_lies_is_not_offered (void)
{
  g_autoptr (HwPlan) plan = a_plan (FALSE);
  g_autoptr (GArray) others = ghosts_of (plan, 0), all = ghosts_of (plan, -1);
  const HwHooping *now = &plan->hoopings[0];

  g_assert_cmpuint (others->len, >=, 2);
  g_assert_cmpuint (all->len, >, others->len);
  for (guint i = 0; i < others->len; i++)
    {
      const HwGhost *ghost = &g_array_index (others, HwGhost, i);

      g_assert_false (ghost->candidate.hoop == now->hoop
                      && hw_point_distance (ghost->candidate.pose.centre, now->centre) < 0.5
                      && fabs (remainder (ghost->candidate.pose.angle - now->angle, 180)) < 0.2);
    }
}

static guint
count (const GArray *ghosts, const char *ending)
{
  guint n = 0;

  for (guint i = 0; i < ghosts->len; i++)
    n += g_str_has_suffix (g_array_index (ghosts, HwGhost, i).label, ending);
  return n;
}

/* Across the one diagonal a hoop lies turned the one way, across the other the other way: the label says which. */
static void
a_label_says_which_way_it_is_turned (void)
{
  g_autoptr (HwPlan) falling = plan_of (FALSE, TRUE), rising = plan_of (FALSE, FALSE);
  g_autoptr (GArray) one = ghosts_of (falling, -1), other = ghosts_of (rising, -1);

  g_assert_cmpuint (count (one, " anticlockwise") + count (other, " anticlockwise"), >, 0);
  g_assert_cmpuint (count (one, " clockwise") + count (other, " clockwise"), >, 0);
  g_assert_cmpuint (count (one, "Wide"), ==, 1); /* unturned: its name alone */
}

static void
where_nothing_can_change_none_is_offered (void)
{
  g_autoptr (HwPlan) plan = a_plan (TRUE), fresh = a_plan (FALSE);
  g_autoptr (GArray) stitched = ghosts_of (plan, 0), of_none = hw_ghosts_find (fresh, NULL, 0, -1);

  g_assert_cmpuint (stitched->len, ==, 0);
  g_assert_cmpuint (of_none->len, ==, 0);
  g_assert_true (hw_ghosts_same (stitched, NULL));
  g_assert_true (hw_ghosts_same (NULL, of_none));
}

static void
the_same_offer_is_known_again (void)
{
  g_autoptr (HwPlan) plan = a_plan (FALSE);
  g_autoptr (GArray) one = ghosts_of (plan, 0), two = ghosts_of (plan, 0), all = ghosts_of (plan, -1);

  g_assert_true (hw_ghosts_same (one, two));
  g_assert_false (hw_ghosts_same (one, all));
  g_assert_false (hw_ghosts_same (one, NULL));
  HwGhost *ghost = &g_array_index (two, HwGhost, 0);
  HwPose pose = ghost->candidate.pose;
  ghost->candidate.pose.centre.x += 1;
  g_assert_false (hw_ghosts_same (one, two));
  ghost->candidate.pose = pose;
  ghost->candidate.pose.centre.y += 1;
  g_assert_false (hw_ghosts_same (one, two));
  ghost->candidate.pose = pose;
  ghost->candidate.pose.angle += 1;
  g_assert_false (hw_ghosts_same (one, two));
  ghost->candidate.pose = pose;
  ghost->hooping = 3;
  g_assert_false (hw_ghosts_same (one, two));
}

/* However near the labels lie, in whatever corner, each ghost has one of its own to press, within reach of a hand. */
static void
each_has_a_label_to_press (gconstpointer data)
{
  const HwView *view = data;
  g_autoptr (HwPlan) plan = a_plan (FALSE);
  g_autoptr (GArray) ghosts = ghosts_of (plan, -1), avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_autofree guint *found = g_new0 (guint, ghosts->len);

  g_array_append_val (avoid, ((HwPoint){ 300, 200 }));
  for (double y = area.y0; y < area.y1; y += 2)
    for (double x = area.x0; x < area.x1; x += 2)
      {
        int hit = hw_ghosts_hit (ghosts, view, area, avoid, (HwPoint){ x, y }, TRUE);

        if (hit >= 0)
          found[hit]++;
      }
  for (guint i = 0; i < ghosts->len; i++)
    g_assert_cmpuint (found[i], >, 40);
}

/* Off the labels its line is pressed, within a few pixels, and nothing elsewhere. */
static void
a_line_is_pressed_beside_its_label (void)
{
  g_autoptr (HwPlan) plan = a_plan (FALSE);
  g_autoptr (GArray) ghosts = ghosts_of (plan, 0), avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  guint lines = 0;

  for (guint i = 0; i < ghosts->len; i++)
    {
      const HwGhost *ghost = &g_array_index (ghosts, HwGhost, i);
      HwPoint top
          = hw_point_turn ((HwPoint){ 0.3 * ghost->hoop->field_width, -ghost->hoop->field_height / 2 },
                           ghost->candidate.pose.angle);
      HwPoint at = hw_view_to_pixels (
          &near, (HwPoint){ ghost->candidate.pose.centre.x + top.x, ghost->candidate.pose.centre.y + top.y });

      lines += hw_ghosts_hit (ghosts, &near, area, avoid, at, FALSE) == (int)i;
    }
  g_assert_cmpuint (lines, >, ghosts->len / 2);
  g_assert_cmpint (hw_ghosts_hit (ghosts, &near, area, avoid, (HwPoint){ WIDTH - 3, HEIGHT - 3 }, FALSE), ==,
                   -1);
}

/* How much dark ink is on white paper. */
static double
ink (const GArray *ghosts, int hovered)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (GArray) avoid = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  double sum = 0;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  hw_ghosts_draw (cr, ghosts, &near, hovered);
  hw_ghosts_draw_labels (cr, ghosts, &near, area, avoid, hovered);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  for (int y = 0; y < HEIGHT; y++)
    {
      const guint32 *row = (const guint32 *)(const void *)(cairo_image_surface_get_data (surface)
                                                           + y * cairo_image_surface_get_stride (surface));

      for (int x = 0; x < WIDTH; x++)
        sum += 255 - (row[x] >> 8 & 0xff);
    }
  cairo_surface_destroy (surface);
  return sum;
}

static void
the_one_under_the_pointer_stands_out (void)
{
  g_autoptr (HwPlan) plan = a_plan (FALSE);
  g_autoptr (GArray) ghosts = ghosts_of (plan, 0), none = g_array_new (FALSE, TRUE, sizeof (HwGhost));
  double plain = ink (ghosts, -1);

  g_assert_cmpfloat (ink (none, -1), ==, 0);
  g_assert_cmpfloat (plain, >, 1000);
  for (guint i = 0; i < ghosts->len; i++)
    g_assert_cmpfloat (ink (ghosts, (int)i), >, 1.1 * plain);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/workbench/canvas-ghosts/" #test, test)
  ADD (the_way_it_lies_is_not_offered);
  ADD (a_label_says_which_way_it_is_turned);
  ADD (where_nothing_can_change_none_is_offered);
  ADD (the_same_offer_is_known_again);
  g_test_add_data_func ("/workbench/canvas-ghosts/each_has_a_label_near", &near, each_has_a_label_to_press);
  g_test_add_data_func ("/workbench/canvas-ghosts/each_has_a_label_far_off", &far_off,
                        each_has_a_label_to_press);
  g_test_add_data_func ("/workbench/canvas-ghosts/each_has_a_label_in_a_corner", &corner,
                        each_has_a_label_to_press);
  ADD (a_line_is_pressed_beside_its_label);
  ADD (the_one_under_the_pointer_stands_out);
  return g_test_run ();
}
