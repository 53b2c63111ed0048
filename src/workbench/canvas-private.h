/* The inside of the canvas, shared by the files that make it up and by no other. */
#pragma once

#include "arrange-guides.h"
#include "canvas-ghosts.h"
#include "canvas-handles.h"
#include "canvas-photo.h"
#include "canvas-rules.h"
#include "canvas-signs.h"
#include "canvas-view.h"
#include "canvas.h"
#include "motif-pictures.h"

G_BEGIN_DECLS

/* What is drawn, from the table up. Each is kept as a render node until something it shows changes. */
typedef enum
{
  HW_LAYER_STILL,     /* table, cloth, the motifs that lie still */
  HW_LAYER_MOVING,    /* the motifs being dragged and those above them */
  HW_LAYER_DENSITY,   /* how dense the stitching lies, and the tags over it */
  HW_LAYER_POINTED,   /* rings about motifs pointed out */
  HW_LAYER_HOOPINGS,  /* footprints, centre crosses, marks */
  HW_LAYER_BESIDE,    /* where things lay before, or would lie */
  HW_LAYER_GHOSTS,    /* other hoops and turns */
  HW_LAYER_FAULTS,    /* what breaks a rule and lies still */
  HW_LAYER_RULES,     /* the same of what is in the air, and what it overlaps */
  HW_LAYER_SIGNS,     /* where else the plan has something to say */
  HW_LAYER_SELECTION, /* hover line, frame and handles, rubber band */
  HW_LAYER_GUIDES,    /* where what is in the hand comes to rest */
  HW_LAYER_WORDS,     /* labels of ghosts, what is said of broken rules */
  HW_LAYER_MARKS,     /* the chosen hooping's marks in the hand, and the errors they leave */
  HW_LAYER_READOUT,   /* the slip with position and size */
  HW_LAYER_LENS,      /* the round lens over a mark */
  HW_LAYER_FIGURES,   /* at the pointer, while something is pulled */
  HW_LAYER_KEY,       /* to the colours of the density */
  HW_LAYER_RULERS,
  HW_LAYER_RULER_MARKS, /* pointer and selection on the rulers, focus ring */
  HW_N_LAYERS
} HwLayer;

#define HW_BIT(layer) (1u << (layer))
#define HW_ALL_LAYERS ((1u << HW_N_LAYERS) - 1)

typedef enum
{
  HW_PULL_NONE,
  HW_PULL_UNDECIDED, /* pressed, not yet moved far enough to mean a drag */
  HW_PULL_MOVE,
  HW_PULL_TURN,
  HW_PULL_RESIZE,
  HW_PULL_BAND,
  HW_PULL_MARK,
  HW_PULL_PAN
} HwPull;

/* What a press met. */
typedef enum
{
  HW_PRESS_CLOTH,
  HW_PRESS_MOTIF,
  HW_PRESS_HANDLE,
  HW_PRESS_MARK,
  HW_PRESS_DISC,
  HW_PRESS_GHOST,
  HW_PRESS_PAN
} HwPress;

typedef struct
{
  HwPull pull;
  HwPress press;
  HwPoint from; /* pixel of the press */
  HwPoint
      hold; /* the point of the cloth under it: pulls are measured from there, whatever is panned or zoomed meanwhile */
  HwPoint to; /* pixel of the pointer now */
  int target; /* motif, hooping or ghost pressed on */
  HwHandle handle;
  gboolean was_sole; /* the pressed motif was all that was selected */
  gboolean toggles;  /* Shift or Ctrl was held at the press */
  gboolean below;    /* Alt was held: take the one below */
  gint64 time;       /* of the press, us */
  GPtrArray *motifs; /* HwSceneMotif being moved, turned or resized */
  HwPlacement *starts;
  HwHandleFrame frame; /* of the selection at the start */
  HwSnapField *rests;  /* where what is moved may come to rest, or NULL */
  HwBox box;           /* of the outlines in the hand at the start, mm */
  HwSnapGuide guides[HW_SNAP_MOST_GUIDES];
  guint n_guides;
  HwView view;               /* at the start, for panning */
  HwPoint mark_start;        /* fabric mm: where the mark lay */
  HwPoint mark_at;           /* where it lies now */
  char mark_letter[4];       /* as it was pressed */
  gboolean fine;             /* the mark follows at a fraction of the hand's pace */
  char *mark_motif;          /* id of the motif it is held for */
  char **band_before;        /* ids selected before the rubber band */
  GdkModifierType modifiers; /* at the last motion */
  gint64 creep_time;
  guint creep;                /* tick that pans while the pointer is held at the rim */
  GtkEventController *escape; /* on the whole window while dragging */
} HwDrag;

typedef struct _HwCanvasDensity HwCanvasDensity;
typedef struct _HwCanvasGlide HwCanvasGlide;

/* How a motif shows on a stage. */
typedef enum
{
  HW_TEMPLATE_SHOWN_NOT, /* it is stitched, or this is no stage */
  HW_TEMPLATE_SHOWN_NEXT,
  HW_TEMPLATE_SHOWN_LATER
} HwTemplateShown;

/* A place on the cloth to be taken up. */
typedef struct
{
  gboolean wanted;
  HwPoint centre; /* fabric mm, in the middle of the table */
  double zoom;
  HwView put; /* the view it was last taken up with; zoom 0: none yet */
} HwCanvasPlace;

struct _HwCanvas
{
  GtkWidget parent_instance;

  HwBench *bench;
  GPtrArray *cast;        /* HwSceneMotif, back to front */
  GHashTable *hooping_of; /* motif id -> hooping + 1 of the present plan */
  gboolean show_hoopings, show_marks, show_order, show_density;
  gboolean drags_freely; /* what is moved comes to rest nowhere */
  HwPlan *drawn;         /* the plan whose hoopings are drawn, or NULL */
  guint n_pointed;       /* motifs pointed out that are there */

  HwView view;
  HwCanvasPlace place;
  gboolean fitted; /* the view still follows the window's size */
  int device;      /* device pixels per pixel */
  gboolean dark;
  gboolean clear; /* the desktop asks for high contrast */

  GskRenderNode *nodes[HW_N_LAYERS];
  cairo_surface_t *sheet; /* the still picture: it shows what is there, but for the view; NULL: none */
  HwView sheet_view;      /* it was drawn at */
  cairo_surface_t *wide;  /* an earlier one that shows more of the cloth; NULL: none */
  HwView wide_view;
  cairo_surface_t *shown;    /* the pixels handed out last, if they are not the sheet's */
  cairo_surface_t *spare[2]; /* pixels that are shown no more, the last first */
  guint rest;                /* source: the zoom comes to rest */
  HwPoint owed;              /* what a shift by whole pixels left undone */
  GskRenderNode *over;       /* what lies over the moving motifs */
  gboolean lifted;           /* what is in the hand is drawn over the still picture, which is whole */
  HwBox gap;                 /* mm: where it was taken up */
  GskRenderNode *gap_node;   /* that place without it, at gap_view; NULL: not drawn yet */
  HwView gap_view;
  guint stale;           /* HW_BIT of layers to be made anew */
  GPtrArray *footprints; /* cached nodes of single hoopings */
  GHashTable *tags;      /* order number -> its little picture */
  HwMotifPictures *pictures;
  GPtrArray *rings; /* cached nodes of single motifs pointed out */
  HwCanvasDensity *density;
  HwCanvasGlide *glide; /* while a new plan comes */
  HwCanvasPhoto *photo;
  HwRules *rules;
  HwSigns *signs;
  HwPoint told;   /* a problem at this place is told in words; NAN: none */
  double covered; /* pixels at the right that something lies over */
  GArray *ghosts;

  gboolean pointer_inside;
  HwPoint pointer;
  int hover_motif, hover_hooping, hover_ghost, hover_sign, hover_mark;
  HwHandle hover_handle;
  gboolean space_held, lens_held, alt_held;
  gint64 last_click;

  HwDrag drag;
  HwView pinch_view;  /* when the pinch began */
  HwPoint pinch_from; /* pixels: between the fingers then */
  GtkWidget *menu;
  guint words_source;
};

/* canvas.c */
void
hw_canvas_spoil (HwCanvas *canvas, guint layers);
HwBox
hw_canvas_area (HwCanvas *canvas); /* pixels right of and below the rulers */
void
hw_canvas_set_view (HwCanvas *canvas, const HwView *view);
/* The part of the area that nothing lies over. */
HwBox
hw_canvas_open_area (HwCanvas *canvas);
HwBox
hw_canvas_cloth_box (HwCanvas *canvas); /* mm */

/* canvas-lifted.c */
gboolean
hw_canvas_is_lifted (HwCanvas *canvas);
/* Motifs have been taken into the hand: decides how they are drawn, and spoils what must be drawn for it. */
void
hw_canvas_lift (HwCanvas *canvas);
/* After they moved: too large by now, they are drawn the other way from here. */
void
hw_canvas_lift_no_more (HwCanvas *canvas);
GskRenderNode *
hw_canvas_draw_lifted (HwCanvas *canvas);

/* canvas-cast.c */
HwSceneMotif *
hw_canvas_motif (HwCanvas *canvas, guint index);
const HwMotif *
hw_canvas_record (HwCanvas *canvas, guint index);
gboolean
hw_canvas_is_selected (HwCanvas *canvas, guint index);
int
hw_canvas_hooping_of (HwCanvas *canvas, guint index);
/* The frame about all that is selected; FALSE when nothing is. *fixed: all of it is held in place. */
gboolean
hw_canvas_selection_frame (HwCanvas *canvas, HwHandleFrame *frame, gboolean *fixed);
/* The handles as they lie now; FALSE when there are none to pull. */
gboolean
hw_canvas_handles (HwCanvas *canvas, HwHandles *handles);
/* What labels should not cover: handles and the discs of hoopings. Returns: (transfer full) (element-type HwPoint): pixels */
GArray *
hw_canvas_avoid (HwCanvas *canvas);
gboolean
hw_canvas_is_pointed_out (HwCanvas *canvas, guint index);
/* Bounds of the selection on the cloth, mm; empty when nothing is selected. */
HwBox
hw_canvas_selection_box (HwCanvas *canvas);
gboolean
hw_canvas_is_moving (HwCanvas *canvas, guint index);
gboolean
hw_canvas_is_dragging (HwCanvas *canvas);

/* canvas-layers.c */
GskRenderNode *
hw_canvas_draw_still (HwCanvas *canvas);
GskRenderNode *
hw_canvas_draw_moving (HwCanvas *canvas);
/* Table, cloth and motifs within a box of whole pixels; air: those in the hand too. */
void
hw_canvas_draw_part (HwCanvas *canvas, cairo_t *cr, HwBox part, gboolean air);
/* Pixels a motif and its number show on. */
HwBox
hw_canvas_motif_reach (HwCanvas *canvas, guint index);
/* The tag with a motif's place in the stitch order; strong: dark, as that of a motif pointed out. */
void
hw_canvas_draw_tag (HwCanvas *canvas, cairo_t *cr, guint index, gboolean strong);
/* Those of all that lies still. */
void
hw_canvas_draw_tags (HwCanvas *canvas, cairo_t *cr);
/* Whether the colours of the density lie over the motifs. */
gboolean
hw_canvas_is_coloured (HwCanvas *canvas);
void
hw_canvas_forget_tags (HwCanvas *canvas);

/* canvas-sheet.c: the still picture as pixels, shifted and stretched rather than drawn anew */
/* Each frame needs memory for whole pictures of the window, here and within GTK. Given back to the system after each, its pages would have to be had and
 * cleared anew 60 times a second, which takes longer than drawing on them. Once a program. */
void
hw_sheet_keep_memory (void);
/* What lies still, in the present view. Returns: (transfer none): valid until the next call */
cairo_surface_t *
hw_sheet_draw (HwCanvas *canvas);
void
hw_sheet_forget (HwCanvas *canvas);
/* The zoom has changed and may change again soon: until it rests the picture there is is stretched. */
void
hw_sheet_zoomed (HwCanvas *canvas);
/* A motif's picture is there in a better state than the sheet shows. */
void
hw_sheet_can_be_better (HwCanvas *canvas);

/* canvas-pointed.c */
GPtrArray *
hw_canvas_rings_new (void);
GskRenderNode *
hw_canvas_draw_pointed (HwCanvas *canvas); /* (nullable) */

/* canvas-density.c */
HwCanvasDensity *
hw_canvas_density_new (void);
void
hw_canvas_density_free (HwCanvasDensity *density);
/* Counts the scene as it is now, soon, when the density is shown. */
void
hw_canvas_refresh_density (HwCanvas *canvas);
GskRenderNode *
hw_canvas_draw_density (HwCanvas *canvas); /* (nullable) */
GskRenderNode *
hw_canvas_draw_key (HwCanvas *canvas); /* (nullable) */

/* canvas-hoopings.c */
GskRenderNode *
hw_canvas_draw_hoopings (HwCanvas *canvas);
HwPoint
hw_canvas_disc_at (HwCanvas *canvas, guint hooping); /* pixels */
int
hw_canvas_disc_under (HwCanvas *canvas, HwPoint pixel); /* -1: none */

/* The nodes that show a hooping now are added, each with a reference. (element-type GskRenderNode) */
void
hw_canvas_take_footprint (HwCanvas *canvas, guint hooping, GPtrArray *nodes);

/* canvas-glide.c */
void
hw_canvas_begin_glide (HwCanvas *canvas, const HwPlan *before, HwPlan *after);
void
hw_canvas_stop_glide (HwCanvas *canvas);
/* Where it is on its way, or where it lies. */
void
hw_canvas_append_footprint (HwCanvas *canvas, GtkSnapshot *snapshot, guint hooping, GskRenderNode *node);
void
hw_canvas_append_leaving (HwCanvas *canvas, GtkSnapshot *snapshot);

/* canvas-templates.c */
HwTemplateShown
hw_canvas_template_of (HwCanvas *canvas, guint index);
double
hw_canvas_template_alpha (HwTemplateShown shown); /* of the artwork */
/* Under the artwork and over it. */
void
hw_canvas_draw_template_paper (HwCanvas *canvas, cairo_t *cr, guint index, HwTemplateShown shown);
void
hw_canvas_draw_template_lines (HwCanvas *canvas, cairo_t *cr, guint index, HwTemplateShown shown);

/* canvas-overlays.c */
GskRenderNode *
hw_canvas_draw_overlay (HwCanvas *canvas, HwLayer layer);

/* A slip of paper with words, its top left corner at that pixel or as near to it as the table leaves room. */
void
hw_canvas_draw_slip (HwCanvas *canvas, GtkSnapshot *snapshot, const char *text, HwPoint at);

/* canvas-figures.c */
char *
hw_canvas_live_figures (HwCanvas *canvas); /* (transfer full) (nullable) */
void
hw_canvas_draw_figures (HwCanvas *canvas, GtkSnapshot *snapshot);
/* Adds pixels that the figures at the pointer cover. (element-type HwPoint) */
void
hw_canvas_avoid_figures (HwCanvas *canvas, GArray *points);

/* canvas-lens.c */
void
hw_canvas_draw_lens (HwCanvas *canvas, GtkSnapshot *snapshot);
void
hw_canvas_hold_lens (HwCanvas *canvas, gboolean held);

/* canvas-news.c: what the bench says */
void
hw_canvas_listen (HwCanvas *canvas);
void
hw_canvas_stop_listening (HwCanvas *canvas);
void
hw_canvas_refresh_ghosts (HwCanvas *canvas);
void
hw_canvas_refresh_rules (HwCanvas *canvas);
void
hw_canvas_refresh_signs (HwCanvas *canvas);

/* canvas-words.c */
char *
hw_canvas_readout (HwCanvas *canvas); /* (transfer full) (nullable) */
void
hw_canvas_describe_soon (HwCanvas *canvas);

/* canvas-gestures.c */
void
hw_canvas_add_gestures (HwCanvas *canvas);
void
hw_canvas_hover (HwCanvas *canvas);

/* canvas-drag.c */
void
hw_drag_press (HwCanvas *canvas, HwPoint pixel, GdkModifierType modifiers, gboolean pan);
void
hw_drag_motion (HwCanvas *canvas, HwPoint pixel, GdkModifierType modifiers);
void
hw_drag_release (HwCanvas *canvas);
void
hw_drag_cancel (HwCanvas *canvas);
/* The motifs under a pixel, topmost first. Returns: (transfer full) (element-type guint) */
GArray *
hw_canvas_stack_at (HwCanvas *canvas, HwPoint pixel);
HwHandle
hw_canvas_handle_under (HwCanvas *canvas, HwPoint pixel);
int
hw_canvas_ghost_under (HwCanvas *canvas, HwPoint pixel, gboolean labels_only); /* -1: none */

/* canvas-beside.c: dashed lines where motifs, marks and the edge line lay before, or would lie */
void
hw_canvas_draw_beside (HwCanvas *canvas, GtkSnapshot *snapshot);

/* canvas-marks.c: the chosen hooping's marks in the hand */
/* The mark under a pixel, among hw_canvas_marks(); -1: none. */
int
hw_canvas_mark_under (HwCanvas *canvas, HwPoint pixel);
void
hw_marks_begin_pull (HwCanvas *canvas);
void
hw_marks_pull (HwCanvas *canvas);
gboolean
hw_marks_can_be_pulled (HwCanvas *canvas);

/* canvas-marks-menu.c */
void
hw_canvas_add_mark_actions (HwCanvas *canvas);
/* For the mark under the pointer, among hw_canvas_marks(). Returns: (transfer full) */
GMenuModel *
hw_mark_menu_new (HwCanvas *canvas, guint mark);
/* What can be done to the marks of the chosen hooping. */
void
hw_append_mark_decisions (HwCanvas *canvas, GMenu *menu);

/* canvas-marks-drawing.c */
void
hw_canvas_draw_marks (HwCanvas *canvas, GtkSnapshot *snapshot);

/* canvas-creep.c: the cloth creeps along while something is held at the table's rim */
void
hw_creep_begin (HwCanvas *canvas);
void
hw_creep_end (HwCanvas *canvas);

/* canvas-keys.c */
void
hw_canvas_add_keys (HwCanvas *canvas);

/* canvas-menu.c */
void
hw_canvas_popup (HwCanvas *canvas, const HwPoint *at); /* pixels; NULL: at the selection */

/* canvas-cursor.c */
void
hw_canvas_update_cursor (HwCanvas *canvas);

/* Takes up the place that was set, while it still is wanted. */
gboolean
hw_canvas_take_place (HwCanvas *canvas);

G_END_DECLS
