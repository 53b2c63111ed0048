/* The pointer's shape says what a press would do. */

#include <math.h>

#include "canvas-private.h"

/* Two thirds of a circle with heads at both ends: there is no turning pointer among the desktop's own. */
static GdkCursor *
turn_cursor (void)
{
  static GdkCursor *cursor;
  cairo_surface_t *surface;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GdkTexture) texture = NULL;
  g_autoptr (GdkCursor) fallback = NULL;
  cairo_t *cr;

  if (cursor != NULL)
    return cursor;
  surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 24, 24);
  cr = cairo_create (surface);
  for (int pass = 0; pass < 2; pass++)
    {
      cairo_set_source_rgb (cr, pass == 0, pass == 0, pass == 0);
      cairo_set_line_width (cr, pass == 0 ? 4.5 : 2);
      cairo_arc (cr, 12, 13, 7, -0.9 * G_PI, -0.1 * G_PI);
      cairo_stroke (cr);
      for (int side = -1; side <= 1; side += 2)
        {
          cairo_move_to (cr, 12 + side * 10.5, 9.5);
          cairo_line_to (cr, 12 + side * 3.2, 10.2);
          cairo_line_to (cr, 12 + side * 7.5, 16);
          cairo_close_path (cr);
          if (pass == 0)
            {
              cairo_set_line_width (cr, 2);
              cairo_stroke_preserve (cr);
            }
          cairo_fill (cr);
        }
    }
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  bytes = g_bytes_new (cairo_image_surface_get_data (surface),
                       24 * (gsize)cairo_image_surface_get_stride (surface));
  texture = gdk_memory_texture_new (24, 24, GDK_MEMORY_DEFAULT, bytes,
                                    (gsize)cairo_image_surface_get_stride (surface));
  fallback = gdk_cursor_new_from_name ("crosshair", NULL);
  cursor = gdk_cursor_new_from_texture (texture, 12, 12, fallback);
  cairo_surface_destroy (surface);
  return cursor;
}

/* The two-headed pointer nearest to the direction in which a corner is pulled. */
static const char *
resize_name (HwCanvas *canvas, HwHandle handle)
{
  static const char *const names[4] = { "ew-resize", "nwse-resize", "ns-resize", "nesw-resize" };
  HwHandleFrame frame;
  HwPoint corner;
  gboolean fixed;
  double direction;

  if (!hw_canvas_selection_frame (canvas, &frame, &fixed))
    return "default";
  corner = hw_handle_frame_corner (&frame, handle);
  direction = atan2 (corner.y - frame.centre.y, corner.x - frame.centre.x) * 4 / G_PI;
  return names[(((int)round (direction)) % 4 + 4) % 4];
}

/* With Alt a press reaches through to the motif below, where there is one. */
static gboolean
reaches_below (HwCanvas *canvas)
{
  g_autoptr (GArray) stack = canvas->alt_held ? hw_canvas_stack_at (canvas, canvas->pointer) : NULL;

  return stack != NULL && stack->len > 1;
}

static const char *
motif_name (HwCanvas *canvas)
{
  if (reaches_below (canvas))
    return "cell";
  if (hw_canvas_record (canvas, (guint)canvas->hover_motif)->locked)
    return hw_canvas_is_selected (canvas, (guint)canvas->hover_motif) ? "not-allowed" : "pointer";
  return hw_canvas_is_selected (canvas, (guint)canvas->hover_motif) ? "move" : "pointer";
}

static const char *
cursor_name (HwCanvas *canvas)
{
  HwHandle handle = canvas->drag.pull == HW_PULL_NONE ? canvas->hover_handle : canvas->drag.handle;

  if (canvas->drag.pull == HW_PULL_PAN)
    return "grabbing";
  if (canvas->space_held)
    return "grab";
  if (canvas->drag.pull == HW_PULL_BAND)
    return "crosshair";
  if (canvas->drag.pull == HW_PULL_MARK)
    return "grabbing";
  if (canvas->drag.pull == HW_PULL_NONE && canvas->hover_mark >= 0)
    return hw_marks_can_be_pulled (canvas) ? "move" : "not-allowed";
  if (handle == HW_HANDLE_TURN)
    return NULL;
  if (handle != HW_HANDLE_NONE)
    return resize_name (canvas, handle);
  if (canvas->drag.pull == HW_PULL_MOVE)
    return "grabbing";
  if (canvas->hover_ghost >= 0 || canvas->hover_hooping >= 0)
    return "pointer";
  if (canvas->hover_motif >= 0 && canvas->hover_motif < (int)canvas->cast->len)
    return motif_name (canvas);
  return "default";
}

void
hw_canvas_update_cursor (HwCanvas *canvas)
{
  const char *name = cursor_name (canvas);

  if (name == NULL)
    gtk_widget_set_cursor (GTK_WIDGET (canvas), turn_cursor ());
  else
    gtk_widget_set_cursor_from_name (GTK_WIDGET (canvas), name);
}
