/* A tiny picture of a motif as it is stitched, upright, for lists. */
#pragma once

#include <gtk/gtk.h>

#include "../scene/records.h"

G_BEGIN_DECLS

#define HW_TYPE_MOTIF_THUMB (hw_motif_thumb_get_type ())
G_DECLARE_FINAL_TYPE (HwMotifThumb, hw_motif_thumb, HW, MOTIF_THUMB, GtkWidget)

/* side: px of the square it lies in. */
GtkWidget *
hw_motif_thumb_new (int side);
/* NULL shows nothing. */
void
hw_motif_thumb_set_motif (HwMotifThumb *thumb, const HwMotif *motif);

G_END_DECLS
