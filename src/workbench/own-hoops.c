/* The person's own hoops in the settings: name, field, frame, clearance, whether it may be turned to any angle. */
#include "own-hoops.h"

#include "../geometry/one-line.h"
#include "../scene/limits.h"
#include "settings.h"

#define KEY "own-hoops"
#define FORM "a(sdddddb)"

/* What a settings editor may have put there is not trusted. */
static gboolean
makes_sense (const HwHoop *hoop)
{
  return hoop->field_width >= HW_SMALLEST_HOOP_TYPED && hoop->field_width <= HW_LARGEST_OWN_HOOP
         && hoop->field_height >= HW_SMALLEST_HOOP_TYPED && hoop->field_height <= HW_LARGEST_OWN_HOOP
         && hoop->frame_width >= hoop->field_width && hoop->frame_width <= HW_LARGEST_OWN_HOOP
         && hoop->frame_height >= hoop->field_height && hoop->frame_height <= HW_LARGEST_OWN_HOOP
         && hoop->clearance >= 0 && hoop->clearance < MIN (hoop->field_width, hoop->field_height) / 2;
}

GPtrArray *
hw_own_hoops_get (void)
{
  GSettings *settings = hw_settings_get ();
  GPtrArray *hoops = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);

  if (settings == NULL)
    return hoops;
  g_autoptr (GVariant) kept = g_settings_get_value (settings, KEY);
  for (gsize i = 0; i < g_variant_n_children (kept); i++)
    {
      g_autoptr (HwHoop) hoop = hw_hoop_new ();
      g_autofree char *name = NULL;
      gboolean any;

      g_variant_get_child (kept, i, "(sdddddb)", &name, &hoop->field_width, &hoop->field_height,
                           &hoop->frame_width, &hoop->frame_height, &hoop->clearance, &any);
      hoop->name = hw_one_line_name (name);
      hoop->turn = any ? HW_TURN_ANY : HW_TURN_QUARTER;
      if (makes_sense (hoop))
        g_ptr_array_add (hoops, g_steal_pointer (&hoop));
    }
  return hoops;
}

void
hw_own_hoops_set (GPtrArray *hoops)
{
  GSettings *settings = hw_settings_get ();
  GVariantBuilder builder;

  g_return_if_fail (hoops != NULL);

  if (settings == NULL)
    return;
  g_variant_builder_init (&builder, G_VARIANT_TYPE (FORM));
  for (guint i = 0; i < hoops->len; i++)
    {
      const HwHoop *hoop = hoops->pdata[i];

      g_variant_builder_add (&builder, "(sdddddb)", hoop->name != NULL ? hoop->name : "", hoop->field_width,
                             hoop->field_height, hoop->frame_width, hoop->frame_height, hoop->clearance,
                             hoop->turn == HW_TURN_ANY);
    }
  g_settings_set_value (settings, KEY, g_variant_builder_end (&builder));
}

void
hw_own_hoops_take_measures (const HwHoop *hoop)
{
  g_autoptr (GPtrArray) hoops = hw_own_hoops_get ();

  g_return_if_fail (hoop != NULL);

  for (guint i = 0; i < hoops->len; i++)
    {
      HwHoop *own = hoops->pdata[i];

      if (g_strcmp0 (own->name, hoop->name) != 0 || own->field_width != hoop->field_width
          || own->field_height != hoop->field_height)
        continue;
      own->frame_width = hoop->frame_width;
      own->frame_height = hoop->frame_height;
      own->clearance = hoop->clearance;
      own->turn = hoop->turn;
      hw_own_hoops_set (hoops);
      return;
    }
}
