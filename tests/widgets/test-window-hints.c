/* Hints on the window: one at a time, each when it is due and where it points, and what is done or read is not said again. */
#include "../workbench/bench-fixture.h"
#include "window-fixture.h"
#include "workbench/hint-slip.h"
#include "workbench/hints.h"

static GtkWidget *
slip (Room *room)
{
  GtkWidget *found = room_first (room->window, HW_TYPE_HINT_SLIP);

  g_assert_nonnull (found);
  return found;
}

static void
set_up (Room *room, gconstpointer data)
{
  room_set_up (room, NULL);
  hw_hints_bring_back ();
}

static void
tear_down (Room *room, gconstpointer data)
{
  room_tear_down (room, NULL);
  hw_hints_bring_back ();
}

static gboolean
is_shown (Room *room)
{
  return gtk_widget_get_visible (slip (room));
}

static void
assert_shown (Room *room, HwHintKind kind)
{
  hands_settle ();
  g_assert_true (is_shown (room));
  hands_find (slip (room), GTK_TYPE_LABEL, hw_hint_text (kind));
}

static void
select_one (Room *room, const char *id)
{
  hw_bench_select_only (room->bench, id);
  hands_settle ();
}

static void
a_hint_about_a_motif_comes_and_goes_with_it (Room *room, gconstpointer data)
{
  hw_hint_put_away (HW_HINT_PLAN);
  hw_hint_put_away (HW_HINT_PRINT);
  hw_window_want_hints (room->window);
  g_assert_false (is_shown (room));
  select_one (room, "m1");
  assert_shown (room, HW_HINT_MOTIF);
  select_one (room, "m3");
  assert_shown (room, HW_HINT_MOTIF);
  hw_bench_select_all (room->bench);
  hands_settle ();
  g_assert_false (is_shown (room));
  select_one (room, "m1");
  assert_shown (room, HW_HINT_MOTIF);
  /* Done is as good as read. */
  hw_bench_nudge (room->bench, 2, 0);
  hands_settle ();
  g_assert_false (hw_hint_is_wanted (HW_HINT_MOTIF));
  /* And the next one gives the person time. */
  select_one (room, NULL);
  select_one (room, "m1");
  g_assert_false (is_shown (room));
}

static void
the_order_is_spoken_of_until_it_is_changed (Room *room, gconstpointer data)
{
  hw_hint_put_away (HW_HINT_MOTIF);
  hw_hint_put_away (HW_HINT_PLAN);
  hw_hint_put_away (HW_HINT_PRINT);
  hw_window_want_hints (room->window);
  select_one (room, "m3");
  assert_shown (room, HW_HINT_ORDER);
  hw_bench_nudge (room->bench, 2, 0);
  assert_shown (room, HW_HINT_ORDER);
  hw_bench_send_back (room->bench);
  hands_settle ();
  g_assert_false (is_shown (room));
  g_assert_false (hw_hint_is_wanted (HW_HINT_ORDER));
}

static void
one_motif_alone_has_no_order (Room *room, gconstpointer data)
{
  static const char *const two[] = { "m1", "m2", NULL };

  hw_bench_select_ids (room->bench, two);
  hw_bench_delete (room->bench);
  wait_for_plan (room->bench);
  hw_hint_put_away (HW_HINT_MOTIF);
  hw_hint_put_away (HW_HINT_PLAN);
  hw_hint_put_away (HW_HINT_PRINT);
  hw_window_want_hints (room->window);
  select_one (room, "m3");
  g_assert_false (is_shown (room));
}

/* The slip lies under the button it speaks of, within the window. */
static void
printing_is_pointed_out_below_its_button (Room *room, gconstpointer data)
{
  graphene_rect_t lies, button;

  hw_hint_put_away (HW_HINT_PLAN);
  hw_window_want_hints (room->window);
  assert_shown (room, HW_HINT_PRINT);
  hands_frame (slip (room));
  g_assert_true (gtk_widget_compute_bounds (slip (room), GTK_WIDGET (room->window), &lies));
  g_assert_true (gtk_widget_compute_bounds (room->window->print_button, GTK_WIDGET (room->window), &button));
  g_assert_cmpfloat (lies.origin.y, >=, button.origin.y + button.size.height - 20);
  g_assert_cmpfloat (lies.origin.y, <, button.origin.y + button.size.height + 120);
  g_assert_cmpfloat (lies.origin.x, <, button.origin.x + button.size.width);
  g_assert_cmpfloat (lies.origin.x + lies.size.width, >, button.origin.x);
  g_assert_cmpfloat (lies.origin.x + lies.size.width, <=, gtk_widget_get_width (GTK_WIDGET (room->window)));
  hands_click (slip (room), "I see: put the hint away");
  g_assert_false (is_shown (room));
  g_assert_false (hw_hint_is_wanted (HW_HINT_PRINT));
  g_assert_true (hw_hint_is_wanted (HW_HINT_MOTIF));
}

static void
with_no_motif_left_there_is_nothing_to_say (Room *room, gconstpointer data)
{
  hw_window_want_hints (room->window);
  assert_shown (room, HW_HINT_PLAN);
  hands_frame (slip (room));
  hw_bench_select_all (room->bench);
  hw_bench_delete (room->bench);
  hands_settle ();
  g_assert_false (is_shown (room));
  g_assert_true (hw_hint_is_wanted (HW_HINT_PLAN));
  /* Nothing is said while something is in the hand; then it is. */
  hw_bench_undo (room->bench);
  hw_bench_begin_edit (room->bench, "move", FALSE);
  wait_for_plan (room->bench);
  hands_settle ();
  hw_bench_cancel_edit (room->bench);
  hw_bench_set_draw_in (room->bench, 1);
  assert_shown (room, HW_HINT_PLAN);
}

static void
at_the_machine_its_own_hint_stands (Room *room, gconstpointer data)
{
  hw_window_want_hints (room->window);
  assert_shown (room, HW_HINT_PLAN);
  hw_bench_choose_hooping (room->bench, 0);
  hands_settle ();
  room_do (room, "begin-hooping", NULL);
  assert_shown (room, HW_HINT_MACHINE);
  hands_frame (slip (room));
  room_do (room, "at-machine", NULL);
  assert_shown (room, HW_HINT_PLAN);
  /* On the start page nothing is pointed out. */
  room_do (room, "start-page", NULL);
  g_assert_false (is_shown (room));
}

/* No more hints are wanted, and later they are again, from the first. */
static void
no_more_until_they_are_asked_for (Room *room, gconstpointer data)
{
  hw_window_want_hints (room->window);
  assert_shown (room, HW_HINT_PLAN);
  hands_click (slip (room), "No more hints");
  g_assert_false (is_shown (room));
  select_one (room, "m1");
  g_assert_false (is_shown (room));
  room_do (room, "hints-again", NULL);
  assert_shown (room, HW_HINT_MOTIF);
}

static void
next_to (HwHintSlip *slip, GdkRectangle target, GdkRectangle room, gboolean beside, GdkRectangle *place)
{
  hw_hint_slip_place (slip, &target, &room, beside, place);
  g_assert_cmpint (place->x, >=, room.x);
  g_assert_cmpint (place->x + place->width, <=, room.x + room.width);
}

/* Beside what it speaks of where there is room, right, else left, else above, else below. */
static void
the_slip_finds_its_side (Room *room, gconstpointer data)
{
  HwHintSlip *it = HW_HINT_SLIP (slip (room));
  GdkRectangle all = { 0, 0, 1200, 800 }, place;

  hw_hint_slip_say (it, "Mind the quay.");
  next_to (it, (GdkRectangle){ 100, 300, 50, 50 }, all, TRUE, &place);
  g_assert_cmpint (place.x, ==, 150);
  next_to (it, (GdkRectangle){ 1100, 300, 50, 50 }, all, TRUE, &place);
  g_assert_cmpint (place.x + place.width, ==, 1100);
  next_to (it, (GdkRectangle){ 20, 500, 1160, 50 }, all, TRUE, &place);
  g_assert_cmpint (place.y + place.height, ==, 500);
  next_to (it, (GdkRectangle){ 20, 10, 1160, 50 }, all, TRUE, &place);
  g_assert_cmpint (place.y, ==, 60);
  next_to (it, (GdkRectangle){ 100, 300, 50, 50 }, all, FALSE, &place);
  g_assert_cmpint (place.y + place.height, ==, 300);
  hands_settle ();
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-hints/" #test, Room, NULL, set_up, test, tear_down)
  ADD (a_hint_about_a_motif_comes_and_goes_with_it);
  ADD (the_order_is_spoken_of_until_it_is_changed);
  ADD (one_motif_alone_has_no_order);
  ADD (printing_is_pointed_out_below_its_button);
  ADD (with_no_motif_left_there_is_nothing_to_say);
  ADD (at_the_machine_its_own_hint_stands);
  ADD (no_more_until_they_are_asked_for);
  ADD (the_slip_finds_its_side);
  return g_test_run ();
}
