/* The hoopings over the cloth: footprints, centre crosses and marks. The chosen one and the one under the pointer show at full
 * strength, the others step back to outlines. Each is kept as a node of its own, so that a new plan that moves one
 * hooping repaints that one. */

#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "canvas-private.h"
#include "text-size.h"

#define DISC_RADIUS 11.0 /* px, as hw_draw_footprint() draws it */
#define DISC_REACH 15.0  /* px, as felt */
#define CROSS_HALF 9.0
#define MARK_HALF 7.0
#define MARK_LETTER 13.0
#define STEPPED_BACK 0.4
#define CLEAR 1.5 /* times as large in high contrast */

/* What a kept node shows. */
typedef struct
{
  const HwHoop *hoop;
  HwPoint centre;
  double angle;
  guint number;
  gboolean full, marks, back, clear;
  double scale; /* of the signs */
  guint n_marks;
  HwMark mark[8];
} Shown;

typedef struct
{
  Shown shown;
  HwHoop *hoop;
  GskRenderNode *node;
} Footprint;

static void
footprint_free (gpointer data)
{
  Footprint *footprint = data;

  g_clear_pointer (&footprint->hoop, hw_hoop_unref);
  g_clear_pointer (&footprint->node, gsk_render_node_unref);
  g_free (footprint);
}

static HwPoint
on_cloth (HwPoint centre, double u, double v, double angle)
{
  HwPoint p = hw_point_turn ((HwPoint){ u, v }, angle);

  return (HwPoint){ centre.x + p.x, centre.y + p.y };
}

static HwBox
shown_bounds (const Shown *shown, const HwView *view)
{
  double w = MAX (shown->hoop->frame_width, shown->hoop->field_width) / 2;
  double h = MAX (shown->hoop->frame_height, shown->hoop->field_height) / 2;
  HwPoint corners[4]
      = { on_cloth (shown->centre, -w, -h, shown->angle), on_cloth (shown->centre, w, -h, shown->angle),
          on_cloth (shown->centre, w, h, shown->angle), on_cloth (shown->centre, -w, h, shown->angle) };
  HwBox box = hw_view_box_to_pixels (view, hw_box_of_points (corners, 4));
  double around = (2 * DISC_RADIUS + 8) * shown->scale;

  return (HwBox){ floor (box.x0 - around), floor (box.y0 - around), ceil (box.x1 + around),
                  ceil (box.y1 + around) };
}

static void
draw_cross (cairo_t *cr, const Shown *shown, double half, double breadth)
{
  cairo_save (cr);
  cairo_translate (cr, shown->centre.x, shown->centre.y);
  cairo_rotate (cr, shown->angle * G_PI / 180);
  hw_draw_cross_mark (cr, half, breadth);
  cairo_restore (cr);
}

/* White under the signs, and under the field's line white and black, so that they are seen on any cloth and in any dye. */
static void
draw_clear_ground (cairo_t *cr, const Shown *shown, double px)
{
  double w = shown->hoop->field_width, h = shown->hoop->field_height;

  cairo_save (cr);
  cairo_translate (cr, shown->centre.x, shown->centre.y);
  cairo_rotate (cr, shown->angle * G_PI / 180);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_rectangle (cr, -w / 2, -h / 2, w, h);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 6 * px);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, 4 * px);
  cairo_stroke (cr);
  cairo_restore (cr);
  if (!shown->marks)
    return;
  cairo_set_source_rgb (cr, 1, 1, 1);
  draw_cross (cr, shown, CROSS_HALF * px * (shown->full ? 1.4 : 1), 4 * px);
  for (guint i = 0; shown->full && i < shown->n_marks; i++)
    hw_draw_mark (cr, shown->mark[i].at, NULL, MARK_HALF * px, 4 * px, 0);
}

static void
draw_marks (cairo_t *cr, const Shown *shown, double px)
{
  double ink = shown->full || shown->clear ? 1 : 0.55;

  cairo_set_source_rgba (cr, 0.12, 0.13, 0.18, ink);
  draw_cross (cr, shown, CROSS_HALF * px * (shown->full ? 1.4 : 1), 1.2 * px);
  if (!shown->full)
    return;
  for (guint i = 0; i < shown->n_marks; i++)
    {
      cairo_set_source_rgba (cr, 0.12, 0.13, 0.18, ink);
      hw_draw_mark (cr, shown->mark[i].at, shown->mark[i].letter, MARK_HALF * px, 1.4 * px, MARK_LETTER * px);
    }
}

static GskRenderNode *
draw_footprint (const Shown *shown, const HwView *view)
{
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();
  HwBox box = shown_bounds (shown, view);
  double px = shown->scale / view->zoom;
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT ((float)box.x0, (float)box.y0, (float)(box.x1 - box.x0), (float)(box.y1 - box.y0));
  cairo_t *cr;

  if (shown->back)
    gtk_snapshot_push_opacity (snapshot, shown->clear ? 1.4 * STEPPED_BACK : STEPPED_BACK);
  cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_translate (cr, view->x, view->y);
  cairo_scale (cr, view->zoom, view->zoom);
  if (shown->clear)
    draw_clear_ground (cr, shown, px);
  hw_draw_footprint (cr, shown->hoop, shown->centre, shown->angle, shown->number,
                     shown->full ? HW_FOOTPRINT_FULL : HW_FOOTPRINT_OUTLINE, px);
  if (shown->marks)
    draw_marks (cr, shown, px);
  cairo_destroy (cr);
  if (shown->back)
    gtk_snapshot_pop (snapshot);
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

static Shown
what_shows (HwCanvas *canvas, const HwPlan *plan, guint index)
{
  const HwHooping *hooping = &plan->hoopings[index];
  int chosen = hw_bench_get_chosen_hooping (canvas->bench);
  int stage = hw_bench_get_stage (canvas->bench);
  Shown shown;

  /* Compared as bytes, so that the gaps between its parts must be nought too. */
  memset (&shown, 0, sizeof shown);
  shown.hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);
  shown.centre = hooping->centre;
  shown.angle = hooping->angle;
  shown.number = index + 1;
  shown.full = (int)index == chosen || (int)index == stage || (int)index == canvas->hover_hooping;
  shown.back = chosen >= 0 && !shown.full;
  shown.clear = canvas->clear;
  shown.scale = hw_text_size (canvas->clear ? CLEAR : 1);
  shown.marks = canvas->show_marks && !shown.back;
  shown.n_marks = MIN (hooping->n_marks, G_N_ELEMENTS (shown.mark));
  for (guint i = 0; i < shown.n_marks; i++)
    {
      shown.mark[i].at = hooping->marks[i].at;
      g_strlcpy (shown.mark[i].letter, hooping->marks[i].letter, sizeof shown.mark[i].letter);
    }
  return shown;
}

/* The node that shows just this, moved from the old nodes when there is one. */
static Footprint *
footprint_for (const Shown *shown, GPtrArray *old, const HwView *view)
{
  Footprint *footprint;

  for (guint i = 0; i < old->len; i++)
    {
      footprint = g_ptr_array_index (old, i);
      if (memcmp (&footprint->shown, shown, sizeof *shown) == 0)
        return g_ptr_array_steal_index_fast (old, i);
    }
  footprint = g_new0 (Footprint, 1);
  footprint->shown = *shown;
  footprint->hoop = hw_hoop_ref (shown->hoop);
  footprint->node = draw_footprint (shown, view);
  return footprint;
}

static gboolean
is_shown (HwCanvas *canvas, int index)
{
  int stage = hw_bench_get_stage (canvas->bench);

  return stage < 0 || stage == index;
}

GskRenderNode *
hw_canvas_draw_hoopings (HwCanvas *canvas)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  GPtrArray *now = g_ptr_array_new_with_free_func (footprint_free);
  g_autoptr (GtkSnapshot) snapshot = gtk_snapshot_new ();

  for (guint i = 0; plan != NULL && canvas->show_hoopings && i < plan->n_hoopings; i++)
    if (is_shown (canvas, (int)i))
      {
        Shown shown = what_shows (canvas, plan, i);
        g_ptr_array_add (now, footprint_for (&shown, canvas->footprints, &canvas->view));
      }
  g_ptr_array_unref (canvas->footprints);
  canvas->footprints = now;

  hw_canvas_append_leaving (canvas, snapshot);
  /* The ones at full strength over the others. */
  for (int full = 0; full < 2; full++)
    for (guint i = 0; i < now->len; i++)
      {
        Footprint *footprint = g_ptr_array_index (now, i);
        if (footprint->shown.full == full)
          hw_canvas_append_footprint (canvas, snapshot, footprint->shown.number - 1, footprint->node);
      }
  return gtk_snapshot_free_to_node (g_steal_pointer (&snapshot));
}

void
hw_canvas_take_footprint (HwCanvas *canvas, guint hooping, GPtrArray *nodes)
{
  for (guint i = 0; i < canvas->footprints->len; i++)
    {
      Footprint *footprint = g_ptr_array_index (canvas->footprints, i);

      if (footprint->shown.number == hooping + 1)
        g_ptr_array_add (nodes, gsk_render_node_ref (footprint->node));
    }
}

HwPoint
hw_canvas_disc_at (HwCanvas *canvas, guint index)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  const HwHooping *hooping = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, hooping->hoop);

  return hw_view_to_pixels (&canvas->view,
                            on_cloth (hooping->centre, 0, -hoop->field_height / 2, hooping->angle));
}

int
hw_canvas_disc_under (HwCanvas *canvas, HwPoint pixel)
{
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  double nearest = DISC_REACH;
  int found = -1;

  if (plan == NULL || !canvas->show_hoopings)
    return -1;
  for (guint i = 0; i < plan->n_hoopings; i++)
    if (is_shown (canvas, (int)i))
      {
        double distance = hw_point_distance (hw_canvas_disc_at (canvas, i), pixel);
        if (distance <= nearest)
          {
            nearest = distance;
            found = (int)i;
          }
      }
  return found;
}

GArray *
hw_canvas_avoid (HwCanvas *canvas)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  const HwPlan *plan = hw_bench_get_plan (canvas->bench);
  HwHandles handles;

  if (hw_canvas_handles (canvas, &handles))
    {
      HwPoint turn = handles.at[HW_HANDLE_TURN];
      HwPoint stem = { (turn.x + handles.top.x) / 2, (turn.y + handles.top.y) / 2 };

      g_array_append_vals (points, handles.at, HW_N_HANDLES);
      g_array_append_val (points, handles.top);
      g_array_append_val (points, stem);
    }
  if (hw_canvas_is_dragging (canvas))
    hw_canvas_avoid_figures (canvas, points);
  for (guint i = 0; plan != NULL && canvas->show_hoopings && i < plan->n_hoopings; i++)
    if (is_shown (canvas, (int)i))
      {
        HwPoint disc = hw_canvas_disc_at (canvas, i);
        g_array_append_val (points, disc);
      }
  return points;
}
