/* A plan as JSON for other programs. Places and angles keep enough decimals that a hooping that just fits still fits when it is read
 * back: half a unit of the last one moves a point a metre away by less than a millionth of a millimetre. */
#include "plan-json.h"

#include <math.h>

#include "json-figures.h"
#include "json-lines.h"

#define MINUTE_DECIMALS 1

static void
set_motifs (JsonObject *object, const char *key, const HwPlan *plan, const guint *motifs, guint n_motifs)
{
  JsonArray *ids = json_array_new ();

  for (guint i = 0; i < n_motifs; i++)
    json_array_add_string_element (ids, hw_snapshot_motif (plan->snapshot, motifs[i])->id);
  json_object_set_array_member (object, key, ids);
}

static JsonArray *
write_marks (const HwHooping *hooping)
{
  JsonArray *marks = json_array_new ();

  for (guint i = 0; i < hooping->n_marks; i++)
    {
      JsonObject *mark = json_object_new ();

      json_object_set_string_member (mark, "id", hooping->marks[i].letter);
      hw_json_set_place (mark, "at", hooping->marks[i].at, HW_JSON_PLACE_DECIMALS);
      json_array_add_object_element (marks, mark);
    }
  return marks;
}

static JsonObject *
write_predicted_error (const HwPlan *plan, const HwHooping *hooping)
{
  JsonObject *errors = json_object_new ();

  for (guint i = 0; i < hooping->n_motifs && hooping->predicted_error != NULL; i++)
    hw_json_set_number (errors, hw_snapshot_motif (plan->snapshot, hooping->motifs[i])->id,
                        hooping->predicted_error[i], HW_JSON_MEASURE_DECIMALS);
  return errors;
}

/* The blocks one by one, as [motif, place of the block in it counted from 1], where those of several motifs are mixed. */
static void
set_sequence (JsonObject *object, const HwPlan *plan, const HwHooping *hooping)
{
  JsonArray *steps = json_array_new ();

  for (guint i = 0; i < hooping->n_steps; i++)
    {
      JsonArray *step = json_array_new ();

      json_array_add_string_element (step, hw_snapshot_motif (plan->snapshot, hooping->steps[i].motif)->id);
      json_array_add_int_element (step, hooping->steps[i].block + 1);
      json_array_add_array_element (steps, step);
    }
  json_object_set_array_member (object, "sequence", steps);
}

static JsonObject *
write_hooping (const HwPlan *plan, const HwHooping *hooping)
{
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "hoop", hw_snapshot_hoop (plan->snapshot, hooping->hoop)->id);
  hw_json_set_place (object, "centre", hooping->centre, HW_JSON_PLACE_DECIMALS);
  hw_json_set_number (object, "angle", hooping->angle, HW_JSON_ANGLE_DECIMALS);
  set_motifs (object, "motifs", plan, hooping->motifs, hooping->n_motifs);
  if (hooping->steps != NULL)
    set_sequence (object, plan, hooping);
  json_object_set_array_member (object, "marks", write_marks (hooping));
  json_object_set_object_member (object, "predicted_error", write_predicted_error (plan, hooping));
  json_object_set_int_member (object, "thread_changes", hooping->thread_changes);
  json_object_set_int_member (object, "stitches", hooping->stitches);
  hw_json_set_number (object, "minutes", hooping->minutes, MINUTE_DECIMALS);
  hw_json_set_number (object, "margin", hooping->margin, HW_JSON_MEASURE_DECIMALS);
  if (hooping->hold != HW_PLACE_FREE)
    json_object_set_string_member (object, "held", hooping->hold == HW_PLACE_FROZEN ? "stitched" : "pinned");
  return object;
}

/* Whether the problem's amount and place say something, be it that a gap is 0. */
static gboolean
is_measured (const HwProblem *problem)
{
  if (!isfinite (problem->amount))
    return FALSE;
  switch (problem->kind)
    {
    case HW_PROBLEM_OVERSIZE:
    case HW_PROBLEM_OUTSIDE_EDGE_LINE:
    case HW_PROBLEM_OUTSIDE_CLOTH:
    case HW_PROBLEM_SCALE_RANGE:
    case HW_PROBLEM_DENSE:
    case HW_PROBLEM_HAIRLINE:
    case HW_PROBLEM_FRAME_OFF_CLOTH:
    case HW_PROBLEM_FRAME_ON_STITCHING:
    case HW_PROBLEM_CLOTH_TOO_SMALL:
      /* A sentence on those left untold measures nothing. */
      return problem->amount > 0 || problem->motif >= 0 || problem->hooping >= 0;
    default:
      return problem->amount > 0;
    }
}

static JsonObject *
write_problem (const HwPlan *plan, const HwProblem *problem)
{
  JsonObject *object = json_object_new ();

  json_object_set_string_member (object, "kind", hw_problem_nick (problem->kind));
  if (problem->motif >= 0)
    json_object_set_string_member (object, "motif", hw_snapshot_motif (plan->snapshot, problem->motif)->id);
  json_object_set_string_member (object, "text", problem->text);
  json_object_set_boolean_member (object, "grave", problem->grave);
  if (problem->hooping >= 0)
    json_object_set_int_member (object, "hooping", problem->hooping + 1);
  if (is_measured (problem))
    {
      hw_json_set_number (object, "amount", problem->amount, HW_JSON_MEASURE_DECIMALS);
      hw_json_set_place (object, "where", problem->where, HW_JSON_MEASURE_DECIMALS);
    }
  return object;
}

/* A hooping, a problem, and what a hooping holds for each mark and motif keep to lines of their own. */
static gboolean
opens (guint depth, const char *key)
{
  return (depth == 1 || depth == 2) && (g_str_equal (key, "hoopings") || g_str_equal (key, "problems"));
}

char *
hw_plan_json_text (const HwPlan *plan)
{
  g_autoptr (JsonNode) root = NULL;
  JsonObject *object;
  JsonArray *hoopings, *problems;

  g_return_val_if_fail (plan != NULL, NULL);

  root = json_node_new (JSON_NODE_OBJECT);
  object = json_object_new ();
  hoopings = json_array_new ();
  problems = json_array_new ();
  json_node_take_object (root, object);
  json_object_set_string_member (object, "format", "hoopwright-plan");
  json_object_set_int_member (object, "version", 1);
  json_object_set_string_member (object, "status", hw_plan_status_nick (plan->status));
  json_object_set_int_member (object, "lower_bound", plan->lower_bound);
  for (guint i = 0; i < plan->n_hoopings; i++)
    json_array_add_object_element (hoopings, write_hooping (plan, &plan->hoopings[i]));
  json_object_set_array_member (object, "hoopings", hoopings);
  json_object_set_int_member (object, "thread_changes", plan->thread_changes);
  for (guint i = 0; i < plan->problems->len; i++)
    json_array_add_object_element (problems, write_problem (plan, plan->problems->pdata[i]));
  json_object_set_array_member (object, "problems", problems);
  json_object_set_int_member (object, "thread_changes_bound", plan->thread_changes_bound);
  hw_json_set_number (object, "minutes", plan->minutes, MINUTE_DECIMALS);
  if (plan->proof != NULL)
    {
      json_object_set_string_member (object, "proof", plan->proof);
      set_motifs (object, "proof_motifs", plan, plan->proof_motifs, plan->n_proof_motifs);
    }
  return hw_json_lines (root, opens);
}
