/* Made-up scenes for tests and measurements, from g_rand-like sources of numbers: gardens of several kinds. */
#pragma once

#include <math.h>

#include "../../src/planning/planner.h"

typedef enum
{
  SCENE_WALL,    /* motifs scattered over a cloth that grows with them, some overlapping */
  SCENE_FRIEZE,  /* one long row */
  SCENE_SMALL,   /* many small motifs, many in a hooping */
  SCENE_CHAIN,   /* each lies over the one before */
  SCENE_OBLIQUE, /* long motifs at odd angles */
  SCENE_KINDS
} SceneKind;

static inline double
scene_between (GRand *rand, double low, double high)
{
  return g_rand_double_range (rand, low, high);
}

static inline HwOutline *
scene_outline (GRand *rand, double width, double height)
{
  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      return hw_outline_new_rectangle (width, height);
    case 1:
      return hw_outline_new_ellipse (width, height, 48);
    case 2: /* a corner */
      {
        double x = width / 2, y = height / 2;
        HwPoint points[] = { { -x, -y }, { x, -y }, { x, -y * 0.2 }, { 0, 0 }, { -x * 0.2, y }, { -x, y } };
        HwRing ring = { points, G_N_ELEMENTS (points) };

        return hw_outline_new (&ring, 1);
      }
    default: /* a leaf with points */
      {
        HwPoint points[40];
        HwRing ring = { points, G_N_ELEMENTS (points) };

        for (guint i = 0; i < G_N_ELEMENTS (points); i++)
          {
            HwPoint unit = hw_point_turn ((HwPoint){ 0.5, 0 }, 360.0 * i / G_N_ELEMENTS (points));
            double r = i % 2 == 0 ? 1 : 0.75;

            points[i] = (HwPoint){ unit.x * width * r, unit.y * height * r };
          }
        return hw_outline_new (&ring, 1);
      }
    }
}

static inline void
scene_add_hoop (HwSnapshot *scene, const char *id, double width, double height, HwTurn turn)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->id = g_strdup (id);
  hoop->name = g_strdup (id);
  hoop->field_width = width;
  hoop->field_height = height;
  hoop->frame_width = width + 40;
  hoop->frame_height = height + 60;
  hoop->clearance = 2;
  hoop->turn = turn;
  g_ptr_array_add (scene->hoops, hoop);
}

static inline void
scene_add_motif (HwSnapshot *scene, HwOutline *outline, HwPlacement placement)
{
  HwMotif *motif = hw_motif_new ();

  motif->id = g_strdup_printf ("m%u", scene->motifs->len + 1);
  motif->name = g_strdup_printf ("Motif %u", scene->motifs->len + 1);
  motif->outline = outline;
  motif->placement = placement;
  g_ptr_array_add (scene->motifs, motif);
}

static inline void
scene_add_threads (HwSnapshot *scene, GRand *rand, guint n_colours, guint most)
{
  static const char *const names[]
      = { "moss", "rust", "cream", "slate", "rose", "straw", "plum", "sky", "bark", "ink" };

  for (guint i = 0; i < scene->motifs->len; i++)
    {
      HwThreadBlock blocks[8] = { 0 };
      guint n = g_rand_int_range (rand, 1, most + 1);

      for (guint k = 0; k < n; k++)
        {
          guint name = g_rand_int_range (rand, 0, n_colours);

          blocks[k].name = (char *)names[name];
          blocks[k].colour = (HwColour){ name / 10.0, 0.5, 0.5 };
          blocks[k].stitches = g_rand_int_range (rand, 200, 3000);
        }
      hw_motif_set_threads (g_ptr_array_index (scene->motifs, i), blocks, n);
    }
}

/* A scene of n motifs. tight: how close together; 1 is usual. */
static inline HwSnapshot *
scene_random (GRand *rand, SceneKind kind, guint n, double tight)
{
  HwSnapshot *scene = hw_snapshot_new ();
  double side = sqrt (n) * 75 / tight, angle, x = 0, y = 0;

  scene->fabric.width = kind == SCENE_FRIEZE || kind == SCENE_CHAIN ? n * 60 / tight + 200 : side + 200;
  scene->fabric.height = kind == SCENE_FRIEZE || kind == SCENE_CHAIN ? 400 : side + 200;
  scene->fabric.hold = HW_HOLD_FLOATED;
  scene_add_hoop (scene, "h1", 130, 180, HW_TURN_ANY);
  if (g_rand_boolean (rand))
    scene_add_hoop (scene, "h2", 100, 100, HW_TURN_QUARTER);
  if (g_rand_boolean (rand))
    scene_add_hoop (scene, "h3", 200, 140, g_rand_boolean (rand) ? HW_TURN_ANY : HW_TURN_QUARTER);
  for (guint i = 0; i < n; i++)
    {
      double width = scene_between (rand, 30, 90), height = scene_between (rand, 30, 90);

      x = 100 + scene_between (rand, 0, side);
      y = 100 + scene_between (rand, 0, side);
      angle = g_rand_boolean (rand) ? 0 : scene_between (rand, -180, 180);
      if (kind == SCENE_FRIEZE)
        {
          x = 100 + (i + scene_between (rand, 0, 0.6)) * 60 / tight;
          y = 150 + scene_between (rand, 0, 100);
        }
      else if (kind == SCENE_CHAIN)
        {
          width = scene_between (rand, 55, 90);
          x = 100 + i * 52 / tight;
          y = 200 + 8 * sin (i);
        }
      else if (kind == SCENE_SMALL)
        {
          width /= 2.5;
          height /= 2.5;
          x = 100 + (x - 100) * 0.6;
          y = 100 + (y - 100) * 0.6;
        }
      else if (kind == SCENE_OBLIQUE)
        {
          width = scene_between (rand, 110, 160);
          height = scene_between (rand, 20, 50);
          angle = scene_between (rand, -180, 180);
        }
      scene_add_motif (
          scene, scene_outline (rand, width, height),
          (HwPlacement){ { x, y }, angle, scene_between (rand, 0.8, 1.1), g_rand_boolean (rand) });
    }
  scene_add_threads (scene, rand, 6, 3);
  return scene;
}

/* The scene with one motif moved. */
static inline HwSnapshot *
scene_moved (const HwSnapshot *scene, guint i, double dx, double dy)
{
  HwSnapshot *moved = hw_snapshot_copy (scene);
  HwMotif *motif = hw_motif_copy (hw_snapshot_motif (scene, i));

  motif->placement.position.x += dx;
  motif->placement.position.y += dy;
  hw_motif_unref (moved->motifs->pdata[i]);
  moved->motifs->pdata[i] = motif;
  return moved;
}
