/* Private to this room: the threads of a hooping as they are stitched. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* How high the list is in so many columns side by side over the width, when its page has room enough. */
double
hw_thread_list_height (const HwWriter *writer, guint hooping, double width, guint columns);

/* Writes it over the writer's width: down the first column, then down the next, on to further pages as need be. */
void
hw_thread_list_write (HwWriter *writer, guint hooping, guint columns);

G_END_DECLS
