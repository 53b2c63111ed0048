/* The motifs of a folder: which files are offered, and what becomes of their pictures when files change or go. */
#include <glib/gstdio.h>
#include <utime.h>

#include "../folders.h"
#include "hands.h"
#include "workbench/library-list.h"

static const char drawing[]
    = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm' viewBox='0 0 40 30'>"
      "<rect width='40' height='30' fill='#345'/></svg>";

typedef struct
{
  char *folder;
  GListStore *store;
} Fixture;

static void
put (Fixture *f, const char *name, const char *contents)
{
  g_autofree char *path = g_build_filename (f->folder, name, NULL);

  g_assert_true (g_file_set_contents (path, contents, -1, NULL));
}

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  f->store = g_list_store_new (HW_TYPE_LIBRARY_ITEM);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  folder_remove (f->folder);
  g_object_unref (f->store);
  g_free (f->folder);
}

static HwLibraryItem *
item (Fixture *f, guint i)
{
  g_autoptr (HwLibraryItem) got = g_list_model_get_item (G_LIST_MODEL (f->store), i);

  return got;
}

static guint
list (Fixture *f)
{
  g_autofree char *trouble = NULL;

  g_assert_true (hw_library_list_folder (f->store, f->folder, &trouble));
  g_assert_null (trouble);
  return g_list_model_get_n_items (G_LIST_MODEL (f->store));
}

static void
wait_for_picture (HwLibraryItem *item)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  hw_library_item_want (item);
  hw_library_item_want (item); /* it is under way already */
  while (hw_library_item_get_paintable (item) == NULL && hw_library_item_get_trouble (item) == NULL)
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
    }
}

static void
motif_files_are_offered_by_name (Fixture *f, gconstpointer data)
{
  g_autofree char *below = g_build_filename (f->folder, "folder.svg", NULL);

  put (f, "quince.svg", drawing);
  put (f, "apple.SVG", drawing);
  put (f, "letter.txt", "no motif");
  put (f, ".hidden.svg", drawing);
  g_mkdir (below, 0700);
  g_assert_cmpuint (list (f), ==, 2);
  g_assert_cmpstr (hw_library_item_get_name (item (f, 0)), ==, "apple.SVG");
  g_assert_cmpstr (hw_library_item_get_name (item (f, 1)), ==, "quince.svg");
  g_assert_true (g_str_has_prefix (hw_library_item_get_path (item (f, 0)), f->folder));
}

/* Listed again, an unchanged file keeps its picture, a changed one has another made, and one that is gone is gone. */
static void
an_unchanged_file_keeps_its_picture (Fixture *f, gconstpointer data)
{
  g_autofree char *path = g_build_filename (f->folder, "plum.svg", NULL);
  g_autofree char *gone = g_build_filename (f->folder, "apple.svg", NULL);
  struct utimbuf earlier = { 1000000000, 1000000000 };

  put (f, "apple.svg", drawing);
  put (f, "pear.svg", drawing);
  put (f, "plum.svg", drawing);
  list (f);
  HwLibraryItem *pear = item (f, 1), *plum = item (f, 2);
  wait_for_picture (pear);
  g_autoptr (GdkPaintable) shown = NULL;
  g_object_get (pear, "paintable", &shown, NULL);
  g_assert_nonnull (shown);
  /* 40 x 30 mm: its picture is wider than high. */
  g_assert_cmpint (gdk_paintable_get_intrinsic_width (shown), >, gdk_paintable_get_intrinsic_height (shown));
  utime (path, &earlier);
  g_remove (gone);
  g_assert_cmpuint (list (f), ==, 2);
  g_assert_true (item (f, 0) == pear);
  g_assert_true (hw_library_item_get_paintable (item (f, 0)) == shown);
  g_assert_true (item (f, 1) != plum);
  g_assert_null (hw_library_item_get_paintable (item (f, 1)));
}

static void
what_cannot_be_shown_says_why (Fixture *f, gconstpointer data)
{
  put (f, "broken.svg", "this is no drawing");
  list (f);
  wait_for_picture (item (f, 0));
  g_assert_null (hw_library_item_get_paintable (item (f, 0)));
  g_assert_nonnull (hw_library_item_get_trouble (item (f, 0)));
}

static void
a_folder_that_is_gone_offers_nothing (Fixture *f, gconstpointer data)
{
  g_autofree char *trouble = NULL;

  put (f, "pear.svg", drawing);
  g_assert_cmpuint (list (f), ==, 1);
  g_assert_false (hw_library_list_folder (f->store, "/nowhere/orchard", &trouble));
  g_assert_cmpstr (trouble, ==, "The folder orchard cannot be read. Choose another one.");
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (f->store)), ==, 0);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/library-list/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (motif_files_are_offered_by_name);
  ADD (an_unchanged_file_keeps_its_picture);
  ADD (what_cannot_be_shown_says_why);
  ADD (a_folder_that_is_gone_offers_nothing);
  return g_test_run ();
}
