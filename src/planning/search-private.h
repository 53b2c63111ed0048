/* The inside of the search, shared by the files that make it up. */
#pragma once

#include "search.h"

G_BEGIN_DECLS

#define HW_SEARCH_ALWAYS 24   /* items for which the proof is carried to its end */
#define HW_WEIGHT_ONE 1000000 /* a hooping's whole room in weights */

/* A set that is being put together, item by item, and taken back in reverse. Items between two others in the order come along. */
typedef struct
{
  guint n, depth, room;
  guint *items;
  guint *starts; /* depth: how many items there were before */
  guint64 *mask; /* the items */
  guint64 *pre;  /* room rows: all that comes before some item, at each depth */
  guint64 *post; /* all that comes after some item */
} HwLoad;

/* What is known about a part of the items: bounds, and the set to take out first when high is reached. */
typedef struct
{
  guint16 low, high; /* high: G_MAXUINT16 when none is known */
  guint32 at;        /* row of the choice, and of the key */
} HwKnown;

typedef struct
{
  guint words;
  guint n, room; /* entries; table length, a power of two */
  guint32 *slots;
  GArray *known; /* HwKnown */
  guint64 *rows; /* two rows an entry: key, choice */
  gsize rows_room;
  gsize most_bytes;
} HwMemo;

/* Items that nothing ties to the others: no pair shares, no loop of order goes through both. */
typedef struct
{
  guint64 *mask;
  guint n;
  guint low;            /* no fewer hoopings */
  GArray *blocks;       /* guint64 rows: the best grouping */
  guint64 *strangers;   /* the most items found that never share, two by two */
  guint tries;          /* effort spent on them */
  gboolean all_weighed; /* the best weights are known */
  guint dives;
} HwPart;

struct _HwSearch
{
  HwSearchProblem problem;
  guint n, words;
  const guint64 *before;
  guint64 *after;
  guint64 *share; /* n rows, symmetric, without the item itself; NULL beyond HW_SEARCH_MOST_PAIRS */
  guint *weight;  /* in HW_WEIGHT_ONE: no set that may share weighs more than 1 */
  guint *sorted;  /* the items, each after all it waits for */
  guint *lonely;  /* the items, those with fewest others to share with first */
  gboolean weighed;
  GHashTable *weighings; /* GBytes of a set -> what search-dive.c knows of it */
  GArray *heavy;         /* rows: sets that may share and bound the weights somewhere */
  HwLoad load;
  HwMemo memo;
  gsize most_listed; /* sets of one list */
  GPtrArray *parts;
  guint low_of_all; /* beyond HW_SEARCH_MOST_PAIRS */

  guint *block_of; /* the best grouping */
  guint n_blocks;

  guint64 steps;
  guint64 step_limit;
  gint64 deadline;
  GCancellable *cancellable;
  gboolean stopped;
  gboolean tried; /* some bound needed the search */
};

#define hw_search_before(s, i) HW_MASK_ROW ((s)->before, (i), (s)->words)
#define hw_search_after(s, i) HW_MASK_ROW ((s)->after, (i), (s)->words)
#define hw_search_share(s, i) HW_MASK_ROW ((s)->share, (i), (s)->words)

/* TRUE when time, work or patience is at its end. Counts a step. */
gboolean
hw_search_should_stop (HwSearch *search);

/* By the clock or by cancelling. */
gboolean
hw_search_time_is_up (const HwSearch *search);

/* search-loads.c */
void
hw_load_init (HwLoad *load, guint n);
void
hw_load_clear (HwLoad *load);
void
hw_load_restart (HwSearch *search);
/* Adds an item and all between; FALSE, leaving the load alone, when they cannot share. */
gboolean
hw_load_push (HwSearch *search, guint item);
void
hw_load_pop (HwSearch *search);
/* Whether all items of the set may share. */
gboolean
hw_load_holds (HwSearch *search, const guint64 *set);
/* Appends to found (guint64 rows) every maximal set that can be stitched first of region (last, when backwards), and with `must` in it
 * when that is no G_MAXUINT. FALSE when stopped or there are more than most. */
gboolean
hw_loads_find (
    HwSearch *search, const guint64 *region, guint must, gboolean backwards, guint most, GArray *found);

/* search-memo.c */
void
hw_memo_init (HwMemo *memo, guint words);
void
hw_memo_clear (HwMemo *memo);
/* The entry of a set, made when there is none. Valid until the next call. NULL when the memory set for it is used up. */
HwKnown *
hw_memo_get (HwMemo *memo, const guint64 *set, gboolean *made);
guint64 *
hw_memo_choice (HwMemo *memo, const HwKnown *known);

/* search-solve.c */
/* Takes the part of rest that hangs together with its first item out of rest. */
void
hw_search_take_part (HwSearch *search, guint64 *rest, guint64 *part);
/* Whether the set can be stitched in at most limit hoopings. Only meaningful when not stopped afterwards. */
gboolean
hw_search_solve (HwSearch *search, const guint64 *set, guint limit);
/* The maximal sets that can be stitched first of set (last, when backwards); where an item must lead, only those with it. FALSE when stopped or
 * there are more than most. */
gboolean
hw_search_list_loads (HwSearch *search, const guint64 *set, guint most, gboolean *backwards, GArray *loads);
typedef struct
{
  guint64 worth; /* weight, then size */
  guint row;
} HwRanked;
/* The sets in the order to try them, the heaviest first. */
HwRanked *
hw_search_rank_loads (const HwSearch *search, const GArray *loads, const guint *weight);
/* The grouping behind a solve that said yes: rows appended to blocks. */
void
hw_search_extract (HwSearch *search, const guint64 *set, GArray *blocks);

/* search-assign.c */
/* Whether the items of part can be stitched in limit hoopings, strangers being some of them that never share: 1 yes, and the hoopings are
 * appended to blocks; 0 no; -1 not known within so many steps. */
int
hw_search_assign (HwSearch *search,
                  const guint64 *part,
                  const guint64 *strangers,
                  guint limit,
                  gsize steps,
                  GArray *blocks);

/* search-bounds.c */
/* Sorts the items once for the bounds; share and before must be known. */
void
hw_search_sort (HwSearch *search);
/* A bound for a set, by its weight and its longest chain. */
guint
hw_search_low (HwSearch *search, const guint64 *set);
/* The longest chain that never shares: its length; the items are added to chain when that is not NULL. */
guint
hw_search_chain (HwSearch *search, const guint64 *set, GArray *chain);
/* A large set of items that never share, two by two, looked for with so many tries; stops when wanted is reached or the time is up. Adds
 * to members. Returns its size. */
guint
hw_search_strangers (HwSearch *search, const guint64 *set, guint wanted, guint tries, guint64 *members);
/* The same beyond HW_SEARCH_MOST_PAIRS: within the time only. */
guint
hw_search_strangers_of_many (HwSearch *search);

/* search-weights.c: sets search->weight for the items of a part. FALSE when only some of them could be weighed. */
gboolean
hw_search_weigh (HwSearch *search, const guint64 *part);
/* The best weights of a set: search->n of them, in HW_WEIGHT_ONE, 0 outside the set. FALSE when that is too much work. */
gboolean
hw_search_weigh_set (HwSearch *search, const guint64 *set, guint *weight);

/* search-greedy.c */
typedef enum
{
  HW_GREEDY_LONELY, /* start where fewest others could join */
  HW_GREEDY_CHAIN,  /* start with what most others wait for */
  HW_GREEDY_FIRST,  /* start with the first in the list */
  HW_GREEDY_WEIGHT, /* start with the heaviest */
  HW_GREEDY_WAYS
} HwGreedyWay;
/* Appends a grouping of the set to blocks. FALSE when cancelled. */
gboolean
hw_search_greedy (HwSearch *search, const guint64 *set, HwGreedyWay way, gboolean backwards, GArray *blocks);
/* The same for any number of items, straight into block_of. FALSE when cancelled. */
gboolean
hw_search_greedy_of_many (HwSearch *search);

/* search-dive.c: looks for a grouping of a part with fewer hoopings, each time with more effort. TRUE when the part lost some. */
gboolean
hw_search_dive (HwSearch *search, HwPart *part);

/* search-windows.c: solves windows of some hoopings of a part anew. TRUE when the part lost a hooping. */
gboolean
hw_search_improve (HwSearch *search, HwPart *part, guint most_items);

G_END_DECLS
