/* The window in which a photo of the cloth is put square: the photo fills it, beside it stand the handles with what each is off by. The scene changes only when it is
 * taken over, in one step. */
#include "photo-square-dialog.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "photo-file.h"
#include "photo-square-private.h"

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

static void
square_free (gpointer data)
{
  HwPhotoSquare *square = data;

  g_cancellable_cancel (square->cancellable);
  g_object_unref (square->cancellable);
  g_object_unref (square->bench);
  hw_photo_unref (square->photo);
  g_clear_pointer (&square->picture, hw_picture_unref);
  g_clear_pointer (&square->levels, hw_photo_levels_unref);
  g_clear_pointer (&square->squaring, hw_squaring_free);
  g_ptr_array_unref (square->places);
  g_clear_pointer (&square->offs, g_ptr_array_unref);
  g_clear_pointer (&square->ticks, g_ptr_array_unref);
  g_clear_pointer (&square->seen, g_array_unref);
  g_clear_pointer (&square->seen_in, g_ptr_array_unref);
  g_free (square);
}

GtkWidget *
hw_photo_square_heading (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "dialog-heading");
  return label;
}

static void
tell (HwPhotoSquare *square)
{
  g_autofree char *text = hw_squaring_text (square->squaring, hw_bench_get_unit (square->bench));

  gtk_label_set_label (GTK_LABEL (square->told), text);
  if (square->squaring->bad >= 0 || !square->squaring->good)
    gtk_widget_add_css_class (square->told, "error");
  else
    gtk_widget_remove_css_class (square->told, "error");
  gtk_widget_set_sensitive (square->take, square->squaring->good);
}

void
hw_photo_square_solve (HwPhotoSquare *square, gboolean fit_bow)
{
  hw_squaring_solve (square->squaring, fit_bow);
  tell (square);
  hw_photo_square_update_rows (square);
  hw_photo_square_update_sheet (square);
  hw_photo_square_update_lens (square);
  hw_photo_square_update_marks (square);
  hw_photo_view_refresh (square->view);
}

void
hw_photo_square_renew (HwPhotoSquare *square)
{
  hw_photo_square_fill_rows (square);
  hw_photo_square_solve (square, FALSE);
}

void
hw_photo_square_apply (HwPhotoSquare *square)
{
  g_autofree HwPhotoPoint *points = hw_squaring_points (square->squaring);

  hw_bench_square_photo (square->bench, square->index, points, square->squaring->points->len,
                         square->squaring->bow);
}

static void
moved_cb (HwPhotoView *view, guint point, HwPhotoSquare *square)
{
  square->untouched = FALSE;
  hw_photo_square_solve (square, FALSE);
}

static void
line_cb (HwPhotoView *view, HwPhotoSquare *square)
{
  hw_photo_square_tell_line (square);
}

static void
take_cb (GtkButton *button, HwPhotoSquare *square)
{
  if (!square->squaring->good)
    return;
  hw_photo_square_apply (square);
  gtk_window_close (square->window);
}

static void
cancel_cb (GtkButton *button, HwPhotoSquare *square)
{
  gtk_window_close (square->window);
}

static void
fit_cb (GtkButton *button, HwPhotoSquare *square)
{
  hw_photo_view_fit (square->view);
}

static void
append (GtkWidget *column, GtkWidget *part)
{
  if (gtk_widget_get_first_child (column) != NULL)
    gtk_box_append (GTK_BOX (column), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
  gtk_box_append (GTK_BOX (column), part);
}

/* Once the photo is there its size is known, and handles can lie on it. */
static void
fill (HwPhotoSquare *square)
{
  const HwEdgeLine *edge = hw_scene_get_edge_line (hw_bench_get_scene (square->bench));
  const HwFabric *fabric = hw_scene_get_fabric (hw_bench_get_scene (square->bench));

  square->squaring = hw_squaring_new (square->picture->width, square->picture->height);
  hw_squaring_take (square->squaring, square->photo, square->places);
  square->untouched = square->squaring->points->len == 0;
  if (square->untouched)
    hw_squaring_begin (square->squaring, square->places);

  square->view = HW_PHOTO_VIEW (hw_photo_view_new (square->squaring));
  hw_photo_view_set_levels (square->view, square->levels);
  hw_photo_view_set_lines (square->view, (HwBox){ 0, 0, fabric->width, fabric->height },
                           edge != NULL ? edge->outline : NULL);
  g_signal_connect (square->view, "moved", G_CALLBACK (moved_cb), square);
  g_signal_connect (square->view, "line-changed", G_CALLBACK (line_cb), square);
  gtk_box_append (GTK_BOX (square->view_box), GTK_WIDGET (square->view));
  append (square->column, hw_photo_square_make_rows (square));
  append (square->column, hw_photo_square_make_sheet (square));
  append (square->column, hw_photo_square_make_lens (square));
  append (square->column, hw_photo_square_make_marks (square));
  gtk_stack_set_visible_child_name (square->stage, "photo");
  hw_photo_square_renew (square);
  gtk_widget_grab_focus (GTK_WIDGET (square->view));
}

static void
opened_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Opening *opening = g_task_get_task_data (G_TASK (result));
  HwPhotoSquare *square = g_object_get_data (source, "square");
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  if (square == NULL || g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  if (error != NULL || opening->levels == NULL)
    {
      gtk_label_set_label (GTK_LABEL (square->opening),
                           error != NULL ? error->message
                                         : _ ("There is not enough memory for this photo. Save it smaller."));
      return;
    }
  square->picture = g_steal_pointer (&opening->picture);
  square->levels = g_steal_pointer (&opening->levels);
  fill (square);
}

/* What is still under way in the background is of no use any more. */
static void
destroy_cb (GtkWidget *window, HwPhotoSquare *square)
{
  g_cancellable_cancel (square->cancellable);
}

static void
open_photo (HwPhotoSquare *square)
{
  g_autoptr (GTask) task = g_task_new (square->window, square->cancellable, opened_cb, NULL);
  Opening *opening = g_new0 (Opening, 1);

  opening->photo = hw_photo_ref (square->photo);
  opening->folder = g_strdup (hw_bench_get_folder (square->bench));
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, opening, opening_free);
  g_task_run_in_thread (task, opening_thread);
}

static GtkWidget *
make_foot (HwPhotoSquare *square)
{
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *cancel = gtk_button_new_with_label (_ ("Cancel"));
  GtkWidget *whole = gtk_button_new_with_label (_ ("Whole photo"));

  square->take = gtk_button_new_with_label (_ ("Put square"));
  gtk_widget_add_css_class (square->take, "suggested-action");
  gtk_widget_set_sensitive (square->take, FALSE);
  g_signal_connect (cancel, "clicked", G_CALLBACK (cancel_cb), square);
  g_signal_connect (square->take, "clicked", G_CALLBACK (take_cb), square);
  g_signal_connect (whole, "clicked", G_CALLBACK (fit_cb), square);
  gtk_box_append (GTK_BOX (foot), whole);
  gtk_box_append (GTK_BOX (foot), cancel);
  gtk_box_append (GTK_BOX (foot), square->take);
  return foot;
}

static GtkWidget *
make_side (HwPhotoSquare *square)
{
  GtkWidget *side = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *scroller = gtk_scrolled_window_new ();

  square->column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gtk_widget_set_margin_end (square->column, 14);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), square->column);
  gtk_widget_set_vexpand (scroller, TRUE);
  square->told = hw_dialog_words (NULL);
  gtk_widget_add_css_class (square->told, "told");
  gtk_widget_set_size_request (side, COLUMN, -1);
  gtk_widget_set_hexpand (side, FALSE);
  gtk_box_append (GTK_BOX (side), scroller);
  gtk_box_append (GTK_BOX (side), square->told);
  gtk_box_append (GTK_BOX (side), make_foot (square));
  return side;
}

static GtkWidget *
make_content (HwPhotoSquare *square)
{
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *words = hw_dialog_words (_ ("Drag each handle to its place: the wheel brings the photo nearer, "
                                         "with Shift a handle goes slowly, and "
                                         "arrow keys move it by a pixel."));

  square->view_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_label_set_max_width_chars (GTK_LABEL (words), 90);
  gtk_widget_add_css_class (words, "quiet");
  gtk_box_append (GTK_BOX (square->view_box), words);
  square->opening = hw_dialog_words (_ ("The photo is being opened."));
  gtk_widget_set_halign (square->opening, GTK_ALIGN_CENTER);
  square->stage = GTK_STACK (gtk_stack_new ());
  gtk_stack_add_named (square->stage, square->opening, "opening");
  gtk_stack_add_named (square->stage, square->view_box, "photo");
  gtk_widget_set_hexpand (GTK_WIDGET (square->stage), TRUE);
  gtk_box_append (GTK_BOX (content), GTK_WIDGET (square->stage));
  gtk_box_append (GTK_BOX (content), make_side (square));
  return content;
}

void
hw_photo_square_dialog_show (GtkWindow *parent, HwBench *bench, guint index)
{
  g_return_if_fail (HW_IS_BENCH (bench));

  GPtrArray *photos = hw_scene_get_photos (hw_bench_get_scene (bench));
  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_autofree char *title = NULL;
  HwPhotoSquare *square;
  GtkWidget *content;

  if (index >= photos->len)
    return;
  square = g_new0 (HwPhotoSquare, 1);
  square->bench = g_object_ref (bench);
  square->index = index;
  square->photo = hw_photo_ref (g_ptr_array_index (photos, index));
  square->places = hw_known_places (snapshot, hw_bench_get_plan (bench));
  square->cancellable = g_cancellable_new ();
  content = make_content (square);
  title = g_strdup_printf (_ ("Put square: %s"), square->photo->name);
  square->window = hw_dialog_new (parent, title, content,
                                  MAX (gtk_widget_get_width (GTK_WIDGET (parent)) - 60, LEAST_WIDTH),
                                  MAX (gtk_widget_get_height (GTK_WIDGET (parent)) - 60, LEAST_HEIGHT));
  g_object_set_data_full (G_OBJECT (square->window), "square", square, square_free);
  g_signal_connect (square->window, "destroy", G_CALLBACK (destroy_cb), square);
  open_photo (square);
  gtk_window_present (square->window);
}
