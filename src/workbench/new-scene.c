/* What the start page and the dialog for a new scene both make. */
#include "new-scene.h"

#include "../geometry/language.h"
#include "../geometry/one-line.h"

#define EDGE_MARGIN 2   /* mm */
#define FRAME_ACROSS 40 /* mm a frame is usually wider than its field: common practice, no source */
#define FRAME_ALONG 60  /* mm */
#define CLEARANCE 2     /* mm */

char *
hw_hoop_size_name (double field_width, double field_height)
{
  /* Translators: the name of a hoop by its field in millimetres, "130 × 180" */
  return g_strdup_printf (_ ("%g × %g"), field_width, field_height);
}

HwHoop *
hw_hoop_of_size (double field_width, double field_height)
{
  HwHoop *hoop = hw_hoop_new ();

  hoop->name = hw_hoop_size_name (field_width, field_height);
  hoop->field_width = field_width;
  hoop->field_height = field_height;
  hoop->frame_width = field_width + FRAME_ACROSS;
  hoop->frame_height = field_height + FRAME_ALONG;
  hoop->clearance = CLEARANCE;
  hoop->turn = HW_TURN_ANY;
  return hoop;
}

static void
take_hoop (HwSnapshot *snapshot, HwHoop *hoop)
{
  g_free (hoop->id);
  hoop->id = g_strdup_printf ("h%u", snapshot->hoops->len + 1);
  g_ptr_array_add (snapshot->hoops, hoop);
}

HwSnapshot *
hw_new_scene (const char *name, const HwFabric *fabric, HwEdgeShape shape, double inset, GPtrArray *hoops)
{
  g_return_val_if_fail (name != NULL && fabric != NULL && hoops != NULL, NULL);

  HwSnapshot *snapshot = hw_snapshot_new ();
  double shorter = MIN (fabric->width, fabric->height), in = MIN (inset, shorter / 3);
  HwBox box = { in, in, fabric->width - in, fabric->height - in };

  g_free (snapshot->name);
  snapshot->name = hw_one_line_name (name);
  snapshot->fabric.width = fabric->width;
  snapshot->fabric.height = fabric->height;
  snapshot->fabric.colour = fabric->colour;
  snapshot->fabric.hold = fabric->hold;
  g_clear_pointer (&snapshot->edge_line, hw_edge_line_unref);
  snapshot->edge_line = hw_edge_line_new_shape (shape, box, shorter / 8, EDGE_MARGIN);
  for (guint i = 0; i < hoops->len; i++)
    take_hoop (snapshot, hw_hoop_copy (hoops->pdata[i]));
  if (snapshot->hoops->len == 0)
    take_hoop (snapshot, hw_hoop_of_size (130, 180));
  return snapshot;
}
