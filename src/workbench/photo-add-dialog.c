/* The dialog for a new photo of the cloth: its name and day, and where it is kept, beside the scene's file or inside it. With the same fields a photo that is there is renamed. */
#include "photo-add-dialog.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"
#include "measure-field.h"
#include "photo-file.h"

#define WIDTH 460 /* px */

typedef struct
{
  HwBench *bench;
  GtkWindow *window, *parent;
  char *file;
  GBytes *bytes;
  guint index; /* of the photo that is renamed */
  HwPhotoAdded added;
  GtkWidget *name, *day, *beside, *told;
} Dialog;

static void
dialog_free (gpointer data)
{
  Dialog *dialog = data;

  g_object_unref (dialog->bench);
  g_clear_pointer (&dialog->bytes, g_bytes_unref);
  g_free (dialog->file);
  g_free (dialog);
}

static char *
name_of (Dialog *dialog)
{
  g_autofree char *name = g_strdup (gtk_editable_get_text (GTK_EDITABLE (dialog->name)));

  g_strstrip (name);
  return *name != '\0' ? g_steal_pointer (&name) : g_strdup (_ ("Photo"));
}

/* "" or a day. FALSE and a word about it otherwise. */
static gboolean
day_is_good (Dialog *dialog)
{
  const char *day = gtk_editable_get_text (GTK_EDITABLE (dialog->day));
  g_autofree char *whole = g_strdup_printf ("%sT12:00:00Z", day);
  g_autoptr (GDateTime) read = g_date_time_new_from_iso8601 (whole, NULL);

  if (*day == '\0' || read != NULL)
    return TRUE;
  gtk_label_set_label (
      GTK_LABEL (dialog->told),
      _ ("That is no day. Write year, month and day, such as 2026-11-25, or leave it empty."));
  gtk_widget_set_visible (dialog->told, TRUE);
  gtk_widget_grab_focus (dialog->day);
  return FALSE;
}

static void
add_cb (GtkWidget *widget, Dialog *dialog)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = name_of (dialog);
  gboolean beside = gtk_check_button_get_active (GTK_CHECK_BUTTON (dialog->beside));
  GtkWindow *parent = dialog->parent;
  HwPhotoAdded added = dialog->added;
  HwBench *bench = dialog->bench;

  if (!day_is_good (dialog))
    return;
  if (!hw_bench_add_photo (bench, dialog->file, dialog->bytes, name,
                           gtk_editable_get_text (GTK_EDITABLE (dialog->day)), beside, &error))
    {
      gtk_label_set_label (GTK_LABEL (dialog->told), error->message);
      gtk_widget_set_visible (dialog->told, TRUE);
      return;
    }
  guint index = hw_scene_get_photos (hw_bench_get_scene (bench))->len - 1;
  gtk_window_close (dialog->window);
  if (added != NULL)
    added (parent, index);
}

static void
rename_cb (GtkWidget *widget, Dialog *dialog)
{
  g_autofree char *name = name_of (dialog);

  if (!day_is_good (dialog))
    return;
  hw_bench_rename_photo (dialog->bench, dialog->index, name,
                         gtk_editable_get_text (GTK_EDITABLE (dialog->day)));
  gtk_window_close (dialog->window);
}

static void
cancel_cb (GtkButton *button, Dialog *dialog)
{
  gtk_window_close (dialog->window);
}

static GtkWidget *
entry (const char *label, const char *text)
{
  GtkWidget *made = gtk_entry_new ();

  gtk_editable_set_text (GTK_EDITABLE (made), text != NULL ? text : "");
  gtk_entry_set_activates_default (GTK_ENTRY (made), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (made), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return made;
}

static GtkWidget *
make_choice (Dialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *inside
      = gtk_check_button_new_with_label (_ ("In the scene’s own file, so that they stay together"));
  gboolean saved = hw_bench_get_path (dialog->bench) != NULL;

  dialog->beside = gtk_check_button_new_with_label (_ ("As a file of its own beside the scene’s"));
  gtk_check_button_set_group (GTK_CHECK_BUTTON (inside), GTK_CHECK_BUTTON (dialog->beside));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (saved ? dialog->beside : inside), TRUE);
  gtk_widget_set_sensitive (dialog->beside, saved);
  gtk_box_append (GTK_BOX (box), dialog->beside);
  gtk_box_append (GTK_BOX (box), inside);
  if (!saved)
    gtk_box_append (GTK_BOX (box), hw_dialog_words (_ ("The scene has no file yet: save it first to keep the "
                                                       "photo beside it.")));
  return box;
}

/* Takes over nothing; dialog lives as long as its window. */
static void
show (Dialog *dialog,
      const char *title,
      const char *name,
      const char *day,
      GtkWidget *choice,
      const char *verb,
      GCallback done)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *cancel = gtk_button_new_with_label (_ ("Cancel"));
  GtkWidget *take = gtk_button_new_with_label (verb);

  dialog->name = entry (_ ("Name of the photo"), name);
  dialog->day = entry (_ ("Day it was taken"), day);
  dialog->told = hw_dialog_words (NULL);
  gtk_widget_set_visible (dialog->told, FALSE);
  gtk_widget_add_css_class (dialog->told, "told");
  gtk_widget_add_css_class (take, "suggested-action");
  g_signal_connect (take, "clicked", done, dialog);
  g_signal_connect (cancel, "clicked", G_CALLBACK (cancel_cb), dialog);
  gtk_box_append (GTK_BOX (content), hw_captioned (_ ("Name"), dialog->name));
  gtk_box_append (GTK_BOX (content), hw_captioned (_ ("Day it was taken"), dialog->day));
  if (choice != NULL)
    gtk_box_append (GTK_BOX (content), hw_captioned (_ ("Where it is kept"), choice));
  gtk_box_append (GTK_BOX (content), dialog->told);
  gtk_box_append (GTK_BOX (foot), cancel);
  gtk_box_append (GTK_BOX (foot), take);
  gtk_box_append (GTK_BOX (content), foot);
  dialog->window = hw_dialog_new (dialog->parent, title, content, WIDTH, -1);
  hw_help_mark (dialog->window, "photo");
  g_object_set_data_full (G_OBJECT (dialog->window), "dialog", dialog, dialog_free);
  gtk_window_set_default_widget (dialog->window, take);
  gtk_window_present (dialog->window);
}

void
hw_photo_add_dialog_show (
    GtkWindow *parent, HwBench *bench, const char *file, GBytes *bytes, HwPhotoAdded added)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (file != NULL && bytes != NULL);

  Dialog *dialog = g_new0 (Dialog, 1);
  g_autofree char *name = hw_photo_file_name (file);
  g_autofree char *day = hw_photo_file_day (file, bytes);

  dialog->bench = g_object_ref (bench);
  dialog->parent = parent;
  dialog->file = g_strdup (file);
  dialog->bytes = g_bytes_ref (bytes);
  dialog->added = added;
  show (dialog, _ ("Photo of the cloth"), name, day, make_choice (dialog), _ ("Add the photo"),
        G_CALLBACK (add_cb));
}

void
hw_photo_rename_dialog_show (GtkWindow *parent, HwBench *bench, guint index)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  GPtrArray *photos = hw_scene_get_photos (hw_bench_get_scene (bench));
  const HwPhoto *photo = index < photos->len ? g_ptr_array_index (photos, index) : NULL;

  if (photo == NULL)
    return;
  Dialog *dialog = g_new0 (Dialog, 1);
  dialog->bench = g_object_ref (bench);
  dialog->parent = parent;
  dialog->index = index;
  show (dialog, _ ("Rename the photo"), photo->name, photo->taken, NULL, _ ("Rename"),
        G_CALLBACK (rename_cb));
}
