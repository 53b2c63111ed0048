/* What the plan says in the window: what is to be looked at leads to its place, why it is so is told, what would help is done, and what a decision would cost is known before it is taken. */
#include "../workbench/bench-fixture.h"
#include "window-fixture.h"
#include "workbench/advice-list.h"
#include "workbench/problem-list.h"
#include "workbench/statement.h"

static GtkWidget *
problems (Room *room)
{
  return room_first (room->window, HW_TYPE_PROBLEM_LIST);
}

static GtkWidget *
statement (Room *room)
{
  return room_first (room->window, HW_TYPE_STATEMENT);
}

static void
rest (Room *room)
{
  wait_for_plan (room->bench);
  hands_settle ();
}

static void
move (Room *room, const char *id, double dx, double dy)
{
  hw_bench_select_only (room->bench, id);
  hw_bench_nudge (room->bench, dx, dy);
  hw_bench_select_only (room->bench, NULL);
  rest (room);
}

static char *
selected (Room *room)
{
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (room->bench);

  return selection->len == 1 ? g_strdup (hw_scene_motif_get_record (g_ptr_array_index (selection, 0))->id)
                             : NULL;
}

static char *
undo_name (Room *room)
{
  char *name = NULL;

  g_object_get (room->bench, "undo-name", &name, NULL);
  return name;
}

/* The nth button of the list that is a problem's. */
static GtkWidget *
problem (Room *room, guint n)
{
  GtkWidget *row = gtk_widget_get_next_sibling (gtk_widget_get_first_child (problems (room)));

  for (; row != NULL && n > 0; n--)
    row = gtk_widget_get_next_sibling (row);
  g_assert_nonnull (row);
  return gtk_widget_get_first_child (row);
}

static void
click (GtkWidget *button)
{
  g_signal_emit_by_name (button, "clicked");
  hands_settle ();
}

/* What lies over the rim of the cloth is counted at the foot; a click there shows the list, a click there the motif. */
static void
what_is_to_be_looked_at_leads_to_its_place (Room *room, gconstpointer data)
{
  guint before = hw_bench_get_plan (room->bench)->problems->len;

  move (room, "m3", 0, -85);
  move (room, "m1", 0, -90);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->problems->len, >=, before + 2);
  g_autofree char *count
      = g_strdup_printf ("%u things to look at", hw_bench_get_plan (room->bench)->problems->len);
  hands_click (statement (room), count);
  room_until (gtk_widget_get_mapped (problem (room, 0)));
  gboolean seen[3] = { FALSE };
  for (guint i = 0; i < hw_bench_get_plan (room->bench)->problems->len; i++)
    {
      click (problem (room, i));
      g_autofree char *id = selected (room);
      if (id != NULL)
        seen[id[1] - '1'] = TRUE;
    }
  g_assert_true (seen[0] && seen[2]);
}

/* Where nothing is wrong that is said, and nothing is counted at the foot. */
static void
where_all_is_well_that_is_said (Room *room, gconstpointer data)
{
  hw_bench_select_all (room->bench);
  hw_bench_delete (room->bench);
  rest (room);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->problems->len, ==, 0);
  hands_says (statement (room), "The cloth is bare: add a motif to begin");
  g_assert_true (gtk_widget_get_visible (gtk_widget_get_first_child (problems (room))));
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (gtk_widget_get_first_child (problems (room)))), ==,
                   "Everything lies as it should.");
  room_do (room, "undo", NULL);
  rest (room);
  hw_bench_choose_hooping (room->bench, 0);
}

/* Of one that lies over another though it was stitched before it both are pointed out, until something else is looked at. */
static void
of_two_in_each_others_way_both_are_shown (Room *room, gconstpointer data)
{
  g_assert_true (hw_bench_mark_stitched (room->bench, 1));
  rest (room);
  move (room, "m1", 430, 0);
  hands_says (problem (room, 0), "Quince is stitched already, but Pear");
  click (problem (room, 0));
  g_assert_cmpuint (hw_bench_get_n_pointed_out (room->bench), ==, 2);
  g_assert_true (hw_bench_is_pointed_out (room->bench, "m1") && hw_bench_is_pointed_out (room->bench, "m3"));
  hw_bench_select_only (room->bench, "m2");
  g_assert_cmpuint (hw_bench_get_n_pointed_out (room->bench), ==, 0);
  click (problem (room, 0));
  move (room, "m1", -430, 0);
  g_assert_cmpuint (hw_bench_get_n_pointed_out (room->bench), ==, 0);
}

/* A wish that cannot be kept is taken back where it is told of. */
static void
a_wish_that_is_not_kept_is_taken_back (Room *room, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (room->bench);

  hw_bench_keep_hooping (room->bench, 0, HW_KEEP_ALL);
  rest (room);
  g_assert_cmpuint (hw_scene_get_pins (scene)->len, ==, 1);
  move (room, "m2", 300, 150);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->problems->len, >, 0);
  GtkWidget *back = gtk_widget_get_next_sibling (problem (room, 0));
  g_assert_true (gtk_widget_get_visible (back));
  g_signal_emit_by_name (back, "clicked");
  click (back); /* a double click is one */
  room_until (hw_scene_get_pins (scene)->len == 0);
}

/* What speaks of the whole scene, as that there is no hoop, shows the whole cloth. */
static void
what_speaks_of_the_whole_shows_the_whole (Room *room, gconstpointer data)
{
  HwPoint centre;
  double zoom;

  hw_bench_hoop_unavailable (room->bench, "h1");
  rest (room);
  hw_canvas_set_place (room->window->canvas, (HwPoint){ 20, 20 }, 4);
  g_assert_true (hw_canvas_get_place (room->window->canvas, &centre, &zoom));
  const HwPlan *plan = hw_bench_get_plan (room->bench);
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *found = g_ptr_array_index (plan->problems, i);

      if (found->motif < 0 && found->hooping < 0)
        click (problem (room, i));
    }
  g_assert_false (hw_canvas_get_place (room->window->canvas, &centre, &zoom)); /* it is seen whole */
}

static GtkPopover *
why_slip (GtkWidget *root, const char *name)
{
  return gtk_menu_button_get_popover (GTK_MENU_BUTTON (hands_find (root, GTK_TYPE_MENU_BUTTON, name)));
}

/* The reason stands on a slip; the motifs it speaks of are pointed out as long as it is open, and it is written anew with the plan. */
static void
why_not_fewer_is_told (Room *room, gconstpointer data)
{
  GtkPopover *slip = why_slip (statement (room), "Why not fewer?");

  gtk_popover_popup (slip);
  hands_settle ();
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (slip)));
  g_autofree char *first = hands_sentence (slip, "");
  g_assert_nonnull (first);
  g_assert_cmpuint (hw_bench_get_n_pointed_out (room->bench), ==, 2);
  hw_bench_select_only (room->bench, "m3");
  hw_bench_nudge (room->bench, -345, 0);
  rest (room);
  g_autofree char *second = hands_sentence (slip, "");
  g_assert_cmpstr (first, !=, second);
  gtk_popover_popdown (slip);
  hands_settle ();
  g_assert_cmpuint (hw_bench_get_n_pointed_out (room->bench), ==, 0);
}

static gboolean
is_worked_out (GtkWindow *dialog)
{
  g_autofree char *said = hands_sentence (dialog, "Working out");

  return said == NULL;
}

static void
until_takeable (GtkWindow *dialog)
{
  room_until (is_worked_out (dialog));
  hands_settle ();
}

/* A hooping is split: which motifs go is chosen, what comes of it is told, and then it is taken, as one step. */
static void
a_hooping_is_split_when_one_knows_what_it_costs (Room *room, gconstpointer data)
{
  GtkWindow *dialog;
  GtkWidget *take;

  hw_bench_choose_hooping (room->bench, 0);
  hands_settle ();
  room_do (room, "split-hooping", NULL);
  dialog = hands_window ("Split hooping 1");
  take = hands_find (dialog, GTK_TYPE_BUTTON, "Take");
  hands_says (dialog, "Choose which motifs to take out; at least one has to stay.");
  g_assert_false (gtk_widget_is_sensitive (take));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "Pear")), TRUE);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "Plum")), TRUE);
  hands_says (dialog, "Choose which motifs to take out");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "Plum")), FALSE);
  until_takeable (dialog);
  hands_says (dialog, "2 hoopings become 3");
  hands_click (dialog, "Take");
  g_assert_null (hands_window ("Split hooping 1"));
  g_autofree char *name = undo_name (room);
  g_assert_cmpstr (name, ==, "split hooping 1");
  rest (room);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 3);
}

/* Two that lie too far apart cannot be joined; that is said and cannot be taken. */
static void
what_cannot_be_joined_is_told (Room *room, gconstpointer data)
{
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  GtkWindow *dialog;

  hw_bench_choose_hooping (room->bench, 0);
  hands_settle ();
  room_do (room, "join-hooping", g_variant_new_int32 (1));
  dialog = hands_window ("Join hoopings 1 and 2");
  hands_says (dialog, "Together in one hooping: Pear");
  until_takeable (dialog);
  hands_says (dialog, "This cannot be done.");
  g_assert_false (gtk_widget_is_sensitive (hands_find (dialog, GTK_TYPE_BUTTON, "Take")));
  hands_click (dialog, "Leave");
  g_assert_null (hands_window ("Join hoopings 1 and 2"));
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  g_assert_true (hw_snapshot_equal (before, after));
  room_do (room, "join-hooping", g_variant_new_int32 (7));
  g_assert_null (room_dialog (room));
}

/* What was split by hand can be joined again. */
static void
what_was_split_is_joined_again (Room *room, gconstpointer data)
{
  static const char *const pair[] = { "m1", "m2", NULL };

  hw_bench_select_ids (room->bench, pair);
  hw_bench_keep_apart (room->bench);
  rest (room);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 3);
  const HwPlan *plan = hw_bench_get_plan (room->bench);
  int first = hw_plan_hooping_of (plan, 0), second = hw_plan_hooping_of (plan, 1);
  hw_bench_choose_hooping (room->bench, first);
  hands_settle ();
  room_do (room, "join-hooping", g_variant_new_int32 (second));
  GtkWindow *dialog = room_dialog (room);
  until_takeable (dialog);
  hands_says (dialog, "3 hoopings become 2");
  hands_click (dialog, "Take");
  g_autofree char *name = undo_name (room);
  g_assert_true (g_str_has_prefix (name, "join hoopings "));
  rest (room);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 2);
  g_assert_false (hw_bench_are_apart (room->bench, "m1", "m2"));
}

static void
a_hooping_is_kept_along_the_grain (Room *room, gconstpointer data)
{
  GtkWindow *dialog;

  hw_bench_choose_hooping (room->bench, 0);
  hands_settle ();
  room_do (room, "keep-hooping", g_variant_new_string ("grain"));
  dialog = hands_window ("Keep hooping 1 along the grain");
  hands_says (dialog, "With the hoop at 0° or 90° on the cloth: Pear");
  until_takeable (dialog);
  hands_click (dialog, "Take");
  g_autofree char *name = undo_name (room);
  g_assert_cmpstr (name, ==, "keep hooping 1 along the grain");
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (room->bench))->len, ==, 1);
}

/* One that only fits askew cannot lie along the grain; that it can in parts is offered instead, and taken as such. */
static void
along_the_grain_it_may_take_two (Room *room, gconstpointer data)
{
  GtkWindow *dialog;

  move (room, "m2", 45, 95);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 2);
  hw_bench_choose_hooping (room->bench, hw_plan_hooping_of (hw_bench_get_plan (room->bench), 0));
  hands_settle ();
  room_do (room, "keep-hooping", g_variant_new_string ("grain"));
  dialog = room_dialog (room);
  until_takeable (dialog);
  GtkWidget *take = hands_find (dialog, GTK_TYPE_BUTTON, "Take");
  g_assert_true (gtk_widget_is_sensitive (take));
  g_assert_null (hands_sentence (dialog, "This cannot be done."));
  hands_click (dialog, "Take");
  rest (room);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 3);
  g_assert_cmpuint (hw_scene_get_pins (hw_bench_get_scene (room->bench))->len, ==, 2);
}

/* One that no hoop takes along the grain cannot, in whatever parts. */
static void
what_no_hoop_takes_along_the_grain_is_told (Room *room, gconstpointer data)
{
  HwSceneMotif *quince = hw_scene_find_motif (hw_bench_get_scene (room->bench), "m3");
  HwPlacement large = hw_scene_motif_get_record (quince)->placement;
  GtkWindow *dialog;

  /* 120 by 120 mm at 45 degrees fits 130 by 180 mm only when the hoop lies as it does. */
  hw_bench_begin_edit (room->bench, "enlarge", FALSE);
  large.scale = 3;
  large.angle = 45;
  hw_scene_motif_set_placement (quince, &large);
  hw_bench_end_edit (room->bench);
  rest (room);
  hw_bench_choose_hooping (room->bench, hw_plan_hooping_of (hw_bench_get_plan (room->bench), 2));
  hands_settle ();
  room_do (room, "keep-hooping", g_variant_new_string ("grain"));
  dialog = room_dialog (room);
  until_takeable (dialog);
  hands_says (dialog, "This cannot be done.");
  g_assert_false (gtk_widget_is_sensitive (hands_find (dialog, GTK_TYPE_BUTTON, "Take")));
  hands_click (dialog, "Leave");
}

/* Quince lies a little too far off to share: when the plan has come to rest that is found, told, and done by a click. */
static void
a_small_move_that_saves_a_hooping_is_offered (Room *room, gconstpointer data)
{
  GtkWidget *list = room_first (room->window, HW_TYPE_ADVICE_LIST);
  GtkWidget *child;

  move (room, "m3", -304, 0);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 2);
  hands_says (gtk_widget_get_first_child (list), "Looked for when the plan is made and nothing moves.");
  room_until ((child = gtk_widget_get_first_child (list)) != NULL
              && gtk_widget_has_css_class (child, "advice-card"));
  /* Under a hand nothing is done. */
  hw_bench_begin_edit (room->bench, "move", FALSE);
  click (gtk_widget_get_last_child (child));
  g_assert_true (hw_bench_is_editing (room->bench));
  hw_bench_cancel_edit (room->bench);
  hands_settle ();
  child = gtk_widget_get_first_child (list);
  click (gtk_widget_get_last_child (child));
  g_autofree char *name = undo_name (room);
  g_assert_true (g_str_has_prefix (name, "move ") || g_str_has_prefix (name, "turn ")
                 || g_str_has_prefix (name, "resize "));
  rest (room);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 1);
}

/* Where no move would help, hoops of common sizes are named that would. */
static void
a_hoop_that_saves_a_hooping_is_offered (Room *room, gconstpointer data)
{
  GtkWidget *list = room_first (room->window, HW_TYPE_ADVICE_LIST);
  guint hoops;

  move (room, "m3", -280, 0); /* within 230 mm: no hoop of hers takes it in */
  room_until (!g_str_has_prefix (GTK_IS_LABEL (gtk_widget_get_first_child (list))
                                     ? gtk_label_get_text (GTK_LABEL (gtk_widget_get_first_child (list)))
                                     : "",
                                 "Looked for"));
  hands_says (gtk_widget_get_first_child (list), "Hoops of common sizes you do not have");
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  hoops = before->hoops->len;
  GtkWidget *row = gtk_widget_get_next_sibling (gtk_widget_get_first_child (list));
  click (gtk_widget_get_last_child (row));
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  g_assert_cmpuint (after->hoops->len, ==, hoops + 1);
  g_autofree char *name = undo_name (room);
  g_assert_cmpstr (name, ==, "add a hoop");
  rest (room);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 1);
}

/* What the plan takes, by hooping; it follows the plan when that has come to rest, and the unit at once. */
static void
what_it_takes_follows_the_plan (Room *room, gconstpointer data)
{
  GtkWindow *dialog;

  room_do (room, "supplies", NULL);
  dialog = hands_window ("What it takes");
  hands_find (dialog, GTK_TYPE_WIDGET, "Hooping 2");
  move (room, "m3", -345, 0);
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 1);
  move (room, "m3", 1, 0);
  room_wait (200);
  hands_find (dialog, GTK_TYPE_WIDGET, "Hooping 1");
  g_assert_cmpuint (hw_bench_get_plan (room->bench)->n_hoopings, ==, 1);
  g_autofree char *metres = hands_sentence (dialog, "Needle");
  g_assert_nonnull (metres);
  hw_bench_set_unit (room->bench, HW_UNIT_INCH);
  hands_settle ();
  g_autofree char *yards = hands_sentence (dialog, "Bobbin");
  g_assert_nonnull (yards);
  hw_bench_set_unit (room->bench, HW_UNIT_MM);
  hands_click (dialog, "Close");
  g_assert_null (hands_window ("What it takes"));
}

/* The selected motifs go into a part: a new one, which needs a name, one that is there, or none. */
static void
motifs_are_put_into_a_part (Room *room, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (room->bench);
  GtkWindow *dialog;
  GtkWidget *name;

  room_do (room, "parts", NULL);
  g_assert_null (room_dialog (room)); /* nothing is selected: the list of parts is shown instead */
  hw_bench_select_only (room->bench, "m1");
  hands_settle ();
  room_do (room, "put-in-part", NULL);
  dialog = hands_window ("Put into a part");
  name = hands_find (dialog, GTK_TYPE_ENTRY, "Name of the new part");
  g_assert_false (gtk_widget_is_sensitive (hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "In no part")));
  hands_type (name, "  ");
  hands_says (dialog, "Please give the new part a name.");
  g_assert_cmpuint (hw_scene_get_parts (scene)->len, ==, 0);
  hands_type (name, "West");
  g_assert_null (hands_window ("Put into a part"));
  g_assert_cmpuint (hw_scene_get_parts (scene)->len, ==, 1);
  hw_bench_select_only (room->bench, "m2");
  hands_settle ();
  room_do (room, "parts", NULL);
  dialog = hands_window ("Put into a part");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "West")), TRUE);
  hands_click (dialog, "Put");
  g_assert_cmpint (hw_bench_part_of_selection (room->bench), ==, 0);
  room_do (room, "put-in-part", NULL);
  dialog = hands_window ("Put into a part");
  g_assert_true (
      gtk_check_button_get_active (GTK_CHECK_BUTTON (hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "West"))));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "In no part")),
                               TRUE);
  hands_click (dialog, "Put");
  g_assert_cmpint (hw_bench_part_of_selection (room->bench), ==, -1);
  room_do (room, "put-in-part", NULL);
  hands_click (hands_window ("Put into a part"), "Cancel");
  g_assert_null (hands_window ("Put into a part"));
  /* Under a hand nothing opens. */
  hw_bench_begin_edit (room->bench, "move", FALSE);
  room_do (room, "put-in-part", NULL);
  g_assert_null (room_dialog (room));
  hw_bench_cancel_edit (room->bench);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-plan/" #test, Room, NULL, room_set_up, test, room_tear_down)
  ADD (what_is_to_be_looked_at_leads_to_its_place);
  ADD (where_all_is_well_that_is_said);
  ADD (of_two_in_each_others_way_both_are_shown);
  ADD (a_wish_that_is_not_kept_is_taken_back);
  ADD (what_speaks_of_the_whole_shows_the_whole);
  ADD (why_not_fewer_is_told);
  ADD (a_hooping_is_split_when_one_knows_what_it_costs);
  ADD (what_cannot_be_joined_is_told);
  ADD (what_was_split_is_joined_again);
  ADD (a_hooping_is_kept_along_the_grain);
  ADD (along_the_grain_it_may_take_two);
  ADD (what_no_hoop_takes_along_the_grain_is_told);
  ADD (a_small_move_that_saves_a_hooping_is_offered);
  ADD (a_hoop_that_saves_a_hooping_is_offered);
  ADD (what_it_takes_follows_the_plan);
  ADD (motifs_are_put_into_a_part);
  return g_test_run ();
}
