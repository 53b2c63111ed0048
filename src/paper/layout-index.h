/* Private to this room: the picture of how a layout's sheets go together. */
#pragma once

#include "layout.h"

G_BEGIN_DECLS

/* Whether the sheet had better lie, since the picture is wide. */
gboolean
hw_layout_index_lies (const HwLayout *layout);

/* The first page of a layout of several sheets; its data is the HwLayout. */
void
hw_layout_index_draw (const HwPrintJob *job, const HwPage *page, cairo_t *cr);

/* Edge line and outlines as hairlines. HwTilingSketch; layout: an HwLayout. */
void
hw_layout_sketch (cairo_t *cr, double hairline, gpointer layout);

G_END_DECLS
