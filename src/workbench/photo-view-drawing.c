/* What is seen of a photo being put square: the photo, the lines of the cloth as they would lie on it, the handles, and a magnifying glass beside the handle in the hand. */
#include <math.h>

#include "../drawing/lettering.h"
#include "photo-view-private.h"

#define RING 13.0        /* px: radius of a handle */
#define SQUARE 10.0      /* px: half the side of what is drawn about a spot */
#define GAP 3.5          /* px: its middle is left free */
#define GLASS 84.0       /* px: radius of the magnifying glass */
#define GLASS_AWAY 128.0 /* px: from the handle */
#define GLASS_ZOOM 4.0
#define SEGMENTS 24 /* of each projected line */

typedef struct
{
  double red, green, blue;
} Ink;

static const Ink ink = { 0.10, 0.11, 0.16 }, paper = { 1, 0.99, 0.96 }, madder = { 0.71, 0.28, 0.23 },
                 woad = { 0.19, 0.40, 0.56 };

static void
set_ink (cairo_t *cr, Ink colour, double alpha)
{
  cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, alpha);
}

/* A line that is seen on light and on dark ground. */
static void
stroke_cased (cairo_t *cr, Ink colour, double width)
{
  cairo_set_line_width (cr, width + 2);
  set_ink (cr, paper, 0.85);
  cairo_stroke_preserve (cr);
  cairo_set_line_width (cr, width);
  set_ink (cr, colour, 1);
  cairo_stroke (cr);
}

static void
add_projected (HwPhotoView *view, cairo_t *cr, HwPoint from, HwPoint to)
{
  gboolean drawing = FALSE;

  for (int i = 0; i <= SEGMENTS; i++)
    {
      double part = (double)i / SEGMENTS;
      HwPoint mm = { from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part }, px;

      if (!hw_homography_back (&view->squaring->h, mm, &px) || !(fabs (px.x) < 1e6 && fabs (px.y) < 1e6))
        {
          drawing = FALSE;
          continue;
        }
      px = hw_photo_view_to_widget (view, px);
      if (drawing)
        cairo_line_to (cr, px.x, px.y);
      else
        cairo_move_to (cr, px.x, px.y);
      drawing = TRUE;
    }
}

static void
draw_lines (HwPhotoView *view, cairo_t *cr)
{
  HwBox box = view->cloth;
  const HwPoint corners[]
      = { { box.x0, box.y0 }, { box.x1, box.y0 }, { box.x1, box.y1 }, { box.x0, box.y1 } };
  const double dash[] = { 7, 5 };

  if (!view->squaring->good)
    return;
  for (guint i = 0; i < 4; i++)
    add_projected (view, cr, corners[i], corners[(i + 1) % 4]);
  cairo_set_dash (cr, dash, 2, 0);
  stroke_cased (cr, woad, 1);
  cairo_set_dash (cr, NULL, 0, 0);
  for (guint r = 0; view->edge != NULL && r < view->edge->n_rings; r++)
    for (guint i = 0; i < view->edge->rings[r].n_points; i++)
      add_projected (view, cr, view->edge->rings[r].points[i],
                     view->edge->rings[r].points[(i + 1) % view->edge->rings[r].n_points]);
  stroke_cased (cr, woad, 1.5);
}

static void
draw_cross (cairo_t *cr, HwPoint at, double inner, double outer)
{
  for (int i = 0; i < 4; i++)
    {
      double dx = (i == 0) - (i == 2), dy = (i == 1) - (i == 3);

      cairo_move_to (cr, at.x + dx * inner, at.y + dy * inner);
      cairo_line_to (cr, at.x + dx * outer, at.y + dy * outer);
    }
}

static void
draw_tag (cairo_t *cr, HwPoint at, const char *text, Ink ground)
{
  HwLettering how = { .size = 13, .align = HW_LETTER_CENTRE };
  double width, height, x, y;

  hw_letter_measure (cr, &how, text, &width, &height);
  width = MAX (width + 10, 20);
  x = at.x + RING + width / 2;
  y = at.y - RING - height / 2;
  cairo_rectangle (cr, x - width / 2, y - height / 2 - 1, width, height + 2);
  set_ink (cr, ground, 0.92);
  cairo_fill (cr);
  set_ink (cr, paper, 1);
  hw_letter (cr, x, y - height / 2, &how, text);
}

static void
draw_handle (HwPhotoView *view, cairo_t *cr, guint index)
{
  const HwHandlePoint *point = g_ptr_array_index (view->squaring->points, index);
  gboolean bad = view->squaring->bad == (int)index;
  gboolean strong = view->chosen == (int)index || view->hover == (int)index;
  HwPoint at = hw_photo_view_to_widget (view, point->px);
  g_autofree char *number = g_strdup_printf (bad ? "%u !" : "%u", index + 1);
  Ink colour = bad ? madder : ink;

  cairo_new_path (cr);
  cairo_arc (cr, at.x, at.y, RING, 0, 2 * G_PI);
  stroke_cased (cr, colour, strong ? 3 : 1.8);
  draw_cross (cr, at, GAP, RING - 1);
  stroke_cased (cr, colour, 1);
  draw_tag (cr, at, number, colour);
}

/* A square around each, broken where it is not approved. */
static void
draw_spots (HwPhotoView *view, cairo_t *cr)
{
  const double dash[] = { 5, 5 };

  for (guint i = 0; i < view->spots->len; i++)
    {
      const HwPhotoSpot *spot = &g_array_index (view->spots, HwPhotoSpot, i);
      int index = (int)(view->squaring->points->len + i);
      gboolean strong = view->movable && (view->chosen == index || view->hover == index);
      HwPoint at = hw_photo_view_to_widget (view, spot->px);

      cairo_new_path (cr);
      cairo_rectangle (cr, at.x - SQUARE, at.y - SQUARE, 2 * SQUARE, 2 * SQUARE);
      if (spot->faint)
        cairo_set_dash (cr, dash, 2, 0);
      stroke_cased (cr, spot->faint ? ink : woad, strong ? 3 : 2);
      cairo_set_dash (cr, NULL, 0, 0);
      draw_tag (cr, at, spot->name, spot->faint ? ink : woad);
    }
}

static void
draw_checked_line (HwPhotoView *view, cairo_t *cr)
{
  for (guint i = 0; i < view->line->len; i++)
    {
      HwPoint at = hw_photo_view_to_widget (view, g_array_index (view->line, HwPoint, i));

      cairo_line_to (cr, at.x, at.y);
    }
  stroke_cased (cr, madder, 1);
  for (guint i = 0; i < view->line->len; i++)
    {
      HwPoint at = hw_photo_view_to_widget (view, g_array_index (view->line, HwPoint, i));

      cairo_new_path (cr);
      cairo_arc (cr, at.x, at.y, 4, 0, 2 * G_PI);
      stroke_cased (cr, madder, 2);
    }
}

static void
draw_photo (HwPhotoView *view, cairo_t *cr)
{
  if (view->levels != NULL)
    hw_photo_levels_paint (view->levels, cr, view->at.x, view->at.y, view->squaring->width * view->zoom,
                           view->squaring->height * view->zoom);
}

/* Beside the handle, on the side where there is room. */
static void
draw_glass (HwPhotoView *view, cairo_t *cr, HwPoint px)
{
  HwPoint at = hw_photo_view_to_widget (view, px);
  double width = gtk_widget_get_width (GTK_WIDGET (view));
  double x = at.x + GLASS_AWAY * (at.x + GLASS_AWAY + GLASS < width ? 1 : -1);
  double y = at.y - GLASS_AWAY * (at.y - GLASS_AWAY - GLASS > 0 ? 1 : -1);
  double zoom = MAX (view->zoom * GLASS_ZOOM, 2);

  cairo_save (cr);
  cairo_new_path (cr);
  cairo_arc (cr, x, y, GLASS, 0, 2 * G_PI);
  cairo_clip (cr);
  set_ink (cr, (Ink){ 0.5, 0.49, 0.47 }, 1);
  cairo_paint (cr);
  if (view->levels != NULL)
    hw_photo_levels_paint (view->levels, cr, x - px.x * zoom, y - px.y * zoom, view->squaring->width * zoom,
                           view->squaring->height * zoom);
  draw_cross (cr, (HwPoint){ x, y }, 5, GLASS);
  stroke_cased (cr, ink, 1);
  cairo_restore (cr);
  cairo_new_path (cr);
  cairo_arc (cr, x, y, GLASS, 0, 2 * G_PI);
  stroke_cased (cr, ink, 2);
}

void
hw_photo_view_draw (HwPhotoView *view, GtkSnapshot *snapshot)
{
  int width = gtk_widget_get_width (GTK_WIDGET (view)), height = gtk_widget_get_height (GTK_WIDGET (view));
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  int in_hand = view->hand == HW_PHOTO_HAND_HANDLE || gtk_widget_has_visible_focus (GTK_WIDGET (view))
                    ? view->chosen
                    : -1;

  draw_photo (view, cr);
  draw_lines (view, cr);
  draw_checked_line (view, cr);
  draw_spots (view, cr);
  for (guint i = 0; i < view->squaring->points->len; i++)
    draw_handle (view, cr, i);
  if (in_hand >= 0)
    draw_glass (view, cr, *hw_photo_view_place (view, (guint)in_hand));
  cairo_destroy (cr);
}
