/* A catalogue of translations as msgfmt makes it, by the GNU gettext manual, "The Format of GNU MO Files": seven words of 32 bits in either byte order, then two
 * tables of lengths and places, of the sentences and of their translations. A sentence that counts holds its forms one after the other, each
 * ended by a zero byte; a context stands before its sentence and a byte of 4. The file's own hash table is not needed. */
#include "catalogue.h"

#include <string.h>

#include "plural-rule.h"

#define MAGIC 0x950412deu
#define HEAD 28 /* bytes */
#define MOST_ENTRIES (1 << 20)
#define MOST_DIRECTIVES 12

struct _HwCatalogue
{
  GBytes *bytes;
  const char *data;
  gsize size;
  gboolean swapped;
  GHashTable *entries; /* text in the file to Entry */
  HwPluralRule *rule;
};

typedef struct
{
  const char *text; /* n_forms forms, each ended by a zero byte */
  guint n_forms;
} Entry;

static guint32
word_at (const HwCatalogue *catalogue, gsize at)
{
  guint32 word;

  memcpy (&word, catalogue->data + at, sizeof word);
  return catalogue->swapped ? GUINT32_SWAP_LE_BE (word) : word;
}

/* The text that row i of a table names, with its length; NULL when any of it is beyond the file's end. */
static const char *
text_of_row (const HwCatalogue *catalogue, guint32 table, guint32 i, gsize *length)
{
  gsize row = table + (gsize)i * 8, place;

  if (row + 8 > catalogue->size)
    return NULL;
  *length = word_at (catalogue, row);
  place = word_at (catalogue, row + 4);
  if (place >= catalogue->size || *length >= catalogue->size - place
      || catalogue->data[place + *length] != '\0')
    return NULL;
  return catalogue->data + place;
}

/* What a sentence takes in, directive by directive: a kind of value for each place. */
typedef struct
{
  char kinds[MOST_DIRECTIVES];
  guint n;
} Directives;

/* The kind of value of "…" in "%…d" and the like; 0 when it is none that any sentence uses. */
static char
kind_of (const char *sign)
{
  gboolean is_long = *sign == 'l' || *sign == 'z';

  switch (sign[is_long])
    {
    case 'd':
    case 'i':
    case 'u':
    case 'x':
    case 'c':
      return is_long ? 'l' : 'i';
    case 'f':
    case 'g':
    case 'e':
      return is_long ? 0 : 'f';
    case 's':
      return is_long ? 0 : 's';
    default:
      return 0;
    }
}

static gboolean
note (Directives *directives, guint place, char kind)
{
  if (place >= MOST_DIRECTIVES || kind == 0
      || (directives->kinds[place] != 0 && directives->kinds[place] != kind))
    return FALSE;
  directives->kinds[place] = kind;
  directives->n = MAX (directives->n, place + 1);
  return TRUE;
}

/* Reads the directive after a percent sign. FALSE when it is none. */
static gboolean
read_directive (Directives *directives, guint *next, const char **at)
{
  const char *p = *at;
  gsize digits = strspn (p, "0123456789");
  guint place = *next;

  if (digits > 0 && digits < 3 && p[digits] == '$')
    {
      place = (guint)g_ascii_strtoull (p, NULL, 10) - 1;
      p += digits + 1;
    }
  p += strspn (p, "-+#0'");
  if (*p == '*')
    {
      if (!note (directives, place++, 'i'))
        return FALSE;
      p++;
    }
  p += strspn (p, "0123456789");
  if (*p == '.')
    p++;
  if (*p == '*')
    {
      if (!note (directives, place++, 'i'))
        return FALSE;
      p++;
    }
  p += strspn (p, "0123456789");
  if (!note (directives, place, kind_of (p)))
    return FALSE;
  *next = place + 1;
  *at = p + (*p == 'l' || *p == 'z' ? 2 : 1);
  return TRUE;
}

/* FALSE when the text is no format. */
static gboolean
read_directives (Directives *directives, const char *text)
{
  guint next = 0;

  memset (directives, 0, sizeof *directives);
  while ((text = strchr (text, '%')) != NULL)
    {
      if (*++text == '%')
        text++;
      else if (!read_directive (directives, &next, &text))
        return FALSE;
    }
  for (guint i = 0; i < directives->n; i++)
    if (directives->kinds[i] == 0)
      return FALSE;
  return TRUE;
}

/* Whether a translation may stand where the sentence stood: it takes in the same, or the first of it. */
static gboolean
may_stand_for (const char *translation, const char *sentence)
{
  Directives wanted, got;

  if (!read_directives (&wanted, sentence))
    return TRUE; /* a text that nothing is put into */
  if (!read_directives (&got, translation) || got.n > wanted.n)
    return FALSE;
  return memcmp (got.kinds, wanted.kinds, got.n) == 0;
}

static const char *
without_context (const char *text)
{
  const char *end = strchr (text, '\004');

  return end != NULL ? end + 1 : text;
}

/* The forms of a translation, all of which may stand for the sentence; 0 when one may not. */
static guint
count_forms (const char *translation, gsize length, const char *sentence)
{
  guint n = 0;

  for (const char *form = translation; form <= translation + length; form += strlen (form) + 1, n++)
    if (*form == '\0' || !g_utf8_validate (form, -1, NULL) || !may_stand_for (form, sentence))
      return 0;
  return n;
}

static void
add_entry (HwCatalogue *catalogue, const char *text, gsize length, const char *translation, gsize translated)
{
  const char *sentence = without_context (text);
  gsize first = strlen (text);
  gboolean counts = first < length;
  guint n_forms;
  Entry *entry;

  if (counts)
    sentence = text + first + 1; /* its plural form is the one that surely holds the figure */
  n_forms = count_forms (translation, translated, sentence);
  if (n_forms == 0 || (!counts && n_forms > 1))
    return;
  entry = g_new0 (Entry, 1);
  entry->text = translation;
  entry->n_forms = n_forms;
  g_hash_table_replace (catalogue->entries, (gpointer)text, entry);
}

/* The header, which stands as the translation of nothing. FALSE when it is not in UTF-8. */
static gboolean
read_header (HwCatalogue *catalogue, const char *header)
{
  g_autofree char *lower = g_ascii_strdown (header, -1);

  if (strstr (lower, "charset=utf-8") == NULL)
    return FALSE;
  catalogue->rule = hw_plural_rule_new (header);
  return TRUE;
}

static gboolean
read_entries (HwCatalogue *catalogue)
{
  guint32 n = word_at (catalogue, 8), texts = word_at (catalogue, 12), translations = word_at (catalogue, 16);
  gboolean header = FALSE;

  if (word_at (catalogue, 4) >> 16 > 1 || n > MOST_ENTRIES)
    return FALSE;
  for (guint32 i = 0; i < n; i++)
    {
      gsize length, translated;
      const char *text = text_of_row (catalogue, texts, i, &length);
      const char *translation = text_of_row (catalogue, translations, i, &translated);

      if (text == NULL || translation == NULL)
        return FALSE;
      if (length == 0 && !header)
        header = read_header (catalogue, translation);
      else if (translated > 0)
        add_entry (catalogue, text, length, translation, translated);
    }
  return header;
}

HwCatalogue *
hw_catalogue_new (GBytes *bytes)
{
  g_autoptr (HwCatalogue) catalogue = g_new0 (HwCatalogue, 1);

  g_return_val_if_fail (bytes != NULL, NULL);

  catalogue->bytes = g_bytes_ref (bytes);
  catalogue->data = g_bytes_get_data (bytes, &catalogue->size);
  catalogue->entries = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  if (catalogue->size < HEAD || catalogue->size > HW_CATALOGUE_LARGEST)
    return NULL;
  catalogue->swapped = word_at (catalogue, 0) == GUINT32_SWAP_LE_BE (MAGIC);
  if (word_at (catalogue, 0) != MAGIC || !read_entries (catalogue))
    return NULL;
  return g_steal_pointer (&catalogue);
}

void
hw_catalogue_free (HwCatalogue *catalogue)
{
  g_return_if_fail (catalogue != NULL);

  g_hash_table_unref (catalogue->entries);
  g_clear_pointer (&catalogue->rule, hw_plural_rule_free);
  g_bytes_unref (catalogue->bytes);
  g_free (catalogue);
}

const char *
hw_catalogue_find (const HwCatalogue *catalogue, const char *text)
{
  const Entry *entry;

  g_return_val_if_fail (catalogue != NULL && text != NULL, NULL);

  entry = g_hash_table_lookup (catalogue->entries, text);
  return entry != NULL ? entry->text : NULL;
}

const char *
hw_catalogue_find_plural (const HwCatalogue *catalogue, const char *one, gulong n)
{
  const Entry *entry;
  const char *form;
  guint wanted;

  g_return_val_if_fail (catalogue != NULL && one != NULL, NULL);

  entry = g_hash_table_lookup (catalogue->entries, one);
  if (entry == NULL)
    return NULL;
  wanted = catalogue->rule != NULL ? hw_plural_rule_form (catalogue->rule, n) : n != 1;
  form = entry->text;
  for (guint i = 0; i < wanted && i + 1 < entry->n_forms; i++)
    form += strlen (form) + 1;
  return form;
}
