/* A new scene in three choices: the cloth's size, the hoops at hand, the unit of lengths; and a live picture of them. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_START_FORM (hw_start_form_get_type ())
G_DECLARE_FINAL_TYPE (HwStartForm, hw_start_form, HW, START_FORM, GtkBox)

/* Signal "begin" (): the person wants this scene. The bench is asked for the unit and told another one. */
GtkWidget *
hw_start_form_new (HwBench *bench);
/* The scene as chosen. The hoops are remembered for the next one. Returns: (transfer full) */
HwSnapshot *
hw_start_form_take (HwStartForm *form);
/* Puts the keyboard at the first choice. */
void
hw_start_form_focus (HwStartForm *form);

G_END_DECLS
