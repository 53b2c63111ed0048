/* A frame that is closed over finished stitching presses it flat. Where the cloth is clamped, the frame is therefore set beside it if the
 * motifs leave it the play: a quarter turned, or moved about within the field's room. */
#include "frame-press.h"

#include <math.h>

#include "../geometry/calipers.h"
#include "warnings-private.h"

#define VISIBLE 0.05 /* mm */
#define SAME_AREA 1e-6
#define STEPS 2 /* places tried from the middle of the play to each end of it */

/* The part of a side within an upright box (Liang and Barsky 1984); FALSE when there is none. *middle: of that part. */
static gboolean
side_in_box (HwPoint a, HwPoint b, HwBox box, HwPoint *middle)
{
  double from = 0, to = 1;
  double move[] = { a.x - b.x, b.x - a.x, a.y - b.y, b.y - a.y };
  double room[] = { a.x - box.x0, box.x1 - a.x, a.y - box.y0, box.y1 - a.y };

  for (guint k = 0; k < 4; k++)
    {
      if (move[k] == 0 && room[k] < 0)
        return FALSE;
      if (move[k] < 0)
        from = MAX (from, room[k] / move[k]);
      else if (move[k] > 0)
        to = MIN (to, room[k] / move[k]);
    }
  if (from > to)
    return FALSE;
  *middle = (HwPoint){ a.x + (from + to) / 2 * (b.x - a.x), a.y + (from + to) / 2 * (b.y - a.y) };
  return TRUE;
}

/* The ring between field and frame as four bars, in the hooping's axes, drawn in by what cannot be seen. */
static void
find_bars (const HwHoop *hoop, HwBox bars[4])
{
  double u = hoop->field_width / 2 + VISIBLE, v = hoop->field_height / 2 + VISIBLE;
  double frame_u = hoop->frame_width / 2 - VISIBLE, frame_v = hoop->frame_height / 2 - VISIBLE;

  bars[0] = (HwBox){ -frame_u, -frame_v, -u, frame_v };
  bars[1] = (HwBox){ u, -frame_v, frame_u, frame_v };
  bars[2] = (HwBox){ -frame_u, -frame_v, frame_u, -v };
  bars[3] = (HwBox){ -frame_u, v, frame_u, frame_v };
}

gboolean
hw_frame_presses_on (
    const HwHoop *hoop, HwPoint centre, double angle, const HwOutline *outline, HwPoint *where)
{
  HwBox bars[4];
  HwPoint across = hw_point_turn ((HwPoint){ 1, 0 }, angle), along = { -across.y, across.x }, middle;

  find_bars (hoop, bars);
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = { 0, 0 };

      for (guint i = 0; i <= ring->n_points; i++)
        {
          HwPoint p = ring->points[i % ring->n_points];
          HwPoint way = { p.x - centre.x, p.y - centre.y };
          HwPoint b = { hw_dot (way, across), hw_dot (way, along) };

          for (guint k = 0; k < 4 && i > 0; k++)
            if (!hw_box_is_empty (bars[k]) && side_in_box (a, b, bars[k], &middle))
              {
                *where = hw_hooping_point (centre, angle, middle.x, middle.y);
                return TRUE;
              }
          a = b;
        }
    }
  /* No side meets the ring: it lies within the stitching as a whole, or beside it. */
  *where = hw_hooping_point (centre, angle, (hoop->field_width + hoop->frame_width) / 4, 0);
  return hoop->frame_width > hoop->field_width && hw_outline_contains (outline, *where);
}

/* Looking for a better way to set one frame. */
typedef struct
{
  const HwSnapshot *snapshot;
  const HwPoint *hull;
  guint n_hull;
  const GArray *liked;
  gboolean along_grain;
  GPtrArray *near; /* stitched outlines the frame may come to */
  guint pressed;   /* by the best choice */
  double moved;    /* how far it is from the even place */
  HwHoopChoice *best;
} Setting;

/* On how many it presses; no farther than enough. */
static guint
count_pressed (const Setting *setting, const HwHoopChoice *choice, guint enough)
{
  const HwHoop *hoop = hw_snapshot_hoop (setting->snapshot, choice->hoop);
  HwBox frame
      = hw_hooping_box (choice->pose.centre, choice->pose.angle, hoop->frame_width, hoop->frame_height);
  guint n = 0;
  HwPoint where;

  for (guint i = 0; i < setting->near->len && n < enough; i++)
    {
      const HwOutline *outline = g_ptr_array_index (setting->near, i);

      n += hw_box_overlaps (frame, outline->box)
           && hw_frame_presses_on (hoop, choice->pose.centre, choice->pose.angle, outline, &where);
    }
  return n;
}

static void
try_place (Setting *setting, HwHoopChoice choice, double moved)
{
  guint trouble = setting->best->trouble, pressed;

  if (moved >= setting->moved && setting->pressed == 0)
    return;
  if (!hw_hoop_suits (setting->snapshot, setting->hull, setting->n_hull, setting->liked, &choice)
      || (!setting->along_grain && choice.trouble > trouble))
    return;
  pressed = count_pressed (setting, &choice, setting->pressed + 1);
  if (pressed > setting->pressed || (pressed == setting->pressed && moved >= setting->moved))
    return;
  setting->pressed = pressed;
  setting->moved = moved;
  *setting->best = choice;
}

/* How far the field may be moved from where it lies, to each side alike. */
static HwPoint
find_play (const Setting *setting, const HwHoop *hoop, const HwPose *pose)
{
  HwPoint across = hw_point_turn ((HwPoint){ 1, 0 }, pose->angle), along = { -across.y, across.x };
  HwPoint reach = { 0, 0 };

  for (guint i = 0; i < setting->n_hull; i++)
    {
      HwPoint p = { setting->hull[i].x - pose->centre.x, setting->hull[i].y - pose->centre.y };

      reach.x = MAX (reach.x, fabs (hw_dot (p, across)));
      reach.y = MAX (reach.y, fabs (hw_dot (p, along)));
    }
  return (HwPoint){ MAX (0, hoop->field_width / 2 - hoop->clearance - reach.x),
                    MAX (0, hoop->field_height / 2 - hoop->clearance - reach.y) };
}

static void
try_hoop (Setting *setting, guint hoop, double angle)
{
  const HwHoop *set = hw_snapshot_hoop (setting->snapshot, hoop);
  HwHoopChoice choice = { .hoop = hoop };
  HwPose even;
  HwPoint play;
  int steps_u, steps_v;

  if (!hw_sharing_pose_at (setting->hull, setting->n_hull, set, &setting->snapshot->fabric, angle, &even))
    return;
  play = find_play (setting, set, &even);
  steps_u = play.x > VISIBLE ? STEPS : 0;
  steps_v = play.y > VISIBLE ? STEPS : 0;
  for (int a = -steps_u; a <= steps_u; a++)
    for (int b = -steps_v; b <= steps_v; b++)
      {
        double u = play.x * a / STEPS, v = play.y * b / STEPS;

        choice.pose = even;
        choice.pose.centre = hw_hooping_point (even.centre, even.angle, u, v);
        try_place (setting, choice, hypot (u, v));
      }
}

/* What lies near enough to the motifs that a frame around them could reach it. */
static GPtrArray *
find_near (const HwSnapshot *snapshot, const HwPoint *hull, guint n_hull, const GPtrArray *stitched)
{
  GPtrArray *near = g_ptr_array_new ();
  HwBox box = hw_box_of_points (hull, n_hull);
  double reach = 0;

  for (guint i = 0; i < snapshot->hoops->len; i++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (snapshot, i);

      reach = MAX (reach, hypot (hoop->frame_width, hoop->frame_height));
    }
  box = (HwBox){ box.x0 - reach, box.y0 - reach, box.x1 + reach, box.y1 + reach };
  for (guint i = 0; i < stitched->len; i++)
    if (hw_box_overlaps (box, ((const HwOutline *)g_ptr_array_index (stitched, i))->box))
      g_ptr_array_add (near, g_ptr_array_index (stitched, i));
  return near;
}

void
hw_frame_set_beside (const HwSnapshot *snapshot,
                     const HwPoint *hull,
                     guint n_hull,
                     const GArray *liked,
                     gboolean along_grain,
                     const GPtrArray *stitched,
                     HwHoopChoice *choice)
{
  g_autoptr (GPtrArray) near = find_near (snapshot, hull, n_hull, stitched);
  Setting setting = { snapshot, hull, n_hull, liked, along_grain, near, 0, 0, choice };
  const HwHoop *first = hw_snapshot_hoop (snapshot, choice->hoop);
  const double angle = choice->pose.angle, area = first->field_width * first->field_height;
  const guint from = choice->hoop, n = snapshot->hoops->len;

  setting.pressed = count_pressed (&setting, choice, G_MAXUINT);
  for (guint turn = 0; turn < 2; turn++)
    for (guint i = 0; i < n && setting.pressed > 0; i++)
      {
        const HwHoop *hoop = hw_snapshot_hoop (snapshot, (from + i) % n);

        setting.moved = 0; /* what is farther from the first choice has to press on fewer */
        if (!hoop->set_aside && fabs (hoop->field_width * hoop->field_height - area) < SAME_AREA)
          try_hoop (&setting, (from + i) % n, angle + 90 * turn);
      }
}
