/* Printing by command: a scene is read, planned, and written as a PDF of the asked-for kind. */
#include "command-paper.h"

#include "../geometry/language.h"
#include "../paper/test-sheet.h"
#include "../planning/parts-hoopings.h"
#include "command-scene.h"

#define SHEET_MARGIN 10.0 /* mm most printers leave white */
#define TILE_OVERLAP 10.0 /* mm */

typedef struct
{
  char *output;
  char *paper;
  char *part;
  char *language;
  char *measured;
  char *look;
  gboolean mirrored, nested;
  gboolean others[HW_MOST_OTHER_PAPERS];
  gboolean test_sheet; /* one of the others, that stands alone */
} PaperWords;

static void
paper_words_clear (PaperWords *words)
{
  g_free (words->output);
  g_free (words->paper);
  g_free (words->part);
  g_free (words->language);
  g_free (words->measured);
  g_free (words->look);
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

/* FALSE when two papers are asked for, or something that the paper asked for does not have. */
static gboolean
read_kind (const char *name, const HwPaperCommand *command, const PaperWords *words, HwPaperKind *kind)
{
  const char *asked = NULL;

  *kind = command->kind;
  for (guint i = 0; i < HW_MOST_OTHER_PAPERS && command->others[i].name != NULL; i++)
    if (command->others[i].kind == HW_PAPER_TEST_SHEET ? words->test_sheet : words->others[i])
      {
        if (asked != NULL)
          {
            hw_command_complain (
                _ ("%s: --%s and --%s are papers of their own; please ask for one at a time."), name, asked,
                command->others[i].name);
            return FALSE;
          }
        asked = command->others[i].name;
        *kind = command->others[i].kind;
      }
  if (words->nested && *kind != HW_PAPER_TEMPLATES)
    {
      hw_command_complain (_ ("--nested lays several templates of motifs on a sheet; it goes with no --%s."),
                           asked);
      return FALSE;
    }
  if ((words->mirrored || words->look != NULL) && (*kind == HW_PAPER_LAYOUT || *kind == HW_PAPER_TEST_SHEET))
    {
      hw_command_complain (_ ("%s is for templates; it goes with no --%s."),
                           words->mirrored ? "--mirrored" : "--look", asked);
      return FALSE;
    }
  if (words->part != NULL && *kind == HW_PAPER_TEST_SHEET)
    {
      hw_command_complain (_ ("--part: a test sheet shows no part of a scene."));
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_look (const PaperWords *words, HwTemplateLook *look)
{
  static const char *const looks[] = { "pale", "outline", "stitches" };

  for (guint i = 0; i < G_N_ELEMENTS (looks); i++)
    if (words->look == NULL || g_str_equal (words->look, looks[i]))
      {
        *look = (HwTemplateLook)i;
        return TRUE;
      }
  hw_command_complain (_ ("--look: expected pale, outline or stitches, found \"%s\"."), words->look);
  return FALSE;
}

/* "de or en": those there are. Returns: (transfer full) */
static char *
language_names (void)
{
  g_autoptr (GPtrArray) languages = hw_language_list ();
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < languages->len; i++)
    g_string_append_printf (names, "%s%s",
                            i == 0                    ? ""
                            : i + 1 == languages->len ? _ (" or ")
                                                      : ", ",
                            hw_language_code (g_ptr_array_index (languages, i)));
  return g_string_free (names, FALSE);
}

static gboolean
read_language (const PaperWords *words)
{
  g_autoptr (GError) error = NULL;

  if (words->language == NULL || hw_language_open (words->language, &error) != NULL)
    return TRUE;
  hw_command_complain ("--language: %s", error->message);
  return FALSE;
}

/* "181.5,239": what the lines of the test sheet measured. */
static gboolean
read_measured (const PaperWords *words, HwPaperOptions *options)
{
  g_auto (GStrv) lengths = NULL;
  g_autoptr (GError) error = NULL;
  double across = 0, down = 0;

  if (words->measured == NULL)
    return TRUE;
  lengths = g_strsplit (words->measured, ",", -1);
  if (g_strv_length (lengths) != 2 || !hw_length_parse (lengths[0], options->unit, &across)
      || !hw_length_parse (lengths[1], options->unit, &down) || !(across > 0) || !(down > 0))
    {
      hw_command_complain (
          _ ("--measured: expected the lengths of the line across and of the line down with a comma "
             "between, as in 181.5,239, found \"%s\"."),
          words->measured);
      return FALSE;
    }
  if (hw_test_sheet_stretch (options->sheet, options->unit, across, down, &options->stretch_x,
                             &options->stretch_y, &error))
    return TRUE;
  hw_command_complain ("--measured: %s", error->message);
  return FALSE;
}

static gboolean
read_options (const char *name,
              const HwPaperCommand *command,
              const PaperWords *words,
              HwUnit unit,
              HwPaperOptions *options)
{
  *options = (HwPaperOptions){ .unit = unit,
                               .sheet_margin = SHEET_MARGIN,
                               .tile_overlap = TILE_OVERLAP,
                               .mirrored = words->mirrored,
                               .nested = words->nested,
                               .language = words->language };
  if (words->output == NULL)
    {
      hw_command_complain (_ ("%s: name the file to write with -o FILE.pdf."), name);
      return FALSE;
    }
  options->sheet = read_paper (name, words);
  return options->sheet != NULL && read_kind (name, command, words, &options->kind)
         && read_look (words, &options->look) && read_measured (words, options) && read_language (words);
}

static gboolean
print (const HwPlan *plan, const HwPaperOptions *options, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwPrintJob) job = hw_print_job_new (plan, options, &error);
  g_autofree char *title = job != NULL ? hw_print_job_title (job) : NULL;

  if (job != NULL && hw_print_jobs_write_pdf (&job, 1, title, path, NULL, &error))
    return TRUE;
  hw_command_complain ("%s", error->message);
  return FALSE;
}

static int
print_scene (const HwCommandLine *line, const PaperWords *words, HwPaperOptions *options)
{
  g_autoptr (HwSnapshot) snapshot = hw_command_load (line);
  g_autoptr (HwPlan) plan = NULL;
  int status;

  if (snapshot == NULL || !hw_command_find_part (words->part, snapshot, &options->part))
    return HW_EXIT_BAD;
  plan = hw_command_make_plan (line, snapshot);
  if (!print (plan, options, words->output))
    return HW_EXIT_BAD;
  status = hw_command_exit_status (plan);
  if (status == HW_EXIT_UNPLANNABLE)
    hw_command_print_problems (plan, stderr);
  return status;
}

static void
add_entry (GArray *entries,
           const char *name,
           char letter,
           GOptionArg type,
           gpointer to,
           const char *help,
           const char *value)
{
  const GOptionEntry entry = { name, letter, 0, type, to, help, value };

  g_array_append_val (entries, entry);
}

/* Returns: (transfer full): ended by a NULL name */
static GArray *
make_entries (const HwPaperCommand *command,
              PaperWords *words,
              const char *paper_help,
              const char *language_help)
{
  GArray *entries = g_array_new (TRUE, TRUE, sizeof (GOptionEntry));

  add_entry (entries, "output", 'o', G_OPTION_ARG_FILENAME, &words->output, N_ ("The file to write"),
             N_ ("FILE.pdf"));
  add_entry (entries, "part", 0, G_OPTION_ARG_STRING, &words->part,
             N_ ("Only what is stitched with this part of the scene, under the numbers of the whole plan"),
             N_ ("NAME"));
  add_entry (entries, "paper", 'p', G_OPTION_ARG_STRING, &words->paper, paper_help, N_ ("NAME"));
  for (guint i = 0; i < HW_MOST_OTHER_PAPERS && command->others[i].name != NULL; i++)
    add_entry (entries, command->others[i].name, 0, G_OPTION_ARG_NONE,
               command->others[i].kind == HW_PAPER_TEST_SHEET ? &words->test_sheet : &words->others[i],
               command->others[i].help, NULL);
  if (command->of_templates)
    {
      add_entry (
          entries, "look", 0, G_OPTION_ARG_STRING, &words->look,
          N_ ("How much a template shows: its artwork pale, its outline alone, or every stitch (pale)"),
          N_ ("pale|outline|stitches"));
      add_entry (entries, "mirrored", 0, G_OPTION_ARG_NONE, &words->mirrored,
                 N_ ("Templates as seen from the back of the cloth"), NULL);
      add_entry (entries, "nested", 0, G_OPTION_ARG_NONE, &words->nested,
                 N_ ("Several small templates on a sheet, with lines to cut along"), NULL);
    }
  add_entry (entries, "language", 0, G_OPTION_ARG_STRING, &words->language, language_help, N_ ("CODE"));
  add_entry (entries, "measured", 0, G_OPTION_ARG_STRING, &words->measured,
             N_ ("Make up for a printer that drew the test sheet's lines this long"), N_ ("ACROSS,DOWN"));
  return entries;
}

int
hw_command_print (int argc, char **argv, const HwPaperCommand *command)
{
  g_auto (HwCommandLine) line = { 0 };
  g_auto (PaperWords) words = { 0 };
  g_autofree char *names = sheet_names ();
  g_autofree char *paper_help = g_strdup_printf (_ ("The sheet: %s (A4)"), names);
  g_autofree char *languages = language_names ();
  g_autofree char *language_help
      = g_strdup_printf (_ ("What the paper speaks: %s (as the screen)"), languages);
  g_autoptr (GArray) entries = make_entries (command, &words, paper_help, language_help);
  HwPaperOptions options;
  int status;

  if (!hw_command_line_read_unless (&line, argc, argv, &words.test_sheet,
                                    (const GOptionEntry *)(void *)entries->data, command->summary,
                                    command->more, &status))
    return status;
  if (!read_options (argv[0], command, &words, line.unit, &options))
    return HW_EXIT_BAD;
  if (options.kind == HW_PAPER_TEST_SHEET)
    return print (NULL, &options, words.output) ? HW_EXIT_PLANNED : HW_EXIT_BAD;
  return print_scene (&line, &words, &options);
}
