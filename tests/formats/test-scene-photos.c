/* Photographs, threads at hand, parts and artwork of all kinds in scene files. */
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "scene-texts.h"

/* The described example with more keys. Returns: (transfer full) */
static char *
with (const char *keys)
{
  g_autofree char *start = g_strdup_printf ("\"version\": 1, %s,", keys);

  return replaced (contract, "\"version\": 1,", start);
}

static void
photos_are_read (void)
{
  g_autofree char *text
      = with ("\"photo\": {\"shown\": 1, \"fade\": 0.5, \"stack\": [{\"name\": \"before\", \"taken\": "
              "\"2026-11-25\", "
              "\"path\": \"cloth.jpg\", \"points\": [{\"px\": [1, 2.5], \"mm\": [30, 40]}], \"bow\": 0.1, "
              "\"brightness\": -0.5, \"strength\": 0.75}, {\"data\": \"aGFyYm91cg==\"}]}");
  g_autoptr (HwSnapshot) scene = accepted (text);
  const HwPhoto *photo;

  g_assert_cmpuint (scene->photos->len, ==, 2);
  g_assert_cmpint (scene->photo_shown, ==, 1);
  g_assert_cmpfloat (scene->photo_fade, ==, 0.5);
  photo = scene->photos->pdata[0];
  g_assert_cmpstr (photo->name, ==, "before");
  g_assert_cmpstr (photo->taken, ==, "2026-11-25");
  g_assert_cmpstr (photo->path, ==, "cloth.jpg");
  g_assert_null (photo->bytes);
  g_assert_cmpuint (photo->n_points, ==, 1);
  g_assert_cmpfloat (photo->points[0].px.y, ==, 2.5);
  g_assert_cmpfloat (photo->points[0].mm.x, ==, 30);
  g_assert_cmpfloat (photo->bow, ==, 0.1);
  g_assert_cmpfloat (photo->brightness, ==, -0.5);
  g_assert_cmpfloat (photo->strength, ==, 0.75);
  photo = scene->photos->pdata[1];
  g_assert_null (photo->path);
  g_assert_null (photo->taken);
  g_assert_cmpmem (g_bytes_get_data (photo->bytes, NULL), g_bytes_get_size (photo->bytes), "harbour", 7);
  g_assert_cmpfloat (photo->strength, ==, 1);
  g_assert_cmpuint (photo->n_points, ==, 0);
}

/* Also once a point was moved in the photo, its place on the cloth typed anew, or another taken away. */
static void
what_a_point_says_more_is_kept (void)
{
  g_autofree char *text
      = with ("\"photo\": {\"stack\": [{\"path\": \"cloth.jpg\", \"later\": true, \"points\": ["
              "{\"px\": [1, 2.5], \"mm\": [30, 40], \"note\": {\"of\": \"gate\"}, \"weight\": 2}, "
              "{\"px\": [5, 6], \"mm\": [71.25, 80]}, "
              "{\"px\": [9, 8], \"mm\": [7, 6], \"note\": \"wall\"}]}]}");
  g_autoptr (HwSnapshot) scene = accepted (text), again = NULL, moved = NULL;
  g_autofree char *written = hw_scene_file_text (scene);
  g_autofree char *twice = NULL;
  g_autofree char *changed = NULL;
  HwPhoto *photo;

  again = accepted (written);
  g_assert_true (hw_snapshot_equal (scene, again));
  twice = hw_scene_file_text (again);
  g_assert_cmpstr (written, ==, twice);
  g_assert_nonnull (strstr (written, "\"gate\""));
  g_assert_nonnull (strstr (written, "\"later\": true"));

  photo = hw_photo_copy (scene->photos->pdata[0]);
  photo->points[0].px.x = 3;
  photo->points[1] = photo->points[2];
  photo->points[1].mm.y = 16;
  photo->n_points = 2;
  moved = accepted (contract);
  g_ptr_array_add (moved->photos, photo);
  changed = hw_scene_file_text (moved);
  g_assert_nonnull (strstr (changed, "\"weight\": 2"));
  g_assert_nonnull (strstr (changed, "\"wall\""));
  g_assert_null (strstr (changed, "71.25"));
}

static void
a_scene_without_them_says_nothing_of_them (void)
{
  g_autoptr (HwSnapshot) scene = accepted (contract);
  g_autofree char *text = hw_scene_file_text (scene);
  static const char *const silent[] = { "photo", "palette", "parts", "page", "pixels_per_mm" };

  g_assert_cmpuint (scene->photos->len + scene->palette->len + scene->parts->len, ==, 0);
  g_assert_cmpint (scene->photo_shown, ==, -1);
  for (gsize i = 0; i < G_N_ELEMENTS (silent); i++)
    g_assert_null (strstr (text, silent[i]));
}

static void
of_a_stack_that_does_not_say_the_first_is_shown (void)
{
  g_autofree char *text = with ("\"photo\": {\"stack\": [{\"path\": \"cloth.jpg\"}]}");
  g_autofree char *none = with ("\"photo\": {\"shown\": -1, \"stack\": [{\"path\": \"cloth.jpg\"}]}");
  g_autoptr (HwSnapshot) scene = accepted (text), dark = accepted (none);
  g_autofree char *written = hw_scene_file_text (dark);
  g_autoptr (HwSnapshot) again = accepted (written);

  g_assert_cmpint (scene->photo_shown, ==, 0);
  g_assert_cmpint (dark->photo_shown, ==, -1);
  g_assert_cmpint (again->photo_shown, ==, -1);
}

/* Bytes of every length and value come back as they were. */
static void
bytes_come_back (void)
{
  for (guint length = 1; length < 70; length++)
    {
      g_autoptr (HwSnapshot) scene = accepted (contract), again = NULL;
      HwPhoto *photo = hw_photo_new ();
      guint8 *bytes = g_malloc (length);
      g_autofree char *text = NULL;

      for (guint i = 0; i < length; i++)
        bytes[i] = (guint8)g_test_rand_int_range (0, 256);
      photo->bytes = g_bytes_new_take (bytes, length);
      g_ptr_array_add (scene->photos, photo);
      scene->photo_shown = 0;
      text = hw_scene_file_text (scene);
      again = accepted (text);
      g_assert_true (hw_snapshot_equal (scene, again));
    }
}

static void
threads_at_hand_are_read (void)
{
  g_autofree char *text
      = with ("\"palette\": [{\"name\": \"moss\", \"number\": \"17\", \"lab\": [33.5, -20, 20], "
              "\"metres\": 0}, {\"name\": \"sand\", \"lab\": [80, 2, 12]}]");
  g_autoptr (HwSnapshot) scene = accepted (text);
  const HwPaletteThread *moss = scene->palette->pdata[0], *sand = scene->palette->pdata[1];

  g_assert_cmpstr (moss->name, ==, "moss");
  g_assert_cmpstr (moss->number, ==, "17");
  g_assert_cmpfloat (moss->lab.a, ==, -20);
  g_assert_cmpfloat (moss->metres, ==, 0);
  g_assert_null (sand->number);
  g_assert_true (isnan (sand->metres));
}

static void
parts_are_read (void)
{
  g_autofree char *text
      = with ("\"parts\": [{\"name\": \"Upper\", \"motifs\": [\"m1\"]}, {\"name\": \"Lower\"}]");
  g_autoptr (HwSnapshot) scene = accepted (text);
  const HwPart *upper = scene->parts->pdata[0], *lower = scene->parts->pdata[1];

  g_assert_cmpstr (upper->name, ==, "Upper");
  g_assert_true (hw_part_names (upper, "m1"));
  g_assert_cmpuint (g_strv_length (lower->motifs), ==, 0);
}

static void
artwork_says_page_and_scale (void)
{
  g_autofree char *text
      = replaced (contract, "\"position\"",
                  "\"artwork\": {\"path\": \"a.pdf\", \"kind\": \"pdf\", \"page\": 3, \"pixels_per_mm\": "
                  "11.81}, \"position\"");
  g_autoptr (HwSnapshot) scene = accepted (text), again = NULL;
  g_autofree char *written = hw_scene_file_text (scene);

  again = accepted (written);
  g_assert_cmpstr (hw_snapshot_motif (again, 0)->artwork_kind, ==, "pdf");
  g_assert_cmpuint (hw_snapshot_motif (again, 0)->artwork_page, ==, 3);
  g_assert_cmpfloat (hw_snapshot_motif (again, 0)->artwork_pixels_per_mm, ==, 11.81);
}

static const struct
{
  const char *keys;
  const char *sentence;
} refusals[] = {
  { "\"photo\": []", "photo: expected keys in braces, found []." },
  { "\"photo\": {\"stack\": {}}", "photo.stack: expected a list of photos, found keys in braces." },
  { "\"photo\": {\"stack\": [7]}", "photo.stack[0]: expected keys in braces, found 7." },
  { "\"photo\": {\"stack\": [{\"name\": \"x\"}]}",
    "photo.stack[0]: expected the photo's \"path\" or its \"data\", found neither." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"data\": \"AAAA\"}]}",
    "photo.stack[0]: expected the photo's \"path\" or its \"data\", found both." },
  { "\"photo\": {\"stack\": [{\"data\": \"AAA\"}]}",
    "photo.stack[0].data: expected the photo's file in base 64, found \"AAA\"." },
  { "\"photo\": {\"stack\": [{\"data\": \"A===\"}]}",
    "photo.stack[0].data: expected the photo's file in base 64, found \"A===\"." },
  { "\"photo\": {\"stack\": [{\"data\": \"AA AA==\"}]}",
    "photo.stack[0].data: expected the photo's file in base 64, found \"AA AA==\"." },
  { "\"photo\": {\"stack\": [{\"data\": \"\"}]}",
    "photo.stack[0].data: expected the photo's file in base 64, found \"\"." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"taken\": \"yesterday\"}]}",
    "photo.stack[0].taken: expected a day like \"2026-11-25\", found \"yesterday\"." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"taken\": \"2026-02-30\"}]}",
    "photo.stack[0].taken: expected a day like \"2026-11-25\", found \"2026-02-30\"." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"points\": [{\"px\": [1, 2]}]}]}",
    "photo.stack[0].points[0].mm: expected two numbers in millimetres, found nothing." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"points\": [{\"px\": [1], \"mm\": [1, 2]}]}]}",
    "photo.stack[0].points[0].px: expected two numbers of pixels, found [1]." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"bow\": 0.31}]}",
    "photo.stack[0].bow: expected a number from -0.3 to 0.3, found 0.31." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"brightness\": 2}]}",
    "photo.stack[0].brightness: expected a number from -1 to 1, found 2." },
  { "\"photo\": {\"stack\": [{\"path\": \"x\", \"strength\": -1}]}",
    "photo.stack[0].strength: expected a number from 0 to 1, found -1." },
  { "\"photo\": {\"shown\": 1, \"stack\": [{\"path\": \"x\"}]}",
    "photo.shown: expected a whole number from -1 to 0, found 1." },
  { "\"photo\": {\"shown\": -0.5, \"stack\": [{\"path\": \"x\"}]}",
    "photo.shown: expected a whole number from -1 to 0, found -0.5." },
  { "\"photo\": {\"fade\": 1.5}", "photo.fade: expected a number from 0 to 1, found 1.5." },
  { "\"palette\": [\"moss\"]", "palette[0]: expected keys in braces, found \"moss\"." },
  { "\"palette\": [{\"lab\": [1, 2, 3]}]",
    "palette[0].name: expected a text that is not empty, found nothing." },
  { "\"palette\": [{\"name\": \"moss\"}]",
    "palette[0].lab: expected three numbers of CIELAB, found nothing." },
  { "\"palette\": [{\"name\": \"moss\", \"lab\": [1, 2]}]",
    "palette[0].lab: expected three numbers of CIELAB, found [1, 2]." },
  { "\"palette\": [{\"name\": \"moss\", \"lab\": [-1, 2, 3]}]",
    "palette[0].lab: expected three numbers of CIELAB, found [-1, 2, 3]." },
  { "\"palette\": [{\"name\": \"moss\", \"lab\": [1, \"a\", 3]}]",
    "palette[0].lab: expected three numbers of CIELAB, found [1, \"a\", 3]." },
  { "\"palette\": [{\"name\": \"moss\", \"lab\": [1, 2, 3], \"metres\": -2}]",
    "palette[0].metres: expected a number of metres from 0 to 1000000, found -2." },
  { "\"parts\": [{\"motifs\": []}]", "parts[0].name: expected a text that is not empty, found nothing." },
  { "\"parts\": [{\"name\": \"Upper\", \"motifs\": [\"m9\"]}]",
    "parts[0].motifs[0]: expected the id of a motif in this scene, found \"m9\"." },
  { "\"parts\": [{\"name\": \"Upper\", \"motifs\": [\"m1\"]}, {\"name\": \"Lower\", \"motifs\": [\"m1\"]}]",
    "parts[1].motifs: expected each motif in one part only, found \"m1\" again." },
};

static void
wrong_ones_are_refused_by_name (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      g_autofree char *text = with (refusals[i].keys);
      g_autofree char *sentence = refusal (text, -1);

      g_assert_cmpstr (sentence, ==, refusals[i].sentence);
    }
}

static void
long_lists_are_refused (void)
{
  g_autoptr (GString) points = g_string_new ("\"photo\": {\"stack\": [{\"path\": \"x\", \"points\": [");
  g_autofree char *text = NULL, *sentence = NULL;

  for (guint i = 0; i < 1001; i++)
    g_string_append_printf (points, "%s{\"px\": [1, 2], \"mm\": [3, 4]}", i > 0 ? ", " : "");
  g_string_append (points, "]}]}");
  text = with (points->str);
  sentence = refusal (text, -1);
  g_assert_cmpstr (sentence, ==, "photo.stack[0].points: expected at most 1000 points, found 1001.");
}

/* Saved in another folder a photo's path leads to the same file; one from the root stays as it is. */
static void
photo_paths_follow_the_scene (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *below = g_build_filename (folder, "below", NULL);
  g_autofree char *path = g_build_filename (below, "garden.hoopscene", NULL);
  g_autofree char *text
      = with ("\"photo\": {\"stack\": [{\"path\": \"cloth.jpg\"}, {\"path\": \"../up.jpg\"}, "
              "{\"path\": \"/srv/cloth.jpg\"}, {\"data\": \"AAAA\"}]}");
  static const char *const expected[] = { "../cloth.jpg", "../../up.jpg", "/srv/cloth.jpg", NULL };
  g_autoptr (HwSnapshot) scene = accepted (text), moved = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir (below, 0700), ==, 0);
  g_assert_true (hw_scene_file_save (scene, path, folder, &error));
  g_assert_no_error (error);
  moved = hw_scene_file_load (path, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpstr (((HwPhoto *)moved->photos->pdata[i])->path, ==, expected[i]);
  g_unlink (path);
  g_rmdir (below);
  g_rmdir (folder);
}

/* What could not be opened again is not written: the old file stays. */
static void
a_scene_that_grew_too_large_is_not_saved (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "garden.hoopscene", NULL);
  g_autoptr (HwSnapshot) scene = accepted (contract), kept = NULL;
  g_autoptr (GError) error = NULL;
  HwPhoto *photo = hw_photo_new ();

  g_assert_true (hw_scene_file_save (scene, path, NULL, &error));
  photo->bytes = g_bytes_new_take (g_malloc0 (49 << 20), 49 << 20);
  g_ptr_array_add (scene->photos, photo);
  g_assert_false (hw_scene_file_save (scene, path, NULL, &error));
  g_assert_error (error, HW_SCENE_FILE_ERROR, HW_SCENE_FILE_ERROR_TOO_LARGE);
  g_assert_nonnull (strstr (error->message, "keep some photos beside the scene"));
  g_clear_error (&error);
  kept = hw_scene_file_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (kept->photos->len, ==, 0);
  g_unlink (path);
  g_rmdir (folder);
}

/* A scan at 254 dots an inch, 10 to the millimetre: black, 40 x 20 pixels, on paper. */
static void
write_scan (const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "boat.png", NULL);
  g_autoptr (GdkPixbuf) paper = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 120, 80);
  g_autoptr (GdkPixbuf) ink = gdk_pixbuf_new_subpixbuf (paper, 20, 30, 40, 20);

  gdk_pixbuf_fill (paper, 0xffffffff);
  gdk_pixbuf_fill (ink, 0x203040ff);
  g_assert_true (gdk_pixbuf_save (paper, path, "png", NULL, "x-dpi", "254", "y-dpi", "254", NULL));
}

/* One file shown by several motifs is read once; another scale makes another picture of it; what cannot be read is told and hinders nothing. */
static void
pictures_of_motifs_are_shared (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  g_autofree char *scan = g_build_filename (folder, "boat.png", NULL);
  g_autofree char *torn = g_build_filename (folder, "torn.png", NULL);
  static const char *const artworks[]
      = { "\"path\": \"boat.png\", \"kind\": \"png\"", "\"path\": \"boat.png\", \"kind\": \"png\"",
          "\"path\": \"boat.png\", \"kind\": \"png\", \"pixels_per_mm\": 5",
          "\"path\": \"torn.png\", \"kind\": \"png\"", "\"path\": \"boat.png\", \"kind\": \"wax\"" };
  g_autoptr (GString) motifs = g_string_new ("\"motifs\": [");
  g_autofree char *text = NULL;
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (GError) error = NULL;
  const HwMotif *motif[G_N_ELEMENTS (artworks)];

  write_scan (folder);
  g_assert_true (g_file_set_contents (torn, "\x89PNG\r\n\x1a\n....", -1, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (artworks); i++)
    g_string_append_printf (
        motifs,
        "{\"id\": \"b%u\", \"outline\": [[[0, 0], [9, 0], [0, 9]]], \"position\": [300, 300], "
        "\"artwork\": {%s}}, ",
        i, artworks[i]);
  text = replaced (contract, "\"motifs\": [", motifs->str);
  scene = hw_scene_file_parse (text, -1, folder, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (artworks); i++)
    motif[i] = hw_snapshot_motif (scene, i);
  g_assert_null (motif[0]->artwork_trouble);
  g_assert_nonnull (motif[0]->picture);
  g_assert_true (motif[1]->picture == motif[0]->picture);
  g_assert_cmpfloat_with_epsilon (motif[0]->picture_pixels_per_mm, 10, 0.01);
  g_assert_cmpint (ABS ((int)motif[0]->picture->width - 40), <=, 4);
  g_assert_cmpint (ABS ((int)motif[0]->picture->height - 20), <=, 4);
  g_assert_true (motif[2]->picture != motif[0]->picture);
  g_assert_cmpfloat_with_epsilon (motif[2]->picture_pixels_per_mm, 5, 0.01);
  g_assert_null (motif[3]->picture);
  g_assert_true (g_str_has_prefix (motif[3]->artwork_trouble, "torn.png: "));
  g_assert_nonnull (strstr (motif[4]->artwork_trouble, "\"wax\""));
  g_unlink (scan);
  g_unlink (torn);
  g_rmdir (folder);
}

#define ADD(name, function) g_test_add_func ("/scene-photos/" name, function)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("photos-are-read", photos_are_read);
  ADD ("what-a-point-says-more-is-kept", what_a_point_says_more_is_kept);
  ADD ("a-scene-without-them-says-nothing-of-them", a_scene_without_them_says_nothing_of_them);
  ADD ("of-a-stack-that-does-not-say-the-first-is-shown", of_a_stack_that_does_not_say_the_first_is_shown);
  ADD ("bytes-come-back", bytes_come_back);
  ADD ("threads-at-hand-are-read", threads_at_hand_are_read);
  ADD ("parts-are-read", parts_are_read);
  ADD ("artwork-says-page-and-scale", artwork_says_page_and_scale);
  ADD ("pictures-of-motifs-are-shared", pictures_of_motifs_are_shared);
  ADD ("wrong-ones-are-refused-by-name", wrong_ones_are_refused_by_name);
  ADD ("long-lists-are-refused", long_lists_are_refused);
  ADD ("photo-paths-follow-the-scene", photo_paths_follow_the_scene);
  ADD ("a-scene-that-grew-too-large-is-not-saved", a_scene_that_grew_too_large_is_not_saved);
  return g_test_run ();
}
