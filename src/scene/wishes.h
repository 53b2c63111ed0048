/* What a person asks of a plan besides the motifs' order: what counts as best, the limits beyond which to be warned, and motifs that must not share
 * a hooping. */
#pragma once

#include "unknown.h"

G_BEGIN_DECLS

typedef enum
{
  HW_BEST_FEWEST,    /* fewest hoopings, then fewest thread changes */
  HW_BEST_LEAST_TIME /* least minutes, by the pace of the machine and the person (HwMachine) */
} HwBest;

/* The limits are common practice, no source; all adjustable. */
typedef struct
{
  HwBest best; /* HW_BEST_FEWEST */
  gboolean
      interleave; /* FALSE; TRUE: blocks of neighbouring motifs of one hooping may be mixed to save thread changes */
  double density_limit; /* stitches per square mm, 5: more than that, stacked, is too dense */
  double scale_low;     /* 0.8 */
  double scale_high;    /* 1.2: a motif scaled outside this range needs new stitches */
  double tolerance;     /* mm, 0.7: so far off placing may be; more asks for hooping again */
  guint marks;          /* 2 to 4: at least so many marks a hooping, where they can be had; 2 */
  double draw_in; /* percent the stitched area draws in for each stitch per square mm, 0.5; 0: no forecast */
  HwUnknown *unknown;
} HwWishes;

void
hw_wishes_set_defaults (HwWishes *wishes);

/* Two motifs that must not share a hooping; which is named first means nothing. Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  char *first;
  char *second; /* ids, different */
} HwApart;

/* Returns: (transfer full) */
HwApart *
hw_apart_new (const char *first, const char *second);
HwApart *
hw_apart_ref (const HwApart *apart);
void
hw_apart_unref (HwApart *apart);
/* The pairs, each once, where it stood first; a pair turned around is the same pair. Returns: (transfer full) */
GPtrArray *
hw_apart_fold (GPtrArray *pairs);
gboolean
hw_apart_names (const HwApart *apart, const char *id);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwApart, hw_apart_unref)

G_END_DECLS
