/* Places whose position on the cloth is known, for a photograph to be put square by. */
#pragma once

#include "../planning/plan.h"

G_BEGIN_DECLS

typedef enum
{
  HW_KNOWN_EDGE,  /* the edge line's corners, or the middles of its sides where it is round */
  HW_KNOWN_CLOTH, /* the cloth's corners */
  HW_KNOWN_MARK,  /* marks and centre crosses */
  HW_KNOWN_SHEET, /* corners of a sheet of paper that lies somewhere on the cloth */
  HW_KNOWN_HOOP,  /* of the hoop: the middles of its sides, corners of its field */
  HW_KNOWN_TYPED
} HwKnownKind;

typedef struct
{
  HwKnownKind kind;
  char *name;
  HwPoint mm; /* fabric mm, or hoop axes; of a sheet's corner: on the sheet, from its upper left corner */
} HwKnownPlace;

/* The scene's own, those of the edge line first, clockwise from the upper left. plan gives marks their names; it may be NULL. Of marks in one place only
 * one is listed. Returns: (transfer full) (element-type HwKnownPlace) */
GPtrArray *
hw_known_places (const HwSnapshot *snapshot, const HwPlan *plan);
/* What is known of a hoop whatever is in it, in hoop axes: the middles of the frame's sides, where the marks for the cross are, clockwise from the side away from the
 * person; then the field's corners, the middles of its sides, and its centre. Returns: (transfer full) (element-type HwKnownPlace) */
GPtrArray *
hw_hoop_places (const HwHoop *hoop);
/* A hooping's marks in hoop axes, to be looked for; named by their letters. Returns: (transfer full) (element-type HwKnownPlace) */
GPtrArray *
hw_hooping_mark_places (const HwReading *marks, guint n);
/* Adds the corners of a sheet of that size, clockwise as seen from the upper left. */
void
hw_known_places_add_sheet (GPtrArray *places, double width, double height);
/* The index of a place of the scene within 0.05 mm, or -1. */
int
hw_known_places_find (const GPtrArray *places, HwPoint mm);
/* The first run of four places of a kind, or -1. */
int
hw_known_places_four (const GPtrArray *places, HwKnownKind kind);

G_END_DECLS
