/* The files that make up held.c's subject. */
#pragma once

#include "held.h"

G_BEGIN_DECLS

/* held-settle.c: lists the planned motifs (planned: per motif of the snapshot its number, or G_MAXUINT), makes their order, and keeps what of ties
 * and pins can be kept. fits: per motif of the snapshot, whether a hoop in use takes it. pins is emptied of what cannot be kept. FALSE when
 * cancelled. */
gboolean
hw_held_settle (HwHeldFast *held,
                HwPlan *plan,
                const gboolean *fits,
                GPtrArray *pins,
                guint *planned,
                HwOverlaps *overlaps,
                GCancellable *cancellable);

G_END_DECLS
