#include "scene/record-compare.h"

#include "scene-pieces.h"

static void
count (HwScene *scene, guint flags, gpointer data)
{
  guint *heard = data;

  heard[0]++;
  heard[1] = flags;
}

static HwWork *
make_work (void)
{
  HwReading c = { "C", { 40, 30 }, { 40.5, 30.25 }, TRUE }, a = { "A", { -40, 30 }, { -39, 30 }, FALSE };
  HwWork *work = hw_work_new ();

  work->step = HW_WORK_READ;
  work->threads_done = 3;
  work->corrected = TRUE;
  work->correction = (HwCorrection){ { 0.5, -0.1 }, 1 };
  work->begun = 1795600000;
  work->ended = 1795603600;
  hw_work_set_reading (work, &c);
  hw_work_set_reading (work, &a);
  hw_work_set_note (work, HW_WORK_STICK, "a crease smoothed out");
  return work;
}

/* The pin of m1, in the machine, with two marks. */
static HwPin *
make_pin_in_machine (void)
{
  const char *ids[] = { "m1", NULL };
  const HwMark marks[] = { { "A", { 60, 130 } }, { "C", { 140, 130 } } };
  HwPin *pin = make_pin ("h1", ids);

  pin->marks = g_memdup2 (marks, sizeof marks);
  pin->n_marks = G_N_ELEMENTS (marks);
  pin->work = make_work ();
  return pin;
}

static GPtrArray *
one_pin (HwPin *pin)
{
  GPtrArray *pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  g_ptr_array_add (pins, pin);
  return pins;
}

static void
readings_stand_in_the_order_of_their_letters (void)
{
  static const char *const letters[] = { "C", "AA", "B", "Z", "A", "B2", "B" };
  static const char *const sorted[] = { "A", "B", "C", "Z", "AA", "B2" };
  g_autoptr (HwWork) work = hw_work_new ();

  for (guint i = 0; i < G_N_ELEMENTS (letters); i++)
    {
      HwReading reading = { .at = { i, 0 } };

      g_strlcpy (reading.letter, letters[i], sizeof reading.letter);
      hw_work_set_reading (work, &reading);
    }
  g_assert_cmpuint (work->n_readings, ==, G_N_ELEMENTS (sorted));
  for (guint i = 0; i < work->n_readings; i++)
    g_assert_cmpstr (work->readings[i].letter, ==, sorted[i]);
  g_assert_cmpfloat (hw_work_get_reading (work, "B")->at.x, ==, 6);
  g_assert_null (hw_work_get_reading (work, "D"));
  g_assert_null (hw_work_get_reading (work, NULL));
}

/* A reading may be one of the work's own. */
static void
a_reading_put_in_again_stays_as_it_is (void)
{
  g_autoptr (HwWork) work = make_work ();
  g_autoptr (HwWork) before = hw_work_copy (work);
  HwReading between = { "B", { 1, 1 }, { 2, 2 }, FALSE };

  hw_work_set_reading (work, hw_work_get_reading (work, "C"));
  g_assert_cmpuint (work->n_readings, ==, 2);
  g_assert_cmpfloat (work->readings[1].at.x, ==, before->readings[1].at.x);
  hw_work_set_reading (work, &between);
  g_assert_cmpstr (work->readings[1].letter, ==, "B");
  g_assert_cmpstr (work->readings[2].letter, ==, "C");
}

static void
an_empty_note_is_none (void)
{
  g_autoptr (HwWork) work = make_work ();

  g_assert_cmpstr (work->notes[HW_WORK_STICK], ==, "a crease smoothed out");
  hw_work_set_note (work, HW_WORK_STICK, work->notes[HW_WORK_STICK]);
  g_assert_cmpstr (work->notes[HW_WORK_STICK], ==, "a crease smoothed out");
  hw_work_set_note (work, HW_WORK_STICK, "");
  g_assert_null (work->notes[HW_WORK_STICK]);
  hw_work_set_note (work, HW_WORK_DONE, NULL);
  g_assert_null (work->notes[HW_WORK_DONE]);
}

static void
a_copy_of_a_pin_has_its_marks_and_work (void)
{
  g_autoptr (GPtrArray) pins = one_pin (make_pin_in_machine ());
  const HwPin *pin = pins->pdata[0];
  g_autoptr (GPtrArray) copies = one_pin (hw_pin_copy (pin));
  const HwPin *copy = copies->pdata[0];

  g_assert_cmpuint (hw_pins_difference (pins, copies), ==, 0);
  g_assert_true (copy->work == pin->work);
  g_assert_true (copy->marks != pin->marks);
}

/* Makes one thing of the work another. */
static void
change_work (HwWork *work, guint which)
{
  const HwReading d = { "D", { 0, 0 }, { 0, 0 }, FALSE };

  switch (which)
    {
    case 0:
      work->step++;
      break;
    case 1:
      work->threads_done++;
      break;
    case 2:
      hw_work_set_reading (work, &d);
      break;
    case 3:
      work->readings[0].at.y += 0.01;
      break;
    case 4:
      work->readings[0].design.x += 0.01;
      break;
    case 5:
      work->readings[0].left_out = !work->readings[0].left_out;
      break;
    case 6:
      work->corrected = FALSE;
      break;
    case 7:
      work->correction.shift.x += 0.1;
      break;
    case 8:
      work->correction.turn += 1;
      break;
    case 9:
      hw_work_set_note (work, HW_WORK_DONE, "pressed from behind");
      break;
    case 10:
      work->begun++;
      break;
    case 11:
      work->readings[0].by_photo = !work->readings[0].by_photo;
      break;
    case 12:
      work->ended = 0;
      break;
    default:
      g_assert_not_reached ();
    }
}

/* The planner does not mind how far the work is. */
static void
other_work_is_told_as_words (void)
{
  g_autoptr (GPtrArray) pins = one_pin (make_pin_in_machine ());

  for (guint which = 0; which < 13; which++)
    {
      HwPin *other = hw_pin_copy (pins->pdata[0]);
      g_autoptr (GPtrArray) others = one_pin (other);
      g_autoptr (HwWork) work = hw_work_copy (other->work);

      g_assert_cmpuint (hw_pins_difference (pins, others), ==, 0);
      change_work (work, which);
      hw_work_unref (other->work);
      other->work = hw_work_ref (work);
      g_assert_cmpuint (hw_pins_difference (pins, others), ==, HW_SCENE_CHANGE_WORK);
      g_clear_pointer (&other->work, hw_work_unref); /* out of the machine: its order is free again */
      g_assert_cmpuint (hw_pins_difference (pins, others), ==, HW_SCENE_CHANGE_PINS | HW_SCENE_CHANGE_WORK);
    }
}

static void
other_marks_are_told_as_pins (void)
{
  g_autoptr (GPtrArray) pins = one_pin (make_pin_in_machine ());
  HwPin *other = hw_pin_copy (pins->pdata[0]);
  g_autoptr (GPtrArray) others = one_pin (other);

  other->marks[1].at.x += 1;
  g_assert_cmpuint (hw_pins_difference (pins, others), ==, HW_SCENE_CHANGE_PINS);
  other->marks[1].at.x -= 1;
  g_assert_cmpuint (hw_pins_difference (pins, others), ==, 0);
  g_strlcpy (other->marks[1].letter, "D", sizeof other->marks[1].letter);
  g_assert_cmpuint (hw_pins_difference (pins, others), ==, HW_SCENE_CHANGE_PINS);
  other->n_marks = 1;
  g_clear_pointer (&other->work, hw_work_unref);
  g_assert_cmpuint (hw_pins_difference (pins, others), ==, HW_SCENE_CHANGE_PINS | HW_SCENE_CHANGE_WORK);
}

static void
begun_work_settles_an_order_and_is_undone (void)
{
  g_autoptr (HwScene) scene = make_scene (2);
  g_autoptr (HwSnapshot) start = hw_scene_snapshot (scene);
  HwPin *pin = make_pin_in_machine ();
  g_autoptr (GPtrArray) pins = one_pin (pin);
  g_autoptr (GPtrArray) only_held = one_pin (hw_pin_copy (pin));
  g_autoptr (HwSnapshot) held = NULL;
  g_autoptr (HwSnapshot) begun = NULL;
  guint heard[2] = { 0 };

  g_clear_pointer (&((HwPin *)only_held->pdata[0])->work, hw_work_unref);
  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  hw_scene_set_pins (scene, only_held);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_PINS);
  held = hw_scene_snapshot (scene);
  hw_scene_set_pins (scene, pins);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_PINS | HW_SCENE_CHANGE_WORK);
  hw_scene_set_pins (scene, pins);
  g_assert_cmpuint (heard[0], ==, 2);
  begun = hw_scene_snapshot (scene);
  g_assert_false (hw_snapshot_equal (held, begun));

  hw_scene_restore (scene, held);
  g_assert_null (((const HwPin *)hw_scene_get_pins (scene)->pdata[0])->work);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_PINS | HW_SCENE_CHANGE_WORK);
  hw_scene_restore (scene, begun);
  g_assert_cmpuint (((const HwPin *)hw_scene_get_pins (scene)->pdata[0])->work->n_readings, ==, 2);
  hw_scene_restore (scene, start);
  g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 0);
}

static void
a_stitched_hooping_is_frozen_and_thawed (void)
{
  g_autoptr (HwScene) scene = make_scene (2);
  g_autoptr (HwSnapshot) start = hw_scene_snapshot (scene);
  g_autoptr (GPtrArray) frozen = one_pin (make_pin_in_machine ());
  g_autoptr (HwSnapshot) stitched = NULL;
  guint heard[2] = { 0 };

  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  hw_scene_set_frozen (scene, frozen);
  g_assert_cmpuint (heard[0], ==, 1);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_PINS);
  g_assert_true (hw_scene_get_frozen (scene)->pdata[0] == frozen->pdata[0]);
  g_assert_false (hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m1")));
  stitched = hw_scene_snapshot (scene);
  g_assert_cmpuint (start->frozen->len, ==, 0);
  hw_scene_restore (scene, start);
  g_assert_cmpuint (hw_scene_get_frozen (scene)->len, ==, 0);
  hw_scene_restore (scene, stitched);
  g_assert_cmpuint (hw_scene_get_frozen (scene)->len, ==, 1);
}

static GPtrArray *
held_for (const char *first, const char *second)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_held_mark_unref);

  g_ptr_array_add (marks, hw_held_mark_new (first, (HwPoint){ 30, 40 }));
  g_ptr_array_add (marks, hw_held_mark_new (second, (HwPoint){ 50, 60 }));
  return marks;
}

static void
held_marks_are_told_as_pins_and_go_with_their_motif (void)
{
  g_autoptr (HwScene) scene = make_scene (3);
  g_autoptr (HwSnapshot) start = hw_scene_snapshot (scene);
  g_autoptr (GPtrArray) marks = held_for ("m2", "m3");
  g_autoptr (GPtrArray) same = held_for ("m2", "m3");
  g_autoptr (HwLogLine) line = hw_log_line_new (1, HW_LOG_NOTE, "m2", "a knot in the cloth");
  g_autoptr (HwSnapshot) marked = NULL;
  guint heard[2] = { 0 };

  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  hw_scene_set_held_marks (scene, marks);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_PINS);
  hw_scene_set_held_marks (scene, same);
  g_assert_cmpuint (heard[0], ==, 1);
  hw_scene_add_log_line (scene, line);
  marked = hw_scene_snapshot (scene);
  g_assert_cmpuint (marked->held_marks->len, ==, 2);
  g_assert_cmpuint (start->held_marks->len, ==, 0);

  hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m2"));
  g_assert_cmpuint (hw_scene_get_held_marks (scene)->len, ==, 1);
  g_assert_cmpstr (((const HwHeldMark *)hw_scene_get_held_marks (scene)->pdata[0])->motif, ==, "m3");
  g_assert_cmpuint (hw_scene_get_log (scene)->len, ==, 1);
  hw_scene_restore (scene, marked);
  g_assert_cmpuint (hw_scene_get_held_marks (scene)->len, ==, 2);
  hw_scene_restore (scene, start);
  g_assert_cmpuint (hw_scene_get_held_marks (scene)->len, ==, 0);
}

static void
a_mark_held_elsewhere_is_another (void)
{
  g_autoptr (GPtrArray) marks = held_for ("m2", "m3");
  g_autoptr (GPtrArray) others = held_for ("m2", "m3");
  g_autoptr (GPtrArray) swapped = held_for ("m3", "m2");

  g_assert_cmpuint (hw_held_marks_difference (marks, others), ==, 0);
  ((HwHeldMark *)others->pdata[1])->at.y += 1;
  g_assert_cmpuint (hw_held_marks_difference (marks, others), ==, HW_SCENE_CHANGE_PINS);
  g_assert_cmpuint (hw_held_marks_difference (marks, swapped), ==, HW_SCENE_CHANGE_PINS);
}

static void
the_log_grows_as_words_and_is_undone (void)
{
  g_autoptr (HwScene) scene = make_scene (1);
  g_autoptr (HwSnapshot) start = hw_scene_snapshot (scene);
  g_autoptr (HwSnapshot) logged = NULL;
  g_autoptr (HwSnapshot) back = NULL;
  guint heard[2] = { 0 };

  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  for (guint i = 0; i < 3; i++)
    {
      g_autoptr (HwLogLine) line = hw_log_line_new (100 + i, HW_LOG_THREAD, "m1", NULL);

      hw_scene_add_log_line (scene, line);
      g_assert_cmpuint (heard[0], ==, i + 1);
      g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_WORK);
    }
  logged = hw_scene_snapshot (scene);
  g_assert_cmpuint (start->log->len, ==, 0);
  g_assert_cmpuint (logged->log->len, ==, 3);
  g_assert_cmpint (((const HwLogLine *)logged->log->pdata[2])->at, ==, 102);
  g_assert_cmpstr (((const HwLogLine *)logged->log->pdata[2])->text, ==, "");
  g_assert_false (hw_snapshot_equal (start, logged));
  hw_scene_restore (scene, start);
  g_assert_cmpuint (hw_scene_get_log (scene)->len, ==, 0);
  hw_scene_restore (scene, logged);
  back = hw_scene_snapshot (scene);
  g_assert_true (back == logged);
}

static void
a_full_log_lets_its_oldest_line_go (void)
{
  g_autoptr (HwSnapshot) orchard = make_orchard (1);
  g_autoptr (HwScene) scene = hw_scene_new ();
  g_autoptr (HwLogLine) last = hw_log_line_new (5, HW_LOG_NOTE, NULL, "last");
  GPtrArray *log;

  for (guint i = 0; i < HW_MOST_LOG_LINES; i++)
    g_ptr_array_add (orchard->log, hw_log_line_new (i == 0 ? 1 : 2, HW_LOG_NOTE, NULL, NULL));
  hw_scene_restore (scene, orchard);
  hw_scene_add_log_line (scene, last);
  log = hw_scene_get_log (scene);
  g_assert_cmpuint (log->len, ==, HW_MOST_LOG_LINES);
  g_assert_cmpint (((const HwLogLine *)log->pdata[0])->at, ==, 2);
  g_assert_true (log->pdata[log->len - 1] == last);
}

/* What was planned, printed or saved before goes on to mean what it meant. */
static void
a_copy_of_a_snapshot_shares_progress (void)
{
  g_autoptr (HwSnapshot) orchard = make_orchard (3);
  g_autoptr (HwSnapshot) copy = NULL;

  g_ptr_array_add (orchard->pins, make_pin_in_machine ());
  g_ptr_array_add (orchard->held_marks, hw_held_mark_new ("m2", (HwPoint){ 1, 2 }));
  g_ptr_array_add (orchard->log, hw_log_line_new (7, HW_LOG_BEGUN, "m1", "Hooping 1 begun."));
  copy = hw_snapshot_copy (orchard);
  g_assert_true (hw_snapshot_equal (orchard, copy));
  g_assert_true (copy->log->pdata[0] == orchard->log->pdata[0]);
  g_ptr_array_set_size (copy->held_marks, 0);
  g_assert_false (hw_snapshot_equal (orchard, copy));
  g_assert_cmpuint (orchard->held_marks->len, ==, 1);
}

static void
two_hoopings_in_one_machine_are_a_mistake (void)
{
  if (g_test_subprocess ())
    {
      g_autoptr (HwScene) scene = make_scene (2);
      g_autoptr (GPtrArray) pins = one_pin (make_pin_in_machine ());

      g_ptr_array_add (pins, make_pin_in_machine ());
      hw_scene_set_pins (scene, pins);
      return;
    }
  g_test_trap_subprocess (NULL, 0, 0);
  g_test_trap_assert_failed ();
  g_test_trap_assert_stderr ("*machine_takes*");
}

static void
every_step_and_every_kind_has_a_word (void)
{
  g_assert_cmpuint (g_strv_length ((char **)hw_work_step_nicks), ==, HW_N_WORK_STEPS);
  g_assert_cmpstr (hw_work_step_nicks[HW_WORK_TEMPLATE_OFF], ==, "template-off");
  g_assert_cmpstr (hw_work_step_nicks[HW_WORK_DONE], ==, "done");
  g_assert_cmpuint (g_strv_length ((char **)hw_log_nicks), ==, HW_LOG_BOBBIN + 1);
  g_assert_cmpstr (hw_log_nicks[HW_LOG_THREAD_BROKE], ==, "thread-broke");
  g_assert_cmpstr (hw_log_nicks[HW_LOG_DRAW_IN], ==, "draw-in");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/progress/" name, function)
  ADD ("readings-in-the-order-of-letters", readings_stand_in_the_order_of_their_letters);
  ADD ("a-reading-put-in-again", a_reading_put_in_again_stays_as_it_is);
  ADD ("an-empty-note-is-none", an_empty_note_is_none);
  ADD ("a-copy-of-a-pin", a_copy_of_a_pin_has_its_marks_and_work);
  ADD ("other-work-is-told-as-words", other_work_is_told_as_words);
  ADD ("other-marks-are-told-as-pins", other_marks_are_told_as_pins);
  ADD ("begun-work-is-undone", begun_work_settles_an_order_and_is_undone);
  ADD ("a-stitched-hooping-is-frozen", a_stitched_hooping_is_frozen_and_thawed);
  ADD ("held-marks-go-with-their-motif", held_marks_are_told_as_pins_and_go_with_their_motif);
  ADD ("a-mark-held-elsewhere", a_mark_held_elsewhere_is_another);
  ADD ("the-log-grows", the_log_grows_as_words_and_is_undone);
  ADD ("a-full-log", a_full_log_lets_its_oldest_line_go);
  ADD ("a-copy-of-a-snapshot", a_copy_of_a_snapshot_shares_progress);
  ADD ("two-hoopings-in-one-machine", two_hoopings_in_one_machine_are_a_mistake);
  ADD ("every-step-has-a-word", every_step_and_every_kind_has_a_word);
  return g_test_run ();
}
