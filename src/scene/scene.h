/* The live scene: GObjects that panes bind to and the canvas moves. Each holds its current record (records.h); setting a property makes a new
 * record, a name as hw_one_line_name() makes it, so a snapshot is only a list of references. The scene says once per main-loop turn or per edit what changed ("changed"). */
#pragma once

#include <gio/gio.h>

#include "snapshot.h"

G_BEGIN_DECLS

typedef enum
{
  HW_SCENE_CHANGE_FABRIC = 1 << 0,
  HW_SCENE_CHANGE_EDGE_LINE = 1 << 1,
  HW_SCENE_CHANGE_HOOPS = 1 << 2,
  HW_SCENE_CHANGE_MOTIF_LIST = 1 << 3, /* added, removed */
  HW_SCENE_CHANGE_ORDER = 1 << 4,      /* back to front order, ties, parts */
  HW_SCENE_CHANGE_PLACEMENT = 1 << 5,  /* some motif moved, turned, scaled, mirrored */
  HW_SCENE_CHANGE_ARTWORK = 1 << 6,    /* outline or artwork of a motif */
  HW_SCENE_CHANGE_THREADS = 1 << 7,
  HW_SCENE_CHANGE_PINS = 1 << 8,    /* pins, frozen hoopings, motifs kept apart, held marks */
  HW_SCENE_CHANGE_MACHINE = 1 << 9, /* machine and wishes */
  HW_SCENE_CHANGE_WORDS
  = 1 << 10, /* names, notes, locks: nothing the planner minds, but its sentences speak them */
  HW_SCENE_CHANGE_WORK = 1 << 11, /* what was read, entered and written down at the machine; the log */
  HW_SCENE_CHANGE_PHOTOS
  = 1 << 12, /* photographs of the cloth, which one is shown, how faded the motifs are */
  HW_SCENE_CHANGE_PALETTE = 1 << 13, /* the threads at hand */
  HW_SCENE_CHANGE_SUPPLIES
  = 1 << 14 /* what the workroom uses up: nothing the planner minds, but its sentences speak of it */
} HwSceneChange;
#define HW_SCENE_CHANGE_PLAN_MINDS (0x3ff)
/* What a plan or its sentences depend on: the others leave a plan as it is. */
#define HW_SCENE_CHANGE_PLAN_SPEAKS                                                                          \
  (HW_SCENE_CHANGE_PLAN_MINDS | HW_SCENE_CHANGE_WORDS | HW_SCENE_CHANGE_SUPPLIES)
#define HW_SCENE_CHANGE_ALL (0x7fff)

/* A motif of the live scene. Properties: "id", "name", "x", "y", "angle", "scale", "mirrored", "locked", "note", "width", "height" (size on the
 * cloth along its own axes, mm, setting one sets the scale), "percent". */
#define HW_TYPE_SCENE_MOTIF (hw_scene_motif_get_type ())
G_DECLARE_FINAL_TYPE (HwSceneMotif, hw_scene_motif, HW, SCENE_MOTIF, GObject)

HwSceneMotif *
hw_scene_motif_new (const HwMotif *record);
const HwMotif *
hw_scene_motif_get_record (HwSceneMotif *motif);
void
hw_scene_motif_set_record (HwSceneMotif *motif, const HwMotif *record);
void
hw_scene_motif_set_placement (HwSceneMotif *motif, const HwPlacement *placement);
/* The outline as it lies on the cloth now (cached). (transfer none) */
const HwOutline *
hw_scene_motif_get_placed (HwSceneMotif *motif);

/* A hoop of the live scene. Properties: "id", "name", "field-width", "field-height", "frame-width", "frame-height", "clearance", "turn",
 * "set-aside". */
#define HW_TYPE_SCENE_HOOP (hw_scene_hoop_get_type ())
G_DECLARE_FINAL_TYPE (HwSceneHoop, hw_scene_hoop, HW, SCENE_HOOP, GObject)

HwSceneHoop *
hw_scene_hoop_new (const HwHoop *record);
const HwHoop *
hw_scene_hoop_get_record (HwSceneHoop *hoop);
void
hw_scene_hoop_set_record (HwSceneHoop *hoop, const HwHoop *record);

/* The scene. Properties: "name", "cloth-width", "cloth-height", "cloth-colour" (string #rrggbb), "hold" (int HwHold). */
#define HW_TYPE_SCENE (hw_scene_get_type ())
G_DECLARE_FINAL_TYPE (HwScene, hw_scene, HW, SCENE, GObject)

HwScene *
hw_scene_new (void);

/* Signal "changed" (guint HwSceneChange flags). Emitted synchronously after each change, or once with all flags together when changes are
 * made between hw_scene_hold() and hw_scene_release() (these nest). */
void
hw_scene_hold (HwScene *scene);
void
hw_scene_release (HwScene *scene);

/* Lists to bind to: HwSceneMotif back to front, HwSceneHoop. (transfer none) */
GListModel *
hw_scene_get_motifs (HwScene *scene);
GListModel *
hw_scene_get_hoops (HwScene *scene);
HwSceneMotif *
hw_scene_find_motif (HwScene *scene, const char *id); /* (transfer none) (nullable) */
int
hw_scene_index_of (HwScene *scene, HwSceneMotif *motif);

void
hw_scene_insert_motif (HwScene *scene, guint at, HwSceneMotif *motif);
/* Takes it out, with the ties and pins that name it, the pairs that keep it apart, the marks held for it and its place in a part; the log keeps its lines. Returns FALSE, changing nothing, when the motif is stitched already. */
gboolean
hw_scene_remove_motif (HwScene *scene, HwSceneMotif *motif);
/* Moves a motif to another place of the stitch order. */
void
hw_scene_move_motif (HwScene *scene, guint from, guint to);
/* An id no motif has yet, like "m12". Returns: (transfer full) */
char *
hw_scene_free_id (HwScene *scene);

void
hw_scene_add_hoop (HwScene *scene, HwSceneHoop *hoop);
/* Takes it out, with the pins in it; pins that leave the hoop free stay, without the hoop. Returns FALSE, changing nothing, when a hooping stitched already was made in it. */
gboolean
hw_scene_remove_hoop (HwScene *scene, HwSceneHoop *hoop);
/* An id no hoop has yet, like "h3". Returns: (transfer full) */
char *
hw_scene_free_hoop_id (HwScene *scene);

const HwFabric *
hw_scene_get_fabric (HwScene *scene);
void
hw_scene_set_fabric (HwScene *scene, const HwFabric *fabric);
const HwEdgeLine *
hw_scene_get_edge_line (HwScene *scene);
void
hw_scene_set_edge_line (HwScene *scene, const HwEdgeLine *edge);
const HwMachine *
hw_scene_get_machine (HwScene *scene);
void
hw_scene_set_machine (HwScene *scene, const HwMachine *machine);
const HwWishes *
hw_scene_get_wishes (HwScene *scene);
void
hw_scene_set_wishes (HwScene *scene, const HwWishes *wishes);
const HwSupplyFacts *
hw_scene_get_supplies (HwScene *scene);
void
hw_scene_set_supplies (HwScene *scene, const HwSupplyFacts *supplies);
GPtrArray *
hw_scene_get_pins (HwScene *scene); /* HwPin; (transfer none); do not change */
/* One of them at most may be in the machine (work), and that one keeps all. */
void
hw_scene_set_pins (HwScene *scene, GPtrArray *pins);
GPtrArray *
hw_scene_get_frozen (HwScene *scene); /* HwPin: hoopings already stitched; (transfer none); do not change */

GPtrArray *
hw_scene_get_apart (HwScene *scene); /* HwApart; (transfer none); do not change */
/* Pairs already there, either way round, are left out. */
void
hw_scene_set_apart (HwScene *scene, GPtrArray *apart);

GPtrArray *
hw_scene_get_held_marks (HwScene *scene); /* HwHeldMark; (transfer none); do not change */
void
hw_scene_set_held_marks (HwScene *scene, GPtrArray *marks);
/* Hoopings stitched already, in the order they were; HW_SCENE_CHANGE_PINS. Refuses nothing: the planner says what does not fit. */
void
hw_scene_set_frozen (HwScene *scene, GPtrArray *frozen);
GPtrArray *
hw_scene_get_log (HwScene *scene); /* HwLogLine; (transfer none); do not change */
/* Adds a reference to the line at the end; HW_SCENE_CHANGE_WORK. */
void
hw_scene_add_log_line (HwScene *scene, HwLogLine *line);

GPtrArray *
hw_scene_get_photos (HwScene *scene); /* HwPhoto; (transfer none); do not change */
int
hw_scene_get_photo_shown (HwScene *scene); /* index, or -1 */
double
hw_scene_get_photo_fade (HwScene *scene);
/* shown is cut to -1 and the last photo, fade to 0 and 1; HW_SCENE_CHANGE_PHOTOS. photos may be the scene's own list. */
void
hw_scene_set_photos (HwScene *scene, GPtrArray *photos, int shown, double fade);
void
hw_scene_show_photo (HwScene *scene, int shown);
void
hw_scene_set_photo_fade (HwScene *scene, double fade);
GPtrArray *
hw_scene_get_palette (HwScene *scene); /* HwPaletteThread; (transfer none); do not change */
void
hw_scene_set_palette (HwScene *scene, GPtrArray *palette);
GPtrArray *
hw_scene_get_parts (HwScene *scene); /* HwPart; (transfer none); do not change */
/* HW_SCENE_CHANGE_ORDER. Each motif in one part only: the caller sees to that. */
void
hw_scene_set_parts (HwScene *scene, GPtrArray *parts);

/* The scene as it is now; the same pointer until something changes. Returns: (transfer full) */
HwSnapshot *
hw_scene_snapshot (HwScene *scene);
/* Brings the scene to a snapshot, keeping live objects by id, emitting only what differs. */
void
hw_scene_restore (HwScene *scene, const HwSnapshot *snapshot);

G_END_DECLS
