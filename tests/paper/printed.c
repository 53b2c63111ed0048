#include "printed.h"

#include <glib/gstdio.h>

PopplerDocument *
printed (const HwPlan *plan, HwPaperKind kind, const char *sheet, HwUnit unit, char **path)
{
  HwPaperOptions options = { kind, hw_sheet_size_find (sheet), unit, 10, 10 };

  /* Planned by hand: nothing of it is to be looked at anew to be said in inches. */
  ((HwPlan *)plan)->unit = unit;
  return printed_with (plan, &options, path);
}

PopplerDocument *
printed_with (const HwPlan *plan, const HwPaperOptions *options, char **path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwPrintJob) job = hw_print_job_new (plan, options, &error);
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "print.pdf", NULL);
  g_autofree char *uri = g_filename_to_uri (file, NULL, NULL);
  PopplerDocument *document;

  g_assert_no_error (error);
  g_assert_true (hw_print_jobs_write_pdf (&job, 1, "A garden in print", file, NULL, &error));
  g_assert_no_error (error);
  document = poppler_document_new_from_file (uri, NULL, &error);
  g_assert_no_error (error);
  if (path != NULL)
    *path = g_steal_pointer (&file);
  else
    {
      g_unlink (file);
      g_rmdir (folder);
    }

  return document;
}

cairo_surface_t *
printed_strip (PopplerDocument *document, int page, double x, double y, double width, double height)
{
  g_autoptr (PopplerPage) p = poppler_document_get_page (document, page);
  cairo_surface_t *strip = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)(width * PIXELS_PER_MM),
                                                       (int)(height * PIXELS_PER_MM));
  cairo_t *cr = cairo_create (strip);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, PIXELS_PER_MM, PIXELS_PER_MM);
  cairo_translate (cr, -x, -y);
  /* ISO 32000-1 8.3.2.3: a user space unit is 1/72 inch. */
  cairo_scale (cr, 25.4 / 72, 25.4 / 72);
  poppler_page_render_for_printing (p, cr);
  cairo_destroy (cr);
  cairo_surface_flush (strip);

  return strip;
}

gboolean
dark_extent (cairo_surface_t *strip, double y, int level, double *from, double *to)
{
  int row = (int)(y * PIXELS_PER_MM), width = cairo_image_surface_get_width (strip), first = -1, last = -1;
  const guint32 *pixels
      = (const guint32 *)(const void *)(cairo_image_surface_get_data (strip)
                                        + (gsize)row * cairo_image_surface_get_stride (strip));

  for (int x = 0; x < width; x++)
    if ((int)((pixels[x] >> 8) & 255) < level)
      {
        first = first < 0 ? x : first;
        last = x;
      }
  *from = (double)first / PIXELS_PER_MM;
  *to = (double)(last + 1) / PIXELS_PER_MM;

  return first >= 0;
}

char *
printed_text (PopplerDocument *document, int page)
{
  g_autoptr (PopplerPage) p = poppler_document_get_page (document, page);

  char *text = poppler_page_get_text (p);

  /* Where a line breaks is no matter. */
  return g_strdelimit (text, "\n", ' ');
}

typedef struct
{
  gunichar c;
  double x, y; /* left side and middle, points */
} Letter;

static int
compare_down (gconstpointer a, gconstpointer b)
{
  const Letter *p = a, *q = b;

  return (p->y > q->y) - (p->y < q->y);
}

static int
compare_along (gconstpointer a, gconstpointer b, gpointer data)
{
  const Letter *p = a, *q = b;

  return (p->x > q->x) - (p->x < q->x);
}

/* Letters whose middles are nearer than 4 points stand on one line. */
static void
sort_lines (GArray *letters)
{
  Letter *all = (Letter *)(void *)letters->data;

  g_array_sort (letters, compare_down);
  for (guint first = 0, end = 0; first < letters->len; first = end)
    {
      while (end < letters->len && all[end].y - all[first].y < 4)
        end++;
      g_qsort_with_data (&all[first], (int)(end - first), sizeof *all, compare_along, NULL);
    }
}

char *
printed_column (PopplerDocument *document, int number, double x, double width)
{
  const double mm = 72 / 25.4;
  g_autoptr (PopplerPage) page = poppler_document_get_page (document, number);
  g_autofree char *text = poppler_page_get_text (page);
  g_autofree PopplerRectangle *boxes = NULL;
  g_autoptr (GArray) letters = g_array_new (FALSE, FALSE, sizeof (Letter));
  GString *column = g_string_new (NULL);
  const char *at = text;
  guint n = 0;

  poppler_page_get_text_layout (page, &boxes, &n);
  for (guint i = 0; i < n && *at != '\0'; i++, at = g_utf8_next_char (at))
    {
      Letter letter = { g_utf8_get_char (at), boxes[i].x1, (boxes[i].y1 + boxes[i].y2) / 2 };

      if (letter.c != '\n' && boxes[i].x1 >= x * mm && boxes[i].x2 <= (x + width) * mm)
        g_array_append_val (letters, letter);
    }
  sort_lines (letters);
  for (guint i = 0; i < letters->len; i++)
    g_string_append_unichar (column, g_array_index (letters, Letter, i).c);

  return g_string_free (column, FALSE);
}
