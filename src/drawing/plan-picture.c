/* The picture of a plan as PNG or SVG. Lines and numbers keep their size beside the picture, however finely it is painted: a hairline is
 * always the same part of its longer side. */
#include "plan-picture.h"

#include <cairo-svg.h>
#include <math.h>
#include <string.h>

#include "../formats/picture-load.h"
#include "../formats/whole-file.h"
#include "../geometry/language.h"
#include "../scene/limits.h"
#include "cloth-drawing.h"

G_DEFINE_QUARK (hw_plan_picture_error_quark, hw_plan_picture_error)

#define HAIRLINES 1000.0 /* side by side along the longer side */
#define BESIDE                                                                                               \
  28.0 /* hairlines left free around a hooping that reaches beyond the cloth: room for its number and arrow */

/* What of the cloth's plane is shown, and how. */
typedef struct
{
  HwBox box; /* fabric mm */
  HwSceneLook look;
} View;

/* A hooping's field, or its frame, as it lies on the cloth. */
static HwBox
hooping_box (const HwSnapshot *snapshot, const HwHooping *hooping, gboolean frame)
{
  const HwHoop *hoop = hw_snapshot_hoop (snapshot, hooping->hoop);
  double w = (frame ? MAX (hoop->frame_width, hoop->field_width) : hoop->field_width) / 2;
  double h = (frame ? MAX (hoop->frame_height, hoop->field_height) : hoop->field_height) / 2;
  HwPoint corners[] = { { -w, -h }, { w, -h }, { w, h }, { -w, h } };

  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      corners[i] = hw_point_turn (corners[i], hooping->angle);
      corners[i].x += hooping->centre.x;
      corners[i].y += hooping->centre.y;
    }
  return hw_box_of_points (corners, G_N_ELEMENTS (corners));
}

/* The pictures of all stages show the same, so that they can be laid side by side. */
static HwBox
shown_box (const HwPlan *plan, const HwPlanPictureOptions *options)
{
  const HwFabric *fabric = &plan->snapshot->fabric;
  const HwBox cloth = { 0, 0, fabric->width, fabric->height };
  double beside = BESIDE / HAIRLINES * MAX (fabric->width, fabric->height);
  HwBox box = cloth;

  if (options->plain)
    return box;
  for (guint h = 0; h < plan->n_hoopings; h++)
    box = hw_box_union (box, hooping_box (plan->snapshot, &plan->hoopings[h], options->stage >= 0));
  return (HwBox){ box.x0 - (box.x0 < cloth.x0 ? beside : 0), box.y0 - (box.y0 < cloth.y0 ? beside : 0),
                  box.x1 + (box.x1 > cloth.x1 ? beside : 0), box.y1 + (box.y1 > cloth.y1 ? beside : 0) };
}

static View
view_of (const HwPlan *plan, const HwPlanPictureOptions *options)
{
  View view = { .box = shown_box (plan, options) };
  double width = view.box.x1 - view.box.x0, height = view.box.y1 - view.box.y0;
  double dpi = options->dpi > 0 ? options->dpi : HW_PLAN_PICTURE_DPI;

  view.look
      = (HwSceneLook){ .flags = options->plain ? HW_SCENE_PICTURE_PLAIN : HW_SCENE_PICTURE_FOOTPRINTS,
                       .stage = options->stage,
                       .pixels_per_mm = options->width > 0 ? options->width / width : dpi / HW_MM_PER_INCH,
                       .px = MAX (width, height) / HAIRLINES };
  if (options->stage >= 0 && !options->plain)
    view.look.flags |= HW_SCENE_PICTURE_MARKS;
  return view;
}

/* The picture in pixels, or FALSE when that would be none or too many. */
static gboolean
pixel_size (const View *view, int *width, int *height, GError **error)
{
  double across = rint ((view->box.x1 - view->box.x0) * view->look.pixels_per_mm);
  double down = rint ((view->box.y1 - view->box.y0) * view->look.pixels_per_mm);

  if (across >= 1 && down >= 1 && across * down <= HW_MOST_PLAN_PICTURE_PIXELS
      && MAX (across, down) <= HW_LARGEST_PLAN_PICTURE_SIDE)
    {
      *width = (int)across;
      *height = (int)down;
      return TRUE;
    }
  if (across >= 1 && down >= 1)
    g_set_error (error, HW_PLAN_PICTURE_ERROR, HW_PLAN_PICTURE_ERROR_SIZE,
                 _ ("the picture would be %.0f by %.0f pixels. At most %.0f million are painted, and %.0f "
                    "along a side; "
                    "ask for fewer."),
                 across, down, HW_MOST_PLAN_PICTURE_PIXELS / 1e6, HW_LARGEST_PLAN_PICTURE_SIDE);
  else
    g_set_error (error, HW_PLAN_PICTURE_ERROR, HW_PLAN_PICTURE_ERROR_SIZE,
                 _ ("the picture would be less than a pixel high or wide; ask for more."));
  return FALSE;
}

static void
draw (cairo_t *cr, const HwPlan *plan, const View *view)
{
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, -view->box.x0, -view->box.y0);
  hw_draw_scene (cr, plan->snapshot, plan, &view->look);
}

/* --- PNG */

/* Red, green, blue and opacity of an opaque surface. */
static HwPicture *
take_pixels (cairo_surface_t *surface, double dpi)
{
  guint width = (guint)cairo_image_surface_get_width (surface);
  guint height = (guint)cairo_image_surface_get_height (surface);
  gsize stride = (gsize)width * 4;
  guint8 *pixels = g_malloc (stride * height);
  const guint8 *from = cairo_image_surface_get_data (surface);
  int from_stride = cairo_image_surface_get_stride (surface);
  HwPicture *picture;

  for (guint y = 0; y < height; y++)
    for (guint x = 0; x < width; x++)
      {
        guint32 word;
        guint8 *to = pixels + y * stride + (gsize)x * 4;

        memcpy (&word, from + (gssize)y * from_stride + (gsize)x * 4, sizeof word);
        to[0] = (guint8)(word >> 16);
        to[1] = (guint8)(word >> 8);
        to[2] = (guint8)word;
        to[3] = 255;
      }
  picture = hw_picture_new (width, height, stride, pixels);
  picture->dpi_x = picture->dpi_y = dpi;
  return picture;
}

static gboolean
save_png (const HwPlan *plan, const View *view, const char *path, GError **error)
{
  g_autoptr (HwPicture) picture = NULL;
  g_autoptr (GError) problem = NULL;
  cairo_surface_t *surface;
  cairo_t *cr;
  int width, height;

  if (!pixel_size (view, &width, &height, error))
    return FALSE;
  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cr = cairo_create (surface);
  cairo_scale (cr, view->look.pixels_per_mm, view->look.pixels_per_mm);
  draw (cr, plan, view);
  cairo_surface_flush (surface);
  if (cairo_status (cr) == CAIRO_STATUS_SUCCESS && cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS)
    picture = take_pixels (surface, view->look.pixels_per_mm * HW_MM_PER_INCH);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  if (picture == NULL)
    g_set_error (error, HW_PLAN_PICTURE_ERROR, HW_PLAN_PICTURE_ERROR_WRITE,
                 _ ("there is too little memory for a picture of %d by %d pixels."), width, height);
  else if (hw_picture_save_png (picture, path, &problem))
    return TRUE;
  else
    g_set_error_literal (error, HW_PLAN_PICTURE_ERROR, HW_PLAN_PICTURE_ERROR_WRITE, problem->message);
  return FALSE;
}

/* --- SVG */

static cairo_status_t
write_cb (void *closure, const unsigned char *data, unsigned int length)
{
  g_string_append_len (closure, (const char *)data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* The scene's name becomes the drawing's title, which browsers show and screen readers read. */
static void
add_title (GString *svg, const char *name)
{
  const char *root = strstr (svg->str, "<svg "), *end = root != NULL ? strchr (root, '>') : NULL;
  g_autofree char *shown = NULL, *title = NULL;

  if (end == NULL || name == NULL || *name == '\0')
    return;
  shown = g_utf8_make_valid (name, -1);
  for (char *c = shown; *c != '\0'; c++)
    if ((guchar)*c < 0x20)
      *c = ' ';
  title = g_markup_printf_escaped ("\n<title>%s</title>", shown);
  g_string_insert (svg, end + 1 - svg->str, title);
}

static gboolean
save_svg (const HwPlan *plan, const View *view, const char *path, GError **error)
{
  g_autoptr (GString) svg = g_string_new (NULL);
  g_autoptr (GError) problem = NULL;
  g_autofree char *name = NULL;
  cairo_surface_t *surface;
  cairo_status_t status;
  cairo_t *cr;
  int width, height;

  if (!pixel_size (view, &width, &height, error))
    return FALSE;
  surface = cairo_svg_surface_create_for_stream (write_cb, svg, view->box.x1 - view->box.x0,
                                                 view->box.y1 - view->box.y0);
  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_MM);
  cr = cairo_create (surface);
  draw (cr, plan, view);
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  add_title (svg, plan->snapshot->name);
  if (status == CAIRO_STATUS_SUCCESS && hw_file_replace_whole (path, svg->str, svg->len, &problem))
    return TRUE;
  name = hw_file_shown_name (path);
  g_set_error (error, HW_PLAN_PICTURE_ERROR, HW_PLAN_PICTURE_ERROR_WRITE, "%s: %s", name,
               problem != NULL ? problem->message : cairo_status_to_string (status));
  return FALSE;
}

/* --- Files */

gboolean
hw_plan_picture_path_check (const char *path, GError **error)
{
  g_autofree char *name = NULL;

  g_return_val_if_fail (path != NULL, FALSE);

  if (hw_file_ends_in (path, ".png") || hw_file_ends_in (path, ".svg"))
    return TRUE;
  name = hw_file_shown_name (path);
  g_set_error (error, HW_PLAN_PICTURE_ERROR, HW_PLAN_PICTURE_ERROR_ENDING,
               _ ("%s: a picture is written to a file whose name ends in .png or .svg."), name);
  return FALSE;
}

gboolean
hw_plan_picture_save (const HwPlan *plan,
                      const HwPlanPictureOptions *options,
                      const char *path,
                      GError **error)
{
  View view;

  g_return_val_if_fail (plan != NULL && options != NULL && path != NULL, FALSE);
  g_return_val_if_fail (options->dpi >= 0, FALSE);

  if (!hw_plan_picture_path_check (path, error))
    return FALSE;
  view = view_of (plan, options);
  return hw_file_ends_in (path, ".png") ? save_png (plan, &view, path, error)
                                        : save_svg (plan, &view, path, error);
}
