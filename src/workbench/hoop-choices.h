/* The hoops a person owns, chosen with a click: the usual sizes and those remembered, and a way to give another size. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_HOOP_CHOICES (hw_hoop_choices_get_type ())
G_DECLARE_FINAL_TYPE (HwHoopChoices, hw_hoop_choices, HW, HOOP_CHOICES, GtkBox)

/* Signal "changed" (). bench tells the unit only. */
GtkWidget *
hw_hoop_choices_new (HwBench *bench);
/* Returns: (transfer full) (element-type HwHoop): the chosen ones, largest field first */
GPtrArray *
hw_hoop_choices_get (HwHoopChoices *choices);

G_END_DECLS
