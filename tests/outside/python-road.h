/* A second road through general-purpose Python libraries: a script reads numbers, one case a line, and writes numbers. When Python or the
 * library is missing the test fails, because the set-up installs both. */
#pragma once

#include <gio/gio.h>

/* Runs the script with the input; asserts that it succeeds. Returns: (transfer full): its lines */
static inline char **
python_road (const char *script, const char *input)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) python
      = g_subprocess_new (G_SUBPROCESS_FLAGS_STDIN_PIPE | G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error,
                          "/usr/bin/python3", "-c", script, NULL);
  g_autofree char *output = NULL;

  g_assert_no_error (error);
  g_assert_true (g_subprocess_communicate_utf8 (python, input, NULL, &output, NULL, &error));
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_successful (python));
  return g_strsplit (g_strstrip (output), "\n", -1);
}

static inline void
append_number (GString *line, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  if (line->len > 0 && line->str[line->len - 1] != '\n')
    g_string_append_c (line, ' ');
  g_string_append (line, g_ascii_dtostr (text, sizeof text, value));
}

/* The numbers of a line. */
static inline guint
read_numbers (const char *line, double *numbers, guint most)
{
  guint n = 0;

  while (n < most)
    {
      char *end;
      double value = g_ascii_strtod (line, &end);

      if (end == line)
        break;
      numbers[n++] = value;
      line = end;
    }
  return n;
}
