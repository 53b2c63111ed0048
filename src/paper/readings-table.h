/* Private to this room: what was read and entered at the machine for a hooping, filled in. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* The work on a hooping of the plan: of one that is stitched how it went, of the one in the machine how far it is; NULL for any other, and
 * where nothing was written down. The plan's own. */
const HwWork *
hw_work_of_hooping (const HwPlan *plan, guint hooping);

/* A table of the readings, then what was entered. While it is in the machine its marks that were not read yet stand there too; pencil: with
 * boxes to write in. Nothing at all where nothing is there to say. */
void
hw_readings_write (HwWriter *writer, guint hooping, const HwWork *work, gboolean pencil);

G_END_DECLS
