/* The correction in the words of the machine: right and left, away from you and towards you, clockwise and anticlockwise. Machines step in tenths of a
 * millimetre, which is thousandths of an inch, so inches have three decimals here. */
#include <math.h>

#include "correction-private.h"
#include "../geometry/figures.h"
#include "../geometry/language.h"

/* The fewest decimals, from least to most, that show the value within a hundredth of its last one. */
static int
decimals_of (double value, int least, int most)
{
  for (int decimals = least; decimals < most; decimals++)
    {
      double figure = fabs (value) * pow (10, decimals);

      if (fabs (figure - round (figure)) < 0.01)
        return decimals;
    }
  return most;
}

/* A length without its sign. */
static char *
fine_length (double mm, int decimals, HwUnit unit)
{
  g_autofree char *figure = unit == HW_UNIT_INCH ? hw_figure_text (fabs (mm) / HW_MM_PER_INCH, 3)
                                                 : hw_figure_text (fabs (mm), decimals);

  /* Translators: a length in inches, then in millimetres. */
  return unit == HW_UNIT_INCH ? g_strdup_printf (_ ("%s in"), figure) : g_strdup_printf (_ ("%s mm"), figure);
}

static char *
length_text (double mm, HwUnit unit)
{
  return fine_length (mm, 1, unit);
}

static gboolean
rounds_to_nothing (double mm, int decimals, HwUnit unit)
{
  return unit == HW_UNIT_INCH ? fabs (mm) < 0.0005 * HW_MM_PER_INCH : fabs (mm) < 0.5 * pow (10, -decimals);
}

/* NULL when there is nothing to say. */
static char *
way_words (HwPoint way, int decimals, HwUnit unit)
{
  g_autofree char *across = NULL;
  g_autofree char *along = NULL;

  if (!rounds_to_nothing (way.x, decimals, unit))
    {
      g_autofree char *length = fine_length (way.x, decimals, unit);

      /* Translators: %s is a length. */
      across = g_strdup_printf (way.x > 0 ? _ ("%s right") : _ ("%s left"), length);
    }
  if (!rounds_to_nothing (way.y, decimals, unit))
    {
      g_autofree char *length = fine_length (way.y, decimals, unit);

      along = g_strdup_printf (way.y > 0 ? _ ("%s towards you") : _ ("%s away from you"), length);
    }
  if (across != NULL && along != NULL)
    /* Translators: "1.8 mm left" and "0.6 mm towards you". */
    return g_strdup_printf (_ ("%s, %s"), across, along);
  return across != NULL ? g_steal_pointer (&across) : g_steal_pointer (&along);
}

char *
hw_way_text (HwPoint way, HwUnit unit)
{
  char *words = way_words (way, 1, unit);

  return words != NULL ? words : g_strdup (_ ("on the spot"));
}

/* NULL when there is nothing to turn. */
static char *
turn_words (double turn)
{
  int decimals = decimals_of (turn, 0, 2);
  double shown = round (fabs (turn) * pow (10, decimals));
  g_autofree char *figure = hw_figure_text (fabs (turn), decimals);
  g_autofree char *angle = NULL;
  gulong count = decimals == 0 ? (gulong)shown : fabs (turn) < 2 ? 0 : 2;

  if (shown == 0)
    return NULL;
  /* Translators: %s is a figure, with decimals perhaps: one below 2 takes the form of 0, "0 degrees". */
  angle = g_strdup_printf (ngettext ("%s degree", "%s degrees", count), figure);
  /* Translators: %s is "1 degree" or "1.5 degrees". */
  return g_strdup_printf (turn > 0 ? _ ("%s clockwise") : _ ("%s anticlockwise"), angle);
}

char *
hw_correction_text (const HwCorrection *correction, HwUnit unit)
{
  g_autofree char *way = NULL;
  g_autofree char *turn = NULL;

  g_return_val_if_fail (correction != NULL, NULL);

  way = way_words (correction->shift,
                   MAX (decimals_of (correction->shift.x, 1, 3), decimals_of (correction->shift.y, 1, 3)),
                   unit);
  turn = turn_words (correction->turn);
  if (way != NULL && turn != NULL)
    /* Translators: "Shift 1.8 mm left, 0.6 mm towards you; turn 1 degree clockwise." */
    return g_strdup_printf (_ ("Shift %s; turn %s."), way, turn);
  if (way != NULL)
    return g_strdup_printf (_ ("Shift %s."), way);
  if (turn != NULL)
    return g_strdup_printf (_ ("Turn %s."), turn);
  return g_strdup (_ ("Nothing to enter."));
}

/* NULL unless the cloth's change is more than chance. */
static char *
stretch_words (const HwCorrectionAnswer *answer)
{
  g_autofree char *percent = hw_figure_text (fabs (answer->stretch), 1);

  if (!answer->stretch_told)
    return NULL;
  /* Translators: %s is a figure in percent. */
  return g_strdup_printf (answer->stretch > 0 ? _ ("The cloth has stretched by %s %% between the marks.")
                                              : _ ("The cloth has drawn in by %s %% between the marks."),
                          percent);
}

/* Readings that agree among themselves are hardly misread: the template or the design has another size. */
static char *
too_much_words (const HwCorrectionAnswer *answer)
{
  g_autofree char *percent = hw_figure_text (fabs (answer->stretch), 1);

  /* Translators: %s is a figure in percent. */
  return g_strdup_printf (answer->stretch > 0 ? _ ("The readings lie %s %% farther apart than planned, more "
                                                   "than cloth gives. See whether the template was "
                                                   "printed at true size and the machine holds the design at "
                                                   "its planned size, then read all marks again.")
                                              : _ ("The readings lie %s %% nearer together than planned, "
                                                   "more than cloth gives. See whether the template was "
                                                   "printed at true size and the machine holds the design at "
                                                   "its planned size, then read all marks again."),
                          percent);
}

static char *
read_again_words (const HwCorrectionAnswer *answer, const HwReading *readings, HwUnit unit)
{
  if (answer->outlier >= 0)
    {
      const HwReading *reading = &readings[answer->outlier];
      HwPoint put = hw_correction_apply (&(HwCorrection){ answer->without.shift, answer->without.turn },
                                         reading->design);
      g_autofree char *by = length_text (answer->outlier_by, unit);
      g_autofree char *way = hw_way_text ((HwPoint){ reading->at.x - put.x, reading->at.y - put.y }, unit);

      /* Translators: the letter of a mark, how far off its reading lies, and in which direction; the letter again. */
      return g_strdup_printf (
          _ ("The reading of mark %s does not agree with the others: it lies %s from where they "
             "put it (%s). Read mark %s again, or leave it out."),
          reading->letter, by, way, reading->letter);
    }
  if (answer->stretch_too_much && answer->n_used > 2 && !answer->at_odds)
    return too_much_words (answer);
  if (answer->n_used == 2)
    return g_strdup (_ (
        "The two readings are farther from or nearer to each other than cloth gives. Read both marks again, "
        "or read a third one."));
  return g_strdup (
      _ ("The readings do not agree with each other, and none of them stands out. Read all marks again."));
}

static char *
hoop_again_words (const HwCorrectionAnswer *answer, const HwCorrectionTask *task, HwUnit unit)
{
  if (answer->leaves_field > 0)
    {
      g_autofree char *by = length_text (answer->leaves_field, unit);

      return g_strdup_printf (
          _ ("Hoop again: once corrected, the stitching would pass the sewing field by %s."), by);
    }
  if (answer->turn_lacks)
    {
      g_autofree char *turn = turn_words (answer->exact.turn);

      return g_strdup_printf (
          _ ("Hoop again: the design would have to be turned %s, and the machine does not turn designs."),
          turn != NULL ? turn : "");
    }
  {
    g_autofree char *worst = length_text (answer->worst, unit);
    g_autofree char *tolerance = length_text (task->tolerance, unit);

    return g_strdup_printf (_ ("Hoop again: with the machine's steps, %s would remain at one of the motifs, "
                               "and %s is wished for."),
                            worst, tolerance);
  }
}

static char *
stitch_words (const HwCorrectionAnswer *answer, HwUnit unit)
{
  g_autofree char *enter = hw_correction_text (&answer->chosen, unit);
  g_autofree char *worst = length_text (answer->worst, unit);

  if (answer->n_used == 1)
    /* Translators: %s is what to enter, a sentence. */
    return g_strdup_printf (_ ("%s One mark tells no turn; read a second one to be sure."), enter);
  if (answer->n_targets == 0)
    return g_steal_pointer (&enter);
  if (rounds_to_nothing (answer->worst, 1, unit))
    return g_strdup_printf (_ ("%s Nothing that can be seen remains at the motifs."), enter);
  return g_strdup_printf (_ ("%s At most %s remains at the motifs."), enter, worst);
}

char *
hw_correction_advice_text (const HwCorrectionAnswer *answer,
                           const HwReading *readings,
                           guint n,
                           const HwCorrectionTask *task,
                           HwUnit unit)
{
  g_autofree char *stretch = NULL;
  g_autofree char *advice = NULL;

  g_return_val_if_fail (answer != NULL && task != NULL, NULL);
  g_return_val_if_fail (answer->outlier < 0 || ((guint)answer->outlier < n && readings != NULL), NULL);

  switch (answer->advice)
    {
    case HW_ADVICE_READ_AGAIN:
      return read_again_words (answer, readings, unit);
    case HW_ADVICE_HOOP_AGAIN:
      advice = hoop_again_words (answer, task, unit);
      break;
    case HW_ADVICE_STITCH:
    case HW_ADVICE_ENTER:
    default:
      advice = stitch_words (answer, unit);
      break;
    }
  stretch = stretch_words (answer);
  return stretch != NULL ? g_strdup_printf ("%s %s", advice, stretch) : g_steal_pointer (&advice);
}

char *
hw_doubt_text (const HwDoubt *doubt, const HwReading *readings, guint n, HwUnit unit)
{
  g_autofree char *off = NULL;

  g_return_val_if_fail (doubt != NULL, NULL);

  off = length_text (doubt->rms, unit);
  switch (doubt->kind)
    {
    case HW_DOUBT_INCHES:
      return g_strdup_printf (_ ("The readings seem to be in inches: as millimetres they lie about %s off. "
                                 "Change the unit, or say "
                                 "that they are right."),
                              off);
    case HW_DOUBT_MILLIMETRES:
      return g_strdup_printf (
          _ ("The readings seem to be in millimetres: as inches they lie about %s off. Change the unit, or "
             "say that they are right."),
          off);
    case HW_DOUBT_SWAPPED:
      g_return_val_if_fail (readings != NULL && doubt->first >= 0 && doubt->second >= 0, NULL);
      g_return_val_if_fail ((guint)doubt->first < n && (guint)doubt->second < n, NULL);
      return g_strdup_printf (_ ("Readings %s and %s seem to have changed places: as they stand they lie "
                                 "about %s off. Change them, or "
                                 "say that they are right."),
                              readings[doubt->first].letter, readings[doubt->second].letter, off);
    case HW_DOUBT_MIRRORED_U:
      return g_strdup_printf (_ ("Right and left seem to be exchanged: as they stand the readings lie about "
                                 "%s off. Change them, or "
                                 "say that they are right."),
                              off);
    case HW_DOUBT_MIRRORED_V:
      return g_strdup_printf (
          _ ("Away from you and towards you seem to be exchanged: as they stand the readings lie about %s "
             "off. Change them, or say that they are right."),
          off);
    case HW_DOUBT_FAR:
      return g_strdup_printf (_ ("The readings lie about %s farther off than a hooping set by hand. Look at "
                                 "them again, or say that they "
                                 "are right."),
                              off);
    case HW_DOUBT_NONE:
    default:
      return NULL;
    }
}
