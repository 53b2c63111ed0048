/* How a length, a place or a turn is said. At the machine a person thinks in right and left, away from you
 * and towards you; on the cloth in right and down from a corner. Never in signs. */
#include "words.h"

#include <math.h>

#include "../geometry/figures.h"
#include "../geometry/language.h"

/* Less than this is not worth a word: it cannot be set on any machine. */
#define NOTHING_MM 0.05
#define NOTHING_DEGREES 0.05

char *
hw_words_length (double mm, HwUnit unit)
{
  g_autofree char *first = hw_length_text (mm, unit);
  g_autofree char *second = NULL;

  if (unit == HW_UNIT_MM)
    return g_steal_pointer (&first);

  second = hw_length_text (mm, HW_UNIT_MM);
  return g_strdup_printf ("%s (%s)", first, second);
}

char *
hw_words_size (double width, double height, HwUnit unit)
{
  g_autofree char *first = hw_size_text (width, height, unit);
  g_autofree char *second = NULL;

  if (unit == HW_UNIT_MM)
    return g_steal_pointer (&first);

  second = hw_size_text (width, height, HW_UNIT_MM);
  return g_strdup_printf ("%s (%s)", first, second);
}

char *
hw_words_across (double u, HwUnit unit)
{
  g_autofree char *length = hw_words_length (fabs (u), unit);

  if (fabs (u) < NOTHING_MM)
    return g_strdup (_ ("in the middle"));

  return g_strdup_printf (u > 0 ? _ ("%s right") : _ ("%s left"), length);
}

char *
hw_words_along (double v, HwUnit unit)
{
  g_autofree char *length = hw_words_length (fabs (v), unit);

  if (fabs (v) < NOTHING_MM)
    return g_strdup (_ ("in the middle"));

  return g_strdup_printf (v > 0 ? _ ("%s towards you") : _ ("%s away from you"), length);
}

char *
hw_words_shift (HwPoint shift, HwUnit unit)
{
  g_autofree char *across = hw_words_across (shift.x, unit);
  g_autofree char *along = hw_words_along (shift.y, unit);
  gboolean no_across = fabs (shift.x) < NOTHING_MM, no_along = fabs (shift.y) < NOTHING_MM;

  if (no_across && no_along)
    return g_strdup (_ ("in the middle"));
  if (no_across)
    return g_steal_pointer (&along);
  if (no_along)
    return g_steal_pointer (&across);

  return g_strdup_printf (_ ("%s, %s"), across, along);
}

char *
hw_words_place (HwPoint from_corner, HwUnit unit)
{
  g_autofree char *x = hw_words_length (fabs (from_corner.x), unit);
  g_autofree char *y = hw_words_length (fabs (from_corner.y), unit);
  g_autofree char *across = g_strdup_printf (from_corner.x < 0 ? _ ("%s left") : _ ("%s right"), x);
  g_autofree char *down = g_strdup_printf (from_corner.y < 0 ? _ ("%s up") : _ ("%s down"), y);

  return g_strdup_printf (_ ("%s, %s"), across, down);
}

static char *
say_turn (double degrees, gboolean narrow)
{
  double turn = hw_angle_normal (degrees);
  g_autofree char *angle = NULL;

  if (fabs (turn) < NOTHING_DEGREES)
    return g_strdup (_ ("not turned"));

  angle = hw_angle_text (fabs (turn));
  if (narrow)
    return g_strdup_printf (
        turn > 0 ? C_ ("narrow column", "%s clockwise") : C_ ("narrow column", "%s anticlockwise"), angle);
  return g_strdup_printf (turn > 0 ? _ ("%s clockwise") : _ ("%s anticlockwise"), angle);
}

static char *
say_turned (double degrees, gboolean narrow)
{
  g_autofree char *turn = say_turn (degrees, narrow);

  if (fabs (hw_angle_normal (degrees)) < NOTHING_DEGREES)
    return g_steal_pointer (&turn);

  return g_strdup_printf (_ ("turned %s"), turn);
}

char *
hw_words_turn (double degrees)
{
  return say_turn (degrees, FALSE);
}

char *
hw_words_turned (double degrees)
{
  return say_turned (degrees, FALSE);
}

char *
hw_words_turn_narrow (double degrees)
{
  return say_turn (degrees, TRUE);
}

char *
hw_words_turned_narrow (double degrees)
{
  return say_turned (degrees, TRUE);
}

char *
hw_words_count (guint count)
{
  return hw_count_text (count);
}

char *
hw_words_minutes (double minutes)
{
  guint whole = (guint)CLAMP (round (minutes), 0, 1e6);

  if (whole < 60)
    return g_strdup_printf (_ ("%u min"), whole);

  return g_strdup_printf (_ ("%u h %02u"), whole / 60, whole % 60);
}

char *
hw_words_percent (double scale)
{
  double percent = scale * 100;
  g_autofree char *figure = hw_figure_text (percent, fabs (percent - round (percent)) < 0.05 ? 0 : 1);

  return g_strdup_printf ("%s %%", figure);
}
