/* Letters: measured as drawn, alike at every size, figures all of one width. */
#include "drawing/lettering.h"

#include "drawn.h"

static cairo_t *
sheet (void)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 400, 200);
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  return cr;
}

static double
width_of (cairo_t *cr, double size, const char *text)
{
  HwLettering how = { .size = size };
  double width;

  hw_letter_measure (cr, &how, text, &width, NULL);
  return width;
}

static void
figures_are_all_of_one_width (void)
{
  cairo_t *cr = sheet ();
  double width = width_of (cr, 20, "000.0");

  for (char figure = '1'; figure <= '9'; figure++)
    {
      char text[] = { figure, figure, figure, '.', figure, '\0' };

      g_assert_cmpfloat_with_epsilon (width_of (cr, 20, text), width, 0.01);
    }
  g_assert_cmpfloat (width, >, 20);
  cairo_destroy (cr);
}

static void
width_goes_with_size_at_every_zoom (void)
{
  cairo_t *cr = sheet ();
  double width = width_of (cr, 100, "Fig branch 12.5 mm");

  g_assert_cmpfloat_with_epsilon (width_of (cr, 3, "Fig branch 12.5 mm"), width * 0.03, width * 0.0005);
  cairo_scale (cr, 37, 37);
  g_assert_cmpfloat_with_epsilon (width_of (cr, 3, "Fig branch 12.5 mm"), width * 0.03, width * 0.0005);
  cairo_destroy (cr);
}

static void
long_text_wraps_or_is_shortened (void)
{
  const char *text = "Bring the needle to the mark while the template is still on the cloth.";
  HwLettering how = { .size = 12 };
  cairo_t *cr = sheet ();
  double line, wrapped, shortened, width;

  hw_letter_measure (cr, &how, text, &width, &line);
  how.width = width / 3;
  hw_letter_measure (cr, &how, text, &width, &wrapped);
  g_assert_cmpfloat (wrapped, >, 2.5 * line);
  g_assert_cmpfloat (width, <=, how.width + 0.01);
  how.ellipsize = TRUE;
  hw_letter_measure (cr, &how, text, &width, &shortened);
  g_assert_cmpfloat_with_epsilon (shortened, line, 0.01);
  g_assert_cmpfloat (width, <=, how.width + 0.01);
  cairo_destroy (cr);
}

/* The leftmost, rightmost, topmost and lowest inked pixel. */
static void
ink_box (cairo_t *cr, int box[4])
{
  cairo_surface_t *surface = cairo_get_target (cr);

  cairo_surface_flush (surface);
  box[0] = box[2] = G_MAXINT;
  box[1] = box[3] = -1;
  for (int y = 0; y < 200; y++)
    for (int x = 0; x < 400; x++)
      if (drawn_at (surface, x, y).alpha > 100)
        {
          box[0] = MIN (box[0], x);
          box[1] = MAX (box[1], x);
          box[2] = MIN (box[2], y);
          box[3] = MAX (box[3], y);
        }
}

static void
stands_where_it_is_put (void)
{
  static const double shares[] = { 0, 0.5, 1 };

  for (int align = HW_LETTER_LEFT; align <= HW_LETTER_RIGHT; align++)
    for (guint wide = 0; wide < 2; wide++)
      {
        HwLettering how = { .size = 30, .align = align, .width = wide ? 150 : 0, .bold = wide };
        cairo_t *cr = sheet ();
        double width, height, from;
        int box[4];

        cairo_set_source_rgb (cr, 0, 0, 0);
        hw_letter_measure (cr, &how, "HIH", &width, &height);
        g_assert_cmpfloat_with_epsilon (hw_letter (cr, 200, 60, &how, "HIH"), height, 1e-6);
        from = 200 - shares[align] * width;
        ink_box (cr, box);
        g_assert_cmpint (box[0], >=, from - 1);
        g_assert_cmpint (box[0], <=, from + 6);
        g_assert_cmpint (box[1], <=, from + width + 1);
        g_assert_cmpint (box[1], >=, from + width - 6);
        g_assert_cmpint (box[2], >=, 60);
        g_assert_cmpint (box[3], <=, 60 + height);
        cairo_destroy (cr);
      }
}

/* A typeface that has no Han characters is helped out by another with taller lines: the letters must stay where they are without them. */
static void
both_scripts_stand_on_one_line (void)
{
  HwLettering how = { .size = 40 };
  cairo_t *alone = sheet (), *beside = sheet ();
  int letter[4], row[4];
  double width, latin, both;

  hw_letter_measure (alone, &how, "H", &width, &latin);
  hw_letter (alone, 20, 50, &how, "H");
  ink_box (alone, letter);
  cairo_rectangle (beside, 0, 0, 20 + width, 200);
  cairo_clip (beside);
  both = hw_letter (beside, 20, 50, &how, "H\346\236\240\345\274\265\343\202\212");
  ink_box (beside, row);
  g_assert_cmpint (row[2], ==, letter[2]);
  g_assert_cmpint (row[3], ==, letter[3]);
  g_assert_cmpfloat_with_epsilon (both, latin, 0.01);
  cairo_destroy (alone);
  cairo_destroy (beside);
}

/* Japanese sets no spaces between words: its lines break between characters. */
static void
text_without_spaces_wraps (void)
{
  const char *text
      = "\345\236\213\347\264\231\343\202\222\343\201\231\343\201\271\343\201\246\345\244\226\343\201\227"
        "\343\201\246\343\201\217\343\201\240\343\201\225\343\201\204";
  HwLettering how = { .size = 12 };
  cairo_t *cr = sheet ();
  double line, wrapped, width;

  hw_letter_measure (cr, &how, text, &width, &line);
  how.width = width / 3;
  hw_letter_measure (cr, &how, text, &width, &wrapped);
  g_assert_cmpfloat (wrapped, >, 2.5 * line);
  g_assert_cmpfloat (width, <=, how.width + 0.01);
  cairo_destroy (cr);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/lettering/figures-are-all-of-one-width", figures_are_all_of_one_width);
  g_test_add_func ("/drawing/lettering/width-goes-with-size-at-every-zoom",
                   width_goes_with_size_at_every_zoom);
  g_test_add_func ("/drawing/lettering/long-text-wraps-or-is-shortened", long_text_wraps_or_is_shortened);
  g_test_add_func ("/drawing/lettering/stands-where-it-is-put", stands_where_it_is_put);
  g_test_add_func ("/drawing/lettering/both-scripts-stand-on-one-line", both_scripts_stand_on_one_line);
  g_test_add_func ("/drawing/lettering/text-without-spaces-wraps", text_without_spaces_wraps);
  return g_test_run ();
}
