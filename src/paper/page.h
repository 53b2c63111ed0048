/* Private to this room: what a print job is made of. A page knows its sheet and how to draw itself; each
 * kind of paper adds its pages to the job. */
#pragma once

#include "../geometry/language.h"
#include "../planning/supplies.h"
#include "../scene/limits.h"
#include "print-job.h"
#include "stretch.h"

G_BEGIN_DECLS

typedef struct _HwPage HwPage;

struct _HwPage
{
  double width, height; /* mm, as laid out */
  guint number;         /* from 0, within its job */
  char *name;           /* in the table of contents; NULL when it continues the page before */
  void (*draw) (const HwPrintJob *job, const HwPage *page, cairo_t *cr);
  guint subject; /* index of the motif or hooping it is about */
  guint part;    /* which page of its subject, from 0 */
  gpointer data; /* owned with free_data */
  GDestroyNotify free_data;
};

struct _HwPrintJob
{
  HwPlan *plan;
  HwPaperOptions options; /* its language is not kept */
  HwSheetSize sheet;      /* pages are laid out on; options.sheet points here */
  HwSheetSize paper;      /* that goes through the printer: larger where pages are drawn longer */
  HwPaperStretch stretch;
  char *sheet_name;
  const HwLanguage *language; /* entered while it is laid out and drawn; NULL: as the thread speaks */
  char *what;                 /* "Templates"; with the part: "Templates for “Lower wall”" */
  HwSupplies *supplies;       /* of the hoopings to come that it prints; NULL on papers that tell none */
  int *part_of;               /* per hooping of the plan: its part, or -1 */
  char prefix;                /* of its page labels */
  GPtrArray *pages;           /* HwPage */
  GHashTable *
      heights; /* of wrapped texts, by width, size, weight and text: most sentences come again on every page */
};

/* More sheets than this are refused: somebody mistyped the size of a cloth. */

/* Adds an empty page to fill in. (transfer none) */
HwPage *
hw_print_job_add_page (HwPrintJob *job, double width, double height);

/* Whether the job prints the hooping, or the motif, of its plan: all of them unless it is for one part. */
gboolean
hw_print_job_takes_hooping (const HwPrintJob *job, guint hooping);
gboolean
hw_print_job_takes_motif (const HwPrintJob *job, guint motif);

/* The part the job is for, or NULL. */
const HwPart *
hw_print_job_part (const HwPrintJob *job);

/* The kinds. Each adds its pages or fails with an error of HW_PAPER_ERROR. */
gboolean
hw_template_pages_add (HwPrintJob *job, GError **error);
gboolean
hw_hooping_template_pages_add (HwPrintJob *job, GError **error);
gboolean
hw_layout_pages_add (HwPrintJob *job, GError **error);
gboolean
hw_bench_sheet_add (HwPrintJob *job, GError **error);
gboolean
hw_day_log_add (HwPrintJob *job, GError **error);
gboolean
hw_test_sheet_add (HwPrintJob *job, GError **error);

/* The number a motif goes by on every paper and on screen: its place in the scene's stitch order, from 1. */
#define hw_order_number(motif) ((motif) + 1)

/* Ink, a paler ink for what stands behind, and the hairline of the grid. */
void
hw_ink (cairo_t *cr);
void
hw_ink_pale (cairo_t *cr);
void
hw_ink_grid (cairo_t *cr);
#define HW_HAIRLINE 0.15

/* One typeface in three sizes (em, mm). */
#define HW_TYPE_SMALL 2.8
#define HW_TYPE_TEXT 3.6
#define HW_TYPE_TITLE 6.0

G_END_DECLS
