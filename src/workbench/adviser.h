/* Looks for what would help while nobody works: once the plan is final and the scene has been still for a moment. */
#pragma once

#include "../planning/advice.h"
#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_ADVISER (hw_adviser_get_type ())
G_DECLARE_FINAL_TYPE (HwAdviser, hw_adviser, HW, ADVISER, GObject)

/* Signal "changed": the advice is another, or is being looked for. */
HwAdviser *
hw_adviser_new (HwBench *bench);
/* NULL while none was looked for. (transfer none) (element-type HwAdvice) */
GPtrArray *
hw_adviser_get_advice (HwAdviser *adviser);
/* Does what a piece of advice says, as one step of the history. FALSE when the scene is no longer the one it was given for. */
gboolean
hw_adviser_take (HwAdviser *adviser, guint advice);

G_END_DECLS
