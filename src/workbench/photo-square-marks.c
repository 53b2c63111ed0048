/* Drawn marks, once the photo is roughly square: looked for near where they should be, shown with how sure that is, and used only when the person says so: as
 * handles, or to measure what the cloth drew in when a sheet of paper lies beside them. */
#include <glib/gi18n.h>
#include <math.h>

#include "dialog.h"
#include "photo-square-private.h"

static const HwKnownPlace *
place_of (HwPhotoSquare *square, guint seen)
{
  return g_ptr_array_index (square->seen_in, g_array_index (square->seen, HwSeenMark, seen).place);
}

static gboolean
is_ticked (HwPhotoSquare *square, guint seen)
{
  return gtk_check_button_get_active (g_ptr_array_index (square->ticks, seen));
}

static guint
count_ticked (HwPhotoSquare *square)
{
  guint n = 0;

  for (guint i = 0; i < square->ticks->len; i++)
    n += is_ticked (square, i);
  return n;
}

/* On the photo those that are ticked. */
static void
show_seen (HwPhotoSquare *square)
{
  guint n = square->seen != NULL ? square->seen->len : 0, shown = 0;
  g_autofree HwPhotoSpot *spots = g_new0 (HwPhotoSpot, n + 1);

  for (guint i = 0; i < n; i++)
    if (is_ticked (square, i))
      spots[shown++] = (HwPhotoSpot){ g_array_index (square->seen, HwSeenMark, i).found.px,
                                      place_of (square, i)->name, FALSE };
  hw_photo_view_set_spots (square->desk.view, spots, shown, FALSE);
}

static void
forget_seen (HwPhotoSquare *square)
{
  GtkWidget *child;

  hw_photo_view_set_spots (square->desk.view, NULL, 0, FALSE);
  g_clear_pointer (&square->seen, g_array_unref);
  g_clear_pointer (&square->seen_in, g_ptr_array_unref);
  g_ptr_array_set_size (square->ticks, 0);
  while ((child = gtk_widget_get_first_child (square->marks)) != NULL)
    gtk_box_remove (GTK_BOX (square->marks), child);
}

/* What the marks that are ticked say of the cloth, by the sheet of paper: everything else in the photo has drawn in with it. */
static void
measure (HwPhotoSquare *square)
{
  g_autofree HwPoint *scene = g_new0 (HwPoint, square->ticks->len + 1);
  g_autofree HwPoint *found = g_new0 (HwPoint, square->ticks->len + 1);
  HwHomography h;
  guint n = 0;

  square->stretched = FALSE;
  if (!hw_squaring_sheet_view (square->desk.squaring, &h))
    return;
  for (guint i = 0; i < square->ticks->len; i++)
    if (is_ticked (square, i))
      {
        const HwSeenMark *mark = &g_array_index (square->seen, HwSeenMark, i);

        scene[n] = mark->mm;
        found[n] = hw_homography_apply (&h, mark->found.px);
        n += isfinite (found[n].x) && isfinite (found[n].y);
      }
  square->stretched = n >= 2 && square->desk.squaring->good
                      && hw_stretch_from_points (scene, found, n, &square->stretch, NULL);
}

void
hw_photo_square_update_marks (HwPhotoSquare *square)
{
  gboolean any = square->seen != NULL && square->seen->len > 0;
  guint ticked = any ? count_ticked (square) : 0;

  gtk_widget_set_sensitive (square->look, square->desk.squaring->good && square->desk.picture != NULL);
  gtk_widget_set_visible (square->marks, any);
  gtk_widget_set_visible (square->use_marks, any);
  gtk_widget_set_sensitive (square->use_marks, ticked > 0);
  measure (square);
  gtk_widget_set_visible (square->follow, square->stretched);
  if (any && square->stretched)
    {
      g_autofree char *stretch = hw_stretch_text (&square->stretch);
      g_autofree char *text
          = g_strdup_printf (_ ("By the sheet of paper and the marks that are ticked: %s The farther they "
                                "lie from the sheet, the less sure this is."),
                             stretch);
      gtk_label_set_label (GTK_LABEL (square->marks_told), text);
    }
  else if (any)
    gtk_label_set_label (GTK_LABEL (square->marks_told),
                         _ ("Look at each in the photo, and tick those that are right."));
  show_seen (square);
}

static void
tick_cb (GtkCheckButton *tick, HwPhotoSquare *square)
{
  hw_photo_square_update_marks (square);
}

static void
add_tick (HwPhotoSquare *square, guint index)
{
  const HwSeenMark *mark = &g_array_index (square->seen, HwSeenMark, index);
  g_autofree char *off = hw_length_text (mark->off, hw_bench_get_unit (square->desk.bench));
  /* Translators: "Mark 2 A: rather sure, 74 %, 1.2 mm from its place" */
  g_autofree char *text
      = g_strdup_printf (_ ("%s: %s, %.0f %%, %s from its place"), place_of (square, index)->name,
                         hw_seen_mark_words (mark), 100 * mark->found.confidence, off);
  GtkWidget *tick = gtk_check_button_new_with_label (text);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (tick), hw_seen_mark_is_sure (mark));
  g_signal_connect (tick, "toggled", G_CALLBACK (tick_cb), square);
  g_ptr_array_add (square->ticks, tick);
  gtk_box_append (GTK_BOX (square->marks), tick);
}

static void
looked_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwPhotoSquare *square = g_object_get_data (source, "desk");
  g_autoptr (GPtrArray) places = NULL;
  g_autoptr (GArray) seen = square != NULL ? hw_photo_look_for_marks_finish (result, &places) : NULL;

  if (seen == NULL)
    return;
  forget_seen (square);
  if (seen->len == 0)
    gtk_label_set_label (
        GTK_LABEL (square->marks_told),
        _ ("None was found near where it should be. Put the photo square more closely, or put "
           "handles on the marks by hand."));
  else
    {
      square->seen = g_steal_pointer (&seen);
      square->seen_in = g_steal_pointer (&places);
      for (guint i = 0; i < square->seen->len; i++)
        add_tick (square, i);
    }
  gtk_widget_set_visible (square->marks_told, TRUE);
  hw_photo_square_update_marks (square);
}

static void
look_cb (GtkButton *button, HwPhotoSquare *square)
{
  HwPhotoDesk *desk = &square->desk;
  g_autoptr (HwSnapshot) snapshot = hw_scene_snapshot (hw_bench_get_scene (desk->bench));
  g_autoptr (GPtrArray) places = hw_known_places (snapshot, hw_bench_get_plan (desk->bench));

  gtk_widget_set_sensitive (square->look, FALSE);
  hw_photo_look_for_marks_async (desk->picture, &desk->squaring->h, places, HW_MARKS_AROUND,
                                 G_OBJECT (desk->window), desk->cancellable, looked_cb);
}

/* Those ticked become handles. Handles that still lie where they were put to begin with go. */
static void
use_cb (GtkButton *button, HwPhotoSquare *square)
{
  for (guint i = 0; i < square->ticks->len; i++)
    if (is_ticked (square, i))
      hw_squaring_put (square->desk.squaring, g_array_index (square->seen, HwSeenMark, i).found.px,
                       place_of (square, i));
  forget_seen (square);
  gtk_widget_set_visible (square->marks_told, FALSE);
  square->desk.untouched = FALSE;
  hw_photo_desk_renew (&square->desk);
}

static void
follow_cb (GtkButton *button, HwPhotoSquare *square)
{
  HwStretch stretch = square->stretch;

  if (!square->stretched)
    return;
  hw_photo_square_apply (square);
  hw_bench_follow_cloth (square->desk.bench, &stretch);
  gtk_window_close (square->desk.window);
}

GtkWidget *
hw_photo_square_make_marks (HwPhotoSquare *square)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  square->look = gtk_button_new_with_label (_ ("Look for the drawn marks"));
  gtk_widget_set_tooltip_text (square->look,
                               _ ("Near where they should be, once the photo is roughly square"));
  gtk_widget_set_halign (square->look, GTK_ALIGN_START);
  g_signal_connect (square->look, "clicked", G_CALLBACK (look_cb), square);
  square->marks_told = hw_dialog_words (NULL);
  square->marks = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  square->use_marks = gtk_button_new_with_label (_ ("Use those ticked as handles"));
  gtk_widget_set_halign (square->use_marks, GTK_ALIGN_START);
  g_signal_connect (square->use_marks, "clicked", G_CALLBACK (use_cb), square);
  square->follow = gtk_button_new_with_label (_ ("Let the rest follow the cloth"));
  gtk_widget_set_tooltip_text (square->follow,
                               _ ("Motifs that are not stitched, marks and the edge line move with "
                                  "the cloth, so that the picture stays whole"));
  gtk_widget_set_halign (square->follow, GTK_ALIGN_START);
  g_signal_connect (square->follow, "clicked", G_CALLBACK (follow_cb), square);
  square->ticks = g_ptr_array_new ();
  gtk_box_append (GTK_BOX (box), hw_photo_desk_heading (_ ("Marks drawn on the cloth")));
  gtk_box_append (GTK_BOX (box), square->look);
  gtk_box_append (GTK_BOX (box), square->marks_told);
  gtk_box_append (GTK_BOX (box), square->marks);
  gtk_box_append (GTK_BOX (box), square->use_marks);
  gtk_box_append (GTK_BOX (box), square->follow);
  gtk_widget_set_visible (square->marks_told, FALSE);
  return box;
}
