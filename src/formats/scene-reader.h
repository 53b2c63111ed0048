/* What the readers of a scene file's parts share. Private to this room. */
#pragma once

#include "../scene/snapshot.h"
#include "json-walk.h"

G_BEGIN_DECLS

typedef struct
{
  HwJsonWalk walk;
  GHashTable *hoop_ids; /* id -> its index as a pointer; the ids are the tree's */
  GHashTable *motif_ids;
} HwSceneReader;

double
hw_scene_reader_angle (HwJsonWalk *walk, JsonObject *in);
HwPoint
hw_scene_reader_place (HwJsonWalk *walk, JsonObject *in, const char *key);

/* The member "id", which no other in ids has; it is added there. kind: the list's key. Returns: (transfer full) (nullable) */
char *
hw_scene_reader_id (HwSceneReader *reader, JsonObject *in, const char *kind, GHashTable *ids);

/* A list of texts that must be ids found in ids. Returns: (transfer full) (nullable): NULL when missing or empty */
char **
hw_scene_reader_ids (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, GHashTable *ids);

/* The unknown members of `in`, and those of its known member `nested` under that key. Returns: (transfer full) (nullable) */
HwUnknown *
hw_scene_reader_unknown (JsonObject *in,
                         const char *const *known,
                         const char *nested,
                         const char *const *nested_known);

/* Adds the unknown members of another known member `nested`. */
void
hw_scene_reader_keep_nested (HwUnknown **unknown,
                             JsonObject *in,
                             const char *nested,
                             const char *const *nested_known);

/* The scene's motifs, back to front, with their ties. */
void
hw_scene_reader_motifs (HwSceneReader *reader, JsonObject *scene, GPtrArray *motifs);

/* The marks of a hooping and the work on it, with their keys not known; pin->keep and pin->unknown are read already. */
void
hw_scene_reader_pin_work (HwSceneReader *reader, JsonObject *pin_in, HwPin *pin);
void
hw_scene_reader_held_marks (HwSceneReader *reader, JsonObject *scene, GPtrArray *marks);
void
hw_scene_reader_log (HwSceneReader *reader, JsonObject *progress, GPtrArray *log);

/* What the person decided: pins, pairs kept apart, marks held, wishes, and progress, whose known keys are hw_progress_keys. */
void
hw_scene_reader_decisions (HwSceneReader *reader, JsonObject *scene, HwSnapshot *snapshot);
extern const char *const hw_progress_keys[];

/* The stack of photographs, whose member's known keys are hw_photo_stack_keys; the threads at hand; the parts, which name motifs read already; what the workroom uses up. */
void
hw_scene_reader_photos (HwSceneReader *reader, JsonObject *scene, HwSnapshot *snapshot);
extern const char *const hw_photo_stack_keys[];
void
hw_scene_reader_palette (HwSceneReader *reader, JsonObject *scene, GPtrArray *palette);
void
hw_scene_reader_supplies (HwSceneReader *reader, JsonObject *scene, HwSupplyFacts *facts);
void
hw_scene_reader_parts (HwSceneReader *reader, JsonObject *scene, GPtrArray *parts);

G_END_DECLS
