/* A plan laid out for questions: what overlaps, which sets fit which hoop, what must come between. */
#pragma once

#include "explain.h"
#include "order.h"
#include "sharing.h"

G_BEGIN_DECLS

typedef struct
{
  const HwPlan *plan;
  const HwSnapshot *scene;
  HwUnit unit;
  HwSnapshot *usable; /* the scene with no other hoops than those for new hoopings */
  guint *hoop_of;     /* its hoops' numbers in the scene */
  HwPlaced *placed;   /* all motifs */
  guint *hooping_of;  /* per motif, or G_MAXUINT */
  HwOrder *order;     /* over the motifs still to be stitched */
  guint *number;      /* per motif: its number in the order, or G_MAXUINT */
  guint *motif;       /* the other way round */
  guint8 *apart;      /* n x n: kept apart by the person; NULL when nothing is */
  int *part;          /* per motif: the part of the scene it is stitched with, or -1 */
} HwExplaining;

HwExplaining *
hw_explaining_new (const HwPlan *plan, HwUnit unit);
void
hw_explaining_free (HwExplaining *ex);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwExplaining, hw_explaining_free)

#define hw_explaining_name(ex, i) (hw_snapshot_motif ((ex)->scene, (i))->name)

/* Whether motif i must be stitched before j: by overlap, tie or part. */
gboolean
hw_explaining_before (const HwExplaining *ex, guint i, guint j);
/* "Quince lies over Gate", "Gate is tied before Quince", "the order goes Gate before Fig branch, Fig branch before Quince", "“Upper” is stitched before “Lower”"; i before j. */
char *
hw_explaining_order_text (const HwExplaining *ex, guint i, guint j);

/* "Gate, Quince and Fig branch", "Gate, Quince and 7 more". */
char *
hw_explaining_names (const HwExplaining *ex, const guint *motifs, guint n);
/* "130 × 180 mm" */
char *
hw_explaining_hoop_size (const HwExplaining *ex, const HwHoop *hoop);

/* The motifs that must be stitched between motifs of the set. Returns: (transfer full) (element-type guint) */
GArray *
hw_explaining_between (const HwExplaining *ex, const guint *motifs, guint n);
/* Two motifs of the set that the person keeps apart, or that are in different parts; FALSE when there are none. */
gboolean
hw_explaining_apart (const HwExplaining *ex, const guint *motifs, guint n, guint pair[2]);
/* "Gate and Quince are to be kept apart", "Gate and Quince are in different parts". */
char *
hw_explaining_apart_text (const HwExplaining *ex, const guint pair[2]);

/* Returns: (transfer full) (element-type HwPoint) */
GArray *
hw_explaining_hull (const HwExplaining *ex, const guint *motifs, guint n);
/* Whether a hoop for new hoopings takes the hull. */
gboolean
hw_explaining_fits (const HwExplaining *ex, const GArray *hull);
/* By how many mm it misses the hoop that comes nearest; 0 when it fits. */
double
hw_explaining_miss (const HwExplaining *ex, const GArray *hull);
/* Why no hoop takes the hull: "need 312 × 140 mm together; the 130 × 180 mm hoop, which comes nearest, takes 126 × 176 mm". */
char *
hw_explaining_needs_text (const HwExplaining *ex, const GArray *hull);

/* The least turn on the cloth, degrees clockwise, that brings the hull square to a hoop that is turned by quarters only; to a tenth of a degree where
 * that does. 0 when none does. */
double
hw_explaining_turn (const HwExplaining *ex, const GArray *hull);
/* "Turned 34.4° anticlockwise on the cloth, Buoy fits." Returns: (transfer full) */
char *
hw_explaining_turn_text (double turn, const char *name);

/* The parts, each appended to text. */
void
hw_explain_add_count (GString *text, const HwExplaining *ex);
void
hw_explain_add_hooping (GString *text, const HwExplaining *ex, guint hooping);
void
hw_explain_add_hoop (GString *text, const HwExplaining *ex, guint hooping);
void
hw_explain_add_neighbours (GString *text, const HwExplaining *ex, guint hooping);
void
hw_explain_add_oversize (GString *text, const HwExplaining *ex, guint motif);

G_END_DECLS
