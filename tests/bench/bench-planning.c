/* From an edit to its plan: a warm planner, one motif moved at a time, made-up scenes of several kinds. Prints for each number of motifs the
 * time to the first plan and to the last, hoopings and bound. Arguments: seconds for each plan (default 1), edits a scene (default 20). */
#include <stdlib.h>
#include <sys/resource.h>

#include "../planning/random-scenes.h"

typedef struct
{
  gint64 start, first;
} Watch;

static void
found_cb (const HwPlan *plan, gpointer data)
{
  Watch *watch = data;

  if (watch->first == 0)
    watch->first = g_get_monotonic_time () - watch->start;
}

static int
compare_times (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

static double
part_of (GArray *times, double part)
{
  g_array_sort (times, compare_times);
  return times->len > 0 ? g_array_index (times, gint64, (guint)((times->len - 1) * part)) / 1000.0 : 0;
}

typedef struct
{
  GArray *first, *last;
  guint plans, proven, hoopings, bound, threads_proven;
} Row;

static void
measure (Row *row, SceneKind kind, guint n, guint edits, double seconds, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  g_autoptr (HwSnapshot) scene = scene_random (rand, kind, n, 1.2);
  HwPlanOptions options = { .seconds = seconds, .unit = HW_UNIT_MM };

  for (guint edit = 0; edit <= edits; edit++)
    {
      HwSnapshot *next;
      Watch watch = { g_get_monotonic_time (), 0 };
      gint64 last;
      g_autoptr (HwPlan) plan = hw_planner_plan (planner, scene, &options, NULL, found_cb, &watch);

      last = g_get_monotonic_time () - watch.start;
      if (watch.first == 0)
        watch.first = last;
      if (edit > 0) /* the first is not warm */
        {
          g_array_append_val (row->first, watch.first);
          g_array_append_val (row->last, last);
          row->plans++;
          row->proven += plan->lower_bound == plan->n_hoopings;
          row->threads_proven += plan->thread_changes_proven;
          row->hoopings += plan->n_hoopings;
          row->bound += plan->lower_bound;
        }
      next = scene_moved (scene, g_rand_int_range (rand, 0, n), scene_between (rand, -12, 12),
                          scene_between (rand, -12, 12));
      hw_snapshot_unref (scene);
      scene = next;
    }
}

static void
print_row (const char *kind, guint n, Row *row)
{
  g_print ("%-8s %6u   %7.2f %8.2f   %8.1f %8.1f   %8.1f %7.1f   %5.1f %%   %5.1f %%\n", kind, n,
           part_of (row->first, 0.5), part_of (row->first, 1), part_of (row->last, 0.5),
           part_of (row->last, 1), (double)row->hoopings / row->plans, (double)row->bound / row->plans,
           100.0 * row->proven / row->plans, 100.0 * row->threads_proven / row->plans);
}

int
main (int argc, char **argv)
{
  static const guint sizes[] = { 10, 20, 40, 100, 200 };
  static const char *const names[] = { "wall", "frieze", "small", "chain", "oblique" };
  double seconds = argc > 1 ? g_ascii_strtod (argv[1], NULL) : 1;
  guint edits = argc > 2 ? (guint)atoi (argv[2]) : 20;
  struct rusage usage;

  g_print ("One motif moved, warm planner, %g s at most for each plan; milliseconds.\n\n", seconds);
  g_print ("                     first plan             last plan\n");
  g_print ("kind     motifs    median    worst     median    worst   hoopings   bound    proven   threads "
           "proven\n");
  for (guint s = 0; s < G_N_ELEMENTS (sizes); s++)
    for (guint kind = 0; kind < SCENE_KINDS; kind++)
      {
        Row row
            = { g_array_new (FALSE, FALSE, sizeof (gint64)), g_array_new (FALSE, FALSE, sizeof (gint64)) };

        for (guint seed = 1; seed <= 3; seed++)
          measure (&row, kind, sizes[s], edits, seconds, seed);
        print_row (names[kind], sizes[s], &row);
        g_array_unref (row.first);
        g_array_unref (row.last);
      }
  getrusage (RUSAGE_SELF, &usage);
  g_print ("\nMost memory in use: %.1f MB\n", usage.ru_maxrss / 1024.0);
  return 0;
}
