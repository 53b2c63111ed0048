/* Whether two plans look the same on the cloth, so that a plan that says the same again repaints nothing. */
#pragma once

#include "../planning/plan.h"

G_BEGIN_DECLS

/* The same hoopings in the same order: hoop, pose, motifs (by id) and marks. Either may be NULL. What is said of them may differ. */
gboolean
hw_plans_look_alike (const HwPlan *a, const HwPlan *b);

G_END_DECLS
