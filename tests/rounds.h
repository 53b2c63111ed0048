/* Rounds of tests by chance. What watches the tests makes them slow, and what it finds shows in a part of the rounds. */
#pragma once

#include <glib.h>

/* Under memcheck (valgrind.sh) one in so many is run, which the environment says. */
static inline guint64
rounds_one_in (void)
{
  const char *one_in = g_getenv ("HOOPWRIGHT_ONE_ROUND_IN");

  return one_in != NULL ? MAX (g_ascii_strtoull (one_in, NULL, 10), 1) : 1;
}

/* Under the sanitizers a quarter, where what is run is counted a half. */
static inline guint
rounds_watched (guint all)
{
  guint64 share = rounds_one_in ();

#ifdef __SANITIZE_ADDRESS__
  share *= 4;
#endif
#ifdef HOOPWRIGHT_COUNTED
  share *= 2;
#endif
  return (guint)MAX (all / share, 1);
}

#define ROUNDS(n) rounds_watched (n)
