/* Arranging by figures: what is typed is tried on the cloth at once, taken as one step, and gone when it is not taken. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/arrange-dialog.h"

static GtkWidget *
open (Desk *desk, HwArrangeKind kind, const char *title)
{
  GtkWidget *table = gtk_drawing_area_new ();

  gtk_widget_set_size_request (table, 700, 500);
  gtk_window_set_child (desk->parent, table);
  hands_frame (table);
  hw_arrange_dialog_show (table, desk->bench, kind);
  hands_settle ();
  desk->dialog = desk->parent;
  return title != NULL ? hands_find (table, GTK_TYPE_POPOVER, title) : gtk_widget_get_first_child (table);
}

static guint
n_motifs (Desk *desk)
{
  return g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (desk->bench)));
}

static HwPoint
place (Desk *desk, const char *id)
{
  return hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (desk->bench), id))
      ->placement.position;
}

static void
measure (GtkWidget *slip, const char *name, const char *text)
{
  hands_type (hands_find (slip, GTK_TYPE_SPIN_BUTTON, name), text);
}

static void
assert_step (Desk *desk, const char *expected)
{
  g_autofree char *name = NULL;

  g_object_get (desk->bench, "undo-name", &name, NULL);
  g_assert_cmpstr (name, ==, expected);
}

/* Four pears 40 mm wide with gaps of 10: the last is 150 mm down from the first. */
static void
copies_are_seen_before_they_are_taken (Desk *desk, gconstpointer data)
{
  GtkWidget *slip;

  hw_bench_select_only (desk->bench, "m1");
  slip = open (desk, HW_ARRANGE_COPIES, "Copies in a row");
  g_assert_cmpuint (n_motifs (desk), ==, 5);
  measure (slip, "How many in all", "4");
  g_assert_cmpuint (n_motifs (desk), ==, 6);
  measure (slip, "Gap between them", "10");
  measure (slip, "Direction", "90");
  g_assert_true (hw_bench_is_editing (desk->bench));
  hands_click (slip, "Take it");
  g_assert_false (hw_bench_is_editing (desk->bench));
  g_assert_cmpuint (hw_bench_get_n_selected (desk->bench), ==, 4);
  g_autoptr (GPtrArray) all = hw_bench_get_selection (desk->bench);
  HwPoint last = hw_scene_motif_get_record (g_ptr_array_index (all, 3))->placement.position;
  g_assert_cmpfloat_with_epsilon (last.x, 100, 1e-6);
  g_assert_cmpfloat_with_epsilon (last.y, 250, 1e-6);
  assert_step (desk, "copy Pear in a row");
}

static void
left_as_it_was_nothing_stays (Desk *desk, gconstpointer data)
{
  GtkWidget *slip;

  hw_bench_select_only (desk->bench, "m1");
  slip = open (desk, HW_ARRANGE_AROUND, "Copies around a centre");
  g_assert_cmpuint (n_motifs (desk), ==, 8);
  hands_click (slip, "Leave as it was");
  g_assert_cmpuint (n_motifs (desk), ==, 3);
  g_assert_false (hw_bench_is_editing (desk->bench));
  assert_step (desk, NULL);
}

/* Six around a place 100 mm to the right: the one half way round stands 200 mm to the right, upside down, or upright when none is turned. */
static void
a_round_is_turned_or_upright (Desk *desk, gconstpointer data)
{
  GtkWidget *slip, *turned;
  double angles[2];

  hw_bench_select_only (desk->bench, "m1");
  slip = open (desk, HW_ARRANGE_AROUND, "Copies around a centre");
  turned = hands_find (slip, GTK_TYPE_CHECK_BUTTON, "Each is turned with the round");
  measure (slip, "How many in all", "2");
  measure (slip, "Centre from the left", "200");
  measure (slip, "Centre from the top", "100");
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (HwSnapshot) now = NULL;
      const HwMotif *copy = NULL;

      gtk_check_button_set_active (GTK_CHECK_BUTTON (turned), i == 0);
      hands_settle ();
      now = hw_scene_snapshot (hw_bench_get_scene (desk->bench));
      for (guint m = 0; m < now->motifs->len; m++)
        if (g_str_has_prefix (hw_snapshot_motif (now, m)->name, "Pear ")
            || hw_snapshot_motif (now, m)->placement.position.x > 290)
          if (hw_snapshot_motif (now, m)->placement.position.x < 310)
            copy = hw_snapshot_motif (now, m);
      g_assert_nonnull (copy);
      g_assert_cmpfloat_with_epsilon (copy->placement.position.x, 300, 1e-6);
      g_assert_cmpfloat_with_epsilon (copy->placement.position.y, 100, 1e-6);
      angles[i] = fabs (copy->placement.angle);
    }
  g_assert_cmpfloat_with_epsilon (angles[0], 180, 1e-6);
  g_assert_cmpfloat_with_epsilon (angles[1], 0, 1e-6);
}

/* The first stays, the other comes to a gap of 25 from its side. */
static void
a_row_follows_its_first (Desk *desk, gconstpointer data)
{
  const char *pair[] = { "m1", "m2", NULL };
  GtkWidget *slip;

  hw_bench_select_only (desk->bench, "m1");
  g_assert_null (open (desk, HW_ARRANGE_ROW, NULL)); /* one is no row */
  hw_bench_select_ids (desk->bench, pair);
  slip = open (desk, HW_ARRANGE_ROW, "Put in a row");
  /* It begins with what is: nothing has moved yet. */
  g_assert_cmpfloat_with_epsilon (place (desk, "m2").x, 150, 1e-6);
  measure (slip, "Gap between them", "25");
  g_assert_cmpfloat_with_epsilon (place (desk, "m1").x, 100, 1e-6);
  g_assert_cmpfloat_with_epsilon (place (desk, "m2").x, 165, 1e-6);
  hands_click (slip, "Take it");
  assert_step (desk, "put 2 motifs in a row");
}

/* Pear tucked 5 mm behind Plum; the other one slides when that is chosen, and with one held there is no choice. */
static void
a_tuck_says_who_lies_over_whom (Desk *desk, gconstpointer data)
{
  const char *pair[] = { "m1", "m2", NULL };
  GtkWidget *slip;

  hw_bench_select_ids (desk->bench, pair);
  slip = open (desk, HW_ARRANGE_TUCK, "Tuck behind");
  desk_says (desk, "Pear lies behind Plum, and is stitched before it.");
  measure (slip, "How far it reaches over", "5");
  g_assert_cmpfloat_with_epsilon (place (desk, "m1").x, 115, 1e-6);
  desk_choose (desk, "Which one slides", 1);
  desk_says (desk, "Plum lies behind Pear, and is stitched before it.");
  g_assert_cmpfloat_with_epsilon (place (desk, "m1").x, 100, 1e-6);
  g_assert_cmpfloat_with_epsilon (place (desk, "m2").x, 135, 1e-6);
  /* Too deep: it says how deep it may be, and cannot be taken. */
  measure (slip, "How far it reaches over", "500");
  g_autofree char *most = desk_sentence (desk, "At most ");
  g_assert_nonnull (most);
  g_assert_false (gtk_widget_is_sensitive (hands_find (slip, GTK_TYPE_BUTTON, "Take it")));
  measure (slip, "How far it reaches over", "5");
  hands_click (slip, "Take it");
  assert_step (desk, "tuck Plum behind Pear");
}

static void
without_motifs_there_is_nothing_to_arrange (Desk *desk, gconstpointer data)
{
  hw_bench_select_only (desk->bench, NULL);
  g_assert_null (open (desk, HW_ARRANGE_COPIES, NULL));
  g_assert_null (open (desk, HW_ARRANGE_AROUND, NULL));
  g_assert_null (open (desk, HW_ARRANGE_TUCK, NULL));
  assert_step (desk, NULL);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/arrange-dialog/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (copies_are_seen_before_they_are_taken);
  ADD (left_as_it_was_nothing_stays);
  ADD (a_round_is_turned_or_upright);
  ADD (a_row_follows_its_first);
  ADD (a_tuck_says_who_lies_over_whom);
  ADD (without_motifs_there_is_nothing_to_arrange);
  return g_test_run ();
}
