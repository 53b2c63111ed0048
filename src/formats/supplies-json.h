/* What a plan takes as JSON (format "hoopwright-supplies", version 1). */
#pragma once

#include "../planning/supplies.h"

G_BEGIN_DECLS

/* Lengths of thread are metres, others millimetres; what is not known is null. Returns: (transfer full): pretty-printed, ending in a newline */
char *
hw_supplies_json_text (const HwSupplies *supplies);

G_END_DECLS
