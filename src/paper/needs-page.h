/* Private to this room: the bench sheet's page of all that is laid ready before the work begins. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* HwWriterMatter; subject: not used. Cloth, thread and time; the threads; the hoops. */
void
hw_needs_page_write (HwWriter *writer, guint subject);

G_END_DECLS
