/* Four sides of a sheet: from a hull, and followed in the photo. Private to this room. */
#pragma once

#include "../geometry/outline.h"
#include "../geometry/hull.h"
#include "../scene/picture.h"

G_BEGIN_DECLS

/* The quadrilateral around a hull (clockwise, n >= 4) that is left when its sides go one by one, each time the one that adds the least. FALSE when it gets no such
 * four. */
gboolean
hw_sheet_reduce (const HwPoint *hull, guint n, HwPoint corners[4]);

/* Moves corners (px of the photo, clockwise) to where its light sides end within reach px of the lines between them. FALSE when some side is no sharp straight edge. */
gboolean
hw_sheet_follow_sides (const HwPicture *picture, HwPoint corners[4], double reach);

G_END_DECLS
