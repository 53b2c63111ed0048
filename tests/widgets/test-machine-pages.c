/* The pages at the machine: a hooping of one motif has words of its own, marks that changed places are told from others, stitches and what was stitched before are seen, and the page
 * has larger letters where there is room. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "window-fixture.h"
#include "workbench/machine-private.h"
#include "workbench/machine-view.h"

typedef struct
{
  Desk desk;
  HwMachineView *view;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  desk_set_up (&f->desk, NULL);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  desk_tear_down (&f->desk, NULL);
}

static void
begin (Fixture *f, guint hooping)
{
  GtkWidget *view;

  g_assert_true (hw_bench_begin_hooping (f->desk.bench, hooping));
  wait_for_plan (f->desk.bench);
  view = hw_machine_view_new (f->desk.bench);
  gtk_widget_set_size_request (view, 1180, 740);
  gtk_window_set_child (f->desk.parent, view);
  f->desk.dialog = f->desk.parent;
  f->view = HW_MACHINE_VIEW (view);
  hands_settle ();
  hands_frame (view);
}

static void
go_to (Fixture *f, HwWorkStep step)
{
  hw_bench_go_to_step (f->desk.bench, step);
  hands_settle ();
  hands_frame (GTK_WIDGET (f->view));
}

static const HwWork *
work (Fixture *f)
{
  return hw_bench_get_begun (f->desk.bench)->work;
}

/* Of one motif it is said as of one. */
static void
one_template_is_one (Fixture *f, gconstpointer data)
{
  begin (f, 1);
  go_to (f, HW_WORK_TEMPLATE_OFF);
  hands_says (f->view, "TAKE THE TEMPLATE OFF");
  GtkWidget *check = GTK_WIDGET (f->view->taken_off);
  g_assert_cmpstr (gtk_check_button_get_label (GTK_CHECK_BUTTON (check)), ==, "It is off the cloth");
  /* Enter does not tick unseen, and goes on only once it is ticked; unticked again it does not. */
  g_assert_false (hands_key (check, GDK_KEY_a, 0));
  g_assert_true (hands_key (check, GDK_KEY_Return, 0));
  g_assert_cmpint (work (f)->step, ==, HW_WORK_TEMPLATE_OFF);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
  g_assert_true (gtk_widget_is_sensitive (f->view->next));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), FALSE);
  g_assert_false (gtk_widget_is_sensitive (f->view->next));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
  g_assert_true (hands_key (check, GDK_KEY_KP_Enter, 0));
  g_assert_cmpint (work (f)->step, ==, HW_WORK_STITCH);
}

static void
several_templates_are_several (Fixture *f, gconstpointer data)
{
  begin (f, 0);
  go_to (f, HW_WORK_TEMPLATE_OFF);
  hands_says (f->view, "TAKE ALL TEMPLATES OFF");
  g_assert_cmpstr (gtk_check_button_get_label (GTK_CHECK_BUTTON (f->view->taken_off)), ==,
                   "They are all off the cloth");
}

static GtkWidget *
entry (Fixture *f, guint mark, gboolean along)
{
  const HwPin *pin = hw_bench_get_begun (f->desk.bench);
  g_autofree char *name = g_strdup_printf (along ? "Mark %s, away or towards you" : "Mark %s, right or left",
                                           pin->marks[mark].letter);

  return hands_find (f->view, GTK_TYPE_ENTRY, name);
}

static void
type (Fixture *f, guint mark, HwPoint at)
{
  double parts[2] = { at.x, at.y };

  for (guint way = 0; way < 2; way++)
    {
      GtkWidget *field = entry (f, mark, way == 1);
      g_autofree char *text = g_strdup_printf (
          "%.2f %c", fabs (parts[way]), way == 0 ? (parts[0] < 0 ? 'l' : 'r') : (parts[1] < 0 ? 'a' : 't'));

      gtk_widget_grab_focus (field);
      hands_type (field, text);
    }
}

/* Marks that were taken one for the other are told of, and exchanged by one key; after the last figure Enter leads on. */
static void
marks_taken_for_each_other_are_exchanged (Fixture *f, gconstpointer data)
{
  HwPoint at[2];

  g_assert_true (hw_bench_one_more_mark (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  begin (f, 0);
  go_to (f, HW_WORK_READ);
  for (guint i = 0; i < 2; i++)
    at[i] = hw_machine_work_mark (f->view->work, i);
  HwPoint third = hw_machine_work_mark (f->view->work, 2);
  type (f, 0, at[1]);
  g_assert_cmpstr (f->view->mark, ==, hw_bench_get_begun (f->desk.bench)->marks[1].letter);
  type (f, 1, at[0]);
  type (f, 2, third);
  g_assert_true (hw_machine_readings_are_doubtful (f->view));
  /* The question has the keyboard. */
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (f->desk.parent));
  g_assert_true (focus != NULL && gtk_widget_is_ancestor (focus, f->view->question));
  hands_click (f->view, "Exchange the two (X)");
  g_assert_false (hw_machine_readings_are_doubtful (f->view));
  for (guint i = 0; i < 2; i++)
    g_assert_cmpfloat (hw_point_distance (work (f)->readings[i].at, at[i]), <, 0.02);
  g_assert_true (gtk_root_get_focus (GTK_ROOT (f->desk.parent)) == f->view->next);
}

/* Where inches are said, millimetres typed are taken back to that. */
static void
millimetres_where_inches_are_said (Fixture *f, gconstpointer data)
{
  hw_bench_set_unit (f->desk.bench, HW_UNIT_INCH);
  begin (f, 0);
  go_to (f, HW_WORK_READ);
  for (guint i = 0; i < hw_bench_get_begun (f->desk.bench)->n_marks; i++)
    {
      HwPoint at = hw_machine_work_mark (f->view->work, i);

      hw_bench_set_reading (f->desk.bench, hw_bench_get_begun (f->desk.bench)->marks[i].letter,
                            (HwPoint){ 25.4 * at.x, 25.4 * at.y });
    }
  hands_settle ();
  hands_click (f->view, "They are millimetres (X)");
  for (guint i = 0; i < work (f)->n_readings; i++)
    g_assert_cmpfloat (hw_point_distance (work (f)->readings[i].at, hw_machine_work_mark (f->view->work, i)),
                       <, 0.01);
  g_assert_true (gtk_widget_is_sensitive (f->view->next));
}

/* How many figures there are to enter. */
static guint
figures (GtkWidget *widget)
{
  guint n = gtk_widget_has_css_class (widget, "machine-figure") && gtk_widget_get_mapped (widget);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += figures (child);
  return n;
}

/* Cloth that is off one way only gives one figure: nothing of nought is entered. */
static void
only_what_is_off_is_entered (Fixture *f, gconstpointer data)
{
  begin (f, 0);
  go_to (f, HW_WORK_READ);
  for (guint i = 0; i < hw_bench_get_begun (f->desk.bench)->n_marks; i++)
    {
      HwPoint at = hw_machine_work_mark (f->view->work, i);

      hw_bench_set_reading (f->desk.bench, hw_bench_get_begun (f->desk.bench)->marks[i].letter,
                            (HwPoint){ at.x + 2, at.y });
    }
  go_to (f, HW_WORK_ENTER);
  hands_says (f->view, "2.0 mm right");
  g_assert_cmpuint (figures (GTK_WIDGET (f->view)), ==, 1);
}

static guint
apart (cairo_surface_t *a, cairo_surface_t *b)
{
  guint n = 0;

  for (int y = 0; y < cairo_image_surface_get_height (a); y++)
    for (int x = 0; x < cairo_image_surface_get_width (a); x++)
      n += (hands_row (a, y)[x] & 0xffffff) != (hands_row (b, y)[x] & 0xffffff);
  return n;
}

/* The picture goes dark with the desktop, and comes back as it was. */
static void
the_picture_is_dark_as_the_desktop_is (Fixture *f, gconstpointer data)
{
  begin (f, 0);
  for (guint i = 0; i < 2; i++)
    {
      go_to (f, i == 0 ? HW_WORK_MARK : HW_WORK_STITCH);
      cairo_surface_t *light = hands_picture (f->view->picture);
      g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", TRUE, NULL);
      hands_frame (f->view->picture);
      cairo_surface_t *dark = hands_picture (f->view->picture);
      g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", FALSE, NULL);
      hands_frame (f->view->picture);
      cairo_surface_t *again = hands_picture (f->view->picture);
      g_assert_cmpuint (apart (light, dark), >, 300);
      g_assert_cmpuint (apart (light, again), ==, 0);
      cairo_surface_destroy (light);
      cairo_surface_destroy (dark);
      cairo_surface_destroy (again);
    }
}

/* What was stitched before, where the frame reaches, and the thread that is stitched now are seen in the picture. */
static void
what_is_stitched_is_seen (Fixture *f, gconstpointer data)
{
  g_autoptr (HwEdgeLine) edge = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 20, 20, 580, 380 }, 0, 5);
  cairo_surface_t *before, *after;

  hw_scene_set_edge_line (hw_bench_get_scene (f->desk.bench), edge);
  bench_add_stitched (f->desk.bench, "Sloe", 170, 150);
  wait_for_plan (f->desk.bench);
  hw_bench_select_only (f->desk.bench, "m3");
  hw_bench_nudge (f->desk.bench, -290, 60);
  wait_for_plan (f->desk.bench);
  g_assert_true (hw_bench_mark_stitched (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  begin (f, 1);
  before = hands_picture (f->view->picture);
  go_to (f, HW_WORK_STITCH);
  hands_key (GTK_WIDGET (f->view), GDK_KEY_Return, 0);
  hands_frame (f->view->picture);
  after = hands_picture (f->view->picture);
  g_assert_cmpuint (apart (before, after), >, 300);
  cairo_surface_destroy (before);
  cairo_surface_destroy (after);
}

/* On a large screen the letters are larger. */
static void
with_room_the_letters_are_larger (Fixture *f, gconstpointer data)
{
  begin (f, 0);
  g_assert_false (gtk_widget_has_css_class (GTK_WIDGET (f->view), "roomy"));
  gtk_widget_set_size_request (GTK_WIDGET (f->view), 1800, 1000);
  room_until (gtk_widget_has_css_class (GTK_WIDGET (f->view), "roomy"));
  gtk_widget_set_size_request (GTK_WIDGET (f->view), 1000, 600);
  gtk_window_set_default_size (f->desk.parent, 1000, 600);
  room_until (!gtk_widget_has_css_class (GTK_WIDGET (f->view), "roomy"));
  /* In a small window the picture makes room for the words. */
  gtk_widget_set_size_request (GTK_WIDGET (f->view), 320, 400);
  gtk_window_set_default_size (f->desk.parent, 320, 400);
  room_until (!gtk_widget_get_child_visible (f->view->picture));
  hands_says (f->view, "Draw or check on the cloth");
}

/* Between hoopings the whole cloth is seen, with what is done and what is next. */
static void
between_hoopings_the_whole_is_seen (Fixture *f, gconstpointer data)
{
  cairo_surface_t *before, *after;

  bench_add_stitched (f->desk.bench, "Sloe", 350, 200);
  wait_for_plan (f->desk.bench);
  begin (f, 0);
  hw_bench_lay_aside (f->desk.bench);
  wait_for_plan (f->desk.bench);
  hands_settle ();
  before = hands_picture (f->view->picture);
  g_assert_true (hw_bench_mark_stitched (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  hands_settle ();
  after = hands_picture (f->view->picture);
  g_assert_cmpuint (apart (before, after), >, 300);
  cairo_surface_destroy (before);
  cairo_surface_destroy (after);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/machine-pages/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (one_template_is_one);
  ADD (several_templates_are_several);
  ADD (marks_taken_for_each_other_are_exchanged);
  ADD (millimetres_where_inches_are_said);
  ADD (only_what_is_off_is_entered);
  ADD (the_picture_is_dark_as_the_desktop_is);
  ADD (what_is_stitched_is_seen);
  ADD (with_room_the_letters_are_larger);
  ADD (between_hoopings_the_whole_is_seen);
  return g_test_run ();
}
