/* The inside of the choice of marks, for the files that make it up. */
#pragma once

#include "marks.h"

G_BEGIN_DECLS

#define HW_MOST_MARKS 4
#define HW_SAME_MARK 0.05  /* mm: nearer than that it is the same cross */
#define HW_MARK_TARGETS 40 /* room for what a layout is measured at */

/* Where a hooping's marks may be: the part of its field that is on the cloth, less what earlier stitching hides. */
typedef struct
{
  HwPoint centre;
  double angle;
  HwPoint corners[12]; /* clockwise as seen */
  guint n_corners;
  HwBox box;          /* of the corners, in hoop axes */
  GPtrArray *earlier; /* HwOutline, not owned: stitched before, and near */
  GPtrArray *own;     /* the hooping's own */
  double inset;       /* mm from the field's sides */
  double apart;       /* mm between two marks, at least; from the centre cross half of that */
} HwMarkField;

/* placed: the outlines of all the snapshot's motifs as they lie on the cloth; they must outlive the field. */
void
hw_mark_field_init (HwMarkField *field, const HwPlan *plan, guint hooping, HwOutline *const *placed);
void
hw_mark_field_clear (HwMarkField *field);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwMarkField, hw_mark_field_clear)
/* Reached with ease, on the cloth and visible. */
gboolean
hw_mark_field_allows (const HwMarkField *field, HwPoint p);
/* The same for a mark that another hooping has: it may lie a little nearer to the field's sides. */
gboolean
hw_mark_field_allows_drawn (const HwMarkField *field, HwPoint p);
/* Also clear of the hooping's own motifs, so that no template lies over it. */
gboolean
hw_mark_field_is_free (const HwMarkField *field, HwPoint p);
/* The point of the field nearest to p, hidden or not. */
HwPoint
hw_mark_field_nearest (const HwMarkField *field, HwPoint p);
/* Places to begin the search from: corners, sides, a grid; closer together where little is left. Returns: (transfer full) (element-type HwPoint) */
GArray *
hw_mark_field_places (const HwMarkField *field);
/* Why a mark cannot serve at all, in a clause that goes on after "because"; NULL when it can. The person's own marks may lie nearer to the
 * field's sides than those a plan chooses. Returns: (transfer full) (nullable) */
char *
hw_mark_trouble (const HwPlan *plan, guint hooping, HwOutline *const *placed, HwPoint p, HwUnit unit);

/* What the marks of a hooping are chosen for, and what is given. */
typedef struct
{
  const HwMarkField *field;
  HwPoint centres[HW_MARK_TARGETS]; /* of the motifs; where there are many the outermost of them */
  guint n_centres;
  HwPoint reach[HW_MARK_TARGETS]; /* the outermost points of the stitching */
  guint n_reach;
  const HwPoint *given; /* marks that are there in any case */
  guint n_given;
  const HwPoint *drawn; /* marks other hoopings have, usable here: shared when that costs nothing */
  guint n_drawn;
  guint least, most; /* how many marks, where there is room */
  double sigma;
} HwMarkTask;

typedef struct
{
  HwPoint marks[HW_MARK_TARGETS]; /* those given first */
  guint n;
} HwMarkLayout;

/* Fills what the layout is measured at from the hooping's motifs. */
void
hw_mark_task_aim (HwMarkTask *task, const HwPlan *plan, guint hooping, HwOutline *const *placed);
/* The best layout; fewer marks than `least` when there is no place for more. */
void
hw_mark_layout_choose (const HwMarkTask *task, HwMarkLayout *layout);
/* Adds the one mark that helps most to layout, wherever it helps at all. FALSE when there is no place for it. */
gboolean
hw_mark_layout_add_one (const HwMarkTask *task, HwMarkLayout *layout);

/* The marks a pin brings along, or NULL. */
const HwPin *
hw_marks_pin_of (const HwPlan *plan, guint hooping);
/* The usable held marks of a hooping, once each; a problem for each that cannot serve. Returns: (transfer full) (element-type HwPoint) */
GArray *
hw_marks_held_for (HwPlan *plan, guint hooping, HwOutline *const *placed, HwUnit unit);

G_END_DECLS
