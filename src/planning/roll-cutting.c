/* Cutting pieces from a roll in rows, as one does with shears: across the roll first, then each row into pieces. Pieces of one size are counted together; the
 * least length for every number of each size follows from that of lesser numbers, one row less (dynamic programming). Where there are too many numbers
 * for that, the pieces go one by one, longest first, into the first row with room (first fit by decreasing height; E. G. Coffman, M. R. Garey, D. S. Johnson and
 * R. E. Tarjan 1980, "Performance bounds for level-oriented two-dimensional packing algorithms", SIAM Journal on Computing 9(4)), turned
 * in three ways of which the best counts. */
#include "roll-cutting.h"

#include <math.h>

#define SAME 1e-6
#define MOST_ROWS 5000

/* Pieces of one size. */
typedef struct
{
  double
      across[2]; /* mm across the roll: the shorter side, the longer side; INFINITY: the roll is too narrow */
  double along[2];
  guint n;
} Size;

typedef struct
{
  double roll;
  GArray *sizes;   /* Size */
  GArray *counts;  /* guint: of each row how many pieces of each size */
  GArray *lengths; /* double: of each row */
} Cutting;

/* FALSE when the roll does not yield it. */
static gboolean
add_piece (Cutting *cutting, const HwRollPiece *piece)
{
  double a = MIN (piece->width, piece->height), b = MAX (piece->width, piece->height);
  Size fresh = { { a, b <= cutting->roll + SAME ? b : INFINITY }, { b, a }, 1 };

  if (a > cutting->roll + SAME)
    return FALSE;
  for (guint s = 0; s < cutting->sizes->len; s++)
    {
      Size *size = &g_array_index (cutting->sizes, Size, s);

      if (fabs (size->along[0] - b) < SAME && fabs (size->along[1] - a) < SAME)
        {
          size->n++;
          return TRUE;
        }
    }
  g_array_append_val (cutting->sizes, fresh);
  return TRUE;
}

/* What a piece takes across the roll in a row of that length: the least, or INFINITY. */
static double
least_across (const Size *size, double length)
{
  if (size->along[0] <= length + SAME)
    return size->across[0];
  return size->along[1] <= length + SAME ? size->across[1] : INFINITY;
}

/* Every row of that length, size by size. FALSE when there are too many. */
static gboolean
list_rows (Cutting *cutting, double length, guint s, double left, guint *n)
{
  const Size *size = &g_array_index (cutting->sizes, Size, s);
  double across;

  if (s == cutting->sizes->len)
    {
      if (cutting->lengths->len >= MOST_ROWS)
        return FALSE;
      g_array_append_vals (cutting->counts, n, s);
      g_array_append_val (cutting->lengths, length);
      return TRUE;
    }
  across = least_across (size, length);
  for (n[s] = 0; n[s] <= size->n && (n[s] == 0 || n[s] * across <= left + SAME); n[s]++)
    if (!list_rows (cutting, length, s + 1, n[s] > 0 ? left - n[s] * across : left, n))
      return FALSE;
  return TRUE;
}

static gboolean
list_all_rows (Cutting *cutting)
{
  g_autofree guint *n = g_new0 (guint, cutting->sizes->len);

  for (guint s = 0; s < cutting->sizes->len; s++)
    for (guint way = 0; way < 2; way++)
      {
        const Size *size = &g_array_index (cutting->sizes, Size, s);

        if (!isinf (size->across[way]) && !list_rows (cutting, size->along[way], 0, cutting->roll, n))
          return FALSE;
      }
  return TRUE;
}

/* All numbers of pieces up to those there are, 0 of each first, the first size counting fastest; or 0 when there are too many. */
static guint
count_states (const Cutting *cutting)
{
  double states = 1;

  for (guint s = 0; s < cutting->sizes->len; s++)
    states *= g_array_index (cutting->sizes, Size, s).n + 1.0;
  return states * cutting->lengths->len <= HW_ROLL_STEPS ? (guint)states : 0;
}

/* By how much the number of the state goes down with the row, or 0 when the state has not so many pieces. */
static guint
row_step (const Cutting *cutting, guint row, guint state)
{
  guint step = 0, place = 1;

  for (guint s = 0; s < cutting->sizes->len; s++)
    {
      guint base = g_array_index (cutting->sizes, Size, s).n + 1;
      guint n = g_array_index (cutting->counts, guint, row * cutting->sizes->len + s);

      if (state / place % base < n)
        return 0;
      step += n * place;
      place *= base;
    }
  return step;
}

/* NAN when there are too many rows or numbers. */
static double
least_length (Cutting *cutting)
{
  g_autofree double *least = NULL;
  guint states = list_all_rows (cutting) ? count_states (cutting) : 0;

  if (states == 0)
    return NAN;
  least = g_new0 (double, states);
  for (guint state = 1; state < states; state++)
    {
      least[state] = INFINITY;
      for (guint row = 0; row < cutting->lengths->len; row++)
        {
          guint step = row_step (cutting, row, state);

          if (step > 0)
            least[state]
                = MIN (least[state], least[state - step] + g_array_index (cutting->lengths, double, row));
        }
    }
  return least[states - 1];
}

/* A piece as it is turned for filling rows one by one. */
typedef struct
{
  double across, along;
} Turned;

static int
compare_along (gconstpointer a, gconstpointer b)
{
  double x = ((const Turned *)a)->along, y = ((const Turned *)b)->along;

  return (x < y) - (x > y);
}

typedef enum
{
  TURN_NARROW,    /* the shorter side across the roll */
  TURN_SHORT,     /* the longer side, where the roll is wide enough */
  TURN_BY_ITSELF, /* as takes least when all are of this size */
  N_TURNS
} Turning;

static guint
way_of (const Size *size, Turning turning, double roll)
{
  if (turning == TURN_NARROW || isinf (size->across[1]))
    return 0;
  if (turning == TURN_SHORT)
    return 1;
  return size->along[1] / floor ((roll + SAME) / size->across[1])
         < size->along[0] / floor ((roll + SAME) / size->across[0]);
}

static double
filled_length (const Cutting *cutting, Turning turning)
{
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (Turned));
  g_autoptr (GArray) left = g_array_new (FALSE, FALSE, sizeof (double)); /* across, of each row */
  double length = 0;

  for (guint s = 0; s < cutting->sizes->len; s++)
    {
      const Size *size = &g_array_index (cutting->sizes, Size, s);
      guint way = way_of (size, turning, cutting->roll);
      Turned piece = { size->across[way], size->along[way] };

      for (guint k = 0; k < size->n; k++)
        g_array_append_val (pieces, piece);
    }
  g_array_sort (pieces, compare_along);
  for (guint i = 0; i < pieces->len; i++)
    {
      const Turned *piece = &g_array_index (pieces, Turned, i);
      guint row = 0;
      double whole = cutting->roll;

      while (row < left->len && g_array_index (left, double, row) + SAME < piece->across)
        row++;
      if (row == left->len)
        {
          g_array_append_val (left, whole);
          length += piece->along;
        }
      g_array_index (left, double, row) -= piece->across;
    }
  return length;
}

double
hw_roll_length (const HwRollPiece *pieces, guint n, double roll_width, guint *too_wide)
{
  Cutting cutting = { .roll = roll_width };
  guint lost = 0;
  double length;

  g_return_val_if_fail (pieces != NULL || n == 0, 0);

  cutting.sizes = g_array_new (FALSE, FALSE, sizeof (Size));
  cutting.counts = g_array_new (FALSE, FALSE, sizeof (guint));
  cutting.lengths = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < n; i++)
    lost += !add_piece (&cutting, &pieces[i]);
  length = least_length (&cutting);
  if (isnan (length))
    for (Turning turning = 0; turning < N_TURNS; turning++)
      length = fmin (length, filled_length (&cutting, turning));
  if (too_wide != NULL)
    *too_wide = lost;
  g_array_unref (cutting.sizes);
  g_array_unref (cutting.counts);
  g_array_unref (cutting.lengths);
  return length;
}
