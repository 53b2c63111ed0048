/* A scene to start from: the edge line leaves the cloth whole, hoops get ids of their own and keep what their owner measured. */
#include <math.h>

#include "formats/scene-file.h"
#include "workbench/new-scene.h"

static HwSnapshot *
scene_of (double width, double height, HwEdgeShape shape, double inset, GPtrArray *hoops)
{
  const HwFabric fabric
      = { .width = width, .height = height, .colour = { 0.8, 0.7, 0.6 }, .hold = HW_HOLD_CLAMPED };

  return hw_new_scene ("Harbour wall", &fabric, shape, inset, hoops);
}

static void
cloth_and_edge_line (void)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  g_autoptr (HwSnapshot) scene = scene_of (500, 400, HW_EDGE_RECTANGLE, 40, none);
  const HwBox box = scene->edge_line->outline->box;

  g_assert_cmpstr (scene->name, ==, "Harbour wall");
  g_assert_cmpfloat (scene->fabric.width, ==, 500);
  g_assert_cmpfloat (scene->fabric.height, ==, 400);
  g_assert_cmpint (scene->fabric.hold, ==, HW_HOLD_CLAMPED);
  g_assert_cmpfloat (box.x0, ==, 40);
  g_assert_cmpfloat (box.y0, ==, 40);
  g_assert_cmpfloat (box.x1, ==, 460);
  g_assert_cmpfloat (box.y1, ==, 360);
  g_assert_cmpuint (scene->motifs->len, ==, 0);
  /* Without a hoop nothing could ever be stitched. */
  g_assert_cmpuint (scene->hoops->len, ==, 1);
}

/* Whatever the sizes, the line lies on the cloth and encloses some of it, and the file can be read back. */
static void
any_size (void)
{
  static const HwEdgeShape shapes[] = { HW_EDGE_RECTANGLE, HW_EDGE_ROUNDED, HW_EDGE_ELLIPSE };
  g_autoptr (GPtrArray) none = g_ptr_array_new ();

  for (guint i = 0; i < 300; i++)
    {
      double width = g_test_rand_double_range (20, 10000), height = g_test_rand_double_range (20, 10000);
      g_autoptr (HwSnapshot) scene
          = scene_of (width, height, shapes[i % 3], g_test_rand_double_range (0, 2000), none);
      const HwBox box = scene->edge_line->outline->box;
      g_autofree char *text = hw_scene_file_text (scene);
      g_autoptr (GError) error = NULL;
      g_autoptr (HwSnapshot) back = hw_scene_file_parse (text, -1, NULL, &error);

      g_assert_cmpfloat (box.x0, >=, -1e-9);
      g_assert_cmpfloat (box.y0, >=, -1e-9);
      g_assert_cmpfloat (box.x1, <=, width + 1e-9);
      g_assert_cmpfloat (box.y1, <=, height + 1e-9);
      g_assert_cmpfloat (box.x1 - box.x0, >, width / 4);
      g_assert_cmpfloat (box.y1 - box.y0, >, height / 4);
      g_assert_no_error (error);
      g_assert_nonnull (back);
    }
}

static void
hoops_keep_their_measures (void)
{
  g_autoptr (GPtrArray) hoops = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_hoop_unref);
  HwHoop *measured = hw_hoop_of_size (160, 260);

  measured->frame_width = 212;
  measured->turn = HW_TURN_QUARTER;
  g_ptr_array_add (hoops, measured);
  g_ptr_array_add (hoops, hw_hoop_of_size (100, 100));
  g_autoptr (HwSnapshot) scene = scene_of (700, 540, HW_EDGE_RECTANGLE, 40, hoops);
  const HwHoop *first = hw_snapshot_hoop (scene, 0), *second = hw_snapshot_hoop (scene, 1);

  g_assert_cmpuint (scene->hoops->len, ==, 2);
  g_assert_cmpstr (first->id, !=, second->id);
  g_assert_cmpfloat (first->frame_width, ==, 212);
  g_assert_cmpint (first->turn, ==, HW_TURN_QUARTER);
  g_assert_cmpfloat (second->frame_width, >, second->field_width);
  g_assert_cmpstr (second->name, ==, "100 × 100");
  g_assert_null (measured->id);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/new-scene/cloth-and-edge-line", cloth_and_edge_line);
  g_test_add_func ("/new-scene/any-size", any_size);
  g_test_add_func ("/new-scene/hoops-keep-their-measures", hoops_keep_their_measures);
  return g_test_run ();
}
