/* What a long way takes, tenth by tenth. */
#include "tenths.h"

#include <malloc.h>
#include <time.h>

#define MOST_GROWN 1.05 /* of the bytes in use */
#define MOST_SLOWED 1.5
#define SLACK (2 << 20) /* bytes: what a single plan more or less takes */

double
tenths_cpu_ms (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return now.tv_sec * 1e3 + now.tv_nsec / 1e6;
}

/* Bytes in use, not what the allocator keeps for later. */
static gsize
bytes_in_use (void)
{
  struct mallinfo2 info = mallinfo2 ();

  return info.uordblks + info.hblkhd;
}

void
tenths_note (Tenths *told, guint tenth, double began, guint steps)
{
  told->ms[tenth] = (tenths_cpu_ms () - began) / steps;
  told->bytes[tenth] = bytes_in_use ();
  g_print ("# %3u %%: %6.2f ms of CPU a step, %7.2f MB in use\n", (tenth + 1) * 100 / TENTHS, told->ms[tenth],
           (double)told->bytes[tenth] / (1 << 20));
}

gboolean
tenths_judge (const Tenths *told, gboolean timed)
{
  gsize early = MAX (told->bytes[2], told->bytes[3]), late = MIN (told->bytes[8], told->bytes[9]);
  double quick = MIN (told->ms[2], told->ms[3]), slow = MIN (told->ms[8], told->ms[9]);
  gboolean flat = (double)late <= (double)early * MOST_GROWN + SLACK;
  gboolean steady = !timed || slow <= quick * MOST_SLOWED;

  g_print ("%sok 1 - memory stays as it is\n", flat ? "" : "not ");
  if (timed)
    g_print ("%sok 2 - steps take no longer\n", steady ? "" : "not ");
  g_print ("1..%d\n", timed ? 2 : 1);
  return flat && steady;
}
