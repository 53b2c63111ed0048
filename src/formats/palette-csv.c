/* The person's own thread list: whatever columns it has, those that are known are found by their names in the first row. */
#include "palette-csv.h"

#include <math.h>
#include <string.h>

#include "csv-rows.h"
#include "json-lines.h"
#include "../geometry/one-line.h"
#include "whole-file.h"
#include "../geometry/language.h"
#include "../scene/limits.h"

G_DEFINE_QUARK (hw_palette_csv_error_quark, hw_palette_csv_error)

#define LONGEST_QUOTE 40

typedef enum
{
  NAME,
  NUMBER,
  COLOUR,
  LIGHTNESS,
  A,
  B,
  METRES,
  N_COLUMNS
} Column;

static const char *const columns[N_COLUMNS] = { "name", "number", "colour", "lightness", "a", "b", "metres" };

typedef struct
{
  const char *name; /* of the list, in sentences */
  HwCsvRows rows;
  int place[N_COLUMNS]; /* of each column in a row, or -1 */
  guint n_fields;       /* of the header */
  GPtrArray *fields;    /* of the row just read */
  GError **error;
} List;

static gboolean
fail (const List *list, HwPaletteCsvError code, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
fail (const List *list, HwPaletteCsvError code, const char *format, ...)
{
  g_autofree char *what = NULL;
  g_autofree char *text = NULL;
  g_autofree char *line = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  text = g_strdup_printf (_ ("%s: line %u: %s"), list->name, list->rows.line, what);
  line = hw_one_line (text);
  g_set_error_literal (list->error, HW_PALETTE_CSV_ERROR, code, line);
  return FALSE;
}

/* "" where the row has no such field. */
static const char *
field (const List *list, Column column)
{
  int at = list->place[column];

  return at >= 0 && at < (int)list->fields->len ? list->fields->pdata[at] : "";
}

static gboolean
fail_field (const List *list, Column column, const char *expected)
{
  const char *text = field (list, column);
  g_autofree char *found = g_utf8_substring (text, 0, MIN (g_utf8_strlen (text, -1), LONGEST_QUOTE));

  return fail (list, HW_PALETTE_CSV_ERROR_ROW, _ ("column \"%s\": expected %s, found \"%s\"."),
               columns[column], expected, found);
}

static gboolean
check_utf8 (List *list, const char *text, gsize length)
{
  const char *bad, *start = text;

  if (g_utf8_validate (text, (gssize)length, &bad))
    return TRUE;
  for (const char *c = text; c < bad; c++)
    {
      if (*c == '\n')
        {
          list->rows.line++;
          start = c + 1;
        }
    }
  return fail (
      list, HW_PALETTE_CSV_ERROR_READ,
      _ ("expected text in UTF-8, found the byte 0x%02x at character %ld; save the list again in that "
         "encoding."),
      (guint)(guchar)*bad, g_utf8_strlen (start, bad - start) + 1);
}

static gboolean
next_row (List *list, gboolean *more)
{
  const char *wrong;

  g_clear_pointer (&list->fields, g_ptr_array_unref);
  list->fields = hw_csv_rows_next (&list->rows, &wrong);
  *more = list->fields != NULL;
  return wrong == NULL || fail (list, HW_PALETTE_CSV_ERROR_ROW, "%s", wrong);
}

static gboolean
find_columns (List *list)
{
  for (guint i = 0; i < list->fields->len; i++)
    {
      for (guint column = 0; column < N_COLUMNS; column++)
        {
          if (g_ascii_strcasecmp (list->fields->pdata[i], columns[column]) != 0)
            continue;
          if (list->place[column] >= 0)
            return fail (list, HW_PALETTE_CSV_ERROR_HEADER, _ ("there are two columns \"%s\"."),
                         columns[column]);
          list->place[column] = (int)i;
        }
    }
  return TRUE;
}

static gboolean
read_header (List *list)
{
  gboolean lab;

  if (!find_columns (list))
    return FALSE;
  list->n_fields = list->fields->len;
  lab = list->place[LIGHTNESS] >= 0 && list->place[A] >= 0 && list->place[B] >= 0;
  if (list->place[NAME] >= 0 && (list->place[COLOUR] >= 0 || lab))
    return TRUE;
  if (list->n_fields == 1 && strpbrk (list->fields->pdata[0], ";\t") != NULL)
    return fail (
        list, HW_PALETTE_CSV_ERROR_HEADER,
        _ ("the columns are not set apart by commas; save the list again with commas between them."));
  if (list->place[NAME] < 0)
    return fail (list, HW_PALETTE_CSV_ERROR_HEADER,
                 _ ("there is no column \"name\"; the first row names the columns."));
  return fail (list, HW_PALETTE_CSV_ERROR_HEADER,
               _ ("there is no column \"colour\", nor the three columns \"lightness\", \"a\" and \"b\"."));
}

static gboolean
read_number (const List *list, Column column, double least, double most, const char *expected, double *value)
{
  const char *text = field (list, column);
  char *end;

  /* Only decimals: strtod would take hexadecimal and words as well. */
  *value = g_ascii_strtod (text, &end);
  if (text[0] != '\0' && *end == '\0' && strspn (text, "+-.0123456789eE") == strlen (text) && *value >= least
      && *value <= most)
    return TRUE;
  return fail_field (list, column, expected);
}

static gboolean
read_lab (const List *list, HwLab *lab)
{
  HwColour colour;
  gboolean has_lab
      = field (list, LIGHTNESS)[0] != '\0' || field (list, A)[0] != '\0' || field (list, B)[0] != '\0';

  if (has_lab)
    return read_number (list, LIGHTNESS, 0, 100, _ ("a number from 0 to 100"), &lab->l)
           && read_number (list, A, -200, 200, _ ("a number from -200 to 200"), &lab->a)
           && read_number (list, B, -200, 200, _ ("a number from -200 to 200"), &lab->b);
  if (!hw_colour_parse (field (list, COLOUR), &colour))
    return fail_field (list, list->place[COLOUR] >= 0 ? COLOUR : LIGHTNESS,
                       list->place[COLOUR] >= 0 ? _ ("a colour like \"#335522\"")
                                                : _ ("a number from 0 to 100"));
  *lab = hw_colour_lab (colour);
  return TRUE;
}

static gboolean
read_thread (const List *list, GPtrArray *palette)
{
  double metres = NAN;
  HwLab lab;

  if (list->fields->len > list->n_fields)
    return fail (list, HW_PALETTE_CSV_ERROR_ROW,
                 _ ("expected %u fields as in the first row, found %u; a field with a comma in it stands in "
                    "quotes."),
                 list->n_fields, list->fields->len);
  g_autofree char *name = hw_one_line_name (field (list, NAME));

  if (*name == '\0')
    return fail_field (list, NAME, _ ("a name"));
  if (!read_lab (list, &lab))
    return FALSE;
  if (field (list, METRES)[0] != '\0'
      && !read_number (list, METRES, 0, 1e6, _ ("a number of metres from 0 to 1000000, or nothing"), &metres))
    return FALSE;
  if (palette->len == HW_MOST_PALETTE_THREADS)
    return fail (list, HW_PALETTE_CSV_ERROR_ROW, _ ("more than %d threads."), HW_MOST_PALETTE_THREADS);
  g_ptr_array_add (palette, hw_palette_thread_new (name, field (list, NUMBER), lab, metres));
  return TRUE;
}

static gboolean
read_list (List *list, GPtrArray *palette)
{
  gboolean more;

  if (!next_row (list, &more))
    return FALSE;
  if (more && !read_header (list))
    return FALSE;
  while (more)
    {
      if (!next_row (list, &more) || (more && !read_thread (list, palette)))
        return FALSE;
    }
  if (palette->len > 0)
    return TRUE;
  g_set_error (list->error, HW_PALETTE_CSV_ERROR, HW_PALETTE_CSV_ERROR_EMPTY,
               _ ("%s: there is no thread in it."), list->name);
  return FALSE;
}

GPtrArray *
hw_palette_csv_parse (const char *text, gsize length, const char *name, GError **error)
{
  g_autoptr (GPtrArray) palette = NULL;
  List list = { .name = name, .error = error };
  gboolean whole;

  g_return_val_if_fail (text != NULL || length == 0, NULL);
  g_return_val_if_fail (name != NULL, NULL);

  palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);
  hw_csv_rows_init (&list.rows, text, length);
  for (guint i = 0; i < N_COLUMNS; i++)
    list.place[i] = -1;
  whole = check_utf8 (&list, text, length) && read_list (&list, palette);
  g_clear_pointer (&list.fields, g_ptr_array_unref);
  return whole ? g_steal_pointer (&palette) : NULL;
}

GPtrArray *
hw_palette_csv_load (const char *path, GError **error)
{
  g_autofree char *text = NULL;
  g_autofree char *name = NULL;
  g_autoptr (GError) problem = NULL;
  gsize length;

  g_return_val_if_fail (path != NULL, NULL);

  name = hw_file_shown_name (path);
  text = hw_file_read_whole (path, HW_LARGEST_PALETTE_FILE, &length, &problem);
  if (text == NULL)
    {
      g_set_error (error, HW_PALETTE_CSV_ERROR, HW_PALETTE_CSV_ERROR_READ, "%s: %s", name, problem->message);
      return NULL;
    }
  return hw_palette_csv_parse (text, length, name, error);
}

static void
append_number (GString *text, double value)
{
  g_autofree char *number = hw_json_number_text (value);

  g_string_append_printf (text, ",%s", number);
}

char *
hw_palette_csv_write (GPtrArray *palette)
{
  g_autoptr (GString) text = g_string_new ("name,number,colour,lightness,a,b,metres\r\n");

  g_return_val_if_fail (palette != NULL, NULL);

  for (guint i = 0; i < palette->len; i++)
    {
      const HwPaletteThread *thread = palette->pdata[i];
      g_autofree char *colour = hw_colour_text (hw_lab_colour (thread->lab));

      hw_csv_append (text, thread->name);
      g_string_append_c (text, ',');
      hw_csv_append (text, thread->number != NULL ? thread->number : "");
      g_string_append_printf (text, ",%s", colour);
      append_number (text, thread->lab.l);
      append_number (text, thread->lab.a);
      append_number (text, thread->lab.b);
      if (isnan (thread->metres))
        g_string_append_c (text, ',');
      else
        append_number (text, thread->metres);
      g_string_append (text, "\r\n");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}
