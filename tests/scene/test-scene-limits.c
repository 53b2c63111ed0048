/* What an edit may not make of a scene, from both sides of each limit. */
#include "scene/scene-limits.h"

static HwSnapshot *
scene_with (gsize list, guint n, gpointer thing, gpointer (*ref) (gpointer))
{
  HwSnapshot *scene = hw_snapshot_new ();
  GPtrArray *things = G_STRUCT_MEMBER (GPtrArray *, scene, list);

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (things, ref (thing));
  return scene;
}

static void
assert_said (HwSnapshot *scene, const char *sentence)
{
  g_autofree char *said = hw_scene_too_much (scene);

  g_assert_cmpstr (said, ==, sentence);
  hw_snapshot_unref (scene);
}

static void
so_many_and_no_more (void)
{
  static const char *const nobody[] = { NULL };
  HwMotif *motif = hw_motif_new ();
  HwPaletteThread *thread = hw_palette_thread_new ("moss", NULL, (HwLab){ 50, 0, 0 }, 1);
  const struct
  {
    gsize list;
    guint most;
    gpointer thing;
    gpointer (*ref) (gpointer);
    GDestroyNotify unref;
    const char *sentence;
  } limits[] = {
    { G_STRUCT_OFFSET (HwSnapshot, motifs), 10000, motif, (gpointer (*) (gpointer))hw_motif_ref,
      (GDestroyNotify)hw_motif_unref,
      "A scene holds at most 10000 motifs, and this would be 10001. Put the others into a second scene." },
    { G_STRUCT_OFFSET (HwSnapshot, hoops), 200, hw_hoop_new (), (gpointer (*) (gpointer))hw_hoop_ref,
      (GDestroyNotify)hw_hoop_unref,
      "A scene holds at most 200 hoops, and this would be 201. Remove those that are not used." },
    { G_STRUCT_OFFSET (HwSnapshot, photos), 200, hw_photo_new (), (gpointer (*) (gpointer))hw_photo_ref,
      (GDestroyNotify)hw_photo_unref,
      "A scene holds at most 200 photos, and this would be 201. Remove the oldest first." },
    { G_STRUCT_OFFSET (HwSnapshot, palette), 20000, thread, (gpointer (*) (gpointer))hw_palette_thread_ref,
      (GDestroyNotify)hw_palette_thread_unref,
      "A scene holds at most 20000 threads at hand, and this would be 20001. Remove those that are used up." },
    { G_STRUCT_OFFSET (HwSnapshot, parts), 100, hw_part_new ("Left", nobody),
      (gpointer (*) (gpointer))hw_part_ref, (GDestroyNotify)hw_part_unref,
      "A scene has at most 100 parts, and this would be 101. Join some of them first." },
    { G_STRUCT_OFFSET (HwSnapshot, apart), 100000, hw_apart_new ("m1", "m2"),
      (gpointer (*) (gpointer))hw_apart_ref, (GDestroyNotify)hw_apart_unref,
      "At most 100000 pairs of motifs can be kept apart, and this would be 100001. Let go of some first." },
    { G_STRUCT_OFFSET (HwSnapshot, held_marks), 100000, hw_held_mark_new ("m1", (HwPoint){ 1, 2 }),
      (gpointer (*) (gpointer))hw_held_mark_ref, (GDestroyNotify)hw_held_mark_unref,
      "A scene holds at most 100000 marks of your own, and this would be 100001. Let go of some first." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      assert_said (scene_with (limits[i].list, limits[i].most, limits[i].thing, limits[i].ref), NULL);
      assert_said (scene_with (limits[i].list, limits[i].most + 1, limits[i].thing, limits[i].ref),
                   limits[i].sentence);
      limits[i].unref (limits[i].thing);
    }
}

static HwSnapshot *
scene_with_motif (guint first, guint second, const char *note)
{
  HwSnapshot *scene = hw_snapshot_new ();
  HwMotif *motif = hw_motif_new ();

  motif->name = g_strdup ("Gull");
  motif->note = g_strdup (note);
  motif->threads = g_new0 (HwThreadBlock, 2);
  motif->n_threads = 2;
  motif->threads[0].stitches = first;
  motif->threads[1].stitches = second;
  g_ptr_array_add (scene->motifs, motif);
  return scene;
}

static void
stitches_of_a_motif_are_counted_together (void)
{
  assert_said (scene_with_motif (4000000, 1000000, NULL), NULL);
  assert_said (scene_with_motif (4000000, 1000001, NULL),
               "Gull would have 5000001 stitches, and a motif has at most 5000000. Divide it into two.");
  /* More than 32 bits hold. */
  assert_said (scene_with_motif (4294967295u, 4294967295u, NULL),
               "Gull would have 8589934590 stitches, and a motif has at most 5000000. Divide it into two.");
}

static void
texts_have_an_end (void)
{
  g_autofree char *most = g_strnfill (100000, 'a');
  g_autofree char *more = g_strnfill (100001, 'a');

  assert_said (scene_with_motif (1, 1, most), NULL);
  assert_said (scene_with_motif (1, 1, more),
               "The text that begins \"aaaaaaaaaaaaaaaaaaaa\" has 100001 letters, and a name or a note has at "
               "most 100000. Shorten it.");
}

static void
points_of_a_photo_have_an_end (void)
{
  for (guint n = 1000; n <= 1001; n++)
    {
      HwSnapshot *scene = hw_snapshot_new ();
      HwPhoto *photo = hw_photo_new ();

      photo->points = g_new0 (HwPhotoPoint, n);
      photo->n_points = n;
      g_ptr_array_add (scene->photos, photo);
      assert_said (scene, n == 1000 ? NULL
                                    : "A photo has at most 1000 known points, and this would be 1001. Remove "
                                      "those that add nothing.");
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene-limits/so-many-and-no-more", so_many_and_no_more);
  g_test_add_func ("/scene-limits/stitches", stitches_of_a_motif_are_counted_together);
  g_test_add_func ("/scene-limits/texts", texts_have_an_end);
  g_test_add_func ("/scene-limits/photo-points", points_of_a_photo_have_an_end);
  return g_test_run ();
}
