/* Hints: sentences that are shown once each, until the person has put them away. Which were put away is kept in the settings. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  HW_HINT_MOTIF,   /* the first motif that is chosen */
  HW_HINT_PLAN,    /* the first plan */
  HW_HINT_ORDER,   /* a second motif */
  HW_HINT_PRINT,   /* the picture was changed once more */
  HW_HINT_MACHINE, /* the first visit to the machine */
  HW_N_HINTS
} HwHintKind;

/* Whether it is still to be shown; never when there are no settings to remember that it was. */
gboolean
hw_hint_is_wanted (HwHintKind kind);
void
hw_hint_put_away (HwHintKind kind);
/* No hint is wanted any more. */
void
hw_hints_stop (void);
/* All are wanted again. */
void
hw_hints_bring_back (void);
/* The sentences, translated. */
const char *
hw_hint_text (HwHintKind kind);

G_END_DECLS
