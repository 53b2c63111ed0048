/* The second opinion on the parts of a divided scene. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* Checks from the plan and its snapshot alone that earlier parts are stitched before later ones and no hooping holds motifs of two, and that a
 * motif which joins an earlier part must. Hoopings already stitched are left alone. */
gboolean
hw_plan_verify_parts (const HwPlan *plan, GError **error);

G_END_DECLS
