/* Parts a scene is divided into, for instance an upper and a lower one, each stitched on a day of its own. */
#pragma once

#include "unknown.h"

G_BEGIN_DECLS

/* Parts are stitched in the order of their list; a motif that no part names may be stitched with any of them. Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  char *name;    /* what the person calls it */
  char **motifs; /* ids, NULL-terminated, perhaps none; each motif in one part only */
  HwUnknown *unknown;
} HwPart;

/* motifs is copied; NULL: none. Returns: (transfer full) */
HwPart *
hw_part_new (const char *name, const char *const *motifs);
HwPart *
hw_part_ref (const HwPart *part);
void
hw_part_unref (HwPart *part);
gboolean
hw_part_equal (const HwPart *a, const HwPart *b);
gboolean
hw_part_names (const HwPart *part, const char *motif);
/* Index of the part (of HwPart) that names the motif, or -1. */
int
hw_parts_find (GPtrArray *parts, const char *motif);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPart, hw_part_unref)

G_END_DECLS
