/* A JSON text of a person's own as a tree. */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* Checks the text (json-check.h; a byte order mark does no harm) and builds its tree. What is wrong is told in the caller's domain: `content` for a
 * number JSON cannot keep, `syntax` for all else. length < 0: up to the NUL. Returns: (transfer full) (nullable) */
JsonNode *
hw_json_root (const char *text, gssize length, GQuark domain, int syntax, int content, GError **error);

G_END_DECLS
