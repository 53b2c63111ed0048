/* A print read back by an independent reader (poppler), for the paper tests. */
#pragma once

#include <poppler.h>

#include "../../src/paper/print-job.h"

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PopplerDocument, g_object_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PopplerPage, g_object_unref)

/* Prints the plan into a file of the test's own and opens it. path may be NULL. Returns: (transfer full) */
PopplerDocument *
printed (const HwPlan *plan, HwPaperKind kind, const char *sheet, HwUnit unit, char **path);

PopplerDocument *
printed_with (const HwPlan *plan, const HwPaperOptions *options, char **path);

/* Renders a strip of a page, mm from its top left, at PIXELS_PER_MM. Returns: (transfer full): an A8-like
 * RGB24 surface */
#define PIXELS_PER_MM 20
cairo_surface_t *
printed_strip (PopplerDocument *document, int page, double x, double y, double width, double height);

/* In a row of a strip: the outer edges of what is dark, in mm from the strip's left; FALSE when all is
 * pale. level: 0 to 255. */
gboolean
dark_extent (cairo_surface_t *strip, double y, int level, double *from, double *to);

/* All text of a page. Returns: (transfer full) */
char *
printed_text (PopplerDocument *document, int page);

/* What stands in a column of a page, from x mm to width mm further right, as an eye reads it: line by line, and along each. Returns:
 * (transfer full) */
char *
printed_column (PopplerDocument *document, int page, double x, double width);
