/* What the commands share: the words on their command line, a scene read and planned, complaints in one line. Private to this room. */
#pragma once

#include <stdio.h>

#include "../planning/planner.h"
#include "commands.h"

G_BEGIN_DECLS

/* The part of the command line that every command has: hoopwright COMMAND [--time S] [--unit mm|in] SCENE, with some commands a second file after it. */
typedef struct
{
  char *scene;    /* the scene file's path as it was given */
  char *second;   /* the second file's path, of commands that take one */
  double seconds; /* --time: for the planner */
  HwUnit unit;    /* --unit: of lengths in sentences and on paper */
} HwCommandLine;

/* Parses a command's line by its options; help: set by the option that asks for it. FALSE when there is nothing more to do: help was printed, or a
 * complaint; *status is then the exit status. */
gboolean
hw_command_parse (GOptionContext *context, const gboolean *help, int argc, char **argv, int *status);

/* Reads a command's line; argv[0] is the command's name. extra (ended by {NULL}, or NULL) are options of its own: strings read there are
 * the caller's. summary: one sentence for --help; more: a paragraph for its end, or NULL. Returns FALSE when there is nothing more to do: help was printed, or a
 * complaint; *status is then the exit status. Clear *line either way. */
gboolean
hw_command_line_read (HwCommandLine *line,
                      int argc,
                      char **argv,
                      const GOptionEntry *extra,
                      const char *summary,
                      const char *more,
                      int *status);
/* The same, but without a scene file when the option that sets *alone was given. */
gboolean
hw_command_line_read_unless (HwCommandLine *line,
                             int argc,
                             char **argv,
                             const gboolean *alone,
                             const GOptionEntry *extra,
                             const char *summary,
                             const char *more,
                             int *status);
/* The same with a second file, which --help and complaints call second_name: "READINGS.json". */
gboolean
hw_command_line_read_two (HwCommandLine *line,
                          int argc,
                          char **argv,
                          const char *second_name,
                          const GOptionEntry *extra,
                          const char *summary,
                          const char *more,
                          int *status);
void
hw_command_line_clear (HwCommandLine *line);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HwCommandLine, hw_command_line_clear)

/* Reads the scene; NULL after one line on standard error (the exit status is then HW_EXIT_BAD). Returns: (transfer full) (nullable) */
HwSnapshot *
hw_command_load (const HwCommandLine *line);

/* Plans it within the line's time. Returns: (transfer full) */
HwPlan *
hw_command_make_plan (const HwCommandLine *line, const HwSnapshot *snapshot);

/* Plans it whole; NULL after one line on standard error when it cannot be (the exit status is then HW_EXIT_UNPLANNABLE). Returns: (transfer full) (nullable) */
HwPlan *
hw_command_make_whole_plan (const HwCommandLine *line, const HwSnapshot *snapshot);

/* The part of the scene that --part names, from 1; 0 when name is NULL. FALSE after one line on standard error when there is no such part. */
gboolean
hw_command_find_part (const char *name, const HwSnapshot *snapshot, guint *part);

/* HW_EXIT_PLANNED or HW_EXIT_UNPLANNABLE. */
int
hw_command_exit_status (const HwPlan *plan);

/* One line for each problem of the plan; those that keep the scene from being stitched come first. */
void
hw_command_print_problems (const HwPlan *plan, FILE *to);
void
hw_command_append_problems (GString *text, const HwPlan *plan);

/* Writes text on standard output. Returns status, or HW_EXIT_BAD after a complaint when it cannot be written whole. */
int
hw_command_output (const char *text, int status);

/* "hoopwright: " and the sentence on standard error, in one line whatever it holds. Returns HW_EXIT_BAD. */
int
hw_command_complain (const char *format, ...) G_GNUC_PRINTF (1, 2);

G_END_DECLS
