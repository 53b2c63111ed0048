/* Private to this room: lengths and directions as they stand in the columns of a table, figure under figure. All strings are
 * (transfer full). */
#pragma once

#include "writer.h"

G_BEGIN_DECLS

/* "31.4 mm"; "1.24 (31.4)" where the column's title says in (mm). */
char *
hw_table_length (double mm, HwUnit unit);
/* From the corner to a mark, in a column of what lies right of it or below; what lies the other way says so. */
char *
hw_table_place (double mm, HwUnit unit, const char *other_way);
/* A column's title with what its lengths are in. */
char *
hw_table_length_title (const char *title, HwUnit unit);
/* "31.4 (1.24)", or "1.24 (31.4)": the unit spoken with the other beside it; and the title that says so, "Across, mm (in)". */
char *
hw_table_both (double mm, HwUnit unit);
char *
hw_table_both_title (const char *title, HwUnit unit);
/* How wide a column of such lengths is, mm. */
double
hw_table_figure_width (HwUnit unit);

/* A length and its direction in hoop axes, in two cells. along: away from or towards the person, else left or right. *kept holds the text
 * of the first cell, to be freed after its row. */
void
hw_table_pair (HwCell *cells, double value, HwUnit unit, gboolean along, char **kept);
/* The same with both units. */
void
hw_table_pair_both (HwCell *cells, double value, HwUnit unit, gboolean along, char **kept);
/* How wide the second of these cells has to be for the longest of its words in the paper's language, mm; no less than least. */
double
hw_table_way_width (const HwWriter *writer, gboolean along, double least);

G_END_DECLS
