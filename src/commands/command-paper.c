/* Printing by command: a scene is read, planned, and written as a PDF of the asked-for kind. */
#include "command-paper.h"

#include "../geometry/language.h"
#include "../planning/parts-hoopings.h"
#include "command-scene.h"

#define SHEET_MARGIN 10.0 /* mm most printers leave white */
#define TILE_OVERLAP 10.0 /* mm */

typedef struct
{
  char *output;
  char *paper;
  char *part;
  gboolean other;
} PaperWords;

static void
paper_words_clear (PaperWords *words)
{
  g_free (words->output);
  g_free (words->paper);
  g_free (words->part);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PaperWords, paper_words_clear)

/* "A4, Letter, A3 or Legal" */
static char *
sheet_names (void)
{
  GString *names = g_string_new (NULL);

  for (const HwSheetSize *size = hw_sheet_sizes (); size->name != NULL; size++)
    g_string_append_printf (names, "%s%s",
                            names->len == 0        ? ""
                            : size[1].name == NULL ? _ (" or ")
                                                   : ", ",
                            size->name);

  return g_string_free (names, FALSE);
}

static const HwSheetSize *
read_paper (const char *command, const PaperWords *words)
{
  const HwSheetSize *sheet = hw_sheet_size_find (words->paper != NULL ? words->paper : "A4");
  g_autofree char *names = NULL;

  if (sheet != NULL)
    return sheet;

  names = sheet_names ();
  hw_command_complain (_ ("--paper: expected %s, found \"%s\"."), names, words->paper);
  return NULL;
}

/* FALSE when the scene has no such part. */
static gboolean
read_part (const PaperWords *words, const HwSnapshot *snapshot, guint *part)
{
  g_autoptr (GString) names = g_string_new (NULL);
  int found = words->part != NULL ? hw_snapshot_find_part (snapshot, words->part) : -1;

  *part = (guint)(found + 1);
  if (words->part == NULL || found >= 0)
    return TRUE;
  for (guint p = 0; p < snapshot->parts->len; p++)
    g_string_append_printf (names, "%s\"%s\"",
                            p == 0                          ? ""
                            : p + 1 == snapshot->parts->len ? _ (" or ")
                                                            : ", ",
                            ((const HwPart *)g_ptr_array_index (snapshot->parts, p))->name);
  if (names->len > 0)
    hw_command_complain (_ ("--part: expected %s, found \"%s\"."), names->str, words->part);
  else
    hw_command_complain (_ ("--part: the scene is not divided into parts, so there is no part \"%s\"."),
                         words->part);
  return FALSE;
}

static int
print_plan (const HwPlan *plan, const HwPaperOptions *options, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwPrintJob) job = hw_print_job_new (plan, options, &error);
  const char *name = plan->snapshot->name != NULL ? plan->snapshot->name : _ ("Unnamed scene");
  const char *kinds[] = { _ ("templates"), _ ("layout"), _ ("bench sheet"), _ ("log of the days") };
  g_autofree char *title = g_strdup_printf ("%s, %s", name, kinds[options->kind]);

  if (job == NULL || !hw_print_jobs_write_pdf (&job, 1, title, path, NULL, &error))
    return hw_command_complain ("%s", error->message);

  return hw_command_exit_status (plan);
}

int
hw_command_print (
    int argc, char **argv, HwPaperKind kind, const HwOtherPaper *other, const char *summary, const char *more)
{
  g_auto (HwCommandLine) line = { 0 };
  g_auto (PaperWords) words = { 0 };
  g_autofree char *names = sheet_names ();
  g_autofree char *paper_help = g_strdup_printf (_ ("The sheet: %s (A4)"), names);
  const GOptionEntry extra[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &words.output, N_ ("The file to write"), N_ ("FILE.pdf") },
    { "part", 0, 0, G_OPTION_ARG_STRING, &words.part,
      N_ ("Only what is stitched with this part of the scene, under the numbers of the whole plan"),
      N_ ("NAME") },
    { "paper", 'p', 0, G_OPTION_ARG_STRING, &words.paper, paper_help, N_ ("NAME") },
    { other != NULL ? other->name : NULL, 0, 0, G_OPTION_ARG_NONE, &words.other,
      other != NULL ? other->help : NULL, NULL },
    { NULL },
  };
  g_autoptr (HwSnapshot) snapshot = NULL;
  g_autoptr (HwPlan) plan = NULL;
  HwPaperOptions options = { .kind = kind, .sheet_margin = SHEET_MARGIN, .tile_overlap = TILE_OVERLAP };
  int status;

  if (!hw_command_line_read (&line, argc, argv, extra, summary, more, &status))
    return status;
  if (words.output == NULL)
    return hw_command_complain (_ ("%s: name the file to write with -o FILE.pdf."), argv[0]);
  options.sheet = read_paper (argv[0], &words);
  if (options.sheet == NULL)
    return HW_EXIT_BAD;
  options.unit = line.unit;
  if (words.other)
    options.kind = other->kind;

  snapshot = hw_command_load (&line);
  if (snapshot == NULL)
    return HW_EXIT_BAD;
  if (!read_part (&words, snapshot, &options.part))
    return HW_EXIT_BAD;
  plan = hw_command_make_plan (&line, snapshot);
  status = print_plan (plan, &options, words.output);
  if (status == HW_EXIT_UNPLANNABLE)
    hw_command_print_problems (plan, stderr);

  return status;
}
