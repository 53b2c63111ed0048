/* What differs between two records: pointers first, since unchanged things are shared, then field by field. */
#include "record-compare.h"

#include <string.h>

static gboolean
strings_equal (char **a, char **b)
{
  static const char *const none[] = { NULL };

  return g_strv_equal (a != NULL ? (const char *const *)a : none, b != NULL ? (const char *const *)b : none);
}

static gboolean
outlines_equal (const HwOutline *a, const HwOutline *b)
{
  return a == b || (a != NULL && b != NULL && hw_outline_equal (a, b));
}

guint
hw_fabric_difference (const HwFabric *a, const HwFabric *b)
{
  gboolean same = a->width == b->width && a->height == b->height && hw_colour_equal (a->colour, b->colour)
                  && a->hold == b->hold && hw_unknown_equal (a->unknown, b->unknown);

  return same ? 0 : HW_SCENE_CHANGE_FABRIC;
}

guint
hw_edge_line_difference (const HwEdgeLine *a, const HwEdgeLine *b)
{
  gboolean same;

  if (a == b)
    return 0;
  if (a == NULL || b == NULL)
    return HW_SCENE_CHANGE_EDGE_LINE;
  same = a->shape == b->shape && a->corner_radius == b->corner_radius && a->margin == b->margin
         && outlines_equal (a->outline, b->outline) && hw_unknown_equal (a->unknown, b->unknown);
  return same ? 0 : HW_SCENE_CHANGE_EDGE_LINE;
}

guint
hw_hoop_difference (const HwHoop *a, const HwHoop *b)
{
  gboolean same;

  if (a == b)
    return 0;
  same = g_strcmp0 (a->id, b->id) == 0 && g_strcmp0 (a->name, b->name) == 0
         && a->field_width == b->field_width && a->field_height == b->field_height
         && a->frame_width == b->frame_width && a->frame_height == b->frame_height
         && a->clearance == b->clearance && a->turn == b->turn && a->set_aside == b->set_aside
         && hw_unknown_equal (a->unknown, b->unknown);
  return same ? 0 : HW_SCENE_CHANGE_HOOPS;
}

static gboolean
pictures_equal (const HwPicture *a, const HwPicture *b)
{
  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL || a->width != b->width || a->height != b->height)
    return FALSE;
  for (guint y = 0; y < a->height; y++)
    {
      if (memcmp (a->pixels + y * a->stride, b->pixels + y * b->stride, (gsize)a->width * 4) != 0)
        return FALSE;
    }
  return TRUE;
}

static gboolean
threads_equal (const HwMotif *a, const HwMotif *b)
{
  if (a->n_threads != b->n_threads)
    return FALSE;
  for (guint i = 0; i < a->n_threads; i++)
    {
      if (!hw_thread_same (&a->threads[i], &b->threads[i]) || a->threads[i].stitches != b->threads[i].stitches
          || !hw_unknown_equal (a->threads[i].unknown, b->threads[i].unknown))
        return FALSE;
    }
  return TRUE;
}

guint
hw_motif_difference (const HwMotif *a, const HwMotif *b)
{
  guint changes = 0;

  if (a == b)
    return 0;
  if (g_strcmp0 (a->id, b->id) != 0)
    changes |= HW_SCENE_CHANGE_MOTIF_LIST;
  if (!hw_placement_equal (&a->placement, &b->placement))
    changes |= HW_SCENE_CHANGE_PLACEMENT;
  if (!outlines_equal (a->outline, b->outline) || a->outline_repaired != b->outline_repaired
      || g_strcmp0 (a->artwork, b->artwork) != 0 || g_strcmp0 (a->artwork_kind, b->artwork_kind) != 0
      || g_strcmp0 (a->artwork_trouble, b->artwork_trouble) != 0 || a->artwork_page != b->artwork_page
      || a->artwork_pixels_per_mm != b->artwork_pixels_per_mm
      || !hw_needle_list_equal (a->needles, b->needles)
      || a->picture_pixels_per_mm != b->picture_pixels_per_mm || !pictures_equal (a->picture, b->picture))
    changes |= HW_SCENE_CHANGE_ARTWORK;
  if (!threads_equal (a, b))
    changes |= HW_SCENE_CHANGE_THREADS;
  if (!strings_equal (a->before, b->before))
    changes |= HW_SCENE_CHANGE_ORDER;
  if (g_strcmp0 (a->name, b->name) != 0 || g_strcmp0 (a->note, b->note) != 0 || a->locked != b->locked
      || !hw_unknown_equal (a->unknown, b->unknown))
    changes |= HW_SCENE_CHANGE_WORDS;
  return changes;
}

guint
hw_machine_difference (const HwMachine *a, const HwMachine *b)
{
  gboolean same = a->stitches_per_minute == b->stitches_per_minute && a->turn_step == b->turn_step
                  && a->shift_step == b->shift_step && a->minutes_per_change == b->minutes_per_change
                  && a->minutes_per_hooping == b->minutes_per_hooping
                  && hw_unknown_equal (a->unknown, b->unknown);

  return same ? 0 : HW_SCENE_CHANGE_MACHINE;
}

guint
hw_wishes_difference (const HwWishes *a, const HwWishes *b)
{
  gboolean same = a->best == b->best && a->interleave == b->interleave && a->density_limit == b->density_limit
                  && a->scale_low == b->scale_low && a->scale_high == b->scale_high
                  && a->tolerance == b->tolerance && a->marks == b->marks && a->draw_in == b->draw_in
                  && hw_unknown_equal (a->unknown, b->unknown);

  return same ? 0 : HW_SCENE_CHANGE_MACHINE;
}

guint
hw_supply_facts_difference (const HwSupplyFacts *a, const HwSupplyFacts *b)
{
  gboolean same = a->fabric_thickness == b->fabric_thickness
                  && a->stabiliser_thickness == b->stabiliser_thickness
                  && a->stabiliser_sheets == b->stabiliser_sheets && a->roll_width == b->roll_width
                  && a->reach == b->reach && a->needle_tex == b->needle_tex && a->bobbin_tex == b->bobbin_tex
                  && a->bobbin_share == b->bobbin_share && a->bobbin_metres == b->bobbin_metres
                  && a->bobbin_outer == b->bobbin_outer && a->bobbin_inner == b->bobbin_inner
                  && a->bobbin_width == b->bobbin_width && a->packing == b->packing
                  && a->needle_hours == b->needle_hours && a->needle_stitches == b->needle_stitches
                  && a->beyond_edge == b->beyond_edge && a->beyond_frames == b->beyond_frames
                  && hw_unknown_equal (a->unknown, b->unknown);

  return same ? 0 : HW_SCENE_CHANGE_SUPPLIES;
}

static gboolean
apart_equal (const HwApart *a, const HwApart *b)
{
  return a == b || (g_strcmp0 (a->first, b->first) == 0 && g_strcmp0 (a->second, b->second) == 0);
}

guint
hw_apart_difference (GPtrArray *a, GPtrArray *b)
{
  if (a == b)
    return 0;
  if (a->len != b->len)
    return HW_SCENE_CHANGE_PINS;
  for (guint i = 0; i < a->len; i++)
    {
      if (!apart_equal (a->pdata[i], b->pdata[i]))
        return HW_SCENE_CHANGE_PINS;
    }
  return 0;
}

static gboolean
points_equal (HwPoint a, HwPoint b)
{
  return a.x == b.x && a.y == b.y;
}

static gboolean
marks_equal (const HwPin *a, const HwPin *b)
{
  if (a->n_marks != b->n_marks)
    return FALSE;
  for (guint i = 0; i < a->n_marks; i++)
    {
      if (strcmp (a->marks[i].letter, b->marks[i].letter) != 0
          || !points_equal (a->marks[i].at, b->marks[i].at))
        return FALSE;
    }
  return TRUE;
}

static gboolean
readings_equal (const HwWork *a, const HwWork *b)
{
  if (a->n_readings != b->n_readings)
    return FALSE;
  for (guint i = 0; i < a->n_readings; i++)
    {
      const HwReading *x = &a->readings[i], *y = &b->readings[i];

      if (strcmp (x->letter, y->letter) != 0 || !points_equal (x->design, y->design)
          || !points_equal (x->at, y->at) || !x->left_out != !y->left_out || !x->by_photo != !y->by_photo)
        return FALSE;
    }
  return TRUE;
}

static gboolean
corrections_equal (const HwWork *a, const HwWork *b)
{
  if (!a->corrected || !b->corrected)
    return !a->corrected == !b->corrected;
  return points_equal (a->correction.shift, b->correction.shift) && a->correction.turn == b->correction.turn;
}

static gboolean
work_equal (const HwWork *a, const HwWork *b)
{
  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL || a->step != b->step || a->threads_done != b->threads_done
      || !a->new_bobbin != !b->new_bobbin || (a->new_bobbin && a->bobbin_at != b->bobbin_at)
      || a->begun != b->begun || a->ended != b->ended || !readings_equal (a, b) || !corrections_equal (a, b)
      || !hw_unknown_equal (a->unknown, b->unknown))
    return FALSE;
  for (guint i = 0; i < HW_N_WORK_STEPS; i++)
    {
      if (g_strcmp0 (a->notes[i], b->notes[i]) != 0)
        return FALSE;
    }
  return TRUE;
}

static gboolean
turns_equal (const HwPin *a, const HwPin *b)
{
  if (a->n_turns != b->n_turns)
    return FALSE;
  for (guint i = 0; i < a->n_turns; i++)
    if (a->turns[i].motif != b->turns[i].motif || a->turns[i].threads != b->turns[i].threads)
      return FALSE;
  return TRUE;
}

static guint
pin_difference (const HwPin *a, const HwPin *b)
{
  if (a == b)
    return 0;
  if (!a->work
      != !b->work) /* what goes into the machine or comes out keeps its order from then on, or no more */
    return HW_SCENE_CHANGE_PINS | HW_SCENE_CHANGE_WORK;
  if (a->keep != b->keep || g_strcmp0 (a->hoop, b->hoop) != 0 || !points_equal (a->centre, b->centre)
      || a->angle != b->angle || !strings_equal (a->motifs, b->motifs) || !turns_equal (a, b)
      || !marks_equal (a, b) || !hw_unknown_equal (a->unknown, b->unknown))
    return HW_SCENE_CHANGE_PINS | (work_equal (a->work, b->work) ? 0 : HW_SCENE_CHANGE_WORK);
  return work_equal (a->work, b->work) ? 0 : HW_SCENE_CHANGE_WORK;
}

guint
hw_pins_difference (GPtrArray *a, GPtrArray *b)
{
  guint changes = 0;

  if (a == b)
    return 0;
  if (a->len != b->len)
    return HW_SCENE_CHANGE_PINS;
  for (guint i = 0; i < a->len; i++)
    changes |= pin_difference (a->pdata[i], b->pdata[i]);
  return changes;
}

static gboolean
held_mark_equal (const HwHeldMark *a, const HwHeldMark *b)
{
  return a == b
         || (g_strcmp0 (a->motif, b->motif) == 0 && points_equal (a->at, b->at)
             && hw_unknown_equal (a->unknown, b->unknown));
}

guint
hw_held_marks_difference (GPtrArray *a, GPtrArray *b)
{
  if (a == b)
    return 0;
  if (a->len != b->len)
    return HW_SCENE_CHANGE_PINS;
  for (guint i = 0; i < a->len; i++)
    {
      if (!held_mark_equal (a->pdata[i], b->pdata[i]))
        return HW_SCENE_CHANGE_PINS;
    }
  return 0;
}

static gboolean
log_line_equal (const HwLogLine *a, const HwLogLine *b)
{
  return a == b
         || (a->at == b->at && a->kind == b->kind && g_strcmp0 (a->motif, b->motif) == 0
             && g_strcmp0 (a->text, b->text) == 0 && hw_unknown_equal (a->unknown, b->unknown));
}

/* Lists of records: the same when they are equal place by place. */
static gboolean
lists_equal (GPtrArray *a, GPtrArray *b, gboolean (*equal) (gconstpointer x, gconstpointer y))
{
  if (a == b)
    return TRUE;
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      if (!equal (a->pdata[i], b->pdata[i]))
        return FALSE;
    }
  return TRUE;
}

static gboolean
log_equal (gconstpointer a, gconstpointer b)
{
  return log_line_equal (a, b);
}

static gboolean
photo_equal (gconstpointer a, gconstpointer b)
{
  return hw_photo_equal (a, b);
}

static gboolean
palette_thread_equal (gconstpointer a, gconstpointer b)
{
  return hw_palette_thread_equal (a, b);
}

static gboolean
part_equal (gconstpointer a, gconstpointer b)
{
  return hw_part_equal (a, b);
}

guint
hw_log_difference (GPtrArray *a, GPtrArray *b)
{
  return lists_equal (a, b, log_equal) ? 0 : HW_SCENE_CHANGE_WORK;
}

guint
hw_photos_difference (GPtrArray *a, GPtrArray *b)
{
  return lists_equal (a, b, photo_equal) ? 0 : HW_SCENE_CHANGE_PHOTOS;
}

guint
hw_palette_difference (GPtrArray *a, GPtrArray *b)
{
  return lists_equal (a, b, palette_thread_equal) ? 0 : HW_SCENE_CHANGE_PALETTE;
}

guint
hw_parts_difference (GPtrArray *a, GPtrArray *b)
{
  return lists_equal (a, b, part_equal) ? 0 : HW_SCENE_CHANGE_ORDER;
}
