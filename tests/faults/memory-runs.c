#include "memory-runs.h"

#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "../formats/scene-texts.h"
#include "../folders.h"
#include "formats/kept-work.h"
#include "memory.h"
#include "paper/print-job.h"
#include "words.h"
#include "workbench/photo-file.h"

#define EXIT_NO_SENTENCE 97
#define EXIT_NOT_WHOLE 98

static void
must (gboolean whole)
{
  if (!whole)
    _exit (EXIT_NOT_WHOLE);
}

/* Artwork that there is no memory for leaves a motif with its outline and a sentence. */
static gboolean
open_scene (const MemoryDesk *desk, GError **error)
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
      must (motif->needles == NULL || motif->needles->n_stitches == DESK_ROWS);
    }
  return TRUE;
}

static gboolean
save_scene (const MemoryDesk *desk, GError **error)
{
  return hw_scene_file_save (desk->large, desk->saved, NULL, error);
}

static gboolean
keep_work (const MemoryDesk *desk, GError **error)
{
  g_autoptr (HwWorkPlace) place = hw_work_place_new (desk->work, error);

  return place != NULL && hw_work_place_keep (place, desk->large, NULL, NULL, 1000, error);
}

static gboolean
plan_scene (const MemoryDesk *desk, GError **error)
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
print_scene (const MemoryDesk *desk, GError **error)
{
  const HwPaperOptions options = { HW_PAPER_TEMPLATES, hw_sheet_size_find ("A4"), HW_UNIT_MM, 10, 10 };
  g_autoptr (HwPrintJob) job = hw_print_job_new (desk->plan, &options, error);

  return job != NULL && hw_print_jobs_write_pdf (&job, 1, "Garden", desk->saved, NULL, error);
}

static gboolean
read_photo (const MemoryDesk *desk, GError **error)
{
  g_autoptr (GBytes) bytes = hw_photo_file_read (desk->photo, error);
  g_autoptr (HwPicture) picture = bytes != NULL ? hw_picture_load_bytes (bytes, "quay.png", error) : NULL;

  must (picture == NULL || (picture->width == 900 && picture->height == 700));
  return picture != NULL;
}

const MemoryCase memory_cases[] = {
  { "opening", open_scene, TRUE, TRUE },         { "saving", save_scene, TRUE, TRUE },
  { "keeping work", keep_work, TRUE, TRUE },     { "planning", plan_scene, FALSE, TRUE },
  { "printing", print_scene, TRUE, TRUE, TRUE }, { "a photo", read_photo, TRUE },
};

const guint n_memory_cases = G_N_ELEMENTS (memory_cases);

static void
no_core (void)
{
  setrlimit (RLIMIT_CORE, &(struct rlimit){ 0, 0 });
}

void
memory_run_and_exit (MemoryWay way, const MemoryDesk *desk)
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
words_of (const MemoryDesk *desk)
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

End
memory_end_of (const MemoryDesk *desk, pid_t child, gboolean *reached)
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

pid_t
memory_begin (const MemoryDesk *desk)
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

void
memory_set_up (const MemoryDesk *desk)
{
  g_assert_true (g_file_set_contents (desk->saved, contract, -1, NULL));
  folder_empty (desk->work);
}

static gboolean
holds (const char *path, const char *text, gsize length)
{
  g_autofree char *found = NULL;
  gsize there;

  return g_file_get_contents (path, &found, &there, NULL) && there == length
         && memcmp (found, text, length) == 0;
}

void
memory_look (const MemoryDesk *desk, const MemoryCase *what, End end)
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
