/* hoopwright lists: hoopings, threads, marks and what to buy as tables, for a spreadsheet. */
#include "command-scene.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

#include "../formats/lists-csv.h"
#include "../geometry/language.h"

typedef struct
{
  char *output;
  char *only;
} ListWords;

static void
list_words_clear (ListWords *words)
{
  g_free (words->output);
  g_free (words->only);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (ListWords, list_words_clear)

/* only: the one that is asked for, or -1. */
static gboolean
check_words (const char *command, const ListWords *words, int *only)
{
  *only = words->only != NULL ? hw_list_find (words->only) : -1;
  if (words->only != NULL && *only < 0)
    hw_command_complain (_ ("--only: expected hoopings, threads, marks or shopping, found \"%s\"."),
                         words->only);
  else if (words->only == NULL && words->output == NULL)
    hw_command_complain (_ ("%s: name the folder to write into with -o FOLDER, or one list with --only."),
                         command);
  else
    return TRUE;
  return FALSE;
}

static gboolean
write_lists (const HwPlan *plan, const char *folder, int only)
{
  g_autofree char *shown = g_filename_display_name (folder);
  g_autoptr (GError) error = NULL;

  if (g_mkdir_with_parents (folder, 0777) != 0)
    {
      hw_command_complain (_ ("%s: the folder cannot be made (%s)."), shown, g_strerror (errno));
      return FALSE;
    }
  for (int kind = 0; kind < HW_N_LISTS; kind++)
    {
      g_autofree char *name = g_strconcat (hw_list_nick (kind), ".csv", NULL);
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (only >= 0 && only != kind)
        continue;
      if (!hw_list_csv_save (kind, plan, path, &error))
        {
          hw_command_complain ("%s", error->message);
          return FALSE;
        }
    }
  return TRUE;
}

static int
tell_lists (const HwCommandLine *line, const ListWords *words, int only)
{
  g_autoptr (HwSnapshot) snapshot = hw_command_load (line);
  g_autoptr (HwPlan) plan = snapshot != NULL ? hw_command_make_plan (line, snapshot) : NULL;
  g_autofree char *text = NULL;
  int status;

  if (plan == NULL || (words->output != NULL && !write_lists (plan, words->output, only)))
    return HW_EXIT_BAD;
  status = hw_command_exit_status (plan);
  if (status == HW_EXIT_UNPLANNABLE)
    hw_command_print_problems (plan, stderr);
  if (words->output != NULL)
    return status;
  text = hw_list_csv_text ((HwListKind)only, plan);
  return hw_command_output (text, status);
}

int
hw_command_lists (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_auto (ListWords) words = { 0 };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &words.output,
      N_ ("The folder to write into: hoopings.csv, threads.csv, marks.csv, shopping.csv"), N_ ("FOLDER") },
    { "only", 0, 0, G_OPTION_ARG_STRING, &words.only, N_ ("One list alone; without a folder it is printed"),
      N_ ("hoopings|threads|marks|shopping") },
    { NULL },
  };
  int only, status;

  if (!hw_command_line_read (
          &line, argc, argv, entries,
          _ ("Writes what a plan asks for as tables: hoopings, threads, marks, and what to buy."),
          _ ("The tables are CSV in UTF-8, with a header of English names that tell the unit; lengths are "
             "millimetres or metres. Names that a spreadsheet might take for a formula get an apostrophe "
             "before "
             "them. It ends with 0 when there is a plan for every motif, with 1 when the scene cannot be "
             "planned whole, "
             "and with 2 when the lists cannot be written."),
          &status))
    return status;
  return check_words (argv[0], &words, &only) ? tell_lists (&line, &words, only) : HW_EXIT_BAD;
}
