/* Files become motifs: outline, threads, name, place, artwork shared; outlines by hand; threads at hand. */
#include "bench-fixture.h"

#include <glib/gstdio.h>
#include <string.h>

#include "formats/stitched-area.h"
#include "geometry/region.h"
#include "workbench/motif-import.h"

/* Rows of filling 0.4 mm apart over 30 x 20 mm, then a line in another thread that goes out to (40, 0). */
static char *
leaf_csv (void)
{
  GString *csv = g_string_new ("x_mm,y_mm,action,thread\n");

  for (guint row = 0; row <= 50; row++)
    for (guint i = 0; i <= 10; i++)
      {
        double x = row % 2 == 0 ? i * 3.0 : 30 - i * 3.0;
        g_string_append_printf (csv, "%.2f,%.2f,stitch,moss\n", x - 15, row * 0.4 - 10);
      }
  g_string_append (csv, "15,0,trim,moss\n15,0,colour,oak\n15,0,jump,oak\n");
  for (guint i = 0; i <= 10; i++)
    g_string_append_printf (csv, "%.2f,0,stitch,oak\n", 15 + i * 2.5);
  g_string_append (csv, "40,0,end,oak\n");
  return g_string_free (csv, FALSE);
}

static char *
write_leaf (const char *folder)
{
  g_autofree char *csv = leaf_csv ();
  char *path = g_build_filename (folder, "pear-leaf.csv", NULL);

  g_assert_true (g_file_set_contents (path, csv, -1, NULL));
  return path;
}

static void
test_outline_covers_the_stitches_closely (void)
{
  g_autofree char *folder = g_dir_make_tmp ("import-XXXXXX", NULL);
  g_autofree char *path = write_leaf (folder);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwMotif) motif = hw_motif_from_file (path, folder, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (motif->name, ==, "Pear leaf");
  g_assert_cmpstr (motif->artwork, ==, "pear-leaf.csv");
  for (guint i = 0; i < motif->needles->n_points; i++)
    {
      const HwNeedlePoint *p = &motif->needles->points[i];
      g_assert_true (p->action != HW_NEEDLE_STITCH
                     || hw_outline_contains (motif->outline, (HwPoint){ p->x, p->y }));
    }
  /* 600 mm2 of filling and 25 mm of line: neither much more nor one mm2 less. */
  double area = hw_outline_area (motif->outline);
  g_assert_cmpfloat (area, >, 600);
  g_assert_cmpfloat (area, <, 600 + 2 * 50 * 1.6 + 25 * 3.2);
  g_assert_cmpuint (motif->outline->n_rings, ==, 1);
  g_assert_cmpuint (motif->outline->rings[0].n_points, <, 80);
  g_assert_true (hw_outline_is_simple (motif->outline));

  g_assert_cmpuint (motif->n_threads, ==, 2);
  g_assert_cmpstr (motif->threads[0].name, ==, "moss");
  g_assert_cmpuint (motif->threads[0].stitches, ==, 51 * 11);
  g_assert_cmpstr (motif->threads[1].name, ==, "oak");
  g_assert_cmpuint (motif->threads[1].stitches, ==, 11);
  g_unlink (path);
  g_rmdir (folder);
}

static void
wait_for_artwork (HwBench *bench)
{
  gboolean reading;

  for (;;)
    {
      g_object_get (bench, "reading", &reading, NULL);
      if (!reading)
        return;
      g_main_context_iteration (NULL, TRUE);
    }
}

static void
test_imported_motif_lies_on_the_cloth_and_is_planned (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *folder = g_dir_make_tmp ("import-XXXXXX", NULL);
  g_autofree char *path = write_leaf (folder);
  g_autoptr (GError) error = NULL;

  wait_for_plan (bench);
  g_assert_true (hw_motif_import (bench, path, &error));
  g_assert_no_error (error);
  wait_for_plan (bench);
  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, 3);
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  const HwMotif *record = hw_scene_motif_get_record (g_ptr_array_index (selection, 0));
  g_assert_cmpfloat (record->placement.position.x, ==, 350);
  g_assert_cmpfloat (record->placement.position.y, ==, 270);

  /* Saved beside the list, the scene finds it again. */
  g_autofree char *scene = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autoptr (HwBench) other = hw_bench_new ();
  g_assert_true (hw_bench_save (bench, scene, &error));
  g_assert_true (hw_bench_open (other, scene, &error));
  g_assert_no_error (error);
  wait_for_artwork (other);
  HwSceneMotif *again = hw_scene_find_motif (hw_bench_get_scene (other), record->id);
  g_assert_nonnull (hw_scene_motif_get_record (again)->needles);
  g_assert_null (hw_scene_motif_get_record (again)->artwork_trouble);

  hw_bench_undo (bench);
  g_assert_cmpuint (g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (bench))), ==, 3);
  g_unlink (scene);
  g_unlink (path);
  g_rmdir (folder);
}

static void
test_copy_saved_elsewhere_finds_its_artwork (void)
{
  g_autofree char *from = g_dir_make_tmp ("import-XXXXXX", NULL);
  g_autofree char *to = g_dir_make_tmp ("import-XXXXXX", NULL);
  g_autofree char *leaf = write_leaf (from);
  g_autofree char *first = g_build_filename (from, "orchard.hoopscene", NULL);
  g_autofree char *second = g_build_filename (to, "orchard.hoopscene", NULL);
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_bench_save (bench, first, &error));
  g_assert_true (hw_motif_import (bench, leaf, &error));
  g_assert_true (hw_bench_save (bench, NULL, &error));
  g_assert_no_error (error);

  g_autoptr (HwBench) copy = hw_bench_new ();
  g_assert_true (hw_bench_open_copy (copy, first, &error));
  g_assert_true (hw_bench_save (copy, second, &error));
  g_assert_true (hw_bench_save (copy, NULL, &error));
  g_assert_no_error (error);

  g_autoptr (HwBench) again = hw_bench_new ();
  g_assert_true (hw_bench_open (again, second, &error));
  wait_for_artwork (again);
  g_assert_no_error (error);
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (again));
  g_autoptr (HwSceneMotif) added = g_list_model_get_item (motifs, 3);
  g_assert_cmpstr (hw_scene_motif_get_record (added)->artwork_trouble, ==, NULL);
  g_assert_nonnull (hw_scene_motif_get_record (added)->needles);
  g_unlink (first);
  g_unlink (second);
  g_unlink (leaf);
  g_rmdir (from);
  g_rmdir (to);
}

static void
test_list_without_stitches_is_refused (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  int file = g_file_open_tmp ("empty-XXXXXX.csv", &path, NULL);

  g_close (file, NULL);
  g_assert_true (g_file_set_contents (path, "x_mm,y_mm,action,thread\n3,4,stitch,moss\n", -1, NULL));
  g_assert_false (hw_motif_import (bench, path, &error));
  g_assert_nonnull (error);
  g_assert_cmpuint (g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (bench))), ==, 3);
  g_unlink (path);
}

static const char stone_svg[]
    = "<svg xmlns='http://www.w3.org/2000/svg' width='30mm' height='30mm' viewBox='0 0 30 30'>"
      "<rect width='30' height='20' fill='#886644'/></svg>";

static char *
write_stone (const char *folder)
{
  char *path = g_build_filename (folder, "stone.svg", NULL);

  g_assert_true (g_file_set_contents (path, stone_svg, -1, NULL));
  return path;
}

static const HwMotif *
record_at (HwBench *bench, guint index)
{
  g_autoptr (HwSceneMotif) motif
      = g_list_model_get_item (hw_scene_get_motifs (hw_bench_get_scene (bench)), index);

  return hw_scene_motif_get_record (motif);
}

static void
read_files_cb (GObject *source, GAsyncResult *result, gpointer done)
{
  *(gboolean *)done = TRUE;
}

static void
test_several_files_come_in_side_by_side_as_one_step (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *folder = g_dir_make_tmp ("import-XXXXXX", NULL);
  g_autofree char *leaf = write_leaf (folder);
  g_autofree char *stone = write_stone (folder);
  g_autofree char *none = g_build_filename (folder, "not-there.png", NULL);
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_file_free);
  g_autoptr (GPtrArray) motifs = g_ptr_array_new ();
  HwPoint at = { 200, 150 };
  gboolean done = FALSE;

  g_ptr_array_add (files, hw_motif_file_new (leaf));
  g_ptr_array_add (files, hw_motif_file_new (none));
  g_ptr_array_add (files, hw_motif_file_new (stone));
  hw_motif_files_read_async (files, NULL, read_files_cb, &done);
  while (!done)
    g_main_context_iteration (NULL, TRUE);

  const HwMotifFile *bad = files->pdata[1];
  g_assert_null (bad->motif);
  g_assert_nonnull (strstr (bad->trouble, "not-there.png"));
  g_ptr_array_add (motifs, ((HwMotifFile *)files->pdata[0])->motif);
  g_ptr_array_add (motifs, ((HwMotifFile *)files->pdata[2])->motif);
  hw_bench_add_motifs (bench, motifs, &at);
  g_assert_cmpuint (hw_bench_get_n_selected (bench), ==, 2);

  const HwMotif *first = record_at (bench, 3), *second = record_at (bench, 4);
  g_autoptr (HwOutline) a = hw_outline_place (first->outline, &first->placement);
  g_autoptr (HwOutline) b = hw_outline_place (second->outline, &second->placement);
  g_assert_cmpfloat (hw_outline_distance (a, b), >=, 9.9);
  g_assert_cmpstr (second->artwork_kind, ==, "svg");
  g_assert_nonnull (second->picture);
  g_assert_cmpfloat_with_epsilon (second->outline->box.x1 - second->outline->box.x0, 30, 0.2);
  g_assert_cmpfloat_with_epsilon (second->outline->box.y1 - second->outline->box.y0, 20, 0.2);

  hw_bench_undo (bench);
  g_assert_cmpuint (g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (bench))), ==, 3);
  g_unlink (leaf);
  g_unlink (stone);
  g_rmdir (folder);
}

static void
test_artwork_used_twice_is_kept_once (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *folder = g_dir_make_tmp ("import-XXXXXX", NULL);
  g_autofree char *leaf = write_leaf (folder);
  g_autofree char *stone = write_stone (folder);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (hw_motif_import (bench, leaf, &error));
      g_assert_true (hw_motif_import (bench, stone, &error));
    }
  g_assert_true (record_at (bench, 3)->needles == record_at (bench, 5)->needles);
  g_assert_true (record_at (bench, 4)->picture == record_at (bench, 6)->picture);
  g_assert_true (record_at (bench, 4)->outline == record_at (bench, 6)->outline);
  g_assert_cmpstr (record_at (bench, 6)->name, ==, "Stone 2");

  /* Drawn anew meanwhile, it is another picture. */
  g_assert_true (g_file_set_contents (stone,
                                      "<svg xmlns='http://www.w3.org/2000/svg' width='30mm' height='30mm'>"
                                      "<rect width='50' height='50' fill='#224488'/></svg>",
                                      -1, NULL));
  g_assert_true (hw_motif_import (bench, stone, &error));
  g_assert_true (record_at (bench, 7)->picture != record_at (bench, 4)->picture);
  g_unlink (leaf);
  g_unlink (stone);
  g_rmdir (folder);
}

static void
test_artwork_is_named_from_the_folder_the_scene_gets (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *folder = g_dir_make_tmp ("import-XXXXXX", NULL);
  g_autofree char *stone = write_stone (folder);
  g_autofree char *scene = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_motif_import (bench, stone, &error));
  g_assert_true (g_path_is_absolute (record_at (bench, 3)->artwork));
  g_assert_true (hw_bench_save (bench, scene, &error));
  g_assert_true (g_file_get_contents (scene, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "\"stone.svg\""));
  g_assert_null (strstr (text, folder));
  /* And again, now that it has a folder. */
  g_clear_pointer (&text, g_free);
  g_assert_true (hw_bench_save (bench, NULL, &error));
  g_assert_true (g_file_get_contents (scene, &text, NULL, NULL));
  g_assert_null (strstr (text, folder));
  g_unlink (scene);
  g_unlink (stone);
  g_rmdir (folder);
}

static void
test_outline_by_hand_is_mended_or_refused (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *id = g_strdup (record_at (bench, 0)->id);
  HwPoint bow[] = { { -20, -20 }, { 20, 20 }, { 20, -20 }, { -20, 20 } };
  HwPoint line[] = { { 0, 0 }, { 10, 10 }, { 20, 20 } };
  HwRing crossing = { bow, 4 }, flat = { line, 3 };
  g_autoptr (HwOutline) crossed = hw_outline_new (&crossing, 1);
  g_autoptr (HwOutline) nothing = hw_outline_new (&flat, 1);
  g_autoptr (HwOutline) before = hw_outline_ref (record_at (bench, 0)->outline);
  g_autofree char *refusal = NULL;

  g_assert_false (hw_bench_set_outline (bench, id, nothing, &refusal));
  g_assert_nonnull (strstr (refusal, "no area"));
  g_assert_true (record_at (bench, 0)->outline == before);

  g_assert_true (hw_bench_set_outline (bench, id, crossed, NULL));
  g_assert_true (hw_outline_is_simple (record_at (bench, 0)->outline));
  /* Two triangles of 40 mm on 20 mm. */
  g_assert_cmpfloat_with_epsilon (hw_outline_area (record_at (bench, 0)->outline), 800, 1e-6);
  hw_bench_undo (bench);
  g_assert_true (hw_outline_equal (record_at (bench, 0)->outline, before));

  hw_bench_select_only (bench, id);
  hw_bench_set_locked (bench, TRUE);
  g_clear_pointer (&refusal, g_free);
  g_assert_false (hw_bench_may_edit_outline (bench, id));
  g_assert_false (hw_bench_set_outline (bench, id, crossed, &refusal));
  g_assert_nonnull (strstr (refusal, "locked"));
}

static void
test_thread_at_hand_is_used_and_given_back (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const HwThreadBlock first = record_at (bench, 0)->threads[0];
  g_autofree char *name = g_strdup (first.name);
  HwLab lab = hw_colour_lab ((HwColour){ 0.2, 0.4, 0.6 });
  g_autoptr (GPtrArray) palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);

  g_ptr_array_add (palette, hw_palette_thread_new ("harbour", "4", lab, 80));
  hw_bench_set_palette (bench, palette);
  g_assert_false (hw_bench_use_thread (bench, "no such thread", first.colour, 0));
  g_assert_false (hw_bench_use_thread (bench, name, first.colour, 1));
  g_assert_true (hw_bench_use_thread (bench, name, first.colour, 0));
  g_assert_cmpstr (record_at (bench, 0)->threads[0].name, ==, "harbour");
  g_assert_cmpfloat_with_epsilon (record_at (bench, 0)->threads[0].colour.blue, 0.6, 0.01);
  hw_bench_undo (bench);
  g_assert_cmpstr (record_at (bench, 0)->threads[0].name, ==, name);
  g_assert_cmpuint (hw_scene_get_palette (hw_bench_get_scene (bench))->len, ==, 1);
  hw_bench_undo (bench);
  g_assert_cmpuint (hw_scene_get_palette (hw_bench_get_scene (bench))->len, ==, 0);
}

static void
taken_back_cb (HwBench *bench, const char *sentence, char **said)
{
  g_free (*said);
  *said = g_strdup (sentence);
}

/* Two motifs of which one would be too much: neither is added, it is said why, and there is nothing to undo. */
static void
test_what_is_too_much_for_a_scene_is_taken_back (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (GPtrArray) two = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (bench));
  g_autofree char *said = NULL;
  g_autofree char *undo = NULL;
  HwMotif *large;

  g_ptr_array_add (two, orchard_motif ("m1", "Leaf", 0, 0));
  large = orchard_motif ("m2", "Gull", 0, 0);
  large->threads[0].stitches = 5000001;
  g_ptr_array_add (two, large);
  g_signal_connect (bench, "taken-back", G_CALLBACK (taken_back_cb), &said);
  g_assert_false (hw_bench_add_motifs (bench, two, NULL));
  g_assert_cmpstr (said, ==,
                   "Gull would have 5000001 stitches, and a motif has at most 5000000. Divide it into two.");
  g_assert_cmpuint (g_list_model_get_n_items (motifs), ==, 3);
  g_object_get (bench, "undo-name", &undo, NULL);
  g_assert_null (undo);

  large->threads[0].stitches = 5000000;
  g_assert_true (hw_bench_add_motifs (bench, two, NULL));
  g_assert_cmpuint (g_list_model_get_n_items (motifs), ==, 5);
}

/* Each of many alike has a number of its own, and one that became free is given again. */
static void
test_many_alike_are_numbered (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (GPtrArray) leaves = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  g_autofree char *name = NULL;

  for (guint i = 0; i < 1500; i++)
    g_ptr_array_add (leaves, orchard_motif ("m1", "Leaf", 0, 0));
  g_assert_true (hw_bench_add_motifs (bench, leaves, NULL));
  name = hw_bench_free_name (bench, "Leaf");
  g_assert_cmpstr (name, ==, "Leaf 1501");
  g_free (g_steal_pointer (&name));
  name = hw_bench_free_name (bench, "Leaf 7");
  g_assert_cmpstr (name, ==, "Leaf 1501");
  g_free (g_steal_pointer (&name));
  hw_bench_select_ids (bench, (const char *const[]){ "m10", NULL });
  hw_bench_delete (bench);
  name = hw_bench_free_name (bench, "Leaf");
  g_assert_cmpstr (name, ==, "Leaf 7");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/bench-import/outline-covers-the-stitches-closely",
                   test_outline_covers_the_stitches_closely);
  g_test_add_func ("/bench-import/imported-motif-lies-on-the-cloth-and-is-planned",
                   test_imported_motif_lies_on_the_cloth_and_is_planned);
  g_test_add_func ("/bench-import/copy-saved-elsewhere-finds-its-artwork",
                   test_copy_saved_elsewhere_finds_its_artwork);
  g_test_add_func ("/bench-import/list-without-stitches-is-refused", test_list_without_stitches_is_refused);
  g_test_add_func ("/bench-import/several-files-come-in-side-by-side-as-one-step",
                   test_several_files_come_in_side_by_side_as_one_step);
  g_test_add_func ("/bench-import/artwork-used-twice-is-kept-once", test_artwork_used_twice_is_kept_once);
  g_test_add_func ("/bench-import/artwork-is-named-from-the-folder-the-scene-gets",
                   test_artwork_is_named_from_the_folder_the_scene_gets);
  g_test_add_func ("/bench-import/outline-by-hand-is-mended-or-refused",
                   test_outline_by_hand_is_mended_or_refused);
  g_test_add_func ("/bench-import/thread-at-hand-is-used-and-given-back",
                   test_thread_at_hand_is_used_and_given_back);
  g_test_add_func ("/bench-import/what-is-too-much-for-a-scene-is-taken-back",
                   test_what_is_too_much_for_a_scene_is_taken_back);
  g_test_add_func ("/bench-import/many-alike-are-numbered", test_many_alike_are_numbered);
  return g_test_run ();
}
