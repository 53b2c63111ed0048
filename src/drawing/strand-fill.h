/* Stand-in stitches for a motif that has only its outline: the inside of thread-painting.c. */
#pragma once

#include "../scene/records.h"

G_BEGIN_DECLS

/* Rows of filling stitches inside the outline, in a band for each thread block, and a satin border in the last thread.
 * Threads of the list count like the motif's thread blocks. Returns: (transfer full) (nullable): NULL when there is nothing to fill */
HwNeedleList *
hw_strand_fill_outline (const HwMotif *motif);

G_END_DECLS
