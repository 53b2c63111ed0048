/* Rounds of tests by chance. */
#pragma once

/* What the sanitizers find shows in a quarter of the rounds, and each takes them ten times as long. */
#ifdef __SANITIZE_ADDRESS__
#define ROUNDS(n) ((n) / 4)
#else
#define ROUNDS(n) (n)
#endif
