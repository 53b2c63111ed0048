#include "scene-pieces.h"

static void
the_pointer_stays_until_a_change (void)
{
  g_autoptr (HwScene) scene = make_scene (3);
  g_autoptr (HwSnapshot) first = hw_scene_snapshot (scene);
  g_autoptr (HwSnapshot) second = hw_scene_snapshot (scene);
  g_autoptr (HwSnapshot) third = NULL;

  g_assert_true (first == second);
  g_object_set (hw_scene_find_motif (scene, "m2"), "x", 5.0, NULL);
  third = hw_scene_snapshot (scene);
  g_assert_true (third != first);
  /* What did not move is the same record; the older snapshot is as it was. */
  g_assert_true (hw_snapshot_motif (third, 0) == hw_snapshot_motif (first, 0));
  g_assert_true (hw_snapshot_motif (third, 1) != hw_snapshot_motif (first, 1));
  g_assert_cmpfloat (hw_snapshot_motif (first, 1)->placement.position.x, ==, 110);
}

/* Whoever hears of a change gets a snapshot that holds it. */
static void
check_fresh (GObject *motif, GParamSpec *pspec, gpointer scene)
{
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (scene);

  g_assert_true (hw_snapshot_motif (now, 0) == hw_scene_motif_get_record (HW_SCENE_MOTIF (motif)));
}

static void
listeners_see_the_new_state (void)
{
  g_autoptr (HwScene) scene = make_scene (1);
  HwSceneMotif *motif = hw_scene_find_motif (scene, "m1");
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (scene);

  g_signal_connect (motif, "notify::x", G_CALLBACK (check_fresh), scene);
  g_object_set (motif, "x", 9.0, NULL);
}

static void
restoring_keeps_live_objects (void)
{
  g_autoptr (HwScene) scene = make_scene (4);
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (scene);
  g_autoptr (HwSnapshot) after = NULL;
  HwSceneMotif *first = hw_scene_find_motif (scene, "m1");
  HwSceneMotif *last = hw_scene_find_motif (scene, "m4");

  hw_scene_move_motif (scene, 3, 0);
  hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m2"));
  g_object_set (first, "x", 1.0, NULL);
  hw_scene_restore (scene, before);
  g_assert_true (hw_scene_find_motif (scene, "m1") == first);
  g_assert_true (hw_scene_find_motif (scene, "m4") == last);
  g_assert_cmpint (hw_scene_index_of (scene, first), ==, 0);
  g_assert_cmpint (hw_scene_index_of (scene, last), ==, 3);
  g_assert_cmpfloat (hw_scene_motif_get_record (first)->placement.position.x, ==, 60);
  after = hw_scene_snapshot (scene);
  g_assert_true (after == before);
}

static void
count (HwScene *scene, guint flags, gpointer data)
{
  guint *heard = data;

  heard[0]++;
  heard[1] = flags;
}

static void
count_items (GListModel *list, guint at, guint removed, guint added, gpointer data)
{
  guint *items = data;

  items[0]++;
  items[1] = at;
  items[2] = removed;
  items[3] = added;
}

static void
restoring_tells_only_what_differs (void)
{
  g_autoptr (HwScene) scene = make_scene (4);
  g_autoptr (HwSnapshot) start = hw_scene_snapshot (scene);
  g_autoptr (HwSnapshot) moved = NULL;
  g_autoptr (HwSnapshot) shorter = NULL;
  guint heard[2] = { 0 }, items[4] = { 0 };

  g_object_set (hw_scene_find_motif (scene, "m3"), "y", 7.0, NULL);
  moved = hw_scene_snapshot (scene);
  hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "m3"));
  shorter = hw_scene_snapshot (scene);
  g_signal_connect (scene, "changed", G_CALLBACK (count), heard);
  g_signal_connect (hw_scene_get_motifs (scene), "items-changed", G_CALLBACK (count_items), items);

  hw_scene_restore (scene, shorter);
  g_assert_cmpuint (heard[0], ==, 0);
  hw_scene_restore (scene, moved);
  g_assert_cmpuint (heard[0], ==, 1);
  g_assert_cmpuint (heard[1] & HW_SCENE_CHANGE_MOTIF_LIST, !=, 0);
  g_assert_cmpuint (items[0], ==, 1);
  g_assert_cmpuint (items[1], ==, 2);
  g_assert_cmpuint (items[2], ==, 0);
  g_assert_cmpuint (items[3], ==, 1);
  hw_scene_restore (scene, start);
  g_assert_cmpuint (heard[0], ==, 2);
  g_assert_cmpuint (heard[1], ==, HW_SCENE_CHANGE_PLACEMENT);
  g_assert_cmpuint (items[0], ==, 1);
}

/* Random edits and random jumps to remembered states: the scene is always exactly what was remembered. */
static void
random_walks_come_back (void)
{
  g_autoptr (HwScene) scene = make_scene (6);
  g_autoptr (GPtrArray) states = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_snapshot_unref);

  for (guint step = 0; step < 2000; step++)
    {
      GListModel *motifs = hw_scene_get_motifs (scene);
      guint n = g_list_model_get_n_items (motifs);
      guint at = n > 0 ? (guint)g_test_rand_int_range (0, (int)n) : 0;
      g_autoptr (HwSceneMotif) motif = g_list_model_get_item (motifs, at);

      switch (g_test_rand_int_range (0, 6))
        {
        case 0:
          if (motif != NULL)
            g_object_set (motif, "x", g_test_rand_double_range (0, 500), NULL);
          break;
        case 1:
          if (motif != NULL)
            hw_scene_move_motif (scene, at, (guint)g_test_rand_int_range (0, (int)n));
          break;
        case 2:
          if (motif != NULL)
            hw_scene_remove_motif (scene, motif);
          break;
        case 3:
          {
            g_autofree char *id = hw_scene_free_id (scene);
            g_autoptr (HwMotif) record = make_motif (id, step, step);
            g_autoptr (HwSceneMotif) added = hw_scene_motif_new (record);

            hw_scene_insert_motif (scene, at, added);
            break;
          }
        case 4:
          g_ptr_array_add (states, hw_scene_snapshot (scene));
          break;
        default:
          if (states->len > 0)
            {
              HwSnapshot *state = states->pdata[g_test_rand_int_range (0, (int)states->len)];
              g_autoptr (HwSnapshot) now = NULL;

              hw_scene_restore (scene, state);
              now = hw_scene_snapshot (scene);
              g_assert_true (now == state);
              g_assert_cmpuint (g_list_model_get_n_items (hw_scene_get_motifs (scene)), ==,
                                state->motifs->len);
            }
        }
    }
}

static gpointer
read_and_drop (gpointer data)
{
  g_autoptr (HwSnapshot) snapshot = data;
  double sum = 0;

  for (guint i = 0; i < snapshot->motifs->len; i++)
    sum += hw_snapshot_motif (snapshot, i)->placement.position.x;
  return GINT_TO_POINTER (sum > 0);
}

static void
snapshots_travel_between_threads (void)
{
  g_autoptr (HwScene) scene = make_scene (20);
  HwSceneMotif *motif = hw_scene_find_motif (scene, "m5");
  GThread *threads[50];

  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      g_object_set (motif, "x", 1.0 + i, NULL);
      threads[i] = g_thread_new ("reader", read_and_drop, hw_scene_snapshot (scene));
    }
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    g_assert_nonnull (g_thread_join (threads[i]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/snapshot/the-pointer-stays-until-a-change", the_pointer_stays_until_a_change);
  g_test_add_func ("/snapshot/listeners-see-the-new-state", listeners_see_the_new_state);
  g_test_add_func ("/snapshot/restoring-keeps-live-objects", restoring_keeps_live_objects);
  g_test_add_func ("/snapshot/restoring-tells-only-what-differs", restoring_tells_only_what_differs);
  g_test_add_func ("/snapshot/random-walks-come-back", random_walks_come_back);
  g_test_add_func ("/snapshot/travel-between-threads", snapshots_travel_between_threads);
  return g_test_run ();
}
