/* A photograph as it was taken, whole or a part of it, with its handles. This file is the widget itself: what it shows, and how large. */
#include "photo-view.h"

#include <glib/gi18n.h>
#include <math.h>

#include "photo-view-private.h"

#define PADDING 16
#define MOST_ZOOM 24.0

G_DEFINE_FINAL_TYPE (HwPhotoView, hw_photo_view, GTK_TYPE_WIDGET)

enum
{
  MOVED,
  CHOSEN,
  SPOT_MOVED,
  LINE_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

void
hw_photo_view_emit (HwPhotoView *view, const char *signal, guint point)
{
  guint n = view->squaring->points->len;

  if (g_str_equal (signal, "line-changed"))
    g_signal_emit (view, signals[LINE_CHANGED], 0);
  else if (point < n)
    g_signal_emit (view, signals[g_str_equal (signal, "moved") ? MOVED : CHOSEN], 0, point);
  else if (g_str_equal (signal, "moved"))
    g_signal_emit (view, signals[SPOT_MOVED], 0, point - n);
}

guint
hw_photo_view_count (HwPhotoView *view)
{
  return view->squaring->points->len + (view->movable ? view->spots->len : 0);
}

HwPoint *
hw_photo_view_place (HwPhotoView *view, guint index)
{
  guint n = view->squaring->points->len;

  if (index < n)
    return &((HwHandlePoint *)g_ptr_array_index (view->squaring->points, index))->px;
  return &g_array_index (view->spots, HwPhotoSpot, index - n).px;
}

HwPoint
hw_photo_view_to_widget (HwPhotoView *view, HwPoint px)
{
  return (HwPoint){ view->at.x + px.x * view->zoom, view->at.y + px.y * view->zoom };
}

HwPoint
hw_photo_view_middle (HwPhotoView *view)
{
  g_return_val_if_fail (HW_IS_PHOTO_VIEW (view), ((HwPoint){ 0, 0 }));

  double x = (gtk_widget_get_width (GTK_WIDGET (view)) / 2.0 - view->at.x) / view->zoom;
  double y = (gtk_widget_get_height (GTK_WIDGET (view)) / 2.0 - view->at.y) / view->zoom;

  return (HwPoint){ CLAMP (x, 0, view->squaring->width), CLAMP (y, 0, view->squaring->height) };
}

static double
fitting_zoom (HwPhotoView *view)
{
  double w = MAX (gtk_widget_get_width (GTK_WIDGET (view)) - 2 * PADDING, 10);
  double h = MAX (gtk_widget_get_height (GTK_WIDGET (view)) - 2 * PADDING, 10);

  return MIN (w / view->squaring->width, h / view->squaring->height);
}

void
hw_photo_view_fit (HwPhotoView *view)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));

  view->fitted = TRUE;
  view->zoom = fitting_zoom (view);
  view->at.x = (gtk_widget_get_width (GTK_WIDGET (view)) - view->squaring->width * view->zoom) / 2;
  view->at.y = (gtk_widget_get_height (GTK_WIDGET (view)) - view->squaring->height * view->zoom) / 2;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
hw_photo_view_zoom_at (HwPhotoView *view, double factor, HwPoint at)
{
  double least = fitting_zoom (view);
  double zoom = CLAMP (view->zoom * factor, least, MAX (MOST_ZOOM, least));

  factor = zoom / view->zoom;
  view->at.x = at.x + (view->at.x - at.x) * factor;
  view->at.y = at.y + (view->at.y - at.y) * factor;
  view->zoom = zoom;
  view->fitted = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

/* What the handles are on, for those who do not see them. */
static void
describe (HwPhotoView *view)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < view->squaring->points->len; i++)
    {
      const HwHandlePoint *point = g_ptr_array_index (view->squaring->points, i);

      /* Translators: "Handle 2, Edge line, upper right: 812.5 across, 90.0 down." in pixels of the photo */
      g_string_append_printf (text, _ ("Handle %u, %s: %.1f across, %.1f down. "), i + 1, point->name,
                              point->px.x, point->px.y);
    }
  for (guint i = 0; i < view->spots->len; i++)
    {
      const HwPhotoSpot *spot = &g_array_index (view->spots, HwPhotoSpot, i);

      /* Translators: "Mark B: 812.5 across, 90.0 down." in pixels of the photo */
      g_string_append_printf (text, _ ("Mark %s: %.1f across, %.1f down. "), spot->name, spot->px.x,
                              spot->px.y);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text->str, -1);
}

void
hw_photo_view_refresh (HwPhotoView *view)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));

  if (view->chosen >= (int)hw_photo_view_count (view))
    view->chosen = -1;
  if (view->hover >= (int)hw_photo_view_count (view))
    view->hover = -1;
  describe (view);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
hw_photo_view_set_levels (HwPhotoView *view, HwPhotoLevels *levels)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));

  g_clear_pointer (&view->levels, hw_photo_levels_unref);
  view->levels = levels != NULL ? hw_photo_levels_ref (levels) : NULL;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
hw_photo_view_set_lines (HwPhotoView *view, HwBox cloth, const HwOutline *edge)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));

  view->cloth = cloth;
  g_clear_pointer (&view->edge, hw_outline_unref);
  view->edge = edge != NULL ? hw_outline_ref ((HwOutline *)edge) : NULL;
}

static void
clear_spot (gpointer spot)
{
  g_free (((HwPhotoSpot *)spot)->name);
}

void
hw_photo_view_set_spots (HwPhotoView *view, const HwPhotoSpot *spots, guint n, gboolean movable)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));
  g_return_if_fail (spots != NULL || n == 0);

  g_array_set_size (view->spots, 0);
  for (guint i = 0; i < n; i++)
    {
      HwPhotoSpot spot = { spots[i].px, g_strdup (spots[i].name), spots[i].faint };

      g_array_append_val (view->spots, spot);
    }
  view->movable = movable;
  hw_photo_view_refresh (view);
}

HwPoint
hw_photo_view_get_spot (HwPhotoView *view, guint spot)
{
  g_return_val_if_fail (HW_IS_PHOTO_VIEW (view) && spot < view->spots->len, ((HwPoint){ 0, 0 }));
  return g_array_index (view->spots, HwPhotoSpot, spot).px;
}

void
hw_photo_view_choose_spot (HwPhotoView *view, guint spot)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));

  view->chosen = view->movable && spot < view->spots->len ? (int)(view->squaring->points->len + spot) : -1;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
hw_photo_view_choose (HwPhotoView *view, int point)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));

  view->chosen = point < (int)view->squaring->points->len ? point : -1;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
hw_photo_view_set_checking (HwPhotoView *view, gboolean checking)
{
  g_return_if_fail (HW_IS_PHOTO_VIEW (view));

  view->checking = checking;
  g_array_set_size (view->line, 0);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (view), checking ? "crosshair" : NULL);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

const GArray *
hw_photo_view_get_line (HwPhotoView *view)
{
  g_return_val_if_fail (HW_IS_PHOTO_VIEW (view), NULL);
  return view->line;
}

static void
hw_photo_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  hw_photo_view_draw (HW_PHOTO_VIEW (widget), snapshot);
}

static void
hw_photo_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwPhotoView *view = HW_PHOTO_VIEW (widget);

  if (view->fitted)
    hw_photo_view_fit (view);
}

static void
hw_photo_view_measure (GtkWidget *widget,
                       GtkOrientation orientation,
                       int for_size,
                       int *minimum,
                       int *natural,
                       int *minimum_baseline,
                       int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 320 : 240;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 800 : 600;
}

static void
hw_photo_view_finalize (GObject *object)
{
  HwPhotoView *view = HW_PHOTO_VIEW (object);

  g_clear_pointer (&view->levels, hw_photo_levels_unref);
  g_array_unref (view->spots);
  g_clear_pointer (&view->edge, hw_outline_unref);
  g_array_unref (view->line);
  G_OBJECT_CLASS (hw_photo_view_parent_class)->finalize (object);
}

static void
hw_photo_view_class_init (HwPhotoViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hw_photo_view_finalize;
  widget_class->snapshot = hw_photo_view_snapshot;
  widget_class->size_allocate = hw_photo_view_size_allocate;
  widget_class->measure = hw_photo_view_measure;
  signals[MOVED] = g_signal_new ("moved", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[CHOSEN] = g_signal_new ("chosen", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[SPOT_MOVED] = g_signal_new ("spot-moved", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                      NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[LINE_CHANGED] = g_signal_new ("line-changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "photoview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_photo_view_init (HwPhotoView *view)
{
  GtkWidget *widget = GTK_WIDGET (view);

  view->line = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  view->spots = g_array_new (FALSE, FALSE, sizeof (HwPhotoSpot));
  g_array_set_clear_func (view->spots, clear_spot);
  view->chosen = view->hover = -1;
  view->fitted = TRUE;
  view->zoom = 1;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The photo, with its handles"), -1);
  hw_photo_view_add_hands (view);
}

GtkWidget *
hw_photo_view_new (HwSquaring *squaring)
{
  HwPhotoView *view = g_object_new (HW_TYPE_PHOTO_VIEW, NULL);

  g_return_val_if_fail (squaring != NULL, GTK_WIDGET (view));
  view->squaring = squaring;
  describe (view);
  return GTK_WIDGET (view);
}
