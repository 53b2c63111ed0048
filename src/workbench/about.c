/* What the program is, its version and its licence. */
#include "about.h"

#include <glib/gi18n.h>

#include "application.h"
#include "dialog.h"
#include "help-place.h"

#define ICON_SIZE 112 /* px */

static GtkWidget *
line (GtkWidget *content, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 44);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  gtk_box_append (GTK_BOX (content), label);
  return label;
}

void
hw_about_show (GtkWindow *parent)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *icon = gtk_image_new_from_icon_name (HW_APPLICATION_ID);
  g_autofree char *version = g_strdup_printf (_ ("Version %s"), HW_VERSION);

  gtk_image_set_pixel_size (GTK_IMAGE (icon), ICON_SIZE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (icon), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("An embroidery hoop with a sprig"), -1);
  gtk_box_append (GTK_BOX (content), icon);
  line (content, _ ("Hoopwright"), "about-name");
  line (content, version, "quiet");
  line (
      content,
      _ ("Compose one large embroidered picture from many motifs, with the fewest hoopings, and carry it to "
         "the machine on paper."),
      NULL);
  line (content, _ ("© The Hoopwright authors"), "quiet");
  GtkWidget *licence = line (content, NULL, "quiet");
  gtk_label_set_markup (GTK_LABEL (licence),
                        _ ("Free software, with no warranty: you may share and change it under the "
                           "<a href=\"https://www.gnu.org/licenses/gpl-3.0.html\">GNU General Public "
                           "License</a>, version 3 or later."));

  GtkWindow *dialog = hw_dialog_new (parent, _ ("About Hoopwright"), content, -1, -1);
  hw_help_mark (dialog, "index");
  gtk_window_set_resizable (dialog, FALSE);
  gtk_window_present (dialog);
}
