/* A small scene on a bench, and the wait for its plan. */
#pragma once

#include "workbench/bench.h"

G_BEGIN_DECLS

/* Three motifs of 40 x 40 mm: "Pear" and "Plum" near each other, "Quince" 400 mm away, and one hoop of 130 x 180 mm: two hoopings.
 * Returns: (transfer full) */
HwBench *
bench_with_orchard (void);
/* A motif of 40 x 40 mm in one thread. Returns: (transfer full) */
HwMotif *
orchard_motif (const char *id, const char *name, double x, double y);
/* One more motif, in rows of stitches 30 mm wide in two threads, laid there; it is selected. */
void
bench_add_stitched (HwBench *bench, const char *name, double x, double y);
/* Runs the main loop until the newest plan is there and is the last. */
void
wait_for_plan (HwBench *bench);

G_END_DECLS
