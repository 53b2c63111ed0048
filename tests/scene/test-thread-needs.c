/* What a scene needs of threads: nearest at hand, metres, what is lacking, and replacing one by another. */
#include <math.h>

#include "scene-pieces.h"
#include "scene/thread-needs.h"

static HwLab
lab_of (const char *text)
{
  HwColour colour = { 0 };

  g_assert_true (hw_colour_parse (text, &colour));
  return hw_colour_lab (colour);
}

static GPtrArray *
make_palette (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);
}

static void
add (GPtrArray *palette, const char *name, const char *colour, double metres)
{
  g_ptr_array_add (palette, hw_palette_thread_new (name, NULL, lab_of (colour), metres));
}

/* m1 and m2 in "leaf" (900 stitches each) by make_orchard(); m2 gets a block of bark too. */
static HwSnapshot *
make_pears (guint bark)
{
  HwSnapshot *snapshot = make_orchard (2);
  HwMotif *motif = snapshot->motifs->pdata[1];
  HwThreadBlock blocks[] = { motif->threads[0], { .name = (char *)"bark", .stitches = bark } };

  g_assert_true (hw_colour_parse ("#704214", &blocks[1].colour));
  hw_motif_set_threads (motif, blocks, 2);
  return snapshot;
}

static void
test_each_thread_once_with_its_metres (void)
{
  g_autoptr (HwSnapshot) snapshot = make_pears (2400);
  g_autoptr (GPtrArray) palette = make_palette ();
  g_autoptr (GPtrArray) needs = NULL;
  const HwThreadNeed *leaf, *bark;

  add (palette, "soot", "#101010", NAN);
  add (palette, "brown", "#704013", 3);
  needs = hw_thread_needs (snapshot, palette);
  g_assert_cmpuint (needs->len, ==, 2);
  leaf = needs->pdata[0];
  bark = needs->pdata[1];
  g_assert_cmpstr (leaf->name, ==, "leaf");
  g_assert_cmpuint (g_strv_length (leaf->motifs), ==, 2);
  g_assert_cmpuint (leaf->stitches, ==, 1800);
  g_assert_cmpfloat_with_epsilon (leaf->metres, 9, 1e-9); /* 5 m to 1,000: common practice, no source */
  g_assert_cmpfloat_with_epsilon (bark->metres, 12, 1e-9);
  g_assert_cmpuint (bark->n_nearest, ==, 2);
  g_assert_cmpuint (bark->nearest[0].thread, ==, 1);
  g_assert_cmpfloat (bark->nearest[0].difference, <, 2);
}

static void
test_what_must_be_bought (void)
{
  g_autoptr (HwSnapshot) snapshot = make_pears (2400);
  g_autoptr (GPtrArray) palette = make_palette ();
  g_autoptr (GPtrArray) needs = NULL, purchases = NULL;
  const HwThreadPurchase *first, *second;

  add (palette, "brown", "#704013", 3);
  needs = hw_thread_needs (snapshot, palette);
  purchases = hw_thread_purchases (needs, palette);
  g_assert_cmpuint (purchases->len, ==, 2);
  first = purchases->pdata[0];
  second = purchases->pdata[1];
  g_assert_cmpstr (first->name, ==, "leaf");
  g_assert_cmpint (first->thread, ==, -1);
  g_assert_cmpfloat_with_epsilon (first->metres, 9, 1e-9);
  g_assert_cmpstr (second->name, ==, "brown");
  g_assert_cmpint (second->thread, ==, 0);
  g_assert_cmpfloat_with_epsilon (second->metres, 12 - 3, 1e-9);
}

/* Two threads of the scene that are taken from one reel share what is left on it. */
static void
test_a_reel_is_emptied_once (void)
{
  g_autoptr (HwSnapshot) snapshot = make_pears (2000);
  g_autoptr (GPtrArray) palette = make_palette ();
  g_autoptr (GPtrArray) needs = NULL, purchases = NULL;
  HwMotif *motif = snapshot->motifs->pdata[0];

  g_assert_true (hw_colour_parse ("#704113", &motif->threads[0].colour));
  motif = snapshot->motifs->pdata[1];
  g_assert_true (hw_colour_parse ("#704113", &motif->threads[0].colour));
  add (palette, "brown", "#704013", 15);
  needs = hw_thread_needs (snapshot, palette);
  purchases = hw_thread_purchases (needs, palette);
  g_assert_cmpuint (needs->len, ==, 2);
  g_assert_cmpuint (purchases->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (((HwThreadPurchase *)purchases->pdata[0])->metres, 9 + 10 - 15, 1e-9);
}

static void
test_enough_is_enough (void)
{
  g_autoptr (HwSnapshot) snapshot = make_pears (2400);
  g_autoptr (GPtrArray) palette = make_palette ();
  g_autoptr (GPtrArray) needs = NULL, purchases = NULL;

  add (palette, "brown", "#704013", 12);
  add (palette, "green", "#336633", NAN);
  needs = hw_thread_needs (snapshot, palette);
  purchases = hw_thread_purchases (needs, palette);
  g_assert_cmpuint (purchases->len, ==, 0);
}

/* A motif made half as large again has stitches half as long again. */
static void
test_larger_stitches_take_more_thread (void)
{
  g_autoptr (HwSnapshot) scene = make_pears (2400);
  g_autoptr (GPtrArray) palette = g_ptr_array_new ();
  g_autoptr (HwSnapshot) larger = hw_snapshot_copy (scene);
  HwMotif *motif = hw_motif_copy (hw_snapshot_motif (scene, 0));

  motif->placement.scale *= 1.5;
  hw_motif_unref (larger->motifs->pdata[0]);
  larger->motifs->pdata[0] = motif;
  g_autoptr (GPtrArray) needs = hw_thread_needs (larger, palette);
  g_assert_cmpfloat_with_epsilon (((HwThreadNeed *)needs->pdata[0])->metres, 9 + 0.5 * 4.5, 1e-9);
}

/* Without counted stitches the metres are not known, but what is not at hand must be bought all the same. */
static void
test_stitches_nobody_counted (void)
{
  g_autoptr (HwSnapshot) snapshot = make_pears (0);
  g_autoptr (GPtrArray) palette = make_palette ();
  g_autoptr (GPtrArray) needs = hw_thread_needs (snapshot, palette);
  g_autoptr (GPtrArray) purchases = hw_thread_purchases (needs, palette);
  const HwThreadNeed *bark = needs->pdata[1];

  g_assert_false (bark->counted);
  g_assert_true (isnan (bark->metres));
  g_assert_cmpuint (bark->n_nearest, ==, 0);
  g_assert_cmpuint (purchases->len, ==, 2);
  g_assert_true (isnan (((HwThreadPurchase *)purchases->pdata[1])->metres));
}

static void
test_what_is_stitched_needs_none (void)
{
  static const char *const stitched[] = { "m2", NULL };
  g_autoptr (HwSnapshot) snapshot = make_pears (2400);
  g_autoptr (GPtrArray) palette = make_palette ();
  g_autoptr (GPtrArray) needs = NULL, purchases = NULL;
  const HwThreadNeed *leaf, *bark;

  g_ptr_array_add (snapshot->frozen, make_pin ("h1", stitched));
  needs = hw_thread_needs (snapshot, palette);
  leaf = needs->pdata[0];
  bark = needs->pdata[1];
  g_assert_cmpfloat_with_epsilon (leaf->metres, 4.5, 1e-9);
  g_assert_cmpfloat (bark->metres, ==, 0);
  purchases = hw_thread_purchases (needs, palette);
  g_assert_cmpuint (purchases->len, ==, 1);
}

static void
test_replacing_a_thread (void)
{
  static const char *const stitched[] = { "m1", NULL };
  g_autoptr (HwSnapshot) snapshot = make_pears (2400);
  g_autoptr (HwPaletteThread) fern = hw_palette_thread_new ("fern", "8", lab_of ("#2f6b2f"), NAN);
  HwThreadBlock leaf = hw_snapshot_motif (snapshot, 0)->threads[0];
  g_autoptr (HwSnapshot) replaced = NULL, same = NULL;

  replaced = hw_thread_replaced (snapshot, leaf.name, leaf.colour, fern);
  for (guint i = 0; i < 2; i++)
    {
      const HwThreadBlock *block = &hw_snapshot_motif (replaced, i)->threads[0];

      g_assert_cmpstr (block->name, ==, "fern");
      g_assert_true (hw_colour_equal (block->colour, hw_lab_colour (fern->lab)));
      g_assert_cmpuint (block->stitches, ==, 900);
    }
  g_assert_cmpstr (hw_snapshot_motif (replaced, 1)->threads[1].name, ==, "bark");
  g_assert_cmpstr (hw_snapshot_motif (snapshot, 0)->threads[0].name, ==, "leaf");
  g_assert_cmpuint (hw_snapshot_difference (snapshot, replaced), ==, HW_SCENE_CHANGE_THREADS);

  same = hw_thread_replaced (snapshot, "no such thread", leaf.colour, fern);
  g_assert_true (same == snapshot);
  g_clear_pointer (&replaced, hw_snapshot_unref);
  g_ptr_array_add (snapshot->frozen, make_pin ("h1", stitched));
  replaced = hw_thread_replaced (snapshot, leaf.name, leaf.colour, fern);
  g_assert_cmpstr (hw_snapshot_motif (replaced, 0)->threads[0].name, ==, "leaf");
  g_assert_cmpstr (hw_snapshot_motif (replaced, 1)->threads[0].name, ==, "fern");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/thread-needs/each-thread-once-with-its-metres", test_each_thread_once_with_its_metres);
  g_test_add_func ("/thread-needs/what-must-be-bought", test_what_must_be_bought);
  g_test_add_func ("/thread-needs/a-reel-is-emptied-once", test_a_reel_is_emptied_once);
  g_test_add_func ("/thread-needs/enough-is-enough", test_enough_is_enough);
  g_test_add_func ("/thread-needs/larger-stitches-take-more-thread", test_larger_stitches_take_more_thread);
  g_test_add_func ("/thread-needs/stitches-nobody-counted", test_stitches_nobody_counted);
  g_test_add_func ("/thread-needs/what-is-stitched-needs-none", test_what_is_stitched_needs_none);
  g_test_add_func ("/thread-needs/replacing-a-thread", test_replacing_a_thread);
  return g_test_run ();
}
