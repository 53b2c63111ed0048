/* The ground taken away. Where a page has clear parts, they are the ground. Where it has none, the ground is the paper, evenly lit: its colour is the commonest along the page's
 * edges, and what comes near it (CIEDE2000) is taken away from the edges inwards, enclosed paper too unless it is but a speck, and dust on the paper with it. Pixels on the
 * line between are part paper, part motif: how much tells the colour between both. */
#include <math.h>

#include "../scene/palette.h"
#include "artwork-private.h"

#define CLEAR_SHARE 0.001 /* of the page: fewer clear pixels do not make a clear ground */
#define REACH 2           /* pixels looked at around a pixel on the line, for the motif's full colour */
#define NEAR_GROUND 6.0   /* CIEDE2000: counted into the paper's mean colour */
#define DEFAULT_DISTANCE 12.0
#define DEFAULT_SPECK 1.0

enum
{
  PRINT, /* of another colour than the paper */
  PAPERLIKE,
  GROUND,
  MOTIF,
  BEING_COUNTED
};

typedef struct
{
  guint8 *data;
  gsize stride;
  int width, height;
  double ground[3]; /* red, green, blue, 0 to 255 */
  guint8 *kind;     /* width bytes a row */
  GArray *seeds;    /* Seed: places to fill from */
} Paper;

typedef struct
{
  int x, y;
} Seed;

static guint32
pixel_at (const Paper *paper, int x, int y)
{
  return ((const guint32 *)(gconstpointer)(paper->data + (gsize)y * paper->stride))[x];
}

static void
parts_of (guint32 pixel, double parts[3])
{
  for (guint c = 0; c < 3; c++)
    parts[c] = pixel >> (16 - 8 * c) & 0xff;
}

static HwLab
lab_of (const double parts[3])
{
  return hw_colour_lab ((HwColour){ parts[0] / 255, parts[1] / 255, parts[2] / 255 });
}

/* The pixels along the page's edges, each once. */
static guint32
edge_pixel (const Paper *paper, guint i)
{
  guint w = paper->width, h = paper->height;

  if (i < 2 * w)
    return pixel_at (paper, i % w, i < w ? 0 : h - 1);
  i -= 2 * w;
  return pixel_at (paper, i < h ? 0 : w - 1, i % h);
}

static void
mean_of_edge (Paper *paper, gboolean (*counts) (guint32 pixel, gconstpointer data), gconstpointer data)
{
  double sum[3] = { 0 }, parts[3];
  guint n = 0, all = 2 * (guint)paper->width + 2 * (guint)paper->height;

  for (guint i = 0; i < all; i++)
    {
      guint32 pixel = edge_pixel (paper, i);

      if (!counts (pixel, data))
        continue;
      parts_of (pixel, parts);
      for (guint c = 0; c < 3; c++)
        sum[c] += parts[c];
      n++;
    }
  for (guint c = 0; c < 3 && n > 0; c++)
    paper->ground[c] = sum[c] / n;
}

static guint
coarse (guint32 pixel)
{
  return (pixel >> 20 & 0xf) << 8 | (pixel >> 12 & 0xf) << 4 | (pixel >> 4 & 0xf);
}

static gboolean
is_of_bin (guint32 pixel, gconstpointer bin)
{
  return coarse (pixel) == *(const guint *)bin;
}

static gboolean
is_near (guint32 pixel, gconstpointer lab)
{
  double parts[3];

  parts_of (pixel, parts);
  return hw_lab_difference (lab_of (parts), *(const HwLab *)lab) < NEAR_GROUND;
}

static void
find_ground_colour (Paper *paper)
{
  g_autofree guint *counts = g_new0 (guint, 4096);
  guint most = 0, all = 2 * (guint)paper->width + 2 * (guint)paper->height;
  HwLab lab;

  for (guint i = 0; i < all; i++)
    counts[coarse (edge_pixel (paper, i))]++;
  for (guint bin = 1; bin < 4096; bin++)
    {
      if (counts[bin] > counts[most])
        most = bin;
    }
  mean_of_edge (paper, is_of_bin, &most);
  lab = lab_of (paper->ground);
  mean_of_edge (paper, is_near, &lab);
}

/* Colours are compared with the paper's in steps of 4 of 256, each once. */
static void
find_paperlike (Paper *paper, double distance)
{
  g_autofree guint8 *known = g_new0 (guint8, 1 << 18); /* 0: not yet; else 1 + kind */
  HwLab ground = lab_of (paper->ground);

  for (int y = 0; y < paper->height; y++)
    for (int x = 0; x < paper->width; x++)
      {
        guint32 pixel = pixel_at (paper, x, y);
        guint bin = (pixel >> 18 & 63) << 12 | (pixel >> 10 & 63) << 6 | (pixel >> 2 & 63);

        if (known[bin] == 0)
          {
            double parts[3] = { (bin >> 12) * 4 + 1.5, (bin >> 6 & 63) * 4 + 1.5, (bin & 63) * 4 + 1.5 };

            known[bin] = 1 + (hw_lab_difference (lab_of (parts), ground) < distance ? PAPERLIKE : PRINT);
          }
        paper->kind[(gsize)y * paper->width + x] = known[bin] - 1;
      }
}

/* Puts one seed for each run of `from` along the row. */
static void
seed_row (Paper *paper, int y, int x0, int x1, guint8 from)
{
  gboolean before = FALSE;

  if (y < 0 || y >= paper->height)
    return;
  for (int x = x0; x <= x1; x++)
    {
      gboolean is = paper->kind[(gsize)y * paper->width + x] == from;

      if (is && !before)
        g_array_append_val (paper->seeds, ((Seed){ x, y }));
      before = is;
    }
}

/* Turns the area of `from` around x, y into `to`, run by run. Returns its pixels. */
static gsize
fill (Paper *paper, int x, int y, guint8 from, guint8 to)
{
  gsize filled = 0;

  g_array_set_size (paper->seeds, 0);
  g_array_append_val (paper->seeds, ((Seed){ x, y }));
  while (paper->seeds->len > 0)
    {
      Seed seed = g_array_index (paper->seeds, Seed, paper->seeds->len - 1);
      guint8 *row = paper->kind + (gsize)seed.y * paper->width;
      int x0 = seed.x, x1 = seed.x;

      g_array_set_size (paper->seeds, paper->seeds->len - 1);
      if (row[seed.x] != from)
        continue;
      while (x0 > 0 && row[x0 - 1] == from)
        x0--;
      while (x1 + 1 < paper->width && row[x1 + 1] == from)
        x1++;
      memset (row + x0, to, x1 - x0 + 1);
      filled += x1 - x0 + 1;
      seed_row (paper, seed.y - 1, x0, x1, from);
      seed_row (paper, seed.y + 1, x0, x1, from);
    }
  return filled;
}

static void
fill_from_edges (Paper *paper)
{
  int right = paper->width - 1, bottom = paper->height - 1;

  for (int x = 0; x <= right; x++)
    {
      fill (paper, x, 0, PAPERLIKE, GROUND);
      fill (paper, x, bottom, PAPERLIKE, GROUND);
    }
  for (int y = 0; y <= bottom; y++)
    {
      fill (paper, 0, y, PAPERLIKE, GROUND);
      fill (paper, right, y, PAPERLIKE, GROUND);
    }
}

/* Areas of a kind become `large`, or `small` where they have fewer pixels than a speck. */
static void
sort_areas (Paper *paper, guint8 from, double speck, guint8 small, guint8 large)
{
  for (int y = 0; y < paper->height; y++)
    for (int x = 0; x < paper->width; x++)
      {
        if (paper->kind[(gsize)y * paper->width + x] != from)
          continue;
        if (fill (paper, x, y, from, BEING_COUNTED) < speck)
          fill (paper, x, y, BEING_COUNTED, small);
        else
          fill (paper, x, y, BEING_COUNTED, large);
      }
}

/* Enclosed paper is ground, unless it is a speck; the motif is what is no speck of dust on the paper. */
static void
drop_specks (Paper *paper, double speck)
{
  sort_areas (paper, PAPERLIKE, speck, PRINT, GROUND);
  sort_areas (paper, PRINT, speck, GROUND, MOTIF);
}

static gboolean
is_on_line (const Paper *paper, int x, int y)
{
  guint8 own = paper->kind[(gsize)y * paper->width + x];

  for (int j = MAX (y - 1, 0); j <= MIN (y + 1, paper->height - 1); j++)
    for (int i = MAX (x - 1, 0); i <= MIN (x + 1, paper->width - 1); i++)
      if (paper->kind[(gsize)j * paper->width + i] != own)
        return TRUE;
  return FALSE;
}

/* The share of motif in a pixel on the line: how far its colour lies on the way from the paper's to the colour nearby that differs most from it. */
static double
share_of_motif (const Paper *paper, int x, int y)
{
  double full[3] = { 0 }, parts[3], own[3], most = 0, along = 0;

  for (int j = MAX (y - REACH, 0); j <= MIN (y + REACH, paper->height - 1); j++)
    for (int i = MAX (x - REACH, 0); i <= MIN (x + REACH, paper->width - 1); i++)
      {
        double far = 0;

        if (paper->kind[(gsize)j * paper->width + i] != MOTIF)
          continue;
        parts_of (pixel_at (paper, i, j), parts);
        for (guint c = 0; c < 3; c++)
          far += (parts[c] - paper->ground[c]) * (parts[c] - paper->ground[c]);
        if (far > most)
          {
            most = far;
            for (guint c = 0; c < 3; c++)
              full[c] = parts[c] - paper->ground[c];
          }
      }
  parts_of (pixel_at (paper, x, y), own);
  for (guint c = 0; c < 3; c++)
    along += (own[c] - paper->ground[c]) * full[c];
  return most > 0 ? CLAMP (along / most, 0, 1) : 0;
}

static void
fill_mask (const Paper *paper, guint8 *mask)
{
  for (int y = 0; y < paper->height; y++)
    for (int x = 0; x < paper->width; x++)
      {
        gsize at = (gsize)y * paper->width + x;

        mask[at] = is_on_line (paper, x, y)   ? (guint8)lround (255 * share_of_motif (paper, x, y))
                   : paper->kind[at] == MOTIF ? 255
                                              : 0;
      }
}

/* What is paper in a pixel is taken out of its colour as well, so that no fringe of it stays. */
static void
clear_ground (Paper *paper, const guint8 *mask)
{
  for (int y = 0; y < paper->height; y++)
    {
      guint32 *row = (guint32 *)(gpointer)(paper->data + (gsize)y * paper->stride);

      for (int x = 0; x < paper->width; x++)
        {
          guint opacity = mask[(gsize)y * paper->width + x];
          double parts[3];
          guint32 pixel = opacity << 24;

          if (opacity == 255)
            continue;
          parts_of (row[x], parts);
          for (guint c = 0; c < 3; c++)
            {
              double left = parts[c] - paper->ground[c] * (255 - opacity) / 255.0;

              pixel |= (guint32)lround (CLAMP (left, 0, (double)opacity)) << (16 - 8 * c);
            }
          row[x] = pixel;
        }
    }
}

static gboolean
has_clear_ground (const Paper *paper)
{
  gsize clear = 0;

  for (int y = 0; y < paper->height; y++)
    for (int x = 0; x < paper->width; x++)
      clear += pixel_at (paper, x, y) >> 24 < 128;
  return clear > CLEAR_SHARE * paper->width * paper->height;
}

static void
copy_opacity (const Paper *paper, guint8 *mask)
{
  for (int y = 0; y < paper->height; y++)
    for (int x = 0; x < paper->width; x++)
      mask[(gsize)y * paper->width + x] = pixel_at (paper, x, y) >> 24;
}

/* Pixels of little clearness were drawn over nothing; on paper they lie over its white. */
static void
make_opaque (Paper *paper)
{
  for (int y = 0; y < paper->height; y++)
    {
      guint32 *row = (guint32 *)(gpointer)(paper->data + (gsize)y * paper->stride);

      for (int x = 0; x < paper->width; x++)
        {
          guint32 missing = 255 - (row[x] >> 24);

          row[x] = (row[x] | 0xff000000u) + missing * 0x010101u;
        }
    }
}

guint8 *
hw_artwork_take_ground (HwArtworkPage *page, const HwArtworkWishes *wishes)
{
  double speck = wishes->speck > 0 ? wishes->speck : DEFAULT_SPECK;
  guint8 *mask;

  cairo_surface_flush (page->surface);
  Paper paper = {
    .data = cairo_image_surface_get_data (page->surface),
    .stride = cairo_image_surface_get_stride (page->surface),
    .width = cairo_image_surface_get_width (page->surface),
    .height = cairo_image_surface_get_height (page->surface),
  };
  mask = g_malloc ((gsize)paper.width * paper.height);
  if (wishes->transparent_only || has_clear_ground (&paper))
    {
      copy_opacity (&paper, mask);
      return mask;
    }
  make_opaque (&paper);
  hw_artwork_even_light (paper.data, paper.stride, paper.width, paper.height);
  paper.kind = g_malloc ((gsize)paper.width * paper.height);
  paper.seeds = g_array_new (FALSE, FALSE, sizeof (Seed));
  find_ground_colour (&paper);
  find_paperlike (&paper, wishes->ground_distance > 0 ? wishes->ground_distance : DEFAULT_DISTANCE);
  fill_from_edges (&paper);
  drop_specks (&paper, speck * page->pixels_per_mm * page->pixels_per_mm);
  fill_mask (&paper, mask);
  clear_ground (&paper, mask);
  g_free (paper.kind);
  g_array_unref (paper.seeds);
  cairo_surface_mark_dirty (page->surface);
  return mask;
}
