/* hoopwright needles: the needle list of one hooping, all its motifs merged, for a converter to make a machine's file of. */
#include "command-scene.h"

#include "../formats/needle-write.h"
#include "../geometry/figures.h"
#include "../geometry/language.h"

typedef struct
{
  char *output;
  char *hooping;
  gboolean corrected;
} NeedleWords;

static void
needle_words_clear (NeedleWords *words)
{
  g_free (words->output);
  g_free (words->hooping);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (NeedleWords, needle_words_clear)

static gboolean
check_words (const char *command, const NeedleWords *words)
{
  g_autoptr (GError) error = NULL;

  if (words->hooping == NULL)
    hw_command_complain (_ ("%s: say which hooping with --hooping N, counted from 1."), command);
  else if (words->output == NULL)
    hw_command_complain (_ ("%s: name the file to write with -o FILE.csv or -o FILE.svg."), command);
  else if (!hw_needle_path_check (words->output, &error))
    hw_command_complain ("%s", error->message);
  else
    return TRUE;
  return FALSE;
}

static gboolean
read_hooping (const NeedleWords *words, const HwPlan *plan, guint *hooping)
{
  guint64 number;

  if (plan->n_hoopings == 0)
    hw_command_complain (_ ("--hooping: the plan has no hooping."));
  else if (!g_ascii_string_to_unsigned (words->hooping, 10, 1, plan->n_hoopings, &number, NULL))
    hw_command_complain (_ ("--hooping: expected a number from 1 to %u, found \"%s\"."), plan->n_hoopings,
                         words->hooping);
  else
    {
      *hooping = (guint)number - 1;
      return TRUE;
    }
  return FALSE;
}

/* What was entered at the machine for the hooping; FALSE when nothing was. */
static gboolean
find_correction (const HwPlan *plan, guint hooping, const HwCorrection **correction)
{
  const HwWork *work = hw_work_of_hooping (plan, hooping);

  if (work != NULL && work->corrected)
    {
      *correction = &work->correction;
      return TRUE;
    }
  hw_command_complain (_ ("--corrected: no correction has been entered for hooping %u."), hooping + 1);
  return FALSE;
}

static int
tell (const HwHoopingNeedles *needles, int status)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint n_stitches = needles->needles->n_stitches, n_threads = g_strv_length (needles->needles->threads);
  g_autofree char *count = hw_count_text (n_stitches);
  g_autofree char *stitches = g_strdup_printf (ngettext ("%s stitch", "%s stitches", n_stitches), count);
  g_autofree char *threads = g_strdup_printf (ngettext ("%u thread", "%u threads", n_threads), n_threads);
  g_autofree char *changes = g_strdup_printf (
      ngettext ("%u thread change", "%u thread changes", needles->thread_changes), needles->thread_changes);

  /* Translators: which hooping, "12,400 stitches", "7 threads", "9 thread changes" */
  g_string_append_printf (text, _ ("Hooping %u: %s in %s, %s."), needles->hooping + 1, stitches, threads,
                          changes);
  g_string_append_c (text, '\n');
  if (needles->stitches_told != n_stitches)
    {
      g_autofree char *told = hw_count_text (needles->stitches_told);

      g_string_append_printf (
          text, _ ("The scene says there are %s stitches; the motifs' needle lists hold %s."), told, count);
      g_string_append_c (text, '\n');
    }
  return hw_command_output (text->str, status);
}

static int
write_list (const HwCommandLine *line, const NeedleWords *words)
{
  g_autoptr (HwSnapshot) snapshot = hw_command_load (line);
  g_autoptr (HwPlan) plan = snapshot != NULL ? hw_command_make_plan (line, snapshot) : NULL;
  g_autoptr (HwHoopingNeedles) needles = NULL;
  g_autoptr (GError) error = NULL;
  const HwCorrection *correction = NULL;
  guint hooping;
  int status;

  if (plan == NULL || !read_hooping (words, plan, &hooping)
      || (words->corrected && !find_correction (plan, hooping, &correction)))
    return HW_EXIT_BAD;
  needles = hw_hooping_needles_new (plan, hooping, correction, &error);
  if (needles == NULL || !hw_hooping_needles_save (needles, words->output, &error))
    return hw_command_complain ("%s", error->message);
  status = hw_command_exit_status (plan);
  if (status == HW_EXIT_UNPLANNABLE)
    hw_command_print_problems (plan, stderr);
  return tell (needles, status);
}

int
hw_command_needles (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_auto (NeedleWords) words = { 0 };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &words.output, N_ ("The file to write"),
      N_ ("FILE.csv|FILE.svg") },
    { "hooping", 0, 0, G_OPTION_ARG_STRING, &words.hooping, N_ ("Which hooping of the plan, counted from 1"),
      N_ ("N") },
    { "corrected", 0, 0, G_OPTION_ARG_NONE, &words.corrected,
      N_ ("Lay the correction that was entered for the hooping over it"), NULL },
    { NULL },
  };
  int status;

  if (!hw_command_line_read (
          &line, argc, argv, entries,
          _ ("Writes the needle list of a hooping: its motifs in stitch order, as they lie in the hoop."),
          _ ("A file ending in .csv is a needle list with the columns x_mm,y_mm,action,thread; one ending in "
             ".svg is a drawing of true size. Millimetres count from the hoop's centre, to the right and "
             "towards you. It begins and ends at the centre and stays inside the field. It ends with 0 when "
             "the list is written, with 1 when it is but the scene cannot be planned whole, and with 2 when "
             "it cannot be written."),
          &status))
    return status;
  return check_words (argv[0], &words) ? write_list (&line, &words) : HW_EXIT_BAD;
}
