/* One hooping of a plan in words. */
#include "hooping-words.h"

#include <glib/gi18n.h>
#include <math.h>

#define MOST_NAMES 60 /* of a hooping: more are not read, and are slow to set in lines */

char *
hw_hooping_motifs_text (const HwPlan *plan, guint hooping)
{
  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, NULL);

  const HwHooping *h = &plan->hoopings[hooping];
  guint named = h->n_motifs > MOST_NAMES ? MOST_NAMES - 1 : h->n_motifs;
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < named; i++)
    {
      if (i > 0)
        g_string_append (text, _ (", "));
      g_string_append (text, hw_snapshot_motif (plan->snapshot, h->motifs[i])->name);
    }
  if (named < h->n_motifs)
    g_string_append_printf (text, ngettext (" and %u more", " and %u more", h->n_motifs - named),
                            h->n_motifs - named);
  return g_string_free (text, FALSE);
}

char *
hw_minutes_text (double minutes)
{
  int whole = (int)lround (minutes);

  if (whole < 60)
    return g_strdup_printf (_ ("%d min"), whole);
  /* Translators: hours and minutes, "1 h 05" */
  return g_strdup_printf (_ ("%d h %02d"), whole / 60, whole % 60);
}

char *
hw_hooping_work_text (const HwPlan *plan, guint hooping)
{
  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, NULL);

  const HwHooping *h = &plan->hoopings[hooping];
  g_autofree char *changes = g_strdup_printf (
      ngettext ("%u thread change", "%u thread changes", h->thread_changes), h->thread_changes);
  g_autofree char *time = hw_minutes_text (h->minutes);

  return g_strdup_printf ("%s · %s", changes, time);
}

const char *
hw_hooping_hoop_name (const HwPlan *plan, guint hooping)
{
  g_return_val_if_fail (plan != NULL && hooping < plan->n_hoopings, NULL);
  return hw_snapshot_hoop (plan->snapshot, plan->hoopings[hooping].hoop)->name;
}
