/* Outlines and edge lines of a scene file: lists of points made into areas that mean one thing. Points that repeat the one before are let go
 * without a word; what crosses itself is mended, which the motif remembers. */
#include "outline-read.h"

#include "../geometry/language.h"
#include "../geometry/region.h"
#include "../scene/records.h"

#define SMALLEST_EXTENT 0.01 /* mm */

/* Appends the points of one ring, without those that repeat their neighbour. */
static void
read_points (HwJsonWalk *walk, JsonArray *list, GArray *points)
{
  guint first = points->len;

  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonNode *node = json_array_get_element (list, i);
      double pair[2];
      HwPoint p;

      if (!hw_json_node_pair (node, -HW_LARGEST_MM, HW_LARGEST_MM, pair))
        {
          gsize mark = hw_json_walk_enter_item (walk, i);

          hw_json_walk_expected (walk, _ ("two numbers in millimetres"), node);
          hw_json_walk_leave (walk, mark);
          return;
        }
      p = (HwPoint){ pair[0], pair[1] };
      if (points->len > first)
        {
          HwPoint last = g_array_index (points, HwPoint, points->len - 1);

          if (last.x == p.x && last.y == p.y)
            continue;
        }
      g_array_append_val (points, p);
    }
}

static gboolean
too_many (HwJsonWalk *walk, guint n, guint most, const char *of_what)
{
  if (n <= most)
    return FALSE;
  hw_json_walk_refuse (walk, _ ("expected at most %u %s, found %u."), most, of_what, n);
  return TRUE;
}

/* The rings of points in list. Returns: (transfer full) (nullable) */
static HwOutline *
read_rings (HwJsonWalk *walk, JsonArray *list)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  guint n = json_array_get_length (list);
  g_autofree guint *starts = g_new (guint, n + 1);
  g_autofree HwRing *rings = g_new (HwRing, MAX (n, 1));

  if (too_many (walk, n, HW_MOST_OUTLINE_RINGS, _ ("rings")))
    return NULL;
  starts[0] = 0;
  for (guint i = 0; i < n && walk->error == NULL; i++)
    {
      JsonNode *node = json_array_get_element (list, i);
      gsize mark = hw_json_walk_enter_item (walk, i);

      if (!JSON_NODE_HOLDS_ARRAY (node) || json_array_get_length (json_node_get_array (node)) < 3)
        hw_json_walk_expected (walk, _ ("a ring of at least three points"), node);
      else if (!too_many (walk, points->len + json_array_get_length (json_node_get_array (node)),
                          HW_MOST_OUTLINE_POINTS, _ ("points")))
        read_points (walk, json_node_get_array (node), points);
      hw_json_walk_leave (walk, mark);
      starts[i + 1] = points->len;
    }
  if (walk->error != NULL)
    return NULL;
  for (guint i = 0; i < n; i++)
    rings[i] = (HwRing){ &g_array_index (points, HwPoint, starts[i]), starts[i + 1] - starts[i] };
  return hw_outline_new (rings, n);
}

HwOutline *
hw_outline_read_rings (
    HwJsonWalk *walk, JsonObject *in, const char *key, const char *name, gboolean *repaired)
{
  JsonArray *list = hw_json_walk_list (walk, in, key, TRUE, _ ("a list of rings of points"));
  gsize mark = hw_json_walk_enter (walk, key);
  g_autoptr (HwOutline) drawn = NULL;
  g_autoptr (HwOutline) mended = NULL;
  g_autoptr (GError) error = NULL;

  *repaired = FALSE;
  if (list != NULL && json_array_get_length (list) == 0)
    hw_json_walk_expected (walk, _ ("at least one ring of points"), json_object_get_member (in, key));
  else if (list != NULL)
    drawn = read_rings (walk, list);
  if (drawn != NULL)
    mended = hw_outline_repair (drawn, repaired, &error);
  if (error != NULL)
    hw_json_walk_refuse (walk, _ ("\"%s\" cannot be stitched. %s"), name, error->message);
  else if (mended != NULL
           && MIN (mended->box.x1 - mended->box.x0, mended->box.y1 - mended->box.y0) < SMALLEST_EXTENT)
    {
      hw_json_walk_refuse (walk, _ ("\"%s\" cannot be stitched. The outline is thinner than %s mm."), name,
                           "0.01");
      g_clear_pointer (&mended, hw_outline_unref);
    }
  hw_json_walk_leave (walk, mark);
  return *repaired || mended == NULL ? g_steal_pointer (&mended) : g_steal_pointer (&drawn);
}

HwOutline *
hw_outline_read_line (HwJsonWalk *walk, JsonObject *in, const char *key)
{
  const char *expected = _ ("a list of at least three points");
  JsonArray *list = hw_json_walk_list (walk, in, key, TRUE, expected);
  gsize mark = hw_json_walk_enter (walk, key);
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  g_autoptr (HwOutline) drawn = NULL;
  g_autoptr (HwOutline) mended = NULL;
  gboolean repaired = FALSE;

  if (list != NULL && json_array_get_length (list) < 3)
    hw_json_walk_expected (walk, expected, json_object_get_member (in, key));
  else if (list != NULL
           && !too_many (walk, json_array_get_length (list), HW_MOST_OUTLINE_POINTS, _ ("points")))
    read_points (walk, list, points);
  if (list != NULL && walk->error == NULL)
    {
      HwRing ring = { (HwPoint *)points->data, points->len };

      drawn = hw_outline_new (&ring, 1);
      mended = hw_outline_repair (drawn, &repaired, NULL);
      if (mended == NULL || mended->n_rings != 1)
        hw_json_walk_refuse (walk, _ ("expected a line around one area, found one that crosses itself or "
                                      "encloses nothing."));
    }
  hw_json_walk_leave (walk, mark);
  if (walk->error != NULL)
    return NULL;
  return repaired ? g_steal_pointer (&mended) : g_steal_pointer (&drawn);
}
