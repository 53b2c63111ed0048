/* Folders of a test, which go with all that is in them; where a link leads, nothing is touched. What another thread has taken away meanwhile is gone as well. */
#pragma once

#include <errno.h>
#include <glib/gstdio.h>

static inline void
folder_empty (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR) && !g_file_test (path, G_FILE_TEST_IS_SYMLINK))
        folder_empty (path);
      g_assert_true (g_remove (path) == 0 || errno == ENOENT);
    }
}

static inline void
folder_remove (const char *folder)
{
  folder_empty (folder);
  g_assert_true (g_rmdir (folder) == 0 || errno == ENOENT);
}
