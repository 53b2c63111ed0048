/* A hooping is begun, gone through, stitched; it is laid aside and taken back; what goes wrong is put right. */
#include <glib/gstdio.h>
#include <math.h>

#include "bench-fixture.h"
#include "workbench/machine-work.h"

static gint64
clock_at (gpointer user_data)
{
  return (*(gint64 *)user_data)++;
}

static gint64 the_time;

static HwBench *
bench_at_the_machine (void)
{
  HwBench *bench = bench_with_orchard ();

  the_time = 1764090000; /* 2025-11-25 17:00 UTC */
  hw_bench_set_clock (bench, clock_at, &the_time);
  wait_for_plan (bench);
  return bench;
}

/* Which of two hoopings that do not overlap comes first is the planner's own affair. */
static guint
hooping_of (HwBench *bench, const char *id)
{
  const HwPlan *plan = hw_bench_get_plan (bench);
  int hooping = hw_plan_hooping_of (plan, (guint)hw_snapshot_find_motif (plan->snapshot, id));

  g_assert_cmpint (hooping, >=, 0);
  return (guint)hooping;
}

/* That of "m1" and "m2". */
static HwBench *
bench_with_hooping_begun (void)
{
  HwBench *bench = bench_at_the_machine ();

  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  wait_for_plan (bench);
  return bench;
}

static GPtrArray *
log_of (HwBench *bench)
{
  return hw_scene_get_log (hw_bench_get_scene (bench));
}

static HwLogKind
last_kind (HwBench *bench)
{
  GPtrArray *log = log_of (bench);

  g_assert_cmpuint (log->len, >, 0);
  return ((const HwLogLine *)g_ptr_array_index (log, log->len - 1))->kind;
}

static GPtrArray *
frozen_of (HwBench *bench)
{
  return hw_scene_get_frozen (hw_bench_get_scene (bench));
}

static void
test_begun_hooping_keeps_pose_motifs_and_marks (void)
{
  g_autoptr (HwBench) bench = bench_at_the_machine ();
  guint first = hooping_of (bench, "m1");
  const HwHooping hooping = hw_bench_get_plan (bench)->hoopings[first];
  guint n_marks = hooping.n_marks;
  HwPoint centre = hooping.centre;

  g_assert_cmpuint (n_marks, >=, 2);
  g_assert_true (hw_bench_begin_hooping (bench, first));
  const HwPin *pin = hw_bench_get_begun (bench);
  g_assert_nonnull (pin);
  g_assert_cmpint (pin->keep, ==, HW_KEEP_ALL);
  g_assert_cmpuint (g_strv_length (pin->motifs), ==, hooping.n_motifs);
  g_assert_cmpuint (pin->n_marks, ==, n_marks);
  g_assert_cmpfloat_with_epsilon (hw_point_distance (pin->centre, centre), 0, 1e-9);
  g_assert_cmpint (pin->work->step, ==, HW_WORK_MARK);
  g_assert_cmpint (pin->work->begun, ==, 1764090000);
  g_assert_cmpint (last_kind (bench), ==, HW_LOG_BEGUN);
  wait_for_plan (bench);
  g_assert_cmpint (hw_bench_get_begun_hooping (bench), ==, (int)hooping_of (bench, "m1"));
  g_autofree char *where = hw_machine_where_it_stopped (bench);
  g_autofree char *expected
      = g_strdup_printf ("Hooping %u is in the machine, at: draw the marks.", hooping_of (bench, "m1") + 1);
  g_assert_cmpstr (where, ==, expected);
}

static void
test_every_step_is_undone_by_itself (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();

  hw_bench_go_to_step (bench, HW_WORK_HOOP);
  hw_bench_go_to_step (bench, HW_WORK_STICK);
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_STICK);
  hw_bench_undo (bench);
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_HOOP);
  hw_bench_undo (bench);
  hw_bench_undo (bench);
  g_assert_null (hw_bench_get_begun (bench));
  g_assert_cmpuint (log_of (bench)->len, ==, 0);
  hw_bench_redo (bench);
  g_assert_nonnull (hw_bench_get_begun (bench));
}

static void
test_only_one_hooping_is_in_the_machine (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();

  hw_bench_go_to_step (bench, HW_WORK_HOOP);
  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m3")));
  GPtrArray *pins = hw_scene_get_pins (hw_bench_get_scene (bench));
  guint with_work = 0;
  for (guint i = 0; i < pins->len; i++)
    with_work += ((const HwPin *)g_ptr_array_index (pins, i))->work != NULL;
  g_assert_cmpuint (pins->len, ==, 2);
  g_assert_cmpuint (with_work, ==, 1);
  wait_for_plan (bench);
  g_assert_cmpint (hw_bench_get_begun_hooping (bench), ==, (int)hooping_of (bench, "m3"));
  hw_bench_undo (bench);
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_HOOP);
}

static void
test_a_begun_hooping_is_begun_only_once (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();

  hw_bench_go_to_step (bench, HW_WORK_CENTRE);
  g_assert_true (hw_bench_begin_hooping (bench, hooping_of (bench, "m1")));
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_CENTRE);
}

/* Of the marks of the hooping that is begun; letters go on from hooping to hooping. */
static const char *
letter_of (HwBench *bench, guint mark)
{
  return hw_bench_get_begun (bench)->marks[mark].letter;
}

/* Readings of a hooping that lies turned and shifted in the hoop. */
static void
read_all (HwBench *bench, double turn, HwPoint shift)
{
  const HwPin *pin = hw_bench_get_begun (bench);
  guint n = pin->n_marks;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (HwMachineWork) work = hw_machine_work_new (bench);
      HwPoint p = hw_point_turn (hw_machine_work_mark (work, i), turn);

      hw_bench_set_reading (bench, work->pin->marks[i].letter, (HwPoint){ p.x + shift.x, p.y + shift.y });
    }
}

static void
test_readings_give_the_correction_that_was_simulated (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  HwCorrectionAnswer answer = { 0 };

  read_all (bench, 1, (HwPoint){ -1.8, 0.6 });
  g_autoptr (HwMachineWork) work = hw_machine_work_new (bench);
  g_assert_true (hw_machine_work_correction (work, &answer, NULL));
  g_assert_cmpfloat_with_epsilon (answer.exact.turn, 1, 1e-6);
  g_assert_cmpfloat_with_epsilon (answer.chosen.shift.x, -1.8, 1e-6);
  g_assert_cmpfloat_with_epsilon (answer.chosen.shift.y, 0.6, 1e-6);
  g_assert_cmpfloat_with_epsilon (answer.chosen.turn, 1, 1e-6);
  /* A motif's own place is where the correction takes it: worked out anew here. */
  double turn;
  HwPoint planned = hw_machine_work_place (work, 0, NULL, NULL);
  HwPoint at = hw_machine_work_place (work, 0, &answer.chosen, &turn);
  double a = G_PI / 180;
  g_assert_cmpfloat_with_epsilon (at.x, planned.x * cos (a) - planned.y * sin (a) - 1.8, 1e-9);
  g_assert_cmpfloat_with_epsilon (at.y, planned.x * sin (a) + planned.y * cos (a) + 0.6, 1e-9);
  hw_bench_enter_correction (bench, &answer.chosen);
  hw_correction_answer_clear (&answer);
  const HwWork *entered = hw_bench_get_begun (bench)->work;
  g_assert_true (entered->corrected);
  g_assert_cmpint (entered->step, ==, HW_WORK_TEMPLATE_OFF);
  g_assert_cmpint (last_kind (bench), ==, HW_LOG_CORRECTION);
}

static void
test_reading_is_left_out_forgotten_and_of_no_other_mark (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();

  g_autofree char *letter = g_strdup (letter_of (bench, 0));

  read_all (bench, 0, (HwPoint){ 0, 0 });
  guint n = hw_bench_get_begun (bench)->work->n_readings;
  hw_bench_set_reading (bench, "Z", (HwPoint){ 1, 1 });
  g_assert_cmpuint (hw_bench_get_begun (bench)->work->n_readings, ==, n);
  hw_bench_leave_out_reading (bench, letter, TRUE);
  g_assert_true (hw_work_get_reading (hw_bench_get_begun (bench)->work, letter)->left_out);
  hw_bench_set_reading (bench, letter, (HwPoint){ 5, 5 });
  g_assert_true (hw_work_get_reading (hw_bench_get_begun (bench)->work, letter)->left_out);
  hw_bench_forget_reading (bench, letter);
  g_assert_null (hw_work_get_reading (hw_bench_get_begun (bench)->work, letter));
  hw_bench_hoop_again (bench);
  g_assert_cmpuint (hw_bench_get_begun (bench)->work->n_readings, ==, 0);
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_HOOP);
}

/* Found in a photo, corrected at the needle: the log tells which is which. */
static void
test_readings_keep_whether_they_are_from_a_photo (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  g_autofree char *first = g_strdup (letter_of (bench, 0)), *second = g_strdup (letter_of (bench, 1));
  g_autofree char *expected
      = g_strdup_printf ("%s 59.0 mm left, 58.5 mm away from you (left out) (from a photo); %s 61.0 mm "
                         "right, 61.0 mm towards you.",
                         first, second);
  HwReading found[]
      = { { "", { -60, -60 }, { -59, -58.5 }, FALSE, TRUE }, { "", { 60, 60 }, { 61, 61.5 }, FALSE, TRUE } };

  g_strlcpy (found[0].letter, first, sizeof found[0].letter);
  g_strlcpy (found[1].letter, second, sizeof found[1].letter);
  hw_bench_go_to_step (bench, HW_WORK_READ);
  hw_bench_set_readings (bench, "read the marks in a photo", found, 2);
  hw_bench_leave_out_reading (bench, first, TRUE);
  g_assert_true (hw_work_get_reading (hw_bench_get_begun (bench)->work, first)->by_photo);
  hw_bench_set_reading (bench, second, (HwPoint){ 61, 61 });
  g_assert_false (hw_work_get_reading (hw_bench_get_begun (bench)->work, second)->by_photo);
  hw_bench_go_to_step (bench, HW_WORK_ENTER);
  g_assert_cmpint (last_kind (bench), ==, HW_LOG_READINGS);
  GPtrArray *log = hw_scene_get_log (hw_bench_get_scene (bench));
  g_assert_cmpstr (((HwLogLine *)g_ptr_array_index (log, log->len - 1))->text, ==, expected);
}

static void
test_threads_are_counted_to_the_last (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  g_autoptr (HwMachineWork) work = hw_machine_work_new (bench);
  guint n = work->steps->len;

  g_assert_cmpuint (n, ==, 2);
  hw_bench_go_to_step (bench, HW_WORK_STITCH);
  hw_bench_thread_done (bench, n, "m1", "moss");
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_STITCH);
  hw_bench_thread_broke (bench, "m2", "moss");
  g_assert_cmpint (last_kind (bench), ==, HW_LOG_THREAD_BROKE);
  hw_bench_thread_done (bench, n, "m2", "moss");
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_DONE);
  hw_bench_thread_back (bench);
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_STITCH);
  g_assert_cmpuint (hw_bench_get_begun (bench)->work->threads_done, ==, 1);
}

static void
test_stitched_hooping_is_frozen_with_its_work_and_taken_back (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  guint n_marks = hw_bench_get_begun (bench)->n_marks;

  hw_bench_note_step (bench, HW_WORK_HOOP, "the ring sits tight");
  g_assert_true (hw_bench_stitched (bench));
  g_assert_null (hw_bench_get_begun (bench));
  g_assert_cmpuint (frozen_of (bench)->len, ==, 1);
  const HwPin *pin = g_ptr_array_index (frozen_of (bench), 0);
  g_assert_cmpuint (pin->n_marks, ==, n_marks);
  g_assert_cmpstr (pin->work->notes[HW_WORK_HOOP], ==, "the ring sits tight");
  g_assert_cmpint (pin->work->ended, >, pin->work->begun);
  g_assert_cmpint (last_kind (bench), ==, HW_LOG_STITCHED);
  wait_for_plan (bench);
  g_assert_cmpint (hw_bench_get_plan (bench)->hoopings[0].hold, ==, HW_PLACE_FROZEN);
  g_assert_false (hw_bench_begin_hooping (bench, 0));

  g_assert_true (hw_bench_take_back (bench));
  g_assert_cmpuint (frozen_of (bench)->len, ==, 0);
  g_assert_cmpint (hw_bench_get_begun (bench)->work->step, ==, HW_WORK_DONE);
  hw_bench_undo (bench);
  g_assert_cmpuint (frozen_of (bench)->len, ==, 1);
}

static void
test_log_lines_bear_the_time_and_follow_each_other (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();

  read_all (bench, 0, (HwPoint){ 0, 0 });
  hw_bench_go_to_step (bench, HW_WORK_READ);
  hw_bench_go_to_step (bench, HW_WORK_ENTER);
  hw_bench_enter_correction (bench, NULL);
  hw_bench_go_to_step (bench, HW_WORK_STITCH);
  hw_bench_stitched (bench);
  GPtrArray *log = log_of (bench);
  const HwLogKind expected[] = { HW_LOG_BEGUN, HW_LOG_READINGS, HW_LOG_TEMPLATE_OFF, HW_LOG_STITCHED };
  g_assert_cmpuint (log->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < log->len; i++)
    {
      const HwLogLine *line = g_ptr_array_index (log, i);

      g_assert_cmpint (line->kind, ==, expected[i]);
      g_assert_cmpstr (line->motif, ==, "m1");
      if (i > 0)
        g_assert_cmpint (line->at, >, ((const HwLogLine *)g_ptr_array_index (log, i - 1))->at);
    }
}

static void
test_later_hooping_may_be_stitched_first (void)
{
  g_autoptr (HwBench) bench = bench_at_the_machine ();

  const HwPlan *plan = hw_bench_get_plan (bench);
  g_autofree char *later = g_strdup (hw_snapshot_motif (plan->snapshot, plan->hoopings[1].motifs[0])->id);
  g_assert_true (hw_bench_mark_stitched (bench, 1));
  wait_for_plan (bench);
  plan = hw_bench_get_plan (bench);
  g_assert_cmpuint (plan->n_hoopings, ==, 2);
  g_assert_cmpint (plan->hoopings[0].hold, ==, HW_PLACE_FROZEN);
  g_assert_cmpstr (hw_snapshot_motif (plan->snapshot, plan->hoopings[0].motifs[0])->id, ==, later);
}

static const HwProblem *
find_problem (const HwPlan *plan, HwProblemKind kind)
{
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);
      if (problem->kind == kind)
        return problem;
    }
  return NULL;
}

static void
test_overlap_stitched_the_wrong_way_round_is_told (void)
{
  g_autoptr (HwBench) bench = bench_at_the_machine ();
  HwScene *scene = hw_bench_get_scene (bench);
  const char *pair[] = { "m2", "m3", NULL };
  HwPlacement placement = { .position = { 180, 100 }, .scale = 1 };

  /* Quince lies over Plum, between 160 and 170 mm, and is kept out of its hooping. */
  hw_scene_motif_set_placement (hw_scene_find_motif (scene, "m3"), &placement);
  hw_bench_select_ids (bench, pair);
  hw_bench_keep_apart (bench);
  wait_for_plan (bench);
  g_assert_null (find_problem (hw_bench_get_plan (bench), HW_PROBLEM_STITCHED_OUT_OF_ORDER));
  g_assert_true (hw_bench_mark_stitched (bench, hooping_of (bench, "m3")));
  wait_for_plan (bench);
  const HwProblem *problem = find_problem (hw_bench_get_plan (bench), HW_PROBLEM_STITCHED_OUT_OF_ORDER);
  g_assert_nonnull (problem);
  g_assert_cmpint (problem->motif, ==, 1);
  g_assert_cmpint (problem->other, ==, 2);
  g_assert_cmpfloat_with_epsilon (problem->where.x, 165, 1e-9);
  g_assert_true (g_str_has_prefix (problem->text, "Quince is stitched already, but Plum"));
  g_assert_true (hw_bench_mark_stitched (bench, hooping_of (bench, "m2")));
  wait_for_plan (bench);
  problem = find_problem (hw_bench_get_plan (bench), HW_PROBLEM_STITCHED_OUT_OF_ORDER);
  g_assert_nonnull (problem);
  g_assert_true (g_str_has_prefix (problem->text, "Quince was stitched before Plum"));
}

static void
test_landed_hooping_is_put_where_it_lies (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  HwScene *scene = hw_bench_get_scene (bench);
  HwCorrection landed = { { 3, -2 }, 0 };

  HwPoint before = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m1"))->placement.position;
  HwPoint other = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m3"))->placement.position;
  double angle = hw_bench_get_begun (bench)->angle;
  hw_bench_stitched (bench);
  hw_bench_landed (bench, 0, &landed);
  HwPoint after = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m1"))->placement.position;
  HwPoint way = hw_point_turn (landed.shift, angle);
  g_assert_cmpfloat_with_epsilon (after.x - before.x, way.x, 1e-9);
  g_assert_cmpfloat_with_epsilon (after.y - before.y, way.y, 1e-9);
  HwPoint still = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m3"))->placement.position;
  g_assert_cmpfloat_with_epsilon (hw_point_distance (still, other), 0, 1e-12);
  g_assert_cmpint (last_kind (bench), ==, HW_LOG_LANDED);
  hw_bench_undo (bench);
  after = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m1"))->placement.position;
  g_assert_cmpfloat_with_epsilon (hw_point_distance (after, before), 0, 1e-12);
}

/* Cloth turned by c and shifted by s in the hoop, stitched under K: where a point lies on the cloth is worked out by hand. */
static void
test_landing_is_told_from_readings_and_what_was_entered (void)
{
  HwRigidFit found = { .turn = 2, .shift = { 4, -1 } };
  HwCorrection entered = { { 1.5, 0.5 }, 1 };
  HwCorrection landed = hw_landed_from_readings (&found, &entered);
  HwPoint p = { 40, -25 };
  HwPoint needle = hw_correction_apply (&entered, p);
  HwPoint on_cloth = hw_correction_apply (&landed, p);
  HwPoint back = hw_correction_apply (&(HwCorrection){ found.shift, found.turn }, on_cloth);

  g_assert_cmpfloat_with_epsilon (hw_point_distance (back, needle), 0, 1e-9);
  HwCorrection none = hw_landed_from_readings (&(HwRigidFit){ .turn = 1, .shift = { 2, 3 } },
                                               &(HwCorrection){ { 2, 3 }, 1 });
  g_assert_cmpfloat_with_epsilon (hypot (none.shift.x, none.shift.y), 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (none.turn, 0, 1e-12);
}

static void
test_the_rest_follows_cloth_that_drew_in (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  HwScene *scene = hw_bench_get_scene (bench);
  HwStretch stretch = { .kind = HW_STRETCH_AXES, .xx = 0.99, .yy = 1 };

  hw_bench_stitched (bench);
  HwPoint stitched = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m1"))->placement.position;
  HwPoint before = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m3"))->placement.position;
  hw_bench_follow_cloth (bench, &stretch);
  HwPoint after = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m3"))->placement.position;
  HwPoint same = hw_scene_motif_get_record (hw_scene_find_motif (scene, "m1"))->placement.position;
  /* The stitched motifs reach from 80 to 170 mm: the cloth stands still at 125 mm, 425 mm away from the third. */
  g_assert_cmpfloat_with_epsilon (after.x - before.x, -4.25, 1e-6);
  g_assert_cmpfloat_with_epsilon (after.y - before.y, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (hw_point_distance (stitched, same), 0, 1e-12);
  g_assert_cmpint (last_kind (bench), ==, HW_LOG_DRAW_IN);

  /* How it lay before is shown beside it until something else is done. */
  const HwSnapshot *beside = hw_bench_get_beside (bench);
  g_assert_nonnull (beside);
  g_assert_cmpfloat_with_epsilon (
      hw_snapshot_motif (beside, hw_snapshot_find_motif (beside, "m3"))->placement.position.x, before.x,
      1e-12);
  hw_bench_undo (bench);
  g_assert_null (hw_bench_get_beside (bench));
}

static void
test_hoop_that_is_gone_lets_its_hooping_go (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  HwScene *scene = hw_bench_get_scene (bench);

  hw_bench_hoop_unavailable (bench, "h1");
  g_assert_null (hw_bench_get_begun (bench));
  g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 0);
  wait_for_plan (bench);
  g_assert_cmpint (hw_bench_get_plan (bench)->status, ==, HW_PLAN_UNPLANNABLE);
  hw_bench_undo (bench);
  g_assert_nonnull (hw_bench_get_begun (bench));
}

static void
test_work_outlives_its_file (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "orchard.hoopscene", NULL);
  g_autoptr (GError) error = NULL;

  read_all (bench, 1, (HwPoint){ 2, 1 });
  hw_bench_go_to_step (bench, HW_WORK_READ);
  hw_bench_note_step (bench, HW_WORK_READ, "by daylight");
  hw_bench_save (bench, path, &error);
  g_assert_no_error (error);
  g_autoptr (HwBench) again = hw_bench_new ();
  hw_bench_open (again, path, &error);
  g_assert_no_error (error);
  const HwWork *work = hw_bench_get_begun (again)->work;
  g_assert_cmpint (work->step, ==, HW_WORK_READ);
  g_assert_cmpuint (work->n_readings, ==, hw_bench_get_begun (bench)->work->n_readings);
  g_assert_cmpstr (work->notes[HW_WORK_READ], ==, "by daylight");
  g_assert_cmpuint (log_of (again)->len, ==, log_of (bench)->len);
  g_remove (path);
  g_rmdir (folder);
}

/* Typing at the machine starts no planning, and yet the plan holds the scene as it is now: papers and advice read it there. */
static void
test_readings_start_no_planning (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  g_autoptr (HwSnapshot) now = NULL;
  gboolean planning;
  guint n_hoopings = hw_bench_get_plan (bench)->n_hoopings;

  hw_bench_set_reading (bench, letter_of (bench, 0), (HwPoint){ 1, 2 });
  hw_bench_note_step (bench, HW_WORK_READ, "a breeze");
  g_object_get (bench, "planning", &planning, NULL);
  g_assert_false (planning);
  now = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_assert_true (hw_bench_get_plan (bench)->snapshot == now);
  g_assert_cmpuint (hw_bench_get_plan (bench)->n_hoopings, ==, n_hoopings);

  hw_bench_undo (bench);
  g_object_get (bench, "planning", &planning, NULL);
  g_assert_false (planning);
  g_object_set (hw_bench_get_scene (bench), "name", "The Windy Orchard", NULL);
  g_object_get (bench, "planning", &planning, NULL);
  g_assert_true (planning);
  wait_for_plan (bench);
}

/* What is typed while a plan is being made is not lost when it comes. */
static void
test_a_plan_that_comes_late_holds_the_newest_work (void)
{
  g_autoptr (HwBench) bench = bench_with_hooping_begun ();
  g_autoptr (HwSnapshot) now = NULL;

  g_object_set (hw_bench_get_scene (bench), "name", "The Windy Orchard", NULL);
  hw_bench_set_reading (bench, letter_of (bench, 0), (HwPoint){ 1, 2 });
  wait_for_plan (bench);
  now = hw_scene_snapshot (hw_bench_get_scene (bench));
  g_assert_true (hw_bench_get_plan (bench)->snapshot == now);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench-machine/begun hooping keeps pose motifs and marks",
                   test_begun_hooping_keeps_pose_motifs_and_marks);
  g_test_add_func ("/bench-machine/every step is undone by itself", test_every_step_is_undone_by_itself);
  g_test_add_func ("/bench-machine/only one hooping is in the machine",
                   test_only_one_hooping_is_in_the_machine);
  g_test_add_func ("/bench-machine/a begun hooping is begun only once",
                   test_a_begun_hooping_is_begun_only_once);
  g_test_add_func ("/bench-machine/readings give the correction that was simulated",
                   test_readings_give_the_correction_that_was_simulated);
  g_test_add_func ("/bench-machine/reading is left out forgotten and of no other mark",
                   test_reading_is_left_out_forgotten_and_of_no_other_mark);
  g_test_add_func ("/bench-machine/readings keep whether they are from a photo",
                   test_readings_keep_whether_they_are_from_a_photo);
  g_test_add_func ("/bench-machine/readings start no planning", test_readings_start_no_planning);
  g_test_add_func ("/bench-machine/a plan that comes late holds the newest work",
                   test_a_plan_that_comes_late_holds_the_newest_work);
  g_test_add_func ("/bench-machine/threads are counted to the last", test_threads_are_counted_to_the_last);
  g_test_add_func ("/bench-machine/stitched hooping is frozen with its work and taken back",
                   test_stitched_hooping_is_frozen_with_its_work_and_taken_back);
  g_test_add_func ("/bench-machine/log lines bear the time and follow each other",
                   test_log_lines_bear_the_time_and_follow_each_other);
  g_test_add_func ("/bench-machine/later hooping may be stitched first",
                   test_later_hooping_may_be_stitched_first);
  g_test_add_func ("/bench-machine/an overlap stitched the wrong way round is told",
                   test_overlap_stitched_the_wrong_way_round_is_told);
  g_test_add_func ("/bench-machine/landed hooping is put where it lies",
                   test_landed_hooping_is_put_where_it_lies);
  g_test_add_func ("/bench-machine/landing is told from readings and what was entered",
                   test_landing_is_told_from_readings_and_what_was_entered);
  g_test_add_func ("/bench-machine/the rest follows cloth that drew in",
                   test_the_rest_follows_cloth_that_drew_in);
  g_test_add_func ("/bench-machine/hoop that is gone lets its hooping go",
                   test_hoop_that_is_gone_lets_its_hooping_go);
  g_test_add_func ("/bench-machine/work outlives its file", test_work_outlives_its_file);
  return g_test_run ();
}
