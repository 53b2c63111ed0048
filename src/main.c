/* Hoopwright: with a command it works without a window; without one it opens the workbench. */
#include <locale.h>

#include "commands/commands.h"
#include "geometry/language.h"
#include "places.h"
#include "workbench/application.h"

int
main (int argc, char **argv)
{
  hw_places_prepare ();
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, hw_places_catalogues ());
  hw_language_set_folder (hw_places_catalogues ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  if (hw_commands_wanted (argc, argv))
    return hw_commands_run (argc, argv);

  return hw_application_main (argc, argv);
}
