/* A motif's thread blocks in stitching order: colour, name, stitches; to change, add and take away. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_THREAD_LIST (hw_thread_list_get_type ())
G_DECLARE_FINAL_TYPE (HwThreadList, hw_thread_list, HW, THREAD_LIST, GtkBox)

GtkWidget *
hw_thread_list_new (HwBench *bench);
/* Shows the threads of this motif; NULL: none. */
void
hw_thread_list_set_motif (HwThreadList *list, HwSceneMotif *motif);

G_END_DECLS
