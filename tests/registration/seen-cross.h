/* A cross as mark-finder-fit.c describes it, made up by the test. */
#pragma once

#include <math.h>

#include "registration/mark-finder-private.h"

/* The grey at a place of two crossing lines on even cloth. */
static inline double
cross_light (const HwCross *cross, double ground, double x, double y)
{
  double part[2];

  for (guint i = 0; i < 2; i++)
    {
      double away = (y - cross->at.y) * cos (cross->turn[i]) - (x - cross->at.x) * sin (cross->turn[i]);

      part[i] = exp (-away * away / (2 * cross->width * cross->width));
    }
  return ground + cross->contrast * (part[0] + part[1] - part[0] * part[1]);
}

/* Of side x side pixels; black without a cross. */
static inline HwGreyPatch
patch_of (const HwCross *cross, guint side)
{
  HwGreyPatch patch
      = { .width = side, .height = side, .grey = g_new0 (float, (gsize)side *side), .coarse = 1 };

  for (guint y = 0; cross != NULL && y < side; y++)
    for (guint x = 0; x < side; x++)
      patch.grey[(gsize)y * side + x] = (float)cross_light (cross, 180, x + 0.5, y + 0.5);
  return patch;
}
