/* What is needed in words, for paper and screen alike: the few figures of a whole plan, each with its reason, and what one hooping does. */
#include "needs-words.h"

#include <math.h>

#include "../geometry/figures.h"
#include "../geometry/language.h"
#include "thread-words.h"
#include "words.h"

static HwUnit
other_unit (HwUnit unit)
{
  return unit == HW_UNIT_MM ? HW_UNIT_INCH : HW_UNIT_MM;
}

static HwNeed
cloth_fact (const HwSupplies *supplies, HwUnit unit)
{
  g_autofree char *other = hw_size_text (supplies->cloth_width, supplies->cloth_height, other_unit (unit));

  return (HwNeed){
    _ ("Cloth, cut to"),
    hw_size_text (supplies->cloth_width, supplies->cloth_height, unit),
    g_strdup_printf ("%s\n%s", other, supplies->cloth_reason),
  };
}

/* How many pieces, of all sheets. */
static guint
count_pieces (const HwSupplies *supplies)
{
  guint n = 0;

  for (guint h = 0; h < supplies->n_hoopings; h++)
    n += supplies->hoopings[h].sheets;
  return n;
}

static HwNeed
stabiliser_fact (const HwSupplies *supplies, HwUnit unit)
{
  guint n = count_pieces (supplies), wide = supplies->pieces_too_wide;
  g_autofree char *width = hw_length_text (supplies->roll_width, unit);
  g_autofree char *cut
      = g_strdup_printf (ngettext ("Off a roll %s wide: %u piece, of the size that stands below.",
                                   "Off a roll %s wide: %u pieces, of the sizes that stand below.", n),
                         width, n);
  g_autofree char *lacking
      = g_strdup_printf (ngettext ("%u piece is wider than the roll and not counted in.",
                                   "%u pieces are wider than the roll and not counted in.", wide),
                         wide);

  if (n == 0)
    return (HwNeed){ _ ("Stabiliser"), g_strdup (_ ("none")), NULL };
  return (HwNeed){
    _ ("Stabiliser"),
    hw_words_thread (supplies->roll_length / 1000, unit),
    wide > 0 ? g_strdup_printf ("%s\n%s", cut, lacking) : g_steal_pointer (&cut),
  };
}

static HwNeed
thread_fact (const HwSupplies *supplies, HwUnit unit)
{
  guint n = supplies->threads->len;

  return (HwNeed){
    _ ("Needle thread, about"),
    hw_words_thread (supplies->needle_metres, unit),
    g_strdup_printf (ngettext ("In %u colour.", "In %u colours.", n), n),
  };
}

static HwNeed
bobbin_fact (const HwSupplies *supplies, HwUnit unit)
{
  g_autofree char *full = hw_words_thread (supplies->bobbin_full, unit);

  return (HwNeed){
    _ ("Bobbin thread, about"),
    hw_words_thread (supplies->bobbin_metres, unit),
    supplies->bobbins == 0
        ? NULL
        : g_strdup_printf (
            ngettext ("%u bobbin, wound full: %s.",
                      "%u bobbins, wound full: %s on each. Where they are changed stands below.",
                      supplies->bobbins),
            supplies->bobbins, full),
  };
}

static HwNeed
needle_fact (const HwSupplies *supplies, HwUnit unit)
{
  const HwSupplyFacts *facts = &supplies->plan->snapshot->supplies;
  g_autofree char *hours
      = hw_figure_text (facts->needle_hours, facts->needle_hours == floor (facts->needle_hours) ? 0 : 1);
  g_autofree char *stitches = hw_count_text ((gulong)facts->needle_stitches);

  return (HwNeed){
    _ ("Needles, beside one in the machine"),
    g_strdup_printf ("%u", supplies->needles),
    facts->needle_stitches > 0
        ? g_strdup_printf (_ ("One lasts about %s stitches; a bent or blunt one is changed at once."),
                           stitches)
        : g_strdup_printf (
            _ ("One lasts about %s hours of stitching; a bent or blunt one is changed at once."), hours),
  };
}

static HwNeed
time_fact (const HwSupplies *supplies, HwUnit unit)
{
  g_autofree char *count = hw_words_count ((guint)MIN (supplies->stitches, G_MAXUINT));

  return (HwNeed){
    _ ("Time, without the drawing of the marks"),
    hw_words_minutes (supplies->minutes),
    g_strdup_printf (ngettext ("For %s stitches and %u thread change.",
                               "For %s stitches and %u thread changes.", supplies->thread_changes),
                     count, supplies->thread_changes),
  };
}

HwNeed *
hw_needs_new (const HwSupplies *supplies, HwUnit unit)
{
  HwNeed *needs = g_new0 (HwNeed, HW_N_NEEDS);

  g_return_val_if_fail (supplies != NULL, needs);

  needs[0] = cloth_fact (supplies, unit);
  needs[1] = stabiliser_fact (supplies, unit);
  needs[2] = time_fact (supplies, unit);
  needs[3] = thread_fact (supplies, unit);
  needs[4] = bobbin_fact (supplies, unit);
  needs[5] = needle_fact (supplies, unit);
  return needs;
}

void
hw_needs_free (HwNeed *needs)
{
  for (guint i = 0; needs != NULL && i < HW_N_NEEDS; i++)
    {
      g_free (needs[i].value);
      g_free (needs[i].reason);
    }
  g_free (needs);
}

char *
hw_needs_piece_text (const HwHoopingSupplies *taken, HwUnit unit)
{
  g_autofree char *size = hw_size_text (taken->piece_width, taken->piece_height, unit);

  if (taken->sheets == 0)
    return g_strdup (_ ("none"));
  if (taken->sheets == 1)
    return g_steal_pointer (&size);
  /* Translators: so many sheets of stabiliser, each of that size */
  return g_strdup_printf (_ ("%u of %s"), taken->sheets, size);
}

char *
hw_needs_bobbin_text (const HwHoopingSupplies *taken)
{
  guint n = taken->n_changes;

  if (n > 0)
    return g_strdup_printf (ngettext ("changed %u time within", "changed %u times within", n), n);
  return g_strdup (taken->bobbin_runs_out ? _ ("a full one first") : NULL);
}
