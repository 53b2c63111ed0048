/* The marks of the chosen hooping on the table, where the hand can take them. */
#pragma once

#include "canvas-private.h"

G_BEGIN_DECLS

typedef struct
{
  HwPoint at;      /* fabric mm */
  char letter[4];  /* empty for one that cannot serve */
  gboolean held;   /* by the person, or drawn for the machine */
  gboolean serves; /* the plan uses it */
} HwCanvasMark;

/* The hooping whose marks are in question: the chosen one, during a pull that of the pulled mark; -1: none shows. */
int
hw_canvas_marked_hooping (HwCanvas *canvas);
/* Its marks, those the plan uses first, in its order. Returns: (transfer full) (element-type HwCanvasMark) */
GArray *
hw_canvas_marks (HwCanvas *canvas);
/* Their places alone, of those that serve. Returns: (transfer full) (element-type HwPoint) */
GArray *
hw_canvas_serving_marks (HwCanvas *canvas);

G_END_DECLS
