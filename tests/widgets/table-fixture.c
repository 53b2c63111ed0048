/* The table with the orchard on it. */
#include "table-fixture.h"

#include "../workbench/bench-fixture.h"

void
table_set_up (Table *table, gconstpointer data)
{
  table->bench = bench_with_orchard ();
  wait_for_plan (table->bench);
  table->canvas = HW_CANVAS (hw_canvas_new (table->bench));
  table->window = hands_show (GTK_WIDGET (table->canvas), 900, 700);
  hw_canvas_zoom_fit (table->canvas);
  hands_settle ();
}

void
table_tear_down (Table *table, gconstpointer data)
{
  hands_close (table->window);
  g_object_unref (table->bench);
}

HwPoint
table_pixel (Table *table, double x, double y)
{
  return hw_view_to_pixels (&table->canvas->view, (HwPoint){ x, y });
}

HwPlacement
table_placement (Table *table, const char *id)
{
  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (table->bench), id);

  g_assert_nonnull (motif);
  return hw_scene_motif_get_record (motif)->placement;
}

void
table_pull_pixels (Table *table, HwPoint from, HwPoint to, GdkModifierType held)
{
  hw_drag_press (table->canvas, from, 0, FALSE);
  for (guint i = 1; i <= 4; i++)
    hw_drag_motion (table->canvas,
                    (HwPoint){ from.x + (to.x - from.x) * i / 4, from.y + (to.y - from.y) * i / 4 }, held);
}

void
table_pull (Table *table, HwPoint from, HwPoint by, GdkModifierType held)
{
  table_pull_pixels (table, table_pixel (table, from.x, from.y),
                     table_pixel (table, from.x + by.x, from.y + by.y), held);
}

void
table_click (Table *table, HwPoint at, GdkModifierType held)
{
  hw_drag_press (table->canvas, table_pixel (table, at.x, at.y), held, FALSE);
  hw_drag_release (table->canvas);
  /* The next one is no second half of a double click. */
  table->canvas->last_click = 0;
}

char *
table_undo_name (Table *table)
{
  char *name = NULL;

  g_object_get (table->bench, "undo-name", &name, NULL);
  return name;
}

char *
table_selected (Table *table)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (table->bench);
  GString *ids = g_string_new (NULL);

  for (guint i = 0; i < selection->len; i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? " " : "",
                            hw_scene_motif_get_record (g_ptr_array_index (selection, i))->id);
  return g_string_free (ids, FALSE);
}
