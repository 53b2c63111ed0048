/* Private to this room: what a hooping's template says about its hooping. */
#pragma once

#include "hooping-template.h"

G_BEGIN_DECLS

double
hw_hooping_template_head_height (const HwHoopingTemplate *template);
void
hw_hooping_template_head_draw (const HwHoopingTemplate *template, const HwPage *page, cairo_t *cr);

G_END_DECLS
