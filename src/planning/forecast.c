/* What stitching will draw in. A motif is a round patch that shrinks by its stitch density times the rule of thumb (common practice, no source). In an even sheet
 * around a middle the way is a r + b / r (Lame's solution; S. P. Timoshenko and J. N. Goodier, Theory of Elasticity, the plane problem with axial
 * symmetry; from memory): inside the patch it grows with r, outside, where the sheet ends nowhere near, it falls with 1 / r, and at the rim both
 * are the same. Ways of several patches add up, being small. */
#include "forecast.h"

#include <math.h>

#include "../geometry/region.h"

/* No patch is taken to shrink by more than this part: beyond it the rule of thumb says nothing. */
#define MOST 0.20
/* Places along each side at which the whole picture is measured. */
#define N_ALONG_SIDE 33

typedef struct
{
  HwPoint middle;
  double radius2; /* mm^2 */
  double shrink;  /* part */
} Patch;

static Patch
patch_of (const HwMotif *motif, double draw_in)
{
  double area = hw_outline_area (motif->outline) * motif->placement.scale * motif->placement.scale;
  Patch patch = { motif->placement.position, area / G_PI, 0 };

  if (area > 0)
    patch.shrink = MIN (MOST, draw_in / 100 * hw_motif_stitches (motif) / area);
  return patch;
}

/* The patches of the snapshot's motifs. Returns: (transfer full) */
static Patch *
patches_of (const HwPlan *plan)
{
  const HwSnapshot *snapshot = plan->snapshot;
  Patch *patches = g_new0 (Patch, MAX (snapshot->motifs->len, 1));

  for (guint i = 0; i < snapshot->motifs->len; i++)
    patches[i] = patch_of (hw_snapshot_motif (snapshot, i), snapshot->wishes.draw_in);
  return patches;
}

static void
add_move (HwPoint *move, const Patch *patch, HwPoint place)
{
  double x = place.x - patch->middle.x, y = place.y - patch->middle.y, distance2 = x * x + y * y;
  double part = distance2 <= patch->radius2 ? patch->shrink : patch->shrink * patch->radius2 / distance2;

  move->x -= part * x;
  move->y -= part * y;
}

static HwPoint
move_at (const HwPlan *plan, const Patch *patches, guint before, HwPoint place)
{
  HwPoint move = { 0, 0 };

  for (guint k = 0; k < MIN (before, plan->n_hoopings); k++)
    {
      const HwHooping *hooping = &plan->hoopings[k];

      if (hooping->hold == HW_PLACE_FROZEN)
        continue;
      for (guint i = 0; i < hooping->n_motifs; i++)
        add_move (&move, &patches[hooping->motifs[i]], place);
    }
  return move;
}

void
hw_forecast_moves (const HwPlan *plan, HwPoint *moves)
{
  g_autofree Patch *patches = NULL;

  g_return_if_fail (plan != NULL);
  g_return_if_fail (moves != NULL || plan->snapshot->motifs->len == 0);

  patches = patches_of (plan);
  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    moves[i] = (HwPoint){ 0, 0 };
  for (guint k = 0; k < plan->n_hoopings; k++)
    if (plan->hoopings[k].hold != HW_PLACE_FROZEN)
      for (guint i = 0; i < plan->hoopings[k].n_motifs; i++)
        {
          guint motif = plan->hoopings[k].motifs[i];

          moves[motif] = move_at (plan, patches, k, patches[motif].middle);
        }
}

HwPoint
hw_forecast_move_at (const HwPlan *plan, guint before, HwPoint place)
{
  g_autofree Patch *patches = NULL;

  g_return_val_if_fail (plan != NULL, ((HwPoint){ 0, 0 }));

  patches = patches_of (plan);
  return move_at (plan, patches, before, place);
}

void
hw_forecast_whole (const HwPlan *plan, double *across, double *along)
{
  g_autofree Patch *patches = NULL;
  HwBox box = HW_BOX_EMPTY;
  double width, height;

  g_return_if_fail (plan != NULL && across != NULL && along != NULL);

  *across = *along = 0;
  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (plan->snapshot, i);
      g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);

      box = hw_box_union (box, placed->box);
    }
  width = box.x1 - box.x0;
  height = box.y1 - box.y0;
  if (hw_box_is_empty (box) || width <= 0 || height <= 0)
    return;
  patches = patches_of (plan);
  for (guint i = 0; i < N_ALONG_SIDE; i++)
    {
      double part = (i + 0.5) / N_ALONG_SIDE, x = box.x0 + part * width, y = box.y0 + part * height;
      HwPoint left = move_at (plan, patches, plan->n_hoopings, (HwPoint){ box.x0, y });
      HwPoint right = move_at (plan, patches, plan->n_hoopings, (HwPoint){ box.x1, y });
      HwPoint top = move_at (plan, patches, plan->n_hoopings, (HwPoint){ x, box.y0 });
      HwPoint bottom = move_at (plan, patches, plan->n_hoopings, (HwPoint){ x, box.y1 });

      *across += 100 * (left.x - right.x) / width / N_ALONG_SIDE;
      *along += 100 * (top.y - bottom.y) / height / N_ALONG_SIDE;
    }
}
