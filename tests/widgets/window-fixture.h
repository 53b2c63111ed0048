/* The whole window, in one process with the test, with the orchard on its table, planned. */
#pragma once

#include "hands.h"
#include "workbench/window-private.h"

G_BEGIN_DECLS

typedef struct
{
  GtkApplication *application;
  HwWindow *window;
  HwBench *bench; /* the window's */
  char *folder;   /* empty, for what a test writes */
} Room;

void
room_set_up (Room *room, gconstpointer data);
void
room_tear_down (Room *room, gconstpointer data);
/* Activates an action of the window, as its menu or key would; one that cannot be done now does nothing. Takes over parameter. */
void
room_do (Room *room, const char *action, GVariant *parameter);
gboolean
room_can (Room *room, const char *action);
/* What the window tells at its top, with plain spaces, or NULL. (transfer full) */
char *
room_told (Room *room);
/* Fails where the window tells nothing that begins so. */
void
room_tells (Room *room, const char *beginning);
/* How many windows are open, this one too. */
guint
room_n_windows (void);
/* The dialog that stands over the window, the newest, or NULL. (transfer none) */
GtkWindow *
room_dialog (Room *room);
/* The question for a file or a folder that is on the screen, or NULL. (transfer none) */
GtkFileChooser *
room_chooser (void);
/* Answers it with that path, once it has found it; NULL: goes back. */
void
room_pick (const char *path);
/* A path in the folder. (transfer full) */
char *
room_path (Room *room, const char *name);
/* Writes a file into the folder and returns its path. (transfer full) */
char *
room_write (Room *room, const char *name, const char *contents);
guint
room_n_motifs (Room *room);
/* The first widget of that type within root, or NULL. (transfer none) */
GtkWidget *
room_first (gpointer root, GType type);
/* Runs the main loop for so long. */
void
room_wait (guint ms);

/* Waits until a condition holds, at most a minute, which a busy machine may need. */
#define room_until(condition)                                                                                \
  G_STMT_START                                                                                               \
  {                                                                                                          \
    gint64 end_ = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;                                             \
    while (!(condition))                                                                                     \
      {                                                                                                      \
        g_assert_cmpint (g_get_monotonic_time (), <, end_);                                                  \
        room_wait (5);                                                                                       \
      }                                                                                                      \
  }                                                                                                          \
  G_STMT_END

G_END_DECLS
