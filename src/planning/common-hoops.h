/* Common sizes of sewing fields, smallest first. Sizes only; common practice, no source. */
#pragma once

#include "../scene/snapshot.h"

G_BEGIN_DECLS

#define HW_N_COMMON_HOOPS 8

/* A hoop of common size number k, as the scene's other hoops are in the rest: clearance, turn, the frame's width around the field. It is named
 * by its size in mm. Returns: (transfer full) */
HwHoop *
hw_common_hoop_new (guint k, const HwSnapshot *scene);

/* Whether the scene has a hoop, not set aside, with a field at least as large as common size number k. */
gboolean
hw_common_hoop_is_there (guint k, const HwSnapshot *scene);

G_END_DECLS
