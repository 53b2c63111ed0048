/* Runs the program's commands as somebody at a terminal or another program does: the test starts itself again as the program. */
#pragma once

#include <glib/gstdio.h>
#include <json-glib/json-glib.h>
#include <string.h>
#include <sys/wait.h>

#include "commands/commands.h"

#define AS_PROGRAM "--as-program"

typedef struct
{
  int status;
  char *out;
  char *err;
} Run;

static inline void
run_clear (Run *run)
{
  g_free (run->out);
  g_free (run->err);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Run, run_clear)

/* words: those after the program's name, ended by NULL. */
static inline void
run_words (Run *result, const char *const *words)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) argv = NULL;
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL); /* valgrind follows no such link */
  g_autoptr (GError) error = NULL;
  int wait_status;

  run_clear (result);
  g_strv_builder_add_many (builder, self, AS_PROGRAM, NULL);
  for (const char *const *word = words; *word != NULL; word++)
    g_strv_builder_add (builder, *word);
  argv = g_strv_builder_end (builder);
  g_spawn_sync (NULL, argv, NULL, G_SPAWN_DEFAULT, NULL, NULL, &result->out, &result->err, &wait_status,
                &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (wait_status));
  result->status = WEXITSTATUS (wait_status);
}

/* One line on standard error that begins with the program's name, nothing on standard output. */
static inline void
assert_one_complaint (const Run *run, int status)
{
  g_assert_cmpstr (run->out, ==, "");
  g_assert_true (g_str_has_prefix (run->err, "hoopwright: "));
  g_assert_true (g_str_has_suffix (run->err, "\n"));
  g_assert_true (strchr (run->err, '\n') == run->err + strlen (run->err) - 1);
  g_assert_cmpint (run->status, ==, status);
}

static inline void
assert_refused (const Run *run, const char *sentence)
{
  g_autofree char *line = g_strdup_printf ("hoopwright: %s\n", sentence);

  g_assert_cmpstr (run->err, ==, line);
  assert_one_complaint (run, HW_EXIT_BAD);
}

/* What a successful run printed. Returns: (transfer full) */
static inline JsonNode *
answer_of (const Run *run)
{
  JsonNode *root;

  g_assert_cmpstr (run->err, ==, "");
  g_assert_cmpint (run->status, ==, 0);
  root = json_from_string (run->out, NULL);
  g_assert_nonnull (root);
  g_assert_true (JSON_NODE_HOLDS_OBJECT (root));
  return root;
}

/* A scene of five motifs in two hoopings, with its folder and a file for what was measured. */
typedef struct
{
  char *folder;
  char *scene;
  char *measured;
  char *output;
} Bench;

/* Quay, wall and boat lie in one hooping, the two gulls in another: no hoop takes all. */
static const char harbour[]
    = "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Harbour at Low Tide\",\n"
      " \"fabric\": {\"width\": 700, \"height\": 540, \"colour\": \"#d8cbb0\", \"hold\": \"floated\"},\n"
      " \"edge_line\": {\"points\": [[20, 20], [680, 20], [680, 520], [20, 520]], \"margin\": 2.0},\n"
      " \"hoops\": [{\"id\": \"h1\", \"name\": \"200 x 260\", \"field\": [200, 260], \"frame\": [240, 320],\n"
      "   \"clearance\": 2.0, \"turn\": \"any\"}],\n"
      " \"machine\": {\"shift_step\": 0.1, \"turn_step\": 1},\n"
      " \"motifs\": [\n"
      "  {\"id\": \"quay\", \"name\": \"Quay\", \"outline\": [[[-40, -15], [40, -15], [40, 15], [-40, "
      "15]]],\n"
      "   \"position\": [170, 200], \"angle\": 20, \"threads\": [{\"name\": \"stone\", \"colour\": "
      "\"#777766\", \"stitches\": 900}]},\n"
      "  {\"id\": \"wall\", \"name\": \"Wall\", \"outline\": [[[-20, -15], [20, -15], [20, 15], [-20, "
      "15]]],\n"
      "   \"position\": [210, 300], \"angle\": 0, \"threads\": [{\"name\": \"stone\", \"colour\": "
      "\"#777766\", \"stitches\": 500}]},\n"
      "  {\"id\": \"boat\", \"name\": \"Rowing boat\", \"outline\": [[[-25, -10], [25, -10], [0, 12]]],\n"
      "   \"position\": [150, 310], \"angle\": 0, \"threads\": [{\"name\": \"slate\", \"colour\": "
      "\"#33506b\", \"stitches\": 700}]},\n"
      "  {\"id\": \"gull1\", \"name\": \"Gull\", \"outline\": [[[-15, -8], [15, -8], [0, 9]]],\n"
      "   \"position\": [520, 180], \"angle\": 0, \"threads\": [{\"name\": \"white\", \"colour\": "
      "\"#ffffff\", \"stitches\": 300}]},\n"
      "  {\"id\": \"gull2\", \"name\": \"Second gull\", \"outline\": [[[-15, -8], [15, -8], [0, 9]]],\n"
      "   \"position\": [590, 320], \"angle\": 0, \"threads\": [{\"name\": \"white\", \"colour\": "
      "\"#ffffff\", \"stitches\": 300}]}]}\n";

static inline void
bench_write (const char *path, const char *text)
{
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static inline void
bench_set_up (Bench *bench, gconstpointer data)
{
  bench->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  bench->scene = g_build_filename (bench->folder, "harbour.hoopscene", NULL);
  bench->measured = g_build_filename (bench->folder, "tide.json", NULL);
  bench->output = g_build_filename (bench->folder, "followed.hoopscene", NULL);
  bench_write (bench->scene, harbour);
}

static inline void
bench_tear_down (Bench *bench, gconstpointer data)
{
  g_unlink (bench->scene);
  g_unlink (bench->measured);
  g_unlink (bench->output);
  g_assert_cmpint (g_rmdir (bench->folder), ==, 0);
  g_free (bench->folder);
  g_free (bench->scene);
  g_free (bench->measured);
  g_free (bench->output);
}

/* Puts another text into the scene in place of the first that stands there. */
static inline void
bench_change (Bench *bench, const char *from, const char *to)
{
  g_autofree char *text = NULL;
  g_autoptr (GString) changed = NULL;

  g_assert_true (g_file_get_contents (bench->scene, &text, NULL, NULL));
  changed = g_string_new (text);
  g_assert_cmpuint (g_string_replace (changed, from, to, 1), ==, 1);
  bench_write (bench->scene, changed->str);
}
