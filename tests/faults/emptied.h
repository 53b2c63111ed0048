/* A folder of the test, emptied with all below it. */
#pragma once

#include <glib/gstdio.h>

static inline void
empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        empty (path);
      g_assert_cmpint (g_remove (path), ==, 0);
    }
}
