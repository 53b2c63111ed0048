/* Room for scenes. json-glib ends the program when there is none, so the most it will need is reckoned first: a node for each value, and each long text several times
 * over, as a token, a node and bytes. */
#include "scene-room.h"

#include <string.h>

#include "../geometry/room.h"

#define PER_VALUE 160u /* bytes of a node with its value and its place in a list; from memory */
#define TIMES 4u       /* a text is held so often at once */
#define PER_POINT 40u  /* letters of two numbers */
#define AT_LEAST ((gsize)1 << 20)

gboolean
hw_scene_room_to_read (const char *text, gsize length)
{
  gsize values = 0;

  for (gsize i = 0; i < length; i++)
    values += text[i] == ',' || text[i] == ':' || text[i] == '[' || text[i] == '{';
  return hw_room_for (AT_LEAST + TIMES * length + PER_VALUE * values);
}

gboolean
hw_scene_room_to_write (const HwSnapshot *snapshot)
{
  gsize letters = 0, points = 0;

  for (guint i = 0; i < snapshot->photos->len; i++)
    {
      const HwPhoto *photo = snapshot->photos->pdata[i];

      points += photo->n_points * 2;
      if (photo->path == NULL && photo->bytes != NULL)
        letters += g_bytes_get_size (photo->bytes) / 3 * 4;
    }
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwOutline *outline = hw_snapshot_motif (snapshot, i)->outline;

      for (guint r = 0; outline != NULL && r < outline->n_rings; r++)
        points += outline->rings[r].n_points;
    }
  return hw_room_for (AT_LEAST + TIMES * (letters + PER_POINT * points) + 3 * PER_VALUE * points);
}
