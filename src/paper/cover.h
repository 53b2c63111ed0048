/* Private to this room: the first page of a bench sheet. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* HwWriterMatter; subject: not used. Names, plan in one sentence, picture with the numbered hoopings, what to look at first, the hoopings. */
void
hw_cover_write (HwWriter *writer, guint subject);

G_END_DECLS
