/* What the parts of the scene share: its fields, and how motifs and hoops tell it that they change. Private to this room. */
#pragma once

#include "item-list.h"
#include "scene.h"

G_BEGIN_DECLS

struct _HwScene
{
  GObject parent_instance;

  char *name;
  HwFabric fabric;
  HwEdgeLine *edge_line;
  HwMachine machine;
  HwWishes wishes;
  HwSupplyFacts supplies;
  GPtrArray *pins;       /* HwPin; replaced, never changed */
  GPtrArray *frozen;     /* the same */
  GPtrArray *apart;      /* HwApart; the same */
  GPtrArray *held_marks; /* HwHeldMark; the same */
  GPtrArray *log;        /* HwLogLine; the same */
  GPtrArray *photos;     /* HwPhoto; the same */
  int photo_shown;
  double photo_fade;
  GPtrArray *palette; /* HwPaletteThread; the same */
  GPtrArray *parts;   /* HwPart; the same */
  HwUnknown *unknown;
  HwItemList *motifs;
  HwItemList *hoops;

  HwSnapshot *snapshot; /* as long as it still holds, else NULL */
  guint held;
  guint pending; /* HwSceneChange */
};

#define motif_at(self, i) ((HwSceneMotif *)hw_item_list_peek ((self)->motifs, (i)))
#define hoop_at(self, i) ((HwSceneHoop *)hw_item_list_peek ((self)->hoops, (i)))

/* Around every change: begin before the first notify, so that whoever hears it sees a fresh snapshot; end afterwards, which emits "changed"
 * unless the scene is held. scene may be NULL (an object outside any scene). */
void
hw_scene_begin_change (HwScene *scene, guint changes);
void
hw_scene_end_change (HwScene *scene);

GPtrArray *
hw_scene_copy_pins (GPtrArray *pins);
/* Puts a copy of pins in *place, which is the scene's pins or its frozen hoopings, and tells so if they differ. */
void
hw_scene_replace_pins (HwScene *scene, GPtrArray **place, GPtrArray *pins);

/* Puts the log in place of the scene's and tells so if they differ. */
void
hw_scene_replace_log (HwScene *scene, GPtrArray *log);

/* Takes the motif out of the part that names it. */
void
hw_scene_drop_from_parts (HwScene *scene, const char *id);

/* The scene the object belongs to, or NULL; not a reference. */
void
hw_scene_motif_set_scene (HwSceneMotif *motif, HwScene *scene);
HwScene *
hw_scene_motif_get_scene (HwSceneMotif *motif);
void
hw_scene_hoop_set_scene (HwSceneHoop *hoop, HwScene *scene);
HwScene *
hw_scene_hoop_get_scene (HwSceneHoop *hoop);

G_END_DECLS
