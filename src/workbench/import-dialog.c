/* The question about one file. A picture that does not say how large it is: its pixels to the millimetre or its width are typed, or a line is drawn over a
 * length that is known. A PDF of several pages: which. The file is read again on a worker by what is answered, while the page is shown. */
#include "import-dialog.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/at-work.h"
#include "../formats/picture-load.h"
#include "artwork-view.h"
#include "dialog.h"
#include "help-place.h"
#include "measure-field.h"

#define WIDTH 880 /* px */
#define HEIGHT 560
#define FIELDS 260
#define GUESS (96 / 25.4)       /* pixels to the mm of a picture that says nothing: the CSS pixel */
#define MOST_PIXELS (4.0 * 1e6) /* of the picture shown */
#define LEAST_LINE 4.0          /* px of the picture */
#define REACH 14.0              /* px */

typedef struct
{
  HwBench *bench;
  GtkWindow *window;
  HwMotifFile *file;
  HwImportAnswered answered;
  gpointer user_data;
  GCancellable *gone;
  gboolean reading, read_again, wanted; /* wanted: the person is done, add it once it is read */
  gboolean updating;

  GtkWidget *view, *told, *add, *page, *fineness, *width, *length, *sum;
  double pixels_across, pixels_down; /* of the whole picture; 0: not known yet */
  double pixels_per_mm;
  HwPoint line[2]; /* mm at GUESS */
  gboolean has_line;
  int end; /* of the line, in the hand */
} Ask;

/* What the worker does. */
typedef struct
{
  HwMotifFile *file; /* read by its wishes, or NULL */
  char *path;        /* of the picture to show whole, or NULL */
  HwPhotoLevels *levels;
  guint width, height;
} Reading;

static void
reading_free (gpointer data)
{
  Reading *reading = data;

  g_clear_pointer (&reading->file, hw_motif_file_free);
  g_clear_pointer (&reading->levels, hw_photo_levels_unref);
  g_free (reading->path);
  g_free (reading);
}

static void
read_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Reading *reading = data;
  g_autoptr (HwPicture) picture = NULL;

  if (reading->file != NULL)
    hw_motif_file_read (reading->file);
  if (reading->path != NULL)
    picture = hw_picture_load (reading->path, NULL);
  else if (reading->file->motif != NULL && reading->file->motif->picture != NULL)
    picture = hw_picture_ref (reading->file->motif->picture);
  if (picture != NULL)
    {
      reading->width = picture->width;
      reading->height = picture->height;
      reading->levels = hw_photo_levels_new (picture, MOST_PIXELS);
    }
  g_task_return_boolean (task, TRUE);
}

static void
read_file (Ask *ask);

static gboolean
asks_page (Ask *ask)
{
  return ask->page != NULL;
}

/* Gives the answer, once, and lets the dialog go. */
static void
answer (Ask *ask, HwMotifFile *file)
{
  HwImportAnswered answered = ask->answered;
  gpointer user_data = ask->user_data;

  ask->answered = NULL;
  g_cancellable_cancel (ask->gone);
  gtk_window_destroy (ask->window);
  if (answered != NULL)
    answered (file, user_data);
}

static void
tell (Ask *ask, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (ask->told), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (ask->told, sentence != NULL);
}

static void
show_levels (Ask *ask, Reading *reading)
{
  double per_mm
      = asks_page (ask) && reading->file->motif != NULL ? reading->file->motif->picture_pixels_per_mm : GUESS;
  HwBox box = { 0, 0, reading->width / per_mm, reading->height / per_mm };

  hw_artwork_view_show (HW_ARTWORK_VIEW (ask->view), reading->levels,
                        reading->levels != NULL ? box : HW_BOX_EMPTY, box);
  if (!asks_page (ask))
    {
      ask->pixels_across = reading->width;
      ask->pixels_down = reading->height;
    }
}

static void
show_page (Ask *ask)
{
  HwUnit unit = hw_bench_get_unit (ask->bench);
  const HwMotif *motif = ask->file->motif;

  if (motif == NULL)
    {
      tell (ask, ask->file->trouble);
      gtk_label_set_label (GTK_LABEL (ask->sum), "");
      return;
    }
  g_autofree char *w = hw_length_text (motif->outline->box.x1 - motif->outline->box.x0, unit);
  g_autofree char *h = hw_length_text (motif->outline->box.y1 - motif->outline->box.y0, unit);
  g_autofree char *text = g_strdup_printf (_ ("What is drawn on it is %s wide and %s high."), w, h);
  tell (ask, NULL);
  gtk_label_set_label (GTK_LABEL (ask->sum), text);
}

static void
update_size (Ask *ask);

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Reading *reading = g_task_get_task_data (G_TASK (result));
  Ask *ask = user_data;

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  ask->reading = FALSE;
  if (reading->levels != NULL || asks_page (ask))
    show_levels (ask, reading);
  if (reading->file != NULL)
    {
      hw_motif_file_free (ask->file);
      ask->file = g_steal_pointer (&reading->file);
    }
  if (ask->read_again)
    {
      ask->read_again = FALSE;
      read_file (ask);
      return;
    }
  if (asks_page (ask))
    show_page (ask);
  else
    update_size (ask);
  if (ask->wanted && ask->file->motif != NULL)
    {
      answer (ask, g_steal_pointer (&ask->file));
      return;
    }
  if (ask->wanted)
    tell (ask, ask->file->trouble);
  ask->wanted = FALSE;
  gtk_widget_set_sensitive (ask->add, TRUE);
}

static void
begin_reading (Ask *ask, gboolean file, gboolean picture)
{
  Reading *reading = g_new0 (Reading, 1);
  g_autoptr (GTask) task = g_task_new (NULL, ask->gone, read_cb, ask);

  if (file)
    {
      reading->file = hw_motif_file_new (ask->file->path);
      reading->file->wishes = ask->file->wishes;
    }
  if (picture)
    reading->path = g_strdup (ask->file->path);
  ask->reading = TRUE;
  g_task_set_task_data (task, reading, reading_free);
  hw_at_work_run (task, read_thread);
}

/* Reads it by what is answered now; once more when that has changed meanwhile. */
static void
read_file (Ask *ask)
{
  if (asks_page (ask))
    ask->file->wishes.page = (guint)gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (ask->page));
  else if (ask->wanted)
    ask->file->wishes.pixels_per_mm = ask->pixels_per_mm;
  if (ask->reading)
    ask->read_again = TRUE;
  else
    begin_reading (ask, TRUE, FALSE);
}

static void
page_cb (GtkSpinButton *spin, Ask *ask)
{
  read_file (ask);
}

static double
line_length (Ask *ask)
{
  return ask->has_line ? hw_point_distance (ask->line[0], ask->line[1]) : 0;
}

static void
update_size (Ask *ask)
{
  HwUnit unit = hw_bench_get_unit (ask->bench);
  double across = ask->pixels_across / ask->pixels_per_mm, down = ask->pixels_down / ask->pixels_per_mm;
  g_autofree char *w = hw_length_text (across, unit);
  g_autofree char *h = hw_length_text (down, unit);
  g_autofree char *text = g_strdup_printf (_ ("So the whole picture is %s wide and %s high."), w, h);

  ask->updating = TRUE;
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (ask->fineness), ask->pixels_per_mm);
  hw_measure_field_set_value (HW_MEASURE_FIELD (ask->width), across);
  hw_measure_field_set_value (HW_MEASURE_FIELD (ask->length), line_length (ask) * GUESS / ask->pixels_per_mm);
  gtk_widget_set_sensitive (ask->length, line_length (ask) * GUESS >= LEAST_LINE);
  gtk_label_set_label (GTK_LABEL (ask->sum), ask->pixels_across > 0 ? text : "");
  ask->updating = FALSE;
  gtk_widget_queue_draw (ask->view);
}

static void
take_fineness (Ask *ask, double pixels_per_mm)
{
  if (ask->updating || !(pixels_per_mm > 0))
    return;
  ask->pixels_per_mm = CLAMP (pixels_per_mm, 0.01, 1000);
  tell (ask, NULL);
  update_size (ask);
}

static void
fineness_cb (GtkSpinButton *spin, Ask *ask)
{
  take_fineness (ask, gtk_spin_button_get_value (spin));
}

static void
width_cb (HwMeasureField *field, double value, Ask *ask)
{
  if (ask->pixels_across > 0)
    take_fineness (ask, ask->pixels_across / value);
}

static void
length_cb (HwMeasureField *field, double value, Ask *ask)
{
  take_fineness (ask, line_length (ask) * GUESS / value);
}

static gboolean
press (HwArtworkView *view, HwPoint at, gpointer data)
{
  Ask *ask = data;
  double reach = REACH / hw_artwork_view_get_view (view)->zoom;

  if (asks_page (ask))
    return FALSE;
  ask->end = 1;
  if (ask->has_line && hw_point_distance (ask->line[0], at) < reach)
    ask->end = 0;
  else if (!ask->has_line || hw_point_distance (ask->line[1], at) >= reach)
    {
      ask->line[0] = ask->line[1] = at;
      ask->has_line = TRUE;
    }
  update_size (ask);
  return TRUE;
}

static void
pull (HwArtworkView *view, HwPoint at, gpointer data)
{
  Ask *ask = data;

  ask->line[ask->end] = at;
  update_size (ask);
}

static void
let_go (HwArtworkView *view, gpointer data)
{
  Ask *ask = data;

  if (line_length (ask) * GUESS >= LEAST_LINE)
    gtk_widget_child_focus (ask->length, GTK_DIR_TAB_FORWARD);
}

static const char *
hover (HwArtworkView *view, HwPoint at, gpointer data)
{
  return asks_page (data) ? NULL : "crosshair";
}

static void
draw (HwArtworkView *view, cairo_t *cr, gpointer data)
{
  Ask *ask = data;
  HwPoint ends[2];

  if (!ask->has_line)
    return;
  for (int i = 0; i < 2; i++)
    ends[i] = hw_view_to_pixels (hw_artwork_view_get_view (view), ask->line[i]);
  for (int pass = 0; pass < 2; pass++)
    {
      cairo_move_to (cr, ends[0].x, ends[0].y);
      cairo_line_to (cr, ends[1].x, ends[1].y);
      for (int i = 0; i < 2; i++)
        {
          cairo_new_sub_path (cr);
          cairo_arc (cr, ends[i].x, ends[i].y, 7, 0, 2 * G_PI);
        }
      if (pass == 0)
        cairo_set_source_rgba (cr, 1, 1, 1, 0.85);
      else
        cairo_set_source_rgb (cr, 0.71, 0.28, 0.23);
      cairo_set_line_width (cr, pass == 0 ? 4.5 : 2);
      cairo_stroke (cr);
    }
}

static const HwArtworkHands hands
    = { .draw = draw, .press = press, .pull = pull, .let_go = let_go, .hover = hover };

static void
add_cb (GtkWidget *widget, Ask *ask)
{
  if (asks_page (ask) && !ask->reading && ask->file->motif != NULL)
    {
      answer (ask, g_steal_pointer (&ask->file));
      return;
    }
  ask->wanted = TRUE;
  gtk_widget_set_sensitive (ask->add, FALSE);
  read_file (ask);
}

static void
leave_out_cb (GtkWidget *widget, Ask *ask)
{
  answer (ask, NULL);
}

static gboolean
close_cb (GtkWindow *window, Ask *ask)
{
  answer (ask, NULL);
  return TRUE;
}

/* The window went, by an answer or with its parent. */
static void
ask_free (gpointer data)
{
  Ask *ask = data;

  if (ask->answered != NULL)
    ask->answered (NULL, ask->user_data);
  g_cancellable_cancel (ask->gone);
  g_object_unref (ask->gone);
  g_clear_pointer (&ask->file, hw_motif_file_free);
  g_object_unref (ask->bench);
  g_free (ask);
}

static GtkWidget *
spin (const char *label, double least, double most, double step, guint digits, double value)
{
  GtkWidget *made = gtk_spin_button_new_with_range (least, most, step);

  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (made), digits);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (made), value);
  gtk_accessible_update_property (GTK_ACCESSIBLE (made), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  return made;
}

static void
add_size_fields (Ask *ask, GtkWidget *fields)
{
  ask->pixels_per_mm = GUESS;
  ask->length = hw_measure_field_new (ask->bench, HW_MEASURE_LENGTH, _ ("Length of the line"), 0.1, 10000);
  ask->fineness = spin (_ ("Pixels to a millimetre"), 0.01, 1000, 0.1, 3, GUESS);
  ask->width = hw_measure_field_new (ask->bench, HW_MEASURE_LENGTH, _ ("Width of the whole picture"), 0.1,
                                     HW_LARGEST_MM);
  g_signal_connect (ask->length, "edited", G_CALLBACK (length_cb), ask);
  g_signal_connect (ask->width, "edited", G_CALLBACK (width_cb), ask);
  g_signal_connect (ask->fineness, "value-changed", G_CALLBACK (fineness_cb), ask);
  gtk_box_append (GTK_BOX (fields), hw_dialog_words (_ ("Draw a line over a length you know, such as the "
                                                        "bar of a template, and type how long it is.")));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Length of the line"), ask->length));
  gtk_box_append (GTK_BOX (fields), hw_dialog_words (_ ("Or type one of these.")));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Width of the whole picture"), ask->width));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Pixels to a millimetre"), ask->fineness));
}

static void
add_page_field (Ask *ask, GtkWidget *fields)
{
  g_autofree char *caption = g_strdup_printf (_ ("Page, of %u"), ask->file->n_pages);

  ask->page = spin (_ ("Page"), 1, ask->file->n_pages, 1, 0, 1);
  g_signal_connect (ask->page, "value-changed", G_CALLBACK (page_cb), ask);
  gtk_box_append (GTK_BOX (fields), hw_captioned (caption, ask->page));
}

static GtkWidget *
make_foot (Ask *ask)
{
  GtkWidget *foot = hw_dialog_foot ();
  GtkWidget *leave = gtk_button_new_with_label (_ ("Leave it out"));

  ask->add = gtk_button_new_with_label (_ ("Add the motif"));
  gtk_widget_add_css_class (ask->add, "suggested-action");
  g_signal_connect (leave, "clicked", G_CALLBACK (leave_out_cb), ask);
  g_signal_connect (ask->add, "clicked", G_CALLBACK (add_cb), ask);
  gtk_box_append (GTK_BOX (foot), leave);
  gtk_box_append (GTK_BOX (foot), ask->add);
  return foot;
}

static void
fill (Ask *ask, GtkWidget *content, gboolean page)
{
  GtkWidget *sides = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *fields = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  g_autofree char *name = g_filename_display_basename (ask->file->path);
  g_autofree char *question
      = page ? g_strdup_printf (_ ("%s has several pages. Which one is the motif?"), name)
             : g_strdup_printf (_ ("%s does not say how large it is."), name);

  ask->view = hw_artwork_view_new (page ? _ ("The page") : _ ("The picture"), &hands, ask);
  ask->told = hw_dialog_words (NULL);
  ask->sum = hw_dialog_words (NULL);
  gtk_widget_add_css_class (ask->told, "told");
  gtk_widget_set_visible (ask->told, FALSE);
  gtk_widget_set_size_request (fields, FIELDS, -1);
  gtk_widget_set_hexpand (fields, FALSE);
  if (page)
    add_page_field (ask, fields);
  else
    add_size_fields (ask, fields);
  gtk_box_append (GTK_BOX (fields), ask->sum);
  gtk_box_append (GTK_BOX (fields), ask->told);
  gtk_box_append (GTK_BOX (sides), ask->view);
  gtk_box_append (GTK_BOX (sides), fields);
  gtk_box_append (GTK_BOX (content), hw_dialog_words (question));
  gtk_box_append (GTK_BOX (content), sides);
  gtk_box_append (GTK_BOX (content), make_foot (ask));
}

void
hw_import_dialog_show (
    GtkWindow *parent, HwBench *bench, HwMotifFile *file, HwImportAnswered answered, gpointer user_data)
{
  g_return_if_fail (HW_IS_BENCH (bench));
  g_return_if_fail (file != NULL && answered != NULL);

  Ask *ask = g_new0 (Ask, 1);
  GtkWidget *content = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gboolean page = file->asks_page;

  ask->bench = g_object_ref (bench);
  ask->file = file;
  ask->answered = answered;
  ask->user_data = user_data;
  ask->gone = g_cancellable_new ();
  fill (ask, content, page);
  ask->window
      = hw_dialog_new (parent, page ? _ ("Which page") : _ ("How large is it"), content, WIDTH, HEIGHT);
  hw_help_mark (ask->window, "artwork");
  g_object_set_data_full (G_OBJECT (ask->window), "ask", ask, ask_free);
  g_signal_connect (ask->window, "close-request", G_CALLBACK (close_cb), ask);
  gtk_window_set_default_widget (ask->window, ask->add);
  gtk_window_present (ask->window);
  if (page)
    read_file (ask);
  else
    {
      update_size (ask);
      begin_reading (ask, FALSE, TRUE);
    }
}
