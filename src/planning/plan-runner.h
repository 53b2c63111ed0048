/* Keeps a plan up to date beside a running program: it plans on a thread of its own, drops the older call when
 * a newer scene arrives, and hands plans back on the main context. */
#pragma once

#include "planner.h"

G_BEGIN_DECLS

#define HW_TYPE_PLAN_RUNNER (hw_plan_runner_get_type ())
G_DECLARE_FINAL_TYPE (HwPlanRunner, hw_plan_runner, HW, PLAN_RUNNER, GObject)

/* Signal "planned" (HwPlan *plan, gboolean last): a plan for the newest snapshot asked for; last is FALSE while a better
 * one may still come. Property "busy" with notify. */
HwPlanRunner *
hw_plan_runner_new (void);

/* Asks for a plan of snapshot; cancels whatever was asked before. */
void
hw_plan_runner_ask (HwPlanRunner *runner, const HwSnapshot *snapshot, const HwPlanOptions *options);

/* The next question is about another scene: it is answered as by a new planner, whatever was planned before. */
void
hw_plan_runner_begin_anew (HwPlanRunner *runner);
gboolean
hw_plan_runner_is_busy (HwPlanRunner *runner);

G_END_DECLS
