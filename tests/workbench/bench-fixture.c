/* A small scene on a bench, and the wait for its plan. */
#include "bench-fixture.h"

#include "formats/needle-csv.h"

HwMotif *
orchard_motif (const char *id, const char *name, double x, double y)
{
  HwMotif *motif = hw_motif_new ();
  HwThreadBlock thread = { .name = (char *)"moss", .colour = { 0.2, 0.33, 0.13 }, .stitches = 1200 };

  motif->id = g_strdup (id);
  motif->name = g_strdup (name);
  motif->outline = hw_outline_new_rectangle (40, 40);
  motif->placement = (HwPlacement){ .position = { x, y }, .scale = 1 };
  hw_motif_set_threads (motif, &thread, 1);
  return motif;
}

static HwHoop *
orchard_hoop (void)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup ("h1");
  hoop->name = g_strdup ("130 x 180");
  hoop->field_width = 130;
  hoop->field_height = 180;
  hoop->frame_width = 170;
  hoop->frame_height = 240;
  hoop->clearance = 2;
  return hoop;
}

HwBench *
bench_with_orchard (void)
{
  HwBench *bench = hw_bench_new ();
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();

  g_ptr_array_add (scene->hoops, orchard_hoop ());
  g_ptr_array_add (scene->motifs, orchard_motif ("m1", "Pear", 100, 100));
  g_ptr_array_add (scene->motifs, orchard_motif ("m2", "Plum", 150, 100));
  g_ptr_array_add (scene->motifs, orchard_motif ("m3", "Quince", 550, 100));
  hw_bench_start_new (bench, scene);
  return bench;
}

void
bench_add_stitched (HwBench *bench, const char *name, double x, double y)
{
  static const char *const threads[] = { "moss", "sloe" };
  HwMotif *motif = orchard_motif (NULL, name, x, y);
  HwThreadBlock blocks[] = { { .name = (char *)"moss", .colour = { 0.2, 0.33, 0.13 }, .stitches = 200 },
                             { .name = (char *)"sloe", .colour = { 0.15, 0.12, 0.4 }, .stitches = 200 } };
  g_autoptr (GPtrArray) motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  g_autoptr (GError) error = NULL;
  g_autoptr (GString) rows = g_string_new ("x_mm,y_mm,action,thread\n");

  for (guint block = 0; block < 2; block++)
    for (guint i = 0; i < 200; i++)
      g_string_append_printf (rows, "%d,%.2f,%s,%s\n", i % 2 == 0 ? -15 : 15, -15 + 15.0 * block + 0.07 * i,
                              i == 0 ? "jump" : "stitch", threads[block]);
  motif->needles = hw_needle_csv_parse (rows->str, rows->len, name, &error);
  g_assert_no_error (error);
  hw_motif_set_threads (motif, blocks, 2);
  g_ptr_array_add (motifs, motif);
  g_assert_true (hw_bench_add_motifs (bench, motifs, NULL));
}

void
wait_for_plan (HwBench *bench)
{
  for (;;)
    {
      const HwPlan *plan = hw_bench_get_plan (bench);
      g_autoptr (HwSnapshot) now = hw_scene_snapshot (hw_bench_get_scene (bench));
      gboolean planning;

      g_object_get (bench, "planning", &planning, NULL);
      if (plan != NULL && !planning && hw_snapshot_equal (plan->snapshot, now))
        return;
      g_main_context_iteration (NULL, TRUE);
    }
}
