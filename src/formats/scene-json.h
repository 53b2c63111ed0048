/* Between the JSON tree of a scene file and a snapshot. Private to this room. */
#pragma once

#include <json-glib/json-glib.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

#define HW_SCENE_FORMAT "hoopwright-scene"
#define HW_SCENE_VERSION 1

/* The words of choices, in the order of their enums, NULL-ended. */
extern const char *const hw_hold_nicks[];
extern const char *const hw_turn_nicks[];
extern const char *const hw_best_nicks[];
extern const char *const hw_keep_nicks[];
extern const char *const hw_edge_shape_nicks[];

/* Motifs await their artwork. Returns: (transfer full) (nullable): NULL and one sentence with the key's path, HW_SCENE_FILE_ERROR */
HwSnapshot *
hw_scene_read (JsonNode *root, GError **error);

/* Returns: (transfer full) */
JsonNode *
hw_scene_write (const HwSnapshot *snapshot);

G_END_DECLS
