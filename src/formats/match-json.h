/* Threads of a scene beside threads at hand, as JSON (format "hoopwright-match", version 1). */
#pragma once

#include "../scene/thread-needs.h"

G_BEGIN_DECLS

/* needs and purchases as of thread-needs.h, palette as they were made with. Returns: (transfer full): pretty-printed, ending in a newline */
char *
hw_match_json_text (GPtrArray *needs, GPtrArray *purchases, GPtrArray *palette);

G_END_DECLS
