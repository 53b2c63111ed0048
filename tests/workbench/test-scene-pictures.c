/* Pictures of scenes for the start page: painted once, painted anew when the scene was saved anew, and never too many kept. */
#include <cairo.h>
#include <glib/gstdio.h>
#include <utime.h>

#include "../folders.h"
#include "formats/scene-file.h"
#include "workbench/new-scene.h"
#include "workbench/scene-pictures.h"

typedef struct
{
  char *folder, *kept;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = g_dir_make_tmp ("hw-pictures-XXXXXX", NULL);
  f->kept = g_build_filename (f->folder, "kept", "here", NULL);
}

static guint
count_kept (Fixture *f)
{
  g_autoptr (GDir) dir = g_dir_open (f->kept, 0, NULL);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    n++;
  return n;
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  folder_remove (f->folder);
  g_free (f->folder);
  g_free (f->kept);
}

/* Returns: (transfer full): the path of a bare cloth of that size and colour */
static char *
write_scene (Fixture *f, const char *name, double width, double height, HwColour colour)
{
  const HwFabric fabric = { .width = width, .height = height, .colour = colour };
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  g_autoptr (HwSnapshot) scene = hw_new_scene (name, &fabric, HW_EDGE_RECTANGLE, 40, none);
  char *path = g_build_filename (f->folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_scene_file_save (scene, path, NULL, &error));
  return path;
}

static char *
picture (Fixture *f, const char *scene)
{
  g_autoptr (GError) error = NULL;
  char *path = hw_scene_picture_file (f->kept, scene, 300, &error);

  g_assert_no_error (error);
  g_assert_nonnull (path);
  return path;
}

static void
shows_the_cloth (Fixture *f, gconstpointer data)
{
  g_autofree char *scene = write_scene (f, "harbour.hoopscene", 600, 400, (HwColour){ 0.1, 0.2, 0.9 });
  g_autofree char *png = picture (f, scene);
  cairo_surface_t *surface = cairo_image_surface_create_from_png (png);
  const guchar *data_of = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  guint32 middle;

  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, 300);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, 200);
  memcpy (&middle, data_of + 100 * stride + 150 * 4, sizeof middle);
  g_assert_cmpuint (middle & 0xff, >, 200);
  g_assert_cmpuint (middle >> 16 & 0xff, <, 60);
  cairo_surface_destroy (surface);
  g_remove (scene);
}

static void
is_painted_once (Fixture *f, gconstpointer data)
{
  g_autofree char *scene = write_scene (f, "harbour.hoopscene", 600, 400, (HwColour){ 0.1, 0.2, 0.9 });
  g_autofree char *first = picture (f, scene);

  /* What is kept is taken as it is: another content shows that nothing was painted. */
  g_assert_true (g_file_set_contents (first, "as it was", -1, NULL));
  g_autofree char *second = picture (f, scene);
  g_autofree char *content = NULL;
  g_assert_cmpstr (first, ==, second);
  g_assert_true (g_file_get_contents (second, &content, NULL, NULL));
  g_assert_cmpstr (content, ==, "as it was");

  g_remove (scene);
  g_autofree char *again = write_scene (f, "harbour.hoopscene", 600, 401, (HwColour){ 0.9, 0.2, 0.1 });
  g_autofree char *third = picture (f, again);
  g_assert_cmpstr (third, !=, first);
  g_remove (again);
}

static void
only_the_latest_are_kept (Fixture *f, gconstpointer data)
{
  g_autofree char *oldest = NULL;

  for (guint i = 0; i < 30; i++)
    {
      g_autofree char *name = g_strdup_printf ("scene %u.hoopscene", i);
      g_autofree char *scene = write_scene (f, name, 300, 300, (HwColour){ 0.5, 0.5, 0.5 });
      g_autofree char *png = picture (f, scene);
      const struct utimbuf then = { 1000000 + i, 1000000 + i };

      utime (png, &then);
      if (i == 0)
        oldest = g_strdup (png);
      g_remove (scene);
    }
  g_assert_cmpuint (count_kept (f), ==, 24);
  g_assert_false (g_file_test (oldest, G_FILE_TEST_EXISTS));
}

static void
says_why_there_is_none (Fixture *f, gconstpointer data)
{
  g_autofree char *missing = g_build_filename (f->folder, "nowhere.hoopscene", NULL);
  g_autofree char *broken = g_build_filename (f->folder, "broken.hoopscene", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_null (hw_scene_picture_file (f->kept, missing, 300, &error));
  g_assert_nonnull (error);
  g_clear_error (&error);
  g_assert_true (g_file_set_contents (broken, "{\"format\": ", -1, NULL));
  g_assert_null (hw_scene_picture_file (f->kept, broken, 300, &error));
  g_assert_nonnull (error);
  g_assert_cmpuint (count_kept (f), ==, 0);
  g_remove (broken);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add ("/scene-pictures/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("shows-the-cloth", shows_the_cloth);
  ADD ("is-painted-once", is_painted_once);
  ADD ("only-the-latest-are-kept", only_the_latest_are_kept);
  ADD ("says-why-there-is-none", says_why_there_is_none);
  return g_test_run ();
}
