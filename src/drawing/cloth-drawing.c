/* The cloth and its edge line. Near, the cloth shows its plain weave; far, only the slubs of the linen yarn,
 * so faint that thread colours are judged against a quiet ground. On paper it is a flat tint. */
#include "cloth-drawing.h"

#include <math.h>

#include "../geometry/region.h"

#define YARN_MM 0.75 /* from yarn to yarn: a medium linen (common practice, no source) */
#define TILE_PX 256  /* the weave repeats after this many screen pixels */
#define WEAVE 0.032  /* how much lighter or darker weave and slubs get at most */

void
hw_path_outline (cairo_t *cr, const HwOutline *outline)
{
  g_return_if_fail (cr != NULL && outline != NULL);

  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];

      cairo_new_sub_path (cr);
      for (guint i = 0; i < ring->n_points; i++)
        cairo_line_to (cr, ring->points[i].x, ring->points[i].y);
      cairo_close_path (cr);
    }
}

/* A number in [-1, 1) that is always the same for the same two numbers. */
static double
chance (guint a, guint b)
{
  guint32 h = a * 0x9e3779b1u ^ b * 0x85ebca77u;

  h ^= h >> 15;
  h *= 0x2c1b3c6du;
  h ^= h >> 12;
  h *= 0x297a2d39u;
  h ^= h >> 15;
  return h / 2147483648.0 - 1.0;
}

/* Soft noise along one yarn that closes on itself at the tile's end. */
static double
slub (guint yarn, double at, guint salt)
{
  const guint knots = 8;
  double where = at / TILE_PX * knots, part = where - floor (where);
  guint knot = (guint)where % knots;
  double smooth = part * part * (3 - 2 * part);

  return chance (yarn * 31 + salt, knot) * (1 - smooth)
         + chance (yarn * 31 + salt, (knot + 1) % knots) * smooth;
}

/* How much lighter (over 0) or darker the cloth is at a pixel of the tile. */
static double
weave_at (guint x, guint y, guint yarns, double shown)
{
  double pitch = (double)TILE_PX / yarns;
  guint column = (guint)(x / pitch) % yarns, row = (guint)(y / pitch) % yarns;
  double warp = 0.5 * chance (column, 7) + slub (column, y, 3);
  double weft = 0.5 * chance (row, 11) + slub (row, x, 5);
  double u = (x + 0.5) / pitch - column - 0.5, v = (y + 0.5) / pitch - row - 0.5;
  gboolean warp_over = (column + row) % 2 == 0;
  double across = warp_over ? u : v, along = warp_over ? v : u;
  double relief = 0.7 - 4.2 * across * across - 1.6 * along * along - 0.5 * across;

  return 0.5 * (warp_over ? warp : weft) + 0.25 * (warp + weft) + shown * relief;
}

static cairo_surface_t *
weave_tile (guint yarns, HwColour colour)
{
  cairo_surface_t *tile = cairo_image_surface_create (CAIRO_FORMAT_RGB24, TILE_PX, TILE_PX);
  guchar *data = cairo_image_surface_get_data (tile);
  int stride = cairo_image_surface_get_stride (tile);
  double pitch = (double)TILE_PX / yarns;
  /* Single yarns show from 2 pixels a yarn on; below, only slubs are left. */
  double shown = CLAMP ((pitch - 1.6) / 2.4, 0, 1);

  if (data == NULL)
    return tile;
  for (guint y = 0; y < TILE_PX; y++)
    {
      guint32 *row = (guint32 *)(data + (gsize)y * stride);

      for (guint x = 0; x < TILE_PX; x++)
        {
          double f = 1 + WEAVE * weave_at (x, y, yarns, shown);
          guint red = CLAMP (colour.red * f, 0, 1) * 255 + 0.5;
          guint green = CLAMP (colour.green * f, 0, 1) * 255 + 0.5;
          guint blue = CLAMP (colour.blue * f, 0, 1) * 255 + 0.5;

          row[x] = red << 16 | green << 8 | blue;
        }
    }
  cairo_surface_mark_dirty (tile);
  return tile;
}

/* The tile for this many yarns and colour; the last one asked for is kept. Returns: (transfer full) */
static cairo_surface_t *
weave_tile_cached (guint yarns, HwColour colour)
{
  static GMutex lock;
  static cairo_surface_t *kept;
  static guint kept_yarns;
  static HwColour kept_colour;
  cairo_surface_t *tile;

  g_mutex_lock (&lock);
  if (kept == NULL || kept_yarns != yarns || !hw_colour_equal (kept_colour, colour))
    {
      g_clear_pointer (&kept, cairo_surface_destroy);
      kept = weave_tile (yarns, colour);
      kept_yarns = yarns;
      kept_colour = colour;
    }
  tile = cairo_surface_reference (kept);
  g_mutex_unlock (&lock);
  return tile;
}

/* True when the target is made of pixels and lies square to them, so that a tile of pixels can be laid. */
static gboolean
takes_weave (cairo_t *cr, cairo_matrix_t *to_pixels)
{
  cairo_surface_t *target = cairo_get_group_target (cr);
  cairo_surface_type_t type = cairo_surface_get_type (target);
  double scale_x, scale_y;

  if (type == CAIRO_SURFACE_TYPE_PDF || type == CAIRO_SURFACE_TYPE_PS || type == CAIRO_SURFACE_TYPE_SVG
      || type == CAIRO_SURFACE_TYPE_RECORDING)
    return FALSE;
  cairo_get_matrix (cr, to_pixels);
  cairo_surface_get_device_scale (target, &scale_x, &scale_y);
  to_pixels->xx *= scale_x;
  to_pixels->yy *= scale_y;
  to_pixels->x0 *= scale_x;
  to_pixels->y0 *= scale_y;
  return to_pixels->xy == 0 && to_pixels->yx == 0 && to_pixels->xx > 0
         && fabs (to_pixels->xx - to_pixels->yy) < 1e-6 * to_pixels->xx;
}

static void
set_weave (cairo_t *cr, const HwFabric *fabric, const cairo_matrix_t *to_pixels)
{
  /* An even number of yarns, so that over and under go on across the tile's seam. */
  guint yarns = CLAMP (rint (TILE_PX / (YARN_MM * to_pixels->xx) / 2) * 2, 2, TILE_PX);
  cairo_surface_t *tile = weave_tile_cached (yarns, fabric->colour);
  cairo_pattern_t *pattern = cairo_pattern_create_for_surface (tile);
  cairo_matrix_t matrix = *to_pixels;

  matrix.x0 -= rint (matrix.x0);
  matrix.y0 -= rint (matrix.y0);
  cairo_pattern_set_matrix (pattern, &matrix);
  cairo_pattern_set_extend (pattern, CAIRO_EXTEND_REPEAT);
  cairo_pattern_set_filter (pattern, CAIRO_FILTER_NEAREST);
  cairo_set_source (cr, pattern);
  cairo_pattern_destroy (pattern);
  cairo_surface_destroy (tile);
}

void
hw_draw_cloth (cairo_t *cr, const HwFabric *fabric, double px)
{
  cairo_matrix_t to_pixels;

  g_return_if_fail (cr != NULL && fabric != NULL && px > 0);

  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, fabric->width, fabric->height);
  if (takes_weave (cr, &to_pixels))
    set_weave (cr, fabric, &to_pixels);
  else
    cairo_set_source_rgb (cr, fabric->colour.red, fabric->colour.green, fabric->colour.blue);
  cairo_fill_preserve (cr);
  cairo_set_source_rgba (cr, 0.2, 0.17, 0.12, 0.45);
  cairo_set_line_width (cr, px);
  cairo_stroke (cr);
  cairo_restore (cr);
}

void
hw_draw_edge_line (cairo_t *cr, const HwEdgeLine *edge, const HwFabric *fabric, double px)
{
  g_autoptr (HwOutline) inner = NULL;
  double ink;

  g_return_if_fail (cr != NULL && edge != NULL && fabric != NULL && px > 0);

  if (edge->outline == NULL || edge->outline->n_rings == 0)
    return;
  ink = hw_colour_luminance (fabric->colour) > 0.2 ? 0.18 : 0.92;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgba (cr, ink, ink, ink * 0.9, 0.75);
  hw_path_outline (cr, edge->outline);
  cairo_set_line_width (cr, 1.6 * px);
  cairo_stroke (cr);
  if (edge->margin > 0)
    inner = hw_outline_grow (edge->outline, -edge->margin);
  if (inner != NULL)
    {
      double dash[] = { 3 * px, 3 * px };

      hw_path_outline (cr, inner);
      cairo_set_source_rgba (cr, ink, ink, ink * 0.9, 0.4);
      cairo_set_line_width (cr, 0.8 * px);
      cairo_set_dash (cr, dash, G_N_ELEMENTS (dash), 0);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}
