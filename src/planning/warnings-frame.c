/* Frames on clamped cloth: one that leaves the cloth cannot hold it there, and one that is closed over finished stitching presses it flat. Floated cloth is
 * stuck on, so its frames may lie anywhere. */
#include <math.h>

#include "frame-press.h"
#include "warnings-private.h"
#include "../geometry/language.h"

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

  if (hooping->hold != HW_PLACE_FROZEN)
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
            || !hw_frame_presses_on (hoop, hooping->centre, hooping->angle, outline, &where))
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
    if (warner->plan->hoopings[h].hold != HW_PLACE_FROZEN)
      check_pressing (warner, h);
  hw_warner_rest (
      warner, HW_PROBLEM_FRAME_ON_STITCHING,
      g_strdup_printf (ngettext ("%u more frame presses on finished stitching.",
                                 "%u more frames press on finished stitching.", hw_warner_untold (warner)),
                       hw_warner_untold (warner)));
}
