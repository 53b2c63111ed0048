/* What the window keeps and gives: work that was left behind is brought back, an earlier state too, files elsewhere are read when one says so, an empty cloth is begun on, and a
 * hooping's needle list is saved. */
#include <glib/gstdio.h>

#include "../workbench/bench-fixture.h"
#include "formats/kept-work.h"
#include "window-fixture.h"
#include "workbench/canvas-private.h"
#include "workbench/window-import.h"

static gboolean
is_modified (Room *room)
{
  gboolean modified;

  g_object_get (room->bench, "modified", &modified, NULL);
  return modified;
}

static double
across (Room *room, const char *id)
{
  return hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (room->bench), id))
      ->placement.position.x;
}

static void
nudge (Room *room, double dx)
{
  hw_bench_select_only (room->bench, "m1");
  hw_bench_nudge (room->bench, dx, 0);
  hands_settle ();
}

/* As a window leaves it that ended before its time: Pear alone, under that name. */
static void
leave_work (const char *name, const char *path, gint64 when)
{
  g_autoptr (HwSnapshot) scene = hw_snapshot_new ();
  g_autoptr (HwWorkPlace) place = NULL;
  g_autoptr (GError) error = NULL;

  g_free (scene->name);
  scene->name = g_strdup (name);
  g_ptr_array_add (scene->motifs, orchard_motif ("m1", "Pear", 70, 70));
  place = hw_work_place_new (NULL, &error);
  g_assert_no_error (error);
  g_assert_true (hw_work_place_keep (place, scene, path, NULL, when, &error));
  g_assert_no_error (error);
}

static guint
n_left (void)
{
  g_autoptr (GPtrArray) left = hw_left_work_list (NULL);

  return left->len;
}

/* One by one, the newest first: brought back it is this window's unsaved work, thrown away it is gone, and what is to be asked about later stays. */
static void
work_left_behind_is_brought_back (Room *room, gconstpointer data)
{
  HwWindow *window = room->window;
  g_autofree char *path = room_path (room, "quay.hoopscene");

  hw_window_offer_left_work (window);
  g_assert_false (gtk_widget_get_visible (window->left_bar) && gtk_widget_get_mapped (window->left_bar)
                  && hands_sentence (window->left_bar, "Work on") != NULL);
  g_clear_pointer (&window->left, g_ptr_array_unref);
  leave_work ("Old wall", NULL, 1000000);
  leave_work ("Quay", path, 2000000);
  leave_work ("Pier", NULL, 3000000);
  hw_window_offer_left_work (window);
  hands_settle ();
  hands_says (window->left_bar, "Work on “Pier” was not saved when Hoopwright ended. It was kept on ");
  hands_click (window->left_bar, "Ask me later");
  hands_says (window->left_bar, "Work on “Quay”");
  nudge (room, 3);
  hands_click (window->left_bar, "Bring it back");
  hands_click (hands_window ("Not saved yet"), "Go on working");
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  hw_window_offer_left_work (window);
  hands_click (window->left_bar, "Bring it back");
  hands_click (hands_window ("Not saved yet"), "Leave without saving");
  g_assert_cmpuint (room_n_motifs (room), ==, 1);
  g_assert_cmpfloat (across (room, "m1"), ==, 70);
  g_assert_true (is_modified (room));
  g_assert_cmpstr (hw_bench_get_path (room->bench), ==, path);
  hands_says (window->left_bar, "Work on “Old wall”");
  hands_click (window->left_bar, "Throw it away");
  g_assert_cmpuint (n_left (), ==, 1); /* Pier's, asked about another time */
  hw_bench_begin_edit (room->bench, "move", FALSE);
  hw_bench_cancel_edit (room->bench);
}

/* Work whose file was saved again since is told of so; work that cannot be read is told, and the scene stays. */
static void
work_that_is_older_or_torn_is_told (Room *room, gconstpointer data)
{
  HwWindow *window = room->window;
  g_autofree char *path = room_path (room, "quay.hoopscene"), *asked = NULL;
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GPtrArray) left = NULL;

  g_assert_true (hw_window_write (window, path, FALSE, NULL));
  g_assert_true (g_file_set_attribute_uint64 (file, G_FILE_ATTRIBUTE_TIME_MODIFIED,
                                              (guint64)g_get_real_time () / G_USEC_PER_SEC, 0, NULL, NULL));
  left = hw_left_work_list (NULL);
  for (guint i = 0; i < left->len; i++)
    hw_left_work_remove (g_ptr_array_index (left, i));
  g_clear_pointer (&window->left, g_ptr_array_unref);
  leave_work ("Quay", path, 1000);
  hw_window_offer_left_work (window);
  hands_settle ();
  asked = hands_sentence (window->left_bar, "Work on “Quay”");
  g_assert_true (g_str_has_suffix (asked, "; the file was saved again since."));
  g_clear_pointer (&left, g_ptr_array_unref);
  left = hw_left_work_list (NULL);
  g_assert_cmpuint (left->len, ==, 1);
  g_assert_true (
      g_file_set_contents (((const HwLeftWork *)g_ptr_array_index (left, 0))->file, "{", -1, NULL));
  hands_click (window->left_bar, "Bring it back");
  g_autofree char *told = room_told (room);
  g_assert_nonnull (told);
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
}

/* What the file held before it was saved over comes back as one step, and the file stays as it is. */
static void
an_earlier_state_comes_back (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene");
  double before = across (room, "m1");
  GtkWindow *dialog;

  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  hands_settle ();
  room_do (room, "earlier-states", NULL);
  dialog = hands_window ("Earlier states");
  hands_says (dialog, "Nothing yet.");
  gtk_window_destroy (dialog);
  nudge (room, 25);
  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  hands_settle ();
  room_do (room, "earlier-states", NULL);
  dialog = hands_window ("Earlier states");
  hands_says (dialog, "What the file held before it was saved over.");
  GtkWidget *back = NULL;
  for (GtkWidget *row = gtk_widget_get_first_child (room_first (dialog, GTK_TYPE_BOX)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (GTK_IS_BOX (row) && GTK_IS_BUTTON (gtk_widget_get_last_child (row)))
      back = gtk_widget_get_last_child (row);
  g_assert_nonnull (back);
  g_signal_emit_by_name (back, "clicked");
  hands_settle ();
  g_assert_null (hands_window ("Earlier states"));
  g_assert_cmpfloat (across (room, "m1"), ==, before);
  g_assert_true (is_modified (room));
  room_do (room, "undo", NULL);
  g_assert_cmpfloat (across (room, "m1"), ==, before + 25);
}

/* What another program saved is opened anew, which asks about unsaved work first. */
static void
what_changed_outside_is_opened_anew (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene"), *written = NULL;

  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  hands_settle ();
  g_assert_true (g_file_get_contents (path, &written, NULL, NULL));
  nudge (room, 40);
  g_autofree char *other = g_strconcat (written, "\n\n", NULL);
  g_assert_true (g_file_set_contents (path, other, -1, NULL));
  room_until (gtk_widget_get_mapped (room->window->changed_bar));
  hands_click (room->window->changed_bar, "Open it anew");
  hands_click (hands_window ("Not saved yet"), "Leave without saving");
  g_assert_cmpfloat (across (room, "m1"), ==, 100);
  g_assert_false (is_modified (room));
}

static const char needles[] = "x_mm,y_mm,action,thread\n0,0,jump,moss\n20,0,stitch,moss\n20,20,stitch,"
                              "moss\n0,20,stitch,moss\n0,0,stitch,moss\n0,0,end,moss\n";

/* A scene that names files elsewhere is shown without them until one has said that it is one's own. */
static void
files_elsewhere_are_read_when_one_says_so (Room *room, gconstpointer data)
{
  g_autofree char *elsewhere = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *art = g_build_filename (elsewhere, "leaf.csv", NULL);
  g_autofree char *path = room_path (room, "orchard.hoopscene"), *written = NULL;
  g_autofree char *named
      = g_strdup_printf ("\"artwork\": {\"path\": \"%s\", \"kind\": \"needles\"}, \"name\"", art);
  const HwMotif *pear;

  g_assert_true (g_file_set_contents (art, needles, -1, NULL));
  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  g_assert_true (g_file_get_contents (path, &written, NULL, NULL));
  char *name = strstr (strstr (written, "\"motifs\""), "\"name\"");
  g_assert_nonnull (name);
  g_autofree char *head = g_strndup (written, (gsize)(name - written));
  g_autofree char *text = g_strconcat (head, named, name + strlen ("\"name\""), NULL);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  g_autoptr (GFile) file = g_file_new_for_path (path);
  hw_window_open (room->window, file);
  hands_settle ();
  hands_says (room->window->opened_bar, "This scene names 1 file outside its folder");
  room_wait (50);
  pear = hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (room->bench), "m1"));
  g_assert_null (pear->needles);
  hands_click (room->window->opened_bar, "Leave unread");
  hw_window_open (room->window, file);
  hands_settle ();
  hands_click (room->window->opened_bar, "Read");
  room_until (
      hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (room->bench), "m1"))->needles
      != NULL);
  hw_window_open (room->window, file);
  hands_settle ();
  g_assert_null (hands_sentence (room->window->opened_bar, "This scene names"));
  g_remove (art);
  g_rmdir (elsewhere);
}

/* On an empty cloth one draws an outline, or borrows a motif to try with. */
static void
an_empty_cloth_is_begun_on (Room *room, gconstpointer data)
{
  hw_bench_select_all (room->bench);
  room_do (room, "delete", NULL);
  g_assert_cmpuint (room_n_motifs (room), ==, 0);
  hands_says (room->window->table, "The cloth is bare");
  room_do (room, "draw-outline", NULL);
  g_assert_cmpuint (room_n_motifs (room), ==, 1);
  g_assert_nonnull (room_dialog (room));
  gtk_window_destroy (room_dialog (room));
  g_assert_null (hands_sentence (room->window->table, "The cloth is bare"));
  hw_bench_select_all (room->bench);
  room_do (room, "delete", NULL);
  room_do (room, "borrow-motif", NULL);
  room_until (room_n_motifs (room) == 1);
  hw_bench_select_all (room->bench);
  g_autoptr (GPtrArray) selection = hw_bench_get_selection (room->bench);
  const HwMotif *wren = hw_scene_motif_get_record (g_ptr_array_index (selection, 0));
  g_assert_true (g_str_has_suffix (wren->artwork, "wren.csv"));
  g_assert_cmpfloat (wren->placement.scale, ==, 1);
}

/* Where the garden is not, or has lost its wren, that is told. */
static void
what_cannot_be_borrowed_is_told (Room *room, gconstpointer data)
{
  g_autofree char *demo = room_path (room, "demo"), *there = g_strdup (g_getenv ("HOOPWRIGHT_DATA_DIR"));
  g_autofree char *garden = g_build_filename (demo, "walled-garden.hoopscene", NULL);
  g_autoptr (GError) error = NULL;

  g_setenv ("HOOPWRIGHT_DATA_DIR", room->folder, TRUE);
  room_do (room, "borrow-motif", NULL);
  room_until (gtk_revealer_get_reveal_child (room->window->message_bar));
  hands_click (room->window->message_box, "Close");
  g_assert_cmpint (g_mkdir (demo, 0700), ==, 0);
  g_assert_true (hw_window_write (room->window, garden, FALSE, &error));
  room_do (room, "borrow-motif", NULL);
  room_until (gtk_revealer_get_reveal_child (room->window->message_bar));
  room_tells (room, "The walled garden has lost its wren.");
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  g_setenv ("HOOPWRIGHT_DATA_DIR", there, TRUE);
  g_remove (garden);
  g_rmdir (demo);
}

/* The needle list of a hooping is saved where one says; what keeps it from being written is told before a place is asked for. */
static void
a_hoopings_needle_list_is_saved (Room *room, gconstpointer data)
{
  g_autofree char *art = room_write (room, "leaf.csv", needles), *list = room_path (room, "list.csv");
  g_autofree char *drawn = room_path (room, "list.svg"), *saved = NULL;
  const char *paths[] = { art, NULL };

  wait_for_plan (room->bench);
  g_assert_false (room_can (room, "save-needles"));
  hw_bench_choose_hooping (room->bench, 0);
  hands_settle ();
  room_do (room, "save-needles", NULL);
  g_assert_null (room_chooser ());
  g_autofree char *told = room_told (room);
  g_assert_nonnull (told); /* an outline has no stitches */
  hw_bench_select_all (room->bench);
  room_do (room, "delete", NULL);
  hw_window_add_motif_files (room->window, paths, NULL);
  room_until (room_n_motifs (room) == 1);
  wait_for_plan (room->bench);
  hw_bench_choose_hooping (room->bench, 0);
  hands_settle ();
  room_do (room, "save-needles", NULL);
  room_pick (NULL);
  g_assert_false (g_file_test (list, G_FILE_TEST_EXISTS));
  room_do (room, "save-needles", NULL);
  room_pick (list);
  room_until (gtk_revealer_get_reveal_child (room->window->message_bar));
  room_tells (room, "The needle list of hooping 1 was saved as “list.csv”.");
  g_assert_true (g_file_get_contents (list, &saved, NULL, NULL));
  g_assert_nonnull (strstr (saved, "stitch"));
  room_do (room, "save-needles", NULL);
  room_pick (drawn);
  room_until (g_file_test (drawn, G_FILE_TEST_EXISTS));
  room_tells (room, "The needle list of hooping 1 was saved as “list.svg”.");
  g_free (saved);
  g_assert_true (g_file_get_contents (drawn, &saved, NULL, NULL));
  g_assert_nonnull (strstr (saved, "<svg"));
}

/* What arranges by one command: lined up, spaced out, mirrored across, and asked for in figures. */
static void
motifs_are_arranged_by_command (Room *room, gconstpointer data)
{
  static const char *const asking[] = { "copies-in-row", "put-in-row", "copies-around", "tuck-behind" };
  static const char *const pair[] = { "m1", "m2", NULL };

  hw_bench_select_only (room->bench, "m2");
  hw_bench_nudge (room->bench, 60, 25);
  hw_bench_select_all (room->bench);
  hands_settle ();
  room_do (room, "space-out", g_variant_new_string ("across"));
  g_assert_cmpfloat_with_epsilon (across (room, "m2"), 325, 1e-6);
  room_do (room, "line-up", g_variant_new_string ("left"));
  g_assert_cmpfloat (across (room, "m2"), ==, across (room, "m1"));
  g_assert_cmpfloat (across (room, "m3"), ==, across (room, "m1"));
  room_do (room, "undo", NULL);
  room_do (room, "line-up", g_variant_new_string ("no such way"));
  g_assert_cmpfloat (across (room, "m2"), !=, across (room, "m1"));
  for (guint i = 0; i < G_N_ELEMENTS (asking); i++)
    {
      const char *const all[] = { "m1", "m2", "m3", NULL };
      GtkWidget *slip;

      hw_bench_select_ids (room->bench, i < 3 ? all : pair);
      hands_settle ();
      g_autoptr (HwSnapshot) as_it_was = hw_scene_snapshot (hw_bench_get_scene (room->bench));
      room_do (room, asking[i], NULL);
      slip = room_first (room->window->canvas, GTK_TYPE_POPOVER);
      if (slip == NULL || !gtk_widget_get_visible (slip))
        g_error ("“%s” asks nothing", asking[i]);
      gtk_popover_popdown (GTK_POPOVER (slip));
      hands_settle ();
      g_autoptr (HwSnapshot) given_back = hw_scene_snapshot (hw_bench_get_scene (room->bench));
      g_assert_true (hw_snapshot_equal (as_it_was, given_back));
    }
  hw_bench_select_only (room->bench, "m1");
  hands_settle ();
  guint n = room_n_motifs (room);
  room_do (room, "mirror-pair", g_variant_new_string ("upright"));
  g_assert_cmpuint (room_n_motifs (room), ==, n + 1);
  /* Under a hand nothing is arranged. */
  hw_bench_select_all (room->bench);
  hands_settle ();
  hw_bench_begin_edit (room->bench, "move", FALSE);
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  room_do (room, "line-up", g_variant_new_string ("left"));
  room_do (room, "space-out", g_variant_new_string ("across"));
  room_do (room, "mirror-pair", g_variant_new_string ("upright"));
  room_do (room, "put-in-row", NULL);
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (hw_bench_get_scene (room->bench));
  g_assert_true (hw_snapshot_equal (before, after));
  hw_bench_cancel_edit (room->bench);
  /* Whether what is pulled comes to rest in line is the person's choice. */
  g_action_group_change_action_state (G_ACTION_GROUP (room->window), "come-to-rest",
                                      g_variant_new_boolean (FALSE));
  g_assert_true (room->window->canvas->drags_freely);
  g_action_group_change_action_state (G_ACTION_GROUP (room->window), "come-to-rest",
                                      g_variant_new_boolean (TRUE));
  g_assert_false (room->window->canvas->drags_freely);
}

/* What was done at the machine is read day by day, and copied as text. */
static void
the_log_is_read_and_copied (Room *room, gconstpointer data)
{
  GtkWindow *dialog;

  room_do (room, "day-log", NULL);
  dialog = hands_window ("Log of the days");
  hands_says (dialog, "Nothing was written down yet.");
  g_assert_false (gtk_widget_is_sensitive (hands_find (dialog, GTK_TYPE_BUTTON, "Copy as text")));
  hands_click (dialog, "Close");
  wait_for_plan (room->bench);
  g_assert_true (hw_bench_begin_hooping (room->bench, 0));
  wait_for_plan (room->bench);
  g_assert_true (hw_bench_stitched (room->bench));
  hands_settle ();
  room_do (room, "day-log", NULL);
  dialog = hands_window ("Log of the days");
  hands_click (dialog, "Copy as text");
  GdkContentProvider *content
      = gdk_clipboard_get_content (gtk_widget_get_clipboard (GTK_WIDGET (room->window)));
  g_assert_nonnull (content);
  g_auto (GValue) value = G_VALUE_INIT;
  g_value_init (&value, G_TYPE_STRING);
  g_assert_true (gdk_content_provider_get_value (content, &value, NULL));
  g_auto (GStrv) lines = g_strsplit (g_value_get_string (&value), "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), >=, hw_scene_get_log (hw_bench_get_scene (room->bench))->len);
  g_assert_true (g_regex_match_simple ("^\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d  .", lines[0], 0, 0));
  hands_click (dialog, "Close");
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-work/" #test, Room, NULL, room_set_up, test, room_tear_down)
  ADD (work_left_behind_is_brought_back);
  ADD (work_that_is_older_or_torn_is_told);
  ADD (an_earlier_state_comes_back);
  ADD (what_changed_outside_is_opened_anew);
  ADD (files_elsewhere_are_read_when_one_says_so);
  ADD (an_empty_cloth_is_begun_on);
  ADD (what_cannot_be_borrowed_is_told);
  ADD (a_hoopings_needle_list_is_saved);
  ADD (motifs_are_arranged_by_command);
  ADD (the_log_is_read_and_copied);
  return g_test_run ();
}
