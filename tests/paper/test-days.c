/* Marks to draw, readings filled in and the log of the days, read back from the print. */
#include <string.h>

#include "../../src/paper/day-log.h"
#include "../../src/planning/mark-list.h"
#include "garden.h"
#include "printed.h"

/* White is no matter: a table's cells are apart anyway. Returns: (transfer full) */
static char *
dense (const char *text)
{
  g_auto (GStrv) parts = g_strsplit_set (text, " \n", -1);

  return g_strjoinv ("", parts);
}

/* A page as an eye reads it, without white. Returns: (transfer full) */
static char *
page_text (PopplerDocument *document, int page)
{
  g_autofree char *text = printed_column (document, page, 0, 1000);

  return dense (text);
}

/* All pages from one on. */
static char *
all_text (PopplerDocument *document, int first)
{
  GString *text = g_string_new (NULL);

  for (int i = first; i < poppler_document_get_n_pages (document); i++)
    {
      g_autofree char *page = page_text (document, i);

      g_string_append (text, page);
    }

  return g_string_free (text, FALSE);
}

static guint
count (const char *text, const char *words)
{
  g_autofree char *sought = dense (words);
  guint n = 0;

  for (const char *at = strstr (text, sought); at != NULL; at = strstr (at + 1, sought))
    n++;

  return n;
}

static void
assert_says (const char *text, const char *words)
{
  if (count (text, words) == 0)
    g_error ("\"%s\" is not said: %s", words, text);
}

static void
assert_silent (const char *text, const char *words)
{
  if (count (text, words) > 0)
    g_error ("\"%s\" is said: %s", words, text);
}

/* One after the other. */
static void
assert_in_turn (const char *text, const char *const *words)
{
  const char *at = text;

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *sought = dense (words[i]);

      at = strstr (at, sought);
      if (at == NULL)
        g_error ("\"%s\" is not said in its turn: %s", words[i], text);
      at += strlen (sought);
    }
}

static int
find_page (PopplerDocument *document, const char *words)
{
  for (int i = 0; i < poppler_document_get_n_pages (document); i++)
    {
      g_autofree char *text = page_text (document, i);

      if (count (text, words) > 0)
        return i;
    }

  return -1;
}

/* The edge line of the garden begins at 30, 30: A at 70, 60 lies 40 and 30 from its corner. */
static void
test_marks_are_measured_from_the_corner (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  int page = find_page (document, "Marks to draw before you start");
  g_autofree char *text = NULL;

  g_assert_cmpint (page, >, 0);
  g_assert_cmpint (page, <, find_page (document, "TAKE ALL TEMPLATES OFF"));
  text = page_text (document, page);
  assert_says (text, "edge line's top left corner");
  assert_says (text, "try it on a scrap of the same cloth");
  assert_says (text, "1 centre 100.0 mm 115.0 mm turned 12.5° clockwise");
  assert_says (text, "1 A 40.0 mm 30.0 mm");
  assert_says (text, "2 centre 252.0 mm 130.0 mm not turned");
  assert_says (text, "2 D 270.0 mm 230.0 mm");
}

/* Once on the picture and once in the table, with both its names. */
static void
test_a_shared_mark_is_listed_once (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = page_text (document, find_page (document, "Marks to draw before you start"));

  g_assert_cmpuint (count (text, "1 B, 2 B"), ==, 2);
  g_assert_cmpuint (count (text, "160.0 mm 190.0 mm"), ==, 1);
  g_assert_cmpuint (count (text, "2 B"), ==, 2);
}

/* 40 mm are 1.57 inches, 30 mm are 1.18 (25.4 mm to the inch by definition, ISO 31). */
static void
test_marks_in_inches (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "Letter", HW_UNIT_INCH, NULL);
  g_autofree char *text = page_text (document, find_page (document, "Marks to draw before you start"));

  assert_says (text, "1 A 1.57 (40.0) 1.18 (30.0)");
  assert_says (text, "Right, in (mm)");
}

static void
test_stitched_hoopings_need_no_marks (void)
{
  g_autoptr (HwPlan) plan = garden_plan_stitched ();
  g_autoptr (PopplerDocument) some = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = page_text (some, find_page (some, "Marks to draw before you start"));
  g_autoptr (PopplerDocument) none = NULL;

  assert_silent (text, "1 centre");
  assert_silent (text, "1 A");
  assert_says (text, "2 C 300.0 mm 60.0 mm");

  plan->hoopings[1].hold = HW_PLACE_FROZEN;
  none = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_assert_cmpint (find_page (none, "Marks to draw before you start"), ==, -1);
}

/* Many hoopings: every cross is on some page, in order, and each page of the table bears its head. */
static void
test_a_long_list_goes_on (void)
{
  g_autoptr (HwPlan) plan = garden_plan_large (60, 50);
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  int first = find_page (document, "Marks to draw before you start"), last = first;
  g_autoptr (GString) text = g_string_new (NULL);

  for (;; last++)
    {
      g_autofree char *page = page_text (document, last);

      if (count (page, "Marks to draw before you start") == 0)
        break;
      assert_says (page, "Down");
      g_string_append (text, page);
    }
  g_assert_cmpint (last - first, >, 1);
  for (guint i = 0; i < 60; i++)
    {
      g_autofree char *right = hw_length_text (plan->hoopings[i].centre.x - 30, HW_UNIT_MM);
      g_autofree char *down = hw_length_text (plan->hoopings[i].centre.y - 30, HW_UNIT_MM);
      g_autofree char *row = g_strdup_printf ("%u centre %s %s", i + 1, right, down);

      assert_says (text->str, row);
    }
}

static void
test_a_stitched_hooping_shows_its_readings (void)
{
  g_autoptr (HwPlan) plan = garden_plan_stitched ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = page_text (document, find_page (document, "already stitched"));

  assert_says (text, "A 78.2 mm left 69.6 mm away 1.2 mm left, 0.4 mm towards you");
  assert_says (text, "B 72.4 mm right 60.2 mm towards 2.4 mm left; left out");
  assert_says (text,
               "Entered at the machine: Shift 1.8 mm left, 0.6 mm towards you; turn 1 degree clockwise.");
}

static void
test_the_hooping_in_the_machine_shows_what_is_read (void)
{
  g_autoptr (HwPlan) plan = garden_plan_stitched ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = page_text (document, find_page (document, "· in the machine"));

  assert_says (text, "C 47.5 mm right 70.9 mm away 0.5 mm left, 0.9 mm away from you");
  g_assert_cmpuint (count (text, "not read yet"), ==, 2);
  assert_silent (text, "Entered at the machine");
  assert_silent (text, "No correction");
}

static void
test_nothing_entered_is_said_once_past (void)
{
  g_autoptr (HwPlan) plan = garden_plan_stitched ();
  HwPin *pin = g_ptr_array_index (plan->snapshot->pins, 0);
  g_autoptr (PopplerDocument) document = NULL;
  g_autofree char *text = NULL;

  pin->work->step = HW_WORK_STITCH;
  document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  text = page_text (document, find_page (document, "· in the machine"));
  assert_says (text, "No correction was entered at the machine.");
}

static void
test_other_hoopings_keep_boxes_for_a_pencil (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_BENCH_SHEET, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = all_text (document, find_page (document, "where the needle finds them"));

  g_assert_cmpuint (count (text, "where the needle finds them"), ==, 2);
  assert_silent (text, "From the planned place");
  assert_silent (text, "Readings and correction");
}

/* Days and times as `date -u -d @1795626300` and its like give them. */
static void
test_the_log_tells_the_days_in_order (void)
{
  static const char *const told[]
      = { "Hoopings stitched: 1 of 2. Hooping 2 is in the machine.",
          "Wednesday, 25 November 2026",
          "17:05 1 Hooping 1 begun",
          "17:14 1 Shift 1.8 mm left, 0.6 mm towards you; turn 1 degree clockwise.",
          "17:36 1 The thread broke: moss, Fig branch.",
          "18:20 1 Stitched.",
          "Thursday, 26 November 2026",
          "17:05 2 Hooping 2 begun",
          "17:06 The light is better",
          "laid on the stabiliser.",
          "Readings and corrections",
          "Hooping 1 · 200 × 300",
          "Begun Wednesday, 25 November 2026 at 17:05, stitched at 18:20.",
          "A 78.2 mm left 69.6 mm away",
          "Entered at the machine: Shift 1.8 mm left",
          "Stitching: Needle changed after the fig branch.",
          "Hooping 2 · 130 × 180 · in the machine",
          "C 47.5 mm right",
          NULL };
  g_autoptr (HwPlan) plan = garden_plan_stitched ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_DAY_LOG, "A4", HW_UNIT_MM, NULL);
  g_autofree char *text = all_text (document, 0);

  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 1);
  assert_in_turn (text, told);
}

static void
test_an_empty_log_says_so (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = printed (plan, HW_PAPER_DAY_LOG, "Letter", HW_UNIT_MM, NULL);
  g_autofree char *text = all_text (document, 0);

  g_assert_cmpint (poppler_document_get_n_pages (document), ==, 1);
  g_assert_cmpuint (count (text, "Nothing is written in the log yet."), ==, 1);
  assert_silent (text, "What happened Time");
  assert_silent (text, "Readings and corrections");
}

/* A line about a motif that is gone, at a time no calendar holds, stays. */
static void
test_a_line_that_lost_its_hooping_stays (void)
{
  g_autoptr (HwPlan) plan = garden_plan ();
  g_autoptr (PopplerDocument) document = NULL;
  g_autofree char *text = NULL;

  g_ptr_array_add (plan->snapshot->log,
                   hw_log_line_new (G_MAXINT64, HW_LOG_NOTE, "gone", "The quince was taken out."));
  document = printed (plan, HW_PAPER_DAY_LOG, "A4", HW_UNIT_MM, NULL);
  text = all_text (document, 0);
  assert_says (text, "On a day not known");
  assert_says (text, "The quince was taken out.");
}

/* Years of work: nothing lost or doubled where pages and sections meet, hoopings past the first sections too. */
static void
test_a_long_log_loses_nothing (void)
{
  g_autoptr (HwPlan) plan = garden_plan_large (60, 50);
  g_autoptr (PopplerDocument) document = NULL;
  g_autofree char *text = NULL;

  for (guint i = 0; i < 1500; i++)
    {
      g_autofree char *words = g_strdup_printf ("Row %04u.", i);
      /* 700 lines of one day, then ten a day */
      gint64 at = GARDEN_BEGUN + (i < 700 ? i : (i - 690) / 10 * 86400);

      g_ptr_array_add (plan->snapshot->log, hw_log_line_new (at, HW_LOG_NOTE, "m3", words));
    }
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      HwPin *pin = hw_pin_new ();

      pin->motifs = g_new0 (char *, 2);
      pin->motifs[0] = g_strdup_printf ("m%u", h);
      pin->work = hw_work_new ();
      pin->work->corrected = TRUE;
      pin->work->correction.shift.x = 100 + h;
      g_ptr_array_add (plan->snapshot->frozen, pin);
      plan->hoopings[h].hold = HW_PLACE_FROZEN;
    }
  document = printed (plan, HW_PAPER_DAY_LOG, "A4", HW_UNIT_MM, NULL);
  text = all_text (document, 0);
  g_assert_cmpuint (count (text, "Row "), ==, 1500);
  for (guint i = 0; i < 1500; i++)
    {
      g_autofree char *words = g_strdup_printf ("4 Row %04u.", i);

      assert_says (text, words);
    }
  g_assert_cmpuint (count (text, "Entered at the machine"), ==, 60);
  for (guint h = 0; h < 60; h++)
    {
      g_autofree char *words = g_strdup_printf ("Shift %u.0 mm right.", 100 + h);

      assert_says (text, words);
    }
}

int
main (int argc, char **argv)
{
  g_setenv ("TZ", "UTC", TRUE);
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/days/marks-are-measured-from-the-corner", test_marks_are_measured_from_the_corner);
  g_test_add_func ("/days/a-shared-mark-is-listed-once", test_a_shared_mark_is_listed_once);
  g_test_add_func ("/days/marks-in-inches", test_marks_in_inches);
  g_test_add_func ("/days/stitched-hoopings-need-no-marks", test_stitched_hoopings_need_no_marks);
  g_test_add_func ("/days/a-long-list-goes-on", test_a_long_list_goes_on);
  g_test_add_func ("/days/a-stitched-hooping-shows-its-readings", test_a_stitched_hooping_shows_its_readings);
  g_test_add_func ("/days/the-hooping-in-the-machine-shows-what-is-read",
                   test_the_hooping_in_the_machine_shows_what_is_read);
  g_test_add_func ("/days/nothing-entered-is-said-once-past", test_nothing_entered_is_said_once_past);
  g_test_add_func ("/days/other-hoopings-keep-boxes-for-a-pencil",
                   test_other_hoopings_keep_boxes_for_a_pencil);
  g_test_add_func ("/days/the-log-tells-the-days-in-order", test_the_log_tells_the_days_in_order);
  g_test_add_func ("/days/an-empty-log-says-so", test_an_empty_log_says_so);
  g_test_add_func ("/days/a-line-that-lost-its-hooping-stays", test_a_line_that_lost_its_hooping_stays);
  g_test_add_func ("/days/a-long-log-loses-nothing", test_a_long_log_loses_nothing);

  return g_test_run ();
}
