/* The window's commands about hoopings: each does one thing, tells what came of it, and does nothing while something is in the hand. */
#include <glib/gstdio.h>

#include "../workbench/bench-fixture.h"
#include "window-fixture.h"

static GPtrArray *
frozen (Room *room)
{
  return hw_scene_get_frozen (hw_bench_get_scene (room->bench));
}

static guint
n_pins (Room *room)
{
  return hw_scene_get_pins (hw_bench_get_scene (room->bench))->len;
}

static void
choose (Room *room, int hooping)
{
  wait_for_plan (room->bench);
  hw_bench_choose_hooping (room->bench, hooping);
  hands_settle ();
}

/* A dialog has opened; it is closed again. */
static void
assert_dialog (Room *room)
{
  GtkWindow *dialog = room_dialog (room);

  g_assert_nonnull (dialog);
  gtk_window_destroy (dialog);
  hands_settle ();
  if (room_dialog (room) != NULL)
    g_error ("“%s” is open still", gtk_window_get_title (room_dialog (room)));
}

typedef struct
{
  const char *action, *type, *value;
} Command;

static void
nothing_happens (Room *room, const Command *commands, guint n)
{
  g_autoptr (HwSnapshot) before = NULL;
  guint windows = room_n_windows ();

  hw_bench_begin_edit (room->bench, "move", FALSE);
  before = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  for (guint i = 0; i < n; i++)
    {
      GVariant *parameter = commands[i].type != NULL ? g_variant_parse (G_VARIANT_TYPE (commands[i].type),
                                                                        commands[i].value, NULL, NULL, NULL)
                                                     : NULL;

      room_do (room, commands[i].action, parameter);
      g_clear_pointer (&parameter, g_variant_unref);
      g_autoptr (HwSnapshot) after = hw_scene_snapshot (hw_bench_get_scene (room->bench));
      if (!hw_snapshot_equal (before, after) || room_n_windows () != windows
          || !hw_bench_is_editing (room->bench) || hw_window_is_at_machine (room->window)
          || hw_window_is_at_start (room->window))
        g_error ("“%s” did something while a motif was in the hand", commands[i].action);
    }
  hw_bench_cancel_edit (room->bench);
  hands_settle ();
}

static void
what_is_in_the_hand_is_left_alone (Room *room, gconstpointer data)
{
  static const char *const pair[] = { "m1", "m2", NULL };
  static const Command commands[] = { { "undo" },
                                      { "redo" },
                                      { "bring-forward" },
                                      { "send-back" },
                                      { "mirror" },
                                      { "duplicate" },
                                      { "delete" },
                                      { "lock" },
                                      { "unpin-hooping" },
                                      { "at-machine" },
                                      { "begin-hooping" },
                                      { "mark-stitched" },
                                      { "lay-aside" },
                                      { "take-back" },
                                      { "no-hoop" },
                                      { "chosen-landed" },
                                      { "landed", "u", "uint32 0" },
                                      { "measure-cloth" },
                                      { "edit-outline" },
                                      { "threads-at-hand" },
                                      { "supplies" },
                                      { "keep-hooping", "s", "'motifs'" },
                                      { "keep-hooping", "s", "'grain'" },
                                      { "join-hooping", "i", "1" },
                                      { "split-hooping" },
                                      { "keep-apart" },
                                      { "let-share" },
                                      { "tie", "(ss)", "('m1', 'm2')" },
                                      { "delete-photo" },
                                      { "draw-outline" },
                                      { "start-page" } };

  /* Much can be done, so that it is the hand that keeps it from being done. */
  hw_bench_select_only (room->bench, "m1");
  hw_bench_mirror (room->bench);
  hw_bench_mirror (room->bench);
  hw_bench_undo (room->bench);
  choose (room, 0);
  hw_bench_select_ids (room->bench, pair);
  hands_settle ();
  nothing_happens (room, commands, G_N_ELEMENTS (commands));
  hw_bench_select_only (room->bench, "m1");
  hands_settle ();
  g_assert_true (room_can (room, "edit-outline"));
  nothing_happens (room, commands, G_N_ELEMENTS (commands));
  /* The same with one hooping stitched and chosen, and another in the machine. */
  g_assert_true (hw_bench_mark_stitched (room->bench, 0));
  wait_for_plan (room->bench);
  g_assert_true (hw_bench_begin_hooping (room->bench, 1));
  choose (room, 0);
  g_assert_true (room_can (room, "chosen-landed") && room_can (room, "take-back")
                 && room_can (room, "lay-aside"));
  nothing_happens (room, commands, G_N_ELEMENTS (commands));
}

static void
a_hooping_is_stitched_and_taken_back (Room *room, gconstpointer data)
{
  choose (room, -1);
  g_assert_false (room_can (room, "mark-stitched"));
  choose (room, 0);
  g_assert_true (room_can (room, "mark-stitched"));
  g_assert_false (room_can (room, "take-back"));
  room_do (room, "mark-stitched", NULL);
  g_assert_cmpuint (frozen (room)->len, ==, 1);
  choose (room, 0);
  g_assert_false (room_can (room, "mark-stitched"));
  g_assert_false (room_can (room, "begin-hooping"));
  g_assert_false (room_can (room, "no-hoop"));
  room_do (room, "chosen-landed", NULL);
  assert_dialog (room);
  room_do (room, "landed", g_variant_new_uint32 (0));
  assert_dialog (room);
  room_do (room, "take-back", NULL);
  g_assert_cmpuint (frozen (room)->len, ==, 0);
  room_do (room, "measure-cloth", NULL);
  assert_dialog (room);
  room_do (room, "day-log", NULL);
  assert_dialog (room);
}

static void
a_hoop_that_is_gone_is_told_and_comes_back (Room *room, gconstpointer data)
{
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (room->bench));

  choose (room, 1);
  room_do (room, "no-hoop", NULL);
  room_tells (room, "The hoop 130 x 180 is set aside");
  wait_for_plan (room->bench);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 0);
  room_do (room, "undo", NULL);
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  g_assert_true (hw_snapshot_equal (before, after));
}

/* Without a hooping there is none to go to, and nothing to begin. */
static void
without_a_hooping_there_is_none_to_choose (Room *room, gconstpointer data)
{
  hw_bench_select_all (room->bench);
  room_do (room, "delete", NULL);
  wait_for_plan (room->bench);
  hands_settle ();
  g_assert_cmpuint (room_n_motifs (room), ==, 0);
  g_assert_false (room_can (room, "next-hooping"));
  g_assert_false (room_can (room, "previous-hooping"));
  g_assert_false (room_can (room, "begin-hooping"));
  room_do (room, "undo", NULL);
  wait_for_plan (room->bench);
  hands_settle ();
  room_do (room, "previous-hooping", NULL);
  g_assert_cmpint (hw_bench_get_chosen_hooping (room->bench), ==, 1);
  room_do (room, "next-hooping", NULL);
  g_assert_cmpint (hw_bench_get_chosen_hooping (room->bench), ==, 1);
  room_do (room, "previous-hooping", NULL);
  room_do (room, "previous-hooping", NULL);
  g_assert_cmpint (hw_bench_get_chosen_hooping (room->bench), ==, 0);
}

/* One step at a time out of what was opened last. */
static void
escape_steps_back_one_by_one (Room *room, gconstpointer data)
{
  hw_bench_select_only (room->bench, "m1");
  room_do (room, "next-stage", NULL);
  g_assert_cmpint (hw_bench_get_stage (room->bench), ==, 0);
  choose (room, 1);
  room_do (room, "step-back", NULL);
  g_assert_cmpint (hw_bench_get_chosen_hooping (room->bench), ==, -1);
  if (hw_bench_get_stage (room->bench) >= 0)
    room_do (room, "step-back", NULL);
  g_assert_cmpint (hw_bench_get_stage (room->bench), ==, -1);
  hw_bench_select_only (room->bench, "m1");
  room_do (room, "step-back", NULL);
  g_assert_cmpuint (hw_bench_get_n_selected (room->bench), ==, 0);
}

/* The drawer of a narrow window is what Escape closes first. */
static void
in_a_narrow_window_the_drawer_goes_first (Room *room, gconstpointer data)
{
  gtk_window_set_default_size (GTK_WINDOW (room->window), 760, 600);
  room_until (room->window->narrow);
  hands_settle ();
  g_assert_false (room->window->pane_open);
  hw_window_show_problems (room->window);
  hands_settle ();
  g_assert_true (room->window->pane_open);
  hw_bench_select_only (room->bench, "m1");
  room_do (room, "step-back", NULL);
  g_assert_false (room->window->pane_open);
  g_assert_cmpuint (hw_bench_get_n_selected (room->bench), ==, 1);
  room_do (room, "step-back", NULL);
  g_assert_cmpuint (hw_bench_get_n_selected (room->bench), ==, 0);
  gtk_window_set_default_size (GTK_WINDOW (room->window), 1240, 700);
  room_until (!room->window->narrow && room->window->pane_open);
}

static const char *
guide_page (Room *room)
{
  GtkWindow *guide = hands_window ("Guide");
  g_assert_nonnull (guide);
  GtkListBox *list = GTK_LIST_BOX (room_first (guide, GTK_TYPE_LIST_BOX));
  return gtk_label_get_text (GTK_LABEL (gtk_list_box_row_get_child (gtk_list_box_get_selected_row (list))));
}

/* F1 reads about what is seen: four things at the table, four pages. */
static void
help_opens_at_what_is_seen (Room *room, gconstpointer data)
{
  g_autoptr (GHashTable) pages = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  gtk_widget_grab_focus (GTK_WIDGET (room->window->canvas));
  room_do (room, "help", NULL);
  g_hash_table_add (pages, g_strdup (guide_page (room)));
  choose (room, 0);
  room_do (room, "help", NULL);
  g_hash_table_add (pages, g_strdup (guide_page (room)));
  hw_bench_select_only (room->bench, "m2");
  room_do (room, "help", NULL);
  g_hash_table_add (pages, g_strdup (guide_page (room)));
  g_object_set (room->window->canvas, "show-density", TRUE, NULL);
  room_do (room, "help", NULL);
  g_hash_table_add (pages, g_strdup (guide_page (room)));
  g_assert_cmpuint (g_hash_table_size (pages), ==, 4);
  gtk_window_destroy (hands_window ("Guide"));
}

static void
decisions_are_one_step_each (Room *room, gconstpointer data)
{
  static const char *const pair[] = { "m1", "m2", NULL };

  choose (room, 0);
  room_do (room, "keep-hooping", g_variant_new_string ("motifs"));
  g_assert_cmpuint (n_pins (room), ==, 1);
  choose (room, 0);
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (room->window), "keep-hooping");
  g_assert_cmpstr (g_variant_get_string (state, NULL), ==, "motifs");
  room_do (room, "keep-hooping", g_variant_new_string ("no such way"));
  g_assert_cmpuint (n_pins (room), ==, 1);
  g_assert_true (room_can (room, "unpin-hooping"));
  room_do (room, "unpin-hooping", NULL);
  g_assert_cmpuint (n_pins (room), ==, 0);
  choose (room, 0);
  room_do (room, "keep-hooping", g_variant_new_string ("grain"));
  assert_dialog (room);
  room_do (room, "join-hooping", g_variant_new_int32 (-1));
  g_assert_null (room_dialog (room));
  room_do (room, "join-hooping", g_variant_new_int32 (1));
  assert_dialog (room);
  room_do (room, "split-hooping", NULL);
  assert_dialog (room);
  choose (room, 1);
  g_assert_false (room_can (room, "split-hooping"));
  hw_bench_select_ids (room->bench, pair);
  hands_settle ();
  room_do (room, "keep-apart", NULL);
  g_assert_true (hw_bench_are_apart (room->bench, "m1", "m2"));
  room_do (room, "let-share", NULL);
  g_assert_false (hw_bench_are_apart (room->bench, "m1", "m2"));
  /* Ties: a motif that is not there is none, round in a circle is refused. */
  room_do (room, "tie", g_variant_new ("(ss)", "m1", "m9"));
  room_do (room, "tie", g_variant_new ("(ss)", "m9", "m1"));
  room_do (room, "tie", g_variant_new ("(ss)", "m1", "m1"));
  g_assert_false (hw_bench_is_tied (room->bench, "m1", "m1"));
  room_do (room, "tie", g_variant_new ("(ss)", "m1", "m2"));
  g_assert_true (hw_bench_is_tied (room->bench, "m1", "m2"));
  g_autofree char *quiet = room_told (room);
  g_assert_null (quiet);
  room_do (room, "tie", g_variant_new ("(ss)", "m2", "m1"));
  g_assert_false (hw_bench_is_tied (room->bench, "m2", "m1"));
  g_autofree char *told = room_told (room);
  g_assert_nonnull (told);
}

static gboolean
is_modified (Room *room)
{
  gboolean modified;

  g_object_get (room->bench, "modified", &modified, NULL);
  return modified;
}

static gboolean
view_says (GtkWidget *widget, const char *part)
{
  if (!gtk_widget_get_visible (widget))
    return FALSE;
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), part) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (view_says (child, part))
      return TRUE;
  return FALSE;
}

/* Every step at the machine is saved; one that cannot be is told where it is read. Back at the table the way to the machine is offered. */
static void
steps_at_the_machine_are_saved (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene");
  g_autofree char *elsewhere = g_strconcat (room->folder, "-moved", NULL);
  HwWindow *window = room->window;

  g_assert_true (hw_window_write (window, path, FALSE, NULL));
  choose (room, 0);
  room_do (room, "begin-hooping", NULL);
  g_assert_true (hw_window_is_at_machine (window));
  g_assert_false (room_can (room, "select-all"));
  wait_for_plan (room->bench);
  room_until (!is_modified (room));
  hw_bench_go_to_step (room->bench, HW_WORK_HOOP);
  room_until (!is_modified (room));
  g_assert_cmpint (g_rename (room->folder, elsewhere), ==, 0);
  hw_bench_go_to_step (room->bench, HW_WORK_STICK);
  room_until (view_says (window->machine_view, "was not saved"));
  g_assert_true (is_modified (room));
  g_assert_cmpint (g_rename (elsewhere, room->folder), ==, 0);
  hw_bench_go_to_step (room->bench, HW_WORK_CENTRE);
  room_until (!is_modified (room));
  room_do (room, "at-machine", NULL);
  g_assert_false (hw_window_is_at_machine (window));
  g_assert_true (gtk_revealer_get_reveal_child (window->resume_bar));
  g_assert_true (room_can (room, "select-all"));
  /* What is done at the table is not saved by itself. */
  hw_bench_select_only (room->bench, "m3");
  hw_bench_nudge (room->bench, 1, 0);
  room_wait (50);
  g_assert_true (is_modified (room));
  room_do (room, "at-machine", NULL);
  g_assert_true (hw_window_is_at_machine (window));
  g_assert_false (gtk_revealer_get_reveal_child (window->resume_bar));
  hands_key (window->machine_view, GDK_KEY_Escape, 0);
  g_assert_false (hw_window_is_at_machine (window));
  room_do (room, "lay-aside", NULL);
  g_assert_null (hw_bench_get_begun (room->bench));
  g_assert_false (gtk_revealer_get_reveal_child (window->resume_bar));
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-at-rest/" #test, Room, NULL, room_set_up, test, room_tear_down)
  ADD (what_is_in_the_hand_is_left_alone);
  ADD (a_hooping_is_stitched_and_taken_back);
  ADD (a_hoop_that_is_gone_is_told_and_comes_back);
  ADD (without_a_hooping_there_is_none_to_choose);
  ADD (escape_steps_back_one_by_one);
  ADD (in_a_narrow_window_the_drawer_goes_first);
  ADD (help_opens_at_what_is_seen);
  ADD (decisions_are_one_step_each);
  ADD (steps_at_the_machine_are_saved);
  return g_test_run ();
}
