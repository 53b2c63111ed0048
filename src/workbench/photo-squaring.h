/* A photograph being put square: handles on it, each on a known place, and what they say together. Plain sums, no screen. */
#pragma once

#include "../geometry/units.h"
#include "../registration/homography.h"
#include "photo-places.h"

G_BEGIN_DECLS

#define HW_MOST_BOW 0.3

typedef struct
{
  HwPoint px;
  HwKnownKind kind;
  char *name;
  HwPoint mm; /* of a sheet's corner: on the sheet */
  double off; /* mm it lies from where all points together put it; NAN: not known */
} HwHandlePoint;

typedef struct
{
  double width, height; /* of the photo, px */
  GPtrArray *points;    /* HwHandlePoint */
  double bow;
  HwPoint sheet_at;         /* fabric mm of the sheet's upper left corner */
  double sheet_turn;        /* degrees */
  gboolean sheet_by_others; /* where the sheet lies is told by the other points */

  gboolean good; /* h holds */
  HwHomography h;
  char *trouble; /* one sentence why not, or NULL */
  int bad;       /* the point the others do not agree with, or -1 */
  double bad_by; /* mm */
} HwSquaring;

HwSquaring *
hw_squaring_new (double width, double height);
void
hw_squaring_free (HwSquaring *squaring);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSquaring, hw_squaring_free)

/* The photo's own points; their names are looked up among the places. */
void
hw_squaring_take (HwSquaring *squaring, const HwPhoto *photo, const GPtrArray *places);
/* Four handles some way in from the photo's corners, for the first four places of the edge line, or the cloth's corners. */
void
hw_squaring_begin (HwSquaring *squaring, const GPtrArray *places);
/* Four handles for the places from `first` on, as though the photo showed a frame (mm) upright, in its middle and filling most of it. */
void
hw_squaring_begin_at (HwSquaring *squaring, const GPtrArray *places, guint first, HwBox frame);
/* Returns its index. */
guint
hw_squaring_add (HwSquaring *squaring, HwPoint px, const HwKnownPlace *place);
/* The handle on this place is moved there; without one it is added. Returns its index. */
guint
hw_squaring_put (HwSquaring *squaring, HwPoint px, const HwKnownPlace *place);
void
hw_squaring_set_place (HwSquaring *squaring, guint point, const HwKnownPlace *place);
void
hw_squaring_remove (HwSquaring *squaring, guint point);
/* The four corners of a sheet found in the photo, clockwise from the upper left; handles of any sheet before go. long_side, short_side: mm. The longer
 * sides are told by the picture. */
void
hw_squaring_put_sheet (
    HwSquaring *squaring, const HwPoint corners[4], double long_side, double short_side, GPtrArray *places);

/* The view by the sheet of paper alone: to mm on the sheet, whatever the cloth has done. FALSE without all four of its corners. */
gboolean
hw_squaring_sheet_view (const HwSquaring *squaring, HwHomography *h);
/* Fits anew. fit_bow: the bow as well, from six points or more; when that fails the bow stays as it was. */
gboolean
hw_squaring_solve (HwSquaring *squaring, gboolean fit_bow);
/* The points in fabric mm, as a scene keeps them. Returns: (transfer full): as many as there are points */
HwPhotoPoint *
hw_squaring_points (const HwSquaring *squaring);
/* What the points say together, in a sentence or two. Returns: (transfer full) */
char *
hw_squaring_text (const HwSquaring *squaring, HwUnit unit);

G_END_DECLS
