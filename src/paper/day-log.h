/* Private to this room: the log of the days. */
#pragma once

#include "page.h"

G_BEGIN_DECLS

/* "Wednesday, 25 November 2026" and "17:05", here; an empty text for 0 and for what no calendar holds. All (transfer full). */
char *
hw_day_text (gint64 at);
char *
hw_clock_text (gint64 at);

G_END_DECLS
