/* The settled order of a hooping in the machine, or of one that is stitched: between the pin that keeps it and the plan's hooping. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* The thread blocks of the pin's motifs in stitch order, where these take turns. motifs: the pin's motifs in its order, as indices into the snapshot.
 * Returns: (transfer full) (nullable) (element-type HwBlockStep): NULL where they are stitched one by one */
GArray *
hw_turns_read (const HwSnapshot *snapshot, const HwPin *pin, const guint *motifs, guint n_motifs);

/* Settles the order of a pin that is not shared yet: motifs, and the turns they take, as the hooping has them. */
void
hw_turns_settle (HwPin *pin, const HwSnapshot *snapshot, const HwHooping *hooping);

G_END_DECLS
