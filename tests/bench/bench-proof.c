/* How surely and how soon: scenes of several families planned from cold. Prints for each family and number of motifs the mean hoopings and
 * bound, how many counts were proven, the time to the first plan and to the proof (or to the end of the time), and the most memory. Each row is
 * measured in a process of its own. Arguments: seconds for each plan (default 1), scenes a row (default 20), sizes (default 10 20 40 60 100 200). */
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "families.h"

typedef struct
{
  gint64 start, first, proof;
} Watch;

static void
found_cb (const HwPlan *plan, gpointer data)
{
  Watch *watch = data;

  if (watch->first == 0)
    watch->first = g_get_monotonic_time () - watch->start;
  if (watch->proof == 0 && plan->status == HW_PLAN_OPTIMAL)
    watch->proof = g_get_monotonic_time () - watch->start;
}

static int
compare_times (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *)a, y = *(const gint64 *)b;

  return x < y ? -1 : x > y;
}

/* Milliseconds; part 0.5: the median. */
static double
part_of (GArray *times, double part)
{
  g_array_sort (times, compare_times);
  return times->len > 0 ? g_array_index (times, gint64, (guint)((times->len - 1) * part)) / 1000.0 : 0;
}

static void
measure_row (guint family, guint n, guint scenes, double seconds)
{
  g_autoptr (GArray) firsts = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GArray) proofs = g_array_new (FALSE, FALSE, sizeof (gint64));
  HwPlanOptions options = { .seconds = seconds, .unit = HW_UNIT_MM };
  guint proven = 0, hoopings = 0, bound = 0;
  struct rusage usage;

  for (guint seed = 1; seed <= scenes; seed++)
    {
      g_autoptr (HwSnapshot) scene = family_scene (family, n, seed);
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      Watch watch = { g_get_monotonic_time (), 0, 0 };
      g_autoptr (HwPlan) plan = hw_planner_plan (planner, scene, &options, NULL, found_cb, &watch);
      gint64 end = g_get_monotonic_time () - watch.start;

      watch.first = watch.first > 0 ? watch.first : end;
      watch.proof = watch.proof > 0 ? watch.proof : end;
      g_array_append_val (firsts, watch.first);
      g_array_append_val (proofs, watch.proof);
      proven += plan->status == HW_PLAN_OPTIMAL;
      hoopings += plan->n_hoopings;
      bound += plan->lower_bound;
    }
  getrusage (RUSAGE_SELF, &usage);
  g_print ("%-15s %6u   %8.1f %7.1f   %5.1f %%   %8.1f %8.1f   %8.1f %8.1f   %7.1f\n", family_names[family],
           n, (double)hoopings / scenes, (double)bound / scenes, 100.0 * proven / scenes,
           part_of (firsts, 0.5), part_of (firsts, 1), part_of (proofs, 0.5), part_of (proofs, 1),
           usage.ru_maxrss / 1024.0);
}

int
main (int argc, char **argv)
{
  const char *const usual[] = { "10", "20", "40", "60", "100", "200" };
  double seconds = argc > 1 ? g_ascii_strtod (argv[1], NULL) : 1;
  guint scenes = argc > 2 ? (guint)MAX (atoi (argv[2]), 1) : 20;
  const char *const *sizes = argc > 3 ? (const char *const *)argv + 3 : usual;
  guint n_sizes = argc > 3 ? (guint)argc - 3 : G_N_ELEMENTS (usual);

  g_print ("%u scenes a row, %g s for each; times in milliseconds, memory in MB.\n\n", scenes, seconds);
  g_print ("                                                          first plan              proof\n");
  g_print ("family          motifs   hoopings   bound    proven     median    worst     median    worst    "
           "memory\n");
  for (guint s = 0; s < n_sizes; s++)
    for (guint family = 0; family < FAMILIES; family++)
      {
        pid_t child = fork ();

        if (child == 0)
          {
            measure_row (family, (guint)MAX (atoi (sizes[s]), 1), scenes, seconds);
            _exit (0);
          }
        waitpid (child, NULL, 0);
      }
  return 0;
}
