/* Frames on clamped cloth: one that leaves the cloth cannot hold it there, and one that is closed over finished stitching presses it flat. Floated cloth is
 * stuck on, so its frames may lie anywhere. */
#include <glib/gi18n.h>
#include <math.h>

#include "warnings-private.h"

#define VISIBLE 0.05 /* mm */
#define MOST_PRESSED 16

typedef struct
{
  double beyond;
  const char *side;
  HwPoint where;
} Beyond;

/* How far the frame leaves the cloth at most, at which side and where. */
static Beyond
frame_beyond (const HwFabric *fabric, const HwHoop *hoop, HwPoint centre, double angle)
{
  Beyond worst = { 0, NULL, centre };

  for (guint k = 0; k < 4; k++)
    {
      HwPoint p = hw_hooping_point (centre, angle, hoop->frame_width / (k & 1 ? 2 : -2),
                                    hoop->frame_height / (k & 2 ? 2 : -2));
      double beyond[] = { -p.x, p.x - fabric->width, -p.y, p.y - fabric->height };
      const char *const sides[] = { _ ("left"), _ ("right"), _ ("top"), _ ("bottom") };

      for (guint s = 0; s < G_N_ELEMENTS (beyond); s++)
        if (beyond[s] > worst.beyond)
          worst = (Beyond){ beyond[s], sides[s], p };
    }
  return worst;
}

static void
check_stitched (HwWarner *warner, guint h)
{
  const HwHooping *hooping = &warner->plan->hoopings[h];
  Beyond beyond;
  g_autofree char *length = NULL;

  if (hooping->hold != HW_PLACE_FROZEN || hooping->hoop >= warner->snapshot->hoops->len)
    return;
  beyond = frame_beyond (&warner->snapshot->fabric, hw_snapshot_hoop (warner->snapshot, hooping->hoop),
                         hooping->centre, hooping->angle);
  if (beyond.beyond <= VISIBLE)
    return;
  length = hw_length_text (beyond.beyond, warner->unit);
  hw_warner_tell (
      warner, HW_PROBLEM_FRAME_OFF_CLOTH, -1, h, beyond.beyond, beyond.where,
      g_strdup_printf (_ ("The frame of stitched hooping %u passes the clamped cloth by %s at its "
                          "%s. Is the cloth as large as it says here?"),
                       h + 1, length, beyond.side));
}

/* A pin whose frame leaves the cloth is not kept; this says why, and by how much. */
static void
check_pin (HwWarner *warner, const HwPin *pin)
{
  int hoop = pin->hoop != NULL ? hw_snapshot_find_hoop (warner->snapshot, pin->hoop) : -1;
  int motif = pin->motifs != NULL && pin->motifs[0] != NULL
                  ? hw_snapshot_find_motif (warner->snapshot, pin->motifs[0])
                  : -1;
  Beyond beyond;
  g_autofree char *length = NULL;

  if (pin->keep != HW_KEEP_ALL || hoop < 0 || motif < 0)
    return;
  beyond = frame_beyond (&warner->snapshot->fabric, hw_snapshot_hoop (warner->snapshot, hoop), pin->centre,
                         pin->angle);
  if (beyond.beyond <= VISIBLE)
    return;
  length = hw_length_text (beyond.beyond, warner->unit);
  hw_warner_tell (
      warner, HW_PROBLEM_FRAME_OFF_CLOTH, motif, -1, beyond.beyond, beyond.where,
      g_strdup_printf (_ ("The frame of the pinned hooping with %s passes the clamped cloth by %s at "
                          "its %s, where nothing holds it."),
                       hw_warner_name (warner, motif), length, beyond.side));
}

void
hw_warn_frames_off_cloth (HwWarner *warner)
{
  if (warner->snapshot->fabric.hold != HW_HOLD_CLAMPED)
    return;
  for (guint h = 0; h < warner->plan->n_hoopings; h++)
    check_stitched (warner, h);
  for (guint i = 0; i < warner->snapshot->pins->len; i++)
    check_pin (warner, g_ptr_array_index (warner->snapshot->pins, i));
  hw_warner_rest (
      warner, HW_PROBLEM_FRAME_OFF_CLOTH,
      g_strdup_printf (ngettext ("%u more frame passes the clamped cloth.",
                                 "%u more frames pass the clamped cloth.", hw_warner_untold (warner)),
                       hw_warner_untold (warner)));
}

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

/* Whether the ring of the hooping lies over the outline, and where. */
static gboolean
presses_on (const HwHooping *hooping, const HwHoop *hoop, const HwOutline *outline, HwPoint *where)
{
  HwBox bars[4];
  HwPoint middle;

  find_bars (hoop, bars);
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];
      HwPoint a = { 0, 0 };

      for (guint i = 0; i <= ring->n_points; i++)
        {
          HwPoint p = ring->points[i % ring->n_points];
          HwPoint b = hw_point_turn ((HwPoint){ p.x - hooping->centre.x, p.y - hooping->centre.y },
                                     -hooping->angle);

          for (guint k = 0; k < 4 && i > 0; k++)
            if (!hw_box_is_empty (bars[k]) && side_in_box (a, b, bars[k], &middle))
              {
                *where = hw_hooping_point (hooping->centre, hooping->angle, middle.x, middle.y);
                return TRUE;
              }
          a = b;
        }
    }
  /* No side meets the ring: it lies within the stitching as a whole, or beside it. */
  *where = hw_hooping_point (hooping->centre, hooping->angle, (hoop->field_width + hoop->frame_width) / 4, 0);
  return hoop->frame_width > hoop->field_width && hw_outline_contains (outline, *where);
}

static char *
pressing_text (const HwWarner *warner, guint h, const GArray *pressed)
{
  g_autofree char *names = hw_warner_names (warner, (const guint *)pressed->data, pressed->len);

  return g_strdup_printf (
      _ ("The frame of hooping %u presses on %s, stitched by then. Lay soft cloth between, and do not leave "
         "it clamped longer than the stitching takes."),
      h + 1, names);
}

static void
check_pressing (HwWarner *warner, guint h)
{
  const HwHooping *hooping = &warner->plan->hoopings[h];
  const HwHoop *hoop = hw_snapshot_hoop (warner->snapshot, hooping->hoop);
  HwBox frame = hw_hooping_box (hooping->centre, hooping->angle, hoop->frame_width, hoop->frame_height);
  g_autoptr (GArray) pressed = g_array_new (FALSE, FALSE, sizeof (guint));
  HwPoint first = hooping->centre;

  for (guint g = 0; g < h; g++)
    for (guint k = 0; k < warner->plan->hoopings[g].n_motifs; k++)
      {
        guint motif = warner->plan->hoopings[g].motifs[k];
        const HwOutline *outline = warner->placed[motif].outline;
        HwPoint where;

        if (pressed->len >= MOST_PRESSED || !hw_box_overlaps (frame, outline->box)
            || !presses_on (hooping, hoop, outline, &where))
          continue;
        if (pressed->len == 0)
          first = where;
        g_array_append_val (pressed, motif);
      }
  if (pressed->len > 0)
    hw_warner_tell (warner, HW_PROBLEM_FRAME_ON_STITCHING, g_array_index (pressed, guint, 0), h, 0, first,
                    pressing_text (warner, h, pressed));
}

void
hw_warn_frames_on_stitching (HwWarner *warner)
{
  if (warner->snapshot->fabric.hold != HW_HOLD_CLAMPED)
    return;
  for (guint h = 0; h < warner->plan->n_hoopings; h++)
    if (warner->plan->hoopings[h].hold != HW_PLACE_FROZEN
        && warner->plan->hoopings[h].hoop < warner->snapshot->hoops->len)
      check_pressing (warner, h);
  hw_warner_rest (
      warner, HW_PROBLEM_FRAME_ON_STITCHING,
      g_strdup_printf (ngettext ("%u more frame presses on finished stitching.",
                                 "%u more frames press on finished stitching.", hw_warner_untold (warner)),
                       hw_warner_untold (warner)));
}
