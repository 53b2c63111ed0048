/* What the files of the correction share: the readings that count, how the steps of the machine are chosen, and whether the readings agree. */
#pragma once

#include "correction.h"

G_BEGIN_DECLS

/* The readings that are not left out; index is where each stands among all. */
typedef struct
{
  HwPoint *design, *at;
  guint *index;
  guint n;
} HwUsedReadings;

void
hw_used_readings_init (HwUsedReadings *used, const HwReading *readings, guint n);
void
hw_used_readings_clear (HwUsedReadings *used);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwUsedReadings, hw_used_readings_clear)

/* The steps of the machine nearest the exact fit: those that leave the smallest worst error over the targets. */
HwCorrection
hw_correction_steps (const HwRigidFit *exact, const HwCorrectionTask *task);

/* Whether readings agree. */
typedef struct
{
  int outlier; /* among the used ones, or -1 */
  double by;   /* mm from where the others put it */
  HwRigidFit without;
  gboolean at_odds; /* they do not agree, whether or not one can be named */
} HwAgreement;

HwAgreement
hw_readings_agree (const HwUsedReadings *used, double sigma);

G_END_DECLS
