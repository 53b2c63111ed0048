/* Rounds of tests by chance. What watches the tests makes them slow, and what it finds shows in a part of the rounds. */
#pragma once

#include <glib.h>

/* Under the sanitizers a quarter; under memcheck (valgrind.sh) what the environment says, one in so many. */
static inline guint
rounds_watched (guint all)
{
  const char *one_in = g_getenv ("HOOPWRIGHT_ONE_ROUND_IN");
  guint64 share = one_in != NULL ? g_ascii_strtoull (one_in, NULL, 10) : 1;

#ifdef __SANITIZE_ADDRESS__
  share *= 4;
#endif
  return all / (guint)CLAMP (share, 1, all);
}

#define ROUNDS(n) rounds_watched (n)
