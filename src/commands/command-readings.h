/* What the commands that read readings share. Private to this room. */
#pragma once

#include "../formats/readings-json.h"
#include "../registration/correction.h"

G_BEGIN_DECLS

/* TRUE after one line on standard error, when the readings cannot have been meant as they stand and the file does not say that they are. */
gboolean
hw_command_doubts_readings (const HwMeasured *measured, const HwReading *readings, HwUnit unit);

G_END_DECLS
