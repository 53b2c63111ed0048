/* Snapshots of the scene and the way back: undo, redo and opening a file all end here. Live objects are kept by id, so that
 * whoever watches one goes on watching it. */
#include "record-compare.h"
#include "scene-private.h"

static HwSnapshot *
make_snapshot (HwScene *self)
{
  HwSnapshot *snapshot = hw_snapshot_new ();

  g_free (snapshot->name);
  snapshot->name = g_strdup (self->name);
  snapshot->fabric = self->fabric;
  snapshot->machine = self->machine;
  snapshot->wishes = self->wishes;
  snapshot->supplies = self->supplies;
  hw_unknown_ref (self->fabric.unknown);
  hw_unknown_ref (self->machine.unknown);
  hw_unknown_ref (self->wishes.unknown);
  hw_unknown_ref (self->supplies.unknown);
  snapshot->unknown = hw_unknown_ref (self->unknown);
  hw_edge_line_unref (snapshot->edge_line);
  snapshot->edge_line = hw_edge_line_ref (self->edge_line);
  for (guint i = 0; i < hw_item_list_length (self->hoops); i++)
    g_ptr_array_add (snapshot->hoops, hw_hoop_ref (hw_scene_hoop_get_record (hoop_at (self, i))));
  for (guint i = 0; i < hw_item_list_length (self->motifs); i++)
    g_ptr_array_add (snapshot->motifs, hw_motif_ref (hw_scene_motif_get_record (motif_at (self, i))));
  g_ptr_array_unref (snapshot->pins);
  snapshot->pins = hw_scene_copy_pins (self->pins);
  g_ptr_array_unref (snapshot->frozen);
  snapshot->frozen = hw_scene_copy_pins (self->frozen);
  g_ptr_array_unref (snapshot->apart);
  snapshot->apart = g_ptr_array_ref (self->apart);
  g_ptr_array_unref (snapshot->held_marks);
  snapshot->held_marks = g_ptr_array_ref (self->held_marks);
  g_ptr_array_unref (snapshot->log);
  snapshot->log = g_ptr_array_ref (self->log);
  g_ptr_array_unref (snapshot->photos);
  snapshot->photos = g_ptr_array_ref (self->photos);
  snapshot->photo_shown = self->photo_shown;
  snapshot->photo_fade = self->photo_fade;
  g_ptr_array_unref (snapshot->palette);
  snapshot->palette = g_ptr_array_ref (self->palette);
  g_ptr_array_unref (snapshot->parts);
  snapshot->parts = g_ptr_array_ref (self->parts);
  return snapshot;
}

HwSnapshot *
hw_scene_snapshot (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  if (self->snapshot == NULL)
    self->snapshot = make_snapshot (self);
  return hw_snapshot_ref (self->snapshot);
}

/* The items of a list now, each with a reference. */
static GPtrArray *
items_of (HwItemList *list)
{
  GPtrArray *items = g_ptr_array_new_full (hw_item_list_length (list), g_object_unref);

  for (guint i = 0; i < hw_item_list_length (list); i++)
    g_ptr_array_add (items, g_object_ref (hw_item_list_peek (list, i)));
  return items;
}

static gboolean
same_items (GPtrArray *a, GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      if (a->pdata[i] != b->pdata[i])
        return FALSE;
    }
  return TRUE;
}

/* The live motifs a snapshot asks for: those already there by id, new ones for the rest. What goes is left in by_id. */
static GPtrArray *
motifs_for (const HwSnapshot *snapshot, GHashTable *by_id, gboolean *any_new)
{
  GPtrArray *motifs = g_ptr_array_new_full (snapshot->motifs->len, g_object_unref);

  *any_new = FALSE;
  for (guint i = 0; i < snapshot->motifs->len; i++)
    {
      const HwMotif *record = hw_snapshot_motif (snapshot, i);
      HwSceneMotif *motif = g_hash_table_lookup (by_id, record->id);

      if (motif != NULL)
        {
          g_ptr_array_add (motifs, g_object_ref (motif));
          g_hash_table_remove (by_id, record->id);
        }
      else
        {
          g_ptr_array_add (motifs, hw_scene_motif_new (record));
          *any_new = TRUE;
        }
    }
  return motifs;
}

static void
restore_motifs (HwScene *self, const HwSnapshot *snapshot)
{
  g_autoptr (GPtrArray) old = items_of (self->motifs);
  g_autoptr (GPtrArray) motifs = NULL;
  g_autoptr (GHashTable) by_id = g_hash_table_new (g_str_hash, g_str_equal);
  gboolean any_new;

  for (guint i = 0; i < old->len; i++)
    g_hash_table_insert (by_id, hw_scene_motif_get_record (old->pdata[i])->id, old->pdata[i]);
  motifs = motifs_for (snapshot, by_id, &any_new);
  if (!same_items (old, motifs))
    {
      gboolean listed = any_new || old->len != motifs->len;

      for (guint i = 0; i < old->len; i++)
        hw_scene_motif_set_scene (old->pdata[i], NULL);
      for (guint i = 0; i < motifs->len; i++)
        hw_scene_motif_set_scene (motifs->pdata[i], self);
      hw_scene_begin_change (self, HW_SCENE_CHANGE_ORDER | (listed ? HW_SCENE_CHANGE_MOTIF_LIST : 0));
      hw_item_list_assign (self->motifs, motifs);
      hw_scene_end_change (self);
    }
  for (guint i = 0; i < motifs->len; i++)
    hw_scene_motif_set_record (motifs->pdata[i], hw_snapshot_motif (snapshot, i));
}

static HwSceneHoop *
hoop_for (const HwHoop *record, GPtrArray *old, GPtrArray *taken)
{
  for (guint i = 0; i < old->len; i++)
    {
      if (g_strcmp0 (hw_scene_hoop_get_record (old->pdata[i])->id, record->id) == 0
          && !g_ptr_array_find (taken, old->pdata[i], NULL))
        return g_object_ref (old->pdata[i]);
    }
  return hw_scene_hoop_new (record);
}

static void
restore_hoops (HwScene *self, const HwSnapshot *snapshot)
{
  g_autoptr (GPtrArray) old = items_of (self->hoops);
  g_autoptr (GPtrArray) hoops = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < snapshot->hoops->len; i++)
    g_ptr_array_add (hoops, hoop_for (hw_snapshot_hoop (snapshot, i), old, hoops));
  if (!same_items (old, hoops))
    {
      for (guint i = 0; i < old->len; i++)
        hw_scene_hoop_set_scene (old->pdata[i], NULL);
      for (guint i = 0; i < hoops->len; i++)
        hw_scene_hoop_set_scene (hoops->pdata[i], self);
      hw_scene_begin_change (self, HW_SCENE_CHANGE_HOOPS);
      hw_item_list_assign (self->hoops, hoops);
      hw_scene_end_change (self);
    }
  for (guint i = 0; i < hoops->len; i++)
    hw_scene_hoop_set_record (hoops->pdata[i], hw_snapshot_hoop (snapshot, i));
}

/* Whether the scene consists of exactly the snapshot's records, so that the snapshot itself may stand for it. */
static gboolean
is_made_of (HwScene *self, const HwSnapshot *snapshot)
{
  guint n_motifs = hw_item_list_length (self->motifs), n_hoops = hw_item_list_length (self->hoops);

  if (n_motifs != snapshot->motifs->len || n_hoops != snapshot->hoops->len
      || self->edge_line != snapshot->edge_line)
    return FALSE;
  for (guint i = 0; i < n_motifs; i++)
    {
      if (hw_scene_motif_get_record (motif_at (self, i)) != hw_snapshot_motif (snapshot, i))
        return FALSE;
    }
  for (guint i = 0; i < n_hoops; i++)
    {
      if (hw_scene_hoop_get_record (hoop_at (self, i)) != hw_snapshot_hoop (snapshot, i))
        return FALSE;
    }
  return g_strcmp0 (self->name, snapshot->name) == 0
         && hw_fabric_difference (&self->fabric, &snapshot->fabric) == 0
         && hw_machine_difference (&self->machine, &snapshot->machine) == 0
         && hw_wishes_difference (&self->wishes, &snapshot->wishes) == 0
         && hw_supply_facts_difference (&self->supplies, &snapshot->supplies) == 0
         && hw_pins_difference (self->pins, snapshot->pins) == 0
         && hw_pins_difference (self->frozen, snapshot->frozen) == 0
         && hw_apart_difference (self->apart, snapshot->apart) == 0
         && hw_held_marks_difference (self->held_marks, snapshot->held_marks) == 0
         && hw_log_difference (self->log, snapshot->log) == 0
         && hw_photos_difference (self->photos, snapshot->photos) == 0
         && self->photo_shown == snapshot->photo_shown && self->photo_fade == snapshot->photo_fade
         && hw_palette_difference (self->palette, snapshot->palette) == 0
         && hw_parts_difference (self->parts, snapshot->parts) == 0
         && hw_unknown_equal (self->unknown, snapshot->unknown);
}

static void
restore_unknown (HwScene *self, HwUnknown *unknown)
{
  if (hw_unknown_equal (self->unknown, unknown))
    return;
  hw_unknown_unref (self->unknown);
  self->unknown = hw_unknown_ref (unknown);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_WORDS);
  hw_scene_end_change (self);
}

void
hw_scene_restore (HwScene *self, const HwSnapshot *snapshot)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (snapshot != NULL);

  if (self->snapshot == snapshot)
    return;

  hw_scene_hold (self);
  g_object_freeze_notify (G_OBJECT (self));
  g_object_set (self, "name", snapshot->name, NULL);
  hw_scene_set_fabric (self, &snapshot->fabric);
  hw_scene_set_edge_line (self, snapshot->edge_line);
  hw_scene_set_machine (self, &snapshot->machine);
  hw_scene_set_wishes (self, &snapshot->wishes);
  hw_scene_set_supplies (self, &snapshot->supplies);
  restore_unknown (self, snapshot->unknown);
  restore_hoops (self, snapshot);
  restore_motifs (self, snapshot);
  hw_scene_replace_pins (self, &self->pins, snapshot->pins);
  hw_scene_replace_pins (self, &self->frozen, snapshot->frozen);
  hw_scene_set_apart (self, snapshot->apart);
  hw_scene_set_held_marks (self, snapshot->held_marks);
  hw_scene_replace_log (self, snapshot->log);
  hw_scene_set_photos (self, snapshot->photos, snapshot->photo_shown, snapshot->photo_fade);
  hw_scene_set_palette (self, snapshot->palette);
  hw_scene_set_parts (self, snapshot->parts);
  g_object_thaw_notify (G_OBJECT (self));

  if (is_made_of (self, snapshot))
    {
      g_clear_pointer (&self->snapshot, hw_snapshot_unref);
      self->snapshot = hw_snapshot_ref (snapshot);
    }
  hw_scene_release (self);
}
