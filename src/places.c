/* A program in its build folder has a small key file beside it, written by the build, that says where things are. An installed one finds them by its own
 * place, so that a tree installed under another root can be tried out before it is packed. */
#include "places.h"

#include <string.h>

static void
take_place (GKeyFile *places, const char *key, const char *variable)
{
  g_autofree char *value = g_key_file_get_string (places, "places", key, NULL);

  if (value != NULL)
    g_setenv (variable, value, FALSE);
}

/* FALSE when the program does not run from its build folder. */
static gboolean
take_uninstalled (const char *folder)
{
  g_autoptr (GKeyFile) places = g_key_file_new ();
  g_autofree char *path = g_build_filename (folder, "uninstalled-places", NULL);

  if (!g_key_file_load_from_file (places, path, G_KEY_FILE_NONE, NULL))
    return FALSE;
  take_place (places, "schema", "GSETTINGS_SCHEMA_DIR");
  take_place (places, "data", "HOOPWRIGHT_DATA_DIR");
  take_place (places, "help", "HOOPWRIGHT_HELP_DIR");
  take_place (places, "catalogues", "HOOPWRIGHT_CATALOGUE_DIR");
  return TRUE;
}

static void
take_under (const char *root, const char *folder, const char *variable)
{
  g_autofree char *path = g_strconcat (root, folder, NULL);

  g_setenv (variable, path, FALSE);
}

/* The root in front of where the program was built to be, "" when there is none. */
static void
take_installed (const char *folder)
{
  g_autofree char *schema = NULL;

  if (!g_str_has_suffix (folder, HW_BIN_DIR))
    return;
  g_autofree char *root = g_strndup (folder, strlen (folder) - strlen (HW_BIN_DIR));
  schema = g_strconcat (root, HW_SCHEMA_DIR, G_DIR_SEPARATOR_S "gschemas.compiled", NULL);
  if (g_file_test (schema, G_FILE_TEST_IS_REGULAR))
    take_under (root, HW_SCHEMA_DIR, "GSETTINGS_SCHEMA_DIR");
  if (*root == '\0')
    return;
  take_under (root, HW_DATA_DIR, "HOOPWRIGHT_DATA_DIR");
  take_under (root, HW_HELP_DIR, "HOOPWRIGHT_HELP_DIR");
  take_under (root, HW_LOCALE_DIR, "HOOPWRIGHT_CATALOGUE_DIR");
}

void
hw_places_prepare (void)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);

  if (program == NULL)
    return;

  g_autofree char *folder = g_path_get_dirname (program);
  if (!take_uninstalled (folder))
    take_installed (folder);
}

const char *
hw_places_catalogues (void)
{
  const char *uninstalled = g_getenv ("HOOPWRIGHT_CATALOGUE_DIR");

  return uninstalled != NULL ? uninstalled : HW_LOCALE_DIR;
}
