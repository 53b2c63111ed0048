/* What the table shows: in the dark and with more contrast, what the pointer is over in words, marks that cannot serve, other ways to hoop; and that a picture made of what was
 * there before is the one that would be drawn anew. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "table-fixture.h"
#include "workbench/canvas-ghosts.h"
#include "planning/marks.h"
#include "workbench/canvas-marks.h"

static void
point_at (Table *table, HwPoint pixel)
{
  g_signal_emit_by_name (hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_EVENT_CONTROLLER_MOTION),
                         "motion", pixel.x, pixel.y);
  hands_settle ();
}

static cairo_surface_t *
picture (Table *table)
{
  return hands_picture (GTK_WIDGET (table->canvas));
}

/* How many pixels of the two are more than a shade apart. */
static guint
apart (cairo_surface_t *a, cairo_surface_t *b)
{
  guint n = 0;

  for (int y = 0; y < cairo_image_surface_get_height (a); y++)
    {
      const guint32 *p = hands_row (a, y), *q = hands_row (b, y);

      for (int x = 0; x < cairo_image_surface_get_width (a); x++)
        for (guint shift = 0; shift < 24; shift += 8)
          if (ABS ((int)(p[x] >> shift & 0xff) - (int)(q[x] >> shift & 0xff)) > 12)
            {
              n++;
              break;
            }
    }
  return n;
}

/* How light it is on the whole, 0 to 255. */
static double
lightness (cairo_surface_t *a)
{
  double sum = 0;
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a);

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      sum += hands_row (a, y)[x] >> 8 & 0xff;
  return sum / width / height;
}

static void
settle (Table *table)
{
  hands_settle ();
  while (hw_motif_pictures_is_busy (table->canvas->pictures))
    g_main_context_iteration (NULL, TRUE);
  hands_frame (GTK_WIDGET (table->canvas));
}

static void
theme (Table *table, const char *name, gboolean dark)
{
  g_object_set (gtk_settings_get_default (), "gtk-theme-name", name, "gtk-application-prefer-dark-theme",
                dark, NULL);
  settle (table);
}

/* Everything that is drawn: a hooping chosen with its marks and the other ways to hoop, a motif selected, one that cannot be sewn. */
static void
lay_out_much (Table *table)
{
  g_autoptr (HwEdgeLine) edge = hw_edge_line_new_shape (HW_EDGE_ROUNDED, (HwBox){ 20, 20, 580, 380 }, 25, 5);

  hw_scene_set_edge_line (hw_bench_get_scene (table->bench), edge);
  hw_bench_select_only (table->bench, "m3");
  hw_bench_nudge (table->bench, 0, -90);
  wait_for_plan (table->bench);
  hw_bench_choose_hooping (table->bench, 0);
  hw_bench_select_only (table->bench, "m3");
  settle (table);
}

/* The table goes dark with the desktop; with more contrast lines are stronger, in both. */
static void
it_is_dark_and_clear_as_the_desktop_is (Table *table, gconstpointer data)
{
  cairo_surface_t *framed, *light, *dark, *clear, *clear_dark;

  lay_out_much (table);
  gtk_widget_grab_focus (GTK_WIDGET (table->canvas));
  gtk_window_set_focus_visible (table->window, TRUE);
  framed = picture (table);
  gtk_window_set_focus_visible (table->window, FALSE); /* GTK does so by itself after three seconds */
  light = picture (table);
  g_assert_cmpuint (apart (framed, light), >, 3000);
  theme (table, "Default", TRUE);
  g_assert_true (table->canvas->dark);
  dark = picture (table);
  g_assert_cmpfloat (lightness (dark), <, lightness (light) - 20);
  theme (table, "Default-hc", FALSE);
  g_assert_true (table->canvas->clear);
  g_assert_false (table->canvas->dark);
  clear = picture (table);
  g_assert_cmpuint (apart (light, clear), >, 3000);
  theme (table, "Default-hc", TRUE);
  clear_dark = picture (table);
  g_assert_cmpfloat (lightness (clear_dark), <, lightness (clear) - 20);
  theme (table, "Default", FALSE);
  cairo_surface_t *again = picture (table);
  g_assert_cmpuint (apart (light, again), ==, 0);
  cairo_surface_destroy (framed);
  cairo_surface_destroy (light);
  cairo_surface_destroy (dark);
  cairo_surface_destroy (clear);
  cairo_surface_destroy (clear_dark);
  cairo_surface_destroy (again);
}

/* Letters as large as the desktop's; the rest keeps its measure. */
static void
its_letters_are_as_large_as_the_desktops (Table *table, gconstpointer data)
{
  int dpi;
  cairo_surface_t *before, *after, *again;

  lay_out_much (table);
  before = picture (table);
  g_object_get (gtk_settings_get_default (), "gtk-xft-dpi", &dpi, NULL);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", dpi * 3 / 2, NULL);
  settle (table);
  after = picture (table);
  g_assert_cmpuint (apart (before, after), >, 200);
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", dpi, NULL);
  settle (table);
  again = picture (table);
  g_assert_cmpuint (apart (before, again), ==, 0);
  cairo_surface_destroy (before);
  cairo_surface_destroy (after);
  cairo_surface_destroy (again);
}

/* A ring shows that the keyboard is at the table. */
static void
the_keyboard_is_seen_to_be_there (Table *table, gconstpointer data)
{
  cairo_surface_t *without, *with;

  gtk_widget_grab_focus (GTK_WIDGET (table->canvas));
  gtk_window_set_focus_visible (table->window, FALSE);
  settle (table);
  without = picture (table);
  gtk_window_set_focus_visible (table->window, TRUE);
  settle (table);
  with = picture (table);
  g_assert_cmpuint (apart (without, with), >, 2 * 600); /* two px and more all round */
  cairo_surface_destroy (without);
  cairo_surface_destroy (with);
}

static HwPoint
mark_pixel (Table *table, guint mark)
{
  g_autoptr (GArray) marks = hw_canvas_marks (table->canvas);

  g_assert_cmpuint (mark, <, marks->len);
  return hw_view_to_pixels (&table->canvas->view, g_array_index (marks, HwCanvasMark, mark).at);
}

static void
choose_near (Table *table, int hooping)
{
  hw_bench_choose_hooping (table->bench, hooping);
  hw_canvas_set_place (table->canvas, (HwPoint){ 125, 110 }, 3.2);
  settle (table);
}

/* How much more there is to be seen with the pointer at the pixel than with it away. */
static guint
told_at (Table *table, HwPoint pixel)
{
  cairo_surface_t *before, *after, *away;
  HwPoint bare = { 60, 660 };
  guint n;

  point_at (table, bare);
  settle (table);
  before = picture (table);
  point_at (table, pixel);
  settle (table);
  after = picture (table);
  n = apart (before, after);
  point_at (table, bare);
  settle (table);
  away = picture (table);
  g_assert_cmpuint (apart (before, away), ==, 0);
  cairo_surface_destroy (before);
  cairo_surface_destroy (after);
  cairo_surface_destroy (away);
  return n;
}

/* A mark under the pointer tells on a slip what it is, and the slip goes with the pointer: chosen by the plan, held, stitched. */
static void
a_mark_says_what_it_is (Table *table, gconstpointer data)
{
  choose_near (table, 0);
  guint chosen = told_at (table, mark_pixel (table, 0));
  g_assert_cmpuint (chosen, >, 1500);
  hw_bench_hold_mark (table->bench, 0, 0);
  wait_for_plan (table->bench);
  settle (table);
  g_assert_cmpuint (told_at (table, mark_pixel (table, 0)), >, 1000);
  hw_bench_let_go_all_marks (table->bench);
  wait_for_plan (table->bench);
  g_assert_true (hw_bench_mark_stitched (table->bench, 0));
  wait_for_plan (table->bench);
  choose_near (table, 0);
  g_assert_cmpuint (told_at (table, mark_pixel (table, 0)), >, 1000);
}

/* A place near the hooping where a mark can serve, or cannot. */
static HwPoint
place_that (Table *table, gboolean serves)
{
  for (double y = 40; y <= 180; y += 5)
    for (double x = 60; x <= 190; x += 5)
      {
        HwPoint at = { x, y };
        g_autofree char *why = hw_marks_why_not (hw_bench_get_plan (table->bench), 0, at, HW_UNIT_MM);

        if ((why == NULL) == serves)
          return at;
      }
  g_assert_not_reached ();
}

/* A mark held where it cannot serve: it is red, and so is what it says. */
static void
a_mark_that_cannot_serve_is_red (Table *table, gconstpointer data)
{
  guint before, after;

  choose_near (table, 0);
  before = hands_reddish (GTK_WIDGET (table->canvas));
  hw_bench_hold_mark (table->bench, 0, 0);
  wait_for_plan (table->bench);
  hw_bench_move_mark (table->bench, 0, 0, place_that (table, FALSE));
  wait_for_plan (table->bench);
  choose_near (table, 0);
  g_autoptr (GArray) marks = hw_canvas_marks (table->canvas);
  int bad = -1;
  for (guint i = 0; i < marks->len; i++)
    if (!g_array_index (marks, HwCanvasMark, i).serves)
      bad = (int)i;
  g_assert_cmpint (bad, >=, 0);
  after = hands_reddish (GTK_WIDGET (table->canvas));
  g_assert_cmpuint (after, >, before);
  g_assert_cmpuint (told_at (table, mark_pixel (table, (guint)bad)), >, 1000);
}

/* Where placing is off by more than one allows it is told in red. */
static void
placing_that_is_off_by_too_much_is_red (Table *table, gconstpointer data)
{
  guint before, after;

  choose_near (table, 0);
  before = hands_reddish (GTK_WIDGET (table->canvas));
  hw_bench_set_limits (table->bench, hw_scene_get_wishes (hw_bench_get_scene (table->bench))->density_limit,
                       0.05);
  wait_for_plan (table->bench);
  settle (table);
  after = hands_reddish (GTK_WIDGET (table->canvas));
  g_assert_cmpuint (after, >, before + 50);
}

/* Pulled to where it could not serve, a mark says why, before it is let go. */
static void
a_pulled_mark_says_why_it_cannot_serve (Table *table, gconstpointer data)
{
  guint before, over;
  HwPoint from;

  choose_near (table, 0);
  HwPoint good = place_that (table, TRUE), bad = place_that (table, FALSE);
  from = mark_pixel (table, 0);
  hw_drag_press (table->canvas, from, 0, FALSE);
  hw_drag_motion (table->canvas, (HwPoint){ from.x + 10, from.y }, 0);
  hw_drag_motion (table->canvas, table_pixel (table, good.x, good.y), 0);
  settle (table);
  before = hands_reddish (GTK_WIDGET (table->canvas));
  hw_drag_motion (table->canvas, table_pixel (table, bad.x, bad.y), 0);
  settle (table);
  over = hands_reddish (GTK_WIDGET (table->canvas));
  g_assert_cmpuint (over, >, before + 100);
  hw_drag_cancel (table->canvas);
}

/* Whether what is on the screen is what would be drawn if nothing were kept. */
static void
assert_as_drawn_anew (Table *table, guint most)
{
  cairo_surface_t *kept, *anew;

  settle (table);
  kept = picture (table);
  hw_sheet_forget (table->canvas);
  hw_canvas_spoil (table->canvas, HW_ALL_LAYERS);
  settle (table);
  anew = picture (table);
  g_assert_cmpuint (apart (kept, anew), <=, most);
  cairo_surface_destroy (kept);
  cairo_surface_destroy (anew);
}

static void
until_at_rest (Table *table)
{
  while (table->canvas->rest != 0)
    g_main_context_iteration (NULL, TRUE);
  settle (table);
}

static void
pan (Table *table, double dx, double dy)
{
  HwView view = table->canvas->view;

  view.x += dx;
  view.y += dy;
  hw_canvas_set_view (table->canvas, &view);
  settle (table);
}

/* While one pans or zooms, what was drawn is shifted and stretched; at rest nobody can tell. */
static void
panned_and_zoomed_it_is_as_drawn_anew (Table *table, gconstpointer data)
{
  static const double there[][2]
      = { { 40, 0 }, { -90, 30 }, { 0, -70 }, { 33.3, 12.7 }, { 2000, 0 }, { -2000, 0 } };
  static const double zooms[] = { 1.2, 1.2, 1.3, 0.9, 1.6, 2.2, 0.5, 0.3, 0.8, 3, 0.25 };

  hw_canvas_zoom_by (table->canvas, 2);
  until_at_rest (table);
  for (guint i = 0; i < G_N_ELEMENTS (there); i++)
    pan (table, there[i][0], there[i][1]);
  until_at_rest (table);
  assert_as_drawn_anew (table, 0);
  for (guint i = 0; i < G_N_ELEMENTS (zooms); i++)
    {
      hw_canvas_zoom_by (table->canvas, zooms[i]);
      settle (table);
      pan (table, 25, -15);
    }
  until_at_rest (table);
  assert_as_drawn_anew (table, 0);
  hw_canvas_zoom_fit (table->canvas);
  until_at_rest (table);
  assert_as_drawn_anew (table, 0);
}

static void
until_gliding (Table *table)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (table->canvas->glide == NULL)
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
    }
}

/* With motion wanted, footprints glide to where another plan of the same scene has them, those that come and go fade; at the end everything lies as planned. */
static void
hoopings_glide_where_motion_is_wanted (Table *table, gconstpointer data)
{
  static const char *const pair[] = { "m1", "m2", NULL };
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  /* The table has drawn a plan that came while it was there. */
  hw_bench_select_only (table->bench, "m3");
  hw_bench_nudge (table->bench, 0, 10);
  wait_for_plan (table->bench);
  hw_bench_select_ids (table->bench, pair);
  settle (table);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", TRUE, NULL);
  hw_bench_keep_apart (table->bench);
  until_gliding (table);
  hands_frame (GTK_WIDGET (table->canvas));
  wait_for_plan (table->bench);
  g_assert_cmpuint (hw_bench_get_plan (table->bench)->n_hoopings, ==, 3);
  while (table->canvas->glide != NULL)
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, TRUE);
    }
  assert_as_drawn_anew (table, 0);
  hw_bench_undo (table->bench);
  until_gliding (table);
  hands_frame (GTK_WIDGET (table->canvas));
  /* The hand is not disturbed by it. */
  table_pull (table, (HwPoint){ 550, 100 }, (HwPoint){ 10, 10 }, GDK_CONTROL_MASK);
  hands_frame (GTK_WIDGET (table->canvas));
  hands_frame (GTK_WIDGET (table->canvas));
  g_assert_null (table->canvas->glide);
  hw_drag_cancel (table->canvas);
  wait_for_plan (table->bench);
  /* Without the wish nothing glides. */
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  hw_bench_select_ids (table->bench, pair);
  hw_bench_keep_apart (table->bench);
  wait_for_plan (table->bench);
  g_assert_cmpuint (hw_bench_get_plan (table->bench)->n_hoopings, ==, 3);
  g_assert_null (table->canvas->glide);
}

/* Other ways to hoop are offered with their turn; the one under the pointer is seen more strongly, and a click takes it. */
static void
another_way_to_hoop_is_seen_and_taken (Table *table, gconstpointer data)
{
  GArray *ghosts;

  /* So that the hoop has to lie askew, to one side or the other. */
  hw_bench_select_only (table->bench, "m2");
  hw_bench_nudge (table->bench, 45, 95);
  wait_for_plan (table->bench);
  hw_bench_select_only (table->bench, NULL);
  hw_bench_choose_hooping (table->bench, 0);
  settle (table);
  ghosts = table->canvas->ghosts;
  g_assert_nonnull (ghosts);
  g_assert_cmpuint (ghosts->len, >, 0);
  gboolean turned = FALSE;
  for (guint i = 0; i < ghosts->len; i++)
    {
      const char *label = g_array_index (ghosts, HwGhost, i).label;

      turned = turned || strstr (label, "clockwise") != NULL;
    }
  g_assert_true (turned);
  /* Looked for along the table, as a hand would. */
  HwPoint at = { 0, 0 };
  for (double y = 30; y < 690 && table->canvas->hover_ghost < 0; y += 6)
    for (double x = 30; x < 890 && table->canvas->hover_ghost < 0; x += 6)
      {
        at = (HwPoint){ x, y };
        point_at (table, at);
      }
  g_assert_cmpint (table->canvas->hover_ghost, >=, 0);
  const HwPose pose
      = g_array_index (table->canvas->ghosts, HwGhost, table->canvas->hover_ghost).candidate.pose;
  cairo_surface_t *over = picture (table);
  point_at (table, (HwPoint){ 60, 660 });
  settle (table);
  cairo_surface_t *away = picture (table);
  g_assert_cmpuint (apart (over, away), >, 100);
  cairo_surface_destroy (over);
  cairo_surface_destroy (away);
  /* The same plan said again offers the same. */
  g_signal_emit_by_name (table->bench, "plan-changed");
  g_assert_cmpuint (table->canvas->ghosts->len, >, 0);
  hw_drag_press (table->canvas, at, 0, FALSE);
  hw_drag_release (table->canvas);
  wait_for_plan (table->bench);
  const HwHooping *hooping = &hw_bench_get_plan (table->bench)->hoopings[0];
  g_assert_cmpfloat (fabs (remainder (hooping->angle - pose.angle, 180)), <, 0.1);
}

/* A sign of trouble tells in words what it is about while the pointer is over it. */
static void
a_sign_says_what_is_wrong (Table *table, gconstpointer data)
{
  hw_bench_select_only (table->bench, "m3");
  hw_bench_nudge (table->bench, 0, -90);
  hw_bench_select_only (table->bench, "m1");
  hw_bench_nudge (table->bench, 300, 0);
  hw_bench_begin_edit (table->bench, "enlarge", FALSE);
  HwSceneMotif *plum = hw_scene_find_motif (hw_bench_get_scene (table->bench), "m2");
  HwPlacement large = hw_scene_motif_get_record (plum)->placement;
  large.scale = 6; /* no hoop takes that */
  hw_scene_motif_set_placement (plum, &large);
  hw_bench_end_edit (table->bench);
  wait_for_plan (table->bench);
  hw_bench_select_only (table->bench, NULL);
  hw_canvas_zoom_fit (table->canvas);
  settle (table);
  g_assert_cmpuint (hw_signs_count (table->canvas->signs), >, 0);
  guint said = 0;
  for (guint i = 0; i < hw_signs_count (table->canvas->signs); i++)
    said += told_at (table, hw_signs_at (table->canvas->signs, i)) > 500;
  g_assert_cmpuint (said, ==, hw_signs_count (table->canvas->signs));
}

/* On a stage of the course what is not stitched yet lies as its paper template, that of the hooping at work more strongly; what was stitched is there as stitches. */
static void
on_a_stage_motifs_lie_as_templates (Table *table, gconstpointer data)
{
  cairo_surface_t *stages[4];

  bench_add_stitched (table->bench, "Sloe", 320, 200);
  hw_bench_select_only (table->bench, NULL);
  wait_for_plan (table->bench);
  g_assert_cmpuint (hw_bench_get_plan (table->bench)->n_hoopings, ==, 3);
  settle (table);
  for (int stage = -1; stage < 3; stage++)
    {
      hw_bench_set_stage (table->bench, stage);
      settle (table);
      stages[stage + 1] = picture (table);
      for (guint i = 0; i < table->canvas->cast->len; i++)
        {
          int hooping = hw_canvas_hooping_of (table->canvas, i);

          g_assert_cmpint (hw_canvas_template_of (table->canvas, i), ==,
                           stage < 0 || hooping < stage ? HW_TEMPLATE_SHOWN_NOT
                           : hooping == stage           ? HW_TEMPLATE_SHOWN_NEXT
                                                        : HW_TEMPLATE_SHOWN_LATER);
        }
    }
  for (guint i = 0; i < 3; i++)
    g_assert_cmpuint (apart (stages[i], stages[i + 1]), >, 500);
  assert_as_drawn_anew (table, 0);
  theme (table, "Default", TRUE);
  cairo_surface_t *dark = picture (table);
  g_assert_cmpfloat (lightness (dark), <, lightness (stages[3]) - 10);
  theme (table, "Default", FALSE);
  cairo_surface_destroy (dark);
  for (guint i = 0; i < 4; i++)
    cairo_surface_destroy (stages[i]);
  hw_bench_set_stage (table->bench, -1);
}

/* Footprints, marks, order and density are each drawn or not, and nothing else with them. */
static void
each_layer_is_shown_or_not (Table *table, gconstpointer data)
{
  static const char *const layers[] = { "show-hoopings", "show-marks", "show-order", "show-density" };
  cairo_surface_t *before, *after;

  bench_add_stitched (table->bench, "Sloe", 320, 200);
  wait_for_plan (table->bench);
  hw_bench_select_only (table->bench, NULL);
  hw_bench_choose_hooping (table->bench, 0);
  settle (table);
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++)
    {
      gboolean shown;

      before = picture (table);
      g_object_get (table->canvas, layers[i], &shown, NULL);
      g_object_set (table->canvas, layers[i], !shown, NULL);
      settle (table);
      after = picture (table);
      if (apart (before, after) < 50)
        g_error ("“%s” changes nothing", layers[i]);
      cairo_surface_destroy (after);
      g_object_set (table->canvas, layers[i], shown, NULL);
      settle (table);
      after = picture (table);
      g_assert_cmpuint (apart (before, after), ==, 0);
      cairo_surface_destroy (after);
      cairo_surface_destroy (before);
    }
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/table-looks/" #test, Table, NULL, table_set_up, test, table_tear_down)
  ADD (it_is_dark_and_clear_as_the_desktop_is);
  ADD (its_letters_are_as_large_as_the_desktops);
  ADD (the_keyboard_is_seen_to_be_there);
  ADD (a_mark_says_what_it_is);
  ADD (a_mark_that_cannot_serve_is_red);
  ADD (placing_that_is_off_by_too_much_is_red);
  ADD (a_pulled_mark_says_why_it_cannot_serve);
  ADD (panned_and_zoomed_it_is_as_drawn_anew);
  ADD (hoopings_glide_where_motion_is_wanted);
  ADD (another_way_to_hoop_is_seen_and_taken);
  ADD (a_sign_says_what_is_wrong);
  ADD (on_a_stage_motifs_lie_as_templates);
  ADD (each_layer_is_shown_or_not);
  return g_test_run ();
}
