/* How large the cloth is cut and why, and what the thread lengths rest on. The edge line with the cloth the person wants around it; where the cloth is clamped all
 * frames too; and what the stitching is expected to draw in (forecast.h). */
#include <math.h>

#include "../geometry/figures.h"
#include "../geometry/language.h"
#include "forecast.h"
#include "supplies-private.h"
#include "warnings-private.h"

#define VISIBLE 0.05 /* mm, percent */

typedef struct
{
  HwBox edge;           /* the edge line, or all cloth of the scene where there is none */
  HwBox around;         /* with the cloth around it */
  HwBox frames;         /* on clamped cloth all frames with the cloth around them; else empty */
  double across, along; /* percent drawn in */
} Cloth;

static HwBox
grow (HwBox box, double by)
{
  return (HwBox){ box.x0 - by, box.y0 - by, box.x1 + by, box.y1 + by };
}

static void
lay_frames (const HwPlan *plan, Cloth *cloth)
{
  const HwSnapshot *snapshot = plan->snapshot;

  cloth->frames = HW_BOX_EMPTY;
  if (snapshot->fabric.hold != HW_HOLD_CLAMPED)
    return;
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      const HwHooping *hooping = &plan->hoopings[h];
      const HwHoop *hoop;

      if (hooping->hoop >= snapshot->hoops->len)
        continue;
      hoop = hw_snapshot_hoop (snapshot, hooping->hoop);
      cloth->frames = hw_box_union (
          cloth->frames,
          grow (hw_hooping_box (hooping->centre, hooping->angle, hoop->frame_width, hoop->frame_height),
                snapshot->supplies.beyond_frames));
    }
}

static Cloth
lay_cloth (const HwPlan *plan)
{
  const HwSnapshot *snapshot = plan->snapshot;
  Cloth cloth = { .edge = { 0, 0, snapshot->fabric.width, snapshot->fabric.height } };

  cloth.around = cloth.edge;
  if (snapshot->edge_line != NULL)
    {
      cloth.edge = snapshot->edge_line->outline->box;
      cloth.around = grow (cloth.edge, snapshot->supplies.beyond_edge);
    }
  lay_frames (plan, &cloth);
  hw_forecast_whole (plan, &cloth.across, &cloth.along);
  return cloth;
}

/* Up to the next whole millimetre or tenth of an inch, with what is drawn in. */
static double
side_to_cut (double side, double percent, HwUnit unit)
{
  double step = unit == HW_UNIT_INCH ? HW_MM_PER_INCH / 10 : 1;

  return ceil (side / (1 - CLAMP (percent, 0, 50) / 100) / step - 1e-6) * step;
}

static gboolean
reaches_beyond (HwBox box, HwBox other)
{
  return !hw_box_is_empty (box)
         && (box.x0 < other.x0 - VISIBLE || box.y0 < other.y0 - VISIBLE || box.x1 > other.x1 + VISIBLE
             || box.y1 > other.y1 + VISIBLE);
}

static char *
edge_text (const HwPlan *plan, const Cloth *cloth)
{
  g_autofree char *size
      = hw_size_text (cloth->edge.x1 - cloth->edge.x0, cloth->edge.y1 - cloth->edge.y0, plan->unit);
  g_autofree char *beyond = hw_length_text (plan->snapshot->supplies.beyond_edge, plan->unit);
  g_autofree char *frames = NULL;

  if (plan->snapshot->edge_line == NULL)
    return g_strdup (_ ("The scene has no edge line, so it is the whole cloth as you gave it."));
  if (!reaches_beyond (cloth->frames, cloth->around))
    return g_strdup_printf (_ ("The edge line measures %s, with %s of cloth beyond it on each side."), size,
                            beyond);
  frames = hw_length_text (plan->snapshot->supplies.beyond_frames, plan->unit);
  return g_strdup_printf (_ ("The edge line measures %s, with %s of cloth beyond it on each side; the frames "
                             "reach farther, and clamped cloth lies under them and %s beyond."),
                          size, beyond, frames);
}

void
hw_supplies_cut_cloth (HwSupplies *supplies)
{
  const HwPlan *plan = supplies->plan;
  Cloth cloth = lay_cloth (plan);
  HwBox all = hw_box_union (cloth.around, cloth.frames);
  g_autofree char *edge = edge_text (plan, &cloth);
  g_autofree char *across = hw_figure_text (MAX (cloth.across, 0), 1);
  g_autofree char *along = hw_figure_text (MAX (cloth.along, 0), 1);

  supplies->cloth_width = side_to_cut (all.x1 - all.x0, cloth.across, plan->unit);
  supplies->cloth_height = side_to_cut (all.y1 - all.y0, cloth.along, plan->unit);
  if (cloth.across < VISIBLE && cloth.along < VISIBLE)
    supplies->cloth_reason = g_steal_pointer (&edge);
  else
    supplies->cloth_reason
        = g_strdup_printf (_ ("%s The stitching is expected to draw in %s %% of it across and %s %% along."),
                           edge, across, along);
}

static char *
counted_text (const HwPlan *plan)
{
  const HwSupplyFacts *facts = &plan->snapshot->supplies;
  g_autofree char *thickness = hw_figure_text (hw_supply_facts_thickness (facts), 2);
  g_autofree char *needle = hw_figure_text (facts->needle_tex, 1);
  g_autofree char *bobbin = hw_figure_text (facts->bobbin_tex, 1);
  g_autofree char *share = hw_figure_text (facts->bobbin_share * 100, 0);

  /* Translators: figures of tex, of tex, of mm, of percent */
  return g_strdup_printf (
      _ ("Reckoned from the stitches: lockstitch in thread of %s and %s tex through %s mm "
         "of cloth and stabiliser, the bobbin thread %s %% of the needle thread, %d mm "
         "of that for each cut."),
      needle, bobbin, thickness, share, (int)HW_NEEDLE_TAIL);
}

char *
hw_supplies_assumptions (const HwSupplies *supplies)
{
  const char *number
      = _ ("Where only their number is known: 5 m to a thousand stitches; 4 to 6 m are usual.");
  gboolean counted = FALSE, by_number = FALSE;
  g_autofree char *text = counted_text (supplies->plan);

  for (guint i = 0; i < supplies->threads->len; i++)
    {
      const HwThreadUse *use = supplies->threads->pdata[i];

      counted = counted || use->counted;
      by_number = by_number || !use->counted;
    }
  if (!by_number)
    return g_steal_pointer (&text);
  if (counted)
    return g_strdup_printf ("%s %s", text, number);
  return g_strdup (
      _ ("Reckoned by the number of stitches: 5 m of needle thread to a thousand; 4 to 6 m are usual."));
}
