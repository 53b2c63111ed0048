/* Needle lists: UTF-8 CSV (RFC 4180) with the header x_mm,y_mm,action,thread. */
#pragma once

#include <gio/gio.h>

#include "../scene/needle-list.h"

G_BEGIN_DECLS

#define HW_NEEDLE_CSV_ERROR (hw_needle_csv_error_quark ())
typedef enum
{
  HW_NEEDLE_CSV_ERROR_READ,
  HW_NEEDLE_CSV_ERROR_HEADER,
  HW_NEEDLE_CSV_ERROR_ROW, /* the line's number and what is wrong in it */
  HW_NEEDLE_CSV_ERROR_EMPTY
} HwNeedleCsvError;
GQuark
hw_needle_csv_error_quark (void);

/* Returns: (transfer full) (nullable) */
HwNeedleList *
hw_needle_csv_load (const char *path, GError **error);
HwNeedleList *
hw_needle_csv_parse (const char *text, gsize length, const char *name, GError **error);

G_END_DECLS
