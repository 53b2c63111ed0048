/* The artwork shelf: one reading for many motifs and many threads, and a new one only for a file that has changed. */
#include <glib/gstdio.h>

#include <string.h>

#include "../folders.h"
#include "formats/artwork-shelf.h"
#include "formats/scene-file.h"

typedef struct
{
  char *folder;
  HwArtworkShelf *shelf;
} Fixture;

static void
write_rows (Fixture *f, const char *name, guint rows)
{
  g_autofree char *path = g_build_filename (f->folder, name, NULL);
  g_autoptr (GString) text = g_string_new ("x_mm,y_mm,action,thread\n");

  for (guint i = 0; i < rows; i++)
    g_string_append_printf (text, "%u,%u,stitch,moss\n", i % 40, i / 40 % 40);
  g_assert_true (g_file_set_contents (path, text->str, (gssize)text->len, NULL));
}

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hw-XXXXXX", NULL);
  f->shelf = hw_artwork_shelf_new ();
  for (guint i = 0; i < 6; i++)
    {
      g_autofree char *name = g_strdup_printf ("leaf-%u.csv", i);

      write_rows (f, name, 500 + i);
    }
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  folder_remove (f->folder);
  g_free (f->folder);
  hw_artwork_shelf_unref (f->shelf);
}

/* Returns: (transfer full) */
static HwMotif *
waiting (const char *artwork, const char *kind)
{
  HwMotif *motif = hw_motif_new ();

  motif->artwork = g_strdup (artwork);
  motif->artwork_kind = g_strdup (kind);
  motif->artwork_awaited = TRUE;
  return motif;
}

static void
one_file_is_read_for_all_who_show_it (Fixture *f, gconstpointer data)
{
  g_autoptr (HwMotif) a = waiting ("leaf-0.csv", NULL);
  g_autoptr (HwMotif) b = waiting ("leaf-0.csv", "needles");
  g_autoptr (HwMotif) early = waiting ("leaf-0.csv", NULL);

  g_assert_false (hw_artwork_shelf_fill_at_hand (f->shelf, f->folder, early));
  g_assert_true (early->artwork_awaited);
  hw_artwork_shelf_fill (f->shelf, f->folder, a);
  hw_artwork_shelf_fill (f->shelf, f->folder, b);
  g_assert_cmpuint (a->needles->n_stitches, ==, 500);
  g_assert_true (a->needles == b->needles);
  g_assert_false (a->artwork_awaited);
  g_assert_true (hw_artwork_shelf_fill_at_hand (f->shelf, f->folder, early));
  g_assert_true (early->needles == a->needles);
}

/* As when a scene is named on the command line from the folder above it. */
static void
a_folder_may_be_named_from_where_one_stands (Fixture *f, gconstpointer data)
{
  g_autoptr (HwMotif) motif = waiting ("leaf-0.csv", NULL);
  g_autofree char *stood = g_get_current_dir (), *above = g_path_get_dirname (f->folder);
  g_autofree char *name = g_path_get_basename (f->folder);

  g_assert_cmpint (g_chdir (above), ==, 0);
  hw_artwork_shelf_fill (f->shelf, name, motif);
  g_assert_cmpint (g_chdir (stood), ==, 0);
  g_assert_nonnull (motif->needles);
  g_assert_cmpuint (motif->needles->n_stitches, ==, 500);
}

static HwNeedleList *
needles_now (Fixture *f, const char *name)
{
  g_autoptr (HwMotif) motif = waiting (name, NULL);

  hw_artwork_shelf_fill (f->shelf, f->folder, motif);
  return motif->needles != NULL ? hw_needle_list_ref (motif->needles) : NULL;
}

static void
only_a_changed_file_is_read_again (Fixture *f, gconstpointer data)
{
  g_autoptr (HwNeedleList) before = needles_now (f, "leaf-0.csv");
  g_autoptr (HwNeedleList) other = needles_now (f, "leaf-1.csv");
  g_autoptr (HwNeedleList) same = NULL;
  g_autoptr (HwNeedleList) fresh = NULL;

  write_rows (f, "leaf-0.csv", 77);
  hw_artwork_shelf_check (f->shelf);
  fresh = needles_now (f, "leaf-0.csv");
  same = needles_now (f, "leaf-1.csv");
  g_assert_cmpuint (fresh->n_stitches, ==, 77);
  g_assert_cmpuint (before->n_stitches, ==, 500);
  g_assert_true (same == other);
}

static void
what_nobody_shows_any_more_is_let_go (Fixture *f, gconstpointer data)
{
  g_autoptr (HwNeedleList) shown = needles_now (f, "leaf-0.csv");
  g_autoptr (HwNeedleList) gone = needles_now (f, "leaf-1.csv");
  g_autoptr (HwNeedleList) again = NULL;
  g_autoptr (HwNeedleList) anew = NULL;

  hw_artwork_shelf_check (f->shelf);
  again = needles_now (f, "leaf-0.csv");
  hw_artwork_shelf_tidy (f->shelf);
  anew = needles_now (f, "leaf-1.csv");
  g_assert_true (again == shown);
  g_assert_true (anew != gone);
  g_assert_true (hw_needle_list_equal (anew, gone));
}

static void
what_cannot_be_read_is_told_in_a_sentence (Fixture *f, gconstpointer data)
{
  g_autoptr (HwMotif) missing = waiting ("not there.csv", NULL);
  g_autoptr (HwMotif) strange = waiting ("leaf-0.csv", "clay");
  g_autoptr (HwMotif) placeless = waiting ("leaf-0.csv", NULL);
  g_autoptr (HwNeedleList) found = NULL;

  hw_artwork_shelf_fill (f->shelf, f->folder, missing);
  g_assert_nonnull (strstr (missing->artwork_trouble, "not there.csv"));
  g_assert_null (missing->needles);
  g_assert_true (hw_artwork_shelf_fill_at_hand (f->shelf, f->folder, strange));
  g_assert_nonnull (strstr (strange->artwork_trouble, "clay"));
  hw_artwork_shelf_fill (f->shelf, NULL, placeless);
  g_assert_null (placeless->artwork_trouble);
  g_assert_false (placeless->artwork_awaited);

  write_rows (f, "not there.csv", 5);
  hw_artwork_shelf_check (f->shelf);
  found = needles_now (f, "not there.csv");
  g_assert_cmpuint (found->n_stitches, ==, 5);
}

static GPtrArray *
many_waiting (void)
{
  GPtrArray *motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);

  for (guint i = 0; i < 60; i++)
    {
      g_autofree char *name = g_strdup_printf ("leaf-%u.csv", i % 6);

      g_ptr_array_add (motifs, waiting (name, NULL));
    }
  return motifs;
}

static gpointer
ask_for_all (gpointer data)
{
  Fixture *f = data;
  GPtrArray *motifs = many_waiting ();

  for (guint i = 0; i < motifs->len; i++)
    hw_artwork_shelf_fill (f->shelf, f->folder, motifs->pdata[i]);
  return motifs;
}

static void
threads_that_ask_at_once_share_one_reading (Fixture *f, gconstpointer data)
{
  GThread *threads[4];
  GPtrArray *given[4];

  for (guint t = 0; t < G_N_ELEMENTS (threads); t++)
    threads[t] = g_thread_new ("asks", ask_for_all, f);
  for (guint t = 0; t < G_N_ELEMENTS (threads); t++)
    given[t] = g_thread_join (threads[t]);
  for (guint t = 0; t < G_N_ELEMENTS (threads); t++)
    {
      for (guint i = 0; i < given[t]->len; i++)
        {
          const HwMotif *motif = given[t]->pdata[i], *first = given[0]->pdata[i % 6];

          g_assert_nonnull (motif->needles);
          g_assert_true (motif->needles == first->needles);
        }
    }
  for (guint t = 0; t < G_N_ELEMENTS (threads); t++)
    g_ptr_array_unref (given[t]);
}

static void
files_are_listed_once_and_read_side_by_side (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) motifs = many_waiting ();
  g_autoptr (GPtrArray) to_read = hw_artwork_shelf_to_read (f->shelf, f->folder, motifs);
  g_autoptr (GPtrArray) left = NULL;
  gint n_read = 0;

  g_assert_cmpuint (to_read->len, ==, 6);
  hw_artwork_shelf_read (f->shelf, f->folder, to_read, &n_read, NULL);
  g_assert_cmpint (n_read, ==, 6);
  left = hw_artwork_shelf_to_read (f->shelf, f->folder, motifs);
  g_assert_cmpuint (left->len, ==, 0);
  for (guint i = 0; i < motifs->len; i++)
    g_assert_true (hw_artwork_shelf_fill_at_hand (f->shelf, f->folder, motifs->pdata[i]));
}

static void
a_reading_that_is_not_wanted_any_more_stops (Fixture *f, gconstpointer data)
{
  g_autoptr (GPtrArray) motifs = many_waiting ();
  g_autoptr (GPtrArray) to_read = hw_artwork_shelf_to_read (f->shelf, f->folder, motifs);
  g_autoptr (GCancellable) cancelled = g_cancellable_new ();
  gint n_read = 0;

  g_cancellable_cancel (cancelled);
  hw_artwork_shelf_read (f->shelf, f->folder, to_read, &n_read, cancelled);
  g_assert_cmpint (n_read, ==, 0);
}

static void
a_scene_is_loaded_with_its_artwork_or_awaiting_it (Fixture *f, gconstpointer data)
{
  static const char text[]
      = "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Quay\", \"fabric\": {\"width\": 500, "
        "\"height\": 400},"
        "\"edge_line\": {\"points\": [[0, 0], [500, 0], [500, 400]]}, \"hoops\": [], \"motifs\": ["
        "{\"id\": \"a\", \"outline\": [[[0, 0], [9, 0], [9, 9]]], \"position\": [50, 50], \"artwork\": "
        "{\"path\": \"leaf-3.csv\"}},"
        "{\"id\": \"b\", \"outline\": [[[0, 0], [9, 0], [9, 9]]], \"position\": [90, 90]}]}";
  g_autofree char *path = g_build_filename (f->folder, "quay.hoopscene", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HwSnapshot) whole = NULL;
  g_autoptr (HwSnapshot) bare = NULL;
  g_autoptr (HwSnapshot) none = NULL;

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  whole = hw_scene_file_load (path, &error);
  g_assert_no_error (error);
  bare = hw_scene_file_load_awaiting (path, &error);
  g_assert_no_error (error);
  none = hw_scene_file_parse (text, -1, NULL, &error);
  g_assert_no_error (error);
  g_assert_false (hw_snapshot_awaits_artwork (whole));
  g_assert_cmpuint (hw_snapshot_motif (whole, 0)->needles->n_stitches, ==, 503);
  g_assert_true (hw_snapshot_awaits_artwork (bare));
  g_assert_null (hw_snapshot_motif (bare, 0)->needles);
  g_assert_false (hw_snapshot_motif (bare, 1)->artwork_awaited);
  g_assert_false (hw_snapshot_awaits_artwork (none));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name) g_test_add ("/formats/artwork-shelf/" #name, Fixture, NULL, set_up, name, tear_down)
  ADD (one_file_is_read_for_all_who_show_it);
  ADD (a_folder_may_be_named_from_where_one_stands);
  ADD (only_a_changed_file_is_read_again);
  ADD (what_nobody_shows_any_more_is_let_go);
  ADD (what_cannot_be_read_is_told_in_a_sentence);
  ADD (threads_that_ask_at_once_share_one_reading);
  ADD (files_are_listed_once_and_read_side_by_side);
  ADD (a_reading_that_is_not_wanted_any_more_stops);
  ADD (a_scene_is_loaded_with_its_artwork_or_awaiting_it);
  return g_test_run ();
}
