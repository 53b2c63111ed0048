/* One hooping on one page (more when it holds much): how the hoop lies on the cloth, where each motif lies in the hoop, the
 * marks with room for the readings, and the work in steps to tick off, with the threads in order beside them. */
#include "hooping-page.h"

#include <math.h>

#include <glib/gi18n.h>

#include "hoop-picture.h"
#include "page-frame.h"
#include "steps.h"
#include "words.h"

#define PICTURE 78.0
#define COLUMN_GAP 8.0
#define THREADS_WIDTH 58.0
#define LINE 4.6

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
  g_autofree char *named = g_strdup_printf (_ ("%s hoop"), hoop->name);
  g_autofree char *stitches = hw_words_count (h->stitches);
  g_autofree char *minutes = hw_words_minutes (h->minutes);
  g_autofree char *facts = NULL;
  g_autofree char *motifs
      = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u motif", "%u motifs", h->n_motifs), h->n_motifs);
  g_autofree char *changes = g_strdup_printf (
      g_dngettext (GETTEXT_PACKAGE, "%u thread change", "%u thread changes", h->thread_changes),
      h->thread_changes);
  double y = hw_writer_take (writer, 15);
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  facts = g_strdup_printf (_ ("%s · %s · %s stitches · about %s%s"), motifs, changes, stitches, minutes,
                           h->hold == HW_PLACE_PINNED   ? _ (" · held fast by you")
                           : h->hold == HW_PLACE_FROZEN ? _ (" · already stitched")
                                                        : "");
  hw_ink (cr);
  hw_line (cr, writer->x, y - 1.2, 60, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT, title);
  hw_line (cr, writer->x + writer->width, y - 1.2, writer->width - 66, HW_TYPE_TITLE, FALSE, HW_LETTER_RIGHT,
           named);
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
  g_autofree char *turned
      = fabs (hw_angle_normal (h->angle)) < 0.05
            ? g_strdup (_ ("straight: its top to the cloth's top"))
            : g_strdup_printf (_ ("turned %s: its top away from the cloth's top by so much"), turn);
  g_autofree char *margin = hw_words_length (h->margin, unit);

  write_fact (writer, label, place);
  write_fact (writer, _ ("From its centre straight to the nearest edge line"), edges);
  write_fact (writer, _ ("How the hoop lies on the cloth"), turned);
  write_fact (writer, _ ("How the cloth is held"),
              snapshot->fabric.hold == HW_HOLD_CLAMPED ? _ ("clamped in the ring, stabiliser under it")
                                                       : _ ("floated on hooped adhesive stabiliser"));
  write_fact (writer, _ ("Free inside the field on its tightest side"), margin);
}

/* A length and its direction, in two cells, so that figures stand under figures. */
static void
set_pair (HwCell *cells, double value, HwUnit unit, gboolean along, char **kept)
{
  *kept = fabs (value) < 0.05 ? g_strdup ("–") : hw_words_length (fabs (value), unit);
  cells[0] = (HwCell){ .text = *kept, .small = unit == HW_UNIT_INCH };
  cells[1] = (HwCell){ .text = fabs (value) < 0.05 ? _ ("middle")
                               : along             ? (value < 0 ? _ ("away") : _ ("towards"))
                                                   : (value < 0 ? _ ("left") : _ ("right")),
                       .small = unit == HW_UNIT_INCH };
}

static double
figure_width (HwUnit unit)
{
  return unit == HW_UNIT_INCH ? 27 : 17;
}

static void
write_motifs (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  double figure = figure_width (unit);
  HwColumn columns[] = {
    { NULL, 5, HW_LETTER_LEFT },
    { _ ("Motif, in stitching order"), 0, HW_LETTER_LEFT },
    { _ ("Shift"), figure, HW_LETTER_RIGHT },
    { NULL, 13, HW_LETTER_LEFT },
    { NULL, figure, HW_LETTER_RIGHT },
    { NULL, 15, HW_LETTER_LEFT },
    { _ ("Turn"), 31, HW_LETTER_LEFT },
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
      g_autofree char *off = isfinite (error) ? hw_length_text (error, unit) : g_strdup ("–");

      cells[0] = (HwCell){ .text = number, .ring = TRUE };
      cells[1] = (HwCell){ .text = hw_snapshot_motif (plan->snapshot, m)->name };
      set_pair (&cells[2], place.shift.x, unit, FALSE, &across);
      set_pair (&cells[4], place.shift.y, unit, TRUE, &along);
      cells[6] = (HwCell){ .text = turn };
      cells[7] = (HwCell){ .text = off, .small = unit == HW_UNIT_INCH };
      hw_table_row (&table, cells);
    }
}

static void
write_marks (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  HwPoint corner = hw_measuring_corner (plan->snapshot);
  double figure = figure_width (unit);
  HwColumn columns[] = {
    { _ ("Mark"), 8, HW_LETTER_LEFT },
    { _ ("Right"), figure, HW_LETTER_RIGHT },
    { _ ("Down"), figure, HW_LETTER_RIGHT },
    { _ ("In the hoop"), figure + 4, HW_LETTER_RIGHT },
    { NULL, 13, HW_LETTER_LEFT },
    { NULL, figure, HW_LETTER_RIGHT },
    { NULL, 15, HW_LETTER_LEFT },
    { _ ("Needle found at: across"), 0, HW_LETTER_LEFT },
    { _ ("along"), unit == HW_UNIT_INCH ? 14 : 22, HW_LETTER_LEFT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns), .gap = 2 };
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
      g_autofree char *right = hw_words_length (mark->at.x - corner.x, unit);
      g_autofree char *down = hw_words_length (mark->at.y - corner.y, unit);
      g_autofree char *across = NULL, *along = NULL;

      cells[0] = (HwCell){ .text = mark->letter };
      cells[1] = (HwCell){ .text = right, .small = unit == HW_UNIT_INCH };
      cells[2] = (HwCell){ .text = down, .small = unit == HW_UNIT_INCH };
      set_pair (&cells[3], in_hoop.x, unit, FALSE, &across);
      set_pair (&cells[5], in_hoop.y, unit, TRUE, &along);
      cells[7] = (HwCell){ .line = TRUE };
      cells[8] = (HwCell){ .line = TRUE };
      hw_table_row (&table, cells);
    }
}

static const char *
step_part (HwStepKind kind)
{
  if (kind <= HW_STEP_PRESS)
    return _ ("At the table");
  if (kind <= HW_STEP_TEMPLATE_OFF)
    return _ ("At the machine");
  if (kind <= HW_STEP_STITCH)
    return _ ("Stitching");

  return _ ("Afterwards");
}

static void
write_step (HwWriter *writer, const HwStep *step)
{
  double indent = 6.4;
  double text_width = writer->width - indent - (step->strong ? 2 : 0);
  double text = hw_writer_measure (writer, text_width, HW_TYPE_TEXT, step->strong, step->text);
  double room = step->strong ? 3.0 : 0;
  double y = hw_writer_take (writer, text + 1.1 + room);
  HwLettering how = { .size = HW_TYPE_TEXT, .bold = step->strong, .width = text_width };
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  if (step->strong)
    {
      cairo_rectangle (cr, writer->x, y + 0.2, writer->width, text + room - 0.7);
      hw_ink (cr);
      cairo_set_line_width (cr, 0.7);
      cairo_stroke (cr);
    }
  hw_draw_tick_box (cr, writer->x + (step->strong ? 1.2 : 0.1), y + room / 2 + 0.6, 3.2);
  hw_ink (cr);
  hw_letter (cr, writer->x + indent + (step->strong ? 1 : 0), y + room / 2, &how, step->text);
}

static void
write_steps (HwWriter *writer, guint index)
{
  g_autoptr (GPtrArray) steps = hw_steps_new (writer->job->plan, index, writer->job->options.unit);
  const char *part = NULL;

  for (guint i = 0; i < steps->len; i++)
    {
      const HwStep *step = g_ptr_array_index (steps, i);

      if (part != step_part (step->kind))
        {
          part = step_part (step->kind);
          if (i > 0)
            hw_writer_skip (writer, 1.6);
          hw_writer_need (writer, 5 + 10);
          hw_writer_take (writer, 4.9);
          if (hw_writer_cr (writer) != NULL)
            {
              hw_ink (writer->cr);
              hw_line (writer->cr, writer->x, writer->y - 4.9, writer->width, HW_TYPE_TEXT, TRUE,
                       HW_LETTER_LEFT, part);
            }
        }
      write_step (writer, step);
    }
}

/* The thread in the needle when the hooping begins, or NULL. */
static const HwThreadBlock *
thread_before (const HwPlan *plan, guint index)
{
  for (guint h = index; h-- > 0;)
    for (guint i = plan->hoopings[h].n_motifs; i-- > 0;)
      {
        const HwMotif *motif = hw_snapshot_motif (plan->snapshot, plan->hoopings[h].motifs[i]);

        if (motif->n_threads > 0)
          return &motif->threads[motif->n_threads - 1];
      }

  return NULL;
}

static void
write_thread_row (HwWriter *writer, const HwThreadBlock *block, guint number)
{
  g_autofree char *text = number > 0 ? g_strdup_printf ("%u", number) : g_strdup ("·");
  g_autofree char *stitches = hw_words_count (block->stitches);
  double y = hw_writer_take (writer, LINE);
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  hw_ink_pale (cr);
  hw_line (cr, writer->x + 4.6, y, 0, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT, text);
  hw_draw_swatch (cr, writer->x + 6.6, y + 0.75, 7, 2.9, block->colour);
  hw_ink (cr);
  hw_line (cr, writer->x + 15.6, y, writer->width - 15.6 - 15, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT,
           block->name);
  hw_line (cr, writer->x + writer->width, y, 14, HW_TYPE_TEXT, FALSE, HW_LETTER_RIGHT, stitches);
}

static void
write_threads (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  const HwThreadBlock *before = thread_before (plan, index);
  guint number = 0;
  gboolean stays = FALSE;
  double y = hw_writer_take (writer, 4.9);

  if (hw_writer_cr (writer) != NULL)
    {
      hw_ink (writer->cr);
      hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT,
               _ ("Threads in order"));
    }

  for (guint i = 0; i < h->n_motifs; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (plan->snapshot, h->motifs[i]);
      g_autofree char *name = g_strdup_printf ("%u %s", hw_order_number (h->motifs[i]), motif->name);

      if (i > 0)
        hw_writer_skip (writer, 1);
      hw_writer_need (writer, 4 + LINE);
      y = hw_writer_take (writer, 4);
      if (hw_writer_cr (writer) != NULL)
        {
          hw_ink_pale (writer->cr);
          hw_line (writer->cr, writer->x, y, writer->width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, name);
        }
      for (guint b = 0; b < motif->n_threads; b++)
        {
          const HwThreadBlock *block = &motif->threads[b];
          gboolean same = before != NULL && hw_thread_same (before, block);

          stays |= same;
          write_thread_row (writer, block, same ? 0 : ++number);
          before = block;
        }
    }

  if (stays)
    {
      hw_writer_skip (writer, 1);
      hw_writer_paragraph (writer, HW_TYPE_SMALL, FALSE, _ ("· this thread is in the needle already"));
    }
}

/* In a frame, in small type; kept together. */
static void
write_cautions (HwWriter *writer)
{
  g_autofree const char **cautions = hw_cautions_new ();
  double inside = writer->width - 6, height = 8.6, y;
  HwLettering how = { .size = HW_TYPE_SMALL, .width = inside };
  cairo_t *cr;

  for (guint i = 0; cautions[i] != NULL; i++)
    height += hw_writer_measure (writer, inside, HW_TYPE_SMALL, FALSE, cautions[i]) + 1.1;

  hw_writer_skip (writer, 5);
  y = hw_writer_take (writer, height);
  cr = hw_writer_cr (writer);
  if (cr == NULL)
    return;

  cairo_rectangle (cr, writer->x, y, writer->width, height);
  hw_ink (cr);
  cairo_set_line_width (cr, 0.3);
  cairo_stroke (cr);
  hw_line (cr, writer->x + 3, y + 2, inside, HW_TYPE_TEXT, TRUE, HW_LETTER_LEFT, _ ("Take care"));
  y += 7.4;
  for (guint i = 0; cautions[i] != NULL; i++)
    y += hw_letter (cr, writer->x + 3, y, &how, cautions[i]) + 1.1;
}

/* Writes `left` and `right` side by side, each down its own column and on to further pages. */
static void
write_side_by_side (HwWriter *writer, guint index)
{
  double x = writer->x, width = writer->width, start_y = writer->y, left_y;
  guint start_page = writer->page, left_page;

  writer->width = width - THREADS_WIDTH - COLUMN_GAP;
  write_steps (writer, index);
  left_page = writer->page;
  left_y = writer->y;

  writer->page = start_page;
  writer->y = start_y;
  writer->x = x + width - THREADS_WIDTH;
  writer->width = THREADS_WIDTH;
  write_threads (writer, index);
  write_cautions (writer);

  if (left_page > writer->page || (left_page == writer->page && left_y > writer->y))
    {
      writer->page = left_page;
      writer->y = left_y;
    }
  writer->x = x;
  writer->width = width;
}

void
hw_hooping_page_write (HwWriter *writer, guint hooping)
{
  double x = writer->x, width = writer->width, y;
  g_autofree char *running = g_strdup_printf (_ ("Hooping %u, continued"), hooping + 1);

  writer->running = running;
  write_title (writer, hooping);

  y = writer->y;
  if (hw_writer_cr (writer) != NULL)
    hw_draw_hoop_picture (writer->cr, writer->job->plan, hooping, (HwBox){ x, y, x + PICTURE, y + PICTURE });
  writer->x = x + PICTURE + COLUMN_GAP;
  writer->width = width - PICTURE - COLUMN_GAP;
  writer->y += 3;
  write_position (writer, hooping);
  writer->x = x;
  writer->width = width;
  writer->y = MAX (writer->y, y + PICTURE);

  write_motifs (writer, hooping);
  write_marks (writer, hooping);
  hw_writer_skip (writer, 5);
  write_side_by_side (writer, hooping);
  writer->running = NULL;
}
