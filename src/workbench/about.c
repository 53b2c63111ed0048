/* What the program is, its version and its licence. */
#include "about.h"

#include <glib/gi18n.h>

#include "application.h"

void
hw_about_show (GtkWindow *parent)
{
  gtk_show_about_dialog (
      parent, "program-name", _ ("Hoopwright"), "version", HW_VERSION, "logo-icon-name", HW_APPLICATION_ID,
      "comments",
      _ ("Compose one large embroidered picture from many motifs, with the fewest hoopings, and "
         "carry it to the machine on paper."),
      "copyright", _ ("The Hoopwright authors"), "license-type", GTK_LICENSE_GPL_3_0, NULL);
}
