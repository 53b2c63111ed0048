/* Catalogues of translations read, plural formulas against the table of the GNU gettext manual, figures and dates as a language has them. */
#include "geometry/figures.h"
#include "geometry/units.h"

#include <glib/gstdio.h>
#include <string.h>

#include "geometry/catalogue.h"
#include "geometry/language.h"
#include "geometry/plural-rule.h"

#define MAGIC 0x950412deu

#define HEADER(forms) "Language: xx\nContent-Type: text/plain; charset=UTF-8\nPlural-Forms: " forms "\n"

/* A sentence and its translation; forms are set apart by '|'. */
typedef struct
{
  const char *text, *translation;
} Pair;

static void
put_word (GByteArray *file, gsize at, guint32 word, gboolean swapped)
{
  guint32 stored = swapped ? GUINT32_SWAP_LE_BE (word) : word;

  memcpy (file->data + at, &stored, sizeof stored);
}

static void
put_text (GByteArray *file, gsize row, const char *text, gboolean swapped)
{
  g_autofree char *copy = g_strdelimit (g_strdup (text), "|", '\n');
  gsize length = strlen (text);

  for (gsize i = 0; i < length; i++)
    if (text[i] == '|')
      copy[i] = '\0';
  put_word (file, row, (guint32)length, swapped);
  put_word (file, row + 4, file->len, swapped);
  g_byte_array_append (file, (const guint8 *)copy, (guint)length + 1);
}

/* A file laid out by "The Format of GNU MO Files" in the manual, without its hash table. */
static GByteArray *
make_file (const Pair *pairs, guint n, gboolean swapped)
{
  GByteArray *file = g_byte_array_new ();
  guint32 head[] = { MAGIC, 0, n, 28, 28 + 8 * n, 0, 28 + 16 * n };

  g_byte_array_set_size (file, 28 + 16 * n);
  for (guint i = 0; i < G_N_ELEMENTS (head); i++)
    put_word (file, i * 4, head[i], swapped);
  for (guint i = 0; i < n; i++)
    put_text (file, 28 + 8 * i, pairs[i].text, swapped);
  for (guint i = 0; i < n; i++)
    put_text (file, 28 + 8 * n + 8 * i, pairs[i].translation, swapped);
  return file;
}

static HwCatalogue *
read_file (const GByteArray *file)
{
  g_autoptr (GBytes) bytes = g_bytes_new (file->data, file->len);

  return hw_catalogue_new (bytes);
}

static HwCatalogue *
read_pairs (const Pair *pairs, guint n, gboolean swapped)
{
  g_autoptr (GByteArray) file = make_file (pairs, n, swapped);

  return read_file (file);
}

static const Pair german[] = {
  { "", HEADER ("nplurals=2; plural=(n != 1);") },
  { "%u hooping|%u hoopings", "%u Einspannung|%u Einspannungen" },
  { "Cloth", "Stoff" },
  { "%s behind %s", "%2$s vor %1$s" },
  { "top\004right", "rechts" },
};

static void
test_catalogue (void)
{
  for (guint swapped = 0; swapped < 2; swapped++)
    {
      g_autoptr (HwCatalogue) catalogue = read_pairs (german, G_N_ELEMENTS (german), swapped);

      g_assert_nonnull (catalogue);
      g_assert_cmpstr (hw_catalogue_find (catalogue, "Cloth"), ==, "Stoff");
      g_assert_cmpstr (hw_catalogue_find (catalogue, "top\004right"), ==, "rechts");
      g_assert_null (hw_catalogue_find (catalogue, "right"));
      g_assert_cmpstr (hw_catalogue_find (catalogue, "%s behind %s"), ==, "%2$s vor %1$s");
      g_assert_cmpstr (hw_catalogue_find_plural (catalogue, "%u hooping", 1), ==, "%u Einspannung");
      g_assert_cmpstr (hw_catalogue_find_plural (catalogue, "%u hooping", 0), ==, "%u Einspannungen");
      g_assert_cmpstr (hw_catalogue_find_plural (catalogue, "%u hooping", 7), ==, "%u Einspannungen");
    }
}

/* Other figures than the sentence's would read what is not there. */
static void
test_other_figures (void)
{
  static const Pair pairs[] = {
    { "", HEADER ("nplurals=2; plural=(n != 1);") },
    { "%s is %u mm", "%u mm hat %s" },
    { "one %s", "%s und %s" },
    { "two %d", "%n" },
    { "three %u", "%5000000$u" },
    { "%u bead|%u beads", "%u Perle|%s Perlen" },
    { "four %s", "vier" },
    { "100 % cotton", "100 % Baumwolle" },
    { "five %.1f of %d", "f\303\274nf %2$d mit %1$.1f" },
    { "six", "\377" },
  };
  g_autoptr (HwCatalogue) catalogue = read_pairs (pairs, G_N_ELEMENTS (pairs), FALSE);

  g_assert_nonnull (catalogue);
  g_assert_null (hw_catalogue_find (catalogue, "%s is %u mm"));
  g_assert_null (hw_catalogue_find (catalogue, "one %s"));
  g_assert_null (hw_catalogue_find (catalogue, "two %d"));
  g_assert_null (hw_catalogue_find (catalogue, "three %u"));
  g_assert_null (hw_catalogue_find_plural (catalogue, "%u bead", 2));
  g_assert_cmpstr (hw_catalogue_find (catalogue, "four %s"), ==, "vier");
  g_assert_cmpstr (hw_catalogue_find (catalogue, "100 % cotton"), ==, "100 % Baumwolle");
  g_assert_nonnull (hw_catalogue_find (catalogue, "five %.1f of %d"));
  g_assert_null (hw_catalogue_find (catalogue, "six"));
}

static void
test_cut_off (void)
{
  g_autoptr (GByteArray) file = make_file (german, G_N_ELEMENTS (german), FALSE);

  while (file->len > 0)
    {
      g_byte_array_set_size (file, file->len - 1);
      g_assert_null (read_file (file));
    }
}

/* Whatever a damaged file says, it is read without going astray; what it then gives can be read to its end. */
static void
test_damaged (void)
{
  for (guint round = 0; round < 20000; round++)
    {
      g_autoptr (GByteArray) file = make_file (german, G_N_ELEMENTS (german), round & 1);
      g_autoptr (HwCatalogue) catalogue = NULL;

      for (int hits = g_test_rand_int_range (1, 6); hits > 0; hits--)
        file->data[g_test_rand_int_range (0, (int)file->len)]
            = (guint8)(g_test_rand_bit () ? g_test_rand_int_range (0, 256) : 255);
      catalogue = read_file (file);
      for (guint i = 0; catalogue != NULL && i < G_N_ELEMENTS (german); i++)
        {
          const char *found = hw_catalogue_find (catalogue, german[i].text);

          g_assert_true (found == NULL || g_utf8_validate (found, -1, NULL));
          hw_catalogue_find_plural (catalogue, "%u hooping", round);
        }
    }
}

/* Source: GNU gettext manual, "Additional functions for plural forms": each family's formula, and what its words say. The forms beside the numbers
 * are worked out by those words, by hand. */
static void
test_plural_table (void)
{
  static const struct
  {
    const char *name, *header;
    guint forms;
    struct
    {
      gulong n;
      guint form;
    } numbers[12];
  } table[] = {
    { "ja: only one form", "nplurals=1; plural=0;", 1, { { 0, 0 }, { 1, 0 }, { 2, 0 }, { 100, 0 } } },
    { "en, de: singular for one",
      "nplurals=2; plural=n != 1;",
      2,
      { { 0, 1 }, { 1, 0 }, { 2, 1 }, { 11, 1 }, { 21, 1 } } },
    { "fr: singular for nought and one",
      "nplurals=2; plural=n>1;",
      2,
      { { 0, 0 }, { 1, 0 }, { 2, 1 }, { 21, 1 } } },
    { "lv: special case for nought",
      "nplurals=3; plural=n%10==1 && n%100!=11 ? 0 : n != 0 ? 1 : 2;",
      3,
      { { 0, 2 }, { 1, 0 }, { 2, 1 }, { 11, 1 }, { 21, 0 }, { 111, 1 } } },
    { "ga: special cases for one and two",
      "nplurals=3; plural=n==1 ? 0 : n==2 ? 1 : 2;",
      3,
      { { 0, 2 }, { 1, 0 }, { 2, 1 }, { 3, 2 } } },
    { "ro: special case for numbers ending in 00 or 01 to 19",
      "nplurals=3; plural=n==1 ? 0 : (n==0 || (n%100 > 0 && n%100 < 20)) ? 1 : 2;",
      3,
      { { 1, 0 }, { 0, 1 }, { 2, 1 }, { 19, 1 }, { 20, 2 }, { 100, 2 }, { 101, 1 }, { 119, 1 } } },
    { "ru: endings in 1 and 2, 3, 4 but 11 to 14",
      "nplurals=3; plural=n%10==1 && n%100!=11 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2;",
      3,
      { { 1, 0 },
        { 2, 1 },
        { 4, 1 },
        { 5, 2 },
        { 11, 2 },
        { 12, 2 },
        { 21, 0 },
        { 22, 1 },
        { 111, 2 },
        { 0, 2 } } },
    { "cs: 1 and 2, 3, 4",
      "nplurals=3; plural=(n==1) ? 0 : (n>=2 && n<=4) ? 1 : 2;",
      3,
      { { 1, 0 }, { 2, 1 }, { 4, 1 }, { 5, 2 }, { 22, 2 }, { 0, 2 } } },
    { "pl: one, and some ending in 2, 3, 4",
      "nplurals=3; plural=n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2;",
      3,
      { { 1, 0 }, { 2, 1 }, { 5, 2 }, { 12, 2 }, { 21, 2 }, { 22, 1 }, { 114, 2 }, { 124, 1 } } },
    { "sl: one and all ending in 02, 03, 04",
      "nplurals=4; plural=n%100==1 ? 0 : n%100==2 ? 1 : n%100==3 || n%100==4 ? 2 : 3;",
      4,
      { { 1, 0 }, { 101, 0 }, { 2, 1 }, { 102, 1 }, { 3, 2 }, { 104, 2 }, { 5, 3 }, { 11, 3 }, { 0, 3 } } },
    { "ar: six forms",
      "nplurals=6; plural=n==0 ? 0 : n==1 ? 1 : n==2 ? 2 : n%100>=3 && n%100<=10 ? 3 : n%100>=11 ? 4 : 5;",
      6,
      { { 0, 0 },
        { 1, 1 },
        { 2, 2 },
        { 3, 3 },
        { 10, 3 },
        { 11, 4 },
        { 99, 4 },
        { 100, 5 },
        { 102, 5 },
        { 103, 3 } } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (HwPluralRule) rule = hw_plural_rule_new (table[i].header);

      g_test_message ("%s", table[i].name);
      g_assert_nonnull (rule);
      g_assert_cmpuint (hw_plural_rule_forms (rule), ==, table[i].forms);
      for (guint k = 0; k < G_N_ELEMENTS (table[i].numbers); k++)
        if (k == 0 || table[i].numbers[k].n != 0 || table[i].numbers[k].form != 0)
          g_assert_cmpuint (hw_plural_rule_form (rule, table[i].numbers[k].n), ==, table[i].numbers[k].form);
    }
}

static void
test_no_formula (void)
{
  static const char *const broken[] = {
    "",
    "nplurals=2;",
    "plural=n;",
    "nplurals=0; plural=0;",
    "nplurals=2; plural=;",
    "nplurals=2; plural=n n;",
    "nplurals=2; plural=(n;",
    "nplurals=2; plural=n ? 1;",
    "nplurals=2; plural=n = 1;",
    "nplurals=99; plural=n;",
  };
  g_autofree char *deep = g_strnfill (400, '(');
  g_autofree char *nested = g_strdup_printf ("nplurals=2; plural=%sn;", deep);
  g_autoptr (HwPluralRule) nought = hw_plural_rule_new ("nplurals=2; plural=n%0 + 5/0;");
  g_autoptr (HwPluralRule) beyond = hw_plural_rule_new ("nplurals=2; plural=n;");

  for (guint i = 0; i < G_N_ELEMENTS (broken); i++)
    g_assert_null (hw_plural_rule_new (broken[i]));
  g_assert_null (hw_plural_rule_new (nested));
  g_assert_cmpuint (hw_plural_rule_form (nought, 3), ==, 0);
  g_assert_cmpuint (hw_plural_rule_form (beyond, 1), ==, 1);
  g_assert_cmpuint (hw_plural_rule_form (beyond, 2), ==, 0);
}

/* The folder of catalogues of this test: German as above, and a damaged one. */
static char *
catalogue_place (const char *folder, const char *code)
{
  return g_build_filename (folder, code, "LC_MESSAGES", NULL);
}

static void
take_away (const char *folder, const char *code)
{
  g_autofree char *place = catalogue_place (folder, code),
                  *path = g_build_filename (place, "hoopwright.mo", NULL);
  g_autofree char *above = g_path_get_dirname (place);

  g_remove (path);
  g_rmdir (place);
  g_rmdir (above);
}

static void
write_catalogue (const char *folder, const char *code, const GByteArray *file)
{
  g_autofree char *place = catalogue_place (folder, code),
                  *path = g_build_filename (place, "hoopwright.mo", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (place, 0700), ==, 0);
  g_file_set_contents (path, (const char *)file->data, file->len, &error);
  g_assert_no_error (error);
}

static const Pair whole[] = {
  { "", HEADER ("nplurals=2; plural=(n != 1);") },
  { "%s mm", "%s mm" },
  { "Wednesday", "Mittwoch" },
  { "between thousands\004,", "." },
  { "between whole and tenths\004.", "," },
  { "month\004November", "November" },
  { "this language in itself\004English", "Deutsch" },
  { "%u hooping|%u hoopings", "%u Einspannung|%u Einspannungen" },
};

static void
assert_text (char *text, const char *expected)
{
  g_assert_cmpstr (text, ==, expected);
  g_free (text);
}

static void
test_entered (void)
{
  g_autoptr (GError) error = NULL;
  const HwLanguage *de = hw_language_open ("de", &error), *en = hw_language_open ("en", NULL), *before,
                   *inner;
  g_autoptr (GDateTime) day = g_date_time_new_utc (2026, 11, 25, 17, 5, 0);

  g_assert_no_error (error);
  g_assert_null (hw_language_now ());
  g_assert_cmpstr (_ ("Wednesday"), ==, "Wednesday");
  before = hw_language_enter (de);
  g_assert_null (before);
  g_assert_cmpstr (_ ("Wednesday"), ==, "Mittwoch");
  g_assert_cmpstr (ngettext ("%u hooping", "%u hoopings", 3), ==, "%u Einspannungen");
  g_assert_cmpstr (_ ("Something untranslated"), ==, "Something untranslated");
  assert_text (hw_length_text (12.46, HW_UNIT_MM), "12,5 mm");
  assert_text (hw_figure_text (-0.001, 2), "0,00");
  assert_text (hw_figure_text (12400, 0), "12400");
  assert_text (hw_count_text (12400), "12.400");
  assert_text (hw_count_text (999), "999");
  assert_text (hw_count_text (1234567), "1.234.567");
  assert_text (hw_date_text (day, "%A, %-d. %B %Y"), "Mittwoch, 25. November 2026");
  inner = hw_language_enter (en);
  g_assert_true (inner == de);
  assert_text (hw_length_text (12.46, HW_UNIT_MM), "12.5 mm");
  assert_text (hw_count_text (12400), "12,400");
  hw_language_leave (inner);
  g_assert_cmpstr (_ ("Wednesday"), ==, "Mittwoch");
  hw_language_leave (before);
  g_assert_null (hw_language_now ());
}

static gpointer
speak_elsewhere (gpointer data)
{
  return (gpointer)hw_language_now ();
}

static void
test_threads (void)
{
  const HwLanguage *before = hw_language_enter (hw_language_open ("de", NULL));
  GThread *thread = g_thread_new ("another", speak_elsewhere, NULL);

  g_assert_null (g_thread_join (thread));
  hw_language_leave (before);
}

static void
test_list (void)
{
  g_autoptr (GPtrArray) all = hw_language_list ();

  g_assert_cmpuint (all->len, ==, 2);
  g_assert_cmpstr (hw_language_code (all->pdata[0]), ==, "de");
  g_assert_cmpstr (hw_language_name (all->pdata[0]), ==, "Deutsch");
  g_assert_cmpstr (hw_language_name (all->pdata[1]), ==, "English");
}

static void
assert_refused (const char *code, HwLanguageError kind, const char *words)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_language_open (code, &error));
  g_assert_error (error, HW_LANGUAGE_ERROR, (int)kind);
  g_assert_nonnull (strstr (error->message, words));
}

static void
test_codes (void)
{
  const HwLanguage *de = hw_language_open ("de", NULL);

  g_assert_true (hw_language_open ("de_AT", NULL) == de);
  g_assert_true (hw_language_open ("de-CH", NULL) == de);
  g_assert_true (hw_language_open ("de_DE.UTF-8", NULL) == de);
  g_assert_cmpstr (hw_language_code (hw_language_open ("en_GB", NULL)), ==, "en");
  assert_refused ("tlh", HW_LANGUAGE_ERROR_UNKNOWN, "de (Deutsch), en (English)");
  assert_refused ("", HW_LANGUAGE_ERROR_UNKNOWN, "en (English)");
  assert_refused ("../de", HW_LANGUAGE_ERROR_UNKNOWN, "en (English)");
  assert_refused ("xx", HW_LANGUAGE_ERROR_CATALOGUE, "xx");
}

/* Every sign of a formula, and what a broken one may not do: divide by zero, nest without end, name a form there is not. */
static void
test_plural_signs (void)
{
  static const struct
  {
    const char *formula;
    gulong n;
    guint form;
  } rows[] = { { "!n", 0, 1 },
               { "!n", 4, 0 },
               { "n - 3", 5, 2 },
               { "n * 2", 1, 2 },
               { "n + 1", 1, 2 },
               { "n / 4", 9, 2 },
               { "1 / (n - 5)", 5, 0 },
               { "1 % (n - 5)", 5, 0 },
               { "n >= 2 && n <= 4", 4, 1 },
               { "n > 2 || n < 1", 2, 0 },
               { "n", 7, 0 } };
  static const char *const broken[] = { "plural=n;", "nplurals=2; plural=;", "nplurals=0; plural=0;",
                                        "nplurals=2; plural=(n;", "nplurals=2; plural=n ? 1;" };
  g_autoptr (GString) deep = g_string_new ("nplurals=2; plural=");
  g_autoptr (GString) chosen = g_string_new ("nplurals=2; plural=");

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *header = g_strdup_printf ("nplurals=3; plural=%s;", rows[i].formula);
      g_autoptr (HwPluralRule) rule = hw_plural_rule_new (header);

      g_assert_nonnull (rule);
      g_assert_cmpuint (hw_plural_rule_form (rule, rows[i].n), ==, rows[i].form);
    }
  for (guint i = 0; i < G_N_ELEMENTS (broken); i++)
    g_assert_null (hw_plural_rule_new (broken[i]));
  for (guint i = 0; i < 150; i++)
    {
      g_string_append_c (deep, '!');
      g_string_append (chosen, "n?");
    }
  g_string_append (deep, "n;");
  g_assert_null (hw_plural_rule_new (deep->str));
  g_assert_null (hw_plural_rule_new (chosen->str));
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = g_dir_make_tmp ("catalogues-XXXXXX", NULL);
  g_autoptr (GByteArray) file = make_file (whole, G_N_ELEMENTS (whole), FALSE);
  int result;

  g_test_init (&argc, &argv, NULL);
  write_catalogue (folder, "de", file);
  g_byte_array_set_size (file, file->len / 2);
  write_catalogue (folder, "xx", file);
  hw_language_set_folder (folder);
  g_test_add_func ("/geometry/language/catalogue", test_catalogue);
  g_test_add_func ("/geometry/language/other-figures", test_other_figures);
  g_test_add_func ("/geometry/language/cut-off", test_cut_off);
  g_test_add_func ("/geometry/language/damaged", test_damaged);
  g_test_add_func ("/geometry/language/plural-table", test_plural_table);
  g_test_add_func ("/geometry/language/plural-signs", test_plural_signs);
  g_test_add_func ("/geometry/language/no-formula", test_no_formula);
  g_test_add_func ("/geometry/language/entered", test_entered);
  g_test_add_func ("/geometry/language/threads", test_threads);
  g_test_add_func ("/geometry/language/list", test_list);
  g_test_add_func ("/geometry/language/codes", test_codes);
  result = g_test_run ();
  take_away (folder, "de");
  take_away (folder, "xx");
  g_rmdir (folder);
  return result;
}
