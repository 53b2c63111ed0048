/* From readings to what is entered at the machine. Needle readings over the marks and where the plan has the marks, both in hoop axes (mm, u right,
 * v towards the person), give the least-squares rigid fit (rigid-fit.h); of all shifts and turns the machine can take near it, the one that
 * leaves the smallest worst error over the hooping's motifs is chosen, which is not always each number rounded by itself. Where all motifs lie about one
 * middle (within 10 mm), that says nothing of the turn, and the turn step nearest to the exact one is taken. */
#pragma once

#include "../geometry/units.h"
#include "../scene/progress.h"
#include "rigid-fit.h"

G_BEGIN_DECLS

/* What the machine and the hooping allow. */
typedef struct
{
  double shift_step;      /* mm; 0: as fine as one likes */
  double turn_step;       /* degrees, > 0; 0: the machine cannot turn a design */
  double sigma;           /* mm per axis of drawing and reading a mark: HW_MARKS_SIGMA */
  double tolerance;       /* mm: more than this remaining at a motif means hoop again */
  const HwPoint *targets; /* the motifs' centres as planned, hoop axes mm */
  guint n_targets;
  const HwPoint
      *stitching; /* the outermost points of all the hooping's stitching, hoop axes mm; may be NULL */
  guint n_stitching;
  double half_width, half_height; /* mm, of the field, stitching must stay within; <= 0: not looked at */
} HwCorrectionTask;

typedef enum
{
  HW_ADVICE_STITCH, /* nothing to enter: the steps chosen are all zero and the error is within tolerance */
  HW_ADVICE_ENTER,  /* enter shift and turn, then stitch */
  HW_ADVICE_READ_AGAIN, /* the readings do not agree, or two differ by more than cloth gives */
  HW_ADVICE_HOOP_AGAIN /* no step of the machine brings the motifs within tolerance, or stitching would leave the field */
} HwCorrectionAdvice;

typedef struct
{
  HwRigidFit exact;    /* least squares over all readings that are not left out */
  HwCorrection chosen; /* in the machine's steps */
  double *remaining;   /* mm at each target: from where chosen puts it to where exact would */
  guint n_targets;
  guint n_used;          /* readings that are not left out */
  double worst;          /* mm, the largest of remaining; 0 without a target */
  int worst_target;      /* index of the target it remains at, or -1 */
  double *residuals;     /* mm at each reading (left out ones too): from the exact fit to the reading */
  int outlier;           /* index of the reading that does not agree with the others, or -1 */
  double outlier_by;     /* mm: how far it lies from where the others put it */
  HwRigidFit without;    /* the fit without it; only with an outlier */
  gboolean at_odds;      /* the readings do not agree, whether or not one stands out */
  gboolean stretch_seen; /* two readings or more were used, so that a stretch can be told */
  double
      stretch; /* percent: how much longer the cloth is than planned, between the marks (an outlier not counted); negative: it drew in */
  gboolean stretch_told; /* more than drawing and reading marks would explain (about 1 in 100) */
  gboolean
      stretch_too_much; /* more than cloth gives: the readings, or what they are compared with, are wrong */
  double leaves_field;  /* mm the stitching would lie outside the field once corrected; 0: none */
  gboolean turn_lacks;  /* the machine cannot turn a design and this hooping needs it */
  HwCorrectionAdvice advice;
} HwCorrectionAnswer;

/* Readings that cannot have been meant as they stand. */
typedef enum
{
  HW_DOUBT_NONE,
  HW_DOUBT_INCHES, /* they fit once taken as inches */
  HW_DOUBT_MILLIMETRES, /* they fit once taken as millimetres where inches were said (all about 25.4 times too far out) */
  HW_DOUBT_SWAPPED,    /* they fit once the letters first and second change places */
  HW_DOUBT_MIRRORED_U, /* they fit with right and left exchanged */
  HW_DOUBT_MIRRORED_V, /* they fit with away and towards exchanged */
  HW_DOUBT_FAR /* nothing explains them: farther off than any hooping set by hand. Two readings or more that agree with each other
                       * are believed up to 40 mm and 30 degrees. */
} HwDoubtKind;

typedef struct
{
  HwDoubtKind kind;
  int first, second; /* indices of readings, for SWAPPED; else -1 */
  double rms; /* mm that remain as the readings stand (shift and turn of a hooping set by hand allowed for) */
  double rms_then; /* mm that would remain once understood so */
} HwDoubt;

/* Looks whether readings were typed in the wrong unit, at each other's mark or with a sign turned. Never changes them. n >= 1. */
HwDoubt
hw_readings_doubt (const HwReading *readings, guint n, double sigma);
/* "Readings A and B seem to have changed places: ... Change them, or say that they are right." NULL for none. Returns: (transfer full) */
char *
hw_doubt_text (const HwDoubt *doubt, const HwReading *readings, guint n, HwUnit unit);

/* Fills *answer (clear it with hw_correction_answer_clear). Errors (HW_FIT_ERROR): no reading left, all marks in one place, marks too near each other (all within
 * 1 mm) to tell a turn, a place that is no number or farther off than any hoop: one sentence. One reading gives a shift and no turn. Readings all on one line are fine for a rigid fit. */
gboolean
hw_correction_find (const HwReading *readings,
                    guint n,
                    const HwCorrectionTask *task,
                    HwCorrectionAnswer *answer,
                    GError **error);
void
hw_correction_answer_clear (HwCorrectionAnswer *answer);

/* In the words of the machine: "Shift 1.8 mm left, 0.6 mm towards you; turn 1 degree clockwise."; "Nothing to enter." Returns: (transfer full) */
char *
hw_correction_text (const HwCorrection *correction, HwUnit unit);
/* One or two sentences: what to do now, with the outlier, the stretch and the error that remains where they matter. Returns: (transfer full) */
char *
hw_correction_advice_text (const HwCorrectionAnswer *answer,
                           const HwReading *readings,
                           guint n,
                           const HwCorrectionTask *task,
                           HwUnit unit);
/* A way in hoop axes: "1.8 mm left, 0.6 mm towards you"; "on the spot" when both round to nothing. Returns: (transfer full) */
char *
hw_way_text (HwPoint way, HwUnit unit);

/* Where a design point is stitched under a correction. */
HwPoint
hw_correction_apply (const HwCorrection *correction, HwPoint design);

G_END_DECLS
