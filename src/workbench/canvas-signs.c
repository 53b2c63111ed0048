/* Which signs stand where. Problems are taken in the plan's order; each joins the nearest sign that would otherwise lie under its own, or gets one. So a
 * sign stands at the place of its first problem and does not wander when others join it. */

#include "canvas-signs.h"

#include <glib/gi18n.h>
#include <math.h>

#define APART 32.0 /* px: nearer than that two signs become one */
#define REACH 15.0 /* px, as felt */
#define MOST_SENTENCES 3

typedef struct
{
  HwProblemKind kind;
  HwPoint where; /* mm */
  gboolean grave;
  char *text;
} Told;

typedef struct
{
  HwPoint at;     /* px */
  gboolean grave; /* one of them is */
  GArray *of;     /* guint: indices of what is told */
} Sign;

struct _HwSigns
{
  GArray *told;  /* Told */
  GArray *signs; /* Sign */
};

static void
told_clear (gpointer data)
{
  g_free (((Told *)data)->text);
}

static void
sign_clear (gpointer data)
{
  g_array_unref (((Sign *)data)->of);
}

static GArray *
told_new (void)
{
  GArray *told = g_array_new (FALSE, FALSE, sizeof (Told));

  g_array_set_clear_func (told, told_clear);
  return told;
}

HwSigns *
hw_signs_new (void)
{
  HwSigns *signs = g_new0 (HwSigns, 1);

  signs->told = told_new ();
  signs->signs = g_array_new (FALSE, FALSE, sizeof (Sign));
  g_array_set_clear_func (signs->signs, sign_clear);
  return signs;
}

void
hw_signs_free (HwSigns *signs)
{
  g_array_unref (signs->told);
  g_array_unref (signs->signs);
  g_free (signs);
}

/* Whether a problem has a place that no shape shows already. */
static gboolean
has_sign (const HwProblem *problem)
{
  switch (problem->kind)
    {
    case HW_PROBLEM_OVERSIZE:
    case HW_PROBLEM_OUTSIDE_EDGE_LINE:
    case HW_PROBLEM_OUTSIDE_CLOTH:
    case HW_PROBLEM_NO_HOOP:
      return FALSE;
    case HW_PROBLEM_CLOTH_TOO_SMALL:
      return TRUE;
    default:
      return problem->motif >= 0 || problem->hooping >= 0;
    }
}

static gboolean
same_told (const GArray *a, const GArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      const Told *p = &g_array_index (a, Told, i), *q = &g_array_index (b, Told, i);

      if (p->kind != q->kind || p->where.x != q->where.x || p->where.y != q->where.y || p->grave != q->grave
          || !g_str_equal (p->text, q->text))
        return FALSE;
    }
  return TRUE;
}

gboolean
hw_signs_learn (HwSigns *signs, const HwPlan *plan, int stage)
{
  g_autoptr (GArray) told = told_new ();

  for (guint i = 0; plan != NULL && i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);
      Told one = { problem->kind, problem->where, problem->grave, NULL };

      if (!has_sign (problem) || (stage >= 0 && problem->hooping >= 0 && problem->hooping != stage))
        continue;
      one.text = g_strdup (problem->text != NULL ? problem->text : "");
      g_array_append_val (told, one);
    }
  if (same_told (told, signs->told))
    return FALSE;
  g_array_unref (signs->told);
  signs->told = g_steal_pointer (&told);
  g_array_set_size (signs->signs, 0);
  return TRUE;
}

static Sign *
nearest_sign (const HwSigns *signs, HwPoint at)
{
  Sign *nearest = NULL;
  double least = APART;

  for (guint i = 0; i < signs->signs->len; i++)
    {
      Sign *sign = &g_array_index (signs->signs, Sign, i);
      double distance = hw_point_distance (sign->at, at);

      if (distance < least)
        {
          least = distance;
          nearest = sign;
        }
    }
  return nearest;
}

void
hw_signs_place (HwSigns *signs, const HwView *view)
{
  g_array_set_size (signs->signs, 0);
  for (guint i = 0; i < signs->told->len; i++)
    {
      const Told *told = &g_array_index (signs->told, Told, i);
      HwPoint at = hw_view_to_pixels (view, told->where);
      Sign *sign = nearest_sign (signs, at);

      if (sign == NULL)
        {
          Sign made = { at, FALSE, g_array_new (FALSE, FALSE, sizeof (guint)) };

          g_array_append_val (signs->signs, made);
          sign = &g_array_index (signs->signs, Sign, signs->signs->len - 1);
        }
      sign->grave = sign->grave || told->grave;
      g_array_append_val (sign->of, i);
    }
}

guint
hw_signs_count (const HwSigns *signs)
{
  return signs->signs->len;
}

HwPoint
hw_signs_at (const HwSigns *signs, guint sign)
{
  return g_array_index (signs->signs, Sign, sign).at;
}

guint
hw_signs_size (const HwSigns *signs, guint sign)
{
  return g_array_index (signs->signs, Sign, sign).of->len;
}

gboolean
hw_signs_is_grave (const HwSigns *signs, guint sign)
{
  return g_array_index (signs->signs, Sign, sign).grave;
}

int
hw_signs_under (const HwSigns *signs, HwPoint pixel)
{
  for (guint i = signs->signs->len; i-- > 0;)
    if (hw_point_distance (g_array_index (signs->signs, Sign, i).at, pixel) <= REACH)
      return (int)i;
  return -1;
}

int
hw_signs_of_place (const HwSigns *signs, HwPoint where)
{
  for (guint i = 0; i < signs->signs->len; i++)
    {
      const GArray *of = g_array_index (signs->signs, Sign, i).of;

      for (guint j = 0; j < of->len; j++)
        {
          const Told *told = &g_array_index (signs->told, Told, g_array_index (of, guint, j));

          if (told->where.x == where.x && told->where.y == where.y)
            return (int)i;
        }
    }
  return -1;
}

char *
hw_signs_text (const HwSigns *signs, guint sign)
{
  const GArray *of = g_array_index (signs->signs, Sign, sign).of;
  GString *text = g_string_new (NULL);
  guint shown = of->len > MOST_SENTENCES + 1 ? MOST_SENTENCES : of->len;

  for (guint i = 0; i < shown; i++)
    {
      if (i > 0)
        g_string_append_c (text, '\n');
      g_string_append (text, g_array_index (signs->told, Told, g_array_index (of, guint, i)).text);
    }
  if (shown < of->len)
    {
      g_string_append_c (text, '\n');
      g_string_append_printf (
          text, g_dngettext (GETTEXT_PACKAGE, "And %u more here.", "And %u more here.", of->len - shown),
          of->len - shown);
    }
  return g_string_free (text, FALSE);
}
