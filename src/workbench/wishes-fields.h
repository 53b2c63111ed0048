/* What the plan is made for: fewest hoopings or least time, threads in turns, and the pace of work. */
#pragma once

#include <gtk/gtk.h>

#include "bench.h"

G_BEGIN_DECLS

#define HW_TYPE_WISHES_FIELDS (hw_wishes_fields_get_type ())
G_DECLARE_FINAL_TYPE (HwWishesFields, hw_wishes_fields, HW, WISHES_FIELDS, GtkBox)

/* Shows and changes the wishes and the pace of the bench's scene. */
GtkWidget *
hw_wishes_fields_new (HwBench *bench);

G_END_DECLS
