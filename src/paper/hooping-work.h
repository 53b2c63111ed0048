/* Private to this room: what is done in one hooping, as running matter in two columns. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* Goes on from where the writer is; leaves it below the longer column. */
void
hw_hooping_work_write (HwWriter *writer, guint hooping);

/* Sentences in small type in a frame under a title, kept together; ended by NULL. */
void
hw_framed_write (HwWriter *writer, const char *title, const char *const *sentences);

G_END_DECLS
