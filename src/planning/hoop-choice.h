/* Which hoop takes a set of motifs most conveniently, and how it lies. */
#pragma once

#include "sharing.h"

G_BEGIN_DECLS

typedef struct
{
  guint hoop;
  HwPose pose;
  guint trouble; /* 0: some motif lies unturned at the machine or on its turn step; 1: none */
} HwHoopChoice;

/* The angles that leave motifs unturned: 0 and their own, most frequent first. Returns: (transfer full) (element-type double) */
GArray *
hw_liked_angles (const HwSnapshot *snapshot, const guint *motifs, guint n);

/* Least trouble first, then the smaller hoop, then the greater margin. FALSE when no hoop in use takes the hull. */
gboolean
hw_hoop_choose (
    const HwSnapshot *snapshot, const HwPoint *hull, guint n_hull, const GArray *liked, HwHoopChoice *choice);

/* The same with the hoop at 0 or 90 degrees only. */
gboolean
hw_hoop_choose_along_grain (const HwSnapshot *snapshot,
                            const HwPoint *hull,
                            guint n_hull,
                            HwHoopChoice *choice);

/* How a hoop at a pose suits the hull: FALSE when it does not take it there; fills margin and trouble. */
gboolean
hw_hoop_suits (
    const HwSnapshot *snapshot, const HwPoint *hull, guint n_hull, const GArray *liked, HwHoopChoice *choice);

G_END_DECLS
