/* Where a person was: the scene that was open last, and for each scene how it was seen. Kept in a small file of the program's, apart from the settings: it is
 * nobody's choice, only where the work was left. */
#pragma once

#include <gio/gio.h>

#include "../geometry/point.h"

G_BEGIN_DECLS

/* How a scene was seen. */
typedef struct
{
  gboolean whole; /* the whole cloth, whatever the window's size; else: */
  HwPoint centre; /* of the table, fabric mm */
  double zoom;    /* pixels per mm */
  gboolean at_machine;
  gboolean hoopings, marks, order, density; /* drawn or not */
} HwSceneSeen;

/* folder: where the file lies; NULL: "~/.local/state/hoopwright". scene: a scene file's path. FALSE when nothing sound is known of it; *seen is then
 * left alone. */
gboolean
hw_session_read (const char *folder, const char *scene, HwSceneSeen *seen);
/* Keeps it for so many scenes as HW_SESSION_MOST; the ones left longest ago make room. What cannot be kept is no trouble: it is forgotten. */
void
hw_session_write (const char *folder, const char *scene, const HwSceneSeen *seen);

#define HW_SESSION_MOST 60

/* The scene that was open when the last window closed. Returns: (transfer full) (nullable): NULL when it had no file, or the file is gone */
char *
hw_session_last_scene (const char *folder);
void
hw_session_set_last_scene (const char *folder, const char *scene); /* NULL: none */

G_END_DECLS
