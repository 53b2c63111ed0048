/* A reading of JSON that builds nothing: it follows the grammar of RFC 8259 and stops at the first thing that does not.
 * Stricter than the grammar where a value could not be kept: depth, zero characters, halves of surrogate pairs, numbers beyond
 * what 64 bits hold. */
#include "json-check.h"

#include <math.h>
#include <string.h>

#include "../geometry/language.h"

G_DEFINE_QUARK (hw_json_error_quark, hw_json_error)

#define MOST_DIGITS 18 /* of a whole number: always fits 64 bits */
#define LONGEST_QUOTE 40

/* Where in the tree of values the reading is. */
typedef struct Place
{
  const struct Place *parent;
  const char *key; /* not ended by zero; NULL in a list */
  gsize key_length;
  guint index;
} Place;

typedef struct
{
  const char *start;
  const char *at;
  const char *end;
  guint n_values;
  GError **error;
} Text;

static gboolean
check_value (Text *text, const Place *place, guint depth);

static gboolean
fail (Text *text, const char *at, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
fail (Text *text, const char *at, const char *format, ...)
{
  g_autofree char *what = NULL;
  guint line = 1;
  const char *line_start = text->start;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  for (const char *c = text->start; c < at; c++)
    {
      if (*c == '\n')
        {
          line++;
          line_start = c + 1;
        }
    }
  g_set_error (text->error, HW_JSON_ERROR, HW_JSON_ERROR_SYNTAX, _ ("line %u, column %ld: %s"), line,
               g_utf8_strlen (line_start, at - line_start) + 1, what);
  return FALSE;
}

/* The character at the place of reading, fit to be shown. */
static char *
here (const Text *text)
{
  gunichar c = g_utf8_get_char (text->at);

  if (c == '"')
    return g_strdup (_ ("a quote"));
  return g_unichar_isprint (c)
             ? g_strdup_printf ("\"%.*s\"", (int)(g_utf8_next_char (text->at) - text->at), text->at)
             : g_strdup_printf ("U+%04X", c);
}

static gboolean
fail_expected (Text *text, const char *expected)
{
  g_autofree char *found = NULL;

  if (text->at >= text->end)
    return fail (text, text->end, _ ("the text ends in the middle, it may have been cut off; expected %s."),
                 expected);
  found = here (text);
  return fail (text, text->at, _ ("expected %s, found %s."), expected, found);
}

static void
append_path (GString *path, const Place *place)
{
  if (place == NULL)
    return;
  append_path (path, place->parent);
  if (place->key == NULL)
    g_string_append_printf (path, "[%u]", place->index);
  else
    g_string_append_printf (path, "%s%.*s", path->len > 0 ? "." : "", (int)place->key_length, place->key);
}

static gboolean
fail_number (Text *text, const Place *place, const char *expected, const char *number, gsize length)
{
  g_autoptr (GString) path = g_string_new (NULL);

  append_path (path, place);
  g_set_error (text->error, HW_JSON_ERROR, HW_JSON_ERROR_NUMBER, _ ("%s: expected %s, found %.*s%s."),
               path->len > 0 ? path->str : _ ("the scene"), expected, (int)MIN (length, LONGEST_QUOTE),
               number, length > LONGEST_QUOTE ? "…" : "");
  return FALSE;
}

static void
skip_space (Text *text)
{
  while (text->at < text->end && strchr (" \t\r\n", *text->at) != NULL && *text->at != '\0')
    text->at++;
}

static gboolean
starts_with (const Text *text, const char *word)
{
  gsize length = strlen (word);

  return (gsize)(text->end - text->at) >= length && memcmp (text->at, word, length) == 0;
}

/* The four digits after \u; -1 when they are none. */
static int
hex4 (const Text *text, const char *at)
{
  int value = 0;

  if (text->end - at < 4)
    return -1;
  for (int i = 0; i < 4; i++)
    {
      int digit = g_ascii_xdigit_value (at[i]);

      if (digit < 0)
        return -1;
      value = value * 16 + digit;
    }
  return value;
}

/* At the u of \uXXXX. */
static gboolean
check_unicode_escape (Text *text)
{
  int code = hex4 (text, text->at + 1);

  if (code < 0)
    return fail (text, text->at, _ ("expected four hexadecimal digits after \\u."));
  if (code == 0)
    return fail (text, text->at, _ ("a zero character cannot be part of a text."));
  if (code >= 0xdc00 && code <= 0xdfff)
    return fail (text, text->at, _ ("half of a surrogate pair cannot be part of a text."));
  text->at += 5;
  if (code < 0xd800 || code > 0xdbff)
    return TRUE;

  if (starts_with (text, "\\u"))
    {
      int second = hex4 (text, text->at + 2);

      if (second >= 0xdc00 && second <= 0xdfff)
        {
          text->at += 6;
          return TRUE;
        }
    }
  return fail (text, text->at, _ ("half of a surrogate pair cannot be part of a text."));
}

/* At the opening quote. */
static gboolean
check_string (Text *text)
{
  const char *opened = text->at++;

  while (text->at < text->end && *text->at != '"')
    {
      guchar c = (guchar)*text->at;

      if (c == '\n')
        return fail (text, opened, _ ("the closing quote is missing on this line."));
      if (c < 0x20)
        return fail (text, text->at, _ ("a control character stands bare in a text."));
      if (c != '\\')
        {
          text->at++;
          continue;
        }
      text->at++;
      if (text->at >= text->end)
        break;
      if (*text->at == 'u')
        {
          if (!check_unicode_escape (text))
            return FALSE;
        }
      else if (*text->at != '\0' && strchr ("\"\\/bfnrt", *text->at) != NULL)
        text->at++;
      else
        return fail_expected (text, _ ("one of \" \\ / b f n r t u after \\"));
    }
  if (text->at >= text->end)
    return fail_expected (text, _ ("a closing quote"));
  text->at++;
  return TRUE;
}

static gboolean
skip_digits (Text *text)
{
  const char *first = text->at;

  while (text->at < text->end && g_ascii_isdigit (*text->at))
    text->at++;
  return text->at > first;
}

static gboolean
check_number (Text *text, const Place *place)
{
  const char *first = text->at;
  g_autofree char *number = NULL;
  gboolean whole = TRUE;
  gsize length;

  if (*text->at == '-')
    text->at++;
  if (text->at < text->end && *text->at == '0')
    text->at++;
  else if (!skip_digits (text))
    return fail_expected (text, _ ("a digit"));
  if (text->at < text->end && g_ascii_isdigit (*text->at))
    return fail (text, first, _ ("a number cannot begin with 0 and another digit."));
  if (text->at < text->end && *text->at == '.')
    {
      whole = FALSE;
      text->at++;
      if (!skip_digits (text))
        return fail_expected (text, _ ("a digit after the decimal point"));
    }
  if (text->at < text->end && (*text->at == 'e' || *text->at == 'E'))
    {
      whole = FALSE;
      text->at++;
      if (text->at < text->end && (*text->at == '+' || *text->at == '-'))
        text->at++;
      if (!skip_digits (text))
        return fail_expected (text, _ ("a digit of the exponent"));
    }

  length = (gsize)(text->at - first);
  number = g_strndup (first, length);
  if (whole ? strlen (number) > MOST_DIGITS : !isfinite (g_ascii_strtod (number, NULL)))
    return fail_number (text, place, _ ("a number of an ordinary size"), first, length);
  return TRUE;
}

/* At "{": one member after another. */
static gboolean
check_object (Text *text, const Place *parent, guint depth)
{
  text->at++;
  skip_space (text);
  if (text->at < text->end && *text->at == '}')
    {
      text->at++;
      return TRUE;
    }
  for (;;)
    {
      Place place = { .parent = parent };

      skip_space (text);
      if (text->at >= text->end || *text->at != '"')
        return fail_expected (text, _ ("a key in quotes"));
      place.key = text->at + 1;
      if (!check_string (text))
        return FALSE;
      place.key_length = (gsize)(text->at - 1 - place.key);
      skip_space (text);
      if (text->at >= text->end || *text->at != ':')
        return fail_expected (text, _ ("a colon after the key"));
      text->at++;
      if (!check_value (text, &place, depth + 1))
        return FALSE;
      skip_space (text);
      if (text->at < text->end && *text->at == '}')
        break;
      if (text->at >= text->end || *text->at != ',')
        return fail_expected (text, _ ("a comma or }"));
      text->at++;
    }
  text->at++;
  return TRUE;
}

/* At "[". */
static gboolean
check_list (Text *text, const Place *parent, guint depth)
{
  text->at++;
  skip_space (text);
  if (text->at < text->end && *text->at == ']')
    {
      text->at++;
      return TRUE;
    }
  for (guint i = 0;; i++)
    {
      const Place place = { .parent = parent, .index = i };

      if (!check_value (text, &place, depth + 1))
        return FALSE;
      skip_space (text);
      if (text->at < text->end && *text->at == ']')
        break;
      if (text->at >= text->end || *text->at != ',')
        return fail_expected (text, _ ("a comma or ]"));
      text->at++;
    }
  text->at++;
  return TRUE;
}

static gboolean
check_value (Text *text, const Place *place, guint depth)
{
  static const char *const words[] = { "true", "false", "null" };
  static const char *const never[] = { "NaN", "Infinity", "-Infinity", "nan", "inf", "-inf" };

  if (++text->n_values > HW_JSON_MOST_VALUES)
    {
      g_set_error (text->error, HW_JSON_ERROR, HW_JSON_ERROR_TOO_LARGE, _ ("it holds more than %d values."),
                   HW_JSON_MOST_VALUES);
      return FALSE;
    }
  skip_space (text);
  if (depth > HW_JSON_DEEPEST)
    return fail (text, text->at, _ ("the values are nested more than %d deep."), HW_JSON_DEEPEST);
  for (guint i = 0; i < G_N_ELEMENTS (never); i++)
    {
      if (starts_with (text, never[i]))
        return fail_number (text, place, _ ("a number"), never[i], strlen (never[i]));
    }
  if (text->at < text->end)
    {
      if (*text->at == '{')
        return check_object (text, place, depth);
      if (*text->at == '[')
        return check_list (text, place, depth);
      if (*text->at == '"')
        return check_string (text);
      if (*text->at == '-' || g_ascii_isdigit (*text->at))
        return check_number (text, place);
    }
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      if (starts_with (text, words[i]))
        {
          text->at += strlen (words[i]);
          return TRUE;
        }
    }
  return fail_expected (text, _ ("a value"));
}

gboolean
hw_json_check (const char *json, gsize length, GError **error)
{
  Text text = { .start = json, .at = json, .end = json + length, .error = error };
  const char *bad;

  g_return_val_if_fail (json != NULL, FALSE);

  if (!g_utf8_validate (json, (gssize)length, &bad))
    return fail (&text, bad, _ ("expected text in UTF-8, found the byte 0x%02x."), (guint)(guchar)*bad);
  skip_space (&text);
  if (text.at >= text.end)
    {
      g_set_error_literal (error, HW_JSON_ERROR, HW_JSON_ERROR_SYNTAX, _ ("the text is empty."));
      return FALSE;
    }
  if (!check_value (&text, NULL, 0))
    return FALSE;
  skip_space (&text);
  return text.at >= text.end || fail_expected (&text, _ ("nothing more after the end"));
}
