/* The language that sentences are spoken in. */
#include "language.h"

#include <string.h>

#undef ngettext

const char *
hw_text (const char *text)
{
  return dgettext (GETTEXT_PACKAGE, text);
}

const char *
hw_text_plural (const char *one, const char *many, gulong n)
{
  return dngettext (GETTEXT_PACKAGE, one, many, n);
}

const char *
hw_text_context (const char *context, const char *text)
{
  return g_dpgettext2 (GETTEXT_PACKAGE, context, text);
}
