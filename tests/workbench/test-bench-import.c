/* A needle list becomes a motif: outline, threads, name, place. */
#include "bench-fixture.h"

#include <glib/gstdio.h>

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
  return g_test_run ();
}
