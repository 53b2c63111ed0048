/* A bench with the orchard, planned, and a window over which its dialogs open. */
#pragma once

#include "hands.h"

G_BEGIN_DECLS

typedef struct
{
  HwBench *bench;
  GtkWindow *parent;
  GtkWindow *dialog; /* the one last opened */
} Desk;

void
desk_set_up (Desk *desk, gconstpointer data);
void
desk_tear_down (Desk *desk, gconstpointer data);
/* Opens the dialog that show opens, which bears that title. */
void
desk_open (Desk *desk, void (*show) (GtkWindow *parent, HwBench *bench), const char *title);
/* Whether it has been closed. */
gboolean
desk_is_closed (Desk *desk, const char *title);
/* Types into the field for a measure of that name. */
void
desk_measure (Desk *desk, const char *name, const char *text);
void
desk_choose (Desk *desk, const char *name, guint choice);
/* Fails where no label of the dialog says just this. */
void
desk_says (Desk *desk, const char *sentence);
/* The first label that begins so, with plain spaces; or NULL. (transfer full) */
char *
desk_sentence (Desk *desk, const char *beginning);

G_END_DECLS
