/* A motif made from a needle list. */
#pragma once

#include "bench.h"

G_BEGIN_DECLS

#define HW_MOTIF_IMPORT_ERROR (hw_motif_import_error_quark ())
typedef enum
{
  HW_MOTIF_IMPORT_ERROR_NO_AREA /* nothing is stitched */
} HwMotifImportError;
GQuark
hw_motif_import_error_quark (void);

/* Reads the needle list and puts it as a new motif in the middle of the cloth, on top of all, as one step of the history. */
gboolean
hw_motif_import (HwBench *bench, const char *path, GError **error);

/* The motif record alone, at (0, 0), without an id; artwork is path, relative to folder where it lies below it (folder may be NULL).
 * Returns: (transfer full) (nullable) */
HwMotif *
hw_motif_from_needles (const char *path, const char *folder, GError **error);

G_END_DECLS
