/* A needle list: where the needle goes, stitch by stitch, in the motif's own mm (y down, origin at its
 * centre). Immutable and shared by reference. */
#pragma once

#include "../geometry/point.h"
#include "colour.h"

G_BEGIN_DECLS

typedef enum
{
  HW_NEEDLE_STITCH, /* the needle goes down here, thread drawn from the point before */
  HW_NEEDLE_JUMP,   /* moved here without a stitch */
  HW_NEEDLE_TRIM,   /* thread cut here */
  HW_NEEDLE_COLOUR, /* the next thread is put in */
  HW_NEEDLE_END
} HwNeedleAction;

typedef struct
{
  float x, y;
  guint16 thread; /* index of the thread within the list's threads */
  guint8 action;  /* HwNeedleAction */
} HwNeedlePoint;

/* Stitches that follow one another without a change of thread. */
typedef struct
{
  guint first, end; /* its points: first <= i < end */
  guint thread;     /* index of the thread its stitches name */
  guint stitches;
  guint cuts;  /* of the thread within it */
  double path; /* mm from one hole of the needle to the next, straight over jumps, but not over cuts */
} HwNeedleStretch;

typedef struct
{
  gatomicrefcount ref_count;
  HwNeedlePoint *points;
  guint n_points;
  char **threads; /* names in order of first use, NULL-terminated */
  guint n_stitches;
  HwBox box; /* of the stitches */
  HwNeedleStretch
      *stretches; /* in order; all points lie in one of them, as far as there are stitches at all */
  guint n_stretches;
} HwNeedleList;

/* Takes over points and threads (both g_malloc'ed). Returns: (transfer full) */
HwNeedleList *
hw_needle_list_new (HwNeedlePoint *points, guint n_points, char **threads);
HwNeedleList *
hw_needle_list_ref (const HwNeedleList *list);
void
hw_needle_list_unref (HwNeedleList *list);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwNeedleList, hw_needle_list_unref)
/* Same path, same threads. Either may be NULL. */
gboolean
hw_needle_list_equal (const HwNeedleList *a, const HwNeedleList *b);

G_END_DECLS
