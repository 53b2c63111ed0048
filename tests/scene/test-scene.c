#include "scene-pieces.h"

/* What a scene said: how often, and the flags of the last time. */
typedef struct
{
  guint times;
  guint flags;
  guint notes;       /* notifies of one object */
  guint items_times; /* changes of a list */
} Heard;

static void
on_changed (HwScene *scene, guint flags, gpointer data)
{
  Heard *heard = data;

  heard->times++;
  heard->flags = flags;
}

static void
on_notify (GObject *object, GParamSpec *pspec, gpointer data)
{
  ((Heard *)data)->notes++;
}

static void
on_items_changed (GListModel *list, guint at, guint removed, guint added, gpointer data)
{
  ((Heard *)data)->items_times++;
}

static HwScene *
listen (guint n, Heard *heard)
{
  HwScene *scene = make_scene (n);

  *heard = (Heard){ 0 };
  g_signal_connect (scene, "changed", G_CALLBACK (on_changed), heard);
  g_signal_connect (hw_scene_get_motifs (scene), "items-changed", G_CALLBACK (on_items_changed), heard);
  return scene;
}

static void
a_motif_moved_is_told_once (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (3, &heard);
  HwSceneMotif *motif = hw_scene_find_motif (scene, "m2");
  HwPlacement placement = hw_scene_motif_get_record (motif)->placement;

  g_signal_connect (motif, "notify", G_CALLBACK (on_notify), &heard);
  placement.position.x += 5;
  placement.angle = 30;
  hw_scene_motif_set_placement (motif, &placement);
  g_assert_cmpuint (heard.times, ==, 1);
  g_assert_cmpuint (heard.flags, ==, HW_SCENE_CHANGE_PLACEMENT);
  g_assert_cmpuint (heard.notes, ==, 2);
  hw_scene_motif_set_placement (motif, &placement);
  g_assert_cmpuint (heard.times, ==, 1);
  g_assert_cmpuint (heard.notes, ==, 2);
}

static void
properties_read_back_and_notify_on_change_only (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (1, &heard);
  HwSceneMotif *motif = hw_scene_find_motif (scene, "m1");
  double x, width, height, percent, scale;
  gboolean mirrored;
  g_autofree char *name = NULL;

  g_signal_connect (motif, "notify", G_CALLBACK (on_notify), &heard);
  g_object_set (motif, "name", "Quince", "x", 12.5, "mirrored", TRUE, NULL);
  g_assert_cmpuint (heard.notes, ==, 3);
  g_object_set (motif, "name", "Quince", "x", 12.5, "mirrored", TRUE, NULL);
  g_assert_cmpuint (heard.notes, ==, 3);
  g_object_get (motif, "name", &name, "x", &x, "mirrored", &mirrored, NULL);
  g_assert_cmpstr (name, ==, "Quince");
  g_assert_cmpfloat (x, ==, 12.5);
  g_assert_true (mirrored);

  /* 40 mm wide as designed: 60 mm is one and a half, and height follows. */
  g_object_set (motif, "width", 60.0, NULL);
  g_object_get (motif, "scale", &scale, "percent", &percent, "height", &height, "width", &width, NULL);
  g_assert_cmpfloat_with_epsilon (scale, 1.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (percent, 150, 1e-9);
  g_assert_cmpfloat_with_epsilon (width, 60, 1e-9);
  g_assert_cmpfloat_with_epsilon (height, 30, 1e-9);
  g_assert_cmpuint (heard.notes, ==, 3 + 4);
  g_object_set (motif, "percent", 50.0, NULL);
  g_object_get (motif, "width", &width, NULL);
  g_assert_cmpfloat_with_epsilon (width, 20, 1e-9);
}

static void
words_are_not_the_planners_business (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (1, &heard);
  HwSceneMotif *motif = hw_scene_find_motif (scene, "m1");

  g_object_set (motif, "note", "from the old wall", NULL);
  g_assert_cmpuint (heard.flags, ==, HW_SCENE_CHANGE_WORDS);
  g_object_set (motif, "locked", TRUE, NULL);
  g_assert_cmpuint (heard.flags & HW_SCENE_CHANGE_PLAN_MINDS, ==, 0);
  g_object_set (scene, "name", "The Long Wall", NULL);
  g_assert_cmpuint (heard.flags & HW_SCENE_CHANGE_PLAN_MINDS, ==, 0);
  g_assert_cmpuint (heard.times, ==, 3);
}

static void
cloth_properties_change_the_fabric (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (1, &heard);
  g_autofree char *colour = NULL;

  g_signal_connect (scene, "notify", G_CALLBACK (on_notify), &heard);
  g_object_set (scene, "cloth-width", 900.0, "cloth-colour", "#ffeecc", "hold", HW_HOLD_CLAMPED, NULL);
  g_assert_cmpuint (heard.times, ==, 3);
  g_assert_cmpuint (heard.flags, ==, HW_SCENE_CHANGE_FABRIC);
  g_assert_cmpuint (heard.notes, ==, 3);
  g_assert_cmpfloat (hw_scene_get_fabric (scene)->width, ==, 900);
  g_object_get (scene, "cloth-colour", &colour, NULL);
  g_assert_cmpstr (colour, ==, "#ffeecc");
  g_object_set (scene, "cloth-width", 900.0, "cloth-colour", "beige", NULL);
  g_assert_cmpuint (heard.times, ==, 3);
}

static void
what_is_held_is_told_together (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (3, &heard);

  hw_scene_hold (scene);
  hw_scene_hold (scene);
  g_object_set (hw_scene_find_motif (scene, "m1"), "x", 1.0, NULL);
  g_object_set (scene, "cloth-width", 800.0, NULL);
  hw_scene_release (scene);
  g_assert_cmpuint (heard.times, ==, 0);
  hw_scene_move_motif (scene, 0, 2);
  hw_scene_release (scene);
  g_assert_cmpuint (heard.times, ==, 1);
  g_assert_cmpuint (heard.flags, ==,
                    HW_SCENE_CHANGE_PLACEMENT | HW_SCENE_CHANGE_FABRIC | HW_SCENE_CHANGE_ORDER);
  hw_scene_hold (scene);
  hw_scene_release (scene);
  g_assert_cmpuint (heard.times, ==, 1);
}

static void
order_moves_as_one_change_of_the_list (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (5, &heard);
  HwSceneMotif *motif = hw_scene_find_motif (scene, "m2");

  hw_scene_move_motif (scene, 1, 3);
  g_assert_cmpint (hw_scene_index_of (scene, motif), ==, 3);
  g_assert_cmpint (hw_scene_index_of (scene, hw_scene_find_motif (scene, "m3")), ==, 1);
  g_assert_cmpuint (heard.items_times, ==, 1);
  g_assert_cmpuint (heard.flags, ==, HW_SCENE_CHANGE_ORDER);
  hw_scene_move_motif (scene, 3, 1);
  g_assert_cmpint (hw_scene_index_of (scene, motif), ==, 1);
  g_assert_cmpint (hw_scene_index_of (scene, hw_scene_find_motif (scene, "m5")), ==, 4);
  hw_scene_move_motif (scene, 1, 1);
  g_assert_cmpuint (heard.times, ==, 2);
}

static void
a_removed_motif_leaves_no_ties_and_pins (void)
{
  const char *tie[] = { "m2", NULL }, *two[] = { "m2", "m3", NULL }, *alone[] = { "m2", NULL };
  Heard heard;
  g_autoptr (HwSnapshot) orchard = make_orchard (3);
  g_autoptr (HwScene) scene = listen (0, &heard);
  g_autoptr (HwSnapshot) after = NULL;
  g_autoptr (HwSceneMotif) kept = NULL;

  ((HwMotif *)orchard->motifs->pdata[0])->before = g_strdupv ((char **)tie);
  g_ptr_array_add (orchard->pins, make_pin ("h1", two));
  g_ptr_array_add (orchard->pins, make_pin ("h2", alone));
  hw_scene_restore (scene, orchard);
  kept = g_object_ref (hw_scene_find_motif (scene, "m2"));
  heard = (Heard){ 0 };
  g_assert_true (hw_scene_remove_motif (scene, kept));
  g_assert_cmpuint (heard.times, ==, 1);
  g_assert_cmpuint (heard.flags, ==,
                    HW_SCENE_CHANGE_MOTIF_LIST | HW_SCENE_CHANGE_ORDER | HW_SCENE_CHANGE_PINS);
  after = hw_scene_snapshot (scene);
  g_assert_cmpuint (after->motifs->len, ==, 2);
  g_assert_null (hw_snapshot_motif (after, 0)->before);
  g_assert_cmpuint (after->pins->len, ==, 1);
  g_assert_cmpstr (((HwPin *)after->pins->pdata[0])->motifs[0], ==, "m3");
  g_assert_null (((HwPin *)after->pins->pdata[0])->motifs[1]);

  /* Outside a scene it lives on and disturbs nobody. */
  g_object_set (kept, "x", 5.0, NULL);
  g_assert_cmpuint (heard.times, ==, 1);
  hw_scene_insert_motif (scene, 99, kept);
  g_assert_cmpint (hw_scene_index_of (scene, kept), ==, 2);
}

static void
what_is_stitched_stays (void)
{
  const char *stitched[] = { "m1", NULL };
  g_autoptr (HwSnapshot) orchard = make_orchard (2);
  g_autoptr (HwScene) scene = hw_scene_new ();
  g_autoptr (HwSceneHoop) first = NULL;
  g_autoptr (HwSceneHoop) second = NULL;

  g_ptr_array_add (orchard->frozen, make_pin ("h1", stitched));
  hw_scene_restore (scene, orchard);
  first = g_list_model_get_item (hw_scene_get_hoops (scene), 0);
  second = g_list_model_get_item (hw_scene_get_hoops (scene), 1);
  g_assert_false (hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m1")));
  g_assert_true (hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m2")));
  g_assert_false (hw_scene_remove_hoop (scene, first));
  g_assert_true (hw_scene_remove_hoop (scene, second));
  g_assert_cmpuint (hw_scene_get_frozen (scene)->len, ==, 1);
}

static void
ids_are_never_given_twice (void)
{
  g_autoptr (HwScene) scene = make_scene (3);
  g_autoptr (HwMotif) named = make_motif ("gate", 0, 0);
  g_autoptr (HwSceneMotif) gate = hw_scene_motif_new (named);
  g_autofree char *id = hw_scene_free_id (scene);
  g_autofree char *hoop_id = hw_scene_free_hoop_id (scene);
  g_autofree char *after = NULL;

  g_assert_cmpstr (id, ==, "m4");
  g_assert_cmpstr (hoop_id, ==, "h3");
  hw_scene_insert_motif (scene, 0, gate);
  hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m2"));
  after = hw_scene_free_id (scene);
  g_assert_cmpstr (after, ==, "m4");
}

static void
a_hoop_keeps_its_frame_around_its_field (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (0, &heard);
  g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hw_scene_get_hoops (scene), 0);
  double frame;

  g_signal_connect (hoop, "notify", G_CALLBACK (on_notify), &heard);
  g_object_set (hoop, "field-width", 200.0, NULL);
  g_object_get (hoop, "frame-width", &frame, NULL);
  g_assert_cmpfloat (frame, ==, 200);
  g_assert_cmpuint (heard.notes, ==, 2);
  g_assert_cmpuint (heard.flags, ==, HW_SCENE_CHANGE_HOOPS);
  g_object_set (hoop, "turn", HW_TURN_QUARTER, "clearance", 4.0, "name", "Big one", NULL);
  g_assert_cmpint (hw_scene_hoop_get_record (hoop)->turn, ==, HW_TURN_QUARTER);
}

static void
the_placed_outline_follows (void)
{
  g_autoptr (HwScene) scene = make_scene (1);
  HwSceneMotif *motif = hw_scene_find_motif (scene, "m1");
  const HwOutline *placed = hw_scene_motif_get_placed (motif);

  g_assert_true (hw_scene_motif_get_placed (motif) == placed);
  g_assert_cmpfloat_with_epsilon (placed->box.x0, 60 - 20, 1e-9);
  g_object_set (motif, "angle", 90.0, NULL);
  g_assert_cmpfloat_with_epsilon (hw_scene_motif_get_placed (motif)->box.x0, 60 - 10, 1e-9);
}

static void
take_out (GObject *motif, GParamSpec *pspec, gpointer scene)
{
  hw_scene_remove_motif (scene, HW_SCENE_MOTIF (motif));
}

static void
a_listener_may_take_the_motif_out (void)
{
  Heard heard;
  g_autoptr (HwScene) scene = listen (2, &heard);
  g_autoptr (HwSceneMotif) motif = g_object_ref (hw_scene_find_motif (scene, "m1"));
  const HwPlacement elsewhere = { .position = { 3, 4 }, .scale = 1 };

  g_signal_connect (motif, "notify::x", G_CALLBACK (take_out), scene);
  hw_scene_motif_set_placement (motif, &elsewhere);
  g_assert_cmpuint (heard.times, ==, 1);
  g_assert_cmpuint (g_list_model_get_n_items (hw_scene_get_motifs (scene)), ==, 1);
  g_object_set (scene, "cloth-width", 300.0, NULL);
  g_assert_cmpuint (heard.times, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/a-motif-moved-is-told-once", a_motif_moved_is_told_once);
  g_test_add_func ("/scene/properties-notify-on-change-only", properties_read_back_and_notify_on_change_only);
  g_test_add_func ("/scene/words-are-not-the-planners-business", words_are_not_the_planners_business);
  g_test_add_func ("/scene/cloth-properties-change-the-fabric", cloth_properties_change_the_fabric);
  g_test_add_func ("/scene/what-is-held-is-told-together", what_is_held_is_told_together);
  g_test_add_func ("/scene/order-moves-as-one-change", order_moves_as_one_change_of_the_list);
  g_test_add_func ("/scene/a-removed-motif-leaves-no-ties", a_removed_motif_leaves_no_ties_and_pins);
  g_test_add_func ("/scene/what-is-stitched-stays", what_is_stitched_stays);
  g_test_add_func ("/scene/ids-are-never-given-twice", ids_are_never_given_twice);
  g_test_add_func ("/scene/a-hoop-keeps-its-frame-around-its-field", a_hoop_keeps_its_frame_around_its_field);
  g_test_add_func ("/scene/the-placed-outline-follows", the_placed_outline_follows);
  g_test_add_func ("/scene/a-listener-may-take-the-motif-out", a_listener_may_take_the_motif_out);
  return g_test_run ();
}
