/* What is taken along: just what is chosen is written, into the chosen folder, and nothing that is there is replaced without a question. */
#include <glib/gstdio.h>

#include "../folders.h"
#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "window-fixture.h"
#include "workbench/busy-row.h"
#include "workbench/handout-dialog.h"
#include "workbench/settings.h"

#define TITLE "Take along"

typedef struct
{
  Desk desk;
  char *folder;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;

  desk_set_up (&f->desk, NULL);
  f->folder = g_dir_make_tmp ("hoopwright-XXXXXX", &error);
  g_assert_no_error (error);
  path = g_build_filename (f->folder, "orchard.hoopscene", NULL);
  hw_bench_save (f->desk.bench, path, &error);
  g_assert_no_error (error);
  desk_open (&f->desk, hw_handout_dialog_show, TITLE);
}

static guint
count_files (Fixture *f, const char *suffix)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    n += g_str_has_suffix (name, suffix);
  return n;
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  desk_tear_down (&f->desk, NULL);
  folder_remove (f->folder);
  g_free (f->folder);
}

static void
set (Fixture *f, const char *check, gboolean on)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_CHECK_BUTTON, check)),
                               on);
  hands_settle ();
}

static gboolean
can_save (Fixture *f)
{
  return gtk_widget_is_sensitive (hands_find (f->desk.dialog, GTK_TYPE_BUTTON, "Save"));
}

/* All lists off: what is left on is what the test is about. */
static void
no_lists (Fixture *f)
{
  static const char *const lists[] = { "Hoopings", "Threads", "Marks", "What to buy" };

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    set (f, lists[i], FALSE);
}

static char *
until_said (Fixture *f, const char *beginning)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  for (;;)
    {
      char *said = desk_sentence (&f->desk, beginning);

      if (said != NULL)
        return said;
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (2000);
    }
}

static void
only_what_is_chosen_is_written (Fixture *f, gconstpointer data)
{
  g_autofree char *said = NULL;

  no_lists (f);
  set (f, "Of these hoopings:", FALSE);
  desk_choose (&f->desk, "A picture", 2);
  hands_click (f->desk.dialog, "Save");
  said = until_said (f, "1 file was saved in");
  g_assert_cmpuint (count_files (f, ".svg"), ==, 1);
  g_assert_cmpuint (count_files (f, ".csv"), ==, 0);
}

static void
with_nothing_chosen_there_is_nothing_to_save (Fixture *f, gconstpointer data)
{
  GtkWidget *footprints = hands_find (f->desk.dialog, GTK_TYPE_CHECK_BUTTON, "with the hoopings");

  no_lists (f);
  g_assert_true (can_save (f));
  set (f, "The picture", FALSE);
  g_assert_false (gtk_widget_is_sensitive (footprints));
  g_assert_true (can_save (f));
  /* The last of the hoopings goes: none is left. */
  set (f, "Hooping 1: Pear, Plum", FALSE);
  g_assert_true (can_save (f));
  set (f, "Hooping 2: Quince", FALSE);
  g_assert_false (can_save (f));
  set (f, "Hooping 2: Quince", TRUE);
  g_assert_true (can_save (f));
  set (f, "Of these hoopings:", FALSE);
  g_assert_false (can_save (f));
  set (f, "The picture", TRUE);
  g_assert_true (gtk_widget_is_sensitive (footprints));
  g_assert_true (can_save (f));
}

/* The motifs have no needle lists: that is said, and the others are written. */
static void
what_cannot_be_written_is_told (Fixture *f, gconstpointer data)
{
  g_autofree char *said = NULL;

  no_lists (f);
  set (f, "The picture", FALSE);
  desk_choose (&f->desk, "Needle lists", 1);
  hands_click (f->desk.dialog, "Save");
  said = until_said (f, "Nothing was saved.");
  g_assert_nonnull (strstr (said, "\n"));
  g_assert_cmpuint (count_files (f, ".svg"), ==, 0);
  g_assert_true (can_save (f));
}

/* Going back leaves what is there; only the answer to the question replaces it. */
static void
what_is_there_is_not_replaced_without_a_question (Fixture *f, gconstpointer data)
{
  g_autofree char *first = NULL, *second = NULL;

  no_lists (f);
  set (f, "Of these hoopings:", FALSE);
  desk_choose (&f->desk, "A picture", 2);
  hands_click (f->desk.dialog, "Save");
  first = until_said (f, "1 file was saved in");
  set (f, "with the hoopings", FALSE);
  hands_click (f->desk.dialog, "Save");
  GListModel *windows = gtk_window_get_toplevels ();
  guint n = g_list_model_get_n_items (windows);
  GtkWindow *question = NULL;
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (gtk_window_get_transient_for (window) == f->desk.dialog)
        question = window;
    }
  g_assert_nonnull (question);
  hands_click (question, "Go back");
  g_assert_cmpuint (g_list_model_get_n_items (windows), ==, n - 1);
  hands_click (f->desk.dialog, "Save");
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (gtk_window_get_transient_for (window) == f->desk.dialog)
        question = window;
    }
  hands_click (question, "Replace");
  second = until_said (f, "1 file was saved in");
  g_assert_cmpuint (count_files (f, ".svg"), ==, 1);
}

/* A hooping more has a check more, and what was chosen of the others is kept. */
static void
the_choice_follows_the_plan (Fixture *f, gconstpointer data)
{
  const char *pair[] = { "m1", "m2", NULL };

  no_lists (f);
  set (f, "The picture", FALSE);
  set (f, "Hooping 1: Pear, Plum", FALSE);
  hw_bench_select_ids (f->desk.bench, pair);
  hw_bench_keep_apart (f->desk.bench);
  wait_for_plan (f->desk.bench);
  hands_settle ();
  guint n = hw_bench_get_plan (f->desk.bench)->n_hoopings;
  g_assert_cmpuint (n, ==, 3);
  g_assert_true (gtk_check_button_get_active (
      GTK_CHECK_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_CHECK_BUTTON, "Hooping 3: Quince"))));
  hw_bench_undo (f->desk.bench);
  wait_for_plan (f->desk.bench);
  hands_settle ();
  g_assert_false (gtk_check_button_get_active (
      GTK_CHECK_BUTTON (hands_find (f->desk.dialog, GTK_TYPE_CHECK_BUTTON, "Hooping 1: Pear, Plum"))));
}

static GtkWidget *
busy_row (Fixture *f)
{
  return room_first (f->desk.dialog, HW_TYPE_BUSY_ROW);
}

/* Stopped at once: what was written is told, and that the others were not. */
static void
stopped_it_tells_what_was_saved (Fixture *f, gconstpointer data)
{
  hands_click (f->desk.dialog, "Save");
  g_assert_false (can_save (f));
  g_signal_emit_by_name (busy_row (f), "stop");
  room_until (can_save (f));
  g_autofree char *some = desk_sentence (&f->desk, "Nothing was saved. It was stopped before the others.");
  if (some == NULL)
    {
      g_assert_cmpuint (count_files (f, ""), >, 1);
    }
  else
    g_assert_cmpuint (count_files (f, ""), ==, 1); /* the scene itself */
}

/* Closed while it is written, the dialog says no more, and what is there is whole. */
static void
closed_while_it_is_written (Fixture *f, gconstpointer data)
{
  hands_click (f->desk.dialog, "Save");
  gtk_window_destroy (f->desk.dialog);
  room_wait (300);
  g_assert_true (desk_is_closed (&f->desk, TITLE));
}

/* It begins beside the scene; another folder is chosen, or not. */
static void
another_folder_is_chosen (Fixture *f, gconstpointer data)
{
  g_autofree char *base = g_path_get_basename (f->folder),
                  *other = g_build_filename (f->folder, "shed", NULL);
  g_autofree char *words = g_strdup_printf ("Folder: %s. Choose another", base);

  g_assert_cmpint (g_mkdir (other, 0700), ==, 0);
  hands_click (f->desk.dialog, words);
  room_pick (NULL);
  hands_click (f->desk.dialog, words);
  room_pick (other);
  hands_find (f->desk.dialog, GTK_TYPE_BUTTON, "Folder: shed. Choose another");
}

/* A scene with no file is taken along to where one was last, else to the person's own folder. */
static void
without_a_file_it_begins_where_one_was_last (Fixture *f, gconstpointer data)
{
  g_autoptr (HwBench) bench = bench_with_orchard ();
  g_autofree char *base = g_path_get_basename (f->folder);
  g_autofree char *words = g_strdup_printf ("Folder: %s. Choose another", base);
  g_autofree char *gone = g_build_filename (f->folder, "gone", NULL);

  gtk_window_destroy (f->desk.dialog);
  hw_settings_set_text (HW_SETTING_LAST_FOLDER, f->folder);
  desk_open (&f->desk, hw_handout_dialog_show, TITLE);
  gtk_window_destroy (f->desk.dialog);
  hw_handout_dialog_show (f->desk.parent, bench);
  f->desk.dialog = hands_window (TITLE);
  hands_find (f->desk.dialog, GTK_TYPE_BUTTON, words);
  wait_for_plan (bench);
  hands_settle ();
  g_assert_true (can_save (f));
  gtk_window_destroy (f->desk.dialog);
  for (guint i = 0; i < 2; i++)
    {
      hw_settings_set_text (HW_SETTING_LAST_FOLDER, i == 0 ? gone : "");
      hw_handout_dialog_show (f->desk.parent, bench);
      f->desk.dialog = hands_window (TITLE);
      const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
      g_autofree char *home = g_path_get_basename (documents != NULL ? documents : g_get_home_dir ());
      g_autofree char *there = g_strdup_printf ("Folder: %s. Choose another", home);
      hands_find (f->desk.dialog, GTK_TYPE_BUTTON, there);
      gtk_window_destroy (f->desk.dialog);
    }
  hands_settle ();
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/handout-dialog/" #test, Fixture, NULL, set_up, test, tear_down)
  ADD (only_what_is_chosen_is_written);
  ADD (with_nothing_chosen_there_is_nothing_to_save);
  ADD (what_cannot_be_written_is_told);
  ADD (what_is_there_is_not_replaced_without_a_question);
  ADD (the_choice_follows_the_plan);
  ADD (stopped_it_tells_what_was_saved);
  ADD (closed_while_it_is_written);
  ADD (another_folder_is_chosen);
  ADD (without_a_file_it_begins_where_one_was_last);
  return g_test_run ();
}
