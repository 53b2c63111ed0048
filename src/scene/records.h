/* The plain records a scene is made of. A record is filled by whoever makes it and never changed once a
 * snapshot holds it; to change one, copy it. They are shared by reference, so equal pointers mean an
 * unchanged thing: the planner relies on that. HwUnknown *unknown keeps the keys of the file this
 * version does not know (may be NULL, never changed). */
#pragma once

#include "../geometry/outline.h"
#include "colour.h"
#include "limits.h"
#include "needle-list.h"
#include "picture.h"
#include "progress.h"
#include "unknown.h"
#include "wishes.h"

G_BEGIN_DECLS

typedef enum
{
  HW_HOLD_FLOATED, /* stuck on hooped adhesive stabiliser */
  HW_HOLD_CLAMPED  /* held in the ring itself: the frame must lie on the cloth */
} HwHold;

typedef struct
{
  double width, height; /* mm */
  HwColour colour;
  HwHold hold;
  HwUnknown *unknown;
} HwFabric;

typedef enum
{
  HW_EDGE_POLYGON,
  HW_EDGE_RECTANGLE,
  HW_EDGE_ROUNDED,
  HW_EDGE_ELLIPSE
} HwEdgeShape;

/* Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  HwEdgeShape shape;    /* how it was drawn; the points below are what counts */
  double corner_radius; /* mm, for HW_EDGE_ROUNDED */
  HwOutline *outline;   /* one simple ring, fabric mm */
  double margin;        /* mm: stitching stays this far inside */
  HwUnknown *unknown;
} HwEdgeLine;

typedef enum
{
  HW_TURN_ANY,
  HW_TURN_QUARTER /* 0, 90, 180, 270 */
} HwTurn;

/* Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  char *id;
  char *name;
  double field_width, field_height; /* mm */
  double frame_width, frame_height; /* mm, outer; at least the field */
  double clearance;                 /* mm kept free inside the field on every side */
  HwTurn turn;
  gboolean set_aside; /* not used for new hoopings */
  HwUnknown *unknown;
} HwHoop;

typedef struct
{
  char *name;
  HwColour colour;
  guint stitches;
  HwUnknown *unknown;
} HwThreadBlock;

/* Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  char *id;
  char *name;
  HwOutline *outline; /* motif mm, origin at its centre */
  HwPlacement placement;
  HwThreadBlock *threads;
  guint n_threads;
  char *artwork;                /* path relative to the scene file, or NULL */
  char *artwork_kind;           /* "needles", "svg", "png", "jpeg", "pdf"; NULL: "needles" */
  guint artwork_page;           /* of a PDF, counted from 1; 0: the first */
  double artwork_pixels_per_mm; /* of a PNG or JPEG as the person measured it; 0: as the file says itself */
  HwNeedleList *needles;        /* the artwork as read, or NULL */
  HwPicture *
      picture; /* the artwork of the other kinds with the ground taken out, the box's centre at the motif's origin, or NULL */
  double picture_pixels_per_mm; /* of picture; 0 without one */
  char *artwork_trouble;        /* one sentence why the artwork could not be read, or NULL */
  gboolean artwork_awaited;     /* it is being read: needles, picture or trouble are to come */
  gboolean outline_repaired;    /* the file's outline crossed itself and was mended */
  char **before; /* ids of motifs stitched after this one by the person's own wish; NULL or NULL-terminated */
  gboolean locked;
  char *note; /* where the motif comes from, what its licence allows; or NULL */
  HwUnknown *unknown;
} HwMotif;

/* What of a pinned hooping is kept. */
typedef enum
{
  HW_KEEP_ALL,    /* hoop, pose and motifs */
  HW_KEEP_MOTIFS, /* these motifs share one hooping by themselves; hoop and pose are free */
  HW_KEEP_GRAIN   /* the same, and the hoop lies along the grain: at 0 or 90 degrees */
} HwKeep;

/* Thread blocks of one motif that are stitched before another has its turn. */
typedef struct
{
  guint motif;   /* its place among the motifs of the hooping */
  guint threads; /* how many of its thread blocks, the next ones */
} HwThreadTurn;

/* A hooping held fast: pinned by the person, or frozen because it is stitched. Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  HwKeep keep;    /* of a frozen hooping always HW_KEEP_ALL */
  char *hoop;     /* hoop id; NULL only when the hoop is free */
  HwPoint centre; /* where the pose is free: where it lay when it was pinned, or 0, 0 */
  double angle;
  char **motifs; /* motif ids; of a hooping in the machine, and of one that is stitched, in stitch order */
  HwThreadTurn
      *turns; /* of such a hooping, where its motifs take turns: their blocks in stitch order; or NULL */
  guint n_turns;
  HwMark *marks; /* the marks drawn for it, which it keeps; NULL: chosen by the plan */
  guint n_marks;
  HwWork *
      work; /* of a frozen hooping how it went; of a pin: this hooping is in the machine now (one at most); or NULL */
  HwUnknown *unknown;
} HwPin;

/* The machine and the pace of work: common practice, no source; all adjustable. */
typedef struct
{
  double stitches_per_minute; /* 600 */
  double turn_step;           /* degrees, 1 */
  double shift_step;          /* mm, 0.1 */
  double minutes_per_change;  /* 1.5 */
  double minutes_per_hooping; /* 8 */
  HwUnknown *unknown;
} HwMachine;

void
hw_machine_set_defaults (HwMachine *machine);

/* Each _new() gives a zeroed record with reference 1 for the caller to fill; _copy() gives such a record with
 * deep-enough copies of all fields (shared parts by reference). */
HwEdgeLine *
hw_edge_line_new (void);
HwEdgeLine *
hw_edge_line_copy (const HwEdgeLine *edge);
HwEdgeLine *
hw_edge_line_ref (const HwEdgeLine *edge);
void
hw_edge_line_unref (HwEdgeLine *edge);
/* The offered shapes, inside the box. Returns: (transfer full) */
HwEdgeLine *
hw_edge_line_new_shape (HwEdgeShape shape, HwBox box, double corner_radius, double margin);

HwHoop *
hw_hoop_new (void);
HwHoop *
hw_hoop_copy (const HwHoop *hoop);
HwHoop *
hw_hoop_ref (const HwHoop *hoop);
void
hw_hoop_unref (HwHoop *hoop);

HwMotif *
hw_motif_new (void);
HwMotif *
hw_motif_copy (const HwMotif *motif);
HwMotif *
hw_motif_ref (const HwMotif *motif);
void
hw_motif_unref (HwMotif *motif);
guint
hw_motif_stitches (const HwMotif *motif); /* over all thread blocks */
/* Takes copies. */
void
hw_motif_set_threads (HwMotif *motif, const HwThreadBlock *threads, guint n_threads);

HwPin *
hw_pin_new (void);
HwPin *
hw_pin_copy (const HwPin *pin);
HwPin *
hw_pin_ref (const HwPin *pin);
void
hw_pin_unref (HwPin *pin);

/* For a pin that is not shared yet: takes copies; NULL: its motifs do not take turns. */
void
hw_pin_set_turns (HwPin *pin, const HwThreadTurn *turns, guint n_turns);
/* Whether the motifs take turns. n_threads: the thread blocks of each motif of the pin; where these are others than the turns name, as after an
 * edit, the turns no longer hold. */
gboolean
hw_pin_takes_turns (const HwPin *pin, const guint *n_threads);
/* Whose turn each thread block is, in stitch order: the motif's place in the pin. By the turns, or motif by motif where it takes none.
 * Returns: (transfer full) (element-type guint) */
GArray *
hw_pin_sequence (const HwPin *pin, const guint *n_threads);
/* The pin without the motif in that place; what is done then counts the blocks of the others alone. Returns: (transfer full) (nullable): NULL
 * where no motif is left */
HwPin *
hw_pin_without (const HwPin *pin, guint place, const guint *n_threads);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwEdgeLine, hw_edge_line_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHoop, hw_hoop_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwMotif, hw_motif_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPin, hw_pin_unref)

/* Two blocks are stitched in the same thread when name and colour agree. */
gboolean
hw_thread_same (const HwThreadBlock *a, const HwThreadBlock *b);

G_END_DECLS
