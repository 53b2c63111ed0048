/* A bead: a small disc that stands for one hooping, in its dye with its hatch and its number. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_TYPE_BEAD (hw_bead_get_type ())
G_DECLARE_FINAL_TYPE (HwBead, hw_bead, HW, BEAD, GtkWidget)

/* diameter in px. */
GtkWidget *
hw_bead_new (int diameter);
/* hooping counted from 0; -1: an empty bead. */
void
hw_bead_set_hooping (HwBead *bead, int hooping);
/* A hollow bead shows outline and number only. */
void
hw_bead_set_hollow (HwBead *bead, gboolean hollow);

G_END_DECLS
