/* Where one hoop lies on the cloth, as it is measured with a ruler: from the corner, from the nearest edge line, and how it is turned. */
#include "hooping-facts.h"

#include <math.h>

#include "words.h"
#include "../geometry/language.h"

#define PAIR_GAP 4.0

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

/* "58.8 mm right, 109.0 mm up" */
static char *
edge_words (const HwSnapshot *snapshot, HwPoint p, HwUnit unit)
{
  HwEdgeDistances d = hw_edge_distances (snapshot, p);
  gboolean left = d.left <= d.right, top = d.top <= d.bottom;
  double across = MIN (d.left, d.right), along = MIN (d.top, d.bottom);
  g_autofree char *a = across < G_MAXDOUBLE ? hw_words_length (across, unit) : NULL;
  g_autofree char *b = along < G_MAXDOUBLE ? hw_words_length (along, unit) : NULL;
  g_autofree char *first = a != NULL ? g_strdup_printf (left ? _ ("%s left") : _ ("%s right"), a) : NULL;
  g_autofree char *second = b != NULL ? g_strdup_printf (top ? _ ("%s up") : _ ("%s down"), b) : NULL;

  if (first != NULL && second != NULL)
    return g_strdup_printf (_ ("%s, %s"), first, second);
  if (first != NULL)
    return g_steal_pointer (&first);
  if (second != NULL)
    return g_steal_pointer (&second);

  return g_strdup (_ ("outside the edge line"));
}

void
hw_fact_write (HwWriter *writer, const char *label, const char *value)
{
  double height = hw_writer_measure (writer, writer->width, HW_TYPE_TEXT, TRUE, value);
  double label_height = hw_writer_measure (writer, writer->width, HW_TYPE_SMALL, FALSE, label);
  double y = hw_writer_take (writer, label_height + height + 1.8);
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

/* "Its centre on the cloth", with the corner it is measured from. */
static const char *
centre_label (const HwSnapshot *snapshot)
{
  if (snapshot->edge_line == NULL || snapshot->edge_line->outline == NULL)
    return _ ("Its centre, from the cloth's top left corner");
  if (snapshot->edge_line->shape == HW_EDGE_RECTANGLE)
    return _ ("Its centre, from the edge line's top left corner");

  return _ ("Its centre, from the corner of a box around the edge line");
}

/* Two facts side by side, the second a shorter one. */
static void
write_pair (HwWriter *writer, const char *const *labels, char *const *values)
{
  double x = writer->x, width = writer->width, y = writer->y, lower;

  writer->width = 0.62 * width - PAIR_GAP;
  hw_fact_write (writer, labels[0], values[0]);
  lower = writer->y;
  writer->y = y;
  writer->x = x + 0.62 * width;
  writer->width = 0.38 * width;
  hw_fact_write (writer, labels[1], values[1]);
  writer->y = MAX (writer->y, lower);
  writer->x = x;
  writer->width = width;
}

void
hw_hooping_facts_write (HwWriter *writer, guint index)
{
  const HwSnapshot *snapshot = writer->job->plan->snapshot;
  const HwHooping *h = &writer->job->plan->hoopings[index];
  HwUnit unit = writer->job->options.unit;
  HwPoint corner = hw_measuring_corner (snapshot);
  g_autofree char *place = hw_words_place ((HwPoint){ h->centre.x - corner.x, h->centre.y - corner.y }, unit);
  g_autofree char *edges = edge_words (snapshot, h->centre, unit);
  g_autofree char *turned = hw_words_turned (h->angle);
  g_autofree char *margin = hw_words_length (h->margin, unit);

  hw_fact_write (writer, centre_label (snapshot), place);
  hw_fact_write (writer, _ ("Straight from there to the nearest edge line"), edges);
  write_pair (writer, (const char *const[]){ _ ("The hoop on the cloth"), _ ("Free in the field") },
              (char *const[]){ turned, margin });
}
