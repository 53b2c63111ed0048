/* The plural formula of a catalogue of translations: an expression in C's own signs of one unknown, n, as the GNU gettext manual gives it in "Additional
 * functions for plural forms". It is short, so it is kept as it is written and read through anew for each number. */
#include "plural-rule.h"

#include <string.h>

#define MOST_FORMS 16
#define LONGEST 1000
#define DEEPEST 100 /* parentheses and questions within one another */

struct _HwPluralRule
{
  guint forms;
  char *formula;
};

typedef struct
{
  const char *at;
  gulong n;
  guint depth;
  gboolean broken;
} Reading;

static gulong
read_choice (Reading *r);

static gboolean
take (Reading *r, const char *sign)
{
  while (g_ascii_isspace (*r->at))
    r->at++;
  if (!g_str_has_prefix (r->at, sign))
    return FALSE;
  r->at += strlen (sign);
  return TRUE;
}

static gulong
read_number (Reading *r)
{
  gulong value = 0;

  if (!g_ascii_isdigit (*r->at))
    r->broken = TRUE;
  for (; g_ascii_isdigit (*r->at); r->at++)
    value = value * 10 + (gulong)(*r->at - '0');
  return value;
}

static gulong
read_value (Reading *r)
{
  gulong value;

  if (r->depth >= DEEPEST)
    r->broken = TRUE;
  if (r->broken)
    return 0;
  if (take (r, "n"))
    return r->n;
  r->depth++;
  if (take (r, "!"))
    value = !read_value (r);
  else if (take (r, "("))
    {
      value = read_choice (r);
      if (!take (r, ")"))
        r->broken = TRUE;
    }
  else
    value = read_number (r);
  r->depth--;
  return value;
}

/* Signs of two characters stand before those they begin with. */
static const struct
{
  const char *sign;
  guint rank; /* the higher, the closer it binds */
} signs[] = { { "||", 0 }, { "&&", 1 }, { "==", 2 }, { "!=", 2 }, { "<=", 3 }, { ">=", 3 }, { "<", 3 },
              { ">", 3 },  { "+", 4 },  { "-", 4 },  { "*", 5 },  { "/", 5 },  { "%", 5 } };
#define RANKS 6

static const char *
take_sign (Reading *r, guint rank)
{
  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    if (signs[i].rank == rank && take (r, signs[i].sign))
      return signs[i].sign;
  return NULL;
}

static gulong
join (const char *sign, gulong a, gulong b)
{
  switch (sign[0])
    {
    case '|':
      return a || b;
    case '&':
      return a && b;
    case '=':
      return a == b;
    case '!':
      return a != b;
    case '<':
      return sign[1] != '\0' ? a <= b : a < b;
    case '>':
      return sign[1] != '\0' ? a >= b : a > b;
    case '+':
      return a + b;
    case '-':
      return a - b;
    case '*':
      return a * b;
    case '/':
      return b != 0 ? a / b : 0;
    default:
      return b != 0 ? a % b : 0;
    }
}

/* A row of signs of one rank, from left to right. */
static gulong
read_row (Reading *r, guint rank)
{
  gulong value;
  const char *sign;

  if (rank == RANKS)
    return read_value (r);
  value = read_row (r, rank + 1);
  while (!r->broken && (sign = take_sign (r, rank)) != NULL)
    value = join (sign, value, read_row (r, rank + 1));
  return value;
}

static gulong
read_choice (Reading *r)
{
  gulong value = read_row (r, 0), yes, no;

  if (r->broken || !take (r, "?"))
    return value;
  if (++r->depth >= DEEPEST)
    r->broken = TRUE;
  yes = r->broken ? 0 : read_choice (r);
  if (!take (r, ":"))
    r->broken = TRUE;
  no = r->broken ? 0 : read_choice (r);
  r->depth--;
  return value ? yes : no;
}

/* FALSE when it is no formula. */
static gboolean
answer (const HwPluralRule *rule, gulong n, gulong *form)
{
  Reading r = { rule->formula, n, 0, FALSE };

  *form = read_choice (&r);
  take (&r, "");
  return !r.broken && *r.at == '\0';
}

HwPluralRule *
hw_plural_rule_new (const char *header)
{
  g_autoptr (HwPluralRule) rule = g_new0 (HwPluralRule, 1);
  const char *forms, *formula;
  gulong form;

  g_return_val_if_fail (header != NULL, NULL);

  forms = strstr (header, "nplurals=");
  formula = forms != NULL ? strstr (forms + strlen ("nplurals="), "plural=") : NULL;
  if (formula == NULL)
    return NULL;
  rule->forms = (guint)g_ascii_strtoull (forms + strlen ("nplurals="), NULL, 10);
  formula += strlen ("plural=");
  rule->formula = g_strndup (formula, strcspn (formula, ";\n"));
  if (rule->forms < 1 || rule->forms > MOST_FORMS || strlen (rule->formula) > LONGEST
      || !answer (rule, 1, &form))
    return NULL;
  return g_steal_pointer (&rule);
}

void
hw_plural_rule_free (HwPluralRule *rule)
{
  g_return_if_fail (rule != NULL);

  g_free (rule->formula);
  g_free (rule);
}

guint
hw_plural_rule_form (const HwPluralRule *rule, gulong n)
{
  gulong form;

  g_return_val_if_fail (rule != NULL, 0);

  return answer (rule, n, &form) && form < rule->forms ? (guint)form : 0;
}

guint
hw_plural_rule_forms (const HwPluralRule *rule)
{
  g_return_val_if_fail (rule != NULL, 1);

  return rule->forms;
}
