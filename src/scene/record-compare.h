/* What differs between two records or snapshots, in the words of HwSceneChange (0: nothing a person could see or save). */
#pragma once

#include "scene.h"

G_BEGIN_DECLS

guint
hw_fabric_difference (const HwFabric *a, const HwFabric *b);
guint
hw_edge_line_difference (const HwEdgeLine *a, const HwEdgeLine *b);
guint
hw_hoop_difference (const HwHoop *a, const HwHoop *b);
guint
hw_motif_difference (const HwMotif *a, const HwMotif *b);
guint
hw_machine_difference (const HwMachine *a, const HwMachine *b);
guint
hw_wishes_difference (const HwWishes *a, const HwWishes *b);
guint
hw_supply_facts_difference (const HwSupplyFacts *a, const HwSupplyFacts *b);
guint
hw_apart_difference (GPtrArray *a, GPtrArray *b); /* of HwApart */
guint
hw_pins_difference (GPtrArray *a, GPtrArray *b); /* of HwPin; the work on them is HW_SCENE_CHANGE_WORK */
guint
hw_held_marks_difference (GPtrArray *a, GPtrArray *b); /* of HwHeldMark */
guint
hw_log_difference (GPtrArray *a, GPtrArray *b); /* of HwLogLine */
guint
hw_photos_difference (GPtrArray *a, GPtrArray *b); /* of HwPhoto */
guint
hw_palette_difference (GPtrArray *a, GPtrArray *b); /* of HwPaletteThread */
guint
hw_parts_difference (GPtrArray *a, GPtrArray *b); /* of HwPart */

G_END_DECLS
