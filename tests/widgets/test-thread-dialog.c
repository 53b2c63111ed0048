/* Threads at hand: those that come nearest are offered, one can take another's place, and what must be bought is told. */
#include <glib/gstdio.h>
#include <math.h>

#include "../workbench/bench-fixture.h"
#include "dialog-fixture.h"
#include "formats/palette-csv.h"
#include "window-fixture.h"
#include "workbench/palette-dialog.h"

#define TITLE "Threads at hand"

static void
take (Desk *desk, guint n, const char *const *names, const HwLab *colours, const double *metres)
{
  g_autoptr (GPtrArray) palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (palette, hw_palette_thread_new (names[i], i == 0 ? "17" : NULL, colours[i], metres[i]));
  hw_bench_set_palette (desk->bench, palette);
  hands_settle ();
}

static const char *const names[] = { "leaf", "poppy", "slate" };
static const HwLab colours[] = { { 32, -12, 18 }, { 48, 60, 42 }, { 40, 0, -4 } };
static const double metres[] = { 900, NAN, 2 };

static const char *
thread_of (Desk *desk, const char *id)
{
  return hw_scene_motif_get_record (hw_scene_find_motif (hw_bench_get_scene (desk->bench), id))
      ->threads[0]
      .name;
}

static void
without_a_list_it_says_how_to_get_one (Desk *desk, gconstpointer data)
{
  g_autofree char *said = NULL, *bought = NULL;

  desk_open (desk, hw_palette_dialog_show, TITLE);
  said = desk_sentence (desk, "Load your list of threads: a CSV file");
  g_assert_nonnull (said);
  desk_says (desk, "nothing at hand yet");
  desk_says (desk, "To be bought");
}

/* The nearest takes the place of all blocks of that thread, and can be given back in the dialog. */
static void
a_thread_at_hand_takes_anothers_place (Desk *desk, gconstpointer data)
{
  GtkWidget *undo;

  desk_open (desk, hw_palette_dialog_show, TITLE);
  undo = hands_find (desk->dialog, GTK_TYPE_BUTTON, "Undo");
  take (desk, 3, names, colours, metres);
  desk_says (desk, "3 threads at hand");
  g_assert_false (gtk_widget_is_sensitive (undo)); /* nothing was done here yet */
  hands_click (desk->dialog, "Use leaf · 17 for moss");
  g_assert_cmpstr (thread_of (desk, "m1"), ==, "leaf");
  g_assert_cmpstr (thread_of (desk, "m3"), ==, "leaf");
  desk_says (desk, "in use");
  desk_says (desk, "Nothing must be bought");
  hands_click (desk->dialog, "Undo");
  g_assert_cmpstr (thread_of (desk, "m1"), ==, "moss");
  g_assert_false (gtk_widget_is_sensitive (undo));
}

/* Of slate two metres are left, which is not enough. */
static void
what_is_not_enough_is_to_be_bought (Desk *desk, gconstpointer data)
{
  desk_open (desk, hw_palette_dialog_show, TITLE);
  take (desk, 3, names, colours, metres);
  hands_click (desk->dialog, "Use slate for moss");
  desk_says (desk, "To be bought");
  hw_bench_undo (desk->bench);
  hands_settle ();
  hands_click (desk->dialog, "Use poppy for moss"); /* how much of it is left is not known */
  desk_says (desk, "Nothing must be bought");
}

/* Of what is stitched no more is needed, and of stitches that are not counted nobody knows how much. */
static void
what_is_needed_is_told_or_not_known (Desk *desk, gconstpointer data)
{
  HwThreadBlock uncounted = { .name = (char *)"sloe", .colour = { 0.15, 0.1, 0.4 }, .stitches = 0 };
  HwMotif *motif = orchard_motif (NULL, "Sloe", 300, 250);
  g_autoptr (GPtrArray) motifs = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_motif_unref);

  hw_motif_set_threads (motif, &uncounted, 1);
  g_ptr_array_add (motifs, motif);
  g_assert_true (hw_bench_add_motifs (desk->bench, motifs, NULL));
  wait_for_plan (desk->bench);
  desk_open (desk, hw_palette_dialog_show, TITLE);
  hands_says (desk->dialog, "in 3 motifs · takes about ");
  desk_says (desk, "in 1 motif");
  desk_says (desk, "how much is not known: its stitches are not counted");
  while (hw_scene_get_frozen (hw_bench_get_scene (desk->bench))->len
         < hw_bench_get_plan (desk->bench)->n_hoopings)
    {
      g_assert_true (
          hw_bench_mark_stitched (desk->bench, hw_scene_get_frozen (hw_bench_get_scene (desk->bench))->len));
      wait_for_plan (desk->bench);
    }
  hands_settle ();
  desk_says (desk, "in 3 motifs · stitched already");
}

/* While something is in the hand a press of a button does not change threads under it. */
static void
within_an_edit_nothing_is_exchanged (Desk *desk, gconstpointer data)
{
  desk_open (desk, hw_palette_dialog_show, TITLE);
  take (desk, 3, names, colours, metres);
  hw_bench_begin_edit (desk->bench, "move Pear", FALSE);
  hands_click (desk->dialog, "Use leaf · 17 for moss");
  g_assert_cmpstr (thread_of (desk, "m1"), ==, "moss");
  hw_bench_cancel_edit (desk->bench);
}

static void
a_scene_without_threads_says_so (Desk *desk, gconstpointer data)
{
  desk_open (desk, hw_palette_dialog_show, TITLE);
  hw_bench_select_all (desk->bench);
  hw_bench_delete (desk->bench);
  hands_settle ();
  desk_says (desk, "The scene has no threads yet.");
  desk_says (desk, "Nothing must be bought");
  hands_click (desk->dialog, "Close");
  g_assert_true (desk_is_closed (desk, TITLE));
}

/* Loads the list at path; NULL: goes back. */
static void
load (Desk *desk, const char *path)
{
  hands_click (desk->dialog, "Load a list…");
  room_pick (path);
}

/* Loading a list is one step, the same list again is none; what is no list is told, and the threads stay. */
static void
a_list_is_loaded (Desk *desk, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("hoopwright-XXXXXX", NULL);
  g_autofree char *good = g_build_filename (folder, "threads.csv", NULL);
  g_autofree char *bad = g_build_filename (folder, "void.csv", NULL);
  g_autoptr (GPtrArray) palette = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_palette_thread_unref);
  GPtrArray *kept;

  for (guint i = 0; i < 2; i++)
    g_ptr_array_add (palette, hw_palette_thread_new (names[i], NULL, colours[i], 100));
  g_autofree char *text = hw_palette_csv_write (palette);
  g_assert_true (g_file_set_contents (good, text, -1, NULL));
  g_assert_true (g_file_set_contents (bad, "", -1, NULL));
  desk_open (desk, hw_palette_dialog_show, TITLE);
  load (desk, NULL);
  kept = hw_scene_get_palette (hw_bench_get_scene (desk->bench));
  g_assert_cmpuint (kept->len, ==, 0);
  load (desk, good);
  kept = hw_scene_get_palette (hw_bench_get_scene (desk->bench));
  g_assert_cmpuint (kept->len, ==, 2);
  load (desk, bad);
  g_autofree char *told = desk_sentence (desk, "void.csv");
  g_assert_nonnull (told);
  load (desk, good);
  kept = hw_scene_get_palette (hw_bench_get_scene (desk->bench));
  g_assert_cmpuint (kept->len, ==, 2);
  /* One step was made: one undo takes it back. */
  hands_click (desk->dialog, "Undo");
  kept = hw_scene_get_palette (hw_bench_get_scene (desk->bench));
  g_assert_cmpuint (kept->len, ==, 0);
  g_assert_false (gtk_widget_is_sensitive (hands_find (desk->dialog, GTK_TYPE_BUTTON, "Undo")));
  g_remove (good);
  g_remove (bad);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  if (!hands_ready (&argc, &argv))
    return 0;
#define ADD(test) g_test_add ("/thread-dialog/" #test, Desk, NULL, desk_set_up, test, desk_tear_down)
  ADD (without_a_list_it_says_how_to_get_one);
  ADD (a_thread_at_hand_takes_anothers_place);
  ADD (what_is_not_enough_is_to_be_bought);
  ADD (what_is_needed_is_told_or_not_known);
  ADD (within_an_edit_nothing_is_exchanged);
  ADD (a_scene_without_threads_says_so);
  ADD (a_list_is_loaded);
  return g_test_run ();
}
