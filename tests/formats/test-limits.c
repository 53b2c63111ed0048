/* Every limit of what is read, from both sides: so much is taken, and one more is refused with its sentence. The files are made here: text that repeats
 * itself, headers that claim a size, holes. */
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "artwork-desk.h"
#include "formats/json-check.h"
#include "formats/needle-csv.h"
#include "formats/palette-csv.h"
#include "formats/picture-load.h"
#include "formats/points-json.h"
#include "formats/readings-json.h"
#include "formats/scene-file.h"

#define MOTIF "{\"id\": \"m%u\", \"outline\": [[[0,0],[9,0],[0,9]]], \"position\": [1, 2]"
#define SCENE(hoops, motifs, more)                                                                           \
  "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Quay\", \"fabric\": {\"width\": 700, "     \
  "\"height\": 540}, \"edge_line\": {\"margin\": 2, \"points\": [[0,0],[700,0],[700,540],[0,540]]}, "        \
  "\"hoops\": [" hoops "], \"motifs\": [" motifs "]" more "}"
#define M1 "{\"id\": \"m1\", \"outline\": [[[0,0],[9,0],[0,9]]], \"position\": [1, 2]"
#define M2 "{\"id\": \"m2\", \"outline\": [[[0,0],[9,0],[0,9]]], \"position\": [1, 2]}"

/* A scene of which one list is as long as wanted: `item` stands where the scene says "@", so many times. */
typedef struct
{
  const char *name;
  const char *scene;
  const char *item; /* may hold one %u, the item's number */
  guint most;
  const char *sentence; /* of one more */
} List;

static const List lists[] = {
  { "motifs", SCENE ("", "@", ""), MOTIF "}", 10000,
    "motifs: expected at most 10000 motifs in one scene, found 10001." },
  { "hoops", SCENE ("@", "", ""), "{\"id\": \"h%u\", \"field\": [130, 180]}", 200,
    "hoops: expected at most 200 hoops, found 201." },
  { "parts", SCENE ("", "", ", \"parts\": [@]"), "{\"name\": \"P%u\", \"motifs\": []}", 100,
    "parts: expected at most 100 parts, found 101." },
  { "photos", SCENE ("", "", ", \"photo\": {\"stack\": [@]}"), "{\"path\": \"p%u.jpg\"}", 200,
    "photo.stack: expected at most 200 photos, found 201." },
  { "photo-points", SCENE ("", "", ", \"photo\": {\"stack\": [{\"path\": \"p.jpg\", \"points\": [@]}]}"),
    "{\"px\": [%u, 1], \"mm\": [1, 2]}", 1000,
    "photo.stack[0].points: expected at most 1000 points, found 1001." },
  { "palette", SCENE ("", "", ", \"palette\": [@]"), "{\"name\": \"t%u\", \"lab\": [50, 0, 0]}", 20000,
    "palette: expected at most 20000 threads, found 20001." },
  { "apart", SCENE ("", M1 "}, " M2, ", \"apart\": [@]"), "[\"m1\", \"m2\"]", 100000,
    "apart: expected at most 100000 pairs, found 100001." },
  { "held-marks", SCENE ("", M1 "}", ", \"held_marks\": [@]"), "{\"motif\": \"m1\", \"at\": [%u, 3]}", 100000,
    "held_marks: expected at most 100000 marks, found 100001." },
  { "rings", SCENE ("", "{\"id\": \"m1\", \"position\": [1, 2], \"outline\": [@]}", ""),
    "[[%u,0],[%u.5,0],[%u,9]]", 1000, "motifs[0].outline: expected at most 1000 rings, found 1001." },
};

/* Returns: (transfer full) */
static char *
scene_of (const List *list, guint n)
{
  const char *at = strchr (list->scene, '@');
  GString *text = g_string_new_len (list->scene, at - list->scene);

  for (guint i = 1; i <= n; i++)
    {
      g_autoptr (GString) item = g_string_new (list->item);
      g_autofree char *number = g_strdup_printf ("%u", i);

      g_string_replace (item, "%u", number, 0);
      g_string_append_printf (text, "%s%s", i > 1 ? "," : "", item->str);
    }
  g_string_append (text, at + 1);
  return g_string_free (text, FALSE);
}

static void
assert_scene (const char *text, gssize length, const char *refusal)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) scene = hw_scene_file_parse_awaiting (text, length, &error);

  g_assert_cmpstr (error != NULL ? error->message : NULL, ==, refusal);
  g_assert_true ((scene != NULL) == (refusal == NULL));
}

static void
a_list_ends_at_its_limit (gconstpointer data)
{
  const List *list = data;
  g_autofree char *most = scene_of (list, list->most);
  g_autofree char *more = scene_of (list, list->most + 1);

  assert_scene (most, -1, NULL);
  assert_scene (more, -1, list->sentence);
}

/* A scene with one value at a limit, and the same with the value beyond it. */
static const struct
{
  const char *scene; /* with one %s */
  const char *most;
  const char *more;
  const char *sentence;
} values[] = {
  { SCENE ("", M1 ", \"threads\": [{\"name\": \"moss\", \"stitches\": %s}]}", ""), "5000000", "5000001",
    "motifs[0].threads[0].stitches: expected a whole number from 0 to 5000000, found 5000001." },
  { SCENE ("", M1 ", \"threads\": [{\"stitches\": 4000000}, {\"stitches\": %s}]}", ""), "1000000", "1000001",
    "motifs[0].threads: expected at most 5000000 stitches in one motif, found 5000001." },
  { SCENE ("", M1 ", \"scale\": %s}", ""), "1000", "1000.1",
    "motifs[0].scale: expected a scale from 0.001 to 1000, found 1000.1." },
  { SCENE ("", M1 ", \"scale\": %s}", ""), "0.001", "0.0009",
    "motifs[0].scale: expected a scale from 0.001 to 1000, found 0.0009." },
  { SCENE ("", M1 ", \"angle\": %s}", ""), "-36000", "-36000.5",
    "motifs[0].angle: expected an angle in degrees from -36000 to 36000, found -36000.5." },
  { SCENE ("", "{\"id\": \"m1\", \"outline\": [[[0,0],[9,0],[0,9]]], \"position\": [%s, 0]}", ""), "100000",
    "100000.5", "motifs[0].position: expected two numbers in millimetres, found [100000.5, 0]." },
  { SCENE ("{\"id\": \"h1\", \"field\": [%s, 180]}", "", ""), "100000", "100001",
    "hoops[0].field: expected width and height in millimetres from 0.1 to 100000, found [100001, 180]." },
};

static void
a_value_ends_at_its_limit (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_auto (GStrv) around = g_strsplit (values[i].scene, "%s", 2);
      g_autofree char *most = g_strconcat (around[0], values[i].most, around[1], NULL);
      g_autofree char *more = g_strconcat (around[0], values[i].more, around[1], NULL);

      assert_scene (most, -1, NULL);
      assert_scene (more, -1, values[i].sentence);
    }
}

/* Letters, not bytes. */
static void
a_text_ends_at_its_limit (void)
{
  g_auto (GStrv) around = g_strsplit (SCENE ("", M1 ", \"note\": \"%s\"}", ""), "%s", 2);
  g_autoptr (GString) note = g_string_new (NULL);
  g_autofree char *most = NULL;
  g_autofree char *more = NULL;

  for (guint i = 0; i < 100000; i++)
    g_string_append (note, "é");
  most = g_strconcat (around[0], note->str, around[1], NULL);
  more = g_strconcat (around[0], note->str, "é", around[1], NULL);
  assert_scene (most, -1, NULL);
  assert_scene (more, -1, "motifs[0].note: expected a text of at most 100000 letters, found one of 100001.");
}

/* Teeth of a comb: so many points that none lies on its neighbour. */
static char *
outline_of (guint n)
{
  g_auto (GStrv) around
      = g_strsplit (SCENE ("", "{\"id\": \"m1\", \"position\": [1, 2], \"outline\": [[%s]]}", ""), "%s", 2);
  g_autoptr (GString) points = g_string_new ("[0,-9]");

  for (guint i = 1; i < n - 1; i++)
    g_string_append_printf (points, ",[%u,%u]", i, i % 2);
  g_string_append_printf (points, ",[%u,-9]", n);
  return g_strconcat (around[0], points->str, around[1], NULL);
}

static void
an_outline_ends_at_its_limit (void)
{
  g_autofree char *most = outline_of (50000);
  g_autofree char *more = outline_of (50001);

  assert_scene (most, -1, NULL);
  assert_scene (more, -1, "motifs[0].outline[0]: expected at most 50000 points, found 50001.");
}

static void
json_ends_at_its_limits (void)
{
  g_autoptr (GString) deep = g_string_new (NULL);
  g_autoptr (GString) many = g_string_new ("[0"); /* the list is a value, too */
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < HW_JSON_DEEPEST; i++)
    g_string_append_c (deep, '[');
  g_string_append_c (deep, '0');
  for (guint i = 0; i < HW_JSON_DEEPEST; i++)
    g_string_append_c (deep, ']');
  g_assert_true (hw_json_check (deep->str, deep->len, &error));
  g_assert_no_error (error);
  g_string_prepend_c (deep, '[');
  g_string_append_c (deep, ']');
  g_assert_false (hw_json_check (deep->str, deep->len, &error));
  g_assert_cmpstr (error->message, ==, "line 1, column 66: the values are nested more than 64 deep.");
  g_clear_error (&error);

  for (guint i = 2; i < HW_JSON_MOST_VALUES; i++)
    g_string_append (many, ",0");
  g_string_append_c (many, ']');
  g_assert_true (hw_json_check (many->str, many->len, &error));
  g_assert_no_error (error);
  g_string_insert (many, (gssize)many->len - 1, ",0");
  g_assert_false (hw_json_check (many->str, many->len, &error));
  g_assert_cmpstr (error->message, ==, "it holds more than 5000000 values.");
}

static void
a_scene_file_ends_at_64_mb (void)
{
  g_autoptr (GString) text = g_string_new (SCENE ("", "", ""));
  gsize length = text->len;

  g_string_set_size (text, (64 << 20) + 1);
  memset (text->str + length, ' ', text->len - length);
  assert_scene (text->str, 64 << 20, NULL);
  assert_scene (text->str, (64 << 20) + 1, "it is larger than 64 MB.");
}

static void
a_needle_list_ends_at_five_million_rows (void)
{
  static const char row[] = "1,1,jump,\n";
  g_autoptr (GString) text = g_string_sized_new (56 << 20);
  g_autoptr (HwNeedleList) list = NULL;
  g_autoptr (GError) error = NULL;

  g_string_append (text, "x_mm,y_mm,action,thread\n");
  for (guint i = 1; i < 5000000; i++)
    g_string_append_len (text, row, sizeof row - 1);
  g_string_append (text, "2,2,stitch,\n");
  list = hw_needle_csv_parse (text->str, text->len, "quay.csv", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (list->n_points, ==, 5000000);
  g_string_append (text, row);
  g_assert_null (hw_needle_csv_parse (text->str, text->len, "quay.csv", &error));
  g_assert_cmpstr (
      error->message, ==,
      "quay.csv: line 5000002: more than 5000000 rows; divide the motif and make a list of each piece.");
}

static void
a_needle_list_ends_at_a_thousand_threads (void)
{
  g_autoptr (GString) text = g_string_new ("x_mm,y_mm,action,thread\n");
  g_autoptr (HwNeedleList) list = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 1000; i++)
    g_string_append_printf (text, "%u,0,stitch,t%u\n", i % 100, i);
  list = hw_needle_csv_parse (text->str, text->len, "quay.csv", &error);
  g_assert_no_error (error);
  g_string_append (text, "1,1,stitch,one more\n");
  g_assert_null (hw_needle_csv_parse (text->str, text->len, "quay.csv", &error));
  g_assert_cmpstr (error->message, ==, "quay.csv: line 1002: more than 1000 different threads.");
}

static void
a_thread_list_ends_at_twenty_thousand (void)
{
  g_autoptr (GString) text = g_string_new ("name,colour\n");
  g_autoptr (GPtrArray) palette = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 20000; i++)
    g_string_append_printf (text, "t%u,#102030\n", i);
  palette = hw_palette_csv_parse (text->str, text->len, "box.csv", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (palette->len, ==, 20000);
  g_string_append (text, "one more,#102030\n");
  g_assert_null (hw_palette_csv_parse (text->str, text->len, "box.csv", &error));
  g_assert_cmpstr (error->message, ==, "box.csv: line 20002: more than 20000 threads.");
}

typedef gboolean (*Load) (const char *path, GError **error);

static gboolean
load_needles (const char *path, GError **error)
{
  g_autoptr (HwNeedleList) list = hw_needle_csv_load (path, error);

  return list != NULL;
}

static gboolean
load_palette (const char *path, GError **error)
{
  g_autoptr (GPtrArray) palette = hw_palette_csv_load (path, error);

  return palette != NULL;
}

static gboolean
load_picture (const char *path, GError **error)
{
  g_autoptr (HwPicture) picture = hw_picture_load (path, error);

  return picture != NULL;
}

static gboolean
load_artwork (const char *path, GError **error)
{
  g_autoptr (HwArtwork) artwork = hw_artwork_load (path, NULL, error);

  return artwork != NULL;
}

static gboolean
load_measured (const char *path, GError **error)
{
  g_autoptr (HwMeasured) measured = hw_measured_load (path, HW_MEASURED_READINGS, error);

  return measured != NULL;
}

/* Files of nothing but a hole: what is too large is refused before it is read, so that this takes neither time nor memory. */
static void
files_end_at_their_sizes (void)
{
  static const struct
  {
    Load load;
    const char *name;
    guint mb;
  } files[] = {
    { load_needles, "quay.csv", 256 }, { load_palette, "box.csv", 16 },   { load_measured, "tide.json", 1 },
    { load_picture, "quay.jpg", 512 }, { load_artwork, "quay.pdf", 512 },
  };
  g_autofree char *folder = g_dir_make_tmp ("hw-limits-XXXXXX", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_build_filename (folder, files[i].name, NULL);
      g_autofree char *sentence
          = g_strdup_printf ("%s: it is larger than %u MB.", files[i].name, files[i].mb);
      g_autoptr (GError) error = NULL;

      g_assert_true (g_file_set_contents (path, "", 0, NULL));
      g_assert_cmpint (truncate (path, ((goffset)files[i].mb << 20) + 1), ==, 0);
      g_assert_false (files[i].load (path, &error));
      g_assert_cmpstr (error->message, ==, sentence);
      g_clear_error (&error);
      if (files[i].mb > 16)
        {
          g_unlink (path);
          continue;
        }
      g_assert_cmpint (truncate (path, (goffset)files[i].mb << 20), ==, 0);
      g_assert_false (files[i].load (path, &error));
      g_assert_cmpstr (error->message, !=, sentence);
      g_unlink (path);
    }
  rmdir (folder);
}

/* Headers of a PNG (ISO/IEC 15948, 11.2.2) that claims a size. */
static char *
what_is_said_of_pixels (guint width, guint height)
{
  guint8 head[33] = "\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR";
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 4; i++)
    {
      head[16 + i] = (guint8)(width >> (24 - 8 * i));
      head[20 + i] = (guint8)(height >> (24 - 8 * i));
    }
  head[24] = 8;
  head[25] = 6;
  bytes = g_bytes_new (head, sizeof head);
  g_assert_null (hw_picture_load_bytes (bytes, "quay.png", &error));
  return g_strdup (error->message);
}

static void
pictures_end_at_200_megapixels (void)
{
  static const char broken[]
      = "quay.png: the picture is broken off or damaged; copy it again from where it came from.";
  static const struct
  {
    guint width, height;
    const char *said;
  } sizes[] = {
    { 20000, 10000, broken },
    { 20000, 10001,
      "quay.png: a picture of 20000 × 10001 pixels is too large; up to 200 megapixels can be opened, and "
      "60000 "
      "pixels along a side." },
    { 60000, 3, broken },
    { 60001, 3,
      "quay.png: a picture of 60001 × 3 pixels is too large; up to 200 megapixels can be opened, and 60000 "
      "pixels along a side." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *said = what_is_said_of_pixels (sizes[i].width, sizes[i].height);

      g_assert_cmpstr (said, ==, sizes[i].said);
    }
}

static void
assert_drawing (Desk *desk, const char *text, gsize length, const char *refusal)
{
  g_autofree char *path = g_build_filename (desk->folder, "quay.svg", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwArtwork) artwork = NULL;

  g_assert_true (g_file_set_contents (path, text, (gssize)length, NULL));
  artwork = hw_artwork_load (path, NULL, &error);
  g_unlink (path);
  g_assert_cmpstr (error != NULL ? error->message : NULL, ==, refusal);
}

static void
drawings_end_at_64_mb_and_10_m (Desk *desk, gconstpointer data)
{
  static const char drawing[]
      = "<svg xmlns='http://www.w3.org/2000/svg' width='%gmm' height='9mm' viewBox='0 0 9 9'>"
        "<rect x='2' y='2' width='5' height='5'/></svg>";
  g_autofree char *small = g_strdup_printf (drawing, 9.0);
  g_autofree char *long_one = g_strdup_printf (drawing, 10000.0);
  g_autofree char *longer = g_strdup_printf (drawing, 10001.0);
  g_autoptr (GString) text = g_string_new (small);

  /* Remarks of a megabyte: a reader of XML takes no text of ten. */
  while (text->len + (1 << 20) < 64 << 20)
    {
      gsize at = text->len;

      g_string_append (text, "<!--");
      g_string_set_size (text, at + (1 << 20) - 3);
      memset (text->str + at + 4, ' ', text->len - at - 4);
      g_string_append (text, "-->");
    }
  while (text->len < (64 << 20) + 1)
    g_string_append_c (text, '\n');
  assert_drawing (desk, text->str, 64 << 20, NULL);
  assert_drawing (desk, text->str, (64 << 20) + 1,
                  "quay.svg: the drawing holds more than 64 MB of text; that is too large.");
  assert_drawing (desk, long_one, strlen (long_one), NULL);
  assert_drawing (desk, longer, strlen (longer),
                  "quay.svg: a page of 10001 × 9 mm is too large; up to 10 m along a side can be opened.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autofree char *name = g_strdup_printf ("/limits/list/%s", lists[i].name);

      g_test_add_data_func (name, &lists[i], a_list_ends_at_its_limit);
    }
#define EACH(name, function) g_test_add_func ("/limits/" name, function)
  EACH ("values", a_value_ends_at_its_limit);
  EACH ("text", a_text_ends_at_its_limit);
  EACH ("outline", an_outline_ends_at_its_limit);
  EACH ("json", json_ends_at_its_limits);
  EACH ("scene-file", a_scene_file_ends_at_64_mb);
  EACH ("needle-rows", a_needle_list_ends_at_five_million_rows);
  EACH ("needle-threads", a_needle_list_ends_at_a_thousand_threads);
  EACH ("thread-list", a_thread_list_ends_at_twenty_thousand);
  EACH ("file-sizes", files_end_at_their_sizes);
  EACH ("pixels", pictures_end_at_200_megapixels);
  g_test_add ("/limits/drawings", Desk, NULL, desk_set_up, drawings_end_at_64_mb_and_10_m, desk_tear_down);
  return g_test_run ();
}
