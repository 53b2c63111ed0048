/* Each way of writing a file, with each fault at each call that it can befall. A run is a process of its own; what it left is looked at from outside. Whatever happens,
 * the file holds what it held before or all of what it shall hold, a failure is one sentence, and nothing half written stays under a name of the person's.
 * `test-saving --faults-told` prints how many were tried. */
#include <cairo-pdf.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include <utime.h>

#include "../formats/scene-texts.h"
#include "../paper/garden.h"
#include "emptied.h"
#include "faults.h"
#include "formats/earlier-states.h"
#include "formats/kept-work.h"
#include "drawing/plan-picture.h"
#include "formats/lists-csv.h"
#include "formats/named-file.h"
#include "formats/needle-write.h"
#include "formats/whole-file.h"
#include "paper/print-job.h"
#include "workbench/photo-file.h"
#include "workbench/scene-pictures.h"
#include "workbench/session.h"

#define HIDDEN ".hoopwright-"
#define MOST_CALLS 4000
#define EXIT_DONE 0
#define EXIT_FAILED 1
#define EXIT_NO_SENTENCE 97
#define PHOTO_SIZE 5000

typedef enum
{
  KILLED,
  FAILED,
  DONE
} Outcome;

typedef struct
{
  char *root, *home, *state; /* home: the person's own folder */
  char *file;                /* what is written, in home */
  HwSnapshot *scene;
  HwPlan *plan, *stitched; /* the second with stitches */
  HwPrintJob *print;
  GBytes *photo;
  Fault fault;
  guint call;
} Desk;

typedef struct
{
  const char *name;
  void (*set_up) (Desk *desk);
  gboolean (*run) (Desk *desk, GError **error); /* in the child; arms the faults when it is ready */
  void (*look) (Desk *desk, Outcome outcome);
} Way;

static gboolean told;
static guint tried[N_FAULTS];

static void
arm (Desk *desk)
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

static gboolean
holds (const char *path, const char *text)
{
  g_autofree char *found = NULL;

  return g_file_get_contents (path, &found, NULL, NULL) && g_str_equal (found, text);
}

static gboolean
is_there (const char *path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static void
put (const char *path, const char *text)
{
  g_assert_true (hw_file_replace_whole (path, text, strlen (text), NULL));
}

/* A scene that was saved before. */
static void
old_scene (Desk *desk)
{
  put (desk->file, contract);
}

static gboolean
save_scene (Desk *desk, GError **error)
{
  arm (desk);
  return hw_scene_file_save (desk->scene, desk->file, NULL, error);
}

static void
look_at_scene (Desk *desk, Outcome outcome)
{
  gboolean old = holds (desk->file, contract), new = holds (desk->file, full);

  g_assert_true (old || new);
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static void
no_scene (Desk *desk)
{
}

static void
look_at_first_scene (Desk *desk, Outcome outcome)
{
  gboolean new = holds (desk->file, full);

  g_assert_true (new || !is_there (desk->file));
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static gboolean
keep_work (Desk *desk, GError **error)
{
  g_autoptr (HwSnapshot) old = accepted (contract);
  g_autoptr (HwWorkPlace) place = NULL;

  arm (desk);
  place = hw_work_place_new (desk->state, error);
  return place != NULL && hw_work_place_keep (place, old, NULL, NULL, 1000, error)
         && hw_work_place_keep (place, desk->scene, NULL, NULL, 1003, error);
}

/* The scene's text of the only work that was left; NULL: none. Returns: (transfer full) (nullable) */
static char *
text_left (Desk *desk)
{
  g_autoptr (GPtrArray) left = hw_left_work_list (desk->state);
  g_autoptr (HwSnapshot) scene = NULL;

  g_assert_cmpuint (left->len, <=, 1);
  if (left->len == 0)
    return NULL;
  scene = hw_left_work_read (left->pdata[0], NULL);
  g_assert_nonnull (scene);
  return hw_scene_file_text (scene);
}

static guint
locks_in (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_suffix (name, ".lock");
  return n;
}

static void
look_at_work (Desk *desk, Outcome outcome)
{
  g_autofree char *text = text_left (desk);

  if (outcome == DONE)
    g_assert_cmpstr (text, ==, full);
  g_assert_cmpuint (locks_in (desk->state), ==, 0);
}

/* Saving as the window does it: what was there is kept as an earlier state, of which there are as many as are kept; the unsaved work goes once it is saved. */
static void
old_scene_with_states (Desk *desk)
{
  g_autofree char *states = g_build_filename (desk->root, "earlier", NULL);

  for (guint i = 0; i < HW_MOST_EARLIER_STATES; i++)
    {
      g_autofree char *text = g_strdup_printf ("state %u", i);

      put (desk->file, text);
      g_assert_true (hw_earlier_state_keep (states, desk->file, 0, NULL));
    }
  put (desk->file, contract);
}

static gboolean
save_in_window (Desk *desk, GError **error)
{
  g_autofree char *states = g_build_filename (desk->root, "earlier", NULL);
  g_autoptr (HwWorkPlace) place = hw_work_place_new (desk->state, error);

  if (place == NULL || !hw_work_place_keep (place, desk->scene, desk->file, desk->home, 1000, error))
    return FALSE;
  arm (desk);
  hw_earlier_state_keep (states, desk->file, 600, NULL);
  if (!hw_scene_file_save (desk->scene, desk->file, NULL, error))
    return FALSE;
  hw_work_place_clear (place);
  return TRUE;
}

static void
look_at_states (Desk *desk)
{
  g_autofree char *where = g_build_filename (desk->root, "earlier", NULL);
  g_autoptr (GPtrArray) states = hw_earlier_states_list (where, desk->file);

  g_assert_cmpuint (states->len, >=, HW_MOST_EARLIER_STATES);
  for (guint i = 0; i < states->len; i++)
    {
      const char *file = ((HwEarlierState *)states->pdata[i])->file;
      g_autofree char *text = NULL;

      g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
      g_assert_true (g_str_equal (text, contract)
                     || (strlen (text) == 7 && g_str_has_prefix (text, "state ")));
    }
}

static void
look_at_window_save (Desk *desk, Outcome outcome)
{
  g_autofree char *text = text_left (desk);

  look_at_scene (desk, outcome);
  if (!holds (desk->file, full))
    g_assert_cmpstr (text, ==, full);
  look_at_states (desk);
}

/* The fonts are looked for before, once for all runs. */
static void
draw_once (Desk *desk)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (NULL, NULL, 600, 800);
  cairo_t *cr = cairo_create (surface);

  for (guint i = 0; i < hw_print_job_n_pages (desk->print); i++)
    hw_print_job_draw_page (desk->print, i, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
old_print (Desk *desk)
{
  static gsize drawn;

  if (g_once_init_enter (&drawn))
    {
      draw_once (desk);
      g_once_init_leave (&drawn, 1);
    }
  put (desk->file, "the old print");
}

static gboolean
print_anew (Desk *desk, GError **error)
{
  arm (desk);
  return hw_print_jobs_write_pdf (&desk->print, 1, "A garden in print", desk->file, NULL, error);
}

static void
look_at_print (Desk *desk, Outcome outcome)
{
  g_autofree char *text = NULL;
  gsize length;
  gboolean old, new;

  g_assert_true (g_file_get_contents (desk->file, &text, &length, NULL));
  old = g_str_equal (text, "the old print");
  new = length > 1000 && memcmp (text, "%PDF-", 5) == 0 && memcmp (text + length - 6, "%%EOF\n", 6) == 0;
  g_assert_true (old || new);
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static gboolean
list_anew (Desk *desk, GError **error)
{
  arm (desk);
  return hw_list_csv_save (HW_LIST_THREADS, desk->plan, desk->file, error);
}

static void
look_at_list (Desk *desk, Outcome outcome)
{
  g_autofree char *wanted = hw_list_csv_text (HW_LIST_THREADS, desk->plan);
  gboolean new = holds (desk->file, wanted);

  g_assert_true (new || holds (desk->file, "the old print"));
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

/* Another photo has the name already. */
static void
other_photo (Desk *desk)
{
  g_autofree char *path = g_build_filename (desk->home, "quay.jpg", NULL);

  put (path, "another quay");
}

static gboolean
copy_photo (Desk *desk, GError **error)
{
  g_autofree char *from = g_build_filename (desk->root, "camera", "quay.jpg", NULL);
  g_autofree char *name = NULL;
  gboolean copied;

  arm (desk);
  name = hw_photo_file_put_beside (from, desk->photo, desk->home, &copied, error);
  return name != NULL;
}

static void
look_at_photo (Desk *desk, Outcome outcome)
{
  g_autofree char *other = g_build_filename (desk->home, "quay.jpg", NULL);
  g_autofree char *path = g_build_filename (desk->home, "quay-2.jpg", NULL);
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (holds (other, "another quay"));
  if (g_file_get_contents (path, &bytes, &length, NULL))
    g_assert_cmpmem (bytes, length, g_bytes_get_data (desk->photo, NULL), PHOTO_SIZE);
  if (outcome != KILLED)
    g_assert_true ((bytes != NULL) == (outcome == DONE));
}

static void
old_session (Desk *desk)
{
  const HwSceneSeen seen = { .whole = TRUE };

  hw_session_write (desk->state, "/harbour/old.hoopscene", &seen);
}

static gboolean
write_session (Desk *desk, GError **error)
{
  const HwSceneSeen seen = { .whole = TRUE, .at_machine = TRUE };

  arm (desk);
  hw_session_write (desk->state, "/harbour/new.hoopscene", &seen);
  return TRUE;
}

static void
look_at_session (Desk *desk, Outcome outcome)
{
  HwSceneSeen seen;

  g_assert_true (hw_session_read (desk->state, "/harbour/old.hoopscene", &seen));
}

static void
old_choice (Desk *desk)
{
  g_autofree char *folder = g_build_filename (g_get_user_state_dir (), "hoopwright", NULL);
  g_autofree char *list = g_build_filename (folder, "chosen-files", NULL);

  g_assert_cmpint (g_mkdir_with_parents (folder, 0700), ==, 0);
  put (list, "file:///harbour/old.csv\n");
  put (desk->file, "x_mm,y_mm\n");
}

static gboolean
choose (Desk *desk, GError **error)
{
  arm (desk);
  hw_named_file_choose (desk->file, desk->home);
  return TRUE;
}

static void
look_at_choice (Desk *desk, Outcome outcome)
{
  g_autofree char *list = g_build_filename (g_get_user_state_dir (), "hoopwright", "chosen-files", NULL);
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (list, &text, NULL, NULL));
  g_assert_true (g_str_has_prefix (text, "file:///harbour/old.csv\n"));
  g_assert_true (g_str_has_suffix (text, "\n"));
}

/* What is drawn of a plan, and the stitches of a hooping: by the path's ending. Returns: (transfer full) */
static char *
path_ending_in (Desk *desk, const char *ending)
{
  g_autofree char *name = g_strconcat ("harbour", ending, NULL);

  return g_build_filename (desk->home, name, NULL);
}

static gboolean
draw_anew (Desk *desk, const char *ending, GError **error)
{
  const HwPlanPictureOptions options = { .width = 60, .stage = -1 };
  g_autofree char *path = path_ending_in (desk, ending);

  put (path, "the old picture");
  arm (desk);
  return hw_plan_picture_save (desk->stitched, &options, path, error);
}

static gboolean
draw_svg (Desk *desk, GError **error)
{
  return draw_anew (desk, ".svg", error);
}

static gboolean
draw_png (Desk *desk, GError **error)
{
  return draw_anew (desk, ".png", error);
}

static gboolean
write_needles (Desk *desk, GError **error)
{
  g_autofree char *path = path_ending_in (desk, ".csv");
  g_autoptr (HwHoopingNeedles) needles = hw_hooping_needles_new (desk->stitched, 0, NULL, error);

  g_assert_nonnull (needles);
  put (path, "the old picture");
  arm (desk);
  return hw_hooping_needles_save (needles, path, error);
}

static void
look_at_ending (Desk *desk, Outcome outcome, const char *ending, const char *begins, const char *ends)
{
  g_autofree char *path = path_ending_in (desk, ending);
  g_autofree char *text = NULL;
  gsize length, tail = strlen (ends);
  gboolean old, new;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  old = g_str_equal (text, "the old picture");
  new = length > 100 && memcmp (text, begins, strlen (begins)) == 0
        && memcmp (text + length - tail, ends, tail) == 0;
  g_assert_true (old != new);
  if (outcome != KILLED)
    g_assert_true (new == (outcome == DONE));
}

static void
look_at_svg (Desk *desk, Outcome outcome)
{
  look_at_ending (desk, outcome, ".svg", "<?xml", "</svg>\n");
}

static void
look_at_png (Desk *desk, Outcome outcome)
{
  look_at_ending (desk, outcome, ".png", "\x89PNG", "\xae\x42\x60\x82"); /* the checksum of IEND */
}

static void
look_at_needles (Desk *desk, Outcome outcome)
{
  look_at_ending (desk, outcome, ".csv", "x_mm,y_mm,action,thread", "\n");
}

/* The small picture of the start page. */
static gboolean
paint_small (Desk *desk, GError **error)
{
  g_autofree char *picture = NULL;

  arm (desk);
  picture = hw_scene_picture_file (desk->state, desk->file, 40, error);
  return picture != NULL;
}

static void
look_at_small (Desk *desk, Outcome outcome)
{
  g_autoptr (GDir) dir = g_dir_open (desk->state, 0, NULL);
  const char *name;

  g_assert_true (holds (desk->file, contract));
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (desk->state, name, NULL);
      g_autofree char *text = NULL;
      gsize length;

      if (!g_str_has_suffix (name, ".png"))
        continue;
      g_assert_true (g_file_get_contents (path, &text, &length, NULL));
      g_assert_cmpmem (text + length - 4, 4, "\xae\x42\x60\x82", 4);
    }
}

static gboolean
write_last (Desk *desk, GError **error)
{
  arm (desk);
  hw_session_set_last_scene (desk->state, "/harbour/new.hoopscene");
  return TRUE;
}

static const Way ways[] = {
  { "a-scene-saved-over", old_scene, save_scene, look_at_scene },
  { "a-scene-saved-first", no_scene, save_scene, look_at_first_scene },
  { "work-kept", no_scene, keep_work, look_at_work },
  { "a-window-saves", old_scene_with_states, save_in_window, look_at_window_save },
  { "a-print", old_print, print_anew, look_at_print },
  { "a-list", old_print, list_anew, look_at_list },
  { "a-photo-copied", other_photo, copy_photo, look_at_photo },
  { "where-a-person-was", old_session, write_session, look_at_session },
  { "what-a-person-chose", old_choice, choose, look_at_choice },
  { "a-drawing-of-the-plan", no_scene, draw_svg, look_at_svg },
  { "a-picture-of-the-plan", no_scene, draw_png, look_at_png },
  { "the-stitches-of-a-hooping", no_scene, write_needles, look_at_needles },
  { "a-small-picture", old_scene, paint_small, look_at_small },
  { "which-scene-was-last", old_session, write_last, look_at_session },
};

/* One sentence, that names no line of ours and ends like one. */
static gboolean
is_sentence (const GError *error)
{
  return error != NULL && strlen (error->message) > 20 && strchr (error->message, '\n') == NULL
         && g_str_has_suffix (error->message, ".") && g_utf8_validate (error->message, -1, NULL);
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
          empty (root);
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
  empty (root);
  g_rmdir (root);
  hw_print_job_free (desk.print);
  hw_plan_unref (desk.plan);
  hw_plan_unref (desk.stitched);
  hw_snapshot_unref (desk.scene);
  g_bytes_unref (desk.photo);
}

static gboolean
take_word (int *argc, char **argv, const char *word)
{
  for (int i = 1; i < *argc; i++)
    if (g_str_equal (argv[i], word))
      {
        memmove (argv + i, argv + i + 1, (gsize)(*argc - i) * sizeof *argv);
        (*argc)--;
        return TRUE;
      }
  return FALSE;
}

int
main (int argc, char **argv)
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
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_autofree char *path = g_strconcat ("/saving/", ways[i].name, NULL);

      g_test_add_data_func (path, &ways[i], try_all);
    }
  status = g_test_run ();
  empty (state);
  g_rmdir (state);
  for (guint i = 0; told && i < N_FAULTS; i++)
    g_print ("# %-24s %5u\n", names[i], tried[i]);
  return status;
}
