/* The table of commands, and how what a person types finds them. */
#include <string.h>

#include "../../src/workbench/command-list.h"

static void
test_each_command_once (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint n;
  const HwCommand *commands = hw_commands (&n);

  g_assert_cmpuint (n, >, 60);
  for (guint i = 0; i < n; i++)
    {
      g_assert_true (g_hash_table_add (seen, (gpointer)commands[i].action));
      g_assert_nonnull (strchr (commands[i].action, '.'));
      g_assert_true (hw_command_find (commands[i].action) == &commands[i]);
      g_assert_cmpstr (commands[i].label, !=, "");
      g_assert_true (g_str_has_suffix (commands[i].what, "."));
    }
  g_assert_null (hw_command_find ("win.no-such-thing"));
}

static void
test_each_key_once (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint n;
  const HwCommand *commands = hw_commands (&n);

  for (guint i = 0; i < n; i++)
    {
      g_auto (GStrv) keys = g_strsplit (commands[i].keys != NULL ? commands[i].keys : "", " ", -1);

      for (char **key = keys; *key != NULL; key++)
        g_assert_true (g_hash_table_add (seen, g_strdup (*key)));
    }
  g_assert_true (g_hash_table_contains (seen, "<Control>k"));
}

/* All keys of the table stand on the page of keys, at least their first. */
static void
test_the_page_of_keys_has_them (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "src", "workbench", "shortcuts.ui", NULL);
  g_autofree char *page = NULL;
  guint n;
  const HwCommand *commands = hw_commands (&n);

  g_assert_true (g_file_get_contents (path, &page, NULL, NULL));
  for (guint i = 0; i < n; i++)
    {
      g_auto (GStrv) keys = g_strsplit (commands[i].keys != NULL ? commands[i].keys : "", " ", -1);
      g_autofree char *escaped = NULL;

      if (keys[0] == NULL || g_str_equal (commands[i].action, "app.quit")
          || g_str_equal (commands[i].action, "win.export-pdf"))
        continue;
      escaped = g_markup_escape_text (keys[0], -1);
      if (strstr (page, escaped) == NULL)
        g_error ("%s is not on the page of keys", keys[0]);
    }
}

static void
test_beginnings_count_most (void)
{
  int whole = hw_command_fit ("mir", "Mirror", NULL);
  int second = hw_command_fit ("mir", "Add a mirrored pair", NULL);
  int within = hw_command_fit ("mir", "Admire", NULL);
  int told = hw_command_fit ("mir", "Swap", "as in a mirror");

  g_assert_cmpint (whole, ==, 0);
  g_assert_cmpint (whole, <, second);
  g_assert_cmpint (second, <, within);
  g_assert_cmpint (within, <, told);
  g_assert_cmpint (hw_command_fit ("mir", "Swap", "left and right"), <, 0);
}

static void
test_every_word_must_fit (void)
{
  g_assert_cmpint (hw_command_fit ("line left", "Left sides", "In line"), >=, 0);
  g_assert_cmpint (hw_command_fit ("line right", "Left sides", "In line"), <, 0);
  g_assert_cmpint (hw_command_fit ("", "Left sides", NULL), ==, 0);
  g_assert_cmpint (hw_command_fit ("   ", "Left sides", NULL), ==, 0);
}

static void
test_case_and_accents_do_not_matter (void)
{
  g_assert_cmpint (hw_command_fit ("ÄPFELN", "Apfelbaum", NULL), <, 0);
  g_assert_cmpint (hw_command_fit ("ÄPF", "Apfelbaum", NULL), ==, 0);
  g_assert_cmpint (hw_command_fit ("equal", "\303\211qual gaps", NULL), ==, 0);
  g_assert_cmpint (hw_command_fit ("\346\236\240", "\345\210\272\347\271\241\346\236\240", NULL), ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/command-list/each-command-once", test_each_command_once);
  g_test_add_func ("/command-list/each-key-once", test_each_key_once);
  g_test_add_func ("/command-list/page-of-keys", test_the_page_of_keys_has_them);
  g_test_add_func ("/command-list/beginnings-count-most", test_beginnings_count_most);
  g_test_add_func ("/command-list/every-word-must-fit", test_every_word_must_fit);
  g_test_add_func ("/command-list/case-and-accents", test_case_and_accents_do_not_matter);
  return g_test_run ();
}
