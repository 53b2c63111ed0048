/* The natural dyes and hatches that tell hoopings apart: by number, hatch direction and colour, in that order. */
#pragma once

#include <cairo.h>

#include "../scene/colour.h"

G_BEGIN_DECLS

typedef enum
{
  HW_HATCH_45,
  HW_HATCH_135,
  HW_HATCH_HORIZONTAL,
  HW_HATCH_VERTICAL,
  HW_HATCH_CROSS_45,
  HW_HATCH_DOTS,
  HW_HATCH_CROSS_90,
  HW_HATCH_WIDE_45
} HwHatch;

typedef struct
{
  const char *name; /* "woad" ... */
  HwColour colour;
  HwHatch hatch;
} HwDye;

#define HW_N_DYES 8

/* The dye of the nth hooping (counted from 0); they repeat after HW_N_DYES. */
const HwDye *
hw_dye (guint hooping);

/* Fills the current path with hatch lines, as vectors; the path is consumed. spacing and line width in user units. */
void
hw_dye_hatch_path (
    cairo_t *cr, HwHatch hatch, HwColour colour, double alpha, double spacing, double line_width);

G_END_DECLS
