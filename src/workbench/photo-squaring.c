/* A photograph being put square. The view is fitted to the handles (registration/homography.h); a sheet of paper whose place on the cloth nobody measured is first
 * brought to it by two or more of the other points: the sheet tells how the photo is tilted, they tell where it lies. */
#include "photo-squaring.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../registration/rigid-fit.h"

#define INWARD 0.2   /* of the photo's sides: where handles begin */
#define FILLED 0.75  /* of the photo, by a frame that handles begin on */
#define TELLING 5    /* points from which their agreement says something */
#define DOUBTFUL 1.0 /* mm: points that are farther off are spoken of */

static void
point_free (gpointer data)
{
  HwHandlePoint *point = data;

  g_free (point->name);
  g_free (point);
}

HwSquaring *
hw_squaring_new (double width, double height)
{
  HwSquaring *squaring = g_new0 (HwSquaring, 1);

  squaring->width = width;
  squaring->height = height;
  squaring->points = g_ptr_array_new_with_free_func (point_free);
  squaring->bad = -1;
  return squaring;
}

void
hw_squaring_free (HwSquaring *squaring)
{
  g_return_if_fail (squaring != NULL);

  g_ptr_array_unref (squaring->points);
  g_free (squaring->trouble);
  g_free (squaring);
}

static HwHandlePoint *
point_at (const HwSquaring *squaring, guint index)
{
  return g_ptr_array_index (squaring->points, index);
}

guint
hw_squaring_add (HwSquaring *squaring, HwPoint px, const HwKnownPlace *place)
{
  g_return_val_if_fail (squaring != NULL && place != NULL, 0);

  HwHandlePoint *point = g_new (HwHandlePoint, 1);

  *point = (HwHandlePoint){ px, place->kind, g_strdup (place->name), place->mm, NAN };
  g_ptr_array_add (squaring->points, point);
  return squaring->points->len - 1;
}

void
hw_squaring_set_place (HwSquaring *squaring, guint index, const HwKnownPlace *place)
{
  g_return_if_fail (squaring != NULL && place != NULL && index < squaring->points->len);

  HwHandlePoint *point = point_at (squaring, index);

  g_free (point->name);
  point->name = g_strdup (place->name);
  point->kind = place->kind;
  point->mm = place->mm;
}

guint
hw_squaring_put (HwSquaring *squaring, HwPoint px, const HwKnownPlace *place)
{
  g_return_val_if_fail (squaring != NULL && place != NULL, 0);

  for (guint i = 0; i < squaring->points->len; i++)
    {
      HwHandlePoint *point = point_at (squaring, i);

      if ((point->kind == HW_KNOWN_SHEET) == (place->kind == HW_KNOWN_SHEET)
          && hw_point_distance (point->mm, place->mm) < 1e-6)
        {
          point->px = px;
          hw_squaring_set_place (squaring, i, place);
          return i;
        }
    }
  return hw_squaring_add (squaring, px, place);
}

void
hw_squaring_remove (HwSquaring *squaring, guint index)
{
  g_return_if_fail (squaring != NULL && index < squaring->points->len);
  g_ptr_array_remove_index (squaring->points, index);
}

void
hw_squaring_take (HwSquaring *squaring, const HwPhoto *photo, const GPtrArray *places)
{
  g_return_if_fail (squaring != NULL && photo != NULL && places != NULL);

  squaring->bow = photo->bow;
  for (guint i = 0; i < photo->n_points; i++)
    {
      int known = hw_known_places_find (places, photo->points[i].mm);
      HwKnownPlace place = { HW_KNOWN_TYPED, (char *)_ ("Typed position"), photo->points[i].mm };

      if (known >= 0)
        place = *(HwKnownPlace *)g_ptr_array_index (places, (guint)known);
      place.mm = photo->points[i].mm;
      hw_squaring_add (squaring, photo->points[i].px, &place);
    }
}

void
hw_squaring_begin (HwSquaring *squaring, const GPtrArray *places)
{
  g_return_if_fail (squaring != NULL && places != NULL);

  double w = squaring->width, h = squaring->height;
  const HwPoint start[] = { { w * INWARD, h * INWARD },
                            { w * (1 - INWARD), h * INWARD },
                            { w * (1 - INWARD), h * (1 - INWARD) },
                            { w * INWARD, h * (1 - INWARD) } };
  int first = hw_known_places_four (places, HW_KNOWN_EDGE);

  if (first < 0)
    first = hw_known_places_four (places, HW_KNOWN_CLOTH);
  for (guint i = 0; first >= 0 && i < 4; i++)
    hw_squaring_add (squaring, start[i], g_ptr_array_index (places, (guint)first + i));
}

void
hw_squaring_begin_at (HwSquaring *squaring, const GPtrArray *places, guint first, HwBox frame)
{
  g_return_if_fail (squaring != NULL && places != NULL && first + 4 <= places->len);

  double scale = FILLED
                 * MIN (squaring->width / MAX (frame.x1 - frame.x0, 1),
                        squaring->height / MAX (frame.y1 - frame.y0, 1));

  for (guint i = first; i < first + 4; i++)
    {
      const HwKnownPlace *place = g_ptr_array_index (places, i);

      hw_squaring_add (squaring,
                       (HwPoint){ squaring->width / 2 + scale * (place->mm.x - (frame.x0 + frame.x1) / 2),
                                  squaring->height / 2 + scale * (place->mm.y - (frame.y0 + frame.y1) / 2) },
                       place);
    }
}

void
hw_squaring_put_sheet (
    HwSquaring *squaring, const HwPoint corners[4], double long_side, double short_side, GPtrArray *places)
{
  g_return_if_fail (squaring != NULL && corners != NULL && places != NULL);

  double across = hw_point_distance (corners[0], corners[1]) + hw_point_distance (corners[2], corners[3]);
  double along = hw_point_distance (corners[1], corners[2]) + hw_point_distance (corners[3], corners[0]);
  gboolean lies = across > along;
  int first;

  for (guint i = squaring->points->len; i > 0; i--)
    if (point_at (squaring, i - 1)->kind == HW_KNOWN_SHEET)
      hw_squaring_remove (squaring, i - 1);
  for (guint i = places->len; i > 0; i--)
    if (((HwKnownPlace *)g_ptr_array_index (places, i - 1))->kind == HW_KNOWN_SHEET)
      g_ptr_array_remove_index (places, i - 1);
  hw_known_places_add_sheet (places, lies ? long_side : short_side, lies ? short_side : long_side);
  first = hw_known_places_four (places, HW_KNOWN_SHEET);
  for (guint i = 0; i < 4; i++)
    hw_squaring_add (squaring, corners[i], g_ptr_array_index (places, (guint)first + i));
}

static HwPoint
cloth_place (const HwSquaring *squaring, const HwHandlePoint *point)
{
  HwPoint turned;

  if (point->kind != HW_KNOWN_SHEET)
    return point->mm;
  turned = hw_point_turn (point->mm, squaring->sheet_turn);
  return (HwPoint){ turned.x + squaring->sheet_at.x, turned.y + squaring->sheet_at.y };
}

HwPhotoPoint *
hw_squaring_points (const HwSquaring *squaring)
{
  g_return_val_if_fail (squaring != NULL, NULL);

  HwPhotoPoint *points = g_new0 (HwPhotoPoint, squaring->points->len + 1);

  for (guint i = 0; i < squaring->points->len; i++)
    points[i] = (HwPhotoPoint){ point_at (squaring, i)->px, cloth_place (squaring, point_at (squaring, i)) };
  return points;
}

gboolean
hw_squaring_sheet_view (const HwSquaring *squaring, HwHomography *h)
{
  g_return_val_if_fail (squaring != NULL && h != NULL, FALSE);

  g_autofree HwPhotoPoint *sheet = g_new0 (HwPhotoPoint, squaring->points->len + 1);
  guint n = 0;

  for (guint i = 0; i < squaring->points->len; i++)
    if (point_at (squaring, i)->kind == HW_KNOWN_SHEET)
      sheet[n++] = (HwPhotoPoint){ point_at (squaring, i)->px, point_at (squaring, i)->mm };
  return n >= 4
         && hw_homography_fit (sheet, n, squaring->width, squaring->height, squaring->bow, FALSE, h, NULL,
                               NULL);
}

/* Two other points or more say where the sheet lies. */
static void
place_sheet (HwSquaring *squaring)
{
  guint n = squaring->points->len, n_others = 0;
  g_autofree HwPoint *on_sheet = g_new0 (HwPoint, n + 1), *on_cloth = g_new0 (HwPoint, n + 1);
  HwHomography h;
  HwRigidFit fit;

  squaring->sheet_by_others = FALSE;
  if (!hw_squaring_sheet_view (squaring, &h))
    return;
  for (guint i = 0; i < n; i++)
    if (point_at (squaring, i)->kind != HW_KNOWN_SHEET)
      {
        on_sheet[n_others] = hw_homography_apply (&h, point_at (squaring, i)->px);
        on_cloth[n_others] = point_at (squaring, i)->mm;
        n_others += isfinite (on_sheet[n_others].x) && isfinite (on_sheet[n_others].y);
      }
  if (n_others < 2 || !hw_rigid_fit (on_sheet, on_cloth, n_others, &fit, NULL))
    return;
  squaring->sheet_at = fit.shift;
  squaring->sheet_turn = fit.turn;
  squaring->sheet_by_others = TRUE;
}

gboolean
hw_squaring_solve (HwSquaring *squaring, gboolean fit_bow)
{
  g_return_val_if_fail (squaring != NULL, FALSE);

  g_autoptr (GError) error = NULL;
  g_autofree HwPhotoPoint *points = NULL;
  guint n = squaring->points->len;
  g_autofree double *off = g_new0 (double, n + 1);

  place_sheet (squaring);
  points = hw_squaring_points (squaring);
  g_clear_pointer (&squaring->trouble, g_free);
  squaring->bad = -1;
  squaring->good = hw_homography_fit (points, n, squaring->width, squaring->height, squaring->bow, fit_bow,
                                      &squaring->h, off, &error);
  if (!squaring->good)
    squaring->trouble = g_strdup (error->message);
  else
    {
      squaring->bow = CLAMP (squaring->h.bow, -HW_MOST_BOW, HW_MOST_BOW);
      squaring->bad = hw_homography_bad_point (points, n, &squaring->h, squaring->width, squaring->height,
                                               &squaring->bad_by);
    }
  for (guint i = 0; i < n; i++)
    point_at (squaring, i)->off = squaring->good ? off[i] : NAN;
  return squaring->good;
}

char *
hw_squaring_text (const HwSquaring *squaring, HwUnit unit)
{
  g_return_val_if_fail (squaring != NULL, NULL);

  double worst = 0;
  guint which = 0;

  if (!squaring->good)
    return g_strdup (squaring->trouble != NULL ? squaring->trouble
                                               : _ ("Put four handles or more on places you know."));
  for (guint i = 0; i < squaring->points->len; i++)
    if (point_at (squaring, i)->off > worst)
      {
        worst = point_at (squaring, i)->off;
        which = i;
      }
  if (squaring->bad >= 0)
    {
      g_autofree char *by = hw_length_text (squaring->bad_by, unit);

      /* Translators: "Point 3 (Edge line, lower right) lies 4.2 mm from where the others put it: ..." */
      return g_strdup_printf (
          _ ("Point %d (%s) lies %s from where the others put it: look at it again, or take it away."),
          squaring->bad + 1, point_at (squaring, (guint)squaring->bad)->name, by);
    }
  if (squaring->points->len < TELLING)
    return g_strdup (
        _ ("Four points always agree with each other. Look whether the lines drawn over the photo "
           "lie where they should; a fifth point would check them."));
  g_autofree char *text = hw_length_text (worst, unit);
  if (worst < DOUBTFUL)
    return g_strdup_printf (_ ("The points agree to within %s."), text);
  return g_strdup_printf (
      _ ("Point %u (%s) lies farthest off, by %s. Look at the points again; if all are right, "
         "the cloth did not lie flat, or the lens has a bow."),
      which + 1, point_at (squaring, which)->name, text);
}
