/* Print jobs as a PDF true to scale: a user space unit is 1/72 inch (ISO 32000-1 8.3.2.3). The file is
 * written beside its name and put in place when it is whole, so an old print is never half lost. */
#include "page.h"

#include <cairo-pdf.h>

#include "artwork-ahead.h"
#include "../formats/whole-file.h"
#include "../geometry/language.h"

static cairo_status_t
write_cb (void *closure, const unsigned char *data, unsigned int length)
{
  return hw_whole_file_write (closure, data, length) ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

static void
add_contents (cairo_surface_t *pdf, const HwPage *page, guint number)
{
  g_autofree char *link = g_strdup_printf ("page=%u pos=[0 0]", number);

  if (page->name != NULL)
    cairo_pdf_surface_add_outline (pdf, CAIRO_PDF_OUTLINE_ROOT, page->name, link, 0);
}

static cairo_status_t
draw_pages (
    cairo_surface_t *pdf, HwPrintJob *const *jobs, guint n_jobs, guint *n_written, GCancellable *cancellable)
{
  cairo_t *cr = cairo_create (pdf);
  cairo_status_t status;
  guint number = 0;

  for (guint j = 0; j < n_jobs; j++)
    for (guint p = 0; p < jobs[j]->pages->len && !g_cancellable_is_cancelled (cancellable); p++)
      {
        const HwPage *page = g_ptr_array_index (jobs[j]->pages, p);
        g_autofree char *label = g_strdup_printf ("%c%u", jobs[j]->prefix, p + 1);
        double width, height;

        hw_print_job_page_size (jobs[j], p, &width, &height);
        cairo_pdf_surface_set_size (pdf, width * HW_POINTS_PER_MM, height * HW_POINTS_PER_MM);
        cairo_pdf_surface_set_page_label (pdf, label);
        add_contents (pdf, page, ++number);
        cairo_save (cr);
        cairo_scale (cr, HW_POINTS_PER_MM, HW_POINTS_PER_MM);
        hw_print_job_draw_page (jobs[j], p, cr);
        cairo_restore (cr);
        cairo_show_page (cr);
        g_atomic_int_inc ((gint *)n_written);
        if (cairo_status (cr) != CAIRO_STATUS_SUCCESS)
          break;
      }

  status = cairo_status (cr);
  cairo_destroy (cr);

  return status;
}

static gboolean
write_pages (HwWholeFile *file,
             HwPrintJob *const *jobs,
             guint n_jobs,
             const char *title,
             guint *n_written,
             GCancellable *cancellable,
             const char *path,
             GError **error)
{
  cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream (write_cb, file, 100, 100);
  HwArtworkAhead *ahead;
  cairo_status_t status;

  cairo_pdf_surface_restrict_to_version (pdf, CAIRO_PDF_VERSION_1_5);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_CREATOR, "Hoopwright");
  ahead = hw_artwork_ahead_begin ();
  status = draw_pages (pdf, jobs, n_jobs, n_written, cancellable);
  hw_artwork_ahead_end (ahead);
  cairo_surface_finish (pdf);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (pdf);
  cairo_surface_destroy (pdf);

  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return FALSE;
  /* What could not be written, the file's ending tells. */
  if (status == CAIRO_STATUS_SUCCESS || status == CAIRO_STATUS_WRITE_ERROR)
    return TRUE;

  g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE, _ ("%s could not be written: %s."), path,
               cairo_status_to_string (status));
  return FALSE;
}

gboolean
hw_print_jobs_write_pdf (HwPrintJob *const *jobs,
                         guint n_jobs,
                         const char *title,
                         const char *path,
                         GCancellable *cancellable,
                         GError **error)
{
  guint n_written = 0;

  return hw_print_jobs_write_pdf_counting (jobs, n_jobs, title, path, &n_written, cancellable, error);
}

gboolean
hw_print_jobs_write_pdf_counting (HwPrintJob *const *jobs,
                                  guint n_jobs,
                                  const char *title,
                                  const char *path,
                                  guint *n_written,
                                  GCancellable *cancellable,
                                  GError **error)
{
  g_autofree char *shown = NULL;
  g_autoptr (HwWholeFile) file = NULL;
  g_autoptr (GError) problem = NULL;

  g_return_val_if_fail (jobs != NULL && n_jobs > 0 && title != NULL && path != NULL, FALSE);
  g_return_val_if_fail (n_written != NULL, FALSE);

  shown = g_filename_display_name (path);
  file = hw_whole_file_begin (path, &problem);
  if (file != NULL && !write_pages (file, jobs, n_jobs, title, n_written, cancellable, shown, error))
    return FALSE;
  if (file != NULL && hw_whole_file_end (file, &problem))
    return TRUE;

  g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE, _ ("%s was not saved: %s"), shown,
               problem->message);
  return FALSE;
}
