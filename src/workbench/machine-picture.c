/* The widget around the picture of the hooping in the machine. Thread is slow to paint, so the picture is kept until it, its size or its ink changes. */
#include "machine-picture.h"

#include <glib/gi18n.h>

#include "machine-drawing.h"

#define LEAST_SIDE 150      /* px */
#define LETTERS_ACROSS 16.0 /* the words above the hoop must fit */
#define LETTERS_DOWN 18.0

struct _HwMachinePicture
{
  GtkWidget parent_instance;

  HwMachineWork *work;
  char *mark;
  HwPlan *plan; /* shown when there is no work */
  int next;

  cairo_surface_t *painted;
  int width, height, scale; /* as painted */
  gboolean dark;
  double letters;
};

G_DEFINE_FINAL_TYPE (HwMachinePicture, hw_machine_picture, GTK_TYPE_WIDGET)

static void
forget_painted (HwMachinePicture *picture)
{
  g_clear_pointer (&picture->painted, cairo_surface_destroy);
}

/* The size of letters around, so that large text is large here too. */
static double
letters_around (HwMachinePicture *picture)
{
  PangoContext *context = gtk_widget_get_pango_context (GTK_WIDGET (picture));
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double size = pango_font_description_get_size (font) / (double)PANGO_SCALE;

  if (!pango_font_description_get_size_is_absolute (font))
    size *= pango_cairo_context_get_resolution (context) / 72.0;
  return CLAMP (size, 12, 40);
}

static void
paint (HwMachinePicture *picture, int width, int height)
{
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (picture));
  double letters = MIN (letters_around (picture), MIN (width / LETTERS_ACROSS, height / LETTERS_DOWN));
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (picture)), &ink);
  gboolean dark = hw_colour_luminance ((HwColour){ ink.red, ink.green, ink.blue }) > 0.4;
  if (picture->painted != NULL && picture->width == width && picture->height == height
      && picture->scale == scale && picture->dark == dark && picture->letters == letters)
    return;

  forget_painted (picture);
  picture->width = width;
  picture->height = height;
  picture->scale = scale;
  picture->dark = dark;
  picture->letters = letters;
  picture->painted = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * scale, height * scale);
  cairo_surface_set_device_scale (picture->painted, scale, scale);
  cairo_t *cr = cairo_create (picture->painted);
  if (picture->work != NULL)
    hw_machine_draw (cr, picture->work, picture->mark, width, height, letters, scale, dark);
  else
    hw_machine_draw_whole (cr, picture->plan, picture->next, width, height, scale);
  cairo_destroy (cr);
}

static void
hw_machine_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwMachinePicture *picture = HW_MACHINE_PICTURE (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  graphene_rect_t bounds;

  if ((picture->work == NULL && picture->plan == NULL) || width <= 0 || height <= 0)
    return;
  paint (picture, width, height);
  graphene_rect_init (&bounds, 0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_set_source_surface (cr, picture->painted, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
}

static void
hw_machine_picture_measure (GtkWidget *widget,
                            GtkOrientation orientation,
                            int for_size,
                            int *minimum,
                            int *natural,
                            int *minimum_baseline,
                            int *natural_baseline)
{
  *minimum = LEAST_SIDE;
  *natural = 2 * LEAST_SIDE;
}

static void
hw_machine_picture_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hw_machine_picture_parent_class)->css_changed (widget, change);
  gtk_widget_queue_draw (widget);
}

static void
hw_machine_picture_finalize (GObject *object)
{
  HwMachinePicture *picture = HW_MACHINE_PICTURE (object);

  forget_painted (picture);
  g_clear_pointer (&picture->work, hw_machine_work_unref);
  g_clear_pointer (&picture->plan, hw_plan_unref);
  g_free (picture->mark);
  G_OBJECT_CLASS (hw_machine_picture_parent_class)->finalize (object);
}

static void
hw_machine_picture_class_init (HwMachinePictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hw_machine_picture_finalize;
  widget_class->snapshot = hw_machine_picture_snapshot;
  widget_class->measure = hw_machine_picture_measure;
  widget_class->css_changed = hw_machine_picture_css_changed;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_machine_picture_init (HwMachinePicture *picture)
{
  gtk_widget_add_css_class (GTK_WIDGET (picture), "machine-picture");
  gtk_accessible_update_property (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The hoop as it stands on the machine"), -1);
}

GtkWidget *
hw_machine_picture_new (void)
{
  return g_object_new (HW_TYPE_MACHINE_PICTURE, NULL);
}

void
hw_machine_picture_show (HwMachinePicture *picture, HwMachineWork *work, const char *mark)
{
  g_return_if_fail (HW_IS_MACHINE_PICTURE (picture));

  if (work == picture->work && g_strcmp0 (mark, picture->mark) == 0)
    return;
  HwMachineWork *old = picture->work;
  picture->work = work != NULL ? hw_machine_work_ref (work) : NULL;
  g_clear_pointer (&picture->plan, hw_plan_unref);
  g_clear_pointer (&old, hw_machine_work_unref);
  if (mark != picture->mark)
    {
      g_free (picture->mark);
      picture->mark = g_strdup (mark);
    }
  forget_painted (picture);
  gtk_widget_queue_draw (GTK_WIDGET (picture));
}

void
hw_machine_picture_show_plan (HwMachinePicture *picture, const HwPlan *plan, int next)
{
  g_return_if_fail (HW_IS_MACHINE_PICTURE (picture));

  if (picture->work == NULL && plan == picture->plan && next == picture->next)
    return;
  HwPlan *old = picture->plan;
  picture->plan = plan != NULL ? hw_plan_ref (plan) : NULL;
  picture->next = next;
  g_clear_pointer (&old, hw_plan_unref);
  g_clear_pointer (&picture->work, hw_machine_work_unref);
  forget_painted (picture);
  gtk_widget_queue_draw (GTK_WIDGET (picture));
}
