/* Motifs come in: files are chosen, or dropped on the table, and read on a worker. What reads well lies on the cloth at once; then the files that must be
 * asked about have their turn, one by one. */
#include "window-import.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "help-place.h"
#include "import-dialog.h"
#include "outline-dialog.h"
#include "palette-dialog.h"
#include "supplies-dialog.h"
#include "settings.h"
#include "window-photo.h"
#include "window-private.h"

static const char *const artwork_endings[] = { ".csv", ".svg", ".png", ".jpg", ".jpeg", ".pdf" };

#define LONG_READING 400 /* ms after which it is said that files are being read */
#define IN_THE_HAND 150  /* ms to wait for the hand to let go of what it drags */

/* Files that came together. */
typedef struct
{
  HwWindow *window;
  GPtrArray *files; /* HwMotifFile; those taken already are NULL */
  GString *troubles;
  gboolean somewhere;
  HwPoint at;
  guint n_added;
  gboolean taken_back; /* for being too many */
  guint next;          /* to be asked about */
  guint telling;
} Arrival;

static void
arrival_free (Arrival *arrival)
{
  g_clear_handle_id (&arrival->telling, g_source_remove);
  g_ptr_array_unref (arrival->files);
  g_string_free (arrival->troubles, TRUE);
  g_object_unref (arrival->window);
  g_free (arrival);
}

static void
file_free (gpointer file)
{
  if (file != NULL)
    hw_motif_file_free (file);
}

static gboolean
is_there (HwWindow *window)
{
  return window->bench != NULL && gtk_widget_get_mapped (GTK_WIDGET (window));
}

static void
add (Arrival *arrival, GPtrArray *motifs)
{
  hw_window_need_scene (arrival->window);
  if (hw_bench_add_motifs (arrival->window->bench, motifs, arrival->somewhere ? &arrival->at : NULL))
    arrival->n_added += motifs->len;
  else
    arrival->taken_back = TRUE;
  gtk_widget_grab_focus (GTK_WIDGET (arrival->window->canvas));
}

static void
tell_troubles (Arrival *arrival)
{
  if (arrival->troubles->len > 0 && arrival->n_added > 0)
    g_string_append_printf (arrival->troubles,
                            ngettext (" The other motif is on the cloth.",
                                      " The other %u motifs are on the cloth.", arrival->n_added),
                            arrival->n_added);
  if (!arrival->taken_back) /* that was told, and stays */
    hw_window_tell (arrival->window, arrival->troubles->len > 0 ? arrival->troubles->str : NULL);
}

static void
ask_next (Arrival *arrival);

static void
answered (HwMotifFile *file, gpointer user_data)
{
  Arrival *arrival = user_data;

  if (file != NULL && is_there (arrival->window))
    {
      g_autoptr (GPtrArray) one = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);

      g_ptr_array_add (one, hw_motif_ref (file->motif));
      add (arrival, one);
    }
  file_free (file);
  ask_next (arrival);
}

/* Takes over arrival when nothing is left to be asked. */
static void
ask_next (Arrival *arrival)
{
  while (is_there (arrival->window) && arrival->next < arrival->files->len)
    {
      HwMotifFile *file = arrival->files->pdata[arrival->next];

      arrival->files->pdata[arrival->next++] = NULL;
      if (file != NULL)
        {
          hw_import_dialog_show (GTK_WINDOW (arrival->window), arrival->window->bench, file, answered,
                                 arrival);
          return;
        }
    }
  if (is_there (arrival->window))
    tell_troubles (arrival);
  arrival_free (arrival);
}

static void
note_trouble (Arrival *arrival, const char *sentence)
{
  if (arrival->troubles->len > 0)
    g_string_append_c (arrival->troubles, ' ');
  g_string_append (arrival->troubles, sentence);
}

/* What needs no question is added in one step. */
static void
sort_out (Arrival *arrival)
{
  g_autoptr (GPtrArray) ready = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);

  for (guint i = 0; i < arrival->files->len; i++)
    {
      HwMotifFile *file = arrival->files->pdata[i];

      if (file->motif != NULL && (file->asks_size || file->asks_page))
        continue;
      if (file->motif != NULL)
        g_ptr_array_add (ready, hw_motif_ref (file->motif));
      else
        note_trouble (arrival, file->trouble);
      hw_motif_file_free (file);
      arrival->files->pdata[i] = NULL;
    }
  if (ready->len > 0)
    add (arrival, ready);
}

/* Nothing is added under a hand that drags: it is waited for. */
static gboolean
when_at_rest (gpointer user_data)
{
  Arrival *arrival = user_data;

  if (!is_there (arrival->window))
    arrival_free (arrival);
  else if (hw_bench_is_editing (arrival->window->bench))
    return G_SOURCE_CONTINUE;
  else
    {
      sort_out (arrival);
      ask_next (arrival);
    }
  return G_SOURCE_REMOVE;
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Arrival *arrival = user_data;

  g_clear_handle_id (&arrival->telling, g_source_remove);
  if (when_at_rest (arrival) == G_SOURCE_CONTINUE)
    g_timeout_add (IN_THE_HAND, when_at_rest, arrival);
}

static gboolean
tell_of_reading (gpointer user_data)
{
  Arrival *arrival = user_data;
  g_autofree char *text = g_strdup_printf (
      ngettext ("Reading %u file…", "Reading %u files…", arrival->files->len), arrival->files->len);

  arrival->telling = 0;
  if (is_there (arrival->window))
    hw_window_tell (arrival->window, text);
  return G_SOURCE_REMOVE;
}

void
hw_window_add_motif_files (HwWindow *window, const char *const *paths, const HwPoint *at)
{
  g_return_if_fail (HW_IS_WINDOW (window));
  g_return_if_fail (paths != NULL);

  Arrival *arrival = g_new0 (Arrival, 1);

  arrival->window = g_object_ref (window);
  arrival->files = g_ptr_array_new_with_free_func (file_free);
  arrival->troubles = g_string_new (NULL);
  arrival->somewhere = at != NULL;
  if (at != NULL)
    arrival->at = *at;
  for (guint i = 0; paths[i] != NULL; i++)
    g_ptr_array_add (arrival->files, hw_motif_file_new (paths[i]));
  arrival->telling = g_timeout_add (LONG_READING, tell_of_reading, arrival);
  hw_motif_files_read_async (arrival->files, NULL, read_cb, arrival);
}

/* Returns: (transfer full): the files' paths; those without one are told of and left out */
static char **
paths_of (HwWindow *window, GListModel *files)
{
  g_autoptr (GStrvBuilder) paths = g_strv_builder_new ();

  for (guint i = 0; i < g_list_model_get_n_items (files); i++)
    {
      g_autoptr (GFile) file = g_list_model_get_item (files, i);
      g_autofree char *path = g_file_get_path (file);

      if (path != NULL)
        g_strv_builder_add (paths, path);
      else
        hw_window_tell (
            window,
            _ ("This place cannot be read directly. Copy the files to this computer and add them there."));
    }
  return g_strv_builder_end (paths);
}

static void
picked_cb (GtkNativeDialog *dialog, int response, HwWindow *window)
{
  g_autoptr (GListModel) files = gtk_file_chooser_get_files (GTK_FILE_CHOOSER (dialog));

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_auto (GStrv) paths = paths_of (window, files);
      if (paths[0] != NULL)
        hw_window_add_motif_files (window, (const char *const *)paths, NULL);
    }
  g_object_unref (dialog);
}

static void
add_motif_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (_ ("Add motifs"), GTK_WINDOW (window),
                                                               GTK_FILE_CHOOSER_ACTION_OPEN, NULL, NULL);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();
  g_autofree char *last = hw_settings_get_text (HW_SETTING_LAST_FOLDER);

  gtk_file_filter_set_name (filter, _ ("Needle lists and artwork (CSV, SVG, PNG, JPEG, PDF)"));
  for (guint i = 0; i < G_N_ELEMENTS (artwork_endings); i++)
    gtk_file_filter_add_suffix (filter, artwork_endings[i] + 1);
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), all);
  gtk_file_chooser_set_select_multiple (GTK_FILE_CHOOSER (chooser), TRUE);
  if (*last != '\0' && g_file_test (last, G_FILE_TEST_IS_DIR))
    {
      g_autoptr (GFile) folder = g_file_new_for_path (last);
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), folder, NULL);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  g_signal_connect (chooser, "response", G_CALLBACK (picked_cb), window);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

/* A picture that is dropped may be either: asked once, and only then. */
typedef struct
{
  HwWindow *window;
  GtkWindow *dialog;
  GFile *file;
  gboolean somewhere;
  HwPoint at;
} Dropped;

static void
dropped_free (gpointer data)
{
  Dropped *dropped = data;

  g_object_unref (dropped->file);
  g_free (dropped);
}

static void
is_motif_cb (GtkButton *button, Dropped *dropped)
{
  const char *paths[] = { g_file_peek_path (dropped->file), NULL };

  if (paths[0] != NULL)
    hw_window_add_motif_files (dropped->window, paths, dropped->somewhere ? &dropped->at : NULL);
  gtk_window_close (dropped->dialog);
}

static void
is_photo_cb (GtkButton *button, Dropped *dropped)
{
  hw_window_add_photo (dropped->window, dropped->file);
  gtk_window_close (dropped->dialog);
}

static void
ask_what_it_is (HwWindow *window, GFile *file, const HwPoint *at)
{
  Dropped *dropped = g_new0 (Dropped, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *motif = gtk_button_new_with_label (_ ("A motif"));
  GtkWidget *photo = gtk_button_new_with_label (_ ("A photo of the cloth"));
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *shown = g_filename_display_name (name);
  g_autofree char *question = g_strdup_printf (_ ("What does %s show?"), shown);

  dropped->window = window;
  dropped->file = g_object_ref (file);
  dropped->somewhere = at != NULL;
  if (at != NULL)
    dropped->at = *at;
  gtk_box_append (GTK_BOX (content), hw_dialog_words (question));
  gtk_box_append (GTK_BOX (foot), photo);
  gtk_box_append (GTK_BOX (foot), motif);
  gtk_box_append (GTK_BOX (content), foot);
  gtk_widget_add_css_class (motif, "suggested-action");
  dropped->dialog = hw_dialog_new (GTK_WINDOW (window), _ ("A picture"), content, 380, -1);
  hw_help_mark (dropped->dialog, "artwork");
  g_object_set_data_full (G_OBJECT (dropped->dialog), "dropped", dropped, dropped_free);
  g_signal_connect (motif, "clicked", G_CALLBACK (is_motif_cb), dropped);
  g_signal_connect (photo, "clicked", G_CALLBACK (is_photo_cb), dropped);
  gtk_window_set_default_widget (dropped->dialog, motif);
  gtk_window_present (dropped->dialog);
}

static void
open_scene (HwWindow *window, gpointer file)
{
  hw_window_open (window, file);
}

static gboolean
is_scene (GFile *file)
{
  g_autofree char *name = g_file_get_basename (file);

  return name != NULL && g_str_has_suffix (name, ".hoopscene");
}

/* The point of the cloth under a pixel of the table. */
static HwPoint
cloth_at (HwCanvas *canvas, double x, double y)
{
  double x0, y0, x1, y1;

  hw_canvas_to_pixels (canvas, (HwPoint){ 0, 0 }, &x0, &y0);
  hw_canvas_to_pixels (canvas, (HwPoint){ 1, 1 }, &x1, &y1);
  return (HwPoint){ (x - x0) / (x1 - x0), (y - y0) / (y1 - y0) };
}

static void
take_motifs (HwWindow *window, GSList *files, const HwPoint *at)
{
  g_autoptr (GListStore) list = g_list_store_new (G_TYPE_FILE);
  g_auto (GStrv) paths = NULL;

  for (GSList *l = files; l != NULL; l = l->next)
    g_list_store_append (list, l->data);
  paths = paths_of (window, G_LIST_MODEL (list));
  if (paths[0] != NULL)
    hw_window_add_motif_files (window, (const char *const *)paths, at);
}

/* Files from outside: a scene, a picture that may be motif or photo, or motifs. */
static void
take_files (HwWindow *window, GSList *files, const HwPoint *at)
{
  if (files->next == NULL && is_scene (files->data))
    hw_window_guard (window, open_scene, g_object_ref (files->data), g_object_unref);
  else if (files->next == NULL && hw_window_is_photo_file (files->data))
    ask_what_it_is (window, files->data, at);
  else
    take_motifs (window, files, at);
}

void
hw_window_open_or_add (HwWindow *window, GFile *file)
{
  g_return_if_fail (HW_IS_WINDOW (window));
  g_return_if_fail (G_IS_FILE (file));

  GSList one = { file, NULL };
  g_autofree char *name = g_file_get_basename (file);
  g_autofree char *lower = g_ascii_strdown (name != NULL ? name : "", -1);
  gboolean artwork = hw_window_is_photo_file (file);

  for (guint i = 0; i < G_N_ELEMENTS (artwork_endings) && !artwork; i++)
    artwork = g_str_has_suffix (lower, artwork_endings[i]);
  if (artwork)
    take_files (window, &one, NULL);
  else
    hw_window_open (window, file);
}

/* What is dragged out of the program's own list of motifs. */
static gboolean
is_own (GtkDropTarget *target)
{
  return gdk_drop_get_drag (gtk_drop_target_get_current_drop (target)) != NULL;
}

static gboolean
drop_on_table_cb (GtkDropTarget *target, const GValue *value, double x, double y, HwWindow *window)
{
  g_autoptr (GSList) files = gdk_file_list_get_files (g_value_get_boxed (value));
  HwPoint at = cloth_at (window->canvas, x, y);

  if (files == NULL)
    return FALSE;
  if (is_own (target))
    take_motifs (window, files, &at);
  else
    take_files (window, files, &at);
  return TRUE;
}

/* Beside the table: motifs come to the middle of the cloth; one of the program's own was let go of. */
static gboolean
drop_beside_cb (GtkDropTarget *target, const GValue *value, double x, double y, HwWindow *window)
{
  g_autoptr (GSList) files = gdk_file_list_get_files (g_value_get_boxed (value));

  if (files == NULL || is_own (target))
    return FALSE;
  take_files (window, files, NULL);
  return TRUE;
}

static void
add_drop (HwWindow *window, GtkWidget *onto, GCallback drop)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  g_signal_connect (target, "drop", drop, window);
  gtk_widget_add_controller (onto, GTK_EVENT_CONTROLLER (target));
}

static void
add_file_cb (GSimpleAction *action, GVariant *path, gpointer user_data)
{
  const char *paths[] = { g_variant_get_string (path, NULL), NULL };

  hw_window_add_motif_files (HW_WINDOW (user_data), paths, NULL);
}

static void
edit_outline_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (window->bench);

  if (selection->len == 1 && !hw_bench_is_editing (window->bench))
    hw_outline_dialog_show (GTK_WINDOW (window), window->bench,
                            hw_scene_motif_get_record (g_ptr_array_index (selection, 0))->id);
}

static void
threads_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;

  if (!hw_bench_is_editing (window->bench))
    hw_palette_dialog_show (GTK_WINDOW (window), window->bench);
}

static void
supplies_cb (GSimpleAction *action, GVariant *parameter, gpointer user_data)
{
  HwWindow *window = user_data;

  if (!hw_bench_is_editing (window->bench))
    hw_supplies_dialog_show (GTK_WINDOW (window), window->bench);
}

void
hw_window_update_import (HwWindow *window)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (window->bench);
  GAction *outline = g_action_map_lookup_action (G_ACTION_MAP (window), "edit-outline");
  gboolean may = selection->len == 1
                 && hw_bench_may_edit_outline (
                     window->bench, hw_scene_motif_get_record (g_ptr_array_index (selection, 0))->id);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (outline), may);
}

void
hw_window_add_import_actions (HwWindow *window)
{
  static const GActionEntry entries[] = {
    { "add-motif", add_motif_cb },       { "add-motif-file", add_file_cb, "s" },
    { "edit-outline", edit_outline_cb }, { "threads-at-hand", threads_cb },
    { "supplies", supplies_cb },
  };

  g_return_if_fail (HW_IS_WINDOW (window));

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  add_drop (window, GTK_WIDGET (window), G_CALLBACK (drop_beside_cb));
  add_drop (window, GTK_WIDGET (window->canvas), G_CALLBACK (drop_on_table_cb));
}
