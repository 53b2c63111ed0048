/* Small templates together on a sheet. Each is a piece of paper with all it needs when it is cut out: number, name, size, hooping, cross
 * mark and arrow; along its sides runs the line to cut along, which neighbours share. */
#include "nest-pages.h"

#include "../geometry/language.h"
#include "../drawing/lettering.h"
#include "nest.h"
#include "page-frame.h"
#include "template-head.h"
#include "template-pages.h"

#define GAP 4.0         /* white above the foot */
#define PAD 2.0         /* white within the cut line */
#define RING 4.6        /* radius of the number's ring */
#define SPACE 2.4       /* from ring to words, from words to motif */
#define LEAST_ROOM 40.0 /* mm: a window smaller than this takes no piece */
#define NAME_AT_MOST 52.0
#define BESIDE 35.0 /* width of words that stand beside the motif */
#define LINE 3.7    /* from line to line in the small type */
#define LINE_NAME 4.7

/* One template with its words, as it is cut out. */
typedef struct
{
  guint index;
  HwTemplateMotif *motif;
  HwBox extent;
  char *size, *hooping; /* what its words say */
  gboolean beside;      /* the words stand at the motif's left; else above it */
  double words;         /* their width beside it, or their height above it */
  HwNestSize paper;
} HwPiece;

typedef struct
{
  HwPiece *piece; /* owned */
  double x, y;    /* of its top left corner in the window */
  gboolean turned;
} HwLaid;

typedef struct
{
  double width, height; /* of the sheet */
  GArray *laid;         /* HwLaid */
  HwNestedPiece *places;
} HwNestSheet;

struct _HwNestPages
{
  guint n_motifs;
  HwNestSheet **sheet_of; /* by motif; NULL: its own page */
  GPtrArray *sheets;      /* those not handed to a page yet */
};

static void
piece_free (HwPiece *piece)
{
  hw_template_motif_free (piece->motif);
  g_free (piece->size);
  g_free (piece->hooping);
  g_free (piece);
}

static void
sheet_free (gpointer data)
{
  HwNestSheet *sheet = data;

  for (guint i = 0; i < sheet->laid->len; i++)
    piece_free (g_array_index (sheet->laid, HwLaid, i).piece);
  g_array_unref (sheet->laid);
  g_free (sheet->places);
  g_free (sheet);
}

/* The words for the back need their room too. */
static const char *
back_words (const HwPrintJob *job)
{
  return job->options.mirrored ? _ ("For the back: mirrored.") : NULL;
}

static double
natural_width (cairo_t *cr, double size, gboolean bold, const char *text)
{
  HwLettering how = { .size = size, .bold = bold };
  double width = 0;

  hw_letter_measure (cr, &how, text, &width, NULL);
  return width;
}

static double
wrapped_height (cairo_t *cr, double size, gboolean bold, const char *text)
{
  HwLettering how = { .size = size, .bold = bold, .width = BESIDE };
  double height = 0;

  hw_letter_measure (cr, &how, text, NULL, &height);
  return height;
}

/* Above the motif: ring at the left, lines beside it. */
static HwNestSize
paper_above (const HwPrintJob *job, const HwPiece *piece, cairo_t *measure, double *words)
{
  const char *back = back_words (job);
  double lines = natural_width (measure, HW_TYPE_SMALL, FALSE, piece->size);
  double wide = piece->extent.x1 - piece->extent.x0;

  lines = MAX (lines, natural_width (measure, HW_TYPE_SMALL, FALSE, piece->hooping));
  lines = MAX (lines,
               MIN (natural_width (measure, HW_TYPE_TEXT, TRUE, piece->motif->motif->name), NAME_AT_MOST));
  if (back != NULL)
    lines = MAX (lines, natural_width (measure, HW_TYPE_SMALL, TRUE, back));
  *words = LINE_NAME + (back != NULL ? 3 : 2) * LINE + 1;

  return (HwNestSize){ MAX (wide, 2 * RING + SPACE + lines + 1) + 2 * PAD,
                       *words + piece->extent.y1 - piece->extent.y0 + 2 * PAD };
}

/* Beside the motif: ring above, wrapped lines below it. */
static HwNestSize
paper_beside (const HwPrintJob *job, const HwPiece *piece, cairo_t *measure, double *words)
{
  const char *back = back_words (job);
  double lines = 2 * RING + 1.5 + wrapped_height (measure, HW_TYPE_TEXT, TRUE, piece->motif->motif->name)
                 + wrapped_height (measure, HW_TYPE_SMALL, FALSE, piece->size)
                 + wrapped_height (measure, HW_TYPE_SMALL, FALSE, piece->hooping);
  double high = piece->extent.y1 - piece->extent.y0;

  if (back != NULL)
    lines += wrapped_height (measure, HW_TYPE_SMALL, TRUE, back);
  *words = BESIDE + SPACE;

  return (HwNestSize){ *words + piece->extent.x1 - piece->extent.x0 + 2 * PAD, MAX (high, lines) + 2 * PAD };
}

static HwPiece *
piece_new (const HwPrintJob *job, guint index, double pixels_per_mm, cairo_t *measure)
{
  HwPiece *piece = g_new0 (HwPiece, 1);
  HwNestSize above, beside;
  double words_above, words_beside;

  piece->index = index;
  piece->motif = hw_template_motif_new (job, index, pixels_per_mm);
  piece->extent = hw_template_motif_extent (piece->motif);
  piece->size = hw_template_size_words (job, piece->motif);
  piece->hooping = hw_template_hooping_words (job, index);
  above = paper_above (job, piece, measure, &words_above);
  beside = paper_beside (job, piece, measure, &words_beside);
  piece->beside = beside.width * beside.height < above.width * above.height;
  piece->words = piece->beside ? words_beside : words_above;
  piece->paper = piece->beside ? beside : above;

  return piece;
}

static void
draw_words_above (cairo_t *cr, const HwPrintJob *job, const HwPiece *piece)
{
  const char *back = back_words (job);
  double x = PAD + 2 * RING + SPACE, y = PAD + LINE_NAME;
  double width = piece->paper.width - x - PAD;
  double name = natural_width (cr, HW_TYPE_TEXT, TRUE, piece->motif->motif->name);
  double lines = MAX (name, natural_width (cr, HW_TYPE_SMALL, FALSE, piece->size));

  lines = MAX (lines, natural_width (cr, HW_TYPE_SMALL, FALSE, piece->hooping));
  hw_draw_ring_number (cr, PAD + RING + 0.3, PAD + RING + 0.5, RING - 0.3, 4.6, piece->motif->number);
  if (lines + 2 * RING + SPACE <= width)
    hw_draw_sticker_place (cr, piece->paper.width - PAD - RING, PAD + RING + 0.5, RING - 0.3);
  hw_ink (cr);
  hw_line (cr, x, PAD - 0.4, width, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT, piece->motif->motif->name);
  hw_line (cr, x, y, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, piece->size);
  hw_line (cr, x, y + LINE, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, piece->hooping);
  if (back != NULL)
    hw_line (cr, x, y + 2 * LINE, width, HW_TYPE_SMALL, TRUE, HW_LETTER_LEFT, back);
}

static void
draw_words_beside (cairo_t *cr, const HwPrintJob *job, const HwPiece *piece)
{
  const char *back = back_words (job);
  HwLettering name = { .size = HW_TYPE_TEXT, .bold = TRUE, .width = BESIDE };
  HwLettering plain = { .size = HW_TYPE_SMALL, .width = BESIDE };
  HwLettering strong = { .size = HW_TYPE_SMALL, .bold = TRUE, .width = BESIDE };
  double y = PAD + 2 * RING + 1.5;

  hw_draw_ring_number (cr, PAD + RING + 0.3, PAD + RING + 0.5, RING - 0.3, 4.6, piece->motif->number);
  hw_draw_sticker_place (cr, PAD + 3 * RING + SPACE, PAD + RING + 0.5, RING - 0.3);
  hw_ink (cr);
  y += hw_letter (cr, PAD, y, &name, piece->motif->motif->name);
  y += hw_letter (cr, PAD, y, &plain, piece->size);
  y += hw_letter (cr, PAD, y, &plain, piece->hooping);
  if (back != NULL)
    hw_letter (cr, PAD, y, &strong, back);
}

/* Upright, from its own top left corner; the motif stands in the middle of what the words leave. */
static void
draw_piece (cairo_t *cr, const HwPrintJob *job, const HwPiece *piece)
{
  double left = PAD + (piece->beside ? piece->words : 0), top = PAD + (piece->beside ? 0 : piece->words);
  HwBox e = piece->extent;

  if (piece->beside)
    draw_words_beside (cr, job, piece);
  else
    draw_words_above (cr, job, piece);
  cairo_save (cr);
  cairo_translate (cr, (left + piece->paper.width - PAD) / 2 - (e.x0 + e.x1) / 2,
                   (top + piece->paper.height - PAD) / 2 - (e.y0 + e.y1) / 2);
  hw_template_motif_draw (cr, piece->motif);
  hw_template_motif_forget (piece->motif);
  cairo_restore (cr);
}

static void
draw_cut_line (cairo_t *cr, HwBox box)
{
  static const double dashes[] = { 3.0, 1.5 };

  cairo_save (cr);
  cairo_rectangle (cr, box.x0, box.y0, box.x1 - box.x0, box.y1 - box.y0);
  hw_ink_pale (cr);
  cairo_set_line_width (cr, HW_HAIRLINE);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static char *
sheet_words (const HwNestSheet *sheet)
{
  g_autoptr (GString) numbers = g_string_new (NULL);

  for (guint i = 0; i < sheet->laid->len; i++)
    g_string_append_printf (numbers, "%s%u", i > 0 ? _ (", ") : "",
                            g_array_index (sheet->laid, HwLaid, i).piece->motif->number);

  /* Translators: the order numbers of the templates on a sheet */
  return g_strdup_printf (_ ("Templates %s: cut along the dashed lines"), numbers->str);
}

static void
draw_nest_page (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwNestSheet *sheet = page->data;
  double margin = job->options.sheet_margin;
  g_autofree char *what = sheet_words (sheet);

  for (guint i = 0; i < sheet->laid->len; i++)
    {
      const HwLaid *laid = &g_array_index (sheet->laid, HwLaid, i);

      draw_cut_line (cr, sheet->places[i].box);
      cairo_save (cr);
      cairo_translate (cr, margin + laid->x, margin + laid->y);
      if (laid->turned)
        {
          cairo_translate (cr, 0, laid->piece->paper.width);
          cairo_rotate (cr, -G_PI / 2);
        }
      draw_piece (cr, job, laid->piece);
      cairo_restore (cr);
    }
  hw_page_footer (job, page, cr, margin, margin, 0, what);
}

static HwNestWindows
windows_of (const HwPrintJob *job)
{
  double rest = 2 * job->options.sheet_margin, foot = GAP + HW_FOOTER_HEIGHT;
  double narrow = MIN (job->sheet.width, job->sheet.height), wide = MAX (job->sheet.width, job->sheet.height);

  return (HwNestWindows){ { narrow - rest, wide - rest - foot }, { wide - rest, narrow - rest - foot } };
}

static void
sheet_add (HwNestSheet *sheet, double margin, HwPiece *piece, const HwNestPlace *place)
{
  HwLaid laid = { piece, place->x, place->y, place->turned };
  double x = margin + place->x, y = margin + place->y;
  double across = place->turned ? piece->paper.height : piece->paper.width;
  double down = place->turned ? piece->paper.width : piece->paper.height;

  g_array_append_val (sheet->laid, laid);
  sheet->places = g_renew (HwNestedPiece, sheet->places, sheet->laid->len);
  sheet->places[sheet->laid->len - 1]
      = (HwNestedPiece){ piece->index, { x, y, x + across, y + down }, place->turned };
}

static HwNestSheet *
sheet_new (const HwPrintJob *job, gboolean lying)
{
  HwNestSheet *sheet = g_new0 (HwNestSheet, 1);
  double narrow = MIN (job->sheet.width, job->sheet.height), wide = MAX (job->sheet.width, job->sheet.height);

  sheet->width = lying ? wide : narrow;
  sheet->height = lying ? narrow : wide;
  sheet->laid = g_array_new (FALSE, FALSE, sizeof (HwLaid));

  return sheet;
}

/* A template alone on a sheet has its own page instead, with its threads, unless that would take more sheets. */
static gboolean
better_alone (const HwPrintJob *job, const HwNestSheet *sheet)
{
  return sheet->laid->len == 1 && hw_template_sheets (job, sheet->places[0].motif) == 1;
}

static void
take_sheets (HwNestPages *pages, const HwPrintJob *job, const HwNest *nest, GPtrArray *pieces)
{
  HwNestSheet **sheets = g_new0 (HwNestSheet *, nest->n_sheets);

  for (guint i = 0; i < pieces->len; i++)
    {
      guint number = nest->places[i].sheet;

      if (sheets[number] == NULL)
        sheets[number] = sheet_new (job, nest->lying[number]);
      sheet_add (sheets[number], job->options.sheet_margin, g_ptr_array_index (pieces, i), &nest->places[i]);
    }
  for (guint s = 0; s < nest->n_sheets; s++)
    if (better_alone (job, sheets[s]))
      sheet_free (sheets[s]);
    else
      {
        g_ptr_array_add (pages->sheets, sheets[s]);
        for (guint i = 0; i < sheets[s]->laid->len; i++)
          pages->sheet_of[sheets[s]->places[i].motif] = sheets[s];
      }
  g_free (sheets);
}

HwNestPages *
hw_nest_pages_new (const HwPrintJob *job, double pixels_per_mm)
{
  HwNestPages *pages = g_new0 (HwNestPages, 1);
  HwNestWindows windows = windows_of (job);
  cairo_surface_t *nowhere = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
  cairo_t *measure = cairo_create (nowhere);
  g_autoptr (GPtrArray) pieces = g_ptr_array_new ();
  g_autoptr (GArray) papers = g_array_new (FALSE, FALSE, sizeof (HwNestSize));
  g_autoptr (HwNest) nest = NULL;
  gboolean room = MIN (windows.upright.height, windows.upright.width) >= LEAST_ROOM
                  && MIN (windows.lying.height, windows.lying.width) >= LEAST_ROOM;

  pages->n_motifs = job->plan->snapshot->motifs->len;
  pages->sheet_of = g_new0 (HwNestSheet *, pages->n_motifs);
  pages->sheets = g_ptr_array_new_with_free_func (sheet_free);
  for (guint i = 0; i < pages->n_motifs && room; i++)
    {
      HwPiece *piece;

      if (!hw_print_job_takes_motif (job, i))
        continue;
      piece = piece_new (job, i, pixels_per_mm, measure);
      if (hw_nest_fits (piece->paper, &windows))
        {
          g_ptr_array_add (pieces, piece);
          g_array_append_val (papers, piece->paper);
        }
      else
        piece_free (piece);
    }
  nest = hw_nest_new ((const HwNestSize *)(const void *)papers->data, papers->len, &windows);
  take_sheets (pages, job, nest, pieces);
  cairo_destroy (measure);
  cairo_surface_destroy (nowhere);

  return pages;
}

void
hw_nest_pages_free (HwNestPages *pages)
{
  if (pages == NULL)
    return;

  g_ptr_array_unref (pages->sheets);
  g_free (pages->sheet_of);
  g_free (pages);
}

gboolean
hw_nest_pages_takes (const HwNestPages *pages, guint motif)
{
  return pages->sheet_of[motif] != NULL;
}

static char *
sheet_name (const HwNestSheet *sheet)
{
  GString *name = g_string_new (NULL);

  for (guint i = 0; i < sheet->laid->len; i++)
    {
      const HwTemplateMotif *motif = g_array_index (sheet->laid, HwLaid, i).piece->motif;

      g_string_append_printf (name, "%s%u  %s", i > 0 ? " · " : "", motif->number, motif->motif->name);
    }

  return g_string_free (name, FALSE);
}

void
hw_nest_pages_add (HwNestPages *pages, HwPrintJob *job, guint motif)
{
  HwNestSheet *sheet = pages->sheet_of[motif];
  HwPage *page;
  guint index;

  if (!g_ptr_array_find (pages->sheets, sheet, &index))
    return;

  page = hw_print_job_add_page (job, sheet->width, sheet->height);
  page->subject = motif;
  page->name = sheet_name (sheet);
  page->draw = draw_nest_page;
  page->data = g_ptr_array_steal_index (pages->sheets, index);
  page->free_data = sheet_free;
}

const HwNestedPiece *
hw_nest_page_pieces (const HwPage *page, guint *n_pieces)
{
  const HwNestSheet *sheet = page->data;

  if (page->draw != draw_nest_page)
    return NULL;

  *n_pieces = sheet->laid->len;
  return sheet->places;
}
