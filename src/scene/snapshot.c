/* A whole scene at one moment. The lists are new for each snapshot, the records in them are shared. */
#include "snapshot.h"

#include "record-compare.h"

HwSnapshot *
hw_snapshot_new (void)
{
  HwSnapshot *snapshot = g_new0 (HwSnapshot, 1);

  g_atomic_ref_count_init (&snapshot->ref_count);
  snapshot->name = g_strdup ("");
  snapshot->fabric.width = 700;
  snapshot->fabric.height = 540;
  hw_colour_parse ("#d8cbb0", &snapshot->fabric.colour);
  snapshot->fabric.hold = HW_HOLD_FLOATED;
  snapshot->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 40, 40, 660, 500 }, 0, 2);
  snapshot->hoops = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);
  snapshot->motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);
  hw_machine_set_defaults (&snapshot->machine);
  hw_wishes_set_defaults (&snapshot->wishes);
  hw_supply_facts_set_defaults (&snapshot->supplies);
  snapshot->pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
  snapshot->frozen = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
  snapshot->apart = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);
  snapshot->held_marks = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_held_mark_unref);
  snapshot->log = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_log_line_unref);
  snapshot->photos = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_photo_unref);
  snapshot->photo_shown = -1;
  snapshot->palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);
  snapshot->parts = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_part_unref);
  return snapshot;
}

static void
share_all (GPtrArray *to, GPtrArray *from, gpointer (*ref) (gconstpointer))
{
  for (guint i = 0; i < from->len; i++)
    g_ptr_array_add (to, ref (from->pdata[i]));
}

static gpointer
ref_hoop (gconstpointer hoop)
{
  return hw_hoop_ref (hoop);
}

static gpointer
ref_motif (gconstpointer motif)
{
  return hw_motif_ref (motif);
}

static gpointer
ref_pin (gconstpointer pin)
{
  return hw_pin_ref (pin);
}

static gpointer
ref_apart (gconstpointer apart)
{
  return hw_apart_ref (apart);
}

static gpointer
ref_held_mark (gconstpointer mark)
{
  return hw_held_mark_ref (mark);
}

static gpointer
ref_log_line (gconstpointer line)
{
  return hw_log_line_ref (line);
}

static gpointer
ref_photo (gconstpointer photo)
{
  return hw_photo_ref (photo);
}

static gpointer
ref_palette_thread (gconstpointer thread)
{
  return hw_palette_thread_ref (thread);
}

static gpointer
ref_part (gconstpointer part)
{
  return hw_part_ref (part);
}

/* Photographs, threads at hand, parts. */
static void
share_belongings (HwSnapshot *copy, const HwSnapshot *snapshot)
{
  copy->photos = g_ptr_array_new_full (snapshot->photos->len, (GDestroyNotify)hw_photo_unref);
  copy->photo_shown = snapshot->photo_shown;
  copy->photo_fade = snapshot->photo_fade;
  copy->palette = g_ptr_array_new_full (snapshot->palette->len, (GDestroyNotify)hw_palette_thread_unref);
  copy->parts = g_ptr_array_new_full (snapshot->parts->len, (GDestroyNotify)hw_part_unref);
  share_all (copy->photos, snapshot->photos, ref_photo);
  share_all (copy->palette, snapshot->palette, ref_palette_thread);
  share_all (copy->parts, snapshot->parts, ref_part);
}

HwSnapshot *
hw_snapshot_copy (const HwSnapshot *snapshot)
{
  HwSnapshot *copy;

  g_return_val_if_fail (snapshot != NULL, NULL);

  copy = g_new0 (HwSnapshot, 1);
  g_atomic_ref_count_init (&copy->ref_count);
  copy->name = g_strdup (snapshot->name);
  copy->fabric = snapshot->fabric;
  copy->machine = snapshot->machine;
  copy->wishes = snapshot->wishes;
  copy->supplies = snapshot->supplies;
  hw_unknown_ref (copy->fabric.unknown);
  hw_unknown_ref (copy->machine.unknown);
  hw_unknown_ref (copy->wishes.unknown);
  hw_unknown_ref (copy->supplies.unknown);
  copy->unknown = hw_unknown_ref (snapshot->unknown);
  copy->newer_version = snapshot->newer_version;
  copy->edge_line = snapshot->edge_line != NULL ? hw_edge_line_ref (snapshot->edge_line) : NULL;
  copy->hoops = g_ptr_array_new_full (snapshot->hoops->len, (GDestroyNotify)hw_hoop_unref);
  copy->motifs = g_ptr_array_new_full (snapshot->motifs->len, (GDestroyNotify)hw_motif_unref);
  copy->pins = g_ptr_array_new_full (snapshot->pins->len, (GDestroyNotify)hw_pin_unref);
  copy->frozen = g_ptr_array_new_full (snapshot->frozen->len, (GDestroyNotify)hw_pin_unref);
  copy->apart = g_ptr_array_new_full (snapshot->apart->len, (GDestroyNotify)hw_apart_unref);
  copy->held_marks = g_ptr_array_new_full (snapshot->held_marks->len, (GDestroyNotify)hw_held_mark_unref);
  copy->log = g_ptr_array_new_full (snapshot->log->len, (GDestroyNotify)hw_log_line_unref);
  share_all (copy->hoops, snapshot->hoops, ref_hoop);
  share_all (copy->motifs, snapshot->motifs, ref_motif);
  share_all (copy->pins, snapshot->pins, ref_pin);
  share_all (copy->frozen, snapshot->frozen, ref_pin);
  share_all (copy->apart, snapshot->apart, ref_apart);
  share_all (copy->held_marks, snapshot->held_marks, ref_held_mark);
  share_all (copy->log, snapshot->log, ref_log_line);
  share_belongings (copy, snapshot);
  return copy;
}

HwSnapshot *
hw_snapshot_ref (const HwSnapshot *snapshot)
{
  HwSnapshot *shared = (HwSnapshot *)snapshot;

  g_return_val_if_fail (snapshot != NULL, NULL);

  g_atomic_ref_count_inc (&shared->ref_count);
  return shared;
}

void
hw_snapshot_unref (HwSnapshot *snapshot)
{
  g_return_if_fail (snapshot != NULL);

  if (!g_atomic_ref_count_dec (&snapshot->ref_count))
    return;
  g_free (snapshot->name);
  g_clear_pointer (&snapshot->fabric.unknown, hw_unknown_unref);
  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  g_ptr_array_unref (snapshot->hoops);
  g_ptr_array_unref (snapshot->motifs);
  g_clear_pointer (&snapshot->machine.unknown, hw_unknown_unref);
  g_clear_pointer (&snapshot->wishes.unknown, hw_unknown_unref);
  g_clear_pointer (&snapshot->supplies.unknown, hw_unknown_unref);
  g_ptr_array_unref (snapshot->pins);
  g_ptr_array_unref (snapshot->frozen);
  g_ptr_array_unref (snapshot->apart);
  g_ptr_array_unref (snapshot->held_marks);
  g_ptr_array_unref (snapshot->log);
  g_ptr_array_unref (snapshot->photos);
  g_ptr_array_unref (snapshot->palette);
  g_ptr_array_unref (snapshot->parts);
  g_clear_pointer (&snapshot->unknown, hw_unknown_unref);
  g_free (snapshot);
}

int
hw_snapshot_find_motif (const HwSnapshot *snapshot, const char *id)
{
  g_return_val_if_fail (snapshot != NULL, -1);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      if (g_strcmp0 (hw_snapshot_motif (snapshot, i)->id, id) == 0)
        return (int)i;
    }
  return -1;
}

int
hw_snapshot_find_hoop (const HwSnapshot *snapshot, const char *id)
{
  g_return_val_if_fail (snapshot != NULL, -1);

  for (guint i = 0; i < snapshot->hoops->len; i++)
    {
      if (g_strcmp0 (hw_snapshot_hoop (snapshot, i)->id, id) == 0)
        return (int)i;
    }
  return -1;
}

gboolean
hw_snapshot_awaits_artwork (const HwSnapshot *snapshot)
{
  g_return_val_if_fail (snapshot != NULL, FALSE);

  for (guint i = 0; i < snapshot->motifs->len; i++)
    if (hw_snapshot_motif (snapshot, i)->artwork_awaited)
      return TRUE;
  return FALSE;
}

/* Cloth, wishes and everything that is a list of small records. */
static guint
difference_around (const HwSnapshot *a, const HwSnapshot *b)
{
  guint changes
      = hw_fabric_difference (&a->fabric, &b->fabric) | hw_edge_line_difference (a->edge_line, b->edge_line)
        | hw_machine_difference (&a->machine, &b->machine) | hw_wishes_difference (&a->wishes, &b->wishes)
        | hw_pins_difference (a->pins, b->pins) | hw_pins_difference (a->frozen, b->frozen)
        | hw_apart_difference (a->apart, b->apart) | hw_held_marks_difference (a->held_marks, b->held_marks)
        | hw_log_difference (a->log, b->log) | hw_photos_difference (a->photos, b->photos)
        | hw_palette_difference (a->palette, b->palette) | hw_parts_difference (a->parts, b->parts)
        | hw_supply_facts_difference (&a->supplies, &b->supplies);

  if (a->photo_shown != b->photo_shown || a->photo_fade != b->photo_fade)
    changes |= HW_SCENE_CHANGE_PHOTOS;
  if (g_strcmp0 (a->name, b->name) != 0 || !hw_unknown_equal (a->unknown, b->unknown))
    changes |= HW_SCENE_CHANGE_WORDS;
  return changes;
}

guint
hw_snapshot_difference (const HwSnapshot *a, const HwSnapshot *b)
{
  guint changes;

  g_return_val_if_fail (a != NULL && b != NULL, HW_SCENE_CHANGE_ALL);

  if (a == b)
    return 0;
  changes = difference_around (a, b);
  if (a->hoops->len != b->hoops->len)
    changes |= HW_SCENE_CHANGE_HOOPS;
  if (a->motifs->len != b->motifs->len)
    changes |= HW_SCENE_CHANGE_MOTIF_LIST;
  for (guint i = 0; i < MIN (a->hoops->len, b->hoops->len); i++)
    changes |= hw_hoop_difference (a->hoops->pdata[i], b->hoops->pdata[i]);
  for (guint i = 0; i < MIN (a->motifs->len, b->motifs->len); i++)
    changes |= hw_motif_difference (a->motifs->pdata[i], b->motifs->pdata[i]);
  return changes;
}

gboolean
hw_snapshot_equal (const HwSnapshot *a, const HwSnapshot *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return a->motifs->len == b->motifs->len && a->hoops->len == b->hoops->len
         && hw_snapshot_difference (a, b) == 0;
}
