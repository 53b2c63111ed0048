/* Which plans are drawn anew: those in which a hoop, a pose, a motif or a mark is another; not those that only say otherwise what is the same. */
#include "bench-fixture.h"
#include "workbench/canvas-alike.h"

static HwPlan *
plan_now (HwBench *bench)
{
  wait_for_plan (bench);
  return hw_plan_ref (hw_bench_get_plan (bench));
}

typedef void (*Change) (HwBench *bench);

/* The scene's one hoop as it is now. Returns: (transfer full) */
static HwHoop *
hoop_of (HwBench *bench)
{
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (hw_bench_get_scene (bench));

  return hw_hoop_copy (hw_snapshot_hoop (now, 0));
}

static void
set_hoop (HwBench *bench, const HwHoop *record)
{
  g_autoptr (HwSceneHoop) hoop = g_list_model_get_item (hw_scene_get_hoops (hw_bench_get_scene (bench)), 0);

  hw_scene_hoop_set_record (hoop, record);
}

static void
rename_all (HwBench *bench)
{
  g_autoptr (HwHoop) hoop = hoop_of (bench);

  g_free (hoop->name);
  hoop->name = g_strdup ("The old one");
  set_hoop (bench, hoop);
}

static void
narrow_hoop (HwBench *bench)
{
  g_autoptr (HwHoop) hoop = hoop_of (bench);

  hoop->frame_width -= 1;
  set_hoop (bench, hoop);
}

static void
move_far (HwBench *bench)
{
  hw_bench_select_only (bench, "m3");
  hw_bench_nudge (bench, -40, 100);
}

static void
move_by_less_than_is_seen (HwBench *bench)
{
  hw_bench_select_all (bench);
  hw_bench_nudge (bench, 0.001, 0.001);
}

static void
keep_apart (HwBench *bench)
{
  static const char *const pair[] = { "m1", "m2", NULL };

  hw_bench_select_ids (bench, pair);
  hw_bench_keep_apart (bench);
}

static void
more_marks (HwBench *bench)
{
  g_assert_true (hw_bench_one_more_mark (bench, 0));
}

static void
another_mark (HwBench *bench)
{
  HwPoint at = hw_bench_get_plan (bench)->hoopings[0].marks[0].at;

  hw_bench_move_mark (bench, 0, 0, (HwPoint){ at.x, at.y + 2 });
}

static const struct
{
  const char *name;
  Change change;
  gboolean alike;
} all[] = {
  { "a hoop of another name", rename_all, TRUE }, { "a hoop of another frame", narrow_hoop, FALSE },
  { "a motif elsewhere", move_far, FALSE },       { "less than is seen", move_by_less_than_is_seen, TRUE },
  { "one hooping more", keep_apart, FALSE },      { "one mark more", more_marks, FALSE },
  { "a mark elsewhere", another_mark, FALSE }
};

static void
what_is_the_same_to_the_eye (gconstpointer data)
{
  guint which = GPOINTER_TO_UINT (data);
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autoptr (HwPlan) before = plan_now (bench);
  g_autoptr (HwPlan) after = NULL;

  all[which].change (bench);
  after = plan_now (bench);
  g_assert_true (before != after);
  g_assert_cmpint (hw_plans_look_alike (before, after), ==, all[which].alike);
  g_assert_cmpint (hw_plans_look_alike (after, before), ==, all[which].alike);
  g_assert_true (hw_plans_look_alike (after, after));
  g_assert_false (hw_plans_look_alike (after, NULL));
  g_assert_false (hw_plans_look_alike (NULL, after));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      g_autofree char *path = g_strdup_printf ("/workbench/plans-alike/%s", all[i].name);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), what_is_the_same_to_the_eye);
    }
  return g_test_run ();
}
