/* The course: walking along the string of beads shows the cloth as it will be, from the whole picture to the finished one. */
#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/course.h"

static GtkWidget *
put (Desk *desk)
{
  GtkWidget *course = hw_course_new (desk->bench);

  gtk_widget_set_size_request (course, 600, 90);
  gtk_window_set_child (desk->parent, course);
  desk->dialog = desk->parent;
  hands_frame (course);
  return course;
}

/* The keys are heard by the string of beads, somewhere within. */
static gboolean
key_within (GtkWidget *widget, guint key)
{
  if (hands_key (widget, key, 0))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (key_within (child, key))
      return TRUE;
  return FALSE;
}

static void
arrows_walk_and_stop_at_the_ends (Desk *desk, gconstpointer data)
{
  GtkWidget *course = put (desk);
  static const struct
  {
    guint key;
    int stage;
  } walk[] = { { GDK_KEY_Left, -1 }, { GDK_KEY_Right, 0 }, { GDK_KEY_Right, 1 }, { GDK_KEY_Right, 2 },
               { GDK_KEY_Right, 2 }, { GDK_KEY_Left, 1 },  { GDK_KEY_Home, -1 }, { GDK_KEY_End, 2 } };

  for (guint i = 0; i < G_N_ELEMENTS (walk); i++)
    {
      g_assert_true (key_within (course, walk[i].key));
      g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, walk[i].stage);
    }
  g_assert_false (key_within (course, GDK_KEY_Up));
}

static void
each_stage_is_told (Desk *desk, gconstpointer data)
{
  put (desk);
  desk_says (desk, "The whole picture, as you compose it");
  hw_bench_set_stage (desk->bench, 0);
  hands_settle ();
  desk_says (desk, "Stitched by then: 0 · now: 2 · still paper templates: 1");
  hw_bench_set_stage (desk->bench, 1);
  hands_settle ();
  desk_says (desk, "Stitched by then: 2 · now: 1 · still paper templates: 0");
  hw_bench_set_stage (desk->bench, 2);
  hands_settle ();
  desk_says (desk, "The finished picture");
  desk_says (desk, "Stitched by then: 3 · now: 0 · still paper templates: 0");
}

/* A second press on the same bead leads back to the whole picture. */
static void
a_bead_is_pressed_and_pressed_again (Desk *desk, gconstpointer data)
{
  GtkWidget *course = put (desk), *last;

  last = hands_find (course, GTK_TYPE_TOGGLE_BUTTON, "The finished picture");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (last), TRUE);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, 2);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (last), FALSE);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, -1);
}

/* Pressed and pulled along the string, beads are slid over; a little trembling is still a click. */
static void
the_pointer_slides_along_the_string (Desk *desk, gconstpointer data)
{
  GtkWidget *course = put (desk);
  GtkWidget *first = hands_find (course, GTK_TYPE_TOGGLE_BUTTON, "The whole picture, as you compose it");
  GtkWidget *last = hands_find (course, GTK_TYPE_TOGGLE_BUTTON, "The finished picture");
  double x0, x1, y;

  gtk_widget_translate_coordinates (first, course, gtk_widget_get_width (first) / 2.0,
                                    gtk_widget_get_height (first) / 2.0, &x0, &y);
  gtk_widget_translate_coordinates (last, course, gtk_widget_get_width (last) / 2.0, 0, &x1, &(double){ 0 });
  hands_pointer (course, "press", x1, y);
  hands_pointer (course, "move", x1 - 3, y);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, -1);
  hands_pointer (course, "release", x1 - 3, y);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, 2);
  hw_bench_set_stage (desk->bench, -1);
  hands_pointer (course, "press", x0, y);
  hands_pointer (course, "move", x0 + 3, y);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, -1);
  hands_pointer (course, "move", (x0 + x1) / 2 - 8, y);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, 0);
  hands_pointer (course, "move", x1, y);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, 2);
  hands_pointer (course, "release", x1, y);
  g_assert_cmpint (hw_bench_get_stage (desk->bench), ==, 2);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/course/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (arrows_walk_and_stop_at_the_ends);
  ADD (each_stage_is_told);
  ADD (a_bead_is_pressed_and_pressed_again);
  ADD (the_pointer_slides_along_the_string);
  return g_test_run ();
}
