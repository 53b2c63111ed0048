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
/* What comes of keeping the hooping along the grain: taken as one hooping, or as several where one cannot be had. */
void
hw_grain_dialog_show (GtkWindow *parent, HwBench *bench, guint hooping);

G_END_DECLS
