/* Files that a scene names are taken away, cut off, spoiled and put back while it is open: what was read stays, the scene goes on naming them, there is one
 * sentence, and putting them back mends it. */
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "../folders.h"
#include "bench-fixture.h"
#include "formats/scene-file.h"

#define NOBODY 65534 /* common practice: a user that owns nothing */

static const char *const kinds[][3] = {
  { "leaf.csv", "needles", "needles/leaf.csv" },  { "leaf.svg", "svg", "artwork-svg/leaf.svg" },
  { "pear.png", "png", "artwork-png/alpha.png" }, { "plum.jpg", "jpeg", "artwork-jpeg/plum.jpg" },
  { "slip.pdf", "pdf", "artwork-pdf/slip.pdf" },
};

typedef struct
{
  char *folder, *scene;
  HwBench *bench;
  guint n_looks, n_photos;
} Fixture;

static char *
place (Fixture *f, const char *name)
{
  return g_build_filename (f->folder, name, NULL);
}

static void
write_bytes (Fixture *f, const char *name, const char *bytes, gssize length)
{
  g_autofree char *path = place (f, name);

  g_assert_true (g_file_set_contents (path, bytes, length, NULL));
}

static void
put_whole (Fixture *f, guint kind)
{
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "fuzz", "corpus", kinds[kind][2], NULL);
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (from, &bytes, &length, NULL));
  write_bytes (f, kinds[kind][0], bytes, (gssize)length);
}

static void
looked_cb (HwBench *bench, gboolean photos, Fixture *f)
{
  f->n_looks++;
  f->n_photos += photos;
}

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (GString) text = g_string_new (
      "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Orchard\", \"fabric\": {\"width\": "
      "700, "
      "\"height\": 540}, \"edge_line\": {\"points\": [[5, 5], [695, 5], [695, 535], [5, 535]]}, \"hoops\": "
      "[{\"id\": \"h1\", \"field\": [130, 180]}], \"photo\": {\"stack\": [{\"name\": \"Cloth\", \"path\": "
      "\"cloth.jpg\", \"points\": []}], \"shown\": -1}, \"motifs\": [");

  f->folder = g_dir_make_tmp ("hw-files-XXXXXX", NULL);
  f->scene = place (f, "orchard.hoopscene");
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      put_whole (f, i);
      g_string_append_printf (
          text,
          "%s{\"id\": \"m%u\", \"name\": \"Leaf %u\", \"outline\": [[[-20, -20], [20, -20], [20, 20], [-20, "
          "20]]], \"position\": [%u, 100], \"artwork\": {\"path\": \"%s\", \"kind\": \"%s\"}, \"threads\": "
          "[{\"name\": \"moss\", \"colour\": \"#335522\", \"stitches\": 1200}]}",
          i > 0 ? ", " : "", i, i, 60 + 110 * i, kinds[i][0], kinds[i][1]);
    }
  g_string_append (text, "]}");
  write_bytes (f, "orchard.hoopscene", text->str, -1);
  write_bytes (f, "cloth.jpg", "a photo", -1);
  f->bench = hw_bench_new ();
  g_signal_connect (f->bench, "files-looked-at", G_CALLBACK (looked_cb), f);
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
  gboolean reading = TRUE;

  g_assert_true (hw_bench_open (f->bench, f->scene, NULL));
  for (g_object_get (f->bench, "reading", &reading, NULL); reading;
       g_object_get (f->bench, "reading", &reading, NULL))
    g_main_context_iteration (NULL, TRUE);
}

/* Looks, and gives what there is to say. */
static const char *
look (Fixture *f)
{
  guint before = f->n_looks;

  hw_bench_look_at_files (f->bench);
  while (f->n_looks == before)
    g_main_context_iteration (NULL, TRUE);
  return hw_bench_get_lost_files (f->bench);
}

static const HwMotif *
motif_now (Fixture *f, guint kind)
{
  g_autofree char *id = g_strdup_printf ("m%u", kind);

  return hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (f->bench), id));
}

static gconstpointer
shown (Fixture *f, guint kind)
{
  const HwMotif *motif = motif_now (f, kind);

  return motif->needles != NULL ? (gconstpointer)motif->needles : motif->picture;
}

static gboolean
is_modified (HwBench *bench)
{
  gboolean modified;

  g_object_get (bench, "modified", &modified, NULL);
  return modified;
}

/* --- What can befall a file */

static void
take_away (Fixture *f, const char *path)
{
  g_assert_cmpint (g_unlink (path), ==, 0);
}

static void
cut_off (Fixture *f, const char *path)
{
  GStatBuf info;

  g_assert_cmpint (g_stat (path, &info), ==, 0);
  g_assert_cmpint (truncate (path, info.st_size / 2 + 3), ==, 0);
}

static void
make_empty (Fixture *f, const char *path)
{
  g_assert_cmpint (truncate (path, 0), ==, 0);
}

static void
make_folder (Fixture *f, const char *path)
{
  take_away (f, path);
  g_assert_cmpint (g_mkdir (path, 0700), ==, 0);
}

static void
make_pipe (Fixture *f, const char *path)
{
  take_away (f, path);
  g_assert_cmpint (mkfifo (path, 0600), ==, 0);
}

static void
spoil (Fixture *f, const char *path)
{
  GRand *rand = g_rand_new_with_seed (7);
  char bytes[5000];

  for (guint i = 0; i < sizeof bytes; i++)
    bytes[i] = (char)g_rand_int (rand);
  g_rand_free (rand);
  g_assert_true (g_file_set_contents (path, bytes, sizeof bytes, NULL));
}

static void
lead_in_a_circle (Fixture *f, const char *path)
{
  take_away (f, path);
  g_assert_cmpint (symlink (path, path), ==, 0);
}

/* Whoever runs this test as root is nobody meanwhile. */
static void
forbid (Fixture *f, const char *path)
{
  g_assert_cmpint (g_chmod (f->folder, 0777), ==, 0);
  g_assert_cmpint (g_chmod (path, 0), ==, 0);
  if (geteuid () == 0)
    g_assert_cmpint (seteuid (NOBODY), ==, 0);
}

typedef struct
{
  const char *name;
  void (*befall) (Fixture *f, const char *path);
} Misfortune;

static const Misfortune misfortunes[] = {
  { "taken-away", take_away },
  { "cut-off", cut_off },
  { "empty", make_empty },
  { "a-folder-instead", make_folder },
  { "a-pipe-instead", make_pipe },
  { "spoiled", spoil },
  { "a-circle-of-links", lead_in_a_circle },
  { "forbidden", forbid },
};

static void
assert_one_sentence (const char *said, const char *name)
{
  g_assert_nonnull (said);
  g_assert_true (g_str_has_prefix (said, name));
  g_assert_true (g_str_has_suffix (said, "and it is read again."));
  g_assert_null (strchr (said, '\n'));
}

static void
assert_saved_with_its_name (Fixture *f, const char *name)
{
  g_autofree char *path = place (f, "saved.hoopscene");
  g_autofree char *text = NULL;
  g_autofree char *quoted = g_strdup_printf ("\"%s\"", name);

  g_assert_true (hw_bench_save (f->bench, path, NULL));
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, quoted));
}

static void
what_was_read_stays_and_putting_it_back_mends_it (Fixture *f, gconstpointer data)
{
  const Misfortune *misfortune = data;

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *path = place (f, kinds[i][0]);
      gconstpointer before;

      open_scene (f);
      g_assert_null (look (f));
      before = shown (f, i);
      g_assert_nonnull (before);
      misfortune->befall (f, path);
      assert_one_sentence (look (f), kinds[i][0]);
      assert_one_sentence (look (f), kinds[i][0]);
      g_assert_true (shown (f, i) == before);
      g_assert_false (is_modified (f->bench));
      g_assert_cmpint (seteuid (getuid ()), ==, 0);
      hw_bench_select_all (f->bench);
      hw_bench_nudge (f->bench, 5, 0);
      g_assert_true (shown (f, i) == before);
      assert_saved_with_its_name (f, kinds[i][0]);
      hw_bench_undo (f->bench);
      g_assert_true (shown (f, i) == before);

      g_remove (path);
      put_whole (f, i);
      g_assert_null (look (f));
      g_assert_nonnull (shown (f, i));
      g_assert_null (motif_now (f, i)->artwork_trouble);
      hw_bench_redo (f->bench);
      g_assert_nonnull (shown (f, i));
    }
}

static void
what_comes_back_unchanged_is_not_read_again (Fixture *f, gconstpointer data)
{
  g_autofree char *path = place (f, "leaf.csv");
  g_autofree char *aside = place (f, "aside");
  gconstpointer before;

  open_scene (f);
  before = shown (f, 0);
  g_assert_cmpint (g_rename (path, aside), ==, 0);
  assert_one_sentence (look (f), "leaf.csv");
  g_assert_cmpint (g_rename (aside, path), ==, 0);
  g_assert_null (look (f));
  g_assert_true (shown (f, 0) == before);
}

static void
several_are_told_in_one_sentence (Fixture *f, gconstpointer data)
{
  open_scene (f);
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *path = place (f, kinds[i][0]);
      take_away (f, path);
    }
  g_assert_nonnull (strstr (look (f), "Nor can 2 other files be read."));
}

static void
what_was_missing_from_the_start_comes_in (Fixture *f, gconstpointer data)
{
  g_autofree char *path = place (f, "leaf.csv");

  take_away (f, path);
  open_scene (f);
  g_assert_nonnull (motif_now (f, 0)->artwork_trouble);
  g_assert_null (look (f)); /* the problems tell of it */
  put_whole (f, 0);
  g_assert_null (look (f));
  g_assert_nonnull (shown (f, 0));
  g_assert_null (motif_now (f, 0)->artwork_trouble);
  g_assert_false (is_modified (f->bench));
  wait_for_plan (f->bench);
  g_assert_nonnull (hw_snapshot_motif (hw_bench_get_plan (f->bench)->snapshot, 0)->needles);
}

static void
what_another_program_saved_over_is_read_again_and_is_no_edit (Fixture *f, gconstpointer data)
{
  guint before;

  open_scene (f);
  before = motif_now (f, 0)->needles->n_stitches;
  g_assert_cmpuint (before, !=, 2);
  hw_bench_select_all (f->bench);
  hw_bench_nudge (f->bench, 5, 0);
  write_bytes (f, "leaf.csv", "x_mm,y_mm,action,thread\n0,0,stitch,moss\n9,0,stitch,moss\n9,9,end,moss\n",
               -1);
  g_assert_null (look (f));
  g_assert_cmpuint (motif_now (f, 0)->needles->n_stitches, ==, 2);
  hw_bench_undo (f->bench);
  g_assert_cmpuint (motif_now (f, 0)->needles->n_stitches, ==, 2);
  g_assert_false (is_modified (f->bench));
}

static void
a_photo_that_goes_is_told_of_and_comes_back (Fixture *f, gconstpointer data)
{
  g_autofree char *path = place (f, "cloth.jpg");

  open_scene (f);
  g_assert_null (look (f));
  take_away (f, path);
  assert_one_sentence (look (f), "cloth.jpg");
  assert_saved_with_its_name (f, "cloth.jpg");
  g_assert_cmpuint (f->n_photos, ==, 0);
  write_bytes (f, "cloth.jpg", "another photo", -1);
  g_assert_null (look (f));
  g_assert_cmpuint (f->n_photos, ==, 1);
}

static void
another_scene_hears_nothing_of_it (Fixture *f, gconstpointer data)
{
  g_autofree char *path = place (f, "leaf.csv");
  g_autoptr (HwSnapshot) empty = hw_snapshot_new ();

  open_scene (f);
  take_away (f, path);
  hw_bench_look_at_files (f->bench);
  hw_bench_start_new (f->bench, empty);
  for (guint i = 0; i < 20; i++)
    {
      g_usleep (5000);
      g_main_context_iteration (NULL, FALSE);
    }
  g_assert_cmpuint (f->n_looks, ==, 0);
  g_assert_null (hw_bench_get_lost_files (f->bench));
}

static void
a_bench_may_go_while_it_looks (Fixture *f, gconstpointer data)
{
  open_scene (f);
  hw_bench_look_at_files (f->bench);
  g_clear_object (&f->bench);
  for (guint i = 0; i < 20; i++)
    {
      g_usleep (5000);
      g_main_context_iteration (NULL, FALSE);
    }
}

static void
only_folders_of_files_that_may_be_read_are_told (Fixture *f, gconstpointer data)
{
  g_autofree char *text = NULL;
  GPtrArray *folders;

  g_assert_true (g_file_get_contents (f->scene, &text, NULL, NULL));
  g_autoptr (GString) far = g_string_new (text);
  g_string_replace (far, "slip.pdf", "../far/slip.pdf", 0);
  g_string_replace (far, "leaf.svg", "/far/leaf.svg", 0);
  g_string_replace (far, "cloth.jpg", "/far/cloth.jpg", 0);
  write_bytes (f, "orchard.hoopscene", far->str, -1);
  open_scene (f);
  g_assert_null (look (f));
  folders = hw_bench_get_file_folders (f->bench);
  g_assert_cmpuint (folders->len, ==, 1);
  g_assert_cmpstr (folders->pdata[0], ==, f->folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (misfortunes); i++)
    {
      g_autofree char *path = g_strconcat ("/workbench/bench-files/", misfortunes[i].name, NULL);

      g_test_add (path, Fixture, &misfortunes[i], set_up, what_was_read_stays_and_putting_it_back_mends_it,
                  tear_down);
    }
#define ADD(name) g_test_add ("/workbench/bench-files/" #name, Fixture, NULL, set_up, name, tear_down)
  ADD (what_comes_back_unchanged_is_not_read_again);
  ADD (several_are_told_in_one_sentence);
  ADD (what_was_missing_from_the_start_comes_in);
  ADD (what_another_program_saved_over_is_read_again_and_is_no_edit);
  ADD (a_photo_that_goes_is_told_of_and_comes_back);
  ADD (another_scene_hears_nothing_of_it);
  ADD (a_bench_may_go_while_it_looks);
  ADD (only_folders_of_files_that_may_be_read_are_told);
  return g_test_run ();
}
