/* How far the stitching has come: what was read and entered at the machine for a hooping, and the log of the days. Like all records, filled by
 * whoever makes it and never changed once a snapshot holds it. */
#pragma once

#include "../geometry/point.h"
#include "limits.h"
#include "unknown.h"

G_BEGIN_DECLS

/* A mark on the cloth. */
typedef struct
{
  char letter[4]; /* "A", "B" ...: one to three ASCII letters or digits */
  HwPoint at;     /* fabric mm */
} HwMark;

/* A mark the person put herself, or drew on the cloth already: it serves the hooping in which the motif is stitched, together with the other
 * marks held for motifs of that hooping. Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  char *motif; /* id */
  HwPoint at;  /* fabric mm */
  HwUnknown *unknown;
} HwHeldMark;

/* Where the needle really stood when it was over a mark, or where a photo of the hooped cloth shows it. Hoop axes, mm: u to the right, v towards the person. */
typedef struct
{
  char letter[4];
  HwPoint design;    /* where the plan has the mark */
  HwPoint at;        /* where the needle stood */
  gboolean left_out; /* by the person: not used for the correction */
  gboolean by_photo; /* found in a photo and approved by the person; FALSE: read at the needle */
} HwReading;
extern const char *const hw_reading_by_nicks[]; /* FALSE and TRUE of it: "needle", "photo", NULL */

/* What is entered at the machine: the design point p is stitched at R(turn) p + shift, in hoop axes. */
typedef struct
{
  HwPoint shift; /* mm */
  double turn;   /* degrees, clockwise */
} HwCorrection;

/* The steps of one hooping at the machine, in order (common practice, no source). */
typedef enum
{
  HW_WORK_MARK,         /* draw or check the marks on the cloth */
  HW_WORK_HOOP,         /* stabiliser (and clamped cloth) into the hoop */
  HW_WORK_STICK,        /* floated cloth onto the stabiliser */
  HW_WORK_CENTRE,       /* needle to the centre cross */
  HW_WORK_READ,         /* needle to each mark; type where it stands */
  HW_WORK_ENTER,        /* enter the correction */
  HW_WORK_TEMPLATE_OFF, /* take the template off */
  HW_WORK_STITCH,       /* thread by thread */
  HW_WORK_DONE          /* take the cloth off; measure */
} HwWorkStep;
#define HW_N_WORK_STEPS (HW_WORK_DONE + 1)
extern const char *const hw_work_step_nicks
    []; /* "mark", "hoop", "stick", "centre", "read", "enter", "template-off", "stitch", "done", NULL */

/* The work on one hooping. Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  HwWorkStep step;     /* to go on with */
  guint threads_done;  /* thread blocks stitched, in the plan's stitch order */
  gboolean new_bobbin; /* a full one was put in */
  guint bobbin_at;     /* thread blocks that were stitched then, the last time */
  HwReading *readings; /* those entered so far, by letter */
  guint n_readings;
  gboolean corrected; /* the correction below was entered at the machine */
  HwCorrection correction;
  char *notes[HW_N_WORK_STEPS]; /* of each step, or NULL */
  gint64 begun, ended;          /* seconds since 1970-01-01 UTC; 0: not yet */
  HwUnknown *unknown;
} HwWork;

/* What happened, for the log. */
typedef enum
{
  HW_LOG_BEGUN,
  HW_LOG_READINGS,
  HW_LOG_CORRECTION,
  HW_LOG_TEMPLATE_OFF,
  HW_LOG_THREAD, /* a thread block finished */
  HW_LOG_THREAD_BROKE,
  HW_LOG_NOTE,
  HW_LOG_STITCHED,
  HW_LOG_LANDED,     /* it was stitched elsewhere than planned */
  HW_LOG_DRAW_IN,    /* the scene followed the cloth */
  HW_LOG_LAID_ASIDE, /* taken out of the machine unfinished */
  HW_LOG_BOBBIN      /* a full one was put in */
} HwLogKind;
extern const char *const hw_log_nicks
    []; /* "begun", "readings", "correction", "template-off", "thread", "thread-broke", "note", "stitched", "landed", "draw-in", "laid-aside", "bobbin", NULL */

/* Refcounted, immutable. */
typedef struct
{
  gatomicrefcount ref_count;
  gint64 at; /* seconds since 1970-01-01 UTC */
  HwLogKind kind;
  char *motif; /* id of the first motif of the hooping it speaks of, or NULL */
  char *text;  /* one line in the person's words or ours; never NULL */
  HwUnknown *unknown;
} HwLogLine;

HwHeldMark *
hw_held_mark_new (const char *motif, HwPoint at);
HwHeldMark *
hw_held_mark_ref (const HwHeldMark *mark);
void
hw_held_mark_unref (HwHeldMark *mark);

HwWork *
hw_work_new (void);
HwWork *
hw_work_copy (const HwWork *work); /* to change before it is shared */
HwWork *
hw_work_ref (const HwWork *work);
void
hw_work_unref (HwWork *work);
/* Puts in or replaces the reading of its letter; keeps them in order of the letters. */
void
hw_work_set_reading (HwWork *work, const HwReading *reading);
/* NULL when that mark was not read yet. (transfer none) */
const HwReading *
hw_work_get_reading (const HwWork *work, const char *letter);
void
hw_work_set_note (HwWork *work, HwWorkStep step, const char *text); /* NULL or empty: none */

/* motif and text may be NULL. */
HwLogLine *
hw_log_line_new (gint64 at, HwLogKind kind, const char *motif, const char *text);
HwLogLine *
hw_log_line_ref (const HwLogLine *line);
void
hw_log_line_unref (HwLogLine *line);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwHeldMark, hw_held_mark_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwWork, hw_work_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwLogLine, hw_log_line_unref)

G_END_DECLS
