/* What lies on the cloth and what it is held in: the scene's lists of motifs, back to front, and hoops. */
#include <string.h>

#include "scene-private.h"

HwSceneMotif *
hw_scene_find_motif (HwScene *self, const char *id)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  for (guint i = 0; i < hw_item_list_length (self->motifs); i++)
    {
      if (g_strcmp0 (hw_scene_motif_get_record (motif_at (self, i))->id, id) == 0)
        return motif_at (self, i);
    }
  return NULL;
}

int
hw_scene_index_of (HwScene *self, HwSceneMotif *motif)
{
  g_return_val_if_fail (HW_IS_SCENE (self), -1);

  return hw_item_list_find (self->motifs, motif);
}

void
hw_scene_insert_motif (HwScene *self, guint at, HwSceneMotif *motif)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (HW_IS_SCENE_MOTIF (motif));
  g_return_if_fail (hw_scene_motif_get_scene (motif) == NULL);
  g_return_if_fail (hw_scene_find_motif (self, hw_scene_motif_get_record (motif)->id) == NULL);

  hw_scene_motif_set_scene (motif, self);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_MOTIF_LIST);
  hw_item_list_insert (self->motifs, MIN (at, hw_item_list_length (self->motifs)), motif);
  hw_scene_end_change (self);
}

static gboolean
names (char **ids, const char *id)
{
  return ids != NULL && g_strv_contains ((const char *const *)ids, id);
}

/* A copy of ids without id. Returns: (nullable): NULL when nothing is left */
static char **
without (char **ids, const char *id)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  gboolean any = FALSE;

  for (char **other = ids; *other != NULL; other++)
    {
      if (strcmp (*other, id) == 0)
        continue;
      g_strv_builder_add (builder, *other);
      any = TRUE;
    }
  return any ? g_strv_builder_end (builder) : NULL;
}

static void
drop_ties_to (HwScene *self, const char *id)
{
  for (guint i = 0; i < hw_item_list_length (self->motifs); i++)
    {
      HwSceneMotif *motif = motif_at (self, i);
      const HwMotif *record = hw_scene_motif_get_record (motif);
      g_autoptr (HwMotif) untied = NULL;

      if (!names (record->before, id))
        continue;
      untied = hw_motif_copy (record);
      g_strfreev (untied->before);
      untied->before = without (record->before, id);
      hw_scene_motif_set_record (motif, untied);
    }
}

/* The pin without the motif; NULL where none is left. Returns: (transfer full) (nullable) */
static HwPin *
pin_without (HwScene *self, const HwPin *pin, const char *id)
{
  guint n = g_strv_length (pin->motifs), place = 0;
  g_autofree guint *n_threads = g_new0 (guint, n + 1);

  for (guint k = 0; k < n; k++)
    {
      HwSceneMotif *motif = hw_scene_find_motif (self, pin->motifs[k]);

      n_threads[k] = motif != NULL ? hw_scene_motif_get_record (motif)->n_threads : 0;
      if (strcmp (pin->motifs[k], id) == 0)
        place = k;
    }
  return hw_pin_without (pin, place, n_threads);
}

static void
drop_from_pins (HwScene *self, const char *id)
{
  g_autoptr (GPtrArray) pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  for (guint i = 0; i < self->pins->len; i++)
    {
      const HwPin *pin = self->pins->pdata[i];
      g_autoptr (HwPin) smaller = NULL;

      if (!names (pin->motifs, id))
        {
          g_ptr_array_add (pins, hw_pin_ref (pin));
          continue;
        }
      smaller = pin_without (self, pin, id);
      if (smaller != NULL)
        g_ptr_array_add (pins, g_steal_pointer (&smaller));
    }
  hw_scene_set_pins (self, pins);
}

static void
drop_from_apart (HwScene *self, const char *id)
{
  g_autoptr (GPtrArray) apart = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);

  for (guint i = 0; i < self->apart->len; i++)
    {
      if (!hw_apart_names (self->apart->pdata[i], id))
        g_ptr_array_add (apart, hw_apart_ref (self->apart->pdata[i]));
    }
  hw_scene_set_apart (self, apart);
}

static void
drop_held_marks_of (HwScene *self, const char *id)
{
  g_autoptr (GPtrArray) marks = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_held_mark_unref);

  for (guint i = 0; i < self->held_marks->len; i++)
    {
      const HwHeldMark *mark = self->held_marks->pdata[i];

      if (strcmp (mark->motif, id) != 0)
        g_ptr_array_add (marks, hw_held_mark_ref (mark));
    }
  hw_scene_set_held_marks (self, marks);
}

gboolean
hw_scene_remove_motif (HwScene *self, HwSceneMotif *motif)
{
  g_autofree char *id = NULL;
  int at;

  g_return_val_if_fail (HW_IS_SCENE (self), FALSE);
  g_return_val_if_fail (HW_IS_SCENE_MOTIF (motif), FALSE);
  at = hw_item_list_find (self->motifs, motif);
  g_return_val_if_fail (at >= 0, FALSE);

  id = g_strdup (hw_scene_motif_get_record (motif)->id);
  for (guint i = 0; i < self->frozen->len; i++)
    {
      if (names (((const HwPin *)self->frozen->pdata[i])->motifs, id))
        return FALSE;
    }

  hw_scene_begin_change (self, HW_SCENE_CHANGE_MOTIF_LIST);
  drop_ties_to (self, id);
  drop_from_pins (self, id);
  drop_from_apart (self, id);
  drop_held_marks_of (self, id);
  hw_scene_drop_from_parts (self, id);
  hw_scene_motif_set_scene (motif, NULL);
  hw_item_list_remove (self->motifs, (guint)at);
  hw_scene_end_change (self);
  return TRUE;
}

void
hw_scene_move_motif (HwScene *self, guint from, guint to)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (from < hw_item_list_length (self->motifs));
  g_return_if_fail (to < hw_item_list_length (self->motifs));

  if (from == to)
    return;
  hw_scene_begin_change (self, HW_SCENE_CHANGE_ORDER);
  hw_item_list_move (self->motifs, from, to);
  hw_scene_end_change (self);
}

/* The number in an id of one letter and a number, else 0. */
static guint64
number_in (const char *id, char letter)
{
  guint64 number;

  if (id == NULL || id[0] != letter
      || !g_ascii_string_to_unsigned (id + 1, 10, 0, G_MAXUINT32, &number, NULL))
    return 0;
  return number;
}

/* One more than the highest, so that an id taken off the table does not come back as something else. */
char *
hw_scene_free_id (HwScene *self)
{
  guint64 highest = 0;

  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  for (guint i = 0; i < hw_item_list_length (self->motifs); i++)
    highest = MAX (highest, number_in (hw_scene_motif_get_record (motif_at (self, i))->id, 'm'));
  return g_strdup_printf ("m%" G_GUINT64_FORMAT, highest + 1);
}

char *
hw_scene_free_hoop_id (HwScene *self)
{
  guint64 highest = 0;

  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  for (guint i = 0; i < hw_item_list_length (self->hoops); i++)
    highest = MAX (highest, number_in (hw_scene_hoop_get_record (hoop_at (self, i))->id, 'h'));
  return g_strdup_printf ("h%" G_GUINT64_FORMAT, highest + 1);
}

void
hw_scene_add_hoop (HwScene *self, HwSceneHoop *hoop)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (HW_IS_SCENE_HOOP (hoop));
  g_return_if_fail (hw_scene_hoop_get_scene (hoop) == NULL);

  hw_scene_hoop_set_scene (hoop, self);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_HOOPS);
  hw_item_list_insert (self->hoops, hw_item_list_length (self->hoops), hoop);
  hw_scene_end_change (self);
}

/* The pins without the hoop: those held in it go, those that leave the hoop free forget it. */
static void
drop_hoop_from_pins (HwScene *self, const char *id)
{
  g_autoptr (GPtrArray) pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);

  for (guint i = 0; i < self->pins->len; i++)
    {
      const HwPin *pin = self->pins->pdata[i];
      HwPin *freed;

      if (g_strcmp0 (pin->hoop, id) != 0)
        {
          g_ptr_array_add (pins, hw_pin_ref (pin));
          continue;
        }
      if (pin->keep == HW_KEEP_ALL)
        continue;
      freed = hw_pin_copy (pin);
      g_clear_pointer (&freed->hoop, g_free);
      g_ptr_array_add (pins, freed);
    }
  hw_scene_set_pins (self, pins);
}

gboolean
hw_scene_remove_hoop (HwScene *self, HwSceneHoop *hoop)
{
  g_autofree char *id = NULL;
  int at;

  g_return_val_if_fail (HW_IS_SCENE (self), FALSE);
  g_return_val_if_fail (HW_IS_SCENE_HOOP (hoop), FALSE);
  at = hw_item_list_find (self->hoops, hoop);
  g_return_val_if_fail (at >= 0, FALSE);

  id = g_strdup (hw_scene_hoop_get_record (hoop)->id);
  for (guint i = 0; i < self->frozen->len; i++)
    {
      if (g_strcmp0 (((const HwPin *)self->frozen->pdata[i])->hoop, id) == 0)
        return FALSE;
    }

  hw_scene_begin_change (self, HW_SCENE_CHANGE_HOOPS);
  drop_hoop_from_pins (self, id);
  hw_scene_hoop_set_scene (hoop, NULL);
  hw_item_list_remove (self->hoops, (guint)at);
  hw_scene_end_change (self);
  return TRUE;
}
