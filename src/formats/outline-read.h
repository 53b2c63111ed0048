/* Outlines and edge lines of a scene file: lists of points made into areas that mean one thing. Private to this room. */
#pragma once

#include "../geometry/outline.h"
#include "json-walk.h"

G_BEGIN_DECLS

/* Rings of points, mended where they cross. name: the motif's, for the sentence. Returns: (transfer full) (nullable): NULL after an error */
HwOutline *
hw_outline_read_rings (
    HwJsonWalk *walk, JsonObject *in, const char *key, const char *name, gboolean *repaired);

/* One ring of points that, mended where it must be, stays one ring. Returns: (transfer full) (nullable) */
HwOutline *
hw_outline_read_line (HwJsonWalk *walk, JsonObject *in, const char *key);

G_END_DECLS
