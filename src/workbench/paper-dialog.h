/* The dialog that puts the plan on paper. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_paper_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS
