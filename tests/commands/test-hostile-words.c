/* Names that would be more than names: markup, formulas, terminal sequences, turns of direction, line ends, a word without end. Each output says them as what
 * they are and stays sound. The characters that turn the direction of writing: Unicode Standard Annex 9, section 2. */
#include "command-run.h"

#include "formats/csv-rows.h"
#include "formats/file-name.h"

#define MARKUP "<b>Quay</b> &amp; 100%n%s \\\"'"
#define HIDDEN "\\n\\u001b]0;taken\\u0007\\r\\u009b31m\\u202efdp.\\u2066"

typedef struct
{
  Bench bench;
  Run run;
  char *made;
} Hostile;

static void
set_up (Hostile *hostile, gconstpointer data)
{
  g_autofree char *word = g_strnfill (5000, 'w');
  g_autofree char *boat = g_strdup_printf ("\"%s\"", word);

  bench_set_up (&hostile->bench, data);
  bench_change (&hostile->bench, "\"Harbour at Low Tide\"", "\"" MARKUP HIDDEN "]]></title>\"");
  bench_change (&hostile->bench, "\"Quay\"", "\"" MARKUP HIDDEN "\"");
  bench_change (&hostile->bench, "\"200 x 260\"", "\"=HYPERLINK(1)\"");
  bench_change (&hostile->bench, "\"slate\"", "\"@SUM(A1),\\n\\\"x\"");
  bench_change (&hostile->bench, "\"Rowing boat\"", boat);
  hostile->made = g_build_filename (hostile->bench.folder, "made.svg", NULL);
}

static void
tear_down (Hostile *hostile, gconstpointer data)
{
  run_clear (&hostile->run);
  g_unlink (hostile->made);
  g_free (hostile->made);
  bench_tear_down (&hostile->bench, data);
}

/* Nothing a terminal would act on. */
static void
assert_quiet (const char *text)
{
  g_assert_true (g_utf8_validate (text, -1, NULL));
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      g_assert_true (c == '\n' || c == '\r' || !g_unichar_iscntrl (c));
      g_assert_false (c >= 0x202a && c <= 0x202e);
      g_assert_false (c >= 0x2066 && c <= 0x2069);
    }
}

static void
what_is_told_is_quiet (Hostile *hostile, gconstpointer data)
{
  const char *const check[] = { "check", hostile->bench.scene, NULL };
  const char *const part[] = { "check", hostile->bench.scene, "--part", "\033]0;taken\a\xe2\x80\xae", NULL };

  /* The quay goes over the edge of the cloth, and is told of. */
  bench_change (&hostile->bench, "[170, 200]", "[5, 200]");
  run_words (&hostile->run, check);
  g_assert_nonnull (strstr (hostile->run.out, "<b>Quay</b> &amp; 100%n%s \"' ]0;taken 31mfdp."));
  assert_quiet (hostile->run.out);
  assert_quiet (hostile->run.err);
  run_words (&hostile->run, part);
  assert_one_complaint (&hostile->run, HW_EXIT_BAD);
  assert_quiet (hostile->run.err);
}

static void
json_stays_json (Hostile *hostile, gconstpointer data)
{
  const char *const plan[] = { "plan", hostile->bench.scene, NULL };
  g_autoptr (JsonNode) root = NULL;

  run_words (&hostile->run, plan);
  root = answer_of (&hostile->run);
  g_assert_cmpstr (json_object_get_string_member (json_node_get_object (root), "format"), ==,
                   "hoopwright-plan");
  for (const char *at = hostile->run.out; *at != '\0'; at++)
    g_assert_true (*at == '\n' || (guchar)*at >= 0x20);
}

static void
title_cb (GMarkupParseContext *context, const char *text, gsize length, gpointer title, GError **error)
{
  if (g_str_equal (g_markup_parse_context_get_element (context), "title") && ((GString *)title)->len == 0)
    g_string_append_len (title, text, (gssize)length);
}

static void
svg_stays_svg (Hostile *hostile, gconstpointer data)
{
  static const GMarkupParser parser = { .text = title_cb };
  const char *const picture[] = { "picture", hostile->bench.scene, "-o", hostile->made, NULL };
  g_autoptr (GString) title = g_string_new (NULL);
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, title, NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *svg = NULL;
  gsize length;

  run_words (&hostile->run, picture);
  g_assert_cmpint (hostile->run.status, ==, 0);
  g_assert_true (g_file_get_contents (hostile->made, &svg, &length, NULL));
  g_assert_true (g_markup_parse_context_parse (context, svg, (gssize)length, &error)
                 && g_markup_parse_context_end_parse (context, &error));
  g_assert_no_error (error);
  g_assert_true (g_str_has_prefix (title->str, "<b>Quay</b> &amp; 100%n%s \"' "));
  g_assert_null (strchr (svg, '\033'));
}

/* RFC 4180; no field that a spreadsheet would reckon. */
static void
tables_hold_no_formulas (Hostile *hostile, gconstpointer data)
{
  static const char *const lists[] = { "hoopings", "threads", "marks", "shopping" };
  gboolean seen = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      const char *const words[] = { "lists", hostile->bench.scene, "--only", lists[i], NULL };
      g_autoptr (GPtrArray) row = NULL;
      const char *wrong = NULL;
      guint columns = 0;
      HwCsvRows rows;

      run_words (&hostile->run, words);
      g_assert_cmpint (hostile->run.status, ==, 0);
      hw_csv_rows_init (&rows, hostile->run.out, strlen (hostile->run.out));
      while ((row = hw_csv_rows_next (&rows, &wrong)) != NULL)
        {
          columns = columns == 0 ? row->len : columns;
          g_assert_cmpuint (row->len, ==, columns);
          for (guint f = 0; f < row->len; f++)
            {
              const char *field = row->pdata[f];

              g_assert_true (*field == '-' ? g_ascii_isdigit (field[1])
                                           : strchr ("=+@\t\r", *field) == NULL || *field == '\0');
              seen = seen || g_str_equal (field, "'=HYPERLINK(1)") || g_str_has_prefix (field, "'@SUM(A1),");
            }
          g_clear_pointer (&row, g_ptr_array_unref);
        }
      g_assert_null (wrong);
    }
  g_assert_true (seen);
}

static void
paper_is_made (Hostile *hostile, gconstpointer data)
{
  const char *const sheet[] = { "sheet", hostile->bench.scene, "-o", hostile->made, NULL };
  g_autofree char *pdf = NULL;

  run_words (&hostile->run, sheet);
  g_assert_cmpstr (hostile->run.err, ==, "");
  g_assert_cmpint (hostile->run.status, ==, 0);
  g_assert_true (g_file_get_contents (hostile->made, &pdf, NULL, NULL));
  g_assert_true (g_str_has_prefix (pdf, "%PDF-"));
}

static void
assert_name (const char *words, const char *wanted)
{
  g_autofree char *name = hw_file_name_of (words);

  g_assert_cmpstr (name, ==, wanted);
}

static void
a_name_names_a_file_in_its_folder (void)
{
  g_autofree char *word = g_strnfill (5000, 'w');
  g_autofree char *long_words = g_strdup_printf ("%s, Hooping 3.csv", word);
  g_autofree char *cut = hw_file_name_of (long_words);
  g_autofree char *cut_many = NULL;
  g_autoptr (GString) many = g_string_new (NULL);

  assert_name ("The Walled Garden, Hooping 3.csv", "The Walled Garden, Hooping 3.csv");
  assert_name ("Jardín – 庭, 1.csv", "Jardín – 庭, 1.csv");
  assert_name ("../../etc/passwd", "-.-..-etc-passwd");
  assert_name ("/etc/cron.d/x", "-etc-cron.d-x");
  assert_name (".bashrc", "-bashrc");
  assert_name ("..", "-.");
  assert_name ("", "-");
  assert_name ("a\\b:c*d?e\"f<g>h|i\nj\033k", "a-b-c-d-e-f-g-h-i-j-k");
  assert_name ("\xe2\x80\xae"
               "fdp.exe",
               "fdp.exe");
  g_assert_true (g_str_has_suffix (cut, ".csv"));
  g_assert_cmpuint (strlen (cut), ==, HW_LONGEST_FILE_NAME);
  for (guint i = 0; i < 200; i++)
    g_string_append (many, "庭");
  cut_many = hw_file_name_of (many->str);
  g_assert_true (g_utf8_validate (cut_many, -1, NULL));
  g_assert_cmpuint (strlen (cut_many), <=, HW_LONGEST_FILE_NAME);
}

int
main (int argc, char **argv)
{
  if (argc > 1 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);
  g_test_init (&argc, &argv, NULL);
#define ADD(name, test) g_test_add ("/commands/hostile-words/" name, Hostile, NULL, set_up, test, tear_down)
  ADD ("told", what_is_told_is_quiet);
  ADD ("json", json_stays_json);
  ADD ("svg", svg_stays_svg);
  ADD ("tables", tables_hold_no_formulas);
  ADD ("paper", paper_is_made);
  g_test_add_func ("/commands/hostile-words/file-names", a_name_names_a_file_in_its_folder);
  return g_test_run ();
}
