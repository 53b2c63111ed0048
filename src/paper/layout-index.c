/* The index of a layout: the whole scene small, with the sheets it is cut into and their names, so that a pile of paper becomes a picture on
 * the floor. Sheets that are not printed are hatched and named. */
#include "layout-index.h"

#include "../geometry/language.h"
#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "page-frame.h"
#include "template-head.h"

#define GAP 4.0
#define WORDS 26.0 /* height of the title and the sentences below it */

void
hw_layout_sketch (cairo_t *cr, double hairline, gpointer user_data)
{
  const HwLayout *layout = user_data;

  hw_ink_pale (cr);
  cairo_set_line_width (cr, hairline);
  if (layout->edge_line != NULL)
    hw_path_outline (cr, layout->edge_line->outline);
  for (guint i = 0; i < layout->job->plan->snapshot->motifs->len; i++)
    if (layout->motifs[i] != NULL)
      hw_path_outline (cr, layout->placed[i]);
  cairo_stroke (cr);
}

/* "B3, D3" */
static char *
left_out_names (const HwTiling *tiling)
{
  GString *names = g_string_new (NULL);

  for (guint row = 0; row < tiling->rows; row++)
    for (guint column = 0; column < tiling->columns; column++)
      if (hw_tiling_leaves_out (tiling, column, row))
        {
          g_autofree char *name = hw_tile_name (column, row);

          g_string_append_printf (names, "%s%s", names->len > 0 ? _ (", ") : "", name);
        }

  return g_string_free (names, FALSE);
}

static double
write_line (cairo_t *cr, double x, double y, double width, gboolean bold, const char *text)
{
  HwLettering how = { .size = HW_TYPE_TEXT, .bold = bold, .width = width };

  return y + hw_letter (cr, x, y, &how, text) + 0.6;
}

/* Returns the height below the words. */
static double
draw_words (const HwPrintJob *job, const HwPage *page, cairo_t *cr, const HwLayout *layout)
{
  const HwTiling *tiling = &layout->tiling;
  double margin = job->options.sheet_margin, width = page->width - 2 * margin, y = margin + 8.4;
  const char *scene = job->plan->snapshot->name;
  g_autofree char *sheets
      = g_strdup_printf (_ ("The whole cloth at true size on %u sheets, %u across and %u down. Print them "
                            "without fitting them to the page; cut along a dashed line where it says so and "
                            "lay cross on cross."),
                         (guint)hw_tiling_count (tiling) - layout->n_left_out, tiling->columns, tiling->rows);

  hw_ink (cr);
  hw_template_title (cr, margin, margin - 0.8, width, scene != NULL ? scene : _ ("Unnamed scene"));
  y = write_line (cr, margin, y, width, FALSE, sheets);
  if (job->options.mirrored)
    y = write_line (cr, margin, y, width, TRUE, hw_template_back_words ());
  if (layout->n_left_out > 0)
    {
      g_autofree char *names = left_out_names (tiling);
      g_autofree char *left_out = g_strdup_printf (
          ngettext ("Left out, since there is nothing but bare cloth on it: %s.",
                    "Left out, since there is nothing but bare cloth on them: %s.", layout->n_left_out),
          names);

      y = write_line (cr, margin, y, width, FALSE, left_out);
    }

  return MAX (y, margin + WORDS);
}

static void
draw_scene (cairo_t *cr, const HwLayout *layout, double scale)
{
  const HwSnapshot *snapshot = layout->job->plan->snapshot;
  double hair = HW_HAIRLINE / scale, dashes[] = { 3 / scale, 1.2 / scale };

  hw_ink_pale (cr);
  cairo_set_line_width (cr, hair);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_rectangle (cr, 0, 0, snapshot->fabric.width, snapshot->fabric.height);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  if (layout->edge_line != NULL)
    {
      hw_path_outline (cr, layout->edge_line->outline);
      hw_ink (cr);
      cairo_set_line_width (cr, 1.6 * hair);
      cairo_stroke (cr);
    }
  for (guint i = 0; i < snapshot->motifs->len; i++)
    if (layout->motifs[i] != NULL)
      {
        HwPlacement lies = hw_snapshot_motif (snapshot, i)->placement;
        HwPoint at = hw_layout_point (layout, lies.position);

        cairo_save (cr);
        cairo_translate (cr, at.x, at.y);
        cairo_rotate (cr, (layout->job->options.mirrored ? -lies.angle : lies.angle) * G_PI / 180);
        hw_template_motif_draw_body (cr, layout->motifs[i], FALSE);
        cairo_restore (cr);
      }
}

static void
draw_left_out (cairo_t *cr, HwBox cell, double scale)
{
  cairo_rectangle (cr, cell.x0, cell.y0, cell.x1 - cell.x0, cell.y1 - cell.y0);
  hw_dye_hatch_path (cr, HW_HATCH_WIDE_45, (HwColour){ 0.42, 0.40, 0.38 }, 0.8, 2.4 / scale,
                     HW_HAIRLINE / scale);
}

/* The sheets' own parts with their names in white plates at their top left corners. */
static void
draw_sheets (cairo_t *cr, const HwLayout *layout, double scale)
{
  const HwTiling *tiling = &layout->tiling;

  for (guint row = 0; row < tiling->rows; row++)
    for (guint column = 0; column < tiling->columns; column++)
      {
        HwBox cell = hw_tiling_cell (tiling, column, row);
        HwLettering how = { .size = HW_TYPE_TITLE / scale, .bold = TRUE };
        g_autofree char *name = hw_tile_name (column, row);
        double width, height;

        if (hw_tiling_leaves_out (tiling, column, row))
          {
            draw_left_out (cr, cell, scale);
            how = (HwLettering){ .size = HW_TYPE_TEXT / scale };
          }
        cairo_rectangle (cr, cell.x0, cell.y0, cell.x1 - cell.x0, cell.y1 - cell.y0);
        hw_ink (cr);
        cairo_set_line_width (cr, 0.3 / scale);
        cairo_stroke (cr);

        hw_letter_measure (cr, &how, name, &width, &height);
        if (width + 2 / scale > cell.x1 - cell.x0 || height > cell.y1 - cell.y0)
          continue;
        cairo_rectangle (cr, cell.x0 + 0.15 / scale, cell.y0 + 0.15 / scale, width + 2 / scale, height);
        cairo_set_source_rgb (cr, 1, 1, 1);
        cairo_fill (cr);
        hw_ink (cr);
        hw_letter (cr, cell.x0 + 1 / scale, cell.y0, &how, name);
      }
}

static void
draw_numbers (cairo_t *cr, const HwLayout *layout, double scale)
{
  const HwSnapshot *snapshot = layout->job->plan->snapshot;

  for (guint i = 0; i < snapshot->motifs->len; i++)
    if (layout->motifs[i] != NULL)
      {
        HwPoint at = hw_layout_point (layout, hw_snapshot_motif (snapshot, i)->placement.position);

        hw_draw_ring_number (cr, at.x, at.y, 2.2 / scale, 2.8 / scale, layout->motifs[i]->number);
      }
}

gboolean
hw_layout_index_lies (const HwLayout *layout)
{
  const HwTiling *tiling = &layout->tiling;
  HwBox first = hw_tiling_window (tiling, 0, 0);
  HwBox last = hw_tiling_window (tiling, tiling->columns - 1, tiling->rows - 1);

  return last.x1 - first.x0 > last.y1 - first.y0;
}

void
hw_layout_index_draw (const HwPrintJob *job, const HwPage *page, cairo_t *cr)
{
  const HwLayout *layout = page->data;
  const HwTiling *tiling = &layout->tiling;
  double margin = job->options.sheet_margin;
  double top = draw_words (job, page, cr, layout) + GAP, bottom = page->height - margin - HW_LAYOUT_FOOT;
  HwBox first = hw_tiling_window (tiling, 0, 0);
  HwBox last = hw_tiling_window (tiling, tiling->columns - 1, tiling->rows - 1);
  double width = page->width - 2 * margin;
  double scale = MIN (width / (last.x1 - first.x0), MAX (bottom - top, 10) / (last.y1 - first.y0));

  cairo_save (cr);
  cairo_translate (cr, margin + (width - scale * (last.x1 - first.x0)) / 2 - scale * first.x0,
                   top - scale * first.y0);
  cairo_scale (cr, scale, scale);
  draw_scene (cr, layout, scale);
  draw_sheets (cr, layout, scale);
  draw_numbers (cr, layout, scale);
  cairo_restore (cr);
  hw_page_footer (job, page, cr, margin, margin, 0, _ ("How the sheets go together"));
}
