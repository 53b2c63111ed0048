/* Private to this room: what stands on every sheet below its content. */
#pragma once

#include "../drawing/lettering.h"
#include "page.h"

G_BEGIN_DECLS

#define HW_FOOTER_HEIGHT 14.0 /* mm, without the white above it */

/* Draws the footer with its lower edge `bottom` mm above the sheet's, between margin and width - margin:
 * the scale check bar on the left; scene, what this sheet is, and page n of m on the right. keep_free: mm
 * left empty at the far right. */
void
hw_page_footer (const HwPrintJob *job,
                const HwPage *page,
                cairo_t *cr,
                double margin,
                double bottom,
                double keep_free,
                const char *what);

/* The check bar alone: 100 mm above, 4 inches below, both beginning at x. Where width is too narrow it is
 * half as long and says so. */
void
hw_draw_check_bar (cairo_t *cr, double x, double y, double width);

/* A number in a ring, centred on (x, y). */
void
hw_draw_ring_number (cairo_t *cr, double x, double y, double radius, double size, guint number);

/* A thread's swatch: its colour framed in ink, so that pale threads show on white and photocopies. */
void
hw_draw_swatch (cairo_t *cr, double x, double y, double width, double height, HwColour colour);

/* An empty box to tick. */
void
hw_draw_tick_box (cairo_t *cr, double x, double y, double size);

/* The same box, done. */
void
hw_draw_ticked_box (cairo_t *cr, double x, double y, double size);

/* What a hooping (from 0) is told by beside its number: its hatch in its dye, framed. */
void
hw_draw_hooping_chip (cairo_t *cr, double x, double y, double width, double height, guint hooping);

/* A hairline of the grid, and a line in ink. */
void
hw_draw_grid_line (cairo_t *cr, double x, double y, double width);
void
hw_draw_rule (cairo_t *cr, double x, double y, double width, double thickness);

/* One line of type, shortened to width when width > 0. y is the top of its line. */
void
hw_line (cairo_t *cr,
         double x,
         double y,
         double width,
         double size,
         gboolean bold,
         HwLetterAlign align,
         const char *text);

G_END_DECLS
