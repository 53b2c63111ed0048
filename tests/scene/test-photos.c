/* Photographs, threads at hand and parts as the scene keeps them: told when they change, kept by snapshots, brought back by them. */
#include <math.h>
#include <string.h>

#include "scene-pieces.h"
#include "scene/picture.h"
#include "scene/scene.h"

typedef struct
{
  HwScene *scene;
  guint flags;
  guint n;
} Heard;

static void
changed_cb (HwScene *scene, guint flags, Heard *heard)
{
  heard->flags |= flags;
  heard->n++;
}

static guint
take_flags (Heard *heard)
{
  guint flags = heard->flags;

  heard->flags = 0;
  return flags;
}

static void
listen (Heard *heard)
{
  *heard = (Heard){ .scene = hw_scene_new () };
  g_signal_connect (heard->scene, "changed", G_CALLBACK (changed_cb), heard);
}

static HwPhoto *
make_photo (const char *name)
{
  HwPhoto *photo = hw_photo_new ();
  HwPhotoPoint point = { { 10, 20 }, { 1, 2 } };

  g_free (photo->name);
  photo->name = g_strdup (name);
  photo->path = g_strdup ("cloth.jpg");
  photo->points = g_memdup2 (&point, sizeof point);
  photo->n_points = 1;
  return photo;
}

static GPtrArray *
make_photos (const char *first, const char *second)
{
  GPtrArray *photos = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_photo_unref);

  g_ptr_array_add (photos, make_photo (first));
  if (second != NULL)
    g_ptr_array_add (photos, make_photo (second));
  return photos;
}

static void
test_photos_are_told_and_brought_back (void)
{
  g_autoptr (GPtrArray) photos = make_photos ("before", "after");
  g_autoptr (GPtrArray) same = make_photos ("before", "after");
  g_autoptr (HwSnapshot) empty = NULL, full = NULL;
  Heard heard;

  listen (&heard);
  empty = hw_scene_snapshot (heard.scene);
  g_assert_cmpint (empty->photo_shown, ==, -1);
  hw_scene_set_photos (heard.scene, photos, 1, 0.25);
  g_assert_cmpuint (take_flags (&heard), ==, HW_SCENE_CHANGE_PHOTOS);
  hw_scene_set_photos (heard.scene, same, 1, 0.25);
  g_assert_cmpuint (take_flags (&heard), ==, 0);
  full = hw_scene_snapshot (heard.scene);
  g_assert_cmpuint (hw_snapshot_difference (empty, full), ==, HW_SCENE_CHANGE_PHOTOS);
  g_assert_cmpuint (full->photos->len, ==, 2);

  hw_scene_restore (heard.scene, empty);
  g_assert_cmpuint (take_flags (&heard), ==, HW_SCENE_CHANGE_PHOTOS);
  g_assert_cmpuint (hw_scene_get_photos (heard.scene)->len, ==, 0);
  g_assert_cmpint (hw_scene_get_photo_shown (heard.scene), ==, -1);
  hw_scene_restore (heard.scene, full);
  g_assert_cmpuint (hw_scene_get_photos (heard.scene)->len, ==, 2);
  g_assert_cmpint (hw_scene_get_photo_shown (heard.scene), ==, 1);
  g_assert_cmpfloat (hw_scene_get_photo_fade (heard.scene), ==, 0.25);
  g_object_unref (heard.scene);
}

static void
test_the_photo_shown_is_one_of_them (void)
{
  g_autoptr (GPtrArray) photos = make_photos ("before", NULL);
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  Heard heard;

  listen (&heard);
  hw_scene_set_photos (heard.scene, photos, 7, 3);
  g_assert_cmpint (hw_scene_get_photo_shown (heard.scene), ==, 0);
  g_assert_cmpfloat (hw_scene_get_photo_fade (heard.scene), ==, 1);
  hw_scene_show_photo (heard.scene, -1);
  g_assert_cmpint (hw_scene_get_photo_shown (heard.scene), ==, -1);
  hw_scene_show_photo (heard.scene, 0);
  hw_scene_set_photo_fade (heard.scene, 0.5);
  g_assert_cmpuint (hw_scene_get_photos (heard.scene)->len, ==, 1);
  hw_scene_set_photos (heard.scene, none, 0, 0);
  g_assert_cmpint (hw_scene_get_photo_shown (heard.scene), ==, -1);
  g_object_unref (heard.scene);
}

/* Each thing a photograph says makes another photograph of it. */
static void
test_photos_compare (void)
{
  g_autoptr (HwPhoto) photo = make_photo ("cloth");
  g_autoptr (HwPhoto) copy = hw_photo_copy (photo);

  g_assert_true (hw_photo_equal (photo, copy));
  copy->points[0].mm.y = 2.5;
  g_assert_false (hw_photo_equal (photo, copy));
  copy->points[0].mm.y = 2;
  copy->bow = 0.01;
  g_assert_false (hw_photo_equal (photo, copy));
  copy->bow = 0;
  copy->taken = g_strdup ("2026-11-25");
  g_assert_false (hw_photo_equal (photo, copy));
  g_clear_pointer (&copy->taken, g_free);
  g_assert_true (hw_photo_equal (photo, copy));
  copy->bytes = g_bytes_new_static ("abc", 3);
  g_assert_false (hw_photo_equal (photo, copy));
}

static void
test_a_palette_leaves_the_plan_alone (void)
{
  g_autoptr (GPtrArray) palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);
  Heard heard;

  g_ptr_array_add (palette, hw_palette_thread_new ("moss", "17", (HwLab){ 40, -20, 20 }, 120));
  listen (&heard);
  hw_scene_set_palette (heard.scene, palette);
  g_assert_cmpuint (heard.flags, ==, HW_SCENE_CHANGE_PALETTE);
  g_assert_cmpuint (heard.flags & HW_SCENE_CHANGE_PLAN_SPEAKS, ==, 0);
  g_assert_cmpuint (hw_scene_get_palette (heard.scene)->len, ==, 1);
  g_object_unref (heard.scene);
}

static void
test_parts_order_the_plan (void)
{
  static const char *const upper[] = { "m1", "m2", NULL };
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_part_unref);
  g_autoptr (HwSnapshot) before = NULL;
  Heard heard;

  g_ptr_array_add (parts, hw_part_new ("Upper", upper));
  g_ptr_array_add (parts, hw_part_new ("Lower", NULL));
  listen (&heard);
  before = hw_scene_snapshot (heard.scene);
  hw_scene_set_parts (heard.scene, parts);
  g_assert_cmpuint (take_flags (&heard), ==, HW_SCENE_CHANGE_ORDER);
  g_assert_cmpint (hw_parts_find (hw_scene_get_parts (heard.scene), "m2"), ==, 0);
  g_assert_cmpint (hw_parts_find (hw_scene_get_parts (heard.scene), "m3"), ==, -1);
  hw_scene_restore (heard.scene, before);
  g_assert_cmpuint (hw_scene_get_parts (heard.scene)->len, ==, 0);
  g_object_unref (heard.scene);
}

static void
test_a_motif_taken_out_leaves_its_part (void)
{
  static const char *const upper[] = { "m1", "m2", NULL };
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_part_unref);
  g_autoptr (HwScene) scene = hw_scene_new ();
  const HwPart *part;

  for (guint i = 0; upper[i] != NULL; i++)
    {
      g_autoptr (HwMotif) record = make_motif (upper[i], 100, 100);
      g_autoptr (HwSceneMotif) motif = hw_scene_motif_new (record);

      hw_scene_insert_motif (scene, i, motif);
    }
  g_ptr_array_add (parts, hw_part_new ("Upper", upper));
  hw_scene_set_parts (scene, parts);
  g_assert_true (hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m1")));
  part = hw_scene_get_parts (scene)->pdata[0];
  g_assert_cmpuint (g_strv_length (part->motifs), ==, 1);
  g_assert_cmpstr (part->motifs[0], ==, "m2");
  g_assert_true (hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m2")));
  part = hw_scene_get_parts (scene)->pdata[0];
  g_assert_cmpstr (part->name, ==, "Upper");
  g_assert_cmpuint (g_strv_length (part->motifs), ==, 0);
}

/* A reading typed at the machine is nothing the plan minds and nothing its sentences speak of. */
static void
test_work_and_log_leave_the_plan_alone (void)
{
  g_autoptr (HwLogLine) line = hw_log_line_new (1, HW_LOG_NOTE, NULL, "tea");
  Heard heard;

  listen (&heard);
  hw_scene_add_log_line (heard.scene, line);
  g_assert_cmpuint (heard.flags, ==, HW_SCENE_CHANGE_WORK);
  g_assert_cmpuint (heard.flags & HW_SCENE_CHANGE_PLAN_SPEAKS, ==, 0);
  g_object_unref (heard.scene);
}

static HwPicture *
make_picture (guint8 red, guint8 green, guint8 blue, guint8 opacity)
{
  const guint8 pixel[] = { red, green, blue, opacity };

  return hw_picture_new (1, 1, 4, g_memdup2 (pixel, sizeof pixel));
}

/* ITU-R BT.709: 0.2126, 0.7152 and 0.0722 of red, green and blue. */
static void
test_grey_of_a_picture (void)
{
  static const guint8 pixels[][5]
      = { { 255, 255, 255, 255, 255 }, { 0, 0, 0, 255, 0 },    { 0, 0, 0, 0, 255 },  { 255, 0, 0, 255, 54 },
          { 0, 255, 0, 255, 182 },     { 0, 0, 255, 255, 18 }, { 0, 0, 0, 128, 127 } };

  for (guint i = 0; i < G_N_ELEMENTS (pixels); i++)
    {
      g_autoptr (HwPicture) picture = make_picture (pixels[i][0], pixels[i][1], pixels[i][2], pixels[i][3]);

      g_assert_cmpuint (hw_picture_grey (picture, 0, 0), ==, pixels[i][4]);
    }
}

static void
test_a_motif_keeps_its_picture (void)
{
  g_autoptr (HwMotif) motif = make_motif ("m1", 0, 0);
  g_autoptr (HwMotif) copy = NULL;

  motif->picture = make_picture (1, 2, 3, 255);
  motif->picture_pixels_per_mm = 4;
  motif->artwork_page = 2;
  motif->artwork_pixels_per_mm = 11.8;
  copy = hw_motif_copy (motif);
  g_assert_true (copy->picture == motif->picture);
  g_assert_cmpuint (copy->artwork_page, ==, 2);
  g_assert_cmpfloat (copy->artwork_pixels_per_mm, ==, 11.8);
  g_assert_cmpfloat (copy->picture_pixels_per_mm, ==, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/photos/told-and-brought-back", test_photos_are_told_and_brought_back);
  g_test_add_func ("/photos/the-photo-shown-is-one-of-them", test_the_photo_shown_is_one_of_them);
  g_test_add_func ("/photos/compare", test_photos_compare);
  g_test_add_func ("/palette/leaves-the-plan-alone", test_a_palette_leaves_the_plan_alone);
  g_test_add_func ("/parts/order-the-plan", test_parts_order_the_plan);
  g_test_add_func ("/parts/a-motif-taken-out-leaves-its-part", test_a_motif_taken_out_leaves_its_part);
  g_test_add_func ("/photos/work-and-log-leave-the-plan-alone", test_work_and_log_leave_the_plan_alone);
  g_test_add_func ("/picture/grey", test_grey_of_a_picture);
  g_test_add_func ("/picture/a-motif-keeps-its-picture", test_a_motif_keeps_its_picture);
  return g_test_run ();
}
