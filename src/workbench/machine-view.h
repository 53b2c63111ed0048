/* "At the machine": the window's whole room for one hooping, step by step, in large type. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_MACHINE_VIEW (hw_machine_view_get_type ())
G_DECLARE_FINAL_TYPE (HwMachineView, hw_machine_view, HW, MACHINE_VIEW, GtkBox)

/* Signal "leave" (): the person wants to go back to the table; the work stays as it is. The view uses the window's actions "measure-cloth" and
 * "landed" (uint32: the stitched hooping, from 0). */
GtkWidget *
hw_machine_view_new (HwBench *bench);
/* Puts the keyboard where the step wants it. */
void
hw_machine_view_focus (HwMachineView *view);
/* What is typed but not taken yet (a note, a reading) is taken. */
void
hw_machine_view_commit (HwMachineView *view);
/* Why the last step could not be saved, or NULL. */
void
hw_machine_view_tell_save (HwMachineView *view, const char *trouble);

G_END_DECLS
