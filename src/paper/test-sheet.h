/* A sheet to find out whether a printer is true to size: one long line across and one down, to be measured with a ruler. */
#pragma once

#include "print-job.h"

G_BEGIN_DECLS

/* How long its lines are on a sheet, mm: whole tens, or half inches where that is the unit. FALSE when the sheet is too small for a line
 * worth measuring. */
gboolean
hw_test_sheet_lengths (const HwSheetSize *sheet, HwUnit unit, double *across, double *down);

/* What makes up for a printer that drew them across and down mm long: the factors of HwPaperOptions. FALSE, with a sentence under
 * HW_PAPER_ERROR_MEASURED, when a length is more than a tenth off, which no printer is; or HW_PAPER_ERROR_SHEET when the sheet is too
 * small. */
gboolean
hw_test_sheet_stretch (const HwSheetSize *sheet,
                       HwUnit unit,
                       double across,
                       double down,
                       double *stretch_x,
                       double *stretch_y,
                       GError **error);

/* How much may be typed for a length of nominal mm. */
#define HW_TEST_SHEET_OFF 0.10

G_END_DECLS
