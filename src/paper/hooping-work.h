/* Private to this room: what is done in one hooping, as running matter in two columns. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* Goes on from where the writer is; leaves it below the longer column. */
void
hw_hooping_work_write (HwWriter *writer, guint hooping);

G_END_DECLS
