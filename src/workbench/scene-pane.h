/* The facts of the scene itself: name, cloth, edge line, hoops. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_SCENE_PANE (hw_scene_pane_get_type ())
G_DECLARE_FINAL_TYPE (HwScenePane, hw_scene_pane, HW, SCENE_PANE, GtkBox)

GtkWidget *
hw_scene_pane_new (HwBench *bench);

G_END_DECLS
