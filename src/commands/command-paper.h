/* What the two printing commands share. Private to this room. */
#pragma once

#include "../paper/print-job.h"

G_BEGIN_DECLS

/* Reads `command [-o FILE.pdf] [--paper NAME] [--unit] [--time] SCENE`, plans, prints and returns the exit
 * status. kinds: what to print, chosen by the extra switch of `templates`; offers_layout: whether there is
 * that switch. */
int
hw_command_print (
    int argc, char **argv, HwPaperKind kind, gboolean offers_layout, const char *summary, const char *more);

G_END_DECLS
