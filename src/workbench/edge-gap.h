/* How far a motif lies from the edge line. */
#pragma once

#include "../geometry/outline.h"

G_BEGIN_DECLS

/* mm from the placed outline to the nearest point of the edge line, when all of it lies inside; below 0: it passes the edge line by so much. */
double
hw_edge_gap (const HwOutline *placed, const HwOutline *edge);

G_END_DECLS
