/* Fields for where the needle stood over each mark: two figures and the words for their ways, no signs. What was read is kept in hoop axes, mm. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_READINGS_FIELDS (hw_readings_fields_get_type ())
G_DECLARE_FINAL_TYPE (HwReadingsFields, hw_readings_fields, HW, READINGS_FIELDS, GtkBox)

/* Signals: "read" (char *letter, double u, double v): both figures of a mark are there, or are others than before; "forgotten" (char *letter): they were
 * wiped out; "left-out" (char *letter, gboolean); "at-mark" (char *letter): the keyboard is at this mark now; "finished": Enter in the last field. */
GtkWidget *
hw_readings_fields_new (HwBench *bench);
/* The marks, by their letter and design; what was read before is shown as far as it is among the readings. */
void
hw_readings_fields_set (HwReadingsFields *fields,
                        const HwReading *marks,
                        guint n_marks,
                        const HwReading *readings,
                        guint n_readings);
/* Takes what is still being typed. FALSE when some field holds what is no length; it says so itself and gets the keyboard. */
gboolean
hw_readings_fields_commit (HwReadingsFields *fields);
/* Puts the keyboard into the first empty field, else into the first. */
void
hw_readings_fields_focus (HwReadingsFields *fields);

G_END_DECLS
