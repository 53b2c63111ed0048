/* Why this hoop, at this angle, with this much room. */
#include <math.h>

#include "explain-private.h"
#include "sharing-private.h"
#include "../geometry/language.h"

#define SAME_ANGLE 1e-6
#define MOST_RANGES 3

/* What the hooping's lines are about. */
typedef struct
{
  const HwExplaining *ex;
  const HwHooping *hooping;
  const HwHoop *hoop;
  GArray *hull;
  const char *size; /* of the field */
  gboolean grain;   /* the person asked for an angle along the grain */
} Subject;

static double
area_of (const HwHoop *hoop)
{
  return hoop->field_width * hoop->field_height;
}

/* The largest of the smaller hoops. */
static const HwHoop *
next_smaller (const Subject *s)
{
  const HwHoop *found = NULL;

  for (guint h = 0; h < s->ex->usable->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (s->ex->usable, h);

      if (area_of (hoop) < area_of (s->hoop) && (found == NULL || area_of (hoop) > area_of (found)))
        found = hoop;
    }
  return found;
}

static void
add_smaller (GString *text, const Subject *s, const HwHoop *smaller)
{
  g_autoptr (HwSnapshot) only = hw_snapshot_copy (s->ex->scene);
  const HwPoint *hull = (const HwPoint *)s->hull->data;
  g_autofree char *size = hw_explaining_hoop_size (s->ex, smaller), *needed = NULL;
  HwNearMiss near_miss;
  HwHullPose pose;

  if (hw_sharing_fits (hull, s->hull->len, smaller, &s->ex->scene->fabric))
    {
      g_string_append_printf (text,
                              _ ("The smaller %s hoop would do too, but only at an angle that suits the "
                                 "motifs less.\n"),
                              size);
      return;
    }
  g_ptr_array_set_size (only->hoops, 0);
  g_ptr_array_add (only->hoops, hw_hoop_ref (smaller));
  near_miss = hw_sharing_nearest (hull, s->hull->len, only);
  if (!isfinite (near_miss.miss) || near_miss.by_frame)
    {
      g_string_append_printf (text, _ ("The smaller %s hoop cannot be set here.\n"), size);
      return;
    }
  pose = hw_hull_pose_at (hull, s->hull->len, near_miss.angle);
  needed = hw_size_text (pose.wide, pose.high, s->ex->unit);
  g_string_append_printf (
      text,
      ngettext ("The smaller %1$s hoop does not take it: it needs %2$s and the clearance.\n",
                "The smaller %1$s hoop does not take them: they need %2$s and the "
                "clearance.\n",
                s->hooping->n_motifs),
      size, needed);
}

/* A smaller hoop that would do, but is set aside. */
static void
add_set_aside (GString *text, const Subject *s)
{
  const HwHoop *found = NULL;
  g_autofree char *size = NULL;

  for (guint h = 0; h < s->ex->scene->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (s->ex->scene, h);

      if (hoop->set_aside && area_of (hoop) < area_of (s->hoop)
          && (found == NULL || area_of (hoop) < area_of (found))
          && hw_sharing_fits ((const HwPoint *)s->hull->data, s->hull->len, hoop, &s->ex->scene->fabric))
        found = hoop;
    }
  if (found == NULL)
    return;
  size = hw_explaining_hoop_size (s->ex, found);
  g_string_append_printf (text, _ ("The smaller %s hoop would do too, but it is set aside.\n"), size);
}

static void
add_why_hoop (GString *text, const Subject *s)
{
  const HwHoop *smaller = next_smaller (s);

  if (s->ex->usable->hoops->len == 1)
    g_string_append_printf (text, _ ("Hoop: %s, the only one in use.\n"), s->size);
  else if (smaller == NULL)
    g_string_append_printf (text, _ ("Hoop: %s, the smallest in use.\n"), s->size);
  else
    {
      g_string_append_printf (text,
                              ngettext ("Hoop: %s, the smallest that takes it well.\n",
                                        "Hoop: %s, the smallest that takes them well.\n",
                                        s->hooping->n_motifs),
                              s->size);
      add_smaller (text, s, smaller);
    }
  add_set_aside (text, s);
}

/* The pin that holds the hooping, or NULL. */
static const HwPin *
pin_of (const Subject *s)
{
  const char *id = hw_snapshot_motif (s->ex->scene, s->hooping->motifs[0])->id;

  for (guint p = 0; p < s->ex->scene->pins->len; p++)
    {
      const HwPin *pin = g_ptr_array_index (s->ex->scene->pins, p);

      if (pin->motifs != NULL && g_strv_contains ((const char *const *)pin->motifs, id))
        return pin;
    }
  return NULL;
}

/* Says what is held; TRUE when hoop and angle are free all the same. */
static gboolean
add_hold (GString *text, Subject *s)
{
  const HwPin *pin;

  if (s->hooping->hold == HW_PLACE_FROZEN)
    {
      g_string_append_printf (text, _ ("It is stitched already, in the %s hoop, and stays as it is.\n"),
                              s->size);
      return FALSE;
    }
  if (s->hooping->hold != HW_PLACE_PINNED)
    return TRUE;
  pin = pin_of (s);
  if (pin == NULL || pin->keep == HW_KEEP_ALL)
    {
      g_string_append_printf (text, _ ("It is pinned, with its motifs, in the %s hoop where it lies.\n"),
                              s->size);
      return FALSE;
    }
  s->grain = pin->keep == HW_KEEP_GRAIN;
  g_string_append (text, s->grain
                             ? _ ("Its motifs are pinned to one hooping by themselves, along the grain.\n")
                             : _ ("Its motifs are pinned to one hooping by themselves.\n"));
  return TRUE;
}

static char *
turn_text (double angle)
{
  double turn = hw_hoop_angle_normal (angle);
  g_autofree char *amount = hw_angle_text (fabs (turn));

  if (fabs (turn) < SAME_ANGLE)
    return g_strdup (_ ("straight along the cloth"));
  if (fabs (turn - 90) < SAME_ANGLE)
    return g_strdup (_ ("across the cloth, turned by 90°"));
  return turn > 0 ? g_strdup_printf (_ ("turned %s clockwise"), amount)
                  : g_strdup_printf (_ ("turned %s anticlockwise"), amount);
}

/* The motifs whose turn at the machine is a multiple of step. Returns: (transfer full) (element-type guint) */
static GArray *
motifs_on_step (const Subject *s, double step)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint k = 0; k < s->hooping->n_motifs; k++)
    {
      const HwMotif *motif = hw_snapshot_motif (s->ex->scene, s->hooping->motifs[k]);

      if (fabs (remainder (motif->placement.angle - s->hooping->angle, step)) < SAME_ANGLE)
        g_array_append_val (found, s->hooping->motifs[k]);
    }
  return found;
}

static gboolean
is_roomiest (const Subject *s)
{
  HwPose pose;

  return hw_sharing_pose ((const HwPoint *)s->hull->data, s->hull->len, s->hoop, &s->ex->scene->fabric, NULL,
                          0, 0, &pose)
         && fabs (remainder (pose.angle - s->hooping->angle, 180)) < 1e-3;
}

static void
add_why_angle (GString *text, const Subject *s)
{
  double step = s->ex->scene->machine.turn_step;
  g_autoptr (GArray) unturned = motifs_on_step (s, 180), quarter = motifs_on_step (s, 90), on_step = NULL;
  g_autofree char *turn = turn_text (s->hooping->angle), *names = NULL, *amount = NULL;

  g_string_append_printf (text, _ ("Angle: %s"), turn);
  if (s->grain)
    {
      g_string_append (text, _ (", along the grain as you asked."));
      return;
    }
  if (step > 0)
    on_step = motifs_on_step (s, step);
  if (unturned->len > 0 || quarter->len > 0)
    {
      const GArray *told = unturned->len > 0 ? unturned : quarter;

      names = hw_explaining_names (s->ex, (const guint *)told->data, told->len);
      g_string_append_printf (text,
                              unturned->len > 0
                                  ? ngettext (", so that %s lies unturned at the machine.",
                                              ", so that %s lie unturned at the machine.", told->len)
                                  : ngettext (", so that %s lies a quarter turned at the machine.",
                                              ", so that %s lie a quarter turned at the machine.", told->len),
                              names);
    }
  else if (on_step != NULL && on_step->len > 0)
    {
      names = hw_explaining_names (s->ex, (const guint *)on_step->data, on_step->len);
      amount = hw_angle_text (step);
      g_string_append_printf (text,
                              ngettext (", so that %s is turned by whole steps of %s at the machine.",
                                        ", so that %s are turned by whole steps of %s at the machine.",
                                        on_step->len),
                              names, amount);
    }
  else if (is_roomiest (s))
    g_string_append (text, _ (", where most room is left."));
  else
    g_string_append (text, _ (", where it lay before; there is room enough."));
}

static char *
range_text (HwAngleInterval range)
{
  double shift = range.from > 90 + SAME_ANGLE ? -180 : 0;
  g_autofree char *from = hw_angle_text (range.from + shift), *to = hw_angle_text (range.to + shift);

  if (g_str_equal (from, to))
    return g_strdup (from);
  return g_strdup_printf (_ ("%s to %s"), from, to);
}

static void
join_at_half_turn (GArray *ranges)
{
  HwAngleInterval *first, *last;

  if (ranges->len < 2)
    return;
  first = &g_array_index (ranges, HwAngleInterval, 0);
  last = &g_array_index (ranges, HwAngleInterval, ranges->len - 1);
  if (first->from > 1e-9 || last->to < 180 - 1e-9)
    return;
  first->from = last->from - 180;
  g_array_set_size (ranges, ranges->len - 1);
}

static void
add_angles (GString *text, const Subject *s)
{
  g_autoptr (GArray) ranges
      = hw_sharing_angles ((const HwPoint *)s->hull->data, s->hull->len, s->hoop, &s->ex->scene->fabric);
  const HwAngleInterval *first = ranges->len > 0 ? &g_array_index (ranges, HwAngleInterval, 0) : NULL;

  if (ranges->len == 0)
    {
      g_string_append (text, "\n");
      return;
    }
  if (s->hoop->turn == HW_TURN_QUARTER)
    {
      g_string_append (text, ranges->len > 1
                                 ? _ (" This hoop is turned by quarters only; both ways fit.\n")
                                 : _ (" This hoop is turned by quarters only; the other way does not "
                                      "fit.\n"));
      return;
    }
  if (ranges->len == 1 && first->to - first->from >= 180 - 1e-9)
    {
      g_string_append (text, _ (" Any angle fits.\n"));
      return;
    }
  join_at_half_turn (ranges);
  g_string_append (text, _ (" Angles that fit: "));
  for (guint r = 0; r < MIN (ranges->len, MOST_RANGES); r++)
    {
      g_autofree char *range = range_text (g_array_index (ranges, HwAngleInterval, r));

      g_string_append_printf (text, "%s%s", r > 0 ? _ (", ") : "", range);
    }
  g_string_append (text, ranges->len > MOST_RANGES ? _ (" and others.\n") : _ (".\n"));
}

static void
add_margin (GString *text, const Subject *s)
{
  g_autofree char *margin = hw_length_text (s->hooping->margin, s->ex->unit);
  g_autofree char *clearance = hw_length_text (s->hoop->clearance, s->ex->unit);

  if (s->hooping->margin > 0)
    g_string_append_printf (text, _ ("Room: %s stay free on the tightest side; %s is asked for.\n"), margin,
                            clearance);
}

void
hw_explain_add_hoop (GString *text, const HwExplaining *ex, guint hooping)
{
  const HwHooping *record = &ex->plan->hoopings[hooping];
  const HwHoop *hoop = hw_snapshot_hoop (ex->scene, record->hoop);
  g_autoptr (GArray) hull = hw_explaining_hull (ex, record->motifs, record->n_motifs);
  g_autofree char *size = hw_explaining_hoop_size (ex, hoop);
  Subject s = { ex, record, hoop, hull, size };

  if (record->n_motifs == 0)
    return;
  if (add_hold (text, &s))
    {
      add_why_hoop (text, &s);
      add_why_angle (text, &s);
      add_angles (text, &s);
    }
  add_margin (text, &s);
}
