/* What the commands share: the words on their command line, a scene read and planned, complaints in one line. */
#include "command-scene.h"

#include <errno.h>
#include <string.h>

#include "../geometry/language.h"
#include "../geometry/one-line.h"
#include "../planning/parts-hoopings.h"
#include "../formats/scene-file.h"
#include "../formats/whole-file.h"

#define LONGEST_TIME 86400.0 /* seconds: a day */

typedef struct
{
  gboolean help;
  char *time;
  char *unit;
  char **rest;
  char *time_help;
} Words;

static void
words_clear (Words *words)
{
  g_free (words->time);
  g_free (words->unit);
  g_strfreev (words->rest);
  g_free (words->time_help);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Words, words_clear)

int
hw_command_complain (const char *format, ...)
{
  g_autofree char *text = NULL, *valid = NULL, *line = NULL;
  va_list args;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_strdelimit (text, "\r\n", ' ');
  valid = g_utf8_make_valid (text, -1);
  line = hw_one_line (valid);
  fprintf (stderr, "hoopwright: %s\n", line);
  return HW_EXIT_BAD;
}

static gboolean
read_time (const char *text, double *seconds)
{
  char *end;
  double value;

  if (text == NULL)
    return TRUE;
  value = g_ascii_strtod (text, &end);
  if (end == text || *end != '\0' || !(value >= 0 && value <= LONGEST_TIME))
    {
      hw_command_complain (_ ("--time: expected a number of seconds, found \"%s\"."), text);
      return FALSE;
    }
  *seconds = value;
  return TRUE;
}

static gboolean
read_unit (const char *text, HwUnit *unit)
{
  if (text == NULL || g_str_equal (text, "mm"))
    *unit = HW_UNIT_MM;
  else if (g_str_equal (text, "in"))
    *unit = HW_UNIT_INCH;
  else
    {
      hw_command_complain (_ ("--unit: expected mm or in, found \"%s\"."), text);
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_scene_path (const char *command, char **rest, char **path)
{
  guint n = rest != NULL ? g_strv_length (rest) : 0;

  if (n == 1)
    {
      *path = g_strdup (rest[0]);
      return TRUE;
    }
  if (n == 0)
    hw_command_complain (_ ("%s: name the scene file. hoopwright %s --help says more."), command, command);
  else
    hw_command_complain (_ ("%s: expected one scene file, found %u. hoopwright %s --help says more."),
                         command, n, command);
  return FALSE;
}

static gboolean
read_two_paths (const char *command, const char *second_name, char **rest, HwCommandLine *line)
{
  guint n = rest != NULL ? g_strv_length (rest) : 0;

  if (n == 2)
    {
      line->scene = g_strdup (rest[0]);
      line->second = g_strdup (rest[1]);
      return TRUE;
    }
  hw_command_complain (_ ("%s: name the scene file and %s, found %u. hoopwright %s --help says more."),
                       command, second_name, n, command);
  return FALSE;
}

static GOptionContext *
make_context (
    Words *words, const char *second_name, const GOptionEntry *extra, const char *summary, const char *more)
{
  g_autofree char *files
      = second_name != NULL ? g_strdup_printf ("%s %s", _ ("SCENE"), second_name) : g_strdup (_ ("SCENE"));
  words->time_help = g_strdup_printf (_ ("Take at most this long to look for a better plan (%g)"),
                                      HW_PLAN_OPTIONS_DEFAULT.seconds);

  const GOptionEntry common[]
      = { { "time", 't', 0, G_OPTION_ARG_STRING, &words->time, words->time_help, N_ ("SECONDS") },
          { "unit", 'u', 0, G_OPTION_ARG_STRING, &words->unit, N_ ("Speak in millimetres or inches (mm)"),
            N_ ("mm|in") },
          { "help", 'h', 0, G_OPTION_ARG_NONE, &words->help, N_ ("Show this help"), NULL },
          { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, &words->rest, NULL, NULL },
          { NULL } };
  GOptionContext *context = g_option_context_new (files);

  /* Help of one's own: GLib's would end the program itself. */
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_summary (context, summary);
  g_option_context_set_description (context, more);
  if (extra != NULL)
    g_option_context_add_main_entries (context, extra, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, common, GETTEXT_PACKAGE);
  return context;
}

gboolean
hw_command_parse (GOptionContext *context, const gboolean *help, int argc, char **argv, int *status)
{
  g_autoptr (GStrvBuilder) given = g_strv_builder_new ();
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) args = NULL;
  g_autofree char *program = g_strdup_printf ("hoopwright %s", argv[0]);

  *status = HW_EXIT_BAD;
  for (int i = 0; i < argc; i++)
    g_strv_builder_add (given, argv[i]);
  args = g_strv_builder_end (given);
  g_set_prgname (program);
  if (!g_option_context_parse_strv (context, &args, &error))
    {
      hw_command_complain (_ ("%s: %s. hoopwright %s --help says more."), argv[0], error->message, argv[0]);
      return FALSE;
    }
  if (*help)
    {
      g_autofree char *text = g_option_context_get_help (context, TRUE, NULL);

      g_print ("%s", text);
      *status = 0;
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_no_path (const char *command, char **rest)
{
  guint n = rest != NULL ? g_strv_length (rest) : 0;

  if (n == 0)
    return TRUE;
  hw_command_complain (_ ("%s: expected no scene file, found %u. hoopwright %s --help says more."), command,
                       n, command);
  return FALSE;
}

/* alone: see hw_command_line_read_unless(), or NULL */
static gboolean
read_line (HwCommandLine *line,
           int argc,
           char **argv,
           const char *second_name,
           const gboolean *alone,
           const GOptionEntry *extra,
           const char *summary,
           const char *more,
           int *status)
{
  g_auto (Words) words = { 0 };
  g_autoptr (GOptionContext) context = NULL;

  *line = (HwCommandLine){ .seconds = HW_PLAN_OPTIONS_DEFAULT.seconds };
  context = make_context (&words, second_name, extra, summary, more);
  if (!hw_command_parse (context, &words.help, argc, argv, status))
    return FALSE;
  if (!read_time (words.time, &line->seconds) || !read_unit (words.unit, &line->unit))
    return FALSE;
  if (alone != NULL && *alone)
    return read_no_path (argv[0], words.rest);
  return second_name != NULL ? read_two_paths (argv[0], second_name, words.rest, line)
                             : read_scene_path (argv[0], words.rest, &line->scene);
}

gboolean
hw_command_line_read (HwCommandLine *line,
                      int argc,
                      char **argv,
                      const GOptionEntry *extra,
                      const char *summary,
                      const char *more,
                      int *status)
{
  return hw_command_line_read_two (line, argc, argv, NULL, extra, summary, more, status);
}

gboolean
hw_command_line_read_two (HwCommandLine *line,
                          int argc,
                          char **argv,
                          const char *second_name,
                          const GOptionEntry *extra,
                          const char *summary,
                          const char *more,
                          int *status)
{
  g_return_val_if_fail (line != NULL && status != NULL, FALSE);
  g_return_val_if_fail (argc >= 1 && argv != NULL, FALSE);

  return read_line (line, argc, argv, second_name, NULL, extra, summary, more, status);
}

gboolean
hw_command_line_read_unless (HwCommandLine *line,
                             int argc,
                             char **argv,
                             const gboolean *alone,
                             const GOptionEntry *extra,
                             const char *summary,
                             const char *more,
                             int *status)
{
  g_return_val_if_fail (line != NULL && alone != NULL && status != NULL, FALSE);
  g_return_val_if_fail (argc >= 1 && argv != NULL, FALSE);

  return read_line (line, argc, argv, NULL, alone, extra, summary, more, status);
}

void
hw_command_line_clear (HwCommandLine *line)
{
  g_clear_pointer (&line->scene, g_free);
  g_clear_pointer (&line->second, g_free);
}

/* What this program understands of the file it understands wholly: what only the newer one knows has no part in the answer. */
static void
warn_newer (const char *path, guint version)
{
  g_autofree char *name = hw_file_shown_name (path);

  hw_command_complain (
      _ ("%s: a newer Hoopwright wrote this scene (form %u); what only the newer one knows is "
         "passed over, and the scene is only read."),
      name, version);
}

HwSnapshot *
hw_command_load (const HwCommandLine *line)
{
  g_autoptr (GError) error = NULL;
  HwSnapshot *snapshot;

  g_return_val_if_fail (line != NULL && line->scene != NULL, NULL);

  snapshot = hw_scene_file_load (line->scene, &error);
  if (snapshot == NULL)
    hw_command_complain ("%s", error->message);
  else if (snapshot->newer_version > 0)
    warn_newer (line->scene, snapshot->newer_version);
  return snapshot;
}

HwPlan *
hw_command_make_plan (const HwCommandLine *line, const HwSnapshot *snapshot)
{
  g_autoptr (HwPlanner) planner = hw_planner_new ();
  HwPlanOptions options = { .seconds = line->seconds, .unit = line->unit };

  return hw_planner_plan (planner, snapshot, &options, NULL, NULL, NULL);
}

HwPlan *
hw_command_make_whole_plan (const HwCommandLine *line, const HwSnapshot *snapshot)
{
  g_autoptr (HwPlan) plan = hw_command_make_plan (line, snapshot);
  g_autoptr (GString) why = NULL;

  if (hw_command_exit_status (plan) == HW_EXIT_PLANNED)
    return g_steal_pointer (&plan);
  why = g_string_new (NULL);
  hw_command_append_problems (why, plan);
  g_string_truncate (why, strcspn (why->str, "\n"));
  hw_command_complain (_ ("the scene cannot be planned whole: %s"), why->str);
  return NULL;
}

int
hw_command_exit_status (const HwPlan *plan)
{
  g_return_val_if_fail (plan != NULL, HW_EXIT_BAD);

  return plan->status == HW_PLAN_UNPLANNABLE ? HW_EXIT_UNPLANNABLE : HW_EXIT_PLANNED;
}

void
hw_command_append_problems (GString *text, const HwPlan *plan)
{
  g_return_if_fail (text != NULL && plan != NULL);

  for (int grave = 1; grave >= 0; grave--)
    {
      for (guint i = 0; i < plan->problems->len; i++)
        {
          const HwProblem *problem = plan->problems->pdata[i];
          g_autofree char *line = hw_one_line (problem->text);

          if (!problem->grave == !grave)
            g_string_append_printf (text, "%s\n", line);
        }
    }
}

void
hw_command_print_problems (const HwPlan *plan, FILE *to)
{
  g_autoptr (GString) text = g_string_new (NULL);

  g_return_if_fail (plan != NULL && to != NULL);

  hw_command_append_problems (text, plan);
  fputs (text->str, to);
}

int
hw_command_output (const char *text, int status)
{
  g_return_val_if_fail (text != NULL, HW_EXIT_BAD);

  if (fputs (text, stdout) == EOF || fflush (stdout) != 0)
    return hw_command_complain (_ ("the output could not be written (%s)."), g_strerror (errno));
  return status;
}

gboolean
hw_command_find_part (const char *name, const HwSnapshot *snapshot, guint *part)
{
  g_autoptr (GString) names = g_string_new (NULL);
  int found = name != NULL ? hw_snapshot_find_part (snapshot, name) : -1;

  *part = (guint)(found + 1);
  if (name == NULL || found >= 0)
    return TRUE;
  for (guint p = 0; p < snapshot->parts->len; p++)
    g_string_append_printf (names, "%s\"%s\"",
                            p == 0                          ? ""
                            : p + 1 == snapshot->parts->len ? _ (" or ")
                                                            : ", ",
                            ((const HwPart *)g_ptr_array_index (snapshot->parts, p))->name);
  if (names->len > 0)
    hw_command_complain (_ ("--part: expected %s, found \"%s\"."), names->str, name);
  else
    hw_command_complain (_ ("--part: the scene is not divided into parts, so there is no part \"%s\"."),
                         name);
  return FALSE;
}
