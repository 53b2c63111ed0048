/* Private to this room: lengths, places and turns as they are spoken at the table and at the machine. All
 * strings are (transfer full). */
#pragma once

#include "../geometry/point.h"
#include "../geometry/units.h"

G_BEGIN_DECLS

/* "12.3 mm", or "0.48 in (12.3 mm)". */
char *
hw_words_length (double mm, HwUnit unit);
/* "82.0 × 64.5 mm", or inches with the millimetres in brackets. */
char *
hw_words_size (double width, double height, HwUnit unit);

/* A shift in hoop axes (u right, v towards the person): "12.3 mm right, 4.0 mm away from you"; "none" when
 * it is nothing. */
char *
hw_words_shift (HwPoint shift, HwUnit unit);
/* "12.3 mm right" / "left" and "4.0 mm away from you" / "towards you" each alone; "0" words for less than
 * 0.05 mm. */
char *
hw_words_across (double u, HwUnit unit);
char *
hw_words_along (double v, HwUnit unit);

/* A place on the cloth seen from a corner: "121.2 mm right, 109.0 mm down". */
char *
hw_words_place (HwPoint from_corner, HwUnit unit);

/* "12.5° clockwise", "3.0° anticlockwise", "not turned". */
char *
hw_words_turn (double degrees);
/* "turned 12.5° clockwise", "not turned". */
char *
hw_words_turned (double degrees);
/* The same as short as the language has it, for a narrow column. */
char *
hw_words_turn_narrow (double degrees);
char *
hw_words_turned_narrow (double degrees);

/* "12,400" in the locale's way. */
char *
hw_words_count (guint count);
/* "3 h 10 min", "25 min". */
char *
hw_words_minutes (double minutes);
/* "96 %" */
char *
hw_words_percent (double scale);

G_END_DECLS
