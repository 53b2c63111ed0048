/* The sanitizer sees what is planted, and takes none of the right ways for a race. */
#include <gio/gio.h>

typedef struct
{
  const char *way;
  gboolean race;
} Way;

static const Way ways[] = {
  { "bare", TRUE },           { "locked", FALSE },      { "woken", FALSE },
  { "woken-too-soon", TRUE }, { "task", FALSE },        { "task-meddled", TRUE },
  { "idle", FALSE },          { "idle-meddled", TRUE }, { "counted", FALSE },
};

static void
test_way (gconstpointer data)
{
  const Way *way = data;
  g_autofree char *said = NULL;
  g_autofree char *program = g_test_build_filename (G_TEST_BUILT, "planted", NULL);
  const char *arguments[] = { program, way->way, NULL };
  g_autoptr (GError) error = NULL;
  int status;

  g_assert_true (g_spawn_sync (NULL, (char **)arguments, NULL, G_SPAWN_STDOUT_TO_DEV_NULL, NULL, NULL, NULL,
                               &said, &status, &error));
  g_assert_no_error (error);
  if (way->race)
    {
      g_assert_nonnull (strstr (said, "data race"));
      g_assert_false (g_spawn_check_wait_status (status, NULL));
    }
  else
    {
      g_assert_cmpstr (said, ==, "");
      g_assert_true (g_spawn_check_wait_status (status, NULL));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      g_autofree char *path = g_strconcat ("/threads/told/", ways[i].way, NULL);

      g_test_add_data_func (path, &ways[i], test_way);
    }
  return g_test_run ();
}
