/* A page of a PDF at true size: a unit of its user space is 1/72 inch, or as many of them as the page says (ISO 32000-1, 8.3.2.3). The paper is left clear. */
#include "artwork-private.h"

#include <poppler.h>

#include "../geometry/language.h"
#include "../geometry/units.h"

static void
tell_problem (GError **error, const char *name, const GError *problem)
{
  if (g_error_matches (problem, POPPLER_ERROR, POPPLER_ERROR_ENCRYPTED))
    hw_artwork_fail (error, HW_ARTWORK_ERROR_PASSWORD, name,
                     _ ("this PDF is locked with a password; save a copy without one and open that."));
  else
    hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name,
                     _ ("this PDF is broken off or damaged; copy it again from where it came from."));
}

static gboolean
draw_page (PopplerPage *from, const char *name, double unit, HwArtworkPage *page, GError **error)
{
  double width, height, points_per_mm = HW_POINTS_PER_MM / unit;
  cairo_t *cr;
  cairo_status_t status;

  poppler_page_get_size (from, &width, &height);
  page->width = width / points_per_mm;
  page->height = height / points_per_mm;
  cr = hw_artwork_page_begin (page, name, error);
  if (cr == NULL)
    return FALSE;
  cairo_scale (cr, 1 / points_per_mm, 1 / points_per_mm);
  poppler_page_render (from, cr);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status != CAIRO_STATUS_SUCCESS)
    hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name, _ ("the page could not be drawn (%s)."),
                     cairo_status_to_string (status));
  return status == CAIRO_STATUS_SUCCESS;
}

static gboolean
draw_numbered (PopplerDocument *document,
               GBytes *bytes,
               const char *name,
               guint number,
               HwArtworkPage *page,
               GError **error)
{
  double unit;
  int n = poppler_document_get_n_pages (document);
  PopplerPage *from;
  gboolean drawn;

  if (n < 1)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name, _ ("this PDF has no pages."));
      return FALSE;
    }
  page->n_pages = (guint)n;
  if (number > page->n_pages)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_PAGE, name,
                       ngettext ("there is no page %u; this PDF has %u page.",
                                 "there is no page %u; this PDF has %u pages.", page->n_pages),
                       number, page->n_pages);
      return FALSE;
    }
  if (!hw_artwork_pdf_unit (bytes, name, page->n_pages, &unit, error))
    return FALSE;
  from = poppler_document_get_page (document, (int)number - 1);
  if (from == NULL)
    {
      hw_artwork_fail (error, HW_ARTWORK_ERROR_FORMAT, name,
                       _ ("page %u of this PDF is damaged; copy it again from where it came from."), number);
      return FALSE;
    }
  drawn = draw_page (from, name, unit, page, error);
  g_object_unref (from);
  return drawn;
}

gboolean
hw_artwork_draw_pdf (GBytes *bytes, const char *name, guint number, HwArtworkPage *page, GError **error)
{
  g_autoptr (GError) problem = NULL;
  PopplerDocument *document = poppler_document_new_from_bytes (bytes, NULL, &problem);
  gboolean drawn;

  if (document == NULL)
    {
      tell_problem (error, name, problem);
      return FALSE;
    }
  drawn = draw_numbered (document, bytes, name, number, page, error);
  g_object_unref (document);
  return drawn;
}
