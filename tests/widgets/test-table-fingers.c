/* The table under a wheel, a touchpad and a finger held down, as its controllers report them; and a table on which nothing lies yet. */
#include <math.h>

#include "table-fixture.h"

static GtkEventController *
controller (Table *table, GType type)
{
  return hands_controller (GTK_WIDGET (table->canvas), type);
}

/* By notches, or by parts of one. */
static void
scroll (Table *table, double dx, double dy)
{
  gboolean taken = FALSE;

  g_signal_emit_by_name (controller (table, GTK_TYPE_EVENT_CONTROLLER_SCROLL), "scroll", dx, dy, &taken);
  g_assert_true (taken);
}

static void
point_at (Table *table, double x, double y)
{
  g_signal_emit_by_name (controller (table, GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion", x, y);
}

/* Where on the cloth a pixel is. */
static HwPoint
cloth_at (Table *table, double x, double y)
{
  return hw_view_to_cloth (&table->canvas->view, (HwPoint){ x, y });
}

static void
assert_near (HwPoint a, HwPoint b)
{
  g_assert_cmpfloat (hw_point_distance (a, b), <, 1);
}

static void
a_wheel_zooms_where_the_pointer_is (Table *table, gconstpointer data)
{
  HwPoint before;
  double zoom = table->canvas->view.zoom;

  point_at (table, 500, 300);
  before = cloth_at (table, 500, 300);
  scroll (table, 0, -1);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, 1.15 * zoom, 1e-9);
  assert_near (cloth_at (table, 500, 300), before);
  scroll (table, 0, 1);
  g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, zoom, 1e-9);
}

static void
the_zoom_ends_somewhere (Table *table, gconstpointer data)
{
  point_at (table, 500, 300);
  scroll (table, 0, -200);
  g_assert_cmpfloat (table->canvas->view.zoom, ==, HW_VIEW_MAX_ZOOM);
  scroll (table, 0, 400);
  g_assert_cmpfloat (table->canvas->view.zoom, ==, HW_VIEW_MIN_ZOOM);
}

/* A part of a notch is a touchpad's: the cloth goes with the fingers. So does a wheel that is pushed aside. */
static void
a_touchpad_moves_the_cloth (Table *table, gconstpointer data)
{
  HwView before;

  point_at (table, 500, 300);
  scroll (table, 0, -3);
  before = table->canvas->view;
  scroll (table, 0.25, -0.5);
  g_assert_cmpfloat (table->canvas->view.zoom, ==, before.zoom);
  g_assert_cmpfloat (fabs (before.x - table->canvas->view.x - 15), <=, 1);
  g_assert_cmpfloat (fabs (table->canvas->view.y - before.y - 30), <=, 1);
  before = table->canvas->view;
  scroll (table, 0, 0.5);
  g_assert_cmpfloat (fabs (before.y - table->canvas->view.y - 30), <=, 1);
  before = table->canvas->view;
  scroll (table, 1, 0);
  g_assert_cmpfloat (fabs (before.x - table->canvas->view.x - 60), <=, 1);
  g_assert_cmpfloat (table->canvas->view.zoom, ==, before.zoom);
}

static void
a_long_press_asks_what_can_be_done (Table *table, gconstpointer data)
{
  HwPoint at = table_pixel (table, 550, 100);

  g_signal_emit_by_name (controller (table, GTK_TYPE_GESTURE_LONG_PRESS), "pressed", at.x, at.y);
  hands_settle ();
  g_assert_true (hw_bench_is_selected (table->bench, "m3"));
  g_assert_nonnull (table->canvas->menu);
  g_assert_true (gtk_widget_get_visible (table->canvas->menu));
}

/* Without a bench there is nothing to draw and nothing to take. */
static void
an_empty_table_takes_nothing_up (Table *table, gconstpointer data)
{
  static const char *const shown[] = { "show-hoopings", "show-marks", "show-order", "show-density" };
  HwCanvas *canvas = HW_CANVAS (g_object_new (HW_TYPE_CANVAS, NULL));
  Table bare = { .canvas = canvas, .window = hands_show (GTK_WIDGET (canvas), 300, 200) };
  HwBench *bench = NULL;
  gboolean is_shown = FALSE;

  g_object_get (canvas, "bench", &bench, NULL);
  g_assert_null (bench);
  point_at (&bare, 150, 100);
  g_signal_emit_by_name (controller (&bare, GTK_TYPE_GESTURE_LONG_PRESS), "pressed", 150.0, 100.0);
  g_signal_emit_by_name (controller (&bare, GTK_TYPE_GESTURE_CLICK), "pressed", 1, 150.0, 100.0);
  g_assert_null (canvas->menu);
  hw_canvas_zoom_fit (canvas);
  hw_canvas_zoom_true_size (canvas);
  g_assert_cmpuint (hands_reddish (GTK_WIDGET (canvas)), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (shown); i++)
    for (guint on = 0; on < 2; on++)
      {
        g_object_set (canvas, shown[i], on, NULL);
        g_object_get (canvas, shown[i], &is_shown, NULL);
        g_assert_cmpint (is_shown, ==, on);
      }
  hands_frame (GTK_WIDGET (canvas));

  g_object_set (canvas, "bench", table->bench, NULL);
  g_object_set (canvas, "bench", table->bench, NULL); /* once more changes nothing */
  g_object_get (canvas, "bench", &bench, NULL);
  g_assert_true (bench == table->bench);
  g_object_unref (bench);
  hw_canvas_zoom_fit (canvas);
  hands_frame (GTK_WIDGET (canvas));
  g_assert_cmpuint (canvas->cast->len, ==, 3);
  hw_canvas_set_bench (canvas, NULL);
  hands_frame (GTK_WIDGET (canvas));
  gtk_window_destroy (bare.window);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(name, function)                                                                                  \
  g_test_add ("/table-fingers/" name, Table, NULL, table_set_up, function, table_tear_down)
  ADD ("wheel", a_wheel_zooms_where_the_pointer_is);
  ADD ("ends", the_zoom_ends_somewhere);
  ADD ("touchpad", a_touchpad_moves_the_cloth);
  ADD ("long-press", a_long_press_asks_what_can_be_done);
  ADD ("empty", an_empty_table_takes_nothing_up);
  return g_test_run ();
}
