/* One hooping on one page: how the hoop lies on the cloth, where each motif lies in the hoop, the marks with room for the readings, and the work to
 * do. The picture takes what room the rest leaves. A hooping that holds more than a page stands on two: what is where on the one, the work on the
 * other. */
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

#define TITLE 8.4
#define FACTS 6.2
#define CHIP_WIDTH 12.0
#define CHIP_HEIGHT 5.4
#define PICTURE_LEAST 52.0
#define PICTURE_MOST 122.0
#define BAND_BELOW 2.4
#define WORK_ABOVE 3.6
#define NARROW_STEPS 78.0 /* beside two columns of threads */
#define WIDE_STEPS 112.0
#define WORTH_IT 2.5 /* mm saved by another way to set the work */
#define PLACE_FIGURE 21.5
#define NOTHING 0.05 /* mm */
#define MARK_LETTER 7.0
#define MARK_GAP 4.0
#define MARK_BOX 6.2
#define MARK_LINE 4.0

/* How the page is set. */
typedef struct
{
  double picture; /* mm high */
  HwWorkLayout work;
  gboolean work_apart;      /* it begins a page of its own */
  gboolean cautions_before; /* on the page of the places, since that of the work is full */
} HoopingLayout;

/* "3 motifs · 22 thread changes · 47,156 stitches · about 2 h 00" */
static char *
facts_line (const HwPlan *plan, guint index)
{
  const HwHooping *h = &plan->hoopings[index];
  g_autofree char *motifs = g_strdup_printf (ngettext ("%u motif", "%u motifs", h->n_motifs), h->n_motifs);
  g_autofree char *changes = g_strdup_printf (
      ngettext ("%u thread change", "%u thread changes", h->thread_changes), h->thread_changes);
  g_autofree char *count = hw_words_count (h->stitches);
  g_autofree char *stitches = g_strdup_printf (ngettext ("%s stitch", "%s stitches", h->stitches), count);
  g_autofree char *time = hw_plan_time_text (h->minutes);
  gboolean in_machine = h->hold != HW_PLACE_FROZEN && hw_work_of_hooping (plan, index) != NULL;
  const char *state = in_machine                   ? _ ("in the machine")
                      : h->hold == HW_PLACE_PINNED ? _ ("held fast by you")
                      : h->hold == HW_PLACE_FROZEN ? _ ("already stitched")
                                                   : NULL;

  return g_strjoin (" · ", motifs, changes, stitches, time, state, NULL);
}

static void
write_title (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  const HwHoop *hoop = hw_snapshot_hoop (plan->snapshot, plan->hoopings[index].hoop);
  g_autofree char *title = g_strdup_printf (_ ("Hooping %u"), index + 1);
  g_autofree char *facts = facts_line (plan, index);
  double y = hw_writer_take (writer, TITLE + FACTS);
  cairo_t *cr = hw_writer_cr (writer);

  if (cr == NULL)
    return;

  hw_draw_hooping_chip (cr, writer->x, y + 0.4, CHIP_WIDTH, CHIP_HEIGHT, index);
  hw_ink (cr);
  hw_line (cr, writer->x + CHIP_WIDTH + 3, y - 0.6, 60, HW_TYPE_TITLE, TRUE, HW_LETTER_LEFT, title);
  hw_line (cr, writer->x + writer->width, y - 0.6, writer->width - CHIP_WIDTH - 69, HW_TYPE_TITLE, FALSE,
           HW_LETTER_RIGHT, hoop->name);
  hw_draw_rule (cr, writer->x, y + TITLE - 0.6, writer->width, 0.3);
  hw_ink (cr);
  hw_line (cr, writer->x, y + TITLE + 0.4, writer->width, HW_TYPE_TEXT, FALSE, HW_LETTER_LEFT, facts);
}

static void
write_motifs (HwWriter *writer, guint index)
{
  const HwPlan *plan = writer->job->plan;
  const HwHooping *h = &plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  g_autofree char *across_title = hw_table_both_title (_ ("Across"), unit),
                  *along_title = hw_table_both_title (_ ("Along"), unit);
  HwColumn columns[] = {
    { NULL, 5, HW_LETTER_LEFT },
    { _ ("Motif, from the hoop's middle"), 0, HW_LETTER_LEFT },
    { across_title, PLACE_FIGURE, HW_LETTER_RIGHT, TRUE },
    { NULL, hw_table_way_width (writer, FALSE, 11), HW_LETTER_LEFT },
    { along_title, PLACE_FIGURE, HW_LETTER_RIGHT, TRUE },
    { NULL, hw_table_way_width (writer, TRUE, 15), HW_LETTER_LEFT },
    { _ ("Turn"), 29, HW_LETTER_LEFT },
    { _ ("May be off"), unit == HW_UNIT_INCH ? 19 : 17, HW_LETTER_RIGHT },
  };
  HwTable table = { writer, columns, G_N_ELEMENTS (columns), .gap = 2 };

  for (guint i = 0; i < h->n_motifs; i++)
    {
      guint m = h->motifs[i];
      HwMotifInHoop place = hw_motif_in_hoop (plan, index, m);
      HwCell cells[G_N_ELEMENTS (columns)] = { 0 };
      g_autofree char *number = g_strdup_printf ("%u", hw_order_number (m));
      g_autofree char *across = NULL, *along = NULL;
      g_autofree char *turn = hw_words_turn_narrow (place.turn);
      double error = h->predicted_error != NULL && h->n_marks > 0 ? h->predicted_error[i] : INFINITY;
      g_autofree char *off = isfinite (error) ? hw_table_length (error, unit) : g_strdup ("–");

      cells[0] = (HwCell){ .text = number, .ring = TRUE };
      cells[1] = (HwCell){ .text = hw_snapshot_motif (plan->snapshot, m)->name, .wrap = TRUE };
      hw_table_pair_both (&cells[2], place.shift.x, unit, FALSE, &across);
      hw_table_pair_both (&cells[4], place.shift.y, unit, TRUE, &along);
      cells[6] = (HwCell){ .text = turn };
      cells[7] = (HwCell){ .text = off };
      hw_table_row (&table, cells);
    }
}

/* A box to write a reading in, under where it was planned. */
static void
write_reading_box (
    const HwWriter *writer, double x, double y, double width, const char *planned, gboolean pencil)
{
  cairo_t *cr = writer->cr;

  hw_ink (cr);
  hw_line (cr, x, y, width, HW_TYPE_SMALL, FALSE, HW_LETTER_LEFT, planned);
  if (!pencil)
    return;

  cairo_rectangle (cr, x, y + MARK_LINE, width, MARK_BOX);
  hw_ink_pale (cr);
  cairo_set_line_width (cr, HW_HAIRLINE);
  cairo_stroke (cr);
}

/* "132.0 mm away": shorter than elsewhere, the picture beside it says from whom. */
static char *
along_words (double v, HwUnit unit)
{
  g_autofree char *length = hw_words_length (fabs (v), unit);

  if (fabs (v) < NOTHING)
    return hw_words_along (v, unit);

  return g_strdup_printf (v > 0 ? _ ("%s towards") : _ ("%s away"), length);
}

/* Each mark where the design has it in the hoop, over boxes for where the needle really finds it; they are left out once it was read. */
static void
write_marks (HwWriter *writer, guint index, gboolean pencil)
{
  const HwHooping *h = &writer->job->plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  double width = (writer->width - MARK_LETTER - MARK_GAP) / 2;

  if (h->n_marks == 0)
    return;

  hw_writer_skip (writer, 1);
  hw_writer_paragraph (writer, HW_TYPE_TEXT, TRUE,
                       pencil ? _ ("Marks in the hoop, and where the needle finds them")
                              : _ ("Marks in the hoop"));
  for (guint i = 0; i < h->n_marks; i++)
    {
      HwPoint in_hoop = hw_point_in_hoop (h, h->marks[i].at);
      g_autofree char *across = hw_words_across (in_hoop.x, unit);
      g_autofree char *along = along_words (in_hoop.y, unit);
      double y = hw_writer_take (writer, MARK_LINE + (pencil ? MARK_BOX + 1.1 : 1));

      if (hw_writer_cr (writer) == NULL)
        continue;
      hw_ink (writer->cr);
      hw_line (writer->cr, writer->x, y + (pencil ? MARK_LINE + 1 : -0.6), MARK_LETTER - 1, HW_TYPE_TEXT,
               TRUE, HW_LETTER_LEFT, h->marks[i].letter);
      write_reading_box (writer, writer->x + MARK_LETTER, y, width, across, pencil);
      write_reading_box (writer, writer->x + MARK_LETTER + width + MARK_GAP, y, width, along, pencil);
    }
}

/* The picture, and beside it where the hoop lies and the marks. */
static void
write_band (HwWriter *writer, guint index, double picture, const HwWork *work)
{
  double x = writer->x, width = writer->width, y = writer->y, half = (width - HW_GUTTER) / 2;

  if (hw_writer_cr (writer) != NULL)
    hw_draw_hoop_picture (writer->cr, writer->job->plan, index, (HwBox){ x, y, x + half, y + picture });
  writer->x = x + half + HW_GUTTER;
  writer->width = half;
  hw_hooping_facts_write (writer, index);
  write_marks (writer, index, work == NULL || work->n_readings == 0);
  writer->x = x;
  writer->width = width;
  writer->y = MAX (writer->y, y + picture) + BAND_BELOW;
}

static void
write_places (HwWriter *writer, guint index, double picture)
{
  const HwWork *work = hw_work_of_hooping (writer->job->plan, index);

  write_title (writer, index);
  write_band (writer, index, picture, work);
  write_motifs (writer, index);
  if (work == NULL)
    return;

  if (work->n_readings > 0)
    hw_writer_heading (writer, _ ("Readings and correction"), 12);
  hw_readings_write (writer, index, work, TRUE);
}

/* HwWriterPart; data: the height of the picture */
static void
write_places_part (HwWriter *writer, guint index, gpointer picture)
{
  write_places (writer, index, *(double *)picture);
}

static double
places_height (const HwWriter *writer, guint index, double picture)
{
  return hw_writer_height (writer, writer->width, index, write_places_part, &picture);
}

/* The picture as high as makes the places take this much in all. */
static double
picture_for (const HwWriter *writer, guint index, double height)
{
  double fixed = places_height (writer, index, PICTURE_MOST) - PICTURE_MOST;

  return CLAMP (height - fixed, PICTURE_LEAST, PICTURE_MOST);
}

/* Steps wide or narrow, threads in one column beside them or in two, whichever is lower. */
static HwWorkLayout
choose_work (const HwWriter *writer, guint index, double *height)
{
  const HwWorkLayout layouts[] = { { NARROW_STEPS, 1 }, { NARROW_STEPS, 2 }, { WIDE_STEPS, 1 } };
  guint best = 0;

  *height = G_MAXDOUBLE;
  for (guint i = 0; i < G_N_ELEMENTS (layouts); i++)
    {
      double tried = hw_hooping_work_height (writer, index, &layouts[i]);

      if (tried < *height - WORTH_IT)
        {
          *height = tried;
          best = i;
        }
    }

  return layouts[best];
}

static HoopingLayout
choose_layout (const HwWriter *writer, guint index)
{
  const HwWorkLayout below = { WIDE_STEPS, 0 };
  double page = writer->bottom - writer->y, work, apart, cautions = hw_cautions_height (writer), room;
  HoopingLayout layout = { .work = choose_work (writer, index, &work) };

  room = page - WORK_ABOVE - work - cautions;
  if (places_height (writer, index, PICTURE_LEAST) <= room)
    {
      layout.picture = picture_for (writer, index, room);
      return layout;
    }

  layout.work_apart = TRUE;
  work += HW_RUNNING_HEIGHT;
  apart = HW_RUNNING_HEIGHT + hw_hooping_work_height (writer, index, &below);
  if (apart <= page || apart < work)
    {
      layout.work = below;
      work = apart;
    }
  layout.cautions_before = work + cautions > page && work <= page
                           && places_height (writer, index, PICTURE_LEAST) <= page - cautions;
  layout.picture = picture_for (writer, index, layout.cautions_before ? page - cautions : page);
  return layout;
}

void
hw_hooping_page_write (HwWriter *writer, guint hooping)
{
  g_autofree char *running = g_strdup_printf (_ ("Hooping %u, continued"), hooping + 1);
  HoopingLayout layout = choose_layout (writer, hooping);

  writer->running = running;
  write_places (writer, hooping, layout.picture);
  if (layout.cautions_before)
    hw_cautions_write (writer);
  if (layout.work_apart)
    hw_writer_need (writer, G_MAXDOUBLE);
  else
    hw_writer_skip (writer, WORK_ABOVE);
  hw_hooping_work_write (writer, hooping, &layout.work);
  if (!layout.cautions_before)
    hw_cautions_write (writer);
  writer->running = NULL;
}
