/* Ghosts: the other ways to hoop the chosen motifs. They are only felt at their label and near their line, so that they
 * never come between the hand and a motif. Labels hang on the sides, where they cover neither one another nor a handle. */

#include "canvas-ghosts.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/lettering.h"
#include "text-size.h"

#define MOST_GHOSTS 8
#define LINE_REACH 5.0 /* px */
#define LABEL_SIZE 12.0
#define LABEL_HEIGHT 24.0

static void
ghost_clear (gpointer data)
{
  HwGhost *ghost = data;

  g_clear_pointer (&ghost->hoop, hw_hoop_unref);
  g_clear_pointer (&ghost->label, g_free);
}

/* A hoop looks the same after half a turn, one with a square field after a quarter. */
static gboolean
is_present_pose (const HwPlan *plan, int hooping, const HwCandidate *candidate)
{
  const HwHooping *present;
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, candidate->hoop);
  double folds = hoop->field_width == hoop->field_height ? 4 : 2;
  double turn;

  if (hooping < 0)
    return FALSE;
  present = &plan->hoopings[hooping];
  turn = fabs (hw_angle_normal (folds * (candidate->pose.angle - present->angle))) / folds;
  return present->hoop == candidate->hoop && turn < 0.2
         && hw_point_distance (present->centre, candidate->pose.centre) < 0.5;
}

static char *
ghost_label (const HwHoop *hoop, double angle)
{
  g_autofree char *turn = hw_angle_text (fabs (angle));

  if (fabs (angle) < 0.05)
    return g_strdup (hoop->name);
  /* Translators: the name of a hoop, and how far it is turned */
  return g_strdup_printf (angle > 0 ? _ ("%s, %s clockwise") : _ ("%s, %s anticlockwise"), hoop->name, turn);
}

static double
measured_width (const char *label)
{
  HwLettering how = { .size = hw_text_size (LABEL_SIZE) };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cr = cairo_create (surface);
  double width;

  hw_letter_measure (cr, &how, label, &width, NULL);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return width + 18;
}

GArray *
hw_ghosts_find (const HwPlan *plan, const guint *motifs, guint n_motifs, int hooping)
{
  GArray *ghosts = g_array_new (FALSE, TRUE, sizeof (HwGhost));
  g_autoptr (GArray) candidates = NULL;

  g_array_set_clear_func (ghosts, ghost_clear);
  if (n_motifs == 0 || (hooping >= 0 && plan->hoopings[hooping].hold == HW_PLACE_FROZEN))
    return ghosts;
  candidates = hw_sharing_candidates (plan->snapshot, motifs, n_motifs);
  for (guint i = 0; i < candidates->len && ghosts->len < MOST_GHOSTS; i++)
    {
      const HwCandidate *candidate = &g_array_index (candidates, HwCandidate, i);
      const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, candidate->hoop);
      HwGhost ghost = { .candidate = *candidate, .hooping = hooping };

      if (is_present_pose (plan, hooping, candidate))
        continue;
      ghost.hoop = hw_hoop_ref (hoop);
      ghost.label = ghost_label (hoop, candidate->pose.angle);
      ghost.label_width = measured_width (ghost.label);
      g_array_append_val (ghosts, ghost);
    }
  return ghosts;
}

gboolean
hw_ghosts_same (const GArray *a, const GArray *b)
{
  guint n = a != NULL ? a->len : 0;

  if (n != (b != NULL ? b->len : 0))
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      const HwGhost *p = &g_array_index (a, HwGhost, i), *q = &g_array_index (b, HwGhost, i);

      if (p->hoop != q->hoop || p->hooping != q->hooping || !g_str_equal (p->label, q->label)
          || p->candidate.pose.centre.x != q->candidate.pose.centre.x
          || p->candidate.pose.centre.y != q->candidate.pose.centre.y
          || p->candidate.pose.angle != q->candidate.pose.angle)
        return FALSE;
    }
  return TRUE;
}

static void
ghost_corners (const HwGhost *ghost, const HwView *view, HwPoint corners[4])
{
  double w = ghost->hoop->field_width / 2, h = ghost->hoop->field_height / 2;
  const HwPoint at[4] = { { -w, -h }, { w, -h }, { w, h }, { -w, h } };

  for (int i = 0; i < 4; i++)
    {
      HwPoint p = hw_point_turn (at[i], ghost->candidate.pose.angle);
      p.x += ghost->candidate.pose.centre.x;
      p.y += ghost->candidate.pose.centre.y;
      corners[i] = hw_view_to_pixels (view, p);
    }
}

static gboolean
boxes_meet (const HwBox *boxes, guint n, HwBox box)
{
  for (guint i = 0; i < n; i++)
    if (hw_box_overlaps (boxes[i], box))
      return TRUE;
  return FALSE;
}

static HwBox
moved_into (HwBox box, HwBox area)
{
  double dx = box.x0 < area.x0 ? area.x0 - box.x0 : box.x1 > area.x1 ? area.x1 - box.x1 : 0;
  double dy = box.y0 < area.y0 ? area.y0 - box.y0 : box.y1 > area.y1 ? area.y1 - box.y1 : 0;

  return (HwBox){ box.x0 + dx, box.y0 + dy, box.x1 + dx, box.y1 + dy };
}

/* Where the labels lie, pixels: each on the middle or a third of a side of its ghost, at the first place where it covers neither a
 * label before it nor a handle. */
static void
place_labels (const GArray *ghosts, const HwView *view, HwBox area, const GArray *avoid, HwBox *boxes)
{
  static const double along[3] = { 0.5, 0.25, 0.75 };
  static const int sides[4] = { 2, 1, 3, 0 };
  HwBox inner = { area.x0 + 4, area.y0 + 4, area.x1 - 4, area.y1 - 4 };

  for (guint i = 0; i < ghosts->len; i++)
    {
      const HwGhost *ghost = &g_array_index (ghosts, HwGhost, i);
      double half = ghost->label_width / 2;
      HwPoint corners[4];

      ghost_corners (ghost, view, corners);
      for (int k = 0; k < 12; k++)
        {
          HwPoint a = corners[sides[k % 4]], b = corners[(sides[k % 4] + 1) % 4];
          double t = along[k / 4], x = a.x + t * (b.x - a.x), y = a.y + t * (b.y - a.y);
          HwBox box = { x - half, y - hw_text_size (LABEL_HEIGHT) / 2, x + half,
                        y + hw_text_size (LABEL_HEIGHT) / 2 };

          boxes[i] = moved_into (box, inner);
          if (!boxes_meet (boxes, i, boxes[i]) && !hw_view_covers (boxes[i], avoid))
            break;
        }
      while (boxes_meet (boxes, i, boxes[i]))
        {
          boxes[i].y0 += hw_text_size (LABEL_HEIGHT) + 2;
          boxes[i].y1 += hw_text_size (LABEL_HEIGHT) + 2;
        }
    }
}

static void
draw_line (cairo_t *cr, const HwGhost *ghost, const HwView *view, gboolean strong)
{
  const double dash[] = { 6, 5 };
  HwPoint corners[4];

  ghost_corners (ghost, view, corners);
  for (int k = 0; k < 4; k++)
    cairo_line_to (cr, corners[k].x, corners[k].y);
  cairo_close_path (cr);
  cairo_set_source_rgba (cr, 1, 1, 1, strong ? 0.8 : 0.5);
  cairo_set_line_width (cr, strong ? 4 : 2.6);
  cairo_stroke_preserve (cr);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_set_source_rgba (cr, 0.14, 0.15, 0.2, strong ? 1 : 0.62);
  cairo_set_line_width (cr, strong ? 2 : 1);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_label (cairo_t *cr, const HwGhost *ghost, HwBox box, gboolean strong)
{
  HwLettering how = { .size = hw_text_size (LABEL_SIZE), .align = HW_LETTER_CENTRE };
  double r = hw_text_size (LABEL_HEIGHT) / 2, y = (box.y0 + box.y1) / 2, height;

  cairo_new_sub_path (cr);
  cairo_arc (cr, box.x1 - r, y, r, -G_PI / 2, G_PI / 2);
  cairo_arc (cr, box.x0 + r, y, r, G_PI / 2, 3 * G_PI / 2);
  cairo_close_path (cr);
  if (strong)
    cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  else
    cairo_set_source_rgba (cr, 1, 1, 0.99, 0.93);
  cairo_fill_preserve (cr);
  cairo_set_source_rgba (cr, 0.14, 0.15, 0.2, strong ? 1 : 0.5);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  if (strong)
    cairo_set_source_rgb (cr, 1, 1, 1);
  else
    cairo_set_source_rgb (cr, 0.14, 0.15, 0.2);
  hw_letter_measure (cr, &how, ghost->label, NULL, &height);
  hw_letter (cr, (box.x0 + box.x1) / 2, y - height / 2, &how, ghost->label);
}

void
hw_ghosts_draw (cairo_t *cr, const GArray *ghosts, const HwView *view, int hovered)
{
  for (guint i = 0; i < ghosts->len; i++)
    draw_line (cr, &g_array_index (ghosts, HwGhost, i), view, (int)i == hovered);
}

void
hw_ghosts_draw_labels (
    cairo_t *cr, const GArray *ghosts, const HwView *view, HwBox area, const GArray *avoid, int hovered)
{
  HwBox boxes[MOST_GHOSTS];

  place_labels (ghosts, view, area, avoid, boxes);
  for (guint i = 0; i < ghosts->len; i++)
    draw_label (cr, &g_array_index (ghosts, HwGhost, i), boxes[i], (int)i == hovered);
}

static double
distance_to_segment (HwPoint p, HwPoint a, HwPoint b)
{
  double dx = b.x - a.x, dy = b.y - a.y, length = dx * dx + dy * dy;
  double t = length > 0 ? CLAMP (((p.x - a.x) * dx + (p.y - a.y) * dy) / length, 0, 1) : 0;

  return hw_point_distance (p, (HwPoint){ a.x + t * dx, a.y + t * dy });
}

int
hw_ghosts_hit (const GArray *ghosts,
               const HwView *view,
               HwBox area,
               const GArray *avoid,
               HwPoint pixel,
               gboolean labels_only)
{
  HwBox boxes[MOST_GHOSTS];
  double nearest = LINE_REACH;
  int found = -1;

  place_labels (ghosts, view, area, avoid, boxes);
  for (guint i = ghosts->len; i-- > 0;)
    if (pixel.x >= boxes[i].x0 - 2 && pixel.x <= boxes[i].x1 + 2 && pixel.y >= boxes[i].y0 - 2
        && pixel.y <= boxes[i].y1 + 2)
      return (int)i;
  for (guint i = 0; i < ghosts->len && !labels_only; i++)
    {
      HwPoint corners[4];

      ghost_corners (&g_array_index (ghosts, HwGhost, i), view, corners);
      for (int k = 0; k < 4; k++)
        {
          double distance = distance_to_segment (pixel, corners[k], corners[(k + 1) % 4]);
          if (distance <= nearest)
            {
              nearest = distance;
              found = (int)i;
            }
        }
    }
  return found;
}
