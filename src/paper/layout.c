/* How the whole cloth falls on sheets. Paper with nothing but bare cloth on it helps nobody: such sheets are left out, and where the cloth
 * is much larger than its picture the sheets are laid over the picture alone. */
#include "layout.h"

#include <math.h>
#include <string.h>

#include "../geometry/language.h"

#define FINEST 3.5 /* pixels per mm: the pictures are kept for all tiles */
#define MOST_TILES (50 * HW_MOST_PAGES)

HwPoint
hw_layout_point (const HwLayout *layout, HwPoint p)
{
  if (layout->job->options.mirrored)
    p.x = layout->job->plan->snapshot->fabric.width - p.x;
  return p;
}

static HwPoint
move_point (HwPoint p, gconstpointer layout)
{
  return hw_layout_point (layout, p);
}

gboolean
hw_layout_drawn_before (const HwLayout *layout, guint hooping, guint mark)
{
  const HwPlan *plan = layout->job->plan;
  const HwMark *here = &plan->hoopings[hooping].marks[mark];

  for (guint h = 0; h <= hooping; h++)
    for (guint m = 0; m < (h == hooping ? mark : plan->hoopings[h].n_marks); m++)
      {
        const HwMark *there = &plan->hoopings[h].marks[m];

        if (hw_print_job_takes_hooping (layout->job, h) && strcmp (here->letter, there->letter) == 0
            && hw_point_distance (here->at, there->at) < 0.05)
          return TRUE;
      }

  return FALSE;
}

static void
take_content (HwLayout *layout)
{
  const HwSnapshot *snapshot = layout->job->plan->snapshot;
  double fine = MIN (FINEST, 0.75 * hw_template_fineness (layout->job));

  layout->motifs = g_new0 (HwTemplateMotif *, snapshot->motifs->len);
  layout->placed = g_new0 (HwOutline *, snapshot->motifs->len);
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      HwPlacement lies = hw_snapshot_motif (snapshot, i)->placement;

      lies.position = hw_layout_point (layout, lies.position);
      if (layout->job->options.mirrored)
        {
          lies.angle = -lies.angle;
          lies.mirrored = !lies.mirrored;
        }
      layout->placed[i] = hw_outline_place (hw_snapshot_motif (snapshot, i)->outline, &lies);
      if (hw_print_job_takes_motif (layout->job, i))
        layout->motifs[i] = hw_template_motif_new (layout->job, i, fine);
    }
  if (snapshot->edge_line != NULL && snapshot->edge_line->outline != NULL)
    {
      HwOutline *moved = hw_outline_move_points (snapshot->edge_line->outline, move_point, layout);

      layout->edge_line = hw_edge_line_copy (snapshot->edge_line);
      hw_outline_unref (layout->edge_line->outline);
      layout->edge_line->outline = moved;
    }
}

static HwBox
around (HwPoint p, double mm)
{
  return (HwBox){ p.x - mm, p.y - mm, p.x + mm, p.y + mm };
}

/* The boxes of all signs: cross marks of the motifs, centres of the hoopings, marks. */
static GArray *
sign_boxes (const HwLayout *layout)
{
  const HwPlan *plan = layout->job->plan;
  GArray *boxes = g_array_new (FALSE, FALSE, sizeof (HwBox));

  for (guint i = 0; i < plan->snapshot->motifs->len; i++)
    if (layout->motifs[i] != NULL)
      {
        HwPoint at = hw_layout_point (layout, hw_snapshot_motif (plan->snapshot, i)->placement.position);
        HwBox box = around (at, HW_LAYOUT_MOTIF_ARM);

        g_array_append_val (boxes, box);
      }
  for (guint h = 0; h < plan->n_hoopings; h++)
    {
      HwBox box = around (hw_layout_point (layout, plan->hoopings[h].centre), HW_LAYOUT_CENTRE_ARM);

      if (!hw_print_job_takes_hooping (layout->job, h))
        continue;
      g_array_append_val (boxes, box);
      for (guint m = 0; m < plan->hoopings[h].n_marks; m++)
        {
          box = around (hw_layout_point (layout, plan->hoopings[h].marks[m].at), HW_LAYOUT_MARK_ARM);
          g_array_append_val (boxes, box);
        }
    }

  return boxes;
}

/* Everything there is to show; empty on bare cloth. */
static HwBox
content_box (const HwLayout *layout, const GArray *signs)
{
  HwBox box = HW_BOX_EMPTY;

  for (guint i = 0; i < layout->job->plan->snapshot->motifs->len; i++)
    if (layout->motifs[i] != NULL)
      box = hw_box_union (box, layout->placed[i]->box);
  if (layout->edge_line != NULL)
    box = hw_box_union (box, layout->edge_line->outline->box);
  for (guint i = 0; i < signs->len; i++)
    box = hw_box_union (box, g_array_index (signs, HwBox, i));

  return hw_box_is_empty (box) ? box : (HwBox){ box.x0 - 1, box.y0 - 1, box.x1 + 1, box.y1 + 1 };
}

/* Cuts the part of a segment off that lies beyond one side of a box (Liang and Barsky 1984, ACM Transactions on Graphics 3(1)). */
static gboolean
clip_side (double towards, double room, double *from, double *to)
{
  if (towards == 0)
    return room >= 0;
  if (towards < 0)
    *from = MAX (*from, room / towards);
  else
    *to = MIN (*to, room / towards);
  return *from <= *to;
}

static gboolean
segment_meets (HwPoint a, HwPoint b, HwBox box)
{
  double from = 0, to = 1, dx = b.x - a.x, dy = b.y - a.y;

  return clip_side (-dx, a.x - box.x0, &from, &to) && clip_side (dx, box.x1 - a.x, &from, &to)
         && clip_side (-dy, a.y - box.y0, &from, &to) && clip_side (dy, box.y1 - a.y, &from, &to);
}

/* Whether an outline's line, or with `filled` anything within it, shows in the box. */
static gboolean
outline_meets (const HwOutline *outline, gboolean filled, HwBox box)
{
  for (guint r = 0; r < outline->n_rings; r++)
    {
      const HwRing *ring = &outline->rings[r];

      for (guint i = 0; i < ring->n_points; i++)
        if (segment_meets (ring->points[i], ring->points[(i + 1) % ring->n_points], box))
          return TRUE;
    }

  return filled && hw_outline_contains (outline, (HwPoint){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 });
}

/* The columns or rows a stretch of the content may show in. */
static void
tiles_over (double from, double to, double begin, double step, guint n, guint *first, guint *last)
{
  *first = (guint)CLAMP (floor ((from - begin) / step) - 1, 0, n - 1);
  *last = (guint)CLAMP (floor ((to - begin) / step), 0, n - 1);
}

/* Keeps the tiles in which a thing shows: the box alone, or an outline within it. */
static void
keep_tiles (const HwTiling *tiling, gboolean *left_out, HwBox box, const HwOutline *outline, gboolean filled)
{
  guint c0, c1, r0, r1;

  tiles_over (box.x0, box.x1, tiling->x0, tiling->width - tiling->overlap, tiling->columns, &c0, &c1);
  tiles_over (box.y0, box.y1, tiling->y0, tiling->height - tiling->overlap, tiling->rows, &r0, &r1);
  for (guint r = r0; r <= r1; r++)
    for (guint c = c0; c <= c1; c++)
      {
        gboolean *out = &left_out[(gsize)r * tiling->columns + c];
        HwBox cell = hw_tiling_cell (tiling, c, r);

        if (*out && hw_box_overlaps (box, cell) && (outline == NULL || outline_meets (outline, filled, cell)))
          *out = FALSE;
      }
}

/* Which tiles hold nothing but bare cloth; none when all do. Returns: (transfer full) */
static gboolean *
find_bare (const HwLayout *layout, const GArray *signs, const HwTiling *tiling, guint *n_bare)
{
  gsize n = hw_tiling_count (tiling);
  gboolean *bare = g_new (gboolean, n);

  for (gsize i = 0; i < n; i++)
    bare[i] = TRUE;
  for (guint i = 0; i < layout->job->plan->snapshot->motifs->len; i++)
    if (layout->motifs[i] != NULL)
      keep_tiles (tiling, bare, layout->placed[i]->box, layout->placed[i], TRUE);
  if (layout->edge_line != NULL)
    keep_tiles (tiling, bare, layout->edge_line->outline->box, layout->edge_line->outline, FALSE);
  for (guint i = 0; i < signs->len; i++)
    keep_tiles (tiling, bare, g_array_index (signs, HwBox, i), NULL, FALSE);

  *n_bare = 0;
  for (gsize i = 0; i < n; i++)
    *n_bare += bare[i] ? 1 : 0;
  if (*n_bare == n)
    {
      memset (bare, 0, n * sizeof *bare);
      *n_bare = 0;
    }

  return bare;
}

/* Tries one way to lay the sheets and keeps it when it prints fewer than the best so far. *fits: a sheet is large enough at all. */
static void
try_sheets (HwLayout *layout,
            const GArray *signs,
            gboolean lying,
            HwBox extent,
            gboolean from_corner,
            guint64 *fewest,
            gboolean *fits)
{
  const HwPrintJob *job = layout->job;
  g_autofree gboolean *bare = NULL;
  double width, height;
  HwTiling tiling;
  guint n_bare;

  if (!hw_tiling_window_size (&job->sheet, lying, job->options.sheet_margin, HW_LAYOUT_FOOT, &width, &height))
    return;
  *fits = TRUE;
  tiling = hw_tiling_new (extent, width, height, job->options.tile_overlap);
  if (from_corner)
    {
      tiling.x0 = extent.x0;
      tiling.y0 = extent.y0;
    }
  if (hw_tiling_count (&tiling) > MOST_TILES)
    return;
  bare = find_bare (layout, signs, &tiling, &n_bare);
  if (hw_tiling_count (&tiling) - n_bare >= *fewest)
    return;

  *fewest = hw_tiling_count (&tiling) - n_bare;
  g_free (layout->left_out);
  layout->left_out = g_steal_pointer (&bare);
  layout->n_left_out = n_bare;
  layout->tiling = tiling;
  layout->tiling.left_out = layout->left_out;
  layout->width = lying ? job->sheet.height : job->sheet.width;
  layout->height = lying ? job->sheet.width : job->sheet.height;
}

/* From the cloth's corner on, as it is measured; over its picture alone only where that saves sheets. */
static gboolean
choose_sheets (HwLayout *layout, GError **error)
{
  const HwSheetSize *sheet = &layout->job->sheet;
  const HwFabric *fabric = &layout->job->plan->snapshot->fabric;
  g_autoptr (GArray) signs = sign_boxes (layout);
  HwBox cloth = { -1, -1, fabric->width + 1, fabric->height + 1 };
  HwBox content = content_box (layout, signs);
  guint64 fewest = G_MAXUINT64;
  gboolean fits = FALSE;

  for (guint lying = 0; lying < 2; lying++)
    try_sheets (layout, signs, lying, cloth, TRUE, &fewest, &fits);
  for (guint lying = 0; lying < 2 && !hw_box_is_empty (content); lying++)
    try_sheets (layout, signs, lying, content, FALSE, &fewest, &fits);

  if (!fits)
    {
      g_set_error (error, HW_PAPER_ERROR, HW_PAPER_ERROR_SHEET,
                   _ ("A sheet of %.0f × %.0f mm is too small for the layout; please choose a larger one."),
                   sheet->width, sheet->height);
      return FALSE;
    }
  if (fewest >= HW_MOST_PAGES)
    {
      g_set_error (
          error, HW_PAPER_ERROR, HW_PAPER_ERROR_PAGES,
          _ ("The whole cloth at true size would be more than %d sheets; please check the cloth's size."),
          HW_MOST_PAGES);
      return FALSE;
    }

  return TRUE;
}

HwLayout *
hw_layout_new (const HwPrintJob *job, GError **error)
{
  HwLayout *layout = g_new0 (HwLayout, 1);

  layout->job = job;
  take_content (layout);
  if (!choose_sheets (layout, error))
    g_clear_pointer (&layout, hw_layout_free);

  return layout;
}

void
hw_layout_free (HwLayout *layout)
{
  guint n = layout->job->plan->snapshot->motifs->len;

  for (guint i = 0; i < n; i++)
    {
      g_clear_pointer (&layout->motifs[i], hw_template_motif_free);
      hw_outline_unref (layout->placed[i]);
    }
  g_free (layout->motifs);
  g_free (layout->placed);
  g_free (layout->left_out);
  g_clear_pointer (&layout->edge_line, hw_edge_line_unref);
  g_free (layout);
}
