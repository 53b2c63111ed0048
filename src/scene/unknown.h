/* Keys of a scene file that this version does not know: kept with the record they stood in and written back after the known
 * ones. Immutable. The counting of references is atomic, which JsonObject's own is not: snapshots travel between threads. */
#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

typedef struct
{
  gatomicrefcount ref_count;
  JsonObject *members; /* in the order they stood in the file; never changed */
} HwUnknown;

/* Takes over members. Returns: (transfer full) */
HwUnknown *
hw_unknown_new (JsonObject *members);
/* These take NULL for "none" and give it back. */
HwUnknown *
hw_unknown_ref (const HwUnknown *unknown);
void
hw_unknown_unref (HwUnknown *unknown);
gboolean
hw_unknown_equal (const HwUnknown *a, const HwUnknown *b);

G_END_DECLS
