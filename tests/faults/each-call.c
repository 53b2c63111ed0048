#include "each-call.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>
#include <utime.h>

#include "../formats/scene-texts.h"
#include "../paper/garden.h"
#include "../folders.h"
#include "formats/whole-file.h"
#include "words.h"

#define HIDDEN ".hoopwright-"
#define MOST_CALLS 4000
#define EXIT_DONE 0
#define EXIT_FAILED 1
#define EXIT_NO_SENTENCE 97

static gboolean told;
static guint tried[N_FAULTS];

void
arm (const Desk *desk)
{
  faults_arm (desk->fault, desk->call);
}

/* Of the files below a folder, those whose names begin so. */
static guint
files_below (const char *folder, const char *prefix, gboolean age)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      struct utimbuf long_ago = { 1000, 1000 };

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        n += files_below (path, prefix, age);
      else if (g_str_has_prefix (name, prefix))
        {
          n++;
          if (age)
            g_assert_cmpint (utime (path, &long_ago), ==, 0);
        }
    }
  return n;
}

gboolean
holds (const char *path, const char *text)
{
  g_autofree char *found = NULL;

  return g_file_get_contents (path, &found, NULL, NULL) && g_str_equal (found, text);
}

gboolean
is_there (const char *path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

void
put (const char *path, const char *text)
{
  g_assert_true (hw_file_replace_whole (path, text, strlen (text), NULL));
}

void
bare (Desk *desk)
{
}

static void
run_and_exit (const Way *way, Desk *desk)
{
  g_autoptr (GError) error = NULL;
  gboolean done = way->run (desk, &error), reached = faults_disarm ();
  int status = done ? EXIT_DONE : is_sentence (error) ? EXIT_FAILED : EXIT_NO_SENTENCE;

  if (status == EXIT_NO_SENTENCE)
    g_printerr ("%s\n", error != NULL ? error->message : "no error");
  _exit (status | (reached ? 64 : 0));
}

/* Runs it once. FALSE: it ended without reaching the call. */
static gboolean
run_once (const Way *way, Desk *desk, Outcome *outcome)
{
  pid_t child = fork ();
  int status, code;

  if (child == 0)
    run_and_exit (way, desk);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  if (WIFSIGNALED (status))
    {
      g_assert_cmpint (WTERMSIG (status), ==, SIGKILL);
      *outcome = KILLED;
      return TRUE;
    }
  code = WEXITSTATUS (status);
  g_assert_cmpint (code, !=, FAULTS_EXIT_UNSYNCED);
  g_assert_cmpint (code & 63, <=, EXIT_FAILED);
  *outcome = (code & 63) == EXIT_DONE ? DONE : FAILED;
  return (code & 64) != 0;
}

/* Where nothing can be changed any more, nothing can be cleared away either. */
static void
look_at_left_overs (Desk *desk, Outcome outcome)
{
  guint left = files_below (desk->root, HIDDEN, TRUE);

  if (outcome != KILLED && desk->fault != FAULT_READ_ONLY && desk->fault != FAULT_DISK)
    g_assert_cmpuint (left, ==, 0);
  g_assert_cmpuint (left, <=, 1);
  if (left > 0)
    {
      g_autofree char *later = g_build_filename (desk->home, "later", NULL);

      put (later, "later");
      g_assert_cmpuint (files_below (desk->home, HIDDEN, FALSE), ==, 0);
    }
}

static void
try_all (gconstpointer data)
{
  const Way *way = data;
  g_autofree char *home = NULL, *state = NULL, *file = NULL,
                  *root = g_dir_make_tmp ("hw-faults-XXXXXX", NULL);
  static const guint8 bytes[PHOTO_SIZE] = { 0xff, 0xd8, 7 };
  const HwPaperOptions options = { HW_PAPER_TEMPLATES, hw_sheet_size_find ("A4"), HW_UNIT_MM, 10, 10 };
  Desk desk = {
    .root = root, .scene = accepted (full), .plan = garden_plan (), .stitched = garden_plan_large (2, 300)
  };

  home = desk.home = g_build_filename (root, "home", NULL);
  state = desk.state = g_build_filename (root, "state", NULL);
  file = desk.file = g_build_filename (home, "harbour.hoopscene", NULL);
  desk.photo = g_bytes_new_static (bytes, sizeof bytes);
  desk.print = hw_print_job_new (desk.plan, &options, NULL);
  for (desk.fault = 0; desk.fault < N_FAULTS; desk.fault++)
    {
      gboolean reached = TRUE;

      for (desk.call = 1; reached; desk.call++)
        {
          Outcome outcome;

          g_assert_cmpuint (desk.call, <, MOST_CALLS);
          folder_empty (root);
          g_assert_cmpint (g_mkdir (home, 0700), ==, 0);
          g_assert_cmpint (g_mkdir (state, 0700), ==, 0);
          way->set_up (&desk);
          reached = run_once (way, &desk, &outcome);
          g_test_message ("fault %d at call %u: %d", desk.fault, desk.call, outcome);
          tried[desk.fault] += reached;
          if (!reached || desk.fault == FAULT_INTERRUPTED || desk.fault == FAULT_SHORT)
            g_assert_cmpint (outcome, ==, DONE);
          way->look (&desk, outcome);
          look_at_left_overs (&desk, outcome);
        }
      g_assert_cmpuint (desk.call, >, 1);
    }
  folder_remove (root);
  hw_print_job_free (desk.print);
  hw_plan_unref (desk.plan);
  hw_plan_unref (desk.stitched);
  hw_snapshot_unref (desk.scene);
  g_bytes_unref (desk.photo);
}

int
each_way (int argc, char **argv, const Way *ways, guint n_ways)
{
  static const char *const names[N_FAULTS] = {
    "killed before a call", "killed within a call", "disk full",  "quota used up", "read-only from then on",
    "disk error",           "permission denied",    "no handles", "interrupted",   "a byte at a time"
  };
  g_autofree char *state = g_dir_make_tmp ("hw-state-XXXXXX", NULL);
  g_autofree char *reach = g_build_filename (g_get_tmp_dir (), "hw-", NULL);
  int status;

  faults_set_reach (reach);
  told = take_word (&argc, argv, "--faults-told");
  g_setenv ("XDG_STATE_HOME", state, TRUE);
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < n_ways; i++)
    {
      g_autofree char *path = g_strconcat ("/saving/", ways[i].name, NULL);

      g_test_add_data_func (path, &ways[i], try_all);
    }
  status = g_test_run ();
  folder_remove (state);
  for (guint i = 0; told && i < N_FAULTS; i++)
    g_print ("# %-24s %5u\n", names[i], tried[i]);
  return status;
}
