/* The runs of a motif's needle list: which points are stitched without a change of thread, and which of the motif's thread blocks that is. */
#pragma once

#include "records.h"

G_BEGIN_DECLS

typedef struct
{
  guint first, end; /* its points in motif->needles: first <= i < end */
  guint block;      /* the thread block it is stitched with; never less than that of the run before */
  guint thread;     /* index into motif->threads: the thread it is stitched in */
} HwNeedleRun;

/* The motif's stitches must be known and it must have a thread block. The runs are the list's stretches, in their order.
 * Returns: (transfer full) (element-type HwNeedleRun) */
GArray *
hw_needle_runs (const HwMotif *motif);

G_END_DECLS
