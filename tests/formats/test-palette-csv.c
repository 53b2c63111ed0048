/* Thread lists as people keep them, and what is said of those that cannot be read. */
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "formats/palette-csv.h"

static GPtrArray *
parse (const char *text, GError **error)
{
  return hw_palette_csv_parse (text, strlen (text), "threads.csv", error);
}

static const HwPaletteThread *
thread_at (GPtrArray *palette, guint i)
{
  g_assert_cmpuint (i, <, palette->len);
  return palette->pdata[i];
}

/* White is as light as can be (100), and no lighter: a list with a white thread can be written and read again. */
static void
test_white_thread_is_read_again (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) palette = parse ("name,colour\nchalk,#fff\n", &error), again = NULL;
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  g_assert_cmpfloat (thread_at (palette, 0)->lab.l, <=, 100);
  text = hw_palette_csv_write (palette);
  again = parse (text, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (thread_at (again, 0)->lab.l, 100, 1e-4);
}

static void
test_a_list (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) palette = parse ("name,number,colour,metres\n"
                                         "moss,17,#335522,120.5\n"
                                         "\"harbour, deep\",,#102030,\n",
                                         &error);
  HwColour colour;

  g_assert_no_error (error);
  g_assert_cmpuint (palette->len, ==, 2);
  g_assert_cmpstr (thread_at (palette, 0)->name, ==, "moss");
  g_assert_cmpstr (thread_at (palette, 0)->number, ==, "17");
  g_assert_cmpfloat (thread_at (palette, 0)->metres, ==, 120.5);
  colour = hw_lab_colour (thread_at (palette, 0)->lab);
  g_assert_true (hw_colour_equal (colour, (HwColour){ 0x33 / 255.0, 0x55 / 255.0, 0x22 / 255.0 }));
  g_assert_cmpstr (thread_at (palette, 1)->name, ==, "harbour, deep");
  g_assert_null (thread_at (palette, 1)->number);
  g_assert_true (isnan (thread_at (palette, 1)->metres));
}

/* Columns in any order, others in between, a mark at the start, CRLF, blank lines, spaces, quotes in quotes. */
static void
test_lists_of_all_manners (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) palette = parse ("\xef\xbb\xbf"
                                         "B, Lightness ,shelf,a,NAME\r\n"
                                         "-3.5,50,third,10,\"the \"\"good\"\" red\"\r\n"
                                         "\r\n,,,,\r\n"
                                         "1,2,,3,Birne grün",
                                         &error);

  g_assert_no_error (error);
  g_assert_cmpuint (palette->len, ==, 2);
  g_assert_cmpstr (thread_at (palette, 0)->name, ==, "the \"good\" red");
  g_assert_cmpfloat (thread_at (palette, 0)->lab.l, ==, 50);
  g_assert_cmpfloat (thread_at (palette, 0)->lab.a, ==, 10);
  g_assert_cmpfloat (thread_at (palette, 0)->lab.b, ==, -3.5);
  g_assert_cmpstr (thread_at (palette, 1)->name, ==, "Birne grün");
}

/* A thread may be given either way in the same list; the finer one counts. */
static void
test_either_way_of_telling_a_colour (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) palette = parse ("name,colour,lightness,a,b\n"
                                         "one,#808080,,,\n"
                                         "two,#808080,50,1,2\n",
                                         &error);

  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (thread_at (palette, 0)->lab.l, 53.585, 1e-3);
  g_assert_cmpfloat (thread_at (palette, 1)->lab.l, ==, 50);
}

static void
test_refusals (void)
{
  static const struct
  {
    const char *text;
    HwPaletteCsvError code;
    const char *words;
  } lists[] = {
    { "", HW_PALETTE_CSV_ERROR_EMPTY, "threads.csv: there is no thread" },
    { "name,colour\n", HW_PALETTE_CSV_ERROR_EMPTY, "no thread" },
    { "colour,metres\n#fff,1\n", HW_PALETTE_CSV_ERROR_HEADER, "line 1: there is no column \"name\"" },
    { "name,metres\nmoss,1\n", HW_PALETTE_CSV_ERROR_HEADER, "no column \"colour\"" },
    { "name,lightness,a\nmoss,1,2\n", HW_PALETTE_CSV_ERROR_HEADER, "\"b\"" },
    { "name;colour\nmoss;#fff\n", HW_PALETTE_CSV_ERROR_HEADER, "commas" },
    { "name,colour,Colour\nmoss,#fff,#fff\n", HW_PALETTE_CSV_ERROR_HEADER, "two columns \"colour\"" },
    { "name,colour\nmoss,green\n", HW_PALETTE_CSV_ERROR_ROW,
      "line 2: column \"colour\": expected a colour like \"#335522\", found \"green\"." },
    { "name,colour\nmoss,\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"colour\"" },
    { "name,colour\nmoss\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"colour\"" },
    { "name,colour\n\"moss\n\",#fff\n\n,#fff\n", HW_PALETTE_CSV_ERROR_ROW,
      "line 5: column \"name\": expected a name" },
    { "name,lightness,a,b\nmoss,101,0,0\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"lightness\"" },
    { "name,lightness,a,b\nmoss,nan,0,0\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"lightness\"" },
    { "name,lightness,a,b\nmoss,50,,0\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"a\"" },
    { "name,lightness,a,b\nmoss,50,0,0x10\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"b\"" },
    { "name,lightness,a,b\nmoss,,,\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"lightness\"" },
    { "name,colour,metres\nmoss,#fff,-1\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"metres\"" },
    { "name,colour,metres\nmoss,#fff,\"1,5\"\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: column \"metres\"" },
    { "name,colour\nmoss,#fff,3\n", HW_PALETTE_CSV_ERROR_ROW,
      "expected 2 fields as in the first row, found 3" },
    { "name,colour\nmo\"ss,#fff\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: a quote stands" },
    { "name,colour\n\"moss,#fff\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: a quote is opened" },
    { "name,colour\n\"moss\"x,#fff\n", HW_PALETTE_CSV_ERROR_ROW, "line 2: something follows" },
    { "name,colour\ngr\xfc"
      "n,#0f0\n",
      HW_PALETTE_CSV_ERROR_READ, "line 2: expected text in UTF-8, found the byte 0xfc at character 3" },
    { "\xff\xfen", HW_PALETTE_CSV_ERROR_READ,
      "line 1: expected text in UTF-8, found the byte 0xff at character 1" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autoptr (GError) error = NULL;
      GPtrArray *palette = parse (lists[i].text, &error);

      g_assert_null (palette);
      g_assert_error (error, HW_PALETTE_CSV_ERROR, (int)lists[i].code);
      g_assert_null (strchr (error->message, '\n'));
      if (strstr (error->message, lists[i].words) == NULL)
        g_error ("expected \"%s\" in: %s", lists[i].words, error->message);
    }
}

static void
test_zero_bytes (void)
{
  static const char text[] = "n\0a\0m\0e\0";
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_palette_csv_parse (text, sizeof text, "threads.csv", &error));
  g_assert_error (error, HW_PALETTE_CSV_ERROR, HW_PALETTE_CSV_ERROR_READ);
}

static void
test_write_and_read_again (void)
{
  g_autoptr (GPtrArray) palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);
  g_autoptr (GPtrArray) again = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  static const char *const names[] = { "moss", "a, b", "say \"so\"", " spaced ", "two\nlines" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      HwLab lab = { g_test_rand_double_range (0, 100), g_test_rand_double_range (-90, 90),
                    g_test_rand_double_range (-90, 90) };

      g_ptr_array_add (palette,
                       hw_palette_thread_new (names[i], i % 2 ? "0815" : NULL, lab, i % 2 ? NAN : i * 10.5));
    }
  text = hw_palette_csv_write (palette);
  again = parse (text, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->len, ==, palette->len);
  for (guint i = 0; i < palette->len; i++)
    g_assert_true (hw_palette_thread_equal (again->pdata[i], palette->pdata[i]));
}

static void
test_missing_file (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_palette_csv_load ("/nowhere/threads.csv", &error));
  g_assert_error (error, HW_PALETTE_CSV_ERROR, HW_PALETTE_CSV_ERROR_READ);
  g_assert_cmpstr (error->message, ==, "threads.csv: there is no such file.");
}

/* Whatever is thrown at it: a list or a sentence. */
static void
test_anything (void)
{
  static const char bits[] = "name,colour\n\"#335522,metres,\r\n a;b 1.5\xc3\xbc\xff";

  for (guint i = 0; i < 3000; i++)
    {
      g_autoptr (GString) text = g_string_new (i % 2 ? "name,colour\n" : "");
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) palette = NULL;

      for (int n = g_test_rand_int_range (0, 60); n > 0; n--)
        g_string_append_c (text, bits[g_test_rand_int_range (0, sizeof bits - 1)]);
      palette = hw_palette_csv_parse (text->str, text->len, "threads.csv", &error);
      g_assert_true ((palette == NULL) == (error != NULL));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/palette-csv/a-list", test_a_list);
  g_test_add_func ("/palette-csv/white-thread-is-read-again", test_white_thread_is_read_again);
  g_test_add_func ("/palette-csv/lists-of-all-manners", test_lists_of_all_manners);
  g_test_add_func ("/palette-csv/either-way-of-telling-a-colour", test_either_way_of_telling_a_colour);
  g_test_add_func ("/palette-csv/refusals", test_refusals);
  g_test_add_func ("/palette-csv/zero-bytes", test_zero_bytes);
  g_test_add_func ("/palette-csv/write-and-read-again", test_write_and_read_again);
  g_test_add_func ("/palette-csv/missing-file", test_missing_file);
  g_test_add_func ("/palette-csv/anything", test_anything);
  return g_test_run ();
}
