/* What would make a plan better, found by planning it: a motif moved by a few millimetres that saves a hooping (where least time is wished for: minutes), a common hoop the person does not
 * own, the scale at which a motif that no hoop takes would fit. Nothing here is guessed; every piece of advice was planned before it is given. */
#pragma once

#include <gio/gio.h>

#include "plan.h"

G_BEGIN_DECLS

typedef enum
{
  HW_ADVICE_SCALE, /* an oversize motif made smaller */
  HW_ADVICE_TURN,  /* an oversize motif turned on the cloth */
  HW_ADVICE_MOVE,  /* a motif moved */
  HW_ADVICE_HOOP   /* a hoop added */
} HwAdviceKind;

typedef struct
{
  HwAdviceKind kind;
  int motif;                        /* index in the plan's snapshot; -1 for a hoop */
  HwPoint shift;                    /* fabric mm, for a move */
  double turn;                      /* degrees clockwise, for a turn */
  double scale;                     /* the motif's placement scale afterwards, for HW_ADVICE_SCALE */
  double field_width, field_height; /* mm, for a hoop */
  guint hoopings_then;              /* in the plan made with it */
  gboolean proven_then;             /* fewest: else there may be fewer still */
  double minutes_then;              /* of that plan */
  char *
      text; /* "If Quince moved 4.0 mm left, one hooping less: 4 in place of 5." Where least time is wished for: "..., 12 minutes less: about 1 h 08 in
                                       place of about 1 h 20." */
} HwAdvice;

void
hw_advice_free (HwAdvice *advice);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwAdvice, hw_advice_free)

#define HW_ADVICE_SECONDS 2.0

/* Looks for about HW_ADVICE_SECONDS at most. Turns first, then scales, then moves, smallest first and at most three, then hoops, those that save most first.
 * Motifs that are locked, pinned or stitched are never moved. Returns: (transfer full) (nullable) (element-type HwAdvice): may be empty; NULL when
 * cancelled */
GPtrArray *
hw_advice_find (const HwPlan *plan, HwUnit unit, GCancellable *cancellable);
/* The same within so many seconds. */
GPtrArray *
hw_advice_find_within (const HwPlan *plan, HwUnit unit, double seconds, GCancellable *cancellable);

/* On a thread of its own; the callback comes on the caller's main context. */
void
hw_advice_find_async (const HwPlan *plan,
                      HwUnit unit,
                      GCancellable *cancellable,
                      GAsyncReadyCallback callback,
                      gpointer user_data);
/* Returns: (transfer full) (nullable): NULL with G_IO_ERROR_CANCELLED when cancelled */
GPtrArray *
hw_advice_find_finish (GAsyncResult *result, GError **error);

/* The plan's snapshot with the advice taken. A hoop is added last, named by its size. Returns: (transfer full) */
HwSnapshot *
hw_advice_apply (const HwPlan *plan, const HwAdvice *advice);

G_END_DECLS
