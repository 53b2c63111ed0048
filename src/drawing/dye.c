/* The dyes: eight natural colours, each with a hatch of its own, that tell hoopings apart. They stand in
 * an order in which neighbours differ for people with each kind of colour blindness; number and hatch say
 * the same thing again for everyone else and for grey paper. */
#include "dye.h"

#include <math.h>

#define HEX(rrggbb)                                                                                          \
  {                                                                                                          \
    ((rrggbb) >> 16 & 0xff) / 255.0, ((rrggbb) >> 8 & 0xff) / 255.0, ((rrggbb)&0xff) / 255.0                 \
  }

static const HwDye dyes[HW_N_DYES] = {
  { "woad", HEX (0x2f6690), HW_HATCH_45 },         { "madder", HEX (0xb5483a), HW_HATCH_135 },
  { "weld", HEX (0xc79a1e), HW_HATCH_HORIZONTAL }, { "verdigris", HEX (0x2f8f83), HW_HATCH_CROSS_90 },
  { "walnut", HEX (0x6b4a35), HW_HATCH_VERTICAL }, { "lichen", HEX (0x6f8f3f), HW_HATCH_CROSS_45 },
  { "plum", HEX (0x7a4b78), HW_HATCH_DOTS },       { "ash", HEX (0x8a8a84), HW_HATCH_WIDE_45 },
};

/* More lines than this across a path are no hatch any more; the spacing is opened until they fit. */
#define MOST_LINES 600

const HwDye *
hw_dye (guint hooping)
{
  return &dyes[hooping % HW_N_DYES];
}

typedef struct
{
  double x0, y0, x1, y1;
} Extents;

/* Adds parallel lines at the given angle that cross the whole box, spacing apart, counted from the origin so
 * that neighbouring fields keep step. */
static void
add_lines (cairo_t *cr, const Extents *box, double degrees, double spacing)
{
  double c = cos (degrees * (G_PI / 180)), s = sin (degrees * (G_PI / 180));
  double across_0 = G_MAXDOUBLE, across_1 = -G_MAXDOUBLE, along_0 = G_MAXDOUBLE, along_1 = -G_MAXDOUBLE;

  for (guint corner = 0; corner < 4; corner++)
    {
      double x = corner & 1 ? box->x1 : box->x0, y = corner & 2 ? box->y1 : box->y0;
      double along = x * c + y * s, across = -x * s + y * c;

      across_0 = MIN (across_0, across);
      across_1 = MAX (across_1, across);
      along_0 = MIN (along_0, along);
      along_1 = MAX (along_1, along);
    }
  spacing = MAX (spacing, (across_1 - across_0) / MOST_LINES);
  for (double at = ceil (across_0 / spacing) * spacing; at <= across_1; at += spacing)
    {
      cairo_move_to (cr, along_0 * c - at * s, along_0 * s + at * c);
      cairo_line_to (cr, along_1 * c - at * s, along_1 * s + at * c);
    }
}

/* Dots in a quincunx; drawn as lines of no length with round caps. */
static void
add_dots (cairo_t *cr, const Extents *box, double spacing)
{
  guint row = 0;

  spacing = MAX (spacing, MAX (box->x1 - box->x0, box->y1 - box->y0) / (MOST_LINES / 6.0));
  for (double y = floor (box->y0 / spacing) * spacing; y <= box->y1; y += spacing, row++)
    for (double x = (floor (box->x0 / spacing) + 0.5 * (row % 2)) * spacing; x <= box->x1; x += spacing)
      {
        cairo_move_to (cr, x, y);
        cairo_line_to (cr, x, y);
      }
}

static void
add_hatch (cairo_t *cr, HwHatch hatch, const Extents *box, double spacing)
{
  switch (hatch)
    {
    case HW_HATCH_45:
      add_lines (cr, box, -45, spacing);
      break;
    case HW_HATCH_135:
      add_lines (cr, box, 45, spacing);
      break;
    case HW_HATCH_HORIZONTAL:
      add_lines (cr, box, 0, spacing);
      break;
    case HW_HATCH_VERTICAL:
      add_lines (cr, box, 90, spacing);
      break;
    case HW_HATCH_CROSS_45:
      add_lines (cr, box, -45, spacing * 1.4);
      add_lines (cr, box, 45, spacing * 1.4);
      break;
    case HW_HATCH_DOTS:
      add_dots (cr, box, spacing);
      break;
    case HW_HATCH_CROSS_90:
      add_lines (cr, box, 0, spacing * 1.4);
      add_lines (cr, box, 90, spacing * 1.4);
      break;
    case HW_HATCH_WIDE_45:
      add_lines (cr, box, -45, spacing * 2.2);
      break;
    default:
      g_assert_not_reached ();
    }
}

void
hw_dye_hatch_path (
    cairo_t *cr, HwHatch hatch, HwColour colour, double alpha, double spacing, double line_width)
{
  Extents box;

  g_return_if_fail (cr != NULL && spacing > 0 && line_width > 0);

  cairo_path_extents (cr, &box.x0, &box.y0, &box.x1, &box.y1);
  cairo_save (cr);
  cairo_clip (cr);
  if (box.x1 > box.x0 && box.y1 > box.y0)
    {
      add_hatch (cr, hatch, &box, spacing);
      cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, alpha);
      cairo_set_line_width (cr, hatch == HW_HATCH_DOTS ? line_width * 2 : line_width);
      cairo_set_line_cap (cr, hatch == HW_HATCH_DOTS ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}
