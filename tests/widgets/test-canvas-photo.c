/* The photograph under the motifs: it is seen in its place and strength, read anew when its file or the cloth is another, and the motifs fade before it. */
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>

#include "../folders.h"
#include "../workbench/bench-fixture.h"
#include "table-fixture.h"

typedef struct
{
  Table table;
  char *told; /* what the window would be told of the photo */
  char *folder;
} Fixture;

static const HwPhotoPoint corners[] = { { { 0, 0 }, { 0, 0 } },
                                        { { 400, 0 }, { 700, 0 } },
                                        { { 400, 300 }, { 700, 500 } },
                                        { { 0, 300 }, { 0, 500 } } };

static void
tell_cb (GSimpleAction *action, GVariant *sentence, gpointer told)
{
  g_free (*(char **)told);
  *(char **)told = g_variant_dup_string (sentence, NULL);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  static const GActionEntry entries[] = { { "tell-of-photo", tell_cb, "s" } };
  g_autoptr (GSimpleActionGroup) actions = g_simple_action_group_new ();

  table_set_up (&f->table, NULL);
  g_action_map_add_action_entries (G_ACTION_MAP (actions), entries, 1, &f->told);
  gtk_widget_insert_action_group (GTK_WIDGET (f->table.window), "win", G_ACTION_GROUP (actions));
  f->folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  table_tear_down (&f->table, NULL);
  folder_remove (f->folder);
  g_free (f->folder);
  g_free (f->told);
}

static GBytes *
picture (guint32 colour)
{
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 400, 300);
  char *png = NULL;
  gsize n = 0;

  gdk_pixbuf_fill (picture, colour);
  g_assert_true (gdk_pixbuf_save_to_buffer (picture, &png, &n, "png", NULL, NULL));
  return g_bytes_new_take (png, n);
}

static void
add_square (Fixture *f, guint32 colour)
{
  g_autoptr (GBytes) bytes = picture (colour);

  g_assert_true (
      hw_bench_add_photo (f->table.bench, "/nowhere/linen.png", bytes, "Bare linen", NULL, FALSE, NULL));
  hw_bench_square_photo (f->table.bench, 0, corners, 4, 0);
  hands_settle ();
}

static void
until_sharp (Fixture *f)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (!hw_canvas_photo_is_sharp (f->table.canvas))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (500);
    }
  hands_settle ();
}

/* What was read is forgotten, so that it is read again: seen between two turns of the loop, for reading may be over in no time. */
static void
until_read_again (Fixture *f)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (hw_canvas_photo_is_sharp (f->table.canvas))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
    }
  until_sharp (f);
}

static guint
red (Fixture *f)
{
  return hands_reddish (GTK_WIDGET (f->table.canvas));
}

static void
until_told (Fixture *f)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (f->told == NULL)
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (500);
    }
}

static void
it_is_seen_in_its_place_and_strength (Fixture *f, gconstpointer data)
{
  guint none = red (f), all;

  add_square (f, 0xc01818ff);
  until_sharp (f);
  all = red (f);
  g_assert_cmpuint (all, >, none + 100000);
  hw_bench_set_photo_look (f->table.bench, 0, 1, 1); /* as bright as may be */
  g_assert_cmpuint (red (f), <, all / 10);
  hw_bench_set_photo_look (f->table.bench, 0, -1, 1); /* and as dark */
  g_assert_cmpuint (red (f), <, all / 10);
  hw_bench_set_photo_look (f->table.bench, 0, 0, 0); /* hardly there */
  g_assert_cmpuint (red (f), <, all / 10);
  hw_bench_set_photo_look (f->table.bench, 0, 0, 1);
  g_assert_cmpuint (red (f), >, all / 2);
  hw_bench_show_photo (f->table.bench, -1);
  hands_settle ();
  g_assert_cmpuint (red (f), <, all / 10);
  g_assert_false (hw_canvas_photo_is_sharp (f->table.canvas));
}

/* What makes no other picture of it does not have it read again. */
static void
it_is_read_again_only_for_another_picture (Fixture *f, gconstpointer data)
{
  HwPhotoPoint moved[4];

  add_square (f, 0xc01818ff);
  until_sharp (f);
  hw_bench_rename_photo (f->table.bench, 0, "Linen by the window", "2026-05-01");
  hands_settle ();
  g_assert_true (hw_canvas_photo_is_sharp (f->table.canvas));
  memcpy (moved, corners, sizeof moved);
  moved[2].mm.x = 640;
  hw_bench_square_photo (f->table.bench, 0, moved, 4, 0);
  until_read_again (f);
  moved[1].px.y = 12;
  hw_bench_square_photo (f->table.bench, 0, moved, 4, 0);
  until_read_again (f);
  hw_bench_square_photo (f->table.bench, 0, moved, 4, 0.01);
  until_read_again (f);
  /* Not put square any more, it has no place on the cloth. */
  hw_bench_square_photo (f->table.bench, 0, moved, 3, 0);
  hands_settle ();
  g_assert_false (hw_canvas_photo_is_sharp (f->table.canvas));
  g_assert_cmpuint (red (f), <, 1000);
}

static void
another_cloth_shows_another_part_of_it (Fixture *f, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (f->table.bench);
  HwFabric fabric = *hw_scene_get_fabric (scene);

  add_square (f, 0xc01818ff);
  until_sharp (f);
  fabric.width -= 100;
  hw_scene_set_fabric (scene, &fabric);
  until_read_again (f);
  fabric.height -= 50;
  hw_scene_set_fabric (scene, &fabric);
  until_read_again (f);
}

/* A photo may show a corner of the cloth only, or more than the cloth. */
static void
a_photo_of_a_corner_is_no_less_sharp (Fixture *f, gconstpointer data)
{
  static const HwPhotoPoint corner[] = { { { 0, 0 }, { 400, 250 } },
                                         { { 400, 0 }, { 1100, 250 } },
                                         { { 400, 300 }, { 1100, 775 } },
                                         { { 0, 300 }, { 400, 775 } } };
  guint none = red (f), part;

  add_square (f, 0xc01818ff);
  until_sharp (f);
  guint all = red (f);
  hw_bench_square_photo (f->table.bench, 0, corner, 4, 0);
  until_read_again (f);
  part = red (f);
  g_assert_cmpuint (part, >, none + 1000);
  g_assert_cmpuint (part, <, all * 3 / 4);
}

static void
points_that_tell_no_square_are_told (Fixture *f, gconstpointer data)
{
  static const HwPhotoPoint line[] = {
    { { 0, 0 }, { 0, 0 } }, { { 100, 0 }, { 100, 0 } }, { { 200, 0 }, { 200, 0 } }, { { 300, 0 }, { 300, 0 } }
  };

  add_square (f, 0xc01818ff);
  until_sharp (f);
  hw_bench_square_photo (f->table.bench, 0, line, 4, 0);
  until_told (f);
  g_assert_cmpuint (strlen (f->told), >, 10);
  g_assert_false (hw_canvas_photo_is_sharp (f->table.canvas));
}

/* A photo beside the scene follows its file; one that is gone stays as it was last read, and that is told. */
static void
it_follows_its_file (Fixture *f, gconstpointer data)
{
  g_autofree char *scene = g_build_filename (f->folder, "orchard.hoopscene", NULL);
  g_autoptr (GBytes) first = picture (0xc01818ff), second = picture (0x1818c0ff);
  g_autofree char *photo = NULL;
  guint all;

  g_assert_true (hw_bench_save (f->table.bench, scene, NULL));
  g_assert_true (
      hw_bench_add_photo (f->table.bench, "/nowhere/linen.png", first, "Bare linen", NULL, TRUE, NULL));
  hw_bench_square_photo (f->table.bench, 0, corners, 4, 0);
  hands_settle ();
  until_sharp (f);
  all = red (f);
  g_assert_cmpuint (all, >, 100000);
  const HwPhoto *record = g_ptr_array_index (hw_scene_get_photos (hw_bench_get_scene (f->table.bench)), 0);
  photo = g_canonicalize_filename (record->path, f->folder);
  g_assert_true (
      g_file_set_contents (photo, g_bytes_get_data (second, NULL), (gssize)g_bytes_get_size (second), NULL));
  hw_canvas_reread_photo (f->table.canvas);
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  while (red (f) > all / 10)
    g_assert_cmpint (g_get_monotonic_time (), <, end);
  until_sharp (f);
  g_assert_null (f->told);
  g_remove (photo);
  hw_canvas_reread_photo (f->table.canvas);
  until_told (f);
  g_assert_nonnull (strstr (f->told, "linen"));
  g_assert_true (hw_canvas_photo_is_sharp (f->table.canvas));
  g_assert_cmpuint (red (f), <, all / 10);
}

/* There is nothing to read again for a photo the scene keeps itself. */
static void
a_photo_within_the_scene_has_no_file_to_follow (Fixture *f, gconstpointer data)
{
  hw_canvas_reread_photo (f->table.canvas);
  add_square (f, 0xc01818ff);
  until_sharp (f);
  hw_canvas_reread_photo (f->table.canvas);
  g_assert_true (hw_canvas_photo_is_sharp (f->table.canvas));
}

static void
motifs_stand_back_before_it (Fixture *f, gconstpointer data)
{
  HwBench *bench = f->table.bench;
  HwCanvas *canvas = f->table.canvas;

  hw_bench_set_photo_fade (bench, 0.4);
  g_assert_cmpfloat (hw_canvas_photo_alpha (canvas, "m1"), ==, 1); /* no photo: nothing to stand back from */
  add_square (f, 0xc01818ff);
  until_sharp (f);
  g_assert_true (hw_bench_mark_stitched (bench, 0));
  wait_for_plan (bench);
  const HwPin *pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (bench)), 0);
  const char *other = g_strv_contains ((const char *const *)pin->motifs, "m3") ? "m1" : "m3";
  g_assert_cmpfloat_with_epsilon (hw_canvas_photo_alpha (canvas, other), 1 - 0.9 * 0.4, 1e-9);
  /* What is stitched shows in the photo itself: it goes twice as fast, and not below nothing. */
  g_assert_cmpfloat_with_epsilon (hw_canvas_photo_alpha (canvas, pin->motifs[0]), 1 - 2 * 0.4, 1e-9);
  hw_bench_set_photo_fade (bench, 0.8);
  g_assert_cmpfloat (hw_canvas_photo_alpha (canvas, pin->motifs[0]), ==, 0);
  hw_bench_set_photo_fade (bench, 0);
  g_assert_cmpfloat (hw_canvas_photo_alpha (canvas, pin->motifs[0]), ==, 1);
}

/* While it is still being read it is taken away, or the table closes. */
static void
it_goes_while_it_is_read (Fixture *f, gconstpointer data)
{
  add_square (f, 0xc01818ff);
  hw_bench_delete_photo (f->table.bench, 0);
  hands_settle ();
  for (guint i = 0; i < 20; i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (2000);
    }
  g_assert_false (hw_canvas_photo_is_sharp (f->table.canvas));
  g_assert_null (f->told);
  add_square (f, 0xc01818ff);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/canvas-photo/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (it_is_seen_in_its_place_and_strength);
  ADD (it_is_read_again_only_for_another_picture);
  ADD (another_cloth_shows_another_part_of_it);
  ADD (a_photo_of_a_corner_is_no_less_sharp);
  ADD (points_that_tell_no_square_are_told);
  ADD (it_follows_its_file);
  ADD (a_photo_within_the_scene_has_no_file_to_follow);
  ADD (motifs_stand_back_before_it);
  ADD (it_goes_while_it_is_read);
  return g_test_run ();
}
