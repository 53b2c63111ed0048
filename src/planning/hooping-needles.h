/* One needle list for a whole hooping: its motifs as they are stitched one after the other, as they lie in the hoop. What a converter needs to
 * make a machine's file of. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* The list is rounded to this, mm. */
#define HW_HOOPING_NEEDLES_STEP 0.001

/* A thread block of a motif within the list. */
typedef struct
{
  guint motif;      /* index into the snapshot's motifs */
  guint thread;     /* index into the list's threads */
  guint first, end; /* its points: first <= i < end */
} HwNeedleBlock;

typedef struct
{
  HwPlan *plan;
  guint hooping; /* index into the plan */
  HwNeedleList
      *needles;      /* hoop axes: mm, u to the right, v towards the person, origin at the hoop's centre */
  HwColour *colours; /* one for each of its threads */
  HwNeedleBlock *blocks; /* in stitch order */
  guint n_blocks;
  guint thread_changes; /* between threads of the list */
  guint
      stitches_told; /* what the thread blocks of its motifs are said to have, which may differ from what their lists hold */
} HwHoopingNeedles;

#define HW_HOOPING_NEEDLES_ERROR (hw_hooping_needles_error_quark ())
typedef enum
{
  HW_HOOPING_NEEDLES_ERROR_NOT_KNOWN,     /* motifs of which only the outline is known; all are named */
  HW_HOOPING_NEEDLES_ERROR_OUTSIDE_FIELD, /* stitches or jumps the hoop does not reach; the motifs are named */
  HW_HOOPING_NEEDLES_ERROR_THREADS        /* more threads than a needle list may name */
} HwHoopingNeedlesError;
GQuark
hw_hooping_needles_error_quark (void);

/* The stitches of each motif in the plan's order, blocks mixed where the plan mixes them. It begins with a jump at the hoop's centre and goes back there for its
 * end; the thread is cut between motifs and wherever it changes; a `colour` stands just where it changes, and nowhere else. Stitches and jumps
 * are those of the motifs' lists, each laid where the plan has it, to 0.001 mm. What would pass the field by less than that is
 * laid on its side. Threads of one name and different colours get the colour added to their name, and one without a name is called by its colour.
 * correction: laid over it all, as it is entered at the machine; NULL: none.
 * Returns: (transfer full) (nullable) */
HwHoopingNeedles *
hw_hooping_needles_new (const HwPlan *plan, guint hooping, const HwCorrection *correction, GError **error);
void
hw_hooping_needles_free (HwHoopingNeedles *needles);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHoopingNeedles, hw_hooping_needles_free)

G_END_DECLS
