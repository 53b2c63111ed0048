/* A system short of memory: each large request fails in turn, once or from then on, while a scene is opened, saved, planned, printed, its photo read and its work
 * kept. What was saved is whole whatever happens. The call answers with one sentence, or does without, or the program ends by what GLib and other libraries
 * do without memory: with a line that says so. Small requests are GLib's own affair and always end so: what then is left is told by the last tests here.
 * `test-memory --faults-told` prints how many requests there were. */
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <malloc.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../formats/scene-texts.h"
#include "../paper/garden.h"
#include "../workbench/bench-fixture.h"
#include "emptied.h"
#include "formats/kept-work.h"
#include "memory.h"
#include "paper/print-job.h"
#include "planning/planner.h"
#include "workbench/photo-file.h"
#include "workbench/work-keeper.h"

#define LARGE ((gsize)256 << 10)
#define MOST_REQUESTS 3000
#define ROWS 60000
#define N_MOTIFS 60
#define EXIT_NO_SENTENCE 97
#define EXIT_NOT_WHOLE 98

typedef enum
{
  WENT_WELL,
  SENTENCE,
  ENDED,
  CRASHED,
  N_ENDS
} End;

typedef struct
{
  char *root, *scene, *saved, *work, *photo, *said;
  HwSnapshot *large; /* with artwork, not saved */
  HwSnapshot *to_plan;
  HwPlan *plan;
} Desk;

/* FALSE with one sentence when it could not be done; ends the process by itself when what it gave is not whole. */
typedef gboolean (*Way) (const Desk *desk, GError **error);

typedef struct
{
  const char *name;
  Way run;
  gboolean answers; /* at least once with a sentence */
  gboolean may_end; /* in a library */
  gboolean
      may_crash; /* in a library that does so without memory: cairo 1.16, when a picture that a PDF still needs cannot be copied */
} Case;

static gboolean told;
static GString *table;

static void
must (gboolean whole)
{
  if (!whole)
    _exit (EXIT_NOT_WHOLE);
}

/* Artwork that there is no memory for leaves a motif with its outline and a sentence. */
static gboolean
open_scene (const Desk *desk, GError **error)
{
  g_autoptr (HwSnapshot) scene = hw_scene_file_load (desk->scene, error);

  if (scene == NULL)
    return FALSE;
  memory_disarm ();
  must (scene->motifs->len == 5);
  for (guint i = 0; i < scene->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (scene, i);
      gboolean shows = motif->needles != NULL || motif->picture != NULL;

      must (shows != (motif->artwork_trouble != NULL));
      must (motif->needles == NULL || motif->needles->n_stitches == ROWS);
    }
  return TRUE;
}

static gboolean
save_scene (const Desk *desk, GError **error)
{
  return hw_scene_file_save (desk->large, desk->saved, NULL, error);
}

static gboolean
keep_work (const Desk *desk, GError **error)
{
  g_autoptr (HwWorkPlace) place = hw_work_place_new (desk->work, error);

  return place != NULL && hw_work_place_keep (place, desk->large, NULL, NULL, 1000, error);
}

static gboolean
plan_scene (const Desk *desk, GError **error)
{
  const HwPlanOptions options = { .seconds = 0.1 };
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlan *plan = hw_planner_plan (planner, desk->to_plan, &options, NULL, NULL, NULL);
  g_autoptr (GError) wrong = NULL;

  must (plan != NULL);
  memory_disarm ();
  must (hw_plan_verify (plan, &wrong));
  hw_plan_unref (plan);
  return TRUE;
}

static gboolean
print_scene (const Desk *desk, GError **error)
{
  const HwPaperOptions options = { HW_PAPER_TEMPLATES, hw_sheet_size_find ("A4"), HW_UNIT_MM, 10, 10 };
  g_autoptr (HwPrintJob) job = hw_print_job_new (desk->plan, &options, error);

  return job != NULL && hw_print_jobs_write_pdf (&job, 1, "Garden", desk->saved, NULL, error);
}

static gboolean
read_photo (const Desk *desk, GError **error)
{
  g_autoptr (GBytes) bytes = hw_photo_file_read (desk->photo, error);
  g_autoptr (HwPicture) picture = bytes != NULL ? hw_picture_load_bytes (bytes, "quay.png", error) : NULL;

  must (picture == NULL || (picture->width == 900 && picture->height == 700));
  return picture != NULL;
}

static const Case cases[] = {
  { "opening", open_scene, TRUE, TRUE },         { "saving", save_scene, TRUE, TRUE },
  { "keeping work", keep_work, TRUE, TRUE },     { "planning", plan_scene, FALSE, TRUE },
  { "printing", print_scene, TRUE, TRUE, TRUE }, { "a photo", read_photo, TRUE },
};

/* --- The desk */

static char *
put_bytes (Desk *desk, const char *name, const char *bytes, gssize length)
{
  char *path = g_build_filename (desk->root, name, NULL);

  g_assert_true (g_file_set_contents (path, bytes, length, NULL));
  return path;
}

static void
put_corpus (Desk *desk, const char *name)
{
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "fuzz", "corpus", name, NULL);
  g_autofree char *base = g_path_get_basename (name);
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (from, &bytes, &length, NULL));
  g_free (put_bytes (desk, base, bytes, (gssize)length));
}

static char *
put_needles (Desk *desk)
{
  g_autoptr (GString) text = g_string_new ("x_mm,y_mm,action,thread\n");

  for (guint i = 0; i < ROWS; i++)
    g_string_append_printf (text, "%d,%d,stitch,moss\n", (int)(i % 40) - 20, (int)(i / 40 % 40) - 20);
  g_string_append (text, "0,0,end,moss\n");
  return put_bytes (desk, "rows.csv", text->str, -1);
}

/* Noise, so that the file is as large as the picture. */
static char *
put_photo (Desk *desk)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 900, 700);
  g_autofree char *path = g_build_filename (desk->root, "quay.png", NULL);
  GRand *rand = g_rand_new_with_seed (11);

  for (gsize i = 0; i < gdk_pixbuf_get_byte_length (pixbuf); i++)
    gdk_pixbuf_get_pixels (pixbuf)[i] = (guchar)g_rand_int (rand);
  g_rand_free (rand);
  g_assert_true (gdk_pixbuf_save (pixbuf, path, "png", NULL, NULL));
  return g_steal_pointer (&path);
}

static char *
put_scene (Desk *desk, const char *photo)
{
  static const char *const artwork[][2] = { { "rows.csv", "needles" },
                                            { "leaf.svg", "svg" },
                                            { "alpha.png", "png" },
                                            { "plum.jpg", "jpeg" },
                                            { "slip.pdf", "pdf" } };
  g_autofree char *bytes = NULL;
  g_autofree char *base64 = NULL;
  g_autoptr (GString) text = g_string_new (
      "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Quay\", \"fabric\": {\"width\": 700, "
      "\"height\": 540}, \"edge_line\": {\"points\": [[5, 5], [695, 5], [695, 535], [5, 535]]}, \"hoops\": "
      "[{\"id\": \"h1\", \"field\": [130, 180]}], \"motifs\": [");
  gsize length;

  for (guint i = 0; i < G_N_ELEMENTS (artwork); i++)
    g_string_append_printf (
        text,
        "%s{\"id\": \"m%u\", \"name\": \"Leaf %u\", \"outline\": [[[-20, -20], [20, -20], [20, 20], [-20, "
        "20]]], \"position\": [%u, 100], \"artwork\": {\"path\": \"%s\", \"kind\": \"%s\"}, \"threads\": "
        "[{\"name\": \"moss\", \"colour\": \"#335522\", \"stitches\": 1200}]}",
        i > 0 ? ", " : "", i, i, 60 + 110 * i, artwork[i][0], artwork[i][1]);
  g_assert_true (g_file_get_contents (photo, &bytes, &length, NULL));
  base64 = g_base64_encode ((const guchar *)bytes, length);
  g_string_append_printf (
      text,
      "], \"photo\": {\"stack\": [{\"name\": \"Cloth\", \"data\": \"%s\", \"points\": []}], \"shown\": -1}}",
      base64);
  return put_bytes (desk, "quay.hoopscene", text->str, -1);
}

static HwSnapshot *
many_motifs (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwSnapshot *scene = hw_scene_snapshot (hw_bench_get_scene (bench));
  HwSnapshot *copy = hw_snapshot_copy (scene);

  hw_snapshot_unref (scene);
  for (guint i = 0; i < N_MOTIFS; i++)
    {
      g_autofree char *id = g_strdup_printf ("n%u", i);
      g_ptr_array_add (copy->motifs, orchard_motif (id, "Pear", 60 + 55 * (i % 10), 60 + 55 * (i / 10)));
    }
  return copy;
}

static Desk *
desk_new (void)
{
  Desk *desk = g_new0 (Desk, 1);

  desk->root = g_dir_make_tmp ("hw-memory-XXXXXX", NULL);
  for (const char *const *name
       = (const char *const[]){ "artwork-svg/leaf.svg", "artwork-png/alpha.png", "artwork-jpeg/plum.jpg",
                                "artwork-pdf/slip.pdf", NULL };
       *name != NULL; name++)
    put_corpus (desk, *name);
  g_free (put_needles (desk));
  desk->photo = put_photo (desk);
  desk->scene = put_scene (desk, desk->photo);
  desk->saved = g_build_filename (desk->root, "saved", NULL);
  desk->work = g_build_filename (desk->root, "work", NULL);
  desk->said = g_build_filename (desk->root, "said", NULL);
  g_assert_cmpint (g_mkdir (desk->work, 0700), ==, 0);
  desk->large = hw_scene_file_load_awaiting (desk->scene, NULL);
  g_assert_nonnull (desk->large);
  desk->to_plan = many_motifs ();
  desk->plan = garden_plan_large (2, 30000);
  return desk;
}

/* --- One run, in a process of its own */

static gboolean
is_sentence (const GError *error)
{
  return error != NULL && strlen (error->message) > 20 && strchr (error->message, '\n') == NULL
         && g_str_has_suffix (error->message, ".") && g_utf8_validate (error->message, -1, NULL);
}

static void
no_core (void)
{
  setrlimit (RLIMIT_CORE, &(struct rlimit){ 0, 0 });
}

static void
run_and_exit (Way way, const Desk *desk)
{
  g_autoptr (GError) error = NULL;
  gboolean good = way (desk, &error), reached = memory_disarm ();

  if (!good && !is_sentence (error))
    {
      g_printerr ("%s\n", error != NULL ? error->message : "no error");
      _exit (EXIT_NO_SENTENCE);
    }
  if (error != NULL)
    g_printerr ("%s\n", error->message);
  _exit ((good ? WENT_WELL : SENTENCE) | (reached ? 64 : 0));
}

static char *
words_of (const Desk *desk)
{
  char *said = NULL;

  g_assert_true (g_file_get_contents (desk->said, &said, NULL, NULL));
  return said;
}

/* That it was for want of memory: GLib's line, Rust's, C++'s. */
static gboolean
says_no_memory (const char *said)
{
  return strstr (said, "failed to allocate") != NULL || strstr (said, "memory allocation of") != NULL
         || strstr (said, "bad_alloc") != NULL || strstr (said, "out of memory") != NULL
         || strstr (said, "Out of memory") != NULL || strstr (said, "Error creating thread") != NULL;
}

static End
end_of (const Desk *desk, pid_t child, gboolean *reached)
{
  g_autofree char *said = NULL;
  int status;

  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  said = words_of (desk);
  *reached = TRUE;
  if (WIFSIGNALED (status) && WTERMSIG (status) == SIGSEGV)
    return CRASHED;
  if (WIFSIGNALED (status))
    {
      if ((WTERMSIG (status) != SIGTRAP && WTERMSIG (status) != SIGABRT) || !says_no_memory (said))
        g_error ("ended by signal %d: %s", WTERMSIG (status), said);
      return ENDED;
    }
  if ((WEXITSTATUS (status) & 63) >= ENDED)
    g_error ("ended with %d: %s", WEXITSTATUS (status), said);
  *reached = (WEXITSTATUS (status) & 64) != 0;
  return (End)(WEXITSTATUS (status) & 63);
}

static pid_t
begin (const Desk *desk)
{
  pid_t child = fork ();

  if (child == 0)
    {
      no_core ();
      if (freopen (desk->said, "w", stderr) == NULL || dup2 (fileno (stderr), STDOUT_FILENO) < 0)
        _exit (EXIT_NOT_WHOLE);
    }
  return child;
}

/* --- Each request in turn */

static gboolean
holds (const char *path, const char *text, gsize length)
{
  g_autofree char *found = NULL;
  gsize there;

  return g_file_get_contents (path, &found, &there, NULL) && there == length
         && memcmp (found, text, length) == 0;
}

/* What was saved before is what is there, unless all of something new is. */
static void
look (const Desk *desk, const Case *what, End end)
{
  if (what->run == save_scene)
    {
      g_autofree char *new = hw_scene_file_text (desk->large);
      g_assert_true (
          holds (desk->saved, end == WENT_WELL ? new : contract, strlen (end == WENT_WELL ? new : contract)));
    }
  else if (what->run == print_scene && end != WENT_WELL)
    {
      g_autofree char *text = NULL;
      gsize length;

      g_assert_true (g_file_get_contents (desk->saved, &text, &length, NULL));
      g_assert_true (g_str_equal (text, contract) || memcmp (text + length - 6, "%%EOF\n", 6) == 0);
    }
  else if (what->run == keep_work)
    {
      g_autoptr (GPtrArray) left = hw_left_work_list (desk->work);

      g_assert_cmpuint (left->len, ==, end == WENT_WELL ? 1 : 0);
    }
}

static void
each_request_fails (gconstpointer data)
{
  const Case *what = data;
  Desk *desk = desk_new ();
  guint ends[N_ENDS] = { 0 }, requests = 0;

  for (MemoryFault fault = MEMORY_ONCE; fault <= MEMORY_FROM_THEN_ON; fault++)
    {
      gboolean reached = TRUE;

      for (guint n = 1; reached; n++)
        {
          pid_t child;
          End end;

          g_assert_cmpuint (n, <, MOST_REQUESTS);
          g_assert_true (g_file_set_contents (desk->saved, contract, -1, NULL));
          empty (desk->work);
          child = begin (desk);
          if (child == 0)
            {
              memory_arm (fault, n, LARGE);
              run_and_exit (what->run, desk);
            }
          end = end_of (desk, child, &reached);
          g_test_message ("%s, request %u, %d: %d", what->name, n, fault, end);
          g_assert_true (end != CRASHED || what->may_crash);
          g_assert_true (end != ENDED || what->may_end);
          look (desk, what, end);
          if (!reached)
            {
              g_assert_cmpint (end, ==, WENT_WELL);
              break;
            }
          requests++;
          ends[end]++;
        }
    }
  g_assert_true (!what->answers || ends[SENTENCE] > 0);
  g_string_append_printf (table, "# %-14s %18u %10u %10u %10u %10u\n", what->name, requests, ends[WENT_WELL],
                          ends[SENTENCE], ends[ENDED], ends[CRASHED]);
  empty (desk->root);
  g_rmdir (desk->root);
}

/* --- What is left of unsaved work */

static guint
left_at (const Desk *desk, double *x)
{
  g_autoptr (GPtrArray) left = hw_left_work_list (desk->work);
  g_autoptr (HwSnapshot) scene = NULL;

  if (left->len == 0)
    return 0;
  scene = hw_left_work_read (left->pdata[0], NULL);
  g_assert_nonnull (scene);
  *x = hw_snapshot_motif (scene, 0)->placement.position.x;
  return left->len;
}

static gboolean
is_kept (const Desk *desk)
{
  g_autoptr (GDir) dir = g_dir_open (desk->work, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".hoopwork"))
      return TRUE;
  return FALSE;
}

static gboolean
over_cb (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
run_for (guint ms)
{
  gboolean over = FALSE;

  g_timeout_add (ms, over_cb, &over);
  while (!over)
    g_main_context_iteration (NULL, TRUE);
}

/* Moves a motif to 110, waits until that is kept, moves it to 120, and is then short of memory for good. */
static void
work_until_the_end (const Desk *desk, guint request)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwWorkKeeper *keeper = hw_work_keeper_new (bench, desk->work, 0.02, NULL, NULL);

  hw_bench_select_only (bench, "m1");
  hw_bench_nudge (bench, 10, 0);
  while (!is_kept (desk))
    run_for (5);
  run_for (50); /* the thread that wrote has ended */
  hw_bench_nudge (bench, 10, 0);
  memory_arm (MEMORY_FROM_THEN_ON, request, 1);
  run_for (2000);
  hw_work_keeper_free (keeper, FALSE);
  _exit (WENT_WELL);
}

/* However far it comes with what it was about to keep, what was kept before is there. */
static void
an_end_for_want_of_memory_loses_the_last_interval_at_most (void)
{
  static const guint requests[] = { 1, 2, 5, 10, 20, 40, 80, 120, 160, 200, 250, 300, 400, 600, 900 };
  Desk *desk = desk_new ();
  guint ended = 0, newest = 0;

  for (guint i = 0; i < G_N_ELEMENTS (requests); i++)
    {
      gboolean reached;
      pid_t child;
      double x = 0;

      empty (desk->work);
      child = begin (desk);
      if (child == 0)
        work_until_the_end (desk, requests[i]);
      ended += end_of (desk, child, &reached) != WENT_WELL; /* without any memory GLib cannot even say so */
      g_assert_cmpuint (left_at (desk, &x), ==, 1);
      g_assert_true (x == 110 || x == 120);
      newest += x == 120;
    }
  g_assert_cmpuint (ended, >=, 5);
  g_assert_cmpuint (newest, >, 0);
  empty (desk->root);
  g_rmdir (desk->root);
}

/* --- A bound that the system itself holds */

static gsize
taken_now (void)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents ("/proc/self/statm", &text, NULL, NULL));
  return (gsize)g_ascii_strtoull (text, NULL, 10) * (gsize)sysconf (_SC_PAGESIZE);
}

static void
a_bound_on_the_address_space_is_borne (gconstpointer data)
{
  const Case *what = data;
  Desk *desk = desk_new ();
  End last = ENDED;

  for (gsize room = 2 << 20; room <= (gsize)1 << 30; room *= 2)
    {
      gboolean reached;
      pid_t child;

      g_assert_true (g_file_set_contents (desk->saved, contract, -1, NULL));
      empty (desk->work);
      child = begin (desk);
      if (child == 0)
        {
          rlim_t most;

          malloc_trim (0); /* what the tests before gave back */
          most = taken_now () + room;

          setrlimit (RLIMIT_AS, &(struct rlimit){ most, most });
          run_and_exit (what->run, desk);
        }
      last = end_of (desk, child, &reached);
      g_test_message ("%s within %" G_GSIZE_FORMAT " MB: %d", what->name, room >> 20, last);
      g_assert_true (last != CRASHED || what->may_crash);
      look (desk, what, last);
    }
  g_assert_cmpint (last, ==, WENT_WELL);
  empty (desk->root);
  g_rmdir (desk->root);
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
  int status;

  told = take_word (&argc, argv, "--faults-told");
  g_test_init (&argc, &argv, NULL);
  table = g_string_new ("# a large request fails while  tried  went well   sentence      ended    crashed\n");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/memory/", cases[i].name, NULL);

      g_strdelimit (path, " ", '-');
      g_test_add_data_func (path, &cases[i], each_request_fails);
    }
  g_test_add_func ("/memory/an-end-loses-the-last-interval-at-most",
                   an_end_for_want_of_memory_loses_the_last_interval_at_most);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/memory/bounded/", cases[i].name, NULL);

      g_strdelimit (path, " ", '-');
      g_test_add_data_func (path, &cases[i], a_bound_on_the_address_space_is_borne);
    }
  status = g_test_run ();
  if (told)
    g_print ("%s", table->str);
  return status;
}
