/* Names of files made of names that people gave. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define HW_LONGEST_FILE_NAME                                                                                 \
  200 /* bytes; NAME_MAX is 255 on all usual file systems, and an ending or a number may be added */

/* words (UTF-8) as the name of a file in one folder: without what parts folders, hides the file, turns its letters about or troubles another system; cut at a
 * character before it grows too long, its ending (from the last dot, up to 10 bytes) kept. Returns: (transfer full): never empty */
char *
hw_file_name_of (const char *words);

G_END_DECLS
