/* Scene files spoilt at random: whatever the bytes are, the answer is a scene that can be written and read again, or one line. */
#include <string.h>

#include "worked-scene.h"
#include "../rounds.h"

static void
assert_scene_or_sentence (const char *bytes, gsize length)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) scene = hw_scene_file_parse (bytes, (gssize)length, NULL, &error);
  g_autofree char *text = NULL;
  g_autofree char *text_again = NULL;
  g_autoptr (HwSnapshot) again = NULL;

  if (scene == NULL)
    {
      g_assert_nonnull (error);
      g_assert_cmpuint (strlen (error->message), >, 8);
      g_assert_null (strpbrk (error->message, "\n\r"));
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return;
    }
  g_assert_no_error (error);
  text = hw_scene_file_text (scene);
  again = accepted (text);
  text_again = hw_scene_file_text (again);
  g_assert_true (g_str_equal (text, text_again));
}

static void
spoil (GByteArray *bytes)
{
  static const char *const pieces[] = { "0",
                                        "-",
                                        "1e999",
                                        "1e-400",
                                        "null",
                                        "true",
                                        "\"",
                                        "[",
                                        "]",
                                        "{",
                                        "}",
                                        ",",
                                        ":",
                                        "\\",
                                        "NaN",
                                        "\xff",
                                        "é",
                                        "\n",
                                        "\t",
                                        "[]",
                                        "{}",
                                        "99",
                                        "-0.0",
                                        "1e5",
                                        "\"m1\"",
                                        "\"h1\"",
                                        "\\u0000",
                                        "\\ud83d",
                                        "[0, 0]",
                                        "\"before\": [\"m2\"],",
                                        "0.0001",
                                        "-1",
                                        "12345678901234567890",
                                        "\"keep\": \"motifs\",",
                                        "\"keep\": \"all\",",
                                        "\"keep\": null,",
                                        "\"set_aside\": true,",
                                        "\"apart\": [[\"m2\", \"m1\"]],",
                                        "[\"m1\", \"m2\"],",
                                        "\"wishes\": {\"interleave\": true},",
                                        "\"scale_range\": [1, 1],",
                                        "\"work\": {\"step\": \"hoop\", \"n\": {}},",
                                        "\"marks\": [{\"id\": \"A\", \"at\": [1, 2], \"n\": 1}],",
                                        "\"held_marks\": [{\"motif\": \"m1\", \"at\": [1, 2]}],",
                                        "\"notes\": {\"n\": 1}," };
  guint at = bytes->len > 0 ? (guint)g_test_rand_int_range (0, (int)bytes->len) : 0;
  const char *piece = pieces[g_test_rand_int_range (0, G_N_ELEMENTS (pieces))];
  g_autoptr (GByteArray) tail = NULL;
  guint cut;

  switch (g_test_rand_int_range (0, 5))
    {
    case 0: /* another byte */
      if (bytes->len > 0)
        bytes->data[at] = (guint8)g_test_rand_int_range (0, 256);
      break;
    case 1: /* cut off */
      g_byte_array_set_size (bytes, at);
      break;
    case 2: /* a stretch left out */
      cut = (guint)g_test_rand_int_range (1, 12);
      cut = MIN (cut, bytes->len - at);
      if (cut > 0)
        g_byte_array_remove_range (bytes, at, cut);
      break;
    case 3: /* a stretch twice */
      cut = (guint)g_test_rand_int_range (1, 200);
      cut = MIN (cut, bytes->len - at);
      tail = g_byte_array_new ();
      g_byte_array_append (tail, bytes->data + at, bytes->len - at);
      g_byte_array_set_size (bytes, at + cut);
      g_byte_array_append (bytes, tail->data, tail->len);
      break;
    default: /* something put in */
      tail = g_byte_array_new ();
      g_byte_array_append (tail, bytes->data + at, bytes->len - at);
      g_byte_array_set_size (bytes, at);
      g_byte_array_append (bytes, (const guint8 *)piece, (guint)strlen (piece));
      g_byte_array_append (bytes, tail->data, tail->len);
    }
}

static void
spoilt_bytes_give_a_scene_or_a_sentence (void)
{
  const char *texts[] = { contract, full, worked };
  guint rounds = g_test_slow () ? 300000 : ROUNDS (12000);

  for (guint i = 0; i < rounds; i++)
    {
      const char *text = texts[i % G_N_ELEMENTS (texts)];
      g_autoptr (GByteArray) bytes = g_byte_array_new ();
      guint times = (guint)g_test_rand_int_range (1, 4);

      g_byte_array_append (bytes, (const guint8 *)text, (guint)strlen (text));
      for (guint k = 0; k < times; k++)
        spoil (bytes);
      g_byte_array_append (bytes, (const guint8 *)"", 1);
      assert_scene_or_sentence ((const char *)bytes->data, bytes->len - 1);
    }
}

/* The text with one number, taken at random, made another. */
static void
other_numbers_give_a_scene_or_a_sentence (void)
{
  static const char *const numbers[] = { "0",     "-1",       "1e-9",  "0.05",       "3",
                                         "1e5",   "100000.1", "-1e5",  "1e6",        "1e30",
                                         "-1e30", "1e308",    "1e309", "4e-324",     "[1]",
                                         "null",  "\"\"",     "{}",    "2147483648", "999999999999999999" };
  guint rounds = g_test_slow () ? 160000 : ROUNDS (10000);

  for (guint i = 0; i < rounds; i++)
    {
      g_autoptr (GString) text = g_string_new (i % 2 == 0 ? full : worked);
      guint at = (guint)g_test_rand_int_range (0, (int)text->len);
      guint end;

      while (at < text->len && !g_ascii_isdigit (text->str[at]))
        at++;
      for (end = at; end < text->len && strchr ("0123456789.e", text->str[end]) != NULL;)
        end++;
      if (at == text->len)
        continue;
      g_string_erase (text, at, end - at);
      g_string_insert (text, at, numbers[g_test_rand_int_range (0, G_N_ELEMENTS (numbers))]);
      assert_scene_or_sentence (text->str, text->len);
    }
}

/* Outlines of random points cross themselves in every way. */
static void
random_outlines_are_mended_or_refused (void)
{
  for (guint i = 0; i < 400; i++)
    {
      g_autoptr (GString) ring = g_string_new ("[[");
      guint n = (guint)g_test_rand_int_range (3, 30);
      g_autofree char *text = NULL;

      for (guint k = 0; k < n; k++)
        g_string_append_printf (ring, "%s[%d, %d]", k > 0 ? ", " : "", g_test_rand_int_range (-6, 7),
                                g_test_rand_int_range (-6, 7));
      g_string_append (ring, "]]");
      text = replaced (contract, "[[[-40, -30], [40, -30], [0, 35]]]", ring->str);
      assert_scene_or_sentence (text, strlen (text));
    }
}

/* 2,000 points in any order cross each other hundreds of thousands of times: refused at once, not mended for minutes. */
static void
a_tangle_is_refused_quickly (void)
{
  g_autoptr (GString) ring = g_string_new ("[[");
  gint64 start = g_get_monotonic_time ();
  g_autofree char *text = NULL;

  for (guint k = 0; k < 2000; k++)
    g_string_append_printf (ring, "%s[%d, %d]", k > 0 ? ", " : "", g_test_rand_int_range (-9999, 9999),
                            g_test_rand_int_range (-9999, 9999));
  g_string_append (ring, "]]");
  text = replaced (contract, "[[[-40, -30], [40, -30], [0, 35]]]", ring->str);
  assert_scene_or_sentence (text, strlen (text));
  g_assert_cmpint (g_get_monotonic_time () - start, <, 20 * G_USEC_PER_SEC);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/scene-mutations/" name, function)
  ADD ("spoilt-bytes", spoilt_bytes_give_a_scene_or_a_sentence);
  ADD ("other-numbers", other_numbers_give_a_scene_or_a_sentence);
  ADD ("random-outlines", random_outlines_are_mended_or_refused);
  ADD ("a-tangle-is-refused-quickly", a_tangle_is_refused_quickly);
  return g_test_run ();
}
