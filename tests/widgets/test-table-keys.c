/* The table from the keyboard, its menus, and its hand at marks and at the other ways to hoop. */
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "table-fixture.h"
#include "workbench/canvas-marks.h"

static gboolean
key (Table *table, guint keyval, GdkModifierType held)
{
  return hands_key (GTK_WIDGET (table->canvas), keyval, held);
}

static void
assert_moved (Table *table, double x, double y)
{
  HwPoint at = table_placement (table, "m3").position;

  g_assert_cmpfloat_with_epsilon (at.x, 550 + x, 1e-9);
  g_assert_cmpfloat_with_epsilon (at.y, 100 + y, 1e-9);
}

static void
arrows_nudge_what_is_selected (Table *table, gconstpointer data)
{
  g_assert_false (key (table, GDK_KEY_Left, 0)); /* nothing is: the key is not the table's */
  hw_bench_select_only (table->bench, "m3");
  g_assert_true (key (table, GDK_KEY_Left, 0));
  assert_moved (table, -0.5, 0);
  g_assert_true (key (table, GDK_KEY_KP_Right, GDK_SHIFT_MASK));
  assert_moved (table, 4.5, 0);
  g_assert_true (key (table, GDK_KEY_KP_Up, 0));
  g_assert_true (key (table, GDK_KEY_Up, GDK_SHIFT_MASK));
  assert_moved (table, 4.5, -5.5);
  g_assert_true (key (table, GDK_KEY_KP_Down, 0));
  g_assert_true (key (table, GDK_KEY_Down, 0));
  g_assert_true (key (table, GDK_KEY_KP_Left, 0));
  g_assert_true (key (table, GDK_KEY_Right, 0));
  assert_moved (table, 4.5, -4.5);
}

/* Else the hand and the key would pull at it both. */
static void
arrows_do_nothing_to_what_is_in_the_hand (Table *table, gconstpointer data)
{
  table_pull (table, (HwPoint){ 550, 100 }, (HwPoint){ -60, 40 }, GDK_CONTROL_MASK);
  g_assert_true (key (table, GDK_KEY_Left, 0));
  assert_moved (table, -60, 40);
  hw_drag_release (table->canvas);
  assert_moved (table, -60, 40);
}

/* And past the last, or before the first, the focus goes on to the next part of the window. */
static void
tab_goes_through_the_motifs_in_their_order (Table *table, gconstpointer data)
{
  static const char *const on[] = { "m1", "m2", "m3" };
  static const guint back[] = { GDK_KEY_Tab, GDK_KEY_ISO_Left_Tab };

  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *ids = NULL;

      g_assert_true (key (table, i == 1 ? GDK_KEY_KP_Tab : GDK_KEY_Tab, 0));
      ids = table_selected (table);
      g_assert_cmpstr (ids, ==, on[i]);
    }
  g_assert_false (key (table, GDK_KEY_Tab, 0));
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *ids = NULL;

      g_assert_true (key (table, back[i], GDK_SHIFT_MASK));
      ids = table_selected (table);
      g_assert_cmpstr (ids, ==, on[1 - i]);
    }
  g_assert_false (key (table, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK));
  hw_bench_select_only (table->bench, NULL);
  g_assert_true (key (table, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK));
  g_assert_true (hw_bench_is_selected (table->bench, "m3"));
}

static void
plus_and_minus_zoom_and_nought_shows_all (Table *table, gconstpointer data)
{
  static const guint nearer[] = { GDK_KEY_plus, GDK_KEY_equal, GDK_KEY_KP_Add },
                     farther[] = { GDK_KEY_minus, GDK_KEY_KP_Subtract },
                     whole[] = { GDK_KEY_0, GDK_KEY_KP_0 }, true_size[] = { GDK_KEY_1, GDK_KEY_KP_1 };
  double all = table->canvas->view.zoom, near;

  for (guint i = 0; i < 3; i++)
    g_assert_true (key (table, nearer[i], 0));
  g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, all * 1.25 * 1.25 * 1.25, 1e-9);
  for (guint i = 0; i < 2; i++)
    g_assert_true (key (table, farther[i], 0));
  g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, all * 1.25, 1e-9);
  for (guint i = 0; i < 2; i++)
    {
      HwPoint centre;

      g_assert_true (key (table, true_size[i], 0));
      near = table->canvas->view.zoom;
      g_assert_cmpfloat (near, >, all * 1.3);
      g_assert_true (hw_canvas_get_place (table->canvas, &centre, &near));
      g_assert_true (key (table, whole[i], 0));
      g_assert_cmpfloat_with_epsilon (table->canvas->view.zoom, all, 1e-9);
      g_assert_false (hw_canvas_get_place (table->canvas, &centre, &near));
    }
}

static void
escape_leaves_the_selection_then_the_key_to_the_window (Table *table, gconstpointer data)
{
  hw_bench_select_only (table->bench, "m3");
  g_assert_true (key (table, GDK_KEY_Escape, 0));
  g_assert_cmpuint (hw_bench_get_n_selected (table->bench), ==, 0);
  g_assert_false (key (table, GDK_KEY_Escape, 0));
}

static void
keys_with_ctrl_and_strange_ones_are_the_windows (Table *table, gconstpointer data)
{
  hw_bench_select_only (table->bench, "m3");
  g_assert_false (key (table, GDK_KEY_Left, GDK_CONTROL_MASK));
  g_assert_false (key (table, GDK_KEY_Left, GDK_ALT_MASK));
  g_assert_false (key (table, GDK_KEY_plus, GDK_SUPER_MASK));
  g_assert_false (key (table, GDK_KEY_q, 0));
  g_assert_false (key (table, GDK_KEY_F10, 0));
  assert_moved (table, 0, 0);
}

/* Held, space pulls the cloth rather than what lies on it; and the lens is there as long as L is held. */
static void
space_and_l_are_held (Table *table, gconstpointer data)
{
  GtkEventController *keys = hands_controller (GTK_WIDGET (table->canvas), GTK_TYPE_EVENT_CONTROLLER_KEY);

  g_assert_true (key (table, GDK_KEY_space, 0));
  g_assert_true (table->canvas->space_held);
  g_signal_emit_by_name (keys, "key-released", GDK_KEY_space, 0, 0);
  g_assert_false (table->canvas->space_held);
  g_assert_true (key (table, GDK_KEY_l, 0));
  g_assert_true (table->canvas->lens_held);
  g_signal_emit_by_name (keys, "key-released", GDK_KEY_l, 0, 0);
  g_assert_false (table->canvas->lens_held);
  g_assert_true (key (table, GDK_KEY_L, GDK_SHIFT_MASK));
  g_signal_emit_by_name (keys, "key-released", GDK_KEY_x, 0, 0);
  g_assert_true (table->canvas->lens_held);
  g_signal_emit_by_name (keys, "key-released", GDK_KEY_L, 0, 0);
  g_assert_false (table->canvas->lens_held);
}

/* The labels of all items of the menu at hand, sections and menus within it after each other. */
static void
collect_labels (GMenuModel *menu, GString *labels)
{
  for (int i = 0; i < g_menu_model_get_n_items (menu); i++)
    {
      g_autofree char *label = NULL;
      g_autoptr (GMenuModel) section = g_menu_model_get_item_link (menu, i, G_MENU_LINK_SECTION);
      g_autoptr (GMenuModel) within = g_menu_model_get_item_link (menu, i, G_MENU_LINK_SUBMENU);

      if (g_menu_model_get_item_attribute (menu, i, G_MENU_ATTRIBUTE_LABEL, "s", &label))
        g_string_append_printf (labels, "%s|", label);
      if (section != NULL)
        collect_labels (section, labels);
      if (within != NULL)
        collect_labels (within, labels);
    }
}

static void
assert_menu (Table *table, const char *has, const char *has_not)
{
  g_autoptr (GString) labels = g_string_new ("|");

  g_assert_nonnull (table->canvas->menu);
  collect_labels (gtk_popover_menu_get_menu_model (GTK_POPOVER_MENU (table->canvas->menu)), labels);
  if (strstr (labels->str, has) == NULL)
    g_error ("“%s” is not in %s", has, labels->str);
  if (has_not != NULL && strstr (labels->str, has_not) != NULL)
    g_error ("“%s” is in %s", has_not, labels->str);
}

static void
menu_at (Table *table, HwPoint pixel)
{
  hands_forget_tooltip ();
  hw_canvas_popup (table->canvas, &pixel);
  hands_settle ();
}

static void
a_menu_speaks_of_what_lies_under_it (Table *table, gconstpointer data)
{
  const char *both[] = { "m1", "m2", NULL };
  HwPoint pear = table_pixel (table, 100, 100);

  menu_at (table, table_pixel (table, 550, 100));
  assert_menu (table, "|Duplicate|", "Keep apart");
  g_assert_true (hw_bench_is_selected (table->bench, "m3"));
  menu_at (table, table_pixel (table, 350, 300));
  assert_menu (table, "|Show the whole cloth|", "|Duplicate|");
  menu_at (table, hw_canvas_disc_at (table->canvas, 1));
  assert_menu (table, "|Hold as it is|", "|Duplicate|");
  g_assert_cmpint (hw_bench_get_chosen_hooping (table->bench), ==, 1);
  /* Of several, all stay selected: what is chosen is for them together. */
  hw_bench_select_ids (table->bench, both);
  menu_at (table, pear);
  assert_menu (table, "|Stitch Plum before Pear|", "May share again");
  g_assert_cmpuint (hw_bench_get_n_selected (table->bench), ==, 2);
  hw_bench_keep_apart (table->bench);
  menu_at (table, pear);
  assert_menu (table, "|May share again|", "|Keep apart|");
}

static void
the_menu_key_speaks_of_what_is_chosen (Table *table, gconstpointer data)
{
  g_assert_true (key (table, GDK_KEY_Menu, 0));
  assert_menu (table, "|Show the whole cloth|", "|Hold as it is|");
  hw_bench_choose_hooping (table->bench, 0);
  g_assert_true (key (table, GDK_KEY_F10, GDK_SHIFT_MASK));
  assert_menu (table, "|Mark A|", "|Duplicate|");
  hw_bench_select_only (table->bench, "m3");
  g_assert_true (key (table, GDK_KEY_Menu, 0));
  assert_menu (table, "|Duplicate|", "|Mark A|");
}

/* A hooping that is stitched is nothing to decide of any more. */
static void
the_menu_of_a_stitched_hooping_is_short (Table *table, gconstpointer data)
{
  g_assert_true (hw_bench_mark_stitched (table->bench, 0));
  wait_for_plan (table->bench);
  hw_bench_choose_hooping (table->bench, 0);
  key (table, GDK_KEY_Menu, 0);
  assert_menu (table, "|It was stitched elsewhere…|", "|Split…|");
  hw_bench_choose_hooping (table->bench, 1);
  key (table, GDK_KEY_Menu, 0);
  assert_menu (table, "|Split…|", "|It was stitched elsewhere…|");
}

static HwPoint
mark_pixel (Table *table, guint mark)
{
  g_autoptr (GArray) marks = hw_canvas_marks (table->canvas);

  g_assert_cmpuint (mark, <, marks->len);
  return hw_view_to_pixels (&table->canvas->view, g_array_index (marks, HwCanvasMark, mark).at);
}

/* Near enough that a mark is told from what lies beside it. */
static void
choose_near (Table *table)
{
  hw_bench_choose_hooping (table->bench, 0);
  key (table, GDK_KEY_1, 0);
  hands_settle ();
}

/* Pulled, a mark is held there, and the others where they were; with Shift it follows at a fifth of the pace, from where it was. */
static void
a_mark_is_pulled_and_held (Table *table, gconstpointer data)
{
  choose_near (table);
  const HwPlan *plan = hw_bench_get_plan (table->bench);
  guint n = plan->hoopings[0].n_marks;
  HwPoint start = plan->hoopings[0].marks[0].at, from = mark_pixel (table, 0);
  double zoom = table->canvas->view.zoom;

  hw_drag_press (table->canvas, from, 0, FALSE);
  g_assert_cmpint (table->canvas->drag.press, ==, HW_PRESS_MARK);
  hw_drag_motion (table->canvas, (HwPoint){ from.x + 4 * zoom, from.y }, 0);
  g_assert_cmpint (table->canvas->drag.pull, ==, HW_PULL_MARK);
  hw_drag_motion (table->canvas, (HwPoint){ from.x + 4 * zoom, from.y }, GDK_SHIFT_MASK);
  hw_drag_motion (table->canvas, (HwPoint){ from.x + 9 * zoom, from.y }, GDK_SHIFT_MASK);
  g_autofree char *words = hw_canvas_live_figures (table->canvas);
  g_assert_nonnull (words);
  hw_drag_release (table->canvas);
  HwPoint at = { round ((start.x + 5) * 10) / 10, round (start.y * 10) / 10 };
  g_assert_true (hw_bench_is_mark_held (table->bench, at));
  g_assert_cmpuint (hw_scene_get_held_marks (hw_bench_get_scene (table->bench))->len, ==, n);
}

static void
escape_puts_a_mark_back (Table *table, gconstpointer data)
{
  choose_near (table);
  HwPoint from = mark_pixel (table, 0);

  hw_drag_press (table->canvas, from, 0, FALSE);
  hw_drag_motion (table->canvas, (HwPoint){ from.x + 30, from.y + 20 }, 0);
  g_assert_cmpint (table->canvas->drag.pull, ==, HW_PULL_MARK);
  hw_drag_cancel (table->canvas);
  g_assert_cmpuint (hw_scene_get_held_marks (hw_bench_get_scene (table->bench))->len, ==, 0);
  g_autofree char *name = table_undo_name (table);
  g_assert_null (name);
}

static void
a_marks_menu_holds_and_lets_go (Table *table, gconstpointer data)
{
  choose_near (table);
  menu_at (table, mark_pixel (table, 0));
  g_autofree char *letter = g_strdup (hw_bench_get_plan (table->bench)->hoopings[0].marks[0].letter);
  g_autofree char *hold = g_strdup_printf ("|Hold mark %s here|", letter);
  g_autofree char *let_go = g_strdup_printf ("|Let mark %s go|", letter);
  assert_menu (table, hold, let_go);
  HwPoint at = hw_bench_get_plan (table->bench)->hoopings[0].marks[0].at;

  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.hold", "u", 0);
  g_assert_true (hw_bench_is_mark_held (table->bench, at));
  wait_for_plan (table->bench);
  menu_at (table, mark_pixel (table, 0));
  assert_menu (table, let_go, hold);
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.let-go", "u", 0);
  g_assert_false (hw_bench_is_mark_held (table->bench, at));
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.let-go", "u", 77);
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.hold-all", NULL);
  g_assert_cmpuint (hw_scene_get_held_marks (hw_bench_get_scene (table->bench))->len, >=, 2);
  hw_bench_let_go_all_marks (table->bench);
  wait_for_plan (table->bench);
  /* While something is in the hand marks are left alone. */
  static const char *const verbs[] = { "marks.hold-all", "marks.one-more" };
  hw_bench_begin_edit (table->bench, "move", FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (verbs); i++)
    gtk_widget_activate_action (GTK_WIDGET (table->canvas), verbs[i], NULL);
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.hold", "u", 0);
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.let-go", "u", 0);
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.take-away", "u", 0);
  g_assert_cmpuint (hw_scene_get_held_marks (hw_bench_get_scene (table->bench))->len, ==, 0);
  hw_bench_cancel_edit (table->bench);
}

/* The marks of the hooping in the machine are drawn: they are taken away, not let go; and once one was read they stay. */
static void
marks_in_the_machine_are_taken_away (Table *table, gconstpointer data)
{
  g_assert_true (hw_bench_begin_hooping (table->bench, 0));
  wait_for_plan (table->bench);
  hw_bench_choose_hooping (table->bench, hw_bench_get_begun_hooping (table->bench));
  key (table, GDK_KEY_1, 0);
  guint n = hw_bench_get_begun (table->bench)->n_marks;
  menu_at (table, mark_pixel (table, 0));
  assert_menu (table, "|One more mark|", "|Hold mark");
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.one-more", NULL);
  wait_for_plan (table->bench);
  g_assert_cmpuint (hw_bench_get_begun (table->bench)->n_marks, ==, n + 1);
  gtk_widget_activate_action (GTK_WIDGET (table->canvas), "marks.take-away", "u", n);
  wait_for_plan (table->bench);
  g_assert_cmpuint (hw_bench_get_begun (table->bench)->n_marks, ==, n);
  hw_bench_set_reading (table->bench, hw_bench_get_begun (table->bench)->marks[0].letter, (HwPoint){ 1, 1 });
  wait_for_plan (table->bench);
  menu_at (table, mark_pixel (table, 0));
  assert_menu (table, "|Marks to draw…|", "|One more mark|");
  HwPoint from = mark_pixel (table, 0);
  hw_drag_press (table->canvas, from, 0, FALSE);
  hw_drag_motion (table->canvas, (HwPoint){ from.x + 30, from.y + 20 }, 0);
  g_assert_false (hw_bench_is_editing (table->bench));
  hw_drag_release (table->canvas);
}

static void
without_marks_shown_none_is_at_hand (Table *table, gconstpointer data)
{
  static const char *const layers[] = { "show-marks", "show-hoopings" };

  choose_near (table);
  g_assert_cmpint (hw_canvas_marked_hooping (table->canvas), ==, 0);
  for (guint i = 0; i < 2; i++)
    {
      g_object_set (table->canvas, layers[i], FALSE, NULL);
      g_assert_cmpint (hw_canvas_marked_hooping (table->canvas), ==, -1);
      g_object_set (table->canvas, layers[i], TRUE, NULL);
    }
  /* On a stage they are those of the hooping it is about. */
  hw_bench_set_stage (table->bench, 1);
  g_assert_cmpint (hw_canvas_marked_hooping (table->canvas), ==, -1);
  hw_bench_choose_hooping (table->bench, -1);
  g_assert_cmpint (hw_canvas_marked_hooping (table->canvas), ==, 1);
}

static char *
plain_spaces (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);

  return g_strjoinv (" ", parts);
}

/* What is moved is told in figures at the pointer. */
static void
figures_follow_the_hand (Table *table, gconstpointer data)
{
  static const HwPoint ways[] = { { -40, 30 }, { 40, -30 } };
  static const char *const words[] = { "40.0 mm left, 30.0 mm down", "40.0 mm right, 30.0 mm up" };

  g_assert_null (hw_canvas_live_figures (table->canvas));
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *text = NULL;
      g_autofree char *plain = NULL;

      table_pull (table, (HwPoint){ 150, 100 }, ways[i], GDK_CONTROL_MASK);
      text = hw_canvas_live_figures (table->canvas);
      plain = plain_spaces (text);
      g_assert_nonnull (strstr (plain, words[i]));
      hw_drag_cancel (table->canvas);
    }
}

/* Turned, it is told by how much and which way; resized, how large it is now. */
static void
turn_and_size_are_told_in_figures (Table *table, gconstpointer data)
{
  static const char *const words[] = { "turned by 20° clockwise", "turned by 20° anticlockwise" };
  HwHandles handles;

  hw_bench_select_only (table->bench, "m3");
  for (guint i = 0; i < 2; i++)
    {
      HwPoint middle = table_pixel (table, 550, 100), arm;

      g_assert_true (hw_canvas_handles (table->canvas, &handles));
      HwPoint from = handles.at[HW_HANDLE_TURN];
      arm = hw_point_turn ((HwPoint){ from.x - middle.x, from.y - middle.y }, i == 0 ? 20 : -20);
      table_pull_pixels (table, from, (HwPoint){ middle.x + arm.x, middle.y + arm.y }, GDK_CONTROL_MASK);
      g_autofree char *text = hw_canvas_live_figures (table->canvas);
      g_autofree char *plain = plain_spaces (text);
      if (strstr (plain, words[i]) == NULL)
        g_error ("“%s” instead of “%s”", plain, words[i]);
      hw_drag_cancel (table->canvas);
    }
  g_assert_true (hw_canvas_handles (table->canvas, &handles));
  HwPoint corner = handles.at[HW_HANDLE_BOTTOM_RIGHT], opposite = handles.at[HW_HANDLE_TOP_LEFT];
  table_pull_pixels (
      table, corner,
      (HwPoint){ corner.x + (corner.x - opposite.x) / 2, corner.y + (corner.y - opposite.y) / 2 }, 0);
  g_autofree char *size = hw_canvas_live_figures (table->canvas);
  g_autofree char *plain = plain_spaces (size);
  double scale = table_placement (table, "m3").scale;
  g_autofree char *side = g_strdup_printf ("%.1f × %.1f mm", 40 * scale, 40 * scale);
  g_assert_cmpfloat (scale, >, 1.3);
  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (plain, NULL), 100 * scale, 0.06);
  g_assert_nonnull (strstr (plain, side));
  hw_drag_cancel (table->canvas);
}

/* Near an edge line it is told how far it is to that. */
static void
near_the_edge_line_the_gap_is_told (Table *table, gconstpointer data)
{
  g_autoptr (HwEdgeLine) edge = hw_edge_line_new_shape (HW_EDGE_ROUNDED, (HwBox){ 20, 20, 640, 420 }, 30, 5);

  hw_scene_set_edge_line (hw_bench_get_scene (table->bench), edge);
  wait_for_plan (table->bench);
  hands_settle ();
  table_pull (table, (HwPoint){ 550, 100 }, (HwPoint){ 45, 40 }, GDK_CONTROL_MASK);
  g_autofree char *text = hw_canvas_live_figures (table->canvas);
  g_autofree char *plain = plain_spaces (text);
  g_assert_nonnull (strstr (plain, "45.0 mm right, 40.0 mm down"));
  g_assert_nonnull (strstr (plain, "25.0 mm")); /* from 615 to 640 */
  guint before = hands_reddish (GTK_WIDGET (table->canvas));
  hw_drag_cancel (table->canvas);
  table_pull (table, (HwPoint){ 550, 100 }, (HwPoint){ 80, 40 }, GDK_CONTROL_MASK);
  g_assert_cmpuint (hands_reddish (GTK_WIDGET (table->canvas)), >, before);
  hw_drag_cancel (table->canvas);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/table-keys/" #test, Table, NULL, table_set_up, test, table_tear_down)
  ADD (arrows_nudge_what_is_selected);
  ADD (arrows_do_nothing_to_what_is_in_the_hand);
  ADD (tab_goes_through_the_motifs_in_their_order);
  ADD (plus_and_minus_zoom_and_nought_shows_all);
  ADD (escape_leaves_the_selection_then_the_key_to_the_window);
  ADD (keys_with_ctrl_and_strange_ones_are_the_windows);
  ADD (space_and_l_are_held);
  ADD (a_menu_speaks_of_what_lies_under_it);
  ADD (the_menu_key_speaks_of_what_is_chosen);
  ADD (the_menu_of_a_stitched_hooping_is_short);
  ADD (a_mark_is_pulled_and_held);
  ADD (escape_puts_a_mark_back);
  ADD (a_marks_menu_holds_and_lets_go);
  ADD (marks_in_the_machine_are_taken_away);
  ADD (without_marks_shown_none_is_at_hand);
  ADD (figures_follow_the_hand);
  ADD (turn_and_size_are_told_in_figures);
  ADD (near_the_edge_line_the_gap_is_told);
  return g_test_run ();
}
