/* The file of where a person was. Whatever stands in it, what is read can be shown, what is written over it is read again, and it stays small. */
#include <glib/gstdio.h>
#include <math.h>

#include "../../src/workbench/session.h"
#include "fuzz.h"

#define SCENE "/orchard/pears.hoopscene"

static const char *
folder (void)
{
  static char *made;

  if (made == NULL)
    made = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  return made;
}

/* Where a spoiled group can be found, its name in the corpus is put in the place of the scene's own. */
static char *
with_own_group (const char *data, gsize size, gsize *length)
{
  g_autofree char *group = g_compute_checksum_for_string (G_CHECKSUM_SHA256, SCENE, -1);
  GString *text = g_string_new_len (data, (gssize)size);

  g_string_replace (text, "PEARS", group, 0);
  *length = text->len;
  return g_string_free (text, FALSE);
}

static void
assert_can_be_shown (const HwSceneSeen *seen)
{
  if (seen->whole)
    return;
  g_assert_cmpfloat (fabs (seen->centre.x), <=, 1e6);
  g_assert_cmpfloat (fabs (seen->centre.y), <=, 1e6);
  g_assert_true (seen->zoom > 0 && seen->zoom <= 1000);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *path = g_build_filename (folder (), "session.ini", NULL);
  gsize length;
  g_autofree char *text = with_own_group ((const char *)data, size, &length);
  g_autofree char *last = NULL, *none = NULL;
  HwSceneSeen seen, again, other = { .centre = { 12.5, -3 }, .zoom = 1.5, .marks = TRUE };

  g_assert_true (g_file_set_contents_full (path, text, (gssize)length, G_FILE_SET_CONTENTS_NONE, 0600, NULL));
  last = hw_session_last_scene (folder ());
  g_assert_true (last == NULL || g_file_test (last, G_FILE_TEST_IS_REGULAR));
  if (hw_session_read (folder (), SCENE, &seen))
    assert_can_be_shown (&seen);

  hw_session_write (folder (), SCENE, &other);
  g_assert_true (hw_session_read (folder (), SCENE, &again));
  g_assert_true (!again.whole && again.centre.x == 12.5 && again.centre.y == -3 && again.zoom == 1.5
                 && again.marks && !again.order);
  hw_session_set_last_scene (folder (), NULL);
  none = hw_session_last_scene (folder ());
  g_assert_null (none);
  g_remove (path);
  return 0;
}
