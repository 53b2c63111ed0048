/* The printing commands from the outside: what they write, what they refuse, and how they end. The test
 * runs itself again as the program; pdfinfo reads what was written. */
#include <glib/gstdio.h>
#include <string.h>
#include <sys/wait.h>

#include "../formats/scene-texts.h"
#include "commands/commands.h"

#define AS_PROGRAM "--as-program"

typedef struct
{
  char *folder, *scene, *pdf;
  int status;
  char *out, *err;
} Bench;

static void
set_up (Bench *b, gconstpointer data)
{
  b->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  b->scene = g_build_filename (b->folder, "garden.hoopscene", NULL);
  b->pdf = g_build_filename (b->folder, "print.pdf", NULL);
  g_assert_true (g_file_set_contents (b->scene, contract, -1, NULL));
}

static void
tear_down (Bench *b, gconstpointer data)
{
  g_unlink (b->scene);
  g_unlink (b->pdf);
  /* Nothing else was left behind. */
  g_assert_cmpint (g_rmdir (b->folder), ==, 0);
  g_free (b->folder);
  g_free (b->scene);
  g_free (b->pdf);
  g_free (b->out);
  g_free (b->err);
}

static void
spawn (Bench *b, char **argv)
{
  g_autoptr (GError) error = NULL;
  int wait_status;

  g_clear_pointer (&b->out, g_free);
  g_clear_pointer (&b->err, g_free);
  g_spawn_sync (NULL, argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &b->out, &b->err, &wait_status, &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (wait_status));
  b->status = WEXITSTATUS (wait_status);
}

/* Words separated by single spaces; SCENE and PDF stand for the bench's files. */
static void
run (Bench *b, const char *line)
{
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) argv = NULL;
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL); /* valgrind follows no such link */

  g_strv_builder_add_many (builder, self, AS_PROGRAM, NULL);
  for (char **word = words; *word != NULL; word++)
    g_strv_builder_add (builder, g_str_equal (*word, "SCENE") ? b->scene
                                 : g_str_equal (*word, "PDF") ? b->pdf
                                                              : *word);
  argv = g_strv_builder_end (builder);
  spawn (b, argv);
}

/* What pdfinfo says of the print after a name such as "Pages:". Returns: (transfer full) */
static char *
pdf_info (Bench *b, const char *name)
{
  char *argv[] = { (char *)"pdfinfo", b->pdf, NULL };
  g_auto (GStrv) lines = NULL;

  spawn (b, argv);
  g_assert_cmpint (b->status, ==, 0);
  lines = g_strsplit (b->out, "\n", -1);
  for (char **line = lines; *line != NULL; line++)
    if (g_str_has_prefix (*line, name))
      return g_strstrip (g_strdup (*line + strlen (name)));

  g_error ("no %s in %s", name, b->out);
}

static void
assert_info (Bench *b, const char *name, const char *value)
{
  g_autofree char *found = pdf_info (b, name);

  g_assert_cmpstr (found, ==, value);
}

static void
assert_refused (Bench *b, const char *line, const char *sentence)
{
  run (b, line);
  g_assert_cmpint (b->status, ==, 2);
  g_assert_cmpstr (b->out, ==, "");
  if (strstr (b->err, sentence) == NULL)
    g_error ("expected \"%s\", found \"%s\"", sentence, b->err);
  g_assert_true (strchr (b->err, '\n') == b->err + strlen (b->err) - 1);
  g_assert_false (g_file_test (b->pdf, G_FILE_TEST_EXISTS));
}

static void
templates_are_written (Bench *b, gconstpointer data)
{
  run (b, "templates SCENE -o PDF");
  g_assert_cmpint (b->status, ==, 0);
  g_assert_cmpstr (b->out, ==, "");
  g_assert_cmpstr (b->err, ==, "");
  assert_info (b, "Pages:", "1");
  assert_info (b, "Title:", "The Walled Garden, Templates");
  /* 210 x 297 mm (ISO 216) in units of 1/72 inch. */
  assert_info (b, "Page size:", "595.276 x 841.89 pts (A4)");
}

static void
sheet_is_written_on_the_paper_asked_for (Bench *b, gconstpointer data)
{
  run (b, "sheet SCENE -o PDF --paper letter --unit in");
  g_assert_cmpint (b->status, ==, 0);
  assert_info (b, "Pages:", "4"); /* the whole plan, what is needed, the marks to draw, the hooping */
  assert_info (b, "Title:", "The Walled Garden, Bench sheet");
  /* 8.5 x 11 in (ASME Y14.1). */
  assert_info (b, "Page size:", "612 x 792 pts (letter)");
}

/* 700 x 540 mm on sheets of 190 x 259 mm with 10 mm shared are twelve; four show bare cloth alone, and a picture of how they go together comes first. */
static void
layout_takes_the_place_of_templates (Bench *b, gconstpointer data)
{
  run (b, "templates --layout SCENE -o PDF");
  g_assert_cmpint (b->status, ==, 0);
  assert_info (b, "Title:", "The Walled Garden, Layout");
  assert_info (b, "Pages:", "9");
}

static void
log_takes_the_place_of_the_sheet (Bench *b, gconstpointer data)
{
  char *argv[] = { (char *)"pdftotext", b->pdf, (char *)"-", NULL };

  run (b, "sheet --log SCENE -o PDF");
  g_assert_cmpint (b->status, ==, 0);
  assert_info (b, "Title:", "The Walled Garden, Log of the days");
  assert_info (b, "Pages:", "1");
  spawn (b, argv);
  g_assert_nonnull (strstr (b->out, "Nothing is written in the log yet."));
}

static void
whole_hoopings_take_the_place_of_templates (Bench *b, gconstpointer data)
{
  run (b, "templates --hoopings --mirrored --look outline SCENE -o PDF");
  g_assert_cmpstr (b->err, ==, "");
  g_assert_cmpint (b->status, ==, 0);
  assert_info (b, "Title:", "The Walled Garden, Templates of whole hoopings");
}

static void
a_test_sheet_needs_no_scene (Bench *b, gconstpointer data)
{
  run (b, "templates --test-sheet -o PDF --paper Letter");
  g_assert_cmpstr (b->err, ==, "");
  g_assert_cmpint (b->status, ==, 0);
  assert_info (b, "Title:", "Test sheet, Letter");
  assert_info (b, "Pages:", "1");
  assert_info (b, "Page size:", "612 x 792 pts (letter)");
}

/* A printer that is not true changes what is drawn, not the sheet. */
static void
measured_lengths_leave_the_sheet_as_it_is (Bench *b, gconstpointer data)
{
  run (b, "sheet --measured 176.4,245 SCENE -o PDF");
  g_assert_cmpstr (b->err, ==, "");
  g_assert_cmpint (b->status, ==, 0);
  assert_info (b, "Page size:", "595.276 x 841.89 pts (A4)");
  run (b, "templates --measured 7.4,8.6 --unit in --paper Letter SCENE -o PDF");
  g_assert_cmpstr (b->err, ==, "");
  g_assert_cmpint (b->status, ==, 0);
}

static void
wrong_words_about_looks_and_lengths_are_refused (Bench *b, gconstpointer data)
{
  assert_refused (b, "templates SCENE -o PDF --look bold",
                  "--look: expected pale, outline or stitches, found \"bold\"");
  assert_refused (b, "templates SCENE -o PDF --layout --hoopings", "--layout and --hoopings");
  assert_refused (b, "templates SCENE -o PDF --layout --nested", "--nested");
  assert_refused (b, "templates SCENE -o PDF --layout --mirrored", "--mirrored is for templates");
  assert_refused (b, "templates SCENE -o PDF --test-sheet", "expected no scene file, found 1");
  assert_refused (b, "templates -o PDF --test-sheet --part Upper", "--part");
  assert_refused (b, "sheet SCENE -o PDF --look pale", "--look");
  assert_refused (b, "sheet SCENE -o PDF --measured 180", "--measured: expected the lengths");
  assert_refused (b, "sheet SCENE -o PDF --measured 180,-240", "--measured: expected the lengths");
  assert_refused (b, "sheet SCENE -o PDF --measured 180,nan", "--measured: expected the lengths");
  assert_refused (b, "sheet SCENE -o PDF --measured 180,300", "300.0 mm is more than a tenth off");
}

/* Status 1 says the scene cannot be planned whole; the paper is there all the same. */
static void
unplannable_is_printed_with_1 (Bench *b, gconstpointer data)
{
  g_autofree char *text = replaced (contract, "\"scale\": 1.0", "\"scale\": 3.0");

  g_assert_true (g_file_set_contents (b->scene, text, -1, NULL));
  run (b, "sheet SCENE -o PDF");
  g_assert_cmpint (b->status, ==, 1);
  g_assert_cmpstr (b->out, ==, "");
  g_assert_nonnull (strstr (b->err, "Fig branch does not fit"));
  assert_info (b, "Pages:", "2"); /* the whole plan, what is needed with the motif */
}

static void
wrong_words_are_refused (Bench *b, gconstpointer data)
{
  assert_refused (b, "templates SCENE", "name the file to write with -o FILE.pdf");
  assert_refused (b, "templates SCENE -o PDF --paper A7",
                  "--paper: expected A4, Letter, A3, Tabloid or Legal, found \"A7\"");
  assert_refused (b, "sheet SCENE -o PDF --unit ell", "--unit: expected mm or in");
  assert_refused (b, "sheet SCENE -o PDF --layout", "--layout");
  assert_refused (b, "templates SCENE -o PDF --log", "--log");
  assert_refused (b, "sheet -o PDF", "name the scene file");
  assert_refused (b, "templates nowhere.hoopscene -o PDF", "nowhere.hoopscene");
  assert_refused (b, "templates SCENE -o /no/such/folder/print.pdf", "/no/such/folder/print.pdf");
}

static void
a_broken_scene_prints_nothing (Bench *b, gconstpointer data)
{
  g_assert_true (g_file_set_contents (b->scene, "{\"format\":", -1, NULL));
  assert_refused (b, "templates SCENE -o PDF", "garden.hoopscene");
}

/* What poppler reads on the pages. Returns: (transfer full) */
static char *
pdf_text (Bench *b)
{
  char *argv[] = { (char *)"pdftotext", (char *)"-layout", b->pdf, (char *)"-", NULL };

  spawn (b, argv);
  g_assert_cmpint (b->status, ==, 0);
  return g_steal_pointer (&b->out);
}

static const char divided[]
    = "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Harbour wall\","
      " \"fabric\": {\"width\": 700, \"height\": 540, \"colour\": \"#d8cbb0\", \"hold\": \"floated\"},"
      " \"edge_line\": {\"points\": [[60, 40], [640, 40], [640, 500], [60, 500]], \"margin\": 2.0},"
      " \"hoops\": [{\"id\": \"h1\", \"name\": \"130 x 180\", \"field\": [130, 180], \"frame\": [170, 240],"
      "   \"clearance\": 2.0, \"turn\": \"any\"}],"
      " \"motifs\": [{\"id\": \"m1\", \"name\": \"Lantern\", \"outline\": [[[-20, -20], [20, -20], [0, 20]]],"
      "   \"position\": [150, 150], \"angle\": 0, \"scale\": 1.0, \"mirrored\": false, \"threads\": "
      "[{\"name\": \"moss\", \"colour\": \"#335522\", \"stitches\": 900}]},"
      "  {\"id\": \"m2\", \"name\": \"Anchor\", \"outline\": [[[-20, -20], [20, -20], [0, 20]]],"
      "   \"position\": [500, 350], \"angle\": 0, \"scale\": 1.0, \"mirrored\": false, \"threads\": "
      "[{\"name\": \"moss\", \"colour\": \"#335522\", \"stitches\": 900}]}],"
      " \"parts\": [{\"name\": \"Lower\", \"motifs\": [\"m2\"]}, {\"name\": \"Upper\", \"motifs\": "
      "[\"m1\"]}]}";

/* 80 m of cloth, and a motif as large, take 61,000 sheets of A4 (ISO 216). */
static void
more_sheets_than_anybody_prints_are_refused (Bench *b, gconstpointer data)
{
  g_autoptr (GString) scene = g_string_new (contract);

  g_assert_cmpuint (g_string_replace (scene, "[[-40, -30], [40, -30], [0, 35]]",
                                      "[[-40000, -40000], [40000, -40000], [0, 40000]]", 1),
                    ==, 1);
  g_assert_cmpuint (
      g_string_replace (scene, "\"width\": 700, \"height\": 540", "\"width\": 80000, \"height\": 80000", 1),
      ==, 1);
  g_assert_true (g_file_set_contents (b->scene, scene->str, -1, NULL));
  assert_refused (
      b, "templates SCENE -o PDF",
      "With the template of Fig branch this would be more than 3000 sheets; please check its size.");
  assert_refused (
      b, "templates --layout SCENE -o PDF",
      "The whole cloth at true size would be more than 3000 sheets; please check the cloth's size.");
}

static void
a_part_is_printed_alone_under_the_plan_s_numbers (Bench *b, gconstpointer data)
{
  g_autofree char *templates = NULL;
  g_autofree char *sheet = NULL;
  g_autofree char *pages = NULL;

  g_assert_true (g_file_set_contents (b->scene, divided, -1, NULL));
  run (b, "templates --part Upper SCENE -o PDF");
  g_assert_cmpint (b->status, ==, 0);
  pages = pdf_info (b, "Pages:");
  g_assert_cmpstr (pages, ==, "1");
  templates = pdf_text (b);
  g_assert_nonnull (strstr (templates, "Lantern"));
  g_assert_nonnull (strstr (templates, "Hooping 2"));
  g_assert_nonnull (strstr (templates, "Upper"));
  g_assert_null (strstr (templates, "Anchor"));
  run (b, "sheet --part Upper SCENE -o PDF");
  g_assert_cmpint (b->status, ==, 0);
  sheet = pdf_text (b);
  g_assert_nonnull (strstr (sheet, "Hooping 2 of 2"));
  g_assert_null (strstr (sheet, "Hooping 1 of 2"));
  g_assert_nonnull (strstr (sheet, "Part “Lower”: Hooping 1."));
  g_assert_nonnull (strstr (sheet, "Part “Upper”: Hooping 2. This sheet is for this part only."));
  g_assert_null (strstr (sheet, "1 centre"));
  g_assert_nonnull (strstr (sheet, "2 centre"));
}

static void
a_part_that_is_not_there_is_refused (Bench *b, gconstpointer data)
{
  assert_refused (b, "sheet --part Upper SCENE -o PDF", "not divided into parts");
  g_assert_true (g_file_set_contents (b->scene, divided, -1, NULL));
  assert_refused (b, "sheet --part upper SCENE -o PDF",
                  "--part: expected \"Lower\" or \"Upper\", found \"upper\".");
}

/* A print of before stays as it was when the new one fails. */
static void
an_older_print_outlives_a_failure (Bench *b, gconstpointer data)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_set_contents (b->pdf, "older", -1, NULL));
  g_assert_true (g_file_set_contents (b->scene, "[]", -1, NULL));
  run (b, "templates SCENE -o PDF");
  g_assert_cmpint (b->status, ==, 2);
  g_assert_true (g_file_get_contents (b->pdf, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, "older");
}

int
main (int argc, char **argv)
{
  if (argc > 2 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
#define ADD(path, function) g_test_add (path, Bench, NULL, set_up, function, tear_down)
  ADD ("/paper-commands/templates-are-written", templates_are_written);
  ADD ("/paper-commands/sheet-on-the-paper-asked-for", sheet_is_written_on_the_paper_asked_for);
  ADD ("/paper-commands/layout-in-place-of-templates", layout_takes_the_place_of_templates);
  ADD ("/paper-commands/log-in-place-of-the-sheet", log_takes_the_place_of_the_sheet);
  ADD ("/paper-commands/whole-hoopings-in-place-of-templates", whole_hoopings_take_the_place_of_templates);
  ADD ("/paper-commands/a-test-sheet-needs-no-scene", a_test_sheet_needs_no_scene);
  ADD ("/paper-commands/measured-lengths-leave-the-sheet", measured_lengths_leave_the_sheet_as_it_is);
  ADD ("/paper-commands/looks-and-lengths-that-are-refused", wrong_words_about_looks_and_lengths_are_refused);
  ADD ("/paper-commands/unplannable-is-printed-with-1", unplannable_is_printed_with_1);
  ADD ("/paper-commands/wrong-words-are-refused", wrong_words_are_refused);
  ADD ("/paper-commands/a-broken-scene-prints-nothing", a_broken_scene_prints_nothing);
  ADD ("/paper-commands/an-older-print-outlives-a-failure", an_older_print_outlives_a_failure);
  ADD ("/paper-commands/more-sheets-than-anybody-prints", more_sheets_than_anybody_prints_are_refused);
  ADD ("/paper-commands/one-part", a_part_is_printed_alone_under_the_plan_s_numbers);
  ADD ("/paper-commands/no-such-part", a_part_that_is_not_there_is_refused);
#undef ADD

  return g_test_run ();
}
