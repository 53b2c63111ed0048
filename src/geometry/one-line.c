/* A text put into one line, for sentences that quote what was found in a file. */
#include "one-line.h"

char *
hw_one_line (const char *text)
{
  GString *line = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      GUnicodeType type = g_unichar_type (c);

      if (c == '\n')
        g_string_append (line, "\\n");
      else if (type == G_UNICODE_CONTROL || type == G_UNICODE_LINE_SEPARATOR
               || type == G_UNICODE_PARAGRAPH_SEPARATOR)
        g_string_append_printf (line, "\\u%04x", c);
      else
        g_string_append_unichar (line, c);
    }
  return g_string_free (line, FALSE);
}
