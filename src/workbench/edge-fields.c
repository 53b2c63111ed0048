/* The edge line's fields. Rectangle, rounded rectangle and ellipse are given by their place and size, any other line by its points. */
#include "edge-fields.h"

#include <glib/gi18n.h>

#include "../geometry/region.h"
#include "../scene/unknown.h"
#include "dialog.h"
#include "measure-field.h"
#include "points-field.h"

#define FAR 10000      /* mm */
#define MOST_POINTS 48 /* of a curve taken over as points */

/* In the order offered. */
static const HwEdgeShape shapes[] = { HW_EDGE_RECTANGLE, HW_EDGE_ROUNDED, HW_EDGE_ELLIPSE, HW_EDGE_POLYGON };

struct _HwEdgeFields
{
  GtkBox parent_instance;

  GtkWidget *shape;
  GtkWidget *frame; /* place and size */
  GtkWidget *left;
  GtkWidget *top;
  GtkWidget *width;
  GtkWidget *height;
  GtkWidget *radius;
  GtkWidget *margin;
  GtkWidget *points;
  GtkWidget *trouble;
  HwEdgeLine *edge; /* as last set */
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwEdgeFields, hw_edge_fields, GTK_TYPE_BOX)

enum
{
  EDITED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

const char *
hw_edge_shape_words (HwEdgeShape shape)
{
  switch (shape)
    {
    case HW_EDGE_RECTANGLE:
      return _ ("Rectangle");
    case HW_EDGE_ROUNDED:
      return _ ("Rounded rectangle");
    case HW_EDGE_ELLIPSE:
      return _ ("Ellipse");
    case HW_EDGE_POLYGON:
    default:
      return _ ("Line from point to point");
    }
}

static HwEdgeShape
shape_of (HwEdgeFields *fields)
{
  guint selected = gtk_drop_down_get_selected (GTK_DROP_DOWN (fields->shape));

  return shapes[MIN (selected, G_N_ELEMENTS (shapes) - 1)];
}

static void
show_fields_of_shape (HwEdgeFields *fields)
{
  HwEdgeShape shape = shape_of (fields);

  gtk_widget_set_visible (fields->frame, shape != HW_EDGE_POLYGON);
  gtk_widget_set_visible (fields->points, shape == HW_EDGE_POLYGON);
  gtk_widget_set_visible (gtk_widget_get_parent (fields->radius), shape == HW_EDGE_ROUNDED);
}

static void
edited (HwEdgeFields *fields)
{
  if (!fields->updating)
    g_signal_emit (fields, signals[EDITED], 0);
}

/* A line of few corners is taken over point by point, a curve by some of its points. */
static void
take_over_points (HwEdgeFields *fields)
{
  const HwRing *ring;

  if (fields->edge == NULL || fields->edge->outline == NULL || fields->edge->outline->n_rings == 0)
    return;
  ring = &fields->edge->outline->rings[0];
  guint step = (ring->n_points + MOST_POINTS - 1) / MOST_POINTS;
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  for (guint i = 0; i < ring->n_points; i += step)
    g_array_append_val (points, ring->points[i]);
  hw_points_field_set (HW_POINTS_FIELD (fields->points), (const HwPoint *)(gpointer)points->data,
                       points->len);
}

static void
shape_cb (GtkDropDown *drop_down, GParamSpec *pspec, HwEdgeFields *fields)
{
  if (!fields->updating && shape_of (fields) == HW_EDGE_POLYGON)
    take_over_points (fields);
  show_fields_of_shape (fields);
  edited (fields);
}

static void
measure_cb (HwMeasureField *field, double value, HwEdgeFields *fields)
{
  edited (fields);
}

static void
points_cb (HwPointsField *points, HwEdgeFields *fields)
{
  edited (fields);
}

static HwEdgeLine *
line_of_points (HwEdgeFields *fields, double margin)
{
  g_autoptr (GArray) points = hw_points_field_get (HW_POINTS_FIELD (fields->points));
  HwRing ring = { .points = (HwPoint *)(gpointer)points->data, .n_points = points->len };
  const char *trouble = NULL;

  g_autoptr (HwOutline) outline = points->len >= 3 ? hw_outline_new (&ring, 1) : NULL;
  if (outline == NULL)
    trouble = _ ("An edge line needs at least three points.");
  else if (!hw_outline_is_simple (outline) || hw_outline_area (outline) <= 0)
    trouble = _ ("The line crosses itself. Move a point until it does not; the edge line on the table stays "
                 "as it was.");

  gtk_label_set_label (GTK_LABEL (fields->trouble), trouble != NULL ? trouble : "");
  gtk_widget_set_visible (fields->trouble, trouble != NULL);
  if (trouble != NULL)
    return NULL;

  HwEdgeLine *edge = hw_edge_line_new ();
  edge->shape = HW_EDGE_POLYGON;
  edge->outline = g_steal_pointer (&outline);
  edge->margin = margin;
  return edge;
}

HwEdgeLine *
hw_edge_fields_get (HwEdgeFields *fields)
{
  g_return_val_if_fail (HW_IS_EDGE_FIELDS (fields), NULL);

  HwEdgeLine *edge;
  double margin = hw_measure_field_get_value (HW_MEASURE_FIELD (fields->margin));
  double left = hw_measure_field_get_value (HW_MEASURE_FIELD (fields->left));
  double top = hw_measure_field_get_value (HW_MEASURE_FIELD (fields->top));
  HwBox box = {
    left,
    top,
    left + hw_measure_field_get_value (HW_MEASURE_FIELD (fields->width)),
    top + hw_measure_field_get_value (HW_MEASURE_FIELD (fields->height)),
  };

  if (shape_of (fields) == HW_EDGE_POLYGON)
    edge = line_of_points (fields, margin);
  else
    {
      gtk_widget_set_visible (fields->trouble, FALSE);
      edge = hw_edge_line_new_shape (shape_of (fields), box,
                                     hw_measure_field_get_value (HW_MEASURE_FIELD (fields->radius)), margin);
    }
  if (edge != NULL && fields->edge != NULL && fields->edge->unknown != NULL && edge->unknown == NULL)
    edge->unknown = hw_unknown_ref (fields->edge->unknown);
  return edge;
}

static guint
index_of_shape (HwEdgeShape shape)
{
  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    if (shapes[i] == shape)
      return i;
  return 0;
}

void
hw_edge_fields_set (HwEdgeFields *fields, const HwEdgeLine *edge)
{
  g_return_if_fail (HW_IS_EDGE_FIELDS (fields));

  if (edge == NULL || edge->outline == NULL || edge == fields->edge)
    return;
  fields->updating = TRUE;
  HwEdgeLine *kept = hw_edge_line_ref (edge);
  g_clear_pointer (&fields->edge, hw_edge_line_unref);
  fields->edge = kept;

  HwBox box = edge->outline->box;
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->left), box.x0);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->top), box.y0);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->width), box.x1 - box.x0);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->height), box.y1 - box.y0);
  if (edge->shape == HW_EDGE_ROUNDED)
    hw_measure_field_set_value (HW_MEASURE_FIELD (fields->radius), edge->corner_radius);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->margin), edge->margin);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (fields->shape), index_of_shape (edge->shape));
  if (edge->shape == HW_EDGE_POLYGON)
    hw_points_field_set (HW_POINTS_FIELD (fields->points), edge->outline->rings[0].points,
                         edge->outline->rings[0].n_points);
  gtk_widget_set_visible (fields->trouble, FALSE);
  show_fields_of_shape (fields);
  fields->updating = FALSE;
}

static void
hw_edge_fields_finalize (GObject *object)
{
  g_clear_pointer (&HW_EDGE_FIELDS (object)->edge, hw_edge_line_unref);
  G_OBJECT_CLASS (hw_edge_fields_parent_class)->finalize (object);
}

static void
hw_edge_fields_class_init (HwEdgeFieldsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_edge_fields_finalize;
  signals[EDITED] = g_signal_new ("edited", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

static void
hw_edge_fields_init (HwEdgeFields *fields)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (fields), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (fields), 14);
}

static GtkWidget *
length (HwEdgeFields *fields, HwBench *bench, const char *label, double least, double most)
{
  GtkWidget *field = hw_measure_field_new (bench, HW_MEASURE_LENGTH, label, least, most);

  g_signal_connect (field, "edited", G_CALLBACK (measure_cb), fields);
  return field;
}

GtkWidget *
hw_edge_fields_new (HwBench *bench)
{
  HwEdgeFields *fields = g_object_new (HW_TYPE_EDGE_FIELDS, NULL);
  g_autoptr (GStrvBuilder) names = g_strv_builder_new ();

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (fields));

  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    g_strv_builder_add (names, hw_edge_shape_words (shapes[i]));
  g_auto (GStrv) words = g_strv_builder_end (names);
  fields->shape = gtk_drop_down_new_from_strings ((const char *const *)words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (fields->shape), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Shape of the edge line"), -1);
  g_signal_connect (fields->shape, "notify::selected", G_CALLBACK (shape_cb), fields);

  fields->left = length (fields, bench, _ ("Edge line from the left"), -FAR, FAR);
  fields->top = length (fields, bench, _ ("Edge line from the top"), -FAR, FAR);
  fields->width = length (fields, bench, _ ("Width of the edge line"), 10, FAR);
  fields->height = length (fields, bench, _ ("Height of the edge line"), 10, FAR);
  fields->radius = length (fields, bench, _ ("Corner radius"), 0, FAR);
  fields->margin = length (fields, bench, _ ("Margin inside the edge line"), 0, 200);
  fields->points = hw_points_field_new (bench);
  g_signal_connect (fields->points, "edited", G_CALLBACK (points_cb), fields);
  hw_measure_field_set_value (HW_MEASURE_FIELD (fields->radius), 40);
  fields->trouble = hw_dialog_words (NULL);
  gtk_widget_add_css_class (fields->trouble, "trouble");
  gtk_widget_set_visible (fields->trouble, FALSE);

  fields->frame = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);
  gtk_box_append (GTK_BOX (fields->frame), hw_dialog_pair (hw_captioned (_ ("From the left"), fields->left),
                                                           hw_captioned (_ ("From the top"), fields->top)));
  gtk_box_append (GTK_BOX (fields->frame), hw_dialog_pair (hw_captioned (_ ("Width"), fields->width),
                                                           hw_captioned (_ ("Height"), fields->height)));
  gtk_box_append (GTK_BOX (fields), hw_captioned (_ ("Shape"), fields->shape));
  gtk_box_append (GTK_BOX (fields), fields->frame);
  gtk_box_append (GTK_BOX (fields), fields->points);
  gtk_box_append (GTK_BOX (fields), fields->trouble);
  gtk_box_append (GTK_BOX (fields),
                  hw_dialog_pair (hw_captioned (_ ("Stitching stays inside by"), fields->margin),
                                  hw_captioned (_ ("Corner radius"), fields->radius)));
  show_fields_of_shape (fields);
  return GTK_WIDGET (fields);
}
