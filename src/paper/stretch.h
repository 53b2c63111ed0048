/* Private to this room: a page drawn longer or shorter, for a printer that is not true to size. */
#pragma once

#include <cairo.h>

#include "sheet-size.h"

G_BEGIN_DECLS

/* The factors along the sheet's short and long side as the printer takes it, whichever way a page lies on it. */
typedef struct
{
  double x, y;
} HwPaperStretch;

/* The sheet to lay pages out on, so that within its margin they find room on `sheet` when they are drawn longer. A name is carried over. */
HwSheetSize
hw_paper_stretch_room (HwPaperStretch stretch, const HwSheetSize *sheet, double margin);

/* A page laid out as width x height on `room`: what it takes of `sheet`, turned as the page is. */
void
hw_paper_stretch_page_size (const HwSheetSize *sheet,
                            const HwSheetSize *room,
                            double width,
                            double height,
                            double *sheet_width,
                            double *sheet_height);

/* From millimetres of the sheet to those of a page laid out on `room`: about the middle of both. */
void
hw_paper_stretch_apply (HwPaperStretch stretch,
                        const HwSheetSize *sheet,
                        const HwSheetSize *room,
                        double width,
                        double height,
                        cairo_t *cr);

G_END_DECLS
