/* The sharing test, made quick. For each set the extents in 32 directions are kept; those of a larger set are the wider of its parts'. A set
 * whose extents at one of these angles lie within the field fits. A set that fits at some angle has, half a step d away from it, extents of
 * at most w cos d + h sin d: a set that exceeds this everywhere fits nowhere. Only what lies between is asked exactly (sharing.h), and
 * remembered under a key of 128 bits mixed from the motifs in the set. */
#include "set-fit.h"

#include <math.h>

#include "../geometry/hull.h"
#include "sharing.h"

#define DIRECTIONS 32
#define MOST_REMEMBERED (1u << 20)

/* Four numbers at a time, as the machine has them. Single precision is enough, as what it leaves in doubt is asked exactly. */
#define LANES 4
#define ROW (DIRECTIONS / LANES)
typedef float Lanes __attribute__ ((vector_size (LANES * sizeof (float))));
typedef gint32 Yes __attribute__ ((vector_size (LANES * sizeof (gint32))));

/* far, near: the greatest of x cos a + y sin a over the points, and the greatest of its negative, at a = 180 k / DIRECTIONS degrees. */
typedef struct
{
  Lanes far[ROW];
  Lanes near[ROW];
} Extents;

/* A hoop in the way: what counts for the question. */
typedef struct
{
  HwHoop *record;
  double wide, high;           /* usable field */
  double most_wide, most_high; /* extents half a step away from a fit */
  gboolean quarter;
} Field;

typedef struct
{
  HwSetKey key; /* b with its lowest bit replaced by the answer; a and b 0: free */
} Known;

/* A set that was put together on the way to the last one asked about. */
typedef struct
{
  guint item;
  Extents extents;
  GArray *hull; /* HwPoint; length 0 until needed */
} Stage;

struct _HwSetFit
{
  double cosine[DIRECTIONS], sine[DIRECTIONS];
  HwFabric fabric;
  GArray *fields; /* Field */
  GPtrArray *hoops;
  const HwPlaced *placed;
  guint n;
  Extents *extents;
  float slack;       /* mm: what single precision may be off by */
  GPtrArray *stages; /* Stage */
  guint depth;       /* stages that hold */
  Known *known;
  guint n_known, room;
};

static void
stage_free (gpointer data)
{
  Stage *stage = data;

  g_array_unref (stage->hull);
  g_aligned_free (stage);
}

HwSetFit *
hw_set_fit_new (void)
{
  HwSetFit *fit = g_new0 (HwSetFit, 1);

  for (guint k = 0; k < DIRECTIONS; k++)
    sincos (G_PI * k / DIRECTIONS, &fit->sine[k], &fit->cosine[k]);
  fit->fields = g_array_new (FALSE, FALSE, sizeof (Field));
  fit->hoops = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);
  fit->stages = g_ptr_array_new_with_free_func (stage_free);
  fit->room = 1024;
  fit->known = g_new0 (Known, fit->room);
  return fit;
}

void
hw_set_fit_free (HwSetFit *fit)
{
  g_array_unref (fit->fields);
  g_ptr_array_unref (fit->hoops);
  g_ptr_array_unref (fit->stages);
  g_aligned_free (fit->extents);
  g_free (fit->known);
  g_free (fit);
}

static gboolean
same_hoop (const HwHoop *a, const HwHoop *b)
{
  return a == b
         || (a->field_width == b->field_width && a->field_height == b->field_height
             && a->frame_width == b->frame_width && a->frame_height == b->frame_height
             && a->clearance == b->clearance && a->turn == b->turn && a->set_aside == b->set_aside);
}

static gboolean
nothing_changed (const HwSetFit *fit, const HwSnapshot *snapshot)
{
  const HwFabric *now = &snapshot->fabric;

  if (fit->hoops->len != snapshot->hoops->len || fit->fabric.width != now->width
      || fit->fabric.height != now->height || fit->fabric.hold != now->hold)
    return FALSE;
  for (guint i = 0; i < fit->hoops->len; i++)
    if (!same_hoop (g_ptr_array_index (fit->hoops, i), hw_snapshot_hoop (snapshot, i)))
      return FALSE;
  return TRUE;
}

/* Whether everything that fits b also fits a, so that b need not be asked. */
static gboolean
covers (const Field *a, const Field *b)
{
  gboolean as_is = a->wide >= b->wide && a->high >= b->high;
  gboolean turned = a->wide >= b->high && a->high >= b->wide;

  return (as_is || turned) && (!a->quarter || b->quarter);
}

static void
take_field (HwSetFit *fit, HwHoop *hoop, gboolean clamped)
{
  Field field = { .record = hoop,
                  .wide = hoop->field_width - 2 * hoop->clearance,
                  .high = hoop->field_height - 2 * hoop->clearance,
                  .quarter = hoop->turn == HW_TURN_QUARTER };
  double s, c;

  sincos (G_PI / (2 * DIRECTIONS), &s, &c);
  field.most_wide = field.wide * c + field.high * s + 1e-5;
  field.most_high = field.high * c + field.wide * s + 1e-5;
  if (field.wide <= 0 || field.high <= 0 || hoop->set_aside)
    return;
  for (guint i = 0; i < fit->fields->len && !clamped; i++)
    if (covers (&g_array_index (fit->fields, Field, i), &field))
      return;
  for (guint i = fit->fields->len; i-- > 0 && !clamped;)
    if (covers (&field, &g_array_index (fit->fields, Field, i)))
      g_array_remove_index (fit->fields, i);
  g_array_append_val (fit->fields, field);
}

static void
take_scene (HwSetFit *fit, const HwSnapshot *snapshot)
{
  fit->fabric = snapshot->fabric;
  fit->fabric.unknown = NULL;
  g_ptr_array_set_size (fit->hoops, 0);
  g_array_set_size (fit->fields, 0);
  for (guint i = 0; i < snapshot->hoops->len; i++)
    {
      g_ptr_array_add (fit->hoops, hw_hoop_ref ((HwHoop *)hw_snapshot_hoop (snapshot, i)));
      take_field (fit, g_ptr_array_index (fit->hoops, i), snapshot->fabric.hold == HW_HOLD_CLAMPED);
    }
  memset (fit->known, 0, fit->room * sizeof (Known));
  fit->n_known = 0;
}

static void
find_extents (HwSetFit *fit, const HwOutline *outline, Extents *extents)
{
  for (guint k = 0; k < DIRECTIONS; k++)
    {
      double far = -1e30, near = 1e30;

      for (guint i = 0; i < outline->n_hull; i++)
        {
          double d = outline->hull[i].x * fit->cosine[k] + outline->hull[i].y * fit->sine[k];

          far = MAX (far, d);
          near = MIN (near, d);
        }
      extents->far[k / LANES][k % LANES] = (float)far;
      extents->near[k / LANES][k % LANES] = (float)-near;
      fit->slack = MAX (fit->slack, (float)MAX (fabs (far), fabs (near)) * 2.5e-7f);
    }
}

gboolean
hw_set_fit_begin (HwSetFit *fit, const HwSnapshot *snapshot, const HwPlaced *placed, guint n)
{
  gboolean changed = !nothing_changed (fit, snapshot);

  if (changed)
    take_scene (fit, snapshot);
  fit->placed = placed;
  fit->n = n;
  fit->depth = 0;
  fit->slack = 1e-5f;
  g_aligned_free (fit->extents);
  fit->extents = g_aligned_alloc (MAX (n, 1), sizeof (Extents), sizeof (Lanes));
  for (guint i = 0; i < n; i++)
    find_extents (fit, placed[i].outline, &fit->extents[i]);
  return changed;
}

static guint64
mix (guint64 x) /* splitmix64 */
{
  x += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
  x = (x ^ (x >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  x = (x ^ (x >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return x ^ (x >> 31);
}

HwSetKey
hw_set_key (const HwPlaced *placed, const guint *set, guint n)
{
  HwSetKey key = { n, 0 };

  for (guint i = 0; i < n; i++)
    {
      key.a += mix (2 * placed[set[i]].serial + 1);
      key.b += mix (~placed[set[i]].serial);
    }
  return key;
}

/* The slot of a key, taken or free. */
static Known *
find_known (const HwSetFit *fit, HwSetKey key)
{
  guint slot = (guint)(key.a ^ key.b) & (fit->room - 1);

  while ((fit->known[slot].key.a | fit->known[slot].key.b) != 0
         && (fit->known[slot].key.a != key.a || (fit->known[slot].key.b ^ key.b) > 1))
    slot = (slot + 1) & (fit->room - 1);
  return &fit->known[slot];
}

static void
remember (HwSetFit *fit, HwSetKey key, gboolean answer)
{
  Known *known;

  if (fit->n_known * 2 >= fit->room)
    {
      Known *old = fit->known;
      guint n = fit->room;

      fit->n_known = 0;
      if (fit->room < 2 * MOST_REMEMBERED)
        fit->room *= 2;
      fit->known = g_new0 (Known, fit->room);
      for (guint i = 0; i < n && fit->room > n; i++)
        if ((old[i].key.a | old[i].key.b) != 0)
          {
            *find_known (fit, old[i].key) = old[i];
            fit->n_known++;
          }
      g_free (old);
    }
  known = find_known (fit, key);
  known->key = (HwSetKey){ key.a, (key.b & ~G_GUINT64_CONSTANT (1)) | !!answer };
  fit->n_known++;
}

static Stage *
stage (HwSetFit *fit, guint depth)
{
  return g_ptr_array_index (fit->stages, depth);
}

static inline Lanes
larger (Lanes a, Lanes b)
{
  Yes first = a > b;

  return (Lanes)(((Yes)a & first) | ((Yes)b & ~first));
}

/* Brings the stages to the set; what they have in common with the last set stays. */
static void
follow (HwSetFit *fit, const guint *set, guint n)
{
  guint same = 0;

  while (same < n && same < fit->depth && stage (fit, same)->item == set[same])
    same++;
  for (guint i = same; i < n; i++)
    {
      const Extents *own = &fit->extents[set[i]];
      Stage *here;

      if (i == fit->stages->len)
        {
          here = g_aligned_alloc0 (1, sizeof (Stage), sizeof (Lanes));
          here->hull = g_array_new (FALSE, FALSE, sizeof (HwPoint));
          g_ptr_array_add (fit->stages, here);
        }
      here = stage (fit, i);
      here->item = set[i];
      g_array_set_size (here->hull, 0);
      if (i == 0)
        {
          here->extents = *own;
          continue;
        }
      for (guint k = 0; k < ROW; k++)
        {
          const Extents *base = &stage (fit, i - 1)->extents;

          here->extents.far[k] = larger (base->far[k], own->far[k]);
          here->extents.near[k] = larger (base->near[k], own->near[k]);
        }
    }
  fit->depth = n;
}

const HwPoint *
hw_set_fit_hull (HwSetFit *fit, const guint *set, guint n, guint *n_hull)
{
  guint from = n;

  g_return_val_if_fail (n > 0, NULL);

  follow (fit, set, n);
  while (from > 0 && stage (fit, from - 1)->hull->len == 0)
    from--;
  for (guint i = from; i < n; i++)
    {
      const HwOutline *own = fit->placed[set[i]].outline;
      Stage *here = stage (fit, i);

      if (i == 0)
        {
          g_array_append_vals (here->hull, own->hull, own->n_hull);
          continue;
        }
      g_array_set_size (here->hull, stage (fit, i - 1)->hull->len + own->n_hull + 2);
      g_array_set_size (here->hull, hw_hull_merge ((const HwPoint *)stage (fit, i - 1)->hull->data,
                                                   stage (fit, i - 1)->hull->len, own->hull, own->n_hull,
                                                   (HwPoint *)here->hull->data));
    }
  *n_hull = stage (fit, n - 1)->hull->len;
  return (const HwPoint *)stage (fit, n - 1)->hull->data;
}

typedef enum
{
  ANSWER_NO,
  ANSWER_YES,
  ANSWER_OPEN
} Answer;

static inline gboolean
any (Yes yes)
{
  return (yes[0] | yes[1] | yes[2] | yes[3]) != 0;
}

static Answer
ask_extents (const HwSetFit *fit, const Lanes *size, const Field *field, gboolean clamped)
{
  double most_wide = field->quarter ? field->wide + 1e-5 : field->most_wide;
  double most_high = field->quarter ? field->high + 1e-5 : field->most_high;
  float least_wide = (float)field->wide - fit->slack, least_high = (float)field->high - fit->slack;
  Yes open = { 0 }, fits = { 0 };

  most_wide += fit->slack;
  most_high += fit->slack;
  if (field->quarter)
    {
      float wide = size[0][0], high = size[ROW / 2][0];
      gboolean as_is = wide <= least_wide && high <= least_high,
               turned = high <= least_wide && wide <= least_high;

      if (!clamped && (as_is || turned))
        return ANSWER_YES;
      return (wide <= most_wide && high <= most_high) || (high <= most_wide && wide <= most_high)
                 ? ANSWER_OPEN
                 : ANSWER_NO;
    }
  for (guint k = 0; k < ROW; k++)
    {
      Lanes wide = size[k], high = size[(k + ROW / 2) % ROW];

      open |= (wide <= (float)most_wide) & (high <= (float)most_high);
      fits |= (wide <= least_wide) & (high <= least_high);
    }
  if (!any (open))
    return ANSWER_NO;
  return !clamped && any (fits) ? ANSWER_YES : ANSWER_OPEN;
}

gboolean
hw_set_fit_ask (HwSetFit *fit, const guint *set, guint n)
{
  gboolean clamped = fit->fabric.hold == HW_HOLD_CLAMPED, yes = FALSE;
  guint64 open = 0;
  const HwPoint *hull;
  const Known *known;
  Lanes size[ROW];
  HwSetKey key;
  guint n_hull;

  g_return_val_if_fail (n > 0, FALSE);

  follow (fit, set, n);
  for (guint k = 0; k < ROW; k++)
    size[k] = stage (fit, n - 1)->extents.far[k] + stage (fit, n - 1)->extents.near[k];
  for (guint i = 0; i < fit->fields->len; i++)
    {
      Answer answer = ask_extents (fit, size, &g_array_index (fit->fields, Field, i), clamped);

      if (answer == ANSWER_YES)
        return TRUE;
      if (answer == ANSWER_OPEN)
        open |= G_GUINT64_CONSTANT (1) << MIN (i, 63);
    }
  if (open == 0)
    return FALSE;
  key = hw_set_key (fit->placed, set, n);
  known = find_known (fit, key);
  if ((known->key.a | known->key.b) != 0)
    return known->key.b & 1;
  hull = hw_set_fit_hull (fit, set, n, &n_hull);
  for (guint i = 0; i < fit->fields->len && !yes; i++)
    yes = (open >> MIN (i, 63) & 1)
          && hw_sharing_fits (hull, n_hull, g_array_index (fit->fields, Field, i).record, &fit->fabric);
  remember (fit, key, yes);
  return yes;
}
