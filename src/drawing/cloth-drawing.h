/* The pieces a picture of the cloth is made of, drawn alike on the canvas and on paper. User space is millimetres on the cloth unless
 * said otherwise; line widths and letter sizes are given in user units so that callers choose screen pixels or paper millimetres. */
#pragma once

#include <cairo.h>

#include "../planning/plan.h"
#include "dye.h"

G_BEGIN_DECLS

/* Adds the rings of an outline to the current path. */
void
hw_path_outline (cairo_t *cr, const HwOutline *outline);

/* The cloth with a faint weave and its edge line with the margin as a finer line. px: one screen pixel (or hairline) in user units. */
void
hw_draw_cloth (cairo_t *cr, const HwFabric *fabric, double px);
void
hw_draw_edge_line (cairo_t *cr, const HwEdgeLine *edge, const HwFabric *fabric, double px);

/* A cross mark: two crossing lines of the given half length through (0, 0) with an arrow at the top (-y). */
void
hw_draw_cross_mark (cairo_t *cr, double half_length, double line_width);

/* A mark as drawn on cloth: a plus of two thin lines with a small letter. */
void
hw_draw_mark (
    cairo_t *cr, HwPoint at, const char *letter, double half_length, double line_width, double letter_size);

/* How strongly a hooping shows. */
typedef enum
{
  HW_FOOTPRINT_OUTLINE, /* stepped back: outline and number only */
  HW_FOOTPRINT_FULL /* field filled at 14 % with its hatch at 30 %, frame dashed, number disc, arrow at the top side */
} HwFootprintStrength;

/* px: size of a screen pixel (or 0.25 mm hairline unit on paper) in user units; the disc is 11 px in radius. */
void
hw_draw_footprint (cairo_t *cr,
                   const HwHoop *hoop,
                   HwPoint centre,
                   double angle,
                   guint number,
                   HwFootprintStrength strength,
                   double px);

/* An order number in a small disc at a place. */
void
hw_draw_order_number (cairo_t *cr, HwPoint at, guint number, double radius);

/* The whole scene as a picture, in fabric mm: cloth, edge line, motifs as thread, and on request the plan over them. */
typedef enum
{
  HW_SCENE_PICTURE_PLAIN = 0,
  HW_SCENE_PICTURE_FOOTPRINTS = 1 << 0, /* on a stage, and of one hooping alone, full; else all as outlines */
  HW_SCENE_PICTURE_ORDER = 1 << 1,      /* order numbers of the motifs */
  HW_SCENE_PICTURE_MARKS = 1 << 2,      /* of the hoopings that are shown */
  HW_SCENE_PICTURE_PALE = 1 << 3        /* motifs faded, so that lines over them read well */
} HwScenePictureFlags;

typedef struct
{
  HwScenePictureFlags flags;
  int stage; /* -1: the whole picture; k: as the cloth will be when hooping k begins, its footprint alone; past the last: finished, and no footprint */
  double pixels_per_mm; /* thread is painted so finely */
  double px;            /* a hairline, mm */
} HwSceneLook;

/* plan may be NULL: then there is neither stage nor footprint. */
void
hw_draw_scene (cairo_t *cr, const HwSnapshot *snapshot, const HwPlan *plan, const HwSceneLook *look);

G_END_DECLS
