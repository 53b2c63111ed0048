/* A sentence about a file is one line, whatever the file holds: what would break the line is shown as JSON writes it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* text (UTF-8) with line ends as \n and other control characters, separators and turns of direction as \uXXXX. Returns: (transfer full) */
char *
hw_one_line (const char *text);

/* Letters of a name in a window and on paper; nobody reads more. */
#define HW_LONGEST_NAME 200

/* A name as it is shown and printed: line ends and other control characters as spaces, turns of direction left out, cut after HW_LONGEST_NAME
 * letters, with "…" behind it. Returns: (transfer full) */
char *
hw_one_line_name (const char *text);

/* The same cut after 40 letters: what a person typed or pasted, for a sentence that says it cannot be taken. Returns: (transfer full) */
char *
hw_one_line_quote (const char *text);

G_END_DECLS
