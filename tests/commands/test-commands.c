/* The commands as a person at a terminal or another program meets them: what they print where, and how they end. The test runs itself
 * again as the program. */
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>
#include <sys/wait.h>

#include "../formats/scene-texts.h"
#include "commands/commands.h"

#define AS_PROGRAM "--as-program"

typedef struct
{
  int status;
  char *out;
  char *err;
} Run;

static void
run_clear (Run *run)
{
  g_free (run->out);
  g_free (run->err);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Run, run_clear)

/* Runs `hoopwright` with words separated by single spaces; %s in it stands for scene. */
static void
run (Run *result, const char *line, const char *scene)
{
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) argv = NULL;
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL); /* valgrind follows no such link */
  g_autoptr (GError) error = NULL;
  int wait_status;

  run_clear (result);
  g_strv_builder_add_many (builder, self, AS_PROGRAM, NULL);
  for (char **word = words; *word != NULL; word++)
    g_strv_builder_add (builder, g_str_equal (*word, "%s") ? scene : *word);
  argv = g_strv_builder_end (builder);
  g_spawn_sync (NULL, argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &result->out, &result->err, &wait_status,
                &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (wait_status));
  result->status = WEXITSTATUS (wait_status);
}

static void
assert_refused (const Run *result, const char *sentence)
{
  g_autofree char *line = g_strdup_printf ("hoopwright: %s\n", sentence);

  g_assert_cmpstr (result->err, ==, line);
  g_assert_cmpstr (result->out, ==, "");
  g_assert_cmpint (result->status, ==, 2);
}

typedef struct
{
  char *folder;
  char *scene;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  f->scene = g_build_filename (f->folder, "garden.hoopscene", NULL);
  g_assert_true (g_file_set_contents (f->scene, contract, -1, NULL));
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_unlink (f->scene);
  g_rmdir (f->folder);
  g_free (f->folder);
  g_free (f->scene);
}

static void
change (Fixture *f, const char *from, const char *to)
{
  g_autofree char *text = replaced (contract, from, to);

  g_assert_true (g_file_set_contents (f->scene, text, -1, NULL));
}

static void
plan_prints_json_alone (Fixture *f, gconstpointer data)
{
  g_auto (Run) result = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *plan, *hooping;

  run (&result, "plan %s", f->scene);
  g_assert_cmpstr (result.err, ==, "");
  g_assert_cmpint (result.status, ==, 0);
  root = json_from_string (result.out, NULL);
  g_assert_nonnull (root);
  plan = json_node_get_object (root);
  g_assert_cmpstr (json_object_get_string_member (plan, "format"), ==, "hoopwright-plan");
  g_assert_cmpstr (json_object_get_string_member (plan, "status"), ==, "optimal");
  g_assert_cmpint (json_object_get_int_member (plan, "lower_bound"), ==, 1);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (plan, "hoopings")), ==, 1);
  hooping = json_array_get_object_element (json_object_get_array_member (plan, "hoopings"), 0);
  g_assert_cmpstr (json_object_get_string_member (hooping, "hoop"), ==, "h1");
}

static void
options_stand_before_or_after_the_scene (Fixture *f, gconstpointer data)
{
  g_auto (Run) before = { 0 };
  g_auto (Run) after = { 0 };
  g_auto (Run) inches = { 0 };

  run (&before, "plan --time 0.5 --unit mm %s", f->scene);
  run (&after, "plan %s --time=0.5 -u mm", f->scene);
  run (&inches, "plan --unit in %s", f->scene);
  g_assert_cmpint (before.status, ==, 0);
  g_assert_cmpstr (before.out, ==, after.out);
  /* Figures are millimetres whatever the unit of the sentences. */
  g_assert_cmpstr (inches.out, ==, before.out);
}

/* In place of the JSON, and ending as it does. */
static void
why_is_told_in_plain_text (Fixture *f, gconstpointer data)
{
  g_auto (Run) metric = { 0 };
  g_auto (Run) inches = { 0 };
  g_auto (Run) unplannable = { 0 };
  g_auto (Run) bad = { 0 };

  run (&metric, "plan --why %s", f->scene);
  g_assert_cmpint (metric.status, ==, 0);
  g_assert_cmpstr (metric.err, ==, "");
  g_assert_true (g_str_has_prefix (metric.out, "1 hooping, proven fewest"));
  g_assert_nonnull (strstr (metric.out, "\nHooping 1: Fig branch\n"));
  g_assert_nonnull (strstr (metric.out, " mm"));
  g_assert_null (strchr (metric.out, '{'));
  g_assert_true (g_str_has_suffix (metric.out, "\n"));

  run (&inches, "plan -w -u in %s", f->scene);
  g_assert_cmpint (inches.status, ==, 0);
  g_assert_nonnull (strstr (inches.out, " in "));
  g_assert_null (strstr (inches.out, " mm"));

  change (f, "\"scale\": 1.0", "\"scale\": 3.0");
  run (&unplannable, "plan %s --why", f->scene);
  g_assert_cmpint (unplannable.status, ==, 1);
  g_assert_cmpstr (unplannable.err, ==, "");
  g_assert_nonnull (strstr (unplannable.out, "Fig branch"));

  change (f, "\"width\": 700", "\"width\": 0");
  run (&bad, "plan --why %s", f->scene);
  assert_refused (
      &bad, "garden.hoopscene: fabric.width: expected a length in millimetres from 0.1 to 100000, found 0.");
}

static void
what_no_hoop_takes_ends_with_1 (Fixture *f, gconstpointer data)
{
  g_auto (Run) planned = { 0 };
  g_auto (Run) checked = { 0 };
  g_autoptr (JsonNode) root = NULL;
  JsonObject *plan, *problem;

  change (f, "\"scale\": 1.0", "\"scale\": 3.0");
  run (&planned, "plan %s", f->scene);
  g_assert_cmpint (planned.status, ==, 1);
  g_assert_cmpstr (planned.err, ==, "");
  root = json_from_string (planned.out, NULL);
  g_assert_nonnull (root);
  plan = json_node_get_object (root);
  g_assert_cmpstr (json_object_get_string_member (plan, "status"), ==, "unplannable");
  problem = json_array_get_object_element (json_object_get_array_member (plan, "problems"), 0);
  g_assert_cmpstr (json_object_get_string_member (problem, "kind"), ==, "oversize");
  g_assert_cmpstr (json_object_get_string_member (problem, "motif"), ==, "m1");

  run (&checked, "check %s", f->scene);
  g_assert_cmpint (checked.status, ==, 1);
  g_assert_cmpstr (checked.err, ==, "");
  g_assert_nonnull (strstr (checked.out, json_object_get_string_member (problem, "text")));
}

static void
check_speaks_in_lines (Fixture *f, gconstpointer data)
{
  g_auto (Run) result = { 0 };
  g_auto (GStrv) lines = NULL;

  run (&result, "check %s", f->scene);
  g_assert_cmpint (result.status, ==, 0);
  g_assert_cmpstr (result.err, ==, "");
  lines = g_strsplit (result.out, "\n", -1);
  g_assert_cmpstr (lines[0], ==, "The Walled Garden: 1 motif, 1 hoop");
  g_assert_true (g_str_has_prefix (lines[1], "1 hooping, proven fewest"));
  g_assert_true (g_str_has_suffix (result.out, "Nothing else to look at.\n"));
}

static void
check_names_what_breaks_a_rule (Fixture *f, gconstpointer data)
{
  g_auto (Run) result = { 0 };

  change (f, "\"position\": [180, 150]", "\"position\": [90, 150]");
  run (&result, "check %s", f->scene);
  g_assert_cmpint (result.status, ==, 0);
  g_assert_nonnull (strstr (result.out, "\nFig branch "));
  g_assert_null (strstr (result.out, "Nothing else"));
}

static void
bad_scenes_end_with_2_and_one_line (Fixture *f, gconstpointer data)
{
  static const char *const commands[] = { "plan %s", "check %s", "plan --time 1 %s" };
  g_auto (Run) result = { 0 };

  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      change (f, "[180, 150]", "\"abc\"");
      run (&result, commands[i], f->scene);
      assert_refused (
          &result,
          "garden.hoopscene: motifs[0].position: expected two numbers in millimetres, found \"abc\".");
      g_unlink (f->scene);
      run (&result, commands[i], f->scene);
      assert_refused (&result, "garden.hoopscene: there is no such file.");
    }
  g_assert_true (g_file_set_contents (f->scene, "{", -1, NULL));
  run (&result, "plan %s", f->scene);
  assert_refused (&result,
                  "garden.hoopscene: line 1, column 2: the text ends in the middle, it may have been cut "
                  "off; expected a key in quotes.");
}

/* A name with a line end in it cannot make two lines of one complaint. */
static void
a_complaint_is_one_line_whatever_it_quotes (Fixture *f, gconstpointer data)
{
  g_auto (Run) result = { 0 };

  change (f, "[[[-40, -30], [40, -30], [0, 35]]]", "[[[0, 0], [1, 1], [2, 2]]]");
  change (f, "\"Fig branch\", \"outline\": [[[-40, -30], [40, -30], [0, 35]]]",
          "\"Fig\\nbranch\", \"outline\": [[[0, 0], [1, 1], [2, 2]]]");
  run (&result, "plan %s", f->scene);
  assert_refused (&result,
                  "garden.hoopscene: motifs[0].outline: \"Fig branch\" cannot be stitched. The outline "
                  "encloses no area.");
  run (&result, "plan --unit m\nm %s", f->scene);
  assert_refused (&result, "--unit: expected mm or in, found \"m m\".");
}

static void
bad_use_ends_with_2_and_one_line (Fixture *f, gconstpointer data)
{
  static const struct
  {
    const char *line;
    const char *sentence;
  } uses[] = {
    { "plan", "plan: name the scene file. hoopwright plan --help says more." },
    { "check", "check: name the scene file. hoopwright check --help says more." },
    { "plan %s %s", "plan: expected one scene file, found 2. hoopwright plan --help says more." },
    { "plan --time soon %s", "--time: expected a number of seconds, found \"soon\"." },
    { "plan --time -1 %s", "--time: expected a number of seconds, found \"-1\"." },
    { "plan --time nan %s", "--time: expected a number of seconds, found \"nan\"." },
    { "plan --unit yard %s", "--unit: expected mm or in, found \"yard\"." },
    { "stitch",
      "\"stitch\" is neither a command nor a file that exists. hoopwright --help names the commands." },
  };
  g_auto (Run) result = { 0 };

  for (gsize i = 0; i < G_N_ELEMENTS (uses); i++)
    {
      run (&result, uses[i].line, f->scene);
      assert_refused (&result, uses[i].sentence);
    }
  run (&result, "plan --quickly %s", f->scene);
  g_assert_cmpint (result.status, ==, 2);
  g_assert_cmpstr (result.out, ==, "");
  g_assert_nonnull (strstr (result.err, "--quickly"));
  g_assert_true (strchr (result.err, '\n') == result.err + strlen (result.err) - 1);
}

static void
help_and_version_end_with_0 (Fixture *f, gconstpointer data)
{
  static const char *const lines[]
      = { "--help", "-h", "plan --help", "check --help", "templates --help", "sheet --help" };
  g_auto (Run) result = { 0 };

  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      run (&result, lines[i], f->scene);
      g_assert_cmpint (result.status, ==, 0);
      g_assert_cmpstr (result.err, ==, "");
      g_assert_nonnull (strstr (result.out, "Usage:"));
      g_assert_nonnull (strstr (result.out, "--help"));
    }
  run (&result, "--help", f->scene);
  g_assert_nonnull (strstr (result.out, "  plan "));
  g_assert_nonnull (strstr (result.out, "  templates "));
  g_assert_nonnull (strstr (result.out, "  sheet "));
  g_assert_nonnull (strstr (result.out, "  check "));
  run (&result, "plan --help", f->scene);
  g_assert_nonnull (strstr (result.out, "hoopwright plan"));
  g_assert_nonnull (strstr (result.out, "--time"));
  run (&result, "--version", f->scene);
  g_assert_cmpint (result.status, ==, 0);
  g_assert_true (g_str_has_prefix (result.out, "Hoopwright "));
}

static void
output_that_cannot_be_written_is_no_success (Fixture *f, gconstpointer data)
{
  g_autofree char *quoted_scene = g_shell_quote (f->scene);
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *quoted_program = g_shell_quote (program);
  g_autofree char *script
      = g_strdup_printf ("%s " AS_PROGRAM " plan %s > /dev/full", quoted_program, quoted_scene);
  const char *argv[] = { "/bin/sh", "-c", script, NULL };
  g_autofree char *err = NULL;
  int wait_status;

  g_assert_true (
      g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, NULL, &err, &wait_status, NULL));
  g_assert_cmpint (WEXITSTATUS (wait_status), ==, 2);
  g_assert_cmpstr (err, ==, "hoopwright: the output could not be written (No space left on device).\n");
}

static gboolean
wanted (const char *word)
{
  char *argv[] = { (char *)"hoopwright", (char *)word, NULL };

  return hw_commands_wanted (word != NULL ? 2 : 1, argv);
}

static void
a_window_opens_for_scenes_only (Fixture *f, gconstpointer data)
{
  g_assert_false (wanted (NULL));
  g_assert_false (wanted (f->scene));
  g_assert_false (wanted ("file:///nowhere/garden.hoopscene"));
  g_assert_false (wanted ("--gapplication-service"));
  g_assert_true (wanted ("plan"));
  g_assert_true (wanted ("sheet"));
  g_assert_true (wanted ("--help"));
  g_assert_true (wanted ("-h"));
  g_assert_true (wanted ("--version"));
  g_assert_true (wanted ("gardn.hoopscene"));
}

int
main (int argc, char **argv)
{
  if (argc > 2 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add ("/commands/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("plan-prints-json-alone", plan_prints_json_alone);
  ADD ("options-stand-before-or-after", options_stand_before_or_after_the_scene);
  ADD ("why-is-told-in-plain-text", why_is_told_in_plain_text);
  ADD ("what-no-hoop-takes-ends-with-1", what_no_hoop_takes_ends_with_1);
  ADD ("check-speaks-in-lines", check_speaks_in_lines);
  ADD ("check-names-what-breaks-a-rule", check_names_what_breaks_a_rule);
  ADD ("bad-scenes-end-with-2", bad_scenes_end_with_2_and_one_line);
  ADD ("a-complaint-is-one-line", a_complaint_is_one_line_whatever_it_quotes);
  ADD ("bad-use-ends-with-2", bad_use_ends_with_2_and_one_line);
  ADD ("help-and-version-end-with-0", help_and_version_end_with_0);
  ADD ("output-that-cannot-be-written", output_that_cannot_be_written_is_no_success);
  ADD ("a-window-opens-for-scenes-only", a_window_opens_for_scenes_only);
  return g_test_run ();
}
