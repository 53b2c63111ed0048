/* What a person's workroom uses up and of what size it is: thread, bobbins, stabiliser, needles, what is left of cloth around the picture. */
#pragma once

#include "unknown.h"

G_BEGIN_DECLS

/* The defaults are common practice, no source; all adjustable. */
typedef struct
{
  double fabric_thickness;     /* mm, 0.4 */
  double stabiliser_thickness; /* mm, of one of its sheets, 0.25 */
  guint stabiliser_sheets;     /* one over the other, 1; 0: none is used */
  double roll_width;           /* mm, 500 */
  double reach;                /* mm the piece of stabiliser reaches beyond the frame on each side, 20 */
  double needle_tex;           /* 26.7: 120 denier x 2 */
  double bobbin_tex;           /* 16.7: 75 denier x 2 */
  double bobbin_share;         /* bobbin thread to needle thread, 0.4 */
  double bobbin_metres;        /* wound on a full bobbin, 80; where its size is given this is not used */
  double bobbin_outer;         /* mm, diameters of the wound thread and its width; 0, all three: not known */
  double bobbin_inner;
  double bobbin_width;
  double packing;         /* part of the wound room that is thread, 0.5 */
  double needle_hours;    /* of stitching that a needle lasts, 8 */
  double needle_stitches; /* the same as a number of stitches; 0: it is told in hours */
  double beyond_edge;     /* mm of cloth beyond the edge line on each side, 50 */
  double beyond_frames;   /* mm of clamped cloth beyond the frames, 10 */
  HwUnknown *unknown;
} HwSupplyFacts;

void
hw_supply_facts_set_defaults (HwSupplyFacts *facts);

/* Whether the size of the wound bobbin is given. */
gboolean
hw_supply_facts_know_bobbin (const HwSupplyFacts *facts);

/* Metres of thread on a full bobbin, by its size where that is given. */
double
hw_supply_facts_full_bobbin (const HwSupplyFacts *facts);

/* What the needle goes through, mm: cloth and all sheets of stabiliser. */
double
hw_supply_facts_thickness (const HwSupplyFacts *facts);

G_END_DECLS
