/* hoopwright correct: from where the needle stood over the marks of a hooping to what is entered at the machine. Readings that cannot have been meant as they stand
 * are asked about, never used. */
#include "command-scene.h"

#include "../geometry/language.h"
#include "../formats/answers-json.h"
#include "../formats/readings-json.h"
#include "../planning/marks.h"
#include "../registration/correction.h"
#include "command-readings.h"

#define FINEST_SHIFT 0.001 /* mm: of a machine that shifts without steps */

/* The task and the points it speaks of. */
typedef struct
{
  HwCorrectionTask task;
  GArray *targets;   /* HwPoint */
  GArray *stitching; /* HwPoint */
} Task;

static void
task_clear (Task *task)
{
  g_clear_pointer (&task->targets, g_array_unref);
  g_clear_pointer (&task->stitching, g_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Task, task_clear)

static void
append_motif (Task *task, const HwHooping *hooping, const HwMotif *motif)
{
  g_autoptr (HwOutline) placed = hw_outline_place (motif->outline, &motif->placement);
  HwPoint centre = hw_hooping_axes (hooping, motif->placement.position);

  g_array_append_val (task->targets, centre);
  for (guint i = 0; i < placed->n_hull; i++)
    {
      HwPoint p = hw_hooping_axes (hooping, placed->hull[i]);

      g_array_append_val (task->stitching, p);
    }
}

static void
reduce_to_hull (GArray *points)
{
  g_autofree HwPoint *hull = g_new (HwPoint, points->len + 1);
  guint n = hw_convex_hull ((const HwPoint *)(gpointer)points->data, points->len, hull);

  g_array_set_size (points, 0);
  g_array_append_vals (points, hull, n);
}

static void
task_fill (Task *task, const HwSnapshot *snapshot, const HwHooping *hooping)
{
  const HwHoop *hoop = hw_snapshot_hoop (snapshot, hooping->hoop);

  task->targets = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  task->stitching = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  for (guint i = 0; i < hooping->n_motifs; i++)
    append_motif (task, hooping, hw_snapshot_motif (snapshot, hooping->motifs[i]));
  if (task->stitching->len > 0)
    reduce_to_hull (task->stitching);
  task->task = (HwCorrectionTask){
    .shift_step = snapshot->machine.shift_step > 0 ? snapshot->machine.shift_step : FINEST_SHIFT,
    .turn_step = snapshot->machine.turn_step,
    .sigma = HW_MARKS_SIGMA,
    .tolerance = snapshot->wishes.tolerance,
    .targets = (const HwPoint *)(gpointer)task->targets->data,
    .n_targets = task->targets->len,
    .stitching = (const HwPoint *)(gpointer)task->stitching->data,
    .n_stitching = task->stitching->len,
    .half_width = hoop->field_width / 2,
    .half_height = hoop->field_height / 2,
  };
}

static int
answer (const HwCommandLine *line, const HwMeasured *measured, const HwPlan *plan)
{
  g_autoptr (GError) error = NULL;
  g_autofree HwReading *readings = NULL;
  g_autofree char *advice = NULL;
  g_autofree char *text = NULL;
  g_auto (Task) task = { 0 };
  HwCorrectionAnswer found = { 0 };
  const HwHooping *hooping;
  guint n = measured->n_readings;

  hooping = hw_measured_hooping (measured, plan, &error);
  readings = hooping != NULL ? hw_measured_readings (measured, hooping, &error) : NULL;
  if (readings == NULL)
    return hw_command_complain ("%s", error->message);
  if (hw_command_doubts_readings (measured, readings, line->unit))
    return HW_EXIT_BAD;

  task_fill (&task, plan->snapshot, hooping);
  if (!hw_correction_find (readings, n, &task.task, &found, &error))
    return hw_command_complain ("%s: %s", measured->name, error->message);
  advice = hw_correction_advice_text (&found, readings, n, &task.task, line->unit);
  text = hw_correction_json_text (&found, readings, n, plan->snapshot, hooping, advice);
  hw_correction_answer_clear (&found);
  return hw_command_output (text, HW_EXIT_PLANNED);
}

int
hw_command_correct (int argc, char **argv)
{
  g_auto (HwCommandLine) line = { 0 };
  g_autoptr (HwSnapshot) snapshot = NULL;
  g_autoptr (HwMeasured) measured = NULL;
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  int status;

  if (!hw_command_line_read_two (
          &line, argc, argv, _ ("READINGS.json"), NULL,
          _ ("Works out what to enter at the machine from where the needle stood over a hooping's marks, and "
             "prints it as JSON."),
          _ ("READINGS.json holds {\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [-41.2, 58.6]}, "
             "…]}: the "
             "hooping's number in the plan, and for each mark how far right of the hoop's centre and how far "
             "towards "
             "you the needle stood, in millimetres (or with \"unit\": \"in\" in inches). It ends with 0 when "
             "there is "
             "an answer, with 1 when the scene cannot be planned whole, and with 2 when the input cannot be "
             "used."),
          &status))
    return status;
  snapshot = hw_command_load (&line);
  if (snapshot == NULL)
    return HW_EXIT_BAD;
  measured = hw_measured_load (line.second, HW_MEASURED_READINGS, &error);
  if (measured == NULL)
    return hw_command_complain ("%s", error->message);
  plan = hw_command_make_whole_plan (&line, snapshot);
  if (plan == NULL)
    return HW_EXIT_UNPLANNABLE;
  return answer (&line, measured, plan);
}
