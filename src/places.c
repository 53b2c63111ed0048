/* A program in its build folder has a small key file beside it, written by the build, that says where things are. */
#include "places.h"

static void
take_place (GKeyFile *places, const char *key, const char *variable)
{
  g_autofree char *value = g_key_file_get_string (places, "places", key, NULL);

  if (value != NULL)
    g_setenv (variable, value, FALSE);
}

void
hw_places_prepare (void)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autoptr (GKeyFile) places = g_key_file_new ();

  if (program == NULL)
    return;

  g_autofree char *folder = g_path_get_dirname (program);
  g_autofree char *path = g_build_filename (folder, "uninstalled-places", NULL);
  if (!g_key_file_load_from_file (places, path, G_KEY_FILE_NONE, NULL))
    return;

  take_place (places, "schema", "GSETTINGS_SCHEMA_DIR");
  take_place (places, "data", "HOOPWRIGHT_DATA_DIR");
  take_place (places, "help", "HOOPWRIGHT_HELP_DIR");
  take_place (places, "catalogues", "HOOPWRIGHT_CATALOGUE_DIR");
}

const char *
hw_places_catalogues (void)
{
  const char *uninstalled = g_getenv ("HOOPWRIGHT_CATALOGUE_DIR");

  return uninstalled != NULL ? uninstalled : HW_LOCALE_DIR;
}
