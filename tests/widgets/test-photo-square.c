/* The list of handles beside a photo that is put square: each is on a known place or on a typed one, or is taken away, and the fit follows at once. */
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <math.h>
#include <unistd.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "drawn-cloth.h"
#include "hands.h"
#include "workbench/measure-field.h"
#include "workbench/photo-desk.h"
#include "workbench/photo-square-dialog.h"
#include "workbench/photo-square-private.h"
#include "workbench/photo-view-private.h"

#define TITLE "Put square: Bare linen"

typedef struct
{
  Desk desk;
  HwPhotoDesk *photo;
} Fixture;

static void
add_photo (HwBench *bench)
{
  g_autoptr (GdkPixbuf) picture = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 400, 300);
  g_autoptr (GBytes) bytes = NULL;
  char *png = NULL;
  gsize n = 0;

  gdk_pixbuf_fill (picture, 0xd8d0c0ff);
  g_assert_true (gdk_pixbuf_save_to_buffer (picture, &png, &n, "png", NULL, NULL));
  bytes = g_bytes_new_take (png, n);
  g_assert_true (hw_bench_add_photo (bench, "/nowhere/linen.png", bytes, "Bare linen", NULL, FALSE, NULL));
}

static void
show (GtkWindow *parent, HwBench *bench)
{
  hw_photo_square_dialog_show (parent, bench, 0);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  desk_set_up (&f->desk, NULL);
  add_photo (f->desk.bench);
  desk_open (&f->desk, show, TITLE);
  f->photo = g_object_get_data (G_OBJECT (f->desk.dialog), "desk");
  while (f->photo->view == NULL)
    g_main_context_iteration (NULL, TRUE);
  hands_settle ();
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  desk_tear_down (&f->desk, NULL);
}

static const HwHandlePoint *
point (Fixture *f, guint index)
{
  return g_ptr_array_index (f->photo->squaring->points, index);
}

static const HwPhoto *
kept (Fixture *f)
{
  return g_ptr_array_index (hw_scene_get_photos (hw_bench_get_scene (f->desk.bench)), 0);
}

static void
a_handle_lies_where_it_is_typed_to_lie (Fixture *f, gconstpointer data)
{
  guint typed = f->photo->places->len;
  HwPoint before = point (f, 0)->mm;

  desk_choose (&f->desk, "Place of handle 1", typed);
  g_assert_cmpint (point (f, 0)->kind, ==, HW_KNOWN_TYPED);
  g_assert_cmpfloat (hw_point_distance (point (f, 0)->mm, before), <, 1e-9); /* begins where it was */
  desk_measure (&f->desk, "Handle 1, across from the cloth's left", "12");
  desk_measure (&f->desk, "Handle 1, down from the cloth's top", "1 in");
  g_assert_cmpfloat_with_epsilon (point (f, 0)->mm.x, 12, 1e-9);
  g_assert_cmpfloat_with_epsilon (point (f, 0)->mm.y, 25.4, 1e-9);
  hands_click (f->desk.dialog, "Put square");
  g_assert_true (desk_is_closed (&f->desk, TITLE));
  g_assert_cmpuint (kept (f)->n_points, ==, 4);
  g_assert_cmpfloat_with_epsilon (kept (f)->points[0].mm.x, 12, 1e-9);
  g_assert_cmpfloat_with_epsilon (kept (f)->points[0].mm.y, 25.4, 1e-9);
}

static void
a_handle_is_put_on_a_place_of_the_list (Fixture *f, gconstpointer data)
{
  const HwKnownPlace *third = g_ptr_array_index (f->photo->places, 2);

  desk_choose (&f->desk, "Place of handle 1", f->photo->places->len);
  desk_measure (&f->desk, "Handle 1, across from the cloth's left", "12");
  desk_choose (&f->desk, "Place of handle 1", 2);
  g_assert_cmpint (point (f, 0)->kind, ==, third->kind);
  g_assert_cmpfloat (hw_point_distance (point (f, 0)->mm, third->mm), <, 1e-9);
}

static void
three_handles_are_too_few (Fixture *f, gconstpointer data)
{
  HwPoint second = point (f, 1)->px;

  g_assert_true (gtk_widget_get_sensitive (f->photo->take));
  hands_click (f->desk.dialog, "Take handle 1 away");
  hands_settle ();
  g_assert_cmpuint (f->photo->squaring->points->len, ==, 3);
  g_assert_cmpfloat (hw_point_distance (point (f, 0)->px, second), <, 1e-9);
  g_assert_false (gtk_widget_get_sensitive (f->photo->take));
  gtk_window_close (f->desk.dialog);
  g_assert_true (desk_is_closed (&f->desk, TITLE));
  g_assert_cmpuint (kept (f)->n_points, ==, 0);
}

/* A row of the list and its handle in the photo belong together. */
static void
the_row_at_work_chooses_its_handle (Fixture *f, gconstpointer data)
{
  gtk_widget_grab_focus (hands_find (f->desk.dialog, GTK_TYPE_BUTTON, "Take handle 3 away"));
  hands_settle ();
  g_assert_cmpint (f->photo->view->chosen, ==, 2);
}

/* One more comes to the middle of what is seen, on the first place that is free. */
static void
one_more_handle_takes_a_free_place (Fixture *f, gconstpointer data)
{
  guint n = f->photo->squaring->points->len;

  hands_click (f->desk.dialog, "One more handle");
  g_assert_cmpuint (f->photo->squaring->points->len, ==, n + 1);
  g_assert_cmpfloat_with_epsilon (point (f, n)->px.x, 200, 1);
  g_assert_cmpfloat_with_epsilon (point (f, n)->px.y, 150, 1);
  for (guint i = 0; i < n; i++)
    g_assert_cmpfloat (hw_point_distance (point (f, i)->mm, point (f, n)->mm), >, 0.05);
  /* Where all places have a handle, one is typed. */
  while (f->photo->squaring->points->len < f->photo->places->len)
    hands_click (f->desk.dialog, "One more handle");
  hands_click (f->desk.dialog, "One more handle");
  g_assert_cmpint (point (f, f->photo->squaring->points->len - 1)->kind, ==, HW_KNOWN_TYPED);
}

/* On bare linen there is no sheet: its handles lie in the middle, for the person to put; another paper keeps them where they are. */
static void
where_no_sheet_is_found_its_handles_lie_in_the_middle (Fixture *f, gconstpointer data)
{
  HwPoint corners[4];
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  hands_click (f->desk.dialog, "Find it");
  while (!gtk_widget_get_sensitive (f->photo->find_sheet))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, TRUE);
    }
  hands_settle ();
  g_autofree char *told = desk_sentence (&f->desk, "No sheet was found to be sure of.");
  g_assert_nonnull (told);
  g_assert_cmpuint (f->photo->squaring->points->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      corners[i] = point (f, i)->px;
      g_assert_cmpint (point (f, i)->kind, ==, HW_KNOWN_SHEET);
      g_assert_cmpfloat (fabs (corners[i].x - 200), <, 100);
      g_assert_cmpfloat (fabs (corners[i].y - 150), <, 75);
    }
  HwPoint mm = point (f, 2)->mm;
  desk_choose (&f->desk, "Size of the sheet", 1);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat (hw_point_distance (point (f, i)->px, corners[i]), <, 1e-9);
  g_assert_cmpfloat (hw_point_distance (point (f, 2)->mm, mm), >, 1);
  /* A corner of the sheet that is typed a place begins where it lies on the cloth. */
  hw_squaring_solve (f->photo->squaring, FALSE);
  gboolean good = f->photo->squaring->good;
  HwPoint lies = good ? hw_homography_apply (&f->photo->squaring->h, corners[0]) : (HwPoint){ 0, 0 };
  desk_choose (&f->desk, "Place of handle 1", f->photo->places->len);
  g_assert_cmpint (point (f, 0)->kind, ==, HW_KNOWN_TYPED);
  g_assert_cmpfloat (hw_point_distance (point (f, 0)->mm, lies), <, 0.5);
}

/* No mark is drawn on bare linen: that is said. */
static void
marks_that_are_not_there_are_not_found (Fixture *f, gconstpointer data)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  char *said;

  hands_click (f->desk.dialog, "Look for the drawn marks");
  while ((said = desk_sentence (&f->desk, "None was found near where it should be.")) == NULL)
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, TRUE);
    }
  g_free (said);
  g_assert_cmpuint (f->photo->squaring->points->len, ==, 4);
}

/* The cloth of 600 by 400 mm, 2 px to a mm; the marks of the first hooping stitched are drawn on it, drawn in by 2 % when it was measured. */
typedef struct
{
  DrawnCloth cloth;
  HwPhotoSquare *square;
} Marked;

static Marked
show_marked (Fixture *f, double drawn_in, gboolean sheet)
{
  Marked marked = { .cloth = { .scale = 2, .origin = { 60, 60 }, .width = 1300, .height = 900 } };
  g_autofree char *path = NULL, *png = NULL;
  g_autoptr (GBytes) bytes = NULL;
  const HwPin *pin;
  gsize n;
  int file = g_file_open_tmp ("hoopwright-XXXXXX.png", &path, NULL);

  g_assert_cmpint (file, >=, 0);
  close (file);
  gtk_window_close (f->desk.dialog);
  g_assert_true (hw_bench_mark_stitched (f->desk.bench, 0));
  wait_for_plan (f->desk.bench);
  pin = g_ptr_array_index (hw_scene_get_frozen (hw_bench_get_scene (f->desk.bench)), 0);
  for (guint i = 0; i < pin->n_marks; i++)
    marked.cloth.crosses[marked.cloth.n_crosses++]
        = (HwPoint){ (1 - drawn_in) * pin->marks[i].at.x, (1 - drawn_in) * pin->marks[i].at.y };
  if (sheet)
    {
      marked.cloth.sheet = (HwPoint){ 240, 60 };
      marked.cloth.sheet_wide = 210;
      marked.cloth.sheet_high = 297;
    }
  drawn_save (&marked.cloth, path);
  g_assert_true (g_file_get_contents (path, &png, &n, NULL));
  g_remove (path);
  bytes = g_bytes_new (png, n);
  hw_bench_delete_photo (f->desk.bench, 0);
  g_assert_true (
      hw_bench_add_photo (f->desk.bench, "/nowhere/linen.png", bytes, "Bare linen", NULL, FALSE, NULL));
  desk_open (&f->desk, show, TITLE);
  f->photo = g_object_get_data (G_OBJECT (f->desk.dialog), "desk");
  marked.square = (HwPhotoSquare *)f->photo;
  while (f->photo->view == NULL)
    g_main_context_iteration (NULL, TRUE);
  hands_settle ();
  return marked;
}

/* Every handle is dragged to where its place is seen. */
static void
put_handles (Fixture *f, const DrawnCloth *cloth)
{
  for (guint i = 0; i < f->photo->squaring->points->len; i++)
    {
      HwHandlePoint *handle = g_ptr_array_index (f->photo->squaring->points, i);

      handle->px = drawn_px (cloth, handle->mm);
    }
  g_signal_emit_by_name (f->photo->view, "moved", 0);
  hands_settle ();
}

static void
look (Fixture *f, HwPhotoSquare *square)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  hands_click (f->desk.dialog, "Look for the drawn marks");
  while (!gtk_widget_is_sensitive (square->look))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, TRUE);
    }
  hands_settle ();
}

/* Marks that are found are offered, and become handles only when the person says so; one that is not ticked stays out. */
static void
marks_that_are_found_become_handles (Fixture *f, gconstpointer data)
{
  Marked marked = show_marked (f, 0, FALSE);
  HwPhotoSquare *square = marked.square;
  guint before;

  put_handles (f, &marked.cloth);
  before = f->photo->squaring->points->len;
  look (f, square);
  g_assert_cmpuint (square->ticks->len, ==, marked.cloth.n_crosses);
  g_autofree char *told
      = desk_sentence (&f->desk, "Look at each in the photo, and tick those that are right.");
  g_assert_nonnull (told);
  g_assert_cmpuint (f->photo->view->spots->len, ==, marked.cloth.n_crosses);
  for (guint i = 0; i < square->ticks->len; i++)
    {
      const char *text = gtk_check_button_get_label (g_ptr_array_index (square->ticks, i));

      g_assert_true (gtk_check_button_get_active (g_ptr_array_index (square->ticks, i)));
      g_assert_nonnull (strstr (text, ": sure, "));
    }
  gtk_check_button_set_active (g_ptr_array_index (square->ticks, 0), FALSE);
  g_assert_cmpuint (f->photo->view->spots->len, ==, marked.cloth.n_crosses - 1);
  gtk_check_button_set_active (g_ptr_array_index (square->ticks, 1), FALSE);
  g_assert_false (gtk_widget_is_sensitive (square->use_marks));
  gtk_check_button_set_active (g_ptr_array_index (square->ticks, 1), TRUE);
  /* Looked for again, what was found before goes. */
  look (f, square);
  g_assert_cmpuint (square->ticks->len, ==, marked.cloth.n_crosses);
  hands_click (f->desk.dialog, "Use those ticked as handles");
  g_assert_cmpuint (square->ticks->len, ==, 0);
  g_assert_false (gtk_widget_get_visible (square->marks));
  g_assert_cmpuint (f->photo->squaring->points->len, >, before);
  for (guint i = before; i < f->photo->squaring->points->len; i++)
    {
      g_assert_cmpint (point (f, i)->kind, ==, HW_KNOWN_MARK);
      g_assert_cmpfloat (hw_point_distance (point (f, i)->px, drawn_px (&marked.cloth, point (f, i)->mm)), <,
                         1);
    }
  g_assert_false (gtk_widget_get_visible (square->follow));
}

/* With a sheet of paper beside them they tell what the cloth drew in, and what is not stitched follows in one go with the photo put square. */
static void
beside_a_sheet_they_tell_what_the_cloth_drew_in (Fixture *f, gconstpointer data)
{
  Marked marked = show_marked (f, 0.02, TRUE);
  HwPhotoSquare *square = marked.square;
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  HwPoint before = hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (f->desk.bench), "m3"))
                       ->placement.position;

  hands_click (f->desk.dialog, "Find it");
  while (!gtk_widget_get_sensitive (f->photo->find_sheet))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, TRUE);
    }
  hands_settle ();
  g_autofree char *told
      = desk_sentence (&f->desk, "Look whether the four handles lie on the corners of the sheet");
  g_assert_nonnull (told);
  g_assert_false (gtk_widget_get_visible (square->follow));
  desk_measure (&f->desk, "Sheet's corner, across from the cloth's left", "240");
  desk_measure (&f->desk, "Sheet's corner, down from the cloth's top", "60");
  g_assert_cmpfloat (f->photo->squaring->sheet_at.x, ==, 240);
  look (f, square);
  g_assert_true (gtk_widget_get_visible (square->follow));
  g_autofree char *drawn
      = desk_sentence (&f->desk, "By the sheet of paper and the marks that are ticked: Drawn in 2.");
  g_assert_nonnull (drawn);
  hands_click (f->desk.dialog, "Let the rest follow the cloth");
  g_assert_true (desk_is_closed (&f->desk, TITLE));
  g_assert_cmpuint (kept (f)->n_points, >=, 4);
  HwPoint after = hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (f->desk.bench), "m3"))
                      ->placement.position;
  /* Quince lies 425 mm from the middle of what is stitched. */
  g_assert_cmpfloat_with_epsilon (before.x - after.x, 0.02 * 425, 1.5);
}

#define ADD(test) g_test_add ("/photo-square/" #test, Fixture, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
  ADD (a_handle_lies_where_it_is_typed_to_lie);
  ADD (a_handle_is_put_on_a_place_of_the_list);
  ADD (three_handles_are_too_few);
  ADD (the_row_at_work_chooses_its_handle);
  ADD (one_more_handle_takes_a_free_place);
  ADD (where_no_sheet_is_found_its_handles_lie_in_the_middle);
  ADD (marks_that_are_not_there_are_not_found);
  ADD (marks_that_are_found_become_handles);
  ADD (beside_a_sheet_they_tell_what_the_cloth_drew_in);
  return g_test_run ();
}
