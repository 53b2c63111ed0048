/* Motifs that come in: what reads well lies on the cloth, what does not is told, what may be two things is asked about, and nothing comes in under a hand. */
#include <gdk-pixbuf/gdk-pixbuf.h>

#include "window-fixture.h"
#include "workbench/window-import.h"

static const char drawing[]
    = "<svg xmlns='http://www.w3.org/2000/svg' width='40mm' height='30mm' viewBox='0 0 40 30'>"
      "<rect width='40' height='30' fill='#345'/></svg>";

static void
add (Room *room, const char *first, const char *second, const char *third)
{
  const char *paths[] = { first, second, third, NULL };

  hw_window_add_motif_files (room->window, paths, NULL);
}

static void
until_told (Room *room)
{
  room_until (gtk_revealer_get_reveal_child (room->window->message_bar)
              && !g_str_has_prefix (gtk_label_get_label (room->window->message), "Reading"));
}

static char *
write_picture (Room *room, const char *name)
{
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 80, 60);
  char *path = room_path (room, name);

  g_autoptr (GdkPixbuf) leaf = gdk_pixbuf_new_subpixbuf (picture, 20, 15, 40, 30);
  gdk_pixbuf_fill (picture, 0xffffffff);
  gdk_pixbuf_fill (leaf, 0x305080ff);
  g_assert_true (gdk_pixbuf_save (picture, path, "png", NULL, NULL));
  return path;
}

static void
each_that_cannot_be_read_is_told_beside_those_that_can (Room *room, gconstpointer data)
{
  g_autofree char *one = room_write (room, "torn.svg", "<svg"), *two = room_write (room, "void.csv", "");
  g_autofree char *good = room_write (room, "leaf.svg", drawing);

  add (room, one, two, NULL);
  until_told (room);
  g_autofree char *both = room_told (room);
  g_assert_nonnull (strstr (both, "torn.svg"));
  g_assert_nonnull (strstr (both, "void.csv"));
  g_assert_null (strstr (both, "is on the cloth"));
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  add (room, one, good, NULL);
  room_until (room_n_motifs (room) == 4);
  until_told (room);
  g_autofree char *mixed = room_told (room);
  g_assert_true (g_str_has_suffix (mixed, " The other motif is on the cloth."));
  /* The next that goes well wipes it away. */
  add (room, good, NULL, NULL);
  room_until (room_n_motifs (room) == 5);
  room_until (!gtk_revealer_get_reveal_child (room->window->message_bar));
}

static void
nothing_comes_in_under_a_hand (Room *room, gconstpointer data)
{
  g_autofree char *good = room_write (room, "leaf.svg", drawing);

  hw_bench_begin_edit (room->bench, "move", FALSE);
  add (room, good, NULL, NULL);
  room_wait (700);
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  g_assert_true (hw_bench_is_editing (room->bench));
  hw_bench_cancel_edit (room->bench);
  room_until (room_n_motifs (room) == 4);
}

/* A picture's size is asked for; to give no answer is one, too. */
static void
a_picture_is_asked_about (Room *room, gconstpointer data)
{
  g_autofree char *one = write_picture (room, "pear.png"), *two = write_picture (room, "plum.png");

  add (room, one, two, NULL);
  room_until (room_dialog (room) != NULL);
  gtk_window_close (room_dialog (room));
  hands_settle ();
  room_until (room_dialog (room) != NULL); /* the other's turn */
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
  gtk_window_close (room_dialog (room));
  hands_settle ();
  g_assert_null (room_dialog (room));
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
}

static void
a_picture_may_be_motif_or_photo (Room *room, gconstpointer data)
{
  g_autofree char *path = write_picture (room, "pear.png");
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GtkWindow *question, *after;

  hw_window_open_or_add (room->window, file);
  question = hands_window ("A picture");
  g_assert_nonnull (question);
  hands_find (question, GTK_TYPE_LABEL, "What does pear.png show?");
  hands_click (question, "A photo of the cloth");
  g_assert_null (hands_window ("A picture"));
  room_until (room_dialog (room) != NULL);
  after = room_dialog (room);
  gtk_window_destroy (after);
  hands_settle ();
  hw_window_open_or_add (room->window, file);
  hands_click (hands_window ("A picture"), "A motif");
  room_until (room_dialog (room) != NULL); /* its size */
  gtk_window_close (room_dialog (room));
  hands_settle ();
  g_assert_cmpuint (hw_scene_get_photos (hw_bench_get_scene (room->bench))->len, ==, 0);
}

/* A file is a scene, artwork or a picture by its ending, whatever its case. */
static void
a_file_is_taken_for_what_its_ending_says (Room *room, gconstpointer data)
{
  g_autofree char *upper = room_write (room, "LEAF.SVG", drawing), *scene = room_path (room, "a.hoopscene");
  g_autoptr (GFile) artwork = g_file_new_for_path (upper);
  g_autoptr (GFile) saved = g_file_new_for_path (scene);

  hw_window_open_or_add (room->window, artwork);
  room_until (room_n_motifs (room) == 4);
  g_assert_true (hw_bench_save (room->bench, scene, NULL));
  hw_bench_select_all (room->bench);
  hw_bench_delete (room->bench);
  hw_window_open_or_add (room->window, saved);
  hands_settle ();
  g_assert_cmpuint (room_n_motifs (room), ==, 4);
}

/* Files of a place that has no path here cannot be read: that is told, and what to do. */
static void
a_place_that_cannot_be_read_is_told (Room *room, gconstpointer data)
{
  g_autoptr (GFile) leaf_far = g_file_new_for_uri ("garden://far/leaf.svg");
  g_autoptr (GFile) photo_far = g_file_new_for_uri ("garden://far/linen.jpg");

  hw_window_open_or_add (room->window, leaf_far);
  room_tells (room, "This place cannot be read directly. Copy the files");
  hw_window_open_or_add (room->window, photo_far);
  hands_click (hands_window ("A picture"), "A photo of the cloth");
  room_tells (room, "This place cannot be read directly. Copy the photo");
  hw_window_tell (room->window, NULL);
  hw_window_open_or_add (room->window, photo_far);
  hands_click (hands_window ("A picture"), "A motif");
  g_assert_null (hands_window ("A picture"));
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
}

/* Nothing is dropped: the drop is not taken. */
static void
an_empty_drop_is_not_taken (Room *room, gconstpointer data)
{
  GtkWidget *onto[] = { GTK_WIDGET (room->window->canvas), GTK_WIDGET (room->window) };

  for (guint i = 0; i < G_N_ELEMENTS (onto); i++)
    {
      g_auto (GValue) value = G_VALUE_INIT;
      gboolean taken = TRUE;

      g_value_init (&value, GDK_TYPE_FILE_LIST);
      g_signal_emit_by_name (hands_controller (onto[i], GTK_TYPE_DROP_TARGET), "drop", &value, 200.0, 200.0,
                             &taken);
      g_assert_false (taken);
    }
  g_assert_cmpuint (room_n_motifs (room), ==, 3);
}

/* The window closes while files are still being read. */
static void
a_window_that_closes_takes_nothing_in (Room *room, gconstpointer data)
{
  g_autofree char *good = room_write (room, "leaf.svg", drawing);
  g_autoptr (HwBench) bench = g_object_ref (room->bench);

  add (room, good, NULL, NULL);
  gtk_window_destroy (GTK_WINDOW (room->window));
  room->window = NULL;
  room_wait (300);
  g_assert_cmpuint (g_list_model_get_n_items (hw_scene_get_motifs (hw_bench_get_scene (bench))), ==, 3);
}

/* Looking for files and going back without one changes nothing. */
static void
going_back_from_the_files_changes_nothing (Room *room, gconstpointer data)
{
  static const char *const actions[] = { "add-motif", "open", "add-photo" };

  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      gboolean modified;

      g_object_get (room->bench, "modified", &modified, NULL);
      g_assert_false (modified);
      room_do (room, actions[i], NULL);
      room_pick (NULL);
      g_assert_null (room_chooser ());
      g_assert_cmpuint (room_n_motifs (room), ==, 3);
    }
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-import/" #test, Room, NULL, room_set_up, test, room_tear_down)
  ADD (each_that_cannot_be_read_is_told_beside_those_that_can);
  ADD (nothing_comes_in_under_a_hand);
  ADD (a_picture_is_asked_about);
  ADD (a_picture_may_be_motif_or_photo);
  ADD (a_file_is_taken_for_what_its_ending_says);
  ADD (a_place_that_cannot_be_read_is_told);
  ADD (an_empty_drop_is_not_taken);
  ADD (a_window_that_closes_takes_nothing_in);
  ADD (going_back_from_the_files_changes_nothing);
  return g_test_run ();
}
