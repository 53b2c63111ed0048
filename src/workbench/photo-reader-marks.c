/* The marks in the column beside the photo: looked for, each told with where it was found and how surely, ticked or dragged by the person. */
#include <glib/gi18n.h>
#include <math.h>

#include "dialog.h"
#include "machine-work.h"
#include "photo-reader-private.h"

#define AROUND_HOOPED 12.0 /* mm: cloth hooped by hand lies off by more than cloth on a table */
#define FEWEST_BESIDE_SHEET 2

static HwPhotoReading *
reading_at (HwPhotoReader *reader, guint index)
{
  return &g_array_index (reader->readings, HwPhotoReading, index);
}

static guint
index_of (GtkWidget *widget)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (widget), "mark"));
}

/* Where each was found; for those that were not, where it should be, once that was looked for. */
static void
show_spots (HwPhotoReader *reader)
{
  guint n = reader->looked && reader->measured ? reader->readings->len : 0;
  g_autofree HwPhotoSpot *spots = g_new0 (HwPhotoSpot, n + 1);

  for (guint i = 0; i < n; i++)
    spots[i] = (HwPhotoSpot){ reading_at (reader, i)->px, reading_at (reader, i)->letter,
                              !reading_at (reader, i)->ticked };
  hw_photo_view_set_spots (reader->desk.view, spots, n, TRUE);
}

/* "Mark A: 40.2 mm right, 61.0 mm away from you" */
static char *
name_of (HwPhotoReader *reader, const HwPhotoReading *reading)
{
  HwUnit unit = hw_bench_get_unit (reader->desk.bench);

  if (!reading->seen || reader->hoop == NULL || !isfinite (reading->at.x))
    return g_strdup_printf (_ ("Mark %s"), reading->letter);
  g_autofree char *across = hw_machine_across_text (reading->at.x, unit);
  g_autofree char *along = hw_machine_along_text (reading->at.y, unit);
  return g_strdup_printf (_ ("Mark %s: %s, %s"), reading->letter, across, along);
}

static void
show_row (HwPhotoReader *reader, guint index)
{
  const HwPhotoReading *reading = reading_at (reader, index);
  GtkWidget *tick = g_ptr_array_index (reader->ticks, index),
            *label = g_ptr_array_index (reader->texts, index);
  g_autofree char *name = name_of (reader, reading);
  g_autofree char *text = hw_photo_reading_text (reading, hw_bench_get_unit (reader->desk.bench));

  gtk_check_button_set_label (GTK_CHECK_BUTTON (tick), name);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (tick), reading->ticked);
  gtk_widget_set_sensitive (tick, reading->seen && isfinite (reading->at.x));
  gtk_label_set_label (GTK_LABEL (label), text);
}

/* At the foot, once there are marks: what the photo is worth, in place of what the handles say, unless one of them is wrong. */
static void
tell_worth (HwPhotoReader *reader)
{
  HwPhotoDesk *desk = &reader->desk;
  g_autofree char *worth = hw_photo_worth_text (&reader->worth, hw_bench_get_unit (desk->bench));

  if (reader->looked && reader->measured && desk->squaring->bad < 0)
    gtk_label_set_label (GTK_LABEL (desk->told), worth);
}

static void
show_all (HwPhotoReader *reader)
{
  HwPhotoDesk *desk = &reader->desk;
  guint ticked = hw_photo_readings_count (reader->readings);

  desk->updating = TRUE;
  for (guint i = 0; i < reader->readings->len; i++)
    show_row (reader, i);
  desk->updating = FALSE;
  gtk_widget_set_visible (reader->list, reader->looked);
  tell_worth (reader);
  gtk_widget_set_sensitive (desk->take,
                            reader->measured && ticked >= (reader->hoop != NULL ? 1 : FEWEST_BESIDE_SHEET));
  show_spots (reader);
}

void
hw_photo_reader_update_marks (HwPhotoReader *reader)
{
  HwPhotoDesk *desk = &reader->desk;

  reader->measured
      = hw_photo_readings_measure (reader->readings, desk->squaring, reader->hoop == NULL, &reader->worth);
  gtk_widget_set_sensitive (reader->look, desk->squaring->good && reader->measured && desk->picture != NULL);
  if (reader->hoop == NULL && desk->squaring->good && !reader->measured)
    {
      gtk_label_set_label (GTK_LABEL (reader->marks_told),
                           _ ("Without a sheet of paper the photo cannot tell what the cloth drew in: every "
                              "other point has drawn in with it."));
      gtk_widget_set_visible (reader->marks_told, TRUE);
    }
  else if (!reader->looked)
    gtk_widget_set_visible (reader->marks_told, FALSE);
  show_all (reader);
}

void
hw_photo_reader_put_mark (HwPhotoReader *reader, guint index)
{
  hw_photo_readings_put (reader->readings, index, hw_photo_view_get_spot (reader->desk.view, index));
  hw_photo_reader_update_marks (reader);
  hw_photo_view_choose_spot (reader->desk.view, index);
}

static void
tick_cb (GtkCheckButton *tick, HwPhotoReader *reader)
{
  if (reader->desk.updating)
    return;
  reading_at (reader, index_of (GTK_WIDGET (tick)))->ticked = gtk_check_button_get_active (tick);
  hw_photo_reader_update_marks (reader);
}

static void
focus_cb (GtkEventControllerFocus *focus, HwPhotoReader *reader)
{
  hw_photo_view_choose_spot (reader->desk.view,
                             index_of (gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus))));
}

static void
add_row (HwPhotoReader *reader, guint index)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *tick = gtk_check_button_new_with_label ("");
  GtkWidget *text = hw_dialog_words (NULL);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_object_set_data (G_OBJECT (tick), "mark", GUINT_TO_POINTER (index));
  g_object_set_data (G_OBJECT (row), "mark", GUINT_TO_POINTER (index));
  g_signal_connect (tick, "toggled", G_CALLBACK (tick_cb), reader);
  g_signal_connect (focus, "enter", G_CALLBACK (focus_cb), reader);
  gtk_widget_add_controller (row, focus);
  gtk_widget_set_margin_start (text, 26);
  gtk_widget_add_css_class (text, "quiet");
  g_ptr_array_add (reader->ticks, tick);
  g_ptr_array_add (reader->texts, text);
  gtk_box_append (GTK_BOX (row), tick);
  gtk_box_append (GTK_BOX (row), text);
  gtk_box_append (GTK_BOX (reader->list), row);
}

/* The one that stands apart, or NULL. */
static const HwPhotoReading *
apart (HwPhotoReader *reader)
{
  for (guint i = 0; i < reader->readings->len; i++)
    if (reading_at (reader, i)->apart)
      return reading_at (reader, i);
  return NULL;
}

static char *
what_was_found (HwPhotoReader *reader, gboolean any, gboolean agree)
{
  const HwPhotoReading *other = apart (reader);

  if (!any)
    return g_strdup (_ ("None was found near where it should be. Look at the handles again, or drag each "
                        "square in the photo onto its cross."));
  if (other != NULL)
    return g_strdup_printf (
        _ ("Mark %s does not agree with the others and is not ticked. Look at each in the "
           "photo; drag its square where it is wrong."),
        other->letter);
  if (!agree)
    return g_strdup (
        _ ("The marks found do not agree with each other, so that none is ticked. Look at each in "
           "the photo; drag its square where it is wrong."));
  return g_strdup (_ ("Look at each in the photo; drag its square where it is wrong, and leave ticked those "
                      "that are right."));
}

static void
looked_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwPhotoReader *reader = g_object_get_data (source, "desk");
  g_autoptr (GArray) seen = reader != NULL ? hw_photo_look_for_marks_finish (result, NULL) : NULL;
  gboolean agree = TRUE;

  if (seen == NULL)
    return;
  reader->looked = TRUE;
  hw_photo_readings_take (reader->readings, seen);
  reader->measured = hw_photo_readings_measure (reader->readings, reader->desk.squaring, reader->hoop == NULL,
                                                &reader->worth);
  /* Cloth that drew in has changed its size: there marks need not agree. */
  if (reader->hoop != NULL && reader->measured)
    agree = hw_photo_readings_agree (reader->readings);
  g_autofree char *text = what_was_found (reader, seen->len > 0, agree);
  gtk_label_set_label (GTK_LABEL (reader->marks_told), text);
  gtk_widget_set_visible (reader->marks_told, TRUE);
  hw_photo_reader_update_marks (reader);
}

static void
look_cb (GtkButton *button, HwPhotoReader *reader)
{
  HwPhotoDesk *desk = &reader->desk;

  gtk_widget_set_sensitive (reader->look, FALSE);
  hw_photo_look_for_marks_async (desk->picture, &desk->squaring->h, reader->marks,
                                 reader->hoop != NULL ? AROUND_HOOPED : HW_MARKS_AROUND,
                                 G_OBJECT (desk->window), desk->cancellable, looked_cb);
}

GtkWidget *
hw_photo_reader_make_marks (HwPhotoReader *reader)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  reader->look = gtk_button_new_with_label (_ ("Look for the drawn marks"));
  gtk_widget_set_tooltip_text (reader->look, _ ("Near where they should be, once the handles lie well"));
  gtk_widget_set_halign (reader->look, GTK_ALIGN_START);
  g_signal_connect (reader->look, "clicked", G_CALLBACK (look_cb), reader);
  reader->marks_told = hw_dialog_words (NULL);
  reader->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  reader->ticks = g_ptr_array_new ();
  reader->texts = g_ptr_array_new ();
  for (guint i = 0; i < reader->readings->len; i++)
    add_row (reader, i);
  gtk_box_append (GTK_BOX (box), hw_photo_desk_heading (_ ("Marks drawn on the cloth")));
  gtk_box_append (GTK_BOX (box), reader->look);
  gtk_box_append (GTK_BOX (box), reader->marks_told);
  gtk_box_append (GTK_BOX (box), reader->list);
  gtk_widget_set_visible (reader->marks_told, FALSE);
  return box;
}
