/* What the canvas says in words: the slip with position, size, percent and angle of what is selected, and the description
 * that a screen reader speaks. */

#include <glib/gi18n.h>
#include <math.h>

#include "../geometry/units.h"
#include "canvas-private.h"

#define GAP "\302\240\302\240\302\267\302\240\302\240" /* a raised dot with air */

/* What is selected: how many, and one of them. */
static guint
count_selected (HwCanvas *canvas, guint *sole)
{
  guint n = 0;

  for (guint i = 0; i < canvas->cast->len; i++)
    if (hw_canvas_is_selected (canvas, i))
      {
        n++;
        *sole = i;
      }
  return n;
}

static char *
motif_words (const HwMotif *motif, HwUnit unit)
{
  const HwPlacement *placement = &motif->placement;
  HwBox box = motif->outline->box;
  g_autofree char *x = hw_length_figure (placement->position.x, unit);
  g_autofree char *y = hw_length_text (placement->position.y, unit);
  g_autofree char *size
      = hw_size_text ((box.x1 - box.x0) * placement->scale, (box.y1 - box.y0) * placement->scale, unit);
  g_autofree char *angle = hw_angle_text (placement->angle);
  g_autofree char *percent = g_strdup_printf ("%.4g\302\240%%", round (placement->scale * 1000) / 10);

  return g_strconcat (motif->name, GAP, x, g_dgettext (GETTEXT_PACKAGE, ", "), y, GAP, size, GAP, percent,
                      GAP, angle, motif->locked ? GAP : NULL, _ ("locked in place"), NULL);
}

char *
hw_canvas_readout (HwCanvas *canvas)
{
  HwUnit unit = hw_bench_get_unit (canvas->bench);
  guint sole = 0, n = count_selected (canvas, &sole);
  HwBox box;

  if (n == 0)
    return NULL;
  if (n == 1)
    return motif_words (hw_canvas_record (canvas, sole), unit);

  box = hw_canvas_selection_box (canvas);
  g_autofree char *count = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u motif", "%u motifs", n), n);
  g_autofree char *x = hw_length_figure ((box.x0 + box.x1) / 2, unit);
  g_autofree char *y = hw_length_text ((box.y0 + box.y1) / 2, unit);
  g_autofree char *size = hw_size_text (box.x1 - box.x0, box.y1 - box.y0, unit);
  return g_strconcat (count, GAP, x, g_dgettext (GETTEXT_PACKAGE, ", "), y, GAP, size, NULL);
}

static char *
description (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  GString *text = g_string_new (NULL);
  guint motifs = canvas->cast->len, hoopings = plan != NULL ? plan->n_hoopings : 0;
  int chosen = hw_bench_get_chosen_hooping (canvas->bench);
  g_autofree char *readout = hw_canvas_readout (canvas);

  g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u motif", "%u motifs", motifs), motifs);
  g_string_append (text, g_dgettext (GETTEXT_PACKAGE, ", "));
  g_string_append_printf (text, g_dngettext (GETTEXT_PACKAGE, "%u hooping", "%u hoopings", hoopings),
                          hoopings);
  g_string_append (text, ". ");
  if (chosen >= 0)
    g_string_append_printf (text, _ ("Hooping %d is chosen. "), chosen + 1);
  if (readout != NULL)
    g_string_append_printf (text, _ ("Selected: %s."), readout);
  else
    g_string_append (text, _ ("Nothing is selected."));
  return g_string_free (text, FALSE);
}

static gboolean
describe_cb (gpointer user_data)
{
  HwCanvas *canvas = user_data;
  g_autofree char *text = description (canvas);

  canvas->words_source = 0;
  gtk_accessible_update_property (GTK_ACCESSIBLE (canvas), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text, -1);
  return G_SOURCE_REMOVE;
}

void
hw_canvas_describe_soon (HwCanvas *canvas)
{
  if (canvas->words_source == 0)
    canvas->words_source = g_timeout_add (150, describe_cb, canvas);
}
