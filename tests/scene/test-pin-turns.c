/* Motifs that take turns in the machine, and what is left of the order when one of them goes. */
#include "../../src/scene/record-compare.h"
#include "../../src/scene/scene.h"

/* Pear, Plum and Fig of 2, 3 and 1 thread blocks: Pear, Plum twice, Pear, Fig, Plum. */
static const guint blocks[] = { 2, 3, 1 };
static const HwThreadTurn turns[] = { { 0, 1 }, { 1, 2 }, { 0, 1 }, { 2, 1 }, { 1, 1 } };

static HwPin *
pin_of (guint threads_done, gboolean in_turns)
{
  HwPin *pin = hw_pin_new ();

  pin->motifs = g_strsplit ("pear plum fig", " ", -1);
  if (in_turns)
    hw_pin_set_turns (pin, turns, G_N_ELEMENTS (turns));
  pin->work = hw_work_new ();
  pin->work->threads_done = pin->work->bobbin_at = threads_done;
  return pin;
}

/* "0 1 1 0 2 1" */
static char *
sequence_text (const HwPin *pin, const guint *n_threads)
{
  g_autoptr (GArray) sequence = hw_pin_sequence (pin, n_threads);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < sequence->len; i++)
    g_string_append_printf (text, "%s%u", i > 0 ? " " : "", g_array_index (sequence, guint, i));
  return g_string_free (text, FALSE);
}

static void
blocks_go_by_turns (void)
{
  g_autoptr (HwPin) pin = pin_of (0, TRUE);
  g_autofree char *text = sequence_text (pin, blocks);

  g_assert_true (hw_pin_takes_turns (pin, blocks));
  g_assert_cmpstr (text, ==, "0 1 1 0 2 1");
}

static void
without_turns_motif_by_motif (void)
{
  g_autoptr (HwPin) pin = pin_of (0, FALSE);
  g_autofree char *text = sequence_text (pin, blocks);

  g_assert_false (hw_pin_takes_turns (pin, blocks));
  g_assert_cmpstr (text, ==, "0 0 1 1 1 2");
}

/* Artwork that was read again may have a thread more or less. */
static void
turns_that_no_longer_fit_are_not_taken (void)
{
  g_autoptr (HwPin) pin = pin_of (0, TRUE);
  static const guint fewer[] = { 2, 2, 1 }, more[] = { 2, 3, 2 };
  g_autofree char *text = sequence_text (pin, fewer);

  g_assert_false (hw_pin_takes_turns (pin, fewer));
  g_assert_false (hw_pin_takes_turns (pin, more));
  g_assert_cmpstr (text, ==, "0 0 1 1 2");
}

static void
turns_of_a_motif_that_is_not_there_are_not_taken (void)
{
  static const HwThreadTurn strange[] = { { 3, 1 } };
  static const guint none[] = { 0, 0, 0 };
  g_autoptr (HwPin) pin = pin_of (0, FALSE);

  hw_pin_set_turns (pin, strange, 1);
  g_assert_false (hw_pin_takes_turns (pin, none));
}

static void
a_copy_has_the_turns_and_others_are_told (void)
{
  g_autoptr (HwPin) pin = pin_of (0, TRUE);
  g_autoptr (HwPin) copy = hw_pin_copy (pin);
  g_autoptr (GPtrArray) one = g_ptr_array_new (), two = g_ptr_array_new ();

  g_ptr_array_add (one, pin);
  g_ptr_array_add (two, copy);
  g_assert_cmpuint (hw_pins_difference (one, two), ==, 0);
  copy->turns[1].threads = 1;
  g_assert_cmpuint (hw_pins_difference (one, two), ==, HW_SCENE_CHANGE_PINS);
  copy->turns[1] = (HwThreadTurn){ 2, 2 };
  g_assert_cmpuint (hw_pins_difference (one, two), ==, HW_SCENE_CHANGE_PINS);
  hw_pin_set_turns (copy, NULL, 0);
  g_assert_cmpuint (hw_pins_difference (one, two), ==, HW_SCENE_CHANGE_PINS);
}

static void
assert_smaller (guint done, gboolean in_turns, guint place, guint left, const char *order)
{
  g_autoptr (HwPin) pin = pin_of (done, in_turns);
  g_autoptr (HwPin) smaller = hw_pin_without (pin, place, blocks);
  guint others[2];
  g_autofree char *text = NULL;

  for (guint k = 0, n = 0; k < 3; k++)
    if (k != place)
      others[n++] = blocks[k];
  text = sequence_text (smaller, others);
  g_assert_cmpstr (text, ==, order);
  g_assert_cmpuint (smaller->work->threads_done, ==, left);
  g_assert_cmpuint (smaller->work->bobbin_at, ==, left);
  g_assert_cmpuint (g_strv_length (smaller->motifs), ==, 2);
  g_assert_cmpuint (pin->work->threads_done, ==, done);
  g_assert_cmpuint (g_strv_length (pin->motifs), ==, 3);
}

/* Four blocks done: Pear, Plum twice, Pear; without turns both of Pear and two of Plum. */
static void
without_a_motif_what_is_done_counts_the_others (void)
{
  assert_smaller (4, TRUE, 0, 2, "0 0 1 0");
  assert_smaller (4, TRUE, 1, 2, "0 0 1");
  assert_smaller (4, TRUE, 2, 4, "0 1 1 0 1");
  assert_smaller (4, FALSE, 0, 2, "0 0 0 1");
  assert_smaller (4, FALSE, 1, 2, "0 0 1");
  assert_smaller (4, FALSE, 2, 4, "0 0 1 1 1");
  assert_smaller (100, TRUE, 2, 5, "0 1 1 0 1"); /* more than there are: all */
}

static void
without_its_only_motif_nothing_is_left (void)
{
  g_autoptr (HwPin) pin = hw_pin_new ();

  pin->motifs = g_strsplit ("pear", " ", -1);
  g_assert_null (hw_pin_without (pin, 0, blocks));
}

static HwMotif *
motif (const char *id, guint n_threads)
{
  const HwThreadBlock threads[]
      = { { .name = (char *)"rust" }, { .name = (char *)"moss" }, { .name = (char *)"rust" } };
  HwMotif *one = hw_motif_new ();

  one->id = g_strdup (id);
  one->name = g_strdup (id);
  one->outline = hw_outline_new_rectangle (20, 20);
  one->placement = (HwPlacement){ { 50, 50 }, 0, 1, FALSE };
  hw_motif_set_threads (one, threads, n_threads);
  return one;
}

/* The scene does so itself when a motif is taken off the cloth, and undoes it. */
static void
a_motif_taken_off_the_cloth_leaves_the_machine (void)
{
  g_autoptr (HwScene) scene = hw_scene_new ();
  g_autoptr (GPtrArray) pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
  g_autoptr (HwSnapshot) before = NULL;
  const HwPin *pin;
  static const char *const ids[] = { "pear", "plum", "fig" };

  for (guint i = 0; i < 3; i++)
    {
      g_autoptr (HwMotif) record = motif (ids[i], blocks[i]);
      g_autoptr (HwSceneMotif) one = hw_scene_motif_new (record);

      hw_scene_insert_motif (scene, i, one);
    }
  g_ptr_array_add (pins, pin_of (4, TRUE));
  hw_scene_set_pins (scene, pins);
  before = hw_scene_snapshot (scene);
  hw_scene_remove_motif (scene, hw_scene_find_motif (scene, "plum"));
  pin = hw_scene_get_pins (scene)->pdata[0];
  g_assert_cmpstr (pin->motifs[1], ==, "fig");
  g_assert_cmpuint (pin->work->threads_done, ==, 2);
  g_assert_cmpuint (pin->n_turns, ==, 3);
  hw_scene_restore (scene, before);
  pin = hw_scene_get_pins (scene)->pdata[0];
  g_assert_cmpuint (pin->work->threads_done, ==, 4);
  g_assert_cmpuint (pin->n_turns, ==, 5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/pin-turns/" name, function)
  ADD ("by-turns", blocks_go_by_turns);
  ADD ("motif-by-motif", without_turns_motif_by_motif);
  ADD ("no-longer-fit", turns_that_no_longer_fit_are_not_taken);
  ADD ("not-there", turns_of_a_motif_that_is_not_there_are_not_taken);
  ADD ("copied-and-told", a_copy_has_the_turns_and_others_are_told);
  ADD ("without-a-motif", without_a_motif_what_is_done_counts_the_others);
  ADD ("without-the-only-one", without_its_only_motif_nothing_is_left);
  ADD ("off-the-cloth", a_motif_taken_off_the_cloth_leaves_the_machine);
  return g_test_run ();
}
