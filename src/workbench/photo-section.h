/* The photos of the cloth in the side pane. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_PHOTO_SECTION (hw_photo_section_get_type ())
G_DECLARE_FINAL_TYPE (HwPhotoSection, hw_photo_section, HW, PHOTO_SECTION, GtkBox)

GtkWidget *
hw_photo_section_new (HwBench *bench);

G_END_DECLS
