/* How long a person waits for the workbench: the program is started on an X display of its own and watched from outside, as an eye would. Told are the
 * milliseconds from the start of the process to the window on the screen, to the first picture in it, and to the last change of the
 * picture (all artwork there and sharp, the plan drawn); then the CPU time of the whole process and the most memory it held.
 *
 * bench-opening PROGRAM [MOTIFS [STITCHES [TIMES]]]   (the demo, then 200 motifs of 20,000 stitches with a needle list each; 5 times)
 *
 * Run it with GDK_BACKEND=x11 and GSK_RENDERER=cairo on a display where nothing else runs. */
#include <math.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <X11/Xlib.h>
#include <X11/Xutil.h>

#include <glib.h>
#include <glib/gstdio.h>

#include "../folders.h"

#define LOOK_EVERY 4000 /* us */
#define AT_REST 1500000 /* us without a change: the picture is whole */
#define PATIENCE (60 * G_USEC_PER_SEC)
#define MOST_TIMES 50
#define SPACING 70.0 /* mm between motifs */

typedef struct
{
  double shown, first, whole; /* ms from the start */
  double cpu;                 /* ms, of all threads */
  double memory;              /* MB, at most */
} Opening;

/* --- A large scene, each motif with a needle list of its own */

static void
write_needles (const char *path, guint seed, guint stitches)
{
  g_autoptr (GString) text = g_string_sized_new (stitches * 24);
  guint rows = MAX ((guint)sqrt (stitches * 60.0 / 90.0), 2), a_row = stitches / rows;

  g_string_append (text, "x_mm,y_mm,action,thread\n");
  for (guint i = 0; i < stitches; i++)
    {
      guint row = MIN (i / a_row, rows - 1), at = i % a_row;
      double y = ((double)row / (rows - 1) - 0.5) * 0.98;
      double half = sqrt (MAX (0.25 - y * y, 0)) * (1 - 0.001 * (seed % 7)), t = (double)at / a_row * 2 - 1;

      g_string_append_printf (text, "%.2f,%.2f,stitch,%s\n", (row % 2 ? -t : t) * half * 90, y * 60,
                              i > stitches / 2 ? "moss" : "fern");
    }
  if (!g_file_set_contents (path, text->str, (gssize)text->len, NULL))
    g_error ("%s cannot be written", path);
}

/* Returns: (transfer full): its path */
static char *
write_scene (const char *folder, guint n, guint stitches)
{
  g_autoptr (GString) text
      = g_string_new ("{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Many leaves\",\n");
  guint columns = MAX ((guint)ceil (sqrt (n * 1.5)), 1);
  double width = 60 + columns * SPACING, height = 60 + ceil ((double)n / columns) * SPACING;
  char *path = g_build_filename (folder, "leaves.hoopscene", NULL);

  g_string_append_printf (text,
                          "\"fabric\": {\"width\": %g, \"height\": %g, \"colour\": \"#d8cbb0\"},\n"
                          "\"edge_line\": {\"points\": [[2, 2], [%g, 2], [%g, %g], [2, %g]]},\n"
                          "\"hoops\": [{\"id\": \"great\", \"field\": [240, 300]}],\n\"motifs\": [\n",
                          width, height, width - 2, width - 2, height - 2, height - 2);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *name = g_strdup_printf ("leaf-%u.csv", i + 1);
      g_autofree char *file = g_build_filename (folder, name, NULL);

      write_needles (file, i, stitches);
      g_string_append_printf (text, "%s{\"id\": \"m%u\", \"name\": \"Leaf %u\", \"outline\": [[",
                              i > 0 ? ",\n" : "", i + 1, i + 1);
      for (guint k = 0; k < 60; k++)
        g_string_append_printf (text, "%s[%.2f, %.2f]", k > 0 ? ", " : "", 45 * cos (k * G_PI / 30),
                                30 * sin (k * G_PI / 30));
      g_string_append_printf (
          text,
          "]], \"position\": [%g, %g], \"angle\": %u, \"artwork\": {\"path\": \"%s\", \"kind\": "
          "\"needles\"}, "
          "\"threads\": [{\"name\": \"fern\", \"colour\": \"#4d7a38\", \"stitches\": %u}, "
          "{\"name\": \"moss\", \"colour\": \"#738533\", \"stitches\": %u}]}",
          60 + (i % columns) * SPACING, 60 + i / columns * SPACING, i * 37 % 360, name, stitches / 2,
          stitches - stitches / 2);
    }
  g_string_append (text, "\n]}\n");
  if (!g_file_set_contents (path, text->str, (gssize)text->len, NULL))
    g_error ("%s cannot be written", path);
  return path;
}

/* --- The eye */

static int
ignore_cb (Display *display, XErrorEvent *event)
{
  return 0; /* the window may go while it is looked at */
}

/* A number for the middle of the window's picture; 0: one colour, nothing is drawn yet. */
static guint64
look_at (Display *display, Window window)
{
  XWindowAttributes is;
  XImage *image;
  guint64 sum = 14695981039346656037u;
  gboolean plain = TRUE;
  guint32 first;

  if (!XGetWindowAttributes (display, window, &is) || is.map_state != IsViewable)
    return 0;
  image = XGetImage (display, window, is.width / 5, is.height / 4, (guint)is.width * 2 / 5,
                     (guint)is.height / 2, AllPlanes, ZPixmap);
  if (image == NULL)
    return 0;
  memcpy (&first, image->data, sizeof first);
  for (int y = 0; y < image->height; y++)
    for (int x = 0; x < image->width; x++)
      {
        guint32 pixel;

        memcpy (&pixel, image->data + y * image->bytes_per_line + 4 * x, sizeof pixel);
        plain = plain && pixel == first;
        sum = (sum ^ pixel) * 1099511628211u; /* FNV-1a, by words */
      }
  XDestroyImage (image);
  return plain ? 0 : sum | 1;
}

static double
ms_since (gint64 start)
{
  return (double)(g_get_monotonic_time () - start) / 1e3;
}

/* The first large window that comes on the screen. */
static Window
wait_for_window (Display *display, gint64 start)
{
  while (g_get_monotonic_time () - start < PATIENCE)
    {
      XEvent event;
      XWindowAttributes is;

      while (XPending (display) > 0)
        {
          XNextEvent (display, &event);
          if (event.type == MapNotify && XGetWindowAttributes (display, event.xmap.window, &is)
              && is.width > 300 && is.height > 300)
            return event.xmap.window;
        }
      g_usleep (500);
    }
  g_error ("no window came");
}

static void
watch (Display *display, gint64 start, Opening *opening)
{
  Window window = wait_for_window (display, start);
  gint64 changed = start;
  guint64 before = 0;

  opening->shown = ms_since (start);
  while (before == 0 || g_get_monotonic_time () - changed < AT_REST)
    {
      guint64 now = look_at (display, window);

      if (g_get_monotonic_time () - start > PATIENCE)
        g_error ("the picture never came to rest");
      if (now != 0 && before == 0)
        opening->first = ms_since (start);
      if (now != before)
        {
          changed = g_get_monotonic_time ();
          opening->whole = ms_since (start);
        }
      before = now;
      g_usleep (LOOK_EVERY);
    }
}

/* --- The program */

static double
status_mb (GPid pid, const char *key)
{
  g_autofree char *path = g_strdup_printf ("/proc/%d/status", pid);
  g_autofree char *text = NULL;
  const char *line;

  if (!g_file_get_contents (path, &text, NULL, NULL) || (line = strstr (text, key)) == NULL)
    return 0;
  return g_ascii_strtod (line + strlen (key), NULL) / 1024;
}

static double
cpu_ms (GPid pid)
{
  g_autofree char *path = g_strdup_printf ("/proc/%d/stat", pid);
  g_autofree char *text = NULL;
  unsigned long user = 0, system = 0;
  const char *rest;

  if (g_file_get_contents (path, &text, NULL, NULL) && (rest = strrchr (text, ')')) != NULL)
    sscanf (rest + 2, "%*c %*d %*d %*d %*d %*d %*u %*u %*u %*u %*u %lu %lu", &user, &system);
  return (double)(user + system) * 1e3 / (double)sysconf (_SC_CLK_TCK);
}

static Opening
open_once (const char *program, const char *scene)
{
  Display *display = XOpenDisplay (NULL);
  char *argv[] = { (char *)program, (char *)scene, NULL };
  g_autoptr (GError) error = NULL;
  Opening opening = { 0 };
  gint64 start;
  GPid pid;

  if (display == NULL)
    g_error ("there is no display");
  XSetErrorHandler (ignore_cb);
  XSelectInput (display, DefaultRootWindow (display), SubstructureNotifyMask);
  XSync (display, False);
  start = g_get_monotonic_time ();
  if (!g_spawn_async (NULL, argv, NULL,
                      G_SPAWN_DO_NOT_REAP_CHILD | G_SPAWN_STDERR_TO_DEV_NULL | G_SPAWN_STDOUT_TO_DEV_NULL,
                      NULL, NULL, &pid, &error))
    g_error ("%s", error->message);
  watch (display, start, &opening);
  opening.cpu = cpu_ms (pid);
  opening.memory = status_mb (pid, "VmHWM:");
  kill (pid, SIGKILL);
  waitpid (pid, NULL, 0);
  XCloseDisplay (display);
  return opening;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  return (*(const double *)a > *(const double *)b) - (*(const double *)a < *(const double *)b);
}

static double
median (const Opening *openings, guint n, gsize offset)
{
  double values[MOST_TIMES];

  for (guint i = 0; i < n; i++)
    values[i] = *(const double *)(gconstpointer)((const char *)&openings[i] + offset);
  qsort (values, n, sizeof (double), compare_doubles);
  return values[n / 2];
}

static void
measure (const char *what, const char *program, const char *scene, guint times)
{
  Opening openings[MOST_TIMES];

  for (guint i = 0; i < times; i++)
    openings[i] = open_once (program, scene);
  g_print ("%-40s %7.0f %13.0f %13.0f %9.0f %11.0f\n", what,
           median (openings, times, G_STRUCT_OFFSET (Opening, shown)),
           median (openings, times, G_STRUCT_OFFSET (Opening, first)),
           median (openings, times, G_STRUCT_OFFSET (Opening, whole)),
           median (openings, times, G_STRUCT_OFFSET (Opening, cpu)),
           median (openings, times, G_STRUCT_OFFSET (Opening, memory)));
}

int
main (int argc, char **argv)
{
  guint n = argc > 2 ? (guint)atoi (argv[2]) : 200, stitches = argc > 3 ? (guint)atoi (argv[3]) : 20000;
  guint times = argc > 4 ? CLAMP ((guint)atoi (argv[4]), 1, MOST_TIMES) : 5;
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *what = g_strdup_printf ("%u motifs of %u stitches", n, stitches);
  g_autofree char *scene = NULL;

  if (argc < 2)
    g_error ("name the program to be started");
  g_setenv ("XDG_STATE_HOME", folder, TRUE);
  g_print ("%-40s %7s %13s %13s %9s %11s\n", "medians, ms", "window", "first picture", "whole picture", "CPU",
           "memory, MB");
  measure ("the demo", argv[1], NULL, times);
  if (n > 0)
    {
      scene = write_scene (folder, n, stitches);
      measure (what, argv[1], scene, times);
    }
  folder_remove (folder);
  return 0;
}
