/* What is said of a plan in a line: how good it is, its time, the hoopings of a part, its marks; every nick that files use. Plans put together by
 * hand, so that each wording is met. */
#include "plans-by-hand.h"

#include <math.h>

#include "../../src/planning/mark-list.h"
#include "../../src/planning/parts-hoopings.h"

static void
assert_text (char *text, const char *wanted)
{
  g_assert_cmpstr (text, ==, wanted);
  g_free (text);
}

static void
the_sentence_says_how_good_the_plan_is (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  plan->lower_bound = 1;
  plan->thread_changes = 1;
  plan->minutes = 25;
  assert_text (hw_plan_sentence (plan),
               "2 hoopings, at most 1 more than the fewest · 1 thread change · about 25 minutes");
  plan->lower_bound = 3; /* a bound of more would be a mistake, not fewer than none */
  assert_text (hw_plan_sentence (plan),
               "2 hoopings, at most 0 more than the fewest · 1 thread change · about 25 minutes");
  plan->status = HW_PLAN_OPTIMAL;
  plan->thread_changes = 18;
  plan->minutes = 190;
  assert_text (hw_plan_sentence (plan), "2 hoopings, proven fewest · 18 thread changes · about 3 h 10");
  plan->status = HW_PLAN_UNPLANNABLE;
  assert_text (hw_plan_sentence (plan), "2 hoopings, not the whole scene · 18 thread changes · about 3 h 10");
  scene->wishes.best = HW_BEST_LEAST_TIME;
  assert_text (hw_plan_sentence (plan), "2 hoopings, not the whole scene · 18 thread changes · about 3 h 10");
  plan->status = HW_PLAN_FEASIBLE;
  plan->minutes_bound = 188.5;
  assert_text (hw_plan_sentence (plan),
               "2 hoopings · 18 thread changes · about 3 h 10, at most 2 minutes over the least time");
  plan->minutes_bound = 189.5;
  assert_text (hw_plan_sentence (plan),
               "2 hoopings · 18 thread changes · about 3 h 10, at most 1 minute over the least time");
  plan->least_time_proven = TRUE;
  assert_text (hw_plan_sentence (plan), "2 hoopings · 18 thread changes · about 3 h 10, proven least time");
  plan->n_hoopings = 0;
  assert_text (hw_plan_sentence (plan), "No motifs yet");
  plan->status = HW_PLAN_UNPLANNABLE;
  assert_text (hw_plan_sentence (plan), "Nothing here can be stitched yet");
  plan->n_hoopings = 2;
}

/* To a minute up to five hours, from then on to five. */
static void
times_are_as_exact_as_they_are_known (void)
{
  assert_text (hw_plan_time_text (0.4), "about 0 minutes");
  assert_text (hw_plan_time_text (1), "about 1 minute");
  assert_text (hw_plan_time_text (59.4), "about 59 minutes");
  assert_text (hw_plan_time_text (59.5), "about 1 h 00");
  assert_text (hw_plan_time_text (299), "about 4 h 59");
  assert_text (hw_plan_time_text (300), "about 5 h 00");
  assert_text (hw_plan_time_text (302), "about 5 h 00");
  assert_text (hw_plan_time_text (303), "about 5 h 05");
  assert_text (hw_plan_time_text (1e300), "about 1666666 h 40");
}

static void
what_the_order_saves_is_said_where_it_does (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);

  plan->thread_changes = 18;
  plan->one_by_one_changes = 18;
  assert_text (hw_plan_saving_sentence (plan), NULL);
  plan->one_by_one_changes = 31;
  assert_text (hw_plan_saving_sentence (plan), "18 thread changes; stitched one by one it would be 31");
  plan->thread_changes = 1;
  assert_text (hw_plan_saving_sentence (plan), "1 thread change; stitched one by one it would be 31");
  plan->n_hoopings = 0;
  assert_text (hw_plan_saving_sentence (plan), NULL);
  plan->n_hoopings = 2;
}

static void
a_machine_that_stands_still_gives_no_endless_time (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);
  HwThreadBlock moss = { .name = (char *)"moss", .stitches = 120 };

  hw_motif_set_threads ((HwMotif *)hw_snapshot_motif (scene, 0), &moss, 1);
  scene->machine.minutes_per_hooping = 8;
  scene->machine.stitches_per_minute = 60;
  hw_plan_count (plan);
  g_assert_cmpfloat_with_epsilon (plan->minutes, 18, 1e-9);
  scene->machine.stitches_per_minute = 0;
  hw_plan_count (plan);
  g_assert_cmpfloat_with_epsilon (plan->minutes, 16 + 120, 1e-9);
}

/* The work on a hooping is found by its first motif, whatever else is written of pins. */
static void
work_is_found_by_the_first_motif (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);
  HwPin *bare = little_pin ("h1", 0, 0, "m1"), *other = little_pin ("h1", 0, 0, "m3"),
        *own = little_pin ("h1", 0, 0, "m2 m1"), *unbegun = little_pin ("h1", 0, 0, "m1");

  g_clear_pointer (&bare->motifs, g_strfreev);
  bare->work = hw_work_new ();
  other->work = hw_work_new ();
  own->work = hw_work_new ();
  g_ptr_array_add (scene->pins, bare);
  g_ptr_array_add (scene->pins, unbegun);
  g_ptr_array_add (scene->pins, other);
  g_ptr_array_add (scene->pins, own);
  g_assert_true (hw_work_of_hooping (plan, 0) == own->work);
  g_assert_true (hw_work_of_hooping (plan, 1) == other->work);
  plan->hoopings[0].hold = HW_PLACE_FROZEN; /* of one that is stitched the pins say nothing */
  g_assert_null (hw_work_of_hooping (plan, 0));
  plan->hoopings[0].n_motifs = 0;
  g_assert_null (hw_work_of_hooping (plan, 0));
  g_ptr_array_unref (g_steal_pointer (&scene->pins));
  g_assert_null (hw_work_of_hooping (plan, 1));
  scene->pins = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_pin_unref);
}

/* Every kind has its own nick: files and commands tell problems apart by it. */
static void
nicks_are_all_there_and_different (void)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (HwProblemKind kind = HW_PROBLEM_OVERSIZE; kind <= HW_PROBLEM_PART; kind++)
    g_assert_true (g_hash_table_add (seen, (gpointer)hw_problem_nick (kind)));
  g_assert_cmpstr (hw_problem_nick (HW_PROBLEM_CLOTH_TOO_SMALL), ==, "cloth-too-small");
  g_assert_cmpstr (hw_plan_status_nick (HW_PLAN_OPTIMAL), ==, "optimal");
  g_assert_cmpstr (hw_plan_status_nick (HW_PLAN_FEASIBLE), ==, "feasible");
  g_assert_cmpstr (hw_plan_status_nick (HW_PLAN_UNPLANNABLE), ==, "unplannable");
}

static void
add_part (HwSnapshot *scene, const char *name, const char *motifs)
{
  g_auto (GStrv) ids = g_strsplit (motifs, " ", -1);

  g_ptr_array_add (scene->parts, hw_part_new (name, *motifs != '\0' ? (const char *const *)ids : NULL));
}

/* Hoopings 1 to 3 of the first part and 5; hooping 4 of the second, 6 of a motif that joined it; nothing of the third. */
static void
hoopings_of_a_part_are_listed (void)
{
  g_autoptr (HwSnapshot) scene = garden ();
  g_autoptr (HwPlan) plan = hw_plan_new (scene);

  for (guint i = 0; i < 6; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i);

      little_motif (scene, number, 10, 10, 50 + 120 * i, 100);
      hoop_up (plan, 50 + 120 * i, 100, number);
    }
  add_part (scene, "Upper", "m2 m3 m5");
  add_part (scene, "Lower", "m4");
  add_part (scene, "Border", "m6");
  hw_plan_add_problem (plan, HW_PROBLEM_PART, 5, FALSE, g_strdup ("5 joins 3."))->other = 3;
  hw_plan_add_problem (plan, HW_PROBLEM_MARKS, 4, FALSE, g_strdup ("Hooping 5 has no mark."));
  assert_text (hw_plan_part_text (plan, 0), "Hoopings 1 to 3, 5");
  assert_text (hw_plan_part_text (plan, 1), "Hoopings 4, 6");
  assert_text (hw_plan_part_text (plan, 2), "No hooping");
  plan->n_hoopings = 4;
  assert_text (hw_plan_part_text (plan, 1), "Hooping 4");
  /* A hooping with motifs of two parts counts with the earlier; one of none with those before it. */
  for (guint h = 1; h < 6; h++)
    g_free (plan->hoopings[h].motifs);
  plan->n_hoopings = 1;
  hoop_up (plan, 170, 100, "3 1");
  hoop_up (plan, 290, 100, "0");
  assert_text (hw_plan_part_text (plan, 0), "Hoopings 1 to 3");
  g_ptr_array_set_size (scene->parts, 0);
  g_ptr_array_set_size (plan->problems, 0);
  assert_text (hw_plan_part_text (plan, 0), "No hooping");
  g_assert_cmpint (hw_snapshot_find_part (scene, "Upper"), ==, -1);
}

static void
marks_are_told_from_the_corner (void)
{
  g_autoptr (HwSnapshot) scene = garden ();

  scene->edge_line = hw_edge_line_new_shape (HW_EDGE_RECTANGLE, (HwBox){ 100, 50, 760, 550 }, 0, 2);
  assert_text (hw_mark_place_text (scene, (HwPoint){ 160, 62.5 }, HW_UNIT_MM), "60.0 mm right, 12.5 mm down");
  assert_text (hw_mark_place_text (scene, (HwPoint){ 160, 37.5 }, HW_UNIT_MM), "60.0 mm right, 12.5 mm up");
  assert_text (hw_mark_place_text (scene, (HwPoint){ 40, 62.5 }, HW_UNIT_MM), "60.0 mm left, 12.5 mm down");
  assert_text (hw_mark_place_text (scene, (HwPoint){ 40, 37.5 }, HW_UNIT_MM), "60.0 mm left, 12.5 mm up");
}

static void
held_marks_are_known_in_the_list (void)
{
  g_autoptr (HwSnapshot) scene = NULL;
  g_autoptr (HwPlan) plan = plan_of_three (&scene);
  g_autoptr (HwMarkList) list = NULL;
  HwHooping *first = &plan->hoopings[0];

  first->marks = g_new0 (HwMark, 2);
  first->n_marks = 2;
  first->marks[0] = (HwMark){ "A", { 90, 60 } };
  first->marks[1] = (HwMark){ "B", { 400, 100 } }; /* the centre of the other hooping as well */
  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m2", (HwPoint){ 300, 100 }));
  g_ptr_array_add (scene->held_marks, hw_held_mark_new ("m1", (HwPoint){ 90, 60 }));
  list = hw_mark_list_new (plan);
  g_assert_cmpuint (list->marks->len, ==, 3);
  for (guint i = 0; i < 3; i++)
    g_assert_true (((HwListedMark *)list->marks->pdata[i])->is_held == (i == 1));
  g_assert_cmpstr (((HwListedMark *)list->marks->pdata[2])->name, ==, "1 B, 2 centre");
  g_assert_true (((HwListedMark *)list->marks->pdata[2])->is_centre);
  assert_text (hw_mark_list_text (list, HW_UNIT_INCH),
               "Measured from the cloth's top left corner.\nMark\tRight (in)\tDown (in)\n1 "
               "centre\t4.92\t3.94\n1 A\t3.54\t2.36\n1 B, 2 "
               "centre\t15.75\t3.94\n");
  hw_mark_list_free (NULL);
}

static void
errors_to_be_expected_are_told_in_the_unit (void)
{
  assert_text (hw_mark_error_text (0.42, HW_UNIT_MM), "0.42 mm");
  assert_text (hw_mark_error_text (0.42, HW_UNIT_INCH), "0.017 in");
  assert_text (hw_mark_error_text (INFINITY, HW_UNIT_MM), "not known");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/planning/plan-sentences/how-good", the_sentence_says_how_good_the_plan_is);
  g_test_add_func ("/planning/plan-sentences/times", times_are_as_exact_as_they_are_known);
  g_test_add_func ("/planning/plan-sentences/saving", what_the_order_saves_is_said_where_it_does);
  g_test_add_func ("/planning/plan-sentences/standing-still",
                   a_machine_that_stands_still_gives_no_endless_time);
  g_test_add_func ("/planning/plan-sentences/work", work_is_found_by_the_first_motif);
  g_test_add_func ("/planning/plan-sentences/nicks", nicks_are_all_there_and_different);
  g_test_add_func ("/planning/plan-sentences/part", hoopings_of_a_part_are_listed);
  g_test_add_func ("/planning/plan-sentences/mark-place", marks_are_told_from_the_corner);
  g_test_add_func ("/planning/plan-sentences/held-marks", held_marks_are_known_in_the_list);
  g_test_add_func ("/planning/plan-sentences/errors", errors_to_be_expected_are_told_in_the_unit);
  return g_test_run ();
}
