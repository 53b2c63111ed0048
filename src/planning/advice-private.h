/* One search for advice. */
#pragma once

#include <math.h>

#include "advice.h"
#include "explain-private.h"
#include "planner.h"

G_BEGIN_DECLS

typedef struct
{
  const HwPlan *plan;
  HwUnit unit;
  GCancellable *cancellable;
  gint64 start, deadline; /* monotonic, microseconds */
  HwSnapshot *plain;      /* the scene without threads where these do not matter to the count */
  HwPlanner *planner;     /* for scenes with the same hoops */
  HwExplaining *ex;
} HwAdvising;

gboolean
hw_advising_is_over (const HwAdvising *advising);

/* What a plan may need at most to be worth a word. */
typedef struct
{
  guint hoopings;
  double minutes;
} HwWorth;

/* Less than a plan whose count, or time where least time is wished for, is taken to be that. */
HwWorth
hw_advising_less_than (const HwAdvising *advising, guint hoopings, double minutes);
/* Anything at all. */
#define HW_WORTH_ANY ((HwWorth){ G_MAXUINT, INFINITY })

/* A plan of the snapshot with at most that much, or NULL when there is none, it is not found in time, or it brings trouble the plan at hand
 * does not have: a grave problem, or a motif further past the edge line or the cloth. */
HwPlan *
hw_advising_try (const HwAdvising *advising, HwPlanner *planner, const HwSnapshot *snapshot, HwWorth most);

/* The plain scene with the advice taken. Returns: (transfer full) */
HwSnapshot *
hw_advising_take (const HwAdvising *advising, const HwAdvice *advice);

/* Whether minutes are what counts. */
gboolean
hw_advising_saves_time (const HwAdvising *advising);

/* "one hooping less: 4 in place of 5"; "12 minutes less: about 1 h 08 in place of about 1 h 20" */
char *
hw_advising_gain_text (const HwAdvising *advising, const HwPlan *then);

/* Whether no hoop takes the motif, by the plan. */
gboolean
hw_advising_is_oversize (const HwPlan *plan, int motif);

/* advice-moves.c, advice-hoops.c, advice-turns.c: each adds what it finds. */
void
hw_advise_turns (HwAdvising *advising, GPtrArray *found);
void
hw_advise_moves (HwAdvising *advising, GPtrArray *found);
void
hw_advise_hoops (HwAdvising *advising, GPtrArray *found);
void
hw_advise_scales (HwAdvising *advising, GPtrArray *found);

/* The smallest shift of the moving hull, at most `most` mm, at which a hoop takes it with the resting hull; rounded up to figures a person can
 * set, along one axis where that is nearly as short. FALSE when there is none, or none is needed. */
gboolean
hw_advice_shift (const HwSnapshot *usable,
                 const GArray *resting,
                 const GArray *moving,
                 double most,
                 HwUnit unit,
                 HwPoint *shift);

G_END_DECLS
