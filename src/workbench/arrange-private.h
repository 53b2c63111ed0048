/* The inside of arranging, shared by the files that make it up and by no other. */
#pragma once

#include "bench.h"

G_BEGIN_DECLS

gboolean
hw_arrange_is_stitched (HwBench *bench, const char *id);
/* The selected motifs that may be moved. Returns: (transfer container) */
GPtrArray *
hw_arrange_movable (HwBench *bench);
/* The common box of the outlines as they lie, mm. */
HwBox
hw_arrange_box (GPtrArray *motifs);
void
hw_arrange_shift (HwSceneMotif *motif, HwPoint by);
/* The name of a step: `one` is a format with %s for the motif's name, `many` one with %u for how many. (transfer full) */
#define HW_ARRANGE_NAME(motifs, one, many)                                                                   \
  ((motifs)->len == 1 ? g_strdup_printf (one, hw_arrange_first_name (motifs))                                \
                      : g_strdup_printf (many, (motifs)->len))
const char *
hw_arrange_first_name (GPtrArray *motifs);
/* The place in the stitch order above all of these. */
guint
hw_arrange_above (HwBench *bench, GPtrArray *motifs);
/* Puts a copy at that place of the order. Returns: (transfer full): its id */
char *
hw_arrange_add_copy (HwBench *bench, const HwMotif *original, const HwPlacement *placement, guint at);

G_END_DECLS
