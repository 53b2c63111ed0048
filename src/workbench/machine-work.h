/* The hooping in the machine as the "At the machine" view needs it: what is stitched, what it is about to stitch, and the words of each step. Plain data, made anew
 * whenever the scene changes and shared by reference; no screen. */
#pragma once

#include "../registration/correction.h"
#include "bench.h"

G_BEGIN_DECLS

typedef struct
{
  HwSnapshot *snapshot;
  const HwPin *pin;    /* in the snapshot, with its work */
  HwPlan *plan;        /* the hoopings stitched already, in their order, then this one */
  guint hooping;       /* this one's place in that plan: how many are stitched */
  guint number, n_all; /* "hooping 3 of 5": as the bench counts; n_all 0 while it is planning */
  GArray *steps;       /* HwBlockStep: its thread blocks in stitch order */
} HwMachineWork;

/* NULL when no hooping is in the machine, or the scene no longer has what it needs. Returns: (transfer full) (nullable) */
HwMachineWork *
hw_machine_work_new (HwBench *bench);
HwMachineWork *
hw_machine_work_ref (HwMachineWork *work);
void
hw_machine_work_unref (HwMachineWork *work);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwMachineWork, hw_machine_work_unref)

const HwHooping *
hw_machine_work_hooping (const HwMachineWork *work);
const HwHoop *
hw_machine_work_hoop (const HwMachineWork *work);
/* The thread block at a place of the steps, and its motif. NULL past the end. */
const HwThreadBlock *
hw_machine_work_thread (const HwMachineWork *work, guint at, const HwMotif **motif);
/* A mark of it where the plan has it, hoop axes. */
HwPoint
hw_machine_work_mark (const HwMachineWork *work, guint mark);

/* The answer to the readings made so far; hw_correction_answer_clear() it. */
gboolean
hw_machine_work_correction (const HwMachineWork *work, HwCorrectionAnswer *answer, GError **error);
/* That answer's advice in sentences. Returns: (transfer full) */
char *
hw_machine_work_advice (const HwMachineWork *work, const HwCorrectionAnswer *answer, HwUnit unit);
/* Where a motif of the hooping (from 0) lies from the hoop's centre once corrected, and its turn. NULL: as planned. */
HwPoint
hw_machine_work_place (const HwMachineWork *work, guint motif, const HwCorrection *correction, double *turn);

/* Where a hooping landed whose marks were found at the readings after it had been stitched under a correction (NULL: none): the stitching went where the
 * machine was told, the cloth lay where the readings say. */
HwCorrection
hw_landed_from_readings (const HwRigidFit *found, const HwCorrection *entered);

/* One word for the row of steps; what the step is called; what to do in a sentence or two; the caution that belongs there, or NULL. (transfer full) but
 * for the first two. */
const char *
hw_machine_step_word (HwWorkStep step);
const char *
hw_machine_step_title (HwWorkStep step, HwHold hold);
char *
hw_machine_step_sentence (const HwMachineWork *work, HwWorkStep step);
char *
hw_machine_step_caution (const HwMachineWork *work, HwWorkStep step);
/* "Hooping 3 is in the machine, at: read the needle." Returns: (transfer full) (nullable) */
char *
hw_machine_where_it_stopped (HwBench *bench);
/* "1° clockwise", "not turned". Returns: (transfer full) */
char *
hw_machine_turn_text (double degrees);
/* "40.2 mm right" / "61.0 mm away from you" each alone. Returns: (transfer full) */
char *
hw_machine_across_text (double u, HwUnit unit);
char *
hw_machine_along_text (double v, HwUnit unit);

G_END_DECLS
