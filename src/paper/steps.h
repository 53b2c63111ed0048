/* The steps of a hooping at the table and at the machine, in the order they are done, and the cautions that
 * go with them. Plain data: the bench sheet draws them, tests read their order. */
#pragma once

#include "../planning/supplies.h"

G_BEGIN_DECLS

typedef enum
{
  HW_STEP_DRAW_MARKS,    /* on the cloth */
  HW_STEP_HOOP,          /* the stabiliser with its adhesive bared, or the ring made ready */
  HW_STEP_LAY_CLOTH,     /* the cross under the hoop's marks */
  HW_STEP_PRESS,         /* or tighten */
  HW_STEP_TEMPLATE_ON,   /* cross on cross, arrow to the top */
  HW_STEP_NEEDLE_CENTRE, /* the needle over the centre cross, by hand */
  HW_STEP_NEEDLE_MARKS,  /* the needle over each mark, readings noted */
  HW_STEP_CORRECT,       /* shift and turn the design until they meet */
  HW_STEP_MOTIF_CROSS,   /* the needle at each template's cross mark: a lead, then one for each motif */
  HW_STEP_TEMPLATE_OFF,
  HW_STEP_BOBBIN, /* a full one, where the one in the machine would run out */
  HW_STEP_THREAD,
  HW_STEP_STITCH, /* a lead, then one for each motif, background first; the lead alone where motifs take turns */
  HW_STEP_LOOK_OVER,
  HW_STEP_TAKE_OUT,
  HW_STEP_MEASURE
} HwStepKind;

typedef struct
{
  HwStepKind kind;
  int motif; /* index into the snapshot, or -1; a motif's own step is only its number and name, to tick under the lead */
  gboolean strong; /* must not be missed */
  char *text;
} HwStep;

/* For hooping (from 0) of the plan. supplies: of that plan; NULL: no word of bobbins. Returns: (transfer full) (element-type HwStep) */
GPtrArray *
hw_steps_new (const HwPlan *plan, guint hooping, const HwSupplies *supplies);

/* Whether the thread blocks of its motifs are mixed, so that a motif may be left and taken up again. */
gboolean
hw_steps_take_turns (const HwPlan *plan, guint hooping);

/* What is stitched in a step of hw_plan_steps(). The plan's own. */
const HwThreadBlock *
hw_step_block (const HwPlan *plan, const HwBlockStep *step);

/* The usual cautions, a sentence or two each, ended by NULL. Translated. (transfer container) */
const char **
hw_cautions_new (void);

/* Where a motif lies in its hooping: its shift from the hoop's centre in hoop axes, and its turn against
 * the hoop. */
typedef struct
{
  HwPoint shift; /* mm: right, towards the person */
  double turn;   /* degrees clockwise, in (-180, 180] */
} HwMotifInHoop;
HwMotifInHoop
hw_motif_in_hoop (const HwPlan *plan, guint hooping, guint motif);
/* A fabric point in hoop axes. */
HwPoint
hw_point_in_hoop (const HwHooping *hooping, HwPoint p);

G_END_DECLS
