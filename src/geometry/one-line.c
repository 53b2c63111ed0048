/* A text put into one line, for sentences that quote what was found in a file. */
#include "one-line.h"

/* Marks that turn the direction of writing would turn the rest of the sentence as well. */
static gboolean
turns_about (gunichar c)
{
  return (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
}

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
      else if (turns_about (c) || type == G_UNICODE_CONTROL || type == G_UNICODE_LINE_SEPARATOR
               || type == G_UNICODE_PARAGRAPH_SEPARATOR)
        g_string_append_printf (line, "\\u%04x", c);
      else
        g_string_append_unichar (line, c);
    }
  return g_string_free (line, FALSE);
}

/* Letters of a name in a window and on paper; nobody reads more. */
#define LONGEST_NAME 200

static gboolean
breaks_a_line (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type == G_UNICODE_CONTROL || type == G_UNICODE_LINE_SEPARATOR
         || type == G_UNICODE_PARAGRAPH_SEPARATOR;
}

char *
hw_one_line_name (const char *text)
{
  GString *name = g_string_new (NULL);
  guint letters = 0;

  for (const char *at = text; *at != '\0' && letters <= LONGEST_NAME; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (turns_about (c))
        continue;
      if (letters == LONGEST_NAME)
        g_string_append (name, "…");
      else if (!breaks_a_line (c))
        g_string_append_unichar (name, c);
      else if (name->len > 0 && name->str[name->len - 1] != ' ')
        g_string_append_c (name, ' ');
      else
        continue;
      letters++;
    }
  return g_string_free (name, FALSE);
}
