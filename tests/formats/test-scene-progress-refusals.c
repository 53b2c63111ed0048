#include <string.h>

#include "worked-scene.h"

typedef struct
{
  const char *keys;
  const char *sentence;
} Refusal;

static void
assert_refusals (char *(*make) (const char *), const Refusal *refusals, gsize n)
{
  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *text = make (refusals[i].keys);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_cmpstr (sentence, ==, refusals[i].sentence);
    }
}

static void
wrong_marks_and_work_are_named (void)
{
  static const Refusal pins[] = {
    { "\"turns\": {}", "pins[0].turns: expected a list of turns, found keys in braces." },
    { "\"turns\": [3]",
      "pins[0].turns[0]: expected the id of a motif of this hooping and how many of its threads, "
      "like [\"m1\", 2], found 3." },
    { "\"turns\": [[\"m1\", 1], [\"m2\", 1]]",
      "pins[0].turns[1]: expected the id of a motif of this hooping and how many of its threads, "
      "like [\"m1\", 2], found [\"m2\", 1]." },
    { "\"turns\": [[\"m1\", 0]]",
      "pins[0].turns[0]: expected the id of a motif of this hooping and how many of its threads, "
      "like [\"m1\", 2], found [\"m1\", 0]." },
    { "\"turns\": [[\"m1\", 100001]]",
      "pins[0].turns[0]: expected the id of a motif of this hooping and how many of its threads, "
      "like [\"m1\", 2], found [\"m1\", 100001]." },
    { "\"turns\": [[\"m1\", 1.5]]",
      "pins[0].turns[0]: expected the id of a motif of this hooping and how many of its threads, "
      "like [\"m1\", 2], found [\"m1\", 1.5]." },
    { "\"turns\": [[2, 1]]",
      "pins[0].turns[0]: expected the id of a motif of this hooping and how many of its threads, "
      "like [\"m1\", 2], found [2, 1]." },
    { "\"turns\": [[\"m1\", 1, 1]]",
      "pins[0].turns[0]: expected the id of a motif of this hooping and how many of its threads, "
      "like [\"m1\", 2], found [\"m1\", 1, 1]." },
    { "\"marks\": {}", "pins[0].marks: expected a list of marks, found keys in braces." },
    { "\"marks\": [3]", "pins[0].marks[0]: expected keys in braces, found 3." },
    { "\"marks\": [{\"at\": [1, 2]}]",
      "pins[0].marks[0].id: expected a text that is not empty, found nothing." },
    { "\"marks\": [{\"id\": \"ABCD\", \"at\": [1, 2]}]",
      "pins[0].marks[0].id: expected one to three letters or digits, like \"A\", found \"ABCD\"." },
    { "\"marks\": [{\"id\": \"é\", \"at\": [1, 2]}]",
      "pins[0].marks[0].id: expected one to three letters or digits, like \"A\", found \"é\"." },
    { "\"marks\": [{\"id\": \"A\"}]",
      "pins[0].marks[0].at: expected two numbers in millimetres, found nothing." },
    { "\"marks\": [{\"id\": \"A\", \"at\": [1, 100001]}]",
      "pins[0].marks[0].at: expected two numbers in millimetres, found [1, 100001]." },
    { "\"marks\": [{\"id\": \"A\", \"at\": [1, 2]}, {\"id\": \"A\", \"at\": [3, 4]}]",
      "pins[0].marks[1].id: expected each mark once, found \"A\" again." },
    { "\"work\": []", "pins[0].work: expected keys in braces, found []." },
    { "\"keep\": \"grain\", \"work\": {}",
      "pins[0].work: only a hooping that keeps \"all\" can be in the machine." },
  };
  static const Refusal work[] = {
    { "\"step\": \"sew\"",
      "pins[0].work.step: expected one of \"mark\", \"hoop\", \"stick\", \"centre\", \"read\", \"enter\", "
      "\"template-off\", \"stitch\", \"done\", found \"sew\"." },
    { "\"threads_done\": 100001",
      "pins[0].work.threads_done: expected a whole number from 0 to 100000, found 100001." },
    { "\"threads_done\": 1.5",
      "pins[0].work.threads_done: expected a whole number from 0 to 100000, found 1.5." },
    { "\"readings\": 1", "pins[0].work.readings: expected a list of readings, found 1." },
    { "\"readings\": [{\"mark\": 1}]",
      "pins[0].work.readings[0].mark: expected a text that is not empty, found 1." },
    { "\"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}]",
      "pins[0].work.readings[0].design: expected two numbers in millimetres, found nothing." },
    { "\"readings\": [{\"mark\": \"A\", \"design\": [0, 0], \"at\": [0, -100000.5]}]",
      "pins[0].work.readings[0].at: expected two numbers in millimetres, found [0, -100000.5]." },
    { "\"readings\": [{\"mark\": \"A\", \"design\": [0, 0], \"at\": [0, 0], \"left_out\": 1}]",
      "pins[0].work.readings[0].left_out: expected true or false, found 1." },
    { "\"readings\": [{\"mark\": \"A\", \"design\": [0, 0], \"at\": [0, 0], \"by\": \"ear\"}]",
      "pins[0].work.readings[0].by: expected one of \"needle\", \"photo\", found \"ear\"." },
    { "\"readings\": [{\"mark\": \"A\", \"design\": [0, 0], \"at\": [0, 0]}, {\"mark\": \"A\", \"design\": "
      "[0, 0], \"at\": [0, 0]}]",
      "pins[0].work.readings[1].mark: expected each mark once, found \"A\" again." },
    { "\"correction\": 3", "pins[0].work.correction: expected keys in braces, found 3." },
    { "\"correction\": {\"turn\": 3}",
      "pins[0].work.correction.shift: expected two numbers in millimetres, found nothing." },
    { "\"correction\": {\"shift\": [0, 0], \"turn\": \"left\"}",
      "pins[0].work.correction.turn: expected an angle in degrees from -36000 to 36000, found \"left\"." },
    { "\"notes\": [\"dry\"]", "pins[0].work.notes: expected keys in braces, found [\"dry\"]." },
    { "\"notes\": {\"hoop\": 3}", "pins[0].work.notes.hoop: expected a text, found 3." },
    { "\"begun\": \"yesterday\"",
      "pins[0].work.begun: expected a time like \"2026-11-25T17:00:00Z\", found \"yesterday\"." },
    { "\"ended\": 1795626000",
      "pins[0].work.ended: expected a time like \"2026-11-25T17:00:00Z\", found 1795626000." },
  };

  assert_refusals (with_pin, pins, G_N_ELEMENTS (pins));
  assert_refusals (with_work, work, G_N_ELEMENTS (work));
}

static void
other_wrong_keys_are_named (void)
{
  static const Refusal refusals[] = {
    { "\"held_marks\": {}", "held_marks: expected a list of marks, found keys in braces." },
    { "\"held_marks\": [null]", "held_marks[0]: expected keys in braces, found null." },
    { "\"held_marks\": [{\"at\": [0, 0]}]",
      "held_marks[0].motif: expected the id of a motif in this scene, found nothing." },
    { "\"held_marks\": [{\"motif\": \"m9\", \"at\": [0, 0]}]",
      "held_marks[0].motif: expected the id of a motif in this scene, found \"m9\"." },
    { "\"held_marks\": [{\"motif\": 7, \"at\": [0, 0]}]", "held_marks[0].motif: expected a text, found 7." },
    { "\"held_marks\": [{\"motif\": \"m1\"}]",
      "held_marks[0].at: expected two numbers in millimetres, found nothing." },
    { "\"progress\": {\"log\": {}}",
      "progress.log: expected a list of what happened, found keys in braces." },
    { "\"progress\": {\"log\": [1]}", "progress.log[0]: expected keys in braces, found 1." },
    { "\"progress\": {\"log\": [{\"what\": \"note\"}]}",
      "progress.log[0].at: expected a time like \"2026-11-25T17:00:00Z\", found nothing." },
    { "\"progress\": {\"log\": [{\"at\": \"2026-11-25T17:00:00Z\"}]}",
      "progress.log[0].what: expected one of \"begun\", \"readings\", \"correction\", \"template-off\", "
      "\"thread\", \"thread-broke\", \"note\", \"stitched\", \"landed\", \"draw-in\", \"laid-aside\", "
      "\"bobbin\", found "
      "nothing." },
    { "\"progress\": {\"log\": [{\"at\": \"2026-11-25T17:00:00Z\", \"what\": \"lunch\"}]}",
      "progress.log[0].what: expected one of \"begun\", \"readings\", \"correction\", \"template-off\", "
      "\"thread\", \"thread-broke\", \"note\", \"stitched\", \"landed\", \"draw-in\", \"laid-aside\", "
      "\"bobbin\", found "
      "\"lunch\"." },
    { "\"progress\": {\"log\": [{\"at\": \"2026-11-25T17:00:00Z\", \"what\": \"note\", \"text\": []}]}",
      "progress.log[0].text: expected a text, found []." },
    { "\"wishes\": {\"marks\": 1}", "wishes.marks: expected a whole number from 2 to 4, found 1." },
    { "\"wishes\": {\"marks\": 2.5}", "wishes.marks: expected a whole number from 2 to 4, found 2.5." },
    { "\"wishes\": {\"marks\": 5}", "wishes.marks: expected a whole number from 2 to 4, found 5." },
    { "\"wishes\": {\"draw_in\": -0.1}", "wishes.draw_in: expected a percentage from 0 to 10, found -0.1." },
    { "\"wishes\": {\"draw_in\": 11}", "wishes.draw_in: expected a percentage from 0 to 10, found 11." },
    { "\"progress\": {\"frozen\": [{\"hoop\": \"h1\", \"centre\": [0, 0], \"motifs\": [\"m1\"], \"work\": "
      "{\"step\": 9}}]}",
      "progress.frozen[0].work.step: expected one of \"mark\", \"hoop\", \"stick\", \"centre\", \"read\", "
      "\"enter\", \"template-off\", \"stitch\", \"done\", found 9." },
  };

  assert_refusals (with, refusals, G_N_ELEMENTS (refusals));
}

/* The worked scene with both motifs pinned, each with work. */
static void
one_hooping_only_is_in_the_machine (void)
{
  g_autofree char *text = replaced (
      worked, "  \"pins\": [\n",
      "  \"pins\": [{\"hoop\": \"h1\", \"centre\": [1, 2], \"motifs\": [\"m1\"], \"work\": {}},\n");
  g_autofree char *sentence = refusal (text, -1);

  g_assert_cmpstr (sentence, ==,
                   "pins[1].work: expected one hooping in the machine, found a second one besides pins[0].");
}

/* RFC 3339, section 5.6; only UTC and whole seconds. */
static void
times_are_whole_seconds_of_utc (void)
{
  static const char *const wrong[] = {
    "2026-11-25",           "2026-11-25T17:00:00",       "2026-11-25 17:00:00Z",   "2026-02-30T17:00:00Z",
    "2026-11-25T25:00:00Z", "2026-11-25T17:00:00+01:00", "2026-11-25T17:00:00.5Z", "20261125T170000Z",
    "2026-W48-3T17:00:00Z", "1969-12-31T23:59:59Z",      "2026-11-25T17:00:00Z ",  "",
    "2026-00-10T00:00:00Z", "2026-11-25T17:60:00Z",      "-026-11-25T17:00:00Z",
  };
  static const char *const right[]
      = { "2024-02-29T23:59:59Z", "1970-01-01T00:00:01Z", "9999-12-31T23:59:59Z", "2026-11-25T00:00:00Z" };

  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autofree char *keys = g_strdup_printf ("\"begun\": \"%s\"", wrong[i]);
      g_autofree char *text = with_work (keys);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_true (g_str_has_prefix (sentence, "pins[0].work.begun: expected a time like"));
    }
  for (guint i = 0; i < G_N_ELEMENTS (right); i++)
    {
      g_autofree char *keys = g_strdup_printf ("\"begun\": \"%s\"", right[i]);
      g_autofree char *text = with_work (keys);
      g_autoptr (HwSnapshot) scene = accepted (text);
      g_autofree char *written = hw_scene_file_text (scene);

      g_assert_nonnull (strstr (written, keys));
    }
}

/* Returns: (transfer full): before, then n times item, its number and after, with commas between */
static char *
many (guint n, const char *before, const char *item, const char *after)
{
  GString *text = g_string_new (before);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s%s%u%s", i > 0 ? ", " : "", item, i, after);
  return g_string_free (text, FALSE);
}

static void
too_many_are_refused (void)
{
  g_autofree char *marks = many (27, "\"marks\": [", "{\"at\": [0, 0], \"id\": \"A", "\"}");
  g_autofree char *readings
      = many (1001, "\"work\": {\"readings\": [", "{\"design\": [0, 0], \"at\": [0, 0], \"mark\": \"", "\"}");
  g_autofree char *held
      = many (100001, "\"held_marks\": [", "{\"motif\": \"m1\", \"at\": [0, 0], \"n\": ", "}");
  g_autofree char *log = many (100001, "\"progress\": {\"log\": [",
                               "{\"at\": \"2026-11-25T17:00:00Z\", \"what\": \"note\", \"n\": ", "}");
  g_autofree char *marks_end = g_strconcat (marks, "]", NULL);
  g_autofree char *readings_end = g_strconcat (readings, "]}", NULL);
  g_autofree char *held_end = g_strconcat (held, "]", NULL);
  g_autofree char *log_end = g_strconcat (log, "]}", NULL);
  const Refusal pins[] = {
    { marks_end, "pins[0].marks: expected at most 26 marks in one hooping, found 27." },
    { readings_end, "pins[0].work.readings: expected at most 1000 readings in one hooping, found 1001." },
  };
  const Refusal scenes[] = {
    { held_end, "held_marks: expected at most 100000 marks, found 100001." },
    { log_end, "progress.log: expected at most 100000 lines, found 100001." },
  };

  assert_refusals (with_pin, pins, G_N_ELEMENTS (pins));
  assert_refusals (with, scenes, G_N_ELEMENTS (scenes));
}

/* Half a scene is none: no cut of the text is taken for work that was done. */
static void
cut_short_it_is_refused (void)
{
  for (gsize length = strlen (worked) / 2; length + 2 < strlen (worked); length++)
    {
      g_autofree char *sentence = refusal (worked, (gssize)length);

      g_assert_true (g_str_has_suffix (sentence, "."));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/scene-progress-refusals/" name, function)
  ADD ("wrong-marks-and-work-are-named", wrong_marks_and_work_are_named);
  ADD ("other-wrong-keys-are-named", other_wrong_keys_are_named);
  ADD ("one-hooping-only-is-in-the-machine", one_hooping_only_is_in_the_machine);
  ADD ("times-are-whole-seconds-of-utc", times_are_whole_seconds_of_utc);
  ADD ("too-many-are-refused", too_many_are_refused);
  ADD ("cut-short-it-is-refused", cut_short_it_is_refused);
  return g_test_run ();
}
