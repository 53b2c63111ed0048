/* A bound on memory that the system itself holds, from 2 MB over what is taken already to 1 GB: see memory-runs.h. */
#include <malloc.h>
#include <sys/resource.h>
#include <unistd.h>

#include "memory-runs.h"

static gsize
taken_now (void)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents ("/proc/self/statm", &text, NULL, NULL));
  return (gsize)g_ascii_strtoull (text, NULL, 10) * (gsize)sysconf (_SC_PAGESIZE);
}

static void
a_bound_on_the_address_space_is_borne (gconstpointer data)
{
  const MemoryCase *what = data;
  MemoryDesk *desk = memory_desk_new ();
  End last = ENDED;

  for (gsize room = 2 << 20; room <= (gsize)1 << 30; room *= 2)
    {
      gboolean reached;
      pid_t child;

      memory_set_up (desk);
      child = memory_begin (desk);
      if (child == 0)
        {
          rlim_t most;

          malloc_trim (0); /* what the tests before gave back */
          most = taken_now () + room;

          setrlimit (RLIMIT_AS, &(struct rlimit){ most, most });
          memory_run_and_exit (what->run, desk);
        }
      last = memory_end_of (desk, child, &reached);
      g_test_message ("%s within %" G_GSIZE_FORMAT " MB: %d", what->name, room >> 20, last);
      g_assert_true (last != CRASHED || what->may_crash);
      memory_look (desk, what, last);
    }
  g_assert_cmpint (last, ==, WENT_WELL);
  memory_desk_clear (desk);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < n_memory_cases; i++)
    {
      g_autofree char *path = g_strconcat ("/memory/bounded/", memory_cases[i].name, NULL);

      g_strdelimit (path, " ", '-');
      g_test_add_data_func (path, &memory_cases[i], a_bound_on_the_address_space_is_borne);
    }
  return g_test_run ();
}
