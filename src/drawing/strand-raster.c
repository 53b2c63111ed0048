/* A small line rasteriser for thread. A strand is a capsule a few pixels wide; every pixel it covers is lit as
 * a fibre lying in that direction: brightest where it lies across the light, with a highlight that runs
 * along the bow of the stitch, as on silk. The lighting of a fibre by its direction follows Kajiya and Kay 1989,
 * "Rendering fur with three dimensional textures", Computer Graphics 23(3). */
#include "strand-raster.h"

#include <math.h>
#include <string.h>

/* Light from the top left, half way up: unit vector, x right, y down, z towards the eye. */
#define LIGHT_X (-0.500f)
#define LIGHT_Y (-0.580f)
#define LIGHT_Z 0.643f
#define LIGHT_FLAT 0.766f /* its length along the cloth */

#define ALONG 16         /* steps of light along a strand */
#define DIRECTIONS 64    /* steps of direction against the light */
#define BOW 0.42f        /* how steeply a stitch rises from its first hole, radians */
#define SHADOW_BUDGET 24 /* runs may put so many shadows over the whole picture, no more */
/* Two strands that meet inside a pixel shall hide it between them, as thread does; plain coverage would let cloth through. */
#define CLOSE_UP 1.4f
#define FAR_RELIEF 0.15f /* below this no light and dark side can be seen: the quick way is taken */

typedef struct
{
  gint16 body;  /* brightness, 256 = the thread's own colour */
  gint16 gleam; /* light thrown back, 0 to 255 */
} Light;

struct _HwStrandRaster
{
  guint8 *pixels;
  int stride, width, height;
  float half;          /* half a strand's width, pixels */
  float relief;        /* 0: too small to show a light and a dark side .. 1 */
  guint32 *owner;      /* for each pixel the number of the run that covers it, 0 = none */
  guint32 run;         /* number of the run being drawn */
  int x0, y0, x1, y1;  /* pixels the run has touched */
  double shadow_spent; /* pixels */
  Light lights[DIRECTIONS][ALONG];
};

typedef struct
{
  float ux, uy, length; /* unit direction, pixels */
  float nx, ny;         /* unit normal */
  float per_nx, per_ux; /* their reciprocals, 0 where they nearly vanish */
} Course;

/* A fibre whose direction makes this cosine with the light's way along the cloth, rising by so many radians. */
static Light
light_fibre (float across, float rise)
{
  float along = cosf (rise) * across + sinf (rise) * LIGHT_Z;
  float diffuse = sqrtf (MAX (0, 1 - along * along));
  float mirror = diffuse * cosf (rise) - along * sinf (rise);
  float m2 = mirror * mirror, m4 = m2 * m2;

  return (Light){ (gint16)(256 * (0.52f + 0.52f * diffuse)), (gint16)(44 * m4 * m4) };
}

static void
fill_lights (HwStrandRaster *raster)
{
  for (guint d = 0; d < DIRECTIONS; d++)
    for (guint i = 0; i < ALONG; i++)
      {
        float across = ((d + 0.5f) / DIRECTIONS * 2 - 1) * LIGHT_FLAT;

        raster->lights[d][i] = light_fibre (across, BOW * (1 - 2 * (i + 0.5f) / ALONG));
      }
}

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
  raster->owner = g_try_new0 (guint32, (gsize)raster->width * raster->height);
  fill_lights (raster);
  if (raster->owner == NULL)
    g_clear_pointer (&raster, hw_strand_raster_free);
  return raster;
}

void
hw_strand_raster_free (HwStrandRaster *raster)
{
  g_free (raster->owner);
  g_free (raster);
}

static Course
strand_course (const HwStrand *strand)
{
  float dx = strand->x1 - strand->x0, dy = strand->y1 - strand->y0;
  float length = sqrtf (dx * dx + dy * dy);
  Course course = { 1, 0, length, 0, 1, 0, 1 };

  if (length > 1e-4f)
    {
      course.ux = dx / length;
      course.uy = dy / length;
      course.nx = -course.uy;
      course.ny = course.ux;
      course.per_nx = fabsf (course.nx) > 1e-3f ? 1 / course.nx : 0;
      course.per_ux = fabsf (course.ux) > 1e-3f ? 1 / course.ux : 0;
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

/* No two strands take the dye quite alike. */
static int
strand_variation (guint32 number)
{
  return (int)(scatter (number) & 0xf) - 8;
}

static const Light *
strand_lights (const HwStrandRaster *raster, const Course *course)
{
  float across = (course->ux * LIGHT_X + course->uy * LIGHT_Y) / LIGHT_FLAT;
  int direction = (int)((across * 0.5f + 0.5f) * DIRECTIONS);

  return raster->lights[CLAMP (direction, 0, DIRECTIONS - 1)];
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
  if (course->per_nx != 0)
    {
      float middle = strand->x0 - py * course->ny * course->per_nx, spread = reach * fabsf (course->per_nx);

      low = MAX (low, middle - spread);
      high = MIN (high, middle + spread);
    }
  if (course->per_ux != 0)
    {
      float a = (-reach - py * course->uy) * course->per_ux;
      float b = (course->length + reach - py * course->uy) * course->per_ux;

      low = MAX (low, strand->x0 + MIN (a, b));
      high = MIN (high, strand->x0 + MAX (a, b));
    }
  /* Pixels whose middle lies between the two. */
  *from = MAX (0, (int)(low + 0.5f));
  *to = MIN (raster->width, (int)(high + 0.5f));
  return *from < *to;
}

static void
scan_rows (const HwStrandRaster *raster, const HwStrand *strand, float reach, int *from, int *to)
{
  *from = MAX (0, (int)floorf (MIN (strand->y0, strand->y1) - reach));
  *to = MIN (raster->height, (int)ceilf (MAX (strand->y0, strand->y1) + reach) + 1);
}

static void
touch (HwStrandRaster *raster, int x0, int x1, int y)
{
  raster->x0 = MIN (raster->x0, x0);
  raster->x1 = MAX (raster->x1, x1);
  raster->y0 = MIN (raster->y0, y);
  raster->y1 = MAX (raster->y1, y + 1);
}

static inline int
bound (int value)
{
  return value < 0 ? 0 : value > 255 ? 255 : value;
}

/* The thread's colour under a light; the gleam keeps half of the thread's hue, as dyed silk does. */
static inline guint32
lit_colour (const int colour[3], int body, int gleam)
{
  guint32 word = 0xff;

  for (int c = 0; c < 3; c++)
    word = word << 8 | (guint32)bound (((colour[c] * body) >> 8) + ((gleam * (128 + (colour[c] >> 1))) >> 8));
  return word;
}

/* cover of 256 parts of over, the rest of under; both premultiplied, over opaque. */
static inline guint32
blend (guint32 under, guint32 over, guint32 cover)
{
  guint32 keep = 256 - cover;
  guint32 even = ((over & 0x00ff00ffu) * cover + (under & 0x00ff00ffu) * keep) >> 8;
  guint32 odd = (over >> 8 & 0x00ff00ffu) * cover + (under >> 8 & 0x00ff00ffu) * keep;

  return (even & 0x00ff00ffu) | (odd & 0xff00ff00u);
}

/* Far: strands about a pixel wide, lit along their length only. */
static void
draw_strand_far (HwStrandRaster *raster, const HwStrand *strand, const int colour[3])
{
  Course course = strand_course (strand);
  const Light *lights = strand_lights (raster, &course);
  int variation = strand_variation (strand->number), y0, y1;
  /* Long strands show their bow and their holes; a strand of a few pixels only its direction. */
  int steps = course.length > 6 ? 8 : course.length > 3 ? 4 : 1;
  float half = raster->half, reach = half + 0.5f, step = steps / MAX (course.length, 0.01f);
  guint32 colours[8];

  for (int i = 0; i < steps; i++)
    {
      const Light *light = &lights[(2 * i + 1) * ALONG / (2 * steps)];
      int body = light->body + variation;

      if (steps > 1 && (i == 0 || i == steps - 1))
        body -= body >> 3;
      colours[i] = lit_colour (colour, body, light->gleam);
    }
  scan_rows (raster, strand, half, &y0, &y1);
  for (int y = y0; y < y1; y++)
    {
      int x0, x1;
      guint32 *pixel, *owner;
      float px, py = y + 0.5f - strand->y0, across, along;

      if (!scan_span (raster, strand, &course, reach, y, &x0, &x1))
        continue;
      touch (raster, x0, x1, y);
      px = x0 + 0.5f - strand->x0;
      across = px * course.nx + py * course.ny;
      along = px * course.ux + py * course.uy;
      pixel = (guint32 *)(void *)(raster->pixels + (gsize)y * raster->stride) + x0;
      owner = raster->owner + (gsize)y * raster->width + x0;
      for (int x = x0; x < x1; x++, pixel++, owner++, across += course.nx, along += course.ux)
        {
          float past = MAX (-along, along - course.length);
          float cover = reach - fabsf (across);
          int place;

          cover = MIN (cover * CLOSE_UP, 1);
          if (past > -0.5f)
            cover *= 0.5f + half * 0.5f - past;
          if (cover <= 0.004f)
            continue;
          place = (int)(along * step);
          place = place < 0 ? 0 : place >= steps ? steps - 1 : place;
          *pixel = blend (*pixel, colours[place], cover >= 1 ? 256 : (guint32)(cover * 256));
          if (cover > 0.4f)
            *owner = raster->run;
        }
    }
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

/* Near: a round strand with a light and a dark side, darker where it dips into its holes. */
static void
draw_strand_near (HwStrandRaster *raster, const HwStrand *strand, const int colour[3])
{
  Course course = strand_course (strand);
  const Light *lights = strand_lights (raster, &course);
  float side = course.nx * LIGHT_X + course.ny * LIGHT_Y;
  float half = raster->half, reach = half + 0.5f, relief = raster->relief;
  float step = ALONG / MAX (course.length, 0.01f), dip = MIN (course.length * 0.25f, 1.2f * half);
  int variation = strand_variation (strand->number), y0, y1;

  scan_rows (raster, strand, reach, &y0, &y1);
  for (int y = y0; y < y1; y++)
    {
      int x0, x1;
      guint32 *pixel, *owner;
      float px, py = y + 0.5f - strand->y0, across, along;

      if (!scan_span (raster, strand, &course, reach, y, &x0, &x1))
        continue;
      touch (raster, x0, x1, y);
      px = x0 + 0.5f - strand->x0;
      across = px * course.nx + py * course.ny;
      along = px * course.ux + py * course.uy;
      pixel = (guint32 *)(void *)(raster->pixels + (gsize)y * raster->stride) + x0;
      owner = raster->owner + (gsize)y * raster->width + x0;
      for (int x = x0; x < x1; x++, pixel++, owner++, across += course.nx, along += course.ux)
        {
          float cover = CLOSE_UP * (reach - spine_distance (across, along, course.length));
          float s, round, hole;
          int place, body, gleam;

          if (cover <= 0.004f)
            continue;
          place = (int)(along * step);
          place = place < 0 ? 0 : place >= ALONG ? ALONG - 1 : place;
          s = across / half;
          s = s < -1 ? -1 : s > 1 ? 1 : s;
          round = 1 - s * s;
          body = lights[place].body + variation
                 + (int)(relief * (70 * s * side - 58 * (1 - round) * (1 - round) + 8));
          hole = dip - MIN (along, course.length - along);
          if (hole > 0)
            body -= (int)(body * 0.22f * MIN (hole / dip, 1));
          gleam = (int)(lights[place].gleam * (1 - relief + 1.4f * relief * round * round));
          *pixel
              = blend (*pixel, lit_colour (colour, body, gleam), cover >= 1 ? 256 : (guint32)(cover * 256));
          if (cover > 0.5f)
            *owner = raster->run;
        }
    }
}

/* premultiplied pixel, darkened by dark of 256. */
static inline guint32
darken (guint32 under, guint32 dark)
{
  guint32 alpha = under >> 24, keep = 256 - dark;
  guint32 even = ((under & 0x00ff00ffu) * keep >> 8) & 0x00ff00ffu;
  guint32 green = ((under >> 8 & 0xffu) * keep >> 8) << 8;

  return even | green | (alpha + ((255 - alpha) * dark >> 8)) << 24;
}

/* The shadow of the run just drawn, on whatever lies beside it to the right and below: a pixel is in shadow when the
 * run covers the pixels from which it would fall there. */
static void
cast_shadow (HwStrandRaster *raster)
{
  enum
  {
    STEPS = 4
  };
  static const guint32 darkness[STEPS] = { 30, 24, 18, 12 };
  double budget = (double)SHADOW_BUDGET * raster->width * raster->height + 1e6;
  int fall = MAX (1, (int)(raster->half * 2.2f + 0.5f)), steps = MIN (fall, STEPS);
  int x1 = MIN (raster->width, raster->x1 + fall), y1 = MIN (raster->height, raster->y1 + fall);
  gssize back[STEPS];
  int reach[STEPS];

  if (raster->x0 >= x1 || raster->y0 >= y1 || raster->shadow_spent > budget)
    return;
  raster->shadow_spent += (double)(x1 - raster->x0) * (y1 - raster->y0);
  for (int i = 0; i < steps; i++)
    {
      reach[i] = (fall * (i + 1) + steps - 1) / steps;
      back[i] = (gssize)reach[i] * (raster->width + 1);
    }
  for (int y = raster->y0; y < y1; y++)
    {
      guint32 *pixel = (guint32 *)(void *)(raster->pixels + (gsize)y * raster->stride);
      const guint32 *owner = raster->owner + (gsize)y * raster->width;

      for (int x = raster->x0; x < x1; x++)
        {
          guint32 dark = 0;

          if (owner[x] == raster->run)
            continue;
          for (int i = 0; i < steps; i++)
            if (x >= reach[i] && y >= reach[i] && owner[x - back[i]] == raster->run)
              dark += darkness[i];
          if (dark > 0)
            pixel[x] = darken (pixel[x], steps < STEPS ? dark * 3 / 2 : dark);
        }
    }
}

void
hw_strand_raster_run (HwStrandRaster *raster, const HwStrand *strands, guint n_strands, HwColour colour)
{
  int parts[3] = { (int)(CLAMP (colour.red, 0, 1) * 255 + 0.5), (int)(CLAMP (colour.green, 0, 1) * 255 + 0.5),
                   (int)(CLAMP (colour.blue, 0, 1) * 255 + 0.5) };

  raster->run++;
  raster->x0 = raster->width;
  raster->y0 = raster->height;
  raster->x1 = raster->y1 = 0;
  for (guint i = 0; i < n_strands; i++)
    if (raster->relief < FAR_RELIEF)
      draw_strand_far (raster, &strands[i], parts);
    else
      draw_strand_near (raster, &strands[i], parts);
  cast_shadow (raster);
}
