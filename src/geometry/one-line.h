/* A sentence about a file is one line, whatever the file holds: what would break the line is shown as JSON writes it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* text (UTF-8) with line ends as \n and other control characters, separators and turns of direction as \uXXXX. Returns: (transfer full) */
char *
hw_one_line (const char *text);

/* A name as it is shown and printed: line ends and other control characters as spaces, turns of direction left out, cut after 200 letters. Returns: (transfer full) */
char *
hw_one_line_name (const char *text);

G_END_DECLS
