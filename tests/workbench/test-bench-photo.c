/* Photos of the cloth on the bench, and putting one square: verbs and sums, no screen. */
#include <glib/gstdio.h>
#include <math.h>

#include "bench-fixture.h"
#include "workbench/photo-file.h"
#include "workbench/photo-levels.h"
#include "workbench/photo-squaring.h"

static const HwPhotoPoint corners[] = { { { 100, 80 }, { 0, 0 } },
                                        { { 900, 60 }, { 700, 0 } },
                                        { { 950, 700 }, { 700, 540 } },
                                        { { 60, 720 }, { 0, 540 } } };

/* A view that puts fabric mm on a photo of 1000 x 800 px, askew. */
static HwPoint
seen (HwPoint mm)
{
  double w = 1 + 0.0003 * mm.x + 0.0005 * mm.y;

  return (HwPoint){ (60 + 1.3 * mm.x + 0.05 * mm.y) / w, (50 - 0.04 * mm.x + 1.5 * mm.y) / w };
}

static GBytes *
some_bytes (void)
{
  return g_bytes_new_static ("not looked into", 15);
}

static GPtrArray *
photos_of (HwBench *bench)
{
  return hw_scene_get_photos (hw_bench_get_scene (bench));
}

static int
shown (HwBench *bench)
{
  return hw_scene_get_photo_shown (hw_bench_get_scene (bench));
}

static char *
undo_name (HwBench *bench)
{
  char *name = NULL;

  g_object_get (bench, "undo-name", &name, NULL);
  return name;
}

static void
add (HwBench *bench, const char *name)
{
  g_autoptr (GBytes) bytes = some_bytes ();

  g_assert_true (hw_bench_add_photo (bench, "/nowhere/photo.jpg", bytes, name, "2026-05-01", FALSE, NULL));
}

static void
test_each_verb_is_one_step (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *name = NULL;
  const HwPhoto *photo;

  add (bench, "Bare linen");
  g_assert_cmpint (shown (bench), ==, 0);
  name = undo_name (bench);
  g_assert_cmpstr (name, ==, "add the photo Bare linen");
  hw_bench_square_photo (bench, 0, corners, 4, 0.02);
  hw_bench_rename_photo (bench, 0, "Linen", "no day");
  hw_bench_set_photo_look (bench, 0, 3, 0.5);
  hw_bench_set_photo_fade (bench, 0.4);
  photo = photos_of (bench)->pdata[0];
  g_assert_cmpuint (photo->n_points, ==, 4);
  g_assert_cmpfloat (photo->bow, ==, 0.02);
  g_assert_cmpstr (photo->name, ==, "Linen");
  g_assert_null (photo->taken);
  g_assert_cmpfloat (photo->brightness, ==, 1);
  g_assert_cmpfloat (photo->strength, ==, 0.5);
  for (int i = 0; i < 3; i++)
    hw_bench_undo (bench);
  photo = photos_of (bench)->pdata[0];
  g_assert_cmpstr (photo->name, ==, "Bare linen");
  g_assert_cmpstr (photo->taken, ==, "2026-05-01");
  g_assert_cmpuint (photo->n_points, ==, 4);
  hw_bench_undo (bench);
  photo = photos_of (bench)->pdata[0];
  g_assert_cmpuint (photo->n_points, ==, 0);
  hw_bench_undo (bench);
  g_assert_cmpuint (photos_of (bench)->len, ==, 0);
}

static void
test_taking_away_keeps_the_shown_one (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  add (bench, "First");
  add (bench, "Second");
  add (bench, "Third");
  hw_bench_show_photo (bench, 1);
  hw_bench_delete_photo (bench, 0);
  g_assert_cmpint (shown (bench), ==, 0);
  g_assert_cmpstr (((HwPhoto *)photos_of (bench)->pdata[0])->name, ==, "Second");
  hw_bench_delete_photo (bench, 0);
  g_assert_cmpint (shown (bench), ==, -1);
  hw_bench_undo (bench);
  g_assert_cmpint (shown (bench), ==, 0);
  /* Ones that are not there do no harm. */
  hw_bench_delete_photo (bench, 9);
  hw_bench_show_photo (bench, 9);
  g_assert_cmpint (shown (bench), ==, -1);
}

static void
test_a_photo_beside_the_scene_takes_a_free_name (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-photo-XXXXXX", NULL);
  g_autofree char *elsewhere = g_dir_make_tmp ("hoopwright-photo-XXXXXX", NULL);
  g_autofree char *scene = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autofree char *taken = g_build_filename (folder, "cloth.jpg", NULL);
  g_autofree char *second = g_build_filename (folder, "cloth-2.jpg", NULL);
  g_autofree char *from = g_build_filename (elsewhere, "cloth.jpg", NULL);
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (GBytes) bytes = some_bytes ();
  g_autofree char *copied = NULL;

  g_assert_true (hw_bench_save (bench, scene, NULL));
  g_assert_true (g_file_set_contents (taken, "another photo", -1, NULL));
  g_assert_true (g_file_set_contents (from, g_bytes_get_data (bytes, NULL), 15, NULL));
  g_assert_true (hw_bench_add_photo (bench, from, bytes, "Cloth", NULL, TRUE, NULL));
  g_assert_cmpstr (((HwPhoto *)photos_of (bench)->pdata[0])->path, ==, "cloth-2.jpg");
  g_assert_true (g_file_get_contents (second, &copied, NULL, NULL));
  g_assert_cmpstr (copied, ==, "not looked into");
  /* The same photo again needs no other copy, and one that lies there stays where it is. */
  g_assert_true (hw_bench_add_photo (bench, from, bytes, "Again", NULL, TRUE, NULL));
  g_assert_cmpstr (((HwPhoto *)photos_of (bench)->pdata[1])->path, ==, "cloth-2.jpg");
  g_assert_true (hw_bench_add_photo (bench, taken, bytes, "There", NULL, TRUE, NULL));
  g_assert_cmpstr (((HwPhoto *)photos_of (bench)->pdata[2])->path, ==, "cloth.jpg");
  g_remove (from);
  g_remove (taken);
  g_remove (second);
  g_remove (scene);
  g_rmdir (folder);
  g_rmdir (elsewhere);
}

static gboolean
is_there (const char *path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

/* Four photos come to a saved scene: the first is saved with it, the others are undone; the third lay there before, and the fourth has lost its original. */
static void
test_a_copy_stays_while_something_may_need_it (void)
{
  static const char *const names[] = { "saved.jpg", "undone.jpg", "there.jpg", "moved.jpg" };
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-photo-XXXXXX", NULL);
  g_autofree char *elsewhere = g_dir_make_tmp ("hoopwright-photo-XXXXXX", NULL);
  g_autofree char *scene = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (GBytes) bytes = some_bytes ();
  char *from[4], *copy[4];

  g_assert_true (hw_bench_save (bench, scene, NULL));
  for (guint i = 0; i < 4; i++)
    {
      from[i] = g_build_filename (elsewhere, names[i], NULL);
      copy[i] = g_build_filename (folder, names[i], NULL);
      g_assert_true (g_file_set_contents (from[i], g_bytes_get_data (bytes, NULL), 15, NULL));
    }
  g_assert_true (g_file_set_contents (copy[2], g_bytes_get_data (bytes, NULL), 15, NULL));
  for (guint i = 0; i < 4; i++)
    {
      g_assert_true (hw_bench_add_photo (bench, from[i], bytes, names[i], NULL, TRUE, NULL));
      if (i == 0)
        g_assert_true (hw_bench_save (bench, NULL, NULL));
    }
  g_remove (from[3]);
  for (guint i = 0; i < 3; i++)
    hw_bench_undo (bench);
  g_assert_true (hw_bench_save (bench, NULL, NULL));
  for (guint i = 0; i < 4; i++)
    g_assert_true (is_there (copy[i])); /* redo brings the photos back */
  hw_bench_redo (bench);
  g_assert_true (hw_bench_open (bench, scene, NULL));
  for (guint i = 0; i < 4; i++)
    {
      g_assert_cmpint (is_there (copy[i]), ==, i != 1);
      g_remove (copy[i]);
      g_remove (from[i]);
      g_free (copy[i]);
      g_free (from[i]);
    }
  g_remove (scene);
  g_rmdir (folder);
  g_rmdir (elsewhere);
}

static void
test_a_copy_goes_with_the_bench_that_gave_it_up (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-photo-XXXXXX", NULL);
  g_autofree char *elsewhere = g_dir_make_tmp ("hoopwright-photo-XXXXXX", NULL);
  g_autofree char *scene = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autofree char *from = g_build_filename (elsewhere, "cloth.jpg", NULL);
  g_autofree char *copy = g_build_filename (folder, "cloth.jpg", NULL);
  g_autoptr (GBytes) bytes = some_bytes ();

  g_assert_true (g_file_set_contents (from, g_bytes_get_data (bytes, NULL), 15, NULL));
  for (guint saved = 0; saved < 2; saved++)
    {
      g_autoptr (HwBench) bench = bench_with_orchard ();

      g_assert_true (hw_bench_save (bench, scene, NULL));
      g_assert_true (hw_bench_add_photo (bench, from, bytes, "Cloth", NULL, TRUE, NULL));
      if (saved)
        g_assert_true (hw_bench_save (bench, NULL, NULL));
      g_assert_true (is_there (copy));
      g_clear_object (&bench);
      g_assert_cmpint (is_there (copy), ==, saved);
    }
  g_remove (from);
  g_remove (copy);
  g_remove (scene);
  g_rmdir (folder);
  g_rmdir (elsewhere);
}

static void
test_a_missing_file_is_told (void)
{
  g_autoptr (HwPhoto) photo = hw_photo_new ();
  g_autoptr (GError) error = NULL;

  photo->path = g_strdup ("gone.jpg");
  g_assert_null (hw_photo_load (photo, "/nowhere", &error));
  g_assert_error (error, HW_PICTURE_ERROR, HW_PICTURE_ERROR_READ);
  g_assert_nonnull (strstr (error->message, "gone.jpg"));
}

static GPtrArray *
places_with (HwEdgeLine *edge)
{
  g_autoptr (HwSnapshot) snapshot = hw_snapshot_new ();
  HwPin *pin = hw_pin_new ();

  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  snapshot->edge_line = edge;
  pin->n_marks = 2;
  pin->marks = g_new0 (HwMark, 2);
  g_strlcpy (pin->marks[0].letter, "A", sizeof pin->marks[0].letter);
  pin->marks[0].at = (HwPoint){ 200, 300 };
  g_strlcpy (pin->marks[1].letter, "B", sizeof pin->marks[1].letter);
  pin->marks[1].at = (HwPoint){ 0, 0.01 };
  g_ptr_array_add (snapshot->frozen, pin);
  return hw_known_places (snapshot, NULL);
}

static void
test_known_places_are_named_once (void)
{
  g_autoptr (GPtrArray) places
      = places_with (hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 60, 40, 640, 500 }, 0, 2));
  const HwKnownPlace *first = g_ptr_array_index (places, 0), *third = g_ptr_array_index (places, 2),
                     *mark = g_ptr_array_index (places, 8);

  /* Four corners of the line, four of the cloth, one mark: the other lies on the cloth's corner. */
  g_assert_cmpuint (places->len, ==, 9);
  g_assert_cmpstr (first->name, ==, "Edge line, upper left");
  g_assert_cmpfloat (first->mm.x, ==, 60);
  g_assert_cmpstr (third->name, ==, "Edge line, lower right");
  g_assert_cmpfloat (third->mm.y, ==, 500);
  g_assert_cmpint (mark->kind, ==, HW_KNOWN_MARK);
  g_assert_cmpstr (mark->name, ==, "Mark of stitched hooping 1 A");
  g_assert_cmpint (hw_known_places_find (places, (HwPoint){ 640.02, 500 }), ==, 2);
  g_assert_cmpint (hw_known_places_find (places, (HwPoint){ 641, 500 }), ==, -1);
}

static void
test_without_an_edge_line_handles_begin_on_the_cloth (void)
{
  g_autoptr (GPtrArray) places = places_with (NULL);
  g_autoptr (HwSquaring) squaring = hw_squaring_new (1000, 800);

  hw_squaring_begin (squaring, places);
  g_assert_cmpuint (squaring->points->len, ==, 4);
  g_assert_cmpstr (((HwHandlePoint *)squaring->points->pdata[0])->name, ==, "Cloth, upper left");
  g_assert_true (hw_squaring_solve (squaring, FALSE));
}

/* Handles on a grid of places seen through the view. */
static HwSquaring *
squaring_with (guint across, guint down)
{
  HwSquaring *squaring = hw_squaring_new (1000, 800);

  for (guint i = 0; i < across; i++)
    for (guint k = 0; k < down; k++)
      {
        HwKnownPlace place = { HW_KNOWN_TYPED,
                               (char *)"Typed position",
                               { 600.0 * i / (across - 1), 400.0 * k / (down - 1) } };
        hw_squaring_add (squaring, seen (place.mm), &place);
      }
  return squaring;
}

static void
test_a_bad_point_is_named (void)
{
  g_autoptr (HwSquaring) squaring = squaring_with (3, 3);
  g_autofree char *good = NULL, *bad = NULL;

  g_assert_true (hw_squaring_solve (squaring, FALSE));
  good = hw_squaring_text (squaring, HW_UNIT_MM);
  g_assert_cmpstr (good, ==, "The points agree to within 0.0 mm.");
  ((HwHandlePoint *)squaring->points->pdata[5])->px.x += 12;
  g_assert_true (hw_squaring_solve (squaring, FALSE));
  g_assert_cmpint (squaring->bad, ==, 5);
  bad = hw_squaring_text (squaring, HW_UNIT_MM);
  g_assert_true (g_str_has_prefix (bad, "Point 6 (Typed position) lies "));
}

static void
test_too_few_points_are_told (void)
{
  g_autoptr (HwSquaring) squaring = squaring_with (2, 2);
  g_autofree char *text = NULL;

  hw_squaring_remove (squaring, 3);
  g_assert_false (hw_squaring_solve (squaring, FALSE));
  text = hw_squaring_text (squaring, HW_UNIT_MM);
  g_assert_cmpstr (text, !=, "");
  g_assert_true (isnan (((HwHandlePoint *)squaring->points->pdata[0])->off));
}

/* A sheet of A4, its long side along the cloth, turned by 20 degrees with its corner at 150, 120. Two other points tell where it lies. */
static void
test_two_points_tell_where_a_sheet_lies (void)
{
  g_autoptr (HwSquaring) squaring = hw_squaring_new (1000, 800);
  g_autoptr (GPtrArray) places = places_with (NULL);
  const HwPoint on_sheet[] = { { 0, 0 }, { 297, 0 }, { 297, 210 }, { 0, 210 } };
  HwPoint in_photo[4], back;
  const HwKnownPlace upper = { HW_KNOWN_TYPED, (char *)"upper", { 30, 40 } },
                     lower = { HW_KNOWN_TYPED, (char *)"lower", { 560, 420 } };

  for (guint i = 0; i < 4; i++)
    {
      HwPoint turned = hw_point_turn (on_sheet[i], 20);
      in_photo[i] = seen ((HwPoint){ turned.x + 150, turned.y + 120 });
    }
  hw_squaring_put_sheet (squaring, in_photo, 297, 210, places);
  g_assert_true (hw_squaring_solve (squaring, FALSE));
  g_assert_false (squaring->sheet_by_others);
  hw_squaring_add (squaring, seen (upper.mm), &upper);
  hw_squaring_add (squaring, seen (lower.mm), &lower);
  g_assert_true (hw_squaring_solve (squaring, FALSE));
  g_assert_true (squaring->sheet_by_others);
  g_assert_cmpfloat_with_epsilon (squaring->sheet_at.x, 150, 1e-3);
  g_assert_cmpfloat_with_epsilon (squaring->sheet_at.y, 120, 1e-3);
  g_assert_cmpfloat_with_epsilon (squaring->sheet_turn, 20, 1e-4);
  back = hw_homography_apply (&squaring->h, seen ((HwPoint){ 420, 90 }));
  g_assert_cmpfloat_with_epsilon (back.x, 420, 1e-3);
  g_assert_cmpfloat_with_epsilon (back.y, 90, 1e-3);
  /* Another paper takes the place of the one before. */
  hw_squaring_put_sheet (squaring, in_photo, 279.4, 215.9, places);
  g_assert_cmpuint (squaring->points->len, ==, 6);
}

/* Cloth that drew in by 1 % across and 0.5 % along the grain, told by a sheet of paper that did not. */
static void
test_a_sheet_tells_what_the_cloth_drew_in (void)
{
  g_autoptr (HwSquaring) squaring = hw_squaring_new (1000, 800);
  g_autoptr (GPtrArray) places = places_with (NULL);
  const HwPoint on_sheet[] = { { 0, 0 }, { 297, 0 }, { 297, 210 }, { 0, 210 } };
  const HwPoint marks[] = { { 60, 50 }, { 540, 70 }, { 500, 430 }, { 90, 400 } };
  HwPoint in_photo[4], found[4];
  HwStretch stretch;
  HwHomography h;
  double across, along;

  g_assert_false (hw_squaring_sheet_view (squaring, &h));
  for (guint i = 0; i < 4; i++)
    in_photo[i] = seen ((HwPoint){ on_sheet[i].x + 150, on_sheet[i].y + 120 });
  hw_squaring_put_sheet (squaring, in_photo, 297, 210, places);
  g_assert_true (hw_squaring_sheet_view (squaring, &h));
  for (guint i = 0; i < 4; i++)
    found[i] = hw_homography_apply (&h, seen ((HwPoint){ marks[i].x * 0.99, marks[i].y * 0.995 }));
  g_assert_true (hw_stretch_from_points (marks, found, 4, &stretch, NULL));
  hw_stretch_percents (&stretch, &across, &along);
  g_assert_cmpfloat_with_epsilon (across, -1, 0.001);
  g_assert_cmpfloat_with_epsilon (along, -0.5, 0.001);
}

static void
test_points_come_back_with_their_names (void)
{
  g_autoptr (GPtrArray) places
      = places_with (hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 60, 40, 640, 500 }, 0, 2));
  g_autoptr (HwSquaring) squaring = hw_squaring_new (1000, 800);
  g_autoptr (HwPhoto) photo = hw_photo_new ();
  g_autofree HwPhotoPoint *points = NULL;
  const HwPhotoPoint kept[] = { { { 10, 20 }, { 640, 40 } }, { { 30, 40 }, { 1, 2 } } };

  photo->points = g_memdup2 (kept, sizeof kept);
  photo->n_points = 2;
  hw_squaring_take (squaring, photo, places);
  g_assert_cmpstr (((HwHandlePoint *)squaring->points->pdata[0])->name, ==, "Edge line, upper right");
  g_assert_cmpint (((HwHandlePoint *)squaring->points->pdata[1])->kind, ==, HW_KNOWN_TYPED);
  points = hw_squaring_points (squaring);
  g_assert_cmpmem (points, sizeof kept, kept, sizeof kept);
}

static void
test_a_mark_is_put_on_its_handle (void)
{
  g_autoptr (HwSquaring) squaring = squaring_with (2, 2);
  const HwKnownPlace there = { HW_KNOWN_MARK, (char *)"Mark 1 A", { 600, 400 } },
                     new = { HW_KNOWN_MARK, (char *)"Mark 1 B", { 300, 200 } };

  g_assert_cmpuint (hw_squaring_put (squaring, (HwPoint){ 5, 6 }, &there), ==, 3);
  g_assert_cmpfloat (((HwHandlePoint *)squaring->points->pdata[3])->px.x, ==, 5);
  g_assert_cmpstr (((HwHandlePoint *)squaring->points->pdata[3])->name, ==, "Mark 1 A");
  g_assert_cmpuint (hw_squaring_put (squaring, (HwPoint){ 7, 8 }, &new), ==, 4);
}

/* Black and white squares of one pixel are grey from afar, whatever the size is divided by. */
static void
test_a_picture_from_afar_is_its_mean (void)
{
  guint8 *pixels = g_malloc (301 * 201 * 4);
  g_autoptr (HwPicture) picture = NULL;
  g_autoptr (HwPhotoLevels) levels = NULL;
  cairo_surface_t *small = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 30, 20);
  cairo_t *cr = cairo_create (small);

  for (int i = 0; i < 301 * 201; i++)
    {
      guint8 grey = (i % 301 + i / 301) % 2 ? 255 : 0;
      pixels[4 * i] = pixels[4 * i + 1] = pixels[4 * i + 2] = grey;
      pixels[4 * i + 3] = 255;
    }
  picture = hw_picture_new (301, 201, 301 * 4, pixels);
  levels = hw_photo_levels_new (picture, 20000);
  hw_photo_levels_paint (levels, cr, 0, 0, 30, 20);
  cairo_destroy (cr);
  cairo_surface_flush (small);
  for (int y = 2; y < 18; y++)
    for (int x = 2; x < 28; x++)
      {
        guint32 pixel = *(guint32 *)(void *)(cairo_image_surface_get_data (small)
                                             + y * cairo_image_surface_get_stride (small) + 4 * x);
        g_assert_cmpuint (pixel & 0xff, >=, 126);
        g_assert_cmpuint (pixel & 0xff, <=, 129);
      }
  cairo_surface_destroy (small);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench-photo/each-verb-is-one-step", test_each_verb_is_one_step);
  g_test_add_func ("/bench-photo/taking-away-keeps-the-shown-one", test_taking_away_keeps_the_shown_one);
  g_test_add_func ("/bench-photo/beside-the-scene-under-a-free-name",
                   test_a_photo_beside_the_scene_takes_a_free_name);
  g_test_add_func ("/bench-photo/copy-stays-while-needed", test_a_copy_stays_while_something_may_need_it);
  g_test_add_func ("/bench-photo/copy-goes-with-the-bench", test_a_copy_goes_with_the_bench_that_gave_it_up);
  g_test_add_func ("/bench-photo/missing-file-is-told", test_a_missing_file_is_told);
  g_test_add_func ("/bench-photo/known-places-are-named-once", test_known_places_are_named_once);
  g_test_add_func ("/bench-photo/handles-begin-on-the-cloth",
                   test_without_an_edge_line_handles_begin_on_the_cloth);
  g_test_add_func ("/bench-photo/bad-point-is-named", test_a_bad_point_is_named);
  g_test_add_func ("/bench-photo/too-few-points-are-told", test_too_few_points_are_told);
  g_test_add_func ("/bench-photo/two-points-tell-where-a-sheet-lies",
                   test_two_points_tell_where_a_sheet_lies);
  g_test_add_func ("/bench-photo/sheet-tells-what-the-cloth-drew-in",
                   test_a_sheet_tells_what_the_cloth_drew_in);
  g_test_add_func ("/bench-photo/points-come-back-with-their-names", test_points_come_back_with_their_names);
  g_test_add_func ("/bench-photo/mark-is-put-on-its-handle", test_a_mark_is_put_on_its_handle);
  g_test_add_func ("/bench-photo/from-afar-a-picture-is-its-mean", test_a_picture_from_afar_is_its_mean);
  return g_test_run ();
}
