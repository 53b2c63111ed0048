/* A photo on the table, with its handles and the column beside it: the window, the opening of the photo, and the fit that follows every handle. */
#include "photo-desk.h"

#include <glib/gi18n.h>

#include "../drawing/at-work.h"
#include "dialog.h"
#include "help-place.h"
#include "photo-file.h"

#define COLUMN 400        /* px */
#define SHOWN_PIXELS 24e6 /* of the photo, at its largest on the screen */
#define LEAST_WIDTH 900   /* px */
#define LEAST_HEIGHT 620

typedef struct
{
  HwPhoto *photo;
  char *folder;
  HwPicture *picture;
  HwPhotoLevels *levels;
} Opening;

static void
opening_free (gpointer data)
{
  Opening *opening = data;

  hw_photo_unref (opening->photo);
  g_free (opening->folder);
  g_clear_pointer (&opening->picture, hw_picture_unref);
  g_clear_pointer (&opening->levels, hw_photo_levels_unref);
  g_free (opening);
}

static void
opening_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Opening *opening = data;
  GError *error = NULL;

  opening->picture = hw_photo_load (opening->photo, opening->folder, &error);
  if (opening->picture != NULL)
    opening->levels = hw_photo_levels_new (opening->picture, SHOWN_PIXELS);
  if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_boolean (task, TRUE);
}

void
hw_photo_desk_clear (HwPhotoDesk *desk)
{
  g_return_if_fail (desk != NULL);

  g_cancellable_cancel (desk->cancellable);
  g_clear_object (&desk->cancellable);
  g_clear_object (&desk->bench);
  g_clear_pointer (&desk->picture, hw_picture_unref);
  g_clear_pointer (&desk->levels, hw_photo_levels_unref);
  g_clear_pointer (&desk->squaring, hw_squaring_free);
  g_clear_pointer (&desk->places, g_ptr_array_unref);
  g_clear_pointer (&desk->offs, g_ptr_array_unref);
}

GtkWidget *
hw_photo_desk_heading (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dialog-heading");
  return label;
}

static void
tell (HwPhotoDesk *desk)
{
  g_autofree char *text = hw_squaring_text (desk->squaring, hw_bench_get_unit (desk->bench));

  gtk_label_set_label (GTK_LABEL (desk->told), text);
  if (desk->squaring->bad >= 0 || !desk->squaring->good)
    gtk_widget_add_css_class (desk->told, "error");
  else
    gtk_widget_remove_css_class (desk->told, "error");
  gtk_widget_set_sensitive (desk->take, desk->squaring->good);
}

void
hw_photo_desk_solve (HwPhotoDesk *desk, gboolean fit_bow)
{
  hw_squaring_solve (desk->squaring, fit_bow);
  tell (desk);
  hw_photo_desk_update_rows (desk);
  if (desk->sheet_place != NULL)
    hw_photo_desk_update_sheet (desk);
  if (desk->bow != NULL)
    hw_photo_desk_update_lens (desk);
  desk->solved (desk);
  hw_photo_view_refresh (desk->view);
}

void
hw_photo_desk_renew (HwPhotoDesk *desk)
{
  hw_photo_desk_fill_rows (desk);
  hw_photo_desk_solve (desk, FALSE);
}

static gboolean
renew_idle_cb (gpointer user_data)
{
  HwPhotoDesk *desk = g_object_get_data (user_data, "desk");

  if (desk != NULL)
    hw_photo_desk_renew (desk);
  return G_SOURCE_REMOVE;
}

void
hw_photo_desk_renew_soon (HwPhotoDesk *desk)
{
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, renew_idle_cb, g_object_ref (desk->window), g_object_unref);
}

static void
moved_cb (HwPhotoView *view, guint point, HwPhotoDesk *desk)
{
  desk->untouched = FALSE;
  hw_photo_desk_solve (desk, FALSE);
}

static void
line_cb (HwPhotoView *view, HwPhotoDesk *desk)
{
  hw_photo_desk_tell_line (desk);
}

static void
cancel_cb (GtkButton *button, HwPhotoDesk *desk)
{
  gtk_window_close (desk->window);
}

static void
fit_cb (GtkButton *button, HwPhotoDesk *desk)
{
  hw_photo_view_fit (desk->view);
}

void
hw_photo_desk_append (HwPhotoDesk *desk, GtkWidget *part)
{
  if (gtk_widget_get_first_child (desk->column) != NULL)
    gtk_box_append (GTK_BOX (desk->column), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_box_append (GTK_BOX (desk->column), part);
}

void
hw_photo_desk_lay_out (HwPhotoDesk *desk, HwBox frame, const HwOutline *line)
{
  desk->view = HW_PHOTO_VIEW (hw_photo_view_new (desk->squaring));
  hw_photo_view_set_levels (desk->view, desk->levels);
  hw_photo_view_set_lines (desk->view, frame, line);
  g_signal_connect (desk->view, "moved", G_CALLBACK (moved_cb), desk);
  g_signal_connect (desk->view, "line-changed", G_CALLBACK (line_cb), desk);
  gtk_box_append (GTK_BOX (desk->view_box), GTK_WIDGET (desk->view));
}

static void
opened_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Opening *opening = g_task_get_task_data (G_TASK (result));
  HwPhotoDesk *desk = g_object_get_data (source, "desk");
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  if (desk == NULL || g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  if (error != NULL || opening->levels == NULL)
    {
      gtk_label_set_label (GTK_LABEL (desk->opening),
                           error != NULL ? error->message
                                         : _ ("There is not enough memory for this photo. Save it smaller."));
      return;
    }
  desk->picture = g_steal_pointer (&opening->picture);
  desk->levels = g_steal_pointer (&opening->levels);
  desk->squaring = hw_squaring_new (desk->picture->width, desk->picture->height);
  desk->opened (desk);
  gtk_stack_set_visible_child_name (desk->stage, "photo");
  hw_photo_desk_renew (desk);
  gtk_widget_grab_focus (GTK_WIDGET (desk->view));
}

/* What is still under way in the background is of no use any more. */
static void
destroy_cb (GtkWidget *window, HwPhotoDesk *desk)
{
  g_cancellable_cancel (desk->cancellable);
}

void
hw_photo_desk_open (HwPhotoDesk *desk, const HwPhoto *photo, const char *folder)
{
  g_autoptr (GTask) task = g_task_new (desk->window, desk->cancellable, opened_cb, NULL);
  Opening *opening = g_new0 (Opening, 1);

  opening->photo = hw_photo_ref ((HwPhoto *)photo);
  opening->folder = g_strdup (folder);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, opening, opening_free);
  hw_at_work_run (task, opening_thread);
  gtk_window_present (desk->window);
}

static GtkWidget *
make_foot (HwPhotoDesk *desk, const char *take)
{
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *cancel = gtk_button_new_with_label (_ ("Cancel"));
  GtkWidget *whole = gtk_button_new_with_label (_ ("Whole photo"));

  desk->take = gtk_button_new_with_label (take);
  gtk_widget_add_css_class (desk->take, "suggested-action");
  gtk_widget_set_sensitive (desk->take, FALSE);
  g_signal_connect (cancel, "clicked", G_CALLBACK (cancel_cb), desk);
  g_signal_connect (whole, "clicked", G_CALLBACK (fit_cb), desk);
  gtk_box_append (GTK_BOX (foot), whole);
  gtk_box_append (GTK_BOX (foot), cancel);
  gtk_box_append (GTK_BOX (foot), desk->take);
  return foot;
}

static GtkWidget *
make_side (HwPhotoDesk *desk, const char *take)
{
  GtkWidget *side = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *scroller = gtk_scrolled_window_new ();

  desk->column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gtk_widget_set_margin_end (desk->column, 14);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), desk->column);
  gtk_widget_set_vexpand (scroller, TRUE);
  desk->told = hw_dialog_words (NULL);
  gtk_widget_add_css_class (desk->told, "told");
  gtk_widget_set_size_request (side, COLUMN, -1);
  gtk_widget_set_hexpand (side, FALSE);
  gtk_box_append (GTK_BOX (side), scroller);
  gtk_box_append (GTK_BOX (side), desk->told);
  gtk_box_append (GTK_BOX (side), make_foot (desk, take));
  return side;
}

static GtkWidget *
make_content (HwPhotoDesk *desk, const char *words, const char *take)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *label = hw_dialog_words (words);

  desk->view_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 90);
  gtk_widget_add_css_class (label, "quiet");
  gtk_box_append (GTK_BOX (desk->view_box), label);
  desk->opening = hw_dialog_words (_ ("The photo is being opened."));
  gtk_widget_set_halign (desk->opening, GTK_ALIGN_CENTER);
  desk->stage = GTK_STACK (gtk_stack_new ());
  gtk_stack_add_named (desk->stage, desk->opening, "opening");
  gtk_stack_add_named (desk->stage, desk->view_box, "photo");
  gtk_widget_set_hexpand (GTK_WIDGET (desk->stage), TRUE);
  gtk_box_append (GTK_BOX (content), GTK_WIDGET (desk->stage));
  gtk_box_append (GTK_BOX (content), make_side (desk, take));
  return content;
}

/* A dialog may ask for a photo: there is as much room as the window below it has. */
static GtkWidget *
lowest_window (GtkWindow *window)
{
  while (gtk_window_get_transient_for (window) != NULL)
    window = gtk_window_get_transient_for (window);
  return GTK_WIDGET (window);
}

void
hw_photo_desk_init (HwPhotoDesk *desk,
                    GtkWindow *parent,
                    HwBench *bench,
                    GPtrArray *places,
                    const char *title,
                    const char *words,
                    const char *take)
{
  g_return_if_fail (desk != NULL && desk->opened != NULL && desk->solved != NULL);
  g_return_if_fail (HW_IS_BENCH (bench) && places != NULL);

  desk->bench = g_object_ref (bench);
  desk->places = places;
  desk->cancellable = g_cancellable_new ();
  desk->across_label = _ ("Handle %u, across from the cloth's left");
  desk->down_label = _ ("Handle %u, down from the cloth's top");
  desk->across = _ ("Across");
  desk->down = _ ("Down");
  desk->window = hw_dialog_new (parent, title, make_content (desk, words, take),
                                MAX (gtk_widget_get_width (lowest_window (parent)) - 60, LEAST_WIDTH),
                                MAX (gtk_widget_get_height (lowest_window (parent)) - 60, LEAST_HEIGHT));
  hw_help_mark (desk->window, "photo-square");
  g_object_set_data_full (G_OBJECT (desk->window), "desk", desk, desk->free_whole);
  g_signal_connect (desk->window, "destroy", G_CALLBACK (destroy_cb), desk);
}
