/* What a frame of the canvas costs: one of many large motifs is dragged, turned, and the cloth panned and zoomed, in a real window. For
 * each the CPU time the main thread spends on a frame, from the pointer's motion to the painted window, and the frames a second.
 *
 * bench-canvas [MOTIFS [STITCHES [WIDTH HEIGHT [PHOTO]]]]   (200 motifs of 20,000 stitches in 1280 x 800 and 1920 x 1080; PHOTO: a picture
 * file that lies under them, put square) */
#include <math.h>
#include <stdlib.h>
#include <time.h>

#include <gtk/gtk.h>

#include "../../src/workbench/canvas-private.h"
#include "../../src/workbench/canvas-photo.h"

#define FRAMES 180
#define SPACING 70.0 /* mm between motifs: neighbours overlap a little */

typedef enum
{
  TASK_DRAG,
  TASK_DRAG_POINTED, /* while a dozen motifs are pointed out */
  TASK_TURN,
  TASK_PAN,
  TASK_ZOOM,
  N_TASKS
} Task;

static const char *const task_names[]
    = { "drag one motif", "drag, 12 ringed", "turn one motif", "pan the cloth", "zoom the cloth" };

typedef struct
{
  guint n_motifs;
  HwBench *bench;
  HwCanvas *canvas;
  GMainLoop *loop;
  Task task;
  guint frame;
  double began; /* CPU of the main thread at the frame's start, ms */
  double cost[FRAMES];
  gint64 first, last; /* monotonic time of the first and last frame */
  HwPoint start;
} Run;

static double
cpu_ms (clockid_t clock)
{
  struct timespec now;

  clock_gettime (clock, &now);
  return now.tv_sec * 1e3 + now.tv_nsec / 1e6;
}

/* Rows of stitches 3 mm long, as a filled ellipse has them. */
static HwNeedleList *
filled_ellipse (double width, double height, guint stitches)
{
  HwNeedlePoint *points = g_new0 (HwNeedlePoint, stitches);
  char **threads = g_new0 (char *, 3);
  guint rows = MAX ((guint)sqrt (stitches * height / width), 2), a_row = stitches / rows;

  for (guint i = 0; i < stitches; i++)
    {
      guint row = MIN (i / a_row, rows - 1), at = i % a_row;
      double y = ((double)row / (rows - 1) - 0.5) * 0.98;
      double half = sqrt (MAX (0.25 - y * y, 0)), t = (double)at / a_row * 2 - 1;

      points[i] = (HwNeedlePoint){ .x = (float)((row % 2 ? -t : t) * half * width),
                                   .y = (float)(y * height),
                                   .thread = i > stitches / 2,
                                   .action = HW_NEEDLE_STITCH };
    }
  threads[0] = g_strdup ("fern");
  threads[1] = g_strdup ("moss");
  return hw_needle_list_new (points, stitches, threads);
}

static HwMotif *
motif_at (guint i, guint columns, HwNeedleList *needles, guint stitches)
{
  HwMotif *motif = hw_motif_new ();
  const HwThreadBlock threads[2] = { { "fern", { 0.30, 0.48, 0.22 }, stitches / 2, NULL },
                                     { "moss", { 0.45, 0.52, 0.20 }, stitches - stitches / 2, NULL } };

  motif->id = g_strdup_printf ("m%u", i + 1);
  motif->name = g_strdup_printf ("Leaf %u", i + 1);
  motif->outline = hw_outline_new_ellipse (90, 60, 60);
  motif->placement
      = (HwPlacement){ { 60 + (i % columns) * SPACING, 60 + i / columns * SPACING }, i * 37.0, 1, FALSE };
  motif->needles = hw_needle_list_ref (needles);
  hw_motif_set_threads (motif, threads, 2);
  return motif;
}

static HwSnapshot *
large_scene (guint n, guint stitches)
{
  HwSnapshot *snapshot = hw_snapshot_new ();
  g_autoptr (HwNeedleList) needles = filled_ellipse (90, 60, stitches);
  guint columns = MAX ((guint)ceil (sqrt (n * 1.5)), 1);
  HwHoop *hoop = hw_hoop_new ();

  snapshot->fabric.width = 60 + columns * SPACING;
  snapshot->fabric.height = 60 + ceil ((double)n / columns) * SPACING;
  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  snapshot->edge_line = hw_edge_line_new_shape (
      HW_EDGE_RECTANGLE, (HwBox){ 2, 2, snapshot->fabric.width - 2, snapshot->fabric.height - 2 }, 0, 2);
  hoop->id = g_strdup ("great");
  hoop->name = g_strdup ("Great");
  hoop->field_width = hoop->frame_width = 240;
  hoop->field_height = hoop->frame_height = 300;
  g_ptr_array_add (snapshot->hoops, hoop);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (snapshot->motifs, motif_at (i, columns, needles, stitches));
  return snapshot;
}

/* The photograph over the whole cloth, seen a little askew. */
static void
lay_under (HwSnapshot *snapshot, const char *path)
{
  HwPhoto *photo = hw_photo_new ();
  const double w = snapshot->fabric.width, h = snapshot->fabric.height;
  g_autoptr (GError) error = NULL;
  int width, height;
  char *bytes;
  gsize length;

  if (!g_file_get_contents (path, &bytes, &length, &error)
      || gdk_pixbuf_get_file_info (path, &width, &height) == NULL)
    g_error ("%s", error != NULL ? error->message : "not a picture");
  photo->name = g_strdup ("Under it");
  photo->bytes = g_bytes_new_take (bytes, length);
  photo->strength = 1;
  photo->n_points = 4;
  photo->points = g_new (HwPhotoPoint, 4);
  photo->points[0] = (HwPhotoPoint){ { width * 0.04, height * 0.02 }, { 0, 0 } };
  photo->points[1] = (HwPhotoPoint){ { width * 0.98, height * 0.05 }, { w, 0 } };
  photo->points[2] = (HwPhotoPoint){ { width * 0.95, height * 0.97 }, { w, h } };
  photo->points[3] = (HwPhotoPoint){ { width * 0.02, height * 0.93 }, { 0, h } };
  g_ptr_array_add (snapshot->photos, photo);
  snapshot->photo_shown = 0;
}

/* The middle motif and those around it in the order. */
static void
point_out (Run *run, guint n)
{
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();
  guint first = run->n_motifs / 2 - MIN (n, run->n_motifs) / 2;

  for (guint i = 0; i < MIN (n, run->n_motifs); i++)
    g_strv_builder_add (ids, hw_canvas_record (run->canvas, first + i)->id);
  g_auto (GStrv) list = g_strv_builder_end (ids);
  hw_bench_point_out (run->bench, (const char *const *)list);
}

static void
begin (Run *run)
{
  HwCanvas *canvas = run->canvas;
  guint middle = run->n_motifs / 2;
  HwHandles handles;

  if (run->task == TASK_DRAG_POINTED)
    point_out (run, 12);
  hw_bench_select_only (run->bench, hw_canvas_record (canvas, middle)->id);
  if (run->task == TASK_TURN && hw_canvas_handles (canvas, &handles))
    run->start = handles.at[HW_HANDLE_TURN];
  else
    run->start = hw_view_to_pixels (&canvas->view, hw_canvas_record (canvas, middle)->placement.position);
  if (run->task != TASK_ZOOM)
    hw_drag_press (canvas, run->start, 0, run->task == TASK_PAN);
}

static void
step (Run *run)
{
  double along = run->frame * 0.07;
  HwPoint to = { run->start.x + 160 * sin (along), run->start.y + 90 * (cos (along) - 1) };

  if (run->task == TASK_ZOOM)
    hw_canvas_zoom_by (run->canvas, run->frame / 30 % 2 == 0 ? 1.04 : 1 / 1.04);
  else
    hw_drag_motion (run->canvas, to, 0);
}

static gboolean
tick_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  Run *run = user_data;

  if (run->frame == 0)
    {
      begin (run);
      run->first = g_get_monotonic_time ();
    }
  if (run->frame == FRAMES)
    {
      hw_bench_point_out (run->bench, NULL);
      if (run->task != TASK_ZOOM)
        hw_drag_cancel (run->canvas);
      run->last = g_get_monotonic_time ();
      g_main_loop_quit (run->loop);
      return G_SOURCE_REMOVE;
    }
  step (run);
  return G_SOURCE_CONTINUE;
}

static void
before_paint_cb (GdkFrameClock *clock, Run *run)
{
  run->began = cpu_ms (CLOCK_THREAD_CPUTIME_ID);
}

static void
after_paint_cb (GdkFrameClock *clock, Run *run)
{
  if (run->frame < FRAMES)
    run->cost[run->frame++] = cpu_ms (CLOCK_THREAD_CPUTIME_ID) - run->began;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  return (*(const double *)a > *(const double *)b) - (*(const double *)a < *(const double *)b);
}

static void
measure (Run *run, Task task)
{
  GtkWidget *widget = GTK_WIDGET (run->canvas);
  GdkFrameClock *clock = gtk_widget_get_frame_clock (widget);
  gulong before = g_signal_connect (clock, "before-paint", G_CALLBACK (before_paint_cb), run);
  gulong after = g_signal_connect (clock, "after-paint", G_CALLBACK (after_paint_cb), run);
  double process = cpu_ms (CLOCK_PROCESS_CPUTIME_ID), seconds;
  double first;

  run->task = task;
  run->frame = 0;
  gtk_widget_add_tick_callback (widget, tick_cb, run, NULL);
  g_main_loop_run (run->loop);
  g_signal_handler_disconnect (clock, before);
  g_signal_handler_disconnect (clock, after);

  seconds = (run->last - run->first) / 1e6;
  process = cpu_ms (CLOCK_PROCESS_CPUTIME_ID) - process;
  first = run->cost[0];
  qsort (run->cost, FRAMES, sizeof (double), compare_doubles);
  g_print ("  %-15s  median %5.1f ms, 95 of 100 below %5.1f, worst %5.1f, first %5.1f; %5.1f frames/s; all "
           "threads %5.1f ms a frame\n",
           task_names[task], run->cost[FRAMES / 2], run->cost[FRAMES * 95 / 100], run->cost[FRAMES - 1],
           first, FRAMES / seconds, process / FRAMES);
}

/* Until every picture is sharp and nothing is drawn any more. */
static void
settle (Run *run)
{
  gint64 quiet = g_get_monotonic_time (), now = quiet;

  while (now - quiet < 400000 && now - run->first < 120 * G_USEC_PER_SEC)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (500);
      now = g_get_monotonic_time ();
      if (run->canvas->stale != 0 || hw_motif_pictures_is_busy (run->canvas->pictures))
        quiet = now;
    }
}

/* It is decoded and put square in the background. */
static void
wait_for_photo (Run *run)
{
  while (!hw_canvas_photo_is_sharp (run->canvas))
    g_main_context_iteration (NULL, TRUE);
  run->first = g_get_monotonic_time ();
  settle (run);
}

static void
print_plan (HwBench *bench)
{
  const HwPlan *plan = hw_bench_get_plan (bench);

  if (plan != NULL)
    g_print ("  %u hoopings and %u things to look at are drawn\n", plan->n_hoopings, plan->problems->len);
}

static void
measure_window (guint n_motifs, guint stitches, int width, int height, const char *photo)
{
  g_autoptr (HwSnapshot) snapshot = large_scene (n_motifs, stitches);
  g_autoptr (HwBench) bench = hw_bench_new ();
  Run run = { .n_motifs = n_motifs, .bench = bench };
  GtkWidget *window = gtk_window_new ();
  double took = cpu_ms (CLOCK_PROCESS_CPUTIME_ID);

  if (photo != NULL)
    lay_under (snapshot, photo);
  hw_bench_start_new (bench, snapshot);
  run.canvas = HW_CANVAS (hw_canvas_new (bench));
  run.loop = g_main_loop_new (NULL, FALSE);
  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  gtk_window_set_child (GTK_WINDOW (window), GTK_WIDGET (run.canvas));
  gtk_window_present (GTK_WINDOW (window));
  run.first = g_get_monotonic_time ();
  settle (&run);
  if (photo != NULL)
    wait_for_photo (&run);
  g_print ("%u motifs of %u stitches, window %d x %d (sharp after %.1f s, %.1f s of CPU)\n", n_motifs,
           stitches, gtk_widget_get_width (window), gtk_widget_get_height (window),
           (g_get_monotonic_time () - run.first) / 1e6 - 0.4,
           (cpu_ms (CLOCK_PROCESS_CPUTIME_ID) - took) / 1e3);
  print_plan (bench);
  for (Task task = 0; task < N_TASKS; task++)
    {
      measure (&run, task);
      run.first = g_get_monotonic_time ();
      settle (&run);
    }
  gtk_window_destroy (GTK_WINDOW (window));
  g_main_loop_unref (run.loop);
}

int
main (int argc, char **argv)
{
  guint n_motifs = argc > 1 ? (guint)atoi (argv[1]) : 200;
  guint stitches = argc > 2 ? (guint)atoi (argv[2]) : 20000;

  gtk_init ();
  if (argc > 4)
    measure_window (n_motifs, stitches, atoi (argv[3]), atoi (argv[4]), argv[5]);
  else
    {
      measure_window (n_motifs, stitches, 1280, 800, NULL);
      measure_window (n_motifs, stitches, 1920, 1080, NULL);
    }
  return 0;
}
