/* A plan beside a newer snapshot of its scene: when only the work at the machine, photographs or threads at hand changed, nothing needs planning, but whoever
 * reads the scene from the plan shall find it as it is now. */
#include "planner-private.h"

#include "../scene/scene.h"

static HwHooping
copy_hooping (const HwHooping *hooping)
{
  HwHooping copy = *hooping;

  copy.motifs = g_memdup2 (hooping->motifs, hooping->n_motifs * sizeof (guint));
  copy.steps = g_memdup2 (hooping->steps, hooping->n_steps * sizeof (HwBlockStep));
  copy.marks = g_memdup2 (hooping->marks, hooping->n_marks * sizeof (HwMark));
  copy.predicted_error = g_memdup2 (hooping->predicted_error, hooping->n_motifs * sizeof (double));
  return copy;
}

HwPlan *
hw_plan_copy (const HwPlan *plan, const HwSnapshot *beside)
{
  HwPlan *copy = hw_plan_new (beside);
  HwSnapshot *snapshot = copy->snapshot;
  GPtrArray *problems = copy->problems;

  *copy = *plan;
  g_atomic_ref_count_init (&copy->ref_count);
  copy->snapshot = snapshot;
  copy->problems = problems;
  copy->proof = g_strdup (plan->proof);
  copy->proof_motifs = g_memdup2 (plan->proof_motifs, plan->n_proof_motifs * sizeof (guint));
  copy->hoopings = g_new0 (HwHooping, plan->n_hoopings + 1);
  for (guint i = 0; i < plan->n_hoopings; i++)
    copy->hoopings[i] = copy_hooping (&plan->hoopings[i]);
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = plan->problems->pdata[i];
      HwProblem *own = hw_plan_add_problem (copy, problem->kind, -1, problem->grave, NULL);

      *own = *problem;
      own->text = g_strdup (problem->text);
    }
  return copy;
}

HwPlan *
hw_plan_beside (const HwPlan *plan, const HwSnapshot *snapshot)
{
  g_return_val_if_fail (plan != NULL && snapshot != NULL, NULL);

  if (plan->snapshot == snapshot)
    return hw_plan_ref (plan);
  if (hw_snapshot_difference (plan->snapshot, snapshot) & HW_SCENE_CHANGE_PLAN_SPEAKS)
    return NULL;
  return hw_plan_copy (plan, snapshot);
}
