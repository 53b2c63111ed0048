/* The head of a hooping's template: which hooping, in which hoop, how it lies on the cloth, and its motifs by number. */
#include "hooping-template-head.h"

#include "../geometry/language.h"
#include "../drawing/lettering.h"
#include "hooping-page.h"
#include "page-frame.h"
#include "template-head.h"
#include "words.h"

#define TITLE 7.8 /* height of the title */
#define TEXT 5.0  /* and of a line of text */
#define LINE 4.6  /* from line to line in the small type */
#define ROW 5.0   /* of the list of motifs */
#define LIST_WIDTH 56.0
#define TITLE_WIDTH 50.0 /* at least */
#define MOST_ROWS 6

static double
room_across (const HwPrintJob *job)
{
  return MIN (job->sheet.width, job->sheet.height) - 2 * job->options.sheet_margin;
}

/* As many as the narrow side of the sheet leaves room for beside the title. */
static guint
list_columns (const HwPrintJob *job, guint n_motifs)
{
  guint columns = n_motifs == 0 ? 0 : n_motifs > 4 ? 2 : 1;

  while (columns > 0 && columns * (LIST_WIDTH + 3) + TITLE_WIDTH > room_across (job))
    columns--;
  return columns;
}

static guint
list_shown (guint n_motifs, guint columns)
{
  return MIN (n_motifs, columns * MOST_ROWS);
}

static guint
list_rows (guint n_motifs, guint columns)
{
  return columns > 0 ? (list_shown (n_motifs, columns) + columns - 1) / columns : 0;
}

/* Its motifs with their numbers, sizes on the cloth and how much they are scaled. */
static void
draw_list (cairo_t *cr, double right, double top, const HwHoopingTemplate *template, guint columns)
{
  guint rows = list_rows (template->n_motifs, columns), shown = list_shown (template->n_motifs, columns);

  for (guint i = 0; i < shown; i++)
    {
      const HwTemplateMotif *motif = template->motifs[i].motif;
      double x = right - (columns - i / rows) * (LIST_WIDTH + 3) + 3, y = top + (i % rows) * ROW;
      g_autofree char *percent = hw_words_percent (motif->motif->placement.scale);

      if (i + 1 == shown && template->n_motifs > shown)
        {
          g_autofree char *more = g_strdup_printf (_ ("and %u more, named below"), template->n_motifs - i);

          hw_ink_pale (cr);
          hw_line (cr, x + 5.6, y, LIST_WIDTH - 5.6, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, more);
          break;
        }
      hw_draw_ring_number (cr, x + 2.1, y + 1.8, 2.1, 2.8, motif->number);
      hw_ink (cr);
      hw_line (cr, x + 5.6, y, LIST_WIDTH - 18, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, motif->motif->name);
      hw_ink_pale (cr);
      hw_line (cr, x + LIST_WIDTH, y, 12, HW_TYPE_SMALL, FALSE, HW_LETTER_RIGHT, percent);
    }
}

/* Where the hoop's centre is on the cloth. */
static char *
centre_words (const HwPrintJob *job, HwPoint centre)
{
  HwPoint corner = hw_measuring_corner (job->plan->snapshot);
  g_autofree char *place
      = hw_words_place ((HwPoint){ centre.x - corner.x, centre.y - corner.y }, job->options.unit);

  return g_strdup_printf (_ ("Its centre on the cloth, %s: %s"),
                          hw_measuring_corner_words (job->plan->snapshot), place);
}

static char *
hoop_words (const HwPrintJob *job, const HwHoopingTemplate *template)
{
  double angle = job->plan->hoopings[template->hooping].angle;
  g_autofree char *field
      = hw_words_size (template->hoop->field_width, template->hoop->field_height, job->options.unit);
  g_autofree char *turn = hw_words_turned (job->options.mirrored ? -angle : angle);

  return g_strdup_printf (_ ("Hoop %s · field %s · %s"), template->hoop->name, field, turn);
}

/* Whether the words about the hoop are too long to stand beside the list. */
static gboolean
hoop_below (const HwHoopingTemplate *template)
{
  const HwPrintJob *job = template->job;
  double list = list_columns (job, template->n_motifs) * (LIST_WIDTH + 3);
  cairo_surface_t *nowhere = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
  cairo_t *measure = cairo_create (nowhere);
  HwLettering how = { .size = HW_TYPE_TEXT };
  g_autofree char *hoop = hoop_words (job, template);
  double width = 0;

  hw_letter_measure (measure, &how, hoop, &width, NULL);
  cairo_destroy (measure);
  cairo_surface_destroy (nowhere);

  return list > 0 && width > room_across (job) - list;
}

static guint
small_lines (const HwPrintJob *job)
{
  return job->options.mirrored ? 3 : 2;
}

double
hw_hooping_template_head_height (const HwHoopingTemplate *template)
{
  guint columns = list_columns (template->job, template->n_motifs);
  double list = list_rows (template->n_motifs, columns) * ROW;
  double titles = hoop_below (template) ? MAX (TITLE, list) + TEXT : MAX (TITLE + TEXT, list);

  return titles + small_lines (template->job) * LINE;
}

void
hw_hooping_template_head_draw (const HwHoopingTemplate *template, const HwPage *page, cairo_t *cr)
{
  const HwPrintJob *job = template->job;
  double margin = job->options.sheet_margin, right = page->width - margin, whole = right - margin;
  guint columns = list_columns (job, template->n_motifs);
  double beside = whole - columns * (LIST_WIDTH + 3);
  double y = margin + hw_hooping_template_head_height (template) - small_lines (job) * LINE;
  gboolean below = hoop_below (template);
  g_autofree char *title = g_strdup_printf (_ ("Hooping %u"), template->hooping + 1);
  g_autofree char *hoop = hoop_words (job, template);
  g_autofree char *centre = centre_words (job, job->plan->hoopings[template->hooping].centre);

  hw_ink (cr);
  hw_template_title (cr, margin, margin - 0.8, beside, title);
  hw_line (cr, margin, below ? y - TEXT - 0.4 : margin + TITLE - 0.6, below ? whole : beside, HW_TYPE_TEXT,
           FALSE, HW_LETTER_LEFT, hoop);
  hw_line (cr, margin, y, whole, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, centre);
  hw_ink_pale (cr);
  hw_line (
      cr, margin, y + LINE, whole, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT,
      _ ("Prick through at the crosses and the targets. Take this template off before the first stitch."));
  hw_ink (cr);
  if (job->options.mirrored)
    hw_line (cr, margin, y + 2 * LINE, whole, HW_TYPE_SMALL, TRUE, HW_LETTER_LEFT, hw_template_back_words ());
  draw_list (cr, right, margin, template, columns);
}
