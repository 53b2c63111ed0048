/* Artwork from the files people have. A file's first bytes tell its kind; it is drawn as a page at true size, the ground is taken away, what is left is traced,
 * and outline and picture are moved so that the outline's box has its middle at the origin. */
#include "artwork-private.h"

#include <math.h>
#include <string.h>

#include "../geometry/language.h"
#include "../geometry/room.h"
#include "../geometry/units.h"
#include "../geometry/one-line.h"
#include "whole-file.h"
#include "../scene/limits.h"

G_DEFINE_QUARK (hw_artwork_error_quark, hw_artwork_error)

const char *const hw_artwork_nicks[] = { "needles", "svg", "png", "jpeg", "pdf", NULL };

#define FINENESS (300 / HW_MM_PER_INCH) /* pixels per mm of drawn pages: a good scan's */
#define MOST_PIXELS 16e6
#define LONGEST_SIDE 30000.0     /* pixels: cairo ends at 32767 */
#define SMALLEST_PAGE 0.1        /* mm */
#define SMALLEST_FINENESS 0.01   /* pixels per mm a person may say */
#define GREATEST_FINENESS 1000.0 /* likewise */
#define DEFAULT_SMOOTHING 0.1
#define DEFAULT_SPECK 1.0
#define ROOM_FOR_COLOURS ((gsize)2 << 20)
#define ROOM_PER_PIXEL 8 /* bytes that finding ground, outline and colours takes */
#define LOOKED_AT 4096u  /* bytes, for what kind of file it is */
#define SNAP 0.02        /* pixels: a picture is not moved by less */

void
hw_artwork_fail (GError **error, HwArtworkError code, const char *name, const char *format, ...)
{
  g_autofree char *what = NULL;
  g_autofree char *text = NULL;
  g_autofree char *line = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  text = g_strdup_printf ("%s: %s", name, what);
  line = hw_one_line (text);
  g_set_error_literal (error, HW_ARTWORK_ERROR, code, line);
}

cairo_t *
hw_artwork_page_begin (HwArtworkPage *page, const char *name, GError **error)
{
  double scale;
  cairo_t *cr;

  if (!(page->width <= HW_LARGEST_PAGE_MM && page->height <= HW_LARGEST_PAGE_MM))
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_TOO_LARGE, name,
                       _ ("a page of %.0f × %.0f mm is too large; up to 10 m along a side can be opened."),
                       page->width, page->height);
      return NULL;
    }
  if (page->width < SMALLEST_PAGE || page->height < SMALLEST_PAGE)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_SIZE, name,
                       _ ("the page is less than 0.1 mm wide or high; give it its true size."));
      return NULL;
    }
  scale = MIN (sqrt (MOST_PIXELS / (page->width * page->height)),
               LONGEST_SIDE / MAX (page->width, page->height));
  scale = MIN (scale, FINENESS);
  page->surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, MAX (1, (int)ceil (page->width * scale)),
                                              MAX (1, (int)ceil (page->height * scale)));
  page->pixels_per_mm = scale;
  if (cairo_surface_status (page->surface) != CAIRO_STATUS_SUCCESS)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_TOO_LARGE, name,
                       _ ("there is not enough memory for a picture this large."));
      return NULL;
    }
  cr = cairo_create (page->surface);
  cairo_scale (cr, scale, scale);
  return cr;
}

static gboolean
holds (const char *text, gsize length, const char *word)
{
  return memmem (text, MIN (length, LOOKED_AT), word, strlen (word)) != NULL;
}

/* An SVG in UTF-16 has a zero beside each letter. */
static gboolean
holds_wide (const char *text, gsize length)
{
  return holds (text, length, "<svg") || memmem (text, MIN (length, LOOKED_AT), "<\0s\0v\0g", 7) != NULL;
}

static gboolean
has_ending (const char *name, const char *ending)
{
  g_autofree char *small = g_ascii_strdown (name, -1);

  return g_str_has_suffix (small, ending);
}

/* What the content says goes before what the name says. */
static gboolean
find_kind (const char *text, gsize length, const char *name, HwArtworkKind *kind)
{
  if (length >= 8 && memcmp (text, "\x89PNG\r\n\x1a\n", 8) == 0)
    *kind = HW_ARTWORK_PNG;
  else if (length >= 3 && memcmp (text, "\xff\xd8\xff", 3) == 0)
    *kind = HW_ARTWORK_JPEG;
  else if (memmem (text, MIN (length, 1024), "%PDF-", 5) != NULL)
    *kind = HW_ARTWORK_PDF;
  else if (holds (text, length, "x_mm"))
    *kind = HW_ARTWORK_NEEDLES;
  else if (holds_wide (text, length) || (length > 2 && memcmp (text, "\x1f\x8b", 2) == 0))
    *kind = HW_ARTWORK_SVG;
  else if (has_ending (name, ".svg") || has_ending (name, ".svgz"))
    *kind = HW_ARTWORK_SVG;
  else if (has_ending (name, ".png"))
    *kind = HW_ARTWORK_PNG;
  else if (has_ending (name, ".jpg") || has_ending (name, ".jpeg"))
    *kind = HW_ARTWORK_JPEG;
  else if (has_ending (name, ".pdf"))
    *kind = HW_ARTWORK_PDF;
  else if (has_ending (name, ".csv"))
    *kind = HW_ARTWORK_NEEDLES;
  else
    return FALSE;
  return TRUE;
}

/* The part of the page around the box, moved by a part of a pixel where it must be, so that the box's middle is the picture's. */
static cairo_surface_t *
cut_out (const HwArtworkPage *page, HwBox box)
{
  double s = page->pixels_per_mm;
  double half_width = ceil ((box.x1 - box.x0) / 2 * s) + 1,
         half_height = ceil ((box.y1 - box.y0) / 2 * s) + 1;
  double x = (box.x0 + box.x1) / 2 * s, y = (box.y0 + box.y1) / 2 * s;
  cairo_surface_t *cut
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int)(2 * half_width), (int)(2 * half_height));
  cairo_t *cr = cairo_create (cut);

  if (fabs (x - round (x)) < SNAP)
    x = round (x);
  if (fabs (y - round (y)) < SNAP)
    y = round (y);
  cairo_set_source_surface (cr, page->surface, half_width - x, half_height - y);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_paint (cr);
  cairo_destroy (cr);
  return cut;
}

static HwArtwork *
artwork_of_page (
    HwArtworkPage *page, HwArtworkKind kind, const char *name, const HwArtworkWishes *wishes, GError **error)
{
  guint width = cairo_image_surface_get_width (page->surface),
        height = cairo_image_surface_get_height (page->surface);
  g_autofree guint8 *mask = NULL;
  double smoothing = wishes->smoothing > 0 ? wishes->smoothing : DEFAULT_SMOOTHING;
  double speck = wishes->speck > 0 ? wishes->speck : DEFAULT_SPECK;
  g_autoptr (HwOutline) outline = NULL;
  HwPlacement middle = { .scale = 1 };
  HwArtwork *artwork;

  if (!hw_room_for (((gsize)width * height) * ROOM_PER_PIXEL + ROOM_FOR_COLOURS))
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_TOO_LARGE, name,
                       _ ("there is not enough memory for a picture this large."));
      return NULL;
    }
  mask = hw_artwork_take_ground (page, wishes);
  outline = hw_trace_mask (mask, width, height, width, page->pixels_per_mm, smoothing, speck);
  if (outline == NULL)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_NO_AREA, name,
                       _ ("nothing is left when the ground is taken away; keep the paper if the whole page "
                          "is the motif."));
      return NULL;
    }
  artwork = g_new0 (HwArtwork, 1);
  g_atomic_ref_count_init (&artwork->ref_count);
  artwork->kind = kind;
  artwork->width = page->width;
  artwork->height = page->height;
  artwork->size_guessed = page->size_guessed;
  artwork->n_pages = page->n_pages;
  artwork->pixels_per_mm = page->pixels_per_mm;
  artwork->centre
      = (HwPoint){ (outline->box.x0 + outline->box.x1) / 2, (outline->box.y0 + outline->box.y1) / 2 };
  middle.position = (HwPoint){ -artwork->centre.x, -artwork->centre.y };
  artwork->outline = hw_outline_place (outline, &middle);
  artwork->threads = hw_artwork_main_colours (page, mask, &artwork->n_threads);
  artwork->picture = cut_out (page, outline->box);
  return artwork;
}

static gboolean
draw_page (GBytes *bytes,
           HwArtworkKind kind,
           const char *name,
           const HwArtworkWishes *wishes,
           HwArtworkPage *page,
           GError **error)
{
  switch (kind)
    {
    case HW_ARTWORK_SVG:
      return hw_artwork_draw_svg (bytes, name, page, error);
    case HW_ARTWORK_PDF:
      return hw_artwork_draw_pdf (bytes, name, MAX (wishes->page, 1), page, error);
    case HW_ARTWORK_PNG:
    case HW_ARTWORK_JPEG:
      return hw_artwork_draw_picture (bytes, name, wishes->pixels_per_mm, page, error);
    case HW_ARTWORK_NEEDLES:
    default:
      g_assert_not_reached ();
    }
}

/* Returns: (transfer full) (nullable) */
static GBytes *
read_bytes (const char *path, const char *name, GError **error)
{
  g_autoptr (GError) problem = NULL;
  gsize length;
  char *text = hw_file_read_whole (path, HW_LARGEST_PICTURE_FILE, &length, &problem);
  gboolean large = g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_NOSPC);

  if (text != NULL && length > 0)
    return g_bytes_new_take (text, length);
  if (text != NULL)
    hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name, _ ("the file is empty."));
  else
    hw_artwork_fail (error, large ? HW_ARTWORK_ERROR_TOO_LARGE : HW_ARTWORK_ERROR_READ, name, "%s",
                     problem->message);
  g_free (text);
  return NULL;
}

static gboolean
check_wishes (const HwArtworkWishes *wishes, const char *name, GError **error)
{
  double fineness = wishes->pixels_per_mm;

  if (fineness == 0 || (fineness >= SMALLEST_FINENESS && fineness <= GREATEST_FINENESS))
    return TRUE;
  hw_artwork_fail (error, HW_ARTWORK_ERROR_SIZE, name,
                   _ ("%g pixels to the mm is no size for a picture; between 0.01 and 1000 can be used."),
                   fineness);
  return FALSE;
}

HwArtwork *
hw_artwork_load (const char *path, const HwArtworkWishes *wishes, GError **error)
{
  static const HwArtworkWishes none = { 0 };
  g_autofree char *name = NULL;
  g_autoptr (GBytes) bytes = NULL;
  HwArtworkPage page = { 0 };
  HwArtwork *artwork = NULL;
  HwArtworkKind kind;
  const char *text;
  gsize length;

  g_return_val_if_fail (path != NULL, NULL);

  if (wishes == NULL)
    wishes = &none;
  name = hw_file_shown_name (path);
  bytes = check_wishes (wishes, name, error) ? read_bytes (path, name, error) : NULL;
  if (bytes == NULL)
    return NULL;
  text = g_bytes_get_data (bytes, &length);
  if (!find_kind (text, length, name, &kind))
    hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name,
                     _ ("this is no needle list (CSV), SVG, PNG, JPEG or PDF; motifs are made of these."));
  else if (kind == HW_ARTWORK_NEEDLES)
    artwork = hw_artwork_from_needles (text, length, name, error);
  else if (draw_page (bytes, kind, name, wishes, &page, error))
    artwork = artwork_of_page (&page, kind, name, wishes, error);
  g_clear_pointer (&page.surface, cairo_surface_destroy);
  return artwork;
}

HwArtwork *
hw_artwork_ref (const HwArtwork *artwork)
{
  HwArtwork *mutable = (HwArtwork *)artwork;

  g_return_val_if_fail (artwork != NULL, NULL);

  g_atomic_ref_count_inc (&mutable->ref_count);
  return mutable;
}

void
hw_artwork_unref (HwArtwork *artwork)
{
  g_return_if_fail (artwork != NULL);

  if (!g_atomic_ref_count_dec (&artwork->ref_count))
    return;
  for (guint i = 0; i < artwork->n_threads; i++)
    g_free (artwork->threads[i].name);
  g_free (artwork->threads);
  hw_outline_unref (artwork->outline);
  g_clear_pointer (&artwork->needles, hw_needle_list_unref);
  g_clear_pointer (&artwork->picture, cairo_surface_destroy);
  g_free (artwork);
}
