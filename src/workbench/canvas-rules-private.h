/* The inside of the rules, shared by what judges and what draws. */
#pragma once

#include "canvas-rules.h"

G_BEGIN_DECLS

#define HW_SLIP_LETTERS 13.0 /* px */

/* One rule broken by one motif. */
typedef struct
{
  HwOutline *shape; /* what lies past the margin, or all of a motif no hoop takes */
  gboolean past;
  HwPoint at; /* where the sign stands, mm */
  char *words;
  double words_width, words_height; /* px */
} Breach;

/* What was found about a motif as it lies. */
typedef struct
{
  HwOutline *placed;
  Breach breaches[2];
  guint n_breaches;
  guint motif;
  HwLook look;
} Verdict;

/* What the verdicts rest on besides the motifs. */
typedef struct
{
  HwEdgeLine *edge;
  GPtrArray *hoops; /* HwHoop */
  double width, height;
  HwHold hold;
  HwUnit unit;
} Ground;

struct _HwRules
{
  Ground ground;
  HwOutline *within;    /* where stitching may lie, or NULL */
  GHashTable *verdicts; /* placed outline -> Verdict */
  GPtrArray *partners;  /* HwOutline */
};

G_END_DECLS
