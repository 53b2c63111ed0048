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

/* Letters of what was typed where a sentence quotes it. */
#define LONGEST_QUOTE 40

static gboolean
breaks_a_line (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type == G_UNICODE_CONTROL || type == G_UNICODE_LINE_SEPARATOR
         || type == G_UNICODE_PARAGRAPH_SEPARATOR;
}

static char *
cut_line (const char *text, guint longest)
{
  GString *name = g_string_new (NULL);
  guint letters = 0;

  for (const char *at = text; *at != '\0' && letters <= longest; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (turns_about (c))
        continue;
      if (letters == longest)
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

char *
hw_one_line_name (const char *text)
{
  return cut_line (text, HW_LONGEST_NAME);
}

char *
hw_one_line_quote (const char *text)
{
  return cut_line (text, LONGEST_QUOTE);
}
