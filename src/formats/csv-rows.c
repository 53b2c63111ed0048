/* Small tables in CSV. Needle lists, which have millions of rows, are read by code of their own. */
#include "csv-rows.h"

#include <string.h>

#include "../geometry/language.h"

void
hw_csv_rows_init (HwCsvRows *rows, const char *text, gsize length)
{
  static const char mark[] = "\xef\xbb\xbf"; /* which some spreadsheets put first */
  gboolean marked = length >= 3 && memcmp (text, mark, 3) == 0;

  *rows = (HwCsvRows){ marked ? text + 3 : text, text + length, 1, 1 };
}

/* At an opening quote: what stands between it and its fellow, doubled quotes made single. */
static char *
read_quoted (HwCsvRows *rows, const char **wrong)
{
  g_autoptr (GString) field = g_string_new (NULL);

  for (rows->at++; rows->at < rows->end; rows->at++)
    {
      if (*rows->at == '"' && (rows->at + 1 == rows->end || rows->at[1] != '"'))
        {
          rows->at++;
          while (rows->at < rows->end && *rows->at == ' ')
            rows->at++;
          if (rows->at < rows->end && strchr (",\r\n", *rows->at) == NULL)
            break;
          return g_string_free (g_steal_pointer (&field), FALSE);
        }
      if (*rows->at == '"')
        rows->at++;
      rows->next_line += *rows->at == '\n';
      g_string_append_c (field, *rows->at);
    }
  *wrong = rows->at < rows->end ? _ ("something follows a closing quote.")
                                : _ ("a quote is opened and never closed.");
  return NULL;
}

static char *
read_bare (HwCsvRows *rows, const char **wrong)
{
  const char *start = rows->at;

  while (rows->at < rows->end && strchr (",\r\n", *rows->at) == NULL)
    {
      if (*rows->at == '"')
        {
          *wrong = _ ("a quote stands in the middle of a field.");
          return NULL;
        }
      rows->at++;
    }
  return g_strchomp (g_strndup (start, (gsize)(rows->at - start)));
}

static void
skip_line_end (HwCsvRows *rows)
{
  if (rows->at < rows->end && *rows->at == '\r')
    rows->at++;
  if (rows->at < rows->end && *rows->at == '\n')
    rows->at++;
  rows->next_line++;
}

/* Returns: (transfer full) (nullable) */
static GPtrArray *
read_row (HwCsvRows *rows, const char **wrong)
{
  g_autoptr (GPtrArray) fields = g_ptr_array_new_with_free_func (g_free);

  rows->line = rows->next_line;
  for (;;)
    {
      char *field;

      while (rows->at < rows->end && (*rows->at == ' ' || *rows->at == '\t'))
        rows->at++;
      field = rows->at < rows->end && *rows->at == '"' ? read_quoted (rows, wrong) : read_bare (rows, wrong);
      if (field == NULL)
        return NULL;
      g_ptr_array_add (fields, field);
      if (rows->at >= rows->end || *rows->at != ',')
        break;
      rows->at++;
    }
  skip_line_end (rows);
  return g_steal_pointer (&fields);
}

GPtrArray *
hw_csv_rows_next (HwCsvRows *rows, const char **wrong)
{
  *wrong = NULL;
  while (rows->at < rows->end)
    {
      GPtrArray *fields = read_row (rows, wrong);
      gboolean blank = TRUE;

      if (fields == NULL)
        return NULL;
      for (guint i = 0; i < fields->len && blank; i++)
        blank = *(const char *)fields->pdata[i] == '\0';
      if (!blank)
        return fields;
      g_ptr_array_unref (fields);
    }
  return NULL;
}

void
hw_csv_append (GString *to, const char *field)
{
  gboolean plain = strpbrk (field, ",\"\r\n") == NULL && g_strcmp0 (field, "") != 0
                   && !g_ascii_isspace (field[0]) && !g_ascii_isspace (field[strlen (field) - 1]);

  if (plain || field[0] == '\0')
    {
      g_string_append (to, field);
      return;
    }
  g_string_append_c (to, '"');
  for (const char *c = field; *c != '\0'; c++)
    {
      if (*c == '"')
        g_string_append_c (to, '"');
      g_string_append_c (to, *c);
    }
  g_string_append_c (to, '"');
}
