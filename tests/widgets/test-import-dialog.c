/* The question about a file that does not say how large it is, or has several pages: what is typed, drawn and chosen is what comes in. */
#include <cairo-pdf.h>
#include <glib/gstdio.h>
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "workbench/artwork-view.h"
#include "workbench/import-dialog.h"

typedef struct
{
  Desk desk;
  char *folder, *path;
  guint answers;
  HwMotifFile *answer;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  desk_set_up (&f->desk, NULL);
  f->folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  desk_tear_down (&f->desk, NULL);
  g_clear_pointer (&f->answer, hw_motif_file_free);
  g_remove (f->path);
  g_rmdir (f->folder);
  g_free (f->path);
  g_free (f->folder);
}

static void
answered (HwMotifFile *file, gpointer data)
{
  Fixture *f = data;

  f->answers++;
  f->answer = file;
}

static void
open (Fixture *f, const char *title)
{
  HwMotifFile *file = hw_motif_file_new (f->path);

  hw_motif_file_read (file);
  hw_import_dialog_show (f->desk.parent, f->desk.bench, file, answered, f);
  f->desk.dialog = hands_window (title);
  g_assert_nonnull (f->desk.dialog);
}

static void
wait_for (Fixture *f, const char *beginning)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  for (;;)
    {
      g_autofree char *said = desk_sentence (&f->desk, beginning);

      if (said != NULL)
        return;
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
}

static void
wait_for_answer (Fixture *f)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (f->answers == 0)
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
  g_assert_cmpuint (f->answers, ==, 1);
}

/* A leaf 240 pixels wide on 300 x 200 of nothing, and no word of how large they are. */
static void
draw_picture (Fixture *f)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 300, 200);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 0.2, 0.4, 0.1);
  cairo_rectangle (cr, 30, 20, 240, 160);
  cairo_fill (cr);
  cairo_destroy (cr);
  f->path = g_build_filename (f->folder, "leaf.png", NULL);
  cairo_surface_write_to_png (surface, f->path);
  cairo_surface_destroy (surface);
}

/* Three pages, with a square of 20, 30 and 40 mm. */
static void
draw_pages (Fixture *f)
{
  cairo_surface_t *surface;
  cairo_t *cr;
  double mm = 72 / 25.4;

  f->path = g_build_filename (f->folder, "squares.pdf", NULL);
  surface = cairo_pdf_surface_create (f->path, 100 * mm, 100 * mm);
  cr = cairo_create (surface);
  for (guint i = 0; i < 3; i++)
    {
      cairo_set_source_rgb (cr, 0.2, 0.4, 0.1);
      cairo_rectangle (cr, 10 * mm, 10 * mm, (20 + 10 * i) * mm, (20 + 10 * i) * mm);
      cairo_fill (cr);
      cairo_show_page (cr);
    }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static double
width (Fixture *f)
{
  g_assert_nonnull (f->answer);
  g_assert_nonnull (f->answer->motif);
  return f->answer->motif->outline->box.x1 - f->answer->motif->outline->box.x0;
}

static double
field (Fixture *f, const char *name)
{
  return gtk_spin_button_get_value (
      GTK_SPIN_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_SPIN_BUTTON, name)));
}

/* 300 pixels that are 60 mm wide are 5 to the millimetre, and 40 mm high. */
static void
the_width_says_how_large_it_is (Fixture *f, gconstpointer data)
{
  draw_picture (f);
  open (f, "How large is it");
  wait_for (f, "So the whole picture is ");
  desk_measure (&f->desk, "Width of the whole picture", "60");
  g_assert_cmpfloat_with_epsilon (field (f, "Pixels to a millimetre"), 5, 1e-3);
  desk_says (&f->desk, "So the whole picture is 60.0 mm wide and 40.0 mm high.");
  desk_measure (&f->desk, "Pixels to a millimetre", "10");
  g_assert_cmpfloat_with_epsilon (field (f, "Width of the whole picture"), 30, 1e-3);
  hands_click (f->desk.dialog, "Add the motif");
  wait_for_answer (f);
  g_assert_cmpfloat_with_epsilon (width (f), 24, 0.5);
}

/* A line over half its width that is 25 mm long: so it is 50 mm wide. The end in the hand can be taken again. */
static void
a_line_of_known_length_says_it_too (Fixture *f, gconstpointer data)
{
  const double css = 96 / 25.4; /* pixels to the mm while nothing is known */
  GtkWidget *view;
  HwPoint from, to;

  draw_picture (f);
  open (f, "How large is it");
  wait_for (f, "So the whole picture is ");
  view = hands_find (f->desk.dialog, GTK_TYPE_WIDGET, "The picture");
  g_assert_false (
      gtk_widget_is_sensitive (hands_find (f->desk.dialog, GTK_TYPE_SPIN_BUTTON, "Length of the line")));
  from = hw_view_to_pixels (hw_artwork_view_get_view (HW_ARTWORK_VIEW (view)),
                            (HwPoint){ 75 / css, 100 / css });
  to = hw_view_to_pixels (hw_artwork_view_get_view (HW_ARTWORK_VIEW (view)),
                          (HwPoint){ 225 / css, 100 / css });
  hands_pointer (view, "press", from.x, from.y);
  hands_pointer (view, "move", (from.x + to.x) / 2, to.y + 20);
  hands_pointer (view, "move", to.x, to.y + 60);
  hands_pointer (view, "release", to.x, to.y + 60);
  hands_pointer (view, "press", to.x, to.y + 60);
  hands_pointer (view, "move", to.x, to.y + 30);
  hands_pointer (view, "move", to.x, to.y);
  hands_pointer (view, "release", to.x, to.y);
  g_assert_true (
      gtk_widget_is_sensitive (hands_find (f->desk.dialog, GTK_TYPE_SPIN_BUTTON, "Length of the line")));
  desk_measure (&f->desk, "Length of the line", "25");
  g_assert_cmpfloat_with_epsilon (field (f, "Width of the whole picture"), 50, 0.5);
  hands_click (f->desk.dialog, "Add the motif");
  wait_for_answer (f);
  g_assert_cmpfloat_with_epsilon (width (f), 40, 1);
}

static void
a_page_is_chosen_by_what_is_on_it (Fixture *f, gconstpointer data)
{
  draw_pages (f);
  open (f, "Which page");
  wait_for (f, "What is drawn on it is 20.0 mm wide");
  desk_measure (&f->desk, "Page", "3");
  wait_for (f, "What is drawn on it is 40.0 mm wide");
  desk_measure (&f->desk, "Page", "2");
  wait_for (f, "What is drawn on it is 30.0 mm wide");
  hands_click (f->desk.dialog, "Add the motif");
  wait_for_answer (f);
  g_assert_cmpfloat_with_epsilon (width (f), 30, 0.5);
}

/* Added before the page is there, it is the page that was asked for last. */
static void
added_in_a_hurry_it_is_still_the_right_page (Fixture *f, gconstpointer data)
{
  draw_pages (f);
  open (f, "Which page");
  desk_measure (&f->desk, "Page", "2");
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_SPIN_BUTTON, "Page")), 3);
  g_signal_emit_by_name (hands_find (f->desk.dialog, GTK_TYPE_BUTTON, "Add the motif"), "clicked");
  wait_for_answer (f);
  g_assert_cmpfloat_with_epsilon (width (f), 40, 0.5);
}

/* However it is left, it is answered just once. */
static void
left_out_closed_or_gone_it_is_answered_once (Fixture *f, gconstpointer data)
{
  draw_picture (f);
  open (f, "How large is it");
  hands_click (f->desk.dialog, "Leave it out");
  g_assert_cmpuint (f->answers, ==, 1);
  g_assert_null (f->answer);
  open (f, "How large is it");
  gtk_window_close (f->desk.dialog);
  hands_settle ();
  g_assert_cmpuint (f->answers, ==, 2);
  open (f, "How large is it");
  gtk_window_destroy (f->desk.dialog);
  hands_settle ();
  g_assert_cmpuint (f->answers, ==, 3);
  g_assert_null (f->answer);
}

/* A file that goes while it is asked about cannot be added: it says why and stays open. */
static void
a_file_that_goes_is_told (Fixture *f, gconstpointer data)
{
  draw_picture (f);
  open (f, "How large is it");
  wait_for (f, "So the whole picture is ");
  g_remove (f->path);
  hands_click (f->desk.dialog, "Add the motif");
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;
  GtkWidget *add = hands_find (f->desk.dialog, GTK_TYPE_BUTTON, "Add the motif");
  while (!gtk_widget_get_sensitive (add))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
  g_assert_cmpuint (f->answers, ==, 0);
  hands_click (f->desk.dialog, "Leave it out");
  g_assert_cmpuint (f->answers, ==, 1);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/import-dialog/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (the_width_says_how_large_it_is);
  ADD (a_line_of_known_length_says_it_too);
  ADD (a_page_is_chosen_by_what_is_on_it);
  ADD (added_in_a_hurry_it_is_still_the_right_page);
  ADD (left_out_closed_or_gone_it_is_answered_once);
  ADD (a_file_that_goes_is_told);
  return g_test_run ();
}
