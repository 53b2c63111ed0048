/* Figures at the pointer while something is pulled: how far it was moved, turned or resized, and how far it lies from the edge line. */

#include <glib/gi18n.h>
#include <math.h>

#include "../geometry/units.h"
#include "canvas-private.h"
#include "edge-gap.h"

#define MOST_MEASURED                                                                                        \
  8                 /* motifs in the air at once: of more the distance to the edge line is not looked for */
#define BESIDE 24.0 /* px from the pointer */
#define ABOUT_AS_WIDE 330.0
#define GAP "\302\240\302\267\302\240"

/* (transfer full) (nullable) */
static char *
edge_words (HwCanvas *canvas)
{
  const HwEdgeLine *edge = hw_scene_get_edge_line (hw_bench_get_scene (canvas->bench));
  const HwDrag *drag = &canvas->drag;
  double gap = G_MAXDOUBLE;
  g_autofree char *length = NULL;

  if (edge == NULL || drag->motifs == NULL || drag->motifs->len == 0 || drag->motifs->len > MOST_MEASURED)
    return NULL;
  for (guint i = 0; i < drag->motifs->len; i++)
    gap = MIN (gap,
               hw_edge_gap (hw_scene_motif_get_placed (g_ptr_array_index (drag->motifs, i)), edge->outline));
  /* By how much it passes the line is told beside the place where it does. */
  if (gap < 0)
    return NULL;
  length = hw_length_text (gap, hw_bench_get_unit (canvas->bench));
  return g_strdup_printf (_ ("%s to the edge line"), length);
}

static char *
moved_words (HwCanvas *canvas, HwPoint by)
{
  HwUnit unit = hw_bench_get_unit (canvas->bench);
  g_autofree char *across = hw_length_text (fabs (by.x), unit);
  g_autofree char *down = hw_length_text (fabs (by.y), unit);

  /* Translators: "12.0 mm right, 3.5 mm up" */
  return g_strdup_printf (_ ("%s %s, %s %s"), across, by.x < 0 ? _ ("left") : _ ("right"), down,
                          by.y < 0 ? _ ("up") : _ ("down"));
}

/* What the hand has done to the first of the motifs in it. (transfer full) */
static char *
hand_words (HwCanvas *canvas)
{
  const HwDrag *drag = &canvas->drag;
  const HwMotif *motif = hw_scene_motif_get_record (g_ptr_array_index (drag->motifs, 0));
  const HwPlacement *now = &motif->placement, *start = &drag->starts[0];
  HwBox box = motif->outline->box;

  if (drag->pull == HW_PULL_TURN)
    {
      g_autofree char *angle = hw_angle_text (now->angle);
      g_autofree char *turned = hw_angle_text (fabs (remainder (now->angle - start->angle, 360)));

      return g_strdup_printf (remainder (now->angle - start->angle, 360) < 0
                                  ? _ ("%s, turned by %s anticlockwise")
                                  : _ ("%s, turned by %s clockwise"),
                              angle, turned);
    }
  if (drag->pull == HW_PULL_RESIZE)
    {
      g_autofree char *size = hw_size_text ((box.x1 - box.x0) * now->scale, (box.y1 - box.y0) * now->scale,
                                            hw_bench_get_unit (canvas->bench));

      return g_strdup_printf ("%.4g\302\240%%" GAP "%s", round (now->scale * 1000) / 10, size);
    }
  return moved_words (canvas,
                      (HwPoint){ now->position.x - start->position.x, now->position.y - start->position.y });
}

char *
hw_canvas_live_figures (HwCanvas *canvas)
{
  const HwDrag *drag = &canvas->drag;
  g_autofree char *hand = NULL;
  g_autofree char *edge = NULL;

  if (drag->pull == HW_PULL_MARK)
    {
      HwUnit unit = hw_bench_get_unit (canvas->bench);
      g_autofree char *x = hw_length_figure (drag->mark_at.x, unit);
      g_autofree char *y = hw_length_text (drag->mark_at.y, unit);

      return g_strdup_printf ("%s, %s", x, y);
    }
  if (!hw_canvas_is_dragging (canvas) || drag->motifs == NULL || drag->motifs->len == 0)
    return NULL;
  hand = hand_words (canvas);
  edge = edge_words (canvas);
  return edge != NULL ? g_strconcat (hand, GAP, edge, NULL) : g_steal_pointer (&hand);
}

void
hw_canvas_draw_figures (HwCanvas *canvas, GtkSnapshot *snapshot)
{
  g_autofree char *text = hw_canvas_live_figures (canvas);

  if (text != NULL)
    hw_canvas_draw_slip (canvas, snapshot, text,
                         (HwPoint){ canvas->drag.to.x + BESIDE, canvas->drag.to.y + BESIDE });
}

void
hw_canvas_avoid_figures (HwCanvas *canvas, GArray *points)
{
  HwBox area = hw_canvas_area (canvas);
  double x = MIN (canvas->drag.to.x + BESIDE, area.x1 - ABOUT_AS_WIDE);

  for (double along = 0; along <= ABOUT_AS_WIDE; along += 22)
    {
      HwPoint above = { x + along, canvas->drag.to.y + BESIDE + 8 };
      HwPoint below = { x + along, canvas->drag.to.y + BESIDE + 26 };

      g_array_append_val (points, above);
      g_array_append_val (points, below);
    }
}
