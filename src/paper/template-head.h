/* Private to this room: what a template says about its motif. */
#pragma once

#include "template-motif.h"

G_BEGIN_DECLS

/* The head of a motif's own sheet: its number in a ring, an empty ring for an order sticker, name, size, hooping, threads. */
double
hw_template_head_height (const HwPrintJob *job, guint index);
void
hw_template_head_draw (const HwPrintJob *job, const HwPage *page, cairo_t *cr, const HwTemplateMotif *motif);

/* "82.0 × 64.5 mm · at 96 %", "Hooping 3 · turned 12.5° clockwise". Both (transfer full). */
char *
hw_template_size_words (const HwPrintJob *job, const HwTemplateMotif *motif);
char *
hw_template_hooping_words (const HwPrintJob *job, guint index);

/* That a mirrored template is for the back of the cloth. */
const char *
hw_template_back_words (void);

/* A title in the large size where it fits the width, else in the middle one, and shortened only then. y: the top of a large line. */
void
hw_template_title (cairo_t *cr, double x, double y, double width, const char *text);

/* The space for an order sticker: a fine dashed ring, empty. */
void
hw_draw_sticker_place (cairo_t *cr, double x, double y, double radius);

G_END_DECLS
