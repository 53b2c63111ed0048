/* The person's own thread list: UTF-8 CSV (RFC 4180) with a header row naming its columns: name, number, colour ("#rrggbb", or three CIELAB numbers in the columns
 * lightness, a, b), metres. Only name and a colour are needed; columns in any order; other columns are left alone. */
#pragma once

#include <gio/gio.h>

#include "../scene/palette.h"

G_BEGIN_DECLS

#define HW_PALETTE_CSV_ERROR (hw_palette_csv_error_quark ())
typedef enum
{
  HW_PALETTE_CSV_ERROR_READ, /* not to be read, or not UTF-8 */
  HW_PALETTE_CSV_ERROR_HEADER,
  HW_PALETTE_CSV_ERROR_ROW,
  HW_PALETTE_CSV_ERROR_EMPTY
} HwPaletteCsvError;
GQuark
hw_palette_csv_error_quark (void);

/* Returns: (transfer full) (nullable) (element-type HwPaletteThread) */
GPtrArray *
hw_palette_csv_load (const char *path, GError **error);
GPtrArray *
hw_palette_csv_parse (const char *text, gsize length, const char *name, GError **error);
/* Returns: (transfer full): the list as such a file */
char *
hw_palette_csv_write (GPtrArray *palette);

G_END_DECLS
