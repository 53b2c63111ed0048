/* The project's own reading of JSON for mistakes and its own way of writing, both beside json-glib as a second road. */
#include <json-glib/json-glib.h>
#include <string.h>

#include "formats/json-check.h"
#include "formats/json-lines.h"

static gboolean
is_json (const char *text)
{
  return hw_json_check (text, strlen (text), NULL);
}

/* RFC 8259, section 13: its examples. */
static void
the_standards_examples_are_json (void)
{
  g_assert_true (
      is_json ("{\n\"Image\": {\n\"Width\":  800,\n\"Height\": 600,\n\"Title\":  \"View from 15th Floor\",\n"
               "\"Thumbnail\": {\n\"Url\":    \"http://www.example.com/image/481989943\",\n\"Height\": 125,\n"
               "\"Width\":  100\n},\n\"Animated\" : false,\n\"IDs\": [116, 943, 234, 38793]\n}\n}"));
  g_assert_true (
      is_json ("[\n{\n\"precision\": \"zip\",\n\"Latitude\":  37.7668,\n\"Longitude\": -122.3959,\n"
               "\"Address\":   \"\"\n},\n{}\n]"));
  g_assert_true (is_json ("\"Hello world!\""));
  g_assert_true (is_json ("42"));
  g_assert_true (is_json ("true"));
}

/* RFC 8259, sections 2 to 7: what the grammar allows and what it does not. */
static void
the_grammar_is_kept (void)
{
  static const char *const good[] = { "0",
                                      "-0",
                                      "0.5",
                                      "-1.25e+10",
                                      "1E-3",
                                      "null",
                                      "[]",
                                      "{}",
                                      " [ 1 , 2 ] ",
                                      "\"\"",
                                      "[[]]",
                                      "{\"\":0}",
                                      "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e9\"",
                                      "\"\\ud83d\\ude00\"",
                                      "\"\x7f\"" };
  static const char *const bad[]
      = { "",         "01",    "+1",       ".5",        "1.",      "1e",        "--1",   "0x1",
          "tru",      "nul",   "True",     "[1,]",      "[,1]",    "[1 2]",     "{1:2}", "{\"a\"}",
          "{\"a\":}", "{a:1}", "'a'",      "\"\t\"",    "\"\\x\"", "\"\\u12\"", "[1]x",  "\"a",
          "[",        "]",     "{\"a\":1", "{\"a\" 1}", "1,2",     "/**/1",     "\v1",   "\"\\ude00\"" };

  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    g_assert_true (is_json (good[i]));
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (is_json (bad[i]));
}

static JsonNode *
random_value (guint depth)
{
  static const char *const texts[] = { "", "fig", "a \"b\"\\", "é\n\t\x01", "\xf0\x9f\xa7\xb5 thread", "/" };
  JsonNode *node = json_node_alloc ();

  switch (g_test_rand_int_range (depth > 4 ? 2 : 0, 7))
    {
    case 0:
      {
        JsonArray *list = json_array_new ();

        for (int n = g_test_rand_int_range (0, 8); n > 0; n--)
          json_array_add_element (list, random_value (depth + 1));
        json_node_init_array (node, list);
        json_array_unref (list);
        return node;
      }
    case 1:
      {
        JsonObject *object = json_object_new ();

        for (int n = g_test_rand_int_range (0, 6); n > 0; n--)
          {
            g_autofree char *key = g_strdup_printf ("key \"%d\"", n);

            json_object_set_member (object, key, random_value (depth + 1));
          }
        json_node_init_object (node, object);
        json_object_unref (object);
        return node;
      }
    case 2:
      return json_node_init_string (node, texts[g_test_rand_int_range (0, G_N_ELEMENTS (texts))]);
    case 3:
      return json_node_init_double (node, g_test_rand_double_range (-1e6, 1e6) + 0.125);
    case 4:
      return json_node_init_int (node, g_test_rand_int ());
    case 5:
      return json_node_init_boolean (node, g_test_rand_bit ());
    default:
      return json_node_init_null (node);
    }
}

static void
what_is_written_is_read_the_same_by_another (void)
{
  for (guint i = 0; i < 2000; i++)
    {
      g_autoptr (JsonNode) value = random_value (0);
      g_autofree char *lines = hw_json_lines (value, NULL);
      g_autofree char *line = hw_json_line (value);
      g_autoptr (JsonNode) from_lines = json_from_string (lines, NULL);
      g_autoptr (JsonNode) from_line = json_from_string (line, NULL);

      g_assert_true (is_json (lines));
      g_assert_true (is_json (line));
      g_assert_null (strchr (line, '\n'));
      g_assert_true (json_node_equal (value, from_lines));
      g_assert_true (json_node_equal (value, from_line));
    }
}

static void
numbers_are_as_short_as_they_may_be (void)
{
  static const struct
  {
    double value;
    const char *text;
  } numbers[] = { { 0.1, "0.1" },
                  { 180, "180" },
                  { -0.0, "0" },
                  { 1e21, "1e+21" },
                  { 1.0 / 3, "0.3333333333333333" },
                  { 0.1 + 0.2, "0.30000000000000004" },
                  { 123456789, "123456789" },
                  { -2.5, "-2.5" } };

  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *text = hw_json_number_text (numbers[i].value);

      g_assert_cmpstr (text, ==, numbers[i].text);
    }
}

static void
long_lists_are_filled_line_by_line (void)
{
  g_autoptr (JsonNode) root = json_from_string ("{\"short\": [1, 2], \"long\": []}", NULL);
  JsonArray *list = json_object_get_array_member (json_node_get_object (root), "long");
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  for (guint i = 0; i < 100; i++)
    json_array_add_int_element (list, 1000 + i);
  text = hw_json_lines (root, NULL);
  lines = g_strsplit (text, "\n", -1);
  g_assert_cmpstr (lines[1], ==, "  \"short\": [1, 2],");
  g_assert_cmpstr (lines[2], ==, "  \"long\": [");
  g_assert_true (g_str_has_prefix (lines[3], "    1000, 1001, "));
  for (guint i = 0; lines[i] != NULL; i++)
    g_assert_cmpuint (strlen (lines[i]), <=, 120);
  g_assert_cmpuint (g_strv_length (lines), <, 14);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/json/" name, function)
  ADD ("the-standards-examples-are-json", the_standards_examples_are_json);
  ADD ("the-grammar-is-kept", the_grammar_is_kept);
  ADD ("what-is-written-is-read-the-same", what_is_written_is_read_the_same_by_another);
  ADD ("numbers-are-short", numbers_are_as_short_as_they_may_be);
  ADD ("long-lists-are-filled", long_lists_are_filled_line_by_line);
  return g_test_run ();
}
