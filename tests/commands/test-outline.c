/* hoopwright outline as a person at a terminal or another program meets it. */
#include <math.h>

#include "command-run.h"

static const char tree[]
    = "<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='40mm' viewBox='0 0 60 40'>"
      "<path d='M10 35 L30 5 L50 35 Z' fill='#1d4a34'/></svg>";

typedef struct
{
  char *folder;
  char *path;
} Drawing;

static void
drawing_set_up (Drawing *drawing, gconstpointer text)
{
  drawing->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  drawing->path = g_build_filename (drawing->folder, "tree.svg", NULL);
  g_assert_true (g_file_set_contents (drawing->path, text, -1, NULL));
}

static void
drawing_tear_down (Drawing *drawing, gconstpointer data)
{
  g_unlink (drawing->path);
  g_assert_cmpint (g_rmdir (drawing->folder), ==, 0);
  g_free (drawing->folder);
  g_free (drawing->path);
}

static void
test_answer (Drawing *drawing, gconstpointer data)
{
  g_auto (Run) run = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *object;
  JsonArray *rings, *page;

  run_words (&run, (const char *[]){ "outline", drawing->path, NULL });
  root = answer_of (&run);
  object = json_node_get_object (root);
  g_assert_cmpstr (json_object_get_string_member (object, "kind"), ==, "svg");
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (object, "width_mm"), 40, 0.2);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (object, "height_mm"), 30, 0.1);
  g_assert_cmpfloat_with_epsilon (json_object_get_double_member (object, "area_mm2"), 600, 6);
  g_assert_false (json_object_get_boolean_member (object, "size_guessed"));
  page = json_object_get_array_member (object, "page_mm");
  g_assert_cmpfloat_with_epsilon (json_array_get_double_element (page, 0), 60, 1e-3);
  g_assert_cmpfloat_with_epsilon (json_array_get_double_element (page, 1), 40, 1e-3);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (object, "threads")), ==, 1);
  rings = json_object_get_array_member (object, "rings");
  g_assert_cmpuint (json_array_get_length (rings), ==, 1);
  g_assert_cmpuint (json_array_get_length (json_array_get_array_element (rings, 0)), <, 8);
}

static void
test_one_line_for_what_cannot_be_used (Drawing *drawing, gconstpointer data)
{
  static const char *const options[][2] = {
    { "--page", "0" },
    { "--page", "two" },
    { "--pixels-per-mm", "-3" },
    { "--pixels-per-mm", "nan" },
    { "--pixels-per-mm", "12 x" },
    { "--page", "-1" },
  };
  g_auto (Run) run = { 0 };

  for (guint i = 0; i < G_N_ELEMENTS (options); i++)
    {
      run_words (&run, (const char *[]){ "outline", options[i][0], options[i][1], drawing->path, NULL });
      assert_one_complaint (&run, HW_EXIT_BAD);
    }
  run_words (&run, (const char *[]){ "outline", NULL });
  assert_refused (&run, "outline: name one file of artwork, found 0. hoopwright outline --help says more.");
  run_words (&run, (const char *[]){ "outline", drawing->path, drawing->path, NULL });
  assert_one_complaint (&run, HW_EXIT_BAD);
  run_words (&run, (const char *[]){ "outline", "nowhere/pear.pdf", NULL });
  assert_refused (&run, "pear.pdf: there is no such file.");
  run_words (&run, (const char *[]){ "outline", drawing->folder, NULL });
  assert_one_complaint (&run, HW_EXIT_BAD);
}

/* Libraries that read a damaged file have nothing to say of their own. */
static void
test_damaged_pdf_is_one_line (Drawing *drawing, gconstpointer data)
{
  g_auto (Run) run = { 0 };

  g_assert_true (
      g_file_set_contents (drawing->path, "%PDF-1.4\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\n", -1, NULL));
  run_words (&run, (const char *[]){ "outline", drawing->path, NULL });
  assert_refused (&run,
                  "tree.svg: this PDF is broken off or damaged; copy it again from where it came from.");
}

#define ADD(path, test) g_test_add (path, Drawing, tree, drawing_set_up, test, drawing_tear_down)

int
main (int argc, char **argv)
{
  if (argc > 1 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
  ADD ("/outline/answer", test_answer);
  ADD ("/outline/one-line-for-what-cannot-be-used", test_one_line_for_what_cannot_be_used);
  ADD ("/outline/damaged-pdf-is-one-line", test_damaged_pdf_is_one_line);
  return g_test_run ();
}
