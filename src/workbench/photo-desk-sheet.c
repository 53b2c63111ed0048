/* A sheet of paper laid on the cloth: found in the photo by itself, with its corners as handles that can be put right by hand. It tells how the photo is
 * tilted; where it lies is typed, or told by two other handles. */
#include <glib/gi18n.h>

#include "../drawing/at-work.h"
#include "dialog.h"
#include "measure-field.h"
#include "../registration/mark-finder.h"
#include "photo-desk.h"

/* Sheets of paper: A4 by ISO 216, Letter by ANSI/ASME Y14.1. */
static const struct
{
  const char *name;
  double long_side, short_side; /* mm */
} papers[] = { { N_ ("A4, 210 × 297 mm"), 297, 210 }, { N_ ("Letter, 8½ × 11 in"), 279.4, 215.9 } };

typedef struct
{
  HwPicture *picture;
  gboolean found;
  HwPoint corners[4];
} Search;

static void
search_free (gpointer data)
{
  hw_picture_unref (((Search *)data)->picture);
  g_free (data);
}

static void
search_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Search *search = data;

  search->found = hw_find_sheet (search->picture, search->corners);
  g_task_return_boolean (task, TRUE);
}

/* A sheet's handles in the middle of the photo, for the person to put them. */
static void
middle_corners (HwPhotoDesk *desk, HwPoint corners[4])
{
  double w = desk->squaring->width, h = desk->squaring->height, reach = MIN (w, h) / 6;

  corners[0] = (HwPoint){ w / 2 - reach, h / 2 - 0.7 * reach };
  corners[1] = (HwPoint){ w / 2 + reach, h / 2 - 0.7 * reach };
  corners[2] = (HwPoint){ w / 2 + reach, h / 2 + 0.7 * reach };
  corners[3] = (HwPoint){ w / 2 - reach, h / 2 + 0.7 * reach };
}

static void
found_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Search *search = g_task_get_task_data (G_TASK (result));
  HwPhotoDesk *desk = g_object_get_data (source, "desk");
  guint paper;

  if (desk == NULL || g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  gtk_widget_set_sensitive (desk->find_sheet, TRUE);
  paper = MIN (gtk_drop_down_get_selected (GTK_DROP_DOWN (desk->paper)), G_N_ELEMENTS (papers) - 1);
  if (!search->found)
    middle_corners (desk, search->corners);
  gtk_label_set_label (
      GTK_LABEL (desk->sheet_told),
      search->found
          ? _ ("Look whether the four handles lie on the corners of the sheet and not of the cloth, and put "
               "them right.")
          : _ ("No sheet was found to be sure of. Its four handles lie in the middle of "
               "the photo: put them on its corners."));
  gtk_widget_set_visible (desk->sheet_told, TRUE);
  if (desk->untouched)
    g_ptr_array_set_size (desk->squaring->points, 0);
  desk->untouched = FALSE;
  hw_squaring_put_sheet (desk->squaring, search->corners, papers[paper].long_side, papers[paper].short_side,
                         desk->places);
  hw_photo_desk_renew (desk);
}

void
hw_photo_desk_find_sheet (HwPhotoDesk *desk)
{
  Search *search = g_new0 (Search, 1);
  g_autoptr (GTask) task = g_task_new (desk->window, desk->cancellable, found_cb, NULL);

  search->picture = hw_picture_ref (desk->picture);
  gtk_widget_set_sensitive (desk->find_sheet, FALSE);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, search, search_free);
  hw_at_work_run (task, search_thread);
}

static void
find_cb (GtkButton *button, HwPhotoDesk *desk)
{
  hw_photo_desk_find_sheet (desk);
}

/* Another paper: the corners that are there stay where they are. */
static void
paper_cb (GtkDropDown *drop, GParamSpec *pspec, HwPhotoDesk *desk)
{
  guint paper = MIN (gtk_drop_down_get_selected (drop), G_N_ELEMENTS (papers) - 1);
  HwPoint corners[4];
  guint n = 0;

  for (guint i = 0; i < desk->squaring->points->len; i++)
    {
      const HwHandlePoint *point = g_ptr_array_index (desk->squaring->points, i);

      if (point->kind == HW_KNOWN_SHEET && n < 4)
        corners[n++] = point->px;
    }
  if (n < 4)
    return;
  hw_squaring_put_sheet (desk->squaring, corners, papers[paper].long_side, papers[paper].short_side,
                         desk->places);
  hw_photo_desk_renew (desk);
}

static void
place_cb (HwMeasureField *field, double value, HwPhotoDesk *desk)
{
  desk->squaring->sheet_at.x = hw_measure_field_get_value (HW_MEASURE_FIELD (desk->sheet_x));
  desk->squaring->sheet_at.y = hw_measure_field_get_value (HW_MEASURE_FIELD (desk->sheet_y));
  desk->squaring->sheet_turn = hw_measure_field_get_value (HW_MEASURE_FIELD (desk->sheet_turn));
  hw_photo_desk_solve (desk, FALSE);
}

void
hw_photo_desk_update_sheet (HwPhotoDesk *desk)
{
  gboolean any = FALSE;

  for (guint i = 0; i < desk->squaring->points->len; i++)
    any |= ((HwHandlePoint *)g_ptr_array_index (desk->squaring->points, i))->kind == HW_KNOWN_SHEET;
  gtk_widget_set_visible (desk->sheet_place, any);
  if (!any)
    gtk_widget_set_visible (desk->sheet_told, FALSE);
  gtk_widget_set_sensitive (desk->sheet_place, !desk->squaring->sheet_by_others);
  hw_measure_field_set_value (HW_MEASURE_FIELD (desk->sheet_x), desk->squaring->sheet_at.x);
  hw_measure_field_set_value (HW_MEASURE_FIELD (desk->sheet_y), desk->squaring->sheet_at.y);
  hw_measure_field_set_value (HW_MEASURE_FIELD (desk->sheet_turn), desk->squaring->sheet_turn);
}

static GtkWidget *
field (HwPhotoDesk *desk, HwMeasure measure, const char *label, double most)
{
  GtkWidget *made = hw_measure_field_new (desk->bench, measure, label, -most, most);

  g_signal_connect (made, "edited", G_CALLBACK (place_cb), desk);
  return made;
}

GtkWidget *
hw_photo_desk_make_sheet (HwPhotoDesk *desk)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *fields = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  const char *names[G_N_ELEMENTS (papers) + 1] = { NULL };

  for (guint i = 0; i < G_N_ELEMENTS (papers); i++)
    names[i] = _ (papers[i].name);
  desk->paper = gtk_drop_down_new_from_strings (names);
  gtk_widget_set_hexpand (desk->paper, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (desk->paper), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Size of the sheet"), -1);
  g_signal_connect (desk->paper, "notify::selected", G_CALLBACK (paper_cb), desk);
  desk->find_sheet = gtk_button_new_with_label (_ ("Find it"));
  g_signal_connect (desk->find_sheet, "clicked", G_CALLBACK (find_cb), desk);
  gtk_box_append (GTK_BOX (line), desk->paper);
  gtk_box_append (GTK_BOX (line), desk->find_sheet);

  desk->sheet_told = hw_dialog_words (NULL);
  desk->sheet_x
      = field (desk, HW_MEASURE_LENGTH, _ ("Sheet's corner, across from the cloth's left"), HW_LARGEST_MM);
  desk->sheet_y
      = field (desk, HW_MEASURE_LENGTH, _ ("Sheet's corner, down from the cloth's top"), HW_LARGEST_MM);
  desk->sheet_turn = field (desk, HW_MEASURE_ANGLE, _ ("Turn of the sheet"), 360);
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Across"), desk->sheet_x));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Down"), desk->sheet_y));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Turn"), desk->sheet_turn));
  desk->sheet_place = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (
      GTK_BOX (desk->sheet_place),
      hw_dialog_words (_ ("Where its upper left corner lies on the cloth. Two handles on other places "
                          "tell it without a ruler.")));
  gtk_box_append (GTK_BOX (desk->sheet_place), fields);

  gtk_box_append (GTK_BOX (box), hw_photo_desk_heading (_ ("A sheet of paper on the cloth")));
  gtk_box_append (GTK_BOX (box), line);
  gtk_box_append (GTK_BOX (box), desk->sheet_told);
  gtk_box_append (GTK_BOX (box), desk->sheet_place);
  gtk_widget_set_visible (desk->sheet_told, FALSE);
  return box;
}
