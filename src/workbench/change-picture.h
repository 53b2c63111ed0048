/* A small picture of what changes on the cloth: before as thin dashes, after as full lines, and the ways between, drawn longer where they are short. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_CHANGE_PICTURE (hw_change_picture_get_type ())
G_DECLARE_FINAL_TYPE (HwChangePicture, hw_change_picture, HW, CHANGE_PICTURE, GtkWidget)

GtkWidget *
hw_change_picture_new (int width, int height);
/* after NULL: nothing changes. */
void
hw_change_picture_show (HwChangePicture *picture, const HwSnapshot *before, const HwSnapshot *after);

G_END_DECLS
