/* How hoopings get from one plan to the next on the screen: those that stitch most of the same motifs in the same hoop glide from pose to pose, the others fade. */
#pragma once

#include "../planning/plan.h"

G_BEGIN_DECLS

#define HW_GLIDE_LASTS 200 /* ms */

typedef struct
{
  gboolean known; /* it was in the plan before; else it comes in */
  int before;     /* its index there, or -1 */
  HwPoint centre; /* where it comes from, mm */
  double angle;
} HwGlideFrom;

typedef struct
{
  HwGlideFrom *from; /* of each hooping of the new plan */
  guint n;
  gboolean *leaves; /* of each hooping of the plan before: none of the new ones goes on from it */
  guint n_before;
  gboolean anything; /* moves, comes or leaves */
} HwGlide;

/* NULL when the plans are not of the same scene: then nothing glides. (transfer full) */
HwGlide *
hw_glide_new (const HwPlan *before, const HwPlan *after);
void
hw_glide_free (HwGlide *glide);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwGlide, hw_glide_free)

/* How much of the way is gone after so many ms, 0 to 1: quick first, then slower. */
double
hw_glide_part (double ms);
/* Pose of a hooping of the new plan when that part of the way is gone; the shorter turn is taken. */
void
hw_glide_pose (
    const HwGlide *glide, const HwPlan *after, guint hooping, double part, HwPoint *centre, double *angle);

G_END_DECLS
