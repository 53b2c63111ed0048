/* The language that sentences are spoken in: the screen's by gettext, or another one entered for a while, as paper is. Included in place of
 * glib's own header by every room below the workbench. */
#pragma once

#include <glib.h>
#include <libintl.h>

G_BEGIN_DECLS

/* The translation in the language of this thread. Returns: (transfer none), for as long as the program runs */
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

/* A language that can be entered: English, in which the program is written, or one with a catalogue. Owned by the room, alive as long as the
 * program runs, the same for every thread. */
typedef struct _HwLanguage HwLanguage;

/* Where the catalogues lie, FOLDER/CODE/LC_MESSAGES/hoopwright.mo, as gettext has them. Called once, before any other thread begins; until
 * then there is English alone. */
void
hw_language_set_folder (const char *folder);

/* By its code: "de"; "de_AT" and "de-AT" are "de" where there is no closer one. Fails with a sentence that names the languages there are when it is none
 * of them, or that says which catalogue cannot be read. Returns: (transfer none) (nullable) */
const HwLanguage *
hw_language_open (const char *code, GError **error);

/* The languages there are, by code, English among them. Returns: (transfer container) (element-type HwLanguage) */
GPtrArray *
hw_language_list (void);
/* "de". */
const char *
hw_language_code (const HwLanguage *language);
/* Its name in itself: "Deutsch". */
const char *
hw_language_name (const HwLanguage *language);

/* From here on this thread speaks the language; NULL: the screen's. Returns: (transfer none) (nullable): what it spoke before, to go back to by
 * hw_language_leave(). What is entered within is left first. */
const HwLanguage *
hw_language_enter (const HwLanguage *language);
void
hw_language_leave (const HwLanguage *before);
/* What this thread speaks now; NULL: the screen's language. Returns: (transfer none) (nullable) */
const HwLanguage *
hw_language_now (void);

#define HW_LANGUAGE_ERROR (hw_language_error_quark ())
typedef enum
{
  HW_LANGUAGE_ERROR_UNKNOWN,  /* there is no such language here */
  HW_LANGUAGE_ERROR_CATALOGUE /* its catalogue cannot be read */
} HwLanguageError;
GQuark
hw_language_error_quark (void);

G_END_DECLS
