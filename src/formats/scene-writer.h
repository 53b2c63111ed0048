/* What the writers of a scene file's parts share. Private to this room. */
#pragma once

#include <json-glib/json-glib.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

/* Members that a writer sets. NULL texts become empty ones. */
void
hw_scene_writer_text (JsonObject *object, const char *key, const char *text);
void
hw_scene_writer_number (JsonObject *object, const char *key, double value);
void
hw_scene_writer_pair (JsonObject *object, const char *key, double first, double second);
void
hw_scene_writer_ids (JsonObject *object, const char *key, char **ids);

/* Returns: (transfer full) */
JsonArray *
hw_scene_writer_pair_new (double first, double second);

/* The keys this version does not know, after the known ones. Those of a member that holds members of its own are put into it, those of a list's
 * items into the items of the same "id" or "mark". */
void
hw_scene_writer_unknown (JsonObject *object, const HwUnknown *unknown);
/* The same, but nothing of the members in parts (NULL ends it) that object itself lacks: they were parts of something that is gone. */
void
hw_scene_writer_unknown_but (JsonObject *object, const HwUnknown *unknown, const char *const *parts);

/* The marks and the work of a hooping, where it has some, and its keys not known. */
void
hw_scene_writer_pin_work (JsonObject *object, const HwPin *pin);
/* Returns: (transfer full): what stands under "photo", "palette" and "parts" */
JsonObject *
hw_scene_writer_photos (const HwSnapshot *snapshot);
JsonArray *
hw_scene_writer_palette (GPtrArray *palette);
JsonArray *
hw_scene_writer_parts (GPtrArray *parts);
/* Returns: (transfer full) (nullable): what stands under "supplies"; NULL: all is as usual */
JsonObject *
hw_scene_writer_supplies (const HwSupplyFacts *facts);
/* Returns: (transfer full): lists for "held_marks" and "log" */
JsonArray *
hw_scene_writer_held_marks (GPtrArray *marks);
JsonArray *
hw_scene_writer_log (GPtrArray *log);

G_END_DECLS
