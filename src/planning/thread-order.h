/* The order that changes thread least often among groupings of the same number of hoopings, or that takes least time whatever their number.
 * What is put in order is whole motifs, whose inner changes are what they are and not counted, or, where blocks may be mixed, the thread
 * blocks of motifs one by one. */
#pragma once

#include "search.h"

G_BEGIN_DECLS

#define HW_THREAD_NONE 0

typedef struct
{
  guint n;               /* motifs, or blocks of motifs */
  const guint64 *before; /* n rows, transitive */
  const guint
      *enters; /* the thread a motif begins with, 1 .. n_threads, or HW_THREAD_NONE when it has none at all */
  const guint *leaves; /* the thread it ends with */
  guint n_threads;
  guint start;          /* the thread in the needle beforehand, or HW_THREAD_NONE */
  const guint *pin_of;  /* motifs of a pinned hooping: its number; G_MAXUINT for free motifs */
  HwMayShare may_share; /* of free motifs; see search.h */
  gpointer data;
  HwSearch *search;     /* what the motifs left over need; may be NULL */
  const guint *item_of; /* a motif's item in the search */
  const guint
      *motif_of; /* blocks: the first block of its motif, which stays in one hooping; NULL for whole motifs */
  gboolean
      by_time; /* least time: the number of hoopings is free, and what they and the changes cost counts */
  guint64 hooping_cost, change_cost; /* thousandths of a minute */
} HwThreadProblem;

/* An answer: the motifs in stitch order, cut into hoopings. */
typedef struct
{
  guint n, n_blocks;
  guint *sequence; /* n */
  guint *ends;     /* n_blocks: where in the sequence each hooping ends */
  guint changes;
  guint bound;        /* no grouping of n_blocks hoopings has fewer */
  guint64 cost_bound; /* by time: none costs less */
} HwThreadOrder;

/* What is to be made least: changes, or the cost of hoopings and changes. */
guint64
hw_thread_order_cost (const HwThreadProblem *problem, const HwThreadOrder *order);

/* Takes over what `from` has (of the same problem). */
void
hw_thread_order_assign (HwThreadOrder *order, const HwThreadOrder *from);

/* The first block of the motif that i belongs to. */
#define hw_thread_motif(problem, i) ((problem)->motif_of != NULL ? (problem)->motif_of[i] : (i))

HwThreadOrder *
hw_thread_order_new (guint n, guint n_blocks);
void
hw_thread_order_free (HwThreadOrder *order);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwThreadOrder, hw_thread_order_free)

/* The best order inside the hoopings of a grouping, hoopings in the order of their numbers: exact for hoopings of up to about ten motifs. */
HwThreadOrder *
hw_thread_order_of_grouping (const HwThreadProblem *problem, const guint *block_of, guint n_blocks);

/* How hard to try: moves looked at, and states of the exact search. */
typedef struct
{
  guint moves;
  guint states;
  gint64 deadline; /* monotonic, microseconds */
  GCancellable *cancellable;
} HwThreadEffort;

/* Makes the order better: by moving motifs and hoopings, then by exact search. The given order stays when nothing has fewer changes. */
void
hw_thread_order_improve (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort);

/* Changes between motifs of a sequence. */
guint
hw_thread_order_count (const HwThreadProblem *problem, const guint *sequence, guint n);

/* A bound from the threads alone: the least number of unbroken runs of thread that the motifs of rest can be strung on, after the thread
 * `now`. rest: a mask, or NULL for all. */
guint
hw_thread_order_low (const HwThreadProblem *problem, const guint64 *rest, guint now);

/* thread-moves.c, thread-more.c, thread-search.c: steps of improving. */
void
hw_thread_moves (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort);
void
hw_thread_more (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort);
void
hw_thread_search (const HwThreadProblem *problem, HwThreadOrder *order, const HwThreadEffort *effort);

G_END_DECLS
