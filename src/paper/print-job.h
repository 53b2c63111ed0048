/* A print job: numbered pages of one paper size, drawn with cairo by the same code on PDF and on the
 * printer. User space of a page is millimetres from the sheet's top left corner. */
#pragma once

#include <cairo.h>
#include <gio/gio.h>

#include "../planning/plan.h"
#include "sheet-size.h"

G_BEGIN_DECLS

typedef enum
{
  HW_PAPER_TEMPLATES,   /* one true-size template per motif */
  HW_PAPER_LAYOUT,      /* the whole scene tiled at true size */
  HW_PAPER_BENCH_SHEET, /* overview, the marks to draw, then a page per hooping */
  HW_PAPER_DAY_LOG,     /* what happened at the machine, with the readings and corrections */
  HW_PAPER_HOOPING_TEMPLATES, /* one true-size template per hooping: its motifs, field, centre cross, marks to prick through */
  HW_PAPER_TEST_SHEET /* lengths to measure, by which a printer is put right; needs no plan */
} HwPaperKind;

/* How much of a motif a template shows. */
typedef enum
{
  HW_TEMPLATE_PALE,    /* its outline over its artwork, pale */
  HW_TEMPLATE_OUTLINE, /* its outline alone */
  HW_TEMPLATE_STITCHES /* every stitch as a thin line, where its stitches are known */
} HwTemplateLook;

typedef struct
{
  HwPaperKind kind;
  const HwSheetSize *sheet;
  HwUnit unit;
  double sheet_margin; /* mm left white on all sides, 10 */
  double tile_overlap; /* mm shared by neighbouring pages, 10 */
  guint part;          /* only the hoopings of this part of the scene, from 1; 0: all */
  HwTemplateLook look; /* of templates */
  gboolean mirrored;   /* templates as seen from the back of the cloth */
  gboolean nested;     /* several small templates on a sheet, with lines to cut along */
  double stretch_x,
      stretch_y; /* what is drawn is made longer by, so that it comes out true on a printer that is not; 0: 1 */
  const char *language; /* a catalogue's name, "de"; NULL: as on the screen */
} HwPaperOptions;

#define HW_PAPER_ERROR (hw_paper_error_quark ())
typedef enum
{
  HW_PAPER_ERROR_NOTHING, /* nothing to print */
  HW_PAPER_ERROR_SHEET,   /* the sheet is too small to draw on */
  HW_PAPER_ERROR_PAGES,   /* more sheets than anybody would want */
  HW_PAPER_ERROR_WRITE,
  HW_PAPER_ERROR_MEASURED /* lengths that no printer would draw so wrong */
} HwPaperError;
GQuark
hw_paper_error_quark (void);

typedef struct _HwPrintJob HwPrintJob;

/* Lays out the pages. The plan's snapshot is what is printed; a test sheet needs no plan. A job belongs to one thread at a time. Returns:
 * (transfer full) (nullable) */
HwPrintJob *
hw_print_job_new (const HwPlan *plan, const HwPaperOptions *options, GError **error);
void
hw_print_job_free (HwPrintJob *job);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwPrintJob, hw_print_job_free)

/* "The Walled Garden, Templates", in the job's language. Returns: (transfer full) */
char *
hw_print_job_title (const HwPrintJob *job);
guint
hw_print_job_n_pages (const HwPrintJob *job);
/* The kind's name, as pages and titles give it: "Templates". Translated as the screen is, or as paper is while its language is entered. */
const char *
hw_paper_kind_words (HwPaperKind kind);
/* Size of the sheet a page is on (may be turned to landscape). */
void
hw_print_job_page_size (const HwPrintJob *job, guint page, double *width, double *height);
/* cr's user space must be millimetres with the origin at the sheet's top left. */
void
hw_print_job_draw_page (const HwPrintJob *job, guint page, cairo_t *cr);

/* Writes all pages as one PDF, beside and then renamed. Several jobs may follow one another in one file. */
gboolean
hw_print_jobs_write_pdf (HwPrintJob *const *jobs,
                         guint n_jobs,
                         const char *title,
                         const char *path,
                         GCancellable *cancellable,
                         GError **error);
/* The same, counting the pages up in *n_written as they are drawn, to be read from another thread. */
gboolean
hw_print_jobs_write_pdf_counting (HwPrintJob *const *jobs,
                                  guint n_jobs,
                                  const char *title,
                                  const char *path,
                                  guint *n_written,
                                  GCancellable *cancellable,
                                  GError **error);

G_END_DECLS
