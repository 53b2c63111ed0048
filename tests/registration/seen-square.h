/* A rectangle of cloth as a camera sees it: the closed form that takes the unit square to any four corners (P. Heckbert 1989, Fundamentals of Texture Mapping and Image
 * Warping, master's thesis, Berkeley, 2.2.3), and the lens that bends what is seen (division model), found by halving. */
#pragma once

#include <math.h>

#include "registration/homography.h"

#define PHOTO_WIDTH 4000.0
#define PHOTO_HEIGHT 3000.0
#define CLOTH_WIDTH 300.0
#define CLOTH_HEIGHT 200.0

typedef struct
{
  double a, b, c, d, e, f, g, h;
  double bow;
} Seen;

/* corners: px of the cloth's (0, 0), (1, 0), (1, 1), (0, 1). */
static inline Seen
seen_by_corners (const HwPoint corners[4])
{
  HwPoint p0 = corners[0], p1 = corners[1], p2 = corners[2], p3 = corners[3];
  double dx1 = p1.x - p2.x, dx2 = p3.x - p2.x, sx = p0.x - p1.x + p2.x - p3.x;
  double dy1 = p1.y - p2.y, dy2 = p3.y - p2.y, sy = p0.y - p1.y + p2.y - p3.y;
  double det = dx1 * dy2 - dx2 * dy1, g = (sx * dy2 - dx2 * sy) / det, h = (dx1 * sy - sx * dy1) / det;

  return (Seen){ .a = p1.x - p0.x + g * p1.x,
                 .b = p3.x - p0.x + h * p3.x,
                 .c = p0.x,
                 .d = p1.y - p0.y + g * p1.y,
                 .e = p3.y - p0.y + h * p3.y,
                 .f = p0.y,
                 .g = g,
                 .h = h };
}

/* A photo taken askew: the corners of the cloth anywhere in the outer thirds of the picture. */
static inline Seen
seen_askew (void)
{
  HwPoint corners[4];

  for (guint i = 0; i < 4; i++)
    {
      gboolean right = i == 1 || i == 2, low = i > 1;
      double x = g_test_rand_double_range (0.02, 0.3), y = g_test_rand_double_range (0.02, 0.3);

      corners[i] = (HwPoint){ PHOTO_WIDTH * (right ? 1 - x : x), PHOTO_HEIGHT * (low ? 1 - y : y) };
    }
  return seen_by_corners (corners);
}

/* Where a place on the cloth (mm) is seen (px). */
static inline HwPoint
seen_at (const Seen *seen, HwPoint mm)
{
  double u = mm.x / CLOTH_WIDTH, v = mm.y / CLOTH_HEIGHT, w = seen->g * u + seen->h * v + 1;
  HwPoint p = { (seen->a * u + seen->b * v + seen->c) / w, (seen->d * u + seen->e * v + seen->f) / w };
  double x = p.x - PHOTO_WIDTH / 2, y = p.y - PHOTO_HEIGHT / 2;
  double half = hypot (PHOTO_WIDTH, PHOTO_HEIGHT) / 2, wanted = hypot (x, y) / half;
  double low = 0, high = 1.5;

  if (seen->bow == 0 || wanted == 0)
    return p;
  for (guint i = 0; i < 80; i++)
    {
      double r = (low + high) / 2;

      if (r / (1 + seen->bow * r * r) < wanted)
        low = r;
      else
        high = r;
    }
  return (HwPoint){ PHOTO_WIDTH / 2 + low / wanted * x, PHOTO_HEIGHT / 2 + low / wanted * y };
}

static inline HwPoint
cloth_place (void)
{
  return (HwPoint){ g_test_rand_double_range (0, CLOTH_WIDTH), g_test_rand_double_range (0, CLOTH_HEIGHT) };
}

/* Gauss, by the polar form without its loop: sum of twelve. */
static inline double
scatter (double sigma)
{
  double sum = -6;

  for (guint i = 0; i < 12; i++)
    sum += g_test_rand_double ();
  return sigma * sum;
}

/* n points: the corners first, the others anywhere; sigma: px of each coordinate. */
static inline void
seen_points (const Seen *seen, HwPhotoPoint *points, guint n, double sigma)
{
  for (guint i = 0; i < n; i++)
    {
      HwPoint corner = { i == 1 || i == 2 ? CLOTH_WIDTH : 0, i == 2 || i == 3 ? CLOTH_HEIGHT : 0 };

      points[i].mm = i < 4 ? corner : cloth_place ();
      points[i].px = seen_at (seen, points[i].mm);
      points[i].px.x += scatter (sigma);
      points[i].px.y += scatter (sigma);
    }
}
