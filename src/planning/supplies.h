/* What a plan takes: thread, bobbins, stabiliser, cloth, minutes, of each hooping and in all. */
#pragma once

#include "plan.h"

G_BEGIN_DECLS

/* A thread of a hooping, or of the whole plan: all blocks of the same name and colour. */
typedef struct
{
  char *name;
  HwColour colour;
  guint64 stitches;
  double metres;        /* of needle thread; NAN where its stitches are not known */
  double bobbin_metres; /* of the bobbin thread under it; the same */
  gboolean counted;     /* metres come from the stitches themselves; FALSE: from their number alone */
} HwThreadUse;

/* Where a full bobbin is put in within a hooping. */
typedef struct
{
  HwBlockStep block; /* after this thread block */
  gboolean within;   /* or within it: it alone takes more than is on a full one */
} HwBobbinChange;

typedef struct
{
  guint hooping; /* index into the plan */
  guint64 stitches;
  guint thread_changes;
  double minutes;
  GPtrArray *threads;                  /* HwThreadUse, owned, in the order they are first stitched */
  double needle_metres, bobbin_metres; /* NAN: not known */
  double piece_width, piece_height;    /* mm of stabiliser: the frame and what must reach beyond it */
  guint sheets;              /* of stabiliser, one over the other, each of that size; 0: none is used */
  double bobbin_left;        /* metres on the bobbin in the machine when it begins; NAN: not known */
  gboolean bobbin_runs_out;  /* inside it, so a full one is put in first */
  double bobbin_lacking;     /* metres that bobbin would be short of; 0 when it does not run out */
  HwBlockStep bobbin_out_at; /* the thread block in which it would run out */
  HwBobbinChange *changes;   /* where the hooping takes more than one full bobbin; else NULL */
  guint n_changes;
} HwHoopingSupplies;

typedef struct
{
  gatomicrefcount ref_count;
  HwPlan *plan;
  HwHoopingSupplies *hoopings; /* those that are taken, in order */
  guint n_hoopings;
  guint64 stitches;
  guint thread_changes;
  double minutes;
  GPtrArray *threads;                  /* HwThreadUse, owned, of all hoopings */
  double needle_metres, bobbin_metres; /* of what is known; NAN: nothing is */
  double bobbin_full;                  /* metres on a full bobbin */
  double bobbin_now;                   /* metres on the one in the machine; NAN: not known, so a full one is put in */
  guint bobbins;                       /* wound full, to have ready */
  guint needles;                       /* to have ready */
  double roll_width, roll_length;      /* mm of stabiliser, all pieces cut side by side across the roll */
  guint pieces_too_wide;               /* which the roll does not yield and roll_length leaves out */
  double cloth_width, cloth_height;    /* mm to cut */
  char *cloth_reason;                  /* why so much, one sentence. Translated. */
  char *assumptions; /* what the thread lengths rest on, one or two sentences. Translated. */
} HwSupplies;

/* part: only the hoopings of this part of the scene, from 1; 0: all. What is stitched already takes nothing more and is left out, of a hooping in the
 * machine the thread blocks that are done. The cloth is that of the whole scene. Sentences are in the plan's unit.
 * Returns: (transfer full) */
HwSupplies *
hw_supplies_new (const HwPlan *plan, guint part);
HwSupplies *
hw_supplies_ref (const HwSupplies *supplies);
void
hw_supplies_unref (HwSupplies *supplies);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwSupplies, hw_supplies_unref)

/* The supplies of a hooping of the plan, or NULL when it is not taken. */
const HwHoopingSupplies *
hw_supplies_of_hooping (const HwSupplies *supplies, guint hooping);

G_END_DECLS
