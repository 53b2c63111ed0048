/* The points of a line, one row each: from the left, from the top. A new point is put halfway between the last and the first. */
#include "points-field.h"

#include <glib/gi18n.h>

#include "measure-field.h"

#define FAR 10000 /* mm */

struct _HwPointsField
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *box;
  GPtrArray *rows; /* Row, owned */
};

G_DEFINE_FINAL_TYPE (HwPointsField, hw_points_field, GTK_TYPE_BOX)

enum
{
  EDITED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

typedef struct
{
  HwPointsField *field;
  GtkWidget *box;
  GtkWidget *x;
  GtkWidget *y;
} Row;

static void
edited_cb (HwMeasureField *measure, double value, HwPointsField *field)
{
  g_signal_emit (field, signals[EDITED], 0);
}

static void
remove_cb (GtkButton *button, Row *row)
{
  HwPointsField *field = row->field;

  g_ptr_array_remove (field->rows, row);
  g_signal_emit (field, signals[EDITED], 0);
}

static void
row_free (gpointer data)
{
  Row *row = data;

  gtk_box_remove (GTK_BOX (row->field->box), row->box);
  g_free (row);
}

static Row *
row_new (HwPointsField *field)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *remove = gtk_button_new_from_icon_name ("hw-less-symbolic");

  row->field = field;
  row->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  row->x = hw_measure_field_new (field->bench, HW_MEASURE_LENGTH, _ ("Point from the left"), -FAR, FAR);
  row->y = hw_measure_field_new (field->bench, HW_MEASURE_LENGTH, _ ("Point from the top"), -FAR, FAR);
  gtk_widget_set_hexpand (row->x, TRUE);
  gtk_widget_set_hexpand (row->y, TRUE);
  g_signal_connect (row->x, "edited", G_CALLBACK (edited_cb), field);
  g_signal_connect (row->y, "edited", G_CALLBACK (edited_cb), field);
  gtk_widget_add_css_class (remove, "flat");
  gtk_widget_set_tooltip_text (remove, _ ("Take this point away"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (remove), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Take this point away"), -1);
  g_signal_connect (remove, "clicked", G_CALLBACK (remove_cb), row);
  gtk_box_append (GTK_BOX (row->box), row->x);
  gtk_box_append (GTK_BOX (row->box), row->y);
  gtk_box_append (GTK_BOX (row->box), remove);
  gtk_box_append (GTK_BOX (field->box), row->box);
  return row;
}

static HwPoint
point_of (HwPointsField *field, guint i)
{
  Row *row = g_ptr_array_index (field->rows, i);

  return (HwPoint){ hw_measure_field_get_value (HW_MEASURE_FIELD (row->x)),
                    hw_measure_field_get_value (HW_MEASURE_FIELD (row->y)) };
}

static void
set_point (Row *row, HwPoint point)
{
  hw_measure_field_set_value (HW_MEASURE_FIELD (row->x), point.x);
  hw_measure_field_set_value (HW_MEASURE_FIELD (row->y), point.y);
}

static void
add_cb (GtkButton *button, HwPointsField *field)
{
  HwPoint between = { 0, 0 };

  if (field->rows->len > 0)
    {
      HwPoint last = point_of (field, field->rows->len - 1), first = point_of (field, 0);
      between = (HwPoint){ (last.x + first.x) / 2, (last.y + first.y) / 2 };
    }
  Row *row = row_new (field);
  set_point (row, between);
  g_ptr_array_add (field->rows, row);
  g_signal_emit (field, signals[EDITED], 0);
}

static void
hw_points_field_dispose (GObject *object)
{
  HwPointsField *field = HW_POINTS_FIELD (object);

  g_ptr_array_set_size (field->rows, 0);
  g_clear_object (&field->bench);
  G_OBJECT_CLASS (hw_points_field_parent_class)->dispose (object);
}

static void
hw_points_field_finalize (GObject *object)
{
  g_ptr_array_unref (HW_POINTS_FIELD (object)->rows);
  G_OBJECT_CLASS (hw_points_field_parent_class)->finalize (object);
}

static void
hw_points_field_class_init (HwPointsFieldClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_points_field_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_points_field_finalize;
  signals[EDITED] = g_signal_new ("edited", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

static void
hw_points_field_init (HwPointsField *field)
{
  GtkWidget *add = gtk_button_new_with_label (_ ("Add a point"));
  GtkWidget *caption = gtk_label_new (_ ("Points: from the left, from the top"));

  gtk_orientable_set_orientation (GTK_ORIENTABLE (field), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (field), 8);
  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  gtk_widget_add_css_class (caption, "caption");
  field->rows = g_ptr_array_new_with_free_func (row_free);
  field->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_widget_set_halign (add, GTK_ALIGN_START);
  g_signal_connect (add, "clicked", G_CALLBACK (add_cb), field);
  gtk_box_append (GTK_BOX (field), caption);
  gtk_box_append (GTK_BOX (field), field->box);
  gtk_box_append (GTK_BOX (field), add);
}

GtkWidget *
hw_points_field_new (HwBench *bench)
{
  HwPointsField *field = g_object_new (HW_TYPE_POINTS_FIELD, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (field));
  field->bench = g_object_ref (bench);
  return GTK_WIDGET (field);
}

void
hw_points_field_set (HwPointsField *field, const HwPoint *points, guint n_points)
{
  g_return_if_fail (HW_IS_POINTS_FIELD (field));

  g_ptr_array_set_size (field->rows, (int)MIN (field->rows->len, n_points));
  while (field->rows->len < n_points)
    g_ptr_array_add (field->rows, row_new (field));
  for (guint i = 0; i < n_points; i++)
    set_point (g_ptr_array_index (field->rows, i), points[i]);
}

GArray *
hw_points_field_get (HwPointsField *field)
{
  g_return_val_if_fail (HW_IS_POINTS_FIELD (field), NULL);

  GArray *points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  for (guint i = 0; i < field->rows->len; i++)
    {
      HwPoint point = point_of (field, i);
      g_array_append_val (points, point);
    }
  return points;
}
