/* Private to this room: the templates' own sheets. */
#pragma once

#include "page.h"

G_BEGIN_DECLS

/* How many sheets the motif's template takes by itself; G_MAXUINT64 when the job's sheet is too small for any. */
guint64
hw_template_sheets (const HwPrintJob *job, guint index);

G_END_DECLS
