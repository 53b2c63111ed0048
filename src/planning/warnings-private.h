/* The rules of the warnings, one file each. */
#pragma once

#include "warnings.h"

G_BEGIN_DECLS

typedef struct
{
  HwPlan *plan;
  const HwSnapshot *snapshot;
  const HwPlaced *placed;
  HwUnit unit;
  guint told; /* of the present rule */
} HwWarner;

/* Adds a warning, takes over text. NULL, with text freed, when enough of the rule have been told. */
HwProblem *
hw_warner_tell (
    HwWarner *warner, HwProblemKind kind, int motif, int hooping, double amount, HwPoint where, char *text);

/* How many of the present rule were left untold. */
guint
hw_warner_untold (const HwWarner *warner);

/* Ends a rule with a sentence on those left untold; takes over text, and frees it when there are none. */
void
hw_warner_rest (HwWarner *warner, HwProblemKind kind, char *text);

const char *
hw_warner_name (const HwWarner *warner, guint motif);

/* "Gate, Quince and 2 more" of some motifs. Returns: (transfer full) */
char *
hw_warner_names (const HwWarner *warner, const guint *motifs, guint n);

/* A point of the hooping's axes on the cloth. */
HwPoint
hw_hooping_point (HwPoint centre, double angle, double u, double v);

/* The upright box around a turned rectangle. */
HwBox
hw_hooping_box (HwPoint centre, double angle, double width, double height);

void
hw_warn_scale (HwWarner *warner);
void
hw_warn_hairlines (HwWarner *warner);
void
hw_warn_frames_off_cloth (HwWarner *warner);
void
hw_warn_frames_on_stitching (HwWarner *warner);
void
hw_warn_cloth (HwWarner *warner);

G_END_DECLS
