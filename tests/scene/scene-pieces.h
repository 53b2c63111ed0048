/* Small scenes to test with: an orchard wall hanging of square motifs. */
#pragma once

#include "scene/scene.h"

static inline HwMotif *
make_motif (const char *id, double x, double y)
{
  HwMotif *motif = hw_motif_new ();
  HwThreadBlock thread = { .name = (char *)"leaf", .colour = { 0.2, 0.4, 0.2 }, .stitches = 900 };

  motif->id = g_strdup (id);
  motif->name = g_strdup_printf ("Pear %s", id);
  motif->outline = hw_outline_new_rectangle (40, 20);
  motif->placement.position = (HwPoint){ x, y };
  hw_motif_set_threads (motif, &thread, 1);
  return motif;
}

static inline HwHoop *
make_hoop (const char *id)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup (id);
  hoop->name = g_strdup ("130 x 180");
  hoop->field_width = 130;
  hoop->field_height = 180;
  hoop->frame_width = 170;
  hoop->frame_height = 240;
  hoop->clearance = 2;
  return hoop;
}

static inline HwPin *
make_pin (const char *hoop, const char *const *motifs)
{
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup (hoop);
  pin->centre = (HwPoint){ 100, 100 };
  pin->motifs = g_strdupv ((char **)motifs);
  return pin;
}

/* n motifs m1, m2 ... in a row, hoops h1 and h2. */
static inline HwSnapshot *
make_orchard (guint n)
{
  HwSnapshot *snapshot = hw_snapshot_new ();

  g_free (snapshot->name);
  snapshot->name = g_strdup ("The Pear Wall");
  g_ptr_array_add (snapshot->hoops, make_hoop ("h1"));
  g_ptr_array_add (snapshot->hoops, make_hoop ("h2"));
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("m%u", i + 1);

      g_ptr_array_add (snapshot->motifs, make_motif (id, 60 + 50 * i, 100));
    }
  return snapshot;
}

static inline HwScene *
make_scene (guint n)
{
  g_autoptr (HwSnapshot) orchard = make_orchard (n);
  HwScene *scene = hw_scene_new ();

  hw_scene_restore (scene, orchard);
  return scene;
}
