/* A small live picture of a cloth with its edge line and the fields of the hoops at hand laid on it, all to one scale. */
#pragma once

#include <gtk/gtk.h>

#include "../scene/snapshot.h"

G_BEGIN_DECLS

#define HW_TYPE_CLOTH_PREVIEW (hw_cloth_preview_get_type ())
G_DECLARE_FINAL_TYPE (HwClothPreview, hw_cloth_preview, HW, CLOTH_PREVIEW, GtkWidget)

GtkWidget *
hw_cloth_preview_new (void);
/* What is shown: the cloth, its edge line, and its hoops side by side, in their order. words: the same, for those who do not see it. */
void
hw_cloth_preview_show (HwClothPreview *preview, const HwSnapshot *scene, const char *words);

G_END_DECLS
