/* Problems: the sentences a person reads when something in the scene needs a look. Each names the motif, the amount and the place. */
#include "problems.h"

#include <math.h>

#include "sharing.h"
#include "../geometry/language.h"

#define VISIBLE 0.05 /* mm: less is rounding, not a mistake */

static const char *
name_of (const HwPlan *plan, guint motif)
{
  return hw_snapshot_motif (plan->snapshot, motif)->name;
}

/* "At 96 % it fits." rounded down, so that it does. */
static char *
scale_text (double scale)
{
  if (!(scale >= 0.01))
    return g_strdup ("");
  return g_strdup_printf (_ (" At %d %% it fits."), (int)floor (scale * 100 + 1e-9));
}

static char *
oversize_text (const HwSnapshot *usable, guint motif, const HwNearMiss *miss, HwUnit unit)
{
  const char *name = hw_snapshot_motif (usable, motif)->name;
  const HwHoop *hoop;
  g_autofree char *size = NULL, *length = NULL, *scale = scale_text (miss->scale);

  if (!isfinite (miss->miss))
    return g_strdup_printf (_ ("%s fits no hoop: none of them has a usable field."), name);
  hoop = hw_snapshot_hoop (usable, miss->hoop);
  size = hw_size_text (hoop->field_width, hoop->field_height, unit);
  length = hw_length_text (miss->miss, unit);
  if (miss->by_frame)
    return g_strdup_printf (
        _ ("%s cannot be hooped where it lies: the cloth is clamped, and the frame of the %s hoop would pass "
           "the cloth by %s.%s"),
        name, size, length, scale);
  if (miss->too_wide)
    return g_strdup_printf (_ ("%s does not fit the %s hoop: it is %s too wide at its best angle.%s"), name,
                            size, length, scale);
  return g_strdup_printf (_ ("%s does not fit the %s hoop: it is %s too long at its best angle.%s"), name,
                          size, length, scale);
}

/* " The 200 x 300 hoop would take it, but is set aside.", or nothing: the smallest of them. */
static char *
set_aside_text (const HwPlan *plan, const HwOutline *placed, HwUnit unit)
{
  const HwHoop *best = NULL;
  g_autofree char *size = NULL;

  for (guint i = 0; i < plan->snapshot->hoops->len; i++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, i);

      if (hoop->set_aside && hw_sharing_fits (placed->hull, placed->n_hull, hoop, &plan->snapshot->fabric)
          && (best == NULL
              || hoop->field_width * hoop->field_height < best->field_width * best->field_height))
        best = hoop;
    }
  if (best == NULL)
    return g_strdup ("");
  size = hw_size_text (best->field_width, best->field_height, unit);
  return g_strdup_printf (_ (" The %s hoop, which is set aside, would take it."), size);
}

/* The scene with the hoops in use only. */
static HwSnapshot *
with_hoops_in_use (const HwSnapshot *snapshot)
{
  HwSnapshot *usable = hw_snapshot_copy (snapshot);

  for (guint i = usable->hoops->len; i-- > 0;)
    if (hw_snapshot_hoop (usable, i)->set_aside)
      g_ptr_array_remove_index (usable->hoops, i);
  return usable;
}

void
hw_problems_add_oversize (HwPlan *plan, guint motif, const HwOutline *placed, HwUnit unit)
{
  g_autoptr (HwSnapshot) usable = with_hoops_in_use (plan->snapshot);
  HwNearMiss miss = hw_sharing_nearest (placed->hull, placed->n_hull, usable);
  g_autofree char *text = oversize_text (usable, motif, &miss, unit);
  g_autofree char *aside = set_aside_text (plan, placed, unit);
  HwProblem *problem
      = hw_plan_add_problem (plan, HW_PROBLEM_OVERSIZE, motif, TRUE, g_strconcat (text, aside, NULL));

  problem->amount = miss.miss;
}

void
hw_problems_add_loop (HwPlan *plan, const GArray *loop)
{
  guint first = g_array_index (loop, guint, 0), second = g_array_index (loop, guint, 1);
  g_autofree char *chain = NULL;

  if (loop->len == 2)
    {
      hw_plan_add_problem (
          plan, HW_PROBLEM_ORDER_LOOP, first, TRUE,
          g_strdup_printf (_ ("%s is tied before itself. That tie is left out."), name_of (plan, first)));
      return;
    }
  chain = hw_order_chain_text (plan->snapshot, &g_array_index (loop, guint, 1), loop->len - 1);
  hw_plan_add_problem (
      plan, HW_PROBLEM_ORDER_LOOP, first, TRUE,
      g_strdup_printf (_ ("%s is tied before %s, but the order already goes %s. That tie is left out."),
                       name_of (plan, first), name_of (plan, second), chain));
}

/* The point of the outline's sides nearest to p. */
static HwPoint
nearest_side (const HwOutline *outline, HwPoint p)
{
  HwPoint nearest = p;
  double least = G_MAXDOUBLE;

  for (guint r = 0; r < outline->n_rings; r++)
    for (guint i = 0, n = outline->rings[r].n_points; i < n; i++)
      {
        HwPoint a = outline->rings[r].points[i], b = outline->rings[r].points[(i + 1) % n];
        double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
        double t = length2 > 0 ? CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0, 1) : 0;
        HwPoint at = { a.x + t * dx, a.y + t * dy };

        if (hw_point_distance (at, p) < least)
          {
            least = hw_point_distance (at, p);
            nearest = at;
          }
      }
  return nearest;
}

/* Towards which side, as seen on the cloth, a place of the motif goes over the edge line, or comes near it from inside. */
static const char *
side_text (const HwOutline *edge, HwPoint where, gboolean inside)
{
  HwPoint side = nearest_side (edge, where);
  double dx = where.x - side.x, dy = where.y - side.y;

  if (inside)
    {
      dx = -dx;
      dy = -dy;
    }
  if (fabs (dx) >= fabs (dy))
    return dx < 0 ? _ ("left") : _ ("right");
  return dy < 0 ? _ ("top") : _ ("bottom");
}

static void
add_edge_problem (HwPlan *plan, guint motif, double amount, gboolean margin_only, HwPoint where, HwUnit unit)
{
  g_autofree char *length = hw_length_text (amount, unit);
  g_autofree char *margin = hw_length_text (plan->snapshot->edge_line->margin, unit);
  HwProblem *problem;
  char *text;

  if (margin_only)
    text = g_strdup_printf (_ ("%s comes too near the edge line by %s at its %s; %s are kept free."),
                            name_of (plan, motif), length,
                            side_text (plan->snapshot->edge_line->outline, where, margin_only), margin);
  else
    text = g_strdup_printf (_ ("%s passes the edge line by %s at its %s."), name_of (plan, motif), length,
                            side_text (plan->snapshot->edge_line->outline, where, margin_only));
  problem = hw_plan_add_problem (plan, HW_PROBLEM_OUTSIDE_EDGE_LINE, motif, FALSE, text);
  problem->amount = amount;
  problem->where = where;
}

static void
check_edge_line (HwPlan *plan, HwPlacings *placings, guint motif, HwUnit unit)
{
  const HwEdgeLine *edge = plan->snapshot->edge_line;
  HwPoint where = { 0, 0 };
  double beyond;

  if (edge == NULL)
    return;
  beyond = hw_placings_passes_edge (placings, motif, edge, TRUE, &where);
  if (beyond <= VISIBLE)
    return;
  if (hw_placings_passes_edge (placings, motif, edge, FALSE, &where) > VISIBLE)
    {
      add_edge_problem (plan, motif, hw_placings_passes_edge (placings, motif, edge, FALSE, &where), FALSE,
                        where, unit);
      return;
    }
  hw_placings_passes_edge (placings, motif, edge, TRUE, &where);
  add_edge_problem (plan, motif, beyond, TRUE, where, unit);
}

static void
check_cloth (HwPlan *plan, guint motif, const HwOutline *placed, HwUnit unit)
{
  const HwFabric *fabric = &plan->snapshot->fabric;
  double beyond[]
      = { -placed->box.x0, placed->box.x1 - fabric->width, -placed->box.y0, placed->box.y1 - fabric->height };
  const char *sides[] = { _ ("left"), _ ("right"), _ ("top"), _ ("bottom") };
  guint side = 0;
  g_autofree char *length = NULL;
  HwProblem *problem;

  for (guint k = 1; k < G_N_ELEMENTS (beyond); k++)
    if (beyond[k] > beyond[side])
      side = k;
  if (!(beyond[side] > VISIBLE))
    return;
  length = hw_length_text (beyond[side], unit);
  problem = hw_plan_add_problem (plan, HW_PROBLEM_OUTSIDE_CLOTH, motif, FALSE,
                                 g_strdup_printf (_ ("%s leaves the cloth by %s at its %s."),
                                                  name_of (plan, motif), length, sides[side]));
  problem->amount = beyond[side];
  problem->where = (HwPoint){ CLAMP ((placed->box.x0 + placed->box.x1) / 2, 0, fabric->width),
                              CLAMP ((placed->box.y0 + placed->box.y1) / 2, 0, fabric->height) };
  if (side < 2)
    problem->where.x = side == 0 ? 0 : fabric->width;
  else
    problem->where.y = side == 2 ? 0 : fabric->height;
}

/* The reason was given in the screen's language when the artwork was read. */
static char *
artwork_text (const HwMotif *motif)
{
  if (hw_language_now () != NULL)
    return g_strdup_printf (_ ("%s is drawn from its outline: its artwork could not be read."), motif->name);
  /* Translators: the motif's name; then why its artwork cannot be shown, such as "buoy.csv: there is no such file." */
  return g_strdup_printf (_ ("%s is drawn from its outline. %s"), motif->name, motif->artwork_trouble);
}

static void
check_motif (HwPlan *plan, HwPlacings *placings, guint motif, const HwOutline *placed, HwUnit unit)
{
  const HwMotif *record = hw_snapshot_motif (plan->snapshot, motif);

  check_cloth (plan, motif, placed, unit);
  check_edge_line (plan, placings, motif, unit);
  if (record->artwork_trouble != NULL)
    hw_plan_add_problem (plan, HW_PROBLEM_ARTWORK, motif, FALSE, artwork_text (record));
  if (record->outline_repaired)
    hw_plan_add_problem (
        plan, HW_PROBLEM_OUTLINE_REPAIRED, motif, FALSE,
        g_strdup_printf (_ ("The outline of %s crossed itself and was mended; please check its shape."),
                         record->name));
}

static void
check_hoops (HwPlan *plan)
{
  const GPtrArray *hoops = plan->snapshot->hoops;
  guint aside = 0;

  for (guint i = 0; i < hoops->len; i++)
    aside += ((const HwHoop *)g_ptr_array_index (hoops, i))->set_aside;
  if (aside < hoops->len || plan->snapshot->motifs->len == 0)
    return;
  hw_plan_add_problem (
      plan, HW_PROBLEM_NO_HOOP, -1, TRUE,
      hoops->len > 0
          ? g_strdup (_ ("Every hoop of the scene is set aside. Take one into use, and the hoopings follow."))
          : g_strdup (_ ("The scene has no hoop yet. Add the hoops you own, and the hoopings follow.")));
}

void
hw_problems_add_scene (HwPlan *plan, HwPlacings *placings, const HwPlaced *placed, HwUnit unit)
{
  check_hoops (plan);
  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    check_motif (plan, placings, i, placed[i].outline, unit);
}
