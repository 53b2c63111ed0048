/* The lens: how far it bows straight lines, by a slider or from the points, and a line of the cloth that can be checked to be straight. */
#include <glib/gi18n.h>
#include <math.h>

#include "dialog.h"
#include "photo-desk.h"

#define FEWEST_FOR_BOW 6

static void
bow_cb (GtkRange *range, HwPhotoDesk *desk)
{
  if (desk->updating)
    return;
  desk->squaring->bow = gtk_range_get_value (range);
  gtk_widget_set_visible (desk->bow_told, FALSE);
  hw_photo_desk_solve (desk, FALSE);
}

static void
fit_bow_cb (GtkButton *button, HwPhotoDesk *desk)
{
  double before = desk->squaring->bow;
  g_autofree char *trouble = NULL;

  if (hw_squaring_solve (desk->squaring, TRUE))
    trouble = g_strdup_printf (_ ("Bow of the lens from the points: %+.3f."), desk->squaring->bow);
  else
    {
      trouble = g_strdup (desk->squaring->trouble);
      desk->squaring->bow = before;
    }
  hw_photo_desk_solve (desk, FALSE);
  gtk_label_set_label (GTK_LABEL (desk->bow_told), trouble);
  gtk_widget_set_visible (desk->bow_told, TRUE);
}

void
hw_photo_desk_update_lens (HwPhotoDesk *desk)
{
  desk->updating = TRUE;
  gtk_range_set_value (GTK_RANGE (desk->bow), desk->squaring->bow);
  desk->updating = FALSE;
  gtk_widget_set_sensitive (desk->fit_bow, desk->squaring->points->len >= FEWEST_FOR_BOW);
  hw_photo_desk_tell_line (desk);
}

void
hw_photo_desk_tell_line (HwPhotoDesk *desk)
{
  const GArray *line = hw_photo_view_get_line (desk->view);
  double bend;

  if (line->len < 3 || !desk->squaring->good)
    {
      gtk_label_set_label (GTK_LABEL (desk->straight_told),
                           _ ("Click three points or more along a line that is straight on the cloth."));
      return;
    }
  bend = hw_homography_straightness (&desk->squaring->h, (const HwPoint *)(void *)line->data, line->len);
  g_autofree char *length = hw_length_text (bend, hw_bench_get_unit (desk->bench));
  g_autofree char *text = isfinite (bend)
                              ? g_strdup_printf (_ ("Put square, the line is straight to within %s."), length)
                              : g_strdup (_ ("A part of the line lies beyond the horizon of the cloth."));
  gtk_label_set_label (GTK_LABEL (desk->straight_told), text);
}

static void
check_cb (GtkToggleButton *toggle, HwPhotoDesk *desk)
{
  gboolean on = gtk_toggle_button_get_active (toggle);

  hw_photo_view_set_checking (desk->view, on);
  gtk_widget_set_visible (desk->straight_told, on);
  hw_photo_desk_tell_line (desk);
}

GtkWidget *
hw_photo_desk_make_lens (HwPhotoDesk *desk)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *check = gtk_toggle_button_new_with_label (_ ("Check a straight line"));

  desk->bow = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, -HW_MOST_BOW, HW_MOST_BOW, 0.005);
  gtk_scale_set_draw_value (GTK_SCALE (desk->bow), FALSE);
  gtk_scale_set_has_origin (GTK_SCALE (desk->bow), FALSE);
  gtk_scale_add_mark (GTK_SCALE (desk->bow), 0, GTK_POS_BOTTOM, NULL);
  gtk_range_set_value (GTK_RANGE (desk->bow), desk->squaring->bow);
  gtk_accessible_update_property (GTK_ACCESSIBLE (desk->bow), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Bow of the lens"), -1);
  g_signal_connect (desk->bow, "value-changed", G_CALLBACK (bow_cb), desk);
  desk->fit_bow = gtk_button_new_with_label (_ ("Fit it from the points"));
  gtk_widget_set_tooltip_text (desk->fit_bow,
                               _ ("From six handles or more, some of them near the photo's rim"));
  g_signal_connect (desk->fit_bow, "clicked", G_CALLBACK (fit_bow_cb), desk);
  g_signal_connect (check, "toggled", G_CALLBACK (check_cb), desk);
  desk->bow_told = hw_dialog_words (NULL);
  desk->straight_told = hw_dialog_words (NULL);
  gtk_box_append (GTK_BOX (buttons), desk->fit_bow);
  gtk_box_append (GTK_BOX (buttons), check);
  gtk_box_append (GTK_BOX (box), hw_photo_desk_heading (_ ("Bow of the lens")));
  gtk_box_append (GTK_BOX (box), desk->bow);
  gtk_box_append (GTK_BOX (box), buttons);
  gtk_box_append (GTK_BOX (box), desk->bow_told);
  gtk_box_append (GTK_BOX (box), desk->straight_told);
  gtk_widget_set_visible (desk->bow_told, FALSE);
  gtk_widget_set_visible (desk->straight_told, FALSE);
  return box;
}
