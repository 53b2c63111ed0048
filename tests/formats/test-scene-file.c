#include <string.h>

#include "scene-texts.h"

static void
reads_the_described_example (void)
{
  g_autoptr (HwSnapshot) scene = accepted (contract);
  const HwHoop *hoop = hw_snapshot_hoop (scene, 0);
  const HwMotif *motif = hw_snapshot_motif (scene, 0);

  g_assert_cmpstr (scene->name, ==, "The Walled Garden");
  g_assert_cmpfloat (scene->fabric.width, ==, 700);
  g_assert_cmpfloat (scene->fabric.height, ==, 540);
  g_assert_cmpint (scene->fabric.hold, ==, HW_HOLD_FLOATED);
  g_assert_cmpuint (scene->edge_line->outline->rings[0].n_points, ==, 4);
  g_assert_cmpfloat (scene->edge_line->outline->rings[0].points[2].y, ==, 500);
  g_assert_cmpfloat (scene->edge_line->margin, ==, 2);
  g_assert_cmpstr (hoop->id, ==, "h1");
  g_assert_cmpfloat (hoop->field_height, ==, 180);
  g_assert_cmpfloat (hoop->frame_width, ==, 170);
  g_assert_cmpfloat (hoop->clearance, ==, 2);
  g_assert_cmpint (hoop->turn, ==, HW_TURN_ANY);
  g_assert_cmpstr (motif->name, ==, "Fig branch");
  g_assert_cmpfloat (motif->placement.position.x, ==, 180);
  g_assert_cmpfloat (motif->placement.scale, ==, 1);
  g_assert_cmpfloat (motif->outline->rings[0].points[2].y, ==, 35);
  g_assert_false (motif->outline_repaired);
  g_assert_cmpuint (motif->n_threads, ==, 1);
  g_assert_cmpstr (motif->threads[0].name, ==, "moss");
  g_assert_cmpuint (motif->threads[0].stitches, ==, 1200);
}

static void
what_is_written_reads_back_to_the_byte (void)
{
  const char *texts[] = { contract, full };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (HwSnapshot) scene = accepted (texts[i]);
      g_autofree char *text = hw_scene_file_text (scene);
      g_autoptr (HwSnapshot) again = accepted (text);
      g_autofree char *text_again = hw_scene_file_text (again);

      g_assert_cmpstr (text_again, ==, text);
      g_assert_true (hw_snapshot_equal (scene, again));
    }
}

/* Also: every known key stands in its place, every unknown one after them, on every level. */
static void
a_full_scene_is_kept_to_the_byte (void)
{
  g_autoptr (HwSnapshot) scene = accepted (full);
  g_autofree char *text = hw_scene_file_text (scene);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  g_auto (GStrv) wanted = g_strsplit (full, "\n", -1);

  for (guint i = 0; lines[i] != NULL && wanted[i] != NULL; i++)
    g_assert_cmpstr (lines[i], ==, wanted[i]);
  g_assert_cmpuint (strlen (text), ==, strlen (full));
}

static void
keys_out_of_order_are_put_in_order (void)
{
  g_autofree char *turned = replaced (full, "\"fabric\": {\"width\": 700.5, \"height\": 540,",
                                      "\"fabric\": {\"height\": 540, \"width\": 700.5,");
  g_autoptr (HwSnapshot) scene = accepted (turned);
  g_autofree char *text = hw_scene_file_text (scene);

  g_assert_true (g_str_equal (text, full));
}

static void
one_moved_motif_changes_one_line (void)
{
  g_autoptr (HwSnapshot) scene = accepted (full);
  g_autofree char *before = hw_scene_file_text (scene);
  g_autofree char *after = NULL;
  g_auto (GStrv) lines = NULL, lines_after = NULL;
  guint changed = 0;

  ((HwMotif *)scene->motifs->pdata[1])->placement.position.x = 312.4;
  after = hw_scene_file_text (scene);
  lines = g_strsplit (before, "\n", -1);
  lines_after = g_strsplit (after, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, g_strv_length (lines_after));
  for (guint i = 0; lines[i] != NULL; i++)
    changed += !g_str_equal (lines[i], lines_after[i]);
  g_assert_cmpuint (changed, ==, 1);
}

static void
optional_keys_have_sensible_defaults (void)
{
  g_autoptr (HwSnapshot) scene = accepted (
      "{\"format\": \"hoopwright-scene\", \"version\": 1, \"fabric\": {\"width\": 300, \"height\": 200},"
      " \"edge_line\": {\"points\": [[0, 0], [300, 0], [300, 200]]},"
      " \"hoops\": [{\"id\": \"big\", \"field\": [100, 150.5]}, {\"id\": \"tiny\", \"field\": [3, 3]}],"
      " \"motifs\": [{\"id\": \"leaf\", \"outline\": [[[0, 0], [9, 0], [0, 9]]], \"position\": [5, 6],"
      "               \"threads\": [{}], \"note\": null}]}");
  const HwHoop *hoop = hw_snapshot_hoop (scene, 0);
  const HwMotif *motif = hw_snapshot_motif (scene, 0);

  g_assert_cmpstr (scene->name, ==, "");
  g_assert_cmpint (scene->fabric.hold, ==, HW_HOLD_FLOATED);
  g_assert_cmpfloat (scene->edge_line->margin, ==, 2);
  g_assert_cmpstr (hoop->name, ==, "100 x 150.5");
  g_assert_cmpfloat (hoop->frame_height, ==, 190.5);
  g_assert_cmpfloat (hoop->clearance, ==, 2);
  g_assert_cmpfloat (hw_snapshot_hoop (scene, 1)->clearance, ==, 0);
  g_assert_cmpint (hoop->turn, ==, HW_TURN_ANY);
  g_assert_cmpstr (motif->name, ==, "leaf");
  g_assert_cmpfloat (motif->placement.scale, ==, 1);
  g_assert_cmpfloat (motif->placement.angle, ==, 0);
  g_assert_false (motif->placement.mirrored);
  g_assert_false (motif->locked);
  g_assert_null (motif->note);
  g_assert_null (motif->before);
  g_assert_null (motif->artwork);
  g_assert_cmpuint (motif->threads[0].stitches, ==, 0);
  g_assert_cmpfloat (scene->machine.stitches_per_minute, ==, 600);
  g_assert_cmpuint (scene->pins->len, ==, 0);
}

static void
an_empty_scene_is_a_scene (void)
{
  g_autoptr (HwSnapshot) empty = hw_snapshot_new ();
  g_autofree char *text = hw_scene_file_text (empty);
  g_autoptr (HwSnapshot) again = accepted (text);

  g_assert_true (hw_snapshot_equal (empty, again));
}

static void
crossing_outlines_are_mended_and_told (void)
{
  g_autofree char *bow = replaced (contract, "[[[-40, -30], [40, -30], [0, 35]]]",
                                   "[[[-40, -30], [40, 30], [40, -30], [-40, 30]]]");
  g_autoptr (HwSnapshot) scene = accepted (bow);
  g_autofree char *text = hw_scene_file_text (scene);
  g_autoptr (HwSnapshot) again = accepted (text);
  g_autofree char *text_again = hw_scene_file_text (again);

  g_assert_true (hw_snapshot_motif (scene, 0)->outline_repaired);
  g_assert_cmpuint (hw_snapshot_motif (scene, 0)->outline->n_rings, ==, 2);
  /* Mended once is mended. */
  g_assert_false (hw_snapshot_motif (again, 0)->outline_repaired);
  g_assert_cmpstr (text_again, ==, text);
}

static void
repeated_points_are_let_go_without_a_word (void)
{
  g_autofree char *closed = replaced (contract, "[[[-40, -30], [40, -30], [0, 35]]]",
                                      "[[[-40, -30], [40, -30], [40, -30], [0, 35], [-40, -30]]]");
  g_autoptr (HwSnapshot) scene = accepted (closed);

  g_assert_false (hw_snapshot_motif (scene, 0)->outline_repaired);
  g_assert_cmpuint (hw_snapshot_motif (scene, 0)->outline->rings[0].n_points, ==, 3);
}

static void
an_edge_line_with_a_spike_is_mended (void)
{
  g_autofree char *spiked
      = replaced (contract, "[640, 40], [640, 500]", "[640, 40], [690, 40], [640, 40], [640, 500]");
  g_autoptr (HwSnapshot) scene = accepted (spiked);

  g_assert_cmpuint (scene->edge_line->outline->n_rings, ==, 1);
  g_assert_cmpfloat (scene->edge_line->outline->box.x1, ==, 640);
}

static void
a_byte_order_mark_and_line_ends_of_any_kind_are_read (void)
{
  g_autofree char *marked = g_strconcat ("\xef\xbb\xbf", contract, NULL);
  g_auto (GStrv) lines = g_strsplit (marked, "\n", -1);
  g_autofree char *text = g_strjoinv ("\r\n", lines);
  g_autoptr (HwSnapshot) scene = accepted (text);

  g_assert_cmpuint (scene->motifs->len, ==, 1);
}

static void
numbers_read_back_exactly (void)
{
  for (guint i = 0; i < 3000; i++)
    {
      g_autoptr (HwSnapshot) scene = accepted (contract);
      HwMotif *motif = scene->motifs->pdata[0];
      double x = g_test_rand_double_range (-1000, 1000) * (i % 7 == 0 ? 1e-9 : 1);
      g_autofree char *text = NULL;
      g_autoptr (HwSnapshot) again = NULL;

      motif->placement.position.x = i % 3 == 0 ? (double)(int)x : x;
      text = hw_scene_file_text (scene);
      again = accepted (text);
      g_assert_cmpfloat (hw_snapshot_motif (again, 0)->placement.position.x, ==, motif->placement.position.x);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/scene-file/" name, function)
  ADD ("reads-the-described-example", reads_the_described_example);
  ADD ("what-is-written-reads-back-to-the-byte", what_is_written_reads_back_to_the_byte);
  ADD ("a-full-scene-is-kept-to-the-byte", a_full_scene_is_kept_to_the_byte);
  ADD ("keys-out-of-order-are-put-in-order", keys_out_of_order_are_put_in_order);
  ADD ("one-moved-motif-changes-one-line", one_moved_motif_changes_one_line);
  ADD ("optional-keys-have-sensible-defaults", optional_keys_have_sensible_defaults);
  ADD ("an-empty-scene-is-a-scene", an_empty_scene_is_a_scene);
  ADD ("crossing-outlines-are-mended-and-told", crossing_outlines_are_mended_and_told);
  ADD ("repeated-points-are-let-go", repeated_points_are_let_go_without_a_word);
  ADD ("an-edge-line-with-a-spike-is-mended", an_edge_line_with_a_spike_is_mended);
  ADD ("a-byte-order-mark-and-any-line-ends-are-read", a_byte_order_mark_and_line_ends_of_any_kind_are_read);
  ADD ("numbers-read-back-exactly", numbers_read_back_exactly);
  return g_test_run ();
}
