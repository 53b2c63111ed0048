/* What the scene brings along beside motifs and hoops: photographs of the cloth, the threads at hand, the parts it is divided into. */
#include <string.h>

#include "record-compare.h"
#include "scene-private.h"

static gpointer
ref_photo (gconstpointer photo, gpointer data)
{
  return hw_photo_ref (photo);
}

static gpointer
ref_thread (gconstpointer thread, gpointer data)
{
  return hw_palette_thread_ref (thread);
}

static gpointer
ref_part (gconstpointer part, gpointer data)
{
  return hw_part_ref (part);
}

/* Puts a list of its own into *place. */
static void
replace (GPtrArray **place, GPtrArray *list, GCopyFunc ref, GDestroyNotify unref)
{
  g_autoptr (GPtrArray) old = *place;

  *place = g_ptr_array_new_full (list->len, unref);
  for (guint i = 0; i < list->len; i++)
    g_ptr_array_add (*place, ref (list->pdata[i], NULL));
}

GPtrArray *
hw_scene_get_photos (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->photos;
}

int
hw_scene_get_photo_shown (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), -1);

  return self->photo_shown;
}

double
hw_scene_get_photo_fade (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), 0);

  return self->photo_fade;
}

void
hw_scene_set_photos (HwScene *self, GPtrArray *photos, int shown, double fade)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (photos != NULL);

  shown = CLAMP (shown, -1, (int)photos->len - 1);
  fade = CLAMP (fade, 0.0, 1.0);
  if (hw_photos_difference (self->photos, photos) == 0 && shown == self->photo_shown
      && fade == self->photo_fade)
    return;
  replace (&self->photos, photos, (GCopyFunc)ref_photo, (GDestroyNotify)hw_photo_unref);
  self->photo_shown = shown;
  self->photo_fade = fade;
  hw_scene_begin_change (self, HW_SCENE_CHANGE_PHOTOS);
  hw_scene_end_change (self);
}

void
hw_scene_show_photo (HwScene *self, int shown)
{
  g_return_if_fail (HW_IS_SCENE (self));

  hw_scene_set_photos (self, self->photos, shown, self->photo_fade);
}

void
hw_scene_set_photo_fade (HwScene *self, double fade)
{
  g_return_if_fail (HW_IS_SCENE (self));

  hw_scene_set_photos (self, self->photos, self->photo_shown, fade);
}

GPtrArray *
hw_scene_get_palette (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->palette;
}

void
hw_scene_set_palette (HwScene *self, GPtrArray *palette)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (palette != NULL);

  if (hw_palette_difference (self->palette, palette) == 0)
    return;
  replace (&self->palette, palette, (GCopyFunc)ref_thread, (GDestroyNotify)hw_palette_thread_unref);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_PALETTE);
  hw_scene_end_change (self);
}

GPtrArray *
hw_scene_get_parts (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->parts;
}

void
hw_scene_set_parts (HwScene *self, GPtrArray *parts)
{
  guint changes;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (parts != NULL);

  changes = hw_parts_difference (self->parts, parts);
  if (changes == 0)
    return;
  replace (&self->parts, parts, (GCopyFunc)ref_part, (GDestroyNotify)hw_part_unref);
  hw_scene_begin_change (self, changes);
  hw_scene_end_change (self);
}

void
hw_scene_drop_from_parts (HwScene *self, const char *id)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_part_unref);

  for (guint i = 0; i < self->parts->len; i++)
    {
      const HwPart *part = self->parts->pdata[i];
      g_autoptr (GStrvBuilder) left = g_strv_builder_new ();
      g_auto (GStrv) motifs = NULL;
      HwPart *smaller;

      for (char **motif = part->motifs; *motif != NULL; motif++)
        {
          if (strcmp (*motif, id) != 0)
            g_strv_builder_add (left, *motif);
        }
      motifs = g_strv_builder_end (left);
      smaller = hw_part_new (part->name, (const char *const *)motifs);
      smaller->unknown = hw_unknown_ref (part->unknown);
      g_ptr_array_add (parts, smaller);
    }
  hw_scene_set_parts (self, parts);
}
