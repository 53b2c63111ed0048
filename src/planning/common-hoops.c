/* Hoops many machines take, by the size of their sewing field alone: common practice, no source. */
#include "common-hoops.h"

#include "../geometry/units.h"

/* mm of frame on both sides together, and mm of clearance, where no hoop of the scene tells: common practice, no source */
#define FRAME_ACROSS 40
#define FRAME_ALONG 60
#define CLEARANCE 2

static const struct
{
  double width, height; /* mm */
} sizes[HW_N_COMMON_HOOPS] = { { 100, 100 }, { 130, 180 }, { 150, 240 }, { 160, 260 },
                               { 180, 300 }, { 200, 300 }, { 200, 360 }, { 350, 360 } };

HwHoop *
hw_common_hoop_new (guint k, const HwSnapshot *scene)
{
  HwHoop *hoop;
  double across = FRAME_ACROSS, along = FRAME_ALONG;

  g_return_val_if_fail (k < HW_N_COMMON_HOOPS && scene != NULL, NULL);

  hoop = hw_hoop_new ();
  hoop->clearance = CLEARANCE;
  hoop->turn = HW_TURN_ANY;
  if (scene->hoops->len > 0)
    {
      const HwHoop *like = hw_snapshot_hoop (scene, 0);

      hoop->clearance = like->clearance;
      hoop->turn = like->turn;
      across = like->frame_width - like->field_width;
      along = like->frame_height - like->field_height;
    }
  hoop->field_width = sizes[k].width;
  hoop->field_height = sizes[k].height;
  hoop->frame_width = sizes[k].width + across;
  hoop->frame_height = sizes[k].height + along;
  hoop->name = hw_size_text (sizes[k].width, sizes[k].height, HW_UNIT_MM);
  for (guint number = scene->hoops->len + 1; hoop->id == NULL; number++)
    {
      g_autofree char *id = g_strdup_printf ("h%u", number);

      if (hw_snapshot_find_hoop (scene, id) < 0)
        hoop->id = g_steal_pointer (&id);
    }
  return hoop;
}

gboolean
hw_common_hoop_is_there (guint k, const HwSnapshot *scene)
{
  g_return_val_if_fail (k < HW_N_COMMON_HOOPS && scene != NULL, FALSE);

  for (guint h = 0; h < scene->hoops->len; h++)
    {
      const HwHoop *hoop = hw_snapshot_hoop (scene, h);

      if (!hoop->set_aside
          && MIN (hoop->field_width, hoop->field_height) >= MIN (sizes[k].width, sizes[k].height)
          && MAX (hoop->field_width, hoop->field_height) >= MAX (sizes[k].width, sizes[k].height))
        return TRUE;
    }
  return FALSE;
}
