/* One hooping on one page (more when it holds much): how the hoop lies on the cloth, where each motif lies
 * in the hoop, the marks with room for the readings, and the work to do. */
#include "hooping-page.h"

#include <math.h>

#include "hoop-picture.h"
#include "hooping-work.h"
#include "page-frame.h"
#include "readings-table.h"
#include "steps.h"
#include "table-lengths.h"
#include "words.h"
#include "../geometry/language.h"

#define PICTURE_WIDTH 80.0
#define PICTURE_LEAST 50.0
#define PICTURE_ONE_PAGE 84.0
#define PICTURE_MOST 126.0
#define COLUMN_GAP 8.0

HwPoint
hw_measuring_corner (const HwSnapshot *snapshot)
{
  if (snapshot->edge_line == NULL || snapshot->edge_line->outline == NULL)
    return (HwPoint){ 0, 0 };

  return (HwPoint){ snapshot->edge_line->outline->box.x0, snapshot->edge_line->outline->box.y0 };
}

const char *
hw_measuring_corner_words (const HwSnapshot *snapshot)
{
  if (snapshot->edge_line == NULL || snapshot->edge_line->outline == NULL)
    return _ ("from the cloth's top left corner");
  if (snapshot->edge_line->shape == HW_EDGE_RECTANGLE)
    return _ ("from the edge line's top left corner");

  return _ ("from the top left corner of a box around the edge line");
}

static void
meet_segment (HwPoint a, HwPoint b, HwPoint p, double *before, double *after)
{
  double at;

  if ((a.y > p.y) == (b.y > p.y))
    return;
  at = a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) - p.x;
  if (at <= 0)
    *before = MIN (*before, -at);
  if (at >= 0)
    *after = MIN (*after, at);
}

HwEdgeDistances
hw_edge_distances (const HwSnapshot *snapshot, HwPoint p)
{
  HwEdgeDistances d = { G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE, G_MAXDOUBLE };
  const HwFabric *fabric = &snapshot->fabric;

  if (snapshot->edge_line == NULL || snapshot->edge_line->outline == NULL)
    return (HwEdgeDistances){ fabs (p.x), fabs (fabric->width - p.x), fabs (p.y),
                              fabs (fabric->height - p.y) };

  for (guint r = 0; r < snapshot->edge_line->outline->n_rings; r++)
    {
      const HwRing *ring = &snapshot->edge_line->outline->rings[r];

      for (guint i = 0; i < ring->n_points; i++)
        {
          HwPoint a = ring->points[i], b = ring->points[(i + 1) % ring->n_points];
          HwPoint ta = { a.y, a.x }, tb = { b.y, b.x }, tp = { p.y, p.x };

          meet_segment (a, b, p, &d.left, &d.right);
          meet_segment (ta, tb, tp, &d.top, &d.bottom);
        }
    }

  return d;
}

/* "58.8 mm to its right side, 109.0 mm to its top" */
static char *
edge_words (const HwSnapshot *snapshot, HwPoint p, HwUnit unit)
{
  HwEdgeDistances d = hw_edge_distances (snapshot, p);
  gboolean left = d.left <= d.right, top = d.top <= d.bottom;
  double across = MIN (d.left, d.right), along = MIN (d.top, d.bottom);
  g_autofree char *a = across < G_MAXDOUBLE ? hw_words_length (across, unit) : NULL;
  g_autofree char *b = along < G_MAXDOUBLE ? hw_words_length (along, unit) : NULL;
  g_autofree char *first
      = a != NULL ? g_strdup_printf (left ? _ ("%s to its left") : _ ("%s to its right"), a) : NULL;
  g_autofree char *second
      = b != NULL ? g_strdup_printf (top ? _ ("%s to its top") : _ ("%s to its bottom"), b) : NULL;

  if (first != NULL && second != NULL)
    return g_strdup_printf ("%s, %s", first, second);
  if (first != NULL)
    return g_steal_pointer (&first);
  if (second != NULL)
    return g_steal_pointer (&second);

  return g_strdup (_ ("outside the edge line"));
}

static void
write_title (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, h->hoop);
  g_autofree char *title = g_strdup_printf (_ ("Hooping %u"), index + 1);
  g_autofree char *stitches = hw_words_count (h->stitches);
  g_autofree char *minutes = hw_words_minutes (h->minutes);
  g_autofree char *facts = NULL;
  g_autofree char *motifs = g_strdup_printf (ngettext ("%u motif", "%u motifs", h->n_motifs), h->n_motifs);
  g_autofree char *changes = g_strdup_printf (
      ngettext ("%u thread change", "%u thread changes", h->thread_changes), h->thread_changes);
  double y = hw_writer_take (writer, 13.5);
  cairo_t *cr = hw_writer_cr (writer);
  gboolean in_machine;

  if (cr == NULL)
    return;

  in_machine = h->hold != HW_PLACE_FROZEN && hw_work_of_hooping (plan, index) != NULL;
  facts = g_strdup_printf (_ ("%s · %s · %s stitches · about %s%s"), motifs, changes, stitches, minutes,
                           in_machine                   ? _ (" · in the machine")
                           : h->hold == HW_PLACE_PINNED ? _ (" · held fast by you")
                           : h->hold == HW_PLACE_FROZEN ? _ (" · already stitched")
                                                        : "");
  hw_ink (cr);
  hw_line (cr, writer->x, y - 1.2, 60, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT, title);
  hw_line (cr, writer->x + writer->width, y - 1.2, writer->width - 66, HW_TYPE_TITLE, FALSE, HW_LETTER_RIGHT,
           hoop->name);
  hw_line (cr, writer->x, y + 7, writer->width, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, facts);
}

static void
write_fact (HwWriter *writer, const char *label, const char *value)
{
  double height = hw_writer_measure (writer, writer->width, HW_TYPE_TEXT, TRUE, value);
  double label_height = hw_writer_measure (writer, writer->width, HW_TYPE_SMALL, FALSE, label);
  double y = hw_writer_take (writer, label_height + height + 3.2);
  HwLettering how = { .size = HW_TYPE_SMALL, .width = writer->width };
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  hw_ink_pale (cr);
  hw_letter (cr, writer->x, y, &how, label);
  hw_ink (cr);
  how.size = HW_TYPE_TEXT;
  how.bold = TRUE;
  hw_letter (cr, writer->x, y + label_height + 0.3, &how, value);
}

static void
write_position (HwWriter *writer, guint index)
{
  const HwSnapshot *snapshot = writer->job->plan->snapshot;
  const HwHooping *h = &writer->job->plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  HwPoint corner = hw_measuring_corner (snapshot);
  g_autofree char *place = hw_words_place ((HwPoint){ h->centre.x - corner.x, h->centre.y - corner.y }, unit);
  g_autofree char *edges = edge_words (snapshot, h->centre, unit);
  g_autofree char *turn = hw_words_turn (h->angle);
  g_autofree char *label
      = g_strdup_printf (_ ("Its centre on the cloth, %s"), hw_measuring_corner_words (snapshot));
  g_autofree char *turned = fabs (hw_angle_normal (h->angle)) < 0.05
                                ? g_strdup (_ ("straight: its top to the cloth's top"))
                                : g_strdup_printf (_ ("turned %s"), turn);
  g_autofree char *margin = hw_words_length (h->margin, unit);

  write_fact (writer, label, place);
  write_fact (writer, _ ("From its centre straight to the nearest edge line"), edges);
  write_fact (writer, _ ("How the hoop lies on the cloth"), turned);
  write_fact (writer, _ ("Free inside the field on its tightest side"), margin);
}

static void
write_motifs (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  double figure = hw_table_figure_width (unit);
  g_autofree char *across_title = hw_table_length_title (_ ("Across"), unit),
                  *along_title = hw_table_length_title (_ ("Along"), unit);
  HwColumn columns[] = {
    { NULL, 5, HW_LETTER_LEFT },
    { hw_steps_take_turns (plan, index) ? _ ("Motif, as each begins") : _ ("Motif, in stitching order"), 0,
      HW_LETTER_LEFT },
    { across_title, figure, HW_LETTER_RIGHT, TRUE },
    { NULL, 13, HW_LETTER_LEFT },
    { along_title, figure, HW_LETTER_RIGHT, TRUE },
    { NULL, 15, HW_LETTER_LEFT },
    { _ ("Turn"), 32, HW_LETTER_LEFT },
    { _ ("May be off"), figure, HW_LETTER_RIGHT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns), .gap = 2 };

  hw_writer_heading (writer, _ ("Where the motifs lie, from the middle of the hoop"), 12);
  for (guint i = 0; i < h->n_motifs; i++)
    {
      guint m = h->motifs[i];
      HwMotifInHoop place = hw_motif_in_hoop (plan, index, m);
      HwCell cells[G_N_ELEMENTS (columns)] = { 0 };
      g_autofree char *number = g_strdup_printf ("%u", hw_order_number (m));
      g_autofree char *across = NULL, *along = NULL;
      g_autofree char *turn = hw_words_turn (place.turn);
      double error = h->predicted_error != NULL && h->n_marks > 0 ? h->predicted_error[i] : INFINITY;
      g_autofree char *off = isfinite (error) ? hw_table_length (error, unit) : g_strdup ("–");

      cells[0] = (HwCell){ .text = number, .ring = TRUE };
      cells[1] = (HwCell){ .text = hw_snapshot_motif (plan->snapshot, m)->name };
      hw_table_pair (&cells[2], place.shift.x, unit, FALSE, &across);
      hw_table_pair (&cells[4], place.shift.y, unit, TRUE, &along);
      cells[6] = (HwCell){ .text = turn };
      cells[7] = (HwCell){ .text = off };
      hw_table_row (&table, cells);
    }
}

/* With boxes for a pencil beside them, until the needle was read. */
static void
write_marks (HwWriter *writer, guint index, gboolean pencil)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  HwPoint corner = hw_measuring_corner (plan->snapshot);
  double figure = hw_table_figure_width (unit);
  g_autofree char *right_title = hw_table_length_title (_ ("Right"), unit),
                  *down_title = hw_table_length_title (_ ("Down"), unit);
  HwColumn columns[] = {
    { _ ("Mark"), 8, HW_LETTER_LEFT },
    { right_title, unit == HW_UNIT_INCH ? 26 : 20, HW_LETTER_RIGHT },
    { down_title, unit == HW_UNIT_INCH ? 26 : 20, HW_LETTER_RIGHT },
    { _ ("In the hoop: across"), figure + 7, HW_LETTER_RIGHT, TRUE },
    { NULL, 13, HW_LETTER_LEFT },
    { _ ("along"), figure, HW_LETTER_RIGHT, TRUE },
    { NULL, 15, HW_LETTER_LEFT },
    { _ ("Needle found at"), 0, HW_LETTER_LEFT, TRUE },
    { NULL, 0, HW_LETTER_LEFT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns) - (pencil ? 0 : 2), .gap = 2 };
  g_autofree char *heading
      = g_strdup_printf (_ ("Marks on the cloth, %s"), hw_measuring_corner_words (plan->snapshot));

  if (h->n_marks == 0)
    return;

  hw_writer_heading (writer, heading, 12);
  for (guint i = 0; i < h->n_marks; i++)
    {
      const HwMark *mark = &h->marks[i];
      HwPoint in_hoop = hw_point_in_hoop (h, mark->at);
      HwCell cells[G_N_ELEMENTS (columns)] = { 0 };
      g_autofree char *right = hw_table_place (mark->at.x - corner.x, unit, _ ("left"));
      g_autofree char *down = hw_table_place (mark->at.y - corner.y, unit, _ ("up"));
      g_autofree char *across = NULL, *along = NULL;

      cells[0] = (HwCell){ .text = mark->letter };
      cells[1] = (HwCell){ .text = right };
      cells[2] = (HwCell){ .text = down };
      hw_table_pair (&cells[3], in_hoop.x, unit, FALSE, &across);
      hw_table_pair (&cells[5], in_hoop.y, unit, TRUE, &along);
      cells[7] = (HwCell){ .blank = TRUE };
      cells[8] = (HwCell){ .blank = TRUE };
      hw_table_row (&table, cells);
    }
}

/* The whole page; from_steps: where the steps begin, and whether they begin a page of their own. */
static void
write_all (HwWriter *writer, guint index, double picture, gboolean steps_apart, double *steps_at)
{
  double x = writer->x, width = writer->width, y;
  const HwWork *work;

  write_title (writer, index);

  y = writer->y;
  if (hw_writer_cr (writer) != NULL)
    hw_draw_hoop_picture (writer->cr, writer->job->plan, index,
                          (HwBox){ x, y, x + PICTURE_WIDTH, y + picture });
  writer->x = x + PICTURE_WIDTH + COLUMN_GAP;
  writer->width = width - PICTURE_WIDTH - COLUMN_GAP;
  writer->y += 3;
  write_position (writer, index);
  writer->x = x;
  writer->width = width;
  writer->y = MAX (writer->y, y + picture);

  write_motifs (writer, index);
  work = hw_work_of_hooping (writer->job->plan, index);
  write_marks (writer, index, work == NULL || work->n_readings == 0);
  if (work != NULL)
    {
      if (work->n_readings > 0)
        hw_writer_heading (writer, _ ("Readings and correction"), 12);
      hw_readings_write (writer, index, work, TRUE);
    }
  if (steps_at != NULL)
    *steps_at = writer->y;
  if (steps_apart)
    hw_writer_need (writer, G_MAXDOUBLE);
  else
    hw_writer_skip (writer, 4.5);
  hw_hooping_work_write (writer, index);
}

/* One page if the picture can be made small enough, else the hoop on one page, with a large picture, and
 * the work on the next. Heights only add up, so one trial on an endless page tells. */
void
hw_hooping_page_write (HwWriter *writer, guint hooping)
{
  HwWriter trial = *writer;
  g_autofree char *running = g_strdup_printf (_ ("Hooping %u, continued"), hooping + 1);
  double steps_at = 0, spare;

  trial.cr = NULL;
  trial.bottom = 1e6;
  write_all (&trial, hooping, PICTURE_LEAST, FALSE, &steps_at);
  spare = writer->bottom - trial.y;
  writer->running = running;
  if (spare >= 0)
    write_all (writer, hooping, MIN (PICTURE_LEAST + spare, PICTURE_ONE_PAGE), FALSE, NULL);
  else
    {
      spare = writer->bottom - steps_at;
      write_all (writer, hooping, CLAMP (PICTURE_LEAST + spare, PICTURE_LEAST, PICTURE_MOST), TRUE, NULL);
    }
  writer->running = NULL;
}
