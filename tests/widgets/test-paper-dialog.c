/* The paper on its way out: saved where it was asked for and told so, and not at all when one goes back or stops. */
#include <glib/gstdio.h>

#include "../folders.h"
#include "dialog-fixture.h"
#include "window-fixture.h"
#include "workbench/paper-dialog-private.h"
#include "workbench/paper-dialog.h"

#define TITLE "On paper"

typedef struct
{
  Desk desk;
  HwPaperDialog *paper;
  gpointer alive; /* the dialog, as long as it is */
  char *folder;
} Fixture;

static gboolean
is_ready (Fixture *f)
{
  return gtk_widget_is_sensitive (f->paper->save) && !f->paper->laying;
}

static void
set_up (Fixture *f, gconstpointer data)
{
  desk_set_up (&f->desk, NULL);
  f->folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  desk_open (&f->desk, hw_paper_dialog_show, TITLE);
  f->paper = hw_paper_dialog_of (f->desk.dialog);
  f->alive = f->desk.dialog;
  g_object_add_weak_pointer (G_OBJECT (f->desk.dialog), &f->alive);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  /* What a thread still does for it holds the dialog; the window it is over outlives it here. */
  if (f->alive != NULL && hands_window (TITLE) != NULL)
    gtk_window_destroy (f->desk.dialog);
  room_until (f->alive == NULL);
  desk_tear_down (&f->desk, NULL);
  folder_remove (f->folder);
  g_free (f->folder);
}

/* Answers the question for a place with that name in the folder; NULL: goes back. */
static void
answer (Fixture *f, const char *name)
{
  g_autofree char *path = name != NULL ? g_build_filename (f->folder, name, NULL) : NULL;

  room_pick (path);
}

static gboolean
is_there (Fixture *f, const char *name)
{
  g_autofree char *path = g_build_filename (f->folder, name, NULL);

  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static gboolean
says (Fixture *f, const char *beginning)
{
  return gtk_widget_get_visible (f->paper->trouble)
         && g_str_has_prefix (gtk_label_get_text (GTK_LABEL (f->paper->trouble)), beginning);
}

static void
it_is_saved_where_it_was_asked_for (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->save, "clicked");
  hands_settle ();
  answer (f, "orchard.pdf");
  room_until (says (f, "Saved as “orchard.pdf”."));
  g_assert_true (is_there (f, "orchard.pdf"));
  g_assert_false (gtk_widget_has_css_class (f->paper->trouble, "trouble"));
  g_assert_true (is_ready (f));
}

static void
going_back_saves_nothing (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->save, "clicked");
  hands_settle ();
  answer (f, NULL);
  hands_settle ();
  g_assert_null (f->paper->writing);
  g_assert_false (gtk_widget_get_visible (f->paper->trouble));
  g_assert_true (is_ready (f));
}

/* The file's name tells the scene and the paper; of a scene without a name that it has none. */
static void
the_name_tells_what_it_is (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->save, "clicked");
  hands_settle ();
  g_autofree char *name = gtk_file_chooser_get_current_name (room_chooser ());
  g_assert_true (g_str_has_suffix (name, ".pdf"));
  answer (f, NULL);
  hands_settle ();
  g_signal_emit_by_name (f->paper->truth, "save-test");
  hands_settle ();
  g_autofree char *test = gtk_file_chooser_get_current_name (room_chooser ());
  g_assert_cmpstr (test, !=, name);
  answer (f, "test.pdf");
  room_until (says (f, "Saved as “test.pdf”."));
  g_assert_true (is_there (f, "test.pdf"));
}

/* Stopped at once: either it was written already, or nothing of it is there. */
static void
stopped_it_leaves_nothing_half (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->save, "clicked");
  hands_settle ();
  answer (f, "orchard.pdf");
  room_until (f->paper->writing != NULL || says (f, "Saved as"));
  g_signal_emit_by_name (f->paper->busy, "stop");
  room_until (f->paper->writing == NULL);
  g_assert_true (says (f, is_there (f, "orchard.pdf") ? "Saved as" : "Stopped; nothing was saved."));
  g_assert_true (is_ready (f));
}

/* While it is written nothing else is begun; closed meanwhile, the dialog says no more. */
static void
closed_while_it_is_written (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->save, "clicked");
  hands_settle ();
  answer (f, "orchard.pdf");
  room_until (f->paper->writing != NULL || says (f, "Saved as"));
  hw_paper_dialog_put_out (f->paper, FALSE, TRUE);
  if (f->paper->writing != NULL)
    g_assert_null (f->paper->operation);
  gtk_window_destroy (f->desk.dialog);
  room_wait (200);
  g_assert_true (desk_is_closed (&f->desk, TITLE));
}

/* Pages that take too long are given up, until another paper is chosen. */
static void
laying_out_may_be_stopped (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->choices, "changed");
  g_assert_true (f->paper->laying);
  g_signal_emit_by_name (f->paper->busy, "stop");
  g_assert_true (says (f, "Stopped. Choose a paper"));
  room_until (!f->paper->laying);
  g_assert_false (gtk_widget_is_sensitive (f->paper->save));
  g_signal_emit_by_name (f->paper->choices, "changed");
  room_until (is_ready (f));
  g_assert_false (says (f, "Stopped"));
}

/* What a thread still does for it holds the dialog, when the window it stood over is gone. */
static void
the_window_may_go_before_the_pages_are_there (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  g_signal_emit_by_name (f->paper->choices, "changed");
  g_assert_true (f->paper->laying);
  if (GPOINTER_TO_INT (data))
    gtk_window_destroy (f->desk.dialog);
  gtk_window_destroy (f->desk.parent);
  g_assert_null (hands_window (TITLE));
  g_assert_nonnull (f->alive);
  room_until (f->alive == NULL);
  f->desk.parent = GTK_WINDOW (gtk_window_new ());
}

/* The paper follows the plan; with no plan at hand there is nothing to print. */
static void
it_follows_the_plan (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  HwPlan *before = f->paper->shown;
  hw_bench_select_only (f->desk.bench, "m1");
  hw_bench_nudge (f->desk.bench, 20, 0);
  room_until (f->paper->shown != before && is_ready (f));
  g_assert_true (f->paper->shown == hw_bench_get_plan (f->desk.bench));
}

static GtkWindow *
print_question (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (g_str_equal (G_OBJECT_TYPE_NAME (window), "GtkPrintUnixDialog")
          && gtk_widget_get_visible (GTK_WIDGET (window)))
        return window;
    }
  return NULL;
}

/* Going back from the printers prints nothing and leaves everything as it was, with the pages and with the test sheet. */
static void
going_back_from_the_printers_prints_nothing (Fixture *f, gconstpointer data)
{
  room_until (is_ready (f));
  for (guint i = 0; i < 2; i++)
    {
      if (i == 0)
        g_signal_emit_by_name (f->paper->print, "clicked");
      else
        g_signal_emit_by_name (f->paper->truth, "print-test");
      room_until (print_question () != NULL);
      gtk_dialog_response (GTK_DIALOG (print_question ()), GTK_RESPONSE_CANCEL);
      room_until (f->paper->operation == NULL && is_ready (f));
      g_assert_false (gtk_widget_get_visible (f->paper->trouble));
    }
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/paper-dialog/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (it_is_saved_where_it_was_asked_for);
  ADD (going_back_saves_nothing);
  ADD (the_name_tells_what_it_is);
  ADD (stopped_it_leaves_nothing_half);
  ADD (closed_while_it_is_written);
  ADD (laying_out_may_be_stopped);
  g_test_add ("/paper-dialog/the_window_goes", Fixture, GINT_TO_POINTER (FALSE), set_up,
              the_window_may_go_before_the_pages_are_there, tear_down);
  g_test_add ("/paper-dialog/both_windows_go", Fixture, GINT_TO_POINTER (TRUE), set_up,
              the_window_may_go_before_the_pages_are_there, tear_down);
  ADD (it_follows_the_plan);
  ADD (going_back_from_the_printers_prints_nothing);
  return g_test_run ();
}
