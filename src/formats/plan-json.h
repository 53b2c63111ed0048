/* A plan as JSON (format "hoopwright-plan", version 1). */
#pragma once

#include "../planning/plan.h"

G_BEGIN_DECLS

/* Returns: (transfer full): pretty-printed, ending in a newline */
char *
hw_plan_json_text (const HwPlan *plan);

G_END_DECLS
