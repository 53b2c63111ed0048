/* The log of the days. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_log_dialog_show (GtkWindow *parent, HwBench *bench);
/* The whole log as text, a line for each: date, time, what happened. Returns: (transfer full) */
char *
hw_log_text (HwBench *bench);

G_END_DECLS
