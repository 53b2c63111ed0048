/* Private to this room: where a hooping's hoop lies on the cloth. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

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

/* Label over figure, down the writer's column: the place of the hoop's centre, its way to the edge line, how it is turned, what is free in the
 * field. */
void
hw_hooping_facts_write (HwWriter *writer, guint hooping);

/* A small label with a value in bold below it. */
void
hw_fact_write (HwWriter *writer, const char *label, const char *value);

G_END_DECLS
