/* What the machine view says where a hooping has no marks, where it was held before it was begun, and while no plan is there. */
#include "bench-fixture.h"
#include "workbench/machine-work.h"

/* Pear alone in the machine, without marks. */
static HwBench *
bench_without_marks (void)
{
  HwBench *bench = bench_with_orchard ();
  g_autoptr (GPtrArray) pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
  HwPin *pin = hw_pin_new ();

  pin->hoop = g_strdup ("h1");
  pin->centre = (HwPoint){ 125, 100 };
  pin->motifs = g_strsplit ("m1 m2", " ", -1);
  pin->work = hw_work_new ();
  g_ptr_array_add (pins, pin);
  hw_scene_set_pins (hw_bench_get_scene (bench), pins);
  return bench;
}

static void
assert_sentence (const HwMachineWork *work, HwWorkStep step, const char *sentence)
{
  g_autofree char *said = hw_machine_step_sentence (work, step);

  g_assert_cmpstr (said, ==, sentence);
}

static void
without_marks_there_is_nothing_to_read (void)
{
  g_autoptr (HwBench) bench = bench_without_marks ();
  g_autoptr (HwMachineWork) work = hw_machine_work_new (bench);

  g_assert_nonnull (work);
  assert_sentence (work, HW_WORK_MARK,
                   "Draw or check on the cloth: the hoop's centre cross, its arrow to the top of the hoop.");
  assert_sentence (
      work, HW_WORK_READ,
      "This hooping has no marks to read. Check the template's cross mark under the needle and go on.");
}

/* The plan may be on its way: what is in the machine is known from the scene alone. */
static void
without_a_plan_its_number_counts_what_is_stitched (void)
{
  g_autoptr (HwBench) bench = bench_without_marks ();
  g_autoptr (HwMachineWork) work = NULL;
  g_autofree char *where = NULL;

  g_assert_null (hw_bench_get_plan (bench));
  work = hw_machine_work_new (bench);
  where = hw_machine_where_it_stopped (bench);
  g_assert_cmpuint (work->number, ==, 1);
  g_assert_cmpuint (work->n_all, ==, 0);
  g_assert_cmpuint (work->steps->len, ==, 2);
  g_assert_cmpstr (where, ==, "A hooping is in the machine, at: draw the marks.");
  hw_machine_work_unref (NULL); /* as with free() */
}

static void
nothing_in_the_machine_is_nothing_to_say (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();

  wait_for_plan (bench);
  g_assert_null (hw_machine_work_new (bench));
  g_assert_null (hw_machine_where_it_stopped (bench));
}

/* A hooping that was held is the same one in the machine: its pose and its marks stay, none is held twice. */
static void
what_was_held_is_begun_as_it_was (void)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  const HwPin *pin;
  HwPoint centre;

  wait_for_plan (bench);
  int hooping = hw_plan_hooping_of (hw_bench_get_plan (bench), 0);
  hw_bench_keep_hooping (bench, (guint)hooping, HW_KEEP_ALL);
  wait_for_plan (bench);
  hooping = hw_plan_hooping_of (hw_bench_get_plan (bench), 0);
  centre = ((const HwPin *)hw_scene_get_pins (hw_bench_get_scene (bench))->pdata[0])->centre;
  g_assert_true (hw_bench_begin_hooping (bench, (guint)hooping));
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (bench))->len, ==, 1);
  pin = hw_bench_get_begun (bench);
  g_assert_cmpfloat (hw_point_distance (pin->centre, centre), ==, 0);
  g_assert_cmpuint (pin->n_marks, ==, hw_bench_get_plan (bench)->hoopings[hooping].n_marks);
  wait_for_plan (bench);

  /* Laid aside it is still held, with its marks; begun once more it has them still. */
  g_autofree char *letter = g_strdup (pin->marks[0].letter);
  hw_bench_lay_aside (bench);
  wait_for_plan (bench);
  hooping = hw_plan_hooping_of (hw_bench_get_plan (bench), 0);
  g_assert_true (hw_bench_begin_hooping (bench, (guint)hooping));
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (bench))->len, ==, 1);
  g_assert_cmpstr (hw_bench_get_begun (bench)->marks[0].letter, ==, letter);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/machine-words/" name, function)
  ADD ("no-marks", without_marks_there_is_nothing_to_read);
  ADD ("no-plan", without_a_plan_its_number_counts_what_is_stitched);
  ADD ("nothing", nothing_in_the_machine_is_nothing_to_say);
  ADD ("held-before", what_was_held_is_begun_as_it_was);
  return g_test_run ();
}
