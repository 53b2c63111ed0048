/* A small walled garden planned by hand, for the paper tests. */
#pragma once

#include "../../src/planning/plan.h"

/* Two hoopings over five motifs on a 420 x 320 cloth with its edge line at 30 mm: exact figures below in
 * garden.c. Returns: (transfer full) */
HwPlan *
garden_plan (void);

/* The same with the branch moved clear of the quince and the first hooping's motifs taking turns:
 * 1 moss, 2 moss, 2 brick, 3 brick, 3 slate, 1 quince; the second hooping begins with quince, then chalk.
 * Returns: (transfer full) */
HwPlan *
garden_plan_in_turns (void);

/* The same on a bare cloth: no motif, no hooping. Returns: (transfer full) */
HwPlan *
garden_plan_bare (void);

/* The garden on its second day: the first hooping is stitched, with two readings (B left out), a correction and a note; the second is in
 * the machine, with C of its marks B, C and D read. Six lines in the log. Returns: (transfer full) */
HwPlan *
garden_plan_stitched (void);
#define GARDEN_BEGUN                                                                                         \
  G_GINT64_CONSTANT (1795626300) /* 2026-11-25 17:05 UTC, a Wednesday (date -u -d @1795626300) */

/* A motif with a needle list of about n stitches. Returns: (transfer full) */
HwMotif *
garden_motif (
    const char *id, const char *name, double width, double height, HwPlacement placement, guint n_stitches);

/* n motifs in rows, hooped four by four. Returns: (transfer full) */
HwPlan *
garden_plan_large (guint n_motifs, guint n_stitches);
