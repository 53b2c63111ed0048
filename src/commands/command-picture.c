/* hoopwright picture: the scene and its plan as a picture, for a blog or a class. */
#include "command-scene.h"

#include "../drawing/plan-picture.h"
#include "../drawing/scene-thumb.h"
#include "../geometry/language.h"
#include "../scene/limits.h"

typedef struct
{
  char *output;
  char *width;
  char *dpi;
  char *stage;
  char *size;
  gboolean plain;
} PictureWords;

static void
picture_words_clear (PictureWords *words)
{
  g_free (words->output);
  g_free (words->width);
  g_free (words->dpi);
  g_free (words->stage);
  g_free (words->size);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PictureWords, picture_words_clear)

static gboolean
read_width (const PictureWords *words, HwPlanPictureOptions *options)
{
  guint64 width = 0;

  if (words->width != NULL
      && !g_ascii_string_to_unsigned (words->width, 10, 1, (guint64)HW_LARGEST_PLAN_PICTURE_SIDE, &width,
                                      NULL))
    {
      hw_command_complain (_ ("--width: expected pixels from 1 to %d, found \"%s\"."),
                           (int)HW_LARGEST_PLAN_PICTURE_SIDE, words->width);
      return FALSE;
    }
  options->width = (guint)width;
  return TRUE;
}

static gboolean
read_dpi (const PictureWords *words, HwPlanPictureOptions *options)
{
  char *end = NULL;

  if (words->dpi == NULL)
    return TRUE;
  options->dpi = g_ascii_strtod (words->dpi, &end);
  if (end != words->dpi && *end == '\0' && options->dpi >= 1 && options->dpi <= HW_GREATEST_DPI)
    return TRUE;
  hw_command_complain (_ ("--dpi: expected dots per inch from 1 to %.0f, found \"%s\"."), HW_GREATEST_DPI,
                       words->dpi);
  return FALSE;
}

static gboolean
read_options (const char *command, const PictureWords *words, HwPlanPictureOptions *options)
{
  g_autoptr (GError) error = NULL;

  *options = (HwPlanPictureOptions){ .plain = words->plain, .stage = -1 };
  if (words->output == NULL)
    hw_command_complain (_ ("%s: name the file to write with -o FILE.png or -o FILE.svg."), command);
  else if (!hw_plan_picture_path_check (words->output, &error))
    hw_command_complain ("%s", error->message);
  else if (words->width != NULL && words->dpi != NULL)
    hw_command_complain (_ ("%s: --width and --dpi both say how large the picture is; give one of them."),
                         command);
  else
    return read_width (words, options) && read_dpi (words, options);
  return FALSE;
}

/* Stages are counted as the beads of the course are numbered; the one after the last is the finished picture. */
static gboolean
read_stage (const PictureWords *words, const HwPlan *plan, HwPlanPictureOptions *options)
{
  guint64 stage;

  if (words->stage == NULL)
    return TRUE;
  if (g_ascii_string_to_unsigned (words->stage, 10, 1, plan->n_hoopings + 1, &stage, NULL))
    {
      options->stage = (int)stage - 1;
      return TRUE;
    }
  hw_command_complain (_ ("--stage: expected a number from 1 to %u, found \"%s\"."), plan->n_hoopings + 1,
                       words->stage);
  return FALSE;
}

static int
write_picture (const HwCommandLine *line, const PictureWords *words, HwPlanPictureOptions *options)
{
  g_autoptr (HwSnapshot) snapshot = hw_command_load (line);
  g_autoptr (HwPlan) plan = snapshot != NULL ? hw_command_make_plan (line, snapshot) : NULL;
  g_autoptr (GError) error = NULL;
  int status;

  if (plan == NULL || !read_stage (words, plan, options))
    return HW_EXIT_BAD;
  if (!hw_plan_picture_save (plan, options, words->output, &error))
    return hw_command_complain ("%s", error->message);
  status = hw_command_exit_status (plan);
  if (status == HW_EXIT_UNPLANNABLE)
    hw_command_print_problems (plan, stderr);
  return status;
}

/* The small picture shows no plan, so what says how a plan is shown does not go with it; its file may have any name. */
static gboolean
read_size (const char *command, const PictureWords *words, guint *size)
{
  guint64 read = 0;

  if (words->output == NULL)
    hw_command_complain (_ ("%s: name the file to write with -o FILE."), command);
  else if (words->width != NULL || words->dpi != NULL || words->stage != NULL)
    hw_command_complain (
        _ ("%s: --size is for a small picture of the whole cloth; --width, --dpi and --stage "
           "do not go with it."),
        command);
  else if (!g_ascii_string_to_unsigned (words->size, 10, 1, HW_SCENE_THUMB_MOST, &read, NULL))
    hw_command_complain (_ ("--size: expected pixels from 1 to %d, found \"%s\"."), HW_SCENE_THUMB_MOST,
                         words->size);
  *size = (guint)read;
  return read > 0;
}

static int
write_small (const HwCommandLine *line, const char *command, const PictureWords *words)
{
  g_autoptr (HwSnapshot) snapshot = NULL;
  g_autoptr (GError) error = NULL;
  guint size;

  if (!read_size (command, words, &size))
    return HW_EXIT_BAD;
  snapshot = hw_command_load (line);
  if (snapshot == NULL)
    return HW_EXIT_BAD;
  if (!hw_scene_thumb_save (snapshot, size, words->output, &error))
    return hw_command_complain ("%s", error->message);
  return HW_EXIT_PLANNED;
}

int
hw_command_picture (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_auto (PictureWords) words = { 0 };
  const GOptionEntry entries[] = {
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &words.output, N_ ("The file to write"),
      N_ ("FILE.png|FILE.svg") },
    { "width", 0, 0, G_OPTION_ARG_STRING, &words.width, N_ ("How many pixels across"), N_ ("PIXELS") },
    { "dpi", 'd', 0, G_OPTION_ARG_STRING, &words.dpi, N_ ("Instead of that, dots per inch of cloth (96)"),
      N_ ("N") },
    { "plain", 0, 0, G_OPTION_ARG_NONE, &words.plain, N_ ("The cloth alone, without hoopings"), NULL },
    { "stage", 0, 0, G_OPTION_ARG_STRING, &words.stage,
      N_ ("As the cloth will be when hooping N begins; one past the last hooping: finished"), N_ ("N") },
    { "size", 0, 0, G_OPTION_ARG_STRING, &words.size,
      N_ ("A small PNG of the cloth without a plan, its longer side of so many pixels"), N_ ("PIXELS") },
    { NULL },
  };
  HwPlanPictureOptions options;
  int status;

  if (!hw_command_line_read (
          &line, argc, argv, entries,
          _ ("Writes the scene and its plan as a picture, for a blog or a class."),
          _ ("A PNG tells its dots per inch, so that it prints at true size. An SVG is of true size; thread "
             "is "
             "painted in it as finely as in a PNG of the same --width or --dpi. On a stage, what is not "
             "stitched "
             "by then is pale. It ends with 0 when there is a plan for every motif, with 1 when the "
             "scene cannot be planned whole, and with 2 when there is no picture."),
          &status))
    return status;
  if (words.size != NULL)
    return write_small (&line, argv[0], &words);
  return read_options (argv[0], &words, &options) ? write_picture (&line, &words, &options) : HW_EXIT_BAD;
}
