/* What the two printing commands share. Private to this room. */
#pragma once

#include "../paper/print-job.h"

G_BEGIN_DECLS

/* A switch that prints something else instead. */
typedef struct
{
  const char *name; /* without its dashes */
  HwPaperKind kind;
  const char *help;
} HwOtherPaper;

/* Reads `command [-o FILE.pdf] [--paper NAME] [--unit] [--time] SCENE`, plans, prints and returns the exit
 * status. other: what a switch of its own prints instead, or NULL. */
int
hw_command_print (int argc,
                  char **argv,
                  HwPaperKind kind,
                  const HwOtherPaper *other,
                  const char *summary,
                  const char *more);

G_END_DECLS
