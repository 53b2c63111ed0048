/* The small picture is the scene's picture with a hairline of one pixel; nothing is planned for it, so that a folder of scenes is shown at once. */
#include "scene-thumb.h"

#include "../formats/whole-file.h"
#include "cloth-drawing.h"

cairo_surface_t *
hw_scene_thumb (const HwSnapshot *scene, guint longer_side)
{
  g_return_val_if_fail (scene != NULL, NULL);
  g_return_val_if_fail (longer_side >= 1 && longer_side <= HW_SCENE_THUMB_MOST, NULL);

  double fine = longer_side / MAX (scene->fabric.width, scene->fabric.height);
  int width = (int)MAX (1, scene->fabric.width * fine + 0.5);
  int height = (int)MAX (1, scene->fabric.height * fine + 0.5);
  const HwSceneLook look
      = { .flags = HW_SCENE_PICTURE_PLAIN, .stage = -1, .pixels_per_mm = fine, .px = 1 / fine };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);

  cairo_scale (cr, fine, fine);
  hw_draw_scene (cr, scene, NULL, &look);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static cairo_status_t
collect_cb (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

gboolean
hw_scene_thumb_save (const HwSnapshot *scene, guint longer_side, const char *path, GError **error)
{
  g_autoptr (GByteArray) png = g_byte_array_new ();
  g_autoptr (GError) problem = NULL;
  g_autofree char *name = NULL;
  cairo_surface_t *surface;
  cairo_status_t status;

  g_return_val_if_fail (path != NULL, FALSE);

  surface = hw_scene_thumb (scene, longer_side);
  status = cairo_surface_write_to_png_stream (surface, collect_cb, png);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS
      && hw_file_replace_whole (path, (const char *)png->data, png->len, &problem))
    return TRUE;
  name = hw_file_shown_name (path);
  g_set_error (error, G_FILE_ERROR, problem != NULL ? problem->code : G_FILE_ERROR_NOMEM, "%s: %s", name,
               problem != NULL ? problem->message : cairo_status_to_string (status));
  return FALSE;
}
