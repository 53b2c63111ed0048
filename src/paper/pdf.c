/* Print jobs as a PDF true to scale: a user space unit is 1/72 inch (ISO 32000-1 8.3.2.3). The file is
 * written beside its name and put in place when it is whole, so an old print is never half lost. */
#include "page.h"

#include <cairo-pdf.h>
#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "artwork-ahead.h"
#include "../geometry/language.h"

typedef struct
{
  int fd;
  int error; /* errno of the first write that failed, or 0 */
} HwPdfFile;

static cairo_status_t
write_cb (void *closure, const unsigned char *data, unsigned int length)
{
  HwPdfFile *file = closure;

  while (length > 0)
    {
      gssize n = write (file->fd, data, length);

      if (n < 0 && errno == EINTR)
        continue;
      if (n <= 0)
        {
          file->error = n < 0 ? errno : ENOSPC;
          return CAIRO_STATUS_WRITE_ERROR;
        }
      data += n;
      length -= (unsigned int)n;
    }

  return CAIRO_STATUS_SUCCESS;
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
write_pages (HwPdfFile *file,
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
  if (status == CAIRO_STATUS_SUCCESS && file->error == 0 && fsync (file->fd) != 0 && errno != EINVAL)
    file->error = errno;
  if (status == CAIRO_STATUS_SUCCESS && file->error == 0)
    return TRUE;

  g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE, _ ("%s could not be written: %s."), path,
               file->error != 0 ? g_strerror (file->error) : cairo_status_to_string (status));
  return FALSE;
}

/* Where the name leads, so that a link stays a link; a folder or a device is no place for a print. */
static char *
resolve_target (const char *path, mode_t *mode, GError **error)
{
  char *real = realpath (path, NULL);
  GStatBuf info;
  g_autofree char *target = g_strdup (real != NULL ? real : path);

  free (real);
  *mode = 0;
  if (g_stat (target, &info) == 0)
    {
      if (!S_ISREG (info.st_mode))
        {
          g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE,
                       _ ("%s is not a plain file; please give the name of a file to write."), path);
          return NULL;
        }
      *mode = info.st_mode & 0777;
    }

  return g_steal_pointer (&target);
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
  g_autofree char *target = NULL, *beside = NULL;
  HwPdfFile file = { -1, 0 };
  gboolean written;
  mode_t mode;

  g_return_val_if_fail (jobs != NULL && n_jobs > 0 && title != NULL && path != NULL, FALSE);
  g_return_val_if_fail (n_written != NULL, FALSE);

  target = resolve_target (path, &mode, error);
  if (target == NULL)
    return FALSE;

  beside = g_strdup_printf ("%s.XXXXXX", target);
  file.fd = g_mkstemp_full (beside, O_RDWR | O_CLOEXEC, mode != 0 ? mode : 0666);
  if (file.fd < 0)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE, _ ("%s could not be written: %s."), path,
                   g_strerror (errno));
      return FALSE;
    }

  written = write_pages (&file, jobs, n_jobs, title, n_written, cancellable, path, error);
  if (close (file.fd) != 0 && written)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE, _ ("%s could not be written: %s."), path,
                   g_strerror (errno));
      written = FALSE;
    }
  if (written && g_rename (beside, target) != 0)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_WRITE, _ ("%s could not be written: %s."), path,
                   g_strerror (errno));
      written = FALSE;
    }
  if (!written)
    g_unlink (beside);

  return written;
}
