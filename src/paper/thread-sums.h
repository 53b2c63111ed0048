/* Private to this room: how much of each thread is still to be stitched. */
#pragma once

#include "page.h"

G_BEGIN_DECLS

typedef struct
{
  const HwThreadBlock *block; /* the first in this thread; the plan's own */
  guint64 stitches;
  double metres; /* about; NAN: not known */
} HwThreadSum;

typedef struct
{
  GArray *threads; /* HwThreadSum, in the order they are first needed */
  double metres;   /* of all that is known; NAN when nothing is */
} HwThreadSums;

/* Over all hoopings the job prints that are not stitched. Returns: (transfer full) */
HwThreadSums *
hw_thread_sums_new (const HwPrintJob *job);
void
hw_thread_sums_free (HwThreadSums *sums);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwThreadSums, hw_thread_sums_free)

/* The same of one hooping, stitched or not: metres, or NAN. */
double
hw_thread_metres_of_hooping (const HwPlan *plan, guint hooping);

/* What the lengths rest on, one sentence. Translated. */
const char *
hw_thread_sums_basis (void);

/* Whether the job prints the hooping and it is not stitched yet. */
gboolean
hw_hooping_is_to_come (const HwPrintJob *job, guint hooping);

G_END_DECLS
