/* Marks found by themselves. Where a mark should be is told by the rough squaring; how long its arms are is not known for sure, so that
 * some lengths are tried. What is found is offered, never used. */
#include "photo-marks.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/at-work.h"

#define SURE 0.8
#define LIKELY 0.5
#define LEAST 0.2     /* less is not worth a look */
#define FEWEST_PX 4.0 /* px a half cross must have in the photo to be looked for */

/* px a millimetre takes about there, or 0 when the place is not in the photo. */
static double
scale_at (const HwPicture *picture, const HwHomography *h, HwPoint mm, HwPoint *px)
{
  HwPoint right, down;

  if (!hw_homography_back (h, mm, px) || !hw_homography_back (h, (HwPoint){ mm.x + 1, mm.y }, &right)
      || !hw_homography_back (h, (HwPoint){ mm.x, mm.y + 1 }, &down))
    return 0;
  if (!(px->x >= 0 && px->y >= 0 && px->x <= picture->width && px->y <= picture->height))
    return 0;
  return (hw_point_distance (*px, right) + hw_point_distance (*px, down)) / 2;
}

static gboolean
look_at (const HwPicture *picture, const HwHomography *h, double around, HwSeenMark *mark)
{
  static const double arms[] = { 5, 3, 8 }; /* mm, half a cross: common practice, no source */
  HwPoint guess, lies;
  double scale = scale_at (picture, h, mark->mm, &guess);

  mark->found.confidence = -1;
  for (guint i = 0; scale > 0 && i < G_N_ELEMENTS (arms); i++)
    {
      HwFoundMark found;

      if (arms[i] * scale >= FEWEST_PX
          && hw_find_cross (picture, guess, around * scale, arms[i] * scale, &found)
          && found.confidence > mark->found.confidence)
        mark->found = found;
    }
  if (mark->found.confidence < LEAST)
    return FALSE;
  lies = hw_homography_apply (h, mark->found.px);
  mark->off = hw_point_distance (lies, mark->mm);
  mark->sigma = mark->found.sigma / scale;
  return isfinite (mark->off);
}

static int
surest_first (gconstpointer a, gconstpointer b)
{
  const HwSeenMark *first = a, *second = b;

  return (first->found.confidence < second->found.confidence)
         - (first->found.confidence > second->found.confidence);
}

GArray *
hw_photo_look_for_marks (const HwPicture *picture,
                         const HwHomography *h,
                         const GPtrArray *places,
                         double around,
                         GCancellable *cancellable)
{
  GArray *seen = g_array_new (FALSE, FALSE, sizeof (HwSeenMark));

  g_return_val_if_fail (picture != NULL && h != NULL && places != NULL, seen);

  for (guint i = 0; i < places->len && !g_cancellable_is_cancelled (cancellable); i++)
    {
      const HwKnownPlace *place = g_ptr_array_index (places, i);
      HwSeenMark mark = { .place = i, .mm = place->mm };

      if (place->kind == HW_KNOWN_MARK && look_at (picture, h, around, &mark))
        g_array_append_val (seen, mark);
    }
  g_array_sort (seen, surest_first);
  return seen;
}

typedef struct
{
  HwPicture *picture;
  HwHomography h;
  GPtrArray *places;
  double around;
  GArray *seen;
} Search;

static void
search_free (gpointer data)
{
  Search *search = data;

  hw_picture_unref (search->picture);
  g_ptr_array_unref (search->places);
  g_clear_pointer (&search->seen, g_array_unref);
  g_free (search);
}

static void
search_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Search *search = data;

  search->seen
      = hw_photo_look_for_marks (search->picture, &search->h, search->places, search->around, cancellable);
  g_task_return_boolean (task, TRUE);
}

void
hw_photo_look_for_marks_async (HwPicture *picture,
                               const HwHomography *h,
                               GPtrArray *places,
                               double around,
                               GObject *source,
                               GCancellable *cancellable,
                               GAsyncReadyCallback looked)
{
  g_return_if_fail (picture != NULL && h != NULL && places != NULL && G_IS_OBJECT (source));

  g_autoptr (GTask) task = g_task_new (source, cancellable, looked, NULL);
  Search *search = g_new0 (Search, 1);

  search->picture = hw_picture_ref (picture);
  search->h = *h;
  search->places = g_ptr_array_ref (places);
  search->around = around;
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, search, search_free);
  hw_at_work_run (task, search_thread);
}

GArray *
hw_photo_look_for_marks_finish (GAsyncResult *result, GPtrArray **places)
{
  g_return_val_if_fail (G_IS_TASK (result), NULL);

  Search *search = g_task_get_task_data (G_TASK (result));

  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return NULL;
  if (places != NULL)
    *places = g_ptr_array_ref (search->places);
  return g_steal_pointer (&search->seen);
}

const char *
hw_seen_mark_words (const HwSeenMark *mark)
{
  g_return_val_if_fail (mark != NULL, NULL);

  if (mark->found.confidence >= SURE)
    return _ ("sure");
  return mark->found.confidence >= LIKELY ? _ ("rather sure") : _ ("not sure");
}

gboolean
hw_seen_mark_is_sure (const HwSeenMark *mark)
{
  g_return_val_if_fail (mark != NULL, FALSE);
  return mark->found.confidence >= LIKELY;
}
