/* Wishes that contradict, as they are found and told of. Private to contradictions.c and contradictions-words.c. */
#pragma once

#include "contradictions.h"

G_BEGIN_DECLS

/* Wishes are numbered: pins first, then ties. */
typedef struct
{
  const HwWishesAtOdds *odds;
  guint n, n_pins, n_wishes;
  gboolean *active; /* n_wishes */
  guint *pin_of;    /* n: active pin of a motif of the order, or G_MAXUINT */
  GPtrArray *found; /* HwContradiction */
  gboolean *out;    /* n_wishes: to be left out */
  guint looks;
  guint64 walked;
} HwSettling;

typedef struct
{
  GArray *wishes;  /* guint, falling in readiness to be left out */
  GArray *way;     /* guint: motifs of the order, the first again at the end; empty when there is no loop */
  int together[2]; /* kept apart, or the same motif twice for one in two pins; -1 */
} HwContradiction;

const HwHeld *
hw_settling_pin (const HwSettling *s, guint p);
/* Its motifs by their number in the order. */
HwTie
hw_settling_tie (const HwSettling *s, guint wish);

/* Adds the sentence about a wish that is left out. */
void
hw_settling_tell (const HwSettling *s, guint wish, HwPlan *plan);

G_END_DECLS
