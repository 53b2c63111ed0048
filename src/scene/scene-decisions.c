/* What the person decided about the plan: pinned hoopings, hoopings already stitched, motifs kept apart, wishes; and what the
 * workroom uses up. */
#include "record-compare.h"
#include "scene-private.h"

GPtrArray *
hw_scene_get_pins (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->pins;
}

GPtrArray *
hw_scene_copy_pins (GPtrArray *pins)
{
  GPtrArray *copy = g_ptr_array_new_full (pins->len, (GDestroyNotify)hw_pin_unref);

  for (guint i = 0; i < pins->len; i++)
    g_ptr_array_add (copy, hw_pin_ref (pins->pdata[i]));
  return copy;
}

void
hw_scene_replace_pins (HwScene *self, GPtrArray **place, GPtrArray *pins)
{
  guint changes = hw_pins_difference (*place, pins);
  g_autoptr (GPtrArray) old = NULL;

  if (changes == 0)
    return;
  old = *place;
  *place = hw_scene_copy_pins (pins);
  hw_scene_begin_change (self, changes);
  hw_scene_end_change (self);
}

/* Whether at most one hooping is in the machine, and that one with its pose. */
static gboolean
machine_takes (GPtrArray *pins)
{
  guint n = 0;

  for (guint i = 0; i < pins->len; i++)
    {
      const HwPin *pin = pins->pdata[i];

      if (pin->work != NULL && (pin->keep != HW_KEEP_ALL || n++ > 0))
        return FALSE;
    }
  return TRUE;
}

void
hw_scene_set_pins (HwScene *self, GPtrArray *pins)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (pins != NULL && machine_takes (pins));

  hw_scene_replace_pins (self, &self->pins, pins);
}

GPtrArray *
hw_scene_get_frozen (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->frozen;
}

void
hw_scene_set_frozen (HwScene *self, GPtrArray *frozen)
{
  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (frozen != NULL);

  hw_scene_replace_pins (self, &self->frozen, frozen);
}

GPtrArray *
hw_scene_get_apart (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return self->apart;
}

void
hw_scene_set_apart (HwScene *self, GPtrArray *apart)
{
  g_autoptr (GPtrArray) old = NULL;
  g_autoptr (GPtrArray) folded = NULL;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (apart != NULL);

  if (hw_apart_difference (self->apart, apart) == 0)
    return;
  folded = hw_apart_fold (apart);
  if (hw_apart_difference (self->apart, folded) == 0)
    return;
  old = self->apart;
  self->apart = g_steal_pointer (&folded);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_PINS);
  hw_scene_end_change (self);
}

const HwWishes *
hw_scene_get_wishes (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return &self->wishes;
}

void
hw_scene_set_wishes (HwScene *self, const HwWishes *wishes)
{
  HwUnknown *old;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (wishes != NULL);

  if (hw_wishes_difference (&self->wishes, wishes) == 0)
    return;
  old = self->wishes.unknown;
  self->wishes = *wishes;
  hw_unknown_ref (self->wishes.unknown);
  hw_unknown_unref (old);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_MACHINE);
  hw_scene_end_change (self);
}

const HwSupplyFacts *
hw_scene_get_supplies (HwScene *self)
{
  g_return_val_if_fail (HW_IS_SCENE (self), NULL);

  return &self->supplies;
}

void
hw_scene_set_supplies (HwScene *self, const HwSupplyFacts *supplies)
{
  HwUnknown *old;

  g_return_if_fail (HW_IS_SCENE (self));
  g_return_if_fail (supplies != NULL);

  if (hw_supply_facts_difference (&self->supplies, supplies) == 0)
    return;
  old = self->supplies.unknown;
  self->supplies = *supplies;
  hw_unknown_ref (self->supplies.unknown);
  hw_unknown_unref (old);
  hw_scene_begin_change (self, HW_SCENE_CHANGE_SUPPLIES);
  hw_scene_end_change (self);
}
