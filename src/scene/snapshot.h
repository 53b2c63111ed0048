/* An immutable picture of a whole scene at one moment: what the planner plans, the paper prints, the file
 * keeps and the history remembers. Cheap: it shares its records with its neighbours. Fill one from
 * hw_snapshot_new(), then treat it as const; from then on any thread may read it. */
#pragma once

#include "palette.h"
#include "parts.h"
#include "photo.h"
#include "records.h"
#include "supply-facts.h"

G_BEGIN_DECLS

typedef struct
{
  gatomicrefcount ref_count;
  char *name;
  HwFabric fabric;
  HwEdgeLine *edge_line;
  GPtrArray *hoops;  /* HwHoop, owned references */
  GPtrArray *motifs; /* HwMotif, back to front */
  HwMachine machine;
  HwWishes wishes;
  HwSupplyFacts supplies;
  GPtrArray *pins;       /* HwPin: hoopings the person holds fast */
  GPtrArray *frozen;     /* HwPin: hoopings already stitched, in the order they were */
  GPtrArray *apart;      /* HwApart: pairs of motifs that must not share a hooping */
  GPtrArray *held_marks; /* HwHeldMark: marks the person put or drew, in the order they were */
  GPtrArray *log;        /* HwLogLine, oldest first */
  GPtrArray *photos;     /* HwPhoto: photographs of the cloth, in the order they were added */
  int photo_shown;       /* index of the one that is shown, or -1 */
  double photo_fade;     /* 0 to 1: how far the motifs not stitched yet are faded over it; 0: not */
  GPtrArray *palette;    /* HwPaletteThread: the threads at hand, in the person's order */
  GPtrArray *parts;      /* HwPart, in the order they are stitched; empty: the scene is not divided */
  guint newer_version; /* of a file in a newer form than this program's, only partly understood; 0: not so */
  HwUnknown *unknown;
} HwSnapshot;

HwSnapshot *
hw_snapshot_new (void); /* empty: one 700 x 540 cloth, no hoops, no motifs */
/* A shallow copy to change before it is shared. Returns: (transfer full) */
HwSnapshot *
hw_snapshot_copy (const HwSnapshot *snapshot);
HwSnapshot *
hw_snapshot_ref (const HwSnapshot *snapshot);
void
hw_snapshot_unref (HwSnapshot *snapshot);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSnapshot, hw_snapshot_unref)

#define hw_snapshot_motif(s, i) ((const HwMotif *)g_ptr_array_index ((s)->motifs, (i)))
#define hw_snapshot_hoop(s, i) ((const HwHoop *)g_ptr_array_index ((s)->hoops, (i)))

/* Index by id, or -1. */
int
hw_snapshot_find_motif (const HwSnapshot *snapshot, const char *id);
int
hw_snapshot_find_hoop (const HwSnapshot *snapshot, const char *id);

/* True while a motif's artwork is still being read. */
gboolean
hw_snapshot_awaits_artwork (const HwSnapshot *snapshot);

/* What differs, in the words of HwSceneChange (scene.h); 0: nothing a person could see or save. Motifs and hoops are compared place by place. */
guint
hw_snapshot_difference (const HwSnapshot *a, const HwSnapshot *b);
/* True when nothing a person could see or save differs. */
gboolean
hw_snapshot_equal (const HwSnapshot *a, const HwSnapshot *b);

G_END_DECLS
