/* How much thread the stitches take: lockstitch, type 301 of ISO 4915, a needle thread and a bobbin thread that cross in the cloth. */
#pragma once

#include "records.h"
#include "supply-facts.h"

G_BEGIN_DECLS

/* Needle thread to a thousand stitches where the stitches themselves are not known: common practice, no source; 4 to 6 m are usual. */
#define HW_METRES_PER_1000 5.0
/* g/cm^3 of polyester, of which thread for the machine mostly is. */
#define HW_FIBRE_DENSITY 1.38
/* mm of each thread that a cut leaves, at both its ends together: common practice, no source. */
#define HW_NEEDLE_TAIL 50.0
#define HW_BOBBIN_TAIL 25.0

/* mm, of a thread as if it were solid and round. */
double
hw_thread_diameter (double tex);

/* mm of both threads together in one stitch of that length, through cloth of that thickness; the threads are so thick. */
double
hw_lockstitch_length (double length, double thickness, double needle, double bobbin);

/* Metres on a wound bobbin or spool: diameters and width in mm, packing: the part of the room that is thread, over 0 to 1. */
double
hw_wound_metres (double outer, double inner, double width, double thread, double packing);

/* What a thread block takes. */
typedef struct
{
  double needle, bobbin; /* metres; NAN: not known */
  gboolean counted;      /* by the stitches themselves; FALSE: by their number alone */
} HwThreadLength;

/* One for each thread block of the motif at its scale. Returns: (transfer full) */
HwThreadLength *
hw_motif_thread_lengths (const HwMotif *motif, const HwSupplyFacts *facts);

G_END_DECLS
