/* The start page: a new cloth is laid out with the hoops one owns, a scene one had is gone on with, a finished picture is looked at; nothing unsaved is lost by it. */
#include <glib/gstdio.h>
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "window-fixture.h"
#include "workbench/own-hoops.h"
#include "workbench/scene-card.h"
#include "workbench/session.h"

static GtkWidget *
page (Room *room)
{
  g_assert_true (hw_window_is_at_start (room->window));
  return room->window->start_page;
}

static void
show (Room *room)
{
  room_do (room, "start-page", NULL);
  page (room);
}

static void
own (Room *room, const char *hoop, gboolean owned)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (hands_find (page (room), GTK_TYPE_TOGGLE_BUTTON, hoop)),
                                owned);
  hands_settle ();
}

static void
measure (Room *room, const char *name, const char *text)
{
  hands_type (hands_find (page (room), GTK_TYPE_SPIN_BUTTON, name), text);
}

static void
save_as (Room *room, const char *path)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hw_window_write (room->window, path, FALSE, &error));
  g_assert_no_error (error);
  hands_settle ();
}

/* Three answers make a cloth: its size, the hoops one owns, the unit one measures in. */
static void
a_cloth_is_laid_out_with_ones_own_hoops (Room *room, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (room->bench);
  GtkWidget *begin;

  g_autofree char *path = room_path (room, "orchard.hoopscene");

  save_as (room, path);
  show (room);
  begin = hands_find (page (room), GTK_TYPE_BUTTON, "Lay out this cloth");
  measure (room, "Width of the cloth", "600");
  measure (room, "Height of the cloth", "39");
  hands_says (page (room), "Your hoop of 130 × 180 mm is as large as this cloth.");
  measure (room, "Height of the cloth", "390");
  hands_says (page (room), "Your hoop of 130 × 180 mm takes in 10 % of this cloth at a time.");
  own (room, "Hoop of 130 × 180 mm", FALSE);
  hands_says (page (room), "Choose the hoops that you own");
  g_assert_false (gtk_widget_is_sensitive (begin));
  own (room, "Hoop of 100 × 100 mm", TRUE);
  own (room, "Hoop of 200 × 300 mm", TRUE);
  hands_says (page (room), "Your hoop of 200 × 300 mm takes in 26 %");
  gtk_toggle_button_set_active (
      GTK_TOGGLE_BUTTON (hands_find (page (room), GTK_TYPE_TOGGLE_BUTTON, "Inches")), TRUE);
  hands_settle ();
  g_assert_cmpint (hw_bench_get_unit (room->bench), ==, HW_UNIT_INCH);
  g_autofree char *inches = hw_size_text (100, 100, HW_UNIT_INCH);
  g_autofree char *in_inches = g_strdup_printf ("Hoop of %s", inches);
  hands_find (page (room), GTK_TYPE_TOGGLE_BUTTON, in_inches);
  gtk_toggle_button_set_active (
      GTK_TOGGLE_BUTTON (hands_find (page (room), GTK_TYPE_TOGGLE_BUTTON, "Millimetres")), TRUE);
  hands_settle ();
  g_assert_cmpint (hw_bench_get_unit (room->bench), ==, HW_UNIT_MM);
  hands_click (page (room), "Lay out this cloth");
  g_assert_false (hw_window_is_at_start (room->window));
  g_assert_cmpuint (room_n_motifs (room), ==, 0);
  g_assert_cmpfloat (hw_scene_get_fabric (scene)->height, ==, 390);
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (scene);
  g_assert_cmpuint (now->hoops->len, ==, 2);
  g_assert_cmpfloat (hw_snapshot_hoop (now, 0)->field_height, ==, 300);
  g_assert_null (hw_bench_get_path (room->bench));
  /* The hoops are one's own from now on. */
  g_autoptr (GPtrArray) mine = hw_own_hoops_get ();
  g_assert_cmpuint (mine->len, ==, 2);
}

/* A size that is not among the usual ones is typed; one that is there already is only chosen. */
static void
a_hoop_of_another_size_is_typed (Room *room, gconstpointer data)
{
  show (room);
  GtkWidget *another = hands_find (page (room), GTK_TYPE_MENU_BUTTON, "A hoop of another size");
  GtkWidget *popover = GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (another)));
  g_assert_cmpuint (hw_bench_get_unit (room->bench), ==, HW_UNIT_MM);
  hands_click (popover, "Take this hoop");
  g_assert_true (gtk_toggle_button_get_active (
      GTK_TOGGLE_BUTTON (hands_find (page (room), GTK_TYPE_TOGGLE_BUTTON, "Hoop of 180 × 300 mm"))));
  hands_says (page (room), "Your hoop of 180 × 300 mm takes in ");
  own (room, "Hoop of 180 × 300 mm", FALSE);
  own (room, "Hoop of 200 × 200 mm", FALSE);
  hands_type (hands_find (popover, GTK_TYPE_SPIN_BUTTON, "Sewing field, width"), "200");
  hands_type (hands_find (popover, GTK_TYPE_SPIN_BUTTON, "Sewing field, height"), "200");
  hands_click (popover, "Take this hoop");
  g_assert_true (gtk_toggle_button_get_active (
      GTK_TOGGLE_BUTTON (hands_find (page (room), GTK_TYPE_TOGGLE_BUTTON, "Hoop of 200 × 200 mm"))));
}

/* Without a scene there is none to go back to, and nothing to be done with one. */
static void
a_bare_window_offers_only_what_it_has (Room *room, gconstpointer data)
{
  HwWindow *bare = hw_window_new (room->application);

  hw_window_show_start (bare);
  gtk_window_present (GTK_WINDOW (bare));
  room_until (gtk_widget_get_mapped (bare->start_page));
  g_assert_false (g_action_group_get_action_enabled (G_ACTION_GROUP (bare), "save"));
  g_assert_false (g_action_group_get_action_enabled (G_ACTION_GROUP (bare), "print"));
  g_assert_false (g_action_group_get_action_enabled (G_ACTION_GROUP (bare), "undo"));
  g_assert_true (g_action_group_get_action_enabled (G_ACTION_GROUP (bare), "open"));
  hands_pointer (bare->start_page, "move", 5, 5);
  gtk_widget_activate_action (bare->start_page, "win.step-back", NULL);
  g_assert_true (hw_window_is_at_start (bare));
  /* What is brought to it is laid on a new cloth. */
  hw_window_need_scene (bare);
  g_assert_false (hw_window_is_at_start (bare));
  g_assert_true (g_action_group_get_action_enabled (G_ACTION_GROUP (bare), "save"));
  g_autoptr (HwSnapshot) now = hw_scene_snapshot (hw_bench_get_scene (bare->bench));
  g_assert_cmpuint (now->hoops->len, >=, 1);
  hw_window_need_scene (bare);
  g_autoptr (HwSnapshot) again = hw_scene_snapshot (hw_bench_get_scene (bare->bench));
  g_assert_true (hw_snapshot_equal (now, again));
  gtk_window_destroy (GTK_WINDOW (bare));
}

/* Back at the table everything is as it was; meanwhile nothing acts on motifs that are not seen. */
static void
one_goes_back_to_the_scene (Room *room, gconstpointer data)
{
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (room->bench));

  g_object_set (hw_bench_get_scene (room->bench), "name", "Apple wall", NULL);
  hw_bench_select_all (room->bench);
  show (room);
  g_assert_false (room_can (room, "delete"));
  g_assert_false (room_can (room, "select-all"));
  g_assert_true (room_can (room, "save"));
  g_assert_false (gtk_widget_get_visible (room->window->undo_button));
  hands_click (page (room), "Back to “Apple wall”");
  g_assert_false (hw_window_is_at_start (room->window));
  g_assert_true (room_can (room, "delete"));
  g_assert_true (gtk_widget_get_visible (room->window->undo_button));
  show (room);
  /* Whatever changes the scene lets it be seen. */
  hw_bench_select_only (room->bench, "m1");
  hw_bench_nudge (room->bench, 1, 0);
  hands_settle ();
  g_assert_false (hw_window_is_at_start (room->window));
}

static void
remember (const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  GtkRecentData about = { .mime_type = (char *)"application/x-hoopwright-scene",
                          .app_name = (char *)"Hoopwright",
                          .app_exec = (char *)"hoopwright %f" };

  g_assert_true (gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &about));
  hands_settle ();
}

static void
forget_all (void)
{
  g_assert_cmpint (gtk_recent_manager_purge_items (gtk_recent_manager_get_default (), NULL), >=, 0);
  hands_settle ();
}

static guint
awaited (GtkWidget *widget)
{
  guint n = gtk_widget_has_css_class (widget, "awaited");

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += awaited (child);
  return n;
}

/* Pictures of one's scenes hang there; one is gone on with, unsaved work is spoken of before. One that cannot be read says why. */
static void
a_scene_one_had_is_gone_on_with (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "plum.hoopscene"), *other = room_path (room, "quay.hoopscene");
  g_autofree char *torn = room_write (room, "torn.hoopscene", "{");

  forget_all ();
  save_as (room, other);
  hw_bench_select_only (room->bench, "m3");
  hw_bench_delete (room->bench);
  save_as (room, path);
  remember (path);
  remember (torn);
  show (room);
  hands_says (page (room), "Go on with");
  hands_says (page (room), "today");
  GtkWidget *card = hands_find (page (room), HW_TYPE_SCENE_CARD, "plum, today");
  GtkWidget *bad = hands_find (page (room), HW_TYPE_SCENE_CARD, "torn, today");
  room_until (awaited (card) == 0);
  room_until (gtk_widget_get_tooltip_text (bad) != NULL);
  g_assert_cmpuint (awaited (bad), ==, 1);
  hw_window_leave_start (room->window);
  g_autoptr (GFile) second = g_file_new_for_path (other);
  hw_window_open (room->window, second);
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  hw_bench_select_only (room->bench, "m1");
  hw_bench_nudge (room->bench, 3, 0);
  hands_settle ();
  show (room);
  card = hands_find (page (room), HW_TYPE_SCENE_CARD, "plum, today");
  g_signal_emit_by_name (card, "clicked");
  hands_settle ();
  GtkWindow *question = hands_window ("Not saved yet");
  g_assert_nonnull (question);
  hands_click (question, "Go on working");
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  g_signal_emit_by_name (card, "clicked");
  hands_settle ();
  hands_click (hands_window ("Not saved yet"), "Save");
  g_assert_cmpstr (hw_bench_get_path (room->bench), ==, path);
  g_assert_cmpuint (room_n_motifs (room), ==, 2);
  g_assert_false (hw_window_is_at_start (room->window));
  hw_window_open (room->window, second);
  g_assert_cmpfloat (hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (room->bench), "m1"))
                         ->placement.position.x,
                     >, 3);
}

/* The demo is a copy: it has no file, so that saving asks for a place. */
static void
a_finished_picture_is_looked_at (Room *room, gconstpointer data)
{
  forget_all ();
  hw_bench_select_only (room->bench, "m1");
  show (room);
  hands_says (page (room), "Or look around in a finished picture first");
  GtkWidget *card
      = hands_find (page (room), HW_TYPE_SCENE_CARD, "The Walled Garden, a wall hanging of eleven motifs");
  g_signal_emit_by_name (card, "clicked");
  hands_settle ();
  if (hands_window ("Not saved yet") != NULL)
    hands_click (hands_window ("Not saved yet"), "Leave without saving");
  g_assert_false (hw_window_is_at_start (room->window));
  g_assert_cmpuint (room_n_motifs (room), ==, 11);
  g_assert_null (hw_bench_get_path (room->bench));
}

/* The program comes back to the scene and the place where one was, unless one had left it for the start page. */
static void
one_comes_back_to_where_one_was (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene");
  HwPoint centre, again;
  double zoom, zoom_again;
  gboolean marks, density;

  save_as (room, path);
  hw_canvas_set_place (room->window->canvas, (HwPoint){ 120, 80 }, 2.5);
  g_object_set (room->window->canvas, "show-marks", FALSE, "show-density", TRUE, NULL);
  g_assert_true (hw_canvas_get_place (room->window->canvas, &centre, &zoom));
  hw_window_keep_last (room->window);
  HwWindow *next = hw_window_new (room->application);
  gtk_window_present (GTK_WINDOW (next));
  room_until (gtk_widget_get_width (GTK_WIDGET (next->canvas)) > 0);
  g_assert_true (hw_window_open_last (next));
  g_assert_cmpstr (hw_bench_get_path (next->bench), ==, path);
  g_assert_true (hw_canvas_get_place (next->canvas, &again, &zoom_again));
  g_assert_cmpfloat_with_epsilon (zoom_again, zoom, 1e-6);
  g_assert_cmpfloat (hw_point_distance (centre, again), <, 0.5);
  g_object_get (next->canvas, "show-marks", &marks, "show-density", &density, NULL);
  g_assert_false (marks);
  g_assert_true (density);
  /* At the machine one comes back to the machine, and leaves it for what was seen at the table. */
  g_action_group_activate_action (G_ACTION_GROUP (next), "at-machine", NULL);
  hands_settle ();
  hw_window_keep_last (next);
  hw_window_take_up_seen (room->window);
  hands_settle ();
  g_assert_true (hw_window_is_at_machine (room->window));
  room_do (room, "at-machine", NULL);
  hw_window_show_start (next);
  hw_window_keep_last (next);
  g_autofree char *last = hw_session_last_scene (NULL);
  g_assert_null (last);
  g_assert_false (hw_window_open_last (room->window));
  gtk_window_destroy (GTK_WINDOW (next));
  hands_settle ();
}

/* Nobody has said yet which hoops she owns. */
static void
set_up (Room *room, gconstpointer data)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();

  hw_own_hoops_set (none);
  room_set_up (room, data);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-start/" #test, Room, NULL, set_up, test, room_tear_down)
  ADD (a_cloth_is_laid_out_with_ones_own_hoops);
  ADD (a_hoop_of_another_size_is_typed);
  ADD (a_bare_window_offers_only_what_it_has);
  ADD (one_goes_back_to_the_scene);
  ADD (a_scene_one_had_is_gone_on_with);
  ADD (a_finished_picture_is_looked_at);
  ADD (one_comes_back_to_where_one_was);
  return g_test_run ();
}
