/* A scene to start from: a cloth, an edge line at some distance from the cloth's own edge, the hoops at hand, no motif. */
#pragma once

#include "../scene/snapshot.h"

G_BEGIN_DECLS

#define HW_NEW_SCENE_INSET 40 /* mm from the cloth's edge to the edge line */

/* The edge line never swallows the cloth: inset (mm) is at most a third of the shorter side. hoops: (element-type HwHoop), which get ids of their own;
 * without one the scene has a hoop of 130 x 180 mm. Returns: (transfer full): nobody else's yet */
HwSnapshot *
hw_new_scene (const char *name, const HwFabric *fabric, HwEdgeShape shape, double inset, GPtrArray *hoops);

/* A hoop of that sewing field, in mm, named by its size, with a frame as wide as frames usually are. Without an id. Returns: (transfer full) */
HwHoop *
hw_hoop_of_size (double field_width, double field_height);
/* "130 × 180": how a hoop is named by its field in mm. Returns: (transfer full) */
char *
hw_hoop_size_name (double field_width, double field_height);

G_END_DECLS
