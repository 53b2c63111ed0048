/* The language that sentences are spoken in. The screen's is gettext's affair; but gettext speaks one language at a time, and only those the
 * system has a locale for. So that a German plan can be printed beside an English window, a thread may enter a language whose catalogue is
 * read here. English needs none: it is what stands in the program. */
#include "language.h"

#include <string.h>

#include "catalogue.h"

#undef ngettext

#define LONGEST_CODE 32

struct _HwLanguage
{
  char *code;
  HwCatalogue *catalogue; /* NULL: English */
};

G_DEFINE_QUARK (hw_language_error_quark, hw_language_error)

static HwLanguage english = { (char *)"en", NULL };
static _Thread_local const HwLanguage *now;

static GMutex opening;
static char *folder;
static GHashTable *opened; /* code to HwLanguage */

const char *
hw_text (const char *text)
{
  const char *found = NULL;

  if (now == NULL)
    return dgettext (GETTEXT_PACKAGE, text);
  if (now->catalogue != NULL)
    found = hw_catalogue_find (now->catalogue, text);
  return found != NULL ? found : text;
}

const char *
hw_text_plural (const char *one, const char *many, gulong n)
{
  const char *found = NULL;

  if (now == NULL)
    return dngettext (GETTEXT_PACKAGE, one, many, n);
  if (now->catalogue != NULL)
    found = hw_catalogue_find_plural (now->catalogue, one, n);
  if (found != NULL)
    return found;
  return n == 1 ? one : many;
}

static const char *
find_in_context (const HwLanguage *language, const char *context, const char *text)
{
  g_autofree char *key = NULL;
  const char *found;

  if (language->catalogue == NULL)
    return text;
  key = g_strconcat (context, "\004", text, NULL);
  found = hw_catalogue_find (language->catalogue, key);
  return found != NULL ? found : text;
}

const char *
hw_text_context (const char *context, const char *text)
{
  return now != NULL ? find_in_context (now, context, text) : g_dpgettext2 (GETTEXT_PACKAGE, context, text);
}

void
hw_language_set_folder (const char *path)
{
  g_mutex_lock (&opening);
  g_free (folder);
  folder = g_strdup (path);
  if (opened == NULL)
    opened = g_hash_table_new (g_str_hash, g_str_equal);
  g_mutex_unlock (&opening);
}

static char *
catalogue_path (const char *code)
{
  return g_build_filename (folder, code, "LC_MESSAGES", GETTEXT_PACKAGE ".mo", NULL);
}

/* A code names a folder, so nothing that leads elsewhere is one. */
static gboolean
is_code (const char *code)
{
  gsize length = strlen (code);

  return length > 0 && length <= LONGEST_CODE && g_ascii_isalpha (*code)
         && strspn (code, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_@") == length;
}

/* Reads a catalogue, or takes it as it was read before. NULL without an error: there is no such file. */
static const HwLanguage *
open_one (const char *code, GError **error)
{
  g_autofree char *path = NULL, *text = NULL;
  g_autoptr (GBytes) bytes = NULL;
  HwCatalogue *catalogue;
  HwLanguage *language;
  gsize length;

  if (g_str_equal (code, english.code))
    return &english;
  if (folder == NULL || !is_code (code))
    return NULL;
  language = g_hash_table_lookup (opened, code);
  if (language != NULL)
    return language;
  path = catalogue_path (code);
  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR) || !g_file_get_contents (path, &text, &length, NULL))
    return NULL;
  bytes = g_bytes_new_take (g_steal_pointer (&text), length);
  catalogue = hw_catalogue_new (bytes);
  if (catalogue == NULL)
    {
      g_set_error (error, HW_LANGUAGE_ERROR, HW_LANGUAGE_ERROR_CATALOGUE,
                   _ ("The translations in %s cannot be read; please install the program anew."), path);
      return NULL;
    }
  language = g_new0 (HwLanguage, 1);
  language->code = g_strdup (code);
  language->catalogue = catalogue;
  g_hash_table_insert (opened, language->code, language);
  return language;
}

static const HwLanguage *
open_locked (const char *code, GError **error)
{
  const HwLanguage *language;

  g_mutex_lock (&opening);
  language = open_one (code, error);
  g_mutex_unlock (&opening);
  return language;
}

/* "de (Deutsch), en (English)". */
static char *
list_text (void)
{
  g_autoptr (GPtrArray) all = hw_language_list ();
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < all->len; i++)
    g_string_append_printf (text, "%s%s (%s)", i > 0 ? ", " : "", hw_language_code (all->pdata[i]),
                            hw_language_name (all->pdata[i]));
  return g_string_free (text, FALSE);
}

const HwLanguage *
hw_language_open (const char *code, GError **error)
{
  g_autofree char *plain = NULL, *there = NULL;
  g_autoptr (GError) broken = NULL;
  const HwLanguage *language;

  g_return_val_if_fail (code != NULL, NULL);

  plain = g_strdelimit (g_strdup (code), "-", '_');
  language = open_locked (plain, &broken);
  if (language == NULL && broken == NULL)
    {
      plain[strcspn (plain, "_@.")] = '\0';
      language = open_locked (plain, &broken);
    }
  if (language != NULL)
    return language;
  if (broken != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&broken));
      return NULL;
    }
  there = list_text ();
  g_set_error (
      error, HW_LANGUAGE_ERROR, HW_LANGUAGE_ERROR_UNKNOWN,
      /* Translators: a code that is no language's; then those that are: "de (Deutsch), en (English)". */
      _ ("“%s” is no language that is here. There are: %s."), code, there);
  return NULL;
}

static int
compare_codes (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(const HwLanguage *const *)a)->code, (*(const HwLanguage *const *)b)->code);
}

GPtrArray *
hw_language_list (void)
{
  GPtrArray *all = g_ptr_array_new ();
  g_autoptr (GDir) dir = folder != NULL ? g_dir_open (folder, 0, NULL) : NULL;
  const char *code;

  g_ptr_array_add (all, &english);
  while (dir != NULL && (code = g_dir_read_name (dir)) != NULL)
    {
      const HwLanguage *language = open_locked (code, NULL);

      if (language != NULL && language != &english)
        g_ptr_array_add (all, (gpointer)language);
    }
  g_ptr_array_sort (all, compare_codes);
  return all;
}

const char *
hw_language_code (const HwLanguage *language)
{
  g_return_val_if_fail (language != NULL, NULL);

  return language->code;
}

const char *
hw_language_name (const HwLanguage *language)
{
  g_return_val_if_fail (language != NULL, NULL);

  /* Translators: the name of the language you translate into, in itself: "Deutsch". */
  return find_in_context (language, "this language in itself", NC_ ("this language in itself", "English"));
}

const HwLanguage *
hw_language_enter (const HwLanguage *language)
{
  const HwLanguage *before = now;

  now = language;
  return before;
}

void
hw_language_leave (const HwLanguage *before)
{
  now = before;
}

const HwLanguage *
hw_language_now (void)
{
  return now;
}
