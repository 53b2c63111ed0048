/* How artwork of each kind becomes a drawn page, and what is done with the page. Private to this room. */
#pragma once

#include "artwork.h"

G_BEGIN_DECLS

/* A page or picture, drawn whole. */
typedef struct
{
  cairo_surface_t *surface; /* ARGB32 */
  double pixels_per_mm;
  double width, height; /* mm */
  gboolean size_guessed;
  guint n_pages;
} HwArtworkPage;

/* Each: fills a zeroed page, or FALSE and an error of HW_ARTWORK_ERROR. name: the file's, for sentences. */
gboolean
hw_artwork_draw_svg (GBytes *bytes, const char *name, HwArtworkPage *page, GError **error);
/* number: counted from 1. */
gboolean
hw_artwork_draw_pdf (GBytes *bytes, const char *name, guint number, HwArtworkPage *page, GError **error);
/* How many 1/72 inch a unit of the PDF's pages is. FALSE and HW_ARTWORK_ERROR_SIZE when its pages differ. */
gboolean
hw_artwork_pdf_unit (GBytes *bytes, const char *name, guint n_pages, double *unit, GError **error);
/* pixels_per_mm: 0: as the file says. */
gboolean
hw_artwork_draw_picture (
    GBytes *bytes, const char *name, double pixels_per_mm, HwArtworkPage *page, GError **error);

/* A clear surface for page->width x height mm, with a context in mm: as fine as a good scan, coarser only where that would take over 16 megapixels. Sets
 * page->surface and pixels_per_mm. Returns: (transfer full) (nullable) */
cairo_t *
hw_artwork_page_begin (HwArtworkPage *page, const char *name, GError **error);

/* The whole artwork of a needle list, whose own origin is kept: it lies within the hoop as its maker put it. */
HwArtwork *
hw_artwork_from_needles (const char *text, gsize length, const char *name, GError **error);

/* Opacity of each pixel with the ground taken out, width bytes a row; the ground is taken out of the page's picture as well. Returns: (transfer full) */
guint8 *
hw_artwork_take_ground (HwArtworkPage *page, const HwArtworkWishes *wishes);

/* Takes uneven light on the paper of an opaque ARGB32 page away, where its edges show paper; else does nothing. */
void
hw_artwork_even_light (guint8 *data, gsize stride, int width, int height);

/* The main colours of what is left, largest area first, with plain names. Returns: (transfer full): n of them */
HwThreadBlock *
hw_artwork_main_colours (const HwArtworkPage *page, const guint8 *mask, guint *n);
/* The colour of a thread of which only its place in a list is known. */
HwColour
hw_artwork_colour_to_begin_with (guint index);

void
hw_artwork_fail (GError **error, HwArtworkError code, const char *name, const char *format, ...)
    G_GNUC_PRINTF (4, 5);

G_END_DECLS
