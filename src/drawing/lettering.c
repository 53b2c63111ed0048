/* Words on cloth and paper, set with Pango in one typeface: Lato where it is installed, else the desktop's
 * sans. Figures are all of one width, so that columns of them stand under each other. */
#include "lettering.h"

#include "../geometry/language.h"

static PangoLayout *
lettering_layout (cairo_t *cr, const HwLettering *how, const char *text)
{
  PangoLayout *layout = pango_cairo_create_layout (cr);
  PangoFontDescription *font = pango_font_description_from_string ("Lato, Sans");
  PangoAttrList *attributes = pango_attr_list_new ();
  cairo_font_options_t *options = cairo_font_options_create ();
  static const PangoAlignment alignments[] = { PANGO_ALIGN_LEFT, PANGO_ALIGN_CENTER, PANGO_ALIGN_RIGHT };
  const HwLanguage *language = hw_language_now ();

  /* Han characters are drawn as the language writes them: the same one has another shape in Japanese than in Chinese. */
  if (language != NULL)
    pango_context_set_language (pango_layout_get_context (layout),
                                pango_language_from_string (hw_language_code (language)));

  /* Letters must take the same room at every zoom and on paper, so nothing is fitted to pixels. */
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  pango_cairo_context_set_font_options (pango_layout_get_context (layout), options);
  cairo_font_options_destroy (options);
  pango_context_set_round_glyph_positions (pango_layout_get_context (layout), FALSE);

  pango_font_description_set_absolute_size (font, how->size * PANGO_SCALE);
  if (how->bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  if (how->italic)
    pango_font_description_set_style (font, PANGO_STYLE_ITALIC);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);

  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1, lnum=1"));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);

  pango_layout_set_alignment (layout, alignments[how->align]);
  if (how->width > 0)
    {
      pango_layout_set_width (layout, how->width * PANGO_SCALE);
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
      if (how->ellipsize)
        {
          pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
          pango_layout_set_single_paragraph_mode (layout, TRUE);
          pango_layout_set_height (layout, -1);
        }
    }
  pango_layout_set_text (layout, text, -1);
  return layout;
}

/* Where the text of a layout stands, user units. */
typedef struct
{
  double left, width;
  double top;    /* of the layout, that much above the top of the text */
  double height; /* as the typeface itself would take it */
} Standing;

/* Whether every letter is surely the typeface's own: Latin, Greek and Cyrillic, with their punctuation. */
static gboolean
is_of_typeface (const char *text)
{
  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar c = g_utf8_get_char (text);

      if (c >= 0x530 && (c < 0x2000 || c > 0x206f))
        return FALSE;
    }
  return TRUE;
}

/* What a stand-in's letters, such as Han characters, take above the first line beyond the typeface's own is left out, and below a single one: a row of
 * both scripts would have two baselines. Between the lines of a paragraph and below it that space stays. */
static Standing
standing_of (PangoLayout *layout)
{
  PangoRectangle box, own_box;
  Standing standing;

  pango_layout_get_extents (layout, NULL, &box);
  standing = (Standing){ (double)box.x / PANGO_SCALE, (double)box.width / PANGO_SCALE, 0,
                         (double)box.height / PANGO_SCALE };
  if (!is_of_typeface (pango_layout_get_text (layout)))
    {
      g_autoptr (PangoLayout) own = pango_layout_copy (layout);
      int above, below;

      pango_layout_set_text (own, "x", -1);
      pango_layout_get_extents (own, NULL, &own_box);
      above = pango_layout_get_baseline (layout) - pango_layout_get_baseline (own);
      below = pango_layout_get_line_count (layout) > 1 ? 0 : box.height - above - own_box.height;
      standing.top = (double)above / PANGO_SCALE;
      standing.height -= (double)(above + below) / PANGO_SCALE;
    }
  return standing;
}

double
hw_letter (cairo_t *cr, double x, double y, const HwLettering *how, const char *text)
{
  g_autoptr (PangoLayout) layout = NULL;
  Standing standing;
  double width;

  g_return_val_if_fail (cr != NULL && how != NULL && text != NULL, 0);
  g_return_val_if_fail (how->size > 0, 0);

  layout = lettering_layout (cr, how, text);
  standing = standing_of (layout);
  width = how->width > 0 ? how->width : standing.width;
  if (how->align == HW_LETTER_CENTRE)
    x -= width / 2;
  else if (how->align == HW_LETTER_RIGHT)
    x -= width;
  cairo_save (cr);
  cairo_move_to (cr, x - (how->width > 0 ? 0 : standing.left), y - standing.top);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
  cairo_new_path (cr);
  return standing.height;
}

void
hw_letter_measure (cairo_t *cr, const HwLettering *how, const char *text, double *width, double *height)
{
  g_autoptr (PangoLayout) layout = NULL;
  Standing standing;

  g_return_if_fail (cr != NULL && how != NULL && text != NULL);
  g_return_if_fail (how->size > 0);

  layout = lettering_layout (cr, how, text);
  standing = standing_of (layout);
  if (width != NULL)
    *width = standing.width;
  if (height != NULL)
    *height = standing.height;
}
