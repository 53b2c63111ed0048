/* The window and its file: nothing is lost to another program, what cannot be opened or saved is told, and unsaved work is spoken of. */
#include <glib/gstdio.h>
#include <unistd.h>

#include "window-fixture.h"

static gboolean
is_modified (Room *room)
{
  gboolean modified;

  g_object_get (room->bench, "modified", &modified, NULL);
  return modified;
}

static GtkWidget *
visible_bar (GtkWidget *bar)
{
  return gtk_widget_get_visible (bar) && gtk_widget_get_mapped (bar) ? bar : NULL;
}

/* Another program saves over the scene: one is asked, may keep what is here, and is asked again before saving over it. One that takes the file away is made good by saving. */
static void
what_another_program_saved_is_not_lost (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene");
  g_autofree char *written = NULL, *other = NULL;
  HwWindow *window = room->window;

  room_do (room, "earlier-states", NULL); /* no file, no earlier states */
  g_assert_null (room_dialog (room));
  g_assert_true (hw_window_write (window, path, FALSE, NULL));
  hands_settle ();
  g_assert_true (room_can (room, "earlier-states"));
  g_assert_true (g_file_get_contents (path, &written, NULL, NULL));
  other = g_strconcat (written, "\n", NULL);
  g_assert_true (g_file_set_contents (path, other, -1, NULL));
  room_until (visible_bar (window->changed_bar) != NULL);
  hands_click (window->changed_bar, "Keep what is here");
  hw_bench_select_only (room->bench, "m1");
  hw_bench_nudge (room->bench, 3, 0);
  room_do (room, "save", NULL);
  g_assert_true (is_modified (room));
  hands_click (window->changed_bar, "Go on working");
  g_assert_true (is_modified (room));
  room_do (room, "save", NULL);
  hands_click (window->changed_bar, "Save over it");
  g_assert_false (is_modified (room));
  hw_bench_nudge (room->bench, 3, 0);
  g_remove (path);
  room_wait (600);
  room_do (room, "save", NULL);
  g_assert_false (is_modified (room));
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
}

/* Saving over it may fail as any saving may: that is told, and the work is still unsaved. */
static void
saving_over_that_fails_is_told (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene");
  g_autofree char *elsewhere = g_strconcat (room->folder, "-moved", NULL);
  g_autofree char *told = NULL;

  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  g_assert_true (g_file_set_contents (path, "{}", -1, NULL));
  hw_bench_select_only (room->bench, "m1");
  hw_bench_nudge (room->bench, 3, 0);
  room_do (room, "save", NULL);
  room_wait (600); /* The change is heard of after one was asked: the question stays. */
  g_assert_cmpint (g_rename (room->folder, elsewhere), ==, 0);
  hands_click (room->window->changed_bar, "Save over it");
  told = room_told (room);
  g_assert_nonnull (told);
  g_assert_true (is_modified (room));
  room_do (room, "save", NULL);
  g_assert_true (is_modified (room));
  g_assert_cmpint (g_rename (elsewhere, room->folder), ==, 0);
  room_tells (room, told);
}

/* What cannot be opened is told, and the scene that is there stays. */
static void
what_cannot_be_opened_leaves_the_scene (Room *room, gconstpointer data)
{
  g_autofree char *bad = room_write (room, "torn.hoopscene", "{ \"kind\": ");
  g_autoptr (GFile) torn = g_file_new_for_path (bad);
  g_autoptr (GFile) far = g_file_new_for_uri ("garden://far/orchard.hoopscene");
  g_autofree char *told = NULL;

  hw_window_open (room->window, torn);
  told = room_told (room);
  g_assert_nonnull (told);
  hw_window_open (room->window, far);
  room_tells (room, "This place cannot be read directly. Copy the scene");
  hw_window_open_copy (room->window, bad);
  room_tells (room, told);
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  g_assert_null (hw_bench_get_path (room->bench));
  hands_click (room->window->message_box, "Close");
}

/* A scene with no name is offered a plain one, and called after its first file only where it still bears the name of a new scene. */
static void
a_scene_is_called_after_its_first_file (Room *room, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (room->bench);
  g_autofree char *name = NULL, *path = room_path (room, "pear tree.hoopscene");
  g_autofree char *plain = room_path (room, "pear tree");

  g_object_set (scene, "name", "", NULL);
  room_do (room, "save", NULL);
  g_autofree char *offered = gtk_file_chooser_get_current_name (room_chooser ());
  g_assert_cmpstr (offered, ==, "scene.hoopscene");
  room_pick (NULL);
  g_assert_null (hw_bench_get_path (room->bench));
  g_object_set (scene, "name", "New scene", NULL);
  room_do (room, "save-as", NULL);
  room_pick (plain);
  room_until (hw_bench_get_path (room->bench) != NULL);
  g_assert_cmpstr (hw_bench_get_path (room->bench), ==, path);
  g_object_get (scene, "name", &name, NULL);
  g_assert_cmpstr (name, ==, "pear tree");
  g_assert_false (is_modified (room));
}

/* What a newer program wrote is read as far as it is understood, and never saved over, by whatever name that file is known. */
static void
a_newer_scene_is_not_saved_over (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "newer.hoopscene"), *link = room_path (room, "same.hoopscene");
  g_autofree char *other = room_path (room, "other.hoopscene"), *text = NULL, *after = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL, again = NULL;

  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_autoptr (GRegex) version = g_regex_new ("\"version\"\\s*:\\s*\\d+", 0, 0, NULL);
  g_autofree char *newer = g_regex_replace_literal (version, text, -1, 0, "\"version\": 999", 0, NULL);
  g_assert_cmpstr (newer, !=, text);
  g_assert_true (g_file_set_contents (path, newer, -1, NULL));
  g_assert_cmpint (symlink (path, link), ==, 0);
  hw_window_open (room->window, file);
  hands_settle ();
  room_tells (room, "A newer Hoopwright wrote this scene.");
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  g_assert_false (hw_window_write (room->window, path, FALSE, &error));
  g_assert_nonnull (strstr (error->message, "was written by a newer Hoopwright and stays as it is"));
  g_assert_false (hw_window_write (room->window, link, FALSE, &again));
  g_assert_true (g_file_get_contents (path, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, newer);
  g_assert_true (hw_window_write (room->window, other, FALSE, NULL));
  g_assert_cmpstr (hw_bench_get_path (room->bench), ==, other);
}

/* With work unsaved the window stays until that was spoken of. */
static void
unsaved_work_is_spoken_of_before_the_window_goes (Room *room, gconstpointer data)
{
  hw_bench_select_only (room->bench, "m1");
  hw_bench_nudge (room->bench, 3, 0);
  gtk_window_close (GTK_WINDOW (room->window));
  hands_settle ();
  GtkWindow *question = hands_window ("Not saved yet");
  g_assert_nonnull (question);
  hands_click (question, "Go on working");
  g_assert_null (hands_window ("Not saved yet"));
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (room->window)));
  gtk_window_close (GTK_WINDOW (room->window));
  question = hands_window ("Not saved yet");
  hands_click (question, "Leave without saving");
  g_assert_null (gtk_application_get_windows (room->application));
  room->window = NULL;
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-files/" #test, Room, NULL, room_set_up, test, room_tear_down)
  ADD (what_another_program_saved_is_not_lost);
  ADD (saving_over_that_fails_is_told);
  ADD (what_cannot_be_opened_leaves_the_scene);
  ADD (a_scene_is_called_after_its_first_file);
  ADD (a_newer_scene_is_not_saved_over);
  ADD (unsaved_work_is_spoken_of_before_the_window_goes);
  return g_test_run ();
}
