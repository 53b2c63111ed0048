/* Marks are as well laid out as can be: beside every layout of a fine grid, looked at one by one, no chosen one leaves the motifs of its
 * hooping more than 2 % worse off. The grid's places are sorted out by the rule alone, sharing no code with the choice. */
#include <math.h>

#include "geometry/region.h"
#include "planning/marks.h"
#include "registration/mark-error.h"

#define SLACK 1.02

static HwSnapshot *
orchard (double width, double height)
{
  HwSnapshot *snapshot = hw_snapshot_new ();
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup ("h1");
  hoop->name = g_strdup ("orchard hoop");
  hoop->field_width = width;
  hoop->field_height = height;
  hoop->frame_width = width + 40;
  hoop->frame_height = height + 60;
  hoop->clearance = 2;
  g_ptr_array_add (snapshot->hoops, hoop);
  return snapshot;
}

static void
add_motif (HwSnapshot *snapshot, HwPoint at, double width, double height)
{
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup_printf ("m%u", snapshot->motifs->len + 1);
  motif->name = g_strdup_printf ("Quince %u", snapshot->motifs->len + 1);
  motif->outline = hw_outline_new_ellipse (width, height, 40);
  motif->placement = (HwPlacement){ at, g_test_rand_double_range (0, 90), 1, FALSE };
  g_ptr_array_add (snapshot->motifs, motif);
}

static void
add_hooping (HwPlan *plan, HwPoint centre, double angle, guint first, guint n)
{
  HwHooping *hooping;

  plan->hoopings = g_renew (HwHooping, plan->hoopings, plan->n_hoopings + 1);
  hooping = &plan->hoopings[plan->n_hoopings++];
  *hooping = (HwHooping){ .centre = centre, .angle = angle, .n_motifs = n };
  hooping->motifs = g_new (guint, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    hooping->motifs[i] = first + i;
}

static HwPoint
near_to (HwPoint p, double reach)
{
  return (HwPoint){ p.x + g_test_rand_double_range (-reach, reach),
                    p.y + g_test_rand_double_range (-reach, reach) };
}

/* Some hoopings in a heap, so that the later ones find much stitched already. The cloth's edge cuts some fields. */
static HwPlan *
random_plan (guint marks)
{
  g_autoptr (HwSnapshot) snapshot = NULL;
  HwPlan *plan;
  guint n_hoopings = g_test_rand_int_range (1, 5), n = 0;
  double width = g_test_rand_double_range (80, 180), height = g_test_rand_double_range (80, 240);
  double reach = MIN (width, height) / 2;

  snapshot = orchard (width, height);
  snapshot->wishes.marks = marks;
  plan = hw_plan_new (snapshot);
  for (guint k = 0; k < n_hoopings; k++)
    {
      HwPoint centre = { g_test_rand_double_range (60, 340), g_test_rand_double_range (60, 340) };
      guint count = g_test_rand_int_range (1, 5);

      for (guint i = 0; i < count; i++)
        add_motif (snapshot, near_to (centre, reach * 0.7), g_test_rand_double_range (8, reach),
                   g_test_rand_double_range (8, reach));
      add_hooping (plan, centre, g_test_rand_double_range (-90, 90), n, count);
      n += count;
    }
  return plan;
}

/* Where the rule lets a mark be, on a grid of the hoop's axes. */
static GArray *
grid_places (const HwPlan *plan, guint index, double spacing)
{
  const HwHooping *hooping = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  GArray *places = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  double inset = MIN (3, MIN (hoop->field_width, hoop->field_height) / 8);
  double a = hoop->field_width / 2 - inset, b = hoop->field_height / 2 - inset;
  guint nu = (guint)ceil (2 * a / spacing), nv = (guint)ceil (2 * b / spacing);
  double apart = MIN (20, hypot (hoop->field_width, hoop->field_height) / 5);
  g_autoptr (GPtrArray) earlier = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);

  for (guint k = 0; k < index; k++)
    for (guint m = 0; m < plan->hoopings[k].n_motifs; m++)
      {
        const HwMotif *motif = hw_snapshot_motif (plan->snapshot, plan->hoopings[k].motifs[m]);

        g_ptr_array_add (earlier, hw_outline_place (motif->outline, &motif->placement));
      }
  for (guint i = 0; i <= nu; i++)
    for (guint j = 0; j <= nv; j++)
      {
        HwPoint off = hw_point_turn ((HwPoint){ -a + 2 * a * i / nu, -b + 2 * b * j / nv }, hooping->angle);
        HwPoint at = { hooping->centre.x + off.x, hooping->centre.y + off.y };
        gboolean usable = at.x >= 4 && at.y >= 4 && at.x <= plan->snapshot->fabric.width - 4
                          && at.y <= plan->snapshot->fabric.height - 4
                          && hw_point_distance (at, hooping->centre) >= apart / 2;

        for (guint e = 0; e < earlier->len && usable; e++)
          {
            const HwOutline *outline = g_ptr_array_index (earlier, e);

            if (at.x > outline->box.x0 - 2 && at.x < outline->box.x1 + 2 && at.y > outline->box.y0 - 2
                && at.y < outline->box.y1 + 2)
              usable = hw_outline_distance_to_point (outline, at) >= HW_MARKS_STITCH_GAP;
          }
        if (usable)
          g_array_append_val (places, at);
      }
  return places;
}

typedef struct
{
  const HwPoint *places;
  guint n_places;
  HwPoint targets[8];
  guint n_targets;
  double apart;
  double best;
} Brute;

/* Every layout of n places. */
static void
look_at_all (Brute *brute, HwPoint *marks, guint have, guint n, guint first)
{
  if (have == n)
    {
      brute->best = MIN (brute->best,
                         hw_mark_error_worst (marks, n, HW_MARKS_SIGMA, brute->targets, brute->n_targets));
      return;
    }
  for (guint i = first; i < brute->n_places; i++)
    {
      gboolean apart = TRUE;

      for (guint k = 0; k < have && apart; k++)
        apart = hw_point_distance (marks[k], brute->places[i]) >= brute->apart;
      if (!apart)
        continue;
      marks[have] = brute->places[i];
      look_at_all (brute, marks, have + 1, n, i + 1);
    }
}

static double
best_on_grid (const HwPlan *plan, guint index, guint n, double spacing)
{
  const HwHooping *hooping = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  g_autoptr (GArray) places = grid_places (plan, index, spacing);
  HwPoint marks[4];
  Brute brute = { .places = (const HwPoint *)places->data,
                  .n_places = places->len,
                  .n_targets = hooping->n_motifs,
                  .apart = MIN (20, hypot (hoop->field_width, hoop->field_height) / 5),
                  .best = INFINITY };

  for (guint i = 0; i < hooping->n_motifs; i++)
    brute.targets[i] = hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->placement.position;
  look_at_all (&brute, marks, 0, n, 0);
  return brute.best;
}

static double
worst_told (const HwHooping *hooping)
{
  double worst = 0;

  for (guint i = 0; i < hooping->n_motifs; i++)
    worst = MAX (worst, hooping->predicted_error[i]);
  return worst;
}

static void
compare_with_grid (guint n, guint rounds, double spacing)
{
  double most = 0;
  guint compared = 0;

  for (guint round = 0; round < rounds; round++)
    {
      g_autoptr (HwPlan) plan = random_plan (n);

      hw_marks_choose (plan, HW_MARKS_SIGMA, HW_UNIT_MM);
      for (guint k = 0; k < plan->n_hoopings; k++)
        {
          double best = best_on_grid (plan, k, n, spacing);

          if (!isfinite (best))
            continue;
          g_assert_cmpuint (plan->hoopings[k].n_marks, >=, n);
          most = MAX (most, worst_told (&plan->hoopings[k]) / best);
          compared++;
          g_assert_cmpfloat (worst_told (&plan->hoopings[k]), <=, best * SLACK);
        }
    }
  g_test_message ("%u marks: %u hoopings, at most %.2f %% worse than the grid's best", n, compared,
                  100 * (most - 1));
  g_assert_cmpuint (compared, >, rounds / 2);
}

static void
test_two_marks (void)
{
  compare_with_grid (2, g_test_thorough () ? 400 : 40, 4.5);
}

static void
test_three_marks (void)
{
  compare_with_grid (3, g_test_thorough () ? 200 : 25, 15);
}

static void
test_four_marks (void)
{
  compare_with_grid (4, g_test_thorough () ? 60 : 12, 22);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/marks-best/two-marks", test_two_marks);
  g_test_add_func ("/planning/marks-best/three-marks", test_three_marks);
  g_test_add_func ("/planning/marks-best/four-marks", test_four_marks);
  return g_test_run ();
}
