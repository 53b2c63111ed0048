#include <math.h>
#include <string.h>

#include "formats/needle-csv.h"

static HwNeedleList *
parsed (const char *text)
{
  g_autoptr (GError) error = NULL;
  HwNeedleList *list = hw_needle_csv_parse (text, strlen (text), "fig.csv", &error);

  g_assert_no_error (error);
  g_assert_nonnull (list);
  return list;
}

static void
reads_every_action_and_thread (void)
{
  g_autoptr (HwNeedleList) list = parsed ("x_mm,y_mm,action,thread\n"
                                          "0,0,jump,moss\n"
                                          "1.5,-2.25,stitch,moss\n"
                                          "1.5,-2.25,trim,moss\n"
                                          "1.5,-2.25,colour,pine\n"
                                          "-7,1e1,stitch,pine\n"
                                          "-8,.5,stitch,moss\n"
                                          "0,0,end,moss\n");
  const guint8 actions[] = { HW_NEEDLE_JUMP,   HW_NEEDLE_STITCH, HW_NEEDLE_TRIM, HW_NEEDLE_COLOUR,
                             HW_NEEDLE_STITCH, HW_NEEDLE_STITCH, HW_NEEDLE_END };
  const guint16 threads[] = { 0, 0, 0, 1, 1, 0, 0 };

  g_assert_cmpuint (list->n_points, ==, 7);
  g_assert_cmpuint (list->n_stitches, ==, 3);
  g_assert_cmpstr (list->threads[0], ==, "moss");
  g_assert_cmpstr (list->threads[1], ==, "pine");
  g_assert_null (list->threads[2]);
  for (guint i = 0; i < 7; i++)
    {
      g_assert_cmpuint (list->points[i].action, ==, actions[i]);
      g_assert_cmpuint (list->points[i].thread, ==, threads[i]);
    }
  g_assert_cmpfloat (list->points[1].y, ==, -2.25f);
  g_assert_cmpfloat (list->points[4].y, ==, 10);
  g_assert_cmpfloat (list->points[5].y, ==, 0.5f);
  g_assert_cmpfloat (list->box.x0, ==, -8);
}

/* RFC 4180, section 2: rules 1 (CRLF), 2 (the last line may lack its end), 5 and 6 (quoted fields, with commas and line ends), 7 (a quote is
 * doubled). */
static void
follows_the_standard (void)
{
  g_autoptr (HwNeedleList) list = parsed ("\"x_mm\",y_mm,\"action\",thread\r\n"
                                          "\"1\",2,\"stitch\",\"moss, \"\"dark\"\"\"\r\n"
                                          "3,4,stitch,\"two\r\nlines\"\r\n"
                                          "5,6,stitch,moos");

  g_assert_cmpuint (list->n_stitches, ==, 3);
  g_assert_cmpstr (list->threads[0], ==, "moss, \"dark\"");
  g_assert_cmpstr (list->threads[1], ==, "two\r\nlines");
  g_assert_cmpstr (list->threads[2], ==, "moos");
  g_assert_cmpfloat (list->points[0].x, ==, 1);
}

static void
other_lines_ends_a_mark_and_blank_lines_do_no_harm (void)
{
  g_autoptr (HwNeedleList) list
      = parsed ("\xef\xbb\xbfx_mm,y_mm,action,thread\n\n1,2,stitch,Grün\n\n3,4,stitch,\n\n");

  g_assert_cmpuint (list->n_stitches, ==, 2);
  g_assert_cmpstr (list->threads[0], ==, "Grün");
  /* A row that names no thread goes on with the one before. */
  g_assert_cmpuint (list->points[1].thread, ==, 0);
  g_assert_null (list->threads[1]);
}

static void
a_list_may_name_no_thread_at_all (void)
{
  g_autoptr (HwNeedleList) list = parsed ("x_mm,y_mm,action,thread\n1,2,stitch,\n");

  g_assert_cmpstr (list->threads[0], ==, "");
  g_assert_cmpuint (list->points[0].thread, ==, 0);
}

#define HEADER "x_mm,y_mm,action,thread\n"

static void
each_mistake_is_named_with_its_line (void)
{
  static const struct
  {
    const char *text;
    int code;
    const char *sentence;
  } wrong[] = {
    { "", HW_NEEDLE_CSV_ERROR_EMPTY, "fig.csv: the file is empty." },
    { HEADER, HW_NEEDLE_CSV_ERROR_EMPTY, "fig.csv: there is no stitch in it." },
    { HEADER "1,2,jump,moss\n", HW_NEEDLE_CSV_ERROR_EMPTY, "fig.csv: there is no stitch in it." },
    { "1,2,stitch,moss\n", HW_NEEDLE_CSV_ERROR_HEADER,
      "fig.csv: line 1: expected the header x_mm,y_mm,action,thread before the first row." },
    { "x,y,action,thread\n", HW_NEEDLE_CSV_ERROR_HEADER,
      "fig.csv: line 1: expected the header x_mm,y_mm,action,thread before the first row." },
    { HEADER "1,2,stitch,moss\n1,2,sew,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 3: expected stitch, jump, trim, colour or end in action, found \"sew\"." },
    { HEADER "NaN,2,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected a number of millimetres from -100000 to 100000 in x_mm, found \"NaN\"." },
    { HEADER "1,inf,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected a number of millimetres from -100000 to 100000 in y_mm, found \"inf\"." },
    { HEADER "1,1e999,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected a number of millimetres from -100000 to 100000 in y_mm, found \"1e999\"." },
    { HEADER "100001,2,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected a number of millimetres from -100000 to 100000 in x_mm, found \"100001\"." },
    { HEADER "0x10,2,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected a number of millimetres from -100000 to 100000 in x_mm, found \"0x10\"." },
    { HEADER "\"1\n2\",2,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected a number of millimetres from -100000 to 100000 in x_mm, found \"1\\n2\"." },
    { HEADER ",2,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected a number of millimetres from -100000 to 100000 in x_mm, found \"\"." },
    { HEADER "1;2;stitch;moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected 4 fields (x_mm,y_mm,action,thread), found 1." },
    { HEADER "1,2,stitch,moss,5\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: expected 4 fields (x_mm,y_mm,action,thread), found 5." },
    { HEADER "\n1,2,stitch,\"moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 3: a quote is opened and never closed." },
    { HEADER "1,2,stitch,mo\"ss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: a quote stands in the middle of a field." },
    { HEADER "1,2,stitch,\"moss\"x\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 2: something follows a closing quote." },
    { HEADER "1,2,stitch,\"a\nb\"\n1,2,sew,a\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 4: expected stitch, jump, trim, colour or end in action, found \"sew\"." },
    { HEADER "1,2,end,moss\n1,2,stitch,moss\n", HW_NEEDLE_CSV_ERROR_ROW,
      "fig.csv: line 3: a row follows the end." },
    { HEADER "1,2,stitch,m\xf6ss\n", HW_NEEDLE_CSV_ERROR_READ,
      "fig.csv: line 2: expected text in UTF-8, found the byte 0xf6." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (hw_needle_csv_parse (wrong[i].text, strlen (wrong[i].text), "fig.csv", &error));
      g_assert_nonnull (error);
      g_assert_cmpstr (error->message, ==, wrong[i].sentence);
      g_assert_error (error, HW_NEEDLE_CSV_ERROR, wrong[i].code);
    }
}

/* The quick way of reading numbers agrees with the C library's to the last bit a float has. */
static void
numbers_agree_with_the_library (void)
{
  for (guint i = 0; i < 20000; i++)
    {
      double value = g_test_rand_double_range (-99999, 99999) / pow (10, g_test_rand_int_range (0, 9));
      g_autofree char *format
          = g_strdup_printf ("%%.%d%c", g_test_rand_int_range (0, 18), i % 5 == 0 ? 'e' : 'f');
      char number[G_ASCII_DTOSTR_BUF_SIZE];
      g_autofree char *text = NULL;
      g_autoptr (HwNeedleList) list = NULL;

      g_ascii_formatd (number, sizeof number, format, value);
      text = g_strdup_printf (HEADER "%s,0,stitch,moss\n", number);
      list = parsed (text);
      g_assert_cmpfloat (list->points[0].x, ==, (float)g_ascii_strtod (number, NULL));
    }
}

static void
spoilt_lists_give_a_list_or_a_sentence (void)
{
  static const char whole[]
      = HEADER "1,2,stitch,moss\r\n3.5,-4,jump,\"a \"\"b\"\"\"\n1,2,colour,pine\n0,0,end,pine\n";

  for (guint i = 0; i < 30000; i++)
    {
      g_autofree char *bytes = g_memdup2 (whole, sizeof whole);
      gsize length = (gsize)g_test_rand_int_range (0, sizeof whole);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwNeedleList) list = NULL;

      for (int k = g_test_rand_int_range (0, 4); k > 0; k--)
        bytes[g_test_rand_int_range (0, sizeof whole)] = "\",\n\r1.-ex\xff"[g_test_rand_int_range (0, 10)];
      list = hw_needle_csv_parse (bytes, length, "fig.csv", &error);
      g_assert_true ((list == NULL) == (error != NULL));
      if (error != NULL)
        g_assert_null (strchr (error->message, '\n'));
    }
}

static void
too_many_threads_are_refused (void)
{
  g_autoptr (GString) text = g_string_new (HEADER);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 1001; i++)
    g_string_append_printf (text, "%u,0,stitch,t%u\n", i % 100, i);
  g_assert_null (hw_needle_csv_parse (text->str, text->len, "fig.csv", &error));
  g_assert_cmpstr (error->message, ==, "fig.csv: line 1002: more than 1000 different threads.");
}

/* Says how long it took. */
static void
half_a_million_rows_are_read (void)
{
  g_autoptr (GString) text = g_string_new (HEADER);
  g_autoptr (HwNeedleList) list = NULL;
  gint64 start;
  double seconds;

  for (guint i = 0; i < 500000; i++)
    g_string_append_printf (text, "%d.%02d,-%d.5,stitch,moss\n", i % 90, i % 100, i % 70);
  start = g_get_monotonic_time ();
  list = parsed (text->str);
  seconds = (double)(g_get_monotonic_time () - start) / G_USEC_PER_SEC;
  g_assert_cmpuint (list->n_stitches, ==, 500000);
  g_test_message ("%.0f ms for 500,000 rows", seconds * 1000);
}

static void
what_cannot_be_opened_is_said (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_needle_csv_load ("/nowhere/fig.csv", &error));
  g_assert_error (error, HW_NEEDLE_CSV_ERROR, HW_NEEDLE_CSV_ERROR_READ);
  g_assert_cmpstr (error->message, ==, "fig.csv: there is no such file.");
  g_clear_error (&error);
  g_assert_null (hw_needle_csv_load ("/usr", &error));
  g_assert_cmpstr (error->message, ==, "usr: this is a folder, not a file.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/needle-csv/" name, function)
  ADD ("reads-every-action-and-thread", reads_every_action_and_thread);
  ADD ("follows-the-standard", follows_the_standard);
  ADD ("marks-and-blank-lines-do-no-harm", other_lines_ends_a_mark_and_blank_lines_do_no_harm);
  ADD ("a-list-may-name-no-thread", a_list_may_name_no_thread_at_all);
  ADD ("each-mistake-is-named-with-its-line", each_mistake_is_named_with_its_line);
  ADD ("numbers-agree-with-the-library", numbers_agree_with_the_library);
  ADD ("spoilt-lists", spoilt_lists_give_a_list_or_a_sentence);
  ADD ("too-many-threads-are-refused", too_many_threads_are_refused);
  ADD ("half-a-million-rows-are-read", half_a_million_rows_are_read);
  ADD ("what-cannot-be-opened-is-said", what_cannot_be_opened_is_said);
  return g_test_run ();
}
