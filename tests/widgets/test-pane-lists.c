/* Lists of the side pane by themselves: what was decided, the parts, and the stitch order. */
#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/decisions-list.h"
#include "workbench/parts-list.h"
#include "workbench/stitch-order-list.h"

static const char *const pair[] = { "m1", "m2", NULL }, *const pear[] = { "m1", NULL },
                         *const plum[] = { "m2", NULL }, *const others[] = { "m1", "m3", NULL };

/* The list stands in the desk's window instead of what was there. */
static GtkWidget *
put (Desk *desk, GtkWidget *list)
{
  gtk_window_set_child (desk->parent, list);
  desk->dialog = desk->parent;
  hands_settle ();
  return list;
}

static void
says_not (Desk *desk, const char *beginning)
{
  g_autofree char *said = desk_sentence (desk, beginning);

  g_assert_cmpstr (said, ==, NULL);
}

/* --- Decisions */

static void
what_is_kept_apart_is_told_of_each (Desk *desk, gconstpointer data)
{
  put (desk, hw_decisions_list_new (desk->bench, FALSE));
  hw_bench_select_ids (desk->bench, pair);
  hw_bench_keep_apart (desk->bench);
  hands_settle ();
  desk_says (desk, "Pear and Plum are kept apart");
  hw_bench_select_ids (desk->bench, pear);
  hands_settle ();
  desk_says (desk, "Kept apart from Plum");
  hw_bench_select_ids (desk->bench, plum);
  hands_settle ();
  desk_says (desk, "Kept apart from Pear");
  hw_bench_select_ids (desk->bench, others);
  hands_settle ();
  says_not (desk, "Pear and Plum are kept apart");
  hw_bench_select_ids (desk->bench, plum);
  hands_click (desk->dialog, "Take back: Kept apart from Pear");
  g_assert_false (hw_bench_are_apart (desk->bench, "m1", "m2"));
  says_not (desk, "Kept apart");
}

static void
ties_are_told_from_both_ends (Desk *desk, gconstpointer data)
{
  put (desk, hw_decisions_list_new (desk->bench, FALSE));
  g_assert_true (hw_bench_tie (desk->bench, "m1", "m2", NULL));
  hw_bench_select_ids (desk->bench, pear);
  hands_settle ();
  desk_says (desk, "Stitched before Plum");
  hw_bench_select_ids (desk->bench, plum);
  hands_settle ();
  desk_says (desk, "Stitched after Pear");
  hw_bench_select_ids (desk->bench, pair);
  hands_settle ();
  desk_says (desk, "Pear is stitched before Plum");
  /* What is so already is not offered. */
  says_not (desk, "Stitch Pear before Plum");
  desk_says (desk, "Stitch Plum before Pear");
  hands_click (desk->dialog, "Take back: Pear is stitched before Plum");
  g_assert_false (hw_bench_is_tied (desk->bench, "m1", "m2"));
  desk_says (desk, "Stitch Pear before Plum");
}

/* In the list for the whole scene all that is held is told while nothing is selected, but for what is in the machine. */
static void
what_is_held_is_told_and_let_go (Desk *desk, gconstpointer data)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *whole = hw_decisions_list_new (desk->bench, TRUE),
            *some = hw_decisions_list_new (desk->bench, FALSE);

  gtk_box_append (GTK_BOX (box), whole);
  gtk_box_append (GTK_BOX (box), some);
  put (desk, box);
  g_assert_false (gtk_widget_get_visible (whole));
  hw_bench_keep_hooping (desk->bench, 0, HW_KEEP_MOTIFS);
  wait_for_plan (desk->bench);
  hands_settle ();
  g_assert_true (gtk_widget_get_visible (whole));
  g_assert_false (gtk_widget_get_visible (some));
  desk_says (desk, "Held: Pear and Plum share a hooping");
  hw_bench_select_ids (desk->bench, plum);
  hands_settle ();
  g_assert_false (gtk_widget_get_visible (whole));
  g_assert_true (gtk_widget_get_visible (some));
  desk_says (desk, "Held: Pear and Plum share a hooping");
  hands_click (some, "Take back: Held: Pear and Plum share a hooping");
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (desk->bench))->len, ==, 0);
  g_assert_true (hw_bench_begin_hooping (desk->bench, 0));
  wait_for_plan (desk->bench);
  hw_bench_select_only (desk->bench, NULL);
  hands_settle ();
  g_assert_false (gtk_widget_get_visible (whole));
}

/* Pulled too far apart, the two share no hooping any more: the plan says so, and so does the list. */
static void
what_the_plan_cannot_keep_is_told (Desk *desk, gconstpointer data)
{
  HwPlacement far = { .position = { 550, 400 }, .scale = 1 };

  put (desk, hw_decisions_list_new (desk->bench, TRUE));
  hw_bench_keep_hooping (desk->bench, 0, HW_KEEP_MOTIFS);
  wait_for_plan (desk->bench);
  hw_scene_motif_set_placement (hw_scene_find_motif (hw_bench_get_scene (desk->bench), "m2"), &far);
  wait_for_plan (desk->bench);
  hands_settle ();
  desk_says (desk, "Held: Pear and Plum share a hooping – not kept");
}

/* --- Parts */

static const HwPart *
part (Desk *desk, guint i)
{
  return g_ptr_array_index (hw_scene_get_parts (hw_bench_get_scene (desk->bench)), i);
}

static guint
n_parts (Desk *desk)
{
  return hw_scene_get_parts (hw_bench_get_scene (desk->bench))->len;
}

static void
divide (Desk *desk)
{
  static const char *const quince[] = { "m3", NULL };

  hw_bench_select_ids (desk->bench, pair);
  g_assert_true (hw_bench_put_in_part (desk->bench, "Upper"));
  hw_bench_select_ids (desk->bench, quince);
  g_assert_true (hw_bench_put_in_part (desk->bench, "Lower"));
  wait_for_plan (desk->bench);
  hands_settle ();
}

static void
parts_are_named_moved_and_taken_apart (Desk *desk, gconstpointer data)
{
  put (desk, hw_parts_list_new (desk->bench));
  says_not (desk, "Parts are stitched in this order");
  divide (desk);
  says_not (desk, "The scene is not divided");
  g_assert_false (
      gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, "Stitch “Upper” earlier")));
  g_assert_false (
      gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, "Stitch “Lower” later")));
  hands_click (desk->dialog, "Stitch “Upper” later");
  g_assert_cmpstr (part (desk, 0)->name, ==, "Lower");
  hands_click (desk->dialog, "Stitch “Upper” earlier");
  g_assert_cmpstr (part (desk, 0)->name, ==, "Upper");
  hands_type (hands_find (desk->dialog, GTK_TYPE_ENTRY, "Name of part 1"), "  Sky ");
  g_assert_cmpstr (part (desk, 0)->name, ==, "Sky");
  hands_click (desk->dialog, "Take “Sky” apart");
  g_assert_cmpuint (n_parts (desk), ==, 1);
  hands_click (desk->dialog, "Take “Lower” apart");
  g_assert_cmpuint (n_parts (desk), ==, 0);
  g_autofree char *said = desk_sentence (desk, "The scene is not divided.");
  g_assert_nonnull (said);
}

/* A name that another part bears, or none, is put back. */
static void
a_name_that_cannot_be_is_put_back (Desk *desk, gconstpointer data)
{
  static const char *const names[] = { "Lower", "", "   " };

  put (desk, hw_parts_list_new (desk->bench));
  divide (desk);
  GtkWidget *entry = hands_find (desk->dialog, GTK_TYPE_ENTRY, "Name of part 1");
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      hands_type (entry, names[i]);
      g_assert_cmpstr (part (desk, 0)->name, ==, "Upper");
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "Upper");
    }
}

/* While a name is being typed a new plan comes, and leaves it alone. */
static void
what_is_being_typed_stays (Desk *desk, gconstpointer data)
{
  put (desk, hw_parts_list_new (desk->bench));
  divide (desk);
  GtkWidget *entry = hands_find (desk->dialog, GTK_TYPE_ENTRY, "Name of part 1");
  gtk_editable_set_text (GTK_EDITABLE (entry), "Skylin");
  hw_bench_select_ids (desk->bench, pear);
  hw_bench_nudge (desk->bench, 1, 0);
  wait_for_plan (desk->bench);
  hands_settle ();
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "Skylin");
  g_assert_cmpstr (part (desk, 0)->name, ==, "Upper");
}

/* --- Stitch order */

static const char *
in_order (Desk *desk, guint i)
{
  g_autoptr (HwSceneMotif) motif
      = g_list_model_get_item (hw_scene_get_motifs (hw_bench_get_scene (desk->bench)), i);

  return hw_scene_motif_get_record (motif)->id;
}

static void
alt_and_arrows_move_in_the_order (Desk *desk, gconstpointer data)
{
  GtkWidget *view;

  put (desk, hw_stitch_order_list_new (desk->bench));
  view = hands_find (desk->dialog, GTK_TYPE_LIST_VIEW, "Stitch order, back to front");
  hw_bench_select_ids (desk->bench, pear);
  g_assert_true (hands_key (view, GDK_KEY_Down, GDK_ALT_MASK));
  g_assert_cmpstr (in_order (desk, 1), ==, "m1");
  g_assert_true (hands_key (view, GDK_KEY_Up, GDK_ALT_MASK));
  g_assert_cmpstr (in_order (desk, 0), ==, "m1");
  hands_key (view, GDK_KEY_x, GDK_ALT_MASK);
  g_assert_cmpstr (in_order (desk, 0), ==, "m1");
}

/* What is selected here is selected on the table and the other way round. */
static void
the_order_and_the_table_select_together (Desk *desk, gconstpointer data)
{
  GtkSelectionModel *rows;

  put (desk, hw_stitch_order_list_new (desk->bench));
  rows = gtk_list_view_get_model (
      GTK_LIST_VIEW (hands_find (desk->dialog, GTK_TYPE_LIST_VIEW, "Stitch order, back to front")));
  hw_bench_select_ids (desk->bench, others);
  g_assert_true (gtk_selection_model_is_selected (rows, 0));
  g_assert_false (gtk_selection_model_is_selected (rows, 1));
  g_assert_true (gtk_selection_model_is_selected (rows, 2));
  gtk_selection_model_select_item (rows, 1, TRUE);
  g_assert_true (hw_bench_is_selected (desk->bench, "m2"));
  g_assert_cmpuint (hw_bench_get_n_selected (desk->bench), ==, 1);
  hw_bench_bring_forward (desk->bench);
  hands_settle ();
  g_assert_true (gtk_selection_model_is_selected (rows, 2));
  g_assert_false (gtk_selection_model_is_selected (rows, 1));
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/pane-lists/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (what_is_kept_apart_is_told_of_each);
  ADD (ties_are_told_from_both_ends);
  ADD (what_is_held_is_told_and_let_go);
  ADD (what_the_plan_cannot_keep_is_told);
  ADD (parts_are_named_moved_and_taken_apart);
  ADD (a_name_that_cannot_be_is_put_back);
  ADD (what_is_being_typed_stays);
  ADD (alt_and_arrows_move_in_the_order);
  ADD (the_order_and_the_table_select_together);
  return g_test_run ();
}
