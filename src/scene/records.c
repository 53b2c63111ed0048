/* The plain records of a scene: making, copying and letting go of them. */
#include "records.h"

void
hw_machine_set_defaults (HwMachine *machine)
{
  g_return_if_fail (machine != NULL);

  *machine = (HwMachine){
    .stitches_per_minute = 600,
    .turn_step = 1,
    .shift_step = 0.1,
    .minutes_per_change = 1.5,
    .minutes_per_hooping = 8,
  };
}

HwEdgeLine *
hw_edge_line_new (void)
{
  HwEdgeLine *edge = g_new0 (HwEdgeLine, 1);

  g_atomic_ref_count_init (&edge->ref_count);
  return edge;
}

HwEdgeLine *
hw_edge_line_copy (const HwEdgeLine *edge)
{
  HwEdgeLine *copy;

  g_return_val_if_fail (edge != NULL, NULL);

  copy = hw_edge_line_new ();
  copy->shape = edge->shape;
  copy->corner_radius = edge->corner_radius;
  copy->outline = edge->outline != NULL ? hw_outline_ref (edge->outline) : NULL;
  copy->margin = edge->margin;
  copy->unknown = hw_unknown_ref (edge->unknown);
  return copy;
}

HwEdgeLine *
hw_edge_line_ref (const HwEdgeLine *edge)
{
  HwEdgeLine *shared = (HwEdgeLine *)edge;

  g_return_val_if_fail (edge != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_edge_line_unref (HwEdgeLine *edge)
{
  g_return_if_fail (edge != NULL);

  if (!g_atomic_ref_count_dec (&edge->ref_count))
    return;
  g_clear_pointer (&edge->outline, hw_outline_unref);
  g_clear_pointer (&edge->unknown, hw_unknown_unref);
  g_free (edge);
}

/* Adds n points of an arc of an upright ellipse, from `from` to `to` degrees clockwise from the right, ends included. */
static void
add_arc (GArray *points, HwPoint centre, double rx, double ry, double from, double to, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      HwPoint unit = hw_point_turn ((HwPoint){ 1, 0 }, from + (to - from) * i / (n - 1));
      HwPoint p = { centre.x + rx * unit.x, centre.y + ry * unit.y };

      g_array_append_val (points, p);
    }
}

static void
add_rounded (GArray *points, HwBox box, double radius)
{
  enum
  {
    PER_CORNER = 13
  };
  const HwPoint corners[] = {
    { box.x0 + radius, box.y0 + radius },
    { box.x1 - radius, box.y0 + radius },
    { box.x1 - radius, box.y1 - radius },
    { box.x0 + radius, box.y1 - radius },
  };

  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    add_arc (points, corners[i], radius, radius, 180 + 90.0 * i, 270 + 90.0 * i, PER_CORNER);
}

HwEdgeLine *
hw_edge_line_new_shape (HwEdgeShape shape, HwBox box, double corner_radius, double margin)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (HwPoint));
  double most_radius = MIN (box.x1 - box.x0, box.y1 - box.y0) / 2;
  HwEdgeLine *edge;
  HwRing ring;

  g_return_val_if_fail (box.x1 > box.x0 && box.y1 > box.y0, NULL);

  if (shape == HW_EDGE_ELLIPSE)
    {
      HwPoint centre = { (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2 };

      add_arc (points, centre, (box.x1 - box.x0) / 2, (box.y1 - box.y0) / 2, 0, 357.5, 144);
    }
  else if (shape == HW_EDGE_ROUNDED && corner_radius > 0)
    {
      /* Just short of the full half, so that neighbouring arcs never share a point. */
      corner_radius = MIN (corner_radius, most_radius * 0.9999);
      add_rounded (points, box, corner_radius);
    }
  else
    {
      const HwPoint corners[]
          = { { box.x0, box.y0 }, { box.x1, box.y0 }, { box.x1, box.y1 }, { box.x0, box.y1 } };

      g_array_append_vals (points, corners, G_N_ELEMENTS (corners));
    }

  ring = (HwRing){ (HwPoint *)points->data, points->len };
  edge = hw_edge_line_new ();
  edge->shape = shape;
  edge->corner_radius = shape == HW_EDGE_ROUNDED ? MAX (corner_radius, 0) : 0;
  edge->margin = margin;
  edge->outline = hw_outline_new (&ring, 1);
  return edge;
}

HwHoop *
hw_hoop_new (void)
{
  HwHoop *hoop = g_new0 (HwHoop, 1);

  g_atomic_ref_count_init (&hoop->ref_count);
  return hoop;
}

HwHoop *
hw_hoop_copy (const HwHoop *hoop)
{
  HwHoop *copy;

  g_return_val_if_fail (hoop != NULL, NULL);

  copy = hw_hoop_new ();
  copy->id = g_strdup (hoop->id);
  copy->name = g_strdup (hoop->name);
  copy->field_width = hoop->field_width;
  copy->field_height = hoop->field_height;
  copy->frame_width = hoop->frame_width;
  copy->frame_height = hoop->frame_height;
  copy->clearance = hoop->clearance;
  copy->turn = hoop->turn;
  copy->set_aside = hoop->set_aside;
  copy->unknown = hw_unknown_ref (hoop->unknown);
  return copy;
}

HwHoop *
hw_hoop_ref (const HwHoop *hoop)
{
  HwHoop *shared = (HwHoop *)hoop;

  g_return_val_if_fail (hoop != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_hoop_unref (HwHoop *hoop)
{
  g_return_if_fail (hoop != NULL);

  if (!g_atomic_ref_count_dec (&hoop->ref_count))
    return;
  g_free (hoop->id);
  g_free (hoop->name);
  g_clear_pointer (&hoop->unknown, hw_unknown_unref);
  g_free (hoop);
}

HwMotif *
hw_motif_new (void)
{
  HwMotif *motif = g_new0 (HwMotif, 1);

  g_atomic_ref_count_init (&motif->ref_count);
  motif->placement.scale = 1;
  return motif;
}

HwMotif *
hw_motif_copy (const HwMotif *motif)
{
  HwMotif *copy;

  g_return_val_if_fail (motif != NULL, NULL);

  copy = hw_motif_new ();
  copy->id = g_strdup (motif->id);
  copy->name = g_strdup (motif->name);
  copy->outline = motif->outline != NULL ? hw_outline_ref (motif->outline) : NULL;
  copy->placement = motif->placement;
  hw_motif_set_threads (copy, motif->threads, motif->n_threads);
  copy->artwork = g_strdup (motif->artwork);
  copy->artwork_kind = g_strdup (motif->artwork_kind);
  copy->artwork_page = motif->artwork_page;
  copy->artwork_pixels_per_mm = motif->artwork_pixels_per_mm;
  copy->picture = motif->picture != NULL ? hw_picture_ref (motif->picture) : NULL;
  copy->picture_pixels_per_mm = motif->picture_pixels_per_mm;
  copy->needles = motif->needles != NULL ? hw_needle_list_ref (motif->needles) : NULL;
  copy->artwork_trouble = g_strdup (motif->artwork_trouble);
  copy->artwork_awaited = motif->artwork_awaited;
  copy->outline_repaired = motif->outline_repaired;
  copy->before = g_strdupv (motif->before);
  copy->locked = motif->locked;
  copy->note = g_strdup (motif->note);
  copy->unknown = hw_unknown_ref (motif->unknown);
  return copy;
}

HwMotif *
hw_motif_ref (const HwMotif *motif)
{
  HwMotif *shared = (HwMotif *)motif;

  g_return_val_if_fail (motif != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

static void
free_threads (HwThreadBlock *threads, guint n_threads)
{
  for (guint i = 0; i < n_threads; i++)
    {
      g_free (threads[i].name);
      g_clear_pointer (&threads[i].unknown, hw_unknown_unref);
    }
  g_free (threads);
}

void
hw_motif_unref (HwMotif *motif)
{
  g_return_if_fail (motif != NULL);

  if (!g_atomic_ref_count_dec (&motif->ref_count))
    return;
  g_free (motif->id);
  g_free (motif->name);
  g_clear_pointer (&motif->outline, hw_outline_unref);
  free_threads (motif->threads, motif->n_threads);
  g_free (motif->artwork);
  g_free (motif->artwork_kind);
  g_clear_pointer (&motif->needles, hw_needle_list_unref);
  g_clear_pointer (&motif->picture, hw_picture_unref);
  g_free (motif->artwork_trouble);
  g_strfreev (motif->before);
  g_free (motif->note);
  g_clear_pointer (&motif->unknown, hw_unknown_unref);
  g_free (motif);
}

guint
hw_motif_stitches (const HwMotif *motif)
{
  guint64 sum = 0;

  g_return_val_if_fail (motif != NULL, 0);

  for (guint i = 0; i < motif->n_threads; i++)
    sum += motif->threads[i].stitches;
  return (guint)MIN (sum, G_MAXUINT);
}

void
hw_motif_set_threads (HwMotif *motif, const HwThreadBlock *threads, guint n_threads)
{
  HwThreadBlock *copies = NULL;

  g_return_if_fail (motif != NULL);
  g_return_if_fail (threads != NULL || n_threads == 0);

  if (n_threads > 0)
    copies = g_new0 (HwThreadBlock, n_threads);
  for (guint i = 0; i < n_threads; i++)
    {
      copies[i] = threads[i];
      copies[i].name = g_strdup (threads[i].name);
      copies[i].unknown = hw_unknown_ref (threads[i].unknown);
    }
  free_threads (motif->threads, motif->n_threads);
  motif->threads = copies;
  motif->n_threads = n_threads;
}

HwPin *
hw_pin_new (void)
{
  HwPin *pin = g_new0 (HwPin, 1);

  g_atomic_ref_count_init (&pin->ref_count);
  return pin;
}

HwPin *
hw_pin_copy (const HwPin *pin)
{
  HwPin *copy;

  g_return_val_if_fail (pin != NULL, NULL);

  copy = hw_pin_new ();
  copy->keep = pin->keep;
  copy->hoop = g_strdup (pin->hoop);
  copy->centre = pin->centre;
  copy->angle = pin->angle;
  copy->motifs = g_strdupv (pin->motifs);
  hw_pin_set_turns (copy, pin->turns, pin->n_turns);
  copy->marks = g_memdup2 (pin->marks, pin->n_marks * sizeof (HwMark));
  copy->n_marks = pin->n_marks;
  copy->work = pin->work != NULL ? hw_work_ref (pin->work) : NULL;
  copy->unknown = hw_unknown_ref (pin->unknown);
  return copy;
}

HwPin *
hw_pin_ref (const HwPin *pin)
{
  HwPin *shared = (HwPin *)pin;

  g_return_val_if_fail (pin != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_pin_unref (HwPin *pin)
{
  g_return_if_fail (pin != NULL);

  if (!g_atomic_ref_count_dec (&pin->ref_count))
    return;
  g_free (pin->hoop);
  g_strfreev (pin->motifs);
  g_free (pin->turns);
  g_free (pin->marks);
  g_clear_pointer (&pin->work, hw_work_unref);
  g_clear_pointer (&pin->unknown, hw_unknown_unref);
  g_free (pin);
}

gboolean
hw_thread_same (const HwThreadBlock *a, const HwThreadBlock *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return g_strcmp0 (a->name, b->name) == 0 && hw_colour_equal (a->colour, b->colour);
}
