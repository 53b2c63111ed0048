/* Whether a text is JSON (RFC 8259) that can be kept whole: checked before anything is built from it, so that what is wrong is named with
 * its line and column and no depth or number can harm later. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define HW_JSON_DEEPEST 64
#define HW_JSON_MOST_VALUES 5000000 /* a tree of them takes some 500 MB */

#define HW_JSON_ERROR (hw_json_error_quark ())
typedef enum
{
  HW_JSON_ERROR_SYNTAX, /* the sentence begins with line and column */
  HW_JSON_ERROR_TOO_LARGE,
  HW_JSON_ERROR_NUMBER /* a number too large to keep, NaN or infinity; the sentence begins with the key's path */
} HwJsonError;
GQuark
hw_json_error_quark (void);

gboolean
hw_json_check (const char *text, gsize length, GError **error);

G_END_DECLS
