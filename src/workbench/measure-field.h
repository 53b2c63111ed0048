/* A field for one measure: a length in the unit the person chose, an angle, or a per cent. Typing "3.5 in" or "90 mm" is understood
 * whatever the unit shown. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

typedef enum
{
  HW_MEASURE_LENGTH,
  HW_MEASURE_ANGLE,
  HW_MEASURE_PERCENT,
  HW_MEASURE_COUNT,
  HW_MEASURE_MINUTES,
  HW_MEASURE_DENSITY,   /* stitches per mm^2 */
  HW_MEASURE_THICKNESS, /* a length told in hundredths of a millimetre whatever the unit: cloth is */
  HW_MEASURE_METRES,
  HW_MEASURE_HOURS
} HwMeasure;

#define HW_TYPE_MEASURE_FIELD (hw_measure_field_get_type ())
G_DECLARE_FINAL_TYPE (HwMeasureField, hw_measure_field, HW, MEASURE_FIELD, GtkWidget)

/* Signal "edited" (double value): the person gave another value, in mm, degrees, per cent, pieces, minutes, stitches per mm^2, metres or hours. Not emitted by _set_value().
 * bench tells the unit; label is the accessible name. */
GtkWidget *
hw_measure_field_new (HwBench *bench, HwMeasure measure, const char *label, double least, double most);
void
hw_measure_field_set_value (HwMeasureField *field, double value);
double
hw_measure_field_get_value (HwMeasureField *field);

/* A caption above a field, as panes and dialogs show them. */
GtkWidget *
hw_captioned (const char *caption, GtkWidget *field);

G_END_DECLS
