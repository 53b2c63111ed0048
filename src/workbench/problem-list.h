/* What to look at: the plan's problems in sentences; each leads to its place. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_PROBLEM_LIST (hw_problem_list_get_type ())
G_DECLARE_FINAL_TYPE (HwProblemList, hw_problem_list, HW, PROBLEM_LIST, GtkBox)

/* Signal "show-place" (double x, double y): where the chosen problem shows, mm on the cloth. */
GtkWidget *
hw_problem_list_new (HwBench *bench);

G_END_DECLS
