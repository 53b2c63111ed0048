/* The head of a template: which motif it is, how large, where it is stitched and in which threads; beside its number room for a round
 * sticker, since a row of templates on the wall is put in order by stickers that can be moved. */
#include "template-head.h"

#include "../geometry/language.h"
#include "../drawing/lettering.h"
#include "page-frame.h"
#include "words.h"

#define RING 8.0 /* radius of the order number's ring and of the sticker's place */
#define RINGS (4 * RING + 2)
#define CAPTION 4.6 /* below the sticker's place */
#define THREAD_ROW 4.2
#define MOST_ROWS 8
#define WORDS 45.0 /* the motif's own words have at least this width */
#define LINE_SMALL 4.6

/* Two columns are narrower: the motif's own words need their room. */
static double
thread_width (guint columns)
{
  return columns > 1 ? 37 : 52;
}

/* As many as the narrow side of the sheet leaves room for beside the words; on a slip of paper none. */
static guint
thread_columns (const HwPrintJob *job, const HwMotif *motif)
{
  double room = MIN (job->sheet.width, job->sheet.height) - 2 * job->options.sheet_margin - RINGS - 4 - WORDS;
  guint columns = motif->n_threads == 0 ? 0 : motif->n_threads > 5 ? 2 : 1;

  while (columns > 0 && columns * (thread_width (columns) + 4) > room)
    columns--;
  return columns;
}

static guint
threads_shown (const HwMotif *motif, guint columns)
{
  return MIN (motif->n_threads, columns * MOST_ROWS);
}

static guint
thread_rows (const HwMotif *motif, guint columns)
{
  return columns > 0 ? (threads_shown (motif, columns) + columns - 1) / columns : 0;
}

double
hw_template_head_height (const HwPrintJob *job, guint index)
{
  const HwMotif *motif = hw_snapshot_motif (job->plan->snapshot, index);
  double words = 2 * RING + CAPTION + (job->options.mirrored ? LINE_SMALL : 0);

  return MAX (words, thread_rows (motif, thread_columns (job, motif)) * THREAD_ROW);
}

/* What its hooping and its turn are, or that there is none. On the back a turn goes the other way. */
char *
hw_template_hooping_words (const HwPrintJob *job, guint index)
{
  const HwMotif *motif = hw_snapshot_motif (job->plan->snapshot, index);
  int hooping = hw_plan_hooping_of (job->plan, index);
  double angle = job->options.mirrored ? -motif->placement.angle : motif->placement.angle;
  g_autofree char *turn = hw_words_turned (angle);
  g_autofree char *lies
      = motif->placement.mirrored ? g_strdup_printf (_ ("mirrored, %s"), turn) : g_strdup (turn);

  if (hooping < 0)
    return g_strdup_printf (_ ("No hooping takes it yet · %s"), lies);

  return g_strdup_printf (_ ("Hooping %d · %s"), hooping + 1, lies);
}

char *
hw_template_size_words (const HwPrintJob *job, const HwTemplateMotif *motif)
{
  HwBox box = motif->shape->box;
  g_autofree char *size = hw_words_size (box.x1 - box.x0, box.y1 - box.y0, job->options.unit);
  g_autofree char *percent = hw_words_percent (motif->motif->placement.scale);

  return g_strdup_printf (_ ("%s · at %s"), size, percent);
}

const char *
hw_template_back_words (void)
{
  return _ ("For the back of the cloth: everything is mirrored, turns too.");
}

void
hw_template_title (cairo_t *cr, double x, double y, double width, const char *text)
{
  HwLettering how = { .size = HW_TYPE_TITLE, .bold = TRUE };
  double natural = 0;

  hw_letter_measure (cr, &how, text, &natural, NULL);
  if (natural <= width)
    hw_letter (cr, x, y, &how, text);
  else
    hw_line (cr, x, y + 2.4, width, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT, text);
}

void
hw_draw_sticker_place (cairo_t *cr, double x, double y, double radius)
{
  static const double dashes[] = { 1.0, 1.0 };

  cairo_save (cr);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, radius, 0, 2 * G_PI);
  hw_ink_pale (cr);
  cairo_set_line_width (cr, 0.2);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_threads (cairo_t *cr, double right, double top, const HwMotif *motif, guint columns)
{
  guint rows = thread_rows (motif, columns), shown = threads_shown (motif, columns);
  double width = thread_width (columns);

  for (guint i = 0; i < shown; i++)
    {
      const HwThreadBlock *block = &motif->threads[i];
      double x = right - (columns - i / rows) * (width + 4) + 4;
      double y = top + (i % rows) * THREAD_ROW;
      g_autofree char *number = g_strdup_printf ("%u", i + 1);
      g_autofree char *stitches = hw_words_count (block->stitches);

      if (i + 1 == shown && motif->n_threads > shown)
        {
          g_autofree char *more
              = g_strdup_printf (_ ("and %u more, on the bench sheet"), motif->n_threads - i);

          hw_ink_pale (cr);
          hw_line (cr, x + 5, y, width - 5, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, more);
          break;
        }
      hw_ink_pale (cr);
      hw_line (cr, x + 3.6, y, 0, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, number);
      hw_draw_swatch (cr, x + 5, y + 0.4, 5.0, 2.4, block->colour);
      hw_ink (cr);
      hw_line (cr, x + 11.4, y, width - 22.4, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, block->name);
      hw_line (cr, x + width, y, 10, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, stitches);
    }
}

static void
draw_rings (cairo_t *cr, double x, double y, guint number)
{
  hw_draw_ring_number (cr, x + RING, y + RING + 0.3, RING - 0.3, 7.5, number);
  hw_draw_sticker_place (cr, x + 3 * RING + 2, y + RING + 0.3, RING - 0.3);
  hw_ink_pale (cr);
  /* Translators: below an empty ring on a template; short */
  hw_line (cr, x + 3 * RING + 2, y + 2 * RING + 0.6, 2 * RING, HW_TYPE_SMALL, FALSE, HW_LETTER_CENTRE,
           _ ("sticker"));
}

void
hw_template_head_draw (const HwPrintJob *job, const HwPage *page, cairo_t *cr, const HwTemplateMotif *shown)
{
  const HwMotif *motif = shown->motif;
  double margin = job->options.sheet_margin;
  double right = page->width - margin, x = margin + RINGS + 4;
  guint columns = thread_columns (job, motif);
  double width = MAX (right - columns * (thread_width (columns) + 4) - x - 2, 1);
  g_autofree char *hooping = hw_template_hooping_words (job, page->subject);
  g_autofree char *size = hw_template_size_words (job, shown);

  draw_rings (cr, margin, margin, shown->number);
  hw_ink (cr);
  hw_template_title (cr, x, margin - 0.8, width, motif->name);
  hw_line (cr, x, margin + 7.2, width, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, size);
  hw_line (cr, x, margin + 12.2, width, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, hooping);
  hw_ink_pale (cr);
  hw_line (cr, x, margin + 17.4, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT,
           _ ("Take this template off before the first stitch."));
  if (job->options.mirrored)
    {
      hw_ink (cr);
      hw_line (cr, x, margin + 17.4 + LINE_SMALL, width, HW_TYPE_SMALL, TRUE, HW_LETTER_LEFT,
               hw_template_back_words ());
    }
  draw_threads (cr, right, margin, motif, columns);
}
