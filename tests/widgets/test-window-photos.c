/* Photos of the cloth in the window: one is tried, named and kept where the person says, listed, shown stronger or paler, called otherwise and taken away. */
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>

#include "window-fixture.h"
#include "workbench/photo-section.h"
#include "workbench/window-photo.h"

#define ADD_TITLE "Photo of the cloth"
#define SQUARE_TITLE "Put square: Bare linen"

static const HwPhotoPoint corners[] = {
  { { 0, 0 }, { 0, 0 } }, { { 60, 0 }, { 300, 0 } }, { { 60, 40 }, { 300, 200 } }, { { 0, 40 }, { 0, 200 } }
};

static char *
photo_file (Room *room, const char *name)
{
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 60, 40);
  char *path = room_path (room, name);

  gdk_pixbuf_fill (picture, 0xd8d0c0ff);
  g_assert_true (gdk_pixbuf_save (picture, path, "png", NULL, NULL));
  return path;
}

static GPtrArray *
photos (Room *room)
{
  return hw_scene_get_photos (hw_bench_get_scene (room->bench));
}

static const HwPhoto *
photo (Room *room, guint index)
{
  g_assert_cmpuint (index, <, photos (room)->len);
  return g_ptr_array_index (photos (room), index);
}

static int
shown (Room *room)
{
  return hw_scene_get_photo_shown (hw_bench_get_scene (room->bench));
}

/* The file is brought to the window and tried; the dialog for it opens. */
static GtkWindow *
bring (Room *room, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);

  hw_window_add_photo (room->window, file);
  room_until (room_dialog (room) != NULL);
  return hands_window (ADD_TITLE);
}

/* As above, added as it is offered; the dialog that puts it square is closed again. */
static void
add (Room *room, const char *name)
{
  g_autofree char *path = photo_file (room, name);

  hands_click (bring (room, path), "Add the photo");
  gtk_window_destroy (room_dialog (room));
  hands_settle ();
}

static GtkWidget *
field (GtkWindow *dialog, const char *name)
{
  return hands_find (dialog, GTK_TYPE_ENTRY, name);
}

/* It is offered under the name of its file and the day of it; once added it waits to be put square. Without a file of the scene's it can only go into the scene. */
static void
a_photo_is_named_and_kept_in_the_scene (Room *room, gconstpointer data)
{
  g_autofree char *path = photo_file (room, "bare-linen.png");
  GtkWindow *dialog = bring (room, path);
  GtkWidget *beside = hands_find (dialog, GTK_TYPE_CHECK_BUTTON, "As a file of its own beside the scene’s");

  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field (dialog, "Name of the photo"))), ==,
                   "Bare linen");
  g_assert_false (gtk_widget_is_sensitive (beside));
  gtk_editable_set_text (GTK_EDITABLE (field (dialog, "Day it was taken")), "last May");
  hands_click (dialog, "Add the photo");
  g_assert_cmpuint (photos (room)->len, ==, 0);
  g_assert_true (hands_window (ADD_TITLE) == dialog);
  gtk_editable_set_text (GTK_EDITABLE (field (dialog, "Day it was taken")), "2026-05-03");
  hands_click (dialog, "Add the photo");
  g_assert_cmpuint (photos (room)->len, ==, 1);
  g_assert_cmpstr (photo (room, 0)->taken, ==, "2026-05-03");
  g_assert_null (photo (room, 0)->path);
  g_assert_nonnull (photo (room, 0)->bytes);
  GtkWindow *square = hands_window (SQUARE_TITLE);
  g_assert_nonnull (square);
  gtk_window_destroy (square);
  hands_settle ();
}

/* With a file of the scene's it is kept beside that, or in it; a folder that is gone is told and the photo is not lost. */
static void
a_photo_is_kept_beside_the_scene (Room *room, gconstpointer data)
{
  g_autofree char *path = room_path (room, "orchard.hoopscene");
  g_autofree char *elsewhere = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *moved = g_strconcat (room->folder, "-moved", NULL);
  g_autofree char *from = photo_file (room, "linen.png");
  g_autofree char *away = g_build_filename (elsewhere, "linen.png", NULL);
  g_autofree char *copy = room_path (room, "linen.png");

  g_assert_cmpint (g_rename (from, away), ==, 0);
  g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  hands_settle ();
  GtkWindow *dialog = bring (room, away);
  g_assert_cmpint (g_rename (room->folder, moved), ==, 0);
  hands_click (dialog, "Add the photo");
  g_assert_cmpuint (photos (room)->len, ==, 0);
  g_assert_true (hands_window (ADD_TITLE) == dialog);
  g_assert_cmpint (g_rename (moved, room->folder), ==, 0);
  gtk_editable_set_text (GTK_EDITABLE (field (dialog, "Name of the photo")), "  ");
  hands_click (dialog, "Add the photo");
  g_assert_cmpstr (photo (room, 0)->path, ==, "linen.png");
  g_assert_cmpstr (photo (room, 0)->name, ==, "Photo");
  g_assert_true (g_file_test (copy, G_FILE_TEST_IS_REGULAR));
  gtk_window_destroy (room_dialog (room));
  dialog = bring (room, away);
  hands_click (dialog, "Cancel");
  g_assert_cmpuint (photos (room)->len, ==, 1);
  g_remove (away);
  g_rmdir (elsewhere);
}

/* What is no photo, or lies where it cannot be read, is told, and no dialog opens. */
static void
what_is_no_photo_is_told (Room *room, gconstpointer data)
{
  g_autofree char *path = room_write (room, "torn.png", "no picture at all");
  g_autofree char *told = NULL;
  g_autoptr (GFile) torn = g_file_new_for_path (path);
  g_autoptr (GFile) far = g_file_new_for_uri ("garden://far/linen.png");

  hw_window_add_photo (room->window, torn);
  room_until ((g_free (told), told = room_told (room)) != NULL);
  g_assert_true (g_str_has_prefix (told, "torn.png"));
  hw_window_add_photo (room->window, far);
  room_tells (room, "This place cannot be read directly. Copy the photo");
  g_assert_null (room_dialog (room));
  g_assert_true (hw_window_is_photo_file (torn));
  g_autoptr (GFile) loud = g_file_new_for_path ("/nowhere/LINEN.JPEG");
  g_assert_true (hw_window_is_photo_file (loud));
  g_autoptr (GFile) scene = g_file_new_for_path ("/nowhere/orchard.hoopscene");
  g_assert_false (hw_window_is_photo_file (scene));
}

/* A photo that is still being tried when its window goes opens nothing. */
static void
a_window_that_goes_asks_nothing_more (Room *room, gconstpointer data)
{
  g_autofree char *path = photo_file (room, "linen.png");
  g_autoptr (GFile) file = g_file_new_for_path (path);

  hw_window_add_photo (room->window, file);
  gtk_window_destroy (GTK_WINDOW (room->window));
  room->window = NULL;
  room_wait (150);
  g_assert_cmpuint (room_n_windows (), ==, 0);
}

/* By the desktop's own dialog for files; going back adds nothing. */
static void
a_photo_is_looked_for (Room *room, gconstpointer data)
{
  g_autofree char *path = photo_file (room, "linen.png");

  room_do (room, "add-photo", NULL);
  room_pick (NULL);
  g_assert_null (room_dialog (room));
  room_do (room, "add-photo", NULL);
  room_pick (path);
  room_until (hands_window (ADD_TITLE) != NULL);
  hands_click (hands_window (ADD_TITLE), "Cancel");
}

static GtkWidget *
section (Room *room)
{
  GtkWidget *found = room_first (room->window, HW_TYPE_PHOTO_SECTION);

  g_assert_nonnull (found);
  return found;
}

static GtkWidget *
choice (Room *room, const char *text)
{
  return hands_find (section (room), GTK_TYPE_CHECK_BUTTON, text);
}

static void
slide (Room *room, const char *name, double value)
{
  gtk_range_set_value (GTK_RANGE (hands_find (section (room), GTK_TYPE_SCALE, name)), value);
  hands_settle ();
}

/* The list says what each photo is; the one chosen is shown as strongly as one likes. What is in the hand is left alone. */
static void
the_list_shows_one_of_them (Room *room, gconstpointer data)
{
  HwScene *scene = hw_bench_get_scene (room->bench);

  add (room, "linen.png");
  add (room, "moss.png");
  hw_bench_rename_photo (room->bench, 0, "Linen", NULL);
  hw_bench_rename_photo (room->bench, 1, "Moss", "2026-05-03");
  hw_bench_square_photo (room->bench, 1, corners, G_N_ELEMENTS (corners), 0);
  hands_settle ();
  g_assert_cmpint (shown (room), ==, 1);
  g_assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (choice (room, "Moss, taken 2026-05-03"))));
  hands_find (section (room), GTK_TYPE_BUTTON, "Put square again…");
  slide (room, "Brightness of the photo", 0.5);
  slide (room, "Strength of the photo", 0.25);
  slide (room, "Fade the motifs over it", 0.75);
  g_assert_cmpfloat (photo (room, 1)->brightness, ==, 0.5);
  g_assert_cmpfloat (photo (room, 1)->strength, ==, 0.25);
  g_assert_cmpfloat (hw_scene_get_photo_fade (scene), ==, 0.75);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choice (room, "Linen, not square yet")), TRUE);
  hands_settle ();
  g_assert_cmpint (shown (room), ==, 0);
  hands_find (section (room), GTK_TYPE_BUTTON, "Put square…");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choice (room, "No photo shown")), TRUE);
  hands_settle ();
  g_assert_cmpint (shown (room), ==, -1);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choice (room, "Moss, taken 2026-05-03")), TRUE);
  hands_settle ();
  g_autoptr (HwSnapshot) before = hw_scene_snapshot (scene);
  hw_bench_begin_edit (room->bench, "move", FALSE);
  slide (room, "Strength of the photo", 0.9);
  slide (room, "Fade the motifs over it", 0.1);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (choice (room, "No photo shown")), TRUE);
  room_do (room, "delete-photo", NULL);
  g_autoptr (HwSnapshot) after = hw_scene_snapshot (scene);
  g_assert_true (hw_snapshot_equal (before, after));
  hw_bench_cancel_edit (room->bench);
}

/* A photo is called otherwise, put square again, taken away; where none is shown there is nothing to do it to. */
static void
a_photo_is_renamed_and_taken_away (Room *room, gconstpointer data)
{
  room_do (room, "square-photo", NULL);
  room_do (room, "rename-photo", NULL);
  room_do (room, "delete-photo", NULL);
  g_assert_null (room_dialog (room));
  add (room, "bare-linen.png");
  room_do (room, "rename-photo", NULL);
  GtkWindow *dialog = hands_window ("Rename the photo");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field (dialog, "Name of the photo"))), ==,
                   "Bare linen");
  gtk_editable_set_text (GTK_EDITABLE (field (dialog, "Name of the photo")), " Linen, washed ");
  gtk_editable_set_text (GTK_EDITABLE (field (dialog, "Day it was taken")), "2026-13-40");
  hands_click (dialog, "Rename");
  g_assert_cmpstr (photo (room, 0)->name, ==, "Bare linen");
  gtk_editable_set_text (GTK_EDITABLE (field (dialog, "Day it was taken")), "");
  hands_click (dialog, "Rename");
  g_assert_null (room_dialog (room));
  g_assert_cmpstr (photo (room, 0)->name, ==, "Linen, washed");
  g_assert_null (photo (room, 0)->taken);
  room_do (room, "square-photo", NULL);
  GtkWindow *square = hands_window ("Put square: Linen, washed");
  g_assert_nonnull (square);
  gtk_window_destroy (square);
  hands_settle ();
  hands_find (section (room), GTK_TYPE_BUTTON, "Put square…");
  room_do (room, "delete-photo", NULL);
  g_assert_cmpuint (photos (room)->len, ==, 0);
  g_assert_cmpint (shown (room), ==, -1);
  room_do (room, "undo", NULL);
  g_assert_cmpuint (photos (room)->len, ==, 1);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/window-photos/" #test, Room, NULL, room_set_up, test, room_tear_down)
  ADD (a_photo_is_named_and_kept_in_the_scene);
  ADD (a_photo_is_kept_beside_the_scene);
  ADD (what_is_no_photo_is_told);
  ADD (a_window_that_goes_asks_nothing_more);
  ADD (a_photo_is_looked_for);
  ADD (the_list_shows_one_of_them);
  ADD (a_photo_is_renamed_and_taken_away);
  return g_test_run ();
}
