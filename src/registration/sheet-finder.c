/* A bright sheet of paper looked for in a photograph. The photo, made small, is parted into bright and dark (N. Otsu 1979, IEEE Transactions on Systems, Man, and Cybernetics
 * 9(1)), and the bright part once more; a bright patch whose hull is nearly a quadrilateral is a sheet when light falls off sharply across each of its four sides. There
 * the sides are followed in the full photo to parts of a pixel, and the corners are where they meet. Pale cloth on a dark table looks the same: so what holds a brighter
 * sheet is the cloth under it, and what fills most of the photo is not taken for a sheet at all. */
#include <math.h>
#include <string.h>

#include "grey-patch.h"
#include "mark-finder.h"
#include "sheet-finder-private.h"

#define SMALL 400.0      /* patch pixels along the longer side, about */
#define LEVELS 4         /* parted so often at most */
#define LEAST_PART 0.01  /* of the photo that a sheet covers */
#define MOST_PART 0.5    /* of the photo: more is rather the cloth itself */
#define WELL_WITHIN 0.02 /* of its longest side: so far a sheet lies from the sides of the cloth it lies on */
#define LEAST_FILL 0.55  /* of its hull that is bright: things may lie on it */
#define LEAST_SHARP 0.93 /* of its four-sided outline that its hull fills */
#define RIM 1.5          /* patch pixels */

typedef struct
{
  HwGreyPatch patch;
  guint8 *seen;
  int *queue;
  gboolean found;
  double area;        /* of the sheet found, pixels of the patch */
  HwPoint corners[4]; /* of it, px of the photo */
} Search;

/* The grey level that parts those over `from` best in two. */
static int
part_in_two (const HwGreyPatch *patch, int from)
{
  double count[256] = { 0 }, all = 0, sum = 0, low = 0, low_sum = 0, best = -1;
  int level = -1;

  for (gsize i = 0; i < (gsize)patch->width * patch->height; i++)
    if (patch->grey[i] >= from)
      count[CLAMP ((int)patch->grey[i], 0, 255)]++;
  for (int i = 0; i < 256; i++)
    {
      all += count[i];
      sum += i * count[i];
    }
  for (int i = 0; i < 255; i++)
    {
      double apart;

      low += count[i];
      low_sum += i * count[i];
      if (low == 0 || low == all)
        continue;
      apart = low_sum / low - (sum - low_sum) / (all - low);
      if (low * (all - low) * apart * apart > best)
        {
          best = low * (all - low) * apart * apart;
          level = i + 1;
        }
    }
  return level;
}

/* The bright patch around a pixel: the outermost of each row to hull, and how many there are. */
static int
take_bright (Search *search, int start, int level, GArray *points)
{
  int width = (int)search->patch.width, height = (int)search->patch.height, n = 0;
  g_autofree int *first = g_new (int, height);
  g_autofree int *last = g_new (int, height);

  for (int y = 0; y < height; y++)
    {
      first[y] = width;
      last[y] = -1;
    }
  search->queue[n++] = start;
  search->seen[start] = 1;
  for (int done = 0; done < n; done++)
    {
      int at = search->queue[done], x = at % width, y = at / width;
      const int next[4] = { x > 0 ? at - 1 : -1, x + 1 < width ? at + 1 : -1, at - width,
                            y + 1 < height ? at + width : -1 };

      first[y] = MIN (first[y], x);
      last[y] = MAX (last[y], x);
      for (guint k = 0; k < 4; k++)
        if (next[k] >= 0 && !search->seen[next[k]] && search->patch.grey[next[k]] >= level)
          {
            search->seen[next[k]] = 1;
            search->queue[n++] = next[k];
          }
    }
  g_array_set_size (points, 0);
  for (int y = 0; y < height; y++)
    if (last[y] >= 0)
      {
        HwPoint ends[4]
            = { { first[y], y }, { last[y] + 1, y }, { first[y], y + 1 }, { last[y] + 1, y + 1 } };

        g_array_append_vals (points, ends, 4);
      }
  return n;
}

static gboolean
is_within (const HwGreyPatch *patch, const HwPoint corners[4])
{
  for (guint i = 0; i < 4; i++)
    if (!(corners[i].x > RIM && corners[i].y > RIM && corners[i].x < patch->width - RIM
          && corners[i].y < patch->height - RIM))
      return FALSE;
  return TRUE;
}

/* A candidate, in pixels of the patch. */
static gboolean
look_at (Search *search, int start, int level, GArray *points, HwPoint corners[4], double *area)
{
  int bright = take_bright (search, start, level, points);
  g_autofree HwPoint *hull = NULL;
  double hull_area;
  guint n;

  if (bright < LEAST_PART * search->patch.width * search->patch.height)
    return FALSE;
  hull = g_new (HwPoint, points->len + 1);
  n = hw_convex_hull ((const HwPoint *)(gpointer)points->data, points->len, hull);
  hull_area = hw_hull_area (hull, n);
  return bright >= LEAST_FILL * hull_area && hw_sheet_reduce (hull, n, corners)
         && is_within (&search->patch, corners)
         && hull_area <= MOST_PART * search->patch.width * search->patch.height
         && hull_area >= LEAST_SHARP * (*area = hw_hull_area (corners, 4));
}

/* Whether inner's corners all lie within outer's sides, and well away from them: a shadow's edge across a sheet makes no sheet of the lit part. Both clockwise. */
static gboolean
lies_on (const HwPoint inner[4], const HwPoint outer[4])
{
  double longest = 0;

  for (guint i = 0; i < 4; i++)
    longest = MAX (longest, hw_point_distance (outer[i], outer[(i + 1) % 4]));
  for (guint i = 0; i < 4; i++)
    {
      HwPoint from = outer[i], to = outer[(i + 1) % 4];
      double length = hw_point_distance (from, to);

      for (guint k = 0; k < 4; k++)
        if (((to.x - from.x) * (inner[k].y - from.y) - (to.y - from.y) * (inner[k].x - from.x))
            < WELL_WITHIN * longest * length)
          return FALSE;
    }
  return TRUE;
}

/* Of two sheets the one that lies on the other, else the larger. */
static gboolean
is_rather_it (const Search *search, const HwPoint candidate[4], double area)
{
  if (!search->found)
    return TRUE;
  return area > search->area ? !lies_on (search->corners, candidate) : lies_on (candidate, search->corners);
}

/* The sheets among the bright patches of one level. */
static void
search_level (Search *search, const HwPicture *picture, int level)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  int n = (int)(search->patch.width * search->patch.height);

  memset (search->seen, 0, n);
  for (int i = 0; i < n; i++)
    {
      HwPoint candidate[4];
      double area;

      if (search->seen[i] || search->patch.grey[i] < level
          || !look_at (search, i, level, points, candidate, &area))
        continue;
      for (guint k = 0; k < 4; k++)
        candidate[k] = hw_grey_patch_to_photo (&search->patch, candidate[k]);
      /* Whether it ends where another does is told by the sides in the photo: those of the smoothed patch lie within them. */
      if (!hw_sheet_follow_sides (picture, candidate, 2.5 * search->patch.coarse + 2)
          || !is_rather_it (search, candidate, area))
        continue;
      search->found = TRUE;
      search->area = area;
      memcpy (search->corners, candidate, sizeof candidate);
    }
}

/* Clockwise as seen already: begins with the one nearest the top left. */
static void
turn_to_top_left (HwPoint corners[4])
{
  HwPoint turned[4];
  guint first = 0;

  for (guint i = 1; i < 4; i++)
    if (hypot (corners[i].x, corners[i].y) < hypot (corners[first].x, corners[first].y))
      first = i;
  for (guint i = 0; i < 4; i++)
    turned[i] = corners[(first + i) % 4];
  memcpy (corners, turned, sizeof turned);
}

gboolean
hw_find_sheet (const HwPicture *picture, HwPoint corners[4])
{
  Search search = { 0 };
  guint coarse;
  int level = 0;

  g_return_val_if_fail (picture != NULL && corners != NULL, FALSE);

  coarse = (guint)MAX (MAX (picture->width, picture->height) / SMALL, 1);
  if (!hw_grey_patch_take (&search.patch, picture, 0, 0, picture->width, picture->height, coarse))
    return FALSE;
  hw_grey_patch_smooth (&search.patch, 1);
  search.seen = g_new (guint8, (gsize)search.patch.width * search.patch.height);
  search.queue = g_new (int, (gsize)search.patch.width *search.patch.height);
  for (guint i = 0; i < LEVELS; i++)
    {
      level = part_in_two (&search.patch, level);
      if (level < 0)
        break;
      search_level (&search, picture, level);
    }
  if (search.found)
    {
      turn_to_top_left (search.corners);
      memcpy (corners, search.corners, sizeof search.corners);
    }
  g_free (search.seen);
  g_free (search.queue);
  hw_grey_patch_clear (&search.patch);
  return search.found;
}
