/* Needle lists written: as CSV (RFC 4180), which this program reads back alike, and as a drawing of true size (SVG), which anything reads. */
#pragma once

#include <gio/gio.h>

#include "../planning/hooping-needles.h"

G_BEGIN_DECLS

#define HW_NEEDLE_WRITE_ERROR (hw_needle_write_error_quark ())
typedef enum
{
  HW_NEEDLE_WRITE_ERROR_ENDING, /* neither .csv nor .svg */
  HW_NEEDLE_WRITE_ERROR_WRITE
} HwNeedleWriteError;
GQuark
hw_needle_write_error_quark (void);

/* Rows of x_mm,y_mm,action,thread, to 0.001 mm. Thread names are written as they are. Returns: (transfer full) */
char *
hw_needle_csv_text (const HwNeedleList *needles);

/* A drawing in hoop axes at true size: the field is its page. In groups of their own: "field", "centre", and "stitches" with a path for each thread block, in
 * stitch order and in its thread's colour; the title of a path is its thread. Jumps are not drawn. Returns: (transfer full) */
char *
hw_needle_svg_text (const HwHoopingNeedles *needles);

/* Whether the path's ending names a kind of needle list; else a sentence. */
gboolean
hw_needle_path_check (const char *path, GError **error);

/* Writes the kind that the path's ending names, whole or not at all. */
gboolean
hw_hooping_needles_save (const HwHoopingNeedles *needles, const char *path, GError **error);

G_END_DECLS
