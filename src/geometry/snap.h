/* Where a box that is being moved comes to rest: at lines, at the sides and middles of other boxes, and where the gaps between
 * neighbours become equal. Plain sums; the two axes are asked one by one and never turn the box. */
#pragma once

#include "point.h"

G_BEGIN_DECLS

/* In the order in which they win when two are equally near. */
typedef enum
{
  HW_SNAP_EDGE,   /* the line where the finished piece ends */
  HW_SNAP_MARGIN, /* how far stitching may go */
  HW_SNAP_CENTRE, /* a centre line: taken by the middle only */
  HW_SNAP_SIDE,   /* a side of another box */
  HW_SNAP_MIDDLE, /* its middle, taken by the middle only */
  HW_SNAP_GAP     /* the same gap as next to it */
} HwSnapKind;

/* A thin rule that shows why the box rests where it does. */
typedef struct
{
  HwPoint from, to; /* mm */
  HwSnapKind kind;
  double gap; /* mm from end to end, of HW_SNAP_GAP; else 0 */
} HwSnapGuide;

#define HW_SNAP_MOST_GUIDES 12

typedef struct _HwSnapField HwSnapField;

HwSnapField *
hw_snap_field_new (void);
void
hw_snap_field_free (HwSnapField *field);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSnapField, hw_snap_field_free)

/* An upright line x = at, or a level one y = at, that can be seen between `from` and `to` along it. */
void
hw_snap_field_add_line (
    HwSnapField *field, gboolean upright, double at, double from, double to, HwSnapKind kind);
/* A box that lies still; empty ones are left out. */
void
hw_snap_field_add_box (HwSnapField *field, HwBox box);

/* How far (mm) the box is to go so as to rest at what is nearest, on each axis that may move (across: x, down: y); 0 on an axis
 * where nothing is within reach (mm). */
HwPoint
hw_snap_shift (const HwSnapField *field, HwBox box, double reach, gboolean across, gboolean down);

/* All that the box rests at as it lies (to a millionth of a mm), on the axes asked for, at most HW_SNAP_MOST_GUIDES. Returns their number. */
guint
hw_snap_guides (const HwSnapField *field,
                HwBox box,
                gboolean across,
                gboolean down,
                HwSnapGuide guides[HW_SNAP_MOST_GUIDES]);

G_END_DECLS
