/* The small pictures of the workbench: each one that is named is there, is drawn on the 16 pixel grid with the one pen, and shows something; and none
 * lies there unused. */
#include <cairo.h>
#include <glib.h>
#include <librsvg/rsvg.h>
#include <string.h>

#define GRID 16
#define FINE 8 /* pixels to a unit of the grid, to look closely */

static char *
source_file (const char *first, ...)
{
  va_list rest;
  va_start (rest, first);
  g_autofree char *inner = g_build_filename_valist ((char *)first, &rest);
  va_end (rest);
  return g_build_filename (g_getenv ("G_TEST_SRCDIR"), "..", inner, NULL);
}

static char *
contents (const char *path)
{
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

/* Names in the folder that end so. Returns: (transfer full) (element-type utf8) */
static GPtrArray *
names_in (const char *folder, const char *end)
{
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, end))
      g_ptr_array_add (names, g_strdup (name));
  return names;
}

static void
take_names (GHashTable *named, const char *text)
{
  g_autoptr (GRegex) regex = g_regex_new ("[\">]([a-z][a-z-]*-symbolic)[\"<]", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;

  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match); g_match_info_next (match, NULL))
    g_hash_table_add (named, g_match_info_fetch (match, 1));
}

/* Every name of an icon in the code and the .ui files. Returns: (transfer full) (element-type utf8) */
static GHashTable *
named_icons (void)
{
  GHashTable *named = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *folder = source_file ("src", "workbench", NULL);

  for (int i = 0; i < 2; i++)
    {
      g_autoptr (GPtrArray) files = names_in (folder, i == 0 ? ".c" : ".ui");

      g_assert_cmpuint (files->len, >, 0);
      for (guint j = 0; j < files->len; j++)
        {
          g_autofree char *path = g_build_filename (folder, g_ptr_array_index (files, j), NULL);
          g_autofree char *text = contents (path);

          take_names (named, text);
        }
    }
  return named;
}

static char *
drawing_of (const char *name)
{
  g_autofree char *file = g_strconcat (name, ".svg", NULL);

  return source_file ("data", "icons", "workroom", file, NULL);
}

static void
test_each_named_icon_is_our_own_and_in_the_program (void)
{
  g_autoptr (GHashTable) named = named_icons ();
  g_autofree char *list = source_file ("src", "workbench", "hoopwright.gresource.xml", NULL);
  g_autofree char *resources = contents (list);
  GHashTableIter iter;
  gpointer name;

  g_assert_cmpuint (g_hash_table_size (named), >, 20);
  g_hash_table_iter_init (&iter, named);
  while (g_hash_table_iter_next (&iter, &name, NULL))
    {
      g_autofree char *path = drawing_of (name);
      g_autofree char *line = g_strdup_printf ("alias=\"scalable/actions/%s.svg\"", (char *)name);

      g_test_message ("%s", (char *)name);
      g_assert_true (g_file_test (path, G_FILE_TEST_IS_REGULAR));
      g_assert_nonnull (strstr (resources, line));
    }
}

static void
test_no_icon_lies_unused (void)
{
  g_autoptr (GHashTable) named = named_icons ();
  g_autofree char *folder = source_file ("data", "icons", "workroom", NULL);
  g_autoptr (GPtrArray) files = names_in (folder, ".svg");

  for (guint i = 0; i < files->len; i++)
    {
      char *name = g_ptr_array_index (files, i);

      g_test_message ("%s", name);
      *strrchr (name, '.') = '\0';
      g_assert_true (g_hash_table_contains (named, name));
    }
}

/* How much of the square is inked; fails when ink lies in the outermost half unit of the grid. */
static double
inked (const char *path)
{
  g_autoptr (GError) error = NULL;
  RsvgHandle *handle = rsvg_handle_new_from_file (path, &error);
  const RsvgRectangle all = { 0, 0, GRID * FINE, GRID * FINE };
  cairo_surface_t *surface;
  gboolean has_width, has_height, has_box;
  RsvgLength width, height;
  RsvgRectangle box;
  double sum = 0;
  cairo_t *cr;

  g_assert_no_error (error);
  rsvg_handle_get_intrinsic_dimensions (handle, &has_width, &width, &has_height, &height, &has_box, &box);
  g_assert_true (has_box && has_width && has_height);
  g_assert_cmpfloat (box.width, ==, GRID);
  g_assert_cmpfloat (box.height, ==, GRID);
  surface = cairo_image_surface_create (CAIRO_FORMAT_A8, GRID * FINE, GRID * FINE);
  cr = cairo_create (surface);
  g_assert_true (rsvg_handle_render_document (handle, cr, &all, &error));
  g_assert_no_error (error);
  cairo_destroy (cr);
  g_object_unref (handle);
  cairo_surface_flush (surface);
  for (int y = 0; y < GRID * FINE; y++)
    for (int x = 0; x < GRID * FINE; x++)
      {
        guchar ink = cairo_image_surface_get_data (surface)[y * cairo_image_surface_get_stride (surface) + x];
        const int rim = FINE / 2;

        if (x < rim || y < rim || x >= GRID * FINE - rim || y >= GRID * FINE - rim)
          g_assert_cmpuint (ink, ==, 0);
        sum += ink / 255.0;
      }
  cairo_surface_destroy (surface);
  return sum / (GRID * FINE * GRID * FINE);
}

/* One pen for all: a stroke of 1.5 with round ends and nothing filled, since a symbolic icon is coloured by its filled parts and an opaque fill
 * would swallow the drawing; and in black, since any other colour is taken for a mixture of the theme's colours for trouble and success. */
static void
test_each_icon_is_drawn_with_the_one_pen (void)
{
  g_autofree char *folder = source_file ("data", "icons", "workroom", NULL);
  g_autoptr (GPtrArray) files = names_in (folder, ".svg");

  for (guint i = 0; i < files->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, g_ptr_array_index (files, i), NULL);
      g_autofree char *text = contents (path);
      const char *pen = "<g fill-opacity=\"0\" stroke=\"#000\" stroke-width=\"1.5\" stroke-linecap=\"round\"";

      g_test_message ("%s", path);
      g_assert_nonnull (strstr (text, pen));
      g_assert_null (strstr (strstr (text, pen) + strlen (pen), "stroke-width"));
      g_assert_null (strstr (text, "fill="));
      g_assert_cmpfloat (inked (path), >, 0.03);
      g_assert_cmpfloat (inked (path), <, 0.60);
    }
}

/* The program's own icon, large and as a sign of one colour. */
static void
test_the_program_has_its_icon_in_both_forms (void)
{
  static const char *const forms[] = { "scalable/apps/org.hoopwright.Hoopwright.svg",
                                       "symbolic/apps/org.hoopwright.Hoopwright-symbolic.svg" };
  g_autofree char *list = source_file ("src", "workbench", "hoopwright.gresource.xml", NULL);
  g_autofree char *resources = contents (list);

  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *path = source_file ("data", "icons", "hicolor", forms[i], NULL);
      RsvgHandle *handle = rsvg_handle_new_from_file (path, &error);

      g_assert_no_error (error);
      g_assert_nonnull (handle);
      g_assert_nonnull (strstr (resources, forms[i]));
      g_object_unref (handle);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/icons/each-named-icon-is-our-own-and-in-the-program",
                   test_each_named_icon_is_our_own_and_in_the_program);
  g_test_add_func ("/icons/no-icon-lies-unused", test_no_icon_lies_unused);
  g_test_add_func ("/icons/each-icon-is-drawn-with-the-one-pen", test_each_icon_is_drawn_with_the_one_pen);
  g_test_add_func ("/icons/the-program-has-its-icon-in-both-forms",
                   test_the_program_has_its_icon_in_both_forms);
  return g_test_run ();
}
