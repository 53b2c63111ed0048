/* A walk through a JSON tree that reads fields with their types and bounds and remembers where it is, so that the first thing wrong is told by
 * the key's path, what was expected and what was found. After an error every further reading gives its fallback; ask for the error once,
 * at the end. */
#pragma once

#include <json-glib/json-glib.h>
#include <math.h>

#include "../scene/colour.h"
#include "../geometry/point.h"
#include "../scene/unknown.h"

G_BEGIN_DECLS

typedef struct
{
  GString *path;
  GError *error; /* the first, or NULL */
  GQuark domain; /* of errors */
  int code;
} HwJsonWalk;

void
hw_json_walk_init (HwJsonWalk *walk, GQuark domain, int code);
void
hw_json_walk_clear (HwJsonWalk *walk);

/* Step into a key or an item of a list; leave with what enter returned. */
gsize
hw_json_walk_enter (HwJsonWalk *walk, const char *key);
gsize
hw_json_walk_enter_item (HwJsonWalk *walk, guint index);
void
hw_json_walk_leave (HwJsonWalk *walk, gsize mark);

/* "motifs[3].position: expected two numbers, found "abc"." unless there is an error already. found may be NULL: nothing. */
void
hw_json_walk_expected (HwJsonWalk *walk, const char *expected, JsonNode *found);
void
hw_json_walk_refuse (HwJsonWalk *walk, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* Readers of a member `key` of `in`. Required ones refuse a missing member; for the others a missing or null member gives the fallback. */
#define HW_JSON_REQUIRED NAN /* as a fallback of numbers */
double
hw_json_walk_number (HwJsonWalk *walk,
                     JsonObject *in,
                     const char *key,
                     const char *expected,
                     double least,
                     double most,
                     double fallback);
guint
hw_json_walk_count (HwJsonWalk *walk, JsonObject *in, const char *key, guint most, guint fallback);
/* Returns: (transfer none) (nullable): not empty when required, not longer than HW_LONGEST_TEXT; the second has no such limit */
const char *
hw_json_walk_text (
    HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, const char *fallback);
/* The member "name", as hw_one_line_name() makes it: it is shown and printed in many places, and none of them has room for more than a line. Returns: (transfer full)
 * (nullable) */
char *
hw_json_walk_name (HwJsonWalk *walk, JsonObject *in, gboolean required, const char *fallback);
const char *
hw_json_walk_long_text (
    HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, const char *fallback);
gboolean
hw_json_walk_flag (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean fallback);
/* Index into nicks, which NULL ends. */
int
hw_json_walk_choice (
    HwJsonWalk *walk, JsonObject *in, const char *key, const char *const *nicks, int fallback);
HwColour
hw_json_walk_colour (HwJsonWalk *walk, JsonObject *in, const char *key, HwColour fallback);
/* Two numbers within least..most. Returns FALSE, leaving *pair alone, when there are none. */
gboolean
hw_json_walk_pair (HwJsonWalk *walk,
                   JsonObject *in,
                   const char *key,
                   const char *expected,
                   gboolean required,
                   double least,
                   double most,
                   double pair[2]);
/* A node that is such a pair. */
gboolean
hw_json_node_pair (JsonNode *node, double least, double most, double pair[2]);
/* Returns: (transfer none) (nullable): NULL when missing or wrong */
JsonArray *
hw_json_walk_list (
    HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required, const char *expected);
JsonObject *
hw_json_walk_object (HwJsonWalk *walk, JsonObject *in, const char *key, gboolean required);
JsonObject *
hw_json_walk_item_object (HwJsonWalk *walk, JsonArray *in, guint index);

/* The members of `in` that known (NULL ends it) does not list. Returns: (transfer full) (nullable): NULL when there are none */
HwUnknown *
hw_json_unknown (JsonObject *in, const char *const *known);

G_END_DECLS
