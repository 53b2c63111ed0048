/* How pieces are cut from a roll: side by side across it, turned by 90 degrees where that saves. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double width, height; /* mm; either may lie across the roll */
} HwRollPiece;

/* The shortest length of a roll of that width, mm, from which all pieces can be cut in rows across it, a row as long as its longest piece. Exact while
 * numbers and sizes are few (HW_ROLL_STEPS); beyond that the best of three ways to fill the rows one by one.
 * too_wide (may be NULL): how many pieces the roll does not yield either way; they are left out. */
double
hw_roll_length (const HwRollPiece *pieces, guint n, double roll_width, guint *too_wide);

/* Rows looked at, over all numbers of pieces, up to which the length is exact: some tenths of a second. */
#define HW_ROLL_STEPS 20000000

G_END_DECLS
