/* A bench reads the artwork of its scene away from the window: the scene is there at once, what comes in is no edit, and nothing is lost on the way. */
#include <string.h>

#include <glib/gstdio.h>

#include "../folders.h"
#include "bench-fixture.h"
#include "formats/scene-file.h"

#define ROWS 2000

typedef struct
{
  char *folder;
  char *scene;
  HwBench *bench;
} Fixture;

static void
write_text (Fixture *f, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (f->folder, name, NULL);

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
write_rows (Fixture *f, const char *name, guint rows)
{
  g_autoptr (GString) text = g_string_new ("x_mm,y_mm,action,thread\n");

  for (guint i = 0; i < rows; i++)
    g_string_append_printf (text, "%d,%d,stitch,moss\n", (int)(i % 40) - 20, (int)(i / 40 % 40) - 20);
  write_text (f, name, text->str);
}

static const char scene_text[] = "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Orchard\", "
                                 "\"fabric\": {\"width\": 700, \"height\": 540},\n"
                                 "\"edge_line\": {\"points\": [[5, 5], [695, 5], [695, 535], [5, 535]]},\n"
                                 "\"hoops\": [{\"id\": \"h1\", \"field\": [130, 180]}],\n\"motifs\": [\n"
                                 "{\"id\": \"m1\", \"name\": \"Pear\", \"outline\": [[[-20, -20], [20, -20], "
                                 "[20, 20], [-20, 20]]], \"position\": [100, 100],\n"
                                 " \"artwork\": {\"path\": \"pear.csv\"}, \"threads\": [{\"name\": \"moss\", "
                                 "\"colour\": \"#335522\", \"stitches\": 1200}]},\n"
                                 "{\"id\": \"m2\", \"name\": \"Plum\", \"outline\": [[[-20, -20], [20, -20], "
                                 "[20, 20], [-20, 20]]], \"position\": [550, 100],\n"
                                 " \"artwork\": {\"path\": \"plum.csv\"}, \"threads\": [{\"name\": \"moss\", "
                                 "\"colour\": \"#335522\", \"stitches\": 1200}]}\n]}\n";

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  f->scene = g_build_filename (f->folder, "orchard.hoopscene", NULL);
  write_text (f, "orchard.hoopscene", scene_text);
  write_rows (f, "pear.csv", ROWS);
  write_rows (f, "plum.csv", ROWS + 1);
  f->bench = hw_bench_new ();
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_clear_object (&f->bench);
  folder_remove (f->folder);
  g_free (f->folder);
  g_free (f->scene);
}

static void
open_scene (Fixture *f)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_bench_open (f->bench, f->scene, &error));
  g_assert_no_error (error);
}

static gboolean
is_reading (HwBench *bench)
{
  gboolean reading;

  g_object_get (bench, "reading", &reading, NULL);
  return reading;
}

static gboolean
is_modified (HwBench *bench)
{
  gboolean modified;

  g_object_get (bench, "modified", &modified, NULL);
  return modified;
}

static void
wait_for_artwork (HwBench *bench)
{
  while (is_reading (bench))
    g_main_context_iteration (NULL, TRUE);
}

/* The record of the motif as the scene has it now. (transfer none) */
static const HwMotif *
motif_now (Fixture *f, const char *id)
{
  return hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (f->bench), id));
}

static void
move (Fixture *f, const char *id, double x)
{
  hw_bench_begin_edit (f->bench, "move", FALSE);
  g_object_set (hw_scene_find_motif (hw_bench_get_scene (f->bench), id), "x", x, NULL);
  hw_bench_end_edit (f->bench);
}

static void
the_scene_is_there_before_its_artwork (Fixture *f, gconstpointer data)
{
  const char *why;

  open_scene (f);
  g_assert_true (is_reading (f->bench));
  g_assert_true (motif_now (f, "m1")->artwork_awaited);
  g_assert_cmpfloat (motif_now (f, "m1")->placement.position.x, ==, 100);
  g_assert_null (hw_bench_get_ready_plan (f->bench, &why));
  g_assert_nonnull (why);
  wait_for_artwork (f->bench);
  g_assert_cmpuint (motif_now (f, "m1")->needles->n_stitches, ==, ROWS);
  g_assert_cmpuint (motif_now (f, "m2")->needles->n_stitches, ==, ROWS + 1);
  g_assert_false (is_modified (f->bench));
}

static void
the_plan_for_paper_is_made_with_the_artwork (Fixture *f, gconstpointer data)
{
  const HwPlan *plan;
  const char *why;

  open_scene (f);
  wait_for_artwork (f->bench);
  wait_for_plan (f->bench);
  plan = hw_bench_get_ready_plan (f->bench, &why);
  g_assert_nonnull (plan);
  g_assert_null (why);
  g_assert_nonnull (hw_snapshot_motif (plan->snapshot, 0)->needles);
}

static void
what_is_edited_meanwhile_keeps_its_edit_and_gets_its_artwork (Fixture *f, gconstpointer data)
{
  open_scene (f);
  move (f, "m1", 130);
  g_assert_true (is_reading (f->bench));
  wait_for_artwork (f->bench);
  g_assert_cmpfloat (motif_now (f, "m1")->placement.position.x, ==, 130);
  g_assert_nonnull (motif_now (f, "m1")->needles);
  g_assert_true (is_modified (f->bench));

  hw_bench_undo (f->bench);
  g_assert_cmpfloat (motif_now (f, "m1")->placement.position.x, ==, 100);
  g_assert_nonnull (motif_now (f, "m1")->needles);
  g_assert_false (is_modified (f->bench));
  hw_bench_redo (f->bench);
  g_assert_cmpfloat (motif_now (f, "m1")->placement.position.x, ==, 130);
  g_assert_nonnull (motif_now (f, "m1")->needles);
}

static void
an_edit_under_way_is_taken_back_with_its_artwork (Fixture *f, gconstpointer data)
{
  open_scene (f);
  hw_bench_begin_edit (f->bench, "move", FALSE);
  g_object_set (hw_scene_find_motif (hw_bench_get_scene (f->bench), "m1"), "x", 200.0, NULL);
  wait_for_artwork (f->bench);
  g_assert_cmpfloat (motif_now (f, "m1")->placement.position.x, ==, 200);
  g_assert_nonnull (motif_now (f, "m1")->needles);
  hw_bench_cancel_edit (f->bench);
  g_assert_cmpfloat (motif_now (f, "m1")->placement.position.x, ==, 100);
  g_assert_nonnull (motif_now (f, "m1")->needles);
  g_assert_false (is_modified (f->bench));
}

static void
a_scene_saved_while_it_is_read_is_the_same (Fixture *f, gconstpointer data)
{
  g_autofree char *early = NULL;
  g_autofree char *late = NULL;
  g_autoptr (GError) error = NULL;

  open_scene (f);
  g_assert_true (hw_bench_save (f->bench, NULL, &error));
  g_assert_true (is_reading (f->bench));
  g_assert_true (g_file_get_contents (f->scene, &early, NULL, NULL));
  wait_for_artwork (f->bench);
  g_assert_true (hw_bench_save (f->bench, NULL, &error));
  g_assert_true (g_file_get_contents (f->scene, &late, NULL, NULL));
  g_assert_cmpstr (early, ==, late);
  g_assert_nonnull (strstr (early, "pear.csv"));
  g_assert_false (is_modified (f->bench));
}

static void
broken_artwork_still_gives_its_sentence (Fixture *f, gconstpointer data)
{
  write_text (f, "pear.csv", "x_mm,y_mm,action,thread\n1,2,hop,moss\n");
  open_scene (f);
  wait_for_artwork (f->bench);
  g_assert_nonnull (strstr (motif_now (f, "m1")->artwork_trouble, "pear.csv: line 2"));
  g_assert_nonnull (motif_now (f, "m2")->needles);
  wait_for_plan (f->bench);
  g_assert_cmpuint (hw_bench_get_plan (f->bench)->problems->len, >, 0);
}

static void
what_has_not_changed_is_not_read_again (Fixture *f, gconstpointer data)
{
  g_autoptr (HwNeedleList) pear = NULL;

  open_scene (f);
  wait_for_artwork (f->bench);
  pear = hw_needle_list_ref (motif_now (f, "m1")->needles);
  write_rows (f, "plum.csv", 7);
  open_scene (f);
  g_assert_true (motif_now (f, "m1")->needles == pear);
  g_assert_true (motif_now (f, "m2")->artwork_awaited);
  wait_for_artwork (f->bench);
  g_assert_cmpuint (motif_now (f, "m2")->needles->n_stitches, ==, 7);
  open_scene (f);
  g_assert_false (is_reading (f->bench));
  g_assert_cmpuint (motif_now (f, "m2")->needles->n_stitches, ==, 7);
}

static void
another_scene_hears_nothing_of_the_one_before (Fixture *f, gconstpointer data)
{
  g_autoptr (HwBench) with_orchard = bench_with_orchard ();
  g_autoptr (HwSnapshot) empty = hw_snapshot_new ();

  open_scene (f);
  hw_bench_start_new (f->bench, empty);
  g_assert_false (is_reading (f->bench));
  for (guint i = 0; i < 20; i++)
    {
      g_usleep (10000);
      g_main_context_iteration (NULL, FALSE);
    }
  g_assert_null (hw_scene_find_motif (hw_bench_get_scene (f->bench), "m1"));
  g_assert_false (is_modified (f->bench));
}

static void
a_bench_may_go_while_it_reads (Fixture *f, gconstpointer data)
{
  open_scene (f);
  g_assert_true (is_reading (f->bench));
  g_clear_object (&f->bench);
  for (guint i = 0; i < 20; i++)
    {
      g_usleep (10000);
      g_main_context_iteration (NULL, FALSE);
    }
}

static void
a_state_from_elsewhere_is_given_its_artwork (Fixture *f, gconstpointer data)
{
  g_autoptr (HwSnapshot) earlier = NULL;

  open_scene (f);
  wait_for_artwork (f->bench);
  write_rows (f, "quince.csv", 11);
  g_autoptr (GString) text = g_string_new (scene_text);
  g_string_replace (text, "plum.csv", "quince.csv", 0);
  earlier = hw_scene_file_parse_awaiting (text->str, -1, NULL);
  hw_bench_begin_edit (f->bench, "bring back", FALSE);
  hw_scene_restore (hw_bench_get_scene (f->bench), earlier);
  hw_bench_end_edit (f->bench);
  wait_for_artwork (f->bench);
  g_assert_nonnull (motif_now (f, "m1")->needles);
  g_assert_cmpuint (motif_now (f, "m2")->needles->n_stitches, ==, 11);
  hw_bench_undo (f->bench);
  g_assert_cmpuint (motif_now (f, "m2")->needles->n_stitches, ==, ROWS + 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name) g_test_add ("/workbench/bench-artwork/" #name, Fixture, NULL, set_up, name, tear_down)
  ADD (the_scene_is_there_before_its_artwork);
  ADD (the_plan_for_paper_is_made_with_the_artwork);
  ADD (what_is_edited_meanwhile_keeps_its_edit_and_gets_its_artwork);
  ADD (an_edit_under_way_is_taken_back_with_its_artwork);
  ADD (a_scene_saved_while_it_is_read_is_the_same);
  ADD (broken_artwork_still_gives_its_sentence);
  ADD (what_has_not_changed_is_not_read_again);
  ADD (another_scene_hears_nothing_of_the_one_before);
  ADD (a_bench_may_go_while_it_reads);
  ADD (a_state_from_elsewhere_is_given_its_artwork);
  return g_test_run ();
}
