/* hoopwright follow, as somebody with a ruler or a script meets it: cloth is stretched here by a known change, distances on it are measured, and the change must be
 * found again and carried over to what is not stitched. */
#include "planned-hooping.h"

#include "formats/scene-file.h"

typedef struct
{
  double xx, xy, yy;
} Change;

static double
changed_length (const Change *s, double dx, double dy)
{
  return hypot (s->xx * dx + s->xy * dy, s->xy * dx + s->yy * dy);
}

/* Distances between places of the cloth as they measure after the change. */
static void
write_distances (Bench *bench, const double (*ends)[4], guint n, const Change *change)
{
  g_autoptr (GString) text = g_string_new ("{\"distances\": [");

  for (guint i = 0; i < n; i++)
    {
      g_string_append (text, i > 0 ? ", {\"from\": [" : "{\"from\": [");
      append_number (text, ends[i][0]);
      g_string_append (text, ", ");
      append_number (text, ends[i][1]);
      g_string_append (text, "], \"to\": [");
      append_number (text, ends[i][2]);
      g_string_append (text, ", ");
      append_number (text, ends[i][3]);
      g_string_append (text, "], \"mm\": ");
      append_number (text, changed_length (change, ends[i][2] - ends[i][0], ends[i][3] - ends[i][1]));
      g_string_append_c (text, '}');
    }
  g_string_append (text, "]}");
  bench_write (bench->measured, text->str);
}

static void
follow (Bench *bench, Run *run)
{
  const char *const words[] = { "follow", bench->scene, bench->measured, NULL };

  run_words (run, words);
}

static JsonNode *
followed (Bench *bench)
{
  g_auto (Run) run = { 0 };

  follow (bench, &run);
  return answer_of (&run);
}

/* The same, the scene that follows written as well. */
static JsonNode *
written (Bench *bench)
{
  const char *const words[] = { "follow", bench->scene, bench->measured, "-o", bench->output, NULL };
  g_auto (Run) run = { 0 };

  run_words (&run, words);
  return answer_of (&run);
}

static HwSnapshot *
loaded (const char *path)
{
  g_autoptr (GError) error = NULL;
  HwSnapshot *snapshot = hw_scene_file_load (path, &error);

  g_assert_no_error (error);
  return snapshot;
}

static const double across_and_along[][4] = { { 100, 100, 300, 100 }, { 100, 100, 100, 250 } };
static const double three_ways[][4]
    = { { 100, 100, 300, 100 }, { 100, 100, 100, 250 }, { 100, 100, 250, 250 } };

static void
drawn_in_cloth_is_told_in_percent (Bench *bench, gconstpointer data)
{
  static const char *const keys[] = { "across_percent", "along_percent", "stretch", "kind", "about",
                                      "remaining_mm",   "motifs",        "text",    NULL };
  const Change change = { 0.992, 0, 0.997 };
  g_autoptr (JsonNode) answer = NULL;
  g_autoptr (GList) members = NULL;
  guint i = 0;

  write_distances (bench, across_and_along, 2, &change);
  answer = followed (bench);
  assert_near (number_at (answer, "across_percent", -1), -0.8, 1e-4);
  assert_near (number_at (answer, "along_percent", -1), -0.3, 1e-4);
  g_assert_cmpstr (text_of (answer, "kind"), ==, "axes");
  g_assert_cmpstr (text_of (answer, "text"), ==, "Drawn in 0.8 % across, 0.3 % along the grain.");
  assert_near (number_at (answer, "remaining_mm", 0), 0, 1e-4);
  assert_near (number_at (answer, "remaining_mm", 1), 0, 1e-4);
  members = json_object_get_members (json_node_get_object (answer));
  for (GList *member = members; keys[i] != NULL; member = member->next)
    g_assert_cmpstr (member->data, ==, keys[i++]);
}

static void
what_is_found_depends_on_what_was_measured (Bench *bench, gconstpointer data)
{
  const Change sheared = { 0.985, 0.004, 1.01 };
  g_autoptr (JsonNode) full = NULL;
  g_autoptr (JsonNode) alike = NULL;

  write_distances (bench, three_ways, 3, &sheared);
  full = followed (bench);
  g_assert_cmpstr (text_of (full, "kind"), ==, "full");
  assert_near (number_at (full, "stretch[0]", 0), 0.985, 1e-6);
  assert_near (number_at (full, "stretch[0]", 1), 0.004, 1e-6);
  assert_near (number_at (full, "stretch[1]", 0), 0.004, 1e-6);
  assert_near (number_at (full, "stretch[1]", 1), 1.01, 1e-6);

  write_distances (bench, across_and_along, 1, &sheared);
  alike = followed (bench);
  g_assert_cmpstr (text_of (alike, "kind"), ==, "alike");
  assert_near (number_at (alike, "stretch[1]", 1), number_at (alike, "stretch[0]", 0), 1e-9);
}

/* Every place of the answer is the old place carried over by the change that was made, about the point that is named. */
static void
motifs_follow_the_cloth (Bench *bench, gconstpointer data)
{
  const Change s = { 0.985, 0.004, 0.99 };
  g_autoptr (HwSnapshot) before = loaded (bench->scene);
  g_autoptr (JsonNode) answer = NULL;
  double cx, cy;

  write_distances (bench, three_ways, 3, &s);
  answer = followed (bench);
  cx = number_at (answer, "about", 0);
  cy = number_at (answer, "about", 1);
  for (guint i = 0; i < before->motifs->len; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (before, i);
      g_autofree char *key = g_strdup_printf ("motifs.%s", motif->id);
      double dx = motif->placement.position.x - cx, dy = motif->placement.position.y - cy;

      assert_near (number_at (answer, key, 0), cx + s.xx * dx + s.xy * dy, 1e-5);
      assert_near (number_at (answer, key, 1), cy + s.xy * dx + s.yy * dy, 1e-5);
    }
}

static void
freeze_quay_wall_and_boat (Bench *bench)
{
  bench_change (
      bench, "\"motifs\": [",
      "\"progress\": {\"frozen\": [{\"hoop\": \"h1\", \"centre\": [175, 255], \"angle\": 0, "
      "\"motifs\": [\"quay\", \"wall\", \"boat\"], \"marks\": [{\"id\": \"A\", \"at\": [100, 180]}, "
      "{\"id\": \"B\", \"at\": [250, 180]}, {\"id\": \"C\", \"at\": [250, 340]}]}]}, \"held_marks\": "
      "[{\"motif\": \"gull1\", \"at\": [480, 150]}], \"motifs\": [");
}

static void
what_is_stitched_stays_where_it_is (Bench *bench, gconstpointer data)
{
  const Change change = { 0.98, 0, 0.98 };
  g_autoptr (JsonNode) answer = NULL;
  g_autoptr (HwSnapshot) before = NULL;
  g_autoptr (HwSnapshot) after = NULL;
  JsonObject *motifs;

  freeze_quay_wall_and_boat (bench);
  before = loaded (bench->scene);
  write_distances (bench, across_and_along, 2, &change);
  answer = written (bench);
  motifs = json_object_get_object_member (json_node_get_object (answer), "motifs");
  g_assert_cmpuint (json_object_get_size (motifs), ==, 2);
  g_assert_true (json_object_has_member (motifs, "gull1"));

  after = loaded (bench->output);
  for (guint i = 0; i < 3; i++)
    g_assert_true (hw_placement_equal (&hw_snapshot_motif (after, i)->placement,
                                       &hw_snapshot_motif (before, i)->placement));
  for (guint i = 3; i < 5; i++)
    {
      const HwMotif *motif = hw_snapshot_motif (after, i);
      g_autofree char *key = g_strdup_printf ("motifs.%s", motif->id);

      assert_near (motif->placement.position.x, number_at (answer, key, 0), 1e-6);
      assert_near (motif->placement.position.y, number_at (answer, key, 1), 1e-6);
      g_assert_cmpfloat (motif->placement.position.x, <, hw_snapshot_motif (before, i)->placement.position.x);
    }
}

static void
the_scene_is_written_with_a_line_in_its_log (Bench *bench, gconstpointer data)
{
  const Change change = { 0.98, 0, 0.97 };
  g_autoptr (JsonNode) answer = NULL;
  g_autoptr (HwSnapshot) after = NULL;
  const HwLogLine *line;
  double cx, cy;

  freeze_quay_wall_and_boat (bench);
  write_distances (bench, across_and_along, 2, &change);
  answer = written (bench);
  cx = number_at (answer, "about", 0);
  cy = number_at (answer, "about", 1);
  after = loaded (bench->output);
  g_assert_cmpuint (after->log->len, ==, 1);
  line = after->log->pdata[0];
  g_assert_cmpint (line->kind, ==, HW_LOG_DRAW_IN);
  g_assert_cmpstr (line->text, ==, text_of (answer, "text"));
  g_assert_cmpstr (after->name, ==, "Harbour at Low Tide");
  g_assert_cmpuint (after->frozen->len, ==, 1);
  assert_near (((HwHeldMark *)after->held_marks->pdata[0])->at.x, cx + 0.98 * (480 - cx), 1e-6);
  assert_near (((HwHeldMark *)after->held_marks->pdata[0])->at.y, cy + 0.97 * (150 - cy), 1e-6);
  assert_near (after->edge_line->outline->rings[0].points[0].x, cx + 0.98 * (20 - cx), 1e-6);
}

/* Measured between the marks of a stitched hooping. */
static void
marks_stand_for_their_places (Bench *bench, gconstpointer data)
{
  g_autoptr (JsonNode) answer = NULL;

  freeze_quay_wall_and_boat (bench);
  bench_write (bench->measured,
               "{\"hooping\": 1, \"distances\": [{\"from\": \"A\", \"to\": \"B\", \"mm\": 148.5}, "
               "{\"from\": \"C\", \"to\": \"B\", \"hooping\": 1, \"in\": 6.2362204724409449}]}");
  answer = followed (bench);
  assert_near (number_at (answer, "across_percent", -1), -1, 1e-4);
  assert_near (number_at (answer, "along_percent", -1), -1, 1e-4);
}

/* The hooping may lie crooked and turned: that is not the cloth's doing. */
static void
readings_tell_it_too (Bench *bench, gconstpointer data)
{
  Hooping hooping;
  double at[8][2] = { 0 };

  bench_change (bench, "\"motifs\": [", "\"wishes\": {\"marks\": 4}, \"motifs\": [");
  hooping_of (bench, "boat", &hooping);
  g_assert_cmpuint (hooping.n_marks, ==, 4);
  for (int turn = -2; turn <= 2; turn += 2)
    {
      g_autoptr (JsonNode) answer = NULL;
      JsonObject *remaining;

      readings_at (&hooping, turn, 1, -2, at);
      for (guint i = 0; i < 4; i++)
        {
          at[i][0] *= 0.99;
          at[i][1] *= 0.99;
        }
      write_readings (bench, &hooping, 4, at, "");
      answer = followed (bench);
      assert_near (number_at (answer, "across_percent", -1), -1, 1e-3);
      assert_near (number_at (answer, "along_percent", -1), -1, 1e-3);
      remaining = json_object_get_object_member (json_node_get_object (answer), "remaining_mm");
      g_assert_cmpuint (json_object_get_size (remaining), ==, 4);
      for (guint i = 0; i < 4; i++)
        assert_near (json_object_get_double_member (remaining, hooping.marks[i].letter), 0, 1e-3);
    }
}

/* The stretch is told along the cloth's own axes although the hoop lies across them. */
static void
a_turned_hoop_is_allowed_for (Bench *bench, gconstpointer data)
{
  g_autoptr (JsonNode) answer = NULL;
  Hooping hooping;
  double at[8][2] = { 0 };
  const double angle = 30 * G_PI / 180, c = cos (angle), s = sin (angle);

  bench_change (
      bench, "\"motifs\": [",
      "\"pins\": [{\"hoop\": \"h1\", \"centre\": [175, 255], \"angle\": 30, \"motifs\": [\"quay\", "
      "\"wall\", \"boat\"], \"marks\": [{\"id\": \"K\", \"at\": [110, 230]}, {\"id\": \"L\", \"at\": "
      "[230, 220]}, {\"id\": \"M\", \"at\": [190, 330]}]}], \"motifs\": [");
  hooping_of (bench, "boat", &hooping);
  for (guint i = 0; i < 3; i++)
    {
      /* To the cloth's axes, 2 % shorter across, and back. */
      double x = 0.98 * (c * hooping.marks[i].u - s * hooping.marks[i].v);
      double y = s * hooping.marks[i].u + c * hooping.marks[i].v;

      at[i][0] = c * x + s * y;
      at[i][1] = -s * x + c * y;
    }
  write_readings (bench, &hooping, 3, at, "");
  answer = followed (bench);
  assert_near (number_at (answer, "across_percent", -1), -2, 1e-3);
  assert_near (number_at (answer, "along_percent", -1), 0, 1e-3);
  assert_near (number_at (answer, "stretch[0]", 1), 0, 1e-5);
}

/* Distances between places say the same whatever the plan. */
static void
places_need_no_plan (Bench *bench, gconstpointer data)
{
  const Change change = { 0.99, 0, 0.99 };
  g_autoptr (JsonNode) answer = NULL;
  g_auto (Run) run = { 0 };

  bench_change (bench, "\"angle\": 20", "\"scale\": 9, \"angle\": 20");
  write_distances (bench, across_and_along, 2, &change);
  answer = followed (bench);
  assert_near (number_at (answer, "across_percent", -1), -1, 1e-4);

  bench_write (bench->measured,
               "{\"hooping\": 1, \"distances\": [{\"from\": \"A\", \"to\": \"B\", \"mm\": 100}]}");
  follow (bench, &run);
  assert_one_complaint (&run, HW_EXIT_UNPLANNABLE);
}

static void
what_cannot_be_used_is_refused (Bench *bench, gconstpointer data)
{
  static const char *const cases[] = {
    "",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [300, 100], \"mm\":",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [300, 100], \"mm\": \"197\"}]}",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [300, 100], \"mm\": 1e400}]}",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [300, NaN], \"mm\": 197}]}",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [100, 100], \"mm\": 1}]}",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [104, 100], \"mm\": 4}]}",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [300, 100], \"mm\": 120}]}",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [300, 100], \"mm\": 7.8}]}",
    "{\"distances\": [{\"from\": [100, 100], \"to\": [300, 100], \"mm\": 5080}]}",
    "{\"hooping\": 1, \"distances\": [{\"from\": \"A\", \"to\": \"A\", \"mm\": 120}]}",
    "{\"hooping\": 1, \"distances\": [{\"from\": \"A\", \"to\": \"Z\", \"mm\": 120}]}",
    "{\"hooping\": 9, \"distances\": [{\"from\": \"A\", \"to\": \"B\", \"mm\": 120}]}",
    "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [0, 0]}]}",
    "{\"hooping\": 1, \"readings\": [{\"mark\": \"A\", \"at\": [500, 0]}, {\"mark\": \"B\", \"at\": [0, "
    "0]}]}",
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const char *const words[]
          = { "follow", bench->scene, bench->measured, "--output", bench->output, NULL };
      g_auto (Run) run = { 0 };

      bench_write (bench->measured, cases[i]);
      run_words (&run, words);
      assert_one_complaint (&run, HW_EXIT_BAD);
      g_assert_true (g_str_has_prefix (run.err, "hoopwright: tide.json: "));
      g_assert_false (g_file_test (bench->output, G_FILE_TEST_EXISTS));
    }
}

static void
a_scene_that_cannot_be_written_says_so_and_prints_nothing (Bench *bench, gconstpointer data)
{
  const char *const words[]
      = { "follow", bench->scene, bench->measured, "-o", "/no/such/folder/a.hoopscene", NULL };
  const Change change = { 0.99, 0, 0.99 };
  g_auto (Run) run = { 0 };

  write_distances (bench, across_and_along, 2, &change);
  run_words (&run, words);
  assert_one_complaint (&run, HW_EXIT_BAD);
  g_assert_nonnull (strstr (run.err, "a.hoopscene was not saved"));
}

/* Pushed past what a scene may hold, it would be a file nobody could open. */
static void
a_scene_that_could_not_be_opened_again_is_not_written (Bench *bench, gconstpointer data)
{
  const Change change = { 1.1, 0, 1.1 };
  const char *const words[] = { "follow", bench->scene, bench->measured, "-o", bench->output, NULL };
  g_auto (Run) run = { 0 };

  bench_change (bench, "\"position\": [590, 320]", "\"position\": [99990, 320]");
  write_distances (bench, across_and_along, 2, &change);
  run_words (&run, words);
  assert_one_complaint (&run, HW_EXIT_BAD);
  g_assert_false (g_file_test (bench->output, G_FILE_TEST_EXISTS));
}

#define ADD(name, function) g_test_add ("/follow/" name, Bench, NULL, bench_set_up, function, bench_tear_down)

int
main (int argc, char **argv)
{
  if (argc > 1 && g_str_equal (argv[1], AS_PROGRAM))
    return hw_commands_run (argc - 1, argv + 1);

  g_test_init (&argc, &argv, NULL);
  ADD ("drawn-in-cloth-is-told-in-percent", drawn_in_cloth_is_told_in_percent);
  ADD ("what-is-found-depends-on-what-was-measured", what_is_found_depends_on_what_was_measured);
  ADD ("motifs-follow-the-cloth", motifs_follow_the_cloth);
  ADD ("what-is-stitched-stays-where-it-is", what_is_stitched_stays_where_it_is);
  ADD ("the-scene-is-written-with-a-line-in-its-log", the_scene_is_written_with_a_line_in_its_log);
  ADD ("marks-stand-for-their-places", marks_stand_for_their_places);
  ADD ("readings-tell-it-too", readings_tell_it_too);
  ADD ("a-turned-hoop-is-allowed-for", a_turned_hoop_is_allowed_for);
  ADD ("places-need-no-plan", places_need_no_plan);
  ADD ("what-cannot-be-used-is-refused", what_cannot_be_used_is_refused);
  ADD ("a-scene-that-cannot-be-written-says-so-and-prints-nothing",
       a_scene_that_cannot_be_written_says_so_and_prints_nothing);
  ADD ("a-scene-that-could-not-be-opened-again-is-not-written",
       a_scene_that_could_not_be_opened_again_is_not_written);
  return g_test_run ();
}
