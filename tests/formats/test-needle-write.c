/* Needle lists written: CSV that reads back alike, SVG that other readers understand. */
#include <glib/gstdio.h>
#include <librsvg/rsvg.h>
#include <math.h>

#include "../planning/needled-motifs.h"

#include "formats/needle-csv.h"
#include "formats/needle-write.h"

/* Two motifs in one hooping of a field of 100 by 60 mm, with names that a file must take care with. */
static HwHoopingNeedles *
two_motifs (void)
{
  g_autoptr (HwSnapshot) scene = little_scene (700, 540);
  g_autoptr (HwPlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  HwHoopingNeedles *needles;

  g_free (scene->name);
  scene->name = g_strdup ("Quay <1> & \"tide\"");
  little_hoop (scene, 100, 60, 2, HW_TURN_ANY);
  needled_motif (scene, "Rope & net", 10, 0, "sea, \"deep\":#112233:2; =sand:#ddccaa:1",
                 "j 0 0 a, s 1.2345 -2 a, s 3 4 a, s 5 6 b");
  needled_motif (scene, "Gull\001", -20, 5, "=sand:#ddccaa:2", "j 0 0 b, s 1 0 b, t 1 0 b, j 4 0 b, s 5 0 b");
  plan = one_hooping (scene, 0, 0, 0);
  needles = hw_hooping_needles_new (plan, 0, NULL, &error);
  g_assert_no_error (error);
  return needles;
}

/* RFC 4180, section 2: lines end with CRLF (1), the first may be a header (3), every line has as many fields (4), fields with commas or quotes are quoted
 * (6) and their quotes doubled (7). */
static void
csv_follows_the_standard (void)
{
  g_autoptr (HwHoopingNeedles) needles = two_motifs ();
  g_autofree char *text = hw_needle_csv_text (needles->needles);

  g_assert_cmpstr (text, ==,
                   "x_mm,y_mm,action,thread\r\n"
                   "0,0,jump,\"sea, \"\"deep\"\"\"\r\n"
                   "10,0,jump,\"sea, \"\"deep\"\"\"\r\n"
                   "11.235,-2,stitch,\"sea, \"\"deep\"\"\"\r\n"
                   "13,4,stitch,\"sea, \"\"deep\"\"\"\r\n"
                   "13,4,trim,\"sea, \"\"deep\"\"\"\r\n"
                   "13,4,colour,=sand\r\n"
                   "15,6,stitch,=sand\r\n"
                   "15,6,trim,=sand\r\n"
                   "-20,5,jump,=sand\r\n"
                   "-19,5,stitch,=sand\r\n"
                   "-19,5,trim,=sand\r\n"
                   "-16,5,jump,=sand\r\n"
                   "-15,5,stitch,=sand\r\n"
                   "-15,5,trim,=sand\r\n"
                   "0,0,jump,=sand\r\n"
                   "0,0,end,=sand\r\n");
}

static HwNeedleList *
random_list (void)
{
  guint n = (guint)g_test_rand_int_range (5, 400);
  HwNeedlePoint *points = g_new0 (HwNeedlePoint, n);
  const char *const names[] = { "moss", " spaced ", "two\r\nlines", "\"quoted\"", "a,b", NULL };

  for (guint i = 0; i < n; i++)
    points[i] = (HwNeedlePoint){ (float)(g_test_rand_int_range (-250000, 250000) / 1000.0),
                                 (float)(g_test_rand_int_range (-250000, 250000) / 1000.0),
                                 (guint16)(i < 5 ? i : (guint)g_test_rand_int_range (0, 5)),
                                 (guint8)g_test_rand_int_range (0, HW_NEEDLE_END) };
  points[0].action = HW_NEEDLE_STITCH;
  return hw_needle_list_new (points, n, g_strdupv ((char **)names));
}

static void
what_is_written_reads_back_alike (void)
{
  for (guint round = 0; round < 40; round++)
    {
      g_autoptr (HwNeedleList) list = random_list (), again = NULL;
      g_autofree char *text = hw_needle_csv_text (list);
      g_autoptr (GError) error = NULL;

      again = hw_needle_csv_parse (text, strlen (text), "again.csv", &error);
      g_assert_no_error (error);
      g_assert_true (hw_needle_list_equal (list, again));
    }
}

/* --- SVG */

typedef struct
{
  GPtrArray *groups, *titles, *motifs, *strokes, *lines; /* as they come */
  gboolean in_title;
} Seen;

static void
element_starts (GMarkupParseContext *context,
                const char *element,
                const char **names,
                const char **values,
                gpointer data,
                GError **error)
{
  Seen *seen = data;

  seen->in_title = g_str_equal (element, "title");
  for (guint i = 0; names[i] != NULL; i++)
    if (g_str_equal (element, "g") && g_str_equal (names[i], "id"))
      g_ptr_array_add (seen->groups, g_strdup (values[i]));
    else if (g_str_equal (names[i], "data-motif"))
      g_ptr_array_add (seen->motifs, g_strdup (values[i]));
    else if (g_str_equal (element, "path") && g_str_equal (names[i], "stroke"))
      g_ptr_array_add (seen->strokes, g_strdup (values[i]));
    else if (g_str_equal (element, "path") && g_str_equal (names[i], "d"))
      g_ptr_array_add (seen->lines, g_strdup (values[i]));
}

static void
element_ends (GMarkupParseContext *context, const char *element, gpointer data, GError **error)
{
  ((Seen *)data)->in_title = FALSE;
}

static void
words_come (GMarkupParseContext *context, const char *words, gsize length, gpointer data, GError **error)
{
  Seen *seen = data;

  if (seen->in_title)
    g_ptr_array_add (seen->titles, g_strndup (words, length));
}

static void
assert_list (GPtrArray *list, const char *expected)
{
  g_autofree char *text = NULL;

  g_ptr_array_add (list, NULL);
  text = g_strjoinv (" | ", (char **)list->pdata);
  g_assert_cmpstr (text, ==, expected);
}

static void
svg_has_a_path_for_each_block_and_names_them (void)
{
  static const GMarkupParser parser = { element_starts, element_ends, words_come, NULL, NULL };
  g_autoptr (HwHoopingNeedles) needles = two_motifs ();
  g_autofree char *text = hw_needle_svg_text (needles);
  Seen seen = { g_ptr_array_new_with_free_func (g_free), g_ptr_array_new_with_free_func (g_free),
                g_ptr_array_new_with_free_func (g_free), g_ptr_array_new_with_free_func (g_free),
                g_ptr_array_new_with_free_func (g_free), FALSE };
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, &seen, NULL);
  g_autoptr (GError) error = NULL;

  g_markup_parse_context_parse (context, text, -1, &error);
  g_assert_no_error (error);
  assert_list (seen.groups, "field | centre | stitches");
  assert_list (seen.titles, "Quay <1> & \"tide\", hooping 1 | sea, \"deep\" | =sand | =sand");
  assert_list (seen.motifs, "Rope & net | Rope & net | Gull ");
  assert_list (seen.strokes, "#112233 | #ddccaa | #ddccaa");
  assert_list (seen.lines, "M-5 0H5M0 -5V5 | M10 0 11.235 -2 13 4 | M13 4 15 6 | M-20 5 -19 5M-16 5 -15 5");
  g_ptr_array_unref (seen.groups);
  g_ptr_array_unref (seen.titles);
  g_ptr_array_unref (seen.motifs);
  g_ptr_array_unref (seen.strokes);
  g_ptr_array_unref (seen.lines);
}

/* CSS Values and Units 3, 6.2: 1 in is 96 px and 25.4 mm; SVG 2, 8.2: viewBox. Read by librsvg. */
static void
svg_is_of_true_size (void)
{
  g_autoptr (HwHoopingNeedles) needles = two_motifs ();
  g_autofree char *text = hw_needle_svg_text (needles);
  g_autoptr (GError) error = NULL;
  RsvgHandle *handle = rsvg_handle_new_from_data ((const guint8 *)text, strlen (text), &error);
  RsvgRectangle page = { 0 }, ink;
  double width, height;

  g_assert_no_error (error);
  rsvg_handle_set_dpi (handle, 96);
  g_assert_true (rsvg_handle_get_intrinsic_size_in_pixels (handle, &width, &height));
  g_assert_cmpfloat_with_epsilon (width, 100 / 25.4 * 96, 1e-6);
  g_assert_cmpfloat_with_epsilon (height, 60 / 25.4 * 96, 1e-6);
  page.width = width;
  page.height = height;
  g_assert_true (rsvg_handle_get_geometry_for_layer (handle, "#block-1", &page, &ink, NULL, &error));
  g_assert_no_error (error);
  /* From 10, -2 to 13, 4 mm of the centre, half a thread (0.2 mm) around it. */
  g_assert_cmpfloat_with_epsilon (ink.x, (50 + 10 - 0.2) / 25.4 * 96, 0.2);
  g_assert_cmpfloat_with_epsilon (ink.y, (30 - 2 - 0.2) / 25.4 * 96, 0.2);
  g_assert_cmpfloat_with_epsilon (ink.x + ink.width, (50 + 13 + 0.2) / 25.4 * 96, 0.2);
  g_assert_cmpfloat_with_epsilon (ink.y + ink.height, (30 + 4 + 0.2) / 25.4 * 96, 0.2);
  g_object_unref (handle);
}

static void
a_file_is_written_whole_by_its_ending (void)
{
  g_autoptr (HwHoopingNeedles) needles = two_motifs ();
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *csv = g_build_filename (folder, "one.CSV", NULL);
  g_autofree char *svg = g_build_filename (folder, "one.svg", NULL);
  g_autofree char *other = g_build_filename (folder, "one.txt", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "none", "one.csv", NULL);
  g_autofree char *text = NULL;
  g_autoptr (HwNeedleList) again = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_hooping_needles_save (needles, csv, &error));
  again = hw_needle_csv_load (csv, &error);
  g_assert_no_error (error);
  g_assert_true (hw_needle_list_equal (again, needles->needles));
  g_assert_true (hw_hooping_needles_save (needles, svg, &error));
  g_assert_true (g_file_get_contents (svg, &text, NULL, NULL));
  g_assert_true (g_str_has_suffix (text, "</svg>\n"));
  g_assert_false (hw_hooping_needles_save (needles, other, &error));
  g_assert_error (error, HW_NEEDLE_WRITE_ERROR, HW_NEEDLE_WRITE_ERROR_ENDING);
  g_assert_cmpstr (error->message, ==,
                   "one.txt: a needle list is written to a file whose name ends in .csv or .svg.");
  g_clear_error (&error);
  g_assert_false (hw_hooping_needles_save (needles, nowhere, &error));
  g_assert_error (error, HW_NEEDLE_WRITE_ERROR, HW_NEEDLE_WRITE_ERROR_WRITE);
  g_assert_true (g_str_has_prefix (error->message, "one.csv: nothing can be written in its folder"));
  g_unlink (csv);
  g_unlink (svg);
  g_assert_cmpint (g_rmdir (folder), ==, 0); /* nothing half written is left */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(test) g_test_add_func ("/needle-write/" #test, test)
  ADD (csv_follows_the_standard);
  ADD (what_is_written_reads_back_alike);
  ADD (svg_has_a_path_for_each_block_and_names_them);
  ADD (svg_is_of_true_size);
  ADD (a_file_is_written_whole_by_its_ending);
  return g_test_run ();
}
