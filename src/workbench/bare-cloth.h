/* What lies over an empty cloth: what one can do now, with buttons that do it. It goes when there is a motif. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_BARE_CLOTH (hw_bare_cloth_get_type ())
G_DECLARE_FINAL_TYPE (HwBareCloth, hw_bare_cloth, HW, BARE_CLOTH, GtkBox)

/* Uses the window's actions "add-motif", "draw-outline" and, while borrow is TRUE, "borrow-motif". Shows and hides itself. */
GtkWidget *
hw_bare_cloth_new (HwBench *bench, gboolean borrow);

G_END_DECLS
