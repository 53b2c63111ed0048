/* Which hoopings of a plan stitch which part of a divided scene. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* For each motif of the snapshot the index of the part it is stitched with: its own, or the earlier one that it had to join; -1: none. Returns:
 * (transfer full) */
int *
hw_plan_parts_of_motifs (const HwPlan *plan);

/* For each hooping the index of its part in the snapshot, or -1 where the scene is not divided or no part names a motif that is stitched. A
 * hooping without a motif of any part counts with the part before it, and before the first with the first. Returns: (transfer full) */
int *
hw_plan_parts (const HwPlan *plan);

/* "Hoopings 1 to 3", "Hooping 4", "Hoopings 1 to 3, 5"; "No hooping". part: its index. Returns: (transfer full) */
char *
hw_plan_part_text (const HwPlan *plan, guint part);

/* The index of the part called name, or -1. Of parts with equal names the first. */
int
hw_snapshot_find_part (const HwSnapshot *snapshot, const char *name);

G_END_DECLS
