/* The desktop's own dialog for files, with photos in it. */
#include "photo-chooser.h"

#include <glib/gi18n.h>

typedef struct
{
  HwPhotoChosen chosen;
  GObject *owner;
} Asking;

static void
picked_cb (GtkNativeDialog *dialog, int response, Asking *asking)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT && file != NULL)
    asking->chosen (file, asking->owner);
  g_object_unref (asking->owner);
  g_free (asking);
  g_object_unref (dialog);
}

static void
add_filters (GtkFileChooser *chooser)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, _ ("Photos (JPEG, PNG)"));
  gtk_file_filter_add_mime_type (filter, "image/jpeg");
  gtk_file_filter_add_mime_type (filter, "image/png");
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, filter);
  gtk_file_chooser_add_filter (chooser, all);
}

void
hw_photo_choose (
    GtkWindow *parent, const char *title, const char *folder, HwPhotoChosen chosen, GObject *owner)
{
  g_return_if_fail (title != NULL && chosen != NULL && G_IS_OBJECT (owner));

  const char *pictures = g_get_user_special_dir (G_USER_DIRECTORY_PICTURES);
  GtkFileChooserNative *chooser
      = gtk_file_chooser_native_new (title, parent, GTK_FILE_CHOOSER_ACTION_OPEN, NULL, NULL);
  Asking *asking = g_new (Asking, 1);

  *asking = (Asking){ chosen, g_object_ref (owner) };
  add_filters (GTK_FILE_CHOOSER (chooser));
  if (pictures != NULL || folder != NULL)
    {
      g_autoptr (GFile) start = g_file_new_for_path (pictures != NULL ? pictures : folder);
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), start, NULL);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect (chooser, "response", G_CALLBACK (picked_cb), asking);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}
