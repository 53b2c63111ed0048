/* hoopwright check: a scene looked over in words: what it holds, how it can be stitched, what to look at. The plan is checked against
 * the rules a second time, by code that shares nothing with the search. */
#include "command-scene.h"
#include "../geometry/language.h"
#include "../geometry/one-line.h"

static void
append_contents (GString *text, const HwSnapshot *snapshot)
{
  guint n_motifs = snapshot->motifs->len, n_hoops = snapshot->hoops->len;
  g_autofree char *motifs = g_strdup_printf (ngettext ("%u motif", "%u motifs", n_motifs), n_motifs);
  g_autofree char *hoops = g_strdup_printf (ngettext ("%u hoop", "%u hoops", n_hoops), n_hoops);
  g_autofree char *name
      = hw_one_line (snapshot->name[0] != '\0' ? snapshot->name : _ ("A scene without a name"));

  /* Translators: name of the scene, how many motifs, how many hoops */
  g_string_append_printf (text, _ ("%s: %s, %s"), name, motifs, hoops);
  g_string_append_c (text, '\n');
}

/* Returns FALSE when a plan of the whole scene breaks a rule. */
static gboolean
append_plan (GString *text, const HwPlan *plan)
{
  g_autofree char *sentence = hw_plan_sentence (plan);
  g_autoptr (GError) error = NULL;

  g_string_append_printf (text, "%s\n", sentence);
  if (plan->proof != NULL)
    {
      g_autofree char *proof = hw_one_line (plan->proof);

      g_string_append_printf (text, "%s\n", proof);
    }
  if (plan->status == HW_PLAN_UNPLANNABLE || hw_plan_verify (plan, &error))
    return TRUE;
  g_string_append_printf (text, _ ("This plan must not be used: %s"), error->message);
  g_string_append_c (text, '\n');
  return FALSE;
}

int
hw_command_check (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_autoptr (HwSnapshot) snapshot = NULL;
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  int status;

  if (!hw_command_line_read (&line, argc, argv, NULL,
                             _ ("Says in sentences how a scene can be stitched and what to look at."),
                             _ ("It ends with 0 when there is a plan for every motif, with 1 when the scene "
                                "cannot be planned whole, and with 2 when the scene cannot be read."),
                             &status))
    return status;
  snapshot = hw_command_load (&line);
  if (snapshot == NULL)
    return HW_EXIT_BAD;

  plan = hw_command_make_plan (&line, snapshot);
  status = hw_command_exit_status (plan);
  append_contents (text, snapshot);
  if (!append_plan (text, plan))
    status = HW_EXIT_UNPLANNABLE;
  hw_command_append_problems (text, plan);
  if (plan->problems->len == 0)
    g_string_append_printf (text, "%s\n", _ ("Nothing else to look at."));
  return hw_command_output (text->str, status);
}
