/* The dual simplex method on a dense dictionary (V. Chvatal 1983, "Linear Programming"), kept solved while sets are added one by one. What
 * rounding leaves over is swept away, so that rows stay thin and pivots cheap; whoever uses the weights must not trust their last digits. */
#include "search-dictionary.h"

#include <math.h>

#define MOST_PIVOTS 20000
#define TINY 1e-9
#define CRUMB 1e-12 /* what rounding leaves in place of 0 */

void
hw_dictionary_init (HwDictionary *dict, guint n)
{
  dict->n = dict->m = n;
  dict->room = 4 * n + 16;
  dict->a = g_new0 (double, (gsize)dict->room *n);
  dict->b = g_new (double, dict->room);
  dict->d = g_new (double, n);
  dict->basic = g_new (int, dict->room);
  dict->nonbasic = g_new (int, n);
  dict->row_of = g_new (int, n);
  dict->used = g_new (guint, n);
  dict->next = 2 * n;
  for (guint e = 0; e < n; e++) /* weight e = 1 - what is left free of the set of e alone */
    {
      dict->a[(gsize)e * n + e] = 1;
      dict->b[e] = 1;
      dict->d[e] = 1 + 1e-6 * (e * 37 % 101); /* set apart a little, against going round in circles */
      dict->basic[e] = e;
      dict->nonbasic[e] = n + e;
      dict->row_of[e] = e;
    }
}

void
hw_dictionary_clear (HwDictionary *dict)
{
  g_free (dict->a);
  g_free (dict->b);
  g_free (dict->d);
  g_free (dict->basic);
  g_free (dict->nonbasic);
  g_free (dict->row_of);
  g_free (dict->used);
}

static void
note_place (HwDictionary *dict, int variable, int place)
{
  if (variable < (int)dict->n)
    dict->row_of[variable] = place;
}

void
hw_dictionary_drop_slack (HwDictionary *dict)
{
  guint kept = 0;

  for (guint r = 0; r < dict->m; r++)
    {
      if (dict->basic[r] >= (int)dict->n && dict->b[r] > 1e-6)
        continue;
      if (kept != r)
        {
          memcpy (dict->a + (gsize)kept * dict->n, dict->a + (gsize)r * dict->n, dict->n * sizeof (double));
          dict->b[kept] = dict->b[r];
          dict->basic[kept] = dict->basic[r];
          note_place (dict, dict->basic[kept], kept);
        }
      kept++;
    }
  dict->m = kept;
}

void
hw_dictionary_add (HwDictionary *dict, const guint *set, guint n_set)
{
  double *row;

  if (dict->m == dict->room)
    {
      dict->room *= 2;
      dict->a = g_renew (double, dict->a, (gsize)dict->room * dict->n);
      dict->b = g_renew (double, dict->b, dict->room);
      dict->basic = g_renew (int, dict->basic, dict->room);
    }
  row = dict->a + (gsize)dict->m * dict->n;
  memset (row, 0, dict->n * sizeof (double));
  dict->b[dict->m] = 1;
  for (guint k = 0; k < n_set; k++)
    {
      int place = dict->row_of[set[k]];
      const double *from = dict->a + (gsize)MAX (place, 0) * dict->n;

      if (place < 0)
        {
          row[-1 - place] += 1;
          continue;
        }
      dict->b[dict->m] -= dict->b[place];
      for (guint c = 0; c < dict->n; c++)
        row[c] -= from[c];
    }
  dict->basic[dict->m++] = dict->next++;
}

static void
pivot (HwDictionary *dict, guint r, guint c)
{
  guint n = dict->n, n_used = 0;
  guint *used = dict->used; /* the columns of the row that are not 0: few */
  double *row = dict->a + (gsize)r * n, p = row[c], step;
  int leaving = dict->basic[r];

  row[c] = 1;
  for (guint j = 0; j < n; j++)
    if (row[j] != 0)
      {
        row[j] /= p;
        used[n_used++] = j;
      }
  dict->b[r] /= p;
  for (guint i = 0; i < dict->m; i++)
    {
      double *other = dict->a + (gsize)i * n, f = other[c];

      if (i == r || f == 0)
        continue;
      other[c] = 0;
      for (guint k = 0; k < n_used; k++)
        {
          double left = other[used[k]] - f * row[used[k]];

          other[used[k]] = fabs (left) < CRUMB ? 0 : left;
        }
      dict->b[i] -= f * dict->b[r];
    }
  step = dict->d[c];
  dict->d[c] = 0;
  for (guint k = 0; k < n_used; k++)
    dict->d[used[k]] = MAX (0, dict->d[used[k]] - step * row[used[k]]);
  dict->basic[r] = dict->nonbasic[c];
  dict->nonbasic[c] = leaving;
  note_place (dict, dict->basic[r], r);
  note_place (dict, leaving, -1 - (int)c);
}

gboolean
hw_dictionary_solve (HwDictionary *dict, HwSearch *search)
{
  for (guint round = 0; round < MOST_PIVOTS; round++)
    {
      guint r = 0, c = G_MAXUINT;
      double least = G_MAXDOUBLE;
      const double *row;

      if (hw_search_time_is_up (search))
        return FALSE;
      for (guint i = 1; i < dict->m; i++)
        if (dict->b[i] < dict->b[r])
          r = i;
      if (dict->b[r] > -TINY)
        return TRUE;
      row = dict->a + (gsize)r * dict->n;
      for (guint j = 0; j < dict->n; j++)
        if (row[j] < -TINY && dict->d[j] < least * -row[j])
          {
            least = dict->d[j] / -row[j];
            c = j;
          }
      if (c == G_MAXUINT)
        return FALSE;
      pivot (dict, r, c);
    }
  return FALSE;
}

double
hw_dictionary_weight (const HwDictionary *dict, guint column)
{
  int row = dict->row_of[column];

  return row >= 0 ? dict->b[row] : 0;
}
