/* A small scene on a bench, and the wait for its plan. */
#include "bench-fixture.h"

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
