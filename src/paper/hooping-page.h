/* Private to this room: the bench sheet's page for one hooping. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* HwWriterMatter; subject: the hooping, from 0 */
void
hw_hooping_page_write (HwWriter *writer, guint hooping);

/* The corner places are measured from: the top left of the edge line's bounds, or of the cloth where there
 * is no edge line. */
HwPoint
hw_measuring_corner (const HwSnapshot *snapshot);
/* What that corner is called. Translated. */
const char *
hw_measuring_corner_words (const HwSnapshot *snapshot);

/* From p straight to the edge line (or the cloth's edge) on each side, mm; G_MAXDOUBLE where it does not
 * meet it. */
typedef struct
{
  double left, right, top, bottom;
} HwEdgeDistances;
HwEdgeDistances
hw_edge_distances (const HwSnapshot *snapshot, HwPoint p);

G_END_DECLS
