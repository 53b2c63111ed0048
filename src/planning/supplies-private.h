/* The parts that supplies are reckoned in. */
#pragma once

#include "../scene/lockstitch.h"
#include "supplies.h"

G_BEGIN_DECLS

/* What each motif of a plan takes, reckoned as it is asked for. The plan must outlive it. */
typedef struct
{
  const HwPlan *plan;
  HwThreadLength **lengths; /* per motif, or NULL: not asked for yet */
} HwSupplying;

HwSupplying *
hw_supplying_new (const HwPlan *plan);
void
hw_supplying_free (HwSupplying *supplying);

/* The thread blocks of the hooping that are still to be stitched. Returns: (transfer full) (element-type HwBlockStep) */
GArray *
hw_supplying_steps (HwSupplying *supplying, guint hooping);
/* Metres of bobbin thread of the block; NAN: not known. */
double
hw_supplying_bobbin (HwSupplying *supplying, const HwBlockStep *step);

/* supplies-bobbins.c: where a full bobbin is put in. Fills the bobbin fields of each hooping; their hooping and
 * bobbin_metres are there. now: metres on the one in the machine; NAN: not known. Returns: how many full bobbins are taken */
guint
hw_supplying_wind (HwSupplying *supplying, HwHoopingSupplies *hoopings, guint n, double *now);

/* supplies-words.c: the size of the cloth to cut and why; what the thread lengths rest on. Returns: (transfer full) */
void
hw_supplies_cut_cloth (HwSupplies *supplies);
char *
hw_supplies_assumptions (const HwSupplies *supplies);

G_END_DECLS
