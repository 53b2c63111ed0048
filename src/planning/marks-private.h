/* Places for marks, for the files that choose them. */
#pragma once

#include "marks.h"

G_BEGIN_DECLS

/* A place within the field, on the cloth and clear of earlier stitching. */
typedef struct
{
  HwPoint at;
  gboolean free;      /* also clear of the hooping's own motifs, so that no template lies over it */
  const HwMark *mark; /* drawn already for the hooping before; or NULL */
} HwMarkPlace;

/* Writes the usable places of a hooping: those of the hooping before first. placed: the outlines of all the snapshot's motifs as they
 * lie on the cloth. Returns: (transfer full) (element-type HwMarkPlace) */
GArray *
hw_mark_places (const HwPlan *plan, guint hooping, HwOutline *const *placed);

G_END_DECLS
