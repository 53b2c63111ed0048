/* hoopwright plan: a scene's plan as JSON on standard output, or with --why explained in plain text. */
#include "command-scene.h"

#include "../geometry/language.h"
#include "../formats/plan-json.h"
#include "../planning/explain.h"

int
hw_command_plan (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_autoptr (HwSnapshot) snapshot = NULL;
  g_autoptr (HwPlan) plan = NULL;
  g_autofree char *text = NULL;
  gboolean why = FALSE;
  const GOptionEntry extra[] = {
    { "why", 'w', 0, G_OPTION_ARG_NONE, &why,
      N_ ("Instead of JSON, say in plain text why the plan is as it is"), NULL },
    { NULL },
  };
  int status;

  if (!hw_command_line_read (&line, argc, argv, extra,
                             _ ("Plans the hoopings of a scene and prints the plan as JSON."),
                             _ ("It ends with 0 when there is a plan for every motif, with 1 when the scene "
                                "cannot be planned whole, and with 2 when the scene cannot be read."),
                             &status))
    return status;
  snapshot = hw_command_load (&line);
  if (snapshot == NULL)
    return HW_EXIT_BAD;

  plan = hw_command_make_plan (&line, snapshot);
  text = why ? hw_explain_plan (plan, line.unit) : hw_plan_json_text (plan);
  return hw_command_output (text, hw_command_exit_status (plan));
}
