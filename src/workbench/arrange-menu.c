/* The menu of arranging, the same under the main menu and under a motif. */
#include "arrange-menu.h"

#include <glib/gi18n.h>

#include "main-menu.h"

static const char *const lines[] = { "win.line-up::left",
                                     "win.line-up::middle",
                                     "win.line-up::right",
                                     "win.line-up::top",
                                     "win.line-up::centre",
                                     "win.line-up::bottom",
                                     NULL };
static const char *const gaps[] = { "win.space-out::across", "win.space-out::down", NULL };
static const char *const pairs[] = { "win.mirror-pair::upright", "win.mirror-pair::level", NULL };
static const char *const figures[]
    = { "win.copies-in-row", "win.put-in-row", "win.copies-around", "win.tuck-behind", NULL };
static const char *const resting[] = { "win.come-to-rest", NULL };

static void
append_submenu (GMenu *menu, const char *label, const char *const *actions)
{
  g_autoptr (GMenu) submenu = g_menu_new ();

  hw_menu_append_commands (submenu, actions);
  g_menu_append_submenu (menu, label, G_MENU_MODEL (submenu));
}

void
hw_arrange_menu_fill (GMenu *menu)
{
  g_autoptr (GMenu) at_once = g_menu_new ();

  append_submenu (at_once, _ ("In line"), lines);
  append_submenu (at_once, _ ("Equal gaps"), gaps);
  append_submenu (at_once, _ ("Mirrored pair"), pairs);
  g_menu_append_section (menu, NULL, G_MENU_MODEL (at_once));
  hw_menu_append_commands (menu, figures);
  hw_menu_append_commands (menu, resting);
}
