/* Whether there is memory enough for a large piece of work. GLib and most libraries end the program when a request fails; before work whose size a file decides, the
 * room it will need is asked for and given back, so that the answer can be a sentence. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

gboolean
hw_room_for (gsize bytes);

G_END_DECLS
