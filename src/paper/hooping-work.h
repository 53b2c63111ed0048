/* Private to this room: what is done in one hooping, as running matter in columns. */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* How the steps and the threads stand: beside each other, or the threads below over the whole width. */
typedef struct
{
  double steps_width;   /* mm */
  guint thread_columns; /* 0: below, in as many as there is room for */
} HwWorkLayout;

/* Goes on from where the writer is; leaves it below the longer column. */
void
hw_hooping_work_write (HwWriter *writer, guint hooping, const HwWorkLayout *layout);
double
hw_hooping_work_height (const HwWriter *writer, guint hooping, const HwWorkLayout *layout);

/* The cautions at the foot of the page, on the next one when this is full. */
void
hw_cautions_write (HwWriter *writer);
double
hw_cautions_height (const HwWriter *writer);

/* Sentences in small type in a frame under a title, kept together; ended by NULL. */
void
hw_framed_write (HwWriter *writer, const char *title, const char *const *sentences);

G_END_DECLS
