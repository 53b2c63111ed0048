/* Density as colour. The colours are those of natural dyes, chosen so that luminance falls from step to step; the line around what is over the
 * limit is found by marching squares (Lorensen and Cline 1987, in two dimensions) between the middles of the cells. */
#include "heat.h"

#include <math.h>

#include "dye.h"
#include "lettering.h"
#include "../geometry/figures.h"
#include "../geometry/language.h"

#define HATCH_TILE 8        /* pixels: the distance of the hatch lines, across and along */
#define VEIL 3.0            /* mm */
#define LEAST_CELL_PIXELS 2 /* lines around smaller cells would be a tangle */

typedef struct
{
  float x0, y0, x1, y1; /* fabric mm */
} Segment;

struct _HwHeat
{
  cairo_surface_t *picture; /* one pixel a cell; NULL when nothing is stitched */
  cairo_surface_t *over;    /* the cells over the limit, as a mask */
  gboolean any_over;
  GArray *contour; /* Segment, from top to bottom */
  HwPoint corner;
  double cell;
};

/* Straw, weld, madder, walnut; `part` of the density at which it is darkest. */
typedef struct
{
  double part, cover;
  HwColour colour;
} Stop;

static const Stop stops[] = {
  { 0.00, 0.00, { 0.98, 0.95, 0.86 } },             /* clear */
  { 0.04, 0.72, { 0.97, 0.93, 0.80 } },             /* linen */
  { 0.20, 0.84, { 0.93, 0.83, 0.54 } },             /* straw */
  { 0.40, 0.88, { 0.85, 0.66, 0.28 } },             /* weld */
  { 1 / HW_HEAT_MOST, 0.92, { 0.68, 0.27, 0.20 } }, /* madder, at the limit */
  { 0.80, 0.94, { 0.44, 0.20, 0.15 } },
  { 1.00, 0.96, { 0.24, 0.14, 0.10 } }, /* walnut */
};

HwColour
hw_heat_colour (double density, double limit, double *cover)
{
  double part = limit > 0 ? CLAMP (density / (limit * HW_HEAT_MOST), 0, 1) : 0;
  guint k = 1;
  double t;

  while (k + 1 < G_N_ELEMENTS (stops) && part > stops[k].part)
    k++;
  t = (part - stops[k - 1].part) / (stops[k].part - stops[k - 1].part);
  if (cover != NULL)
    *cover = stops[k - 1].cover + t * (stops[k].cover - stops[k - 1].cover);
  return hw_colour_mix (stops[k - 1].colour, stops[k].colour, t);
}

#define N_SHADES 512

/* Premultiplied pixels for densities from none to HW_HEAT_MOST times the limit. */
static void
fill_shades (double limit, guint32 shades[N_SHADES])
{
  for (guint i = 0; i < N_SHADES; i++)
    {
      double cover;
      HwColour colour = hw_heat_colour (i * limit * HW_HEAT_MOST / (N_SHADES - 1), limit, &cover);

      shades[i] = (guint32)lround (cover * 255) << 24 | (guint32)lround (cover * colour.red * 255) << 16
                  | (guint32)lround (cover * colour.green * 255) << 8
                  | (guint32)lround (cover * colour.blue * 255);
    }
}

/* Spreads the cells that are `what` by so many cells to all sides. */
static void
spread (guint8 *cells, int columns, int rows, int reach, guint8 what)
{
  gsize n = (gsize)columns * rows;
  g_autofree guint8 *along = g_memdup2 (cells, n);

  for (int r = 0; r < rows; r++)
    for (int c = 0, until = 0; c < columns; c++)
      if (cells[(gsize)r * columns + c] == what)
        {
          for (int k = MAX (until, c - reach); k <= c + reach && k < columns; k++)
            along[(gsize)r * columns + k] = what;
          until = c + reach + 1;
        }
  for (int c = 0; c < columns; c++)
    for (int r = 0, until = 0; r < rows; r++)
      if (along[(gsize)r * columns + c] == what)
        {
          for (int k = MAX (until, r - reach); k <= r + reach && k < rows; k++)
            cells[(gsize)k * columns + c] = what;
          until = r + reach + 1;
        }
}

/* Thread lies between the holes too: the cells between them are veiled, so that its colour is not taken for density.
 * Returns: (transfer full): 1 for each cell to veil */
static guint8 *
find_veil (const HwDensityMap *map)
{
  guint columns = hw_density_map_columns (map), rows = hw_density_map_rows (map);
  int reach = (int)ceil (VEIL / hw_density_map_cell (map));
  guint8 *veil = g_new0 (guint8, (gsize)columns * rows);

  for (guint r = 0; r < rows; r++)
    for (guint c = 0; c < columns; c++)
      veil[(gsize)r * columns + c] = hw_density_map_value (map, c, r) > 0;
  spread (veil, (int)columns, (int)rows, reach, 1);
  spread (veil, (int)columns, (int)rows, reach - 1, 0);
  return veil;
}

static void
paint_cells (HwHeat *heat, const HwDensityMap *map, double limit)
{
  guint columns = hw_density_map_columns (map), rows = hw_density_map_rows (map);
  guchar *picture = cairo_image_surface_get_data (heat->picture);
  guchar *over = cairo_image_surface_get_data (heat->over);
  int picture_stride = cairo_image_surface_get_stride (heat->picture);
  int over_stride = cairo_image_surface_get_stride (heat->over);
  g_autofree guint8 *veil = find_veil (map);
  guint32 shades[N_SHADES];
  double scale = (N_SHADES - 1) / (limit * HW_HEAT_MOST);
  guint veiled = (guint)ceil (stops[1].part * (N_SHADES - 1));

  fill_shades (limit, shades);
  for (guint r = 0; r < rows; r++)
    {
      guint32 *pixels = (guint32 *)(void *)(picture + (gsize)r * picture_stride);
      guchar *mask = over + (gsize)r * over_stride;

      for (guint c = 0; c < columns; c++)
        {
          double density = hw_density_map_value (map, c, r);
          guint shade = (guint)MIN (density * scale + 0.5, N_SHADES - 1);

          pixels[c] = shades[veil[(gsize)r * columns + c] ? MAX (shade, veiled) : shade];
          mask[c] = density > limit ? 255 : 0;
          heat->any_over |= density > limit;
        }
    }
  cairo_surface_mark_dirty (heat->picture);
  cairo_surface_mark_dirty (heat->over);
}

/* Where the limit is met between two middles. */
static HwPoint
crossing (HwPoint a, double at_a, HwPoint b, double at_b, double limit)
{
  double t = (limit - at_a) / (at_b - at_a);

  return (HwPoint){ a.x + t * (b.x - a.x), a.y + t * (b.y - a.y) };
}

/* The line through one square between four middles, given in the order round it. */
static void
march (GArray *contour, const HwPoint corners[4], const double values[4], double limit)
{
  HwPoint met[4];
  guint n = 0;

  for (guint k = 0; k < 4; k++)
    {
      guint next = (k + 1) % 4;

      if ((values[k] > limit) != (values[next] > limit))
        met[n++] = crossing (corners[k], values[k], corners[next], values[next], limit);
    }
  if (n == 4 && (values[0] + values[1] + values[2] + values[3] > 4 * limit) == (values[0] > limit))
    {
      /* A saddle whose middle belongs to the first corner: cut off the second and the fourth. */
      HwPoint swap = met[3];

      met[3] = met[2];
      met[2] = swap;
    }
  else if (n == 4)
    {
      HwPoint swap = met[1];

      met[1] = met[3];
      met[3] = swap;
    }
  for (guint k = 0; k + 1 < n; k += 2)
    {
      Segment segment = { (float)met[k].x, (float)met[k].y, (float)met[k + 1].x, (float)met[k + 1].y };

      g_array_append_val (contour, segment);
    }
}

static void
find_contour (HwHeat *heat, const HwDensityMap *map, double limit)
{
  guint columns = hw_density_map_columns (map), rows = hw_density_map_rows (map);

  for (guint r = 0; r + 1 < rows; r++)
    for (guint c = 0; c + 1 < columns; c++)
      {
        double values[] = { hw_density_map_value (map, c, r), hw_density_map_value (map, c + 1, r),
                            hw_density_map_value (map, c + 1, r + 1), hw_density_map_value (map, c, r + 1) };
        guint above = 0;

        for (guint k = 0; k < 4; k++)
          above += values[k] > limit;
        if (above > 0 && above < 4)
          {
            HwPoint corners[]
                = { hw_density_map_middle (map, c, r), hw_density_map_middle (map, c + 1, r),
                    hw_density_map_middle (map, c + 1, r + 1), hw_density_map_middle (map, c, r + 1) };

            march (heat->contour, corners, values, limit);
          }
      }
}

HwHeat *
hw_heat_new (const HwDensityMap *map, double limit)
{
  HwHeat *heat;
  int columns, rows;

  g_return_val_if_fail (map != NULL && limit > 0, NULL);

  heat = g_new0 (HwHeat, 1);
  heat->contour = g_array_new (FALSE, FALSE, sizeof (Segment));
  heat->corner = hw_density_map_corner (map);
  heat->cell = hw_density_map_cell (map);
  columns = (int)hw_density_map_columns (map);
  rows = (int)hw_density_map_rows (map);
  if (columns == 0 || rows == 0)
    return heat;
  heat->picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, columns, rows);
  heat->over = cairo_image_surface_create (CAIRO_FORMAT_A8, columns, rows);
  if (cairo_surface_status (heat->picture) != CAIRO_STATUS_SUCCESS
      || cairo_surface_status (heat->over) != CAIRO_STATUS_SUCCESS)
    {
      g_clear_pointer (&heat->picture, cairo_surface_destroy);
      g_clear_pointer (&heat->over, cairo_surface_destroy);
      return heat;
    }
  paint_cells (heat, map, limit);
  if (heat->any_over)
    find_contour (heat, map, limit);
  return heat;
}

void
hw_heat_free (HwHeat *heat)
{
  g_return_if_fail (heat != NULL);

  g_clear_pointer (&heat->picture, cairo_surface_destroy);
  g_clear_pointer (&heat->over, cairo_surface_destroy);
  g_array_unref (heat->contour);
  g_free (heat);
}

/* A tile of slanting lines, light with a dark rim, that joins on to itself on all sides. */
static cairo_pattern_t *
hatch_pattern (void)
{
  cairo_surface_t *tile = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, HATCH_TILE, HATCH_TILE);
  cairo_t *cr = cairo_create (tile);
  cairo_pattern_t *pattern;

  for (int k = -1; k <= 1; k++)
    {
      cairo_move_to (cr, -1 + k * HATCH_TILE, HATCH_TILE + 1);
      cairo_line_to (cr, HATCH_TILE + 1 + k * HATCH_TILE, -1);
    }
  cairo_set_source_rgba (cr, 1, 0.98, 0.92, 0.75);
  cairo_set_line_width (cr, 1.2);
  cairo_stroke (cr);
  cairo_destroy (cr);
  pattern = cairo_pattern_create_for_surface (tile);
  cairo_pattern_set_extend (pattern, CAIRO_EXTEND_REPEAT);
  cairo_surface_destroy (tile);
  return pattern;
}

/* Sets the hatch as the source; its tile is in pixels whatever user space is. */
static void
set_hatch (cairo_t *cr, double px)
{
  cairo_pattern_t *pattern = hatch_pattern ();
  cairo_matrix_t matrix;

  cairo_matrix_init_scale (&matrix, 1 / px, 1 / px);
  cairo_pattern_set_matrix (pattern, &matrix);
  cairo_set_source (cr, pattern);
  cairo_pattern_destroy (pattern);
}

/* A surface of one pixel a cell, as it lies on the cloth. */
static cairo_pattern_t *
cells_on_cloth (const HwHeat *heat, cairo_surface_t *cells)
{
  cairo_pattern_t *pattern = cairo_pattern_create_for_surface (cells);
  cairo_matrix_t matrix;

  cairo_matrix_init_scale (&matrix, 1 / heat->cell, 1 / heat->cell);
  cairo_matrix_translate (&matrix, -heat->corner.x, -heat->corner.y);
  cairo_pattern_set_matrix (pattern, &matrix);
  cairo_pattern_set_filter (pattern, CAIRO_FILTER_BILINEAR);
  return pattern;
}

static void
draw_hatch (cairo_t *cr, const HwHeat *heat, double px)
{
  cairo_pattern_t *mask = cells_on_cloth (heat, heat->over);

  set_hatch (cr, px);
  cairo_mask (cr, mask);
  cairo_pattern_destroy (mask);
}

static void
draw_contour (cairo_t *cr, const HwHeat *heat, double px)
{
  HwColour walnut = stops[G_N_ELEMENTS (stops) - 1].colour;
  double x0, y0, x1, y1;

  if (heat->cell < LEAST_CELL_PIXELS * px)
    return;
  cairo_clip_extents (cr, &x0, &y0, &x1, &y1);
  for (guint i = 0; i < heat->contour->len; i++)
    {
      const Segment *segment = &g_array_index (heat->contour, Segment, i);

      if (MAX (segment->y0, segment->y1) < y0 || MIN (segment->y0, segment->y1) > y1
          || MAX (segment->x0, segment->x1) < x0 || MIN (segment->x0, segment->x1) > x1)
        continue;
      cairo_move_to (cr, segment->x0, segment->y0);
      cairo_line_to (cr, segment->x1, segment->y1);
    }
  cairo_set_source_rgb (cr, walnut.red, walnut.green, walnut.blue);
  cairo_set_line_width (cr, 1.5 * px);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_stroke (cr);
}

void
hw_heat_draw (cairo_t *cr, const HwHeat *heat, double px)
{
  cairo_pattern_t *picture;

  g_return_if_fail (cr != NULL && heat != NULL && px > 0);

  if (heat->picture == NULL)
    return;
  cairo_save (cr);
  picture = cells_on_cloth (heat, heat->picture);
  cairo_set_source (cr, picture);
  cairo_paint (cr);
  cairo_pattern_destroy (picture);
  if (heat->any_over)
    {
      draw_hatch (cr, heat, px);
      draw_contour (cr, heat, px);
    }
  cairo_restore (cr);
}

/* A figure under the bar at a share of its width. */
static void
draw_figure (cairo_t *cr, double x, double y, double size, HwLetterAlign align, const char *text)
{
  HwLettering how = { .size = size, .align = align };

  hw_letter (cr, x, y, &how, text);
}

static void
draw_bar (cairo_t *cr, double width, double height, double px, double limit)
{
  const guint n = 96;
  double at_limit = width / HW_HEAT_MOST;

  for (guint k = 0; k < n; k++)
    {
      double cover;
      HwColour colour = hw_heat_colour ((k + 0.5) / n * limit * HW_HEAT_MOST, limit, &cover);

      cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, cover);
      cairo_rectangle (cr, width * k / n, 0, width / n + 0.5 * px, height);
      cairo_fill (cr);
    }
  set_hatch (cr, px);
  cairo_rectangle (cr, at_limit, 0, width - at_limit, height);
  cairo_fill (cr);
}

double
hw_heat_draw_key (
    cairo_t *cr, double x, double y, double width, double size, double px, double limit, HwColour ink)
{
  double bar = size * 1.1, top = bar + size * 0.35, at_limit = width / HW_HEAT_MOST;
  g_autofree char *figure = hw_figure_text (limit, 1);

  g_return_val_if_fail (cr != NULL && width > 0 && size > 0 && px > 0 && limit > 0, 0);

  cairo_save (cr);
  cairo_translate (cr, x, y);
  draw_bar (cr, width, bar, px, limit);
  cairo_set_source_rgb (cr, ink.red, ink.green, ink.blue);
  cairo_set_line_width (cr, px);
  cairo_rectangle (cr, 0, 0, width, bar);
  cairo_move_to (cr, at_limit, 0);
  cairo_line_to (cr, at_limit, bar + size * 0.25);
  cairo_stroke (cr);
  draw_figure (cr, 0, top, size, HW_LETTER_LEFT, "0");
  draw_figure (cr, at_limit, top, size, HW_LETTER_CENTRE, figure);
  draw_figure (cr, width, top, size, HW_LETTER_RIGHT, _ ("over the limit"));
  draw_figure (cr, 0, top + size * 1.35, size, HW_LETTER_LEFT, _ ("stitches per mm²"));
  /* Only that is among the things to look at. */
  draw_figure (cr, 0, top + size * 3.0, size, HW_LETTER_LEFT,
               _ ("Too dense where motifs lie over one another;"));
  draw_figure (cr, 0, top + size * 4.35, size, HW_LETTER_LEFT, _ ("within one motif it is as it was made."));
  cairo_restore (cr);
  return top + size * 5.7;
}
