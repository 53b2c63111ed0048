/* The same scenes given to this planner and, as an integer program, to GLPK's branch and cut on the same machine. The program: x(i,k) motif i in
 * hooping k, y(k) hooping k is used; y falling; every motif once; the order by hooping numbers; sets that cannot share may not be in one
 * hooping. The pairs among these are given at once, larger ones when an answer breaks them, and the program is solved again. Both answers are
 * compared. Arguments: seconds for the solver for each scene (default 10), scenes a row (default 5), sizes (default 6 8 10 12). */
#include <glpk.h>
#include <stdlib.h>

#include "../../src/planning/sharing.h"
#include "families.h"

typedef struct
{
  const HwSnapshot *scene;
  guint n, hoopings;
  guint8 *before;
  glp_prob *lp;
} Program;

static int
x_of (const Program *program, guint i, guint k)
{
  return (int)(1 + i * program->hoopings + k);
}

static int
y_of (const Program *program, guint k)
{
  return (int)(1 + program->n * program->hoopings + k);
}

static void
add_row (const Program *program, int kind, double bound, int n, const int *columns, const double *values)
{
  int row = glp_add_rows (program->lp, 1);

  glp_set_row_bnds (program->lp, row, kind, bound, bound);
  glp_set_mat_row (program->lp, row, n, columns, values);
}

static gboolean
shares (const HwSnapshot *scene, const guint *set, guint n)
{
  g_autoptr (GArray) hull = hw_sharing_hull (scene, set, n);

  for (guint h = 0; h < scene->hoops->len; h++)
    if (hw_sharing_fits ((const HwPoint *)hull->data, hull->len, hw_snapshot_hoop (scene, h), &scene->fabric))
      return TRUE;
  return FALSE;
}

/* The motifs of the set are never all in one hooping. */
static void
forbid (const Program *program, const guint *set, guint n)
{
  g_autofree int *columns = g_new (int, n + 1);
  g_autofree double *values = g_new (double, n + 1);

  for (guint k = 0; k < program->hoopings; k++)
    {
      for (guint m = 0; m < n; m++)
        {
          columns[m + 1] = x_of (program, set[m], k);
          values[m + 1] = 1;
        }
      add_row (program, GLP_UP, n - 1, (int)n, columns, values);
    }
}

static void
add_order (const Program *program, guint i, guint j)
{
  const guint n = program->hoopings;
  g_autofree int *columns = g_new (int, 2 * n + 1);
  g_autofree double *values = g_new (double, 2 * n + 1);

  for (guint k = 0; k < n; k++)
    {
      columns[k + 1] = x_of (program, i, k);
      values[k + 1] = -(double)k;
      columns[n + k + 1] = x_of (program, j, k);
      values[n + k + 1] = k;
    }
  add_row (program, GLP_LO, 0, (int)(2 * n), columns, values);
}

static void
program_open (Program *program, const HwSnapshot *scene, guint hoopings)
{
  const guint n = scene->motifs->len;

  *program = (Program){ scene, n, hoopings, hw_order_of_snapshot (scene, NULL), glp_create_prob () };
  glp_set_obj_dir (program->lp, GLP_MIN);
  glp_add_cols (program->lp, (int)((n + 1) * hoopings));
  for (int c = 1; c <= glp_get_num_cols (program->lp); c++)
    glp_set_col_kind (program->lp, c, GLP_BV);
  for (guint k = 0; k < hoopings; k++)
    {
      glp_set_obj_coef (program->lp, y_of (program, k), 1);
      if (k + 1 < hoopings)
        add_row (program, GLP_LO, 0, 2, (int[]){ 0, y_of (program, k), y_of (program, k + 1) },
                 (double[]){ 0, 1, -1 });
    }
  for (guint i = 0; i < n; i++)
    {
      g_autofree int *columns = g_new (int, hoopings + 1);
      g_autofree double *values = g_new (double, hoopings + 1);

      for (guint k = 0; k < hoopings; k++)
        {
          columns[k + 1] = x_of (program, i, k);
          values[k + 1] = 1;
          add_row (program, GLP_UP, 0, 2, (int[]){ 0, x_of (program, i, k), y_of (program, k) },
                   (double[]){ 0, 1, -1 });
        }
      add_row (program, GLP_FX, 1, (int)hoopings, columns, values);
    }
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        guint pair[2] = { i, j };

        if (program->before[i * n + j])
          add_order (program, i, j);
        if (i < j && !shares (scene, pair, 2))
          forbid (program, pair, 2);
      }
}

static void
program_close (Program *program)
{
  g_free (program->before);
  glp_delete_prob (program->lp);
}

/* Takes motifs out of a set that cannot share as long as the rest cannot either. */
static guint
make_least (const HwSnapshot *scene, guint *set, guint n)
{
  for (guint k = n; k-- > 0;)
    {
      g_autofree guint *rest = g_memdup2 (set, n * sizeof (guint));

      memmove (rest + k, rest + k + 1, (n - k - 1) * sizeof (guint));
      if (n > 2 && !shares (scene, rest, n - 1))
        {
          memcpy (set, rest, (n - 1) * sizeof (guint));
          n--;
        }
    }
  return n;
}

/* Forbids the sets of the answer that cannot share; FALSE when all can. */
static gboolean
forbid_broken (const Program *program)
{
  gboolean broken = FALSE;
  g_autofree guint *set = g_new (guint, program->n);

  for (guint k = 0; k < program->hoopings; k++)
    {
      guint n = 0;

      for (guint i = 0; i < program->n; i++)
        if (glp_mip_col_val (program->lp, x_of (program, i, k)) > 0.5)
          set[n++] = i;
      if (n < 2 || shares (program->scene, set, n))
        continue;
      forbid (program, set, make_least (program->scene, set, n));
      broken = TRUE;
    }
  return broken;
}

/* The fewest hoopings, or 0 when the time is up. */
static guint
solve (Program *program, double seconds)
{
  gint64 end = g_get_monotonic_time () + (gint64)(seconds * G_USEC_PER_SEC);
  glp_iocp parameters;

  do
    {
      gint64 left = (end - g_get_monotonic_time ()) / 1000;

      if (left <= 0)
        return 0;
      glp_init_iocp (&parameters);
      parameters.presolve = GLP_ON;
      parameters.msg_lev = GLP_MSG_OFF;
      parameters.tm_lim = (int)MIN (left, 1000000);
      if (glp_intopt (program->lp, &parameters) != 0 || glp_mip_status (program->lp) != GLP_OPT)
        return 0;
    }
  while (forbid_broken (program));
  return (guint)(glp_mip_obj_val (program->lp) + 0.5);
}

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;

  return x < y ? -1 : x > y;
}

static double
median (GArray *numbers)
{
  g_array_sort (numbers, compare_numbers);
  return numbers->len > 0 ? g_array_index (numbers, double, numbers->len / 2) : 0;
}

static gboolean
measure_row (guint family, guint n, guint scenes, double seconds)
{
  g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) solver = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) ratios = g_array_new (FALSE, FALSE, sizeof (double));
  guint proven = 0, solved = 0, hoopings = 0;
  gboolean agree = TRUE;

  for (guint seed = 1; seed <= scenes; seed++)
    {
      g_autoptr (HwSnapshot) scene = family_scene (family, n, seed);
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      HwPlanOptions options = { .seconds = seconds, .unit = HW_UNIT_MM };
      gint64 start = g_get_monotonic_time ();
      g_autoptr (HwPlan) plan = NULL;
      Program program;
      guint fewest;
      double own_ms, solver_ms, ratio;

      for (guint i = 0; i < n; i++) /* no threads: only hoopings are compared */
        hw_motif_set_threads (g_ptr_array_index (scene->motifs, i), NULL, 0);
      plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
      own_ms = (g_get_monotonic_time () - start) / 1000.0;
      if (plan->status == HW_PLAN_UNPLANNABLE)
        continue;
      hoopings += plan->n_hoopings;
      proven += plan->status == HW_PLAN_OPTIMAL;
      start = g_get_monotonic_time ();
      program_open (&program, scene, plan->n_hoopings);
      fewest = solve (&program, seconds);
      program_close (&program);
      solver_ms = (g_get_monotonic_time () - start) / 1000.0;
      solved += fewest > 0;
      if (fewest > 0 && plan->status == HW_PLAN_OPTIMAL && fewest != plan->n_hoopings)
        {
          g_print ("%s, %u motifs, seed %u: %u hoopings, the solver says %u.\n", family_names[family], n,
                   seed, plan->n_hoopings, fewest);
          agree = FALSE;
        }
      ratio = solver_ms / own_ms;
      g_array_append_val (own, own_ms);
      g_array_append_val (solver, solver_ms);
      g_array_append_val (ratios, ratio);
    }
  if (own->len == 0)
    return agree;
  g_print ("%-15s %6u   %8.1f   %4u / %u %10.1f   %4u / %u %10.1f   %9.0f\n", family_names[family], n,
           (double)hoopings / own->len, proven, own->len, median (own), solved, own->len, median (solver),
           median (ratios));
  return agree;
}

int
main (int argc, char **argv)
{
  const char *const usual[] = { "6", "8", "10", "12" };
  double seconds = argc > 1 ? g_ascii_strtod (argv[1], NULL) : 10;
  guint scenes = argc > 2 ? (guint)MAX (atoi (argv[2]), 1) : 5;
  const char *const *sizes = argc > 3 ? (const char *const *)argv + 3 : usual;
  guint n_sizes = argc > 3 ? (guint)argc - 3 : G_N_ELEMENTS (usual);
  gboolean agree = TRUE;

  glp_term_out (GLP_OFF);
  g_print ("%u scenes a row, %g s for each; medians in milliseconds. The solver is told a count that is "
           "enough.\n\n",
           scenes, seconds);
  g_print ("                                    this planner           integer program         times as\n");
  g_print ("family          motifs   hoopings   proven      time      solved       time          long\n");
  for (guint s = 0; s < n_sizes; s++)
    for (guint family = 0; family < FAMILIES; family++)
      agree &= measure_row (family, (guint)MAX (atoi (sizes[s]), 1), scenes, seconds);
  return agree ? 0 : 1;
}
