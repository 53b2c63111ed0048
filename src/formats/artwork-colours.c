/* The main colours of a picture: k-means in CIELAB (Lloyd 1982, IEEE Transactions on Information Theory 28(2)), begun with the commonest colours, shades
 * that hardly differ joined; each named by the nearest plain word. Pixels where one colour runs into another are left out. */
#include <math.h>

#include "../geometry/language.h"
#include "../scene/palette.h"
#include "artwork-private.h"

#define MOST_COLOURS 12u
#define N_BINS (1u << 15)
#define APART 9.0         /* CIEDE2000: nearer ones are one thread */
#define LEAST_SHARE 0.004 /* of the drawn area: less is not worth a thread */
#define ROUNDS 8
#define ALIKE 6 /* steps of 256 between neighbours that are of one colour */

static const struct
{
  const char *name;
  guint32 rgb;
} words[] = {
  { N_ ("chalk white"), 0xf7f5ef },
  { N_ ("linen"), 0xe6dcc6 },
  { N_ ("ash grey"), 0xb4b4ae },
  { N_ ("pewter grey"), 0x86888a },
  { N_ ("slate grey"), 0x565c64 },
  { N_ ("soot black"), 0x1c1b1a },
  { N_ ("straw"), 0xe3c878 },
  { N_ ("primrose yellow"), 0xf3e38a },
  { N_ ("broom yellow"), 0xf2c616 },
  { N_ ("sulphur yellow"), 0xe9ea3c },
  { N_ ("ochre"), 0xc68a2e },
  { N_ ("marigold orange"), 0xf09a1a },
  { N_ ("rowan orange"), 0xe4601e },
  { N_ ("apricot"), 0xf4b98a },
  { N_ ("rust"), 0xa54a22 },
  { N_ ("brick red"), 0xa8402f },
  { N_ ("poppy red"), 0xdc2420 },
  { N_ ("garnet red"), 0x7c1a24 },
  { N_ ("rose pink"), 0xe88fa4 },
  { N_ ("foxglove pink"), 0xd24a92 },
  { N_ ("apple blossom"), 0xf6d5da },
  { N_ ("beetroot"), 0x6e1f48 },
  { N_ ("heather"), 0x9d7aa6 },
  { N_ ("violet"), 0x6a3fa0 },
  { N_ ("plum"), 0x55294f },
  { N_ ("lavender"), 0xb9b0dc },
  { N_ ("cornflower blue"), 0x4a6fd0 },
  { N_ ("gentian blue"), 0x1d37b4 },
  { N_ ("woad blue"), 0x2f6690 },
  { N_ ("night blue"), 0x1b2444 },
  { N_ ("flax blue"), 0x8fb4dc },
  { N_ ("rain blue"), 0xc4d8e4 },
  { N_ ("harebell blue"), 0x2a8fd6 },
  { N_ ("verdigris"), 0x2f8f83 },
  { N_ ("duckweed green"), 0x52c26a },
  { N_ ("sea green"), 0x4fb8ac },
  { N_ ("mint green"), 0xb4dfc4 },
  { N_ ("fern green"), 0x3f8f3a },
  { N_ ("moss green"), 0x54682c },
  { N_ ("pine green"), 0x1d4a34 },
  { N_ ("young leaf green"), 0x9cc83c },
  { N_ ("sage green"), 0x9aa98a },
  { N_ ("lichen green"), 0xc3cc9a },
  { N_ ("olive green"), 0x7f7a2a },
  { N_ ("bark brown"), 0x5a3f2b },
  { N_ ("walnut brown"), 0x3a271b },
  { N_ ("hazel brown"), 0x946a3e },
  { N_ ("oat"), 0xcdae84 },
  { N_ ("clay"), 0xb98468 },
  { N_ ("shell pink"), 0xf0c4b4 },
};

/* Natural colours that differ from each other, by their words. */
static const guint beginnings[]
    = { 0x2f6690, 0xb5483a, 0xc79a1e, 0x2f8f83, 0x6b4a35, 0x6f8f3f, 0x7a4b78, 0x8a8a84 };

typedef struct
{
  HwLab lab;
  double weight;
} Shade;

static HwColour
colour_of (guint32 rgb)
{
  return (HwColour){ (rgb >> 16 & 0xff) / 255.0, (rgb >> 8 & 0xff) / 255.0, (rgb & 0xff) / 255.0 };
}

HwColour
hw_artwork_colour_to_begin_with (guint index)
{
  return colour_of (beginnings[index % G_N_ELEMENTS (beginnings)]);
}

static gboolean
alike (guint32 a, guint32 b)
{
  for (guint shift = 0; shift < 24; shift += 8)
    {
      if (abs ((int)(a >> shift & 0xff) - (int)(b >> shift & 0xff)) > ALIKE)
        return FALSE;
    }
  return TRUE;
}

typedef struct
{
  guint64 red, green, blue, n;
} Bin;

/* Every opaque pixel, or only those that look like their neighbours. */
static guint64
count_colours (const HwArtworkPage *page, const guint8 *mask, gboolean calm, Bin *bins)
{
  int width = cairo_image_surface_get_width (page->surface);
  int height = cairo_image_surface_get_height (page->surface);
  gsize stride = cairo_image_surface_get_stride (page->surface);
  const guint8 *data = cairo_image_surface_get_data (page->surface);
  guint64 n = 0;

  for (int y = 0; y + 1 < height; y++)
    {
      const guint32 *row = (const guint32 *)(gconstpointer)(data + (gsize)y * stride);
      const guint32 *next = (const guint32 *)(gconstpointer)(data + (gsize)(y + 1) * stride);
      const guint8 *opacity = mask + (gsize)y * width;

      for (int x = 0; x + 1 < width; x++)
        {
          guint32 p = row[x];
          Bin *bin = &bins[(p >> 19 & 31) << 10 | (p >> 11 & 31) << 5 | (p >> 3 & 31)];

          if (opacity[x] < 250 || (calm && (!alike (p, row[x + 1]) || !alike (p, next[x]))))
            continue;
          bin->red += p >> 16 & 0xff;
          bin->green += p >> 8 & 0xff;
          bin->blue += p & 0xff;
          bin->n++;
          n++;
        }
    }
  return n;
}

static int
heavier_first (gconstpointer a, gconstpointer b)
{
  double x = ((const Shade *)a)->weight, y = ((const Shade *)b)->weight;

  return (x < y) - (x > y);
}

/* The colours of the picture, each with its share of the area, commonest first. */
static GArray *
shades_of (const HwArtworkPage *page, const guint8 *mask)
{
  GArray *shades = g_array_new (FALSE, FALSE, sizeof (Shade));
  g_autofree Bin *bins = g_new0 (Bin, N_BINS);
  guint64 n = count_colours (page, mask, TRUE, bins);

  if (n == 0)
    n = count_colours (page, mask, FALSE, bins);
  for (guint i = 0; i < N_BINS; i++)
    {
      const Bin *bin = &bins[i];

      if (bin->n > 0)
        {
          double all = 255.0 * bin->n;
          HwColour mean = { bin->red / all, bin->green / all, bin->blue / all };
          Shade shade = { hw_colour_lab (mean), (double)bin->n / n };

          g_array_append_val (shades, shade);
        }
    }
  g_array_sort (shades, heavier_first);
  return shades;
}

static guint
begin_with_commonest (const GArray *shades, Shade *middles)
{
  guint n = 0;

  for (guint i = 0; i < shades->len && n < MOST_COLOURS; i++)
    {
      const Shade *shade = &g_array_index (shades, Shade, i);
      gboolean is_new = TRUE;

      for (guint k = 0; k < n && is_new; k++)
        is_new = hw_lab_difference (middles[k].lab, shade->lab) >= APART;
      if (is_new)
        middles[n++] = *shade;
    }
  return n;
}

static guint
nearest_middle (const Shade *middles, guint n, HwLab lab)
{
  double least = INFINITY;
  guint nearest = 0;

  for (guint k = 0; k < n; k++)
    {
      double l = middles[k].lab.l - lab.l, a = middles[k].lab.a - lab.a, b = middles[k].lab.b - lab.b;
      double far = l * l + a * a + b * b;

      if (far < least)
        {
          least = far;
          nearest = k;
        }
    }
  return nearest;
}

static void
settle (const GArray *shades, Shade *middles, guint n)
{
  for (guint round = 0; round < ROUNDS; round++)
    {
      Shade sums[MOST_COLOURS] = { 0 };

      for (guint i = 0; i < shades->len; i++)
        {
          const Shade *shade = &g_array_index (shades, Shade, i);
          Shade *sum = &sums[nearest_middle (middles, n, shade->lab)];

          sum->lab.l += shade->lab.l * shade->weight;
          sum->lab.a += shade->lab.a * shade->weight;
          sum->lab.b += shade->lab.b * shade->weight;
          sum->weight += shade->weight;
        }
      for (guint k = 0; k < n; k++)
        {
          double w = sums[k].weight;

          if (w > 0)
            middles[k].lab = (HwLab){ sums[k].lab.l / w, sums[k].lab.a / w, sums[k].lab.b / w };
          middles[k].weight = w;
        }
    }
}

/* Joins what came near each other, and drops what is but a trace. */
static guint
join_near (Shade *middles, guint n)
{
  guint kept = 0;

  qsort (middles, n, sizeof *middles, heavier_first);
  for (guint i = 0; i < n; i++)
    {
      guint k = 0;

      while (k < kept && hw_lab_difference (middles[k].lab, middles[i].lab) >= APART)
        k++;
      if (k < kept)
        middles[k].weight += middles[i].weight;
      else if (middles[i].weight >= LEAST_SHARE || kept == 0)
        middles[kept++] = middles[i];
    }
  qsort (middles, kept, sizeof *middles, heavier_first);
  return kept;
}

static const char *
word_for (HwLab lab)
{
  double least = INFINITY;
  const char *name = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      double difference = hw_lab_difference (hw_colour_lab (colour_of (words[i].rgb)), lab);

      if (difference < least)
        {
          least = difference;
          name = words[i].name;
        }
    }
  return _ (name);
}

/* A second shade by the same word gets a number. */
static char *
name_for (HwLab lab, const HwThreadBlock *before, guint n)
{
  const char *word = word_for (lab);
  char *name = g_strdup (word);
  guint number = 1;

  for (guint i = 0; i < n; i++)
    {
      if (g_str_equal (before[i].name, name))
        {
          g_free (name);
          name = g_strdup_printf ("%s %u", word, ++number);
        }
    }
  return name;
}

HwThreadBlock *
hw_artwork_main_colours (const HwArtworkPage *page, const guint8 *mask, guint *n)
{
  g_autoptr (GArray) shades = shades_of (page, mask);
  Shade middles[MOST_COLOURS];
  HwThreadBlock *threads;

  *n = begin_with_commonest (shades, middles);
  settle (shades, middles, *n);
  *n = join_near (middles, *n);
  threads = g_new0 (HwThreadBlock, *n + 1);
  for (guint i = 0; i < *n; i++)
    {
      threads[i].name = name_for (middles[i].lab, threads, i);
      threads[i].colour = hw_lab_colour (middles[i].lab);
    }
  return threads;
}
