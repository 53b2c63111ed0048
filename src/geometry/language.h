/* The language that sentences are spoken in: the screen's by gettext, or another one entered for a while, as paper is. Included in place of
 * glib's own header by every room below the workbench. */
#pragma once

#include <glib.h>
#include <libintl.h>

G_BEGIN_DECLS

/* The translation in the language of this thread. Returns: (transfer none), for as long as the program runs or the language is entered */
const char *
hw_text (const char *text) G_GNUC_FORMAT (1);
/* The form for n of a text that counts. */
const char *
hw_text_plural (const char *one, const char *many, gulong n) G_GNUC_FORMAT (1) G_GNUC_FORMAT (2);
/* A text that means different things in different places, told apart by context. */
const char *
hw_text_context (const char *context, const char *text) G_GNUC_FORMAT (2);

#define _(text) hw_text (text)
#define N_(text) (text)
#define C_(context, text) hw_text_context (context, text)
#define NC_(context, text) (text)
#undef ngettext
#define ngettext(one, many, n) hw_text_plural (one, many, n)

G_END_DECLS
