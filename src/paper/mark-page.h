/* Private to this room: the bench sheet's page of all that is drawn on the cloth before the stitching starts. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* Whether anything is left to draw. */
gboolean
hw_mark_page_needed (const HwPrintJob *job);

/* HwWriterMatter; subject: not used */
void
hw_mark_page_write (HwWriter *writer, guint subject);

G_END_DECLS
