/* A motif made from a file of artwork. */
#pragma once

#include "bench.h"

G_BEGIN_DECLS

/* Reads the file (errors of HW_ARTWORK_ERROR, or of the needle list) and puts it as a new motif in the middle of the cloth, on top of all, as one step of the history. */
gboolean
hw_motif_import (HwBench *bench, const char *path, GError **error);

/* The motif record alone, at (0, 0), without an id; artwork is path, relative to folder where it lies below it (folder may be NULL).
 * Returns: (transfer full) (nullable) */
HwMotif *
hw_motif_from_file (const char *path, const char *folder, GError **error);

G_END_DECLS
