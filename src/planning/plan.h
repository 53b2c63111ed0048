/* A plan: the ordered hoopings that stitch a scene, how good it is known to be, and what to look at.
 * Immutable once made; shared by reference; holds the snapshot it was made for, and speaks of motifs and
 * hoops by their index in it. */
#pragma once

#include "../geometry/units.h"
#include "../scene/snapshot.h"

G_BEGIN_DECLS

typedef enum
{
  HW_PLAN_OPTIMAL,    /* the lower bound meets the count */
  HW_PLAN_FEASIBLE,   /* a plan for every motif, perhaps not the fewest */
  HW_PLAN_UNPLANNABLE /* some motif cannot be stitched; the hoopings hold the others */
} HwPlanStatus;

typedef enum
{
  HW_PLACE_FREE,
  HW_PLACE_PINNED,
  HW_PLACE_FROZEN
} HwPlaceHold;

/* One thread block of one motif. */
typedef struct
{
  guint motif; /* index into the snapshot's motifs */
  guint block; /* index into the motif's threads */
} HwBlockStep;

typedef struct
{
  guint hoop;     /* index into the snapshot's hoops */
  HwPoint centre; /* fabric mm */
  double angle;   /* degrees */
  HwPlaceHold hold;
  guint *motifs; /* indices in stitch order */
  guint n_motifs;
  HwBlockStep *
      steps; /* every block of its motifs in stitch order, where blocks of several are mixed; NULL: motif by motif */
  guint n_steps;
  HwMark *marks; /* besides the centre cross */
  guint n_marks;
  double *predicted_error; /* mm, one for each of motifs */
  guint thread_changes;    /* changes met inside it, with the one on entering it */
  guint stitches;
  double minutes; /* setting, changes and stitching */
  double margin;  /* mm: smallest free distance from motif to field side (clearance included) */
} HwHooping;

typedef enum
{
  HW_PROBLEM_OVERSIZE, /* no hoop takes the motif */
  HW_PROBLEM_OUTSIDE_EDGE_LINE,
  HW_PROBLEM_OUTSIDE_CLOTH,
  HW_PROBLEM_ORDER_LOOP, /* ties that contradict */
  HW_PROBLEM_ARTWORK,    /* artwork missing or unreadable */
  HW_PROBLEM_OUTLINE_REPAIRED,
  HW_PROBLEM_PIN,         /* a pin that cannot be kept */
  HW_PROBLEM_MARKS,       /* fewer than two usable marks */
  HW_PROBLEM_NO_HOOP,     /* the scene has no hoop */
  HW_PROBLEM_SCALE_RANGE, /* scaled beyond what the stitches stand; amount: the scale */
  HW_PROBLEM_DENSE,       /* stitching stacked too dense; amount: stitches per mm^2 */
  HW_PROBLEM_HAIRLINE,    /* neighbours of different hoopings that may come apart; amount: gap or overlap */
  HW_PROBLEM_FRAME_OFF_CLOTH,       /* a held frame that leaves the clamped cloth */
  HW_PROBLEM_FRAME_ON_STITCHING,    /* a frame that is closed over finished stitching */
  HW_PROBLEM_CLOTH_TOO_SMALL,       /* amount: mm it lacks along the worse side */
  HW_PROBLEM_STITCHED_OUT_OF_ORDER, /* motif: what was to lie under other, but is stitched after it */
  HW_PROBLEM_PART /* motif must be stitched before other, of an earlier part, and joins that part */
} HwProblemKind;

typedef struct
{
  HwProblemKind kind;
  int motif;      /* index, or -1 */
  int other;      /* a second motif it speaks of, or -1 */
  int hooping;    /* index, or -1 */
  double amount;  /* mm, where the kind has a measure */
  HwPoint where;  /* fabric mm: where it shows */
  gboolean grave; /* the scene cannot be stitched whole because of it */
  char *text;     /* one warm, exact sentence */
} HwProblem;

typedef struct
{
  gatomicrefcount ref_count;
  HwSnapshot *snapshot;
  HwPlanStatus status;
  guint lower_bound;
  int reason;          /* HwReason: what the bound rests on */
  char *proof;         /* one sentence: why not fewer; or NULL */
  guint *proof_motifs; /* the motifs it speaks of */
  guint n_proof_motifs;
  HwHooping *hoopings;
  guint n_hoopings;
  guint thread_changes;
  guint thread_changes_bound;     /* no plan of this many hoopings has fewer */
  gboolean thread_changes_proven; /* the bound meets the count */
  guint one_by_one_changes;       /* changes if the same motifs were stitched in list order, one by one */
  double minutes;
  double
      minutes_bound; /* no plan of the scene takes less time; filled where least time is wished for, else 0 */
  gboolean least_time_proven;         /* that bound meets the minutes */
  GPtrArray *problems;                /* HwProblem, owned */
  HwUnit unit;                        /* of the lengths in its sentences */
  const struct _HwLanguage *language; /* of its sentences, as entered when it was made; NULL: the screen's */
} HwPlan;

HwPlan *
hw_plan_new (const HwSnapshot *snapshot);
HwPlan *
hw_plan_ref (const HwPlan *plan);
void
hw_plan_unref (HwPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPlan, hw_plan_unref)

/* The same plan beside another snapshot of its scene, which differs from its own in nothing that a plan or its sentences depend on
 * (HW_SCENE_CHANGE_PLAN_SPEAKS). Returns: (transfer full) (nullable): NULL when it differs in more */
HwPlan *
hw_plan_beside (const HwPlan *plan, const HwSnapshot *snapshot);

/* The same plan with its sentences, proof and problems, in the language this thread speaks now and in the unit; the plan itself when they are so
 * already. Nothing is searched for, but the scene is looked at anew. Returns: (transfer full) */
HwPlan *
hw_plan_said_again (const HwPlan *plan, HwUnit unit);

/* Adds a problem; takes over text. */
HwProblem *
hw_plan_add_problem (HwPlan *plan, HwProblemKind kind, int motif, gboolean grave, char *text);

/* Fills the counts of a plan under construction from its hoopings' hoops, motifs and the snapshot's machine: stitches, thread changes,
 * minutes, of each hooping and in all. */
void
hw_plan_count (HwPlan *plan);

/* The work on a hooping of the plan: of one that is stitched how it went, of the one in the machine how far it is; NULL for any other, and
 * where nothing was written down. The plan's own. */
const HwWork *
hw_work_of_hooping (const HwPlan *plan, guint hooping);

/* Every thread block of a hooping in stitch order, mixed or not. Returns: (transfer full) (element-type HwBlockStep) */
GArray *
hw_plan_steps (const HwPlan *plan, guint hooping);

/* The hooping that stitches the motif, or -1. */
int
hw_plan_hooping_of (const HwPlan *plan, guint motif);
/* The nick used in files: "outside-edge-line" and so on. */
const char *
hw_problem_nick (HwProblemKind kind);
const char *
hw_plan_status_nick (HwPlanStatus status);

/* "5 hoopings, proven fewest · 18 thread changes · about 3 h 10"; where least time is wished for "6 hoopings · 12 thread changes · about 2 h 50,
 * proven least time". Returns: (transfer full) */
char *
hw_plan_sentence (const HwPlan *plan);

/* "about 3 h 10", "about 25 minutes". Returns: (transfer full) */
char *
hw_plan_time_text (double minutes);

/* What the order saves: "18 thread changes; stitched one by one it would be 31". NULL when it saves none. Returns: (transfer full) (nullable) */
char *
hw_plan_saving_sentence (const HwPlan *plan);

/* Checks the plan against rules 1 to 4 and 8 from its snapshot alone, sharing no code with the search.
 * Returns FALSE and a sentence when a rule is broken. For tests and for `check`. */
gboolean
hw_plan_verify (const HwPlan *plan, GError **error);

#define HW_PLAN_ERROR (hw_plan_error_quark ())
typedef enum
{
  HW_PLAN_ERROR_BROKEN_RULE
} HwPlanError;
GQuark
hw_plan_error_quark (void);

G_END_DECLS
