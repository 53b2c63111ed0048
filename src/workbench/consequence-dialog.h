/* Joining and splitting hoopings by hand: what would come of it is told before it is taken. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

void
hw_join_dialog_show (GtkWindow *parent, HwBench *bench, guint first, guint second);
/* The motifs to take out are chosen in the dialog. */
void
hw_split_dialog_show (GtkWindow *parent, HwBench *bench, guint hooping);

G_END_DECLS
