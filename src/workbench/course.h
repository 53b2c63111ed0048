/* The course: a string of beads from the whole picture through each hooping to the finished piece. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_COURSE (hw_course_get_type ())
G_DECLARE_FINAL_TYPE (HwCourse, hw_course, HW, COURSE, GtkBox)

GtkWidget *
hw_course_new (HwBench *bench);

G_END_DECLS
