/* The dialog that tells what the plan takes and what the workroom uses. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_supplies_dialog_show (GtkWindow *parent, HwBench *bench);

G_END_DECLS
