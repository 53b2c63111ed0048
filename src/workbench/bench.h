/* One scene being worked on: the scene, its file, its history, what is selected, its plan. The canvas and the panes watch it and call its
 * verbs; nothing here draws. */
#pragma once

#include <gio/gio.h>

#include "../planning/plan-runner.h"
#include "../registration/correction.h"
#include "../registration/draw-in.h"
#include "../scene/scene.h"
#include "arrange-sums.h"

G_BEGIN_DECLS

#define HW_TYPE_BENCH (hw_bench_get_type ())
G_DECLARE_FINAL_TYPE (HwBench, hw_bench, HW, BENCH, GObject)

/* Properties (all with notify): "scene" (HwScene, construct-only), "plan" (HwPlan boxed-free pointer; use hw_bench_get_plan()), "planning" (gboolean),
 * "unit" (HwUnit as int), "chosen-hooping" (int, -1 none), "stage" (int: -1 the whole picture; k >= 0: as the cloth will be when hooping k begins;
 * n_hoopings: finished), "modified" (gboolean), "path" (string or NULL), "undo-name", "redo-name" (string or NULL), "reading" (gboolean: artwork of the
 * scene is being read).
 * Signals: "selection-changed"; "plan-changed"; "scene-changed" (guint HwSceneChange flags); "pointed-out-changed"; "files-looked-at" (gboolean: a photo's
 * file is another one by now); "taken-back" (char *: the sentence why the edit just ended was too much for a scene and is undone). */
HwBench *
hw_bench_new (void);

HwScene *
hw_bench_get_scene (HwBench *bench);
/* The newest plan, made for a snapshot that may be an edit older than the scene; or NULL. (transfer none) */
const HwPlan *
hw_bench_get_plan (HwBench *bench);
/* The newest plan as it may be printed and taken along; NULL, and *why a sentence (transfer none), as long as there is none or it was made before the
 * scene's artwork was read. why may be NULL. (transfer none) */
const HwPlan *
hw_bench_get_ready_plan (HwBench *bench, const char **why);
HwUnit
hw_bench_get_unit (HwBench *bench);
void
hw_bench_set_unit (HwBench *bench, HwUnit unit);

/* Replaces the scene by the file's; the history starts anew. */
gboolean
hw_bench_open (HwBench *bench, const char *path, GError **error);
/* Above 0 when the scene was opened from a file that a newer program wrote: its path is NULL then, and saving over that file is refused. */
guint
hw_bench_get_newer_version (HwBench *bench);
/* The same, as a copy that has no file yet. */
gboolean
hw_bench_open_copy (HwBench *bench, const char *path, GError **error);
gboolean
hw_bench_save (HwBench *bench, const char *path, GError **error); /* path NULL: where it was opened */
void
hw_bench_start_new (HwBench *bench, const HwSnapshot *snapshot);
/* Goes on with work that was never saved. path: where the scene is saved, or NULL; folder: where its artwork paths start, or NULL. */
void
hw_bench_take_up (HwBench *bench, const HwSnapshot *snapshot, const char *path, const char *folder);
/* Whether the scene's file is another one by now than was opened or saved here, or is gone. */
gboolean
hw_bench_file_was_changed (HwBench *bench);
const char *
hw_bench_get_path (HwBench *bench); /* NULL while it was never saved */
/* The folder the scene's artwork paths are relative to, or NULL. */
const char *
hw_bench_get_folder (HwBench *bench);

/* Looks, away from the window, how the files are found now that the scene names: artwork that was changed is read again, which is no edit; of what cannot be
 * read any more stays what was read. Then "files-looked-at" is emitted. */
void
hw_bench_look_at_files (HwBench *bench);
/* What there is to say of files that can no longer be read, in one sentence and what helps; or NULL. (transfer none) */
const char *
hw_bench_get_lost_files (HwBench *bench);
/* The folders in which the files lay at the last look. (transfer none) (element-type filename) */
GPtrArray *
hw_bench_get_file_folders (HwBench *bench);

/* Selection: motif ids, in stitch order. Selecting a motif leaves the chosen hooping alone. */
gboolean
hw_bench_is_selected (HwBench *bench, const char *motif_id);
/* Returns: (transfer container): HwSceneMotif, back to front */
GPtrArray *
hw_bench_get_selection (HwBench *bench);
void
hw_bench_select_only (HwBench *bench, const char *motif_id); /* NULL: nothing */
void
hw_bench_select_toggle (HwBench *bench, const char *motif_id);
void
hw_bench_select_ids (HwBench *bench, const char *const *motif_ids);
void
hw_bench_select_all (HwBench *bench);
guint
hw_bench_get_n_selected (HwBench *bench);

/* Motifs pointed out for a while because something shown speaks of them; the selection is another thing. ids NULL or empty: none.
 * Ids of motifs that are not there do no harm. */
void
hw_bench_point_out (HwBench *bench, const char *const *motif_ids);
gboolean
hw_bench_is_pointed_out (HwBench *bench, const char *motif_id);
guint
hw_bench_get_n_pointed_out (HwBench *bench);

/* How the scene was, or would be, shown beside it as dashed lines until the next edit or until NULL is shown. Emits "pointed-out-changed". */
void
hw_bench_show_beside (HwBench *bench, const HwSnapshot *snapshot);
const HwSnapshot *
hw_bench_get_beside (HwBench *bench); /* (transfer none) (nullable) */

int
hw_bench_get_chosen_hooping (HwBench *bench);
void
hw_bench_choose_hooping (HwBench *bench, int hooping);
int
hw_bench_get_stage (HwBench *bench);
void
hw_bench_set_stage (HwBench *bench, int stage);

/* Edits. Between begin and end the scene may be changed freely (and is planned live); end puts one named step in the history if
 * anything differs; cancel restores. Edits of the same name within 800 ms, made with merge TRUE, become one step. They do not nest. */
void
hw_bench_begin_edit (HwBench *bench, const char *name, gboolean merge);
/* FALSE: it made more than a scene holds (scene-limits.h); then it is undone, and "taken-back" tells why. */
gboolean
hw_bench_end_edit (HwBench *bench);
void
hw_bench_cancel_edit (HwBench *bench);
gboolean
hw_bench_is_editing (HwBench *bench);
void
hw_bench_undo (HwBench *bench);
void
hw_bench_redo (HwBench *bench);

/* Verbs on the selection, each one step in the history with a name such as "move Fig branch" or "move 3 motifs". Locked motifs are left alone. */
void
hw_bench_nudge (HwBench *bench, double dx, double dy);
void
hw_bench_bring_forward (HwBench *bench);
void
hw_bench_send_back (HwBench *bench);
void
hw_bench_mirror (HwBench *bench);
/* Moves one motif to another place of the stitch order, counted from 0; places past the end mean the last. */
void
hw_bench_move_in_order (HwBench *bench, const char *motif_id, guint to);
void
hw_bench_duplicate (HwBench *bench);
/* Puts a motif on top of all, under an id and a name of its own, and selects it. */
void
hw_bench_add_motif (HwBench *bench, const HwMotif *record);
/* name, or "name 2", "name 3" ... if motifs bear it already. Returns: (transfer full) */
char *
hw_bench_free_name (HwBench *bench, const char *name);
void
hw_bench_delete (HwBench *bench);
void
hw_bench_set_locked (HwBench *bench, gboolean locked);
/* "move Fig branch" / "move 3 motifs" for the selection and a translated verb. Returns: (transfer full) */
char *
hw_bench_edit_name (HwBench *bench, const char *verb);

/* Pins the hooping that these motifs (indices of the plan's snapshot) get: hoop and pose as the candidate says. For a single motif or a chosen
 * hooping; removes other pins of the same motifs. One step in the history. */
void
hw_bench_take_candidate (
    HwBench *bench, const guint *motifs, guint n_motifs, guint hoop, HwPoint centre, double angle);
/* Takes the pins of a hooping's motifs away again, whether the plan keeps them or not. Nothing for a stitched hooping. */
void
hw_bench_unpin (HwBench *bench, guint hooping);
/* Whether there are any to take away. */
gboolean
hw_bench_has_pin (HwBench *bench, guint hooping);
/* Takes one pin of the scene away; nothing when it is there no more. */
void
hw_bench_let_pin_go (HwBench *bench, const HwPin *pin);
/* Whether the plan keeps the pin. TRUE while there is no plan that knows it. */
gboolean
hw_bench_is_pin_kept (HwBench *bench, const HwPin *pin);
/* "Held: Fig branch and Quince share a hooping, along the grain – not kept". Returns: (transfer full) */
char *
hw_bench_pin_text (HwBench *bench, const HwPin *pin);
/* The pin that a problem of the plan says cannot be kept, or NULL. (transfer none) */
const HwPin *
hw_bench_pin_behind (HwBench *bench, const HwProblem *problem);
/* Pins a hooping of the plan: as it is (HW_KEEP_ALL), its motifs only, or its motifs with the hoop along the grain. Other pins of the same motifs
 * go. Nothing for a stitched hooping. */
void
hw_bench_keep_hooping (HwBench *bench, guint hooping, HwKeep keep);
/* The pin that holds the hooping of the plan, or NULL. (transfer none) */
const HwPin *
hw_bench_pin_of (HwBench *bench, guint hooping);

/* What the person asks of the plan; each one step in the history. */
void
hw_bench_set_best (HwBench *bench, HwBest best);
void
hw_bench_set_interleave (HwBench *bench, gboolean interleave);
/* Minutes for setting a hooping and for a thread change, stitches per minute. */
void
hw_bench_set_pace (HwBench *bench, double per_hooping, double per_change, double stitches_per_minute);
/* Beyond what density (stitches per mm^2) and placement error (mm) to warn. */
void
hw_bench_set_limits (HwBench *bench, double density, double tolerance);
/* Between which scales (1 is as made) a motif's stitches still hold; low is at most high. */
void
hw_bench_set_scale_range (HwBench *bench, double low, double high);
/* How many marks a hooping has at least, 2 to 4, where they can be had. */
void
hw_bench_set_least_marks (HwBench *bench, guint marks);
void
hw_bench_set_hoop_aside (HwBench *bench, HwSceneHoop *hoop, gboolean set_aside);

/* The selected motifs, two by two, must not share a hooping; or may again. */
void
hw_bench_keep_apart (HwBench *bench);
void
hw_bench_let_share (HwBench *bench);
/* Whether some two of the selected motifs are kept apart, and whether all are. */
gboolean
hw_bench_some_apart (HwBench *bench);
gboolean
hw_bench_all_apart (HwBench *bench);
gboolean
hw_bench_are_apart (HwBench *bench, const char *first, const char *second);
void
hw_bench_let_share_pair (HwBench *bench, const char *first, const char *second);

/* Ties one motif before another. FALSE, changing nothing, when that would close a loop; *refusal then says which. A tie that is there already does
 * no harm. */
gboolean
hw_bench_tie (HwBench *bench, const char *first, const char *second, char **refusal);
gboolean
hw_bench_is_tied (HwBench *bench, const char *first, const char *second);
void
hw_bench_untie (HwBench *bench, const char *first, const char *second);

/* Brings the scene to a changed snapshot as one step. */
void
hw_bench_take_snapshot (HwBench *bench, const char *name, const HwSnapshot *changed);

/* At the machine (bench-machine.c). Each verb is one step of the history and, where something happened that is worth knowing later, a line of the log. */

/* The pin of the hooping that is in the machine, with its work; NULL: none is. (transfer none) */
const HwPin *
hw_bench_get_begun (HwBench *bench);
/* Its number in the plan at hand, from 0; -1: none, or the plan does not have it yet. */
int
hw_bench_get_begun_hooping (HwBench *bench);
/* Takes a hooping of the plan to the machine: it keeps hoop, pose, motifs and marks. One that was begun before is laid aside. Nothing changes when
 * it is in the machine already. FALSE, changing nothing, for a stitched hooping and for one the scene no longer has. */
gboolean
hw_bench_begin_hooping (HwBench *bench, guint hooping);
/* Takes it out unfinished: it stays pinned where it lies, without its work. */
void
hw_bench_lay_aside (HwBench *bench);
/* Goes on, or back, to a step. Going on from what was read, entered or taken off is written into the log. */
void
hw_bench_go_to_step (HwBench *bench, HwWorkStep step);
/* Where the needle stood over a mark, hoop axes mm. A letter that is none of its marks does nothing. */
void
hw_bench_set_reading (HwBench *bench, const char *letter, HwPoint at);
void
hw_bench_forget_reading (HwBench *bench, const char *letter);
void
hw_bench_leave_out_reading (HwBench *bench, const char *letter, gboolean left_out);
/* All readings at once, as one step under the given name, such as "exchange A and B". */
void
hw_bench_set_readings (HwBench *bench, const char *name, const HwReading *readings, guint n);
/* The correction was entered at the machine: goes on to taking the template off. NULL: nothing had to be entered. */
void
hw_bench_enter_correction (HwBench *bench, const HwCorrection *correction);
/* Back to the hoop: the readings and the correction no longer hold. */
void
hw_bench_hoop_again (HwBench *bench);
/* One more thread block is stitched, of n in all (the plan's steps); after the last one the step is "done". */
void
hw_bench_thread_done (HwBench *bench, guint n, const char *motif, const char *thread);
void
hw_bench_thread_back (HwBench *bench);
void
hw_bench_thread_broke (HwBench *bench, const char *motif, const char *thread);
/* What the workroom uses up, one step of the history; steps that follow each other are joined. */
void
hw_bench_set_supplies (HwBench *bench, const HwSupplyFacts *facts);
/* Writes down that a full bobbin is in, before the thread block that comes next. */
void
hw_bench_full_bobbin (HwBench *bench);
void
hw_bench_note_step (HwBench *bench, HwWorkStep step, const char *text);
/* The hooping in the machine is stitched: from now on it is frozen. FALSE when none is in the machine. */
gboolean
hw_bench_stitched (HwBench *bench);
/* A hooping of the plan was stitched without the program, or out of order: frozen as the plan has it. */
gboolean
hw_bench_mark_stitched (HwBench *bench, guint hooping);
/* A stitched hooping (from 0) is in the machine again, as when it was marked by mistake; only the last one stitched can be. */
gboolean
hw_bench_take_back (HwBench *bench);
/* A hoop broke or is gone: it is set aside, and hoopings pinned in it are let go, the one in the machine too. */
void
hw_bench_hoop_unavailable (HwBench *bench, const char *hoop_id);
/* Stitched hooping `frozen` (of the scene's, from 0) really lies at R(turn) p + shift of its own axes: what is left is planned around it. bench-cloth.c. */
void
hw_bench_landed (HwBench *bench, guint frozen, const HwCorrection *landed);
/* What is not stitched, the marks and the edge line follow cloth that drew in or stretched. */
void
hw_bench_follow_cloth (HwBench *bench, const HwStretch *stretch);
/* Moves every motif that is not stitched, pinned or locked against the way the forecast sees its place go. FALSE when that moves nothing. */
gboolean
hw_bench_place_with_allowance (HwBench *bench);
/* Percent the stitched area draws in for each stitch per square mm. */
void
hw_bench_set_draw_in (HwBench *bench, double percent);
/* The time that goes into the log, seconds since 1970-01-01 UTC; NULL: the clock on the wall. */
typedef gint64 (*HwBenchClock) (gpointer user_data);
void
hw_bench_set_clock (HwBench *bench, HwBenchClock clock, gpointer user_data);

/* Marks (bench-marks.c). Each verb is one step of the history. A mark of the plan is told by its hooping and its index there; all of a hooping
 * whose pin brings marks change these. */

/* FALSE for a stitched hooping, and for the one in the machine once marks were read. */
gboolean
hw_bench_may_change_marks (HwBench *bench, guint hooping);
gboolean
hw_bench_is_mark_held (HwBench *bench, HwPoint at);
/* Whether the hooping's marks are those of its pin: drawn for the machine. */
gboolean
hw_bench_is_mark_of_pin (HwBench *bench, guint hooping);
/* The marks are on the cloth: those of every hooping are held where they are. */
void
hw_bench_hold_all_marks (HwBench *bench);
void
hw_bench_let_go_all_marks (HwBench *bench);
void
hw_bench_hold_mark (HwBench *bench, guint hooping, guint mark);
/* A mark shared by hoopings is one cross, and goes for all of them. */
void
hw_bench_let_go_mark_at (HwBench *bench, HwPoint at);
/* Takes away a held mark, or one of a pin's if it is not the last. */
void
hw_bench_take_mark_away (HwBench *bench, guint hooping, guint mark);
/* Holds it at the new place, fabric mm, and the others of the hooping where they are, or the plan would move those too. */
void
hw_bench_move_mark (HwBench *bench, guint hooping, guint mark, HwPoint to);
/* Holds one more mark where it helps most, and the others of the hooping where they are. FALSE when there is no place for it. */
gboolean
hw_bench_one_more_mark (HwBench *bench, guint hooping);
/* The motif a mark of the hooping at this place is held for, or would be; NULL: none is left. (transfer none) */
const char *
hw_bench_motif_of_mark (HwBench *bench, guint hooping, HwPoint at);
/* Within an edit: holds all marks of the hooping where they are. */
void
hw_bench_hold_marks_of (HwBench *bench, guint hooping);
/* Within an edit: moves the mark at `from` (NULL: a new one) that serves the motif's hooping. For a hand that drags it, from place to place. */
void
hw_bench_put_mark (HwBench *bench, const char *motif, const HwPoint *from, HwPoint to);

/* Photographs of the cloth (bench-photo.c), told by their index in the scene's list. Each verb is one step of the history. */

/* Puts a photo on top of the stack and shows it. bytes: the file's, read and tried already. beside: the file is copied next to the scene's, which must have been saved once;
 * else the scene keeps it. taken: a day as "2026-11-25"; NULL, or what is no day: not known. FALSE, changing nothing, when it could not be copied. */
gboolean
hw_bench_add_photo (HwBench *bench,
                    const char *file,
                    GBytes *bytes,
                    const char *name,
                    const char *taken,
                    gboolean beside,
                    GError **error);
/* The photo leaves the scene; its file stays where it is. */
void
hw_bench_delete_photo (HwBench *bench, guint index);
void
hw_bench_rename_photo (HwBench *bench, guint index, const char *name, const char *taken);
void
hw_bench_show_photo (HwBench *bench, int index); /* -1: none */
/* Where points of the photo lie on the cloth; the photo is shown. */
void
hw_bench_square_photo (HwBench *bench, guint index, const HwPhotoPoint *points, guint n, double bow);
void
hw_bench_set_photo_look (HwBench *bench, guint index, double brightness, double strength);
void
hw_bench_set_photo_fade (HwBench *bench, double fade);

/* Arranging (bench-arrange.c). Each verb is one step of the history. Motifs that are locked, stitched or in the machine stay where they are; copies
 * may be made of them. */

/* FALSE for a motif that is locked, stitched, or in the hooping that is in the machine. */
gboolean
hw_bench_may_arrange (HwBench *bench, const HwMotif *motif);
/* How many of the selected motifs may be moved. */
guint
hw_bench_count_arrangeable (HwBench *bench);
/* The box of the edge line, or of the part inside its margin; the cloth where there is no edge line. mm */
HwBox
hw_bench_edge_box (HwBench *bench, gboolean inside_margin);

/* Brings the selected motifs in line: with those among them that must stay, else with their own common box; one alone, with the edge line
 * less its margin. */
void
hw_bench_align (HwBench *bench, HwAlign align);
/* Makes the gaps between the selected motifs (three or more) equal; the outermost two stay. */
void
hw_bench_distribute (HwBench *bench, gboolean across);
/* Adds mirrored copies of the selected motifs across the edge line's upright centre line, or its level one. */
void
hw_bench_mirror_pair (HwBench *bench, gboolean upright);

typedef enum
{
  HW_ARRANGE_COPIES, /* copies of the selection in a row */
  HW_ARRANGE_ROW,    /* the selected motifs in a row, from the first along the direction */
  HW_ARRANGE_AROUND, /* copies of the selection around a centre, evenly */
  HW_ARRANGE_TUCK /* motif slides along the line to neighbour until it reaches so far over, and goes behind it */
} HwArrangeKind;

#define HW_ARRANGE_MOST 200 /* motifs of one row or round */

typedef struct
{
  HwArrangeKind kind;
  guint count;           /* copies, around: how many in all, the selection itself being one */
  double gap;            /* copies, row: mm between neighbours, measured along the direction */
  double direction;      /* copies, row: degrees, 0 to the right, 90 down */
  HwPoint centre;        /* around: mm */
  gboolean turned;       /* around: each is turned by its share of the round */
  const char *motif;     /* tuck: id of the one that slides */
  const char *neighbour; /* tuck: id of the other */
  double depth;          /* tuck: mm it reaches over, along the line; 0 touches */
} HwArrangement;

/* Shows the arrangement as an edit that is under way, taking back one tried before: the caller then ends or cancels the edit. *ids (may be NULL): what to
 * select once it is taken. FALSE, leaving no edit, when it cannot be; *refusal (may be NULL) says why. */
gboolean
hw_bench_try_arrangement (HwBench *bench, const HwArrangement *arrangement, char ***ids, char **refusal);
/* The same, taken at once. */
gboolean
hw_bench_arrange (HwBench *bench, const HwArrangement *arrangement, char **refusal);

/* The two motifs of a tuck: those selected, the one farther back first; or the one selected and what lies nearest to it. FALSE when there are no
 * two, or neither may move. (transfer none) */
gboolean
hw_bench_tuck_pair (HwBench *bench, const HwMotif **motif, const HwMotif **neighbour);
/* How far the motif reaches over the neighbour along the line between them, mm; below 0: how far it lies off. FALSE when they cannot meet along it. */
gboolean
hw_bench_tuck_depth (HwBench *bench, const char *motif, const char *neighbour, double *depth);
/* Direction from the first to the last of the selected motifs that may be moved, degrees, and their mean gap along it, mm. FALSE for fewer than two. */
gboolean
hw_bench_row_now (HwBench *bench, double *direction, double *gap);

/* Motifs from files, and outlines by hand (bench-import.c). Each verb is one step of the history. */

/* Puts motifs on top of all, in rows about the point (NULL: the middle of the cloth), under ids and names of their own, and selects them. Paths of artwork below the
 * scene's folder become relative; artwork that the scene shows already is shared. FALSE: they would be too many, and none is added. (element-type HwMotif) */
gboolean
hw_bench_add_motifs (HwBench *bench, GPtrArray *records, const HwPoint *at);
/* FALSE for a motif that is locked or stitched, or is not there. */
gboolean
hw_bench_may_edit_outline (HwBench *bench, const char *motif_id);
/* Gives a motif another outline, in its own mm, mended where it crosses itself. FALSE, changing nothing, when it encloses no area or the motif must
 * stay as it is; *refusal (may be NULL) then says why. */
gboolean
hw_bench_set_outline (HwBench *bench, const char *motif_id, const HwOutline *outline, char **refusal);

/* Threads at hand (bench-palette.c). Each verb is one step of the history. */

/* The person's own threads become these. (element-type HwPaletteThread) */
void
hw_bench_set_palette (HwBench *bench, GPtrArray *palette);
/* Takes a thread at hand, by its index, for all blocks of that name and colour that are not stitched yet. FALSE when there are none. */
gboolean
hw_bench_use_thread (HwBench *bench, const char *name, HwColour colour, guint thread);

/* Parts of the scene (bench-parts.c), told by their index in the scene's list. Each verb is one step of the history. */

/* Puts the selected motifs into the part called name, a new last one when there is none; they leave the part they were in. FALSE, changing nothing, when nothing
 * is selected, the name is empty, or there are HW_MOST_PARTS already. */
gboolean
hw_bench_put_in_part (HwBench *bench, const char *name);
/* The selected motifs are in no part any more. */
void
hw_bench_take_out_of_parts (HwBench *bench);
/* The part of all selected motifs; -1: none, or they are not all in one. */
int
hw_bench_part_of_selection (HwBench *bench);
gboolean
hw_bench_some_in_parts (HwBench *bench); /* of the selected motifs */
/* FALSE, changing nothing, when the name is empty or another part bears it. */
gboolean
hw_bench_rename_part (HwBench *bench, guint part, const char *name);
/* Moves a part to another place of the order, counted from 0; places past the end mean the last. */
void
hw_bench_move_part (HwBench *bench, guint part, guint to);
/* Takes a part apart: its motifs are in no part then. */
void
hw_bench_drop_part (HwBench *bench, guint part);
/* "Part 1", or the next number no part bears. Returns: (transfer full) */
char *
hw_bench_free_part_name (HwBench *bench);

G_END_DECLS
