/* The program: windows, actions that outlive one window, recent scenes. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HW_APPLICATION_ID "org.hoopwright.Hoopwright"

#define HW_TYPE_APPLICATION (hw_application_get_type ())
G_DECLARE_FINAL_TYPE (HwApplication, hw_application, HW, APPLICATION, GtkApplication)

/* Runs the workbench until its last window closes; argv may name scene files. Returns the exit status. */
int
hw_application_main (int argc, char **argv);

G_END_DECLS
