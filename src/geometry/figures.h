/* Figures and dates in words. On the screen they are as the desktop's locale has them; in an entered language as that language has them. Files
 * never take their figures from here. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* "12.5", in German "12,5"; so many decimals, never "-0.0", no thousands set apart. Returns: (transfer full) */
char *
hw_figure_text (double value, int decimals);
/* "12,400", in German "12.400". Returns: (transfer full) */
char *
hw_count_text (gulong count);
/* A time by a format of g_date_time_format() whose names of days and months are %A and %B. Returns: (transfer full) */
char *
hw_date_text (GDateTime *time, const char *format);

G_END_DECLS
