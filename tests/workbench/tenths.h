/* What a long way takes, tenth by tenth: memory that should stay as it is, and the time of a step. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define TENTHS 10

typedef struct
{
  double ms[TENTHS];
  gsize bytes[TENTHS];
} Tenths;

/* The processor's time that this process has taken, ms. */
double
tenths_cpu_ms (void);
/* Notes and prints what a tenth took that began at began (tenths_cpu_ms()) and had so many steps, and what is in use now. */
void
tenths_note (Tenths *told, guint tenth, double began, guint steps);
/* Prints in TAP whether memory in use has stayed from the third tenth on, when the history is full, and, where timed, whether steps take no longer. Returns: whether both. */
gboolean
tenths_judge (const Tenths *told, gboolean timed);

G_END_DECLS
