/* Private to this room: rectangles laid on as few sheets as can be, so that they are parted by straight cuts from edge to edge. Plain sums,
 * millimetres; knows nothing of what is on the pieces. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double width, height; /* mm, over 0 */
} HwNestSize;

typedef struct
{
  guint sheet;
  double x, y;     /* its top left corner from the window's */
  gboolean turned; /* by 90 degrees: it takes its height across and its width down */
} HwNestPlace;

typedef struct
{
  HwNestPlace *places; /* of each piece */
  gboolean *lying;     /* of each sheet: which of the two windows it has */
  guint n_sheets;
} HwNest;

/* The two ways a sheet may lie, each with a window of its own. */
typedef struct
{
  HwNestSize upright, lying;
} HwNestWindows;

/* Whether a piece fits a sheet at all, turned or not. */
gboolean
hw_nest_fits (HwNestSize piece, const HwNestWindows *windows);

/* Lays out all pieces, each of which must fit. Pieces are turned only where that saves a sheet, or where they do not fit otherwise. The same
 * pieces always give the same nest; sheets come in the order of their first piece. Returns: (transfer full) */
HwNest *
hw_nest_new (const HwNestSize *pieces, guint n_pieces, const HwNestWindows *windows);
/* The same with no piece turned that fits upright. Returns: (transfer full) */
HwNest *
hw_nest_new_upright (const HwNestSize *pieces, guint n_pieces, const HwNestWindows *windows);
void
hw_nest_free (HwNest *nest);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwNest, hw_nest_free)

G_END_DECLS
