/* The headless commands: plan, templates, sheet, needles, lists, supplies, picture, check, correct, follow, square, match, outline. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define HW_EXIT_PLANNED 0
#define HW_EXIT_UNPLANNABLE 1
#define HW_EXIT_BAD 2

/* True when argv[1] is a command (or --help, --version), so that no window is wanted. */
gboolean
hw_commands_wanted (int argc, char **argv);
/* Runs it; returns the exit status of the program. */
int
hw_commands_run (int argc, char **argv);

/* One command each; argv[0] is the command's name. */
int
hw_command_plan (int argc, char **argv);
int
hw_command_templates (int argc, char **argv);
int
hw_command_sheet (int argc, char **argv);
int
hw_command_needles (int argc, char **argv);
int
hw_command_lists (int argc, char **argv);
int
hw_command_supplies (int argc, char **argv);
int
hw_command_picture (int argc, char **argv);
int
hw_command_check (int argc, char **argv);
int
hw_command_correct (int argc, char **argv);
int
hw_command_follow (int argc, char **argv);
int
hw_command_square (int argc, char **argv);
int
hw_command_match (int argc, char **argv);
int
hw_command_outline (int argc, char **argv);

G_END_DECLS
