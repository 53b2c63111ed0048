/* A small line rasteriser for thread. A strand is a capsule a few pixels wide; every pixel it covers is lit as
 * a fibre lying in that direction: brightest where it lies across the light, with a highlight that runs
 * along the bow of the stitch, as on silk. The lighting of a fibre by its direction follows Kajiya and Kay 1989,
 * "Rendering fur with three dimensional textures", Computer Graphics 23(3). */
#include "strand-raster.h"

#include <math.h>
#include <string.h>

/* Light from the top left, half way up: unit vector, x right, y down, z towards the eye. */
#define LIGHT_X (-0.500)
#define LIGHT_Y (-0.580)
#define LIGHT_Z 0.643

#define ALONG 16            /* steps of light along a strand */
#define BOW 0.42            /* how steeply a stitch rises from its first hole, radians */
#define SHADOW_ALPHA 80     /* of 255, at its darkest */
#define SHADOW_FRACTION 0.5 /* of a strand's width: how far it falls to the right and down */
#define SHADOW_BUDGET 24    /* runs may put so many shadows over the whole picture, no more */

struct _HwStrandRaster
{
  guint8 *pixels;
  int stride, width, height;
  float half;          /* half a strand's width, pixels */
  float relief;        /* 0: too small to show a light and a dark side .. 1 */
  guint8 *shadow;      /* one byte a pixel, all zero between runs */
  double shadow_spent; /* pixels */
};

/* The lighting of one strand. */
typedef struct
{
  int body[ALONG];  /* brightness, 256 = the thread's own colour */
  int gleam[ALONG]; /* light thrown back without colour, 0 to 255 */
  int steps;        /* how many of the above are told apart */
  float side;       /* how much lighter the side towards +normal is, per half width */
} Lighting;

typedef struct
{
  float ux, uy, length; /* unit direction, pixels */
  float nx, ny;         /* unit normal */
} Course;

HwStrandRaster *
hw_strand_raster_new (cairo_surface_t *surface, double width)
{
  HwStrandRaster *raster = g_new0 (HwStrandRaster, 1);

  cairo_surface_flush (surface);
  raster->pixels = cairo_image_surface_get_data (surface);
  raster->stride = cairo_image_surface_get_stride (surface);
  raster->width = cairo_image_surface_get_width (surface);
  raster->height = cairo_image_surface_get_height (surface);
  /* A strand thinner than a pixel still covers one: rows of fill close up as they do to the eye. */
  raster->half = MAX (width, 0.9) / 2;
  raster->relief = CLAMP ((width - 0.7) / 1.3, 0, 1);
  raster->shadow = g_malloc0 ((gsize)raster->width * raster->height);
  return raster;
}

void
hw_strand_raster_free (HwStrandRaster *raster)
{
  g_free (raster->shadow);
  g_free (raster);
}

static Course
strand_course (const HwStrand *strand)
{
  float dx = strand->x1 - strand->x0, dy = strand->y1 - strand->y0;
  float length = sqrtf (dx * dx + dy * dy);
  Course course = { 1, 0, length, 0, 1 };

  if (length > 1e-4f)
    {
      course.ux = dx / length;
      course.uy = dy / length;
      course.nx = -course.uy;
      course.ny = course.ux;
    }
  return course;
}

static guint32
scatter (guint32 h)
{
  h ^= h >> 16;
  h *= 0x7feb352du;
  h ^= h >> 15;
  h *= 0x846ca68bu;
  h ^= h >> 16;
  return h;
}

/* Brightness and gleam of a fibre whose direction makes this sine with the light, rising by so much. */
static void
light_fibre (float across, float rise, float *body, float *gleam)
{
  /* Small angles: cosine and sine of the rise by their first terms. */
  float c = 1 - rise * rise / 2, s = rise;
  float along = c * across + s * (float)LIGHT_Z;
  float diffuse = sqrtf (MAX (0, 1 - along * along));
  float mirror = diffuse * c - along * s;
  float m2 = mirror * mirror, m4 = m2 * m2;

  *body = 0.52f + 0.52f * diffuse;
  *gleam = 34 * m4 * m4;
}

static void
light_strand (const HwStrandRaster *raster, const Course *course, guint32 number, Lighting *lighting)
{
  float variation = ((scatter (number) & 0xff) / 255.0f - 0.5f) * 0.07f;
  float across = course->ux * (float)LIGHT_X + course->uy * (float)LIGHT_Y;
  /* Long strands show their bow and their holes; a strand of a few pixels only its direction. */
  guint steps = course->length > 3 ? ALONG : 1;
  float hole = MIN (0.25f, 1.2f * raster->half / MAX (course->length, 0.1f));

  lighting->steps = steps;
  lighting->side = course->nx * (float)LIGHT_X + course->ny * (float)LIGHT_Y;
  for (guint i = 0; i < steps; i++)
    {
      float t = (i + 0.5f) / steps, end = MIN (t, 1 - t) / hole, body, gleam;

      light_fibre (across, (float)BOW * (1 - 2 * t), &body, &gleam);
      body += variation;
      if (end < 1)
        body *= 1 - 0.20f * (1 - end);
      lighting->body[i] = (int)(body * 256);
      lighting->gleam[i] = (int)gleam;
    }
}

/* The pixels of one scan line that a capsule of radius reach may touch: [*from, *to), FALSE when none. */
static gboolean
scan_span (const HwStrandRaster *raster,
           const HwStrand *strand,
           const Course *course,
           float reach,
           int y,
           int *from,
           int *to)
{
  float py = y + 0.5f - strand->y0;
  float low = MIN (strand->x0, strand->x1) - reach, high = MAX (strand->x0, strand->x1) + reach;

  /* |px nx + py ny| <= reach, and -reach <= px ux + py uy <= length + reach, with px from x0. */
  if (fabsf (course->nx) > 1e-3f)
    {
      float a = (-reach - py * course->ny) / course->nx, b = (reach - py * course->ny) / course->nx;

      low = MAX (low, strand->x0 + MIN (a, b));
      high = MIN (high, strand->x0 + MAX (a, b));
    }
  if (fabsf (course->ux) > 1e-3f)
    {
      float a = (-reach - py * course->uy) / course->ux;
      float b = (course->length + reach - py * course->uy) / course->ux;

      low = MAX (low, strand->x0 + MIN (a, b));
      high = MIN (high, strand->x0 + MAX (a, b));
    }
  *from = MAX (0, (int)floorf (low));
  *to = MIN (raster->width, (int)ceilf (high) + 1);
  return *from < *to;
}

static void
scan_rows (const HwStrandRaster *raster, const HwStrand *strand, float reach, int *from, int *to)
{
  *from = MAX (0, (int)floorf (MIN (strand->y0, strand->y1) - reach));
  *to = MIN (raster->height, (int)ceilf (MAX (strand->y0, strand->y1) + reach) + 1);
}

/* Distance from a capsule's spine, given the place across and along it. */
static inline float
spine_distance (float across, float along, float length)
{
  float past = along < 0 ? -along : along > length ? along - length : 0;

  if (past == 0)
    return fabsf (across);
  return sqrtf (across * across + past * past);
}

static inline void
blend (guint8 *pixel, const int colour[3], int body, int gleam, int cover)
{
  guint32 *word = (guint32 *)(void *)pixel;
  guint32 under = *word;
  int keep = 256 - cover, out[3];

  for (int c = 0; c < 3; c++)
    {
      int lit = ((colour[c] * body) >> 8) + gleam;

      lit = lit > 255 ? 255 : lit < 0 ? 0 : lit;
      out[c] = (lit * cover + (int)(under >> (16 - 8 * c) & 0xff) * keep) >> 8;
    }
  *word = (guint32)((255 * cover + (int)(under >> 24) * keep + 128) >> 8) << 24 | (guint32)out[0] << 16
          | (guint32)out[1] << 8 | (guint32)out[2];
}

static void
draw_strand (HwStrandRaster *raster, const HwStrand *strand, const int colour[3])
{
  Course course = strand_course (strand);
  Lighting lighting;
  float half = raster->half, reach = half + 0.5f;
  float step;
  int y0, y1;

  light_strand (raster, &course, strand->number, &lighting);
  step = lighting.steps / MAX (course.length, 0.01f);
  scan_rows (raster, strand, reach, &y0, &y1);
  for (int y = y0; y < y1; y++)
    {
      int x0, x1;
      guint8 *pixel;
      float px, py = y + 0.5f - strand->y0, across, along;

      if (!scan_span (raster, strand, &course, reach, y, &x0, &x1))
        continue;
      px = x0 + 0.5f - strand->x0;
      across = px * course.nx + py * course.ny;
      along = px * course.ux + py * course.uy;
      pixel = raster->pixels + (gsize)y * raster->stride + (gsize)x0 * 4;
      for (int x = x0; x < x1; x++, pixel += 4, across += course.nx, along += course.ux)
        {
          float cover = half + 0.5f - spine_distance (across, along, course.length);
          float s, round;
          int place, shade;

          if (cover <= 0)
            continue;
          place = (int)(along * step);
          place = place < 0 ? 0 : place >= lighting.steps ? lighting.steps - 1 : place;
          s = across / half;
          s = s < -1 ? -1 : s > 1 ? 1 : s;
          round = 1 - s * s;
          shade = (int)(raster->relief * (70 * s * lighting.side - 58 * (1 - round) * (1 - round) + 8));
          blend (pixel, colour, lighting.body[place] + shade,
                 (int)(lighting.gleam[place] * (1 - raster->relief + 1.5f * raster->relief * round * round)),
                 cover >= 1 ? 256 : (int)(cover * 256));
        }
    }
}

typedef struct
{
  int x0, y0, x1, y1;
} PixelBox;

/* Marks where a strand's shadow falls; overlapping shadows do not add up. */
static void
mark_shadow (HwStrandRaster *raster, const HwStrand *strand, float soft, PixelBox *box)
{
  Course course = strand_course (strand);
  float reach = raster->half + soft;
  float scale = SHADOW_ALPHA / (2 * soft);
  int y0, y1;

  scan_rows (raster, strand, reach, &y0, &y1);
  for (int y = y0; y < y1; y++)
    {
      int x0, x1;
      guint8 *byte;
      float px, py = y + 0.5f - strand->y0, across, along;

      if (!scan_span (raster, strand, &course, reach, y, &x0, &x1))
        continue;
      box->x0 = MIN (box->x0, x0);
      box->x1 = MAX (box->x1, x1);
      box->y0 = MIN (box->y0, y);
      box->y1 = MAX (box->y1, y + 1);
      px = x0 + 0.5f - strand->x0;
      across = px * course.nx + py * course.ny;
      along = px * course.ux + py * course.uy;
      byte = raster->shadow + (gsize)y * raster->width + x0;
      for (int x = x0; x < x1; x++, byte++, across += course.nx, along += course.ux)
        {
          float depth = (reach - spine_distance (across, along, course.length)) * scale;
          int dark = depth > SHADOW_ALPHA ? SHADOW_ALPHA : (int)depth;

          if (dark > *byte)
            *byte = (guint8)dark;
        }
    }
}

/* Darkens what lies under the marked shadow and wipes the marks. */
static void
cast_shadow (HwStrandRaster *raster, const PixelBox *box)
{
  for (int y = box->y0; y < box->y1; y++)
    {
      guint32 *word = (guint32 *)(void *)(raster->pixels + (gsize)y * raster->stride);
      guint8 *shadow = raster->shadow + (gsize)y * raster->width;

      for (int x = box->x0; x < box->x1; x++)
        {
          guint32 dark = shadow[x], keep, under, light, rest;

          if (dark == 0)
            continue;
          shadow[x] = 0;
          keep = 256 - dark;
          under = word[x];
          light = ((under & 0x00ff00ffu) * keep >> 8) & 0x00ff00ffu;
          rest = ((under >> 8 & 0xffu) * keep >> 8) << 8;
          word[x] = light | rest | ((under >> 24) + ((255 - (under >> 24)) * dark >> 8)) << 24;
        }
    }
}

static void
shade_run (HwStrandRaster *raster, const HwStrand *strands, guint n_strands)
{
  PixelBox box = { raster->width, raster->height, 0, 0 };
  float fall = raster->half * 2 * (float)SHADOW_FRACTION;
  float soft = MAX (0.5f, raster->half * 1.3f);
  double budget = (double)SHADOW_BUDGET * raster->width * raster->height + 1e6;

  if (raster->shadow_spent > budget)
    return;
  for (guint i = 0; i < n_strands; i++)
    {
      HwStrand fallen = strands[i];

      fallen.x0 += fall;
      fallen.x1 += fall;
      fallen.y0 += fall * 1.2f;
      fallen.y1 += fall * 1.2f;
      mark_shadow (raster, &fallen, soft, &box);
    }
  if (box.x0 >= box.x1 || box.y0 >= box.y1)
    return;
  raster->shadow_spent += (double)(box.x1 - box.x0) * (box.y1 - box.y0);
  cast_shadow (raster, &box);
}

void
hw_strand_raster_run (HwStrandRaster *raster, const HwStrand *strands, guint n_strands, HwColour colour)
{
  int parts[3] = { (int)(CLAMP (colour.red, 0, 1) * 255 + 0.5), (int)(CLAMP (colour.green, 0, 1) * 255 + 0.5),
                   (int)(CLAMP (colour.blue, 0, 1) * 255 + 0.5) };

  shade_run (raster, strands, n_strands);
  for (guint i = 0; i < n_strands; i++)
    draw_strand (raster, &strands[i], parts);
}
