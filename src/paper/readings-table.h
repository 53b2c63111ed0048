/* Private to this room: what was read and entered at the machine for a hooping, filled in. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* A table of the readings, then what was entered. While it is in the machine its marks that were not read yet stand there too; pencil: with
 * boxes to write in. Nothing at all where nothing is there to say. */
void
hw_readings_write (HwWriter *writer, guint hooping, const HwWork *work, gboolean pencil);

G_END_DECLS
