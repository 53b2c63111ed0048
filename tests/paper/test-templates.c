/* A template in each look, its cross mark, its room for a sticker, and the one for the back of the cloth. */
#include <math.h>
#include <string.h>

#include "garden.h"
#include "printed.h"

#define MARGIN 10.0

static HwPaperOptions
options_for (HwPaperKind kind, const char *sheet)
{
  return (HwPaperOptions){
    .kind = kind, .sheet = hw_sheet_size_find (sheet), .sheet_margin = MARGIN, .tile_overlap = 10
  };
}

static void
assert_says (PopplerDocument *document, int page, const char *words)
{
  g_autofree char *text = printed_text (document, page);

  if (strstr (text, words) == NULL)
    g_error ("page %d does not say \"%s\": %s", page + 1, words, text);
}

/* A garden of one motif whose outline is n points. */
static HwPlan *
one_motif_plan (const HwPoint *points, guint n, guint n_stitches)
{
  HwPlan *bare = garden_plan_bare ();
  HwMotif *motif
      = garden_motif ("m1", "Lean-to", 32, 32, (HwPlacement){ { 200, 150 }, 0, 1, FALSE }, n_stitches);
  HwRing ring = { (HwPoint *)points, n };
  HwPlan *plan;

  if (points != NULL)
    {
      hw_outline_unref (motif->outline);
      motif->outline = hw_outline_new (&ring, 1);
    }
  g_ptr_array_add (bare->snapshot->motifs, motif);
  plan = hw_plan_new (bare->snapshot);
  hw_plan_unref (bare);
  return plan;
}

static int
level_at (cairo_surface_t *strip, double x, double y)
{
  const guint32 *row = (const guint32 *)(const void *)(cairo_image_surface_get_data (strip)
                                                       + (gsize)(y * PIXELS_PER_MM)
                                                             * cairo_image_surface_get_stride (strip));

  return (int)((row[(int)(x * PIXELS_PER_MM)] >> 8) & 255);
}

/* The middle of the window of an upright A4 sheet whose motif has no threads to make its head higher: the cross of a motif that is as
 * wide left as right of it and as high above as below, but for the arrow's room. */
#define CROSS_X 105.0
static double
cross_y (PopplerDocument *document, int page)
{
  cairo_surface_t *strip = printed_strip (document, page, CROSS_X - 25, 40, 50, 215);
  double from, to, found = 0, widest = 0;

  /* The axis line across ends beyond the outline on both sides; no other line is so long. */
  for (double y = 0; y < 215; y += 0.05)
    if (dark_extent (strip, y, 128, &from, &to) && to - from > widest + 0.01)
      {
        widest = to - from;
        found = y;
      }
  cairo_surface_destroy (strip);
  g_assert_cmpfloat (widest, >, 30);
  return 40 + found;
}

static PopplerDocument *
print_look (const HwPlan *plan, HwTemplateLook look)
{
  HwPaperOptions options = options_for (HW_PAPER_TEMPLATES, "A4");

  options.look = look;
  return printed_with (plan, &options, NULL);
}

static guint
count_pictures (PopplerDocument *document, int number)
{
  g_autoptr (PopplerPage) page = poppler_document_get_page (document, number);
  GList *pictures = poppler_page_get_image_mapping (page);
  guint n = g_list_length (pictures);

  poppler_page_free_image_mapping (pictures);
  return n;
}

/* How much of a patch within the motif, clear of its cross, is not white; and its darkest level. */
static double
cover (PopplerDocument *document, int *darkest)
{
  double y = cross_y (document, 0);
  cairo_surface_t *strip = printed_strip (document, 0, CROSS_X - 9, y - 9, 7, 7);
  guint inked = 0, all = 0;

  *darkest = 255;
  for (double py = 0.05; py < 7; py += 0.05)
    for (double px = 0.05; px < 7; px += 0.05)
      {
        int level = level_at (strip, px, py);

        inked += level < 250 ? 1 : 0;
        all++;
        *darkest = MIN (*darkest, level);
      }
  cairo_surface_destroy (strip);
  return (double)inked / all;
}

static void
test_each_look (void)
{
  g_autoptr (HwPlan) plan = one_motif_plan (NULL, 0, 4000);
  g_autoptr (PopplerDocument) pale = print_look (plan, HW_TEMPLATE_PALE);
  g_autoptr (PopplerDocument) outline = print_look (plan, HW_TEMPLATE_OUTLINE);
  g_autoptr (PopplerDocument) stitches = print_look (plan, HW_TEMPLATE_STITCHES);
  int darkest;

  g_assert_cmpuint (count_pictures (pale, 0), ==, 1);
  g_assert_cmpuint (count_pictures (outline, 0), ==, 0);
  g_assert_cmpuint (count_pictures (stitches, 0), ==, 0);

  g_assert_cmpfloat (cover (pale, &darkest), >, 0.9);
  g_assert_cmpint (darkest, >, 120);
  g_assert_cmpfloat (cover (outline, &darkest), ==, 0);
  g_assert_cmpfloat (cover (stitches, &darkest), >, 0.08);
  g_assert_cmpfloat (cover (stitches, &darkest), <, 0.8);
}

/* White thread on white paper must still show, and without colour. */
static void
test_stitches_of_pale_thread_are_seen (void)
{
  g_autoptr (HwPlan) plan = one_motif_plan (NULL, 0, 1200);
  HwMotif *motif = g_ptr_array_index (plan->snapshot->motifs, 0);
  g_autoptr (PopplerDocument) document = NULL;
  int darkest;

  for (guint i = 0; i < motif->n_threads; i++)
    motif->threads[i].colour = (HwColour){ 1, 1, 1 };
  document = print_look (plan, HW_TEMPLATE_STITCHES);
  g_assert_cmpfloat (cover (document, &darkest), >, 0.08);
  g_assert_cmpint (darkest, <, 190);
}

static void
test_without_stitches_the_artwork_is_shown (void)
{
  g_autoptr (HwPlan) plan = one_motif_plan (NULL, 0, 1200);
  HwMotif *motif = g_ptr_array_index (plan->snapshot->motifs, 0);
  g_autoptr (PopplerDocument) document = NULL;

  g_clear_pointer (&motif->needles, hw_needle_list_unref);
  document = print_look (plan, HW_TEMPLATE_STITCHES);
  g_assert_cmpuint (count_pictures (document, 0), ==, 1);
}

/* The width of what is dark around the axis line down, mm. */
static double
line_width (PopplerDocument *document, double y)
{
  cairo_surface_t *strip = printed_strip (document, 0, CROSS_X - 2, y - 0.1, 4, 0.2);
  double from = 0, to = 0;
  gboolean dark = dark_extent (strip, 0.1, 110, &from, &to);

  cairo_surface_destroy (strip);
  return dark ? to - from : 0;
}

/* Bold arms, and a fine middle for the needle. */
static void
test_the_cross_is_bold_with_an_open_middle (void)
{
  static const HwPoint wide[] = { { -40, -30 }, { 40, -30 }, { 40, 30 }, { -40, 30 } };
  g_autoptr (HwPlan) plan = one_motif_plan (wide, 4, 10);
  g_autoptr (PopplerDocument) document = print_look (plan, HW_TEMPLATE_OUTLINE);
  cairo_surface_t *strip = printed_strip (document, 0, CROSS_X - 50, 60, 100, 195);
  double from, to, y = 0;

  /* The arms across: where a row is dark over 80 mm and more it is the outline or the axis line; the cross is midway. */
  double first = 0, last = 0;
  for (double row = 0; row < 195; row += 0.05)
    if (dark_extent (strip, row, 128, &from, &to) && to - from > 79)
      {
        first = first > 0 ? first : row;
        last = row;
      }
  cairo_surface_destroy (strip);
  y = 60 + (first + last) / 2;

  g_assert_cmpfloat_with_epsilon (line_width (document, y + 8), 1.2, 0.11);
  g_assert_cmpfloat_with_epsilon (line_width (document, y - 6), 1.2, 0.11);
  g_assert_cmpfloat (line_width (document, y + 1.2), <, 0.35);
  g_assert_cmpfloat (line_width (document, y + 1.2), >, 0.1);
}

/* A ring beside the number, with nothing in it. */
static void
test_there_is_room_for_a_sticker (void)
{
  g_autoptr (HwPlan) plan = one_motif_plan (NULL, 0, 100);
  g_autoptr (PopplerDocument) document = print_look (plan, HW_TEMPLATE_PALE);
  cairo_surface_t *strip = printed_strip (document, 0, MARGIN + 18, MARGIN, 16, 16.6);
  guint ring = 0;

  for (double a = 0; a < 2 * G_PI; a += 0.02)
    {
      for (double r = 0; r < 7.3; r += 0.2)
        g_assert_cmpint (level_at (strip, 8 + r * cos (a), 8.3 + r * sin (a)), ==, 255);
      ring += level_at (strip, 8 + 7.7 * cos (a), 8.3 + 7.7 * sin (a)) < 200 ? 1 : 0;
    }
  g_assert_cmpuint (ring, >, 100);
  cairo_surface_destroy (strip);
  assert_says (document, 0, "sticker");
}

/* The sheet for the back is the other one's mirror image, in words that read. */
static void
test_for_the_back_the_motif_is_mirrored (void)
{
  static const HwPoint lean[] = { { -16, -16 }, { 4, -16 }, { 16, 16 }, { -16, 16 } };
  g_autoptr (HwPlan) plan = one_motif_plan (lean, 4, 60);
  HwPaperOptions options = options_for (HW_PAPER_TEMPLATES, "A4");
  g_autoptr (PopplerDocument) front = NULL;
  g_autoptr (PopplerDocument) back = NULL;
  cairo_surface_t *one, *other;
  double one_from, one_to, other_from, other_to, y_front, y_back;

  options.look = HW_TEMPLATE_STITCHES;
  front = printed_with (plan, &options, NULL);
  options.mirrored = TRUE;
  back = printed_with (plan, &options, NULL);
  y_front = cross_y (front, 0);
  y_back = cross_y (back, 0);
  one = printed_strip (front, 0, CROSS_X - 25, y_front - 15, 50, 30);
  other = printed_strip (back, 0, CROSS_X - 25, y_back - 15, 50, 30);
  for (double y = 1; y < 29; y += 1.5)
    {
      g_assert_true (dark_extent (one, y, 110, &one_from, &one_to));
      g_assert_true (dark_extent (other, y, 110, &other_from, &other_to));
      g_assert_cmpfloat_with_epsilon (one_from, 50 - other_to, 0.16);
      g_assert_cmpfloat_with_epsilon (one_to, 50 - other_from, 0.16);
    }
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
  assert_says (back, 0, "For the back of the cloth");
  assert_says (back, 0, "Lean-to");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/templates/each-look", test_each_look);
  g_test_add_func ("/templates/stitches-of-pale-thread-are-seen", test_stitches_of_pale_thread_are_seen);
  g_test_add_func ("/templates/without-stitches-the-artwork-is-shown",
                   test_without_stitches_the_artwork_is_shown);
  g_test_add_func ("/templates/the-cross-is-bold-with-an-open-middle",
                   test_the_cross_is_bold_with_an_open_middle);
  g_test_add_func ("/templates/there-is-room-for-a-sticker", test_there_is_room_for_a_sticker);
  g_test_add_func ("/templates/for-the-back-the-motif-is-mirrored", test_for_the_back_the_motif_is_mirrored);

  return g_test_run ();
}
