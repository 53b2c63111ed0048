/* Needle lists: CSV by RFC 4180 (quotes, CRLF or LF, a header), read in one pass by hand, because a piece of artwork may have millions of
 * rows and a scene dozens of pieces. */
#include "needle-csv.h"

#include <math.h>
#include <string.h>

#include "../geometry/language.h"
#include "../scene/records.h"
#include "../geometry/one-line.h"
#include "whole-file.h"

G_DEFINE_QUARK (hw_needle_csv_error_quark, hw_needle_csv_error)

#define LONGEST_QUOTE 40
#define ROOM_AT_FIRST 4096u /* points */
#define N_COLUMNS 4

static const char *const columns[N_COLUMNS] = { "x_mm", "y_mm", "action", "thread" };
static const char *const actions[] = { "stitch", "jump", "trim", "colour", "end" }; /* as HwNeedleAction */

typedef struct
{
  const char *at;
  gsize length;
} Field;

typedef struct
{
  const char *name; /* of the list, in sentences */
  const char *at;
  const char *end;
  guint line;      /* of the row just read, counted from 1 */
  guint next_line; /* of the row after it */
  Field fields[N_COLUMNS];
  guint n_fields; /* may be larger than N_COLUMNS */
  GString *unquoted[N_COLUMNS];
  HwNeedlePoint *points;
  guint n_points, room;
  GPtrArray *threads;  /* names in order of first use */
  GHashTable *numbers; /* name -> index as a pointer */
  Field last_name;     /* of the row before, since most rows repeat it; it points into threads */
  guint16 last_thread;
} Rows;

static gboolean
fail (const Rows *rows, GError **error, HwNeedleCsvError code, const char *format, ...) G_GNUC_PRINTF (4, 5);

static gboolean
fail (const Rows *rows, GError **error, HwNeedleCsvError code, const char *format, ...)
{
  g_autofree char *what = NULL;
  g_autofree char *text = NULL;
  g_autofree char *line = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  text = g_strdup_printf (_ ("%s: line %u: %s"), rows->name, rows->line, what);
  line = hw_one_line (text);
  g_set_error_literal (error, HW_NEEDLE_CSV_ERROR, code, line);
  return FALSE;
}

/* Says what stood where something else should. */
static gboolean
fail_field (const Rows *rows, GError **error, const Field *field, const char *expected)
{
  g_autofree char *text = g_strndup (field->at, field->length);
  g_autofree char *found = g_utf8_substring (text, 0, MIN (g_utf8_strlen (text, -1), LONGEST_QUOTE));

  return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW, _ ("expected %s, found \"%s\"."), expected, found);
}

static void
rows_init (Rows *rows, const char *text, gsize length, const char *name)
{
  *rows = (Rows){ .name = name, .at = text, .end = text + length, .line = 1, .next_line = 1 };
  for (guint i = 0; i < N_COLUMNS; i++)
    rows->unquoted[i] = g_string_new (NULL);
  rows->threads = g_ptr_array_new_with_free_func (g_free);
  rows->numbers = g_hash_table_new (g_str_hash, g_str_equal);
}

static void
rows_clear (Rows *rows)
{
  for (guint i = 0; i < N_COLUMNS; i++)
    g_string_free (rows->unquoted[i], TRUE);
  g_free (rows->points);
  g_hash_table_unref (rows->numbers);
  g_ptr_array_unref (rows->threads);
}

/* At an opening quote: what stands between it and its fellow, doubled quotes made single. */
static gboolean
read_quoted (Rows *rows, Field *field, GString *unquoted, GError **error)
{
  g_string_truncate (unquoted, 0);
  for (rows->at++; rows->at < rows->end; rows->at++)
    {
      if (*rows->at == '"' && (rows->at + 1 == rows->end || rows->at[1] != '"'))
        {
          rows->at++;
          *field = (Field){ unquoted->str, unquoted->len };
          return TRUE;
        }
      if (*rows->at == '"')
        rows->at++;
      else if (*rows->at == '\n')
        rows->next_line++;
      g_string_append_c (unquoted, *rows->at);
    }
  return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW, _ ("a quote is opened and never closed."));
}

static gboolean
read_bare (Rows *rows, Field *field, GError **error)
{
  field->at = rows->at;
  while (rows->at < rows->end && *rows->at != ',' && *rows->at != '\n' && *rows->at != '\r')
    {
      if (*rows->at == '"')
        return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW, _ ("a quote stands in the middle of a field."));
      rows->at++;
    }
  field->length = (gsize)(rows->at - field->at);
  return TRUE;
}

/* Past the end of the line, if it is one. */
static gboolean
skip_line_end (Rows *rows)
{
  if (rows->at < rows->end && *rows->at == '\r')
    rows->at++;
  if (rows->at < rows->end && *rows->at == '\n')
    rows->at++;
  else if (rows->at < rows->end && rows->at[-1] != '\r')
    return FALSE;
  rows->next_line++;
  return TRUE;
}

static gboolean
read_row (Rows *rows, GError **error)
{
  Field spare;

  rows->line = rows->next_line;
  rows->n_fields = 0;
  for (;;)
    {
      gboolean kept = rows->n_fields < N_COLUMNS;
      Field *field = kept ? &rows->fields[rows->n_fields] : &spare;
      GString *unquoted = rows->unquoted[kept ? rows->n_fields : 0];

      if (rows->at < rows->end && *rows->at == '"' ? !read_quoted (rows, field, unquoted, error)
                                                   : !read_bare (rows, field, error))
        return FALSE;
      rows->n_fields++;
      if (rows->at >= rows->end || *rows->at != ',')
        break;
      rows->at++;
    }
  if (!skip_line_end (rows))
    return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW, _ ("something follows a closing quote."));
  return TRUE;
}

static gboolean
field_is (const Field *field, const char *text)
{
  return strlen (text) == field->length && memcmp (field->at, text, field->length) == 0;
}

static gboolean
read_header (Rows *rows, GError **error)
{
  gboolean right;

  if (!read_row (rows, error))
    return FALSE;
  right = rows->n_fields == N_COLUMNS;
  for (guint i = 0; i < N_COLUMNS && right; i++)
    right = field_is (&rows->fields[i], columns[i]);
  return right
         || fail (rows, error, HW_NEEDLE_CSV_ERROR_HEADER,
                  _ ("expected the header x_mm,y_mm,action,thread before the first row."));
}

static gboolean
slow_number (const Field *field, double *value)
{
  char text[64];
  char *end;

  if (field->length == 0 || field->length >= sizeof text || g_ascii_isspace (field->at[0]))
    return FALSE;
  memcpy (text, field->at, field->length);
  text[field->length] = '\0';
  /* Only decimals: strtod would take hexadecimal and words as well. */
  if (strspn (text, "+-.0123456789eE") != field->length)
    return FALSE;
  *value = g_ascii_strtod (text, &end);
  return *end == '\0' && isfinite (*value);
}

/* Up to 15 digits with a point among them: the digits as a whole number over a power of ten, both exact in a double, give
 * the correctly rounded value (Clinger 1990). */
static gboolean
read_number (const Field *field, double *value)
{
  static const double powers[]
      = { 1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15 };
  const char *c = field->at, *end = field->at + field->length;
  gboolean minus = c < end && *c == '-';
  gint64 digits = 0;
  guint n_digits = 0, n_after = 0;
  gboolean point = FALSE;

  for (c += minus; c < end; c++)
    {
      if (*c == '.' && !point)
        {
          point = TRUE;
          continue;
        }
      if (!g_ascii_isdigit (*c) || ++n_digits > 15)
        return slow_number (field, value);
      digits = digits * 10 + (*c - '0');
      n_after += point;
    }
  if (n_digits == 0)
    return FALSE;
  *value = (double)digits / powers[n_after];
  if (minus)
    *value = -*value;
  return TRUE;
}

static gboolean
read_coordinate (const Rows *rows, guint column, float *to, GError **error)
{
  const Field *field = &rows->fields[column];
  g_autofree char *expected = NULL;
  double value;

  if (read_number (field, &value) && fabs (value) <= HW_LARGEST_MM)
    {
      *to = (float)value;
      return TRUE;
    }
  expected = g_strdup_printf (_ ("a number of millimetres from -100000 to 100000 in %s"), columns[column]);
  return fail_field (rows, error, field, expected);
}

static gboolean
read_action (const Rows *rows, guint8 *action, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      if (field_is (&rows->fields[2], actions[i]))
        {
          *action = (guint8)i;
          return TRUE;
        }
    }
  return fail_field (rows, error, &rows->fields[2], _ ("stitch, jump, trim, colour or end in action"));
}

/* The number of the thread the row names; a row that names none goes on with the one before. */
static gboolean
read_thread (Rows *rows, guint16 *thread, GError **error)
{
  const Field *field = &rows->fields[3];
  g_autofree char *name = NULL;
  gpointer number;

  if (rows->threads->len > 0
      && (field->length == 0
          || (field->length == rows->last_name.length
              && memcmp (field->at, rows->last_name.at, field->length) == 0)))
    {
      *thread = rows->last_thread;
      return TRUE;
    }

  name = g_strndup (field->at, field->length);
  if (!g_hash_table_lookup_extended (rows->numbers, name, NULL, &number))
    {
      if (rows->threads->len == HW_MOST_NEEDLE_THREADS)
        return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW, _ ("more than %d different threads."),
                     HW_MOST_NEEDLE_THREADS);
      number = GUINT_TO_POINTER (rows->threads->len);
      g_hash_table_insert (rows->numbers, name, number);
      g_ptr_array_add (rows->threads, g_steal_pointer (&name));
    }
  rows->last_thread = *thread = (guint16)GPOINTER_TO_UINT (number);
  rows->last_name = (Field){ rows->threads->pdata[rows->last_thread], field->length };
  return TRUE;
}

static gboolean
read_point (Rows *rows, HwNeedlePoint *point, GError **error)
{
  if (rows->n_fields != N_COLUMNS)
    return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW,
                 _ ("expected 4 fields (x_mm,y_mm,action,thread), found %u."), rows->n_fields);
  return read_coordinate (rows, 0, &point->x, error) && read_coordinate (rows, 1, &point->y, error)
         && read_action (rows, &point->action, error) && read_thread (rows, &point->thread, error);
}

/* A list too long for memory must not take the open scene down with it. */
static gboolean
take_point (Rows *rows, const HwNeedlePoint *point, GError **error)
{
  if (rows->n_points == rows->room)
    {
      guint room = rows->room > 0 ? rows->room + rows->room / 2 : ROOM_AT_FIRST;
      HwNeedlePoint *points = g_try_renew (HwNeedlePoint, rows->points, room);

      if (points == NULL)
        return fail (rows, error, HW_NEEDLE_CSV_ERROR_READ,
                     _ ("there is not enough memory for a list this long."));
      rows->points = points;
      rows->room = room;
    }
  rows->points[rows->n_points++] = *point;
  return TRUE;
}

static gboolean
read_rows (Rows *rows, GError **error)
{
  gboolean ended = FALSE;

  while (rows->at < rows->end)
    {
      HwNeedlePoint point = { 0 };

      if (!read_row (rows, error))
        return FALSE;
      if (rows->n_fields == 1 && rows->fields[0].length == 0)
        continue;
      if (ended)
        return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW, _ ("a row follows the end."));
      if (!read_point (rows, &point, error))
        return FALSE;
      if (rows->n_points == HW_MOST_STITCHES)
        return fail (rows, error, HW_NEEDLE_CSV_ERROR_ROW,
                     _ ("more than %d rows; divide the motif and make a list of each piece."),
                     HW_MOST_STITCHES);
      ended = point.action == HW_NEEDLE_END;
      if (!take_point (rows, &point, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_utf8 (Rows *rows, GError **error)
{
  const char *bad;

  if (g_utf8_validate (rows->at, rows->end - rows->at, &bad))
    return TRUE;
  for (const char *c = rows->at; c < bad; c++)
    rows->line += *c == '\n';
  return fail (rows, error, HW_NEEDLE_CSV_ERROR_READ, _ ("expected text in UTF-8, found the byte 0x%02x."),
               (guint)(guchar)*bad);
}

static HwNeedleList *
take_list (Rows *rows, GError **error)
{
  guint n_points = rows->n_points;
  g_autoptr (HwNeedleList) list = NULL;
  char **threads;

  g_ptr_array_add (rows->threads, NULL);
  g_ptr_array_set_free_func (rows->threads, NULL);
  threads = (char **)g_ptr_array_free (rows->threads, FALSE);
  rows->threads = g_ptr_array_new ();
  list = hw_needle_list_new (g_steal_pointer (&rows->points), n_points, threads);
  if (list->n_stitches > 0)
    return g_steal_pointer (&list);
  g_set_error (error, HW_NEEDLE_CSV_ERROR, HW_NEEDLE_CSV_ERROR_EMPTY, _ ("%s: there is no stitch in it."),
               rows->name);
  return NULL;
}

HwNeedleList *
hw_needle_csv_parse (const char *text, gsize length, const char *name, GError **error)
{
  static const char mark[] = "\xef\xbb\xbf"; /* byte order mark, which some spreadsheets put first */
  HwNeedleList *list = NULL;
  Rows rows;

  g_return_val_if_fail (text != NULL || length == 0, NULL);
  g_return_val_if_fail (name != NULL, NULL);

  if (length >= 3 && memcmp (text, mark, 3) == 0)
    {
      text += 3;
      length -= 3;
    }
  rows_init (&rows, text, length, name);
  if (length == 0)
    g_set_error (error, HW_NEEDLE_CSV_ERROR, HW_NEEDLE_CSV_ERROR_EMPTY, _ ("%s: the file is empty."), name);
  else if (check_utf8 (&rows, error) && read_header (&rows, error) && read_rows (&rows, error))
    list = take_list (&rows, error);
  rows_clear (&rows);
  return list;
}

HwNeedleList *
hw_needle_csv_load (const char *path, GError **error)
{
  g_autofree char *text = NULL;
  g_autofree char *name = NULL;
  g_autoptr (GError) read_error = NULL;
  gsize length;

  g_return_val_if_fail (path != NULL, NULL);

  name = hw_file_shown_name (path);
  text = hw_file_read_whole (path, HW_LARGEST_NEEDLE_FILE, &length, &read_error);
  if (text == NULL)
    {
      g_set_error (error, HW_NEEDLE_CSV_ERROR, HW_NEEDLE_CSV_ERROR_READ, "%s: %s", name, read_error->message);
      return NULL;
    }
  return hw_needle_csv_parse (text, length, name, error);
}
