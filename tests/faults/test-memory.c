/* A system short of memory: each large request fails in turn, once or from then on, while a scene is opened, saved, planned, printed, its photo read and its work
 * kept: see memory-runs.h. `test-memory --faults-told` prints how many requests there were. */
#include "memory-runs.h"
#include "memory.h"
#include "words.h"

#define LARGE ((gsize)256 << 10)
#define MOST_REQUESTS 3000

static GString *table;

static void
each_request_fails (gconstpointer data)
{
  const MemoryCase *what = data;
  MemoryDesk *desk = memory_desk_new ();
  guint ends[N_ENDS] = { 0 }, requests = 0;

  for (MemoryFault fault = MEMORY_ONCE; fault <= MEMORY_FROM_THEN_ON; fault++)
    {
      gboolean reached = TRUE;

      for (guint n = 1; reached; n++)
        {
          pid_t child;
          End end;

          g_assert_cmpuint (n, <, MOST_REQUESTS);
          memory_set_up (desk);
          child = memory_begin (desk);
          if (child == 0)
            {
              memory_arm (fault, n, LARGE);
              memory_run_and_exit (what->run, desk);
            }
          end = memory_end_of (desk, child, &reached);
          g_test_message ("%s, request %u, %d: %d", what->name, n, fault, end);
          g_assert_true (end != CRASHED || what->may_crash);
          g_assert_true (end != ENDED || what->may_end);
          memory_look (desk, what, end);
          if (!reached)
            {
              g_assert_cmpint (end, ==, WENT_WELL);
              break;
            }
          requests++;
          ends[end]++;
        }
    }
  g_assert_true (!what->answers || ends[SENTENCE] > 0);
  g_string_append_printf (table, "# %-14s %18u %10u %10u %10u %10u\n", what->name, requests, ends[WENT_WELL],
                          ends[SENTENCE], ends[ENDED], ends[CRASHED]);
  memory_desk_clear (desk);
}

int
main (int argc, char **argv)
{
  gboolean told = take_word (&argc, argv, "--faults-told");
  int status;

  g_test_init (&argc, &argv, NULL);
  table = g_string_new ("# a large request fails while  tried  went well   sentence      ended    crashed\n");
  for (guint i = 0; i < n_memory_cases; i++)
    {
      g_autofree char *path = g_strconcat ("/memory/", memory_cases[i].name, NULL);

      g_strdelimit (path, " ", '-');
      g_test_add_data_func (path, &memory_cases[i], each_request_fails);
    }
  status = g_test_run ();
  if (told)
    g_print ("%s", table->str);
  return status;
}
