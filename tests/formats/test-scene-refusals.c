#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "scene-texts.h"

/* The described example with `from` made `to` is refused with exactly this sentence. */
typedef struct
{
  const char *from;
  const char *to;
  const char *sentence;
} Refusal;

static const Refusal refusals[] = {
  /* what the file is */
  { "\"hoopwright-scene\"", "\"hoopwright-plan\"",
    "format: expected \"hoopwright-scene\", found \"hoopwright-plan\"." },
  { "\"format\": \"hoopwright-scene\", ", "", "format: expected \"hoopwright-scene\", found nothing." },
  { "\"version\": 1, \"name\": \"The Walled Garden\"",
    "\"version\": 2, \"name\": {\"en\": \"The Walled Garden\"}",
    "version: expected 1, found 2: a newer Hoopwright wrote this scene, and it takes a newer one to open "
    "it." },
  { "\"version\": 1", "\"version\": \"1\"", "version: expected 1, found \"1\"." },
  { "\"version\": 1", "\"version\": 0", "version: expected 1, found 0." },
  { " \"version\": 1,", "", "version: expected 1, found nothing." },
  { "\"The Walled Garden\"", "7", "name: expected a text, found 7." },

  /* cloth */
  { "\"width\": 700", "\"width\": \"wide\"",
    "fabric.width: expected a length in millimetres from 0.1 to 100000, found \"wide\"." },
  { "\"width\": 700", "\"width\": 0",
    "fabric.width: expected a length in millimetres from 0.1 to 100000, found 0." },
  { "\"height\": 540", "\"height\": -540",
    "fabric.height: expected a length in millimetres from 0.1 to 100000, found -540." },
  { "\"height\": 540", "\"height\": 1e7",
    "fabric.height: expected a length in millimetres from 0.1 to 100000, found 10000000." },
  { "\"height\": 540", "\"height\": 1e999",
    "fabric.height: expected a number of an ordinary size, found 1e999." },
  { "\"height\": 540", "\"height\": NaN", "fabric.height: expected a number, found NaN." },
  { "\"height\": 540", "\"height\": -Infinity", "fabric.height: expected a number, found -Infinity." },
  { "\"height\": 540, ", "",
    "fabric.height: expected a length in millimetres from 0.1 to 100000, found nothing." },
  { "\"height\": 540", "\"height\": true",
    "fabric.height: expected a length in millimetres from 0.1 to 100000, found true." },
  { "\"height\": 540", "\"height\": 99999999999999999999",
    "fabric.height: expected a number of an ordinary size, found 99999999999999999999." },
  { "\"#d8cbb0\"", "\"beige\"", "fabric.colour: expected a colour like \"#335522\", found \"beige\"." },
  { "\"floated\"", "\"glued\"", "fabric.hold: expected one of \"floated\", \"clamped\", found \"glued\"." },

  /* edge line */
  { "[[60, 40], [640, 40], [640, 500], [60, 500]]", "[[60, 40], [640, 40]]",
    "edge_line.points: expected a list of at least three points, found a list of 2." },
  { "[[60, 40], [640, 40], [640, 500], [60, 500]]", "[[60, 40], [640, 500], [640, 40], [60, 500]]",
    "edge_line.points: expected a line around one area, found one that crosses itself or encloses nothing." },
  { "[[60, 40], [640, 40], [640, 500], [60, 500]]", "[[60, 40], [640, 40], [300, 40]]",
    "edge_line.points: expected a line around one area, found one that crosses itself or encloses nothing." },
  { "[640, 500]", "[640]", "edge_line.points[2]: expected two numbers in millimetres, found [640]." },
  { "[640, 500]", "[640, 1e6]",
    "edge_line.points[2]: expected two numbers in millimetres, found [640, 1000000]." },
  { "\"margin\": 2.0", "\"margin\": -1",
    "edge_line.margin: expected a length in millimetres from 0 to 100000, found -1." },
  { "\"margin\": 2.0", "\"margin\": 2, \"shape\": \"star\"",
    "edge_line.shape: expected one of \"polygon\", \"rectangle\", \"rounded\", \"ellipse\", found "
    "\"star\"." },

  /* hoops */
  { "\"id\": \"h1\", ", "", "hoops[0].id: expected a text that is not empty, found nothing." },
  { "\"id\": \"h1\"", "\"id\": \"\"", "hoops[0].id: expected a text that is not empty, found \"\"." },
  { "[130, 180]", "[130, 0]",
    "hoops[0].field: expected width and height in millimetres from 0.1 to 100000, found [130, 0]." },
  { "[130, 180]", "130",
    "hoops[0].field: expected width and height in millimetres from 0.1 to 100000, found 130." },
  { "[170, 240]", "[120, 240]",
    "hoops[0].frame: expected an outer size not smaller than the field, found [120, 240]." },
  { "\"clearance\": 2.0", "\"clearance\": 65",
    "hoops[0].clearance: expected less than half of the field's shorter side, found 65." },
  { "\"any\"", "\"half\"", "hoops[0].turn: expected one of \"any\", \"quarter\", found \"half\"." },
  { "[{\"id\": \"h1\"", "[7, {\"id\": \"h1\"", "hoops[0]: expected keys in braces, found 7." },

  /* motifs */
  { "\"m1\"", "17", "motifs[0].id: expected a text that is not empty, found 17." },
  { "[180, 150]", "\"abc\"", "motifs[0].position: expected two numbers in millimetres, found \"abc\"." },
  { "[180, 150]", "[180, null]",
    "motifs[0].position: expected two numbers in millimetres, found [180, null]." },
  { "[180, 150]", "[180, 150, 0]",
    "motifs[0].position: expected two numbers in millimetres, found [180, 150, 0]." },
  { "[180, 150]", "[180, 1e400]",
    "motifs[0].position[1]: expected a number of an ordinary size, found 1e400." },
  { "\"position\": [180, 150], ", "",
    "motifs[0].position: expected two numbers in millimetres, found nothing." },
  { "\"scale\": 1.0", "\"scale\": 0", "motifs[0].scale: expected a scale from 0.001 to 1000, found 0." },
  { "\"scale\": 1.0", "\"scale\": -1", "motifs[0].scale: expected a scale from 0.001 to 1000, found -1." },
  { "\"angle\": 0", "\"angle\": \"north\"",
    "motifs[0].angle: expected an angle in degrees from -36000 to 36000, found \"north\"." },
  { "\"mirrored\": false", "\"mirrored\": 1", "motifs[0].mirrored: expected true or false, found 1." },
  { "[[[-40, -30], [40, -30], [0, 35]]]", "[]",
    "motifs[0].outline: expected at least one ring of points, found []." },
  { "[[[-40, -30], [40, -30], [0, 35]]]", "[[-40, -30], [40, -30], [0, 35]]",
    "motifs[0].outline[0]: expected a ring of at least three points, found [-40, -30]." },
  { "[[[-40, -30], [40, -30], [0, 35]]]", "[[[-40, -30], [40, -30]]]",
    "motifs[0].outline[0]: expected a ring of at least three points, found a list of 2." },
  { "[[[-40, -30], [40, -30], [0, 35]]]", "[[[-40, -30], [40, -30], [0, \"35\"]]]",
    "motifs[0].outline[0][2]: expected two numbers in millimetres, found [0, \"35\"]." },
  { "[[[-40, -30], [40, -30], [0, 35]]]", "[[[-40, -30], [40, -30], [0, -30]]]",
    "motifs[0].outline: \"Fig branch\" cannot be stitched. The outline encloses no area." },
  { "[[[-40, -30], [40, -30], [0, 35]]]", "[[[5, 5], [5, 5], [5, 5]]]",
    "motifs[0].outline: \"Fig branch\" cannot be stitched. The outline encloses no area." },
  { "\"stitches\": 1200", "\"stitches\": -1",
    "motifs[0].threads[0].stitches: expected a whole number from 0 to 5000000, found -1." },
  { "\"stitches\": 1200", "\"stitches\": 1.5",
    "motifs[0].threads[0].stitches: expected a whole number from 0 to 5000000, found 1.5." },
  { "\"#335522\"", "\"#33552\"",
    "motifs[0].threads[0].colour: expected a colour like \"#335522\", found \"#33552\"." },
  { "\"mirrored\": false", "\"before\": [\"m9\"]",
    "motifs[0].before[0]: expected the id of a motif in this scene, found \"m9\"." },
  { "\"mirrored\": false", "\"before\": [\"m1\"]",
    "motifs[0]: expected the ids of other motifs in \"before\", found its own." },
  { "\"mirrored\": false", "\"before\": [7]",
    "motifs[0].before[0]: expected the id of a motif in this scene, found 7." },
  { "\"mirrored\": false", "\"before\": [[\"m1\"]]",
    "motifs[0].before[0]: expected the id of a motif in this scene, found [\"m1\"]." },
  { "\"mirrored\": false", "\"before\": {}",
    "motifs[0].before: expected a list of motif ids, found keys in braces." },
  { "\"mirrored\": false", "\"artwork\": {\"kind\": \"needles\"}",
    "motifs[0].artwork.path: expected a text that is not empty, found nothing." },
  { "\"mirrored\": false", "\"locked\": \"yes\"",
    "motifs[0].locked: expected true or false, found \"yes\"." },
  { "\"motifs\": [{",
    "\"motifs\": [{\"id\": \"m1\", \"outline\": [[[0,0],[9,0],[0,9]]], \"position\": [1,2]}, {",
    "motifs[1].id: expected an id of its own, found \"m1\", which motifs[0] has." },
  { "\"hoops\": [{", "\"hoops\": [{\"id\": \"h1\", \"field\": [50, 50]}, {",
    "hoops[1].id: expected an id of its own, found \"h1\", which hoops[0] has." },

  /* what may follow */
  { "\"name\": \"The",
    "\"pins\": [{\"hoop\": \"h9\", \"centre\": [1, 2], \"motifs\": [\"m1\"]}], \"name\": \"The",
    "pins[0].hoop: expected the id of a hoop in this scene, found \"h9\"." },
  { "\"name\": \"The",
    "\"pins\": [{\"hoop\": \"h1\", \"centre\": [1, 2], \"motifs\": [\"m7\"]}], \"name\": \"The",
    "pins[0].motifs[0]: expected the id of a motif in this scene, found \"m7\"." },
  { "\"name\": \"The", "\"pins\": [{\"hoop\": \"h1\", \"centre\": [1, 2], \"motifs\": []}], \"name\": \"The",
    "pins[0].motifs: expected a list of motif ids, found []." },
  { "\"name\": \"The",
    "\"pins\": [{\"hoop\": \"h1\", \"centre\": [1, 2], \"motifs\": [\"m1\", \"m1\"]}], \"name\": \"The",
    "pins[0].motifs: expected each motif in one hooping only, found \"m1\" again." },
  { "\"name\": \"The",
    "\"progress\": {\"frozen\": [{\"hoop\": \"h1\", \"motifs\": [\"m1\"]}]}, \"name\": \"The",
    "progress.frozen[0].centre: expected two numbers in millimetres, found nothing." },
  { "\"name\": \"The", "\"machine\": {\"stitches_per_minute\": 0}, \"name\": \"The",
    "machine.stitches_per_minute: expected a number of stitches from 1 to 100000, found 0." },
};

static void
wrong_keys_are_named_with_what_was_found (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *text = replaced (contract, refusals[i].from, refusals[i].to);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_cmpstr (sentence, ==, refusals[i].sentence);
    }
}

/* Each required key, left out, is named. */
static void
whole_parts_missing_are_named (void)
{
  static const Refusal parts[] = {
    { "\"fabric\"", "\"cloth\"", "fabric: expected keys in braces, found nothing." },
    { "\"edge_line\"", "\"edge\"", "edge_line: expected keys in braces, found nothing." },
    { "\"points\"", "\"dots\"",
      "edge_line.points: expected a list of at least three points, found nothing." },
    { "\"hoops\"", "\"rings\"", "hoops: expected a list of hoops, found nothing." },
    { "\"field\"", "\"inside\"",
      "hoops[0].field: expected width and height in millimetres from 0.1 to 100000, found nothing." },
    { "\"motifs\"", "\"pieces\"", "motifs: expected a list of motifs, found nothing." },
    { "\"outline\"", "\"shape\"", "motifs[0].outline: expected a list of rings of points, found nothing." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_autofree char *text = replaced (contract, parts[i].from, parts[i].to);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_cmpstr (sentence, ==, parts[i].sentence);
    }
}

static void
texts_that_are_no_scene_are_told_apart (void)
{
  static const Refusal texts[] = {
    { NULL, "", "the text is empty." },
    { NULL, " \n\n", "the text is empty." },
    { NULL, "[1, 2]", "expected a scene in braces, found [1, 2]." },
    { NULL, "\"scene\"", "expected a scene in braces, found \"scene\"." },
    { NULL, "{\"format\": \"hoopwright-scene\",",
      "line 1, column 31: the text ends in the middle, it may have been "
      "cut off; expected a key in quotes." },
    { NULL, "{\n \"format\" \"hoopwright-scene\"}",
      "line 2, column 11: expected a colon after the key, found a quote." },
    { NULL, "{\"a\": [1, 2,]}", "line 1, column 13: expected a value, found \"]\"." },
    { NULL, "{\"a\": 1,}", "line 1, column 9: expected a key in quotes, found \"}\"." },
    { NULL, "{\"é\": 01}", "line 1, column 7: a number cannot begin with 0 and another digit." },
    { NULL, "{\"a\": 'x'}", "line 1, column 7: expected a value, found \"'\"." },
    { NULL, "{\"a\": \"x}\n", "line 1, column 7: the closing quote is missing on this line." },
    { NULL, "{} {}", "line 1, column 4: expected nothing more after the end, found \"{\"." },
    { NULL, "// scene\n{}", "line 1, column 1: expected a value, found \"/\"." },
    { NULL, "{\"a\": \"\\u0000\"}", "line 1, column 9: a zero character cannot be part of a text." },
    { NULL, "{\"a\": \"\\ud800x\"}",
      "line 1, column 14: half of a surrogate pair cannot be part of a text." },
    { NULL, "\x89PNG\r\n", "line 1, column 1: expected text in UTF-8, found the byte 0x89." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *sentence = refusal (texts[i].to, -1);

      g_assert_cmpstr (sentence, ==, texts[i].sentence);
    }
}

/* A name of several lines makes no sentence of several lines. */
static void
whatever_was_found_is_told_in_one_line (void)
{
  static const Refusal texts[] = {
    { "\"#d8cbb0\"", "\"sand\\nand\\u0007 \\u2028sea\"",
      "fabric.colour: expected a colour like \"#335522\", found \"sand\\nand\\u0007 \\u2028sea\"." },
    { "\"Fig branch\", \"outline\": [[[-40, -30], [40, -30], [0, 35]]]",
      "\"Fig\\nbranch\", \"outline\": [[[5, 5], [5, 5], [5, 5]]]",
      "motifs[0].outline: \"Fig branch\" cannot be stitched. The outline encloses no area." },
    { "\"motifs\": [{\"id\": \"m1\"",
      "\"motifs\": [{\"id\": \"m\\n1\", \"outline\": [[[0,0],[9,0],[0,9]]], \"position\": [1,2]}, {\"id\": "
      "\"m\\n1\"",
      "motifs[1].id: expected an id of its own, found \"m\\n1\", which motifs[0] has." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *text = replaced (contract, texts[i].from, texts[i].to);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_cmpstr (sentence, ==, texts[i].sentence);
    }
}

static void
zero_bytes_are_no_text (void)
{
  const char bytes[] = "{\"a\": 1}\0\0\0";
  g_autofree char *sentence = refusal (bytes, sizeof bytes);

  g_assert_cmpstr (sentence, ==, "line 1, column 9: expected text in UTF-8, found the byte 0x00.");
}

/* A reader that called itself for each bracket would run out of stack. */
static void
deep_nesting_is_refused (void)
{
  g_autoptr (GString) lists = g_string_new (NULL);
  g_autoptr (GString) braces = g_string_new (NULL);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  for (guint i = 0; i < 1000000; i++)
    {
      g_string_append_c (lists, '[');
      g_string_append (braces, "{\"a\":");
    }
  first = refusal (lists->str, -1);
  second = refusal (braces->str, -1);
  g_assert_cmpstr (first, ==, "line 1, column 66: the values are nested more than 64 deep.");
  g_assert_true (g_str_has_suffix (second, "the values are nested more than 64 deep."));
}

/* A small file may hold so many values that a tree of them would fill the memory. */
static void
too_many_values_are_refused (void)
{
  g_autoptr (GString) text = g_string_new ("{\"points\": [0");
  g_autofree char *sentence = NULL;

  for (guint i = 0; i < 6000000; i++)
    g_string_append (text, ",0");
  g_string_append (text, "]}");
  sentence = refusal (text->str, -1);
  g_assert_cmpstr (sentence, ==, "it holds more than 5000000 values.");
}

/* Cut anywhere, the example is refused, and every refusal is one line with a place or a path. */
static void
every_truncation_is_refused (void)
{
  for (gsize length = 0; length + 2 < strlen (contract); length++)
    {
      g_autofree char *sentence = refusal (contract, (gssize)length);

      g_assert_null (strchr (sentence, '\n'));
      g_assert_true (g_str_has_suffix (sentence, "."));
    }
}

static void
what_cannot_be_opened_is_said (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *missing = g_build_filename (folder, "gate.hoopscene", NULL);
  g_autofree char *wrong = g_build_filename (folder, "wall.hoopscene", NULL);
  g_autofree char *name = g_path_get_basename (folder);
  g_autofree char *is_folder = g_strdup_printf ("%s: this is a folder, not a file.", name);
  g_autofree char *text = replaced (contract, "[180, 150]", "\"abc\"");
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_scene_file_load (missing, &error));
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_READ);
  g_assert_cmpstr (error->message, ==, "gate.hoopscene: there is no such file.");
  g_clear_error (&error);

  g_assert_null (hw_scene_file_load (folder, &error));
  g_assert_cmpstr (error->message, ==, is_folder);
  g_clear_error (&error);

  g_assert_true (g_file_set_contents (wrong, text, -1, NULL));
  g_assert_null (hw_scene_file_load (wrong, &error));
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_CONTENT);
  g_assert_cmpstr (error->message, ==,
                   "wall.hoopscene: motifs[0].position: expected two numbers in millimetres, found \"abc\".");
  g_clear_error (&error);

  g_assert_null (hw_scene_file_load ("/dev/zero", &error));
  g_assert_cmpstr (error->message, ==, "zero: this is a device, not a file.");
  g_clear_error (&error);

  g_assert_cmpint (truncate (wrong, 65 << 20), ==, 0);
  g_assert_null (hw_scene_file_load (wrong, &error));
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_TOO_LARGE);
  g_assert_cmpstr (error->message, ==, "wall.hoopscene: it is larger than 64 MB.");
  g_clear_error (&error);

  /* A pipe that nobody writes to is empty, not a wait without end. */
  unlink (wrong);
  g_assert_cmpint (mkfifo (wrong, 0600), ==, 0);
  g_assert_null (hw_scene_file_load (wrong, &error));
  g_assert_cmpstr (error->message, ==, "wall.hoopscene: the text is empty.");
  unlink (wrong);
  rmdir (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/scene-refusals/" name, function)
  ADD ("wrong-keys-are-named", wrong_keys_are_named_with_what_was_found);
  ADD ("whole-parts-missing-are-named", whole_parts_missing_are_named);
  ADD ("texts-that-are-no-scene", texts_that_are_no_scene_are_told_apart);
  ADD ("told-in-one-line", whatever_was_found_is_told_in_one_line);
  ADD ("zero-bytes-are-no-text", zero_bytes_are_no_text);
  ADD ("deep-nesting-is-refused", deep_nesting_is_refused);
  ADD ("too-many-values-are-refused", too_many_values_are_refused);
  ADD ("every-truncation-is-refused", every_truncation_is_refused);
  ADD ("what-cannot-be-opened-is-said", what_cannot_be_opened_is_said);
  return g_test_run ();
}
