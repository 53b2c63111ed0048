/* Arranging by figures: rows, rounds, and a motif tucked behind its neighbour. All of it is tried as an edit under way, so that a dialog can
 * show what comes of a figure before it is taken. */
#include <glib/gi18n.h>
#include <math.h>

#include "../geometry/region.h"
#include "arrange-private.h"
#include "bench-private.h"

static HwPoint
direction_of (double degrees)
{
  return hw_point_turn ((HwPoint){ 1, 0 }, degrees);
}

static HwPoint
middle_of (HwBox box)
{
  return (HwPoint){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 };
}

static const HwMotif *
record_at (GPtrArray *motifs, guint i)
{
  return hw_scene_motif_get_record (g_ptr_array_index (motifs, i));
}

/* How far the motifs together reach along the direction. */
static double
length_along (GPtrArray *motifs, HwPoint direction)
{
  double least = G_MAXDOUBLE, most = -G_MAXDOUBLE;

  for (guint i = 0; i < motifs->len; i++)
    {
      double from, to;

      hw_outline_span (hw_scene_motif_get_placed (g_ptr_array_index (motifs, i)), direction, &from, &to);
      least = MIN (least, from);
      most = MAX (most, to);
    }
  return most - least;
}

/* Copy number k, from 1, of the motif at `placement`. */
typedef HwPlacement (*PlaceCopy) (const HwPlacement *placement, guint k, gconstpointer data);

static void
add_copies (
    HwBench *bench, GPtrArray *motifs, guint count, PlaceCopy place, gconstpointer data, GPtrArray *ids)
{
  guint at = hw_arrange_above (bench, motifs);

  for (guint i = 0; i < motifs->len; i++)
    g_ptr_array_add (ids, g_strdup (record_at (motifs, i)->id));
  for (guint k = 1; k < count; k++)
    for (guint i = 0; i < motifs->len; i++)
      {
        HwPlacement placement = place (&record_at (motifs, i)->placement, k, data);
        g_ptr_array_add (ids, hw_arrange_add_copy (bench, record_at (motifs, i), &placement, at++));
      }
}

static HwPlacement
place_in_row (const HwPlacement *placement, guint k, gconstpointer step)
{
  HwPlacement copy = *placement;
  const HwPoint *by = step;

  copy.position.x += k * by->x;
  copy.position.y += k * by->y;
  return copy;
}

static void
lay_copies (HwBench *bench, GPtrArray *motifs, const HwArrangement *arrangement, GPtrArray *ids)
{
  HwPoint direction = direction_of (arrangement->direction);
  double step = length_along (motifs, direction) + arrangement->gap;
  HwPoint by = { step * direction.x, step * direction.y };

  add_copies (bench, motifs, arrangement->count, place_in_row, &by, ids);
}

typedef struct
{
  HwPoint centre, middle;
  double share; /* degrees */
  gboolean turned;
} Round;

static HwPoint
turned_about (HwPoint p, HwPoint centre, double degrees)
{
  HwPoint arm = hw_point_turn ((HwPoint){ p.x - centre.x, p.y - centre.y }, degrees);

  return (HwPoint){ centre.x + arm.x, centre.y + arm.y };
}

static HwPlacement
place_around (const HwPlacement *placement, guint k, gconstpointer data)
{
  const Round *round = data;
  HwPlacement copy = *placement;
  double turn = k * round->share;
  HwPoint middle = turned_about (round->middle, round->centre, turn);

  if (round->turned)
    {
      copy.position = turned_about (placement->position, round->centre, turn);
      copy.angle = hw_angle_normal (placement->angle + turn);
      return copy;
    }
  copy.position.x += middle.x - round->middle.x;
  copy.position.y += middle.y - round->middle.y;
  return copy;
}

static void
lay_around (HwBench *bench, GPtrArray *motifs, const HwArrangement *arrangement, GPtrArray *ids)
{
  Round round = { arrangement->centre, middle_of (hw_arrange_box (motifs)), 360.0 / arrangement->count,
                  arrangement->turned };

  add_copies (bench, motifs, arrangement->count, place_around, &round, ids);
}

typedef struct
{
  double at;
  HwSceneMotif *motif;
} Station;

static int
by_station (gconstpointer a, gconstpointer b)
{
  const Station *sa = a, *sb = b;

  return sa->at < sb->at ? -1 : sa->at > sb->at;
}

/* The motifs in the order of their middles along the direction. */
static Station *
stations (GPtrArray *motifs, HwPoint direction)
{
  Station *all = g_new (Station, motifs->len + 1);

  for (guint i = 0; i < motifs->len; i++)
    {
      HwSceneMotif *motif = g_ptr_array_index (motifs, i);
      HwPoint middle = middle_of (hw_scene_motif_get_placed (motif)->box);

      all[i] = (Station){ middle.x * direction.x + middle.y * direction.y, motif };
    }
  qsort (all, motifs->len, sizeof (Station), by_station);
  return all;
}

/* The first stays; each other comes after the one before it, its middle on the line through the first's. */
static void
lay_in_row (GPtrArray *motifs, const HwArrangement *arrangement, GPtrArray *ids)
{
  HwPoint along = direction_of (arrangement->direction), aside = { -along.y, along.x };
  g_autofree Station *all = stations (motifs, along);
  HwPoint first = middle_of (hw_scene_motif_get_placed (all[0].motif)->box);
  double from, end;

  hw_outline_span (hw_scene_motif_get_placed (all[0].motif), along, &from, &end);
  for (guint i = 1; i < motifs->len; i++)
    {
      const HwOutline *placed = hw_scene_motif_get_placed (all[i].motif);
      HwPoint middle = middle_of (placed->box);
      double off = (first.x - middle.x) * aside.x + (first.y - middle.y) * aside.y, to, way;

      hw_outline_span (placed, along, &from, &to);
      way = end + arrangement->gap - from;
      end = to + way;
      hw_arrange_shift (all[i].motif,
                        (HwPoint){ way * along.x + off * aside.x, way * along.y + off * aside.y });
    }
  for (guint i = 0; i < motifs->len; i++)
    g_ptr_array_add (ids, g_strdup (record_at (motifs, i)->id));
}

gboolean
hw_bench_row_now (HwBench *bench, double *direction, double *gap)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  g_autoptr (GPtrArray) motifs = hw_arrange_movable (bench);
  HwBox box = hw_arrange_box (motifs);
  if (motifs->len < 2)
    return FALSE;
  gboolean lies = box.x1 - box.x0 >= box.y1 - box.y0;
  g_autofree Station *all = stations (motifs, lies ? (HwPoint){ 1, 0 } : (HwPoint){ 0, 1 });
  HwPoint a = middle_of (hw_scene_motif_get_placed (all[0].motif)->box);
  HwPoint b = middle_of (hw_scene_motif_get_placed (all[motifs->len - 1].motif)->box);
  double bare = hw_point_distance (a, b), least, most;

  *direction = bare > 0 ? atan2 (b.y - a.y, b.x - a.x) * 180 / G_PI : 0;
  HwPoint along = direction_of (*direction);
  double first = -G_MAXDOUBLE, last = G_MAXDOUBLE, room;
  hw_outline_span (hw_scene_motif_get_placed (all[0].motif), along, &least, &first);
  hw_outline_span (hw_scene_motif_get_placed (all[motifs->len - 1].motif), along, &last, &most);
  room = last - first;
  for (guint i = 1; i + 1 < motifs->len; i++)
    {
      hw_outline_span (hw_scene_motif_get_placed (all[i].motif), along, &least, &most);
      room -= most - least;
    }
  *gap = room / (motifs->len - 1);
  return TRUE;
}

static gboolean
line_between (HwSceneMotif *motif, HwSceneMotif *neighbour, HwPoint *away, double *apart)
{
  HwPoint a = middle_of (hw_scene_motif_get_placed (neighbour)->box);
  HwPoint b = middle_of (hw_scene_motif_get_placed (motif)->box);

  *apart = hw_point_distance (a, b);
  if (*apart < 1e-6)
    return FALSE;
  *away = (HwPoint){ (b.x - a.x) / *apart, (b.y - a.y) / *apart };
  return TRUE;
}

gboolean
hw_bench_tuck_depth (HwBench *bench, const char *motif, const char *neighbour, double *depth)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (depth != NULL, FALSE);

  HwSceneMotif *a = hw_scene_find_motif (bench->scene, motif);
  HwSceneMotif *b = hw_scene_find_motif (bench->scene, neighbour);
  HwPoint away;
  double apart;
  return a != NULL && b != NULL && a != b && line_between (a, b, &away, &apart)
         && hw_outline_contact (hw_scene_motif_get_placed (a), hw_scene_motif_get_placed (b), away, depth);
}

static HwSceneMotif *
nearest_to (HwBench *bench, HwSceneMotif *motif)
{
  GListModel *all = hw_scene_get_motifs (bench->scene);
  const HwOutline *placed = hw_scene_motif_get_placed (motif);
  HwSceneMotif *nearest = NULL;
  double least = G_MAXDOUBLE;

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (HwSceneMotif) other = g_list_model_get_item (all, i);
      double way;

      if (other == motif)
        continue;
      way = hw_outline_distance (placed, hw_scene_motif_get_placed (other));
      /* Of several that it touches, the one whose middle is nearest. */
      if (way <= 0)
        way = hw_point_distance (middle_of (placed->box), middle_of (hw_scene_motif_get_placed (other)->box))
              - HW_LARGEST_MM;
      if (way < least)
        {
          least = way;
          nearest = other;
        }
    }
  return nearest;
}

gboolean
hw_bench_tuck_pair (HwBench *bench, const HwMotif **motif, const HwMotif **neighbour)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);

  g_autoptr (GPtrArray) selection = hw_bench_get_selection (bench);
  HwSceneMotif *first, *second;
  if (selection->len < 1 || selection->len > 2)
    return FALSE;
  first = g_ptr_array_index (selection, 0);
  second = selection->len == 2 ? g_ptr_array_index (selection, 1) : nearest_to (bench, first);
  if (second == NULL)
    return FALSE;
  *motif = hw_scene_motif_get_record (first);
  *neighbour = hw_scene_motif_get_record (second);
  if (!hw_bench_may_arrange (bench, *motif))
    {
      const HwMotif *other = *neighbour;

      *neighbour = *motif;
      *motif = other;
    }
  return hw_bench_may_arrange (bench, *motif);
}

/* Slides the motif, and puts it just behind its neighbour in the order unless that one is stitched or held in the machine. */
static gboolean
tuck (HwBench *bench, const HwArrangement *arrangement, GPtrArray *ids, char **refusal)
{
  HwSceneMotif *motif = hw_scene_find_motif (bench->scene, arrangement->motif);
  HwSceneMotif *neighbour = hw_scene_find_motif (bench->scene, arrangement->neighbour);
  HwPoint away;
  double apart, contact, way;

  if (!line_between (motif, neighbour, &away, &apart)
      || !hw_outline_contact (hw_scene_motif_get_placed (motif), hw_scene_motif_get_placed (neighbour), away,
                              &contact))
    {
      *refusal = g_strdup (_ ("These two cannot meet along the line between their middles."));
      return FALSE;
    }
  way = contact - arrangement->depth;
  if (apart + way < 0)
    {
      g_autofree char *most = hw_length_text (apart + contact, bench->unit);
      *refusal = g_strdup_printf (_ ("At most %s: then their middles lie on one another."), most);
      return FALSE;
    }
  hw_arrange_shift (motif, (HwPoint){ way * away.x, way * away.y });

  int at = hw_scene_index_of (bench->scene, motif), other = hw_scene_index_of (bench->scene, neighbour);
  if (at > other && hw_bench_may_arrange (bench, hw_scene_motif_get_record (neighbour)))
    hw_scene_move_motif (bench->scene, (guint)at, (guint)other);
  g_ptr_array_add (ids, g_strdup (arrangement->motif));
  return TRUE;
}

static char *
name_of (HwBench *bench, GPtrArray *motifs, const HwArrangement *arrangement)
{
  switch (arrangement->kind)
    {
    case HW_ARRANGE_COPIES:
      return HW_ARRANGE_NAME (motifs, _ ("copy %s in a row"), _ ("copy %u motifs in a row"));
    case HW_ARRANGE_ROW:
      return HW_ARRANGE_NAME (motifs, _ ("put %s in a row"), _ ("put %u motifs in a row"));
    case HW_ARRANGE_AROUND:
      return HW_ARRANGE_NAME (motifs, _ ("copy %s around a centre"), _ ("copy %u motifs around a centre"));
    case HW_ARRANGE_TUCK:
      return g_strdup_printf (
          _ ("tuck %s behind %s"),
          hw_scene_motif_get_record (hw_scene_find_motif (bench->scene, arrangement->motif))->name,
          hw_scene_motif_get_record (hw_scene_find_motif (bench->scene, arrangement->neighbour))->name);
    default:
      g_assert_not_reached ();
    }
}

/* What the arrangement works on; NULL with a refusal when it cannot. Returns: (transfer container) */
static GPtrArray *
motifs_for (HwBench *bench, const HwArrangement *arrangement, char **refusal)
{
  gboolean copies = arrangement->kind == HW_ARRANGE_COPIES || arrangement->kind == HW_ARRANGE_AROUND;
  GPtrArray *motifs = copies ? hw_bench_get_selection (bench) : hw_arrange_movable (bench);
  HwSceneMotif *motif;

  if (arrangement->kind == HW_ARRANGE_TUCK)
    {
      motif = arrangement->motif != NULL ? hw_scene_find_motif (bench->scene, arrangement->motif) : NULL;
      if (motif != NULL && arrangement->neighbour != NULL
          && !g_str_equal (arrangement->motif, arrangement->neighbour)
          && hw_scene_find_motif (bench->scene, arrangement->neighbour) != NULL
          && hw_bench_may_arrange (bench, hw_scene_motif_get_record (motif)))
        return motifs;
      *refusal = g_strdup (_ ("This motif is held where it is: it is locked, or stitched already."));
    }
  else if (motifs->len == 0)
    *refusal = g_strdup (_ ("Select a motif first."));
  else if (arrangement->kind == HW_ARRANGE_ROW && motifs->len < 2)
    *refusal = g_strdup (_ ("A row needs two motifs that may be moved."));
  else if (copies && (arrangement->count < 2 || arrangement->count * motifs->len > HW_ARRANGE_MOST))
    *refusal = g_strdup_printf (_ ("Between 2 and %u of them can be laid."), HW_ARRANGE_MOST / motifs->len);
  else
    return motifs;
  g_ptr_array_unref (motifs);
  return NULL;
}

static gboolean
lay (HwBench *bench, GPtrArray *motifs, const HwArrangement *arrangement, GPtrArray *ids, char **refusal)
{
  switch (arrangement->kind)
    {
    case HW_ARRANGE_COPIES:
      lay_copies (bench, motifs, arrangement, ids);
      return TRUE;
    case HW_ARRANGE_ROW:
      lay_in_row (motifs, arrangement, ids);
      return TRUE;
    case HW_ARRANGE_AROUND:
      lay_around (bench, motifs, arrangement, ids);
      return TRUE;
    case HW_ARRANGE_TUCK:
      return tuck (bench, arrangement, ids, refusal);
    default:
      g_assert_not_reached ();
    }
}

gboolean
hw_bench_try_arrangement (HwBench *bench, const HwArrangement *arrangement, char ***ids, char **refusal)
{
  g_return_val_if_fail (HW_IS_BENCH (bench), FALSE);
  g_return_val_if_fail (arrangement != NULL, FALSE);

  g_autoptr (GPtrArray) laid = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *why = NULL;
  gboolean done;

  hw_bench_cancel_edit (bench);
  g_autoptr (GPtrArray) motifs = motifs_for (bench, arrangement, &why);
  done = motifs != NULL;
  if (done)
    {
      g_autofree char *name = name_of (bench, motifs, arrangement);

      hw_bench_begin_edit (bench, name, FALSE);
      hw_scene_hold (bench->scene);
      done = lay (bench, motifs, arrangement, laid, &why);
      hw_scene_release (bench->scene);
      if (!done)
        hw_bench_cancel_edit (bench);
    }
  if (!done && refusal != NULL)
    *refusal = g_steal_pointer (&why);
  if (done && ids != NULL)
    {
      g_ptr_array_add (laid, NULL);
      *ids = (char **)g_ptr_array_free (g_steal_pointer (&laid), FALSE);
    }
  return done;
}

gboolean
hw_bench_arrange (HwBench *bench, const HwArrangement *arrangement, char **refusal)
{
  g_auto (GStrv) ids = NULL;

  if (!hw_bench_try_arrangement (bench, arrangement, &ids, refusal))
    return FALSE;
  hw_bench_end_edit (bench);
  hw_bench_select_ids (bench, (const char *const *)ids);
  return TRUE;
}
