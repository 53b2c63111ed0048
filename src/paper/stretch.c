/* A printer that is not true to size: what it makes too short is drawn longer, what it makes too long is drawn shorter, in both directions
 * of the sheet as it goes through the rollers. A page turned to lie goes through like every other, so its own directions change
 * places. */
#include "stretch.h"

#include <math.h>

/* What is drawn longer takes the place of what was laid out for all but the margins; what is drawn shorter comes out of the printer as long as
 * it was laid out. */
static double
room_along (double side, double stretch, double margin)
{
  if (stretch <= 1 || side <= 2 * margin)
    return side;
  return 2 * margin + (side - 2 * margin) / stretch;
}

HwSheetSize
hw_paper_stretch_room (HwPaperStretch stretch, const HwSheetSize *sheet, double margin)
{
  return (HwSheetSize){ sheet->name, room_along (sheet->width, stretch.x, margin),
                        room_along (sheet->height, stretch.y, margin) };
}

static gboolean
is_turned (const HwSheetSize *room, double width, double height)
{
  double upright = fabs (width - room->width) + fabs (height - room->height);
  double turned = fabs (width - room->height) + fabs (height - room->width);

  return turned < upright;
}

void
hw_paper_stretch_page_size (const HwSheetSize *sheet,
                            const HwSheetSize *room,
                            double width,
                            double height,
                            double *sheet_width,
                            double *sheet_height)
{
  gboolean turned = is_turned (room, width, height);

  *sheet_width = turned ? sheet->height : sheet->width;
  *sheet_height = turned ? sheet->width : sheet->height;
}

void
hw_paper_stretch_apply (HwPaperStretch stretch,
                        const HwSheetSize *sheet,
                        const HwSheetSize *room,
                        double width,
                        double height,
                        cairo_t *cr)
{
  gboolean turned = is_turned (room, width, height);
  double sheet_width, sheet_height;

  hw_paper_stretch_page_size (sheet, room, width, height, &sheet_width, &sheet_height);
  cairo_translate (cr, sheet_width / 2, sheet_height / 2);
  cairo_scale (cr, turned ? stretch.y : stretch.x, turned ? stretch.x : stretch.y);
  cairo_translate (cr, -width / 2, -height / 2);
}
