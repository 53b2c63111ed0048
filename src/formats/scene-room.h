/* The memory that a scene's file needs on its way in and out, beside what the scene itself takes. */
#pragma once

#include "../scene/snapshot.h"

G_BEGIN_DECLS

/* Whether there is room for reading this text. */
gboolean
hw_scene_room_to_read (const char *text, gsize length);
/* Whether there is room for writing the scene. */
gboolean
hw_scene_room_to_write (const HwSnapshot *snapshot);

G_END_DECLS
