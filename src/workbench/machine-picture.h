/* The hoop as it stands on the machine, its top away from the person: ring, cloth, what is stitched, what comes, marks. */
#pragma once

#include <gtk/gtk.h>

#include "machine-work.h"

G_BEGIN_DECLS

#define HW_TYPE_MACHINE_PICTURE (hw_machine_picture_get_type ())
G_DECLARE_FINAL_TYPE (HwMachinePicture, hw_machine_picture, HW, MACHINE_PICTURE, GtkWidget)

GtkWidget *
hw_machine_picture_new (void);
/* Shows the work at its step. work may be NULL: nothing. mark: the letter of the one mark that is spoken of, or NULL. */
void
hw_machine_picture_show (HwMachinePicture *picture, HwMachineWork *work, const char *mark);
/* Shows the whole picture as far as it is stitched, and where the next hooping lies (-1: none). plan may be NULL: nothing. */
void
hw_machine_picture_show_plan (HwMachinePicture *picture, const HwPlan *plan, int next);

G_END_DECLS
