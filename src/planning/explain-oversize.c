/* What would make a motif fit that no hoop takes: turned on the cloth, made smaller, or a larger hoop. */
#include <math.h>

#include "common-hoops.h"
#include "explain-private.h"
#include "sharing-private.h"
#include "../geometry/language.h"

/* The turn, anticlockwise, of least amount within the range, whose ends have the same sign; as round a figure as lies in it. */
static double
least_turn (double from, double to)
{
  double sign = from + to < 0 ? -1 : 1, near = MIN (fabs (from), fabs (to)),
         far = MAX (fabs (from), fabs (to));

  for (double parts = 10; parts < 1e5; parts *= 10)
    if (ceil (near * parts) / parts <= far)
      return sign * ceil (near * parts) / parts;
  return (from + to) / 2;
}

double
hw_explaining_turn (const HwExplaining *ex, const GArray *hull)
{
  double least = 0;

  for (guint h = 0; h < ex->usable->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (ex->usable, h);
      g_autoptr (HwHoop) turning = NULL;
      g_autoptr (GArray) ranges = NULL;

      if (hoop->turn != HW_TURN_QUARTER || ex->scene->fabric.hold == HW_HOLD_CLAMPED)
        continue;
      turning = hw_hoop_copy (hoop);
      turning->turn = HW_TURN_ANY;
      ranges = hw_sharing_angles ((const HwPoint *)hull->data, hull->len, turning, &ex->scene->fabric);
      for (guint r = 0; r < ranges->len; r++)
        for (guint quarter = 0; quarter <= 2; quarter++)
          {
            HwAngleInterval range = g_array_index (ranges, HwAngleInterval, r);
            double turn = least_turn (range.from - 90.0 * quarter, range.to - 90.0 * quarter);

            if (least == 0 || fabs (turn) < fabs (least))
              least = turn;
          }
    }
  return -least;
}

char *
hw_explaining_turn_text (double turn, const char *name)
{
  g_autofree char *amount = hw_angle_text (fabs (turn));

  return g_strdup_printf (turn > 0 ? _ ("Turned %s clockwise on the cloth, %s fits.")
                                   : _ ("Turned %s anticlockwise on the cloth, %s fits."),
                          amount, name);
}

static void
add_turn (GString *text, const HwExplaining *ex, guint motif, const GArray *hull)
{
  double turn = hw_explaining_turn (ex, hull);
  g_autofree char *words = NULL;

  if (turn == 0)
    return;
  words = hw_explaining_turn_text (turn, hw_explaining_name (ex, motif));
  g_string_append_printf (text, "• %s\n", words);
}

static void
add_scale (GString *text, const HwExplaining *ex, guint motif, double scale)
{
  const HwWishes *wishes = &ex->scene->wishes;
  double then = scale * hw_snapshot_motif (ex->scene, motif)->placement.scale;

  if (!(scale >= 0.01))
    return;
  g_string_append_printf (text, _ ("• At %d %% of its size here, %s fits."), (int)floor (scale * 100 + 1e-9),
                          hw_explaining_name (ex, motif));
  if (then < wishes->scale_low)
    g_string_append_printf (text, _ (" That is %d %% of its design; below %d %% it needs new stitches."),
                            (int)floor (then * 100 + 1e-9), (int)lround (wishes->scale_low * 100));
  g_string_append (text, "\n");
}

static void
add_hoop (GString *text, const HwExplaining *ex, guint motif, const GArray *hull)
{
  for (guint k = 0; k < HW_N_COMMON_HOOPS; k++)
    {
      g_autoptr (HwHoop) hoop = hw_common_hoop_new (k, ex->scene);
      g_autofree char *size = NULL;

      if (!hw_sharing_fits ((const HwPoint *)hull->data, hull->len, hoop, &ex->scene->fabric))
        continue;
      size = hw_explaining_hoop_size (ex, hoop);
      g_string_append_printf (text, _ ("• A hoop with a field of %s takes %s as it is.\n"), size,
                              hw_explaining_name (ex, motif));
      return;
    }
  g_string_append_printf (text, _ ("• No common hoop takes %s as it is; it would have to be parted.\n"),
                          hw_explaining_name (ex, motif));
}

void
hw_explain_add_oversize (GString *text, const HwExplaining *ex, guint motif)
{
  g_autoptr (GArray) hull = hw_explaining_hull (ex, &motif, 1);
  HwNearMiss near_miss = hw_sharing_nearest ((const HwPoint *)hull->data, hull->len, ex->usable);

  add_turn (text, ex, motif, hull);
  add_scale (text, ex, motif, near_miss.scale);
  add_hoop (text, ex, motif, hull);
}
