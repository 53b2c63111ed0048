/* The photograph under the motifs, in its true size. It is put square once, in the background: coarsely at first, then as finely as the photo itself is, up to a bound;
 * from then on drawing it costs what drawing any picture costs, at every zoom. */
#include "canvas-photo.h"

#include <math.h>

#include "../drawing/at-work.h"
#include "../registration/homography.h"
#include "canvas-private.h"
#include "photo-file.h"
#include "photo-levels.h"

#define COARSE_PIXELS 1e6
#define MOST_PIXELS 16e6
#define FINEST 40.0        /* px/mm: finer than any thread */
#define FADED_MOTIF 0.9    /* of a motif's strength goes at the strongest fading */
#define FADED_STITCHED 2.0 /* what is stitched goes twice as fast: the photo shows it */

struct _HwCanvasPhoto
{
  HwPhoto *photo; /* of levels, or of what is under way; or NULL */
  HwBox box;      /* mm of the cloth that the levels show */
  HwPhotoLevels *levels;
  char *folder; /* where the photo's path starts */
  GCancellable *cancellable;
  guint idle;
  gboolean sharp; /* levels are as fine as they will be */
};

/* What a background thread needs, and gives. */
typedef struct
{
  HwPhoto *photo;
  char *folder;
  HwBox box;
  HwPicture *picture; /* NULL: to be loaded */
  gboolean coarse;
  HwPhotoLevels *levels;
} Work;

static void
work_free (gpointer data)
{
  Work *work = data;

  hw_photo_unref (work->photo);
  g_free (work->folder);
  g_clear_pointer (&work->picture, hw_picture_unref);
  g_clear_pointer (&work->levels, hw_photo_levels_unref);
  g_free (work);
}

HwCanvasPhoto *
hw_canvas_photo_new (void)
{
  return g_new0 (HwCanvasPhoto, 1);
}

static void
forget (HwCanvasPhoto *photo)
{
  if (photo->cancellable != NULL)
    g_cancellable_cancel (photo->cancellable);
  g_clear_object (&photo->cancellable);
  g_clear_pointer (&photo->photo, hw_photo_unref);
  g_clear_pointer (&photo->folder, g_free);
  g_clear_pointer (&photo->levels, hw_photo_levels_unref);
  photo->sharp = FALSE;
}

void
hw_canvas_photo_free (HwCanvasPhoto *photo)
{
  g_return_if_fail (photo != NULL);

  g_clear_handle_id (&photo->idle, g_source_remove);
  forget (photo);
  g_free (photo);
}

static gboolean
way_cb (double x_mm, double y_mm, double *x_px, double *y_px, gpointer data)
{
  HwPoint px;

  if (!hw_homography_back (data, (HwPoint){ x_mm, y_mm }, &px))
    return FALSE;
  *x_px = px.x;
  *y_px = px.y;
  return TRUE;
}

/* The most photo pixels a millimetre has anywhere on the cloth. */
static double
finest_scale (const HwPicture *picture, const HwHomography *h, HwBox box)
{
  double finest = 0;

  for (int i = 0; i <= 4; i++)
    for (int k = 0; k <= 4; k++)
      {
        HwPoint mm = { box.x0 + (box.x1 - box.x0) * i / 4, box.y0 + (box.y1 - box.y0) * k / 4 };
        HwPoint px, beside;

        if (hw_homography_back (h, mm, &px)
            && hw_homography_back (h, (HwPoint){ mm.x + 1, mm.y + 1 }, &beside) && px.x >= 0 && px.y >= 0
            && px.x <= picture->width && px.y <= picture->height)
          finest = MAX (finest, hw_point_distance (px, beside) / G_SQRT2);
      }
  return finest;
}

static HwPhotoLevels *
square (const Work *work, GError **error)
{
  const HwPhoto *photo = work->photo;
  const HwPicture *picture = work->picture;
  double width = work->box.x1 - work->box.x0, height = work->box.y1 - work->box.y0;
  double most = work->coarse ? COARSE_PIXELS : MOST_PIXELS, scale;
  g_autoptr (HwPicture) squared = NULL;
  HwHomography h;

  if (!hw_homography_fit (photo->points, photo->n_points, picture->width, picture->height, photo->bow, FALSE,
                          &h, NULL, error))
    return NULL;
  scale = MIN (MIN (finest_scale (picture, &h, work->box), FINEST), sqrt (most / (width * height)));
  scale = MAX (scale, 0.01);
  squared = hw_picture_squared (picture, work->box.x0, work->box.y0, width, height, scale * 25.4, way_cb, &h,
                                error);
  return squared != NULL ? hw_photo_levels_new (squared, most) : NULL;
}

static void
square_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Work *work = data;
  GError *error = NULL;

  if (work->picture == NULL)
    work->picture = hw_photo_load (work->photo, work->folder, &error);
  if (work->picture != NULL && !g_cancellable_is_cancelled (cancellable))
    work->levels = square (work, &error);
  if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_boolean (task, TRUE);
}

static void
begin (HwCanvas *canvas, Work *work);

static void
squared_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwCanvas *canvas = HW_CANVAS (source);
  HwCanvasPhoto *photo = canvas->photo;
  Work *work = g_task_get_task_data (G_TASK (result));
  gboolean wanted = photo != NULL && g_task_get_cancellable (G_TASK (result)) == photo->cancellable
                    && !g_cancellable_is_cancelled (photo->cancellable);
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  if (!wanted)
    return;
  if (error != NULL)
    {
      gtk_widget_activate_action (GTK_WIDGET (canvas), "win.tell-of-photo", "s", error->message);
      return;
    }
  if (work->levels == NULL)
    return;
  g_clear_pointer (&photo->levels, hw_photo_levels_unref);
  photo->levels = hw_photo_levels_ref (work->levels);
  photo->box = work->box;
  photo->sharp = !work->coarse;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL));
  if (work->coarse)
    {
      Work *finer = g_new0 (Work, 1);

      finer->photo = hw_photo_ref (work->photo);
      finer->box = work->box;
      finer->picture = hw_picture_ref (work->picture);
      begin (canvas, finer);
    }
}

/* Takes over work. */
static void
begin (HwCanvas *canvas, Work *work)
{
  g_autoptr (GTask) task = g_task_new (canvas, canvas->photo->cancellable, squared_cb, NULL);

  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, work, work_free);
  hw_at_work_run (task, square_thread);
}

/* Whether two records put square give the same picture. */
static gboolean
same_picture (const HwPhoto *a, const HwPhoto *b)
{
  if (a == NULL || b == NULL)
    return a == b;
  if (a->bytes != b->bytes || g_strcmp0 (a->path, b->path) != 0 || a->bow != b->bow
      || a->n_points != b->n_points)
    return FALSE;
  for (guint i = 0; i < a->n_points; i++)
    if (hw_point_distance (a->points[i].px, b->points[i].px) > 0
        || hw_point_distance (a->points[i].mm, b->points[i].mm) > 0)
      return FALSE;
  return TRUE;
}

/* The photo that is to be seen: shown, and put square; or NULL. */
static const HwPhoto *
shown_photo (HwCanvas *canvas)
{
  HwScene *scene = hw_bench_get_scene (canvas->bench);
  int shown = hw_scene_get_photo_shown (scene);
  const HwPhoto *photo = shown >= 0 ? g_ptr_array_index (hw_scene_get_photos (scene), (guint)shown) : NULL;

  return photo != NULL && photo->n_points >= 4 ? photo : NULL;
}

/* The photo that is shown is read in the background, coarsely first. */
static void
read_shown (HwCanvas *canvas)
{
  HwCanvasPhoto *photo = canvas->photo;
  Work *work = g_new0 (Work, 1);

  photo->cancellable = g_cancellable_new ();
  work->photo = hw_photo_ref (photo->photo);
  work->folder = g_strdup (photo->folder);
  work->box = photo->box;
  work->coarse = TRUE;
  begin (canvas, work);
}

void
hw_canvas_reread_photo (HwCanvas *canvas)
{
  HwCanvasPhoto *photo = canvas->photo;

  if (photo->photo == NULL || photo->photo->path == NULL)
    return;
  g_cancellable_cancel (photo->cancellable);
  g_clear_object (&photo->cancellable);
  read_shown (canvas);
}

static void
refresh (HwCanvas *canvas)
{
  HwCanvasPhoto *photo = canvas->photo;
  const HwPhoto *shown = shown_photo (canvas);
  HwBox box = hw_canvas_cloth_box (canvas);
  const char *folder = hw_bench_get_folder (canvas->bench);
  gboolean same_box = box.x1 == photo->box.x1 && box.y1 == photo->box.y1;
  gboolean same_folder = shown == NULL || shown->path == NULL || g_strcmp0 (folder, photo->folder) == 0;

  if (same_picture (shown, photo->photo) && (shown == NULL || (same_box && same_folder)))
    {
      if (shown != NULL && shown != photo->photo)
        {
          hw_photo_unref (photo->photo);
          photo->photo = hw_photo_ref (shown);
          hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL));
        }
      return;
    }
  forget (photo);
  photo->box = box;
  hw_canvas_spoil (canvas, HW_BIT (HW_LAYER_STILL));
  if (shown == NULL)
    return;
  photo->photo = hw_photo_ref (shown);
  photo->folder = g_strdup (folder);
  read_shown (canvas);
}

static gboolean
idle_cb (gpointer user_data)
{
  HwCanvas *canvas = user_data;

  canvas->photo->idle = 0;
  if (canvas->bench != NULL)
    refresh (canvas);
  return G_SOURCE_REMOVE;
}

/* Soon: while another scene is being opened, its folder is not known yet. Before the table is painted again, so that no frame shows it as it looked before. */
void
hw_canvas_refresh_photo (HwCanvas *canvas)
{
  if (canvas->photo->idle == 0)
    canvas->photo->idle = g_idle_add_full (GTK_PRIORITY_RESIZE, idle_cb, canvas, NULL);
}

gboolean
hw_canvas_photo_is_sharp (HwCanvas *canvas)
{
  return canvas->photo->sharp;
}

void
hw_canvas_draw_photo (HwCanvas *canvas, cairo_t *cr)
{
  HwCanvasPhoto *photo = canvas->photo;
  double brightness;

  if (photo->levels == NULL)
    return;
  brightness = photo->photo->brightness;
  cairo_save (cr);
  cairo_rectangle (cr, photo->box.x0, photo->box.y0, photo->box.x1 - photo->box.x0,
                   photo->box.y1 - photo->box.y0);
  cairo_clip (cr);
  cairo_push_group (cr);
  hw_photo_levels_paint (photo->levels, cr, photo->box.x0, photo->box.y0, photo->box.x1 - photo->box.x0,
                         photo->box.y1 - photo->box.y0);
  if (brightness != 0)
    {
      double shade = brightness > 0 ? 1 : 0;

      cairo_set_operator (cr, CAIRO_OPERATOR_ATOP);
      cairo_set_source_rgba (cr, shade, shade, shade, 0.8 * fabs (brightness));
      cairo_paint (cr);
    }
  cairo_pop_group_to_source (cr);
  cairo_paint_with_alpha (cr, photo->photo->strength);
  cairo_restore (cr);
}

static gboolean
is_stitched (HwCanvas *canvas, const char *motif_id)
{
  GPtrArray *frozen = hw_scene_get_frozen (hw_bench_get_scene (canvas->bench));

  for (guint i = 0; i < frozen->len; i++)
    {
      const HwPin *pin = g_ptr_array_index (frozen, i);

      if (pin->motifs != NULL && g_strv_contains ((const char *const *)pin->motifs, motif_id))
        return TRUE;
    }
  return FALSE;
}

double
hw_canvas_photo_alpha (HwCanvas *canvas, const char *motif_id)
{
  double fade = hw_scene_get_photo_fade (hw_bench_get_scene (canvas->bench));

  if (fade <= 0 || canvas->photo->levels == NULL)
    return 1;
  if (is_stitched (canvas, motif_id))
    return MAX (1 - FADED_STITCHED * fade, 0);
  return 1 - FADED_MOTIF * fade;
}
