/* What paper costs: a garden of many motifs of many stitches, planned, then each paper laid out and written as a PDF by a process of its own, so that the memory is
 * that paper's. The scene's stitches and the plan are counted in it. Arguments: motifs (default 200), stitches each (default 20000), then numbers of the papers to print (default
 * all, from 1). */
#include <glib/gstdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../../src/paper/print-job.h"
#include "../../src/planning/planner.h"
#include "../paper/garden.h"

typedef struct
{
  const char *name;
  HwPaperOptions options;
} Paper;

static const Paper papers[] = {
  { "templates, pale", { .kind = HW_PAPER_TEMPLATES } },
  { "templates, outline", { .kind = HW_PAPER_TEMPLATES, .look = HW_TEMPLATE_OUTLINE } },
  { "templates, stitches", { .kind = HW_PAPER_TEMPLATES, .look = HW_TEMPLATE_STITCHES } },
  { "templates, nested", { .kind = HW_PAPER_TEMPLATES, .nested = TRUE } },
  { "templates of hoopings", { .kind = HW_PAPER_HOOPING_TEMPLATES } },
  { "layout", { .kind = HW_PAPER_LAYOUT } },
  { "bench sheet", { .kind = HW_PAPER_BENCH_SHEET } },
  { "bench sheet, inches", { .kind = HW_PAPER_BENCH_SHEET, .unit = HW_UNIT_INCH } },
};

static double
seconds_since (gint64 start)
{
  return (double)(g_get_monotonic_time () - start) / G_USEC_PER_SEC;
}

static void
print (const HwPlan *plan, const Paper *paper)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "paper.pdf", NULL);
  g_autoptr (GError) error = NULL;
  HwPaperOptions options = paper->options;
  gint64 start = g_get_monotonic_time ();
  double laid_out;
  GStatBuf info;

  options.sheet = hw_sheet_size_find ("A4");
  options.sheet_margin = options.tile_overlap = 10;
  g_autoptr (HwPrintJob) job = hw_print_job_new (plan, &options, &error);
  laid_out = seconds_since (start);
  if (job == NULL || !hw_print_jobs_write_pdf (&job, 1, "A garden", path, NULL, &error))
    g_error ("%s", error->message);
  g_stat (path, &info);
  g_print ("%-24s %6u %9.2f %9.2f %9.1f", paper->name, hw_print_job_n_pages (job), laid_out,
           seconds_since (start), (double)info.st_size / 1e6);
  g_unlink (path);
  g_rmdir (folder);
}

/* In a process of its own; adds what it took at most. */
static void
measure (const HwPlan *plan, const Paper *paper)
{
  struct rusage used;
  int status;
  pid_t child = fork ();

  if (child == 0)
    {
      print (plan, paper);
      exit (0);
    }
  if (child < 0 || wait4 (child, &status, 0, &used) != child || status != 0)
    g_error ("%s could not be printed", paper->name);
  g_print (" %9.0f\n", (double)used.ru_maxrss / 1024);
}

int
main (int argc, char **argv)
{
  guint n = argc > 1 ? (guint)atoi (argv[1]) : 200, stitches = argc > 2 ? (guint)atoi (argv[2]) : 20000;
  g_autoptr (HwPlan) by_hand = garden_plan_large (n, stitches);
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = 0 };
  g_autoptr (HwPlan) plan = hw_planner_plan (planner, by_hand->snapshot, &options, NULL, NULL, NULL);

  g_print ("%u motifs of %u stitches in %u hoopings\n\n", n, stitches, plan->n_hoopings);
  g_print ("%-24s %6s %9s %9s %9s %9s\n", "paper", "pages", "laid out", "written", "file, MB", "peak, MB");
  for (guint i = 0; i < G_N_ELEMENTS (papers); i++)
    {
      gboolean wanted = argc <= 3;

      for (int a = 3; a < argc; a++)
        wanted = wanted || (guint)atoi (argv[a]) == i + 1;
      if (wanted)
        measure (plan, &papers[i]);
    }
  return 0;
}
