/* What tells one state of a file from another without reading it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  gint64 seconds, nanoseconds; /* when it was written; all 0: it is not there */
  guint64 size, node;
} HwFileStamp;

/* path: NULL gives the stamp of a file that is not there. */
HwFileStamp
hw_file_stamp_of (const char *path);
gboolean
hw_file_stamp_equal (const HwFileStamp *a, const HwFileStamp *b);

G_END_DECLS
