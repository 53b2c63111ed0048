/* What the window can do, in one table: the main menu, the keys and the search for commands all read it, so that a command bears one name everywhere. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  HW_KEYS_EVERYWHERE, /* also while something is typed in a field */
  HW_KEYS_AFTER_FIELD /* a field that has the focus may use them first */
} HwKeysReach;

/* All texts are msgids: they are shown through gettext. */
typedef struct
{
  const char *action; /* with its target: "win.line-up::left" */
  const char *label;
  const char *what;  /* one sentence */
  const char *group; /* where it belongs */
  const char *keys;  /* accelerators with a space between, the first is shown; NULL: none */
  HwKeysReach reach;
} HwCommand;

/* Returns: (transfer none): the table; *n how many */
const HwCommand *
hw_commands (guint *n);
/* NULL when the table does not have it. (transfer none) */
const HwCommand *
hw_command_find (const char *action);

/* How well what a person typed fits a command or a motif: every word typed must begin a word of the texts or stand within one, whatever its case and accents.
 * Below 0: it does not fit; else the smaller the better. An empty text fits everything with 0. label must not be NULL, more may be. */
int
hw_command_fit (const char *typed, const char *label, const char *more);

G_END_DECLS
