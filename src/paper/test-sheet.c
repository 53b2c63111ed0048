/* The test sheet: a printer's rollers and its "fit to page" make paper a little too long or too short, and not alike across and down. One
 * long line each way, laid against a ruler, tells by how much; from then on every page is drawn the other way round. */
#include "test-sheet.h"

#include <math.h>

#include "../geometry/language.h"
#include "page-frame.h"
#include "words.h"

#define MARGIN 10.0    /* mm white, whatever the other papers leave */
#define END 5.0        /* how far an end line reaches on each side of the line */
#define GAP 6.0        /* between the line across and the foot, and between the lines */
#define FINE 0.15      /* the end lines: their middle is the end */
#define SHORTEST 50.0  /* mm; a line shorter than this tells too little */
#define COLUMN 22.0    /* from the line down to the words */
#define BOX_WIDTH 46.0 /* to write a length in */
#define BOX_HEIGHT 11.0

static double
whole (double room, HwUnit unit)
{
  double step = unit == HW_UNIT_INCH ? HW_MM_PER_INCH / 2 : 10;

  return floor (room / step + 1e-9) * step;
}

gboolean
hw_test_sheet_lengths (const HwSheetSize *sheet, HwUnit unit, double *across, double *down)
{
  g_return_val_if_fail (sheet != NULL && across != NULL && down != NULL, FALSE);

  *across = whole (sheet->width - 2 * MARGIN - END, unit);
  *down = whole (sheet->height - 2 * MARGIN - HW_FOOTER_HEIGHT - 2 * GAP - 2 * END, unit);
  return *across >= SHORTEST && *down >= SHORTEST;
}

static gboolean
check_length (double measured, double drawn, HwUnit unit, gboolean is_down, GError **error)
{
  g_autofree char *typed = NULL, *meant = NULL;

  if (fabs (measured / drawn - 1) <= HW_TEST_SHEET_OFF + 1e-9)
    return TRUE;
  typed = hw_length_text (measured, unit);
  meant = hw_length_text (drawn, unit);
  /* Translators: two lengths with their units */
  g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_MEASURED,
               is_down
                   ? _ ("The line down is %s long on this sheet, so %s is more than a tenth off. Please "
                        "measure it again, from end line to end line.")
                   : _ ("The line across is %s long on this sheet, so %s is more than a tenth off. Please "
                        "measure it again, from end line to end line."),
               meant, typed);
  return FALSE;
}

static gboolean
refuse_sheet (const HwSheetSize *sheet, GError **error)
{
  g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
               _ ("A sheet of %.0f × %.0f mm is too small for the test sheet; please choose a larger one."),
               sheet->width, sheet->height);
  return FALSE;
}

gboolean
hw_test_sheet_stretch (const HwSheetSize *sheet,
                       HwUnit unit,
                       double across,
                       double down,
                       double *stretch_x,
                       double *stretch_y,
                       GError **error)
{
  double drawn_across, drawn_down;

  g_return_val_if_fail (sheet != NULL && stretch_x != NULL && stretch_y != NULL, FALSE);

  if (!hw_test_sheet_lengths (sheet, unit, &drawn_across, &drawn_down))
    return refuse_sheet (sheet, error);
  if (!check_length (across, drawn_across, unit, FALSE, error)
      || !check_length (down, drawn_down, unit, TRUE, error))
    return FALSE;

  *stretch_x = drawn_across / across;
  *stretch_y = drawn_down / down;
  return TRUE;
}

static void
stroke (cairo_t *cr, double x0, double y0, double x1, double y1, double width)
{
  cairo_set_line_width (cr, width);
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
  cairo_stroke (cr);
}

/* A small arrow whose tip touches the end line at (x, 0), pointing along +x or -x. */
static void
draw_tip (cairo_t *cr, double x, double way)
{
  cairo_move_to (cr, x, 0);
  cairo_line_to (cr, x - way * 3.2, -0.9);
  cairo_line_to (cr, x - way * 3.2, 0.9);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* From (0, 0) along x; below it, on the side of larger y, only the end lines stand in a ruler's way. */
static void
draw_measure (cairo_t *cr, double length, HwUnit unit)
{
  double step = unit == HW_UNIT_INCH ? HW_MM_PER_INCH / 2 : 10;
  guint n = (guint)lround (length / step);

  hw_ink (cr);
  stroke (cr, 0, 0, length, 0, 0.25);
  stroke (cr, 0, -END, 0, END, FINE);
  stroke (cr, length, -END, length, END, FINE);
  draw_tip (cr, 0, -1);
  draw_tip (cr, length, 1);
  hw_ink_pale (cr);
  for (guint i = 1; i < n; i++)
    stroke (cr, i * step, 0, i * step, i % 5 == 0 ? -2.4 : -1.4, FINE);
}

static void
draw_name (cairo_t *cr, double length, const char *text)
{
  double width = 0;

  hw_letter_measure (cr, &(HwLettering){ .size = HW_TYPE_TEXT, .bold = TRUE }, text, &width, NULL);
  cairo_rectangle (cr, (length - width) / 2 - 2, -3.2, width + 4, 6.4);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill (cr);
  hw_ink (cr);
  hw_line (cr, length / 2, -2.4, 0, HW_TYPE_TEXT, TRUE, HW_LETTER_CENTRE, text);
}

/* Returns: how high it is */
static double
write_words (cairo_t *cr, double x, double y, double width, double size, gboolean bold, const char *text)
{
  return hw_letter (cr, x, y, &(HwLettering){ .size = size, .bold = bold, .width = width }, text);
}

static double
write_step (cairo_t *cr, double x, double y, double width, guint number, const char *text)
{
  double height;

  hw_draw_ring_number (cr, x + 3.2, y + 2.4, 3.2, 3.4, number);
  hw_ink (cr);
  height = write_words (cr, x + 10, y, width - 10, HW_TYPE_TEXT, FALSE, text);
  return MAX (7, height) + 3.4;
}

static void
draw_box (cairo_t *cr, double x, double y, const char *caption)
{
  hw_ink (cr);
  hw_line (cr, x, y, BOX_WIDTH, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, caption);
  cairo_rectangle (cr, x, y + 4.4, BOX_WIDTH, BOX_HEIGHT);
  cairo_set_line_width (cr, 0.25);
  cairo_stroke (cr);
}

static gboolean
is_corrected (const HwPrintJob *job)
{
  return job->stretch.x != 1 || job->stretch.y != 1;
}

static double
write_steps (const HwPrintJob *job, cairo_t *cr, double x, double y, double width)
{
  const char *const uncorrected[] = {
    _ ("Print this sheet as you print the templates: at 100 %, no fitting to the page, on the same paper, "
       "from the same tray."),
    _ ("Let it lie flat until it is cool and dry. Lay a steel or wooden ruler along each line; a tape may "
       "have "
       "grown longer with use."),
    _ ("Measure from the middle of one fine end line to the middle of the other, to half a millimetre or "
       "better, "
       "and write down what the ruler says."),
    _ ("Type both lengths where you chose this sheet, even when they are right. From then on everything is "
       "drawn so that it comes out true on this printer."),
    NULL,
  };
  const char *const corrected[] = {
    _ ("This sheet is drawn with the correction. Print it as you print the templates: at 100 %, no "
       "fitting to the page."),
    _ ("Both lines should now be as long as they say. If they are not, print the test sheet without the "
       "correction and measure once more."),
    NULL,
  };
  const char *const *steps = is_corrected (job) ? corrected : uncorrected;

  for (guint i = 0; steps[i] != NULL; i++)
    y += write_step (cr, x, y, width, i + 1, steps[i]);
  return y;
}

static void
draw_test_sheet (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  HwUnit unit = job->options.unit;
  double across = 0, down = 0, left = MARGIN + END, top = MARGIN;
  double foot = page->height - MARGIN - HW_FOOTER_HEIGHT;
  double x = left + COLUMN, width, y;
  g_autofree char *what = NULL, *size = NULL, *name_across = NULL, *name_down = NULL;

  hw_test_sheet_lengths (&job->sheet, unit, &across, &down);
  width = MIN (page->width - MARGIN - x, 140);
  size = hw_length_text (across, unit);
  name_across = g_strdup_printf (_ ("across, %s"), size);
  g_free (size);
  size = hw_length_text (down, unit);
  name_down = g_strdup_printf (_ ("down, %s"), size);
  what = g_strdup_printf ("%s · %s · %s", job->paper.name, name_across, name_down);

  cairo_save (cr);
  cairo_translate (cr, left, top);
  cairo_rotate (cr, G_PI / 2);
  draw_measure (cr, down, unit);
  draw_name (cr, down, name_down);
  cairo_restore (cr);

  cairo_save (cr);
  cairo_translate (cr, left, foot - GAP - END);
  draw_measure (cr, across, unit);
  draw_name (cr, across, name_across);
  cairo_restore (cr);

  hw_ink (cr);
  y = top + write_words (cr, x, top, width, HW_TYPE_TITLE, TRUE, _ ("Is this printer true to size?")) + 4;
  y += write_words (cr, x, y, width, HW_TYPE_TEXT, FALSE,
                    _ ("A template that is two millimetres too short puts its motif two millimetres off. Few "
                       "printers are quite true, and not alike across and down."))
       + 7;
  y = write_steps (job, cr, x, y, width) + 5;
  draw_box (cr, x, y, _ ("measured across"));
  draw_box (cr, x + BOX_WIDTH + 8, y, _ ("measured down"));
  draw_box (cr, x, y + 22, _ ("printer"));
  draw_box (cr, x + BOX_WIDTH + 8, y + 22, _ ("paper, day"));

  hw_page_footer (job, page, cr, MARGIN, MARGIN, 0, what);
}

gboolean
hw_test_sheet_add (HwPrintJob *job, GError **error)
{
  double across, down;
  HwPage *page;

  if (!hw_test_sheet_lengths (&job->sheet, job->options.unit, &across, &down))
    return refuse_sheet (&job->paper, error);

  page = hw_print_job_add_page (job, job->sheet.width, job->sheet.height);
  page->name = g_strdup (hw_paper_kind_words (HW_PAPER_TEST_SHEET));
  page->draw = draw_test_sheet;
  return TRUE;
}
