/* All crosses that are drawn on the cloth before the stitching starts, on a small picture of it. Names are set where they do not cover
 * each other: each takes the first free place around its cross. */
#include "mark-picture.h"

#include <math.h>

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"

#define CROSS 2.0         /* mm of paper, half a mark */
#define CENTRE 3.2        /* half a centre cross */
#define NAME_GAP 0.7      /* between a cross and its name */
#define SAME_PLACE 0.05   /* mm on the cloth, as in the list */
#define CAREFUL_UP_TO 600 /* names are set apart from each other on pictures of so many */
#define CLOTH_TINT 0.45
#define N_PLACES 8

/* The picture on its page: fabric mm to page mm. */
typedef struct
{
  cairo_t *cr;
  const HwPlan *plan;
  const HwMarkList *list;
  HwPoint origin;
  double scale;
  HwBox room;    /* names stay within it */
  GArray *taken; /* HwBox: crosses and names set already */
} Picture;

void
hw_mark_picture_size (
    const HwPlan *plan, double width, double height, double *used_width, double *used_height)
{
  const HwFabric *fabric = &plan->snapshot->fabric;
  double scale = MIN (width / fabric->width, height / fabric->height);

  *used_width = scale * fabric->width;
  *used_height = scale * fabric->height;
}

int
hw_centre_at (const HwPlan *plan, HwPoint at, int after)
{
  for (guint i = (guint)(after + 1); i < plan->n_hoopings; i++)
    if (plan->hoopings[i].hold != HW_PLACE_FROZEN
        && hw_point_distance (plan->hoopings[i].centre, at) < SAME_PLACE)
      return (int)i;

  return -1;
}

static HwPoint
on_page (const Picture *picture, HwPoint p)
{
  return (HwPoint){ picture->origin.x + picture->scale * p.x, picture->origin.y + picture->scale * p.y };
}

/* In fabric mm. */
static void
draw_ground (const Picture *picture)
{
  cairo_t *cr = picture->cr;
  const HwSnapshot *snapshot = picture->plan->snapshot;
  double hair = HW_HAIRLINE / picture->scale;
  HwFabric cloth = snapshot->fabric;

  cloth.colour = hw_colour_mix (cloth.colour, (HwColour){ 1, 1, 1 }, CLOTH_TINT);
  cloth.unknown = NULL;
  hw_draw_cloth (cr, &cloth, 0.2 / picture->scale);
  cairo_rectangle (cr, 0, 0, cloth.width, cloth.height);
  hw_ink_grid (cr);
  cairo_set_line_width (cr, hair);
  cairo_stroke (cr);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (snapshot, i);
      g_autoptr (HwOutline) outline = hw_outline_place (motif->outline, &motif->placement);

      hw_path_outline (cr, outline);
      cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
      cairo_set_source_rgba (cr, 1, 1, 1, 0.5);
      cairo_fill_preserve (cr);
      hw_ink_grid (cr);
      cairo_set_line_width (cr, hair);
      cairo_stroke (cr);
    }
  if (snapshot->edge_line != NULL && snapshot->edge_line->outline != NULL)
    {
      hw_path_outline (cr, snapshot->edge_line->outline);
      hw_ink (cr);
      cairo_set_line_width (cr, 0.35 / picture->scale);
      cairo_stroke (cr);
    }
}

static void
draw_arrow (cairo_t *cr, HwPoint from, double dx, double dy, double length)
{
  HwPoint to = { from.x + dx * length, from.y + dy * length };

  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, to.x, to.y);
  cairo_move_to (cr, to.x - 1.6 * dx - 0.9 * dy, to.y - 1.6 * dy - 0.9 * dx);
  cairo_line_to (cr, to.x, to.y);
  cairo_line_to (cr, to.x - 1.6 * dx + 0.9 * dy, to.y - 1.6 * dy + 0.9 * dx);
}

/* Where is measured from: a dot with an arrow each way, just inside. */
static void
draw_corner (const Picture *picture)
{
  cairo_t *cr = picture->cr;
  HwPoint corner = on_page (picture, picture->list->corner);
  HwBox taken = { corner.x - 1.5, corner.y - 1.5, corner.x + 12, corner.y + 12 };

  cairo_set_line_width (cr, 0.6);
  hw_ink (cr);
  draw_arrow (cr, corner, 1, 0, 11);
  draw_arrow (cr, corner, 0, 1, 11);
  cairo_stroke (cr);
  cairo_arc (cr, corner.x, corner.y, 1.1, 0, 2 * G_PI);
  cairo_fill (cr);
  g_array_append_val (picture->taken, taken);
}

static void
draw_crosses (const Picture *picture)
{
  cairo_t *cr = picture->cr;

  for (guint i = 0; i < picture->list->marks->len; i++)
    {
      const HwListedMark *mark = g_ptr_array_index (picture->list->marks, i);
      HwPoint at = on_page (picture, mark->at);
      double half = mark->is_centre ? CENTRE : CROSS;
      HwBox taken = { at.x - half, at.y - half, at.x + half, at.y + half };

      hw_ink (cr);
      if (mark->is_centre)
        {
          int hooping = hw_centre_at (picture->plan, mark->at, -1);

          cairo_save (cr);
          cairo_translate (cr, at.x, at.y);
          if (hooping >= 0)
            cairo_rotate (cr, picture->plan->hoopings[hooping].angle * G_PI / 180);
          hw_draw_cross_mark (cr, CENTRE, 0.3);
          cairo_restore (cr);
        }
      else
        hw_draw_mark (cr, at, NULL, CROSS, 0.3, 0);
      g_array_append_val (picture->taken, taken);
    }
}

static double
overlap (HwBox a, HwBox b)
{
  double width = MIN (a.x1, b.x1) - MAX (a.x0, b.x0), height = MIN (a.y1, b.y1) - MAX (a.y0, b.y0);

  return width > 0 && height > 0 ? width * height : 0;
}

/* How much of the box is taken or outside. */
static double
crowding (const Picture *picture, HwBox box)
{
  double area = (box.x1 - box.x0) * (box.y1 - box.y0);
  double sum = 2 * (area - overlap (box, picture->room));

  if (picture->list->marks->len > CAREFUL_UP_TO)
    return sum;
  for (guint i = 0; i < picture->taken->len; i++)
    sum += overlap (box, g_array_index (picture->taken, HwBox, i));

  return sum;
}

/* Above right as on cloth, then the other places around a cross. */
static HwBox
place_name (HwPoint at, double half, double width, double height, guint place)
{
  static const int across[N_PLACES] = { 1, 1, -1, 0, 0, 1, -1, -1 };
  static const int along[N_PLACES] = { -1, 0, 0, -1, 1, 1, -1, 1 };
  double away = half + NAME_GAP, diagonal = half * 0.45;
  double dx = along[place] == 0 ? away : diagonal, dy = across[place] == 0 ? away : diagonal;
  double x = across[place] > 0 ? at.x + dx : across[place] < 0 ? at.x - dx - width : at.x - width / 2;
  double y = along[place] > 0 ? at.y + dy : along[place] < 0 ? at.y - dy - height : at.y - height / 2;

  return (HwBox){ x, y, x + width, y + height };
}

static void
draw_name (const Picture *picture, const HwListedMark *mark)
{
  HwLettering how = { .size = HW_TYPE_SMALL, .bold = !mark->is_centre };
  double width = 0, height = 0, least = G_MAXDOUBLE;
  HwBox best = { 0 };

  hw_letter_measure (picture->cr, &how, mark->name, &width, &height);
  for (guint place = 0; place < N_PLACES && least > 0; place++)
    {
      HwBox box
          = place_name (on_page (picture, mark->at), mark->is_centre ? CENTRE : CROSS, width, height, place);
      double crowded = crowding (picture, box);

      if (crowded < least - 1e-9)
        {
          least = crowded;
          best = box;
        }
    }
  cairo_rectangle (picture->cr, best.x0 - 0.2, best.y0 + 0.3, width + 0.4, height - 0.6);
  cairo_set_source_rgba (picture->cr, 1, 1, 1, 0.6);
  cairo_fill (picture->cr);
  hw_ink (picture->cr);
  hw_letter (picture->cr, best.x0, best.y0, &how, mark->name);
  g_array_append_val (picture->taken, best);
}

void
hw_draw_mark_picture (cairo_t *cr, const HwPlan *plan, const HwMarkList *list, HwBox box)
{
  const HwFabric *fabric = &plan->snapshot->fabric;
  double scale = MIN ((box.x1 - box.x0) / fabric->width, (box.y1 - box.y0) / fabric->height);
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (HwBox));
  Picture picture = {
    cr,    plan,
    list,  { (box.x0 + box.x1 - scale * fabric->width) / 2, (box.y0 + box.y1 - scale * fabric->height) / 2 },
    scale, box,
    taken
  };

  cairo_save (cr);
  cairo_translate (cr, picture.origin.x, picture.origin.y);
  cairo_scale (cr, scale, scale);
  draw_ground (&picture);
  cairo_restore (cr);

  cairo_save (cr);
  cairo_new_path (cr);
  draw_crosses (&picture);
  draw_corner (&picture);
  for (guint i = 0; i < list->marks->len; i++)
    draw_name (&picture, g_ptr_array_index (list->marks, i));
  cairo_restore (cr);
}
