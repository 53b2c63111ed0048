/* Dialogs about marks: those to draw, what the cloth drew in between them, and a hooping that was stitched elsewhere. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/draw-in-dialog.h"
#include "workbench/landed-dialog.h"
#include "workbench/mark-list-dialog.h"

static guint
n_held (Desk *desk)
{
  return hw_scene_get_held_marks (hw_bench_get_scene (desk->bench))->len;
}

static const HwHooping *
first (Desk *desk)
{
  return &hw_bench_get_plan (desk->bench)->hoopings[0];
}

/* The marks' own names in the list bear the hooping's number: "1 A". */
static void
name_marks (Desk *desk, char **hold, char **let_go)
{
  *hold = g_strdup_printf ("Hold: 1 %s", first (desk)->marks[0].letter);
  *let_go = g_strdup_printf ("Let go: 1 %s", first (desk)->marks[0].letter);
}

static void
a_mark_is_held_and_let_go_in_the_list (Desk *desk, gconstpointer data)
{
  g_autofree char *hold = NULL, *let_go = NULL;

  desk_open (desk, hw_mark_list_dialog_show, "Marks to draw");
  name_marks (desk, &hold, &let_go);
  g_assert_false (gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, "Let all go")));
  hands_click (desk->dialog, hold);
  g_assert_cmpuint (n_held (desk), ==, 1);
  wait_for_plan (desk->bench);
  hands_click (desk->dialog, let_go);
  g_assert_cmpuint (n_held (desk), ==, 0);
  wait_for_plan (desk->bench);
  hands_click (desk->dialog, "All are on the cloth");
  g_assert_cmpuint (n_held (desk), ==, 4);
  wait_for_plan (desk->bench);
  hands_click (desk->dialog, "Let all go");
  g_assert_cmpuint (n_held (desk), ==, 0);
}

/* What was held beyond those wished for is taken away, not given back to the plan. */
static void
one_more_mark_and_one_less (Desk *desk, gconstpointer data)
{
  guint n = first (desk)->n_marks;
  g_autofree char *away = NULL;

  desk_open (desk, hw_mark_list_dialog_show, "Marks to draw");
  hands_click (desk->dialog, "One more mark: Hooping 1, hoop 130 x 180");
  wait_for_plan (desk->bench);
  g_assert_cmpuint (first (desk)->n_marks, ==, n + 1);
  away = g_strdup_printf ("Take away: 1 %s", first (desk)->marks[0].letter);
  hands_click (desk->dialog, away);
  wait_for_plan (desk->bench);
  g_assert_cmpuint (n_held (desk), ==, n);
}

/* The slip that moves a mark, opened. */
static GtkWidget *
move_slip (Desk *desk)
{
  g_autofree char *name = g_strdup_printf ("Move…: 1 %s", first (desk)->marks[0].letter);
  GtkWidget *button = hands_find (desk->dialog, GTK_TYPE_MENU_BUTTON, name);
  GtkPopover *slip = gtk_menu_button_get_popover (GTK_MENU_BUTTON (button));

  gtk_popover_popup (slip);
  hands_settle ();
  return GTK_WIDGET (slip);
}

static double
typed (GtkWidget *slip, const char *name)
{
  return gtk_spin_button_get_value (GTK_SPIN_BUTTON (hands_find (slip, GTK_TYPE_SPIN_BUTTON, name)));
}

/* A mark is moved by figures; where it could not serve it is told why, and stays. One that cannot serve where it is held is let go of in the list. */
static void
a_mark_is_moved_by_figures (Desk *desk, gconstpointer data)
{
  GtkWidget *slip;
  HwPoint before = first (desk)->marks[0].at;
  g_autofree char *farther = NULL;

  desk_open (desk, hw_mark_list_dialog_show, "Marks to draw");
  slip = move_slip (desk);
  farther = g_strdup_printf ("%.1f mm", typed (slip, "To the right of the corner") + 300);
  hands_type (hands_find (slip, GTK_TYPE_SPIN_BUTTON, "To the right of the corner"), farther);
  hands_click (slip, "Move it there");
  hands_says (slip, "It cannot serve there because ");
  g_assert_cmpuint (n_held (desk), ==, 0);
  gtk_popover_popdown (GTK_POPOVER (slip));
  slip = move_slip (desk);
  g_assert_null (hands_sentence (slip, "It cannot serve there"));
  g_autofree char *near = g_strdup_printf ("%.1f mm", typed (slip, "Down from the corner") + 1);
  hands_type (hands_find (slip, GTK_TYPE_SPIN_BUTTON, "Down from the corner"), near);
  hands_click (slip, "Move it there");
  wait_for_plan (desk->bench);
  hands_settle ();
  g_assert_cmpuint (n_held (desk), >=, 1);
  g_assert_true (hw_bench_is_mark_held (desk->bench, (HwPoint){ before.x, before.y + 1 }));
  /* Pear is laid over it. */
  hw_bench_select_only (desk->bench, "m1");
  HwPoint pear = { 100, 100 };
  hw_bench_nudge (desk->bench, before.x - pear.x, before.y - pear.y);
  wait_for_plan (desk->bench);
  hands_settle ();
  guint held = n_held (desk);
  GtkWidget *let_go = NULL;
  const HwPlan *plan = hw_bench_get_plan (desk->bench);
  for (guint i = 0; i < plan->problems->len; i++)
    {
      const HwProblem *problem = g_ptr_array_index (plan->problems, i);
      g_autofree char *name = g_strdup_printf ("Let go: %s", problem->text);

      if (problem->kind == HW_PROBLEM_MARKS && problem->motif >= 0)
        let_go = hands_find (desk->dialog, GTK_TYPE_BUTTON, name);
    }
  g_assert_nonnull (let_go);
  g_signal_emit_by_name (let_go, "clicked");
  hands_settle ();
  g_assert_cmpuint (n_held (desk), ==, held - 1);
}

/* The list goes into a message or a note as text. */
static void
the_list_is_copied_as_text (Desk *desk, gconstpointer data)
{
  g_auto (GValue) value = G_VALUE_INIT;
  GdkContentProvider *content;

  desk_open (desk, hw_mark_list_dialog_show, "Marks to draw");
  hands_click (desk->dialog, "Copy as text");
  content = gdk_clipboard_get_content (gtk_widget_get_clipboard (GTK_WIDGET (desk->dialog)));
  g_assert_nonnull (content);
  g_value_init (&value, G_TYPE_STRING);
  g_assert_true (gdk_content_provider_get_value (content, &value, NULL));
  g_autofree char *mark = g_strdup_printf ("1 %s", first (desk)->marks[0].letter);
  g_assert_nonnull (strstr (g_value_get_string (&value), mark));
}

static void
figures_are_in_the_persons_unit (Desk *desk, gconstpointer data)
{
  desk_open (desk, hw_mark_list_dialog_show, "Marks to draw");
  desk_says (desk, "Right (mm)");
  hw_bench_set_unit (desk->bench, HW_UNIT_INCH);
  hands_settle ();
  desk_says (desk, "Right (in)");
  desk_says (desk, "Down (in)");
}

/* Where no hooping is left, nothing is: also said when all is stitched behind the list. */
static void
of_stitched_hoopings_nothing_is_to_draw (Desk *desk, gconstpointer data)
{
  desk_open (desk, hw_mark_list_dialog_show, "Marks to draw");
  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (hw_bench_mark_stitched (desk->bench, i));
      wait_for_plan (desk->bench);
    }
  hands_settle ();
  desk_says (desk, "There is nothing left to mark.");
  g_assert_false (
      gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, "All are on the cloth")));
}

/* Marks of the hooping in the machine are drawn: they are taken away, and not once they are being read. */
static void
drawn_marks_are_told_from_held_ones (Desk *desk, gconstpointer data)
{
  g_autofree char *away = NULL;
  GtkWidget *button;

  g_assert_true (hw_bench_begin_hooping (desk->bench, 0));
  wait_for_plan (desk->bench);
  g_assert_true (hw_bench_one_more_mark (desk->bench, (guint)hw_bench_get_begun_hooping (desk->bench)));
  wait_for_plan (desk->bench);
  desk_open (desk, hw_mark_list_dialog_show, "Marks to draw");
  guint n = hw_bench_get_begun (desk->bench)->n_marks;
  away = g_strdup_printf ("Take away: %d %s", hw_bench_get_begun_hooping (desk->bench) + 1,
                          hw_bench_get_begun (desk->bench)->marks[0].letter);
  button = hands_find (desk->dialog, GTK_TYPE_BUTTON, away);
  desk_says (desk, "drawn");
  g_signal_emit_by_name (button, "clicked");
  g_assert_cmpuint (hw_bench_get_begun (desk->bench)->n_marks, ==, n - 1);
  wait_for_plan (desk->bench);
  hw_bench_set_reading (desk->bench, hw_bench_get_begun (desk->bench)->marks[0].letter, (HwPoint){ 0, 0 });
  wait_for_plan (desk->bench);
  hands_settle ();
  g_autofree char *move = g_strdup_printf ("Move…: %d %s", hw_bench_get_begun_hooping (desk->bench) + 1,
                                           hw_bench_get_begun (desk->bench)->marks[0].letter);
  g_assert_false (gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_MENU_BUTTON, move)));
}

/* --- It was stitched elsewhere */

static void
show_landed (GtkWindow *parent, HwBench *bench)
{
  hw_landed_dialog_show (parent, bench, 0);
}

static void
open_landed (Desk *desk)
{
  g_assert_true (hw_bench_mark_stitched (desk->bench, 0));
  wait_for_plan (desk->bench);
  desk_open (desk, show_landed, "It was stitched elsewhere");
}

static HwPoint
place_of (Desk *desk, const char *id)
{
  HwSceneMotif *motif = hw_scene_find_motif (hw_bench_get_scene (desk->bench), id);

  return hw_scene_motif_get_record (motif)->placement.position;
}

static const char *
stitched_id (Desk *desk)
{
  const HwPin *pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (desk->bench)), 0);

  return pin->motifs[0];
}

static gboolean
may_take (Desk *desk)
{
  return gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, "That is where it lies"));
}

static void
what_was_measured_is_told_and_taken (Desk *desk, gconstpointer data)
{
  HwPoint before, after;

  open_landed (desk);
  before = place_of (desk, stitched_id (desk));
  desk_says (desk, "It lies where the plan has it.");
  g_assert_false (may_take (desk));
  desk_measure (desk, "Shifted across", "3");
  desk_choose (desk, "Right or left", 1);
  desk_measure (desk, "Shifted along", "2");
  desk_says (desk, "It lies 3.0 mm left, 2.0 mm towards you of its place, not turned.");
  desk_choose (desk, "Towards or away from you", 1);
  desk_says (desk, "It lies 3.0 mm left, 2.0 mm away from you of its place, not turned.");
  desk_measure (desk, "Turned", "1.5");
  desk_choose (desk, "Clockwise or anticlockwise", 1);
  desk_says (desk, "It lies 3.0 mm left, 2.0 mm away from you of its place, 1.5° anticlockwise.");
  desk_choose (desk, "Clockwise or anticlockwise", 0);
  desk_measure (desk, "Turned", "0");
  g_assert_true (may_take (desk));
  hands_click (desk->dialog, "That is where it lies");
  after = place_of (desk, stitched_id (desk));
  g_assert_cmpfloat_with_epsilon (hw_point_distance (before, after), hypot (3, 2), 1e-6);
  g_assert_true (desk_is_closed (desk, "It was stitched elsewhere"));
}

static GtkWidget *
reading (Desk *desk, guint mark, gboolean along)
{
  const HwPin *pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (desk->bench)), 0);
  g_autofree char *name = g_strdup_printf (along ? "Mark %s, away or towards you" : "Mark %s, right or left",
                                           pin->marks[mark].letter);

  return hands_find (desk->dialog, GTK_TYPE_ENTRY, name);
}

/* Where a mark would be read if it all lay dx and dy off. */
static void
type_reading (Desk *desk, guint mark, double dx, double dy)
{
  const HwPin *pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (desk->bench)), 0);
  HwPoint p = hw_point_turn (
      (HwPoint){ pin->marks[mark].at.x - pin->centre.x, pin->marks[mark].at.y - pin->centre.y }, -pin->angle);
  g_autofree char *x = g_strdup_printf ("%.3f %s", fabs (p.x + dx), p.x + dx < 0 ? "l" : "r");
  g_autofree char *y = g_strdup_printf ("%.3f %s", fabs (p.y + dy), p.y + dy < 0 ? "a" : "t");

  hands_type (reading (desk, mark, FALSE), x);
  hands_type (reading (desk, mark, TRUE), y);
}

/* From the first mark to the second, in the hoop. */
static HwPoint
between_marks (Desk *desk)
{
  const HwPin *pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (desk->bench)), 0);

  return hw_point_turn (
      (HwPoint){ pin->marks[1].at.x - pin->marks[0].at.x, pin->marks[1].at.y - pin->marks[0].at.y },
      -pin->angle);
}

/* Still hooped: the cloth lies right and towards by what is read, so that what was stitched lies left and away of its place on it. */
static void
what_is_read_over_the_marks_is_told (Desk *desk, gconstpointer data)
{
  open_landed (desk);
  gtk_check_button_set_active (
      GTK_CHECK_BUTTON (hands_find (desk->dialog, GTK_TYPE_CHECK_BUTTON,
                                    "It is still hooped: I read the needle over the marks")),
      TRUE);
  desk_says (desk, "Bring the needle over each mark and type where it stands.");
  g_assert_false (may_take (desk));
  type_reading (desk, 0, 2, 1);
  type_reading (desk, 1, 2, 1);
  desk_says (desk, "It lies 2.0 mm left, 1.0 mm away from you of its place, not turned.");
  g_assert_true (may_take (desk));
  hands_type (reading (desk, 0, FALSE), "");
  hands_type (reading (desk, 1, FALSE), "");
  desk_says (desk, "Bring the needle over each mark and type where it stands.");
  g_assert_false (may_take (desk));
  /* Two marks whose distance is not what it was are no good reading. */
  type_reading (desk, 0, 0, 0);
  HwPoint apart = between_marks (desk);
  type_reading (desk, 1, apart.x / 5, apart.y / 5);
  g_assert_false (may_take (desk));
  gtk_check_button_set_active (
      GTK_CHECK_BUTTON (hands_find (desk->dialog, GTK_TYPE_CHECK_BUTTON,
                                    "I measured it, seen with the hoop's top away from me")),
      TRUE);
  desk_says (desk, "It lies where the plan has it.");
}

/* --- What the cloth drew in */

static void
open_draw_in (Desk *desk)
{
  g_assert_true (hw_bench_mark_stitched (desk->bench, 0));
  wait_for_plan (desk->bench);
  desk_open (desk, hw_draw_in_dialog_show, "Measure the cloth");
}

static GtkWidget *
distance (Desk *desk, double *planned)
{
  const HwPin *pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (desk->bench)), 0);
  g_autofree char *name = g_strdup_printf ("From %s to %s", pin->marks[0].letter, pin->marks[1].letter);

  *planned = hw_point_distance (pin->marks[0].at, pin->marks[1].at);
  return hands_find (desk->dialog, GTK_TYPE_ENTRY, name);
}

static void
a_distance_is_measured_and_followed (Desk *desk, gconstpointer data)
{
  g_autofree char *hundredth = NULL, *name = NULL;
  GtkWidget *entry, *take;
  double planned;

  open_draw_in (desk);
  entry = distance (desk, &planned);
  take = hands_find (desk->dialog, GTK_TYPE_BUTTON, "Let the rest follow the cloth");
  g_assert_false (gtk_widget_is_sensitive (take));
  hands_type (entry, "far");
  g_assert_true (gtk_widget_has_css_class (entry, "error"));
  desk_says (desk, "That is no length. Type a figure such as 120.5, with mm or in if you like.");
  hands_type (entry, "-4");
  g_assert_true (gtk_widget_has_css_class (entry, "error"));
  g_assert_false (gtk_widget_is_sensitive (take));
  hundredth = g_strdup_printf ("%.4f", planned * 0.99);
  hands_type (entry, hundredth);
  g_assert_false (gtk_widget_has_css_class (entry, "error"));
  g_assert_true (gtk_widget_is_sensitive (take));
  g_assert_nonnull (hw_bench_get_beside (desk->bench));
  hands_type (entry, "");
  g_assert_false (gtk_widget_is_sensitive (take));
  g_assert_null (hw_bench_get_beside (desk->bench));
  hands_type (entry, hundredth);
  hands_click (desk->dialog, "Let the rest follow the cloth");
  g_object_get (desk->bench, "undo-name", &name, NULL);
  g_assert_cmpstr (name, ==, "follow the cloth");
}

/* What was tried is not left on the table. */
static void
left_alone_nothing_follows (Desk *desk, gconstpointer data)
{
  g_autofree char *hundredth = NULL;
  GtkWidget *entry;
  double planned;

  open_draw_in (desk);
  entry = distance (desk, &planned);
  hundredth = g_strdup_printf ("%.4f", planned * 1.02);
  hands_type (entry, hundredth);
  g_assert_nonnull (hw_bench_get_beside (desk->bench));
  gtk_window_close (desk->dialog);
  hands_settle ();
  g_assert_null (hw_bench_get_beside (desk->bench));
}

static void
before_anything_is_stitched_there_is_nothing_to_measure (Desk *desk, gconstpointer data)
{
  g_autofree char *said = NULL;

  desk_open (desk, hw_draw_in_dialog_show, "Measure the cloth");
  said = desk_sentence (desk, "No hooping with two marks or more was stitched or begun yet");
  g_assert_nonnull (said);
}

/* While it is still hooped, what was read at the machine tells it too: all of it half a hundredth nearer to the centre. */
static void
readings_at_the_machine_tell_what_it_drew_in (Desk *desk, gconstpointer data)
{
  g_assert_true (hw_bench_begin_hooping (desk->bench, 0));
  wait_for_plan (desk->bench);
  const HwPin *pin = hw_bench_get_begun (desk->bench);
  guint n = pin->n_marks;
  for (guint i = 0; i < n; i++)
    {
      pin = hw_bench_get_begun (desk->bench);
      HwPoint p = hw_point_turn (
          (HwPoint){ pin->marks[i].at.x - pin->centre.x, pin->marks[i].at.y - pin->centre.y }, -pin->angle);
      g_autofree char *letter = g_strdup (pin->marks[i].letter);

      hw_bench_set_reading (desk->bench, letter, (HwPoint){ p.x * 0.995, p.y * 0.995 });
    }
  desk_open (desk, hw_draw_in_dialog_show, "Measure the cloth");
  hands_click (desk->dialog, "Take it from the needle readings");
  g_assert_nonnull (hw_bench_get_beside (desk->bench));
  g_assert_true (
      gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, "Let the rest follow the cloth")));
}

/* With nothing free to move it says so, and stays; what is free is moved and the dialog is done. */
static void
allowance_is_made_or_it_says_why_not (Desk *desk, gconstpointer data)
{
  const HwThreadBlock dense = { .name = (char *)"moss", .colour = { 0.2, 0.33, 0.13 }, .stitches = 30000 };
  static const char *const ids[] = { "m1", "m2", "m3" };
  HwScene *scene = hw_bench_get_scene (desk->bench);

  for (guint i = 0; i < 3; i++)
    {
      HwSceneMotif *motif = hw_scene_find_motif (scene, ids[i]);
      g_autoptr (HwMotif) copy = hw_motif_copy (hw_scene_motif_get_record (motif));

      hw_motif_set_threads (copy, &dense, 1);
      hw_scene_motif_set_record (motif, copy);
    }
  hw_bench_set_draw_in (desk->bench, 1);
  hw_bench_select_all (desk->bench);
  hw_bench_set_locked (desk->bench, TRUE);
  wait_for_plan (desk->bench);
  desk_open (desk, hw_draw_in_dialog_show, "Measure the cloth");
  hands_click (desk->dialog, "Place with allowance");
  desk_says (desk, "No motif is free to be moved, or none would move by as much as a pen line.");
  hw_bench_set_locked (desk->bench, FALSE);
  wait_for_plan (desk->bench);
  hands_settle ();
  hands_click (desk->dialog, "Place with allowance");
  g_assert_true (desk_is_closed (desk, "Measure the cloth"));
  g_autofree char *name = NULL;
  g_object_get (desk->bench, "undo-name", &name, NULL);
  g_assert_cmpstr (name, ==, "place with allowance");
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/mark-dialogs/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (a_mark_is_held_and_let_go_in_the_list);
  ADD (one_more_mark_and_one_less);
  ADD (a_mark_is_moved_by_figures);
  ADD (the_list_is_copied_as_text);
  ADD (figures_are_in_the_persons_unit);
  ADD (of_stitched_hoopings_nothing_is_to_draw);
  ADD (drawn_marks_are_told_from_held_ones);
  ADD (what_was_measured_is_told_and_taken);
  ADD (what_is_read_over_the_marks_is_told);
  ADD (a_distance_is_measured_and_followed);
  ADD (left_alone_nothing_follows);
  ADD (before_anything_is_stitched_there_is_nothing_to_measure);
  ADD (readings_at_the_machine_tell_what_it_drew_in);
  ADD (allowance_is_made_or_it_says_why_not);
  return g_test_run ();
}
