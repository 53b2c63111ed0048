/* What a scene needs of threads, beside what is at hand: which thread comes nearest to each of its colours, how many metres it takes, what is lacking. */
#pragma once

#include "snapshot.h"

G_BEGIN_DECLS

/* A thread at hand this near (CIEDE2000) is taken for the one the scene names; farther ones are offered only. */
#define HW_THREAD_SERVES 5.0
#define HW_N_NEAREST 3

/* A thread of the scene: all blocks of the same name and colour. */
typedef struct
{
  char *name;
  HwColour colour;
  char **motifs;                       /* ids, in the scene's order */
  guint64 stitches;                    /* still to be stitched */
  gboolean counted;                    /* the stitches of all its blocks are known, or their number is */
  double metres;                       /* still needed; NAN: not known, of one block and so in all */
  HwThreadMatch nearest[HW_N_NEAREST]; /* into the palette, nearest first */
  guint n_nearest;
} HwThreadNeed;

typedef struct
{
  char *name;
  char *number; /* or NULL */
  HwColour colour;
  double metres; /* NAN: not known */
  int thread; /* of the palette, of which there is too little left; -1: a thread of the scene that is not at hand */
} HwThreadPurchase;

/* In the order the threads are first met, motifs back to front. palette (of HwPaletteThread) may be empty. What is stitched already needs no thread any more.
 * Returns: (transfer full) (element-type HwThreadNeed) */
GPtrArray *
hw_thread_needs (const HwSnapshot *snapshot, GPtrArray *palette);

/* What must be bought when each thread is taken from the nearest one at hand that serves. Returns: (transfer full) (element-type HwThreadPurchase) */
GPtrArray *
hw_thread_purchases (GPtrArray *needs, GPtrArray *palette);

/* The scene with the thread of that name and colour replaced, in all motifs that are not stitched already. Returns: (transfer full): the same snapshot when there
 * is nothing to replace */
HwSnapshot *
hw_thread_replaced (const HwSnapshot *snapshot, const char *name, HwColour colour, const HwPaletteThread *by);

G_END_DECLS
