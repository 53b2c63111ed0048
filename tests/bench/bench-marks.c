/* What readings and corrections are worth: made-up hoopings of made-up scenes, set a little off by hand, their marks drawn and read with scatter, on cloth that kept its
 * size and on cloth that drew in. Prints the error at the motifs' middles as hooped, with the exact correction beside its prediction, and with the machine's
 * steps, for two, three and four marks, where the plan puts them and in the field's corners. Arguments: hoopings for each line (default 20000), seed (default 1). */
#include <stdlib.h>

#include "../planning/random-scenes.h"
#include "../../src/planning/marks.h"
#include "../../src/registration/correction.h"
#include "../../src/registration/draw-in.h"
#include "../../src/registration/mark-error.h"

/* A hooping set by hand: standard deviations (common practice, no source). */
#define SHIFT_BY_HAND 3.0 /* mm per axis */
#define TURN_BY_HAND 2.0  /* degrees */
/* Drawing and reading a mark scatter alike and together by HW_MARKS_SIGMA. */
#define SCATTER (HW_MARKS_SIGMA / G_SQRT2)
/* Cloth drew in by up to so much, across and along each (common practice, no source). */
#define DRAWN_IN 0.01
#define CORNER_GAP 3.0 /* mm inside the field */
#define MOST_MARKS 4

/* A hooping's layout, in hoop axes. */
typedef struct
{
  HwPoint marks[MOST_MARKS];
  guint n_marks;
  HwPoint *motifs;
  guint n_motifs;
} Layout;

typedef struct
{
  GArray *uncorrected, *exact, *entered; /* mm at each motif of each hooping */
  GArray *worst;                         /* mm, the largest of entered of each hooping */
  double predicted2;                     /* sum of squares at the same motifs */
} Errors;

static double
normal (GRand *rand)
{
  /* Box and Muller 1958. */
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

static HwPoint
scattered (GRand *rand, HwPoint p, double by)
{
  double x = by * normal (rand);

  return (HwPoint){ p.x + x, p.y + by * normal (rand) };
}

static HwPoint
in_hoop_axes (const HwHooping *hooping, HwPoint p)
{
  return hw_point_turn ((HwPoint){ p.x - hooping->centre.x, p.y - hooping->centre.y }, -hooping->angle);
}

static Layout
layout_of (const HwPlan *plan, const HwHooping *hooping, guint n_marks, gboolean at_corners)
{
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  double u = hoop->field_width / 2 - CORNER_GAP, v = hoop->field_height / 2 - CORNER_GAP;
  HwPoint corners[] = { { -u, -v }, { u, v }, { u, -v }, { -u, v } };
  Layout layout = { .n_marks = n_marks, .n_motifs = hooping->n_motifs };

  for (guint i = 0; i < n_marks; i++)
    layout.marks[i] = at_corners ? corners[i] : in_hoop_axes (hooping, hooping->marks[i].at);
  layout.motifs = g_new (HwPoint, MAX (hooping->n_motifs, 1));
  for (guint i = 0; i < hooping->n_motifs; i++)
    layout.motifs[i]
        = in_hoop_axes (hooping, hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->placement.position);
  return layout;
}

/* The layouts of all hoopings that got so many marks, in scenes that wish for them. */
static void
collect_layouts (guint n_marks, guint seed, GArray *best, GArray *corners)
{
  for (int kind = 0; kind < SCENE_KINDS; kind++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed * 100 + kind);
      g_autoptr (HwPlanner) planner = hw_planner_new ();
      g_autoptr (HwSnapshot) scene = scene_random (rand, kind, 20, 1.2);
      HwPlanOptions options = { .seconds = 0.5, .unit = HW_UNIT_MM };
      g_autoptr (HwPlan) plan = NULL;

      scene->wishes.marks = n_marks;
      plan = hw_planner_plan (planner, scene, &options, NULL, NULL, NULL);
      for (guint k = 0; k < plan->n_hoopings; k++)
        if (plan->hoopings[k].n_marks == n_marks)
          {
            Layout planned = layout_of (plan, &plan->hoopings[k], n_marks, FALSE);
            Layout cornered = layout_of (plan, &plan->hoopings[k], n_marks, TRUE);

            g_array_append_val (best, planned);
            g_array_append_val (corners, cornered);
          }
    }
}

static void
add_error (GArray *errors, HwPoint a, HwPoint b)
{
  double error = hw_point_distance (a, b);

  g_array_append_val (errors, error);
}

/* One hooping: where it lies, what is read, what is entered, and where the motifs should have been. */
static void
simulate (GRand *rand, const Layout *layout, double drawn_in, Errors *errors)
{
  HwCorrection lies = { scattered (rand, (HwPoint){ 0, 0 }, SHIFT_BY_HAND), TURN_BY_HAND * normal (rand) };
  HwStretch cloth = { .xx = 1 - drawn_in * g_rand_double (rand), .yy = 1 - drawn_in * g_rand_double (rand) };
  HwPoint middle = { 0, 0 };
  HwReading readings[MOST_MARKS] = { 0 };
  HwCorrectionTask task = { .shift_step = 0.1,
                            .turn_step = 1,
                            .sigma = HW_MARKS_SIGMA,
                            .tolerance = 0.7,
                            .targets = layout->motifs,
                            .n_targets = layout->n_motifs };
  HwCorrectionAnswer answer;
  HwCorrection exact;
  double worst = 0;

  for (guint i = 0; i < layout->n_marks; i++)
    {
      HwPoint drawn = scattered (rand, layout->marks[i], SCATTER);
      HwPoint lying = hw_correction_apply (&lies, hw_stretch_apply (&cloth, middle, drawn));

      readings[i].design = layout->marks[i];
      readings[i].at = scattered (rand, lying, SCATTER);
    }
  if (!hw_correction_find (readings, layout->n_marks, &task, &answer, NULL))
    g_error ("A made-up hooping cannot be corrected.");
  exact = (HwCorrection){ answer.exact.shift, answer.exact.turn };
  for (guint i = 0; i < layout->n_motifs; i++)
    {
      HwPoint planned = layout->motifs[i];
      HwPoint belongs = hw_correction_apply (&lies, hw_stretch_apply (&cloth, middle, planned));
      double predicted = hw_mark_error (layout->marks, layout->n_marks, HW_MARKS_SIGMA, planned);

      add_error (errors->uncorrected, planned, belongs);
      add_error (errors->exact, hw_correction_apply (&exact, planned), belongs);
      add_error (errors->entered, hw_correction_apply (&answer.chosen, planned), belongs);
      errors->predicted2 += predicted * predicted;
      worst = MAX (worst, g_array_index (errors->entered, double, errors->entered->len - 1));
    }
  g_array_append_val (errors->worst, worst);
  hw_correction_answer_clear (&answer);
}

static int
compare_doubles (gconstpointer pa, gconstpointer pb)
{
  double a = *(const double *)pa, b = *(const double *)pb;

  return (a > b) - (a < b);
}

static double
mean_of (GArray *values, double power)
{
  double sum = 0;

  for (guint i = 0; i < values->len; i++)
    sum += pow (g_array_index (values, double, i), power);
  return pow (sum / values->len, 1 / power);
}

static double
part_of (GArray *values, double part)
{
  g_array_sort (values, compare_doubles);
  return g_array_index (values, double, (guint)((values->len - 1) * part));
}

static void
print_row (const char *placed, guint n_marks, GArray *layouts, guint hoopings, double drawn_in, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  Errors errors
      = { g_array_new (FALSE, FALSE, sizeof (double)), g_array_new (FALSE, FALSE, sizeof (double)),
          g_array_new (FALSE, FALSE, sizeof (double)), g_array_new (FALSE, FALSE, sizeof (double)), 0 };

  for (guint i = 0; i < hoopings; i++)
    simulate (rand, &g_array_index (layouts, Layout, i % layouts->len), drawn_in, &errors);
  g_print ("%-8s %5u %8u   %6.2f %6.2f   %6.3f %9.3f   %6.2f %6.2f   %6.2f %6.2f\n", placed, n_marks,
           errors.exact->len, mean_of (errors.uncorrected, 1), part_of (errors.uncorrected, 0.95),
           mean_of (errors.exact, 2), sqrt (errors.predicted2 / errors.exact->len),
           mean_of (errors.entered, 1), part_of (errors.entered, 0.95), mean_of (errors.worst, 1),
           part_of (errors.worst, 0.95));
  g_array_unref (errors.uncorrected);
  g_array_unref (errors.exact);
  g_array_unref (errors.entered);
  g_array_unref (errors.worst);
}

static void
clear_layout (gpointer data)
{
  g_free (((Layout *)data)->motifs);
}

int
main (int argc, char **argv)
{
  guint hoopings = argc > 1 ? (guint)atoi (argv[1]) : 20000;
  guint32 seed = argc > 2 ? (guint32)atoi (argv[2]) : 1;
  GArray *best[MOST_MARKS + 1] = { NULL }, *corners[MOST_MARKS + 1] = { NULL };

  for (guint n = 2; n <= MOST_MARKS; n++)
    {
      best[n] = g_array_new (FALSE, FALSE, sizeof (Layout));
      corners[n] = g_array_new (FALSE, FALSE, sizeof (Layout));
      g_array_set_clear_func (best[n], clear_layout);
      g_array_set_clear_func (corners[n], clear_layout);
      collect_layouts (n, seed, best[n], corners[n]);
    }
  g_print ("%u hoopings a line, set by hand to %g mm per axis and %g degrees (standard deviations); marks "
           "drawn and read to %g mm per\n"
           "axis; steps of 0.1 mm and 1 degree. Errors at the motifs' middles, mm.\n",
           hoopings, SHIFT_BY_HAND, TURN_BY_HAND, HW_MARKS_SIGMA);
  for (guint drawn = 0; drawn < 2; drawn++)
    {
      if (drawn == 0)
        g_print ("\nThe cloth has kept its size:\n\n");
      else
        g_print ("\nThe cloth has drawn in by 0 to %g %%, across and along each:\n\n", 100 * DRAWN_IN);
      g_print (
          "                             as hooped   exact correction    steps entered      worst motif\n");
      g_print (
          "placed   marks   motifs     mean   95 %%      rms predicted     mean   95 %%     mean   95 %%\n");
      for (guint n = 2; n <= MOST_MARKS; n++)
        {
          if (best[n]->len == 0)
            {
              g_print ("(no hooping got %u marks)\n", n);
              continue;
            }
          print_row ("best", n, best[n], hoopings, drawn * DRAWN_IN, seed);
          print_row ("corners", n, corners[n], hoopings, drawn * DRAWN_IN, seed);
        }
    }
  for (guint n = 2; n <= MOST_MARKS; n++)
    {
      g_array_unref (best[n]);
      g_array_unref (corners[n]);
    }
  return 0;
}
