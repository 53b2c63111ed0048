/* Room for large work. */
#include "room.h"

gboolean
hw_room_for (gsize bytes)
{
  gpointer room = g_try_malloc (bytes);

  g_free (room);
  return bytes == 0 || room != NULL;
}
