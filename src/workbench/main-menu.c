/* The main menu: few enough entries to be seen whole in a window of 700 px; what is wanted less often stands in submenus. Names come from the table of
 * commands. */
#include "main-menu.h"

#include <glib/gi18n.h>

#include "arrange-menu.h"
#include "command-list.h"

static const char *const file[]
    = { "win.new-scene", "win.open", "win.start-page", "win.save", "win.save-as", NULL };
static const char *const earlier[] = { "win.earlier-states", NULL };
static const char *const cloth[] = { "win.edit-cloth", "win.add-photo", "win.parts", "win.mark-list", NULL };
static const char *const workroom[] = { "win.edit-hoops", "win.threads-at-hand", "win.supplies", NULL };
static const char *const days[] = { "win.measure-cloth", "win.day-log", "win.take-back", NULL };
static const char *const paper[] = { "win.print", "win.take-along", NULL };
static const char *const shown[]
    = { "win.show-hoopings", "win.show-marks", "win.show-order", "win.show-density", NULL };
static const char *const zoom[] = { "win.zoom-fit", "win.zoom-true", NULL };
static const char *const pane[] = { "win.side-pane-open", "win.foot-open", NULL };
static const char *const units[] = { "win.unit::mm", "win.unit::inch", NULL };
static const char *const help[]
    = { "win.show-help-overlay", "win.help", "win.hints-again", "win.about", NULL };

void
hw_menu_append_command (GMenu *menu, const char *action)
{
  const HwCommand *command = hw_command_find (action);

  g_return_if_fail (command != NULL);
  g_menu_append (menu, _ (command->label), action);
}

void
hw_menu_append_commands (GMenu *menu, const char *const *actions)
{
  g_autoptr (GMenu) section = g_menu_new ();

  for (guint i = 0; actions[i] != NULL; i++)
    hw_menu_append_command (section, actions[i]);
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static void
append_files (GMenu *menu, GMenu *recent)
{
  g_autoptr (GMenu) section = g_menu_new ();
  g_autoptr (GMenu) again = g_menu_new ();

  g_menu_append_section (again, NULL, G_MENU_MODEL (recent));
  hw_menu_append_commands (again, earlier);
  for (guint i = 0; file[i] != NULL; i++)
    {
      hw_menu_append_command (section, file[i]);
      if (g_str_equal (file[i], "win.start-page"))
        g_menu_append_submenu (section, _ ("Open again"), G_MENU_MODEL (again));
    }
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static void
append_picture (GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();
  g_autoptr (GMenu) arrange = g_menu_new ();
  g_autoptr (GMenu) settled = g_menu_new ();

  hw_menu_append_command (section, "win.add-motif");
  hw_menu_append_command (section, "win.draw-outline");
  hw_arrange_menu_fill (arrange);
  g_menu_append_submenu (section, _ ("Arrange"), G_MENU_MODEL (arrange));
  hw_menu_append_commands (settled, cloth);
  hw_menu_append_commands (settled, workroom);
  g_menu_append_submenu (section, _ ("Cloth, hoops and threads"), G_MENU_MODEL (settled));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static void
append_machine (GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();
  g_autoptr (GMenu) done = g_menu_new ();

  hw_menu_append_command (section, "win.at-machine");
  hw_menu_append_commands (done, days);
  g_menu_append_submenu (section, _ ("What was stitched"), G_MENU_MODEL (done));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static void
append_view (GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();
  g_autoptr (GMenu) view = g_menu_new ();
  g_autoptr (GMenu) lengths = g_menu_new ();
  g_autoptr (GMenu) last = g_menu_new ();

  hw_menu_append_commands (view, shown);
  hw_menu_append_commands (view, zoom);
  hw_menu_append_commands (view, pane);
  hw_menu_append_commands (lengths, units);
  g_menu_append_submenu (last, _ ("Lengths in"), G_MENU_MODEL (lengths));
  g_menu_append_section (view, NULL, G_MENU_MODEL (last));
  g_menu_append_submenu (section, _ ("View"), G_MENU_MODEL (view));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

static void
append_help (GMenu *menu)
{
  g_autoptr (GMenu) section = g_menu_new ();
  g_autoptr (GMenu) pages = g_menu_new ();

  hw_menu_append_command (section, "win.find-command");
  hw_menu_append_commands (pages, help);
  g_menu_append_submenu (section, _ ("Help"), G_MENU_MODEL (pages));
  g_menu_append_section (menu, NULL, G_MENU_MODEL (section));
}

GMenuModel *
hw_main_menu_new (GMenu *recent)
{
  GMenu *menu = g_menu_new ();

  append_files (menu, recent);
  append_picture (menu);
  append_machine (menu);
  hw_menu_append_commands (menu, paper);
  append_view (menu);
  append_help (menu);
  return G_MENU_MODEL (menu);
}
