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

#define HW_MOST_OTHER_PAPERS 3

/* One printing command. */
typedef struct
{
  HwPaperKind kind;
  HwOtherPaper others[HW_MOST_OTHER_PAPERS]; /* ended by a NULL name where there are fewer */
  gboolean of_templates;                     /* has the options that say how a template is to look */
  const char *summary, *more;                /* for --help; more may be NULL */
} HwPaperCommand;

/* Reads `command -o FILE.pdf [OPTIONS] SCENE`, plans, prints and returns the exit status. */
int
hw_command_print (int argc, char **argv, const HwPaperCommand *command);

G_END_DECLS
