/* Hints in the settings: whether any are wanted, and the names of those put away. */
#include "hints.h"

#include <gio/gio.h>
#include <glib/gi18n.h>

#include "settings.h"

#define WANTED "hints"
#define PUT_AWAY "hints-put-away"

static const struct
{
  const char *name, *text;
} hints[HW_N_HINTS] = {
  [HW_HINT_MOTIF] = { "motif", N_ ("Drag the motif to its place. The handles at its corners make it larger "
                                   "or smaller, the one above turns "
                                   "it. Ctrl+Z takes back whatever you do.") },
  [HW_HINT_PLAN] = { "plan", N_ ("Here it always says how few hoopings the picture takes, and whether fewer "
                                 "are possible. Each bead is one "
                                 "hooping: choose it to see the cloth as it will be then.") },
  [HW_HINT_ORDER] = { "order", N_ ("What lies behind is stitched first. Page Down sends the chosen motif "
                                   "back, Page Up brings it to the "
                                   "front.") },
  [HW_HINT_PRINT] = { "print", N_ ("When the picture pleases you, print the templates in true size, cut them "
                                   "out and lay them on the real "
                                   "cloth.") },
  [HW_HINT_MACHINE]
  = { "machine", N_ ("One step at a time, to be read from where you stand: Enter goes on, Backspace goes "
                     "back, and every step "
                     "is kept. Mind the needle and the moving frame, and follow the machine’s manual.") },
};

/* Returns: (transfer full) */
static char **
put_away (GSettings *settings)
{
  return g_settings_get_strv (settings, PUT_AWAY);
}

gboolean
hw_hint_is_wanted (HwHintKind kind)
{
  GSettings *settings = hw_settings_get ();

  g_return_val_if_fail (kind < HW_N_HINTS, FALSE);
  if (settings == NULL || !g_settings_get_boolean (settings, WANTED))
    return FALSE;
  g_auto (GStrv) names = put_away (settings);
  return !g_strv_contains ((const char *const *)names, hints[kind].name);
}

void
hw_hint_put_away (HwHintKind kind)
{
  GSettings *settings = hw_settings_get ();
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  g_return_if_fail (kind < HW_N_HINTS);
  if (settings == NULL || !hw_hint_is_wanted (kind))
    return;
  g_auto (GStrv) names = put_away (settings);
  g_strv_builder_addv (builder, (const char **)names);
  g_strv_builder_add (builder, hints[kind].name);
  g_auto (GStrv) more = g_strv_builder_end (builder);
  g_settings_set_strv (settings, PUT_AWAY, (const char *const *)more);
}

void
hw_hints_stop (void)
{
  hw_settings_set_flag (WANTED, FALSE);
}

void
hw_hints_bring_back (void)
{
  GSettings *settings = hw_settings_get ();

  if (settings == NULL)
    return;
  g_settings_reset (settings, PUT_AWAY);
  g_settings_set_boolean (settings, WANTED, TRUE);
}

const char *
hw_hint_text (HwHintKind kind)
{
  g_return_val_if_fail (kind < HW_N_HINTS, "");
  return _ (hints[kind].text);
}
