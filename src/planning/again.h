/* The last plan over again, after an edit: what still works of it is kept, so that hoopings keep their numbers and motifs their hoopings. */
#pragma once

#include "held.h"

G_BEGIN_DECLS

/* What the last plan says of the motifs planned now. */
typedef struct
{
  gboolean works;
  guint n_blocks;
  guint *block_of; /* held->n_items */
  guint *rank;     /* held->n: place in the last plan; G_MAXUINT when new */
} HwAgain;

HwAgain *
hw_again_new (const HwPlan *last, const HwHeldFast *held, HwSetFit *fit);
void
hw_again_free (HwAgain *again);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwAgain, hw_again_free)

G_END_DECLS
