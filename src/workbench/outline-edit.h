/* The points of an outline while a hand works on them: moved, added, taken away, each step undone again. Plain sums, no screen. */
#pragma once

#include "../geometry/outline.h"

G_BEGIN_DECLS

typedef struct
{
  guint ring, point;
} HwOutlineSpot;

typedef struct _HwOutlineEdit HwOutlineEdit;

HwOutlineEdit *
hw_outline_edit_new (const HwOutline *outline);
void
hw_outline_edit_free (HwOutlineEdit *edit);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwOutlineEdit, hw_outline_edit_free)

/* As it is now: rings with their points, in mm; it may cross itself. (transfer none) */
const HwOutline *
hw_outline_edit_get (HwOutlineEdit *edit);
guint
hw_outline_edit_count (HwOutlineEdit *edit); /* all points */
HwPoint
hw_outline_edit_at (HwOutlineEdit *edit, HwOutlineSpot spot);

/* The point nearest to a place within reach, mm. FALSE: none. */
gboolean
hw_outline_edit_point_near (HwOutlineEdit *edit, HwPoint at, double reach, HwOutlineSpot *spot);
/* The side nearest to it; the spot is where a point on that side would be put. */
gboolean
hw_outline_edit_side_near (HwOutlineEdit *edit, HwPoint at, double reach, HwOutlineSpot *spot);

/* Each is one step; a move with merge goes on with the move before it. */
void
hw_outline_edit_move (HwOutlineEdit *edit, HwOutlineSpot spot, HwPoint to, gboolean merge);
void
hw_outline_edit_add (HwOutlineEdit *edit, HwOutlineSpot spot, HwPoint at);
/* A ring of three points goes whole, unless it is the last: then FALSE. */
gboolean
hw_outline_edit_remove (HwOutlineEdit *edit, HwOutlineSpot spot);
/* FALSE when there is nothing to undo. */
gboolean
hw_outline_edit_undo (HwOutlineEdit *edit);
gboolean
hw_outline_edit_redo (HwOutlineEdit *edit);
gboolean
hw_outline_edit_can_undo (HwOutlineEdit *edit);
gboolean
hw_outline_edit_can_redo (HwOutlineEdit *edit);
gboolean
hw_outline_edit_is_changed (HwOutlineEdit *edit);
/* The point after (step 1) or before (-1) it, from ring to ring, round and round. */
HwOutlineSpot
hw_outline_edit_beside (HwOutlineEdit *edit, HwOutlineSpot spot, int step);

G_END_DECLS
