/* The inside of a bench, shared by the files that make it up and by no other. */
#pragma once

#include "../formats/artwork-shelf.h"
#include "../formats/file-stamp.h"
#include "../scene/history.h"
#include "bench.h"
#include "photo-copies.h"

G_BEGIN_DECLS

typedef struct _HwArtworkIntake HwArtworkIntake;
typedef struct _HwFilesLook HwFilesLook;

struct _HwBench
{
  GObject parent_instance;

  HwScene *scene;
  HwHistory *history;
  HwPlanRunner *runner;
  HwPlan *plan;
  HwUnit unit;

  GHashTable *selected;    /* ids, as a set */
  GHashTable *pointed_out; /* the same */
  HwSnapshot *beside;      /* shown beside the scene, or NULL */
  int chosen_hooping;
  int stage;

  char *path;
  HwFileStamp stamp;     /* of the file at path as it was opened or saved */
  char *folder;          /* where the scene's artwork paths start, or NULL */
  char *newer_path;      /* the file of a newer program's that was opened: never saved over; or NULL */
  guint newer_version;   /* its form; 0: none */
  HwPhotoCopies *copies; /* put beside the scene since it was opened, and not saved with it */
  gboolean modified;
  gboolean renewing; /* the whole scene is being replaced, or given its artwork: no plan in between */
  HwArtworkShelf *shelf;
  HwArtworkIntake *intake; /* what is being read, or NULL */
  HwFilesLook *look;       /* a look at the files that is under way, or NULL */
  gboolean look_again;     /* asked for meanwhile */
  GHashTable *photos_seen; /* the scene's photo paths -> HwFileStamp of the file when it was there last */
  GPtrArray *file_folders; /* where the scene's files lie */
  char *lost_files;        /* one sentence, or NULL */

  gboolean editing;
  HwSnapshot *edit_start;
  char *edit_name;
  gboolean edit_merge;
};

/* Drops ids of motifs that are gone. Returns TRUE when some were. */
gboolean
hw_bench_prune_selection (HwBench *bench);
void
hw_bench_emit_selection_changed (HwBench *bench);
/* The ids of motifs of the plan that are still in the scene. Returns: (transfer full) */
char **
hw_bench_ids_of (HwBench *bench, const HwPlan *plan, const guint *motifs, guint n_motifs);
/* The scene's pins that hold none of these motifs. Returns: (transfer full) */
GPtrArray *
hw_bench_pins_without (HwBench *bench, char **ids);
/* A pin that holds these motifs together, hoop and pose free; centre and hoop as hints. Returns: (transfer full) */
HwPin *
hw_bench_pin_for (const HwPlan *plan, guint hooping, char **ids, HwKeep keep);
/* A motif copied from another goes into the other's part, inside an edit. */
void
hw_bench_join_part_of (HwBench *bench, const char *original, const char *copy);
void
hw_bench_emit_pointed_out_changed (HwBench *bench);
void
hw_bench_notify_history (HwBench *bench);
void
hw_bench_notify_reading (HwBench *bench);
void
hw_bench_ask_for_plan (HwBench *bench);
void
hw_bench_forget_plan (HwBench *bench);
void
hw_bench_set_path (HwBench *bench, const char *path);
/* Writes a line of the log, inside an edit. motif: the first of the hooping it speaks of, or NULL. */
void
hw_bench_log (HwBench *bench, HwLogKind kind, const char *motif, const char *text);

/* bench-artwork.c: gives motifs that await artwork what is at hand, and has the rest read. */
void
hw_bench_read_artwork (HwBench *bench);
/* What is new on the shelf is given to all states of the scene. */
void
hw_bench_give_artwork_anew (HwBench *bench);
/* bench-files.c: another scene is laid on the table, or none. */
void
hw_bench_forget_files (HwBench *bench);
/* Nothing that is being read is wanted any more. */
void
hw_bench_stop_reading (HwBench *bench);

/* An edit of the work of the hooping that is in the machine. */
typedef struct
{
  HwBench *bench;
  const HwPin *pin;
  HwWork *work; /* a copy to change */
} HwWorkEdit;

/* FALSE when no hooping is in the machine; then there is nothing to end. */
gboolean
hw_work_edit_begin (HwWorkEdit *edit, HwBench *bench, const char *name);
void
hw_work_edit_end (HwWorkEdit *edit);
/* A line of the log about that hooping. */
void
hw_work_edit_say (HwWorkEdit *edit, HwLogKind kind, const char *text);

G_END_DECLS
