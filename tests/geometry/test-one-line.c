/* Words of others put into one line: sentences say what stood there, names are fit to be shown. The marks that turn the direction of writing: Unicode Standard Annex 9,
 * section 2. */
#include "geometry/one-line.h"

#include <string.h>

static void
assert_name (const char *text, const char *wanted)
{
  g_autofree char *name = hw_one_line_name (text);

  g_assert_cmpstr (name, ==, wanted);
}

static void
a_name_is_one_line_that_reads_as_it_stands (void)
{
  assert_name ("Fig branch", "Fig branch");
  assert_name ("", "");
  assert_name ("<b>Fig</b> &amp;", "<b>Fig</b> &amp;");
  assert_name ("Fig\nand\r\n\tplum", "Fig and plum");
  assert_name ("\n\nFig", "Fig");
  assert_name ("Fig\xe2\x80\xa9plum", "Fig plum"); /* U+2029 */
  assert_name ("Fig \033[2Jplum", "Fig [2Jplum");
  assert_name ("Fig \xe2\x80\xae"
               "csv.exe\xe2\x81\xa6",
               "Fig csv.exe");
  assert_name ("\xd8\xaa\xd9\x8a\xd9\x86", "\xd8\xaa\xd9\x8a\xd9\x86");
}

static void
a_name_without_end_is_cut (void)
{
  g_autofree char *fits = g_strnfill (200, 'w');
  g_autofree char *over = g_strnfill (201, 'w');
  g_autofree char *cut = g_strconcat (fits, "…", NULL);
  g_autoptr (GString) many = g_string_new (NULL);
  g_autofree char *name = NULL;

  assert_name (fits, fits);
  assert_name (over, cut);
  for (guint i = 0; i < 10000; i++)
    g_string_append (many, "庭");
  name = hw_one_line_name (many->str);
  g_assert_cmpint (g_utf8_strlen (name, -1), ==, 201);
}

/* What was pasted by mistake has room in a sentence. */
static void
a_quote_is_short (void)
{
  g_autofree char *fits = g_strnfill (40, 'w');
  g_autofree char *over = g_strnfill (20000, 'w');
  g_autofree char *cut = g_strconcat (fits, "…", NULL);
  g_autofree char *whole = hw_one_line_quote (fits);
  g_autofree char *part = hw_one_line_quote (over);
  g_autofree char *line = hw_one_line_quote ("far\naway\xe2\x80\xae");

  g_assert_cmpstr (whole, ==, fits);
  g_assert_cmpstr (part, ==, cut);
  g_assert_cmpstr (line, ==, "far away");
}

static void
a_sentence_says_what_stood_there (void)
{
  g_autofree char *line = hw_one_line ("Fig\n\xe2\x80\xaeplum\a");

  g_assert_cmpstr (line, ==, "Fig\\n\\u202eplum\\u0007");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/one-line/name", a_name_is_one_line_that_reads_as_it_stands);
  g_test_add_func ("/one-line/without-end", a_name_without_end_is_cut);
  g_test_add_func ("/one-line/quote", a_quote_is_short);
  g_test_add_func ("/one-line/sentence", a_sentence_says_what_stood_there);
  return g_test_run ();
}
