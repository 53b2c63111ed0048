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

double
hw_letter (cairo_t *cr, double x, double y, const HwLettering *how, const char *text)
{
  g_autoptr (PangoLayout) layout = NULL;
  PangoRectangle box;
  double width;

  g_return_val_if_fail (cr != NULL && how != NULL && text != NULL, 0);
  g_return_val_if_fail (how->size > 0, 0);

  layout = lettering_layout (cr, how, text);
  pango_layout_get_extents (layout, NULL, &box);
  width = how->width > 0 ? how->width : (double)box.width / PANGO_SCALE;
  if (how->align == HW_LETTER_CENTRE)
    x -= width / 2;
  else if (how->align == HW_LETTER_RIGHT)
    x -= width;
  cairo_save (cr);
  cairo_move_to (cr, x - (how->width > 0 ? 0 : (double)box.x / PANGO_SCALE), y);
  pango_cairo_show_layout (cr, layout);
  cairo_restore (cr);
  cairo_new_path (cr);
  return (double)box.height / PANGO_SCALE;
}

void
hw_letter_measure (cairo_t *cr, const HwLettering *how, const char *text, double *width, double *height)
{
  g_autoptr (PangoLayout) layout = NULL;
  PangoRectangle box;

  g_return_if_fail (cr != NULL && how != NULL && text != NULL);
  g_return_if_fail (how->size > 0);

  layout = lettering_layout (cr, how, text);
  pango_layout_get_extents (layout, NULL, &box);
  if (width != NULL)
    *width = (double)box.width / PANGO_SCALE;
  if (height != NULL)
    *height = (double)box.height / PANGO_SCALE;
}
