/* The cloth as large as the room allows; each hoop's field in the dye that its first hooping would have. */
#include "cloth-preview.h"

#include "../drawing/cloth-drawing.h"

#define PAD 10 /* px around the cloth */
#define LEAST_HEIGHT 150
#define HEIGHT 290
#define LEAST_WIDTH 200

struct _HwClothPreview
{
  GtkWidget parent_instance;
  HwSnapshot *scene;
};

G_DEFINE_FINAL_TYPE (HwClothPreview, hw_cloth_preview, GTK_TYPE_WIDGET)

/* The fields stand side by side with equal air between them, or overlap where the cloth is narrower than all of them. */
static void
draw_fields (cairo_t *cr, const HwSnapshot *scene, double px)
{
  double widths = 0, x;
  guint n = scene->hoops->len;

  for (guint i = 0; i < n; i++)
    widths += hw_snapshot_hoop (scene, i)->field_width;
  double air = (scene->fabric.width - widths) / (n + 1);
  x = air > 0 ? air : 0;
  for (guint i = 0; i < n; i++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (scene, i);
      HwColour dye = hw_dye (i)->colour;
      double y = (scene->fabric.height - hoop->field_height) / 2;

      cairo_rectangle (cr, x, y, hoop->field_width, hoop->field_height);
      cairo_set_source_rgba (cr, dye.red, dye.green, dye.blue, 0.14);
      cairo_fill_preserve (cr);
      hw_dye_hatch_path (cr, hw_dye (i)->hatch, dye, 0.3, 7 * px, px);
      cairo_rectangle (cr, x, y, hoop->field_width, hoop->field_height);
      cairo_set_source_rgb (cr, dye.red, dye.green, dye.blue);
      cairo_set_line_width (cr, 2 * px);
      cairo_stroke (cr);
      x += air > 0 ? hoop->field_width + air : (scene->fabric.width - hoop->field_width) / MAX (1.0, n - 1.0);
    }
}

static void
hw_cloth_preview_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  const HwSnapshot *scene = HW_CLOTH_PREVIEW (widget)->scene;
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget), scale;
  graphene_rect_t bounds;

  if (scene == NULL || width <= 2 * PAD || height <= 2 * PAD)
    return;
  graphene_rect_init (&bounds, 0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  scale = MIN ((width - 2 * PAD) / scene->fabric.width, (height - 2 * PAD) / scene->fabric.height);
  cairo_translate (cr, (width - scene->fabric.width * scale) / 2,
                   (height - scene->fabric.height * scale) / 2);
  cairo_scale (cr, scale, scale);
  hw_draw_cloth (cr, &scene->fabric, 1 / scale);
  hw_draw_edge_line (cr, scene->edge_line, &scene->fabric, 1 / scale);
  cairo_rectangle (cr, 0, 0, scene->fabric.width, scene->fabric.height);
  cairo_clip (cr);
  draw_fields (cr, scene, 1 / scale);
  cairo_destroy (cr);
}

static void
hw_cloth_preview_measure (GtkWidget *widget,
                          GtkOrientation orientation,
                          int for_size,
                          int *minimum,
                          int *natural,
                          int *minimum_baseline,
                          int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_VERTICAL ? LEAST_HEIGHT : LEAST_WIDTH;
  *natural = orientation == GTK_ORIENTATION_VERTICAL ? HEIGHT : LEAST_WIDTH;
}

static void
hw_cloth_preview_finalize (GObject *object)
{
  g_clear_pointer (&HW_CLOTH_PREVIEW (object)->scene, hw_snapshot_unref);
  G_OBJECT_CLASS (hw_cloth_preview_parent_class)->finalize (object);
}

static void
hw_cloth_preview_class_init (HwClothPreviewClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_cloth_preview_finalize;
  GTK_WIDGET_CLASS (klass)->measure = hw_cloth_preview_measure;
  GTK_WIDGET_CLASS (klass)->snapshot = hw_cloth_preview_snapshot;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_cloth_preview_init (HwClothPreview *preview)
{
  gtk_widget_add_css_class (GTK_WIDGET (preview), "cloth-preview");
}

GtkWidget *
hw_cloth_preview_new (void)
{
  return g_object_new (HW_TYPE_CLOTH_PREVIEW, NULL);
}

void
hw_cloth_preview_show (HwClothPreview *preview, const HwSnapshot *scene, const char *words)
{
  g_return_if_fail (HW_IS_CLOTH_PREVIEW (preview));
  g_return_if_fail (scene != NULL && words != NULL);

  g_clear_pointer (&preview->scene, hw_snapshot_unref);
  preview->scene = hw_snapshot_ref (scene);
  gtk_accessible_update_property (GTK_ACCESSIBLE (preview), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (preview));
}
