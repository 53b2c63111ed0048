/* Thread counts. The tex system and its factors are those of ISO 1144: dtex is a tenth of a tex, denier a ninth, Ne = 590.5 / tex, Nm = 1000 / tex. The
 * cotton count is taken exactly, 840 yards of 0.9144 m to the pound of 453.59237 g, which gives 590.54. */
#include "yarn-count.h"

#include <math.h>
#include <string.h>

#include "../geometry/figures.h"
#include "../geometry/language.h"
#include "../geometry/one-line.h"

#define NE_TEX (453.59237 / (840 * 0.9144) * 1000)
#define MOST_PLIES 12

G_DEFINE_QUARK (hw_yarn_error_quark, hw_yarn_error)

static const struct
{
  const char *word;
  HwYarnSystem system;
} words[] = {
  { "tex", HW_YARN_TEX },    { "dtex", HW_YARN_DTEX },     { "decitex", HW_YARN_DTEX },
  { "den", HW_YARN_DENIER }, { "denier", HW_YARN_DENIER }, { "td", HW_YARN_DENIER },
  { "ne", HW_YARN_NE },      { "nec", HW_YARN_NE },        { "nm", HW_YARN_NM },
};

double
hw_yarn_to_tex (double figure, HwYarnSystem system)
{
  g_return_val_if_fail (figure > 0, NAN);

  switch (system)
    {
    case HW_YARN_DTEX:
      return figure / 10;
    case HW_YARN_DENIER:
      return figure / 9;
    case HW_YARN_NE:
      return NE_TEX / figure;
    case HW_YARN_NM:
      return 1000 / figure;
    default:
      return figure;
    }
}

double
hw_yarn_from_tex (double tex, HwYarnSystem system)
{
  g_return_val_if_fail (tex > 0, NAN);

  switch (system)
    {
    case HW_YARN_DTEX:
      return tex * 10;
    case HW_YARN_DENIER:
      return tex * 9;
    case HW_YARN_NE:
      return NE_TEX / tex;
    case HW_YARN_NM:
      return 1000 / tex;
    default:
      return tex;
    }
}

/* Where reading stands in a text without capitals. */
typedef struct
{
  const char *at;
} Cursor;

static void
skip_white (Cursor *cursor)
{
  while (g_ascii_isspace (*cursor->at))
    cursor->at++;
}

static gboolean
take_figure (Cursor *cursor, double *figure)
{
  g_autofree char *digits = NULL;
  gsize n;

  skip_white (cursor);
  n = strspn (cursor->at, "0123456789.,");
  if (n == 0 || n > 12)
    return FALSE;
  digits = g_strndup (cursor->at, n);
  g_strdelimit (digits, ",", '.');
  if (strchr (digits, '.') != strrchr (digits, '.') || !g_ascii_isdigit (digits[0]))
    return FALSE;
  *figure = g_ascii_strtod (digits, NULL);
  cursor->at += n;
  return *figure > 0;
}

static gboolean
take_system (Cursor *cursor, HwYarnSystem *system)
{
  gsize n = 0;

  skip_white (cursor);
  while (g_ascii_isalpha (cursor->at[n]))
    n++;
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (n == strlen (words[i].word) && strncmp (cursor->at, words[i].word, n) == 0)
      {
        *system = words[i].system;
        cursor->at += n;
        return TRUE;
      }
  return FALSE;
}

/* "x 2", "/2" or nothing. FALSE when what follows the sign is no count of plies. */
static gboolean
take_plies (Cursor *cursor, double *plies)
{
  skip_white (cursor);
  if (*plies != 1 || (*cursor->at != 'x' && *cursor->at != '/' && *cursor->at != '*'))
    return TRUE;
  cursor->at++;
  return take_figure (cursor, plies) && *plies == floor (*plies) && *plies <= MOST_PLIES;
}

static gboolean
read_count (const char *text, double *tex)
{
  Cursor cursor = { text };
  HwYarnSystem system = HW_YARN_TEX;
  gboolean named = take_system (&cursor, &system);
  double figure, plies = 1;

  if (!take_figure (&cursor, &figure) || !take_plies (&cursor, &plies))
    return FALSE;
  if (!named)
    take_system (&cursor, &system);
  if (!take_plies (&cursor, &plies))
    return FALSE;
  skip_white (&cursor);
  if (*cursor.at != '\0')
    return FALSE;
  *tex = hw_yarn_to_tex (figure, system) * plies;
  return TRUE;
}

/* Without capitals, and with a plain x for the multiplication sign. Returns: (transfer full) */
static char *
make_plain (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\u00d7", -1);
  g_autofree char *joined = g_strjoinv ("x", parts);

  return g_ascii_strdown (joined, -1);
}

gboolean
hw_yarn_parse (const char *text, double *tex, GError **error)
{
  g_autofree char *plain = NULL, *shown = NULL;
  double read;

  g_return_val_if_fail (text != NULL && tex != NULL, FALSE);

  plain = make_plain (text);
  shown = hw_one_line_quote (text);
  if (!read_count (plain, &read))
    {
      g_set_error (error, HW_YARN_ERROR, HW_YARN_ERROR_UNREADABLE,
                   _ ("“%s” is no thread count: write it as on the spool, for instance 27 tex, 120 den x 2, "
                      "40/2 Ne, 80/2 Nm or 270 dtex."),
                   shown);
      return FALSE;
    }
  if (read < HW_LEAST_TEX || read > HW_MOST_TEX)
    {
      g_autofree char *meant = hw_yarn_text (read);

      g_set_error (error, HW_YARN_ERROR, HW_YARN_ERROR_RANGE,
                   _ ("“%s” would be %s: a thread for the machine has 1 to 1000 tex."), shown, meant);
      return FALSE;
    }
  *tex = read;
  return TRUE;
}

char *
hw_yarn_text (double tex)
{
  double tenths = round (tex * 10) / 10;
  g_autofree char *figure = hw_figure_text (tenths, fabs (tenths - round (tenths)) < 0.05 ? 0 : 1);

  return g_strdup_printf (_ ("%s tex"), figure);
}
