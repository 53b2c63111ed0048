/* Nesting: the two-dimensional bin packing of templates, by guillotine cuts, since paper is parted with a ruler or a trimmer that cuts from
 * edge to edge. The heuristics are those of the survey by Lodi, Martello and Monaci 2002, European Journal of Operational Research 141,
 * 241-252, and of Jylanki 2010, "A thousand ways to pack the bin": free rectangles, each divided in two by the piece laid in its corner.
 * One sheet is filled by every rule in turn and the fullest is kept; then the next. That is compared with each rule kept for all sheets, and
 * the fewest sheets win. */
#include "nest.h"

#include <string.h>

#define SLACK 1e-6

typedef enum
{
  BY_AREA,
  BY_LONG_SIDE,
  BY_HEIGHT,
  BY_WIDTH,
  N_SORTS
} NestSort;

/* How a sheet is filled. */
typedef struct
{
  NestSort sort; /* large pieces first, by this */
  gboolean
      best_area;     /* into the smallest free rectangle; else into the one it fills closest along one side */
  gboolean cut_down; /* the first cut beside a piece runs down the sheet; else across it */
  gboolean lying;
} NestRule;

#define N_RULES (N_SORTS * 8)

typedef struct
{
  double x, y, width, height;
} NestFree;

typedef struct
{
  const HwNestSize *pieces;
  guint n;
  const HwNestWindows *windows;
  gboolean turning;        /* pieces may be turned */
  guint *sorted[N_SORTS];  /* piece indices */
  gboolean *only_turned;   /* pieces that fit no other way */
  const gboolean *upright; /* pieces that must not be turned here, or NULL */
  GArray *room;            /* NestFree, of the sheet being filled */
} NestDesk;

/* One filled sheet. */
typedef struct
{
  HwNestPlace *places; /* by piece; only those of `taken` count */
  gboolean *taken;
  guint n_taken, n_turned;
  double area;
} NestFill;

static gboolean
fits (HwNestSize piece, HwNestSize room, gboolean turned)
{
  double across = turned ? piece.height : piece.width, down = turned ? piece.width : piece.height;

  return across <= room.width + SLACK && down <= room.height + SLACK;
}

gboolean
hw_nest_fits (HwNestSize piece, const HwNestWindows *windows)
{
  for (guint turned = 0; turned < 2; turned++)
    if (fits (piece, windows->upright, turned) || fits (piece, windows->lying, turned))
      return TRUE;
  return FALSE;
}

static NestRule
rule_of (guint number)
{
  return (NestRule){ (NestSort)(number / 8), (number & 4) != 0, (number & 2) != 0, (number & 1) != 0 };
}

static double
sort_key (HwNestSize piece, NestSort sort)
{
  switch (sort)
    {
    case BY_AREA:
      return piece.width * piece.height;
    case BY_LONG_SIDE:
      return MAX (piece.width, piece.height);
    case BY_HEIGHT:
      return piece.height;
    case BY_WIDTH:
      return piece.width;
    default:
      g_assert_not_reached ();
    }
}

typedef struct
{
  const HwNestSize *pieces;
  NestSort sort;
} NestSorting;

static int
compare_pieces (gconstpointer a, gconstpointer b, gpointer user_data)
{
  const NestSorting *sorting = user_data;
  guint i = *(const guint *)a, j = *(const guint *)b;
  double p = sort_key (sorting->pieces[i], sorting->sort), q = sort_key (sorting->pieces[j], sorting->sort);

  if (p != q)
    return p > q ? -1 : 1;
  return (i > j) - (i < j);
}

/* How badly the piece lies in a free rectangle: less is better. */
static double
misfit (const NestRule *rule, const NestFree *room, double across, double down)
{
  if (rule->best_area)
    return room->width * room->height - across * down;
  return MIN (room->width - across, room->height - down);
}

/* The free rectangle the piece goes into, or -1. */
static int
find_room (const NestDesk *desk, const NestRule *rule, guint piece, gboolean turned)
{
  HwNestSize size = desk->pieces[piece];
  double across = turned ? size.height : size.width, down = turned ? size.width : size.height;
  double best = G_MAXDOUBLE;
  int found = -1;

  for (guint i = 0; i < desk->room->len; i++)
    {
      const NestFree *room = &g_array_index (desk->room, NestFree, i);

      if (fits (size, (HwNestSize){ room->width, room->height }, turned)
          && misfit (rule, room, across, down) < best)
        {
          best = misfit (rule, room, across, down);
          found = (int)i;
        }
    }

  return found;
}

/* The piece takes the rectangle's top left corner; a cut beside it leaves two. */
static void
divide_room (NestDesk *desk, const NestRule *rule, guint index, double across, double down)
{
  NestFree room = g_array_index (desk->room, NestFree, index);
  double beside = MAX (room.width - across, 0), below = MAX (room.height - down, 0);
  NestFree right = { room.x + across, room.y, beside, rule->cut_down ? room.height : down };
  NestFree under = { room.x, room.y + down, rule->cut_down ? across : room.width, below };

  g_array_remove_index (desk->room, index);
  if (right.width > SLACK && right.height > SLACK)
    g_array_append_val (desk->room, right);
  if (under.width > SLACK && under.height > SLACK)
    g_array_append_val (desk->room, under);
}

/* Turned only where it fits nowhere as it is. */
static gboolean
lay_piece (NestDesk *desk, const NestRule *rule, NestFill *fill, guint piece)
{
  HwNestSize size = desk->pieces[piece];
  gboolean may_turn
      = (desk->turning || desk->only_turned[piece]) && (desk->upright == NULL || !desk->upright[piece]);

  for (guint turned = 0; turned < (may_turn ? 2u : 1u); turned++)
    {
      int index = find_room (desk, rule, piece, turned);
      const NestFree *room;

      if (index < 0)
        continue;
      room = &g_array_index (desk->room, NestFree, (guint)index);
      fill->places[piece] = (HwNestPlace){ 0, room->x, room->y, turned };
      fill->taken[piece] = TRUE;
      fill->n_taken++;
      fill->n_turned += turned;
      fill->area += size.width * size.height;
      divide_room (desk, rule, (guint)index, turned ? size.height : size.width,
                   turned ? size.width : size.height);
      return TRUE;
    }

  return FALSE;
}

/* Fills one sheet with what is left over. */
static void
fill_sheet (NestDesk *desk, const NestRule *rule, const gboolean *left, NestFill *fill)
{
  HwNestSize window = rule->lying ? desk->windows->lying : desk->windows->upright;
  NestFree whole = { 0, 0, window.width, window.height };

  memset (fill->taken, 0, desk->n * sizeof *fill->taken);
  fill->n_taken = fill->n_turned = 0;
  fill->area = 0;
  g_array_set_size (desk->room, 0);
  g_array_append_val (desk->room, whole);
  for (guint k = 0; k < desk->n && desk->room->len > 0; k++)
    {
      guint piece = desk->sorted[rule->sort][k];

      if (left[piece])
        lay_piece (desk, rule, fill, piece);
    }
}

static NestFill *
fill_new (guint n)
{
  NestFill *fill = g_new0 (NestFill, 1);

  fill->places = g_new0 (HwNestPlace, n);
  fill->taken = g_new0 (gboolean, n);
  return fill;
}

static void
fill_free (NestFill *fill)
{
  g_free (fill->places);
  g_free (fill->taken);
  g_free (fill);
}

static gboolean
is_fuller (const NestFill *a, const NestFill *b)
{
  if (a->n_taken == 0 || b->n_taken == 0)
    return b->n_taken == 0 && a->n_taken > 0;
  if (a->area > b->area + SLACK || a->area < b->area - SLACK)
    return a->area > b->area;
  return a->n_turned < b->n_turned;
}

static HwNest *
nest_new_empty (guint n)
{
  HwNest *nest = g_new0 (HwNest, 1);

  nest->places = g_new0 (HwNestPlace, n);
  nest->lying = g_new0 (gboolean, n);
  return nest;
}

void
hw_nest_free (HwNest *nest)
{
  if (nest == NULL)
    return;

  g_free (nest->places);
  g_free (nest->lying);
  g_free (nest);
}

static void
take_fill (const NestDesk *desk, HwNest *nest, const NestFill *fill, gboolean lying, gboolean *left)
{
  for (guint i = 0; i < desk->n; i++)
    if (fill->taken[i])
      {
        nest->places[i] = fill->places[i];
        nest->places[i].sheet = nest->n_sheets;
        left[i] = FALSE;
      }
  nest->lying[nest->n_sheets++] = lying;
}

/* Sheet after sheet, each by the best of the rules; those of one number's two ways of laying the sheet, or all where rule is negative. */
static HwNest *
lay_out (NestDesk *desk, int rule)
{
  HwNest *nest = nest_new_empty (desk->n);
  g_autofree gboolean *left = g_new (gboolean, desk->n);
  guint n_left = desk->n, first = rule < 0 ? 0 : (guint)rule * 2, end = rule < 0 ? N_RULES : first + 2;
  NestFill *best = fill_new (desk->n), *fill = fill_new (desk->n);

  for (guint i = 0; i < desk->n; i++)
    left[i] = TRUE;
  while (n_left > 0)
    {
      gboolean lying = FALSE;

      best->n_taken = 0;
      for (guint k = first; k < end; k++)
        {
          NestRule with = rule_of (k);

          fill_sheet (desk, &with, left, fill);
          if (is_fuller (fill, best))
            {
              NestFill *other = best;

              best = fill;
              fill = other;
              lying = with.lying;
            }
        }
      g_assert (best->n_taken > 0);
      take_fill (desk, nest, best, lying, left);
      n_left -= best->n_taken;
    }
  fill_free (best);
  fill_free (fill);

  return nest;
}

static HwNest *
fewest_sheets (NestDesk *desk)
{
  HwNest *best = lay_out (desk, -1);

  for (int rule = 0; rule < N_RULES / 2; rule++)
    {
      HwNest *nest = lay_out (desk, rule);

      if (nest->n_sheets < best->n_sheets)
        {
          HwNest *other = best;

          best = nest;
          nest = other;
        }
      hw_nest_free (nest);
    }

  return best;
}

/* Lays a sheet's own pieces anew by the first rule that finds room for all of them. FALSE when none does. */
static gboolean
refill_sheet (NestDesk *desk, HwNest *nest, guint sheet, NestFill *fill)
{
  g_autofree gboolean *left = g_new0 (gboolean, desk->n);
  guint wanted = 0;

  for (guint i = 0; i < desk->n; i++)
    if (nest->places[i].sheet == sheet)
      {
        left[i] = TRUE;
        wanted++;
      }
  for (guint k = 0; k < N_RULES; k++)
    {
      NestRule rule = rule_of (k);

      fill_sheet (desk, &rule, left, fill);
      if (fill->n_taken < wanted)
        continue;
      for (guint i = 0; i < desk->n; i++)
        if (left[i])
          {
            nest->places[i] = fill->places[i];
            nest->places[i].sheet = sheet;
          }
      nest->lying[sheet] = rule.lying;
      return TRUE;
    }

  return FALSE;
}

/* Of the pieces turned on a sheet, puts those upright that need not be turned. */
static void
straighten_sheet (NestDesk *desk, HwNest *nest, guint sheet)
{
  g_autofree gboolean *upright = g_new0 (gboolean, desk->n);
  NestFill *fill = fill_new (desk->n);

  for (guint i = 0; i < desk->n; i++)
    upright[i] = nest->places[i].sheet == sheet && !nest->places[i].turned;
  desk->upright = upright;
  for (guint i = 0; i < desk->n; i++)
    if (nest->places[i].sheet == sheet && !upright[i] && !desk->only_turned[i])
      {
        upright[i] = TRUE;
        upright[i] = refill_sheet (desk, nest, sheet, fill);
      }
  desk->upright = NULL;
  fill_free (fill);
}

/* Numbers the sheets in the order of their first piece. */
static void
order_sheets (HwNest *nest, guint n)
{
  g_autofree int *number = g_new (int, nest->n_sheets);
  g_autofree gboolean *lying = g_memdup2 (nest->lying, nest->n_sheets * sizeof *lying);
  guint next = 0;

  for (guint s = 0; s < nest->n_sheets; s++)
    number[s] = -1;
  for (guint i = 0; i < n; i++)
    {
      guint sheet = nest->places[i].sheet;

      if (number[sheet] < 0)
        {
          number[sheet] = (int)next;
          nest->lying[next++] = lying[sheet];
        }
      nest->places[i].sheet = (guint)number[sheet];
    }
}

static void
desk_set_up (NestDesk *desk, const HwNestSize *pieces, guint n, const HwNestWindows *windows)
{
  *desk = (NestDesk){ .pieces = pieces, .n = n, .windows = windows };
  desk->room = g_array_new (FALSE, FALSE, sizeof (NestFree));
  desk->only_turned = g_new0 (gboolean, n);
  for (guint i = 0; i < n; i++)
    {
      g_assert (hw_nest_fits (pieces[i], windows));
      desk->only_turned[i]
          = !fits (pieces[i], windows->upright, FALSE) && !fits (pieces[i], windows->lying, FALSE);
    }
  for (guint sort = 0; sort < N_SORTS; sort++)
    {
      NestSorting sorting = { pieces, (NestSort)sort };

      desk->sorted[sort] = g_new (guint, n);
      for (guint i = 0; i < n; i++)
        desk->sorted[sort][i] = i;
      g_qsort_with_data (desk->sorted[sort], (int)n, sizeof (guint), compare_pieces, &sorting);
    }
}

static void
desk_clear (NestDesk *desk)
{
  g_array_unref (desk->room);
  g_free (desk->only_turned);
  for (guint sort = 0; sort < N_SORTS; sort++)
    g_free (desk->sorted[sort]);
}

HwNest *
hw_nest_new_upright (const HwNestSize *pieces, guint n_pieces, const HwNestWindows *windows)
{
  NestDesk desk;
  HwNest *nest;

  g_return_val_if_fail ((pieces != NULL || n_pieces == 0) && windows != NULL, NULL);

  desk_set_up (&desk, pieces, n_pieces, windows);
  nest = fewest_sheets (&desk);
  desk_clear (&desk);
  order_sheets (nest, n_pieces);

  return nest;
}

HwNest *
hw_nest_new (const HwNestSize *pieces, guint n_pieces, const HwNestWindows *windows)
{
  g_autoptr (HwNest) upright = NULL;
  g_autoptr (HwNest) turned = NULL;
  NestDesk desk;

  g_return_val_if_fail ((pieces != NULL || n_pieces == 0) && windows != NULL, NULL);

  upright = hw_nest_new_upright (pieces, n_pieces, windows);
  desk_set_up (&desk, pieces, n_pieces, windows);
  desk.turning = TRUE;
  turned = fewest_sheets (&desk);
  if (turned->n_sheets < upright->n_sheets)
    for (guint s = 0; s < turned->n_sheets; s++)
      straighten_sheet (&desk, turned, s);
  desk_clear (&desk);
  order_sheets (turned, n_pieces);

  return turned->n_sheets < upright->n_sheets ? g_steal_pointer (&turned) : g_steal_pointer (&upright);
}
