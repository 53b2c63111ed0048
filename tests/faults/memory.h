/* Memory that is not there. The test program takes the place of malloc and its kin for itself and for the libraries it uses. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  MEMORY_ONCE,        /* one request fails, as when something else has just taken the room */
  MEMORY_FROM_THEN_ON /* and all that large after it */
} MemoryFault;

/* From now on requests of at least so many bytes are counted from 1, in all threads, and the request of that number fails. */
void
memory_arm (MemoryFault fault, guint request, gsize least);
/* Whether the request was reached. */
gboolean
memory_disarm (void);

G_END_DECLS
