#include "scene/history.h"

#include "scene-pieces.h"

static void
count (HwScene *scene, guint flags, gpointer data)
{
  guint *heard = data;

  heard[0]++;
  heard[1] = flags;
}

static void
count_notes (GObject *object, GParamSpec *pspec, gpointer data)
{
  (*(guint *)data)++;
}

/* Pairs of ids, ended by NULL. */
static GPtrArray *
make_apart (const char *first, ...)
{
  GPtrArray *apart = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_apart_unref);
  va_list ids;

  va_start (ids, first);
  for (const char *id = first; id != NULL; id = va_arg (ids, const char *))
    g_ptr_array_add (apart, hw_apart_new (id, va_arg (ids, const char *)));
  va_end (ids);
  return apart;
}

static void
motifs_kept_apart_are_told_as_pins (void)
{
  g_autoptr (HwScene) scene = make_scene (4);
  g_autoptr (GPtrArray) apart = make_apart ("m1", "m4", "m2", "m1", "m4", "m1", NULL);
  g_autoptr (GPtrArray) same = make_apart ("m1", "m4", "m2", "m1", NULL);
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (scene);
  g_autoptr (HwSnapshot) after = NULL;
  guint heard[2] = { 0 };

  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  hw_scene_set_apart (scene, apart);
  g_assert_cmpuint (heard[0], ==, 1);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_PINS);
  g_assert_cmpuint (hw_scene_get_apart (scene)->len, ==, 2);
  hw_scene_set_apart (scene, same);
  g_assert_cmpuint (heard[0], ==, 1);
  after = hw_scene_snapshot (scene);
  g_assert_false (hw_snapshot_equal (before, after));
  g_assert_cmpuint (before->apart->len, ==, 0);
  g_assert_cmpuint (after->apart->len, ==, 2);
}

static void
wishes_are_told_as_the_machine (void)
{
  g_autoptr (HwScene) scene = make_scene (1);
  HwWishes wishes = *hw_scene_get_wishes (scene);
  guint heard[2] = { 0 };

  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  hw_scene_set_wishes (scene, &wishes);
  g_assert_cmpuint (heard[0], ==, 0);
  wishes.best = HW_BEST_LEAST_TIME;
  hw_scene_set_wishes (scene, &wishes);
  g_assert_cmpuint (heard[0], ==, 1);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_MACHINE);
  g_assert_cmpint (hw_scene_get_wishes (scene)->best, ==, HW_BEST_LEAST_TIME);
}

/* Each wish, changed alone, makes a different scene. */
static void
every_wish_counts (void)
{
  g_autoptr (HwSnapshot) usual = make_orchard (1);
  const HwWishes usual_wishes = usual->wishes;
  HwWishes others[] = { usual_wishes, usual_wishes, usual_wishes, usual_wishes,
                        usual_wishes, usual_wishes, usual_wishes, usual_wishes };

  others[0].best = HW_BEST_LEAST_TIME;
  others[1].interleave = TRUE;
  others[2].density_limit = 6;
  others[3].scale_low = 0.7;
  others[4].scale_high = 1.3;
  others[5].tolerance = 0.8;
  others[6].marks = 3;
  others[7].draw_in = 0.4;
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    {
      g_autoptr (HwSnapshot) copy = hw_snapshot_copy (usual);

      g_assert_true (hw_snapshot_equal (copy, usual));
      copy->wishes = others[i];
      g_assert_false (hw_snapshot_equal (copy, usual));
      copy->wishes = usual_wishes;
      g_assert_true (hw_snapshot_equal (copy, usual));
    }
}

static void
a_hoop_is_set_aside_and_taken_back (void)
{
  g_autoptr (HwScene) scene = make_scene (1);
  g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hw_scene_get_hoops (scene), 1);
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (scene);
  guint heard[2] = { 0 }, notes = 0;
  gboolean aside;

  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  g_signal_connect (hoop, "notify::set-aside", G_CALLBACK (count_notes), &notes);
  g_object_set (hoop, "set-aside", TRUE, NULL);
  g_object_get (hoop, "set-aside", &aside, NULL);
  g_assert_true (aside);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_HOOPS);
  g_assert_cmpuint (notes, ==, 1);
  hw_scene_restore (scene, before);
  g_object_get (hoop, "set-aside", &aside, NULL);
  g_assert_false (aside);
  g_assert_cmpuint (notes, ==, 2);
}

static void
a_removed_motif_is_kept_apart_from_nothing (void)
{
  const char *held[] = { "m2", "m3", NULL };
  g_autoptr (HwScene) scene = make_scene (4);
  g_autoptr (GPtrArray) apart = make_apart ("m1", "m4", "m2", "m1", "m4", "m2", NULL);
  g_autoptr (GPtrArray) pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
  g_autoptr (HwSnapshot) before = NULL;
  g_autoptr (HwSnapshot) back = NULL;
  HwPin *pin = make_pin ("h1", held);

  pin->keep = HW_KEEP_MOTIFS;
  g_ptr_array_add (pins, pin);
  hw_scene_set_pins (scene, pins);
  hw_scene_set_apart (scene, apart);
  before = hw_scene_snapshot (scene);
  hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m2"));
  g_assert_cmpuint (hw_scene_get_apart (scene)->len, ==, 1);
  g_assert_false (hw_apart_names (hw_scene_get_apart (scene)->pdata[0], "m2"));
  pin = hw_scene_get_pins (scene)->pdata[0];
  g_assert_cmpint (pin->keep, ==, HW_KEEP_MOTIFS);
  g_assert_cmpstr (pin->motifs[0], ==, "m3");
  hw_scene_restore (scene, before);
  back = hw_scene_snapshot (scene);
  g_assert_true (back == before);
  g_assert_cmpuint (hw_scene_get_apart (scene)->len, ==, 3);
}

/* Pins held in a hoop go with it; those that leave the hoop free stay. */
static void
a_removed_hoop_frees_what_was_not_bound_to_it (void)
{
  const char *first[] = { "m1", NULL }, *second[] = { "m2", NULL };
  g_autoptr (HwScene) scene = make_scene (2);
  g_autoptr (GPtrArray) pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
  g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hw_scene_get_hoops (scene), 0);
  HwPin *grain = make_pin ("h1", second);

  grain->keep = HW_KEEP_GRAIN;
  g_ptr_array_add (pins, make_pin ("h1", first));
  g_ptr_array_add (pins, grain);
  hw_scene_set_pins (scene, pins);
  g_assert_true (hw_scene_remove_hoop (scene, hoop));
  g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 1);
  grain = hw_scene_get_pins (scene)->pdata[0];
  g_assert_null (grain->hoop);
  g_assert_cmpint (grain->keep, ==, HW_KEEP_GRAIN);
}

static void
how_much_of_a_pin_is_kept_counts (void)
{
  const char *held[] = { "m1", NULL };
  g_autoptr (HwSnapshot) orchard = make_orchard (1);
  g_autoptr (HwSnapshot) other = NULL;
  HwPin *copy;

  g_ptr_array_add (orchard->pins, make_pin ("h1", held));
  other = hw_snapshot_copy (orchard);
  copy = hw_pin_copy (other->pins->pdata[0]);
  copy->keep = HW_KEEP_GRAIN;
  hw_pin_unref (other->pins->pdata[0]);
  other->pins->pdata[0] = copy;
  g_assert_false (hw_snapshot_equal (orchard, other));
}

static void
decisions_are_undone_and_redone (void)
{
  g_autoptr (HwScene) scene = make_scene (3);
  g_autoptr (HwSnapshot) start = hw_scene_snapshot (scene);
  g_autoptr (HwHistory) history = hw_history_new (start);
  g_autoptr (GPtrArray) apart = make_apart ("m1", "m3", NULL);
  g_autoptr (HwSnapshot) kept_apart = NULL;
  g_autoptr (HwSnapshot) wished = NULL;
  HwWishes wishes = *hw_scene_get_wishes (scene);

  hw_scene_set_apart (scene, apart);
  kept_apart = hw_scene_snapshot (scene);
  hw_history_push (history, "keep apart", kept_apart, FALSE, 1);
  wishes.interleave = TRUE;
  wishes.tolerance = 0.4;
  hw_scene_set_wishes (scene, &wishes);
  wished = hw_scene_snapshot (scene);
  hw_history_push (history, "change the wishes", wished, FALSE, 2);

  hw_scene_restore (scene, hw_history_undo (history));
  g_assert_false (hw_scene_get_wishes (scene)->interleave);
  g_assert_cmpuint (hw_scene_get_apart (scene)->len, ==, 1);
  hw_scene_restore (scene, hw_history_undo (history));
  g_assert_cmpuint (hw_scene_get_apart (scene)->len, ==, 0);
  hw_scene_restore (scene, hw_history_redo (history));
  hw_scene_restore (scene, hw_history_redo (history));
  g_assert_cmpfloat (hw_scene_get_wishes (scene)->tolerance, ==, 0.4);
  g_assert_cmpuint (hw_scene_get_apart (scene)->len, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/decisions/" name, function)
  ADD ("motifs-kept-apart-are-told-as-pins", motifs_kept_apart_are_told_as_pins);
  ADD ("wishes-are-told-as-the-machine", wishes_are_told_as_the_machine);
  ADD ("every-wish-counts", every_wish_counts);
  ADD ("a-hoop-is-set-aside-and-taken-back", a_hoop_is_set_aside_and_taken_back);
  ADD ("a-removed-motif-is-kept-apart-from-nothing", a_removed_motif_is_kept_apart_from_nothing);
  ADD ("a-removed-hoop-frees-pins", a_removed_hoop_frees_what_was_not_bound_to_it);
  ADD ("how-much-of-a-pin-is-kept-counts", how_much_of_a_pin_is_kept_counts);
  ADD ("decisions-are-undone-and-redone", decisions_are_undone_and_redone);
  return g_test_run ();
}
