/* Whether a scene keeps within the limits that its file is held to (limits.h): what an edit may not make, and what is not saved, because it could not be
 * opened again. */
#pragma once

#include "limits.h"
#include "snapshot.h"

G_BEGIN_DECLS

/* One sentence: what there is too much of, how much may be, what to do. Returns: (transfer full) (nullable): NULL when there is not too much of anything */
char *
hw_scene_too_much (const HwSnapshot *snapshot);

/* More than HW_LONGEST_TEXT letters; NULL is not. */
gboolean
hw_text_is_too_long (const char *text);

G_END_DECLS
