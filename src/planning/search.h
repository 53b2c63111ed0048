/* The abstract question behind a plan: items in an order, sets of items that may share a hooping, the fewest hoopings. Knows no cloth. An
 * item is a motif, or a pinned hooping as a whole. Any part of a set that may share may share too. */
#pragma once

#include <gio/gio.h>

#include "mask.h"

G_BEGIN_DECLS

#define HW_SEARCH_MOST_PAIRS                                                                                 \
  1024 /* items for which all pairs are asked beforehand; above, the answer is simple and the bound weak */

/* Whether the n items of set may share a hooping; all but the last may for certain unless n = 1. */
typedef gboolean (*HwMayShare) (gpointer data, const guint *set, guint n);

typedef struct
{
  guint n;
  const guint64 *before; /* n rows of HW_MASK_WORDS (n): transitive, without loops */
  HwMayShare may_share;
  gpointer data;
  GCancellable *cancellable; /* may be NULL */
} HwSearchProblem;

typedef enum
{
  HW_REASON_NONE,    /* the bound is only a bound */
  HW_REASON_TRIVIAL, /* one hooping, or none */
  HW_REASON_PAIRS,   /* the items of `reason_items` can never share, two by two */
  HW_REASON_CHAIN,   /* they must come one after another and neighbours cannot share */
  HW_REASON_WEIGHTS, /* weighed: no hooping takes more than 1, together they are more than count - 1 */
  HW_REASON_TRIED    /* every way was tried */
} HwReason;

/* A way to stitch all items. */
typedef struct
{
  guint n_blocks;
  guint *block_of; /* n: which hooping; hoopings are numbered in an order that works */
} HwGrouping;

typedef struct _HwSearch HwSearch;

/* Finds a first grouping and a first bound at once. The problem's rows must live as long as the search. NULL when cancelled. */
HwSearch *
hw_search_new (const HwSearchProblem *problem);
void
hw_search_free (HwSearch *search);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSearch, hw_search_free)

/* Bytes the search may use for what it finds out; it ends with its best answer and bound when they are used up. */
void
hw_search_limit_memory (HwSearch *search, gsize bytes);

/* Offers a grouping known from elsewhere; taken when it works and is as good as the best so far. Returns TRUE when it was taken. */
gboolean
hw_search_offer (HwSearch *search, const guint *block_of, guint n_blocks);

/* Goes on until proven, cancelled or deadline (monotonic time in microseconds, or G_MAXINT64) has passed. Returns TRUE when proven. */
gboolean
hw_search_run (HwSearch *search, gint64 deadline);

guint
hw_search_count (HwSearch *search); /* hoopings of the best grouping */
guint
hw_search_bound (HwSearch *search); /* never more than the fewest */
/* (transfer none): block_of of the best grouping, valid until the search goes on */
const guint *
hw_search_blocks (HwSearch *search);

/* Why there are not fewer. Returns: (transfer full) (element-type guint): the items it speaks of, may be empty */
GArray *
hw_search_reason (HwSearch *search, HwReason *reason);

/* Whether the items of set, a part without gaps in the order, can be stitched in at most limit hoopings: 1 yes, 0 no, -1 not known within a
 * fixed amount of work. */
int
hw_search_within (HwSearch *search, const guint64 *set, guint limit);

/* A number of hoopings that the items of set, a part without gaps in the order, need at least, found within a fixed amount of work. */
guint
hw_search_at_least (HwSearch *search, const guint64 *set);

G_END_DECLS
