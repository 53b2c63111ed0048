/* Thread in the lockstitch. A flat stitch of length s through thickness h is a rectangle of each thread: along the cloth, and once through it, s + h, when they
 * meet in the middle of the cloth; where they loop around each other each has half a turn more, pi d / 2 (the geometry of the plain lockstitch
 * as textile handbooks have it; from memory). Wherever the threads meet, what one of them gains the other loses, so that both together always take
 * 2 (s + h) + pi d, d the mean of their thicknesses. In embroidery the needle thread is drawn to the underside, and the bobbin thread is about a third to a half
 * of it (common practice, no source): the sum is divided by that share.
 *
 * The length of a stitch is the straight way from one hole of the needle to the next, over jumps too. A cut leaves tails.
 *
 * A thread of so many tex has the section tex / (1000 density) mm^2; a wound ring of thread holds packing times its volume of it. */
#include "lockstitch.h"

#include <math.h>

#include "needle-runs.h"

double
hw_thread_diameter (double tex)
{
  g_return_val_if_fail (tex > 0, 0);

  return sqrt (4 * tex / (G_PI * HW_FIBRE_DENSITY * 1000));
}

double
hw_lockstitch_length (double length, double thickness, double needle, double bobbin)
{
  return 2 * (length + thickness) + G_PI * (needle + bobbin) / 2;
}

double
hw_wound_metres (double outer, double inner, double width, double thread, double packing)
{
  g_return_val_if_fail (outer >= inner && inner >= 0 && width >= 0 && thread > 0, 0);

  return packing * (outer * outer - inner * inner) * width / (thread * thread) / 1000;
}

/* What follows from the facts for every stitch alike. */
typedef struct
{
  double thickness;
  double needle, bobbin; /* mm, the threads */
  double share;
} Stitch;

/* Adds what a run of stitches takes, mm, with the tails where it ends. */
static void
add_stretch (HwThreadLength *length, const Stitch *stitch, const HwNeedleStretch *stretch, double scale)
{
  double both
      = stretch->stitches * hw_lockstitch_length (0, stitch->thickness, stitch->needle, stitch->bobbin)
        + 2 * stretch->path * scale;
  guint cuts = stretch->stitches > 0 ? stretch->cuts + 1 : 0;

  length->needle += both / (1 + stitch->share) + cuts * HW_NEEDLE_TAIL;
  length->bobbin += both * stitch->share / (1 + stitch->share) + cuts * HW_BOBBIN_TAIL;
}

static void
measure (const HwMotif *motif, const Stitch *stitch, HwThreadLength *lengths)
{
  g_autoptr (GArray) runs = hw_needle_runs (motif);

  for (guint r = 0; r < runs->len; r++)
    {
      guint thread = g_array_index (runs, HwNeedleRun, r).thread;

      add_stretch (&lengths[thread], stitch, &motif->needles->stretches[r], motif->placement.scale);
    }
  for (guint k = 0; k < motif->n_threads; k++)
    {
      lengths[k].counted = TRUE;
      lengths[k].needle /= 1000;
      lengths[k].bobbin /= 1000;
    }
}

/* The stitches of a motif that is made larger are longer by as much. */
static HwThreadLength
length_by_number (const HwThreadBlock *block, double scale, double share)
{
  HwThreadLength length = { NAN, NAN, FALSE };

  if (block->stitches > 0)
    {
      length.needle = block->stitches * HW_METRES_PER_1000 / 1000 * scale;
      length.bobbin = length.needle * share;
    }
  return length;
}

HwThreadLength *
hw_motif_thread_lengths (const HwMotif *motif, const HwSupplyFacts *facts)
{
  HwThreadLength *lengths;
  Stitch stitch;

  g_return_val_if_fail (motif != NULL && facts != NULL, NULL);

  lengths = g_new0 (HwThreadLength, MAX (motif->n_threads, 1));
  stitch.thickness = hw_supply_facts_thickness (facts);
  stitch.needle = hw_thread_diameter (facts->needle_tex);
  stitch.bobbin = hw_thread_diameter (facts->bobbin_tex);
  stitch.share = facts->bobbin_share;
  if (motif->needles != NULL && motif->needles->n_stitches > 0 && motif->n_threads > 0)
    measure (motif, &stitch, lengths);
  else
    for (guint k = 0; k < motif->n_threads; k++)
      lengths[k] = length_by_number (&motif->threads[k], motif->placement.scale, facts->bobbin_share);
  return lengths;
}
