/* Days at the window in minutes: motifs are moved, arranged, undone and redone, the cloth is looked at from near and far and in stages, sections are folded, every dialog
 * is opened and closed, hoopings are walked through at the machine, and the scene is saved and opened, over and over, and all of it is drawn. Memory and the time of a step
 * are told for each tenth of the way; it ends with 1 when memory still grows or steps get slower.
 *
 * on-desk.py soak-window [STEPS [SEED]]   (2,000 steps; only memory is judged below 2,000) */
#include "window-fixture.h"

#include <stdlib.h>

#include "../workbench/bench-fixture.h"
#include "../workbench/tenths.h"
#include "workbench/appearance.h"
#include "workbench/section.h"

#define DIALOG_EVERY 5 /* steps */
#define SAVE_EVERY 20
#define MACHINE_EVERY 25
#define REOPEN_EVERY 100
#define LEAST_TIMED 2000

static const char *const commands[]
    = { "undo",       "undo",           "redo",         "bring-forward", "send-back",
        "mirror",     "duplicate",      "select-all",   "zoom-in",       "zoom-out",
        "zoom-fit",   "zoom-true",      "next-hooping", "next-hooping",  "previous-hooping",
        "next-stage", "previous-stage", "step-back" };
static const char *const dialogs[]
    = { "about",          "help",     "show-help-overlay", "edit-cloth",   "edit-hoops",
        "mark-list",      "print",    "threads-at-hand",   "day-log",      "new-scene",
        "parts",          "supplies", "take-along",        "find-command", "add-motif",
        "earlier-states", "save-as" };

static guint
chance (GRand *rand, guint n)
{
  return (guint)g_rand_int_range (rand, 0, (gint)n);
}

static void
select_one (Room *room, GRand *rand)
{
  GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (room->bench));
  g_autoptr (HwSceneMotif) motif = NULL;

  if (room_n_motifs (room) == 0)
    return;
  motif = g_list_model_get_item (motifs, chance (rand, room_n_motifs (room)));
  hw_bench_select_only (room->bench, hw_scene_motif_get_record (motif)->id);
}

/* The scene keeps its size, so that what grows is not the scene. */
static void
keep_size (Room *room, guint most)
{
  while (room_n_motifs (room) > most)
    {
      GListModel *motifs = hw_scene_get_motifs (hw_bench_get_scene (room->bench));
      g_autoptr (HwSceneMotif) last = g_list_model_get_item (motifs, room_n_motifs (room) - 1);

      hw_bench_select_only (room->bench, hw_scene_motif_get_record (last)->id);
      room_do (room, "delete", NULL);
    }
}

static void
fold_one (GtkWidget *root, GRand *rand)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (HW_IS_SECTION (child) && chance (rand, 4) == 0)
      hw_section_set_open (HW_SECTION (child), !hw_section_get_open (HW_SECTION (child)));
    else
      fold_one (child, rand);
}

/* Whatever stands beside the window goes, as Escape sends it. */
static void
close_dialogs (Room *room)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows);)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (window == GTK_WINDOW (room->window) || !gtk_widget_get_visible (GTK_WIDGET (window)))
        i++;
      else
        {
          room_until (gtk_widget_get_mapped (GTK_WIDGET (window)));
          hands_forget_tooltip ();
          gtk_window_close (window);
          room_until (!gtk_widget_get_visible (GTK_WIDGET (window)));
          i = 0;
        }
    }
}

static void
open_dialog (Room *room, const char *action)
{
  room_do (room, action, NULL);
  hands_frame (GTK_WIDGET (room->window));
  close_dialogs (room);
}

/* What is made once and kept, and the steps to undo, which are kept up to a number. */
static void
warm_up (Room *room, GRand *rand)
{
  for (guint i = 0; i < 3 * G_N_ELEMENTS (dialogs); i++)
    open_dialog (room, dialogs[i / 3]);
  select_one (room, rand);
  for (guint i = 0; i < HW_MOST_UNDO_STEPS; i++)
    {
      hw_bench_nudge (room->bench, i % 2 == 0 ? 1 : -1, 0);
      hands_settle ();
    }
}

/* Walks through a hooping; on the first part of the way it is begun, which is written into the log for good and undone with the next scene that is opened. */
static void
go_to_the_machine (Room *room, gboolean begins)
{
  wait_for_plan (room->bench);
  if (hw_bench_get_plan (room->bench)->n_hoopings == 0)
    return;
  hw_bench_choose_hooping (room->bench, 0);
  hands_settle ();
  if (!begins || !room_can (room, "begin-hooping"))
    return;
  room_do (room, "begin-hooping", NULL);
  for (HwWorkStep work = HW_WORK_MARK; work <= HW_WORK_READ; work++)
    {
      hw_bench_go_to_step (room->bench, work);
      hands_frame (GTK_WIDGET (room->window));
    }
  hw_bench_lay_aside (room->bench);
  if (hw_window_is_at_machine (room->window))
    room_do (room, "at-machine", NULL);
  hands_settle ();
}

static void
step (Room *room, GRand *rand)
{
  switch (chance (rand, 5))
    {
    case 0:
      select_one (room, rand);
      break;
    case 1:
      hw_bench_nudge (room->bench, g_rand_double_range (rand, -2, 2), g_rand_double_range (rand, -2, 2));
      break;
    case 2:
      fold_one (GTK_WIDGET (room->window), rand);
      break;
    default:
      room_do (room, commands[chance (rand, G_N_ELEMENTS (commands))], NULL);
      break;
    }
  hands_frame (GTK_WIDGET (room->window));
}

static void
save_or_open (Room *room, const char *path, guint done)
{
  if (done % SAVE_EVERY == 0)
    g_assert_true (hw_window_write (room->window, path, FALSE, NULL));
  if (done % REOPEN_EVERY == 0)
    {
      g_autoptr (GError) error = NULL;

      hw_bench_open (room->bench, path, &error);
      g_assert_no_error (error);
      hands_settle ();
    }
}

static void
run (Room *room, guint steps, GRand *rand, Tenths *told)
{
  g_autofree char *path = room_path (room, "soak.hoopscene");
  guint done = 0, most = room_n_motifs (room);

  for (guint tenth = 0; tenth < TENTHS; tenth++)
    {
      double began = tenths_cpu_ms ();

      for (guint i = 0; i < steps / TENTHS; i++)
        {
          step (room, rand);
          keep_size (room, most);
          done++;
          if (done % DIALOG_EVERY == 0)
            open_dialog (room, dialogs[chance (rand, G_N_ELEMENTS (dialogs))]);
          if (done % MACHINE_EVERY == 0)
            go_to_the_machine (room, tenth < 3);
          save_or_open (room, path, done);
        }
      wait_for_plan (room->bench);
      hands_settle ();
      tenths_note (told, tenth, began, steps / TENTHS);
    }
}

int
main (int argc, char **argv)
{
  guint steps = argc > 1 ? (guint)atoi (argv[1]) : 2000;
  g_autoptr (GRand) rand = g_rand_new_with_seed (argc > 2 ? (guint32)atoi (argv[2]) : 20261128);
  char *plain[] = { argv[0], NULL };
  char **words = plain;
  int n = 1;
  Room room = { 0 };
  Tenths told;
  gboolean good;

  if (!hands_ready (&n, &words))
    return 0;
  g_assert_cmpuint (steps, >=, TENTHS);
  hw_appearance_add_style ();
  room_set_up (&room, NULL);
  g_print ("# %u steps\n", steps);
  warm_up (&room, rand);
  run (&room, steps, rand, &told);
  good = tenths_judge (&told, steps >= LEAST_TIMED);
  room_tear_down (&room, NULL);
  return good ? 0 : 1;
}
