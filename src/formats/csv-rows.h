/* Small tables in CSV by RFC 4180 (quotes, CRLF or LF), read row by row. Private to this room. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  const char *at;
  const char *end;
  guint line;      /* of the row just read, counted from 1 */
  guint next_line; /* of the row after it */
} HwCsvRows;

/* text: valid UTF-8, kept by the caller. A byte order mark is passed over. */
void
hw_csv_rows_init (HwCsvRows *rows, const char *text, gsize length);

/* The fields of the next row that is not blank, spaces around them taken off. NULL at the end, and after something that is no CSV: then *wrong is a sentence.
 * Returns: (transfer full) (nullable) (element-type utf8) */
GPtrArray *
hw_csv_rows_next (HwCsvRows *rows, const char **wrong);

/* Adds a field, quoted where it must be. */
void
hw_csv_append (GString *to, const char *field);

G_END_DECLS
