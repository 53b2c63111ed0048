/* The warnings of a plan, rule by rule, and the first of them: a motif scaled outside the range in which its stitches still hold. The
 * same number of stitches on an area that grows with the square of the scale: density goes with one over it. */
#include "warnings.h"

#include <math.h>

#include "../geometry/figures.h"
#include "../geometry/language.h"
#include "../geometry/region.h"
#include "warnings-private.h"

#define MOST_NAMES 3
#define SAME_SCALE 1e-6

HwProblem *
hw_warner_tell (
    HwWarner *warner, HwProblemKind kind, int motif, int hooping, double amount, HwPoint where, char *text)
{
  HwProblem *problem;

  if (warner->told++ >= HW_WARNINGS_MOST)
    {
      g_free (text);
      return NULL;
    }
  problem = hw_plan_add_problem (warner->plan, kind, motif, FALSE, text);
  problem->hooping = hooping;
  problem->amount = amount;
  problem->where = where;
  return problem;
}

guint
hw_warner_untold (const HwWarner *warner)
{
  return warner->told > HW_WARNINGS_MOST ? warner->told - HW_WARNINGS_MOST : 0;
}

void
hw_warner_rest (HwWarner *warner, HwProblemKind kind, char *text)
{
  if (hw_warner_untold (warner) > 0)
    hw_plan_add_problem (warner->plan, kind, -1, FALSE, text);
  else
    g_free (text);
  warner->told = 0;
}

const char *
hw_warner_name (const HwWarner *warner, guint motif)
{
  return hw_snapshot_motif (warner->snapshot, motif)->name;
}

char *
hw_warner_names (const HwWarner *warner, const guint *motifs, guint n)
{
  GString *text = g_string_new (NULL);
  guint named = n <= MOST_NAMES ? n : MOST_NAMES - 1;

  for (guint k = 0; k < named; k++)
    {
      if (k > 0)
        g_string_append (text, k + 1 == n ? _ (" and ") : _ (", "));
      g_string_append (text, hw_warner_name (warner, motifs[k]));
    }
  if (named < n)
    g_string_append_printf (text, ngettext (" and %u more", " and %u more", n - named), n - named);
  return g_string_free (text, FALSE);
}

HwPoint
hw_hooping_point (HwPoint centre, double angle, double u, double v)
{
  HwPoint p = hw_point_turn ((HwPoint){ u, v }, angle);

  return (HwPoint){ centre.x + p.x, centre.y + p.y };
}

HwBox
hw_hooping_box (HwPoint centre, double angle, double width, double height)
{
  HwPoint corners[4];

  for (guint k = 0; k < 4; k++)
    corners[k] = hw_hooping_point (centre, angle, width / (k & 1 ? 2 : -2), height / (k & 2 ? 2 : -2));
  return hw_box_of_points (corners, 4);
}

/* "70 %", "79.6 %". */
static char *
percent_text (double scale)
{
  double percent = scale * 100;
  g_autofree char *figure = hw_figure_text (percent, fabs (percent - round (percent)) < 0.05 ? 0 : 1);

  return g_strdup_printf (_ ("%s %%"), figure);
}

static char *
scale_text (const HwWarner *warner, const HwMotif *motif)
{
  const HwWishes *wishes = &warner->snapshot->wishes;
  double scale = motif->placement.scale, times = 1 / (scale * scale);
  double area = hw_outline_area (motif->outline);
  double made = area > 0 ? hw_motif_stitches (motif) / area : 0;
  g_autofree char *percent = percent_text (scale), *low = percent_text (wishes->scale_low);
  g_autofree char *high = percent_text (wishes->scale_high), *density = NULL;
  g_autofree char *dense = hw_figure_text (times, 2);

  if (made > 0)
    {
      g_autofree char *now = hw_figure_text (made * times, 2), *then = hw_figure_text (made, 2);

      density = g_strdup_printf (_ (": %s stitches per mm² in place of %s"), now, then);
    }
  if (scale < wishes->scale_low)
    return g_strdup_printf (_ ("At %s, %s is stitched %s times as dense as it was made%s. From %s to %s its "
                               "stitches hold; beyond that the cloth may pucker."),
                            percent, motif->name, dense, density != NULL ? density : "", low, high);
  return g_strdup_printf (_ ("At %s, %s is stitched only %s times as dense as it was made%s. From %s to %s "
                             "its stitches hold; beyond that the cloth may show through."),
                          percent, motif->name, dense, density != NULL ? density : "", low, high);
}

void
hw_warn_scale (HwWarner *warner)
{
  const HwWishes *wishes = &warner->snapshot->wishes;

  for (guint i = 0; i < warner->snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (warner->snapshot, i);
      double scale = motif->placement.scale;
      gboolean told = warner->told >= HW_WARNINGS_MOST;

      if (scale >= wishes->scale_low - SAME_SCALE && scale <= wishes->scale_high + SAME_SCALE)
        continue;
      hw_warner_tell (warner, HW_PROBLEM_SCALE_RANGE, i, -1, scale, motif->placement.position,
                      told ? NULL : scale_text (warner, motif));
    }
  hw_warner_rest (
      warner, HW_PROBLEM_SCALE_RANGE,
      g_strdup_printf (ngettext ("%u more motif is scaled outside the range in which its stitches hold.",
                                 "%u more motifs are scaled outside the range in which their stitches hold.",
                                 hw_warner_untold (warner)),
                       hw_warner_untold (warner)));
}

static HwPlaced *
place_all (const HwSnapshot *snapshot)
{
  HwPlaced *placed = g_new0 (HwPlaced, snapshot->motifs->len + 1);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    placed[i].outline = hw_outline_place (hw_snapshot_motif (snapshot, i)->outline,
                                          &hw_snapshot_motif (snapshot, i)->placement);
  return placed;
}

void
hw_warnings_add (HwPlan *plan, const HwPlaced *placed, HwUnit unit)
{
  g_autofree HwPlaced *own = NULL;
  HwWarner warner = { .plan = plan, .placed = placed, .unit = unit };

  g_return_if_fail (plan != NULL);

  warner.snapshot = plan->snapshot;
  if (placed == NULL)
    warner.placed = own = place_all (plan->snapshot);
  hw_warn_scale (&warner);
  hw_warn_hairlines (&warner);
  hw_warn_frames_off_cloth (&warner);
  hw_warn_frames_on_stitching (&warner);
  hw_warn_cloth (&warner);
  for (guint i = 0; own != NULL && i < plan->snapshot->motifs->len; i++)
    hw_outline_unref (own[i].outline);
}
