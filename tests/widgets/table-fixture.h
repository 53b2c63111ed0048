/* The table with the orchard on it (tests/workbench/bench-fixture.h), planned, on a screen. */
#pragma once

#include "hands.h"
#include "workbench/canvas-private.h"

G_BEGIN_DECLS

typedef struct
{
  HwBench *bench;
  HwCanvas *canvas;
  GtkWindow *window;
} Table;

void
table_set_up (Table *table, gconstpointer data);
void
table_tear_down (Table *table, gconstpointer data);
/* Where a place of the cloth is seen, pixels. */
HwPoint
table_pixel (Table *table, double x, double y);
HwPlacement
table_placement (Table *table, const char *id);
/* Presses at a place of the cloth, pulls it by mm in some steps; the hand is left pressed. */
void
table_pull (Table *table, HwPoint from, HwPoint by, GdkModifierType held);
/* The same from pixel to pixel. */
void
table_pull_pixels (Table *table, HwPoint from, HwPoint to, GdkModifierType held);
void
table_click (Table *table, HwPoint at, GdkModifierType held);
/* The step that undo would take back, or NULL. (transfer full) */
char *
table_undo_name (Table *table);
/* The ids of what is selected, in stitch order, "m1 m2". (transfer full) */
char *
table_selected (Table *table);

G_END_DECLS
