/* The table: a widget on which the cloth lies. It keeps what it draws in layers, from the still picture below to the rulers
 * above, and makes a layer anew only when something it shows has changed; so dragging a motif costs the drawing of that
 * motif. This file is the widget itself: its properties, its size, its view of the cloth. */

#include "canvas.h"

#include <glib/gi18n.h>
#include <math.h>

#include "canvas-private.h"
#include "contrast.h"
#include "text-size.h"
#include "ruler.h"

#define USUAL_DPI 96.0
#define DPI_UNITS 1024.0 /* of gtk-xft-dpi */
#define FIT_PADDING 36
#define KEEP_IN_SIGHT 90
#define TRUE_SIZE (96 / 25.4) /* CSS Values 3, 6.2: 96 px to the inch */

G_DEFINE_FINAL_TYPE (HwCanvas, hw_canvas, GTK_TYPE_WIDGET)

enum
{
  PROP_0,
  PROP_BENCH,
  PROP_SHOW_HOOPINGS,
  PROP_SHOW_MARKS,
  PROP_SHOW_ORDER,
  PROP_SHOW_DENSITY,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

void
hw_canvas_spoil (HwCanvas *canvas, guint layers)
{
  if (layers
      & (HW_BIT (HW_LAYER_GHOSTS) | HW_BIT (HW_LAYER_FAULTS) | HW_BIT (HW_LAYER_RULES)
         | HW_BIT (HW_LAYER_SIGNS) | HW_BIT (HW_LAYER_SELECTION) | HW_BIT (HW_LAYER_POINTED)))
    layers |= HW_BIT (HW_LAYER_WORDS);
  canvas->stale |= layers;
  if (layers & HW_BIT (HW_LAYER_STILL))
    hw_sheet_forget (canvas);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

HwBox
hw_canvas_area (HwCanvas *canvas)
{
  return (HwBox){ HW_RULER_BREADTH, HW_RULER_BREADTH, gtk_widget_get_width (GTK_WIDGET (canvas)),
                  gtk_widget_get_height (GTK_WIDGET (canvas)) };
}

HwBox
hw_canvas_open_area (HwCanvas *canvas)
{
  HwBox area = hw_canvas_area (canvas);

  area.x1 = MAX (area.x0, area.x1 - canvas->covered);
  return area;
}

void
hw_canvas_set_covered (HwCanvas *canvas, double covered)
{
  g_return_if_fail (HW_IS_CANVAS (canvas));

  if (canvas->covered == covered)
    return;
  canvas->covered = covered;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_WORDS));
}

HwBox
hw_canvas_cloth_box (HwCanvas *canvas)
{
  const HwFabric *fabric;

  if (canvas->bench == NULL)
    return (HwBox){ 0, 0, 700, 540 };
  fabric = hw_scene_get_fabric (hw_bench_get_scene (canvas->bench));
  return (HwBox){ 0, 0, fabric->width, fabric->height };
}

void
hw_canvas_set_view (HwCanvas *canvas, const HwView *view)
{
  HwView kept = *view;
  double step = 1.0 / canvas->device;
  gboolean zoomed;

  hw_view_keep_in (&kept, hw_canvas_cloth_box (canvas), hw_canvas_area (canvas), KEEP_IN_SIGHT);
  /* By whole pixels, so that what is drawn can be shifted; the rest is owed to the next shift. */
  if (kept.zoom == canvas->view.zoom)
    {
      kept.x = canvas->view.x + rint ((kept.x - canvas->view.x) / step) * step;
      kept.y = canvas->view.y + rint ((kept.y - canvas->view.y) / step) * step;
    }
  canvas->owed.x = fabs (view->x - kept.x) < step ? view->x - kept.x : 0;
  canvas->owed.y = fabs (view->y - kept.y) < step ? view->y - kept.y : 0;
  if (kept.zoom == canvas->view.zoom && kept.x == canvas->view.x && kept.y == canvas->view.y)
    return;
  zoomed = kept.zoom != canvas->view.zoom;
  canvas->view = kept;
  g_ptr_array_set_size (canvas->footprints, 0);
  g_ptr_array_set_size (canvas->rings, 0);
  hw_signs_place (canvas->signs, &canvas->view);
  canvas->hover_sign = -1;
  /* The sheet still shows what is there, only elsewhere. */
  hw_canvas_spoil (canvas, HW_ALL_LAYERS & ~HW_BIT (HW_LAYER_STILL));
  canvas->stale |= HW_BIT (HW_LAYER_STILL);
  if (zoomed)
    hw_sheet_zoomed (canvas);
}

/* The cloth with its edge line and what hangs over its rim: in pictures whole, so that a cloth fills the table. */
void
hw_canvas_zoom_fit (HwCanvas *canvas)
{
  HwView view = canvas->view;

  g_return_if_fail (HW_IS_CANVAS (canvas));

  canvas->fitted = TRUE;
  if (gtk_widget_get_width (GTK_WIDGET (canvas)) <= 0)
    return;
  hw_view_fit (&view, hw_canvas_cloth_box (canvas), hw_canvas_area (canvas), FIT_PADDING);
  hw_canvas_set_view (canvas, &view);
}

void
hw_canvas_zoom_by (HwCanvas *canvas, double factor)
{
  HwBox area;
  HwView view;

  g_return_if_fail (HW_IS_CANVAS (canvas));
  g_return_if_fail (factor > 0);

  area = hw_canvas_area (canvas);
  view = canvas->view;
  hw_view_zoom_at (&view, factor, (HwPoint){ (area.x0 + area.x1) / 2, (area.y0 + area.y1) / 2 });
  canvas->fitted = FALSE;
  hw_canvas_set_view (canvas, &view);
}

void
hw_canvas_zoom_true_size (HwCanvas *canvas)
{
  g_return_if_fail (HW_IS_CANVAS (canvas));

  hw_canvas_zoom_by (canvas, TRUE_SIZE / canvas->view.zoom);
}

void
hw_canvas_show (HwCanvas *canvas, HwPoint where)
{
  HwView view;

  g_return_if_fail (HW_IS_CANVAS (canvas));

  /* What is asked to be shown is told in words, if it is a problem's place. */
  canvas->told = where;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_WORDS));
  view = canvas->view;
  hw_view_show (&view, where, hw_canvas_open_area (canvas), 60);
  if (view.x == canvas->view.x && view.y == canvas->view.y)
    return;
  canvas->fitted = FALSE;
  hw_canvas_set_view (canvas, &view);
}

void
hw_canvas_to_pixels (HwCanvas *canvas, HwPoint where, double *x, double *y)
{
  HwPoint pixels;

  g_return_if_fail (HW_IS_CANVAS (canvas));

  pixels = hw_view_to_pixels (&canvas->view, where);
  *x = pixels.x;
  *y = pixels.y;
}

static void
hw_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwCanvas *canvas = HW_CANVAS (widget);

  if (canvas->bench == NULL)
    return;
  if (canvas->stale & HW_BIT (HW_LAYER_STILL) && canvas->sheet == NULL)
    hw_motif_pictures_turn_page (canvas->pictures);
  /* Tags lie over the colours, and show which motifs lie still. */
  if (canvas->stale & HW_BIT (HW_LAYER_STILL) && hw_canvas_is_coloured (canvas))
    canvas->stale |= HW_BIT (HW_LAYER_DENSITY);
  for (int i = 0; i < HW_N_LAYERS; i++)
    {
      if (canvas->stale & HW_BIT (i))
        {
          g_clear_pointer (&canvas->nodes[i], gsk_render_node_unref);
          if (i == HW_LAYER_STILL)
            canvas->nodes[i] = hw_canvas_draw_still (canvas);
          else if (i == HW_LAYER_MOVING)
            canvas->nodes[i] = hw_canvas_draw_moving (canvas);
          else if (i == HW_LAYER_DENSITY)
            canvas->nodes[i] = hw_canvas_draw_density (canvas);
          else if (i == HW_LAYER_HOOPINGS)
            canvas->nodes[i] = hw_canvas_draw_hoopings (canvas);
          else if (i == HW_LAYER_POINTED)
            canvas->nodes[i] = hw_canvas_draw_pointed (canvas);
          else if (i == HW_LAYER_KEY)
            canvas->nodes[i] = hw_canvas_draw_key (canvas);
          else
            canvas->nodes[i] = hw_canvas_draw_overlay (canvas, i);
        }
      if (canvas->nodes[i] != NULL)
        gtk_snapshot_append_node (snapshot, canvas->nodes[i]);
    }
  canvas->stale = 0;
}

static void
hw_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwCanvas *canvas = HW_CANVAS (widget);

  if (canvas->device != gtk_widget_get_scale_factor (widget))
    {
      canvas->device = gtk_widget_get_scale_factor (widget);
      hw_canvas_forget_tags (canvas);
    }
  /* Under a hand that drags, nothing is zoomed. */
  if (canvas->fitted && canvas->drag.pull == HW_PULL_NONE)
    hw_canvas_zoom_fit (canvas);
  else if (!hw_canvas_take_place (canvas))
    hw_canvas_set_view (canvas, &canvas->view);
  hw_canvas_spoil (canvas, HW_ALL_LAYERS);
  if (canvas->menu != NULL)
    gtk_popover_present (GTK_POPOVER (canvas->menu));
}

static void
hw_canvas_measure (GtkWidget *widget,
                   GtkOrientation orientation,
                   int for_size,
                   int *minimum,
                   int *natural,
                   int *minimum_baseline,
                   int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 320 : 240;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 860 : 620;
}

/* The desktop is dark when its letters are light; words on the table are as large as its words. */
static void
read_theme (HwCanvas *canvas)
{
  GtkSettings *settings = gtk_widget_get_settings (GTK_WIDGET (canvas));
  GdkRGBA ink;
  gboolean dark, clear, resized;
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  resized = hw_text_set_scale (dpi / DPI_UNITS / USUAL_DPI);
  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (canvas)), &ink);
  dark = hw_colour_luminance ((HwColour){ ink.red, ink.green, ink.blue }) > 0.4;
  clear = hw_contrast_is_high (settings);
  if (dark == canvas->dark && clear == canvas->clear && !resized)
    return;
  if (resized && canvas->bench != NULL)
    hw_canvas_refresh_rules (canvas);
  canvas->dark = dark;
  canvas->clear = clear;
  hw_canvas_forget_tags (canvas);
  hw_canvas_spoil (canvas, HW_ALL_LAYERS);
}

static void
hw_canvas_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hw_canvas_parent_class)->css_changed (widget, change);
  read_theme (HW_CANVAS (widget));
}

static void
hw_canvas_state_flags_changed (GtkWidget *widget, GtkStateFlags before)
{
  GTK_WIDGET_CLASS (hw_canvas_parent_class)->state_flags_changed (widget, before);
  hw_canvas_spoil (HW_CANVAS (widget), HW_BIT (HW_LAYER_RULER_MARKS));
}

void
hw_canvas_set_bench (HwCanvas *canvas, HwBench *bench)
{
  g_return_if_fail (HW_IS_CANVAS (canvas));
  g_return_if_fail (bench == NULL || HW_IS_BENCH (bench));

  if (canvas->bench == bench)
    return;
  if (canvas->bench != NULL)
    hw_canvas_stop_listening (canvas);
  g_set_object (&canvas->bench, bench);
  if (bench != NULL)
    hw_canvas_listen (canvas);
  hw_canvas_zoom_fit (canvas);
  hw_canvas_spoil (canvas, HW_ALL_LAYERS);
  g_object_notify_by_pspec (G_OBJECT (canvas), properties[PROP_BENCH]);
}

static void
set_shown (HwCanvas *canvas, gboolean *what, gboolean shown, guint prop)
{
  if (*what == shown)
    return;
  *what = shown;
  g_ptr_array_set_size (canvas->footprints, 0);
  hw_canvas_spoil (canvas, HW_ALL_LAYERS);
  hw_canvas_refresh_density (canvas);
  g_object_notify_by_pspec (G_OBJECT (canvas), properties[prop]);
}

static void
hw_canvas_get_property (GObject *object, guint prop_id, GValue *value, GParamSpec *pspec)
{
  HwCanvas *canvas = HW_CANVAS (object);

  switch (prop_id)
    {
    case PROP_BENCH:
      g_value_set_object (value, canvas->bench);
      break;
    case PROP_SHOW_HOOPINGS:
      g_value_set_boolean (value, canvas->show_hoopings);
      break;
    case PROP_SHOW_MARKS:
      g_value_set_boolean (value, canvas->show_marks);
      break;
    case PROP_SHOW_ORDER:
      g_value_set_boolean (value, canvas->show_order);
      break;
    case PROP_SHOW_DENSITY:
      g_value_set_boolean (value, canvas->show_density);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
hw_canvas_set_property (GObject *object, guint prop_id, const GValue *value, GParamSpec *pspec)
{
  HwCanvas *canvas = HW_CANVAS (object);

  switch (prop_id)
    {
    case PROP_BENCH:
      hw_canvas_set_bench (canvas, g_value_get_object (value));
      break;
    case PROP_SHOW_HOOPINGS:
      set_shown (canvas, &canvas->show_hoopings, g_value_get_boolean (value), prop_id);
      break;
    case PROP_SHOW_MARKS:
      set_shown (canvas, &canvas->show_marks, g_value_get_boolean (value), prop_id);
      break;
    case PROP_SHOW_ORDER:
      set_shown (canvas, &canvas->show_order, g_value_get_boolean (value), prop_id);
      break;
    case PROP_SHOW_DENSITY:
      set_shown (canvas, &canvas->show_density, g_value_get_boolean (value), prop_id);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
hw_canvas_dispose (GObject *object)
{
  HwCanvas *canvas = HW_CANVAS (object);

  if (canvas->bench != NULL)
    {
      hw_drag_cancel (canvas);
      hw_canvas_stop_listening (canvas);
    }
  g_clear_object (&canvas->bench);
  g_clear_handle_id (&canvas->words_source, g_source_remove);
  g_clear_handle_id (&canvas->rest, g_source_remove);
  g_clear_pointer (&canvas->menu, gtk_widget_unparent);
  g_clear_pointer (&canvas->pictures, hw_motif_pictures_free);
  g_clear_pointer (&canvas->density, hw_canvas_density_free);
  g_clear_pointer (&canvas->photo, hw_canvas_photo_free);

  G_OBJECT_CLASS (hw_canvas_parent_class)->dispose (object);
}

static void
hw_canvas_finalize (GObject *object)
{
  HwCanvas *canvas = HW_CANVAS (object);

  for (int i = 0; i < HW_N_LAYERS; i++)
    g_clear_pointer (&canvas->nodes[i], gsk_render_node_unref);
  g_clear_pointer (&canvas->over, gsk_render_node_unref);
  g_clear_pointer (&canvas->gap_node, gsk_render_node_unref);
  hw_sheet_forget (canvas);
  for (guint i = 0; i < G_N_ELEMENTS (canvas->spare); i++)
    g_clear_pointer (&canvas->spare[i], cairo_surface_destroy);
  g_ptr_array_unref (canvas->footprints);
  g_ptr_array_unref (canvas->rings);
  g_hash_table_unref (canvas->tags);
  g_hash_table_unref (canvas->hooping_of);
  g_ptr_array_unref (canvas->cast);
  hw_rules_free (canvas->rules);
  hw_signs_free (canvas->signs);
  g_clear_pointer (&canvas->drawn, hw_plan_unref);
  g_clear_pointer (&canvas->ghosts, g_array_unref);

  G_OBJECT_CLASS (hw_canvas_parent_class)->finalize (object);
}

static GParamSpec *
shown_property (const char *name, gboolean by_default)
{
  return g_param_spec_boolean (name, NULL, NULL, by_default,
                               G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
}

static void
hw_canvas_class_init (HwCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = hw_canvas_get_property;
  object_class->set_property = hw_canvas_set_property;
  object_class->dispose = hw_canvas_dispose;
  object_class->finalize = hw_canvas_finalize;

  widget_class->snapshot = hw_canvas_snapshot;
  widget_class->size_allocate = hw_canvas_size_allocate;
  widget_class->measure = hw_canvas_measure;
  widget_class->css_changed = hw_canvas_css_changed;
  widget_class->state_flags_changed = hw_canvas_state_flags_changed;

  properties[PROP_BENCH]
      = g_param_spec_object ("bench", NULL, NULL, HW_TYPE_BENCH,
                             G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_SHOW_HOOPINGS] = shown_property ("show-hoopings", TRUE);
  properties[PROP_SHOW_MARKS] = shown_property ("show-marks", TRUE);
  properties[PROP_SHOW_ORDER] = shown_property ("show-order", TRUE);
  properties[PROP_SHOW_DENSITY] = shown_property ("show-density", FALSE);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  hw_sheet_keep_memory ();
  gtk_widget_class_set_css_name (widget_class, "table");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
picture_ready_cb (const char *motif_id, gpointer user_data)
{
  HwCanvas *canvas = user_data;
  HwSceneMotif *motif;

  if (canvas->bench == NULL)
    return;
  motif = hw_scene_find_motif (hw_bench_get_scene (canvas->bench), motif_id);
  if (motif != NULL && hw_canvas_is_dragging (canvas) && g_ptr_array_find (canvas->drag.motifs, motif, NULL))
    hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_MOVING));
  else
    {
      hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_MOVING));
      hw_sheet_can_be_better (canvas);
    }
}

static void
hw_canvas_init (HwCanvas *canvas)
{
  GtkWidget *widget = GTK_WIDGET (canvas);

  canvas->cast = g_ptr_array_new_with_free_func (g_object_unref);
  canvas->hooping_of = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  canvas->footprints = g_ptr_array_new ();
  canvas->tags = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)cairo_surface_destroy);
  canvas->pictures = hw_motif_pictures_new (picture_ready_cb, canvas);
  canvas->rings = hw_canvas_rings_new ();
  canvas->density = hw_canvas_density_new ();
  canvas->photo = hw_canvas_photo_new ();
  canvas->rules = hw_rules_new ();
  canvas->signs = hw_signs_new ();
  canvas->told = (HwPoint){ NAN, NAN };
  canvas->show_hoopings = canvas->show_marks = canvas->show_order = TRUE;
  canvas->view = (HwView){ 1, 0, 0 };
  canvas->device = 1;
  canvas->fitted = TRUE;
  canvas->stale = HW_ALL_LAYERS;
  canvas->hover_motif = canvas->hover_hooping = canvas->hover_ghost = canvas->hover_sign = canvas->hover_mark
      = -1;
  canvas->hover_handle = HW_HANDLE_NONE;

  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (canvas), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("The cloth"),
                                  -1);
  hw_canvas_add_gestures (canvas);
  hw_canvas_add_mark_actions (canvas);
  hw_canvas_add_keys (canvas);
}

GtkWidget *
hw_canvas_new (HwBench *bench)
{
  return g_object_new (HW_TYPE_CANVAS, "bench", bench, NULL);
}
