/* Names of files made of names that people gave. */
#include "file-name.h"

#include <string.h>

#define LONGEST_ENDING 10

/* Marks that turn the direction of writing: with them "fdp.exe" may be shown as "exe.pdf". */
static gboolean
turns_about (gunichar c)
{
  return (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069) || c == 0x200e || c == 0x200f;
}

static gboolean
is_trouble (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type == G_UNICODE_CONTROL || type == G_UNICODE_LINE_SEPARATOR
         || type == G_UNICODE_PARAGRAPH_SEPARATOR || type == G_UNICODE_UNASSIGNED
         || (c < 0x80 && strchr ("/\\:*?\"<>|", (int)c) != NULL);
}

static void
cut (GString *name)
{
  g_autofree char *ending = NULL;
  const char *dot = strrchr (name->str, '.');
  gsize keep = HW_LONGEST_FILE_NAME;

  if (name->len <= HW_LONGEST_FILE_NAME)
    return;
  if (dot != NULL && strlen (dot) <= LONGEST_ENDING)
    ending = g_strdup (dot);
  keep -= ending != NULL ? strlen (ending) : 0;
  while ((name->str[keep] & 0xc0) == 0x80)
    keep--;
  g_string_truncate (name, keep);
  g_string_append (name, ending != NULL ? ending : "");
}

char *
hw_file_name_of (const char *words)
{
  g_autoptr (GString) name = g_string_new (NULL);
  g_autofree char *valid = NULL;

  g_return_val_if_fail (words != NULL, NULL);

  valid = g_utf8_make_valid (words, -1);
  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (is_trouble (c))
        g_string_append_c (name, '-');
      else if (!turns_about (c))
        g_string_append_unichar (name, c);
    }
  if (name->len == 0)
    g_string_append_c (name, '-');
  if (name->str[0] == '.')
    name->str[0] = '-';
  cut (name);
  return g_string_free (g_steal_pointer (&name), FALSE);
}
