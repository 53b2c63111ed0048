/* What was read and measured at the machine, as JSON: needle readings over the marks of a hooping, or distances between marks. Millimetres after reading,
 * whatever unit the file speaks in. */
#pragma once

#include "../planning/plan.h"
#include "../registration/draw-in.h"

G_BEGIN_DECLS

#define HW_MEASURED_ERROR (hw_measured_error_quark ())
typedef enum
{
  HW_MEASURED_ERROR_READ,    /* the file cannot be read */
  HW_MEASURED_ERROR_SYNTAX,  /* not JSON: line and column are named */
  HW_MEASURED_ERROR_CONTENT, /* a key is missing or wrong: its path, what was expected, what was found */
  HW_MEASURED_ERROR_MARK     /* the plan has no such hooping or mark */
} HwMeasuredError;
GQuark
hw_measured_error_quark (void);

/* Where the needle stood over a mark. */
typedef struct
{
  char *mark;
  HwPoint at; /* hoop axes, mm */
  gboolean left_out;
} HwGivenReading;

/* One end of a distance: a mark of a hooping, or a place on the cloth. */
typedef struct
{
  char *mark;    /* NULL: a place */
  HwPoint place; /* fabric mm */
} HwGivenEnd;

typedef struct
{
  HwGivenEnd from, to;
  guint hooping; /* whose marks, counted from 1; 0: neither end is a mark */
  double mm;
} HwGivenDistance;

typedef struct
{
  char *name;    /* of the file, fit to be shown; NULL from memory */
  guint hooping; /* counted from 1; 0: not said */
  gboolean sure; /* the person says that the readings are right as they stand */
  HwGivenReading *readings;
  guint n_readings;
  HwGivenDistance *distances;
  guint n_distances;
} HwMeasured;

typedef enum
{
  HW_MEASURED_READINGS, /* hooping and readings are required */
  HW_MEASURED_EITHER    /* distances, or hooping and readings */
} HwMeasuredKind;

/* One sentence in error, beginning with the file's name where there is one. Returns: (transfer full) (nullable) */
HwMeasured *
hw_measured_load (const char *path, HwMeasuredKind kind, GError **error);
HwMeasured *
hw_measured_parse (const char *text, gssize length, HwMeasuredKind kind, GError **error);
void
hw_measured_free (HwMeasured *measured);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwMeasured, hw_measured_free)

/* TRUE when the plan is needed to know what was measured: marks are named. */
gboolean
hw_measured_names_marks (const HwMeasured *measured);

/* The plan's hooping that the readings are of; NULL when it has none of that number. (transfer none) */
const HwHooping *
hw_measured_hooping (const HwMeasured *measured, const HwPlan *plan, GError **error);

/* The readings beside where the hooping's plan has the marks, in the file's order; n_readings of them. Returns: (transfer full) (nullable): NULL when
 * the hooping has no such mark; free with g_free() */
HwReading *
hw_measured_readings (const HwMeasured *measured, const HwHooping *hooping, GError **error);

/* The distances between places of the scene; n_distances of them. plan may be NULL when no mark is named. Returns: (transfer full) (nullable) */
HwDistance *
hw_measured_distances (const HwMeasured *measured, const HwPlan *plan, GError **error);

/* A point of the cloth in a hooping's axes. */
HwPoint
hw_hooping_axes (const HwHooping *hooping, HwPoint p);

G_END_DECLS
