#include "memory-desk.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>

#include "../paper/garden.h"
#include "../workbench/bench-fixture.h"
#include "../folders.h"
#include "formats/scene-file.h"

#define N_MOTIFS 60

static char *
put_bytes (MemoryDesk *desk, const char *name, const char *bytes, gssize length)
{
  char *path = g_build_filename (desk->root, name, NULL);

  g_assert_true (g_file_set_contents (path, bytes, length, NULL));
  return path;
}

static void
put_corpus (MemoryDesk *desk, const char *name)
{
  g_autofree char *from = g_test_build_filename (G_TEST_DIST, "fuzz", "corpus", name, NULL);
  g_autofree char *base = g_path_get_basename (name);
  g_autofree char *bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (from, &bytes, &length, NULL));
  g_free (put_bytes (desk, base, bytes, (gssize)length));
}

static char *
put_needles (MemoryDesk *desk)
{
  g_autoptr (GString) text = g_string_new ("x_mm,y_mm,action,thread\n");

  for (guint i = 0; i < DESK_ROWS; i++)
    g_string_append_printf (text, "%d,%d,stitch,moss\n", (int)(i % 40) - 20, (int)(i / 40 % 40) - 20);
  g_string_append (text, "0,0,end,moss\n");
  return put_bytes (desk, "rows.csv", text->str, -1);
}

/* Noise, so that the file is as large as the picture. */
static char *
put_photo (MemoryDesk *desk)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 900, 700);
  g_autofree char *path = g_build_filename (desk->root, "quay.png", NULL);
  GRand *rand = g_rand_new_with_seed (11);

  for (gsize i = 0; i < gdk_pixbuf_get_byte_length (pixbuf); i++)
    gdk_pixbuf_get_pixels (pixbuf)[i] = (guchar)g_rand_int (rand);
  g_rand_free (rand);
  g_assert_true (gdk_pixbuf_save (pixbuf, path, "png", NULL, NULL));
  return g_steal_pointer (&path);
}

static char *
put_scene (MemoryDesk *desk, const char *photo)
{
  static const char *const artwork[][2] = { { "rows.csv", "needles" },
                                            { "leaf.svg", "svg" },
                                            { "alpha.png", "png" },
                                            { "plum.jpg", "jpeg" },
                                            { "slip.pdf", "pdf" } };
  g_autofree char *bytes = NULL;
  g_autofree char *base64 = NULL;
  g_autoptr (GString) text = g_string_new (
      "{\"format\": \"hoopwright-scene\", \"version\": 1, \"name\": \"Quay\", \"fabric\": {\"width\": 700, "
      "\"height\": 540}, \"edge_line\": {\"points\": [[5, 5], [695, 5], [695, 535], [5, 535]]}, \"hoops\": "
      "[{\"id\": \"h1\", \"field\": [130, 180]}], \"motifs\": [");
  gsize length;

  for (guint i = 0; i < G_N_ELEMENTS (artwork); i++)
    g_string_append_printf (
        text,
        "%s{\"id\": \"m%u\", \"name\": \"Leaf %u\", \"outline\": [[[-20, -20], [20, -20], [20, 20], [-20, "
        "20]]], \"position\": [%u, 100], \"artwork\": {\"path\": \"%s\", \"kind\": \"%s\"}, \"threads\": "
        "[{\"name\": \"moss\", \"colour\": \"#335522\", \"stitches\": 1200}]}",
        i > 0 ? ", " : "", i, i, 60 + 110 * i, artwork[i][0], artwork[i][1]);
  g_assert_true (g_file_get_contents (photo, &bytes, &length, NULL));
  base64 = g_base64_encode ((const guchar *)bytes, length);
  g_string_append_printf (
      text,
      "], \"photo\": {\"stack\": [{\"name\": \"Cloth\", \"data\": \"%s\", \"points\": []}], \"shown\": -1}}",
      base64);
  return put_bytes (desk, "quay.hoopscene", text->str, -1);
}

static HwSnapshot *
many_motifs (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  HwSnapshot *scene = hw_scene_snapshot (hw_bench_get_scene (bench));
  HwSnapshot *copy = hw_snapshot_copy (scene);

  hw_snapshot_unref (scene);
  for (guint i = 0; i < N_MOTIFS; i++)
    {
      g_autofree char *id = g_strdup_printf ("n%u", i);
      g_ptr_array_add (copy->motifs, orchard_motif (id, "Pear", 60 + 55 * (i % 10), 60 + 55 * (i / 10)));
    }
  return copy;
}

MemoryDesk *
memory_desk_new (void)
{
  MemoryDesk *desk = g_new0 (MemoryDesk, 1);

  desk->root = g_dir_make_tmp ("hw-memory-XXXXXX", NULL);
  for (const char *const *name
       = (const char *const[]){ "artwork-svg/leaf.svg", "artwork-png/alpha.png", "artwork-jpeg/plum.jpg",
                                "artwork-pdf/slip.pdf", NULL };
       *name != NULL; name++)
    put_corpus (desk, *name);
  g_free (put_needles (desk));
  desk->photo = put_photo (desk);
  desk->scene = put_scene (desk, desk->photo);
  desk->saved = g_build_filename (desk->root, "saved", NULL);
  desk->work = g_build_filename (desk->root, "work", NULL);
  desk->said = g_build_filename (desk->root, "said", NULL);
  g_assert_cmpint (g_mkdir (desk->work, 0700), ==, 0);
  desk->large = hw_scene_file_load_awaiting (desk->scene, NULL);
  g_assert_nonnull (desk->large);
  desk->to_plan = many_motifs ();
  desk->plan = garden_plan_large (2, 30000);
  return desk;
}

void
memory_desk_clear (MemoryDesk *desk)
{
  folder_remove (desk->root);
}
