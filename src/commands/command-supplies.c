/* hoopwright supplies: what a plan takes of thread, bobbins, stabiliser, cloth, needles and time, as JSON on standard output. */
#include "command-scene.h"

#include "../formats/supplies-json.h"
#include "../geometry/language.h"

static int
tell_supplies (const HwCommandLine *line, const char *part_name)
{
  g_autoptr (HwSnapshot) snapshot = hw_command_load (line);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (HwSupplies) supplies = NULL;
  g_autofree char *text = NULL;
  guint part;
  int status;

  if (snapshot == NULL || !hw_command_find_part (part_name, snapshot, &part))
    return HW_EXIT_BAD;
  plan = hw_command_make_plan (line, snapshot);
  status = hw_command_exit_status (plan);
  if (status == HW_EXIT_UNPLANNABLE)
    hw_command_print_problems (plan, stderr);
  supplies = hw_supplies_new (plan, part);
  text = hw_supplies_json_text (supplies);
  return hw_command_output (text, status);
}

int
hw_command_supplies (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_autofree char *part = NULL;
  const GOptionEntry entries[] = {
    { "part", 0, 0, G_OPTION_ARG_STRING, &part, N_ ("Only what is stitched with this part of the scene"),
      N_ ("NAME") },
    { NULL },
  };
  int status;

  if (!hw_command_line_read (
          &line, argc, argv, entries,
          _ ("Prints as JSON what the plan takes: thread, bobbins, stabiliser, cloth, needles, time."),
          _ ("What is stitched already takes nothing more. It ends with 0 when there is a plan for every "
             "motif, with 1 when the scene cannot be planned whole, and with 2 when it cannot be read."),
          &status))
    return status;
  return tell_supplies (&line, part);
}
