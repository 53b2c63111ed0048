/* The menu of arranging, the same under the main menu and under a motif. */
#include "arrange-menu.h"

#include <glib/gi18n.h>

typedef struct
{
  const char *label;
  const char *action;
} Entry;

static const Entry lines[] = {
  { N_ ("Left sides"), "win.line-up::left" },
  { N_ ("Middles under each other"), "win.line-up::middle" },
  { N_ ("Right sides"), "win.line-up::right" },
  { N_ ("Top sides"), "win.line-up::top" },
  { N_ ("Middles beside each other"), "win.line-up::centre" },
  { N_ ("Bottom sides"), "win.line-up::bottom" },
};

static const Entry gaps[] = {
  { N_ ("Across"), "win.space-out::across" },
  { N_ ("Down"), "win.space-out::down" },
};

static const Entry pairs[] = {
  { N_ ("Across the upright centre line"), "win.mirror-pair::upright" },
  { N_ ("Across the level centre line"), "win.mirror-pair::level" },
};

static const Entry figures[] = {
  { N_ ("Copies in a row…"), "win.copies-in-row" },
  { N_ ("Put in a row…"), "win.put-in-row" },
  { N_ ("Copies around a centre…"), "win.copies-around" },
  { N_ ("Tuck behind…"), "win.tuck-behind" },
};

static GMenuModel *
entries_menu (const Entry *entries, guint n)
{
  GMenu *menu = g_menu_new ();

  for (guint i = 0; i < n; i++)
    g_menu_append (menu, _ (entries[i].label), entries[i].action);
  return G_MENU_MODEL (menu);
}

void
hw_arrange_menu_fill (GMenu *menu)
{
  g_autoptr (GMenu) at_once = g_menu_new ();
  g_autoptr (GMenu) resting = g_menu_new ();
  g_autoptr (GMenuModel) line_up = entries_menu (lines, G_N_ELEMENTS (lines));
  g_autoptr (GMenuModel) space_out = entries_menu (gaps, G_N_ELEMENTS (gaps));
  g_autoptr (GMenuModel) mirror = entries_menu (pairs, G_N_ELEMENTS (pairs));
  g_autoptr (GMenuModel) by_figures = entries_menu (figures, G_N_ELEMENTS (figures));

  g_menu_append_submenu (at_once, _ ("In line"), line_up);
  g_menu_append_submenu (at_once, _ ("Equal gaps"), space_out);
  g_menu_append_submenu (at_once, _ ("Mirrored pair"), mirror);
  g_menu_append (resting, _ ("Come to rest while dragging"), "win.come-to-rest");
  g_menu_append_section (menu, NULL, G_MENU_MODEL (at_once));
  g_menu_append_section (menu, NULL, by_figures);
  g_menu_append_section (menu, NULL, G_MENU_MODEL (resting));
}
