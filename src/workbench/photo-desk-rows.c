/* The list of handles beside the photo: on which known place each is, and how far it is off. */
#include <glib/gi18n.h>
#include <math.h>

#include "measure-field.h"
#include "photo-desk.h"

#define FEWEST 4 /* points, that agree whatever they are */

static guint
row_number (GtkWidget *widget)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (widget), "handle"));
}

static void
set_row_number (GtkWidget *widget, guint index)
{
  g_object_set_data (G_OBJECT (widget), "handle", GUINT_TO_POINTER (index));
}

static HwHandlePoint *
point_of (HwPhotoDesk *desk, GtkWidget *widget)
{
  guint index = row_number (widget);

  return index < desk->squaring->points->len ? g_ptr_array_index (desk->squaring->points, index) : NULL;
}

/* Where on the cloth the handle lies now, as a place to begin typing from. */
static HwPoint
place_now (HwPhotoDesk *desk, const HwHandlePoint *point)
{
  HwPoint mm;

  if (point->kind != HW_KNOWN_SHEET)
    return point->mm;
  if (!desk->squaring->good)
    return (HwPoint){ 0, 0 };
  mm = hw_homography_apply (&desk->squaring->h, point->px);
  return isfinite (mm.x) && isfinite (mm.y) ? mm : (HwPoint){ 0, 0 };
}

static void
place_cb (GtkDropDown *drop, GParamSpec *pspec, HwPhotoDesk *desk)
{
  HwHandlePoint *point = point_of (desk, GTK_WIDGET (drop));
  guint chosen = gtk_drop_down_get_selected (drop);

  if (desk->updating || point == NULL)
    return;
  if (chosen < desk->places->len)
    hw_squaring_set_place (desk->squaring, row_number (GTK_WIDGET (drop)),
                           g_ptr_array_index (desk->places, chosen));
  else
    {
      const HwKnownPlace typed = { HW_KNOWN_TYPED, (char *)_ ("Typed position"), place_now (desk, point) };
      hw_squaring_set_place (desk->squaring, row_number (GTK_WIDGET (drop)), &typed);
    }
  desk->untouched = FALSE;
  hw_photo_desk_renew_soon (desk);
}

static void
typed_cb (HwMeasureField *field, double value, HwPhotoDesk *desk)
{
  HwHandlePoint *point = point_of (desk, GTK_WIDGET (field));

  if (point == NULL || point->kind != HW_KNOWN_TYPED)
    return;
  if (g_object_get_data (G_OBJECT (field), "down") != NULL)
    point->mm.y = value;
  else
    point->mm.x = value;
  hw_photo_desk_solve (desk, FALSE);
}

static void
remove_cb (GtkButton *button, HwPhotoDesk *desk)
{
  if (point_of (desk, GTK_WIDGET (button)) == NULL)
    return;
  hw_squaring_remove (desk->squaring, row_number (GTK_WIDGET (button)));
  desk->untouched = FALSE;
  hw_photo_desk_renew_soon (desk);
}

static void
focus_cb (GtkEventControllerFocus *focus, HwPhotoDesk *desk)
{
  GtkWidget *row = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (focus));

  hw_photo_view_choose (desk->view, (int)row_number (row));
}

/* The place of the list that the handle is on; the one after the last: typed. */
static guint
position_of (HwPhotoDesk *desk, const HwHandlePoint *point)
{
  for (guint i = 0; i < desk->places->len; i++)
    {
      const HwKnownPlace *place = g_ptr_array_index (desk->places, i);

      if (place->kind == point->kind && g_strcmp0 (place->name, point->name) == 0
          && hw_point_distance (place->mm, point->mm) < 0.05)
        return i;
    }
  return desk->places->len;
}

static GtkWidget *
coordinate (HwPhotoDesk *desk, guint index, double value, gboolean down)
{
  g_autofree char *number = g_strdup_printf ("%u", index + 1);
  g_autoptr (GString) label = g_string_new (down ? desk->down_label : desk->across_label);
  GtkWidget *field;

  g_string_replace (label, "%u", number, 1);
  field = hw_measure_field_new (desk->bench, HW_MEASURE_LENGTH, label->str, -HW_LARGEST_MM, HW_LARGEST_MM);

  hw_measure_field_set_value (HW_MEASURE_FIELD (field), value);
  set_row_number (field, index);
  if (down)
    g_object_set_data (G_OBJECT (field), "down", field);
  g_signal_connect (field, "edited", G_CALLBACK (typed_cb), desk);
  return hw_captioned (down ? desk->down : desk->across, field);
}

static GtkWidget *
make_row (HwPhotoDesk *desk, guint index, GtkStringList *names)
{
  const HwHandlePoint *point = g_ptr_array_index (desk->squaring->points, index);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autofree char *number = g_strdup_printf ("%u", index + 1);
  g_autofree char *label = g_strdup_printf (_ ("Place of handle %u"), index + 1);
  g_autofree char *remove = g_strdup_printf (_ ("Take handle %u away"), index + 1);
  GtkWidget *which = gtk_label_new (number), *off = gtk_label_new (NULL);
  GtkWidget *drop = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (names)), NULL);
  GtkWidget *away = gtk_button_new_from_icon_name ("hw-less-symbolic");
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_label_set_width_chars (GTK_LABEL (which), 2);
  gtk_label_set_width_chars (GTK_LABEL (off), 8);
  gtk_label_set_xalign (GTK_LABEL (off), 1);
  gtk_widget_set_hexpand (drop, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (drop), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), position_of (desk, point));
  set_row_number (drop, index);
  g_signal_connect (drop, "notify::selected", G_CALLBACK (place_cb), desk);
  set_row_number (away, index);
  gtk_widget_add_css_class (away, "flat");
  gtk_widget_set_tooltip_text (away, remove);
  gtk_accessible_update_property (GTK_ACCESSIBLE (away), GTK_ACCESSIBLE_PROPERTY_LABEL, remove, -1);
  g_signal_connect (away, "clicked", G_CALLBACK (remove_cb), desk);
  g_ptr_array_add (desk->offs, off);
  gtk_box_append (GTK_BOX (line), which);
  gtk_box_append (GTK_BOX (line), drop);
  gtk_box_append (GTK_BOX (line), off);
  gtk_box_append (GTK_BOX (line), away);
  gtk_box_append (GTK_BOX (row), line);
  if (point->kind == HW_KNOWN_TYPED)
    {
      GtkWidget *fields = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

      gtk_widget_set_margin_start (fields, 28);
      gtk_box_append (GTK_BOX (fields), coordinate (desk, index, point->mm.x, FALSE));
      gtk_box_append (GTK_BOX (fields), coordinate (desk, index, point->mm.y, TRUE));
      gtk_box_append (GTK_BOX (row), fields);
    }
  set_row_number (row, index);
  g_signal_connect (focus, "enter", G_CALLBACK (focus_cb), desk);
  gtk_widget_add_controller (row, focus);
  return row;
}

void
hw_photo_desk_update_rows (HwPhotoDesk *desk)
{
  HwUnit unit = hw_bench_get_unit (desk->bench);
  gboolean telling = desk->squaring->points->len > FEWEST;

  for (guint i = 0; i < desk->offs->len && i < desk->squaring->points->len; i++)
    {
      GtkWidget *label = g_ptr_array_index (desk->offs, i);
      double off = ((HwHandlePoint *)g_ptr_array_index (desk->squaring->points, i))->off;
      g_autofree char *text = telling && isfinite (off) ? hw_length_text (off, unit) : g_strdup ("–");

      gtk_label_set_label (GTK_LABEL (label), text);
      if (desk->squaring->bad == (int)i)
        gtk_widget_add_css_class (label, "error");
      else
        gtk_widget_remove_css_class (label, "error");
    }
}

void
hw_photo_desk_fill_rows (HwPhotoDesk *desk)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  GtkWidget *child;

  desk->updating = TRUE;
  for (guint i = 0; i < desk->places->len; i++)
    gtk_string_list_append (names, ((HwKnownPlace *)g_ptr_array_index (desk->places, i))->name);
  gtk_string_list_append (names, _ ("Typed position"));
  g_ptr_array_set_size (desk->offs, 0);
  while ((child = gtk_widget_get_first_child (desk->rows)) != NULL)
    gtk_box_remove (GTK_BOX (desk->rows), child);
  for (guint i = 0; i < desk->squaring->points->len; i++)
    gtk_box_append (GTK_BOX (desk->rows), make_row (desk, i, names));
  desk->updating = FALSE;
  hw_photo_desk_update_rows (desk);
}

static gboolean
is_taken (HwPhotoDesk *desk, guint place)
{
  for (guint i = 0; i < desk->squaring->points->len; i++)
    if (position_of (desk, g_ptr_array_index (desk->squaring->points, i)) == place)
      return TRUE;
  return FALSE;
}

/* In the middle of what is seen, on the first place that has no handle yet. */
static void
add_cb (GtkButton *button, HwPhotoDesk *desk)
{
  HwPoint px = hw_photo_view_middle (desk->view);
  HwKnownPlace typed = { HW_KNOWN_TYPED, (char *)_ ("Typed position"), { 0, 0 } };
  const HwKnownPlace *place = &typed;
  guint i = 0;

  while (i < desk->places->len && is_taken (desk, i))
    i++;
  if (i < desk->places->len)
    place = g_ptr_array_index (desk->places, i);
  i = hw_squaring_add (desk->squaring, px, place);
  hw_photo_view_choose (desk->view, (int)i);
  desk->untouched = FALSE;
  hw_photo_desk_renew (desk);
}

GtkWidget *
hw_photo_desk_make_rows (HwPhotoDesk *desk)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *add = gtk_button_new_with_label (_ ("One more handle"));

  desk->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  desk->offs = g_ptr_array_new ();
  gtk_widget_set_halign (add, GTK_ALIGN_START);
  g_signal_connect (add, "clicked", G_CALLBACK (add_cb), desk);
  gtk_box_append (GTK_BOX (box), hw_photo_desk_heading (_ ("Handles and their places")));
  gtk_box_append (GTK_BOX (box), desk->rows);
  gtk_box_append (GTK_BOX (box), add);
  return box;
}
