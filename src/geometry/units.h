/* Lengths in the words a person chose: millimetres or inches. Files and sums are always millimetres. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  HW_UNIT_MM,
  HW_UNIT_INCH
} HwUnit;

#define HW_MM_PER_INCH 25.4
#define HW_POINTS_PER_MM (72.0 / 25.4) /* ISO 32000-1 8.3.2.3: a user space unit is 1/72 inch */

/* "12.5 mm" or "0.49 in", in the language spoken. Returns: (transfer full) */
char *
hw_length_text (double mm, HwUnit unit);
/* The figure alone, without its unit. Returns: (transfer full) */
char *
hw_length_figure (double mm, HwUnit unit);
/* "130 x 180 mm" with a multiplication sign. Returns: (transfer full) */
char *
hw_size_text (double width_mm, double height_mm, HwUnit unit);
/* "12.5" + degree sign. Returns: (transfer full) */
char *
hw_angle_text (double degrees);
/* The text with its signs of full width, as a Japanese keyboard types figures ("１２．５"), made plain; also its full stop, comma and long-vowel
 * sign, which lie on the keys of point, comma and minus. Text that is not UTF-8 stays as it is. Returns: (transfer full) */
char *
hw_narrow_text (const char *text);

/* Reads "3.5 in", "90 mm", "9 cm", "3 1/2\"" or a bare figure in the given unit; comma or point as the
 * decimal sign. Returns FALSE, leaving *mm alone, when it is no length. */
gboolean
hw_length_parse (const char *text, HwUnit unit, double *mm);

G_END_DECLS
