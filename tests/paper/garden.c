/* A garden planned by hand, with round figures that can be checked in the head. */
#include "garden.h"

#include <math.h>

static const struct
{
  const char *name;
  HwColour colour;
} yarns[] = {
  { "dark moss", { 0.20, 0.33, 0.13 } }, { "moss", { 0.42, 0.52, 0.24 } },
  { "quince", { 0.86, 0.72, 0.25 } },    { "old rose", { 0.73, 0.39, 0.42 } },
  { "brick", { 0.62, 0.30, 0.22 } },     { "chalk", { 0.94, 0.92, 0.86 } },
  { "slate", { 0.33, 0.37, 0.42 } },     { "bark", { 0.38, 0.27, 0.19 } },
};

/* Rows of stitches 0.4 mm apart that fill an ellipse, one thread for each half. */
static HwNeedleList *
fill_ellipse (double width, double height, guint n_stitches, char **threads)
{
  guint rows = MAX (2, (guint)sqrt (n_stitches * height / width * 0.8));
  GArray *points = g_array_new (FALSE, FALSE, sizeof (HwNeedlePoint));
  guint n;

  for (guint r = 0; r < rows; r++)
    {
      double y = -height / 2 + (r + 0.5) * height / rows;
      double half = width / 2 * sqrt (MAX (0, 1 - 4 * y * y / (height * height)));
      guint columns = MAX (2, (guint)((double)n_stitches / rows * half * 2 / width * 1.27));

      for (guint c = 0; c <= columns; c++)
        {
          double t = r % 2 == 0 ? (double)c / columns : 1 - (double)c / columns;
          HwNeedlePoint p = { (float)(-half + 2 * half * t), (float)y, r < rows / 2 ? 0 : 1,
                              points->len == 0 ? HW_NEEDLE_JUMP : HW_NEEDLE_STITCH };

          g_array_append_val (points, p);
        }
    }
  n = points->len;

  return hw_needle_list_new ((HwNeedlePoint *)(void *)g_array_free (points, FALSE), n, threads);
}

HwMotif *
garden_motif (
    const char *id, const char *name, double width, double height, HwPlacement placement, guint n_stitches)
{
  HwMotif *motif = hw_motif_new ();
  guint first = g_str_hash (name) % G_N_ELEMENTS (yarns);
  HwThreadBlock blocks[2] = { { 0 } };
  char **threads = g_new0 (char *, 3);

  motif->id = g_strdup (id);
  motif->name = g_strdup (name);
  motif->outline = hw_outline_new_ellipse (width, height, 60);
  motif->placement = placement;
  for (guint i = 0; i < 2; i++)
    {
      guint yarn = (first + 3 * i) % G_N_ELEMENTS (yarns);

      blocks[i].name = (char *)yarns[yarn].name;
      blocks[i].colour = yarns[yarn].colour;
      blocks[i].stitches = n_stitches / 2;
      threads[i] = g_strdup (yarns[yarn].name);
    }
  hw_motif_set_threads (motif, blocks, 2);
  motif->needles = fill_ellipse (width, height, n_stitches, threads);

  return motif;
}

static HwHoop *
make_hoop (const char *id, const char *name, double width, double height)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup (id);
  hoop->name = g_strdup (name);
  hoop->field_width = width;
  hoop->field_height = height;
  hoop->frame_width = width + 40;
  hoop->frame_height = height + 60;
  hoop->clearance = 2;

  return hoop;
}

static HwSnapshot *
make_garden (double width, double height)
{
  HwSnapshot *snapshot = hw_snapshot_new ();
  HwHoop *small = make_hoop ("h1", "130 × 180", 130, 180);
  HwHoop *large = make_hoop ("h2", "200 × 300", 200, 300);

  g_free (snapshot->name);
  snapshot->name = g_strdup ("The Walled Garden");
  snapshot->fabric.width = width;
  snapshot->fabric.height = height;
  snapshot->fabric.colour = (HwColour){ 0.85, 0.80, 0.69 };
  if (snapshot->edge_line != NULL)
    hw_edge_line_unref (snapshot->edge_line);
  snapshot->edge_line
      = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 30, 30, width - 30, height - 30 }, 0, 2);
  g_ptr_array_add (snapshot->hoops, small);
  g_ptr_array_add (snapshot->hoops, large);

  return snapshot;
}

static void
set_hooping (HwHooping *hooping, guint hoop, HwPoint centre, double angle, const guint *motifs, guint n)
{
  *hooping = (HwHooping){
    .hoop = hoop,
    .centre = centre,
    .angle = angle,
    .motifs = g_new (guint, n),
    .n_motifs = n,
    .predicted_error = g_new (double, n),
    .margin = 4.5,
  };
  for (guint i = 0; i < n; i++)
    {
      hooping->motifs[i] = motifs[i];
      hooping->predicted_error[i] = 0.41 + 0.02 * i;
    }
}

static void
set_marks (HwHooping *hooping, const HwMark *marks, guint n)
{
  hooping->marks = g_memdup2 (marks, n * sizeof *marks);
  hooping->n_marks = n;
}

static void
add_problem (HwPlan *plan, HwProblemKind kind, int motif, const char *text)
{
  HwProblem *problem = g_new0 (HwProblem, 1);

  problem->kind = kind;
  problem->motif = motif;
  problem->hooping = -1;
  problem->text = g_strdup (text);
  g_ptr_array_add (plan->problems, problem);
}

HwPlan *
garden_plan (void)
{
  static const guint first[] = { 0, 1, 2 }, second[] = { 3 };
  static const HwMark marks_1[] = { { "A", { 70, 60 } }, { "B", { 190, 220 } } };
  static const HwMark marks_2[] = { { "B", { 190, 220 } }, { "C", { 330, 90 } }, { "D", { 300, 260 } } };
  g_autoptr (HwSnapshot) snapshot = make_garden (420, 320);
  HwPlan *plan;
  HwMotif *wide;

  g_ptr_array_add (snapshot->motifs, garden_motif ("m1", "Fig branch", 90, 60,
                                                   (HwPlacement){ { 110, 90 }, 0, 1, FALSE }, 4200));
  g_ptr_array_add (snapshot->motifs,
                   garden_motif ("m2", "Quince", 50, 40, (HwPlacement){ { 140, 130 }, 30, 0.9, TRUE }, 2600));
  g_ptr_array_add (snapshot->motifs, garden_motif ("m3", "Climbing rose over the old gate", 40, 70,
                                                   (HwPlacement){ { 160, 200 }, -12.5, 1.1, FALSE }, 5100));
  g_ptr_array_add (snapshot->motifs,
                   garden_motif ("m4", "Sundial", 80, 80, (HwPlacement){ { 280, 160 }, 20, 1, FALSE }, 6800));
  wide
      = garden_motif ("m5", "Vine along the wall", 330, 36, (HwPlacement){ { 210, 280 }, 0, 1, FALSE }, 9000);
  wide->note
      = g_strdup ("Drawn for this garden; may be stitched and shared freely with this note kept beside it.");
  g_ptr_array_add (snapshot->motifs, wide);

  plan = hw_plan_new (snapshot);
  plan->status = HW_PLAN_UNPLANNABLE;
  plan->lower_bound = 2;
  plan->n_hoopings = 2;
  plan->hoopings = g_new0 (HwHooping, 2);
  set_hooping (&plan->hoopings[0], 1, (HwPoint){ 130, 145 }, 12.5, first, 3);
  set_marks (&plan->hoopings[0], marks_1, 2);
  set_hooping (&plan->hoopings[1], 0, (HwPoint){ 282, 160 }, 0, second, 1);
  set_marks (&plan->hoopings[1], marks_2, 3);
  hw_plan_count (plan);
  add_problem (plan, HW_PROBLEM_OVERSIZE, 4,
               "Vine along the wall does not fit the 200 × 300 hoop: it is 14.0 mm too long at its best "
               "angle. At 94 % "
               "it fits.");

  return plan;
}

static void
set_yarns (HwPlan *plan, guint motif, guint first, guint second)
{
  HwMotif *record = g_ptr_array_index (plan->snapshot->motifs, motif);
  const guint chosen[] = { first, second };
  HwThreadBlock blocks[2] = { { 0 } };

  for (guint i = 0; i < 2; i++)
    {
      blocks[i].name = (char *)yarns[chosen[i]].name;
      blocks[i].colour = yarns[chosen[i]].colour;
      blocks[i].stitches = record->threads[i].stitches;
    }
  hw_motif_set_threads (record, blocks, 2);
}

HwPlan *
garden_plan_in_turns (void)
{
  static const HwBlockStep turns[] = { { 0, 0 }, { 1, 0 }, { 1, 1 }, { 2, 0 }, { 2, 1 }, { 0, 1 } };
  HwPlan *plan = garden_plan ();

  ((HwMotif *)g_ptr_array_index (plan->snapshot->motifs, 0))->placement.position = (HwPoint){ 95, 75 };
  set_yarns (plan, 0, 1, 2);
  set_yarns (plan, 1, 1, 4);
  set_yarns (plan, 2, 4, 6);
  set_yarns (plan, 3, 2, 5);
  plan->hoopings[0].steps = g_memdup2 (turns, sizeof turns);
  plan->hoopings[0].n_steps = G_N_ELEMENTS (turns);
  hw_plan_count (plan);

  return plan;
}

HwPlan *
garden_plan_bare (void)
{
  g_autoptr (HwSnapshot) snapshot = make_garden (420, 320);

  return hw_plan_new (snapshot);
}

HwPlan *
garden_plan_large (guint n_motifs, guint n_stitches)
{
  guint columns = (guint)ceil (sqrt (n_motifs));
  g_autoptr (HwSnapshot) snapshot = make_garden (columns * 110 + 100, (n_motifs / columns + 1) * 110 + 100);
  HwPlan *plan;

  for (guint i = 0; i < n_motifs; i++)
    {
      g_autofree char *id = g_strdup_printf ("m%u", i), *name = g_strdup_printf ("Espalier %u", i + 1);
      HwPlacement placement
          = { { 105 + 110.0 * (i % columns), 105 + 110.0 * (i / columns) }, 7.0 * i, 1, i % 3 == 0 };

      g_ptr_array_add (snapshot->motifs, garden_motif (id, name, 100, 80 + i % 7, placement, n_stitches));
    }

  plan = hw_plan_new (snapshot);
  plan->n_hoopings = n_motifs;
  plan->hoopings = g_new0 (HwHooping, n_motifs);
  for (guint i = 0; i < n_motifs; i++)
    set_hooping (&plan->hoopings[i], 0, hw_snapshot_motif (snapshot, i)->placement.position, 7.0 * i, &i, 1);
  hw_plan_count (plan);

  return plan;
}

static HwPin *
make_pin (const HwPlan *plan, guint hooping, HwWork *work)
{
  const HwHooping *h = &plan->hoopings[hooping];
  HwPin *pin = hw_pin_new ();

  pin->keep = HW_KEEP_ALL;
  pin->hoop = g_strdup (hw_snapshot_hoop (plan->snapshot, h->hoop)->id);
  pin->centre = h->centre;
  pin->angle = h->angle;
  pin->motifs = g_new0 (char *, h->n_motifs + 1);
  for (guint i = 0; i < h->n_motifs; i++)
    pin->motifs[i] = g_strdup (hw_snapshot_motif (plan->snapshot, h->motifs[i])->id);
  pin->marks = g_memdup2 (h->marks, h->n_marks * sizeof *h->marks);
  pin->n_marks = h->n_marks;
  pin->work = work;

  return pin;
}

static void
add_line (HwPlan *plan, gint64 at, HwLogKind kind, const char *motif, const char *text)
{
  g_ptr_array_add (plan->snapshot->log, hw_log_line_new (at, kind, motif, text));
}

HwPlan *
garden_plan_stitched (void)
{
  HwPlan *plan = garden_plan ();
  HwWork *first = hw_work_new (), *second = hw_work_new ();

  first->step = HW_WORK_DONE;
  first->begun = GARDEN_BEGUN;
  first->ended = GARDEN_BEGUN + 75 * 60;
  first->corrected = TRUE;
  first->correction = (HwCorrection){ { -1.8, 0.6 }, 1 };
  hw_work_set_reading (first, &(HwReading){ "A", { -77, -70 }, { -78.2, -69.6 }, FALSE });
  hw_work_set_reading (first, &(HwReading){ "B", { 74.8, 60.2 }, { 72.4, 60.2 }, TRUE });
  hw_work_set_note (first, HW_WORK_STITCH, "Needle changed after the fig branch.");
  second->step = HW_WORK_READ;
  second->begun = GARDEN_BEGUN + 86400;
  hw_work_set_reading (second, &(HwReading){ "C", { 48, -70 }, { 47.5, -70.9 }, FALSE });

  plan->hoopings[0].hold = HW_PLACE_FROZEN;
  plan->hoopings[1].hold = HW_PLACE_PINNED;
  g_ptr_array_add (plan->snapshot->frozen, make_pin (plan, 0, first));
  g_ptr_array_add (plan->snapshot->pins, make_pin (plan, 1, second));
  add_line (plan, GARDEN_BEGUN, HW_LOG_BEGUN, "m1", "Hooping 1 begun, hoop 200 × 300.");
  add_line (plan, GARDEN_BEGUN + 9 * 60, HW_LOG_CORRECTION, "m1",
            "Shift 1.8 mm left, 0.6 mm towards you; turn 1 degree clockwise.");
  add_line (plan, GARDEN_BEGUN + 31 * 60, HW_LOG_THREAD_BROKE, "m1", "The thread broke: moss, Fig branch.");
  add_line (plan, GARDEN_BEGUN + 75 * 60, HW_LOG_STITCHED, "m1", "Stitched. 1 hooping is finished.");
  add_line (plan, GARDEN_BEGUN + 86400, HW_LOG_BEGUN, "m4", "Hooping 2 begun, hoop 130 × 180.");
  add_line (plan, GARDEN_BEGUN + 86460, HW_LOG_NOTE, NULL,
            "The light is better at the window table; the lamp went back upstairs, and the cloth was pressed "
            "once more "
            "before it was laid on the stabiliser.");

  return plan;
}
