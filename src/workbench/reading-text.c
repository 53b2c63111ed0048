/* A figure of a reading as it is typed. */
#include "reading-text.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "../scene/records.h"

/* Whether the word begins with what was typed. */
static gboolean
begins (const char *word, const char *typed)
{
  g_autofree char *a = g_utf8_casefold (word, -1);
  g_autofree char *b = g_utf8_casefold (typed, -1);

  return g_str_has_prefix (a, b);
}

/* Whether the text ends with the whole of words, which a language may need more than one of: "vers vous". Then they are cut off. */
static gboolean
cut_words (char *text, const char *words)
{
  g_autofree char *a = g_utf8_casefold (text, -1);
  g_autofree char *b = g_utf8_casefold (words, -1);
  glong length = g_utf8_strlen (text, -1) - g_utf8_strlen (words, -1);

  if (length < 0 || !g_str_has_suffix (a, b))
    return FALSE;
  *g_utf8_offset_to_pointer (text, length) = '\0';
  return TRUE;
}

void
hw_reading_text_take_way (char *text, const char *const words[2], gboolean *negative)
{
  char *last;

  g_return_if_fail (text != NULL && words != NULL && negative != NULL);

  for (guint i = 0; i < 2; i++)
    if (cut_words (text, words[i]))
      {
        *negative = i == 1;
        return;
      }
  last = text + strlen (text);
  while (last > text && (g_ascii_isalpha (last[-1]) || (guchar)last[-1] >= 0x80))
    last--;
  if (*last == '\0')
    return;
  for (guint i = 0; i < 2; i++)
    if (begins (words[i], last))
      {
        *negative = i == 1;
        *last = '\0';
        return;
      }
}

HwReadingText
hw_reading_text_parse (const char *text, gboolean along, HwUnit unit, double *mm, gboolean *negative)
{
  g_autofree char *copy = g_strstrip (hw_narrow_text (text));
  const char *const words[2] = { along ? _ ("towards") : _ ("right"), along ? _ ("away") : _ ("left") };
  gboolean way = *negative;
  const char *rest;
  double value;

  hw_reading_text_take_way (copy, words, &way);
  rest = g_strstrip (copy);
  if (*rest == '-' || g_str_has_prefix (rest, "−"))
    {
      way = way || !along;
      rest = g_utf8_next_char (rest);
    }
  *negative = way;
  if (*rest == '\0')
    return HW_READING_TEXT_EMPTY;
  if (!hw_length_parse (rest, unit, &value) || !isfinite (value) || fabs (value) > HW_LARGEST_MM)
    return HW_READING_TEXT_NONE;
  *mm = fabs (value);
  return HW_READING_TEXT_LENGTH;
}
