/* Photographs of woven cloth made up by the test: threads over and under, pen lines, a sheet of paper; seen askew, out of focus, unevenly lit, with the noise of a camera. */
#pragma once

#include <math.h>

#include "registration/homography.h"
#include "scene/picture.h"

#define RAYS 3 /* along each side of a pixel */

typedef struct
{
  HwPoint from, to; /* mm */
  double wide;      /* mm */
} PenLine;

typedef struct
{
  guint width, height;
  HwHomography view;
  double ground;              /* grey of the cloth */
  double thread, turn, weave; /* mm, radians, grey levels */
  PenLine lines[40];
  guint n_lines;
  double pen;       /* grey levels that pen lines are darker (negative: lighter) */
  HwPoint sheet[4]; /* mm, clockwise; */
  double paper;     /* grey; 0: no sheet */
  double blur;      /* px */
  double shade;     /* grey levels from side to side */
  double noise;     /* grey levels */
  double
      shadow; /* grey levels that it is darker on one side of a soft line through shadow_at, at shadow_turn */
  HwPoint shadow_at;  /* px */
  double shadow_turn; /* radians */
  double check;       /* mm: of a checked cloth's squares; 0: plain */
  double checked;     /* grey levels that each of the check's bands is darker */
} ClothPhoto;

static inline double
gauss (double sigma)
{
  double u = g_test_rand_double (), v = g_test_rand_double ();

  return sigma * sqrt (-2 * log (1 - u * (1 - 1e-12))) * cos (2 * G_PI * v);
}

/* Of one thread, from -1 to 1. */
static inline double
thread_gain (int thread, guint kind)
{
  guint hash = (guint)thread * 2654435761u + kind * 40503u;

  hash ^= hash >> 15;
  hash *= 2246822519u;
  hash ^= hash >> 13;
  return (hash % 2001) / 1000.0 - 1;
}

static inline double
woven (const ClothPhoto *photo, HwPoint p)
{
  double c = cos (photo->turn), s = sin (photo->turn);
  double u = (p.x * c + p.y * s) / photo->thread, v = (p.y * c - p.x * s) / photo->thread;
  int i = (int)floor (u), k = (int)floor (v);
  gboolean over = (i + k) % 2 == 0;
  double across = over ? u - i - 0.5 : v - k - 0.5;
  double gain = over ? thread_gain (i, 1) : thread_gain (k, 2) - 0.3;

  return photo->weave * (2 * cos (G_PI * across) - 1.3 + 0.4 * gain);
}

static inline gboolean
is_on_line (const PenLine *line, HwPoint p)
{
  double x = line->to.x - line->from.x, y = line->to.y - line->from.y, length = hypot (x, y);
  double along = ((p.x - line->from.x) * x + (p.y - line->from.y) * y) / length;
  double aside = ((p.y - line->from.y) * x - (p.x - line->from.x) * y) / length;

  return along >= 0 && along <= length && fabs (aside) <= line->wide / 2;
}

static inline gboolean
is_on_sheet (const ClothPhoto *photo, HwPoint p)
{
  for (guint i = 0; i < 4; i++)
    {
      HwPoint a = photo->sheet[i], b = photo->sheet[(i + 1) % 4];

      if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < 0)
        return FALSE;
    }
  return TRUE;
}

static inline double
grey_at (const ClothPhoto *photo, HwPoint px)
{
  HwPoint p = hw_homography_apply (&photo->view, px);
  double grey;

  if (photo->paper > 0 && is_on_sheet (photo, p))
    return photo->paper;
  grey = photo->ground + (photo->weave > 0 ? woven (photo, p) : 0);
  if (photo->check > 0)
    grey -= photo->checked
            * ((fmod (fabs (p.x), 2 * photo->check) < photo->check)
               + (fmod (fabs (p.y), 2 * photo->check) < photo->check));
  for (guint i = 0; i < photo->n_lines; i++)
    if (is_on_line (&photo->lines[i], p))
      return grey - photo->pen;
  return grey;
}

static inline void
blur_rows (double *grey, int n, int lines, int step, int line_step, double sigma)
{
  int reach = (int)ceil (3 * sigma);
  g_autofree double *copy = g_new (double, n);

  for (int line = 0; line < lines; line++)
    {
      double *at = grey + line * line_step;

      for (int i = 0; i < n; i++)
        copy[i] = at[i * step];
      for (int i = 0; i < n; i++)
        {
          double sum = 0, weights = 0;

          for (int k = -reach; k <= reach; k++)
            {
              double weight = exp (-k * k / (2 * sigma * sigma));

              sum += weight * copy[CLAMP (i + k, 0, n - 1)];
              weights += weight;
            }
          at[i * step] = sum / weights;
        }
    }
}

static inline HwPicture *
cloth_photo_take (const ClothPhoto *photo)
{
  int width = (int)photo->width, height = (int)photo->height;
  g_autofree double *grey = g_new0 (double, width *height);
  guint8 *pixels = g_malloc (4 * (gsize)width * height);

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      for (int ray = 0; ray < RAYS * RAYS; ray++)
        grey[y * width + x]
            += grey_at (photo, (HwPoint){ x + (ray % RAYS + 0.5) / RAYS, y + (ray / RAYS + 0.5) / RAYS })
               / (RAYS * RAYS);
  if (photo->blur > 0)
    {
      blur_rows (grey, width, height, 1, width, photo->blur);
      blur_rows (grey, height, width, width, 1, photo->blur);
    }
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        double past = (x - photo->shadow_at.x) * sin (photo->shadow_turn)
                      - (y - photo->shadow_at.y) * cos (photo->shadow_turn);
        double light = grey[y * width + x] + photo->shade * ((double)x / width - 0.5)
                       - photo->shadow / (1 + exp (-past / 4)) + gauss (photo->noise);
        guint8 *p = pixels + 4 * ((gsize)y * width + x);

        p[0] = p[1] = p[2] = (guint8)CLAMP (lround (light), 0, 255);
        p[3] = 255;
      }
  return hw_picture_new (photo->width, photo->height, 4 * (gsize)width, pixels);
}

/* The camera above a piece of cloth of width x height px / scale mm, its corners thrown off by up to `askew` of the picture's sides. */
static inline void
cloth_photo_aim (ClothPhoto *photo, double scale, double askew)
{
  HwPhotoPoint points[4];

  for (guint i = 0; i < 4; i++)
    {
      double x = i == 1 || i == 2 ? photo->width : 0, y = i > 1 ? photo->height : 0;

      points[i].mm = (HwPoint){ x / scale, y / scale };
      points[i].px = (HwPoint){ x + photo->width * g_test_rand_double_range (-askew, askew),
                                y + photo->height * g_test_rand_double_range (-askew, askew) };
    }
  g_assert_true (
      hw_homography_fit (points, 4, photo->width, photo->height, 0, FALSE, &photo->view, NULL, NULL));
}
