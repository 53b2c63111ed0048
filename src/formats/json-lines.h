/* JSON as a person reads it and as two versions are compared: what fits a line stands in one line, what does not is opened up, numbers are as
 * short as reading them back exactly allows. */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* Whether the members of a value must each have a line of their own although they would fit one. depth: 0 for the root. key: the
 * nearest key above the value, or NULL at the root. */
typedef gboolean (*HwJsonOpens) (guint depth, const char *key);

/* Returns: (transfer full): the text, ending in a newline. opens may be NULL: only the root is opened. */
char *
hw_json_lines (JsonNode *root, HwJsonOpens opens);

/* The whole value in one line. Returns: (transfer full) */
char *
hw_json_line (JsonNode *node);

/* A number as short as it reads back to the same value. Returns: (transfer full) */
char *
hw_json_number_text (double value);

G_END_DECLS
