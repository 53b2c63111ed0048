/* The linear program behind the weights: most weight in all, no set more than 1. */
#pragma once

#include "search-private.h"

G_BEGIN_DECLS

/* rows: basic = b - a x; value: z0 - d x. Variables 0 .. n-1 are the weights, higher ones what is left free of a set's room. */
typedef struct
{
  guint n, m, room;
  double *a; /* room x n */
  double *b;
  double *d;
  int *basic;    /* m: variable */
  int *nonbasic; /* n: variable */
  guint *used;   /* n, for one pivot */
  int *row_of;   /* n: row of a weight, or -1 - its column */
  int next;
} HwDictionary;

/* n weights, each at most 1: that much is solved from the beginning. */
void
hw_dictionary_init (HwDictionary *dict, guint n);
void
hw_dictionary_clear (HwDictionary *dict);
/* The weights of the set, 0 .. n-1, come to 1 at most from now on. */
void
hw_dictionary_add (HwDictionary *dict, const guint *set, guint n_set);
/* Until no room is overfull. FALSE when it does not come to an end, or the search's time is up. */
gboolean
hw_dictionary_solve (HwDictionary *dict, HwSearch *search);
/* Forgets rows of sets that have room to spare. */
void
hw_dictionary_drop_slack (HwDictionary *dict);
double
hw_dictionary_weight (const HwDictionary *dict, guint column);

G_END_DECLS
