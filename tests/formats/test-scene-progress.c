#include <string.h>

#include "worked-scene.h"

static void
all_of_it_is_read (void)
{
  g_autoptr (HwSnapshot) scene = accepted (worked);
  const HwPin *pin = scene->pins->pdata[0];
  const HwHeldMark *held = scene->held_marks->pdata[0];
  const HwLogLine *line = scene->log->pdata[0];
  const HwReading *reading = hw_work_get_reading (pin->work, "B");

  g_assert_cmpuint (pin->n_marks, ==, 2);
  g_assert_cmpstr (pin->marks[1].letter, ==, "B");
  g_assert_cmpfloat (pin->marks[1].at.y, ==, 220);
  g_assert_cmpint (pin->work->step, ==, HW_WORK_TEMPLATE_OFF);
  g_assert_cmpuint (pin->work->threads_done, ==, 2);
  g_assert_cmpuint (pin->work->n_readings, ==, 2);
  g_assert_cmpfloat (reading->design.x, ==, 33.6);
  g_assert_cmpfloat (reading->at.x, ==, 99);
  g_assert_true (reading->left_out);
  g_assert_true (reading->by_photo);
  g_assert_false (hw_work_get_reading (pin->work, "A")->by_photo);
  g_assert_true (pin->work->corrected);
  g_assert_cmpfloat (pin->work->correction.shift.y, ==, 0.1);
  g_assert_cmpfloat (pin->work->correction.turn, ==, -1);
  g_assert_cmpstr (pin->work->notes[HW_WORK_DONE], ==, "pressed\nfrom behind");
  g_assert_null (pin->work->notes[HW_WORK_HOOP]);
  /* Seconds since 1970 by GNU date: date -u -d 2026-11-25T17:00:00Z +%s */
  g_assert_cmpint (pin->work->begun, ==, 1795626000);
  g_assert_cmpint (pin->work->ended, ==, 1795626000 + 40 * 60 + 5);
  g_assert_cmpstr (held->motif, ==, "m2");
  g_assert_cmpfloat (held->at.x, ==, 270.5);
  g_assert_cmpuint (scene->log->len, ==, 3);
  g_assert_cmpint (line->at, ==, 1795626000);
  g_assert_cmpint (line->kind, ==, HW_LOG_BEGUN);
  g_assert_cmpstr (line->motif, ==, "m2");
  g_assert_cmpstr (line->text, ==, "Hooping 2 begun.");
  g_assert_cmpint (((const HwPin *)scene->frozen->pdata[0])->work->step, ==, HW_WORK_DONE);
  g_assert_cmpuint (scene->wishes.marks, ==, 4);
  g_assert_cmpfloat (scene->wishes.draw_in, ==, 0.25);
}

static void
what_was_read_is_written_word_for_word (void)
{
  g_autoptr (HwSnapshot) scene = accepted (worked);
  g_autofree char *text = hw_scene_file_text (scene);

  g_assert_cmpstr (text, ==, worked);
}

static void
without_work_nothing_of_it_is_written (void)
{
  static const char *const silent[] = { "marks", "work", "held_marks", "log", "progress", "draw_in" };
  g_autofree char *empty = with ("\"held_marks\": [], \"progress\": {\"log\": [], \"frozen\": []}, \"pins\": "
                                 "[], \"wishes\": {\"marks\": 2, \"draw_in\": 0.5}");
  const char *const texts[] = { contract, empty };

  for (guint t = 0; t < G_N_ELEMENTS (texts); t++)
    {
      g_autoptr (HwSnapshot) scene = accepted (texts[t]);
      g_autofree char *text = hw_scene_file_text (scene);

      g_assert_cmpuint (scene->wishes.marks, ==, 2);
      g_assert_cmpfloat (scene->wishes.draw_in, ==, 0.5);
      for (guint i = 0; i < G_N_ELEMENTS (silent); i++)
        g_assert_null (strstr (text, silent[i]));
    }
}

/* Of the keys not known, those of a mark, a reading or a correction that is gone go with it: alone they would be no mark. */
static void
unknown_keys_go_with_what_they_described (void)
{
  g_autoptr (HwSnapshot) scene = accepted (worked);
  g_autofree char *text = NULL;
  g_autoptr (HwSnapshot) again = NULL;
  HwPin *pin = hw_pin_copy (scene->pins->pdata[0]);
  HwWork *work = hw_work_copy (pin->work);

  pin->n_marks = 0;
  work->n_readings = 0;
  work->corrected = FALSE;
  hw_work_set_note (work, HW_WORK_MARK, NULL);
  hw_work_set_note (work, HW_WORK_DONE, NULL);
  hw_work_unref (pin->work);
  pin->work = work;
  hw_pin_unref (scene->pins->pdata[0]);
  scene->pins->pdata[0] = pin;
  text = hw_scene_file_text (scene);
  g_assert_null (strstr (text, "drawn_with"));
  g_assert_null (strstr (text, "\"id\": \"on\""));
  g_assert_null (strstr (text, "typed"));
  g_assert_nonnull (strstr (text, "\"notes\": {\"iron\": \"warm\"}"));
  g_assert_nonnull (strstr (text, "\"weather\": {\"rain\": true}"));
  again = accepted (text);
  g_assert_cmpuint (((const HwPin *)again->pins->pdata[0])->n_marks, ==, 0);
}

static void
a_moved_mark_keeps_its_unknown_keys (void)
{
  g_autoptr (HwSnapshot) scene = accepted (worked);
  g_autofree char *text = NULL;
  HwPin *pin = scene->pins->pdata[0];

  pin->marks[0].at = (HwPoint){ 1, 2 };
  text = hw_scene_file_text (scene);
  g_assert_nonnull (strstr (text, "{\"id\": \"A\", \"at\": [1, 2], \"drawn_with\": \"chalk\"}"));
}

static void
readings_are_put_in_the_order_of_their_letters (void)
{
  g_autofree char *text = with_work ("\"readings\": [{\"mark\": \"C\", \"design\": [0, 0], \"at\": [0, 0]}, "
                                     "{\"mark\": \"A\", \"design\": [1, 0], \"at\": [1, 0]}]");
  g_autoptr (HwSnapshot) scene = accepted (text);
  const HwWork *work = ((const HwPin *)scene->pins->pdata[0])->work;

  g_assert_cmpstr (work->readings[0].letter, ==, "A");
  g_assert_cmpstr (work->readings[1].letter, ==, "C");
  g_assert_cmpint (work->step, ==, HW_WORK_MARK);
  g_assert_cmpint (work->begun, ==, 0);
}

static double
random_mm (void)
{
  return g_test_rand_double_range (-1, 1)
         * (double[]){ 0, 0.001, 1, 150, HW_LARGEST_MM }[g_test_rand_int_range (0, 5)];
}

static HwPoint
random_point (void)
{
  return (HwPoint){ random_mm (), random_mm () };
}

/* Returns: (transfer full): letters of any script, quotes and line ends among them */
static char *
random_text (void)
{
  static const gunichar pieces[] = { 'a', '"', '\\', '\n', 0x7f, 0x1, 0xe9, 0x2028, 0x1f9f5, ' ', '/' };
  GString *text = g_string_new (NULL);

  for (int n = g_test_rand_int_range (0, 12); n > 0; n--)
    g_string_append_unichar (text, pieces[g_test_rand_int_range (0, G_N_ELEMENTS (pieces))]);
  return g_string_free (text, FALSE);
}

static void
random_letter (char letter[4])
{
  static const char pieces[] = "ABCXYZabz019";
  int n = g_test_rand_int_range (1, 4);

  for (int i = 0; i < n; i++)
    letter[i] = pieces[g_test_rand_int_range (0, sizeof pieces - 1)];
  letter[n] = '\0';
}

static gint64
random_time (void)
{
  return g_test_rand_bit () ? (gint64)(g_test_rand_double_range (1, 253402300799.0)) : 0;
}

static HwWork *
random_work (void)
{
  HwWork *work = hw_work_new ();

  work->step = g_test_rand_int_range (0, HW_N_WORK_STEPS);
  work->threads_done = g_test_rand_bit () ? g_test_rand_int_range (0, HW_MOST_THREADS_DONE + 1) : 0;
  for (int n = g_test_rand_int_range (0, 8); n > 0; n--)
    {
      HwReading reading = { .design = random_point (),
                            .at = random_point (),
                            .left_out = g_test_rand_bit (),
                            .by_photo = g_test_rand_bit () };

      random_letter (reading.letter);
      hw_work_set_reading (work, &reading);
    }
  work->corrected = g_test_rand_bit ();
  if (work->corrected)
    work->correction = (HwCorrection){ random_point (), g_test_rand_double_range (-180, 180) };
  for (guint i = 0; i < HW_N_WORK_STEPS; i++)
    {
      g_autofree char *note = random_text ();

      hw_work_set_note (work, i, note);
    }
  work->begun = random_time ();
  work->ended = random_time ();
  return work;
}

/* Letters A, B ... that many. */
static void
random_marks (HwPin *pin)
{
  pin->n_marks = g_test_rand_int_range (0, HW_MOST_PIN_MARKS + 1);
  pin->marks = pin->n_marks > 0 ? g_new0 (HwMark, pin->n_marks) : NULL;
  for (guint i = 0; i < pin->n_marks; i++)
    {
      pin->marks[i].letter[0] = (char)('A' + i);
      pin->marks[i].at = random_point ();
    }
}

static void
random_turns (HwPin *pin)
{
  HwThreadTurn turns[6];
  guint n = (guint)g_test_rand_int_range (0, G_N_ELEMENTS (turns) + 1);

  for (guint i = 0; i < n; i++)
    turns[i] = (HwThreadTurn){ 0, (guint)g_test_rand_int_range (1, HW_MOST_THREADS_DONE + 1) };
  hw_pin_set_turns (pin, n > 0 ? turns : NULL, n);
}

static HwPin *
random_pin (const char *motif)
{
  const char *ids[] = { motif, NULL };
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup ("h1");
  pin->centre = random_point ();
  pin->motifs = g_strdupv ((char **)ids);
  random_marks (pin);
  random_turns (pin);
  pin->work = g_test_rand_bit () ? random_work () : NULL;
  return pin;
}

static void
random_log (GPtrArray *log)
{
  for (int n = g_test_rand_int_range (0, 20); n > 0; n--)
    {
      g_autofree char *text = random_text ();
      const char *motif = g_test_rand_bit () ? "m1" : NULL;

      g_ptr_array_add (
          log, hw_log_line_new (random_time (), g_test_rand_int_range (0, HW_LOG_BOBBIN + 1), motif, text));
    }
}

static void
any_work_comes_back_as_it_was (void)
{
  g_autoptr (HwSnapshot) plain = accepted (worked);

  for (guint round = 0; round < 500; round++)
    {
      g_autoptr (HwSnapshot) scene = hw_snapshot_copy (plain);
      g_autoptr (HwSnapshot) back = NULL;
      g_autofree char *text = NULL;
      g_autofree char *again = NULL;

      g_ptr_array_set_size (scene->pins, 0);
      g_ptr_array_set_size (scene->frozen, 0);
      g_ptr_array_set_size (scene->held_marks, 0);
      g_ptr_array_set_size (scene->log, 0);
      g_ptr_array_add (scene->pins, random_pin ("m2"));
      g_ptr_array_add (scene->frozen, random_pin ("m1"));
      for (int n = g_test_rand_int_range (0, 6); n > 0; n--)
        g_ptr_array_add (scene->held_marks,
                         hw_held_mark_new (g_test_rand_bit () ? "m1" : "m2", random_point ()));
      random_log (scene->log);
      scene->wishes.marks = g_test_rand_int_range (2, 5);
      scene->wishes.draw_in = g_test_rand_double_range (0, 10);
      text = hw_scene_file_text (scene);
      back = accepted (text);
      g_assert_true (hw_snapshot_equal (scene, back));
      again = hw_scene_file_text (back);
      g_assert_cmpstr (again, ==, text);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/scene-progress/" name, function)
  ADD ("all-of-it-is-read", all_of_it_is_read);
  ADD ("written-word-for-word", what_was_read_is_written_word_for_word);
  ADD ("without-work-nothing-is-written", without_work_nothing_of_it_is_written);
  ADD ("unknown-keys-go-with-what-they-described", unknown_keys_go_with_what_they_described);
  ADD ("a-moved-mark-keeps-its-unknown-keys", a_moved_mark_keeps_its_unknown_keys);
  ADD ("readings-in-the-order-of-letters", readings_are_put_in_the_order_of_their_letters);
  ADD ("any-work-comes-back", any_work_comes_back_as_it_was);
  return g_test_run ();
}
